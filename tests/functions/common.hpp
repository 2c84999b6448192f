// What the tests of the functions share: which argument a call refuses, and random inputs that are the same each time.
#pragma once

#include <random>
#include <string>

#include "reference.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::tests {

/// The name of the argument that `function` refuses, "" where it refuses none.
template <class Function, class... Arguments>
std::string refused(Function function, const Arguments&... arguments) {
    try {
        static_cast<void>(function(arguments...));
    } catch (const bad_argument& error) {
        return error.argument();
    }
    return "";
}

/// The whole sentence of the refusal, "" where there is none.
template <class Function, class... Arguments>
std::string reason(Function function, const Arguments&... arguments) {
    try {
        static_cast<void>(function(arguments...));
    } catch (const bad_argument& error) {
        return error.what();
    }
    return "";
}

/// A failure must come again on the next run.
inline std::mt19937_64 draws(std::uint64_t seed) { return std::mt19937_64(seed); }

}  // namespace slipbark::tests

// Which argument a call refuses.
#pragma once

#include <string>

#include "outcome.hpp"
#include "reference.hpp"

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

}  // namespace slipbark::tests

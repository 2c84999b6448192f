// What people put where something else belongs.
#pragma once

#include <vector>

#include "catalogue/arguments.hpp"

namespace slipbark::tests {

struct Misuse {
    const char* name;
    catalogue::Value value;
};

const std::vector<Misuse>& misuses();

}  // namespace slipbark::tests

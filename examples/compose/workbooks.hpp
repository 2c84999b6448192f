// The workbooks, one source file each.
#pragma once

#include <string>

namespace slipbark::compose {

std::string rework_plan();

}  // namespace slipbark::compose

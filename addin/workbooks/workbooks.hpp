// The workbooks, one source file each.
#pragma once

#include <string>

namespace slipbark::compose {

std::string inspection_log();
std::string rework_plan();
std::string spring_heat();
std::string rework_or_replant();
std::string worked_examples();

}  // namespace slipbark::compose

// One formula over many cells.
#pragma once

#include <string>

namespace slipbark::compose {

/// The formula as it is after a user drags it `columns` to the right and `rows` down: addresses without a $ move along.
///
/// given      formula   as typed, with or without its "="
/// throws     std::logic_error where an address would leave the sheet
///
///     shifted("=B6+C$5", 0, 2) gives "=B8+C$5"
std::string shifted(const std::string& formula, int columns, int rows);

}  // namespace slipbark::compose

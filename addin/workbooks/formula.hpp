// Formulas as users type them, turned into what the file format stores.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace slipbark::compose {

/// A formula (with or without its "=") in the file format's notation: addresses in brackets, functions of the extension
/// with their service's name. `named` gives what is stored for the name of a range, and throws where there is none.
std::string stored_formula(std::string_view typed, const std::function<std::string(const std::string&)>& named);

/// Whether a text would be read as a cell's address ("row1", "tax2027"), so that it cannot name a range.
bool looks_like_address(std::string_view text);

}  // namespace slipbark::compose

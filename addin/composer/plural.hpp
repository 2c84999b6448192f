// Which form of a text goes with a count, by gettext's rule of a language, as a formula of cells.
#pragma once

#include <string>
#include <vector>

namespace slipbark::compose {

/// A formula that gives the form for a count. `count` and the forms are parts of formulas, the forms in the order of
/// the rule.
///
/// throws std::logic_error where the rule cannot be read
std::string chosen_by_count(const std::string& rule, const std::string& count, const std::vector<std::string>& forms);

}  // namespace slipbark::compose

// The languages that tests in real Calc try, and what the workbooks say in them.
#pragma once

#include <string>
#include <vector>

namespace slipbark::tests {

/// The tags of the languages that are tried in tests of every language: those of SLIPBARK_TEST_LANGUAGES ("fr,it"), or
/// else English and Spanish. The others have a ring each.
std::vector<std::string> tested_languages();

/// All languages shipped.
std::vector<std::string> all_languages();

/// The words of the workbooks in a built-in language for English ones.
std::string in_workbooks(const std::string& language, const std::string& english);

}  // namespace slipbark::tests

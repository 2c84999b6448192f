// The languages that tests in real Calc try, and what the workbooks say in them.
#pragma once

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

#include "catalogue/language.hpp"

namespace slipbark::tests {

/// The tags of the languages that are tried in tests of every language: those of SLIPBARK_TEST_LANGUAGES ("fr,it"), or
/// else English and Spanish. The others have a ring each.
std::vector<std::string> tested_languages();

/// The tags of the languages whose forms, pages and copies are tried one by one: those of SLIPBARK_TEST_LANGUAGES, or
/// else English. A ring for each language tries the others.
std::vector<std::string> languages_one_by_one();

/// The tags of the languages whose offices are tried: those of SLIPBARK_TEST_LANGUAGES, or else Spanish.
std::vector<std::string> languages_of_offices();

/// Those offices among `all`, with a member `language`, whose language is one of them.
template <class Country>
std::vector<Country> offices_to_try(const std::vector<Country>& all) {
    const std::vector<std::string> tags = languages_of_offices();
    std::vector<Country> tried;
    std::copy_if(all.begin(), all.end(), std::back_inserter(tried), [&](const Country& one) {
        return std::find(tags.begin(), tags.end(), catalogue::language_for(one.language).tag()) != tags.end();
    });
    return tried;
}

/// The words of the workbooks in a built-in language for English ones.
std::string in_workbooks(const std::string& language, const std::string& english);

}  // namespace slipbark::tests

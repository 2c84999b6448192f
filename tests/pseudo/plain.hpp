// What of a text in the language of nobody is still plain, and must not be.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

#include "catalogue/entry.hpp"

namespace slipbark::tests {

/// Whether no letter of `text` is plain but in what is the same in every language: texts in quotes, numbers, the
/// functions' names, the names of the entry's arguments (nullptr: of all entries), and `known`.
testing::AssertionResult is_accented(std::string text, const catalogue::FunctionEntry* entry,
                                     const std::vector<std::string_view>& known = {});

}  // namespace slipbark::tests

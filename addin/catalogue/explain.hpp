// A call put into words: what the function does, what each argument was, and why it failed if it did.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/entry.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/language.hpp"

namespace slipbark::catalogue {

/// One argument as it was found: its text in the formula, and its value where that could be read.
struct GivenArgument {
    std::string text;
    std::optional<Value> value;
    std::string error_in;  ///< the cells of it that hold an error; mostly empty
};

/// The explanation, one line a fact. `shows` is what the cell shows.
std::string explain(const FunctionEntry& entry, const std::vector<GivenArgument>& given, std::string_view shows,
                    Day null_date, const Language& language = {});

}  // namespace slipbark::catalogue

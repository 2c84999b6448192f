// A call put into words: what the function does, what each argument was, and why it failed if it did.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/entry.hpp"

namespace slipbark::catalogue {

/// The first call of one of our functions inside a formula, as it is stored (SLIPBARK.REWORK.X) or typed (REWORK.X).
struct FoundCall {
    const Entry* entry = nullptr;
    std::vector<std::string> arguments;  ///< their texts, blanks around cut; an omitted one is empty
};

/// nullopt where the formula calls none of our functions.
std::optional<FoundCall> find_call(std::string_view formula);

/// One argument as it was found: its text in the formula, and its value where that could be read.
struct GivenArgument {
    std::string text;
    std::optional<Value> value;
    std::string trouble;  ///< what is wrong before it even reaches the function ("holds #DIV/0!"); mostly empty
};

/// The literal in an argument's text: a number, a "text", or nothing at all. nullopt for anything else.
std::optional<Value> literal(std::string_view text);

/// The explanation, one line a fact. `shows` is what the cell shows.
std::string explain(const Entry& entry, const std::vector<GivenArgument>& given, std::string_view shows, Day null_date);

}  // namespace slipbark::catalogue

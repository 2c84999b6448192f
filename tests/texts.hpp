// What tests read of texts: whole files, and patterns in them.
//
// The patterns are those of ECMAScript, as std::regex has them. It stands in one source only, since each source that
// names it takes seconds longer to compile.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace slipbark::tests {

/// All bytes of a file; throws std::runtime_error where it cannot be read.
std::string content(const std::filesystem::path& path);

/// Whether the whole text is as the pattern says.
bool fits(const std::string& text, const std::string& pattern);

/// Each place of the text where the pattern fits, in order: all of it, then what its groups took (blank where none
/// did).
std::vector<std::vector<std::string>> matches(const std::string& text, const std::string& pattern);

/// The text with `with` for each of those places; "$1" in it stands for what the first group took.
std::string replaced(const std::string& text, const std::string& pattern, const std::string& with);

/// A text as a test's name takes it: rework_plan for "rework-plan".
std::string as_id(std::string_view text);

}  // namespace slipbark::tests

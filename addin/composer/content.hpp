// What the fields of a sheet's text stand for.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "composer/cells.hpp"

namespace slipbark::compose {

/// A number as 12, -0.5; nullopt for any other text.
std::optional<double> read_number(std::string_view text);

/// A day as 2027-09-20; nullopt for any other text, a 30 February among them.
std::optional<Date> read_date(std::string_view text);

/// A cell's content: a number, a day, a formula or a text; where the format is `text`, a formula or a text.
Content read_content(const std::string& text, Format format);

/// "a | b | c" in its parts, blanks around cut. One part where there is no bar with blanks around it.
std::vector<std::string> bar_list(const std::string& text);

/// A style by its word: input, kept, check ...; nullopt where there is none of that name.
std::optional<Style> read_style(std::string_view word);

}  // namespace slipbark::compose

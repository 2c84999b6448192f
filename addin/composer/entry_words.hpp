// What may be entered, as a sheet's text says it: "whole 1 10000 trees".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "composer/sheet.hpp"

namespace slipbark::compose {

/// The validation of a cell's entry, in the words of catalogue/entry_kind.hpp and two of the composer's own:
///
///     whole LOW HIGH UNIT         a whole number; the unit, in words, goes to the line's end
///     number LOW HIGH UNIT
///     number LOW HIGH UNIT or LOW HIGH UNIT     metric or US
///         an end is a number, the name of a range (a column: its cell of the same line) or a cell of the same line,
///         $F6
///     share LOW HIGH              a fraction, shown and typed as per cent
///     date                        from 2000 to 2099
///     date FROM TO                as 2027-09-20
///     one of WORD | WORD ...
///     listed AREA                 one of those in an area of a sheet
///     text WHAT                   a text of at most 80 letters
///
/// each with " or blank" behind it where blank is fine.
///
/// given      words
///            help     said behind the entry's own help; "HELP | REFUSAL" takes the place of both, which `listed` needs
///            end_at   the end that a name or an address stands for; nullopt where it is none
/// throws     std::logic_error which says what was wrong
Validation read_entry(std::string_view words, const std::string& help,
                      const std::function<std::optional<End>(const std::string&)>& end_at);

/// The same entry as UNFIT takes its kind: {"whole";1;20;"grafts"}. Nothing for one whose fit a formula of its own must
/// judge: a choice of words, which other languages have in theirs, what is listed in an area, two ranges, and ends that
/// are names or cells.
std::optional<std::string> kind_of(std::string_view words);

}  // namespace slipbark::compose

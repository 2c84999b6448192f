// What may stand in a cell that users fill in. The one place that knows: the composer reads kinds from the column
// `entry` of a workbook's text and makes validations, helps and refusals of them, and UNFIT judges what was typed or
// pasted.
//
//   whole 1 10000 trees        number lows 200 degrees      share 0 1
//   date 2000-01-01 2099-12-31 one of yes | no              text the block's name
//
// and each of them followed by `or blank`. An end that is left out or "-" limits nothing; one that is no number is a
// name of cells, or the label of another entry of the same line (in quotes where it has blanks).
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "catalogue/language.hpp"
#include "slipbark/values.hpp"

namespace slipbark::catalogue {

/// The low or the high end of what fits: none, a number or a day's serial number, a day, or a name or label.
using EntryEnd = std::variant<std::monostate, double, Day, std::string>;

struct EntryKind {
    /// `any`: whatever is typed fits.
    enum class Of { any, whole, number, share, date, choice, text };

    Of of = Of::any;
    EntryEnd low = {};
    EntryEnd high = {};
    std::string what = {};  ///< of numbers the unit, of a text what it is: "the block's name"
    std::vector<std::string> choices = {};
    bool or_blank = false;

    bool operator==(const EntryKind&) const = default;
};

/// A kind from its words, as above.
///
/// throws  bad_argument called "entry"
EntryKind read_entry(std::string_view words);

/// A kind from cells, as UNFIT takes it: the word, then of numbers and dates the low end, the high end and the unit, of
/// a choice its words with " | " between them, of a text what it is; "or blank" may follow. Blank cells limit nothing.
/// No cell or none that is filled: any.
///
/// throws  bad_argument called `argument`
EntryKind entry_from_cells(std::string_view argument, std::span<const Cell> cells);

/// The same the other way: what UNFIT takes. Days become serial numbers.
std::vector<Cell> entry_as_cells(const EntryKind& kind, Day null_date);

/// What would be right, as a phrase that follows "enter": "a whole number from 1 to 10,000 (trees)". Ends are numbers
/// here, serial numbers or days; an end that is a name or a label stands as it is.
std::string right_entry(const EntryKind& kind, const Language& language, Day null_date);

}  // namespace slipbark::catalogue

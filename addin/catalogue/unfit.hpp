// UNFIT: does what stands in cells fit its kind?
#pragma once

#include <string>

#include "catalogue/arguments.hpp"
#include "catalogue/language.hpp"

namespace slipbark::catalogue {

/// The first entry of a line that does not fit its kind, as a sentence that says what would be right; "" where all fit.
///
/// label   what each entry is called, in the order of `value`; a blank one is called "This entry"
/// value   the entries: one cell, or a row or column of them. Blank is blank, and not 0; a cell with an error does not
///         fit. A line of several that are all blank fits: it is not used.
/// kind    one kind to a row, or one for all: the word, low end, high end, unit, "or blank" (see entry_kind.hpp). An
///         end may be the label of another entry of the line; where that one holds no number, it limits nothing.
/// throws  bad_argument where label, value and kind do not go together, or a kind cannot be read
///
///     unfit("Trees", 0, {"whole"; 1; 10000; "trees"}) is
///     "Trees was 0: enter a whole number from 1 to 10,000 (trees)."
std::string unfit_in(const Language& language, const SheetCells& label, const SheetCells& value, const Table& kind);

/// The same in the office's language.
std::string unfit(const SheetCells& label, const SheetCells& value, const Table& kind);

}  // namespace slipbark::catalogue

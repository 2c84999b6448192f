// A complete workbook in another language.
#pragma once

#include "composer/sheet.hpp"
#include "composer/text_collector.hpp"

namespace slipbark::compose {

/// Says every text of the workbook anew: cells, what formulas say, validations, charts, titles of sheets and of the
/// workbook. Names of cells, of functions and of arguments stay.
///
/// In formulas a chain `"Order "&sticks&" sticks"` is one text, "Order {1} sticks". Keywords of arguments stay English
/// where they stand in the call. Where a cell offers them as choices, the cell shows them translated, and the call gets
/// the keyword back by a look-up; so does a table that is built in get its words.
void translate(Workbook& book, TextCollector& texts);

}  // namespace slipbark::compose

// What the formulas of an open workbook refer to.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <string>
#include <vector>

#include "component/convert.hpp"

namespace slipbark::addin {

/// The cells that a part of a formula refers to.
struct Referred {
    css::uno::Reference<css::table::XCellRange> cells;
    bool as_range = false;  ///< written A1:A1, even if it is one cell
};

/// The sheet that a cell or a range stands on.
css::uno::Reference<css::table::XCellRange> sheet_of(const css::uno::Reference<css::uno::XInterface>& cells);

/// Whole columns are cut to what the sheet uses, which the add-in call itself is not spared.
css::uno::Reference<css::table::XCellRange> used_part(const css::uno::Reference<css::table::XCellRange>& range);

/// The cells that a text refers to in a formula on `sheet`: an address on this or another sheet, or a name. None for
/// anything else.
Referred referred(const css::uno::Reference<css::frame::XModel>& model,
                  css::uno::Reference<css::table::XCellRange> sheet, const std::string& text);

/// The way from a cell that shows an error to the one where it arises: each cell takes it from the next. Only the cell
/// itself where it arises there; where cells go round in a ring it ends before it would come back.
std::vector<css::uno::Reference<css::table::XCell>> way_to_the_error(
    const css::uno::Reference<css::frame::XModel>& model, const css::uno::Reference<css::table::XCell>& from);

}  // namespace slipbark::addin

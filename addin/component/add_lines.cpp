// "Add lines": a form of many lines starts short and grows when it is asked to.
//
// What grows is the range called log_lines, or the day-book of a plan, daybook_lines, with entries and formulas: rows
// go in above its last line, so that names, formats, conditions and the printed area grow with it, and the formulas are
// filled down. The cursor goes to the first free line of a day-book, which ends at the lines that the plan's workings
// have room for.

#include <algorithm>
#include <com/sun/star/sheet/FillDirection.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellSeries.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

namespace {

constexpr sal_Int32 fewest = 100;
constexpr sal_Int32 most = 5000;

/// Fills the formulas of one line down over the `count` lines below it. Entries stay blank.
void fill_down(const Reference<css::sheet::XSpreadsheet>& sheet, const css::table::CellRangeAddress& line,
               sal_Int32 count) {
    for (sal_Int32 column = line.StartColumn; column <= line.EndColumn; ++column) {
        const auto first = sheet->getCellByPosition(column, line.StartRow);
        if (first->getType() != css::table::CellContentType_FORMULA) continue;
        const Reference<css::sheet::XCellSeries> cells(
            sheet->getCellRangeByPosition(column, line.StartRow, column, line.StartRow + count), UNO_QUERY_THROW);
        cells->fillAuto(css::sheet::FillDirection_TO_BOTTOM, 1);
    }
}

}  // namespace

Done add_lines(const Sent& sent) {
    const auto model = sent.document();
    auto lines = named_cells(model, "log_lines");
    if (!lines.is()) lines = named_cells(model, "daybook_lines");
    if (!lines.is()) {
        return {menu_language().translated(
            translatable("There are no lines to add here: open an inspection log or a rework plan."))};
    }
    const auto area = Reference<css::sheet::XCellRangeAddressable>(lines, UNO_QUERY_THROW)->getRangeAddress();
    const sal_Int32 were = area.EndRow - area.StartRow + 1;
    sal_Int32 added = std::clamp(were, fewest, most);
    // Each line of a day-book has a place where its check is worked out.
    if (const auto checked = named_cells(model, "daybook_omitted"); checked.is()) {
        const auto places = Reference<css::sheet::XCellRangeAddressable>(checked, UNO_QUERY_THROW)->getRangeAddress();
        const sal_Int32 room = places.EndRow - places.StartRow + 1;
        if (were >= room) {
            return {menu_language().translated(
                translatable(
                    "The day-book has all the {1} lines that it has room for. Put several things of a day and row "
                    "on one line, or make a plan for each part of the block."),
                {static_cast<double>(room)})};
        }
        added = std::min(added, room - were);
    }
    const auto sheet = Reference<css::sheet::XSheetCellRange>(lines, UNO_QUERY_THROW)->getSpreadsheet();
    const Reference<css::sheet::XCalculatable> calculation(model, UNO_QUERY_THROW);
    const bool automatic = calculation->isAutomaticCalculationEnabled();
    {
        const UndoStep step(model, add_more_lines.title);
        calculation->enableAutomaticCalculation(false);
        Reference<css::table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getRows()->insertByIndex(area.EndRow, added);
        auto line = area;
        line.StartRow = line.EndRow = area.EndRow - 1;
        fill_down(sheet, line, added);
    }
    calculation->enableAutomaticCalculation(automatic);
    go_to_first_free_line(model);
    return {menu_language().translated(translatable("{1} lines were added; there are {2} now."),
                                       {static_cast<double>(added), static_cast<double>(were + added)})};
}

}  // namespace slipbark::addin

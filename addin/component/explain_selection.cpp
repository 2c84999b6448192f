// "Explain this cell": the selected cell's first REWORK function, its arguments as they arrived, and why it failed.

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>

#include "catalogue/explain.hpp"
#include "component/command.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::spoken;
using css::uno::Reference;
using css::uno::UNO_QUERY;

namespace {

/// Whole columns are cut to what the sheet uses, which the add-in call itself is not spared.
Reference<css::table::XCellRange> used_part(const Reference<css::table::XCellRange>& range) {
    const Reference<css::sheet::XSheetCellRange> in_sheet(range, UNO_QUERY);
    const Reference<css::sheet::XCellRangeAddressable> addressable(range, UNO_QUERY);
    if (!in_sheet.is() || !addressable.is()) return range;
    auto address = addressable->getRangeAddress();
    const auto cursor = in_sheet->getSpreadsheet()->createCursor();
    Reference<css::sheet::XUsedAreaCursor>(cursor, css::uno::UNO_QUERY_THROW)->gotoEndOfUsedArea(false);
    const auto end = Reference<css::sheet::XCellRangeAddressable>(cursor, css::uno::UNO_QUERY_THROW)->getRangeAddress();
    const auto last = std::max(address.StartRow, std::min(address.EndRow, end.EndRow));
    return in_sheet->getSpreadsheet()->getCellRangeByPosition(address.StartColumn, address.StartRow, address.EndColumn,
                                                              last);
}

/// The cells that an argument refers to.
struct Referred {
    Reference<css::table::XCellRange> cells;
    bool as_range = false;  ///< written A1:A1, even if it is one cell
};

/// What stands in a reference, as the host would hand it to the function.
catalogue::GivenArgument read_range(const std::string& text, const Referred& referred) {
    const auto range = used_part(referred.cells);
    const Reference<css::sheet::XCellRangesQuery> query(range, UNO_QUERY);
    if (query.is()) {
        const auto wrong = query->queryFormulaCells(css::sheet::FormulaResult::ERROR);
        if (wrong.is() && Reference<css::container::XIndexAccess>(wrong, css::uno::UNO_QUERY_THROW)->getCount() > 0) {
            return {text, std::nullopt, to_utf8(wrong->getRangeAddressesAsString())};
        }
    }
    const auto data = Reference<css::sheet::XCellRangeData>(range, css::uno::UNO_QUERY_THROW)->getDataArray();
    if (!referred.as_range) {
        const auto cell = range->getCellByPosition(0, 0);
        // A blank cell by itself reaches any argument as 0.
        if (cell->getType() == css::table::CellContentType_EMPTY) return {text, catalogue::Value{0.0}, ""};
        return {text, to_value(data[0][0]), ""};
    }
    return {text, to_value(data), ""};
}

/// The cells an argument's text refers to: an address on this or another sheet, or a name. None for anything else.
Referred referred(const Reference<css::frame::XModel>& model, Reference<css::table::XCellRange> sheet,
                  const std::string& text) {
    if (const auto name = named(model, to_ustring(text)); name.is()) {
        const Reference<css::sheet::XCellRangeReferrer> referrer(name, UNO_QUERY);
        const Reference<css::sheet::XNamedRange> range(name, UNO_QUERY);
        if (!referrer.is() || !range.is()) return {};
        const std::string content = to_utf8(range->getContent());
        const auto stands_for = catalogue::reference(content);
        return {referrer->getReferredCells(), !stands_for || stands_for->last.has_value()};
    }
    const auto found = catalogue::reference(text);
    if (!found) return {};  // a calculation, shown as its text
    std::string address(found->first.address);
    if (found->last) address.append(":").append(found->last->address);
    try {
        if (!found->first.sheet.empty()) {
            const Reference<css::sheet::XSpreadsheetDocument> document(model, css::uno::UNO_QUERY_THROW);
            document->getSheets()->getByName(to_ustring(catalogue::unquoted(found->first.sheet))) >>= sheet;
        }
        return {sheet->getCellRangeByName(to_ustring(address)), found->last.has_value()};
    } catch (const css::uno::Exception&) {
        return {};  // no such sheet, or past its end
    }
}

}  // namespace

Done explain_selection(const Sent& sent) {
    const auto model = sent.document();
    const Reference<css::table::XCellRange> selection(model->getCurrentSelection(), UNO_QUERY);
    if (!selection.is())
        return {spoken().translated(translatable("Select a single cell with a REWORK function in it."))};
    const auto cell = selection->getCellByPosition(0, 0);
    const auto call = catalogue::find_call(to_utf8(cell->getFormula()));
    if (!call) return {spoken().translated(translatable("There is no REWORK function in the selected cell."))};
    const Reference<css::sheet::XSheetCellRange> in_sheet(selection, css::uno::UNO_QUERY_THROW);
    const Reference<css::table::XCellRange> sheet(in_sheet->getSpreadsheet(), css::uno::UNO_QUERY_THROW);
    std::vector<catalogue::GivenArgument> given;
    for (const auto& text : call->arguments) {
        if (const auto value = catalogue::literal(text)) {
            given.push_back({text, value, ""});
        } else if (const Referred cells = referred(model, sheet, text); cells.cells.is()) {
            given.push_back(read_range(text, cells));
        } else {
            given.push_back({text, std::nullopt, ""});
        }
    }
    const Document document(model, css::uno::UNO_QUERY_THROW);
    return {catalogue::explain(*call->entry, given, to_utf8(shown(cell)), null_date_of(document), spoken())};
}

}  // namespace slipbark::addin

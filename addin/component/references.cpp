#include "component/references.hpp"

#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>

#include "catalogue/formula.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using css::uno::Reference;
using css::uno::UNO_QUERY;

Reference<css::table::XCellRange> sheet_of(const Reference<css::uno::XInterface>& cells) {
    const Reference<css::sheet::XSheetCellRange> in_sheet(cells, css::uno::UNO_QUERY_THROW);
    return {in_sheet->getSpreadsheet(), css::uno::UNO_QUERY_THROW};
}

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

namespace {

/// Longer chains of cells are told up to here. Names that stand for formulas are followed as deep.
constexpr std::size_t longest_way = 50;

/// All cells that a formula takes something from, as far as the host names them.
void add_sources(const Reference<css::frame::XModel>& model, const Reference<css::table::XCellRange>& sheet,
                 const std::string& formula, std::size_t depth,
                 std::vector<Reference<css::table::XCellRange>>& sources) {
    if (depth > longest_way) return;
    for (const catalogue::Token& token : catalogue::tokens(formula)) {
        if (token.part != catalogue::Part::reference && token.part != catalogue::Part::name) continue;
        const std::string text(token.text);
        if (const Referred found = referred(model, sheet, text); found.cells.is()) {
            sources.push_back(found.cells);
        } else if (const Reference<css::sheet::XNamedRange> name(named(model, to_ustring(text)), UNO_QUERY);
                   name.is()) {
            add_sources(model, sheet, to_utf8(name->getContent()), depth + 1, sources);
        }
    }
}

/// The first cell of a range that shows this error, or any where `error` is 0; none where there is none.
Reference<css::table::XCell> first_error(const Reference<css::table::XCellRange>& range, sal_Int32 error) {
    const Reference<css::sheet::XCellRangesQuery> query(used_part(range), UNO_QUERY);
    if (!query.is()) return {};
    const auto wrong = query->queryFormulaCells(css::sheet::FormulaResult::ERROR);
    Reference<css::table::XCell> found;
    each_cell(wrong, [&](const auto& cell) {
        if (!found.is() && (error == 0 || cell->getError() == error)) found = cell;
    });
    return found;
}

/// The cell that a cell takes its error from; none where it arises in the cell itself.
Reference<css::table::XCell> taken_from(const Reference<css::frame::XModel>& model,
                                        const Reference<css::table::XCell>& cell) {
    constexpr sal_Int32 illegal_parameter = 504;  // what the host makes of a range with an error in it
    const std::string formula = to_utf8(cell->getFormula());
    std::vector<Reference<css::table::XCellRange>> sources;
    add_sources(model, sheet_of(cell), formula, 0, sources);
    const sal_Int32 error = cell->getError();
    for (const auto& source : sources) {
        if (const auto found = first_error(source, error); found.is()) return found;
    }
    // Another error than this one can only have come in through a call that gives its own for it.
    if (error != illegal_parameter && !catalogue::find_call(formula)) return {};
    for (const auto& source : sources) {
        if (const auto found = first_error(source, 0); found.is()) return found;
    }
    return {};
}

}  // namespace

std::vector<Reference<css::table::XCell>> way_to_the_error(const Reference<css::frame::XModel>& model,
                                                           const Reference<css::table::XCell>& from) {
    std::vector<Reference<css::table::XCell>> way{from};
    std::vector<std::string> passed{address_of(from)};
    while (way.size() < longest_way) {
        const auto next = taken_from(model, way.back());
        if (!next.is()) break;
        std::string address = address_of(next);
        if (std::ranges::find(passed, address) != passed.end()) break;
        passed.push_back(std::move(address));
        way.push_back(next);
    }
    return way;
}

}  // namespace slipbark::addin

// "Explain this cell": a cell's first REWORK function, its arguments as they arrived, and why it failed. An error that
// comes from elsewhere is followed to the cell where it arises; a Check is told by the cell it stands beside.

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

#include "catalogue/explain.hpp"
#include "component/command.hpp"
#include "component/documents.hpp"
#include "component/references.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;
using css::uno::UNO_QUERY;

namespace {

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

std::optional<catalogue::FoundCall> call_in(const Reference<css::table::XCell>& cell) {
    return catalogue::find_call(to_utf8(cell->getFormula()));
}

std::string explained(const Reference<css::frame::XModel>& model, const Reference<css::table::XCell>& cell,
                      const catalogue::FoundCall& call) {
    const auto sheet = sheet_of(cell);
    std::vector<catalogue::GivenArgument> given;
    for (const auto& text : call.arguments) {
        if (const auto value = catalogue::literal(text)) {
            given.push_back({text, value, ""});
        } else if (const Referred cells = referred(model, sheet, text); cells.cells.is()) {
            given.push_back(read_range(text, cells));
        } else {
            given.push_back({text, std::nullopt, ""});
        }
    }
    const Document document(model, css::uno::UNO_QUERY_THROW);
    return catalogue::explain(*call.entry, given, to_utf8(shown(cell)), null_date_of(document), menu_language());
}

/// What the host means by its codes of errors, as its own help lists them ("Error Codes in LibreOffice Calc").
Text meaning_of(sal_Int32 error) {
    switch (error) {
        case 502:
            return translatable("A function was given a value that it does not accept.");
        case 503:
            return translatable("A calculation has no numeric result, or one that is too large.");
        case 504:
            return translatable(
                "A function was given the wrong kind of value, such as a text for a range, or a range with an error in "
                "it.");
        case 508:
        case 509:
        case 510:
        case 511:
            return translatable("The formula is not complete: a bracket, an operator or a value is missing.");
        case 519:
            return translatable("There is a text where a number is needed, or a function of Calc gave no value.");
        case 522:
            return translatable("The formula refers to itself, directly or by way of other cells.");
        case 523:
            return translatable("A calculation that repeats until it settles did not settle.");
        case 524:
            return translatable("The formula refers to cells or to a sheet that are no longer there.");
        case 525:
            return translatable(
                "Calc does not know a name in the formula: a word that is misspelt, a name that was "
                "deleted, or a function with its extension missing.");
        case 532:
            return translatable("Something is divided by 0, or by a cell that is blank.");
        case 32767:
            return translatable("There is no value: nothing was found, or no answer exists.");
        default:
            return translatable("Calc's help explains this code under \"error codes\".");
    }
}

/// An error that arises in functions of Calc's own.
std::string built_in_error(const Reference<css::table::XCell>& cell) {
    return menu_language().translated(
        translatable("{1} shows {2}: {3} Its formula is {4}"),
        {address_of(cell), to_utf8(shown(cell)), menu_language().translated(meaning_of(cell->getError())),
         to_utf8(cell->getFormula())});
}

/// "Plan.G31 gets its error from Money.C9, which gets it from Crew.C5:"
std::string told(const std::vector<Reference<css::table::XCell>>& way) {
    std::string text = menu_language().translated(translatable("{1} gets its error from {2}"),
                                                  {address_of(way[0]), address_of(way[1])});
    for (std::size_t at = 2; at < way.size(); ++at) {
        text = menu_language().translated(translatable("{1}, which gets it from {2}"), {text, address_of(way[at])});
    }
    return text + ":";
}

/// Whether a Check can stand beside cells of this style.
bool is_checked(const std::string& style) {
    namespace is = workbooks::cell_style;
    return style == is::input || style == is::kept || style == is::suggested || style == is::answer ||
           style == is::total;
}

/// The cell that a Check stands beside: to its left in the row, the nearest with the function whose reason the Check
/// gives; else the nearest that is filled in or answers something. None where there is none.
Reference<css::table::XCell> beside(const Reference<css::table::XCell>& check) {
    const auto sheet = sheet_of(check);
    const auto at = Reference<css::sheet::XCellAddressable>(check, css::uno::UNO_QUERY_THROW)->getCellAddress();
    const auto reason = call_in(check);
    const auto* const subject = reason && reason->entry->method == "why" && !reason->arguments.empty()
                                    ? catalogue::find(catalogue::unquoted(reason->arguments.front()))
                                    : nullptr;
    Reference<css::table::XCell> nearest;
    for (sal_Int32 column = at.Column - 1; column >= 0; --column) {
        const auto cell = sheet->getCellByPosition(column, at.Row);
        if (!is_checked(style_of(cell))) continue;
        const auto call = call_in(cell);
        if (call && call->entry == subject) return cell;
        if (!nearest.is()) nearest = cell;
    }
    return nearest;
}

std::string explain(const Reference<css::frame::XModel>& model, const Reference<css::table::XCell>& cell) {
    const auto call = call_in(cell);
    std::string text = call ? explained(model, cell, *call) : std::string();
    if (cell->getError() != 0) {
        const auto way = way_to_the_error(model, cell);
        if (way.size() > 1) {
            const auto from = call_in(way.back());
            if (!text.empty()) text += "\n\n";
            text += told(way) + "\n" + (from ? explained(model, way.back(), *from) : built_in_error(way.back()));
        } else if (!call) {
            text = built_in_error(cell);
        }
    }
    return text;
}

std::string explain_check(const Reference<css::frame::XModel>& model, const Reference<css::table::XCell>& check) {
    const std::string says = to_utf8(shown(check));
    std::string said = says.empty() ? menu_language().translated(translatable("This Check is blank: nothing is wrong."))
                                    : menu_language().translated(translatable("This Check says: {1}"), {says});
    const auto cell = beside(check);
    if (!cell.is()) return said;
    const std::string text = explain(model, cell);
    if (!text.empty()) {
        return said + "\n" + menu_language().translated(translatable("It is the check for {1}:"), {address_of(cell)}) +
               "\n" + text;
    }
    const std::string holds = to_utf8(shown(cell));
    return said + "\n" +
           (holds.empty() ? menu_language().translated(translatable("It is the check for {1}, which is blank."),
                                                       {address_of(cell)})
                          : menu_language().translated(translatable("It is the check for {1}, which shows {2}."),
                                                       {address_of(cell), holds}));
}

}  // namespace

Done explain_selection(const Sent& sent) {
    const auto model = sent.document();
    const Reference<css::table::XCellRange> selection(model->getCurrentSelection(), UNO_QUERY);
    if (!selection.is()) {
        return {menu_language().translated(translatable("Select a single cell with a REWORK function in it."))};
    }
    const auto cell = selection->getCellByPosition(0, 0);
    std::string text = style_of(cell) == workbooks::cell_style::check && cell->getError() == 0
                           ? explain_check(model, cell)
                           : explain(model, cell);
    if (text.empty())
        text = menu_language().translated(translatable("There is no REWORK function in the selected cell."));
    return {text};
}

}  // namespace slipbark::addin

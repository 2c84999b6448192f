// "Keep this plan": the planned columns of a rework plan stop following it.

#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <ctime>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;

namespace {

/// The planned columns of the rework plan's sheet Actual, whose formulas follow the plan until they are kept.
constexpr std::array planned_columns{"plan_kept_costs", "plan_kept_hours", "plan_kept_packs", "plan_kept_crop",
                                     "plan_kept_price"};
/// A column that plans of earlier versions do not have.
constexpr const char* margin_forgone = "plan_kept_forgone";

}  // namespace

/// Replaces what follows the plan by what it shows today, in one step to undo.
Done keep_the_plan(const Sent& sent) {
    const auto model = sent.document();
    std::vector<Reference<css::table::XCellRange>> columns;
    columns.reserve(std::size(planned_columns));
    for (const char* name : planned_columns) {
        columns.push_back(named_cells(model, rtl::OUString::createFromAscii(name)));
    }
    const auto kept_on = named_cells(model, "kept_on");
    const bool missing = std::any_of(columns.begin(), columns.end(), [](const auto& column) { return !column.is(); });
    if (missing || !kept_on.is()) {
        return {menu_language().translated(
            translatable("There is no plan to keep here: open a rework plan, which has a sheet Actual."))};
    }
    if (const auto forgone = named_cells(model, rtl::OUString::createFromAscii(margin_forgone)); forgone.is()) {
        columns.push_back(forgone);
    }
    const UndoStep step(model, keep_plan.title);
    for (const auto& column : columns) {
        const Reference<css::sheet::XCellRangeData> cells(column, css::uno::UNO_QUERY_THROW);
        cells->setDataArray(cells->getDataArray());
    }
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    const Day today{std::chrono::year{local.tm_year + 1900} / (local.tm_mon + 1) / local.tm_mday};
    const Document document(model, css::uno::UNO_QUERY_THROW);
    kept_on->getCellByPosition(0, 0)->setValue(static_cast<double>((today - null_date_of(document)).count()));
    return {
        menu_language().translated(translatable("The planned columns of sheet Actual now show the plan of today."))};
}

}  // namespace slipbark::addin

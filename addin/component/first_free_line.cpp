// "First free line": the cursor goes to the line of the day-book that is written next.

#include <algorithm>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

std::optional<sal_Int32> go_to_first_free_line(const Reference<css::frame::XModel>& model) {
    const auto dates = named_cells(model, "daybook_date");
    const auto dated = values_of(dates);
    const auto what = values_of(named_cells(model, "daybook_what"));
    std::size_t free = std::min(dated.size(), what.size());
    const auto is_free = [&](std::size_t line) {
        return cell_text(dated[line].at(0)).isEmpty() && cell_text(what[line].at(0)).isEmpty();
    };
    while (free > 0 && is_free(free - 1)) --free;
    if (free == dated.size()) return {};
    const auto line = static_cast<sal_Int32>(free);
    const Reference<css::view::XSelectionSupplier> selection(model->getCurrentController(), UNO_QUERY);
    if (selection.is()) selection->select(css::uno::Any(dates->getCellByPosition(0, line)));
    return Reference<css::sheet::XCellRangeAddressable>(dates, UNO_QUERY_THROW)->getRangeAddress().StartRow + line + 1;
}

Done first_free_line(const Sent& sent) {
    const auto model = sent.document();
    if (!named_cells(model, "daybook_date").is()) {
        return {menu_language().translated(translatable("There is no day-book here: open a rework plan."))};
    }
    const auto line = go_to_first_free_line(model);
    if (!line) return {menu_language().translated(translatable("No free line: Rework > Add lines."))};
    return {.text = menu_language().translated(translatable("First free line: {1}"), {static_cast<double>(*line)}),
            .worth_a_window = false};
}

}  // namespace slipbark::addin

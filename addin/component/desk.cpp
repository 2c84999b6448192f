#include "component/desk.hpp"

#include <algorithm>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FillDateMode.hpp>
#include <com/sun/star/sheet/FillDirection.hpp>
#include <com/sun/star/sheet/FillMode.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellSeries.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/table/XTableRows.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/FolderPicker.hpp>
#include <osl/file.hxx>

#include "catalogue/language.hpp"

namespace slipbark::addin {

using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

const DeskTable desk_blocks{
    {"desk_client",      "desk_file",        "desk_block",    "desk_season",       "desk_old_variety",
     "desk_new_variety", "desk_trees",       "desk_grafts",   "desk_take",         "desk_take_low",
     "desk_take_high",   "desk_take_by_lot", "desk_regrafts", "desk_days",         "desk_tree_cost",
     "desk_payback",     "desk_lowest_cash", "desk_state",    "desk_state_number", "desk_overdue",
     "desk_due",         "desk_sticks",      "desk_order_by", "desk_checks",       "desk_as_of"},
    1};
const DeskTable desk_counts{{"count_file", "count_season", "count_client", "count_block", "count_method", "count_lot",
                             "count_nursery", "count_grafter", "count_trees", "count_grafts", "count_live"},
                            0};
const DeskTable desk_problems{{"problem_file", "problem_reason"}, 0};

namespace {

constexpr sal_Int32 last_column = 1023;

Reference<css::table::XCellRange> column_of(const Reference<css::frame::XModel>& model, const char* name) {
    return named_cells(model, rtl::OUString::createFromAscii(name));
}

css::table::CellRangeAddress area_of(const Reference<css::table::XCellRange>& cells) {
    return Reference<css::sheet::XCellRangeAddressable>(cells, UNO_QUERY_THROW)->getRangeAddress();
}

sal_Int32 rows_of(const Reference<css::table::XCellRange>& cells) {
    const auto area = area_of(cells);
    return area.EndRow - area.StartRow + 1;
}

/// Inserts rows before the table's last one. They look as the row above does, and its formulas run on through them.
void make_room(const Reference<css::frame::XModel>& model, const DeskTable& table, sal_Int32 wanted) {
    const auto cells = column_of(model, table.columns.front());
    const sal_Int32 missing = wanted - rows_of(cells);
    if (missing <= 0) return;
    const auto sheet = Reference<css::sheet::XSheetCellRange>(cells, UNO_QUERY_THROW)->getSpreadsheet();
    const auto area = area_of(cells);
    Reference<css::table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getRows()->insertByIndex(area.EndRow, missing);
    const Reference<css::sheet::XSheetCellRanges> formulas =
        filled(sheet->getCellRangeByPosition(0, area.EndRow - 1, last_column, area.EndRow - 1),
               css::sheet::CellFlags::FORMULA);
    for (const auto& run : formulas->getRangeAddresses()) {
        const Reference<css::sheet::XCellSeries> series(
            sheet->getCellRangeByPosition(run.StartColumn, run.StartRow, run.EndColumn, run.StartRow + missing),
            UNO_QUERY_THROW);
        series->fillSeries(css::sheet::FillDirection_TO_BOTTOM, css::sheet::FillMode_SIMPLE,
                           css::sheet::FillDateMode_FILL_DATE_DAY, 0, 0);
    }
}

/// A folder as the user writes it, or as a URL.
rtl::OUString folder_url(const rtl::OUString& written) {
    const rtl::OUString text = written.trim();
    rtl::OUString url = text;
    if (!text.startsWith("file:") && osl::FileBase::getFileURLFromSystemPath(text, url) != osl::FileBase::E_None)
        return {};
    return url.endsWith("/") ? url.copy(0, url.getLength() - 1) : url;
}

}  // namespace

bool is_desk(const Reference<css::frame::XModel>& model) {
    return std::ranges::all_of(std::array{&desk_blocks, &desk_counts, &desk_problems}, [&](const DeskTable* table) {
        return std::ranges::all_of(table->columns, [&](const char* name) { return column_of(model, name).is(); });
    });
}

std::string file_of(const DeskTable& table, const DeskLine& line) {
    rtl::OUString file;
    line.at(table.file) >>= file;
    return to_utf8(file);
}

std::vector<DeskLine> read_lines(const Reference<css::frame::XModel>& model, const DeskTable& table) {
    std::vector<DeskLine> lines;
    for (std::size_t column = 0; column < table.columns.size(); ++column) {
        const Reference<css::sheet::XCellRangeData> cells(column_of(model, table.columns[column]), UNO_QUERY_THROW);
        const auto data = cells->getDataArray();
        lines.resize(std::max(lines.size(), static_cast<std::size_t>(data.getLength())),
                     DeskLine(table.columns.size()));
        for (sal_Int32 row = 0; row < data.getLength(); ++row)
            lines[static_cast<std::size_t>(row)][column] = data[row][0];
    }
    std::erase_if(lines, [&](const DeskLine& line) { return file_of(table, line).empty(); });
    return lines;
}

void write_lines(const Reference<css::frame::XModel>& model, std::initializer_list<DeskLines> tables) {
    for (const auto& [table, lines] : tables) make_room(model, table, static_cast<sal_Int32>(lines.size()));
    for (const auto& [table, lines] : tables) {
        for (std::size_t column = 0; column < table.columns.size(); ++column) {
            const auto cells = column_of(model, table.columns[column]);
            css::uno::Sequence<css::uno::Sequence<Any>> data(rows_of(cells));
            auto* const rows = data.getArray();
            for (sal_Int32 row = 0; row < data.getLength(); ++row) {
                const auto at = static_cast<std::size_t>(row);
                const Any value = at < lines.size() ? lines[at].at(column) : Any(rtl::OUString());
                rows[row] = css::uno::Sequence<Any>(&value, 1);
            }
            Reference<css::sheet::XCellRangeData>(cells, UNO_QUERY_THROW)->setDataArray(data);
        }
    }
}

rtl::OUString chosen_folder(const Sent& sent, const char* cell_name, Text title) {
    if (!sent.url.isEmpty()) return folder_url(sent.url);
    const auto cells = column_of(sent.document(), cell_name);
    const auto cell = cells.is() ? cells->getCellByPosition(0, 0) : nullptr;
    if (cell.is() && !shown(cell).trim().isEmpty()) return folder_url(shown(cell));
    if (sent.silent) return {};
    const auto picker = css::ui::dialogs::FolderPicker::create(sent.context);
    picker->setTitle(to_ustring(catalogue::menu_language().translated(title)));
    if (picker->execute() != css::ui::dialogs::ExecutableDialogResults::OK) return {};
    const rtl::OUString url = folder_url(picker->getDirectory());
    rtl::OUString path;
    if (cell.is() && osl::FileBase::getSystemPathFromFileURL(url, path) == osl::FileBase::E_None) {
        css::uno::Reference<css::text::XText>(cell, UNO_QUERY_THROW)->setString(path);
    }
    return url;
}

Any cell_of(std::optional<double> number) { return number ? Any(*number) : Any(rtl::OUString()); }

Any cell_of(const std::string& text) { return Any(to_ustring(text)); }

}  // namespace slipbark::addin

// Opens a workbook in headless Calc with the extension of this build, calculates all of it, prints its sheets as text
// and writes it as .pdf, .ods and .xlsx. Ends with 1 where any cell shows an error.

#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/text/XText.hpp>
#include <iostream>
#include <set>
#include <stdexcept>

#include "office/office.hpp"

namespace {

using namespace slipbark::office;
using css::uno::UNO_QUERY_THROW;

/// Text is counted in characters, not bytes, so that columns line up.
std::size_t width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

void print_sheet(const Book& book, const std::string& name) {
    constexpr std::size_t widest = 34;
    Ref<css::sheet::XSpreadsheet> sheet;
    book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
    const auto cursor = sheet->createCursor();
    Ref<css::sheet::XUsedAreaCursor>(cursor, UNO_QUERY_THROW)->gotoEndOfUsedArea(false);
    const auto end = Ref<css::sheet::XCellRangeAddressable>(cursor, UNO_QUERY_THROW)->getRangeAddress();
    std::vector<std::vector<std::string>> rows;
    std::vector<std::size_t> widths(static_cast<std::size_t>(end.EndColumn) + 1, 0);
    for (sal_Int32 row = 0; row <= end.EndRow; ++row) {
        std::vector<std::string> cells;
        for (sal_Int32 column = 0; column <= end.EndColumn; ++column) {
            const Ref<css::text::XText> cell(sheet->getCellByPosition(column, row), UNO_QUERY_THROW);
            cells.push_back(utf8(cell->getString()));
        }
        while (!cells.empty() && cells.back().empty()) cells.pop_back();
        // A heading may run over its neighbours; it does not widen its column.
        for (std::size_t column = 0; column + 1 < cells.size(); ++column) {
            widths[column] = std::max(widths[column], std::min(widest, width(cells[column])));
        }
        rows.push_back(std::move(cells));
    }
    std::cout << "\n== " << name << "\n";
    bool blank = false;
    for (const auto& cells : rows) {
        if (cells.empty()) {
            blank = true;
            continue;
        }
        if (blank) std::cout << "\n";
        blank = false;
        for (std::size_t column = 0; column < cells.size(); ++column) {
            std::cout << (column == 0 ? "" : "  ") << cells[column];
            const std::size_t used = width(cells[column]);
            if (column + 1 < cells.size() && used < widths[column])
                std::cout << std::string(widths[column] - used, ' ');
        }
        std::cout << "\n";
    }
}

int present(const std::filesystem::path& workbook, const std::filesystem::path& bundled,
            const std::filesystem::path& out, const std::set<std::string>& sheets) {
    std::cout << "Starting Calc with the extension of this build" << std::endl;
    const Office office({.bundled = bundled, .profile = {}, .words = {}});
    const Book book = office.copy_of(workbook);
    book.recalculate();
    for (const auto& name : book.sheets()) {
        if (sheets.empty() || sheets.contains(name)) print_sheet(book, name);
    }
    std::cout << "\n";
    const std::filesystem::path stem = out / workbook.stem();
    const std::pair<const char*, const char*> formats[] = {
        {".pdf", "calc_pdf_Export"}, {".ods", "calc8"}, {".xlsx", "Calc MS Excel 2007 XML"}};
    for (const auto& [ending, filter] : formats) {
        std::filesystem::path path = stem;
        path += ending;
        book.save_as(path, filter);
        std::cout << "Wrote " << path.string() << "\n";
    }
    const auto errors = book.errors();
    for (const auto& error : errors) std::cerr << "error in " << error << "\n";
    std::cout << (errors.empty() ? "No cell shows an error.\n" : "");
    return errors.empty() ? 0 : 1;
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count < 4) throw std::invalid_argument("usage: slipbark_present WORKBOOK EXTENSIONS OUT [SHEET...]");
        return present(words[1], words[2], words[3], {words + 4, words + count});
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}

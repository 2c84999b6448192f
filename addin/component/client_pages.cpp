// "Client pages": a PDF for each block of a desk, from its one sheet Page, which shows the line that is asked for.

#include <algorithm>
#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/MessageBoxResults.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/io/XOutputStream.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <cppuhelper/implbase1.hxx>
#include <map>
#include <osl/file.hxx>
#include <rtl/ref.hxx>
#include <rtl/uri.hxx>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/desk.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

namespace {

/// A name that every file system takes.
std::string file_name(const std::string& text) {
    std::string name;
    for (const char c : text) {
        const bool bad =
            static_cast<unsigned char>(c) < 32 || std::string_view("<>:\"/\\|?*").find(c) != std::string_view::npos;
        name += bad ? '-' : c;
    }
    constexpr std::size_t longest = 120;  // bytes; whole letters of UTF-8
    std::size_t end = std::min(name.size(), longest);
    while (end < name.size() && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) --end;
    return name.substr(0, end);
}

rtl::OUString url_of(const rtl::OUString& folder, const std::string& name) {
    return folder + "/" +
           rtl::Uri::encode(to_ustring(name), rtl_UriCharClassPchar, rtl_UriEncodeStrict, RTL_TEXTENCODING_UTF8);
}

std::string text_of(const Any& cell) {
    if (double number = 0; cell >>= number) return slipbark::filled("{1}", {number});
    rtl::OUString text;
    cell >>= text;
    return to_utf8(text);
}

/// Where the page of each line goes; two of the same name are told apart by a number.
std::vector<rtl::OUString> page_urls(const std::vector<DeskLine>& lines, const rtl::OUString& folder) {
    const auto column = [](const char* name) {
        return static_cast<std::size_t>(std::ranges::find(desk_blocks.columns, std::string_view(name)) -
                                        desk_blocks.columns.begin());
    };
    std::map<std::string, int> times;
    std::vector<rtl::OUString> urls;
    for (const DeskLine& line : lines) {
        std::string name = text_of(line[column("desk_client")]) + " - " + text_of(line[column("desk_block")]);
        if (const std::string season = text_of(line[column("desk_season")]); !season.empty()) name += " " + season;
        name = file_name(name);
        if (const int time = ++times[name]; time > 1) name += " (" + std::to_string(time) + ")";
        urls.push_back(url_of(folder, name + ".pdf"));
    }
    return urls;
}

bool overwrites(const Sent& sent, std::size_t there) {
    if (sent.silent) return false;
    const Reference<css::awt::XMessageBoxFactory> toolkit(css::awt::Toolkit::create(sent.context), UNO_QUERY_THROW);
    const Reference<css::awt::XWindowPeer> parent(sent.frame->getContainerWindow(), UNO_QUERY_THROW);
    const auto box = toolkit->createMessageBox(
        parent, css::awt::MessageBoxType_QUERYBOX, css::awt::MessageBoxButtons::BUTTONS_YES_NO, "Slipbark",
        to_ustring(menu_language().translated(translatable("Pages already in the folder: {1}. Replace them?"),
                                              {static_cast<double>(there)})));
    return box->execute() == css::awt::MessageBoxResults::YES;
}

/// Keeps in memory what the office writes.
class Kept final : public cppu::WeakImplHelper1<css::io::XOutputStream> {
  public:
    void SAL_CALL writeBytes(const css::uno::Sequence<sal_Int8>& bytes) override {
        bytes_.insert(bytes_.end(), bytes.begin(), bytes.end());
    }
    void SAL_CALL flush() override {}
    void SAL_CALL closeOutput() override {}
    [[nodiscard]] const std::vector<sal_Int8>& bytes() const { return bytes_; }

  private:
    std::vector<sal_Int8> bytes_;
};

/// The cells as a PDF. LibreOffice writes it to a file of its own first, and ends where that file cannot grow.
std::vector<sal_Int8> page_of(const Reference<css::frame::XModel>& desk,
                              const Reference<css::table::XCellRange>& cells) {
    constexpr std::size_t room = 1 << 20;  // some twenty times a page
    rtl::OUString temporary;
    osl::FileBase::getTempDirURL(temporary);
    expect_room(temporary, room);
    const rtl::Reference<Kept> kept(new Kept);
    const css::beans::PropertyValue filter_data[] = {property("Selection", Any(cells)),
                                                     property("UseTaggedPDF", Any(true))};
    const css::beans::PropertyValue how[] = {
        property("FilterName", Any(rtl::OUString("calc_pdf_Export"))),
        property("FilterData", Any(css::uno::Sequence<css::beans::PropertyValue>(filter_data, 2))),
        property("OutputStream", Any(Reference<css::io::XOutputStream>(kept.get())))};
    Reference<css::frame::XStorable>(desk, UNO_QUERY_THROW)->storeToURL("private:stream", {how, 3});
    if (kept->bytes().empty()) throw css::io::IOException("the page is empty");
    return kept->bytes();
}

/// What is printed of the sheet that holds the cell.
Reference<css::table::XCellRange> printed(const Reference<css::table::XCellRange>& cell) {
    const auto sheet = Reference<css::sheet::XSheetCellRange>(cell, UNO_QUERY_THROW)->getSpreadsheet();
    const auto areas = Reference<css::sheet::XPrintAreas>(sheet, UNO_QUERY_THROW)->getPrintAreas();
    if (!areas.hasElements()) return {sheet, UNO_QUERY_THROW};
    return sheet->getCellRangeByPosition(areas[0].StartColumn, areas[0].StartRow, areas[0].EndColumn, areas[0].EndRow);
}

}  // namespace

Done write_client_pages(const Sent& sent) {
    const auto desk = sent.document();
    const auto line_cells = named_cells(desk, "page_line");
    if (!line_cells.is() || !is_desk(desk)) {
        return {
            menu_language().translated(translatable("This is no desk: open one with Rework > New adviser's desk."))};
    }
    const auto lines = read_lines(desk, desk_blocks);
    if (lines.empty()) {
        return {
            menu_language().translated(translatable("There is no block to write a page of: gather workbooks first."))};
    }
    const rtl::OUString folder = chosen_folder(sent, "pages_folder", translatable("Client pages"));
    if (folder.isEmpty()) {
        return {menu_language().translated(translatable("No page was written: enter their folder on sheet Page."))};
    }
    const auto files = css::ucb::SimpleFileAccess::create(sent.context);
    const auto urls = page_urls(lines, folder);
    const auto there =
        static_cast<std::size_t>(std::ranges::count_if(urls, [&](const auto& url) { return files->exists(url); }));
    const bool replace = there > 0 && overwrites(sent, there);

    const auto line_cell = line_cells->getCellByPosition(0, 0);
    const double before = line_cell->getValue();
    const auto page = printed(line_cells);
    std::size_t written = 0;
    std::string failed;
    if (!files->exists(folder)) files->createFolder(folder);
    const UndoStep step(desk, client_pages.title);
    for (std::size_t at = 0; at < lines.size(); ++at) {
        if (!replace && files->exists(urls[at])) continue;
        line_cell->setValue(static_cast<double>(at + 1));
        try {
            write_whole(urls[at], page_of(desk, page));
            ++written;
        } catch (const css::uno::Exception& why) {
            failed = to_utf8(urls[at]) + ": " + to_utf8(why.Message);
            break;
        }
    }
    line_cell->setValue(before);
    std::string text = menu_language().translated(translatable("Pages written: {1}, to {2}."),
                                                  {static_cast<double>(written), to_utf8(folder)});
    if (there > 0 && !replace) {
        text += " " + menu_language().translated(translatable("Pages that were there already and were left: {1}."),
                                                 {static_cast<double>(there)});
    }
    if (!failed.empty()) text += " " + menu_language().translated(translatable("Then it stopped: {1}"), {failed});
    return {text};
}

}  // namespace slipbark::addin

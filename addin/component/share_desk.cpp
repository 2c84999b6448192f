// "Save a copy without names": the desk for somebody who may not know whose blocks these are. Clients and blocks
// become numbers; nurseries, lots and varieties stay, since takes are compared by them.
//
// The desk at hand is not touched: a copy of it is written, opened out of sight, changed and saved.

#include <algorithm>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/text/XText.hpp>
#include <map>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/desk.hpp"
#include "component/documents.hpp"
#include "gather/workbook_cells.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

namespace {

rtl::OUString asked_for_place(const Sent& sent) {
    return chosen_file(sent.context, share_desk.title, Chosen::to_write, {{"ODF Spreadsheet (.ods)", "*.ods"}});
}

/// Names compare as people mean them, without regard to case and blanks around them.
std::string key_of(const Any& cell) { return gather::lower(to_utf8(cell_text(cell))); }

/// Numbers for clients, and for the blocks and workbooks of each: "3", "3.2", "3/1".
class Numbers {
  public:
    std::string client(const Any& name) { return std::to_string(number(clients_, key_of(name))); }
    std::string block(const Any& client_name, const Any& name) {
        const std::string of = client(client_name);
        return of + "." + std::to_string(number(blocks_[of], key_of(name)));
    }
    std::string workbook(const Any& client_name, const Any& path) {
        const std::string of = client(client_name);
        return of + "/" + std::to_string(number(workbooks_[of], key_of(path)));
    }
    [[nodiscard]] const std::map<std::string, int>& clients() const { return clients_; }

  private:
    static int number(std::map<std::string, int>& known, const std::string& name) {
        return known.try_emplace(name, static_cast<int>(known.size()) + 1).first->second;
    }

    std::map<std::string, int> clients_;
    std::map<std::string, std::map<std::string, int>> blocks_;
    std::map<std::string, std::map<std::string, int>> workbooks_;
};

/// The place of a column in the lines of a table.
std::size_t place(const DeskTable& table, std::string_view column) {
    return static_cast<std::size_t>(std::ranges::find(table.columns, column) - table.columns.begin());
}

std::vector<DeskLine> numbered(std::vector<DeskLine> lines, const DeskTable& table, const std::string& prefix,
                               Numbers& numbers) {
    const auto client_at = place(table, prefix + "_client");
    const auto block_at = place(table, prefix + "_block");
    for (DeskLine& line : lines) {
        const Any client = line[client_at];
        line[table.file] = cell_of(numbers.workbook(client, line[table.file]));
        line[block_at] = cell_of(numbers.block(client, line[block_at]));
        line[client_at] = cell_of(numbers.client(client));
        // What growers typed themselves may hold names.
        for (const char* column : {"_checks", "_grafter"}) {
            if (const auto at = place(table, prefix + column); at < line.size()) line[at] = cell_of(std::string());
        }
    }
    return lines;
}

/// Where a client's name is still to be read.
std::string named_in(const Reference<css::frame::XModel>& model, const Numbers& numbers) {
    constexpr std::size_t shortest = 3;  // a name of one or two letters is part of too many words
    std::string addresses;
    for (const auto& sheet : sheets_of(model)) {
        each_cell(filled(sheet, css::sheet::CellFlags::STRING), [&](const Reference<css::table::XCell>& cell) {
            const std::string text = gather::lower(to_utf8(shown(cell)));
            const bool named = std::ranges::any_of(numbers.clients(), [&](const auto& client) {
                return client.first.size() >= shortest && text.find(client.first) != std::string::npos;
            });
            if (named) addresses += (addresses.empty() ? "" : ", ") + address_of(cell);
        });
    }
    return addresses;
}

void blank(const Reference<css::frame::XModel>& model, const char* name) {
    const auto cells = named_cells(model, rtl::OUString::createFromAscii(name));
    if (cells.is()) Reference<css::text::XText>(cells->getCellByPosition(0, 0), UNO_QUERY_THROW)->setString({});
}

}  // namespace

Done save_without_names(const Sent& sent) {
    if (!is_desk(sent.document())) {
        return {
            menu_language().translated(translatable("This is no desk: open one with Rework > New adviser's desk."))};
    }
    const rtl::OUString url = sent.url.isEmpty() && !sent.silent ? asked_for_place(sent) : sent.url;
    if (url.isEmpty()) return {.text = {}, .worth_a_window = false};
    if (!url.endsWithIgnoreAsciiCase(".ods")) {
        return {menu_language().translated(translatable("No copy was written: give a file name that ends in .ods."))};
    }
    if (url == sent.document()->getURL()) {
        return {menu_language().translated(
            translatable("No copy was written: that is the file of the workbook itself. Give the copy another name."))};
    }
    Numbers numbers;
    std::string left;
    try {
        const HiddenCopy copy(sent.context, sent.document());
        const auto blocks = numbered(read_lines(copy.model(), desk_blocks), desk_blocks, "desk", numbers);
        const auto counts = numbered(read_lines(copy.model(), desk_counts), desk_counts, "count", numbers);
        const std::vector<DeskLine> no_problems;
        write_lines(copy.model(), {{desk_blocks, blocks}, {desk_counts, counts}, {desk_problems, no_problems}});
        for (const char* name : {"folder", "pages_folder", "database", "database_user"}) blank(copy.model(), name);
        left = named_in(copy.model(), numbers);
        css::beans::PropertyValue filter;
        filter.Name = "FilterName";
        filter.Value <<= rtl::OUString("calc8");
        const Reference<css::frame::XStorable> storable(copy.model(), UNO_QUERY_THROW);
        write_whole(url, [&](const rtl::OUString& part) { storable->storeToURL(part, {&filter, 1}); });
    } catch (const css::uno::Exception& failed) {
        return {menu_language().translated(
            translatable(
                "No copy was written. LibreOffice says: {1}. Does the folder exist, and is there enough space?"),
            {to_utf8(failed.Message)})};
    }
    std::string text = menu_language().translated(
        translatable("The copy without names is {1}. Its {2} clients and their blocks are numbers; paths, checks, "
                     "grafters and problems are left out; nurseries, lots and varieties stay."),
        {to_utf8(url), static_cast<double>(numbers.clients().size())});
    if (!left.empty()) {
        text +=
            " " + menu_language().translated(translatable("Look at these cells before you share it, since they have a "
                                                          "client's name in them: {1}."),
                                             {left});
    }
    return {text};
}

}  // namespace slipbark::addin

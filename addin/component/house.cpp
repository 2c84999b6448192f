#include "component/house.hpp"

#include <algorithm>
#include <charconv>
#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/container/XNameReplace.hpp>
#include <com/sun/star/lang/XSingleServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetAnnotationsSupplier.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/PathSubstitution.hpp>
#include <com/sun/star/util/XChangesBatch.hpp>
#include <ctime>
#include <osl/file.hxx>
#include <stdexcept>

#include "catalogue/language.hpp"
#include "component/documents.hpp"
#include "composer/document.hpp"

namespace slipbark::addin {

using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

namespace {

/// The kept figures, to read or to change.
Reference<css::uno::XInterface> figures_of(const Reference<css::uno::XComponentContext>& context, const char* service) {
    const auto provider = css::configuration::theDefaultProvider::get(context);
    const Any path(css::beans::NamedValue("nodepath", Any(rtl::OUString("/org.slipbark.House/Figures"))));
    return provider->createInstanceWithArguments(rtl::OUString::createFromAscii(service), {&path, 1});
}

std::string written_cell(const Any& cell) {
    if (double number = 0; cell >>= number) {
        char text[32];
        return "=" + std::string(text, std::to_chars(text, text + sizeof text, number).ptr);
    }
    rtl::OUString text;
    cell >>= text;
    if (text.isEmpty()) return {};
    return "'" + to_utf8(text.replace('\t', ' ').replace('\n', ' '));
}

Any read_cell(std::string_view text) {
    if (text.empty()) return Any(rtl::OUString());
    if (text.front() == '\'') return Any(to_ustring(text.substr(1)));
    double number = 0;
    const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), number);
    if (text.front() != '=' || error != std::errc() || end != text.data() + text.size()) {
        throw std::invalid_argument("a cell of house defaults is =NUMBER or 'TEXT, not " + std::string(text));
    }
    return Any(number);
}

std::vector<std::string_view> split(std::string_view text, char sign) {
    std::vector<std::string_view> parts;
    for (std::size_t from = 0; from <= text.size();) {
        const auto to = std::min(text.find(sign, from), text.size());
        parts.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    return parts;
}

bool is_blank(const std::string& cells) { return cells.find_first_not_of("\t\n") == std::string::npos; }

/// A note at the cell that says since when it is the house's figure.
void mark(const Reference<css::table::XCell>& cell, const std::string& day) {
    const auto sheet = Reference<css::sheet::XSheetCellRange>(cell, UNO_QUERY_THROW)->getSpreadsheet();
    const auto address = Reference<css::sheet::XCellAddressable>(cell, UNO_QUERY_THROW)->getCellAddress();
    Reference<css::sheet::XSheetAnnotationsSupplier>(sheet, UNO_QUERY_THROW)
        ->getAnnotations()
        ->insertNew(address, to_ustring(catalogue::menu_language().translated(translatable("house, {1}"), {day})));
}

/// Whether the cells are there to be typed into.
bool is_entry(const Reference<css::table::XCellRange>& cells) {
    const std::string style = style_of(cells->getCellByPosition(0, 0));
    return style == workbooks::cell_style::input || style == workbooks::cell_style::kept ||
           style == workbooks::cell_style::suggested;
}

/// Whether any of the cells was typed; a suggestion that stands is no figure of the house.
bool is_typed(const Reference<css::table::XCellRange>& cells) {
    namespace CellFlags = css::sheet::CellFlags;
    constexpr auto typed = static_cast<sal_Int16>(CellFlags::VALUE | CellFlags::DATETIME | CellFlags::STRING);
    return filled(cells, typed)->getRangeAddresses().hasElements();
}

}  // namespace

const std::vector<HouseName>& house_names() {
    static const std::vector<HouseName> all{
        {"stick_price", translatable("Price of a stick of budwood")},
        {"royalty", translatable("Royalty a tree")},
        {"currency", translatable("Currency")},
        {"day_pay", translatable("Pay of a grafter's day")},
        {"hour_pay", translatable("Pay of an hour")},
        {"day_hours", translatable("Hours of a day")},
        {"grafts_per_day", translatable("Grafts a day")},
        {"crew", translatable("Grafters")},
        {"cut_cost", translatable("Cutting a tree back")},
        {"care_first", translatable("Care of a tree, first year")},
        {"care_second", translatable("Care of a tree, second year")},
        {"visit_cost", translatable("A visit to a tree")},
        {"growing_cost", translatable("Growing a hectare")},
        {"pick_cost", translatable("Picking and selling")},
        {"rate", translatable("Interest")},
        {"spare", translatable("Spare budwood")},
        {"days_in_store", translatable("Days in store")},
        {"expected_take", translatable("Expected take")},
        {"clustering", translatable("Clustering")},
        {"buds_per_stick", translatable("Buds on a stick")},
        {"wood_lead", translatable("Months from order to budwood")},
        {"materials_lead", translatable("Days from order to materials")},
        {"sticks_per_mother", translatable("Sticks from a mother tree")},
        {"coverage", translatable("Bark that a litre of paint covers")},
        {"coats", translatable("Coats of paint")},
        {"tape_width_mm", translatable("Width of the tape")},
        {"stages", translatable("Schedule of stages")},
        {"yield_curve", translatable("Yield curve")},
        {"own_store", translatable("Table of the store")},
        {"spreads", translatable("How far figures may be off")},
    };
    return all;
}

std::string today_iso() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    char text[16];
    return {text, std::strftime(text, sizeof text, "%Y-%m-%d", &local)};
}

std::string written_cells(const Block& cells) {
    std::string text;
    for (sal_Int32 row = 0; row < cells.getLength(); ++row) {
        if (row > 0) text += '\n';
        for (sal_Int32 column = 0; column < cells[row].getLength(); ++column) {
            if (column > 0) text += '\t';
            text += written_cell(cells[row][column]);
        }
    }
    return text;
}

Block read_cells(const std::string& text) {
    const auto lines = split(text, '\n');
    Block block(static_cast<sal_Int32>(lines.size()));
    Row* rows = block.getArray();
    for (std::size_t line = 0; line < lines.size(); ++line) {
        const auto cells = split(lines[line], '\t');
        rows[line].realloc(static_cast<sal_Int32>(cells.size()));
        Any* values = rows[line].getArray();
        for (std::size_t cell = 0; cell < cells.size(); ++cell) values[cell] = read_cell(cells[cell]);
        if (rows[line].getLength() != rows[0].getLength()) {
            throw std::invalid_argument("the lines of a table of house defaults have the same number of cells");
        }
    }
    return block;
}

namespace {

constexpr std::string_view first_line = "slipbark house defaults 1";

/// Throws std::invalid_argument for a text that is no file of house defaults.
std::vector<HouseFigure> figures_of(const std::vector<std::string>& lines) {
    if (lines.empty() || lines.front() != first_line) throw std::invalid_argument("no file of house defaults");
    std::vector<HouseFigure> figures;
    for (std::size_t at = 1; at < lines.size();) {
        const std::string& head = lines[at++];
        if (head.empty() && at == lines.size()) break;  // the end of the last line
        const auto first = head.find('\t');
        const auto second = head.find('\t', first == std::string::npos ? first : first + 1);
        if (second == std::string::npos) throw std::invalid_argument(head);
        HouseFigure one{head.substr(0, first), {}, head.substr(first + 1, second - first - 1)};
        std::size_t rows = 0;
        const char* const end = head.data() + head.size();
        const auto [read, error] = std::from_chars(head.data() + second + 1, end, rows);
        if (error != std::errc() || read != end || rows < 1 || rows > lines.size() - at) {
            throw std::invalid_argument(head);
        }
        for (std::size_t row = 0; row < rows; ++row) one.cells += (row == 0 ? "" : "\n") + lines[at++];
        static_cast<void>(read_cells(one.cells));
        figures.push_back(std::move(one));
    }
    return figures;
}

/// The lines of a text file.
std::vector<std::string> lines_of(const Reference<css::io::XInputStream>& stream) {
    std::vector<std::string> lines(1);
    css::uno::Sequence<sal_Int8> bytes;
    constexpr sal_Int32 piece = 65536;
    while (stream->readBytes(bytes, piece) > 0) {
        for (const sal_Int8 byte : bytes) {
            const char sign = static_cast<char>(byte);
            if (sign == '\n') {
                lines.emplace_back();
            } else if (sign != '\r') {
                lines.back() += sign;
            }
        }
    }
    stream->closeInput();
    return lines;
}

/// A copy next to the user's configuration, since that loses what belongs to an extension when it is removed.
rtl::OUString copy_of_house(const Reference<css::uno::XComponentContext>& context) {
    return css::util::PathSubstitution::create(context)->substituteVariables("$(user)/slipbark.house", true);
}

}  // namespace

std::string house_text(const std::vector<HouseFigure>& figures) {
    std::string text(first_line);
    for (const HouseFigure& one : figures) {
        text += "\n" + one.name + "\t" + one.day + "\t" + std::to_string(1 + std::ranges::count(one.cells, '\n')) +
                "\n" + one.cells;
    }
    return text + "\n";
}

std::vector<HouseFigure> house_of(const Reference<css::io::XInputStream>& file) { return figures_of(lines_of(file)); }

std::vector<HouseFigure> read_house(const Reference<css::uno::XComponentContext>& context) {
    const Reference<css::container::XNameAccess> all(
        figures_of(context, "com.sun.star.configuration.ConfigurationAccess"), UNO_QUERY_THROW);
    std::vector<HouseFigure> figures;
    for (const HouseName& one : house_names()) {
        const auto name = rtl::OUString::createFromAscii(one.name);
        if (!all->hasByName(name)) continue;
        const Reference<css::container::XNameAccess> figure(all->getByName(name), UNO_QUERY_THROW);
        rtl::OUString cells;
        rtl::OUString day;
        figure->getByName("Cells") >>= cells;
        figure->getByName("Day") >>= day;
        figures.push_back({one.name, to_utf8(cells), to_utf8(day)});
    }
    if (!figures.empty()) return figures;
    try {
        const auto files = css::ucb::SimpleFileAccess::create(context);
        const rtl::OUString copy = copy_of_house(context);
        if (files->exists(copy)) return house_of(files->openFileRead(copy));
    } catch (const std::invalid_argument&) {
        return {};  // somebody has changed it
    }
    return {};
}

void write_house(const Reference<css::uno::XComponentContext>& context, const std::vector<HouseFigure>& figures) {
    const Reference<css::container::XNameContainer> all(
        figures_of(context, "com.sun.star.configuration.ConfigurationUpdateAccess"), UNO_QUERY_THROW);
    for (const auto& name : all->getElementNames()) all->removeByName(name);
    const Reference<css::lang::XSingleServiceFactory> factory(all, UNO_QUERY_THROW);
    // Marked as deprecated, and still the one way to make a node of a set.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
    const auto new_figure = [&] {
        return Reference<css::container::XNameReplace>(factory->createInstance(), UNO_QUERY_THROW);
    };
#pragma GCC diagnostic pop
    for (const HouseFigure& one : figures) {
        const auto figure = new_figure();
        figure->replaceByName("Cells", Any(to_ustring(one.cells)));
        figure->replaceByName("Day", Any(to_ustring(one.day)));
        all->insertByName(to_ustring(one.name), Any(figure));
    }
    Reference<css::util::XChangesBatch>(all, UNO_QUERY_THROW)->commitChanges();
    const rtl::OUString copy = copy_of_house(context);
    if (figures.empty()) {
        osl::File::remove(copy);
        return;
    }
    const std::string text = house_text(figures);
    write_whole(copy, std::vector<sal_Int8>(text.begin(), text.end()));
}

std::vector<HouseFigure> house_of(const Reference<css::frame::XModel>& model) {
    std::vector<HouseFigure> figures;
    for (const HouseName& one : house_names()) {
        const auto cells = named_cells(model, rtl::OUString::createFromAscii(one.name));
        if (!cells.is() || !is_entry(cells) || !is_typed(cells)) continue;
        const std::string written =
            written_cells(Reference<css::sheet::XCellRangeData>(cells, UNO_QUERY_THROW)->getDataArray());
        if (!is_blank(written)) figures.push_back({one.name, written, today_iso()});
    }
    return figures;
}

std::vector<std::string> fill_with_house(const Reference<css::frame::XModel>& model,
                                         const std::vector<HouseFigure>& figures) {
    std::vector<std::string> filled_in;
    for (const HouseFigure& one : figures) {
        const auto cells = named_cells(model, to_ustring(one.name));
        const auto known = std::ranges::find(house_names(), one.name, &HouseName::name);
        if (!cells.is() || known == house_names().end() || !is_entry(cells)) continue;
        const Reference<css::sheet::XCellRangeData> data(cells, UNO_QUERY_THROW);
        const Block block = read_cells(one.cells);
        const Block now = data->getDataArray();
        if (block.getLength() != now.getLength() || block[0].getLength() != now[0].getLength()) continue;
        data->setDataArray(block);
        mark(cells->getCellByPosition(0, 0), one.day);
        filled_in.push_back(catalogue::menu_language().translated(known->label));
    }
    return filled_in;
}

}  // namespace slipbark::addin

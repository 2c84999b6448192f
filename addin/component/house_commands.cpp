// The commands on house defaults: kept from the workbook at hand, shown on a desk's sheet House, and taken along as a
// file.

#include <algorithm>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <stdexcept>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/desk.hpp"
#include "component/documents.hpp"
#include "component/house.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

namespace {

const DeskTable house_table{{"house_name", "house_label", "house_value", "house_day"}, 0};

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
    return all;
}

std::string label_of(const std::string& name) {
    const auto known = std::ranges::find(house_names(), name, &HouseName::name);
    return known == house_names().end() ? name : menu_language().translated(known->label);
}

std::vector<std::string> labels_of(const std::vector<HouseFigure>& figures) {
    std::vector<std::string> labels;
    for (const HouseFigure& one : figures) labels.push_back(label_of(one.name));
    return labels;
}

bool has_house_sheet(const Reference<css::frame::XModel>& model) {
    return std::ranges::all_of(house_table.columns, [&](const char* name) {
        return named_cells(model, rtl::OUString::createFromAscii(name)).is();
    });
}

bool is_one_cell(const HouseFigure& figure) { return figure.cells.find_first_of("\t\n") == std::string::npos; }

Any text_cell(const std::string& text) { return Any(to_ustring(text)); }

void show(const Reference<css::frame::XModel>& desk, const std::vector<HouseFigure>& figures) {
    std::vector<DeskLine> lines;
    for (const HouseFigure& one : figures) {
        const Block cells = read_cells(one.cells);
        const Any value = is_one_cell(one)
                              ? cells[0][0]
                              : text_cell(menu_language().translated(translatable("table of {1} x {2} cells"),
                                                                     {static_cast<double>(cells.getLength()),
                                                                      static_cast<double>(cells[0].getLength())}));
        lines.push_back({text_cell(one.name), text_cell(label_of(one.name)), value, text_cell(one.day)});
    }
    write_lines(desk, {{house_table, lines}});
}

/// What sheet House holds: a line taken out is a figure taken out; one changed is changed. Tables stay as they were
/// kept.
std::vector<HouseFigure> shown_on(const Reference<css::frame::XModel>& desk, const std::vector<HouseFigure>& kept,
                                  const std::string& day) {
    std::vector<HouseFigure> figures;
    for (const DeskLine& line : read_lines(desk, house_table)) {
        const std::string name = file_of(house_table, line);
        const auto before = std::ranges::find(kept, name, &HouseFigure::name);
        const Row value(&line[2], 1);
        HouseFigure figure{name, written_cells(Block(&value, 1)), day};
        if (before != kept.end() && (!is_one_cell(*before) || before->cells == figure.cells)) figure = *before;
        if (!figure.cells.empty()) figures.push_back(std::move(figure));
    }
    return figures;
}

rtl::OUString house_file(const Sent& sent, Chosen use, Text title) {
    if (!sent.url.isEmpty() || sent.silent) return sent.url;
    const auto shown = to_ustring(menu_language().translated(translatable("House defaults")));
    return chosen_file(sent.context, title, use, {{shown, "*.house"}});
}

}  // namespace

Done keep_house_defaults(const Sent& sent) {
    const auto model = sent.document();
    if (has_house_sheet(model)) {
        const auto kept = read_house(sent.context);
        const auto figures = shown_on(model, kept, today_iso());
        write_house(sent.context, figures);
        show(model, figures);
        return {menu_language().translated(
            translatable(
                "House defaults are now those of sheet House: {1}. They fill new workbooks and emptied forms."),
            {static_cast<double>(figures.size())})};
    }
    if (workbook_of(model) == nullptr) {
        return {
            menu_language().translated(translatable("This is no workbook of Slipbark: open a plan with the prices and "
                                                    "figures of the house, or a desk."))};
    }
    const auto figures = house_of(model);
    if (figures.empty()) {
        return {menu_language().translated(
            translatable("This workbook has no figure that a house could keep: open a rework plan."))};
    }
    write_house(sent.context, figures);
    return {menu_language().translated(
        translatable("Kept as house defaults, in place of those before: {1}. They fill new workbooks "
                     "and emptied forms. Sheet House of a desk shows them, and takes them out."),
        {joined(labels_of(figures))})};
}

Done show_house_defaults(const Sent& sent) {
    const auto figures = read_house(sent.context);
    const auto model = sent.document();
    if (has_house_sheet(model)) {
        const UndoStep step(model, show_house.title);
        show(model, figures);
    }
    if (figures.empty()) return {menu_language().translated(translatable("There are no house defaults yet."))};
    return {menu_language().translated(translatable("House defaults: {1}."), {joined(labels_of(figures))})};
}

Done save_house_defaults(const Sent& sent) {
    const auto figures = read_house(sent.context);
    if (figures.empty()) return {menu_language().translated(translatable("There are no house defaults yet."))};
    const auto url = house_file(sent, Chosen::to_write, save_house.title);
    if (url.isEmpty()) return {.text = {}, .worth_a_window = false};
    try {
        const std::string text = house_text(figures);
        write_whole(url, std::vector<sal_Int8>(text.begin(), text.end()));
    } catch (const css::uno::Exception& failed) {
        return {menu_language().translated(
            translatable(
                "No file was written. LibreOffice says: {1}. Does the folder exist, and is there enough space?"),
            {to_utf8(failed.Message)})};
    }
    return {menu_language().translated(translatable("House defaults saved: {1}."), {to_utf8(url)})};
}

Done take_house_defaults(const Sent& sent) {
    const auto url = house_file(sent, Chosen::to_read, take_house.title);
    if (url.isEmpty()) return {.text = {}, .worth_a_window = false};
    const auto files = css::ucb::SimpleFileAccess::create(sent.context);
    if (!files->exists(url)) {
        return {menu_language().translated(translatable("There is no file {1}: choose one that is there."),
                                           {to_utf8(url)})};
    }
    try {
        const auto figures = house_of(files->openFileRead(url));
        write_house(sent.context, figures);
        if (has_house_sheet(sent.document())) show(sent.document(), figures);
        return {
            menu_language().translated(translatable("House defaults taken over: {1}."), {joined(labels_of(figures))})};
    } catch (const std::invalid_argument&) {
        return {menu_language().translated(
            translatable("{1} has no house defaults, so nothing was changed: choose a file that Slipbark has saved."),
            {to_utf8(url)})};
    }
}

}  // namespace slipbark::addin

// Defaults: the tables behind calendar, crop and store, in cells that may be typed over.
#include "slipbark/defaults.hpp"

#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/methods.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int first = first_stage_default;
constexpr int last = first + stage_room - 1;

Content content_of(const slipbark::Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

void stages(Sheet& sheet, Entries& entries) {
    look::band(sheet, "B4", "=\"Calendar: days (d), weeks (w) or months (m) from grafting, for: \"&method", 9);
    look::headings(sheet, "B5",
                   {"Stage", "Earliest", "Target", "Latest", "Unit", "Sign to look for", "Where it comes from",
                    "Counted from, if not from grafting", "Check"});
    // Behind the table: the method's own. What stands in the table may be typed over.
    sheet.put("L5", "The method as built in", Style::workings);
    sheet.array(Area({12, first}, {19, last}), "=" + with_blanks_below("REWORK.TABLE(method)", stage_room, 8),
                Style::workings, {Format::general});
    for (int row = first; row <= last; ++row) {
        const auto suggested = [&](const char* column, const char* from, Format format, bool text) {
            sheet.put(Place(column, row),
                      at_row(std::string("=IF(L{r}&\"\"=\"\";\"\";") + from + "{r}" + (text ? "&\"\"" : "") + ")", row),
                      Style::kept, format);
        };
        suggested("B", "L", Format::text, true);
        suggested("C", "M", Format::general, false);
        suggested("D", "N", Format::general, false);
        suggested("E", "O", Format::general, false);
        suggested("F", "P", Format::text, true);
        suggested("G", "Q", Format::text, true);
        sheet.put(Place("H", row), at_row("=IF(L{r}&\"\"=\"\";\"\";IFERROR(R{r}&\"\";\"\"))", row), Style::unit);
        sheet.put(Place("I", row), at_row("=IF(L{r}&\"\"=\"\";\"\";IFERROR(S{r}&\"\";\"\"))", row), Style::kept,
                  Format::text);
        sheet.put(
            Place("J", row),
            at_row("=IF(B{r}=\"\";IF(LEN(C{r}&D{r}&E{r}&F{r})=0;\"\";\"Without a name: clear the whole line.\");IF("
                   "COUNTIF(B$" +
                       std::to_string(first) + ":B$" + std::to_string(last) +
                       ";B{r})>1;\"This name stands twice.\";IF(ISNUMBER(B{r});\"Give a name, not a number.\";IF("
                       "COUNT(C{r}:E{r})<3;\"Give three whole numbers.\";IF(OR(C{r}>D{r};D{r}>E{r});\"Earliest, "
                       "target and latest must rise.\";IF(INT(C{r})+INT(D{r})+INT(E{r})<>C{r}+D{r}+E{r};\"Give "
                       "whole numbers.\";IF(OR(F{r}=\"d\";F{r}=\"w\";F{r}=\"m\");\"\";\"Unit: d, w or m.\")))))))",
                   row),
            Style::check);
    }
    // 1 where a stage is not that of the method.
    sheet.put("T5", "Own stages", Style::workings);
    sheet.fill_down(Area("T", first, last), "=IFERROR(IF(AND(LEN(B{r})>0;OR(C{r}<>M{r};D{r}<>N{r};E{r}<>O{r}));1;0);0)",
                    Style::workings);
    sheet.name("own_stages", Area("T", first, last));
    sheet.name("stages", Area({2, first}, {9, last}));
    sheet.valid(Area("B", first, last), any_text("the stage's name"));
    for (const char* column : {"C", "D", "E"}) {
        sheet.valid(Area(column, first, last), number(-1000, 1000, "days, weeks or months"));
    }
    sheet.valid(Area("F", first, last), one_of({"d", "w", "m"}));
    sheet.valid(Area("G", first, last), any_text("what to look for"));
    sheet.valid(Area("I", first, last), any_text("a stage that stands further up, or nothing"));
    look::mend_where_said(sheet, Area("J", first, last));
    entries.add_lines(Area("J", first, last));
    entries.add_rule("LEN(REWORK.WHY(\"SCHEDULE\";36526;stages))=0", "REWORK.WHY(\"SCHEDULE\";36526;stages)");
}

/// Which line of the table is what: by number, so that every name may be changed.
void roles(Sheet& sheet, Entries& entries, int top) {
    look::band(sheet, Place("B", top), "Which stage is which: its line in the table above, or nothing", 9);
    struct Role {
        const char* label;
        const char* row_name;
        const char* stage_name;
        int Method::*line;
    };
    const std::array<Role, 6> all{{
        {"Cutting back", "cut_row", "cut_stage", &Method::cut},
        {"Take check", "look_row", "look_stage", &Method::look},
        {"Bags or ties off", "off_row", "off_stage", &Method::off},
        {"Nurse limb off", "nurse_row", "nurse_stage", &Method::nurse_off},
        {"First crop", "crop_row_1", "crop_stage_1", &Method::first_crop},
        {"Second crop", "crop_row_2", "crop_stage_2", &Method::second_crop},
    }};
    std::string known;
    for (const Method& method : methods()) {
        known += (known.empty() ? "IF(method=" : ";IF(method=") + quoted(method.name) + ";" +
                 std::to_string(&method - methods().data() + 1);
    }
    known += ";\"\"" + std::string(methods().size(), ')');
    sheet.put(Place("L", top), "Line by method", Style::workings);
    sheet.put(Place("Q", top), "=" + known, Style::workings).name("method_number");
    int row = top + 1;
    for (const Role& role : all) {
        int column = Place("L", 1).column;
        std::string lines;
        for (const Method& method : methods()) {
            sheet.put({column++, row}, method.*(role.line), Style::workings);
        }
        sheet.put(Place("B", row), role.label, Style::label);
        sheet
            .put(Place("C", row),
                 or_blank("INDEX(L" + std::to_string(row) + ":" + Place(column - 1, row).text() + ";1;method_number)"),
                 Style::kept, Format::count)
            .name(role.row_name)
            .valid(whole(1, stage_room, "line"));
        entries.add(role.label, Place("C", row), whole_kind(1, stage_room, "line").or_blank());
        sheet
            .put(Place("D", row), std::string("=IFERROR(INDEX(stages;") + role.row_name + ";1)&\"\";\"\")",
                 Style::answer)
            .name(role.stage_name)
            .across(4);
        ++row;
    }
}

}  // namespace

void defaults_sheet(Workbook& book) {
    Sheet& sheet = book.sheet("Defaults", Paper::landscape);
    sheet.columns({0.4, 5.6, 2.1, 2.1, 2.1, 1.6, 11.5, 8.6, 4.6, 6.4, 0.8, 2, 2, 2, 2, 2, 2, 2, 2, 2});
    look::opening(
        sheet, "Defaults",
        "The tables behind calendar, crop and store, each line with where it comes from. They are starting points: put "
        "your own crop's and place's figures over them. Names of stages are yours to change; a cleared line drops out.",
        9);
    sheet.row_height(2, 1.0);
    Entries entries(sheet, "defaults_entries");
    stages(sheet, entries);
    const int top = last + 2;
    roles(sheet, entries, top);

    constexpr int curve_room = 12;
    const Table& curve = slipbark::defaults::yield();
    const int head = top + 8;
    sheet.page_break(head);
    look::band(sheet, Place("B", head), "Yield: share of a mature tree's crop by years since grafting", 9);
    look::headings(sheet, Place("B", head + 1), {"Years since grafting", "Share"});
    sheet.put(Place("D", head + 1), "Where it comes from", Style::heading).across(4);
    const int curve_first = head + 2;
    const int curve_last = head + 1 + curve_room;
    for (int line = 0; line < curve_room; ++line) {
        const auto at = static_cast<std::size_t>(line);
        const bool used = at < curve.rows();
        sheet.put(Place("B", curve_first + line), used ? content_of(curve.at(at, 0)) : Content{}, Style::kept,
                  Format::hundredth);
        sheet.put(Place("C", curve_first + line), used ? content_of(curve.at(at, 1)) : Content{}, Style::kept,
                  Format::percent);
        sheet.put(Place("D", curve_first + line), used ? content_of(curve.at(at, 2)) : Content{}, Style::unit);
        // 1 where the line is not the built-in one.
        sheet.put(Place("L", curve_first + line), used ? content_of(curve.at(at, 0)) : Content{}, Style::workings,
                  Format::hundredth);
        sheet.put(Place("M", curve_first + line), used ? content_of(curve.at(at, 1)) : Content{}, Style::workings,
                  Format::percent);
        sheet.put(Place("N", curve_first + line),
                  at_row("=IFERROR(IF(OR(B{r}<>L{r};C{r}<>M{r});1;0);0)", curve_first + line), Style::workings);
    }
    sheet.name("own_curve", Area("N", curve_first, curve_last));
    sheet.name("yield_curve", Area({2, curve_first}, {3, curve_last}));
    sheet.valid(Area("B", curve_first, curve_last), number(0, 100, "years"));
    sheet.valid(Area("C", curve_first, curve_last), share(0, 3));
    entries.add_rule("LEN(REWORK.WHY(\"YIELD\";1;1;yield_curve))=0", "REWORK.WHY(\"YIELD\";1;1;yield_curve)");
    sheet
        .put(Place("H", head + 1),
             "Published recovery times disagree: topworked citrus is back at its yield in two to three years (SA Fruit "
             "Journal, 2021), planted trees of a Florida survey bear a quarter of the oldest class at 3 to 5 years and "
             "half at 6 to 8 (Florida Agricultural Statistics, 1995 to 2000). The curve lies between the two and rests "
             "on experience.",
             Style::note)
        .across(3, 4);

    const int store = curve_last + 2;
    look::band(sheet, Place("B", store), "Buds alive in a store of your own (choose \"own\" on sheet Plan)", 9);
    look::headings(sheet, Place("B", store + 1), {"Days in store", "Alive"});
    constexpr int store_room = 8;
    const int store_last = store + 1 + store_room;
    // Winter-cut wood, kept frost-free and moist until spring: an example to type over.
    const std::array<std::array<double, 2>, 3> own{{{0, 1}, {60, 0.95}, {120, 0.83}}};
    for (int line = 0; line < store_room; ++line) {
        const auto at = static_cast<std::size_t>(line);
        const bool used = at < own.size();
        sheet.put(Place("B", store + 2 + line), used ? Content(own[at][0]) : Content{}, Style::kept, Format::count);
        sheet.put(Place("C", store + 2 + line), used ? Content(own[at][1]) : Content{}, Style::kept, Format::percent);
        sheet.put(
            Place("D", store + 2 + line),
            used
                ? "example, to type over; 83 % after 120 days: one orange of two, Revista Ceres (UFV), citrus budsticks"
                : "",
            Style::unit);
    }
    sheet.name("own_store", Area({2, store + 2}, {3, store_last}));
    sheet.valid(Area("B", store + 2, store_last), number(0, 10000, "days"));
    sheet.valid(Area("C", store + 2, store_last), share(0, 1));
    entries.add_rule("LEN(REWORK.WHY(\"BUDSALIVE\";0;own_store))=0", "REWORK.WHY(\"BUDSALIVE\";0;own_store)");

    int row = store_last + 2;
    look::band(sheet, Place("B", row++), "Buds alive in the stores that are built in", 9);
    for (const Table* table : {&slipbark::defaults::room_storage(), &slipbark::defaults::cool_storage()}) {
        sheet.put(Place("B", row), table == &slipbark::defaults::room_storage() ? "Store: room" : "Store: cool",
                  Style::heading);
        sheet.put(Place("C", row), "Alive", Style::heading);
        sheet.put(Place("D", row++), "Where it comes from", Style::heading).across(4);
        for (std::size_t line = 0; line < table->rows(); ++line, ++row) {
            sheet.put(Place("B", row), content_of(table->at(line, 0)), Style::body, Format::count);
            sheet.put(Place("C", row), content_of(table->at(line, 1)), Style::body, Format::percent);
            sheet.put(Place("D", row), content_of(table->at(line, 2)), Style::unit);
        }
    }
    entries.close("B3", 9);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {10, row - 1}));
}

}  // namespace slipbark::compose::block

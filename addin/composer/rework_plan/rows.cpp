// Rows: one line for each row of trees, from the planned day to the counts of its take.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

void rows(Workbook& book) {
    Sheet& sheet = book.sheet("Rows", Paper::landscape);
    sheet.columns({0.4, 1.9, 1.6, 1.6, 3.2, 3.2, 3.2, 2.1, 2.1, 2.1, 2.1, 2.4, 2.4, 2.4, 1.7, 2.2, 2.4,
                   2.4, 7.5, 0.8, 2.4, 1.8, 1.8, 1.8, 0.8, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2,
                   2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2, 2.2});
    look::opening(
        sheet, look::titled("Rows", "block"),
        "One line for each row of trees. Planned days follow from the order of the rows, the crew and its "
        "speed; what you type wins. Count live grafts at the take checks; where you know them, count the trees "
        "that are short and the live grafts they lack.",
        18);
    sheet.row_height(2, 1.0);
    Entries entries(sheet, "rows_entries");
    constexpr int first = 6;
    constexpr int last = first + row_room - 1;
    const auto column = [](const char* letter) { return Area(letter, first, last); };
    sheet.put("B4", "Trees in a row", Style::label).across(3);
    sheet.put("E4", 28.0, Style::input, Format::count).name("row_trees").valid(whole(1, 10000, "trees"));
    entries.add("Trees in a row", "E4", whole_kind(1, 10000, "trees"));
    sheet.put("F4", "for the lines that you do not fill in", Style::unit);
    sheet.put("I4", "Trees on this sheet", Style::label).across(3);
    sheet
        .put("L4", or_blank("IF(COUNT(" + column("C").text() + ")=0;\"\";SUM(" + column("C").text() + "))"),
             Style::answer, Format::count)
        .name("trees_in_rows");
    sheet.put("M4", or_blank("SUMPRODUCT(LEN(" + column("N").text() + ")>0)"), Style::answer, Format::count)
        .name("rows_counted");
    sheet.put("N4", "rows counted", Style::unit);
    check(sheet, "S4",
          "IF(trees_in_rows<>trees;\"The rows hold \"&trees_in_rows&\" trees, the block has \"&trees&\"\"&IF(AND("
          "trees_in_rows<trees;C" +
              std::to_string(last) + "<>\"\");\": room for " + std::to_string(row_room) +
              " rows, so give more trees a row.\";\".\");\"\")");
    look::headings(sheet, "B5",
                   {"Row", "Trees", "Lot", "Grafter", "Planned day", "Grafted on", "Grafts placed", "Live, 1st check",
                    "Live, 2nd check", "Live, 3rd check", "Trees short", "Live grafts they lack", "Live now", "Take",
                    "Live grafts missing", "Grafts to place", "Missing is", "Check"});
    sheet.put("U5", "Day used", Style::workings);
    sheet.put("V5", "Short", Style::workings);
    sheet.put("W5", "Frame", Style::workings);
    const auto suggest = [&](const char* letter, const std::string& formula, Format format) {
        sheet.fill_down(column(letter), formula, Style::input, format);
    };
    // Rows that nobody has typed follow from the trees that are left.
    suggest("B", "=IF(N(C{r})>0;ROW()-" + std::to_string(first - 1) + ";\"\")", Format::general);
    for (int row = first; row <= last; ++row) {
        const std::string above =
            row == first ? "0" : "SUM(C$" + std::to_string(first) + ":C" + std::to_string(row - 1) + ")";
        sheet.put(Place("C", row), "=IFERROR(IF(trees-" + above + ">0;MIN(row_trees;trees-" + above + ");\"\");\"\")",
                  Style::input, Format::count);
    }
    suggest("D", "=IF(N(C{r})>0;first_lot&\"\";\"\")", Format::text);
    suggest("E",
            "=IF(AND(N(C{r})>0;COUNTA(grafter_names)>0);INDEX(grafter_names;MOD(ROW()-" + std::to_string(first) +
                ";COUNTA(grafter_names))+1)&\"\";\"\")",
            Format::text);
    suggest("F",
            "=IF(N(C{r})>0;IFERROR(REWORK.CREWFINISH(start_date;SUM(C$" + std::to_string(first) +
                ":C{r})*grafts_per_tree;grafts_per_day;crew;days_off;holidays);\"\");\"\")",
            Format::weekday_date);
    sheet.empty(column("G"), Style::input, Format::weekday_date);
    suggest("H", "=IF(N(C{r})>0;IFERROR(C{r}*grafts_per_tree;\"\");\"\")", Format::count);
    for (const char* letter : {"I", "J", "K", "L", "M"}) sheet.empty(column(letter), Style::input, Format::count);
    sheet.valid(column("B"), any_text("the row's number or name"));
    sheet.valid(column("C"), whole(0, 10000, "trees"));
    sheet.valid(column("D"), any_text("the lot of the wood"));
    sheet.valid(column("E"), any_text("the grafter's name or mark"));
    sheet.valid(column("F"), any_date);
    sheet.valid(column("G"), any_date);
    for (const char* letter : {"H", "I", "J", "K", "M"}) sheet.valid(column(letter), whole(0, 1e6, "grafts"));
    sheet.valid(column("L"), whole(0, 10000, "trees"));

    const auto answer = [&](const char* letter, const std::string& formula, Style style, Format format) {
        sheet.fill_down(column(letter), formula, style, format);
    };
    answer("N", "=IF(COUNT(I{r}:K{r})=0;\"\";IF(ISNUMBER(K{r});K{r};IF(ISNUMBER(J{r});J{r};I{r})))", Style::answer,
           Format::count);
    answer("O", "=IF(N{r}=\"\";\"\";IFERROR(REWORK.TAKE(N{r};H{r});\"\"))", Style::answer, Format::percent);
    // Never netted over a row: what rich trees have too much does not grow on bare ones. Where only the row's total is
    // known, the plan's own model says what to expect.
    answer("P", "=IF(N{r}=\"\";\"\";IF(ISNUMBER(M{r});M{r};IFERROR(C{r}*live_wanted*(1-W{r});\"\")))", Style::answer,
           Format::tenth);
    answer("Q",
           "=IF(P{r}=\"\";\"\";IF(V{r}<=0;0;IFERROR(ROUNDUP(V{r}*(INDEX(regraft_for;INT(P{r}/V{r}+1E-9)+1)*(1-MOD(P{r}/"
           "V{r}+1E-9;1))+INDEX(regraft_for;MIN(live_wanted;INT(P{r}/V{r}+1E-9)+1)+1)*MOD(P{r}/V{r}+1E-9;1))-1E-6;0);"
           "\"\")))",
           Style::answer, Format::count);
    answer("R", "=IF(N{r}=\"\";\"\";IF(ISNUMBER(M{r});\"counted\";\"expected\"))", Style::body, Format::general);
    answer("S",
           "=IF(COUNTA(G{r};I{r}:M{r})+(N(C{r})>0)=0;IF(LEN(C{r})+LEN(F{r})+LEN(H{r})=0;\"\";\"Trees: give a whole "
           "number, or "
           "clear the line.\");IFERROR(IF(NOT(ISNUMBER(C{r}));\"Trees: give a whole number, or clear the line.\";IF(OR("
           "C{r}<1;INT(C{r})<>C{r});\"Trees: give a whole number from 1 "
           "on.\";IF(AND(F{r}<>\"\";OR(N(F{r})<36526;N(F{r})>73050));\"Planned day: give a "
           "date.\";IF(AND(G{r}<>\"\";OR(N(G{r})<36526;N(G{r})>73050));"
           "\"Grafted on: give a date.\";IF(OR(NOT(ISNUMBER(H{r}));N(H{r})<0;N(H{r})>1000000);\"Grafts placed: give a "
           "whole number.\";IF(COUNT(I{r}:"
           "M{r})<>COUNTA(I{r}:M{r});\"Counts: give whole numbers, or leave blank.\";IF(AND(ISNUMBER(I{r});ISNUMBER("
           "J{r});N(J{r})>N(I{r}));\"More alive at the second check than at the first.\";IF(AND(ISNUMBER(K{r});N(K{r})>"
           "MAX(J{r};0)*ISNUMBER(J{r})+1000000*NOT(ISNUMBER(J{r})));\"More alive at the third check than at the "
           "second.\";IF(AND(ISNUMBER(L{r});N(L{r})>C{r});\"More trees short than the row has.\";IF(AND(ISNUMBER(M{r});"
           "N(M{r})>C{r}*live_wanted);\"More live grafts missing than are wanted.\";IF(AND(ISNUMBER(L{r})<>ISNUMBER("
           "M{r}));\"Give both the trees short and the live grafts they lack.\";IF(N{r}=\"\";\"\";REWORK.WHY(\"TAKE\";"
           "N{r};H{r})))))))))))));\"An entry of this line does not fit.\"))",
           Style::check, Format::general);
    answer("U", "=IF(ISNUMBER(G{r});G{r};IF(ISNUMBER(F{r});F{r};\"\"))", Style::workings, Format::date);
    answer("W",
           "=IF(N{r}=\"\";\"\";IFERROR(IF(ISNUMBER(M{r});1-M{r}/(C{r}*live_wanted);REWORK.TREESHARE(ROUND(H{r}/C{r};0);"
           "O{r};live_wanted;clustering));\"\"))",
           Style::workings, Format::hundredth);
    answer("V",
           "=IF(N{r}=\"\";\"\";IF(ISNUMBER(L{r});L{r};IFERROR(C{r}*(1-REWORK.TREECHANCE(ROUND(H{r}/C{r};0);O{r};"
           "live_wanted;clustering));\"\")))",
           Style::workings, Format::tenth);
    answer("X", "=IF(W{r}=\"\";\"\";IFERROR(C{r}*W{r};\"\"))", Style::workings, Format::tenth);
    sheet.put("X5", "Trees x frame", Style::workings);
    look::mend_where_said(sheet, column("S"));
    entries.add_lines(column("S"));
    sheet.mark(column("P"), "AND(ISNUMBER(P6);P6>0)", Style::due);
    sheet.name("row_name", column("B"));
    sheet.name("row_planted", column("C"));
    sheet.name("batch", column("D"));
    sheet.name("grafter", column("E"));
    sheet.name("row_planned", column("F"));
    sheet.name("row_grafted", column("G"));
    sheet.name("placed", column("H"));
    sheet.name("live_first", column("I"));
    sheet.name("live_second", column("J"));
    sheet.name("live_third", column("K"));
    sheet.name("live_now", column("N"));
    sheet.name("to_redo", column("P"));
    sheet.name("row_regrafts", column("Q"));
    sheet.name("row_date", column("U"));
    sheet.name("rows_kind", column("R"));
    sheet.name("row_frame", column("X"));
    // What is done, row by row and stage by stage: the stages as sheet Calendar lists them. A cell shows its frame
    // where it means something.
    const Place marks("Z", first);
    sheet.put(Place("Z", 4), "Done: an x or the day, stage by stage", Style::section);
    for (int stage = 0; stage < stage_room; ++stage) {
        sheet.put({marks.column + stage, 5}, "=Calendar.B" + std::to_string(6 + stage) + "&\"\"", Style::heading);
    }
    const Area done(marks, {marks.column + stage_room - 1, last});
    sheet.name("done", done);
    sheet.mark(done, "AND(LEN($C" + std::to_string(first) + ")>0;LEN(Z$5)>0)", Style::input);
    // A small block shows one page of lines; the others are folded away, each page inside the one before.
    for (int fold = first + rows_shown; fold <= last; fold += rows_shown) sheet.fold(fold, last);
    entries.close("B3", 18);
    sheet.freeze(5);
    sheet.cursor("I6");
    sheet.print_area(Area({1, 1}, {19, last}));
}

}  // namespace slipbark::compose::block

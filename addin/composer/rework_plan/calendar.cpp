// Calendar: the block's stages from the first day's earliest to the last day's latest, and the same as bars.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/methods.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int first = 6;
constexpr int last = first + stage_room - 1;

/// A stage as a bar of characters, one for each `days` days from `start` on, `wide` of them. What lies outside is cut.
std::string bar(const std::string& start, const std::string& days, int wide) {
    const std::string width = std::to_string(wide);
    const auto at = [&](const std::string& date) {
        return "MAX(0;MIN(" + width + ";INT((" + date + "-" + start + ")/" + days + ")))";
    };
    const std::string from = at("C{r}");
    const std::string first_target = at("D{r}");
    const std::string last_target = at("E{r}");
    const std::string to = at("F{r}");
    return "=IF(B{r}=\"\";\"\";IFERROR(IF(OR(F{r}<" + start + ";C{r}>=" + start + "+" + width + "*" + days +
           ");\"\";REPT(\" \";" + from + ")&REPT(\"░\";MAX(0;" + first_target + "-" + from + "))&REPT(\"█\";MAX(1;" +
           last_target + "-" + first_target + "+1))&REPT(\"░\";MAX(0;" + to + "-" + last_target + ")));\"\"))";
}

/// The dates over the bars, one every `each` characters.
std::string scale(const std::string& start, const std::string& days, int wide, int each, bool day_of_month) {
    std::string text;
    for (int at = 0; at < wide; at += each) {
        const std::string date = "(" + start + "+" + std::to_string(at) + "*" + days + ")";
        const std::string month =
            "CHOOSE(MONTH" + date + R"(;"Jan";"Feb";"Mar";"Apr";"May";"Jun";"Jul";"Aug";"Sep";"Oct";"Nov";"Dec"))";
        const std::string label = day_of_month ? "DAY" + date + "&\" \"&" + month : month + "&\" \"&YEAR" + date;
        text += (text.empty() ? "LEFT(\"|\"&" : "&LEFT(\"|\"&") + label + "&REPT(\" \";" + std::to_string(each) + ");" +
                std::to_string(each) + ")";
    }
    return or_blank(text);
}

}  // namespace

void calendar(Workbook& book) {
    Sheet& sheet = book.sheet("Calendar", Paper::landscape);
    sheet.columns(
        {0.4, 5.8, 3.2, 3.2, 3.2, 3.2, 10.4, 2.6, 3.4, 0.8, 4, 2.4, 2.4, 2.4, 4, 0.5, 4, 2.4, 2.4, 2.4, 4, 2, 2, 2, 2});
    look::opening(
        sheet, look::titled("Calendar", "block"),
        "The block's stages: earliest for what is grafted on the first day, latest for what is grafted on the last. A "
        "sign on the tree outranks a date. Mark what is done with an x, or write down the day; each row has its own on "
        "sheet Rows. The offsets are on sheet Defaults.",
        8);
    sheet.row_height(2, 1.0);
    sheet
        .put("B3",
             or_blank("\"Grafting \"&" + date_words("first_day") + "&\" to \"&" + date_words("last_day") +
                      "&IF(COUNT(row_grafted)>0;\" (sheet Rows: \"&COUNT(row_grafted)&\" rows grafted)\";\" as "
                      "planned\")"),
             Style::lead)
        .across(8);
    look::headings(sheet, "B5",
                   {"Stage", "Earliest, first day", "Target, first day", "Target, last day", "Latest, last day",
                    "Sign to look for", "Done", "Done on"});
    // Behind the table: the schedule of the first day and of the last.
    const auto behind = [&](const char* column, const std::string& day) {
        const Place from(column, first);
        sheet.array(Area(from, {from.column + 4, last}),
                    "=" + with_blanks_below("REWORK.SCHEDULE(" + day + ";stages)", stage_room, 5), Style::workings,
                    {Format::general, Format::date, Format::date, Format::date, Format::general});
    };
    behind("K", "first_day");
    behind("Q", "last_day");
    const auto fill = [&](const char* column, const std::string& formula, Format format) {
        sheet.fill_down(Area(column, first, last), formula, Style::body, format);
    };
    // A text in the table of an array formula compares unequal to the same text elsewhere (LibreOffice 7.4); joined to
    // an empty text it is like any other. Crops are shown at their harvest, as sheet Money has them.
    fill("B", "=K{r}&\"\"", Format::general);
    const std::string first_is = "V{r}=1";
    const std::string second_is = "V{r}=2";
    const auto crop_or = [&](const std::string& date) {
        return "=IF(B{r}=\"\";\"\";IF(V{r}=1;crop_date_1;IF(V{r}=2;crop_date_2;" + date + ")))";
    };
    fill("C", crop_or("L{r}"), Format::weekday_date);
    fill("D", crop_or("M{r}"), Format::weekday_date);
    fill("E", crop_or("S{r}"), Format::weekday_date);
    fill("F", crop_or("T{r}"), Format::weekday_date);
    fill("G",
         "=IF(B{r}=\"\";\"\";IF(V{r}=1;IFERROR(\"Harvest of \"&YEAR(crop_date_1)&\": about "
         "\"&ROUND(100*first_crop_share;"
         "0)&\" % of a mature crop\";O{r}&\"\");IF(V{r}=2;IFERROR(\"Harvest of \"&YEAR(crop_date_2)&\": about "
         "\"&ROUND(100*"
         "second_crop_share;0)&\" % of a mature crop\";O{r}&\"\");O{r}&\"\")))",
         Format::general);
    sheet.fill_down(Area("V", first, last),
                    "=IF(B{r}=\"\";0;IF(B{r}=crop_stage_1&\"\";1;IF(B{r}=crop_stage_2&\"\";2;0)))", Style::workings);
    sheet.put(Place("V", first - 1), "Crop", Style::workings);
    // Done in the block once every row has its mark.
    for (int row = first; row <= last; ++row) {
        const std::string marks = "INDEX(done;0;" + std::to_string(row - first + 1) + ")";
        sheet.put(Place("H", row),
                  "=IF(B" + std::to_string(row) + "=\"\";\"\";IF(AND(COUNTA(" + marks + ")>0;COUNTA(" + marks +
                      ")>=COUNT(row_planted));\"x\";\"\"))",
                  Style::input, Format::text);
    }
    sheet.valid(Area("H", first, last), one_of({"x"}));
    sheet.empty(Area("I", first, last), Style::input, Format::date);
    sheet.valid(Area("I", first, last), any_date);
    sheet.mark(Area("B", first, last), "AND(LEN(B6)>0;B6=next_stage)", Style::due);
    sheet.mark(Area("F", first, last), R"(AND(ISNUMBER($F6);$F6<as_of;$H6&$I6=""))", Style::mend);
    sheet.mark(Area("B", first, last), R"(AND(LEN($B6)>0;$H6&$I6<>""))", Style::done);
    // What is due next is not done, and its last day has not passed; what has passed without a mark is counted.
    sheet.fill_down(Area("W", first, last),
                    "=IF(OR(B{r}=\"\";H{r}&I{r}<>\"\";NOT(ISNUMBER(F{r})));0;IF(F{r}<as_of;-1;1))", Style::workings);
    sheet.put(Place("X", first - 1), "Marked", Style::workings);
    sheet.fill_down(Area("X", first, last), "=IF(ISNUMBER(I{r});I{r};H{r}&\"\")", Style::workings);
    sheet.put(Place("Y", first - 1), "Up to the grafting", Style::workings);
    sheet.fill_down(Area("Y", first, last), "=IF(ISNUMBER(M{r});IF(M{r}<=first_day;1;0);0)", Style::workings);
    sheet.name("stage_to_graft", Area("Y", first, last));
    sheet.name("stage_marks", Area("X", first, last));
    sheet.name("stage_open", Area("W", first, last));

    Entries entries(sheet, "calendar_entries");
    const int below = last + 2;
    Lines lines(sheet, Place("B", below), entries, {.value = 2, .check = 2});
    lines.input("Look at the plan as of", "as_of", or_blank("graft_day-7"), "a date, or =TODAY()", Format::weekday_date,
                date_kind());
    lines
        .answer("Stage due next", "next_stage",
                "IF(COUNTIF(stage_open;1)=0;\"\";INDEX(" + Area("B", first, last).text() + ";MATCH(1;stage_open;0)))",
                "", Format::text, "")
        .answer("Past their last day without a mark", "stages_overdue",
                "IF(COUNTIF(stage_open;\"<>0\")=0;\"\";COUNTIF(stage_open;-1))", "stages", Format::count,
                "IF(N(stages_overdue)>0;\"Framed in the table: mark them, or do them.\";\"\")")
        .answer("First day of grafting used", "first_day", "IF(COUNT(row_grafted)>0;MIN(row_date);graft_day)", "date",
                Format::weekday_date, "")
        .answer("Last day of grafting used", "last_day", "IF(COUNT(row_grafted)>0;MAX(row_date);finish_date)", "date",
                Format::weekday_date, "REWORK.WHY(\"SCHEDULE\";graft_day;stages)");
    const std::string done = Area("H", first, last).text();
    entries.add_rule("SUMPRODUCT((" + done + "<>\"\")*(LOWER(" + done + ")<>\"x\"))=0",
                     quoted("Done: give x, or leave blank."));
    const std::string done_on = Area("I", first, last).text();
    entries.add_rule("COUNTA(" + done_on + ")=COUNTIFS(" + done_on + ";\">=36526\";" + done_on + ";\"<=73050\")",
                     quoted("Done on: give dates from 2000 to 2099, or leave blank."));
    entries.close(Place("B", below + 5), 8);

    // Bars of characters: they show dates, print in grey and follow every change.
    const int bars = below + 7;
    sheet.page_break(bars);
    constexpr int wide = 104;
    const std::string start = "bars_from";
    const auto drawn = [&](int band, const std::string& title, const std::string& from, const std::string& days,
                           int each, bool day_of_month) {
        look::band(sheet, Place("B", band), title, 8);
        sheet.put(Place("C", band + 1), scale(from, days, wide, each, day_of_month), Style::bars).across(6);
        for (int stage = 0; stage < stage_room; ++stage) {
            const int row = band + 2 + stage;
            std::string formula = bar(from, days, wide);
            sheet.put(Place("B", row), "=B" + std::to_string(first + stage), Style::label);
            sheet.put(Place("C", row), at_row(formula, first + stage), Style::bars).across(6);
            sheet.row_height(row, 0.42);
        }
    };
    sheet
        .put(Place("K", bars), or_blank("MAX(MIN(" + Area("C", first, last).text() + ");first_day-56)"),
             Style::workings, Format::date)
        .name("bars_from");
    sheet
        .put(Place("K", bars + 1), or_blank("MIN(" + Area("C", first, last).text() + ")"), Style::workings,
             Format::date)
        .name("long_bars_from");
    drawn(bars, "The first season: shaded from earliest to latest, dark from the first day's target to the last day's",
          "bars_from", "3.5", 8, true);
    drawn(bars + stage_room + 3, "To the second crop", "long_bars_from", "(1461/96)", 12, false);
    sheet.freeze(5);
    sheet.cursor(Place("H", first));
    sheet.print_area(Area({1, 1}, {9, bars + 2 * stage_room + 5}));
}

}  // namespace slipbark::compose::block

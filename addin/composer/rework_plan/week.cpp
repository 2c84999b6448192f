// Week: what is due in one week, row by row, for the crew; no pay and no prices.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

void week(Workbook& book) {
    Sheet& sheet = book.sheet("Week", Paper::landscape);
    sheet.columns({0.4, 2.4, 6.0, 3.3, 3.3, 3.3, 2.1, 9.0, 2.4, 2.2, 2.6, 0.8, 2});
    look::opening(
        sheet, look::titled("Week", "block"),
        "What is due, row by row, as sheet Rows has them grafted or planned and as far as nothing is marked done "
        "there. A sign on the tree outranks a date.",
        10);
    Entries entries(sheet, "week_entries");
    Lines left(sheet, "B4", entries, {.label = 2, .value = 1, .unit = 2});
    left.section("The week")
        .input("From", "week_from", "=IFERROR(as_of-WEEKDAY(as_of;2)+8;\"\")", "date; the Monday to come",
               Format::weekday_date, date_kind())
        .kept("Days", "week_days", 7.0, "days", Format::count, whole_kind(1, 366, "days"))
        .answer("Until", "week_until", "week_from+week_days-1", "date", Format::weekday_date, "");
    Lines right(sheet, "G4", entries, {.label = 2, .value = 1, .unit = 1, .check = 1});
    constexpr int head = 10;
    constexpr int first = head + 1;
    constexpr int room = 200;
    constexpr int last = first + room - 1;
    const std::string hours = Area("J", first, last).text();
    right.section("The work")
        .total("Hours of work in the list", "week_hours", "IF(COUNT(row_date)=0;\"\";SUM(" + hours + "))", "hours",
               Format::tenth, "")
        .answer("Working days in the week", "week_workdays",
                "COM.MICROSOFT.NETWORKDAYS.INTL(week_from;week_until;days_off;holidays)", "days", Format::count, "")
        .answer("People needed for it", "week_people",
                "IF(week_hours=0;0;IF(week_workdays>0;ROUNDUP(week_hours/(week_workdays*day_hours);0);\"\"))",
                "=\"people; there: \"&crew", Format::count, "");
    sheet
        .put(
            "B9",
            quiet(
                "IF(N(week_people)>crew;\"More work than people: \"&week_people&\" are needed, \"&crew&\" are there.\";"
                "IF(week_lines>" +
                std::to_string(room) + ";\"Room for " + std::to_string(room) +
                " of \"&week_lines&\" lines: choose fewer days.\";IF(AND(ISNUMBER(week_hours);week_workdays=0;"
                "week_hours>0);\"Nobody works in this week.\";IF(week_lines>" +
                std::to_string(week_shown) + ";\"Lines past the first " + std::to_string(week_shown) +
                " are folded away: open them with the + at the left edge.\";\"\"))))"),
            Style::check)
        .across(10);
    look::mend_where_said(sheet, "B9");
    look::headings(
        sheet, Place("B", head),
        {"Row", "Stage", "Earliest", "Target", "Latest", "State", "Sign to look for", "Trees", "Hours", "Done on"});
    // What is done once for the block is no row's work: it counts as done there, and has a list of its own behind. A
    // row that is grafted needs no marks for what comes before.
    const std::string call =
        "REWORK.DUELIST(row_name;row_date;week_from;week_until;stages;IF(TRANSPOSE(stage_once)+ISNUMBER(row_grafted)*"
        "TRANSPOSE(stage_to_graft)>0;\"x\";done))";
    constexpr int block_room = 6;
    sheet.put(Place("P", head), "Once for the block", Style::workings);
    sheet.array(Area({16, first}, {22, first + block_room - 1}),
                "=" + with_blanks_below("REWORK.DUELIST(\"block\";first_day;week_from;week_until;stages;IF(TRANSPOSE("
                                        "stage_once)=0;\"x\";TRANSPOSE(stage_marks)))",
                                        block_room, 7),
                Style::workings, {Format::general, Format::general, Format::date, Format::date, Format::date});
    sheet.fill_down(Area("W", first, first + block_room - 1),
                    "=IF(Q{r}&\"\"=\"\";\"\";Q{r}&\", latest \"&" + date_words("T{r}") + ")", Style::workings);
    sheet
        .put("B8",
             or_blank("IF(LEN(W" + std::to_string(first) +
                      ")=0;\"\";\"For the block: \"&COM.MICROSOFT.TEXTJOIN(\"; \";TRUE();" +
                      Area("W", first, first + block_room - 1).text() + ")&\".\")"),
             Style::body)
        .name("week_for_block")
        .across(5);
    sheet.array(Area({2, first}, {8, last}),
                // Asked for only where there is something: Calc would work an answer that is missing out for each line.
                "=IF(N(week_lines)=0;\"\";" + with_blanks_below(call, room, 7) + ")", Style::plain,
                {Format::general, Format::general, Format::weekday_date, Format::weekday_date, Format::weekday_date,
                 Format::general, Format::general});
    const auto fill = [&](const char* column, const std::string& what, Format format) {
        sheet.fill_down(Area(column, first, last), "=IF(C{r}&\"\"=\"\";\"\";IFERROR(" + what + ";\"\"))", Style::plain,
                        format);
    };
    fill("I", "INDEX(row_planted;MATCH(B{r};row_name;0))", Format::count);
    fill("J", "I{r}*INDEX(labour_minutes;MATCH(C{r}&\"\";labour_stage;0))/60", Format::tenth);
    sheet.array(Area("M4"), or_blank("IF(COUNT(row_date)=0;0;IFERROR(ROWS(" + call + ");0))"), Style::workings,
                {Format::count});
    sheet.name("week_lines", "M4");
    sheet.mark(Area({2, first}, {11, last}), "LEN($C" + std::to_string(first) + ")>0", Style::body);
    sheet.mark(Area("G", first, last), "G" + std::to_string(first) + "&\"\"=\"overdue\"", Style::mend);
    for (int fold = first + week_shown; fold <= last; fold += rows_shown) sheet.fold(fold, last);
    entries.close("B3", 10);
    sheet.freeze(head);
    sheet.cursor("D5");
    sheet.print_area(Area({1, 1}, {11, last}));
}

}  // namespace slipbark::compose::block

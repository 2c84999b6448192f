// Crew: who grafts, how fast, on which days, until when the bark slips; and the hours of all that follows.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/methods.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int labour_band = 32;
constexpr int first_stage = labour_band + 2;
constexpr int last_stage = first_stage + stage_room - 1;
constexpr int once_column = 14;  // AB from N on

void labour(Sheet& sheet, Entries& entries) {
    sheet.page_break(labour_band);
    look::band(
        sheet, Place("B", labour_band),
        "Labour, stage by stage: minutes a tree are assumptions until you have your own; x is done once for the block",
        8);
    look::headings(sheet, Place("B", labour_band + 1), {"Stage", "Minutes a tree, each time", "Times", "Once"});
    look::headings(sheet, Place("F", labour_band + 1),
                   {"Where it comes from", "Hours in the block", "Target, first day", "Check"});
    // Behind the suggestions: minutes and times by method.
    sheet.put(Place("N", labour_band), "Minutes and times by method", Style::workings);
    const auto& all = methods();
    for (int stage = 0; stage < stage_room; ++stage) {
        const int row = first_stage + stage;
        const std::string line = std::to_string(row);
        int column = Place("N", 1).column;
        for (const Method& method : all) {
            const auto at = static_cast<std::size_t>(stage);
            const bool known = at < method.stages.size() && method.stages[at].minutes > 0;
            sheet.put({column, row}, known ? Content(method.stages[at].minutes) : Content{}, Style::workings);
            sheet.put({column + 4, row}, known ? Content(method.stages[at].times) : Content{}, Style::workings);
            const bool once = at < method.stages.size() && method.stages[at].once;
            sheet.put({column + once_column, row}, once ? Content(1.0) : Content{}, Style::workings);
            ++column;
        }
        sheet.put(Place("B", row), "=Defaults.B" + std::to_string(first_stage_default + stage) + "&\"\"", Style::body);
        const auto suggested = [&](const std::string& from, const std::string& to) {
            return "=IFERROR(IF(INDEX(" + from + line + ":" + to + line + ";1;method_number)>0;INDEX(" + from + line +
                   ":" + to + line + ";1;method_number);\"\");\"\")";
        };
        sheet.put(Place("C", row), suggested("N", "Q"), Style::input, Format::tenth);
        sheet.put(Place("D", row), suggested("R", "U"), Style::input, Format::count);
        sheet.put(Place("E", row), at_row("=IFERROR(IF(INDEX(AB{r}:AE{r};1;method_number)>0;\"x\";\"\");\"\")", row),
                  Style::input, Format::text);
        sheet.put(
            Place("F", row),
            at_row("=IF(N(C{r})>0;IF(AF{r}=1;\"your own\";\"assumption of this program, until typed over\");\"\")",
                   row),
            Style::unit);
        sheet.put(Place("G", row), at_row("=IF(AND(K{r}>0;ISNUMBER(trees));IFERROR(K{r}*trees/60;\"\");\"\")", row),
                  Style::answer, Format::count);
        sheet.put(Place("H", row), at_row("=IF(L{r}>0;L{r};\"\")", row), Style::answer, Format::date);
        sheet.put(
            Place("I", row),
            at_row(
                "=IF(IFERROR(AND(LEN(E{r})>0;LOWER(E{r}&\"\")<>\"x\");TRUE());\"Once for the block: x, or "
                "nothing.\";IF(OR(AND(C{r}=\"\";D{r}=\"\");IFERROR(IF(AND(ISNUMBER(C{r});ISNUMBER(D{r}));AND(C{r}>=0;"
                "C{r}<=1000;D{r}>=0;D{r}<=100);FALSE());FALSE()));\"\";\"Minutes from 0 to 1000, times from 0 "
                "to 100, or nothing.\"))",
                row),
            Style::check);
        // 1 where the minutes are not those of the method.
        sheet.put(Place("AF", row),
                  at_row("=IFERROR(IF(AND(ISNUMBER(C{r});C{r}<>N(INDEX(N{r}:Q{r};1;method_number)));1;0);0)", row),
                  Style::workings);
        sheet.put(Place("K", row), at_row("=IFERROR(N(C{r})*N(D{r});0)", row), Style::workings, Format::tenth);
        sheet.put(Place("L", row), at_row("=IF(B{r}=\"\";0;IFERROR(REWORK.MILESTONE(graft_day;B{r};0;stages);0))", row),
                  Style::workings, Format::date);
    }
    sheet.valid(Area("C", first_stage, last_stage), number(0, 1000, "minutes"));
    sheet.valid(Area("D", first_stage, last_stage), number(0, 100, "times"));
    sheet.valid(Area("E", first_stage, last_stage), one_of({"x"}));
    look::mend_where_said(sheet, Area("I", first_stage, last_stage));
    entries.add_lines(Area("I", first_stage, last_stage));
    sheet.name("own_minutes", Area("AF", first_stage, last_stage));
    sheet.name("labour_stage", Area("B", first_stage, last_stage));
    sheet.name("labour_once", Area("E", first_stage, last_stage));
    sheet.name("labour_minutes", Area("K", first_stage, last_stage));
    sheet.name("labour_target", Area("L", first_stage, last_stage));
}

/// The same hours month by month, every row of trees at its own dates.
void months(Sheet& sheet) {
    constexpr int head = labour_band + 1;
    constexpr int first = head + 1;
    constexpr int last = first + 29;
    // By the stages as sheet Calendar lists them.
    sheet.put(Place("V", head), "Once for the block", Style::workings);
    sheet.put(Place("W", head), "Minutes by stage", Style::workings);
    for (int stage = 0; stage < stage_room; ++stage) {
        const std::string name = "Calendar.B" + std::to_string(6 + stage);
        sheet.put(Place("W", first + stage),
                  "=IF(" + name + "=\"\";\"\";IFERROR(INDEX(labour_minutes;MATCH(" + name + ";labour_stage;0));0))",
                  Style::workings, Format::tenth);
        sheet.put(Place("V", first + stage),
                  "=IF(" + name + "=\"\";-1;IFERROR(IF(LOWER(INDEX(labour_once;MATCH(" + name +
                      ";labour_stage;0)))=\"x\";1;0);0))",
                  Style::workings);
        sheet.put(Place("M", first + stage), at_row("=IF(AND(K{r}>0;L{r}>0);L{r};\"\")", first + stage),
                  Style::workings, Format::date);
    }
    sheet.name("stage_once", Area("V", first, first + stage_room - 1));
    sheet.name("stage_minutes", Area("W", first, first + stage_room - 1));
    sheet.put(Place("Y", head), "Month", Style::workings);
    sheet.put(Place("Z", head), "Hours in the month", Style::workings);
    const std::string worked = Area("M", first, first + stage_room - 1).text();
    sheet.put(Place("Y", first), or_blank("DATE(YEAR(MIN(" + worked + "));MONTH(MIN(" + worked + "));1)"),
              Style::workings, Format::date);
    for (int row = first + 1; row <= last; ++row) {
        sheet.put(Place("Y", row),
                  or_blank("EDATE(Y$" + std::to_string(first) + ";" + std::to_string(row - first) + ")"),
                  Style::workings, Format::date);
    }
    sheet.put(Place("X", head), "As a label", Style::workings);
    sheet.fill_down(
        Area("X", first, last),
        or_blank("CHOOSE(MONTH(Y{r});\"Jan\";\"Feb\";\"Mar\";\"Apr\";\"May\";\"Jun\";\"Jul\";\"Aug\";\"Sep\";"
                 "\"Oct\";\"Nov\";\"Dec\")&\" \"&YEAR(Y{r})"),
        Style::workings);
    sheet.array(Area("Z", first, last),
                or_blank("REWORK.WORKLOAD(row_date;row_planted;stage_minutes;Y" + std::to_string(first) +
                         ";30;\"month\";"
                         "stages)"),
                Style::workings, {Format::count});
    sheet.name("hours_by_month", Area("Z", first, last));
    sheet.chart(
        Place("B", last_stage + 2), 33, 8,
        {.title = "Hours of work by month, without grafting itself",
         .description = "A column for each month's hours: cutting before grafting, the rounds after it, framework "
                        "and nurse limbs in the second year.",
         .categories = Area("X", first, last),
         .category_title = "",
         .value_title = "hours",
         .value_format = Format::count,
         .series = {{.values = Area("Z", first, last),
                     .label = Place("Z", head),
                     .shape = Series::Shape::column,
                     .paint = 2}},
         .legend = false,
         .least = 0});
}

}  // namespace

void crew(Workbook& book) {
    Sheet& sheet = book.sheet("Crew", Paper::landscape);
    sheet.columns({0.4, 6.4, 3.2, 3.4, 1.3, 6.3, 3.6, 3.2, 8.0, 0.8, 1.6, 2.4, 0.8,
                   1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 0.8, 2,   2.2, 2.4, 2});
    look::opening(
        sheet, look::titled("Crew", "block"),
        "Who grafts, how fast, and on which days nobody works. The bark slips for a few weeks only: plan to end "
        "before it tightens.",
        8);
    Entries entries(sheet, "crew_entries");
    Lines inputs(sheet, "B4", entries);
    inputs.section("The work")
        .input("The bark slips for", "slip_days", 25.0, "days from the first", Format::count,
               whole_kind(1, 366, "days"))
        .input("Last day the bark slips", "window_end", or_blank("graft_day+slip_days"), "date", Format::weekday_date,
               date_kind())
        .input("Grafters", "crew", 3.0, "people", Format::count, whole_kind(1, 500, "people"))
        .input("Grafts a grafter places in a day", "grafts_per_day", 110.0, "grafts", Format::count,
               number_kind(1, 10000, "grafts"))
        .input("Day rate of a grafter", "day_pay", 210.0, "=currency&\"\"", Format::count,
               number_kind(0, 1e6, "your money"))
        .kept("Hours worked in a day", "day_hours", 8.0, "hours", Format::tenth, number_kind(1, 24, "hours"))
        .input("Pay of an hour, other work", "hour_pay", 15.0, "=currency&\"\"", Format::hundredth,
               number_kind(0, 1e6, "your money"));
    inputs.section("The week");
    constexpr int monday = 13;
    const std::array<const char*, 7> days{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
    for (const char* day : days) {
        const bool off = std::string(day) == "Saturday" || std::string(day) == "Sunday";
        inputs.kept(day, "", off ? "off" : "work", "work or off", Format::text, choice_kind({"work", "off"}));
    }
    inputs.section("Holidays");
    constexpr int first = 21;
    constexpr int last = 30;
    for (int row = first; row <= last; ++row) {
        inputs.input("Holiday " + std::to_string(row - first + 1), "", Content{}, "date, or blank",
                     Format::weekday_date, date_kind().or_blank());
    }
    sheet.name("holidays", Area("C", first, last));
    std::string off;
    for (int row = monday; row < monday + 7; ++row) {
        off += (off.empty() ? "IF(C" : "&IF(C") + std::to_string(row) + "=\"off\";\"1\";\"0\")";
    }

    Lines answers(sheet, "F4", entries, {.check = 1});
    answers.section("What follows")
        .answer("First day of grafting (sheet Plan)", "start_date", "graft_day", "date", Format::weekday_date, "")
        .answer("Grafts to place", "", "grafts", "grafts", Format::count, "")
        .answer("Days off, Monday to Sunday", "days_off", off, "1 = off", Format::text,
                "IF(days_off=\"1111111\";\"Nobody works on any day of the week.\";\"\")")
        .answer("Working days needed", "crew_days", "REWORK.CREWDAYS(grafts;grafts_per_day;crew)", "days",
                Format::count)
        .total("Last day of grafting", "finish_date",
               "REWORK.CREWFINISH(start_date;grafts;grafts_per_day;crew;days_off;holidays)", "date",
               Format::weekday_date)
        .answer("Days to spare before the bark tightens", "", "window_end-finish_date", "days", Format::count,
                "IF(N(finish_date)>window_end;\"Ends \"&(finish_date-window_end)&\" days after the bark tightens: more "
                "grafters, or an earlier start.\";\"\")")
        .answer("Fewest grafters who end in time", "crew_needed",
                "REWORK.CREWSIZE(start_date;window_end;grafts;grafts_per_day;days_off;holidays)", "people",
                Format::count)
        .answer("Pay for grafting", "grafting_pay", "crew_days*crew*day_pay", "=currency&\"\"", Format::count, "");
    answers.section("Names of the grafters");
    constexpr int first_name = 14;
    constexpr int last_name = 21;
    for (int row = first_name; row <= last_name; ++row) {
        answers.input("Grafter " + std::to_string(row - first_name + 1), "", Content{}, "name, or blank", Format::text,
                      text_kind("a name or a mark"));
    }
    sheet.name("grafter_names", Area("G", first_name, last_name));
    sheet
        .put("F23",
             "Heat, dust and sun tire a crew: shade, water and breaks come out of the day's grafts. Trained hands "
             "only on saws; ladders on firm and level ground.",
             Style::caution)
        .across(4, 3);
    labour(sheet, entries);
    months(sheet);
    entries.close("B3", 8);
    sheet.cursor("C5");
    sheet.print_area(Area({1, 1}, {9, last_stage + 2}));
}

}  // namespace slipbark::compose::block

// Heat summed since grafting, from each day's low and high: when callus should have formed, beside the calendar's
// dates.
//
// The scene is invented: block, season and every reading. The readings are drawn once with a fixed seed.
#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "workbooks/look.hpp"
#include "workbooks/sheet.hpp"
#include "workbooks/workbooks.hpp"

namespace slipbark::compose {

namespace {

using look::Form;
using std::chrono::September;
using std::chrono::year;

constexpr int first_day = 6;  // rows of sheet Record
constexpr int last_day = first_day + 240 - 1;

/// What every heat function takes after its readings.
constexpr const char* settings = "upper_used;method;cutoff)";

struct Reading {
    double low;
    double high;
};

/// A season of 120 days that warms up, with spells of some days: each day keeps two thirds of the last one's departure.
std::vector<Reading> invented_season() {
    std::mt19937 engine{1187};
    const auto swing = [&engine](double most) {  // whole draws: the library's distributions differ by compiler
        return most * (static_cast<double>(engine() % 2001) / 1000 - 1);
    };
    const auto tenth = [](double value) { return std::round(value * 10) / 10; };
    std::vector<Reading> season;
    double spell = 0;
    for (int day = 0; day < 120; ++day) {
        const double along = day / 119.0;
        spell = spell * 2 / 3 + swing(2.4);
        const double low = 7.4 + 8.4 * along + spell + swing(1.2);
        const double high = 18.2 + 10.6 * along + 1.3 * spell + swing(1.8);
        season.push_back({tenth(low), tenth(std::max(high, low + 2))});
    }
    return season;
}

constexpr int chart_first = 6;  // rows behind the chart on sheet Heat
constexpr int chart_days = 57;  // from a week before grafting to seven weeks after it

void behind_the_chart(Sheet& sheet) {
    constexpr int last = chart_first + chart_days - 1;
    sheet.put("K4", "Behind the chart; not printed", Style::workings);
    const std::array<const char*, 8> heads{"Day",
                                           "Date",
                                           "Sum",
                                           "Other days",
                                           "First look (earliest to latest)",
                                           "First airing (earliest to latest)",
                                           "Heat wanted for callus",
                                           "Callus should have formed"};
    for (std::size_t at = 0; at < heads.size(); ++at) {
        sheet.put(Place(11 + static_cast<int>(at), chart_first - 1), heads.at(at), Style::workings);
    }
    for (int row = chart_first; row <= last; ++row) {
        sheet.put(Place("L", row), "=graft_date+" + std::to_string(row - chart_first - 7), Style::workings,
                  Format::date);
    }
    sheet.fill_down(
        Area("K", chart_first, last),
        "=DAY(L{r})&\" \"&CHOOSE(MONTH(L{r});\"Jan\";\"Feb\";\"Mar\";\"Apr\";\"May\";\"Jun\";\"Jul\";\"Aug\";"
        "\"Sep\";\"Oct\";\"Nov\";\"Dec\")",
        Style::workings);
    sheet.fill_down(Area("M", chart_first, last), R"(=IFNA(INDEX(summed;MATCH(L{r};record_dates;0));""))",
                    Style::workings, Format::tenth);
    sheet.fill_down(Area("N", chart_first, last), "=IF(COUNT(O{r}:P{r};R{r})=0;M{r};\"\")", Style::workings,
                    Format::tenth);
    sheet.fill_down(Area("O", chart_first, last),
                    "=IF(AND(L{r}>=INDEX(first_look;1);L{r}<=INDEX(first_look;3);L{r}<>callus_day);M{r};\"\")",
                    Style::workings, Format::tenth);
    sheet.fill_down(Area("P", chart_first, last),
                    "=IF(AND(L{r}>=INDEX(first_airing;1);L{r}<=INDEX(first_airing;3);L{r}<>callus_day);M{r};\"\")",
                    Style::workings, Format::tenth);
    sheet.fill_down(Area("Q", chart_first, last), "=target_sum", Style::workings, Format::tenth);
    sheet.fill_down(Area("R", chart_first, last), "=IF(L{r}=callus_day;M{r};\"\")", Style::workings, Format::tenth);

    using Shape = Series::Shape;
    constexpr int head = chart_first - 1;
    const auto column = [&](const char* letters, Shape shape, int paint) {
        return Series{
            .values = Area(letters, chart_first, last), .label = Place(letters, head), .shape = shape, .paint = paint};
    };
    sheet.chart(
        Place("B", 22), 34, 7.6,
        {.title = "Heat summed since the first day of grafting, and the calendar's own dates",
         .description =
             "A column for each day from a week before grafting to seven weeks after it; darker where the "
             "calendar has the first look and the first airing. A line marks the heat wanted for callus, a column "
             "of its own the day that reaches it.",
         .categories = Area("K", chart_first, last),
         .category_title = "",
         .value_title = "degree-days",
         .value_format = Format::count,
         .series = {column("N", Shape::column, 2), column("O", Shape::column, 0), column("P", Shape::column, 3),
                    column("R", Shape::column, 1), column("Q", Shape::line, 4)},
         .stacked = true,
         .least = 0});
}

void heat(Workbook& book) {
    Sheet& sheet = book.sheet("Heat", Paper::landscape);
    sheet.columns({0.4, 5.9, 4.2, 3.6, 0.5, 6.2, 3.6, 3.6, 7.0, 0.8, 1.6, 2.2, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6});
    look::opening(
        sheet, "=\"Spring heat: \"&block",
        "Write each day's lowest and highest temperature on sheet Record; heat, callus date and chart follow. "
        "A Check that is blank is fine, else it says what to mend.",
        8);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet
        .put("B4",
             "=IF(ISNUMBER(callus_day);\"By the heat, callus should have formed on \"&" + date_words("callus_day") +
                 "&\", \"&(callus_day-graft_date)&\" days after the first day of grafting. The calendar's first look "
                 "is due on \"&" +
                 date_words("INDEX(first_look;2)") +
                 "&IF(callus_day>INDEX(first_look;2);\", \"&(callus_day-INDEX(first_look;2))&\" days earlier: expect "
                 "little "
                 "to see then, and look again.\";\": callus should have formed by then.\");IF(ISNUMBER(heat_sum);"
                 "\"Callus should not have formed yet: \"&FIXED(heat_sum;0)&\" of \"&FIXED(target_sum;0)&\" "
                 "degree-days by \"&" +
                 date_words("last_read") + R"(&".";"The heat cannot be summed yet: see the Checks.")))",
             Style::sentence)
        .across(8);
    sheet.row_height(4, 1.2);

    const std::string degrees = "=\"degrees \"&scale";
    const Validation any_degrees = number(-100, 200, "degrees");
    Form inputs(sheet, "B6");
    inputs.section("The block")
        .input("Block", "block", "Plover Reach, block 2", "name", Format::text, any_text("the block's name"))
        .input("First day of grafting", "graft_date", Date{year{2027} / September / 20}, "date", Format::weekday_date,
               any_date)
        .input("First day of the readings", "start_date", Date{year{2027} / September / 1}, "date",
               Format::weekday_date, any_date);
    inputs.section("How heat is counted")
        .input("Temperatures are in degrees", "scale", "C", "C or F", Format::text, one_of({"C", "F"}))
        .input("Nothing happens below (base)", "base_temp", 13.0, degrees, Format::tenth, any_degrees)
        .input("No faster above (upper), or blank", "upper_temp", 35.0, degrees, Format::tenth, any_degrees)
        .input("Shape of the day", "method", "sine", "sine, triangle, average", Format::text,
               one_of({"sine", "triangle", "average"}))
        .input("Above upper, heat", "cutoff", "horizontal", "stays, stops, falls", Format::text,
               one_of({"horizontal", "vertical", "intermediate"}))
        .input("Heat wanted for callus (assumed)", "target_sum", 80.0, "degree-days", Format::count,
               number(1, 5000, "degree-days"));
    sheet
        .put("B17",
             "No published sum for callus is known: this one is an assumption. Cut a test union open, note the sum of "
             "that day, and put it here. Above upper: horizontal stays as fast, vertical stops, intermediate falls as "
             "fast as it rose.",
             Style::note)
        .across(3, 3);

    const std::string since =
        "INDEX(lows;since_row):INDEX(lows;ROWS(lows));INDEX(highs;since_row):INDEX(highs;"
        "ROWS(highs));base_temp;";
    Form answers(sheet, "F6", Form::Checks::beside);
    answers.section("The readings")
        .answer("Last day with a reading", "last_read", "=MAX(reading_dates)", "date", Format::weekday_date,
                "=IF(last_read=0;\"Nothing written down yet.\";IF(SUMPRODUCT(--(LEN(record_check)>0))>0;"
                "\"Days to mend: \"&SUMPRODUCT(--(LEN(record_check)>0))&\". See sheet Record.\";\"\"))")
        .answer("Heat summed since grafting", "heat_sum",
                "=IF(OR(since_row<1;since_row>ROWS(lows));\"\";REWORK.HEATSUM(" + since + settings + ")", "degree-days",
                Format::tenth,
                "=IF(since_row<1;\"The readings begin after the first day of grafting.\";IF(since_row>ROWS(lows);\"The "
                "first day of grafting lies beyond the record.\";IF(I7<>\"\";\"See above.\";" +
                    why("=REWORK.HEATSUM(" + since + settings).substr(1) + ")))");
    const std::string call =
        std::string("REWORK.HEATDATE(reading_dates;lows;highs;base_temp;target_sum;graft_date;") + settings;
    answers.section("Callus")
        .total("Callus should have formed on", "callus_date", "=IFNA(" + call + ";\"not yet\")", "date",
               Format::weekday_date)
        .answer("After the first day of grafting", "", "=IF(ISNUMBER(callus_day);callus_day-graft_date;\"\")", "days",
                Format::count, "")
        .answer("Days too hot for citrus so far", "",
                R"(=COUNTIFS(highs;">"&IF(scale="F";98.6;37);reading_dates;">="&graft_date))",
                R"(=IF(scale="F";"days above 98.6 F";"days above 37 C"))", Format::count, "");

    look::band(sheet, "F13", "Beside the calendar", 4);
    look::headings(sheet, "F14", {"Stage", "First look under the bag", "First airing"});
    constexpr std::array<std::pair<const char*, int>, 3> edges{{{"Earliest", -1}, {"Target", 0}, {"Latest", 1}}};
    int row = 15;
    for (const auto& [label, edge] : edges) {
        sheet.put(Place("F", row), label, Style::body);
        for (const char* column : {"G", "H"}) {
            sheet.put(Place(column, row),
                      std::string("=REWORK.MILESTONE(graft_date;") + column + "$14;" + std::to_string(edge) + ")",
                      Style::answer, Format::weekday_date);
        }
        sheet.put(Place("I", row),
                  "=REWORK.WHY(\"MILESTONE\";graft_date;G$14;" + std::to_string(edge) +
                      ")&IF(G$14=H$14;\"\";"
                      "REWORK.WHY(\"MILESTONE\";graft_date;H$14;" +
                      std::to_string(edge) + "))",
                  Style::check);
        ++row;
    }
    look::mend_where_said(sheet, "I15:I17");
    sheet.name("first_look", "G15:G17");
    sheet.name("first_airing", "H15:H17");
    sheet.put("F18", "Heat summed by the target", Style::body);
    sheet.put("F19", "Days from callus to the target", Style::body);
    for (const char* column : {"G", "H"}) {
        const std::string target = std::string(column) + "16";
        sheet.put(Place(column, 18), "=IFNA(INDEX(summed;MATCH(" + target + R"(;record_dates;0));""))", Style::answer,
                  Format::tenth);
        sheet.put(Place(column, 19), "=IF(ISNUMBER(callus_day);" + target + "-callus_day;\"\")", Style::answer,
                  Format::count);
    }
    sheet.put("I18", "degree-days", Style::unit);
    sheet.put("I19", "days; below 0: before callus", Style::unit);

    sheet
        .put(
            "B21",
            "The date is for planning a look, no more: buds, wood and hands decide whether a union holds. Bags heat up "
            "in the sun, so shade or vent them as the season warms. Heat tires a crew too: shade, water and breaks. "
            "The scene is invented; more on sheet Notes.",
            Style::caution)
        .across(8);
    sheet.row_height(21, 1.1);
    behind_the_chart(sheet);
    sheet.put("K1", "Upper, or none", Style::workings);
    sheet.put("M1", R"(=IF(upper_temp="";"";upper_temp))", Style::workings).name("upper_used");
    sheet.put("K2", "Graft day's line", Style::workings);
    sheet.put("M2", "=graft_date-start_date+1", Style::workings).name("since_row");
    sheet.put("K3", "Callus, where known", Style::workings);
    sheet.put("M3", "=IFERROR(callus_date;\"\")", Style::workings).name("callus_day");
    sheet.cursor("C8");
    sheet.print_area("A1:I22");
}

void record(Workbook& book) {
    Sheet& sheet = book.sheet("Record", Paper::portrait);
    sheet.columns({0.4, 3.4, 2.0, 2.0, 2.2, 2.4, 4.6, 5.6, 0.6, 2.6});
    // No formulas in the rows that repeat on each page: the office works out the pages as soon as it has read these
    // rows, before it has read the names, and then shows 0 for a formula that makes a text.
    look::opening(
        sheet, "Readings",
        "One line for each day: its lowest and highest temperature, in shade, near the grafts. Dates follow the "
        "first day on sheet Heat. Leave out no day up to the last one.",
        7);
    sheet.row_height(2, 1.1);
    sheet.put("B3", "Temperatures in the degrees chosen on sheet Heat, heat in degree-days.", Style::unit).across(7);
    look::headings(sheet, "B5",
                   {"Date", "Low", "High", "Heat of the day", "Summed since grafting", "What is due", "Check"});
    sheet.put("J4", "Behind the dates; not printed", Style::workings);
    sheet.put("J5", "Date of a reading", Style::workings);
    const std::vector<Reading> season = invented_season();
    for (int row = first_day; row <= last_day; ++row) {
        const auto at = static_cast<std::size_t>(row - first_day);
        const bool read = at < season.size();
        sheet.put(Place("B", row), "=start_date+" + std::to_string(at), Style::body, Format::weekday_date);
        sheet.put(Place("C", row), read ? Content(season.at(at).low) : Content{}, Style::input, Format::tenth);
        sheet.put(Place("D", row), read ? Content(season.at(at).high) : Content{}, Style::input, Format::tenth);
    }
    sheet.valid(Area("C", first_day, last_day), number(-100, 200, "degrees"));
    // Relative addresses in a condition count from A1, so row 1 stands for the cell's own row.
    sheet.valid(Area("D", first_day, last_day),
                {"of:cell-content-is-decimal-number() and cell-content-is-between([.$C1],200)",
                 "Give the day's highest temperature: a number not below its lowest, to 200 (degrees).",
                 "That does not fit here. Right would be a number from the day's lowest temperature to 200 (degrees); "
                 "give the lowest one first."});
    sheet.fill_down(Area("E", first_day, last_day),
                    std::string("=IF(COUNT(C{r}:D{r})<2;\"\";REWORK.HEATUNITS(C{r};D{r};base_temp;") + settings + ")",
                    Style::answer, Format::tenth);
    // A day without a reading ends the sum: what comes after it would be too little.
    sheet.put(Place("F", first_day),
              at_row(R"(=IF(NOT(ISNUMBER(E{r}));"";IF(B{r}<graft_date;0;IF(B{r}=graft_date;E{r};""))))", first_day),
              Style::answer, Format::tenth);
    for (int row = first_day + 1; row <= last_day; ++row) {
        sheet.put(Place("F", row),
                  at_row(R"(=IF(NOT(ISNUMBER(E{r}));"";IF(B{r}<graft_date;0;IF(B{r}=graft_date;E{r};)", row) +
                      at_row(R"(IF(F{r}="";"";F{r})", row - 1) + at_row("+E{r}))))", row),
                  Style::answer, Format::tenth);
    }
    sheet.fill_down(Area("G", first_day, last_day),
                    "=IF(B{r}=graft_date;\"First day of grafting\";IF(B{r}=callus_day;\"Callus should have formed\";"
                    "IF(B{r}=INDEX(first_look;2);\"First look under the bag\";IF(B{r}=INDEX(first_airing;2);\"First "
                    "airing\";\"\"))))",
                    Style::body);
    sheet.fill_down(Area("H", first_day, last_day),
                    "=IF(COUNT(C{r}:D{r})=0;IF(B{r}<last_read;\"No reading: the sum ends here.\";\"\");"
                    "IF(COUNT(C{r}:D{r})=1;\"Give low and high.\";REWORK.WHY(\"HEATUNITS\";C{r};D{r};base_temp;" +
                        std::string(settings) + "))",
                    Style::check);
    sheet.fill_down(Area("J", first_day, last_day), "=IF(COUNT(C{r}:D{r})=0;\"\";B{r})", Style::workings, Format::date);
    sheet.mark(Area({2, first_day}, {7, last_day}), "LEN($G6)>0", Style::due);
    look::mend_where_said(sheet, Area("H", first_day, last_day));
    sheet.name("record_dates", Area("B", first_day, last_day));
    sheet.name("lows", Area("C", first_day, last_day));
    sheet.name("highs", Area("D", first_day, last_day));
    sheet.name("summed", Area("F", first_day, last_day));
    sheet.name("record_check", Area("H", first_day, last_day));
    sheet.name("reading_dates", Area("J", first_day, last_day));
    sheet.freeze(first_day - 1);
    sheet.repeat(first_day - 1);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {8, last_day}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("This scene is invented")
        .note(
            "Plover Reach, its block and all 120 days of readings are made up. Clear the readings on sheet Record "
            "(mark "
            "them and press Delete), set both first days on sheet Heat, and write down your own.");
    text.errors();
    text.heading("Callus by heat is an assumption")
        .note(
            "No published heat sum for callus is known. The sum on sheet Heat is an assumption of this scene, to be "
            "replaced by own records: on the day when callus shows all round a test union, note the heat summed since "
            "it was grafted. After some seasons the mean of these is the sum of your crop, stock and place.")
        .note(
            "Heat sums say how fast, not whether: dry wood, a late cut, a loose tie or a bark that does not slip are "
            "not "
            "in them. The sign on the tree outranks both the heat and the calendar.");
    text.heading("Where the figures come from")
        .note(
            "Heat of a day: degree-days from its low and high by a sine, a triangle or the average (Zalom et al. 1983, "
            "Degree-days, UC Leaflet 21373; Baskerville & Emin, Ecology 50:514-517, 1969).")
        .note(
            "Base 13 and upper 35 degrees C: the range in which citrus grows (NSW DPI, Primefact 749, Calculating heat "
            "units for citrus, 2007); other crops differ. In degrees F that is 55 and 95. Readings, base, upper and "
            "sum must be in the same degrees.")
        .note("Days above 37 degrees C (98.6 F): take of citrus is reported to suffer above it; no precise source.")
        .note(
            "Calendar: common practice of the trade, no published source, counted from the first day of grafting: "
            "first "
            "look 14 to 21 days, first airing 28 to 35 days.");
    text.close();
}

}  // namespace

std::string spring_heat() {
    Workbook book("Spring heat",
                  "Daily lows and highs, heat summed since grafting, and the date on which callus should have formed.");
    heat(book);
    record(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

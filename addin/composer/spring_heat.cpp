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

#include "composer/entries.hpp"
#include "composer/look.hpp"
#include "composer/sheet.hpp"
#include "composer/workbooks.hpp"

namespace slipbark::compose {

namespace {

using look::Form;
using std::chrono::September;
using std::chrono::year;

constexpr const char* example_block = "Plover Reach, block 2";
constexpr int first_day = 6;  // rows of sheet Record
constexpr int last_day = first_day + 240 - 1;
constexpr int printed_days = 150;  // two full pages

/// What every heat function takes after its readings.
constexpr const char* settings = "upper_used;method;cutoff)";

/// Days on which heat is summed: from the first day of grafting to the last one before a gap or the end of the
/// readings.
std::string summed_days(const std::string& column) {
    return "INDEX(" + column + ";since_row):INDEX(" + column + ";gap_row-1)";
}

/// What is suggested for a crop, in degrees C. A source is told in words, or the figure is an assumption.
struct Crop {
    const char* name;
    double lower;
    double upper;
    double best;  // the middle of its best range
    const char* source;
};

constexpr std::array<Crop, 10> crops{{
    {"citrus", 13, 35, 25,
     "Range of growth 13 to 35 (NSW DPI, Primefact 749, 2007); best 21 to 29, published but weak"},
    {"apple, pear", 0, 32, 15.5,
     "Usable 0 to 32, best 13 to 18 (a table of callusing temperatures, published but weak)"},
    {"apricot, cherry", 5, 30, 20, "Best 20, harm above 30 (the same table); lower: assumption"},
    {"plum", 5, 30, 16, "Best 16, harm above 30 (the same table); lower: assumption"},
    {"peach, nectarine", 5, 30, 22, "Best 18 to 26, harm above 30 (the same table); lower: assumption"},
    {"walnut", 15, 30, 27, "Best 25 to 30 (the same table); lower: assumption"},
    {"grape", 15, 29, 24, "Slow below 15 to 16, soft above 29 (Hartmann & Kester, from memory); best 21 to 27"},
    {"olive", 15, 35, 30, "Best 25 to 35 (the same table); lower: assumption"},
    {"mango", 15, 35, 25, "Best 20 to 30 (an internet page, weak); lower and upper: assumption"},
    {"avocado", 10, 33, 24, "All three: assumption"},
}};

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
        sheet.put(Place("L", row), "=graft_day+" + std::to_string(row - chart_first - 7), Style::workings,
                  Format::date);
    }
    sheet.fill_down(
        Area("K", chart_first, last),
        "=IF(MOD(ROW()-" + std::to_string(chart_first) +
            ";7)=0;DAY(L{r})&\" \"&CHOOSE(MONTH(L{r});\"Jan\";\"Feb\";\"Mar\";\"Apr\";\"May\";\"Jun\";\"Jul\";\"Aug\";"
            "\"Sep\";\"Oct\";\"Nov\";\"Dec\");\"\")",
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
        Place("B", 24), 34, 7.6,
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

/// The first sentence: agrees with the parts, asks before it tells, and says what is assumed.
std::string headline() {
    const std::string target =
        R"(IF(target_source="assumption";"an assumed sum of "&FIXED(target_sum;0)&" degree-days";)"
        R"x("a sum of "&FIXED(target_sum;0)&" degree-days ("&target_source&")"))x";
    const std::string said = "FIXED(heat_sum;0)&\" of \"&FIXED(target_sum;0)&\" degree-days\"";
    return "=IF(COUNTA(graft_date;start_date;lows;highs)=0;\"Fill in the first day of grafting and of the readings "
           "first, then the readings on sheet Record.\";IF(LEN(unfit_entry)>0;\"Something does not fit yet. "
           "\"&unfit_entry;IF(LEN(asked_entry)>0;asked_entry;"
           "IF(since_row<1;\"The readings begin after the first day of grafting: set the first day of the readings to "
           "it, "
           "or before it.\";IF(since_row>ROWS(lows);\"The first day of grafting lies beyond the record: set the first "
           "day of the readings to it, or shortly before it.\";IF(ISNUMBER(callus_day);\"By \"&" +
           target + "&\" callus should have formed on \"&" + date_words("callus_day") +
           "&\", \"&(callus_day-graft_day)&IF(callus_day-graft_day=1;\" day\";\" days\")&\" after the first day of "
           "grafting. The calendar's first look is due on \"&" +
           date_words("INDEX(first_look;2)") +
           "&IF(callus_day>INDEX(first_look;2);\", \"&(callus_day-INDEX(first_look;2))&IF(callus_day-INDEX(first_look;"
           "2)=1;\" day\";\" days\")&\" earlier: expect little to see then, and look again.\";\": callus should have "
           "formed by then.\");IF(has_gap;\"The reading of \"&" +
           date_words("gap_day") +
           "&\" is missing or does not fit: the sum ends before it\"&IF(ISNUMBER(heat_sum);\", at \"&" + said +
           R"(;"")&". Give it on sheet Record, and the sum goes on.";IF(ISNUMBER(heat_sum);)"
           "\"Callus should not have formed yet: \"&" +
           said + "&\" by \"&" + date_words("INDEX(record_dates;gap_row-1)") +
           "&\" (\"&IF(target_source=\"assumption\";\"the sum wanted is an assumption\";target_source)&\").\";\"There "
           "is "
           "no reading yet from the first day of grafting on, \"&" +
           date_words("graft_day") + "&\".\"))))))))";
}

void inputs(Sheet& sheet) {
    const std::string degrees = "=\"degrees \"&scale";
    const Validation any_degrees = number(-100, 200, "degrees");
    std::vector<std::string> names;
    names.reserve(crops.size());
    for (const Crop& crop : crops) names.emplace_back(crop.name);
    const auto suggested = [](const std::string& column) {
        return "=IFERROR(INDEX(" + column + ";MATCH(crop;crop_names;0));\"\")";
    };
    Form form(sheet, "B6");
    form.section("The block")
        .input("Block", "block", example_block, "name", Format::text, any_text("the block's name"))
        .input("First day of grafting", "graft_date", Date{year{2027} / September / 20}, "date", Format::weekday_date,
               any_date)
        .input("First day of the readings", "start_date", Date{year{2027} / September / 1}, "date",
               Format::weekday_date, any_date);
    form.section("How heat is counted")
        .kept("Crop, for what is suggested", "crop", crops[0].name, "see sheet Crops", Format::text, one_of(names))
        .kept("Temperatures are in degrees", "scale", "C", "C or F", Format::text, one_of({"C", "F"}))
        .input("Lower threshold: nothing happens below", "base_temp", suggested("crop_lower"), degrees, Format::tenth,
               any_degrees)
        .input("Upper threshold: no faster above, or blank", "upper_temp", suggested("crop_upper"), degrees,
               Format::tenth, any_degrees)
        .kept("Method", "method", "sine", "sine, triangle, average", Format::text,
              one_of({"sine", "triangle", "average"}))
        .kept("Cutoff above the upper threshold", "cutoff", "horizontal", "horizontal, vertical, intermediate",
              Format::text, one_of({"horizontal", "vertical", "intermediate"}))
        .input("Heat wanted for callus", "target_sum", suggested("crop_sum"), "degree-days", Format::count,
               number(1, 5000, "degree-days"))
        .input("Where that sum comes from", "target_source",
               R"(=IF(ISFORMULA(target_sum);"assumption";"your own figure"))", "assumption, or your words",
               Format::text, any_text("where the sum comes from, in a few words"));
    sheet
        .put(
            "B19",
            "No published sum for callus is known: what is suggested is an assumption. Cut a test union open, note the "
            "sum of that day, and put it here. Cutoff: horizontal stays as fast above the upper threshold, vertical "
            "stops, intermediate falls as fast as it rose.",
            Style::note)
        .across(3, 3);
    sheet.put("B22", "=IF(LEN(unfit_entry)>0;unfit_entry;TRIM(asked_entry&\" \"&asked_sum))", Style::note)
        .name("check_entries")
        .across(3);
    sheet.row_height(22, 1.0);
    sheet.mark("B22:D22", "LEN($B$22)>0", Style::mend);
}

/// What stands behind the answers, outside the printed page.
void workings(Sheet& sheet) {
    using entries::unfit;
    using entries::unfit_day;
    using entries::unfit_word;
    auto one = [&, row = 19](const std::string& label, const std::string& name, const std::string& formula) mutable {
        sheet.put(Place("T", row), label, Style::workings);
        sheet.put(Place("U", row), formula, Style::workings).name(name);
        ++row;
    };
    sheet.put("T6", "Behind the answers; not printed", Style::workings);
    const std::string degrees = R"("degrees "&scale)";
    // In the row of its input.
    const auto check = [&](int line, const std::string& formula) {
        sheet.put(Place("T", line), "what does not fit", Style::workings);
        sheet.put(Place("U", line), "=" + formula, Style::workings);
        sheet.mark(Place("C", line), "LEN($U" + std::to_string(line) + ")>0", Style::mend);
    };
    check(8, unfit_day("\"First day of grafting\"", "graft_date"));
    check(9, unfit_day("\"First day of the readings\"", "start_date"));
    check(12, unfit_word("\"Degrees\"", "scale", {"C", "F"}));
    check(13, unfit("\"Lower threshold\"", "base_temp", {-100, 200, degrees}));
    check(
        14,
        "IF(upper_temp=\"\";\"\";IF(AND(ISNUMBER(upper_temp);ISNUMBER(base_temp);N(upper_temp)<=N(base_temp));\"Upper "
        "threshold was not above the lower one: give more, or leave it blank.\";" +
            unfit("\"Upper threshold\"", "upper_temp", {-100, 200, degrees}) + "))");
    check(15, unfit_word("\"Method\"", "method", {"sine", "triangle", "average"}));
    check(16, unfit_word("\"Cutoff\"", "cutoff", {"horizontal", "vertical", "intermediate"}));
    check(17, unfit("\"Heat wanted for callus\"", "target_sum", {1, 5000, "\"degree-days\""}));
    sheet.name("unfit_entries", "U8:U17");
    one("the first of it", "unfit_entry",
        "=IF(SUMPRODUCT(--(LEN(unfit_entries)>0))>0;" + entries::first_of("unfit_entries") + ";\"\")");
    const auto left_over = [](const std::string& label, const std::string& value, const std::string& other) {
        return label + "&" + value + "&\" degrees \"&scale&\": or was that degrees " + other +
               "? Type it in degrees \"&scale&\", or choose " + other + " above.\"";
    };
    const std::string lower = "\"Lower threshold \"";
    const std::string upper = "\"Upper threshold \"";
    const std::string highest = "\"The highest reading is \"";
    one("degrees left over", "asked_entry",
        "=IF(LEN(unfit_entry)>0;\"\";IF(scale=\"F\";IF(base_temp<32;" + left_over(lower, "base_temp", "C") +
            ";IF(AND(ISNUMBER(upper_temp);N(upper_temp)<60);" + left_over(upper, "upper_temp", "C") +
            ";IF(AND(COUNT(highs)>0;MAX(highs)<45);" + left_over(highest, "MAX(highs)", "C") +
            ";\"\")));IF(base_temp>32;" + left_over(lower, "base_temp", "F") +
            ";IF(AND(ISNUMBER(upper_temp);N(upper_temp)>50);" + left_over(upper, "upper_temp", "F") +
            ";IF(COUNTIFS(highs;\">55\";highs;\"<=200\")>0;" + left_over("\"There are readings above \"", "55", "F") +
            ";\"\")))))");
    one("heat suggested", "sum_suggested", "=IFERROR(INDEX(crop_sum;MATCH(crop;crop_names;0));0)");
    one("a sum left over", "asked_sum",
        "=IF(OR(LEN(unfit_entry)>0;ISFORMULA(target_sum);sum_suggested=0);\"\";IF(AND(scale=\"F\";N(target_sum)<=0.6*"
        "sum_suggested);\"Heat wanted \"&target_sum&\": or was that in degree-days C? A degree-day C is 1.8 "
        "degree-days "
        "F.\";IF(AND(scale=\"C\";N(target_sum)>=1.7*sum_suggested);\"Heat wanted \"&target_sum&\": or was that in "
        "degree-days F? A degree-day F is 0.56 degree-days C.\";\"\")))");
    one("upper threshold, or none", "upper_used", R"(=IF(upper_temp="";"";upper_temp))");
    one("first day of grafting", "graft_day", "=" + entries::day_of("graft_date"));
    one("first day of the readings", "start_day", "=" + entries::day_of("start_date"));
    one("its line", "since_row", "=IF(LEN(unfit_entry)>0;0;graft_day-start_day+1)");
    // The first line from the grafting on that has no reading, or one that does not fit. Days before do not matter.
    one("line of the first gap, or of the end", "gap_row",
        "=IF(OR(since_row<1;since_row>ROWS(lows));0;IFERROR(MATCH(0;INDEX(complete;since_row):INDEX(complete;"
        "ROWS(complete));0)+since_row-1;ROWS(complete)+1))");
    one("its day", "gap_day", "=IF(OR(gap_row<1;gap_row>ROWS(lows));0;INDEX(record_dates;gap_row))");
    one("whether readings follow it", "has_gap", "=AND(gap_day>0;gap_day<=last_read)");
    one("whether there is a sum", "summable", "=AND(gap_row>0;gap_row>since_row;LEN(asked_entry)=0)");
    one("callus, where known", "callus_day",
        "=IF(summable;IFNA(REWORK.HEATDATE(" + summed_days("record_dates") + ";" + summed_days("lows") + ";" +
            summed_days("highs") + ";base_temp;target_sum;graft_day;" + settings + ";\"\");\"\")");
}

void answers(Sheet& sheet) {
    const std::string sum =
        "REWORK.HEATSUM(" + summed_days("lows") + ";" + summed_days("highs") + ";base_temp;" + settings;
    Form form(sheet, "F6", {.check = 1});
    form.section("The readings")
        .answer("Last day with a reading", "last_read", "=IF(COUNT(reading_dates)=0;\"\";MAX(reading_dates))", "date",
                Format::weekday_date,
                "=IF(N(last_read)=0;\"Nothing written down yet.\";IF(SUMPRODUCT(--(LEN(record_check)>0))>0;"
                "\"Days to correct: \"&SUMPRODUCT(--(LEN(record_check)>0))&\". See sheet Record.\";\"\"))")
        .answer("Heat summed since grafting", "heat_sum", "=IF(summable;" + sum + ";\"\")", "degree-days",
                Format::tenth,
                "=IF(LEN(unfit_entry)>0;\"See the entries.\";IF(LEN(asked_entry)>0;\"See the "
                "question.\";IF(has_gap;\"Sum ends "
                "before \"&" +
                    date_words("gap_day") + "&\": no fit reading.\";IF(summable;" + why("=" + sum).substr(1) +
                    ";\"No reading since grafting.\"))))");
    form.section("Callus")
        .total("Callus should have formed on", "callus_date",
               "=IF(ISNUMBER(callus_day);callus_day;IF(has_gap;\"not known\";IF(summable;\"not yet\";\"\")))", "date",
               Format::weekday_date)
        .answer("After the first day of grafting", "", "=IF(ISNUMBER(callus_day);callus_day-graft_day;\"\")", "days",
                Format::count, "")
        .answer("Days too hot for citrus since grafting", "",
                R"(=IF(COUNT(highs)=0;"";COUNTIFS(highs;">"&IF(scale="F";98.6;37);record_dates;">="&graft_day)))",
                R"(=IF(scale="F";"days above 98.6 F";"days above 37 C"))", Format::count, "");

    look::band(sheet, "F13", "Beside the calendar", 4);
    look::headings(sheet, "F14", {"Stage", "First look under the bag", "First airing"});
    constexpr std::array<std::pair<const char*, int>, 3> edges{{{"Earliest", -1}, {"Target", 0}, {"Latest", 1}}};
    int row = 15;
    for (const auto& [label, edge] : edges) {
        sheet.put(Place("F", row), label, Style::body);
        for (const char* column : {"G", "H"}) {
            sheet.put(Place(column, row),
                      std::string("=IF(graft_day=0;\"\";REWORK.MILESTONE(graft_day;") + column + "$14;" +
                          std::to_string(edge) + "))",
                      Style::answer, Format::weekday_date);
        }
        ++row;
    }
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
}

void heat(Workbook& book) {
    Sheet& sheet = book.sheet("Heat", Paper::landscape);
    sheet.columns(
        {0.4, 7.0, 4.2, 5.0, 0.5, 6.2, 5.0, 3.6, 6.0, 0.8, 1.6, 2.2, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 0.8, 5.0, 6.0});
    look::opening(
        sheet, look::titled("Spring heat", "block"),
        "Write each day's lowest and highest temperature on sheet Record; heat, callus date and chart follow. "
        "A Check that is blank is fine, else it says what to correct.",
        8);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet.put("B4", headline(), Style::sentence).name("headline").across(8);
    sheet.row_height(4, 1.2);
    inputs(sheet);
    answers(sheet);
    sheet
        .put("B23",
             "The date is for planning a take check, no more: buds, wood and hands decide whether a union holds. Bags "
             "heat up in the sun, so shade or vent them as the season warms. Heat tires a crew too: shade, water and "
             "breaks. More on sheet Notes.",
             Style::caution)
        .across(8);
    sheet.row_height(23, 1.1);
    look::invented(sheet, {"F", 22}, 4, "block", example_block);
    behind_the_chart(sheet);
    workings(sheet);
    sheet.cursor("C7");
    sheet.print_area("A1:I24");
}

void record(Workbook& book) {
    Sheet& sheet = book.sheet("Record", Paper::portrait);
    sheet.columns({0.4, 3.4, 2.0, 2.0, 2.2, 2.4, 5.4, 11.0, 0.6, 2.6, 1.6});
    // No formulas in the rows that repeat on each page: the office works out the pages as soon as it has read these
    // rows, before it has read the names, and then shows 0 for a formula that makes a text.
    look::opening(
        sheet, "Readings",
        "One line for each day: its lowest and highest temperature, in shade, near the grafts. Dates follow the "
        "first day on sheet Heat. From the first day of grafting on leave out no day.",
        7);
    sheet.row_height(2, 1.1);
    sheet
        .put("B3",
             "Temperatures in the degrees chosen on sheet Heat, heat in degree-days. Room for 240 days; the first 120 "
             "are "
             "printed, more of them with Format > Print Ranges.",
             Style::unit)
        .across(7);
    look::headings(sheet, "B5",
                   {"Date", "Low", "High", "Heat of the day", "Summed since grafting", "What is due", "Check"});
    sheet.put("J4", "Behind the dates; not printed", Style::workings);
    sheet.put("J5", "Date of a reading", Style::workings);
    sheet.put("K5", "Both fit", Style::workings);
    const std::vector<Reading> season = invented_season();
    for (int row = first_day; row <= last_day; ++row) {
        const auto at = static_cast<std::size_t>(row - first_day);
        const bool read = at < season.size();
        sheet.row_height(row, 0.5);
        sheet.put(Place("B", row), "=IF(start_day>0;start_day+" + std::to_string(at) + ";\"\")", Style::body,
                  Format::weekday_date);
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
                    std::string("=IF(K{r}=0;\"\";REWORK.HEATUNITS(C{r};D{r};base_temp;") + settings + ")",
                    Style::answer, Format::tenth);
    // A day without a reading ends the sum: what comes after it would be too little. Days before the grafting do not
    // matter.
    for (int row = first_day; row <= last_day; ++row) {
        const std::string before =
            row == first_day ? "\"\"" : at_row(R"(IF(F{r}="";"";F{r})", row - 1) + at_row("+E{r})", row);
        sheet.put(
            Place("F", row),
            at_row(R"(=IF(NOT(ISNUMBER(E{r}));"";IF(B{r}<graft_day;0;IF(B{r}=graft_day;E{r};)", row) + before + ")))",
            Style::answer, Format::tenth);
    }
    sheet.fill_down(Area("G", first_day, last_day),
                    "=IF(B{r}=graft_day;\"First day of grafting\";IF(B{r}=callus_day;\"Callus should have formed\";"
                    "IF(B{r}=INDEX(first_look;2);\"First look under the bag\";IF(B{r}=INDEX(first_airing;2);\"First "
                    "airing\";\"\"))))",
                    Style::body);
    sheet.fill_down(Area("H", first_day, last_day),
                    "=IF(LEN(unfit_entry)>0;\"\";IF(COUNTA(C{r}:D{r})=0;IF(AND(B{r}>=graft_day;B{r}<N(last_read));\"No "
                    "reading: the sum ends here.\";\"\");IF(COUNT(C{r}:D{r})<2;\"Give low and high as numbers.\";"
                    "REWORK.WHY(\"HEATUNITS\";C{r};D{r};base_temp;" +
                        std::string(settings) + ")))",
                    Style::check);
    sheet.fill_down(Area("J", first_day, last_day), "=IF(COUNT(C{r}:D{r})=0;\"\";B{r})", Style::workings, Format::date);
    sheet.fill_down(Area("K", first_day, last_day), "=IF(AND(LEN(unfit_entry)=0;COUNT(C{r}:D{r})=2;LEN(H{r})=0);1;0)",
                    Style::workings);
    sheet.mark(Area({2, first_day}, {7, last_day}), "LEN($G6)>0", Style::due);
    look::mend_where_said(sheet, Area("H", first_day, last_day));
    sheet.name("record_dates", Area("B", first_day, last_day));
    sheet.name("lows", Area("C", first_day, last_day));
    sheet.name("highs", Area("D", first_day, last_day));
    sheet.name("summed", Area("F", first_day, last_day));
    sheet.name("record_check", Area("H", first_day, last_day));
    sheet.name("reading_dates", Area("J", first_day, last_day));
    sheet.name("complete", Area("K", first_day, last_day));
    sheet.freeze(first_day - 1);
    sheet.repeat(first_day - 1);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {8, first_day + printed_days - 1}));
}

void suggestions(Workbook& book) {
    Sheet& sheet = book.sheet("Crops", Paper::landscape);
    sheet.columns({0.4, 4.4, 2.2, 2.2, 2.2, 2.6, 2.6, 2.6, 16.0, 7.0});
    look::opening(
        sheet, "Thresholds by crop",
        "What sheet Heat suggests. The heat wanted is an assumption for every crop: that of seven days at the "
        "middle of its best range, to tens. Put your own figures over them.",
        9);
    look::headings(
        sheet, "B4",
        {"Crop", "Lower, degrees C", "Upper, degrees C", "Best, degrees C", "=\"Lower, degrees \"&scale",
         "=\"Upper, degrees \"&scale", "=\"Heat wanted, degree-days \"&scale", "Where the degrees come from", "Check"});
    constexpr int first = 5;
    int row = first;
    for (const Crop& crop : crops) {
        sheet.put(Place("B", row), crop.name, Style::body);
        for (const auto& [column, degrees] :
             {std::pair{"C", crop.lower}, std::pair{"D", crop.upper}, std::pair{"E", crop.best}}) {
            sheet.put(Place(column, row), degrees, Style::kept, Format::tenth).valid(number(-20, 60, "degrees C"));
        }
        const auto chosen = [](const std::string& cell) {
            return "=IF(ISNUMBER(" + cell + ");IF(scale=\"F\";CONVERT(" + cell + ";\"C\";\"F\");" + cell + ");\"\")";
        };
        sheet.put(Place("F", row), chosen("C" + std::to_string(row)), Style::answer, Format::tenth);
        sheet.put(Place("G", row), chosen("D" + std::to_string(row)), Style::answer, Format::tenth);
        sheet.put(Place("H", row),
                  at_row(R"(=IF(COUNT(C{r};E{r})=2;MAX(10;ROUND(7*(E{r}-C{r});-1))*IF(scale="F";1.8;1);""))", row),
                  Style::answer, Format::count);
        sheet.put(Place("I", row), crop.source, Style::unit);
        // A pasted figure of another kind; blank is nothing suggested.
        sheet.put(Place("J", row),
                  at_row("=IF(IFERROR(COUNTIFS(C{r}:E{r};\">=-20\";C{r}:E{r};\"<=60\")=COUNTA(C{r}:E{r});FALSE());\"\";"
                         "\"Give degrees C from -20 to 60, or leave blank.\")",
                         row),
                  Style::check);
        ++row;
    }
    look::mend_where_said(sheet, Area("J", first, row - 1));
    sheet.name("crop_names", Area("B", first, row - 1));
    sheet.name("crop_lower", Area("F", first, row - 1));
    sheet.name("crop_upper", Area("G", first, row - 1));
    sheet.name("crop_sum", Area("H", first, row - 1));
    sheet.cursor("C5");
    sheet.print_area(Area({1, 1}, {10, row - 1}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note(
            "Plover Reach, its block and all 120 days of readings are made up. Clear the readings on sheet Record "
            "(select them and press Delete), set both first days on sheet Heat, and write down your own.");
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
            "Thresholds of citrus, 13 and 35 degrees C: the range in which it grows (NSW DPI, Primefact 749, "
            "Calculating heat units for citrus, 2007). Other crops are on sheet Crops, with their sources or as "
            "assumptions. Readings, thresholds and sum must be in the same degrees: what is suggested follows the "
            "choice of C or F, what was typed does not, and the sheet asks.")
        .note("Days above 37 degrees C (98.6 F): take of citrus is reported to suffer above it; no precise source.")
        .note(
            "Calendar: experience, no published source, counted from the first day of grafting: "
            "first "
            "look 14 to 21 days, first airing 28 to 35 days.");
    text.close();
}

}  // namespace

std::string spring_heat() {
    Workbook book("spring-heat", "Spring heat",
                  "Daily lows and highs, heat summed since grafting, and the date on which callus should have formed.");
    heat(book);
    record(book);
    suggestions(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

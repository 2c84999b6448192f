// What several seasons of reworking have taught: takes, days to each stage, yields by age and minutes a tree, each
// ending in a block that a rework plan takes in one paste.
//
// The scene is invented: farm, blocks, people and every figure. Counts and dates are drawn once with a fixed seed.
#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "slipbark/defaults.hpp"
#include "composer/entries.hpp"
#include "composer/lines.hpp"
#include "composer/look.hpp"
#include "composer/rework_plan/methods.hpp"
#include "composer/sheet.hpp"
#include "composer/workbooks.hpp"

namespace slipbark::compose {

namespace {

using look::Form;
using std::chrono::year;

constexpr const char* example_farm = "Wader Hill";
// Rows of the sheets that are filled in line by line.
constexpr int first_line = 6;
constexpr int last_count = first_line + 1000 - 1;
constexpr int last_date = first_line + 40 - 1;
constexpr int last_yield = first_line + 30 - 1;
constexpr int last_work = first_line + 200 - 1;
constexpr int open_lines = 10;  // framed below the last line in use, to be filled in

// As the plan's Defaults have them, so that a block fits in one paste.
constexpr int stage_room = 24;
constexpr int last_stage = first_line + stage_room - 1;
constexpr int curve_room = 12;

constexpr const char* bagged = "bagged bark graft";
constexpr const char* wrapped = "wrapped bark graft";

/// Whole draws from the engine itself: the library's distributions differ from one compiler to the next.
class Luck {
  public:
    bool in_100(int chances) { return static_cast<int>(engine_() % 100) < chances; }
    int from_to(int low, int high) { return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1)); }
    int alive(int grafts, int chances) {
        int count = 0;
        for (int graft = 0; graft < grafts; ++graft) count += in_100(chances) ? 1 : 0;
        return count;
    }

  private:
    std::mt19937 engine_{1954};
};

struct Count {
    int season;
    const char* block;
    const char* method;
    const char* grafter;
    const char* batch;
    int trees;
    int placed;
    int live;
};

/// Two seasons of which only totals were kept, then two counted tree by tree.
std::vector<Count> invented_counts() {
    std::vector<Count> counts{
        {2024, "Heron Bank, block 1", bagged, "Ilvar", "K1", 96, 576, 371},
        {2024, "Heron Bank, block 1", bagged, "Maren", "K1", 88, 528, 380},
        {2025, "Heron Bank, block 2", bagged, "Maren", "K3", 104, 624, 497},
        {2025, "Heron Bank, block 2", bagged, "Tobiah", "K3", 70, 420, 301},
        {2025, "Sandpiper Lot", wrapped, "Ilvar", "K4", 60, 360, 243},
    };
    constexpr std::array<Count, 6> parts{{// the last number is the take in 100
                                          {2026, "Sandpiper Lot", bagged, "Maren", "L2", 22, 0, 80},
                                          {2026, "Sandpiper Lot", bagged, "Tobiah", "L2", 20, 0, 74},
                                          {2026, "Sandpiper Lot", wrapped, "Ilvar", "L4", 14, 0, 72},
                                          {2027, "Teal Corner", bagged, "Maren", "M1", 22, 0, 86},
                                          {2027, "Teal Corner", bagged, "Tobiah", "M1", 18, 0, 80},
                                          {2027, "Teal Corner", bagged, "Quill", "M5", 20, 0, 76}}};
    Luck luck;
    for (const Count& part : parts) {
        for (int tree = 0; tree < part.trees; ++tree) {
            Count one = part;
            one.trees = 1;
            one.placed = luck.in_100(70) ? 6 : 8;
            const bool weak = luck.in_100(10);  // a weak tree loses its grafts together
            one.live = luck.alive(one.placed, weak ? 25 : part.live);
            counts.push_back(one);
        }
    }
    return counts;
}

/// As check_lines, with a frame over the used lines and the next few: unused lines are plain, or they would be printed.
void check_open_lines(Sheet& sheet, const Area& lines, const std::string& column, const std::vector<Rule>& rules) {
    check_lines(sheet, lines, column, rules);
    const std::string framed = "framed_to_" + sheet.title();
    const Place at(Place(column, 1).column + 4, first_line);  // no formula in rows that repeat
    sheet
        .put(at,
             "=MAX(" + std::to_string(first_line - 1) + ";SUMPRODUCT(MAX(ROW(" + lines.text() + ")*NOT(ISBLANK(" +
                 lines.text() + ")))))+" + std::to_string(open_lines),
             Style::workings)
        .name(framed);
    sheet.put({at.column, first_line - 1}, "Last framed line", Style::workings);
    sheet.mark(lines, "ROW()<=" + framed, Style::input);
}

/// One call over many cells: calculated once, blank below its last row and where it has no answer.
void table(Sheet& sheet, const Area& area, const std::string& call, Style style, const std::vector<Format>& formats) {
    sheet.array(
        area,
        "=" + with_blanks_below(call, area.last.row - area.first.row + 1, area.last.column - area.first.column + 1),
        style, formats);
}

// ---- Takes

/// What a take function gets of a column of sheet Counts: the lines where `use` holds, blanks for the others. One IF,
/// and no error where a line that does not fit holds one: the host walks an IF inside another IF over n lines n x n
/// times.
std::string counted(const std::string& column, const std::string& use = "counts_in>0") {
    return "IF(ISERROR(1/(" + use + "));\"\";" + column + ")";
}
/// The same of the column that tells groups; lines that are not counted are told by their blank counts.
std::string counted_group(const std::string& column) {
    return "IF(ISERROR(1/LEN(" + column + "));\"not told\";" + column + ")";
}

void counts(Workbook& book) {
    Sheet& sheet = book.sheet("Counts", Paper::portrait);
    sheet.columns({0.4, 1.7, 4.3, 4.1, 2.6, 2.2, 1.8, 2.1, 2.1, 0.5, 10.5, 1.2, 1.2});
    // No formulas in the rows that repeat on each page.
    look::opening(sheet, "Counts of takes",
                  "One line a tree, or a row or block of trees of which only the total was kept (give its trees then). "
                  "Live at the last take check; blank while nobody has counted, 0 where nothing lives. Room for 1,000.",
                  8);
    sheet.row_height(2, 1.5);
    look::headings(sheet, "B5",
                   {"Season", "Block", "Method", "Grafter", "Batch of budwood", "Trees", "Grafts placed", "Live"});
    const auto known = invented_counts();
    for (int row = first_line; row <= last_count; ++row) {
        const auto at = static_cast<std::size_t>(row - first_line);
        if (at < known.size()) {
            const Count& one = known[at];
            sheet.put(Place("B", row), one.season, Style::input, Format::general);
            sheet.put(Place("C", row), one.block, Style::input, Format::text);
            sheet.put(Place("D", row), one.method, Style::input, Format::text);
            sheet.put(Place("E", row), one.grafter, Style::input, Format::text);
            sheet.put(Place("F", row), one.batch, Style::input, Format::text);
            sheet.put(Place("G", row), one.trees, Style::input, Format::count);
            sheet.put(Place("H", row), one.placed, Style::input, Format::count);
            sheet.put(Place("I", row), one.live, Style::input, Format::count);
        } else {
            sheet.empty(Area({2, row}, {2, row}), Style::plain, Format::general);
            sheet.empty(Area({3, row}, {6, row}), Style::plain, Format::text);
            sheet.empty(Area({7, row}, {9, row}), Style::plain, Format::count);
        }
    }
    const auto column = [](const char* letter) { return Area(letter, first_line, last_count); };
    sheet.valid(column("B"), whole(1900, 2199, "the year of grafting"));
    sheet.valid(column("C"), any_text("the block's name"));
    sheet.valid(column("D"), any_text("the method, such as bagged bark graft"));
    sheet.valid(column("E"), any_text("the grafter's name or mark"));
    sheet.valid(column("F"), any_text("the batch of budwood"));
    sheet.valid(column("G"), whole(1, 100000, "trees on this line; blank is one tree"));
    sheet.valid(column("H"), whole(1, 1000000, "grafts placed"));
    sheet.valid(column("I"), whole(0, 1000000, "live grafts"));
    check_open_lines(sheet, Area({2, first_line}, {9, last_count}), "K",
                     {{is_whole("B{r}", "1900", "2199"), "Season: give the year of grafting, such as 2027."},
                      {"AND(LEN(C{r})<=200;LEN(D{r})<=200;LEN(E{r})<=200;LEN(F{r})<=200)", "A name is too long."},
                      {"IF(G{r}=\"\";TRUE();" + is_whole("G{r}", "1", "100000") + ")",
                       "Trees: give a whole number from 1 to 100,000; blank is one tree."},
                      {is_whole("H{r}", "1", "1000000"), "Grafts placed: give a whole number from 1 to 1,000,000."},
                      {"IF(I{r}=\"\";TRUE();" + is_whole("I{r}", "0", "H{r}") + ")",
                       "Live: give a whole number from 0 to the grafts placed, or blank while nobody has counted."}});
    sheet.put("L5", "Fits", Style::workings);
    sheet.fill_down(column("L"), "=IF(LEN(K{r})>0;0;IF(ISNUMBER(I{r});1;0))", Style::workings);
    sheet.put("M5", "Counted; 2: one tree", Style::workings);
    sheet.fill_down(column("M"),
                    "=IF(L{r}=0;0;IFERROR(IF(OR(take_method=\"all\";LOWER(TRIM(D{r}))=LOWER(TRIM(take_method)));IF(N(G{"
                    "r})>1;1;2);0);0))",
                    Style::workings);
    sheet.name("counts_season", column("B"));
    sheet.name("counts_groups", Area({2, first_line}, {6, last_count}));
    sheet.name("counts_method", column("D"));
    sheet.name("counts_grafter", column("E"));
    sheet.name("counts_batch", column("F"));
    sheet.name("counts_placed", column("H"));
    sheet.name("counts_live", column("I"));
    sheet.name("counts_check", column("K"));
    sheet.name("counts_fit", column("L"));
    sheet.name("counts_in", column("M"));
    sheet.freeze(first_line - 1);
    sheet.repeat(first_line - 1);
    sheet.cursor("B6");
    sheet.print_area(Area({1, 1}, {9, last_count}));
}

void take(Workbook& book) {
    Sheet& sheet = book.sheet("Take", Paper::portrait);
    sheet.columns({0.4, 6.0, 2.4, 2.4, 2.1, 2.1, 2.1, 2.2, 6.6, 0.6, 1.8, 1.8, 1.8, 1.8});
    look::opening(sheet, look::titled("Takes of past seasons", "farm"),
                  R"(="Lines of sheet Counts of the method counted ("&take_method&"). Limits hold "&)"
                  R"(IFERROR(ROUND(100*limits;1);"?")&" times in 100.")",
                  8);
    look::band(sheet, "B4", "For the plan: copy C6:C7, select expected_take there, paste the values only", 8);
    look::headings(sheet, "B5", {"", "Value", ""});
    sheet.put("E5", "What stands behind it", Style::heading).across(5);
    const std::string seasons = "8";
    const auto line = [&](int row, const char* label, const char* name, const std::string& formula, Format format,
                          const char* unit, const std::string& check) {
        sheet.put(Place("B", row), label, Style::label);
        sheet.put(Place("C", row), formula, Style::total, format).name(name);
        sheet.put(Place("D", row), unit, Style::unit);
        sheet.put(Place("E", row), check, Style::note).across(5);
        sheet.row_height(row, 0.95);
    };
    const std::string groups = counted_group("INDEX(counts_groups;0;group_number)");
    const std::string next =
        "REWORK.TAKENEXT(" + groups + ";" + counted("counts_live") + ";" + counted("counts_placed") + ";next_sure)";
    line(6, "Expected take of fresh wood", "next_take", "=IF(ISNUMBER(K6);K6;\"\")", Format::percent, "of the grafts",
         "=IFERROR(IF(ISNUMBER(K6);\"One more \"&group_by&\" is expected to take between \"&ROUND(100*L6;0)&\" and "
         "\"&ROUND("
         "100*M6;0)&\" %, \"&ROUND(100*next_sure;0)&\" times in 100, from \"&N6&\" of them\"&IF(N6<5;\". So few say "
         "little.\";\".\");IF(counted_lines=0;\"No line of sheet Counts is counted yet.\";IF(LEN(unfit_entries_first)>"
         "0;\"See the entries on sheet Summary.\";\"It takes at least two to tell what the next \"&group_by&\" may "
         "do.\")));\"See the entries on sheet Summary.\")");
    line(7, "Clustering within a tree", "own_clustering", "=IFERROR(SUMPRODUCT(K13:K24;L13:L24)/SUM(M13:M24);\"\")",
         Format::hundredth, "0 to 1",
         "=IF(ISNUMBER(own_clustering);\"Mean over the seasons counted tree by tree (\"&SUM(M13:M24)&\" trees), so "
         "that good and bad years do not pass for good and bad trees.\";\"Not known: it takes trees counted one by "
         "one, with live and dead grafts on the same tree. The plan keeps its own.\")");
    table(sheet, "K6:N6", next, Style::workings,
          {Format::percent_tenth, Format::percent_tenth, Format::percent_tenth, Format::count});
    sheet.put("K4", "Behind the answers; not printed", Style::workings);
    sheet
        .put("B9",
             "A take counts for the method, crop and weather it comes from. Blank clustering does not paste well: copy "
             "C6 alone then.",
             Style::note)
        .across(8);
    sheet.row_height(9, 0.8);

    constexpr int room = 12;
    const auto by = [&](int row, const char* title, const char* what, const std::string& group,
                        const std::string& use) {
        look::takes(sheet, row, title, what, room,
                    "REWORK.TAKEBY(" + counted_group(group) + ";" + counted("counts_live", use) + ";" +
                        counted("counts_placed", use) + ";limits)",
                    {{"LEN(unfit_entries_first)>0", "See the entries on sheet Summary."},
                     {"SUM(counts_fit)=0", "Nothing counted yet."}},
                    look::Columns::by_condition);
    };
    constexpr int season_band = 11;
    constexpr int first = season_band + 2;
    constexpr int last = first + room - 1;
    by(season_band, "Season by season", "Season", "counts_season", "counts_in>0");
    // Behind: clustering within each season, weighted by the trees that tell it.
    sheet.put(Place("K", first - 1), "Clustering", Style::workings);
    sheet.put(Place("L", first - 1), "Trees", Style::workings);
    sheet.put(Place("M", first - 1), "Trees that tell it", Style::workings);
    for (int row = first; row <= last; ++row) {
        const std::string one_by_one = at_row("(counts_in=2)*(counts_season=$B{r})", row);
        sheet.array(Area(Place("K", row)),
                    at_row("=IF($B{r}&\"\"=\"\";0;IFERROR(REWORK.CLUSTERING(" + counted("counts_live", one_by_one) +
                               ";" + counted("counts_placed", one_by_one) + ");-1))",
                           row),
                    Style::workings, {Format::hundredth});
        sheet.put(Place("L", row),
                  at_row("=IF(K{r}<0;0;IF(B{r}&\"\"=\"\";0;COUNTIFS(counts_in;2;counts_season;B{r})))", row),
                  Style::workings);
        sheet.put(Place("M", row), at_row("=L{r}", row), Style::workings);
    }
    constexpr int chart_row = last + 1;
    sheet.chart(
        Place("B", chart_row), 24, 6.5,
        look::takes_chart(sheet, season_band, room, "N", "Take by season, with its limits",
                          "A column for each season's take, with a bar from the lower to the upper limit.", "season"));
    constexpr int next_band = chart_row + 2;
    sheet.page_break(next_band);
    by(next_band, "Grafter by grafter", "Grafter", "counts_grafter", "counts_in>0");
    by(next_band + room + 3, "Batch by batch", "Batch", "counts_batch", "counts_in>0");
    by(next_band + 2 * (room + 3), "Method by method, all lines that fit", "Method", "counts_method", "counts_fit=1");
    constexpr int end = next_band + 3 * (room + 3);
    sheet
        .put(
            Place("B", end),
            "Limits allow for trees having good and bad luck as a whole. A group known only as one total tells nothing "
            "about that: its limits lean on the other groups, and are too narrow where there is none. The steadied "
            "take "
            "draws small counts towards the mean of all: compare that one, and mind that grafters and batches may have "
            "had unlike trees.",
            Style::note)
        .across(8);
    sheet.row_height(end, 1.5);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {9, end}));
}

// ---- Days to each stage

/// Days from grafting of the stages that were written down, from cutting back on, for each row of trees: between low
/// and high.
constexpr int before_cutting = 4;
constexpr std::array<std::array<int, 2>, 15> days_drawn{{{-5, 0},
                                                         {0, 0},
                                                         {0, 0},
                                                         {17, 24},
                                                         {33, 41},
                                                         {30, 44},
                                                         {42, 52},
                                                         {54, 75},
                                                         {62, 84},
                                                         {140, 175},
                                                         {230, 290},
                                                         {400, 540},
                                                         {510, 560},
                                                         {0, 0},
                                                         {0, 0}}};

void dates(Workbook& book) {
    Sheet& sheet = book.sheet("Dates", Paper::landscape);
    std::vector<double> widths{0.4, 3.7, 1.3, 2.5};
    widths.insert(widths.end(), stage_room, 2.5);
    widths.insert(widths.end(), {0.5, 10.0, 1.2});
    sheet.columns(widths);
    look::opening(
        sheet, "Days on which stages were done",
        "One line a row of trees, or a block, of any season: its day of grafting, and under each stage the day "
        "on which it was done. An x says done on a day that nobody wrote down. The stages are those of the "
        "method chosen on sheet Summary.",
        20);
    sheet.row_height(2, 0.6);
    look::headings(sheet, "B5", {"Block", "Row", "Grafted on"});
    constexpr int first_stage_column = 5;
    constexpr int last_column = first_stage_column + stage_room - 1;  // AB
    for (int stage = 0; stage < stage_room; ++stage) {
        sheet.put({first_stage_column + stage, 5}, "=INDEX(stage_names;" + std::to_string(stage + 1) + ")&\"\"",
                  Style::heading);
    }
    sheet.row_height(5, 2.4);
    Luck luck;
    constexpr std::array<std::pair<const char*, year>, 3> blocks{
        {{"Heron Bank, block 2", year{2025}}, {"Sandpiper Lot", year{2026}}, {"Teal Corner", year{2027}}}};
    constexpr int rows_known = 4;  // of each block
    for (int row = first_line; row <= last_date; ++row) {
        const int at = row - first_line;
        const int block = at / rows_known;
        if (block >= static_cast<int>(blocks.size())) {
            sheet.empty(Area({2, row}, {3, row}), Style::plain, Format::text);
            sheet.empty(Area({4, row}, {last_column, row}), Style::plain, Format::date);
            continue;
        }
        const auto& [name, season] = blocks.at(static_cast<std::size_t>(block));
        const auto grafted = std::chrono::sys_days{Date{season, std::chrono::September, std::chrono::day{18}}} +
                             std::chrono::days{3 * (at % rows_known) + luck.from_to(0, 2)};
        sheet.put(Place("B", row), name, Style::input, Format::text);
        sheet.put(Place("C", row), std::to_string(at % rows_known + 1), Style::input, Format::text);
        sheet.put(Place("D", row), Date{grafted}, Style::input, Format::date);
        for (int stage = 0; stage < stage_room; ++stage) {
            const Place cell(first_stage_column + stage, row);
            // Nobody wrote down what came before cutting back, nor the grafting itself, which has a column.
            const int drawn = stage - before_cutting;
            // The last stages have not come yet for the younger blocks.
            const bool known = drawn >= 0 && drawn < static_cast<int>(days_drawn.size()) &&
                               drawn < 13 - 4 * std::max(0, block - 1) && drawn != 1 && drawn != 2 &&
                               !(drawn == 6 && at % 3 == 1);
            if (!known) {
                sheet.empty(Area(cell), Style::input, Format::date);
                continue;
            }
            const auto& [low, high] = days_drawn.at(static_cast<std::size_t>(drawn));
            sheet.put(cell, Date{grafted + std::chrono::days{luck.from_to(low, high)}}, Style::input, Format::date);
        }
    }
    sheet.valid(Area("B", first_line, last_date), any_text("the block's name"));
    sheet.valid(Area("C", first_line, last_date), any_text("the row's number or name"));
    sheet.valid(Area("D", first_line, last_date), any_date);
    const std::string done = "E{r}:AB{r}";
    check_open_lines(sheet, Area({2, first_line}, {last_column, last_date}), "AD",
                     {{is_day("D{r}"), "Grafted on: give a date from 2000 to 2099, as your Calc takes dates."},
                      {"SUMPRODUCT(ISNUMBER(" + done + ")*((" + done + "<D{r}-1100)+(" + done + ">D{r}+4400)))=0",
                       "A date lies more than 3 years before or 12 years after the grafting: correct it."},
                      {"SUMPRODUCT(ISTEXT(" + done + ")*(LEN(" + done + ")>1))=0",
                       "A text stands where a date belongs: type the day anew, or x where it is not known."},
                      {"SUMPRODUCT((LEN(E$5:AB$5)=0)*(LEN(" + done + ")>0))=0",
                       "A date stands beyond the stages of this method: was another method meant?"}});
    sheet.put("AE5", "Fits", Style::workings);
    sheet.fill_down(Area("AE", first_line, last_date), "=IF(LEN(AD{r})>0;0;IF(ISNUMBER(D{r});1;0))", Style::workings);
    sheet.name("dates_grafted", Area("D", first_line, last_date));
    sheet.name("dates_done", Area({first_stage_column, first_line}, {last_column, last_date}));
    sheet.name("dates_check", Area("AD", first_line, last_date));
    sheet.name("dates_fit", Area("AE", first_line, last_date));
    sheet.freeze(first_line - 1);
    sheet.cursor("B6");
    sheet.print_area(Area({1, 1}, {last_column, last_date}));
}

void schedule(Workbook& book) {
    Sheet& sheet = book.sheet("Schedule", Paper::landscape);
    sheet.columns({0.4, 5.8, 1.9, 1.9, 1.9, 1.3, 15.0, 10.4, 4.8, 2.4, 0.8, 5.0});
    look::opening(
        sheet, look::titled("Schedule of your own records", "farm"),
        "Days from grafting to each stage: earliest is what one record in ten is quicker than, target the "
        "middle, latest what one in ten is slower than. A stage with fewer than three dates keeps its built-in "
        "row, and says where that comes from.",
        9);
    sheet.row_height(2, 1.0);
    look::band(sheet, "B4",
               "For the plan: copy B6:I29, select the first stage on its sheet Defaults, paste the values only", 9);
    look::headings(sheet, "B5",
                   {"Stage", "Earliest", "Target", "Latest", "Unit", "Sign to look for", "Where it comes from",
                    "Counted from, if not from grafting", "Own dates"});
    const std::string used = "IF(dates_fit=1;dates_grafted;\"\")";
    // Only dates: an x is no record, and a line that does not fit is left out.
    const std::string done = "IF(dates_fit*ISNUMBER(dates_done);dates_done;\"\")";
    table(sheet, Area({2, first_line}, {9, last_stage}),
          "IF(SUM(dates_fit)=0;REWORK.TABLE(method);REWORK.OWNSCHEDULE(" + used + ";" + done + ";method))",
          Style::answer, {Format::text, Format::general, Format::general, Format::general, Format::text, Format::text});
    // The stages of the method: the dates of each hang on them, and the table on the dates.
    sheet.put("L5", "Stages of the method", Style::workings);
    table(sheet, Area("L", first_line, last_stage), "REWORK.TABLE(method)", Style::workings, {Format::text});
    sheet.name("stage_names", Area("L", first_line, last_stage));
    sheet.name("own_schedule", Area({2, first_line}, {9, last_stage}));
    for (int row = first_line; row <= last_stage; ++row) {
        sheet.array(Area(Place("J", row)),
                    "=IF(B" + std::to_string(row) + "&\"\"=\"\";\"\";SUM(dates_fit*ISNUMBER(INDEX(dates_done;0;" +
                        std::to_string(row - first_line + 1) + "))))",
                    Style::answer, {Format::count});
    }
    sheet.name("own_dates", Area("J", first_line, last_stage));
    sheet
        .put(Place("B", last_stage + 2),
             "Own records count from grafting, also where the built-in row counts from another stage. They say when "
             "your "
             "people did it, not when it had to be done: a stage that was done too late every year looks right here. "
             "The "
             "sign on the tree outranks every date.",
             Style::note)
        .across(9);
    sheet.row_height(last_stage + 2, 1.0);
    sheet.cursor("B6");
    sheet.print_area(Area({1, 1}, {10, last_stage + 2}));
}

// ---- Yields by age

void yields(Workbook& book) {
    Sheet& sheet = book.sheet("Yields", Paper::portrait);
    sheet.columns({0.4, 4.8, 2.6, 2.6, 1.9, 2.4, 2.4, 2.4, 7.4, 0.6, 1.6, 1.6, 1.6, 1.6, 0.6,
                   1.4, 1.4, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6});
    look::opening(
        sheet, look::titled("Yields by age", "farm"),
        "One line a harvest of a reworked block. The age counts from grafting to the first day of the harvest.", 8);
    sheet
        .put("B3",
             "=IF(ISNUMBER(stretch);\"Your trees come into bearing \"&IF(ABS(stretch-1)<0.05;\"as the built-in curve "
             "says\";FIXED(stretch;2)&\" times as \"&IF(stretch>1;\"late\";\"early\")&\" as the built-in curve says\")"
             "&IF(ISNUMBER(own_mature);\"; a mature tree bears \"&FIXED(own_mature;0)&\" \"&yield_unit&\".\";\".\");"
             "\"Harvests of at least three ages are needed, or two and the yield of a mature tree on sheet Summary.\")",
             Style::sentence)
        .name("yield_sentence")
        .across(8);
    sheet.row_height(3, 0.9);
    look::headings(sheet, "B5",
                   {"Block", "Grafted on", "Harvest begins", "Trees picked", "=\"Harvest, \"&yield_unit", "Age, years",
                    "=\"A tree, \"&yield_unit", "Check"});
    struct Harvest {
        const char* block;
        int grafted;
        int years;  ///< after that
        int trees;
        double kilograms;
    };
    constexpr std::array<Harvest, 14> known{{
        {"Heron Bank, block 0", 2018, 3, 120, 1850},
        {"Heron Bank, block 0", 2018, 4, 120, 4650},
        {"Heron Bank, block 0", 2018, 5, 119, 7150},
        {"Heron Bank, block 0", 2018, 6, 119, 9900},
        {"Heron Bank, block 0", 2018, 7, 118, 8700},
        {"Heron Bank, block 0", 2018, 8, 118, 12100},
        {"Heron Bank, block 0", 2018, 9, 118, 10300},
        {"Curlew Piece", 2020, 3, 84, 1040},
        {"Curlew Piece", 2020, 4, 84, 2660},
        {"Curlew Piece", 2020, 5, 84, 4980},
        {"Curlew Piece", 2020, 6, 83, 6240},
        {"Curlew Piece", 2020, 7, 83, 7630},
        {"Heron Bank, block 1", 2024, 2, 184, 300},
        {"Heron Bank, block 1", 2024, 3, 184, 2450},
    }};
    using std::chrono::day;
    for (int row = first_line; row <= last_yield; ++row) {
        const auto at = static_cast<std::size_t>(row - first_line);
        if (at < known.size()) {
            const Harvest& one = known[at];
            sheet.put(Place("B", row), one.block, Style::input, Format::text);
            sheet.put(Place("C", row), Date{year{one.grafted}, std::chrono::September, day{20}}, Style::input,
                      Format::date);
            sheet.put(Place("D", row), Date{year{one.grafted + one.years}, std::chrono::June, day{10}}, Style::input,
                      Format::date);
            sheet.put(Place("E", row), one.trees, Style::input, Format::count);
            sheet.put(Place("F", row), one.kilograms, Style::input, Format::count);
        } else {
            sheet.empty(Area({2, row}, {2, row}), Style::input, Format::text);
            sheet.empty(Area({3, row}, {4, row}), Style::input, Format::date);
            sheet.empty(Area({5, row}, {6, row}), Style::input, Format::count);
        }
    }
    const auto column = [](const char* letter) { return Area(letter, first_line, last_yield); };
    sheet.valid(column("B"), any_text("the block's name"));
    sheet.valid(column("C"), any_date);
    sheet.valid(column("D"), any_date);
    sheet.valid(column("E"), whole(1, 100000, "trees"));
    sheet.valid(column("F"), number(0, 1e9, "the harvest of all these trees"));
    sheet.fill_down(column("G"), "=IF(LEN(I{r})>0;\"\";IF(AND(ISNUMBER(F{r});ISNUMBER(D{r}));(D{r}-C{r})/365.25;\"\"))",
                    Style::answer, Format::tenth);
    sheet.fill_down(column("H"), "=IF(ISNUMBER(G{r});F{r}/E{r};\"\")", Style::answer, Format::tenth);
    sheet.fill_down(
        column("I"),
        "=IF(COUNTA(B{r}:F{r})=0;\"\";IFERROR(IF(NOT(" + is_day("C{r}") +
            ");\"Grafted on: give a date from 2000 to 2099.\";IF(NOT(" + is_day("D{r}") +
            ");\"Harvest begins: give a date from 2000 to 2099.\";IF(D{r}<C{r};\"The harvest lies before the "
            "grafting.\";IF(NOT(" +
            is_whole("E{r}", "1", "100000") +
            ");\"Trees picked: give a whole number from 1 to 100,000.\";IF(F{r}=\"\";\"\";IF(NOT(" +
            is_number("F{r}", "0", "1000000000") +
            ");\"Harvest: give a number from 0 on.\";\"\"))))));\"A cell of this line holds an error.\"))",
        Style::check);
    look::mend_where_said(sheet, column("I"));
    sheet.name("yields_block", column("B"));
    sheet.name("yield_age", column("G"));
    sheet.name("yield_tree", column("H"));
    sheet.name("yields_check", column("I"));

    constexpr int fit_band = last_yield + 2;
    constexpr int curve_first = fit_band + 2;
    constexpr int curve_last = curve_first + curve_room - 1;
    const std::string curve_copy = "B" + std::to_string(curve_first) + ":C" + std::to_string(curve_last);
    sheet.page_break(fit_band);
    look::band(sheet, Place("B", fit_band),
               "For the plan: copy " + curve_copy +
                   ", select the first year of the yield table on its sheet Defaults, paste the values only",
               8);
    look::headings(sheet, Place("B", fit_band + 1), {"Years since grafting", "Share", "=\"A tree, \"&yield_unit"});
    const std::string mature = "IF(mature_fits;mature_yield;\"\")";
    table(sheet, Area({2, curve_first}, {4, curve_last}), "REWORK.YIELDFIT(yield_age;yield_tree;" + mature + ")",
          Style::answer, {Format::hundredth, Format::percent, Format::tenth});
    const Area own_curve({2, curve_first}, {3, curve_last});
    sheet.name("own_curve", own_curve);
    const std::string years_of = Area("B", curve_first, curve_last).text();
    const double built_in_last = slipbark::defaults::yield_curve().back().at;
    // Beside the curve: what the plan takes singly, and how steadily each block bears.
    sheet.put(Place("E", curve_first), "A mature tree", Style::label).across(2);
    sheet
        .put(Place("G", curve_first),
             "=IF(COUNT(" + years_of + ")=0;\"\";MAX(" + Area("D", curve_first, curve_last).text() + ")/MAX(" +
                 Area("C", curve_first, curve_last).text() + "))",
             Style::total, Format::tenth)
        .name("own_mature");
    sheet.put(Place("H", curve_first), "=yield_unit", Style::unit);
    sheet.put(Place("I", curve_first),
              "=IF(COUNT(yield_tree)=0;\"No harvest yet.\";IF(COUNT(" + years_of +
                  ")=0;REWORK.WHY(\"YIELDFIT\";yield_age;yield_tree;" + mature + ");\"\"))",
              Style::check);
    look::mend_where_said(sheet, Area("I", curve_first, curve_first + 1));
    sheet.put(Place("E", curve_first + 1), "Times as late as built in", Style::label).across(2);
    sheet
        .put(Place("G", curve_first + 1),
             "=IF(COUNT(" + years_of + ")=0;\"\";MAX(" + years_of + ")/" + plain_number(built_in_last) + ")",
             Style::answer, Format::hundredth)
        .name("stretch");
    sheet.put(Place("I", curve_first + 1),
              "=IF(N(stretch)=0;\"\";IF(OR(stretch<0.26;stretch>3.95);\"At the end of what can be fitted: are ages and "
              "yields right?\";\"\"))",
              Style::check);
    look::mend_where_said(sheet, Place("I", curve_first));

    constexpr int block_room = 8;
    constexpr int steps = 12;
    constexpr int blocks_first = curve_first + 4;
    constexpr int blocks_last = blocks_first + block_room - 1;
    sheet.put(Place("E", blocks_first - 1), "Block", Style::heading).across(2);
    look::headings(sheet, Place("G", blocks_first - 1), {"Harvests", "Alternation"});
    sheet.put(Place("I", blocks_first - 1), "0 steady, 1 a crop only every second year", Style::heading);
    // Behind: each line's block by number, its year since the block's first harvest, and its yield against the fit.
    sheet.put("P4", "Behind the alternation; not printed", Style::workings);
    sheet.put("P5", "Block", Style::workings);
    sheet.put("Q5", "Year", Style::workings);
    sheet.put("R5", "Against the fit", Style::workings);
    const std::string first = std::to_string(first_line);
    const std::string last = std::to_string(last_yield);
    for (int row = first_line; row <= last_yield; ++row) {
        const std::string above = std::to_string(row - 1);
        const std::string seen =
            row == first_line ? "FALSE()" : "ISNUMBER(MATCH(S{r};S$" + first + ":S" + above + ";0))";
        sheet.put(Place("S", row), at_row("=IF(R{r}>0;LOWER(TRIM(B{r}));\"\")", row), Style::workings);
        sheet.put(Place("R", row),
                  at_row("=IF(ISNUMBER(H{r});IFERROR(IF(REWORK.YIELD(G{r};1;own_curve)>=0.2;H{r}/REWORK.YIELD(G{r};"
                         "own_mature;own_curve);0);0);0)",
                         row),
                  Style::workings, Format::hundredth);
        sheet.put(Place("P", row),
                  at_row("=IF(OR(R{r}=0;LEN(S{r})=0);0;IF(" + seen + ";INDEX(P$" + first + ":P{r};MATCH(S{r};S$" +
                             first + ":S" + std::to_string(std::max(row - 1, first_line)) + ";0));MAX(P$" +
                             std::to_string(first_line - 1) + ":P" + above + ")+1))",
                         row),
                  Style::workings);
        sheet.put(Place("Q", row),
                  at_row("=IF(P{r}=0;-1;ROUND(G{r}-SUMPRODUCT(MIN(T$" + first + ":T$" + last + "+1000*(P$" + first +
                             ":P$" + last + "<>P{r})));0))",
                         row),
                  Style::workings);
        sheet.put(Place("T", row), at_row("=IF(P{r}=0;0;G{r})", row), Style::workings, Format::tenth);
    }
    sheet.put("S5", "Its name", Style::workings);
    sheet.put("T5", "Age", Style::workings);
    const auto in_lines = [&](const char* letter) {
        return std::string("$") + letter + "$" + first + ":$" + letter + "$" + last;
    };
    for (int row = blocks_first; row <= blocks_last; ++row) {
        const std::string which = std::to_string(row - blocks_first + 1);
        sheet
            .put(Place("E", row),
                 "=IFERROR(INDEX(" + in_lines("B") + ";MATCH(" + which + ";" + in_lines("P") + ";0));\"\")",
                 Style::body)
            .across(2);
        const Area matrix({16, row}, {16 + steps - 1, row});
        for (int step = 0; step < steps; ++step) {
            const std::string these =
                "(" + in_lines("P") + "=" + which + ")*(" + in_lines("Q") + "=" + std::to_string(step) + ")";
            sheet.put({16 + step, row},
                      "=IF(SUMPRODUCT(" + these + ")=0;\"\";SUMPRODUCT(" + these + "*" + in_lines("R") +
                          ")/SUMPRODUCT(" + these + "))",
                      Style::workings, Format::hundredth);
        }
        const std::string cells = matrix.text();
        sheet.put(Place("G", row), at_row("=IF(E{r}=\"\";\"\";COUNT(" + cells + "))", row), Style::answer,
                  Format::count);
        sheet.put(Place("H", row),
                  at_row("=IF(E{r}=\"\";\"\";IF(G{r}<2;\"\";IFERROR(REWORK.ALTERNATION(" + cells + ");\"\")))", row),
                  Style::answer, Format::hundredth);
        sheet.put(Place("I", row),
                  at_row("=IF(E{r}=\"\";\"\";IF(H{r}<>\"\";\"\";IF(G{r}<2;\"Two harvests in a row tell it.\";\"A year "
                         "between is missing.\")))",
                         row),
                  Style::check);
    }
    sheet.put(Place("P", blocks_first - 1), "Yield against the fit, year by year", Style::workings);
    sheet
        .put(
            Place("B", curve_last + 1),
            "Alternation is told of the yields against the fit, from a fifth of a mature crop on, so that growing up "
            "does "
            "not pass for alternating. The fit stretches the built-in curve in time; its shape is still that of common "
            "practice.",
            Style::note)
        .across(8);
    sheet.row_height(curve_last + 1, 1.0);

    // Behind the chart: the curves in small steps, then the harvests.
    constexpr int points = 25;
    constexpr int chart_first = first_line;
    constexpr int chart_last = chart_first + points + (last_yield - first_line);
    sheet.put("K4", "Behind the chart; not printed", Style::workings);
    look::headings(sheet, "K5", {"Age", "Your harvests", "Fit to them", "Built in"});
    for (int row = chart_first; row <= chart_last; ++row) {
        const int point = row - chart_first;
        const bool curve = point < points;
        const std::string line = std::to_string(first_line + point - points);
        sheet.put(Place("K", row),
                  curve ? "=MAX(8;MAX(yield_age)+1)*" + std::to_string(point) + "/" + std::to_string(points - 1)
                        : "=N(G" + line + ")",
                  Style::workings, Format::tenth);
        sheet.put(Place("L", row), curve ? std::string() : "=H" + line, Style::workings, Format::tenth);
        sheet.put(Place("M", row),
                  curve ? at_row("=IFERROR(REWORK.YIELD(K{r};own_mature;own_curve);\"\")", row) : std::string(),
                  Style::workings, Format::tenth);
        sheet.put(Place("N", row), curve ? at_row("=IFERROR(REWORK.YIELD(K{r};own_mature);\"\")", row) : std::string(),
                  Style::workings, Format::tenth);
    }
    using Shape = Series::Shape;
    const auto series = [&](const char* letter, Shape shape, int paint) {
        return Series{.values = Area(letter, chart_first, chart_last),
                      .label = Place(letter, chart_first - 1),
                      .shape = shape,
                      .paint = paint};
    };
    sheet.chart(Place("B", curve_last + 2), 25, 9,
                {.title = "Yield of a tree by age: harvests, the fit to them and the built-in curve",
                 .description = "A point for each harvest; one line for the curve fitted to them, one for the built-in "
                                "curve at the same mature yield.",
                 .categories = Area("K", chart_first, chart_last),
                 .category_title = "years since grafting",
                 .value_title = "a tree, in your unit",
                 .value_format = Format::count,
                 .series = {series("L", Shape::point, 3), series("M", Shape::line, 0), series("N", Shape::line, 1)},
                 .across = Across::numbers,
                 .least = 0});
    sheet.cursor("B6");
    sheet.freeze(first_line - 1);
    sheet.print_area(Area({1, 1}, {9, curve_last + 2}));
}

// ---- Minutes a tree

void work(Workbook& book) {
    Sheet& sheet = book.sheet("Work", Paper::portrait);
    sheet.columns({0.4, 2.7, 4.6, 6.6, 1.9, 1.9, 1.9, 0.5, 10.0, 2.2, 1.8});
    look::opening(sheet, "Hours of work",
                  "One line a day and stage: how many people worked how many hours each, breaks left out, on how many "
                  "trees. Choose the stage from the list, or write it as sheet Schedule has it. Room for 200.",
                  6);
    sheet.row_height(2, 1.5);
    look::headings(sheet, "B5", {"Day", "Block", "Stage", "People", "Hours each", "Trees done"});
    struct Day {
        int season;
        unsigned month;
        unsigned day;
        const char* block;
        int stage;
        int people;
        double hours;
        int trees;
    };
    const auto stages = slipbark::defaults::stages();
    constexpr std::array<Day, 18> known{{{2026, 9, 14, "Sandpiper Lot", 0, 3, 8, 40},
                                         {2026, 9, 15, "Sandpiper Lot", 0, 3, 7, 37},
                                         {2026, 10, 9, "Sandpiper Lot", 2, 1, 2, 66},
                                         {2026, 10, 26, "Sandpiper Lot", 3, 1, 2.5, 61},
                                         {2026, 10, 27, "Sandpiper Lot", 4, 2, 2, 120},
                                         {2026, 11, 5, "Sandpiper Lot", 5, 1, 3, 88},
                                         {2026, 11, 20, "Sandpiper Lot", 6, 2, 3, 110},
                                         {2026, 12, 1, "Sandpiper Lot", 7, 2, 6, 98},
                                         {2027, 2, 15, "Sandpiper Lot", 8, 2, 5.5, 116},
                                         {2027, 9, 13, "Teal Corner", 0, 4, 8, 52},
                                         {2027, 9, 14, "Teal Corner", 0, 4, 6, 41},
                                         {2027, 10, 8, "Teal Corner", 2, 2, 1.5, 93},
                                         {2027, 10, 25, "Teal Corner", 3, 2, 2, 93},
                                         {2027, 10, 26, "Teal Corner", 4, 1, 2.5, 84},
                                         {2027, 11, 6, "Teal Corner", 5, 2, 1.5, 90},
                                         {2027, 11, 18, "Teal Corner", 4, 1, 2, 93},
                                         {2027, 11, 24, "Teal Corner", 6, 2, 2.5, 93},
                                         {2027, 12, 3, "Teal Corner", 7, 3, 4, 93}}};
    for (int row = first_line; row <= last_work; ++row) {
        const auto at = static_cast<std::size_t>(row - first_line);
        if (at < known.size()) {
            const Day& one = known[at];
            sheet.put(Place("B", row), Date{year{one.season}, std::chrono::month{one.month}, std::chrono::day{one.day}},
                      Style::input, Format::date);
            sheet.put(Place("C", row), one.block, Style::input, Format::text);
            sheet.put(Place("D", row), std::string(stages[static_cast<std::size_t>(one.stage)].name), Style::input,
                      Format::text);
            sheet.put(Place("E", row), one.people, Style::input, Format::count);
            sheet.put(Place("F", row), one.hours, Style::input, Format::tenth);
            sheet.put(Place("G", row), one.trees, Style::input, Format::count);
        } else {
            sheet.empty(Area({2, row}, {2, row}), Style::plain, Format::date);
            sheet.empty(Area({3, row}, {4, row}), Style::plain, Format::text);
            sheet.empty(Area({5, row}, {5, row}), Style::plain, Format::count);
            sheet.empty(Area({6, row}, {6, row}), Style::plain, Format::tenth);
            sheet.empty(Area({7, row}, {7, row}), Style::plain, Format::count);
        }
    }
    const auto column = [](const char* letter) { return Area(letter, first_line, last_work); };
    sheet.valid(column("B"), any_date);
    sheet.valid(column("C"), any_text("the block's name"));
    sheet.valid(column("D"),
                {"of:cell-content-is-in-list([$Schedule.$L$6:.$L$29])", "Choose one of the stages of sheet Schedule.",
                 "That does not fit here. Right would be one of the stages of sheet Schedule."});
    sheet.valid(column("E"), whole(1, 1000, "people"));
    sheet.valid(column("F"), number(0, 24, "hours each"));
    sheet.valid(column("G"), whole(1, 100000, "trees"));
    check_open_lines(sheet, Area({2, first_line}, {7, last_work}), "I",
                     {{"OR(B{r}=\"\";" + is_day("B{r}") + ")", "Day: give a date from 2000 to 2099, or nothing."},
                      {"ISNUMBER(MATCH(TRUE();INDEX(LOWER(TRIM(D{r}))=LOWER(TRIM(stage_names));0);0))",
                       "Stage: choose one as sheet Schedule has it."},
                      {is_whole("E{r}", "1", "1000"), "People: give a whole number from 1 to 1000."},
                      {is_number("F{r}", "0", "24"), "Hours each: give a number from 0 to 24."},
                      {is_whole("G{r}", "1", "100000"), "Trees done: give a whole number from 1 to 100,000."}});
    sheet.put("J5", "Minutes a tree", Style::heading);
    sheet.fill_down(column("J"), "=IF(OR(LEN(I{r})>0;COUNTA(B{r}:G{r})=0);\"\";60*E{r}*F{r}/G{r})", Style::answer,
                    Format::tenth);
    sheet.put("K5", "Stage's line", Style::workings);
    sheet.fill_down(
        column("K"),
        "=IF(ISNUMBER(J{r});IFERROR(MATCH(TRUE();INDEX(LOWER(TRIM(D{r}))=LOWER(TRIM(stage_names));0);0);0);0)",
        Style::workings);
    sheet.name("work_trees", column("G"));
    sheet.name("work_check", column("I"));
    sheet.name("work_minutes", column("J"));
    sheet.name("work_stage", column("K"));
    sheet.freeze(first_line - 1);
    sheet.repeat(first_line - 1);
    sheet.cursor("B6");
    sheet.print_area(Area({1, 1}, {7, last_work}));
}

void minutes(Workbook& book) {
    Sheet& sheet = book.sheet("Minutes", Paper::portrait);
    sheet.columns({0.4, 6.8, 2.8, 2.4, 2.4, 2.2, 9.0});
    look::opening(
        sheet, look::titled("Minutes a tree, stage by stage", "farm"),
        "All hours of a stage over all its trees, each time it was done, so that long days count for more than "
        "short ones.",
        6);
    look::band(sheet, "B4",
               "For the plan: copy C6:C29, select the first Minutes a tree on its sheet Crew, paste the values only",
               6);
    look::headings(sheet, "B5",
                   {"Stage", "Minutes a tree, each time", "Days", "Trees", "Hours", "Where it comes from"});
    // Where nobody has timed a stage, the minutes that the plan assumes.
    sheet.put("I4", "Assumed, and by method; not printed", Style::workings);
    for (int row = first_line; row <= last_stage; ++row) {
        const std::string which = std::to_string(row - first_line + 1);
        int column = 10;
        std::string assumed = "\"\"";
        for (const block::Method& known : block::methods()) {
            const auto at = static_cast<std::size_t>(row - first_line);
            const Place cell(column++, row);
            sheet.put(cell, at < known.stages.size() ? Content(known.stages[at].minutes) : Content{}, Style::workings);
            assumed = "IF(method=\"" + known.name + "\";" + cell.text() + ";" + assumed + ")";
        }
        sheet.put(Place("I", row), "=IFERROR(" + assumed + ";\"\")", Style::workings);
        sheet.put(Place("B", row), "=INDEX(stage_names;" + which + ")&\"\"", Style::body);
        sheet.put(Place("C", row), at_row("=IF(N(E{r})>0;60*F{r}/E{r};IF(N(I{r})>0;I{r};\"\"))", row), Style::total,
                  Format::tenth);
        sheet.put(Place("D", row), at_row("=IF(B{r}=\"\";\"\";COUNTIFS(work_stage;" + which + "))", row), Style::answer,
                  Format::count);
        sheet.put(Place("E", row), at_row("=IF(B{r}=\"\";\"\";SUMIFS(work_trees;work_stage;" + which + "))", row),
                  Style::answer, Format::count);
        sheet.array(Area(Place("F", row)),
                    at_row("=IF(B{r}=\"\";\"\";SUM(IF(work_stage=" + which + ";work_minutes*work_trees/60;0)))", row),
                    Style::answer, {Format::tenth});
        sheet.put(Place("G", row),
                  at_row("=IF(B{r}=\"\";\"\";IF(N(D{r})=0;IF(N(I{r})>0;\"assumption of this program\";\"none "
                         "yet\");\"own records, "
                         "\"&D{r}&IF(D{r}=1;\" day\";\" days\")))",
                         row),
                  Style::unit);
    }
    sheet.name("own_days", Area("D", first_line, last_stage));
    sheet
        .put(Place("B", last_stage + 2),
             "A stage that nobody has timed shows what the plan assumes. Its times stay as they are in the plan.",
             Style::note)
        .across(6);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {7, last_stage + 2}));
}

// ---- The first sheet

void summary(Workbook& book) {
    using entries::unfit;
    Sheet& sheet = book.sheet("Summary", Paper::landscape);
    sheet.columns({0.4, 7.4, 4.6, 6.8, 0.5, 7.0, 3.2, 3.6, 9.4, 0.8, 5.0, 6.0});
    look::opening(
        sheet, look::titled("Own records", "farm"),
        "What your own seasons say, laid out as a rework plan takes it. Fill in sheets Counts, Dates, Yields and "
        "Work, or only some of them. A Check that is blank is fine, else it says what to correct.",
        8);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet
        .put(
            "B4",
            "=IF(LEN(unfit_entries_first)>0;\"Something does not fit yet. \"&unfit_entries_first;IF(counted_lines+"
            "own_stages+COUNT(yield_tree)+own_timed=0;\"Nothing is written down yet: begin with sheet Counts, Dates, "
            "Yields or Work.\";TRIM(IF(ISNUMBER(next_take);\"Plan the next round with a take of \"&ROUND(100*next_take;"
            "0)&\" %\"&IF(ISNUMBER(own_clustering);\" and a clustering of \"&FIXED(own_clustering;2);\"\")&\". "
            "\";\"\")&"
            "IF(own_stages>0;own_stages&IF(own_stages=1;\" stage runs\";\" stages run\")&\" on your own dates. "
            "\";\"\")&"
            "IF(ISNUMBER(stretch);yield_sentence&\" \";\"\")&IF(own_timed>0;own_timed&IF(own_timed=1;\" stage is\";\" "
            "stages are\")&\" timed.\";\"\"))))",
            Style::sentence)
        .name("headline")
        .across(8);
    sheet.row_height(4, 1.3);

    Form form(sheet, "B6");
    form.section("What is counted")
        .input("Farm", "farm", example_farm, "name", Format::text, any_text("the farm's name"))
        .kept("Method, for stages and minutes", "method", bagged, "one of the four built in", Format::text,
              one_of({"bagged bark graft", "wrapped bark graft", "bud on regrowth", "dormant cleft graft"}))
        .input("Method, for the take", "take_method", "=IFERROR(method;\"\")", "as on sheet Counts, or all",
               Format::text, any_text("a method as it stands on sheet Counts, or all"))
        .kept("One more of what is to be planned for", "group_by", "season", "season, block, method, grafter, batch",
              Format::text, one_of({"season", "block", "method", "grafter", "batch"}))
        .kept("It lies between its limits", "next_sure", 0.8, "of the time", Format::percent, share(0.5, 0.99))
        .kept("Confidence of the other limits", "limits", 0.95, "of the time", Format::percent, share(0.5, 0.999));
    form.section("Yields")
        .kept("Unit of the harvests", "yield_unit", "kg", "kg, lb, boxes", Format::text, any_text("a unit"))
        .input("A mature tree bears, if you know it", "mature_yield", Content{}, "=yield_unit&\"; blank: fitted\"",
               Format::tenth, number(0.001, 1e6, "of a mature tree"));

    Form answers(sheet, "F6", {.check = 1});
    answers.section("Take of the next round")
        .answer("Lines counted", "counted_lines", "=SUMPRODUCT(--(counts_in>0))", "lines", Format::count,
                "=" + lines_to_correct("Counts", "counts_check"))
        .total("Take to plan with", "", "=next_take", "of the grafts", Format::percent)
        .answer(
            "Clustering within a tree", "", "=own_clustering", "0 to 1", Format::hundredth,
            "=IF(AND(counted_lines=0;SUM(counts_fit)>0;LEN(unfit_entries_first)=0);\"No line of sheet Counts has the "
            "method \"&take_method&\".\";\"\")");
    answers.section("Stages, yields and minutes")
        .answer("Stages with your own dates", "own_stages", "=COUNTIFS(own_dates;\">=3\")", "stages", Format::count,
                "=" + lines_to_correct("Dates", "dates_check"))
        .answer("Harvests", "", "=COUNT(yield_tree)", "harvests", Format::count,
                "=" + lines_to_correct("Yields", "yields_check"))
        .answer("Stages timed", "own_timed", "=COUNTIFS(own_days;\">0\")", "stages", Format::count,
                "=" + lines_to_correct("Work", "work_check"));

    constexpr int into = 17;
    look::band(sheet, Place("B", into),
               "Into the plan: copy there, then Edit > Paste Special > Paste Special, Values Only", 8);
    sheet.put(Place("B", into + 1), "What", Style::heading);
    sheet.put(Place("C", into + 1), "Copy these cells", Style::heading);
    sheet.put(Place("D", into + 1), "Sheet of the plan", Style::heading);
    sheet.put(Place("F", into + 1), "Select there first", Style::heading);
    sheet.put(Place("G", into + 1), "As it stands", Style::heading).across(3);
    const std::string curve =
        "Yields, B" + std::to_string(last_yield + 4) + ":C" + std::to_string(last_yield + 3 + curve_room);
    struct Part {
        const char* what;
        std::string from;
        const char* sheet;
        const char* cell;
        const char* state;
    };
    const std::array<Part, 4> parts{{
        {"Take and clustering", "Take, C6:C7", "Plan", "Expected take of fresh wood",
         "=IF(ISNUMBER(next_take);\"Ready\"&IF(ISNUMBER(own_clustering);\".\";\", but clustering is not known: copy C6 "
         "alone.\");\"Not yet: it takes counts of two seasons.\")"},
        {"Schedule", "Schedule, B6:I29", "Defaults", "the first stage",
         "=IF(own_stages>0;\"Ready: \"&own_stages&\" of \"&SUMPRODUCT(--(LEN(stage_names)>0))&\" stages are your "
         "own.\";\"Not yet: it takes three dates of a stage.\")"},
        {"Yield curve", curve, "Defaults", "the first year of the yield table",
         "=IF(ISNUMBER(stretch);\"Ready; on sheet Money a mature tree bears \"&FIXED(own_mature;0)&\" \"&yield_unit&"
         "\".\";\"Not yet: it takes harvests of three ages.\")"},
        {"Minutes a tree", "Minutes, C6:C29", "Crew", "the first of Minutes a tree",
         "=IF(own_timed>0;\"Ready: \"&own_timed&\" stages; the others are as the plan assumes them.\";\"Not "
         "yet: "
         "it takes a day's work of a stage.\")"},
    }};
    int row = into + 2;
    for (const Part& part : parts) {
        sheet.put(Place("B", row), part.what, Style::body);
        sheet.put(Place("C", row), part.from, Style::body);
        sheet.put(Place("D", row), part.sheet, Style::body);
        sheet.put(Place("F", row), part.cell, Style::body);
        sheet.put(Place("G", row), part.state, Style::body).across(3);
        ++row;
    }
    sheet
        .put(Place("B", row + 1),
             "Records say what was, not what the next season does: weather, wood and people change.", Style::note)
        .across(8);
    look::invented(sheet, {"B", row + 2}, 8, "farm", example_farm);

    // Behind the Checks: what does not fit in the choices, each in the row of its entry.
    sheet.put("K6", "What does not fit; not printed", Style::workings);
    const auto check = [&](int line, const std::string& formula) {
        sheet.put(Place("L", line), "=" + formula, Style::workings);
        sheet.mark(Place("C", line), "LEN($L" + std::to_string(line) + ")>0", Style::mend);
    };
    check(7, entries::unfit_name("Farm", "farm"));
    check(8,
          entries::unfit_word("\"Method, for stages and minutes\"", "method",
                              {"bagged bark graft", "wrapped bark graft", "bud on regrowth", "dormant cleft graft"}));
    check(9, entries::unfit_name("Method, for the take", "take_method"));
    check(10, entries::unfit_word("\"One more of\"", "group_by", {"season", "block", "method", "grafter", "batch"}));
    check(11, unfit("\"It lies between its limits\"", "next_sure", {0.5, 0.99, "\"\"", true}));
    check(12, unfit("\"Confidence of the other limits\"", "limits", {0.5, 0.999, "\"\"", true}));
    check(14, entries::unfit_name("Unit of the harvests", "yield_unit"));
    check(15, "IF(ISBLANK(mature_yield);\"\";" +
                  unfit("\"A mature tree bears\"", "mature_yield", {0.001, 1e6, "\"or nothing\""}) + ")");
    sheet.name("unfit_entries", "L7:L15");
    sheet
        .put("L16", "=IF(SUMPRODUCT(--(LEN(unfit_entries)>0))>0;" + entries::first_of("unfit_entries") + ";\"\")",
             Style::workings)
        .name("unfit_entries_first");
    sheet.put("K17", "What one more is counted by", Style::workings);
    sheet
        .put("L17", "=IFERROR(MATCH(group_by;{\"season\"|\"block\"|\"method\"|\"grafter\"|\"batch\"};0);1)",
             Style::workings)
        .name("group_number");
    sheet.put("K18", "Mature yield given", Style::workings);
    sheet.put("L18", "=AND(ISNUMBER(mature_yield);LEN(L15)=0)", Style::workings).name("mature_fits");
    sheet.cursor("C7");
    sheet.print_area(Area({1, 1}, {9, row + 2}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note(
            "Wader Hill, its blocks, the grafters, batches and every count, date, harvest and hour are made up. Clear "
            "the "
            "framed cells of sheets Counts, Dates, Yields and Work (mark them and press Delete) and write down your "
            "own.");
    text.errors();
    text.heading("From records to plan")
        .note(
            "Open the plan, copy the block here, select its first cell there, and choose Edit > Paste Special > Paste "
            "Special, button Values Only. Plain Paste would bring formulas that look for this file. The plan's lines "
            "then "
            "say \"own records\" where they come from here.")
        .note(
            "From an inspection log: its lines tree by tree go to sheet Counts, one season under the other. From a "
            "plan: "
            "the days on which stages were done stand on its sheet Rows, row by row and in the same order of stages; "
            "paste their values on sheet Dates.");
    text.new_page();
    text.heading("Where the figures come from")
        .note(
            "Take to plan with: the groups' takes as logits, their mean and spread give a prediction for one more (Cox "
            "& "
            "Snell, Analysis of Binary Data, 2nd ed. 1989, from memory; Student's t with groups - 1 degrees). Two or "
            "three "
            "seasons say little, and the limits show it.")
        .note(
            "Takes by group: Wilson's limits with counts divided by the dispersion of trees within groups. Clustering: "
            "beta-binomial by maximum likelihood (Griffiths, Biometrics 29:637-648, 1973), season by season, weighted "
            "by "
            "the trees of each.")
        .note(
            "Days to each stage: quantiles at 10, 50 and 90 %, linear between order statistics (Hyndman & Fan, "
            "American "
            "Statistician 50:361-365, 1996, type 7).")
        .note(
            "Yield: the built-in curve stretched in time and scaled, least squares. Alternation: the usual index of "
            "biennial bearing (Hoblyn et al. 1936, from memory), here of yields against the fit. That a record counts "
            "from "
            "a fifth of a mature crop on is an assumption of this program.")
        .note("Minutes a tree: people x hours x 60 / trees, summed over the days; arithmetic.");
    text.close();
}

}  // namespace

std::string records() {
    Workbook book(
        "records", "Records",
        "Own history over seasons and blocks: takes, days to each stage, yields by age and minutes a tree, laid "
        "out for the next rework plan.");
    summary(book);
    counts(book);
    take(book);
    dates(book);
    schedule(book);
    yields(book);
    work(book);
    minutes(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

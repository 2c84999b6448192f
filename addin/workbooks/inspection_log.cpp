// One line for each tree, three looks: how it took by grafter and batch, what to redo, and a map for the field.
//
// The scene is invented: block, grafters, batches and every count. The counts are drawn once with a fixed seed.
#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <vector>

#include "workbooks/look.hpp"
#include "workbooks/sheet.hpp"
#include "workbooks/workbooks.hpp"

namespace slipbark::compose {

namespace {

using look::Form;

constexpr int first_line = 6;  // of the log
constexpr int last_line = first_line + 2000 - 1;

/// Which of the log's three columns of looks counts, as a column.
constexpr const char* live = "INDEX(live_looks;0;look)";

struct Tree {
    int row;
    int number;
    const char* grafter;
    const char* batch;
    int placed;
    std::array<int, 3> looks;  // -1: not looked at yet
};

/// Whole draws from the engine itself: the library's distributions differ from one compiler to the next.
class Luck {
  public:
    bool in_100(int chances) { return static_cast<int>(engine_() % 100) < chances; }
    int alive(int grafts, int chances) {
        int count = 0;
        for (int graft = 0; graft < grafts; ++graft) count += in_100(chances) ? 1 : 0;
        return count;
    }

  private:
    std::mt19937 engine_{2027};
};

/// Ten rows; two grafters share a row and meet again in other rows, so that grafter and batch can be told apart.
std::vector<Tree> invented_trees() {
    struct Grafter {
        const char* name;
        int take;  // in 100
    };
    constexpr std::array<Grafter, 6> grafters{
        {{"Odalys", 90}, {"Marek", 84}, {"Ffion", 88}, {"Sabela", 80}, {"Teodor", 68}, {"Yun", 86}}};
    constexpr int trees_in_row = 16;
    Luck luck;
    std::vector<Tree> trees;
    for (int row = 1; row <= 10; ++row) {
        for (int number = 1; number <= trees_in_row; ++number) {
            const bool gap = (row == 2 && number == 11) || (row == 4 && number >= 14) || (row == 9 && number == 3);
            if (gap) continue;
            const bool near_half = number <= trees_in_row / 2;
            const Grafter& grafter = grafters.at(static_cast<std::size_t>(row - 1 + (near_half ? 0 : 2)) % 6);
            const bool poor_wood = row >= 8;
            const char* batch = poor_wood ? "S7" : (row <= 4 ? "M1" : "M2");
            const int placed = luck.in_100(70) ? 6 : (luck.in_100(50) ? 4 : 8);
            const bool weak = luck.in_100(12);  // a weak tree loses its grafts together
            const int take = weak ? 15 : grafter.take - (poor_wood ? 14 : 0);
            const int at_first = luck.alive(placed, take);
            const int at_second = luck.alive(at_first, 95);
            const bool seen = row < 10 || number <= 9;
            // A tree that was bare at the first look gets its 0 at the second without a walk.
            const bool seen_again = row < 8 || (row == 8 && number <= 11) || (seen && at_first == 0);
            trees.push_back(
                {row, number, grafter.name, batch, placed, {seen ? at_first : -1, seen_again ? at_second : -1, -1}});
        }
    }
    return trees;
}

void tree_log(Workbook& book) {
    Sheet& sheet = book.sheet("Log", Paper::portrait);
    sheet.columns({0.4, 1.4, 1.4, 2.9, 2.1, 1.7, 1.7, 1.7, 1.7, 1.9, 6.2, 0.6, 1.8, 1.8});
    // No formulas in the rows that repeat on each page: the office works out the pages as soon as it has read these
    // rows, before it has read the names, and then shows 0 for a formula that makes a text.
    look::opening(
        sheet, "Inspection log",
        "One line for each tree, in any order; room for 2,000. Count its live grafts at each look; leave blank "
        "what nobody has looked at, and write 0 where nothing lives. Sheet Summary holds the choices and the "
        "answers, sheet Map the block as it stands.",
        10);
    sheet.row_height(2, 1.1);
    sheet.put("B3", look::if_name_error, Style::lead).across(10);
    sheet.put("B4", "Block", Style::label).across(2);
    sheet.put("D4", "Otter Bend, block 7", Style::input, Format::text)
        .name("block")
        .valid(any_text("the block's name"))
        .across(2);
    sheet.put("M4", "Behind the map; not printed", Style::workings);
    look::headings(sheet, "B5",
                   {"Row", "Tree", "Grafter", "Batch of budwood", "Grafts placed", "Live, first look",
                    "Live, second look", "Live, third look", "Grafts to redo", "Check"});
    sheet.put("M5", "Row and tree", Style::workings);
    sheet.put("N5", "Look that counts", Style::workings);

    const std::vector<Tree> trees = invented_trees();
    const auto count = [](int value) { return value < 0 ? Content{} : Content(static_cast<double>(value)); };
    for (int line = first_line; line <= last_line; ++line) {
        const auto at = static_cast<std::size_t>(line - first_line);
        if (at >= trees.size()) {
            sheet.empty(Area({2, line}, {3, line}), Style::input, Format::count);
            sheet.empty(Area({4, line}, {5, line}), Style::input, Format::text);
            sheet.empty(Area({6, line}, {9, line}), Style::input, Format::count);
            continue;
        }
        const Tree& tree = trees[at];
        sheet.put(Place("B", line), tree.row, Style::input, Format::count);
        sheet.put(Place("C", line), tree.number, Style::input, Format::count);
        sheet.put(Place("D", line), tree.grafter, Style::input, Format::text);
        sheet.put(Place("E", line), tree.batch, Style::input, Format::text);
        sheet.put(Place("F", line), tree.placed, Style::input, Format::count);
        int column = 7;
        for (const int alive : tree.looks) sheet.put({column++, line}, count(alive), Style::input, Format::count);
    }
    sheet.valid(Area("B", first_line, last_line), whole(1, 9999, "the row's number"));
    sheet.valid(Area("C", first_line, last_line), whole(1, 999, "the tree's number in its row"));
    sheet.valid(Area("D", first_line, last_line), any_text("the grafter's name or mark"));
    sheet.valid(Area("E", first_line, last_line), any_text("the batch of budwood"));
    sheet.valid(Area("F", first_line, last_line), whole(0, 1000, "grafts placed on this tree"));
    // Relative addresses in a condition count from A1, so row 1 stands for the cell's own row.
    sheet.valid(
        Area({7, first_line}, {9, last_line}),
        {"of:cell-content-is-whole-number() and cell-content-is-between(0,[.$F1])",
         "Give the live grafts: a whole number from 0 to the grafts placed on this tree. Leave blank what nobody "
         "has looked at.",
         "That does not fit here. Right would be a whole number from 0 to the grafts placed on this tree (fill "
         "in Grafts placed first)."});

    sheet.fill_down(Area("J", first_line, last_line), "=IF(ISNUMBER(N{r});MAX(0;wanted-N{r});\"\")", Style::answer,
                    Format::count);
    const std::string first = std::to_string(first_line);
    sheet.fill_down(
        Area("K", first_line, last_line),
        "=IF(COUNTA(B{r}:I{r})=0;\"\";IF(M{r}=\"\";\"Give row and tree as whole numbers.\";"
        "IF(M{r}=twice;\"This tree has another line.\";IF(COUNT(G{r}:I{r})=0;\"\";"
        "IF(COUNTA(D{r}:E{r})<2;\"Give grafter and batch.\";"
        "IF(OR(AND(COUNT(G{r}:H{r})=2;H{r}>G{r});AND(COUNT(H{r}:I{r})=2;I{r}>H{r}));\"More alive than at the "
        "look before.\";REWORK.WHY(\"TAKE\";MAX(G{r}:I{r});F{r})))))))",
        Style::check);
    sheet.fill_down(Area("M", first_line, last_line), "=IF(COUNT(B{r}:C{r})=2;1000*B{r}+C{r};\"\")", Style::workings);
    sheet.fill_down(Area("N", first_line, last_line),
                    R"(=IF(M{r}="";"";IF(INDEX(G{r}:I{r};look)="";"?";INDEX(G{r}:I{r};look))))", Style::workings);
    const std::string bare = "AND(ISNUMBER($N" + first + ");$N" + first + "=0)";
    sheet.mark(Area({2, first_line}, {3, last_line}), bare, Style::mend);
    sheet.mark(Area({7, first_line}, {9, last_line}), "AND(ISNUMBER(G" + first + ");G" + first + "=0)", Style::mend);
    sheet.mark(Area("J", first_line, last_line), "AND(ISNUMBER(J" + first + ");J" + first + "=0)", Style::done);
    look::mend_where_said(sheet, Area("K", first_line, last_line));

    sheet.name("tree_row", Area("B", first_line, last_line));
    sheet.name("tree_number", Area("C", first_line, last_line));
    sheet.name("grafter", Area("D", first_line, last_line));
    sheet.name("batch", Area("E", first_line, last_line));
    sheet.name("placed", Area("F", first_line, last_line));
    sheet.name("live_looks", Area({7, first_line}, {9, last_line}));
    sheet.name("live_first", Area("G", first_line, last_line));
    sheet.name("live_second", Area("H", first_line, last_line));
    sheet.name("live_third", Area("I", first_line, last_line));
    sheet.name("log_check", Area("K", first_line, last_line));
    sheet.name("tree_key", Area("M", first_line, last_line));
    sheet.name("counted", Area("N", first_line, last_line));
    sheet.freeze(first_line - 1);
    sheet.repeat(first_line - 1);
    sheet.cursor("H6");
    sheet.print_area(Area({1, 1}, {11, last_line}));
}

/// A table of the groups with room for twelve, from its band on.
void groups(Sheet& sheet, int band_row, const std::string& title, const std::string& what, const std::string& group) {
    look::takes(sheet, band_row, title, what, 12, "REWORK.TAKEBY(" + group + ";" + live + ";placed;confidence)",
                "seen=0");
}

void summary(Workbook& book) {
    Sheet& sheet = book.sheet("Summary", Paper::landscape);
    sheet.columns({0.4, 5.6, 2.6, 3.2, 0.5, 5.8, 2.4, 3.4, 7.4, 0.6, 1.8, 1.8});
    look::opening(sheet, "=\"How it took: \"&block",
                  "Choose the look that counts; answers, tables, the log's last columns and the map follow it. A Check "
                  "that is blank is fine, else it says what to mend.",
                  8);
    sheet
        .put("B3",
             "=IF(seen=0;\"Nobody has written down look \"&look&\" yet.\";IF(ISERROR(take_now);\"The log wants "
             "mending: see the Checks.\";\"At look \"&look&\", \"&"
             "ROUND(100*take_now;0)&\" in 100 grafts are alive on the \"&seen&\" trees looked at; \"&bare_trees&\" "
             "trees "
             "have nothing alive. To give each tree \"&wanted&\" live grafts, redo \"&redo&\" grafts on \"&short_trees&"
             "\" trees; that takes \"&redo_sticks&\" sticks.\"))",
             Style::sentence)
        .across(8);
    sheet.row_height(3, 1.2);

    Form inputs(sheet, "B5");
    inputs.section("What counts")
        .input("Look that counts", "look", 2.0, "1, 2 or 3", Format::count, one_of({"1", "2", "3"}))
        .input("Live grafts wanted on a tree", "wanted", 4.0, "grafts", Format::count, whole(1, 1000, "grafts"))
        .input("Confidence of all limits", "confidence", 0.95, "of the time", Format::percent, share(0.5, 0.999));
    // Sections on both sides start in the same rows.
    inputs.to_row(10)
        .section("Wood for what is redone")
        .input("Buds on a graft", "buds_per_graft", 3.0, "buds", Format::count, whole(1, 100, "buds"))
        .input("Usable buds on a stick", "buds_per_stick", 10.0, "buds", Format::count, whole(1, 1000, "buds"))
        .input("Spare, for culls and dead wood", "spare", 0.15, "of the need", Format::percent, share(0, 2));
    inputs.section("How many trees to look at")
        .input("Trees in the block", "trees", "=COUNT(tree_key)", "trees; type over", Format::count,
               whole(1, 100000, "trees"))
        .input("Share of trees alive known within", "margin", 0.04, "up or down", Format::percent_tenth,
               share(0.001, 1))
        .input("Trees expected with a live graft", "expected", 0.85, "of the trees", Format::percent,
               share(0.01, 0.99));

    Form answers(sheet, "F5", Form::Checks::beside);
    answers.section("Trees")
        .answer("Trees in the log", "logged", "=COUNT(tree_key)", "trees", Format::count,
                "=IF(SUMPRODUCT(--(LEN(log_check)>0))=0;\"\";\"Lines of the log to mend: \"&"
                "SUMPRODUCT(--(LEN(log_check)>0))&\". See its Check.\")")
        .answer("Looked at", "seen", "=COUNT(counted)", "trees", Format::count,
                R"(=IF(bare_uncounted=0;"";"Bare before, blank at this look: "&bare_uncounted&". Write 0."))")
        .answer("With nothing alive", "bare_trees", "=COUNTIF(counted;0)", "trees", Format::count, "")
        .answer("With fewer alive than wanted", "short_trees", "=COUNTIF(counted;\"<\"&wanted)", "trees", Format::count,
                "");
    const std::string take = std::string("REWORK.TAKETREES(") + live + ";placed;confidence)";
    answers.section("Take of the block at that look")
        .answer("Take", "take_now", "=IF(seen=0;\"\";INDEX(take_by_look;look;1))", "of the grafts",
                Format::percent_tenth, "=IF(seen=0;\"\";" + why(take).substr(1) + ")")
        .answer("At least", "", "=IF(seen=0;\"\";INDEX(take_by_look;look;2))", "of the grafts", Format::percent_tenth,
                "")
        .answer("At most", "", "=IF(seen=0;\"\";INDEX(take_by_look;look;3))", "of the grafts", Format::percent_tenth,
                "");
    answers.section("To redo, on the trees looked at")
        .total("Grafts", "redo", std::string("=REWORK.REGRAFTS(") + live + ";wanted)", "grafts", Format::count)
        .total("Sticks for them", "redo_sticks", "=REWORK.STICKS(redo;buds_per_graft;buds_per_stick;spare)", "sticks",
               Format::count);
    answers.section("Still to look at")
        .answer("Trees that nobody has looked at", "", "=MAX(0;trees-seen)", "trees", Format::count,
                R"(=IF(trees<logged;"The log has more trees than the block.";""))")
        .answer("Trees to look at for that margin", "inspect", "=REWORK.INSPECT(trees;margin;expected;confidence)",
                "trees, drawn by lot", Format::count)
        .total("Still to look at for that margin", "", "=MAX(0;inspect-seen)", "trees", Format::count);
    // Trees that were bare at an earlier look and have been passed over at this one.
    sheet.put("K5", "Bare before, blank now", Style::workings);
    sheet
        .put("K6",
             "=SUMPRODUCT((counted=\"?\")*(((look>1)*(live_first=0)*(live_first<>\"\")+(look>2)*(live_second=0)*"
             "(live_second<>\"\"))>0))",
             Style::workings)
        .name("bare_uncounted");
    // Looks for a tree twice in all lines at once: each line looking through all others would cost their square.
    sheet.put("K8", "Tree with two lines", Style::workings);
    sheet.put("K9", "=IFERROR(MODE(tree_key);\"\")", Style::workings).name("twice");

    sheet
        .put("B23",
             "Rows looked at first are no random draw: where the whole block is to be judged early, draw trees by lot. "
             "Redo while the bark slips, on stubs with sound bark; where it does not, keep a stock shoot near the stub "
             "and bud it later.",
             Style::note)
        .across(8);
    sheet.row_height(23, 1.1);
    sheet
        .put("B24",
             "Looking means ladders and opened bags: firm ground, three points of contact, nobody below. Close bags "
             "again, out of the midday sun. Keep off blocks under a spray's re-entry time. The scene is invented; more "
             "on sheet Notes.",
             Style::caution)
        .across(8);
    sheet.row_height(24, 1.2);
    sheet.cursor("C6");
    sheet.print_area("A1:I24");
}

void take(Workbook& book) {
    Sheet& sheet = book.sheet("Take", Paper::portrait);
    sheet.columns({0.4, 4.4, 2.1, 2.1, 2.1, 2.1, 2.1, 2.2, 5.2, 0.6, 1.6, 1.6});
    look::opening(sheet, "=\"Take by look, grafter and batch: \"&block",
                  R"(="Grafters and batches at look "&look&". Limits hold "&ROUND(100*confidence;1)&" times in 100.")",
                  8);
    constexpr int looks = 4;
    look::band(sheet, Place("B", looks), "Look by look", 8);
    look::headings(sheet, Place("B", looks + 1),
                   {"Look", "Take", "At least", "At most", "Design effect", "Trees", "Grafts", "Check"});
    constexpr std::array<std::array<const char*, 2>, 3> rounds{
        {{"First look", "live_first"}, {"Second look", "live_second"}, {"Third look", "live_third"}}};
    int row = looks + 2;
    for (const auto& [label, counts] : rounds) {
        const std::string call = std::string("REWORK.TAKETREES(") + counts + ";placed;confidence)";
        const std::string blank = std::string("=IF(COUNT(") + counts + ")=0;\"\";";
        sheet.put(Place("B", row), label, Style::body);
        sheet.array(Area({3, row}, {8, row}), blank + call + ")", Style::answer,
                    {Format::percent_tenth, Format::percent_tenth, Format::percent_tenth, Format::tenth, Format::count,
                     Format::count});
        sheet.put(Place("I", row), blank + why(call).substr(1) + ")", Style::check);
        ++row;
    }
    look::mend_where_said(sheet, Area("I", looks + 2, row - 1));
    sheet.mark(Area("B", looks + 2, row - 1), "ROW()-" + std::to_string(looks + 1) + "=look", Style::due);
    sheet.name("take_by_look", Area({3, looks + 2}, {5, row - 1}));
    sheet
        .put(Place("B", row),
             "Framed: the look that counts. Grafts of one tree live or die together, so trees are taken as clusters; "
             "the "
             "design effect says how many times that widens the limits (in variance).",
             Style::note)
        .across(8);
    sheet.row_height(row, 1.1);

    constexpr int tables = looks + 7;
    groups(sheet, tables, "Grafter by grafter", "Grafter", "grafter");
    groups(sheet, tables + 15, "Batch by batch", "Batch", "batch");
    constexpr int first = tables + 2;
    constexpr int last = first + 11;
    sheet.put(Place("K", tables), "Behind the chart", Style::workings);
    sheet.put(Place("K", tables + 1), "Down", Style::workings);
    sheet.put(Place("L", tables + 1), "Up", Style::workings);
    sheet.fill_down(Area("K", first, last), R"(=IF(E{r}="";"";E{r}-F{r}))", Style::workings, Format::percent_tenth);
    sheet.fill_down(Area("L", first, last), R"(=IF(E{r}="";"";G{r}-E{r}))", Style::workings, Format::percent_tenth);
    const Chart chart{.title = "Take by grafter, with its limits",
                      .description = "A column for each grafter's take, with a bar from the lower to the upper limit.",
                      .categories = Area("B", first, last),
                      .category_title = "",
                      .value_title = "take",
                      .value_format = Format::percent,
                      .series = {{.values = Area("E", first, last),
                                  .label = Place("E", tables + 1),
                                  .shape = Series::Shape::column,
                                  .paint = 2,
                                  .less = Area("K", first, last),
                                  .more = Area("L", first, last)}},
                      .legend = false,
                      .least = 0,
                      .most = 1,
                      .step = 0.2};
    constexpr int end = tables + 30;
    sheet
        .put(Place("B", end),
             "Each graft counts for itself in the tables' limits: they are somewhat too narrow where a tree's grafts "
             "share their luck. The steadied take draws small counts towards the mean of all: compare that one, and "
             "mind "
             "that grafters and batches may have had unlike trees.",
             Style::note)
        .across(8);
    sheet.row_height(end, 1.5);
    sheet.chart(Place("B", end + 1), 22, 7, chart);
    sheet.print_area(Area({1, 1}, {9, end + 1}));
}

void map(Workbook& book) {
    constexpr int rows_across = 40;
    constexpr int trees_on_page = 25;
    constexpr int head = 6;
    constexpr int second_head = head + trees_on_page + 1;
    constexpr int last_column = 2 + rows_across;
    Sheet& sheet = book.sheet("Map", Paper::landscape);
    std::vector<double> widths{0.4, 1.2};
    widths.insert(widths.end(), rows_across, 0.68);
    sheet.columns(widths);
    look::opening(sheet, R"(="Live grafts by tree: "&block&", look "&look)",
                  "Rows across, trees down, as they stand; nothing is printed where no tree is logged.",
                  rows_across + 1);
    const auto legend = [&](Place place, Content content, Style style, const std::string& text) {
        sheet.put(place, std::move(content), style);
        sheet.put({place.column + 1, place.row}, text, Style::unit).across(7);
    };
    sheet.put("C3", "First row shown", Style::label).across(5);
    sheet.put("H3", 1, Style::input, Format::count).name("map_row").valid(whole(1, 9999, "the row's number")).across(2);
    sheet.put("L3", "First tree shown", Style::label).across(5);
    sheet.put("Q3", 1, Style::input, Format::count)
        .name("map_tree")
        .valid(whole(1, 999, "the tree's number"))
        .across(2);
    sheet
        .put("T3",
             "=IF(logged=drawn;\"\";(logged-drawn)&\" trees of the log lie outside this map: change the first row or "
             "tree.\")",
             Style::check)
        .across(23);
    look::mend_where_said(sheet, "T3");
    legend("C4", 0.0, Style::mend, "nothing alive");
    legend("L4", "=MAX(1;wanted-1)", Style::total, "fewer alive than wanted");
    legend("U4", "=wanted", Style::answer, "as many as wanted, or more");
    legend("AD4", "?", Style::body, "not looked at yet");
    sheet.put("C5", "Row", Style::unit).across(3);

    // Two halves, one to a page. Numbers past the last row and tree logged stay blank.
    for (const int top : {head, second_head}) {
        const bool upper = top == head;
        sheet.put(Place("B", top), upper ? "Tree" : R"(=IF(MAX(tree_number)<map_tree+25;"";"Tree"))");
        for (int row = 0; row < rows_across; ++row) {
            const std::string again = "=IF($B" + std::to_string(top) + R"(="";"";)" + Place(3 + row, head).text() + ")";
            sheet.put({3 + row, top}, upper ? at_row(R"(=IF(map_row+{r}>MAX(tree_row);"";map_row+{r}))", row) : again);
        }
        for (int line = 0; line < trees_on_page; ++line) {
            const int at = top + 1 + line;
            sheet.put({2, at}, at_row(R"(=IF(map_tree+{r}>MAX(tree_number);"";map_tree+{r}))",
                                      line + (upper ? 0 : trees_on_page)));
            for (int column = 3; column <= last_column; ++column) {
                sheet.put({column, at}, "=IFERROR(INDEX(counted;MATCH(1000*" + Place(column, top).text() + "+$B" +
                                            std::to_string(at) + ";tree_key;0));\"\")");
            }
        }
        const auto heading = [&](const Area& area) {
            sheet.mark(area, "LEN(" + area.first.text() + ")>0", Style::heading);
        };
        heading(Area({2, top}, {last_column, top}));
        heading(Area({2, top + 1}, {2, top + trees_on_page}));
        const Area half({3, top + 1}, {last_column, top + trees_on_page});
        sheet.mark(half, at_row("AND(ISNUMBER(C{r});C{r}=0)", top + 1), Style::mend);
        sheet.mark(half, at_row("AND(ISNUMBER(C{r});C{r}<wanted)", top + 1), Style::total);
        sheet.mark(half, at_row("ISNUMBER(C{r})", top + 1), Style::answer);
        sheet.mark(half, at_row(R"(C{r}="?")", top + 1), Style::body);
        sheet.name(upper ? "map_upper" : "map_lower", half);
    }
    sheet.put(Place(last_column + 2, 1), "Trees drawn; not printed", Style::workings);
    sheet
        .put(Place(last_column + 2, 2), R"(=SUMPRODUCT(--(map_upper<>""))+SUMPRODUCT(--(map_lower<>"")))",
             Style::workings)
        .name("drawn");
    sheet.page_break(second_head);
    sheet.freeze(head);
    sheet.cursor("H3");
    sheet.print_area(Area({1, 1}, {last_column, second_head + trees_on_page}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("This scene is invented")
        .note(
            "Otter Bend, its block, the grafters, the batches of budwood and every count are made up. Clear the "
            "framed, "
            "tinted cells of sheet Log (mark them and press Delete; the formulas stay) and write down your own trees.");
    text.errors();
    text.heading("How to count")
        .note(
            "A live graft has green, plump buds or a shoot; a black or shrivelled bud has failed. A green bud at the "
            "first look is a hope, not a tree: the second and third look count what lasted.")
        .note(
            "Blank means that nobody has looked, 0 that nothing lives. A tree that was bare at an earlier look still "
            "gets its 0 at a later one; left blank it drops out and the take looks better than it is.")
        .note(
            "Lines may stand in any order, be sorted, and be left out where a tree is missing; the map finds each tree "
            "by its row and number. Number rows and trees as in the field.")
        .note("Paper copies of sheet Log take many pages; in the print dialogue choose only the pages in use.");
    text.heading("Where the figures come from")
        .note(
            "Take of the block: live over placed, with trees as clusters (ratio estimator, Cochran, Sampling "
            "Techniques, 3rd ed. 1977); limits are Wilson's with the number of grafts divided by the design effect.")
        .note(
            "Grafters and batches: Wilson's limits, each graft for itself; the steadied take is the mean of a "
            "beta-binomial fitted to all groups (Griffiths, Biometrics 29:637-648, 1973).")
        .note(
            "Trees to look at: Cochran, section 4.4, with the correction for a finite block; it holds for trees drawn "
            "at "
            "random. Sticks: whole scions cut from each stick, common practice.")
        .note(
            "Live grafts wanted, buds on a graft and on a stick, spare and margin: assumptions for this scene. Redo "
            "while the bark slips, on stubs with sound bark.");
    text.close();
}

}  // namespace

std::string inspection_log() {
    Workbook book(
        "Inspection log",
        "Live grafts tree by tree at three looks: take by grafter and batch, what to redo, map of the block.");
    tree_log(book);
    summary(book);
    take(book);
    map(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

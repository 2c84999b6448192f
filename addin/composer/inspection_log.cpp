// One line for each tree, three take checks: how it took by grafter and batch, what to regraft, a list of the trees to
// go to and a map for the field.
//
// The scene is invented: block, grafters, batches and every count. The counts are drawn once with a fixed seed.
#include <algorithm>
#include <array>
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

constexpr const char* example_block = "Otter Bend, block 7";
constexpr int first_line = 6;  // of the log
constexpr int room = 5000;
constexpr int last_line = first_line + room - 1;
constexpr int regraft_lines = 1000;
constexpr int plan_rows = 200;  // as many as the rework plan has

/// What is said of a line. Below `left_out` a line counts.
enum Remark {
    blank = 0,
    fine = 1,
    no_grafter = 2,
    more_alive = 3,
    left_out = 10,
    no_tree = 11,
    bad_number = 12,
    bad_placed = 13,
    bad_count = 14,
    odd_count = 15,
    too_many = 16,
    twice = 17,
    error = 18,
};

struct Words {
    Remark remark;
    const char* words;
};
constexpr Words remarks[] = {
    {no_grafter, "Counted, but give grafter and batch."},
    {more_alive, "Counted, but more are alive than at the take check before: count again."},
    {no_tree, "Left out: give the orchard row and the tree."},
    {bad_number, "Left out: the tree is a whole number from 1 to 100,000."},
    {bad_placed, "Left out: grafts placed is a whole number from 0 to 1,000."},
    {bad_count, "Left out: live grafts are numbers; leave blank what nobody has counted."},
    {odd_count, "Left out: live grafts are whole numbers, 0 or more."},
    {too_many, "Left out: more live grafts than placed."},
    {twice, "Left out: this tree has an earlier line."},
    {error, "Left out: a cell of this line holds an error."},
};

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
    sheet.columns({0.4, 1.4, 1.8, 2.9, 2.1, 1.9, 1.7, 1.7, 1.7, 2.4, 6.2, 0.6, 1.6, 2.2, 1.2, 1.4, 2.4, 1.6, 1.6});
    // No formulas in the rows that repeat on each page: the office works out the pages as soon as it has read these
    // rows, before it has read the names, and then shows 0 for a formula that makes a text.
    look::opening(
        sheet, "Inspection log",
        "One line for each tree, in any order; room for 5,000. Count its live grafts at each take check; leave blank "
        "what nobody has counted, and write 0 where nothing lives. Sheet Summary holds the choices and the answers, "
        "Regraft the trees to go to, Map the block as it stands.",
        8);
    sheet.row_height(2, 1.9);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet.row_height(3, 1.0);
    sheet.put("B4", "Block", Style::label).across(2);
    sheet.put("D4", example_block, Style::input, Format::text)
        .name("block")
        .valid(any_text("the block's name"))
        .across(2);
    sheet.put("M4", "Behind the answers; not printed", Style::workings);
    look::headings(sheet, "B5",
                   {"Row", "Tree", "Grafter", "Batch of budwood", "Grafts placed", "Live, first check",
                    "Live, second check", "Live, third check", "Grafts missing", "Check"});
    int heading = 13;
    for (const char* text : {"Remark", "Row and tree", "Live", "Placed", "Grafter", "Batch", "On the map",
                             "Day of loss or last count", "Lost", "Kept to second", "Kept to third"}) {
        sheet.put({heading++, first_line - 1}, text, Style::workings);
    }

    const std::vector<Tree> trees = invented_trees();
    const auto count = [](int value) { return value < 0 ? Content{} : Content(static_cast<double>(value)); };
    for (int line = first_line; line <= last_line; ++line) {
        const auto at = static_cast<std::size_t>(line - first_line);
        if (at >= trees.size()) {
            // Plain until used, so that unused pages are not printed (see Sheet::print_area).
            sheet.empty(Area({2, line}, {9, line}), Style::plain);
            continue;
        }
        const Tree& tree = trees[at];
        sheet.put(Place("B", line), tree.row, Style::input);
        sheet.put(Place("C", line), tree.number, Style::input, Format::count);
        sheet.put(Place("D", line), tree.grafter, Style::input, Format::text);
        sheet.put(Place("E", line), tree.batch, Style::input, Format::text);
        sheet.put(Place("F", line), tree.placed, Style::input, Format::count);
        int column = 7;
        for (const int alive : tree.looks) sheet.put({column++, line}, count(alive), Style::input, Format::count);
    }
    sheet.valid(Area("B", first_line, last_line), any_text("the orchard row: a number or a name, such as 7 or 12N"));
    sheet.valid(Area("C", first_line, last_line), whole(1, 100000, "the tree's number in its row"));
    sheet.valid(Area("D", first_line, last_line), any_text("the grafter's name or mark"));
    sheet.valid(Area("E", first_line, last_line), any_text("the batch of budwood"));
    sheet.valid(Area("F", first_line, last_line), whole(0, 1000, "grafts placed on this tree"));
    // Relative addresses in a condition count from A1, so row 1 stands for the cell's own row.
    sheet.valid(
        Area({7, first_line}, {9, last_line}),
        {"of:cell-content-is-whole-number() and cell-content-is-between(0,[.$F1])",
         "Give the live grafts: a whole number from 0 to the grafts placed on this tree. Leave blank what nobody "
         "has counted.",
         "That does not fit here. Right would be a whole number from 0 to the grafts placed on this tree (fill "
         "in Grafts placed first)."});

    // What is pasted goes past the validations, so each line is judged by formula. A line that cannot be read is left
    // out of every answer, and said so, instead of taking the answers down.
    const auto remark = [](Remark which) { return std::to_string(which); };
    sheet.fill_down(Area("M", first_line, last_line),
                    "=IFERROR(IF(COUNTA(B{r}:I{r})=0;" + remark(blank) + ";IF(OR(LEN(TRIM(B{r}))=0;LEN(C{r})=0);" +
                        remark(no_tree) + ";IF(NOT(ISNUMBER(C{r}));" + remark(bad_number) +
                        ";IF(OR(C{r}<1;C{r}>100000;C{r}<>INT(C{r}));" + remark(bad_number) +
                        ";IF(NOT(ISNUMBER(F{r}));" + remark(bad_placed) + ";IF(OR(F{r}<0;F{r}>1000;F{r}<>INT(F{r}));" +
                        remark(bad_placed) + ";IF(COUNT(G{r}:I{r})<COUNTA(G{r}:I{r});" + remark(bad_count) +
                        ";IF(OR(MIN(0;G{r}:I{r})<0;SUMPRODUCT(--(INT(G{r}:I{r})<>G{r}:I{r}))>0);" + remark(odd_count) +
                        ";IF(MAX(G{r}:I{r})>F{r};" + remark(too_many) +
                        ";IF(IF(any_twice;MATCH(N{r};tree_key;0)<ROW()-ROW(N$" + std::to_string(first_line - 1) +
                        ");FALSE());" + remark(twice) +
                        ";IF(OR(AND(COUNT(G{r}:H{r})=2;H{r}>G{r});AND(COUNT(H{r}:I{r})=2;I{r}>H{r}));" +
                        remark(more_alive) + ";IF(OR(LEN(TRIM(D{r}))=0;LEN(TRIM(E{r}))=0);" + remark(no_grafter) + ";" +
                        remark(fine) + "))))))))))));" + remark(error) + ")",
                    Style::workings);
    sheet.fill_down(Area("K", first_line, last_line), "=IF(M{r}<2;\"\";INDEX(check_words;M{r}))", Style::check);
    // A number, so that the map's two thousand look-ups share one index; a million trees to a row.
    sheet.fill_down(Area("N", first_line, last_line),
                    R"(=IFERROR(IF(LEN(TRIM(B{r}))>0;1000000*MATCH(TRIM(B{r});rows_listed;0)+C{r};"");""))",
                    Style::workings);
    // Blank where nobody has counted, and where the line does not count.
    sheet.fill_down(Area("O", first_line, last_line),
                    "=IF(OR(M{r}=0;M{r}>" + remark(left_out) +
                        R"(;check_used=0);"";IF(INDEX(G{r}:I{r};check_used)="";"";INDEX(G{r}:I{r};check_used))))",
                    Style::workings);
    sheet.fill_down(Area("P", first_line, last_line), "=IF(OR(M{r}=0;M{r}>" + remark(left_out) + R"();"";F{r}))",
                    Style::workings);
    sheet.fill_down(Area("Q", first_line, last_line), R"(=IF(O{r}="";"";IF(TRIM(D{r})="";"not given";TRIM(D{r}))))",
                    Style::workings);
    sheet.fill_down(Area("R", first_line, last_line), R"(=IF(O{r}="";"";IF(TRIM(E{r})="";"not given";TRIM(E{r}))))",
                    Style::workings);
    // A tree is lost at the first check that finds nothing alive on it; else it was last seen alive at its last count.
    sheet.fill_down(Area("T", first_line, last_line),
                    "=IF(P{r}=\"\";\"\";IF(AND(G{r}<>\"\";G{r}=0);first_day;IF(AND(H{r}<>\"\";H{r}=0);second_day;"
                    "IF(I{r}<>\"\";third_day;IF(H{r}<>\"\";second_day;IF(G{r}<>\"\";first_day;\"\"))))))",
                    Style::workings);
    sheet.fill_down(Area("U", first_line, last_line), R"(=IF(T{r}="";"";IF(COUNTIF(G{r}:I{r};0)>0;1;0)))",
                    Style::workings);
    // What lived at a check and at the next, in trees counted at both.
    sheet.fill_down(Area("V", first_line, last_line), R"(=IF(AND(P{r}<>"";COUNT(G{r}:H{r})=2);MIN(G{r}:H{r});""))",
                    Style::workings);
    sheet.fill_down(Area("W", first_line, last_line), R"(=IF(AND(P{r}<>"";COUNT(H{r}:I{r})=2);MIN(H{r}:I{r});""))",
                    Style::workings);
    sheet.fill_down(Area("S", first_line, last_line),
                    "=IF(M{r}>" + remark(left_out) +
                        R"(;"!";IF(O{r}="";IF(M{r}=0;"";"?");O{r}&IF(AND(O{r}>0;O{r}<wanted);short_mark;""))))",
                    Style::workings);
    sheet.fill_down(Area("J", first_line, last_line), R"(=IF(O{r}="";"";MAX(0;wanted-O{r})))", Style::answer,
                    Format::count);
    const std::string first = std::to_string(first_line);
    const std::string none = "AND(ISNUMBER($O" + first + ");$O" + first + "=0)";
    sheet.mark(Area({2, first_line}, {3, last_line}), none, Style::mend);
    sheet.mark(Area({7, first_line}, {9, last_line}), "AND(ISNUMBER(G" + first + ");G" + first + "=0)", Style::mend);
    sheet.mark(Area("J", first_line, last_line), "AND(ISNUMBER(J" + first + ");J" + first + "=0)", Style::done);
    look::mend_where_said(sheet, Area("K", first_line, last_line));
    // Some lines beyond the last used one look ready to be filled in.
    sheet.mark(Area({2, first_line}, {9, last_line}), "ROW()<=last_used+20", Style::input);

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
    sheet.name("remark", Area("M", first_line, last_line));
    sheet.name("tree_key", Area("N", first_line, last_line));
    sheet.name("tree_missing", Area("J", first_line, last_line));
    sheet.name("counted", Area("O", first_line, last_line));
    sheet.name("counted_placed", Area("P", first_line, last_line));
    sheet.name("counted_grafter", Area("Q", first_line, last_line));
    sheet.name("counted_batch", Area("R", first_line, last_line));
    sheet.name("on_the_map", Area("S", first_line, last_line));
    sheet.name("last_day", Area("T", first_line, last_line));
    sheet.name("lost", Area("U", first_line, last_line));
    sheet.name("kept_to_second", Area("V", first_line, last_line));
    sheet.name("kept_to_third", Area("W", first_line, last_line));
    sheet.freeze(first_line - 1);
    sheet.repeat(first_line - 1);
    sheet.cursor("H6");
    sheet.print_area(Area({1, 1}, {9, last_line}));
}

/// Of one of the log's columns of counts what stands in lines that count; for array formulas. One condition, not two in
/// each other: the host would calculate the inner one whole for every line.
std::string of_lines(const std::string& column) {
    return "IF((remark>0)*(remark<" + std::to_string(left_out) + ")*ISNUMBER(" + column + ");" + column + R"(;""))";
}

/// A call of our functions that is blank until somebody has counted, and where it fails; its Check says why it does.
std::string once_seen(const std::string& call) { return R"(=IF(seen=0;"";IFERROR()" + call + R"(;"")))"; }
std::string why_once_seen(const std::string& call) { return R"(=IF(seen=0;"";)" + why(call).substr(1) + ")"; }

/// What is pasted over the choices goes past their validations, too: each is judged in its own row.
void entries_judged(Sheet& sheet) {
    using entries::unfit;
    sheet.put("N4", "What does not fit", Style::workings);
    const auto judged = [&](int row, const std::string& formula) {
        sheet.put(Place("N", row), "=" + formula, Style::workings);
        sheet.mark(Place("C", row), "LEN($N" + std::to_string(row) + ")>0", Style::mend);
    };
    const entries::Range a_share{.low = 0.5, .high = 0.999, .per_cent = true};
    const entries::Range a_day{.low = 1, .high = 3000, .unit = "\"days\""};
    judged(6, unfit("\"Take check that counts\"", "look", {.low = 1, .high = 3}));
    judged(7, unfit("\"Live grafts wanted on a tree\"", "wanted", {.low = 1, .high = 1000, .unit = "\"grafts\""}));
    judged(8, unfit("\"Confidence of all limits\"", "confidence", a_share));
    judged(10, unfit("\"First take check\"", "first_day", a_day));
    judged(11, unfit("\"Second take check\"", "second_day", a_day));
    judged(12, unfit("\"Third take check\"", "third_day", a_day));
    judged(20, "IF(AND(seen=0;regraft_take=\"\");\"\";" +
                   unfit("\"Take to expect\"", "regraft_take", {.low = 0.01, .high = 1, .per_cent = true}) + ")");
    judged(21, unfit("\"How sure of each tree\"", "regraft_confidence", a_share));
    judged(22, unfit("\"Buds per scion\"", "buds_per_graft", {.low = 1, .high = 100, .unit = "\"buds\""}));
    judged(23, unfit("\"Usable buds on a stick\"", "buds_per_stick", {.low = 1, .high = 1000, .unit = "\"buds\""}));
    judged(24, unfit("\"Spare\"", "spare", {.low = 0, .high = 2, .per_cent = true}));
    judged(28, "IF(AND(logged=0;N(trees)=0);\"\";" +
                   unfit("\"Trees in the block\"", "trees", {.low = 1, .high = 100000, .unit = "\"trees\""}) + ")");
    judged(29, unfit("\"Margin\"", "margin", {.low = 0.001, .high = 1, .per_cent = true}));
    judged(30,
           unfit("\"Trees expected with a live graft\"", "expected", {.low = 0.01, .high = 0.99, .per_cent = true}));
    sheet.name("unfit_entries", "N6:N30");
    sheet
        .put("N31", "=IF(SUMPRODUCT(--(LEN(unfit_entries)>0))>0;" + entries::first_of("unfit_entries") + ";\"\")",
             Style::workings)
        .name("unfit_entry");
    sheet
        .put("N32",
             "=TRIM(" + entries::asked("\"Spare\"", "spare", 0.01) + "&\" \"&" +
                 entries::asked("\"Margin\"", "margin", 0.005) + ")",
             Style::workings)
        .name("asked_entry");
    // 0 where choices that every line hangs on do not fit: then no line is counted, and all answers wait.
    sheet.put("N33", "=IF(LEN(N6)+LEN(N7)>0;0;INT(look))", Style::workings).name("check_used");
}

void summary(Workbook& book) {
    Sheet& sheet = book.sheet("Summary", Paper::landscape);
    sheet.columns({0.4, 6.2, 2.4, 3.2, 0.5, 6.6, 2.6, 2.6, 7.6, 0.6, 1.8, 7.0});
    look::opening(sheet, look::titled("How it took", "block"),
                  "Choose the take check that counts; answers, tables, lists and the map follow it. A Check that is "
                  "blank is fine, else it says what to correct.",
                  8);
    sheet
        .put("B3",
             "=IF(logged=0;\"Fill in sheet Log first: a line for each tree, with its grafts and those alive at a take "
             "check.\";IF(LEN(unfit_entry)>0;\"Something does not fit yet: the line below says "
             "what.\";IFERROR(IF(seen=0;"
             "\"Nobody has written down take check \"&look&\" yet.\";\"At take check \"&look&\", \"&"
             "ROUND(100*take_now;0)&\" in 100 grafts are alive on the \"&seen&\" trees checked; \"&bare_trees&"
             "\" trees have no live graft. \"&missing&\" live grafts are missing to give each of \"&short_trees&"
             "\" trees its \"&wanted&IF(missing=0;\"\";\". At the take expected that is \"&regraft_mean&"
             "\" grafts on average, and \"&redo&\" to be \"&ROUND(100*regraft_confidence;0)&"
             "\" % sure of each tree: order \"&redo_sticks&\" sticks\")&\".\");\"Some answers are not there yet: the "
             "Checks say why.\")))",
             Style::sentence)
        .across(8);
    sheet.row_height(3, 1.4);
    sheet.put("B4", "=IF(LEN(unfit_entry)>0;unfit_entry;asked_entry)", Style::check).name("check_entries").across(8);
    look::mend_where_said(sheet, "B4");

    Form inputs(sheet, "B5");
    inputs.section("What counts")
        .kept("Take check that counts", "look", 2.0, "1, 2 or 3", Format::count, one_of({"1", "2", "3"}))
        .input("Live grafts wanted on a tree", "wanted", 4.0, "grafts", Format::count, whole(1, 1000, "grafts"))
        .kept("Confidence of all limits", "confidence", 0.95, "of the time", Format::percent, share(0.5, 0.999));
    inputs.section("When the trees were checked")
        .kept("First take check", "first_day", 18.0, "days after grafting", Format::count, number(1, 3000, "days"))
        .kept("Second take check", "second_day", 45.0, "days after grafting", Format::count, number(1, 3000, "days"))
        .kept("Third take check", "third_day", 90.0, "days after grafting", Format::count, number(1, 3000, "days"));
    // Sections on both sides start in the same rows.
    inputs.to_row(19)
        .section("Regrafting")
        .input("Take to expect", "regraft_take", R"(=IF(seen=0;"";take_now))", "as seen; type over",
               Format::percent_tenth, share(0.01, 1))
        .kept("How sure of each tree", "regraft_confidence", 0.8, "of the trees", Format::percent, share(0.5, 0.999))
        .input("Buds per scion", "buds_per_graft", 3.0, "buds", Format::count, whole(1, 100, "buds"))
        .input("Usable buds on a stick", "buds_per_stick", 10.0, "buds", Format::count, whole(1, 1000, "buds"))
        .kept("Spare, for culls and dead wood", "spare", 0.15, "of the need", Format::percent, share(0, 2));
    inputs.to_row(27)
        .section("How many trees to check")
        .input("Trees in the block", "trees", "=IF(logged=0;\"\";logged)", "trees; type over", Format::count,
               whole(1, 100000, "trees"))
        .kept("Share of trees alive known within", "margin", 0.04, "up or down", Format::percent_tenth, share(0.001, 1))
        .kept("Trees expected with a live graft", "expected", 0.85, "of the trees", Format::percent, share(0.01, 0.99));

    const std::string lines = std::to_string(left_out);
    const std::string take = "REWORK.TAKETREES(counted;counted_placed;confidence)";
    const std::string clustering = "REWORK.CLUSTERING(counted;counted_placed)";
    const std::string sure = "REWORK.GRAFTS(missing;regraft_take;confidence)";
    const std::string each =
        "REWORK.REGRAFTS(counted;wanted;regraft_take;regraft_confidence;IF(ISNUMBER(log_clustering);log_clustering;0))";
    const std::string sticks = "REWORK.STICKS(redo;buds_per_graft;buds_per_stick;spare)";
    const std::string sample = "REWORK.INSPECT(trees;margin;expected;confidence)";
    const std::string first_remark = "INDEX(log_check;first_left_out-" + std::to_string(first_line - 1) + ")";
    Form answers(sheet, "F5", {.check = 1});
    answers.section("Trees")
        .answer("Trees in the log", "logged", "=SUMPRODUCT((remark>0)*(remark<" + lines + "))", "trees", Format::count,
                "")
        .answer("Lines left out", "lines_left_out", "=COUNTIF(remark;\">" + lines + "\")+lines_beyond", "lines",
                Format::count,
                "=IF(lines_left_out=0;\"\";IF(first_left_out=0;\"\";\"The first is sheet line \"&first_left_out&"
                "\". \"&MID(" +
                    first_remark + ";FIND(\": \";" + first_remark +
                    ")+2;200)&\" \")&IF(lines_beyond=0;\"\";lines_beyond&\" lines stand below the form: see Notes for "
                    "room.\"))")
        .answer("Checked", "seen", "=COUNT(counted)", "trees", Format::count,
                R"(=IF(bare_uncounted=0;"";"No live graft before, blank at this check: "&bare_uncounted&". Write 0."))")
        .answer("No live graft", "bare_trees", "=IF(seen=0;\"\";COUNTIF(counted;0))", "trees", Format::count, "")
        .answer("Fewer alive than wanted", "short_trees", "=IF(seen=0;\"\";COUNTIF(counted;\"<\"&wanted))", "trees",
                Format::count, "");
    answers.section("Take of the block at that check")
        .answer("Take", "take_now", once_seen("INDEX(" + take + ";1;1)"), "of the grafts", Format::percent_tenth,
                why_once_seen(take))
        .answer("At least", "take_low", once_seen("INDEX(" + take + ";1;2)"), "of the grafts", Format::percent_tenth,
                "")
        .answer("At most", "take_high", once_seen("INDEX(" + take + ";1;3)"), "of the grafts", Format::percent_tenth,
                "")
        .answer("Design effect: limits widened by trees", "take_design", once_seen("INDEX(" + take + ";1;4)"), "times",
                Format::tenth, "")
        .answer("Clustering within a tree, for the plan", "log_clustering", once_seen(clustering), "0 to 1",
                Format::hundredth, why_once_seen(clustering));
    answers.to_row(19)
        .section("To regraft, on the trees checked")
        .answer("Live grafts missing", "missing", once_seen("REWORK.REGRAFTS(counted;wanted)"), "grafts", Format::count,
                why_once_seen("REWORK.REGRAFTS(counted;wanted)"))
        .answer("To place so that on average they live", "regraft_mean",
                R"(=IF(OR(seen=0;N(regraft_take)<=0);"";ROUNDUP(missing/regraft_take;0)))", "grafts", Format::count,
                R"(=IF(OR(seen=0;N(regraft_take)>0);"";"Give the take to expect of regrafts."))")
        .answer("To have as many in all, as sure as above", "regraft_sure", once_seen(sure), "grafts", Format::count,
                why_once_seen(sure))
        .total("To be sure of each tree (sheet Regraft)", "redo", once_seen(each), "grafts", Format::count,
               why_once_seen(each))
        .total("Sticks for those", "redo_sticks", once_seen(sticks), "sticks", Format::count, why_once_seen(sticks));
    answers.to_row(27)
        .section("Still to check")
        .answer("Trees not checked yet", "", "=IF(ISNUMBER(trees);MAX(0;trees-seen);\"\")", "trees", Format::count,
                R"(=IF(N(trees)<logged;"The log has more trees than the block.";""))")
        .answer("Trees to check for that margin", "inspect", "=IFERROR(" + sample + ";\"\")", "trees, at random",
                Format::count, why(sample))
        .total("Still to check for that margin", "", R"(=IF(inspect="";"";MAX(0;inspect-seen)))", "trees",
               Format::count);

    sheet.put("K4", "Behind the answers; not printed", Style::workings);
    // Trees without a live graft at an earlier check that have been passed over at this one.
    sheet.put("K5", "None alive before, blank now", Style::workings);
    sheet.array(
        "K6",
        "=SUM((remark>0)*(remark<" + lines +
            ")*(counted=\"\")*(((check_used>1)*ISNUMBER(live_first)*IFERROR(live_first=0;0)+(check_used>2)*ISNUMBER("
            "live_second)*"
            "IFERROR(live_second=0;0))>0))",
        Style::workings, {Format::count});
    sheet.name("bare_uncounted", "K6");
    sheet.put("K7", "First line left out", Style::workings);
    sheet.array("K8", "=IF(MAX(remark)<" + lines + ";0;MIN(IF(remark>" + lines + ";ROW(remark))))", Style::workings,
                {Format::count});
    sheet.name("first_left_out", "K8");
    sheet.put("K9", "Filled cells below the form", Style::workings);
    sheet
        .put("K10", "=COUNTA(Log.B" + std::to_string(last_line + 1) + ":B" + std::to_string(last_line + 20000) + ")",
             Style::workings)
        .name("lines_beyond");
    sheet.put("K11", "Last line used", Style::workings);
    sheet.array("K12", "=MAX(" + std::to_string(first_line) + ";(remark>0)*ROW(remark))", Style::workings,
                {Format::count});
    sheet.name("last_used", "K12");
    sheet.put("L4", "What is said of a line", Style::workings);
    for (const Words& one : remarks) sheet.put(Place("L", 4 + one.remark), one.words, Style::workings);
    sheet.name("check_words", Area("L", 5, 4 + error));
    entries_judged(sheet);

    sheet
        .put("B32",
             "Rows checked first are no random draw: where the whole block is to be judged early, draw trees at "
             "random. Regraft while the bark slips, on stubs with sound bark and a fresh cut; where it does not slip, "
             "keep a stock shoot near the stub and bud it later.",
             Style::note)
        .across(8);
    sheet.row_height(32, 1.1);
    sheet
        .put("B33",
             "Checking means ladders and opened bags: firm ground, three points of contact, nobody below. Close bags "
             "again, out of the midday sun. Keep off blocks under a spray's re-entry time. More on sheet Notes.",
             Style::caution)
        .across(8);
    sheet.row_height(33, 1.2);
    look::invented(sheet, {"B", 31}, 8, "block", example_block);
    sheet.cursor("C6");
    sheet.print_area("A1:I33");
}

/// The trees to go to, to print and take along.
void regraft(Workbook& book) {
    Sheet& sheet = book.sheet("Regraft", Paper::portrait);
    sheet.columns({0.4, 2.4, 2.4, 2.4, 2.4, 2.8, 2.4, 3.6});
    look::opening(sheet, "Trees to regraft",
                  "Every checked tree with fewer live grafts than wanted, in the order of the log, with the grafts to "
                  "place on it at the take expected (sheet Summary).",
                  7);
    sheet.row_height(2, 1.1);
    sheet
        .put("B3",
             "=block&\": \"&short_trees&\" trees, \"&redo&\" grafts, \"&redo_sticks&\" sticks\"&IF(short_trees>40;\". "
             "More than 40: open the folds at the left (+).\";\"\")&IF(short_trees>" +
                 std::to_string(regraft_lines) + ";\" Only the first " + std::to_string(regraft_lines) +
                 " trees stand here.\";\"\")",
             Style::sentence)
        .across(7);
    look::headings(sheet, "B5", {"Row", "Tree", "Live", "Missing", "Grafts to place", "Placed", "Grafter, day"});
    constexpr int first = 6;
    constexpr int last = first + regraft_lines - 1;
    sheet.array(
        Area({2, first}, {6, last}),
        "=" + with_blanks_below("REWORK.REGRAFTLIST(IF(counted=\"\";\"\";tree_row);IF(counted=\"\";\"\";tree_number);"
                                "counted;wanted;regraft_take;regraft_confidence;"
                                "IF(ISNUMBER(log_clustering);log_clustering;0))",
                                regraft_lines, 5),
        Style::body, {Format::general, Format::count});
    sheet.name("regraft_list", Area({2, first}, {6, last}));
    // What is written by hand on paper gets its boxes only where a tree stands.
    sheet.mark(Area({2, first}, {8, last}), "LEN($B" + std::to_string(first) + ")>0", Style::input);
    sheet.empty(Area({7, first}, {8, last}), Style::plain);
    // Folded in steps, so that what is not used is not printed.
    for (const int shown : {40, 120, 240, 480}) sheet.fold(first + shown, last);
    sheet.freeze(first - 1);
    sheet.repeat(2);
    sheet.print_area(Area({1, 1}, {8, last}));
}

/// The block row by row, as sheet Rows of a rework plan takes it by one paste.
void rows(Workbook& book) {
    Sheet& sheet = book.sheet("Rows", Paper::portrait);
    sheet.columns({0.4, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4, 2.6});
    look::opening(sheet, "Row by row, for the rework plan",
                  "Where the plan's sheet Rows lists the same rows in the same order: copy columns D to I from line 6 "
                  "down, go there to its first cell under Grafts placed, then Edit > Paste Special > Paste Special, "
                  "Values Only. A take check counts for a row once all its trees are counted.",
                  8);
    sheet.row_height(2, 1.5);
    constexpr int first = 6;
    constexpr int last = first + plan_rows - 1;
    sheet
        .put("B3",
             "=IF(IFERROR(LEN(INDEX(rows_listed;" + std::to_string(plan_rows + 1) + "))>0;FALSE());\"Only the first " +
                 std::to_string(plan_rows) + " rows stand here.\";\"\")",
             Style::check)
        .across(8);
    look::headings(sheet, "B5",
                   {"Row", "Trees", "Grafts placed", "Live, first check", "Live, second check", "Live, third check",
                    "Trees short", "Live grafts they lack"});
    const auto fill = [&](const char* column, const std::string& formula) {
        sheet.fill_down(Area(column, first, last), "=IF(B{r}=\"\";\"\";" + formula + ")", Style::plain, Format::count);
    };
    sheet.fill_down(Area("B", first, last),
                    "=IFERROR(INDEX(rows_listed;ROW()-" + std::to_string(first - 1) + ")&\"\";\"\")", Style::plain);
    // A tree's key is a million times the place of its row, and its number.
    const std::string here = "tree_key;\">=\"&1000000*(ROW()-" + std::to_string(first - 1) +
                             ");tree_key;\"<\"&1000000*(ROW()-" + std::to_string(first - 2) + ")";
    const std::string counts = here + ";counted_placed;\">=0\"";
    fill("C", "COUNTIFS(" + counts + ")");
    fill("D", "SUMIFS(counted_placed;" + here + ")");
    for (const auto& [column, live] :
         {std::pair{"E", "live_first"}, std::pair{"F", "live_second"}, std::pair{"G", "live_third"}}) {
        fill(column, std::string("IF(OR(C{r}=0;COUNTIFS(") + live + ";\">=0\";" + counts + ")<C{r});\"\";SUMIFS(" +
                         live + ";" + counts + "))");
    }
    const std::string whole = "IF(OR(C{r}=0;COUNTIFS(tree_missing;\">=0\";" + here + ")<C{r});\"\";";
    fill("H", whole + "COUNTIFS(tree_missing;\">0\";" + here + "))");
    fill("I", whole + "SUMIFS(tree_missing;" + here + "))");
    sheet.name("for_the_plan", Area({4, first}, {9, last}));
    sheet.mark(Area({2, first}, {9, last}), "LEN($B" + std::to_string(first) + ")>0", Style::answer);
    // Folded in steps, so that what is not used is not printed.
    for (const int shown : {40, 80, 120, 160}) sheet.fold(first + shown, last);
    sheet.freeze(first - 1);
    sheet.repeat(2);
    sheet.cursor("D6");
    sheet.print_area(Area({1, 1}, {9, last}));
}

void take(Workbook& book) {
    Sheet& sheet = book.sheet("Take", Paper::portrait);
    sheet.columns({0.4, 4.4, 2.4, 2.4, 2.2, 2.2, 2.4, 2.4, 5.2, 0.6, 1.6, 1.6});
    look::opening(
        sheet, look::titled("Take by check, grafter and batch", "block"),
        R"(=IFERROR("Grafters and batches at take check "&look&". Limits hold "&ROUND(100*confidence;1)&" times in 100.";""))",
        8);
    constexpr std::array<std::array<const char*, 3>, 3> checks{{{"First take check", "live_first", "first_day"},
                                                                {"Second take check", "live_second", "second_day"},
                                                                {"Third take check", "live_third", "third_day"}}};
    look::band(sheet, "B4", "Check by check", 8);
    look::headings(sheet, "B5",
                   {"Take check", "Take", "At least", "At most", "Design effect", "Trees", "Grafts", "Check"});
    int row = 6;
    for (const auto& [label, counts, day] : checks) {
        const std::string call = "REWORK.TAKETREES(" + of_lines(counts) + ";" + of_lines("placed") + ";confidence)";
        const std::string blank = std::string("=IF(COUNT(") + counts + ")=0;\"\";";
        sheet.put(Place("B", row), label, Style::body);
        sheet.array(Area({3, row}, {8, row}), blank + "IFERROR(" + call + ";\"\"))", Style::answer,
                    {Format::percent_tenth, Format::percent_tenth, Format::percent_tenth, Format::tenth, Format::count,
                     Format::count});
        // The counts are clean, so only the confidence may be wrong. WHY in an array formula would be asked once a
        // line.
        sheet.put(Place("I", row), blank + "REWORK.WHY(\"TAKETREES\";{1|2};{2|2};confidence))", Style::check);
        ++row;
    }
    look::mend_where_said(sheet, "I6:I8");
    sheet.mark("B6:B8", "ROW()-5=look", Style::due);
    sheet.name("take_by_look", "C6:E8");
    sheet
        .put("B9",
             "Framed: the check that counts. Grafts of one tree live or die together, so trees are taken as clusters; "
             "the design effect says how many times that widens the limits (in variance).",
             Style::note)
        .across(8);
    sheet.row_height(9, 1.1);

    look::band(sheet, "B11", "What lasts from check to check", 8);
    look::headings(sheet, "B12",
                   {"Take check", "Day", "Trees with a live graft", "At least", "At most",
                    "Grafts kept since the check before", "Trees counted at both", "Check"});
    row = 13;
    const char* before = nullptr;
    for (const auto& [label, counts, day] : checks) {
        const std::string life = std::string("REWORK.GRAFTLIFE(last_day;lost;") + day + ";confidence)";
        const std::string blank = std::string("=IF(COUNT(") + counts + ")=0;\"\";";
        sheet.put(Place("B", row), label, Style::body);
        sheet.put(Place("C", row), std::string("=") + day, Style::answer, Format::count);
        sheet.array(Area({4, row}, {6, row}), blank + "IFERROR(" + life + ";\"\"))", Style::answer,
                    {Format::percent_tenth});
        if (before == nullptr) {
            sheet.empty(Area({7, row}, {8, row}), Style::answer);
        } else {
            const std::string kept = std::string("REWORK.TAKETREES(") +
                                     (row == 14 ? "kept_to_second" : "kept_to_third") + ";" + of_lines(before) +
                                     ";confidence)";
            sheet.array(Area("G", row, row), blank + "IFERROR(INDEX(" + kept + ";1;1);\"\"))", Style::answer,
                        {Format::percent_tenth});
            sheet.array(Area("H", row, row), blank + "IFERROR(INDEX(" + kept + ";1;5);\"\"))", Style::answer,
                        {Format::count});
        }
        sheet.put(Place("I", row), blank + why(life).substr(1) + ")", Style::check);
        before = counts;
        ++row;
    }
    look::mend_where_said(sheet, "I13:I15");
    sheet.name("survival", "D13:F15");
    sheet
        .put("B16",
             "Trees with a live graft: Kaplan-Meier over all trees, also those that were not counted at every check; "
             "days are those on sheet Summary.",
             Style::note)
        .across(8);
    sheet.row_height(16, 1.1);

    constexpr int group_room = 30;
    constexpr int grafters = 27;
    constexpr int batches = grafters + group_room + 3;
    const auto groups = [&](int band_row, const std::string& title, const std::string& what, const std::string& group) {
        look::takes(sheet, band_row, title, what, group_room,
                    "REWORK.TAKEBY(" + group + ";counted;counted_placed;confidence)",
                    {{"seen=0", "Nothing counted yet."}});
    };

    look::band(sheet, "B18", "Two compared", 8);
    look::headings(sheet, "B19", {"", "First", "Second", "Difference", "At least", "At most", "p", "Check"});
    const auto compare = [&](int at, const char* label, const char* first, const char* second, const char* group,
                             int table) {
        const std::string from = std::to_string(table + 2);
        const std::string to = std::to_string(table + 1 + group_room);
        const Validation listed{"of:cell-content-is-in-list([$Take.$B$" + from + ":$Take.$B$" + to + "])",
                                "Choose one of the table below.", "Choose one that stands in the table below."};
        sheet.put(Place("B", at), label, Style::body);
        sheet.put(Place("C", at), first, Style::input, Format::text).valid(listed);
        sheet.put(Place("D", at), second, Style::input, Format::text).valid(listed);
        const auto sum = [&](const char* column, const char* of) {
            return std::string("SUMIF(") + group + ";" + column + std::to_string(at) + ";" + of + ")";
        };
        const std::string call = "REWORK.TAKEDIFF(" + sum("C", "counted") + ";" + sum("C", "counted_placed") + ";" +
                                 sum("D", "counted") + ";" + sum("D", "counted_placed") +
                                 ";confidence;MAX(1;take_design))";
        sheet.array(Area({5, at}, {8, at}), "=IF(seen=0;\"\";IFERROR(" + call + ";\"\"))", Style::answer,
                    {Format::percent, Format::percent, Format::percent, Format::hundredth});
        sheet.put(
            Place("I", at),
            at_row("=IF(OR(seen=0;C{r}=\"\";D{r}=\"\");\"\";IF(COUNTIF(" + std::string(group) + ";C{r})*COUNTIF(" +
                       group + ";D{r})=0;\"Choose two that stand in the table below.\";" + why(call).substr(1) + "))",
                   at),
            Style::check);
    };
    compare(20, "Grafters", "Odalys", "Teodor", "counted_grafter", grafters);
    compare(21, "Batches", "M1", "S7", "counted_batch", batches);
    look::mend_where_said(sheet, "I20:I21");
    sheet.name("compare_grafters", "E20:H20");
    sheet.name("compare_batches", "E21:H21");
    sheet
        .put("B22",
             "p: how often takes that are in truth the same would differ as much or more. It is not the chance that "
             "they are the same, and a large p is no proof that they are. Counts are divided by the design effect of "
             "the block. Grafters and batches may have had unlike trees.",
             Style::note)
        .across(8);
    sheet.row_height(22, 1.5);

    groups(grafters, "Grafter by grafter", "Grafter", "counted_grafter");
    groups(batches, "Batch by batch", "Batch", "counted_batch");
    constexpr int charted = 12;
    sheet.chart("B24", 22, 7,
                look::takes_chart(sheet, grafters, charted, "K", "Take by grafter, with its limits (the first 12)",
                                  "A column for each grafter's take, with a bar from the lower to the upper limit.",
                                  "grafter"));
    sheet
        .put("B25",
             "Trees are taken as clusters in the tables, too: limits are as wide as trees of one grafter differ. The "
             "steadied take draws small counts towards the mean of all: compare that one.",
             Style::note)
        .across(8);
    sheet.row_height(25, 1.1);
    sheet.page_break(grafters);
    sheet.print_area(Area({1, 1}, {9, batches + 1 + group_room}));
}

void map(Workbook& book) {
    constexpr int rows_across = 40;
    constexpr int trees_on_page = 25;
    constexpr int head = 6;
    constexpr int second_head = head + trees_on_page + 1;
    constexpr int last_column = 2 + rows_across;
    constexpr int listed_rows = 400;
    Sheet& sheet = book.sheet("Map", Paper::landscape);
    std::vector<double> widths{0.4, 1.2};
    widths.insert(widths.end(), rows_across, 0.68);
    sheet.columns(widths);
    look::opening(
        sheet, R"(="Live grafts by tree: "&block&", take check "&look)",
        "Rows across in the order of the log, trees down. Trees beyond the first 25: open the fold at the left (+), "
        "which is then printed, too.",
        rows_across + 1);
    const auto legend = [&](Place place, Content content, Style style, const std::string& text) {
        sheet.put(place, std::move(content), style);
        sheet.put({place.column + 1, place.row}, text, Style::unit).across(6);
    };
    sheet.put("C3", "Begin with row no.", Style::label).across(5);
    sheet.put("H3", 1, Style::input, Format::count)
        .name("map_row")
        .valid(whole(1, listed_rows, "which of the log's rows comes first, counted in the order of the log"))
        .across(2);
    sheet.put("L3", "Begin with tree", Style::label).across(5);
    sheet.put("Q3", 1, Style::input, Format::count)
        .name("map_tree")
        .valid(whole(1, 100000, "the tree's number"))
        .across(2);
    sheet
        .put("T3",
             "=IF(LEN(unfit_row)>0;unfit_row;IF(LEN(unfit_tree)>0;unfit_tree;IF(logged_lines<=drawn;\"\";"
             "(logged_lines-drawn)&\" trees of the log lie outside this map: change the first row or tree.\")))",
             Style::check)
        .across(23);
    look::mend_where_said(sheet, "T3");
    legend("C4", 0.0, Style::mend, "no live graft");
    legend("K4", "=IFERROR(MAX(1;wanted-1);1)&short_mark", Style::total, "fewer than wanted");
    legend("S4", "=IF(ISNUMBER(wanted);wanted;\"\")", Style::answer, "as wanted, or more");
    legend("AA4", "?", Style::body, "not checked yet");
    legend("AI4", "!", Style::mend, "line left out");
    sheet.put("C5", "Row", Style::unit).across(3);

    // Two halves, one to a page. Numbers past the last row and tree logged stay blank.
    for (const int top : {head, second_head}) {
        const bool upper = top == head;
        sheet.put(Place("B", top), upper ? "Tree" : R"(=IF(last_tree<tree_drawn+25;"";"Tree"))");
        for (int row = 0; row < rows_across; ++row) {
            const std::string again = "=IF($B" + std::to_string(top) + R"(="";"";)" + Place(3 + row, head).text() + ")";
            sheet.put({3 + row, top},
                      upper ? at_row("=IFERROR(INDEX(rows_listed;row_drawn+{r})&\"\";\"\")", row) : again);
        }
        for (int line = 0; line < trees_on_page; ++line) {
            const int at = top + 1 + line;
            sheet.put({2, at},
                      at_row(R"(=IF(tree_drawn+{r}>last_tree;"";tree_drawn+{r}))", line + (upper ? 0 : trees_on_page)));
            for (int column = 3; column <= last_column; ++column) {
                const std::string row_at = Place(column, top).text();
                sheet.put({column, at}, "=IF(OR(" + row_at + "=\"\";$B" + std::to_string(at) +
                                            "=\"\");\"\";IFERROR(INDEX(on_the_map;MATCH(1000000*(row_drawn+" +
                                            std::to_string(column - 3) + ")+$B" + std::to_string(at) +
                                            ";tree_key;0));\"\"))");
            }
        }
        const auto heading = [&](const Area& area) {
            sheet.mark(area, "LEN(" + area.first.text() + ")>0", Style::heading);
        };
        heading(Area({2, top}, {last_column, top}));
        heading(Area({2, top + 1}, {2, top + trees_on_page}));
        const Area half({3, top + 1}, {last_column, top + trees_on_page});
        sheet.mark(half, at_row(R"(OR(C{r}="0";C{r}="!"))", top + 1), Style::mend);
        sheet.mark(half, at_row("AND(LEN(C{r})>1;RIGHT(C{r};1)=short_mark)", top + 1), Style::total);
        sheet.mark(half, at_row(R"(AND(LEN(C{r})>0;C{r}<>"?"))", top + 1), Style::answer);
        sheet.mark(half, at_row(R"(C{r}="?")", top + 1), Style::body);
        sheet.name(upper ? "map_upper" : "map_lower", half);
    }
    const int behind = last_column + 2;
    sheet.put(Place(behind, 1), "Behind the map; not printed", Style::workings);
    sheet.put(Place(behind, 2), R"(=SUMPRODUCT(--(map_upper<>""))+SUMPRODUCT(--(map_lower<>"")))", Style::workings)
        .name("drawn");
    const auto begin = [&](int row, const std::string& label, const std::string& name, double most,
                           const std::string& unfit, const std::string& used) {
        sheet.put(Place(behind + 1, row), "=" + entries::unfit(label, name, {.low = 1, .high = most}), Style::workings)
            .name(unfit);
        sheet.put(Place(behind + 2, row), "=IF(LEN(" + unfit + ")>0;1;INT(" + name + "))", Style::workings).name(used);
    };
    begin(2, "\"Begin with row no.\"", "map_row", listed_rows, "unfit_row", "row_drawn");
    begin(3, "\"Begin with tree\"", "map_tree", 100000, "unfit_tree", "tree_drawn");
    // A line of a tree that has an earlier one is not drawn.
    sheet
        .put(Place(behind, 3), "=SUMPRODUCT(--(tree_key<>\"\"))-COUNTIF(remark;" + std::to_string(twice) + ")",
             Style::workings)
        .name("logged_lines");
    // For a line to look for an earlier one of its tree costs the host the square of the lines, so they look only where
    // some tree stands twice.
    sheet.put(Place(behind + 1, 4), "=IFERROR(MODE(tree_key)>0;FALSE())", Style::workings).name("any_twice");
    sheet.array(Place(behind, 4), R"(=MAX(0;IF(tree_key<>"";tree_number;0)))", Style::workings, {Format::count});
    sheet.name("last_tree", Place(behind, 4));
    sheet.put(Place(behind, 5), "\xE2\x86\x93", Style::workings).name("short_mark");
    const Area rows_listed(Place(behind, head), Place(behind, head + listed_rows - 1));
    sheet.array(rows_listed,
                "=" + with_blanks_below("REWORK.TAKEBY(IFERROR(UPPER(TRIM(tree_row));\"\");"
                                        "IF(LEN(IFERROR(TRIM(tree_row);\"\"))>0;1;\"\");"
                                        "IF(LEN(IFERROR(TRIM(tree_row);\"\"))>0;1;\"\"))",
                                        listed_rows, 1),
                Style::workings, {Format::general});
    sheet.name("rows_listed", rows_listed);
    sheet.page_break(second_head);
    sheet.fold(second_head, second_head + trees_on_page);
    sheet.freeze(head);
    sheet.cursor("H3");
    sheet.print_area(Area({1, 1}, {last_column, second_head + trees_on_page}));
}

/// One row of trees on paper, with room for a pencil: to be counted in the field and typed into the log afterwards.
void count_sheet(Workbook& book) {
    Sheet& sheet = book.sheet("Count sheet", Paper::portrait);
    sheet.columns({0.4, 1.5, 1.6, 2.2, 4.0, 0.5, 1.5, 1.6, 2.2, 4.0, 0.6, 3.0, 2.0});
    look::opening(
        sheet, look::titled("Count sheet", "block"),
        "For the field: choose a row, print this sheet, count with a pencil, and type the counts into sheet Log. "
        "0 where nothing lives, nothing where nobody looked.",
        9);
    sheet.row_height(2, 1.0);
    sheet.put("B3", "Row", Style::label).across(2);
    sheet.put("D3", "=IFERROR(INDEX(rows_listed;1)&\"\";\"\")", Style::input, Format::text)
        .name("sheet_row")
        .valid(any_text("the orchard row, as the log has it"));
    sheet.put("G3", "Begin with tree", Style::label).across(2);
    sheet.put("I3", 1, Style::input, Format::count).name("sheet_tree").valid(whole(1, 100000, "the tree's number"));
    sheet
        .put("B4",
             "=IF(LEN(unfit_sheet)>0;unfit_sheet;IF(ISNUMBER(sheet_place);\"\";IF(LEN(IFERROR(TRIM(sheet_row);\"\"))=0;"
             "\"\";\"This row is not in the log: its trees are numbered, and what was placed is not known.\")))",
             Style::check)
        .across(9);
    look::mend_where_said(sheet, "B4");
    sheet.put("B5", "Day: ____________   Who counts: ____________   Take check: 1   2   3", Style::body).across(9);
    sheet.row_height(5, 0.9);
    constexpr int lines = 30;
    constexpr int head = 6;
    for (int half = 0; half < 2; ++half) {
        const int column = 2 + 5 * half;
        look::headings(sheet, {column, head}, {"Tree", "Placed", "Live", "Remark"});
        for (int line = 0; line < lines; ++line) {
            const int row = head + 1 + line;
            const std::string tree = Place(column, row).text();
            sheet.put({column, row},
                      "=IF(LEN(unfit_sheet)>0;\"\";INT(sheet_tree)+" + std::to_string(half * lines + line) + ")",
                      Style::body, Format::general);
            // A tree that the log's row lacks is told by a stroke.
            sheet.put({column + 1, row},
                      "=IF(OR(LEN(unfit_sheet)>0;NOT(ISNUMBER(sheet_place)));\"\";IFERROR(INDEX(placed;MATCH(1000000*"
                      "sheet_place+" +
                          tree + ";tree_key;0));\"-\"))",
                      Style::body, Format::general);
            sheet.empty(Area({column + 2, row}, {column + 3, row}), Style::body);
            sheet.row_height(row, 0.72);
        }
    }
    sheet.put("L3", "=IFERROR(MATCH(TRIM(sheet_row);rows_listed;0);\"\")", Style::workings).name("sheet_place");
    sheet
        .put("M3", "=" + entries::unfit("\"Begin with tree\"", "sheet_tree", {.low = 1, .high = 100000}),
             Style::workings)
        .name("unfit_sheet");
    sheet.put("L2", "Behind the sheet; not printed", Style::workings);
    sheet.cursor("D3");
    sheet.print_area(Area({1, 1}, {10, head + lines}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note(
            "Otter Bend, its block, the grafters, the batches of budwood and every count are made up. Clear the "
            "framed, "
            "tinted cells of sheet Log (mark them and press Delete; the formulas stay) and write down your own trees.");
    text.errors();
    text.heading("How to count")
        .note(
            "A live graft has green, plump buds or a shoot; a black or shrivelled bud has failed. A green bud at the "
            "first take check is a hope, not a tree: the second and third count what lasted.")
        .note(
            "Blank means that nobody has counted, 0 that nothing lives. A tree without a live graft at an earlier "
            "check still gets its 0 at a later one; left blank it drops out and the take looks better than it is.")
        .note(
            "Lines may stand in any order, be sorted, and be left out where a tree is missing; the map finds each tree "
            "by its row and number. Rows may have numbers or names (7, A, 12N). Grafters and batches that differ only "
            "by capitals or blanks are one.")
        .note(
            "Pasted lines are checked like typed ones: a line that cannot be read is left out of all answers, says "
            "why in its Check, and is counted on sheet Summary.");
    text.heading("Room for more than 5,000 trees")
        .note(
            "Mark as many sheet lines as you need within the form on sheet Log (not its last line), insert rows, then "
            "mark columns J to W from line 6 to the last and choose Sheet > Fill Cells > Fill Down. All answers "
            "follow.");
    text.heading("Where the figures come from")
        .note(
            "Take of the block: live over placed, with trees as clusters (ratio estimator, Cochran, Sampling "
            "Techniques, 3rd ed. 1977); limits are Wilson's with the number of grafts divided by the design effect and "
            "Student's t for the number of trees (Korn & Graubard 1998).")
        .note(
            "Grafters and batches: the same with the dispersion between trees of a group; the steadied take is the "
            "mean of a beta-binomial fitted to all groups (Griffiths, Biometrics 29:637-648, 1973).")
        .note(
            "Two compared: Newcombe, Statistics in Medicine 17:873-890, 1998, and Pearson's chi-square, both with "
            "counts divided by the design effect (Rao & Scott). Trees that last: Kaplan & Meier 1958.")
        .note(
            "To regraft: each tree gets as many grafts that its missing ones live with the sureness chosen, at the "
            "take "
            "seen and the clustering of this log; on average fewer would do. Trees to check: Cochran, section 4.4, "
            "with the correction for a finite block; it holds for trees drawn at random. Sticks: whole scions cut from "
            "each stick, common practice.")
        .note(
            "Live grafts wanted, days of the take checks, sureness, buds per scion and on a stick, spare and margin: "
            "assumptions for this scene.");
    text.close();
}

}  // namespace

std::string inspection_log() {
    Workbook book(
        "inspection-log", "Inspection log",
        "Live grafts tree by tree at three take checks: take by grafter and batch, what to regraft, map of the block.");
    tree_log(book);
    summary(book);
    regraft(book);
    take(book);
    map(book);
    count_sheet(book);
    rows(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

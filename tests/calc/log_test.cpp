// The workbook inspection-log: what it makes of its counts, and of what is pasted into it.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

#include "daybook_lines.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

Book opened() { return calc().open_url(url_of("inspection-log"), true); }

/// What stands in a column of sheet Regraft, summed over its lines.
double summed(const Book& book, const std::string& column) {
    double sum = 0;
    for (int row = 6; !book.shown("Regraft.B" + std::to_string(row)).text.empty(); ++row) {
        sum += book.shown("Regraft." + column + std::to_string(row)).number;
    }
    return sum;
}

TEST(InspectionLog, OrdersRegraftsForTheTakeSeen) {
    const Book book = opened();
    const double missing = number(book, "missing");
    const double take = number(book, "regraft_take");
    // 97 missing at a take of 68 %: 143 on average, 157 to be 95 % sure of 97 in all (binomial), more for each tree.
    EXPECT_EQ(missing, 97);
    EXPECT_NEAR(take, 483. / 710, 1e-12) << "live over placed of the trees checked, by hand";
    EXPECT_EQ(number(book, "regraft_mean"), std::ceil(97 / (483. / 710)));
    EXPECT_EQ(number(book, "regraft_sure"), 157);
    EXPECT_GT(number(book, "redo"), number(book, "regraft_sure"));
    EXPECT_EQ(summed(book, "E"), missing) << "the list of trees lacks what the Summary says";
    EXPECT_EQ(summed(book, "F"), number(book, "redo")) << "what the list places is what is ordered";
    const std::string sentence = book.shown("Summary.B3").text;
    EXPECT_NE(sentence.find("143 grafts on average"), std::string::npos) << sentence;
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(InspectionLog, TakesTreesAsClusters) {
    const Book book = opened();
    EXPECT_GT(number(book, "take_design"), 2);
    const double clustering = number(book, "log_clustering");
    EXPECT_GT(clustering, 0.2);
    EXPECT_LT(clustering, 0.5);
    // Of 0.1 the same grafter had 68 to 82 %, each graft for itself.
    EXPECT_EQ(book.shown("Take.B29").text, "Odalys");
    EXPECT_LT(book.shown("Take.F29").number, 0.66);
    EXPECT_GT(book.shown("Take.G29").number, 0.83);
    // Two compared, and what lasts.
    const double p = book.shown("Take.H20").number;
    EXPECT_GT(p, 0);
    EXPECT_LT(p, 0.2);
    EXPECT_NEAR(book.shown("Take.D13").number, 139. / 148, 1e-12) << "9 of 148 trees had no live graft at the first";
    EXPECT_LT(book.shown("Take.D14").number, book.shown("Take.D13").number);
}

/// Wald (1947), Sequential Analysis, section 5.3: live trees up to which a block is poor, and from which it is good, of
/// n looked at. Written apart from the functions.
std::pair<double, double> wald(double n, double good, double poor, double risk_good, double risk_poor) {
    const double slope = std::log((1 - poor) / (1 - good));
    const double each = std::log(good * (1 - poor) / (poor * (1 - good)));
    return {(n * slope + std::log(risk_good / (1 - risk_poor))) / each,
            (n * slope + std::log((1 - risk_good) / risk_poor)) / each};
}

TEST(InspectionLog, SaysWhetherOneMayStopCounting) {
    const Book book = opened();
    const double looked = number(book, "seen");
    EXPECT_EQ(number(book, "stop_looked"), looked);
    EXPECT_EQ(number(book, "stop_live"), looked - number(book, "bare_trees"));
    const auto expect = [&](double live, double n, const char* words) {
        book.set("Stop counting.C11", n);
        book.set("Stop counting.C12", live);
        EXPECT_TRUE(says(text(book, "stop_verdict"), words))
            << live << " of " << n << ": " << text(book, "stop_verdict");
        const auto [poor, good] = wald(n, 0.9, 0.7, 0.05, 0.1);
        const auto expect_limit = [&](const std::string& cell, double limit, bool is) {
            const auto shown = book.shown("Stop counting." + cell);
            if (is) {
                EXPECT_EQ(shown.number, limit) << cell << " of " << n;
            } else {
                EXPECT_EQ(shown.text, "") << cell << " of " << n;
            }
        };
        expect_limit("C14", std::floor(poor), poor >= 0);
        expect_limit("C15", std::ceil(good), good <= n);
    };
    expect(5, 5, "Not enough yet: 5 of 5 trees");
    expect(12, 12, "Enough: with 12 of 12 trees with a live graft the block counts as good (90 %)");
    expect(10, 15, "Enough: with 10 of 15 trees with a live graft the block counts as poor (70 %)");
    expect(31, 37, "Not enough yet");
    // For the pocket: every fifth number of trees.
    for (int row = 19; row <= 34; ++row) {
        const std::string at = std::to_string(row);
        const double n = 5 * (row - 18);
        EXPECT_EQ(book.shown("Stop counting.B" + at).number, n);
        const auto [poor, good] = wald(n, 0.9, 0.7, 0.05, 0.1);
        if (poor >= 0) {
            EXPECT_EQ(book.shown("Stop counting.C" + at).number, std::floor(poor)) << n;
        }
        if (good <= n) {
            EXPECT_EQ(book.shown("Stop counting.D" + at).number, std::ceil(good)) << n;
        }
    }
    book.set("Stop counting.C7", 0.95);
    EXPECT_TRUE(says(book.shown("Stop counting.B4").text, "must be below the good one"));
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(InspectionLog, AdjustsTakesFromFiveGroupsOn) {
    const Book book = opened();
    ASSERT_GE(number(book, "grafter_groups"), 5);
    for (int row = 29; row < 29 + static_cast<int>(number(book, "grafter_groups")); ++row) {
        const std::string at = std::to_string(row);
        const double take = book.shown("Take.E" + at).number;
        const double adjusted = book.shown("Take.H" + at).number;
        // Between the group's own and the mean of all.
        const double all = number(book, "take_now");
        EXPECT_GE(adjusted, std::min(take, all) - 0.03) << at;
        EXPECT_LE(adjusted, std::max(take, all) + 0.03) << at;
    }
    // Two grafters are too few.
    const char* const two[] = {"Ana", "Bo"};
    for (int row = 6; row < 206; ++row) {
        if (!book.shown("Log.B" + std::to_string(row)).text.empty())
            book.set_text("Log.D" + std::to_string(row), two[row % 2]);
    }
    ASSERT_EQ(number(book, "grafter_groups"), 2);
    EXPECT_EQ(book.shown("Take.H29").text, "");
    EXPECT_TRUE(says(text(book, "few_groups"), "from five groups on: here are 2 grafters")) << text(book, "few_groups");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(InspectionLog, LeavesOutALineThatCannotBeReadAndSaysWhy) {
    const Book book = opened();
    const double seen = number(book, "seen");
    const std::map<std::string, std::string> wrong{
        {"B7", ""},      {"C8", "third"}, {"F9", "-"},    {"G10", "dead"}, {"G11", "3"},
        {"G12", "=1/0"}, {"G13", "=-1"},  {"G14", "=99"}, {"G15", "=2.5"}, {"B16", "=1"},
    };
    for (const auto& [cell, entry] : wrong) {
        if (entry.starts_with("=")) {
            book.set_formula("Log." + cell, entry);
        } else {
            book.set_text("Log." + cell, entry);
        }
    }
    book.set("Log.C16", 1);  // the tree of line 6
    for (int row = 7; row <= 16; ++row) {
        const std::string check = book.shown("Log.K" + std::to_string(row)).text;
        EXPECT_TRUE(check.starts_with("Left out: ")) << row << ": " << check;
        EXPECT_EQ(book.shown("Log.R" + std::to_string(row)).text, "") << row;
    }
    EXPECT_EQ(book.shown("Log.K6").text, "");
    EXPECT_EQ(book.shown("Log.K16").text, "Left out: this tree has an earlier line.");
    EXPECT_EQ(number(book, "lines_left_out"), 10);
    EXPECT_EQ(number(book, "first_left_out"), 7);
    EXPECT_EQ(number(book, "seen"), seen - 10);
    EXPECT_NE(book.shown("Summary.I7").text.find("sheet line 7."), std::string::npos) << book.shown("Summary.I7").text;
    EXPECT_GT(number(book, "take_now"), 0.5) << "bad lines took the answers down";
    EXPECT_GT(number(book, "redo"), 0);
    for (const auto& error : book.errors()) EXPECT_TRUE(error.starts_with("Log ")) << error;
    // Mentioned, not silently ignored: a line below the form.
    book.set("Log.B206", 3);
    EXPECT_EQ(number(book, "lines_left_out"), 11);
}

TEST(InspectionLog, TakesRowsByNameLongRowsAndGraftersHoweverTheyAreWritten) {
    const Book book = opened();
    const double logged = number(book, "logged");
    book.set_text("Log.D6", " ODALYS ");
    EXPECT_EQ(book.shown("Take.B35").text, "") << "six grafters, not seven";
    book.set_text("Log.B6", "12N");
    book.set("Log.C6", 100000);
    EXPECT_EQ(book.shown("Log.K6").text, "");
    // Tree 1002 of row 1 is not tree 2 of row 2.
    book.set("Log.C7", 1002);
    EXPECT_EQ(book.shown("Log.K7").text, "");
    EXPECT_EQ(number(book, "logged"), logged);
    EXPECT_EQ(number(book, "lines_left_out"), 0);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(InspectionLog, SaysSoWhereNobodyHasCounted) {
    const Book book = opened();
    book.set(book.named("look"), 3);
    EXPECT_EQ(book.shown("Summary.B3").text, "Nobody has written down take check 3 yet.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(InspectionLog, GrowsByACommand) {
    const Book book = calc().open_url(url_of("inspection-log"), true, false);
    const double logged = number(book, "logged");
    const double taken = number(book, "take_now");
    EXPECT_EQ(command(book, "add-lines"), "200 lines were added; there are 400 now.");
    EXPECT_EQ(number(book, "logged"), logged);
    EXPECT_EQ(number(book, "take_now"), taken);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    // A tree in the last line counts, in the one that was the last and in a new one, and is drawn.
    for (const int row : {404, 405, 300}) {
        const std::string at = std::to_string(row);
        book.set("Log.B" + at, 31);
        book.set("Log.C" + at, row);
        book.set("Log.F" + at, 6);
        book.set("Log.H" + at, 7);
        EXPECT_EQ(book.shown("Log.K" + at).text,
                  "Left out: Live, second check was 7: enter a whole number from 0 to 6.");
        book.set("Log.H" + at, 6);
        EXPECT_EQ(book.shown("Log.K" + at).text, "Counted, but give grafter and batch.");
    }
    EXPECT_EQ(number(book, "logged"), logged + 3);
    EXPECT_EQ(book.calculate("=ROWS(tree_key)").number, 400);
    EXPECT_EQ(book.calculate("=COUNTIF(remark;2)").number, 3);
    book.set("Log.B406", 3);
    EXPECT_EQ(number(book, "lines_left_out"), 1) << "a line below the form";
    EXPECT_EQ(command(calc().new_book(false), "add-lines"),
              "There are no lines to add here: open an inspection log or a rework plan.");
}

TEST(InspectionLog, LinesMayBePutInTakenOutAndPasted) {
    const Book book = opened();
    const double logged = number(book, "logged");
    const Ref<css::table::XColumnRowRange> sheet(sheet_of(book, "Log"), css::uno::UNO_QUERY_THROW);
    sheet->getRows()->removeByIndex(9, 3);  // three trees
    EXPECT_EQ(number(book, "logged"), logged - 3);
    sheet->getRows()->insertByIndex(20, 2);  // blank lines without formulas
    EXPECT_EQ(number(book, "logged"), logged - 3);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    // Pasted over, as values: the trees of the first three lines once more.
    paste_values(book, "Log.B6:I8", book, "Log.B170:I172");
    for (const char* row : {"170", "171", "172"}) {
        EXPECT_EQ(book.shown(std::string("Log.K") + row).text, "Left out: this tree has an earlier line.");
    }
    EXPECT_EQ(number(book, "lines_left_out"), 3);
}

TEST(InspectionLog, ItsRowsGoIntoThePlanInOnePaste) {
    const Book book = opened();
    // Row 1 of the log, by hand: 16 trees; at the second check all are counted, at the third nobody has been.
    const auto sum = [&](const char* name, const char* row) {
        return book.calculate("=SUMIFS(" + std::string(name) + ";tree_row;" + row + ")").number;
    };
    EXPECT_EQ(book.shown("Rows.B6").text, "1");
    EXPECT_EQ(book.shown("Rows.C6").number, 16);
    EXPECT_EQ(book.shown("Rows.D6").number, sum("placed", "1"));
    EXPECT_EQ(book.shown("Rows.E6").number, sum("live_first", "1"));
    EXPECT_EQ(book.shown("Rows.F6").number, sum("live_second", "1"));
    EXPECT_EQ(book.shown("Rows.G6").text, "") << "nobody has counted the third check";
    EXPECT_EQ(book.shown("Rows.I6").number, sum("tree_missing", "1"));
    EXPECT_EQ(book.calculate("=SUM(Rows.D6:D205)").number, book.calculate("=SUM(counted_placed)").number);

    // A row with a tree that nobody has counted has no take yet.
    const std::string before = book.formula("Log.H6");
    book.set_text("Log.H6", "");
    EXPECT_EQ(book.shown("Rows.F6").text, "");
    EXPECT_EQ(book.shown("Rows.I6").text, "");
    EXPECT_NE(book.shown("Rows.F7").text, "");
    book.set("Log.H6", std::stod(before));

    const Book plan = calc().open_url(url_of("rework-plan"), true);
    plan.set(plan.named("trees"), book.calculate("=SUM(Rows.C6:C205)").number);
    plan.set(plan.named("row_trees"), 16);
    // The lines of the plan's day-book in one paste, below what stands there: every row was grafted on the first day.
    const double start = number(plan, "graft_date");
    const auto rows = static_cast<int>(book.calculate("=COUNT(Rows.C6:C205)").number);
    ASSERT_EQ(rows, 10);
    std::vector<DayLine> lines;
    for (int row = 1; row <= rows; ++row) {
        const std::string line = std::to_string(5 + row);
        const std::string name = book.shown("Rows.B" + line).text;
        plan.set_text("Rows.B" + line, name);
        plan.set("Rows.C" + line, book.shown("Rows.C" + line).number);
        lines.push_back({start, "grafted", name, {}, book.shown("Rows.D" + line).number});
    }
    write_daybook(plan, lines);
    book.set(book.named("count_day"), start + 20);
    EXPECT_EQ(book.shown("Rows.V3").text, "");
    // Nobody has counted row 9, which gets no line.
    paste_values(book, "Rows.R6:W15", plan, "Day-book.B16:G25");
    EXPECT_EQ(plan.errors(), std::vector<std::string>());
    EXPECT_EQ(text(plan, "daybook_entries"), "");
    for (int row = 6; row < 26; ++row) {
        const std::string line = std::to_string(row);
        EXPECT_EQ(plan.shown("Day-book.M" + line).text, "") << row;
    }
    EXPECT_EQ(number(plan, "rows_counted"), 9);
    for (int row = 1; row <= rows; ++row) {
        const std::string line = std::to_string(5 + row);
        const std::string of_row = "=SUMIF(Rows.T6:T205;Rows.B" + line;
        EXPECT_EQ(plan.shown("Rows.K" + line).number, book.calculate(of_row + ";Rows.V6:V205)").number) << row;
        EXPECT_EQ(plan.shown("Rows.L" + line).number, book.calculate(of_row + ";Rows.W6:W205)").number) << row;
    }
    EXPECT_EQ(plan.calculate("=SUM(row_live)").number, book.calculate("=SUM(counted)").number);

    // Tree by tree: one of row 1 regrafted after the first check and with more alive than before, one lost since then.
    const auto counted = [&](const char* what) { return number(book, what); };
    const double live = book.calculate("=SUM(counted)").number;
    const double placed = book.calculate("=SUM(counted_placed)").number;
    EXPECT_EQ(book.shown("Log.I8").text, "");
    const double before_live = book.shown("Log.H8").number;
    const double lost_live = book.shown("Log.H9").number;
    book.set("Log.L8", 5);
    EXPECT_EQ(book.shown("Log.K8").text,
              "Left out: Regrafts: give their number and the take check after which they were placed.");
    book.set("Log.M8", 1);
    book.set("Log.H8", book.shown("Log.F8").number + 5);
    EXPECT_EQ(book.shown("Log.K8").text, "") << "both kinds may be alive";
    book.set("Log.H8", book.shown("Log.F8").number + 6);
    EXPECT_EQ(book.shown("Log.K8").text, "Left out: Live: more than the grafts placed and placed again, or no number.");
    book.set("Log.H8", before_live + 3);
    EXPECT_EQ(book.shown("Log.K8").text, "") << "more alive than before the regrafts";
    book.set("Log.N9", 1);
    EXPECT_EQ(book.shown("Log.K9").text, "Left out: Lost, yet counted at a later check.");
    book.set_text("Log.H9", "");
    EXPECT_EQ(book.shown("Log.K9").text, "");
    EXPECT_EQ(book.calculate("=SUM(counted)").number, live + 3 - lost_live);
    EXPECT_EQ(book.calculate("=SUM(counted_placed)").number, placed + 5 - book.shown("Log.F9").number);
    EXPECT_EQ(counted("bare_uncounted"), 0) << "nobody is asked to count a tree that is gone";
    EXPECT_EQ(book.shown("Rows.V4").text, "The lines of regrafts need their day.");
    book.set(book.named("regraft_day"), start + 10);
    EXPECT_EQ(book.shown("Rows.V4").text, "");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    const Book again = calc().open_url(url_of("rework-plan"), true);
    again.set(again.named("trees"), plan.calculate("=trees").number);
    again.set(again.named("row_trees"), 16);
    for (int row = 1; row <= rows; ++row) {
        const std::string line = std::to_string(5 + row);
        again.set_text("Rows.B" + line, plan.shown("Rows.B" + line).text);
        again.set("Rows.C" + line, plan.shown("Rows.C" + line).number);
    }
    write_daybook(again, lines);
    paste_values(book, "Rows.R6:W17", again, "Day-book.B16:G27");
    EXPECT_EQ(again.errors(), std::vector<std::string>());
    EXPECT_EQ(text(again, "daybook_entries"), "");
    EXPECT_EQ(again.shown("Rows.H6").number, plan.shown("Rows.H6").number - 1) << "trees left";
    EXPECT_EQ(again.shown("Rows.J6").number, 5) << "regrafts";
    EXPECT_EQ(again.shown("Rows.L6").number, plan.shown("Rows.L6").number + 3 - lost_live) << "live";
    EXPECT_EQ(again.calculate("=SUM(row_live)").number, book.calculate("=SUM(counted)").number);
}

}  // namespace
}  // namespace slipbark::tests

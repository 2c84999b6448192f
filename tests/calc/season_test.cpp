// A second year that is planned from the first one's records: days, counts, hours and kilograms go from the plan of the
// first year through the workbook records into the plan of the second, by the pastes that the workbooks name. What
// comes out is worked out by hand beside each check.

#include <array>
#include <cmath>

#include "calc.hpp"
#include "daybook_lines.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

constexpr int rows = 12;
constexpr int trees = 28;  // in each

/// Days after the first on which the rows were grafted: over 15 days, weekends off.
constexpr std::array<int, rows> grafted{0, 1, 2, 3, 4, 7, 8, 9, 10, 11, 14, 14};
/// Days from grafting to the first look, row by row.
constexpr std::array<int, rows> looked{18, 18, 18, 19, 19, 19, 19, 20, 20, 20, 21, 22};
/// Live grafts of 224 placed; rows 1, 4, 7, 10 are Maren's, 2, 5, 8, 11 Tobiah's, the others Quill's.
constexpr std::array<int, rows> live{180, 150, 168, 172, 140, 160, 176, 146, 166, 184, 152, 162};

}  // namespace

TEST(SecondYear, RunsOnTheRecordsOfTheFirst) {
    // The first year, as it was written down in the plan.
    const Book first = calc().open_url(url_of("rework-plan"), true);
    first.set(first.named("trees"), rows * trees);
    const double start = number(first, "graft_date");
    const std::array<const char*, 3> people{"Maren", "Tobiah", "Quill"};
    std::vector<DayLine> lines;
    for (std::size_t at = 0; at < rows; ++at) {
        const std::string name = std::to_string(at + 1);
        lines.push_back({start + grafted[at], "grafted", name, trees, 224, {}, "A", people.at(at % people.size())});
        lines.push_back({start + grafted[at] + looked[at], "counted", name, {}, {}, live[at]});
    }
    write_daybook(first, lines);
    EXPECT_NEAR(number(first, "take_seen"), 1956. / (rows * 224), 1e-12);
    EXPECT_TRUE(text(first, "whose_figures").starts_with("Your own figures: 0 of ")) << text(first, "whose_figures");

    EXPECT_EQ(number(first, "pace_seen"), 12 * 224 / 12.) << "twelve days of one person each";
    // Into the records: days from sheet Rows in two pastes, counts line by line, one day's work, four harvests.
    const Book records = calc().open_url(url_of("records"), true);
    clear_records(records);
    paste_values(first, "Rows.Y6:Y17", records, "Dates.D6:D17");
    paste_values(first, "Rows.DY6:EV17", records, "Dates.E6:AB17");
    records.set_text(records.named("take_method"), "all");
    records.set_text(records.named("group_by"), "grafter");
    for (int row = 0; row < rows; ++row) {
        const auto at = static_cast<std::size_t>(row);
        const std::string line = std::to_string(6 + row);
        records.set("Counts.B" + line, 2027);
        records.set_text("Counts.E" + line, people.at(at % people.size()));
        records.set("Counts.G" + line, trees);
        records.set("Counts.H" + line, 224);
        records.set("Counts.I" + line, live[at]);
    }
    records.set_text("Work.D6", "First look under the bag");
    records.set("Work.E6", 2);
    records.set("Work.F6", 7);
    records.set("Work.G6", rows * trees);
    // On the built-in curve, each age 1.1 times as late: 20, 50, 80 and 100 % of 80 kg at 2.75, 3.75, 5 and 7 years.
    int harvest = 6;
    for (const auto& [age, share] :
         std::array<std::pair<double, double>, 4>{{{2.75, 0.2}, {3.75, 0.5}, {5, 0.8}, {7, 1}}}) {
        const std::string line = std::to_string(harvest++);
        records.set("Yields.C" + line, 45000);
        records.set("Yields.D" + line, 45000 + age * 1.1 * 365.25);
        records.set("Yields.E" + line, 10);
        records.set("Yields.F" + line, 10 * 80 * share);
    }
    EXPECT_EQ(records.errors(), std::vector<std::string>());

    // By hand. The twelve looks in order: 18 18 18 19 19 19 19 20 20 20 21 22. Bounds for the
    // next one at 10 and 90 %: places 1.3 and 11.7 of 13, 18 and 21 + 0.7 = 21.7, in whole days 18 and 22; median 19.
    EXPECT_EQ(records.shown("Schedule.C13").number, 18);
    EXPECT_EQ(records.shown("Schedule.D13").number, 19);
    EXPECT_EQ(records.shown("Schedule.E13").number, 22);
    // Takes of three people as logits, 896 grafts each: Maren 180 + 172 + 176 + 184, Tobiah 150 + 140 + 146 + 152,
    // Quill 168 + 160 + 166 + 162 alive.
    double mean = 0;
    for (const double alive : {712., 588., 656.}) mean += std::log((alive + 0.5) / (896 - alive + 0.5)) / 3;
    const double take = 1 / (1 + std::exp(-mean));
    EXPECT_NEAR(number(records, "next_take"), take, 1e-9);
    // 2 people x 7 hours on 336 trees.
    EXPECT_NEAR(records.shown("Minutes.C13").number, 14 * 60. / 336, 1e-9);
    EXPECT_NEAR(number(records, "stretch"), 1.1, 1e-3);

    // The second year: a block of 140 trees, five rows, grafted from Monday 18 September 2028 on.
    const Book second = calc().open_url(url_of("rework-plan"), true);
    paste_values(records, "Schedule.B6:I29", second, "Defaults.B6:I29");
    paste_values(records, "Yields.B39:C50", second, "Defaults.B41:C52");
    paste_values(records, "Minutes.C6:C29", second, "Crew.C34:C57");
    paste_values(records, "Take.C6:C6", second, "Plan.C30:C30");
    const double next = 47014;
    second.set(second.named("trees"), 5 * trees);
    second.set(second.named("graft_date"), next);
    EXPECT_EQ(text(second, "defaults_entries"), "");
    EXPECT_EQ(text(second, "crew_entries"), "");
    EXPECT_NEAR(number(second, "expected_take"), take, 1e-9);
    EXPECT_EQ(number(second, "first_look"), next + 19);
    EXPECT_EQ(number(second, "first_look_from"), next + 18);
    // A fifth of a mature crop not at 33 months, but a tenth later.
    EXPECT_NEAR(second.calculate("=REWORK.YIELD(2.75*1.1;1;yield_curve)").number, 0.2, 0.001);
    const std::string said = text(second, "whose_figures");
    EXPECT_TRUE(said.starts_with("Your own figures: 1 of ")) << said;
    EXPECT_NE(said.find("and the minutes of 1;"), std::string::npos) << said;
    EXPECT_TRUE(said.ends_with("The yield curve is your own.")) << said;

    // A row a day. The week from day 18 on: the first look from day 18 after grafting on, so all five rows, and suckers
    // from day 21 on, as built in: rows grafted up to day 3, four of them.
    lines.clear();
    for (int row = 0; row < 5; ++row) lines.push_back({next + row, "grafted", std::to_string(row + 1), trees, 224});
    write_daybook(second, lines);
    second.set(second.named("week_from"), next + 18);
    EXPECT_EQ(number(second, "week_lines"), 9);
    // Looks of 2.5 minutes a tree, the records'; suckers of 1.5 in each of three rounds, as built in: the first is due.
    EXPECT_NEAR(number(second, "week_hours"), (5 * trees * 2.5 + 4 * trees * 1.5) / 60., 1e-9);
    EXPECT_EQ(second.errors(), std::vector<std::string>());
}

}  // namespace slipbark::tests

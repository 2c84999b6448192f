#include "slipbark/calendar.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <random>
#include <set>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/dates.hpp"
#include "slipbark/defaults.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::calendar {
namespace {

using std::chrono::days;
using tests::iso;
using tests::refused;
using tests::Row;

Table one_stage(double offset, const std::string& unit) {
    return {6, {"Stage", offset, offset, offset, unit, std::monostate{}}};
}

// ---- Reference rows

class AddMonths : public testing::TestWithParam<Row> {};

TEST_P(AddMonths, FollowTheHostsEdate) {
    const Row& row = GetParam();
    EXPECT_EQ(to_text(milestone(row.day("date"), "Stage", {}, one_stage(row.number("months"), "m"))), row["expected"])
        << row;
}

INSTANTIATE_TEST_SUITE_P(Reference, AddMonths, testing::ValuesIn(tests::rows("E_dates.csv", {"add_months"})),
                         tests::row_id);

DayList holidays_of(const Row& row) {
    DayList list;
    std::istringstream in(row["holidays"]);
    for (std::string word; in >> word;) list.days.emplace_back(iso(word));
    list.length = list.days.size();
    return list;
}

class Workday : public testing::TestWithParam<Row> {};

TEST_P(Workday, IsTheFinishOfWorkThatStartsTheDayAfter) {
    // WORKDAY does not count its start date; CREWFINISH does. One graft a day makes the grafts the days.
    const Row& row = GetParam();
    EXPECT_EQ(
        to_text(crew_finish(row.day("date") + days{1}, row.number("days"), 1, {}, row["weekend"], holidays_of(row))),
        row["expected"])
        << row;
}

INSTANTIATE_TEST_SUITE_P(Reference, Workday, testing::ValuesIn(tests::rows("E_dates.csv", {"workday"})), tests::row_id);

class Networkdays : public testing::TestWithParam<Row> {};

TEST_P(Networkdays, AreTheWorkingDays) {
    const Row& row = GetParam();
    EXPECT_TRUE(agrees(row, working_days(row.day("date"), row.day("date2"), row["weekend"], holidays_of(row))));
}

INSTANTIATE_TEST_SUITE_P(Reference, Networkdays, testing::ValuesIn(tests::rows("E_dates.csv", {"networkdays"})),
                         tests::row_id);

class CrewDays : public testing::TestWithParam<Row> {};

TEST_P(CrewDays, AgreeWithTheWorkedExample) {
    const Row& row = GetParam();
    EXPECT_TRUE(agrees(row, crew_days(row.number("grafts"), row.number("grafts_per_day"), row.number("crew"))));
}

INSTANTIATE_TEST_SUITE_P(WorkedExamples, CrewDays,
                         testing::ValuesIn(tests::rows("worked_examples_calendar.csv", {"CREWDAYS"})), tests::row_id);

// ---- Stages

TEST(Milestone, FindsAStageByNameOrRow) {
    const Day graft = iso("2027-09-06");
    // Default row 11: 12, 18, 24 months.
    EXPECT_EQ(milestone(graft, "Nurse limb off"), iso("2029-03-06"));
    EXPECT_EQ(milestone(graft, "  nurse LIMB off "), iso("2029-03-06"));
    EXPECT_EQ(milestone(graft, "11"), iso("2029-03-06"));
    EXPECT_EQ(milestone(graft, "11", -1.0), iso("2028-09-06"));
    EXPECT_EQ(milestone(graft, "11", 1.0), iso("2029-09-06"));
    EXPECT_EQ(milestone(graft, "Tip back and stake"), iso("2027-11-15")) << "10 weeks";
    for (const char* edge : {"earliest", " Earliest ", "-1"}) {
        EXPECT_EQ(milestone(graft, "11", edge), iso("2028-09-06")) << edge;
    }
    EXPECT_EQ(milestone(graft, "11", "target"), iso("2029-03-06"));
    EXPECT_EQ(milestone(graft, "11", "latest"), iso("2029-09-06"));
    for (const char* edge : {"middle", "2", ""}) {
        EXPECT_EQ(refused([&] { milestone(graft, "11", edge); }), "edge") << edge;
    }
}

TEST(Milestone, SkipsBlankRowsButCountsThem) {
    const Cell blank;
    const Table table{7, {"First",        1.,     2., 3., "D", "sign", "note", blank, blank, blank, blank, blank, blank,
                          "a note alone", "Last", 1., 1., 2.,  " W ",  blank,  blank}};
    EXPECT_EQ(milestone(iso("2027-01-01"), "3", {}, table), iso("2027-01-08"));
    EXPECT_EQ(refused([&] { milestone(iso("2027-01-01"), "2", {}, table); }), "stage");
    const std::vector<Cell> dates{"First", iso("2027-01-02"), iso("2027-01-03"), iso("2027-01-04"), "sign",
                                  "Last",  iso("2027-01-08"), iso("2027-01-08"), iso("2027-01-15"), blank};
    EXPECT_EQ(schedule(iso("2027-01-01"), table).cells, dates);
}

TEST(Schedule, OfTheDefaultTableIsThatOfNoTable) {
    const Day graft = iso("2027-09-06");
    const Table table = defaults::table("schedule");
    EXPECT_EQ(schedule(graft, table).cells, schedule(graft).cells);
    EXPECT_EQ(schedule(graft).rows(), table.rows());
    for (int day = 0; day < 1600; day += 7) {
        EXPECT_EQ(stage_due(graft, graft + days{day}, table), stage_due(graft, graft + days{day}));
    }
}

TEST(StageDue, IsTheFirstWhoseLatestDateHasNotPassed) {
    const Day graft = iso("2027-09-06");
    EXPECT_EQ(stage_due(graft, graft - days{100}), "Cut back and paint");
    EXPECT_EQ(stage_due(graft, graft), "Cut back and paint") << "the latest day itself counts";
    EXPECT_EQ(stage_due(graft, graft + days{1}), "First look under the bag");
    EXPECT_EQ(stage_due(graft, iso("2031-09-06")), "Second crop") << "48 months";
    EXPECT_EQ(stage_due(graft, iso("2031-09-07")), "");
}

TEST(Milestones, AreInOrderAndAsTheScheduleHasThem) {
    std::mt19937 random(20270906);
    std::uniform_int_distribution<std::int64_t> any_day(iso("1900-01-08").time_since_epoch().count(),
                                                        iso("2200-12-31").time_since_epoch().count());
    for (int trial = 0; trial < 1000; ++trial) {
        const Day graft{days{any_day(random)}};
        const Table dates = schedule(graft);
        const Day on = graft + days{std::uniform_int_distribution<int>(-30, 1700)(random)};
        std::string due;
        for (std::size_t row = dates.rows(); row-- > 0;) {
            const auto& name = std::get<std::string>(dates.at(row, 0));
            const Day earliest = milestone(graft, name, -1.0);
            const Day target = milestone(graft, name);
            const Day latest = milestone(graft, std::to_string(row + 1), 1.0);
            EXPECT_LE(earliest, target);
            EXPECT_LE(target, latest);
            EXPECT_EQ(dates.at(row, 1), Cell{earliest});
            EXPECT_EQ(dates.at(row, 2), Cell{target});
            EXPECT_EQ(dates.at(row, 3), Cell{latest});
            if (latest >= on) due = name;
        }
        EXPECT_EQ(stage_due(graft, on), due);
    }
}

TEST(MilestoneRefuses, WhatIsNoStageOrEdge) {
    const Day graft = iso("2027-09-06");
    for (const char* stage : {"", "0", "15", "-1", "2.5", "nurse", "99999999999999999999"}) {
        EXPECT_EQ(refused([&] { milestone(graft, stage); }), "stage") << stage;
    }
    for (const double edge : {-2., 0.5, 2., std::nan("")}) {
        EXPECT_EQ(refused([&] { milestone(graft, "Graft", edge); }), "edge") << edge;
    }
    EXPECT_EQ(refused([&] { milestone(iso("1899-12-31"), "Graft"); }), "graft_date");
    EXPECT_EQ(refused([&] { milestone(Day{days{10'000'000}}, "Graft"); }), "graft_date");
    EXPECT_EQ(refused([&] { stage_due(graft, Day{days{10'000'000}}); }), "on_date");
    try {
        milestone(graft, "nurse");
        FAIL();
    } catch (const bad_argument& bad) {
        EXPECT_NE(std::string(bad.what()).find("Nurse limb off"), std::string::npos) << bad.what();
    }
}

TEST(MilestoneRefuses, DatesOutsideTheYears1900To9999) {
    EXPECT_EQ(milestone(iso("9999-12-30"), "Stage", {}, one_stage(1, "d")), iso("9999-12-31"));
    EXPECT_EQ(refused([&] { milestone(iso("9999-12-31"), "Stage", {}, one_stage(1, "d")); }), "graft_date");
    EXPECT_EQ(milestone(iso("1900-02-01"), "Stage", {}, one_stage(-1, "m")), iso("1900-01-01"));
    EXPECT_EQ(refused([&] { milestone(iso("1900-01-31"), "Stage", {}, one_stage(-1, "m")); }), "graft_date");
    for (const char* unit : {"d", "w", "m"}) {
        for (const double offset : {-100'000., 100'000.}) {
            const Day from = iso(offset < 0 ? "1900-01-01" : "9999-12-31");
            EXPECT_EQ(refused([&] { schedule(from, one_stage(offset, unit)); }), "graft_date") << unit << offset;
        }
    }
}

struct BadTable {
    const char* name;
    Table table;
    const char* told;  ///< part of the message
};

class ScheduleRefuses : public testing::TestWithParam<BadTable> {};

TEST_P(ScheduleRefuses, WhatIsNoSchedule) {
    const auto& row = GetParam();
    for (const bool whole : {true, false}) {
        try {
            if (whole) {
                schedule(iso("2027-09-06"), row.table);
            } else {
                milestone(iso("2027-09-06"), "A", {}, row.table);
            }
            ADD_FAILURE() << "nothing refused";
        } catch (const bad_argument& bad) {
            EXPECT_EQ(bad.argument(), "schedule");
            EXPECT_NE(std::string(bad.what()).find(row.told), std::string::npos) << bad.what();
        }
    }
}

const Cell no_cell;

INSTANTIATE_TEST_SUITE_P(
    Table, ScheduleRefuses,
    testing::Values(
        BadTable{"five_columns", {5, {"A", 1., 2., 3., "d"}}, "six"}, BadTable{"no_rows", {6, {}}, "no stages"},
        BadTable{"only_blank_rows", {6, {no_cell, no_cell, no_cell, no_cell, no_cell, no_cell}}, "no stages"},
        BadTable{"heading", {6, {"stage", "earliest", "target", "latest", "unit", "sign"}}, "heading"},
        BadTable{"no_name", {6, {"A", 1., 2., 3., "d", "", no_cell, 1., 2., 3., "d", ""}}, "row 2, column 1"},
        BadTable{"number_as_name", {6, {"A", 1., 2., 3., "d", "", 7., 1., 2., 3., "d", ""}}, "row 2, column 1"},
        BadTable{"digits_as_name", {6, {" 7 ", 1., 2., 3., "d", ""}}, "row 1, column 1"},
        BadTable{"same_name", {6, {"A", 1., 2., 3., "d", "", " a ", 1., 2., 3., "d", ""}}, "row 1 has that name"},
        BadTable{"fraction", {6, {"A", 1., 2.5, 3., "d", ""}}, "2.5 in row 1, column 3"},
        BadTable{"blank_offset", {6, {"A", 1., no_cell, 3., "d", ""}}, "blank in row 1, column 3"},
        BadTable{"text_offset", {6, {"B", 1., 1., 1., "d", "", "A", 1., 2., "3 d", "d", ""}}, "row 2, column 4"},
        BadTable{"nan_offset", {6, {"A", 1., 2., std::nan(""), "d", ""}}, "row 1, column 4"},
        BadTable{"far_offset", {6, {"A", 1., 2., 100'001., "d", ""}}, "row 1, column 4"},
        BadTable{"target_before_earliest", {6, {"A", 2., 1., 3., "d", ""}}, "earliest is 2"},
        BadTable{"latest_before_target", {6, {"A", 1., 3., 2., "d", ""}}, "target is 3"},
        BadTable{"unit", {6, {"A", 1., 2., 3., "y", ""}}, "\"m\" for months"},
        BadTable{"no_unit", {6, {"A", 1., 2., 3., no_cell, ""}}, "row 1, column 5"}),
    [](const auto& row) { return row.param.name; });

// ---- The crew

TEST(CrewDaysRounding, SurvivesBinaryFractions) {
    EXPECT_EQ(crew_days(21, 0.7, 3), 10) << "21 / (0.7 * 3) is 10.000000000000002 in binary";
    EXPECT_EQ(crew_days(0, 120), 0);
    EXPECT_EQ(crew_days(1, 1e7, 1e7), 1) << "never nothing for something";
    EXPECT_EQ(crew_days(1e7, 0.001), 1e10);
    EXPECT_EQ(crew_days(3200, 120, 4), 7) << "3200 / 480 = 6.67";
}

TEST(CrewRefuses, WhatCannotBe) {
    const Day start = iso("2027-09-06");
    const double nan = std::nan("");
    for (const double bad : {0., -1., 0.0001, 1e8, nan, HUGE_VAL}) {
        EXPECT_EQ(refused([&] { crew_days(1, bad); }), "grafts_per_day") << bad;
        EXPECT_EQ(refused([&] { crew_finish(start, 1, bad); }), "grafts_per_day") << bad;
        EXPECT_EQ(refused([&] { crew_size(start, start, 1, bad); }), "grafts_per_day") << bad;
    }
    for (const double bad : {-1., 1.5, 1e8, nan, HUGE_VAL}) {
        EXPECT_EQ(refused([&] { crew_days(bad, 1); }), "grafts") << bad;
        EXPECT_EQ(refused([&] { crew_finish(start, bad, 1); }), "grafts") << bad;
        EXPECT_EQ(refused([&] { crew_size(start, start, bad, 1); }), "grafts") << bad;
        EXPECT_EQ(refused([&] { crew_days(1, 1, bad); }), "crew") << bad;
    }
    EXPECT_EQ(refused([&] { crew_days(1, 1, 0); }), "crew");
    EXPECT_EQ(refused([&] { crew_finish(start, 0, 1); }), "grafts") << "no last day without grafts";
    EXPECT_EQ(refused([&] { crew_finish(Day{days{-100'000}}, 1, 1); }), "start_date");
    EXPECT_EQ(refused([&] { crew_size(start, start - days{1}, 1, 1); }), "end_date");
    EXPECT_EQ(refused([&] { crew_size(start, Day{days{10'000'000}}, 1, 1); }), "end_date");
    EXPECT_EQ(refused([&] { crew_finish(start, 1, 1, {}, {}, DayList{start, Day{days{10'000'000}}}); }), "holidays");
    EXPECT_EQ(refused([&] { crew_finish(start, 1e7, 1); }), "grafts") << "past the year 9999";
    EXPECT_EQ(refused([&] { crew_finish(start, 1e7, 0.001); }), "grafts");
    EXPECT_EQ(refused([&] { crew_finish(iso("9999-12-31"), 2, 1); }), "grafts");
    EXPECT_EQ(crew_finish(iso("9999-12-31"), 1, 1), iso("9999-12-31")) << "a Friday";
}

TEST(DaysOffRefuses, WhatIsNoWeek) {
    const Day start = iso("2027-09-06");
    for (const char* bad : {"1111111", "000001", "00000111", "0000021", "sat", "", "8", "10", "18", "0", "-1"}) {
        EXPECT_EQ(refused([&] { crew_finish(start, 1, 1, {}, bad); }), "days_off") << bad;
        EXPECT_EQ(refused([&] { crew_size(start, start, 1, 1, bad); }), "days_off") << bad;
    }
    for (const double bad : {0., 8., 10., 18., 1.5, -1., 1'111'111., std::nan(""), HUGE_VAL}) {
        EXPECT_EQ(refused([&] { crew_finish(start, 1, 1, {}, bad); }), "days_off") << bad;
    }
}

TEST(DaysOff, CodesAreThoseOfTheHost) {
    // LibreOffice Help, NETWORKDAYS.INTL: 1 or omitted Saturday and Sunday, 2 Sunday and Monday, ... 7 Friday and
    // Saturday, 11 Sunday only, 12 Monday only, ... 17 Saturday only.
    const std::vector<std::pair<double, const char*>> codes{
        {1, "0000011"},  {2, "1000001"},  {3, "1100000"},  {4, "0110000"},  {5, "0011000"},
        {6, "0001100"},  {7, "0000110"},  {11, "0000001"}, {12, "1000000"}, {13, "0100000"},
        {14, "0010000"}, {15, "0001000"}, {16, "0000100"}, {17, "0000010"}};
    for (const auto& [code, digits] : codes) {
        for (int day = 0; day < 7; ++day) {
            const Day date = iso("2027-09-06") + days{day};
            EXPECT_EQ(working_days(date, date, code), working_days(date, date, digits)) << digits << " " << day;
            EXPECT_EQ(working_days(date, date, std::string(" ").append(to_text(code))),
                      working_days(date, date, digits));
            EXPECT_EQ(working_days(date, date, digits), digits[day] == '0') << "2027-09-06 is a Monday";
        }
    }
    EXPECT_EQ(working_days(iso("2027-09-01"), iso("2027-12-31")),
              working_days(iso("2027-09-01"), iso("2027-12-31"), "0000011"));
}

/// A working week and holidays, and a day-by-day look at them that shares nothing with the functions.
struct RandomYear {
    std::string days_off;
    DayList holidays;
    std::set<Day> holiday_set;

    explicit RandomYear(std::mt19937& random, Day around) {
        do {
            days_off.clear();
            for (int day = 0; day < 7; ++day) days_off += random() % 3 == 0 ? '1' : '0';
        } while (days_off == "1111111");
        const auto count = random() % 40;
        for (unsigned index = 0; index < count; ++index) {
            if (random() % 5 == 0) {
                holidays.days.emplace_back();
                continue;
            }
            const Day day = around + days{static_cast<int>(random() % 120) - 20};
            holidays.days.emplace_back(day);
            holiday_set.insert(day);
        }
        holidays.length = holidays.days.size() + random() % 3;
    }

    [[nodiscard]] bool works(Day day) const {
        // 1970-01-01 was a Thursday, the fourth day of the week.
        const auto weekday = static_cast<std::size_t>(((day.time_since_epoch().count() + 3) % 7 + 7) % 7);
        return days_off[weekday] == '0' && !holiday_set.contains(day);
    }
};

TEST(CrewFinish, IsThatOfADayByDayCount) {
    std::mt19937 random(1907);
    for (int trial = 0; trial < 5000; ++trial) {
        const Day start = iso("1900-02-01") + days{static_cast<int>(random() % 110'000)};
        const RandomYear year(random, start);
        // Rates in eighths are exact in binary, so that the days needed are a matter of whole numbers.
        const std::int64_t grafts = 1 + static_cast<int>(random() % 5000);
        const std::int64_t eighths = 1 + static_cast<int>(random() % 4000);
        const std::int64_t crew = 1 + static_cast<int>(random() % 9);
        std::int64_t needed = (8 * grafts + eighths * crew - 1) / (eighths * crew);
        EXPECT_EQ(crew_days(static_cast<double>(grafts), static_cast<double>(eighths) / 8, static_cast<double>(crew)),
                  needed);
        if (needed > 2000) continue;
        Day day = start;
        while (true) {
            if (year.works(day) && --needed == 0) break;
            day += days{1};
        }
        EXPECT_EQ(crew_finish(start, static_cast<double>(grafts), static_cast<double>(eighths) / 8,
                              static_cast<double>(crew), year.days_off, year.holidays),
                  day)
            << to_text(start) << " " << year.days_off;
    }
}

TEST(CrewSize, IsTheLeastThatFinishes) {
    std::mt19937 random(1908);
    int answered = 0;
    for (int trial = 0; trial < 5000; ++trial) {
        const Day start = iso("1950-01-01") + days{static_cast<int>(random() % 60'000)};
        const Day end = start + days{static_cast<int>(random() % 60)};
        const RandomYear year(random, start);
        int worked = 0;
        for (Day day = start; day <= end; day += days{1}) worked += year.works(day) ? 1 : 0;
        EXPECT_EQ(working_days(start, end, year.days_off, year.holidays), worked);

        const double grafts = 1 + static_cast<double>(random() % 100'000);
        const double rate = 0.1 * (1 + static_cast<double>(random() % 3000));
        const auto crew = crew_size(start, end, grafts, rate, year.days_off, year.holidays);
        EXPECT_EQ(crew.has_value(), worked > 0);
        if (!crew) continue;
        ++answered;
        EXPECT_LE(crew_finish(start, grafts, rate, crew, year.days_off, year.holidays), end);
        if (*crew > 1) {
            EXPECT_GT(crew_finish(start, grafts, rate, *crew - 1, year.days_off, year.holidays), end);
        }
    }
    EXPECT_GT(answered, 4000);
}

TEST(CrewSize, AtTheEdges) {
    const Day monday = iso("2027-09-06");
    EXPECT_EQ(crew_size(monday, monday, 0, 120), 0);
    EXPECT_EQ(crew_size(monday, monday, 1, 1e7), 1);
    EXPECT_EQ(crew_size(monday, monday + days{2}, 21, 0.7), 10) << "21 / (0.7 * 3)";
    EXPECT_EQ(crew_size(monday + days{5}, monday + days{6}, 100, 10), std::nullopt) << "Saturday and Sunday";
    EXPECT_EQ(crew_size(monday, monday, 100, 10, {}, DayList{monday, monday}), std::nullopt);
    // A rate a trifle short of one a day: what the quotient rounds away, the days may not, and the other way round.
    const double short_rate = 1 - 5e-10;
    EXPECT_EQ(crew_size(monday, monday + days{999}, 1000, short_rate, "0000000"), 2);
    EXPECT_EQ(crew_finish(monday, 1000, short_rate, 1, "0000000"), monday + days{1000}) << "one person misses";
    EXPECT_EQ(crew_size(monday, monday, 1e6, short_rate), 1e6);
    EXPECT_EQ(crew_finish(monday, 1e6, short_rate, 1e6), monday) << "a million finish";
    EXPECT_EQ(crew_size(iso("1900-01-01"), iso("9999-12-31"), 1e7, 0.001), 4733)
        << "2,958,464 days, 2,113,190 of them Monday to Friday; 1e10 / 2,113,190 = 4732.2";
}

TEST(Extremes, AreAnswered) {
    Table table{6, {}};
    for (int row = 0; row < 10'000; ++row) {
        const double offset = row;
        table.cells.insert(table.cells.end(),
                           {"Stage no. " + std::to_string(row), offset, offset, offset, "d", std::monostate{}});
    }
    EXPECT_EQ(milestone(iso("1900-01-01"), "stage no. 9999", {}, table), iso("1900-01-01") + days{9999});
    EXPECT_EQ(schedule(iso("2200-01-01"), table).rows(), 10'000U);
    DayList holidays;
    for (int day = 0; day < 10'000; ++day) holidays.days.emplace_back(iso("2000-01-01") + days{9999 - day});
    holidays.length = 1'048'576;
    EXPECT_EQ(crew_finish(iso("2000-01-01"), 1, 1, {}, {}, holidays), iso("2027-05-19")) << "all days off before";
    EXPECT_GT(crew_finish(iso("1900-01-01"), 2e6, 1, {}, {}, holidays), iso("9000-01-01"));
}

}  // namespace
}  // namespace slipbark::calendar

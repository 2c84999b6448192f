#include "catalogue/arguments.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "formula.hpp"
#include "reference.hpp"

namespace slipbark::tests {

enum class Sign { callus, bleeding };

struct Look {
    Day day;
    int grafts = 0;
    bool dry = false;
    std::string tree;
    Sign sign = Sign::callus;
    std::optional<double> take;

    [[nodiscard]] double twice() const { return 2.0 * grafts; }
};

struct Lines {
    std::vector<Look> looks;
};

}  // namespace slipbark::tests

namespace slipbark {

template <>
inline constexpr std::array<std::string_view, 2> keywords<tests::Sign>{"callus", "bleeding"};

namespace catalogue {

template <>
inline constexpr auto columns_of<tests::Look> = columns(&tests::Look::tree, &tests::Look::day, &tests::Look::grafts,
                                                        &tests::Look::dry, &tests::Look::sign, &tests::Look::take,
                                                        &tests::Look::twice,
                                                        [](const tests::Look& look) { return look.tree + "!"; });

template <>
inline constexpr auto columns_of<tests::Lines> =
    [](const tests::Lines& lines) { return Table(1, {static_cast<double>(lines.looks.size())}); };

}  // namespace catalogue

}  // namespace slipbark

namespace slipbark::tests {
namespace {

using catalogue::parameter;
using catalogue::Value;

const Day null_date = usual_null_date();

std::string refusal(const std::function<void()>& read) {
    try {
        read();
    } catch (const bad_argument& bad) {
        return bad.what();
    }
    return "";
}

class Serials : public testing::TestWithParam<Row> {};

TEST_P(Serials, AreDaysSinceTheNullDate) {
    const Row& row = GetParam();
    const Day null = row.day("null_date");
    const Day day = row.day("date");
    EXPECT_TRUE(agrees(row, catalogue::serial_of(day, null)));
    // Day 0 itself cannot be told from a blank cell, and is refused as one.
    if (day == null) {
        EXPECT_THROW(catalogue::day_of("date", 0, null), bad_argument);
    } else {
        EXPECT_EQ(catalogue::day_of("date", row.number("expected"), null), day);
    }
}

INSTANTIATE_TEST_SUITE_P(Table, Serials, testing::ValuesIn(rows("E_serials.csv", {"serial_from_date"})), row_id);

TEST(Days, DropTheTimeOfDay) {
    EXPECT_EQ(catalogue::day_of("date", 46000.99, null_date), catalogue::day_of("date", 46000, null_date));
}

TEST(Days, OutsideTheCalendarAreRefused) {
    EXPECT_EQ(refusal([] { catalogue::day_of("graft_date", 0, null_date); }),
              "graft_date was 0 (the cell may be blank): give a date.");
    for (const double serial : {-1.0, 1.0, 3e6, 1e300, -1e300, std::nan(""), std::numeric_limits<double>::infinity()}) {
        EXPECT_THROW(catalogue::day_of("graft_date", serial, null_date), bad_argument) << serial;
    }
}

TEST(Columns, PutTheFieldsOfAStructIntoCells) {
    using catalogue::outcome;
    const Day day = std::chrono::sys_days(std::chrono::year(2027) / 9 / 20);
    const Look look{.day = day, .grafts = 8, .dry = true, .tree = "R1", .sign = Sign::bleeding, .take = {}};
    const Table one(8, {"R1", 46650., 8., 1., "bleeding", Cell(), 16., "R1!"});
    EXPECT_EQ(std::get<Table>(outcome(look, null_date)), one);
    Look other = look;
    other.take = 0.5;
    Table two = one;
    two.cells.insert(two.cells.end(), one.cells.begin(), one.cells.end());
    two.cells[13] = 0.5;
    EXPECT_EQ(std::get<Table>(outcome(std::vector{look, other}, null_date)), two);
    EXPECT_EQ(std::get<Table>(outcome(std::optional(std::vector{look}), null_date)), one);
    EXPECT_TRUE(std::holds_alternative<std::monostate>(outcome(std::optional<Look>(), null_date)));
    EXPECT_EQ(std::get<Table>(outcome(Lines{{look, other}}, null_date)), Table(1, {2.}));
}

TEST(Columns, SetWhatACallGives) {
    using catalogue::Gives;
    EXPECT_EQ(catalogue::gives_of<Look>, Gives::table);
    EXPECT_EQ(catalogue::gives_of<std::vector<Look>>, Gives::table);
    EXPECT_EQ(catalogue::gives_of<Lines>, Gives::table);
    EXPECT_EQ(catalogue::gives_of<std::optional<std::vector<Look>>>, Gives::maybe_table);
    EXPECT_TRUE(catalogue::uses_date<std::vector<Look>>);
    EXPECT_TRUE(catalogue::uses_date<std::optional<Look>>);
    EXPECT_FALSE(catalogue::uses_date<Lines>);
}

TEST(Moments, KeepTheTimeOfDayToTheMillisecond) {
    using std::chrono::hours;
    const auto noon = catalogue::moment_of("date_time", 46000.5, null_date);
    const auto midnight = catalogue::moment_of("date_time", 46000, null_date);
    EXPECT_EQ(noon - midnight, hours{12});
}

TEST(Parameters, OmittedAndEmptyTextMeanNotGiven) {
    EXPECT_EQ(parameter<std::optional<double>>("spare", Value{}, null_date), std::nullopt);
    EXPECT_EQ(parameter<std::optional<double>>("spare", Value{""}, null_date), std::nullopt);
    EXPECT_EQ(parameter<std::optional<double>>("spare", Value{0.0}, null_date), 0.0);
}

TEST(Parameters, TextForANumberIsRefused) {
    EXPECT_EQ(refusal([] { parameter<double>("grafts", Value{"many"}, null_date); }),
              "grafts was the text \"many\": give a number.");
    EXPECT_EQ(refusal([] { parameter<double>("grafts", Value{}, null_date); }), "grafts is missing: give a number.");
}

TEST(Parameters, WhatTheHostReadsInATextIsReadTheSame) {
    EXPECT_EQ(parameter<double>("grafts", Value{"400"}, null_date), 400);
    EXPECT_EQ(parameter<double>("grafts", Value{"-4"}, null_date), -4);
    EXPECT_EQ(parameter<double>("grafts", Value{" 400 "}, null_date), 400);
    EXPECT_EQ(parameter<double>("grafts", Value{"1899-12-31"}, null_date), 1);
    EXPECT_EQ(parameter<Day>("graft_date", Value{"2027-09-06"}, null_date), Day{std::chrono::September / 6 / 2027});
    for (const char* no_date : {"2027-02-30", "2027-9-6", "+027-09-06", "2027-09-0x", "2027-09-06x", "   "}) {
        EXPECT_THROW(parameter<double>("graft_date", Value{no_date}, null_date), bad_argument) << no_date;
    }
    EXPECT_THROW(parameter<double>("grafts", Value{"4.5"}, null_date), bad_argument);
    EXPECT_THROW(parameter<double>("grafts", Value{"4-5"}, null_date), bad_argument);
    EXPECT_THROW(parameter<double>("grafts", Value{"+-5"}, null_date), bad_argument);
}

TEST(Parameters, ListsAreRowsOrColumnsNotBlocks) {
    EXPECT_EQ(parameter<List>("live", Table(1, {1., 2., 3.}), null_date).length, 3U);
    EXPECT_EQ(parameter<List>("live", Table(3, {1., 2., 3.}), null_date).length, 3U);
    EXPECT_EQ(parameter<List>("live", Value{7.0}, null_date).length, 1U);
    EXPECT_EQ(refusal([] {
                  parameter<List>("live", Table(2, {1., 2., 3., 4.}), null_date);
              }),
              "live was a block of 2 rows and 2 columns: give a single row or a single column.");
}

TEST(Parameters, BlankRowsBelowCountInTheLength) {
    Table column(1, {1., 2.});
    column.blank_rows = 1'048'574;
    const auto list = parameter<List>("live", column, null_date);
    EXPECT_EQ(list.length, 1'048'576U);
    EXPECT_EQ(list.cells.size(), 2U);
    EXPECT_TRUE(is_blank(list.cell(1'000'000)));
}

TEST(Parameters, ADayListNamesTheRow) {
    const Value column = Table(1, {46000., Cell{}, std::string("Friday")});
    EXPECT_EQ(refusal([&] { parameter<DayList>("holidays", column, null_date); }),
              "holidays has the text \"Friday\" in row 3: give a number there.");
    EXPECT_EQ(parameter<DayList>("holidays", Value{0.0}, null_date).day(0), std::nullopt);
}

TEST(Parameters, ARangeOfOneCellIsWhatStandsInIt) {
    const auto one = [](Cell cell) { return Value(Table(1, {std::move(cell)})); };
    EXPECT_EQ(parameter<double>("grafts", one(3.0), null_date), 3);
    EXPECT_EQ(parameter<double>("grafts", one("400"), null_date), 400);
    EXPECT_EQ(parameter<double>("grafts", one({}), null_date), 0) << "as the host has it";
    EXPECT_EQ(parameter<std::optional<double>>("spare", one(0.15), null_date), 0.15);
    EXPECT_EQ(parameter<std::optional<double>>("spare", one({}), null_date), std::nullopt);
    EXPECT_EQ(parameter<std::string>("stage", one("Graft"), null_date), "Graft");
    EXPECT_EQ(parameter<Scalar>("days_off", one(11.0), null_date), Scalar(11.0));
    EXPECT_EQ(refusal([&] { parameter<std::string>("stage", one({}), null_date); }), "stage is missing: give a text.");
    EXPECT_EQ(refusal([&] { parameter<double>("grafts", one("many"), null_date); }),
              "grafts was the text \"many\": give a number.");
    Table column(1, {3.0});
    column.blank_rows = 1'048'575;
    EXPECT_EQ(refusal([&] { parameter<double>("grafts", column, null_date); }),
              "grafts was a range of 1048576 cells: give a single number.");
}

TEST(Parameters, AnEmptyTextForAListIsABlankCellOfIt) {
    const auto live = parameter<List>("live", Value{""}, null_date);
    ASSERT_EQ(live.length, 1U);
    EXPECT_TRUE(is_blank(live.cell(0)));
    EXPECT_EQ(refusal([] { parameter<List>("live", Value{}, null_date); }), "live is missing: give a range of cells.");
    const auto dates = parameter<DayList>("dates", Table(1, {0.0}), null_date);
    EXPECT_EQ(dates.length, 1U);
    EXPECT_EQ(dates.day(0), std::nullopt);
}

TEST(Outcomes, AreNeverInfinite) {
    EXPECT_THROW(catalogue::outcome<double>(std::numeric_limits<double>::infinity(), null_date), bad_argument);
    EXPECT_THROW(catalogue::outcome<double>(std::nan(""), null_date), bad_argument);
    EXPECT_THROW(catalogue::outcome<Table>(Table(1, {std::nan("")}), null_date), bad_argument);
}

}  // namespace
}  // namespace slipbark::tests

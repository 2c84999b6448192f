#include "slipbark/heat.hpp"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <random>
#include <utility>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/outcome.hpp"
#include "support/checks.hpp"

namespace slipbark::heat {
namespace {

using std::chrono::days;
using tests::iso;
using tests::refused;
using tests::Row;

constexpr std::array methods{Method::sine, Method::triangle, Method::average};
constexpr std::array cutoffs{Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate};

template <class Enumeration>
std::optional<Enumeration> named(const std::string& name) {
    const auto& names = keywords<Enumeration>;
    for (std::size_t index = 0; index < names.size(); ++index) {
        if (name == names.at(index)) return static_cast<Enumeration>(index);
    }
    return std::nullopt;  // "none", or a blank column
}

std::optional<double> upper_of(const Row& row) {
    return row.has("upper") ? std::optional(row.number("upper")) : std::nullopt;
}

// ---- Reference rows

class OneDay : public testing::TestWithParam<Row> {};

TEST_P(OneDay, AgreesWithThePublishedValue) {
    const Row& row = GetParam();
    const auto method = named<Method>(row["method"]);
    ASSERT_TRUE(method);
    EXPECT_TRUE(agrees(row, units(row.number("tmin"), row.number("tmax"), row.number("lower"), upper_of(row), method,
                                  named<Cutoff>(row["cutoff"]))));
}

INSTANTIATE_TEST_SUITE_P(Reference, OneDay, testing::ValuesIn(tests::rows("F_degree_days.csv", {"degree_days"})),
                         tests::row_id);

class WorkedDay : public testing::TestWithParam<Row> {};

TEST_P(WorkedDay, AgreesWithTheWorkedExample) {
    const Row& row = GetParam();
    const auto method = named<Method>(row["method"]);
    ASSERT_TRUE(method);
    EXPECT_TRUE(agrees(row, units(row.number("low"), row.number("high"), row.number("base"), upper_of(row), method)));
}

INSTANTIATE_TEST_SUITE_P(WorkedExamples, WorkedDay,
                         testing::ValuesIn(tests::rows("worked_examples_calendar.csv", {"HEATUNITS"})), tests::row_id);

/// The 366 daily readings of the station that the published sums are of.
struct Station {
    DayList dates;
    List lows;
    List highs;

    Station() {
        for (const Row& row : tests::rows("F_espartoa_temps.csv")) {
            dates.days.emplace_back(row.day("date"));
            lows.cells.emplace_back(row.number("tmin_F"));
            highs.cells.emplace_back(row.number("tmax_F"));
        }
        dates.length = lows.length = highs.length = dates.days.size();
    }
};

class Year : public testing::TestWithParam<Row> {};

TEST_P(Year, AgreesWithThePublishedSum) {
    const Row& row = GetParam();
    const Station station;
    ASSERT_EQ(station.dates.length, 366U);
    const auto method = named<Method>(row["method"]);
    const auto cutoff = named<Cutoff>(row["cutoff"]);
    ASSERT_TRUE(method && cutoff);
    const double total = sum(station.lows, station.highs, row.number("lower"), upper_of(row), method, cutoff);
    EXPECT_TRUE(agrees(row, total));
    // What the source prints is the sum of days rounded to 0.01; two days of the intermediate cutoff do not reproduce.
    EXPECT_NEAR(total, row.number("published_value"), 0.75);
}

INSTANTIATE_TEST_SUITE_P(Reference, Year, testing::ValuesIn(tests::rows("F_degree_days.csv", {"degree_days_sum"})),
                         tests::row_id);

// ---- The GNU Scientific Library as oracle

struct Wave {
    double low, high, base;
    std::optional<double> upper;
    Method method;
    Cutoff cutoff;
};

/// `part` runs from 0 at the low to 1 at the high.
double temperature(double part, const Wave& wave) {
    if (wave.method == Method::triangle) return wave.low + (wave.high - wave.low) * part;
    const double mean = (wave.low + wave.high) / 2;
    if (wave.method == Method::average) return mean;
    return mean - (wave.high - wave.low) / 2 * std::cos(std::numbers::pi * part);
}

/// Heat at one instant, by the words of the definition.
double rate(double part, void* data) {
    const auto& wave = *static_cast<const Wave*>(data);
    const double t = temperature(part, wave);
    if (t <= wave.base) return 0;
    if (!wave.upper || t <= *wave.upper) return t - wave.base;
    if (wave.cutoff == Cutoff::horizontal) return *wave.upper - wave.base;
    if (wave.cutoff == Cutoff::vertical) return 0;
    return *wave.upper - wave.base - (t - *wave.upper);
}

/// Where the rising wave passes a threshold, by bisection: 0 or 1 where it does not.
double crossing(double threshold, const Wave& wave) {
    double before = 0;
    double after = 1;
    for (int step = 0; step < 60; ++step) {
        const double middle = (before + after) / 2;
        (temperature(middle, wave) <= threshold ? before : after) = middle;
    }
    return before;
}

TEST(HeatUnits, AreTheIntegralOfTheDay) {
    constexpr double allowed = 1e-10;  // degree-days
    gsl_set_error_handler_off();
    const std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)> space(
        gsl_integration_workspace_alloc(1000), &gsl_integration_workspace_free);
    std::mt19937 random(1969);
    const auto between = [&random](double from, double to) {
        return std::uniform_real_distribution<double>(from, to)(random);
    };
    for (int trial = 0; trial < 5000; ++trial) {
        Wave wave{};
        wave.low = between(-20, 30);
        wave.high = wave.low + (trial % 50 == 0 ? 0 : between(0, 30));
        wave.base = trial % 70 == 0 ? wave.low : between(-10, 30);
        if (trial % 4 != 0) wave.upper = wave.base + between(0.1, 30);
        wave.method = methods.at(random() % 3);
        wave.cutoff = cutoffs.at(random() % 3);
        // In three smooth pieces: an adaptive rule may overlook a kink near the end of a day.
        const double at_base = crossing(wave.base, wave);
        const double at_upper = wave.upper ? crossing(*wave.upper, wave) : 1;
        gsl_function integrand{&rate, &wave};
        double expected = 0;
        for (const auto& [from, to] : {std::pair{0.0, at_base}, {at_base, at_upper}, {at_upper, 1.0}}) {
            double piece = 0;
            double error = 0;
            gsl_integration_qag(&integrand, from, to, 1e-12, 1e-12, 1000, GSL_INTEG_GAUSS31, space.get(), &piece,
                                &error);
            ASSERT_LT(error, allowed);
            expected += piece;
        }
        ASSERT_NEAR(units(wave.low, wave.high, wave.base, wave.upper, wave.method, wave.cutoff), expected, allowed)
            << wave.low << " " << wave.high << " " << wave.base << " " << wave.upper.value_or(NAN) << " "
            << static_cast<int>(wave.method) << " " << static_cast<int>(wave.cutoff);
    }
}

// ---- Properties

struct RandomDays {
    DayList dates;
    List lows;
    List highs;
    double base;
    std::optional<double> upper;

    explicit RandomDays(std::mt19937& random) {
        const auto count = 1 + random() % 60;
        const Day first = iso("1990-01-01") + days{static_cast<int>(random() % 20'000)};
        for (unsigned row = 0; row < count; ++row) {
            const double low = static_cast<double>(random() % 300) / 10;
            dates.days.emplace_back(first + days{static_cast<int>(row)});
            lows.cells.emplace_back(low);
            highs.cells.emplace_back(low + static_cast<double>(random() % 200) / 10);
        }
        // Blank rows below, as in a sheet that waits for the next days; some of them stored, some not.
        dates.length = lows.length = highs.length = count + 10;
        if (random() % 2 == 0) lows.cells.resize(count + 3);
        if (random() % 2 == 0) dates.days.resize(count + 4);
        base = static_cast<double>(random() % 20);
        if (random() % 2 == 0) upper = base + 1 + static_cast<double>(random() % 20);
    }
};

TEST(HeatSum, IsTheSumOfHeatUnits) {
    std::mt19937 random(1983);
    for (int trial = 0; trial < 500; ++trial) {
        const RandomDays year(random);
        for (const auto method : methods) {
            for (const auto cutoff : cutoffs) {
                double total = 0;
                for (std::size_t row = 0; row < year.highs.cells.size(); ++row) {
                    total += units(std::get<double>(year.lows.cells[row]), std::get<double>(year.highs.cells[row]),
                                   year.base, year.upper, method, cutoff);
                }
                EXPECT_DOUBLE_EQ(sum(year.lows, year.highs, year.base, year.upper, method, cutoff), total);
            }
        }
    }
}

TEST(HeatDate, IsTheFirstWhoseHeatSumReachesTheTarget) {
    std::mt19937 random(1984);
    int reached = 0;
    for (int trial = 0; trial < 2000; ++trial) {
        const RandomDays year(random);
        const auto method = methods.at(random() % 3);
        const auto cutoff = cutoffs.at(random() % 3);
        const double target = 1 + static_cast<double>(random() % 3000) / 10;
        const std::size_t skipped = random() % 10;
        const Day from = *year.dates.day(0) + days{static_cast<int>(skipped)};
        std::optional<Day> expected;
        for (std::size_t end = skipped + 1; end <= year.highs.cells.size() && !expected; ++end) {
            const auto part = [&](const List& list) {
                return List(std::vector<Cell>(list.cells.begin() + static_cast<std::ptrdiff_t>(skipped),
                                              list.cells.begin() + static_cast<std::ptrdiff_t>(end)));
            };
            const double total = sum(part(year.lows), part(year.highs), year.base, year.upper, method, cutoff);
            if (total >= target) expected = *year.dates.day(end - 1);
        }
        EXPECT_EQ(date(year.dates, year.lows, year.highs, year.base, target, from, year.upper, method, cutoff),
                  expected);
        if (skipped == 0) {
            EXPECT_EQ(date(year.dates, year.lows, year.highs, year.base, target, {}, year.upper, method, cutoff),
                      expected);
        }
        reached += expected ? 1 : 0;
    }
    EXPECT_GT(reached, 500);
    EXPECT_LT(reached, 1900);
}

TEST(HeatDate, ForgivesTheLastDigitsOfASum) {
    DayList dates;
    List lows;
    List highs;
    for (int row = 0; row < 10; ++row) {
        dates.days.emplace_back(iso("2027-09-06") + days{row});
        lows.cells.emplace_back(10.1);
        highs.cells.emplace_back(10.1);
    }
    dates.length = lows.length = highs.length = 10;
    EXPECT_LT(sum(lows, highs, 10), 1) << "ten times 0.1 falls short of 1 in binary";
    EXPECT_EQ(date(dates, lows, highs, 10, 1), iso("2027-09-15"));
}

TEST(HeatUnits, WithTheAverageMethodAreThoseOfADayAtItsMean) {
    // Common practice; the mean of 20 and 40 is 30.
    EXPECT_EQ(units(20, 40, 10, {}, Method::average), 20);
    EXPECT_EQ(units(20, 40, 10, 25, Method::average), 15);
    EXPECT_EQ(units(20, 40, 10, 25, Method::average, Cutoff::vertical), 0);
    EXPECT_EQ(units(20, 40, 10, 25, Method::average, Cutoff::intermediate), 10);
    EXPECT_EQ(units(20, 40, 10, 30, Method::average, Cutoff::vertical), 20) << "at upper is not above it";
    EXPECT_EQ(units(0, 19, 10, {}, Method::average), 0);
}

TEST(HeatUnits, AreFiniteAndNotBelowZeroAtTheExtremes) {
    for (const double low : {-1000., -999.9999999999, 0., 999.9999999999, 1000.}) {
        for (const double high : {-1000., -999.9999999999, 1e-300, 1000.}) {
            if (low > high) continue;
            for (const double base : {-1000., 0., 1e-300, 999.}) {
                for (const auto method : methods) {
                    for (const auto cutoff : cutoffs) {
                        const double heat = units(low, high, base, 1000, method, cutoff);
                        EXPECT_TRUE(std::isfinite(heat) && heat >= 0) << low << " " << high << " " << base;
                    }
                }
            }
        }
    }
}

TEST(HeatSum, OfNothingIsZero) {
    EXPECT_EQ(sum({}, {}, 10), 0);
    EXPECT_EQ(sum(List({}, 100), List({}, 100), 10), 0);
    EXPECT_EQ(date({}, {}, {}, 10, 1), std::nullopt);
    EXPECT_EQ(date({{}, 100}, List({}, 100), List({}, 100), 10, 1, iso("2027-09-06")), std::nullopt);
}

// ---- Refusals

const Cell blank;
const double nan = std::nan("");

TEST(HeatUnitsRefuse, WhatIsNoDay) {
    EXPECT_EQ(refused([] { units(11, 10, 5); }), "low");
    EXPECT_EQ(refused([] { units(nan, 10, 5); }), "low");
    EXPECT_EQ(refused([] { units(-1001, 10, 5); }), "low");
    EXPECT_EQ(refused([] { units(1, HUGE_VAL, 5); }), "high");
    EXPECT_EQ(refused([] { units(1, 10, nan); }), "base");
    EXPECT_EQ(refused([] { units(1, 10, 1001); }), "base");
    EXPECT_EQ(refused([] { units(1, 10, 5, 5); }), "upper");
    EXPECT_EQ(refused([] { units(1, 10, 5, 0); }), "upper");
    EXPECT_EQ(refused([] { units(1, 10, 5, nan); }), "upper");
}

struct BadSeries {
    const char* name;
    List lows, highs;
    const char* argument;
    const char* told;
};

class HeatSumRefuses : public testing::TestWithParam<BadSeries> {};

TEST_P(HeatSumRefuses, WhatIsNoSeries) {
    const auto& row = GetParam();
    DayList dates;
    for (int day = 0; day < 3; ++day) dates.days.emplace_back(iso("2027-09-06") + days{day});
    dates.length = 3;
    for (const bool dated : {false, true}) {
        try {
            if (dated) {
                date(dates, row.lows, row.highs, 5, 100);
            } else {
                sum(row.lows, row.highs, 5);
            }
            ADD_FAILURE() << "nothing refused";
        } catch (const bad_argument& bad) {
            EXPECT_EQ(bad.argument(), row.argument) << bad.what();
            EXPECT_NE(std::string(bad.what()).find(row.told), std::string::npos) << bad.what();
        }
    }
}

INSTANTIATE_TEST_SUITE_P(
    Series, HeatSumRefuses,
    testing::Values(BadSeries{"blank_between", {10., blank, 10.}, {20., blank, 20.}, "lows", "row 2"},
                    BadSeries{"blank_at_the_start", {blank, 10., 10.}, {blank, 20., 20.}, "lows", "row 1"},
                    BadSeries{"only_the_low", {10., 10., 10.}, {20., 20., blank}, "highs", "row 3"},
                    BadSeries{"only_the_high", {10., 10., blank}, {20., 20., 20.}, "lows", "row 3"},
                    BadSeries{"text", {10., "cold", 10.}, {20., 20., 20.}, "lows", "cold"},
                    BadSeries{"swapped", {10., 20., 10.}, {20., 10., 20.}, "lows", "row 2"},
                    BadSeries{"not_a_number", {10., 10., 10.}, {20., 20., nan}, "highs", "row 3"},
                    BadSeries{"too_hot", {10., 10., 10.}, {20., 2000., 20.}, "highs", "row 2"},
                    BadSeries{"shorter", {10., 10., 10.}, {20., 20.}, "highs", "equal length"}),
    [](const auto& row) { return row.param.name; });

TEST(HeatDateRefuses, GapsAndTargetsThatMeanNothing) {
    const Day first = iso("2027-09-06");
    const DayList good{first, first + days{1}, first + days{2}};
    const List lows{10., 10., 10.};
    const List highs{20., 20., 20.};
    EXPECT_EQ(date(good, lows, highs, 5, 20), first + days{1});
    const auto refused_dates = [&](const DayList& dates) { return refused([&] { date(dates, lows, highs, 5, 20); }); };
    EXPECT_EQ(refused_dates({first, first + days{2}, first + days{3}}), "dates");
    EXPECT_EQ(refused_dates({first, first, first + days{1}}), "dates");
    EXPECT_EQ(refused_dates({first, first - days{1}, first - days{2}}), "dates");
    EXPECT_EQ(refused_dates({first, std::nullopt, first + days{2}}), "dates");
    EXPECT_EQ(refused_dates({first, first + days{1}, std::nullopt}), "dates")
        << "also past the date that is the answer";
    EXPECT_EQ(refused_dates({Day{days{10'000'000}}, first, first}), "dates");
    EXPECT_EQ(refused_dates({first, first + days{1}}), "lows") << "ranges of unequal length";
    EXPECT_EQ(refused([&] { date(good, {10., blank, 10.}, {20., blank, 20.}, 5, 20); }), "lows") << "a day left out";
    EXPECT_EQ(date(good, {10., 10., blank}, {20., 20., blank}, 5, 20), first + days{1})
        << "a date without readings at the end is a day to come";
    for (const double target : {0., -1., nan, HUGE_VAL}) {
        EXPECT_EQ(refused([&] { date(good, lows, highs, 5, target); }), "target") << target;
    }
    EXPECT_EQ(refused([&] { date(good, lows, highs, 5, 20, first - days{1}); }), "from_date");
    EXPECT_EQ(date(good, lows, highs, 5, 20, first + days{1}), first + days{2});
    EXPECT_EQ(date(good, lows, highs, 5, 20, first + days{50}), std::nullopt);
    EXPECT_EQ(date(good, lows, highs, 5, 1000), std::nullopt);
}

}  // namespace
}  // namespace slipbark::heat

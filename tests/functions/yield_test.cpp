#include "slipbark/yield.hpp"

#include <gtest/gtest.h>
// Boost 1.74 names isnan without std:: and does not include this itself.
#include <math.h>  // NOLINT(modernize-deprecated-headers,hicpp-deprecated-headers)

#include <algorithm>
#include <boost/math/interpolators/pchip.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "common.hpp"
#include "slipbark/defaults.hpp"
#include "support/pchip.hpp"

namespace slipbark::yield {
namespace {

using tests::agrees;
using tests::reason;
using tests::refused;
using tests::Row;
using Optional = std::optional<double>;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

Table curve_of(const std::vector<double>& years, const std::vector<double>& shares) {
    Table table{2, {}};
    for (std::size_t row = 0; row < years.size(); ++row) {
        table.cells.emplace_back(years[row]);
        table.cells.emplace_back(shares[row]);
    }
    return table;
}

class Pchip : public testing::TestWithParam<Row> {};

TEST_P(Pchip, GoesThroughTheReference) {
    const Row& row = GetParam();
    const auto x = row.numbers("x_knots");
    const auto y = row.numbers("y_knots");
    const double at = row.number("at");
    EXPECT_TRUE(agrees(row, pchip::value(x, y, at)));
    // The same through the cell function, the heights as hundredths.
    std::vector<double> shares(y.size());
    std::transform(y.begin(), y.end(), shares.begin(), [](double height) { return height / 100; });
    EXPECT_TRUE(agrees(row, per_tree(at, 100, curve_of(x, shares))));
}

INSTANTIATE_TEST_SUITE_P(Reference, Pchip, testing::ValuesIn(tests::rows("G_monotone_interp_growth.csv", {"pchip"})),
                         tests::row_id);

class PchipSlope : public testing::TestWithParam<Row> {};

TEST_P(PchipSlope, IsThatOfTheReference) {
    const Row& row = GetParam();
    const auto x = row.numbers("x_knots");
    const auto knot = std::find(x.begin(), x.end(), row.number("at"));
    ASSERT_NE(knot, x.end()) << row;
    EXPECT_TRUE(agrees(row, pchip::slope(x, row.numbers("y_knots"), static_cast<std::size_t>(knot - x.begin()))));
}

INSTANTIATE_TEST_SUITE_P(Reference, PchipSlope,
                         testing::ValuesIn(tests::rows("G_monotone_interp_growth.csv", {"pchip_slope"})),
                         tests::row_id);

// The limit of the end slopes, worked by hand: secants 1 and -6 make the three-point slope (3 * 1 + 6) / 2 = 4.5, more
// than three times the secant, so 3 it is; at the peak the slope is 0. Halfway 5.5 + 3 / 8.
TEST(PchipEnds, AreLimitedToThreeTimesTheSecant) {
    const std::vector<double> x{0, 1, 2};
    const std::vector<double> rise_and_fall{5, 6, 0};
    EXPECT_DOUBLE_EQ(pchip::slope(x, rise_and_fall, 0), 3);
    EXPECT_DOUBLE_EQ(pchip::value(x, rise_and_fall, 0.5), 5.875);
    const std::vector<double> mirrored{0, 6, 5};
    EXPECT_DOUBLE_EQ(pchip::slope(x, mirrored, 2), -3);
    EXPECT_DOUBLE_EQ(pchip::value(x, mirrored, 1.5), 5.875);
}

struct Points {
    std::vector<double> x, y;
};

/// `rising`: heights that never fall, some of them level; else any.
Points random_points(std::mt19937_64& random, std::size_t least, bool rising) {
    std::uniform_int_distribution<std::size_t> count(least, 12);
    std::uniform_real_distribution<double> step(0.05, 4);
    std::uniform_real_distribution<double> height(0, 1);
    std::bernoulli_distribution level(0.2);
    Points points;
    double x = step(random);
    double y = 0;
    for (std::size_t left = count(random); left > 0; --left) {
        points.x.push_back(x);
        points.y.push_back(y);
        x += step(random);
        if (!level(random)) y = rising ? y + height(random) : height(random);
    }
    return points;
}

// Boost's interpolator is independent of ours. It differs in the end slopes, which it takes where they are given.
TEST(PchipOracle, AgreesWithBoost) {
    auto random = tests::draws(20270912);
    for (int round = 0; round < 5'000; ++round) {
        const Points points = random_points(random, 4, false);
        auto x = points.x;
        auto y = points.y;
        const boost::math::interpolators::pchip<std::vector<double>> oracle(
            std::move(x), std::move(y), pchip::slope(points.x, points.y, 0),
            pchip::slope(points.x, points.y, points.x.size() - 1));
        std::uniform_real_distribution<double> within(points.x.front(), points.x.back());
        for (int look = 0; look < 4; ++look) {
            const double at = within(random);
            EXPECT_NEAR(pchip::value(points.x, points.y, at), oracle(at), 1e-12) << at;
        }
    }
}

TEST(PchipShape, NeverFallsWhereThePointsRiseAndNeverLeavesItsNeighbours) {
    auto random = tests::draws(20270913);
    for (int round = 0; round < 2'000; ++round) {
        const Points points = random_points(random, 2, true);
        double before = -1;
        for (int step = 0; step <= 200; ++step) {
            const double at = points.x.front() + (points.x.back() - points.x.front()) * step / 200;
            const double height = pchip::value(points.x, points.y, at);
            EXPECT_GE(height, before - 1e-14);
            before = height;
        }
        const Points any = random_points(random, 2, false);
        for (std::size_t left = 0; left + 1 < any.x.size(); ++left) {
            const double height = pchip::value(any.x, any.y, (any.x[left] + any.x[left + 1]) / 2);
            EXPECT_GE(height, std::min(any.y[left], any.y[left + 1]));
            EXPECT_LE(height, std::max(any.y[left], any.y[left + 1]));
        }
    }
}

// From both sides of a point the curve arrives with the same slope, and with the one that slope() tells.
TEST(PchipShape, HasNoKinks) {
    auto random = tests::draws(20270914);
    for (int round = 0; round < 2'000; ++round) {
        const Points points = random_points(random, 3, false);
        for (std::size_t knot = 0; knot < points.x.size(); ++knot) {
            const double expected = pchip::slope(points.x, points.y, knot);
            const double h = 1e-7;
            const double here = pchip::value(points.x, points.y, points.x[knot]);
            EXPECT_EQ(here, points.y[knot]);
            if (knot > 0) {
                EXPECT_NEAR((here - pchip::value(points.x, points.y, points.x[knot] - h)) / h, expected, 2e-3);
            }
            if (knot + 1 < points.x.size()) {
                EXPECT_NEAR((pchip::value(points.x, points.y, points.x[knot] + h) - here) / h, expected, 2e-3);
            }
        }
    }
}

class WorkedYield : public testing::TestWithParam<Row> {};

TEST_P(WorkedYield, Agree) {
    const Row& row = GetParam();
    EXPECT_TRUE(agrees(row, per_tree(row.number("years"), row.number("mature_yield"),
                                     curve_of(row.numbers("curve_years"), row.numbers("curve_shares")))));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedYield, testing::ValuesIn(tests::rows("worked_examples_money.csv", {"YIELD"})),
                         tests::row_id);

TEST(YieldOutsideTheCurve, IsNothingBeforeItAndThatOfItsEndAfterIt) {
    const Table curve = curve_of({2, 3, 5}, {0.1, 0.4, 0.9});
    EXPECT_EQ(per_tree(0, 50, curve), 0);
    EXPECT_EQ(per_tree(1.999, 50, curve), 0);
    EXPECT_DOUBLE_EQ(per_tree(2, 50, curve), 5);
    EXPECT_DOUBLE_EQ(per_tree(5, 50, curve), 45);
    EXPECT_DOUBLE_EQ(per_tree(1000, 50, curve), 45);
}

TEST(YieldCurve, MayHaveFurtherColumnsAndBlankRowsAtTheEnd) {
    const Table curve{3, {1., 0.2, "a note", 3., 0.8, {}, {}, {}, "a note under the table", {}, {}, {}}};
    EXPECT_DOUBLE_EQ(per_tree(2, 10, curve), 5) << "two rows: a straight line";
}

TEST(YieldCurve, RefusesWhatCannotBeAndNamesTheRow) {
    const auto told = [](Table table) { return reason(per_tree, 2., 10., std::optional<Table>{std::move(table)}); };
    const auto names = [&](Table table, const std::string& words) {
        const std::string sentence = told(std::move(table));
        return sentence.starts_with("curve ") && sentence.find(words) != std::string::npos
                   ? testing::AssertionSuccess()
                   : testing::AssertionFailure() << "\"" << sentence << "\" has no " << words;
    };
    EXPECT_TRUE(names({1, {1., 2.}}, "1 columns"));
    EXPECT_TRUE(names({}, "0 columns"));
    EXPECT_TRUE(names({2, {1., 0.5}}, "1 rows"));
    EXPECT_TRUE(names({2, {{}, {}, {}, {}}}, "0 rows"));
    EXPECT_TRUE(names({2, {"years", "share", 1., 0.5}}, "\"years\" in row 1"));
    EXPECT_TRUE(names({2, {1., 0.5, 1., 0.6}}, "row 2 after 1"));
    EXPECT_TRUE(names({2, {1., 0.5, 2., 0.6, 1.5, 0.7}}, "row 3 after 2"));
    EXPECT_TRUE(names({2, {1., 0.5, {}, {}, 2., 0.6}}, "blank in row 2"));
    EXPECT_TRUE(names({2, {1., 0.5, 2., {}}}, "blank in row 2"));
    EXPECT_TRUE(names({2, {1., 0.5, 2., 100.}}, "100 % is 1"));
    EXPECT_TRUE(names({2, {1., -0.5, 2., 1.}}, "-0.5 in row 1"));
    EXPECT_TRUE(names({2, {1., nan, 2., 1.}}, "row 1"));
    EXPECT_TRUE(names({2, {-1., 0., 2., 1.}}, "-1 in row 1"));
    EXPECT_TRUE(names({2, {1., 0., infinity, 1.}}, "row 2"));
    EXPECT_EQ(told({2, {1., 0.5, 2., 0.6}}), "");
}

TEST(YieldRefuses, WhatCannotBe) {
    const std::optional<Table> none;
    for (const double bad : {-1.0, 1001.0, nan, infinity}) EXPECT_EQ(refused(per_tree, bad, 10., none), "years");
    for (const double bad : {-1.0, 2e12, nan}) EXPECT_EQ(refused(per_tree, 1., bad, none), "mature_yield");
}

TEST(YieldByYear, IsTheExpectationByHand) {
    // On a straight line: 40,000 kg times 0.9 * 0.98^y * share(y), and 0.1 * 0.8 * 0.98^(y-1) * share(y-1).
    const Table line = curve_of({0, 2, 4}, {0, 0.5, 1});
    const Table crop = by_year(400, 3, 100, 0.9, 0.8, 0.02, line);
    ASSERT_EQ(crop.columns, 1U);
    ASSERT_EQ(crop.rows(), 3U);
    EXPECT_NEAR(std::get<double>(crop.at(0, 0)), 8820, 1e-8);
    EXPECT_NEAR(std::get<double>(crop.at(1, 0)), 18071.2, 1e-8);
    EXPECT_NEAR(std::get<double>(crop.at(2, 0)), 26948.824, 1e-8);
}

// Every tree for itself: took or failed, regrafted or not, lost in some year; their crops counted and averaged.
TEST(YieldByYear, IsTheMeanOfManyBlocks) {
    auto random = tests::draws(20270915);
    const double take = 0.8;
    const double regraft_take = 0.6;
    const double loss = 0.05;
    const int trees = 200'000;
    const int years = 8;
    std::bernoulli_distribution takes(take);
    std::bernoulli_distribution retakes(regraft_take);
    std::bernoulli_distribution dies(loss);
    std::vector<double> crop(years + 1, 0);
    for (int tree = 0; tree < trees; ++tree) {
        const bool took = takes(random);
        if (!took && !retakes(random)) continue;
        const int grafted = took ? 0 : 1;
        for (int year = grafted + 1; year <= years; ++year) {
            if (dies(random)) break;
            crop[static_cast<std::size_t>(year)] += per_tree(year - grafted, 1);
        }
    }
    const Table expected = by_year(trees, years, 1, take, regraft_take, loss);
    for (int year = 1; year <= years; ++year) {
        // Five standard errors of a mean of shares between 0 and 1.
        const auto row = static_cast<std::size_t>(year);
        EXPECT_NEAR(crop[row], std::get<double>(expected.at(row - 1, 0)), 5 * 0.5 * std::sqrt(trees)) << year;
    }
}

TEST(YieldByYear, OfAFullTakeIsTheTreesTimesTheirYield) {
    const Table crop = by_year(250, 200, 80, 1);
    ASSERT_EQ(crop.rows(), 200U);
    for (std::size_t row = 0; row < crop.rows(); ++row) {
        EXPECT_NEAR(std::get<double>(crop.at(row, 0)), 250 * per_tree(static_cast<double>(row) + 1, 80), 1e-9);
    }
}

class WorkedYieldByYear : public testing::TestWithParam<Row> {};

// A mature block, in the last of the years.
TEST_P(WorkedYieldByYear, Agree) {
    const Row& row = GetParam();
    const Table crop =
        by_year(row.number("trees"), row.number("years"), row.number("mature_yield"), row.number("take"));
    EXPECT_TRUE(agrees(row, std::get<double>(crop.cells.back())));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedYieldByYear,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"YIELDBYYEAR"})), tests::row_id);

TEST(YieldByYear, RefusesWhatCannotBe) {
    const auto name = [](double trees, double years, double mature, double take, Optional regraft, Optional loss) {
        return refused(by_year, trees, years, mature, take, regraft, loss, std::optional<Table>{}, Optional{});
    };
    for (const double bad : {-1.0, 2.5, 1e8, nan}) EXPECT_EQ(name(bad, 5, 10, 0.9, {}, {}), "trees");
    for (const double bad : {0.0, 2.5, 201.0, nan}) EXPECT_EQ(name(400, bad, 10, 0.9, {}, {}), "years");
    for (const double bad : {-1.0, 2e12, nan}) EXPECT_EQ(name(400, 5, bad, 0.9, {}, {}), "mature_yield");
    for (const double bad : {-0.1, 1.1, 90.0, nan}) {
        EXPECT_EQ(name(400, 5, 10, bad, {}, {}), "take");
        EXPECT_EQ(name(400, 5, 10, 0.9, bad, {}), "regraft_take");
    }
    for (const double bad : {-0.1, 1.0, 2.0, nan}) EXPECT_EQ(name(400, 5, 10, 0.9, {}, bad), "yearly_loss");
    const std::optional<Table> heading = Table{2, {"years", "share", 1., 1.}};
    EXPECT_EQ(refused(by_year, 400., 5., 10., 0.9, Optional{}, Optional{}, heading, Optional{}), "curve");
    for (const double bad : {0.0, -0.5, 2.1, nan}) {
        EXPECT_EQ(refused(by_year, 400., 5., 10., 0.9, Optional{}, Optional{}, std::optional<Table>{}, Optional{bad}),
                  "first_harvest");
    }
}

TEST(YieldByYear, AnswersAtTheExtremes) {
    const Table crop = by_year(1e7, 200, 1e12, 1, 1, std::nextafter(1.0, 0.0));
    for (const Cell& cell : crop.cells) EXPECT_TRUE(std::isfinite(std::get<double>(cell)));
    EXPECT_EQ(std::get<double>(by_year(0, 1, 100, 0.9).cells.front()), 0);
}

class Alternation : public testing::TestWithParam<Row> {};

TEST_P(Alternation, IsThatOfThePublishedYields) {
    EXPECT_TRUE(agrees(GetParam(), alternation(GetParam().list("yields"))));
}

INSTANTIATE_TEST_SUITE_P(Examples, Alternation,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"ALTERNATION"})), tests::row_id);

// By definition of the index.
TEST(AlternationAnswers, FromSteadyToEverySecondYear) {
    EXPECT_EQ(alternation({50., 50., 50.}), 0);
    EXPECT_EQ(alternation({50., 0., 50., 0.}), 1);
    EXPECT_EQ(alternation({0., 0., 0.}), 0);
    EXPECT_EQ(alternation({0., 0., 7.}), 0.5);
    EXPECT_EQ(alternation(List({60., 20., {}, {}}, 1'000'000)), 0.5) << "blanks at the end";
    EXPECT_EQ(alternation({1e12, 1e12, 0.}), 0.5);
    EXPECT_DOUBLE_EQ(alternation({3., 1., 3., 1.}),
                     alternation({3e-320, 1e-320, 3e-320, 1e-320}) / (alternation({3e-320, 1e-320}) / 0.5))
        << "the unit does not matter";
}

TEST(AlternationRefuses, WhatCannotBe) {
    const auto name = [](const List& yields) { return refused(alternation, yields); };
    EXPECT_EQ(name({}), "yields");
    EXPECT_EQ(name({50.}), "yields");
    EXPECT_EQ(name({50., {}}), "yields");
    EXPECT_EQ(name({50., -1.}), "yields");
    EXPECT_EQ(name({50., nan}), "yields");
    EXPECT_EQ(name({50., "none"}), "yields");
    EXPECT_NE(reason(alternation, List{50., {}, 20.}).find("row 2"), std::string::npos);
}

}  // namespace
}  // namespace slipbark::yield

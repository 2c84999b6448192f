#include "slipbark/trials.hpp"

#include <gsl/gsl_cdf.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "common.hpp"
#include "slipbark/outcome.hpp"
#include "slipbark/take.hpp"

namespace slipbark::trials {
namespace {

using tests::reason;
using tests::refused;

List list(const std::vector<double>& values) { return {std::vector<Cell>(values.begin(), values.end())}; }

TEST(TrialTrees, IsTheLeastNumberThatReachesThePower) {
    std::mt19937 random(1);
    for (int round = 0; round < 200; ++round) {
        const double a = std::uniform_real_distribution<>(0.05, 0.9)(random);
        const double b = a + std::uniform_real_distribution<>(0.04, 0.95 - a)(random);
        const int grafts = std::uniform_int_distribution<int>(1, 12)(random);
        const double rho = std::uniform_real_distribution<>(0, 0.6)(random);
        const double power = std::uniform_real_distribution<>(0.3, 0.99)(random);
        const double trees = trial_trees(a, b, grafts, rho, power).value();
        ASSERT_GE(trial_power(a, b, grafts, trees, rho), power);
        if (trees > 2) {
            ASSERT_LT(trial_power(a, b, grafts, trees - 1, rho), power);
        }
        // Oracle: the formula with the quantiles of the GNU Scientific Library.
        const double d = 1 + (grafts - 1) * rho;
        const double q = (a + b) / 2;
        const double t = gsl_cdf_tdist_Qinv(0.025, 2 * trees - 2);
        ASSERT_NEAR(
            trial_power(a, b, grafts, trees, rho),
            gsl_cdf_ugaussian_P((std::abs(a - b) * std::sqrt(grafts * trees / d) - t * std::sqrt(2 * q * (1 - q))) /
                                std::sqrt(a * (1 - a) + b * (1 - b))),
            1e-9);
    }
}

TEST(TrialPower, LeavesNothingToChanceBetweenNoneAndAll) {
    EXPECT_EQ(trial_power(0, 1, 4, 2), 0);  // t of 2 degrees is 4.3
    EXPECT_EQ(trial_power(0, 1, 4, 3), 1);
    EXPECT_EQ(refused([] { trial_power(0.7, 0.7, 4, 50); }), "take_b");
    EXPECT_EQ(refused([] { trial_power(70, 0.7, 4, 50); }), "take_a");
    EXPECT_EQ(refused([] { trial_power(0.7, 0.8, 4, 1); }), "trees");
    EXPECT_EQ(refused([] { trial_power(0.7, 0.8, 4, 50, 1); }), "clustering");
    EXPECT_EQ(refused([] { trial_power(0.7, 0.8, 4, 50, 0.2, 0); }), "confidence");
    EXPECT_EQ(refused([] { trial_trees(0.7, 0.8, 4, 0.2, 1); }), "power");
    EXPECT_EQ(trial_trees(0.7, 0.701, 4), std::nullopt);
}

TEST(StopCounting, KeepsItsTwoLinesApart) {
    for (int looked = 0; looked < 300; ++looked) {
        const auto none = stop_counting(0, looked, 0.85, 0.6);
        const auto all = stop_counting(looked, looked, 0.85, 0.6);
        if (none.poor_to) {
            EXPECT_EQ(none.verdict, Verdict::poor);
            EXPECT_EQ(stop_counting(*none.poor_to, looked, 0.85, 0.6).verdict, Verdict::poor);
            EXPECT_NE(stop_counting(*none.poor_to + 1, looked, 0.85, 0.6).verdict, Verdict::poor);
        }
        if (all.good_from) {
            EXPECT_EQ(all.verdict, Verdict::good);
            EXPECT_EQ(stop_counting(*all.good_from, looked, 0.85, 0.6).verdict, Verdict::good);
            EXPECT_NE(stop_counting(*all.good_from - 1, looked, 0.85, 0.6).verdict, Verdict::good);
        }
        if (none.poor_to && all.good_from) {
            EXPECT_LT(*none.poor_to + 1, *all.good_from);
        }
    }
    EXPECT_EQ(refused([] { stop_counting(5, 4, 0.85, 0.6); }), "live_trees");
    EXPECT_EQ(refused([] { stop_counting(4, 5, 1, 0.6); }), "good");
    EXPECT_EQ(refused([] { stop_counting(4, 5, 0.85, 0); }), "poor");
    EXPECT_EQ(refused([] { stop_counting(4, 5, 0.6, 0.6); }), "poor");
    EXPECT_EQ(refused([] { stop_counting(4, 5, 0.85, 0.6, 0.5); }), "risk_good");
    EXPECT_EQ(refused([] { stop_counting(4, 5, 0.85, 0.6, 0.05, 0); }), "risk_poor");
}

TEST(TakeFactors, ComparesTwoKindsAsTheirOddsDo) {
    // One column of two texts: the maximum is where each kind has its own take.
    const auto found = take_factors({3., 1., 4., 2., 1., 0., 2., 3.}, list(std::vector<double>(8, 4)),
                                    Table(1, {"north", "north", "North ", "north", "south", "SOUTH", "south", "south"}))
                           .value();
    ASSERT_EQ(found.size(), 2);
    EXPECT_EQ(found[0].factor, "base");
    EXPECT_EQ(found[1].factor, "south");
    EXPECT_NEAR(found[0].odds_ratio, 10. / 6, 1e-9);
    EXPECT_NEAR(found[1].odds_ratio, (6. / 10) / (10. / 6), 1e-9);
    for (const auto& one : found) {
        EXPECT_LT(one.low, one.odds_ratio);
        EXPECT_LT(one.odds_ratio, one.high);
        EXPECT_NEAR(one.low * one.high, one.odds_ratio * one.odds_ratio, 1e-9);
    }
}

TEST(TakeFactors, SaysTheSameOfNumbersCountedFromElsewhere) {
    std::mt19937 random(2);
    std::vector<double> live;
    std::vector<double> days;
    for (int tree = 0; tree < 30; ++tree) {
        days.push_back(tree % 10);
        live.push_back(std::binomial_distribution<int>(8, 0.5 + 0.04 * (tree % 10))(random));
    }
    const auto table = [&](double scale, double start) {
        Table made;
        made.columns = 1;
        for (const double day : days) made.cells.emplace_back(start + scale * day);
        return made;
    };
    const List grafted = list(std::vector<double>(30, 8));
    const auto one = take_factors(list(live), grafted, table(1, 0)).value()[1];
    for (const double start : {-5., 300.}) {
        const auto other = take_factors(list(live), grafted, table(0.5, start)).value()[1];
        EXPECT_NEAR(other.odds_ratio, one.odds_ratio * one.odds_ratio, 1e-7);
        EXPECT_NEAR(other.p, one.p, 1e-7);
    }
}

TEST(TakeFactorsRefuses, NamingColumnAndRow) {
    const List live{3., 1., {}, 2.};
    const List grafted{4., 4., 4., 4.};
    const auto why = [&](const Table& factors) { return reason([&] { take_factors(live, grafted, factors); }); };
    EXPECT_NE(why(Table(1, {1., {}, {}, 2.})).find("factors is blank in row 2, column 1"), std::string::npos);
    EXPECT_NE(why(Table(1, {1., "a", {}, 2.})).find("numbers and texts in column 1, as row 2"), std::string::npos);
    EXPECT_NE(why(Table(1, {5., 5., 7., 5.})).find("the same in all inspected rows of column 1"), std::string::npos);
    EXPECT_NE(why(Table(2, {1., 2., 2., 4., {}, {}, 4., 8.})).find("column 2"), std::string::npos);
    // As many trees of one kind as coefficients: the fourth coefficient is one too many for three trees.
    EXPECT_NE(why(Table(2, {"a", 1., "b", 2., {}, {}, "c", 5.})).find("column 2"), std::string::npos);
    // Days of the calendar: the base is 46,000 days away.
    EXPECT_NE(why(Table(1, {46650., 46650.01, {}, 46650.02})).find("that no number can be"), std::string::npos);
    EXPECT_EQ(refused([&] { take_factors(live, grafted, Table(1, {1., 2., 3.})); }), "factors");
    EXPECT_EQ(refused([&] { take_factors(live, grafted, Table(1, {1., 2., {}, 4.}), 95); }), "confidence");
    std::vector<Cell> names;
    for (int name = 0; name < 150; ++name) names.emplace_back("grafter " + std::to_string(name));
    EXPECT_EQ(refused([&] {
                  take_factors(list(std::vector<double>(150, 1)), list(std::vector<double>(150, 2)), Table(1, names));
              }),
              "factors");
}

TEST(TakeFactors, HasNoAnswerWithoutAnEnd) {
    EXPECT_EQ(take_factors({{}, {}}, {4., 4.}, Table(1, {1., 2.})), std::nullopt);
    EXPECT_EQ(take_factors({4., 4., 4.}, {4., 4., 4.}, Table(1, {1., 2., 4.})), std::nullopt);
    // All that lived were on the later days.
    EXPECT_EQ(take_factors({0., 0., 4., 4.}, {4., 4., 4., 4.}, Table(1, {1., 2., 3., 4.})), std::nullopt);
}

TEST(TakePool, DrawsTheFewTowardsTheMany) {
    const auto found = take::take_pool({"A", "B", "C", "D"}, {3., 92., 60., 30.}, {3., 96., 80., 60.}).value();
    ASSERT_EQ(found.size(), 5);
    EXPECT_EQ(found[0].take, 1);
    EXPECT_LT(found[0].pooled_take, found[1].pooled_take);
    EXPECT_EQ(found[4].group, Cell("new"));
    EXPECT_EQ(found[4].take, std::nullopt);
    for (const auto& one : found) {
        EXPECT_LE(0, one.low);
        EXPECT_LT(one.low, one.pooled_take);
        EXPECT_LT(one.pooled_take, one.high);
        EXPECT_LE(one.high, 1);
        // What is known least has the widest limits.
        EXPECT_LE(one.high - one.low, found[4].high - found[4].low);
    }
    EXPECT_EQ(take::take_pool({"A", "A"}, {1., 2.}, {4., 4.}), std::nullopt);
    std::vector<double> names(1001);
    for (std::size_t at = 0; at < names.size(); ++at) names[at] = static_cast<double>(at);
    EXPECT_EQ(refused([&] {
                  take::take_pool(list(names), list(std::vector<double>(1001, 1)), list(std::vector<double>(1001, 2)));
              }),
              "groups");
}

TEST(TakePool, TakesTheLargestCounts) {
    const auto found = take::take_pool({1., 2., 3.}, {7e6, 7.001e6, 6.9985e6}, {1e7, 1e7, 1e7}).value();
    for (std::size_t group = 0; group < 3; ++group) {
        EXPECT_NEAR(found[group].pooled_take, 0.7, 1e-3);
        EXPECT_LT(found[group].high - found[group].low, 0.001);
    }
}

}  // namespace
}  // namespace slipbark::trials

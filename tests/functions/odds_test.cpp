#include "slipbark/odds.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "common.hpp"
#include "slipbark/money.hpp"
#include "statistics/latin_hypercube.hpp"
#include "statistics/quantile.hpp"

// What the functions answer is compared with values computed elsewhere in whole_calls_test.cpp (references Q and W).

namespace slipbark::odds {
namespace {

using tests::reason;
using tests::refused;

const List costs{1000., 100., 100., 100., 100.};
const List income{0., 0., 300., 600., 600.};
const Table all_spread(4, {"outlay", 0.9, 1.,       1.4, "costs", 0.8, 1.,      1.5, "income", 0.7,
                           1.,       1.2, "season", 0.,  1.,      1.3, "delay", 0.,  0.,       1.5});

TEST(PaybackOdds, AreTheSameOnEveryMachine) {
    // The program's own answer, written down once on x86-64 with GCC: it must not change with the compiler, the library
    // or the host. That it is right, the reference rows say.
    const std::array<std::array<double, 4>, 5> here{{
        {0, -1258.2962421115137, -1083.7722735116454, -970.85187894424314},
        {0, -1362.604391374543, -1187.7974613907968, -1075.2584618402261},
        {0, -1384.0854839093372, -1196.171109343429, -1023.5426040111436},
        {0, -1271.1793419581149, -1007.2236846583608, -742.84887038088232},
        {0.003, -1068.489476245149, -727.73871512827691, -410.91292832654671},
    }};
    const auto odds = payback_odds(costs, income, all_spread, 0.05, 1000);
    ASSERT_EQ(odds.size(), here.size());
    for (std::size_t year = 0; year < here.size(); ++year) {
        const YearOdds& found = odds[year];
        EXPECT_EQ(found.year, static_cast<int>(year));
        const std::array found_here{found.paid_back, found.low, found.median, found.high};
        for (std::size_t column = 0; column < 4; ++column) {
            const double value = here.at(year).at(column);
            EXPECT_NEAR(found_here.at(column), value, 1e-12 * std::abs(value)) << year << ", " << column;
        }
    }
}

TEST(PaybackOdds, DrawTheSameForOneSpreadWhateverTheOthers) {
    const auto one = payback_odds(costs, income, Table(4, {"income", 0.7, 1., 1.2}));
    const auto more = payback_odds(costs, income, Table(4, {"delay", 0., 0., 0., "income", 0.7, 1., 1.2}));
    EXPECT_EQ(one, more);
}

TEST(PaybackOdds, OfACertainPlanAreThoseOfPayback) {
    // Oracle: money::payback and money::present_value of the flows.
    auto random = tests::draws(14);
    std::uniform_int_distribution<int> amount(-5, 9);
    for (int round = 0; round < 500; ++round) {
        List paid;
        List earned;
        List flows;
        for (int year = 0; year < 8; ++year) {
            const double out = year == 0 ? 10 : std::max(0, amount(random));
            const double in = std::max(0, amount(random));
            paid.cells.emplace_back(out);
            earned.cells.emplace_back(in);
            flows.cells.emplace_back(in - out);
        }
        paid.length = earned.length = flows.length = 8;
        const auto odds = payback_odds(paid, earned, Table(4, {"income", 1., 1., 1.}), 0.04, 100);
        const auto back = money::payback(flows, 0.04);
        for (std::size_t year = 0; year < 8; ++year) {
            ASSERT_EQ(odds[year].paid_back, back && *back <= static_cast<double>(year) ? 1 : 0) << round;
            List until(
                std::vector<Cell>(flows.cells.begin(), flows.cells.begin() + static_cast<std::ptrdiff_t>(year) + 1));
            ASSERT_NEAR(odds[year].median, money::present_value(until, 0.04), 1e-9);
        }
    }
}

TEST(PaybackOdds, DoNotCountTheYearsBeforeTheFirstCost) {
    const auto late = payback_odds({0., 100., 0.}, {20., 0., 90.}, Table(4, {"income", 1., 1., 1.}));
    EXPECT_EQ(late[0].paid_back, 0);
    EXPECT_EQ(late[1].paid_back, 0);
    EXPECT_EQ(late[2].paid_back, 1);
    // Never below 0: nothing is owed once the cost is there.
    const auto rich = payback_odds({0., 100.}, {150., 0.}, Table(4, {"income", 1., 1., 1.}));
    EXPECT_EQ(rich[0].paid_back, 0);
    EXPECT_EQ(rich[1].paid_back, 1);
}

TEST(PaybackOdds, RefuseWhatCannotBe) {
    const Table spread(4, {"income", 0.8, 1., 1.2});
    const auto refusal_of = [](const Table& spreads) {
        return reason(payback_odds, costs, income, spreads, 0.0, 100.0);
    };
    EXPECT_EQ(refused(payback_odds, List{}, List{}, spread, 0.0, 100.0), "costs");
    EXPECT_EQ(refused(payback_odds, costs, List{1., 2.}, spread, 0.0, 100.0), "income");
    EXPECT_EQ(refused(payback_odds, List{0., 0.}, List{1., 2.}, spread, 0.0, 100.0), "costs");
    EXPECT_EQ(refused(payback_odds, costs, income, spread, 5.0, 100.0), "rate");
    EXPECT_EQ(refused(payback_odds, costs, income, spread, 0.0, 100'001.0), "runs");
    EXPECT_EQ(
        refused(payback_odds, List(std::vector<Cell>(201, 1.)), List(std::vector<Cell>(201, 1.)), spread, 0.0, 100.0),
        "costs");
    EXPECT_EQ(refusal_of(Table(4, {"income", 0.8, 1., 120.})),
              "spreads was 120 in row 1: give a factor from 0 to 10; 1 is as planned.");
    EXPECT_EQ(refusal_of(Table(4, {"What", "low", "likely", "high"})),
              "spreads has \"What\" in row 1, column 1: give one of \"outlay\", \"costs\", \"income\", \"season\", "
              "\"delay\", and leave a heading row out.");
    EXPECT_EQ(refusal_of(Table(4, {"income", 0.8, Cell(), 1.2})),
              "spreads is blank in row 1, column 3: give a number there.");
    EXPECT_EQ(refusal_of(Table(4, {Cell(), Cell(), Cell(), Cell()})),
              "spreads has no rows: give at least one, what, low, likely and high.");
    EXPECT_EQ(refusal_of(Table(4, {"delay", 0., 1., 30.})),
              "spreads was 30 in row 1: give a delay from 0 to 20 years.");
    const List long_costs(std::vector<Cell>(200, 1e12));
    EXPECT_EQ(refused(payback_odds, long_costs, long_costs, spread, -0.99, 100.0), "rate");
}

// A block of six years: costs, new crop, picking, old crop, picking saved.
const Table block(5, {1000., 0.,   0.,   0.,   0.,   50., 0.,    0.,   300., 100., 50., 200.,  60.,  300., 100.,
                      50.,   700., 200., 300., 100., 50., 1100., 300., 300., 100., 50., 1300., 350., 300., 100.});

TEST(FlowOdds, OfAPriceAloneAreThoseOfPaybackOdds) {
    // The contract: the same column of the hypercube, so the same answer to rounding.
    const Table years(5, {1000., 0., 0., 0., 0., 50., 400., 0., 0., 0., 50., 500., 0., 0., 0., 50., 600., 0., 0., 0.});
    const auto flows = flow_odds(years, Table(4, {"price", 0.5, 1., 1.4}), 0.04, 1000);
    const auto plan =
        payback_odds({1000., 50., 50., 50.}, {0., 400., 500., 600.}, Table(4, {"income", 0.5, 1., 1.4}), 0.04, 1000);
    ASSERT_EQ(flows.size(), plan.size());
    for (std::size_t year = 0; year < flows.size(); ++year) {
        EXPECT_EQ(flows[year].paid_back, plan[year].paid_back);
        EXPECT_NEAR(flows[year].low, plan[year].low, 1e-9);
        EXPECT_NEAR(flows[year].median, plan[year].median, 1e-9);
        EXPECT_NEAR(flows[year].high, plan[year].high, 1e-9);
    }
}

TEST(FlowOdds, OfACertainBlockAreThoseOfPayback) {
    // Oracle: money::payback and money::low_point of the flows.
    auto random = tests::draws(15);
    std::uniform_int_distribution<int> amount(0, 9);
    for (int round = 0; round < 300; ++round) {
        Table years(5, {});
        List flows;
        for (int year = 0; year < 8; ++year) {
            const double paid = year == 0 ? 20 : amount(random);
            const double crop = 2 * amount(random);
            const double picking = amount(random);
            const double old_crop = amount(random);
            const double saved = amount(random);
            years.cells.insert(years.cells.end(), {paid, crop, picking, old_crop, saved});
            flows.cells.emplace_back(crop - picking - old_crop + saved - paid);
        }
        flows.length = 8;
        const auto odds = flow_odds(years, Table(4, {"price", 1., 1., 1.}), 0.03, 100, 25);
        const auto back = money::payback(flows, 0.03);
        for (std::size_t year = 0; year < 8; ++year) {
            ASSERT_EQ(odds[year].paid_back, back && *back <= static_cast<double>(year) ? 1 : 0) << round;
            const List until(
                std::vector<Cell>(flows.cells.begin(), flows.cells.begin() + static_cast<std::ptrdiff_t>(year) + 1));
            ASSERT_EQ(odds[year].beyond_limit, money::low_point(until, 0.03).amount < -25 ? 1 : 0) << round;
        }
    }
}

TEST(FlowOdds, FeelNothingOfATakeThatIsMadeGood) {
    const auto with = [](double made_good) {
        return flow_odds(block, Table(6, {"take", 0.3, 1., 1.1, made_good, 0.8}), 0.05, 100);
    };
    const auto certain = flow_odds(block, Table(4, {"price", 1., 1., 1.}), 0.05, 100);
    EXPECT_EQ(with(1), certain);
    EXPECT_LT(with(0).back().low, with(0.5).back().low);
    EXPECT_LT(with(0.5).back().low, certain.back().low - 1);
}

TEST(FlowOdds, RefuseWhatCannotBe) {
    const Table price(4, {"price", 0.8, 1., 1.2});
    const auto refusal_of = [](const Table& spreads) { return reason(flow_odds, block, spreads, 0.0, 100.0, 0.0); };
    const auto refused_for = [&](const Table& years) { return reason(flow_odds, years, price, 0.0, 100.0, 0.0); };
    EXPECT_EQ(
        refusal_of(Table(4, {"frost", 1., 1., 1.})),
        "spreads has no probability of a frost year in row 1: give it in column 5, from 0 to 1; 0.1 is one year in "
        "ten.");
    EXPECT_EQ(refusal_of(Table(5, {"frost", 0.5, 1., 1.2, 0.1})),
              "spreads was 1.2 in row 1: give a share from 0 to 1.");
    EXPECT_EQ(refusal_of(Table(6, {"take", 0.5, 1., 1.2, 0.5, 0.})),
              "spreads was 0 in row 1, column 6 (live share planned): give a share above 0, at most 1.");
    EXPECT_EQ(refusal_of(Table(4, {"income", 0.8, 1., 1.2})),
              "spreads has \"income\" in row 1, column 1: give one of \"outlay\", \"costs\", \"price\", "
              "\"old price\", \"yield\", \"take\", \"season\", \"frost\", \"delay\", and leave a heading row out.");
    EXPECT_EQ(refused_for(Table(4, {1., 2., 3., 4.})),
              "years has 4 columns: give five, costs, new crop, its picking, old crop forgone and its picking saved.");
    EXPECT_EQ(
        refused_for(Table(5, {0., 90., 10., 30., 30.})),
        "years has no year in which anything is paid (column 1 above 0) or forgone (column 4 above column 5): give "
        "what the rework costs as positive numbers.");
    EXPECT_EQ(refused_for(Table(5, {10., 90., Cell(), 30., 30.})),
              "years is blank in row 1, column 3 (picking): give a number from 0 to 1000000000000 there.");
    EXPECT_EQ(refused_for(Table(5, std::vector<Cell>(1005, 1.))), "years has 201 years: give at most 200.");
    EXPECT_EQ(refused(flow_odds, block, price, 0.0, 100.0, -5.0), "limit");
    EXPECT_EQ(refused(flow_odds, block, price, 0.0, 99.0, 0.0), "runs");
    const Table many(5, std::vector<Cell>(1000, 1e12));
    EXPECT_EQ(refused(flow_odds, many, price, -0.99, 100.0, 0.0), "rate");
    EXPECT_EQ(refused(flow_swings, block, Table(4, {}), 0.0), "spreads");
}

TEST(OddsYear, IsTheFirstOfEnoughDraws) {
    const Table odds(2, {0., 0., 1., 0.2, 2., 0.7, 3., 0.7, 4., 0.95});
    EXPECT_EQ(odds_year(odds), 2);
    EXPECT_EQ(odds_year(odds, 0.9), 4);
    EXPECT_EQ(odds_year(odds, 0.95 + 1e-10), 4);
    EXPECT_EQ(odds_year(odds, 0.96), std::nullopt);
    EXPECT_EQ(refused(odds_year, odds, 0.0), "share");
    EXPECT_EQ(refused(odds_year, Table(1, {1.}), 0.5), "odds");
    EXPECT_EQ(refused(odds_year, Table(2, {1., 1.5}), 0.5), "odds");
    EXPECT_EQ(refused(odds_year, Table(2, {Cell(), Cell()}), 0.5), "odds");
}

TEST(LatinHypercube, HasEachPartOnceInRandomOrder) {
    std::vector<double> first(1000);
    std::vector<double> second(1000);
    statistics::latin_hypercube_column(1, first);
    statistics::latin_hypercube_column(2, second);
    std::vector<double> sorted = first;
    std::sort(sorted.begin(), sorted.end());
    for (std::size_t part = 0; part < sorted.size(); ++part) {
        EXPECT_DOUBLE_EQ(sorted[part], (static_cast<double>(part) + 0.5) / 1000);
    }
    // Two columns are not correlated: the standard deviation of the correlation of 1000 pairs is 0.032.
    double product = 0;
    for (std::size_t one = 0; one < first.size(); ++one) product += (first[one] - 0.5) * (second[one] - 0.5);
    EXPECT_LT(std::abs(product / 1000 * 12), 0.1);
}

TEST(Quantile, IsThatOfHyndmanAndFanType7) {
    // R: quantile(c(3, 1, 4, 1, 5, 9, 2, 6), c(0, 0.1, 0.25, 0.5, 0.9, 1)) gives 1, 1, 1.75, 3.5, 6.9, 9.
    std::vector<double> values{3, 1, 4, 1, 5, 9, 2, 6};
    const auto at = [&](double part) { return statistics::quantile(values, part); };
    EXPECT_DOUBLE_EQ(at(0), 1);
    EXPECT_DOUBLE_EQ(at(0.1), 1);
    EXPECT_DOUBLE_EQ(at(0.25), 1.75);
    EXPECT_DOUBLE_EQ(at(0.5), 3.5);
    EXPECT_DOUBLE_EQ(at(0.9), 6.9);
    EXPECT_DOUBLE_EQ(at(1), 9);
}

}  // namespace
}  // namespace slipbark::odds

#include "slipbark/budwood.hpp"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sf_gamma.h>
#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <random>
#include <string>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/defaults.hpp"
#include "slipbark/outcome.hpp"
#include "support/checks.hpp"

namespace slipbark::budwood {
namespace {

using tests::agrees;
using tests::reason;
using tests::refused;
using tests::Row;

struct SticksCase {
    const char* name;
    double grafts, buds_per_scion, buds_per_stick, spare;
    double expected;
    const char* source;
};

class Sticks : public testing::TestWithParam<SticksCase> {};

TEST_P(Sticks, AreWholeScionsRoundedUp) {
    const auto& row = GetParam();
    EXPECT_EQ(sticks(row.grafts, row.buds_per_scion, row.buds_per_stick, row.spare), row.expected) << row.source;
}

INSTANTIATE_TEST_SUITE_P(Table, Sticks,
                         testing::Values(SticksCase{"a_block_of_400", 3200, 2, 9, 0.15, 920,
                                                    "arithmetic of whole scions: 3200 / 4 * 1.15"},
                                         SticksCase{"no_spare", 3200, 2, 9, 0, 800, "arithmetic: 3200 / 4"},
                                         SticksCase{"single_buds_lose_none", 900, 1, 9, 0, 100, "arithmetic: 900 / 9"},
                                         SticksCase{"nothing_to_graft", 0, 2, 9, 0.15, 0, "arithmetic"}),
                         [](const auto& row) { return row.param.name; });

TEST(SticksRefuses, WhatCannotBe) {
    EXPECT_EQ(refused([] { sticks(2.5, 2, 9); }), "grafts");
    EXPECT_EQ(refused([] { sticks(10, 3, 2); }), "buds_per_stick");
    EXPECT_EQ(refused([] { sticks(10, 0, 2); }), "buds_per_scion");
    EXPECT_EQ(refused([] { sticks(10, 2, 9, 15); }), "spare");
}

TEST(SticksProperty, NeverGiveFewerScionsThanGrafts) {
    std::mt19937 random(1);
    for (int round = 0; round < 20'000; ++round) {
        const double grafts = std::uniform_int_distribution<int>(0, 10'000'000)(random);
        const int per_graft = std::uniform_int_distribution<int>(1, 20)(random);
        const int per_stick = std::uniform_int_distribution<int>(per_graft, 40)(random);
        const double spare = std::uniform_int_distribution<int>(0, 200)(random) / 100.0;
        const int scions = per_stick / per_graft;  // whole ones of a stick
        const double ordered = sticks(grafts, per_graft, per_stick, spare);
        ASSERT_GE(ordered * scions, grafts) << per_graft << " " << per_stick << " " << spare;
        // One stick fewer would be short, beyond the slack for binary fractions.
        ASSERT_LT((ordered - 1) * scions, grafts * (1 + spare) + 1e-6) << per_graft << " " << per_stick;
    }
}

class Grafts : public testing::TestWithParam<Row> {};

TEST_P(Grafts, AreTheFewestThatAreSureEnough) {
    const Row& row = GetParam();
    if (row["function"] == "min_trials") {
        EXPECT_TRUE(agrees(row, grafts(row.number("k"), row.number("p"), row.number("conf"))));
    } else {
        EXPECT_TRUE(agrees(row, tree_chance(row.number("n"), row.number("p"), row.number("k"))));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, Grafts, testing::ValuesIn(tests::rows("B_trials_for_k_successes.csv")),
                         tests::row_id);

TEST(GraftsTies, CountThoughDecimalsAreNotExactInBinary) {
    // Arithmetic: 1 - 0.2^3 = 0.992, 1 - 0.3^2 = 0.91, 0.9^2 = 0.81, 1 - 0.7^3 = 0.657, 0.1^3 = 0.001; none of these
    // decimals is a binary fraction.
    EXPECT_EQ(grafts(1, 0.8, 0.992), 3);
    EXPECT_EQ(grafts(1, 0.7, 0.91), 2);
    EXPECT_EQ(grafts(2, 0.9, 0.81), 2);
    EXPECT_EQ(grafts(1, 0.3, 0.657), 3);
    EXPECT_EQ(grafts(3, 0.1, 0.001), 3);
    EXPECT_EQ(tree_grafts(0.8, 0.992), 3);
    EXPECT_EQ(tree_grafts(0.9, 0.81, 2), 2);
}

TEST(GraftsProperty, OneFewerMissesTheConfidence) {
    // Oracle: the binomial tails of the GNU Scientific Library.
    std::mt19937 random(2);
    for (int round = 0; round < 20'000; ++round) {
        const int wanted = std::uniform_int_distribution<int>(1, round % 2 == 0 ? 10 : 2000)(random);
        const double take = std::uniform_real_distribution<>(0.01, 0.999)(random);
        const double confidence = std::uniform_real_distribution<>(0.001, 0.9999)(random);
        const auto n = static_cast<unsigned>(grafts(wanted, take, confidence));
        const auto chance = [&](unsigned placed) {
            return gsl_cdf_binomial_Q(static_cast<unsigned>(wanted) - 1, take, placed);
        };
        ASSERT_GE(n, static_cast<unsigned>(wanted));
        ASSERT_GE(chance(n), confidence - 1e-9) << wanted << " " << take << " " << confidence;
        ASSERT_TRUE(n == static_cast<unsigned>(wanted) || chance(n - 1) < confidence + 1e-9)
            << wanted << " " << take << " " << confidence;
    }
}

TEST(GraftsExtremes, AreLeast) {
    struct Extreme {
        double wanted, take, confidence;
    };
    for (const auto& [wanted, take, confidence] :
         {Extreme{1e6, 0.1006, 0.999999}, Extreme{1e6, 0.5, 0.999999}, Extreme{1e6, 0.999999, 0.999999},
          Extreme{1e6, 0.11, 1e-9}, Extreme{1, 3e-7, 0.95}, Extreme{1e6, 0.101, 0.5}, Extreme{1, 1e-6, 0.999},
          Extreme{1, 1 - 1e-16, 1 - 1e-16}, Extreme{1000, 0.9, 1e-300}}) {
        // A scan would take seconds for each.
        const double placed = grafts(wanted, take, confidence);
        EXPECT_GE(tree_chance(placed, take, wanted), confidence * (1 - 1e-9));
        if (placed > wanted) {
            EXPECT_LT(tree_chance(placed - 1, take, wanted), confidence * (1 + 1e-9));
        }
    }
}

TEST(Grafts, NoneForNone) {
    EXPECT_EQ(grafts(0, 0.5), 0);
    EXPECT_EQ(grafts(0, 0), 0);
    EXPECT_EQ(grafts(1'000'000, 1, 0.999999), 1'000'000);
}

TEST(GraftsRefuses, WhatCannotBe) {
    EXPECT_EQ(refused([] { grafts(1.5, 0.5); }), "live_wanted");
    EXPECT_EQ(refused([] { grafts(1'000'001, 0.5); }), "live_wanted");
    EXPECT_EQ(refused([] { grafts(-1, 0.5); }), "live_wanted");
    EXPECT_EQ(refused([] { grafts(1, 85); }), "take");
    EXPECT_EQ(refused([] { grafts(1, NAN); }), "take");
    EXPECT_EQ(refused([] { grafts(1, 0); }), "take");
    EXPECT_EQ(refused([] { grafts(1, 0.5, 1); }), "confidence");
    EXPECT_EQ(refused([] { grafts(1, 0.5, 0); }), "confidence");
    for (const double take : {1e-7, 1e-9, 1e-100, 5e-324}) EXPECT_EQ(refused([&] { grafts(1, take); }), "take");
    EXPECT_NE(reason([] { grafts(1, 1e-9); }).find("more than 10000000 grafts"), std::string::npos);
}

class TreeChance : public testing::TestWithParam<Row> {};

TEST_P(TreeChance, IsTheBinomialOrBetaBinomialTail) {
    const Row& row = GetParam();
    const auto clustering = row.has("rho") ? std::optional(row.number("rho")) : std::nullopt;
    EXPECT_TRUE(agrees(row, tree_chance(row.number("g"), row.number("p"), row.number("m"), clustering)));
}

INSTANTIATE_TEST_SUITE_P(Reference, TreeChance, testing::ValuesIn(tests::rows("C_at_least_m_of_g.csv")), tests::row_id);

TEST(TreeChanceOracle, BinomialTails) {
    std::mt19937 random(3);
    for (int round = 0; round < 20'000; ++round) {
        const auto placed = std::uniform_int_distribution<unsigned>(1, round % 2 == 0 ? 20 : 5000)(random);
        const auto wanted = std::uniform_int_distribution<unsigned>(1, placed)(random);
        const double take = std::uniform_real_distribution<>(0, 1)(random);
        const double expected = gsl_cdf_binomial_Q(wanted - 1, take, placed);
        ASSERT_NEAR(tree_chance(placed, take, wanted), expected, 1e-9 * expected + 1e-300)
            << placed << " " << take << " " << wanted;
    }
}

TEST(TreeChanceOracle, BetaBinomialSums) {
    // Oracle: the textbook form, C(n, j) B(j + alpha, n - j + beta) / B(alpha, beta), by the GNU Scientific Library.
    std::mt19937 random(4);
    for (int round = 0; round < 4'000; ++round) {
        const auto placed = std::uniform_int_distribution<unsigned>(1, 60)(random);
        const auto wanted = std::uniform_int_distribution<unsigned>(1, placed)(random);
        const double take = std::uniform_real_distribution<>(0.02, 0.98)(random);
        const double rho = std::uniform_real_distribution<>(0.005, 0.98)(random);
        const double alpha = take * (1 - rho) / rho;
        const double beta = (1 - take) * (1 - rho) / rho;
        double expected = 0;
        for (unsigned live = wanted; live <= placed; ++live) {
            expected += std::exp(gsl_sf_lnchoose(placed, live) + gsl_sf_lnbeta(live + alpha, placed - live + beta) -
                                 gsl_sf_lnbeta(alpha, beta));
        }
        ASSERT_NEAR(tree_chance(placed, take, wanted, rho), expected, 1e-9 * expected + 1e-15)
            << placed << " " << take << " " << wanted << " " << rho;
    }
}

TEST(TreeChanceLimits, OfClustering) {
    // Towards 0 the binomial; towards 1 a tree takes as one graft does.
    for (const double rho : {1e-16, 1e-12, 1e-300}) {
        EXPECT_NEAR(tree_chance(8, 0.7, 5, rho), tree_chance(8, 0.7, 5), 1e-10);
    }
    for (const double wanted : {1., 4., 8.}) EXPECT_NEAR(tree_chance(8, 0.7, wanted, 1 - 1e-14), 0.7, 1e-12);
    EXPECT_NEAR(tree_chance(8, 0.7, 5, std::nextafter(1, 0)), 0.7, 1e-12);
    // Certain death and certain life stay certain.
    for (const double rho : {1e-9, 0.3, 0.999}) {
        EXPECT_EQ(tree_chance(8, 0, 1, rho), 0);
        EXPECT_EQ(tree_chance(8, 1, 8, rho), 1);
        EXPECT_EQ(tree_chance(0, 0.5, 1, rho), 0);
        EXPECT_EQ(tree_chance(8, 0.5, 0, rho), 1);
        EXPECT_EQ(tree_chance(8, 0.5, 9, rho), 0);
        // A single graft knows no tree.
        EXPECT_NEAR(tree_chance(1, 0.37, 1, rho), 0.37, 1e-15);
        EXPECT_NEAR(tree_chance(8, 1e-300, 1, rho), 0, 1e-298);
    }
    // Half of a symmetric distribution over an odd number.
    EXPECT_NEAR(tree_chance(9'999, 0.5, 5'000, 0.2), 0.5, 1e-11);
}

TEST(TreeChanceExtremes, AreProbabilities) {
    // From memory: half of the even binomial distribution, and half of its middle term, 1 / sqrt(pi 1e7 / 2).
    EXPECT_NEAR(tree_chance(1e7, 0.5, 5e6), 0.5 + 0.5 / std::sqrt(std::acos(-1.) * 5e6), 1e-9);
    EXPECT_EQ(tree_chance(1e7, 1e-300, 1e7), 0) << "1e-300 to the power of 1e7";
    EXPECT_NEAR(tree_chance(1e7, 1 - 1e-16, 1e7), std::exp(1e7 * std::log(1 - 1e-16)), 1e-12);
    // Half and half of the middle term again, by symmetry.
    const double at_least = tree_chance(1e4, 0.5, 5e3, 0.1);
    const double more = tree_chance(1e4, 0.5, 5'001, 0.1);
    EXPECT_NEAR(at_least + more, 1, 1e-9);
}

TEST(TreeChanceRefuses, WhatCannotBe) {
    EXPECT_EQ(refused([] { tree_chance(-1, 0.5); }), "grafts");
    EXPECT_EQ(refused([] { tree_chance(10'001, 0.5, 1, 0.1); }), "grafts");
    EXPECT_EQ(refused([] { tree_chance(8, 1.1); }), "take");
    EXPECT_EQ(refused([] { tree_chance(8, 0.5, 0.5); }), "live_wanted");
    EXPECT_EQ(refused([] { tree_chance(8, 0.5, 1, 1); }), "clustering");
    EXPECT_EQ(refused([] { tree_chance(8, 0.5, 1, -0.1); }), "clustering");
}

TEST(TreeGrafts, AreTheFewest) {
    std::mt19937 random(5);
    for (int round = 0; round < 2'000; ++round) {
        const double take = std::uniform_real_distribution<>(0.05, 1)(random);
        const double confidence = std::uniform_real_distribution<>(0.01, 0.999)(random);
        const double wanted = std::uniform_int_distribution<int>(1, 12)(random);
        const double rho = round % 2 == 0 ? 0 : std::uniform_real_distribution<>(0, 0.5)(random);
        const auto found = tree_grafts(take, confidence, wanted, rho);
        if (!found) {
            ASSERT_LT(tree_chance(1000, take, wanted, rho), confidence);
            continue;
        }
        ASSERT_GE(tree_chance(*found, take, wanted, rho), confidence - 1e-12);
        ASSERT_LT(tree_chance(*found - 1, take, wanted, rho), confidence + 1e-12);
        if (rho == 0) {
            ASSERT_EQ(*found, grafts(wanted, take, confidence));
        }
    }
    EXPECT_EQ(tree_grafts(0.5, 0.9, 0), 0);
    EXPECT_EQ(tree_grafts(0), std::nullopt);
    EXPECT_EQ(tree_grafts(0.9, 0.95, 1001), std::nullopt);
    EXPECT_EQ(tree_grafts(1, 0.95, 1000), 1000);
}

TEST(TreeGraftsRefuses, WhatCannotBe) {
    EXPECT_EQ(refused([] { tree_grafts(60); }), "take");
    EXPECT_EQ(refused([] { tree_grafts(0.6, 95); }), "confidence");
    EXPECT_EQ(refused([] { tree_grafts(0.6, 0.95, -1); }), "live_wanted");
    EXPECT_EQ(refused([] { tree_grafts(0.6, 0.95, 1, 1); }), "clustering");
}

class WorkedBudwood : public testing::TestWithParam<Row> {};

TEST_P(WorkedBudwood, ComesOutAsPublished) {
    const Row& row = GetParam();
    if (row["function"] == "tree_chance") {
        EXPECT_TRUE(agrees(row, tree_chance(row.number("grafted"), row.number("take"))));
    } else if (row["function"] == "tree_grafts") {
        EXPECT_TRUE(agrees(row, tree_grafts(row.number("take"), row.number("confidence")).value()));
    } else {
        const double alive = buds_alive(row.number("days"), Table{1, {row["storage"]}}).value();
        const bool order = row["function"] == "buds_to_order";
        EXPECT_TRUE(agrees(row, order ? check::rounded_up(row.number("live_wanted") / alive) : alive));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, WorkedBudwood,
                         testing::ValuesIn(tests::rows("worked_examples_take.csv",
                                                       {"buds_alive", "buds_to_order", "tree_chance", "tree_grafts"})),
                         tests::row_id);

TEST(BudsAlive, FollowsTheStorage) {
    EXPECT_EQ(buds_alive(5), 0.7);
    EXPECT_EQ(buds_alive(5, Table{1, {" Room "}}), 0.7);
    // The cool table ends on day 74 at 0.95: beyond it nothing is known.
    EXPECT_EQ(buds_alive(74, Table{1, {"cool"}}), 0.95);
    EXPECT_EQ(buds_alive(37, Table{1, {"COOL"}}), 0.975);
    EXPECT_EQ(buds_alive(74.001, Table{1, {"cool"}}), std::nullopt);
    EXPECT_EQ(buds_alive(10'000), 0);
    // Unused rows at the end of a form are skipped.
    EXPECT_EQ(buds_alive(5, Table{2, {0., 1., 10., 0.5, {}, {}, {}, {}}}), 0.75);
    EXPECT_EQ(buds_alive(0, Table{2, {0., 0.9}}), 0.9);
}

TEST(BudsAlive, TakesTheDefaultsBackAsARange) {
    for (int quarter = 0; quarter <= 400; ++quarter) {
        const double days = quarter / 4.0;
        EXPECT_EQ(buds_alive(days, defaults::table("storage")), buds_alive(days));
        EXPECT_EQ(buds_alive(days, defaults::table("cool storage")), buds_alive(days, Table{1, {"cool"}}));
    }
}

TEST(BudsAliveRefuses, WhatCannotBe) {
    EXPECT_EQ(refused([] { buds_alive(-1); }), "days");
    EXPECT_EQ(refused([] { buds_alive(INFINITY); }), "days");
    const auto with = [](Table table) { return reason([&] { buds_alive(1, table); }); };
    EXPECT_NE(with({1, {"freezer"}}).find("storage was the text \"freezer\""), std::string::npos);
    EXPECT_NE(with({1, {5.}}).find("storage was 5"), std::string::npos);
    EXPECT_NE(with({1, {0., 5.}}).find("1 columns"), std::string::npos);
    EXPECT_NE(with({2, {{}, {}, {}, {}}}).find("0 rows"), std::string::npos);
    EXPECT_NE(with({2, {0., 1., 5., 0.5, 5., 0.4}}).find("row 3"), std::string::npos);
    EXPECT_NE(with({2, {0., 1., 5., 0.5, 4., 0.4}}).find("row 3"), std::string::npos);
    // Found by fuzzing: every refusal goes on with what to give.
    EXPECT_NE(with({2, {0., 1., 5., 0.5, 4., 0.4}}).find(": give numbers that rise"), std::string::npos);
    EXPECT_NE(with({2, {1., 1., 5., 0.5}}).find("row 1"), std::string::npos);
    EXPECT_NE(with({2, {0., 1., 5., 50.}}).find("row 2"), std::string::npos);
    EXPECT_NE(with({2, {0., 1., {}, {}, 9., 0.5}}).find("row 2"), std::string::npos);
    EXPECT_NE(with({2, {0., 1., 5., {}}}).find("row 2"), std::string::npos);
    EXPECT_NE(with({2, {"days", "share", 0., 1.}}).find("row 1"), std::string::npos);
    EXPECT_NE(with({2, {0., NAN}}).find("row 1"), std::string::npos);
}

}  // namespace
}  // namespace slipbark::budwood

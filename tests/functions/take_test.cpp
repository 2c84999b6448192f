#include "slipbark/take.hpp"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_sf_gamma.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/outcome.hpp"
#include "statistics/beta_binomial.hpp"

namespace slipbark::take {
namespace {

using statistics::beta_binomial_fit;
using statistics::BetaBinomial;
using statistics::Count;

using tests::agrees;
using tests::reason;
using tests::refused;
using tests::Row;

List list(const std::vector<double>& values) { return {std::vector<Cell>(values.begin(), values.end())}; }

/// Random tallies as two columns.
struct Tally {
    std::vector<double> live;
    std::vector<double> grafted;
};

Tally random_tally(std::mt19937& random, std::size_t rows, int most) {
    Tally tally;
    for (std::size_t row = 0; row < rows; ++row) {
        const int grafted = std::uniform_int_distribution<int>(1, most)(random);
        const double share = std::uniform_real_distribution<>(0.2, 1)(random);
        tally.grafted.push_back(grafted);
        tally.live.push_back(std::binomial_distribution<int>(grafted, share)(random));
    }
    return tally;
}

// --- TAKE, TAKELOW, TAKEHIGH

struct Kind {
    std::string name;
    Interval method;
};
const std::vector<Kind> kinds{{"wilson", Interval::wilson},
                              {"clopper_pearson", Interval::exact},
                              {"jeffreys", Interval::jeffreys},
                              {"agresti_coull", Interval::agresti}};

/// The limit that a row of the tables is about, "wilson_lower" and the like.
double limit(const std::string& function, double live, double grafted, double confidence) {
    for (const auto& [name, method] : kinds) {
        if (function == name + "_lower") return take_low(live, grafted, confidence, method).value();
        if (function == name + "_upper") return take_high(live, grafted, confidence, method).value();
    }
    throw std::runtime_error("no such limit: " + function);
}

class Limits : public testing::TestWithParam<Row> {};

TEST_P(Limits, AreThoseOfTheLiterature) {
    const Row& row = GetParam();
    EXPECT_TRUE(agrees(row, limit(row["function"], row.number("x"), row.number("n"), row.number("conf"))));
}

INSTANTIATE_TEST_SUITE_P(Reference, Limits, testing::ValuesIn(tests::rows("A_binomial_ci.csv")), tests::row_id);

class WorkedTake : public testing::TestWithParam<Row> {};

TEST_P(WorkedTake, ComesOutAsPublished) {
    const Row& row = GetParam();
    const double live = row.number("live");
    const double grafted = row.number("grafted");
    const double found =
        row["function"] == "take" ? take(live, grafted).value() : limit(row["function"], live, grafted, 0.95);
    EXPECT_TRUE(agrees(row, found));
}

INSTANTIATE_TEST_SUITE_P(Reference, WorkedTake,
                         testing::ValuesIn(tests::rows("worked_examples_take.csv",
                                                       {"take", "wilson_lower", "wilson_upper", "clopper_pearson_lower",
                                                        "clopper_pearson_upper"})),
                         tests::row_id);

TEST(LimitsOracle, QuantilesOfTheBetaAndNormal) {
    // Oracle: the GNU Scientific Library. A limit is checked by what defines it, the tail left beyond it.
    std::mt19937 random(1);
    for (int round = 0; round < 5'000; ++round) {
        const double n = std::uniform_int_distribution<int>(1, round % 2 == 0 ? 30 : 3000)(random);
        const double x = std::uniform_int_distribution<int>(0, static_cast<int>(n))(random);
        const double confidence = std::uniform_real_distribution<>(0.5, 0.9999)(random);
        const double tail = (1 - confidence) / 2;
        const double z = gsl_cdf_ugaussian_Qinv(tail);
        const auto low = [&](Interval kind) { return take_low(x, n, confidence, kind).value(); };
        const auto high = [&](Interval kind) { return take_high(x, n, confidence, kind).value(); };
        const std::string at = to_text(x) + " of " + to_text(n) + " at " + to_text(confidence);
        if (x > 0) {
            ASSERT_NEAR(gsl_cdf_beta_P(low(Interval::exact), x, n - x + 1), tail, 1e-8 * tail) << at;
            ASSERT_NEAR(gsl_cdf_beta_P(low(Interval::jeffreys), x + 0.5, n - x + 0.5), tail, 1e-8 * tail) << at;
        }
        if (x < n) {
            ASSERT_NEAR(gsl_cdf_beta_Q(high(Interval::exact), x + 1, n - x), tail, 1e-8 * tail) << at;
            ASSERT_NEAR(gsl_cdf_beta_Q(high(Interval::jeffreys), x + 0.5, n - x + 0.5), tail, 1e-8 * tail) << at;
        }
        for (const double w : {low(Interval::wilson), high(Interval::wilson)}) {
            // Wilson's limits are where the score test just fails to reject.
            ASSERT_NEAR(n * (x / n - w) * (x / n - w), z * z * w * (1 - w), 1e-9 * z * z) << at;
        }
        const double centre = (x + z * z / 2) / (n + z * z);
        const double half = z * std::sqrt(centre * (1 - centre) / (n + z * z));
        ASSERT_NEAR(low(Interval::agresti), std::max(0.0, centre - half), 1e-12) << at;
        ASSERT_NEAR(high(Interval::agresti), std::min(1.0, centre + half), 1e-12) << at;
    }
}

TEST(LimitsProperty, HoldTheTakeBetweenThemAndNarrowWithCounts) {
    std::mt19937 random(2);
    for (int round = 0; round < 5'000; ++round) {
        const double n = std::uniform_int_distribution<int>(1, 5000)(random);
        const double x = std::uniform_int_distribution<int>(0, static_cast<int>(n))(random);
        const double confidence = std::uniform_real_distribution<>(0.5, 0.999999)(random);
        for (const auto& [name, kind] : kinds) {
            const double low = take_low(x, n, confidence, kind).value();
            const double high = take_high(x, n, confidence, kind).value();
            const double share = take(x, n).value();
            ASSERT_LE(0, low);
            ASSERT_LE(low, share) << name << " " << x << " " << n << " " << confidence;
            ASSERT_LE(share, high) << name << " " << x << " " << n << " " << confidence;
            ASSERT_LE(high, 1);
            // Twice the same tally is better known.
            ASSERT_LT(
                take_high(2 * x, 2 * n, confidence, kind).value() - take_low(2 * x, 2 * n, confidence, kind).value(),
                high - low)
                << name << " " << x << " " << n << " " << confidence;
        }
    }
}

TEST(LimitsExtremes, AreFiniteAndInOrder) {
    for (const auto& [name, kind] : kinds) {
        for (const double n : {1., 2., 1e7}) {
            for (const double x : {0., 1., std::floor(n / 2), n - 1, n}) {
                for (const double confidence : {1e-300, 1e-9, 0.5, 0.999999, std::nextafter(1., 0.)}) {
                    const double low = take_low(x, n, confidence, kind).value();
                    const double high = take_high(x, n, confidence, kind).value();
                    EXPECT_TRUE(0 <= low && low <= high && high <= 1)
                        << name << " " << x << " " << n << " " << confidence << " " << low << " " << high;
                }
            }
        }
    }
}

TEST(TakeRefuses, WhatCannotBe) {
    EXPECT_EQ(take(0, 0), std::nullopt);
    EXPECT_EQ(take_low(0, 0), std::nullopt);
    EXPECT_EQ(take_high(0, 0, 0.9, Interval::exact), std::nullopt);
    EXPECT_EQ(refused([] { take(9, 8); }), "live");
    EXPECT_EQ(refused([] { take(1, 0); }), "live");
    EXPECT_EQ(refused([] { take(-1, 8); }), "live");
    EXPECT_EQ(refused([] { take(1, 8.5); }), "grafted");
    EXPECT_EQ(refused([] { take(1, 1e7 + 1); }), "grafted");
    EXPECT_EQ(refused([] { take_low(1, 8, 95); }), "confidence");
    EXPECT_EQ(refused([] { take_high(1, 8, NAN); }), "confidence");
}

// --- TAKETREES

class Clusters : public testing::TestWithParam<Row> {};

TEST_P(Clusters, AreCochransRatioEstimator) {
    const Row& row = GetParam();
    const auto found = take_trees(row.list("x_list"), row.list("n_list")).value();
    const double share = found.take;
    const double effect = found.design_effect;
    if (row["function"] == "pooled_rate") {
        EXPECT_TRUE(agrees(row, share));
    } else if (row["function"] == "design_effect") {
        EXPECT_TRUE(agrees(row, effect));
    } else {
        EXPECT_TRUE(agrees(row, std::sqrt(effect * share * (1 - share) / found.grafts)));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, Clusters,
                         testing::ValuesIn(tests::rows("L_ratio_survival_shrinkage.csv",
                                                       {"pooled_rate", "design_effect", "cluster_ratio_se"})),
                         tests::row_id);

/// Wilson's limits as the textbooks write them, with Student's t in place of z (GSL).
std::pair<double, double> wilson_by_t(double share, double grafts, double degrees) {
    const double t = gsl_cdf_tdist_Qinv(0.025, degrees);
    const double spread = t * t / grafts;
    const double middle = (share + spread / 2) / (1 + spread);
    const double half = t / (1 + spread) * std::sqrt(share * (1 - share) / grafts + spread / (4 * grafts));
    return {middle - half, middle + half};
}

TEST(TakeTrees, TakesTheClusteringGivenWhereItCannotBeSeen) {
    // One tree, all alive and none alive. Without clustering the limits are those of the grafts.
    const auto check = [](const List& live, const List& grafted, double alive, double all, double clustering,
                          double effect) {
        const auto found = take_trees(live, grafted, {}, clustering).value();
        EXPECT_EQ(found.take, alive / all);
        EXPECT_DOUBLE_EQ(found.design_effect, effect);
        EXPECT_EQ(found.grafts, all);
        if (effect > 1) return;
        EXPECT_EQ(found.low, take_low(alive, all).value());
        EXPECT_EQ(found.high, take_high(alive, all).value());
    };
    check({5.}, {8.}, 5, 8, 0, 1);
    check({8., 6., 7.}, {8., 6., 7.}, 21, 21, 0, 1);
    check({0., 0.}, {8., 6.}, 0, 14, 0, 1);
    check({5.}, {8.}, 5, 8, 0.2, 2.4);
    check({0., 0.}, {8., 6.}, 0, 14, 0.5, 1 + (100. / 14 - 1) * 0.5);
    EXPECT_EQ(take_trees({5.}, {8.}), take_trees({5.}, {8.}, {}, 0.2));
    EXPECT_EQ(refused([] { take_trees({5.}, {8.}, {}, 1); }), "clustering");
    EXPECT_EQ(refused([] { take_trees({5.}, {8.}, {}, -0.1); }), "clustering");
}

TEST(TakeTrees, ShowsTreesMoreAlikeThanChanceAndGainsNothingByThem) {
    const auto found = take_trees({4., 4., 4.}, {8., 8., 8.}).value();
    EXPECT_EQ(found.design_effect, 0);
    const auto [low, high] = wilson_by_t(0.5, 24, 2);
    EXPECT_NEAR(found.low, low, 1e-12);
    EXPECT_NEAR(found.high, high, 1e-12);
}

TEST(TakeTrees, LeavesOutWhatIsNotInspected) {
    const auto all = take_trees({6., 4., 8.}, {8., 8., 8.}).value();
    const auto form = take_trees({6., {}, 4., {}, 8., 0., {}}, {8., 8., 8., {}, 8., 0., {}}).value();
    EXPECT_EQ(form, all);
    List long_live{{6., 4., 8.}, 1'000'000};
    List long_grafted{{8., 8., 8., 8.}, 1'000'000};
    EXPECT_EQ(take_trees(long_live, long_grafted).value(), all);
    EXPECT_EQ(take_trees({{}, {}}, {8., 8.}), std::nullopt);
    EXPECT_EQ(take_trees({}, {}), std::nullopt);
    EXPECT_EQ(take_trees({0.}, {0.}), std::nullopt);
}

TEST(TakeTreesRefuses, NamingTheRow) {
    EXPECT_NE(reason([] { take_trees({6., 4.}, {8., {}}); }).find("grafted is blank in row 2"), std::string::npos);
    EXPECT_NE(reason([] {
                  take_trees({6., "x"}, {8., 8.});
              }).find("live has the text \"x\" in row 2"),
              std::string::npos);
    EXPECT_NE(reason([] {
                  take_trees({6., {}}, {8., "x"});
              }).find("grafted has the text \"x\" in row 2"),
              std::string::npos);
    EXPECT_NE(reason([] { take_trees({6., 9.}, {8., 8.}); }).find("live was 9 in row 2"), std::string::npos);
    EXPECT_NE(reason([] { take_trees({6.5}, {8.}); }).find("live was 6.5 in row 1"), std::string::npos);
    EXPECT_EQ(refused([] { take_trees({6.}, {-8.}); }), "grafted");
    EXPECT_EQ(refused([] { take_trees({6.}, {8., 8.}); }), "grafted");
    EXPECT_EQ(refused([] { take_trees({6.}, {NAN}); }), "grafted");
    EXPECT_EQ(refused([] { take_trees({6.}, {8.}, 0); }), "confidence");
}

// --- TAKEDIFF

class Difference : public testing::TestWithParam<Row> {};

TEST_P(Difference, IsNewcombesWithFishersP) {
    const Row& row = GetParam();
    const auto confidence = row.has("conf") ? std::optional(row.number("conf")) : std::nullopt;
    const auto found =
        take_diff(row.number("x1"), row.number("n1"), row.number("x2"), row.number("n2"), confidence).value();
    EXPECT_TRUE(agrees(row, row["function"] == "fisher_exact_p"        ? found.p
                            : row["function"] == "newcombe_diff_lower" ? found.low
                                                                       : found.high));
}

INSTANTIATE_TEST_SUITE_P(Reference, Difference, testing::ValuesIn(tests::rows("D_two_proportions.csv")), tests::row_id);

TEST(DifferenceOracle, HypergeometricSums) {
    // Oracle: the hypergeometric terms of the GNU Scientific Library, all of them added up.
    std::mt19937 random(3);
    for (int round = 0; round < 3'000; ++round) {
        const int most = round % 2 == 0 ? 12 : 400;
        const auto grafted_a = std::uniform_int_distribution<unsigned>(1, static_cast<unsigned>(most))(random);
        const auto grafted_b = std::uniform_int_distribution<unsigned>(1, static_cast<unsigned>(most))(random);
        const auto live_a = std::uniform_int_distribution<unsigned>(0, grafted_a)(random);
        const auto live_b = std::uniform_int_distribution<unsigned>(0, grafted_b)(random);
        const unsigned live = live_a + live_b;
        const double observed = gsl_ran_hypergeometric_pdf(live_a, grafted_a, grafted_b, live);
        double expected = 0;
        for (unsigned a = 0; a <= std::min(grafted_a, live); ++a) {
            if (live - a > grafted_b) continue;
            const double term = gsl_ran_hypergeometric_pdf(a, grafted_a, grafted_b, live);
            if (term <= observed * (1 + 1e-7)) expected += term;
        }
        const double found = take_diff(live_a, grafted_a, live_b, grafted_b).value().p;
        ASSERT_NEAR(found, expected, 1e-9 * expected)
            << live_a << " of " << grafted_a << ", " << live_b << " of " << grafted_b;
    }
}

TEST(DifferenceProperty, TurnsAroundWithItsSides) {
    std::mt19937 random(4);
    for (int round = 0; round < 2'000; ++round) {
        const Tally tally = random_tally(random, 2, 500);
        const auto one = take_diff(tally.live[0], tally.grafted[0], tally.live[1], tally.grafted[1]).value();
        const auto other = take_diff(tally.live[1], tally.grafted[1], tally.live[0], tally.grafted[0]).value();
        ASSERT_NEAR(one.difference, -other.difference, 1e-15);
        ASSERT_NEAR(one.low, -other.high, 1e-12);
        ASSERT_NEAR(one.p, other.p, 1e-11);
        ASSERT_LE(one.low, one.difference);
        ASSERT_LE(one.difference, one.high);
    }
}

TEST(DifferenceExtremes, AreAsTheNormalTestHasThem) {
    // A sum over all tables would take ten million steps.
    const auto fisher = [](double live_a, double live_b) { return take_diff(live_a, 1e7, live_b, 1e7).value().p; };
    // For so large counts the normal test with the continuity correction is as good as exact.
    for (const double live_b : {5'001'000., 5'003'000., 5'010'000.}) {
        const double pooled = (5e6 + live_b) / 2e7;
        const double z = (live_b - 5e6 - 1) / 1e7 / std::sqrt(pooled * (1 - pooled) * 2 / 1e7);
        EXPECT_NEAR(fisher(5e6, live_b) / (2 * gsl_cdf_ugaussian_Q(z)), 1, 1e-4);
    }
    EXPECT_NEAR(fisher(5e6, 5e6), 1, 1e-12);
    EXPECT_EQ(fisher(0, 1e7), 0);
    EXPECT_EQ(fisher(0, 0), 1);
    EXPECT_EQ(fisher(1e7, 1e7), 1);
    EXPECT_NEAR(fisher(0, 1), 1, 1e-12);
}

TEST(TakeDiffRefuses, WhatCannotBe) {
    EXPECT_EQ(take_diff(0, 0, 1, 2), std::nullopt);
    EXPECT_EQ(take_diff(1, 2, 0, 0), std::nullopt);
    EXPECT_EQ(refused([] { take_diff(3, 2, 1, 2); }), "live_a");
    EXPECT_EQ(refused([] { take_diff(1, -2, 1, 2); }), "grafted_a");
    EXPECT_EQ(refused([] { take_diff(1, 2, 3, 2); }), "live_b");
    EXPECT_EQ(refused([] { take_diff(1, 2, 1, 2.5); }), "grafted_b");
    EXPECT_EQ(refused([] { take_diff(1, 2, 1, 2, 1.5); }), "confidence");
}

// --- TAKEBY

std::vector<Count> counts(const std::vector<double>& live, const std::vector<double>& grafted) {
    std::vector<Count> groups;
    for (std::size_t row = 0; row < live.size(); ++row) groups.push_back({live[row], grafted[row]});
    return groups;
}

class Groups : public testing::TestWithParam<Row> {};

TEST_P(Groups, AreTheBetaBinomialOfGreatestLikelihood) {
    const Row& row = GetParam();
    const auto live = row.numbers("x_list");
    const auto grafted = row.numbers("n_list");
    const BetaBinomial spread = beta_binomial_fit(counts(live, grafted));
    if (row["function"] == "betabinomial_mu") {
        EXPECT_TRUE(agrees(row, spread.mean));
    } else if (row["function"] == "betabinomial_rho") {
        EXPECT_TRUE(agrees(row, spread.rho()));
    } else {
        std::vector<double> names(live.size());
        std::iota(names.begin(), names.end(), 1);
        const auto found = take_by(list(names), list(live), list(grafted)).value();
        EXPECT_TRUE(agrees(row, found.at(static_cast<std::size_t>(row.number("index")) - 1).steadied_take));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, Groups,
                         testing::ValuesIn(tests::rows("L_ratio_survival_shrinkage.csv",
                                                       {"betabinomial_mu", "betabinomial_rho", "eb_shrunk_rate"})),
                         tests::row_id);

/// Logarithm of the likelihood by the textbook's beta functions, from the GNU Scientific Library.
double likelihood(const std::vector<Count>& groups, double mean, double theta) {
    double sum = 0;
    for (const auto& [live, grafted] : groups) {
        sum += theta == 0 ? live * std::log(mean) + (grafted - live) * std::log1p(-mean)
                          : gsl_sf_lnbeta(live + mean / theta, grafted - live + (1 - mean) / theta) -
                                gsl_sf_lnbeta(mean / theta, (1 - mean) / theta);
    }
    return sum;
}

TEST(GroupsOracle, NothingElseIsMoreLikely) {
    std::mt19937 random(5);
    for (int round = 0; round < 300; ++round) {
        const auto rows = std::uniform_int_distribution<std::size_t>(2, 12)(random);
        const Tally tally = random_tally(random, rows, round % 3 == 0 ? 4 : round % 3 == 1 ? 30 : 3000);
        auto groups = counts(tally.live, tally.grafted);
        // Counts over a dispersion are not whole.
        const double phi = round % 2 == 0 ? 1 : 1.7;
        for (Count& count : groups) count = {count.live / phi, count.grafted / phi};
        const BetaBinomial spread = beta_binomial_fit(groups);
        const double live = std::accumulate(tally.live.begin(), tally.live.end(), 0.0);
        if (live == 0 || live == std::accumulate(tally.grafted.begin(), tally.grafted.end(), 0.0)) {
            EXPECT_EQ(spread.theta, 0);
            continue;
        }
        const double found = likelihood(groups, spread.mean, std::min(spread.theta, 1e6));
        for (int percent = 2; percent < 100; percent += 4) {
            const double mean = percent / 100.0;
            for (const double theta : {0., 0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1., 3., 30., 1e3}) {
                ASSERT_GE(found, likelihood(groups, mean, theta) - 1e-7 * std::abs(found)) << mean << " " << theta;
            }
        }
        if (std::isinf(spread.theta)) continue;  // every group all or none: it only rises
        for (const double step : {0.99, 0.999, 1.001, 1.01}) {
            ASSERT_GE(found, likelihood(groups, spread.mean, spread.theta * step) - 1e-9 * std::abs(found));
            ASSERT_GE(found, likelihood(groups, std::min(spread.mean * step, 1 - 1e-9), spread.theta) -
                                 1e-9 * std::abs(found));
        }
    }
}

TEST(GroupsOracle, SeesTheSmallBesideTheLarge) {
    // One grafter's thousand at the mean says "no spread", two hundred pairs of all or none say there is: the
    // likelihood has two tops, and the higher is far out.
    std::vector<Count> groups{{500, 1000}};
    for (int pair = 0; pair < 200; ++pair) groups.push_back({pair % 2 == 0 ? 2. : 0., 2});
    const BetaBinomial spread = beta_binomial_fit(groups);
    EXPECT_GT(spread.theta, 10);
    EXPECT_GT(likelihood(groups, spread.mean, spread.theta), likelihood(groups, 0.5, 0) + 100);
}

TEST(Groups, EdgesAreFinite) {
    const auto spread = [](const std::vector<Count>& groups) { return beta_binomial_fit(groups); };
    // Alike, single, all and none: the take of all together.
    EXPECT_EQ(spread({{3, 6}, {4, 8}}).shrink_to_mean({3, 6}), 0.5);
    EXPECT_EQ(spread({{5, 9}}).shrink_to_mean({5, 9}), 5. / 9);
    EXPECT_EQ(spread({{5, 5}, {3, 3}}).shrink_to_mean({3, 3}), 1);
    EXPECT_EQ(spread({{0, 5}, {0, 3}}).shrink_to_mean({0, 3}), 0);
    // Single grafts cannot show whether grafters differ.
    EXPECT_EQ(spread({{1, 1}, {0, 1}, {1, 1}}).shrink_to_mean({0, 1}), 2. / 3);
    // All or none in every group: each keeps its own.
    EXPECT_EQ(spread({{3, 3}, {0, 3}, {3, 3}}).shrink_to_mean({0, 3}), 0);
    EXPECT_EQ(spread({{3, 3}, {0, 3}, {3, 3}}).rho(), 1);
    // Ten million each.
    const BetaBinomial large = spread({{7'000'000, 1e7}, {7'001'000, 1e7}, {6'998'500, 1e7}});
    EXPECT_NEAR(large.mean, 0.69998333, 1e-7);
    EXPECT_TRUE(large.theta >= 0 && large.theta < 1e-6);
}

// As COUNTIF, SUMIF, MATCH and VLOOKUP of Calc 7.4.7 take "Ana" and "ANA" for one (measured).
TEST(TakeBy, TellsNoGroupsApartByCaseOrBlanks) {
    const List grafted{8., 12., 10., 4.};
    const List live{7., 9., 5., 4.};
    const auto found = take_by({"Amina", " AMINA\t", "Ben", "amina\n"}, live, grafted).value();
    ASSERT_EQ(found.size(), 2);
    EXPECT_EQ(found.at(0).group, Cell("Amina"));
    EXPECT_EQ(found, take_by({"Amina", "Amina", "Ben", "Amina"}, live, grafted).value());
    EXPECT_EQ(take_next({"ben", "BEN", "a", "A"}, live, grafted), take_next({1., 1., 2., 2.}, live, grafted));
    // No more than letters and blanks around: these are four.
    EXPECT_EQ(take_by({"A 1", "A1", "A-1", "A  1"}, live, grafted).value().size(), 4);
}

TEST(TakeBy, ListsGroupsAsTheyCome) {
    const auto found = take_by({" Ben", "Ana", "Ben ", 3., "Ana", "3", {}}, {3., 7., {}, 1., 9., 2., {}},
                               {3., 8., 4., 2., 12., 2., {}})
                           .value();
    ASSERT_EQ(found.size(), 3);
    EXPECT_EQ(found.at(0).group, Cell("Ben"));
    EXPECT_EQ(found.at(1).group, Cell("Ana"));
    EXPECT_EQ(found.at(2).group, Cell(3.));
    EXPECT_EQ(found.at(1).grafted, 20);
    EXPECT_EQ(found.at(1).live, 16);
    EXPECT_EQ(found.at(1).take, 0.8);
    // The limits of Ana's two trees by themselves.
    const auto trees = take_trees({7., 9.}, {8., 12.}).value();
    EXPECT_EQ(found.at(1).low, trees.low);
    EXPECT_EQ(found.at(1).high, trees.high);
    EXPECT_EQ(found.at(2).grafted, 4);
    EXPECT_EQ(take_by({"Ben", {}}, {{}, {}}, {2., {}}), std::nullopt);
}

TEST(TakeBy, LeavesEachItsOwnWhereNothingSaysHowFarTheyDiffer) {
    const auto extremes = take_by({"A", "B"}, {1., 0.}, {1., 1.}).value();
    EXPECT_EQ(extremes.at(0).steadied_take, 1);
    EXPECT_EQ(extremes.at(1).steadied_take, 0);
    const auto single = take_by({"A", "A"}, {1., 4.}, {4., 4.}).value();
    EXPECT_EQ(single.at(0).steadied_take, 0.625);
}

TEST(TakeBy, KeepsThreeOfThreeFromTheTop) {
    const auto found = take_by({"A", "B", "C", "D"}, {3., 92., 60., 30.}, {3., 96., 80., 60.}).value();
    EXPECT_EQ(found.at(0).take, 1);
    EXPECT_LT(found.at(0).steadied_take, found.at(1).steadied_take);
    for (std::size_t row = 0; row < 4; ++row) {
        EXPECT_TRUE(found.at(row).steadied_take > 0.5 && found.at(row).steadied_take < 1);
    }
}

TEST(TakeByProperty, GroupsAddUpToTheTreesInAnyOrder) {
    std::mt19937 random(6);
    for (int round = 0; round < 200; ++round) {
        const auto rows = std::uniform_int_distribution<std::size_t>(1, 60)(random);
        const Tally tally = random_tally(random, rows, 20);
        List groups;
        List live;
        List grafted;
        for (std::size_t row = 0; row < rows; ++row) {
            groups.cells.emplace_back(std::string(1, static_cast<char>('a' + random() % 5)));
            live.cells.emplace_back();
            if (random() % 5 != 0) live.cells.back() = tally.live[row];
            grafted.cells.emplace_back(tally.grafted[row]);
        }
        groups.length = live.length = grafted.length = rows;
        const auto by = take_by(groups, live, grafted);
        const auto trees = take_trees(live, grafted);
        ASSERT_EQ(by.has_value(), trees.has_value());
        if (!by) continue;
        double alive = 0;
        double all = 0;
        for (std::size_t row = 0; row < by->size(); ++row) {
            all += by->at(row).grafted;
            alive += by->at(row).live;
        }
        ASSERT_EQ(all, trees->grafts);
        ASSERT_EQ(alive / all, trees->take);

        // The same rows in another order: the same groups with the same numbers, the same trees.
        std::vector<std::size_t> order(rows);
        std::iota(order.begin(), order.end(), 0);
        std::shuffle(order.begin(), order.end(), random);
        List other_groups = groups;
        List other_live = live;
        List other_grafted = grafted;
        for (std::size_t row = 0; row < rows; ++row) {
            other_groups.cells[row] = groups.cells[order[row]];
            other_live.cells[row] = live.cells[order[row]];
            other_grafted.cells[row] = grafted.cells[order[row]];
        }
        const auto again = take_by(other_groups, other_live, other_grafted).value();
        ASSERT_EQ(again.size(), by->size());
        for (std::size_t row = 0; row < by->size(); ++row) {
            std::size_t same = 0;
            while (again.at(same).group != by->at(row).group) ++same;
            for (const auto column : {&GroupTake::grafted, &GroupTake::live, &GroupTake::take, &GroupTake::low,
                                      &GroupTake::high, &GroupTake::steadied_take}) {
                ASSERT_NEAR(again.at(same).*column, by->at(row).*column, 1e-9);
            }
        }
        const auto trees_again = take_trees(other_live, other_grafted).value();
        for (const auto column : {&BlockTake::take, &BlockTake::low, &BlockTake::high, &BlockTake::design_effect,
                                  &BlockTake::trees, &BlockTake::grafts}) {
            ASSERT_NEAR(trees_again.*column, (*trees).*column, 1e-9);
        }
    }
}

TEST(TakeByRefuses, NamingTheRow) {
    EXPECT_NE(reason([] {
                  take_by({"A", {}}, {1., 1.}, {2., 2.});
              }).find("groups is blank in row 2"),
              std::string::npos);
    EXPECT_NE(reason([] {
                  take_by({"A", " "}, {1., 1.}, {2., 2.});
              }).find("groups is blank in row 2"),
              std::string::npos);
    EXPECT_NE(reason([] { take_by({"A", "B"}, {1., 3.}, {2., 2.}); }).find("row 2"), std::string::npos);
    EXPECT_EQ(refused([] { take_by({"A"}, {1., 1.}, {2., 2.}); }), "live");
    EXPECT_EQ(refused([] { take_by({"A"}, {1.}, {{}}); }), "grafted");
    EXPECT_EQ(refused([] { take_by({"A"}, {1.}, {2.}, 0); }), "confidence");
}

// --- INSPECT, REGRAFTS

TEST(Inspect, IsTheSampleSizeOfTheTextbooks) {
    // Cochran 1977, section 4.4, by arithmetic: 1.959964^2 * 0.25 / 0.05^2 = 384.146 of endlessly many; of 400 trees
    // 384.146 / (1 + 383.146 / 400) = 196.21.
    EXPECT_EQ(inspect(10'000'000, 0.05), 385);
    EXPECT_EQ(inspect(400, 0.05), 197);
    EXPECT_EQ(inspect(400, 0.05, 0.9), 103);  // 138.2925 / (1 + 137.2925 / 400) = 102.96
    EXPECT_EQ(inspect(1, 0.05), 1);
    EXPECT_EQ(inspect(400, 1), 1);
    EXPECT_EQ(inspect(400, 1e-300), 400);
    EXPECT_EQ(inspect(10'000'000, 1e-9), 10'000'000);
    EXPECT_EQ(inspect(1, 1, 1e-300, 1e-300), 1);
    EXPECT_EQ(refused([] { inspect(0, 0.05); }), "trees");
    EXPECT_EQ(refused([] { inspect(400, 0); }), "margin");
    EXPECT_EQ(refused([] { inspect(400, 5); }), "margin");
    EXPECT_EQ(refused([] { inspect(400, 0.05, 0); }), "take");
    EXPECT_EQ(refused([] { inspect(400, 0.05, 1); }), "take");
    EXPECT_EQ(refused([] { inspect(400, 0.05, 0.5, 95); }), "confidence");
}

TEST(Regrafts, FillUpEveryTree) {
    EXPECT_EQ(regrafts({4., 2., 0., 3.}, 3), 4);  // arithmetic: 0 + 1 + 3 + 0
    EXPECT_EQ(regrafts({4., {}, 0., {}}, 3), 3);
    EXPECT_EQ(regrafts({}, 3), 0);
    EXPECT_EQ(regrafts({{}, {}}, 3), 0);
    EXPECT_EQ(refused([] { regrafts({1.}, 0); }), "wanted_per_tree");
    EXPECT_EQ(refused([] { regrafts({1.}, 1001); }), "wanted_per_tree");
    EXPECT_NE(reason([] { regrafts({1., -1.}, 3); }).find("live was -1 in row 2"), std::string::npos);
    EXPECT_NE(reason([] { regrafts({1., "x"}, 3); }).find("row 2"), std::string::npos);
}

// --- GRAFTLIFE

class Life : public testing::TestWithParam<Row> {};

TEST_P(Life, IsKaplanAndMeiers) {
    const Row& row = GetParam();
    const auto confidence = row.has("conf") ? std::optional(row.number("conf")) : std::nullopt;
    const auto found =
        graft_life(row.list("times"), row.list("events"), row.number("at"), confidence, {}, Dated::day).value();
    EXPECT_TRUE(agrees(row, row["function"] == "km_survival"   ? found.share
                            : row["function"] == "km_ci_lower" ? found.low
                                                               : found.high));
}

INSTANTIATE_TEST_SUITE_P(Reference, Life,
                         testing::ValuesIn(tests::rows("L_ratio_survival_shrinkage.csv",
                                                       {"km_survival", "km_ci_lower", "km_ci_upper"})),
                         tests::row_id);

TEST(Life, HasLimitsBeforeTheFirstLossAndAfterTheLast) {
    const auto before = graft_life({10., 20., 30., 5.}, {1., 1., 0., 0.}, 9, {}, {}, Dated::day).value();
    EXPECT_EQ(before.share, 1);
    EXPECT_EQ(before.low, take_low(3, 3, 0.95, Interval::exact).value());
    EXPECT_EQ(before.high, 1);
    const auto after = graft_life({10., 20., 30.}, {1., 1., 1.}, 31).value();
    EXPECT_EQ(after.share, 0);
    EXPECT_EQ(after.low, 0);
    EXPECT_EQ(after.high, take_high(0, 3, 0.95, Interval::exact).value());
    // Some were last seen alive: 50 lost on day 1, 49 seen alive on day 2, one lost on day 5. Before the last drop the
    // high limit is 0.593, and one was at risk then.
    std::vector<double> days;
    std::vector<double> lost;
    for (int graft = 0; graft < 100; ++graft) {
        days.push_back(graft < 50 ? 1 : graft < 99 ? 2 : 5);
        lost.push_back(graft < 50 || graft == 99 ? 1 : 0);
    }
    const double high = graft_life(list(days), list(lost), 4, {}, {}, Dated::day).value().high;
    EXPECT_NEAR(high, 0.593, 5e-4);
    for (const double day : {5., 80.}) {
        EXPECT_DOUBLE_EQ(graft_life(list(days), list(lost), day).value().high, high * 0.975) << day;
    }
}

TEST(Life, EndsWithTheLastLook) {
    EXPECT_TRUE(graft_life({10., 20.}, {1., 0.}, 20).has_value());
    EXPECT_EQ(graft_life({10., 20.}, {1., 0.}, 20.5), std::nullopt);
    EXPECT_EQ(graft_life({20., 20.}, {1., 0.}, 20.5), std::nullopt);
    EXPECT_EQ(graft_life({}, {}, 0), std::nullopt);
    EXPECT_EQ(graft_life({{}, {}}, {{}, {}}, 0), std::nullopt);
}

TEST(LifeProperty, IsTheTakeWhereAllAreWatchedAndKnowsNoOrder) {
    std::mt19937 random(7);
    for (int round = 0; round < 500; ++round) {
        const auto rows = std::uniform_int_distribution<std::size_t>(2, 40)(random);
        std::vector<double> days;
        std::vector<double> lost;
        for (std::size_t row = 0; row < rows; ++row) {
            days.push_back(static_cast<double>(random() % 30));
            lost.push_back(random() % 3 == 0 ? 0 : 1);
        }
        const double at = std::floor(*std::max_element(days.begin(), days.end()) / 2);
        const auto found = graft_life(list(days), list(lost), at).value();
        ASSERT_LE(0, found.low);
        ASSERT_LE(found.high, 1);
        ASSERT_LE(found.low, found.share);
        ASSERT_LE(found.share, found.high);

        std::vector<std::size_t> order(rows);
        std::iota(order.begin(), order.end(), 0);
        std::shuffle(order.begin(), order.end(), random);
        std::vector<double> other_days;
        std::vector<double> other_lost;
        for (const std::size_t row : order) {
            other_days.push_back(days[row]);
            other_lost.push_back(lost[row]);
        }
        ASSERT_EQ(graft_life(list(other_days), list(other_lost), at).value(), found);

        // All watched to their loss: the plain share alive after that day.
        const std::vector<double> all(rows, 1);
        const auto alive = std::count_if(days.begin(), days.end(), [&](double day) { return day > at; });
        ASSERT_NEAR(graft_life(list(days), list(all), at, {}, {}, Dated::day).value().share,
                    static_cast<double>(alive) / static_cast<double>(rows), 1e-12);
    }
}

TEST(GraftLifeRefuses, NamingTheRow) {
    EXPECT_NE(reason([] { graft_life({10., 20.}, {1., {}}, 5); }).find("lost is blank in row 2"), std::string::npos);
    EXPECT_NE(reason([] { graft_life({10., {}}, {1., 0.}, 5); }).find("days is blank in row 2"), std::string::npos);
    EXPECT_NE(reason([] { graft_life({10., 20.}, {1., 2.}, 5); }).find("lost was 2 in row 2"), std::string::npos);
    EXPECT_NE(reason([] { graft_life({10., -1.}, {1., 1.}, 5); }).find("days was -1 in row 2"), std::string::npos);
    EXPECT_NE(reason([] { graft_life({10., "x"}, {1., 1.}, 5); }).find("row 2"), std::string::npos);
    EXPECT_EQ(refused([] { graft_life({10.}, {1., 1.}, 5); }), "lost");
    EXPECT_EQ(refused([] { graft_life({10.}, {1.}, -5); }), "at_day");
    EXPECT_EQ(refused([] { graft_life({10.}, {1.}, 5, 95); }), "confidence");
}

// --- Large tallies

TEST(LargeTallies, AreTaken) {
    std::mt19937 random(8);
    for (const int most : {10, 10'000'000}) {
        const Tally tally = random_tally(random, 50'000, most);
        const List live = list(tally.live);
        const List grafted = list(tally.grafted);
        std::vector<double> names(50'000);
        std::iota(names.begin(), names.end(), 0);
        std::vector<double> lost;
        for (std::size_t row = 0; row < names.size(); ++row) lost.push_back(static_cast<double>(random() % 2));
        // Whatever compares rows with rows would take minutes.
        EXPECT_EQ(take_by(list(names), live, grafted)->size(), 50'000);
        EXPECT_EQ(take_trees(live, grafted)->trees, 50'000);
        EXPECT_TRUE(graft_life(grafted, list(lost), most / 2.0).has_value());
    }
}

}  // namespace
}  // namespace slipbark::take

#include "slipbark/money.hpp"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_poly.h>
#include <gsl/gsl_roots.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <random>

#include "common.hpp"
#include "slipbark/budwood.hpp"

namespace slipbark::money {
namespace {

using tests::agrees;
using tests::reason;
using tests::refused;
using tests::Row;
using Optional = std::optional<double>;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

List list(const std::vector<double>& values) { return {std::vector<Cell>(values.begin(), values.end())}; }

/// `first`, then `count` times `each`.
List level(double first, double count, double each) {
    std::vector<Cell> cells(static_cast<std::size_t>(count) + 1, each);
    cells.front() = first;
    return {std::move(cells)};
}

double rate_of(const Row& row) { return row.has("rate") ? row.number("rate") : 0; }

class PresentValue : public testing::TestWithParam<Row> {};

TEST_P(PresentValue, AgreesWithTheReference) {
    const Row& row = GetParam();
    const std::string& function = row["function"];
    if (function == "pv_annuity") {
        EXPECT_TRUE(agrees(row, present_value(level(0, row.number("n"), 1), rate_of(row))));
    } else if (function == "pv_annuity_due") {
        EXPECT_TRUE(agrees(row, present_value(level(1, row.number("n") - 1, 1), rate_of(row))));
    } else if (function == "discount_factor") {
        List flows = level(0, row.number("n"), 0);
        flows.cells.back() = 1.;
        EXPECT_TRUE(agrees(row, present_value(flows, rate_of(row))));
    } else {
        List flows = row.list("cashflows");
        if (row["timing"].starts_with("end_of_year")) {
            flows.cells.insert(flows.cells.begin(), 0.);
        } else {
            ASSERT_TRUE(row["timing"].starts_with("first_flow_now")) << row;
        }
        EXPECT_TRUE(agrees(row, present_value(flows, rate_of(row))));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, PresentValue,
                         testing::ValuesIn(tests::rows("H_finance.csv",
                                                       {"npv", "pv_annuity", "pv_annuity_due", "discount_factor"})),
                         tests::row_id);

class InternalRate : public testing::TestWithParam<Row> {};

// At the published internal rate of return the flows are worth nothing.
TEST_P(InternalRate, MakesThePresentValueNought) {
    const Row& row = GetParam();
    const auto flows = row.numbers("cashflows");
    const double scale = *std::max_element(flows.begin(), flows.end());
    EXPECT_NEAR(present_value(list(flows), row.number("expected")), 0, 1e-10 * scale) << row;
}

INSTANTIATE_TEST_SUITE_P(Reference, InternalRate, testing::ValuesIn(tests::rows("H_finance.csv", {"irr"})),
                         tests::row_id);

class Payback : public testing::TestWithParam<Row> {};

TEST_P(Payback, AgreesWithTheReference) {
    const Row& row = GetParam();
    const auto years = payback(row.list("cashflows"), rate_of(row));
    if (row["expected"] == "never") {
        EXPECT_FALSE(years) << row;
    } else {
        ASSERT_TRUE(years) << row;
        EXPECT_TRUE(agrees(row, *years));
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, Payback,
                         testing::ValuesIn(tests::rows("H_finance.csv", {"payback_simple", "payback_discounted"})),
                         tests::row_id);

class EqualAnnual : public testing::TestWithParam<Row> {};

TEST_P(EqualAnnual, AgreesWithTheReference) {
    const Row& row = GetParam();
    List flows;
    if (row["function"] == "capital_recovery") {
        flows = level(1, row.number("n"), 0);
    } else if (row["function"] == "equivalent_annual_cost") {
        auto costs = row.numbers("costs");
        costs.insert(costs.begin(), row.number("pv"));
        costs.back() -= row.number("salvage");
        flows = list(costs);
    } else {
        flows = row.has("cashflows") ? row.list("cashflows") : level(row.number("pv"), row.number("life"), 0);
    }
    EXPECT_TRUE(agrees(row, equal_annual(flows, rate_of(row))));
}

INSTANTIATE_TEST_SUITE_P(Reference, EqualAnnual,
                         testing::ValuesIn(tests::rows("H_finance.csv",
                                                       {"equivalent_annual_annuity", "equivalent_annual_cost",
                                                        "capital_recovery"})),
                         tests::row_id);

class BreakEvenPrice : public testing::TestWithParam<Row> {};

TEST_P(BreakEvenPrice, AgreesWithTheReference) {
    const Row& row = GetParam();
    const auto price = break_even_price(row.list("costs"), row.list("yields"), rate_of(row));
    ASSERT_TRUE(price) << row;
    EXPECT_TRUE(agrees(row, *price));
}

INSTANTIATE_TEST_SUITE_P(Reference, BreakEvenPrice,
                         testing::ValuesIn(tests::rows("H_finance.csv", {"break_even_price"})), tests::row_id);
INSTANTIATE_TEST_SUITE_P(Examples, BreakEvenPrice,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"BREAKEVENPRICE"})),
                         tests::row_id);

class WorkedMoney : public testing::TestWithParam<Row> {};

TEST_P(WorkedMoney, Agree) {
    const Row& row = GetParam();
    const List flows = row.list("flows");
    const double rate = row.number("rate");
    EXPECT_TRUE(agrees(row, row["function"] == "EQUALANNUAL" ? equal_annual(flows, rate) : present_value(flows, rate)));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedMoney,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"EQUALANNUAL", "PRESENTVALUE"})),
                         tests::row_id);

class WorkedSticks : public testing::TestWithParam<Row> {};

// The budwood of the worked example, which stands in the same file.
TEST_P(WorkedSticks, Agree) {
    const Row& row = GetParam();
    EXPECT_TRUE(
        agrees(row, budwood::sticks(row.number("grafts"), row.number("buds_per_scion"), row.number("buds_per_stick"),
                                    row.has("spare") ? Optional{row.number("spare")} : Optional{})));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedSticks,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"STICKS"})), tests::row_id);

std::vector<double> random_flows(std::mt19937_64& random) {
    std::uniform_int_distribution<std::size_t> count(2, 40);
    std::uniform_real_distribution<double> flow(-10'000, 12'000);
    std::vector<double> flows(count(random));
    for (double& each : flows) each = flow(random);
    flows.front() = -std::abs(flows.front()) * 5;
    return flows;
}

double scale_of(const std::vector<double>& flows, double rate) {
    double sum = 0;
    for (std::size_t year = 0; year < flows.size(); ++year) {
        sum += std::abs(flows[year]) * std::pow(1 + rate, -static_cast<double>(year));
    }
    return sum;
}

// Present value is a polynomial in the discount factor.
TEST(PresentValueOracle, IsThePolynomialOfGsl) {
    auto random = tests::draws(20270916);
    std::uniform_real_distribution<double> rates(-0.5, 0.99);
    for (int round = 0; round < 20'000; ++round) {
        const auto flows = random_flows(random);
        const double rate = rates(random);
        const double expected = gsl_poly_eval(flows.data(), static_cast<int>(flows.size()), 1 / (1 + rate));
        EXPECT_NEAR(present_value(list(flows), rate), expected, 1e-12 * scale_of(flows, rate));
    }
}

struct Plan {
    std::vector<double> costs, yields;
    double rate = 0;
};

double net_value(double price, void* given) {
    const auto* plan = static_cast<const Plan*>(given);
    double sum = 0;
    for (std::size_t year = 0; year < plan->costs.size(); ++year) {
        sum += (price * plan->yields[year] - plan->costs[year]) / std::pow(1 + plan->rate, static_cast<double>(year));
    }
    return sum;
}

// Against the root that Brent's method of GSL finds for the net present value.
TEST(BreakEvenPriceOracle, IsTheRootOfTheNetPresentValue) {
    auto random = tests::draws(20270917);
    std::uniform_int_distribution<std::size_t> count(1, 30);
    std::uniform_real_distribution<double> cost(0, 20'000);
    std::uniform_real_distribution<double> crop(0, 400);
    std::uniform_real_distribution<double> rates(-0.3, 0.9);
    auto* solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    for (int round = 0; round < 5'000; ++round) {
        Plan plan;
        plan.costs.resize(count(random));
        plan.yields.resize(plan.costs.size());
        for (double& each : plan.costs) each = cost(random);
        for (double& each : plan.yields) each = crop(random);
        plan.rate = rates(random);
        double high = 1;
        while (net_value(high, &plan) <= 0) high *= 2;
        gsl_function function{&net_value, &plan};
        ASSERT_EQ(gsl_root_fsolver_set(solver, &function, 0, high), GSL_SUCCESS);
        double low = 0;
        int steps = 0;
        while (gsl_root_test_interval(low, high, 0, 1e-13) == GSL_CONTINUE && steps++ < 200) {
            gsl_root_fsolver_iterate(solver);
            low = gsl_root_fsolver_x_lower(solver);
            high = gsl_root_fsolver_x_upper(solver);
        }
        const double root = gsl_root_fsolver_root(solver);
        const auto price = break_even_price(list(plan.costs), list(plan.yields), plan.rate);
        ASSERT_TRUE(price);
        EXPECT_NEAR(*price, root, 1e-11 * root);
    }
    gsl_root_fsolver_free(solver);
}

TEST(EqualAnnual, PaidEveryYearIsWorthTheSame) {
    auto random = tests::draws(20270918);
    std::uniform_real_distribution<double> rates(-0.5, 0.99);
    std::uniform_real_distribution<double> exponent(-15, -1);
    for (int round = 0; round < 20'000; ++round) {
        const auto flows = random_flows(random);
        // Rates of every size, since those near 0 are where digits get lost.
        const double rate = round % 2 == 0 ? rates(random) : std::pow(10, exponent(random));
        const double amount = equal_annual(list(flows), rate);
        const double back = present_value(level(0, static_cast<double>(flows.size() - 1), amount), rate);
        EXPECT_NEAR(back, present_value(list(flows), rate), 1e-11 * scale_of(flows, rate)) << rate;
    }
}

// The limit of the annuity factor for a rate towards 0 is the number of years.
TEST(EqualAnnual, IsSmoothAtRateNought) {
    const List flows = level(1200, 12, 0);
    EXPECT_DOUBLE_EQ(equal_annual(flows, 0), 100);
    for (const double rate : {1e-300, 1e-17, 1e-12, -1e-12, -1e-300}) {
        EXPECT_NEAR(equal_annual(flows, rate), 100 * (1 + 6.5 * rate), 1e-11) << rate;
    }
    EXPECT_NEAR(equal_annual(flows, 1e-9), 100 * (1 + 6.5e-9), 1e-11) << "first order in the rate: (n + 1) / 2";
}

std::vector<double> first(const std::vector<double>& flows, std::size_t count) {
    return {flows.begin(), flows.begin() + static_cast<std::ptrdiff_t>(count)};
}

// The years before are worth less than nothing, the year itself is not; inside it the value runs straight through 0.
TEST(Payback, AgreesWithThePresentValueOfTheYearsSoFar) {
    auto random = tests::draws(20270919);
    std::uniform_real_distribution<double> rates(-0.2, 0.5);
    int paid = 0;
    int never = 0;
    for (int round = 0; round < 20'000; ++round) {
        const auto flows = random_flows(random);
        const double rate = rates(random);
        const double dust = 1e-11 * scale_of(flows, rate);
        const auto years = payback(list(flows), rate);
        std::size_t told = flows.size();
        if (years) {
            const double before = std::floor(*years);
            const auto whole = static_cast<std::size_t>(before) + 1;
            const double earlier = present_value(list(first(flows, whole)), rate);
            if (whole < flows.size()) {
                const double later = present_value(list(first(flows, whole + 1)), rate);
                EXPECT_NEAR(earlier + (*years - before) * (later - earlier), 0, dust);
                EXPECT_GE(later, -dust);
            }
            told = whole;
            ++paid;
        } else {
            ++never;
        }
        for (std::size_t count = 1; count <= told; ++count) {
            EXPECT_LT(present_value(list(first(flows, count)), rate), dust);
        }
    }
    EXPECT_GT(paid, 3'000);
    EXPECT_GT(never, 3'000);
}

// By the meaning of the words.
TEST(Payback, OfPlainPlans) {
    EXPECT_EQ(payback({-1000., 200., 400., 800.}), 2.5);
    EXPECT_EQ(payback({-1000., 1000.}), 1);
    EXPECT_EQ(payback({-1000., 4000.}), 0.25);
    EXPECT_EQ(payback({500., -200.}), 0) << "nothing owed from the start";
    EXPECT_EQ(payback({0., 0., 0.}), 0);
    EXPECT_EQ(payback({0., -500., 800.}), 1.625) << "nothing today, the outlay next year: 1 + 500 / 800";
    EXPECT_EQ(payback({500., -800., 400.}), 1.75) << "income before the outlay: 1 + 300 / 400";
    EXPECT_EQ(payback({500., -800., 200.}), std::nullopt);
    EXPECT_EQ(payback({-1000., 1000., -5000., 0.}), 1) << "the first time counts";
    EXPECT_EQ(payback({-1000., 0., 0., 1000.}), 3);
    EXPECT_EQ(payback({-1000.}), std::nullopt);
    EXPECT_EQ(payback({-1000., 0., 999.}), std::nullopt);
}

TEST(Payback, SurvivesBinaryFractions) {
    for (int parts = 2; parts <= 1000; ++parts) {
        const auto years = payback(level(-1, parts, 1.0 / parts));
        ASSERT_TRUE(years) << parts;
        EXPECT_NEAR(*years, parts, 1e-9);
    }
    const auto years = payback(level(-3, 10, 0.3));
    ASSERT_TRUE(years);
    EXPECT_NEAR(*years, 10, 1e-12);
}

TEST(Flows, MayEndInBlanksButNotHoldAny) {
    const List with_blanks({-100., 50., 125., {}, {}}, 1'048'576);
    EXPECT_EQ(present_value(with_blanks, 0.25), 20);
    EXPECT_EQ(payback(with_blanks), 1.4);
    EXPECT_EQ(equal_annual(with_blanks, 0), 37.5);
    const List gap{-100., {}, 125.};
    EXPECT_NE(reason(present_value, gap, 0.).find("row 2"), std::string::npos);
    EXPECT_NE(reason(payback, gap, Optional{}).find("row 2"), std::string::npos);
    EXPECT_NE(reason(equal_annual, gap, 0.).find("row 2"), std::string::npos);
}

TEST(Flows, AreRefusedForWhatCannotBe) {
    for (const List& bad : {List{}, List{{}, {}}, List{-1., "x"}, List{-1., nan}, List{-1., 2e12}}) {
        EXPECT_EQ(refused(present_value, bad, 0.1), "flows");
        EXPECT_EQ(refused(payback, bad, Optional{}), "flows");
        EXPECT_EQ(refused(equal_annual, bad, 0.1), "flows");
        EXPECT_EQ(refused(break_even_price, bad, List(std::vector<Cell>(bad.length, 1.)), 0.1), "costs");
        EXPECT_EQ(refused(break_even_price, List(std::vector<Cell>(bad.length, 1.)), bad, 0.1),
                  bad.length == 0 ? "costs" : "yields");
    }
    EXPECT_EQ(refused(equal_annual, List{-1.}, 0.1), "flows") << "today only";
    const List flows{-1., 2.};
    for (const double rate : {-1.0, 1.0, 5.0, nan}) {
        EXPECT_EQ(refused(present_value, flows, rate), "rate");
        EXPECT_EQ(refused(payback, flows, Optional{rate}), "rate");
        EXPECT_EQ(refused(equal_annual, flows, rate), "rate");
        EXPECT_EQ(refused(break_even_price, List{1., 1.}, List{1., 1.}, rate), "rate");
    }
    EXPECT_NE(reason(present_value, flows, 5.).find("5 % is 0.05"), std::string::npos);
}

TEST(BreakEvenPriceAnswers, OnlyWhereThereIsACrop) {
    EXPECT_EQ(break_even_price({100., 50.}, {0., 0.}, 0.05), std::nullopt);
    EXPECT_EQ(break_even_price({0., 0.}, {0., 10.}, 0.05), 0);
    EXPECT_EQ(break_even_price({100., -20.}, {0., 10.}, 0), 8) << "a grant is a negative cost";
}

TEST(BreakEvenPriceRefuses, YearsThatDoNotPair) {
    EXPECT_EQ(refused(break_even_price, List{1., 2., 3.}, List{1., 2.}, 0.), "yields");
    EXPECT_EQ(refused(break_even_price, List{1., 2., {}}, List{0., 2., 3.}, 0.), "costs");
    EXPECT_EQ(refused(break_even_price, List{1., 2., 3.}, List{0., 2., {}}, 0.), "yields");
    EXPECT_NE(reason(break_even_price, List{1., 2., 3.}, List{0., 2., {}}, 0.).find("row 3"), std::string::npos);
    EXPECT_EQ(refused(break_even_price, List{1., 2.}, List{0., -2.}, 0.), "yields");
    EXPECT_EQ(break_even_price(List({1., 2.}, 1000), List({0., 3., {}}, 1000), 0), 1) << "blank in both at the end";
}

TEST(Overflow, IsRefusedAndNotReturned) {
    const double rate = std::nextafter(-1.0, 0.0);
    const List flows = level(-1e12, 400, 1e12);
    EXPECT_EQ(refused(present_value, flows, rate), "rate");
    EXPECT_EQ(refused(equal_annual, flows, rate), "rate");
    EXPECT_EQ(refused(break_even_price, flows, level(0, 400, 1), rate), "rate");
    EXPECT_EQ(refused(payback, level(-1e12, 400, -1), Optional{rate}), "rate");
    // A price needs a crop to speak of: 1E12 over the smallest number overflows.
    EXPECT_EQ(refused(break_even_price, List{1e12}, List{std::numeric_limits<double>::denorm_min()}, 0.), "yields");
    const auto soon = payback(flows, rate);
    ASSERT_TRUE(soon) << "pays back long before anything overflows";
    EXPECT_LT(*soon, 1);
    EXPECT_TRUE(std::isfinite(present_value(level(-1e12, 100'000, 1e12), std::nextafter(1.0, 0.0))));
}

TEST(LowPoint, IsWherePaybackEndsIfThereIsOneDip) {
    // Oracle: a sum that falls and then rises returns to 0 once.
    auto random = tests::draws(16);
    std::uniform_int_distribution<int> amount(1, 9);
    for (int round = 0; round < 300; ++round) {
        List flows;
        double lowest = 0;
        for (int year = 0; year < 3; ++year) {
            flows.cells.emplace_back(-1.0 * amount(random));
            lowest += std::get<double>(flows.cells.back());
        }
        for (int year = 0; year < 5; ++year) flows.cells.emplace_back(1.0 * amount(random));
        flows.length = flows.cells.size();
        const LowPoint found = low_point(flows);
        ASSERT_EQ(found.amount, lowest);
        ASSERT_EQ(found.year, 2);
        ASSERT_EQ(found.years_back, payback(flows)) << round;
    }
    EXPECT_EQ(refused(low_point, List{}, 0.0), "flows");
    EXPECT_EQ(refused(low_point, list({-100, 50}), 5.0), "rate");
    EXPECT_EQ(refused(low_point, level(-1e12, 199, 1e12), -0.99), "rate");
}

TEST(ReworkYear, RefusesWhatCannotBe) {
    const List left = list({100, 90, 80});
    const List reworked = list({-300, 0, 200, 200});
    const std::optional<Repeat> repeated = Repeat::repeated;
    EXPECT_EQ(rework_year(left, reworked, 0.05).size(), 4U);
    EXPECT_EQ(rework_year(list({100}), reworked, 0.05, {}, Repeat::once).size(), 1U);
    EXPECT_EQ(reason(rework_year, left, reworked, 0.0, Optional(), repeated),
              "rate was 0, at which a rework that is repeated is worth more than any number: give a rate above 0, or "
              "\"once\".");
    EXPECT_EQ(refused(rework_year, left, list({5}), 0.05, Optional(), repeated), "rework_flows");
    EXPECT_EQ(refused(rework_year, left, level(0, 200, 5), 0.05, Optional(), repeated), "rework_flows");
    EXPECT_EQ(refused(rework_year, level(0, 200, 5), reworked, 0.05, Optional(), repeated), "leave_flows");
    EXPECT_EQ(refused(rework_year, left, reworked, 0.05, Optional(3), repeated), "most");
    EXPECT_EQ(refused(rework_year, left, reworked, 0.05, Optional(0.5), repeated), "most");
}

}  // namespace
}  // namespace slipbark::money

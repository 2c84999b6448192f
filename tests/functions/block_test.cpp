#include "slipbark/block.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "common.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::block {
namespace {

using tests::refused;
using tests::Row;

class TreesPerArea : public testing::TestWithParam<Row> {};

// The reference is the exact quotient per acre or hectare; a thousand of them show three more of its digits.
TEST_P(TreesPerArea, AreWholeAndRoundedDown) {
    const Row& row = GetParam();
    const bool acres = row["unit"] == "per acre";
    const double metres = acres ? 0.3048 : 1;           // international foot
    const double hectares = acres ? 0.40468564224 : 1;  // international acre
    const double between_rows = row.number("spacing_row") * metres;
    const double in_row = row.number("spacing_tree") * metres;
    const double expected = row.number("expected");
    EXPECT_EQ(trees(hectares, between_rows, in_row), std::floor(expected)) << row;
    EXPECT_EQ(trees(1000 * hectares, between_rows, in_row), std::floor(1000 * expected)) << row;
}

INSTANTIATE_TEST_SUITE_P(Reference, TreesPerArea, testing::ValuesIn(tests::rows("K_units.csv", {"trees_per_area"})),
                         tests::row_id);

class WorkedTrees : public testing::TestWithParam<Row> {};

TEST_P(WorkedTrees, Agree) {
    const Row& row = GetParam();
    EXPECT_TRUE(
        tests::agrees(row, trees(row.number("area_ha"), row.number("row_spacing_m"), row.number("tree_spacing_m"))));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedTrees, testing::ValuesIn(tests::rows("worked_examples_money.csv", {"TREES"})),
                         tests::row_id);

// A whole number of grid cells must give just that many trees whatever the binary fractions of the spacing do.
TEST(Trees, SurviveBinaryFractions) {
    auto random = tests::draws(20270906);
    std::uniform_int_distribution<int> decimetres(5, 120);
    std::uniform_int_distribution<int> count(1, 100'000);
    for (int round = 0; round < 20'000; ++round) {
        const int row = decimetres(random);
        const int tree = decimetres(random);
        const int expected = count(random);
        const double area = row * tree * static_cast<double>(expected) / 1e6;
        EXPECT_EQ(trees(area, row / 10.0, tree / 10.0), expected) << row << " x " << tree << " dm";
    }
}

TEST(Trees, AnswerAtTheExtremes) {
    EXPECT_EQ(trees(0, 6, 4), 0);
    EXPECT_EQ(trees(10'000, 0.1, 0.1), 1e10);
    EXPECT_EQ(trees(1e-9, 100, 100), 0);
}

TEST(Trees, RefuseWhatCannotBe) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    constexpr double infinity = std::numeric_limits<double>::infinity();
    for (const double area : {-1.0, 10'001.0, nan, infinity}) EXPECT_EQ(refused(trees, area, 6., 4.), "area_ha");
    for (const double spacing : {0.0, -6.0, 0.05, 101.0, nan, infinity}) {
        EXPECT_EQ(refused(trees, 1., spacing, 4.), "row_spacing_m");
        EXPECT_EQ(refused(trees, 1., 6., spacing), "tree_spacing_m");
    }
}

struct StubCase {
    double diameter_cm, spacing_cm;
    int grafts;
};

// Arithmetic of n = max(1, round(pi * d / s)), worked by hand; one scion to 5 to 10 cm of circumference is common
// practice.
constexpr StubCase stub_table[] = {
    {2.5, 5, 2}, {2.5, 7.5, 1}, {2.5, 10, 1}, {5, 5, 3},   {5, 7.5, 2},  {5, 10, 2},
    {7.5, 5, 5}, {7.5, 7.5, 3}, {7.5, 10, 2}, {10, 5, 6},  {10, 7.5, 4}, {10, 10, 3},
    {15, 5, 9},  {15, 7.5, 6},  {15, 10, 5},  {20, 5, 13}, {20, 7.5, 8}, {20, 10, 6},
};

TEST(StubGrafts, FollowTheCircumference) {
    for (const StubCase& stub : stub_table) {
        EXPECT_EQ(stub_grafts(stub.diameter_cm, stub.spacing_cm, 1000), stub.grafts)
            << stub.diameter_cm << " cm at " << stub.spacing_cm;
        EXPECT_EQ(stub_grafts(stub.diameter_cm, stub.spacing_cm), std::min(stub.grafts, 4)) << "two to four at most";
    }
    EXPECT_EQ(stub_grafts(7.5), 3) << "7.5 cm unless given";
}

TEST(StubGrafts, StayWithinTheirLimits) {
    auto random = tests::draws(20270907);
    std::uniform_real_distribution<double> diameter(0.1, 1000);
    std::uniform_real_distribution<double> spacing(0.1, 1000);
    std::uniform_int_distribution<int> most(1, 1000);
    for (int round = 0; round < 20'000; ++round) {
        const double d = diameter(random);
        const double s = spacing(random);
        const int limit = most(random);
        const double grafts = stub_grafts(d, s, limit);
        EXPECT_GE(grafts, 1);
        EXPECT_LE(grafts, limit);
        EXPECT_EQ(grafts, std::floor(grafts));
        // The nearest whole: half a graft away at most, unless a limit holds it.
        const double exact = std::acos(-1.0) * d / s;
        if (grafts > 1 && grafts < limit) {
            EXPECT_NEAR(grafts, exact, 0.5 + 1e-9);
        }
    }
    EXPECT_EQ(stub_grafts(1e-300), 1);
    EXPECT_EQ(stub_grafts(1000, 1e-300, 1000), 1000) << "the quotient itself overflows";
}

TEST(StubGrafts, RefuseWhatCannotBe) {
    using Optional = std::optional<double>;
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double diameter : {0.0, -5.0, 1001.0, nan}) {
        EXPECT_EQ(refused(stub_grafts, diameter, Optional{}, Optional{}), "stub_diameter_cm");
        EXPECT_EQ(refused(stub_grafts, 5., Optional{diameter}, Optional{}), "spacing_cm");
    }
    for (const double most : {0.0, 2.5, 1001.0, nan}) {
        EXPECT_EQ(refused(stub_grafts, 5., Optional{}, Optional{most}), "most");
    }
}

}  // namespace
}  // namespace slipbark::block

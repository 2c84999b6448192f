#include "slipbark/materials.hpp"

#include <gsl/gsl_integration.h>
#include <gsl/gsl_math.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>

#include "common.hpp"

namespace slipbark::materials {
namespace {

using tests::agrees;
using tests::reason;
using tests::refused;
using tests::Row;
using Optional = std::optional<double>;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

class LimbArea : public testing::TestWithParam<Row> {};

// The reference gives radii, height and area in one unit, here centimetres.
TEST_P(LimbArea, IsThatOfTheFrustum) {
    const Row& row = GetParam();
    double base = 0;
    double tip = 0;
    double length = 0;
    if (row["function"] == "cylinder_lateral_area") {
        base = tip = row.number("diameter");
        length = row.number("height");
    } else {
        base = 2 * row.number("r1");
        // A full cone has no tip; a tip too small to count stands for it, since 0 is what a blank cell gives.
        tip = std::max(2 * row.number("r2"), 1e-300);
        length = row.number("height");
    }
    EXPECT_TRUE(agrees(row, 1e4 * limb_area(base, tip, length / 100)));
}

std::vector<Row> limb_rows() {
    std::vector<Row> found;
    for (Row& row : tests::rows("I_geometry.csv", {"frustum_lateral_area", "cylinder_lateral_area"})) {
        // The file writes a cylinder's length in the column `height` or `length`.
        if (!row.has("height")) row.columns["height"] = row["length"];
        found.push_back(std::move(row));
    }
    return found;
}

INSTANTIATE_TEST_SUITE_P(Reference, LimbArea, testing::ValuesIn(limb_rows()), tests::row_id);

struct Frustum {
    double base_m, tip_m, length_m;
};

/// Ring of the frustum's surface at `along` its axis.
double ring(double along, void* given) {
    const auto* limb = static_cast<const Frustum*>(given);
    const double taper = (limb->base_m - limb->tip_m) / 2 / limb->length_m;
    return M_PI * (limb->base_m + (limb->tip_m - limb->base_m) * along / limb->length_m) * std::sqrt(1 + taper * taper);
}

// Against the surface of revolution integrated numerically by GSL.
TEST(LimbAreaOracle, IsTheIntegralOfItsRings) {
    auto random = tests::draws(20270908);
    std::uniform_real_distribution<double> diameter(0.1, 100);
    std::uniform_real_distribution<double> length(0.01, 20);
    auto* workspace = gsl_integration_workspace_alloc(100);
    for (int round = 0; round < 5'000; ++round) {
        Frustum limb{diameter(random) / 100, diameter(random) / 100, length(random)};
        gsl_function integrand{&ring, &limb};
        double area = 0;
        double error = 0;
        gsl_integration_qag(&integrand, 0, limb.length_m, 0, 1e-12, 100, GSL_INTEG_GAUSS21, workspace, &area, &error);
        const double actual = limb_area(limb.base_m * 100, limb.tip_m * 100, limb.length_m);
        EXPECT_NEAR(actual, area, 1e-12 * area);
        EXPECT_DOUBLE_EQ(actual, limb_area(limb.tip_m * 100, limb.base_m * 100, limb.length_m)) << "either end first";
    }
    gsl_integration_workspace_free(workspace);
}

TEST(LimbAreaRefuses, WhatCannotBe) {
    for (const double bad : {0.0, -1.0, 1001.0, nan, infinity}) {
        EXPECT_EQ(refused(limb_area, bad, 5., 1.), "base_diameter_cm");
        EXPECT_EQ(refused(limb_area, 5., bad, 1.), "tip_diameter_cm");
        EXPECT_EQ(refused(limb_area, 5., 5., bad), "length_m");
    }
    EXPECT_NE(reason(limb_area, 5., 0., 1.).find("blank"), std::string::npos);
}

class Paint : public testing::TestWithParam<Row> {};

TEST_P(Paint, CoversTheArea) {
    const Row& row = GetParam();
    double area = 0;
    if (row["function"] == "paint_volume_trunk") {
        area = row.number("circumference") * (row.has("height") ? row.number("height") : row.number("length"));
    } else if (row["function"] == "paint_volume_stubs") {
        const double d = row.number("diameter");
        const double l = row.has("height") ? row.number("height") : row.number("length");
        area = row.number("n_stubs") * (M_PI * d * l + M_PI * d * d / 4);
    } else {
        const double r = row.number("r1");
        area = 2 * M_PI * r * (row.number("height") + r);
    }
    const double loss = row.has("loss") ? row.number("loss") : 0;
    const double litres = paint(area, row.number("coverage"), row.number("coats"), 0, loss);
    EXPECT_TRUE(agrees(row, litres));
    // Thinned one to one, the default, half of the mix is water.
    EXPECT_TRUE(agrees(row, 2 * paint(area, row.number("coverage"), row.number("coats"), {}, loss)));
    EXPECT_TRUE(agrees(row, 4 * paint(area, row.number("coverage"), row.number("coats"), 3, loss)));
}

INSTANTIATE_TEST_SUITE_P(Reference, Paint,
                         testing::ValuesIn(tests::rows("I_geometry.csv", {"paint_volume_closed_cylinder",
                                                                          "paint_volume_stubs", "paint_volume_trunk"})),
                         tests::row_id);

TEST(PaintAnswers, AtTheExtremes) {
    EXPECT_EQ(paint(0, 6), 0);
    EXPECT_TRUE(std::isfinite(paint(1e9, 0.01, 100, 0, std::nextafter(1.0, 0.0))));
}

TEST(PaintRefuses, WhatCannotBe) {
    for (const double bad : {-1.0, 2e9, nan, infinity}) {
        EXPECT_EQ(refused(paint, bad, 6., Optional{}, Optional{}, Optional{}), "area_m2");
    }
    for (const double bad : {0.0, -1.0, 0.001, 1001.0, nan}) {
        EXPECT_EQ(refused(paint, 1., bad, Optional{}, Optional{}, Optional{}), "coverage_m2_per_l");
    }
    for (const double bad : {0.0, 1.5, 101.0, nan}) {
        EXPECT_EQ(refused(paint, 1., 6., Optional{bad}, Optional{}, Optional{}), "coats");
    }
    for (const double bad : {-1.0, 101.0, nan}) {
        EXPECT_EQ(refused(paint, 1., 6., Optional{}, Optional{bad}, Optional{}), "water_parts");
    }
    for (const double bad : {-0.1, 1.0, 20.0, nan}) {
        EXPECT_EQ(refused(paint, 1., 6., Optional{}, Optional{}, Optional{bad}), "loss");
    }
}

class Tape : public testing::TestWithParam<Row> {};

// The reference is all in millimetres.
TEST_P(Tape, IsTheLengthOfTheHelix) {
    const Row& row = GetParam();
    const double metres = tape(row.number("diameter") / 10, row.number("height") / 10, row.number("tape_width"),
                               row.number("overlap"), row.number("extra_turns"));
    EXPECT_TRUE(agrees(row, metres * 1000));
}

INSTANTIATE_TEST_SUITE_P(Reference, Tape, testing::ValuesIn(tests::rows("I_geometry.csv", {"tape_length"})),
                         tests::row_id);

TEST(TapeTooWide, IsRefused) {
    for (const Row& row : tests::rows("I_geometry.csv", {"tape_feasible"})) {
        ASSERT_EQ(row["expected"], "FALSE") << row;
        EXPECT_EQ(refused(tape, row.number("diameter") / 10, 10., row.number("tape_width"),
                          Optional{row.number("overlap")}, Optional{}),
                  "tape_width_mm")
            << row;
    }
}

struct Helix {
    double radius, rise;
};

double helix_speed(double /*angle*/, void* given) {
    const auto* helix = static_cast<const Helix*>(given);
    return std::hypot(helix->radius, helix->rise);
}

// Against the arc length of the parametrised helix, the pitch found from the tape's free width, integrated by GSL.
TEST(TapeOracle, IsTheArcLengthOfTheHelix) {
    auto random = tests::draws(20270909);
    std::uniform_real_distribution<double> diameter(0.5, 60);
    std::uniform_real_distribution<double> height(0.1, 200);
    std::uniform_real_distribution<double> width(5, 100);
    std::uniform_real_distribution<double> overlap(0, 0.9);
    auto* workspace = gsl_integration_workspace_alloc(100);
    int wound = 0;
    for (int round = 0; round < 5'000; ++round) {
        const double d = diameter(random);
        const double h = height(random);
        const double w = width(random);
        const double lap = overlap(random);
        const double sine = w / 10 * (1 - lap) / (M_PI * d);
        if (sine > 0.999) {
            if (sine > 1) {
                EXPECT_EQ(refused(tape, d, h, w, Optional{lap}, Optional{}), "tape_width_mm");
            }
            continue;
        }
        const double pitch = M_PI * d * std::tan(std::asin(sine));
        Helix helix{d / 2, pitch / (2 * M_PI)};
        gsl_function speed{&helix_speed, &helix};
        double length = 0;
        double error = 0;
        gsl_integration_qag(&speed, 0, 2 * M_PI * h / pitch, 0, 1e-12, 100, GSL_INTEG_GAUSS21, workspace, &length,
                            &error);
        EXPECT_NEAR(tape(d, h, w, lap, 0), length / 100, 1e-10 * length / 100);
        ++wound;
    }
    gsl_integration_workspace_free(workspace);
    EXPECT_GT(wound, 3'000);
}

TEST(TapeRefuses, WhatCannotBe) {
    for (const double bad : {0.0, -1.0, 1001.0, nan}) {
        EXPECT_EQ(refused(tape, bad, 10., 25., Optional{}, Optional{}), "stub_diameter_cm");
    }
    for (const double bad : {-1.0, 10'001.0, nan}) {
        EXPECT_EQ(refused(tape, 8., bad, 25., Optional{}, Optional{}), "height_cm");
    }
    for (const double bad : {0.0, -1.0, 0.5, 1001.0, nan}) {
        EXPECT_EQ(refused(tape, 8., 10., bad, Optional{}, Optional{}), "tape_width_mm");
    }
    for (const double bad : {-0.1, 1.0, 50.0, nan}) {
        EXPECT_EQ(refused(tape, 8., 10., 25., Optional{bad}, Optional{}), "overlap");
    }
    for (const double bad : {-1.0, 101.0, nan}) {
        EXPECT_EQ(refused(tape, 8., 10., 25., Optional{}, Optional{bad}), "extra_turns");
    }
    EXPECT_TRUE(std::isfinite(tape(1000, 10'000, 1, std::nextafter(1.0, 0.0), 100)));
}

class WrapsPerRoll : public testing::TestWithParam<Row> {};

// So many wraps come out of one roll as one pack still covers, and one more needs a second.
TEST_P(WrapsPerRoll, FillOnePack) {
    const Row& row = GetParam();
    const double wraps = row.number("expected");
    EXPECT_EQ(packs(wraps * row.number("length"), row.number("roll_length")), 1) << row;
    EXPECT_EQ(packs((wraps + 1) * row.number("length"), row.number("roll_length")), 2) << row;
}

INSTANTIATE_TEST_SUITE_P(Reference, WrapsPerRoll, testing::ValuesIn(tests::rows("I_geometry.csv", {"wraps_per_roll"})),
                         tests::row_id);

class WorkedPacks : public testing::TestWithParam<Row> {};

TEST_P(WorkedPacks, Agree) {
    const Row& row = GetParam();
    const auto spare = row.has("spare") ? Optional{row.number("spare")} : Optional{};
    EXPECT_TRUE(agrees(row, packs(row.number("units"), row.number("pack_size"), spare)));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedPacks, testing::ValuesIn(tests::rows("worked_examples_money.csv", {"PACKS"})),
                         tests::row_id);

// Never short and never a whole pack too many, judged in whole numbers: hundredths of a unit, spare in per cent.
TEST(Packs, CoverTheNeedAndNoMore) {
    auto random = tests::draws(20270910);
    std::uniform_int_distribution<std::int64_t> units(0, 1'000'000);
    std::uniform_int_distribution<std::int64_t> size(1, 5'000);
    std::uniform_int_distribution<std::int64_t> spare(0, 200);
    int exact = 0;
    for (int round = 0; round < 100'000; ++round) {
        const auto holds = size(random);
        const bool even = round % 2 == 0;  // an exact number of packs, where rounding errors would show
        const auto need = even ? 20 * holds * (round % 50) : units(random);
        const auto percent = even ? 5 * (spare(random) / 5) : spare(random);
        const auto wanted = need * (100 + percent);  // in ten-thousandths of a unit, as is 100 * holds
        const auto expected = (wanted + 100 * holds - 1) / (100 * holds);
        if (wanted % (100 * holds) == 0) ++exact;
        EXPECT_EQ(packs(static_cast<double>(need) / 100, static_cast<double>(holds) / 100,
                        static_cast<double>(percent) / 100),
                  static_cast<double>(expected))
            << need << " " << holds << " " << percent;
    }
    EXPECT_GE(exact, 50'000) << "exact multiples must be among the draws";
}

TEST(Packs, AnswerAtTheExtremes) {
    EXPECT_EQ(packs(0, 5), 0);
    EXPECT_FALSE(std::signbit(packs(0, 5)));
    EXPECT_EQ(packs(1e-300, 1e9), 1) << "however little, it takes a pack";
    EXPECT_EQ(packs(1e9, 1), 1e9);
}

TEST(Packs, RefuseWhatCannotBe) {
    for (const double bad : {-1.0, 2e9, nan, infinity}) EXPECT_EQ(refused(packs, bad, 1., Optional{}), "units");
    for (const double bad : {0.0, -1.0, 2e9, nan}) EXPECT_EQ(refused(packs, 1., bad, Optional{}), "pack_size");
    for (const double bad : {-0.1, 2.1, 15.0, nan}) EXPECT_EQ(refused(packs, 1., 1., Optional{bad}), "spare");
    EXPECT_EQ(refused(packs, 1e9, 1e-300, Optional{}), "pack_size") << "the quotient itself overflows";
}

class WorkedDilute : public testing::TestWithParam<Row> {};

TEST_P(WorkedDilute, Agree) {
    const Row& row = GetParam();
    EXPECT_TRUE(agrees(row, dilute(row.number("stock_strength"), row.number("target_strength"), row.number("volume"))));
}

INSTANTIATE_TEST_SUITE_P(Examples, WorkedDilute,
                         testing::ValuesIn(tests::rows("worked_examples_money.csv", {"DILUTE"})), tests::row_id);

TEST(Dilute, KeepsTheActiveSubstance) {
    auto random = tests::draws(20270911);
    std::uniform_real_distribution<double> share(1e-6, 1);
    for (int round = 0; round < 10'000; ++round) {
        const double a = share(random);
        const double b = share(random);
        const double volume = 1000 * share(random);
        const double part = dilute(std::max(a, b), std::min(a, b), volume);
        EXPECT_LE(part, volume * (1 + 1e-15));
        EXPECT_NEAR(part * std::max(a, b), volume * std::min(a, b), 1e-14 * volume);
    }
    EXPECT_EQ(dilute(0.05, 0.05, 7), 7);
    EXPECT_EQ(dilute(0.05, 0.01, 0), 0);
}

TEST(Dilute, RefusesWhatCannotBe) {
    for (const double bad : {0.0, -0.1, 5.0, nan}) {
        EXPECT_EQ(refused(dilute, bad, 0.01, 1.), "stock_strength");
        EXPECT_EQ(refused(dilute, 0.05, bad, 1.), "target_strength");
    }
    EXPECT_EQ(refused(dilute, 0.05, 0.06, 1.), "target_strength") << "stronger than the stock";
    EXPECT_NE(reason(dilute, 5., 0.01, 1.).find("5 % is 0.05"), std::string::npos);
    for (const double bad : {-1.0, 2e9, nan}) EXPECT_EQ(refused(dilute, 0.05, 0.01, bad), "volume");
}

}  // namespace
}  // namespace slipbark::materials

#include "slipbark/water.hpp"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <string>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/defaults.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::water {
namespace {

using tests::iso;
using tests::reason;
using tests::refused;

// The published values and those computed elsewhere are whole calls: tests/reference/Y_water.csv. What follows was
// written apart from the functions, from the words of the handbook.

// ---- A second reckoning

constexpr double radians_of_degree = std::numbers::pi / 180;

int day_of_year(int year, int month, int day) {
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    constexpr std::array before{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    return before.at(static_cast<std::size_t>(month) - 1) + day + (leap && month > 2 ? 1 : 0);
}

struct Beam {
    double latitude, declination;
};

/// Sine of the sun's height at an hour angle, 0 below the horizon: what of the beam a level plane gets.
double level(double hour_angle, void* data) {
    const auto& beam = *static_cast<const Beam*>(data);
    return std::max(0.0, std::sin(beam.latitude) * std::sin(beam.declination) +
                             std::cos(beam.latitude) * std::cos(beam.declination) * std::cos(hour_angle));
}

/// The beam added up over the day, MJ per m2: solar constant 0.0820 MJ per m2 and minute, the minutes of a turn.
double radiation(int year, int month, int day, double latitude) {
    const double turn = 2 * std::numbers::pi * day_of_year(year, month, day) / 365;
    Beam beam{latitude * radians_of_degree, 0.409 * std::sin(turn - 1.39)};
    gsl_set_error_handler_off();
    const std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)> space(
        gsl_integration_workspace_alloc(1000), &gsl_integration_workspace_free);
    gsl_function function{&level, &beam};
    double half = 0;
    double error = 0;
    gsl_integration_qag(&function, 0, std::numbers::pi, 1e-13, 1e-13, 1000, GSL_INTEG_GAUSS61, space.get(), &half,
                        &error);
    const double minutes_of_radian = 24 * 60 / (2 * std::numbers::pi);
    return 0.0820 * (1 + 0.033 * std::cos(turn)) * 2 * half * minutes_of_radian;
}

/// Latent heat 2.45 MJ per mm, as 0.408 mm per MJ; 0.0023 of Hargreaves.
double evaporation(double radiation_mj, double low, double high) {
    const double water = radiation_mj * 0.408;
    return 0.0023 * water * (0.5 * low + 0.5 * high + 17.8) * std::exp(0.5 * std::log(high - low));
}

/// Of dry ground in still, dry enough weather: wind 2 m/s, humidity 45 %, density 1.5.
double coefficient(double cover, double height, double leaves) {
    const double full = leaves * (height < 2 ? 1 + height / 10 : 1.2);
    const double by_shade = cover * 3 / 2;
    const double by_height = std::exp(std::log(cover) / (height + 1));
    double part = by_shade < by_height ? by_shade : by_height;
    if (part > 1) part = 1;
    return 0.15 * (1 - part) + full * part;
}

double usable(double rain) { return rain > 250 ? 125 + rain / 10 : rain - rain * rain / 625; }

struct Weather {
    double low, high, rain;
};

struct Place {
    const char* what;
    double latitude;
    int year, first_month;             // in which the trees were cut back
    std::array<Weather, 12> by_month;  // January first
};

// Invented; warm and dry, one on each side of the equator. 2028 is a leap year.
constexpr std::array places{
    Place{"south",
          -34.5,
          2027,
          9,
          {{{17.2, 31.4, 20},
            {16.9, 30.6, 22},
            {14.1, 27.2, 26},
            {10.2, 22.6, 30},
            {7.1, 18.4, 38},
            {4.1, 15.3, 41},
            {3.6, 14.9, 40},
            {4.4, 16.8, 42},
            {6.7, 20.1, 40},
            {9.6, 24.0, 38},
            {12.6, 27.6, 290},
            {15.2, 29.9, 0}}}},
    Place{"north",
          38.2,
          2028,
          2,
          {{{2.1, 13.2, 310},
            {3.0, 15.1, 75},
            {4.6, 17.9, 60},
            {6.9, 20.6, 35},
            {10.1, 25.4, 18},
            {14.0, 30.2, 4},
            {16.6, 34.1, 0},
            {16.4, 33.7, 1},
            {13.9, 29.4, 15},
            {10.0, 23.6, 48},
            {5.6, 17.2, 82},
            {2.9, 13.6, 95}}}},
};

// A whole year after cutting back, from temperatures and rain to litres: the chain of functions as a sheet has it, and
// the second reckoning day by day.
TEST(TreeWater, AgreesWithASecondReckoningOfAWholeYear) {
    constexpr double row_spacing = 5;
    constexpr double tree_spacing = 3.5;
    constexpr double efficiency = 0.9;
    for (const Place& place : places) {
        DayList months;
        List reference;
        List rain;
        List coefficients;
        std::array<double, 12> litres{};
        double of_the_year = 0;
        for (int at = 0; at < 12; ++at) {
            const int month = (place.first_month - 1 + at) % 12 + 1;
            const int year = place.year + (place.first_month - 1 + at) / 12;
            const Weather& weather = place.by_month.at(static_cast<std::size_t>(month) - 1);
            const auto middle = iso(std::to_string(year) + (month < 10 ? "-0" : "-") + std::to_string(month) + "-15");
            // Middle of the first month: half a month old.
            const double years = (at + 0.5) / 12;
            const double share = canopy_share(years);
            months.days.emplace_back(middle);
            reference.cells.emplace_back(reference_et(middle, place.latitude, weather.low, weather.high));
            rain.cells.emplace_back(weather.rain);
            coefficients.cells.emplace_back(crop_coefficient(0.65 * share, 1.2 + 2.6 * share, 0.57));

            // Assumed: 5, 10, 20, 50 % after 0, 3, 6, 12 months.
            const double age = at + 0.5;
            const double canopy = age < 3   ? 0.05 + age * 0.05 / 3
                                  : age < 6 ? 0.10 + (age - 3) * 0.10 / 3
                                            : 0.20 + (age - 6) * 0.30 / 6;
            const double a_day = coefficient(0.65 * canopy, 1.2 + 2.6 * canopy, 0.57) *
                                 evaporation(radiation(year, month, 15, place.latitude), weather.low, weather.high);
            const int next = month == 12 ? 366 : day_of_year(year, month + 1, 1);
            int last = next - day_of_year(year, month, 1);
            if (month == 12) last = 31;
            double use = 0;
            for (int day = 1; day <= last; ++day) use += a_day;
            const double short_of = use - usable(weather.rain);
            if (short_of > 0) litres.at(static_cast<std::size_t>(at)) = short_of * row_spacing * tree_spacing / 0.9;
            of_the_year += litres.at(static_cast<std::size_t>(at));
        }
        months.length = reference.length = rain.length = coefficients.length = 12;
        const auto found = tree_water(months, reference, rain, coefficients, row_spacing * tree_spacing, efficiency);
        ASSERT_EQ(found.size(), 12U);
        double total = 0;
        for (std::size_t at = 0; at < 12; ++at) {
            EXPECT_NEAR(found[at].litres_a_tree, litres.at(at), 1e-9 * of_the_year) << place.what << " month " << at;
            EXPECT_NEAR(found[at].need_mm, litres.at(at) * efficiency / 17.5, 1e-9 * of_the_year);
            total += found[at].litres_a_tree;
        }
        EXPECT_GT(of_the_year, 1000) << place.what << ": a year without any need would prove nothing";
        EXPECT_NEAR(total, of_the_year, 1e-9 * of_the_year) << place.what;
    }
}

TEST(SunEnergy, IsTheBeamOnALevelPlaneAddedUpOverTheDay) {
    for (const double latitude : {-90., -66.5, -34.5, 0., 23.4, 51., 70., 90.}) {
        for (int month = 1; month <= 12; ++month) {
            const auto day = iso(std::string("2026-") + (month < 10 ? "0" : "") + std::to_string(month) + "-15");
            EXPECT_NEAR(sun_energy(day, latitude), radiation(2026, month, 15, latitude), 1e-7)
                << latitude << " month " << month;
        }
    }
}

TEST(SunEnergy, IsNothingInPolarNightAndNeverBelow) {
    for (int day = 0; day < 366; ++day) {
        for (const double latitude : {-90., -70., 70., 90.}) {
            EXPECT_GE(sun_energy(iso("2028-01-01") + std::chrono::days{day}, latitude), 0);
        }
    }
    EXPECT_EQ(sun_energy(iso("2026-12-21"), 80), 0);
}

// FAO Irrigation and Drainage Paper 56, table 12 (seen in public programs that quote it): citrus of 70 % cover and 4 m
// has a single crop coefficient of 0.65 to 0.70 and bare ground, whose basal one is some 0.05 less.
TEST(CropCoefficient, OfCitrusIsThatOfTheHandbookWhereLeavesClose) {
    const double basal = crop_coefficient(0.7, 4, 0.57);
    EXPECT_GE(basal, 0.60);
    EXPECT_LE(basal, 0.65);
}

TEST(CropCoefficient, RisesWithCoverFromBareGround) {
    for (const double height : {0.5, 1.2, 4.0, 12.0}) {
        double before = 0;
        for (int step = 0; step <= 20; ++step) {
            const double now = crop_coefficient(step / 20.0, height);
            EXPECT_GE(now, before) << height << " " << step;
            before = now;
        }
        EXPECT_EQ(crop_coefficient(0, height), 0.15);
    }
}

TEST(CanopyShare, OfTheBuiltInTableFedBackIsTheSame) {
    const Table pasted = defaults::table("canopy");
    for (int month = 0; month <= 48; ++month) {
        EXPECT_EQ(canopy_share(month / 12.0, pasted), canopy_share(month / 12.0)) << month;
    }
    EXPECT_EQ(canopy_share(0), 0.05);
    EXPECT_EQ(canopy_share(3), 1);
    EXPECT_EQ(canopy_share(40), 1);
}

TEST(CanopyShareRefuses, WhatIsNoRegrowth) {
    EXPECT_EQ(refused([] { canopy_share(-0.1); }), "years");
    EXPECT_EQ(refused([] { canopy_share(1001); }), "years");
    const auto with = [](std::vector<Cell> cells, std::size_t columns = 2) {
        return refused([&] { canopy_share(1, Table(columns, cells)); });
    };
    EXPECT_EQ(with({0., 0.1, 1., 0.5}), "");
    EXPECT_EQ(with({0., 0.1}), "");
    EXPECT_EQ(with({0., 0.1, 0., 0.5}), "regrowth");
    EXPECT_EQ(with({0., 0.1, 1., 50.}), "regrowth");
    EXPECT_EQ(with({0., 0.1, 1., -0.5}), "regrowth");
    EXPECT_EQ(with({0., 0.1}, 1), "regrowth");
    EXPECT_EQ(with({{}, {}}), "regrowth");
}

TEST(EffectiveRain, IsNeverMoreThanTheRainAndMeetsAtTheBend) {
    for (double rain = 0; rain <= 1000; rain += 7) {
        EXPECT_LE(effective_rain(rain), rain);
        EXPECT_NEAR(effective_rain(rain), usable(rain), 1e-10);
    }
    EXPECT_NEAR(effective_rain(std::nextafter(250, 0)), effective_rain(std::nextafter(250, 300)), 1e-9);
    EXPECT_EQ(effective_rain(80, Scalar(std::string(" USDA "))), effective_rain(80));
    EXPECT_EQ(effective_rain(80, Scalar(0.0)), 0);
}

TEST(EffectiveRainRefuses, WhatIsNoMethod) {
    EXPECT_EQ(refused([] { effective_rain(10, Scalar(80.0)); }), "method");
    EXPECT_EQ(refused([] { effective_rain(10, Scalar(-0.1)); }), "method");
    EXPECT_EQ(refused([] { effective_rain(10, Scalar(std::string("fao"))); }), "method");
    EXPECT_EQ(refused([] { effective_rain(5001); }), "rain_mm");
    EXPECT_NE(reason([] { effective_rain(10, Scalar(80.0)); }).find("80 % is 0.8"), std::string::npos);
}

TEST(TreeWater, SkipsBlankRowsAtTheEndOnly) {
    const DayList months{iso("2027-12-05"), iso("2028-01-31"), {}};
    const List reference{6., 6., {}};
    const List rain{0., 0., {}};
    EXPECT_EQ(tree_water(months, reference, rain, {0.5}, 20).size(), 2U);
    EXPECT_EQ(refused([&] { tree_water(months, {6., {}, 6.}, rain, {0.5}, 20); }), "reference_et");
    EXPECT_EQ(refused([&] { tree_water(months, reference, {0., 0., 5.}, {0.5}, 20); }), "months");
    EXPECT_EQ(refused([&] { tree_water({{}}, {{}}, {{}}, {0.5}, 20); }), "months");
    EXPECT_EQ(refused([&] { tree_water(months, reference, rain, {0.5, 0.6}, 20); }), "crop_coeff");
    EXPECT_EQ(refused([&] { tree_water(months, reference, rain, {}, 20); }), "crop_coeff");
    EXPECT_EQ(refused([&] { tree_water(months, reference, rain, {0.5}, 0); }), "area_m2");
    EXPECT_EQ(refused([&] { tree_water(months, reference, rain, {0.5}, 20, 0); }), "efficiency");
    EXPECT_NE(reason([&] { tree_water(months, reference, rain, {0.5}, 20, 85); }).find("85 % is 0.85"),
              std::string::npos);
}

TEST(WaterRefuses, WhatIsNoPlaceTemperatureOrTree) {
    const Day day = iso("2027-09-06");
    const double nan = std::nan("");
    for (const double bad : {-91., 91., nan}) EXPECT_EQ(refused([&] { sun_energy(day, bad); }), "latitude") << bad;
    EXPECT_EQ(refused([&] { sun_energy(iso("1899-12-31"), 0); }), "date");
    EXPECT_EQ(refused([&] { reference_et(day, 40, 20, 10); }), "low_c");
    EXPECT_EQ(refused([&] { reference_et(day, 40, -61, 10); }), "low_c");
    EXPECT_EQ(refused([&] { reference_et(day, 40, 10, 86); }), "high_c");
    EXPECT_EQ(refused([&] { crop_coefficient(70, 4); }), "cover");
    for (const double bad : {0., -1., 21., nan}) EXPECT_EQ(refused([&] { crop_coefficient(0.5, bad); }), "height_m");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 0); }), "stomatal");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 57); }), "stomatal");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 1, 1.3); }), "bare");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 1, 0.1, 3.1); }), "density");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 1, 0.1, 1.5, 0.5); }), "wind_m_s");
    EXPECT_EQ(refused([&] { crop_coefficient(0.5, 3, 1, 0.1, 1.5, 2, 45); }), "humidity_low");
}

}  // namespace
}  // namespace slipbark::water

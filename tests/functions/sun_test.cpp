#include "slipbark/sun.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "common.hpp"
#include "reference.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::sun {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;
using tests::iso;
using tests::refused;
using tests::Row;

constexpr double degree = std::numbers::pi / 180;

/// "2026-02-10T15:45:00"; the time may be missing.
Moment moment(const std::string& text) {
    Moment at{iso(text.substr(0, 10)).time_since_epoch()};
    const auto digits = [&text](std::size_t from) { return std::stoi(text.substr(from, 2)); };
    if (text.size() >= 16) at += hours{digits(11)} + minutes{digits(14)};
    if (text.size() >= 19 && text[16] == ':') at += seconds{digits(17)};
    return at;
}

/// The difference of two bearings, within half a turn.
double turn(double from, double to) { return std::remainder(to - from, 360); }

// ---- The NOAA equations themselves, computed elsewhere

class Noaa : public testing::TestWithParam<Row> {};

TEST_P(Noaa, AgreesToTheLastDigits) {
    const Row& row = GetParam();
    const Moment utc = moment(row["utc"]);
    const auto actual = [&] {
        if (row["function"] == "noaa_declination_deg") return declination(utc);
        if (row["function"] == "noaa_equation_of_time_min") return equation_of_time(utc);
        if (row["function"] == "noaa_azimuth_deg") return bearing(utc, 0, row.number("lat"), row.number("lon"));
        return height(utc, 0, row.number("lat"), row.number("lon"));
    };
    EXPECT_TRUE(agrees(row, actual()));
}

INSTANTIATE_TEST_SUITE_P(Reference, Noaa,
                         testing::ValuesIn(tests::rows("J_solar_position.csv",
                                                       {"noaa_true_elevation_deg", "noaa_azimuth_deg",
                                                        "noaa_declination_deg", "noaa_equation_of_time_min"})),
                         tests::row_id);

TEST(Declination, AgreesWithTheBookThatTheSeriesIsFrom) {
    for (const Row& row : tests::rows("J_solar_position.csv", {"meeus_declination_deg"})) {
        EXPECT_EQ(row["jde"], "2448908.5") << "1992-10-13 0:00";
        EXPECT_TRUE(agrees(row, declination(moment("1992-10-13"))));
    }
}

// ---- Full-precision positions by others, to the error that the low-precision series is known to have

/// The tolerance that such a row states for NOAA's low-precision equations: "abs 0.001 (SPA) / abs 0.02 (NOAA ...)".
double allowed(const Row& row, double elevation) {
    const std::string& text = row["tolerance"];
    const auto noaa = text.find("(NOAA");
    const auto start = text.rfind("abs ", noaa);
    if (start == std::string::npos) throw std::runtime_error("no tolerance in " + row["id"]);
    const double degrees = std::stod(text.substr(start + 4));
    return text.find("/cos(elevation)") == std::string::npos ? degrees : degrees / std::cos(elevation * degree);
}

class FullPrecision : public testing::TestWithParam<Row> {};

TEST_P(FullPrecision, IsMetWithinTheStatedError) {
    const Row& row = GetParam();
    if (row["function"] == "equation_of_time_min") {
        const Moment utc = moment(row.has("utc") ? row["utc"] : row["date"]);
        EXPECT_NEAR(equation_of_time(utc), row.number("expected"), allowed(row, 0)) << row;
        return;
    }
    const Moment utc = moment(row["utc"]);
    const double elevation = height(utc, 0, row.number("lat"), row.number("lon"));
    if (row["function"] == "true_elevation_deg") {
        EXPECT_NEAR(elevation, row.number("expected"), allowed(row, elevation)) << row;
    } else {
        const double actual = bearing(utc, 0, row.number("lat"), row.number("lon"));
        EXPECT_LE(std::abs(turn(actual, row.number("expected"))), allowed(row, elevation)) << actual << " " << row;
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, FullPrecision,
                         testing::ValuesIn(tests::rows("J_solar_position.csv",
                                                       {"azimuth_deg", "true_elevation_deg", "equation_of_time_min"})),
                         tests::row_id);

// ---- Properties

Moment random_moment(std::mt19937& random) {
    return moment("1900-01-02") + hours{24} * static_cast<int>(random() % 110'000) +
           seconds{static_cast<int>(random() % 86'400)};
}

/// The direction to the sun in the axes of the earth, from what is seen at one place.
std::array<double, 3> earth_direction(double at_bearing, double at_height, double latitude, double longitude) {
    const double north = std::cos(at_height * degree) * std::cos(at_bearing * degree);
    const double east = std::cos(at_height * degree) * std::sin(at_bearing * degree);
    const double up = std::sin(at_height * degree);
    const double lat = latitude * degree;
    const double lon = longitude * degree;
    const double outward = up * std::cos(lat) - north * std::sin(lat);
    return {outward * std::cos(lon) - east * std::sin(lon), outward * std::sin(lon) + east * std::cos(lon),
            up * std::sin(lat) + north * std::cos(lat)};
}

TEST(Sun, IsInOneDirectionSeenFromAnywhere) {
    std::mt19937 random(1998);
    const auto between = [&random](double from, double to) {
        return std::uniform_real_distribution<double>(from, to)(random);
    };
    for (int trial = 0; trial < 5000; ++trial) {
        const Moment utc = random_moment(random);
        const double latitude = trial % 10 == 0 ? (trial % 20 == 0 ? 90 : -90) : between(-90, 90);
        const double longitude = between(-180, 180);
        const double here = bearing(utc, 0, latitude, longitude);
        const double up = height(utc, 0, latitude, longitude);
        ASSERT_TRUE(here >= 0 && here < 360) << here;
        ASSERT_TRUE(up >= -90 && up <= 90) << up;
        const auto seen = earth_direction(here, up, latitude, longitude);
        const auto from_greenwich = earth_direction(bearing(utc, 0, 0, 0), height(utc, 0, 0, 0), 0, 0);
        for (std::size_t axis = 0; axis < 3; ++axis) EXPECT_NEAR(seen.at(axis), from_greenwich.at(axis), 1e-12);
    }
}

TEST(Sun, DoesNotMindWhichClockTellsTheTime) {
    std::mt19937 random(1999);
    for (int trial = 0; trial < 1000; ++trial) {
        const Moment utc = random_moment(random);
        const int quarters = static_cast<int>(random() % 113) - 56;  // -14 to 14 hours
        const Moment local = utc + minutes{15} * quarters;
        EXPECT_EQ(bearing(local, quarters / 4., 41.62, 0.62), bearing(utc, 0, 41.62, 0.62));
        EXPECT_EQ(height(local, quarters / 4., 41.62, 0.62), height(utc, 0, 41.62, 0.62));
    }
}

TEST(Sun, AtThePolesIsAsHighAsItsDeclination) {
    std::mt19937 random(2000);
    for (int trial = 0; trial < 1000; ++trial) {
        const Moment utc = random_moment(random);
        EXPECT_NEAR(height(utc, 0, 90, 33), declination(utc), 1e-9);
        EXPECT_NEAR(height(utc, 0, -90, 33), -declination(utc), 1e-9);
        // A step before the pole, on the same meridian, the bearing is the same.
        EXPECT_NEAR(turn(bearing(utc, 0, 90, 33), bearing(utc, 0, 90 - 1e-9, 33)), 0, 1e-6);
        EXPECT_NEAR(turn(bearing(utc, 0, -90, 33), bearing(utc, 0, -90 + 1e-9, 33)), 0, 1e-6);
    }
}

TEST(Sun, IsFiniteAtTheEndsOfTheCalendar) {
    for (const char* date : {"1900-01-01", "9999-12-31"}) {
        for (const double offset : {-14., 14.}) {
            for (const double latitude : {-90., 0., 90.}) {
                EXPECT_TRUE(std::isfinite(bearing(moment(date), offset, latitude, 180))) << date;
                EXPECT_TRUE(std::isfinite(height(moment(date), offset, latitude, -180))) << date;
            }
        }
    }
}

TEST(SunRefuses, WhatIsNoPlaceOrTime) {
    const Moment noon = moment("2027-09-06T12:00");
    const double nan = std::nan("");
    for (const double bad : {-91., 91., nan}) EXPECT_EQ(refused([&] { bearing(noon, 0, bad, 0); }), "latitude") << bad;
    for (const double bad : {-181., 181., nan})
        EXPECT_EQ(refused([&] { height(noon, 0, 0, bad); }), "longitude") << bad;
    for (const double bad : {-15., 15., nan}) EXPECT_EQ(refused([&] { bearing(noon, bad, 0, 0); }), "utc_offset_h");
    EXPECT_EQ(refused([&] { height(moment("1899-12-31T23:59"), 0, 0, 0); }), "date_time");
    EXPECT_EQ(refused([&] { height(moment("9999-12-31T23:59") + minutes{1}, 0, 0, 0); }), "date_time");
}

// ---- The compass

TEST(CompassPoint, IsTheNearestOne) {
    // The names of the 16 points in order, each 22.5 degrees on: common knowledge.
    const std::array<const char*, 16> names{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
                                            "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    for (std::size_t point = 0; point < names.size(); ++point) {
        const double centre = 22.5 * static_cast<double>(point);
        for (const double turned : {-360., 0., 360.}) {
            for (const double off : {-11.25, -11.2, 0., 11.2}) {
                if (centre + turned + off < -360 || centre + turned + off > 720) continue;
                EXPECT_EQ(compass_point(centre + turned + off, 16), names.at(point)) << centre + turned + off;
                if (point % 2 == 0) {
                    EXPECT_EQ(compass_point(centre + turned + 2 * off), names.at(point));
                }
                if (point % 4 == 0 && centre + turned + 4 * off >= -360) {
                    EXPECT_EQ(compass_point(centre + turned + 4 * off, 4), names.at(point));
                }
            }
        }
    }
    EXPECT_EQ(compass_point(359.9999), "N");
    EXPECT_EQ(compass_point(360), "N");
    EXPECT_EQ(compass_point(-1e-18), "N");
    EXPECT_EQ(compass_point(22.5), "NE") << "half-way counts clockwise";
}

TEST(CompassPointRefuses, WhatIsNoBearing) {
    for (const double bad : {-361., 721., std::nan(""), HUGE_VAL}) {
        EXPECT_EQ(refused([&] { compass_point(bad); }), "bearing") << bad;
    }
    for (const double bad : {0., 1., 8.5, 32., -8., std::nan("")}) {
        EXPECT_EQ(refused([&] { compass_point(0, bad); }), "points") << bad;
    }
}

}  // namespace
}  // namespace slipbark::sun

#include "slipbark/sun.hpp"

#include <algorithm>
#include <array>
#include <boost/math/constants/constants.hpp>
#include <chrono>
#include <cmath>

#include "slipbark/dates.hpp"
#include "support/checks.hpp"

namespace slipbark::sun {

namespace {

using boost::math::double_constants::degree;
using boost::math::double_constants::radian;

/// `value` in 0 to below `turn`.
double wrapped(double value, double turn) {
    const double rest = std::fmod(value, turn);
    const double positive = rest < 0 ? rest + turn : rest;
    return positive < turn ? positive : 0;  // a rest of -1E-17 would else round up to a whole turn
}

/// Days since 2000-01-01 12:00, whose Julian Date is 2451545.
double days_since_2000(Moment utc) {
    const Moment epoch{std::chrono::local_days{std::chrono::January / 1 / 2000} + std::chrono::hours{12}};
    return std::chrono::duration<double, std::ratio<86400>>(utc - epoch).count();
}

/// The quantities of the NOAA calculator that the rest is made of, angles in radians.
struct Series {
    double declination = 0;
    double equation_of_time_min = 0;
};

Series series(Moment utc) {
    const double t = days_since_2000(utc) / 36525;  // Julian centuries
    const double mean_longitude = wrapped(280.46646 + t * (36000.76983 + t * 0.0003032), 360) * degree;
    const double anomaly = wrapped(357.52911 + t * (35999.05029 - t * 0.0001537), 360) * degree;
    const double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
    const double centre = std::sin(anomaly) * (1.914602 - t * (0.004817 + t * 0.000014)) +
                          std::sin(2 * anomaly) * (0.019993 - t * 0.000101) + std::sin(3 * anomaly) * 0.000289;
    const double node = (125.04 - 1934.136 * t) * degree;  // of the moon's orbit: nutation in its simplest form
    const double longitude = mean_longitude + (centre - 0.00569 - 0.00478 * std::sin(node)) * degree;
    const double arc_seconds = 21.448 - t * (46.815 + t * (0.00059 - t * 0.001813));
    const double obliquity = (23 + (26 + arc_seconds / 60) / 60 + 0.00256 * std::cos(node)) * degree;

    const double half_tangent = std::tan(obliquity / 2);
    const double y = half_tangent * half_tangent;
    const double equation = y * std::sin(2 * mean_longitude) - 2 * eccentricity * std::sin(anomaly) +
                            4 * eccentricity * y * std::sin(anomaly) * std::cos(2 * mean_longitude) -
                            y * y / 2 * std::sin(4 * mean_longitude) -
                            1.25 * eccentricity * eccentricity * std::sin(2 * anomaly);
    const double sine = std::sin(obliquity) * std::sin(longitude);
    return {std::asin(std::clamp(sine, -1.0, 1.0)), 4 * equation * radian};
}

/// Where the sun stands, degrees.
struct Position {
    double bearing = 0;
    double height = 0;
};

Position position(Moment date_time, double utc_offset_h, double latitude, double longitude) {
    const auto day = std::chrono::floor<std::chrono::days>(date_time);
    check::day("date_time", Day{day.time_since_epoch()});
    check::number("utc_offset_h", utc_offset_h, -14, 14);
    check::number("latitude", latitude, -90, 90);
    check::number("longitude", longitude, -180, 180);

    const Moment utc = date_time - std::chrono::milliseconds{std::llround(utc_offset_h * 3'600'000)};
    const Series now = series(utc);
    const auto midnight = std::chrono::floor<std::chrono::days>(utc);
    const double clock_min = std::chrono::duration<double, std::ratio<60>>(utc - midnight).count();
    const double solar_min = wrapped(clock_min + now.equation_of_time_min + 4 * longitude, 1440);
    const double hour_angle = (solar_min / 4 - 180) * degree;

    const double here = latitude * degree;
    // East, north and up. Of these both angles follow without a special case anywhere, the poles included.
    const double east = -std::cos(now.declination) * std::sin(hour_angle);
    const double north =
        std::sin(now.declination) * std::cos(here) - std::cos(now.declination) * std::sin(here) * std::cos(hour_angle);
    const double up =
        std::sin(now.declination) * std::sin(here) + std::cos(now.declination) * std::cos(here) * std::cos(hour_angle);
    return {wrapped(std::atan2(east, north) * radian, 360), std::atan2(up, std::hypot(east, north)) * radian};
}

}  // namespace

double bearing(Moment date_time, double utc_offset_h, double latitude, double longitude) {
    return position(date_time, utc_offset_h, latitude, longitude).bearing;
}

double height(Moment date_time, double utc_offset_h, double latitude, double longitude) {
    return position(date_time, utc_offset_h, latitude, longitude).height;
}

std::string compass_point(double bearing, std::optional<double> points) {
    check::number("bearing", bearing, -360, 720);
    const double count = points.value_or(8);
    if (count == 0) throw bad_argument("points", translatable("{1} was 0 (the cell may be blank): give 4, 8 or 16."));
    if (count != 4 && count != 8 && count != 16) {
        throw bad_argument("points", translatable("{1} was {2}: give 4, 8 or 16."), {count});
    }
    constexpr std::array<const char*, 16> names{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
                                                "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    const double step = 360 / count;
    const double nearest = wrapped(std::floor(wrapped(bearing, 360) / step + 0.5), count);
    return names.at(static_cast<std::size_t>(nearest * (16 / count)));
}

double declination(Moment utc) { return series(utc).declination * radian; }

double equation_of_time(Moment utc) { return series(utc).equation_of_time_min; }

}  // namespace slipbark::sun

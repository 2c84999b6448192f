// Sun: where it stands, for the side that must be shaded and painted.
//
// The low-precision series of Meeus in the arrangement of the NOAA solar calculator. Against the NREL Solar Position
// Algorithm the height is within 0.02 degrees in the years 1950 to 2050, and the bearing within 0.02 / cos(height);
// beyond, the error grows slowly. Refraction, which lifts a sun on the horizon by half a degree, is left aside.
#pragma once

#include <optional>
#include <string>

#include "slipbark/values.hpp"

namespace slipbark::sun {

/// Bearing of the sun.
///
/// date_time     date and time that the local clock shows; years 1900 to 9999
/// utc_offset_h  what that clock is ahead of UTC, summer time included; hours, -14 to 14
/// latitude      degrees, north positive; -90 to 90. At a pole the bearing is counted from the meridian of `longitude`,
///               as one sees it a step before the pole on that meridian
/// longitude     degrees, east positive; -180 to 180
/// returns       degrees clockwise from true north, 0 to below 360; also for a sun below the horizon
/// throws        bad_argument outside these ranges
/// accuracy      0.02 degrees / cos(height) in the years 1950 to 2050
/// source        Meeus (1998) Astronomical Algorithms, 2nd ed., ch. 25 and 28; NOAA Global Monitoring Laboratory, solar
///               calculation details, https://gml.noaa.gov/grad/solcalc/calcdetails.html
double bearing(Moment date_time, double utc_offset_h, double latitude, double longitude);

/// Height of the sun above the horizon, without refraction.
///
/// date_time     date and time that the local clock shows; years 1900 to 9999
/// utc_offset_h  what that clock is ahead of UTC, summer time included; hours, -14 to 14
/// latitude      degrees, north positive; -90 to 90
/// longitude     degrees, east positive; -180 to 180
/// returns       degrees, -90 to 90; below 0 the sun is down
/// throws        bad_argument outside these ranges
/// accuracy      0.02 degrees in the years 1950 to 2050
/// source        Meeus (1998) Astronomical Algorithms, 2nd ed., ch. 25 and 28; NOAA Global Monitoring Laboratory, solar
///               calculation details, https://gml.noaa.gov/grad/solcalc/calcdetails.html
double height(Moment date_time, double utc_offset_h, double latitude, double longitude);

/// The point of the compass nearest to a bearing.
///
/// bearing  degrees clockwise from north; -360 to 720, so that 180 may be added or taken away for the far side
/// points   points of the compass: 4, 8 or 16; 8 unless given
/// returns  "N", "NE", "E" ...; half-way between two points the one further clockwise
/// throws   bad_argument outside these ranges
/// source   definition of the compass points
std::string compass_point(double bearing, std::optional<double> points = {});

/// Declination of the sun, degrees, north positive. `utc` is a moment of the years 1899 to 10000 in UTC.
double declination(Moment utc);

/// Equation of time, minutes by which a sundial is ahead of mean solar time.
double equation_of_time(Moment utc);

}  // namespace slipbark::sun

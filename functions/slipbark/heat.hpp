// Heat: degree-days from the lowest and highest temperature of each day.
//
// All temperatures of a call are in one unit, whichever that is; the heat is in degree-days of that unit.
//
// Methods
//   sine      the day's temperature is one sine wave from low to high and back
//   triangle  it rises and falls in straight lines
//   average   it stays at (low + high) / 2 all day: max(0, mean - base)
// Cutoffs, where an upper temperature is given; the heat at the temperature t above it
//   horizontal    stays at upper - base
//   vertical      stops: 0
//   intermediate  falls as fast as it rose: (upper - base) - (t - upper), which may be below 0 and is not cut there
// The average method applies the cutoff to the mean. (Other practice caps each reading before taking the mean; give
// capped readings to have that.)
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "slipbark/values.hpp"

namespace slipbark::heat {

enum class Method { sine, triangle, average };
enum class Cutoff { horizontal, vertical, intermediate };

/// Degree-days of one day.
///
/// low      lowest temperature of the day; -1000 to 1000
/// high     highest temperature of the day; low to 1000
/// base     temperature below which nothing happens; -1000 to 1000
/// upper    temperature of the cutoff; above base, none unless given
/// method   sine unless given
/// cutoff   horizontal unless given; of no effect without upper
/// returns  degree-days; below 0 only with an intermediate cutoff
/// throws   bad_argument outside these ranges
/// source   Zalom, Goodell, Wilson, Barnett & Bentley (1983) Degree-days: the calculation and use of heat units in pest
///          management, UC Leaflet 21373; Baskerville & Emin (1969) Ecology 50:514-517 for the sine
double units(double low, double high, double base, std::optional<double> upper = {}, std::optional<Method> method = {},
             std::optional<Cutoff> cutoff = {});

/// Degree-days of a series of days, a day per row.
///
/// lows, highs  readings, -1000 to 1000, high not below low, of equal length; blank rows at the end are left out, a
/// blank row between or a day with
///              only one reading is a bad argument
/// base         temperature below which nothing happens; -1000 to 1000
/// upper        temperature of the cutoff; above base, none unless given
/// method       Method, sine unless given
/// cutoff       Cutoff, horizontal unless given; of no effect without upper
/// returns      degree-days; 0 without any reading; below 0 only with an intermediate cutoff
/// throws       bad_argument outside these ranges, naming the row
/// source       Zalom, Goodell, Wilson, Barnett & Bentley (1983) Degree-days: the calculation and use of heat units in
/// pest
///              management, UC Leaflet 21373; Baskerville & Emin (1969) Ecology 50:514-517 for the sine
double sum(const List& lows, const List& highs, double base, std::optional<double> upper = {},
           std::optional<Method> method = {}, std::optional<Cutoff> cutoff = {});

/// The first date on which the heat since a date reaches a target.
///
/// dates        days that rise by one from row to row; of equal length with lows and highs; days past the last reading
///              are days to come and may have their dates already
/// lows, highs  readings, -1000 to 1000, high not below low; blank rows at the end are left out, a blank row between or
///              a day with only one reading is a bad argument
/// base         temperature below which nothing happens; -1000 to 1000
/// target       degree-days to reach, with a billionth of slack for sums of binary fractions; above 0, to 1E12
/// from_date    the first day whose heat counts; not before the first of dates, which it is unless given
/// upper        temperature of the cutoff; above base, none unless given
/// method       Method, sine unless given
/// cutoff       Cutoff, horizontal unless given; of no effect without upper
/// returns      the date; empty where the readings end before the target is reached
/// throws       bad_argument outside these ranges, for a gap in the dates
/// source       Zalom, Goodell, Wilson, Barnett & Bentley (1983) Degree-days: the calculation and use of heat units in
/// pest
///              management, UC Leaflet 21373; Baskerville & Emin (1969) Ecology 50:514-517 for the sine
std::optional<Day> date(const DayList& dates, const List& lows, const List& highs, double base, double target,
                        std::optional<Day> from_date = {}, std::optional<double> upper = {},
                        std::optional<Method> method = {}, std::optional<Cutoff> cutoff = {});

}  // namespace slipbark::heat

namespace slipbark {

template <>
inline constexpr std::array<std::string_view, 3> keywords<heat::Method>{"sine", "triangle", "average"};

template <>
inline constexpr std::array<std::string_view, 3> keywords<heat::Cutoff>{"horizontal", "vertical", "intermediate"};

}  // namespace slipbark

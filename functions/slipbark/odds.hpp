// How sure a plan is: what its money may come to where outlay, costs, income, seasons and delay are not certain.
//
// Uncertainties are a table without heading, one row for each thing that is not certain, blank rows skipped: what, low,
// likely, high. What has no row is certain: a factor of 1, no delay. Each stands once at most, case and blanks
// around it do not matter, and low <= likely <= high. Distributions are triangular.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::odds {

/// How a plan may stand in one of its years.
struct YearOdds {
    int year = 0;          ///< from 0, today
    double paid_back = 0;  ///< share of draws that have paid back by then
    double low = 0;        ///< summed discounted flows that 10 % of draws stay below
    double median = 0;     ///< 50 %
    double high = 0;       ///< 90 %

    bool operator==(const YearOdds&) const = default;
};

/// What one uncertainty does to the present value.
struct Swing {
    std::string what;    ///< as it was written
    double at_low = 0;   ///< present value with it at its low, all others at their likely
    double at_high = 0;  ///< at its high

    /// The difference without sign.
    [[nodiscard]] double size() const;
};

/// How likely the plan has paid back by each year, and how well or badly it may go.
///
/// Each draw takes every uncertainty from its triangular distribution, by a Latin hypercube that is the same on every
/// machine. A draw has paid back by a year as in money::payback: once its summed, discounted flows have been below 0
/// and returned to 0, whatever is spent later; a draw that is never below 0 owes nothing. Years before the first cost
/// do not count as paid back.
///
/// costs    paid out, positive, one a year, the first today; each -1E12 to 1E12, one above 0; 1 to 200 years; blanks at
///          the end are skipped
/// income   of the same years; each -1E12 to 1E12
/// spreads  rows of what, low, likely, high; at least one; further columns are not looked at:
///            "outlay"  factor of the costs of the first year, 0 to 10
///            "costs"   of those of later years
///            "income"  one factor for all years: price, take
///            "season"  factor of a single year's income, drawn for each: hail, frost, off-years; it goes with the year
///                      in which the crop grew
///            "delay"   years by which all income comes later, 0 to 20; between years in parts, and what falls past the
///                      last row is lost
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// runs     draws; whole, 100 to 100,000, 4000 unless given
/// returns  one row a year
/// throws   bad_argument outside these ranges, with the row's number
/// accuracy one uncertain row to some 1 / runs; several scatter by about 0.32 / sqrt(runs) in a share near a half, less
///          towards 0 and 1: 0.005 at 4000 draws (standard deviation, measured)
/// source   Latin hypercube: McKay, Beckman & Conover, Technometrics 21:239-245, 1979; the rest by definition
/// example  payback_odds({300., 0.}, {0., 400.}, Table(4, {"season", 0., 1., 1.2})) has paid_back 0.531 in its second
///          year
std::vector<YearOdds> payback_odds(const List& costs, const List& income, const Table& spreads,
                                   std::optional<double> rate = {}, std::optional<double> runs = {});

/// What the plan depends on most: its present value with one uncertainty at its low and at its high, all others at
/// their likely. "season" moves all years together.
///
/// costs    paid out, positive, one a year; each -1E12 to 1E12, one above 0; 1 to 200 years
/// income   of the same years; each -1E12 to 1E12
/// spreads  as in payback_odds
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// returns  one for each row of spreads, largest size first and equal ones in the order given
/// throws   bad_argument outside these ranges, with the row's number
/// source   one-way sensitivity ("tornado") analysis, by definition
/// example  swings({300., 0.}, {0., 400.}, Table(4, {"season", 0., 1., 1.2})) gives season, -300, 180
std::vector<Swing> swings(const List& costs, const List& income, const Table& spreads, std::optional<double> rate = {});

}  // namespace slipbark::odds

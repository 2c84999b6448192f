// How sure a plan is: what its money may come to where outlay, costs, income, seasons and delay are not certain.
//
// Costs (paid out, positive) and income are one row a year, the first today; blanks at the end are skipped. Spreads are
// a table without heading, one row for each thing that is not certain, blank rows skipped, further columns not looked
// at:
//   what    "outlay"  the costs of the first year
//           "costs"   those of later years
//           "income"  one factor for all years: price, take
//           "season"  the income of a single year, drawn anew for each: hail, frost, off-years; it goes with the
//                     year in which the crop grew
//           "delay"   years by which all income comes later; between years in parts, and what falls past the last
//                     row is lost
//           case and blanks around it do not matter; each stands once at most
//   low     factors around 1, 0 to 10; of the delay years, 0 to 20; low <= likely <= high
//   likely
//   high
// What has no row is certain: a factor of 1, no delay.
#pragma once

#include <optional>

#include "slipbark/values.hpp"

namespace slipbark::odds {

/// How likely the plan has paid back by each year, and how well or badly it may go.
///
/// Each draw takes every spread from its triangular distribution, by a Latin hypercube that is the same on every
/// machine. A draw has paid back by a year as in money::payback: once its summed, discounted flows have been below 0
/// and returned to 0, whatever is spent later; a draw that is never below 0 owes nothing. Years before the first cost
/// do not count as paid back.
///
/// costs    one a year; each -1E12 to 1E12, one above 0; 1 to 200 years
/// income   of the same years; each -1E12 to 1E12
/// spreads  rows of what, low, likely, high: factors around 1, 0 to 10, and for "delay" years, 0 to 20; low <= likely
///          <= high, each thing at most once, at least one row
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// runs     draws; whole, 100 to 100,000, 4000 unless given
/// returns  one row a year: year counted from 0 (today), share of draws that have paid back by then, and the summed
///          discounted flows that 10 %, 50 % and 90 % of draws stay below
/// throws   bad_argument outside these ranges, with the row's number
/// accuracy one uncertain row to some 1 / runs; several scatter by about 0.2 / sqrt(runs) in a share
/// source   Latin hypercube: McKay, Beckman & Conover, Technometrics 21:239-245, 1979; the rest by definition
Table payback_odds(const List& costs, const List& income, const Table& spreads, std::optional<double> rate = {},
                   std::optional<double> runs = {});

/// What the plan hangs on: its present value with one spread at its low and at its high, all others at their likely.
/// "season" moves all years together.
///
/// costs    one a year; each -1E12 to 1E12, one above 0; 1 to 200 years
/// income   of the same years; each -1E12 to 1E12
/// spreads  rows of what, low, likely, high: factors around 1, 0 to 10, and for "delay" years, 0 to 20; low <= likely
///          <= high, each thing at most once, at least one row
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// returns  one row for each row of spreads, largest difference first and equal ones in the order given: what, present
///          value at its low, at its high, their difference without sign
/// throws   bad_argument outside these ranges, with the row's number
/// source   one-way sensitivity ("tornado") analysis, by definition
Table swings(const List& costs, const List& income, const Table& spreads, std::optional<double> rate = {});

}  // namespace slipbark::odds

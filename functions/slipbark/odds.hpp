// How sure a plan is: what its money may come to where outlay, costs, prices, yield, take, seasons, frost and delay are
// not certain.
//
// Two groups of functions. payback_odds and swings take a plan of two columns, costs and income. flow_odds and
// flow_swings take the years of a block as they are made: costs, crop, picking, old crop forgone, old picking saved, so
// that a lost crop is not picked and the same hail falls on the old crop.
//
// Uncertainties are a table without heading, one row for each thing that is not certain, blank rows skipped: what, low,
// likely, high. What has no row is certain: a factor of 1, no frost, no delay. Each stands once at most, case and
// blanks around it do not matter, and low <= likely <= high. Distributions are triangular.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::odds {

/// How a plan may stand in one of its years.
struct YearOdds {
    int year = 0;                             ///< from 0, today
    double paid_back = 0;                     ///< share of draws that have paid back by then
    double low = 0;                           ///< summed discounted flows that 10 % of draws stay below
    double median = 0;                        ///< 50 %
    double high = 0;                          ///< 90 %
    std::optional<double> beyond_limit = {};  ///< share whose sum has been below -limit by then; empty without a limit

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

/// How likely a block's rework has paid back by each year, and how well or badly it may go, from what its money is made
/// of.
///
/// Flow of year y in a draw, crop and picking after delay, c = season(y) x (1 - lost(y)):
///     c (yield x take x (price x crop(y) - picking(y)) - old price x old(y) + saved(y)) - costs(y) x (outlay or costs)
/// divided by (1 + rate)^y and summed. A draw has paid back once its sum has been below 0 and is back at 0 or above,
/// whatever comes later; one that is never below 0 counts from the first year with costs above 0 or old crop above
/// picking saved. Binary fractions are forgiven 1E-12 of the amounts moved.
///
/// years    five columns, one row a year, the first today; 1 to 200 rows, blank ones at the end are skipped:
///            costs paid whatever is borne, -1E12 to 1E12; and, each 0 to 1E12:
///            new crop, gross; picking and selling of the new crop; income of the old crop forgone, gross; picking of
///            the old crop saved
///          In some year costs must be above 0, or old crop above picking saved.
/// spreads  rows of what, low, likely, high and two columns for "take" and "frost" alone; at least one row:
///            "outlay"     factor of the costs of the first year, 0 to 10
///            "costs"      of those of later years
///            "price"      of the new crop's income
///            "old price"  of the old crop's
///            "yield"      of the new crop's income and picking
///            "take"       the same, damped by what regrafting makes good: column 5 is the share m of failures made
///                         good (0 to 1, blank 0), column 6 the live share p planned (above 0, to 1, blank 1). With
///                         factor f the crop's is 1 + d (min(f, 1/p) - 1), d = p (1 - m) / (p (1 - m) + m), 0 for m = 1
///            "season"     factor of a single year's new and old crop, with their picking, drawn for each year
///            "frost"      share of new and old crop lost in a frost year, 0 to 1; column 5: probability of such a year
///            "delay"      years by which new crop and its picking come later, 0 to 20; between years in parts, and
///            what
///                         falls past the last row is lost. It meets the season and frost of the year that bears it
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// runs     draws; whole, 100 to 100,000, 4000 unless given
/// limit    what may be spent, 0 or more; the odds of having needed more are given with it
/// returns  one row a year
/// throws   bad_argument outside these ranges, with the row's number
/// accuracy as payback_odds; at most 0.03 and on average 0.01 in a share at 4000 draws (tests/simulation)
/// source   Latin hypercube: McKay, Beckman & Conover, Technometrics 21:239-245, 1979; the rest by definition
/// example  flow_odds(Table(5, {300., 0., 0., 0., 0., 0., 500., 100., 0., 0.}), Table(4, {"season", 0., 1., 1.2})) has
///          paid_back 0.531 in its second year: a crop that fails is not picked
std::vector<YearOdds> flow_odds(const Table& years, const Table& spreads, std::optional<double> rate = {},
                                std::optional<double> runs = {}, std::optional<double> limit = {});

/// What a block's rework depends on most. As swings, from what the money is made of.
///
/// years    as in flow_odds
/// spreads  as in flow_odds. "take" is damped; "season" moves all years together; "frost" at its low is no frost, at
/// its
///          high a loss of probability x high in every year, and for all other rows a loss of probability x likely
/// rate     yearly rate at which flows are discounted; above -1 and below 1, 0 unless given
/// returns  one for each row of spreads, largest size first and equal ones in the order given
/// throws   bad_argument outside these ranges, with the row's number
/// source   one-way sensitivity ("tornado") analysis, by definition
/// example  flow_swings(Table(5, {300., 0., 0., 0., 0., 0., 500., 100., 0., 0.}), Table(4, {"price", 0.5, 1., 1.5}))
///          gives price, -150, 350
std::vector<Swing> flow_swings(const Table& years, const Table& spreads, std::optional<double> rate = {});

/// The first year by which a share of draws has paid back.
///
/// odds     the cells of payback_odds or flow_odds, or their first two columns: year, share of draws from 0 to 1; 1 to
///          1000 rows, blank ones at the end are skipped
/// share    above 0, to 1; a half unless given, which is the median. 0.9 is a year to plan a loan by
/// returns  the first year whose share is at least that (1E-9 forgiven); empty where there is none
/// throws   bad_argument outside these ranges, with the row's number
/// source   definition
/// example  odds_year(Table(2, {0., 0., 1., 0.5, 2., 0.9})) is 1
std::optional<double> odds_year(const Table& odds, std::optional<double> share = {});

}  // namespace slipbark::odds

// Whether and when a rework pays. In all flows the first row is today, then one a year; money paid out is negative.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::money {

/// The deepest point of summed flows.
struct LowPoint {
    double amount = 0;                      ///< the lowest sum
    int year = 0;                           ///< in which it is reached, from 0; of equal ones the first
    std::optional<double> years_back = {};  ///< from today until the sum is back at 0 after it; empty past the flows

    bool operator==(const LowPoint&) const = default;
};

/// A year in which a rework may begin.
struct ReworkYear {
    std::optional<int> years_left = {};  ///< the old crop is left so many years before; empty: for good, no rework
    double worth = 0;                    ///< today
    double annual = 0;                   ///< its annual equivalent, without today's crop
    bool best = false;
};

/// Whether a rework is done again at the end of its life.
enum class Repeat : std::uint8_t { repeated, once };

/// Years until the summed flows first reach 0, on a straight line inside the year.
///
/// The count is to the first return to 0 after the sum has been below it, whatever is spent later; income before the
/// first outlay pays nothing back. A plan that is never below 0 owes nothing and is paid back after 0 years.
///
/// flows    one a year, the first today, in any currency; each -1E12 to 1E12; blanks at the end are skipped
/// rate     yearly rate at which flows are discounted; above -1 and below 1; 0 (plain payback) unless given
/// returns  years from today; empty where the flows given never reach 0
/// throws   bad_argument outside these ranges, for no flow at all, or where discounting overflows
/// source   the usual (discounted) payback with interpolation, e.g. Kay, Edwards & Duffy, Farm Management (from memory)
std::optional<double> payback(const List& flows, std::optional<double> rate = {});

/// Present value of yearly flows, the first today and undiscounted: sum of flow / (1 + rate)^year.
///
/// flows    one a year, the first today, in any currency; each -1E12 to 1E12; blanks at the end are skipped
/// rate     yearly rate; above -1 and below 1
/// returns  value today in the same currency
/// throws   bad_argument outside these ranges, for no flow at all, or where discounting overflows
/// source   definition; Brealey & Myers, Principles of Corporate Finance (from memory)
double present_value(const List& flows, double rate);

/// The equal yearly amount, at the ends of years 1 to n, of the same present value as the flows, where n is one less
/// than their number. It compares plans of unequal length.
///
/// flows    one a year, the first today, in any currency; each -1E12 to 1E12; blanks at the end are skipped;
///          at least two
/// rate     yearly rate; above -1 and below 1
/// returns  amount a year in the same currency: present value * rate / (1 - (1 + rate)^-n); of rate 0 over n
/// throws   bad_argument outside these ranges, for fewer than two flows, or where discounting overflows
/// source   equivalent annual annuity, Brealey & Myers (from memory); to rank orchards: Goedegebure (1989) Acta Hort
/// 237
double equal_annual(const List& flows, double rate);

/// Price at which the crop just pays its costs: present value of the costs over that of the yields.
///
/// costs    one a year, the first today, paid out as positive numbers; each -1E12 to 1E12 (a grant is negative)
/// yields   crop of the same years, in any unit; each 0 to 1E12; as many rows as costs, blank at the end where costs is
/// rate     yearly rate; above -1 and below 1
/// returns  price per unit of yield; empty where there is no crop
/// throws   bad_argument outside these ranges, for no year at all, where discounting overflows, or where only one of
///          both is given for a year; with the row's number
/// source   net present value of price * yield - cost is 0, solved for the price
std::optional<double> break_even_price(const List& costs, const List& yields, double rate);

/// The lowest summed flow, its year, and how long it takes until the sum is back at 0 after it. For the purse leave the
/// rate at 0. payback gives the first return, which may come before the lowest point.
///
/// flows    one a year, the first today, in any currency; each -1E12 to 1E12; blanks at the end are skipped
/// rate     yearly rate at which flows are discounted; above -1 and below 1; 0 unless given
/// returns  lowest sum, its year, years from today until the sum is at 0 or above after it, on a straight line inside
/// the
///          year; 0 years where the sum is never below 0. Sums that differ by less than 1E-12 of all that has been
///          moved count as equal
/// throws   bad_argument outside these ranges, for no flow at all, or where discounting overflows
/// source   definition
/// example  low_point({-100., 150., -400., 100., 500.}) is -350 in year 2, back after 3.5 years; payback says 0.67
LowPoint low_point(const List& flows, std::optional<double> rate = {});

/// Leave the old crop for k more years, then rework: what each k is worth, and what leaving it for good is.
///
/// Flows are the block's own margins, not against leaving it. The crop of a year is picked before the trees are cut
/// back. With v = 1 / (1 + rate), L the flows left alone and R those of the rework of n years:
///     worth of k years: sum of L(t) v^t for t = 0 ... k, and v^k C; C = PV(R) / (1 - v^n) where it is repeated, PV(R)
///     where it is done once
///     never: sum of all L(t) v^t; where the rework is repeated, the last L in every later year too
/// The annual equivalent leaves today's crop out, which is the same for all: (worth - L(0)) x rate where it is
/// repeated, (worth - L(0)) over the annuity of k + n years (never: of the years left) where it is done once.
///
/// leave_flows   margins while it is left, the first today's; each -1E12 to 1E12; 1 to 200 rows, blanks at the end are
///               skipped
/// rework_flows  margins of the rework, the first in the year of grafting; 2 to 200 rows
/// rate          yearly rate; above -1 and below 1, above 0 where the rework is repeated
/// most          years that may be waited; whole, from 0 to one less than the rows of leave_flows, which it is unless
///               given
/// repeat        repeated, so that plans of unequal length compare, unless given
/// returns       one for each k from 0 to most, then "never" (not for one row of leave_flows and a rework done once);
///               best is the largest annual equivalent, the first of those equal within 1E-12
/// throws        bad_argument outside these ranges, or where discounting overflows
/// source        Faris, J. Farm Economics 42:755-766, 1960 (from memory); Perrin, Am. J. Agric. Econ. 54:60-67, 1972
/// example       rework_year({0., 0.}, {-100., 60., 60.}, 0.1) is best at once: worth 23.81, 2.381 a year
std::vector<ReworkYear> rework_year(const List& leave_flows, const List& rework_flows, double rate,
                                    std::optional<double> most = {}, std::optional<Repeat> repeat = {});

}  // namespace slipbark::money

namespace slipbark {

template <>
inline constexpr std::array<std::string_view, 2> keywords<money::Repeat>{"repeated", "once"};

}  // namespace slipbark

// Whether and when a rework pays. In all flows the first row is today, then one a year; money paid out is negative.
#pragma once

#include <optional>

#include "slipbark/values.hpp"

namespace slipbark::money {

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

}  // namespace slipbark::money

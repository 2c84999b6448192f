// The early checks that all functions share, so that the same mistake is told in the same words everywhere.
//
// Each check is named after the kind of quantity, returns the value for use, and throws bad_argument naming the
// argument, what it was and what would be right. NaN and infinity fail every one of them. What stands in ranges of two
// and more columns is checked in columns.hpp.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/outcome.hpp"
#include "slipbark/values.hpp"

namespace slipbark::check {

/// Counts of trees, grafts, buds and the like end here: ten million.
inline constexpr std::int64_t count_limit = 10'000'000;

/// Amounts of money, weight, area and the like end here, far above any orchard, so that no result overflows.
inline constexpr double amount_limit = 1e12;

/// Any finite number.
inline constexpr double unlimited = std::numeric_limits<double>::max();

/// A finite number from `low` to `high`, both included.
double number(std::string_view argument, double value, double low = -amount_limit, double high = amount_limit);

/// A finite number above 0, up to `high`. 0 has a sentence of its own, since a blank cell arrives as 0.
double positive(std::string_view argument, double value, double high = amount_limit);

/// A fraction from 0 to `high` (1 unless said). 85 where 0.85 is meant has a sentence of its own.
double fraction(std::string_view argument, double value, double high = 1.0);

/// A fraction from 0 up to but not including 1: a loss, an overlap, a correlation within a tree.
double fraction_below_one(std::string_view argument, double value);

/// A confidence level: above 0 and below 1.
double confidence(std::string_view argument, double value);

/// A yearly rate of interest: above -1 (minus 100 %) and below 1, which catches 5 where 5 % is meant.
double rate(std::string_view argument, double value);

/// A whole number from `low` to `high`, with 1E-9 of slack (relative above 1) for cells computed in binary fractions.
std::int64_t whole(std::string_view argument, double value, std::int64_t low, std::int64_t high = count_limit);

/// Whether `value` is a whole number but for that slack.
bool is_whole(double value);

/// `value` rounded up to a whole number, forgiving the last binary digits: 3200 * 1.15 / 4 is 920, not 921.
double rounded_up(double value);

/// `value` rounded down, forgiving the same.
double rounded_down(double value);

/// The number in one cell of a list, from `low` to `high`. A text or a blank is a bad argument that names the row,
/// counted from 1.
double number_in_row(std::string_view argument, const List& list, std::size_t index, double low = -unlimited,
                     double high = unlimited);

/// The same for a whole number, with the slack of whole().
std::int64_t whole_in_row(std::string_view argument, const List& list, std::size_t index, std::int64_t low,
                          std::int64_t high = count_limit);

/// A series in which the row is the year or the day: blanks at the end are dropped, a blank between is a bad argument
/// that names the row. Each value must be a finite number from `low` to `high`.
std::vector<double> series(std::string_view argument, const List& list, double low = -amount_limit,
                           double high = amount_limit);

/// Checks that `list` is as long as the one called `first_name`.
void same_length(std::string_view first_name, std::size_t first, std::string_view argument, std::size_t length);

/// The row number that people count, from 1, as it stands in a sentence.
double row_number(std::size_t index);

/// `text` without the blanks at both ends; a view of it.
std::string_view trimmed(std::string_view text, std::string_view blanks = " \t\n\v\f\r");

/// A text with blanks around it cut and ASCII letters in lower case, as keywords, names and groups are compared.
std::string folded(std::string_view text);

}  // namespace slipbark::check

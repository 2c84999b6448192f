#include "support/checks.hpp"

#include <algorithm>
#include <cmath>

namespace slipbark::check {

namespace {

/// How far a computed cell may be from a whole number and still count as it.
constexpr double slack = 1e-9;

void finite(std::string_view argument, double value) {
    if (!std::isfinite(value)) {
        throw bad_argument(argument, translatable("{1} was {2}: give a finite number."), {value});
    }
}

/// A fraction that was given in per cent is by far the commonest slip; it has a sentence that says so.
bool looks_like_per_cent(double value) { return value > 1 && value <= 100; }

}  // namespace

double number(std::string_view argument, double value, double low, double high) {
    finite(argument, value);
    if (value < low) {
        throw bad_argument(argument, translatable("{1} was {2}, too small: give a number from {3} to {4}."),
                           {value, low, high});
    }
    if (value > high) {
        throw bad_argument(argument, translatable("{1} was {2}, too large: give a number from {3} to {4}."),
                           {value, low, high});
    }
    return value;
}

double positive(std::string_view argument, double value, double high) {
    finite(argument, value);
    if (value == 0) {
        throw bad_argument(argument,
                           translatable("{1} was 0 (the cell may be blank): give a number above 0 and at most {2}."),
                           {high});
    }
    if (value < 0) {
        throw bad_argument(argument, translatable("{1} was {2}, below 0: give a number above 0 and at most {3}."),
                           {value, high});
    }
    if (value > high) {
        throw bad_argument(argument, translatable("{1} was {2}, too large: give a number above 0 and at most {3}."),
                           {value, high});
    }
    return value;
}

double fraction(std::string_view argument, double value, double high) {
    finite(argument, value);
    if (value >= 0 && value <= high) return value;
    if (looks_like_per_cent(value)) {
        throw bad_argument(argument, translatable("{1} was {2}: give a fraction from 0 to {3} ({2} % is {4})."),
                           {value, high, value / 100});
    }
    throw bad_argument(argument, translatable("{1} was {2}: give a fraction from 0 to {3}."), {value, high});
}

double fraction_below_one(std::string_view argument, double value) {
    finite(argument, value);
    if (value >= 0 && value < 1) return value;
    if (looks_like_per_cent(value)) {
        throw bad_argument(argument, translatable("{1} was {2}: give a fraction from 0 to below 1 ({2} % is {3})."),
                           {value, value / 100});
    }
    throw bad_argument(argument, translatable("{1} was {2}: give a fraction from 0 to below 1."), {value});
}

double confidence(std::string_view argument, double value) {
    finite(argument, value);
    if (value > 0 && value < 1) return value;
    if (value == 0) {
        throw bad_argument(argument,
                           translatable("{1} was 0 (the cell may be blank): give a fraction above 0 and below 1, such "
                                        "as 0.95."));
    }
    if (looks_like_per_cent(value)) {
        throw bad_argument(
            argument, translatable("{1} was {2}: give a fraction above 0 and below 1, such as 0.95 ({2} % is {3})."),
            {value, value / 100});
    }
    throw bad_argument(argument, translatable("{1} was {2}: give a fraction above 0 and below 1, such as 0.95."),
                       {value});
}

double rate(std::string_view argument, double value) {
    finite(argument, value);
    if (value > -1 && value < 1) return value;
    if (looks_like_per_cent(value)) {
        throw bad_argument(argument,
                           translatable("{1} was {2}: give a yearly rate above -1 and below 1 ({2} % is {3})."),
                           {value, value / 100});
    }
    throw bad_argument(argument, translatable("{1} was {2}: give a yearly rate above -1 and below 1."), {value});
}

bool is_whole(double value) { return std::abs(value - std::round(value)) <= slack * std::max(1.0, std::abs(value)); }

std::int64_t whole(std::string_view argument, double value, std::int64_t low, std::int64_t high) {
    finite(argument, value);
    const double nearest = std::round(value);
    const auto least = static_cast<double>(low);
    const auto greatest = static_cast<double>(high);
    if (nearest < least && value == 0) {
        throw bad_argument(argument,
                           translatable("{1} was 0 (the cell may be blank): give a whole number from {2} to {3}."),
                           {least, greatest});
    }
    if (nearest < least) {
        throw bad_argument(argument, translatable("{1} was {2}, too small: give a whole number from {3} to {4}."),
                           {value, least, greatest});
    }
    if (nearest > greatest) {
        throw bad_argument(argument, translatable("{1} was {2}, too large: give a whole number from {3} to {4}."),
                           {value, least, greatest});
    }
    if (!is_whole(value)) {
        throw bad_argument(argument,
                           translatable("{1} was {2}, not a whole number: give a whole number from {3} to {4}."),
                           {value, least, greatest});
    }
    return static_cast<std::int64_t>(nearest);
}

double rounded_up(double value) { return std::ceil(value - slack * std::max(1.0, std::abs(value) * 1e-3)); }

double rounded_down(double value) { return std::floor(value + slack * std::max(1.0, std::abs(value) * 1e-3)); }

double row_number(std::size_t index) { return static_cast<double>(index) + 1; }

double number_in_row(std::string_view argument, const List& list, std::size_t index, double low, double high) {
    const Cell& cell = list.cell(index);
    const double row = row_number(index);
    if (const auto* value = std::get_if<double>(&cell)) {
        if (!std::isfinite(*value)) {
            throw bad_argument(argument, translatable("{1} was {2} in row {3}: give a finite number."), {*value, row});
        }
        if (*value < low || *value > high) {
            throw bad_argument(argument, translatable("{1} was {2} in row {3}: give numbers from {4} to {5}."),
                               {*value, row, low, high});
        }
        return *value;
    }
    if (const auto* text = std::get_if<std::string>(&cell)) {
        throw bad_argument(argument, translatable("{1} has the text \"{2}\" in row {3}: give a number there."),
                           {*text, row});
    }
    throw bad_argument(argument, translatable("{1} is blank in row {2}: give a number there."), {row});
}

std::int64_t whole_in_row(std::string_view argument, const List& list, std::size_t index, std::int64_t low,
                          std::int64_t high) {
    const double value = number_in_row(argument, list, index);
    const double nearest = std::round(value);
    const auto least = static_cast<double>(low);
    const auto greatest = static_cast<double>(high);
    if (!is_whole(value) || nearest < least || nearest > greatest) {
        throw bad_argument(argument, translatable("{1} was {2} in row {3}: give whole numbers from {4} to {5}."),
                           {value, row_number(index), least, greatest});
    }
    return static_cast<std::int64_t>(nearest);
}

std::vector<double> series(std::string_view argument, const List& list, double low, double high) {
    std::size_t used = list.cells.size();
    while (used > 0 && is_blank(list.cells[used - 1])) --used;
    std::vector<double> values;
    values.reserve(used);
    for (std::size_t index = 0; index < used; ++index) {
        if (is_blank(list.cells[index])) {
            throw bad_argument(argument,
                               translatable("{1} is blank in row {2} with values after it: give a number there, 0 if "
                                            "there was none, because skipping it would shift all later rows."),
                               {row_number(index)});
        }
        values.push_back(number_in_row(argument, list, index, low, high));
    }
    return values;
}

void same_length(std::string_view first_name, std::size_t first, std::string_view argument, std::size_t length) {
    if (first == length) return;
    throw bad_argument(argument, translatable("{1} has {2} cells where {3} has {4}: give ranges of equal length."),
                       {static_cast<double>(length), std::string(first_name), static_cast<double>(first)});
}

std::string_view trimmed(std::string_view text, std::string_view blanks) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) + 1 - first);
}

std::string folded(std::string_view text) {
    // Letters and blanks of ASCII alone, so that the answer does not depend on any locale.
    std::string copy(trimmed(text));
    for (char& letter : copy) {
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    }
    return copy;
}

}  // namespace slipbark::check

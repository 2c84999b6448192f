#include "support/checks.hpp"

#include <algorithm>
#include <cmath>

namespace slipbark::check {

namespace {

/// How far a computed cell may be from a whole number and still count as it.
constexpr double slack = 1e-9;

std::string was(double value) { return "was " + to_text(value); }

void finite(std::string_view argument, double value) {
    if (!std::isfinite(value)) throw bad_argument(argument, was(value), "give a finite number");
}

std::string from_to(double low, double high) { return "from " + to_text(low) + " to " + to_text(high); }

/// A fraction that was given in per cent is by far the commonest slip; say so where it looks like one.
std::string fraction_hint(double value) {
    if (value > 1 && value <= 100) return " (" + to_text(value) + " % is " + to_text(value / 100) + ")";
    return "";
}

}  // namespace

double number(std::string_view argument, double value, double low, double high) {
    finite(argument, value);
    if (value < low) throw bad_argument(argument, was(value) + ", too small", "give a number " + from_to(low, high));
    if (value > high) throw bad_argument(argument, was(value) + ", too large", "give a number " + from_to(low, high));
    return value;
}

double positive(std::string_view argument, double value, double high) {
    finite(argument, value);
    if (value <= 0 || value > high) {
        const std::string wrong = value == 0  ? "was 0 (the cell may be blank)"
                                  : value < 0 ? was(value) + ", below 0"
                                              : was(value) + ", too large";
        throw bad_argument(argument, wrong, "give a number above 0 and at most " + to_text(high));
    }
    return value;
}

double fraction(std::string_view argument, double value, double high) {
    finite(argument, value);
    if (value < 0 || value > high) {
        throw bad_argument(argument, was(value), "give a fraction " + from_to(0, high) + fraction_hint(value));
    }
    return value;
}

double fraction_below_one(std::string_view argument, double value) {
    finite(argument, value);
    if (value < 0 || value >= 1) {
        throw bad_argument(argument, was(value), "give a fraction from 0 to below 1" + fraction_hint(value));
    }
    return value;
}

double confidence(std::string_view argument, double value) {
    finite(argument, value);
    if (value <= 0 || value >= 1) {
        throw bad_argument(argument, was(value) + (value == 0 ? " (the cell may be blank)" : ""),
                           "give a fraction above 0 and below 1, such as 0.95" + fraction_hint(value));
    }
    return value;
}

double rate(std::string_view argument, double value) {
    finite(argument, value);
    if (value <= -1 || value >= 1) {
        throw bad_argument(argument, was(value), "give a yearly rate above -1 and below 1" + fraction_hint(value));
    }
    return value;
}

std::int64_t whole(std::string_view argument, double value, std::int64_t low, std::int64_t high) {
    finite(argument, value);
    const double nearest = std::round(value);
    const auto refuse = [&](const std::string& wrong) {
        return bad_argument(argument, wrong,
                            "give a whole number " + from_to(static_cast<double>(low), static_cast<double>(high)));
    };
    if (nearest < static_cast<double>(low)) {
        throw refuse(value == 0 ? "was 0 (the cell may be blank)" : was(value) + ", too small");
    }
    if (nearest > static_cast<double>(high)) throw refuse(was(value) + ", too large");
    if (std::abs(value - nearest) > slack * std::max(1.0, std::abs(value))) {
        throw refuse(was(value) + ", not a whole number");
    }
    return static_cast<std::int64_t>(nearest);
}

double rounded_up(double value) { return std::ceil(value - slack * std::max(1.0, std::abs(value) * 1e-3)); }

double rounded_down(double value) { return std::floor(value + slack * std::max(1.0, std::abs(value) * 1e-3)); }

std::string row_name(std::size_t index) { return "row " + std::to_string(index + 1); }

double number_in_row(std::string_view argument, const List& list, std::size_t index) {
    const Cell& cell = list.cell(index);
    if (const auto* value = std::get_if<double>(&cell)) {
        if (!std::isfinite(*value)) {
            throw bad_argument(argument, was(*value) + " in " + row_name(index), "give a finite number");
        }
        return *value;
    }
    if (const auto* text = std::get_if<std::string>(&cell)) {
        throw bad_argument(argument, "has the text \"" + *text + "\" in " + row_name(index), "give a number there");
    }
    throw bad_argument(argument, "is blank in " + row_name(index), "give a number there");
}

std::vector<double> series(std::string_view argument, const List& list, double low, double high) {
    std::size_t used = list.cells.size();
    while (used > 0 && is_blank(list.cells[used - 1])) --used;
    std::vector<double> values;
    values.reserve(used);
    for (std::size_t index = 0; index < used; ++index) {
        if (is_blank(list.cells[index])) {
            throw bad_argument(argument, "is blank in " + row_name(index) + " with values after it",
                               "give a number there, 0 if there was none: a skipped row would shift all later ones");
        }
        const double value = number_in_row(argument, list, index);
        if (value < low || value > high) {
            throw bad_argument(argument, was(value) + " in " + row_name(index), "give numbers " + from_to(low, high));
        }
        values.push_back(value);
    }
    return values;
}

void same_length(std::string_view first_name, std::size_t first, std::string_view argument, std::size_t length) {
    if (first == length) return;
    throw bad_argument(
        argument,
        "has " + std::to_string(length) + " cells where " + std::string(first_name) + " has " + std::to_string(first),
        "give ranges of equal length");
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

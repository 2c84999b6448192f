#include "slipbark/heat.hpp"

#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "slipbark/dates.hpp"
#include "support/checks.hpp"

namespace slipbark::heat {

namespace {

using boost::math::double_constants::half_pi;
using boost::math::double_constants::pi;

constexpr double hottest = 1000;

/// How one day's readings become heat.
struct Rule {
    double base = 0;
    std::optional<double> upper;
    Method method = Method::sine;
    Cutoff cutoff = Cutoff::horizontal;
};

struct Readings {
    double low = 0;
    double high = 0;
};

/// What a wave between two temperatures has above a threshold: the area in degree-days and the share of the day.
struct Excess {
    double heat = 0;
    double share = 0;
};

Excess above(double threshold, const Readings& day, Method method) {
    if (day.high <= threshold) return {};
    const double mean = (day.low + day.high) / 2;
    if (day.low >= threshold) return {mean - threshold, 1};
    if (method == Method::triangle) {
        const double over = day.high - threshold;
        const double range = day.high - day.low;
        return {over * over / (2 * range), over / range};
    }
    const double amplitude = (day.high - day.low) / 2;
    const double sine = std::clamp((threshold - mean) / amplitude, -1.0, 1.0);
    const double crossing = std::asin(sine);
    const double heat = ((mean - threshold) * (half_pi - crossing) + amplitude * std::cos(crossing)) / pi;
    return {std::max(0.0, heat), 0.5 - crossing / pi};
}

double heat_of(Readings day, const Rule& rule) {
    if (rule.method == Method::average) day.low = day.high = (day.low + day.high) / 2;
    const double heat = above(rule.base, day, rule.method).heat;
    if (!rule.upper) return heat;
    const Excess excess = above(*rule.upper, day, rule.method);
    switch (rule.cutoff) {
        case Cutoff::horizontal:
            return heat - excess.heat;
        case Cutoff::vertical:
            return std::max(0.0, heat - excess.heat - (*rule.upper - rule.base) * excess.share);
        case Cutoff::intermediate:
            break;
    }
    return heat - 2 * excess.heat;
}

double temperature(std::string_view argument, double degrees) {
    return check::number(argument, degrees, -hottest, hottest);
}

Rule rule_of(double base, std::optional<double> upper, std::optional<Method> method, std::optional<Cutoff> cutoff) {
    temperature("base", base);
    if (upper) {
        temperature("upper", *upper);
        if (*upper <= base) {
            if (*upper == 0) {
                throw bad_argument("upper",
                                   translatable("{1} was 0 (the cell may be blank): give a temperature above base, "
                                                "which is {2}."),
                                   {base});
            }
            throw bad_argument("upper", translatable("{1} was {2}: give a temperature above base, which is {3}."),
                               {*upper, base});
        }
    }
    return {base, upper, method.value_or(Method::sine), cutoff.value_or(Cutoff::horizontal)};
}

bool has_reading(const List& list, std::size_t row) { return !is_blank(list.cell(row)); }

double reading(std::string_view argument, const List& list, std::size_t row) {
    return check::number_in_row(argument, list, row, -hottest, hottest);
}

/// Hands on the readings of each day, with the blank rows at the end left out.
template <class Use>
void for_each_day(const List& lows, const List& highs, Use use) {
    check::same_length("lows", lows.length, "highs", highs.length);
    std::size_t used = std::max(lows.cells.size(), highs.cells.size());
    while (used > 0 && !has_reading(lows, used - 1) && !has_reading(highs, used - 1)) --used;
    for (std::size_t row = 0; row < used; ++row) {
        const Readings day{reading("lows", lows, row), reading("highs", highs, row)};
        if (day.low > day.high) {
            throw bad_argument("lows",
                               translatable("{1} was {2} in row {3}, above highs, which is {4}: give the lowest and "
                                            "the highest temperature of the day."),
                               {day.low, check::row_number(row), day.high});
        }
        use(day);
    }
}

/// The day of a row that has readings. Days rise by one.
Day day_of_row(const DayList& dates, std::size_t row) {
    const auto day = dates.day(row);
    if (!day) {
        throw bad_argument("dates", translatable("{1} is blank in row {2}: give the date of that day's readings."),
                           {check::row_number(row)});
    }
    check::day_in_row("dates", *day, row);
    if (row > 0 && *day - *dates.day(row - 1) != std::chrono::days{1}) {
        throw bad_argument("dates",
                           translatable("{1} was {2} in row {3}, after {4}: give every day in order, because the heat "
                                        "of a missing day is not known."),
                           {*day, check::row_number(row), *dates.day(row - 1)});
    }
    return *day;
}

}  // namespace

double units(double low, double high, double base, std::optional<double> upper, std::optional<Method> method,
             std::optional<Cutoff> cutoff) {
    temperature("low", low);
    temperature("high", high);
    if (low > high) {
        throw bad_argument("low",
                           translatable("{1} was {2}, above high, which is {3}: give the lowest and the highest "
                                        "temperature of the day."),
                           {low, high});
    }
    return heat_of({low, high}, rule_of(base, upper, method, cutoff));
}

double sum(const List& lows, const List& highs, double base, std::optional<double> upper, std::optional<Method> method,
           std::optional<Cutoff> cutoff) {
    const Rule rule = rule_of(base, upper, method, cutoff);
    double total = 0;
    for_each_day(lows, highs, [&](const Readings& day) { total += heat_of(day, rule); });
    return total;
}

std::optional<Day> date(const DayList& dates, const List& lows, const List& highs, double base, double target,
                        std::optional<Day> from_date, std::optional<double> upper, std::optional<Method> method,
                        std::optional<Cutoff> cutoff) {
    const Rule rule = rule_of(base, upper, method, cutoff);
    check::same_length("dates", dates.length, "lows", lows.length);
    check::positive("target", target);
    if (from_date) check::day("from_date", *from_date);
    const double enough = target - 1e-9 * target;
    double total = 0;
    std::optional<Day> reached;
    std::size_t row = 0;
    // Dates past the last reading are days to come: a form has them filled down for the whole season. Readings past the
    // answer are checked all the same.
    for_each_day(lows, highs, [&](const Readings& readings) {
        const Day day = day_of_row(dates, row);
        if (row++ == 0 && from_date && *from_date < day) {
            throw bad_argument("from_date",
                               translatable("{1} was {2}, before the first of dates: give {3} or later, or add the "
                                            "days between."),
                               {*from_date, day});
        }
        if (reached || (from_date && day < *from_date)) return;
        total += heat_of(readings, rule);
        if (total >= enough) reached = day;
    });
    return reached;
}

}  // namespace slipbark::heat

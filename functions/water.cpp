#include "slipbark/water.hpp"

#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <chrono>
#include <cmath>
#include <string>
#include <variant>

#include "slipbark/dates.hpp"
#include "support/checks.hpp"
#include "support/curves.hpp"

namespace slipbark::water {

namespace {

using boost::math::double_constants::degree;
using boost::math::double_constants::pi;
using boost::math::double_constants::two_pi;

constexpr double mm_of_mj = 0.408;  // water that one MJ per m2 evaporates
constexpr double most_rain = 5000;
constexpr double most_reference = 30;
constexpr double most_coefficient = 2;
constexpr double most_area = 10'000;
constexpr double usual_efficiency = 0.85;

/// A share above 0, to 1. One given in per cent is answered with what it would be.
double share(std::string_view argument, double value) {
    if (value > 1 && value <= 100) {
        throw bad_argument(argument, translatable("{1} was {2}: give a fraction above 0 and at most 1 ({2} % is {3})."),
                           {value, value / 100});
    }
    return check::positive(argument, value, 1);
}

/// What part of a month's rain counts: nothing where the formula of the USDA says.
using RainShare = std::optional<double>;

RainShare rain_share(const std::optional<Scalar>& method) {
    if (!method) return {};
    if (const auto* number = std::get_if<double>(&*method)) {
        if (*number >= 0 && *number <= 1) return *number;
        if (*number > 1 && *number <= 100) {
            throw bad_argument("method",
                               translatable("{1} was {2}: give \"usda\" or a share from 0 to 1 ({2} % is {3})."),
                               {*number, *number / 100});
        }
        throw bad_argument("method", translatable("{1} was {2}: give \"usda\" or a share from 0 to 1."), {*number});
    }
    const auto& text = std::get<std::string>(*method);
    if (check::folded(text) == "usda") return {};
    throw bad_argument("method", translatable("{1} was the text \"{2}\": give \"usda\" or a share from 0 to 1."),
                       {text});
}

double effective(double rain_mm, const RainShare& counts) {
    constexpr double bend = 250;
    if (counts) return rain_mm * *counts;
    return rain_mm <= bend ? rain_mm * (125 - 0.2 * rain_mm) / 125 : 125 + 0.1 * rain_mm;
}

std::size_t used_rows(const List& list) {
    std::size_t rows = list.cells.size();
    while (rows > 0 && is_blank(list.cells[rows - 1])) --rows;
    return rows;
}

std::size_t used_rows(const DayList& list) {
    std::size_t rows = list.days.size();
    while (rows > 0 && !list.days[rows - 1]) --rows;
    return rows;
}

Day month_of_row(const DayList& months, std::size_t row) {
    const auto day = months.day(row);
    if (!day) {
        throw bad_argument("months", translatable("{1} is blank in row {2}: give a day of that month."),
                           {check::row_number(row)});
    }
    return check::day_in_row("months", *day, row);
}

}  // namespace

double sun_energy(Day date, double latitude) {
    check::day("date", date);
    const double here = check::number("latitude", latitude, -90, 90) * degree;
    const std::chrono::year_month_day parts{date};
    const auto new_year = std::chrono::sys_days{parts.year() / std::chrono::January / 1};
    const double angle = two_pi * static_cast<double>((date - new_year).count() + 1) / 365;
    const double nearness = 1 + 0.033 * std::cos(angle);
    const double declination = 0.409 * std::sin(angle - 1.39);
    const double sunset = std::acos(std::clamp(-std::tan(here) * std::tan(declination), -1.0, 1.0));
    constexpr double solar = 24 * 60 / pi * 0.0820;  // MJ per m2 and day
    return std::max(0.0, solar * nearness *
                             (sunset * std::sin(here) * std::sin(declination) +
                              std::cos(here) * std::cos(declination) * std::sin(sunset)));
}

double reference_et(Day date, double latitude, double low_c, double high_c) {
    constexpr double hottest = 60;
    const double sun = sun_energy(date, latitude);
    check::number("low_c", low_c, -hottest, hottest);
    check::number("high_c", high_c, -hottest, hottest);
    if (low_c > high_c) {
        throw bad_argument("low_c",
                           translatable("{1} was {2}, above high_c, which is {3}: give the lowest and the highest "
                                        "temperature."),
                           {low_c, high_c});
    }
    return std::max(0.0, 0.0023 * ((low_c + high_c) / 2 + 17.8) * std::sqrt(high_c - low_c) * mm_of_mj * sun);
}

double crop_coefficient(double cover, double height_m, std::optional<double> stomatal, std::optional<double> bare,
                        std::optional<double> density, std::optional<double> wind_m_s,
                        std::optional<double> humidity_low) {
    check::fraction("cover", cover);
    const double height = check::positive("height_m", height_m, 20);
    const double opening = share("stomatal", stomatal.value_or(1));
    const double ground = check::number("bare", bare.value_or(0.15), 0, 1.2);
    const double dense = check::number("density", density.value_or(1.5), 1, 3);
    const double wind = check::number("wind_m_s", wind_m_s.value_or(2), 1, 6);
    const double humidity = check::number("humidity_low", humidity_low.value_or(0.45), 0.2, 0.8);

    const double weather = 0.04 * (wind - 2) - 0.004 * (100 * humidity - 45);
    const double full = opening * (std::min(1 + 0.1 * height, 1.2) + weather * std::pow(height / 3, 0.3));
    const double shading = std::min({1.0, dense * cover, std::pow(cover, 1 / (1 + height))});
    return ground + shading * std::max(full - ground, (full - ground) / 2);
}

double canopy_share(double years, const std::optional<Table>& regrowth) {
    check::number("years", years, 0, curves::longest_years);
    const auto [at, share] = curves::canopy(regrowth);
    const auto next = static_cast<std::size_t>(std::upper_bound(at.begin(), at.end(), years) - at.begin());
    if (next == at.size()) return share.back();
    const double part = (years - at[next - 1]) / (at[next] - at[next - 1]);
    return std::lerp(share[next - 1], share[next], part);
}

double effective_rain(double rain_mm, const std::optional<Scalar>& method) {
    check::number("rain_mm", rain_mm, 0, most_rain);
    return effective(rain_mm, rain_share(method));
}

std::vector<MonthWater> tree_water(const DayList& months, const List& reference_et, const List& rain,
                                   const List& crop_coeff, double area_m2, std::optional<double> efficiency,
                                   const std::optional<Scalar>& method) {
    check::same_length("months", months.length, "reference_et", reference_et.length);
    check::same_length("months", months.length, "rain", rain.length);
    const bool one_coefficient = crop_coeff.length == 1;
    if (!one_coefficient) check::same_length("months", months.length, "crop_coeff", crop_coeff.length);
    const double area = check::positive("area_m2", area_m2, most_area);
    const double reaches = share("efficiency", efficiency.value_or(usual_efficiency));
    const RainShare counts = rain_share(method);

    // Without any row the first one is the one that is blank.
    const std::size_t rows = std::max({std::size_t{1}, used_rows(months), used_rows(reference_et), used_rows(rain),
                                       one_coefficient ? std::size_t{0} : used_rows(crop_coeff)});
    std::vector<MonthWater> all;
    all.reserve(rows);
    for (std::size_t row = 0; row < rows; ++row) {
        const std::chrono::year_month_day day{month_of_row(months, row)};
        const auto month = day.year() / day.month();
        const auto first = std::chrono::sys_days{month / 1};
        const auto last = std::chrono::sys_days{month / std::chrono::last};
        MonthWater water{.month = first, .days = static_cast<std::int32_t>((last - first).count()) + 1};
        const double reference = check::number_in_row("reference_et", reference_et, row, 0, most_reference);
        const double fallen = check::number_in_row("rain", rain, row, 0, most_rain);
        const double coefficient =
            check::number_in_row("crop_coeff", crop_coeff, one_coefficient ? 0 : row, 0, most_coefficient);
        water.use_mm = coefficient * reference * water.days;
        water.rain_mm = effective(fallen, counts);
        water.need_mm = std::max(0.0, water.use_mm - water.rain_mm);
        water.litres_a_tree = water.need_mm * area / reaches;
        all.push_back(water);
    }
    return all;
}

}  // namespace slipbark::water

#include "slipbark/money.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "support/checks.hpp"

namespace slipbark::money {

namespace {

/// A rate near -1 makes later years count without limit.
double finite_at(double value, double rate) {
    if (std::isfinite(value)) return value;
    throw bad_argument("rate",
                       translatable("{1} was {2}, and the sum over these years is too large for a number: give a rate "
                                    "nearer to 0, or fewer years."),
                       {rate});
}

std::vector<double> one_a_year(std::string_view argument, const List& list, double low = -check::amount_limit) {
    auto values = check::series(argument, list, low);
    if (values.empty()) {
        throw bad_argument(argument, translatable("{1} is blank: give one number a year, the first for today."));
    }
    return values;
}

double value_today(const std::vector<double>& flows, double rate) {
    const auto value = std::accumulate(flows.rbegin(), flows.rend(), 0.0,
                                       [rate](double later, double flow) { return flow + later / (1 + rate); });
    return finite_at(value, rate);
}

/// Present value of 1 at the end of each of `years` years. log1p and expm1 keep the digits of a rate near 0.
double annuity(double rate, double years) { return rate == 0 ? years : -std::expm1(-years * std::log1p(rate)) / rate; }

/// Checks that a series reaches as far as the one called `longer`.
void reaches_as_far(std::string_view shorter, std::size_t rows, std::string_view longer, std::size_t other) {
    if (rows >= other) return;
    throw bad_argument(shorter,
                       translatable("{1} is blank in row {2} where {3} is not: give a number there, 0 if there was "
                                    "none."),
                       {check::row_number(rows), std::string(longer)});
}

}  // namespace

std::optional<double> payback(const List& flows, std::optional<double> rate) {
    const auto yearly = one_a_year("flows", flows);
    const double discount = check::rate("rate", rate.value_or(0));
    double sum = yearly.front();
    bool owed = sum < 0;
    // -1 and ten times 0.1 do not add up to 0 in binary fractions. So much of what has been moved is forgiven.
    constexpr double slack = 1e-12;
    double moved = std::abs(sum);
    double factor = 1;
    for (std::size_t year = 1; year < yearly.size(); ++year) {
        factor /= 1 + discount;
        const double flow = finite_at(yearly[year] == 0 ? 0 : yearly[year] * factor, discount);
        moved += std::abs(flow);
        if (owed && flow > 0 && sum + flow >= -slack * moved) {
            return static_cast<double>(year - 1) + std::min(1.0, -sum / flow);
        }
        sum = finite_at(sum + flow, discount);
        owed = owed || sum < -slack * moved;
    }
    if (!owed) return 0;
    return std::nullopt;
}

double present_value(const List& flows, double rate) {
    const auto yearly = one_a_year("flows", flows);
    return value_today(yearly, check::rate("rate", rate));
}

double equal_annual(const List& flows, double rate) {
    const auto yearly = one_a_year("flows", flows);
    if (yearly.size() < 2) {
        throw bad_argument("flows",
                           translatable("{1} has one row only, which is today: give at least one more, for year 1."));
    }
    const double discount = check::rate("rate", rate);
    return value_today(yearly, discount) / annuity(discount, static_cast<double>(yearly.size() - 1));
}

std::optional<double> break_even_price(const List& costs, const List& yields, double rate) {
    check::same_length("costs", costs.length, "yields", yields.length);
    const auto paid = one_a_year("costs", costs);
    const auto crops = one_a_year("yields", yields, 0);
    reaches_as_far("costs", paid.size(), "yields", crops.size());
    reaches_as_far("yields", crops.size(), "costs", paid.size());
    const double discount = check::rate("rate", rate);
    const double crop = value_today(crops, discount);
    if (crop == 0) return std::nullopt;
    const double price = value_today(paid, discount) / crop;
    if (!std::isfinite(price)) {
        throw bad_argument("yields", translatable("{1} are almost 0, so the price is too large for a number: give "
                                                  "yields in a smaller unit, or 0 where there is no crop."));
    }
    return price;
}

}  // namespace slipbark::money

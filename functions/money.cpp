#include "slipbark/money.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "support/checks.hpp"

namespace slipbark::money {

namespace {

/// So much of what has been moved is forgiven: -1 and ten times 0.1 do not add up to 0 in binary fractions.
constexpr double slack = 1e-12;
constexpr std::size_t most_years = 200;

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

LowPoint low_point(const List& flows, std::optional<double> rate) {
    const auto yearly = one_a_year("flows", flows);
    const double discount = check::rate("rate", rate.value_or(0));
    LowPoint lowest{.amount = yearly.front()};
    double sum = 0;
    double moved = 0;
    double factor = 1;
    for (std::size_t year = 0; year < yearly.size(); ++year) {
        const double before = sum;
        const double flow = finite_at(yearly[year] == 0 ? 0 : yearly[year] * factor, discount);
        factor /= 1 + discount;
        sum = finite_at(sum + flow, discount);
        moved = finite_at(moved + std::abs(flow), discount);
        const bool is_owed = sum < -slack * moved;
        if (year == 0 || sum < lowest.amount - slack * moved) {
            lowest = {.amount = sum, .year = static_cast<int>(year), .years_back = {}};
            if (!is_owed) lowest.years_back = 0;
        } else if (!lowest.years_back && !is_owed) {
            lowest.years_back = static_cast<double>(year - 1) + std::min(1.0, -before / flow);
        }
    }
    return lowest;
}

std::vector<ReworkYear> rework_year(const List& leave_flows, const List& rework_flows, double rate,
                                    std::optional<double> most, std::optional<Repeat> repeat) {
    const auto left = one_a_year("leave_flows", leave_flows);
    const auto reworked = one_a_year("rework_flows", rework_flows);
    for (const auto& [argument, years] : {std::pair("leave_flows", left.size()), {"rework_flows", reworked.size()}}) {
        if (years <= most_years) continue;
        throw bad_argument(argument, translatable("{1} has {2} years: give at most {3}."),
                           {static_cast<double>(years), static_cast<double>(most_years)});
    }
    if (reworked.size() < 2) {
        throw bad_argument("rework_flows",
                           translatable("{1} has one row only, the year of grafting: give at least one more."));
    }
    const double discount = check::rate("rate", rate);
    const auto last = static_cast<std::int64_t>(left.size() - 1);
    const auto most_left = static_cast<std::size_t>(most ? check::whole("most", *most, 0, last) : last);
    const bool is_repeated = repeat.value_or(Repeat::repeated) == Repeat::repeated;
    if (is_repeated && discount <= 0) {
        throw bad_argument(
            "rate",
            translatable("{1} was {2}, at which a rework that is repeated is worth more than any number: "
                         "give a rate above 0, or \"once\"."),
            {discount});
    }
    const auto life = static_cast<double>(reworked.size() - 1);
    // 1 - v^n is rate x annuity, without the loss of digits at a rate near 0.
    const double begun =
        finite_at(value_today(reworked, discount) / (is_repeated ? discount * annuity(discount, life) : 1), discount);
    std::vector<ReworkYear> rows;
    const auto add = [&](std::optional<int> years_left, double worth, double years) {
        const double gain = worth - left.front();
        rows.push_back({.years_left = years_left,
                        .worth = finite_at(worth, discount),
                        .annual = is_repeated ? gain * discount : gain / annuity(discount, years)});
    };
    double factor = 1;
    double picked = 0;
    for (std::size_t year = 0; year < left.size(); ++year) {
        picked += left[year] * factor;
        if (year <= most_left) {
            add(static_cast<int>(year), picked + factor * begun, static_cast<double>(year) + life);
        }
        if (year + 1 < left.size()) factor /= 1 + discount;
    }
    if (is_repeated) {
        add({}, picked + factor * left.back() / discount, 0);
    } else if (last > 0) {
        add({}, picked, static_cast<double>(last));
    }
    double best = rows.front().annual;
    for (const ReworkYear& row : rows) best = std::max(best, row.annual);
    std::find_if(rows.begin(), rows.end(), [&](const ReworkYear& row) {
        return row.annual >= best - slack * std::abs(best);
    })->best = true;
    return rows;
}

}  // namespace slipbark::money

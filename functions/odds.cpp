#include "slipbark/odds.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "statistics/latin_hypercube.hpp"
#include "statistics/quantile.hpp"
#include "statistics/triangular.hpp"
#include "support/checks.hpp"

namespace slipbark::odds {

namespace {

using statistics::Triangular;

constexpr std::size_t most_years = 200;
constexpr double most_factor = 10;
constexpr double longest_delay = 20;

/// What may be uncertain, in the order of `names`.
enum What : std::uint8_t { the_outlay, the_costs, the_income, the_season, the_delay };
constexpr std::array<std::string_view, 5> names{"outlay", "costs", "income", "season", "delay"};

/// The plan's years, discounted to today.
struct Plan {
    std::vector<double> costs;
    std::vector<double> income;
    std::vector<double> discount;
    std::size_t first_cost = 0;

    [[nodiscard]] std::size_t years() const { return costs.size(); }
};

std::vector<double> yearly(std::string_view argument, const List& list) {
    auto values = check::series(argument, list);
    if (values.empty()) {
        throw bad_argument(argument, translatable("{1} is blank: give one number a year, the first for today."));
    }
    if (values.size() > most_years) {
        throw bad_argument(argument, translatable("{1} has {2} years: give at most {3}."),
                           {static_cast<double>(values.size()), static_cast<double>(most_years)});
    }
    return values;
}

Plan plan_of(const List& costs, const List& income, std::optional<double> rate) {
    check::same_length("costs", costs.length, "income", income.length);
    Plan plan{.costs = yearly("costs", costs), .income = yearly("income", income), .discount = {}};
    if (plan.costs.size() != plan.income.size()) {
        const bool costs_end = plan.costs.size() < plan.income.size();
        throw bad_argument(
            costs_end ? "costs" : "income",
            translatable("{1} is blank in row {2} where {3} is not: give a number there, 0 if there was "
                         "none."),
            {static_cast<double>(std::min(plan.costs.size(), plan.income.size()) + 1), costs_end ? "income" : "costs"});
    }
    const auto first = std::find_if(plan.costs.begin(), plan.costs.end(), [](double cost) { return cost > 0; });
    if (first == plan.costs.end()) {
        throw bad_argument("costs",
                           translatable("{1} has no cost above 0 (the cells may be blank): give what is paid out "
                                        "as positive numbers."));
    }
    plan.first_cost = static_cast<std::size_t>(first - plan.costs.begin());
    const double yearly_rate = check::rate("rate", rate.value_or(0));
    double factor = 1;
    double most = 0;
    for (std::size_t year = 0; year < plan.years(); ++year) {
        plan.discount.push_back(factor);
        // Income may come as late as this from any earlier year, with two factors.
        most += factor * (most_factor * std::abs(plan.costs[year]) + most_factor * most_factor * check::amount_limit);
        factor /= 1 + yearly_rate;
    }
    if (!(most < 1e290)) {
        throw bad_argument("rate",
                           translatable("{1} was {2}, and the sum over these years is too large for a number: give a "
                                        "rate nearer to 0, or fewer years."),
                           {yearly_rate});
    }
    return plan;
}

struct Spread {
    What what;
    std::string name;  ///< as it was written
};

struct Spreads {
    std::array<Triangular, names.size()> of{Triangular{}, {}, {}, {}, {0, 0, 0}};
    std::vector<Spread> given;
};

double number_at(const Table& table, std::size_t row, std::size_t column, double high) {
    const Cell& cell = table.at(row, column);
    const auto place = static_cast<double>(row + 1);
    if (const auto* number = std::get_if<double>(&cell)) {
        if (*number >= 0 && *number <= high) return *number;
        throw bad_argument("spreads",
                           high == most_factor
                               ? translatable("{1} was {2} in row {3}: give a factor from 0 to {4}; 1 is as planned.")
                               : translatable("{1} was {2} in row {3}: give a delay from 0 to {4} years."),
                           {*number, place, high});
    }
    if (const auto* text = std::get_if<std::string>(&cell)) {
        throw bad_argument("spreads", translatable("{1} has the text \"{2}\" in row {3}: give a number there."),
                           {*text, place});
    }
    throw bad_argument("spreads", translatable("{1} is blank in row {2}, column {3}: give a number there."),
                       {place, static_cast<double>(column + 1)});
}

Spreads read(const Table& table) {
    if (table.columns < 4) {
        throw bad_argument("spreads", translatable("{1} has {2} columns: give four, what, low, likely and high."),
                           {static_cast<double>(table.columns)});
    }
    Spreads spreads;
    std::array<bool, names.size()> seen{};
    for (std::size_t row = 0; row < table.rows(); ++row) {
        bool blank = true;
        for (std::size_t column = 0; column < 4; ++column) blank = blank && is_blank(table.at(row, column));
        if (blank) continue;
        const auto place = static_cast<double>(row + 1);
        const auto* text = std::get_if<std::string>(&table.at(row, 0));
        const std::string key = text == nullptr ? std::string() : check::folded(*text);
        const auto place_of_name = std::find(names.begin(), names.end(), key) - names.begin();
        if (place_of_name == std::ssize(names)) {
            const auto* number = std::get_if<double>(&table.at(row, 0));
            throw bad_argument(
                "spreads",
                translatable(
                    "{1} has \"{2}\" in row {3}, column 1: give \"outlay\", \"costs\", \"income\", \"season\" or "
                    "\"delay\", and leave a heading row out."),
                {text != nullptr     ? *text
                 : number != nullptr ? to_text(*number)
                                     : std::string(),
                 place});
        }
        const auto what = static_cast<What>(place_of_name);
        if (std::exchange(seen.at(what), true)) {
            throw bad_argument("spreads", translatable("{1} has \"{2}\" a second time in row {3}: give each once."),
                               {*text, place});
        }
        const double high = what == the_delay ? longest_delay : most_factor;
        const Triangular spread{number_at(table, row, 1, high), number_at(table, row, 2, high),
                                number_at(table, row, 3, high)};
        if (spread.low > spread.likely || spread.likely > spread.high) {
            throw bad_argument(
                "spreads",
                translatable("{1} was {2}, {3}, {4} in row {5}: give numbers that do not fall from low to "
                             "likely to high."),
                {spread.low, spread.likely, spread.high, place});
        }
        spreads.of.at(what) = spread;
        spreads.given.push_back({what, std::string(check::trimmed(*text, " \t\r\n"))});
    }
    if (spreads.given.empty()) {
        throw bad_argument("spreads", translatable("{1} has no rows: give at least one, what, low, likely and high."));
    }
    return spreads;
}

/// One value for each draw, of the column of the hypercube that belongs to a thing (and of the season, to a year).
void draw(const Triangular& spread, std::uint64_t column, std::vector<double>& values) {
    if (spread.is_certain()) {
        std::fill(values.begin(), values.end(), spread.low);
        return;
    }
    statistics::latin_hypercube_column(column, values);
    for (double& value : values) value = spread.quantile(value);
}

/// Income of each draw on its way from the year in which it grew to that in which it comes. Only the years that a delay
/// can span are kept, so that many years take no more room than few.
class Income {
  public:
    Income(const Triangular& delays, std::size_t draws)
        : years_(static_cast<std::size_t>(delays.high) + 2), draws_(draws), coming_(years_ * draws) {
        std::vector<double> drawn(draws);
        draw(delays, the_delay, drawn);
        for (const double years : drawn) {
            const auto whole = static_cast<std::size_t>(years);
            delays_.push_back({whole, years - static_cast<double>(whole)});
        }
    }

    void grow(std::size_t year, std::size_t draw, double crop) {
        const auto& [whole, part] = delays_[draw];
        coming(year + whole, draw) += (1 - part) * crop;
        coming(year + whole + 1, draw) += part * crop;
    }
    /// What comes in a year; asked for once each.
    double come(std::size_t year, std::size_t draw) { return std::exchange(coming(year, draw), 0); }

  private:
    struct Delay {
        std::size_t whole;
        double part;
    };
    double& coming(std::size_t year, std::size_t draw) { return coming_[year % years_ * draws_ + draw]; }

    std::size_t years_;
    std::size_t draws_;
    std::vector<Delay> delays_;
    std::vector<double> coming_;
};

/// How a draw's summed flows stand; as in money::payback.
struct Standing {
    double sum = 0;
    double moved = 0;  ///< all that has been added, of which a part may be lost in binary fractions
    bool owed = false;
    bool paid = false;

    void add(double flow) {
        constexpr double slack = 1e-12;
        moved += std::abs(flow);
        sum += flow;
        paid = paid || (owed && sum >= -slack * moved);
        owed = owed || sum < -slack * moved;
    }
};

/// Present value with everything certain.
double value_today(const Plan& plan, const std::array<double, names.size()>& factors) {
    const double whole = std::floor(factors[the_delay]);
    const double part = factors[the_delay] - whole;
    const auto grown = [&](double year) { return year < 0 ? 0 : plan.income[static_cast<std::size_t>(year)]; };
    double value = 0;
    for (std::size_t year = 0; year < plan.years(); ++year) {
        const double at = static_cast<double>(year) - whole;
        const double came = ((1 - part) * grown(at) + part * grown(at - 1)) * factors[the_income] * factors[the_season];
        value += plan.discount[year] * (came - plan.costs[year] * factors[year == 0 ? the_outlay : the_costs]);
    }
    return value;
}

}  // namespace

double Swing::size() const { return std::abs(at_high - at_low); }

std::vector<YearOdds> payback_odds(const List& costs, const List& income, const Table& spreads,
                                   std::optional<double> rate, std::optional<double> runs) {
    const Plan plan = plan_of(costs, income, rate);
    const auto draws = static_cast<std::size_t>(check::whole("runs", runs.value_or(4000), 100, 100'000));
    const auto of = read(spreads).of;

    std::vector<double> cost_factors(draws);
    std::vector<double> income_factors(draws);
    std::vector<double> seasons(draws);
    draw(of[the_outlay], the_outlay, cost_factors);
    draw(of[the_income], the_income, income_factors);
    Income coming(of[the_delay], draws);
    std::vector<Standing> standings(draws);
    std::vector<double>& sums = seasons;  // once a season is used up, its room is
    std::vector<YearOdds> odds;
    for (std::size_t year = 0; year < plan.years(); ++year) {
        if (year == 1) draw(of[the_costs], the_costs, cost_factors);
        draw(of[the_season], names.size() + year, seasons);
        double paid = 0;
        for (std::size_t one = 0; one < draws; ++one) {
            coming.grow(year, one, plan.income[year] * income_factors[one] * seasons[one]);
            const double flow = coming.come(year, one) - plan.costs[year] * cost_factors[one];
            Standing& standing = standings[one];
            standing.add(flow * plan.discount[year]);
            if (standing.paid) ++paid;
            sums[one] = standing.sum;
        }
        odds.push_back({.year = static_cast<int>(year),
                        .paid_back = paid,
                        .low = statistics::quantile(sums, 0.1),
                        .median = statistics::quantile(sums, 0.5),
                        .high = statistics::quantile(sums, 0.9)});
    }
    const auto never_owed = static_cast<double>(
        std::count_if(standings.begin(), standings.end(), [](const Standing& standing) { return !standing.owed; }));
    for (YearOdds& one : odds) {
        const bool begun = static_cast<std::size_t>(one.year) >= plan.first_cost;
        one.paid_back = begun ? (one.paid_back + never_owed) / static_cast<double>(draws) : 0;
    }
    return odds;
}

std::vector<Swing> swings(const List& costs, const List& income, const Table& spreads, std::optional<double> rate) {
    const Plan plan = plan_of(costs, income, rate);
    const Spreads read_spreads = read(spreads);
    std::array<double, names.size()> likely{};
    for (std::size_t what = 0; what < likely.size(); ++what) likely.at(what) = read_spreads.of.at(what).likely;

    std::vector<Swing> swings;
    for (const auto& [what, name] : read_spreads.given) {
        const auto value = [&, moved = what](double factor) {
            auto factors = likely;
            factors.at(moved) = factor;
            return value_today(plan, factors);
        };
        swings.push_back({name, value(read_spreads.of.at(what).low), value(read_spreads.of.at(what).high)});
    }
    std::stable_sort(swings.begin(), swings.end(),
                     [](const Swing& one, const Swing& other) { return one.size() > other.size(); });
    return swings;
}

}  // namespace slipbark::odds

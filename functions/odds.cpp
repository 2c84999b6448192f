#include "slipbark/odds.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "statistics/latin_hypercube.hpp"
#include "statistics/quantile.hpp"
#include "statistics/triangular.hpp"
#include "support/checks.hpp"
#include "support/columns.hpp"

namespace slipbark::odds {

namespace {

using statistics::Triangular;

constexpr std::size_t most_years = 200;
constexpr double most_factor = 10;
constexpr double longest_delay = 20;
/// So much of the amounts moved is forgiven: -1 and ten times 0.1 do not add up to 0 in binary fractions.
constexpr double slack = 1e-12;

// ---- What is not certain

enum class Measure : std::uint8_t { factor, share, years };

/// A thing that may be uncertain, and what it is where it has no row.
struct Kind {
    std::string_view name;
    Measure measure = Measure::factor;
    Triangular certain = {};
};

struct Uncertainty {
    std::size_t kind = 0;
    std::string name;  ///< as it was written
    Triangular spread;
    std::size_t row = 0;
};

double most_of(Measure measure) {
    return measure == Measure::factor ? most_factor : measure == Measure::share ? 1 : longest_delay;
}

Text sentence_for(Measure measure) {
    switch (measure) {
        case Measure::factor:
            return translatable("{1} was {2} in row {3}: give a factor from 0 to {4}; 1 is as planned.");
        case Measure::share:
            return translatable("{1} was {2} in row {3}: give a share from 0 to {4}.");
        case Measure::years:
            break;
    }
    return translatable("{1} was {2} in row {3}: give a delay from 0 to {4} years.");
}

double number_at(const Table& table, std::size_t row, std::size_t column, Measure measure) {
    const Cell& cell = table.at(row, column);
    const double place = check::row_number(row);
    if (const auto* number = std::get_if<double>(&cell)) {
        if (*number >= 0 && *number <= most_of(measure)) return *number;
        throw bad_argument("spreads", sentence_for(measure), {*number, place, most_of(measure)});
    }
    if (const auto* text = std::get_if<std::string>(&cell)) {
        throw bad_argument("spreads", translatable("{1} has the text \"{2}\" in row {3}: give a number there."),
                           {*text, place});
    }
    throw bad_argument("spreads", translatable("{1} is blank in row {2}, column {3}: give a number there."),
                       {place, check::row_number(column)});
}

std::string text_at(const Table& table, std::size_t row) {
    const Cell& cell = table.at(row, 0);
    if (const auto* text = std::get_if<std::string>(&cell)) return std::string(check::trimmed(*text, " \t\r\n"));
    if (const auto* number = std::get_if<double>(&cell)) return to_text(*number);
    return {};
}

std::size_t kind_at(const Table& table, std::size_t row, std::span<const Kind> kinds) {
    if (const auto* text = std::get_if<std::string>(&table.at(row, 0))) {
        const std::string key = check::folded(*text);
        const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& kind) { return kind.name == key; });
        if (found != kinds.end()) return static_cast<std::size_t>(found - kinds.begin());
    }
    std::string list;
    for (const Kind& kind : kinds) list.append(list.empty() ? "\"" : ", \"").append(kind.name).append("\"");
    throw bad_argument("spreads",
                       translatable("{1} has \"{2}\" in row {3}, column 1: give one of {4}, and leave a heading row "
                                    "out."),
                       {text_at(table, row), check::row_number(row), list});
}

/// The rows of `spreads`, of which `columns` are looked at.
std::vector<Uncertainty> read(const Table& table, std::span<const Kind> kinds, std::size_t columns) {
    if (table.columns < 4) {
        throw bad_argument("spreads", translatable("{1} has {2} columns: give four, what, low, likely and high."),
                           {static_cast<double>(table.columns)});
    }
    const std::size_t looked_at = std::min(columns, table.columns);
    std::vector<Uncertainty> found;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        bool blank = true;
        for (std::size_t column = 0; column < looked_at; ++column) blank = blank && is_blank(table.at(row, column));
        if (blank) continue;
        const std::size_t kind = kind_at(table, row, kinds);
        if (std::any_of(found.begin(), found.end(), [&](const Uncertainty& one) { return one.kind == kind; })) {
            throw bad_argument("spreads", translatable("{1} has \"{2}\" a second time in row {3}: give each once."),
                               {text_at(table, row), check::row_number(row)});
        }
        const Measure measure = kinds[kind].measure;
        const Triangular spread{number_at(table, row, 1, measure), number_at(table, row, 2, measure),
                                number_at(table, row, 3, measure)};
        if (spread.low > spread.likely || spread.likely > spread.high) {
            throw bad_argument(
                "spreads",
                translatable("{1} was {2}, {3}, {4} in row {5}: give numbers that do not fall from low to "
                             "likely to high."),
                {spread.low, spread.likely, spread.high, check::row_number(row)});
        }
        found.push_back({kind, text_at(table, row), spread, row});
    }
    if (found.empty()) {
        throw bad_argument("spreads", translatable("{1} has no rows: give at least one, what, low, likely and high."));
    }
    return found;
}

/// The distribution of each kind.
template <std::size_t Count>
std::array<Triangular, Count> by_kind(const std::array<Kind, Count>& kinds, const std::vector<Uncertainty>& given) {
    std::array<Triangular, Count> spreads;
    for (std::size_t at = 0; at < Count; ++at) spreads.at(at) = kinds.at(at).certain;
    for (const Uncertainty& one : given) spreads.at(one.kind) = one.spread;
    return spreads;
}

template <std::size_t Count>
std::array<double, Count> likely(const std::array<Triangular, Count>& spreads) {
    std::array<double, Count> values{};
    std::transform(spreads.begin(), spreads.end(), values.begin(), [](const Triangular& one) { return one.likely; });
    return values;
}

// ---- Years, and the draws of them

/// What a flow of each year is worth today; refuses a rate at which the sums would overflow. `most` is the largest flow
/// of a year.
template <class Most>
std::vector<double> discounts(std::size_t years, std::optional<double> rate, Most most) {
    const double yearly_rate = check::rate("rate", rate.value_or(0));
    std::vector<double> factors;
    double factor = 1;
    double sum = 0;
    for (std::size_t year = 0; year < years; ++year) {
        factors.push_back(factor);
        sum += factor * most(year);
        factor /= 1 + yearly_rate;
    }
    if (!(sum < 1e290)) {
        throw bad_argument("rate",
                           translatable("{1} was {2}, and the sum over these years is too large for a number: give a "
                                        "rate nearer to 0, or fewer years."),
                           {yearly_rate});
    }
    return factors;
}

[[noreturn]] void refuse_too_many(std::string_view argument, std::size_t years) {
    throw bad_argument(argument, translatable("{1} has {2} years: give at most {3}."),
                       {static_cast<double>(years), static_cast<double>(most_years)});
}

std::size_t number_of_draws(std::optional<double> runs) {
    return static_cast<std::size_t>(check::whole("runs", runs.value_or(4000), 100, 100'000));
}

/// One value for each draw, of a column of the hypercube.
void draw(const Triangular& spread, std::uint64_t column, std::vector<double>& values) {
    if (spread.is_certain()) {
        std::fill(values.begin(), values.end(), spread.low);
        return;
    }
    statistics::latin_hypercube_column(column, values);
    for (double& value : values) value = spread.quantile(value);
}

/// How a draw's summed flows stand; as in money::payback.
struct Standing {
    double sum = 0;
    double moved = 0;  ///< all that has been added, of which a part may be lost in binary fractions
    bool owed = false;
    bool paid = false;
    bool beyond = false;  ///< has been below -limit

    void add(double flow) {
        moved += std::abs(flow);
        sum += flow;
        paid = paid || (owed && sum >= -slack * moved);
        owed = owed || sum < -slack * moved;
    }
};

/// The odds after a year, in which draws that were never below 0 are not yet among those paid back.
YearOdds odds_after(std::size_t year, const std::vector<Standing>& standings, std::vector<double>& sums) {
    std::transform(standings.begin(), standings.end(), sums.begin(), [](const Standing& one) { return one.sum; });
    const auto paid = std::count_if(standings.begin(), standings.end(), [](const Standing& one) { return one.paid; });
    return {.year = static_cast<int>(year),
            .paid_back = static_cast<double>(paid),
            .low = statistics::quantile(sums, 0.1),
            .median = statistics::quantile(sums, 0.5),
            .high = statistics::quantile(sums, 0.9)};
}

/// Makes counts of draws paid back shares. Who was never below 0 has paid back from the first year that costs anything.
void share_out(std::vector<YearOdds>& odds, const std::vector<Standing>& standings, std::size_t first_cost) {
    const auto draws = static_cast<double>(standings.size());
    const auto never_owed = static_cast<double>(
        std::count_if(standings.begin(), standings.end(), [](const Standing& standing) { return !standing.owed; }));
    for (YearOdds& one : odds) {
        const bool begun = static_cast<std::size_t>(one.year) >= first_cost;
        one.paid_back = begun ? (one.paid_back + never_owed) / draws : 0;
    }
}

enum class End : std::uint8_t { low, high };

/// The swings of what is given, largest first. `value` is the present value with one uncertainty at an end.
template <class Value>
std::vector<Swing> swings_of(const std::vector<Uncertainty>& given, Value value) {
    std::vector<Swing> swings;
    swings.reserve(given.size());
    for (const Uncertainty& one : given) {
        swings.push_back({one.name, value(one, End::low), value(one, End::high)});
    }
    std::stable_sort(swings.begin(), swings.end(),
                     [](const Swing& one, const Swing& other) { return one.size() > other.size(); });
    return swings;
}

// ---- A plan of costs and income

enum Item : std::uint8_t { outlay, later_costs, income_factor, income_season, income_delay };
constexpr std::array<Kind, 5> plan_kinds{
    {{"outlay"}, {"costs"}, {"income"}, {"season"}, {"delay", Measure::years, {0, 0, 0}}}};

/// The plan's years.
struct CashFlow {
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
    if (values.size() > most_years) refuse_too_many(argument, values.size());
    return values;
}

CashFlow cash_flow(const List& costs, const List& income, std::optional<double> rate) {
    check::same_length("costs", costs.length, "income", income.length);
    CashFlow plan{.costs = yearly("costs", costs), .income = yearly("income", income), .discount = {}};
    if (plan.costs.size() != plan.income.size()) {
        const bool costs_end = plan.costs.size() < plan.income.size();
        throw bad_argument(
            costs_end ? "costs" : "income",
            translatable("{1} is blank in row {2} where {3} is not: give a number there, 0 if there was "
                         "none."),
            {check::row_number(std::min(plan.costs.size(), plan.income.size())), costs_end ? "income" : "costs"});
    }
    const auto first = std::find_if(plan.costs.begin(), plan.costs.end(), [](double cost) { return cost > 0; });
    if (first == plan.costs.end()) {
        throw bad_argument("costs",
                           translatable("{1} has no cost above 0 (the cells may be blank): give what is paid out "
                                        "as positive numbers."));
    }
    plan.first_cost = static_cast<std::size_t>(first - plan.costs.begin());
    // Income may come as late as this from any earlier year, with two factors.
    plan.discount = discounts(plan.years(), rate, [&](std::size_t year) {
        return most_factor * std::abs(plan.costs[year]) + most_factor * most_factor * check::amount_limit;
    });
    return plan;
}

/// Income of each draw on its way from the year in which it grew to that in which it comes. Only the years that a delay
/// can span are kept, so that many years take no more room than few.
class Income {
  public:
    Income(const Triangular& delays, std::size_t draws)
        : years_(static_cast<std::size_t>(delays.high) + 2), draws_(draws), coming_(years_ * draws) {
        std::vector<double> drawn(draws);
        draw(delays, income_delay, drawn);
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

/// Present value with everything certain.
double value_today(const CashFlow& plan, const std::array<double, plan_kinds.size()>& factors) {
    const double whole = std::floor(factors[income_delay]);
    const double part = factors[income_delay] - whole;
    const auto grown = [&](double year) { return year < 0 ? 0 : plan.income[static_cast<std::size_t>(year)]; };
    double value = 0;
    for (std::size_t year = 0; year < plan.years(); ++year) {
        const double at = static_cast<double>(year) - whole;
        const double came =
            ((1 - part) * grown(at) + part * grown(at - 1)) * factors[income_factor] * factors[income_season];
        value += plan.discount[year] * (came - plan.costs[year] * factors[year == 0 ? outlay : later_costs]);
    }
    return value;
}

// ---- The years of a block, as they are made

// In the order in which the columns of the hypercube are numbered. "season" and "frost" have further columns, three a
// year from `yearly_columns` on.
enum Thing : std::uint8_t { first_costs, costs, price, old_price, crop_yield, crop_take, season, frost, delay };
constexpr std::array<Kind, 9> block_kinds{{{"outlay"},
                                           {"costs"},
                                           {"price"},
                                           {"old price"},
                                           {"yield"},
                                           {"take"},
                                           {"season"},
                                           {"frost", Measure::share, {0, 0, 0}},
                                           {"delay", Measure::years, {0, 0, 0}}}};
constexpr std::size_t yearly_columns = block_kinds.size();
constexpr std::size_t columns_of_spreads = 6;

struct BlockYear {
    double costs = 0;
    double crop = 0;
    double picking = 0;
    double old_crop = 0;
    double saved = 0;  ///< picking of the old crop
};

struct Block {
    std::vector<BlockYear> years;
    std::vector<double> discount;
    std::size_t first_cost = 0;
};

Block block_of(const Table& table, std::optional<double> rate) {
    constexpr double most = check::amount_limit;
    constexpr std::array<check::NumberColumn, 5> columns{{{0, translatable("costs"), -most, most},
                                                          {1, translatable("new crop"), 0, most},
                                                          {2, translatable("picking"), 0, most},
                                                          {3, translatable("old crop"), 0, most},
                                                          {4, translatable("picking saved"), 0, most}}};
    if (table.columns < columns.size()) {
        throw bad_argument("years",
                           translatable("{1} has {2} columns: give five, costs, new crop, its picking, old crop "
                                        "forgone and its picking saved."),
                           {static_cast<double>(table.columns)});
    }
    const std::size_t rows = check::used_rows(table, columns.size());
    if (rows == 0) throw bad_argument("years", translatable("{1} is blank: give one row a year, the first for today."));
    if (rows > most_years) refuse_too_many("years", rows);
    Block block;
    for (std::size_t row = 0; row < rows; ++row) {
        std::array<double, columns.size()> cells{};
        for (const check::NumberColumn& column : columns) {
            cells.at(column.place) = check::number_in("years", table, row, column);
        }
        block.years.push_back({cells[0], cells[1], cells[2], cells[3], cells[4]});
    }
    const auto first = std::find_if(block.years.begin(), block.years.end(),
                                    [](const BlockYear& year) { return year.costs > 0 || year.old_crop > year.saved; });
    if (first == block.years.end()) {
        throw bad_argument("years",
                           translatable("{1} has no year in which anything is paid (column 1 above 0) or forgone "
                                        "(column 4 above column 5): give what the rework costs as positive numbers."));
    }
    block.first_cost = static_cast<std::size_t>(first - block.years.begin());
    // Three factors at most on each crop, one on costs; the crop of any year may come in any other.
    block.discount = discounts(rows, rate, [](std::size_t) { return 4e3 * check::amount_limit; });
    return block;
}

/// What a factor of the take does to the crop, damped by what regrafting makes good.
struct Damping {
    double share = 1;         ///< of the difference that is felt
    double most_factor = 10;  ///< no more than all grafts can live

    [[nodiscard]] double factor_of_crop(double take) const { return 1 + share * (std::min(take, most_factor) - 1); }
};

/// The number in a column that only some rows use; empty where it is blank or is not there.
std::optional<double> extra(const Table& table, std::size_t row, const check::NumberColumn& column) {
    if (column.place >= table.columns || is_blank(table.at(row, column.place))) return std::nullopt;
    return check::number_in("spreads", table, row, column);
}

Damping damping_of(const Table& table, std::size_t row) {
    constexpr check::NumberColumn made_good{4, translatable("share of failures made good"), 0, 1};
    constexpr check::NumberColumn planned{5, translatable("live share planned"), 0, 1};
    const double good = extra(table, row, made_good).value_or(0);
    const double live = extra(table, row, planned).value_or(1);
    if (live == 0) {
        throw check::bad_cell("spreads",
                              translatable("{1} was {2} in row {3}, column {4} ({5}): give a share above 0, at most "
                                           "1."),
                              table, row, planned.place, planned.name);
    }
    const double felt = live * (1 - good);
    return {.share = felt / (felt + good), .most_factor = 1 / live};
}

double frost_years(const Table& table, std::size_t row) {
    constexpr check::NumberColumn probability{4, translatable("probability of a frost year"), 0, 1};
    const auto given = extra(table, row, probability);
    if (given) return *given;
    throw bad_argument("spreads",
                       translatable("{1} has no probability of a frost year in row {2}: give it in column 5, from 0 "
                                    "to 1; 0.1 is one year in ten."),
                       {check::row_number(row)});
}

struct BlockUncertainties {
    std::vector<Uncertainty> given;
    std::array<Triangular, block_kinds.size()> spreads;
    Damping damping;
    double frost_probability = 0;
};

BlockUncertainties uncertainties_of(const Table& table) {
    BlockUncertainties found;
    found.given = read(table, block_kinds, columns_of_spreads);
    found.spreads = by_kind(block_kinds, found.given);
    for (const Uncertainty& one : found.given) {
        if (one.kind == crop_take) found.damping = damping_of(table, one.row);
        if (one.kind == frost) found.frost_probability = frost_years(table, one.row);
    }
    return found;
}

/// What a draw makes of all years alike.
struct Factors {
    double costs = 1;
    double price = 1;
    double old_price = 1;
    double crop = 1;
    std::size_t whole = 0;  ///< years of delay
    double part = 0;        ///< of a year more

    void delay_by(double years) {
        whole = static_cast<std::size_t>(years);
        part = years - static_cast<double>(whole);
    }
};

/// The flow of a year. `borne` is what season and frost leave of both crops.
double flow_of(const Block& block, std::size_t year, const Factors& factors, double borne) {
    const BlockYear& planned = block.years[year];
    double crop = 0;
    double picking = 0;
    const auto add = [&](std::size_t later, double part) {
        if (later > year) return;
        crop += part * block.years[year - later].crop;
        picking += part * block.years[year - later].picking;
    };
    add(factors.whole, 1 - factors.part);
    if (factors.part > 0) add(factors.whole + 1, factors.part);
    return borne * (factors.crop * (factors.price * crop - picking) - factors.old_price * planned.old_crop +
                    planned.saved) -
           planned.costs * factors.costs;
}

/// What season and frost leave of the crops of a year, for each draw.
class Weather {
  public:
    Weather(const BlockUncertainties& not_certain, std::size_t draws)
        : season_(not_certain.spreads[season]),
          lost_(not_certain.spreads[frost]),
          probability_(not_certain.frost_probability),
          borne_(draws),
          frost_places_(draws),
          lost_places_(draws) {}

    const std::vector<double>& borne(std::size_t year) {
        const std::size_t column = yearly_columns + 3 * year;
        draw(season_, column, borne_);
        if (probability_ == 0 || lost_.high == 0) return borne_;
        statistics::latin_hypercube_column(column + 1, frost_places_);
        if (!lost_.is_certain()) statistics::latin_hypercube_column(column + 2, lost_places_);
        for (std::size_t one = 0; one < borne_.size(); ++one) {
            if (frost_places_[one] < probability_) borne_[one] *= 1 - lost_.quantile(lost_places_[one]);
        }
        return borne_;
    }

  private:
    Triangular season_;
    Triangular lost_;
    double probability_;
    std::vector<double> borne_;
    std::vector<double> frost_places_;
    std::vector<double> lost_places_;
};

/// Factors of every draw but those of costs, which change after the first year.
std::vector<Factors> factors_of(const BlockUncertainties& not_certain, std::size_t draws) {
    std::vector<Factors> factors(draws);
    std::vector<double> drawn(draws);
    const auto each = [&](Thing thing, auto put) {
        draw(not_certain.spreads.at(thing), thing, drawn);
        for (std::size_t one = 0; one < draws; ++one) put(factors[one], drawn[one]);
    };
    each(price, [](Factors& one, double value) { one.price = value; });
    each(old_price, [](Factors& one, double value) { one.old_price = value; });
    each(crop_yield, [](Factors& one, double value) { one.crop = value; });
    each(crop_take, [&](Factors& one, double value) { one.crop *= not_certain.damping.factor_of_crop(value); });
    each(delay, [](Factors& one, double value) { one.delay_by(value); });
    return factors;
}

/// Present value with everything certain, frost as the loss to be expected.
double value_today(const Block& block, const BlockUncertainties& not_certain,
                   const std::array<double, block_kinds.size()>& values) {
    Factors factors{.price = values[price],
                    .old_price = values[old_price],
                    .crop = values[crop_yield] * not_certain.damping.factor_of_crop(values[crop_take])};
    factors.delay_by(values[delay]);
    const double borne = values[season] * (1 - not_certain.frost_probability * values[frost]);
    double value = 0;
    for (std::size_t year = 0; year < block.years.size(); ++year) {
        factors.costs = values[year == 0 ? first_costs : costs];
        value += block.discount[year] * flow_of(block, year, factors, borne);
    }
    return value;
}

}  // namespace

double Swing::size() const { return std::abs(at_high - at_low); }

std::vector<YearOdds> payback_odds(const List& costs, const List& income, const Table& spreads,
                                   std::optional<double> rate, std::optional<double> runs) {
    const CashFlow plan = cash_flow(costs, income, rate);
    const std::size_t draws = number_of_draws(runs);
    const auto of = by_kind(plan_kinds, read(spreads, plan_kinds, 4));

    std::vector<double> cost_factors(draws);
    std::vector<double> income_factors(draws);
    std::vector<double> seasons(draws);
    draw(of[outlay], outlay, cost_factors);
    draw(of[income_factor], income_factor, income_factors);
    Income coming(of[income_delay], draws);
    std::vector<Standing> standings(draws);
    std::vector<YearOdds> odds;
    for (std::size_t year = 0; year < plan.years(); ++year) {
        if (year == 1) draw(of[later_costs], later_costs, cost_factors);
        draw(of[income_season], plan_kinds.size() + year, seasons);
        for (std::size_t one = 0; one < draws; ++one) {
            coming.grow(year, one, plan.income[year] * income_factors[one] * seasons[one]);
            const double flow = coming.come(year, one) - plan.costs[year] * cost_factors[one];
            standings[one].add(flow * plan.discount[year]);
        }
        odds.push_back(odds_after(year, standings, seasons));
    }
    share_out(odds, standings, plan.first_cost);
    return odds;
}

std::vector<Swing> swings(const List& costs, const List& income, const Table& spreads, std::optional<double> rate) {
    const CashFlow plan = cash_flow(costs, income, rate);
    const auto given = read(spreads, plan_kinds, 4);
    const auto as_likely = likely(by_kind(plan_kinds, given));
    return swings_of(given, [&](const Uncertainty& moved, End end) {
        auto factors = as_likely;
        factors.at(moved.kind) = end == End::low ? moved.spread.low : moved.spread.high;
        return value_today(plan, factors);
    });
}

std::vector<YearOdds> flow_odds(const Table& years, const Table& spreads, std::optional<double> rate,
                                std::optional<double> runs, std::optional<double> limit) {
    const Block block = block_of(years, rate);
    const BlockUncertainties not_certain = uncertainties_of(spreads);
    const std::size_t draws = number_of_draws(runs);
    const double most_spent = limit ? check::number("limit", *limit, 0) : 0;

    std::vector<Factors> factors = factors_of(not_certain, draws);
    std::vector<double> room(draws);
    const auto draw_costs = [&](Thing thing) {
        draw(not_certain.spreads.at(thing), thing, room);
        for (std::size_t one = 0; one < draws; ++one) factors[one].costs = room[one];
    };
    draw_costs(first_costs);
    Weather weather(not_certain, draws);
    std::vector<Standing> standings(draws);
    std::vector<YearOdds> odds;
    for (std::size_t year = 0; year < block.years.size(); ++year) {
        if (year == 1) draw_costs(costs);
        const std::vector<double>& borne = weather.borne(year);
        for (std::size_t one = 0; one < draws; ++one) {
            Standing& standing = standings[one];
            standing.add(block.discount[year] * flow_of(block, year, factors[one], borne[one]));
            standing.beyond = standing.beyond || standing.sum < -most_spent - slack * standing.moved;
        }
        odds.push_back(odds_after(year, standings, room));
        if (limit) {
            const auto beyond =
                std::count_if(standings.begin(), standings.end(), [](const Standing& one) { return one.beyond; });
            odds.back().beyond_limit = static_cast<double>(beyond) / static_cast<double>(draws);
        }
    }
    share_out(odds, standings, block.first_cost);
    return odds;
}

std::vector<Swing> flow_swings(const Table& years, const Table& spreads, std::optional<double> rate) {
    const Block block = block_of(years, rate);
    const BlockUncertainties not_certain = uncertainties_of(spreads);
    const auto as_likely = likely(not_certain.spreads);
    return swings_of(not_certain.given, [&](const Uncertainty& moved, End end) {
        auto values = as_likely;
        // The low end of frost is years without one.
        const double low = moved.kind == frost ? 0 : moved.spread.low;
        values.at(moved.kind) = end == End::low ? low : moved.spread.high;
        return value_today(block, not_certain, values);
    });
}

std::optional<double> odds_year(const Table& odds, std::optional<double> share) {
    constexpr check::NumberColumn year{0, translatable("year"), 0, 10'000};
    constexpr check::NumberColumn paid_back{1, translatable("share paid back"), 0, 1};
    constexpr std::size_t most_rows = 1000;
    if (odds.columns < 2) {
        throw bad_argument("odds", translatable("{1} has {2} columns: give two, {3} and {4}."),
                           {static_cast<double>(odds.columns), year.name, paid_back.name});
    }
    const double wanted = check::fraction("share", share.value_or(0.5));
    if (wanted == 0) {
        throw bad_argument("share",
                           translatable("{1} was 0 (the cell may be blank): give a share above 0, at most 1."));
    }
    const std::size_t rows = check::used_rows(odds, 2);
    if (rows == 0) throw bad_argument("odds", translatable("{1} is blank: give one row a year, the first for today."));
    if (rows > most_rows) {
        throw bad_argument("odds", translatable("{1} has {2} years: give at most {3}."),
                           {static_cast<double>(rows), static_cast<double>(most_rows)});
    }
    std::optional<double> found;
    for (std::size_t row = 0; row < rows; ++row) {
        const double at = check::number_in("odds", odds, row, year);
        const bool reached = check::number_in("odds", odds, row, paid_back) >= wanted - 1e-9;
        if (reached && !found) found = at;
    }
    return found;
}

}  // namespace slipbark::odds

#include "slipbark/trials.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "statistics/intervals.hpp"
#include "statistics/logistic.hpp"
#include "support/checks.hpp"
#include "support/tallies.hpp"

namespace slipbark::trials {

namespace {

using statistics::Count;

constexpr double usual_confidence = 0.95;
constexpr double usual_clustering = 0.2;
constexpr double usual_power = 0.8;
constexpr double usual_risk_good = 0.05;
constexpr double usual_risk_poor = 0.1;
constexpr double slack = 1e-9;

double checked_confidence(std::optional<double> confidence) {
    return check::confidence("confidence", confidence.value_or(usual_confidence));
}

/// What a trial compares, checked.
struct Comparison {
    double take_a;
    double take_b;
    double grafts_per_tree;
    double clustering;
    double confidence;
};

Comparison checked_comparison(double take_a, double take_b, double grafts_per_tree, std::optional<double> clustering,
                              std::optional<double> confidence) {
    check::fraction("take_a", take_a);
    check::fraction("take_b", take_b);
    if (take_a == take_b) {
        throw bad_argument("take_b",
                           translatable("{1} was {2}, as take_a is, and a trial cannot show a difference that is not "
                                        "there: give the difference that you want it to find."),
                           {take_b});
    }
    return {take_a, take_b, static_cast<double>(check::whole("grafts_per_tree", grafts_per_tree, 1)),
            check::fraction_below_one("clustering", clustering.value_or(usual_clustering)),
            checked_confidence(confidence)};
}

double power_of(const Comparison& plan, double trees) {
    const double design_effect = 1 + (plan.grafts_per_tree - 1) * plan.clustering;
    const double mean = (plan.take_a + plan.take_b) / 2;
    const double t = statistics::student_deviate(plan.confidence, 2 * trees - 2);
    const double above = std::abs(plan.take_a - plan.take_b) * std::sqrt(plan.grafts_per_tree * trees / design_effect) -
                         t * std::sqrt(2 * mean * (1 - mean));
    const double variance = plan.take_a * (1 - plan.take_a) + plan.take_b * (1 - plan.take_b);
    if (variance == 0) return above >= 0 ? 1 : 0;
    return boost::math::cdf(boost::math::normal(), above / std::sqrt(variance));
}

/// A share of live trees, above 0 and below 1.
double share_of_trees(std::string_view argument, double share) {
    check::fraction(argument, share);
    if (share == 0 || share == 1) {
        throw bad_argument(argument, translatable("{1} was {2}: give a fraction above 0 and below 1."), {share});
    }
    return share;
}

double risk(std::string_view argument, double value) {
    if (!(value > 0 && value < 0.5)) {
        throw bad_argument(argument, translatable("{1} was {2}: give a fraction above 0 and below 0.5."), {value});
    }
    return value;
}

constexpr std::size_t most_coefficients = 100;

bool is_number(const Cell& cell) { return std::holds_alternative<double>(cell); }

/// The factors of the inspected rows as columns of numbers.
struct Design {
    std::vector<std::string> names;            ///< of the columns
    std::vector<std::vector<double>> columns;  ///< the first all 1
    std::vector<std::size_t> factors;  ///< from which column of the table each came, from 0; unused of the first
};

bad_argument too_many_coefficients(std::size_t factor) {
    return {"factors",
            translatable("{1} makes more than {2} coefficients with column {3}: give fewer columns, or fewer different "
                         "texts."),
            {static_cast<double>(most_coefficients), static_cast<double>(factor + 1)}};
}

const Cell& factor_in_row(const Table& factors, std::size_t row, std::size_t column) {
    static const Cell blank;
    const Cell& cell = row < factors.rows() ? factors.at(row, column) : blank;
    const auto* text = std::get_if<std::string>(&cell);
    if (is_blank(cell) || (text != nullptr && check::trimmed(*text).empty())) {
        throw bad_argument("factors",
                           translatable("{1} is blank in row {2}, column {3}, which was inspected: give a number or a "
                                        "text there."),
                           {check::row_number(row), static_cast<double>(column + 1)});
    }
    return cell;
}

void add_factor(Design& design, const Table& factors, std::size_t column, const std::vector<std::size_t>& rows) {
    const bool numbers = is_number(factor_in_row(factors, rows.front(), column));
    tallies::Groups texts;
    std::vector<double> values;  // or places of texts
    values.reserve(rows.size());
    bool varies = false;
    for (const std::size_t row : rows) {
        const Cell& cell = factor_in_row(factors, row, column);
        if (is_number(cell) != numbers) {
            throw bad_argument("factors",
                               translatable("{1} has numbers and texts in column {2}, as row {3} shows: give numbers "
                                            "only, or texts only."),
                               {static_cast<double>(column + 1), check::row_number(row)});
        }
        if (numbers) {
            values.push_back(check::number("factors", std::get<double>(cell)));
        } else {
            values.push_back(static_cast<double>(*texts.place_of(cell)));
            if (texts.size() > most_coefficients) throw too_many_coefficients(column);
        }
        varies = varies || values.back() != values.front();
    }
    if (!varies) {
        throw bad_argument("factors",
                           translatable("{1} is the same in all inspected rows of column {2}: give a column that "
                                        "varies, or leave it out."),
                           {static_cast<double>(column + 1)});
    }
    if (numbers) {
        design.names.push_back("column " + std::to_string(column + 1));
        design.columns.push_back(std::move(values));
        design.factors.push_back(column);
    }
    for (std::size_t text = 1; text < texts.size(); ++text) {
        std::vector<double> is_it;
        is_it.reserve(values.size());
        for (const double place : values) is_it.push_back(place == static_cast<double>(text) ? 1 : 0);
        design.names.push_back(std::get<std::string>(texts.name(text)));
        design.columns.push_back(std::move(is_it));
        design.factors.push_back(column);
    }
    if (design.columns.size() > most_coefficients) throw too_many_coefficients(column);
}

Eigen::MatrixXd matrix_of(const Design& design) {
    const std::size_t rows = design.columns.front().size();
    Eigen::MatrixXd matrix(static_cast<Eigen::Index>(rows), static_cast<Eigen::Index>(design.columns.size()));
    for (std::size_t column = 0; column < design.columns.size(); ++column) {
        for (std::size_t row = 0; row < rows; ++row) {
            matrix(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column)) = design.columns[column][row];
        }
    }
    return matrix;
}

/// exp of log odds, which must be a number that fits into a cell, and not 0.
double odds(double log_odds, const std::string& name) {
    constexpr double largest = 700;
    if (std::abs(log_odds) > largest) {
        throw bad_argument("factors",
                           translatable("{1} gives odds for \"{2}\" that no number can be: give numbers counted from "
                                        "near their middle, such as days since the first day of grafting."),
                           {name});
    }
    return std::exp(log_odds);
}

}  // namespace

double trial_power(double take_a, double take_b, double grafts_per_tree, double trees, std::optional<double> clustering,
                   std::optional<double> confidence) {
    const auto of_each = static_cast<double>(check::whole("trees", trees, 2));
    return power_of(checked_comparison(take_a, take_b, grafts_per_tree, clustering, confidence), of_each);
}

std::optional<double> trial_trees(double take_a, double take_b, double grafts_per_tree,
                                  std::optional<double> clustering, std::optional<double> power,
                                  std::optional<double> confidence) {
    const Comparison plan = checked_comparison(take_a, take_b, grafts_per_tree, clustering, confidence);
    const double wanted = check::confidence("power", power.value_or(usual_power));
    // One more tree never takes anything away, so the least number can be halved in on.
    std::int64_t too_few = 1;
    constexpr std::int64_t most = 1'000'000;
    std::int64_t enough = most + 1;
    while (enough - too_few > 1) {
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        (power_of(plan, static_cast<double>(middle)) >= wanted ? enough : too_few) = middle;
    }
    if (enough > most) return std::nullopt;
    return static_cast<double>(enough);
}

StopCounting stop_counting(double live_trees, double looked_trees, double good, double poor,
                           std::optional<double> risk_good, std::optional<double> risk_poor) {
    const auto looked = static_cast<double>(check::whole("looked_trees", looked_trees, 0));
    const auto live = static_cast<double>(check::whole("live_trees", live_trees, 0));
    if (live > looked) {
        throw bad_argument("live_trees",
                           translatable("{1} was {2}, more than were looked at: give at most {3}, which is {4}."),
                           {live, "looked_trees", looked});
    }
    share_of_trees("good", good);
    share_of_trees("poor", poor);
    if (!(poor < good)) {
        throw bad_argument("poor", translatable("{1} was {2}, not below good, which is {3}: give a smaller share."),
                           {poor, good});
    }
    const double called_poor = risk("risk_good", risk_good.value_or(usual_risk_good));
    const double called_good = risk("risk_poor", risk_poor.value_or(usual_risk_poor));

    const double g = std::log(good / poor);
    const double h = std::log1p(-good) - std::log1p(-poor);
    const double good_from = std::ceil((std::log((1 - called_poor) / called_good) - looked * h) / (g - h) - slack);
    const double poor_to = std::floor((std::log(called_poor / (1 - called_good)) - looked * h) / (g - h) + slack);
    StopCounting found;
    if (poor_to >= 0) found.poor_to = poor_to;
    if (good_from <= looked) found.good_from = good_from;
    if (live >= good_from) {
        found.verdict = Verdict::good;
    } else if (live <= poor_to) {
        found.verdict = Verdict::poor;
    }
    return found;
}

std::optional<std::vector<FactorEffect>> take_factors(const List& live, const List& grafted, const Table& factors,
                                                      std::optional<double> confidence) {
    std::vector<std::size_t> rows;
    std::vector<Count> counts;
    tallies::for_each_inspected(live, grafted, [&](std::size_t row, const Count& count) {
        rows.push_back(row);
        counts.push_back(count);
    });
    check::same_length("live", live.length, "factors", factors.rows() + factors.blank_rows);
    const double level = checked_confidence(confidence);
    if (rows.empty()) return std::nullopt;

    Design design;
    design.names.emplace_back("base");
    design.columns.emplace_back(rows.size(), 1.0);
    design.factors.push_back(0);
    for (std::size_t column = 0; column < factors.columns; ++column) add_factor(design, factors, column, rows);
    const Eigen::MatrixXd matrix = matrix_of(design);
    if (const auto made = statistics::dependent_column(matrix)) {
        throw bad_argument("factors",
                           translatable("{1} has a column {2} that the columns before it make (\"{3}\"), as one that "
                                        "is twice another or is known once the grafter is: give only one of them, or "
                                        "more trees."),
                           {static_cast<double>(design.factors[*made] + 1), design.names[*made]});
    }
    const auto fit = statistics::logistic_fit(counts, matrix);
    if (!fit) return std::nullopt;
    const double deviate =
        fit->degrees > 0 ? statistics::student_deviate(level, fit->degrees) : statistics::normal_deviate(level);
    std::vector<FactorEffect> effects;
    for (std::size_t column = 0; column < design.names.size(); ++column) {
        const double estimate = fit->coefficients[column];
        const double error = fit->standard_errors[column];
        const std::string& name = design.names[column];
        const double ratio = std::abs(estimate) / error;
        const double beyond = fit->degrees > 0 ? cdf(complement(boost::math::students_t(fit->degrees), ratio))
                                               : cdf(complement(boost::math::normal(), ratio));
        effects.push_back({name, odds(estimate, name), odds(estimate - deviate * error, name),
                           odds(estimate + deviate * error, name), 2 * beyond, fit->dispersion});
    }
    return effects;
}

}  // namespace slipbark::trials

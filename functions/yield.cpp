#include "slipbark/yield.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <utility>
#include <vector>

#include "statistics/intervals.hpp"
#include "support/checks.hpp"
#include "support/curves.hpp"
#include "support/pchip.hpp"

namespace slipbark::yield {

namespace {

/// The share of the mature yield at an age. Before the first row nothing is borne.
double share_at(const check::Points& curve, double years) {
    return years < curve.at.front() ? 0 : pchip::value(curve.at, curve.share, years);
}

/// Records of one age.
struct Records {
    double years;
    double number;
    double mean;     ///< of their yields
    double squares;  ///< of their yields about that mean
};

constexpr std::size_t most_ages = 1000;
constexpr double fastest = 0.25;
constexpr double slowest = 4;

/// The records by age. Those without a yield are left out.
std::vector<Records> records_of(const List& years, const List& yields) {
    check::same_length("years", years.length, "yields", yields.length);
    std::map<double, std::vector<double>> by_age;
    for (std::size_t row = 0; row < yields.cells.size(); ++row) {
        if (is_blank(yields.cells[row])) continue;
        const double age = check::number_in_row("years", years, row, 0, curves::longest_years);
        const double crop = check::number_in_row("yields", yields, row, 0, check::amount_limit);
        by_age[age].push_back(crop);
    }
    std::vector<Records> records;
    records.reserve(by_age.size());
    for (const auto& [age, crops] : by_age) {
        const auto number = static_cast<double>(crops.size());
        const double mean = std::accumulate(crops.begin(), crops.end(), 0.0) / number;
        double squares = 0;
        for (const double crop : crops) squares += (crop - mean) * (crop - mean);
        records.push_back({age, number, mean, squares});
    }
    return records;
}

/// A curve stretched by k and its mature yield, with the sum of squares that it leaves. The scatter of records of one
/// age about their mean, which is the same for all curves, is left out.
struct Fit {
    double k = 1;
    double mature = 0;
    double squares = std::numeric_limits<double>::infinity();
    double shares_squared = 0;  ///< sum over the records of the squares of the curve's shares
};

struct FitLimits {
    statistics::ConfidenceInterval k;
    statistics::ConfidenceInterval mature;
};

class Fitting {
  public:
    Fitting(std::vector<Records> records, std::optional<double> mature, const check::Points& curve)
        : records_(std::move(records)), mature_(mature), curve_(curve), shares_(records_.size()) {}

    Fit at(double k) {
        double product = 0;
        double square = 0;
        for (std::size_t age = 0; age < records_.size(); ++age) {
            const auto& [years, number, mean, squares] = records_[age];
            shares_[age] = share_at(curve_, years / k);
            product += number * mean * shares_[age];
            square += number * shares_[age] * shares_[age];
        }
        Fit fit{k, mature_.value_or(square > 0 ? product / square : 0), 0, square};
        for (std::size_t age = 0; age < records_.size(); ++age) {
            const double off = records_[age].mean - fit.mature * shares_[age];
            fit.squares += records_[age].number * off * off;
        }
        return fit;
    }

    /// The best of all k. Where the curve starts above 0 the sum of squares jumps as a record passes its first row, and
    /// it may have several valleys: so first a fine comb over all k, with the jumps and the
    /// ends of plains in it, then into the deepest valleys.
    Fit best() {
        const std::vector<double> comb = comb_of_k();
        std::vector<Fit> fits;
        fits.reserve(comb.size());
        for (const double k : comb) fits.push_back(at(k));

        std::vector<std::size_t> valleys;
        for (std::size_t place = 0; place < fits.size(); ++place) {
            const bool falls = place == 0 || fits[place].squares <= fits[place - 1].squares;
            const bool rises = place + 1 == fits.size() || fits[place].squares <= fits[place + 1].squares;
            if (falls && rises) valleys.push_back(place);
        }
        // Of a plain of equal ones the nearest to 1 is the one to look round.
        std::stable_sort(valleys.begin(), valleys.end(),
                         [&](std::size_t one, std::size_t other) { return better(fits[one], fits[other]); });
        constexpr std::size_t deepest = 8;
        if (valleys.size() > deepest) valleys.resize(deepest);
        Fit best = fits[valleys.front()];
        for (const std::size_t valley : valleys) {
            for (const std::size_t side : {valley, valley + 1}) {
                if (side == 0 || side == comb.size()) continue;
                constexpr int bits = 26;  // more cannot be told from squares
                const double k = boost::math::tools::brent_find_minima([&](double at_k) { return at(at_k).squares; },
                                                                       comb[side - 1], comb[side], bits)
                                     .first;
                const Fit found = at(k);
                if (better(found, best)) best = found;
            }
        }
        return best;
    }

    /// What else fits the records nearly as well as the best.
    ///
    /// deviate  Student's, of the degrees that the records leave
    FitLimits limits(const Fit& best, double deviate, double degrees) {
        double scatter = 0;
        for (const Records& one : records_) scatter += one.squares;
        // Of squares without the scatter, which all curves have.
        const double bound = best.squares + (best.squares + scatter) * deviate * deviate / degrees;
        std::vector<double> comb = comb_of_k();
        comb.insert(std::lower_bound(comb.begin(), comb.end(), best.k), best.k);
        const auto fits_at = [&](double k) { return at(k).squares <= bound; };
        const auto fits = [&](double k) { return k == best.k || fits_at(k); };
        const auto first = std::find_if(comb.begin(), comb.end(), fits);
        const auto last = std::find_if(comb.rbegin(), comb.rend(), fits);
        const auto edge = [&](double inside, double outside) {
            constexpr int halvings = 40;
            for (int round = 0; round < halvings; ++round) {
                const double middle = (inside + outside) / 2;
                (fits(middle) ? inside : outside) = middle;
            }
            return inside;
        };
        const statistics::ConfidenceInterval k{first == comb.begin() ? *first : edge(*first, *(first - 1)),
                                               last == comb.rbegin() ? *last : edge(*last, *(last - 1))};
        if (mature_) return {k, {*mature_, *mature_}};

        // The mature yields that stay within the bound for a k are about its best one.
        const auto end = [&](double at_k, double side) {
            const Fit fit = at(at_k);
            if (fit.squares > bound || fit.shares_squared == 0) return best.mature * side;
            return side * (fit.mature + side * std::sqrt((bound - fit.squares) / fit.shares_squared));
        };
        const auto furthest = [&](double side) {
            constexpr int steps = 200;
            double most = std::max(end(best.k, side), best.mature * side);
            double where = best.k;
            const double step = (k.high - k.low) / steps;
            for (int place = 0; place <= steps; ++place) {
                const double at_k = k.low + place * step;
                const double found = end(at_k, side);
                if (found > most) {
                    most = found;
                    where = at_k;
                }
            }
            constexpr int bits = 26;
            const double refined = -boost::math::tools::brent_find_minima([&](double at_k) { return -end(at_k, side); },
                                                                          std::max(k.low, where - step),
                                                                          std::min(k.high, where + step), bits)
                                        .second;
            return side * std::max(most, refined);
        };
        return {k, {std::max(0.0, furthest(-1)), furthest(1)}};
    }

    /// Whether the oldest record, the curve being stretched by k, has come to half of the curve's largest share.
    [[nodiscard]] bool is_grown_up(double k) const {
        const double largest = *std::max_element(curve_.share.begin(), curve_.share.end());
        return share_at(curve_, records_.back().years / k) >= largest / 2;
    }

  private:
    /// Rising, over all that k may be, with the jumps of the sum of squares and the ends of its plains in it.
    [[nodiscard]] std::vector<double> comb_of_k() const {
        constexpr int teeth = 400;
        std::vector<double> comb;
        for (int tooth = -teeth / 2; tooth <= teeth / 2; ++tooth) {
            comb.push_back(std::pow(slowest, 2.0 * tooth / teeth));
        }
        for (const auto& records : records_) {
            for (const double row : {curve_.at.front(), curve_.at.back()}) {
                const double jump = records.years / row;
                if (jump > fastest && jump < slowest) comb.push_back(jump);
            }
        }
        std::sort(comb.begin(), comb.end());
        return comb;
    }

    /// Smaller squares, and of equally good ones the k nearer to 1.
    [[nodiscard]] static bool better(const Fit& one, const Fit& other) {
        if (one.squares != other.squares) return one.squares < other.squares;
        return std::abs(one.k - 1) < std::abs(other.k - 1);
    }

    std::vector<Records> records_;
    std::optional<double> mature_;
    const check::Points& curve_;
    std::vector<double> shares_;
};

}  // namespace

double per_tree(double years, double mature_yield, const std::optional<Table>& curve) {
    const double at = check::number("years", years, 0, curves::longest_years);
    const double mature = check::number("mature_yield", mature_yield, 0);
    return mature * share_at(curves::yield_curve(curve), at);
}

Table by_year(double trees, double years, double mature_yield, double take, std::optional<double> regraft_take,
              std::optional<double> yearly_loss, const std::optional<Table>& curve,
              std::optional<double> first_harvest) {
    const auto reworked = static_cast<double>(check::whole("trees", trees, 0));
    const auto last = check::whole("years", years, 1, 200);
    const double mature = check::number("mature_yield", mature_yield, 0);
    const double took = check::fraction("take", take);
    const double retook = check::fraction("regraft_take", regraft_take.value_or(0));
    const double kept = 1 - check::fraction_below_one("yearly_loss", yearly_loss.value_or(0));
    const double first = check::positive("first_harvest", first_harvest.value_or(1), 2);
    const check::Points shares = curves::yield_curve(curve);

    Table result{1, {}};
    result.cells.reserve(static_cast<std::size_t>(last));
    // Share of the mature yield that a tree still stands for at the harvest of a year, lost trees counted in. Those
    // regrafted a year later stand where the others stood at the harvest before.
    double before = 0;
    double standing = 1;
    for (std::int64_t year = 1; year <= last; ++year) {
        standing *= kept;
        const double now = standing * share_at(shares, first + static_cast<double>(year - 1));
        result.cells.emplace_back(reworked * mature * (took * now + (1 - took) * retook * before));
        before = now;
    }
    return result;
}

std::optional<std::vector<FittedRow>> fit(const List& years, const List& yields, std::optional<double> mature_yield,
                                          const std::optional<Table>& curve, std::optional<double> confidence) {
    if (mature_yield) check::positive("mature_yield", *mature_yield);
    const double level = check::confidence("confidence", confidence.value_or(0.95));
    auto records = records_of(years, yields);
    const std::size_t least = mature_yield ? 2 : 3;
    if (records.size() < least) {
        throw bad_argument(
            "yields",
            translatable("{1} has records of {2} different ages: give at least {3}, or a mature yield and "
                         "at least 2."),
            {static_cast<double>(records.size()), static_cast<double>(least)});
    }
    if (records.size() > most_ages) {
        throw bad_argument("years", translatable("{1} has {2} different ages: give at most {3}, rounded if need be."),
                           {static_cast<double>(records.size()), static_cast<double>(most_ages)});
    }
    const check::Points shares = curves::yield_curve(curve);
    if (std::all_of(records.begin(), records.end(), [](const Records& one) { return one.mean == 0; })) {
        return std::nullopt;
    }
    double number = 0;
    for (const Records& one : records) number += one.number;
    const double degrees = number - (mature_yield ? 1 : 2);
    Fitting fitting(std::move(records), mature_yield, shares);
    const Fit best = fitting.best();
    if (!(best.mature > 0 && std::isfinite(best.mature))) return std::nullopt;
    const FitLimits limits = fitting.limits(best, statistics::student_deviate(level, degrees), degrees);
    if (!mature_yield && (limits.k.high >= slowest || !fitting.is_grown_up(limits.k.high))) return std::nullopt;

    std::vector<FittedRow> rows;
    for (std::size_t row = 0; row < shares.at.size(); ++row) {
        const double share = shares.share[row];
        rows.push_back({best.k * shares.at[row], share, best.mature * share, {}, {}, {}});
    }
    const auto note = [](FittedRow& row, double estimate, const statistics::ConfidenceInterval& its_limits) {
        row.estimate = estimate;
        row.low = its_limits.low;
        row.high = its_limits.high;
    };
    note(rows[0], best.k, limits.k);
    note(rows[1], best.mature, limits.mature);
    return rows;
}

double alternation(const List& yields) {
    const auto crops = check::series("yields", yields, 0);
    if (crops.size() < 2) {
        throw bad_argument("yields", translatable("{1} has {2} years: give at least two."),
                           {static_cast<double>(crops.size())});
    }
    double sum = 0;
    for (std::size_t year = 1; year < crops.size(); ++year) {
        const double both = crops[year] + crops[year - 1];
        if (both > 0) sum += std::abs(crops[year] - crops[year - 1]) / both;
    }
    return sum / static_cast<double>(crops.size() - 1);
}

}  // namespace slipbark::yield

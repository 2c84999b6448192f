#include "slipbark/take.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "slipbark/budwood.hpp"
#include "statistics/beta_binomial.hpp"
#include "support/checks.hpp"

namespace slipbark::take {

namespace {

constexpr double usual_confidence = 0.95;

struct Limits {
    double low;
    double high;
};

double checked_confidence(std::optional<double> confidence) {
    return check::confidence("confidence", confidence.value_or(usual_confidence));
}

/// Half the probability left outside the interval.
double tail_of(double confidence) { return (1 - confidence) / 2; }

double normal_deviate(double confidence) {
    return boost::math::quantile(boost::math::complement(boost::math::normal(), tail_of(confidence)));
}

Count checked_count(const char* live_name, double live, const char* grafted_name, double grafted) {
    const auto placed = check::whole(grafted_name, grafted, 0);
    const auto alive = check::whole(live_name, live, 0);
    if (alive > placed) {
        throw bad_argument(live_name,
                           translatable("{1} was {2}, more than were grafted: give at most {3}, which is {4}."),
                           {live, std::string(grafted_name), grafted});
    }
    return {static_cast<double>(alive), static_cast<double>(placed)};
}

/// Wilson's limits of `share` of `grafts`, which need not be whole. The low one is written so that it keeps its digits
/// near 0; the high one is that of the dead.
Limits wilson(double share, double grafts, double z) {
    const double spread = z * z / grafts;
    const double root = std::sqrt(spread * share * (1 - share) + spread * spread / 4);
    const auto low = [&](double part) { return part == 0 ? 0 : part * part / (part + spread / 2 + root); };
    return {std::min(low(share), share), std::max(share == 1 ? 1 : (share + spread / 2 + root) / (1 + spread), share)};
}

/// Clopper & Pearson; where none or all live the beta quantile is a plain power.
Limits exact(const Count& count, double tail) {
    const auto& [live, grafted] = count;
    const double dead = grafted - live;
    const double all_low = std::exp(std::log(tail) / grafted);
    const double none_high = -std::expm1(std::log(tail) / grafted);
    if (live == 0) return {0, none_high};
    if (dead == 0) return {all_low, 1};
    return {boost::math::ibeta_inv(live, dead + 1, tail), boost::math::ibetac_inv(live + 1, dead, tail)};
}

Limits jeffreys(const Count& count, double tail) {
    const double live = count.live + 0.5;
    const double dead = count.grafted - count.live + 0.5;
    return {count.live == 0 ? 0 : boost::math::ibeta_inv(live, dead, tail),
            count.live == count.grafted ? 1 : boost::math::ibetac_inv(live, dead, tail)};
}

Limits agresti(const Count& count, double z) {
    const double grafts = count.grafted + z * z;
    const double share = (count.live + z * z / 2) / grafts;
    const double half = z * std::sqrt(share * (1 - share) / grafts);
    return {std::max(0.0, share - half), std::min(1.0, share + half)};
}

std::optional<Limits> limits(double live, double grafted, std::optional<double> confidence,
                             std::optional<Interval> method) {
    const Count count = checked_count("live", live, "grafted", grafted);
    const double level = checked_confidence(confidence);
    if (count.grafted == 0) return std::nullopt;
    switch (method.value_or(Interval::wilson)) {
        case Interval::exact:
            return exact(count, tail_of(level));
        case Interval::jeffreys:
            return jeffreys(count, tail_of(level));
        case Interval::agresti:
            return agresti(count, normal_deviate(level));
        case Interval::wilson:
            break;
    }
    return wilson(count.live / count.grafted, count.grafted, normal_deviate(level));
}

/// The two-sided p of Fisher's exact test. Tables with the same margins are weighed in units of the observed one, step
/// by step from it both ways: neighbouring weights have a simple ratio, they rise to one top and fall again, so a way
/// can end where they have fallen far below the observed one. That takes some tens of standard deviations of steps,
/// not one for each possible table.
double fisher_p(const Count& a, const Count& b) {
    constexpr double as_probable = 1 + 1e-7;
    constexpr double negligible = 1e-20;
    constexpr double beyond_doubt = 1e285;
    const double live = a.live + b.live;
    const double most = std::min(a.grafted, live);
    const double least = std::max(0.0, live - b.grafted);
    double total = 1;
    double tail = 1;
    // The ratio of the weight of the table with j + 1 alive in `a` to that with j.
    const auto ratio = [&](double j) { return (a.grafted - j) * (live - j) / ((j + 1) * (b.grafted - live + j + 1)); };
    // Whether the way goes on from a table of this weight.
    const auto count_in = [&](double weight, double growth) {
        total += weight;
        if (weight <= as_probable) tail += weight;
        return total < beyond_doubt && (growth > 1 || weight > negligible);
    };
    bool goes_on = true;
    double weight = 1;
    double j = a.live;
    while (goes_on && j < most) {
        const double growth = ratio(j++);
        weight *= growth;
        goes_on = count_in(weight, growth);
    }
    goes_on = true;
    weight = 1;
    j = a.live;
    while (goes_on && j > least) {
        const double growth = 1 / ratio(--j);
        weight *= growth;
        goes_on = count_in(weight, growth);
    }
    return total < beyond_doubt ? tail / total : 0;
}

double whole_in_row(std::string_view argument, const List& list, std::size_t row) {
    return static_cast<double>(check::whole_in_row(argument, list, row, 0));
}

/// Hands on the row and the tally of each inspected row of a form that has grafts. Where the count is still blank the
/// row waits, but what stands in it must be right.
template <class Use>
void for_each_inspected(const List& live, const List& grafted, Use use) {
    check::same_length("live", live.length, "grafted", grafted.length);
    const std::size_t used = std::max(live.cells.size(), grafted.cells.size());
    for (std::size_t row = 0; row < used; ++row) {
        if (is_blank(live.cell(row))) {
            if (!is_blank(grafted.cell(row))) whole_in_row("grafted", grafted, row);
            continue;
        }
        const Count count{whole_in_row("live", live, row), whole_in_row("grafted", grafted, row)};
        if (count.live > count.grafted) {
            throw bad_argument("live",
                               translatable("{1} was {2} in row {3}, more than the {4} grafted: give at most what was "
                                            "grafted."),
                               {count.live, check::row_number(row), count.grafted});
        }
        if (count.grafted > 0) use(row, count);
    }
}

/// Groups by name in order of first appearance, told apart as the host looks up texts, case ignored; blanks
/// around a name are cut. The number 3 and the text "3" are one.
class Groups {
  public:
    /// The place of the group that the cell names; none where it is blank.
    std::optional<std::size_t> place_of(const Cell& cell) {
        const auto* text = std::get_if<std::string>(&cell);
        const auto* number = std::get_if<double>(&cell);
        std::string key;
        if (text != nullptr) key = check::folded(*text);
        if (number != nullptr) key = check::folded(to_text(*number));
        if (key.empty()) return std::nullopt;
        const auto [known, is_new] = places_.try_emplace(std::move(key), names_.size());
        if (is_new) names_.push_back(text == nullptr ? cell : Cell(std::string(check::trimmed(*text))));
        return known->second;
    }
    [[nodiscard]] std::size_t size() const { return names_.size(); }
    [[nodiscard]] const Cell& name(std::size_t place) const { return names_[place]; }

  private:
    std::vector<Cell> names_;  ///< as the first of each group is spelled
    std::unordered_map<std::string, std::size_t> places_;
};

/// The inspected rows added up by group.
struct Tallies {
    Groups groups;
    std::vector<Count> counts;  ///< in the order of the groups
};

Tallies tallies_by_group(const List& groups, const List& live, const List& grafted) {
    check::same_length("groups", groups.length, "live", live.length);
    Tallies tallies;
    for_each_inspected(live, grafted, [&](std::size_t row, const Count& count) {
        const auto place = tallies.groups.place_of(groups.cell(row));
        if (!place) {
            throw bad_argument("groups",
                               translatable("{1} is blank in row {2}, which was inspected: give a name or a number "
                                            "there."),
                               {check::row_number(row)});
        }
        tallies.counts.resize(tallies.groups.size());
        tallies.counts[*place].live += count.live;
        tallies.counts[*place].grafted += count.grafted;
    });
    return tallies;
}

/// Grafts to place on a tree that lacks some live ones, each number of missing ones looked up once.
class Regrafting {
  public:
    Regrafting(std::optional<double> take, std::optional<double> confidence, std::optional<double> clustering)
        : take_(take), confidence_(confidence), clustering_(clustering) {
        if (take) {
            budwood::tree_grafts(*take, confidence, 0, clustering);  // checks all three, even if no tree is short
        } else if (confidence || clustering) {
            throw bad_argument(
                confidence ? "confidence" : "clustering",
                translatable("{1} was given without a take, which it is about: give a take too, or leave "
                             "{1} out."));
        }
    }

    /// Nothing where no number of grafts would do.
    std::optional<double> grafts(double missing) {
        if (!take_ || missing == 0) return missing;
        const auto place = static_cast<std::size_t>(missing);
        if (place >= known_.size()) known_.resize(place + 1);
        auto& known = known_[place];
        if (!known) known = budwood::tree_grafts(*take_, confidence_, missing, clustering_);
        return *known;
    }

  private:
    std::optional<double> take_;
    std::optional<double> confidence_;
    std::optional<double> clustering_;
    std::vector<std::optional<std::optional<double>>> known_;
};

/// The name or number of a line that was inspected.
const Cell& named_in_row(std::string_view argument, const List& list, std::size_t row) {
    if (is_blank(list.cell(row))) {
        throw bad_argument(argument,
                           translatable("{1} is blank in row {2}, which was inspected: give a name or a number there."),
                           {static_cast<double>(row + 1)});
    }
    return list.cell(row);
}

double whole_wanted(double wanted_per_tree) {
    return static_cast<double>(check::whole("wanted_per_tree", wanted_per_tree, 1, 1000));
}

struct Look {
    double day;
    bool lost;
};

/// The filled rows of days and lost, by day and losses first.
std::vector<Look> looks_by_day(const List& days, const List& lost) {
    check::same_length("days", days.length, "lost", lost.length);
    std::vector<Look> looks;
    const std::size_t used = std::max(days.cells.size(), lost.cells.size());
    for (std::size_t row = 0; row < used; ++row) {
        if (is_blank(days.cell(row)) && is_blank(lost.cell(row))) continue;
        const double day = check::number_in_row("days", days, row, 0, check::amount_limit);
        const double gone = check::number_in_row("lost", lost, row);
        if (gone != 0 && gone != 1) {
            throw bad_argument("lost",
                               translatable("{1} was {2} in row {3}: give 1 for a graft lost, 0 for one alive when "
                                            "last looked at."),
                               {gone, check::row_number(row)});
        }
        looks.push_back({day, gone == 1});
    }
    std::sort(looks.begin(), looks.end(), [](const Look& one, const Look& other) {
        return std::pair(one.day, !one.lost) < std::pair(other.day, !other.lost);
    });
    return looks;
}

}  // namespace

std::optional<double> take(double live, double grafted) {
    const Count count = checked_count("live", live, "grafted", grafted);
    if (count.grafted == 0) return std::nullopt;
    return count.live / count.grafted;
}

std::optional<double> take_low(double live, double grafted, std::optional<double> confidence,
                               std::optional<Interval> method) {
    const auto found = limits(live, grafted, confidence, method);
    if (!found) return std::nullopt;
    return found->low;
}

std::optional<double> take_high(double live, double grafted, std::optional<double> confidence,
                                std::optional<Interval> method) {
    const auto found = limits(live, grafted, confidence, method);
    if (!found) return std::nullopt;
    return found->high;
}

std::optional<Table> take_trees(const List& live, const List& grafted, std::optional<double> confidence) {
    std::vector<Count> rows;
    Count all;
    for_each_inspected(live, grafted, [&](std::size_t, const Count& count) {
        rows.push_back(count);
        all.live += count.live;
        all.grafted += count.grafted;
    });
    const double z = normal_deviate(checked_confidence(confidence));
    if (rows.empty()) return std::nullopt;
    const double share = all.live / all.grafted;
    double squares = 0;
    for (const Count& count : rows) squares += std::pow(count.live - share * count.grafted, 2);
    const auto trees = static_cast<double>(rows.size());
    double design_effect = 1;
    if (rows.size() > 1 && all.live > 0 && all.live < all.grafted) {
        // The ratio estimator's variance over the binomial one; one `grafts` cancels.
        design_effect = trees / (trees - 1) * squares / all.grafted / (share * (1 - share));
    }
    const auto [low, high] = wilson(share, all.grafted / std::max(1.0, design_effect), z);
    return Table{6, {share, low, high, design_effect, trees, all.grafted}};
}

std::optional<Table> take_diff(double live_a, double grafted_a, double live_b, double grafted_b,
                               std::optional<double> confidence) {
    const Count a = checked_count("live_a", live_a, "grafted_a", grafted_a);
    const Count b = checked_count("live_b", live_b, "grafted_b", grafted_b);
    const double z = normal_deviate(checked_confidence(confidence));
    if (a.grafted == 0 || b.grafted == 0) return std::nullopt;
    const double share_a = a.live / a.grafted;
    const double share_b = b.live / b.grafted;
    const auto [low_a, high_a] = wilson(share_a, a.grafted, z);
    const auto [low_b, high_b] = wilson(share_b, b.grafted, z);
    const double difference = share_a - share_b;
    return Table{4,
                 {difference, std::max(-1.0, difference - std::hypot(share_a - low_a, high_b - share_b)),
                  std::min(1.0, difference + std::hypot(high_a - share_a, share_b - low_b)), fisher_p(a, b)}};
}

std::optional<Table> take_by(const List& groups, const List& live, const List& grafted,
                             std::optional<double> confidence) {
    const auto [named, tallies] = tallies_by_group(groups, live, grafted);
    const double z = normal_deviate(checked_confidence(confidence));
    if (tallies.empty()) return std::nullopt;
    const Spread spread = beta_binomial_fit(tallies);
    Table table{7, {}};
    table.cells.reserve(7 * tallies.size());
    for (std::size_t group = 0; group < tallies.size(); ++group) {
        const Count& tally = tallies[group];
        const double share = tally.live / tally.grafted;
        const auto [low, high] = wilson(share, tally.grafted, z);
        const std::array<double, 6> numbers{tally.grafted, tally.live, share, low, high, spread.steadied(tally)};
        table.cells.push_back(named.name(group));
        table.cells.insert(table.cells.end(), numbers.begin(), numbers.end());
    }
    return table;
}

std::optional<double> clustering(const List& live, const List& grafted) {
    std::vector<Count> trees;
    Count all;
    double telling = 0;  // trees with two or more grafts
    bool mixed = false;  // whether a tree has both live and dead ones
    for_each_inspected(live, grafted, [&](std::size_t, const Count& count) {
        trees.push_back(count);
        all.live += count.live;
        all.grafted += count.grafted;
        if (count.grafted > 1) ++telling;
        mixed = mixed || (count.live > 0 && count.live < count.grafted);
    });
    if (telling < 2 || !mixed || all.live == 0 || all.live == all.grafted) return std::nullopt;
    return beta_binomial_fit(trees).rho();
}

std::optional<Table> take_next(const List& groups, const List& live, const List& grafted,
                               std::optional<double> confidence) {
    const double level = check::confidence("confidence", confidence.value_or(0.8));
    const auto tallies = tallies_by_group(groups, live, grafted).counts;
    if (tallies.size() < 2) return std::nullopt;
    const auto number = static_cast<double>(tallies.size());
    std::vector<double> logits;
    for (const auto& [alive, placed] : tallies) logits.push_back(std::log((alive + 0.5) / (placed - alive + 0.5)));
    const double mean = std::accumulate(logits.begin(), logits.end(), 0.0) / number;
    double squares = 0;
    for (const double logit : logits) squares += (logit - mean) * (logit - mean);
    const double deviation = std::sqrt(squares / (number - 1));
    const double t =
        boost::math::quantile(boost::math::complement(boost::math::students_t(number - 1), tail_of(level)));
    const double half = t * deviation * std::sqrt(1 + 1 / number);
    const auto share = [](double logit) { return 1 / (1 + std::exp(-logit)); };
    return Table{4, {share(mean), share(mean - half), share(mean + half), number}};
}

double inspect(double trees, double margin, std::optional<double> take, std::optional<double> confidence) {
    const auto all = static_cast<double>(check::whole("trees", trees, 1));
    const double half = check::positive("margin", check::fraction("margin", margin));
    const double share = check::fraction("take", take.value_or(0.5));
    if (share == 0 || share == 1) {
        throw bad_argument("take",
                           translatable("{1} was {2}, which leaves nothing to find out: give a fraction above 0 and "
                                        "below 1, 0.5 if you do not know."),
                           {share});
    }
    const double z = normal_deviate(checked_confidence(confidence));
    // From endlessly many trees at least one; then n0 / (1 + (n0 - 1) / trees), written so that a huge n0 does no harm.
    const double endless = std::max(1.0, z * z * share * (1 - share) / half / half);
    if (std::isinf(endless)) return all;
    const double needed = all * (endless / (all + endless - 1));
    return std::clamp(check::rounded_up(needed), 1.0, all);
}

double regrafts(const List& live, double wanted_per_tree) {
    const double wanted = whole_wanted(wanted_per_tree);
    double missing = 0;
    for (std::size_t row = 0; row < live.cells.size(); ++row) {
        if (is_blank(live.cells[row])) continue;
        missing += std::max(0.0, wanted - whole_in_row("live", live, row));
    }
    return missing;
}

std::optional<Table> regraft_list(const List& rows, const List& trees, const List& live, double wanted_per_tree,
                                  std::optional<double> take, std::optional<double> confidence,
                                  std::optional<double> clustering) {
    const double wanted = whole_wanted(wanted_per_tree);
    Regrafting regrafting(take, confidence, clustering);
    check::same_length("rows", rows.length, "trees", trees.length);
    check::same_length("rows", rows.length, "live", live.length);
    Table table{5, {}};
    bool reached = true;
    for (std::size_t line = 0; line < live.cells.size(); ++line) {
        if (is_blank(live.cells[line])) continue;
        const double alive = whole_in_row("live", live, line);
        const Cell& row = named_in_row("rows", rows, line);
        const Cell& tree = named_in_row("trees", trees, line);
        if (alive >= wanted) continue;
        const auto grafts = regrafting.grafts(wanted - alive);
        reached = reached && grafts;
        table.cells.insert(table.cells.end(), {row, tree, alive, wanted - alive, grafts.value_or(0)});
    }
    if (table.cells.empty() || !reached) return std::nullopt;
    return table;
}

std::optional<Table> graft_life(const List& days, const List& lost, double at_day, std::optional<double> confidence) {
    check::number("at_day", at_day, 0);
    const double level = checked_confidence(confidence);
    const auto looks = looks_by_day(days, lost);
    if (looks.empty()) return std::nullopt;
    double alive = 1;
    double variance = 0;
    double losses = 0;
    std::size_t at = 0;
    while (at < looks.size() && looks[at].day <= at_day) {
        const double day = looks[at].day;
        const auto watched = static_cast<double>(looks.size() - at);
        double gone = 0;
        for (; at < looks.size() && looks[at].day == day; ++at) gone += looks[at].lost ? 1 : 0;
        if (gone == 0) continue;
        losses += gone;
        alive *= (watched - gone) / watched;
        if (alive > 0) variance += gone / (watched * (watched - gone));
    }
    if (at_day > looks.back().day && alive > 0) return std::nullopt;
    const double tail = tail_of(level);
    if (alive == 0) return Table{3, {0.0, 0.0, exact({0, losses}, tail).high}};
    if (losses == 0) {
        const auto first =
            std::find_if(looks.begin(), looks.end(), [&](const Look& look) { return look.day >= at_day; });
        const auto watched = static_cast<double>(looks.end() - first);
        return Table{3, {1.0, exact({watched, watched}, tail).low, 1.0}};
    }
    const double logarithm = std::log(alive);
    const double half = normal_deviate(level) * std::sqrt(variance) / -logarithm;
    return Table{3, {alive, std::exp(logarithm * std::exp(half)), std::exp(logarithm * std::exp(-half))}};
}

}  // namespace slipbark::take

#include "slipbark/take.hpp"

#include <algorithm>
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
#include "statistics/fisher.hpp"
#include "statistics/intervals.hpp"
#include "statistics/kaplan_meier.hpp"
#include "support/checks.hpp"

namespace slipbark::take {

namespace {

using statistics::Count;
using statistics::Limits;
using statistics::Side;
using statistics::Spread;

constexpr double usual_confidence = 0.95;
constexpr double usual_clustering = 0.2;

double checked_confidence(std::optional<double> confidence) {
    return check::confidence("confidence", confidence.value_or(usual_confidence));
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

std::optional<double> limit(double live, double grafted, std::optional<double> confidence,
                            std::optional<Interval> method, Side side) {
    const Count count = checked_count("live", live, "grafted", grafted);
    const double level = checked_confidence(confidence);
    if (count.grafted == 0) return std::nullopt;
    const auto that_of = [side](const Limits& both) { return side == Side::low ? both.low : both.high; };
    switch (method.value_or(Interval::wilson)) {
        case Interval::exact:
            return statistics::exact(count, statistics::tail_of(level), side);
        case Interval::jeffreys:
            return statistics::jeffreys(count, statistics::tail_of(level), side);
        case Interval::agresti:
        case Interval::agresti_coull:
            return that_of(statistics::agresti_coull(count, statistics::normal_deviate(level)));
        case Interval::wilson:
            break;
    }
    return that_of(statistics::wilson(count.live / count.grafted, count.grafted, statistics::normal_deviate(level)));
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
    std::vector<Count> counts;                        ///< in the order of the groups
    std::vector<std::pair<std::size_t, Count>> rows;  ///< the group of each row and its tally
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
        tallies.rows.emplace_back(*place, count);
    });
    return tallies;
}

/// By how much rows of a group differ more than chance alone would make them: Pearson's X^2 over its degrees of
/// freedom, 1 where that is less or where each group has but one row.
double dispersion(const Tallies& tallies) {
    const auto degrees = static_cast<double>(tallies.rows.size() - tallies.counts.size());
    if (degrees == 0) return 1;
    double squares = 0;
    for (const auto& [place, row] : tallies.rows) {
        const Count& group = tallies.counts[place];
        if (group.live == 0 || group.live == group.grafted) continue;
        const double share = group.live / group.grafted;
        const double off = row.live - share * row.grafted;
        squares += off * off / (row.grafted * share * (1 - share));
    }
    return std::max(1.0, squares / degrees);
}

/// Grafts to place on a tree that lacks some live ones, each number of missing ones looked up once.
class Regrafting {
  public:
    Regrafting(std::optional<double> take, std::optional<double> confidence, std::optional<double> clustering)
        : take_(take), confidence_(confidence), clustering_(clustering) {
        if (take) {
            budwood::tree_grafts(*take, confidence, 0, clustering);  // checks all three, even if no tree is short
        } else if (confidence || clustering) {
            throw bad_argument(confidence ? "confidence" : "clustering",
                               translatable("{1} was given without a take: give a take too, or leave {1} out."));
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

/// The filled rows of days and lost.
std::vector<statistics::Look> looks_of(const List& days, const List& lost) {
    check::same_length("days", days.length, "lost", lost.length);
    std::vector<statistics::Look> looks;
    const std::size_t used = std::max(days.cells.size(), lost.cells.size());
    for (std::size_t row = 0; row < used; ++row) {
        if (is_blank(days.cell(row)) && is_blank(lost.cell(row))) continue;
        const double day = check::number_in_row("days", days, row, 0, check::amount_limit);
        const double gone = check::number_in_row("lost", lost, row);
        if (gone != 0 && gone != 1) {
            throw bad_argument(
                "lost",
                translatable(
                    "{1} was {2} in row {3}: give 1 for a graft lost, 0 for one alive at the last inspection."),
                {gone, check::row_number(row)});
        }
        looks.push_back({day, gone == 1});
    }
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
    return limit(live, grafted, confidence, method, Side::low);
}

std::optional<double> take_high(double live, double grafted, std::optional<double> confidence,
                                std::optional<Interval> method) {
    return limit(live, grafted, confidence, method, Side::high);
}

std::optional<Table> take_trees(const List& live, const List& grafted, std::optional<double> confidence,
                                std::optional<double> clustering) {
    std::vector<Count> rows;
    Count all;
    double grafts_squared = 0;
    for_each_inspected(live, grafted, [&](std::size_t, const Count& count) {
        rows.push_back(count);
        all.live += count.live;
        all.grafted += count.grafted;
        grafts_squared += count.grafted * count.grafted;
    });
    const double level = checked_confidence(confidence);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(usual_clustering));
    if (rows.empty()) return std::nullopt;
    const double share = all.live / all.grafted;
    const auto trees = static_cast<double>(rows.size());
    double design_effect = 0;
    double deviate = 0;
    if (rows.size() > 1 && all.live > 0 && all.live < all.grafted) {
        // The ratio estimator's variance over the binomial one; one `grafts` cancels.
        double squares = 0;
        for (const Count& count : rows) squares += std::pow(count.live - share * count.grafted, 2);
        design_effect = trees / (trees - 1) * squares / all.grafted / (share * (1 - share));
        deviate = statistics::student_deviate(level, trees - 1);
    } else {
        design_effect = 1 + (grafts_squared / all.grafted - 1) * rho;
        deviate = statistics::normal_deviate(level);
    }
    // Korn & Graubard's n (z / t)^2 in the interval with z is n in that with t.
    const auto [low, high] = statistics::wilson(share, all.grafted / std::max(1.0, design_effect), deviate);
    return Table{6, {share, low, high, design_effect, trees, all.grafted}};
}

std::optional<Table> take_diff(double live_a, double grafted_a, double live_b, double grafted_b,
                               std::optional<double> confidence, std::optional<double> design_effect) {
    const Count a = checked_count("live_a", live_a, "grafted_a", grafted_a);
    const Count b = checked_count("live_b", live_b, "grafted_b", grafted_b);
    const double z = statistics::normal_deviate(checked_confidence(confidence));
    const double effect = std::max(
        1.0, check::number("design_effect", design_effect.value_or(1), 0, static_cast<double>(check::count_limit)));
    if (a.grafted == 0 || b.grafted == 0) return std::nullopt;
    const double share_a = a.live / a.grafted;
    const double share_b = b.live / b.grafted;
    const auto [low, high] = statistics::newcombe(share_a, statistics::wilson(share_a, a.grafted / effect, z), share_b,
                                                  statistics::wilson(share_b, b.grafted / effect, z));
    const double p = effect > 1 ? statistics::rao_scott(a, b, effect) : statistics::fisher_exact(a, b);
    return Table{4, {share_a - share_b, low, high, p}};
}

std::optional<Table> take_by(const List& groups, const List& live, const List& grafted,
                             std::optional<double> confidence) {
    const Tallies tallies = tallies_by_group(groups, live, grafted);
    const double level = checked_confidence(confidence);
    const auto& counts = tallies.counts;
    if (counts.empty()) return std::nullopt;
    const auto degrees = static_cast<double>(tallies.rows.size() - counts.size());
    const double deviate =
        degrees == 0 ? statistics::normal_deviate(level) : statistics::student_deviate(level, degrees);
    const double phi = dispersion(tallies);

    // What trees that share their luck are worth as grafts on their own. Where no group has both live and dead ones
    // nothing says how far groups differ, and each keeps its own take.
    std::vector<Count> worth;
    bool mixed = false;
    for (const Count& count : counts) {
        worth.push_back({count.live / phi, count.grafted / phi});
        mixed = mixed || (count.live > 0 && count.live < count.grafted);
    }
    const bool own = !mixed || counts.size() == 1;
    const Spread spread = own ? Spread{} : statistics::beta_binomial_fit(worth);
    Table table{7, {}};
    table.cells.reserve(7 * counts.size());
    for (std::size_t group = 0; group < counts.size(); ++group) {
        const Count& tally = counts[group];
        const double share = tally.live / tally.grafted;
        const auto [low, high] = statistics::wilson(share, tally.grafted / phi, deviate);
        const double steadied = own ? share : spread.steadied(worth[group]);
        table.cells.push_back(tallies.groups.name(group));
        table.cells.insert(table.cells.end(), {tally.grafted, tally.live, share, low, high, steadied});
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
    return statistics::beta_binomial_fit(trees).rho();
}

std::optional<Table> take_next(const List& groups, const List& live, const List& grafted,
                               std::optional<double> confidence) {
    const double level = check::confidence("confidence", confidence.value_or(0.8));
    const auto tallies = tallies_by_group(groups, live, grafted).counts;
    if (tallies.size() < 2) return std::nullopt;
    const auto number = static_cast<double>(tallies.size());
    std::vector<double> logits;
    logits.reserve(tallies.size());
    for (const auto& [alive, placed] : tallies) logits.push_back(std::log((alive + 0.5) / (placed - alive + 0.5)));
    const double mean = std::accumulate(logits.begin(), logits.end(), 0.0) / number;
    double squares = 0;
    for (const double logit : logits) squares += (logit - mean) * (logit - mean);
    const double deviation = std::sqrt(squares / (number - 1));
    const double t = statistics::student_deviate(level, number - 1);
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
                           translatable("{1} was {2}, which leaves nothing to estimate: give a fraction above 0 and "
                                        "below 1, 0.5 if you do not know."),
                           {share});
    }
    const double z = statistics::normal_deviate(checked_confidence(confidence));
    // From endlessly many trees at least one; then n0 / (1 + (n0 - 1) / trees), written so that a huge n0 does no harm.
    const double endless = std::max(1.0, z * z * share * (1 - share) / half / half);
    if (std::isinf(endless)) return all;
    const double needed = all * (endless / (all + endless - 1));
    return std::clamp(check::rounded_up(needed), 1.0, all);
}

std::optional<double> regrafts(const List& live, double wanted_per_tree, std::optional<double> take,
                               std::optional<double> confidence, std::optional<double> clustering) {
    const double wanted = whole_wanted(wanted_per_tree);
    Regrafting regrafting(take, confidence, clustering);
    double grafts = 0;
    bool reached = true;
    for (std::size_t row = 0; row < live.cells.size(); ++row) {
        if (is_blank(live.cells[row])) continue;
        const auto on_tree = regrafting.grafts(std::max(0.0, wanted - whole_in_row("live", live, row)));
        reached = reached && on_tree;
        grafts += on_tree.value_or(0);
    }
    if (!reached) return std::nullopt;
    return grafts;
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
    auto looks = looks_of(days, lost);
    if (looks.empty()) return std::nullopt;
    const auto life = statistics::kaplan_meier(std::move(looks), at_day, level);
    if (!life) return std::nullopt;
    return Table{3, {life->share, life->limits.low, life->limits.high}};
}

}  // namespace slipbark::take

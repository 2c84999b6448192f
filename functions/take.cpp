#include "slipbark/take.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "slipbark/budwood.hpp"
#include "statistics/beta_binomial.hpp"
#include "statistics/clusters.hpp"
#include "statistics/fisher.hpp"
#include "statistics/intervals.hpp"
#include "statistics/kaplan_meier.hpp"
#include "statistics/pool.hpp"
#include "support/checks.hpp"
#include "support/tallies.hpp"

namespace slipbark::take {

namespace {

using statistics::BetaBinomial;
using statistics::ConfidenceInterval;
using statistics::Count;
using statistics::Side;
using tallies::for_each_inspected;
using tallies::whole_in_row;

constexpr double usual_confidence = 0.95;
constexpr double usual_clustering = 0.2;
constexpr std::size_t most_pooled = 1000;

double checked_confidence(std::optional<double> confidence) {
    return check::confidence("confidence", confidence.value_or(usual_confidence));
}

double checked_clustering(std::optional<double> clustering) {
    return check::fraction_below_one("clustering", clustering.value_or(usual_clustering));
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
    const auto that_of = [side](const ConfidenceInterval& both) { return side == Side::low ? both.low : both.high; };
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

/// The filled rows of days and lost, and which tree each graft is on.
std::vector<statistics::Observation> looks_of(const List& days, const List& lost, const std::optional<List>& trees) {
    check::same_length("days", days.length, "lost", lost.length);
    if (trees) check::same_length("days", days.length, "trees", trees->length);
    tallies::Groups names;
    std::vector<statistics::Observation> looks;
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
        std::size_t tree = 0;
        if (trees) {
            const auto place = names.place_of(trees->cell(row));
            if (!place) {
                throw bad_argument("trees",
                                   translatable("{1} is blank in row {2}, which has a graft: give the tree's name or "
                                                "number there."),
                                   {check::row_number(row)});
            }
            tree = *place;
        }
        looks.push_back({day, gone == 1, tree});
    }
    return looks;
}

/// Of the grafts of groups of trees: how they count, group by group.
std::vector<statistics::ClusteredShare> shares_of(const tallies::Tallies& tallies, double clustering) {
    const bool one_row_each = std::all_of(tallies.rows.begin(), tallies.rows.end(),
                                          [](const std::vector<Count>& rows) { return rows.size() == 1; });
    std::vector<statistics::ClusteredShare> shares;
    shares.reserve(tallies.rows.size());
    for (const auto& rows : tallies.rows) {
        // Totals only: what one row would hide of its trees is not guessed at.
        if (one_row_each) {
            shares.push_back({.all = rows.front(), .clusters = 1});
        } else {
            shares.push_back(statistics::clustered_share(rows, clustering));
        }
    }
    return shares;
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

std::optional<BlockTake> take_trees(const List& live, const List& grafted, std::optional<double> confidence,
                                    std::optional<double> clustering, std::optional<double> of_trees) {
    std::vector<Count> trees;
    for_each_inspected(live, grafted, [&](std::size_t, const Count& count) { trees.push_back(count); });
    const double level = checked_confidence(confidence);
    const double rho = checked_clustering(clustering);
    double part_counted = 0;
    if (of_trees) {
        const auto in_block = static_cast<double>(check::whole("of_trees", *of_trees, 1));
        const auto inspected = static_cast<double>(trees.size());
        if (in_block < inspected) {
            throw bad_argument("of_trees",
                               translatable("{1} was {2}, fewer than the {3} trees inspected: give all trees of the "
                                            "block."),
                               {in_block, inspected});
        }
        part_counted = inspected / in_block;
    }
    if (trees.empty()) return std::nullopt;
    const auto share = statistics::clustered_share(trees, rho);
    const auto [low, high] = share.limits(level, part_counted);
    return BlockTake{share.share(), low, high, share.design_effect, share.clusters, share.all.grafted};
}

std::optional<TakeDifference> take_diff(double live_a, double grafted_a, double live_b, double grafted_b,
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
    return TakeDifference{share_a - share_b, low, high, p};
}

std::optional<std::vector<GroupTake>> take_by(const List& groups, const List& live, const List& grafted,
                                              std::optional<double> confidence, std::optional<double> clustering) {
    const auto tallies = tallies::tallies_by_group(groups, live, grafted);
    const double level = checked_confidence(confidence);
    const double rho = checked_clustering(clustering);
    if (tallies.rows.empty()) return std::nullopt;

    // Where no group has both live and dead ones nothing says how far groups differ, and each keeps its own take.
    const auto shares = shares_of(tallies, rho);
    std::vector<Count> worth;
    bool mixed = false;
    for (const auto& share : shares) {
        worth.push_back(share.effective());
        mixed = mixed || (share.all.live > 0 && share.all.live < share.all.grafted);
    }
    const bool own = !mixed || shares.size() == 1;
    const BetaBinomial spread = own ? BetaBinomial{} : statistics::beta_binomial_fit(worth);
    std::vector<GroupTake> found;
    found.reserve(shares.size());
    for (std::size_t group = 0; group < shares.size(); ++group) {
        const auto& share = shares[group];
        const auto [low, high] = share.limits(level);
        found.push_back({tallies.groups.name(group), share.all.grafted, share.all.live, share.share(), low, high,
                         own ? share.share() : spread.shrink_to_mean(worth[group])});
    }
    return found;
}

std::optional<std::vector<PooledTake>> take_pool(const List& groups, const List& live, const List& grafted,
                                                 std::optional<double> confidence, std::optional<double> clustering) {
    const auto tallies = tallies::tallies_by_group(groups, live, grafted);
    const double level = checked_confidence(confidence);
    const double rho = checked_clustering(clustering);
    if (tallies.rows.size() < 2) return std::nullopt;
    if (tallies.rows.size() > most_pooled) {
        throw bad_argument("groups", translatable("{1} has {2} groups: give at most {3}."),
                           {static_cast<double>(tallies.rows.size()), static_cast<double>(most_pooled)});
    }
    const auto shares = shares_of(tallies, rho);
    std::vector<Count> worth;
    worth.reserve(shares.size());
    for (const auto& share : shares) worth.push_back(share.effective());
    const auto pooled = statistics::pooled_shares(worth, level);
    std::vector<PooledTake> found;
    found.reserve(pooled.size());
    for (std::size_t group = 0; group < shares.size(); ++group) {
        const auto& [mean, limits] = pooled[group];
        const auto& share = shares[group];
        found.push_back({tallies.groups.name(group), share.all.grafted, share.all.live, share.share(), mean, limits.low,
                         limits.high});
    }
    const auto& [mean, limits] = pooled.back();
    found.push_back({std::string("new"), 0, 0, std::nullopt, mean, limits.low, limits.high});
    return found;
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

std::optional<NextTake> take_next(const List& groups, const List& live, const List& grafted,
                                  std::optional<double> confidence) {
    const double level = check::confidence("confidence", confidence.value_or(0.8));
    const auto rows = tallies::tallies_by_group(groups, live, grafted).rows;
    if (rows.size() < 2) return std::nullopt;
    const auto number = static_cast<double>(rows.size());
    std::vector<double> logits;
    logits.reserve(rows.size());
    for (const auto& of_group : rows) {
        double alive = 0;
        double placed = 0;
        for (const Count& row : of_group) {
            alive += row.live;
            placed += row.grafted;
        }
        logits.push_back(std::log((alive + 0.5) / (placed - alive + 0.5)));
    }
    const double mean = std::accumulate(logits.begin(), logits.end(), 0.0) / number;
    double squares = 0;
    for (const double logit : logits) squares += (logit - mean) * (logit - mean);
    const double deviation = std::sqrt(squares / (number - 1));
    const double t = statistics::student_deviate(level, number - 1);
    const double half = t * deviation * std::sqrt(1 + 1 / number);
    const auto share = [](double logit) { return 1 / (1 + std::exp(-logit)); };
    return NextTake{share(mean), share(mean - half), share(mean + half), number};
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

std::optional<std::vector<TreeToRegraft>> regraft_list(const List& rows, const List& trees, const List& live,
                                                       double wanted_per_tree, std::optional<double> take,
                                                       std::optional<double> confidence,
                                                       std::optional<double> clustering) {
    const double wanted = whole_wanted(wanted_per_tree);
    Regrafting regrafting(take, confidence, clustering);
    check::same_length("rows", rows.length, "trees", trees.length);
    check::same_length("rows", rows.length, "live", live.length);
    std::vector<TreeToRegraft> short_of_grafts;
    bool reached = true;
    for (std::size_t line = 0; line < live.cells.size(); ++line) {
        if (is_blank(live.cells[line])) continue;
        const double alive = whole_in_row("live", live, line);
        const Cell& row = named_in_row("rows", rows, line);
        const Cell& tree = named_in_row("trees", trees, line);
        if (alive >= wanted) continue;
        const auto grafts = regrafting.grafts(wanted - alive);
        reached = reached && grafts;
        short_of_grafts.push_back({row, tree, alive, wanted - alive, grafts.value_or(0)});
    }
    if (short_of_grafts.empty() || !reached) return std::nullopt;
    return short_of_grafts;
}

std::optional<GraftLife> graft_life(const List& days, const List& lost, double at_day, std::optional<double> confidence,
                                    const std::optional<List>& trees, std::optional<Dated> dated) {
    check::number("at_day", at_day, 0);
    const double level = checked_confidence(confidence);
    const auto looks = looks_of(days, lost, trees);
    if (looks.empty()) return std::nullopt;
    if (trees && std::all_of(looks.begin(), looks.end(), [](const auto& look) { return look.cluster == 0; })) {
        return std::nullopt;
    }
    const auto life_at = [&](double day) {
        return statistics::kaplan_meier(looks, day, level,
                                        trees ? statistics::Clustered::yes : statistics::Clustered::no);
    };
    const auto as_answer = [](const statistics::Survival& life) {
        return GraftLife{life.share, life.limits.low, life.limits.high};
    };
    if (dated.value_or(Dated::look) == Dated::look) {
        // The looks before and after the day. Of what was lost between them only the later one knows.
        std::optional<double> before;
        std::optional<double> after;
        for (const auto& look : looks) {
            if (look.day <= at_day) before = std::max(look.day, before.value_or(look.day));
            if (look.day >= at_day) after = std::min(look.day, after.value_or(look.day));
        }
        if (after && before.value_or(0) < at_day && at_day < *after) {
            const auto later = life_at(*after).value();
            const auto earlier = before ? life_at(*before).value() : statistics::Survival{1, {1, 1}};
            const double from = before.value_or(0);
            return GraftLife{std::lerp(earlier.share, later.share, (at_day - from) / (*after - from)), later.limits.low,
                             earlier.limits.high};
        }
    }
    const auto life = life_at(at_day);
    if (!life) return std::nullopt;
    return as_answer(*life);
}

}  // namespace slipbark::take

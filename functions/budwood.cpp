#include "slipbark/budwood.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "statistics/binomial.hpp"
#include "statistics/urn.hpp"
#include "support/checks.hpp"
#include "support/curves.hpp"

namespace slipbark::budwood {

namespace {

constexpr double usual_confidence = 0.95;
constexpr std::int64_t most_live_wanted = 1'000'000;
constexpr std::int64_t most_grafts_of_a_tree = 1000;
/// The beta-binomial is summed term by term. A tree has far fewer grafts than this.
constexpr std::int64_t most_clustered = 10'000;
constexpr std::int64_t most_wanted_of_a_count = 10'000;
constexpr double most_grafts_of_a_count = 100'000;
constexpr double usual_most = 40;

/// The urn's, of the correlation of two grafts.
double theta_of(double clustering) { return clustering / (1 - clustering); }

bad_argument too_many_grafts(double live, double seen) {
    return {
        "live_seen",
        translatable("{1} was {2} of {3}, and more than {4} grafts would be needed: give a count with more alive, or "
                     "lower the number wanted or the confidence."),
        {live, seen, most_grafts_of_a_count}};
}

/// The grafts still to be placed as a count on clustered trees foretells them. Those seen stood on trees, as many on
/// each as the new ones will, and by their design effect they say less of the take than grafts on their own.
class Foretold {
  public:
    Foretold(double live, double seen, double clustering, double trees)
        : clustering_(clustering), grafts_per_tree_(seen / trees) {
        const double effect = design_effect(seen);
        const double alpha = live / effect + 0.5;
        const double beta = (seen - live) / effect + 0.5;
        shared_ = 1 / (alpha + beta + 1);
        mean_ = alpha / (alpha + beta);
    }

    /// The chance that of n grafts at least `wanted` live.
    [[nodiscard]] statistics::Chance chance(std::int64_t n, std::int64_t wanted) const {
        const auto grafts = static_cast<double>(n);
        if (n < 2) return statistics::urn(n, mean_, wanted, 0);
        const double correlation = (design_effect(grafts) * (1 - shared_) + grafts * shared_ - 1) / (grafts - 1);
        return statistics::urn(n, mean_, wanted, theta_of(correlation));
    }

  private:
    [[nodiscard]] double design_effect(double grafts) const {
        return 1 + (std::min(grafts, grafts_per_tree_) - 1) * clustering_;
    }

    double clustering_;
    double grafts_per_tree_;
    double shared_ = 0;  ///< correlation of two grafts on different trees: the take is the same unknown one for both
    double mean_ = 0;
};

double grafts_from_trees(const Foretold& foretold, std::int64_t wanted, double live, double seen, double level) {
    const auto suffices = [&](std::int64_t n) { return statistics::reaches(foretold.chance(n, wanted), level); };
    const auto most = static_cast<std::int64_t>(most_grafts_of_a_count);
    std::int64_t too_few = wanted - 1;
    std::int64_t enough = wanted;
    while (!suffices(enough)) {
        if (enough == most) throw too_many_grafts(live, seen);
        too_few = enough;
        enough = std::min(2 * enough, most);
    }
    while (enough - too_few > 1) {
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        (suffices(middle) ? enough : too_few) = middle;
    }
    return static_cast<double>(enough);
}

}  // namespace

double sticks(double grafts, double buds_per_scion, double buds_per_stick, std::optional<double> spare) {
    const auto wanted = check::whole("grafts", grafts, 0);
    const auto per_scion = check::whole("buds_per_scion", buds_per_scion, 1, 100);
    const auto per_stick = check::whole("buds_per_stick", buds_per_stick, 1, 1000);
    const double extra = check::fraction("spare", spare.value_or(0), 2);
    const auto scions = per_stick / per_scion;
    if (scions == 0) {
        throw bad_argument(
            "buds_per_stick",
            translatable("{1} was {2}, too few for one scion: give at least buds_per_scion, which is {3}."),
            {buds_per_stick, buds_per_scion});
    }
    return check::rounded_up(static_cast<double>(wanted) * (1 + extra) / static_cast<double>(scions));
}

double grafts(double live_wanted, double take, std::optional<double> confidence) {
    const auto wanted = check::whole("live_wanted", live_wanted, 0, most_live_wanted);
    check::fraction("take", take);
    const double level = check::confidence("confidence", confidence.value_or(usual_confidence));
    if (wanted == 0) return 0;
    if (take == 0) {
        throw bad_argument("take",
                           translatable("{1} was 0 (the cell may be blank), and no number of grafts gives a live one: "
                                        "give a fraction above 0."));
    }
    if (take == 1) return static_cast<double>(wanted);

    const auto enough = statistics::fewest_trials(wanted, take, level, check::count_limit);
    if (!enough) {
        throw bad_argument("take",
                           translatable("{1} was {2}, and more than {3} grafts would be needed: give a larger take, or "
                                        "lower the number wanted."),
                           {take, static_cast<double>(check::count_limit)});
    }
    return static_cast<double>(*enough);
}

double tree_chance(double grafts, double take, std::optional<double> live_wanted, std::optional<double> clustering) {
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const auto placed = check::whole("grafts", grafts, 0, rho == 0 ? check::count_limit : most_clustered);
    check::fraction("take", take);
    const auto wanted = check::whole("live_wanted", live_wanted.value_or(1), 0);
    return statistics::urn(placed, take, wanted, theta_of(rho)).enough;
}

std::optional<double> tree_grafts(double take, std::optional<double> confidence, std::optional<double> live_wanted,
                                  std::optional<double> clustering) {
    check::fraction("take", take);
    const double level = check::confidence("confidence", confidence.value_or(usual_confidence));
    const auto wanted = check::whole("live_wanted", live_wanted.value_or(1), 0);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const double theta = theta_of(rho);
    // One more graft never makes a tree worse, so the least number can be halved in on.
    std::int64_t too_few = -1;
    std::int64_t enough = most_grafts_of_a_tree + 1;
    while (enough - too_few > 1) {
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        (statistics::reaches(statistics::urn(middle, take, wanted, theta), level) ? enough : too_few) = middle;
    }
    if (enough > most_grafts_of_a_tree) return std::nullopt;
    return static_cast<double>(enough);
}

double tree_share(double grafts, double take, std::optional<double> live_wanted, std::optional<double> clustering) {
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const auto placed = check::whole("grafts", grafts, 0, rho == 0 ? check::count_limit : most_clustered);
    check::fraction("take", take);
    const auto wanted = live_wanted ? check::whole("live_wanted", *live_wanted, 1) : placed;
    if (placed == 0) return 0;
    return statistics::expected_up_to(placed, take, wanted, theta_of(rho)) / static_cast<double>(wanted);
}

double grafts_from(double live_wanted, double live_seen, double grafted_seen, std::optional<double> confidence,
                   std::optional<double> clustering, std::optional<double> trees_seen) {
    const auto wanted = static_cast<double>(check::whole("live_wanted", live_wanted, 0, most_wanted_of_a_count));
    const auto seen = static_cast<double>(check::whole("grafted_seen", grafted_seen, 1));
    const auto live = static_cast<double>(check::whole("live_seen", live_seen, 0));
    if (live > seen) {
        throw bad_argument("live_seen",
                           translatable("{1} was {2}, more than were grafted: give at most {3}, which is {4}."),
                           {live, "grafted_seen", seen});
    }
    const double level = check::confidence("confidence", confidence.value_or(usual_confidence));
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    if (rho > 0 && !trees_seen) {
        throw bad_argument("clustering",
                           translatable("{1} was {2}: give trees_seen too, the number "
                                        "of trees that the grafts seen were on."),
                           {rho});
    }
    if (trees_seen) {
        const auto trees = static_cast<double>(check::whole("trees_seen", *trees_seen, 1));
        if (trees > seen) {
            throw bad_argument("trees_seen",
                               translatable("{1} was {2}, more than the grafts seen: give at most {3}, which is {4}."),
                               {trees, "grafted_seen", seen});
        }
    }
    if (wanted == 0) return 0;
    if (rho > 0) {
        return grafts_from_trees(Foretold(live, seen, rho, *trees_seen), static_cast<std::int64_t>(wanted), live, seen,
                                 level);
    }

    // From the likeliest n all smaller ones are added up, then on or back to the least that reaches the confidence.
    const statistics::LastWanted last(wanted, live, seen - live);
    double n = std::min(last.mode(), most_grafts_of_a_count);
    double term = last.chance(n);
    double enough = term;
    {
        double before = term;
        constexpr double negligible = 1e-18;
        double m = n;
        while (m > wanted && before > negligible * enough) {
            m -= 1;
            before /= last.growth(m);
            enough += before;
        }
    }
    const auto suffices = [&](double sum) { return statistics::reaches({sum, std::max(0.0, 1 - sum)}, level); };
    while (n > wanted && suffices(enough - term)) {
        enough -= term;
        term /= last.growth(--n);
    }
    while (n < most_grafts_of_a_count && !suffices(enough)) {
        term *= last.growth(n++);
        enough += term;
    }
    if (suffices(enough)) return n;
    throw too_many_grafts(live, seen);
}

double best_grafts(double take, double live_wanted, double tree_worth, double graft_cost,
                   std::optional<double> clustering, std::optional<double> most, std::optional<double> regraft_take,
                   std::optional<double> regraft_cost) {
    check::fraction("take", take);
    const auto wanted = check::whole("live_wanted", live_wanted, 1);
    const double worth = check::positive("tree_worth", tree_worth);
    const double cost = check::positive("graft_cost", graft_cost);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const auto limit = check::whole("most", most.value_or(usual_most), 1, most_grafts_of_a_tree);
    const double retake = check::fraction("regraft_take", regraft_take.value_or(0));
    if (regraft_cost && !regraft_take) {
        throw bad_argument("regraft_cost", translatable("{1} was given without a regraft_take: give a "
                                                        "regraft_take too, or leave {1} out."));
    }
    const double recost = check::positive("regraft_cost", regraft_cost.value_or(cost));
    const auto full = static_cast<double>(wanted);
    const double regraft_gain = std::max(0.0, retake * worth / full - recost);
    // What a live graft adds at once; the rest of its worth a regraft would make good.
    const double worth_at_once = worth - regraft_gain * full;

    // One graft more gains where fewer than wanted live so far and it lives itself: the sum over j < wanted of
    // pmf(j) (p + j theta) / (1 + n theta), pmf being that of the urn after n grafts. The gain never grows with n, so
    // the first graft that does not pay is the end. But only a tree that is grafted is regrafted, so the first one
    // brings in the regrafts, too.
    const double theta = theta_of(rho);
    constexpr double slack = 1e-12;
    std::vector<double> chances(static_cast<std::size_t>(std::min(wanted, limit)), 0.0);
    chances.front() = 1;
    double gained = regraft_gain * full;
    std::int64_t grafts = 0;
    while (grafts < limit) {
        const auto n = static_cast<double>(grafts);
        const double part = 1 / (1 + n * theta);
        double gain = 0;
        double moved = 0;  // from one live graft fewer
        const std::size_t reached = std::min(chances.size(), static_cast<std::size_t>(grafts) + 1);
        for (std::size_t place = 0; place < reached; ++place) {
            const auto live = static_cast<double>(place);
            const double before = chances[place] * part;
            const double one_more = before * (take + live * theta);
            chances[place] = moved + before * (1 - take + (n - live) * theta);
            gain += one_more;
            moved = one_more;
        }
        if (reached < chances.size()) chances[reached] = moved;
        const double brings_in = worth_at_once * gain / full;
        if (grafts > 0 && brings_in <= cost * (1 + slack)) break;
        gained += brings_in;
        ++grafts;
    }
    const auto placed = static_cast<double>(grafts);
    return gained <= placed * cost * (1 + slack) ? 0 : placed;
}

std::optional<double> buds_alive(double days, const std::optional<Table>& storage) {
    check::number("days", days, 0, 10'000);
    const auto [at, share] = curves::bud_life(storage);
    const auto next = static_cast<std::size_t>(std::upper_bound(at.begin(), at.end(), days) - at.begin());
    if (next == at.size()) {
        // On the last row its share, past it only death is certain.
        if (at.back() == days || share.back() == 0) return share.back();
        return std::nullopt;
    }
    const double part = (days - at[next - 1]) / (at[next] - at[next - 1]);
    return std::lerp(share[next - 1], share[next], part);
}

}  // namespace slipbark::budwood

#include "slipbark/budwood.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

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

/// Both sides of a probability, so that neither is lost when the other is near 1.
struct Chance {
    double enough;
    double too_few;
};

Chance binomial(std::int64_t grafts, double take, std::int64_t wanted) {
    if (wanted <= 0) return {1, 0};
    if (wanted > grafts) return {0, 1};
    const auto a = static_cast<double>(wanted);
    const auto b = static_cast<double>(grafts - wanted + 1);
    return {boost::math::ibeta(a, b, take), boost::math::ibetac(a, b, take)};
}

/// The beta-binomial as an urn, theta = rho / (1 - rho): neighbouring terms have the ratio
///     pmf(j + 1) / pmf(j) = (n - j) / (j + 1) * (p + j theta) / (q + (n - j - 1) theta).
/// It holds for every theta from 0 (binomial) on and for p = 0 and 1, where alpha and beta would be infinite or 0. The
/// terms are handed to `use` in units of one near the mean and are to be divided by their total, which is returned, so
/// nothing is subtracted.
template <class Use>
double for_each_term(std::int64_t grafts, double take, double clustering, Use use) {
    const double theta = clustering / (1 - clustering);
    const double loss = 1 - take;
    const auto ratio = [&](std::int64_t from) {
        const auto live = static_cast<double>(from);
        const auto dead = static_cast<double>(grafts - from);
        return std::pair{dead * (take + live * theta), (live + 1) * (loss + (dead - 1) * theta)};
    };
    const auto start = static_cast<std::int64_t>(std::round(static_cast<double>(grafts) * take));
    use(start, 1.0);
    double total = 1;
    double term = 1;
    for (std::int64_t live = start; live < grafts && term > 0; ++live) {
        const auto [up, down] = ratio(live);
        term *= up / down;
        total += term;
        use(live + 1, term);
    }
    term = 1;
    for (std::int64_t live = start; live > 0 && term > 0; --live) {
        const auto [up, down] = ratio(live - 1);
        term *= down / up;
        total += term;
        use(live - 1, term);
    }
    return total;
}

Chance beta_binomial(std::int64_t grafts, double take, std::int64_t wanted, double clustering) {
    if (wanted <= 0) return {1, 0};
    if (wanted > grafts) return {0, 1};
    Chance sums{0, 0};
    const double total = for_each_term(grafts, take, clustering, [&](std::int64_t live, double term) {
        (live >= wanted ? sums.enough : sums.too_few) += term;
    });
    return {sums.enough / total, sums.too_few / total};
}

Chance chance(std::int64_t grafts, double take, std::int64_t wanted, double clustering) {
    return clustering == 0 ? binomial(grafts, take, wanted) : beta_binomial(grafts, take, wanted, clustering);
}

/// Whether a chance reaches the confidence. Ties count: the smaller side of the two is compared, with the slack of the
/// last binary digits in which both were computed.
bool reaches(const Chance& found, double confidence) {
    constexpr double slack = 1e-13;
    if (confidence <= 0.5) return found.enough >= confidence * (1 - slack);
    return found.too_few <= (1 - confidence) * (1 + slack) + std::numeric_limits<double>::epsilon() / 2;
}

/// Where the normal distribution puts the least n; a start for the search.
std::int64_t normal_guess(double wanted, double take, double confidence) {
    const boost::math::normal normal;
    const double z = confidence <= 0.5 ? boost::math::quantile(normal, confidence)
                                       : boost::math::quantile(boost::math::complement(normal, 1 - confidence));
    const double spread = z * std::sqrt(1 - take);
    const double root = (spread + std::sqrt(spread * spread + 4 * (wanted - 0.5))) / 2;
    const double guess = root * root / take;
    return static_cast<std::int64_t>(std::clamp(std::ceil(guess), wanted, static_cast<double>(check::count_limit)));
}

/// The step from n to where the logarithm of the smaller side would meet the confidence (Newton).
double newton_step(std::int64_t n, double take, std::int64_t wanted, const Chance& found, double confidence) {
    const auto a = static_cast<double>(wanted);
    const auto b = static_cast<double>(n - wanted + 1);
    // P(X >= wanted) of n + 1 grafts less that of n: the last graft takes and just one more was wanted.
    const double slope = boost::math::ibeta_derivative(a, b, take) * take * (1 - take) / b;
    if (confidence <= 0.5) return std::log(confidence / found.enough) * found.enough / slope;
    return std::log(found.too_few / (1 - confidence)) * found.too_few / slope;
}

/// Expected number of live grafts of a tree, those above `wanted` not counted: E[min(X, wanted)].
double useful_grafts(std::int64_t grafts, double take, std::int64_t wanted, double clustering) {
    const double all = static_cast<double>(grafts) * take;
    if (wanted >= grafts) return all;
    if (clustering == 0) {
        // Of the X below `wanted`, E[X; X < w] = n p P(Y < w - 1) with Y of one graft less.
        return all * binomial(grafts - 1, take, wanted - 1).too_few +
               static_cast<double>(wanted) * binomial(grafts, take, wanted).enough;
    }
    double sum = 0;
    const double total = for_each_term(grafts, take, clustering, [&](std::int64_t live, double term) {
        sum += static_cast<double>(std::min(live, wanted)) * term;
    });
    return sum / total;
}

/// The graft with which the last one wanted comes alive, the take known only from a count: N with
///     P(N = n) = C(n - 1, w - 1) B(alpha + w, beta + n - w) / B(alpha, beta)
/// (beta negative binomial). P(N <= n) is the chance that n grafts are enough.
class LastWanted {
  public:
    LastWanted(double wanted, double live, double dead) : wanted_(wanted), alpha_(live + 0.5), beta_(dead + 0.5) {}

    /// P(N = n + 1) / P(N = n).
    [[nodiscard]] double growth(double n) const {
        return n * (beta_ + n - wanted_) / ((n - wanted_ + 1) * (alpha_ + beta_ + n));
    }

    /// The likeliest n.
    [[nodiscard]] double mode() const {
        return std::max(wanted_, std::floor((wanted_ - 1) * (alpha_ + beta_) / (alpha_ + 1)));
    }

    /// P(N = n), by Bayes' theorem at one value x of the take, where the theorem's three densities keep their digits:
    /// prior(x) binomial(w; n, x) / posterior(x), and of such counts w / n end with a live graft.
    [[nodiscard]] double chance(double n) const {
        using boost::math::ibeta_derivative;
        const double dead = n - wanted_;
        const double x = (alpha_ + wanted_) / (alpha_ + beta_ + n);
        return wanted_ / n / (n + 1) * ibeta_derivative(wanted_ + 1, dead + 1, x) *
               (ibeta_derivative(alpha_, beta_, x) / ibeta_derivative(alpha_ + wanted_, beta_ + dead, x));
    }

  private:
    double wanted_;
    double alpha_;
    double beta_;
};

}  // namespace

double sticks(double grafts, double buds_per_graft, double buds_per_stick, std::optional<double> spare) {
    const auto wanted = check::whole("grafts", grafts, 0);
    const auto per_graft = check::whole("buds_per_graft", buds_per_graft, 1, 100);
    const auto per_stick = check::whole("buds_per_stick", buds_per_stick, 1, 1000);
    const double extra = check::fraction("spare", spare.value_or(0), 2);
    const auto scions = per_stick / per_graft;
    if (scions == 0) {
        throw bad_argument(
            "buds_per_stick",
            translatable("{1} was {2}, too few for one scion: give at least buds_per_graft, which is {3}."),
            {buds_per_stick, buds_per_graft});
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

    // Between these two the answer lies: `too_few` does not reach the confidence, `enough` does (or is past the limit).
    std::int64_t too_few = wanted - 1;
    std::int64_t enough = check::count_limit + 1;
    std::int64_t n = normal_guess(static_cast<double>(wanted), take, level);
    for (int round = 0;; ++round) {
        const Chance found = binomial(n, take, wanted);
        (reaches(found, level) ? enough : too_few) = n;
        if (enough - too_few == 1) break;
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        const double next = std::ceil(static_cast<double>(n) + newton_step(n, take, wanted, found, level));
        // Far out the step may be endless, and a search that does not settle is halved instead.
        n = !std::isfinite(next) || round > 16
                ? middle
                : static_cast<std::int64_t>(
                      std::clamp(next, static_cast<double>(too_few + 1), static_cast<double>(enough - 1)));
    }
    if (enough > check::count_limit) {
        throw bad_argument("take",
                           translatable("{1} was {2}, and more than {3} grafts would be needed: give a larger take, or "
                                        "want fewer alive."),
                           {take, static_cast<double>(check::count_limit)});
    }
    return static_cast<double>(enough);
}

double tree_chance(double grafts, double take, std::optional<double> live_wanted, std::optional<double> clustering) {
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const auto placed = check::whole("grafts", grafts, 0, rho == 0 ? check::count_limit : most_clustered);
    check::fraction("take", take);
    const auto wanted = check::whole("live_wanted", live_wanted.value_or(1), 0);
    return chance(placed, take, wanted, rho).enough;
}

std::optional<double> tree_grafts(double take, std::optional<double> confidence, std::optional<double> live_wanted,
                                  std::optional<double> clustering) {
    check::fraction("take", take);
    const double level = check::confidence("confidence", confidence.value_or(usual_confidence));
    const auto wanted = check::whole("live_wanted", live_wanted.value_or(1), 0);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    // One more graft never makes a tree worse, so the least number can be halved in on.
    std::int64_t too_few = -1;
    std::int64_t enough = most_grafts_of_a_tree + 1;
    while (enough - too_few > 1) {
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        (reaches(chance(middle, take, wanted, rho), level) ? enough : too_few) = middle;
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
    return useful_grafts(placed, take, wanted, rho) / static_cast<double>(wanted);
}

double grafts_from(double live_wanted, double live_seen, double grafted_seen, std::optional<double> confidence) {
    const auto wanted = static_cast<double>(check::whole("live_wanted", live_wanted, 0, most_wanted_of_a_count));
    const auto seen = static_cast<double>(check::whole("grafted_seen", grafted_seen, 1));
    const auto live = static_cast<double>(check::whole("live_seen", live_seen, 0));
    if (live > seen) {
        throw bad_argument("live_seen",
                           translatable("{1} was {2}, more than were grafted: give at most {3}, which is {4}."),
                           {live, "grafted_seen", seen});
    }
    const double level = check::confidence("confidence", confidence.value_or(usual_confidence));
    if (wanted == 0) return 0;

    // From the likeliest n all smaller ones are added up, then on or back to the least that reaches the confidence.
    const LastWanted last(wanted, live, seen - live);
    double n = std::min(last.mode(), most_grafts_of_a_count);
    double term = last.chance(n);
    double enough = term;
    {
        double before = term;
        constexpr double negligible = 1e-18;
        for (double m = n - 1; m >= wanted && before > negligible * enough; --m) {
            before /= last.growth(m);
            enough += before;
        }
    }
    const auto suffices = [&](double sum) { return reaches({sum, std::max(0.0, 1 - sum)}, level); };
    while (n > wanted && suffices(enough - term)) {
        enough -= term;
        term /= last.growth(--n);
    }
    while (n < most_grafts_of_a_count && !suffices(enough)) {
        term *= last.growth(n++);
        enough += term;
    }
    if (suffices(enough)) return n;
    throw bad_argument(
        "live_seen",
        translatable("{1} was {2} of {3}, at which more than {4} grafts would be needed: give a count with more "
                     "alive, want fewer alive, or be content with a lower confidence."),
        {live, seen, most_grafts_of_a_count});
}

double best_grafts(double take, double live_wanted, double tree_worth, double graft_cost,
                   std::optional<double> clustering, std::optional<double> most) {
    check::fraction("take", take);
    const auto wanted = check::whole("live_wanted", live_wanted, 1);
    const double worth = check::positive("tree_worth", tree_worth);
    const double cost = check::positive("graft_cost", graft_cost);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const auto limit = check::whole("most", most.value_or(usual_most), 1, most_grafts_of_a_tree);

    // One graft more gains where fewer than wanted live so far and it lives itself: the sum over j < wanted of
    // pmf(j) (p + j theta) / (1 + n theta), pmf being that of the urn after n grafts. The gain never grows with n, so
    // the first graft that does not pay is the end.
    const double theta = rho / (1 - rho);
    constexpr double slack = 1e-12;
    std::vector<double> chances(static_cast<std::size_t>(std::min(wanted, limit)), 0.0);
    chances.front() = 1;
    for (std::int64_t n = 0; n < limit; ++n) {
        const double part = 1 / (1 + static_cast<double>(n) * theta);
        double gain = 0;
        double moved = 0;  // from one live graft fewer
        const std::size_t reached = std::min(chances.size(), static_cast<std::size_t>(n) + 1);
        for (std::size_t place = 0; place < reached; ++place) {
            const auto live = static_cast<double>(place);
            const double before = chances[place] * part;
            const double one_more = before * (take + live * theta);
            chances[place] = moved + before * (1 - take + (static_cast<double>(n) - live) * theta);
            gain += one_more;
            moved = one_more;
        }
        if (reached < chances.size()) chances[reached] = moved;
        if (worth * gain / static_cast<double>(wanted) <= cost * (1 + slack)) return static_cast<double>(n);
    }
    return static_cast<double>(limit);
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

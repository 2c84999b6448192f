#include "statistics/pool.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <utility>

namespace slipbark::statistics {

namespace {

/// Double is exact enough here, and three times as quick as Boost's usual long double.
using Quick = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

/// ln(a (a + 1) ... (a + x - 1)), and what goes on between whole x; a > 0.
double log_rising(double a, double x) {
    constexpr double large = 20;
    if (x == 0) return 0;
    if (a < large) return boost::math::lgamma(a + x, Quick()) - boost::math::lgamma(a, Quick());
    // The difference of two of Stirling's series, so that nothing cancels where a is huge.
    const double b = a + x;
    const auto rest = [](double z) { return (1.0 / 12 - 1 / (360 * z * z)) / z; };
    return (a - 0.5) * std::log1p(x / a) + x * (std::log(b) - 1) + rest(b) - rest(a);
}

/// A beta distribution of shares, given by its mean and the sum of its parameters.
struct Prior {
    double alpha;
    double beta;
};

Prior prior(double mean, double root) {
    const double rho = root * root;
    const double sum = (1 - rho) / rho;
    return {mean * sum, (1 - mean) * sum};
}

class Posterior {
  public:
    explicit Posterior(const std::vector<Count>& groups) {
        std::map<std::pair<double, double>, double> alike;
        for (const auto& [live, grafted] : groups) ++alike[{live, grafted}];
        for (const auto& [count, number] : alike) alike_.push_back({{count.first, count.second}, number});
    }

    /// The logarithm of the weight of a mean and a root of rho.
    [[nodiscard]] double log_weight(double mean, double root) const {
        const auto [alpha, beta] = prior(mean, root);
        double sum = 0;
        for (const auto& [count, number] : alike_) {
            sum += number * (log_rising(alpha, count.live) + log_rising(beta, count.grafted - count.live) -
                             log_rising(alpha + beta, count.grafted));
        }
        return sum;
    }

    /// The mean of greatest weight for a root: the logarithm is concave in the mean.
    [[nodiscard]] std::pair<double, double> best_mean(double root) const {
        constexpr int bits = 16;
        const auto [mean, least] = boost::math::tools::brent_find_minima(
            [&](double at) { return -log_weight(at, root); }, closest_to_end, 1 - closest_to_end, bits);
        return {mean, -least};
    }

    static constexpr double closest_to_end = 1e-12;

  private:
    struct Alike {
        Count count;
        double number;  ///< of groups with this count
    };
    std::vector<Alike> alike_;
};

/// What is e^-negligible below the top counts for nothing.
constexpr double negligible = 20;

using Rule = boost::math::quadrature::gauss<double, 20>;

/// Calls use(x, weight) at the places of a Gauss-Legendre rule in each of `panels` equal parts of low to high.
template <class Use>
void for_each_place(double low, double high, int panels, Use use) {
    const double half = (high - low) / panels / 2;
    for (int panel = 0; panel < panels; ++panel) {
        const double middle = low + (2 * panel + 1) * half;
        for (std::size_t place = 0; place < Rule::abscissa().size(); ++place) {
            const double step = half * Rule::abscissa()[place];
            const double weight = half * Rule::weights()[place];
            use(middle - step, weight);
            use(middle + step, weight);
        }
    }
}

struct Node {
    Prior prior;
    double weight;
};

/// Where a function that falls away from `top` is still within `negligible` of it, towards `end`.
template <class Function>
double edge(Function function, double top, double end, double least) {
    if (function(end) >= least) return end;
    double inside = top;
    double outside = end;
    constexpr int rounds = 10;
    for (int round = 0; round < rounds; ++round) {
        const double middle = (inside + outside) / 2;
        (function(middle) >= least ? inside : outside) = middle;
    }
    return outside;
}

std::vector<Node> nodes_of(const std::vector<Count>& groups) {
    const Posterior posterior(groups);
    double most = 0;
    for (const Count& group : groups) most = std::max(most, group.grafted);
    // The weight changes over roots of the size of the largest group's own scatter, and over parts of 1: in t, where
    // root = least sinh t, it does so evenly.
    const double least = 1 / std::sqrt(most + 1);
    double low = 0;
    double high = std::asinh(1 / least);
    const auto root_of = [least](double t) { return std::min(least * std::sinh(t), 1 - 1e-9); };

    // Where the weight is. Twice, the second time within what the first time left.
    constexpr int scanned = 24;
    for (int round = 0; round < 2; ++round) {
        std::array<double, scanned> top{};
        const double step = (high - low) / scanned;
        for (int at = 0; at < scanned; ++at) {
            top.at(static_cast<std::size_t>(at)) = posterior.best_mean(root_of(low + (at + 0.5) * step)).second;
        }
        const double enough = *std::max_element(top.begin(), top.end()) - negligible;
        const auto is_enough = [enough](double one) { return one >= enough; };
        const auto first = std::find_if(top.begin(), top.end(), is_enough) - top.begin();
        const auto last = std::find_if(top.rbegin(), top.rend(), is_enough).base() - top.begin();
        const double from = low;
        low = std::max(from, from + (static_cast<double>(first) - 0.5) * step);
        high = std::min(high, from + (static_cast<double>(last) + 0.5) * step);
    }

    struct Row {
        double t;
        double weight;
        double mean;
        double top;
    };
    std::vector<Row> rows;
    double highest = -std::numeric_limits<double>::infinity();
    for_each_place(low, high, 1, [&](double t, double weight) {
        const auto [mean, top] = posterior.best_mean(root_of(t));
        rows.push_back({t, weight * least * std::cosh(t), mean, top});
        highest = std::max(highest, top);
    });
    std::vector<Node> nodes;
    double total = 0;
    for (const Row& row : rows) {
        if (row.top < highest - negligible) continue;
        const double root = root_of(row.t);
        const auto function = [&](double mean) { return posterior.log_weight(mean, root); };
        const double from = edge(function, row.mean, Posterior::closest_to_end, row.top - negligible);
        const double to = edge(function, row.mean, 1 - Posterior::closest_to_end, row.top - negligible);
        // Each node is a group's distribution by itself: they must overlap, or the sum would go up in steps.
        const double spread = root * std::sqrt(row.mean * (1 - row.mean));
        const double wanted = (to - from) / 20 / std::max(spread, 1e-300);
        const int panels = wanted > 4 ? 6 : wanted > 2 ? 4 : wanted > 0.7 ? 2 : 1;
        for_each_place(from, to, panels, [&](double mean, double weight) {
            const double of_node = row.weight * weight * std::exp(function(mean) - highest);
            nodes.push_back({prior(mean, root), of_node});
            total += of_node;
        });
    }
    constexpr double too_little = 1e-7;
    std::erase_if(nodes, [&](const Node& node) { return node.weight < too_little * total; });
    total = 0;
    for (const Node& node : nodes) total += node.weight;
    for (Node& node : nodes) node.weight /= total;
    return nodes;
}

/// The mixture of a group's beta distributions over all nodes.
class Mixture {
  public:
    Mixture(const std::vector<Node>& nodes, const Count& group) {
        parts_.reserve(nodes.size());
        for (const Node& node : nodes) {
            const double a = node.prior.alpha + group.live;
            const double b = node.prior.beta + group.grafted - group.live;
            const double mean = a / (a + b);
            const double deviation = std::sqrt(mean * (1 - mean) / (a + b + 1));
            parts_.push_back({a, b, mean, deviation, node.weight, boost::math::lgamma(a, Quick()) - log_rising(b, a)});
            mean_ += node.weight * mean;
            square_ += node.weight * (mean * mean + deviation * deviation);
        }
    }

    [[nodiscard]] double mean() const { return mean_; }

    /// The share that a part `part` of the mixture stays below. Each look at the mixture costs as many incomplete beta
    /// functions as it has parts: so Newton's steps, from the quantile of one beta distribution with the mixture's mean
    /// and variance, and only where they lead nowhere a search between 0 and 1.
    [[nodiscard]] double quantile(double part) const {
        constexpr double tolerance = 1e-5;
        constexpr double short_step = 3e-4;  // the next one would be below the tolerance
        constexpr int steps = 10;
        double share = start_of(part);
        for (int step = 0; step < steps; ++step) {
            const double next = share - (below(share) - part) / density(share);
            if (!(next > 0 && next < 1)) break;
            const double moved = std::abs(std::exchange(share, next) - next);
            // Next to 0 or 1 the density may have no bound, and a short step need not be near the end.
            if (moved < short_step && moved < std::min(next, 1 - next) / 4) return next;
        }
        std::uintmax_t rounds = 100;
        const auto close = [](double one, double other) { return std::abs(one - other) < tolerance; };
        const auto [low, high] = boost::math::tools::toms748_solve([&](double at) { return below(at) - part; }, 0.0,
                                                                   1.0, -part, 1 - part, close, rounds);
        return low + (high - low) / 2;
    }

  private:
    struct Part {
        double alpha;
        double beta;
        double mean;
        double deviation;
        double weight;
        double log_beta;  ///< the logarithm of the beta function of both
    };

    /// About the quantile: that of one beta distribution.
    [[nodiscard]] double start_of(double part) const {
        const double variance = square_ - mean_ * mean_;
        const double size = mean_ * (1 - mean_) / variance - 1;
        if (!(variance > 0 && size > 0 && mean_ > 0 && mean_ < 1)) return mean_;
        const boost::math::beta_distribution<double, Quick> alike(mean_ * size, (1 - mean_) * size);
        return boost::math::quantile(alike, part);
    }

    /// How fast below() grows there.
    [[nodiscard]] double density(double share) const {
        const double to = std::log(share);
        const double from = std::log1p(-share);
        double sum = 0;
        for (const Part& part : parts_) {
            sum += part.weight * std::exp((part.alpha - 1) * to + (part.beta - 1) * from - part.log_beta);
        }
        return sum;
    }

    /// How much of the mixture is below `share`.
    [[nodiscard]] double below(double share) const {
        constexpr double far = 12;         // deviations, beyond which nothing is left of a narrow one
        constexpr double narrow = 200;     // alpha + beta from which on that is so
        constexpr double normal = 100000;  // and from which on it is normal to 1E-5 of a share
        double sum = 0;
        for (const Part& part : parts_) {
            const double off = (share - part.mean) / part.deviation;
            const double size = part.alpha + part.beta;
            if (size > narrow && std::abs(off) > far) {
                sum += off > 0 ? part.weight : 0;
            } else if (size > normal) {
                sum += part.weight * std::erfc(-off / std::sqrt(2.0)) / 2;
            } else {
                sum += part.weight * boost::math::ibeta(part.alpha, part.beta, share, Quick());
            }
        }
        return sum;
    }

    std::vector<Part> parts_;
    double mean_ = 0;
    double square_ = 0;  ///< mean of the squares
};

}  // namespace

std::vector<PooledShare> pooled_shares(const std::vector<Count>& groups, double confidence) {
    const std::vector<Node> nodes = nodes_of(groups);
    const double tail = tail_of(confidence);
    std::map<std::pair<double, double>, PooledShare> known;
    const auto share_of = [&](const Count& group) {
        const auto [place, is_new] = known.try_emplace({group.live, group.grafted});
        if (is_new) {
            const Mixture mixture(nodes, group);
            place->second = {mixture.mean(), {mixture.quantile(tail), mixture.quantile(1 - tail)}};
        }
        return place->second;
    };
    std::vector<PooledShare> shares;
    shares.reserve(groups.size() + 1);
    for (const Count& group : groups) shares.push_back(share_of(group));
    shares.push_back(share_of({0, 0}));
    return shares;
}

}  // namespace slipbark::statistics

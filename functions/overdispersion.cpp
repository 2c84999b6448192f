#include "overdispersion.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <utility>

namespace slipbark::take {

namespace {

/// Sums over j from 0 to m - 1 of functions of s + j theta, added up over all groups' counts m.
struct Sums {
    double logarithm = 0;  ///< log(s + j theta)
    double inverse = 0;    ///< 1 / (s + j theta)
    double square = 0;     ///< 1 / (s + j theta)^2
    double slope = 0;      ///< j / (s + j theta)
};

/// The counts of one kind (live, dead or grafted) of all groups. The likelihood needs them only as a histogram, and
/// only through the sums above: term by term for the first few j, and by the Euler-Maclaurin formula for the many of a
/// large count. Written so, nothing cancels as theta goes to 0, where the usual log-gamma differences lose all their
/// digits.
class Histogram {
  public:
    void add(double count) {
        total_ += count;
        pairs_ += count * (count - 1) / 2;
        const double direct = std::min(count, static_cast<double>(singly));
        for (std::size_t j = 0; static_cast<double>(j) < direct; ++j) above_[j] += 1;
        if (count > static_cast<double>(singly)) large_[count] += 1;
    }

    [[nodiscard]] double total() const { return total_; }
    /// Sum of count (count - 1) / 2.
    [[nodiscard]] double pairs() const { return pairs_; }

    [[nodiscard]] Sums sums(double s, double theta) const {
        Sums sums;
        for (std::size_t j = 0; j < singly && above_[j] > 0; ++j) {
            const auto place = static_cast<double>(j);
            const double value = s + place * theta;
            sums.logarithm += above_[j] * std::log(value);
            sums.inverse += above_[j] / value;
            sums.square += above_[j] / (value * value);
            sums.slope += above_[j] * place / value;
        }
        for (const auto& [count, groups] : large_) add_rest(sums, s, theta, count, groups);
        return sums;
    }

  private:
    static constexpr std::size_t singly = 64;

    /// The terms from j = singly on, theta > 0. With u = s / theta + j the functions are log u, 1 / u, 1 / u^2.
    static void add_rest(Sums& sums, double s, double theta, double count, double groups) {
        const auto from = static_cast<double>(singly);
        const double u = s / theta + from;
        const double v = s / theta + count;
        const double span = count - from;
        const double log_ratio = std::log1p(span / u);
        const double first = span / (u * v);  // 1/u - 1/v
        const double second = first * (1 / u + 1 / v);
        const double third = 1 / (u * u * u) - 1 / (v * v * v);
        const double fourth = second * (1 / (u * u) + 1 / (v * v));
        const double inverse = (log_ratio + first / 2 + second / 12 - fourth / 120) / theta;
        sums.logarithm += groups * (span * std::log(s + from * theta) + v * log_ratio - span - log_ratio / 2 -
                                    first / 12 + third / 360);
        sums.inverse += groups * inverse;
        sums.square += groups * (first + second / 2 + third / 6) / (theta * theta);
        sums.slope += groups * (span - s * inverse) / theta;
    }

    double total_ = 0;
    double pairs_ = 0;
    std::array<double, singly> above_{};  ///< above_[j]: groups with a count above j
    std::map<double, double> large_;      ///< counts above `singly` and how many groups have them
};

struct Tallies {
    Histogram live;
    Histogram dead;
    Histogram grafted;
};

/// The mean of greatest likelihood for a given theta > 0. The likelihood is concave in the mean: Newton from `mean`,
/// halving where it would leave what is known to hold the answer.
double best_mean(const Tallies& tallies, double theta, double mean) {
    double low = 0;
    double high = 1;
    for (int round = 0; round < 200; ++round) {
        const Sums live = tallies.live.sums(mean, theta);
        const Sums dead = tallies.dead.sums(1 - mean, theta);
        const double rise = live.inverse - dead.inverse;
        if (rise == 0) break;
        (rise > 0 ? low : high) = mean;
        // Times mean (1 - mean), which makes the rise nearly straight.
        const double width = mean * (1 - mean);
        const double bend = -(live.square + dead.square) * width + rise * (1 - 2 * mean);
        double next = mean - rise * width / bend;
        if (!(bend < 0 && next > low && next < high)) next = low + (high - low) / 2;
        const double moved = std::abs(next - mean);
        mean = next;
        if (moved <= 4 * std::numeric_limits<double>::epsilon() * mean) break;
    }
    return mean;
}

/// A point on the ridge: theta, its best mean, the logarithm of the likelihood and its slope in theta there.
struct Point {
    double theta = 0;
    double mean = 0;
    double likelihood = 0;
    double slope = 0;
};

Point chance_alone(const Tallies& tallies) {
    const double live = tallies.live.total();
    const double dead = tallies.dead.total();
    const double mean = live / (live + dead);
    return {0, mean, live * std::log(mean) + dead * std::log1p(-mean),
            tallies.live.pairs() / mean + tallies.dead.pairs() / (1 - mean) - tallies.grafted.pairs()};
}

Point point(const Tallies& tallies, double theta, double start) {
    if (theta == 0) return chance_alone(tallies);
    const double mean = best_mean(tallies, theta, start);
    const Sums live = tallies.live.sums(mean, theta);
    const Sums dead = tallies.dead.sums(1 - mean, theta);
    const Sums grafted = tallies.grafted.sums(1, theta);
    return {theta, mean, live.logarithm + dead.logarithm - grafted.logarithm, live.slope + dead.slope - grafted.slope};
}

/// The top between two points, the likelihood rising at the first and falling at the second.
Spread top_between(const Tallies& tallies, const Point& rising, const Point& falling) {
    double mean = falling.mean;
    const auto slope = [&](double theta) {
        const Point at = point(tallies, theta, mean);
        mean = at.mean;
        return at.slope;
    };
    std::uintmax_t rounds = 100;
    const auto [low, high] =
        boost::math::tools::toms748_solve(slope, rising.theta, falling.theta, rising.slope, falling.slope,
                                          boost::math::tools::eps_tolerance<double>(46), rounds);
    const double theta = low + (high - low) / 2;
    return {point(tallies, theta, mean).mean, theta};
}

}  // namespace

double Spread::rho() const { return std::isinf(theta) ? 1 : theta / (1 + theta); }

double Spread::steadied(const Count& group) const {
    if (std::isinf(theta)) return group.live / group.grafted;
    return (group.live * theta + mean) / (group.grafted * theta + 1);
}

Spread beta_binomial_fit(const std::vector<Count>& groups) {
    Tallies tallies;
    double most = 1;
    for (const auto& [live, grafted] : groups) {
        tallies.live.add(live);
        tallies.dead.add(grafted - live);
        tallies.grafted.add(grafted);
        most = std::max(most, grafted);
    }
    if (tallies.dead.total() == 0) return {1, 0};
    if (tallies.live.total() == 0) return {0, 0};

    // The likelihood may have more than one top (a group of a thousand beside many of two), so theta is first walked
    // over all its scales: from so little that no group shows it to so much that all are all or none.
    constexpr double stride = 4;
    constexpr double last = 1e6;
    std::vector<Point> walk{chance_alone(tallies)};
    for (double theta = 1e-3 / most; theta < last; theta *= stride) {
        walk.push_back(point(tallies, theta, walk.back().mean));
    }
    const double noise = 1e-12 + 1e-13 * std::abs(walk.front().likelihood);
    std::size_t best = 0;
    for (std::size_t at = 1; at < walk.size(); ++at) {
        if (walk[at].likelihood > walk[best].likelihood + noise) best = at;
    }
    const Point& top = walk[best];
    if (top.slope > 0) {
        if (best + 1 == walk.size()) return {top.mean, std::numeric_limits<double>::infinity()};
        if (walk[best + 1].slope < 0) return top_between(tallies, top, walk[best + 1]);
    } else if (best > 0 && walk[best - 1].slope > 0) {
        return top_between(tallies, walk[best - 1], top);
    }
    return {top.mean, top.theta};
}

}  // namespace slipbark::take

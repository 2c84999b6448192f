#include "statistics/beta_binomial.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace slipbark::statistics {

namespace {

/// Sums over j from 0 to m - 1 of functions of s + j theta, added up over all groups' counts m.
struct Inverses {
    double inverse = 0;  ///< 1 / (s + j theta)
    double square = 0;   ///< 1 / (s + j theta)^2
};
struct Heights {
    double logarithm = 0;  ///< log(s + j theta)
    double slope = 0;      ///< j / (s + j theta)
};

/// The counts of one kind (live, dead or grafted) of all groups. The likelihood needs them only as a histogram, and
/// only through the sums above: term by term for the first few j, and by the Euler-Maclaurin formula for the many of a
/// large count. Written so, nothing cancels as theta goes to 0, where the usual log-gamma differences lose all their
/// digits.
class Histogram {
  public:
    explicit Histogram(std::vector<double> counts) {
        std::sort(counts.begin(), counts.end());
        for (const double count : counts) {
            total_ += count;
            pairs_ += count * (count - 1) / 2;
            if (count != std::round(count)) {
                if (broken_.empty() || broken_.back().count != count) broken_.push_back({count, 0});
                broken_.back().groups += 1;
                continue;
            }
            const double direct = std::min(count, static_cast<double>(singly));
            for (std::size_t j = 0; static_cast<double>(j) < direct; ++j) above_[j] += 1;
            if (count <= static_cast<double>(singly)) continue;
            if (large_.empty() || large_.back().count != count) large_.push_back({count, 0});
            large_.back().groups += 1;
        }
    }

    [[nodiscard]] double total() const { return total_; }
    /// Sum of count (count - 1) / 2.
    [[nodiscard]] double pairs() const { return pairs_; }

    [[nodiscard]] Inverses inverses(double s, double theta) const {
        Inverses sums;
        for (std::size_t j = 0; j < singly && above_[j] > 0; ++j) {
            const double value = s + static_cast<double>(j) * theta;
            sums.inverse += above_[j] / value;
            sums.square += above_[j] / (value * value);
        }
        for (const Large& large : large_) {
            const Rest rest(s, theta, large.count);
            sums.inverse += large.groups * rest.inverse();
            sums.square += large.groups * rest.square();
        }
        for (const Large& broken : broken_) {
            for (std::size_t j = 0; j < shift; ++j) {
                const double lower = s + static_cast<double>(j) * theta;
                const double upper = lower + broken.count * theta;
                sums.inverse += broken.groups * (1 / lower - 1 / upper);
                sums.square += broken.groups * (1 / (lower * lower) - 1 / (upper * upper));
            }
            const Rest rest = shifted(s, theta, broken.count);
            sums.inverse += broken.groups * rest.inverse();
            sums.square += broken.groups * rest.square();
        }
        return sums;
    }

    [[nodiscard]] Heights heights(double s, double theta) const {
        Heights sums;
        for (std::size_t j = 0; j < singly && above_[j] > 0; ++j) {
            const auto place = static_cast<double>(j);
            const double value = s + place * theta;
            sums.logarithm += above_[j] * std::log(value);
            sums.slope += above_[j] * place / value;
        }
        for (const Large& large : large_) {
            const Rest rest(s, theta, large.count);
            sums.logarithm += large.groups * rest.logarithm();
            sums.slope += large.groups * rest.slope();
        }
        for (const Large& broken : broken_) {
            for (std::size_t j = 0; j < shift; ++j) {
                const auto place = static_cast<double>(j);
                const double lower = s + place * theta;
                const double upper = lower + broken.count * theta;
                sums.logarithm -= broken.groups * std::log1p(broken.count * theta / lower);
                sums.slope += broken.groups * (place / lower - (place + broken.count) / upper);
            }
            const Rest rest = shifted(s, theta, broken.count);
            sums.logarithm += broken.groups * rest.logarithm();
            sums.slope += broken.groups * rest.slope();
        }
        return sums;
    }

  private:
    static constexpr std::size_t singly = 64;

    struct Large {
        double count;
        double groups;
    };

    /// The terms of one count from j = singly on, theta > 0. In u = s / theta + j the functions are log u and its
    /// derivatives; the sums are the integral, half the difference of the ends, and two terms with derivatives there.
    class Rest {
      public:
        Rest(double s, double theta, double count) : Rest(s, theta, static_cast<double>(singly), count) {}
        /// From j = first to j = last - 1; of parts, the same functions go on between whole numbers.
        Rest(double s, double theta, double first, double last)
            : s_(s),
              theta_(theta),
              span_(last - first),
              u_(s / theta + first),
              v_(u_ + span_),
              log_ratio_(std::log1p(span_ / u_)),
              first_(span_ / (u_ * v_)),
              sum_((u_ + v_) / (u_ * v_)) {}

        [[nodiscard]] double inverse() const {
            const double second = first_ * sum_;
            return (log_ratio_ + first_ / 2 + second / 12 - second * (sum_ * sum_ - 2 / (u_ * v_)) / 120) / theta_;
        }
        [[nodiscard]] double square() const { return (first_ + first_ * sum_ / 2 + third() / 6) / (theta_ * theta_); }
        [[nodiscard]] double logarithm() const {
            return span_ * std::log(theta_ * u_) + v_ * log_ratio_ - span_ - log_ratio_ / 2 - first_ / 12 +
                   third() / 360;
        }
        [[nodiscard]] double slope() const { return (span_ - s_ * inverse()) / theta_; }

      private:
        [[nodiscard]] double third() const { return first_ * (sum_ * sum_ - 1 / (u_ * v_)); }

        double s_;
        double theta_;
        double span_;
        double u_;
        double v_;
        double log_ratio_;  ///< log v - log u
        double first_;      ///< 1 / u - 1 / v
        double sum_;        ///< 1 / u + 1 / v
    };

    /// A count that is not whole stands for a ratio of gamma functions. Both are moved up by `shift`, where the formula
    /// for large ones holds, and what that brings in is taken away term by term.
    static constexpr std::size_t shift = 24;
    static Rest shifted(double s, double theta, double count) {
        const auto first = static_cast<double>(shift);
        return {s, theta, first, first + count};
    }

    double total_ = 0;
    double pairs_ = 0;
    std::array<double, singly> above_{};  ///< above_[j]: groups with a count above j
    std::vector<Large> large_;            ///< counts above `singly`, rising
    std::vector<Large> broken_;           ///< counts that are not whole, rising
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
        const Inverses live = tallies.live.inverses(mean, theta);
        const Inverses dead = tallies.dead.inverses(1 - mean, theta);
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
        // Newton doubles the right digits each time, so the next one would be right to the last.
        if (moved <= 1e-9 * mean) break;
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
    const Heights live = tallies.live.heights(mean, theta);
    const Heights dead = tallies.dead.heights(1 - mean, theta);
    const Heights grafted = tallies.grafted.heights(1, theta);
    return {theta, mean, live.logarithm + dead.logarithm - grafted.logarithm, live.slope + dead.slope - grafted.slope};
}

/// The top between two points, the likelihood rising at the first and falling at the second.
BetaBinomial top_between(const Tallies& tallies, const Point& rising, const Point& falling) {
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

double BetaBinomial::rho() const { return std::isinf(theta) ? 1 : theta / (1 + theta); }

double BetaBinomial::shrink_to_mean(const Count& group) const {
    if (std::isinf(theta)) return group.live / group.grafted;
    return (group.live * theta + mean) / (group.grafted * theta + 1);
}

BetaBinomial beta_binomial_fit(const std::vector<Count>& groups) {
    std::vector<double> alive;
    std::vector<double> lost;
    std::vector<double> placed;
    for (const auto& [live, grafted] : groups) {
        alive.push_back(live);
        lost.push_back(grafted - live);
        placed.push_back(grafted);
    }
    const double most = *std::max_element(placed.begin(), placed.end());
    const Tallies tallies{Histogram(std::move(alive)), Histogram(std::move(lost)), Histogram(std::move(placed))};
    if (tallies.dead.total() == 0) return {1, 0};
    if (tallies.live.total() == 0) return {0, 0};

    // The likelihood may have more than one top (a group of a thousand beside many of two), so theta is first walked
    // over all its scales: from so little that no group shows it to so much that all are all or none.
    constexpr double stride = 8;
    constexpr double last = 1e6;
    std::vector<Point> walk{chance_alone(tallies)};
    double theta = 1e-3 / most;
    while (theta < last) {
        walk.push_back(point(tallies, theta, walk.back().mean));
        theta *= stride;
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

}  // namespace slipbark::statistics

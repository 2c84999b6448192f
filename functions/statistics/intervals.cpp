#include "statistics/intervals.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "statistics/beta_quantile.hpp"

namespace slipbark::statistics {

double tail_of(double confidence) { return (1 - confidence) / 2; }

double normal_deviate(double confidence) {
    return boost::math::quantile(boost::math::complement(boost::math::normal(), tail_of(confidence)));
}

double student_deviate(double confidence, double degrees) {
    return boost::math::quantile(boost::math::complement(boost::math::students_t(degrees), tail_of(confidence)));
}

// The low limit is written so that it keeps its digits near 0; the high one is that of the dead.
ConfidenceInterval wilson(double share, double trials, double deviate) {
    const double spread = deviate * deviate / trials;
    const double root = std::sqrt(spread * share * (1 - share) + spread * spread / 4);
    const double low = share == 0 ? 0 : share * share / (share + spread / 2 + root);
    const double high = share == 1 ? 1 : (share + spread / 2 + root) / (1 + spread);
    return {std::min(low, share), std::max(high, share)};
}

// The beta distribution of the dead is that of the live seen from the other end, so a high limit is what the low limit
// of the dead leaves, and keeps its digits when told by its log odds.
double exact(const Count& count, double tail, Side side) {
    const double dead = count.grafted - count.live;
    if (side == Side::low) {
        return count.live == 0 ? 0 : 1 / (1 + std::exp(-beta_quantile_log_odds(count.live, dead + 1, tail)));
    }
    return dead == 0 ? 1 : 1 / (1 + std::exp(beta_quantile_log_odds(dead, count.live + 1, tail)));
}

double jeffreys(const Count& count, double tail, Side side) {
    const double live = count.live + 0.5;
    const double dead = count.grafted - count.live + 0.5;
    if (count.live == 0 && side == Side::low) return 0;
    if (count.live == count.grafted && side == Side::high) return 1;
    const double limit = side == Side::low ? 1 / (1 + std::exp(-beta_quantile_log_odds(live, dead, tail)))
                                           : 1 / (1 + std::exp(beta_quantile_log_odds(dead, live, tail)));
    // Both limits of a confidence near 0 are near the median, and must not cross there in their last digits.
    constexpr double near_half = 0.4999;
    if (tail < near_half) return limit;
    const double median = 1 / (1 + std::exp(-beta_quantile_log_odds(live, dead, 0.5)));
    return side == Side::low ? std::min(limit, median) : std::max(limit, median);
}

ConfidenceInterval agresti_coull(const Count& count, double deviate) {
    const double trials = count.grafted + deviate * deviate;
    const double share = (count.live + deviate * deviate / 2) / trials;
    const double half = deviate * std::sqrt(share * (1 - share) / trials);
    return {std::max(0.0, share - half), std::min(1.0, share + half)};
}

ConfidenceInterval newcombe(double share_a, const ConfidenceInterval& a, double share_b, const ConfidenceInterval& b) {
    const double difference = share_a - share_b;
    return {std::max(-1.0, difference - std::hypot(share_a - a.low, b.high - share_b)),
            std::min(1.0, difference + std::hypot(a.high - share_a, share_b - b.low))};
}

}  // namespace slipbark::statistics

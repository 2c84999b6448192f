#include "statistics/intervals.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>

namespace slipbark::statistics {

namespace {

/// Boost.Math otherwise works in long double, which costs several times as much, for digits that no cell shows.
constexpr boost::math::policies::policy<boost::math::policies::promote_double<false>> in_double;

}  // namespace

double tail_of(double confidence) { return (1 - confidence) / 2; }

double normal_deviate(double confidence) {
    return boost::math::quantile(boost::math::complement(boost::math::normal(), tail_of(confidence)));
}

double student_deviate(double confidence, double degrees) {
    return boost::math::quantile(boost::math::complement(boost::math::students_t(degrees), tail_of(confidence)));
}

// The low limit is written so that it keeps its digits near 0; the high one is that of the dead.
Limits wilson(double share, double trials, double deviate) {
    const double spread = deviate * deviate / trials;
    const double root = std::sqrt(spread * share * (1 - share) + spread * spread / 4);
    const double low = share == 0 ? 0 : share * share / (share + spread / 2 + root);
    const double high = share == 1 ? 1 : (share + spread / 2 + root) / (1 + spread);
    return {std::min(low, share), std::max(high, share)};
}

// Where none or all live the beta quantile is a plain power.
Limits exact(const Count& count, double tail) {
    const auto& [live, grafted] = count;
    const double dead = grafted - live;
    if (live == 0) return {0, -std::expm1(std::log(tail) / grafted)};
    if (dead == 0) return {std::exp(std::log(tail) / grafted), 1};
    return {boost::math::ibeta_inv(live, dead + 1, tail, in_double),
            boost::math::ibetac_inv(live + 1, dead, tail, in_double)};
}

Limits jeffreys(const Count& count, double tail) {
    const double live = count.live + 0.5;
    const double dead = count.grafted - count.live + 0.5;
    return {count.live == 0 ? 0 : boost::math::ibeta_inv(live, dead, tail, in_double),
            count.live == count.grafted ? 1 : boost::math::ibetac_inv(live, dead, tail, in_double)};
}

Limits agresti_coull(const Count& count, double deviate) {
    const double trials = count.grafted + deviate * deviate;
    const double share = (count.live + deviate * deviate / 2) / trials;
    const double half = deviate * std::sqrt(share * (1 - share) / trials);
    return {std::max(0.0, share - half), std::min(1.0, share + half)};
}

Limits newcombe(double share_a, const Limits& a, double share_b, const Limits& b) {
    const double difference = share_a - share_b;
    return {std::max(-1.0, difference - std::hypot(share_a - a.low, b.high - share_b)),
            std::min(1.0, difference + std::hypot(a.high - share_a, share_b - b.low))};
}

}  // namespace slipbark::statistics

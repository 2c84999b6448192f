// The quantile of the beta distribution against Boost.Math's in long double.

#include "statistics/beta_quantile.hpp"

#include <gtest/gtest.h>

#include <boost/math/special_functions/beta.hpp>
#include <cmath>

namespace slipbark::statistics {
namespace {

/// By Boost.Math's distribution function at what was found, so that its own inverse's digits do not count: how far x
/// (or 1 - x, where that is smaller) is out, in parts of itself.
double relative_error(double a, double b, double tail) {
    const long double t = beta_quantile_log_odds(a, b, tail);
    const long double x = 1 / (1 + std::exp(-t));
    const long double y = 1 / (1 + std::exp(t));
    const long double below =
        t < 0 ? boost::math::ibeta<long double>(a, b, x) : boost::math::ibetac<long double>(b, a, y);
    const long double density = t < 0 ? boost::math::ibeta_derivative<long double>(a, b, x)
                                      : boost::math::ibeta_derivative<long double>(b, a, y);
    return static_cast<double>(std::abs((below - tail) / density / std::min(x, y)));
}

TEST(BetaQuantile, HasItsProbabilityBelowIt) {
    constexpr double digits = 1e-12;
    for (const double grafted : {1., 2., 3., 7., 20., 64., 250., 1000., 30'000., 1e6, 1e7}) {
        for (const double part : {0., 0.001, 0.02, 0.1, 0.3, 0.5, 0.7, 0.95, 0.999, 1.}) {
            const double live = std::round(part * grafted);
            for (const double tail : {0.5, 0.499, 0.25, 0.05, 0.025, 0.005, 5e-7, 5e-12, 6e-17}) {
                const double dead = grafted - live;
                EXPECT_LT(relative_error(live + 0.5, dead + 0.5, tail), digits) << live << " " << dead << " " << tail;
                if (live == 0) continue;
                EXPECT_LT(relative_error(live, dead + 1, tail), digits) << live << " " << dead << " " << tail;
            }
        }
    }
}

}  // namespace
}  // namespace slipbark::statistics

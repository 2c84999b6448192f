#include "statistics/binomial.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <limits>

namespace slipbark::statistics {

namespace {

/// Where the normal distribution puts the least n; a start for the search.
std::int64_t normal_guess(double wanted, double success, double confidence, std::int64_t most) {
    const boost::math::normal normal;
    const double z = confidence <= 0.5 ? boost::math::quantile(normal, confidence)
                                       : boost::math::quantile(boost::math::complement(normal, 1 - confidence));
    const double spread = z * std::sqrt(1 - success);
    const double root = (spread + std::sqrt(spread * spread + 4 * (wanted - 0.5))) / 2;
    const double guess = root * root / success;
    return static_cast<std::int64_t>(std::clamp(std::ceil(guess), wanted, static_cast<double>(most)));
}

/// The step from n to where the logarithm of the smaller side would meet the confidence (Newton).
double newton_step(std::int64_t n, double success, std::int64_t wanted, const Chance& found, double confidence) {
    const auto a = static_cast<double>(wanted);
    const auto b = static_cast<double>(n - wanted + 1);
    // P(X >= wanted) of n + 1 trials less that of n: the last trial succeeds and just one more was wanted.
    const double slope = boost::math::ibeta_derivative(a, b, success) * success * (1 - success) / b;
    if (confidence <= 0.5) return std::log(confidence / found.enough) * found.enough / slope;
    return std::log(found.too_few / (1 - confidence)) * found.too_few / slope;
}

}  // namespace

bool reaches(const Chance& found, double confidence) {
    constexpr double slack = 1e-13;
    if (confidence <= 0.5) return found.enough >= confidence * (1 - slack);
    return found.too_few <= (1 - confidence) * (1 + slack) + std::numeric_limits<double>::epsilon() / 2;
}

Chance binomial(std::int64_t trials, double success, std::int64_t wanted) {
    if (wanted <= 0) return {1, 0};
    if (wanted > trials) return {0, 1};
    const auto a = static_cast<double>(wanted);
    const auto b = static_cast<double>(trials - wanted + 1);
    return {boost::math::ibeta(a, b, success), boost::math::ibetac(a, b, success)};
}

std::optional<std::int64_t> fewest_trials(std::int64_t wanted, double success, double confidence, std::int64_t most) {
    // Between these two the answer lies: `too_few` does not reach the confidence, `enough` does (or is past the limit).
    std::int64_t too_few = wanted - 1;
    std::int64_t enough = most + 1;
    std::int64_t n = normal_guess(static_cast<double>(wanted), success, confidence, most);
    for (int round = 0;; ++round) {
        const Chance found = binomial(n, success, wanted);
        (reaches(found, confidence) ? enough : too_few) = n;
        if (enough - too_few == 1) break;
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        const double next = std::ceil(static_cast<double>(n) + newton_step(n, success, wanted, found, confidence));
        // Far out the step may be endless, and a search that does not settle is halved instead.
        n = !std::isfinite(next) || round > 16
                ? middle
                : static_cast<std::int64_t>(
                      std::clamp(next, static_cast<double>(too_few + 1), static_cast<double>(enough - 1)));
    }
    if (enough > most) return std::nullopt;
    return enough;
}

}  // namespace slipbark::statistics

#include "statistics/urn.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <utility>

namespace slipbark::statistics {

namespace {

/// Neighbouring terms have the ratio
///     pmf(j + 1) / pmf(j) = (n - j) / (j + 1) * (p + j theta) / (q + (n - j - 1) theta).
/// It holds for every theta from 0 (binomial) on and for p = 0 and 1, where alpha and beta would be infinite or 0. The
/// terms are handed to `use` in units of one near the mean and are to be divided by their total, which is returned, so
/// nothing is subtracted.
template <class Use>
double for_each_term(std::int64_t trials, double success, double theta, Use use) {
    const double failure = 1 - success;
    const auto ratio = [&](std::int64_t from) {
        const auto live = static_cast<double>(from);
        const auto dead = static_cast<double>(trials - from);
        return std::pair{dead * (success + live * theta), (live + 1) * (failure + (dead - 1) * theta)};
    };
    const auto start = static_cast<std::int64_t>(std::round(static_cast<double>(trials) * success));
    use(start, 1.0);
    double total = 1;
    double term = 1;
    for (std::int64_t live = start; live < trials && term > 0; ++live) {
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

}  // namespace

Chance urn(std::int64_t trials, double success, std::int64_t wanted, double theta) {
    if (theta == 0) return binomial(trials, success, wanted);
    if (wanted <= 0) return {1, 0};
    if (wanted > trials) return {0, 1};
    Chance sums{0, 0};
    const double total = for_each_term(trials, success, theta, [&](std::int64_t live, double term) {
        (live >= wanted ? sums.enough : sums.too_few) += term;
    });
    return {sums.enough / total, sums.too_few / total};
}

double expected_up_to(std::int64_t trials, double success, std::int64_t wanted, double theta) {
    const double all = static_cast<double>(trials) * success;
    if (wanted >= trials) return all;
    if (theta == 0) {
        // Of the X below `wanted`, E[X; X < w] = n p P(Y < w - 1) with Y of one trial less.
        return all * binomial(trials - 1, success, wanted - 1).too_few +
               static_cast<double>(wanted) * binomial(trials, success, wanted).enough;
    }
    double sum = 0;
    const double total = for_each_term(trials, success, theta, [&](std::int64_t live, double term) {
        sum += static_cast<double>(std::min(live, wanted)) * term;
    });
    return sum / total;
}

double LastWanted::growth(double n) const {
    return n * (beta_ + n - wanted_) / ((n - wanted_ + 1) * (alpha_ + beta_ + n));
}

double LastWanted::mode() const {
    return std::max(wanted_, std::floor((wanted_ - 1) * (alpha_ + beta_) / (alpha_ + 1)));
}

// By Bayes' theorem at one value x of the chance, where the theorem's three densities keep their digits:
// prior(x) binomial(w; n, x) / posterior(x), and of such counts w / n end with a success.
double LastWanted::chance(double n) const {
    using boost::math::ibeta_derivative;
    const double failed = n - wanted_;
    const double x = (alpha_ + wanted_) / (alpha_ + beta_ + n);
    return wanted_ / n / (n + 1) * ibeta_derivative(wanted_ + 1, failed + 1, x) *
           (ibeta_derivative(alpha_, beta_, x) / ibeta_derivative(alpha_ + wanted_, beta_ + failed, x));
}

}  // namespace slipbark::statistics

// Trials that share their luck: Polya's urn, whose number of successes is beta-binomial.
//
// theta = rho / (1 - rho), rho being the correlation of two trials; 0 is the binomial distribution. Of the beta
// distribution behind it alpha = success / theta, beta = (1 - success) / theta.
#pragma once

#include <cstdint>

#include "statistics/binomial.hpp"

namespace slipbark::statistics {

/// The chance that at least `wanted` of `trials` succeed.
///
/// trials    0 to 10,000: the terms are summed one by one
/// success   chance of each; 0 to 1
/// wanted    any; certain where not above 0, impossible where above `trials`
/// theta     rho / (1 - rho) of the correlation rho between two trials; 0 or more, finite
/// accuracy  relative 1E-13 of either side up to 2000 trials, against sums in 50 digits
/// source    Skellam, J. Royal Statistical Society B 10:257-261, 1948
Chance urn(std::int64_t trials, double success, std::int64_t wanted, double theta);

/// Expected number of successes, those above `wanted` not counted: E[min(X, wanted)].
///
/// parameters  as the function urn has them, but with theta = 0 trials go to 10 million
/// accuracy    that of the chances
/// source      definition
double expected_up_to(std::int64_t trials, double success, std::int64_t wanted, double theta);

/// The trial with which the last success wanted comes, the chance of one known only from a count: N with
///     P(N = n) = C(n - 1, w - 1) B(alpha + w, beta + n - w) / B(alpha, beta)
/// (beta negative binomial), alpha and beta being the count's successes and failures + 1/2 (Jeffreys' prior).
/// P(N <= n) is the chance that n trials are enough.
///
/// source  Johnson, Kemp & Kotz, Univariate Discrete Distributions, 3rd ed. 2005, section 6.2.3 (from memory)
class LastWanted {
  public:
    LastWanted(double wanted, double succeeded, double failed)
        : wanted_(wanted), alpha_(succeeded + 0.5), beta_(failed + 0.5) {}

    /// P(N = n + 1) / P(N = n).
    [[nodiscard]] double growth(double n) const;

    /// The likeliest n.
    [[nodiscard]] double mode() const;

    /// P(N = n).
    [[nodiscard]] double chance(double n) const;

  private:
    double wanted_;
    double alpha_;
    double beta_;
};

}  // namespace slipbark::statistics

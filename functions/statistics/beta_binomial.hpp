// How far the groups of a tally differ by more than chance: the beta-binomial fitted by maximum likelihood.
#pragma once

#include <vector>

#include "statistics/count.hpp"

namespace slipbark::statistics {

/// Takes of groups scattered about a mean; theta = rho / (1 - rho) is 0 where they differ by chance alone and infinite
/// where every group takes wholly or not at all. alpha = mean / theta, beta = (1 - mean) / theta.
struct BetaBinomial {
    double mean = 0;
    double theta = 0;

    /// The correlation between two grafts of a group, 1 / (alpha + beta + 1).
    [[nodiscard]] double rho() const;

    /// The take of a group drawn towards the mean, the more the fewer its grafts: (live + alpha) / (grafted + alpha +
    /// beta), the mean of the group's take once its tally is known.
    [[nodiscard]] double shrink_to_mean(const Count& group) const;
};

/// The beta-binomial of greatest likelihood.
///
/// groups   tallies with grafted > 0, whole or not; not empty
/// returns  mean and theta; theta is 0 where no spread makes the tallies more likely than chance alone does, so also
///          for a single group and where all or none live
/// accuracy relative 1E-9 of mean and theta where the tallies are whole, 1E-7 where they are not
/// source   Skellam, J. Royal Statistical Society B 10:257-261, 1948; Griffiths, Biometrics 29:637-648, 1973
BetaBinomial beta_binomial_fit(const std::vector<Count>& groups);

}  // namespace slipbark::statistics

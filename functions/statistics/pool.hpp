// Shares of groups that draw each other towards their mean, with limits that know how little is known of it.
#pragma once

#include <vector>

#include "statistics/count.hpp"
#include "statistics/intervals.hpp"

namespace slipbark::statistics {

struct PooledShare {
    double mean = 0;
    ConfidenceInterval limits{};
};

/// Bayes' theorem for groups whose shares are Beta(alpha, beta), alpha = mean (1 - rho) / rho and beta = (1 - mean)
/// (1 - rho) / rho. The mean and the square root of rho are uniform on 0 to 1 beforehand.
///
/// groups      tallies with grafted > 0, whole or not; not empty, at most a few thousand
/// confidence  of the equal-tailed limits
/// returns     the share of each group, and last that of a group of which nothing is known yet
/// accuracy    1E-4
/// source      hierarchical beta-binomial: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 5.3 (from
///             memory), with a prior that is proper for two groups; Gauss-Legendre sums over both unknowns
std::vector<PooledShare> pooled_shares(const std::vector<Count>& groups, double confidence);

}  // namespace slipbark::statistics

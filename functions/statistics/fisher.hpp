// Whether two shares differ: the probability of a difference as large as the one seen, or larger, were they the same.
#pragma once

#include "statistics/count.hpp"

namespace slipbark::statistics {

/// The two-sided p of Fisher's exact test: that of the tables with the same margins that are no more probable than the
/// observed one (to a part in 10 million).
///
/// a, b      tallies with grafted > 0
/// returns   p; 0 where it is below 1E-280
/// accuracy  relative 1E-12
/// source    Fisher's exact test, two-sided as in Fagerland, Lydersen & Laake, Statistical Analysis of Contingency
///           Tables, 2017
double fisher_exact(const Count& a, const Count& b);

/// The p of Pearson's chi-square (without continuity correction) divided by a design effect.
///
/// returns  p; 1 where all or none live in both
/// source   Rao & Scott, J. American Statistical Association 76:221-230, 1981, first-order correction
double rao_scott(const Count& a, const Count& b, double design_effect);

}  // namespace slipbark::statistics

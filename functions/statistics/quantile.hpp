// Quantiles of a sample.
#pragma once

#include <span>

namespace slipbark::statistics {

/// The value that a share `part` of the sample stays below, linear between order statistics.
///
/// values   not empty, all finite; left in another order
/// part     from 0 to 1
/// returns  between the (1 + part (n - 1))-th smallest
/// source   Hyndman & Fan, American Statistician 50:361-365, 1996, type 7
double quantile(std::span<double> values, double part);

/// The value that the next one of the same kind stays below with a chance of `part`.
///
/// With h = (n + 1) part it is the h-th smallest of n, linear between neighbours. Of fewer values that cannot be said
/// without saying how they are scattered: where h is outside 1 to n it is that of the normal distribution, mean + t s
/// sqrt(1 + 1 / n), but not inside the least and the greatest value; where part is 0 or 1 it is these two.
///
/// values   at least two, all finite; left in another order
/// part     from 0 to 1
/// source   Hyndman & Fan, American Statistician 50:361-365, 1996, type 6; prediction interval of the normal
///          distribution
double next_value_bound(std::span<double> values, double part);

}  // namespace slipbark::statistics

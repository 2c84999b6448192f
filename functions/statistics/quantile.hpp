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

}  // namespace slipbark::statistics

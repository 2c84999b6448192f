// Quantiles of the beta distribution, quickly: a cell asks for one of them.
#pragma once

namespace slipbark::statistics {

/// The logarithm of the odds x / (1 - x) below which Beta(a, b) lies with the probability `tail`. As odds, because x
/// and 1 - x both keep all their digits: x = 1 / (1 + exp(-result)), 1 - x = 1 / (1 + exp(result)).
///
/// a, b      at least 1/2, at most 1E9
/// tail      above 0, at most 1/2; for the other tail exchange a and b and take the negative
/// accuracy  relative 1E-12 of x and of 1 - x
/// source    start: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.6.15 (Wilson & Hilferty's cube root);
///           distribution: DiDonato & Morris, ACM Transactions on Mathematical Software 18:360-373, 1992, equation 9;
///           search: Taylor series of the inverse, Hill & Davis, Annals of Mathematical Statistics 39:1264-1273, 1968
double beta_quantile_log_odds(double a, double b, double tail);

}  // namespace slipbark::statistics

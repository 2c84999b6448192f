// Logistic regression of counts on factors, with standard errors that allow for more scatter than chance.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>
#include <vector>

#include "statistics/count.hpp"

namespace slipbark::statistics {

struct LogisticFit {
    std::vector<double> coefficients;     ///< change of the log odds for one more of each column
    std::vector<double> standard_errors;  ///< of the coefficients
    double dispersion = 1;                ///< Pearson's X^2 over its degrees of freedom, at least 1
    double degrees = 0;                   ///< rows less columns
};

/// The column of `design` that those before it make, up to rounding: its residual on them is below 1E-9 of its length.
std::optional<std::size_t> dependent_column(const Eigen::MatrixXd& design);

/// The log odds of greatest likelihood, by iteratively reweighted least squares.
///
/// The variance of each coefficient is the larger of dispersion x inverse information and of the robust one, which is also
/// right where the scatter differs from row to row: HC1, rows / (rows - columns) x the sandwich of the squared
/// residuals. With as many rows as columns the dispersion is 1 and the inverse information is used alone.
///
/// counts   one a row, grafted > 0
/// design   one row each, columns independent, the first all 1
/// returns  nothing where no finite maximum exists: all or none alive, or log odds beyond 20 somewhere
/// accuracy relative 1E-8 of the coefficients
/// source   McCullagh & Nelder, Generalized Linear Models, 2nd ed. 1989, chapter 4; MacKinnon & White, J. Econometrics
///          29:305-325, 1985, HC1 (from memory)
std::optional<LogisticFit> logistic_fit(std::span<const Count> counts, const Eigen::MatrixXd& design);

}  // namespace slipbark::statistics

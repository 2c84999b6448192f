#include "statistics/logistic.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <limits>

namespace slipbark::statistics {

namespace {

using Eigen::ArrayXd;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Beyond it live or dead ones are hardly a thing of chance any more.
constexpr double largest_log_odds = 20;

double log_likelihood(const ArrayXd& live, const ArrayXd& grafted, const ArrayXd& log_odds) {
    // ln(1 + e^x) without overflow
    const ArrayXd softplus = log_odds.max(0.0) + (-log_odds.abs()).exp().log1p();
    return (live * log_odds - grafted * softplus).sum();
}

ArrayXd chances(const ArrayXd& log_odds) { return 1 / (1 + (-log_odds).exp()); }

}  // namespace

std::optional<std::size_t> dependent_column(const MatrixXd& design) {
    constexpr double negligible = 1e-9;
    MatrixXd basis(design.rows(), 0);
    for (Index column = 0; column < design.cols(); ++column) {
        VectorXd rest = design.col(column);
        const double length = rest.norm();
        // Twice is enough: what rounding left after the first is gone after the second.
        for (int round = 0; round < 2; ++round) rest -= basis * (basis.transpose() * rest);
        if (!(rest.norm() > negligible * length)) return static_cast<std::size_t>(column);
        basis.conservativeResize(Eigen::NoChange, column + 1);
        basis.col(column) = rest.normalized();
    }
    return std::nullopt;
}

std::optional<LogisticFit> logistic_fit(std::span<const Count> counts, const MatrixXd& design) {
    const Index rows = design.rows();
    const Index columns = design.cols();
    ArrayXd live(rows);
    ArrayXd grafted(rows);
    for (Index row = 0; row < rows; ++row) {
        live[row] = counts[static_cast<std::size_t>(row)].live;
        grafted[row] = counts[static_cast<std::size_t>(row)].grafted;
    }
    if (live.sum() == 0 || live.sum() == grafted.sum()) return std::nullopt;

    // In the orthonormal basis of the columns; a column of dates is nearly parallel to the first.
    const Eigen::HouseholderQR<MatrixXd> qr(design);
    const MatrixXd basis = qr.householderQ() * MatrixXd::Identity(rows, columns);
    const MatrixXd triangle = qr.matrixQR().topRows(columns).triangularView<Eigen::Upper>();

    VectorXd slopes = VectorXd::Zero(columns);
    ArrayXd log_odds = ArrayXd::Zero(rows);
    double likelihood = log_likelihood(live, grafted, log_odds);
    MatrixXd information;
    constexpr int most_rounds = 200;
    bool converged = false;
    for (int round = 0; round < most_rounds && !converged; ++round) {
        const ArrayXd chance = chances(log_odds);
        const ArrayXd weight = grafted * chance * (1 - chance);
        information = basis.transpose() * weight.matrix().asDiagonal() * basis;
        const VectorXd score = basis.transpose() * (live - grafted * chance).matrix();
        const VectorXd step = information.ldlt().solve(score);
        if (!step.allFinite()) return std::nullopt;
        double part = 1;
        constexpr double smallest_part = 1e-10;
        VectorXd next = slopes + step;
        ArrayXd next_odds = (basis * next).array();
        double next_likelihood = log_likelihood(live, grafted, next_odds);
        const double noise = 1e-14 * (1 + std::abs(likelihood));
        while (!(next_likelihood >= likelihood - noise) && part > smallest_part) {
            part /= 2;
            next = slopes + part * step;
            next_odds = (basis * next).array();
            next_likelihood = log_likelihood(live, grafted, next_odds);
        }
        // Newton doubles the right digits each time, so the next step would be nothing.
        converged = (next_odds - log_odds).abs().maxCoeff() < 1e-8;
        slopes = next;
        log_odds = next_odds;
        likelihood = next_likelihood;
        if (log_odds.abs().maxCoeff() > largest_log_odds) return std::nullopt;
    }
    if (!converged) return std::nullopt;

    const ArrayXd chance = chances(log_odds);
    const ArrayXd weight = grafted * chance * (1 - chance);
    information = basis.transpose() * weight.matrix().asDiagonal() * basis;
    const MatrixXd inverse = information.ldlt().solve(MatrixXd::Identity(columns, columns));
    const ArrayXd residual = live - grafted * chance;

    LogisticFit fit;
    fit.degrees = static_cast<double>(rows - columns);
    if (rows > columns) fit.dispersion = std::max(1.0, (residual.square() / weight).sum() / fit.degrees);
    // Back to the columns as they were given: slopes there are triangle^-1 x slopes here.
    const auto upper = triangle.triangularView<Eigen::Upper>();
    const auto as_given = [&](const MatrixXd& variance) {
        const MatrixXd half = upper.solve(variance);
        return MatrixXd(upper.solve(half.transpose()));
    };
    MatrixXd variance = fit.dispersion * as_given(inverse);
    VectorXd diagonal = variance.diagonal();
    if (rows > columns) {
        const MatrixXd meat = basis.transpose() * residual.square().matrix().asDiagonal() * basis;
        const double correction = static_cast<double>(rows) / fit.degrees;
        const MatrixXd robust = as_given(inverse * meat * inverse * correction);
        diagonal = diagonal.cwiseMax(robust.diagonal());
    }
    const VectorXd given = upper.solve(slopes);
    fit.coefficients.assign(given.begin(), given.end());
    for (const double square : diagonal) fit.standard_errors.push_back(std::sqrt(std::max(0.0, square)));
    return fit;
}

}  // namespace slipbark::statistics

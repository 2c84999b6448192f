// A second reckoning of what goes with the take, written apart from the functions: logistic regression by Newton's
// method on normal equations solved by elimination; standard errors from the larger of the quasi-binomial and the
// robust (HC1) variance, as the contract has it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace slipbark::tests::reckoned {

using Row = std::vector<double>;

inline Row solved(std::vector<Row> matrix, Row right) {
    const std::size_t n = right.size();
    for (std::size_t at = 0; at < n; ++at) {
        std::size_t best = at;
        for (std::size_t row = at; row < n; ++row)
            if (std::abs(matrix[row][at]) > std::abs(matrix[best][at])) best = row;
        std::swap(matrix[at], matrix[best]);
        std::swap(right[at], right[best]);
        for (std::size_t row = at + 1; row < n; ++row) {
            const double times = matrix[row][at] / matrix[at][at];
            for (std::size_t column = at; column < n; ++column) matrix[row][column] -= times * matrix[at][column];
            right[row] -= times * right[at];
        }
    }
    for (std::size_t at = n; at-- > 0;) {
        for (std::size_t column = at + 1; column < n; ++column) right[at] -= matrix[at][column] * right[column];
        right[at] /= matrix[at][at];
    }
    return right;
}

struct Effect {
    double log_odds;
    double standard_error;
};

/// Live and placed grafts of a tree, and what it has of each factor, 1 first.
struct Observed {
    double live;
    double placed;
    Row factors;
};

inline std::vector<Effect> effects(const std::vector<Observed>& trees) {
    const std::size_t n = trees.front().factors.size();
    Row b(n, 0);
    std::vector<Row> information;
    const auto share = [&](const Observed& tree) {
        double sum = 0;
        for (std::size_t column = 0; column < n; ++column) sum += tree.factors[column] * b[column];
        return 1 / (1 + std::exp(-sum));
    };
    for (int step = 0; step < 50; ++step) {
        information.assign(n, Row(n, 0));
        Row score(n, 0);
        for (const Observed& tree : trees) {
            const double p = share(tree);
            for (std::size_t i = 0; i < n; ++i) {
                score[i] += (tree.live - tree.placed * p) * tree.factors[i];
                for (std::size_t j = 0; j < n; ++j)
                    information[i][j] += tree.placed * p * (1 - p) * tree.factors[i] * tree.factors[j];
            }
        }
        const Row change = solved(information, score);
        for (std::size_t i = 0; i < n; ++i) b[i] += change[i];
    }
    double pearson = 0;
    for (const Observed& tree : trees) {
        const double p = share(tree);
        pearson += std::pow(tree.live - tree.placed * p, 2) / (tree.placed * p * (1 - p));
    }
    const double left = static_cast<double>(trees.size() - n);
    std::vector<Effect> found;
    for (std::size_t at = 0; at < n; ++at) {
        Row unit(n, 0);
        unit[at] = 1;
        const Row inverse = solved(information, unit);  // a column of the inverse
        double robust = 0;
        for (const Observed& tree : trees) {
            double along = 0;
            for (std::size_t column = 0; column < n; ++column) along += inverse[column] * tree.factors[column];
            robust += std::pow((tree.live - tree.placed * share(tree)) * along, 2);
        }
        robust *= static_cast<double>(trees.size()) / left;
        found.push_back({b[at], std::sqrt(std::max(std::max(1.0, pearson / left) * inverse[at], robust))});
    }
    return found;
}

/// Two-sided p of Student's t, by Simpson's rule over the tail t = tan(angle): the density becomes cos^(degrees - 1).
inline double p_of_t(double t, double degrees) {
    const double from = std::atan(std::abs(t) / std::sqrt(degrees));
    const auto area = [&](double low) {
        constexpr int steps = 20'000;
        const double width = (std::acos(0.0) - low) / steps;
        double sum = 0;
        for (int at = 0; at <= steps; ++at)
            sum += (at == 0 || at == steps ? 1
                    : at % 2 == 1          ? 4
                                           : 2) *
                   std::pow(std::cos(low + at * width), degrees - 1);
        return sum * width / 3;
    };
    return area(from) / area(0);
}

}  // namespace slipbark::tests::reckoned

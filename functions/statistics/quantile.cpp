#include "statistics/quantile.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace slipbark::statistics {

double quantile(std::span<double> values, double part) {
    const double place = part * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const auto at = values.begin() + static_cast<std::ptrdiff_t>(below);
    std::nth_element(values.begin(), at, values.end());
    if (below + 1 == values.size()) return *at;
    const double next = *std::min_element(at + 1, values.end());
    return std::lerp(*at, next, place - static_cast<double>(below));
}

}  // namespace slipbark::statistics

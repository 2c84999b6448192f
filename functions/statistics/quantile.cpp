#include "statistics/quantile.hpp"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <cstddef>
#include <numeric>

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

double next_value_bound(std::span<double> values, double part) {
    const auto [least, greatest] = std::minmax_element(values.begin(), values.end());
    const double low = *least;
    const double high = *greatest;
    if (part == 0) return low;
    if (part == 1) return high;
    const auto number = static_cast<double>(values.size());
    const double place = (number + 1) * part;
    if (place >= 1 && place <= number) return quantile(values, (place - 1) / (number - 1));
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / number;
    double squares = 0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    const double scatter = std::sqrt(squares / (number - 1) * (1 + 1 / number));
    const double bound = mean + boost::math::quantile(boost::math::students_t(number - 1), part) * scatter;
    return place < 1 ? std::min(low, bound) : std::max(high, bound);
}

}  // namespace slipbark::statistics

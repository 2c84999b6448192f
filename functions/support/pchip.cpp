#include "support/pchip.hpp"

#include <algorithm>
#include <cmath>

namespace slipbark::pchip {

namespace {

/// One interval between two points, as seen from the point where a slope is wanted.
struct Interval {
    double width;
    double secant;
};

Interval interval(std::span<const double> x, std::span<const double> y, std::size_t left) {
    const double width = x[left + 1] - x[left];
    return {width, (y[left + 1] - y[left]) / width};
}

bool same_sign(double a, double b) { return (a > 0 && b > 0) || (a < 0 && b < 0); }

/// The three-point slope at an end, `near` being the outermost interval, limited so that the curve keeps its shape.
double end_slope(Interval near, Interval next) {
    const double three_point =
        ((2 * near.width + next.width) * near.secant - near.width * next.secant) / (near.width + next.width);
    if (!same_sign(three_point, near.secant)) return 0;
    if (!same_sign(near.secant, next.secant) && std::abs(three_point) > 3 * std::abs(near.secant)) {
        return 3 * near.secant;
    }
    return three_point;
}

double inner_slope(Interval before, Interval after) {
    if (!same_sign(before.secant, after.secant)) return 0;
    const double weight_before = 2 * after.width + before.width;
    const double weight_after = after.width + 2 * before.width;
    return (weight_before + weight_after) / (weight_before / before.secant + weight_after / after.secant);
}

}  // namespace

double slope(std::span<const double> x, std::span<const double> y, std::size_t knot) {
    const std::size_t last = x.size() - 1;
    if (last == 1) return interval(x, y, 0).secant;
    if (knot == 0) return end_slope(interval(x, y, 0), interval(x, y, 1));
    if (knot == last) return end_slope(interval(x, y, last - 1), interval(x, y, last - 2));
    return inner_slope(interval(x, y, knot - 1), interval(x, y, knot));
}

double value(std::span<const double> x, std::span<const double> y, double at) {
    if (at <= x.front()) return y.front();
    if (at >= x.back()) return y.back();
    const auto right = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), at) - x.begin());
    const std::size_t left = right - 1;
    const double width = x[right] - x[left];
    const double rise = y[right] - y[left];
    const double start = width * slope(x, y, left);
    const double end = width * slope(x, y, right);
    const double t = (at - x[left]) / width;
    const double height = y[left] + t * (start + t * (3 * rise - 2 * start - end + t * (start + end - 2 * rise)));
    // The curve stays between its neighbours; the last binary digit might not.
    const auto [low, high] = std::minmax(y[left], y[right]);
    return std::clamp(height, low, high);
}

}  // namespace slipbark::pchip

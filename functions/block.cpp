#include "slipbark/block.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/checks.hpp"

namespace slipbark::block {

namespace {

constexpr double square_metres_a_hectare = 10'000;

/// 0 is told apart first: it is what a blank cell arrives as.
double grid_spacing(std::string_view argument, double value) {
    return check::number(argument, check::positive(argument, value, 100), 0.1, 100);
}

}  // namespace

double trees(double area_ha, double row_spacing_m, double tree_spacing_m) {
    const double area = check::number("area_ha", area_ha, 0, 10'000);
    const double row = grid_spacing("row_spacing_m", row_spacing_m);
    const double tree = grid_spacing("tree_spacing_m", tree_spacing_m);
    return check::rounded_down(square_metres_a_hectare * area / (row * tree));
}

double stub_grafts(double stub_diameter_cm, std::optional<double> spacing_cm, std::optional<double> most) {
    const double diameter = check::positive("stub_diameter_cm", stub_diameter_cm, 1000);
    const double spacing = check::positive("spacing_cm", spacing_cm.value_or(7.5), 1000);
    const auto limit = static_cast<double>(check::whole("most", most.value_or(4), 1, 1000));
    // A spacing next to nothing makes the quotient infinite; the limit holds it too.
    return std::clamp(std::round(std::numbers::pi * diameter / spacing), 1.0, limit);
}

}  // namespace slipbark::block

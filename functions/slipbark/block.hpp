// The block and its trees: how many stand in it, and how many grafts go round one cut limb.
#pragma once

#include <optional>

namespace slipbark::block {

/// Trees on an area planted on a rectangular grid, without headlands.
///
/// area_ha         net planted area in hectares; 0 to 10,000
/// row_spacing_m   distance between rows in metres; 0.1 to 100
/// tree_spacing_m  distance between trees in the row in metres; 0.1 to 100
/// returns         trees, whole, rounded down: 10,000 * area / (row * tree)
/// throws          bad_argument outside these ranges
/// source          a hectare is 10,000 m2; common practice
double trees(double area_ha, double row_spacing_m, double tree_spacing_m);

/// Grafts to set round one stub, by its circumference.
///
/// stub_diameter_cm  diameter of the cut face in centimetres; above 0, to 1000
/// spacing_cm        circumference left to each graft in centimetres; above 0, to 1000; 7.5 unless given
/// most              more than this are never set, however thick the stub; whole, 1 to 1000; 4 unless given
/// returns           grafts, whole: pi * diameter / spacing to the nearest, at least 1 and at most `most`
/// throws            bad_argument outside these ranges
/// source            one scion to 5 to 10 cm of circumference and 2 to 4 on a stub: common practice
double stub_grafts(double stub_diameter_cm, std::optional<double> spacing_cm = {}, std::optional<double> most = {});

}  // namespace slipbark::block

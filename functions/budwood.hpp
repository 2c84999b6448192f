// Budwood: how many sticks to order, how many grafts to place, how long the wood keeps.
#pragma once

#include <optional>

#include "values.hpp"

namespace slipbark::budwood {

/// Whole sticks of budwood to order.
///
/// Scions are cut whole: a stick yields floor(buds_per_stick / buds_per_graft) of them, whatever eyes are left over.
/// So sticks = ceil(grafts * (1 + spare) / scions per stick), which is more than eyes divided by eyes would say.
///
/// grafts          grafts to be placed; whole, 0 to 10 million
/// buds_per_graft  buds on one scion; whole, 1 to 100
/// buds_per_stick  usable buds on one stick; whole, 1 to 1000, and at least buds_per_graft
/// spare           share ordered above the need for culls and dead wood; fraction 0 to 2, 0 unless given
/// returns         sticks, whole
/// throws          bad_argument outside these ranges, or where a stick is too short for one scion
/// source          arithmetic of whole scions; common practice
double sticks(double grafts, double buds_per_graft, double buds_per_stick, std::optional<double> spare = {});

}  // namespace slipbark::budwood

// The curves that functions take as a range, by name or as built in, as points.
#pragma once

#include <optional>

#include "slipbark/values.hpp"
#include "support/columns.hpp"

namespace slipbark::curves {

inline constexpr double longest_years = 1000;
inline constexpr double highest_share = 10;  ///< a share above this is a percentage

/// Years since grafting and share of the mature yield: the range's, or defaults::yield_curve().
///
/// throws  bad_argument (curve), see <slipbark/yield.hpp>
check::Points yield_curve(const std::optional<Table>& curve);

/// Days of storage and share of buds alive: the range's, or those built in under the name in a single cell.
///
/// throws  bad_argument (storage), see <slipbark/budwood.hpp>
check::Points bud_life(const std::optional<Table>& storage);

/// Years since cutting back and share of the full canopy: the range's, whose first row is that of year 0, or
/// defaults::canopy_regrowth().
///
/// throws  bad_argument (regrowth), see <slipbark/water.hpp>
check::Points canopy(const std::optional<Table>& regrowth);

}  // namespace slipbark::curves

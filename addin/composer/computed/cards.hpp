// The cards of the worked examples.
#pragma once

#include "composer/computed.hpp"

namespace slipbark::compose {

/// Fills the sheets Overview, one for each lesson, and Series. throws std::out_of_range where one of them is missing
void compute_cards(const ComputedSheets& sheets, const std::filesystem::path& folder);

}  // namespace slipbark::compose

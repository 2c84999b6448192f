// The areas of the catalogue, one source file each. catalogue.cpp puts them together.
#pragma once

#include "catalogue/entry.hpp"

namespace slipbark::catalogue {

Area block_area();
Area budwood_area();
Area calendar_area();
Area daybook_area();
Area heat_area();
Area take_area();
Area trials_area();
Area materials_area();
Area yield_area();
Area money_area();
Area odds_area();
Area water_area();
Area sun_area();
Area support_area();

}  // namespace slipbark::catalogue

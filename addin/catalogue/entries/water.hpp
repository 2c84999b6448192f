// How the structs of slipbark/water.hpp stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/water.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<water::MonthWater> = columns(&water::MonthWater::month, &water::MonthWater::days,
                                                              &water::MonthWater::use_mm, &water::MonthWater::rain_mm,
                                                              &water::MonthWater::need_mm,
                                                              &water::MonthWater::litres_a_tree);

}  // namespace slipbark::catalogue

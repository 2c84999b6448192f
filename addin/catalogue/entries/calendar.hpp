// How the answers of calendar stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/calendar.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<calendar::StageRow> = columns(&calendar::StageRow::stage,
                                                               &calendar::StageRow::earliest,
                                                               &calendar::StageRow::target, &calendar::StageRow::latest,
                                                               &calendar::StageRow::unit, &calendar::StageRow::sign,
                                                               &calendar::StageRow::source,
                                                               &calendar::StageRow::counted_from);

}  // namespace slipbark::catalogue

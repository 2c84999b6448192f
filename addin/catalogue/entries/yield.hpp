// How the answers of yield stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/yield.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<yield::FittedRow> = columns(&yield::FittedRow::years, &yield::FittedRow::share,
                                                             &yield::FittedRow::yield, &yield::FittedRow::estimate,
                                                             &yield::FittedRow::low, &yield::FittedRow::high);

}  // namespace slipbark::catalogue

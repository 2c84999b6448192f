// How the answers of money stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/money.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<money::LowPoint> = columns(&money::LowPoint::amount, &money::LowPoint::year,
                                                            &money::LowPoint::years_back);

template <>
inline constexpr auto columns_of<money::ReworkYear> = columns(
    [](const money::ReworkYear& row) {
        return row.years_left ? Cell(static_cast<double>(*row.years_left)) : Cell(std::string("never"));
    },
    &money::ReworkYear::worth, &money::ReworkYear::annual, &money::ReworkYear::best);

}  // namespace slipbark::catalogue

// How the answers of odds stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/odds.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<odds::YearOdds> = columns(&odds::YearOdds::year, &odds::YearOdds::paid_back,
                                                           &odds::YearOdds::low, &odds::YearOdds::median,
                                                           &odds::YearOdds::high);

template <>
inline constexpr auto columns_of<odds::Swing> = columns(&odds::Swing::what, &odds::Swing::at_low, &odds::Swing::at_high,
                                                        &odds::Swing::size);

}  // namespace slipbark::catalogue

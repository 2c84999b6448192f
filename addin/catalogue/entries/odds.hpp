// How the answers of odds stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/odds.hpp"

namespace slipbark::catalogue {

/// A sixth column where a limit was given.
template <>
inline constexpr auto columns_of<std::vector<odds::YearOdds>> = [](const std::vector<odds::YearOdds>& years) {
    using odds::YearOdds;
    constexpr auto always =
        columns(&YearOdds::year, &YearOdds::paid_back, &YearOdds::low, &YearOdds::median, &YearOdds::high);
    constexpr auto limited = columns(&YearOdds::year, &YearOdds::paid_back, &YearOdds::low, &YearOdds::median,
                                     &YearOdds::high, &YearOdds::beyond_limit);
    const bool has_limit = !years.empty() && years.front().beyond_limit;
    return has_limit ? table_of_rows(years, limited) : table_of_rows(years, always);
};

template <>
inline constexpr auto columns_of<odds::Swing> = columns(&odds::Swing::what, &odds::Swing::at_low, &odds::Swing::at_high,
                                                        &odds::Swing::size);

}  // namespace slipbark::catalogue

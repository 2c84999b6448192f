// The sheets of the workbook seasons: which of a farm's blocks are reworked in which season, with one crew, so much
// wood and so much cash. One source file each, in the order in which they are filled in.
//
// What a block is worth when it is done in season s (1 the first), today and at the yearly interest r, over n years:
//
//   worth = (1+r)^-(s-1) x ( - outlay + sum over k = 1 ... n-s+1 of (gain x y(k) - lost x (1 - y(k))) / (1+r)^k )
//
// y(k) is the share of a full crop in the k-th year after grafting. Gain and loss are against leaving the block as it
// is, so a block that is not done is worth 0. All uses and the worth are sums over the cells that hold 0 or 1, which is
// what the host's solver needs.
//
// The scene is invented: farm, blocks, varieties and every figure.
#pragma once

#include <string>
#include <vector>

#include "composer/sheet.hpp"

namespace slipbark::compose::farm {

inline constexpr int block_room = 40;
inline constexpr int season_room = 8;
inline constexpr int source_room = 8;  ///< sources of wood
inline constexpr int year_room = 30;   ///< years after the first season that Years counts at most

inline constexpr int first_line = 7;  ///< of the blocks, on Blocks as on Arrange
inline constexpr int last_line = first_line + block_room - 1;

/// What may run short: days, cash, crop and the sources of wood.
inline constexpr int limit_room = 3 + source_room;
inline constexpr int days_limit = 0;
inline constexpr int cash_limit = 1;
inline constexpr int crop_limit = 2;
inline constexpr int first_source_limit = 3;

/// The column of season `which` (from 1) in a table whose first season stands in `first`.
inline std::string season_column(const char* first, int which) {
    const std::string cell = Place(Place(first, 1).column + which - 1, 1).text();
    return cell.substr(0, cell.size() - 1);
}

void blocks(Workbook& book);
void limits(Workbook& book);
void arrange(Workbook& book);
void by_year(Workbook& book);

}  // namespace slipbark::compose::farm

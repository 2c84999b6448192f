// The sheets of the block's book, one source file each, in the order of the work.
//
// The scene is invented: farm, block, varieties, people and prices.
#pragma once

#include "composer/sheet.hpp"

namespace slipbark::compose::block {

// Places that several sheets know. Ranges that formulas use have names; these are for what must be laid out alike.
inline constexpr int stage_room = 24;  ///< stages that Defaults, Crew, Calendar and the marks of what is done hold
inline constexpr int lot_room = 6;     ///< lots of budwood
inline constexpr int row_room = 200;   ///< rows of trees: one step to more is told in Notes
inline constexpr int rows_shown = 40;  ///< of these, as many as are not folded away
inline constexpr int week_shown = 30;  ///< lines of a week's list that are not folded away
inline constexpr int years = 12;       ///< years after grafting that Money counts

/// Beside the years in which the rework is paid back: how likely it is by then.
inline constexpr const char* paid_back_unit =
    R"(=IF(ISNUMBER(payback_odds);"years; odds "&ROUND(100*payback_odds;0)&" %";"years"))";

/// Beside the cost of the rework, while it cannot be had.
inline constexpr const char* prices_missing_check =
    "IF(N(prices_missing)=0;\"\";IF(prices_missing=1;\"The price of a pack is missing on sheet Orders (0 where it "
    "costs "
    "nothing).\";\"The prices of \"&prices_missing&\" packs are missing on sheet Orders (0 where one costs "
    "nothing).\"))";

void plan(Workbook& book);
void orders(Workbook& book);
void crew(Workbook& book);
void rows(Workbook& book);
void week(Workbook& book);
void calendar(Workbook& book);
void regraft(Workbook& book);
void money(Workbook& book);
void odds(Workbook& book);
void actual(Workbook& book);
void defaults_sheet(Workbook& book);
void notes(Workbook& book);

}  // namespace slipbark::compose::block

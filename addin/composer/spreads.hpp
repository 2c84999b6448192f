// How far what a plan rests on may differ from it, as lines of low, likely and high: the table that PAYBACKODDS and
// SWINGS take, with where each line comes from and a Check.
#pragma once

#include <span>

#include "composer/sheet.hpp"

namespace slipbark::compose {

struct Spread {
    const char* what;  ///< as the functions take it; they look at no other line
    Content low;
    Content likely;
    Content high;
    Content means;     ///< what it stands for
    double most = 10;  ///< as the functions take it
};

/// Writes headings into row `head` and the lines below, in columns B to I. Gives the cells of the Checks.
Area spread_lines(Sheet& sheet, int head, std::span<const Spread> spreads);

}  // namespace slipbark::compose

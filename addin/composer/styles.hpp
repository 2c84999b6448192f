// The styles of the workbooks' cells; how each looks stands in look.xml.
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "composer/chart.hpp"
#include "composer/sheet.hpp"

namespace slipbark::compose::styles {

struct Named {
    Style style;
    std::string_view word;  ///< in a sheet's text
    std::string_view name;  ///< as the user sees it in Calc's list of styles
};

std::span<const Named> styles();
const Named& of(Style style);

inline constexpr std::string_view font = "Liberation Sans";
inline constexpr std::string_view ink = "#1d2b33";
inline constexpr std::string_view soft_ink = "#52636d";

/// The row of a sheet's title, in cm.
inline constexpr double title_height = 0.95;

/// A chart's paint. Tones differ in lightness as well as in hue, lines also in their marks.
struct Paint {
    std::string_view colour;
    std::string_view symbol;
};
inline constexpr std::array<Paint, 5> paints{{
    {"#0b4f6c", "square"},    // deep blue, dark in grey
    {"#e0a030", "diamond"},   // ochre, light in grey
    {"#7fa9bd", "circle"},    // pale blue, lighter than the first
    {"#a63d00", "arrow-up"},  // burnt orange
    {"#5c6b73", "circle"},    // grey
}};

/// Title and lead in the first two lines from column B on. A title that is a formula can show the block's name.
/// The lead runs over `columns` cells.
void opening(Sheet& sheet, const Phrase& title, const Phrase& lead, int columns);

/// A section's heading over several columns, for tables.
void band(Sheet& sheet, Address first, const Phrase& text, int columns);

/// Frames the cells of a Check column, or of a part of it, that say something.
void mark_unfit(Sheet& sheet, const Area& area);

}  // namespace slipbark::compose::styles

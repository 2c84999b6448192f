// By what commands and tests know a document of ours and its cells.
#pragma once

#include <string_view>

namespace slipbark::workbooks {

/// The property of a document that holds the file name of the workbook it was made from.
inline constexpr std::string_view workbook_property = "Slipbark workbook";

/// The styles of cells by which commands know what a cell is for, as Calc's list of styles shows them.
namespace cell_style {
inline constexpr std::string_view input = "Input";          ///< typed by the user; emptied with the form
inline constexpr std::string_view kept = "Input kept";      ///< typed too, a figure of the trade that stays
inline constexpr std::string_view suggested = "Suggested";  ///< a formula that the user may type over
inline constexpr std::string_view answer = "Answer";
inline constexpr std::string_view total = "Total";
inline constexpr std::string_view check = "Check";
}  // namespace cell_style

}  // namespace slipbark::workbooks

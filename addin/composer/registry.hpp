// Which workbooks there are, for menu, package and tests. Nothing of the composer comes along.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "slipbark/message.hpp"

namespace slipbark::workbooks {

struct Listed {
    std::string_view file;  ///< name without its ending; the command that opens it is new-<file>
    Text menu_title;
    Text category;  ///< folder among the templates, which the host shows as its name
};

inline constexpr auto all = std::to_array<Listed>({
#define SLIPBARK_WORKBOOK(composer, file, menu_title, category) {file, menu_title, category},
#include "composer/registry.def"
#undef SLIPBARK_WORKBOOK
});

/// The property of a document that holds the file name of the workbook it was made from.
inline constexpr std::string_view told_by = "Slipbark workbook";

/// The styles of cells by which commands know what a cell is for, as Calc's list of styles shows them.
namespace cell_style {
inline constexpr std::string_view input = "Input";          ///< typed by the user; emptied with the form
inline constexpr std::string_view kept = "Input kept";      ///< typed too, a figure of the trade that stays
inline constexpr std::string_view suggested = "Suggested";  ///< a formula that the user may type over
inline constexpr std::string_view answer = "Answer";
inline constexpr std::string_view total = "Total";
inline constexpr std::string_view check = "Check";
}  // namespace cell_style

/// The workbook of that file name; nullptr where there is none.
constexpr const Listed* find(std::string_view file) {
    const auto* const found = std::find_if(all.begin(), all.end(), [&](const Listed& one) { return one.file == file; });
    return found == all.end() ? nullptr : found;
}

}  // namespace slipbark::workbooks

// Which workbooks there are, for menu, package and tests. Nothing of the composer comes along.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "composer/document.hpp"
#include "slipbark/message.hpp"

namespace slipbark::workbooks {

struct Listed {
    std::string_view file;  ///< name without its ending; the command that opens it is new-<file>
    Text menu_title;
    Text category;  ///< folder among the templates, which the host shows as its name
};

inline constexpr auto all = std::to_array<Listed>({
#define SLIPBARK_WORKBOOK(file, menu_title, category) {file, menu_title, category},
#include "composer/workbooks.def"
#undef SLIPBARK_WORKBOOK
});

/// The workbook of that file name; nullptr where there is none.
constexpr const Listed* find(std::string_view file) {
    const auto* const found = std::find_if(all.begin(), all.end(), [&](const Listed& one) { return one.file == file; });
    return found == all.end() ? nullptr : found;
}

}  // namespace slipbark::workbooks

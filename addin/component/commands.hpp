// The names of the menu's commands, for the menu and for what carries them out. A command is a URL: slipbark:explain,
// or slipbark:new-rework-plan for a workbook of the registry.
#pragma once

#include <array>
#include <string_view>

#include "slipbark/message.hpp"

namespace slipbark::addin {

struct Command {
    std::string_view name;
    Text title;
    bool begins_group = false;  ///< whether a line is drawn above it
};

inline constexpr Command explain_cell{"explain", translatable("Explain this cell"), true};
inline constexpr Command empty_the_form{"empty-form", translatable("Empty the form")};
inline constexpr Command copy_with_values{"copy-with-values", translatable("Save a copy with values")};
inline constexpr Command add_more_lines{"add-lines", translatable("Add lines")};
inline constexpr Command go_to_free_line{"first-free-line", translatable("First free line")};
inline constexpr Command keep_plan{"keep-plan", translatable("Keep this plan")};
inline constexpr Command hand_season{"hand-to-records", translatable("Hand the season to records")};
inline constexpr Command take_over{"take-over-plan", translatable("Take over an older plan")};
inline constexpr Command arrange_the_seasons{"arrange-seasons", translatable("Arrange the seasons")};
inline constexpr Command gather_the_workbooks{"gather", translatable("Gather workbooks"), true};
inline constexpr Command client_pages{"client-pages", translatable("Client pages")};
inline constexpr Command keep_tables{"keep-in-database", translatable("Keep in a database")};
inline constexpr Command share_desk{"share-desk", translatable("Save a copy without names")};
inline constexpr Command keep_house{"keep-house", translatable("Keep house defaults"), true};
inline constexpr Command show_house{"show-house", translatable("Show house defaults")};
inline constexpr Command save_house{"save-house", translatable("Save house defaults as a file")};
inline constexpr Command take_house{"take-house", translatable("Take house defaults from a file")};
inline constexpr Command show_guide{"guide", translatable("Function guide"), true};
inline constexpr Command tell_about{"about", translatable("About Slipbark")};

/// What stands in the menu below the workbooks, in its order.
inline constexpr std::array commands{explain_cell,     empty_the_form,       add_more_lines, go_to_free_line,
                                     keep_plan,        hand_season,          take_over,      arrange_the_seasons,
                                     copy_with_values, keep_house,           show_house,     save_house,
                                     take_house,       gather_the_workbooks, client_pages,   keep_tables,
                                     share_desk,       show_guide,           tell_about};

inline constexpr std::string_view protocol = "slipbark:";
/// What stands before a workbook's file name.
inline constexpr std::string_view new_from = "new-";

}  // namespace slipbark::addin

// What carries out a command of the menu: one function and one source file for each, and a table of them in
// commands.cpp.
#pragma once

#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <optional>
#include <string>

#include "component/convert.hpp"
#include "composer/registry.hpp"

namespace slipbark::addin {

/// A command as it was sent.
struct Sent {
    css::uno::Reference<css::uno::XComponentContext> context;
    css::uno::Reference<css::frame::XFrame> frame;  ///< the window whose menu it came from
    std::string name;                               ///< "explain", "new-rework-plan"
    bool silent = false;                            ///< no window may open: for tests and scripts
    rtl::OUString url;                              ///< where to write; empty: the user is asked

    [[nodiscard]] css::uno::Reference<css::frame::XModel> document() const {
        return frame->getController()->getModel();
    }
};

/// What came of it.
struct Done {
    std::string text;            ///< what the user is told, or the URL of what was opened
    bool carried_out = true;     ///< whether there was such a command
    bool worth_a_window = true;  ///< false where the user sees it anyway
};

Done explain_selection(const Sent& sent);
Done empty_form(const Sent& sent);
Done add_lines(const Sent& sent);
Done first_free_line(const Sent& sent);
Done keep_the_plan(const Sent& sent);
Done hand_to_records(const Sent& sent);
Done take_over_plan(const Sent& sent);
Done gather_workbooks(const Sent& sent);
Done write_client_pages(const Sent& sent);
Done keep_in_database(const Sent& sent);
Done save_without_names(const Sent& sent);
Done keep_house_defaults(const Sent& sent);
Done show_house_defaults(const Sent& sent);
Done save_house_defaults(const Sent& sent);
Done take_house_defaults(const Sent& sent);
Done arrange_seasons(const Sent& sent);
Done save_with_values(const Sent& sent);
Done open_guide(const Sent& sent);
Done about_slipbark(const Sent& sent);
/// new-FILE for a workbook of the registry.
Done new_workbook(const Sent& sent);
/// Says that there is none of that name.
Done no_such_command(const Sent& sent);

/// Puts the cursor on the first free line of the document's day-book, and gives its line of the sheet; nothing where
/// there is none.
std::optional<sal_Int32> go_to_first_free_line(const css::uno::Reference<css::frame::XModel>& model);

/// Which workbook of ours a document is; nullptr for any other document.
const workbooks::Listed* workbook_of(const css::uno::Reference<css::frame::XModel>& model);

/// The URL of a workbook's template in the extension.
rtl::OUString template_of(const css::uno::Reference<css::uno::XComponentContext>& context,
                          const workbooks::Listed& workbook);

/// The folder in which the office has unpacked the extension, as a URL.
rtl::OUString extension_folder(const css::uno::Reference<css::uno::XComponentContext>& context);

}  // namespace slipbark::addin

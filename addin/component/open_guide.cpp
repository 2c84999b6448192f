// "Function guide": the page of all functions in the browser.

#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>

#include "catalogue/support.hpp"
#include "component/command.hpp"

namespace slipbark::addin {

Done open_guide(const Sent& sent) {
    const rtl::OUString guide =
        extension_folder(sent.context) + "/" + to_ustring(catalogue::guide_file(catalogue::menu_language()));
    if (!sent.silent) {
        css::system::SystemShellExecute::create(sent.context)
            ->execute(guide, rtl::OUString(), css::system::SystemShellExecuteFlags::URIS_ONLY);
    }
    return {.text = to_utf8(guide), .worth_a_window = false};
}

}  // namespace slipbark::addin

// Commands of the menu, sent through the dispatch as the menu sends them.
#pragma once

#include <com/sun/star/frame/DispatchHelper.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include "calc.hpp"

namespace slipbark::tests {

/// Sends a command to the window of a workbook that is not hidden. No window opens; `url` is for those that write.
inline css::frame::DispatchResultEvent send(const office::Book& book, const std::string& name,
                                            const std::string& url = {}) {
    using namespace office;
    const Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const Ref<css::frame::XDispatchProvider> frame(model->getCurrentController()->getFrame(),
                                                   css::uno::UNO_QUERY_THROW);
    const auto result =
        css::frame::DispatchHelper::create(calc().context())
            ->executeDispatch(
                frame, ustring("slipbark:" + name), "", 0,
                properties({property("Silent", css::uno::Any(true)), property("URL", css::uno::Any(ustring(url)))}));
    css::frame::DispatchResultEvent done;
    EXPECT_TRUE(result >>= done) << "nobody took the command " << name;
    return done;
}

inline std::string text_of(const css::frame::DispatchResultEvent& done) {
    rtl::OUString text;
    done.Result >>= text;
    return office::utf8(text);
}

inline std::string command(const office::Book& book, const std::string& name, const std::string& url = {}) {
    return text_of(send(book, name, url));
}

/// What "Explain this cell" says of a cell.
inline std::string explain(const office::Book& book, const std::string& address) {
    const office::Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const office::Ref<css::view::XSelectionSupplier> selection(model->getCurrentController(),
                                                               css::uno::UNO_QUERY_THROW);
    selection->select(css::uno::Any(book.range(address)));
    return command(book, "explain");
}

}  // namespace slipbark::tests

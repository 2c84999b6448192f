// Commands of the menu, sent through the dispatch as the menu sends them, and what is typed.
#pragma once

#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include "calc.hpp"

namespace slipbark::tests {

/// Sends a command to the window of a workbook that is not hidden. No window opens; `url` is for those that write, and
/// `from` is the workbook's office where it is not calc().
inline css::frame::DispatchResultEvent send(const office::Book& book, const std::string& name,
                                            const std::string& url = {}, const office::Office* from = nullptr) {
    using namespace office;
    css::frame::DispatchResultEvent done;
    try {
        const auto result = (from == nullptr ? calc() : *from)
                                .dispatch(book, "slipbark:" + name,
                                          properties({property("Silent", css::uno::Any(true)),
                                                      property("URL", css::uno::Any(ustring(url)))}));
        EXPECT_TRUE(result >>= done) << "nobody took the command " << name;
    } catch (const css::uno::Exception& error) {
        ADD_FAILURE() << "the command " << name << " ended with: " << utf8(error.Message);
    }
    return done;
}

inline std::string text_of(const css::frame::DispatchResultEvent& done) {
    rtl::OUString text;
    done.Result >>= text;
    return office::utf8(text);
}

inline std::string command(const office::Book& book, const std::string& name, const std::string& url = {},
                           const office::Office* from = nullptr) {
    return text_of(send(book, name, url, from));
}

/// What "Explain this cell" says of a cell.
inline std::string explain(const office::Book& book, const std::string& address, const office::Office* from = nullptr) {
    const office::Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const office::Ref<css::view::XSelectionSupplier> selection(model->getCurrentController(),
                                                               css::uno::UNO_QUERY_THROW);
    selection->select(css::uno::Any(book.range(address)));
    return command(book, "explain", {}, from);
}

/// Types into one cell of a document that is shown.
class Keyboard {
  public:
    Keyboard(const office::Office& office, const office::Book& book) : office_(office), book_(book) {}

    void type(const std::string& address, const std::string& text) const {
        const office::Ref<css::frame::XModel> model(book_.document(), css::uno::UNO_QUERY_THROW);
        office::Ref<css::view::XSelectionSupplier>(model->getCurrentController(), css::uno::UNO_QUERY_THROW)
            ->select(css::uno::Any(book_.range(address)));
        office_.dispatch(book_, ".uno:EnterString",
                         office::properties({office::property("StringName", css::uno::Any(office::ustring(text)))}));
    }

  private:
    const office::Office& office_;
    const office::Book& book_;
};

}  // namespace slipbark::tests

#include "component/documents.hpp"

#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/text/XText.hpp>

#include "catalogue/language.hpp"

namespace slipbark::addin {

using css::uno::Reference;
using css::uno::UNO_QUERY;

rtl::OUString shown(const Reference<css::table::XCell>& cell) {
    return Reference<css::text::XText>(cell, css::uno::UNO_QUERY_THROW)->getString();
}

Reference<css::container::XNameAccess> names_of(const Reference<css::frame::XModel>& model) {
    const Reference<css::beans::XPropertySet> properties(model, css::uno::UNO_QUERY_THROW);
    Reference<css::container::XNameAccess> names;
    properties->getPropertyValue("NamedRanges") >>= names;
    return names;
}

Reference<css::uno::XInterface> named(const Reference<css::frame::XModel>& model, const rtl::OUString& name) {
    const auto names = names_of(model);
    if (!names.is() || !names->hasByName(name)) return {};
    return {names->getByName(name), UNO_QUERY};
}

Reference<css::table::XCellRange> named_cells(const Reference<css::frame::XModel>& model, const rtl::OUString& name) {
    const Reference<css::sheet::XCellRangeReferrer> referrer(named(model, name), UNO_QUERY);
    return referrer.is() ? referrer->getReferredCells() : nullptr;
}

UndoStep::UndoStep(const Reference<css::frame::XModel>& model, Text title) {
    const Reference<css::document::XUndoManagerSupplier> supplier(model, UNO_QUERY);
    if (!supplier.is()) return;
    undo_ = supplier->getUndoManager();
    undo_->enterUndoContext(to_ustring(catalogue::spoken().translated(title)));
}

UndoStep::~UndoStep() {
    if (!undo_.is()) return;
    try {
        undo_->leaveUndoContext();
    } catch (const css::uno::Exception&) {
        undo_.clear();  // the document is gone, and its steps with it
    }
}

}  // namespace slipbark::addin

// What commands read and change in an open workbook.
#pragma once

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>

#include "component/convert.hpp"
#include "slipbark/message.hpp"

namespace slipbark::addin {

/// What a cell shows, as the user reads it.
rtl::OUString shown(const css::uno::Reference<css::table::XCell>& cell);

/// The document's named ranges; none for a document that is no spreadsheet.
css::uno::Reference<css::container::XNameAccess> names_of(const css::uno::Reference<css::frame::XModel>& model);

/// What a name of the document stands for; nothing where there is no such name.
css::uno::Reference<css::uno::XInterface> named(const css::uno::Reference<css::frame::XModel>& model,
                                                const rtl::OUString& name);

/// The cells of a document's named range; none where there is no such name.
css::uno::Reference<css::table::XCellRange> named_cells(const css::uno::Reference<css::frame::XModel>& model,
                                                        const rtl::OUString& name);

/// Whatever is changed while it lives is one step to undo. Without an undo manager it does nothing.
class UndoStep {
  public:
    UndoStep(const css::uno::Reference<css::frame::XModel>& model, Text title);
    UndoStep(const UndoStep&) = delete;
    UndoStep& operator=(const UndoStep&) = delete;
    ~UndoStep();

  private:
    css::uno::Reference<css::document::XUndoManager> undo_;
};

}  // namespace slipbark::addin

// What commands read and change in an open workbook.
#pragma once

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/io/XTempFile.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <functional>
#include <string>
#include <vector>

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

/// A cell's address as formulas have it: Plan.C5, 'My plan'.C5.
std::string address_of(const css::uno::Reference<css::uno::XInterface>& cells);

/// The cell style by which a cell looks as it does, "Input"; empty where there is none.
std::string style_of(const css::uno::Reference<css::uno::XInterface>& cells);

/// Each sheet of the document in its order.
std::vector<css::uno::Reference<css::sheet::XSpreadsheet>> sheets_of(
    const css::uno::Reference<css::frame::XModel>& model);

/// The cells of a sheet or of any ranges that hold something of these kinds (css::sheet::CellFlags).
css::uno::Reference<css::sheet::XSheetCellRanges> filled(const css::uno::Reference<css::uno::XInterface>& ranges,
                                                         sal_Int16 kinds);

/// Calls `visit` with each filled cell of these ranges.
void each_cell(const css::uno::Reference<css::sheet::XSheetCellRanges>& ranges,
               const std::function<void(const css::uno::Reference<css::table::XCell>&)>& visit);

/// A document opened out of sight and closed with the object; none where the office cannot open it.
class HiddenDocument {
  public:
    /// `how` is what the office is told of the loading besides: a filter, to open a template or only to read.
    HiddenDocument(const css::uno::Reference<css::uno::XComponentContext>& context, const rtl::OUString& url,
                   std::vector<css::beans::PropertyValue> how = {});
    HiddenDocument(const HiddenDocument&) = delete;
    HiddenDocument& operator=(const HiddenDocument&) = delete;
    ~HiddenDocument();
    [[nodiscard]] const css::uno::Reference<css::frame::XModel>& model() const { return model_; }

  private:
    css::uno::Reference<css::frame::XModel> model_;
};

/// A copy of a document, open out of sight while the object lives. Throws css::uno::Exception where it cannot be.
class HiddenCopy {
  public:
    HiddenCopy(const css::uno::Reference<css::uno::XComponentContext>& context,
               const css::uno::Reference<css::frame::XModel>& document);
    [[nodiscard]] const css::uno::Reference<css::frame::XModel>& model() const { return copy_.model(); }

  private:
    css::uno::Reference<css::io::XTempFile> file_;  // goes last, and its file with it
    HiddenDocument copy_;
};

/// Writes a file whole or not at all: `store` writes to the URL that it is given, next to the file, and what was there
/// before is replaced only then. Throws css::uno::Exception, the file being as it was.
void write_whole(const rtl::OUString& url, const std::function<void(const rtl::OUString&)>& store);

/// Throws css::io::IOException where a file of so many bytes cannot be written into the folder now: some libraries of
/// the office end it where they run out of space, so they are kept from starting.
void expect_room(const rtl::OUString& folder, std::size_t bytes);

/// Writes these bytes to a file, whole or not at all as write_whole does.
void write_whole(const rtl::OUString& url, const std::vector<sal_Int8>& bytes);

/// How a document is to be loaded or stored, in one of its respects.
css::beans::PropertyValue property(const char* name, const css::uno::Any& value);

/// A type of files as the dialog lists it: "ODF Spreadsheet (.ods)" and "*.ods".
struct ListedType {
    rtl::OUString shown;
    rtl::OUString pattern;
};

/// The file that the user chooses to be read or written; empty where none is chosen. Without types all are listed.
enum class Chosen { to_read, to_write };
rtl::OUString chosen_file(const css::uno::Reference<css::uno::XComponentContext>& context, Text title,
                          Chosen use = Chosen::to_read, const std::vector<ListedType>& types = {});

/// What cells hold, line by line; nothing where there are none.
using CellValues = std::vector<std::vector<css::uno::Any>>;
CellValues values_of(const css::uno::Reference<css::table::XCellRange>& cells);

/// The number that a cell holds; 0 where it holds none.
double cell_number(const css::uno::Any& cell);

/// The text that a cell holds, a number as one, without blanks around it.
rtl::OUString cell_text(const css::uno::Any& cell);

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

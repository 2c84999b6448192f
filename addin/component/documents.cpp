#include "component/documents.hpp"

#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/io/TempFile.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/FilePicker.hpp>
#include <com/sun/star/ui/dialogs/TemplateDescription.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <osl/file.hxx>

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

std::string address_of(const Reference<css::uno::XInterface>& cells) {
    rtl::OUString absolute;
    Reference<css::beans::XPropertySet>(cells, css::uno::UNO_QUERY_THROW)->getPropertyValue("AbsoluteName") >>=
        absolute;
    // $'My plan'.$C$5: the signs before sheet, column and row go.
    const sal_Int32 dot = absolute.lastIndexOf('.');
    const rtl::OUString sheet = absolute.copy(0, dot + 1);
    return to_utf8((sheet.startsWith("$") ? sheet.copy(1) : sheet) + absolute.copy(dot + 1).replaceAll("$", ""));
}

std::string style_of(const Reference<css::uno::XInterface>& cells) {
    rtl::OUString name;
    Reference<css::beans::XPropertySet>(cells, css::uno::UNO_QUERY_THROW)->getPropertyValue("CellStyle") >>= name;
    return to_utf8(name);
}

std::vector<Reference<css::sheet::XSpreadsheet>> sheets_of(const Reference<css::frame::XModel>& model) {
    const Reference<css::sheet::XSpreadsheetDocument> document(model, css::uno::UNO_QUERY_THROW);
    const Reference<css::container::XIndexAccess> all(document->getSheets(), css::uno::UNO_QUERY_THROW);
    std::vector<Reference<css::sheet::XSpreadsheet>> sheets;
    sheets.reserve(static_cast<std::size_t>(all->getCount()));
    for (sal_Int32 at = 0; at < all->getCount(); ++at) sheets.emplace_back(all->getByIndex(at), UNO_QUERY);
    return sheets;
}

Reference<css::sheet::XSheetCellRanges> filled(const Reference<css::uno::XInterface>& ranges, sal_Int16 kinds) {
    return Reference<css::sheet::XCellRangesQuery>(ranges, css::uno::UNO_QUERY_THROW)->queryContentCells(kinds);
}

void each_cell(const Reference<css::sheet::XSheetCellRanges>& ranges,
               const std::function<void(const Reference<css::table::XCell>&)>& visit) {
    const auto all = ranges->getCells()->createEnumeration();
    while (all->hasMoreElements()) visit(Reference<css::table::XCell>(all->nextElement(), css::uno::UNO_QUERY_THROW));
}

HiddenDocument::HiddenDocument(const Reference<css::uno::XComponentContext>& context, const rtl::OUString& url,
                               std::vector<css::beans::PropertyValue> how) {
    how.emplace_back();
    how.back().Name = "Hidden";
    how.back().Value <<= true;
    model_.set(css::frame::Desktop::create(context)->loadComponentFromURL(
                   url, "_blank", 0, {how.data(), static_cast<sal_Int32>(how.size())}),
               UNO_QUERY);
}

HiddenDocument::~HiddenDocument() {
    const Reference<css::util::XCloseable> closeable(model_, UNO_QUERY);
    if (!closeable.is()) return;
    try {
        closeable->close(true);
    } catch (const css::uno::Exception&) {
        model_.clear();  // whoever holds it closes it
    }
}

namespace {

css::beans::PropertyValue calc_file() {
    css::beans::PropertyValue filter;
    filter.Name = "FilterName";
    filter.Value <<= rtl::OUString("calc8");
    return filter;
}

/// Where the document is once it is written there.
rtl::OUString stored(const Reference<css::frame::XModel>& document, const rtl::OUString& url) {
    const auto filter = calc_file();
    Reference<css::frame::XStorable>(document, css::uno::UNO_QUERY_THROW)->storeToURL(url, {&filter, 1});
    return url;
}

}  // namespace

HiddenCopy::HiddenCopy(const Reference<css::uno::XComponentContext>& context,
                       const Reference<css::frame::XModel>& document)
    : file_(css::io::TempFile::create(context)), copy_(context, stored(document, file_->getUri()), {calc_file()}) {
    if (!copy_.model().is()) throw css::uno::RuntimeException("the copy cannot be opened");
}

void write_whole(const rtl::OUString& url, const std::function<void(const rtl::OUString&)>& store) {
    const rtl::OUString part = url + ".part";
    try {
        store(part);
        if (const auto error = osl::File::move(part, url); error != osl::FileBase::E_None) {
            throw css::io::IOException("error " + rtl::OUString::number(error) + " of the file system");
        }
    } catch (...) {
        osl::File::remove(part);
        throw;
    }
}

namespace {

/// Whether there is room for all of it.
bool wrote_all(osl::File& file, const std::vector<sal_Int8>& bytes) {
    for (std::size_t done = 0; done < bytes.size();) {
        sal_uInt64 written = 0;
        if (file.write(bytes.data() + done, bytes.size() - done, written) != osl::FileBase::E_None || written == 0) {
            return false;
        }
        done += written;
    }
    return true;
}

css::io::IOException no_room(const rtl::OUString& folder) {
    return {to_ustring(catalogue::menu_language().translated(translatable("There is not enough space in {1}."),
                                                             {to_utf8(folder)})),
            {}};
}

}  // namespace

void expect_room(const rtl::OUString& folder, std::size_t bytes) {
    oslFileHandle handle = nullptr;
    rtl::OUString url;
    rtl::OUString where = folder;
    if (osl::FileBase::createTempFile(&where, &handle, &url) != osl::FileBase::E_None) throw no_room(folder);
    osl_closeFile(handle);
    osl::File file(url);
    const bool fits = file.open(osl_File_OpenFlag_Write) == osl::FileBase::E_None &&
                      wrote_all(file, std::vector<sal_Int8>(bytes, 1)) && file.close() == osl::FileBase::E_None;
    osl::File::remove(url);
    if (!fits) throw no_room(folder);
}

void write_whole(const rtl::OUString& url, const std::vector<sal_Int8>& bytes) {
    write_whole(url, [&](const rtl::OUString& part) {
        osl::File file(part);
        osl::File::remove(part);  // of an attempt that was cut off
        if (const auto error = file.open(osl_File_OpenFlag_Write | osl_File_OpenFlag_Create);
            error != osl::FileBase::E_None) {
            throw css::io::IOException("error " + rtl::OUString::number(error) + " of the file system");
        }
        const bool whole = wrote_all(file, bytes) && file.sync() == osl::FileBase::E_None;
        file.close();
        if (!whole) throw no_room(part.copy(0, part.lastIndexOf('/')));
    });
}

css::beans::PropertyValue property(const char* name, const css::uno::Any& value) {
    css::beans::PropertyValue made;
    made.Name = rtl::OUString::createFromAscii(name);
    made.Value = value;
    return made;
}

rtl::OUString chosen_file(const Reference<css::uno::XComponentContext>& context, Text title, Chosen use,
                          const std::vector<ListedType>& types) {
    namespace dialogs = css::ui::dialogs;
    const auto picker = dialogs::FilePicker::createWithMode(
        context, use == Chosen::to_write ? dialogs::TemplateDescription::FILESAVE_AUTOEXTENSION
                                         : dialogs::TemplateDescription::FILEOPEN_SIMPLE);
    picker->setTitle(to_ustring(catalogue::menu_language().translated(title)));
    for (const ListedType& type : types) picker->appendFilter(type.shown, type.pattern);
    if (picker->execute() != dialogs::ExecutableDialogResults::OK) return {};
    const auto files = picker->getSelectedFiles();
    return files.hasElements() ? files[0] : rtl::OUString();
}

CellValues values_of(const Reference<css::table::XCellRange>& cells) {
    CellValues values;
    const Reference<css::sheet::XCellRangeData> data(cells, UNO_QUERY);
    if (!data.is()) return values;
    for (const auto& line : data->getDataArray()) values.emplace_back(line.begin(), line.end());
    return values;
}

double cell_number(const css::uno::Any& cell) {
    double number = 0;
    cell >>= number;
    return number;
}

rtl::OUString cell_text(const css::uno::Any& cell) {
    rtl::OUString text;
    if (cell >>= text) return text.trim();
    return cell.has<double>() ? rtl::OUString::number(cell_number(cell)) : rtl::OUString();
}

UndoStep::UndoStep(const Reference<css::frame::XModel>& model, Text title) {
    const Reference<css::document::XUndoManagerSupplier> supplier(model, UNO_QUERY);
    if (!supplier.is()) return;
    undo_ = supplier->getUndoManager();
    undo_->enterUndoContext(to_ustring(catalogue::menu_language().translated(title)));
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

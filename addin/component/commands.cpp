// The commands behind the menu: a new plan from a template, the function guide, "Explain this cell", about.
//
// A command is a URL slipbark:name; ProtocolHandler.xcu sends it here. With the argument Silent = true a command shows
// no window and gives its text back in the result, which is how tests and scripts use it. A name that is no command
// does nothing and says so.

#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/URL.hpp>
#include <cppuhelper/implbase4.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <ctime>
#include <rtl/uri.hxx>

#include "catalogue/explain.hpp"
#include "catalogue/support.hpp"
#include "component/commands.hpp"
#include "component/convert.hpp"
#include "component/speak.hpp"
#include "workbooks/registry.hpp"

namespace slipbark::addin {

namespace {

using catalogue::spoken;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;

constexpr const char* extension_id = "slipbark.rework";

rtl::OUString shown(const Reference<css::table::XCell>& cell) {
    return Reference<css::text::XText>(cell, css::uno::UNO_QUERY_THROW)->getString();
}

/// Whole columns are cut to what the sheet uses, which the add-in call itself is not spared.
Reference<css::table::XCellRange> used_part(const Reference<css::table::XCellRange>& range) {
    const Reference<css::sheet::XSheetCellRange> in_sheet(range, UNO_QUERY);
    const Reference<css::sheet::XCellRangeAddressable> addressable(range, UNO_QUERY);
    if (!in_sheet.is() || !addressable.is()) return range;
    auto address = addressable->getRangeAddress();
    const auto cursor = in_sheet->getSpreadsheet()->createCursor();
    Reference<css::sheet::XUsedAreaCursor>(cursor, css::uno::UNO_QUERY_THROW)->gotoEndOfUsedArea(false);
    const auto end = Reference<css::sheet::XCellRangeAddressable>(cursor, css::uno::UNO_QUERY_THROW)->getRangeAddress();
    const auto last = std::max(address.StartRow, std::min(address.EndRow, end.EndRow));
    return in_sheet->getSpreadsheet()->getCellRangeByPosition(address.StartColumn, address.StartRow, address.EndColumn,
                                                              last);
}

/// The cells that an argument refers to.
struct Referred {
    Reference<css::table::XCellRange> cells;
    bool as_range = false;  ///< written A1:A1, even if it is one cell
};

/// What stands in a reference, as the host would hand it to the function.
catalogue::GivenArgument read_range(const std::string& text, const Referred& referred) {
    const auto range = used_part(referred.cells);
    const Reference<css::sheet::XCellRangesQuery> query(range, UNO_QUERY);
    if (query.is()) {
        const auto wrong = query->queryFormulaCells(css::sheet::FormulaResult::ERROR);
        if (wrong.is() && Reference<css::container::XIndexAccess>(wrong, css::uno::UNO_QUERY_THROW)->getCount() > 0) {
            return {text, std::nullopt, to_utf8(wrong->getRangeAddressesAsString())};
        }
    }
    const auto data = Reference<css::sheet::XCellRangeData>(range, css::uno::UNO_QUERY_THROW)->getDataArray();
    if (!referred.as_range) {
        const auto cell = range->getCellByPosition(0, 0);
        // A blank cell by itself reaches any argument as 0.
        if (cell->getType() == css::table::CellContentType_EMPTY) return {text, catalogue::Value{0.0}, ""};
        return {text, to_value(data[0][0]), ""};
    }
    return {text, to_value(data), ""};
}

/// What a name of the document stands for; nothing where there is no such name.
Reference<css::uno::XInterface> named(const Reference<css::frame::XModel>& model, const rtl::OUString& name) {
    const Reference<css::beans::XPropertySet> properties(model, css::uno::UNO_QUERY_THROW);
    Reference<css::container::XNameAccess> names;
    properties->getPropertyValue("NamedRanges") >>= names;
    if (!names.is() || !names->hasByName(name)) return {};
    return {names->getByName(name), UNO_QUERY};
}

/// The cells of a document's named range; none where there is no such name.
Reference<css::table::XCellRange> named_cells(const Reference<css::frame::XModel>& model, const rtl::OUString& name) {
    const Reference<css::sheet::XCellRangeReferrer> referrer(named(model, name), UNO_QUERY);
    return referrer.is() ? referrer->getReferredCells() : nullptr;
}

/// The cells an argument's text refers to: an address on this or another sheet, or a name. None for anything else.
Referred referred(const Reference<css::frame::XModel>& model, Reference<css::table::XCellRange> sheet,
                  const std::string& text) {
    if (const auto name = named(model, to_ustring(text)); name.is()) {
        const Reference<css::sheet::XCellRangeReferrer> referrer(name, UNO_QUERY);
        const Reference<css::sheet::XNamedRange> range(name, UNO_QUERY);
        if (!referrer.is() || !range.is()) return {};
        const std::string content = to_utf8(range->getContent());
        const auto stands_for = catalogue::reference(content);
        return {referrer->getReferredCells(), !stands_for || stands_for->last.has_value()};
    }
    const auto found = catalogue::reference(text);
    if (!found) return {};  // a calculation, shown as its text
    std::string address(found->first.address);
    if (found->last) address.append(":").append(found->last->address);
    try {
        if (!found->first.sheet.empty()) {
            const Reference<css::sheet::XSpreadsheetDocument> document(model, css::uno::UNO_QUERY_THROW);
            document->getSheets()->getByName(to_ustring(catalogue::unquoted(found->first.sheet))) >>= sheet;
        }
        return {sheet->getCellRangeByName(to_ustring(address)), found->last.has_value()};
    } catch (const css::uno::Exception&) {
        return {};  // no such sheet, or past its end
    }
}

std::string explain_selection(const Reference<css::frame::XFrame>& frame) {
    const auto model = frame->getController()->getModel();
    const Reference<css::table::XCellRange> selection(model->getCurrentSelection(), UNO_QUERY);
    if (!selection.is()) return spoken().translated(translatable("Select a single cell with a REWORK function in it."));
    const auto cell = selection->getCellByPosition(0, 0);
    const auto call = catalogue::find_call(to_utf8(cell->getFormula()));
    if (!call) return spoken().translated(translatable("There is no REWORK function in the selected cell."));
    const Reference<css::sheet::XSheetCellRange> in_sheet(selection, css::uno::UNO_QUERY_THROW);
    const Reference<css::table::XCellRange> sheet(in_sheet->getSpreadsheet(), css::uno::UNO_QUERY_THROW);
    std::vector<catalogue::GivenArgument> given;
    for (const auto& text : call->arguments) {
        if (const auto value = catalogue::literal(text)) {
            given.push_back({text, value, ""});
        } else if (const Referred cells = referred(model, sheet, text); cells.cells.is()) {
            given.push_back(read_range(text, cells));
        } else {
            given.push_back({text, std::nullopt, ""});
        }
    }
    const Document document(model, css::uno::UNO_QUERY_THROW);
    return catalogue::explain(*call->entry, given, to_utf8(shown(cell)), null_date_of(document), spoken());
}

/// The planned columns of the rework plan's sheet Actual, whose formulas follow the plan until they are kept.
constexpr std::array planned_columns{"plan_kept_costs", "plan_kept_hours", "plan_kept_packs", "plan_kept_crop",
                                     "plan_kept_price"};

/// Replaces what follows the plan by what it shows today, in one step to undo.
std::string keep(const Reference<css::frame::XModel>& model) {
    std::vector<Reference<css::table::XCellRange>> columns;
    for (const char* name : planned_columns) {
        columns.push_back(named_cells(model, rtl::OUString::createFromAscii(name)));
    }
    const auto kept_on = named_cells(model, "kept_on");
    const bool missing = std::any_of(columns.begin(), columns.end(), [](const auto& column) { return !column.is(); });
    if (missing || !kept_on.is()) {
        return spoken().translated(
            translatable("There is no plan to keep here: open a rework plan, which has a sheet Actual."));
    }
    const Reference<css::document::XUndoManagerSupplier> undo(model, UNO_QUERY);
    if (undo.is()) undo->getUndoManager()->enterUndoContext(to_ustring(spoken().translated(keep_plan.title)));
    for (const auto& column : columns) {
        const Reference<css::sheet::XCellRangeData> cells(column, css::uno::UNO_QUERY_THROW);
        cells->setDataArray(cells->getDataArray());
    }
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    const Day today{std::chrono::year{local.tm_year + 1900} / (local.tm_mon + 1) / local.tm_mday};
    const Document document(model, css::uno::UNO_QUERY_THROW);
    kept_on->getCellByPosition(0, 0)->setValue(static_cast<double>((today - null_date_of(document)).count()));
    if (undo.is()) undo->getUndoManager()->leaveUndoContext();
    return spoken().translated(
        translatable("The planned columns of sheet Actual now hold the plan as it stands today."));
}

std::string about() {
    return spoken().translated(translatable("Slipbark {1}\nCell functions and workbooks for reworking fruit "
                                            "trees.\nMozilla Public License 2.0"),
                               {catalogue::version()});
}

class Commands final : public cppu::WeakImplHelper4<css::lang::XInitialization, css::lang::XServiceInfo,
                                                    css::frame::XDispatchProvider, css::frame::XNotifyingDispatch> {
  public:
    explicit Commands(const Reference<css::uno::XComponentContext>& context) : context_(context) {}

    void SAL_CALL initialize(const css::uno::Sequence<Any>& arguments) override {
        if (arguments.hasElements()) arguments[0] >>= frame_;
    }

    rtl::OUString SAL_CALL getImplementationName() override { return "slipbark.CommandsComponent"; }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override { return cppu::supportsService(this, name); }
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override {
        const rtl::OUString all[] = {"slipbark.Commands", "com.sun.star.frame.ProtocolHandler"};
        return {all, 2};
    }

    Reference<css::frame::XDispatch> SAL_CALL queryDispatch(const css::util::URL& url, const rtl::OUString& /*target*/,
                                                            sal_Int32 /*flags*/) override {
        // Any name is taken: one that is no command is told so when it is sent.
        return to_utf8(url.Complete).starts_with(protocol) ? this : nullptr;
    }
    css::uno::Sequence<Reference<css::frame::XDispatch>> SAL_CALL
    queryDispatches(const css::uno::Sequence<css::frame::DispatchDescriptor>& requests) override {
        css::uno::Sequence<Reference<css::frame::XDispatch>> found(requests.getLength());
        for (sal_Int32 at = 0; at < requests.getLength(); ++at) {
            found.getArray()[at] =
                queryDispatch(requests[at].FeatureURL, requests[at].FrameName, requests[at].SearchFlags);
        }
        return found;
    }

    void SAL_CALL dispatch(const css::util::URL& url,
                           const css::uno::Sequence<css::beans::PropertyValue>& arguments) override {
        run(url, arguments);
    }
    void SAL_CALL dispatchWithNotification(const css::util::URL& url,
                                           const css::uno::Sequence<css::beans::PropertyValue>& arguments,
                                           const Reference<css::frame::XDispatchResultListener>& listener) override {
        const Done result = run(url, arguments);
        if (!listener.is()) return;
        css::frame::DispatchResultEvent done;
        done.Source = static_cast<cppu::OWeakObject*>(this);
        done.State =
            result.carried_out ? css::frame::DispatchResultState::SUCCESS : css::frame::DispatchResultState::FAILURE;
        done.Result <<= to_ustring(result.text);
        listener->dispatchFinished(done);
    }

    // No command has a state to tell of: they are always there.
    void SAL_CALL addStatusListener(const Reference<css::frame::XStatusListener>& /*listener*/,
                                    const css::util::URL& /*url*/) override {}
    void SAL_CALL removeStatusListener(const Reference<css::frame::XStatusListener>& /*listener*/,
                                       const css::util::URL& /*url*/) override {}

  private:
    struct Done {
        std::string text;  ///< what was shown, or the URL of what was opened
        bool carried_out = true;
    };

    Done run(const css::util::URL& url, const css::uno::Sequence<css::beans::PropertyValue>& arguments) {
        bool silent = false;
        for (const auto& argument : arguments) {
            if (argument.Name == "Silent") argument.Value >>= silent;
        }
        const std::string command = to_utf8(url.Complete).substr(protocol.size());
        if (command == show_guide.name) return {open_guide(silent)};
        if (command.starts_with(new_from)) {
            if (const auto* workbook = workbooks::find(std::string_view(command).substr(new_from.size()))) {
                return {new_document(*workbook)};
            }
        }
        Done done;
        if (command == explain_cell.name) {
            done.text = explain_selection(frame_);
        } else if (command == keep_plan.name) {
            done.text = keep(frame_->getController()->getModel());
        } else if (command == tell_about.name) {
            done.text = about();
        } else {
            done = {
                spoken().translated(
                    translatable("Slipbark has no command \"{1}\". The menu Rework lists those it has."), {command}),
                false};
        }
        if (!silent) show(done.text);
        return done;
    }

    std::string open_guide(bool silent) {
        const rtl::OUString guide = location() + "/" + to_ustring(catalogue::guide_file(spoken()));
        if (!silent) {
            css::system::SystemShellExecute::create(context_)->execute(guide, rtl::OUString(),
                                                                       css::system::SystemShellExecuteFlags::URIS_ONLY);
        }
        return to_utf8(guide);
    }

    rtl::OUString location() {
        return css::deployment::PackageInformationProvider::get(context_)->getPackageLocation(
            rtl::OUString::createFromAscii(extension_id));
    }

    /// A new untitled document from one of the extension's templates.
    std::string new_document(const workbooks::Listed& workbook) {
        const auto in_url = [](std::string_view name) {
            return rtl::Uri::encode(to_ustring(name), rtl_UriCharClassPchar, rtl_UriEncodeStrict,
                                    RTL_TEXTENCODING_UTF8);
        };
        const rtl::OUString url =
            location() + "/template/" + in_url(workbook.category) + "/" + in_url(workbook.file) + ".ots";
        css::beans::PropertyValue as_template;
        as_template.Name = "AsTemplate";
        as_template.Value <<= true;
        css::frame::Desktop::create(context_)->loadComponentFromURL(url, "_default", 0, {&as_template, 1});
        return to_utf8(url);
    }

    void show(const std::string& text) {
        const Reference<css::awt::XMessageBoxFactory> toolkit(css::awt::Toolkit::create(context_), UNO_QUERY);
        const Reference<css::awt::XWindowPeer> parent(frame_->getContainerWindow(), UNO_QUERY);
        if (!toolkit.is() || !parent.is()) return;
        const auto box =
            toolkit->createMessageBox(parent, css::awt::MessageBoxType_INFOBOX, css::awt::MessageBoxButtons::BUTTONS_OK,
                                      "Slipbark", to_ustring(text));
        if (box.is()) box->execute();
    }

    Reference<css::uno::XComponentContext> context_;
    Reference<css::frame::XFrame> frame_;
};

}  // namespace

}  // namespace slipbark::addin

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_commands(
    com::sun::star::uno::XComponentContext* context,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    slipbark::addin::speak_as_the_office(context);
    auto* made = new slipbark::addin::Commands(context);  // the caller takes over the one reference
    made->acquire();
    return static_cast<cppu::OWeakObject*>(made);
}

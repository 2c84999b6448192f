// "Empty the form": what was typed into a workbook of ours goes, so that another block can be filled in.
//
// The styles of its cells tell which are entries (workbooks::cell_style), and they move with the cells where rows are
// put in. A suggestion that was typed over becomes the formula of the template again, as long as the workbook is laid
// out as the template is.

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XDocumentProperties.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XSheetCellRangeContainer.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <optional>

#include "catalogue/formula.hpp"
#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"
#include "component/house.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;
using css::uno::UNO_QUERY;

namespace {

namespace CellFlags = css::sheet::CellFlags;
constexpr auto typed = static_cast<sal_Int16>(CellFlags::VALUE | CellFlags::DATETIME | CellFlags::STRING);

using Ranges = std::vector<Reference<css::sheet::XSheetCellRanges>>;

/// All cells of a style, filled or not.
Ranges of_style(const Reference<css::frame::XModel>& model, std::string_view style) {
    Ranges found;
    for (const auto& sheet : sheets_of(model)) {
        const Reference<css::sheet::XUniqueCellFormatRangesSupplier> supplier(sheet, css::uno::UNO_QUERY_THROW);
        const auto formats = supplier->getUniqueCellFormatRanges();
        for (sal_Int32 at = 0; at < formats->getCount(); ++at) {
            const Reference<css::sheet::XSheetCellRanges> alike(formats->getByIndex(at), css::uno::UNO_QUERY_THROW);
            if (style_of(alike) == style) found.push_back(alike);
        }
    }
    return found;
}

/// Whether cells that are formatted alike have a rule for what may be entered.
bool takes_entries(const Reference<css::sheet::XSheetCellRanges>& alike) {
    Reference<css::beans::XPropertySet> validation;
    Reference<css::beans::XPropertySet>(alike, css::uno::UNO_QUERY_THROW)->getPropertyValue("Validation") >>=
        validation;
    css::sheet::ValidationType type = css::sheet::ValidationType_ANY;
    if (validation.is()) validation->getPropertyValue("Type") >>= type;
    return type != css::sheet::ValidationType_ANY;
}

/// The template a workbook was made from.
class Template {
  public:
    Template(const Sent& sent, const workbooks::Listed& workbook)
        : document_(sent.context, template_of(sent.context, workbook), as_template()),
          laid_out_alike_(document_.model().is() && names_stand_as_in(sent.document())) {}

    /// The formula that suggests something in this cell; empty where that cannot be known.
    [[nodiscard]] rtl::OUString suggestion(const Reference<css::table::XCell>& cell) const {
        if (!laid_out_alike_) return {};
        const std::string address = address_of(cell);
        const auto dot = address.rfind('.');
        const Reference<css::sheet::XSpreadsheetDocument> document(document_.model(), css::uno::UNO_QUERY_THROW);
        const auto sheets = document->getSheets();
        const auto name = to_ustring(catalogue::unquoted(std::string_view(address).substr(0, dot)));
        if (!sheets->hasByName(name)) return {};
        const Reference<css::table::XCellRange> sheet(sheets->getByName(name), css::uno::UNO_QUERY_THROW);
        const auto there =
            sheet->getCellRangeByName(to_ustring(std::string_view(address).substr(dot + 1)))->getCellByPosition(0, 0);
        return there->getType() == css::table::CellContentType_FORMULA ? there->getFormula() : rtl::OUString();
    }

  private:
    /// Rows and columns put in or taken out, and sheets renamed, show in what the names stand for.
    [[nodiscard]] bool names_stand_as_in(const Reference<css::frame::XModel>& document) const {
        const auto content = [](const Reference<css::container::XNameAccess>& names, const rtl::OUString& name) {
            return Reference<css::sheet::XNamedRange>(names->getByName(name), css::uno::UNO_QUERY_THROW)->getContent();
        };
        const auto here = names_of(document);
        const auto there = names_of(document_.model());
        const auto all = there->getElementNames();
        return std::all_of(all.begin(), all.end(), [&](const rtl::OUString& name) {
            return here->hasByName(name) && content(here, name) == content(there, name);
        });
    }

    [[nodiscard]] static std::vector<css::beans::PropertyValue> as_template() {
        std::vector<css::beans::PropertyValue> how(1);
        how[0].Name = "AsTemplate";
        how[0].Value <<= true;
        return how;
    }

    HiddenDocument document_;
    bool laid_out_alike_;
};

/// Nothing is calculated anew while it lives, and all that is to be once it goes.
class WithoutCalculating {
  public:
    explicit WithoutCalculating(const Reference<css::frame::XModel>& model)
        : document_(model, css::uno::UNO_QUERY_THROW), automatic_(document_->isAutomaticCalculationEnabled()) {
        document_->enableAutomaticCalculation(false);
    }
    WithoutCalculating(const WithoutCalculating&) = delete;
    WithoutCalculating& operator=(const WithoutCalculating&) = delete;
    ~WithoutCalculating() { document_->enableAutomaticCalculation(automatic_); }

  private:
    Reference<css::sheet::XCalculatable> document_;
    bool automatic_;
};

/// Cells beside each other as ranges: "Rows.C6:C45, Plan.C21".
std::string joined(const Reference<css::frame::XModel>& model, const std::vector<Reference<css::table::XCell>>& cells) {
    const Reference<css::lang::XMultiServiceFactory> factory(model, css::uno::UNO_QUERY_THROW);
    const Reference<css::sheet::XSheetCellRangeContainer> ranges(
        factory->createInstance("com.sun.star.sheet.SheetCellRanges"), css::uno::UNO_QUERY_THROW);
    for (const auto& cell : cells) {
        const auto at = Reference<css::sheet::XCellAddressable>(cell, css::uno::UNO_QUERY_THROW)->getCellAddress();
        ranges->addRangeAddress({at.Sheet, at.Column, at.Row, at.Column, at.Row}, true);
    }
    return to_utf8(ranges->getRangeAddressesAsString().replaceAll("$", "").replaceAll(";", ",").replaceAll(",", ", "));
}

/// How many filled cells there are, sheet by sheet: "Plan 14, Rows 60".
std::string by_sheet(const Reference<css::frame::XModel>& model, const Ranges& ranges) {
    std::vector<sal_Int64> cells(sheets_of(model).size());
    for (const auto& used : ranges) {
        for (const auto& area : used->getRangeAddresses()) {
            cells.at(static_cast<std::size_t>(area.Sheet)) +=
                static_cast<sal_Int64>(area.EndRow - area.StartRow + 1) * (area.EndColumn - area.StartColumn + 1);
        }
    }
    const auto titles =
        Reference<css::sheet::XSpreadsheetDocument>(model, css::uno::UNO_QUERY_THROW)->getSheets()->getElementNames();
    std::string text;
    for (std::size_t sheet = 0; sheet < cells.size(); ++sheet) {
        if (cells[sheet] == 0) continue;
        text += (text.empty() ? "" : ", ") + to_utf8(titles[static_cast<sal_Int32>(sheet)]) + " " +
                std::to_string(cells[sheet]);
    }
    return text;
}

struct Suggestions {
    std::vector<Reference<css::table::XCell>> put_back;
    std::vector<Reference<css::table::XCell>> unknown;
};

/// Puts the formula back into every cell for a suggestion that holds none.
Suggestions put_back(const Sent& sent, const workbooks::Listed& workbook) {
    Suggestions done;
    std::vector<Reference<css::table::XCell>> without;
    for (const auto& ranges : of_style(sent.document(), workbooks::cell_style::suggested)) {
        each_cell(filled(ranges, typed), [&](const auto& cell) { without.push_back(cell); });
        const auto blank =
            Reference<css::sheet::XCellRangesQuery>(ranges, css::uno::UNO_QUERY_THROW)->queryEmptyCells();
        for (const auto& area : blank->getRangeAddresses()) {
            const auto sheet = sheets_of(sent.document()).at(static_cast<std::size_t>(area.Sheet));
            for (sal_Int32 row = area.StartRow; row <= area.EndRow; ++row) {
                for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column) {
                    without.push_back(sheet->getCellByPosition(column, row));
                }
            }
        }
    }
    if (without.empty()) return done;
    const Template made_from(sent, workbook);
    for (const auto& cell : without) {
        const bool blank = cell->getType() == css::table::CellContentType_EMPTY;
        const rtl::OUString formula = made_from.suggestion(cell);
        if (blank && formula.isEmpty()) continue;
        cell->setFormula(formula);
        (formula.isEmpty() ? done.unknown : done.put_back).push_back(cell);
    }
    return done;
}

}  // namespace

const workbooks::Listed* workbook_of(const Reference<css::frame::XModel>& model) {
    const Reference<css::document::XDocumentPropertiesSupplier> supplier(model, UNO_QUERY);
    if (!supplier.is()) return nullptr;
    const Reference<css::beans::XPropertySet> own(supplier->getDocumentProperties()->getUserDefinedProperties(),
                                                  css::uno::UNO_QUERY_THROW);
    const auto property = to_ustring(workbooks::workbook_property);
    rtl::OUString file;
    if (own->getPropertySetInfo()->hasPropertyByName(property)) own->getPropertyValue(property) >>= file;
    return workbooks::find(to_utf8(file));
}

Done empty_form(const Sent& sent) {
    const auto model = sent.document();
    const workbooks::Listed* const workbook = workbook_of(model);
    if (workbook == nullptr) {
        return {menu_language().translated(translatable(
            "This is not a Slipbark workbook, so nothing was emptied: open one with Rework > New and empty that."))};
    }
    std::vector<Reference<css::sheet::XSheetCellRanges>> entries;
    for (const auto& ranges : of_style(model, workbooks::cell_style::input)) {
        const auto used = filled(ranges, static_cast<sal_Int16>(typed | CellFlags::FORMULA));
        if (used.is() && used->getRangeAddresses().hasElements()) entries.push_back(used);
    }
    // Lines that nobody has used yet look plain, so that their pages are not printed; what may be entered tells them.
    for (const auto& ranges : of_style(model, "Plain")) {
        const auto used = takes_entries(ranges) ? filled(ranges, static_cast<sal_Int16>(typed))
                                                : Reference<css::sheet::XSheetCellRanges>();
        if (used.is() && used->getRangeAddresses().hasElements()) entries.push_back(used);
    }
    const std::string cleared = by_sheet(model, entries);
    Ranges figures;
    for (const auto& ranges : of_style(model, workbooks::cell_style::kept)) {
        const auto used = filled(ranges, static_cast<sal_Int16>(typed | CellFlags::FORMULA));
        if (used.is() && used->getRangeAddresses().hasElements()) figures.push_back(used);
    }
    const UndoStep step(model, empty_the_form.title);
    const WithoutCalculating until_done(model);
    for (const auto& used : entries) {
        Reference<css::sheet::XSheetOperation>(used, css::uno::UNO_QUERY_THROW)
            ->clearContents(typed | CellFlags::FORMULA);
    }
    const Suggestions suggestions = put_back(sent, *workbook);
    if (entries.empty() && suggestions.put_back.empty() && suggestions.unknown.empty()) {
        return {menu_language().translated(
            translatable("There was nothing to empty: no entry of this workbook is filled in."))};
    }
    std::string text = menu_language().translated(translatable(
        "The form is empty. Suggestions and reference values are kept. Edit > Undo brings back what was typed."));
    if (!cleared.empty()) {
        text += "\n" + menu_language().translated(translatable("Emptied, cells on each sheet: {1}."), {cleared});
    }
    if (!figures.empty()) {
        text +=
            "\n" + menu_language().translated(translatable("Reference values that are kept, cells on each sheet: {1}."),
                                              {by_sheet(model, figures)});
    }
    if (const auto house = fill_with_house(model, read_house(sent.context)); !house.empty()) {
        std::string labels;
        for (const std::string& label : house) labels += (labels.empty() ? "" : ", ") + label;
        text += "\n" + menu_language().translated(translatable("House defaults put in: {1}."), {labels});
    }
    if (!suggestions.put_back.empty()) {
        text += "\n" + menu_language().translated(translatable("Suggestions that were typed over are back: {1}."),
                                                  {joined(model, suggestions.put_back)});
    }
    if (!suggestions.unknown.empty()) {
        text += "\n" + menu_language().translated(
                           translatable("Emptied, because the formula of the suggestion is no longer known: {1}."),
                           {joined(model, suggestions.unknown)});
    }
    return {text};
}

}  // namespace slipbark::addin

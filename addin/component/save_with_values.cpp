// "Save a copy with values": the workbook for somebody who has no Slipbark. Every formula that holds one of our
// functions gives way to what it shows; all others stay live.
//
// The document at hand is not touched: a copy of it is written, opened out of sight, changed and saved.

#include <com/sun/star/beans/XPropertyContainer.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XDocumentProperties.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XConditionalFormat.hpp>
#include <com/sun/star/sheet/XConditionalFormats.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRangeContainer.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XNumberFormatTypes.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <set>
#include <vector>

#include "catalogue/formula.hpp"
#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

namespace {

namespace CellFlags = css::sheet::CellFlags;

struct FileType {
    const char* ending;
    const char* filter;
    const char* shown;
};
constexpr std::array file_types{FileType{".ods", "calc8", "ODF Spreadsheet (.ods)"},
                                FileType{".xlsx", "Calc MS Excel 2007 XML", "Excel 2007-365 (.xlsx)"}};

const FileType* type_of(const rtl::OUString& url) {
    const auto* const found = std::ranges::find_if(file_types, [&](const FileType& type) {
        return url.endsWithIgnoreAsciiCase(rtl::OUString::createFromAscii(type.ending));
    });
    return found == file_types.end() ? nullptr : found;
}

/// The user's choice; empty where there was none.
rtl::OUString asked_for_place(const Sent& sent) {
    std::vector<ListedType> types;
    for (const FileType& type : file_types) {
        types.push_back(
            {rtl::OUString::createFromAscii(type.shown), "*" + rtl::OUString::createFromAscii(type.ending)});
    }
    return chosen_file(sent.context, translatable("Save a copy with values"), Chosen::to_write, types);
}

/// Which formulas cannot do without us.
class Ours {
  public:
    /// Names of the document that stand for one of our functions, directly or by way of each other.
    void learn(const Reference<css::container::XNameAccess>& names) {
        for (std::size_t before = names_.size() + 1; before != names_.size();) {
            before = names_.size();
            for (const auto& name : names->getElementNames()) {
                const Reference<css::sheet::XNamedRange> range(names->getByName(name), UNO_QUERY_THROW);
                if (needed_by(range->getContent())) names_.insert(to_utf8(name.toAsciiUpperCase()));
            }
        }
    }

    [[nodiscard]] bool needed_by(const rtl::OUString& formula) const {
        const std::string text = to_utf8(formula);
        const auto all = catalogue::tokens(text);
        return std::any_of(all.begin(), all.end(), [&](const catalogue::Token& token) {
            // FORMULA shows another cell's formula, which may be one that goes.
            if (token.part == catalogue::Part::function)
                return !catalogue::own_name(token.text).empty() || token.text == "FORMULA";
            return token.part == catalogue::Part::name &&
                   names_.contains(to_utf8(to_ustring(token.text).toAsciiUpperCase()));
        });
    }

    /// They go once no formula holds them.
    void take_out(const Reference<css::container::XNameAccess>& names) const {
        const Reference<css::sheet::XNamedRanges> all(names, UNO_QUERY_THROW);
        for (const auto& name : names->getElementNames()) {
            if (names_.contains(to_utf8(name.toAsciiUpperCase()))) all->removeByName(name);
        }
    }

  private:
    std::set<std::string> names_;  // in capitals, since Calc takes no notice of them
};

using Cell = Reference<css::table::XCell>;

/// What a cell shows, held while its formula is taken away.
struct Held {
    Cell cell;
    rtl::OUString shows;
    double number = 0;
    sal_Int32 error = 0;
    bool is_text = false;
};

Held held(const Cell& cell) {
    sal_Int32 kind = 0;
    Reference<css::beans::XPropertySet>(cell, UNO_QUERY_THROW)->getPropertyValue("FormulaResultType2") >>= kind;
    return {cell, shown(cell), cell->getValue(), cell->getError(), kind == css::sheet::FormulaResult::STRING};
}

/// A formula of the host's own that gives the same error, so that what depends on the cell goes on showing what it did.
/// For codes that only Calc knows there is one that other programs read, too.
rtl::OUString formula_for(sal_Int32 error) {
    switch (error) {
        case 32767:
            return "=NA()";
        case 532:
            return "=1/0";
        case 503:
            return "=10^1000";
        case 502:
            return "=CHAR(-1)";
        default:
            return "=VALUE(\"\")";
    }
}

/// A number shown by the kind of its formula's result, such as a date, gets a format for it.
void show_alike(const Reference<css::frame::XModel>& model, const Held& was) {
    if (shown(was.cell) == was.shows) return;
    const Reference<css::util::XNumberFormatsSupplier> supplier(model, UNO_QUERY_THROW);
    const Reference<css::util::XNumberFormatTypes> types(supplier->getNumberFormats(), UNO_QUERY_THROW);
    const Reference<css::beans::XPropertySet> properties(was.cell, UNO_QUERY_THROW);
    const auto before = properties->getPropertyValue("NumberFormat");
    css::lang::Locale locale;
    properties->getPropertyValue("CharLocale") >>= locale;
    namespace kind = css::util::NumberFormat;
    for (const sal_Int16 type :
         {kind::DATE, kind::DATETIME, kind::TIME, kind::PERCENT, kind::CURRENCY, kind::LOGICAL}) {
        for (const auto& where : {locale, css::lang::Locale()}) {
            properties->setPropertyValue("NumberFormat", css::uno::Any(types->getStandardFormat(type, where)));
            if (shown(was.cell) == was.shows) return;
        }
    }
    properties->setPropertyValue("NumberFormat", before);
}

void put_value(const Reference<css::frame::XModel>& model, const Held& was) {
    if (was.error != 0) {
        was.cell->setFormula(formula_for(was.error));
    } else if (was.is_text) {
        Reference<css::text::XText>(was.cell, UNO_QUERY_THROW)->setString(was.shows);
    } else {
        was.cell->setValue(was.number);
        show_alike(model, was);
    }
}

/// The whole of the array formula that a cell is part of; none where it is part of none.
Reference<css::table::XCellRange> array_around(const Cell& cell) {
    const Reference<css::sheet::XArrayFormulaRange> array(cell, UNO_QUERY);
    if (!array.is() || array->getArrayFormula().isEmpty()) return {};
    const Reference<css::sheet::XSheetCellRange> in_sheet(cell, UNO_QUERY_THROW);
    const auto cursor = in_sheet->getSpreadsheet()->createCursorByRange(in_sheet);
    cursor->collapseToCurrentArray();
    return {cursor, UNO_QUERY_THROW};
}

void replace_formulas(const Reference<css::frame::XModel>& model, const Ours& ours) {
    for (const auto& sheet : sheets_of(model)) {
        std::vector<Held> kept;
        std::vector<Reference<css::table::XCellRange>> arrays;
        std::set<std::string> known;
        each_cell(filled(sheet, static_cast<sal_Int16>(CellFlags::FORMULA)), [&](const Cell& cell) {
            if (!ours.needed_by(cell->getFormula())) return;
            kept.push_back(held(cell));
            const auto array = array_around(cell);
            if (array.is() && known.insert(address_of(array)).second) arrays.push_back(array);
        });
        for (const auto& array : arrays) {
            Reference<css::sheet::XSheetOperation>(array, UNO_QUERY_THROW)->clearContents(CellFlags::FORMULA);
        }
        for (const Held& one : kept) put_value(model, one);
    }
}

bool needs(const Ours& ours, const Reference<css::sheet::XSheetCondition>& condition) {
    return ours.needed_by(condition->getFormula1()) || ours.needed_by(condition->getFormula2());
}

/// Entries that were checked by one of our functions take anything; what they say when selected stays.
void loosen_validations(const Reference<css::frame::XModel>& model, const Ours& ours) {
    for (const auto& sheet : sheets_of(model)) {
        const Reference<css::sheet::XUniqueCellFormatRangesSupplier> supplier(sheet, UNO_QUERY_THROW);
        const auto formats = supplier->getUniqueCellFormatRanges();
        for (sal_Int32 at = 0; at < formats->getCount(); ++at) {
            const Reference<css::beans::XPropertySet> alike(formats->getByIndex(at), UNO_QUERY_THROW);
            Reference<css::beans::XPropertySet> validation;
            alike->getPropertyValue("Validation") >>= validation;
            if (!validation.is() || !needs(ours, {validation, UNO_QUERY_THROW})) continue;
            const Reference<css::sheet::XSheetCondition> condition(validation, UNO_QUERY_THROW);
            validation->setPropertyValue("Type", css::uno::Any(css::sheet::ValidationType_ANY));
            condition->setFormula1({});
            condition->setFormula2({});
            alike->setPropertyValue("Validation", css::uno::Any(validation));
        }
    }
}

/// Where a condition with one of our functions holds today, its style stays for good; the condition goes.
class Conditions {
  public:
    Conditions(const Reference<css::sheet::XSpreadsheet>& sheet, const Ours& ours) : sheet_(sheet), ours_(ours) {}

    void replace() const {
        Reference<css::sheet::XConditionalFormats> all;
        Reference<css::beans::XPropertySet>(sheet_, UNO_QUERY_THROW)->getPropertyValue("ConditionalFormats") >>= all;
        if (!all.is()) return;
        for (const auto& format : all->getConditionalFormats()) {
            for (sal_Int32 at = format->getCount() - 1; at >= 0; --at) {
                const Reference<css::beans::XPropertySet> entry(format->getByIndex(at), UNO_QUERY);
                if (!entry.is() || !entry->getPropertySetInfo()->hasPropertyByName("Formula1")) continue;
                rtl::OUString formula;
                rtl::OUString style;
                entry->getPropertyValue("Formula1") >>= formula;
                entry->getPropertyValue("StyleName") >>= style;
                if (!ours_.needed_by(formula)) continue;
                Reference<css::sheet::XSheetCellRanges> where;
                Reference<css::beans::XPropertySet>(format, UNO_QUERY_THROW)->getPropertyValue("Range") >>= where;
                for (const auto& area : where->getRangeAddresses())
                    lay(formula, style, area, where->getRangeAddresses()[0]);
                format->removeByIndex(at);
            }
        }
    }

  private:
    /// The condition is calculated beyond the used part of the sheet, where it is copied as it stands from cell to
    /// cell.
    void lay(const rtl::OUString& formula, const rtl::OUString& style, const css::table::CellRangeAddress& area,
             const css::table::CellRangeAddress& base) const {
        const auto cursor = sheet_->createCursor();
        Reference<css::sheet::XUsedAreaCursor>(cursor, UNO_QUERY_THROW)->gotoEndOfUsedArea(false);
        const auto end = Reference<css::sheet::XCellRangeAddressable>(cursor, UNO_QUERY_THROW)->getRangeAddress();
        const sal_Int32 right = end.EndColumn + 1;
        const auto spare = [&](sal_Int32 column, sal_Int32 row) {
            return sheet_->getCellByPosition(right + column - base.StartColumn, row);
        };
        const auto first = spare(base.StartColumn, base.StartRow);
        first->setFormula("=" + formula);
        const auto source = Reference<css::sheet::XCellRangeAddressable>(first, UNO_QUERY_THROW)->getRangeAddress();
        const Reference<css::sheet::XCellRangeMovement> movement(sheet_, UNO_QUERY_THROW);
        for (sal_Int32 row = area.StartRow; row <= std::min(area.EndRow, end.EndRow); ++row) {
            for (sal_Int32 column = area.StartColumn; column <= std::min(area.EndColumn, end.EndColumn); ++column) {
                const auto copy = spare(column, row);
                movement->copyRange(Reference<css::sheet::XCellAddressable>(copy, UNO_QUERY_THROW)->getCellAddress(),
                                    source);
                const bool holds = copy->getError() == 0 && copy->getValue() != 0;
                if (column != base.StartColumn || row != base.StartRow) copy->setFormula({});
                if (!holds) continue;
                Reference<css::beans::XPropertySet>(sheet_->getCellByPosition(column, row), UNO_QUERY_THROW)
                    ->setPropertyValue("CellStyle", css::uno::Any(style));
            }
        }
        first->setFormula({});
    }

    Reference<css::sheet::XSpreadsheet> sheet_;
    const Ours& ours_;
};

Reference<css::container::XNameAccess> names_on(const Reference<css::uno::XInterface>& sheet) {
    Reference<css::container::XNameAccess> names;
    Reference<css::beans::XPropertySet>(sheet, UNO_QUERY_THROW)->getPropertyValue("NamedRanges") >>= names;
    return names;
}

void take_us_out(const Reference<css::frame::XModel>& model) {
    Ours ours;
    std::vector<Reference<css::container::XNameAccess>> names{names_of(model)};
    for (const auto& sheet : sheets_of(model)) names.push_back(names_on(sheet));
    for (const auto& some : names) ours.learn(some);
    // Conditions first: they may look at cells that are about to lose their formulas.
    for (const auto& sheet : sheets_of(model)) Conditions(sheet, ours).replace();
    loosen_validations(model, ours);
    replace_formulas(model, ours);
    for (const auto& some : names) ours.take_out(some);
    // Answers no longer follow the entries, so this is no form of ours any more.
    const auto property = to_ustring(workbooks::workbook_property);
    const auto own = Reference<css::document::XDocumentPropertiesSupplier>(model, UNO_QUERY_THROW)
                         ->getDocumentProperties()
                         ->getUserDefinedProperties();
    if (Reference<css::beans::XPropertySet>(own, UNO_QUERY_THROW)->getPropertySetInfo()->hasPropertyByName(property)) {
        own->removeProperty(property);
    }
}

}  // namespace

Done save_with_values(const Sent& sent) {
    const Reference<css::sheet::XSpreadsheetDocument> spreadsheet(sent.document(), UNO_QUERY);
    if (!spreadsheet.is()) return {menu_language().translated(translatable("Open a spreadsheet first."))};
    const rtl::OUString url = sent.url.isEmpty() && !sent.silent ? asked_for_place(sent) : sent.url;
    if (url.isEmpty()) return {.text = {}, .worth_a_window = false};
    const FileType* const type = type_of(url);
    if (type == nullptr) {
        return {menu_language().translated(
            translatable("No copy was written: give a file name that ends in .ods or .xlsx."))};
    }
    if (url == sent.document()->getURL()) {
        return {menu_language().translated(
            translatable("No copy was written: that is the file of the workbook itself. Give the copy another name."))};
    }
    try {
        const HiddenCopy copy(sent.context, sent.document());
        take_us_out(copy.model());
        css::beans::PropertyValue filter;
        filter.Name = "FilterName";
        filter.Value <<= rtl::OUString::createFromAscii(type->filter);
        const Reference<css::frame::XStorable> storable(copy.model(), UNO_QUERY_THROW);
        write_whole(url, [&](const rtl::OUString& part) { storable->storeToURL(part, {&filter, 1}); });
    } catch (const css::uno::Exception& failed) {
        return {menu_language().translated(
            translatable(
                "No copy was written. LibreOffice says: {1}. Does the folder exist, and is there enough space?"),
            {to_utf8(failed.Message)})};
    }
    return {menu_language().translated(
        translatable("The copy with values is {1}. It needs no extension: cells with REWORK functions keep the values "
                     "they showed, and all other formulas still calculate."),
        {to_utf8(url)})};
}

}  // namespace slipbark::addin

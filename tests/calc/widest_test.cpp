// The texts of each workbook in a language: none is cut by its column.

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/sheet/XSheetConditionalEntry.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

#include <algorithm>
#include <optional>

#include "calc.hpp"
#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "languages.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::Any;
using css::uno::UNO_QUERY_THROW;

namespace {

/// How many times wider than its column a text may be that shrinks to fit: smaller than three quarters nobody reads.
constexpr double most_shrunk = 1.34;

/// How wide a text may be in a cell: as wide as its column, and where it starts at the left and does not shrink, as the
/// columns after it, up to one whose cell is not empty (a formula that shows nothing is not); of a printed column, up
/// to the last that is printed, too.
struct Room {
    std::string text;
    sal_Int32 width;
};

/// Whether texts go to a second line, by the cells' style or by one that a condition lays over it.
bool is_wrapped(const Book& book, const Ref<css::beans::XPropertySet>& cells) {
    if (property_of<bool>(cells, "IsTextWrapped")) return true;
    Ref<css::container::XIndexAccess> conditions;
    cells->getPropertyValue("ConditionalFormat") >>= conditions;
    if (!conditions.is()) return false;
    Ref<css::container::XNameAccess> styles;
    Ref<css::style::XStyleFamiliesSupplier>(book.document(), UNO_QUERY_THROW)
        ->getStyleFamilies()
        ->getByName("CellStyles") >>= styles;
    for (sal_Int32 at = 0; at < conditions->getCount(); ++at) {
        const Ref<css::sheet::XSheetConditionalEntry> condition(conditions->getByIndex(at), UNO_QUERY_THROW);
        const Ref<css::beans::XPropertySet> style(styles->getByName(condition->getStyleName()), UNO_QUERY_THROW);
        if (property_of<bool>(style, "IsTextWrapped")) return true;
    }
    return false;
}

using Formulas = css::uno::Sequence<css::uno::Sequence<rtl::OUString>>;

std::vector<sal_Int32> widths_of(const Ref<css::table::XTableColumns>& columns) {
    std::vector<sal_Int32> widths;
    for (sal_Int32 at = 0; at < columns->getCount(); ++at) {
        const Ref<css::beans::XPropertySet> column(columns->getByIndex(at), UNO_QUERY_THROW);
        widths.push_back(property_of<bool>(column, "IsVisible") ? property_of<sal_Int32>(column, "Width") : 0);
    }
    return widths;
}

/// The column behind the last that is printed.
sal_Int32 printed_until(const Ref<css::sheet::XSpreadsheet>& sheet) {
    sal_Int32 until = 0;
    for (const auto& area : Ref<css::sheet::XPrintAreas>(sheet, UNO_QUERY_THROW)->getPrintAreas()) {
        until = std::max(until, area.EndColumn + 1);
    }
    return until;
}

/// No text is cut: each has room in its cell and in the empty ones after it, or room for three quarters of it where it
/// shrinks to fit.
void expect_whole_texts(const Book& book, const std::string& where) {
    std::map<std::string, std::pair<css::uno::Sequence<css::uno::Sequence<Any>>, Formulas>> shown;
    for (const auto& title : book.sheets()) {
        const auto used = used_cells(sheet_of(book, title));
        shown[title] = {Ref<css::sheet::XCellRangeData>(used, UNO_QUERY_THROW)->getDataArray(),
                        Ref<css::sheet::XCellRangeFormula>(used, UNO_QUERY_THROW)->getFormulaArray()};
    }
    // From here on cells lose their formulas.
    Ref<css::sheet::XCalculatable>(book.document(), UNO_QUERY_THROW)->enableAutomaticCalculation(false);
    for (const auto& [title, contents] : shown) {
        const auto& [values, formulas] = contents;
        const auto sheet = sheet_of(book, title);
        const auto used = used_cells(sheet);
        const auto columns = Ref<css::table::XColumnRowRange>(used, UNO_QUERY_THROW)->getColumns();
        const std::vector<sal_Int32> widths = widths_of(columns);
        const sal_Int32 until = printed_until(sheet);
        css::uno::Sequence<css::uno::Sequence<Any>> texts(values.getLength());
        for (auto& row : texts) {
            row.realloc(values[0].getLength());
            for (Any& cell : row) cell <<= rtl::OUString();
        }
        std::map<std::pair<sal_Int32, sal_Int32>, Room> rooms;  // column, row
        for (const auto& [cells, area, style] : alike(sheet)) {
            if (style == "Workings" || is_wrapped(book, cells) ||
                Ref<css::util::XMergeable>(cells, UNO_QUERY_THROW)->getIsMerged()) {
                continue;
            }
            constexpr sal_Int32 wide = 2000;  // of a column behind the last that is used
            const bool shrinks = property_of<bool>(cells, "ShrinkToFit");
            const auto starts = property_of<css::table::CellHoriJustify>(cells, "HoriJustify");
            const bool runs_over = !shrinks && (starts == css::table::CellHoriJustify_STANDARD ||
                                                starts == css::table::CellHoriJustify_LEFT);
            for (sal_Int32 row = area.StartRow; row <= area.EndRow && row < values.getLength(); ++row) {
                for (sal_Int32 at = area.StartColumn; at <= area.EndColumn && at < values[row].getLength(); ++at) {
                    const auto column = static_cast<std::size_t>(at);
                    rtl::OUString text;
                    if (!(values[row][at] >>= text) || text.isEmpty() || widths[column] == 0) continue;
                    sal_Int32 width = widths[column];
                    for (sal_Int32 next = at + 1; runs_over && (next < until || at >= until); ++next) {
                        const bool inside = next < formulas[row].getLength();
                        if (inside && !formulas[row][next].isEmpty()) break;
                        width += inside ? widths[static_cast<std::size_t>(next)] : wide;
                        if (!inside && at >= until) break;
                    }
                    rooms[{at, row}] = {utf8(text), shrinks ? static_cast<sal_Int32>(most_shrunk * width) : width};
                    texts.getArray()[row].getArray()[at] = values[row][at];
                }
            }
        }
        Ref<css::sheet::XCellRangeData>(used, UNO_QUERY_THROW)->setDataArray(texts);
        const auto needed_in = [&](sal_Int32 at) {
            const Ref<css::beans::XPropertySet> column(columns->getByIndex(at), UNO_QUERY_THROW);
            column->setPropertyValue("OptimalWidth", Any(true));
            return property_of<sal_Int32>(column, "Width");
        };
        constexpr sal_Int32 rounded = 50;
        for (sal_Int32 at = 0; at < columns->getCount(); ++at) {
            const auto first = rooms.lower_bound({at, 0});
            const auto last = rooms.lower_bound({at + 1, 0});
            // The host makes an empty column as wide as any.
            if (first == last || needed_in(at) <= widths[static_cast<std::size_t>(at)] + rounded) continue;
            const auto cell = [&](sal_Int32 row) {
                return Ref<css::text::XTextRange>(used->getCellByPosition(at, row), UNO_QUERY_THROW);
            };
            const std::string name =
                utf8(Ref<css::container::XNamed>(columns->getByIndex(at), UNO_QUERY_THROW)->getName());
            for (auto one = first; one != last; ++one) cell(one->first.second)->setString(rtl::OUString());
            for (auto one = first; one != last; ++one) {
                const auto& [text, width] = one->second;
                cell(one->first.second)->setString(ustring(text));
                const sal_Int32 needed = needed_in(at);
                cell(one->first.second)->setString(rtl::OUString());
                EXPECT_LE(needed, width + rounded)
                    << where << ", " << title << ", " << name << one->first.second + 1 << ", in 0.01 mm: " << text;
            }
        }
    }
}

class Texts : public testing::TestWithParam<workbooks::Listed> {};

INSTANTIATE_TEST_SUITE_P(CutTexts, Texts, testing::ValuesIn(workbooks::all),
                         [](const auto& listed) { return as_id(listed.param.file); });

TEST_P(Texts, AreNotCutInAnyLanguage) {
    for (const std::string& tag : tested_languages()) {
        expect_whole_texts(calc().open_url(url_of(std::string(GetParam().file), tag), true), tag);
    }
}

}  // namespace

}  // namespace slipbark::tests

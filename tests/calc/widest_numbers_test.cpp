// The widest numbers that a cell may come to show: sums of money up to 1E7, what has decimals up to 1E5, or as far as
// the entry lets, a late date in September, a loss of 100 %. No column of any workbook, in any language shipped, is
// narrower than the office's own optimal width for them, so that none shows ###.

#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
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

/// The widest number for cells of this look, nothing where they hold texts, names of years or workings.
std::optional<double> widest(const Book& book, const Ref<css::beans::XPropertySet>& cells, const std::string& style) {
    namespace nf = css::util::NumberFormat;
    if (style == "Workings" || style == "Default") return std::nullopt;
    const auto key = property_of<sal_Int32>(cells, "NumberFormat");
    const Ref<css::util::XNumberFormatsSupplier> supplier(book.document(), UNO_QUERY_THROW);
    const auto format = supplier->getNumberFormats()->getByKey(key);
    const auto type = property_of<sal_Int16>(format, "Type") & ~nf::DEFINED;
    if ((type & nf::DATE) != 0) return 47024;  // Thursday, 28 September 2028
    if (type == nf::PERCENT) return -1;
    if (type != nf::NUMBER || property_of<bool>(format, "StandardFormat")) return std::nullopt;
    // What has decimals is told of one tree, one box or one day, and is no sum of money.
    double high = property_of<sal_Int16>(format, "Decimals") == 0 ? 1e7 : 1e5;
    double low = -high;
    Ref<css::beans::XPropertySet> validation;
    cells->getPropertyValue("Validation") >>= validation;
    const auto allowed = property_of<css::sheet::ValidationType>(validation, "Type");
    if (allowed == css::sheet::ValidationType_WHOLE || allowed == css::sheet::ValidationType_DECIMAL) {
        const Ref<css::sheet::XSheetCondition> condition(validation, UNO_QUERY_THROW);
        high = std::min(high, condition->getFormula2().toDouble());
        low = std::max(low, condition->getFormula1().toDouble());
    }
    return low < 0 ? std::max(low, -high + 0.01) : high;
}

void expect_room(const Book& book, const std::string& where) {
    for (const auto& title : book.sheets()) {
        const auto sheet = sheet_of(book, title);
        const auto used = used_cells(sheet);
        const Ref<css::sheet::XCellRangeData> data(used, UNO_QUERY_THROW);
        auto values = data->getDataArray();
        // Only numbers stay, and the cells whose look is that of a number.
        for (auto& row : values) {
            for (Any& cell : row) cell <<= rtl::OUString();
        }
        for (const auto& [cells, area, style] : alike(sheet)) {
            const auto value = widest(book, cells, style);
            // What stretches over several columns has room.
            if (!value || Ref<css::util::XMergeable>(cells, UNO_QUERY_THROW)->getIsMerged()) continue;
            for (sal_Int32 row = area.StartRow; row <= area.EndRow && row < values.getLength(); ++row) {
                auto& line = values.getArray()[row];
                for (sal_Int32 column = area.StartColumn; column <= area.EndColumn && column < line.getLength();
                     ++column) {
                    line.getArray()[column] <<= *value;
                }
            }
        }
        data->setDataArray(values);
        const auto columns = Ref<css::table::XColumnRowRange>(used, UNO_QUERY_THROW)->getColumns();
        for (sal_Int32 at = 0; at < columns->getCount(); ++at) {
            const Ref<css::beans::XPropertySet> column(columns->getByIndex(at), UNO_QUERY_THROW);
            const auto width = property_of<sal_Int32>(column, "Width");
            column->setPropertyValue("OptimalWidth", Any(true));
            const auto needed = property_of<sal_Int32>(column, "Width");
            const bool numbers = std::any_of(values.begin(), values.end(),
                                             [&](const css::uno::Sequence<Any>& row) { return row[at].has<double>(); });
            if (!numbers) continue;
            EXPECT_LE(needed, width) << where << ", " << title << ", column " << at + 1 << ": in 0.01 mm";
        }
    }
}

class WidestNumbers : public testing::TestWithParam<workbooks::Listed> {};

INSTANTIATE_TEST_SUITE_P(Workbooks, WidestNumbers, testing::ValuesIn(workbooks::all),
                         [](const auto& listed) { return as_id(listed.param.file); });

TEST_P(WidestNumbers, FitTheirColumnsInEveryLanguage) {
    const workbooks::Listed& listed = GetParam();
    for (const std::string& tag : tested_languages()) {
        const catalogue::Language& language = catalogue::language_for(tag);
        const auto folder = bundled() / "slipbark" / catalogue::template_folder(language);
        expect_room(calc().copy_of(folder / language.translated(listed.category) / (std::string(listed.file) + ".ots")),
                    catalogue::template_folder(language));
    }
}

}  // namespace

}  // namespace slipbark::tests

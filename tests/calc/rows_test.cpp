// Rows of even height, in every language shipped: the lines of a form, one under the other, and the rows of a table. A
// row that grows (an entry too long for its column, a section's heading in another column) tears a form apart and
// pushes its neighbours off the page.

#include <algorithm>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <map>
#include <set>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// A row by the styles of its cells, those without one left out, and how high it is in 0.01 mm.
struct Row {
    std::map<sal_Int32, std::string> styles;
    sal_Int32 height = 0;

    [[nodiscard]] bool has(const std::set<std::string>& any_of) const {
        return std::ranges::any_of(styles, [&](const auto& cell) { return any_of.contains(cell.second); });
    }

    /// Whether it is a line of a form, a label with its value.
    [[nodiscard]] bool is_of_form() const { return has({"Label"}) && has(values()); }

    /// Whether it is a line of a form or a table, and no paragraph.
    [[nodiscard]] bool is_line() const { return has({"Label", "Table text"}) || has(values()); }

    static const std::set<std::string>& values() {
        static const std::set<std::string> all{"Input", "Input kept", "Suggested", "Answer", "Total"};
        return all;
    }
};

constexpr std::size_t most_rows = 300;  // a log of 5,000 lines goes on as it began
constexpr sal_Int32 most_columns = 40;

std::vector<Row> rows_of(const Book& book, const std::string& title) {
    const auto sheet = sheet_of(book, title);
    const auto used = Ref<css::table::XColumnRowRange>(used_cells(sheet), UNO_QUERY_THROW)->getRows();
    std::vector<Row> rows(std::min(most_rows, static_cast<std::size_t>(used->getCount())));
    for (std::size_t at = 0; at < rows.size(); ++at) {
        Ref<css::beans::XPropertySet>(used->getByIndex(static_cast<sal_Int32>(at)), UNO_QUERY_THROW)
            ->getPropertyValue("Height") >>= rows[at].height;
    }
    for (const auto& [cells, area, style] : alike(sheet)) {
        if (style == "Default" || style == "Workings") continue;
        const auto end = std::min(rows.size(), static_cast<std::size_t>(area.EndRow) + 1);
        for (auto row = static_cast<std::size_t>(area.StartRow); row < end; ++row) {
            for (sal_Int32 column = area.StartColumn; column <= std::min(area.EndColumn, most_columns); ++column) {
                rows[row].styles[column] = style;
            }
        }
    }
    return rows;
}

class EvenRows : public EachForm {};

TEST_P(EvenRows, StandInEveryTable) {
    const Book book = opened();
    int compared = 0;
    for (const auto& title : book.sheets()) {
        const auto rows = rows_of(book, title);
        for (std::size_t at = 1; at < rows.size(); ++at) {
            const bool of_one_table = rows[at].is_line() && rows[at].styles == rows[at - 1].styles;
            const bool of_one_form = rows[at].is_of_form() && rows[at - 1].is_of_form();
            if (!of_one_table && !of_one_form) continue;
            ++compared;
            // Less than a millimetre is not seen.
            EXPECT_NEAR(rows[at].height, rows[at - 1].height, 100) << title << ", row " << at + 1 << ", in 0.01 mm";
        }
    }
    EXPECT_GT(compared, 20);
}

INSTANTIATE_TEST_SUITE_P(Form, EvenRows, testing::ValuesIn(forms()), form_id);

}  // namespace

}  // namespace slipbark::tests

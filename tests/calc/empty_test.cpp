// "Empty the form": what is left of each workbook once what was typed is gone, and what a new block then gets.

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <functional>
#include <regex>
#include <set>

#include "send.hpp"
#include "workbooks/registry.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// Each filled cell, with its address and the name of its style.
void each_cell(
    const Book& book,
    const std::function<void(const Ref<css::table::XCell>&, const std::string&, const std::string&)>& visit) {
    namespace flags = css::sheet::CellFlags;
    for (const auto& name : book.sheets()) {
        const Ref<css::sheet::XCellRangesQuery> sheet(book.document()->getSheets()->getByName(ustring(name)),
                                                      UNO_QUERY_THROW);
        const auto found = sheet->queryContentCells(
            static_cast<sal_Int16>(flags::VALUE | flags::DATETIME | flags::STRING | flags::FORMULA));
        const auto all = found->getCells()->createEnumeration();
        while (all->hasMoreElements()) {
            const Ref<css::table::XCell> cell(all->nextElement(), UNO_QUERY_THROW);
            const Ref<css::beans::XPropertySet> properties(cell, UNO_QUERY_THROW);
            rtl::OUString address;
            rtl::OUString style;
            properties->getPropertyValue("AbsoluteName") >>= address;
            properties->getPropertyValue("CellStyle") >>= style;
            visit(cell, utf8(address.replaceAll("$", "")), utf8(style));
        }
    }
}

/// Figures that hold without any block: of the trade, or of nothing filled in.
bool holds_for_any_block(const std::string& address) {
    static const std::regex known(
        "Defaults\\..*|Crops\\..*"                // tables of the trade, and what follows from them alone
        "|Crew\\.[CD].*"                          // minutes a tree by method; here none, since no method is chosen
        "|Odds\\.[CE]8"                           // how far the take may differ, until something is counted
        "|Orders\\.M4[78]"                        // bleach and water for a tub, from the strengths that stay
        "|Rows\\.M4|Summary\\.G(6|7|8|11|12|13)"  // lines filled in: none
        "|Take\\.C1[345]"                         // days of the take checks, which stay
        "|Schedule\\..*");                        // stages as built in, until there are own dates
    return std::regex_match(address, known);
}

/// Formulas of answers, tables and suggestions that show a number.
std::vector<std::string> numbers(const Book& book) {
    const std::set<std::string> telling{"Answer", "Total", "Suggested", "Table text", "Sentence", "Unit"};
    std::vector<std::string> found;
    each_cell(book, [&](const auto& cell, const std::string& address, const std::string& style) {
        if (!telling.contains(style) || cell->getType() != css::table::CellContentType_FORMULA) return;
        const Shown shown = book.shown(address);
        if (!shown.is_text && !holds_for_any_block(address)) {
            found.push_back(address + " shows " + shown.text + ": " + utf8(cell->getFormula()));
        }
    });
    return found;
}

class Emptied : public testing::TestWithParam<std::string> {};

TEST_P(Emptied, ShowsNoErrorAndNoNumberThatLooksLikeAnAnswer) {
    const Book book = calc().open_url(url_of(GetParam()), true, false);
    const auto t0 = std::chrono::steady_clock::now();
    const std::string said = command(book, "empty-form");
    std::cerr << "TIME " << std::chrono::duration<double>(std::chrono::steady_clock::now() - t0).count() << "\n";
    EXPECT_EQ(said.rfind("The form is empty.", 0), 0U) << said;
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    std::cerr << "TIME " << std::chrono::duration<double>(std::chrono::steady_clock::now() - t0).count() << "\n";
    for (const auto& one : numbers(book)) ADD_FAILURE() << one;
}

INSTANTIATE_TEST_SUITE_P(Form, Emptied,
                         testing::Values("rework-plan", "inspection-log", "rework-or-replant", "spring-heat",
                                         "records"),
                         [](const auto& name) {
                             std::string word = name.param;
                             std::erase(word, '-');
                             return word;
                         });

}  // namespace
}  // namespace slipbark::tests

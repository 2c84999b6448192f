// "Save a copy with values": opened without the extension the copy shows what the workbook shows with it, and all other
// formulas go on calculating.

#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <fstream>
#include <iomanip>
#include <map>
#include <sstream>

#include "composer/registry.hpp"
#include "folder.hpp"
#include "languages.hpp"
#include "send.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// The used cells of each sheet.
std::vector<Ref<css::sheet::XCellRangeData>> used(const Book& book) {
    std::vector<Ref<css::sheet::XCellRangeData>> all;
    for (const auto& name : book.sheets()) {
        Ref<css::sheet::XSpreadsheet> sheet;
        book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
        const auto cursor = sheet->createCursor();
        Ref<css::sheet::XUsedAreaCursor>(cursor, UNO_QUERY_THROW)->gotoEndOfUsedArea(true);
        all.emplace_back(cursor, UNO_QUERY_THROW);
    }
    return all;
}

/// Formulas of cells, with their place.
std::vector<std::string> formulas(const Book& book) {
    std::vector<std::string> all;
    int at = 0;
    for (const auto& sheet : used(book)) {
        ++at;
        const auto rows = Ref<css::sheet::XCellRangeFormula>(sheet, UNO_QUERY_THROW)->getFormulaArray();
        for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
            for (sal_Int32 column = 0; column < rows[row].getLength(); ++column) {
                if (!rows[row][column].startsWith("=")) continue;
                all.push_back(std::to_string(at) + "," + std::to_string(column) + "," + std::to_string(row) +
                              utf8(rows[row][column]));
            }
        }
    }
    return all;
}

/// Numbers and texts of cells that are not blank, with their place. An error is told by an empty Any.
std::map<std::string, std::string> values(const Book& book) {
    std::map<std::string, std::string> all;
    int at = 0;
    for (const auto& sheet : used(book)) {
        ++at;
        const auto rows = sheet->getDataArray();
        for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
            for (sal_Int32 column = 0; column < rows[row].getLength(); ++column) {
                const css::uno::Any& cell = rows[row][column];
                std::string is = "an error";
                if (cell.has<double>()) {
                    std::ostringstream number;
                    // A file keeps 15 digits; a calculation from these ends in others.
                    number << std::setprecision(9) << cell.get<double>();
                    is = number.str();
                }
                if (cell.has<rtl::OUString>()) is = utf8(cell.get<rtl::OUString>());
                if (is.empty()) continue;
                all[std::to_string(at) + "," + std::to_string(column) + "," + std::to_string(row)] = is;
            }
        }
    }
    return all;
}

class CopyWithValues : public testing::TestWithParam<std::tuple<workbooks::Listed, const char*, std::string>> {};

INSTANTIATE_TEST_SUITE_P(Workbooks, CopyWithValues,
                         testing::Combine(testing::ValuesIn(workbooks::all), testing::Values("ods", "xlsx"),
                                          testing::ValuesIn(languages_one_by_one())),
                         [](const auto& tried) {
                             return as_id(std::get<0>(tried.param).file) + "_" + std::get<1>(tried.param) + "_" +
                                    std::get<2>(tried.param);
                         });

TEST_P(CopyWithValues, ShowsTheSameWithoutTheExtension) {
    const auto& [listed, ending, language] = GetParam();
    const Folder folder;
    const auto file = folder / (std::string("copy.") + ending);
    const Book book = calc().open_url(url_of(std::string(listed.file), language), true, false);
    const auto before = formulas(book);
    const auto wanted = values(book);
    const std::string said = command(book, "copy-with-values", file_url(file));
    ASSERT_TRUE(said.starts_with("The copy with values is ")) << said;

    EXPECT_EQ(formulas(book), before) << "the document at hand is left as it is";
    EXPECT_FALSE(Ref<css::util::XModifiable>(book.document(), UNO_QUERY_THROW)->isModified());

    const Book copy = bare().open(file);
    copy.recalculate();
    int live = 0;
    for (const auto& formula : formulas(copy)) {
        ++live;
        EXPECT_EQ(formula.find("SLIPBARK.REWORK"), std::string::npos) << formula;
    }
    EXPECT_GT(live, listed.file == "worked-examples" ? 0 : 20);
    const auto found = values(copy);
    int told = 0;
    for (const auto& [place, value] : wanted) {
        const auto at = found.find(place);
        const std::string is = at == found.end() ? "nothing" : at->second;
        if (is != value && ++told < 10) ADD_FAILURE() << place << " shows " << is << " in place of " << value;
    }
    EXPECT_EQ(told, 0);
}

TEST(SaveWithValues, KeepsAllOtherFormulasAlive) {
    const Folder folder;
    const Book book = calc().new_book(false);
    book.set("A1", 3200);
    book.set_formula("A2", "=REWORK.STICKS(A1;2;9;0.15)");
    book.set_formula("A3", "=2*A2");
    book.set_formula("A4", "=REWORK.TAKE(0;0)");
    book.set_formula("A5", "=IF(ISNA(A4);\"nothing grafted\";A4)");
    ASSERT_TRUE(command(book, "copy-with-values", file_url(folder / "copy.ods")).starts_with("The copy with values"));
    const Book copy = bare().open(folder / "copy.ods");
    // 3,200 grafts of 2 buds, 4 to a stick of 9, and 15 % more: 920.
    EXPECT_EQ(copy.formula("A2"), "920");
    EXPECT_EQ(copy.shown("A3").number, 1840);
    copy.set("A2", 100);
    EXPECT_EQ(copy.shown("A3").number, 200);
    EXPECT_EQ(copy.shown("A5").text, "nothing grafted");
}

TEST(SaveWithValues, SaysWhyItWroteNothing) {
    const Folder folder;
    const Book book = calc().new_book(false);
    book.set_formula("A1", "=REWORK.STICKS(3200;2;9;0.15)");
    EXPECT_TRUE(
        command(book, "copy-with-values", file_url(folder / "copy.csv")).starts_with("No copy was written: give"));
    // A file where a folder would have to be.
    std::ofstream(folder / "file") << "in the way";
    const std::string said = command(book, "copy-with-values", file_url(folder / "file" / "copy.ods"));
    EXPECT_TRUE(said.starts_with("No copy was written. LibreOffice says: ")) << said;
    book.save_as(folder / "own.ods", "calc8");
    const Book own = calc().open(folder / "own.ods", false);
    EXPECT_TRUE(command(own, "copy-with-values", file_url(folder / "own.ods"))
                    .starts_with("No copy was written: that is the file"));
    EXPECT_FALSE(std::filesystem::exists(folder / "copy.csv"));
}

}  // namespace
}  // namespace slipbark::tests

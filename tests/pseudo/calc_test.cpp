// The extension in a language whose letters all have accents, in real Calc: that the component finds the language of
// the office, that commands and cells speak it, and that no number of a workbook hangs on a word.

#include <gtest/gtest.h>

#include <algorithm>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <sstream>

#include "catalogue/catalogue.hpp"
#include "composer/registry.hpp"
#include "office/office.hpp"
#include "plain.hpp"

namespace slipbark::tests {
namespace {

using namespace office;
using css::uno::UNO_QUERY_THROW;

TEST(PseudoCalc, SpeaksTheLanguageOfTheOffice) {
    const Office office({.bundled = SLIPBARK_PSEUDO_BUNDLED, .profile = {}, .words = {}});
    const Book book = office.new_book(false);
    const Ref<css::frame::XModel> model(book.document(), UNO_QUERY_THROW);
    const auto command = [&](const std::string& name) {
        const auto result = office.dispatch(book, "slipbark:" + name, silent());
        css::frame::DispatchResultEvent done;
        EXPECT_TRUE(result >>= done) << "nobody took the command " << name;
        rtl::OUString text;
        done.Result >>= text;
        EXPECT_FALSE(text.isEmpty()) << name;
        return utf8(text);
    };
    const auto explain = [&](const std::string& address) {
        const Ref<css::view::XSelectionSupplier> selection(model->getCurrentController(), UNO_QUERY_THROW);
        selection->select(css::uno::Any(book.range(address)));
        return command("explain");
    };
    const auto* sticks = catalogue::find("STICKS");
    book.set("B2", 15);
    book.set_formula("A1", "=REWORK.WHY(\"STICKS\";3200;2;9;15)");
    book.set_formula("A2", "=REWORK.STICKS(3200;2;9;B2)");
    book.set_formula("A3", "=REWORK.TAKE(0;0)");
    book.set_formula("A4", "=REWORK.WHY(\"TAKE\";0;0)");
    book.set_formula("A5", "=1/0");
    book.set_formula("A6", "=REWORK.STICKS(3200;2;9;A5)");
    book.set_formula("A7", "=SUM(1;2)");

    EXPECT_TRUE(book.shown("A1").text.starts_with("spare ẃáś 15: ǵíṽé á ")) << book.shown("A1").text;
    EXPECT_TRUE(is_accented(book.shown("A1").text, sticks));
    EXPECT_FALSE(book.shown("A4").text.empty());
    EXPECT_TRUE(is_accented(book.shown("A4").text, nullptr));
    EXPECT_TRUE(is_accented(explain("A2"), sticks, {"Err:502", "B2"}));
    EXPECT_TRUE(is_accented(explain("A3"), catalogue::find("TAKE"), {"#N/A"}));
    EXPECT_TRUE(is_accented(explain("A6"), sticks, {"#DIV/0!", "A5", "$Sheet1.", "Sheet1.", "A6"}));
    EXPECT_TRUE(is_accented(explain("A7"), nullptr));
    EXPECT_TRUE(is_accented(command("about"), nullptr));
    EXPECT_TRUE(is_accented(command("keep-plan"), nullptr));
    EXPECT_TRUE(is_accented(command("nonsense"), nullptr));
    EXPECT_TRUE(command("guide").ends_with("/guide-en-US.html")) << command("guide");
}

/// Each number with its cell, sheet by sheet in their order, since their names are translated.
std::vector<std::string> numbers(const Book& book) {
    std::vector<std::string> all;
    int at = 0;
    for (const std::string& name : book.sheets()) {
        ++at;
        Ref<css::sheet::XSpreadsheet> sheet;
        book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
        const auto cursor = sheet->createCursor();
        Ref<css::sheet::XUsedAreaCursor>(cursor, UNO_QUERY_THROW)->gotoEndOfUsedArea(true);
        const auto rows = Ref<css::sheet::XCellRangeData>(cursor, UNO_QUERY_THROW)->getDataArray();
        for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
            for (sal_Int32 column = 0; column < rows[row].getLength(); ++column) {
                double number = 0;
                if (rows[row][column].getValueTypeClass() != css::uno::TypeClass_DOUBLE) continue;
                rows[row][column] >>= number;
                std::ostringstream said;
                said << "sheet " << at << ", column " << column + 1 << ", row " << row + 1 << ": " << number;
                all.push_back(said.str());
            }
        }
    }
    return all;
}

TEST(PseudoCalc, ItsWorkbooksShowTheNumbersOfTheEnglish) {
    const Office office({.bundled = SLIPBARK_PSEUDO_BUNDLED, .profile = {}, .words = {}});
    for (const auto& listed : workbooks::all) {
        const std::string file = std::string(listed.file) + ".fods";
        const Book english = office.copy_of(std::filesystem::path(SLIPBARK_PSEUDO_EXAMPLES) / file);
        const Book accented = office.copy_of(std::filesystem::path(SLIPBARK_PSEUDO_WORKBOOKS) / file);
        english.recalculate();
        accented.recalculate();
        EXPECT_EQ(accented.errors(), std::vector<std::string>()) << file;
        const auto wanted = numbers(english);
        const auto found = numbers(accented);
        EXPECT_GT(wanted.size(), 50U) << file;
        const auto [here, there] = std::mismatch(wanted.begin(), wanted.end(), found.begin(), found.end());
        EXPECT_EQ(here == wanted.end() ? "" : *here, there == found.end() ? "" : *there) << file;
    }
}

}  // namespace
}  // namespace slipbark::tests

// UNFIT and SENTENCE in cells: what only the host can tell, which is what it hands over of a blank cell, of one with an
// error and of a text, and how long lines of them take.

#include <chrono>
#include <com/sun/star/sheet/FillDirection.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellSeries.hpp>
#include <iostream>

#include "calc.hpp"
#include "folder.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

constexpr int no_answer_code = 32767;
constexpr int division_code = 532;
constexpr int bad_argument_code = 502;

class CellTexts : public testing::Test {
  protected:
    CellTexts() : book(calc().new_book()) {
        book.set_text("A1", "Trees");
        book.set_formula("C1", R"(=REWORK.UNFIT(A1;B1;{"whole";1;10000;"trees"}))");
    }
    [[nodiscard]] Shown said() const { return book.shown("C1"); }

    Book book;
};

TEST_F(CellTexts, ABlankCellIsNo0) {
    EXPECT_EQ(said().text, "Trees is blank: enter a whole number from 1 to 10,000 (trees).");
    book.set("B1", 0);
    EXPECT_EQ(said().text, "Trees was 0: enter a whole number from 1 to 10,000 (trees).");
    book.set("B1", 310);
    EXPECT_EQ(said().text, "");
    EXPECT_TRUE(said().is_text);
    book.set_formula("B1", "=\"\"");
    EXPECT_EQ(said().text, "Trees is blank: enter a whole number from 1 to 10,000 (trees).");
}

TEST_F(CellTexts, AnErrorInTheCellGivesASentence) {
    for (const char* wrong : {"=1/0", "=NA()", "=REWORK.TAKE(0;0)", "=SQRT(-1)"}) {
        book.set_formula("B1", wrong);
        EXPECT_EQ(said().error, 0) << wrong;
        EXPECT_EQ(said().text, "Trees has an error in its cell: enter a whole number from 1 to 10,000 (trees).")
            << wrong;
    }
    book.set_formula("A1", "=1/0");
    book.set("B1", 0);
    EXPECT_EQ(said().text, "This entry was 0: enter a whole number from 1 to 10,000 (trees).");
}

TEST_F(CellTexts, ATextIsNoNumber) {
    book.set_text("B1", "7");
    EXPECT_EQ(said().text, "Trees was the text \"7\": enter a whole number from 1 to 10,000 (trees).");
    book.set_formula("B1", "=TRUE()");
    EXPECT_EQ(said().text, "");  // 1, as everywhere in the host
}

TEST_F(CellTexts, NamesTheFirstOfALineAndNothingOfABlankOne) {
    book.set_text("A5", "Row");
    book.set_text("B5", "Placed");
    book.set_text("C5", "Live");
    int row = 1;
    for (const auto& [word, high] : {std::pair{"text", "the row"}, {"whole", "1000"}, {"whole", "Placed"}}) {
        const std::string at = std::to_string(++row);
        book.set_text("H" + at, word);
        if (row == 2) book.set_text("I" + at, high);
        if (row > 2) book.set("I" + at, 0);
        if (row == 3) book.set("J" + at, 1000);
        if (row == 4) book.set_text("J" + at, high);
    }
    book.set_text("K4", "or blank");
    book.set_formula("E6", "=REWORK.UNFIT(A$5:C$5;A6:C6;$H$2:$K$4)");
    EXPECT_EQ(book.shown("E6").text, "");
    book.set("A6", 12);
    EXPECT_EQ(book.shown("E6").text, "Placed is blank: enter a whole number from 0 to 1,000.");
    book.set("B6", 6);
    EXPECT_EQ(book.shown("E6").text, "");
    book.set("C6", 7);
    EXPECT_EQ(book.shown("E6").text, "Live was 7: enter a whole number from 0 to 6.");
    book.set_formula("C6", "=NA()");
    EXPECT_EQ(book.shown("E6").text, "Live has an error in its cell: enter a whole number from 0 to 6.");
    for (const char* cell : {"A6", "B6", "C6"}) clear(book, cell);
    EXPECT_EQ(book.shown("E6").text, "");
}

TEST_F(CellTexts, RefusesArraysAndSaysWhy) {
    book.set_formula("D1", R"(=REWORK.UNFIT({"a"};B1;{"whole"}))");
    EXPECT_NE(book.shown("D1").error, 0);
    book.set_formula("D1", R"(=REWORK.UNFIT(A1;B1;{"natural"}))");
    EXPECT_EQ(book.shown("D1").error, bad_argument_code);
    book.set_formula("D1", R"(=REWORK.WHY("UNFIT";A1:A1;B1:B1;{"natural"}))");
    EXPECT_EQ(book.shown("D1").text,
              "kind was \"natural\": give one of whole, number, share, date, one of and text first.");
    book.set_formula("D1", R"(=REWORK.WHY("UNFIT";A1;B1;{"whole";1;10}))");
    EXPECT_EQ(book.shown("D1").text, "");
}

TEST_F(CellTexts, DaysCountFromTheDocumentsDay0) {
    book.set_null_date(1904, 1, 1);
    book.set_formula("D1", R"(=REWORK.UNFIT(A1;B1;{"date";1;10}))");
    book.set("B1", 0);
    EXPECT_EQ(book.shown("D1").text, "Trees was 0: enter a date from 2 Jan 1904 to 11 Jan 1904.");
    book.set_formula("D1", R"(=REWORK.SENTENCE("{1:date}";1))");
    EXPECT_EQ(book.shown("D1").text, "2 Jan 1904");
}

TEST_F(CellTexts, ASentenceTakesWhatCellsHold) {
    book.set("B1", 1840);
    book.set_formula("D1", R"(=REWORK.SENTENCE("Order {1:count} {1|stick|sticks}, {2:list}.";B1;E1:E3))");
    book.set_text("E1", "M1");
    book.set_text("E3", "S7");
    EXPECT_EQ(book.shown("D1").text, "Order 1,840 sticks, M1 and S7.");
    book.set("B1", 1);
    EXPECT_EQ(book.shown("D1").text, "Order 1 stick, M1 and S7.");
    book.set_formula("B1", "=\"\"");
    EXPECT_EQ(book.shown("D1").text, "Order  sticks, M1 and S7.");
    book.set_formula("D1", R"(=REWORK.SENTENCE("es:{1:date}: {2:percent}";46650;0.125))");
    EXPECT_EQ(book.shown("D1").text, "20 sep 2027: 12,5 %");
}

TEST_F(CellTexts, AnErrorInAPlaceIsThatError) {
    book.set_formula("D1", R"(=REWORK.SENTENCE("{1:count}";B1))");
    book.set_formula("B1", "=1/0");
    EXPECT_EQ(book.shown("D1").error, division_code);
    book.set_formula("B1", "=NA()");
    EXPECT_EQ(book.shown("D1").error, no_answer_code);
    book.set_formula("D1", R"(=REWORK.SENTENCE("{1:count} {2}";1))");
    EXPECT_EQ(book.shown("D1").error, bad_argument_code);
    book.set_formula("D1", R"(=REWORK.SENTENCE("{1:count}";1;2))");
    EXPECT_EQ(book.shown("D1").error, bad_argument_code);
    book.set_formula("D1", R"(=REWORK.WHY("SENTENCE";"{1:count}";1;2))");
    EXPECT_EQ(book.shown("D1").text, "pattern does not use place 2, which is given.");
}

// The sentence of UNFIT is the office's, that of SENTENCE its pattern's.
TEST(SpanishCellTexts, SpeakTheOfficesLanguageAndThePatterns) {
    const Folder folder;
    make_profile(folder / "profile", {.locale = "es-ES", .language = "es"});
    Office office(start({.bundled = bundled(), .profile = folder / "profile", .words = {}}));
    const Book book = office.new_book();
    book.set_text("A1", "Árboles");
    book.set_formula("C1", R"(=REWORK.UNFIT(A1;B1;{"whole";1;10000;"árboles"}))");
    EXPECT_EQ(book.shown("C1").text, "Árboles sin rellenar: escriba un número entero de 1 a 10\u00a0000 (árboles).");
    book.set_formula("C2", R"(=REWORK.SENTENCE("{1:count} {1|day|days}, {2:date}";12000;46650))");
    EXPECT_EQ(book.shown("C2").text, "12,000 days, 20 Sep 2027");
    book.set_formula("C3", R"(=REWORK.SENTENCE("es:{1:count} {1|día|días}, {2:date}";12000;46650))");
    EXPECT_EQ(book.shown("C3").text, "12\u00a0000 días, 20 sep 2027");
}

/// Seconds of a hard recalculation of 5,000 lines of eight entries that are judged by a formula; the best of five.
double seconds(const std::string& formula, bool filled) {
    constexpr int lines = 5000;
    const Book book = calc().new_book();
    const Ref<css::sheet::XCalculatable> calculation(book.document(), css::uno::UNO_QUERY_THROW);
    calculation->enableAutomaticCalculation(false);
    const std::string last = std::to_string(lines + 5);
    const char* labels[]{"Row", "Tree", "Grafter", "Batch", "Placed", "First", "Second", "Third"};
    const char* words[]{"text", "whole", "text", "text", "whole", "whole", "whole", "whole"};
    for (int column = 0; column < 8; ++column) {
        const std::string letter(1, static_cast<char>('B' + column));
        book.set_text(letter + "5", labels[column]);
        const std::string row = std::to_string(column + 1);
        book.set_text("W" + row, words[column]);
        if (words[column][0] == 'w') {
            book.set("X" + row, 0);
            book.set("Y" + row, 1000);
        }
        book.set_text("AA" + row, "or blank");
    }
    const std::string first_line = "B6:I" + last;
    if (filled) {
        css::uno::Sequence<css::uno::Sequence<css::uno::Any>> rows(lines);
        for (auto& row : rows) {
            row.realloc(8);
            for (sal_Int32 at = 0; at < 8; ++at) row[at] <<= 4.0;
        }
        Ref<css::sheet::XCellRangeData>(book.range(first_line), css::uno::UNO_QUERY_THROW)->setDataArray(rows);
    }
    book.set_formula("K6", formula);
    const Ref<css::sheet::XCellSeries> column(book.range("K6:K" + last), css::uno::UNO_QUERY_THROW);
    column->fillAuto(css::sheet::FillDirection_TO_BOTTOM, 1);
    double best = 1E9;
    for (int run = 0; run < 5; ++run) {
        const auto from = std::chrono::steady_clock::now();
        calculation->calculateAll();
        best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count());
    }
    EXPECT_EQ(book.shown("K" + last).text, "") << formula;
    return best;
}

// A log has it in each line, used or not. Ratios of one run, since the machine may be busy; measured 27 November 2026
// as docs/benchmarks.md has them.
TEST(CellTextsAtSize, ALineCostsAFewOfTheHostsFormulas) {
    const std::string unfit = "=REWORK.UNFIT(B$5:I$5;B6:I6;$W$1:$AA$8)";
    // What such a line was judged by before: three of the host's own formulas in one.
    const std::string counted = "=IF(COUNTA(B6:I6)=0;\"\";IF(COUNT(C6;F6:I6)<COUNTA(C6;F6:I6);\"number\";\"\"))";
    const double host = seconds(counted, true);
    const double blank = seconds(unfit, false);
    const double used = seconds(unfit, true);
    std::cerr << "5,000 lines: host " << host << " s, UNFIT blank " << blank << " s, filled " << used << " s\n";
    EXPECT_LT(blank, 60 * host);
    EXPECT_LT(used, 150 * host);
}

}  // namespace
}  // namespace slipbark::tests

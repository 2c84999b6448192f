// UNFIT and the kinds of entries. The sentences are ours; what fits is said by the contract of the kinds, and is common
// practice for forms: a blank is no 0, a text is no number, an error in a cell is no entry.

#include "catalogue/unfit.hpp"

#include <gtest/gtest.h>

#include "catalogue/entry_kind.hpp"
#include "formula.hpp"

namespace slipbark::tests {

using catalogue::CellError;
using catalogue::entry_as_cells;
using catalogue::entry_from_cells;
using catalogue::EntryKind;
using catalogue::read_entry;
using catalogue::SheetCell;
using catalogue::SheetCells;

namespace {

SheetCells cells(std::vector<SheetCell> line) {
    return {[line = std::move(line)] { return line; }, usual_null_date()};
}

const catalogue::Language english;

/// What UNFIT says of one entry called Trees.
std::string unfit(const SheetCell& value, const std::string& entry) {
    const auto kind = entry_as_cells(read_entry(entry), usual_null_date());
    return catalogue::unfit_in(english, cells({"Trees"}), cells({value}), {kind.size(), kind});
}

std::string why_not(const std::string& entry) {
    try {
        read_entry(entry);
    } catch (const bad_argument& bad) {
        return bad.what();
    }
    return "";
}

TEST(Unfit, TakesWhatFits) {
    for (const double fits : {1.0, 7.0, 10000.0}) EXPECT_EQ(unfit(fits, "whole 1 10000 trees"), "") << fits;
    EXPECT_EQ(unfit(-2.5, "number -100 200"), "");
    EXPECT_EQ(unfit(0.0, "share 0 1"), "");
    EXPECT_EQ(unfit(46650.0, "date"), "");
    EXPECT_EQ(unfit("Yes ", "one of yes | no"), "");
    EXPECT_EQ(unfit(7.0, "text the row"), "");
    EXPECT_EQ(unfit({}, "whole 1 10 or blank"), "");
    EXPECT_EQ(unfit("", "one of yes | no or blank"), "");
}

TEST(Unfit, SaysWhatToEnter) {
    const std::string whole = "whole 1 10000 trees";
    EXPECT_EQ(unfit({}, whole), "Trees is blank: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit("  ", whole), "Trees is blank: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit(0.0, whole), "Trees was 0: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit(2.5, whole), "Trees was 2.5: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit(10001.0, whole), "Trees was 10001: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit("7", whole), "Trees was the text \"7\": enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit(CellError{}, whole),
              "Trees has an error in its cell: enter a whole number from 1 to 10,000 (trees).");
    EXPECT_EQ(unfit(1.5, "share 0 1"), "Trees was 150 %: enter a share from 0 % to 100 %.");
    EXPECT_EQ(unfit("soon", "date 2000-01-01 2099-12-31"),
              "Trees was the text \"soon\": enter a date from 1 Jan 2000 to 31 Dec 2099.");
    EXPECT_EQ(unfit(0.0, "date 2000-01-01 -"), "Trees was 0: enter a date, 1 Jan 2000 or later.");
    // 31 December 1999 is day 36,525 of the host's calendar (E_serials).
    EXPECT_EQ(unfit(36525.0, "date 2000-01-01 -"), "Trees was 31 Dec 1999: enter a date, 1 Jan 2000 or later.");
    EXPECT_EQ(unfit("maybe", "one of yes | no"), "Trees was the text \"maybe\": enter yes or no.");
    EXPECT_EQ(unfit({}, "text the block's name"), "Trees is blank: enter the block's name.");
    EXPECT_EQ(unfit(-1.0, "number 0 -"), "Trees was -1: enter a number, 0 or more.");
    EXPECT_EQ(unfit(9.0, "whole - 8"), "Trees was 9: enter a whole number, at most 8.");
    EXPECT_EQ(unfit("x", "number"), "Trees was the text \"x\": enter a number.");
}

TEST(Unfit, SpeaksTheLanguageThatIsAsked) {
    const auto& spanish = catalogue::language_for("es");
    const std::vector<Cell> kind{"whole", 1.0, 10000.0, "árboles"};
    EXPECT_EQ(catalogue::unfit_in(spanish, cells({"Árboles"}), cells({0.0}), {4, kind}),
              "Árboles era 0: escriba un número entero de 1 a 10\u00a0000 (árboles).");
    EXPECT_EQ(catalogue::unfit_in(spanish, cells({"Fecha"}), cells({{}}), {3, {"date", 36526.0, {}}}),
              "Fecha sin rellenar: escriba una fecha, 1 ene 2000 o posterior.");
}

class UnfitLine : public testing::Test {
  protected:
    static std::string unfit(const std::vector<SheetCell>& values) {
        const Table kinds(4, {"text",
                              "the row",
                              {},
                              {},  //
                              "whole",
                              0.0,
                              1000.0,
                              "grafts",  //
                              "whole",
                              0.0,
                              "Grafts placed",
                              "or blank"});
        return catalogue::unfit_in(english, cells({"Row", "Grafts placed", "Live"}), cells(values), kinds);
    }
};

TEST_F(UnfitLine, NamesTheFirstThatDoesNotFit) {
    EXPECT_EQ(unfit({"7", 8.0, 6.0}), "");
    EXPECT_EQ(unfit({"7", 8.0, {}}), "");
    EXPECT_EQ(unfit({{}, -8.0, 6.0}), "Row is blank: enter the row.");
    EXPECT_EQ(unfit({"7", -8.0, 60.0}), "Grafts placed was -8: enter a whole number from 0 to 1,000 (grafts).");
}

TEST_F(UnfitLine, AnEndMayBeAnotherEntryOfTheLine) {
    EXPECT_EQ(unfit({"7", 8.0, 9.0}), "Live was 9: enter a whole number from 0 to 8.");
    EXPECT_EQ(unfit({"7", 8.0, 8.0}), "");
    // An end that holds no number is named itself, and limits nothing.
    EXPECT_EQ(unfit({"7", {}, 9.0}), "Grafts placed is blank: enter a whole number from 0 to 1,000 (grafts).");
}

TEST_F(UnfitLine, ABlankLineFitsAndNothingElseIsReadForIt) {
    EXPECT_EQ(unfit({{}, {}, {}}), "");
    EXPECT_EQ(unfit({{}, "", " "}), "");
    EXPECT_NE(unfit({{}, {}, CellError{}}), "");
    const SheetCells labels{[]() -> std::vector<SheetCell> { throw std::logic_error("labels were read"); }, {}};
    EXPECT_EQ(catalogue::unfit_in(english, labels, cells({{}, {}, {}}), {1, {"date"}}), "");
    EXPECT_EQ(catalogue::unfit_in(english, labels, cells({1.0, 2.0, 3.0}), {1, {"number"}}), "");
}

TEST_F(UnfitLine, LabelsAndKindsGoWithTheEntries) {
    EXPECT_THROW(catalogue::unfit_in(english, cells({"A"}), cells({1.0, {}}), {1, {"date"}}), bad_argument);
    EXPECT_THROW(catalogue::unfit_in(english, cells({"A", "B", "C"}), cells({1.0, 2.0, 3.0}), {1, {"date", "date"}}),
                 bad_argument);
    EXPECT_THROW(catalogue::unfit_in(english, cells({"A"}), cells({1.0}), {3, {"whole", 0.0, "Trees"}}), bad_argument);
    EXPECT_THROW(catalogue::unfit_in(english, cells({"A"}), cells({1.0}), {1, {"natural"}}), bad_argument);
    // A row of kinds without a word asks for nothing but that it is no error.
    EXPECT_EQ(catalogue::unfit_in(english, cells({"A", "B"}), cells({1.0, {}}), {1, {"date", Cell{}}}), "");
    EXPECT_EQ(catalogue::unfit_in(english, cells({{}, "B"}), cells({CellError{}, 1.0}), {1, {Cell{}, "date"}}),
              "This entry has an error in its cell.");
}

TEST(EntryKinds, AreReadFromTheirWords) {
    const EntryKind whole = read_entry("whole 1 10000 trees");
    EXPECT_EQ(whole.of, EntryKind::Of::whole);
    EXPECT_EQ(whole.low, catalogue::EntryEnd(1.0));
    EXPECT_EQ(whole.high, catalogue::EntryEnd(10000.0));
    EXPECT_EQ(whole.what, "trees");
    EXPECT_FALSE(whole.or_blank);
    const EntryKind number = read_entry("number lows \"Highest of all\" degrees C or blank");
    EXPECT_EQ(number.low, catalogue::EntryEnd("lows"));
    EXPECT_EQ(number.high, catalogue::EntryEnd("Highest of all"));
    EXPECT_EQ(number.what, "degrees C");
    EXPECT_TRUE(number.or_blank);
    EXPECT_EQ(read_entry("date or blank"), (EntryKind{.of = EntryKind::Of::date, .or_blank = true}));
    EXPECT_EQ(read_entry("one of cool store | shade").choices, (std::vector<std::string>{"cool store", "shade"}));
    EXPECT_EQ(read_entry("text the grafter's name or mark").what, "the grafter's name or mark");
    EXPECT_EQ(read_entry(""), EntryKind{});
    EXPECT_EQ(why_not("natural 1 3"),
              "entry was \"natural\": give one of whole, number, share, date, one of and text first.");
    EXPECT_EQ(why_not("one of"), "entry was one of nothing: give words with | between them.");
}

TEST(EntryKinds, GoThroughCellsAsTheyAre) {
    for (const char* words : {"whole 1 10000 trees", "number - 200", "share 0 1 or blank", "date", "one of a | b",
                              "text the name or blank", "number low \"High one\" kg", ""}) {
        const EntryKind kind = read_entry(words);
        EXPECT_EQ(entry_from_cells("kind", entry_as_cells(kind, usual_null_date())), kind) << words;
    }
    const auto day = entry_as_cells(read_entry("date 2000-01-01"), usual_null_date());
    EXPECT_EQ(std::get<double>(day.at(1)), 36526);  // E_serials
}

}  // namespace
}  // namespace slipbark::tests

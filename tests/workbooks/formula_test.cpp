// How formulas are stored: OpenDocument 1.3 part 4 (OpenFormula), sections 5.8 "References" and 5.10 "Quoted text".
#include "workbooks/formula.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include "workbooks/sheet.hpp"

namespace slipbark::compose {
namespace {

std::string stored(const std::string& typed) {
    return stored_formula(typed, [](const std::string& name) -> std::string {
        if (name == "trees" || name == "graft_date") return name;
        throw std::logic_error(name);
    });
}

TEST(StoredFormula, PutsAddressesIntoBrackets) {
    EXPECT_EQ(stored("=C5+$D$6"), "[.C5]+[.$D$6]");
    EXPECT_EQ(stored("=SUM(B7:F20)"), "SUM([.B7:.F20])");
    EXPECT_EQ(stored("=Plan.C5*$Plan.C$6"), "[$Plan.C5]*[$Plan.C$6]");
    EXPECT_EQ(stored("=SUM(Take.I5:I32)"), "SUM([$Take.I5:.I32])");
}

TEST(StoredFormula, NamesTheServiceOfTheExtensionsFunctions) {
    EXPECT_EQ(stored("=REWORK.STICKS(trees;2;9;0.15)"), "SLIPBARK.REWORK.STICKS(trees;2;9;0.15)");
    EXPECT_EQ(stored("=IF(LOG10(trees)>1;REWORK.VERSION();\"\")"), "IF(LOG10(trees)>1;SLIPBARK.REWORK.VERSION();\"\")");
}

TEST(StoredFormula, LeavesTextsAndNumbersAlone) {
    EXPECT_EQ(stored("=\"C5 and trees\"&1.5E3"), "\"C5 and trees\"&1.5E3");
    EXPECT_EQ(stored(R"(="say ""C5""")"), R"("say ""C5""")");
    EXPECT_EQ(stored("=SUM({1;2|3;4})"), "SUM({1;2|3;4})");
}

TEST(StoredFormula, RefusesWhatIsNoRangesName) {
    EXPECT_THROW(stored("=tree+1"), std::logic_error);
    EXPECT_THROW(stored("=\"open"), std::logic_error);
}

TEST(Names, MustNotReadAsAddresses) {
    EXPECT_TRUE(looks_like_address("row1"));
    EXPECT_TRUE(looks_like_address("TAX2027"));
    EXPECT_FALSE(looks_like_address("trees"));
    EXPECT_FALSE(looks_like_address("year_1"));
}

TEST(Why, AsksForTheFirstCallOfTheExtension) {
    EXPECT_EQ(why("=REWORK.TAKE(C5;C6)"), "=REWORK.WHY(\"TAKE\";C5;C6)");
    EXPECT_EQ(why("=IF(A1=\"\";\"\";REWORK.TAKE(MAX(C5;1);C6))"), "=REWORK.WHY(\"TAKE\";MAX(C5;1);C6)");
    EXPECT_EQ(why("=REWORK.MILESTONE(A1;\"bag (off\")"), "=REWORK.WHY(\"MILESTONE\";A1;\"bag (off\")");
    EXPECT_EQ(why("=REWORK.VERSION()"), "");
    EXPECT_EQ(why("=SUM(A1:A3)"), "");
}

TEST(Workbook, TellsItsAuthorWhereAMistakeIs) {
    const auto message = [](auto fill) -> std::string {
        Workbook book("Trial", "");
        try {
            fill(book.sheet("Plan", Paper::portrait));
            (void)book.write();
        } catch (const std::logic_error& error) {
            return error.what();
        }
        return {};
    };
    EXPECT_EQ(message([](Sheet& sheet) { sheet.put("C5", "=tree*2"); }), "Plan.C5: no range is named \"tree\"");
    EXPECT_EQ(message([](Sheet& sheet) {
                  sheet.put("C5", 1);
                  sheet.put("C5", 2);
              }),
              "Plan.C5 is filled twice");
    EXPECT_EQ(message([](Sheet& sheet) {
                  sheet.name("trees", "A1");
                  sheet.name("trees", "A2");
              }),
              "trees names two ranges");
    EXPECT_EQ(message([](Sheet& sheet) {
                  sheet.put("B1", "=1+1");
                  sheet.repeat(4);
              }),
              "Plan.B1 is a formula in the repeated rows");
    EXPECT_EQ(message([](Sheet& sheet) {
                  sheet.put("C5", "=trees*2");
                  sheet.name("trees", "A1");
              }),
              "");
}

}  // namespace
}  // namespace slipbark::compose

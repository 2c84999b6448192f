// The composer: what it says of its author's mistakes, and the calls it makes up itself.
#include "composer/sheet.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

namespace slipbark::compose {
namespace {

TEST(Why, AsksForTheFirstCallOfTheExtension) {
    EXPECT_EQ(why("=REWORK.TAKE(C5;C6)"), "=REWORK.WHY(\"TAKE\";C5;C6)");
    EXPECT_EQ(why("=IF(A1=\"\";\"\";REWORK.TAKE(MAX(C5;1);C6))"), "=REWORK.WHY(\"TAKE\";MAX(C5;1);C6)");
    EXPECT_EQ(why("=REWORK.MILESTONE(A1;\"bag (off\")"), "=REWORK.WHY(\"MILESTONE\";A1;\"bag (off\")");
    EXPECT_EQ(why("=IF(A1=\"REWORK.TREES(\";REWORK.TAKE(C5;;0.9))"), "=REWORK.WHY(\"TAKE\";C5;;0.9)");
    EXPECT_EQ(why("=REWORK.VERSION()"), "");
    EXPECT_EQ(why("=SUM(A1:A3)"), "");
}

TEST(Workbook, TellsItsAuthorWhereAMistakeIs) {
    const auto message = [](auto fill) -> std::string {
        Workbook book("trial", "Trial", "");
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
    EXPECT_EQ(message([](Sheet& sheet) { sheet.name("TAX2027", "A1"); }), "TAX2027 reads as a cell's address");
    EXPECT_EQ(message([](Sheet& sheet) { sheet.name("row1", "A1"); }), "row1 reads as a cell's address");
    EXPECT_EQ(message([](Sheet& sheet) { sheet.name("year_1", "A1"); }), "");
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

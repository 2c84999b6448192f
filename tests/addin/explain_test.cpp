#include "catalogue/explain.hpp"

#include <gtest/gtest.h>

#include "formula.hpp"

namespace slipbark::tests {
namespace {

using namespace catalogue;

TEST(Explain, TellsEachArgumentWithItsUnitAndNoReasonWhereAllIsWell) {
    const auto text = explain(*find("STICKS"), {{"B2", 3200., ""}, {"2", 2., ""}, {"9", 9., ""}, {"spare", 0.15, ""}},
                              "920", usual_null_date());
    EXPECT_NE(text.find("REWORK.STICKS shows 920"), std::string::npos) << text;
    EXPECT_NE(text.find("\ngrafts: 3200, from B2  (grafts; whole, 0 to 10,000,000)"), std::string::npos) << text;
    EXPECT_NE(text.find("\nspare: 0.15, which is 15 %, from spare  (fraction"), std::string::npos) << text;
    EXPECT_NE(text.find("\nbuds_per_scion: 2  (buds"), std::string::npos) << text;
    EXPECT_EQ(text.find("Reason"), std::string::npos) << text;
}

TEST(Explain, TellsTheReason) {
    const auto text = explain(*find("STICKS"), {{"3200", 3200., ""}, {"2", 2., ""}, {"9", 9., ""}, {"B4", 15., ""}},
                              "Err:502", usual_null_date());
    EXPECT_NE(text.find("Reason: spare was 15: give a fraction"), std::string::npos) << text;
}

TEST(Explain, TellsABlockInTheFormulaByItsSizeAndItsText) {
    const auto text = explain(*find("REGRAFTS"), {{"{3|1|0}", literal("{3|1|0}"), ""}, {"-1", -1., ""}}, "Err:502",
                              usual_null_date());
    EXPECT_NE(text.find(": rows: 3, columns: 1, filled cells: 3, from {3|1|0}  ("), std::string::npos) << text;
    EXPECT_NE(text.find("Reason: "), std::string::npos) << text;
}

TEST(Explain, ShowsDatesAsDates) {
    const double day = serial_of(Day{std::chrono::September / 6 / 2027}, usual_null_date());
    const auto text = explain(*find("SCHEDULE"), {{"graft_date", day, ""}}, "Graft", usual_null_date());
    EXPECT_NE(text.find("graft_date: 2027-09-06, from graft_date"), std::string::npos) << text;
}

TEST(Explain, GivesNoReasonItCannotKnow) {
    const auto text = explain(*find("STICKS"), {{"A1*4", std::nullopt, ""}, {"2", 2., ""}, {"9", 9., ""}}, "Err:502",
                              usual_null_date());
    EXPECT_EQ(text.find("Reason"), std::string::npos) << text;
    EXPECT_NE(text.find("REWORK.WHY(\"STICKS\""), std::string::npos) << text;
}

}  // namespace
}  // namespace slipbark::tests

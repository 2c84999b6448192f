// The menu's commands, sent through the dispatch as the menu sends them.

#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/util/XModifiable.hpp>

#include "composer/registry.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

class Commands : public testing::Test {
  protected:
    const Book book = calc().new_book(false);
    const Ref<css::frame::XModel> model{book.document(), UNO_QUERY_THROW};

    css::frame::DispatchResultEvent send(const std::string& name) const { return tests::send(book, name); }
    std::string command(const std::string& name) const { return tests::command(book, name); }

    /// How many documents are open.
    static int documents() {
        int count = 0;
        const auto all = calc().desktop()->getComponents()->createEnumeration();
        for (; all->hasMoreElements(); all->nextElement()) ++count;
        return count;
    }

    std::string explain(const std::string& address) const { return tests::explain(book, address); }
};

TEST_F(Commands, ExplainAGoodCellAndChangeNothing) {
    book.set("B2", 3200);
    book.set("B3", 2);
    book.set_formula("C1", "=REWORK.STICKS(B2;$B$3;9;15%)");
    const Ref<css::util::XModifiable> modifiable(model, UNO_QUERY_THROW);
    const Ref<css::document::XUndoManagerSupplier> undo(model, UNO_QUERY_THROW);
    modifiable->setModified(false);
    const auto steps = undo->getUndoManager()->getAllUndoActionTitles().getLength();
    const std::string text = explain("C1");
    EXPECT_NE(text.find("REWORK.STICKS shows 920"), std::string::npos) << text;
    EXPECT_NE(text.find("grafts: 3200, from B2  (grafts; whole"), std::string::npos) << text;
    EXPECT_NE(text.find("buds_per_scion: 2, from $B$3"), std::string::npos) << text;
    EXPECT_EQ(text.find("Reason"), std::string::npos) << text;
    EXPECT_FALSE(modifiable->isModified());
    EXPECT_EQ(undo->getUndoManager()->getAllUndoActionTitles().getLength(), steps);
}

TEST_F(Commands, ExplainAFailingCell) {
    book.set("B2", 3200);
    book.set("B4", 15);
    book.set_formula("C1", "=REWORK.STICKS(B2;2;9;B4)");
    EXPECT_NE(explain("C1").find("Reason: spare was 15: give a fraction from 0 to 2 (15 % is 0.15)."),
              std::string::npos)
        << explain("C1");
    book.set_formula("C2", "=REWORK.TREES(2;Z99;3)");
    EXPECT_NE(explain("C2").find("Reason: row_spacing_m was 0 (the cell may be blank)"), std::string::npos)
        << explain("C2");
}

TEST_F(Commands, ExplainRangesNamesAndOtherSheets) {
    book.document()->getSheets()->insertNewByName("Look", 1);
    for (int row = 1; row <= 3; ++row) {
        book.set("Look.A" + std::to_string(row), row);
        book.set("Look.B" + std::to_string(row), 4);
    }
    book.set_formula("C1", "=REWORK.REGRAFTS($Look.A1:A3;4)");
    EXPECT_NE(explain("C1").find("rows: 3, columns: 1, filled cells: 3"), std::string::npos) << explain("C1");
    book.set_formula("C2", "=REWORK.TAKETREES($Look.A1:A1048576;$Look.B1:B1048576)");
    EXPECT_NE(explain("C2").find("filled cells: 3,"), std::string::npos) << explain("C2");
    book.set_formula("Look.A2", "=1/0");
    EXPECT_NE(explain("C1").find("has an error in Look.A2"), std::string::npos) << explain("C1");
    book.set_formula("C3", "=REWORK.STICKS(2*1600;2;9)");
    EXPECT_NE(explain("C3").find("grafts: 2*1600"), std::string::npos) << explain("C3");
}

TEST_F(Commands, ExplainReadsSheetsWithQuotedNames) {
    book.document()->getSheets()->insertNewByName("Ana's block; 2", 1);
    book.set("Ana's block; 2.A1", 2);
    book.set("Ana's block; 2.A2", 7);
    book.set("Ana's block; 2.B1", 4);
    book.set_formula("C1", "=REWORK.REGRAFTS($'Ana''s block; 2'.A1:A3;$'Ana''s block; 2'.B$1)");
    const std::string good = explain("C1");
    EXPECT_NE(good.find("REWORK.REGRAFTS shows 2"), std::string::npos) << good;
    EXPECT_NE(good.find("live: rows: 2, columns: 1, filled cells: 2, from $'Ana''s block; 2'.A1:A3"), std::string::npos)
        << good;
    EXPECT_NE(good.find("wanted_per_tree: 4, from $'Ana''s block; 2'.B$1"), std::string::npos) << good;
    book.set("Ana's block; 2.B1", 0.5);
    EXPECT_NE(explain("C1").find("Reason: wanted_per_tree was 0.5, not a whole number: give"), std::string::npos)
        << explain("C1");
}

TEST_F(Commands, ExplainTellsABlankCellFromARangeOfIt) {
    book.set_formula("C1", "=REWORK.REGRAFTS(A1;3)");
    EXPECT_NE(explain("C1").find("REWORK.REGRAFTS shows 3"), std::string::npos) << explain("C1");
    EXPECT_NE(explain("C1").find("live: 0, from A1 "), std::string::npos) << explain("C1");
    EXPECT_NE(explain("C1").find("A1 alone counts as 0 if it is blank"), std::string::npos) << explain("C1");
    book.set_formula("C2", "=REWORK.TAKETREES(A1:A1;B1:B1)");
    EXPECT_NE(explain("C2").find("live: rows: 1, columns: 1, filled cells: 0, from A1:A1"), std::string::npos)
        << explain("C2");
    EXPECT_NE(explain("C2").find("Reason: No row with grafts has been inspected"), std::string::npos) << explain("C2");
}

TEST_F(Commands, ExplainSaysSoWhereThereIsNothingToExplain) {
    book.set_formula("C1", "=SUM(1;2)");
    EXPECT_EQ(explain("C1"), "There is no REWORK function in the selected cell.");
    EXPECT_EQ(explain("C1:D9"), "There is no REWORK function in the selected cell.");
}

TEST(Explain, FollowsAnErrorToWhereItBegins) {
    const Book book = calc().new_book(false);
    book.set("B2", 0);
    book.set_formula("B3", "=1/B2");
    book.set_formula("B4", "=2*B3");
    book.set_formula("B5", "=SUM(B4;1)");
    // No function of ours anywhere: from cell to cell to the first that errs by itself.
    const std::string said = explain(book, "B5");
    EXPECT_NE(said.find("Sheet1.B5 gets its error from Sheet1.B4, which gets it from Sheet1.B3:"), std::string::npos)
        << said;
    EXPECT_NE(said.find("Sheet1.B3 shows #DIV/0!: Something is divided by 0"), std::string::npos) << said;
    // Into a function of ours, whose argument is the trouble.
    book.set("C1", 15);
    book.set_formula("C2", "=REWORK.STICKS(3200;2;9;C1)");
    book.set_formula("C3", "=C2+1");
    const std::string ours = explain(book, "C3");
    EXPECT_NE(ours.find("Sheet1.C3 gets its error from Sheet1.C2:"), std::string::npos) << ours;
    EXPECT_NE(ours.find("spare was 15: give a fraction from 0 to 2"), std::string::npos) << ours;
}

TEST(Explain, OnACheckExplainsTheCellBesideIt) {
    const Book plan = calc().open_url(url_of("rework-plan"), true, false);
    const std::string sticks = plan.named("sticks");  // Plan.G16, its Check in column I
    const std::string check = "Plan.I" + sticks.substr(std::string("Plan.G").size());
    std::string said = explain(plan, check);
    EXPECT_NE(said.find("This Check is blank: nothing is wrong."), std::string::npos) << said;
    EXPECT_NE(said.find("REWORK.STICKS"), std::string::npos) << said;
    plan.set(plan.named("buds_per_stick"), 2);  // fewer than a scion takes
    said = explain(plan, check);
    EXPECT_NE(said.find("buds_per_stick"), std::string::npos) << said;
}

TEST(KeepPlan, HoldsThePlanAsItStandsInOneStep) {
    const Book book = calc().open_url(url_of("rework-plan"), true, false);
    const Ref<css::frame::XModel> model(book.document(), UNO_QUERY_THROW);
    const double planned = book.shown("Actual.J16").number;
    ASSERT_GT(planned, 0);
    command(book, "keep-plan");
    EXPECT_GT(book.shown(book.named("kept_on")).number, 40000);
    book.set(book.named("expected_take"), 0.3);
    EXPECT_EQ(book.shown("Actual.J16").number, planned) << "the plan as it stood";
    book.set(book.named("expected_take"), 0.72);
    const Ref<css::document::XUndoManagerSupplier> undo(model, UNO_QUERY_THROW);
    const auto titles = undo->getUndoManager()->getAllUndoActionTitles();
    ASSERT_TRUE(titles.hasElements());
    while (utf8(undo->getUndoManager()->getCurrentUndoActionTitle()) != "Keep this plan")
        undo->getUndoManager()->undo();
    undo->getUndoManager()->undo();
    book.set(book.named("expected_take"), 0.3);
    EXPECT_NE(book.shown("Actual.J16").number, planned) << "follows the plan again";
}

TEST_F(Commands, KeepPlanSaysWhereThereIsNone) {
    EXPECT_NE(command("keep-plan").find("no plan to keep"), std::string::npos) << command("keep-plan");
}

TEST_F(Commands, AboutTellsTheVersion) { EXPECT_EQ(command("about").find("Slipbark 0."), 0U) << command("about"); }

TEST_F(Commands, OpenEachWorkbookOfTheRegistry) {
    for (const auto& workbook : workbooks::all) {
        const int before = documents();
        const auto done = send("new-" + std::string(workbook.file));
        EXPECT_EQ(done.State, css::frame::DispatchResultState::SUCCESS) << workbook.file;
        EXPECT_NE(text_of(done).find("/" + std::string(workbook.file) + ".ots"), std::string::npos) << text_of(done);
        EXPECT_EQ(text_of(done).find(' '), std::string::npos) << "no blank stands in a URL: " << text_of(done);
        ASSERT_EQ(documents(), before + 1) << workbook.file;
        const Book opened(css::uno::Reference<css::lang::XComponent>(calc().desktop()->getCurrentComponent()));
        EXPECT_EQ(opened.errors(), std::vector<std::string>()) << workbook.file;
    }
}

TEST_F(Commands, WithAnUnknownNameDoNothingAndSaySo) {
    const int before = documents();
    for (const std::string name : {"new-", "new-plan", "new-../Rework%20plans/rework-plan", "new-rework-plan.ots",
                                   "new-rework-plan/", "NEW-rework-plan", "explain?", "rework-plan", ""}) {
        const auto done = send(name);
        EXPECT_EQ(done.State, css::frame::DispatchResultState::FAILURE) << name;
        EXPECT_EQ(text_of(done).rfind("Slipbark has no command \"" + name + "\".", 0), 0U) << text_of(done);
    }
    EXPECT_EQ(documents(), before);
}

}  // namespace
}  // namespace slipbark::tests

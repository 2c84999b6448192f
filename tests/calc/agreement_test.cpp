// One reckoning of money: a rework plan pasted into the workbook of several seasons and into the comparison of plans is
// worth in both what the plan itself says.

#include <algorithm>
#include <cmath>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <string>

#include "calc.hpp"
#include "farm.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

struct Change {
    const char* name;
    double value;
};

/// Copies named cells, selects the first of others and pastes the values only.
void paste_values_at(const Book& from, const char* source, const Book& to, const char* target) {
    const Rows values = data_of(from, source);
    const auto first = cells(to, target);
    const auto address = Ref<css::sheet::XCellRangeAddressable>(first, css::uno::UNO_QUERY_THROW)->getRangeAddress();
    const auto sheet = Ref<css::sheet::XSheetCellRange>(first, css::uno::UNO_QUERY_THROW)->getSpreadsheet();
    Ref<css::sheet::XCellRangeData>(sheet->getCellRangeByPosition(address.StartColumn, address.StartRow,
                                                                  address.StartColumn + values[0].getLength() - 1,
                                                                  address.StartRow + values.getLength() - 1),
                                    css::uno::UNO_QUERY_THROW)
        ->setDataArray(values);
}

class OneReckoning : public testing::Test {
  protected:
    void SetUp() override {
        // In the seasons this block is the only one, grafted in the first season.
        seasons.set(seasons.named("season_count"), 1);
        seasons.set(seasons.named("years_counted"), years);
        seasons.set(seasons.named("interest"), number(plan, "rate"));
        // In the comparison keeping is the same old block, which bears as long as the plan looks ahead.
        for (const char* name : {"established_leave", "area_ha"}) compare.set(compare.named(name), 1);
        for (const char* name :
             {"made_good_leave", "loss_leave", "clear_leave", "plant_leave", "ground_leave", "care_first_leave",
              "care_second_leave", "care_third_leave", "royalty_tree_leave", "royalty_ha_leave", "royalty_kg_leave"})
            compare.set(compare.named(name), 0);
        compare.set(compare.named("life_leave"), years);
        compare.set(compare.named("life_rework"), years);
        compare.set(compare.named("rate"), number(plan, "rate"));
        for (const char* name : {"repeat_leave", "repeat_rework", "repeat_replant"})
            compare.set_text(compare.named(name), "no");
    }

    void expect_agreement(const std::string& what) {
        const double worth = number(plan, "present_value");
        paste_values_at(plan, "line_for_seasons", seasons, "block_names");
        seasons.set(seasons.named("arranged"), 1);
        EXPECT_EQ(text(seasons, "farm_entries"), "") << what;
        EXPECT_NEAR(number(seasons, "arranged_worth"), worth, 0.005) << what;

        const double old_growing = plan.calculate("=INDEX(block_years;2;4)-INDEX(block_years;2;5)").number;
        compare.set(compare.named("trees_leave"), number(plan, "trees"));
        compare.set(compare.named("mature_leave"), number(plan, "old_yield"));
        compare.set(compare.named("price_leave"), number(plan, "old_price"));
        compare.set(compare.named("pick_leave"), number(plan, "pick_cost"));
        const double gross =
            number(plan, "trees") * number(plan, "old_yield") * (number(plan, "old_price") - number(plan, "pick_cost"));
        compare.set(compare.named("grow_leave"), gross - number(plan, "old_margin"));
        EXPECT_NEAR(old_growing, gross * (1 - number(plan, "nurse_share")), 1e-6) << what;
        paste_values_at(plan, "block_years", compare, "plan_years");
        EXPECT_EQ(text(compare, "unfit_all"), "") << what;
        EXPECT_NEAR(compare.calculate("=REWORK.PRESENTVALUE(gain_rework;rate)").number, worth, 0.005) << what;
        EXPECT_NEAR(number(compare, "present_value_rework") - number(compare, "present_value_leave"), worth, 0.005)
            << what;
        if (text(plan, "payback") == "never") {
            EXPECT_EQ(text(compare, "payback_rework"), "never") << what;
        } else {
            EXPECT_NEAR(number(compare, "payback_rework"), number(plan, "payback"), 1e-9) << what;
        }
        for (const char* part : {"1", "2"}) {  // how deep, and in which year
            const std::string column = std::string(";1;") + part + ")";
            EXPECT_NEAR(compare.calculate("=INDEX(REWORK.LOWPOINT(gain_rework)" + column).number,
                        plan.calculate("=INDEX(REWORK.LOWPOINT(flows)" + column).number, 0.005)
                << what;
        }
        // The five columns of the odds are the same flows.
        const std::string sum =
            "SUMPRODUCT(INDEX(block_years;0;2)-INDEX(block_years;0;1)-INDEX(block_years;0;3)-"
            "INDEX(block_years;0;4)+INDEX(block_years;0;5)-flows)";
        EXPECT_NEAR(plan.calculate("=" + sum).number, 0, 0.005) << what;
    }

    static constexpr int years = 12;
    Book plan = calc().open_url(url_of("rework-plan"), true);
    Book seasons = [] {
        Book book = calc().open_url(url_of("seasons"), true);
        for (const char* name :
             {"block_names", "block_varieties", "block_trees", "block_old_crop", "block_days", "block_sticks",
              "block_flows", "block_new_crop", "arranged", "block_rule", "block_pin", "block_earliest", "block_latest"})
            Ref<css::sheet::XSheetOperation>(cells(book, name), css::uno::UNO_QUERY_THROW)
                ->clearContents(css::sheet::CellFlags::VALUE | css::sheet::CellFlags::STRING);
        return book;
    }();
    Book compare = calc().open_url(url_of("rework-or-replant"), true);
};

TEST_F(OneReckoning, OfABlockIsTheSameInEachBook) {
    expect_agreement("as it comes");
    double before = number(plan, "present_value");
    for (const Change change : {Change{"yearly_loss", 0.03},
                                {"alternate", 0.3},
                                {"nurse_share", 0.3},
                                {"regraft_take", 0.3},
                                {"second_regraft_take", 0.5},
                                {"royalty", 21},
                                {"lost_season", 2031},
                                {"old_margin", 5000},
                                {"new_price", 0.3}}) {
        plan.set(plan.named(change.name), change.value);
        expect_agreement(change.name);
        EXPECT_GT(std::abs(number(plan, "present_value") - before), 1) << change.name << " counts";
        before = number(plan, "present_value");
    }
    EXPECT_EQ(text(plan, "payback"), "never") << "the last one does not pay";
}

class PlanCash : public testing::Test {
  protected:
    double number(const std::string& name) const { return book.shown(book.named(name)).number; }
    void set(const std::string& name, double value) const { book.set(book.named(name), value); }
    double sum() const { return book.calculate("=SUM(cash_months)").number; }
    Book book = calc().open_url(url_of("rework-plan"), true);
};

// What is paid and received is the plan's flows and the margin forgone, which is no payment.
TEST_F(PlanCash, SumsUpToTheYears) {
    for (const char* name : {"", "nurse_share", "yearly_loss"}) {
        if (*name != 0) set(name, 0.05);
        EXPECT_NEAR(sum(), book.calculate("=SUM(flows)+12*old_margin").number, 0.005) << name;
    }
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(PlanCash, IsLowestWhereTheMonthsSay) {
    set("cash_at_first", 10000);
    const Rows months = data_of(book, "cash_months");
    double there = 10000;
    double lowest = there;
    for (const auto& month : months) {
        double one = 0;
        ASSERT_TRUE(month[0] >>= one);
        there += one;
        lowest = std::min(lowest, there);
    }
    EXPECT_NEAR(number("cash_lowest"), lowest, 0.005);
    EXPECT_LT(lowest, 0);
    EXPECT_TRUE(says(book.shown(book.named("cash_sentence")).text, "short."));
}

TEST_F(PlanCash, PaysALoanBackInEvenInstalments) {
    const double before = sum();
    const double lowest = number("cash_lowest");
    set("loan", 20000);
    set("loan_rate", 0.06);
    set("loan_years", 2);
    // 20,000 at half a per cent a month over 24 months, by the annuity formula.
    const double instalment = 20000 * 0.005 / (1 - std::pow(1.005, -24));
    EXPECT_NEAR(number("instalment"), instalment, 1e-6);
    EXPECT_NEAR(sum(), before + 20000 - 24 * instalment, 1e-4);
    set("loan_years", 9);  // most of it after the third year
    EXPECT_NEAR(sum(), before + 20000 - 108 * number("instalment"), 1e-4);
    EXPECT_GT(number("cash_lowest"), lowest);
    set("grant", 3000);
    set("last_old_crop", 1500);
    set("tax", -400);
    EXPECT_NEAR(sum(), before + 20000 - 108 * number("instalment") + 3000 + 1500 + 400, 1e-4);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

}  // namespace
}  // namespace slipbark::tests

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
#include "daybook_lines.hpp"
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

    /// A second lot of 200 trees. Where it brings a variety of its own, that sells, bears and ripens in its own way.
    void add_lot(const std::string& variety) const {
        plan.set_text("Orders.C12", "Nursery");
        plan.set_text("Orders.D12", "B");
        plan.set("Orders.E12", 200);
        plan.set("Orders.I12", 0.55);
        if (variety.empty()) return;
        plan.set_text("Orders.B12", variety);
        plan.set("Varieties.E7", 1.4);
        plan.set("Varieties.F7", 0.31);
        plan.set("Varieties.G7", 5);
        plan.set("Varieties.H7", 60);
        plan.set("Varieties.I7", 4);
        plan.set_text("Varieties.J7", "late");
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

TEST_F(OneReckoning, OfSeveralLotsIsTheSameInEachBook) {
    const double one_lot = number(plan, "present_value");
    add_lot("");
    EXPECT_EQ(plan.calculate("=SUM(Varieties.N6:N9)").number, 1) << "of one variety still";
    EXPECT_LT(number(plan, "present_value"), one_lot - 1) << "the second lot takes less well";
    expect_agreement("two lots");
}

TEST_F(OneReckoning, OfTwoVarietiesIsTheSameInEachBook) {
    add_lot("Saffron Bell orange");
    EXPECT_EQ(text(plan, "entries"), "");
    expect_agreement("two varieties");
    EXPECT_EQ(seasons.shown("Blocks.D7").text, "Ember Moon pomelo + Saffron Bell orange");
    seasons.set_text("Limits.B25", "Ember Moon pomelo");
    EXPECT_EQ(seasons.shown("Arrange.Q7").text, "Ember Moon pomelo") << "suggested: that of the first";
    double before = number(plan, "present_value");
    for (const Change change : {Change{"yearly_loss", 0.03},
                                {"alternate", 0.3},
                                {"nurse_share", 0.3},
                                {"second_regraft_take", 0.5},
                                {"royalty", 21},
                                {"lost_season", 2031}}) {
        plan.set(plan.named(change.name), change.value);
        expect_agreement(std::string("two varieties, ") + change.name);
        EXPECT_GT(std::abs(number(plan, "present_value") - before), 1) << change.name << " counts";
        before = number(plan, "present_value");
    }
    // What sheet Actual has planned is the same money, too.
    EXPECT_NEAR(plan.calculate("=SUMPRODUCT(flows_actual-flows)").number, 0, 0.005);
    EXPECT_NEAR(number(plan, "payback_actual"), number(plan, "payback"), 1e-9);
    EXPECT_EQ(plan.errors(), std::vector<std::string>());
}

class PlanVarieties : public OneReckoning {
  protected:
    double calculated(const std::string& formula) const { return plan.calculate(formula).number; }
    /// Trees that are cut back as the share of a canopy that lives, by the take of their lot.
    double live(const char* lot) const {
        return calculated(std::string("=REWORK.TREESHARE(grafts_per_tree;INDEX(lots_expected;") + lot +
                          ");live_wanted;clustering)");
    }
};

// Each variety by itself, by the function that the contract names, with the curve of a late one typed in.
TEST_F(PlanVarieties, AddUpToTheYears) {
    const double cost = number(plan, "rework_cost");
    const double sticks = number(plan, "sticks_in_lots");
    add_lot("Saffron Bell orange");
    plan.set(plan.named("yearly_loss"), 0.02);
    EXPECT_EQ(text(plan, "entries"), "");
    EXPECT_EQ(plan.shown("Varieties.B7").text, "Saffron Bell orange");
    EXPECT_EQ(plan.shown("Varieties.C6").number, 371);
    EXPECT_NEAR(number(plan, "rework_cost") - (number(plan, "sticks_in_lots") - sticks) * number(plan, "stick_price"),
                cost + 200 * (5 - 3), 1e-6)
        << "the royalty of each";
    const auto crop = [&](double trees, double mature, double lives, const std::string& curve, const char* month) {
        return "=REWORK.YIELDBYYEAR(" + std::to_string(trees) + ";12;" + std::to_string(mature) + ";" +
               std::to_string(lives) + ";regraft_take;yearly_loss;" + curve + ";(REWORK.HARVESTDATE(graft_day;" +
               month + ")-graft_day)/365.25)";
    };
    // The ages of sheet Defaults times 1.25.
    const std::string late = "{0;0|1.875;0.02|3.4375;0.2|4.6875;0.5|6.25;0.8|8.75;1}";
    const std::string first = crop(371, 95, live("1"), "yield_curve", "6").substr(1);
    const std::string second = crop(200, 60, live("2"), late, "4").substr(1);
    for (int year = 1; year <= years; ++year) {
        const std::string at = ";" + std::to_string(year) + ")";
        const double of_first = calculated("=INDEX(" + first + at);
        const double of_second = calculated("=INDEX(" + second + at);
        EXPECT_NEAR(calculated("=INDEX(crop_kg" + at), of_first + of_second, 0.1) << year;
        EXPECT_NEAR(calculated("=INDEX(odds_income" + std::string(";") + std::to_string(year + 1) + ")"),
                    0.92 * of_first + 1.4 * of_second, 0.1)
            << year;
        EXPECT_NEAR(calculated("=INDEX(odds_picking" + std::string(";") + std::to_string(year + 1) + ")"),
                    0.24 * of_first + 0.31 * of_second, 0.1)
            << year;
    }
    EXPECT_GT(calculated("=INDEX(crop_kg;12)"), 30000);
}

// In sheet Cash each variety is picked in its own month: grafted in September, April is the 8th and June the 10th.
TEST_F(PlanVarieties, ArePickedInTheirOwnMonths) {
    add_lot("Saffron Bell orange");
    plan.set(plan.named("nurse_share"), 0.2);
    const auto picked = [&](int month) { return plan.shown("Cash.E" + std::to_string(21 + month)).number; };
    const auto of_variety = [&](int line) {
        return calculated("=INDEX(variety_picking;" + std::to_string(line) + ")");
    };
    const double nurse = 571 * 70 * 0.2 * 0.24;
    EXPECT_NEAR(picked(12 + 8), of_variety(12 + 2), 1e-6);
    EXPECT_NEAR(picked(12 + 10), of_variety(2) + (number(plan, "nurse_harvests") >= 2 ? nurse : 0), 1e-6);
    EXPECT_GT(picked(24 + 8), 1);
    EXPECT_EQ(picked(24 + 9), 0);
    EXPECT_NEAR(calculated("=SUM(cash_months)"), calculated("=SUM(flows)+12*old_margin"), 0.005);
}

TEST_F(PlanVarieties, AreCountedEachByItsRows) {
    add_lot("Saffron Bell orange");
    const double before = calculated("=INDEX(varieties_live;2)");
    const double first = calculated("=INDEX(varieties_live;1)");
    EXPECT_NEAR(before, live("2"), 1e-9);
    EXPECT_NEAR(first, live("1"), 1e-9);
    const double start = number(plan, "graft_date");
    write_daybook(plan, {{start, "grafted", "20", {}, 224, {}, "B"}, {start + 14, "counted", "20", {}, {}, 60}});
    EXPECT_LT(calculated("=INDEX(varieties_live;2)"), before - 0.02);
    EXPECT_NEAR(calculated("=INDEX(varieties_live;1)"), first, 0.01) << "nobody has counted these";
    EXPECT_NEAR(calculated("=SUMPRODUCT(Varieties.U6:U9;N(+Varieties.V6:V9))"), number(plan, "share_live"), 1e-9);
}

TEST_F(PlanVarieties, SayWhatDoesNotFit) {
    add_lot("Saffron Bell orange");
    plan.set("Varieties.I7", 13);
    EXPECT_TRUE(says(text(plan, "entries"), "Varieties: ")) << text(plan, "entries");
    EXPECT_TRUE(says(plan.shown("Varieties.L7").text, "from 1 to 12")) << plan.shown("Varieties.L7").text;
    plan.set("Varieties.I7", 4);
    plan.set_text("Varieties.B7", "Another");  // the lot's variety now has no line
    EXPECT_TRUE(says(text(plan, "entries"), "no line here")) << text(plan, "entries");
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

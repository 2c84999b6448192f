// The block's book in real Calc: what its sheets tell of one another, and what they say where an entry is wrong.
//
// Where a number is checked it is worked out again here from the cells it hangs on, by arithmetic or by one call of the
// function that the contract names; the functions themselves are checked against sources of their own in ring one.

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "calc.hpp"
#include "daybook_lines.hpp"
#include "folder.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

class Plan : public testing::Test {
  protected:
    double number(const std::string& name) const { return book.shown(at(name)).number; }
    std::string text(const std::string& name) const { return book.shown(at(name)).text; }
    bool is_number(const std::string& name) const {
        const Shown shown = book.shown(at(name));
        return shown.error == 0 && !shown.is_text && !shown.text.empty();
    }
    double calculated(const std::string& formula) const { return book.calculate(formula).number; }
    void set(const std::string& name, double value) const { book.set(at(name), value); }
    void type(const std::string& name, const std::string& value) const { book.set_text(at(name), value); }
    /// A name's cell, or the address itself where it has a sheet.
    std::string at(const std::string& name) const {
        return name.find('.') == std::string::npos ? book.named(name) : name;
    }
    /// The lines of sheet Rows, from 1.
    static std::string row(const char* column, int line) {
        return std::string("Rows.") + column + std::to_string(5 + line);
    }
    /// A row of 28 trees grafted on the first day and, 14 days on, looked at as a whole.
    void count(int line, double live, double placed = 224) const {
        const std::string name = std::to_string(line);
        const double start = number("graft_date");
        write_daybook(book,
                      {{start, "grafted", name, {}, placed, {}, "A"}, {start + 14, "counted", name, {}, {}, live}},
                      2 * line - 1);
    }
    /// How much of the canopy lives on trees of 8 grafts, of which 5 are wanted.
    double canopy(double take) const { return calculated("=REWORK.TREESHARE(8;" + std::to_string(take) + ";5;0.1)"); }

    Book book = calc().open_url(url_of("rework-plan"), true);
};

TEST_F(Plan, HoldsNoErrorAndSaysNothingAgainstItself) {
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    EXPECT_EQ(text("entries"), "");
    EXPECT_EQ(text("objections"), "");
    EXPECT_LE(book.sheets().size(), 17U);
}

// Point 5: crop and money follow the frame that lives.

TEST_F(Plan, ABadTakeCostsAtLeastAQuarterOfThePresentValue) {
    EXPECT_NEAR(number("share_live"),
                calculated("=REWORK.TREESHARE(grafts_per_tree;take_after_store;live_wanted;clustering)"), 1e-9);
    const double good = number("present_value");
    ASSERT_GT(good, 0);
    set("expected_take", 0.36);
    EXPECT_LT(number("present_value"), 0.75 * good);
    EXPECT_NEAR(number("share_live"),
                calculated("=REWORK.TREESHARE(grafts_per_tree;take_after_store;live_wanted;clustering)"), 1e-9);
}

TEST_F(Plan, TheCropIsThatOfYieldByYearAtTheShareThatLives) {
    const double third = calculated(
        "=INDEX(REWORK.YIELDBYYEAR(trees;12;mature_yield;share_live;regraft_take;yearly_loss;yield_curve;first_harvest)"
        ";3)");
    EXPECT_GT(third, 0);
    EXPECT_NEAR(calculated("=INDEX(crop_kg;3)"), third, 1e-6);
}

TEST_F(Plan, CountsJoinTheExpectation) {
    const std::string said = "Plan.H22";
    EXPECT_EQ(text(said), "expected: nothing counted");
    count(1, 150);
    count(2, 90);
    EXPECT_NEAR(number("take_seen"), 240. / 448, 1e-12);
    EXPECT_EQ(text(said), "counted on 2 rows");
    // Rows 1 and 2 are as counted, the other 515 trees of the lot follow the posterior: the expectation counts as 20
    // grafts, the 448 seen are over the effect of 8 alike on a tree, 1 + 7 x 0.1 (beta-binomial, by hand).
    const auto joined = [&](double counted_1, double counted_2) {
        const double revised = (20 * number("take_after_store") + 240 / 1.7) / (20 + 448 / 1.7);
        return (28 * counted_1 + 28 * counted_2 + 515 * canopy(revised)) / 571;
    };
    EXPECT_NEAR(number("share_live"), joined(canopy(150. / 224), canopy(90. / 224)), 1e-6);
    EXPECT_LT(number("chance_wanted"), number("Orders.U17")) << "the headline follows the counts";
    const double value = number("present_value");
    set("expected_take", 0.95);
    EXPECT_GT(number("present_value"), value) << "of what nobody has counted more is expected";
    EXPECT_NEAR(number("share_live"), joined(canopy(150. / 224), canopy(90. / 224)), 1e-6);
    // What trees lack is known: no model is needed.
    set(row("M", 1), 5);
    set(row("N", 1), 7);
    set(row("M", 2), 20);
    set(row("N", 2), 49);
    EXPECT_NEAR(number("share_live"), joined(1 - 7. / 140, 1 - 49. / 140), 1e-6);
}

TEST_F(Plan, RegraftingIsPaidInTheYearItIsDone) {
    const std::string cost = "Money.F34";  // year 1
    const double with = number(cost);
    const double grafts = std::ceil(571 * 5 * (1 - number("share_live")) * 0.6 / number("take_seen") - 1e-6);
    EXPECT_EQ(number("regrafts_1"), grafts);
    set("regraft_take", 0);
    const double sticks = std::ceil(grafts * 1.12 / 3 - 1e-9);  // three scions from a stick
    const double paid = sticks * 1.1 + grafts / 110 * 210 + grafts * number("stub_materials") / number("grafts") +
                        std::min(grafts, 571.) * 1.5;
    EXPECT_NEAR(number(cost), with - paid, 1e-6);
}

// Point 6: one harvest for calendar, crop and money.

TEST_F(Plan, CalendarCropAndMoneyTellTheSameSeasonAndShare) {
    struct Case {
        const char* graft;
        int month;
    };
    for (const Case& one :
         {Case{"2027-09-20", 6}, Case{"2028-03-15", 11}, Case{"2028-03-20", 6}, Case{"2027-10-05", 12}}) {
        SCOPED_TRACE(std::string(one.graft) + " harvest " + std::to_string(one.month));
        set("graft_date", calculated(std::string("=DATEVALUE(\"") + one.graft + "\")"));
        set("harvest_month", one.month);
        for (const char* which : {"1", "2"}) {
            const std::string date = std::string("crop_date_") + which;
            const std::string share = which == std::string("1") ? "first_crop_share" : "second_crop_share";
            EXPECT_EQ(calculated("=MONTH(" + date + ")"), one.month);
            const double season = calculated("=YEAR(" + date + ")");
            const double line = calculated("=MATCH(" + std::to_string(season) + ";seasons;0)");
            // The same month may begin two seasons of one year where grafting and first harvest do: take the harvest.
            const double from_money = calculated("=LOOKUP(" + std::to_string(season) + ";seasons;crop_shares)");
            EXPECT_GT(line, 1);
            EXPECT_NEAR(from_money, number(share), 0.005);
            // Calendar shows the harvest, and says the share that Money has.
            bool found = false;
            for (int stage = 6; stage < 30; ++stage) {
                const std::string at_line = std::to_string(stage);
                if (number("Calendar.C" + at_line) != number(date)) continue;
                found = true;
                EXPECT_EQ(text("Calendar.G" + at_line),
                          "Harvest of " + std::to_string(static_cast<int>(season)) + ": about " +
                              std::to_string(static_cast<int>(std::lround(100 * number(share)))) +
                              " % of a mature crop");
            }
            EXPECT_TRUE(found) << date;
        }
        EXPECT_EQ(number("first_crop"), number("crop_date_1"));
        // The y-th harvest is first_harvest + y - 1 years after grafting.
        EXPECT_NEAR(
            calculated("=INDEX(crop_kg;5)/trees/mature_yield"),
            calculated("=(share_live*(1-yearly_loss)^5*REWORK.YIELD(first_harvest+4;1;yield_curve)+(1-share_live)*"
                       "regraft_take*(1-yearly_loss)^4*REWORK.YIELD(first_harvest+3;1;yield_curve))"),
            1e-9);
    }
}

// Point 7: dates run from the first day's earliest to the last day's latest.

TEST_F(Plan, FollowUpsRunFromTheFirstDaysEarliestToTheLastDaysLatest) {
    const double start = number("graft_date");
    const double finish = number("finish_date");
    ASSERT_GT(finish, start + 10);
    EXPECT_EQ(number("first_look_from"), start + 14);
    EXPECT_EQ(number("first_look_until"), finish + 21);
    EXPECT_EQ(number("off_from"), start + 42);
    EXPECT_EQ(number("off_until"), finish + 66);
    EXPECT_EQ(number("Calendar.C13"), start + 14);
    EXPECT_EQ(number("Calendar.F13"), finish + 21);
    EXPECT_NE(text("Plan.B4").find("Take checks from 4 Oct 2027 to 28 Oct 2027"), std::string::npos);
    // Each row has its own: the last one's planned day is the block's last.
    EXPECT_EQ(calculated("=MAX(row_planned)"), finish);
    EXPECT_EQ(calculated("=MIN(row_planned)"), start);
    EXPECT_EQ(number("trees_in_rows"), 571);
    // A row grafted later moves the block's calendar.
    std::vector<DayLine> lines;
    for (int line = 1; line <= 21; ++line) {
        lines.push_back({line == 21 ? finish + 6 : start, "grafted", std::to_string(line), {}, 224});
    }
    write_daybook(book, lines);
    EXPECT_EQ(number("last_day"), finish + 6);
    EXPECT_EQ(number("Calendar.F13"), finish + 6 + 21);
    EXPECT_EQ(number("finish_date"), finish + 6);
}

TEST_F(Plan, ObjectsOnItsFirstSheet) {
    const auto objects = [&](const std::string& name, double value, const std::vector<std::string>& words) {
        SCOPED_TRACE(name);
        const double before = number(name);
        set(name, value);
        for (const std::string& word : words) {
            EXPECT_NE(text("objections").find(word), std::string::npos) << text("objections");
            EXPECT_NE(text("Plan.B4").find(word), std::string::npos);
        }
        set(name, before);
        EXPECT_EQ(text("objections"), "");
    };
    objects("crew", 1, {"before grafting ends", "after the bark tightens"});
    objects("trees", 8000, {"before grafting ends", "after the bark tightens", "More trees than the spacing"});
    objects("grafts_per_stub", 6, {"than fit round it"});
    objects("live_wanted", 8, {"too few for 8 alive"});
    objects("Orders.E11", 500, {"lots on sheet Orders"});
    objects("Rows.C6", 700, {"Sheet Rows has"});
    set("Orders.E12", 600);
    book.set_formula("Orders.E11", "=trees-E12");
    EXPECT_NE(text("entries").find("more trees than the block has"), std::string::npos) << text("entries");
}

// Point 8: regrafts are counted tree by tree.

TEST_F(Plan, RegraftsAreNeverNettedOverARow) {
    // Expected under the plan's own model, as long as nothing is counted.
    EXPECT_NEAR(number("redo"), 571 * 5 * (1 - number("share_expected")), 1e-9);
    EXPECT_NE(text("Regraft.E25").find("expected"), std::string::npos) << text("Regraft.E25");
    set("regraft_sure", 0.95);
    // A row with all alive does not pay for one with none.
    count(1, 224);
    count(2, 0);
    EXPECT_NEAR(number("redo"), 28 * 5, 1e-9);
    // Five trees lack one each: grafts to place at the take seen, not the lack itself.
    count(2, 160);
    set(row("M", 2), 5);
    set(row("N", 2), 5);
    EXPECT_EQ(number("redo"), 5);
    EXPECT_EQ(number("regrafts_to_place"),
              calculated("=REWORK.REGRAFTS({4;4;4;4;4};5;take_seen;regraft_sure;clustering)"));
    EXPECT_GT(number("regrafts_to_place"), number("redo"));
    EXPECT_EQ(number("redo_sticks"), std::ceil(number("regrafts_to_place") * 1.12 / 3 - 1e-9));
    EXPECT_GT(number("redo_cost"), 0);
    EXPECT_EQ(text(row("R", 2)), "counted");
    EXPECT_EQ(text(row("R", 1)), "expected");
}

TEST_F(Plan, LongRowsWork) {
    set("Rows.C6", 210);
    count(1, 1200, 1300);
    EXPECT_EQ(text(row("U", 1)), "");
    EXPECT_TRUE(is_number(row("P", 1)));
    EXPECT_TRUE(is_number(row("Q", 1)));
    count(1, 1301, 1300);
    EXPECT_EQ(text("Day-book.M7"), "Live: 1301. Looked at: 1300.");
    EXPECT_EQ(number("Day-book.N7"), 1);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// Point 9: storage compounds by lot.

TEST_F(Plan, LotsReachThePlan) {
    const double take = number("take_after_store");
    const double value = number("present_value");
    set("Orders.E12", 500);  // a second lot, ten days warm: 36 % of its buds alive
    set("Orders.G12", 10);
    type("Orders.H12", "room");
    type("scion_rule", "as its buds do");
    EXPECT_EQ(number("Orders.E11"), 71);
    EXPECT_NEAR(number("Orders.J12"), 0.36, 1e-12);
    EXPECT_NEAR(number("take_after_store"), (71 * 0.72 * number("Orders.J11") + 500 * 0.72 * 0.36) / 571, 1e-9);
    EXPECT_LT(number("take_after_store"), 0.6 * take);
    EXPECT_LT(number("present_value"), 0.75 * value);
    // A scion of three buds lives if one does.
    type("scion_rule", "if one bud lives");
    EXPECT_NEAR(number("Orders.L12"), 0.72 * (1 - std::pow(0.64, 3)), 1e-12);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(Plan, AStoreBeyondItsTableIsOneClearCheck) {
    type("storage", "cool");
    set("days_in_store", 120);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    EXPECT_NE(text("entries").find("Buds alive"), std::string::npos) << text("entries");
    EXPECT_EQ(text("payback"), "");
    // The share known, or a table of one's own, gives the answer.
    set("Orders.J11", 0.9);
    EXPECT_EQ(text("entries"), "");
    EXPECT_NEAR(number("alive"), 0.9, 1e-12);
    book.set_formula("Orders.J11", "=REWORK.BUDSALIVE(G11;own_store)");
    type("storage", "own");
    EXPECT_NEAR(number("alive"), 0.83, 1e-12);
    EXPECT_GT(number("present_value"), 0);
}

TEST_F(Plan, TheSameBlockInUSUnitsNeedsTheSame) {
    // International yard and pound agreement, 1959: a foot is 0.3048 m, an inch 2.54 cm; an acre is 43,560 square feet.
    const double foot = 0.3048;
    const double inch = 2.54;
    const double acre = 43560 * foot * foot / 10000;
    const double sites = number("tree_places");
    const double fitting = number("fitting_grafts");
    const double tape = number("tape_m");
    const double bark = number("bark_m2");
    const double value = number("present_value");
    type("units", "US");
    EXPECT_NE(text("objections").find("ft apart: is that in metres?"), std::string::npos) << text("objections");
    EXPECT_EQ(number("area_ha"), 1.84) << "what was typed stays";
    set("area_ha", 1.84 / acre);
    set("row_spacing_m", 7 / foot);
    set("tree_spacing_m", 4.5 / foot);
    set("stub_diameter_cm", 5.5 / inch);
    EXPECT_EQ(text("objections").find("apart: is that in"), std::string::npos) << text("objections");
    EXPECT_EQ(text("entries"), "");
    EXPECT_EQ(number("tree_places"), sites);
    EXPECT_EQ(number("fitting_grafts"), fitting);
    // Suggestions are round numbers of their own units: 5.5 inches for 14 cm, 5.9 ft for 1.8 m, 1 inch for 25 mm.
    EXPECT_EQ(number("limb_base_cm"), 5.5);
    EXPECT_EQ(number("limb_length_m"), 5.9);
    EXPECT_EQ(number("tape_width_mm"), 1);
    EXPECT_NEAR(number("tape_m") * foot, tape, 0.05 * tape);
    EXPECT_NEAR(number("bark_m2") * foot * foot, bark, 0.05 * bark);
    set("wrap_height_cm", 7 / inch);
    set("tape_width_mm", 25 / (10 * inch));
    EXPECT_NEAR(number("tape_m") * foot, tape, 1e-6 * tape);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    // And back: what is left over in feet is asked about.
    type("units", "metric");
    EXPECT_NE(text("objections").find("m apart: is that in feet?"), std::string::npos) << text("objections");
    set("area_ha", 1.84);
    set("row_spacing_m", 7);
    set("tree_spacing_m", 4.5);
    set("stub_diameter_cm", 5.5);
    set("wrap_height_cm", 7);
    set("tape_width_mm", 25);
    EXPECT_EQ(number("bark_m2"), bark);
    EXPECT_EQ(number("tape_m"), tape);
    EXPECT_EQ(number("present_value"), value);
}

// Point 10: materials.

TEST_F(Plan, MaterialsFollowFaceFilmAndOverlap) {
    const double face_cm2 = std::acos(-1.) / 4 * 5.5 * 5.5;
    EXPECT_NEAR(number("sealant_per_stub_ml"), face_cm2 * 0.1, 1e-9) << "1 mm on the cut face";
    set("film_mm", 2);
    EXPECT_NEAR(number("sealant_per_stub_ml"), face_cm2 * 0.2, 1e-9);
    // From memory: 0.6 to 1 m of tape a stub, 1.5 to 3 litres of mix on a bared mature tree.
    EXPECT_GE(number("tape_per_stub_m"), 0.6);
    EXPECT_LE(number("tape_per_stub_m"), 1.0);
    EXPECT_GE(number("mix_per_tree_l"), 1.5);
    EXPECT_LE(number("mix_per_tree_l"), 3.0);
}

// Point 11: the old crop, the nurse limb, alternate bearing, a lost season, a second regraft.

TEST_F(Plan, TheYearlyTableHasWhatHappensToOrchards) {
    EXPECT_NEAR(number("old_margin"), 571 * 70 * (0.45 - 0.24) - 6100, 1e-6);
    set("old_yield", 80);
    EXPECT_NEAR(number("old_margin"), 571 * 80 * (0.45 - 0.24) - 6100, 1e-6);
    const double income = number("Money.K34");
    set("nurse_share", 0.25);
    EXPECT_NEAR(number("Money.K34"), income + 571 * 80 * 0.25 * 0.45, 1e-6);
    set("nurse_share", 0);

    const double fifth = calculated("=INDEX(crop_kg;5)");
    const double sixth = calculated("=INDEX(crop_kg;6)");
    set("alternate", 0.3);
    EXPECT_NEAR(calculated("=INDEX(crop_kg;5)"), 1.3 * fifth, 1e-6);
    EXPECT_NEAR(calculated("=INDEX(crop_kg;6)"), 0.7 * sixth, 1e-6);
    set("alternate", 0);
    set("lost_season", calculated("=INDEX(seasons;6)"));
    EXPECT_EQ(calculated("=INDEX(crop_kg;5)"), 0);
    set("lost_share", 0.4);
    EXPECT_NEAR(calculated("=INDEX(crop_kg;5)"), 0.6 * fifth, 1e-6);
    type("lost_season", "");

    const double seventh = calculated("=INDEX(crop_kg;7)");
    const double year_2 = number("Money.F35");
    set("second_regraft_take", 0.5);
    // Trees x what is still missing x its share at the age of the graft, two years younger.
    const double added = calculated(
        "=trees*mature_yield*(1-share_live)*(1-regraft_take)*0.5*(1-yearly_loss)^5*REWORK.YIELD(first_harvest+4;1;"
        "yield_curve)");
    EXPECT_NEAR(calculated("=INDEX(crop_kg;7)"), seventh + added, 1e-6);
    EXPECT_GT(number("Money.F35"), year_2) << "and it is paid in year 2";
}

// Point 11a: grafts that pay best.

TEST_F(Plan, TellsHowManyGraftsPayBest) {
    const double best = number("best_grafts");
    EXPECT_EQ(best, calculated("=REWORK.BESTGRAFTS(take_after_store;live_wanted;tree_worth;graft_cost;clustering)"));
    EXPECT_GT(best, 0);
    // The curve beside it has its top there.
    double top = -1e9;
    double at_top = -1;
    double step = number("Plan.K42");
    for (int line = 41; line <= 61; ++line) {
        const double worth = number("Plan.L" + std::to_string(line));
        if (worth <= top) continue;
        top = worth;
        at_top = number("Plan.K" + std::to_string(line));
    }
    EXPECT_NEAR(at_top, best, step);
    EXPECT_NEAR(number("graft_cost"), 1.1 * 1.12 / 3 + 210. / 110 + number("stub_materials") / 4568, 1e-9);
    set("new_price", 0.25);
    EXPECT_LT(number("best_grafts"), best) << "a crop that hardly pays its picking deserves fewer grafts";
}

// A stranger's block: other numbers of trees, one crew, names of stages.

TEST_F(Plan, FitsAStrangersBlock) {
    for (const auto& [trees, stubs, per_stub] : {std::array<double, 3>{40, 4, 2}, {8000, 4, 2}, {900, 2, 1}}) {
        SCOPED_TRACE(trees);
        set("trees", trees);
        set("stubs_per_tree", stubs);
        set("grafts_per_stub", per_stub);
        set("live_wanted", per_stub);
        EXPECT_EQ(book.errors(), std::vector<std::string>());
        EXPECT_EQ(text("entries"), "");
        EXPECT_EQ(number("sticks_in_lots"), std::ceil(trees * stubs * per_stub * 1.12 / 3 - 1e-9));
        EXPECT_EQ(number("trees_in_lots"), trees);
        EXPECT_TRUE(is_number("rework_cost"));
        if (trees <= 200 * 28) {
            EXPECT_EQ(number("trees_in_rows"), trees);
        } else {
            EXPECT_NE(text("objections").find("Sheet Rows"), std::string::npos);
        }
    }
}

TEST_F(Plan, NothingHangsOnTheNamesOfStages) {
    const double look = number("first_look");
    type("Defaults.B13", "Mirar bajo la bolsa");
    EXPECT_EQ(number("first_look"), look);
    EXPECT_EQ(text("Calendar.B13"), "Mirar bajo la bolsa");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    EXPECT_EQ(text("entries"), "");
    // A cleared line drops out.
    for (const char* column : {"B", "C", "D", "E", "F", "G"}) type(std::string("Defaults.") + column + "15", "");
    EXPECT_EQ(text("entries"), "");
    EXPECT_EQ(text("Calendar.B15"), "Full opening of the top");
    EXPECT_EQ(number("first_look"), look);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(Plan, WhatIsDoneMovesTheStageDueNext) {
    // A week before the grafting, licence and wood should long have been asked for.
    EXPECT_EQ(number("stages_overdue"), 2);
    EXPECT_EQ(text("next_stage"), "Materials in");
    for (const char* mark : {"Calendar.H6", "Calendar.H7", "Calendar.H8"}) type(mark, "x");
    EXPECT_EQ(number("stages_overdue"), 0);
    EXPECT_EQ(text("next_stage"), "Cut the wood");
    type("Calendar.H9", "x");
    EXPECT_EQ(text("next_stage"), "Cut back and paint");
    type("Calendar.H10", "x");
    EXPECT_EQ(text("next_stage"), "Graft");
    std::vector<DayLine> lines;
    for (int line = 1; line <= 21; ++line) {
        lines.push_back({number("graft_date"), "grafted", std::to_string(line), {}, 224});
    }
    write_daybook(book, lines);
    EXPECT_EQ(text("next_stage"), "Lower irrigation and nitrogen");
    type("Calendar.H12", "x");
    EXPECT_EQ(text("next_stage"), "First look under the bag");
    set("as_of", number("Calendar.F13") + 1);
    EXPECT_EQ(number("stages_overdue"), 1);
}

// A season as it happens: 12 rows grafted over 15 days, marks and dates entered through the workbook.

TEST_F(Plan, TheWeekListsWhatIsDueRowByRow) {
    set("trees", 336);
    ASSERT_EQ(number("trees_in_rows"), 336);
    const double start = number("graft_date");
    // Days after the first on which the rows were grafted.
    const std::array<int, 12> grafted{0, 1, 2, 3, 4, 7, 8, 9, 10, 11, 14, 14};
    std::vector<DayLine> lines;
    for (std::size_t line = 0; line < grafted.size(); ++line) {
        // Nothing else is written: what is grafted was cut back before.
        lines.push_back({start + grafted[line], "grafted", std::to_string(line + 1), 28, 224});
    }
    const auto week = [&](int first_day) {
        set("week_from", start + first_day);
        set("week_days", 7);
        return number("week_lines");
    };
    const auto line = [&](int at, const char* column) {
        return std::string("Week.") + column + std::to_string(10 + at);
    };

    // Before the grafting, what is due once for the block stands above the list and in no row: materials 4 to 1 weeks
    // before, wood ordered 8 to 5 months before.
    week(-21);
    EXPECT_EQ(text("week_for_block").find("For the block: "), 0U) << text("week_for_block");
    EXPECT_NE(text("week_for_block").find("Materials in, latest "), std::string::npos) << text("week_for_block");
    for (int at = 1; at <= 20; ++at) EXPECT_NE(text(line(at, "C")), "Materials in");
    type("Calendar.H8", "x");
    EXPECT_EQ(text("week_for_block").find("Materials in"), std::string::npos) << text("week_for_block");
    write_daybook(book, lines);
    EXPECT_EQ(number("last_day"), start + 14);

    // Days 14 to 20: the first look begins 14 days after grafting, so for rows 1 to 5.
    EXPECT_EQ(week(14), 5);
    EXPECT_EQ(number(line(1, "B")), 1);
    EXPECT_EQ(text(line(1, "C")), "First look under the bag");
    EXPECT_EQ(number(line(1, "D")), start + 14);
    EXPECT_EQ(number(line(5, "F")), start + 4 + 21);
    EXPECT_EQ(text(line(1, "G")), "due");
    // 28 trees x 2 minutes each.
    EXPECT_NEAR(number("week_hours"), 5 * 28 * 2. / 60, 1e-9);
    EXPECT_EQ(number("week_people"), 1);

    // Rows 1 to 5 are looked at on day 19; row 3 was forgotten.
    const std::string look = "First look under the bag";
    for (const int done : {1, 2, 4, 5}) lines.push_back({start + 19, look, std::to_string(done)});
    write_daybook(book, lines);
    // Days 28 to 34: row 3 still, first looks of rows 6 to 12, airing from day 28 on for rows 1 to 5, suckers from day
    // 21 on for rows 1 to 10.
    EXPECT_EQ(week(28), 1 + 7 + 5 + 10);
    bool overdue = false;
    for (int at = 1; at <= 23; ++at) {
        if (number(line(at, "B")) != 3 || text(line(at, "C")) != "First look under the bag") continue;
        overdue = text(line(at, "G")) == "overdue";
    }
    EXPECT_TRUE(overdue) << "day 2 + 21 lies before day 28";

    // Airing comes late in row 1, on day 38; a row is lost.
    lines.push_back({start + 30, look});
    lines.push_back({start + 38, "First airing", "1"});
    lines.push_back({start + 38, "lost", "12", 28});
    write_daybook(book, lines);
    EXPECT_EQ(number("trees_left"), 308);
    EXPECT_EQ(number("trees"), 336) << "what was planned stays";
    // Days 42 to 48, open: airing of rows 2 to 11, suckers of rows 1 to 11, the top from day 35 on for rows 1 to 11
    // (day 14 + 35 is past 48: not row 11), bags from day 42 on for rows 1 to 5 (day 4 + 42), the second round of
    // suckers three weeks after the first one's earliest day for the same.
    EXPECT_EQ(week(42), 10 + 11 + 10 + 5 + 5);
    // Two years on everything of the first season stays on the list until it is marked.
    EXPECT_GT(week(700), 36);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(Plan, HoursOfLabourFollowRowsAndFeedMoney) {
    // Each stage at its target: 2 + 2 + 1.5 x 3 + 2 + 3 + 6 + 5 + 6 minutes in the first year, all within the months.
    EXPECT_NEAR(number("care_first"), (2 + 2 + 4.5 + 2 + 3 + 6 + 5 + 6) / 60. * 15, 1e-9);
    EXPECT_NEAR(calculated("=SUM(hours_by_month)"), 571 * (40 + 30.5 + 8) / 60, 1e-6);
    set("Crew.C41", 4);  // the first look takes twice as long
    EXPECT_NEAR(calculated("=SUM(hours_by_month)"), 571 * (40 + 32.5 + 8) / 60, 1e-6);
    EXPECT_NEAR(number("care_first"), 32.5 / 60 * 15, 1e-9);
}

TEST_F(Plan, ActualAddsUpToTheCentAndPaybackFollowsIt) {
    const double planned = number("payback");
    EXPECT_NEAR(number("payback_actual"), planned, 1e-9) << "nothing has happened yet";
    // Year 5: 20,000 kg at 0.80 for 15,000 of costs.
    const double kilograms = number("Actual.J16");
    const double costs = number("Actual.D16");
    set("Actual.K16", 20000);
    set("Actual.M16", 0.8);
    set("Actual.E16", 15000);
    EXPECT_NEAR(number("Actual.N16"), (20000 - kilograms) * 0.92, 0.005);
    EXPECT_NEAR(number("Actual.O16"), (0.8 - 0.92) * 20000, 0.005);
    EXPECT_NEAR(number("Actual.P16"), costs - 15000, 0.005);
    EXPECT_NEAR(number("Actual.R16"), 20000 * 0.8 - 15000 - number("Actual.T16"), 0.005) << "the three parts add up";
    // Cash and the margin forgone are apart, and add up to the costs of sheet Money.
    EXPECT_GT(number("Actual.T16"), 0);
    EXPECT_NEAR(costs + number("Actual.T16"), calculated("=INDEX(all_costs;6)"), 1e-6);
    EXPECT_NEAR(number("Actual.T16"), number("old_margin"), 1e-6);
    EXPECT_NE(number("payback_actual"), planned);
}

TEST_F(Plan, CashAndHoursOfAYearComeFromTheDaybook) {
    const double start = number("graft_date");
    std::vector<DayLine> lines;
    for (int line = 1; line <= 21; ++line) {
        lines.push_back({start + line, "grafted", std::to_string(line), {}, 224, {}, "A", "Maren", 9, 11.5});
    }
    lines.push_back({start - 30, "paid", "", {}, {}, {}, "", "", {}, 500});
    lines.push_back({start + 40, "First airing", "", {}, {}, {}, "", "", 30.5, 20});
    write_daybook(book, lines);
    EXPECT_EQ(number("cash_out"), 21 * 11.5 + 500 + 20);
    EXPECT_EQ(number("hours_done"), 21 * 9 + 30.5);
    // The grafting is over, year 1 is not: it counts as planned.
    EXPECT_EQ(number("Actual.E11"), 21 * 11.5 + 500);
    EXPECT_EQ(number("Actual.G11"), 21 * 9);
    EXPECT_EQ(text("Actual.E12"), "");
    EXPECT_NEAR(number("Actual.P11"), number("Actual.D11") - 741.5, 0.005);
    set("as_of", start + 367);
    EXPECT_EQ(number("Actual.E12"), 20);
    EXPECT_EQ(number("Actual.G12"), 30.5);
    EXPECT_EQ(text("Actual.E13"), "");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

}  // namespace
}  // namespace slipbark::tests

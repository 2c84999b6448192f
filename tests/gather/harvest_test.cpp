// What plans, logs and records give, from cells put together here; sums and shares are reckoned by hand beside them.
#include "gather/harvest.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace slipbark::gather {

namespace {

/// A workbook whose names each have a column of their own.
class Made {
  public:
    explicit Made(const std::string& kind) {
        if (!kind.empty()) cells_.properties["Slipbark workbook"] = kind;
    }
    Made& set(const std::string& name, std::vector<CellValue> values, std::int64_t rows = 1) {
        auto& sheet = cells_.sheets["A"];
        cells_.names[name] = {"A", 0, next_, std::max<std::int64_t>(rows, static_cast<std::int64_t>(values.size())) - 1,
                              next_};
        for (std::size_t row = 0; row < values.size(); ++row) {
            sheet.push_back({static_cast<std::int64_t>(row), 1, next_, 1, values[row]});
        }
        ++next_;
        return *this;
    }
    [[nodiscard]] const WorkbookCells& cells() const { return cells_; }
    [[nodiscard]] Harvest harvest() const {
        auto either = gather::harvest(cells_, "Slipbark workbook");
        if (const auto* why = std::get_if<Message>(&either)) throw std::runtime_error(why->english());
        return std::get<Harvest>(either);
    }
    [[nodiscard]] std::string refusal() const {
        const auto either = gather::harvest(cells_, "Slipbark workbook");
        const auto* why = std::get_if<Message>(&either);
        return why == nullptr ? std::string() : why->english();
    }

  private:
    WorkbookCells cells_;
    std::int64_t next_ = 0;
};

using Values = std::vector<CellValue>;
const CellValue blank;

Made plan() {
    Made made("rework-plan");
    made.set("block", {std::string("Alder Bank, block 2 ")})
        .set("old_variety", {std::string("Old")})
        .set("new_variety", {std::string("New")})
        .set("method", {std::string("bagged bark graft")})
        .set("graft_date", {46650.0})  // 20 September 2027
        .set("trees", {60.0})
        .set("grafts", {480.0})
        .set("rework_cost", {1800.0})
        .set("row_planted", {20.0, 20.0, 20.0})
        .set("batch", {std::string("A"), std::string("B"), std::string("A")})
        .set("placed", {160.0, 160.0, 160.0});
    return made;
}

}  // namespace

TEST(Harvest, OfAPlanIsOneBlock) {
    const Harvest all = plan()
                            .set("flows", {-100.0, -60.0, 30.0, 200.0})
                            .set("odds_paid", {0.0, 0.1, 0.49, 0.5, 0.9})
                            .set("plan_entries", {std::string("Enter the trees.")})
                            .set("crew_entries", {std::string("Enter the trees.")})
                            .set("lots_check", {std::string("Lots do not add up.")})
                            .set("log_check", {std::string("of a column")}, 5)
                            .harvest();
    EXPECT_EQ(all.kind, Kind::plan);
    ASSERT_TRUE(all.block);
    const BlockLine& line = *all.block;
    EXPECT_EQ(line.block, "Alder Bank, block 2");
    EXPECT_EQ(line.season, 2027.0);
    EXPECT_EQ(line.cost_per_tree, 30.0);  // 1800 / 60
    EXPECT_EQ(line.lowest_cash, -160.0);  // -100 - 60
    EXPECT_EQ(line.payback, 3.0);         // the first year with at least half
    EXPECT_EQ(line.checks, (std::vector<std::string>{"Enter the trees.", "Lots do not add up."}));
    EXPECT_EQ(line.state, State::planned);
    EXPECT_FALSE(line.take);
    EXPECT_TRUE(all.counts.empty());
}

TEST(Harvest, TellsHowFarABlockIs) {
    const auto state = [](const Values& grafted, const Values& live) {
        return plan().set("row_grafted", grafted, 3).set("live_now", live, 3).harvest().block->state;
    };
    EXPECT_EQ(state({}, {}), State::planned);
    EXPECT_EQ(state({46650.0}, {}), State::grafting);
    EXPECT_EQ(state({46650.0, 46651.0, 46652.0}, {}), State::grafted);
    EXPECT_EQ(state({46650.0, 46651.0, 46652.0}, {120.0}), State::counting);
    EXPECT_EQ(state({46650.0}, {120.0}), State::counting);
    EXPECT_EQ(state({}, {120.0, 0.0, 100.0}), State::counted);
}

TEST(Harvest, SumsCountsOfALot) {
    const Harvest all = plan().set("live_now", {120.0, 90.0, 100.0}).harvest();
    ASSERT_EQ(all.counts.size(), 2U);
    EXPECT_EQ(all.counts[0].lot, "A");
    EXPECT_EQ(all.counts[0].trees, 40);
    EXPECT_EQ(all.counts[0].grafts, 320);
    EXPECT_EQ(all.counts[0].live, 220);
    EXPECT_EQ(all.counts[0].season, 2027.0);
    EXPECT_EQ(all.counts[1].live, 90);
    ASSERT_TRUE(all.block->take);
    EXPECT_NEAR(all.block->take->take, 310.0 / 480, 1e-12);
    ASSERT_EQ(all.block->takes.size(), 2U);
    EXPECT_LT(all.block->takes[0].low, 220.0 / 320);
    EXPECT_GT(all.block->takes[0].high, 220.0 / 320);
}

TEST(Harvest, LeavesOutCountsThatCannotBe) {
    const Harvest all = plan().set("live_now", {161.0, -1.0, 100.0}).harvest();
    ASSERT_EQ(all.counts.size(), 1U);
    EXPECT_EQ(all.counts[0].live, 100);
}

TEST(Harvest, FindsWhereALotIsFromBesideItsFirstName) {
    Made made = plan();
    made.set("source", {std::string("Own mother trees"), std::string("Fern Nursery")},
             6);  // left of the lots, as in 0.1
    made.set("lots", {std::string("A"), std::string("B")}, 6);
    WorkbookCells cells = made.cells();
    cells.names["first_lot"] = {"A", 0, cells.names.at("lots").first_column, 0, cells.names.at("lots").first_column};
    const auto either = harvest(cells, "Slipbark workbook");
    const auto& lots = std::get<Harvest>(either).lots;
    ASSERT_EQ(lots.size(), 2U);
    EXPECT_EQ(lots[1].lot, "B");
    EXPECT_EQ(lots[1].nursery, "Fern Nursery");
}

TEST(Harvest, ListsOpenStagesByTheirDays) {
    const Harvest all =
        plan()
            .set("calendar_stages", {std::string("Order"), std::string("Cut"), std::string("Graft"), blank})
            .set("earliest", {46499.0, 46648.0, 46649.0, blank})
            .set("target", {46500.0, 46649.0, 46650.0, blank})
            .set("stage_open", {-1.0, 1.0, 0.0, 1.0})
            // The same in another order, which the marks do not follow.
            .set("labour_stage", {std::string("Cut"), std::string("Graft"), std::string("Order"), blank})
            .set("labour_target", {46649.0, 46650.0, 46500.0, 0.0})
            .set("stages_overdue", {1.0})
            .harvest();
    ASSERT_EQ(all.block->due.size(), 2U);
    EXPECT_EQ(all.block->due[0].stage, "Order");
    EXPECT_EQ(all.block->due[1].day, 46649.0);
    EXPECT_EQ(all.block->overdue, 1.0);
}

TEST(Harvest, OfAnOlderPlanListsAllStages) {
    const Harvest all = plan()
                            .set("labour_stage", {std::string("Cut"), std::string("Graft")})
                            .set("labour_target", {46649.0, 46640.0})
                            .harvest();
    ASSERT_EQ(all.block->due.size(), 2U);
    EXPECT_EQ(all.block->due[0].stage, "Graft");
}

TEST(Harvest, OfALogCountsTreeByTreeAtTheLastLook) {
    Made made("inspection-log");
    made.set("block", {std::string("Alder Bank, block 2")})
        .set("trees", {4.0})
        .set("tree_row", {1.0, 1.0, 1.0, 1.0})
        .set("grafter", {std::string("Odalys"), std::string("Odalys"), std::string("Bram"), std::string("Bram")})
        .set("batch", {std::string("M1"), std::string("M1"), std::string("M1"), std::string("M1")})
        .set("placed", {6.0, 6.0, 8.0, 8.0})
        .set("live_first", {6.0, 5.0, 8.0, blank})
        .set("live_second", {4.0, 5.0, blank, blank})
        .set("live_third", {blank, 3.0, blank, blank});
    const Harvest all = made.harvest();
    ASSERT_EQ(all.counts.size(), 2U);
    EXPECT_EQ(all.counts[0].trees, 2);
    EXPECT_EQ(all.counts[0].live, 7);  // 4 + 3
    EXPECT_EQ(all.counts[1].grafts, 8);
    EXPECT_EQ(all.block->grafts, 28.0);
    EXPECT_EQ(all.block->state, State::counting);
}

TEST(Harvest, OfRecordsKeepsSeasonsAndBlocksApart) {
    Made made("records");
    made.set("farm", {std::string("Wader Hill")})
        .set("counts_season", {2026.0, 2026.0, 2027.0})
        .set("counts_block", {std::string("North"), std::string("North"), std::string("North")})
        .set("counts_trees", {10.0, 12.0, blank})
        .set("counts_placed", {60.0, 72.0, 6.0})
        .set("counts_live", {40.0, 50.0, 6.0});
    const Harvest all = made.harvest();
    EXPECT_EQ(all.client, "Wader Hill");
    EXPECT_FALSE(all.block);
    ASSERT_EQ(all.counts.size(), 2U);
    EXPECT_EQ(all.counts[0].live, 90);
    EXPECT_EQ(all.counts[0].trees, 22);
    EXPECT_EQ(all.counts[1].trees, 1);
}

TEST(Harvest, KnowsAWorkbookByItsNamesWhereItsPropertyWasLost) {
    EXPECT_EQ(kind_of(Made("").set("counts_placed", {}).set("counts_live", {}).cells(), "p"), Kind::records);
    EXPECT_EQ(kind_of(Made("").set("counts_placed", {}).cells(), "p"), std::nullopt);
    EXPECT_EQ(kind_of(Made("seasons").set("counts_placed", {}).set("counts_live", {}).cells(), "Slipbark workbook"),
              std::nullopt);
}

TEST(Harvest, SaysWhyThereIsNothing) {
    EXPECT_EQ(Made("").refusal(),
              "It is no rework plan, inspection log or book of records: nothing was taken from it.");
    EXPECT_TRUE(
        plan().set("grafts", {CellError{"#NAME?"}}).refusal().starts_with("Its figures were lost: they show #NAME?"));
    EXPECT_TRUE(plan().set("entries", {CellError{"#¿NOMBRE?"}}).refusal().starts_with("Its figures were lost"));
    EXPECT_EQ(plan().set("payback_median", {CellError{"#N/A"}}).refusal(), "");  // an answer that may be missing
}

TEST(Harvest, CountsDatesFrom1904WhereTheWorkbookDoes) {
    WorkbookCells cells = Made("rework-plan").set("graft_date", {46650.0 - 1462}).cells();
    cells.dates_from_1904 = true;
    EXPECT_EQ(std::get<Harvest>(harvest(cells, "Slipbark workbook")).block->season, 2027.0);
}

}  // namespace slipbark::gather

#include "slipbark/defaults.hpp"

#include <gtest/gtest.h>

#include <map>

#include "common.hpp"
#include "slipbark/calendar.hpp"
#include "slipbark/yield.hpp"

namespace slipbark::defaults {
namespace {

using tests::refused;

constexpr const char* names[] = {"schedule",        "bagged bark graft",   "wrapped bark graft",
                                 "bud on regrowth", "dormant cleft graft", "yield",
                                 "storage",         "cool storage",        "canopy"};

double number(const Table& table, std::size_t row, std::size_t column) {
    return std::get<double>(table.at(row, column));
}

std::string text(const Table& table, std::size_t row, std::size_t column) {
    return std::get<std::string>(table.at(row, column));
}

TEST(Defaults, TellASourceInEveryRow) {
    for (const char* name : names) {
        const Table given = table(name);
        ASSERT_GT(given.rows(), 1U) << name;
        EXPECT_EQ(given.rows() * given.columns, given.cells.size()) << name;
        for (std::size_t row = 0; row < given.rows(); ++row) {
            // Of a schedule the column after the source may be blank: counted from the grafting.
            const std::size_t source = given.columns == 8 ? 6 : given.columns - 1;
            EXPECT_GT(text(given, row, source).size(), 10U) << name << " row " << row + 1;
            for (std::size_t column = 0; column < source; ++column) {
                EXPECT_FALSE(is_blank(given.at(row, column))) << name << " row " << row + 1;
            }
        }
    }
}

TEST(Defaults, AreFoundByNameWhateverTheCase) {
    EXPECT_EQ(table(" Yield ").cells, yield().cells);
    EXPECT_EQ(table("SCHEDULE").cells, schedule().cells);
    EXPECT_EQ(table("Bagged bark graft").rows(), schedules().front().stages.size());
    EXPECT_EQ(table("storage").cells, room_storage().cells);
    EXPECT_EQ(table("cool storage").cells, cool_storage().cells);
    for (const char* wrong : {"", "yields", "cool"}) EXPECT_EQ(refused(table, std::string(wrong)), "name");
}

TEST(DefaultSchedule, RunsInOrderOfTargetAndEachOffsetInOrder) {
    const std::map<std::string, double> days{{"d", 1}, {"w", 7}, {"m", 30.4375}};
    const Table& stages = schedule();
    double before = -1e9;
    for (std::size_t row = 0; row < stages.rows(); ++row) {
        const double earliest = number(stages, row, 1);
        const double target = number(stages, row, 2);
        const double latest = number(stages, row, 3);
        EXPECT_LE(earliest, target) << text(stages, row, 0);
        EXPECT_LE(target, latest) << text(stages, row, 0);
        ASSERT_TRUE(days.contains(text(stages, row, 4))) << text(stages, row, 0);
        const double due = target * days.at(text(stages, row, 4));
        EXPECT_GE(due, before) << text(stages, row, 0);
        before = due;
        EXPECT_FALSE(text(stages, row, 5).empty());
    }
}

TEST(DefaultSchedules, GiveTheSameDatesByNameAndAsATable) {
    ASSERT_EQ(schedules().size(), 4U);
    for (const Schedule& built_in : schedules()) {
        const std::string name(built_in.name);
        for (const char* day : {"2027-09-06", "2028-02-29", "2027-03-31"}) {
            const Table by_name = calendar::schedule(tests::iso(day), Table{1, {name}});
            EXPECT_EQ(by_name, calendar::schedule(tests::iso(day), table(name))) << name << " " << day;
            EXPECT_EQ(by_name.rows(), built_in.stages.size());
        }
    }
    EXPECT_EQ(calendar::schedule(tests::iso("2027-09-06"), Table{1, {" Schedule"}}),
              calendar::schedule(tests::iso("2027-09-06")));
}

// Documents may mean a stage by its row, so the schedule of those that give none has kept its rows. With what comes
// before the grafting it goes by a name of its own.
TEST(DefaultSchedules, WhereNoneIsGivenIsTheBaggedGraftFromCuttingBackOn) {
    const Day graft = tests::iso("2027-09-06");
    EXPECT_EQ(stages().front().name, "Cut back and paint");
    EXPECT_EQ(stages().size(), 14U);
    EXPECT_EQ(calendar::milestone(graft, "3"), tests::iso("2027-09-24"));  // 18 days to the first look
    for (const Stage& stage : stages()) {
        const std::string name(stage.name);
        for (const double edge : {-1.0, 0.0, 1.0}) {
            EXPECT_EQ(calendar::milestone(graft, name, edge, Table{1, {"bagged bark graft"}}),
                      calendar::milestone(graft, name, edge))
                << name;
        }
    }
}

// All of them have a stage of the day of grafting itself, and the targets do not fall from row to row.
TEST(DefaultSchedules, RunInOrderOfTargetThroughTheDayOfGrafting) {
    const Day graft = tests::iso("2027-09-06");
    for (const Schedule& built_in : schedules()) {
        const Table dates = calendar::schedule(graft, Table{1, {std::string(built_in.name)}});
        Day before{};
        bool grafted = false;
        for (std::size_t row = 0; row < dates.rows(); ++row) {
            const Day target = std::get<Day>(dates.at(row, 2));
            EXPECT_GE(target, before) << built_in.name << ": " << text(dates, row, 0);
            before = target;
            if (text(dates, row, 0) == "Graft") {
                grafted = true;
                for (std::size_t edge = 1; edge <= 3; ++edge) EXPECT_EQ(std::get<Day>(dates.at(row, edge)), graft);
            }
        }
        EXPECT_TRUE(grafted) << built_in.name;
    }
}

TEST(DefaultSchedules, BeginBeforeTheGrafting) {
    for (const Schedule& built_in : schedules()) {
        EXPECT_EQ(built_in.stages.front().name, "Ask licence and quarantine") << built_in.name;
        for (const char* stage : {"Order wood or mark mother trees", "Materials in", "Lower irrigation and nitrogen"}) {
            EXPECT_LE(calendar::milestone(tests::iso("2027-09-06"), stage, {}, Table{1, {std::string(built_in.name)}}),
                      tests::iso("2027-09-06"))
                << built_in.name << ": " << stage;
        }
    }
}

TEST(DefaultShares, RunFromTheFirstDayAndStayShares) {
    for (const Table* shares : {&yield(), &room_storage(), &cool_storage(), &canopy()}) {
        EXPECT_EQ(number(*shares, 0, 0), 0);
        for (std::size_t row = 0; row < shares->rows(); ++row) {
            EXPECT_GE(number(*shares, row, 1), 0);
            EXPECT_LE(number(*shares, row, 1), 1);
            if (row > 0) {
                EXPECT_GT(number(*shares, row, 0), number(*shares, row - 1, 0));
            }
        }
    }
}

// Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46: of buds kept in polyethylene at room temperature 100, 70, 36
// and 0 % were alive after 0, 5, 10 and 15 days. At 5 degrees C, above 95 % took after 74 days.
TEST(DefaultShares, AreThePublishedOnes) {
    const Table& room = room_storage();
    const double published[4][2] = {{0, 1}, {5, 0.70}, {10, 0.36}, {15, 0}};
    ASSERT_EQ(room.rows(), 4U);
    for (std::size_t row = 0; row < 4; ++row) {
        EXPECT_EQ(number(room, row, 0), published[row][0]);
        EXPECT_EQ(number(room, row, 1), published[row][1]);
    }
    EXPECT_EQ(number(cool_storage(), 1, 0), 74);
    EXPECT_EQ(number(cool_storage(), 1, 1), 0.95);
}

// Common practice: of 100 kg mature, some 20 kg in the first crop at 33 months and 50 kg a year later.
TEST(DefaultYield, IsTheTradesRule) {
    EXPECT_NEAR(yield::per_tree(33 / 12.0, 100), 20, 1e-9);
    EXPECT_NEAR(yield::per_tree(33 / 12.0 + 1, 100), 50, 1e-9);
    EXPECT_EQ(yield::per_tree(0, 100), 0);
    EXPECT_EQ(yield::per_tree(50, 100), 100);
    double before = 0;
    for (int month = 1; month <= 120; ++month) {
        const double crop = yield::per_tree(month / 12.0, 100);
        EXPECT_GE(crop, before) << month;
        before = crop;
    }
}

TEST(DefaultYield, FedBackAsACurveGivesTheSameAnswers) {
    const Table pasted = table("yield");
    for (int month = 0; month <= 240; ++month) {
        EXPECT_EQ(yield::per_tree(month / 12.0, 87, pasted), yield::per_tree(month / 12.0, 87)) << month;
    }
    EXPECT_EQ(yield::by_year(400, 12, 87, 0.9, 0.7, 0.02, pasted).cells,
              yield::by_year(400, 12, 87, 0.9, 0.7, 0.02).cells);
}

}  // namespace
}  // namespace slipbark::defaults

#include "slipbark/defaults.hpp"

#include <gtest/gtest.h>

#include <map>

#include "common.hpp"
#include "slipbark/yield.hpp"

namespace slipbark::defaults {
namespace {

using tests::refused;

constexpr const char* names[] = {"schedule", "yield", "storage", "cool storage"};

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
            EXPECT_GT(text(given, row, given.columns - 1).size(), 10U) << name << " row " << row + 1;
            for (std::size_t column = 0; column < given.columns; ++column) {
                EXPECT_FALSE(is_blank(given.at(row, column))) << name << " row " << row + 1;
            }
        }
    }
}

TEST(Defaults, AreFoundByNameWhateverTheCase) {
    EXPECT_EQ(table(" Yield ").cells, yield().cells);
    EXPECT_EQ(table("SCHEDULE").cells, schedule().cells);
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

TEST(DefaultShares, RunFromTheFirstDayAndStayShares) {
    for (const Table* shares : {&yield(), &room_storage(), &cool_storage()}) {
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

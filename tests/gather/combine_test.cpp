// Several workbooks of a folder as one table.
#include "gather/combine.hpp"

#include <gtest/gtest.h>

namespace slipbark::gather {

namespace {

CountLine count(const std::string& block, std::optional<double> season, const std::string& lot, double live) {
    return {.season = season,
            .block = block,
            .method = {},
            .lot = lot,
            .nursery = {},
            .grafter = {},
            .trees = 10,
            .grafts = 60,
            .live = live};
}

SourceFile plan(const std::string& path, const std::string& block, double season, double saved) {
    SourceFile file{.path = path, .saved = saved, .harvest = {}};
    BlockLine line;
    line.block = block;
    line.season = season;
    line.method = "bark graft";
    file.harvest.block = line;
    file.harvest.lots = {{"A", "Fern Nursery"}, {"B", ""}};
    return file;
}

SourceFile log(const std::string& path, const std::string& block, double saved) {
    SourceFile file{.path = path, .saved = saved, .harvest = {}};
    file.harvest.kind = Kind::log;
    BlockLine line;
    line.block = block;
    line.take = Take{"", 0.5, 0.4, 0.6};
    line.state = State::counting;
    file.harvest.block = line;
    return file;
}

}  // namespace

TEST(Combine, NamesTheClientByFolderOrFile) {
    EXPECT_EQ(client_of("Heron Bank/2027/north.ods"), "Heron Bank");
    EXPECT_EQ(client_of("Heron Bank 2027.xlsx"), "Heron Bank 2027");
    SourceFile named = plan("folder/north.ods", "North", 2027, 1);
    named.harvest.client = "Wader Hill";
    EXPECT_EQ(combine({named}).blocks.at(0).client, "Wader Hill");
}

TEST(Combine, KeepsTheCopySavedLast) {
    const Tables tables = combine({plan("X/old.ods", "North", 2027, 1), plan("X/new.ods", " north", 2027, 2),
                                   plan("X/before.ods", "North", 2026, 3), plan("Y/other.ods", "North", 2027, 1)});
    ASSERT_EQ(tables.blocks.size(), 3U);
    EXPECT_EQ(tables.blocks[0].path, "X/before.ods");
    EXPECT_EQ(tables.blocks[1].path, "X/new.ods");
    EXPECT_EQ(tables.blocks[2].path, "Y/other.ods");
    ASSERT_EQ(tables.problems.size(), 1U);
    EXPECT_EQ(tables.problems[0].path, "X/old.ods");
    EXPECT_EQ(tables.problems[0].reason.english(),
              "Left out: X/new.ods is for the same block and season and was saved later.");
}

TEST(Combine, TakesCountsFromTheLogOfAPlannedBlock) {
    SourceFile planned = plan("X/plan.ods", "North", 2027, 1);
    planned.harvest.counts = {count("North", 2027, "A", 30)};
    SourceFile logged = log("X/log.ods", "North", 1);
    logged.harvest.counts = {count("North", {}, "A", 31), count("North", {}, "B", 20)};
    SourceFile recorded{.path = "X/records.ods", .saved = 9, .harvest = {}};
    recorded.harvest.kind = Kind::records;
    recorded.harvest.counts = {count("North", 2027, "A", 29), count("North", 2025, "A", 40)};
    const Tables tables = combine({recorded, logged, planned});
    ASSERT_EQ(tables.blocks.size(), 1U);
    EXPECT_EQ(tables.blocks[0].line.take->take, 0.5);
    EXPECT_EQ(tables.blocks[0].line.state, State::counting);
    ASSERT_EQ(tables.counts.size(), 3U);
    EXPECT_EQ(tables.counts[0].path, "X/log.ods");
    EXPECT_EQ(tables.counts[0].line.live, 31);
    EXPECT_EQ(tables.counts[0].line.season, 2027.0);
    EXPECT_EQ(tables.counts[0].line.method, "bark graft");
    EXPECT_EQ(tables.counts[0].line.nursery, "Fern Nursery");
    EXPECT_EQ(tables.counts[1].line.nursery, "");
    EXPECT_EQ(tables.counts[2].line.season, 2025.0);
    EXPECT_TRUE(tables.problems.empty());
}

TEST(Combine, NamesASecondLogOfTheSameBlock) {
    SourceFile first = log("X/1.ods", "North", 1);
    first.harvest.counts = {count("North", {}, "A", 30)};
    SourceFile second = log("X/2.ods", "North", 2);
    second.harvest.counts = {count("North", {}, "A", 32)};
    const Tables tables = combine({first, second});
    ASSERT_EQ(tables.counts.size(), 1U);
    EXPECT_EQ(tables.counts[0].line.live, 32);
    ASSERT_EQ(tables.problems.size(), 1U);
    EXPECT_EQ(tables.problems[0].path, "X/1.ods");
}

TEST(Combine, DoesNotDependOnTheOrderOfFiles) {
    const std::vector<SourceFile> files{plan("X/a.ods", "North", 2027, 1), plan("X/b.ods", "North", 2027, 1),
                                        log("X/c.ods", "North", 1), plan("Y/d.ods", "South", 2027, 1)};
    std::vector<SourceFile> turned(files.rbegin(), files.rend());
    const Tables one = combine(files);
    const Tables other = combine(turned);
    ASSERT_EQ(one.blocks.size(), other.blocks.size());
    for (std::size_t at = 0; at < one.blocks.size(); ++at) EXPECT_EQ(one.blocks[at].path, other.blocks[at].path);
    EXPECT_EQ(one.problems.at(0).path, other.problems.at(0).path);
}

}  // namespace slipbark::gather

#include "budwood.hpp"

#include <gtest/gtest.h>

#include "outcome.hpp"

namespace slipbark::budwood {
namespace {

struct SticksCase {
    const char* name;
    double grafts, buds_per_graft, buds_per_stick, spare;
    double expected;
    const char* source;
};

class Sticks : public testing::TestWithParam<SticksCase> {};

TEST_P(Sticks, AreWholeScionsRoundedUp) {
    const auto& row = GetParam();
    EXPECT_EQ(sticks(row.grafts, row.buds_per_graft, row.buds_per_stick, row.spare), row.expected) << row.source;
}

INSTANTIATE_TEST_SUITE_P(Table, Sticks,
                         testing::Values(SticksCase{"a_block_of_400", 3200, 2, 9, 0.15, 920,
                                                    "arithmetic of whole scions: 3200 / 4 * 1.15"},
                                         SticksCase{"no_spare", 3200, 2, 9, 0, 800, "arithmetic: 3200 / 4"},
                                         SticksCase{"single_buds_lose_none", 900, 1, 9, 0, 100, "arithmetic: 900 / 9"},
                                         SticksCase{"nothing_to_graft", 0, 2, 9, 0.15, 0, "arithmetic"}),
                         [](const auto& row) { return row.param.name; });

TEST(SticksRefuses, WhatCannotBe) {
    EXPECT_THROW(sticks(2.5, 2, 9), bad_argument);
    EXPECT_THROW(sticks(10, 3, 2), bad_argument);
    EXPECT_THROW(sticks(10, 2, 9, 15), bad_argument);
}

}  // namespace
}  // namespace slipbark::budwood

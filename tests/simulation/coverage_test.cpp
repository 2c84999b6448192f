// A thin grid of what tests/simulation/run proves at length: that limits keep what they promise.

#include "coverage.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace slipbark::simulation {
namespace {

TEST(Coverage, IsWhatTheFunctionsPromise) {
    constexpr int sets = 400;
    for (const Claim& claim : all_claims(Grid::thin, sets)) {
        for (const Setting& setting : claim.settings) {
            SCOPED_TRACE(claim.title + ": " + setting.row + "; " + setting.column);
            ASSERT_GT(setting.answers, 0);
            // Three standard errors of so few sets: what falls below that is no accident.
            const auto chance = [&](double bound) { return 3 * std::sqrt(bound * (1 - bound) / setting.answers); };
            EXPECT_GE(setting.share_right(), claim.least - chance(claim.least));
            EXPECT_LE(setting.share_right(), claim.most + chance(claim.most));
        }
    }
}

TEST(Coverage, DoesNotComeFromLimitsThatSayNothing) {
    for (const Setting& setting : limits_of_trees(Grid::thin, 400).settings) {
        EXPECT_LT(setting.relative_width(), 2) << setting.row << "; " << setting.column;
    }
}

}  // namespace
}  // namespace slipbark::simulation

// The short form of odds_simulation: fewer blocks, 40,000 futures each.
#include <gtest/gtest.h>

#include "futures.hpp"

namespace slipbark::tests {
namespace {

TEST(FlowOdds, AgreeWithFuturesDrawnFreely) {
    const auto cases = future_cases();
    double sum = 0;
    int shares = 0;
    for (std::size_t at = 0; at < cases.size(); at += 3) {
        for (const std::size_t one : {at, at + 1}) {
            const Distance found = distance(cases[one], 40'000, 4000);
            EXPECT_LT(found.largest, 0.03) << cases[one].name;
            sum += found.mean * found.shares;
            shares += found.shares;
        }
    }
    EXPECT_LT(sum / shares, 0.01);
    EXPECT_GT(shares, 60);  // so that something is compared
}

}  // namespace
}  // namespace slipbark::tests

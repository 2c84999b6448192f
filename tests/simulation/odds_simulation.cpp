// Holds the odds of 4,000 draws against 400,000 futures drawn freely, over invented blocks. Ends with 1 where a share
// is off by 0.03 or more, or all by 0.01 or more on average.

#include <algorithm>
#include <cstdio>

#include "futures.hpp"

int main() {
    using slipbark::tests::Distance;
    std::printf("| block | years | uncertain | shares | largest difference | mean |\n|---|---|---|---|---|---|\n");
    Distance all;
    double sum = 0;
    for (const auto& block : slipbark::tests::future_cases()) {
        const Distance found = slipbark::tests::distance(block, 400'000, 4000);
        std::printf("| %s | %zu | %zu | %d | %.4f | %.4f |\n", block.name.c_str(), block.years.size(),
                    block.spreads.size(), found.shares, found.largest, found.mean);
        all.largest = std::max(all.largest, found.largest);
        all.shares += found.shares;
        sum += found.mean * found.shares;
    }
    all.mean = sum / all.shares;
    std::printf("| all | | | %d | %.4f | %.4f |\n", all.shares, all.largest, all.mean);
    return all.largest < 0.03 && all.mean < 0.01 ? 0 : 1;
}

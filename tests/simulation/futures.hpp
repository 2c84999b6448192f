// A second reckoning of the odds, written apart from functions/: futures of a block drawn freely, one after the other,
// without a hypercube.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::tests {

struct FutureYear {
    double costs = 0;
    double crop = 0;
    double picking = 0;
    double old_crop = 0;
    double saved = 0;
};

/// What is not certain. `of_frost` is the probability of a frost year, `made_good` and `planned` are of the take.
struct FutureSpread {
    std::string what;
    double low = 1;
    double likely = 1;
    double high = 1;
    double of_frost = 0;
    double made_good = 0;
    double planned = 1;
};

struct FutureCase {
    std::string name;
    std::vector<FutureYear> years;
    std::vector<FutureSpread> spreads;
    double rate = 0;
    double limit = 0;

    /// As cells of FLOWODDS.
    [[nodiscard]] Table years_table() const;
    [[nodiscard]] Table spreads_table() const;
};

/// By the end of each year.
struct FutureShares {
    std::vector<double> paid_back;
    std::vector<double> beyond_limit;
};

/// Shares of `draws` futures.
FutureShares free_futures(const FutureCase& block, int draws, std::uint64_t seed);

/// Invented blocks of many shapes: all nine things uncertain, some, and one alone.
std::vector<FutureCase> future_cases();

/// How far the odds of `runs` draws are from free futures: over all cases, years and both shares.
struct Distance {
    double largest = 0;
    double mean = 0;
    int shares = 0;  ///< that are neither 0 nor 1 in both
};
Distance distance(const FutureCase& block, int draws, double runs);

}  // namespace slipbark::tests

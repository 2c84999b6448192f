#include "statistics/fisher.hpp"

#include <algorithm>
#include <cmath>

namespace slipbark::statistics {

// Tables with the same margins are weighed in units of the observed one, step
// by step from it both ways: neighbouring weights have a simple ratio, they rise to one top and fall again, so a way
// can end where they have fallen far below the observed one. That takes some tens of standard deviations of steps,
// not one for each possible table.
double fisher_exact(const Count& a, const Count& b) {
    constexpr double as_probable = 1 + 1e-7;
    constexpr double negligible = 1e-20;
    constexpr double beyond_doubt = 1e285;
    const double live = a.live + b.live;
    const double highest = std::min(a.grafted, live);
    const double lowest = std::max(0.0, live - b.grafted);
    double total = 1;
    double tail = 1;
    // The ratio of the weight of the table with j + 1 alive in `a` to that with j.
    const auto ratio = [&](double j) { return (a.grafted - j) * (live - j) / ((j + 1) * (b.grafted - live + j + 1)); };
    // Whether the way goes on from a table of this weight.
    const auto count_in = [&](double weight, double growth) {
        total += weight;
        if (weight <= as_probable) tail += weight;
        return total < beyond_doubt && (growth > 1 || weight > negligible);
    };
    bool goes_on = true;
    double weight = 1;
    double j = a.live;
    while (goes_on && j < highest) {
        const double growth = ratio(j++);
        weight *= growth;
        goes_on = count_in(weight, growth);
    }
    goes_on = true;
    weight = 1;
    j = a.live;
    while (goes_on && j > lowest) {
        const double growth = 1 / ratio(--j);
        weight *= growth;
        goes_on = count_in(weight, growth);
    }
    return total < beyond_doubt ? tail / total : 0;
}

double rao_scott(const Count& a, const Count& b, double design_effect) {
    const double live = a.live + b.live;
    const double grafted = a.grafted + b.grafted;
    if (live == 0 || live == grafted) return 1;
    const double share = live / grafted;
    const double difference = a.live / a.grafted - b.live / b.grafted;
    const double variance = share * (1 - share) * (1 / a.grafted + 1 / b.grafted) * design_effect;
    return std::erfc(std::abs(difference) / std::sqrt(2 * variance));
}

}  // namespace slipbark::statistics

#include "statistics/clusters.hpp"

#include <algorithm>

namespace slipbark::statistics {

ConfidenceInterval ClusteredShare::limits(double confidence, double part_counted) const {
    if (part_counted >= 1) return {share(), share()};
    const double deviate = is_estimated ? student_deviate(confidence, clusters - 1) : normal_deviate(confidence);
    // Korn & Graubard's n (z / t)^2 in the interval with z is n in that with t.
    return wilson(share(), all.grafted / limits_effect / (1 - part_counted), deviate);
}

ClusteredShare clustered_share(std::span<const Count> clusters, double clustering) {
    ClusteredShare found;
    double grafts_squared = 0;
    for (const auto& [live, grafted] : clusters) {
        found.all.live += live;
        found.all.grafted += grafted;
        grafts_squared += grafted * grafted;
    }
    found.clusters = static_cast<double>(clusters.size());
    const double expected = 1 + (grafts_squared / found.all.grafted - 1) * clustering;
    const double dead = found.all.grafted - found.all.live;
    const double rarer = std::min(found.all.live, dead);
    if (clusters.size() < 2 || rarer == 0) {
        found.design_effect = expected;
        found.limits_effect = expected;
        return found;
    }
    const double share = found.share();
    double squares = 0;
    for (const auto& [live, grafted] : clusters) squares += (live - share * grafted) * (live - share * grafted);
    // One `grafted` of the two variances cancels.
    found.design_effect = found.clusters / (found.clusters - 1) * squares / found.all.grafted / (share * (1 - share));
    constexpr double weight_of_expected = 4;
    const double weighed = (rarer * found.design_effect + weight_of_expected * expected) / (rarer + weight_of_expected);
    found.limits_effect = std::max({1.0, found.design_effect, weighed});
    found.is_estimated = true;
    return found;
}

}  // namespace slipbark::statistics

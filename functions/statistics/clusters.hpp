// A share counted on clusters: the grafts of a tree share its luck, so that they count for less than grafts on their
// own.
#pragma once

#include <span>

#include "statistics/count.hpp"
#include "statistics/intervals.hpp"

namespace slipbark::statistics {

struct ClusteredShare {
    Count all;                  ///< added up over the clusters
    double clusters = 0;        ///< how many
    double design_effect = 1;   ///< as estimated, below 1 too; where it cannot be estimated, the expected one
    double limits_effect = 1;   ///< the one used for limits, at least 1
    bool is_estimated = false;  ///< whether the clusters could be compared

    [[nodiscard]] double share() const { return all.live / all.grafted; }

    /// How many independent grafts these are worth.
    [[nodiscard]] Count effective() const { return {all.live / limits_effect, all.grafted / limits_effect}; }

    /// Wilson's limits with effective() and Student's t of clusters - 1 degrees; the normal deviate where the design
    /// effect is the expected one.
    ///
    /// part_counted  share of all clusters that were counted, 0 to 1; where all were, both limits are the share itself
    [[nodiscard]] ConfidenceInterval limits(double confidence, double part_counted = 0) const;
};

/// The share of the clusters and by how much clustering widens its limits.
///
/// The design effect d is the variance of the ratio estimator over the binomial one. It takes many clusters, and live
/// and dead on them, to estimate it well, so the limits use
///     max(1; d; (k d + 4 d0) / (k + 4)), k the smaller of the live and the dead,
/// which is the nearer to the expected d0 = 1 + (sum n^2 / sum n - 1) x clustering, the less there is to go by.
///
/// clusters    tallies with grafted > 0; not empty
/// clustering  correlation within a cluster that is expected; from 0 to below 1
/// source      Cochran, Sampling Techniques, 3rd ed. 1977, ratio estimator; Kish, Survey Sampling, 1965, design effect;
///             Korn & Graubard, Survey Methodology 24:193-201, 1998, t in Wilson's limits; the weight of d against d0
///             is an assumption of this program, see docs/trust.md for how often the limits are right
ClusteredShare clustered_share(std::span<const Count> clusters, double clustering);

}  // namespace slipbark::statistics

// The share still alive at a day, of some that were watched for unequal times.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "statistics/intervals.hpp"

namespace slipbark::statistics {

/// The last that is known of one: lost on a day, or alive when last looked at.
struct Observation {
    double day;
    bool lost;
    std::size_t cluster = 0;  ///< place of the tree that it is on
};

struct Survival {
    double share;
    ConfidenceInterval limits;
};

/// Whether those that share a cluster share its luck.
enum class Clustered { no, yes };

/// The Kaplan-Meier share at a day. At equal days losses come before last looks.
///
/// The limits are log-log. On its own each has Greenwood's variance and the normal deviate; in clusters the variance is
/// the larger of that and of the robust one, and Student's t has clusters - 1 degrees. While nothing is lost there is
/// no variance: the low limit is Clopper and Pearson's for those still watched. Nor is there where the curve is 0:
/// where all were seen to the end the high limit is Clopper and Pearson's for all of them; where some were last seen
/// alive it is the log-log one before the last drop (1 where nothing was lost earlier) times Clopper and Pearson's for
/// those at risk at that drop. In clusters these are numbers of clusters.
///
/// looks    not empty, in any order; in clusters at least two of them
/// returns  nothing past the last look, unless all were lost by then
/// source   Kaplan & Meier, J. American Statistical Association 53:457-481, 1958; Kalbfleisch & Prentice, The
///          Statistical Analysis of Failure Time Data, 1980; robust variance: Williams, Biometrics 51:1-13, 1995 (from
///          memory), the infinitesimal jackknife over clusters; the limit at 0 is an assumption of this program
std::optional<Survival> kaplan_meier(std::vector<Observation> looks, double at_day, double confidence,
                                     Clustered clustered = Clustered::no);

}  // namespace slipbark::statistics

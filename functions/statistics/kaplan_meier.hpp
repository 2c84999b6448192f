// The share still alive at a day, of some that were watched for unequal times.
#pragma once

#include <optional>
#include <vector>

#include "statistics/intervals.hpp"

namespace slipbark::statistics {

/// The last that is known of one: lost on a day, or alive when last looked at.
struct Look {
    double day;
    bool lost;
};

struct Survival {
    double share;
    Limits limits;
};

/// The Kaplan-Meier share at a day. At equal days losses come before last looks.
///
/// The limits are log-log with Greenwood's variance. That has none while nothing is lost: there the low limit is
/// Clopper and Pearson's for those still watched. Nor has it where the curve is 0: where all were seen to the end the
/// high limit is Clopper and Pearson's for all of them; where some were last seen alive it is the log-log one before
/// the last drop (1 where nothing was lost earlier) times Clopper and Pearson's for those at risk at that drop.
///
/// looks    not empty, in any order
/// returns  nothing past the last look, unless all were lost by then
/// source   Kaplan & Meier, J. American Statistical Association 53:457-481, 1958; Kalbfleisch & Prentice, The
///          Statistical Analysis of Failure Time Data, 1980; the limit at 0 is an assumption of this program
std::optional<Survival> kaplan_meier(std::vector<Look> looks, double at_day, double confidence);

}  // namespace slipbark::statistics

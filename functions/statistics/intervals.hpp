// Two-sided limits of a share that was counted: so many of so many.
#pragma once

#include "statistics/count.hpp"

namespace slipbark::statistics {

struct ConfidenceInterval {
    double low;
    double high;
};

/// Half the probability that an interval of this confidence leaves outside.
double tail_of(double confidence);

/// The normal deviate of a two-sided interval: 1.96 for 0.95.
double normal_deviate(double confidence);

/// The same of Student's t, which is wider, the more so the fewer degrees of freedom (at least 1).
double student_deviate(double confidence, double degrees);

/// The score interval of `share` of `trials`, which need not be whole.
///
/// source  Wilson, J. American Statistical Association 22:209-212, 1927
ConfidenceInterval wilson(double share, double trials, double deviate);

/// Which of the two limits: they are costly enough to compute only the one that is asked for.
enum class Side { low, high };

/// Clopper & Pearson's: equal tails of the binomial.
///
/// accuracy  relative 1E-12
/// source    Clopper & Pearson, Biometrika 26:404-413, 1934
double exact(const Count& count, double tail, Side side);

/// Equal tails of Beta(live + 1/2, dead + 1/2), 0 where none and 1 where all live.
///
/// accuracy  relative 1E-12
/// source    Brown, Cai & DasGupta, Statistical Science 16:101-133, 2001
double jeffreys(const Count& count, double tail, Side side);

/// Cut to 0..1.
///
/// source  Agresti & Coull, American Statistician 52:119-126, 1998
ConfidenceInterval agresti_coull(const Count& count, double deviate);

/// Newcombe's hybrid score interval (his method 10) of share a - share b, from their own limits.
///
/// source  Newcombe, Statistics in Medicine 17:873-890, 1998
ConfidenceInterval newcombe(double share_a, const ConfidenceInterval& a, double share_b, const ConfidenceInterval& b);

}  // namespace slipbark::statistics

// Trials and counts that answer a question: how many trees they need, when to stop, and what goes with the take.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::trials {

/// Chance that a trial of two ways of grafting shows that their takes differ.
///
/// Phi((abs(take_a - take_b) sqrt(m n / d) - t sqrt(2 q (1 - q))) / sqrt(take_a (1 - take_a) + take_b (1 - take_b))),
/// for n trees an arm with m grafts each, d = 1 + (m - 1) clustering, q the mean take, t Student's two-sided quantile
/// of 2 n - 2 degrees. Of 0 against 1 nothing is left to chance: 1 or 0 by the sign of what is above the line.
///
/// take_a, take_b   takes expected; fractions 0 to 1, not the same
/// grafts_per_tree  m; whole, 1 to 10 million
/// trees            n, of each way; whole, 2 to 10 million
/// clustering       correlation within a tree; from 0 to below 1, default 0.2 (assumption)
/// confidence       of the test; above 0 and below 1, default 0.95
/// returns          0 to 1
/// throws           bad_argument outside these ranges
/// accuracy         1E-12
/// source           normal formula: Fleiss, Levin & Paik, Statistical Methods for Rates and Proportions, 3rd ed. 2003,
///                  chapter 4 (from memory); design effect: Donner & Klar, Design and Analysis of Cluster
///                  Randomization Trials, 2000 (from memory); Student's t in place of the normal for few trees
/// example          trial_power(0.7, 0.85, 4, 50) is 0.808
double trial_power(double take_a, double take_b, double grafts_per_tree, double trees,
                   std::optional<double> clustering = {}, std::optional<double> confidence = {});

/// Fewest trees of each way of grafting with which a trial shows the difference.
///
/// take_a, take_b, grafts_per_tree, clustering, confidence  as for trial_power
/// power      chance wanted that it does; above 0 and below 1, default 0.8
/// returns    whole, at least 2; nothing where 1,000,000 are not enough
/// throws     bad_argument outside these ranges
/// source     least number with trial_power at or above the power
/// example    trial_trees(0.7, 0.85, 4) is 50
std::optional<double> trial_trees(double take_a, double take_b, double grafts_per_tree,
                                  std::optional<double> clustering = {}, std::optional<double> power = {},
                                  std::optional<double> confidence = {});

/// Whether enough trees are looked at, and what the block then is.
enum class Verdict { good, poor, count_on };

}  // namespace slipbark::trials

namespace slipbark {
template <>
inline constexpr std::array<std::string_view, 3> keywords<trials::Verdict>{"enough: good", "enough: poor", "count on"};
}  // namespace slipbark

namespace slipbark::trials {

struct StopCounting {
    Verdict verdict = Verdict::count_on;
    std::optional<double> poor_to;    ///< live trees up to which the block is poor; none where it cannot be yet
    std::optional<double> good_from;  ///< live trees from which on it is good; none where it cannot be yet
    bool operator==(const StopCounting&) const = default;
};

/// Whether trees looked at one after the other, drawn at random, are enough to call a block good or poor.
///
/// With g = ln(good / poor), h = ln((1 - good) / (1 - poor)) and n trees looked at, the block is good from
/// (ln((1 - risk_good) / risk_poor) - n h) / (g - h) live trees up and poor to (ln(risk_good / (1 - risk_poor)) - n h)
/// / (g - h). Equality counts.
///
/// live_trees    trees that came out right; whole, 0 to looked_trees
/// looked_trees  n; whole, 0 to 10 million
/// good, poor    shares of live trees of a good and of a poor block; 0 < poor < good < 1
/// risk_good     risk of calling a good block poor; above 0 and below 0.5, default 0.05
/// risk_poor     risk of calling a poor block good; above 0 and below 0.5, default 0.1
/// throws        bad_argument outside these ranges
/// source        Wald, Sequential Analysis, 1947 (from memory); NIST/SEMATECH e-Handbook 6.2.6
/// example       stop_counting(24, 24, 0.99, 0.9).verdict is good, good_from 24, poor_to 21
StopCounting stop_counting(double live_trees, double looked_trees, double good, double poor,
                           std::optional<double> risk_good = {}, std::optional<double> risk_poor = {});

/// What one factor does to the odds of a graft to live.
struct FactorEffect {
    std::string factor;     ///< "base", the text, or "column 2" (which a caller may say in another language)
    double odds_ratio = 1;  ///< for one more of the number, or of the text against the first one
    double low = 1;
    double high = 1;
    double p = 1;
    double dispersion = 1;  ///< Pearson's, at least 1; the same for all
    bool operator==(const FactorEffect&) const = default;
};

/// What goes with the take: logistic regression of trees on factors.
///
/// A column of numbers enters as it is. A column of texts gives one coefficient for each text but the first seen (case
/// and blanks around it ignored), in order of appearance. "base" is the odds where all numbers are 0 and all texts the
/// first. What goes with the take need not be what makes it: grafters have their own days and lots.
///
/// live        grafts alive by tree; whole, 0 to grafted, or blank (not inspected yet: left out)
/// grafted     grafts placed by tree; whole, 0 to 10 million; rows with 0 are left out
/// factors     one row a tree, one column a factor; at most 100 coefficients
/// confidence  of the limits; above 0 and below 1, default 0.95
/// returns     one for each coefficient; nothing where nothing is inspected or the odds have no finite maximum: all or
///             none alive, or of one kind
/// throws      bad_argument outside these ranges; for a column that does not vary or that other columns make, that
///             mixes numbers and texts, or has a blank in an inspected row; for odds that no number can be, as of a
///             column of dates, naming column or row
/// accuracy    relative 1E-7
/// source      see statistics/logistic.hpp; limits and p by Student's t of rows - columns degrees (the normal where
///             that is 0)
/// example     take_factors({3., 1.}, {4., 4.}, Table(1, {0., 1.}))->back().odds_ratio is 0.111
std::optional<std::vector<FactorEffect>> take_factors(const List& live, const List& grafted, const Table& factors,
                                                      std::optional<double> confidence = {});

}  // namespace slipbark::trials

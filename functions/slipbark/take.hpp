// Take: what share of the grafts lives, how sure that is, who and what made the difference, what is to be done again.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "slipbark/values.hpp"

namespace slipbark::take {

/// How limits of a take are found.
enum class Interval {
    wilson,         ///< score interval; Wilson, J. American Statistical Association 22:209-212, 1927
    exact,          ///< Clopper & Pearson, Biometrika 26:404-413, 1934: never too narrow, often too wide
    jeffreys,       ///< equal tails of Beta(live + 1/2, dead + 1/2), 0 where none and 1 where all live
    agresti,        ///< Agresti & Coull, American Statistician 52:119-126, 1998, cut to 0..1
    agresti_coull,  ///< the same by its full name
};

}  // namespace slipbark::take

namespace slipbark {
template <>
inline constexpr std::array<std::string_view, 5> keywords<take::Interval>{"wilson", "exact", "jeffreys", "agresti",
                                                                          "agresti-coull"};
}  // namespace slipbark

namespace slipbark::take {

/// Share of grafts alive.
///
/// live     grafts alive; whole, 0 to grafted
/// grafted  grafts placed; whole, 0 to 10 million
/// returns  live / grafted; nothing where nothing was grafted
/// throws   bad_argument outside these ranges
/// source   arithmetic
std::optional<double> take(double live, double grafted);

/// Lower limit of the two-sided interval for the take, as if each graft lived or died on its own.
///
/// Grafts of a tree share its luck, so for whole blocks take_trees is more honest.
///
/// live        grafts alive; whole, 0 to grafted
/// grafted     grafts placed; whole, 0 to 10 million
/// confidence  of the interval; above 0 and below 1, 0.95 unless given
/// method      Interval, wilson unless given
/// returns     fraction; nothing where nothing was grafted
/// throws      bad_argument outside these ranges
/// accuracy    relative 1E-12
/// source      see Interval; compared in Brown, Cai & DasGupta, Statistical Science 16:101-133, 2001
std::optional<double> take_low(double live, double grafted, std::optional<double> confidence = {},
                               std::optional<Interval> method = {});

/// Upper limit of the two-sided interval for the take, as if each graft lived or died on its own.
///
/// live        grafts alive; whole, 0 to grafted
/// grafted     grafts placed; whole, 0 to 10 million
/// confidence  of the interval; above 0 and below 1, 0.95 unless given
/// method      Interval, wilson unless given
/// returns     fraction; nothing where nothing was grafted
/// throws      bad_argument outside these ranges
/// accuracy    relative 1E-12
/// source      see Interval; compared in Brown, Cai & DasGupta, Statistical Science 16:101-133, 2001
std::optional<double> take_high(double live, double grafted, std::optional<double> confidence = {},
                                std::optional<Interval> method = {});

/// Take of a block tallied tree by tree, with limits that allow for grafts of a tree sharing its luck.
///
/// A row with a blank live is not inspected yet and left out; so is a row without grafts (0). The variance is that of
/// the ratio estimator with trees as clusters, k / (k - 1) * sum (live - take * grafted)^2 / grafts^2; the design
/// effect is its ratio to the binomial take (1 - take) / grafts, shown as it is, below 1 too. The limits are Wilson's
/// with grafts / max(1, design effect) grafts and Student's t of trees - 1 degrees: few trees, wide limits. With one
/// tree, or where all or none live, the design effect cannot be estimated. It is then 1 + (m - 1) * clustering, m being
/// the sum of squared grafts over their sum, and the limits are those of the normal distribution.
///
/// live        grafts alive by tree; whole, 0 to grafted, or blank
/// grafted     grafts placed by tree; whole, 0 to 10 million
/// confidence  of the interval; above 0 and below 1, 0.95 unless given
/// clustering  correlation within a tree where it cannot be estimated; from 0 to below 1, 0.2 unless given (assumption)
/// returns     1 x 6: take, low, high, design effect, trees, grafts; nothing where nothing was inspected
/// throws      bad_argument outside these ranges, for text, and for a live without grafted, naming the row
/// accuracy    relative 1E-9; how often the limits hold is measured in docs/trust.md
/// source      Cochran, Sampling Techniques, 3rd ed. 1977, ratio estimator; Kish, Survey Sampling, 1965, design effect;
///             Korn & Graubard, Survey Methodology 24:193-201, 1998
std::optional<Table> take_trees(const List& live, const List& grafted, std::optional<double> confidence = {},
                                std::optional<double> clustering = {});

/// Difference between two takes, with limits, and how often takes that are the same would differ as much.
///
/// live_a, live_b        grafts alive; whole, 0 to grafted_a or grafted_b
/// grafted_a, grafted_b  grafts placed; whole, 0 to 10 million
/// confidence     of the interval; above 0 and below 1, 0.95 unless given
/// design_effect  by how much grafts that share a tree's luck count less than grafts on their own, as take_trees gives
///                it; 0 to 10 million, up to 1 counts as 1; 1 unless given
/// returns        1 x 4: take a - take b, low, high (Newcombe's hybrid score interval, his method 10), and p. With
///                design effect 1 that is the two-sided p of Fisher's exact test, the probability of a table no more
///                probable than this one (to a part in 10 million) were both takes the same; below 1E-280 it is given
///                as 0. Above 1 the limits are those of counts divided by it, and p is that of Pearson's chi-square
///                divided by it, 1 where all or none live in both. Nothing where either grafted nothing
/// throws         bad_argument outside these ranges
/// accuracy       relative 1E-9
/// source         Newcombe, Statistics in Medicine 17:873-890, 1998; Fisher's exact test; Rao & Scott, J. American
///                Statistical Association 76:221-230, 1981, first order
std::optional<Table> take_diff(double live_a, double grafted_a, double live_b, double grafted_b,
                               std::optional<double> confidence = {}, std::optional<double> design_effect = {});

/// Take by grafter, day, variety or batch of budwood, each with limits and a steadied take.
///
/// Rows are trees. One with a blank live is not inspected yet and left out; so is one without grafts (0). Groups go by
/// their text, blanks around it and the case of ASCII letters aside: "Ana", "ANA" and "ana " are one, named as it is
/// spelled first. A number is the same group as its text.
///
/// Trees share their luck, so the grafts of a group count for less than grafts on their own, by Pearson's dispersion
/// phi = X^2 / (rows - groups) of all rows about their group's take, at least 1, and 1 where each group has one row.
/// The limits are Wilson's with grafted / phi grafts and Student's t of rows - groups degrees (normal where that is 0).
/// The steadied take draws each group towards the mean of all by the beta-binomial fitted to the counts over phi, the
/// more the fewer grafts it has: 3 of 3 no longer tops the list. Where the groups differ by no more than chance it is
/// the take of all together; of one group, or where every group is all alive or all dead, it is the group's own.
///
/// groups      text or number of each row
/// live        grafts alive; whole, 0 to grafted, or blank
/// grafted     grafts placed; whole, 0 to 10 million
/// confidence  of the intervals; above 0 and below 1, 0.95 unless given
/// returns     one row per group in order of first appearance: group, grafted, live, take, low, high, steadied take;
///             nothing where nothing was inspected
/// throws      bad_argument outside these ranges, for text, for a live without grafted, and for an inspected
///             row without a group, naming the row
/// accuracy    limits relative 1E-9, steadied take 1E-6
/// source      quasi-binomial: McCullagh & Nelder, Generalized Linear Models, 2nd ed. 1989, section 4.5;
///             empirical Bayes with the beta-binomial by maximum likelihood; Griffiths, Biometrics 29:637-648, 1973
std::optional<Table> take_by(const List& groups, const List& live, const List& grafted,
                             std::optional<double> confidence = {});

/// Correlation of luck between the grafts of a tree, as budwood::tree_chance takes it: that of the beta-binomial of
/// greatest likelihood over the trees inspected. Rows whose live is blank, and those without a graft, are left out.
///
/// live     grafts alive by tree; whole, 0 to grafted, or blank
/// grafted  grafts placed by tree; whole, 0 to 10 million
/// returns  0 (trees differ by no more than chance) to 1; nothing where it cannot be told: fewer than two trees with
///          two or more grafts, all or none alive, every tree all alive or all dead
/// throws   bad_argument outside these ranges, for text, and for a live without grafted, naming the row
/// accuracy some 1E-9
/// source   Griffiths, Biometrics 29:637-648, 1973, see beta_binomial_fit
std::optional<double> clustering(const List& live, const List& grafted);

/// Take to plan the next round with, from past seasons (or grafters, or batches of wood).
///
/// With y = ln((live + 1/2) / (dead + 1/2)) of each of G groups, mean m and standard deviation s, the take is that of
/// m, low and high those of m -+ t s sqrt(1 + 1/G), t Student's quantile with G - 1 degrees: a prediction interval for
/// one more group. Two or three seasons say little, and it shows. Rows whose live is blank, and those without a graft,
/// are left out; case and blanks around a name tell no groups apart.
///
/// groups      text or number of each row
/// live        grafts alive; whole, 0 to grafted, or blank
/// grafted     grafts placed; whole, 0 to 10 million
/// confidence  of the interval; above 0 and below 1, 0.8 unless given
/// returns     1 x 4: take, low, high, groups; nothing with fewer than 2 groups
/// throws      bad_argument outside these ranges, for text, for a live without grafted, and for an inspected
///             row without a group, naming the row
/// source      empirical logits: Cox & Snell, Analysis of Binary Data, 2nd ed. 1989; prediction interval of the normal
///             distribution
std::optional<Table> take_next(const List& groups, const List& live, const List& grafted,
                               std::optional<double> confidence = {});

/// Trees to inspect, drawn at random, so that the share of trees with a live graft is known well enough.
///
/// n0 = z^2 take (1 - take) / margin^2, n = n0 / (1 + (n0 - 1) / trees), rounded up.
///
/// trees       trees in the block; whole, 1 to 10 million
/// margin      half width of the interval wanted; fraction above 0, at most 1
/// take        share expected; fraction above 0 and below 1, 0.5 (the most cautious) unless given
/// confidence  of the interval; above 0 and below 1, 0.95 unless given
/// returns     trees, whole, from 1 to `trees`
/// throws      bad_argument outside these ranges
/// source      Cochran, Sampling Techniques, 3rd ed. 1977, section 4.4
double inspect(double trees, double margin, std::optional<double> take = {}, std::optional<double> confidence = {});

/// Grafts to do again so that every inspected tree has its full number alive.
///
/// Without a take that is the number of live grafts missing, the sum of max(0, wanted - live). Since not every graft
/// will live, with a take it is the sum of tree_grafts for what each tree that is short lacks.
///
/// live             grafts alive by tree; whole, 0 to 10 million; blank is not inspected yet and skipped
/// wanted_per_tree  live grafts wanted on each tree; whole, 1 to 1000
/// take             share of the new grafts that will live; fraction 0 to 1; none unless given
/// confidence       probability, for each tree, of its full number; above 0 and below 1, 0.95 unless given
/// clustering       correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns          grafts, whole; 0 while nothing is inspected; nothing where 1000 grafts on a tree are not enough
/// throws           bad_argument outside these ranges, naming the row, and for confidence or clustering without a take
/// source           see budwood::tree_grafts
std::optional<double> regrafts(const List& live, double wanted_per_tree, std::optional<double> take = {},
                               std::optional<double> confidence = {}, std::optional<double> clustering = {});

/// The trees to go to, line by line, so that each has its full number alive.
///
/// rows, trees      what each line calls its row and its tree, numbers or texts; not blank where live is not
/// live             grafts alive by tree; whole, 0 to 10 million; blank is not inspected yet and left out
/// wanted_per_tree  live grafts wanted on each tree; whole, 1 to 1000
/// take             share of grafts that live; fraction 0 to 1; unless given only the missing ones are placed
/// confidence       probability that a tree then has its number; above 0 and below 1, 0.95 unless given
/// clustering       correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns          one row for each tree that is short, in the order of the lines: row, tree, live, missing, grafts to
///                  place (tree_grafts for the missing); nothing where no tree is short, or where even 1000 grafts on
///                  one of them would not be enough
/// throws           bad_argument outside these ranges, naming the row, and for confidence or clustering without a take
/// source           budwood::tree_grafts
std::optional<Table> regraft_list(const List& rows, const List& trees, const List& live, double wanted_per_tree,
                                  std::optional<double> take = {}, std::optional<double> confidence = {},
                                  std::optional<double> clustering = {});

/// Share of grafts still alive at a day, from grafts watched for unequal times (Kaplan-Meier).
///
/// At equal days losses come before last looks. The limits are log-log with Greenwood's variance. That has none while
/// nothing is lost; there the low limit is Clopper and Pearson's for the n still watched, (a / 2)^(1 / n), a = 1 -
/// confidence. Nor has it where the curve is 0. If all were watched to their loss, the high limit is Clopper and
/// Pearson's for all n, 1 - (a / 2)^(1 / n). If some were last seen alive, it is the high limit before the last drop (1
/// where nothing was lost earlier) times 1 - (a / 2)^(1 / r) for the r at risk at that drop; it stays after it.
///
/// days        days from grafting to the loss or to the last look, one row a graft; 0 to 1E12
/// lost        1 where it was lost on that day, 0 where it was alive when last looked at
/// at_day      day asked for; 0 to 1E12
/// confidence  of the limits; above 0 and below 1, 0.95 unless given
/// returns     1 x 3: share, low, high; nothing without rows, and past the last look unless all were lost by then
/// throws      bad_argument outside these ranges and for half-filled rows, naming the row
/// source      Kaplan & Meier, J. American Statistical Association 53:457-481, 1958; Kalbfleisch & Prentice 1980
std::optional<Table> graft_life(const List& days, const List& lost, double at_day,
                                std::optional<double> confidence = {});

}  // namespace slipbark::take

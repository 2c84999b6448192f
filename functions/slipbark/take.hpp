// Take: what share of the grafts lives, how sure that is, who and what made the difference, what is to be done again.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

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

/// What the days of losses say.
enum class Dated {
    look,  ///< when it was seen: the graft was lost at some time since the look before
    day,   ///< when it happened
};

}  // namespace slipbark::take

namespace slipbark {
template <>
inline constexpr std::array<std::string_view, 5> keywords<take::Interval>{"wilson", "exact", "jeffreys", "agresti",
                                                                          "agresti-coull"};
template <>
inline constexpr std::array<std::string_view, 2> keywords<take::Dated>{"look", "day"};
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

/// The take of a block, with limits.
struct BlockTake {
    double take = 0;
    double low = 0;
    double high = 0;
    double design_effect = 1;
    double trees = 0;   ///< inspected
    double grafts = 0;  ///< on them
    bool operator==(const BlockTake&) const = default;
};

/// Take of a block tallied tree by tree, with limits that allow for grafts of a tree sharing its luck.
///
/// A row with a blank live is not inspected yet and left out; so is a row without grafts (0). The variance is that of
/// the ratio estimator with trees as clusters, M / (M - 1) * sum (live - take * grafted)^2 / grafts^2 over M trees; the
/// design effect d is its ratio to the binomial take (1 - take) / grafts, shown as it is, below 1 too. With one tree,
/// or where all or none live, it cannot be estimated. Shown is then what is expected, d0 = 1 + (m - 1) * clustering, m
/// being the sum of squared grafts over their sum. The limits are Wilson's with grafts / D grafts and Student's t of
/// trees - 1 degrees, D = max(1; d; (k d + 4 d0) / (k + 4)), k the smaller of the live and the dead grafts; the
/// expected d0 alone goes with the normal distribution.
///
/// live        grafts alive by tree; whole, 0 to grafted, or blank
/// grafted     grafts placed by tree; whole, 0 to 10 million
/// confidence  of the interval; above 0 and below 1, default 0.95
/// clustering  correlation within a tree that is expected; from 0 to below 1, default 0.2 (assumption)
/// of_trees    trees of the block, of which these were inspected at random: the limits then use grafts / D divided by
///             1 - trees inspected / of_trees, and equal the take where all were; whole, at least the trees inspected;
///             default: without end
/// returns     nothing where nothing was inspected
/// throws      bad_argument outside these ranges, for text, and for a live without grafted, naming the row
/// accuracy    relative 1E-9; how often the limits are right is measured in docs/trust.md
/// source      see statistics/clusters.hpp; finite population: Cochran, Sampling Techniques, 3rd ed. 1977
/// example     take_trees({6., 4., 8., 7., 0.}, {8., 8., 8., 8., 8.})->take is 0.625
std::optional<BlockTake> take_trees(const List& live, const List& grafted, std::optional<double> confidence = {},
                                    std::optional<double> clustering = {}, std::optional<double> of_trees = {});

/// Two takes compared.
struct TakeDifference {
    double difference = 0;  ///< take a - take b
    double low = 0;
    double high = 0;
    double p = 1;
    bool operator==(const TakeDifference&) const = default;
};

/// Difference between two takes, with limits, and how often takes that are the same would differ as much.
///
/// live_a, live_b        grafts alive; whole, 0 to grafted_a or grafted_b
/// grafted_a, grafted_b  grafts placed; whole, 0 to 10 million
/// confidence     of the interval; above 0 and below 1, 0.95 unless given
/// design_effect  by how much grafts that share a tree's luck count less than grafts on their own, as take_trees gives
///                it; 0 to 10 million, up to 1 counts as 1; 1 unless given
/// returns        take a - take b, low, high (Newcombe's hybrid score interval, his method 10), and p. With
///                design effect 1 that is the two-sided p of Fisher's exact test, the probability of a table no more
///                probable than this one (to a part in 10 million) were both takes the same; below 1E-280 it is given
///                as 0. Above 1 the limits are those of counts divided by it, and p is that of Pearson's chi-square
///                divided by it, 1 where all or none live in both. Nothing where either grafted nothing
/// throws         bad_argument outside these ranges
/// accuracy       relative 1E-9
/// source         Newcombe, Statistics in Medicine 17:873-890, 1998; Fisher's exact test; Rao & Scott, J. American
///                Statistical Association 76:221-230, 1981, first order
std::optional<TakeDifference> take_diff(double live_a, double grafted_a, double live_b, double grafted_b,
                                        std::optional<double> confidence = {},
                                        std::optional<double> design_effect = {});

/// The take of a grafter, day, variety or batch.
struct GroupTake {
    Cell group;  ///< as it is first spelled
    double grafted = 0;
    double live = 0;
    double take = 0;
    double low = 0;
    double high = 0;
    double steadied_take = 0;
    bool operator==(const GroupTake&) const = default;
};

/// Take by grafter, day, variety or batch of budwood, each with limits and a steadied take.
///
/// Rows are trees. One with a blank live is not inspected yet and left out; so is one without grafts (0). Groups go by
/// their text, blanks around it and the case of ASCII letters aside: "Ana", "ANA" and "ana " are one, named as it is
/// spelled first. A number is the same group as its text.
///
/// The limits of a group are those that take_trees gives for its trees alone: groups may differ in how far their trees
/// do. Where every group has one row only, which is no tree then but a total, its grafts count as if each lived or died
/// on its own. The steadied take draws each group towards the mean of all by the beta-binomial fitted to the counts
/// divided by each group's D, the more the fewer grafts it has: 3 of 3 no longer tops the list. Where the groups differ
/// by no more than chance it is the take of all those counts together; of one group, or where every group is all alive
/// or all dead, it is the group's own.
///
/// groups      text or number of each row
/// live        grafts alive; whole, 0 to grafted, or blank
/// grafted     grafts placed; whole, 0 to 10 million
/// confidence  of the intervals; above 0 and below 1, default 0.95
/// clustering  correlation within a tree that is expected; from 0 to below 1, default 0.2 (assumption)
/// returns     groups in order of first appearance; nothing where nothing was inspected
/// throws      bad_argument outside these ranges, for text, for a live without grafted, and for an inspected
///             row without a group, naming the row
/// accuracy    limits relative 1E-9, steadied take 1E-6; how often the limits are right is measured in docs/trust.md
/// source      see take_trees; empirical Bayes with the beta-binomial by maximum likelihood: Griffiths, Biometrics
///             29:637-648, 1973
/// example     take_by({"Ana", "Ben", "Ana"}, {7., 3., 9.}, {8., 3., 12.})->front().take is 0.8
std::optional<std::vector<GroupTake>> take_by(const List& groups, const List& live, const List& grafted,
                                              std::optional<double> confidence = {},
                                              std::optional<double> clustering = {});

/// The take of a group among others like it; or, last, of a new group.
struct PooledTake {
    Cell group;  ///< as it is first spelled; "new"
    double grafted = 0;
    double live = 0;
    std::optional<double> take;  ///< none of a new group
    double pooled_take = 0;
    double low = 0;
    double high = 0;
    bool operator==(const PooledTake&) const = default;
};

/// Takes of groups steadied by each other, with limits that know how little a few groups say.
///
/// Counts are divided by D as in take_by, x live of n. Takes of groups are taken as Beta(alpha, beta), alpha =
/// mean (1 - rho) / rho, beta = (1 - mean) (1 - rho) / rho; mean and the square root of rho are uniform on 0 to 1
/// beforehand, and the counts weigh them by Bayes' theorem. The pooled take is the mean of Beta(alpha + x, beta + n -
/// x) over them, the limits are equal tails of that mixture. Of a new group x = n = 0.
///
/// groups, live, grafted, confidence, clustering  as for take_by; at most 1,000 groups
/// returns   groups in order of first appearance, and last "new"; nothing with fewer than two groups inspected
/// throws    as take_by
/// accuracy  2E-4
/// source    see statistics/pool.hpp
/// example   take_pool({"A", "B"}, {0., 9.}, {10., 10.})->back().pooled_take is 0.401
std::optional<std::vector<PooledTake>> take_pool(const List& groups, const List& live, const List& grafted,
                                                 std::optional<double> confidence = {},
                                                 std::optional<double> clustering = {});

/// Correlation of luck between the grafts of a tree, as budwood::tree_chance takes it: that of the beta-binomial of
/// greatest likelihood over the trees inspected. Rows whose live is blank, and those without a graft, are left out.
/// With few trees it is too low on average: of a true 0.20 it shows 0.15 with 5 trees, 0.18 with 10 and 0.19 with 20.
///
/// live     grafts alive by tree; whole, 0 to grafted, or blank
/// grafted  grafts placed by tree; whole, 0 to 10 million
/// returns  0 (trees differ by no more than chance) to 1; nothing where it cannot be told: fewer than two trees with
///          two or more grafts, all or none alive, every tree all alive or all dead
/// throws   bad_argument outside these ranges, for text, and for a live without grafted, naming the row
/// accuracy some 1E-9
/// source   Griffiths, Biometrics 29:637-648, 1973, see beta_binomial_fit
std::optional<double> clustering(const List& live, const List& grafted);

/// The take of one more round.
struct NextTake {
    double take = 0;
    double low = 0;
    double high = 0;
    double groups = 0;  ///< that it was learned from
    bool operator==(const NextTake&) const = default;
};

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
/// returns     nothing with fewer than 2 groups
/// throws      bad_argument outside these ranges, for text, for a live without grafted, and for an inspected
///             row without a group, naming the row
/// source      empirical logits: Cox & Snell, Analysis of Binary Data, 2nd ed. 1989; prediction interval of the normal
///             distribution
std::optional<NextTake> take_next(const List& groups, const List& live, const List& grafted,
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

/// A tree that is short of live grafts.
struct TreeToRegraft {
    Cell row;
    Cell tree;
    double live = 0;
    double missing = 0;
    double grafts = 0;  ///< to place
    bool operator==(const TreeToRegraft&) const = default;
};

/// The trees to go to, line by line, so that each has its full number alive.
///
/// rows, trees      what each line calls its row and its tree, numbers or texts; not blank where live is not
/// live             grafts alive by tree; whole, 0 to 10 million; blank is not inspected yet and left out
/// wanted_per_tree  live grafts wanted on each tree; whole, 1 to 1000
/// take             share of grafts that live; fraction 0 to 1; unless given only the missing ones are placed
/// confidence       probability that a tree then has its number; above 0 and below 1, 0.95 unless given
/// clustering       correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns          the trees that are short, in the order of the lines, grafts to place being tree_grafts for the
///                  missing; nothing where no tree is short, or where even 1000 grafts on
///                  one of them would not be enough
/// throws           bad_argument outside these ranges, naming the row, and for confidence or clustering without a take
/// source           budwood::tree_grafts
std::optional<std::vector<TreeToRegraft>> regraft_list(const List& rows, const List& trees, const List& live,
                                                       double wanted_per_tree, std::optional<double> take = {},
                                                       std::optional<double> confidence = {},
                                                       std::optional<double> clustering = {});

/// The share of grafts still alive, with limits.
struct GraftLife {
    double share = 0;
    double low = 0;
    double high = 0;
    bool operator==(const GraftLife&) const = default;
};

/// Share of grafts still alive at a day, from grafts watched for unequal times (Kaplan-Meier).
///
/// At equal days losses come before last looks. A loss is seen at a look and happened since the one before: between
/// two successive days of `days` the share is therefore on a straight line, its low limit that of the later day and its
/// high limit that of the earlier one (share and high limit are 1 on day 0). With days of the losses themselves, dated
/// "day", it is the step of the earlier day.
///
/// The limits are log-log with Greenwood's variance. Grafts of a tree share its luck; where their trees are given the
/// variance is the larger of Greenwood's and the robust one of the trees, with Student's t of trees - 1 degrees. While
/// nothing is lost there is no variance; there the low limit is Clopper and Pearson's for the n still watched, (a / 2)^
/// (1 / n), a = 1 - confidence. Nor is there where the curve is 0. If all were watched to their loss, the high limit is
/// Clopper and Pearson's for all n, 1 - (a / 2)^(1 / n). If some were last seen alive, it is the high limit before the
/// last drop (1 where nothing was lost earlier) times 1 - (a / 2)^(1 / r) for the r at risk at that drop; it stays
/// after it. With trees given, n and r are numbers of trees.
///
/// days        days from grafting to the loss or to the last look, one row a graft; 0 to 1E12
/// lost        1 where it was lost on that day, 0 where it was alive when last looked at
/// at_day      day asked for; 0 to 1E12
/// confidence  of the limits; above 0 and below 1, default 0.95
/// trees       text or number of the tree of each graft, as groups of take_by; default: each graft on its own
/// dated       Dated, default look
/// returns     nothing without rows, with one tree only, and past the last look unless all were lost by then
/// throws      bad_argument outside these ranges, for half-filled rows and for a graft without a tree, naming the row
/// source      see statistics/kaplan_meier.hpp; the straight line between looks is an assumption
/// example     graft_life({10., 20., 30., 30.}, {1., 0., 1., 0.}, 30)->share is 0.375
std::optional<GraftLife> graft_life(const List& days, const List& lost, double at_day,
                                    std::optional<double> confidence = {}, const std::optional<List>& trees = {},
                                    std::optional<Dated> dated = {});

}  // namespace slipbark::take

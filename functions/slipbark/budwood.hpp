// Budwood: how many sticks to order, how many grafts to place, how long the wood keeps.
#pragma once

#include <optional>

#include "slipbark/values.hpp"

namespace slipbark::budwood {

/// Whole sticks of budwood to order.
///
/// Scions are cut whole: a stick yields floor(buds_per_stick / buds_per_scion) of them, whatever eyes are left over.
/// So sticks = ceil(grafts * (1 + spare) / scions per stick), which is more than eyes divided by eyes would say.
///
/// grafts          grafts to be placed; whole, 0 to 10 million
/// buds_per_scion  buds on one scion; whole, 1 to 100
/// buds_per_stick  usable buds on one stick; whole, 1 to 1000, and at least buds_per_scion
/// spare           share ordered above the need for culls and dead wood; fraction 0 to 2, 0 unless given
/// returns         sticks, whole
/// throws          bad_argument outside these ranges, or where a stick is too short for one scion
/// source          arithmetic of whole scions; common practice
double sticks(double grafts, double buds_per_scion, double buds_per_stick, std::optional<double> spare = {});

/// Fewest grafts to place so that, with the stated confidence, at least so many are alive.
///
/// The least n for which P(X >= live_wanted) >= confidence, X binomial with n grafts of chance `take` each, independent
/// of one another. Equality counts, and a tie survives binary fractions: one alive at take 0.5 and confidence 0.9375
/// needs 4, as 1 - 0.5^4 is 0.9375.
///
/// live_wanted  live grafts wanted; whole, 0 to 1 million; 0 needs no graft
/// take         share of grafts that live; fraction 0 to 1, above 0 where any are wanted
/// confidence   probability of getting them; above 0 and below 1, 0.95 unless given
/// returns      grafts, whole, at most 10 million
/// throws       bad_argument outside these ranges, or (take) where more than 10 million grafts would be needed
/// source       binomial distribution; Sedcole, Crop Science 17:667-668, 1977
double grafts(double live_wanted, double take, std::optional<double> confidence = {});

/// Probability that a tree has at least so many of its grafts alive.
///
/// With clustering 0 the grafts of a tree live or die independently (binomial). Else they share the tree's luck: the
/// number alive is beta-binomial with mean take and correlation rho = clustering between two grafts of a tree,
/// alpha = take (1 - rho) / rho, beta = (1 - take)(1 - rho) / rho.
///
/// grafts       grafts on the tree; whole, 0 to 10 million, with clustering above 0 to 10,000
/// take         share of grafts that live; fraction 0 to 1
/// live_wanted  live grafts wanted; whole, 0 to 10 million, 1 unless given
/// clustering   correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns      probability; 1 where none is wanted, 0 where more are wanted than placed
/// throws       bad_argument outside these ranges
/// source       binomial distribution; beta-binomial: Skellam, J. Royal Statistical Society B 10:257-261, 1948
double tree_chance(double grafts, double take, std::optional<double> live_wanted = {},
                   std::optional<double> clustering = {});

/// Share of the live grafts wanted that a tree has on average: E[min(X, live_wanted)] / live_wanted, X as in
/// tree_chance.
///
/// The crop of a reworked tree goes with how much of its frame lives, and so with this, not with the chance of one live
/// graft.
///
/// grafts       grafts on the tree; whole, 0 to 10 million, with clustering above 0 to 10,000
/// take         share of grafts that live; fraction 0 to 1
/// live_wanted  live grafts that make the full tree; whole, 1 to 10 million, as many as placed unless given
/// clustering   correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns      fraction; 0 where no graft is placed
/// throws       bad_argument outside these ranges
/// source       expectation over the binomial or beta-binomial: Skellam, J. Royal Statistical Society B 10:257-261,
/// 1948
double tree_share(double grafts, double take, std::optional<double> live_wanted = {},
                  std::optional<double> clustering = {});

/// Fewest grafts to place where the take is known only from a count: as `grafts`, but with X beta-binomial of
/// alpha = live_seen + 1/2 and beta = grafted_seen - live_seen + 1/2.
///
/// That is what a count foretells of further grafts (predictive distribution, Jeffreys' prior). Few grafts seen leave
/// the take open and ask for more to be placed. With clustering rho above 0 the grafts seen stood on trees_seen trees,
/// m = grafted_seen / trees_seen on each, and as many of the new ones will. Both counts of alpha and beta are then
/// divided by d = 1 + (m - 1) rho; with c = 1 / (alpha + beta + 1), mu = alpha / (alpha + beta) and d(n) = 1 + (min(n,
/// m) - 1) rho, X of n grafts is beta-binomial with mean mu and correlation (d(n) (1 - c) + n c - 1) / (n - 1).
///
/// live_wanted   live grafts wanted; whole, 0 to 10,000; 0 needs no graft
/// live_seen     grafts seen alive; whole, 0 to grafted_seen
/// grafted_seen  grafts inspected; whole, 1 to 10 million
/// confidence    probability of getting them; above 0 and below 1, default 0.95
/// clustering    correlation within a tree; from 0 to below 1, default 0: trees_seen is then not used
/// trees_seen    trees on which the grafts seen stood; whole, 1 to grafted_seen; needed with clustering above 0
/// returns       grafts, whole, at most 100,000
/// throws        bad_argument outside these ranges, or (live_seen) where more than 100,000 grafts would be needed
/// accuracy      the probability is computed to some 1E-12; how often the promise is kept is measured in docs/trust.md
/// source        beta-binomial: Skellam, J. Royal Statistical Society B 10:257-261, 1948; prior: Brown, Cai & DasGupta,
///               Statistical Science 16:101-133, 2001; design effect: Kish, Survey Sampling, 1965
/// example       grafts_from(100, 28, 40, {}, 0.2, 10) is 191
double grafts_from(double live_wanted, double live_seen, double grafted_seen, std::optional<double> confidence = {},
                   std::optional<double> clustering = {}, std::optional<double> trees_seen = {});

/// The number of grafts on a tree that pays best: the least n from 0 to `most` with the greatest
/// tree_worth * s + g * live_wanted * (1 - s) - n * graft_cost, s being tree_share(n, take, live_wanted, clustering).
/// Ties survive binary fractions.
///
/// Each graft that is short of live_wanted is grafted once more where that pays: it gains g = max(0, regraft_take *
/// tree_worth / live_wanted - regraft_cost). Without a regraft_take g is 0. No graft is worth 0, and no regraft then.
///
/// take          share of grafts that live; fraction 0 to 1
/// live_wanted   live grafts that make the full tree; whole, 1 to 10 million
/// tree_worth    what a tree with all its live grafts is worth today, in any currency; above 0, to 1E12
/// graft_cost    what one more graft costs, in the same; above 0, to 1E12
/// clustering    correlation within a tree; fraction from 0 to below 1, default 0
/// most          most grafts that a tree has room for; whole, 1 to 1000, default 40
/// regraft_take  share of regrafts that live, less what the year lost is worth; fraction 0 to 1; default: no regrafts
/// regraft_cost  what a regraft costs; above 0, to 1E12, default graft_cost; only with a regraft_take
/// returns       grafts, whole; 0 where no graft pays
/// throws        bad_argument outside these ranges
/// source        marginal gain against marginal cost, over tree_share
/// example       best_grafts(0.7, 4, 60, 3, 0.2, {}, 0.6, 4) is 5
double best_grafts(double take, double live_wanted, double tree_worth, double graft_cost,
                   std::optional<double> clustering = {}, std::optional<double> most = {},
                   std::optional<double> regraft_take = {}, std::optional<double> regraft_cost = {});

/// Fewest grafts per tree for which tree_chance reaches the confidence. Equality counts, and a tie
/// survives binary fractions.
///
/// take         share of grafts that live; fraction 0 to 1
/// confidence   probability wanted; above 0 and below 1, 0.95 unless given
/// live_wanted  live grafts wanted on each tree; whole, 0 to 10 million, 1 unless given
/// clustering   correlation within a tree; fraction from 0 to below 1, 0 unless given
/// returns      grafts, whole; nothing where 1000 are not enough
/// throws       bad_argument outside these ranges
/// source       binomial distribution; beta-binomial: Skellam, J. Royal Statistical Society B 10:257-261, 1948
std::optional<double> tree_grafts(double take, std::optional<double> confidence = {},
                                  std::optional<double> live_wanted = {}, std::optional<double> clustering = {});

/// Share of buds still alive after so many days of storage, on straight lines between the rows of a table.
///
/// days     days since the wood was cut; 0 to 10,000
/// storage  "room" or "cool" (one cell), or a table of days rising from 0 and share alive; further columns are not
///          looked at and blank rows at the end are skipped; "room" unless given
/// returns  fraction; past the last row its share if that is 0 (all dead stay dead), else nothing
/// throws   bad_argument outside these ranges, or for a table that is not one (naming the row)
/// source   defaults::room_storage and defaults::cool_storage name theirs
std::optional<double> buds_alive(double days, const std::optional<Table>& storage = {});

}  // namespace slipbark::budwood

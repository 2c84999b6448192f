// The crop after the rework: by years since grafting, by year of the block, and how evenly it bears.
#pragma once

#include <optional>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::yield {

/// Yield of one tree a time after grafting.
///
/// The curve is a table of years since grafting and share of the mature yield. Between its rows runs the monotone
/// piecewise cubic of pchip.hpp, a straight line where there are but two; before the first row nothing is borne, after
/// the last its share holds.
///
/// years         time since grafting in years; fractions welcome, 0 to 1000
/// mature_yield  yield of a mature tree in any unit; 0 to 1E12
/// curve         two columns without a heading: years, strictly rising, 0 to 1000, and share of the mature yield, 0 to
///               10 (above 1 where trees bear beyond the mature yield for a while; 100 where 100 % is meant is
///               refused). At least two rows; further columns are not looked at, blank rows at the end are skipped.
///               defaults::yield() unless given
/// returns       yield per tree in the unit of mature_yield
/// throws        bad_argument outside these ranges; of a table with the row's number
/// source        Fritsch & Butland (1984), see pchip.hpp; default curve: see the source column of defaults::yield()
double per_tree(double years, double mature_yield, const std::optional<Table>& curve = {});

/// Expected yield of a reworked block, year by year.
///
/// In year y the part of the frame that took bears trees * take * (1 - loss)^y * share. From year 2 what failed and was
/// regrafted a year later follows, trees * (1 - take) * regraft_take * (1 - loss)^(y-1) * share. Both times the mature
/// yield. The share is read off the curve at the age of that harvest, first_harvest + y - 1 years, of what was
/// regrafted a year less.
///
/// trees         trees reworked; whole, 0 to 10 million
/// years         how many years to tell; whole, 1 to 200
/// mature_yield  yield of a mature tree in any unit; 0 to 1E12
/// take          share of the block's frame that lives, as budwood::tree_share gives it; fraction 0 to 1
/// regraft_take  share of the failed part that lives when grafted again a year later; fraction 0 to 1; 0 unless given
/// yearly_loss   share of trees lost each year from any cause; fraction 0 to below 1; 0 unless given
/// curve         two columns, years since grafting and share, see per_tree; defaults::yield() unless given
/// first_harvest  years from grafting to the first harvest; above 0, at most 2; 1 unless given
/// returns       one column, one row a year from year 1: yield of the block in the unit of mature_yield
/// throws        bad_argument outside these ranges
/// source        expectation over trees; for the curve see per_tree
Table by_year(double trees, double years, double mature_yield, double take, std::optional<double> regraft_take = {},
              std::optional<double> yearly_loss = {}, const std::optional<Table>& curve = {},
              std::optional<double> first_harvest = {});

/// A row of the fitted curve, and, in the first two, what is fitted.
struct FittedRow {
    double years = 0;  ///< of the curve times k
    double share = 0;
    double yield = 0;                ///< M times share
    std::optional<double> estimate;  ///< first row: of k; second row: of M; none below
    std::optional<double> low;
    std::optional<double> high;
    bool operator==(const FittedRow&) const = default;
};

/// The curve that your own records give: M * share(years / k) of the least squares over the records, share being the
/// curve given, with rough limits of k and M.
///
/// The stretch k is between 0.25 and 4; of equally good ones it is the nearest to 1. It is sought on a fine comb over
/// all of that, then in the deepest valleys. With S(k) the least sum of squares for a k and f = n - 2 degrees (n - 1
/// with a mature yield), the limits of k are the least and the largest with S(k) <= S (1 + t^2 / f), t two-sided; those
/// of M are the ends of all M that stay below that. Records of a rise alone fit any mature yield if only the curve is
/// stretched enough: without a mature yield there is no answer where the high limit of k is 4, or leaves the oldest
/// record below half of the curve's largest share.
///
/// The limits are rough. They guard against a fit that runs away; how often they are right is not proven.
///
/// years         age of each record since grafting; 0 to 1000
/// yields        yield per tree at that age, in any unit; 0 to 1E12; blank rows are skipped; at least 3 different ages
///               (2 with a mature yield), at most 1000
/// mature_yield  M; above 0, to 1E12; default: fitted
/// curve         as for per_tree
/// confidence    of the limits; above 0 and below 1, default 0.95
/// returns       one row for each row of the curve, of which the first two columns are a curve. Nothing where no yield
///               is above 0, the curve bears nothing at the ages of the records, or the records do not show the mature
///               yield yet
/// throws        bad_argument outside these ranges, naming the row
/// accuracy      k to some 1E-7, limits 1E-5
/// source        least squares; the minimum by Brent, Algorithms for Minimization without Derivatives, 1973; limits:
///               profile of the sum of squares, Bates & Watts, Nonlinear Regression Analysis, 1988 (from memory)
std::optional<std::vector<FittedRow>> fit(const List& years, const List& yields,
                                          std::optional<double> mature_yield = {},
                                          const std::optional<Table>& curve = {},
                                          std::optional<double> confidence = {});

/// Alternate-bearing index: mean of abs(y2 - y1) / (y2 + y1) over successive years.
///
/// yields   yield of a tree or block in successive years in any unit; at least two, each 0 to 1E12; blanks at the end
///          are skipped
/// returns  0 (steady) to 1 (a crop only every second year); two years without a crop count as 0
/// throws   bad_argument outside this range, for a blank between, or fewer than two years; with the row's number
/// source   the usual index of biennial bearing: Hoblyn, Grubb, Painter & Wates (1936) J Pomol Hort Sci 14:39-76 (from
///          memory)
double alternation(const List& yields);

}  // namespace slipbark::yield

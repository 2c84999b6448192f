// Which of several blocks is reworked in which season: the farm, the model that a solver of linear programs takes, and
// what its answer means. Knows no office.
//
// The whole year's money, work, wood and crop of a block come from its own plan, by year since grafting. Worth and
// limits are sums over the arrangement, a 0 or 1 for each block and season, so that a linear solver can find the best.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace slipbark::seasons {

/// Whether a block has to be done.
enum class Rule { as_it_pays, must, never };

/// What a block brings. Series are by year since grafting, the first in the season of grafting; past their end they are
/// 0, but crop and own wood stay at their last figure.
struct Block {
    std::string name;
    std::vector<double> flows;                ///< money against leaving the block
    std::vector<double> days;                 ///< of one grafter: grafting, regrafting, second round
    std::vector<std::vector<double>> sticks;  ///< wanted of each source, as days
    std::vector<std::vector<double>> gives;   ///< sticks that the reworked block itself can give of each source
    std::vector<double> new_crop;
    double old_crop = 0;
    int earliest = 1;  ///< season, from 1
    int latest = 1;
    Rule rule = Rule::as_it_pays;
    std::optional<int> pinned;  ///< stays in that season, 0: is not done
};

/// What there is in a season. Empty: no limit.
struct Season {
    std::optional<double> days;
    std::vector<std::optional<double>> sticks;  ///< bought, of each source
    std::optional<double> cash;                 ///< what the farm has over if every block is left; may be below 0
    std::optional<double> crop_kept;            ///< least share of today's crop at the harvest after the season
};

struct Farm {
    std::vector<Block> blocks;
    std::vector<Season> seasons;  ///< all that are watched; grafting ends earlier
    int grafting_seasons = 1;     ///< in which may be grafted
    std::size_t sources = 0;
    int years = 1;          ///< counted
    double rate = 0;        ///< of interest, a year
    bool same_end = false;  ///< years are counted to the same end for all, not from each block's own grafting
    bool margins = true;    ///< margins of reworked blocks count as cash; else only what they cost
    bool carry = true;      ///< cash left over is carried on
    double rest_crop = 0;   ///< of the farm beside the blocks
};

/// Kinds of limit.
enum class Kind { days, sticks, cash, crop };
inline constexpr std::array kinds{Kind::days, Kind::sticks, Kind::cash, Kind::crop};

/// The season of each block, from 1; 0 where it is not done.
using Arrangement = std::vector<int>;

// ---- What an arrangement means

/// What a block done in a season is worth today.
double worth(const Farm& farm, const Block& block, int season);
/// The whole arrangement.
double worth(const Farm& farm, const Arrangement& arrangement);

/// What a season comes to.
struct Use {
    double days = 0;
    std::vector<double> wanted;  ///< sticks of each source
    std::vector<double> own;     ///< that reworked blocks give
    double flow = 0;             ///< of the blocks
    double purse = 0;            ///< what is left after it
    double crop = 0;             ///< of the harvest that follows
};
std::vector<Use> uses(const Farm& farm, const Arrangement& arrangement);

/// How much more of a kind of limit an arrangement would take, by season; all 0 where it fits. Cash that is carried on
/// is missing where the purse first falls below 0, and by what it falls further.
std::vector<double> missing(const Farm& farm, const Arrangement& arrangement, Kind kind);

/// Whether it fits rules, windows and pins, and every limit but that of one kind.
bool fits(const Farm& farm, const Arrangement& arrangement, std::optional<Kind> without = {});

// ---- The model

/// What is asked of the solver.
struct Question {
    std::optional<Kind> without;        ///< a kind of limit that is left out
    std::optional<Kind> least_extra;    ///< a kind of which as little more as possible is wanted, instead of the worth
    std::optional<double> least_worth;  ///< with least_extra: to be reached
    std::optional<std::size_t> forced;  ///< a block that has to be done
};

/// One row: sum of factors x values is at most `most` and at least `least`.
struct Row {
    std::vector<std::pair<std::size_t, double>> factors;  ///< of the columns that are not 0
    std::optional<double> least;
    std::optional<double> most;
};

/// A linear program; what is sought is the largest `goal`. Whole columns are 0 or 1, the others 0 or more.
struct Program {
    std::vector<double> goal;
    std::vector<bool> whole;
    std::vector<Row> rows;
};

/// The program, and what its first columns stand for: a block done in a season. After these, with least_extra, one
/// for each limit of that kind.
struct Model {
    Program program;
    struct Choice {
        std::size_t block;
        int season;
    };
    std::vector<Choice> choices;  ///< of the first columns
};

Model model(const Farm& farm, const Question& question);

/// The arrangement of a solver's values.
Arrangement arrangement_of(const Farm& farm, const Model& model, const std::vector<double>& values);

// ---- Asking

/// What a solver found.
struct Answer {
    std::optional<std::vector<double>> values;
    bool in_time = true;  ///< it ended by itself: what was found is the best, what was not cannot be
};
using Solver = std::function<Answer(const Program&)>;

struct Best {
    std::optional<Arrangement> arrangement;
    double worth = 0;
    bool in_time = true;
};

/// The best arrangement. What a solver calls a success need not fit, so every limit is looked at again.
Best best(const Farm& farm, const Question& question, const Solver& solver);

/// What it would take to do better by more of one kind of limit.
struct Gain {
    Kind kind;
    bool known = true;  ///< the solver ended in time
    bool any = false;   ///< more of this kind allows a better arrangement; the rest is for that
    Arrangement arrangement;
    double adds = 0;
    std::vector<double> extra;  ///< of the kind, by season
};

/// Where nothing fits: for each kind of limit the least extra with which something would.
std::vector<Gain> ways_out(const Farm& farm, const Solver& solver, const std::function<bool()>& time_left);

/// Each kind left out in turn, then the least extra of it that reaches the same worth.
std::vector<Gain> gains(const Farm& farm, const Best& now, const Solver& solver,
                        const std::function<bool()>& time_left);

/// What it would take to do a block that is left out.
struct Forced {
    std::size_t block;
    bool known = true;
    std::optional<double> worth;  ///< of the best arrangement with it within all limits; empty where there is none
    /// The least extra of each kind with which it is done and the worth is what it is now, where that is possible with
    /// more of this kind alone.
    std::vector<Gain> takes;
};
std::vector<Forced> forced_in(const Farm& farm, const Best& now, const Solver& solver,
                              const std::function<bool()>& time_left);

}  // namespace slipbark::seasons

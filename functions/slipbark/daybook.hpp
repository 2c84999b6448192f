// Day-book: what happened is written down once, line by line, and every account follows from it.
//
// A day-book is a table without a heading row, one line for each thing that happened, in any order. Its columns:
//   date    the day on which it happened; years 1900 to 9999
//   what    one of the words below, or the name of a stage of the schedule ("done")
//   row     the row of trees; blank where it concerns the whole block
//   trees   whole, 0 to 10 million
//   grafts  whole, 0 to 10 million; of "received" the sticks
//   live    live ones among the grafts looked at
//   lot     of the wood
//   who     who grafted
//   hours   0 to 1 million
//   money   paid out; -1E12 to 1E12
//   note    may be left out, and is not looked at
// Lines that are blank in all of them are not looked at. Names of rows, lots and people are numbers or texts; the case
// of ASCII letters and blanks around them do not make them differ.
//
//   grafted           trees (blank: all of the row that are left to graft) and grafts, lot and who; 0 trees where
//   grafts
//                     are added to trees that have some
//   counted           trees = trees looked at, grafts = grafts looked at (blank: all that stand on those trees; trees
//                     blank too: on the whole row), live ones among them. The lines of one row and day add up; those of
//                     a row's last day of counting are its state. A line on which nothing was looked at is no count.
//                     After a regraft first grafts and regrafts together. lot and who say whose grafts were counted; blank, they are the row's where it has one of them,
//                     else the count is the row's alone
//   regrafted         grafts placed again in a row that has been grafted
//   counted regrafts  as counted, of the regrafts alone
//   lost              trees gone for good, with their grafts: so many, or (blank) by the row's mean, to the nearest
//                     whole; of grafts looked at before that the same share goes
//   received          sticks of a lot
//   no work           a day on which nobody works in the block, or in a row
//   paid, closed      money paid out; the block (or the row) is finished, no grafting after that day
//
// Within a day things come in this order: received, no work, stages, grafted, lost, counted, counted regrafts,
// regrafted, paid, closed. So the order of the lines does not matter. A line that cannot be is left out and named
// (checks()), and the rest goes on. A line that is there twice counts twice.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/message.hpp"
#include "slipbark/values.hpp"

namespace slipbark::daybook {

/// What a line says has happened; `stage` is a stage of the schedule.
enum class What { grafted, counted, regrafted, counted_regrafts, lost, received, no_work, paid, closed, stage };

/// The words of the day-book, in the order of What. A book in another language says by `words` what its own mean.
inline constexpr std::array<std::string_view, 9> what_words{
    "grafted", "counted", "regrafted", "counted regrafts", "lost", "received", "no work", "paid", "closed"};

/// What a stage of the schedule is to the day-book: grafted and counted lines mark the second and third as done, and
/// nobody grafts before the first.
inline constexpr std::array<std::string_view, 3> stage_words{"cut stage", "graft stage", "look stage"};

/// By what take_account groups.
enum class By { lot, grafter, day, age, row };

/// The length of a period.
enum class Step { month, year };

/// Which accounts are wanted: of the rows of trees, of groups of grafts, lots and work, or both.
enum class Part { all, rows, groups };

}  // namespace slipbark::daybook

namespace slipbark {
template <>
inline constexpr std::array<std::string_view, 5> keywords<daybook::By>{"lot", "grafter", "day", "age", "row"};
template <>
inline constexpr std::array<std::string_view, 2> keywords<daybook::Step>{"month", "year"};
template <>
inline constexpr std::array<std::string_view, 3> keywords<daybook::Part>{"all", "rows", "groups"};
}  // namespace slipbark

namespace slipbark::daybook {

/// A line as it was read: names are places in the journal's lists.
struct Line {
    std::size_t place = 0;  ///< in the day-book, from 0
    Day date;
    What what = What::stage;
    std::optional<std::size_t> stage;
    std::optional<std::size_t> row;
    std::optional<double> trees;
    std::optional<double> grafts;
    std::optional<double> live;
    std::optional<std::size_t> lot;
    std::optional<std::size_t> who;
    double hours = 0;
    double money = 0;
};

/// What is said of a line: why it is left out, or what to see to.
struct Remark {
    bool left_out = false;
    Message sentence;
};

/// Grafts placed on one day in one row, of one lot, by one person.
struct Placing {
    std::size_t row = 0;
    std::optional<std::size_t> lot;
    std::optional<std::size_t> who;
    Day date;
    bool regraft = false;
    double trees = 0;
    double placed = 0;
    double standing = 0;  ///< less those lost with their trees
};

/// A count of grafts, as written and with what is left of it after losses.
struct Count {
    std::size_t row = 0;
    std::optional<std::size_t> lot;  ///< none: not attributed
    std::optional<std::size_t> who;  ///< none: not attributed
    std::optional<Day> grafted_on;   ///< none: on several days
    Day date;
    double age = 0;         ///< whole days since grafting, by the mean of its grafts
    bool regrafts = false;  ///< of regrafts alone
    bool is_state = false;  ///< of the last day of counting
    double looked = 0;
    double live = 0;
    double looked_now = 0;
    double live_now = 0;
};

/// The state of a row of trees. Grafts are first grafts where nothing else is said; after a regraft a count of both
/// together stands in looked and live.
struct RowAccount {
    double trees_left = 0;
    double trees_grafted = 0;  ///< of those left
    double trees_lost = 0;
    std::optional<Day> first_graft;
    std::optional<Day> last_graft;
    double placed = 0;
    double standing = 0;  ///< placed less those lost with their trees
    double looked = 0;    ///< on the last day of counting, less those lost since
    double live = 0;
    std::optional<Day> last_look;
    double regrafts_placed = 0;
    double regrafts_standing = 0;
    double regrafts_looked = 0;  ///< of regrafts alone, where they were counted after the last count of all
    double regrafts_live = 0;
    std::string lots;           ///< with commas between
    std::optional<Day> closed;  ///< of the row or the block, whichever was first
};

/// A day-book, read once.
struct Journal {
    std::vector<std::string> row_names;  ///< as `rows` has them; "" for a blank one
    std::vector<std::string> lot_names;  ///< those of `lots` first, in its order
    std::size_t known_lots = 0;
    std::vector<std::string> people;
    std::vector<std::string> stage_names;
    std::optional<std::size_t> graft_stage;
    std::optional<std::size_t> look_stage;
    std::vector<Line> lines;                      ///< those that count, in the order in which they happened
    std::vector<std::optional<Remark>> remarks;   ///< one for each line of the day-book
    std::vector<std::optional<RowAccount>> rows;  ///< one for each of `rows`; none for a blank one
    std::vector<Placing> placings;
    std::vector<Count> counts;
};

/// Reads a day-book.
///
/// rows      names of the rows of trees, no two alike; lines that are blank in rows and trees are skipped
/// trees     trees of each; whole, 0 to 10 million; at least one row
/// daybook   the lines; at least ten columns
/// on_date   lines after it do not count; all count unless given
/// lots      names of the lots, blank cells skipped; any lot is right unless given
/// schedule  a table of stages or the name of a built-in one, the built-in "bagged bark graft" unless given
/// words     two columns: a word as the day-book or the schedule has it, and what it means: one of daybook::what_words
/// or of
///           stage_words. The English words and the built-in stages' names are known in any case
/// throws    bad_argument for rows and trees outside these ranges or of unequal length, naming the row, a day-book of
///           fewer columns, a schedule or words that are none. A line of the day-book throws nothing
/// cost      n log n
Journal read(const List& rows, const List& trees, const DatedTable& daybook, std::optional<Day> on_date = {},
             const std::optional<List>& lots = {}, const std::optional<Table>& schedule = {},
             const std::optional<Table>& words = {});

/// The state of each row of trees; parameters and errors as read().
///
/// returns  one for each of `rows`, none for a blank one
/// source   arithmetic; common practice of bookkeeping
std::vector<std::optional<RowAccount>> row_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                   std::optional<Day> on_date = {},
                                                   const std::optional<List>& lots = {},
                                                   const std::optional<Table>& schedule = {},
                                                   const std::optional<Table>& words = {});

/// Take of a group. By age only counts are known.
struct TakeAccount {
    Cell group;  ///< a name, a day, an age in days; blank where the counts could be attributed to none
    double placed = 0;
    double standing = 0;
    double looked = 0;
    double live = 0;
    std::optional<double> take;
    double regrafts_placed = 0;
    double regrafts_standing = 0;
    double regrafts_looked = 0;
    double regrafts_live = 0;
    std::optional<double> regrafts_take;
};

/// Take by lot, grafter, day of grafting, row, or age at the look; parameters and errors as read().
///
/// By age every count stands at the days since its grafting; by all others the state of each row does, so that the
/// groups add up to the rows. Regrafts stand apart, but in a count of both together.
///
/// returns  one for each group that has grafts or counts: lots in the order of `lots`, rows in that of `rows`, all
///          others rising; what could be attributed to none last, with a blank name
/// source   arithmetic
std::optional<std::vector<TakeAccount>> take_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                     By by, std::optional<Day> on_date = {},
                                                     const std::optional<List>& lots = {},
                                                     const std::optional<Table>& schedule = {},
                                                     const std::optional<Table>& words = {});

/// A take with limits.
struct RevisedTake {
    double take = 0;
    double low = 0;
    double high = 0;
};

/// An expected take joined with what was counted: the mean of the beta-binomial's posterior, and its quantiles.
///
/// The expectation counts as `weight` grafts on their own. Counts are over the design effect of trees with so many
/// grafts, 1 + (grafts_per_tree - 1) clustering: alpha = weight expected + live / effect, beta alike of the dead.
///
/// expected         take expected before counting; fraction 0 to 1
/// live             grafts alive; whole, 0 to looked
/// looked           grafts looked at; whole, 0 to 10 million; 0: the expectation alone
/// weight           grafts that the expectation counts as; above 0, at most 10 million; 20 unless given (assumption).
///                  Of own records with a mean m and a standard deviation s between groups m (1 - m) / s^2 - 1
/// grafts_per_tree  on the trees looked at; 1 to 1000, 1 unless given
/// clustering       correlation within a tree, as budwood::tree_chance has it; from 0 to below 1, 0 unless given
/// confidence       of the limits; above 0 and below 1, 0.95 unless given
/// returns          take, low, high
/// throws           bad_argument outside these ranges
/// accuracy         relative 1E-12
/// source           Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 2.4 (conjugate beta); Kish, Survey
///                  Sampling, 1965, design effect
RevisedTake take_revised(double expected, double live, double looked, std::optional<double> weight = {},
                         std::optional<double> grafts_per_tree = {}, std::optional<double> clustering = {},
                         std::optional<double> confidence = {});

/// Wood of a lot.
struct LotAccount {
    std::string lot;      ///< "" for grafts whose lot was not written down
    double received = 0;  ///< sticks
    std::optional<Day> first_received;
    double trees_grafted = 0;  ///< ever, those lost since too
    double placed = 0;
    double regrafts_placed = 0;
    double used = 0;  ///< sticks, a begun one counts
    double left = 0;  ///< received less used; below 0 where more was grafted than received
    std::optional<Day> last_used;
};

/// Sticks received and used by lot; parameters and errors as read(), and
///
/// grafts_per_stick  grafts that one stick gives; whole, 1 to 1000; 1 unless given
/// returns           lots in the order of `lots`, whether used or not, then others by name; the blank one last; nothing
///                   where there are none
/// source            arithmetic
std::optional<std::vector<LotAccount>> lot_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                   std::optional<double> grafts_per_stick = {},
                                                   std::optional<Day> on_date = {},
                                                   const std::optional<List>& lots = {},
                                                   const std::optional<Table>& schedule = {},
                                                   const std::optional<Table>& words = {});

/// What is done in each row, in the form that calendar::due_list takes: a day, "x", or blank = open.
///
/// A stage is done on the day of the line that completes it: one with blank trees, or with which the trees of its lines
/// reach those left; a line without a row is all rows'. The stage of grafting is done once all trees left are grafted,
/// and stages further up then are "x", the stage of looking once a graft has been counted.
///
/// returns  one row for each of `rows`, one column a stage
/// source   common practice
Table done_account(const List& rows, const List& trees, const DatedTable& daybook, std::optional<Day> on_date = {},
                   const std::optional<List>& lots = {}, const std::optional<Table>& schedule = {},
                   const std::optional<Table>& words = {});

/// Hours and money of one kind in one period.
struct WorkAccount {
    Day period;        ///< its first day
    std::string what;  ///< a word of the day-book in English, or the name of a stage
    double hours = 0;
    double money = 0;
};

/// Hours and money by period and kind; parameters and errors as read(), and
///
/// step       Step, month unless given
/// from_date  first day of a period, from which the others count as EDATE does, forwards and back; the first day of the
///            first line's month unless given
/// returns    one for each period and kind with hours or money, by period, then words in their order, then stages;
///            nothing where there are neither
/// source     arithmetic; EDATE of OpenFormula (OASIS ODF 1.3 part 4)
std::optional<std::vector<WorkAccount>> work_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                     std::optional<Step> step = {}, std::optional<Day> from_date = {},
                                                     std::optional<Day> on_date = {},
                                                     const std::optional<List>& lots = {},
                                                     const std::optional<Table>& schedule = {},
                                                     const std::optional<Table>& words = {});

/// How fast the grafting goes.
struct PaceAccount {
    double pace = 0;             ///< grafts a person and day to plan the rest with
    std::optional<double> seen;  ///< that of the day-book
    double days = 0;             ///< days of grafting in it
    double person_days = 0;
};

/// The pace that the day-book shows; parameters and errors as read(), and
///
/// grafts_per_day  the plan's; 0.001 to 10 million
/// crew            people on a day of which no line says who grafted; whole, 1 to 10 million, 1 unless given
/// returns         seen = grafts over person-days, a person-day being a person named on a day, whole; pace = seen once
///                 there are three days, before that the plan's counts for the days that are missing
/// source          assumption of this program: three days
PaceAccount pace_account(const List& rows, const List& trees, const DatedTable& daybook, double grafts_per_day,
                         std::optional<double> crew = {}, std::optional<Day> on_date = {},
                         const std::optional<List>& lots = {}, const std::optional<Table>& schedule = {},
                         const std::optional<Table>& words = {});

/// What was looked at on one day.
struct Look {
    std::optional<Day> date;
    double looked = 0;  ///< as written
    double live = 0;
};

/// The first three days of counting of a row, those of regrafts alone left out, and who grafted it.
struct RowLooks {
    std::array<Look, 3> looks;
    double grafters = 0;        ///< people who placed its first grafts; a line without a name is one more
    std::string grafter;        ///< where all of them are one person's
    std::optional<Day> closed;  ///< as in RowAccount
};

/// What the other accounts give, from one reading of the day-book.
struct AllAccounts {
    std::vector<std::optional<RowAccount>> rows;
    std::vector<std::optional<RowLooks>> looks;
    std::vector<TakeAccount> by_lot;
    std::vector<TakeAccount> by_grafter;
    std::vector<TakeAccount> by_age;
    std::vector<LotAccount> lots;
    std::vector<WorkAccount> work;  ///< month by month
    std::optional<PaceAccount> pace;
    Table done;
    Part part = Part::all;
    std::size_t rows_given = 0;  ///< length of `rows`, and of the schedule: blank ones too
    std::size_t stages_given = 0;
};

/// All accounts of a day-book at once; parameters and errors as those of the single ones. To hand over a long day-book
/// costs more than to read it, so a form that shows all accounts asks once.
///
/// grafts_per_day  without it there is no pace
/// part            the others are left empty; all unless given
/// returns         what row_account, take_account, lot_account, work_account, pace_account and done_account give
/// source          arithmetic
AllAccounts all_accounts(const List& rows, const List& trees, const DatedTable& daybook,
                         std::optional<double> grafts_per_day = {}, std::optional<double> crew = {},
                         std::optional<double> grafts_per_stick = {}, std::optional<Day> on_date = {},
                         const std::optional<List>& lots = {}, const std::optional<Table>& schedule = {},
                         const std::optional<Table>& words = {}, std::optional<Part> part = {});

/// What is said of each line, with the parameters and errors of read(): one for each line, none where all is well.
std::vector<std::optional<Remark>> checks(const List& rows, const List& trees, const DatedTable& daybook,
                                          std::optional<Day> on_date = {}, const std::optional<List>& lots = {},
                                          const std::optional<Table>& schedule = {},
                                          const std::optional<Table>& words = {});

/// First and last day of grafting of a row.
struct RowDays {
    Day first;
    Day last;
};

/// When the rows that are left will be grafted, one after the other.
///
/// rows            names of the rows, in the order of work; not looked at where daybook is left out
/// grafts          to be placed in each; whole, 0 to 10 million; blank or 0: nothing to do
/// start_date      first day, counted if it is worked; years 1900 to 9999
/// grafts_per_day  grafts that one person places in a day; 0.001 to 10 million
/// crew            people; whole, 1 to 10 million, 1 unless given
/// days_off        as calendar::crew_finish
/// holidays        as calendar::crew_finish
/// daybook         a day-book, whose "no work" lines are kept: nobody works that day, or not in that row, where the
///                 next one that is free is begun
/// words           as read()
/// returns         one for each row, none where nothing is to be done; a row begins on the day on which its first graft
///                 is placed, which may be the last of the row before
/// throws          bad_argument outside these ranges, for a week without a working day, past the year 9999
/// source          the host's WORKDAY.INTL (LibreOffice Help), but the start date counts; arithmetic
std::vector<std::optional<RowDays>> row_days(const List& rows, const List& grafts, Day start_date,
                                             double grafts_per_day, std::optional<double> crew = {},
                                             const std::optional<Scalar>& days_off = {},
                                             const std::optional<DayList>& holidays = {},
                                             const std::optional<DatedTable>& daybook = {},
                                             const std::optional<Table>& words = {});

}  // namespace slipbark::daybook

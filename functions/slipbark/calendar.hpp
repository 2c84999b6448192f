// Calendar: what is due when after grafting, and how many people for how many days.
//
// A schedule is a table of stages in order, without a heading row and with at least the first six of these columns;
// rows that are blank in those six are not looked at:
//   stage         name, no two alike (case and blanks around them do not make names differ), not a number
//   earliest      offsets from the graft date; whole, -100,000 to 100,000, earliest <= target <= latest
//   target
//   latest
//   unit          "d" days, "w" weeks, "m" calendar months
//   sign          what to look for; may be blank
//   source        where the row comes from; not looked at
//   counted from  the name of a stage further up, from whose earliest, target and latest date the three offsets count
//                 in turn; blank for the graft date
// Or it is a single cell with the name of a built-in one: "bagged bark graft", "wrapped bark graft", "bud on regrowth",
// "dormant cleft graft" (defaults::schedules()), or "schedule" (defaults::stages(), where none is given).
//
// A working week is given as in the host's WORKDAY.INTL: a text of seven digits from Monday, 1 = not worked ("0000011"
// is Saturday and Sunday off, and the default), or a number code, which may also be a text: 1 = Saturday and Sunday
// off, 2 = Sunday and Monday, ... 7 = Friday and Saturday, 11 = Sunday only, ... 17 = Saturday only. A cell in which
// 0000011 was typed as a number holds 11, Sunday only.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::calendar {

/// The date of a stage of the rework.
///
/// graft_date  day 0; years 1900 to 9999
/// stage       its name (case and blanks around it do not matter), or its row in the table, counted from 1, as text
/// edge        "earliest", "target" or "latest", or -1, 0, 1 for these; target unless given
/// schedule    a table of stages or the name of a built-in one; the built-in "bagged bark graft" unless given
/// returns     the date; months as calendar months, the last day of one that has no such day
/// throws      bad_argument for an unknown stage, a table that is not a schedule, a date outside the years 1900 to 9999
/// source      EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months; the stages name their sources
Day milestone(Day graft_date, const std::string& stage, const std::optional<Scalar>& edge = {},
              const std::optional<Table>& schedule = {});

/// The dates of all stages.
///
/// graft_date  day 0; years 1900 to 9999
/// schedule    a table of stages or the name of a built-in one; the built-in "bagged bark graft" unless given
/// returns     one row per stage in the table's order: stage, earliest, target, latest, sign to look for
/// throws      bad_argument for a table that is not a schedule, a date outside the years 1900 to 9999
/// source      EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months; the stages name their sources
Table schedule(Day graft_date, const std::optional<Table>& schedule = {});

/// The stage that is due on a day: the first in the table's order whose latest date is that day or later.
///
/// graft_date  day 0; years 1900 to 9999
/// on_date     the day asked for; years 1900 to 9999
/// schedule    a table of stages or the name of a built-in one; the built-in "bagged bark graft" unless given
/// returns     the stage's name; an empty text after the last one
/// throws      bad_argument for a table that is not a schedule, a date outside the years 1900 to 9999
/// source      EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months; the stages name their sources
std::string stage_due(Day graft_date, Day on_date, const std::optional<Table>& schedule = {});

/// What is to be done where: the stages that are not done and whose earliest date has come by the end of a span of
/// days.
///
/// A stage that counts from another one is counted from the day on which that was done, all three dates; where that was
/// done without a day, or is still open, from its dates.
///
/// items        what each line calls its row of trees or its block, numbers or texts; not blank where grafted
/// graft_dates  day 0 of each; blank: not grafted yet, skipped
/// from_date    first day of the span; years 1900 to 9999
/// to_date      its last day; from_date or later
/// schedule     a table of stages or the name of a built-in one; the built-in "bagged bark graft" unless given
/// done         one row an item, one column a stage (further columns blank): blank = open, a day or any text = done
/// returns      one row for each item and stage, by target date, then in the order of items and stages: item, stage,
///              earliest, target, latest, "overdue" (latest before from_date) or "due", sign; nothing where nothing is
///              due
/// throws       bad_argument outside these ranges, naming the row
/// source       EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months; the stages name their sources
std::optional<Table> due_list(const List& items, const DayList& graft_dates, Day from_date, Day to_date,
                              const std::optional<Table>& schedule = {}, const std::optional<DayTable>& done = {});

/// A stage of a schedule, as a row of its table has it.
struct StageRow {
    std::string stage;
    double earliest = 0;
    double target = 0;
    double latest = 0;
    std::string unit;  ///< "d", "w" or "m"
    Cell sign;         ///< to look for
    Cell source;
    Cell counted_from;  ///< a stage further up; blank: the day of grafting
    bool operator==(const StageRow&) const = default;
};

/// The schedule that your own records give: the days from grafting to done between which the next record is expected.
///
/// With n records of a stage and h = (n + 1) p, the bound for p is the h-th smallest, on a straight line between
/// neighbours. Where h is outside 1 to n there is none: then it is mean + t s sqrt(1 + 1/n), t Student's quantile of
/// p with n - 1 degrees, but never inside the least and the greatest record. p = 0 and p = 1 are these two.
///
/// graft_dates  day 0 of each row; blank rows are skipped
/// done         one row an item, one column a stage (further columns blank): the day on which it was done; blank and
///              texts are no records
/// schedule     a table of stages or the name of a built-in one, default the built-in "bagged bark graft"; a stage
///              with fewer than 3 days keeps its row of this
/// low          share of next records before earliest; fraction 0 to 0.5, default 0.1
/// high         share of next records up to latest; fraction 0.5 to 1, default 0.9
/// returns      one row a stage in days: earliest rounded down, latest rounded up, target the median with half days up;
///              source "own records, n rows". Ready to be a schedule
/// throws       bad_argument outside these ranges, naming the row
/// accuracy     how often the next record is inside is measured in docs/trust.md; records of one season know little of
///              the next
/// source       Hyndman & Fan, American Statistician 50:361-365, 1996, type 6 (median: type 7); prediction interval of
///              the normal distribution
std::vector<StageRow> own_schedule(const DayList& graft_dates, const DayTable& done,
                                   const std::optional<Table>& schedule = {}, std::optional<double> low = {},
                                   std::optional<double> high = {});

/// What workload is told by.
enum class Step { week, month, year };

}  // namespace slipbark::calendar

namespace slipbark {
template <>
inline constexpr std::array<std::string_view, 3> keywords<calendar::Step>{"week", "month", "year"};
}  // namespace slipbark

namespace slipbark::calendar {

/// Hours of work in each week, month or year, every stage at its target date.
///
/// graft_dates  day 0 of each item; blank: not grafted yet, skipped
/// trees        trees of each item; whole, 0 to 10 million
/// minutes      minutes a tree takes, one row a stage (further rows blank); 0 to 100,000, blank = 0
/// from_date    first day of the first period; years 1900 to 9999
/// periods      how many periods to tell; whole, 1 to 1200
/// step         Step, week unless given; month and year k begin k or 12 k months after from_date, the last of a month
///              where it has no such day
/// schedule     a table of stages or the name of a built-in one; the built-in "bagged bark graft" unless given
/// returns      one column, one row a period: hours; what is due before or after them is not counted
/// throws       bad_argument outside these ranges, naming the row
/// source       arithmetic; EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months
Table workload(const DayList& graft_dates, const List& trees, const List& minutes, Day from_date, double periods,
               std::optional<Step> step = {}, const std::optional<Table>& schedule = {});

/// The first day of the first harvest: of the first harvest month that begins on the day `months` after grafting, or
/// later.
///
/// graft_date     day 0; years 1900 to 9999
/// harvest_month  month in which the harvest begins; whole, 1 (January) to 12
/// months         least age of the graft at its first harvest, calendar months; whole, 0 to 1200, 0
///                unless given
/// returns        the first day of a month
/// throws         bad_argument outside these ranges, past the year 9999
/// source         EDATE of OpenFormula (OASIS ODF 1.3 part 4) for months; arithmetic
Day harvest_date(Day graft_date, double harvest_month, std::optional<double> months = {});

/// Whole working days that a crew needs.
///
/// grafts          grafts to be placed; whole, 0 to 10 million
/// grafts_per_day  grafts that one person places in a day; 0.001 to 10 million
/// crew            people; whole, 1 to 10 million, 1 unless given
/// returns         grafts / (grafts_per_day * crew), rounded up; 0 for no grafts
/// throws          bad_argument outside these ranges
/// source          arithmetic; common practice
double crew_days(double grafts, double grafts_per_day, std::optional<double> crew = {});

/// The day on which the last graft is placed.
///
/// start_date      first day, counted if it is worked; years 1900 to 9999
/// grafts          whole, 1 to 10 million: without grafts there is no last day
/// grafts_per_day  grafts that one person places in a day; 0.001 to 10 million
/// crew            people; whole, 1 to 10 million, 1 unless given
/// days_off        a text of seven digits from Monday, 1 = not worked, or a number code of the host's WORKDAY.INTL;
///                 "0000011" unless given
/// holidays        further days off; in any order, blank cells skipped, twice the same counted once
/// returns         the last working day
/// throws          bad_argument outside these ranges, for a week without a working day, past the year 9999
/// source          the host's WORKDAY.INTL (LibreOffice Help), but the start date counts
Day crew_finish(Day start_date, double grafts, double grafts_per_day, std::optional<double> crew = {},
                const std::optional<Scalar>& days_off = {}, const std::optional<DayList>& holidays = {});

/// The fewest people who finish by a date.
///
/// start_date      first day, counted if it is worked; years 1900 to 9999
/// end_date        last day, counted if it is worked; start_date or later
/// grafts          whole, 0 to 10 million
/// grafts_per_day  grafts that one person places in a day; 0.001 to 10 million
/// days_off        a text of seven digits from Monday, 1 = not worked, or a number code of the host's WORKDAY.INTL;
///                 "0000011" unless given
/// holidays        further days off; in any order, blank cells skipped, twice the same counted once
/// returns         people, whole, 0 for no grafts; empty where no day between is worked
/// throws          bad_argument outside these ranges
/// source          the host's NETWORKDAYS.INTL (LibreOffice Help) for the days; arithmetic
std::optional<double> crew_size(Day start_date, Day end_date, double grafts, double grafts_per_day,
                                const std::optional<Scalar>& days_off = {},
                                const std::optional<DayList>& holidays = {});

/// Working days between two dates, both counted.
///
/// start_date  first day, counted if it is worked; years 1900 to 9999
/// end_date    last day, counted if it is worked; start_date or later
/// days_off    a text of seven digits from Monday, 1 = not worked, or a number code of the host's WORKDAY.INTL;
///             "0000011" unless given
/// holidays    further days off; in any order, blank cells skipped, twice the same counted once
/// returns     days, whole
/// throws      bad_argument outside these ranges
/// source      the host's NETWORKDAYS.INTL (LibreOffice Help)
double working_days(Day start_date, Day end_date, const std::optional<Scalar>& days_off = {},
                    const std::optional<DayList>& holidays = {});

}  // namespace slipbark::calendar

#include "slipbark/calendar.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string_view>
#include <vector>

#include "slipbark/dates.hpp"
#include "statistics/quantile.hpp"
#include "support/checks.hpp"
#include "support/schedule.hpp"
#include "support/week.hpp"

namespace slipbark::calendar {

namespace {

using std::chrono::days;

// ---- The schedule

/// Names for a stage that was not found: those that contain the text, else the first ones.
std::string suggestion(const std::vector<Stage>& stages, const std::string& wanted) {
    const auto first_three = [&stages](const std::string& part) {
        std::string list;
        int count = 0;
        for (const Stage& stage : stages) {
            if (stage.key.find(part) == std::string::npos) continue;
            list.append(list.empty() ? "\"" : ", \"").append(stage.name).append("\"");
            if (++count == 3) break;
        }
        return list;
    };
    const std::string similar = first_three(wanted);
    return similar.empty() ? first_three("") : similar;
}

/// The place of the stage that `stage` names, or whose row it is.
std::size_t find_stage(const std::vector<Stage>& stages, const std::string& stage) {
    const std::string wanted = check::folded(stage);
    const auto row = written_number(wanted);
    for (std::size_t place = 0; place < stages.size(); ++place) {
        const auto candidate_row = static_cast<std::int64_t>(stages[place].row) + 1;
        if (row ? candidate_row == *row : stages[place].key == wanted) return place;
    }
    const double last = check::row_number(stages.back().row);
    if (row && *row == 0) {
        throw bad_argument(
            "stage", translatable("{1} was 0 (the cell may be blank): give a stage's name, or its row from 1 to {2}."),
            {last});
    }
    if (row) {
        throw bad_argument("stage", translatable("{1} was {2}: give a stage's name, or its row from 1 to {3}."),
                           {wanted, last});
    }
    throw bad_argument("stage",
                       translatable("{1} was \"{2}\", which the schedule does not have: give a stage's name or row, "
                                    "such as {3}."),
                       {stage, suggestion(stages, wanted)});
}

/// The place among a stage's dates that an edge names: a keyword, or -1, 0 or 1, as a text too.
std::size_t edge_of(const Scalar& edge) {
    constexpr std::array<std::string_view, 3> words{"earliest", "target", "latest"};
    if (const auto* number = std::get_if<double>(&edge)) {
        return static_cast<std::size_t>(check::whole("edge", *number, -1, 1) + 1);
    }
    const std::string wanted = check::folded(std::get<std::string>(edge));
    if (const auto number = written_number(wanted)) {
        return static_cast<std::size_t>(check::whole("edge", static_cast<double>(*number), -1, 1) + 1);
    }
    for (std::size_t place = 0; place < words.size(); ++place) {
        if (wanted == words.at(place)) return place;
    }
    throw bad_argument("edge",
                       translatable("{1} was the text \"{2}\": give \"earliest\", \"target\" or \"latest\", or "
                                    "-1, 0 or 1."),
                       {std::get<std::string>(edge)});
}

constexpr double most_minutes = 100'000;

// ---- What was done when

/// The row of `done` that belongs to an item, one cell a stage; all blank where nothing is given.
class Done {
  public:
    Done(const Table* done, std::string_view rows_of, std::size_t rows, std::size_t stages) : table_(done) {
        if (table_ == nullptr) return;
        check::same_length(rows_of, rows, "done", table_->rows() + table_->blank_rows);
        bool fits = table_->columns >= stages;
        for (std::size_t row = 0; row < table_->rows() && fits; ++row) {
            for (std::size_t column = stages; column < table_->columns; ++column) {
                fits = fits && is_blank(table_->at(row, column));
            }
        }
        if (fits) return;
        throw bad_argument(
            "done", translatable("{1} has {2} columns and the schedule has {3} stages: give one column per stage."),
            {static_cast<double>(table_->columns), static_cast<double>(stages)});
    }

    [[nodiscard]] bool is_done(std::size_t row, std::size_t stage) const { return !is_blank(cell(row, stage)); }
    /// The day, where it was written down.
    [[nodiscard]] std::optional<Day> day(std::size_t row, std::size_t stage) const {
        const auto* day = std::get_if<Day>(&cell(row, stage));
        return day == nullptr ? std::nullopt : std::optional(*day);
    }

  private:
    [[nodiscard]] const Cell& cell(std::size_t row, std::size_t stage) const {
        static const Cell blank;
        return table_ == nullptr || row >= table_->rows() ? blank : table_->at(row, stage);
    }

    const Table* table_;
};

/// Earliest, target and latest dates of all stages of one item, those that count from a stage done on a day counted
/// from that day.
std::vector<Dates> dates_as_done(const std::vector<Stage>& stages, Day graft_date, const Done& done, std::size_t row) {
    std::vector<Dates> all;
    all.reserve(stages.size());
    for (const Stage& stage : stages) {
        Dates from{graft_date, graft_date, graft_date};
        if (stage.counted_from) {
            const auto day = done.day(row, *stage.counted_from);
            from = day ? Dates{*day, *day, *day} : all[*stage.counted_from];
        }
        Dates& dates = all.emplace_back();
        for (std::size_t edge = 0; edge < dates.size(); ++edge) {
            dates.at(edge) = date_from(stage, edge, from.at(edge), graft_date);
        }
    }
    return all;
}

/// Calls use(row, day) for each item that is grafted. A date outside all calendars is told with the item's row.
template <class Use>
void for_each_grafted(const DayList& graft_dates, Use use) {
    for (std::size_t row = 0; row < graft_dates.days.size(); ++row) {
        if (!graft_dates.days[row]) continue;
        const Day graft_date = check::day_in_row("graft_dates", *graft_dates.days[row], row);
        try {
            use(row, graft_date);
        } catch (const bad_argument& bad) {
            if (bad.argument() != "graft_date") throw;
            throw bad_argument(
                "graft_dates",
                translatable("{1} was {2} in row {3}, which puts a stage outside the years 1900 to 9999: "
                             "give another date or nearer offsets."),
                {graft_date, check::row_number(row)});
        }
    }
}

// ---- The crew

double rate_per_day(double grafts_per_day) {
    check::positive("grafts_per_day", grafts_per_day, static_cast<double>(check::count_limit));
    return check::number("grafts_per_day", grafts_per_day, 0.001, static_cast<double>(check::count_limit));
}

double days_needed(double grafts, double rate, double crew) {
    if (grafts == 0) return 0;
    // Rounding forgives the last digits; it must not forgive the whole of a very short job.
    return std::max(1.0, check::rounded_up(grafts / (rate * crew)));
}

}  // namespace

Day milestone(Day graft_date, const std::string& stage, const std::optional<Scalar>& edge,
              const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    const std::size_t which = edge_of(edge.value_or(0.0));
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    return date_of(stages, find_stage(stages, stage), which, graft_date);
}

Table schedule(Day graft_date, const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    Table table{5, {}};
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    const auto dates = dates_of(stages, graft_date);
    for (std::size_t place = 0; place < stages.size(); ++place) {
        table.cells.emplace_back(stages[place].name);
        for (const Day day : dates[place]) table.cells.emplace_back(day);
        table.cells.push_back(stages[place].sign);
    }
    return table;
}

std::string stage_due(Day graft_date, Day on_date, const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    check::day("on_date", on_date);
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    for (std::size_t place = 0; place < stages.size(); ++place) {
        if (date_of(stages, place, 2, graft_date) >= on_date) return stages[place].name;
    }
    return "";
}

std::optional<Table> due_list(const List& items, const DayList& graft_dates, Day from_date, Day to_date,
                              const std::optional<Table>& schedule, const std::optional<DayTable>& done) {
    check::day("from_date", from_date);
    check::day("to_date", to_date);
    if (to_date < from_date) {
        throw bad_argument("to_date", translatable("{1} was {2}, before from_date: give {3} or later."),
                           {to_date, from_date});
    }
    check::same_length("items", items.length, "graft_dates", graft_dates.length);
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    const Done marks(done ? &done->table : nullptr, "items", items.length, stages.size());

    struct Due {
        std::size_t row;
        std::size_t stage;
        Dates dates;
    };
    std::vector<Due> due;
    for_each_grafted(graft_dates, [&](std::size_t row, Day graft_date) {
        if (is_blank(items.cell(row))) {
            throw bad_argument("items",
                               translatable("{1} is blank in row {2}, which has a graft date: give a name or a number "
                                            "there."),
                               {check::row_number(row)});
        }
        const auto dates = dates_as_done(stages, graft_date, marks, row);
        for (std::size_t stage = 0; stage < stages.size(); ++stage) {
            if (!marks.is_done(row, stage) && dates[stage].front() <= to_date)
                due.push_back({row, stage, dates[stage]});
        }
    });
    if (due.empty()) return std::nullopt;
    std::stable_sort(due.begin(), due.end(),
                     [](const Due& one, const Due& other) { return one.dates[1] < other.dates[1]; });
    Table table{7, {}};
    table.cells.reserve(7 * due.size());
    for (const auto& [row, stage, dates] : due) {
        table.cells.push_back(items.cell(row));
        table.cells.emplace_back(stages[stage].name);
        table.cells.insert(table.cells.end(), dates.begin(), dates.end());
        table.cells.emplace_back(dates.back() < from_date ? "overdue" : "due");
        table.cells.push_back(stages[stage].sign);
    }
    return table;
}

std::vector<StageRow> own_schedule(const DayList& graft_dates, const DayTable& done,
                                   const std::optional<Table>& schedule, std::optional<double> low,
                                   std::optional<double> high) {
    const double least = check::fraction("low", low.value_or(0.1), 0.5);
    const double most = check::fraction("high", high.value_or(0.9));
    if (most < 0.5) {
        throw bad_argument("high", translatable("{1} was {2}, below the median: give a fraction from 0.5 to 1."),
                           {most});
    }
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    const Done marks(&done.table, "graft_dates", graft_dates.length, stages.size());
    std::vector<std::vector<double>> records(stages.size());
    for_each_grafted(graft_dates, [&](std::size_t row, Day graft_date) {
        for (std::size_t stage = 0; stage < stages.size(); ++stage) {
            const auto day = marks.day(row, stage);
            if (day) records[stage].push_back(static_cast<double>((*day - graft_date).count()));
        }
    });

    constexpr std::size_t fewest = 3;
    constexpr double slack = 1e-9;
    std::vector<StageRow> rows;
    for (std::size_t place = 0; place < stages.size(); ++place) {
        const Stage& stage = stages[place];
        auto& days_taken = records[place];
        if (days_taken.size() < fewest) {
            rows.push_back({stage.name, static_cast<double>(stage.offsets[0]), static_cast<double>(stage.offsets[1]),
                            static_cast<double>(stage.offsets[2]), std::string(1, stage.unit), stage.sign, stage.source,
                            stage.counted_from ? Cell(stages[*stage.counted_from].name) : Cell()});
            continue;
        }
        rows.push_back({stage.name, std::floor(statistics::next_value_bound(days_taken, least) + slack),
                        std::floor(statistics::quantile(days_taken, 0.5) + 0.5 + slack),
                        std::ceil(statistics::next_value_bound(days_taken, most) - slack), "d", stage.sign,
                        "own records, " + std::to_string(days_taken.size()) + " rows", Cell()});
    }
    return rows;
}

Table workload(const DayList& graft_dates, const List& trees, const List& minutes, Day from_date, double periods,
               std::optional<Step> step, const std::optional<Table>& schedule) {
    check::same_length("graft_dates", graft_dates.length, "trees", trees.length);
    check::day("from_date", from_date);
    const auto count = static_cast<std::size_t>(check::whole("periods", periods, 1, 1200));
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    std::vector<double> hours_a_tree(std::max(stages.size(), minutes.cells.size()));
    for (std::size_t row = 0; row < minutes.cells.size(); ++row) {
        if (is_blank(minutes.cells[row])) continue;
        hours_a_tree[row] = check::number_in_row("minutes", minutes, row, 0, most_minutes) / 60;
    }
    if (minutes.length < stages.size() || hours_a_tree.size() > stages.size()) {
        throw bad_argument("minutes",
                           translatable("{1} has {2} cells and the schedule has {3} stages: give one cell per stage."),
                           {static_cast<double>(minutes.length), static_cast<double>(stages.size())});
    }

    std::vector<Day> starts;  // of the periods, and of the one after them
    for (std::size_t period = 0; period <= count; ++period) {
        const auto steps = static_cast<std::int32_t>(period);
        const Step in = step.value_or(Step::week);
        starts.push_back(in == Step::week ? from_date + days{7 * steps}
                                          : add_months(from_date, in == Step::year ? 12 * steps : steps));
    }
    std::vector<double> hours(count);
    for_each_grafted(graft_dates, [&](std::size_t row, Day graft_date) {
        const auto number = static_cast<double>(check::whole_in_row("trees", trees, row, 0));
        const auto dates = dates_of(stages, graft_date);
        for (std::size_t stage = 0; stage < stages.size(); ++stage) {
            const auto after = std::upper_bound(starts.begin(), starts.end(), dates[stage][1]) - starts.begin();
            if (after == 0 || after > std::ssize(hours)) continue;
            hours[static_cast<std::size_t>(after - 1)] += number * hours_a_tree[stage];
        }
    });
    return {1, {hours.begin(), hours.end()}};
}

Day harvest_date(Day graft_date, double harvest_month, std::optional<double> months) {
    check::day("graft_date", graft_date);
    const std::chrono::month month{static_cast<unsigned>(check::whole("harvest_month", harvest_month, 1, 12))};
    const auto least = static_cast<std::int32_t>(check::whole("months", months.value_or(0), 0, 1200));
    const Day not_before = add_months(graft_date, least);
    const auto year = std::chrono::year_month_day{not_before}.year();
    const Day this_year{year / month / 1};
    const Day harvest = this_year >= not_before ? this_year : Day{(year + std::chrono::years{1}) / month / 1};
    if (is_known(harvest)) return harvest;
    throw bad_argument(
        "graft_date",
        translatable("{1} was {2}, and its first harvest would be after the year 9999: give an earlier date."),
        {graft_date});
}

double crew_days(double grafts, double grafts_per_day, std::optional<double> crew) {
    const auto wanted = check::whole("grafts", grafts, 0);
    const double rate = rate_per_day(grafts_per_day);
    const auto people = check::whole("crew", crew.value_or(1), 1);
    return days_needed(static_cast<double>(wanted), rate, static_cast<double>(people));
}

Day crew_finish(Day start_date, double grafts, double grafts_per_day, std::optional<double> crew,
                const std::optional<Scalar>& days_off, const std::optional<DayList>& holidays) {
    check::day("start_date", start_date);
    check::whole("grafts", grafts, 1);
    const double needed = crew_days(grafts, grafts_per_day, crew);
    const Week week = week_of(days_off);
    const auto lost = lost_days(holidays, week, start_date);

    // There are fewer than three million days from 1900 to 9999, so more would neither fit nor be worth counting.
    constexpr double too_many = 3'000'000;
    if (needed < too_many) {
        auto count = static_cast<std::int64_t>(needed);
        Day last = nth_working_day(start_date, count, week);
        // Each holiday met on the way puts the end off by one working day, which may bring the next one in.
        for (const Day holiday : lost) {
            if (holiday > last) break;
            last = nth_working_day(start_date, ++count, week);
        }
        if (is_known(last)) return last;
    }
    throw bad_argument("grafts",
                       translatable("{1} need {2} working days from {3}, past the year 9999: give fewer grafts, more "
                                    "people or more grafts per day."),
                       {needed, start_date});
}

std::optional<double> crew_size(Day start_date, Day end_date, double grafts, double grafts_per_day,
                                const std::optional<Scalar>& days_off, const std::optional<DayList>& holidays) {
    const double available = working_days(start_date, end_date, days_off, holidays);
    const auto wanted = static_cast<double>(check::whole("grafts", grafts, 0));
    const double rate = rate_per_day(grafts_per_day);
    if (available == 0) return std::nullopt;
    if (wanted == 0) return 0.0;
    // The quotient is right but for rounding at whole numbers; crew_days has the last word, so that both agree.
    double crew = std::max(1.0, check::rounded_up(wanted / (rate * available)));
    while (days_needed(wanted, rate, crew) > available) ++crew;
    while (crew > 1 && days_needed(wanted, rate, crew - 1) <= available) --crew;
    return crew;
}

double working_days(Day start_date, Day end_date, const std::optional<Scalar>& days_off,
                    const std::optional<DayList>& holidays) {
    check::day("start_date", start_date);
    check::day("end_date", end_date);
    if (end_date < start_date) {
        throw bad_argument("end_date", translatable("{1} was {2}, before start_date: give {3} or later."),
                           {end_date, start_date});
    }
    const Week week = week_of(days_off);
    const std::int64_t span = (end_date - start_date).count() + 1;
    std::int64_t count = span / 7 * week.worked_days;
    for (Day day = end_date - days{static_cast<std::int32_t>(span % 7)} + days{1}; day <= end_date; day += days{1}) {
        if (week.works(day)) ++count;
    }
    const auto lost = lost_days(holidays, week, start_date);
    count -= std::upper_bound(lost.begin(), lost.end(), end_date) - lost.begin();
    return static_cast<double>(count);
}

}  // namespace slipbark::calendar

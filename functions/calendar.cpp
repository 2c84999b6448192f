#include "slipbark/calendar.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "slipbark/dates.hpp"
#include "slipbark/defaults.hpp"
#include "support/checks.hpp"

namespace slipbark::calendar {

namespace {

using std::chrono::days;

// ---- The schedule

constexpr double farthest = 100'000;
constexpr std::array<std::string_view, 6> column_names{"stage", "earliest", "target", "latest", "unit", "sign"};

struct Stage {
    std::string name;
    std::string key;                        ///< the name as names are compared
    std::size_t row = 0;                    ///< in the table, from 0
    std::array<std::int32_t, 3> offsets{};  ///< earliest, target, latest
    char unit = 'd';
    Cell sign;
};

/// A whole number written in `text` and nothing else.
std::optional<std::int64_t> written_number(std::string_view text) {
    std::int64_t value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
    return value;
}

std::string content(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return "was " + to_text(*number);
    if (const auto* text = std::get_if<std::string>(&cell)) return "was the text \"" + *text + "\"";
    return "was blank";
}

bad_argument bad_cell(const Table& table, std::size_t row, std::size_t column, std::string_view right) {
    // A heading row is the likeliest reason for a bad first row.
    const auto* text = std::get_if<std::string>(&table.at(row, column));
    const bool heading = row == 0 && column > 0 && column < 4 && text != nullptr;
    return {"schedule",
            content(table.at(row, column)) + " in " + check::row_name(row) + ", column " + std::to_string(column + 1) +
                " (" + std::string(column_names.at(column)) + ")",
            std::string(right) + (heading ? ", and leave a heading row out of the range" : "")};
}

/// The name in a row and the key by which it is compared.
std::pair<std::string, std::string> name_in(const Table& table, std::size_t row) {
    if (const auto* text = std::get_if<std::string>(&table.at(row, 0))) {
        std::string key = check::folded(*text);
        if (!key.empty() && !written_number(key)) return {*text, std::move(key)};
    }
    throw bad_cell(table, row, 0, "give the stage a name in words");
}

std::int32_t offset_in(const Table& table, std::size_t row, std::size_t column) {
    const auto* number = std::get_if<double>(&table.at(row, column));
    if (number == nullptr || !(std::abs(*number) <= farthest) || std::abs(*number - std::round(*number)) > 1e-9) {
        throw bad_cell(table, row, column, "give a whole number from -100000 to 100000");
    }
    return static_cast<std::int32_t>(std::lround(*number));
}

char unit_in(const Table& table, std::size_t row) {
    const auto* text = std::get_if<std::string>(&table.at(row, 4));
    const std::string unit = text == nullptr ? "" : check::folded(*text);
    if (unit != "d" && unit != "w" && unit != "m") {
        throw bad_cell(table, row, 4, R"(give "d" for days, "w" for weeks or "m" for months)");
    }
    return unit.front();
}

bool is_blank_row(const Table& table, std::size_t row) {
    for (std::size_t column = 0; column < column_names.size(); ++column) {
        if (!is_blank(table.at(row, column))) return false;
    }
    return true;
}

Stage stage_in(const Table& table, std::size_t row) {
    auto [name, key] = name_in(table, row);
    Stage stage{.name = std::move(name),
                .key = std::move(key),
                .row = row,
                .offsets = {offset_in(table, row, 1), offset_in(table, row, 2), offset_in(table, row, 3)},
                .unit = unit_in(table, row),
                .sign = table.at(row, 5)};
    for (std::size_t edge = 1; edge < stage.offsets.size(); ++edge) {
        if (stage.offsets.at(edge - 1) > stage.offsets.at(edge)) {
            throw bad_cell(table, row, edge + 1,
                           "give offsets that do not fall from earliest to target to latest; " +
                               std::string(column_names.at(edge)) + " is " +
                               std::to_string(stage.offsets.at(edge - 1)));
        }
    }
    return stage;
}

std::vector<Stage> stages_of(const Table& table) {
    if (table.columns < column_names.size()) {
        throw bad_argument("schedule", "has " + std::to_string(table.columns) + " columns",
                           "give at least six: stage, earliest, target, latest, unit, sign");
    }
    std::vector<Stage> stages;
    std::unordered_map<std::string, std::size_t> rows;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        if (is_blank_row(table, row)) continue;
        stages.push_back(stage_in(table, row));
        // Of two stages of one name no one could say which is meant.
        const auto [first, is_new] = rows.emplace(stages.back().key, row);
        if (!is_new) {
            throw bad_cell(table, row, 0,
                           "give each stage its own name; " + check::row_name(first->second) + " has that name too");
        }
    }
    if (stages.empty()) throw bad_argument("schedule", "has no stages", "give at least one row");
    return stages;
}

/// The stages of `schedule`, which are put into `given`, or of the built-in one.
const std::vector<Stage>& stages_of(const std::optional<Table>& schedule, std::vector<Stage>& given) {
    // Most cells use the built-in one, which need not be read or copied again for each.
    static const std::vector<Stage> built_in = stages_of(defaults::schedule());
    if (!schedule) return built_in;
    given = stages_of(*schedule);
    return given;
}

Day date_of(const Stage& stage, std::size_t edge, Day graft_date) {
    const std::int32_t offset = stage.offsets.at(edge);
    const Day date =
        stage.unit == 'm' ? add_months(graft_date, offset) : graft_date + days{stage.unit == 'w' ? 7 * offset : offset};
    if (is_known(date)) return date;
    throw bad_argument("graft_date",
                       "was " + to_text(graft_date) + ", which puts \"" + stage.name + "\" (" +
                           check::row_name(stage.row) + " of the schedule) outside the years 1900 to 9999",
                       "give another date or nearer offsets");
}

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

const Stage& find_stage(const std::vector<Stage>& stages, const std::string& stage) {
    const std::string wanted = check::folded(stage);
    const auto row = written_number(wanted);
    for (const Stage& candidate : stages) {
        const auto candidate_row = static_cast<std::int64_t>(candidate.row) + 1;
        if (row ? candidate_row == *row : candidate.key == wanted) return candidate;
    }
    if (row) {
        throw bad_argument("stage", "was " + wanted + (*row == 0 ? " (the cell may be blank)" : ""),
                           "give a stage's name, or its row from 1 to " + std::to_string(stages.back().row + 1));
    }
    throw bad_argument("stage", "was \"" + stage + "\", which the schedule does not have",
                       "give a stage's name or row, such as " + suggestion(stages, wanted));
}

// ---- The working week

/// Which days of the week are worked, from Monday.
struct Week {
    std::array<bool, 7> worked{};
    std::int64_t worked_days = 0;

    [[nodiscard]] bool works(Day day) const { return worked.at(std::chrono::weekday{day}.iso_encoding() - 1); }
};

constexpr std::string_view week_help =
    R"(give seven digits from Monday as a text, 1 = not worked, such as "0000011", or a code 1 to 7 or 11 to 17)";

/// The digits of a code of the host's WORKDAY.INTL.
std::string week_of_code(std::int64_t code, const std::string& given) {
    std::string digits(7, '0');
    if (code >= 1 && code <= 7) {
        const auto first = static_cast<std::size_t>(code + 4) % 7;  // 1 = Saturday and Sunday
        digits.at(first) = digits.at((first + 1) % 7) = '1';
    } else if (code >= 11 && code <= 17) {
        digits.at(static_cast<std::size_t>(code - 11 + 6) % 7) = '1';  // 11 = Sunday
    } else {
        throw bad_argument("days_off", given, week_help);
    }
    return digits;
}

std::string week_digits(const Scalar& days_off) {
    if (const auto* number = std::get_if<double>(&days_off)) {
        const std::string given = "was " + to_text(*number) + (*number == 0 ? " (the cell may be blank)" : "");
        const bool whole = std::abs(*number) < 100 && *number == std::round(*number);
        return week_of_code(whole ? std::lround(*number) : 0, given);
    }
    const auto& text = std::get<std::string>(days_off);
    std::string digits = check::folded(text);
    if (digits.size() == 7 && digits.find_first_not_of("01") == std::string::npos) return digits;
    // Six zeros and a one are digits too few, not the code 1.
    const bool is_code = digits.size() <= 2 && !digits.starts_with('0');
    return week_of_code(is_code ? written_number(digits).value_or(0) : 0, "was the text \"" + text + "\"");
}

Week week_of(const std::optional<Scalar>& days_off) {
    const std::string digits = days_off ? week_digits(*days_off) : "0000011";
    Week week;
    for (std::size_t day = 0; day < week.worked.size(); ++day) week.worked.at(day) = digits.at(day) == '0';
    week.worked_days = std::count(week.worked.begin(), week.worked.end(), true);
    if (week.worked_days == 0) {
        throw bad_argument("days_off", "was \"1111111\", a week without a working day", week_help);
    }
    return week;
}

/// The holidays from `start` on that fall on working days, rising, each once.
std::vector<Day> lost_days(const std::optional<DayList>& holidays, const Week& week, Day start) {
    std::vector<Day> lost;
    if (!holidays) return lost;
    for (std::size_t index = 0; index < holidays->days.size(); ++index) {
        const auto& holiday = holidays->days[index];
        if (!holiday) continue;
        check::day_in_row("holidays", *holiday, index);
        if (*holiday >= start && week.works(*holiday)) lost.push_back(*holiday);
    }
    std::sort(lost.begin(), lost.end());
    lost.erase(std::unique(lost.begin(), lost.end()), lost.end());
    return lost;
}

/// The working day number `count` from `start` on, holidays left aside; count from 1 to a few million.
Day nth_working_day(Day start, std::int64_t count, const Week& week) {
    Day day = start + days{static_cast<std::int32_t>((count - 1) / week.worked_days * 7)};
    std::int64_t left = (count - 1) % week.worked_days + 1;
    while (true) {
        if (week.works(day) && --left == 0) return day;
        day += days{1};
    }
}

// ---- The crew

double rate_per_day(double grafts_per_day) {
    check::positive("grafts_per_day", grafts_per_day, static_cast<double>(check::most));
    return check::number("grafts_per_day", grafts_per_day, 0.001, static_cast<double>(check::most));
}

double days_needed(double grafts, double rate, double crew) {
    if (grafts == 0) return 0;
    // Rounding forgives the last digits; it must not forgive the whole of a very short job.
    return std::max(1.0, check::rounded_up(grafts / (rate * crew)));
}

}  // namespace

Day milestone(Day graft_date, const std::string& stage, std::optional<double> edge,
              const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    const auto which = static_cast<std::size_t>(check::whole("edge", edge.value_or(0), -1, 1) + 1);
    std::vector<Stage> given;
    const auto& stages = stages_of(schedule, given);
    return date_of(find_stage(stages, stage), which, graft_date);
}

Table schedule(Day graft_date, const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    Table dates{5, {}};
    std::vector<Stage> given;
    for (const Stage& stage : stages_of(schedule, given)) {
        dates.cells.emplace_back(stage.name);
        for (std::size_t edge = 0; edge < stage.offsets.size(); ++edge) {
            dates.cells.emplace_back(date_of(stage, edge, graft_date));
        }
        dates.cells.push_back(stage.sign);
    }
    return dates;
}

std::string stage_due(Day graft_date, Day on_date, const std::optional<Table>& schedule) {
    check::day("graft_date", graft_date);
    check::day("on_date", on_date);
    std::vector<Stage> given;
    for (const Stage& stage : stages_of(schedule, given)) {
        if (date_of(stage, 2, graft_date) >= on_date) return stage.name;
    }
    return "";
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
        translatable("{1} was {2}, and its first harvest would lie past the year 9999: give an earlier date."),
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
                       "need " + to_text(needed) + " working days from " + to_text(start_date) + ", past the year 9999",
                       "give fewer grafts, more people or more grafts per day");
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
        throw bad_argument("end_date", "was " + to_text(end_date) + ", before start_date",
                           "give " + to_text(start_date) + " or later");
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

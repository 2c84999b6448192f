#include "support/schedule.hpp"

#include <charconv>
#include <cmath>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "slipbark/dates.hpp"
#include "slipbark/defaults.hpp"
#include "support/checks.hpp"
#include "support/columns.hpp"

namespace slipbark::calendar {

namespace {

constexpr double farthest = 100'000;
constexpr std::size_t least_columns = 6;
constexpr std::size_t source_column = 6;
constexpr std::size_t counted_from_column = 7;
constexpr std::array column_names{translatable("stage"),  translatable("earliest"),    translatable("target"),
                                  translatable("latest"), translatable("unit"),        translatable("sign"),
                                  translatable("source"), translatable("counted from")};

bad_argument bad_cell(Text sentence, const Table& table, std::size_t row, std::size_t column,
                      const std::vector<MessageValue>& further = {}) {
    return check::bad_cell("schedule", sentence, table, row, column, column_names.at(column), further);
}

/// The name in a row and the key by which it is compared.
std::pair<std::string, std::string> name_in(const Table& table, std::size_t row) {
    if (const auto* text = std::get_if<std::string>(&table.at(row, 0))) {
        std::string key = check::folded(*text);
        if (!key.empty() && !written_number(key)) return {*text, std::move(key)};
    }
    throw bad_cell(translatable("{1} was {2} in row {3}, column {4} ({5}): give the stage a name in words."), table,
                   row, 0);
}

char unit_in(const Table& table, std::size_t row) {
    const auto* text = std::get_if<std::string>(&table.at(row, 4));
    const std::string unit = text == nullptr ? "" : check::folded(*text);
    if (unit != "d" && unit != "w" && unit != "m") {
        throw bad_cell(translatable("{1} was {2} in row {3}, column {4} ({5}): give \"d\" for days, \"w\" for weeks or "
                                    "\"m\" for months."),
                       table, row, 4);
    }
    return unit.front();
}

std::array<std::int32_t, 3> offsets_in(const Table& table, std::size_t row) {
    std::array<std::int32_t, 3> offsets{};
    for (std::size_t edge = 0; edge < offsets.size(); ++edge) {
        const check::NumberColumn column{edge + 1, column_names.at(edge + 1), -farthest, farthest, true};
        offsets.at(edge) = static_cast<std::int32_t>(check::number_in("schedule", table, row, column));
        if (edge > 0 && offsets.at(edge) < offsets.at(edge - 1)) {
            throw bad_cell(
                translatable("{1} was {2} in row {3}, column {4} ({5}): give offsets that do not fall from earliest to "
                             "target to latest; {6} is {7}."),
                table, row, edge + 1, {column_names.at(edge), static_cast<double>(offsets.at(edge - 1))});
        }
    }
    return offsets;
}

/// The key of the stage that a row counts from; "" for the day of grafting.
std::string counted_from_in(const Table& table, std::size_t row) {
    if (table.columns <= counted_from_column || is_blank(table.at(row, counted_from_column))) return "";
    const auto* text = std::get_if<std::string>(&table.at(row, counted_from_column));
    if (text != nullptr) return check::folded(*text);
    throw bad_cell(translatable("{1} was {2} in row {3}, column {4} ({5}): give the name of a stage further up, or "
                                "leave it blank to count from the grafting."),
                   table, row, counted_from_column);
}

bool is_blank_row(const Table& table, std::size_t row) {
    for (std::size_t column = 0; column < least_columns; ++column) {
        if (!is_blank(table.at(row, column))) return false;
    }
    return true;
}

std::vector<Stage> read(const Table& table) {
    if (table.columns < least_columns) {
        throw bad_argument("schedule",
                           translatable("{1} has {2} columns: give at least six, which are stage, earliest, target, "
                                        "latest, unit and sign, or the name of a built-in schedule."),
                           {static_cast<double>(table.columns)});
    }
    std::vector<Stage> stages;
    std::unordered_map<std::string, std::size_t> places;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        if (is_blank_row(table, row)) continue;
        auto [name, key] = name_in(table, row);
        Stage stage{.name = std::move(name),
                    .key = std::move(key),
                    .row = row,
                    .offsets = offsets_in(table, row),
                    .unit = unit_in(table, row),
                    .sign = table.at(row, 5),
                    .source = table.columns > source_column ? table.at(row, source_column) : Cell(),
                    .counted_from = {}};
        if (const std::string from = counted_from_in(table, row); !from.empty()) {
            const auto found = places.find(from);
            if (found == places.end()) {
                throw bad_cell(
                    translatable("{1} was {2} in row {3}, column {4} ({5}): give the name of a stage further "
                                 "up, or leave it blank to count from the grafting."),
                    table, row, counted_from_column);
            }
            stage.counted_from = found->second;
        }
        // Of two stages of one name no one could say which is meant.
        const auto [first, is_new] = places.emplace(stage.key, stages.size());
        if (!is_new) {
            throw bad_cell(translatable("{1} was {2} in row {3}, column {4} ({5}): give each stage its own name; row "
                                        "{6} has that name too."),
                           table, row, 0, {check::row_number(stages[first->second].row)});
        }
        stages.push_back(std::move(stage));
    }
    if (stages.empty()) {
        throw bad_argument("schedule", translatable("{1} has no stages: give at least one row."));
    }
    return stages;
}

std::vector<Stage> made_of(std::span<const defaults::Stage> rows) {
    std::vector<Stage> stages;
    for (const defaults::Stage& row : rows) {
        Stage stage{.name = std::string(row.name),
                    .key = check::folded(row.name),
                    .row = stages.size(),
                    .offsets = {row.offset.earliest, row.offset.target, row.offset.latest},
                    .unit = row.offset.unit,
                    .sign = std::string(row.sign),
                    .source = std::string(row.source),
                    .counted_from = {}};
        for (std::size_t place = 0; place < stages.size(); ++place) {
            if (stages[place].name == row.counted_from) stage.counted_from = place;
        }
        stages.push_back(std::move(stage));
    }
    return stages;
}

/// The built-in schedule of that name; nullptr where there is none. Most cells use one of them, so they are made once.
const std::vector<Stage>* built_in(std::string_view name) {
    static const auto all = [] {
        std::vector<std::pair<std::string_view, std::vector<Stage>>> made;
        made.emplace_back("schedule", made_of(defaults::stages()));
        for (const defaults::Schedule& schedule : defaults::schedules()) {
            made.emplace_back(schedule.name, made_of(schedule.stages));
        }
        return made;
    }();
    for (const auto& [known, stages] : all) {
        if (name.empty() || known == name) return &stages;
    }
    return nullptr;
}

}  // namespace

std::optional<std::int64_t> written_number(std::string_view text) {
    std::int64_t value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
    return value;
}

const std::vector<Stage>& stages_of(const std::optional<Table>& schedule, std::vector<Stage>& given) {
    if (!schedule) return *built_in("");
    const auto* name = schedule->cells.size() == 1 ? std::get_if<std::string>(&schedule->cells.front()) : nullptr;
    if (name != nullptr) {
        const std::string wanted = check::folded(*name);
        const auto* stages = wanted.empty() ? nullptr : built_in(wanted);
        if (stages != nullptr) return *stages;
        throw bad_argument(
            "schedule",
            translatable("{1} was the text \"{2}\": give a range of stages, or \"schedule\", \"bagged bark graft\", "
                         "\"wrapped bark graft\", \"bud on regrowth\" or \"dormant cleft graft\"."),
            {*name});
    }
    given = read(*schedule);
    return given;
}

Day date_from(const Stage& stage, std::size_t edge, Day from, Day graft_date) {
    const std::int32_t offset = stage.offsets.at(edge);
    const Day date = stage.unit == 'm' ? add_months(from, offset)
                                       : from + std::chrono::days{stage.unit == 'w' ? 7 * offset : offset};
    if (is_known(date)) return date;
    throw bad_argument("graft_date",
                       translatable("{1} was {2}, which puts \"{3}\" (row {4} of the schedule) outside the years 1900 "
                                    "to 9999: give another date or nearer offsets."),
                       {graft_date, stage.name, check::row_number(stage.row)});
}

Day date_of(const std::vector<Stage>& stages, std::size_t place, std::size_t edge, Day graft_date) {
    if (!stages[place].counted_from) return date_from(stages[place], edge, graft_date, graft_date);
    // From the stage back to one that counts from the grafting; a long schedule may have a long chain.
    std::vector<std::size_t> chain{place};
    while (stages[chain.back()].counted_from) chain.push_back(*stages[chain.back()].counted_from);
    Day date = graft_date;
    for (; !chain.empty(); chain.pop_back()) date = date_from(stages[chain.back()], edge, date, graft_date);
    return date;
}

std::vector<Dates> dates_of(const std::vector<Stage>& stages, Day graft_date) {
    std::vector<Dates> dates;
    dates.reserve(stages.size());
    for (const Stage& stage : stages) {
        const Dates from = stage.counted_from ? dates[*stage.counted_from] : Dates{graft_date, graft_date, graft_date};
        Dates own{};
        for (std::size_t edge = 0; edge < own.size(); ++edge) {
            own.at(edge) = date_from(stage, edge, from.at(edge), graft_date);
        }
        dates.push_back(own);
    }
    return dates;
}

}  // namespace slipbark::calendar

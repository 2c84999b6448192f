#include "catalogue/arguments.hpp"

#include <charconv>
#include <cmath>

#include "slipbark/dates.hpp"

namespace slipbark::catalogue {

namespace {

using std::chrono::days;
using std::chrono::January;

const Day first_day = Day{January / 1 / 1900};
const Day end_of_days = Day{January / 1 / 10000};

constexpr double milliseconds_a_day = 86'400'000;

/// A serial number as a point of the count from 1970, in days; both limits are checked before anything is cast.
double days_since_1970(std::string_view argument, double serial, Day null_date, std::optional<std::size_t> row) {
    const double count = serial + static_cast<double>(null_date.time_since_epoch().count());
    const auto of = [](Day day) { return static_cast<double>(day.time_since_epoch().count()); };
    const double place = static_cast<double>(row.value_or(0) + 1);
    if (serial == 0) {
        if (!row) throw bad_argument(argument, translatable("{1} was 0 (the cell may be blank): give a date."));
        throw bad_argument(argument, translatable("{1} was 0 in row {2} (the cell may be blank): give a date."),
                           {place});
    }
    if (!(count >= of(first_day) && count < of(end_of_days))) {
        if (!row) {
            throw bad_argument(
                argument,
                translatable("{1} was {2}, not a date from 1900 to 9999: give a date, such as DATE(2027;9;20)."),
                {serial});
        }
        throw bad_argument(
            argument,
            translatable("{1} was {2} in row {3}, not a date from 1900 to 9999: give a date, such as DATE(2027;9;20)."),
            {serial, place});
    }
    return count;
}

/// All of `text` as a whole number; a sign may stand before it.
std::optional<double> whole_number(std::string_view text) {
    if (text.find_first_not_of("+-0123456789") != std::string::npos) return std::nullopt;
    // from_chars reads a minus but no plus.
    if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
    return value;
}

/// A day as ISO 8601 has it, 2027-09-06.
std::optional<Day> iso_day(std::string_view text) {
    constexpr std::size_t length = 10;
    if (text.size() != length) return std::nullopt;
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    std::from_chars(text.data(), text.data() + 4, year);
    std::from_chars(text.data() + 5, text.data() + 7, month);
    std::from_chars(text.data() + 8, text.data() + length, day);
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
    // Written out again it must be the same: the signs between the parts, no blanks, no missing digits.
    if (!date.ok() || to_text(Day{date}) != text) return std::nullopt;
    return date;
}

/// What the host itself reads in a text wherever it stands, whatever its locale: a whole number or an ISO date, blanks
/// around them. WHY sees the text where the call sees the number, so it must read the same.
std::optional<double> unambiguous_number(std::string_view text, Day null_date) {
    text = check::trimmed(text, " ");
    if (const auto day = iso_day(text)) return serial_of(*day, null_date);
    return whole_number(text);
}

Value value_of(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

}  // namespace

Day day_of(std::string_view argument, double serial, Day null_date, std::optional<std::size_t> row) {
    return Day{days{static_cast<int>(std::floor(days_since_1970(argument, serial, null_date, row)))}};
}

Moment moment_of(std::string_view argument, double serial, Day null_date) {
    const double count = days_since_1970(argument, serial, null_date, std::nullopt);
    return Moment{std::chrono::milliseconds{std::llround(count * milliseconds_a_day)}};
}

double serial_of(Day day, Day null_date) { return static_cast<double>((day - null_date).count()); }

bad_argument too_many(std::size_t given, std::size_t most) {
    return {"arguments",
            translatable("{1} were {2}: give at most {3}."),
            {static_cast<double>(given), static_cast<double>(most)}};
}

namespace detail {

const Cell* single_cell(const Value& value) {
    // Of a whole column with one filled cell that cell would do today and not when a second one is filled.
    const auto* table = std::get_if<Table>(&value);
    return table != nullptr && table->cells.size() == 1 && table->blank_rows == 0 ? table->cells.data() : nullptr;
}

bool is_missing(const Value& value) {
    const auto* text = std::get_if<std::string>(&value);
    return std::holds_alternative<std::monostate>(value) || (text != nullptr && text->empty());
}

double number_of(std::string_view argument, const Value& value, Day null_date) {
    if (const auto* number = std::get_if<double>(&value)) {
        // NaN and infinity are left to the function's own check, which knows the range to name.
        return *number;
    }
    if (const auto* text = std::get_if<std::string>(&value); text != nullptr && !text->empty()) {
        if (const auto number = unambiguous_number(*text, null_date)) return *number;
        throw bad_argument(argument, translatable("{1} was the text \"{2}\": give a number."), {*text});
    }
    if (const Cell* cell = single_cell(value)) {
        // Where the host itself makes a number of a range of one cell, a blank one becomes 0.
        return is_blank(*cell) ? 0 : number_of(argument, value_of(*cell), null_date);
    }
    if (const auto* table = std::get_if<Table>(&value)) {
        const std::size_t cells = table->cells.size() + table->blank_rows * table->columns;
        throw bad_argument(argument, translatable("{1} was a range of {2} cells: give a single number."),
                           {static_cast<double>(cells)});
    }
    throw bad_argument(argument, translatable("{1} is missing: give a number."));
}

std::string text_of(std::string_view argument, const Value& value) {
    if (const auto* text = std::get_if<std::string>(&value); text != nullptr && !text->empty()) return *text;
    if (const auto* number = std::get_if<double>(&value)) return to_text(*number);
    if (const Cell* cell = single_cell(value)) return text_of(argument, value_of(*cell));
    if (std::holds_alternative<Table>(value)) {
        throw bad_argument(argument, translatable("{1} was a range: give a single text."));
    }
    throw bad_argument(argument, translatable("{1} is missing: give a text."));
}

Scalar scalar_of(std::string_view argument, const Value& value) {
    if (const auto* number = std::get_if<double>(&value)) return *number;
    if (const Cell* cell = single_cell(value)) return scalar_of(argument, value_of(*cell));
    return text_of(argument, value);
}

Table table_of(std::string_view argument, Value value) {
    if (auto* table = std::get_if<Table>(&value)) return std::move(*table);
    if (const auto* number = std::get_if<double>(&value)) return {1, {*number}};
    // An empty text alone is a cell that shows nothing, as it is inside a range; nothing at all is an argument left
    // out.
    if (const auto* text = std::get_if<std::string>(&value)) return {1, {text->empty() ? Cell{} : Cell{*text}}};
    throw bad_argument(argument, translatable("{1} is missing: give a range of cells."));
}

List list_of(std::string_view argument, Value value) {
    Table table = table_of(argument, std::move(value));
    const std::size_t below = table.blank_rows;
    if (table.columns != 1 && table.rows() + below != 1) {
        throw bad_argument(argument,
                           translatable("{1} was a block of {2} rows and {3} columns: give a single row or a single "
                                        "column."),
                           {static_cast<double>(table.rows() + below), static_cast<double>(table.columns)});
    }
    const std::size_t length = table.cells.size() + below * table.columns;
    return {std::move(table.cells), length};
}

DayTable day_table_of(std::string_view argument, Value value, Day null_date) {
    DayTable days{table_of(argument, std::move(value))};
    // As in a list of days, a reference to one blank cell arrives as the number 0.
    if (days.table.cells.size() == 1 && days.table.cells.front() == Cell{0.0}) days.table.cells.front() = {};
    for (std::size_t at = 0; at < days.table.cells.size(); ++at) {
        Cell& cell = days.table.cells[at];
        const auto* serial = std::get_if<double>(&cell);
        if (serial == nullptr) continue;
        cell = day_of(argument, *serial, null_date, at / days.table.columns);
    }
    return days;
}

DatedTable dated_table_of(std::string_view argument, Value value, Day null_date) {
    DatedTable dated{table_of(argument, std::move(value))};
    const auto of = [](Day day) { return static_cast<double>(day.time_since_epoch().count()); };
    const double from = of(first_day) - of(null_date);
    const double to = of(end_of_days) - of(null_date);
    for (std::size_t at = 0; at < dated.table.cells.size(); at += dated.table.columns) {
        Cell& cell = dated.table.cells[at];
        const auto* serial = std::get_if<double>(&cell);
        // 0 is a blank cell, whatever the document calls day 0.
        if (serial == nullptr || *serial == 0 || !(*serial >= from && *serial < to)) continue;
        cell = null_date + days{static_cast<int>(std::floor(*serial))};
    }
    return dated;
}

DayList days_of(std::string_view argument, Value value, Day null_date) {
    const List list = list_of(argument, std::move(value));
    // A reference to one blank cell arrives as the number 0; in a list of days that is a blank.
    if (list.length == 1 && list.cell(0) == Cell{0.0}) return {std::vector<std::optional<Day>>(1)};
    DayList days;
    days.length = list.length;
    days.days.reserve(list.cells.size());
    for (std::size_t index = 0; index < list.cells.size(); ++index) {
        if (is_blank(list.cells[index])) {
            days.days.emplace_back();
        } else {
            const double serial = check::number_in_row(argument, list, index);
            days.days.emplace_back(day_of(argument, serial, null_date, index));
        }
    }
    return days;
}

SheetCells cells_of(std::string_view argument, Value value, Day null_date) {
    if (auto* cells = std::get_if<SheetCells>(&value)) {
        cells->null_date = null_date;
        return std::move(*cells);
    }
    const Table table = table_of(argument, std::move(value));
    std::vector<SheetCell> line;
    for (const Cell& cell : table.cells) {
        const auto* number = std::get_if<double>(&cell);
        const auto* text = std::get_if<std::string>(&cell);
        line.push_back(number != nullptr ? SheetCell(*number) : text != nullptr ? SheetCell(*text) : SheetCell());
    }
    line.resize(line.size() + table.blank_rows * table.columns);
    return {[line = std::move(line)] { return line; }, null_date};
}

std::size_t keyword_of(std::string_view argument, const Value& value, const std::string_view* names,
                       std::size_t count) {
    const std::string given = text_of(argument, value);
    const std::string wanted = check::folded(given);
    std::string list;
    for (std::size_t index = 0; index < count; ++index) {
        if (wanted == names[index]) return index;
        list.append(index == 0 ? "\"" : ", \"").append(names[index]).append("\"");
    }
    throw bad_argument(argument, translatable("{1} was the text \"{2}\": give one of {3}."), {given, list});
}

Outcome finite(double value) {
    if (!std::isfinite(value)) {
        throw bad_argument("arguments", translatable("{1} give a result too large for a cell: give smaller ones."));
    }
    return value + 0.0;  // -0, as a ceiling of a little less than 0 is, becomes 0
}

Outcome with_serials(Table table, Day null_date) {
    for (Cell& cell : table.cells) {
        if (const auto* day = std::get_if<Day>(&cell)) {
            cell = serial_of(*day, null_date);
        } else if (const auto* number = std::get_if<double>(&cell)) {
            cell = std::get<double>(finite(*number));
        }
    }
    return table;
}

}  // namespace detail

}  // namespace slipbark::catalogue

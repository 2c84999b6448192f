#include "ranges.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "formula.hpp"
#include "reference.hpp"

namespace slipbark::tests {

using catalogue::Argument;
using catalogue::Arguments;
using catalogue::Blanks;
using catalogue::Bounds;
using catalogue::ColumnDomain;
using catalogue::Domain;
using catalogue::FunctionEntry;
using catalogue::Value;

namespace {

bool holds(const Bounds& limits, double number) {
    if (!std::isfinite(number) || (limits.whole && number != std::round(number))) return false;
    return (limits.above ? number > limits.low : number >= limits.low) &&
           (limits.below ? number < limits.high : number <= limits.high);
}

/// Where the argument of a name stands; past the end where there is none of it.
std::size_t place_of(const FunctionEntry& entry, std::string_view name) {
    const auto found = std::find_if(entry.arguments.begin(), entry.arguments.end(),
                                    [&](const Argument& one) { return one.name == name; });
    return static_cast<std::size_t>(found - entry.arguments.begin());
}

/// Whether some other list must be as long as this one.
bool is_tied(const FunctionEntry& entry, const Argument& argument) {
    return !argument.range.as_long_as.empty() ||
           std::any_of(entry.arguments.begin(), entry.arguments.end(),
                       [&](const Argument& one) { return one.range.as_long_as == argument.name; });
}

bool holds(std::span<const ColumnDomain> columns, std::size_t rows, const Table& table) {
    if (table.columns < columns.size() || table.rows() < rows) return false;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        for (std::size_t at = 0; at < columns.size(); ++at) {
            const ColumnDomain& column = columns[at];
            const auto* number = std::get_if<double>(&table.at(row, at));
            if (column.of != ColumnDomain::Of::numbers) return false;  // no misuse has a text where a text is right
            if (number == nullptr || !holds(column.limits, *number)) return false;
            if (column.rising && row > 0 && *number <= std::get<double>(table.at(row - 1, at))) return false;
        }
    }
    return true;
}

bool is_right_number(const FunctionEntry& entry, std::size_t at, double number, const Arguments& right) {
    const Argument& argument = entry.arguments[at];
    const Domain& range = argument.range;
    if (!std::isfinite(number)) return false;
    switch (range.of) {
        case Domain::Of::numbers:
            return holds(narrowed(entry, at, right), number);
        case Domain::Of::dates:
            // 0 is a blank cell.
            if (number == 0) return argument.is_list && range.blank != Blanks::refused;
            return holds(narrowed(entry, at, right), number);
        case Domain::Of::choices:
        case Domain::Of::texts:
            return std::find(range.choices.begin(), range.choices.end(), number) != range.choices.end();
        case Domain::Of::keywords:
        case Domain::Of::table:
        case Domain::Of::keywords_or_table:
        case Domain::Of::as_given:
            break;
    }
    return false;
}

}  // namespace

Bounds narrowed(const FunctionEntry& entry, std::size_t at, const Arguments& right) {
    const Domain& range = entry.arguments[at].range;
    Bounds limits = range.limits;
    if (range.of == Domain::Of::dates) {
        limits = {.low = catalogue::serial_of(iso("1900-01-01"), right.null_date),
                  .high = catalogue::serial_of(iso("10000-01-01"), right.null_date),
                  .below = true};
    }
    const auto value_of = [&](std::string_view name) -> const double* {
        const std::size_t place = place_of(entry, name);
        if (place >= right.values.size()) return nullptr;
        // Of a list its first cell.
        if (const auto* table = std::get_if<Table>(&right.values[place]))
            return std::get_if<double>(table->cells.data());
        return std::get_if<double>(&right.values[place]);
    };
    if (const double* least = value_of(range.least)) limits.low = std::max(limits.low, *least);
    if (const double* most = value_of(range.most)) {
        limits.high = std::min(limits.high, *most);
        limits.below = false;
    }
    // And the other way round: an argument whose range names this one.
    const std::string_view name = entry.arguments[at].name;
    for (const Argument& other : entry.arguments) {
        const double* value = value_of(other.name);
        if (value == nullptr) continue;
        if (other.range.most == name && *value > limits.low) {
            limits.low = *value;
            limits.above = false;
        }
        if (other.range.least == name && *value <= limits.high) {
            limits.high = *value;
            limits.below = other.range.limits.above;
        }
    }
    return limits;
}

bool is_right(const FunctionEntry& entry, std::size_t at, const Value& value, const Arguments& right) {
    const Argument& argument = entry.arguments[at];
    const Domain& range = argument.range;
    if (std::holds_alternative<std::monostate>(value)) return entry.parameters[at].optional;
    if (const auto* number = std::get_if<double>(&value)) {
        // A number for a list is a list of one.
        if (argument.is_list && (range.rows > 1 || is_tied(entry, argument))) return false;
        return is_right_number(entry, at, *number, right);
    }
    if (const auto* table = std::get_if<Table>(&value)) {
        const bool takes_table = range.of == Domain::Of::table || range.of == Domain::Of::keywords_or_table;
        return takes_table && holds(range.columns, range.rows, *table);
    }
    const auto& text = std::get<std::string>(value);
    return std::find(range.keywords.begin(), range.keywords.end(), text) != range.keywords.end();
}

std::vector<double> inside(const FunctionEntry& entry, std::size_t at, const Bounds& limits) {
    const double infinity = std::numeric_limits<double>::infinity();
    if (entry.arguments[at].range.of == Domain::Of::dates) return {limits.low, limits.high - (limits.below ? 1 : 0)};
    return {limits.above ? std::nextafter(limits.low, infinity) : limits.low,
            limits.below ? std::nextafter(limits.high, -infinity) : limits.high};
}

std::vector<double> outside(const FunctionEntry& entry, std::size_t at, const Bounds& limits) {
    if (entry.arguments[at].range.of == Domain::Of::dates)
        return {limits.low - 1, limits.high + (limits.below ? 0 : 1)};
    if (limits.whole) return {limits.low - 1, limits.low + 0.5, limits.high + 1};
    const double infinity = std::numeric_limits<double>::infinity();
    return {limits.above ? limits.low : std::nextafter(limits.low, -infinity),
            limits.below ? limits.high : std::nextafter(limits.high, infinity)};
}

bool narrow_each_other(const Argument& one, const Argument& other) {
    return one.range.least == other.name || one.range.most == other.name || other.range.least == one.name ||
           other.range.most == one.name;
}

std::string place_name(const FunctionEntry& entry, std::size_t at) {
    return std::string(entry.method) + "." + std::string(entry.arguments[at].name);
}

}  // namespace slipbark::tests

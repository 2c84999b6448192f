// The plain values that the trade's functions take and give.
//
// A cell function is called with what stands in cells. These few types say what that can be, without knowing any
// spreadsheet: a cell, a list of cells, a table, a calendar day, a moment on the local clock.
#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace slipbark {

/// A calendar day, proleptic Gregorian, without a time of day or a zone.
using Day = std::chrono::sys_days;

/// A moment as the local clock shows it; what it is in UTC needs the offset beside it.
using Moment = std::chrono::local_time<std::chrono::milliseconds>;

/// What stands in one cell: nothing, a number, a text, or (only in results) a day.
using Cell = std::variant<std::monostate, double, std::string, Day>;

/// A single argument that may be a number or a text, such as a code or a pattern.
using Scalar = std::variant<double, std::string>;

/// The keywords by which a cell names the values of an enumeration, in the order of its values. Each enumeration that a
/// function takes specialises this beside its declaration.
template <class Enumeration>
inline constexpr std::array<std::string_view, 0> keywords{};

inline bool is_blank(const Cell& cell) { return std::holds_alternative<std::monostate>(cell); }

/// A row or a column of cells.
///
/// A whole column of a sheet has a million rows of which few are used. So the blank cells after the last used one are
/// not stored: `length` counts them, `cells` does not hold them, and cell(i) answers blank for them.
struct List {
    std::vector<Cell> cells;
    std::size_t length = 0;

    List() = default;
    List(std::vector<Cell> stored) : cells(std::move(stored)), length(cells.size()) {}
    List(std::vector<Cell> stored, std::size_t whole) : cells(std::move(stored)), length(whole) {}
    List(std::initializer_list<Cell> stored) : cells(stored), length(cells.size()) {}

    /// The cell at `index`, counted from 0; blank past the stored ones.
    [[nodiscard]] const Cell& cell(std::size_t index) const {
        static const Cell blank;
        return index < cells.size() ? cells[index] : blank;
    }
};

/// A row or a column of days; an empty optional is a blank cell. Stored and counted as in List.
struct DayList {
    std::vector<std::optional<Day>> days;
    std::size_t length = 0;

    DayList() = default;
    DayList(std::vector<std::optional<Day>> stored) : days(std::move(stored)), length(days.size()) {}
    DayList(std::vector<std::optional<Day>> stored, std::size_t whole) : days(std::move(stored)), length(whole) {}
    DayList(std::initializer_list<std::optional<Day>> stored) : days(stored), length(days.size()) {}

    [[nodiscard]] std::optional<Day> day(std::size_t index) const {
        return index < days.size() ? days[index] : std::nullopt;
    }
};

/// A rectangle of cells, stored row by row.
struct Table {
    std::size_t columns = 0;
    std::vector<Cell> cells;
    std::size_t blank_rows = 0;  ///< further rows below the stored ones that are wholly blank; see List

    Table() = default;
    Table(std::size_t width, std::vector<Cell> stored) : columns(width), cells(std::move(stored)) {}

    [[nodiscard]] std::size_t rows() const { return columns == 0 ? 0 : cells.size() / columns; }
    [[nodiscard]] const Cell& at(std::size_t row, std::size_t column) const { return cells[row * columns + column]; }

    bool operator==(const Table&) const = default;
};

/// A rectangle in which every number is a day: each cell is blank, a day or a text.
struct DayTable {
    Table table;
};

/// A rectangle whose first column are days. What is no date from 1900 to 9999 there stays as it is, for the function to
/// say which line it is.
struct DatedTable {
    Table table;
};

}  // namespace slipbark

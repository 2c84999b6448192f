// What a workbook's cells are: where they stand, what they hold, what they are for.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <variant>

#include "composer/text_collector.hpp"

namespace slipbark::compose {

/// A cell's address. Columns and rows count from 1.
struct Address {
    int column = 1;
    int row = 1;

    Address(int at_column, int at_row) : column(at_column), row(at_row) {}
    Address(std::string_view text);  // "C5"
    Address(const char* text) : Address(std::string_view(text)) {}
    /// The cell of a column in a row: Place("C", 5).
    Address(std::string_view column_letters, int at_row);

    [[nodiscard]] std::string text() const;
    // NOLINTNEXTLINE(modernize-use-nullptr): takes <=> for a comparison with 0
    friend auto operator<=>(const Address&, const Address&) = default;
};

/// A rectangle of cells; a single cell where only one address is given.
struct Area {
    Address first;
    Address last;

    Area(Address from, Address to) : first(from), last(to) {}
    Area(Address only) : first(only), last(only) {}
    Area(std::string_view text);  // "B7:F20" or "B7"
    Area(const char* text) : Area(std::string_view(text)) {}
    /// A part of a column: Area("C", 5, 20).
    Area(std::string_view column_letters, int first_row, int last_row)
        : first(column_letters, first_row), last(column_letters, last_row) {}

    [[nodiscard]] std::string text() const;
};

using Date = std::chrono::year_month_day;
using Content = std::variant<std::monostate, double, Phrase, Date>;

/// What a cell is for. look.xml says what that looks like.
enum class Style {
    plain,
    title,      ///< first line of a sheet
    lead,       ///< the line under it: what the sheet is for
    section,    ///< heading of a group of lines
    heading,    ///< heading of a table's column
    label,      ///< what a line holds
    unit,       ///< the unit beside a number
    input,      ///< to be filled in by the user; put with a formula over other cells it is `suggested`
    kept,       ///< looks like an input, but holds a figure of the trade, which stays when the form is emptied
    suggested,  ///< a formula that the user may type over; what is typed looks like an input
    answer,     ///< follows from the inputs
    total,      ///< an answer that sums up a table or a sheet
    figure,     ///< one of the few figures that a front sheet shows large
    body,       ///< a table's text that is not to be filled in
    check,      ///< the Check column: blank, or what to correct
    sentence,   ///< a summary in words, over several cells
    note,       ///< running text
    caution,    ///< running text on what can hurt
    bars,       ///< bars drawn with characters, all equally wide
    workings,   ///< numbers behind a chart, outside the printed page
    unfit,      ///< laid over a cell by a condition: something to correct
    due,        ///< laid over a cell by a condition: look here now
    done,       ///< laid over a cell by a condition: no longer of interest
};

enum class Format { general, text, count, tenth, hundredth, percent, percent_tenth, date, weekday_date };

/// The shortest text that reads back as the same number, never with an exponent.
std::string plain_number(double value);

}  // namespace slipbark::compose

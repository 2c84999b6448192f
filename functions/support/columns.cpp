#include "support/columns.hpp"

#include <cmath>
#include <string>

#include "support/checks.hpp"

namespace slipbark::check {

namespace {

MessageValue content(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return '"' + *text + '"';
    return "\"\"";
}

Text sentence_for(const Cell& cell, const NumberColumn& column, std::size_t row) {
    if (std::holds_alternative<std::string>(cell)) {
        // A heading is the likeliest reason for a text in the first row.
        if (row == 0) {
            return translatable(
                "{1} has the text {2} in row {3}, column {4} ({5}): give a number from {6} to {7} there, and leave a "
                "heading row out of the range.");
        }
        return translatable("{1} has the text {2} in row {3}, column {4} ({5}): give a number from {6} to {7} there.");
    }
    if (is_blank(cell)) {
        return translatable("{1} is blank in row {3}, column {4} ({5}): give a number from {6} to {7} there.");
    }
    if (column.whole) {
        return translatable("{1} was {2} in row {3}, column {4} ({5}): give a whole number from {6} to {7}.");
    }
    return translatable("{1} was {2} in row {3}, column {4} ({5}): give a number from {6} to {7}.");
}

}  // namespace

bad_argument bad_cell(std::string_view argument, Text sentence, const Table& table, std::size_t row, std::size_t column,
                      Text name, const std::vector<MessageValue>& further) {
    std::vector<MessageValue> places{content(table.at(row, column)), row_number(row), row_number(column), name};
    places.insert(places.end(), further.begin(), further.end());
    return {argument, sentence, std::move(places)};
}

double number_in(std::string_view argument, const Table& table, std::size_t row, const NumberColumn& column) {
    const Cell& cell = table.at(row, column.place);
    const auto* number = std::get_if<double>(&cell);
    if (number != nullptr && *number >= column.low && *number <= column.high && (!column.whole || is_whole(*number))) {
        return column.whole ? std::round(*number) : *number;
    }
    const bool share = column.low == 0 && column.high <= 10;
    if (number != nullptr && share && *number > column.high && *number <= 1000) {
        throw bad_cell(argument,
                       translatable("{1} was {2} in row {3}, column {4} ({5}): give a number from {6} to {7} ({2} % is "
                                    "{8})."),
                       table, row, column.place, column.name, {column.low, column.high, *number / 100});
    }
    throw bad_cell(argument, sentence_for(cell, column, row), table, row, column.place, column.name,
                   {column.low, column.high});
}

std::size_t used_rows(const Table& table, std::size_t columns) {
    const auto blank = [&](std::size_t row) {
        for (std::size_t column = 0; column < columns; ++column) {
            if (!is_blank(table.at(row, column))) return false;
        }
        return true;
    };
    std::size_t rows = table.rows();
    while (rows > 0 && blank(rows - 1)) --rows;
    return rows;
}

Points points(std::string_view argument, const Table& table, const NumberColumn& rising, const NumberColumn& share,
              std::size_t least, double least_step) {
    if (table.columns < 2) {
        throw bad_argument(argument, translatable("{1} has {2} columns: give two, {3} and {4}."),
                           {static_cast<double>(table.columns), rising.name, share.name});
    }
    const std::size_t rows = used_rows(table, 2);
    if (rows < least) {
        throw bad_argument(argument, translatable("{1} has {2} rows that are not blank: give at least {3}."),
                           {static_cast<double>(rows), static_cast<double>(least)});
    }
    Points read;
    read.at.reserve(rows);
    read.share.reserve(rows);
    for (std::size_t row = 0; row < rows; ++row) {
        const double at = number_in(argument, table, row, rising);
        if (row > 0 && (at <= read.at.back() || at - read.at.back() < least_step)) {
            throw bad_cell(argument,
                           translatable("{1} has {2} in row {3} after {6}, column {4} ({5}): give numbers that rise "
                                        "from row to row."),
                           table, row, rising.place, rising.name, {read.at.back()});
        }
        read.at.push_back(at);
        read.share.push_back(number_in(argument, table, row, share));
    }
    return read;
}

}  // namespace slipbark::check

// The columns of a table that a user gives: each is read here, so that all tables refuse the same mistake in the same
// words, with the row and the column counted from 1.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "slipbark/outcome.hpp"
#include "slipbark/values.hpp"

namespace slipbark::check {

/// What a column of numbers may hold.
struct NumberColumn {
    std::size_t place = 0;  ///< counted from 0
    Text name;              ///< "days"
    double low = 0;
    double high = 0;
    bool whole = false;
};

/// The number in a cell of a column. A text, a blank, a number outside the column's limits (for one that looks like a
/// percentage where a share is wanted, with what it would be) is a bad argument.
double number_in(std::string_view argument, const Table& table, std::size_t row, const NumberColumn& column);

/// The refusal of the cell at `row` and `column`, which is named `name`. `sentence` has the places {2} what stands
/// there (in quotes where it is a text, "" where it is blank), {3} the row, {4} the column's number, {5} its name, and
/// {6} and on the `further` ones.
bad_argument bad_cell(std::string_view argument, Text sentence, const Table& table, std::size_t row, std::size_t column,
                      Text name, const std::vector<MessageValue>& further = {});

/// Rows up to the last one that is not blank in its first `columns` columns.
std::size_t used_rows(const Table& table, std::size_t columns);

/// Points of a curve: what rises from row to row, and a share at each.
struct Points {
    std::vector<double> at;
    std::vector<double> share;
};

/// The points in the first two columns of a table.
///
/// rising  the first column, which must rise by more than 0 and at least by `least_step` from row to row
/// share   the second column
/// least   rows that there must be
/// throws  bad_argument for a table without two columns or with too few rows; for a cell, with its row
Points points(std::string_view argument, const Table& table, const NumberColumn& rising, const NumberColumn& share,
              std::size_t least, double least_step = 0);

}  // namespace slipbark::check

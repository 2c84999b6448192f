// Check values from reference/*.csv: one row, one expected value, its tolerance and its source.
//
// Columns that every file has: id, function, expected, tolerance, source. The others are the inputs, and provenance and
// note. A tolerance is "exact", "abs X" or "rel X". Files with a column `args` hold whole cell calls, which
// functions/whole_calls_test.cpp reads.
#pragma once

#include <gtest/gtest.h>

#include <map>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::tests {

struct Row {
    std::string file;
    std::map<std::string, std::string> columns;

    /// The text of a column; a column that the file does not have fails loudly.
    [[nodiscard]] const std::string& operator[](const std::string& column) const;
    /// The column as a number; a blank one fails loudly. "1/6" is read as the quotient.
    [[nodiscard]] double number(const std::string& column) const;
    [[nodiscard]] bool has(const std::string& column) const;
    /// The numbers of a list, separated by blanks.
    [[nodiscard]] std::vector<double> numbers(const std::string& column) const;
    /// The same as a list of cells.
    [[nodiscard]] List list(const std::string& column) const;
    /// An ISO date.
    [[nodiscard]] Day day(const std::string& column) const;
};

/// The rows of a file whose `function` column is one of `functions` (all rows where none is named).
std::vector<Row> rows(const std::string& file, const std::vector<std::string>& functions = {});

/// The names of all files of check values, in order.
std::vector<std::string> reference_files();

/// Whether `actual` is the row's `expected` within its `tolerance`; the failure message prints the row and its source.
testing::AssertionResult agrees(const Row& row, double actual);

/// For INSTANTIATE_TEST_SUITE_P: names tests after the row's id.
std::string row_id(const testing::TestParamInfo<Row>& info);

std::ostream& operator<<(std::ostream& out, const Row& row);

/// An ISO date (2027-09-06) as a day.
Day iso(std::string_view date);

}  // namespace slipbark::tests

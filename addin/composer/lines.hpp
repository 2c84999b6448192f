// Tables that are filled in line by line, each line with a Check of its own: what must hold, and what is said else.
#pragma once

#include <string>
#include <vector>

#include "composer/sheet.hpp"

namespace slipbark::compose {

/// A condition that holds for a number of that range and is false, not an error, for a text. `high` may be a cell.
std::string is_number(const std::string& cell, const std::string& low, const std::string& high);
/// The same for a whole number.
std::string is_whole(const std::string& cell, const std::string& low, const std::string& high);
/// The same for a date from 2000 to 2099.
std::string is_day(const std::string& cell);

struct Rule {
    std::string holds;  ///< a condition, "{r}" its row
    std::string else_says;
};

/// The Check of each line: what the first rule says that does not hold; on a blank line `where_blank`, an expression
/// for a text.
void check_lines(Sheet& sheet, const Area& lines, const std::string& column, const std::vector<Rule>& rules,
                 const std::string& where_blank = "\"\"");

/// An expression that says how many lines of a sheet have something to correct, and which one is the first.
std::string lines_to_correct(const std::string& sheet, const std::string& checks);

}  // namespace slipbark::compose

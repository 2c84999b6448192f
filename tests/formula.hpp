// Reads a call as a person types it - REWORK.STICKS(3200; 2; 9; 0.15) - and calls it through the catalogue.
//
// Knows literals only: numbers, "texts", arrays {1;2|3;4} (";" between columns, "|" between rows), DATE(y;m;d),
// TIME(h;m;s) and sums of these.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "catalogue/entry.hpp"

namespace slipbark::tests {

struct Call {
    std::string function;
    catalogue::Arguments arguments;
};

/// The host's own default for day 0.
Day usual_null_date();

/// Throws std::runtime_error for what it cannot read.
Call parse(std::string_view formula);

catalogue::Outcome evaluate(std::string_view formula);

/// What an outcome shows: of a table its first cell, "#N/A" where there is no answer.
std::string shown(const catalogue::Outcome& outcome);

/// Whether an outcome shows `text`: a date as 2027-09-06, a number to the decimals given, a text as it is.
testing::AssertionResult shows(const catalogue::Outcome& outcome, std::string_view text);

}  // namespace slipbark::tests

// Whole cell calls: each row of the reference files with a column `args` is a call as typed, evaluated through the
// catalogue and compared cell by cell.
//
// In `args` and `expected` arrays have ";" between columns and "|" between rows, "" is a blank cell; `expected` may
// also be #N/A (no answer) or Err:502 (bad argument). `tolerance` is relative unless it begins with "abs"; "exact" is
// also for texts and dates, which are serial numbers of the null date 1899-12-30. Several, with ";" between them,
// belong to the columns in order; a column with "-" is checked elsewhere. A cell that is 0 under a relative tolerance
// must come out as 0, within 1E-9.

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/algorithm/string/classification.hpp>
#include <boost/algorithm/string/split.hpp>
#include <boost/algorithm/string/trim.hpp>
#include <boost/lexical_cast.hpp>
#include <cmath>
#include <iomanip>
#include <iterator>
#include <optional>
#include <sstream>

#include "formula.hpp"
#include "reference.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Outcome;

std::vector<Row> whole_calls() {
    std::vector<Row> found;
    for (const auto& file : reference_files()) {
        auto all = rows(file);
        if (!all.front().columns.contains("args")) continue;
        std::move(all.begin(), all.end(), std::back_inserter(found));
    }
    return found;
}

/// The answer, or an argument, as a text or number by itself or as a table; empty where there was none.
template <class Given>
Table as_table(Given given) {
    if (auto* table = std::get_if<Table>(&given)) return std::move(*table);
    if (const auto* number = std::get_if<double>(&given)) return {1, {*number}};
    if (const auto* text = std::get_if<std::string>(&given)) return {1, {*text}};
    return {};
}

/// The expected value, read as an argument of a call.
Table expected_table(const std::string& expected) {
    const auto call = parse("EXPECTED(" + expected + ")");
    return as_table(call.arguments.values.at(0));
}

/// How far a number may be from what is expected.
double allowed(std::string tolerance, double expected) {
    boost::algorithm::trim(tolerance);
    if (tolerance == "exact") return 0;
    if (tolerance.starts_with("abs ")) return boost::lexical_cast<double>(tolerance.substr(4));
    return expected == 0 ? 1e-9 : boost::lexical_cast<double>(tolerance) * std::abs(expected);
}

std::string in_words(const Cell& cell) {
    std::ostringstream out;
    if (const auto* number = std::get_if<double>(&cell)) out << std::setprecision(17) << *number;
    if (const auto* text = std::get_if<std::string>(&cell)) out << '"' << *text << '"';
    return out.str();
}

bool agrees(const Cell& actual, const Cell& expected, const std::string& tolerance) {
    const auto* found = std::get_if<double>(&actual);
    const auto* wanted = std::get_if<double>(&expected);
    if (found != nullptr && wanted != nullptr) return std::abs(*found - *wanted) <= allowed(tolerance, *wanted);
    const auto empty = [](const Cell& cell) { return is_blank(cell) || cell == Cell(std::string()); };
    return actual == expected || (empty(actual) && empty(expected));
}

class WholeCall : public testing::TestWithParam<Row> {};

INSTANTIATE_TEST_SUITE_P(Reference, WholeCall, testing::ValuesIn(whole_calls()), row_id);

TEST_P(WholeCall, AnswersAsComputedElsewhere) {
    const Row& row = GetParam();
    const std::string formula = "REWORK." + row["function"] + "(" + row["args"] + ")";
    const std::string& expected = row["expected"];
    std::optional<Outcome> answer;
    std::string refusal;
    try {
        answer = evaluate(formula);
    } catch (const bad_argument& error) {
        refusal = error.what();
    }
    if (expected == "Err:502") {
        EXPECT_FALSE(refusal.empty()) << row;
        return;
    }
    ASSERT_EQ(refusal, "") << row;
    if (expected == "#N/A") {
        EXPECT_TRUE(std::holds_alternative<std::monostate>(*answer)) << row;
        return;
    }
    const Table wanted = expected_table(expected);
    const Table found = as_table(*std::move(answer));
    ASSERT_EQ(found.columns, wanted.columns) << row;
    ASSERT_EQ(found.cells.size(), wanted.cells.size()) << row;
    std::vector<std::string> tolerances;
    boost::algorithm::split(tolerances, row["tolerance"], boost::algorithm::is_any_of(";"));
    ASSERT_TRUE(tolerances.size() == 1 || tolerances.size() == wanted.columns) << row;
    for (std::size_t cell = 0; cell < wanted.cells.size(); ++cell) {
        const std::size_t column = tolerances.size() == 1 ? 0 : cell % wanted.columns;
        if (tolerances[column] == "-") continue;
        EXPECT_TRUE(agrees(found.cells[cell], wanted.cells[cell], tolerances[column]))
            << "row " << cell / wanted.columns + 1 << ", column " << cell % wanted.columns + 1 << " is "
            << in_words(found.cells[cell]) << " and not " << in_words(wanted.cells[cell]) << " within "
            << tolerances[column] << "\n"
            << row;
    }
}

}  // namespace
}  // namespace slipbark::tests

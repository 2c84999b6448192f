// Numbers of one platform beside those of another. Every function is called rightly, with each of its arguments moved
// over its range, and with the check values' whole calls.
//
//   slipbark_values          writes what the calls gave, one number or text a line, to the last bit
//   slipbark_values FILE     compares with what another platform wrote: texts equal, numbers within 1E-13 relative
//
// The last line says how many were compared, how many differ in the last bits, and by how much at most.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "formula.hpp"
#include "ranges.hpp"
#include "reference.hpp"
#include "right_call.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Arguments;
using catalogue::FunctionEntry;

constexpr double tolerance = 1e-13;

/// What a call gave: its name, and its cells in order.
struct Answer {
    std::string call;
    std::vector<Cell> cells;
};

Answer answer(const std::string& name, const FunctionEntry& entry, const Arguments& given) {
    try {
        auto outcome = entry.call(given);
        if (const auto* number = std::get_if<double>(&outcome)) return {name, {*number}};
        if (const auto* text = std::get_if<std::string>(&outcome)) return {name, {*text}};
        if (auto* table = std::get_if<Table>(&outcome)) return {name, std::move(table->cells)};
        return {name, {std::string("no answer")}};
    } catch (const bad_argument& bad) {
        return {name, {"refused: " + bad.argument()}};
    }
}

/// The numbers to try in place of `right`, those inside the argument's range.
std::vector<double> moved(const FunctionEntry& entry, std::size_t at, const Arguments& right) {
    auto all = inside(entry, at, narrowed(entry, at, right));
    std::erase_if(all, [](double value) { return std::abs(value) > 1e6; });
    if (const auto* number = std::get_if<double>(&right.values[at])) {
        for (const double factor : {0.31, 0.5, 0.87, 1.13, 2.0, 3.7}) all.push_back(*number * factor);
        for (const double whole : {1.0, 2.0, 3.0, 7.0}) all.push_back(std::round(*number) + whole);
    }
    return all;
}

std::vector<Answer> answers() {
    std::vector<Answer> all;
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            const Arguments right = parse(right_call(entry)).arguments;
            all.push_back(answer(entry.cell_name(), entry, right));
            for (std::size_t at = 0; at < right.values.size(); ++at) {
                if (std::holds_alternative<std::string>(right.values[at])) continue;
                for (const double value : moved(entry, at, right)) {
                    Arguments given = right;
                    given.values[at] = value;
                    all.push_back(answer(place_name(entry, at) + " " + to_text(value), entry, given));
                }
            }
        }
    }
    for (const std::string& file : reference_files()) {
        for (const Row& row : rows(file)) {
            if (!row.columns.contains("args")) break;
            const auto call = parse("REWORK." + row["function"] + "(" + row["args"] + ")");
            all.push_back(answer(row["id"], *catalogue::find(call.function), call.arguments));
        }
    }
    return all;
}

std::string written(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) {
        std::ostringstream text;
        text << "n " << std::hexfloat << *number;
        return text.str();
    }
    const auto* text = std::get_if<std::string>(&cell);
    return "t " + (text == nullptr ? std::string() : *text);
}

int compare(const std::vector<Answer>& here, std::istream& there) {
    long numbers = 0;
    long unlike = 0;
    long wrong = 0;
    double most = 0;
    std::string line;
    for (const Answer& one : here) {
        for (const Cell& cell : one.cells) {
            std::getline(there, line);
            const std::string is = written(cell);
            numbers += is.front() == 'n' ? 1 : 0;
            if (is == line) continue;
            double apart = 1;
            if (is.front() == 'n' && line.starts_with("n ")) {
                const double mine = std::get<double>(cell);
                const double other = std::strtod(line.c_str() + 2, nullptr);
                apart = std::abs(mine - other) / std::max(std::abs(mine), std::abs(other));
            }
            ++unlike;
            most = std::max(most, apart);
            if (apart <= tolerance) continue;
            if (++wrong <= 20) std::cout << one.call << ": " << is << ", there " << line << ", " << apart << " apart\n";
        }
    }
    if (std::getline(there, line)) {
        std::cout << "more there than here: " << line << "\n";
        ++wrong;
    }
    std::cout << here.size() << " calls, " << numbers << " numbers: " << unlike << " cells differ, at most by " << most
              << " relative, " << wrong << " by more than " << tolerance << "\n";
    return wrong == 0 ? 0 : 1;
}

}  // namespace
}  // namespace slipbark::tests

int main(int count, char** words) {
    using namespace slipbark::tests;
    try {
        const auto here = answers();
        if (count > 1) {
            std::ifstream there(words[1]);
            return compare(here, there);
        }
        for (const Answer& one : here) {
            for (const auto& cell : one.cells) std::cout << written(cell) << "\n";
        }
        return 0;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
}

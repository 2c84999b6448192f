#include "formula.hpp"

#include <charconv>
#include <cmath>
#include <stdexcept>

#include "catalogue/formula.hpp"
#include "reference.hpp"

namespace slipbark::tests {

namespace {

using catalogue::Outcome;
using catalogue::Value;

[[noreturn]] void unreadable(catalogue::Tokens part) {
    throw std::runtime_error("cannot read: " + std::string(catalogue::written(part)));
}

double number(catalogue::Tokens part) {
    const auto value = catalogue::literal(part);
    if (!value || !std::holds_alternative<double>(*value)) unreadable(part);
    return std::get<double>(*value);
}

/// A number, DATE(y;m;d) or TIME(h;m;s).
double term(catalogue::Tokens part) {
    const auto call = catalogue::call(part);
    if (!call) return number(part);
    if (call->arguments.size() != 3 || !call->rest.empty()) unreadable(part);
    const double first = number(call->arguments[0]);
    const double second = number(call->arguments[1]);
    const double third = number(call->arguments[2]);
    if (call->function == "TIME") return (first + second / 60 + third / 3600) / 24;
    if (call->function != "DATE") unreadable(part);
    const Day day{std::chrono::year{static_cast<int>(first)} / static_cast<int>(second) / static_cast<int>(third)};
    return catalogue::serial_of(day, usual_null_date());
}

double sum(catalogue::Tokens part) {
    double total = 0;
    for (const catalogue::Tokens one : catalogue::split(part, "+")) total += term(one);
    return total;
}

Value value(catalogue::Tokens part) {
    if (auto found = catalogue::literal(part)) return std::move(*found);
    if (catalogue::reference(catalogue::written(part))) return Table(1, {Cell{}});  // in an example, a blank cell
    const auto rows = catalogue::array_rows(part);
    if (rows.empty()) return sum(part);
    Table table;
    table.columns = rows[0].size();
    for (const auto& row : rows) {
        if (row.size() != table.columns) unreadable(part);
        for (const catalogue::Tokens cell : row) {
            const Value one = value(cell);
            const auto* const text = std::get_if<std::string>(&one);
            table.cells.push_back(text != nullptr ? Cell(*text) : Cell(std::get<double>(one)));
        }
    }
    return table;
}

}  // namespace

Day usual_null_date() { return iso("1899-12-30"); }

Call parse(std::string_view formula) {
    if (formula.starts_with('=')) formula.remove_prefix(1);
    const auto all = catalogue::tokens(formula);
    const auto call = catalogue::call(all);
    if (!call || !call->rest.empty()) unreadable(all);
    Call made{std::string(call->function), {{}, usual_null_date()}};
    for (const catalogue::Tokens argument : call->arguments) made.arguments.values.push_back(value(argument));
    return made;
}

Outcome evaluate(std::string_view formula) {
    const Call call = parse(formula);
    const auto* entry = catalogue::find(call.function);
    if (entry == nullptr) throw std::runtime_error("no function " + call.function);
    return entry->call(call.arguments);
}

std::string shown(const Outcome& outcome) {
    if (const auto* number = std::get_if<double>(&outcome)) return to_text(*number);
    if (const auto* text = std::get_if<std::string>(&outcome)) return *text;
    if (const auto* table = std::get_if<Table>(&outcome)) {
        const Cell& first = table->cells.at(0);
        if (const auto* number = std::get_if<double>(&first)) return to_text(*number);
        if (const auto* text = std::get_if<std::string>(&first)) return *text;
        return "";
    }
    return "#N/A";
}

testing::AssertionResult shows(const Outcome& outcome, std::string_view text) {
    const std::string actual = shown(outcome);
    const auto failed = testing::AssertionFailure() << "shows " << actual << " and not " << text;
    if (actual == text) return testing::AssertionSuccess();
    double number = 0;
    const auto read = std::from_chars(actual.data(), actual.data() + actual.size(), number);
    if (read.ec != std::errc{} || read.ptr != actual.data() + actual.size()) return failed;
    if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
        return number == catalogue::serial_of(iso(text), usual_null_date()) ? testing::AssertionSuccess() : failed;
    }
    double expected = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), expected);
    if (end.ec != std::errc{} || end.ptr != text.data() + text.size()) return failed;
    const auto dot = text.find('.');
    const auto decimals = dot == std::string_view::npos ? 0 : text.size() - dot - 1;
    // Half of the last decimal given; a whole number must be whole.
    const double allowed = dot == std::string_view::npos ? 1e-9 : 0.5000001 * std::pow(10, -static_cast<int>(decimals));
    return std::abs(number - expected) <= allowed ? testing::AssertionSuccess() : failed;
}

}  // namespace slipbark::tests

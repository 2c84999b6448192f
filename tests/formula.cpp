#include "formula.hpp"

#include <cctype>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "reference.hpp"

namespace slipbark::tests {

namespace {

using catalogue::Outcome;
using catalogue::Value;

class Reader {
  public:
    explicit Reader(std::string_view text) : rest_(text) {}

    Call call() {
        Call made;
        made.arguments.null_date = usual_null_date();
        made.function = name();
        expect('(');
        if (take(')')) return end(std::move(made));
        for (;;) {
            made.arguments.values.push_back(value());
            if (take(')')) return end(std::move(made));
            expect(';');
        }
    }

  private:
    Call end(Call made) {
        skip();
        if (!rest_.empty()) fail("the end");
        return made;
    }

    void skip() {
        while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    }
    bool take(char wanted) {
        skip();
        if (rest_.empty() || rest_.front() != wanted) return false;
        rest_.remove_prefix(1);
        return true;
    }
    void expect(char wanted) {
        if (!take(wanted)) fail(std::string(1, wanted));
    }
    [[noreturn]] void fail(const std::string& wanted) const {
        throw std::runtime_error("expected " + wanted + " before: " + std::string(rest_));
    }
    bool at(char letter) {
        skip();
        return !rest_.empty() && rest_.front() == letter;
    }

    std::string name() {
        skip();
        std::size_t length = 0;
        while (length < rest_.size() &&
               (std::isalnum(static_cast<unsigned char>(rest_[length])) != 0 || rest_[length] == '.')) {
            ++length;
        }
        if (length == 0) fail("a name");
        std::string found(rest_.substr(0, length));
        rest_.remove_prefix(length);
        return found;
    }

    std::string text() {
        expect('"');
        std::string found;
        while (!rest_.empty()) {
            const char letter = rest_.front();
            rest_.remove_prefix(1);
            if (letter != '"') {
                found += letter;
            } else if (!rest_.empty() && rest_.front() == '"') {
                found += letter;
                rest_.remove_prefix(1);
            } else {
                return found;
            }
        }
        fail("a closing quote");
    }

    double number() {
        skip();
        double found = 0;
        const auto read = std::from_chars(rest_.data(), rest_.data() + rest_.size(), found);
        if (read.ec != std::errc{}) fail("a number");
        rest_.remove_prefix(static_cast<std::size_t>(read.ptr - rest_.data()));
        if (take('%')) found /= 100;
        return found;
    }

    double term() {
        skip();
        if (rest_.empty() || std::isalpha(static_cast<unsigned char>(rest_.front())) == 0) return number();
        const std::string function = name();
        expect('(');
        const double first = number();
        expect(';');
        const double second = number();
        expect(';');
        const double third = number();
        expect(')');
        if (function == "TIME") return (first + second / 60 + third / 3600) / 24;
        if (function != "DATE") fail("DATE or TIME");
        const Day day{std::chrono::year{static_cast<int>(first)} / static_cast<int>(second) / static_cast<int>(third)};
        return catalogue::serial_of(day, usual_null_date());
    }

    double sum() {
        double found = term();
        while (take('+')) found += term();
        return found;
    }

    Cell cell() {
        if (at('"')) {
            std::string found = text();
            if (found.empty()) return {};
            return found;
        }
        return sum();
    }

    Table array() {
        expect('{');
        Table table;
        std::size_t in_row = 0;
        for (;;) {
            table.cells.push_back(cell());
            ++in_row;
            if (take(';')) continue;
            if (table.columns != 0 && in_row != table.columns) fail("rows of equal length");
            table.columns = in_row;
            in_row = 0;
            if (take('}')) return table;
            expect('|');
        }
    }

    Value value() {
        if (at(';') || at(')')) return {};
        if (at('{')) return array();
        if (at('"')) return text();
        return sum();
    }

    std::string_view rest_;
};

}  // namespace

Day usual_null_date() { return iso("1899-12-30"); }

Call parse(std::string_view formula) {
    if (!formula.empty() && formula.front() == '=') formula.remove_prefix(1);
    return Reader(formula).call();
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

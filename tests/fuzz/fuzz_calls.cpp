// Calls every function of the catalogue with arbitrary arguments. Whatever they are, the call answers with finite
// numbers and a rectangular table, or refuses with a sentence that begins with one of the function's own arguments, in
// bounded time; and WHY of the same arguments agrees.

#include <algorithm>
#include <ctime>

#include "arbitrary.hpp"
#include "catalogue/support.hpp"

namespace slipbark::fuzz {
namespace {

using namespace catalogue;

const std::vector<const FunctionEntry*>& entries() {
    static const std::vector<const FunctionEntry*> all = [] {
        std::vector<const FunctionEntry*> made;
        for (const Area& area : areas()) {
            for (const FunctionEntry& entry : area.entries) made.push_back(&entry);
        }
        return made;
    }();
    return all;
}

void check_number(const FunctionEntry& entry, double number) {
    if (!std::isfinite(number)) found(entry.cell_name() + " gives " + std::to_string(number));
    if (number == 0 && std::signbit(number)) found(entry.cell_name() + " gives -0");
}

void check_outcome(const FunctionEntry& entry, const Outcome& outcome) {
    if (const auto* number = std::get_if<double>(&outcome)) check_number(entry, *number);
    if (std::holds_alternative<std::monostate>(outcome) && entry.texts.no_answer.empty()) {
        found(entry.cell_name() + " has no answer and no sentence for it");
    }
    if (const auto* table = std::get_if<Table>(&outcome)) {
        if (table->columns == 0 || table->cells.empty() || table->cells.size() % table->columns != 0) {
            found(entry.cell_name() + " gives a table without a shape");
        }
        for (const Cell& cell : table->cells) {
            if (const auto* number = std::get_if<double>(&cell)) check_number(entry, *number);
            if (std::holds_alternative<Day>(cell)) found(entry.cell_name() + " gives a day that no cell can hold");
        }
    }
}

void check_refusal(const FunctionEntry& entry, const bad_argument& bad) {
    const bool named = bad.argument() == "arguments" ||
                       std::any_of(entry.arguments.begin(), entry.arguments.end(),
                                   [&](const Argument& argument) { return argument.name == bad.argument(); });
    const std::string_view what = bad.what();
    if (!named || !what.starts_with(bad.argument()) || what.find(": give ") == std::string_view::npos) {
        found(entry.cell_name() + " refuses with: " + std::string(what));
    }
}

}  // namespace
}  // namespace slipbark::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace slipbark;
    using namespace slipbark::fuzz;
    Bytes bytes(data, size);
    const auto& entry = *entries()[bytes.ConsumeIntegralInRange<std::size_t>(0, entries().size() - 1)];
    catalogue::Arguments arguments{{}, null_date(bytes)};
    for (const catalogue::Parameter& parameter : entry.parameters) {
        if (bytes.remaining_bytes() == 0) break;
        const int count = parameter.kind == catalogue::Kind::rest ? bytes.ConsumeIntegralInRange(0, 6) : 1;
        for (int at = 0; at < count; ++at) arguments.values.push_back(value(bytes, parameter.kind));
    }
    if (bytes.ConsumeIntegralInRange(0, 30) == 0) arguments.values.push_back(number(bytes));

    const std::clock_t start = std::clock();
    bool refused = false;
    bool answered = false;
    try {
        const auto outcome = entry.call(arguments);
        answered = !std::holds_alternative<std::monostate>(outcome);
        check_outcome(entry, outcome);
    } catch (const bad_argument& bad) {
        refused = true;
        check_refusal(entry, bad);
    } catch (const std::exception& other) {
        found(entry.cell_name() + " throws " + other.what());
    }
    // Half a second of the processor's time with the sanitizers in it; the benchmarks measure the real cost.
    if (std::clock() - start > CLOCKS_PER_SEC / 2) found(entry.cell_name() + " takes too long");
    if (entry.method != "why") {
        const std::string why = catalogue::why(std::string(entry.method), arguments);
        if (why.empty() != answered) found(entry.cell_name() + " and WHY disagree: " + why);
        if (refused && why == entry.texts.no_answer.english())
            found(entry.cell_name() + " refuses as if it had no answer");
    }
    return 0;
}

#include "right_call.hpp"

#include <algorithm>
#include <stdexcept>

#include "catalogue/explain.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::tests {

namespace {

std::string quoted(std::string_view text) {
    std::string made = "\"";
    for (const char letter : text) made.append(letter == '"' ? 2 : 1, letter);
    return made + "\"";
}

std::string inline_array(const Table& table) {
    std::string made;
    for (std::size_t at = 0; at < table.cells.size(); ++at) {
        made += at == 0 ? "{" : at % table.columns == 0 ? "|" : ";";
        const Cell& cell = table.cells[at];
        if (const auto* number = std::get_if<double>(&cell)) made += to_text(*number);
        if (const auto* text = std::get_if<std::string>(&cell)) made += quoted(*text);
    }
    return made + "}";
}

std::string literal_of(const catalogue::FunctionEntry& entry, const catalogue::Argument& argument) {
    if (!argument.sample.empty()) return std::string(argument.sample);
    if (const auto* number = std::get_if<double>(&argument.absent)) return to_text(*number);
    if (const auto* word = std::get_if<std::string_view>(&argument.absent)) return quoted(*word);
    if (const auto* table = std::get_if<catalogue::BuiltIn>(&argument.absent)) {
        return inline_array(defaults::table(std::string(table->table)));
    }
    throw std::logic_error(entry.cell_name() + " has no value to try " + std::string(argument.name) + " with");
}

}  // namespace

bool takes_anything(const catalogue::FunctionEntry& entry) {
    return std::any_of(entry.arguments.begin(), entry.arguments.end(), [](const catalogue::Argument& argument) {
        return argument.range.of == catalogue::Domain::Of::as_given;
    });
}

std::string right_call(const catalogue::FunctionEntry& entry) {
    std::string call(entry.texts.example);
    const auto found = catalogue::find_call(call);
    if (!found) throw std::logic_error(call + " is no call");
    call.pop_back();
    for (std::size_t at = found->arguments.size(); at < entry.arguments.size(); ++at) {
        call += (at == 0 ? "" : "; ") + literal_of(entry, entry.arguments[at]);
    }
    return call + ")";
}

}  // namespace slipbark::tests

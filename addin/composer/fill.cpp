#include "composer/fill.hpp"

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include "catalogue/formula.hpp"
#include "composer/cells.hpp"

namespace slipbark::compose {

namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::string moved_column(std::string_view letters, int columns) {
    const int column = Address(letters, 1).column + columns;
    if (column < 1) throw std::logic_error("a column left of A");
    const std::string text = Address(column, 1).text();
    return text.substr(0, text.size() - 1);
}

std::string moved_row(std::string_view digits, int rows) {
    const int row = std::stoi(std::string(digits)) + rows;
    if (row < 1) throw std::logic_error("a row above the first");
    return std::to_string(row);
}

/// "C5", "$C5", "A" or "1"
std::string moved(std::string_view address, int columns, int rows) {
    std::string made;
    while (!address.empty()) {
        const bool fixed = address.front() == '$';
        if (fixed) address.remove_prefix(1);
        const bool digits = !address.empty() && is_digit(address.front());
        const auto* const end =
            std::find_if(address.begin(), address.end(), [&](char c) { return c == '$' || is_digit(c) != digits; });
        const auto length = static_cast<std::size_t>(end - address.begin());
        if (length == 0) throw std::logic_error("no address");
        const std::string_view part = address.substr(0, length);
        address.remove_prefix(length);
        if (fixed) {
            made.append("$").append(part);
        } else {
            made += digits ? moved_row(part, rows) : moved_column(part, columns);
        }
    }
    return made;
}

}  // namespace

std::string shifted(const std::string& formula, int columns, int rows) {
    if (columns == 0 && rows == 0) return formula;
    return catalogue::rewritten(formula, [&](const catalogue::Token& token) {
        std::string text(token.text);
        if (token.part != catalogue::Part::reference) return text;
        const auto found = catalogue::reference(token.text);
        if (!found) return text;
        // Both addresses are parts of the token; what stands around them, such as a sheet's name, stays.
        std::string made;
        const char* from = token.text.data();
        const auto take = [&](std::string_view address) {
            made.append(from, address.data()).append(moved(address, columns, rows));
            from = address.data() + address.size();
        };
        take(found->first.address);
        if (found->last) take(found->last->address);
        made.append(from, token.text.data() + token.text.size());
        return made;
    });
}

}  // namespace slipbark::compose

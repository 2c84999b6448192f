#include "catalogue/formula.hpp"

#include <algorithm>
#include <boost/algorithm/string/predicate.hpp>
#include <charconv>
#include <stdexcept>
#include <utility>

#include "catalogue/entry.hpp"

namespace slipbark::catalogue {

namespace {

bool is_blank_letter(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
/// Names may hold any letter of any language, and no letter beyond ASCII is an operator.
bool in_word(char c) {
    return is_letter(c) || is_digit(c) || c == '_' || c == '.' || c == '$' || static_cast<unsigned char>(c) >= 0x80;
}

template <class Wanted>
std::size_t run(std::string_view text, Wanted wanted) {
    return static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), wanted) - text.begin());
}

bool is_called(std::string_view after) { return after.substr(run(after, is_blank_letter)).starts_with('('); }

/// The place past the quote that closes the one at the beginning; npos where none does.
std::size_t past_quote(std::string_view text) {
    for (auto at = text.find(text.front(), 1); at != std::string_view::npos; at = text.find(text.front(), at + 2)) {
        if (at + 1 == text.size() || text[at + 1] != text.front()) return at + 1;
    }
    return std::string_view::npos;
}

enum class Shape { none, cell, column, row };

Shape shape_of(std::string_view address) {
    const auto take = [&](auto wanted) {
        const std::size_t fixed = address.size() > 1 && address.front() == '$' && wanted(address[1]) ? 1 : 0;
        const std::size_t count = run(address.substr(fixed), wanted);
        address.remove_prefix(fixed + count);
        return count;
    };
    const std::size_t letters = take(is_letter);
    const std::size_t digits = take(is_digit);
    if (!address.empty() || letters > 3 || digits > 7 || letters + digits == 0) return Shape::none;
    if (letters == 0) return Shape::row;
    return digits == 0 ? Shape::column : Shape::cell;
}

/// One end of a reference at the beginning of a text.
struct End {
    Reference::End end;
    Shape shape = Shape::none;
    std::size_t length = 0;
};

End end_at(std::string_view text) {
    const std::size_t fixed = text.starts_with('$') ? 1 : 0;
    std::size_t quoted = 0;
    if (text.substr(fixed).starts_with('\'')) {
        quoted = past_quote(text.substr(fixed));
        if (quoted == std::string_view::npos) return {};
        quoted += fixed;
    }
    const std::string_view word = text.substr(quoted, run(text.substr(quoted), in_word));
    const auto dot = word.rfind('.');
    if (quoted > 0 && dot != 0) return {};
    End found;
    if (dot != std::string_view::npos) {
        found.end.sheet = text.substr(fixed, std::max(quoted + dot, fixed) - fixed);
        if (!found.end.sheet.empty() && is_digit(found.end.sheet.front())) return {};  // 1.5
    }
    found.end.address = word.substr(dot + 1);  // all of it where there is no dot
    found.length = quoted + word.size();
    if (!is_called(text.substr(found.length))) found.shape = shape_of(found.end.address);
    return found;
}

/// The reference at the beginning of a text, and its length; 0 where there is none.
std::pair<Reference, std::size_t> reference_at(std::string_view text) {
    const End first = end_at(text);
    if (first.shape == Shape::none) return {};
    if (text.substr(first.length).starts_with(':')) {
        const End last = end_at(text.substr(first.length + 1));
        if (last.shape == first.shape) return {{first.end, last.end}, first.length + 1 + last.length};
    }
    if (first.shape != Shape::cell) return {};
    return {{first.end, {}}, first.length};
}

/// What the text begins with, and how long it is.
std::pair<Part, std::size_t> next(std::string_view text) {
    const char first = text.front();
    const auto ended = [&](Part part, std::size_t length) {
        return length == std::string_view::npos ? std::pair(Part::broken, text.size()) : std::pair(part, length);
    };
    if (is_blank_letter(first)) return {Part::blank, run(text, is_blank_letter)};
    if (first == '"') return ended(Part::text, past_quote(text));
    if (first == '[') {
        std::size_t at = 1;
        while (at < text.size() && text[at] != ']') {
            const std::size_t quoted = text[at] == '\'' ? past_quote(text.substr(at)) : 1;
            at = quoted == std::string_view::npos ? text.size() : at + quoted;
        }
        return ended(Part::reference, at < text.size() ? at + 1 : std::string_view::npos);
    }
    if (text.starts_with("#N/A")) return {Part::error, 4};
    if (first == '#') {
        const std::size_t length = 1 + run(text.substr(1), [](char c) { return in_word(c) || c == '/'; });
        const bool known = length < text.size() && (text[length] == '!' || text[length] == '?');
        return known ? std::pair(Part::error, length + 1) : std::pair(Part::broken, length);
    }
    if (const auto [found, length] = reference_at(text); length > 0) return {Part::reference, length};
    if (is_digit(first) || first == '.') {
        double ignored = 0;
        const auto* const end = std::from_chars(text.data(), text.data() + text.size(), ignored).ptr;
        const auto length = static_cast<std::size_t>(end - text.data());
        if (length > 0) {
            const std::size_t more = run(text.substr(length), in_word);  // 1A is neither number nor name
            return {more > 0 ? Part::broken : Part::number, length + more};
        }
    }
    if (first == '\'') {  // a name of another sheet
        const std::size_t quoted = past_quote(text);
        if (quoted == std::string_view::npos) return {Part::broken, text.size()};
        return {Part::name, quoted + run(text.substr(quoted), in_word)};
    }
    if (in_word(first)) {
        const std::size_t length = run(text, in_word);
        return {is_called(text.substr(length)) ? Part::function : Part::name, length};
    }
    if (first == '(' || first == '{') return {Part::open, 1};
    if (first == ')' || first == '}') return {Part::close, 1};
    constexpr std::string_view operators = "+-*/^&=<>%:~!;|";
    return {operators.find(first) == std::string_view::npos ? Part::broken : Part::operation, 1};
}

Tokens trimmed(Tokens part) {
    while (!part.empty() && part.front().part == Part::blank) part = part.subspan(1);
    while (!part.empty() && part.back().part == Part::blank) part = part.first(part.size() - 1);
    return part;
}

/// The place of the bracket that closes the one at `open`; the end where it lies outside of `part`.
std::size_t closing(Tokens part, std::size_t open) {
    while (++open < part.size()) {
        if (part[open].part == Part::close && part[open].depth <= part.front().depth) break;
    }
    return open;
}

std::string in_file(std::string_view function) {
    const std::string_view own = own_name(function);
    return own.empty() ? std::string(function) : std::string(file_prefix).append(own);
}

}  // namespace

std::vector<Token> tokens(std::string_view formula) {
    std::vector<Token> made;
    std::vector<std::size_t> open;
    while (!formula.empty()) {
        auto [part, length] = next(formula);
        const std::string_view text = formula.substr(0, length);
        if (part == Part::close) {
            if (!open.empty() && made[open.back()].text == (text == ")" ? "(" : "{")) {
                open.pop_back();
            } else {
                part = Part::broken;
            }
        }
        made.push_back({part, text, open.size()});
        if (part == Part::open) open.push_back(made.size() - 1);
        formula.remove_prefix(length);
    }
    for (const std::size_t at : open) made[at].part = Part::broken;
    return made;
}

std::string_view written(Tokens part) {
    if (part.empty()) return {};
    const char* const end = part.back().text.data() + part.back().text.size();
    return {part.front().text.data(), static_cast<std::size_t>(end - part.front().text.data())};
}

std::vector<Tokens> split(Tokens part, std::string_view mark) {
    std::vector<Tokens> parts;
    std::size_t from = 0;
    for (std::size_t at = 0; at < part.size(); ++at) {
        if (part[at].text != mark || part[at].depth != part.front().depth) continue;
        parts.push_back(trimmed(part.subspan(from, at - from)));
        from = at + 1;
    }
    parts.push_back(trimmed(part.subspan(from)));
    return parts;
}

std::optional<Call> call(Tokens from) {
    if (from.empty() || from.front().part != Part::function) return std::nullopt;
    const std::size_t open = from.size() > 1 && from[1].part == Part::blank ? 2 : 1;
    const std::size_t close = closing(from, open);
    if (close >= from.size() || from[open].part != Part::open) return std::nullopt;
    auto arguments = split(from.subspan(open + 1, close - open - 1), ";");
    if (arguments.size() == 1 && arguments[0].empty()) arguments.clear();
    return Call{from.front().text, std::move(arguments), trimmed(from.subspan(close + 1))};
}

std::vector<std::vector<Tokens>> array_rows(Tokens part) {
    if (part.empty() || part.front().text != "{" || closing(part, 0) != part.size() - 1) return {};
    std::vector<std::vector<Tokens>> rows;
    for (const Tokens row : split(part.subspan(1, part.size() - 2), "|")) rows.push_back(split(row, ";"));
    return rows;
}

std::optional<Value> literal(Tokens part) {
    if (part.empty()) return Value{};
    if (const auto rows = array_rows(part); !rows.empty()) {
        Table table;
        table.columns = rows[0].size();
        for (const auto& row : rows) {
            if (row.size() != table.columns) return std::nullopt;
            for (const Tokens one : row) {
                const auto value = literal(one);
                if (!value || std::holds_alternative<Table>(*value)) return std::nullopt;
                Cell cell;  // an empty text in a block is a blank cell, as it is in a range
                if (const auto* number = std::get_if<double>(&*value)) cell = *number;
                if (const auto* text = std::get_if<std::string>(&*value); text != nullptr && !text->empty())
                    cell = *text;
                table.cells.push_back(std::move(cell));
            }
        }
        return table;
    }
    if (part.size() == 1 && part[0].part == Part::text) return unquoted(part[0].text);
    const bool minus = part[0].text == "-";
    if (minus) part = part.subspan(1);
    const bool per_cent = part.size() == 2 && part[1].text == "%";
    if (part.size() != (per_cent ? 2U : 1U) || part[0].part != Part::number) return std::nullopt;
    double number = 0;
    const std::string_view text = part[0].text;
    if (std::from_chars(text.data(), text.data() + text.size(), number).ec != std::errc{}) return std::nullopt;
    if (minus) number = -number;
    return per_cent ? number / 100 : number;
}

std::optional<Value> literal(std::string_view text) { return literal(trimmed(tokens(text))); }

std::string unquoted(std::string_view text) {
    if (text.empty() || (text.front() != '"' && text.front() != '\'')) return std::string(text);
    std::string plain;
    for (std::size_t at = 1; at + 1 < text.size(); ++at) {
        plain += text[at];
        if (text[at] == text.front()) ++at;
    }
    return plain;
}

std::optional<Reference> reference(std::string_view text) {
    if (text.starts_with('[') && text.ends_with(']')) text = text.substr(1, text.size() - 2);
    const auto [found, length] = reference_at(text);
    if (length == 0 || length != text.size()) return std::nullopt;
    return found;
}

std::string_view own_name(std::string_view function) {
    for (const std::string_view prefix : {cell_prefix, file_prefix}) {
        if (boost::algorithm::istarts_with(function, prefix, std::locale::classic())) {
            return function.substr(prefix.size());
        }
    }
    return {};
}

std::optional<FoundCall> find_call(std::string_view formula) {
    const auto all = tokens(formula);
    for (std::size_t at = 0; at < all.size(); ++at) {
        const std::string_view own = all[at].part == Part::function ? own_name(all[at].text) : std::string_view();
        const FunctionEntry* const entry = own.empty() ? nullptr : find(own);
        if (entry == nullptr) continue;
        const auto found = call(Tokens(all).subspan(at));
        if (!found) return std::nullopt;
        FoundCall made{entry, {}};
        for (const Tokens argument : found->arguments) made.arguments.emplace_back(written(argument));
        return made;
    }
    return std::nullopt;
}

std::string rewritten(std::string_view formula, const std::function<std::string(const Token&)>& write) {
    std::string made;
    for (const Token& token : tokens(formula)) made += write(token);
    return made;
}

std::string with_service(std::string_view formula) {
    return rewritten(formula, [](const Token& token) {
        return token.part == Part::function ? in_file(token.text) : std::string(token.text);
    });
}

std::string stored_formula(std::string_view typed, const std::function<std::string(const std::string&)>& named) {
    if (typed.starts_with('=')) typed.remove_prefix(1);
    const auto stored = [](const Reference::End& end) {
        return (end.sheet.empty() ? "." : "$" + std::string(end.sheet) + ".").append(end.address);
    };
    return rewritten(typed, [&](const Token& token) -> std::string {
        std::string text(token.text);
        if (token.part == Part::broken) throw std::logic_error("a formula cannot be read at " + text);
        if (token.part == Part::function) return in_file(text);
        if (token.part == Part::name) return named(text);
        if (token.part != Part::reference || text.starts_with('[')) return text;
        const auto found = reference(token.text).value();
        return "[" + stored(found.first) + (found.last ? ":" + stored(*found.last) : "") + "]";
    });
}

}  // namespace slipbark::catalogue

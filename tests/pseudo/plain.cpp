#include "plain.hpp"

#include <algorithm>
#include <boost/algorithm/string/replace.hpp>
#include <set>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"

namespace slipbark::tests {

namespace {

bool is_plain_letter(char letter) { return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z'); }

bool is_of_word(char letter) {
    return is_plain_letter(letter) || (letter >= '0' && letter <= '9') || letter == '_' || letter == '.';
}

bool is_function(std::string_view word) {
    static const std::set<std::string, std::less<>> names = [] {
        std::set<std::string, std::less<>> all;
        for (const auto& area : catalogue::areas()) {
            for (const auto& entry : area.entries) {
                all.insert(entry.cell_name());
                all.insert(entry.cell_name().substr(catalogue::cell_prefix.size()));
            }
        }
        return all;
    }();
    return names.contains(word);
}

bool has_argument(const catalogue::FunctionEntry& entry, std::string_view word) {
    return std::any_of(entry.arguments.begin(), entry.arguments.end(),
                       [&](const auto& one) { return one.name == word; });
}

bool is_argument(std::string_view word) {
    const auto& areas = catalogue::areas();
    return std::any_of(areas.begin(), areas.end(), [&](const auto& area) {
        return std::any_of(area.entries.begin(), area.entries.end(),
                           [&](const auto& entry) { return has_argument(entry, word); });
    });
}

bool is_name(std::string_view word, const catalogue::FunctionEntry* entry) {
    // 1e+300, of which the sign ends the word.
    static constexpr std::string_view digits = "0123456789.";
    const auto rest = word.find_first_not_of(digits);
    if (rest != 0 && (rest == std::string_view::npos || word[rest] == 'e' || word[rest] == 'E') &&
        word.find_first_not_of(digits, std::min(rest, word.size() - 1) + 1) == std::string_view::npos) {
        return true;
    }
    if (word.ends_with('.')) word.remove_suffix(1);
    // What all of them together are called.
    if (word == "arguments") return true;
    // A cell's address.
    if (word.size() > 1 && word[0] >= 'A' && word[0] <= 'Z' &&
        word.find_first_not_of("0123456789", 1) == std::string_view::npos) {
        return true;
    }
    return is_function(word) || (entry == nullptr ? is_argument(word) : has_argument(*entry, word));
}

/// The plain words of a text that are not names, nor in quotes or in a place.
std::string plain_words(std::string_view text, const catalogue::FunctionEntry* entry) {
    std::string found;
    std::size_t at = 0;
    while (at < text.size()) {
        std::size_t end = at + 1;
        const auto format = text[at] == '{' ? text.find_first_not_of("0123456789", end) : std::string_view::npos;
        if (format != std::string_view::npos && format > end && text[format] == ':') {
            end = std::min(text.find('}', format), text.size() - 1) + 1;  // a place with its format, {1:count}
        } else if (text[at] == '"') {
            end = std::min(text.find('"', end), text.size() - 1) + 1;
        } else if (is_of_word(text[at])) {
            while (end < text.size() && is_of_word(text[end])) ++end;
            const std::string_view word = text.substr(at, end - at);
            if (std::any_of(word.begin(), word.end(), is_plain_letter) && !is_name(word, entry)) {
                found.append(" ").append(word);
            }
        }
        at = end;
    }
    return found;
}

}  // namespace

testing::AssertionResult is_accented(std::string text, const catalogue::FunctionEntry* entry,
                                     const std::vector<std::string_view>& known) {
    for (const std::string_view one : known) boost::replace_all(text, std::string(one), "");
    const std::string words = plain_words(text, entry);
    if (words.empty()) return testing::AssertionSuccess();
    return testing::AssertionFailure() << text << "\nplain:" << words;
}

}  // namespace slipbark::tests

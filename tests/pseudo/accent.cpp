// Makes a language of nobody out of the texts to be translated: each letter with an accent, so that a text which
// reaches the user past the translations stands out by its plain letters. Reads a .pot from its input, writes a .po.
//
// Markup of the guide, <tags> and &entities; and what stands in <code> and <kbd>, is left as it is, and so are the
// places.

#include <cctype>
#include <iostream>
#include <string>
#include <string_view>
#include <utility>

namespace {

std::string accented(char letter) {
    constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
    static const std::string_view with_accent[]{"Á", "Ḃ", "Ć", "Ḋ", "É", "Ḟ", "Ǵ", "Ḣ", "Í", "Ĵ", "Ḱ", "Ĺ", "Ḿ",
                                                "Ń", "Ó", "Ṕ", "Ɋ", "Ŕ", "Ś", "Ṫ", "Ú", "Ṽ", "Ẃ", "Ẋ", "Ý", "Ź",
                                                "á", "ḃ", "ć", "ḋ", "é", "ḟ", "ǵ", "ḣ", "í", "ĵ", "ḱ", "ĺ", "ḿ",
                                                "ń", "ó", "ṕ", "ɋ", "ŕ", "ś", "ṫ", "ú", "ṽ", "ẃ", "ẋ", "ý", "ź"};
    const auto at = plain.find(letter);
    return at == std::string_view::npos ? std::string(1, letter) : std::string(with_accent[at]);
}

/// Where what begins at `at` ends and is to be left alone; `at` where nothing is.
std::size_t end_of_markup(std::string_view text, std::size_t at) {
    // A place with its format, {1:count}.
    if (text[at] == '{') {
        const auto end = text.find_first_not_of("0123456789", at + 1);
        if (end == std::string_view::npos || end == at + 1 || text[end] != ':') return at;
        const auto close = text.find('}', end);
        return close == std::string_view::npos ? at : close + 1;
    }
    for (const auto& [open, close] : {std::pair("<code>", "</code>"), std::pair("<kbd>", "</kbd>")}) {
        if (!text.substr(at).starts_with(open)) continue;
        const auto end = text.find(close, at);
        if (end != std::string_view::npos) return end + std::string_view(close).size();
    }
    const bool letter_follows = at + 1 < text.size() && (std::isalpha(static_cast<unsigned char>(text[at + 1])) != 0 ||
                                                         text[at + 1] == '/' || text[at + 1] == '#');
    if (!letter_follows || (text[at] != '<' && text[at] != '&')) return text[at] == '\\' ? at + 2 : at;
    const auto end = text.find(text[at] == '<' ? '>' : ';', at);
    return end == std::string_view::npos ? at : end + 1;
}

std::string translation(std::string_view text) {
    std::string whole;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = end_of_markup(text, at);
        if (end == at) {
            whole += accented(text[at++]);
        } else {
            whole += text.substr(at, end - at);
            at = end;
        }
    }
    return whole;
}

/// What stands between the quotes of a line.
std::string quoted(const std::string& line) {
    const auto first = line.find('"') + 1;
    return line.substr(first, line.rfind('"') - first);
}

}  // namespace

int main() {
    std::string line;
    std::string text;
    bool reading = false;  // whether the text's further lines come now
    bool is_header = true;
    while (std::getline(std::cin, line)) {
        if (line.starts_with("msgid ")) {
            reading = true;
            text = quoted(line);
        } else if (line.starts_with("msgstr")) {
            reading = false;
            if (!is_header) line = line.substr(0, line.find('"')) + "\"" + translation(text) + "\"";
            is_header = false;
        } else if (reading && line.starts_with('"')) {
            text += quoted(line);
        }
        for (const auto& [unknown, known] :
             {std::pair("charset=CHARSET", "charset=UTF-8"), std::pair("nplurals=INTEGER", "nplurals=2"),
              std::pair("plural=EXPRESSION", "plural=(n != 1)")}) {
            const auto at = line.find(unknown);
            if (at != std::string::npos) line.replace(at, std::string_view(unknown).size(), known);
        }
        std::cout << line << "\n";
    }
}

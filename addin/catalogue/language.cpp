#include "catalogue/language.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdint>

#include "catalogue/formats.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::catalogue {

namespace {

/// A number of a .mo file (GNU gettext manual, "The Format of GNU MO Files"); msgfmt --endianness=little wrote it.
std::uint32_t number_at(std::string_view file, std::size_t at) {
    std::uint32_t number = 0;
    for (std::size_t byte = 4; byte-- > 0;) number = number << 8U | static_cast<unsigned char>(file[at + byte]);
    return number;
}

/// The text at `index` of the table of texts that begins at `table`.
std::string_view text_at(std::string_view file, std::size_t table, std::size_t index) {
    return file.substr(number_at(file, table + 8 * index + 4), number_at(file, table + 8 * index));
}

std::string with_sign(std::string number, const std::string& decimal_sign) {
    if (const auto point = number.find('.'); point != std::string::npos) number.replace(point, 1, decimal_sign);
    return number;
}

// Of the process, as the interface language is.
std::atomic<const Language*> chosen = nullptr;

}  // namespace

std::string_view Language::find(std::string_view english) const {
    if (messages_.empty()) return {};
    const std::size_t originals = number_at(messages_, 12);
    const std::size_t translations = number_at(messages_, 16);
    std::size_t first = 0;
    std::size_t end = number_at(messages_, 8);
    while (first < end) {
        const std::size_t middle = first + (end - first) / 2;
        std::string_view here = text_at(messages_, originals, middle);
        here = here.substr(0, here.find('\0'));  // behind it stands the plural
        if (here == english) return text_at(messages_, translations, middle);
        if (here < english) {
            first = middle + 1;
        } else {
            end = middle;
        }
    }
    return {};
}

std::string_view Language::found(Text text) const {
    // An empty text is the key of the file's own header.
    const std::string_view translation = text.empty() ? std::string_view() : find(text.english());
    return translation.empty() ? text.english() : translation;
}

std::string Language::translated(Text pattern, std::vector<MessageValue> places) const {
    for (MessageValue& place : places) {
        if (const auto* text = std::get_if<Text>(&place)) {
            place = translated(*text);
        } else if (const auto* number = std::get_if<double>(&place)) {
            const Text words = without_digits(*number);
            place = words.empty() ? with_sign(to_text(*number), decimal_sign()) : translated(words);
        }
    }
    return filled(found(pattern), places);
}

std::string Language::decimal_sign() const {
    const std::string half = translated(translatable("0.5"));
    return half.size() > 2 ? half.substr(1, half.size() - 2) : ".";
}

std::string Language::grouped(double number) const {
    std::string digits = to_text(number);
    // Other letters than digits: a fraction or a power of ten, which is left as it is.
    std::size_t first = digits.starts_with("-") ? 1 : 0;
    if (digits.find_first_not_of("0123456789", first) != std::string::npos || digits.size() - first <= 4) {
        return with_sign(digits, decimal_sign());
    }
    constexpr double trillion = 1e12;
    if (std::abs(number) >= trillion) {
        const std::size_t last = digits.find_last_not_of('0') + 1;
        const std::size_t noughts = digits.size() - last;
        return digits.substr(0, last) + "E" + std::to_string(noughts);
    }
    for (std::size_t at = digits.size() - 3; at > first && at < digits.size(); at -= 3) {
        digits.insert(at, thousands_sign());
    }
    return digits;
}

const Language& language_for(std::string_view tag) {
    const auto& all = languages();
    for (const std::string_view wanted : {tag, tag.substr(0, tag.find('-'))}) {
        const auto found =
            std::find_if(all.begin(), all.end(), [&](const Language& one) { return one.tag() == wanted; });
        if (found != all.end()) return *found;
    }
    return all.front();
}

const Language& menu_language() {
    const Language* language = chosen;
    return language == nullptr ? languages().front() : *language;
}

void speak(const Language& language) { chosen = &language; }

namespace {

/// English is what has no tag in its names.
std::string with_tag(const std::string& name, const Language& language, std::string_view tag) {
    return language.is_english() ? name : name + "-" + std::string(tag);
}

}  // namespace

// By the language of the messages' header: template-pt-BR for pt, which a Calc of Brazil looks for.
std::string template_folder(const Language& language) {
    std::string pack = of_header(language, "Language: ", '\n');
    std::ranges::replace(pack, '_', '-');
    return with_tag("template", language, pack.empty() ? language.tag() : pack);
}

std::string guide_file(const Language& language) { return with_tag("guide", language, language.tag()) + ".html"; }

}  // namespace slipbark::catalogue

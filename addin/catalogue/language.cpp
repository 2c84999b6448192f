#include "catalogue/language.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdint>

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

// Of the process, as the interface language is.
std::atomic<const Language*> chosen = nullptr;

}  // namespace

std::string_view Language::found(Text text) const {
    // An empty text is the key of the file's own header.
    if (messages_.empty() || text.empty()) return text.english();
    const std::size_t originals = number_at(messages_, 12);
    const std::size_t translations = number_at(messages_, 16);
    std::size_t first = 0;
    std::size_t end = number_at(messages_, 8);
    while (first < end) {
        const std::size_t middle = first + (end - first) / 2;
        const std::string_view here = text_at(messages_, originals, middle);
        if (here == text.english()) return text_at(messages_, translations, middle);
        if (here < text.english()) {
            first = middle + 1;
        } else {
            end = middle;
        }
    }
    return text.english();
}

std::string Language::translated(Text pattern, std::vector<Place> places) const {
    for (Place& place : places) {
        if (const auto* text = std::get_if<Text>(&place)) {
            place = translated(*text);
        } else if (const auto* number = std::get_if<double>(&place)) {
            if (const Text words = without_digits(*number); !words.empty()) place = translated(words);
        }
    }
    return filled(found(pattern), places);
}

std::string Language::grouped(double number) const {
    std::string digits = to_text(number);
    // Other letters than digits: a fraction or a power of ten, which is left as it is.
    std::size_t first = digits.starts_with("-") ? 1 : 0;
    if (digits.find_first_not_of("0123456789", first) != std::string::npos || digits.size() - first <= 4) return digits;
    constexpr double trillion = 1e12;
    if (std::abs(number) >= trillion) {
        const std::size_t last = digits.find_last_not_of('0') + 1;
        const std::size_t noughts = digits.size() - last;
        return digits.substr(0, last) + "E" + std::to_string(noughts);
    }
    for (std::size_t at = digits.size() - 3; at > first && at < digits.size(); at -= 3) {
        digits.insert(at, tag_ == "en" ? "," : "\u00a0");
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

const Language& spoken() {
    const Language* language = chosen;
    return language == nullptr ? languages().front() : *language;
}

void speak(const Language& language) { chosen = &language; }

std::string guide_file(const Language& language) {
    if (language.tag() == languages().front().tag()) return "guide.html";
    return "guide-" + std::string(language.tag()) + ".html";
}

}  // namespace slipbark::catalogue

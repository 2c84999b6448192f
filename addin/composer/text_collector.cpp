#include "composer/text_collector.hpp"

#include <algorithm>
#include <boost/algorithm/string/replace.hpp>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"

namespace slipbark::compose {

namespace {

bool is_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "WT-068", "REWORK.STICKS", "STICKS".
bool is_name(std::string_view text) {
    if (text.starts_with(catalogue::cell_prefix)) text.remove_prefix(catalogue::cell_prefix.size());
    const bool in_capitals = std::all_of(text.begin(), text.end(),
                                         [](char c) { return is_capital(c) || is_digit(c) || c == '-' || c == '.'; });
    if (!in_capitals) return false;
    return std::any_of(text.begin(), text.end(), is_digit) || catalogue::find(text) != nullptr;
}

}  // namespace

std::string TextCollector::translate(const std::string& english, const std::string& comment) {
    if (known_.insert(english).second) collected_.push_back({english, where_, file_, comment});
    const std::string_view found = language_.find(english);
    return std::string(found.empty() ? english : found);
}

std::string TextCollector::translate(Text pattern, const std::vector<std::string>& places) {
    return language_.translated(pattern, {places.begin(), places.end()});
}

Phrase::Phrase(Make make) : make_(std::move(make)) {
    TextCollector english{catalogue::Language()};
    english_ = make_(english);
}

std::string part(TextCollector& texts, const std::string& english) {
    if (!has_words(english)) return english;
    // "Year 3" is "Year {1}", whatever the year.
    const auto words = english.find_last_not_of("0123456789.");
    const bool numbered = english[words] == ' ' && words + 1 < english.size() && english.back() != '.' &&
                          english.find_first_of("0123456789") > words;
    if (!numbered) return texts.translate(english);
    const std::string number =
        boost::algorithm::replace_all_copy(english.substr(words + 1), ".", texts.language().decimal_sign());
    return boost::algorithm::replace_all_copy(texts.translate(english.substr(0, words + 1) + "{1}"), "{1}", number);
}

Phrase join_sentences(const Phrase& first, const Phrase& second) {
    return Phrase([=](TextCollector& texts) { return first.in(texts) + " " + second.in(texts); });
}

bool has_words(std::string_view text) {
    const auto* const word = std::adjacent_find(
        text.begin(), text.end(), [](char left, char right) { return is_letter(left) && is_letter(right); });
    return word != text.end() && !is_name(text);
}

}  // namespace slipbark::compose

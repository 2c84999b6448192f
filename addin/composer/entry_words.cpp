#include "composer/entry_words.hpp"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "composer/content.hpp"
#include "composer/speaker.hpp"
#include "composer/text.hpp"

namespace slipbark::compose {

namespace {

using Words = std::vector<std::string>;

std::logic_error wrong(std::string_view words, const std::string& right) {
    return std::logic_error("the entry \"" + std::string(words) + "\" cannot be read; right would be: " + right);
}

double number_at(const Words& words, std::size_t at, const std::string& right) {
    const auto number = at < words.size() ? read_number(words[at]) : std::nullopt;
    if (!number) throw std::logic_error("an entry lacks a number; right would be: " + right);
    return *number;
}

std::string joined(Words::const_iterator from, Words::const_iterator end) {
    std::string text;
    for (auto at = from; at != end; ++at) text += (at == from ? "" : " ") + *at;
    return text;
}

Validation read_number_entry(const Words& words) {
    static const std::string right = "number LOW HIGH UNIT, or number LOW HIGH UNIT or LOW HIGH UNIT";
    // A second range: "or" with two numbers behind it.
    for (auto at = words.begin() + 1; at + 2 < words.end(); ++at) {
        if (*at != "or" || !read_number(at[1]) || !read_number(at[2])) continue;
        const auto place = static_cast<std::size_t>(at - words.begin());
        return measured(
            {number_at(words, 1, right), number_at(words, 2, right), joined(words.begin() + 3, at)},
            {number_at(words, place + 1, right), number_at(words, place + 2, right), joined(at + 3, words.end())});
    }
    return number(number_at(words, 1, right), number_at(words, 2, right), joined(words.begin() + 3, words.end()));
}

Validation with_help(Validation made, const std::string& help) {
    if (!help.empty()) made.help = one_after_the_other(made.help, help);
    return made;
}

Validation read_date(const Words& words, std::string_view all) {
    if (words.size() == 1) return any_date;
    const auto from = words.size() == 3 ? compose::read_date(words[1]) : std::nullopt;
    const auto to = words.size() == 3 ? compose::read_date(words[2]) : std::nullopt;
    if (!from || !to) throw wrong(all, "date, or date 2000-01-01 2099-12-31");
    return day(*from, *to);
}

Validation read_listed(std::string_view area, const std::string& help) {
    const auto texts = bar_list(help);
    if (texts.size() != 2) throw std::logic_error("a listed entry needs its help and its refusal: HELP | REFUSAL");
    return {"of:cell-content-is-in-list([" + std::string(area) + "])", texts[0], texts[1]};
}

}  // namespace

EntryWords read_entry(std::string_view words, const std::string& help) {
    EntryWords made;
    constexpr std::string_view blank = " or blank";
    std::string_view all = words;
    if (all.ends_with(blank)) {
        made.or_blank = true;
        all.remove_suffix(blank.size());
    }
    const Words parts = words_of(all);
    const std::string kind = parts.empty() ? "" : parts[0];
    const auto after = [&](std::string_view start) { return all.substr(start.size()); };
    if (kind == "whole") {
        static const std::string right = "whole LOW HIGH UNIT";
        if (parts.size() < 4) throw wrong(words, right);
        made.validation = with_help(
            whole(number_at(parts, 1, right), number_at(parts, 2, right), joined(parts.begin() + 3, parts.end())),
            help);
    } else if (kind == "number") {
        if (parts.size() < 4) throw wrong(words, "number LOW HIGH UNIT");
        made.validation = with_help(read_number_entry(parts), help);
    } else if (kind == "share") {
        static const std::string right = "share LOW HIGH";
        if (parts.size() != 3) throw wrong(words, right);
        made.validation = with_help(share(number_at(parts, 1, right), number_at(parts, 2, right)), help);
    } else if (kind == "date") {
        made.validation = with_help(read_date(parts, words), help);
    } else if (all.starts_with("one of ")) {
        const auto choices = bar_list(std::string(after("one of ")));
        made.validation = with_help(one_of(choices), help);
    } else if (all.starts_with("listed ")) {
        made.validation = read_listed(after("listed "), help);
    } else if (all.starts_with("text ")) {
        made.validation = with_help(any_text(after("text ")), help);
    } else {
        throw wrong(words, "one of whole, number, share, date, one of, listed, text");
    }
    return made;
}

}  // namespace slipbark::compose

#include "composer/entry_words.hpp"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "catalogue/entry_kind.hpp"
#include "composer/content.hpp"
#include "composer/text.hpp"
#include "composer/text_collector.hpp"

namespace slipbark::compose {

namespace {

using Words = std::vector<std::string>;

std::logic_error wrong(std::string_view words, const std::string& right) {
    return std::logic_error("the entry \"" + std::string(words) + "\" cannot be read; right would be: " + right);
}

using EndAt = std::function<std::optional<End>(const std::string&)>;

/// What the words of one entry are read with.
struct Reading {
    const Words& words;
    std::string right;  ///< what the entry should look like
    const EndAt& end_at;

    [[nodiscard]] double number(std::size_t at) const {
        const auto number = at < words.size() ? read_number(words[at]) : std::nullopt;
        if (!number) throw std::logic_error("an entry lacks a number; right would be: " + right);
        return *number;
    }
    [[nodiscard]] End end(std::size_t at) const {
        if (at < words.size() && read_number(words[at])) return *read_number(words[at]);
        const auto end = at < words.size() ? end_at(words[at]) : std::nullopt;
        if (!end) throw std::logic_error("an entry lacks an end; right would be: " + right);
        return *end;
    }
};

std::string joined(Words::const_iterator from, Words::const_iterator end) {
    std::string text;
    for (auto at = from; at != end; ++at) text += (at == from ? "" : " ") + *at;
    return text;
}

Validation read_number_entry(const Reading& reading) {
    const Words& words = reading.words;
    // A second range: "or" with two numbers behind it.
    for (auto at = words.begin() + 1; at + 2 < words.end(); ++at) {
        if (*at != "or" || !read_number(at[1]) || !read_number(at[2])) continue;
        const auto place = static_cast<std::size_t>(at - words.begin());
        return measured({reading.number(1), reading.number(2), joined(words.begin() + 3, at)},
                        {reading.number(place + 1), reading.number(place + 2), joined(at + 3, words.end())});
    }
    return number(reading.end(1), reading.end(2), joined(words.begin() + 3, words.end()));
}

/// The help goes behind the entry's own, or takes its place and that of the refusal.
Validation with_help(Validation made, const std::string& help) {
    const auto texts = bar_list(help);
    if (texts.size() == 2) {
        made.help = texts[0];
        made.error = texts[1];
    } else if (!help.empty()) {
        made.help = join_sentences(made.help, help);
    }
    return made;
}

Validation read_date(const Words& words, std::string_view all) {
    if (words.size() == 1) return any_date;
    const auto from = words.size() == 3 ? compose::read_date(words[1]) : std::nullopt;
    const auto to = words.size() == 3 ? compose::read_date(words[2]) : std::nullopt;
    if (!from || !to) throw wrong(all, "date, or date 2000-01-01 2099-12-31");
    return day(*from, *to);
}

}  // namespace

EntryWords read_entry(std::string_view words, const std::string& help, const EndAt& end_at) {
    EntryWords made;
    constexpr std::string_view blank = " or blank";
    std::string_view all = words;
    if (all.ends_with(blank)) {
        made.or_blank = true;
        // Behind a comma it is a part of the unit's words.
        if (!all.ends_with("," + std::string(blank))) all.remove_suffix(blank.size());
    }
    const Words parts = words_of(all);
    const std::string kind = parts.empty() ? "" : parts[0];
    const auto after = [&](std::string_view start) { return std::string(all.substr(start.size())); };
    if (kind == "whole") {
        const Reading reading{parts, "whole LOW HIGH UNIT", end_at};
        if (parts.size() < 4) throw wrong(words, reading.right);
        made.validation = whole(reading.end(1), reading.end(2), joined(parts.begin() + 3, parts.end()));
    } else if (kind == "number") {
        const Reading reading{parts, "number LOW HIGH UNIT", end_at};
        if (parts.size() < 4) throw wrong(words, reading.right);
        made.validation = read_number_entry(reading);
    } else if (kind == "share") {
        const Reading reading{parts, "share LOW HIGH", end_at};
        if (parts.size() != 3) throw wrong(words, reading.right);
        made.validation = share(reading.number(1), reading.number(2));
    } else if (kind == "date") {
        made.validation = read_date(parts, words);
    } else if (all.starts_with("one of ")) {
        made.validation = one_of(bar_list(after("one of ")));
    } else if (all.starts_with("listed ")) {
        if (bar_list(help).size() != 2) throw wrong(words, "listed AREA, with HELP | REFUSAL in the column help");
        made.validation.condition = "of:cell-content-is-in-list([" + after("listed ") + "])";
    } else if (all.starts_with("text ")) {
        made.validation = any_text(after("text "));
    } else {
        throw wrong(words, "whole, number, share, date, one of, listed or text");
    }
    made.validation = with_help(std::move(made.validation), help);
    return made;
}

std::optional<std::string> kind_of(std::string_view words) {
    const Words parts = words_of(words);
    const std::string first = parts.empty() ? "" : parts[0];
    if (first == "listed" || first == "one") return std::nullopt;
    for (auto at = parts.begin(); at != parts.end(); ++at) {
        if (*at == "or" && at + 1 != parts.end() && read_number(at[1])) return std::nullopt;
    }
    auto kind = catalogue::read_entry(words);
    const auto is_name = [](const catalogue::EntryEnd& end) { return std::holds_alternative<std::string>(end); };
    if (is_name(kind.low) || is_name(kind.high)) return std::nullopt;
    if (kind.of == catalogue::EntryKind::Of::date && std::holds_alternative<std::monostate>(kind.low)) {
        using std::chrono::year;
        kind.low = Day{year{2000} / 1 / 1};
        kind.high = Day{year{2099} / 12 / 31};
    }
    constexpr std::chrono::year_month_day null_date = std::chrono::year{1899} / 12 / 30;
    std::string array;
    for (const Cell& cell : catalogue::entry_as_cells(kind, Day{null_date})) {
        array += array.empty() ? "{" : ";";
        if (const auto* number = std::get_if<double>(&cell)) {
            array += plain_number(*number);
        } else {
            const auto* text = std::get_if<std::string>(&cell);
            array += '"' + (text == nullptr ? "" : *text) + '"';
        }
    }
    return array + "}";
}

}  // namespace slipbark::compose

#include "catalogue/entry_kind.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "catalogue/arguments.hpp"
#include "catalogue/formats.hpp"
#include "slipbark/dates.hpp"
#include "support/checks.hpp"

namespace slipbark::catalogue {

namespace {

using Of = EntryKind::Of;

constexpr std::string_view or_blank = "or blank";
constexpr std::string_view between_choices = " | ";
constexpr std::array<std::pair<std::string_view, Of>, 6> words{{{"whole", Of::whole},
                                                                {"number", Of::number},
                                                                {"share", Of::share},
                                                                {"date", Of::date},
                                                                {"one of", Of::choice},
                                                                {"text", Of::text}}};

bool has_ends(Of of) { return of == Of::whole || of == Of::number || of == Of::share || of == Of::date; }

[[noreturn]] void unknown(std::string_view argument, std::string_view word) {
    throw bad_argument(argument,
                       translatable("{1} was \"{2}\": give one of whole, number, share, date, one of and text first."),
                       {std::string(word)});
}

std::vector<std::string> split_choices(std::string_view text) {
    std::vector<std::string> choices;
    while (true) {
        const auto at = text.find('|');
        if (const auto one = check::trimmed(text.substr(0, at)); !one.empty()) choices.emplace_back(one);
        if (at == std::string_view::npos) return choices;
        text.remove_prefix(at + 1);
    }
}

std::optional<double> number_in(std::string_view text) {
    double number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
    return number;
}

/// 2027-09-20
std::optional<Day> day_in(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = number_in(text.substr(0, 4));
    const auto month = number_in(text.substr(5, 2));
    const auto day = number_in(text.substr(8, 2));
    if (!year || !month || !day) return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year{static_cast<int>(*year)},
                                           std::chrono::month{static_cast<unsigned>(*month)},
                                           std::chrono::day{static_cast<unsigned>(*day)}};
    if (!date.ok()) return std::nullopt;
    return Day{date};
}

EntryEnd end_of(std::string_view text) {
    if (text.empty() || text == "-") return {};
    if (const auto number = number_in(text)) return *number;
    if (const auto day = day_in(text)) return *day;
    return std::string(text);
}

/// Takes the next word, or what is in quotes, from the front of `text`.
std::string_view take_word(std::string_view& text) {
    text = check::trimmed(text);
    const bool quoted = text.starts_with('"');
    const auto end = text.find(quoted ? '"' : ' ', quoted ? 1 : 0);
    const std::string_view word =
        text.substr(quoted ? 1 : 0, end == std::string_view::npos ? end : end - (quoted ? 1 : 0));
    text = end == std::string_view::npos ? std::string_view() : check::trimmed(text.substr(end + 1));
    return word;
}

EntryEnd end_from(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return end_of(check::trimmed(*text));
    return {};
}

std::string text_of(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return to_text(*number);
    if (const auto* text = std::get_if<std::string>(&cell)) return std::string(check::trimmed(*text));
    return {};
}

std::string end_text(const EntryEnd& end, Of of, const Language& language, Day null_date) {
    if (const auto* text = std::get_if<std::string>(&end)) return *text;
    if (const auto* day = std::get_if<Day>(&end)) return day_text(*day, language);
    const double number = std::get<double>(end);
    if (of == Of::date) return day_text(day_of("date", number, null_date), language);
    if (of == Of::share) return percent_text(number, language);
    return number == std::round(number) ? count_text(number, language) : number_text(number, language);
}

/// The phrases of a kind with ends: both, the low one, the high one, none.
std::array<Text, 4> phrases(Of of) {
    switch (of) {
        case Of::whole:
            return {translatable("a whole number from {1} to {2}"), translatable("a whole number, {1} or more"),
                    translatable("a whole number, at most {1}"), translatable("a whole number")};
        case Of::share:
            return {translatable("a share from {1} to {2}"), translatable("a share, {1} or more"),
                    translatable("a share, at most {1}"), translatable("a share in per cent")};
        case Of::date:
            return {translatable("a date from {1} to {2}"), translatable("a date, {1} or later"),
                    translatable("a date, {1} or earlier"), translatable("a date")};
        default:
            return {translatable("a number from {1} to {2}"), translatable("a number, {1} or more"),
                    translatable("a number, at most {1}"), translatable("a number")};
    }
}

}  // namespace

EntryKind read_entry(std::string_view given) {
    std::string_view left = check::trimmed(given);
    EntryKind kind;
    if (left.empty()) return kind;
    const auto* const word = std::find_if(words.begin(), words.end(), [&](const auto& one) {
        return left.starts_with(one.first) && (left.size() == one.first.size() || left[one.first.size()] == ' ');
    });
    if (word == words.end()) unknown("entry", left.substr(0, left.find(' ')));
    kind.of = word->second;
    left = check::trimmed(left.substr(word->first.size()));
    if (left == or_blank || left.ends_with(" or blank")) {
        kind.or_blank = true;
        left = check::trimmed(left.substr(0, left.size() - or_blank.size()));
    }
    if (has_ends(kind.of)) {
        kind.low = end_of(take_word(left));
        kind.high = end_of(take_word(left));
        kind.what = left;
    } else if (kind.of == Of::choice) {
        kind.choices = split_choices(left);
        if (kind.choices.empty()) {
            throw bad_argument("entry", translatable("{1} was one of nothing: give words with | between them."));
        }
    } else {
        kind.what = left;
    }
    return kind;
}

EntryKind entry_from_cells(std::string_view argument, std::span<const Cell> cells) {
    std::vector<Cell> fields(cells.begin(), cells.end());
    const auto blank = [](const Cell& cell) { return text_of(cell).empty(); };
    while (!fields.empty() && blank(fields.back())) fields.pop_back();
    EntryKind kind;
    if (fields.empty()) return kind;
    const std::string word = check::folded(text_of(fields.front()));
    const auto* const known =
        std::find_if(words.begin(), words.end(), [&](const auto& one) { return one.first == word; });
    if (known == words.end()) unknown(argument, word);
    kind.of = known->second;
    if (fields.size() > 1 && check::folded(text_of(fields.back())) == or_blank) {
        kind.or_blank = true;
        fields.pop_back();
    }
    const auto field = [&](std::size_t at) { return at < fields.size() ? fields[at] : Cell{}; };
    if (has_ends(kind.of)) {
        kind.low = end_from(field(1));
        kind.high = end_from(field(2));
        kind.what = text_of(field(3));
    } else if (kind.of == Of::choice) {
        kind.choices = split_choices(text_of(field(1)));
        if (kind.choices.empty()) {
            throw bad_argument(argument, translatable("{1} was one of nothing: give words with | between them."));
        }
    } else {
        kind.what = text_of(field(1));
    }
    return kind;
}

std::vector<Cell> entry_as_cells(const EntryKind& kind, Day null_date) {
    const auto* const word =
        std::find_if(words.begin(), words.end(), [&](const auto& one) { return one.second == kind.of; });
    if (word == words.end()) return {};
    std::vector<Cell> cells{std::string(word->first)};
    const auto end = [&](const EntryEnd& one) -> Cell {
        if (const auto* number = std::get_if<double>(&one)) return *number;
        if (const auto* day = std::get_if<Day>(&one)) return serial_of(*day, null_date);
        if (const auto* text = std::get_if<std::string>(&one)) return *text;
        return {};
    };
    const auto text = [](const std::string& one) { return one.empty() ? Cell{} : Cell{one}; };
    if (has_ends(kind.of)) {
        cells.push_back(end(kind.low));
        cells.push_back(end(kind.high));
        cells.push_back(text(kind.what));
    } else if (kind.of == Of::choice) {
        std::string all;
        for (const std::string& one : kind.choices) all.append(all.empty() ? "" : between_choices).append(one);
        cells.emplace_back(all);
    } else {
        cells.push_back(text(kind.what));
    }
    if (kind.or_blank) cells.emplace_back(std::string(or_blank));
    while (is_blank(cells.back())) cells.pop_back();
    return cells;
}

std::string right_entry(const EntryKind& kind, const Language& language, Day null_date) {
    if (kind.of == Of::choice) return choice_text(kind.choices, language);
    if (!has_ends(kind.of)) return kind.what.empty() ? language.translated(translatable("a text")) : kind.what;
    const auto [both, low_only, high_only, none] = phrases(kind.of);
    const bool low = !std::holds_alternative<std::monostate>(kind.low);
    const bool high = !std::holds_alternative<std::monostate>(kind.high);
    const auto end = [&](const EntryEnd& one) { return end_text(one, kind.of, language, null_date); };
    std::string phrase = low && high ? language.translated(both, {end(kind.low), end(kind.high)})
                         : low       ? language.translated(low_only, {end(kind.low)})
                         : high      ? language.translated(high_only, {end(kind.high)})
                                     : language.translated(none);
    if (kind.what.empty()) return phrase;
    return language.translated(translatable("{1} ({2})"), {phrase, kind.what});
}

}  // namespace slipbark::catalogue

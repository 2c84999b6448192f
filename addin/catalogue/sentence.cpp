#include "catalogue/sentence.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "catalogue/formats.hpp"
#include "support/checks.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::array<std::string_view, 6> formats{"", "count", "date", "money", "percent", "list"};

[[noreturn]] void bad_place(std::string_view place) {
    throw bad_argument("pattern",
                       translatable("{1} has \"{2}\": a place is a number in braces, alone or followed by :count, "
                                    ":date, :money, :percent or :list, or by |one form|another form."),
                       {std::string(place)});
}

bool is_blank_text(const Value& value) {
    const auto* text = std::get_if<std::string>(&value);
    return std::holds_alternative<std::monostate>(value) || (text != nullptr && text->empty());
}

/// The one cell of a range that is one cell; any other value as it is.
Value single(const Value& value) {
    const auto* table = std::get_if<Table>(&value);
    if (table == nullptr || table->cells.size() != 1 || table->blank_rows > 0) return value;
    const Cell& cell = table->cells.front();
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

std::string named(const PatternPlace& place) { return "{" + std::to_string(place.number) + "}"; }

double number_in(const PatternPlace& place, const Value& value) {
    if (const auto* number = std::get_if<double>(&value)) return *number;
    if (const auto* text = std::get_if<std::string>(&value)) {
        throw bad_argument("places", translatable("{1}: place {2} was the text \"{3}\": give a number."),
                           {named(place), *text});
    }
    throw bad_argument("places", translatable("{1}: place {2} was a range: give one cell."), {named(place)});
}

std::string list_in(const Value& value, const Language& language) {
    std::vector<std::string> items;
    const auto add = [&](const Cell& cell) {
        if (const auto* number = std::get_if<double>(&cell)) items.push_back(number_text(*number, language));
        if (const auto* text = std::get_if<std::string>(&cell); text != nullptr && !text->empty()) {
            items.push_back(*text);
        }
    };
    if (const auto* table = std::get_if<Table>(&value)) {
        std::for_each(table->cells.begin(), table->cells.end(), add);
    } else if (const auto* number = std::get_if<double>(&value)) {
        add(*number);
    } else if (const auto* text = std::get_if<std::string>(&value)) {
        add(*text);
    }
    return list_text(items, language);
}

std::string put_in(const PatternPlace& place, const Value& given, const Language& language, Day null_date) {
    if (place.format == "list") return list_in(given, language);
    const Value value = single(given);
    if (place.format == "|") {
        return is_blank_text(value) ? place.forms.back()
                                    : place.forms.at(plural_form(number_in(place, value), language));
    }
    if (is_blank_text(value)) return "";
    const auto* text = std::get_if<std::string>(&value);
    if (place.format.empty() && text != nullptr) return *text;
    const double number = number_in(place, value);
    if (place.format == "count") return count_text(number, language);
    if (place.format == "money") return money_text(number, language);
    if (place.format == "percent") return percent_text(number, language);
    if (place.format == "date") return day_text(day_of("places", number, null_date), language);
    return number_text(number, language);
}

PatternPlace place_in(std::string_view inside) {
    PatternPlace place;
    const auto read = std::from_chars(inside.data(), inside.data() + inside.size(), place.number);
    if (read.ec != std::errc{} || place.number == 0) bad_place(inside);
    std::string_view rest = inside.substr(static_cast<std::size_t>(read.ptr - inside.data()));
    if (rest.starts_with('|')) {
        place.format = "|";
        while (!rest.empty()) {
            rest.remove_prefix(1);
            const auto next = std::min(rest.find('|'), rest.size());
            place.forms.emplace_back(rest.substr(0, next));
            rest.remove_prefix(next);
        }
        return place;
    }
    if (!rest.empty() && !rest.starts_with(':')) bad_place(inside);
    place.format = rest.empty() ? "" : rest.substr(1);
    if ((!rest.empty() && place.format.empty()) || std::ranges::find(formats, place.format) == formats.end()) {
        bad_place(inside);
    }
    return place;
}

}  // namespace

std::vector<PatternPlace> places_of(std::string_view pattern) {
    std::vector<PatternPlace> places;
    for (std::size_t at = pattern.find('{'); at != std::string_view::npos; at = pattern.find('{', at)) {
        const auto close = pattern.find('}', at);
        if (close == std::string_view::npos) bad_place(pattern.substr(at));
        PatternPlace place = place_in(pattern.substr(at + 1, close - at - 1));
        place.from = at;
        place.end = at = close + 1;
        places.push_back(std::move(place));
    }
    return places;
}

TaggedPattern tagged(std::string_view pattern) {
    const auto colon = pattern.find(':');
    const auto tag = colon == std::string_view::npos ? std::string_view() : pattern.substr(0, colon);
    const auto& all = languages();
    const auto found = std::ranges::find_if(all, [&](const Language& one) { return one.tag() == tag; });
    if (found == all.end()) return {&all.front(), pattern};
    return {&*found, pattern.substr(colon + 1)};
}

std::string sentence(const std::string& pattern, const Arguments& places) {
    const auto [language, text] = tagged(pattern);
    const auto all = places_of(text);
    const std::size_t given = places.values.size();
    for (const PatternPlace& place : all) {
        if (place.number > given) {
            throw bad_argument("pattern", translatable("{1} has the place {2}, and {3} are given."),
                               {named(place), static_cast<double>(given)});
        }
        if (place.format == "|" && place.forms.size() != plural_forms(*language)) {
            throw bad_argument(
                "pattern", translatable("{1} has {2} forms in place {3}: give {4}."),
                {static_cast<double>(place.forms.size()), named(place), static_cast<double>(plural_forms(*language))});
        }
    }
    for (std::size_t number = 1; number <= given; ++number) {
        if (std::ranges::none_of(all, [&](const PatternPlace& place) { return place.number == number; })) {
            throw bad_argument("pattern", translatable("{1} does not use place {2}, which is given."),
                               {static_cast<double>(number)});
        }
    }
    std::string made;
    std::size_t from = 0;
    for (const PatternPlace& place : all) {
        made.append(text.substr(from, place.from - from));
        made.append(put_in(place, places.values[place.number - 1], *language, places.null_date));
        from = place.end;
    }
    return made.append(text.substr(from));
}

}  // namespace slipbark::catalogue

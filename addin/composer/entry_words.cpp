#include "composer/entry_words.hpp"

#include <boost/algorithm/string/erase.hpp>
#include <boost/algorithm/string/join.hpp>
#include <stdexcept>
#include <utility>
#include <vector>

#include "catalogue/entry_kind.hpp"
#include "composer/content.hpp"
#include "composer/text.hpp"
#include "composer/text_collector.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark::compose {

namespace {

using catalogue::EntryEnd;
using catalogue::EntryKind;
using Of = EntryKind::Of;
using EndAt = std::function<std::optional<End>(const std::string&)>;

constexpr std::string_view listed = "listed ";

std::logic_error wrong(std::string_view words, std::string_view right) {
    return std::logic_error(std::string("the entry \"").append(words).append("\" cannot be read; right would be: ") +
                            std::string(right));
}

/// What an entry of this kind should look like.
std::string_view right_words(Of of) {
    switch (of) {
        case Of::whole:
            return "whole LOW HIGH UNIT";
        case Of::number:
            return "number LOW HIGH UNIT";
        case Of::share:
            return "share LOW HIGH";
        case Of::date:
            return "date, or date 2000-01-01 2099-12-31";
        default:
            return "whole, number, share, date, one of, listed or text";
    }
}

/// "cm or 0.2 24 in", the unit of a number in two systems of units, in its parts.
std::optional<std::pair<std::string, Measure>> two_units(const std::string& unit) {
    for (auto at = unit.find(" or "); at != std::string::npos; at = unit.find(" or ", at + 1)) {
        const auto words = words_of(unit.substr(at + 4));
        const auto low = words.size() > 2 ? read_number(words[0]) : std::nullopt;
        const auto high = words.size() > 2 ? read_number(words[1]) : std::nullopt;
        if (!low || !high) continue;
        const std::vector<std::string> rest(words.begin() + 2, words.end());
        return std::pair(unit.substr(0, at), Measure{*low, *high, boost::algorithm::join(rest, " ")});
    }
    return std::nullopt;
}

EntryKind read_kind(std::string_view words) {
    try {
        return catalogue::read_entry(words);
    } catch (const bad_argument&) {
        throw wrong(words, right_words(Of::any));
    }
}

Validation validation_of(const EntryKind& kind, std::string_view words, const EndAt& end_at) {
    const auto refuse = [&] { return wrong(words, right_words(kind.of)); };
    const auto number = [&](const EntryEnd& end) {
        if (!std::holds_alternative<double>(end)) throw refuse();
        return std::get<double>(end);
    };
    const auto end = [&](const EntryEnd& one) {
        const auto* const name = std::get_if<std::string>(&one);
        if (name == nullptr) return End(number(one));
        const auto found = end_at(*name);
        if (!found) throw refuse();
        return *found;
    };
    switch (kind.of) {
        case Of::whole:
        case Of::number:
            if (kind.what.empty()) throw refuse();
            if (kind.of == Of::whole) return whole(end(kind.low), end(kind.high), kind.what);
            if (const auto units = two_units(kind.what)) {
                return measured({number(kind.low), number(kind.high), units->first}, units->second);
            }
            return compose::number(end(kind.low), end(kind.high), kind.what);
        case Of::share:
            if (!kind.what.empty()) throw refuse();
            return share(number(kind.low), number(kind.high));
        case Of::date: {
            if (kind == EntryKind{.of = Of::date, .or_blank = kind.or_blank}) return any_date;
            const auto* const from = std::get_if<Day>(&kind.low);
            const auto* const to = std::get_if<Day>(&kind.high);
            if (from == nullptr || to == nullptr || !kind.what.empty()) throw refuse();
            return day(Date(*from), Date(*to));
        }
        case Of::choice:
            return one_of(kind.choices);
        case Of::text:
            if (!kind.what.empty()) return any_text(kind.what);
            break;
        default:
            break;
    }
    throw refuse();
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

}  // namespace

Validation read_entry(std::string_view words, const std::string& help, const EndAt& end_at) {
    if (!words.starts_with(listed)) return with_help(validation_of(read_kind(words), words, end_at), help);
    if (bar_list(help).size() != 2) throw wrong(words, "listed AREA, with HELP | REFUSAL in the column help");
    Validation made;
    const std::string area = boost::algorithm::erase_last_copy(std::string(words.substr(listed.size())), " or blank");
    made.condition = "of:cell-content-is-in-list([" + area + "])";
    return with_help(std::move(made), help);
}

std::optional<std::string> kind_of(std::string_view words) {
    if (words.starts_with(listed)) return std::nullopt;
    EntryKind kind = read_kind(words);
    if (kind.of == Of::choice || two_units(kind.what)) return std::nullopt;
    const auto is_name = [](const EntryEnd& end) { return std::holds_alternative<std::string>(end); };
    if (is_name(kind.low) || is_name(kind.high)) return std::nullopt;
    if (kind.of == Of::date && std::holds_alternative<std::monostate>(kind.low)) {
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

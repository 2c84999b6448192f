#include "catalogue/words.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace slipbark::catalogue {

namespace {

struct UnitWords {
    Unit unit;
    Text word;
    Text list;  ///< of a list of such
};

const UnitWords& words_of(Unit unit) {
    static constexpr UnitWords all[]{
        {Unit::any_volume, translatable("any volume"), translatable("list of any volume")},
        {Unit::any_weight_or_count, translatable("any weight or count"), translatable("list of any weight or count")},
        {Unit::as_there, translatable("as there"), translatable("list of as there")},
        {Unit::buds, translatable("buds"), translatable("list of buds")},
        {Unit::celsius, translatable("degrees C"), translatable("list of degrees C")},
        {Unit::cm, translatable("cm"), translatable("list of cm")},
        {Unit::coats, translatable("coats"), translatable("list of coats")},
        {Unit::code, translatable("code"), translatable("list of codes")},
        {Unit::date, translatable("date"), translatable("dates")},
        {Unit::date_and_time, translatable("date and time"), translatable("dates and times")},
        {Unit::days, translatable("days"), translatable("list of days")},
        {Unit::degree_days, translatable("degree-days"), translatable("list of degree-days")},
        {Unit::degrees, translatable("degrees"), translatable("list of degrees")},
        {Unit::draws, translatable("simulations"), translatable("list of simulations")},
        {Unit::flag, translatable("1 or 0"), translatable("list of 1 and 0")},
        {Unit::fraction, translatable("fraction"), translatable("list of fractions")},
        {Unit::fraction_a_year, translatable("fraction a year"), translatable("list of fractions a year")},
        {Unit::grafts, translatable("grafts"), translatable("list of grafts")},
        {Unit::grafts_a_day, translatable("grafts per day"), translatable("list of grafts per day")},
        {Unit::ha, translatable("ha"), translatable("list of ha")},
        {Unit::hours, translatable("hours"), translatable("list of hours")},
        {Unit::m, translatable("m"), translatable("list of m")},
        {Unit::m2, translatable("m2"), translatable("list of m2")},
        {Unit::m2_a_litre, translatable("m2 per litre"), translatable("list of m2 per litre")},
        {Unit::m_a_second, translatable("m/s"), translatable("list of m/s")},
        {Unit::minutes, translatable("minutes"), translatable("list of minutes")},
        {Unit::mm, translatable("mm"), translatable("list of mm")},
        {Unit::mm_a_day, translatable("mm a day"), translatable("list of mm a day")},
        {Unit::money, translatable("money"), translatable("list of money")},
        {Unit::months, translatable("months"), translatable("list of months")},
        {Unit::parts, translatable("parts"), translatable("list of parts")},
        {Unit::people, translatable("people"), translatable("list of people")},
        {Unit::periods, translatable("periods"), translatable("list of periods")},
        {Unit::points, translatable("points"), translatable("list of points")},
        {Unit::ratio, translatable("ratio"), translatable("list of ratios")},
        {Unit::table, translatable("table"), translatable("table")},
        {Unit::temperature, translatable("degrees, all in one unit"), translatable("list of degrees, all in one unit")},
        {Unit::text, translatable("text"), translatable("list of texts")},
        {Unit::text_or_number, translatable("text or number"), translatable("list of texts or numbers")},
        {Unit::trees, translatable("trees"), translatable("list of trees")},
        {Unit::turns, translatable("turns"), translatable("list of turns")},
        {Unit::unit_of_the_pack, translatable("unit of the pack"), translatable("list, in the unit of the pack")},
        {Unit::years, translatable("years"), translatable("list of years")},
    };
    const auto* const found =
        std::find_if(std::begin(all), std::end(all), [&](const UnitWords& one) { return one.unit == unit; });
    if (found == std::end(all)) throw std::logic_error("a unit without a word");
    return *found;
}

std::string alternatives(const std::vector<std::string>& words, const Language& language) {
    std::string text;
    for (std::size_t at = 0; at < words.size(); ++at) {
        if (at == 0) {
            text = words[at];
        } else if (at + 1 == words.size()) {
            text = language.translated(translatable("{1} or {2}"), {text, words[at]});
        } else {
            text += ", " + words[at];
        }
    }
    return text;
}

std::string quoted(std::string_view word) { return "\"" + std::string(word) + "\""; }

std::string keywords_in_words(std::span<const std::string_view> keywords, const Language& language) {
    std::vector<std::string> words;
    for (const std::string_view word : keywords) words.push_back(quoted(word));
    return alternatives(words, language);
}

Text pattern_of(const Bounds& limits) {
    if (limits.whole) return translatable("whole, {1} to {2}");
    if (limits.above && limits.below) return translatable("above {1} and below {2}");
    if (limits.above) return translatable("above {1}, at most {2}");
    if (limits.below) return translatable("{1} to below {2}");
    return translatable("{1} to {2}");
}

/// `least` and `most` are names of arguments that narrow the range; empty where none does.
std::string limits_in_words(const Bounds& limits, std::string_view least, std::string_view most,
                            const Language& language) {
    const auto end = [&](std::string_view argument, double number) {
        return argument.empty() ? language.grouped(number) : std::string(argument);
    };
    return language.translated(pattern_of(limits), {end(least, limits.low), end(most, limits.high)});
}

std::string column_in_words(const ColumnDomain& column, const Language& language) {
    std::string name = language.translated(column.name);
    switch (column.of) {
        case ColumnDomain::Of::numbers: {
            const std::string limits = limits_in_words(column.limits, {}, {}, language);
            return language.translated(column.rising ? translatable("{1} (rising, {2})") : translatable("{1} ({2})"),
                                       {name, limits});
        }
        case ColumnDomain::Of::keywords:
            return language.translated(translatable("{1} ({2})"), {name, keywords_in_words(column.keywords, language)});
        case ColumnDomain::Of::texts:
            break;
    }
    return name;
}

std::string columns_in_words(std::span<const ColumnDomain> columns, const Language& language) {
    std::string text;
    for (const ColumnDomain& column : columns) text += (text.empty() ? "" : ", ") + column_in_words(column, language);
    return language.translated(translatable("columns without headings: {1}"), {text});
}

std::string values_in_words(const Domain& range, const Language& language) {
    switch (range.of) {
        case Domain::Of::numbers:
            return limits_in_words(range.limits, range.least, range.most, language);
        case Domain::Of::choices: {
            std::vector<std::string> words;
            for (const double number : range.choices) words.push_back(language.grouped(number));
            return alternatives(words, language);
        }
        case Domain::Of::keywords:
            return keywords_in_words(range.keywords, language);
        case Domain::Of::keywords_or_table:
            return language.translated(
                translatable("{1}, or a table with {2}"),
                {keywords_in_words(range.keywords, language), columns_in_words(range.columns, language)});
        case Domain::Of::dates:
            return range.least.empty() ? language.translated(translatable("years 1900 to 9999"))
                                       : language.translated(translatable("{1} or later"), {std::string(range.least)});
        case Domain::Of::table:
            return columns_in_words(range.columns, language);
        case Domain::Of::texts:
        case Domain::Of::as_given:
            break;
    }
    return "";
}

Text pattern_of(Blanks blank) {
    switch (blank) {
        case Blanks::at_end:
            return translatable("{1}; blank only at the end");
        case Blanks::skipped:
            return translatable("{1}; blank cells are skipped");
        case Blanks::not_yet:
            return translatable("{1}; blank if not known yet");
        case Blanks::beside_blank:
            return translatable("{1}; may be blank in rows that are left out");
        case Blanks::refused:
            break;
    }
    return translatable("{1}");
}

/// Whether 0 is an answer for a cell of this list. Then a reference to one blank cell, which the host hands over as 0,
/// is taken for it. A date 0 is known for a blank cell, and a list of several is none of one.
bool takes_one_blank_for_0(const Argument& argument) {
    const Domain& range = argument.range;
    if (!argument.is_list || range.rows > 1) return false;
    switch (range.of) {
        case Domain::Of::numbers:
            return range.limits.low < 0 || (range.limits.low == 0 && !range.limits.above);
        case Domain::Of::choices:
            return std::find(range.choices.begin(), range.choices.end(), 0) != range.choices.end();
        case Domain::Of::texts:
            return true;
        default:
            return false;
    }
}

std::string default_in_words(const Default& absent, const Language& language) {
    if (const auto* number = std::get_if<double>(&absent)) return language.grouped(*number);
    if (const auto* word = std::get_if<std::string_view>(&absent)) return quoted(*word);
    if (const auto* table = std::get_if<BuiltIn>(&absent)) return "TABLE(" + quoted(table->table) + ")";
    if (const auto* text = std::get_if<Text>(&absent)) return language.translated(*text);
    return "";
}

}  // namespace

Text word(Unit unit) { return words_of(unit).word; }

std::string unit_in_words(const Argument& argument, const Language& language) {
    const UnitWords& words = words_of(argument.unit);
    return language.translated(argument.is_list ? words.list : words.word);
}

std::string range_in_words(const Argument& argument, const Language& language) {
    const Domain& range = argument.range;
    std::string text = values_in_words(range, language);
    const auto wrap = [&](Text pattern, std::vector<MessageValue> more = {}) {
        more.insert(more.begin(), text);
        text = language.translated(pattern, more);
    };
    if (argument.is_list && range.of == Domain::Of::numbers) wrap(translatable("each {1}"));
    if (!range.note.empty()) {
        const std::string note = language.translated(range.note);
        if (text.empty()) {
            text = note;
        } else {
            wrap(translatable("{1}; {2}"), {note});
        }
    }
    if (argument.is_list && range.rows > 1)
        wrap(translatable("{1}; at least {2} of them"), {static_cast<double>(range.rows)});
    if (!argument.is_list && range.rows > 1)
        wrap(translatable("{1}; at least {2} rows"), {static_cast<double>(range.rows)});
    if (!range.as_long_as.empty()) wrap(translatable("{1}; same length as {2}"), {std::string(range.as_long_as)});
    if (range.blank != Blanks::refused) wrap(pattern_of(range.blank));
    if (takes_one_blank_for_0(argument)) {
        wrap(translatable("{1}; for one cell write A1:A1, because A1 alone counts as 0 if it is blank"));
    }
    const std::string absent = default_in_words(argument.absent, language);
    if (!absent.empty()) wrap(translatable("{1}; default {2}"), {absent});
    return text;
}

std::string help_in_words(const Argument& argument, const Language& language) {
    return language.translated(
        translatable("{1}; {2}; {3}."),
        {language.translated(argument.meaning), unit_in_words(argument, language), range_in_words(argument, language)});
}

std::string call_form(const FunctionEntry& entry) {
    std::string form = entry.cell_name() + "(";
    for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
        const bool optional = entry.parameters[at].optional;
        form.append(at == 0 ? "" : "; ").append(optional ? "[" : "").append(entry.arguments[at].name);
        form.append(entry.parameters[at].kind == Kind::rest ? "..." : "").append(optional ? "]" : "");
    }
    return form + ")";
}

}  // namespace slipbark::catalogue

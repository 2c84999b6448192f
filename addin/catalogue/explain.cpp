#include "catalogue/explain.hpp"

#include <algorithm>

#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "slipbark/dates.hpp"

namespace slipbark::catalogue {

namespace {

bool is_named(const FunctionEntry& entry, std::size_t at) {
    return at < entry.arguments.size() && entry.parameters[at].kind != Kind::rest;
}

std::string as_date(double serial, Day null_date, const Language& language) {
    try {
        return to_text(day_of("date", serial, null_date));
    } catch (const bad_argument&) {
        return language.translated(translatable("{1}"), {serial});
    }
}

std::string in_words(const Value& value, bool date, bool fraction, Day null_date, const Language& language) {
    if (const auto* number = std::get_if<double>(&value)) {
        if (date) return as_date(*number, null_date, language);
        if (!fraction) return language.translated(translatable("{1}"), {*number});
        return language.translated(translatable("{1}, which is {2} %"), {*number, *number * 100});
    }
    if (const auto* text = std::get_if<std::string>(&value)) return "\"" + *text + "\"";
    if (const auto* table = std::get_if<Table>(&value)) {
        const auto filled = table->cells.size() -
                            static_cast<std::size_t>(std::count_if(table->cells.begin(), table->cells.end(), is_blank));
        return language.translated(translatable("rows: {1}, columns: {2}, filled cells: {3}"),
                                   {static_cast<double>(table->rows() + table->blank_rows),
                                    static_cast<double>(table->columns), static_cast<double>(filled)});
    }
    return language.translated(translatable("not given"));
}

/// The name of the argument at `at`; of one that the function does not name, its number.
std::string name_of(const FunctionEntry& entry, std::size_t at, const Language& language) {
    if (is_named(entry, at)) return std::string(entry.arguments[at].name);
    return language.translated(translatable("argument {1}"), {static_cast<double>(at + 1)});
}

/// What an argument was and what it may be: one line.
std::string line_of(const FunctionEntry& entry, std::size_t at, const GivenArgument& one, Day null_date,
                    const Language& language) {
    const bool named = is_named(entry, at);
    std::string was = one.text;
    if (one.text.empty()) {
        was = language.translated(translatable("left out"));
    } else if (one.value) {
        const Unit unit = named ? entry.arguments[at].unit : Unit::text;
        const bool date = unit == Unit::date || unit == Unit::date_and_time;
        const bool fraction = is_fraction(unit);
        was = in_words(*one.value, date, fraction, null_date, language);
        // A single value in the formula has just been said; a block is told by its size only.
        if (std::holds_alternative<Table>(*one.value) || !literal(one.text)) {
            was = language.translated(translatable("{1}, from {2}"), {was, one.text});
        }
    }
    const std::string name = name_of(entry, at, language);
    if (!named) return language.translated(translatable("{1}: {2}"), {name, was});
    return language.translated(
        translatable("{1}: {2}  ({3}; {4})"),
        {name, was, unit_in_words(entry.arguments[at], language), range_in_words(entry.arguments[at], language)});
}

}  // namespace

std::string explain(const FunctionEntry& entry, const std::vector<GivenArgument>& given, std::string_view shows,
                    Day null_date, const Language& language) {
    const std::string first =
        shows.empty()
            ? language.translated(
                  translatable("The cell of {1} shows nothing: its formula hides an error, or a text is blank."),
                  {entry.cell_name()})
            : language.translated(translatable("{1} shows {2}"), {entry.cell_name(), std::string(shows)});
    std::string text = first + "\n" + language.translated(entry.texts.does) + "\n" +
                       language.translated(translatable("Gives: {1}."), {language.translated(entry.texts.gives)}) +
                       "\n";
    Arguments arguments{{}, null_date};
    bool all_known = true;
    std::string troubles;
    for (std::size_t at = 0; at < given.size(); ++at) {
        const GivenArgument& one = given[at];
        text += "\n" + line_of(entry, at, one, null_date, language);
        if (!one.error_in.empty()) {
            troubles += "\n" + language.translated(translatable("{1} has an error in {2}: correct that cell first."),
                                                   {name_of(entry, at, language), one.error_in});
        }
        all_known = all_known && one.value.has_value();
        arguments.values.push_back(one.value.value_or(Value{}));
    }
    if (!troubles.empty()) return text + "\n" + troubles;
    if (entry.method == "why") return text;
    if (!all_known) {
        return text + "\n\n" +
               language.translated(
                   translatable("An argument is itself a calculation and is shown as typed. To see the reason for an "
                                "error, enter =REWORK.WHY(\"{1}\"; the same arguments) in a cell."),
                   {entry.cell_name().substr(std::string_view("REWORK.").size())});
    }
    const std::string reason = why_in(language, std::string(entry.method), arguments);
    if (reason.empty()) return text;
    return text + "\n\n" + language.translated(translatable("Reason: {1}"), {reason});
}

}  // namespace slipbark::catalogue

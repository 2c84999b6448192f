#include "catalogue/explain.hpp"

#include <algorithm>

#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "slipbark/dates.hpp"

namespace slipbark::catalogue {

namespace {

std::string as_date(double serial, Day null_date) {
    try {
        return to_text(day_of("", serial, null_date));
    } catch (const bad_argument&) {
        return to_text(serial);
    }
}

std::string in_words(const Value& value, bool date, bool fraction, Day null_date) {
    if (const auto* number = std::get_if<double>(&value)) {
        if (date) return as_date(*number, null_date);
        return to_text(*number) + (fraction ? ", which is " + to_text(*number * 100) + " %" : "");
    }
    if (const auto* text = std::get_if<std::string>(&value)) return "\"" + *text + "\"";
    if (const auto* table = std::get_if<Table>(&value)) {
        const auto rows = table->rows() + table->blank_rows;
        const auto filled = table->cells.size() -
                            static_cast<std::size_t>(std::count_if(table->cells.begin(), table->cells.end(), is_blank));
        return std::to_string(rows) + (rows == 1 ? " row x " : " rows x ") + std::to_string(table->columns) +
               (table->columns == 1 ? " column, " : " columns, ") + std::to_string(filled) + " filled";
    }
    return "not given";
}

}  // namespace

std::string explain(const Entry& entry, const std::vector<GivenArgument>& given, std::string_view shows,
                    Day null_date) {
    std::string text = entry.cell_name() + " shows " + std::string(shows) + "\n" +
                       std::string(entry.texts.does.english()) +
                       "\nGives: " + std::string(entry.texts.gives.english()) + ".\n";
    Arguments arguments{{}, null_date};
    bool all_known = true;
    std::string trouble;
    for (std::size_t at = 0; at < given.size(); ++at) {
        const GivenArgument& one = given[at];
        const bool named = at < entry.arguments.size() && entry.parameters[at].kind != Kind::rest;
        const std::string name = named ? std::string(entry.arguments[at].name) : "argument " + std::to_string(at + 1);
        text += "\n" + name + ": ";
        if (one.text.empty()) {
            text += "left out";
        } else if (!one.value) {
            text += one.text;
        } else {
            const bool date = named && entry.parameters[at].kind == Kind::date;
            const bool fraction = named && is_fraction(entry.arguments[at].unit);
            text += in_words(*one.value, date, fraction, null_date);
            // A single value in the formula has just been said; a block is told by its size only.
            if (std::holds_alternative<Table>(*one.value) || !literal(one.text)) text += ", from " + one.text;
        }
        if (named) {
            text += "  (" + unit_in_words(entry.arguments[at]) + "; " + range_in_words(entry.arguments[at]) + ")";
        }
        if (!one.trouble.empty()) {
            trouble += "\n" + name + " " + one.trouble;
        }
        all_known = all_known && one.value.has_value();
        arguments.values.push_back(one.value.value_or(Value{}));
    }
    if (!trouble.empty()) return text + "\n" + trouble;
    if (entry.method == "why") return text;
    if (!all_known) {
        return text +
               "\n\nAn argument is itself a calculation, shown as it stands. For the reason of an error put "
               "=REWORK.WHY(\"" +
               std::string(own_name(entry.cell_name())) + "\"; the same arguments) into a cell.";
    }
    const std::string reason = why(std::string(entry.method), arguments);
    return reason.empty() ? text : text + "\n\nReason: " + reason;
}

}  // namespace slipbark::catalogue

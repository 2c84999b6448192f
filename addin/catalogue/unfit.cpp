#include "catalogue/unfit.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "catalogue/entry_kind.hpp"
#include "catalogue/formats.hpp"
#include "support/checks.hpp"

namespace slipbark::catalogue {

namespace {

using Of = EntryKind::Of;
using Line = std::vector<SheetCell>;

bool is_empty(const SheetCell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return std::holds_alternative<std::monostate>(cell) || (text != nullptr && check::trimmed(*text).empty());
}

std::string text_of(const SheetCell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return to_text(*number);
    if (const auto* text = std::get_if<std::string>(&cell)) return std::string(check::trimmed(*text));
    return {};
}

/// The number that an end is on this line.
std::optional<double> limit(const EntryEnd& end, const Line& labels, const Line& values, Day null_date) {
    if (const auto* number = std::get_if<double>(&end)) return *number;
    if (const auto* day = std::get_if<Day>(&end)) return serial_of(*day, null_date);
    const auto* label = std::get_if<std::string>(&end);
    if (label == nullptr) return std::nullopt;
    const auto found = std::find_if(labels.begin(), labels.end(), [&](const SheetCell& cell) {
        return check::folded(text_of(cell)) == check::folded(*label);
    });
    if (found == labels.end()) {
        throw bad_argument("kind",
                           translatable("{1} has the end \"{2}\": give a number, a blank cell or the label of another "
                                        "entry of the line."),
                           {*label});
    }
    const auto* number = std::get_if<double>(&values.at(static_cast<std::size_t>(found - labels.begin())));
    return number == nullptr ? std::nullopt : std::optional(*number);
}

/// `kind` with its ends as numbers.
EntryKind limited(EntryKind kind, const Line& labels, const Line& values, Day null_date) {
    for (EntryEnd* end : {&kind.low, &kind.high}) {
        const auto number = limit(*end, labels, values, null_date);
        *end = number ? EntryEnd(*number) : EntryEnd();
    }
    return kind;
}

bool is_within(double number, const EntryKind& kind) {
    const auto* low = std::get_if<double>(&kind.low);
    const auto* high = std::get_if<double>(&kind.high);
    return (low == nullptr || number >= *low) && (high == nullptr || number <= *high);
}

bool fits(const SheetCell& cell, const EntryKind& kind) {
    if (kind.of == Of::any) return !std::holds_alternative<CellError>(cell);
    if (is_empty(cell)) return kind.or_blank;
    if (std::holds_alternative<CellError>(cell)) return false;
    if (kind.of == Of::text) return true;
    if (kind.of == Of::choice) {
        const std::string chosen = check::folded(text_of(cell));
        return std::any_of(kind.choices.begin(), kind.choices.end(),
                           [&](const std::string& one) { return check::folded(one) == chosen; });
    }
    const auto* number = std::get_if<double>(&cell);
    if (number == nullptr || !is_within(*number, kind)) return false;
    return kind.of != Of::whole || *number == std::floor(*number);
}

std::string number_of_kind(double number, Of of, const Language& language, Day null_date) {
    constexpr double first_day = 1;
    constexpr double last_day = 2'900'000;
    if (of == Of::share) return percent_text(number, language);
    if (of == Of::date && number >= first_day && number <= last_day) {
        return day_text(day_of("value", number, null_date), language);
    }
    return number_text(number, language);
}

std::string sentence(const SheetCell& label, const SheetCell& cell, const EntryKind& kind, const Language& language,
                     Day null_date) {
    const std::string name = is_empty(label) || std::holds_alternative<CellError>(label)
                                 ? language.translated(translatable("This entry"))
                                 : text_of(label);
    if (kind.of == Of::any) return language.translated(translatable("{1} has an error in its cell."), {name});
    const std::string right = right_entry(kind, language, null_date);
    if (is_empty(cell)) return language.translated(translatable("{1} is blank: enter {2}."), {name, right});
    if (std::holds_alternative<CellError>(cell)) {
        return language.translated(translatable("{1} has an error in its cell: enter {2}."), {name, right});
    }
    if (const auto* number = std::get_if<double>(&cell)) {
        return language.translated(translatable("{1} was {2}: enter {3}."),
                                   {name, number_of_kind(*number, kind.of, language, null_date), right});
    }
    return language.translated(translatable("{1} was the text \"{2}\": enter {3}."), {name, text_of(cell), right});
}

/// The cells of one row of kinds; blank past the rows that are stored.
std::span<const Cell> row_of(const Table& kind, std::size_t row) {
    if (row >= kind.rows()) return {};
    return std::span(kind.cells).subspan(row * kind.columns, kind.columns);
}

}  // namespace

std::string unfit_in(const Language& language, const SheetCells& label, const SheetCells& value, const Table& kind) {
    const Line values = value.read();
    // Most lines of a long table are not used yet, and nothing else is read for them.
    if (values.size() > 1 && std::all_of(values.begin(), values.end(), is_empty)) return "";
    const std::size_t kinds = kind.rows() + kind.blank_rows;
    if (kinds != values.size() && kinds != 1) {
        throw bad_argument("kind",
                           translatable("{1} has {2} rows: give one for each entry, which are {3}, or one for all."),
                           {static_cast<double>(kinds), static_cast<double>(values.size())});
    }
    std::optional<Line> labels;
    const auto all_labels = [&]() -> const Line& {
        if (!labels) labels = label.read();
        if (labels->size() != values.size()) {
            throw bad_argument("label", translatable("{1} has {2} cells: give as many as there are entries, {3}."),
                               {static_cast<double>(labels->size()), static_cast<double>(values.size())});
        }
        return *labels;
    };
    for (std::size_t at = 0; at < values.size(); ++at) {
        EntryKind one = entry_from_cells("kind", row_of(kind, kinds == 1 ? 0 : at));
        const auto is_label = [](const EntryEnd& end) { return std::holds_alternative<std::string>(end); };
        if (is_label(one.low) || is_label(one.high)) one = limited(one, all_labels(), values, value.null_date);
        if (!fits(values[at], one)) return sentence(all_labels()[at], values[at], one, language, value.null_date);
    }
    return "";
}

std::string unfit(const SheetCells& label, const SheetCells& value, const Table& kind) {
    return unfit_in(menu_language(), label, value, kind);
}

}  // namespace slipbark::catalogue

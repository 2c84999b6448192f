// What an argument may be, as data: its unit, the range of its values and its default. The texts of the wizard, the
// reference page and the guide are made from it (words.hpp), and so are the tests that drive each argument over its
// ends.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>
#include <variant>

#include "slipbark/message.hpp"

namespace slipbark::catalogue {

/// In what an argument counts; of a list, what each of its cells does.
enum class Unit {
    any_volume,
    any_weight_or_count,
    as_there,
    buds,
    celsius,
    cm,
    coats,
    code,
    date,
    date_and_time,
    days,
    degree_days,
    degrees,
    draws,
    flag,
    fraction,
    fraction_a_year,
    grafts,
    grafts_a_day,
    ha,
    hours,
    m,
    m2,
    m2_a_litre,
    m_a_second,
    minutes,
    mm,
    mm_a_day,
    money,
    months,
    parts,
    people,
    periods,
    points,
    ratio,
    table,
    temperature,
    text,
    text_or_number,
    trees,
    turns,
    unit_of_the_pack,
    years,
};

/// How a unit is written. Of a list: "list of grafts".
Text word(Unit unit);

inline bool is_fraction(Unit unit) { return unit == Unit::fraction || unit == Unit::fraction_a_year; }

/// The ends of a range of numbers.
struct Bounds {
    double low = 0;
    double high = 0;
    bool whole = false;
    bool above = false;  ///< the low end itself is outside
    bool below = false;  ///< the high end itself is outside
};

/// One column of a table.
struct ColumnDomain {
    /// Numbers, keywords, or any text.
    enum class Of { numbers, keywords, texts };

    Text name;
    Of of = Of::texts;
    Bounds limits = {};
    std::span<const std::string_view> keywords = {};
    bool rising = false;  ///< each row's number above the one in the row before
};

/// What the blank cells of a list mean.
enum class Blanks {
    refused,
    at_end,        ///< the rows are days or years: blank cells may only follow the last value
    skipped,       ///< left out wherever they stand
    not_yet,       ///< nothing is known of this row yet: it is left out
    beside_blank,  ///< may be blank in rows that are left out
};

/// The values that an argument may have. Made by the functions below.
struct Domain {
    enum class Of { numbers, choices, keywords, dates, texts, table, keywords_or_table, as_given };

    Of of = Of::as_given;
    Bounds limits = {};
    std::span<const double> choices = {};
    std::span<const std::string_view> keywords = {};
    std::span<const ColumnDomain> columns = {};
    std::string_view least = {};       ///< an argument that the value is at least
    std::string_view most = {};        ///< an argument that the value is at most
    std::string_view as_long_as = {};  ///< an argument, a list too, that has as many cells
    Blanks blank = Blanks::refused;    ///< of a list
    std::size_t rows = 1;              ///< a list or a table has at least so many
    Text note = {};                    ///< what else is to be said, a phrase without capital and full stop
    /// Whether a value of the range is right hangs on more than is said here: on the values of other arguments, or on
    /// what stands in a table. It is said for the tests that drive each argument over its range.
    bool depends_on_call = false;

    // Each written out: clang 14 does not instantiate a template shared by them in time for a constant.
    [[nodiscard]] constexpr Domain at_least(std::string_view argument) const {
        Domain copy = *this;
        copy.least = argument;
        return copy;
    }
    [[nodiscard]] constexpr Domain at_most(std::string_view argument) const {
        Domain copy = *this;
        copy.most = argument;
        return copy;
    }
    [[nodiscard]] constexpr Domain length_of(std::string_view argument) const {
        Domain copy = *this;
        copy.as_long_as = argument;
        return copy;
    }
    [[nodiscard]] constexpr Domain blanks(Blanks mean) const {
        Domain copy = *this;
        copy.blank = mean;
        return copy;
    }
    [[nodiscard]] constexpr Domain least_rows(std::size_t count) const {
        Domain copy = *this;
        copy.rows = count;
        return copy;
    }
    [[nodiscard]] constexpr Domain depending_on_call() const {
        Domain copy = *this;
        copy.depends_on_call = true;
        return copy;
    }
    [[nodiscard]] constexpr Domain noted(Text text) const {
        Domain copy = *this;
        copy.note = text;
        return copy;
    }
};

/// Counts end here, as the functions' own checks have it.
inline constexpr double ten_million = 10'000'000;

constexpr Domain whole(double low, double high = ten_million) {
    return {.of = Domain::Of::numbers, .limits = {.low = low, .high = high, .whole = true}};
}
/// From `low` to `high`, both included.
constexpr Domain from_to(double low, double high) {
    return {.of = Domain::Of::numbers, .limits = {.low = low, .high = high}};
}
/// Above `low`, at most `high`.
constexpr Domain above_to(double low, double high) {
    return {.of = Domain::Of::numbers, .limits = {.low = low, .high = high, .above = true}};
}
/// Above `low` and below `high`.
constexpr Domain between(double low, double high) {
    return {.of = Domain::Of::numbers, .limits = {.low = low, .high = high, .above = true, .below = true}};
}
/// From `low` to below `high`.
constexpr Domain from_below(double low, double high) {
    return {.of = Domain::Of::numbers, .limits = {.low = low, .high = high, .below = true}};
}
/// One of a few numbers.
constexpr Domain one_of(std::span<const double> numbers) { return {.of = Domain::Of::choices, .choices = numbers}; }
/// One of a few keywords: slipbark::keywords of an enumeration, or an array of its own.
constexpr Domain one_of(std::span<const std::string_view> words) {
    return {.of = Domain::Of::keywords, .keywords = words};
}
/// A keyword, or a table in its place.
constexpr Domain one_of(std::span<const std::string_view> words, std::span<const ColumnDomain> columns) {
    return {.of = Domain::Of::keywords_or_table, .keywords = words, .columns = columns};
}
/// Days of the years 1900 to 9999.
constexpr Domain dates() { return {.of = Domain::Of::dates}; }
/// Any text of which `note` says more; numbers of `codes` mean something, too.
constexpr Domain texts(Text note, std::span<const double> codes = {}) {
    return {.of = Domain::Of::texts, .choices = codes, .note = note};
}
constexpr Domain table_of(std::span<const ColumnDomain> columns) {
    return {.of = Domain::Of::table, .columns = columns};
}
/// WHY's: whatever is right for another function.
constexpr Domain as_given(Text note) { return {.of = Domain::Of::as_given, .note = note}; }

/// REWORK.TABLE of this name.
struct BuiltIn {
    std::string_view table;
};

/// What an optional argument is where it is left out: a number, a keyword or text, a built-in table, or something that
/// can only be described; nothing where the argument is not optional.
using Default = std::variant<std::monostate, double, std::string_view, BuiltIn, Text>;

}  // namespace slipbark::catalogue

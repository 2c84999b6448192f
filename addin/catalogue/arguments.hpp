// From what stands in cells to the C++ types of the trade's functions, and back. Knows no UNO: the glue turns UNO
// values into `Value` and this header does the rest, so that WHY, the tests and the fuzzer take the same way as the
// cells.
#pragma once

#include <functional>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "catalogue/columns.hpp"
#include "slipbark/outcome.hpp"
#include "slipbark/values.hpp"
#include "support/checks.hpp"

namespace slipbark::catalogue {

/// That a cell shows an error.
struct CellError {
    bool operator==(const CellError&) const = default;
};

/// What one cell of a sheet holds, where a blank one differs from 0 and an error does not stop the call.
using SheetCell = std::variant<std::monostate, double, std::string, CellError>;

/// Cells of a sheet, from left to right and from the top down, read when they are asked for.
struct SheetCells {
    std::function<std::vector<SheetCell>()> read;
    Day null_date;

    /// Whether both read the same.
    friend bool operator==(const SheetCells& one, const SheetCells& other) {
        return one.null_date == other.null_date && one.read() == other.read();
    }
};

/// One argument as the host hands it over: nothing (omitted, or an empty text), a number, a text, a block of cells, or
/// the cells themselves.
using Value = std::variant<std::monostate, double, std::string, Table, SheetCells>;

/// What a document calls day 0. Serial numbers of dates count from it.
struct Arguments {
    std::vector<Value> values;
    Day null_date;
};

/// A call's answer; monostate is "no answer". Days have become serial numbers.
using Outcome = std::variant<std::monostate, double, std::string, Table>;

/// How the host hands an argument over: `number` and `date` as a double, `block` as rows of cells, `cells` as the range
/// itself, which an inline array is not, `any` as it stands, `rest` as all further arguments.
enum class Kind { number, text, date, block, cells, any, rest };

struct Parameter {
    Kind kind = Kind::number;
    bool optional = false;
    bool list = false;  ///< a row or a column of cells, and no other block
};

/// How a result goes back. `maybe_*`: there may be no answer.
enum class Gives { number, maybe_number, text, date, maybe_date, table, maybe_table };

/// A serial number as a day. Throws bad_argument for 0 (a blank cell) and for days outside 1900 to 9999; `row`,
/// counted from 0, is named where the day stands in a list.
Day day_of(std::string_view argument, double serial, Day null_date, std::optional<std::size_t> row = {});
/// A serial number with a fraction as a moment, to the nearest millisecond. Throws as day_of does.
Moment moment_of(std::string_view argument, double serial, Day null_date);
double serial_of(Day day, Day null_date);

bad_argument too_many(std::size_t given, std::size_t most);

namespace detail {

/// The cell of a range that is one cell and no more; else nullptr. Where a single value is wanted it is what stands in
/// that cell.
const Cell* single_cell(const Value& value);
bool is_missing(const Value& value);
double number_of(std::string_view argument, const Value& value, Day null_date);
std::string text_of(std::string_view argument, const Value& value);
Scalar scalar_of(std::string_view argument, const Value& value);
// A block is moved where it can be: a copy of a long one costs as much as most functions of it.
Table table_of(std::string_view argument, Value value);
List list_of(std::string_view argument, Value value);
DayList days_of(std::string_view argument, Value value, Day null_date);
DayTable day_table_of(std::string_view argument, Value value, Day null_date);
DatedTable dated_table_of(std::string_view argument, Value value, Day null_date);
SheetCells cells_of(std::string_view argument, Value value, Day null_date);
/// The place of a keyword among `names`; ignores case and blanks around it.
std::size_t keyword_of(std::string_view argument, const Value& value, const std::string_view* names, std::size_t count);

template <class T>
struct is_optional : std::false_type {};
template <class T>
struct is_optional<std::optional<T>> : std::true_type {};

/// Whether a parameter of this type wants a range of cells.
template <class T>
constexpr bool is_block() {
    return std::is_same_v<T, List> || std::is_same_v<T, DayList> || std::is_same_v<T, DayTable> ||
           std::is_same_v<T, DatedTable> || std::is_same_v<T, Table>;
}

}  // namespace detail

/// `value` as the type a function's parameter has.
template <class T>
T parameter(std::string_view argument, Value value, Day null_date) {
    if constexpr (detail::is_optional<T>::value) {
        using Given = typename T::value_type;
        if (detail::is_missing(value)) return std::nullopt;
        if constexpr (!detail::is_block<Given>()) {
            const Cell* cell = detail::single_cell(value);
            if (cell != nullptr && is_blank(*cell)) return std::nullopt;
        }
        return parameter<Given>(argument, std::move(value), null_date);
    } else if constexpr (std::is_same_v<T, double>) {
        return detail::number_of(argument, value, null_date);
    } else if constexpr (std::is_same_v<T, std::string>) {
        return detail::text_of(argument, value);
    } else if constexpr (std::is_same_v<T, Scalar>) {
        return detail::scalar_of(argument, value);
    } else if constexpr (std::is_same_v<T, Day>) {
        return day_of(argument, detail::number_of(argument, value, null_date), null_date);
    } else if constexpr (std::is_same_v<T, Moment>) {
        return moment_of(argument, detail::number_of(argument, value, null_date), null_date);
    } else if constexpr (std::is_same_v<T, List>) {
        return detail::list_of(argument, std::move(value));
    } else if constexpr (std::is_same_v<T, DayList>) {
        return detail::days_of(argument, std::move(value), null_date);
    } else if constexpr (std::is_same_v<T, DayTable>) {
        return detail::day_table_of(argument, std::move(value), null_date);
    } else if constexpr (std::is_same_v<T, DatedTable>) {
        return detail::dated_table_of(argument, std::move(value), null_date);
    } else if constexpr (std::is_same_v<T, Table>) {
        return detail::table_of(argument, std::move(value));
    } else if constexpr (std::is_same_v<T, SheetCells>) {
        return detail::cells_of(argument, std::move(value), null_date);
    } else {
        static_assert(std::is_enum_v<T>, "a parameter type that cells cannot fill");
        return static_cast<T>(detail::keyword_of(argument, value, keywords<T>.data(), keywords<T>.size()));
    }
}

namespace detail {

template <class T>
constexpr Kind kind_of() {
    if constexpr (is_optional<T>::value || std::is_same_v<T, Scalar> || std::is_enum_v<T>) return Kind::any;
    if constexpr (std::is_same_v<T, Arguments>) return Kind::rest;
    if constexpr (std::is_same_v<T, std::string>) return Kind::text;
    if constexpr (std::is_same_v<T, Day> || std::is_same_v<T, Moment>) return Kind::date;
    if constexpr (is_block<T>()) return Kind::block;
    if constexpr (std::is_same_v<T, SheetCells>) return Kind::cells;
    return Kind::number;
}

template <class T>
constexpr bool is_list() {
    if constexpr (is_optional<T>::value) {
        return is_list<typename T::value_type>();
    } else {
        return std::is_same_v<T, List> || std::is_same_v<T, DayList>;
    }
}

template <class T>
constexpr Gives gives() {
    if constexpr (std::is_same_v<T, double>) return Gives::number;
    if constexpr (std::is_same_v<T, std::optional<double>>) return Gives::maybe_number;
    if constexpr (std::is_same_v<T, std::string>) return Gives::text;
    if constexpr (std::is_same_v<T, Day>) return Gives::date;
    if constexpr (std::is_same_v<T, std::optional<Day>>) return Gives::maybe_date;
    if constexpr (std::is_same_v<T, Table>) return Gives::table;
    if constexpr (std::is_same_v<T, std::optional<Table>>) return Gives::maybe_table;
    if constexpr (Structured<T>) return Gives::table;
    if constexpr (is_optional_struct<T>) return Gives::maybe_table;
}

/// Numbers must be finite to go into a cell; days become serial numbers.
Outcome finite(double value);
Outcome with_serials(Table table, Day null_date);

}  // namespace detail

template <class T>
inline constexpr Parameter parameter_of{detail::kind_of<T>(), detail::is_optional<T>::value, detail::is_list<T>()};

template <class T>
inline constexpr Gives gives_of = detail::gives<T>();

/// Whether the document's null date matters for a parameter or result of this type.
template <class T>
inline constexpr bool uses_date = std::is_same_v<T, Day> || std::is_same_v<T, std::optional<Day>> ||
                                  std::is_same_v<T, Moment> || std::is_same_v<T, DayList> ||
                                  std::is_same_v<T, std::optional<DayList>> || std::is_same_v<T, DayTable> ||
                                  std::is_same_v<T, std::optional<DayTable>> || std::is_same_v<T, DatedTable> ||
                                  std::is_same_v<T, std::optional<DatedTable>> || std::is_same_v<T, SheetCells> ||
                                  std::is_same_v<T, Arguments> || detail::gives_days<T>();

/// A function's result as an outcome.
template <class T>
Outcome outcome(T result, Day null_date) {
    if constexpr (detail::is_optional<T>::value) {
        if (!result) return std::monostate{};
        return outcome(*std::move(result), null_date);
    } else if constexpr (std::is_same_v<T, double>) {
        return detail::finite(result);
    } else if constexpr (std::is_same_v<T, Day>) {
        return serial_of(result, null_date);
    } else if constexpr (std::is_same_v<T, Table>) {
        return detail::with_serials(std::move(result), null_date);
    } else if constexpr (detail::Structured<T>) {
        return detail::with_serials(in_cells(result), null_date);
    } else {
        return result;
    }
}

}  // namespace slipbark::catalogue

// How the struct that a function gives stands in cells. functions/ gives structs with named fields; which of them makes
// which column is said once, in entries/AREA.hpp, and call, WHY, glue and portable component read it there.
//
//     template <>
//     inline constexpr auto columns_of<odds::Swing> = columns(&odds::Swing::what, &odds::Swing::at_low);
//
// A column is a field, a member function or a function of the struct. A struct is a table of one row, a vector of them
// one row each, an empty std::optional of either no answer. Where the answer is no plain list of rows, columns_of is a
// function that makes the table of the whole result.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::catalogue {

template <class... Fields>
struct Columns {
    std::tuple<Fields...> fields;
};

template <class... Fields>
constexpr Columns<Fields...> columns(Fields... fields) {
    return {{fields...}};
}

/// The columns of a struct, or a function from a whole result to its table; specialised in entries/AREA.hpp.
template <class Result>
inline constexpr std::nullptr_t columns_of = nullptr;

namespace detail {

template <class T>
struct row_of {
    using type = T;
};
template <class Struct>
struct row_of<std::vector<Struct>> {
    using type = Struct;
};

/// Whether columns_of makes the table of a whole result.
template <class T>
concept MadeWhole = std::is_invocable_r_v<Table, decltype(columns_of<T>), const T&>;

/// A result that is a struct, or a vector of them, with columns.
template <class T>
concept Structured =
    MadeWhole<T> || !std::is_null_pointer_v<std::remove_const_t<decltype(columns_of<typename row_of<T>::type>)>>;

/// A field as a cell: numbers and counts as numbers, yes as 1, keywords as their text, an empty optional as a blank.
template <class T>
Cell as_cell(const T& value) {
    if constexpr (std::is_same_v<T, Cell> || std::is_same_v<T, Day> || std::is_same_v<T, std::string>) {
        return value;
    } else if constexpr (std::is_arithmetic_v<T>) {
        return static_cast<double>(value);
    } else if constexpr (std::is_enum_v<T>) {
        return std::string(keywords<T>.at(static_cast<std::size_t>(value)));
    } else {
        return value ? as_cell(*value) : Cell{};
    }
}

template <class Struct, class Field>
using field_type = std::remove_cvref_t<std::invoke_result_t<const Field&, const Struct&>>;

template <class T>
inline constexpr bool is_day = std::is_same_v<T, Day> || std::is_same_v<T, std::optional<Day>>;

template <class Struct, class... Fields>
constexpr bool has_day(const Columns<Fields...>& /*columns*/) {
    return (is_day<field_type<Struct, Fields>> || ...);
}

template <class T>
inline constexpr bool is_optional_struct = false;
template <Structured T>
inline constexpr bool is_optional_struct<std::optional<T>> = true;

/// Whether a column holds days, so that the document's null date matters. A function that makes a whole table takes
/// the days that it gives.
template <class T>
constexpr bool gives_days() {
    if constexpr (is_optional_struct<T>) {
        return gives_days<typename T::value_type>();
    } else if constexpr (Structured<T> && !MadeWhole<T>) {
        using Struct = typename row_of<T>::type;
        return has_day<Struct>(columns_of<Struct>);
    } else {
        return false;
    }
}

}  // namespace detail

/// The rows of a table, one for each struct.
template <class Struct, class... Fields>
Table table_of_rows(const std::vector<Struct>& rows, const Columns<Fields...>& columns) {
    Table table(sizeof...(Fields), {});
    table.cells.reserve(rows.size() * sizeof...(Fields));
    for (const Struct& row : rows) {
        std::apply(
            [&](const auto&... field) { (table.cells.push_back(detail::as_cell(std::invoke(field, row))), ...); },
            columns.fields);
    }
    return table;
}

/// A result of functions/ as it stands in cells.
template <detail::Structured Result>
Table in_cells(const Result& result) {
    if constexpr (detail::MadeWhole<Result>) {
        return columns_of<Result>(result);
    } else if constexpr (std::is_same_v<typename detail::row_of<Result>::type, Result>) {
        return table_of_rows(std::vector{result}, columns_of<Result>);
    } else {
        return table_of_rows(result, columns_of<typename Result::value_type>);
    }
}

}  // namespace slipbark::catalogue

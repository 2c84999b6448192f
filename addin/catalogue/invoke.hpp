// The one way in which a function of the trade is called, from a cell as from WHY: its arguments are read from left to
// right, so that the first bad one is the one named; its result becomes an outcome.
#pragma once

#include <array>
#include <string_view>
#include <tuple>
#include <utility>

#include "catalogue/arguments.hpp"

namespace slipbark::catalogue {

namespace detail {

template <class T, class Given>
T read(std::string_view name, Given&& given, Day null_date) {
    // A number that arrives as one stays it: it is by far the most frequent argument.
    if constexpr (std::is_same_v<T, std::remove_cvref_t<Given>>) {
        return std::forward<Given>(given);
    } else {
        return parameter<T>(name, Value(std::forward<Given>(given)), null_date);
    }
}

template <class Result, class... Parameters, class Places, std::size_t... Index>
Outcome invoke(Result (*function)(Parameters...), const std::array<std::string_view, sizeof...(Parameters)>& names,
               Day null_date, const Places& places, std::index_sequence<Index...> /*places*/) {
    // Braces, so that the arguments are read from left to right.
    std::tuple<std::remove_cvref_t<Parameters>...> arguments{read<std::remove_cvref_t<Parameters>>(
        names[Index], places.template at<std::remove_cvref_t<Parameters>, Index>(), null_date)...};
    return outcome<Result>(std::apply(function, std::move(arguments)), null_date);
}

}  // namespace detail

/// Calls `function`.
///
/// names      of its arguments, for what is said of a bad one
/// null_date  what the document calls day 0
/// places     places.at<T, n>() is the argument at place n for a parameter of type T: a T, or a value of Value's types
/// throws     bad_argument
template <class Result, class... Parameters, class Places>
Outcome invoke(Result (*function)(Parameters...), const std::array<std::string_view, sizeof...(Parameters)>& names,
               Day null_date, const Places& places) {
    return detail::invoke(function, names, null_date, places, std::index_sequence_for<Parameters...>{});
}

}  // namespace slipbark::catalogue

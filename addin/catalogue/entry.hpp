// One entry per cell function: what the spreadsheet side is generated from.
//
// Number, type and optionality of the arguments are read off the C++ function, so that the interface, the glue and the
// function cannot disagree; a missing argument text does not compile. Nothing here knows UNO.
#pragma once

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "catalogue/arguments.hpp"

namespace slipbark::catalogue {

/// What the wizard, the guide and the reference page say of one argument. None of the texts may be empty.
struct Argument {
    std::string_view name;     ///< the C++ parameter's name; it is part of the reference, not of the file format
    std::string_view meaning;  ///< a phrase, capital first, no full stop: "Grafts to be placed"
    std::string_view unit;     ///< "grafts", "cm", "fraction", "date", "text", "table of days and share" ...
    std::string_view range;    ///< "whole, 0 to 10,000,000", "0 to 1, default 0.95" ...
};

/// What is said of one function. `no_answer` may be empty (the function always answers); nothing else may.
struct Texts {
    std::string_view does;     ///< one sentence: "Whole sticks of budwood to order."
    std::string_view gives;    ///< result with unit, and the columns in order where it is a table
    std::string_view example;  ///< a call with literals, ";" between arguments: "REWORK.STICKS(3200; 2; 9; 0.15)"
    std::string_view shows;    ///< what that example gives; of a table the first cell
    std::string_view no_answer = {};  ///< the sentence for an empty answer: "Nothing was grafted."
    std::string_view source;          ///< where formula and rule come from
};

struct Entry {
    std::string_view method;  ///< name in the interface, lowerCamelCase; with the service it is the file format
    std::string_view symbol;  ///< the C++ function the glue calls, fully qualified
    Texts texts;
    std::vector<Argument> arguments;
    std::vector<Parameter> parameters;
    Gives gives = Gives::number;
    bool needs_document = false;  ///< takes or gives dates, so that the document's null date matters

    /// Calls the function with values as they stand in cells. Throws bad_argument.
    std::function<Outcome(const Arguments&)> call;

    /// The name a user types: REWORK.STICKS.
    [[nodiscard]] std::string cell_name() const;
};

struct Area {
    std::string_view name;   ///< one word, as in functions/
    std::string_view title;  ///< for the guide
    std::vector<Entry> entries;
};

/// All areas in the order of the contract.
const std::vector<Area>& areas();

/// The entry of a function named as a user would: "STICKS", "rework.sticks"; nullptr where there is none.
const Entry* find(std::string_view name);

namespace detail {

/// The argument at `at` as the type T of the parameter there.
template <class T>
T argument_at(std::size_t at, const std::vector<Argument>& names, const Arguments& given) {
    if constexpr (std::is_same_v<T, Arguments>) {
        const auto first = std::min(at, given.values.size());
        return {{given.values.begin() + static_cast<std::ptrdiff_t>(first), given.values.end()}, given.null_date};
    } else {
        static const Value missing;
        return parameter<T>(names[at].name, at < given.values.size() ? given.values[at] : missing, given.null_date);
    }
}

template <class Result, class... Parameters, std::size_t... Index>
Outcome call_with(Result (*function)(Parameters...), const std::vector<Argument>& names, const Arguments& given,
                  std::index_sequence<Index...> /*places*/) {
    constexpr bool takes_rest = (std::is_same_v<std::remove_cvref_t<Parameters>, Arguments> || ...);
    if (!takes_rest && given.values.size() > sizeof...(Parameters)) {
        throw too_many(given.values.size(), sizeof...(Parameters));
    }
    // Braces, so that the arguments are read from left to right and the first bad one is the one named.
    std::tuple<std::remove_cvref_t<Parameters>...> read{
        argument_at<std::remove_cvref_t<Parameters>>(Index, names, given)...};
    return outcome<Result>(std::apply(function, std::move(read)), given.null_date);
}

}  // namespace detail

/// Makes an entry. Use as entry("sticks", SLIPBARK_FUNCTION(budwood::sticks), {texts}, {{arguments}}).
template <class Result, class... Parameters, std::size_t Count>
Entry entry(std::string_view method, Result (*function)(Parameters...), std::string_view symbol, const Texts& texts,
            const Argument (&arguments)[Count]) {
    static_assert(Count == sizeof...(Parameters), "one line of text for each parameter, no more and no fewer");
    Entry made{.method = method,
               .symbol = symbol,
               .texts = texts,
               .arguments = {std::begin(arguments), std::end(arguments)},
               .parameters = {parameter_of<std::remove_cvref_t<Parameters>>...},
               .gives = gives_of<Result>,
               .needs_document = (uses_date<std::remove_cvref_t<Parameters>> || ...) || uses_date<Result>,
               .call = {}};
    made.call = [function, names = made.arguments](const Arguments& given) {
        return detail::call_with(function, names, given, std::index_sequence_for<Parameters...>{});
    };
    return made;
}

/// The same for a function without arguments.
template <class Result>
Entry entry(std::string_view method, Result (*function)(), std::string_view symbol, const Texts& texts) {
    Entry made{.method = method,
               .symbol = symbol,
               .texts = texts,
               .arguments = {},
               .parameters = {},
               .gives = gives_of<Result>,
               .needs_document = false,
               .call = {}};
    made.call = [function](const Arguments& given) {
        return detail::call_with(function, {}, given, std::index_sequence<>{});
    };
    return made;
}

}  // namespace slipbark::catalogue

/// A function of functions/ with its name as text, for the generated glue.
#define SLIPBARK_FUNCTION(name) &::slipbark::name, "::slipbark::" #name

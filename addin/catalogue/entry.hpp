// One entry per cell function: what the spreadsheet side is generated from.
//
// Number, type and optionality of the arguments are read off the C++ function, so that the interface, the glue and the
// function cannot disagree; a missing argument does not compile. Nothing here knows UNO.
#pragma once

#include <algorithm>
#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/domain.hpp"
#include "catalogue/invoke.hpp"

namespace slipbark::catalogue {

class Language;

/// Words in English.
using Words = std::vector<std::string> (*)();

/// Words that an answer may hold.
struct AnswerWords {
    enum class In {
        cell,   ///< wherever the call stands
        table,  ///< where the answer fills an area as an array formula
        list    ///< the same, and they are so many that a workbook names their list
    };

    Words all = nullptr;
    In in = In::cell;
};

/// What is known of one argument. `meaning` may not be empty.
struct Argument {
    std::string_view name;         ///< the C++ parameter's name; it is part of the reference, not of the file format
    Text meaning;                  ///< a phrase, capital first, no full stop: "Grafts to be placed"
    Unit unit = Unit::text;        ///< of a list, of each of its cells
    Domain range = {};             ///< of a list of numbers, of each of its cells
    Default absent = {};           ///< what it is where it is left out
    std::string_view sample = {};  ///< a literal to try it with, where neither the example nor the default is a value
    bool translated = false;       ///< a literal that stands there is a text of the workbook, in its language
    bool tagged = false;           ///< and the language's tag stands in front of it: "es:..."
    bool names_function = false;   ///< the arguments after it are those of the function that it names
    Words words = nullptr;         ///< keywords that a text of the range may be
    std::string_view unless = {};  ///< an argument beside which these are none: the words are then that one's
    bool is_list = false;          ///< read off the function by entry()
};

/// What is said of one function. `no_answer` may be empty (the function always answers); nothing else may.
struct Texts {
    Text does;                 ///< one sentence: "Whole sticks of budwood to order."
    Text gives;                ///< result with unit, and the columns in order where it is a table
    std::string_view example;  ///< a call with literals, ";" between arguments: "REWORK.STICKS(3200; 2; 9; 0.15)"
    std::string_view shows;    ///< what that example gives; of a table the first cell
    Text no_answer = {};       ///< the sentence for an empty answer: "Nothing was grafted."
    Text source;               ///< where formula and rule come from
    AnswerWords words = {};    ///< what the answer may hold and a workbook in another language says in its own words
    /// What the example shows in a language, where that is a sentence in the office's language.
    std::string (*shows_in)(const Language& language) = nullptr;
};

struct FunctionEntry {
    std::string_view method;  ///< name in the interface, lowerCamelCase; with the service it is the file format
    std::string_view symbol;  ///< the C++ function the glue calls, fully qualified
    Texts texts;
    std::vector<Argument> arguments;
    std::vector<Parameter> parameters;
    Gives gives = Gives::number;
    bool has_columns = false;     ///< gives a struct, whose columns stand in entries/AREA.hpp
    bool needs_document = false;  ///< takes or gives dates, so that the document's null date matters

    /// Calls the function with values as they stand in cells. Throws bad_argument.
    std::function<Outcome(const Arguments&)> call;

    /// The name a user types: REWORK.STICKS.
    [[nodiscard]] std::string cell_name() const;
};

struct Area {
    std::string_view name;  ///< one word, as in functions/
    Text title;             ///< for the guide
    std::vector<FunctionEntry> entries;

    /// Of its methods' interface, without the module: XBudwood.
    [[nodiscard]] std::string interface_name() const;
};

/// All areas in the order of the contract.
const std::vector<Area>& areas();

/// The entry of a function named as a user would: "STICKS", "rework.sticks"; nullptr where there is none.
const FunctionEntry* find(std::string_view name);

namespace detail {

/// Arguments as they stand in `given`, one place after the other.
struct Places {
    const Arguments& given;

    template <class T, std::size_t place>
    [[nodiscard]] auto at() const {
        if constexpr (std::is_same_v<T, Arguments>) {
            const auto first = static_cast<std::ptrdiff_t>(std::min(place, given.values.size()));
            return Arguments{{given.values.begin() + first, given.values.end()}, given.null_date};
        } else {
            return place < given.values.size() ? given.values[place] : Value{};
        }
    }
};

}  // namespace detail

/// Makes an entry. Use as entry("sticks", SLIPBARK_FUNCTION(budwood::sticks), {texts}, {{arguments}}).
template <class Result, class... Parameters, std::size_t Count>
FunctionEntry entry(std::string_view method, Result (*function)(Parameters...), std::string_view symbol,
                    const Texts& texts, const Argument (&arguments)[Count]) {
    static_assert(Count == sizeof...(Parameters), "one line of text for each parameter, no more and no fewer");
    FunctionEntry made{.method = method,
                       .symbol = symbol,
                       .texts = texts,
                       .arguments = {std::begin(arguments), std::end(arguments)},
                       .parameters = {parameter_of<std::remove_cvref_t<Parameters>>...},
                       .gives = gives_of<Result>,
                       .has_columns = detail::Structured<Result> || detail::is_optional_struct<Result>,
                       .needs_document = (uses_date<std::remove_cvref_t<Parameters>> || ...) || uses_date<Result>,
                       .call = {}};
    for (std::size_t at = 0; at < Count; ++at) made.arguments[at].is_list = made.parameters[at].list;
    std::array<std::string_view, Count> names;
    std::transform(std::begin(arguments), std::end(arguments), names.begin(),
                   [](const Argument& argument) { return argument.name; });
    made.call = [function, names](const Arguments& given) {
        constexpr bool takes_rest = (std::is_same_v<std::remove_cvref_t<Parameters>, Arguments> || ...);
        if (!takes_rest && given.values.size() > Count) throw too_many(given.values.size(), Count);
        return invoke(function, names, given.null_date, detail::Places{given});
    };
    return made;
}

/// The same for a function without arguments.
template <class Result>
FunctionEntry entry(std::string_view method, Result (*function)(), std::string_view symbol, const Texts& texts) {
    FunctionEntry made{.method = method,
                       .symbol = symbol,
                       .texts = texts,
                       .arguments = {},
                       .parameters = {},
                       .gives = gives_of<Result>,
                       .has_columns = detail::Structured<Result> || detail::is_optional_struct<Result>,
                       .needs_document = false,
                       .call = {}};
    made.call = [function](const Arguments& given) {
        if (!given.values.empty()) throw too_many(given.values.size(), 0);
        return invoke(function, std::array<std::string_view, 0>{}, given.null_date, detail::Places{given});
    };
    return made;
}

}  // namespace slipbark::catalogue

/// A function of functions/ with its name as text, for the generated glue.
#define SLIPBARK_FUNCTION(name) &::slipbark::name, "::slipbark::" #name

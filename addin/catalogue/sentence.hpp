// SENTENCE: a text with numbered places.
#pragma once

#include <string>
#include <string_view>

#include "catalogue/arguments.hpp"
#include "catalogue/language.hpp"

namespace slipbark::catalogue {

/// `pattern` with its places filled.
///
/// pattern  the sentence, with {1} or {1:count}, {2:date}, {3:money}, {4:percent}, {5:list} where a place is put in as
///          that, and {1|day|days} for the form that goes with the number in place 1. A tag such as "es:" in front says
///          whose months, signs and plurals are taken; none: English.
/// places   what stands in them, in order. An empty text is put in as it is.
/// throws   bad_argument: a place that is not given, or given and not used; a text where a number belongs; not as many
///          forms as the language has
///
///     sentence("Order {1:count} {1|stick|sticks}.", 1840) is "Order 1,840 sticks."
std::string sentence(const std::string& pattern, const Arguments& places);

/// What a pattern asks for, as the composer and the build's check of translations read it.
struct PatternPlace {
    std::size_t number = 0;  ///< from 1
    std::string format;      ///< "", "count", "date", "money", "percent", "list"; of a plural "|"
    std::vector<std::string> forms;
    std::size_t from = 0;  ///< where its "{" stands
    std::size_t end = 0;   ///< past its "}"
};

/// The places of a pattern without its tag, in the order in which they stand.
///
/// throws   bad_argument called "pattern"
std::vector<PatternPlace> places_of(std::string_view pattern);

/// The language that a pattern's tag names, and the pattern without it.
struct TaggedPattern {
    const Language* language;
    std::string_view pattern;
};
TaggedPattern tagged(std::string_view pattern);

}  // namespace slipbark::catalogue

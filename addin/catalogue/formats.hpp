// Numbers, days, lists and plurals as a language writes them inside a sentence.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/language.hpp"

namespace slipbark::catalogue {

/// A count, rounded to a whole number, with its thousands marked: "1,840" in English; in any other language blanks that
/// do not break, from five digits on (ISO 80000-1).
std::string count_text(double number, const Language& language);

/// An amount of money without its currency: whole from 100 up, else with two decimals unless it is whole.
std::string money_text(double amount, const Language& language);

/// A fraction in per cent with at most one decimal: "12.5 %" for 0.125.
std::string percent_text(double fraction, const Language& language);

/// Any number, with all its digits.
std::string number_text(double number, const Language& language);

/// A day with the month's short name: "20 Sep 2027".
std::string day_text(Day day, const Language& language);

/// "a, b and c"; empty where there are no items.
std::string list_text(const std::vector<std::string>& items, const Language& language);

/// "a, b or c"
std::string choice_text(const std::vector<std::string>& items, const Language& language);

/// What the header of a language's messages has after `name`, up to `end`: "fr" after "Language: ". Empty where it has
/// nothing.
std::string of_header(const Language& language, std::string_view name, char end);

/// The rule of a language for the forms of a noun: the C expression after "plural=" in its messages, such as "n!=1",
/// which is the rule where the messages have none (GNU gettext manual, "Plural forms").
std::string plural_rule(const Language& language);

/// How many forms a noun has by its count, and which of them, from 0 on, goes with a count: the rule of the language's
/// own messages (Plural-Forms of GNU gettext); in English two. A fraction takes the last form.
std::size_t plural_forms(const Language& language);
std::size_t plural_form(double count, const Language& language);

/// The form that a rule such as "n != 1" gives for a count. Throws std::logic_error where the rule cannot be read.
std::size_t plural_form(std::string_view rule, unsigned long count);

}  // namespace slipbark::catalogue

// What is said to people: whole sentences with numbered places, marked where they stand, so that each can be said in
// another language without anybody looking into fragments.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark {

/// A text that people see, in English. It is made by translatable() alone.
class Text {
  public:
    constexpr Text() = default;
    [[nodiscard]] constexpr std::string_view english() const { return english_; }
    [[nodiscard]] constexpr bool empty() const { return english_.empty(); }

  private:
    friend consteval Text translatable(const char* english);
    constexpr explicit Text(std::string_view english) : english_(english) {}
    std::string_view english_;
};

/// Marks a literal as a text that people see; the one keyword by which texts are extracted (xgettext
/// --keyword=translatable). Places are written {1}, {2}, ...; a translation may order them anew.
consteval Text translatable(const char* english) { return Text(english); }

/// What stands in a numbered place: a name or keyword that is the same in every language, a number, a day, or a text
/// that is translated by itself.
using MessageValue = std::variant<std::string, double, Day, Text>;

/// A text with its places filled.
struct Message {
    Text text;
    std::vector<MessageValue> places;

    /// The English sentence.
    [[nodiscard]] std::string english() const;
};

/// The words for a number that no digits can tell: one that is not a number, or infinite. Empty for all others.
Text without_digits(double number);

/// `pattern` with {1}, {2}, ... filled: numbers as to_text writes them, days as ISO dates. Used with Message::text as
/// it stands, or with its translation.
std::string filled(std::string_view pattern, const std::vector<MessageValue>& places);

}  // namespace slipbark

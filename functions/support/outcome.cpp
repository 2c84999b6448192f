#include "slipbark/outcome.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace slipbark {

bad_argument::bad_argument(std::string_view argument, Message message)
    : std::invalid_argument(message.english()), argument_(argument), message_(std::move(message)) {}

bad_argument::bad_argument(std::string_view argument, Text sentence, std::vector<MessageValue> places)
    : bad_argument(argument, Message{sentence, [&] {
                                         places.insert(places.begin(), MessageValue(std::string(argument)));
                                         return std::move(places);
                                     }()}) {}

std::string to_text(double value) {
    if (const Text words = without_digits(value); !words.empty()) return std::string(words.english());
    std::array<char, 32> digits{};
    // Whole numbers in full (10000000, not 1e+07) as far as a double holds every whole number.
    const bool plain = std::abs(value) < 1e15 && value == std::trunc(value);
    const auto end = plain ? std::to_chars(digits.begin(), digits.end(), value, std::chars_format::fixed)
                           : std::to_chars(digits.begin(), digits.end(), value);
    return {digits.begin(), end.ptr};
}

}  // namespace slipbark

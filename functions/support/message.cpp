#include "slipbark/message.hpp"

#include <cmath>

#include "slipbark/dates.hpp"
#include "slipbark/outcome.hpp"

namespace slipbark {

namespace {

struct InWords {
    std::string operator()(const std::string& words) const { return words; }
    std::string operator()(double number) const { return to_text(number); }
    std::string operator()(Day day) const { return to_text(day); }
    std::string operator()(Text text) const { return std::string(text.english()); }
};

}  // namespace

Text without_digits(double number) {
    if (std::isnan(number)) return translatable("not a number");
    if (std::isinf(number)) return number > 0 ? translatable("infinite") : translatable("minus infinite");
    return {};
}

std::string filled(std::string_view pattern, const std::vector<MessageValue>& places) {
    std::string whole;
    for (std::size_t at = 0; at < pattern.size(); ++at) {
        // One digit is enough for any sentence that a person wants to read.
        const bool place = pattern[at] == '{' && at + 2 < pattern.size() && pattern[at + 2] == '}' &&
                           pattern[at + 1] >= '1' && pattern[at + 1] <= '9';
        if (!place) {
            whole += pattern[at];
            continue;
        }
        const auto index = static_cast<std::size_t>(pattern[at + 1] - '1');
        if (index < places.size()) whole += std::visit(InWords{}, places[index]);
        at += 2;
    }
    return whole;
}

std::string Message::english() const { return filled(text.english(), places); }

}  // namespace slipbark

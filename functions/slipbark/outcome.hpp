// What a function may answer besides a value.
//
// There are two other outcomes and no third: a bad argument (the exception below) and no answer (an empty
// std::optional, where the question is sound but has none: a plan that never pays back). No function returns NaN or
// infinity.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "slipbark/message.hpp"

namespace slipbark {

/// Thrown for a value that a function cannot work with. It carries what a grower needs to correct it.
class bad_argument : public std::invalid_argument {
  public:
    /// argument: the parameter's name, which stands in place {1}. sentence: what it was, what is wrong with it and what
    /// would be right ("{1} was {2}: give a fraction from 0 to {3}."). places: what stands in {2}, {3}, ...
    bad_argument(std::string_view argument, Text sentence, std::vector<MessageValue> places = {});

    /// The name of the parameter at fault.
    [[nodiscard]] const std::string& argument() const noexcept { return argument_; }

    /// The sentence, for saying it in another language; what() is its English.
    [[nodiscard]] const Message& message() const noexcept { return message_; }

  private:
    bad_argument(std::string_view argument, Message message);
    std::string argument_;
    Message message_;
};

/// A number as a person would write it: the shortest digits that read back as the same double.
std::string to_text(double value);

}  // namespace slipbark

// What a function may answer besides a value.
//
// There are two other outcomes and no third: a bad argument (the exception below) and no answer (an empty
// std::optional, where the question is sound but has none: a plan that never pays back). No function returns NaN or
// infinity.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace slipbark {

/// Thrown for a value that a function cannot work with. It carries what a grower needs to mend it.
class bad_argument : public std::invalid_argument {
  public:
    /// argument: the parameter's name. wrong: what it was and what is wrong with it, as the rest of a sentence that
    /// starts with the name ("was 85, which is above 1"). right: what would be right ("give a fraction from 0 to 1").
    bad_argument(std::string_view argument, std::string_view wrong, std::string_view right);

    /// The name of the parameter at fault.
    [[nodiscard]] const std::string& argument() const noexcept { return argument_; }

  private:
    std::string argument_;
};

/// A number as a person would write it: the shortest digits that read back as the same double.
std::string to_text(double value);

}  // namespace slipbark

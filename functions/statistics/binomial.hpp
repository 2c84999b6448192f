// How many of so many trials succeed, each on its own with the same chance.
#pragma once

#include <cstdint>
#include <optional>

namespace slipbark::statistics {

/// Both sides of a probability, so that neither is lost when the other is near 1.
struct Chance {
    double enough;
    double too_few;
};

/// Whether a chance reaches the confidence. Ties count: the smaller side of the two is compared, with the slack of the
/// last binary digits in which both were computed.
bool reaches(const Chance& found, double confidence);

/// The chance that at least `wanted` of `trials` succeed.
///
/// trials    0 to 10 million
/// success   chance of each; 0 to 1
/// wanted    any; certain where not above 0, impossible where above `trials`
/// accuracy  relative 1E-14 of either side up to 200,000 trials, against sums in 50 digits
/// source    Abramowitz & Stegun, Handbook of Mathematical Functions, 26.5.24
Chance binomial(std::int64_t trials, double success, std::int64_t wanted);

/// Fewest trials of which at least `wanted` succeed with the confidence; nothing where `most` are too few.
///
/// wanted      at least 1
/// success     chance of each; above 0, below 1
/// confidence  above 0, below 1
/// most        at least `wanted`
/// source      Sedcole, Crop Science 17:667-668, 1977; Newton's method within a bracket
std::optional<std::int64_t> fewest_trials(std::int64_t wanted, double success, double confidence, std::int64_t most);

}  // namespace slipbark::statistics

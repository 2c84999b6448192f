// Draws for simulations that are the same on every machine.
#pragma once

#include <cstdint>
#include <vector>

namespace slipbark::statistics {

/// One column of a Latin hypercube: the middles of `draws` equal parts of 0 to 1, each once, in random order.
///
/// Columns are independent of one another, and a column is the same whichever others are drawn, and everywhere: the
/// generator is the Mersenne Twister, whose output the C++ standard fixes, and the shuffle is in whole numbers (the
/// standard leaves its own shuffle and distributions to each library).
///
/// column   which one; the generator's seed, so any number will do
/// middles  filled with as many middles as it has places
/// source   McKay, Beckman & Conover, Technometrics 21:239-245, 1979; shuffle: Durstenfeld, Comm. ACM 7:420, 1964
void latin_hypercube_column(std::uint64_t column, std::vector<double>& middles);

}  // namespace slipbark::statistics

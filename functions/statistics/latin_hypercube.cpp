#include "statistics/latin_hypercube.hpp"

#include <random>
#include <utility>

namespace slipbark::statistics {

void latin_hypercube_column(std::uint64_t column, std::vector<double>& middles) {
    const auto draws = static_cast<double>(middles.size());
    for (std::size_t part = 0; part < middles.size(); ++part) {
        middles[part] = (static_cast<double>(part) + 0.5) / draws;
    }
    std::mt19937_64 random(column);
    for (std::uint64_t left = middles.size(); left > 1; --left) {
        // The upper half of a product is below `left`, and even but for one part in 2^32 / left.
        const std::uint64_t place = (random() >> 32) * left >> 32;
        std::swap(middles[left - 1], middles[place]);
    }
}

}  // namespace slipbark::statistics

// Low, likely, high: the distribution of a quantity of which little else is known.
#pragma once

#include <boost/math/distributions/triangular.hpp>

namespace slipbark::statistics {

/// low <= likely <= high, all finite; all three may be equal, which boost::math::triangular does not take.
struct Triangular {
    double low = 1;
    double likely = 1;
    double high = 1;

    [[nodiscard]] bool is_certain() const { return low == high; }

    /// The value that a share `part` of all cases stays below; part from 0 to 1. Boost takes square roots only, so it
    /// is the same everywhere.
    [[nodiscard]] double quantile(double part) const {
        return is_certain() ? low : boost::math::quantile(boost::math::triangular(low, likely, high), part);
    }
};

}  // namespace slipbark::statistics

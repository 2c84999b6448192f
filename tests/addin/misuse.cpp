#include "misuse.hpp"

#include <cmath>
#include <limits>

namespace slipbark::tests {

using catalogue::Value;

const std::vector<Misuse>& misuses() {
    static const std::vector<Misuse> all{
        {"NaN", std::nan("")},
        {"infinity", std::numeric_limits<double>::infinity()},
        {"minus infinity", -std::numeric_limits<double>::infinity()},
        {"text", "about ten"},
        {"blank", 0.0},
        {"missing", Value{}},
        {"negative", -3.0},
        {"fraction", 2.5},
        {"per cent", 85.0},
        {"huge", 1e300},
        {"block", Table(2, {1., 2., 3., 4.})},
        {"texts", Table(1, {std::string("a"), std::string("b")})},
        {"NaN in a range", Table(1, {1., std::nan("")})},
    };
    return all;
}

}  // namespace slipbark::tests

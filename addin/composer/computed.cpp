#include "composer/computed.hpp"

#include <stdexcept>

namespace slipbark::compose {

void compute_sheets(const std::string& name, Workbook& /*book*/, const ComputedSheets& /*sheets*/) {
    throw std::logic_error("no sheets are computed as " + name);
}

}  // namespace slipbark::compose

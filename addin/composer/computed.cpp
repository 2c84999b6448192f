#include "composer/computed.hpp"

#include <stdexcept>

#include "composer/computed/cards.hpp"

namespace slipbark::compose {

void compute_sheets(const std::string& name, const ComputedSheets& sheets, const std::filesystem::path& folder) {
    if (name != "cards") throw std::logic_error("no sheets are computed as " + name);
    compute_cards(sheets, folder);
}

}  // namespace slipbark::compose

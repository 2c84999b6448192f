#include "calc.hpp"

#include <memory>

namespace slipbark::tests {

namespace {

struct Offices {
    std::unique_ptr<office::Office> with;
    std::unique_ptr<office::Office> without;
};

Offices& offices() {
    static Offices all;
    return all;
}

/// Ends the offices before the program takes its own libraries apart.
class AtTheEnd : public testing::Environment {
  public:
    void TearDown() override { offices() = {}; }
};

const auto* const at_the_end = testing::AddGlobalTestEnvironment(new AtTheEnd);

office::Office& started(std::unique_ptr<office::Office>& one, const std::filesystem::path& bundled) {
    if (!one) one = std::make_unique<office::Office>(office::Start{.bundled = bundled, .profile = {}, .words = {}});
    return *one;
}

}  // namespace

office::Office& calc() { return started(offices().with, SLIPBARK_BUNDLED); }

office::Office& bare() { return started(offices().without, {}); }

}  // namespace slipbark::tests

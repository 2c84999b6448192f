#include "calc.hpp"

#include <memory>

namespace slipbark::tests {

namespace {

std::unique_ptr<office::Office>& shared() {
    static std::unique_ptr<office::Office> office;
    return office;
}

/// Ends the office before the program takes its own libraries apart.
class AtTheEnd : public testing::Environment {
  public:
    void TearDown() override { shared().reset(); }
};

const auto* const at_the_end = testing::AddGlobalTestEnvironment(new AtTheEnd);

}  // namespace

office::Office& calc() {
    if (!shared()) {
        shared() =
            std::make_unique<office::Office>(office::Start{.bundled = SLIPBARK_BUNDLED, .profile = {}, .words = {}});
    }
    return *shared();
}

}  // namespace slipbark::tests

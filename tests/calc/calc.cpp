#include "calc.hpp"

#include <cstdlib>
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

/// What tests/newer-host/run sets in order to test another office than the one of this machine.
std::filesystem::path said(const char* variable, const char* otherwise) {
    const char* value = std::getenv(variable);
    return value == nullptr ? otherwise : value;
}

office::Office& started(std::unique_ptr<office::Office>& one, const std::filesystem::path& extensions) {
    if (!one) one = std::make_unique<office::Office>(start({.bundled = extensions, .profile = {}, .words = {}}));
    return *one;
}

}  // namespace

office::Start start(office::Start how) {
    how.program = said("SLIPBARK_TEST_PROGRAM", SLIPBARK_OFFICE_PROGRAM);
    return how;
}

std::filesystem::path bundled() { return said("SLIPBARK_TEST_BUNDLED", SLIPBARK_BUNDLED); }

std::filesystem::path fixtures() { return said("SLIPBARK_TEST_FIXTURES", SLIPBARK_FIXTURES); }

office::Office& calc() { return started(offices().with, bundled()); }

office::Office& bare() { return started(offices().without, {}); }

}  // namespace slipbark::tests

// The readers of formulas and literals behind "Explain this cell", and the names of functions, with arbitrary text.

#include "arbitrary.hpp"
#include "catalogue/explain.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace slipbark;
    using namespace slipbark::fuzz;
    Bytes bytes(data, size);
    const Day day = null_date(bytes);
    const bool known = bytes.ConsumeBool();
    const std::string formula = bytes.ConsumeRemainingBytesAsString();
    catalogue::literal(formula);
    catalogue::find(formula);
    const auto call = catalogue::find_call(formula);
    if (!call) return 0;
    if (call->entry == nullptr) found("a call of nothing");
    std::vector<catalogue::GivenArgument> given;
    for (const std::string& argument : call->arguments) {
        given.push_back({argument, catalogue::literal(argument), ""});
        if (known && !given.back().value) given.back().value = 1.0;
    }
    try {
        const std::string text = catalogue::explain(*call->entry, given, "1", day);
        if (!text.starts_with(call->entry->cell_name() + " shows ")) found("an explanation without a beginning");
    } catch (const std::exception& fault) {
        found(std::string("explain throws ") + fault.what());
    }
    return 0;
}

// The reader of formulas with arbitrary text: it loses nothing, its parts lie within what they were read from, and a
// stored formula read and stored again is the same.

#include <stdexcept>

#include "arbitrary.hpp"
#include "catalogue/formula.hpp"

namespace slipbark::fuzz {
namespace {

using namespace catalogue;

void within(Tokens part, std::string_view whole) {
    const std::string_view text = written(part);
    if (!text.empty() && (text.data() < whole.data() || text.data() + text.size() > whole.data() + whole.size())) {
        found("a part outside of its formula: " + std::string(text));
    }
}

std::string stored(std::string_view formula) {
    return stored_formula(formula, [](const std::string& name) { return name; });
}

}  // namespace
}  // namespace slipbark::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace slipbark::fuzz;
    const std::string formula(reinterpret_cast<const char*>(data), size);
    const auto all = tokens(formula);
    if (written(all) != formula ||
        rewritten(formula, [](const Token& one) { return std::string(one.text); }) != formula) {
        found("a formula with another text");
    }
    for (std::size_t at = 0; at < all.size(); ++at) {
        const auto from = Tokens(all).subspan(at);
        if (all[at].text.empty()) found("a token without a text");
        if (all[at].part == Part::reference && !all[at].text.starts_with('[') && !reference(all[at].text)) {
            found("no reference by itself: " + std::string(all[at].text));
        }
        if (const auto made = call(from)) {
            for (const Tokens argument : made->arguments) within(argument, formula);
            within(made->rest, formula);
        }
        literal(from.first(std::min<std::size_t>(from.size(), 9)));
        array_rows(from);
    }
    if (with_service(with_service(formula)) != with_service(formula)) found("a service named twice");
    std::string once;
    try {
        once = stored(formula);
    } catch (const std::logic_error&) {
        return 0;  // broken somewhere
    }
    if (stored("=" + once) != once) found("stored again another: " + once);
    return 0;
}

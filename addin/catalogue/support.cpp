#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

std::string why(const std::string& function, const Arguments& arguments) {
    const Entry* entry = find(function);
    if (entry == nullptr) {
        throw bad_argument("function", "was the text \"" + function + "\"",
                           "give the name of a REWORK function, such as \"STICKS\"");
    }
    try {
        const Outcome answer = entry->call(arguments);
        return std::holds_alternative<std::monostate>(answer) ? std::string(entry->texts.no_answer.english()) : "";
    } catch (const bad_argument& bad) {
        return bad.what();
    }
}

std::string version() { return SLIPBARK_VERSION; }

}  // namespace slipbark::catalogue

#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

std::string why_in(const Language& language, const std::string& function, const Arguments& arguments) {
    const Entry* entry = find(function);
    if (entry == nullptr) {
        throw bad_argument("function",
                           translatable("{1} was the text \"{2}\": give the name of a REWORK function, such as "
                                        "\"STICKS\"."),
                           {function});
    }
    try {
        const Outcome answer = entry->call(arguments);
        return std::holds_alternative<std::monostate>(answer) ? language.translated(entry->texts.no_answer) : "";
    } catch (const bad_argument& bad) {
        return language.translated(bad.message());
    }
}

std::string why(const std::string& function, const Arguments& arguments) { return why_in({}, function, arguments); }

std::string version() { return SLIPBARK_VERSION; }

}  // namespace slipbark::catalogue

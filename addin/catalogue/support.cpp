#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"

namespace slipbark::catalogue {

std::string why_in(const Language& language, const std::string& function, const Arguments& arguments) {
    const FunctionEntry* entry = find(function);
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
        // The English sentence is made already.
        return language.is_english() ? bad.what() : language.translated(bad.message());
    }
}

std::string why(const std::string& function, const Arguments& arguments) {
    return why_in(menu_language(), function, arguments);
}

std::string example_shows(const FunctionEntry& entry, const Language& language) {
    return entry.texts.shows_in == nullptr ? std::string(entry.texts.shows) : entry.texts.shows_in(language);
}

std::string version() { return SLIPBARK_VERSION; }

}  // namespace slipbark::catalogue

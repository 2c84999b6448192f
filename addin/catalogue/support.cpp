#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"

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
        // The English sentence is made already.
        return language.is_english() ? bad.what() : language.translated(bad.message());
    }
}

std::string why(const std::string& function, const Arguments& arguments) {
    return why_in(spoken(), function, arguments);
}

std::string example_shows(const Entry& entry, const Language& language) {
    const auto call = find_call("=" + std::string(entry.texts.example));
    if (entry.method != "why" || !call) return std::string(entry.texts.shows);
    Arguments arguments;
    for (const std::string& text : call->arguments) arguments.values.push_back(literal(text).value_or(Value{}));
    const std::string function = std::get<std::string>(arguments.values.at(0));
    arguments.values.erase(arguments.values.begin());
    return why_in(language, function, arguments);
}

std::string version() { return SLIPBARK_VERSION; }

}  // namespace slipbark::catalogue

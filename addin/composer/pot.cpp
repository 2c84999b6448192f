#include "composer/pot.hpp"

#include <boost/algorithm/string/replace.hpp>

namespace slipbark::compose {

namespace {

std::string in_quotes(std::string text) {
    boost::algorithm::replace_all(text, "\\", R"(\\)");
    boost::algorithm::replace_all(text, "\"", R"(\")");
    boost::algorithm::replace_all(text, "\n", R"(\n)");
    return "\"" + text + "\"";
}

/// Places, and no other brackets of their kind, which python-brace-format would not have.
bool has_places(const std::string& text) {
    bool any = false;
    for (std::size_t at = text.find_first_of("{}"); at != std::string::npos; at = text.find_first_of("{}", at + 1)) {
        const std::size_t close = text.find_first_not_of("0123456789", at + 1);
        if (text[at] != '{' || close == at + 1 || close == std::string::npos || text[close] != '}') return false;
        any = true;
        at = close;
    }
    return any;
}

}  // namespace

std::string pot(const std::vector<CollectedText>& texts) {
    std::string file =
        "msgid \"\"\nmsgstr \"\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n"
        "\"Content-Transfer-Encoding: 8bit\\n\"\n\"Plural-Forms: nplurals=INTEGER; plural=EXPRESSION;\\n\"\n";
    for (const CollectedText& text : texts) {
        file += "\n";
        if (text.file.empty()) file += "#. " + text.where + "\n";
        if (!text.comment.empty()) file += "#. " + text.comment + "\n";
        if (!text.file.empty()) file += "#: " + text.file + "\n";
        if (has_places(text.english)) file += "#, python-brace-format\n";
        file += "msgid " + in_quotes(text.english) + "\nmsgstr \"\"\n";
    }
    return file;
}

}  // namespace slipbark::compose

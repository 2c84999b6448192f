#include "texts.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <stdexcept>

namespace slipbark::tests {

namespace {

/// Made once: to read a pattern takes longer than to look for it.
const std::regex& read_once(const std::string& pattern) {
    static std::map<std::string, std::regex> all;
    return all.try_emplace(pattern, pattern).first->second;
}

}  // namespace

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path.string());
    return {std::istreambuf_iterator<char>(in), {}};
}

bool fits(const std::string& text, const std::string& pattern) { return std::regex_match(text, read_once(pattern)); }

std::vector<std::vector<std::string>> matches(const std::string& text, const std::string& pattern) {
    const std::regex& wanted = read_once(pattern);
    std::vector<std::vector<std::string>> all;
    for (std::sregex_iterator at(text.begin(), text.end(), wanted), end; at != end; ++at) {
        all.emplace_back(at->begin(), at->end());
    }
    return all;
}

std::string replaced(const std::string& text, const std::string& pattern, const std::string& with) {
    return std::regex_replace(text, read_once(pattern), with);
}

std::string as_id(std::string_view text) {
    std::string id(text);
    std::replace(id.begin(), id.end(), '-', '_');
    return id;
}

}  // namespace slipbark::tests

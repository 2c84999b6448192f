// The languages that are built in, from what embed.cmake makes of their .mo files: a line "TAG SIZE" for each, an empty
// line, and the files one after another. They are a section of their own, so that a test can put another language into
// a copy of the library (tests/pseudo).
#include <cstdlib>
#include <cstring>
#include <utility>

#include "catalogue/language.hpp"

namespace slipbark::catalogue {

extern const char catalogues[];

namespace {

std::vector<Language> read(const char* at) {
    std::vector<std::pair<std::string_view, std::size_t>> listed;
    while (*at != '\n') {
        const char* const blank = std::strchr(at, ' ');
        char* end = nullptr;
        const std::size_t size = std::strtoul(blank, &end, 10);
        listed.emplace_back(std::string_view(at, static_cast<std::size_t>(blank - at)), size);
        at = end + 1;
    }
    ++at;
    std::vector<Language> all{Language()};
    for (const auto& [tag, size] : listed) {
        all.emplace_back(tag, std::string_view(at, size));
        at += size;
    }
    return all;
}

}  // namespace

const std::vector<Language>& languages() {
    static const std::vector<Language> all = read(catalogues);
    return all;
}

}  // namespace slipbark::catalogue

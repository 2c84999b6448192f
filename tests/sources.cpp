// Prints docs/sources.md: every source that a check value in reference/ names, with what is checked against it.

#include <iostream>
#include <map>
#include <set>

#include "reference.hpp"

int main() {
    using slipbark::tests::rows;
    struct Use {
        std::size_t values = 0;
        std::set<std::string> files;
        std::set<std::string> provenances;
    };
    std::map<std::string, Use> sources;
    std::size_t all = 0;
    for (const auto& file : slipbark::tests::reference_files()) {
        for (const auto& row : rows(file)) {
            if (!row.has("source")) continue;
            Use& use = sources[row["source"]];
            ++use.values;
            ++all;
            use.files.insert(file);
            // Rows of whole calls were all computed, in the ways that their source tells.
            use.provenances.insert(row.has("provenance") ? row["provenance"] : "computed");
        }
    }
    std::cout
        << "# Sources of the check values\n\n"
           "Made from tests/reference/*.csv by the build; do not edit. Every row is a test: "
        << all << " check values from " << sources.size()
        << " sources.\n\n"
           "*published-seen*: the printed value was read; *published-memory*: the printed value is from memory of "
           "the\nnamed publication and reproduces by computation; *computed*: computed independently in at least "
           "two ways, or exactly\nfrom a definition. Rules of the trade without a published source are marked common "
           "practice where they stand\n(functions/defaults.cpp, docs/reference.md).\n\n"
           "| source | values | file | provenance |\n|---|---|---|---|\n";
    const auto joined = [](const std::set<std::string>& words) {
        std::string text;
        for (const auto& word : words) text.append(text.empty() ? "" : ", ").append(word);
        return text;
    };
    for (const auto& [source, use] : sources) {
        std::string cell = source;
        for (std::size_t at = 0; (at = cell.find('|', at)) != std::string::npos; at += 2) cell.insert(at, "\\");
        std::cout << "| " << cell << " | " << use.values << " | " << joined(use.files) << " | "
                  << joined(use.provenances) << " |\n";
    }
}

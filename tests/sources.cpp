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
           "two ways, or exactly\nfrom a definition. Rules of the trade without one say so where they stand:\n"
           "\"experience, no published source\" or \"assumption of this program\" (functions/support/defaults.cpp, "
           "docs/reference.md).\n\n"
           "**The share of a mature yield at the first and second crop** (a fifth at 33 months, half at 45) is "
           "experience, no\npublished source. What is in print on recovery disagrees with it and with itself: yield a "
           "tree back in 2 to 3 years after\ntopworking citrus, new trees up to 4 years to a first set (Swiegers, "
           "Joubert & Cronje, Top-working of citrus, SA Fruit\nJournal, October/November 2021); fruit from the first "
           "spring on where it is done in stages (IFAPA, Poda e injerto de los\ncitricos, 2021, seen as an extract); a "
           "crop in the second year, China (grower press, weak); first crop after 1.5 years for\ngrafted vines, "
           "third leaf and half a crop for replanted ones (Good Fruit Grower, 2018, weak); planted oranges in Florida "
           "at a\nquarter of the oldest trees' boxes at 3 to 5 years and half at 6 to 8 (Florida Agricultural "
           "Statistics Service, 1995-96 to\n1997-98). Put your own records in its place.\n\n"
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

// Prints the tables of docs/trust.md: how often what the functions say of takes comes true.
//   slipbark_simulation [sets]   sets a setting, default 4000; those that cost much take 2000

#include <cstdio>
#include <cstdlib>

#include "coverage.hpp"

int main(int count, char** arguments) {
    const int sets = count > 1 ? std::atoi(arguments[1]) : 4000;
    for (const auto& claim : slipbark::simulation::all_claims(slipbark::simulation::Grid::full, sets)) {
        std::fputs(slipbark::simulation::as_markdown(claim).c_str(), stdout);
    }
    return 0;
}

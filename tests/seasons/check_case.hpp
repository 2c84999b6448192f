// The worked case of tests/reference/Z_seasons_model.md: four blocks, four seasons, limits watched over seven. The data
// are invented; the answers were found by trying all 625 arrangements in exact fractions and by GLPK 5.
#pragma once

#include <vector>

#include "seasons/model.hpp"

namespace slipbark::tests {

/// `own_wood`: reworked blocks give wood.
seasons::Farm check_farm(bool same_end, bool margins, bool own_wood = true);

/// What more of one kind of limit allows.
struct CheckedGain {
    seasons::Kind kind;
    seasons::Arrangement arrangement;
    double worth;
    double adds;
    std::vector<double> extra;  ///< by season; empty: nothing better
};

struct CheckedCase {
    const char* id;
    bool same_end;
    bool margins;
    seasons::Arrangement arrangement;  ///< seasons of A, B, C, D
    double worth;
    std::vector<CheckedGain> gains;
};

const std::vector<CheckedCase>& checked_cases();

}  // namespace slipbark::tests

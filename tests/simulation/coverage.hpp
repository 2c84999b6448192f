// How often what the functions say of takes comes true, on trees drawn at random with fixed seeds.
//
// The grafts of a tree are drawn from the beta-binomial: a take of the tree's own, then each graft by that take. A
// setting is one combination of a grid; of each so many sets of counts are drawn, the function is asked, and what it
// says is compared with what was put in.
#pragma once

#include <string>
#include <vector>

namespace slipbark::simulation {

/// What came of one setting.
struct Setting {
    std::string row;     ///< what is at the left of the table: "0.2 / 0.90"
    std::string column;  ///< and above it: "10 trees"
    double sets = 0;     ///< drawn
    double answers = 0;  ///< of these, with an answer
    double right = 0;    ///< of the answers, how many were right
    double width = 0;    ///< of all limits together
    double known = 0;    ///< width of limits with the variance known, all together; 0 where it is not compared

    [[nodiscard]] double share_right() const { return answers > 0 ? right / answers : 0; }
    [[nodiscard]] double relative_width() const { return known > 0 ? width / known : 0; }
};

/// One claim of the functions over a grid.
struct Claim {
    std::string title;    ///< what is said, and of which function
    std::string rows;     ///< what the parts of Setting::row are
    double promised = 0;  ///< share that should be right; 0 where the share itself is what is asked
    double least = 0;     ///< share below which it does not keep what it promises
    double most = 1;      ///< and above which; 1 where there is none
    std::vector<Setting> settings = {};
};

/// How large a grid: `full` is that of docs/trust.md, `thin` has a few settings of each claim.
enum class Grid { full, thin };

Claim limits_of_trees(Grid grid, int sets);            ///< TAKETREES
Claim limits_of_part_of_a_block(Grid grid, int sets);  ///< TAKETREES with of_trees
Claim limits_of_groups(Grid grid, int sets);           ///< TAKEBY, groups unlike each other
Claim equal_groups_apart(Grid grid, int sets);         ///< TAKEBY, six equal groups
Claim unequal_groups_apart(Grid grid, int sets);       ///< TAKEBY and TAKEDIFF, the power of looking apart
Claim factors(Grid grid, int sets);                    ///< TAKEFACTORS
Claim grafts_promised(Grid grid, int sets);            ///< GRAFTSFROM
Claim graft_life(Grid grid, int sets);                 ///< GRAFTLIFE with trees
Claim life_at_zero(Grid grid, int sets);               ///< GRAFTLIFE where the curve is 0
Claim next_stage(Grid grid, int sets);                 ///< OWNSCHEDULE
Claim fitted_stretch(Grid grid, int sets);             ///< YIELDFIT, the stretch
Claim fitted_yield(Grid grid, int sets);               ///< YIELDFIT, the mature yield
Claim stopping(Grid grid, int sets);                   ///< COUNTON, blocks called wrongly
Claim trial_power(Grid grid, int sets);                ///< TRIALPOWER against trials analysed by TAKEFACTORS

/// TAKEPOOL: a group of those drawn, and a new one.
struct PooledClaims {
    Claim group;
    Claim new_group;
};
PooledClaims pooled_limits(Grid grid, int sets);

/// All of them in that order. `sets` is for those that cost little; others take fewer, at least 2,000 on the full grid.
std::vector<Claim> all_claims(Grid grid, int sets);

/// A table of docs/trust.md: every setting, and below it the worst.
std::string as_markdown(const Claim& claim);

}  // namespace slipbark::simulation

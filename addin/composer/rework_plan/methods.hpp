// The built-in ways of grafting as the book needs them: which stage is the take check, and how long each one takes.
#pragma once

#include <string>
#include <vector>

namespace slipbark::compose::block {

struct MethodStage {
    std::string name;
    double minutes = 0;  ///< a tree, each time; 0 where nothing is assumed
    double times = 0;
    bool once = false;  ///< once for the block, and not row by row
};

/// A built-in schedule. Stages are meant by their number, since their names may be changed; 0 where there is none.
struct Method {
    std::string name;
    std::vector<MethodStage> stages;
    int cut = 0;   ///< cutting back
    int look = 0;  ///< take check
    int off = 0;   ///< bags or ties come off
    int nurse_off = 0;
    int first_crop = 0;
    int second_crop = 0;
};

const std::vector<Method>& methods();

/// The row of the first stage on sheet Defaults.
inline constexpr int first_stage_default = 6;

}  // namespace slipbark::compose::block

#pragma once

namespace slipbark::statistics {

/// A tally of one tree, grafter, day or batch: 0 <= live <= grafted, whole unless said otherwise.
struct Count {
    double live = 0;
    double grafted = 0;
};

}  // namespace slipbark::statistics

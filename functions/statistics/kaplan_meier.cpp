#include "statistics/kaplan_meier.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace slipbark::statistics {

namespace {

Limits log_log(double share, double variance, double deviate) {
    const double logarithm = std::log(share);
    const double half = deviate * std::sqrt(variance) / -logarithm;
    return {std::exp(logarithm * std::exp(half)), std::exp(logarithm * std::exp(-half))};
}

}  // namespace

std::optional<Survival> kaplan_meier(std::vector<Look> looks, double at_day, double confidence) {
    std::sort(looks.begin(), looks.end(), [](const Look& one, const Look& other) {
        return std::pair(one.day, !one.lost) < std::pair(other.day, !other.lost);
    });
    const double tail = tail_of(confidence);
    const double deviate = normal_deviate(confidence);
    const auto all = static_cast<double>(looks.size());
    double share = 1;
    double variance = 0;
    double losses = 0;
    std::size_t at = 0;
    while (at < looks.size() && looks[at].day <= at_day) {
        const double day = looks[at].day;
        const auto watched = static_cast<double>(looks.size() - at);
        double gone = 0;
        for (; at < looks.size() && looks[at].day == day; ++at) gone += looks[at].lost ? 1 : 0;
        if (gone == 0) continue;
        if (gone == watched) {
            const bool seen_to_the_end = losses + gone == all;
            if (seen_to_the_end) return Survival{0, {0, exact({0, all}, tail, Side::high)}};
            const double before = losses == 0 ? 1 : log_log(share, variance, deviate).high;
            return Survival{0, {0, before * exact({0, watched}, tail, Side::high)}};
        }
        losses += gone;
        share *= (watched - gone) / watched;
        variance += gone / (watched * (watched - gone));
    }
    if (at_day > looks.back().day) return std::nullopt;
    if (losses == 0) {
        const auto first =
            std::find_if(looks.begin(), looks.end(), [&](const Look& look) { return look.day >= at_day; });
        const auto watched = static_cast<double>(looks.end() - first);
        return Survival{1, {exact({watched, watched}, tail, Side::low), 1}};
    }
    return Survival{share, log_log(share, variance, deviate)};
}

}  // namespace slipbark::statistics

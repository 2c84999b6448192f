#include "statistics/kaplan_meier.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace slipbark::statistics {

namespace {

ConfidenceInterval log_log(double share, double variance, double deviate) {
    const double logarithm = std::log(share);
    const double half = deviate * std::sqrt(variance) / -logarithm;
    return {std::exp(logarithm * std::exp(half)), std::exp(logarithm * std::exp(-half))};
}

/// How many clusters have one that is still watched from `first` on.
double clusters_from(std::vector<Observation>::const_iterator first, const std::vector<Observation>& looks,
                     std::size_t clusters) {
    std::vector<bool> seen(clusters, false);
    double number = 0;
    for (auto look = first; look != looks.end(); ++look) {
        if (!seen[look->cluster]) ++number;
        seen[look->cluster] = true;
    }
    return number;
}

}  // namespace

std::optional<Survival> kaplan_meier(std::vector<Observation> looks, double at_day, double confidence,
                                     Clustered clustered) {
    std::sort(looks.begin(), looks.end(), [](const Observation& one, const Observation& other) {
        return std::pair(one.day, !one.lost) < std::pair(other.day, !other.lost);
    });
    const bool in_clusters = clustered == Clustered::yes;
    std::size_t clusters = 0;
    for (const Observation& look : looks) clusters = std::max(clusters, look.cluster + 1);
    const double tail = tail_of(confidence);
    const double deviate =
        in_clusters ? student_deviate(confidence, static_cast<double>(clusters) - 1) : normal_deviate(confidence);
    const auto at_risk = [&](std::size_t from) {
        const auto first = looks.cbegin() + static_cast<std::ptrdiff_t>(from);
        return in_clusters ? clusters_from(first, looks, clusters) : static_cast<double>(looks.cend() - first);
    };

    double share = 1;
    double variance = 0;  // Greenwood's, of the logarithm of the share
    double losses = 0;
    std::vector<double> influence(in_clusters ? clusters : 0);  // of each cluster on that logarithm
    const auto log_log_now = [&] {
        double used = variance;
        if (in_clusters) {
            double squares = 0;
            for (const double one : influence) squares += one * one;
            const auto number = static_cast<double>(clusters);
            used = std::max(used, number / (number - 1) * squares);
        }
        return log_log(share, used, deviate);
    };
    std::size_t at = 0;
    while (at < looks.size() && looks[at].day <= at_day) {
        const double day = looks[at].day;
        const std::size_t first = at;
        const auto watched = static_cast<double>(looks.size() - at);
        double gone = 0;
        for (; at < looks.size() && looks[at].day == day; ++at) gone += looks[at].lost ? 1 : 0;
        if (gone == watched) {
            const bool seen_to_the_end = losses + gone == static_cast<double>(looks.size());
            if (seen_to_the_end) return Survival{0, {0, exact({0, at_risk(0)}, tail, Side::high)}};
            // Those still watched have seen all earlier losses.
            for (std::size_t later = first; in_clusters && later < looks.size(); ++later) {
                influence[looks[later].cluster] += variance;
            }
            const double before = losses == 0 ? 1 : log_log_now().high;
            return Survival{0, {0, before * exact({0, at_risk(first)}, tail, Side::high)}};
        }
        if (gone > 0) {
            losses += gone;
            share *= (watched - gone) / watched;
            variance += gone / (watched * (watched - gone));
        }
        for (std::size_t look = first; in_clusters && look < at; ++look) {
            influence[looks[look].cluster] += variance - (looks[look].lost ? 1 / (watched - gone) : 0);
        }
    }
    if (at_day > looks.back().day) return std::nullopt;
    if (losses == 0) {
        const auto still =
            std::find_if(looks.begin(), looks.end(), [&](const Observation& look) { return look.day >= at_day; });
        const double watched = at_risk(static_cast<std::size_t>(still - looks.begin()));
        return Survival{1, {exact({watched, watched}, tail, Side::low), 1}};
    }
    for (; in_clusters && at < looks.size(); ++at) influence[looks[at].cluster] += variance;
    return Survival{share, log_log_now()};
}

}  // namespace slipbark::statistics

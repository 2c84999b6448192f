#include "futures.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "slipbark/odds.hpp"

namespace slipbark::tests {

namespace {

/// Below 1, with all the digits of a double.
double even(std::mt19937_64& source) { return std::ldexp(static_cast<double>(source() >> 11), -53); }

/// The smaller side first, by the inverse of the distribution function.
double triangular(const FutureSpread& spread, std::mt19937_64& source) {
    const double width = spread.high - spread.low;
    const double drawn = even(source);
    if (width == 0) return spread.low;
    const double rising = (spread.likely - spread.low) / width;
    if (drawn < rising) return spread.low + std::sqrt(drawn * width * (spread.likely - spread.low));
    return spread.high - std::sqrt((1 - drawn) * width * (spread.high - spread.likely));
}

const FutureSpread* find(const FutureCase& block, const char* what) {
    const auto found = std::find_if(block.spreads.begin(), block.spreads.end(),
                                    [&](const FutureSpread& one) { return one.what == what; });
    return found == block.spreads.end() ? nullptr : &*found;
}

double drawn(const FutureCase& block, const char* what, double certain, std::mt19937_64& source) {
    const FutureSpread* spread = find(block, what);
    return spread == nullptr ? certain : triangular(*spread, source);
}

/// Live share of a take, over the planned one, where a part of what fails is grafted again.
double frame(const FutureSpread& take, double factor) {
    const auto living = [&](double first) { return first + take.made_good * (1 - first); };
    return living(std::min(1.0, factor * take.planned)) / living(take.planned);
}

}  // namespace

Table FutureCase::years_table() const {
    Table table(5, {});
    for (const FutureYear& year : years) {
        table.cells.insert(table.cells.end(), {year.costs, year.crop, year.picking, year.old_crop, year.saved});
    }
    return table;
}

Table FutureCase::spreads_table() const {
    Table table(6, {});
    for (const FutureSpread& spread : spreads) {
        // 0 and 1 are what a blank would be.
        const double fifth = spread.what == "frost" ? spread.of_frost : spread.made_good;
        table.cells.insert(table.cells.end(),
                           {spread.what, spread.low, spread.likely, spread.high, fifth, spread.planned});
    }
    return table;
}

FutureShares free_futures(const FutureCase& block, int draws, std::uint64_t seed) {
    std::mt19937_64 source(seed);
    const std::size_t count = block.years.size();
    std::vector<int> paid(count);
    std::vector<int> beyond(count);
    std::size_t begins = 0;
    while (block.years[begins].costs <= 0 && block.years[begins].old_crop <= block.years[begins].saved) ++begins;
    for (int draw = 0; draw < draws; ++draw) {
        const double outlay = drawn(block, "outlay", 1, source);
        const double later = drawn(block, "costs", 1, source);
        const double price = drawn(block, "price", 1, source);
        const double old_price = drawn(block, "old price", 1, source);
        const double yields = drawn(block, "yield", 1, source);
        const FutureSpread* take = find(block, "take");
        const double lives = take == nullptr ? 1 : frame(*take, triangular(*take, source));
        const double late = drawn(block, "delay", 0, source);
        const FutureSpread* frost = find(block, "frost");
        double sum = 0;
        bool below = false;
        std::size_t back = count;
        std::size_t too_deep = count;
        for (std::size_t year = 0; year < count; ++year) {
            double borne = drawn(block, "season", 1, source);
            if (frost != nullptr && even(source) < frost->of_frost) borne *= 1 - triangular(*frost, source);
            // A crop that is late by 1.3 years comes to 0.7 in the year after and to 0.3 in the next.
            double crop = 0;
            double picking = 0;
            for (std::size_t grown = 0; grown <= year; ++grown) {
                const double part = 1 - std::abs(static_cast<double>(year - grown) - late);
                if (part <= 0) continue;
                crop += part * block.years[grown].crop;
                picking += part * block.years[grown].picking;
            }
            const FutureYear& planned = block.years[year];
            double flow = borne * lives * yields * (price * crop - picking);
            flow -= borne * (old_price * planned.old_crop - planned.saved);
            flow -= planned.costs * (year == 0 ? outlay : later);
            sum += flow * std::pow(1 + block.rate, -static_cast<double>(year));
            if (below && sum >= -1e-9 && back == count) back = year;
            below = below || sum < -1e-9;
            if (sum < -block.limit - 1e-9 && too_deep == count) too_deep = year;
        }
        if (!below) back = begins;
        for (std::size_t year = 0; year < count; ++year) {
            paid[year] += back <= year ? 1 : 0;
            beyond[year] += too_deep <= year ? 1 : 0;
        }
    }
    FutureShares shares;
    for (std::size_t year = 0; year < count; ++year) {
        shares.paid_back.push_back(static_cast<double>(paid[year]) / draws);
        shares.beyond_limit.push_back(static_cast<double>(beyond[year]) / draws);
    }
    return shares;
}

std::vector<FutureCase> future_cases() {
    std::mt19937_64 source(20271128);
    const auto from_to = [&](double low, double high) { return low + (high - low) * even(source); };
    std::vector<FutureCase> cases;
    for (int round = 0; round < 12; ++round) {
        FutureCase block;
        block.name = "block " + std::to_string(round + 1);
        const int years = 8 + round;
        const double mature = from_to(14'000, 24'000);
        const double picking_share = from_to(0.15, 0.35);
        const double old_crop = from_to(3'000, 9'000);
        for (int year = 0; year < years; ++year) {
            const double borne = std::clamp((year - 1) / from_to(4, 7), 0.0, 1.0);
            const double old_now = year == 0 ? 0 : old_crop * std::max(0.3, 1 - 0.04 * year);
            block.years.push_back({.costs = year == 0 ? from_to(12'000, 20'000) : from_to(500, 2'500),
                                   .crop = mature * borne,
                                   .picking = mature * borne * picking_share,
                                   .old_crop = old_now,
                                   .saved = 0.3 * old_now});
        }
        const std::vector<FutureSpread> all{
            {.what = "outlay", .low = 0.9, .high = 1.3},
            {.what = "costs", .low = 0.85, .high = from_to(1.1, 1.4)},
            {.what = "price", .low = from_to(0.6, 0.8), .high = 1.2},
            {.what = "old price", .low = 0.6, .likely = 0.95, .high = 1.15},
            {.what = "yield", .low = 0.75, .high = 1.15},
            {.what = "take", .low = 0.6, .high = 1.2, .made_good = from_to(0, 0.8), .planned = from_to(0.6, 0.95)},
            {.what = "season", .low = from_to(0, 0.6), .high = 1.3},
            {.what = "frost", .low = 0.3, .likely = 0.8, .high = 1, .of_frost = from_to(0.05, 0.2)},
            {.what = "delay", .low = 0, .likely = 0, .high = from_to(0.5, 2)}};
        // All, all but one, one alone and the frost.
        const auto chosen = static_cast<std::size_t>(round) % all.size();
        for (std::size_t at = 0; at < all.size(); ++at) {
            const bool taken = round % 3 == 0 || (round % 3 == 1 ? at != chosen : at == chosen || at == 7);
            if (taken) block.spreads.push_back(all[at]);
        }
        block.rate = round % 4 == 0 ? 0 : from_to(0.02, 0.08);
        block.limit = from_to(20'000, 45'000);
        cases.push_back(std::move(block));
    }
    return cases;
}

Distance distance(const FutureCase& block, int draws, double runs) {
    const FutureShares free = free_futures(block, draws, 4711);
    const auto odds = odds::flow_odds(block.years_table(), block.spreads_table(), block.rate, runs, block.limit);
    Distance found;
    double sum = 0;
    const auto compare = [&](double one, double other) {
        if ((one == 0 && other == 0) || (one == 1 && other == 1)) return;
        found.largest = std::max(found.largest, std::abs(one - other));
        sum += std::abs(one - other);
        ++found.shares;
    };
    for (std::size_t year = 0; year < odds.size(); ++year) {
        compare(odds[year].paid_back, free.paid_back[year]);
        compare(odds[year].beyond_limit.value(), free.beyond_limit[year]);
    }
    found.mean = found.shares == 0 ? 0 : sum / found.shares;
    return found;
}

}  // namespace slipbark::tests

// The model of several seasons without an office: the worked case of tests/reference/Z_seasons_model.md and random
// small farms, each by trying every arrangement.
#include "seasons/model.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <random>

#include "check_case.hpp"

namespace slipbark::tests {
namespace {

using namespace seasons;

const auto always = [] { return true; };

double value(const Row& row, const std::vector<double>& values) {
    double sum = 0;
    for (const auto& [column, factor] : row.factors) sum += factor * values[column];
    return sum;
}

/// The largest goal by trying all: of each row that says "one of these at most" none or one column is 1, and what the
/// other columns must be follows row by row, as each limit has a last column of its own.
Answer try_all(const Program& program) {
    std::vector<std::vector<std::size_t>> groups;
    for (const Row& row : program.rows) {
        const bool one_of = row.most == 1.0 &&
                            std::all_of(row.factors.begin(), row.factors.end(),
                                        [&](const auto& one) { return one.second == 1 && program.whole[one.first]; });
        if (!one_of || row.factors.empty()) continue;
        groups.emplace_back();
        for (const auto& [column, factor] : row.factors) groups.back().push_back(column);
    }
    Answer answer;
    double most = 0;
    std::vector<double> values(program.goal.size());
    const std::function<void(std::size_t)> choose = [&](std::size_t group) {
        if (group < groups.size()) {
            choose(group + 1);
            for (const std::size_t column : groups[group]) {
                values[column] = 1;
                choose(group + 1);
                values[column] = 0;
            }
            return;
        }
        std::vector<double> tried = values;
        for (const Row& row : program.rows) {
            double sum = value(row, tried);
            if (row.most && sum > *row.most + 1e-6 && !row.factors.empty()) {
                const std::size_t last = row.factors.back().first;
                if (!program.whole[last]) {
                    tried[last] = sum - *row.most;
                    sum = *row.most;
                }
            }
            if ((row.most && sum > *row.most + 1e-6) || (row.least && sum < *row.least - 1e-6)) return;
        }
        const double goal = std::inner_product(tried.begin(), tried.end(), program.goal.begin(), 0.0);
        if (answer.values && goal <= most) return;
        most = goal;
        answer.values = tried;
    };
    choose(0);
    return answer;
}

/// Every arrangement of a farm, allowed or not.
template <class Use>
void each(const Farm& farm, Use use) {
    Arrangement arrangement(farm.blocks.size());
    const std::function<void(std::size_t)> choose = [&](std::size_t block) {
        if (block == arrangement.size()) return use(arrangement);
        for (int season = 0; season <= farm.grafting_seasons; ++season) {
            arrangement[block] = season;
            choose(block + 1);
        }
    };
    choose(0);
}

class CheckCase : public testing::TestWithParam<CheckedCase> {
  protected:
    [[nodiscard]] static Farm farm() { return check_farm(GetParam().same_end, GetParam().margins); }
};
INSTANTIATE_TEST_SUITE_P(Z, CheckCase, testing::ValuesIn(checked_cases()),
                         [](const auto& tested) { return std::string("case_") + tested.param.id[2]; });

TEST_P(CheckCase, HasNoBetterAmongAll625) {
    int tried = 0;
    int fitting = 0;
    double most = 0;
    Arrangement first;
    each(farm(), [&](const Arrangement& one) {
        ++tried;
        if (!fits(farm(), one)) return;
        ++fitting;
        const double found = worth(farm(), one);
        if (found > most) {
            most = found;
            first = one;
        }
    });
    EXPECT_EQ(tried, 625);
    EXPECT_GT(fitting, 1);
    EXPECT_NEAR(most, GetParam().worth, 1e-6 * most);
    EXPECT_EQ(first, GetParam().arrangement);
}

TEST_P(CheckCase, IsFoundByTheModel) {
    const Best found = best(farm(), {}, try_all);
    ASSERT_TRUE(found.arrangement);
    EXPECT_EQ(*found.arrangement, GetParam().arrangement);
    EXPECT_NEAR(found.worth, GetParam().worth, 1e-6 * found.worth);
}

TEST_P(CheckCase, SaysWhatItWouldTake) {
    const Best now = best(farm(), {}, try_all);
    const auto found = gains(farm(), now, try_all, always);
    ASSERT_EQ(found.size(), GetParam().gains.size());
    for (std::size_t at = 0; at < found.size(); ++at) {
        const CheckedGain& checked = GetParam().gains[at];
        EXPECT_EQ(found[at].kind, checked.kind);
        EXPECT_TRUE(found[at].known);
        EXPECT_EQ(found[at].any, !checked.extra.empty()) << at;
        if (checked.extra.empty()) continue;
        EXPECT_EQ(found[at].arrangement, checked.arrangement) << at;
        EXPECT_NEAR(now.worth + found[at].adds, checked.worth, 1e-6 * checked.worth);
        EXPECT_NEAR(found[at].adds, checked.adds, 1e-3);
        ASSERT_EQ(found[at].extra.size(), checked.extra.size());
        for (std::size_t season = 0; season < checked.extra.size(); ++season) {
            EXPECT_NEAR(found[at].extra[season], checked.extra[season], 1e-6) << at << ", " << season;
        }
    }
}

TEST(CheckFarm, HasAnotherBestWithoutItsOwnWood) {
    const Best found = best(check_farm(false, true, false), {}, try_all);
    EXPECT_EQ(found.arrangement, Arrangement({0, 1, 3, 0}));
    EXPECT_NEAR(found.worth, 33536.5683, 1e-6 * found.worth);
}

TEST(CheckFarm, SaysWhatEachSeasonComesTo) {
    // Z_seasons_model.md, last table: days, sticks of P wanted and own, of R, flow, purse, crop.
    const double expected[7][8] = {
        {19, 1130, 0, 0, 0, -14800, 3200, 108},     {3, 150, 0, 0, 0, -15900, 9300, 111},
        {10, 50, 420, 510, 0, -19900, 3400, 107.5}, {15, 840, 980, 60, 0, -23200, 6200, 99.5},
        {3, 110, 980, 20, 190, -13700, 4500, 114},  {1, 40, 1280, 0, 450, 1000, 13500, 129},
        {0, 0, 1680, 0, 450, 16600, 52100, 142.5}};
    const auto found = uses(check_farm(false, true), {4, 1, 3, 0});
    ASSERT_EQ(found.size(), 7U);
    for (std::size_t season = 0; season < 7; ++season) {
        const Use& use = found[season];
        const double here[] = {use.days,   use.wanted[0], use.own[0], use.wanted[1],
                               use.own[1], use.flow,      use.purse,  use.crop};
        for (int at = 0; at < 8; ++at) EXPECT_NEAR(here[at], expected[season][at], 1e-9) << season << ", " << at;
    }
}

/// A farm of two or three blocks and seasons, most of whose limits may be broken.
Farm random_farm(std::mt19937_64& source) {
    const auto from_to = [&](int low, int high) {
        return static_cast<double>(std::uniform_int_distribution<int>(low, high)(source));
    };
    const auto yes = [&](int of_ten) { return from_to(1, 10) <= of_ten; };
    Farm farm;
    farm.grafting_seasons = static_cast<int>(from_to(2, 3));
    farm.sources = 2;
    farm.years = static_cast<int>(from_to(4, 7));
    farm.rate = from_to(0, 8) / 100;
    farm.same_end = yes(5);
    farm.margins = yes(5);
    farm.carry = yes(5);
    farm.rest_crop = from_to(0, 20);
    for (int season = 0; season < farm.grafting_seasons + 2; ++season) {
        Season there;
        if (yes(8)) there.days = from_to(5, 30);
        for (int wood = 0; wood < 2; ++wood) {
            there.sticks.push_back(yes(7) ? std::optional(from_to(0, 900)) : std::nullopt);
        }
        if (yes(8)) there.cash = from_to(-20, 220) * 100;
        if (yes(6)) there.crop_kept = from_to(20, 80) / 100;
        farm.seasons.push_back(there);
    }
    for (int block = static_cast<int>(from_to(2, 4)); block > 0; --block) {
        Block made;
        for (int year = 0; year <= farm.years; ++year) {
            made.flows.push_back(year < 3 ? -from_to(10, 90) * 100 : from_to(-10, 120) * 100);
        }
        made.days = {from_to(4, 20), from_to(0, 4), from_to(0, 2)};
        const auto wood = static_cast<std::size_t>(from_to(0, 1));
        made.sticks.resize(2);
        made.gives.resize(2);
        made.sticks[wood] = {from_to(100, 600), from_to(0, 90), from_to(0, 30)};
        if (yes(5)) made.gives[wood] = {0, 0, from_to(0, 300), from_to(0, 600)};
        made.old_crop = from_to(5, 30);
        made.new_crop = {0, 0, from_to(0, 5), from_to(3, 15), from_to(10, 40)};
        made.latest = farm.grafting_seasons;
        made.earliest = yes(2) ? 2 : 1;
        if (yes(1)) made.rule = yes(5) ? Rule::must : Rule::never;
        if (yes(1)) made.pinned = static_cast<int>(from_to(0, farm.grafting_seasons));
        farm.blocks.push_back(std::move(made));
    }
    return farm;
}

TEST(RandomFarms, AreArrangedBestAsTryingAllFinds) {
    std::mt19937_64 source(20271129);
    int arranged = 0;
    int with_gain = 0;
    int left_out = 0;
    int without_any = 0;
    for (int round = 0; round < 300; ++round) {
        const Farm farm = random_farm(source);
        std::optional<double> most;
        std::map<Kind, double> without;
        each(farm, [&](const Arrangement& one) {
            const double found = worth(farm, one);
            if (fits(farm, one)) most = std::max(most.value_or(found), found);
            for (const Kind kind : kinds) {
                if (fits(farm, one, kind))
                    without[kind] = std::max(without.contains(kind) ? without[kind] : found, found);
            }
        });
        const Best now = best(farm, {}, try_all);
        ASSERT_EQ(now.arrangement.has_value(), most.has_value()) << round;
        if (!most) {
            ++without_any;
            for (const Gain& way : ways_out(farm, try_all, always)) {
                double least = std::numeric_limits<double>::infinity();
                each(farm, [&](const Arrangement& one) {
                    if (!fits(farm, one, way.kind)) return;
                    const auto extra = missing(farm, one, way.kind);
                    least = std::min(least, std::accumulate(extra.begin(), extra.end(), 0.0));
                });
                ASSERT_EQ(way.any, std::isfinite(least)) << round;
                if (!way.any) continue;
                ASSERT_NEAR(std::accumulate(way.extra.begin(), way.extra.end(), 0.0), least, 1e-6) << round;
            }
            continue;
        }
        ++arranged;
        ASSERT_NEAR(now.worth, *most, 1e-6) << round;
        for (const Gain& gain : gains(farm, now, try_all, always)) {
            ASSERT_EQ(gain.any, without[gain.kind] > *most + 1e-3) << round;
            if (!gain.any) continue;
            ++with_gain;
            ASSERT_NEAR(now.worth + gain.adds, without[gain.kind], 1e-2) << round;
            // No other arrangement of that worth takes less, and with what it takes it fits.
            double least = std::numeric_limits<double>::infinity();
            each(farm, [&](const Arrangement& one) {
                if (!fits(farm, one, gain.kind) || worth(farm, one) < without[gain.kind] - 1e-3) return;
                const auto extra = missing(farm, one, gain.kind);
                least = std::min(least, std::accumulate(extra.begin(), extra.end(), 0.0));
            });
            ASSERT_NEAR(std::accumulate(gain.extra.begin(), gain.extra.end(), 0.0), least, 1e-6) << round;
        }
        for (const Forced& forced : forced_in(farm, now, try_all, always)) {
            ++left_out;
            std::optional<double> with;
            each(farm, [&](const Arrangement& one) {
                if (one[forced.block] == 0 || !fits(farm, one)) return;
                with = std::max(with.value_or(worth(farm, one)), worth(farm, one));
            });
            ASSERT_EQ(forced.worth.has_value(), with.has_value()) << round;
            if (with) {
                ASSERT_NEAR(*forced.worth, *with, 1e-6) << round;
            }
            for (const Gain& gain : forced.takes) {
                double least = std::numeric_limits<double>::infinity();
                each(farm, [&](const Arrangement& one) {
                    if (one[forced.block] == 0 || !fits(farm, one, gain.kind) || worth(farm, one) < *most - 1e-3)
                        return;
                    const auto extra = missing(farm, one, gain.kind);
                    least = std::min(least, std::accumulate(extra.begin(), extra.end(), 0.0));
                });
                ASSERT_EQ(gain.any, std::isfinite(least)) << round;
                if (!gain.any) continue;
                ASSERT_NEAR(std::accumulate(gain.extra.begin(), gain.extra.end(), 0.0), least, 1e-6) << round;
            }
        }
    }
    // So that the rounds test something.
    EXPECT_GT(arranged, 100);
    EXPECT_GT(with_gain, 50);
    EXPECT_GT(left_out, 50);
    EXPECT_GT(without_any, 10);
}

TEST(RandomFarms, FitWhereTheirUsesDo) {
    // A second reckoning of the limits, from what each season comes to.
    std::mt19937_64 source(20271130);
    int fitting = 0;
    for (int round = 0; round < 200; ++round) {
        const Farm farm = random_farm(source);
        double today = farm.rest_crop;
        for (const Block& block : farm.blocks) today += block.old_crop;
        each(farm, [&](const Arrangement& one) {
            bool allowed = true;
            for (std::size_t at = 0; at < one.size(); ++at) {
                const Block& block = farm.blocks[at];
                if (block.pinned) {
                    allowed = allowed && one[at] == *block.pinned;
                } else if (one[at] == 0) {
                    allowed = allowed && block.rule != Rule::must;
                } else {
                    allowed = allowed && block.rule != Rule::never && one[at] >= block.earliest;
                }
            }
            const auto used = uses(farm, one);
            for (std::size_t season = 0; season < used.size(); ++season) {
                const Season& there = farm.seasons[season];
                const Use& use = used[season];
                if (there.days) allowed = allowed && use.days <= *there.days;
                for (std::size_t wood = 0; wood < 2; ++wood) {
                    if (there.sticks[wood])
                        allowed = allowed && use.wanted[wood] - use.own[wood] <= *there.sticks[wood];
                }
                if (there.cash) allowed = allowed && use.purse >= -1e-6;
                if (there.crop_kept) allowed = allowed && use.crop >= *there.crop_kept * today - 1e-6;
            }
            ASSERT_EQ(fits(farm, one), allowed) << round;
            fitting += allowed ? 1 : 0;
        });
    }
    EXPECT_GT(fitting, 100);
}

TEST(Worth, IsThePresentValueFromTheSeasonOn) {
    // By hand: -100 + 60 / 1.1 + 60 / 1.21 = 4.132; a season later 3.757; to the same end -100 + 60 / 1.1 = -45.45,
    // today -41.32.
    Farm farm{.blocks = {}, .seasons = {}, .years = 2, .rate = 0.1};
    const Block block{
        .name = "", .flows = {-100, 60, 60}, .days = {}, .sticks = {}, .gives = {}, .new_crop = {}, .pinned = {}};
    EXPECT_NEAR(worth(farm, block, 1), 4.1322, 1e-4);
    EXPECT_NEAR(worth(farm, block, 2), 3.7566, 1e-4);
    farm.same_end = true;
    EXPECT_NEAR(worth(farm, block, 1), 4.1322, 1e-4);
    EXPECT_NEAR(worth(farm, block, 2), -41.3223, 1e-4);
}

}  // namespace
}  // namespace slipbark::tests

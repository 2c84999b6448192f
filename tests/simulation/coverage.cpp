#include "coverage.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <future>
#include <optional>
#include <random>
#include <utility>

#include "slipbark/budwood.hpp"
#include "slipbark/calendar.hpp"
#include "slipbark/outcome.hpp"
#include "slipbark/take.hpp"
#include "slipbark/trials.hpp"
#include "slipbark/yield.hpp"

namespace slipbark::simulation {

namespace {

using Random = std::mt19937_64;

constexpr double z95 = 1.959963984540054;

std::string text(const char* format, double value) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, format, value);
    return buffer;
}

std::string rho_and_take(double rho, double take) { return text("%.2f", rho) + " / " + text("%.2f", take); }

std::string number_of(double number, const char* what) { return text("%.0f ", number) + what; }

/// A share from Beta(mean, rho); rho 0 is the mean itself.
double share_of(Random& random, double mean, double rho) {
    if (rho <= 0) return mean;
    std::gamma_distribution<double> alive(mean * (1 - rho) / rho);
    std::gamma_distribution<double> dead((1 - mean) * (1 - rho) / rho);
    const double one = alive(random);
    const double other = dead(random);
    if (one + other > 0) return one / (one + other);
    return std::bernoulli_distribution(mean)(random) ? 1 : 0;
}

double live_of(Random& random, int grafts, double take, double rho) {
    return std::binomial_distribution<int>(grafts, share_of(random, take, rho))(random);
}

List list(std::vector<double> values) { return {std::vector<Cell>(values.begin(), values.end())}; }

/// Trees of one kind: live and placed grafts.
struct Trees {
    std::vector<double> live;
    std::vector<double> grafted;
};

void add_trees(Random& random, Trees& trees, int number, int grafts, double take, double rho) {
    for (int tree = 0; tree < number; ++tree) {
        trees.live.push_back(live_of(random, grafts, take, rho));
        trees.grafted.push_back(grafts);
    }
}

double known_width(double take, double rho, double trees, double grafts) {
    return 2 * z95 * std::sqrt(take * (1 - take) * (1 + (grafts - 1) * rho) / (trees * grafts));
}

void count(Setting& setting, double truth, double low, double high, double known = 0) {
    constexpr double slack = 1e-12;
    ++setting.answers;
    setting.right += low <= truth + slack && truth <= high + slack ? 1 : 0;
    setting.width += high - low;
    setting.known += known;
}

/// The settings of a grid: each of `values` at hand to `run`, its own seed in its random source.
class Settings {
  public:
    explicit Settings(Claim& claim, std::uint64_t claim_number) : claim_(claim), number_(claim_number) {}

    template <class Draw>
    void add(std::string row, std::string column, int sets, Draw draw) {
        Setting setting;
        setting.row = std::move(row);
        setting.column = std::move(column);
        setting.sets = sets;
        Random random(1'000'003 * number_ + claim_.settings.size());
        for (int set = 0; set < sets; ++set) draw(random, setting);
        claim_.settings.push_back(std::move(setting));
    }

  private:
    Claim& claim_;
    std::uint64_t number_;
};

template <class T>
std::vector<T> grid_of(Grid grid, std::vector<T> full, std::vector<T> thin) {
    return grid == Grid::full ? std::move(full) : std::move(thin);
}

}  // namespace

Claim limits_of_trees(Grid grid, int sets) {
    Claim claim{"TAKETREES: 95 % limits of a block's take", "correlation / take, grafts a tree", 0.95, 0.92};
    Settings settings(claim, 1);
    for (const int grafts : grid_of<int>(grid, {4, 8}, {8})) {
        for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.3, 0.4}, {0, 0.3})) {
            for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.85, 0.9, 0.95, 0.97}, {0.7, 0.9})) {
                for (const int trees : grid_of<int>(grid, {3, 5, 10, 20, 50}, {5, 20})) {
                    settings.add(rho_and_take(rho, take) + text(", %.0f", grafts), number_of(trees, "trees"), sets,
                                 [&](Random& random, Setting& setting) {
                                     Trees block;
                                     add_trees(random, block, trees, grafts, take, rho);
                                     const auto found = take::take_trees(list(block.live), list(block.grafted)).value();
                                     count(setting, take, found.low, found.high, known_width(take, rho, trees, grafts));
                                 });
                }
            }
        }
    }
    return claim;
}

Claim limits_of_part_of_a_block(Grid grid, int sets) {
    Claim claim{"TAKETREES with of_trees: 95 % limits of the take of all the block's trees, some of them counted",
                "correlation / take, 8 grafts a tree", 0.95, 0.92};
    Settings settings(claim, 2);
    struct Part {
        int counted;
        int all;
    };
    constexpr int grafts = 8;
    for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.4}, {0.2})) {
        for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.9, 0.97}, {0.7, 0.9})) {
            for (const Part part :
                 grid_of<Part>(grid, {{5, 6}, {5, 10}, {10, 12}, {10, 20}, {20, 22}, {20, 80}, {50, 60}, {50, 200}},
                               {{10, 20}, {20, 80}})) {
                settings.add(rho_and_take(rho, take), text("%.0f of ", part.counted) + text("%.0f", part.all), sets,
                             [&](Random& random, Setting& setting) {
                                 Trees block;
                                 add_trees(random, block, part.all, grafts, take, rho);
                                 double live = 0;
                                 for (const double one : block.live) live += one;
                                 const double truth = live / (grafts * part.all);
                                 block.live.resize(static_cast<std::size_t>(part.counted));
                                 block.grafted.resize(static_cast<std::size_t>(part.counted));
                                 const auto found =
                                     take::take_trees(list(block.live), list(block.grafted), {}, {}, part.all).value();
                                 const double rest = std::sqrt(1 - static_cast<double>(part.counted) / part.all);
                                 count(setting, truth, found.low, found.high,
                                       rest * known_width(take, rho, part.counted, grafts));
                             });
            }
        }
    }
    return claim;
}

namespace {

/// One group of trees in a block of several.
struct Group {
    int trees;
    double take;
    double rho;
};

constexpr int grafts_of_groups = 8;

struct Block {
    std::vector<double> names;
    Trees trees;
};

Block draw_block(Random& random, const std::vector<Group>& groups) {
    Block block;
    for (std::size_t group = 0; group < groups.size(); ++group) {
        const auto& [trees, take, rho] = groups[group];
        add_trees(random, block.trees, trees, grafts_of_groups, take, rho);
        block.names.resize(block.trees.live.size(), static_cast<double>(group));
    }
    return block;
}

std::string in_words(const Group& group) {
    return text("%.0f trees ", group.trees) + text("%.2f", group.take) + text(" (%.2f)", group.rho);
}

}  // namespace

Claim limits_of_groups(Grid grid, int sets) {
    Claim claim{"TAKEBY: 95 % limits of a group next to others unlike it",
                "group: trees, take (correlation), 8 grafts a tree", 0.95, 0.92};
    Settings settings(claim, 3);
    const auto kinds = grid_of<Group>(grid,
                                      {{5, 0.5, 0.4},
                                       {5, 0.7, 0.2},
                                       {5, 0.95, 0.1},
                                       {10, 0.7, 0.3},
                                       {10, 0.95, 0.3},
                                       {10, 0.6, 0},
                                       {20, 0.85, 0.4},
                                       {20, 0.97, 0.1},
                                       {30, 1, 0},
                                       {40, 0.6, 0.05}},
                                      {{10, 0.7, 0.3}, {30, 1, 0}});
    for (const Group& one : kinds) {
        for (const Group& other : kinds) {
            if (one.take == 1) continue;
            settings.add(in_words(one), "next to " + in_words(other), sets, [&](Random& random, Setting& setting) {
                const Block block = draw_block(random, {one, other});
                const auto found =
                    take::take_by(list(block.names), list(block.trees.live), list(block.trees.grafted)).value();
                count(setting, one.take, found[0].low, found[0].high,
                      known_width(one.take, one.rho, one.trees, grafts_of_groups));
            });
        }
    }
    return claim;
}

Claim equal_groups_apart(Grid grid, int sets) {
    Claim claim{"TAKEBY: limits of the best and the worst of six equal grafters do not overlap",
                "correlation / take, 8 grafts a tree", 0, 0, 0.08};
    Settings settings(claim, 4);
    for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.3, 0.4}, {0.2})) {
        for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.85, 0.95, 0.97}, {0.7})) {
            for (const int trees : grid_of<int>(grid, {3, 5, 10, 20, 50}, {5, 20})) {
                settings.add(
                    rho_and_take(rho, take), number_of(trees, "trees each"), sets,
                    [&](Random& random, Setting& setting) {
                        const Block block = draw_block(random, std::vector<Group>(6, {trees, take, rho}));
                        const auto found =
                            take::take_by(list(block.names), list(block.trees.live), list(block.trees.grafted)).value();
                        const auto [worst, best] = std::minmax_element(
                            found.begin(), found.end(), [](const auto& a, const auto& b) { return a.take < b.take; });
                        ++setting.answers;
                        setting.right += best->low > worst->high ? 1 : 0;
                    });
            }
        }
    }
    return claim;
}

Claim unequal_groups_apart(Grid grid, int sets) {
    Claim claim{
        "TAKEBY: limits of two grafters who differ (or not) do not overlap, and TAKEDIFF with the larger design effect "
        "has "
        "p below 0.05",
        "takes, correlation; 8 grafts a tree", 0, 0};
    Settings settings(claim, 5);
    struct Pair {
        double one;
        double other;
    };
    for (const Pair pair : grid_of<Pair>(grid, {{0.6, 0.9}, {0.75, 0.9}, {0.5, 0.7}, {0.7, 0.7}}, {{0.6, 0.9}})) {
        for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.4}, {0.2})) {
            for (const int trees : grid_of<int>(grid, {5, 10, 20, 40}, {20})) {
                for (const bool by_limits : {true, false}) {
                    settings.add(
                        text("%.2f", pair.one) + " and " + rho_and_take(pair.other, rho).replace(4, 3, ", "),
                        number_of(trees, by_limits ? "trees each: apart" : "trees each: p"), sets,
                        [&](Random& random, Setting& setting) {
                            const Block block = draw_block(random, {{trees, pair.one, rho}, {trees, pair.other, rho}});
                            const auto groups =
                                take::take_by(list(block.names), list(block.trees.live), list(block.trees.grafted))
                                    .value();
                            ++setting.answers;
                            if (by_limits) {
                                setting.right +=
                                    groups[0].high < groups[1].low || groups[1].high < groups[0].low ? 1 : 0;
                                return;
                            }
                            double effect = 1;
                            for (const int group : {0, 1}) {
                                const auto first = block.trees.live.begin() + group * trees;
                                const auto own =
                                    take::take_trees(list({first, first + trees}),
                                                     list(std::vector<double>(static_cast<std::size_t>(trees), 8)));
                                effect = std::max(effect, own.value().design_effect);
                            }
                            const auto difference = take::take_diff(groups[0].live, groups[0].grafted, groups[1].live,
                                                                    groups[1].grafted, {}, effect);
                            setting.right += difference.value().p < 0.05 ? 1 : 0;
                        });
                }
            }
        }
    }
    return claim;
}

namespace {

/// Takes of groups: Beta with this mean and correlation.
struct Between {
    double take;
    double rho;
};

PooledClaims pooled_limits_between(const Between& between, std::uint64_t claim_number, Grid grid, int sets) {
    const std::string rows = "correlation of groups / their mean take, correlation of trees; 8 grafts a tree";
    PooledClaims claims{{"TAKEPOOL: 95 % limits of the takes of the groups", rows, 0.95, 0.92},
                        {"TAKEPOOL: 95 % limits of a new group's take", rows, 0.95, 0.92}};
    Settings settings(claims.group, claim_number);
    struct Size {
        int groups;
        int trees;
    };
    for (const double rho : grid_of<double>(grid, {0, 0.2, 0.4}, {0.1})) {
        for (const Size size : grid_of<Size>(grid, {{3, 3}, {3, 50}, {8, 10}}, {{4, 10}})) {
            Setting of_new;
            settings.add(
                rho_and_take(between.rho, between.take) + text(", %.2f", rho),
                text("%.0f groups of ", size.groups) + number_of(size.trees, "trees"), sets,
                [&](Random& random, Setting& setting) {
                    std::vector<Group> drawn;
                    for (int group = 0; group < size.groups; ++group) {
                        drawn.push_back({size.trees, share_of(random, between.take, between.rho), rho});
                    }
                    const Block block = draw_block(random, drawn);
                    const auto found =
                        take::take_pool(list(block.names), list(block.trees.live), list(block.trees.grafted)).value();
                    for (std::size_t group = 0; group < drawn.size(); ++group) {
                        const auto& [trees, take, trees_rho] = drawn[group];
                        count(setting, take, found[group].low, found[group].high,
                              known_width(take, trees_rho, trees, grafts_of_groups));
                    }
                    count(of_new, share_of(random, between.take, between.rho), found.back().low, found.back().high);
                });
            const Setting& of_group = claims.group.settings.back();
            of_new.row = of_group.row;
            of_new.column = of_group.column;
            of_new.sets = of_group.sets;
            claims.new_group.settings.push_back(of_new);
        }
    }
    return claims;
}

}  // namespace

PooledClaims pooled_limits(Grid grid, int sets) {
    // It costs more than all the rest: each row of the grid by itself, as many at a time as there are processors.
    std::vector<std::future<PooledClaims>> parts;
    std::uint64_t claim_number = 100;
    for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.9, 0.97}, {0.7})) {
        for (const double rho : grid_of<double>(grid, {0, 0.1}, {0.05})) {
            parts.push_back(
                std::async(std::launch::async, pooled_limits_between, Between{take, rho}, ++claim_number, grid, sets));
        }
    }
    PooledClaims claims = parts.front().get();
    for (auto part = parts.begin() + 1; part != parts.end(); ++part) {
        const PooledClaims more = part->get();
        const auto append = [](Claim& claim, const Claim& other) {
            claim.settings.insert(claim.settings.end(), other.settings.begin(), other.settings.end());
        };
        append(claims.group, more.group);
        append(claims.new_group, more.new_group);
    }
    return claims;
}

Claim factors(Grid grid, int sets) {
    Claim claim{"TAKEFACTORS: 95 % limits of two odds ratios, one of a text (2 to 1), one of a number (1.2 a day)",
                "correlation / take at the middle, 8 grafts a tree", 0.95, 0.92};
    Settings settings(claim, 8);
    for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.4}, {0.2})) {
        for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.85, 0.9}, {0.7})) {
            for (const int trees : grid_of<int>(grid, {8, 12, 24, 48}, {12, 24})) {
                for (const std::size_t factor : {std::size_t{1}, std::size_t{2}}) {
                    settings.add(
                        rho_and_take(rho, take), number_of(trees, factor == 1 ? "trees: text" : "trees: number"), sets,
                        [&](Random& random, Setting& setting) {
                            const double of_text = std::log(2);
                            const double of_day = std::log(1.2);
                            Trees block;
                            Table table;
                            table.columns = 2;
                            for (int tree = 0; tree < trees; ++tree) {
                                const bool second = tree % 2 == 1;
                                const double day = tree / 2 - (trees / 2 - 1) / 2.0;
                                const double scaled = day * 8 / trees;
                                const double odds =
                                    std::log(take / (1 - take)) + of_text * (second ? 0.5 : -0.5) + of_day * scaled;
                                add_trees(random, block, 1, 8, 1 / (1 + std::exp(-odds)), rho);
                                table.cells.emplace_back(std::string(second ? "other" : "first"));
                                table.cells.emplace_back(scaled);
                            }
                            const auto found = trials::take_factors(list(block.live), list(block.grafted), table);
                            if (!found) return;
                            const auto& effect = found->at(factor);
                            const double truth = factor == 1 ? of_text : of_day;
                            count(setting, truth, std::log(effect.low), std::log(effect.high));
                        });
                }
            }
        }
    }
    return claim;
}

Claim grafts_promised(Grid grid, int sets) {
    Claim claim{"GRAFTSFROM: enough of the grafts placed live, promised with 95 %",
                "correlation / take, live grafts wanted; 4 grafts a tree", 0.95, 0.92};
    Settings settings(claim, 9);
    constexpr int grafts = 4;
    for (const double rho : grid_of<double>(grid, {0, 0.1, 0.2, 0.4}, {0.2})) {
        for (const double take : grid_of<double>(grid, {0.5, 0.7, 0.85, 0.95}, {0.7})) {
            for (const int wanted : grid_of<int>(grid, {4, 40, 400}, {40})) {
                for (const int trees : grid_of<int>(grid, {3, 5, 10, 20, 50}, {5, 20})) {
                    settings.add(rho_and_take(rho, take) + text(", %.0f", wanted), number_of(trees, "trees seen"), sets,
                                 [&](Random& random, Setting& setting) {
                                     double seen = 0;
                                     for (int tree = 0; tree < trees; ++tree)
                                         seen += live_of(random, grafts, take, rho);
                                     std::optional<double> placed;
                                     try {
                                         placed = budwood::grafts_from(wanted, seen, grafts * trees, {}, rho, trees);
                                     } catch (const bad_argument&) {
                                         return;  // more than 100,000 grafts
                                     }
                                     double live = 0;
                                     int left = static_cast<int>(*placed);
                                     for (; left >= grafts; left -= grafts) live += live_of(random, grafts, take, rho);
                                     if (left > 0) live += live_of(random, left, take, rho);
                                     ++setting.answers;
                                     setting.right += live >= wanted ? 1 : 0;
                                     setting.width += *placed;
                                 });
                }
            }
        }
    }
    return claim;
}

Claim graft_life(Grid grid, int sets) {
    Claim claim{
        "GRAFTLIFE with trees: 95 % limits of the share alive, 8 grafts a tree, looks on days 14, 30, 45 and 60",
        "frailty of trees (variance), share alive on day 60", 0.95, 0.92};
    Settings settings(claim, 10);
    constexpr int grafts = 8;
    for (const double frailty : grid_of<double>(grid, {0, 0.25, 0.5, 1, 2}, {0.5})) {
        for (const double at_end : grid_of<double>(grid, {0.4, 0.6, 0.8, 0.95}, {0.6})) {
            for (const int trees : grid_of<int>(grid, {3, 5, 10, 20, 50}, {5, 20})) {
                for (const double day : grid_of<double>(grid, {45, 37}, {45})) {
                    settings.add(
                        text("%.2f", frailty) + text(", %.2f", at_end),
                        number_of(trees, "trees, day ") + text("%.0f", day), sets,
                        [&](Random& random, Setting& setting) {
                            // Marginal survival under a gamma frailty of mean 1: (1 + variance x hazard)^(-1/variance).
                            const double cumulative =
                                frailty == 0 ? -std::log(at_end) : (std::pow(at_end, -frailty) - 1) / frailty;
                            const double rate = cumulative / 60;
                            const auto alive = [&](double at) {
                                return frailty == 0 ? std::exp(-rate * at)
                                                    : std::pow(1 + frailty * rate * at, -1 / frailty);
                            };
                            std::vector<double> days;
                            std::vector<double> lost;
                            std::vector<double> names;
                            for (int tree = 0; tree < trees; ++tree) {
                                const double own =
                                    frailty == 0 ? 1 : std::gamma_distribution<double>(1 / frailty, frailty)(random);
                                // Some trees are seen for the last time on day 30.
                                const double last = tree % 4 == 3 ? 30 : 60;
                                for (int graft = 0; graft < grafts; ++graft) {
                                    const double dies =
                                        own > 0 ? std::exponential_distribution<double>(rate * own)(random) : 1e9;
                                    double seen = last;
                                    bool is_lost = false;
                                    for (const double look : {14.0, 30.0, 45.0, 60.0}) {
                                        if (look > last || dies > look) continue;
                                        seen = look;
                                        is_lost = true;
                                        break;
                                    }
                                    days.push_back(seen);
                                    lost.push_back(is_lost ? 1 : 0);
                                    names.push_back(tree);
                                }
                            }
                            const auto found = take::graft_life(list(days), list(lost), day, {}, list(names));
                            if (!found) return;
                            count(setting, alive(day), found->low, found->high);
                        });
                }
            }
        }
    }
    return claim;
}

Claim life_at_zero(Grid grid, int sets) {
    Claim claim{
        "GRAFTLIFE without trees at 0 after last looks: the high limit is above the truth; 20 grafts, about half "
        "last seen alive, the last one lost",
        "rate of loss", 0.95, 0.92};
    Settings settings(claim, 15);
    settings.add("1 / 40 a day", "20 grafts", grid == Grid::full ? 5 * sets : sets,
                 [](Random& random, Setting& setting) {
                     std::exponential_distribution<double> loss(1 / 40.0);
                     std::vector<double> days;
                     std::vector<double> lost;
                     double last = 0;
                     bool last_is_lost = false;
                     for (int graft = 0; graft < 20; ++graft) {
                         const double dies = loss(random);
                         const double seen = loss(random);
                         days.push_back(std::min(dies, seen));
                         lost.push_back(dies <= seen ? 1 : 0);
                         if (days.back() > last) {
                             last = days.back();
                             last_is_lost = dies <= seen;
                         }
                     }
                     if (!last_is_lost) return;
                     const auto life = take::graft_life(list(days), list(lost), last).value();
                     count(setting, std::exp(-last / 40), 0, life.high);
                 });
    return claim;
}

Claim next_stage(Grid grid, int sets) {
    Claim claim{"OWNSCHEDULE: the next record of the same season is between earliest and latest, said with 80 %",
                "distribution of days", 0.8, 0.77};
    Settings settings(claim, 11);
    const Table schedule(
        8, {std::string("stage"), 1.0, 2.0, 3.0, std::string("d"), std::string("sign"), std::string("source"), Cell()});
    const Day first = std::chrono::sys_days(std::chrono::year(2027) / 9 / 20);
    for (const char* kind : {"normal, deviation 4", "skewed (gamma), deviation 8", "even, 20 days wide",
                             "normal, one in ten 15 days late"}) {
        for (const int records : grid_of<int>(grid, {3, 4, 5, 7, 9, 10, 15, 20, 50}, {3, 10})) {
            settings.add(kind, number_of(records, "records"), sets, [&](Random& random, Setting& setting) {
                const auto draw = [&] {
                    switch (kind[0]) {
                        case 's':
                            return std::round(20 + std::gamma_distribution<double>(2, 8 / std::sqrt(2.0))(random));
                        case 'e':
                            return std::round(std::uniform_real_distribution<double>(20, 40)(random));
                        default:
                            break;
                    }
                    const double late = kind[8] == 'o' && std::bernoulli_distribution(0.1)(random) ? 15 : 0;
                    return std::round(std::normal_distribution<double>(30, 4)(random) + late);
                };
                DayList grafted;
                DayTable done;
                done.table.columns = 1;
                for (int record = 0; record < records; ++record) {
                    grafted.days.emplace_back(first);
                    done.table.cells.emplace_back(first + std::chrono::days(static_cast<int>(draw())));
                }
                grafted.length = grafted.days.size();
                const auto found = calendar::own_schedule(grafted, done, schedule).front();
                count(setting, draw(), found.earliest, found.latest);
            });
        }
    }
    return claim;
}

namespace {

template <class Use>
void fitted(Grid grid, int sets, Claim& claim, std::uint64_t number, Use use) {
    Settings settings(claim, number);
    const Table curve(2, {0.0, 0.0, 1.5, 0.02, 2.75, 0.2, 3.75, 0.5, 5.0, 0.8, 7.0, 1.0});
    for (const double noise : grid_of<double>(grid, {0.05, 0.15, 0.3}, {0.15})) {
        for (const double stretch : grid_of<double>(grid, {0.8, 1, 1.5}, {1})) {
            for (const int years : grid_of<int>(grid, {4, 6, 8, 12}, {8})) {
                settings.add(text("%.0f %%", 100 * noise) + text(", %.1f", stretch),
                             text("ages 1.75 to %.2f", years + 0.75), sets, [&](Random& random, Setting& setting) {
                                 std::vector<double> ages;
                                 std::vector<double> yields;
                                 for (int year = 1; year <= years; ++year) {
                                     const double age = year + 0.75;
                                     const double mean = yield::per_tree(age / stretch, 100, curve);
                                     ages.push_back(age);
                                     yields.push_back(std::max(
                                         0.0, mean * (1 + noise * std::normal_distribution<double>()(random))));
                                 }
                                 const auto found = yield::fit(list(ages), list(yields), {}, curve);
                                 if (found) use(setting, stretch, *found);
                             });
            }
        }
    }
}

}  // namespace

Claim fitted_stretch(Grid grid, int sets) {
    Claim claim{"YIELDFIT without a mature yield: rough 95 % limits of the stretch, where there is an answer",
                "noise of a yield, true stretch", 0, 0};
    fitted(grid, sets, claim, 12, [](Setting& setting, double stretch, const std::vector<yield::FittedRow>& rows) {
        count(setting, stretch, rows[0].low.value(), rows[0].high.value());
    });
    return claim;
}

Claim fitted_yield(Grid grid, int sets) {
    Claim claim{"YIELDFIT without a mature yield: rough 95 % limits of the mature yield, where there is an answer",
                "noise of a yield, true stretch", 0, 0};
    fitted(grid, sets, claim, 12, [](Setting& setting, double /*stretch*/, const std::vector<yield::FittedRow>& rows) {
        count(setting, 100, rows[1].low.value(), rows[1].high.value());
    });
    return claim;
}

Claim stopping(Grid grid, int sets) {
    Claim claim{
        "COUNTON: a block is called what it is not (good ones poor: risk 5 %, poor ones good: risk 10 %); where 1,000 "
        "trees do not decide there is no answer",
        "good and poor share", 0, 0, 0.11};
    Settings settings(claim, 13);
    struct Shares {
        double good;
        double poor;
    };
    for (const Shares shares :
         grid_of<Shares>(grid, {{0.99, 0.9}, {0.9, 0.7}, {0.85, 0.6}, {0.7, 0.5}, {0.95, 0.85}}, {{0.9, 0.7}})) {
        for (const bool is_good : {true, false}) {
            settings.add(text("%.2f", shares.good) + text(" and %.2f", shares.poor), is_good ? "good" : "poor", sets,
                         [&](Random& random, Setting& setting) {
                             std::bernoulli_distribution lives(is_good ? shares.good : shares.poor);
                             double live = 0;
                             for (int tree = 1; tree <= 1000; ++tree) {
                                 live += lives(random) ? 1 : 0;
                                 const auto verdict =
                                     trials::stop_counting(live, tree, shares.good, shares.poor).verdict;
                                 if (verdict == trials::Verdict::count_on) continue;
                                 ++setting.answers;
                                 setting.right += (verdict == trials::Verdict::good) != is_good ? 1 : 0;
                                 setting.width += tree;
                                 return;
                             }
                         });
        }
    }
    return claim;
}

Claim trial_power(Grid grid, int sets) {
    Claim claim{
        "TRIALPOWER: trials of that size in which TAKEFACTORS gives p below 0.05, less the chance that TRIALPOWER "
        "says",
        "takes, correlation; 4 grafts a tree", 0, 0};
    Settings settings(claim, 14);
    struct Pair {
        double one;
        double other;
    };
    for (const Pair pair : grid_of<Pair>(grid, {{0.7, 0.85}, {0.5, 0.8}, {0.8, 0.95}}, {{0.5, 0.8}})) {
        for (const double rho : grid_of<double>(grid, {0, 0.2, 0.4}, {0.2})) {
            for (const int trees : grid_of<int>(grid, {10, 20, 50}, {20})) {
                settings.add(text("%.2f and ", pair.one) + text("%.2f", pair.other) + text(", %.2f", rho),
                             number_of(trees, "trees each"), sets, [&](Random& random, Setting& setting) {
                                 Trees block;
                                 add_trees(random, block, trees, 4, pair.one, rho);
                                 add_trees(random, block, trees, 4, pair.other, rho);
                                 Table table;
                                 table.columns = 1;
                                 for (int tree = 0; tree < 2 * trees; ++tree) {
                                     table.cells.emplace_back(std::string(tree < trees ? "one" : "other"));
                                 }
                                 const auto found = trials::take_factors(list(block.live), list(block.grafted), table);
                                 ++setting.answers;
                                 setting.right += found && found->back().p < 0.05 ? 1 : 0;
                                 setting.right -= trials::trial_power(pair.one, pair.other, 4, trees, rho);
                             });
            }
        }
    }
    return claim;
}

std::vector<Claim> all_claims(Grid grid, int sets) {
    const int fewer = grid == Grid::full ? std::max(2000, sets / 2) : sets;
    const int few = grid == Grid::full ? 2000 : sets / 10;
    const auto start = [grid](auto* claim, int number) { return std::async(std::launch::async, claim, grid, number); };
    auto pooled = start(pooled_limits, few);
    std::vector<std::future<Claim>> started;
    const auto add = [&](Claim (*claim)(Grid, int), int number) { started.push_back(start(claim, number)); };
    add(limits_of_trees, sets);
    add(limits_of_part_of_a_block, sets);
    add(limits_of_groups, sets);
    add(equal_groups_apart, fewer);
    add(unequal_groups_apart, fewer);
    add(factors, fewer);
    add(grafts_promised, fewer);
    add(graft_life, fewer);
    add(life_at_zero, sets);
    add(next_stage, sets);
    add(fitted_stretch, few);
    add(fitted_yield, few);
    add(stopping, fewer);
    add(trial_power, fewer);
    std::vector<Claim> claims;
    claims.reserve(started.size() + 2);
    for (std::future<Claim>& one : started) claims.push_back(one.get());
    PooledClaims of_pool = pooled.get();
    claims.push_back(std::move(of_pool.group));
    claims.push_back(std::move(of_pool.new_group));
    return claims;
}

std::string as_markdown(const Claim& claim) {
    std::vector<std::string> rows;
    std::vector<std::string> columns;
    const auto note = [](std::vector<std::string>& known, const std::string& name) {
        if (std::find(known.begin(), known.end(), name) == known.end()) known.push_back(name);
    };
    for (const Setting& setting : claim.settings) {
        note(rows, setting.row);
        note(columns, setting.column);
    }
    std::string page =
        claim.title + "; " + number_of(claim.settings.front().sets, "sets a figure.") + "\n\n| " + claim.rows + " |";
    for (const std::string& column : columns) page += " " + column + " |";
    page += "\n|---|" + std::string();
    for (std::size_t column = 0; column < columns.size(); ++column) page += "---|";
    page += "\n";
    bool some_without = false;
    for (const std::string& row : rows) {
        page += "| " + row + " |";
        for (const std::string& column : columns) {
            const auto found = std::find_if(claim.settings.begin(), claim.settings.end(),
                                            [&](const Setting& one) { return one.row == row && one.column == column; });
            if (found == claim.settings.end()) {
                page += " |";
                continue;
            }
            page += " " + text("%.1f", 100 * found->share_right());
            if (found->answers < found->sets) {
                page += text(" (%.0f)", 100 * found->answers / found->sets);
                some_without = true;
            }
            page += " |";
        }
        page += "\n";
    }
    page += "\nPer cent.";
    if (some_without) page += " In brackets the per cent of sets that had an answer.";
    const auto by_share = [](const Setting& a, const Setting& b) { return a.share_right() < b.share_right(); };
    const auto [least, most] = std::minmax_element(claim.settings.begin(), claim.settings.end(), by_share);
    page += " Least: " + text("%.1f", 100 * least->share_right()) + " (" + least->row + "; " + least->column +
            "), most: " + text("%.1f", 100 * most->share_right()) + " (" + most->row + "; " + most->column + ").";
    if (claim.least > 0) {
        const auto below = std::count_if(claim.settings.begin(), claim.settings.end(),
                                         [&](const Setting& one) { return one.share_right() < claim.least; });
        page += text(" Below %.0f: ", 100 * claim.least) + text("%.0f of ", static_cast<double>(below)) +
                text("%.0f settings.", static_cast<double>(claim.settings.size()));
    }
    if (claim.most < 1) {
        const auto above = std::count_if(claim.settings.begin(), claim.settings.end(),
                                         [&](const Setting& one) { return one.share_right() > claim.most; });
        page += text(" Above %.0f: ", 100 * claim.most) + text("%.0f of ", static_cast<double>(above)) +
                text("%.0f settings.", static_cast<double>(claim.settings.size()));
    }
    const auto by_width = [](const Setting& a, const Setting& b) { return a.relative_width() < b.relative_width(); };
    const auto widest = std::max_element(claim.settings.begin(), claim.settings.end(), by_width);
    if (widest->relative_width() > 0) {
        const auto above = std::count_if(claim.settings.begin(), claim.settings.end(),
                                         [](const Setting& one) { return one.relative_width() > 2; });
        page += text(" Widest: %.2f", widest->relative_width()) + " times the limits with the variance known (" +
                widest->row + "; " + widest->column + "); above 2: " + text("%.0f of ", static_cast<double>(above)) +
                text("%.0f settings.", static_cast<double>(claim.settings.size()));
    }
    return page + "\n\n";
}

}  // namespace slipbark::simulation

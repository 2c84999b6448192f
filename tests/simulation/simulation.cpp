// How often what the functions say of a take comes true, on trees drawn at random with a fixed seed. Prints the tables
// of docs/trust.md.
//
// The grafts of a tree are drawn from the beta-binomial (a take of the tree's own, then each graft by that take).

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>
#include <string>
#include <vector>

#include "slipbark/take.hpp"

namespace {

using slipbark::Cell;
using slipbark::List;

constexpr int grafts_a_tree = 8;

std::mt19937_64& random_source() {
    static std::mt19937_64 source(20271126);
    return source;
}

/// The live grafts of one tree of mean take `take` and correlation `rho`.
double live_grafts(double take, double rho) {
    auto& source = random_source();
    double own = take;
    if (rho > 0) {
        std::gamma_distribution<double> alive(take * (1 - rho) / rho);
        std::gamma_distribution<double> dead((1 - take) * (1 - rho) / rho);
        const double one = alive(source);
        const double other = dead(source);
        own = one + other > 0 ? one / (one + other) : (one >= other ? 1.0 : 0.0);
    }
    return std::binomial_distribution<int>(grafts_a_tree, own)(source);
}

double number(const slipbark::Table& table, std::size_t row, std::size_t column) {
    return std::get<double>(table.at(row, column));
}

void coverage_of_trees() {
    constexpr int blocks = 4000;
    std::printf("| correlation | take | 3 trees | 5 trees | 10 trees | 50 trees |\n|---|---|---|---|---|---|\n");
    for (const double rho : {0.0, 0.1, 0.2, 0.4}) {
        for (const double take : {0.5, 0.7, 0.9, 0.95}) {
            std::printf("| %.1f | %.2f |", rho, take);
            for (const int trees : {3, 5, 10, 50}) {
                int held = 0;
                for (int block = 0; block < blocks; ++block) {
                    std::vector<Cell> live;
                    for (int tree = 0; tree < trees; ++tree) live.emplace_back(live_grafts(take, rho));
                    const List grafted(std::vector<Cell>(live.size(), Cell(double{grafts_a_tree})));
                    const auto found = slipbark::take::take_trees(List(std::move(live)), grafted).value();
                    held += number(found, 0, 1) <= take && take <= number(found, 0, 2) ? 1 : 0;
                }
                std::printf(" %.1f %% |", 100.0 * held / blocks);
            }
            std::printf("\n");
        }
    }
}

void equal_grafters() {
    constexpr int blocks = 2000;
    constexpr int grafters = 6;
    constexpr int trees = 20;
    constexpr double take = 0.7;
    constexpr double rho = 0.2;
    int apart = 0;
    int significant = 0;
    int held = 0;
    int pooled = 0;
    for (int block = 0; block < blocks; ++block) {
        std::vector<Cell> groups;
        std::vector<Cell> live;
        for (int grafter = 0; grafter < grafters; ++grafter) {
            for (int tree = 0; tree < trees; ++tree) {
                groups.emplace_back(double(grafter));
                live.emplace_back(live_grafts(take, rho));
            }
        }
        const List grafted(std::vector<Cell>(live.size(), Cell(double{grafts_a_tree})));
        const List counts(live);
        const auto by = slipbark::take::take_by(List(groups), counts, grafted).value();
        const double effect = number(slipbark::take::take_trees(counts, grafted).value(), 0, 3);
        std::size_t best = 0;
        std::size_t worst = 0;
        for (std::size_t row = 0; row < grafters; ++row) {
            if (number(by, row, 3) > number(by, best, 3)) best = row;
            if (number(by, row, 3) < number(by, worst, 3)) worst = row;
            held += number(by, row, 4) <= take && take <= number(by, row, 5) ? 1 : 0;
        }
        apart += number(by, best, 4) > number(by, worst, 5) ? 1 : 0;
        pooled += number(by, 0, 6) == number(by, 1, 6) ? 1 : 0;
        const auto difference = slipbark::take::take_diff(number(by, 0, 2), number(by, 0, 1), number(by, 1, 2),
                                                          number(by, 1, 1), {}, effect);
        significant += number(difference.value(), 0, 3) < 0.05 ? 1 : 0;
    }
    std::printf("limits of the best and the worst of six equal grafters do not overlap: %.1f %%\n",
                100.0 * apart / blocks);
    std::printf("limits of a grafter that hold the true take: %.1f %%\n", 100.0 * held / (blocks * grafters));
    std::printf("steadied takes all the same: %.1f %%\n", 100.0 * pooled / blocks);
    std::printf("TAKEDIFF of two of them with the block's design effect, p < 0.05: %.1f %%\n",
                100.0 * significant / blocks);
}

/// Grafts are lost at a steady rate; about half are looked at for the last time while alive, the last one is lost. The
/// true share at the day of the last loss is known.
void life_at_zero() {
    constexpr int blocks = 20000;
    constexpr int grafts = 20;
    auto& source = random_source();
    std::exponential_distribution<double> loss(1 / 40.0);
    std::exponential_distribution<double> last_look(1 / 40.0);
    int zeros = 0;
    int held = 0;
    for (int block = 0; block < blocks; ++block) {
        std::vector<Cell> days;
        std::vector<Cell> lost;
        double last = 0;
        bool last_is_lost = false;
        for (int graft = 0; graft < grafts; ++graft) {
            const double dies = loss(source);
            const double seen = last_look(source);
            const double day = std::min(dies, seen);
            days.emplace_back(day);
            lost.emplace_back(dies <= seen ? 1.0 : 0.0);
            if (day > last) {
                last = day;
                last_is_lost = dies <= seen;
            }
        }
        if (!last_is_lost) continue;
        ++zeros;
        const auto life = slipbark::take::graft_life(List(days), List(lost), last).value();
        held += std::exp(-last / 40) <= number(life, 0, 2) ? 1 : 0;
    }
    std::printf("GRAFTLIFE at 0 after last looks: the high limit holds the truth in %.1f %% of %d\n",
                100.0 * held / zeros, zeros);
}

}  // namespace

int main() {
    coverage_of_trees();
    equal_grafters();
    life_at_zero();
    return 0;
}

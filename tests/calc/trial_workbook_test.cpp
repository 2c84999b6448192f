// The workbook trial: a fair layout that the seed gives again, and a verdict that agrees with what is reckoned here a
// second time from its cells.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "calc.hpp"
#include "reckoned.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

Book opened() { return calc().open_url(url_of("trial"), true); }

double cell(const Book& book, const std::string& address) { return book.shown(address).number; }

struct Tree {
    int block = 0;
    int place = 0;  ///< in its block
    std::string way;
    double placed = 0;
    double live = 0;
};

std::vector<Tree> trees_of(const Book& book) {
    std::vector<Tree> found;
    for (int row = 6; row <= 305; ++row) {
        const auto at = [&](const char* column) { return book.shown("Trees." + (column + std::to_string(row))); };
        if (at("B").text.empty()) break;
        found.push_back({static_cast<int>(at("B").number), static_cast<int>(at("C").number), at("D").text,
                         at("E").number, at("F").number});
    }
    return found;
}

// ---- A second reckoning of the layout: the minimal standard generator of Park & Miller (1988), Communications of the
// ACM 31:1192-1201, x = 16807 x modulo 2^31 - 1, in whole numbers.

class MinimalStandard {
  public:
    explicit MinimalStandard(std::uint64_t seed) : state_((48271 * seed + 11) % modulus) {
        for (int step = 0; step < 3; ++step) next();
    }
    std::uint64_t next() { return state_ = 16807 * state_ % modulus; }

  private:
    static constexpr std::uint64_t modulus = 2147483647;
    std::uint64_t state_;
};

/// The way (0, 1 ...) of each tree, block after block: in each the trees in order of their random numbers get the ways
/// in turn.
std::vector<int> layout(std::uint64_t seed, int ways, int blocks, int trees_of_each) {
    MinimalStandard random(seed);
    std::vector<int> all;
    for (int block = 0; block < blocks; ++block) {
        std::vector<std::pair<std::uint64_t, int>> order;
        for (int tree = 0; tree < ways * trees_of_each; ++tree) order.emplace_back(random.next(), tree);
        std::sort(order.begin(), order.end());
        std::vector<int> way(order.size());
        for (std::size_t rank = 0; rank < order.size(); ++rank)
            way.at(static_cast<std::size_t>(order[rank].second)) = static_cast<int>(rank) % ways;
        all.insert(all.end(), way.begin(), way.end());
    }
    return all;
}

void expect_layout(const Book& book, std::uint64_t seed, const std::vector<std::string>& ways, int blocks, int each) {
    const auto mine = layout(seed, static_cast<int>(ways.size()), blocks, each);
    const auto shown = trees_of(book);
    ASSERT_EQ(shown.size(), mine.size()) << seed;
    const int in_block = static_cast<int>(ways.size()) * each;
    for (std::size_t at = 0; at < mine.size(); ++at) {
        EXPECT_EQ(shown[at].way, ways.at(static_cast<std::size_t>(mine[at]))) << "seed " << seed << ", tree " << at;
        EXPECT_EQ(shown[at].block, static_cast<int>(at) / in_block + 1);
        EXPECT_EQ(shown[at].place, static_cast<int>(at) % in_block + 1);
    }
}

const std::vector<std::string> shipped_ways{"Bark graft, bagged", "Cleft graft", "Chip bud"};

TEST(TrialWorkbook, LaysOutAsASecondReckoningOfTheSeed) {
    const Book book = opened();
    expect_layout(book, 2028, shipped_ways, 8, 2);
    for (const std::uint64_t seed : {1ULL, 2ULL, 2029ULL, 1'000'000ULL}) {
        book.set("Trial.C14", static_cast<double>(seed));
        expect_layout(book, seed, shipped_ways, 8, 2);
    }
    // The seed again, the layout again.
    book.set("Trial.C14", 2028);
    expect_layout(book, 2028, shipped_ways, 8, 2);
    // All of the room: 300 trees.
    book.set("Trial.C12", 10);
    book.set("Trial.C13", 10);
    expect_layout(book, 2028, shipped_ways, 10, 10);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// Chi-square of 10,000 seeds in a row: each way is as often at each place, and each of the 6 orders of two neighbours
// of one block as often as the other. 99.99 % quantiles of chi-square with 2 and 2 degrees: 18.4 (tables).
TEST(TrialWorkbook, FavoursNoWayAtAnyPlace) {
    constexpr int seeds = 10'000;
    constexpr int size = 6;
    std::array<std::array<double, 3>, size> at_place{};
    std::array<double, 3> same{};  // trees 1 and 2, 2 and 3, 3 and 4 of the same way
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const auto ways = layout(seed, 3, 2, 2);
        for (std::size_t place = 0; place < size; ++place)
            ++at_place.at(place).at(static_cast<std::size_t>(ways[size + place]));
        for (std::size_t place = 0; place < same.size(); ++place)
            if (ways[size + place] == ways[size + place + 1]) ++same.at(place);
    }
    for (std::size_t place = 0; place < size; ++place) {
        double chi_square = 0;
        for (const double count : at_place.at(place)) chi_square += std::pow(count - seeds / 3.0, 2) / (seeds / 3.0);
        EXPECT_LT(chi_square, 18.4) << place;
    }
    // Of the 5 other trees one is of the same way: 1 in 5, standard deviation 0.4 %; 4 of them.
    for (const double count : same) EXPECT_NEAR(count / seeds, 0.2, 0.016);
}

TEST(TrialWorkbook, GivesEachBlockAsManyTreesOfEachWay) {
    const Book book = opened();
    std::map<int, std::map<std::string, int>> trees;
    for (const Tree& tree : trees_of(book)) ++trees[tree.block][tree.way];
    EXPECT_EQ(trees.size(), 8U);
    for (const auto& [block, ways] : trees) {
        EXPECT_EQ(ways.size(), 3U) << block;
        for (const auto& [way, number] : ways) EXPECT_EQ(number, 2) << block << " " << way;
    }
}

TEST(TrialWorkbook, PrintsALabelForEachTree) {
    const Book book = opened();
    const auto trees = trees_of(book);
    for (std::size_t at = 0; at < trees.size(); ++at) {
        const std::string address = "Labels." + std::string(1, "BCD"[at % 3]) + std::to_string(4 + at / 3);
        const std::string label = book.shown(address).text;
        EXPECT_EQ(label, "South slope, block " + std::to_string(trees[at].block) + ", tree " +
                             std::to_string(trees[at].place) + ": " + trees[at].way)
            << address;
    }
    EXPECT_EQ(book.shown("Labels.B20").text, "");
}

/// Of each way but the first, blocks allowed for.
std::vector<reckoned::Effect> effects(const std::vector<Tree>& trees, const std::vector<std::string>& ways) {
    const int blocks = std::max_element(trees.begin(), trees.end(), [](const Tree& one, const Tree& other) {
                           return one.block < other.block;
                       })->block;
    std::vector<reckoned::Observed> observed;
    for (const Tree& tree : trees) {
        reckoned::Row row{1};
        for (int block = 2; block <= blocks; ++block) row.push_back(tree.block == block ? 1 : 0);
        for (std::size_t way = 1; way < ways.size(); ++way) row.push_back(tree.way == ways[way] ? 1 : 0);
        observed.push_back({tree.live, tree.placed, row});
    }
    const auto all = reckoned::effects(observed);
    return {all.end() - static_cast<std::ptrdiff_t>(ways.size()) + 1, all.end()};
}

TEST(TrialWorkbook, SaysWhatASecondReckoningSays) {
    const Book book = opened();
    const auto trees = trees_of(book);
    std::map<std::string, std::pair<double, double>> takes;
    for (const Tree& tree : trees) {
        takes[tree.way].first += tree.live;
        takes[tree.way].second += tree.placed;
    }
    for (int way = 0; way < 3; ++way) {
        const auto& [live, placed] = takes[shipped_ways.at(static_cast<std::size_t>(way))];
        EXPECT_NEAR(cell(book, "Result.C" + std::to_string(6 + way)), live / placed, 1e-12) << way;
    }
    const auto mine = effects(trees, shipped_ways);
    for (int other = 0; other < 2; ++other) {
        const std::string row = std::to_string(12 + other);
        const auto& [log_odds, error] = mine.at(static_cast<std::size_t>(other));
        EXPECT_NEAR(cell(book, "Result.C" + row), std::exp(log_odds), 1e-6) << row;
        // 48 trees less 10 coefficients; both comparisons together.
        EXPECT_NEAR(cell(book, "Result.F" + row), std::min(1.0, 2 * reckoned::p_of_t(log_odds / error, 38)), 1e-6)
            << row;
        // Limits are as far from the odds ratio, in logarithms, below as above, and t = 2.334 (97.5 %, 38 degrees; by
        // the same tail) times the standard error.
        const double above = std::log(cell(book, "Result.E" + row)) - log_odds;
        EXPECT_NEAR(log_odds - std::log(cell(book, "Result.D" + row)), above, 1e-6) << row;
        EXPECT_NEAR(reckoned::p_of_t(above / error, 38), 0.025, 1e-6) << row;
    }
    const std::string verdict = text(book, "verdict");
    EXPECT_TRUE(says(verdict, "Cleft graft took worse than Bark graft, bagged: 50 % of the grafts live")) << verdict;
    EXPECT_TRUE(says(verdict, "in 38 of 1,000 trials")) << verdict;
    EXPECT_EQ(book.shown("Trial.B3").text, book.shown("Result.B3").text);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

/// Counts in each tree what `live` gives for its way.
void count(const Book& book, const std::map<std::string, std::vector<double>>& live) {
    std::map<std::string, std::size_t> of_way;
    int row = 6;
    for (const Tree& tree : trees_of(book)) {
        const auto& counts = live.at(tree.way);
        book.set("Trees.F" + std::to_string(row++), counts.at(of_way[tree.way]++ % counts.size()));
    }
}

TEST(TrialWorkbook, NamesABetterWayFirst) {
    const Book book = opened();
    // The second way is shown to be worse more clearly than the third to be better.
    count(book, {{"Bark graft, bagged", {2, 3, 2, 2}}, {"Cleft graft", {0, 0, 0, 1}}, {"Chip bud", {4, 3, 4, 3}}});
    EXPECT_LT(cell(book, "Result.F12"), cell(book, "Result.F13"));
    EXPECT_LT(cell(book, "Result.F13"), 0.05);
    EXPECT_TRUE(says(text(book, "verdict"), "Chip bud took better than Bark graft, bagged")) << text(book, "verdict");
}

TEST(TrialWorkbook, GoesByTheDifferenceWhereOddsAreNotFinite) {
    const Book book = opened();
    count(book, {{"Bark graft, bagged", {2, 1, 3, 2}}, {"Cleft graft", {2, 3, 2, 2}}, {"Chip bud", {4}}});
    EXPECT_EQ(book.shown("Result.C12").text, "");
    EXPECT_NE(book.shown("Result.B4").text, "") << "says why there are no odds";
    EXPECT_NEAR(cell(book, "Result.C18"), 0.5, 1e-12);
    EXPECT_TRUE(says(text(book, "verdict"), "Chip bud took better than Bark graft, bagged: 100 % of the grafts live"))
        << text(book, "verdict");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(TrialWorkbook, SaysSoWhereNothingIsShownOrCounted) {
    const Book book = opened();
    count(book, {{"Bark graft, bagged", {3, 2}}, {"Cleft graft", {2, 3}}, {"Chip bud", {3, 2}}});
    EXPECT_TRUE(says(text(book, "verdict"), "No difference is shown")) << text(book, "verdict");
    for (int row = 6; row <= 17; ++row) book.set_text("Trees.F" + std::to_string(row), "");
    EXPECT_TRUE(says(text(book, "verdict"), "So far 36 of 48 trees are counted")) << text(book, "verdict");
    for (int row = 6; row <= 53; ++row) book.set_text("Trees.F" + std::to_string(row), "");
    // Before the count: what the trial can show. The formula of the contract, with t of 30 degrees (2.36 at 97.5 %).
    EXPECT_TRUE(
        says(text(book, "verdict"), "With 16 trees of each way the chance to show takes of 70 % and 90 % apart is"))
        << text(book, "verdict");
    const double effect = 1 + 3 * 0.2;
    const double t = 2.3596;  // two-sided 2.5 %, 30 degrees; p_of_t says so below
    EXPECT_NEAR(reckoned::p_of_t(t, 30), 0.025, 1e-5);
    const double at =
        (0.2 * std::sqrt(4 * 16 / effect) - t * std::sqrt(2 * 0.8 * 0.2)) / std::sqrt(0.7 * 0.3 + 0.9 * 0.1);
    EXPECT_NEAR(number(book, "power"), 0.5 * std::erfc(-at / std::sqrt(2.0)), 1e-4);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    for (int row = 6; row <= 53; ++row)
        if (book.shown("Trees.D" + std::to_string(row)).text == "Chip bud")
            book.set("Trees.F" + std::to_string(row), 3);
    EXPECT_TRUE(says(text(book, "verdict"), "Count trees of the usual way and of another")) << text(book, "verdict");
}

TEST(TrialWorkbook, ComparesTwoWaysInOneBlock) {
    const Book book = opened();
    book.set_text("Trial.C9", "");
    book.set("Trial.C12", 1);
    book.set("Trial.C13", 10);
    expect_layout(book, 2028, {"Bark graft, bagged", "Cleft graft"}, 1, 10);
    EXPECT_EQ(book.shown("Result.C13").text, "");
    const auto mine = effects(trees_of(book), {"Bark graft, bagged", "Cleft graft"});
    EXPECT_NEAR(cell(book, "Result.C12"), std::exp(mine.front().log_odds), 1e-6);
    // One comparison: p as it is; 20 trees less 2 coefficients.
    EXPECT_NEAR(cell(book, "Result.F12"), reckoned::p_of_t(mine.front().log_odds / mine.front().standard_error, 18),
                1e-6);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(TrialWorkbook, RefusesWhatDoesNotFit) {
    const Book book = opened();
    book.set("Trial.C12", 20);
    book.set("Trial.C13", 20);
    EXPECT_TRUE(says(text(book, "verdict"), "room for 300 trees")) << text(book, "verdict");
    EXPECT_EQ(trees_of(book).size(), 0U);
    book.set("Trial.C12", 8);
    book.set("Trial.C13", 2);
    book.set("Trees.F7", 9);
    EXPECT_FALSE(book.shown("Trees.G7").text.empty());
    EXPECT_EQ(number(book, "seen"), 47);
    EXPECT_TRUE(says(book.shown("Trial.E27").text, "1 line of sheet Trees left out")) << book.shown("Trial.E27").text;
    book.set("Trees.F60", 2);
    EXPECT_TRUE(says(book.shown("Trees.G60").text, "no such tree")) << book.shown("Trees.G60").text;
    book.set_text("Trial.C9", "Cleft graft");
    EXPECT_TRUE(says(text(book, "verdict"), "there already")) << text(book, "verdict");
}

TEST(TrialWorkbook, SaysTheSameInSpanish) {
    const Book book = calc().open_url(url_of("trial", "es"), true);
    EXPECT_TRUE(says(text(book, "verdict"), "prendió peor que")) << text(book, "verdict");
    const Book english = opened();
    EXPECT_EQ(number(book, "shown_p"), number(english, "shown_p"));
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

}  // namespace
}  // namespace slipbark::tests

// The workbook seasons and its command: the worth and uses of an arrangement by a second reckoning in this file, the
// best arrangement by trying all, by published instances with a known optimum, and by GLPK as another exact solver.

#include <array>
#include <cmath>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <cstdlib>
#include <fstream>
#include <limits>
#include <numeric>
#include <optional>
#include <random>
#include <sstream>

#include "farm.hpp"
#include "folder.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// The season of each block, counted from 1; 0 where it is not done.
using Arrangement = std::vector<int>;

/// Today's worth of a block done in a season, year by year.
double worth(const Farm& farm, const Block& block, int season) {
    double sum = -block.outlay / std::pow(1 + farm.interest, season - 1);
    for (int after = 1; after + season - 1 <= farm.years; ++after) {
        const double share = farm.shares.at(static_cast<std::size_t>(after - 1));
        sum += (block.gain * share - block.lost * (1 - share)) / std::pow(1 + farm.interest, season - 1 + after);
    }
    return sum;
}

double worth(const Farm& farm, const Arrangement& arrangement) {
    double sum = 0;
    for (std::size_t at = 0; at < arrangement.size(); ++at) {
        if (arrangement[at] > 0) sum += worth(farm, farm.blocks[at], arrangement[at]);
    }
    return sum;
}

/// The farm's crop at the harvest after a season.
double crop_after(const Farm& farm, const Arrangement& arrangement, int season) {
    double crop = farm.rest;
    for (std::size_t at = 0; at < arrangement.size(); ++at) {
        const int after = season + 1 - arrangement[at];
        crop += arrangement[at] == 0 || after <= 0
                    ? farm.blocks[at].old_crop
                    : farm.blocks[at].new_crop * farm.shares.at(static_cast<std::size_t>(after - 1));
    }
    return crop;
}

bool fits(const Farm& farm, const Arrangement& arrangement) {
    for (std::size_t at = 0; at < arrangement.size(); ++at) {
        const Block& block = farm.blocks[at];
        if (block.must && arrangement[at] == 0) return false;
        if (arrangement[at] == 0) continue;
        if (block.never || arrangement[at] < block.earliest) return false;
        if (block.latest > 0 && arrangement[at] > block.latest) return false;
    }
    const double today = crop_after(farm, Arrangement(farm.blocks.size(), 0), 1);
    double left_over = 0;
    for (std::size_t season = 0; season < farm.seasons.size(); ++season) {
        const Season& there = farm.seasons[season];
        double days = 0;
        double cash = 0;
        std::array<double, source_room> wood{};
        for (std::size_t at = 0; at < arrangement.size(); ++at) {
            if (arrangement[at] != static_cast<int>(season) + 1) continue;
            days += farm.blocks[at].days;
            cash += farm.blocks[at].outlay;
            for (std::size_t source = 0; source < wood.size(); ++source) wood[source] += farm.blocks[at].wood[source];
        }
        constexpr double slack = 1e-6;
        if (days > there.days + slack) return false;
        if (cash > there.cash + left_over + slack) return false;
        if (farm.carry) left_over += there.cash - cash;
        const double least = there.kept * today;
        if (crop_after(farm, arrangement, static_cast<int>(season) + 1) < least - slack) return false;
        for (std::size_t source = 0; source < wood.size(); ++source) {
            if (wood[source] > there.wood[source] + slack) return false;
        }
    }
    return true;
}

/// The best by trying all.
std::optional<Arrangement> best_of_all(const Farm& farm) {
    std::optional<Arrangement> best;
    double most = -std::numeric_limits<double>::infinity();
    Arrangement now(farm.blocks.size(), 0);
    while (true) {
        if (const double one = worth(farm, now); one > most && fits(farm, now)) {
            most = one;
            best = now;
        }
        std::size_t at = 0;
        while (at < now.size() && now[at] == static_cast<int>(farm.seasons.size())) now[at++] = 0;
        if (at == now.size()) return best;
        ++now[at];
    }
}

/// As a user does who begins anew.
void type(const Book& book, Farm& farm) {
    command(book, "empty-form");
    type_farm(book, farm);
    EXPECT_EQ(book.shown(book.named("farm_entries")).text, "");
}

Book opened() { return calc().open_url(url_of("seasons"), true, false); }

double value(const Book& book, const std::string& name) { return book.cell(book.named(name))->getValue(); }

Arrangement arranged(const Book& book, std::size_t blocks) {
    const Rows grid = data_of(book, "arranged");
    Arrangement found(blocks, 0);
    for (std::size_t at = 0; at < blocks; ++at) {
        for (std::size_t season = 0; season < 8; ++season) {
            if (number(grid, at, season) == 1) found[at] = static_cast<int>(season) + 1;
        }
    }
    return found;
}

void arrange_by_hand(const Book& book, const Arrangement& arrangement) {
    for (std::size_t at = 0; at < arrangement.size(); ++at) {
        for (std::size_t season = 0; season < 8; ++season) {
            put(book, "arranged", at, season, arrangement[at] == static_cast<int>(season) + 1 ? 1 : none);
        }
    }
}

void expect_best(const Book& book, const Farm& farm, double most, const std::string& said) {
    EXPECT_TRUE(said.starts_with("This is the best arrangement within all limits")) << said;
    const Arrangement found = arranged(book, farm.blocks.size());
    EXPECT_TRUE(fits(farm, found));
    EXPECT_EQ(value(book, "limits_broken"), 0);
    EXPECT_EQ(value(book, "lines_broken"), 0);
    EXPECT_NEAR(worth(farm, found), most, 1e-6 * (1 + std::abs(most)));
    EXPECT_NEAR(value(book, "arranged_worth"), most, 1e-6 * (1 + std::abs(most)));
}

}  // namespace

// The sheet against the reckoning above, year by year, for arrangements that fit and others that do not.
TEST(Seasons, WorthAndLimitsAreThoseOfASecondReckoning) {
    const Book book = opened();
    for (unsigned seed = 1; seed <= 4; ++seed) {
        Farm farm = invented(seed, 6, 3);
        farm.carry = seed % 2 == 0;
        type(book, farm);
        std::mt19937 engine(seed);
        int fitting = 0;
        for (int round = 0; round < 8; ++round) {
            Arrangement by_hand;
            for (std::size_t at = 0; at < 6; ++at)
                by_hand.push_back(static_cast<int>(engine() % (round < 4 ? 4 : 12)) % 4);
            if (round == 0) by_hand = Arrangement(6, 0);
            arrange_by_hand(book, by_hand);
            EXPECT_NEAR(value(book, "arranged_worth"), worth(farm, by_hand), 1e-6);
            const bool fine = value(book, "limits_broken") + value(book, "lines_broken") == 0;
            EXPECT_EQ(fine, fits(farm, by_hand)) << "seed " << seed << ", round " << round;
            fitting += fine ? 1 : 0;
            // The worth is also the present value of the flows on sheet Years, and the crop that of the harvests.
            const auto present = book.calculate("=REWORK.PRESENTVALUE(year_flows;interest)");
            EXPECT_NEAR(present.number, worth(farm, by_hand), 1e-6);
            const Rows crop = data_of(book, "year_crop");
            for (int season = 1; season <= 3; ++season) {
                EXPECT_NEAR(number(crop, static_cast<std::size_t>(season), 0), crop_after(farm, by_hand, season), 1e-9);
            }
        }
        EXPECT_GT(fitting, 0);
        EXPECT_LT(fitting, 8);
    }
}

TEST(ArrangeTheSeasons, FindsTheBestOfAll) {
    const Book book = opened();
    int nothing = 0;
    for (unsigned seed = 11; seed <= 18; ++seed) {
        Farm farm = invented(seed, 6, 3);
        if (seed % 3 == 0) farm.blocks[1].must = true;
        if (seed % 4 == 0) farm.blocks[2].never = true;
        if (seed == 17) farm.seasons[0].days = farm.seasons[1].days = farm.seasons[2].days = 1;
        if (seed == 17) farm.blocks[0].must = true;
        type(book, farm);
        const auto best = best_of_all(farm);
        const Rows before = data_of(book, "arranged");
        const Ref<css::document::XUndoManagerSupplier> supplier(book.document(), UNO_QUERY_THROW);
        supplier->getUndoManager()->clear();
        const std::string said = command(book, "arrange-seasons");
        if (best) {
            expect_best(book, farm, worth(farm, *best), said);
        } else {
            ++nothing;
            EXPECT_TRUE(said.starts_with("Nothing was arranged: nothing fits all limits.")) << said;
            EXPECT_TRUE(data_of(book, "arranged") == before);
            EXPECT_FALSE(supplier->getUndoManager()->isUndoPossible());
            EXPECT_FALSE(supplier->getUndoManager()->isRedoPossible());
        }
    }
    EXPECT_GE(nothing, 1);
    EXPECT_LT(nothing, 4);
}

// Multidimensional 0/1 knapsack of Petersen (1967), Management Science 13(9):736-750, with the optimum as in
// OR-Library: one season, items as blocks, the ten limits as grafter-days, cash and the wood of eight sources.
TEST(ArrangeTheSeasons, FindsThePublishedOptimumOfPetersen) {
    std::ifstream in(SLIPBARK_KNAPSACK);
    ASSERT_TRUE(in.good());
    const Book book = opened();
    std::string word;
    int instances = 0;
    std::string line;
    while (std::getline(in, line)) {
        std::istringstream head(line);
        std::size_t items = 0;
        std::size_t limits = 0;
        double optimum = 0;
        if (!(head >> word) || word != "items") continue;
        head >> items >> word >> limits >> word >> optimum;
        ASSERT_EQ(limits, 10U);
        std::vector<double> value_of(items);
        std::vector<std::vector<double>> use(limits, std::vector<double>(items));
        std::vector<double> limit(limits);
        in >> word;
        for (double& one : value_of) in >> one;
        for (auto& row : use) {
            in >> word;
            for (double& one : row) in >> one;
        }
        in >> word;
        for (double& one : limit) in >> one;
        Farm farm;
        farm.interest = 0;
        farm.years = 5;
        farm.seasons.resize(1);
        farm.seasons[0].days = limit[0];
        farm.seasons[0].cash = limit[1];
        for (std::size_t source = 0; source < source_room; ++source) farm.seasons[0].wood[source] = limit[2 + source];
        farm.blocks.resize(items);
        for (std::size_t at = 0; at < items; ++at) {
            farm.blocks[at].days = use[0][at];
            farm.blocks[at].outlay = use[1][at];
            for (std::size_t source = 0; source < source_room; ++source) {
                farm.blocks[at].wood[source] = use[2 + source][at];
            }
        }
        type(book, farm);
        // Nothing is lost, and the gain is such that a block is worth what the item is.
        const double factor = std::accumulate(farm.shares.begin(), farm.shares.begin() + 5, 0.0);
        for (std::size_t at = 0; at < items; ++at) {
            farm.blocks[at].gain = (value_of[at] + use[1][at]) / factor;
            put(book, "block_gain", at, 0, farm.blocks[at].gain);
        }
        expect_best(book, farm, optimum, command(book, "arrange-seasons"));
        ++instances;
    }
    EXPECT_EQ(instances, 4);
}

TEST(ArrangeTheSeasons, LeavesPinnedLinesAloneAndIsUndoneInOneStep) {
    const Book book = opened();
    const auto formulas = [&] {
        return Ref<css::sheet::XCellRangeFormula>(cells(book, "arranged"), UNO_QUERY_THROW)->getFormulaArray();
    };
    const auto before = formulas();
    const auto pin = [&](const std::string& row, const std::string& text) { book.set_text("Arrange.M" + row, text); };
    // The second block stays in 2028, the third stays where it is not: in no season at all.
    pin("8", "x");
    book.set_text("Blocks.N9", "");
    book.set_text("Arrange.E9", "");
    pin("9", "x");
    const auto typed = formulas();
    const Ref<css::document::XUndoManagerSupplier> supplier(book.document(), UNO_QUERY_THROW);
    supplier->getUndoManager()->clear();
    const std::string said = command(book, "arrange-seasons");
    EXPECT_TRUE(said.starts_with("This is the best arrangement")) << said;
    EXPECT_EQ(arranged(book, 8)[1], 2);
    EXPECT_EQ(arranged(book, 8)[2], 0);
    EXPECT_EQ(value(book, "limits_broken"), 0);
    EXPECT_NE(formulas(), typed);
    EXPECT_EQ(supplier->getUndoManager()->getAllUndoActionTitles().getLength(), 1);
    supplier->getUndoManager()->undo();
    EXPECT_EQ(formulas(), typed);
    EXPECT_NE(typed, before);
}

TEST(ArrangeTheSeasons, NamesTheLimitsThatClash) {
    const Book book = opened();
    Farm farm = invented(5, 4, 2);
    farm.carry = false;
    for (Block& block : farm.blocks) block.earliest = block.latest = 0;
    for (Season& season : farm.seasons) {
        season = Season{};
        season.days = 1000;
        season.cash = 1e6;
    }
    // The first block must be done in the second season, for which there is too little cash; else all fits.
    farm.blocks[0].must = true;
    farm.blocks[0].earliest = 2;
    farm.blocks[0].outlay = 5000;
    farm.seasons[1].cash = 4000;
    type(book, farm);
    const std::string said = command(book, "arrange-seasons");
    EXPECT_EQ(said,
              "Nothing was arranged: nothing fits all limits. It would work without one of these limits: Cash, "
              "florins in 2028.");
    // And a block that must be done but may not in any season.
    farm.blocks[0].earliest = 0;
    put(book, "block_earliest", 0, 0, first_year + 5);
    EXPECT_EQ(command(book, "arrange-seasons"),
              "Block 1 is required, but no season is possible: check its earliest and latest season.");
}

TEST(ArrangeTheSeasons, SaysWhatOneMoreOfTheScarcestLimitIsWorth) {
    const Book book = opened();
    // Two equal blocks of 10 days in one season with 19: a day more lets in the second.
    Farm farm;
    farm.interest = 0;
    farm.seasons.resize(1);
    farm.seasons[0].days = 19;
    farm.blocks.resize(2);
    for (Block& block : farm.blocks) {
        block.days = 10;
        block.outlay = 100;
        block.gain = 50;
    }
    type(book, farm);
    const double one = worth(farm, farm.blocks[0], 1);
    const std::string said = command(book, "arrange-seasons");
    EXPECT_NE(said.find("The scarcest limit is Grafter-days in 2027: one more would add " +
                        std::to_string(std::lround(one)) + " florins."),
              std::string::npos)
        << said;
}

TEST(ArrangeTheSeasons, ChangesNothingWhereThereIsNothingToArrange) {
    {
        const Book book = calc().open_url(url_of("records"), true, false);
        EXPECT_EQ(command(book, "arrange-seasons").rfind("There are no seasons to arrange here", 0), 0U);
    }
    const Book book = opened();
    book.set_text("Blocks.D7", "many");
    EXPECT_EQ(
        command(book, "arrange-seasons"),
        "Nothing was arranged, because an entry is not valid yet. Sheet Blocks: 1 line to correct, first line 7.");
    command(book, "empty-form");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    const std::string said = command(book, "arrange-seasons");
    EXPECT_TRUE(said.starts_with("Nothing was arranged, because an entry is not valid yet. ")) << said;
}

// An office whose folder of libraries lacks the one with the solvers.
TEST(ArrangeTheSeasons, SaysWhereTheOfficeHasNoSolver) {
    const Folder libraries;
    const std::filesystem::path program = start({}).program;
    if (!exists(program / "libsolverlo.so")) GTEST_SKIP() << "the tested office runs in a system of its own";
    for (const auto& file : std::filesystem::directory_iterator(program)) {
        if (file.path().filename() == "libsolverlo.so") continue;
        std::filesystem::create_symlink(file.path(), libraries / file.path().filename().string());
    }
    office::Start how{.bundled = bundled(), .profile = {}, .words = {"-env:LO_LIB_DIR=" + file_url(libraries / "")}};
    const Office poor(start(how));
    const Book book = poor.open_url(url_of("seasons"), true, false);
    const Rows before = data_of(book, "arranged");
    EXPECT_EQ(command(book, "arrange-seasons", {}, &poor),
              "Nothing was arranged: this LibreOffice has no linear solver. Most installations have one; arrange by "
              "hand, or ask the person who installed it.");
    EXPECT_TRUE(data_of(book, "arranged") == before);
}

// GLPK (branch and bound of its own) on the same farm, written as a linear programme from the reckoning above.
TEST(ArrangeTheSeasons, IsAsGoodAsGlpk) {
    if (!runs("command -v glpsol")) GTEST_SKIP() << "glpsol is not installed: setup view";
    const Book book = opened();
    Farm farm = invented(21, 10, 4);
    farm.carry = true;
    type(book, farm);
    const Folder folder;
    const auto programme = folder / "farm.lp";
    const auto seasons = static_cast<int>(farm.seasons.size());
    {
        std::ofstream lp(programme);
        lp.precision(17);
        const auto x = [](std::size_t block, int season) {
            return "x" + std::to_string(block) + "_" + std::to_string(season);
        };
        const auto term = [](double factor, const std::string& variable) {
            std::ostringstream text;
            text.precision(17);
            text << (factor < 0 ? " - " : " + ") << std::abs(factor) << ' ' << variable;
            return text.str();
        };
        const std::size_t blocks = farm.blocks.size();
        lp << "Maximize\n worth:";
        for (std::size_t at = 0; at < blocks; ++at) {
            for (int s = 1; s <= seasons; ++s) lp << term(worth(farm, farm.blocks[at], s), x(at, s)) << '\n';
        }
        lp << "Subject To\n";
        for (std::size_t at = 0; at < blocks; ++at) {
            lp << " once" << at << ":";
            for (int s = 1; s <= seasons; ++s) lp << term(1, x(at, s));
            lp << " <= 1\n";
            for (int s = 1; s <= seasons; ++s) {
                const Block& block = farm.blocks[at];
                if (s < block.earliest || (block.latest > 0 && s > block.latest)) lp << ' ' << x(at, s) << " = 0\n";
            }
        }
        double cash = 0;
        const double today = crop_after(farm, Arrangement(blocks, 0), 1);
        for (int s = 1; s <= seasons; ++s) {
            const Season& there = farm.seasons[static_cast<std::size_t>(s - 1)];
            cash += there.cash;
            const auto row = [&](const auto& use, int from, double limit) {
                for (std::size_t at = 0; at < blocks; ++at) {
                    for (int then = from; then <= s; ++then) {
                        const double one = use(farm.blocks[at], then);
                        if (one != 0) lp << term(one, x(at, then));
                    }
                }
                lp << " <= " << limit << '\n';
            };
            row([](const Block& block, int) { return block.days; }, s, there.days);
            row([](const Block& block, int) { return block.outlay; }, 1, cash);
            row(
                [&](const Block& block, int then) {
                    return block.old_crop - block.new_crop * farm.shares[static_cast<std::size_t>(s - then)];
                },
                1, (1 - there.kept) * today);
            for (std::size_t source = 0; source < 3; ++source) {
                row([&](const Block& block, int) { return block.wood[source]; }, s, there.wood[source]);
            }
        }
        lp << "Binary\n";
        for (std::size_t at = 0; at < blocks; ++at) {
            for (int s = 1; s <= seasons; ++s) lp << ' ' << x(at, s) << '\n';
        }
        lp << "End\n";
    }
    const auto answer = folder / "answer.txt";
    ASSERT_TRUE(runs("glpsol --tmlim 120 --cuts --lp '" + programme.string() + "' -o '" + answer.string() + "'"));
    std::ifstream in(answer);
    std::string line;
    std::string status;
    double most = none;
    while (std::getline(in, line)) {
        if (line.starts_with("Status:")) status = line;
        if (line.starts_with("Objective:")) most = std::stod(line.substr(line.find('=') + 1));
    }
    ASSERT_NE(status.find("INTEGER OPTIMAL"), std::string::npos) << status;
    const std::string said = command(book, "arrange-seasons");
    EXPECT_TRUE(said.starts_with("This is the best arrangement within all limits")) << said;
    EXPECT_TRUE(fits(farm, arranged(book, farm.blocks.size())));
    EXPECT_NEAR(value(book, "arranged_worth"), most, 1e-6 * most);
}

// Too many to prove the best in the time allowed: what comes fits, and is no worse than taking the blocks by what they
// are worth for what they need of the scarcest, each in the first season that has room.
TEST(ArrangeTheSeasons, FitsWithinItsTimeForFortyBlocks) {
    const Book book = opened();
    Farm farm = invented(40, 40, 8);
    type(book, farm);
    put(book, "arrange_seconds", 0, 0, 6);
    const std::string said = command(book, "arrange-seasons");
    EXPECT_TRUE(said.starts_with("This is the best arrangement ")) << said;
    const Arrangement found = arranged(book, 40);
    EXPECT_TRUE(fits(farm, found));
    EXPECT_EQ(value(book, "limits_broken"), 0);
    std::vector<std::size_t> order(40);
    std::iota(order.begin(), order.end(), std::size_t{0});
    double greedy = 0;
    for (const bool by_days : {true, false}) {
        const auto rate = [&](std::size_t at) {
            const Block& block = farm.blocks[at];
            return worth(farm, block, 1) / (by_days ? block.days : block.outlay);
        };
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rate(a) > rate(b); });
        Arrangement now(40, 0);
        for (const std::size_t at : order) {
            for (int season = 1; season <= 8 && now[at] == 0; ++season) {
                if (worth(farm, farm.blocks[at], season) <= 0) break;
                now[at] = season;
                if (!fits(farm, now)) now[at] = 0;
            }
        }
        greedy = std::max(greedy, worth(farm, now));
    }
    EXPECT_GT(greedy, 0);
    EXPECT_GE(worth(farm, found), greedy);
    RecordProperty("worth", std::to_string(worth(farm, found)));
    RecordProperty("greedy", std::to_string(greedy));
}

}  // namespace slipbark::tests

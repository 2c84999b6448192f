// The workbook seasons and its command: cells against the model (which tests/seasons holds against a case in exact
// fractions and against trying all), the office's solver against that case, published optima and GLPK.

#include "seasons/model.hpp"

#include <cmath>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <cstdlib>
#include <fstream>
#include <limits>
#include <numeric>
#include <optional>
#include <random>
#include <sstream>

#include "check_case.hpp"
#include "component/host_solver.hpp"
#include "farm.hpp"
#include "folder.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using addin::HostSolver;
using css::uno::UNO_QUERY_THROW;
using seasons::Arrangement;
using seasons::Best;
using seasons::Gain;

namespace {

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
        while (at < now.size() && now[at] == farm.grafting_seasons) now[at++] = 0;
        if (at == now.size()) return best;
        ++now[at];
    }
}

/// As a user does who begins with an empty form.
void type(const Book& book, const Farm& farm) {
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

// The cells against the model, for arrangements that fit and others that do not.
TEST(Seasons, CellsSayWhatTheModelSays) {
    const Book book = opened();
    int fitting = 0;
    int tried = 0;
    for (unsigned seed = 1; seed <= 4; ++seed) {
        Farm farm = invented(seed, 6, 3);
        farm.same_end = seed % 2 == 0;
        type(book, farm);
        std::mt19937 engine(seed);
        for (int round = 0; round < 8; ++round) {
            Arrangement by_hand;
            for (std::size_t at = 0; at < 6; ++at) {
                by_hand.push_back(static_cast<int>(engine() % (round < 4 ? 4 : 12)) % 4);
            }
            if (round == 0) by_hand = Arrangement(6, 0);
            arrange_by_hand(book, by_hand);
            EXPECT_NEAR(value(book, "arranged_worth"), worth(farm, by_hand), 1e-6);
            const bool fine = value(book, "limits_broken") + value(book, "lines_broken") == 0;
            EXPECT_EQ(fine, fits(farm, by_hand)) << "seed " << seed << ", round " << round;
            fitting += fine ? 1 : 0;
            ++tried;
            // The worth is also the present value of the flows on sheet Years.
            EXPECT_NEAR(book.calculate("=REWORK.PRESENTVALUE(year_flows;interest)").number, worth(farm, by_hand), 1e-6);
            const auto uses = seasons::uses(farm, by_hand);
            const Rows used = data_of(book, "limits_used");
            for (std::size_t season = 0; season < uses.size(); ++season) {
                EXPECT_NEAR(number(used, 0, season), uses[season].days, 1e-9);
                EXPECT_NEAR(number(used, 1, season), -uses[season].flow, 1e-6);
                for (std::size_t source = 0; source < 3; ++source) {
                    EXPECT_NEAR(number(used, 3 + source, season),
                                uses[season].wanted[source] - uses[season].own[source], 1e-9);
                }
                if (round == 0) continue;  // sheet Years is blank
                EXPECT_NEAR(number(data_of(book, "left_over"), season, 0), uses[season].purse, 1e-6);
                EXPECT_NEAR(number(data_of(book, "year_crop"), season + 1, 0), uses[season].crop, 1e-9);
            }
        }
    }
    EXPECT_GT(fitting, 4);
    EXPECT_LT(fitting, tried - 4);
}

TEST(Seasons, OneBlockAtOnceIsWorthItsPresentValue) {
    const Book book = opened();
    Farm farm = invented(3, 1, 1);
    farm.blocks[0].earliest = farm.blocks[0].latest = 1;
    type(book, farm);
    arrange_by_hand(book, {1});
    EXPECT_NEAR(value(book, "arranged_worth"),
                book.calculate("=REWORK.PRESENTVALUE(INDEX(block_flows;1;0);interest)").number, 0.005);
}

// A plan pasted into the seasons, done at once, is worth what the plan says, whatever its years are made of.
TEST(Seasons, AgreeWithThePlanToTheCent) {
    const Book plan = calc().open_url(url_of("rework-plan"), true, false);
    const Book book = opened();
    command(book, "empty-form");
    put(book, "farm", 0, 0, "Tern Point");
    put(book, "first_season", 0, 0, first_year);
    put(book, "season_count", 0, 0, 1);
    put(book, "rest_crop", 0, 0, 0);
    int years = -1;
    for (const auto& row : data_of(plan, "flows")) years += row[0].getValueTypeClass() == css::uno::TypeClass_DOUBLE;
    put(book, "years_counted", 0, 0, years);
    put(book, "interest", 0, 0, value(plan, "rate"));
    const auto agree = [&](const std::string& what) {
        const Rows line = data_of(plan, "line_for_seasons");
        const Ref<css::sheet::XCellRangeAddressable> names(cells(book, "block_names"), UNO_QUERY_THROW);
        const auto address = names->getRangeAddress();
        const auto sheet = Ref<css::sheet::XSheetCellRange>(names, UNO_QUERY_THROW)->getSpreadsheet();
        for (sal_Int32 at = 0; at < line[0].getLength(); ++at) {
            const auto target = sheet->getCellByPosition(address.StartColumn + at, address.StartRow);
            double number = 0;
            rtl::OUString text;
            if (line[0][at] >>= number) target->setValue(number);
            if (line[0][at] >>= text) target->setFormula(text);
        }
        arrange_by_hand(book, {1});
        EXPECT_EQ(book.shown(book.named("farm_entries")).text, "") << what;
        EXPECT_NEAR(value(book, "arranged_worth"), value(plan, "present_value"), 0.005) << what;
    };
    agree("as it comes");
    const double before = value(plan, "present_value");
    for (const auto& [name, changed] :
         {std::pair("yearly_loss", 0.03), {"alternate", 0.3}, {"nurse_share", 0.3}, {"regraft_take", 0.3}}) {
        put(plan, name, 0, 0, changed);
        agree(name);
    }
    EXPECT_NE(value(plan, "present_value"), before);
}

// The odds are those of the money that all arranged blocks bring together.
TEST(Seasons, HaveOddsOfTheWhole) {
    const Book book = opened();
    const auto calculated = [&](const std::string& formula) { return book.calculate(formula).number; };
    const auto said = [&] { return book.shown(book.named("odds_sentence")).text; };
    EXPECT_TRUE(says(said(), "Half of 4,000 simulated futures have paid back by ")) << said();
    EXPECT_TRUE(says(said(), "a bad case (one in ten is worse) is")) << said();
    const double last = calculated("=last_year+1");
    const auto final = [&](const char* name) {
        return calculated("=INDEX(" + std::string(name) + ";" + std::to_string(last) + ")");
    };
    EXPECT_LT(final("odds_low"), value(book, "arranged_worth"));
    EXPECT_GT(final("odds_high"), final("odds_low") + 1000);
    // With nothing uncertain all futures are the plan itself.
    for (std::size_t line = 0; line < 6; ++line) {
        for (std::size_t column = 1; column < 4; ++column) put(book, "spreads", line, column, line < 4 ? 1 : 0);
    }
    EXPECT_NEAR(final("odds_low"), value(book, "arranged_worth"), 0.005);
    EXPECT_NEAR(final("odds_high"), value(book, "arranged_worth"), 0.005);
    const double years = value(book, "payback_year");
    EXPECT_EQ(calculated("=INDEX(odds_paid;payback_year)"), 0);
    EXPECT_EQ(calculated("=INDEX(odds_paid;payback_year+1)"), 1);
    const std::string year = std::to_string(static_cast<int>(value(book, "first_season") + years));
    EXPECT_TRUE(says(said(), "paid back by " + year + ", nine in ten by " + year + "; planned: " + year + "."))
        << said();
    // More cash than there is: by the deepest point of the same money, which is what sheet Years says.
    const double deepest = value(book, "deepest_amount");
    ASSERT_GT(deepest, 0);
    put(book, "money_there", 0, 0, deepest + 1);
    EXPECT_EQ(value(book, "odds_short"), 0);
    put(book, "money_there", 0, 0, deepest - 1);
    EXPECT_EQ(value(book, "odds_short"), 1);
    EXPECT_TRUE(says(said(), "In 100 of 100 of them more than your")) << said();
    // Of one factor they are what the older function says of money in and out.
    EXPECT_NEAR(calculated("=SUMPRODUCT(ABS(INDEX(REWORK.FLOWODDS(odds_years;{\"price\";0.5;1;1.3};interest);0;2)-"
                           "INDEX(REWORK.PAYBACKODDS(year_costs;year_income;{\"income\";0.5;1;1.3};interest);0;2)))"),
                0, 0.02);
    // A line that does not fit is named, and there are no odds.
    put(book, "spreads", 2, 1, 2);
    EXPECT_EQ(said(), "");
    EXPECT_TRUE(says(book.shown(book.named("odds_why")).text, "price: give three numbers from 0 to 10"))
        << book.shown(book.named("odds_why")).text;
}

TEST(Seasons, RefuseALineOfTheOldLayoutByName) {
    const Book book = opened();
    command(book, "empty-form");
    // Ten cells: name, variety, trees, days, sticks, outlay, gain, lost, old crop, new crop.
    put(book, "block_names", 0, 0, "Old line");
    put(book, "block_varieties", 0, 0, "Larkspur mandarin");
    put(book, "block_trees", 0, 0, 310);
    put(book, "block_old_crop", 0, 0, 14);
    for (std::size_t at = 0; at < 3; ++at) {
        put(book, "block_days", 0, at, 840);
        put(book, "block_sticks", 0, at, 21);
    }
    EXPECT_EQ(book.shown(book.named("block_checks")).text,
              "This line has the layout of an older plan: paste line_for_seasons of the plan as it is today.");
}

// All solves of tests/reference/Z_seasons_model.md by the office's own solver.
TEST(HostSolver, SolvesTheCheckCase) {
    for (const CheckedCase& checked : checked_cases()) {
        const Farm farm = check_farm(checked.same_end, checked.margins);
        HostSolver solver(calc().context(), 60);
        const Best now = best(farm, {}, std::ref(solver));
        ASSERT_TRUE(now.arrangement) << checked.id;
        EXPECT_TRUE(now.in_time);
        EXPECT_EQ(*now.arrangement, checked.arrangement) << checked.id;
        EXPECT_NEAR(now.worth, checked.worth, 1e-6 * checked.worth);
        const auto found = gains(farm, now, std::ref(solver), [] { return true; });
        ASSERT_EQ(found.size(), checked.gains.size());
        for (std::size_t at = 0; at < found.size(); ++at) {
            const CheckedGain& right = checked.gains[at];
            EXPECT_TRUE(found[at].known);
            EXPECT_EQ(found[at].any, !right.extra.empty()) << checked.id << ", " << at;
            if (!found[at].any) continue;
            EXPECT_EQ(found[at].arrangement, right.arrangement) << checked.id << ", " << at;
            EXPECT_NEAR(found[at].adds, right.adds, 1e-3) << checked.id << ", " << at;
            for (std::size_t season = 0; season < right.extra.size(); ++season) {
                EXPECT_NEAR(found[at].extra[season], right.extra[season], 1e-6) << checked.id << ", " << at;
            }
        }
    }
    HostSolver solver(calc().context(), 60);
    const Best without_own = best(check_farm(false, true, false), {}, std::ref(solver));
    EXPECT_NEAR(without_own.worth, 33536.5683, 1e-6 * 33536);
}

// Multidimensional 0/1 knapsack of Petersen (1967), Management Science 13(9):736-750, with the optimum as in
// OR-Library: one season, items as blocks, the ten limits as grafter-days, crop and the wood of eight sources.
TEST(HostSolver, FindsThePublishedOptimumOfPetersen) {
    std::ifstream in(SLIPBARK_KNAPSACK);
    ASSERT_TRUE(in.good());
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
        farm.sources = 8;
        farm.blocks.resize(items);
        double crop = 0;
        for (std::size_t at = 0; at < items; ++at) {
            seasons::Block& block = farm.blocks[at];
            block.flows = {value_of[at]};
            block.days = {use[0][at]};
            block.old_crop = use[1][at];
            crop += use[1][at];
            for (std::size_t source = 0; source < 8; ++source) block.sticks.push_back({use[2 + source][at]});
        }
        seasons::Season season{.days = limit[0], .sticks = {}, .cash = {}, .crop_kept = 1 - limit[1] / crop};
        for (std::size_t source = 0; source < 8; ++source) season.sticks.emplace_back(limit[2 + source]);
        farm.seasons = {season};
        HostSolver solver(calc().context(), 60);
        const Best found = best(farm, {}, std::ref(solver));
        EXPECT_TRUE(found.in_time);
        EXPECT_NEAR(found.worth, optimum, 1e-6 * optimum);
        ++instances;
    }
    EXPECT_EQ(instances, 4);
}

// GLPK (branch and bound of its own) on the same program, written as text.
TEST(HostSolver, IsAsGoodAsGlpk) {
    if (!runs("command -v glpsol")) GTEST_SKIP() << "glpsol is not installed: setup view";
    const Farm farm = invented(21, 10, 4);
    const seasons::Model model = seasons::model(farm, {});
    const Folder folder;
    const auto programme = folder / "farm.lp";
    {
        std::ofstream lp(programme);
        lp.precision(17);
        const auto terms = [&](const std::vector<std::pair<std::size_t, double>>& factors) {
            for (const auto& [column, factor] : factors) {
                lp << (factor < 0 ? " - " : " + ") << std::abs(factor) << " x" << column << '\n';
            }
        };
        lp << "Maximize\n worth:";
        std::vector<std::pair<std::size_t, double>> goal;
        for (std::size_t at = 0; at < model.program.goal.size(); ++at) goal.emplace_back(at, model.program.goal[at]);
        terms(goal);
        lp << "Subject To\n";
        for (const seasons::Row& row : model.program.rows) {
            if (row.factors.empty()) continue;
            terms(row.factors);
            lp << " <= " << *row.most << '\n';
        }
        lp << "Binary\n";
        for (std::size_t at = 0; at < model.program.goal.size(); ++at) lp << " x" << at << '\n';
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
    HostSolver solver(calc().context(), 120);
    const Best found = best(farm, {}, std::ref(solver));
    EXPECT_TRUE(found.in_time);
    EXPECT_NEAR(found.worth, most, 1e-6 * most);
}

TEST(ArrangeTheSeasons, FindsTheBestOfAll) {
    const Book book = opened();
    int nothing = 0;
    for (unsigned seed = 11; seed <= 16; ++seed) {
        Farm farm = invented(seed, 5, 3);
        if (seed % 3 == 0) farm.blocks[1].rule = seasons::Rule::must;
        if (seed % 4 == 0) farm.blocks[2].rule = seasons::Rule::never;
        if (seed == 15) {
            for (auto& season : farm.seasons) season.days = 1;
            farm.blocks[0].rule = seasons::Rule::must;
        }
        type(book, farm);
        const auto right = best_of_all(farm);
        const Rows before = data_of(book, "arranged");
        const Ref<css::document::XUndoManagerSupplier> supplier(book.document(), UNO_QUERY_THROW);
        supplier->getUndoManager()->clear();
        const std::string said = command(book, "arrange-seasons");
        if (right) {
            expect_best(book, farm, worth(farm, *right), said);
        } else {
            ++nothing;
            EXPECT_TRUE(said.starts_with("Nothing was arranged: nothing fits all limits. It would take ")) << said;
            EXPECT_TRUE(data_of(book, "arranged") == before);
            EXPECT_FALSE(supplier->getUndoManager()->isUndoPossible());
        }
    }
    EXPECT_GE(nothing, 1);
    EXPECT_LT(nothing, 4);
}

TEST(ArrangeTheSeasons, LeavesPinnedLinesAloneAndIsUndoneInOneStep) {
    const Book book = opened();
    const auto formulas = [&] {
        return Ref<css::sheet::XCellRangeFormula>(cells(book, "arranged"), UNO_QUERY_THROW)->getFormulaArray();
    };
    // The second block stays in 2028, the third stays where it is not: in no season at all.
    put(book, "block_pin", 1, 0, "x");
    put(book, "block_rule", 2, 0, "");
    arrange_by_hand(book, {0, 2, 0, 0, 0, 0, 0, 0});
    put(book, "block_pin", 2, 0, "x");
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
}

/// Two equal blocks of 10 days in one season, worth 400 each.
Farm two_equal_blocks(double days) {
    Farm farm;
    farm.sources = 8;
    farm.years = 2;
    farm.rate = 0;
    farm.seasons = {{.days = days, .sticks = std::vector<std::optional<double>>(8), .cash = {}, .crop_kept = {}}};
    for (const char* name : {"Block 1", "Block 2"}) {
        farm.blocks.push_back({.name = name,
                               .flows = {-100, 0, 500},
                               .days = {10, 0, 0},
                               .sticks = std::vector<std::vector<double>>(8),
                               .gives = std::vector<std::vector<double>>(8),
                               .new_crop = {0, 0, 0},
                               .pinned = {}});
    }
    return farm;
}

TEST(ArrangeTheSeasons, SaysWhatItWouldTake) {
    const Book book = opened();
    // 19 days: a day more lets in the second.
    type(book, two_equal_blocks(19));
    const std::string said = command(book, "arrange-seasons");
    EXPECT_NE(said.find("With 1 grafter-days in 2027 more: "), std::string::npos) << said;
    EXPECT_NE(said.find("That adds 400 florins."), std::string::npos) << said;
    EXPECT_NE(said.find(" is left out: with it the best is 0 florins less."), std::string::npos) << said;
    // 20 days: all is arranged, and nothing is in the way.
    type(book, two_equal_blocks(20));
    const std::string all = command(book, "arrange-seasons");
    EXPECT_TRUE(all.ends_with("No kind of limit alone keeps a better arrangement out.")) << all;
}

TEST(ArrangeTheSeasons, SaysWhatWouldFitWhereNothingDoes) {
    const Book book = opened();
    Farm farm = two_equal_blocks(8.5);
    farm.blocks[0].rule = seasons::Rule::must;
    type(book, farm);
    EXPECT_EQ(command(book, "arrange-seasons"),
              "Nothing was arranged: nothing fits all limits. It would take 1.5 grafter-days in 2027 more.");
    // And a block that must be done but may not in any season.
    put(book, "block_earliest", 0, 0, first_year + 5);
    EXPECT_EQ(command(book, "arrange-seasons"),
              "Block 1 is required, but no season is possible: check its earliest and latest season.");
}

TEST(ArrangeTheSeasons, ChangesNothingWhereThereIsNothingToArrange) {
    {
        const Book book = calc().open_url(url_of("records"), true, false);
        EXPECT_EQ(command(book, "arrange-seasons").rfind("There are no seasons to arrange here", 0), 0U);
    }
    const Book book = opened();
    put(book, "block_trees", 0, 0, "many");
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

// Too many to prove the best in the time allowed: what comes fits, and is no worse than taking the blocks by what they
// are worth for what they need of the scarcest, each in the first season that has room.
TEST(ArrangeTheSeasons, FitsWithinItsTimeForFortyBlocks) {
    const Book book = opened();
    const Farm farm = invented(40, 40, 8);
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
            const seasons::Block& block = farm.blocks[at];
            return worth(farm, block, 1) / (by_days ? block.days[0] : -block.flows[0]);
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

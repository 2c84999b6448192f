// The workbook records: what it makes of known records, of wrong ones, and of none; and that its blocks fit where they
// are to be pasted.
#include <algorithm>
#include <array>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/view/XRenderable.hpp>
#include <string>
#include <vector>

#include "calc.hpp"
#include "reckoned.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

std::string at(const std::string& column, int row) { return column + std::to_string(row); }

Book opened() { return calc().open_url(url_of("records"), true); }

void put(const Book& book, const std::string& sheet, int row, char first, const std::vector<double>& values) {
    for (const double value : values) book.set(sheet + "." + at(std::string(1, first++), row), value);
}

TEST(Records, SaysNothingWhereNothingIsWrittenDown) {
    const Book book = opened();
    EXPECT_TRUE(says(text(book, "headline"), "Plan the next round with a take of")) << text(book, "headline");
    clear_records(book);
    EXPECT_TRUE(says(text(book, "headline"), "No entries yet")) << text(book, "headline");
    for (const char* name : {"next_take", "own_clustering", "own_mature", "stretch"}) EXPECT_EQ(text(book, name), "");
    EXPECT_EQ(number(book, "own_stages"), 0);
    EXPECT_EQ(book.shown("Schedule.B13").text, "First look under the bag") << "the built-in schedule stays";
    EXPECT_EQ(book.shown("Schedule.E13").number, 21);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, PlansWithTheTakeOfPastSeasons) {
    const Book book = opened();
    clear_records(book);
    book.set_text(book.named("take_method"), "all");
    // tests/reference/N_clustered_take.csv, N-050.
    const std::vector<std::vector<double>> seasons{{2021, 46, 52}, {2022, 38, 50}, {2023, 51, 54},
                                                   {2024, 29, 40}, {2025, 40, 43}, {2026, 12, 20}};
    int row = 6;
    for (const auto& season : seasons) {
        book.set(at("Counts.B", row), season[0]);
        put(book, "Counts", row++, 'G', {60, season[2], season[1]});
    }
    EXPECT_NEAR(number(book, "next_take"), 0.831029415405566, 1e-9);
    EXPECT_NEAR(book.shown("Take.L6").number, 0.5340681962593135, 1e-9);
    EXPECT_NEAR(book.shown("Take.M6").number, 0.9547564790516638, 1e-9);
    EXPECT_EQ(text(book, "own_clustering"), "") << "totals tell nothing about trees";
    // Of another method: left out as soon as one method is counted.
    for (row = 6; row < 9; ++row) book.set_text(at("Counts.D", row), "bagged bark graft ");
    book.set_text(book.named("take_method"), "Bagged bark graft");
    EXPECT_EQ(number(book, "counted_lines"), 3);
    book.set_text(book.named("take_method"), "cleft");
    EXPECT_EQ(number(book, "counted_lines"), 0);
    EXPECT_TRUE(says(book.shown("Summary.I9").text, "has the method cleft")) << book.shown("Summary.I9").text;
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, TellsTheClusteringWithinSeasons) {
    const Book book = opened();
    clear_records(book);
    book.set_text(book.named("take_method"), "all");
    // tests/reference/N_clustered_take.csv, N-002: 7/15 in one season; the other season, of as many trees, has N-001 of
    // four grafts a tree. Weighted by 8 and 6 trees.
    const std::vector<double> first{2, 2, 2, 2, 1, 1, 0, 0};
    const std::vector<double> second{4, 1, 3, 0, 4, 2};
    int row = 6;
    for (const double live : first) {
        book.set(at("Counts.B", row), 2026);
        put(book, "Counts", row++, 'H', {2, live});
    }
    EXPECT_NEAR(number(book, "own_clustering"), 7.0 / 15, 1e-5);
    for (const double live : second) {
        book.set(at("Counts.B", row), 2027);
        put(book, "Counts", row++, 'G', {1, 4, live});
    }
    EXPECT_NEAR(number(book, "own_clustering"), (8 * 7.0 / 15 + 6 * 0.430581092685915) / 14, 1e-5);
    // A row of trees as one total does not change it.
    book.set(at("Counts.B", row), 2027);
    put(book, "Counts", row, 'G', {60, 240, 231});
    EXPECT_NEAR(number(book, "own_clustering"), (8 * 7.0 / 15 + 6 * 0.430581092685915) / 14, 1e-5);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, GivesTheDaysFromGraftingToEachStage) {
    const Book book = opened();
    clear_records(book);
    // tests/reference/O_season.csv, O-042, first two stages, in the columns of two built-in stages, L and M: days 25,
    // 31, 28, 36, 30 and 52, 60, 54, 49 after grafting. So few records: mean 30, s 4.062 and mean 53.75, s 4.646, by
    // hand bounds for the next one of mean -+ t(n - 1; 0.9) s sqrt(1 + 1/n): 23.2 to 36.8 and 45.2 to 62.3.
    const std::vector<std::vector<double>> rows{
        {46650, 46675, 46702}, {46657, 46688, 46717}, {46664, 46692, 0}, {46671, 46707, 46725}, {46678, 46708, 46727}};
    int row = 6;
    for (const auto& one : rows) {
        book.set(at("Dates.D", row), one[0]);
        book.set(at("Dates.L", row), one[1]);
        if (one[2] > 0) book.set(at("Dates.M", row), one[2]);
        book.set_text(at("Dates.N", row), "x");
        ++row;
    }
    const auto expect_row = [&](int line, double earliest, double target, double latest, const std::string& source) {
        EXPECT_EQ(book.shown(at("Schedule.C", line)).number, earliest);
        EXPECT_EQ(book.shown(at("Schedule.D", line)).number, target);
        EXPECT_EQ(book.shown(at("Schedule.E", line)).number, latest);
        EXPECT_EQ(book.shown(at("Schedule.F", line)).text, "d");
        EXPECT_TRUE(says(book.shown(at("Schedule.H", line)).text, source)) << line;
    };
    expect_row(13, 23, 30, 37, "own records, 5 rows");
    expect_row(14, 45, 53, 63, "own records, 4 rows");
    expect_row(15, 21, 35, 42, "experience, no published source");  // an x is done, but no record
    EXPECT_EQ(number(book, "own_stages"), 2);
    EXPECT_EQ(book.shown("Schedule.J13").number, 5);
    EXPECT_EQ(book.shown("Schedule.J15").number, 0);
    // Another method: other stages; a date beyond its last one is named.
    book.set_text(book.named("method"), "dormant cleft graft");
    EXPECT_EQ(book.shown("Dates.E5").text, book.shown("Schedule.B6").text);
    EXPECT_EQ(book.shown("Schedule.B6").text, "Ask licence and quarantine");
    book.set("Dates.AB6", 46900);
    EXPECT_TRUE(says(book.shown("Dates.AD6").text, "beyond the stages")) << book.shown("Dates.AD6").text;
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, FitsTheCurveThatTheHarvestsFollow) {
    const Book book = opened();
    clear_records(book);
    // On the built-in curve by construction: its rows 2.75, 3.75, 5 and 7 years, 20, 50, 80 and 100 % of 90, each 1.2
    // times as late.
    const std::vector<std::vector<double>> rows{{2.75, 0.2}, {3.75, 0.5}, {5, 0.8}, {7, 1}};
    int row = 6;
    for (const auto& one : rows) {
        put(book, "Yields", row++, 'C', {45000, 45000 + one[0] * 1.2 * 365.25, 10, 10 * 90 * one[1]});
    }
    EXPECT_NEAR(number(book, "stretch"), 1.2, 1e-3);
    EXPECT_NEAR(number(book, "own_mature"), 90, 0.1);
    // With the decimal sign of the office.
    EXPECT_TRUE(says(text(book, "yield_sentence"), "1.20 times the years") ||
                says(text(book, "yield_sentence"), "1,20 times the years"))
        << text(book, "yield_sentence");
    EXPECT_NEAR(book.shown("Yields.B41").number, 3.3, 0.01);
    EXPECT_NEAR(book.shown("Yields.C41").number, 0.2, 1e-9);
    // With two harvests only where the mature yield is known.
    clear(book, "Yields.B8:F9");
    EXPECT_EQ(text(book, "stretch"), "");
    EXPECT_GT(book.shown("Yields.I39").text.size(), 20U) << "says why";
    book.set(book.named("mature_yield"), 90);
    EXPECT_NEAR(number(book, "stretch"), 1.2, 1e-3);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// A second reckoning of pooled takes, written apart from the functions: takes of groups are Beta with mean mu and
// correlation rho; mu and the square root of rho uniform, on a plain grid of midpoints. One line a group, so that
// counts are taken as they are.
TEST(Records, PoolsTakesAsASecondReckoning) {
    const Book book = opened();
    clear_records(book);
    book.set_text(book.named("take_method"), "all");
    // tests/reference/N_clustered_take.csv, N-050: placed and live.
    const std::vector<std::array<double, 2>> seasons{{52, 46}, {50, 38}, {54, 51}, {40, 29}, {43, 40}, {20, 12}};
    int row = 6;
    for (const auto& [placed, live] : seasons) {
        book.set(at("Counts.B", row), 2015 + row);
        put(book, "Counts", row++, 'G', {60, placed, live});
    }
    struct Weighed {
        double weight, alpha, beta;
    };
    std::vector<Weighed> grid;
    constexpr int steps = 300;
    for (int i = 0; i < steps; ++i) {
        for (int j = 0; j < steps; ++j) {
            const double mu = (i + 0.5) / steps;
            const double rho = std::pow((j + 0.5) / steps, 2);
            const double alpha = mu * (1 - rho) / rho;
            const double beta = (1 - mu) * (1 - rho) / rho;
            const auto log_beta = [](double a, double b) {
                return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b);
            };
            double logarithm = 0;
            for (const auto& [placed, live] : seasons)
                logarithm += log_beta(alpha + live, beta + placed - live) - log_beta(alpha, beta);
            grid.push_back({logarithm, alpha, beta});
        }
    }
    double highest = grid.front().weight;
    for (const Weighed& one : grid) highest = std::max(highest, one.weight);
    for (Weighed& one : grid) one.weight = std::exp(one.weight - highest);
    const auto mean = [&](auto&& of) {
        double sum = 0;
        double weights = 0;
        for (const Weighed& one : grid) {
            if (one.weight < 1e-12) continue;
            sum += one.weight * of(one);
            weights += one.weight;
        }
        return sum / weights;
    };
    for (std::size_t group = 0; group <= seasons.size(); ++group) {
        const bool is_next = group == seasons.size();
        const double live = is_next ? 0 : seasons[group][1];
        const double dead = is_next ? 0 : seasons[group][0] - live;
        const int line = 7 + static_cast<int>(group);
        const double take =
            mean([&](const Weighed& one) { return (one.alpha + live) / (one.alpha + one.beta + live + dead); });
        EXPECT_NEAR(book.shown(at("Pooled.F", line)).number, take, 1e-3) << line;
        for (const char* column : {"G", "H"}) {
            const double limit = book.shown(at(std::string("Pooled.") + column, line)).number;
            const double below =
                mean([&](const Weighed& one) { return boost::math::ibeta(one.alpha + live, one.beta + dead, limit); });
            EXPECT_NEAR(below, column[0] == 'G' ? 0.025 : 0.975, 3e-3) << line;
        }
    }
    EXPECT_EQ(book.shown("Pooled.B13").text, "next season");
    EXPECT_EQ(book.shown("Pooled.B14").text, "");
    EXPECT_TRUE(says(text(book, "pool_sentence"), "The next season: a take of ")) << text(book, "pool_sentence");
    // Five groups or more: adjusted takes are shown; with four not.
    EXPECT_NE(book.shown("Take.H13").text, "");
    clear(book, "Counts.B10:I11");
    EXPECT_EQ(book.shown("Take.H13").text, "");
    // One group pools nothing.
    clear(book, "Counts.B7:I11");
    EXPECT_TRUE(says(text(book, "pool_sentence"), "At least two groups")) << text(book, "pool_sentence");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, FindsWhatGoesWithTheTake) {
    const Book book = opened();
    // The lines as they stand, all five factors: the second reckoning of reckoned.hpp.
    std::vector<reckoned::Observed> trees;
    std::vector<std::string> grafters;
    std::vector<std::string> batches;
    const auto place = [](std::vector<std::string>& names, const std::string& name) {
        const auto found = std::find(names.begin(), names.end(), name);
        if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
        names.push_back(name);
        return names.size() - 1;
    };
    const auto cell = [&](const char* column, int row) {
        return book.shown(at(std::string("Weather and wood.") + column, row));
    };
    for (int row = 5; row <= 64; ++row) {
        place(grafters, cell("E", row).text);
        place(batches, cell("F", row).text);
    }
    ASSERT_EQ(grafters.size(), 5U);
    ASSERT_EQ(batches.size(), 3U);
    for (int row = 5; row <= 64; ++row) {
        reckoned::Row factors{1, cell("B", row).number - cell("B", 5).number, cell("C", row).number,
                              cell("D", row).number};
        for (std::size_t one = 1; one < grafters.size(); ++one)
            factors.push_back(place(grafters, cell("E", row).text) == one ? 1 : 0);
        for (std::size_t one = 1; one < batches.size(); ++one)
            factors.push_back(place(batches, cell("F", row).text) == one ? 1 : 0);
        trees.push_back({cell("H", row).number, cell("G", row).number, factors});
    }
    const auto mine = reckoned::effects(trees);
    ASSERT_EQ(mine.size(), 10U);
    int beyond = 0;
    for (std::size_t one = 1; one < mine.size(); ++one) {
        const int row = 14 + static_cast<int>(one);
        EXPECT_NEAR(book.shown(at("Factors.C", row)).number, std::exp(mine[one].log_odds), 1e-5) << row;
        const double p = reckoned::p_of_t(mine[one].log_odds / mine[one].standard_error, 50);
        EXPECT_NEAR(book.shown(at("Factors.F", row)).number, p, 1e-5) << row;
        beyond += p <= 0.05 ? 1 : 0;
    }
    EXPECT_EQ(book.shown("Factors.B15").text, "each day later");
    EXPECT_EQ(book.shown("Factors.B18").text, grafters[1]);
    EXPECT_EQ(book.shown("Factors.B24").text, "");
    EXPECT_TRUE(says(text(book, "factor_sentence"), std::to_string(beyond) + " of 9 comparisons go beyond chance"))
        << text(book, "factor_sentence");
    EXPECT_TRUE(says(text(book, "factor_few"), "5 grafters, 3 batches and 12 days. Few groups"))
        << text(book, "factor_few");
    // Days in store alone.
    for (const char* choice : {"Factors.C6", "Factors.C8", "Factors.C9", "Factors.C10"}) book.set_text(choice, "no");
    for (auto& tree : trees) tree.factors = {1, tree.factors[2]};
    EXPECT_EQ(book.shown("Factors.B15").text, "each day in store");
    EXPECT_EQ(book.shown("Factors.B16").text, "");
    EXPECT_NEAR(book.shown("Factors.C15").number, std::exp(reckoned::effects(trees)[1].log_odds), 1e-5);
    // A line that lacks what is chosen does not count; one that lacks something else does.
    clear(book, "Weather and wood.C5:C5");
    clear(book, "Weather and wood.D6:D6");
    EXPECT_EQ(book.calculate("=SUM(factor_line)").number, 59);
    book.set("Weather and wood.H7", 9);
    EXPECT_TRUE(says(cell("I", 7).text, "Live was 9")) << cell("I", 7).text;
    EXPECT_TRUE(says(book.shown("Factors.B4").text, "1 line to correct")) << book.shown("Factors.B4").text;
    clear(book, "Weather and wood.B5:H305");
    EXPECT_TRUE(says(text(book, "factor_sentence"), "Fill in sheet Weather and wood first"));
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// Five harvests at ages 1.75 to 5.75 that an unguarded fit gives 4,599 for a mature tree.
TEST(Records, GivesNoMatureYieldThatTheRecordsDoNotShow) {
    const Book book = opened();
    clear_records(book);
    int row = 6;
    double age = 1.75;
    for (const double yield : {3.5, 24., 45., 65., 90.}) {
        book.set_text(at("Yields.B", row), "Block");
        put(book, "Yields", row++, 'C', {45000, std::round(45000 + 365.25 * age++), 10, 10 * yield});
    }
    EXPECT_EQ(text(book, "own_mature"), "");
    EXPECT_EQ(text(book, "stretch"), "");
    EXPECT_EQ(text(book, "yield_sentence"), "The oldest record is 5 years: no mature yield can be given yet.");
    EXPECT_TRUE(says(text(book, "headline"), "no mature yield can be given yet")) << text(book, "headline");
    EXPECT_EQ(book.shown("Yields.B39").text, "") << "nothing to paste into the plan";
    EXPECT_TRUE(says(book.shown("Summary.G21").text, "Not yet")) << book.shown("Summary.G21").text;
    // Known from elsewhere, the harvests only say how late.
    book.set(book.named("mature_yield"), 120);
    EXPECT_NEAR(number(book, "own_mature"), 120, 1e-6);
    EXPECT_GT(number(book, "stretch"), 0.5);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, TellsAlternationApartFromGrowingUp) {
    const Book book = opened();
    clear_records(book);
    book.set(book.named("mature_yield"), 60);
    // Full-grown, 60, 20, 60, 60: the mean of 40/80, 40/80 and 0 by the index's definition. Before that a tree that
    // grows up along the curve.
    const auto harvest = [&](int row, const char* block, double years, double yield) {
        book.set_text(at("Yields.B", row), block);
        put(book, "Yields", row, 'C', {40000, 40000 + years * 365.25, 1, yield});
    };
    const std::vector<double> yields{60, 20, 60, 60};
    int row = 6;
    for (const double yield : yields) {
        harvest(row, "Old", 20 + row, yield);
        ++row;
    }
    for (const auto& [years, share] : std::vector<std::pair<double, double>>{{2.75, 0.2}, {3.75, 0.5}, {5, 0.8}}) {
        harvest(row++, "Young", years, 60 * share);
    }
    const auto cell = [](const char* column, int line) { return at(std::string("Yields.") + column, line); };
    EXPECT_EQ(book.shown(cell("E", 43)).text, "Old");
    EXPECT_EQ(book.shown(cell("G", 43)).number, 4);
    EXPECT_NEAR(book.shown(cell("H", 43)).number, 1.0 / 3, 0.01);
    EXPECT_EQ(book.shown(cell("E", 44)).text, "Young");
    EXPECT_LT(book.shown(cell("H", 44)).number, 0.1) << "growing up is no alternation";
    clear(book, "Yields.B7:F7");
    EXPECT_EQ(book.shown(cell("I", 43)).text, "A year between is missing.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, SumsMinutesOverAllTreesOfAStage) {
    const Book book = opened();
    clear_records(book);
    // 3 people x 8 hours on 40 trees and 1 x 4 on 60: 28 hours on 100 trees, 16.8 minutes a tree, by arithmetic.
    book.set_text("Work.D6", "First airing");
    put(book, "Work", 6, 'E', {3, 8, 40});
    book.set_text("Work.D7", "first airing ");
    put(book, "Work", 7, 'E', {1, 4, 60});
    EXPECT_NEAR(book.shown("Minutes.C14").number, 16.8, 1e-9);
    EXPECT_EQ(number(book, "own_timed"), 1);
    book.set_text("Work.D7", "Second airing");
    EXPECT_EQ(book.shown("Work.I7").text, "Stage: choose one as sheet Schedule has it.");
    EXPECT_NEAR(book.shown("Minutes.C14").number, 36, 1e-9);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Records, EveryWrongChoiceGetsASentence) {
    const Book book = opened();
    const auto ways = {std::string(), std::string("nonsense"), std::string("-1000"), std::string("1E12"),
                       std::string("=1/0")};
    for (const char* name : {"method", "group_by", "next_sure", "limits", "mature_yield"}) {
        const std::string address = book.named(name);
        const std::string before = book.formula(address);
        const double value = book.shown(address).number;
        for (const std::string& way : ways) {
            if (way.empty() && name == std::string("mature_yield")) continue;  // which may be blank
            if (way == "-1000" || way == "1E12") {
                book.set(address, std::stod(way));
            } else if (way.starts_with('=')) {
                book.set_formula(address, way);
            } else {
                book.set_text(address, way);
            }
            const std::string said = text(book, "headline");
            EXPECT_TRUE(said.starts_with("Something does not fit yet. ") && said.ends_with('.'))
                << name << " " << way << ": " << said;
            std::vector<std::string> errors = book.errors();
            if (way.starts_with('=')) {  // the one that was typed
                std::erase_if(errors, [](const std::string& error) { return says(error, "=1/0"); });
            }
            EXPECT_EQ(errors, std::vector<std::string>()) << name << " " << way;
        }
        if (name == std::string("next_sure") || name == std::string("limits")) {
            book.set(address, value);
        } else {
            book.set_text(address, before);
        }
        EXPECT_FALSE(says(text(book, "headline"), "does not fit")) << name << " " << text(book, "headline");
    }
}

TEST(Records, AWrongLineIsNamedAndLeftOut) {
    struct Sheet {
        const char* name;
        const char* first;
        const char* columns;  ///< in which a wrong entry is tried
        const char* check;
        const char* answer;
    };
    for (const Sheet& sheet :
         {Sheet{"Counts", "B", "BGHI", "K", "next_take"}, Sheet{"Dates", "B", "DLM", "AD", "own_stages"},
          Sheet{"Yields", "B", "CDEF", "I", "own_mature"}, Sheet{"Work", "B", "BDEFG", "I", "own_timed"}}) {
        const Book book = opened();
        constexpr int row = 9;
        const auto cell = [&](char column) { return std::string(sheet.name) + "." + at(std::string(1, column), row); };
        const std::string check = std::string(sheet.name) + "." + at(sheet.check, row);
        for (const char* column = sheet.columns; *column != '\0'; ++column) {
            const bool was_text = book.cell(cell(*column))->getType() == css::table::CellContentType_TEXT;
            const double value = book.cell(cell(*column))->getValue();
            const std::string words = book.shown(cell(*column)).text;
            ASSERT_EQ(book.shown(check).text, "") << sheet.name << " before " << *column;
            for (const char* way : {"nonsense", "-1E6", "1E12", "=1/0"}) {
                if (way[0] == '=') {
                    book.set_formula(cell(*column), way);
                } else if (way[0] == 'n') {
                    book.set_text(cell(*column), way);
                } else {
                    book.set(cell(*column), std::stod(way));
                }
                const std::string said = book.shown(check).text;
                EXPECT_TRUE(said.size() > 15 && said.ends_with('.')) << sheet.name << *column << way << ": " << said;
                EXPECT_NE(text(book, sheet.answer).size() + static_cast<std::size_t>(number(book, sheet.answer) != 0),
                          0U)
                    << sheet.name << *column << way << ": the other lines still tell it";
                std::vector<std::string> errors = book.errors();
                std::erase_if(errors, [](const std::string& error) { return says(error, "=1/0"); });
                EXPECT_EQ(errors, std::vector<std::string>()) << sheet.name << *column << way;
            }
            if (was_text) {
                book.set_text(cell(*column), words);
            } else {
                book.set(cell(*column), value);
            }
        }
    }
}

TEST(Records, ItsBlocksAreWhatThePlansFunctionsTake) {
    const Book book = opened();
    // A stage of own records and one that keeps its row, the 24 lines with the blank ones below.
    EXPECT_EQ(book.calculate("=REWORK.MILESTONE(46650;\"First airing\";0;Schedule.B6:I29)").number,
              46650 + book.shown("Schedule.D14").number);
    EXPECT_EQ(book.calculate("=REWORK.WHY(\"SCHEDULE\";46650;Schedule.B6:I29)").text, "");
    EXPECT_NEAR(book.calculate("=REWORK.YIELD(Yields.B41;100;Yields.B39:C50)").number, 20, 1e-9);
    EXPECT_NEAR(book.calculate("=REWORK.TREECHANCE(8;Take.C6;5;Take.C7)").number, 0.8, 0.2);
    EXPECT_EQ(
        book.calculate("=REWORK.WHY(\"WORKLOAD\";46650;100;Minutes.C6:C29;46650;10;\"month\";Schedule.B6:I29)").text,
        "");
}

TEST(Records, ItsBlocksGoIntoThePlanInOnePasteEach) {
    const Book book = opened();
    const Book plan = calc().open_url(url_of("rework-plan"), true);
    paste_values(book, "Schedule.B6:I29", plan, "Defaults.B6:I29");
    paste_values(book, "Yields.B39:C50", plan, "Defaults.B41:C52");
    const std::string take = plan.named("expected_take");  // Plan.C30, with the clustering below it
    const std::string clustering = plan.named("clustering");
    paste_values(book, "Take.C6:C7", plan, take + ":" + clustering.substr(clustering.find('.') + 1));
    EXPECT_EQ(plan.shown("Crew.C33").text, "Minutes a tree, each time");
    paste_values(book, "Minutes.C6:C29", plan, "Crew.C34:C57");
    EXPECT_EQ(plan.errors(), std::vector<std::string>());
    EXPECT_EQ(text(plan, "defaults_entries"), "");
    EXPECT_EQ(text(plan, "crew_entries"), "");
    EXPECT_NEAR(number(plan, "expected_take"), number(book, "next_take"), 1e-12);
    EXPECT_NEAR(number(plan, "clustering"), number(book, "own_clustering"), 1e-12);
    EXPECT_EQ(plan.calculate("=REWORK.MILESTONE(graft_date;\"First airing\";0;stages)-graft_date").number,
              book.shown("Schedule.D14").number);
    EXPECT_TRUE(says(plan.shown("Defaults.H8").text, "own records"));
}

TEST(Records, PrintsNoUnusedPages) {
    const Book book = opened();
    const auto pages = [&] {
        const Ref<css::view::XRenderable> printed(book.document(), css::uno::UNO_QUERY_THROW);
        return printed->getRendererCount(css::uno::Any(Ref<css::uno::XInterface>(book.document())), {});
    };
    // Summary, 3 of Counts, 2 of Take, Pooled, 2 of Weather and wood, Factors, Dates, Schedule, 2 of Yields, Work,
    // Minutes, 2 of Notes.
    EXPECT_EQ(pages(), 18);
    book.set("Counts.B300", 2027);
    EXPECT_GT(pages(), 18) << "lines in use are printed";
}

}  // namespace
}  // namespace slipbark::tests

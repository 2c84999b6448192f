// The workbook rework-or-replant, filled in as growers and strangers fill it in.
#include <algorithm>
#include <array>
#include <cmath>
#include <com/sun/star/table/CellContentType.hpp>
#include <random>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

constexpr const char* plans[]{"leave", "rework", "replant"};

/// The flows of a plan as sheet Years shows them, from year 0 on.
std::vector<double> flows(const Book& book, const std::string& plan) {
    const char* column = plan == "leave" ? "F" : plan == "rework" ? "J" : "N";
    std::vector<double> all;
    for (int row = 7; row <= 37; ++row) {
        const Shown cell = book.shown("Years." + std::string(column) + std::to_string(row));
        if (cell.is_text) break;  // blank once the trees are gone
        all.push_back(cell.number);
    }
    return all;
}

/// Present value of a plan and of replanting again and again after it, cycle by cycle for 3,000 years: the asset
/// replacement problem of Faustmann (1849) and Perrin (1972), added up without their closed form.
double with_replanting_for_ever(const std::vector<double>& plan, const std::vector<double>& replant, double rate) {
    double worth = 0;
    double begun = 0;
    const std::vector<double>* cycle = &plan;
    while (begun < 3000) {
        double year = begun;
        for (const double flow : *cycle) worth += flow / std::pow(1 + rate, year++);
        begun += static_cast<double>(cycle->size()) - 1;
        cycle = &replant;
    }
    return worth;
}

/// The same amount at the end of each year after the first that is worth as much as a plan's flows.
double yearly_equivalent(const std::vector<double>& plan, double rate) {
    double worth = 0;
    for (std::size_t year = 0; year < plan.size(); ++year)
        worth += plan[year] / std::pow(1 + rate, static_cast<double>(year));
    double annuity = 0;
    for (std::size_t year = 1; year < plan.size(); ++year) annuity += 1 / std::pow(1 + rate, static_cast<double>(year));
    return worth / annuity;
}

/// Years until the discounted differences of two plans first sum up to 0, straight line inside the year. Where the
/// trees of one are gone, what follows brings the same each year.
double caught_up_after(std::vector<double> plan, std::vector<double> leave, double rate, double follows) {
    const std::size_t years = std::max(plan.size(), leave.size());
    plan.resize(years, follows);
    leave.resize(years, follows);
    double sum = 0;
    for (std::size_t year = 0; year < years; ++year) {
        const double more = (plan[year] - leave[year]) / std::pow(1 + rate, static_cast<double>(year));
        if (sum < 0 && sum + more >= 0) return static_cast<double>(year) - 1 - sum / more;
        sum += more;
    }
    return -1;
}

TEST(ReworkOrReplant, ADyingBlockIsNotLeftAgainAndAgain) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    book.set(book.named("price_replant"), 0.60);
    book.set(book.named("price_leave"), 0.62);
    const auto replant = flows(book, "replant");
    for (const char* plan : plans) {
        const double expected = with_replanting_for_ever(flows(book, plan), replant, 0.06);
        EXPECT_NEAR(number(book, std::string("worth_") + plan), expected, 0.01) << plan;
        EXPECT_NEAR(number(book, std::string("forever_") + plan), 0.06 * expected, 0.001) << plan;
    }
    const std::string verdict = text(book, "verdict");
    EXPECT_NE(verdict.find("plan to REWORK"), std::string::npos) << verdict;
    EXPECT_EQ(verdict.find("KEEP"), std::string::npos) << verdict;
    EXPECT_EQ(verdict.find("2,126"), std::string::npos) << verdict;
    EXPECT_NE(verdict.find("Over its own life alone, keep would lead"), std::string::npos) << verdict;
}

TEST(ReworkOrReplant, PaidBackIsAgainstLeaving) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    const auto leave = flows(book, "leave");
    const double follows = yearly_equivalent(flows(book, "replant"), 0.06);  // the one that can be begun again
    for (const char* plan : {"rework", "replant"}) {
        const double years = caught_up_after(flows(book, plan), leave, 0.06, follows);
        ASSERT_GT(years, 0) << plan;
        EXPECT_NEAR(number(book, std::string("payback_") + plan), years, 1e-9) << plan;
        EXPECT_EQ(number(book, std::string("payback_year_") + plan), 2027 + std::ceil(years)) << plan;
    }
    // Of the plan's own flows it would be 5.8; with nothing after the old trees 8.6.
    EXPECT_NEAR(number(book, "payback_rework"), 9.13, 0.005);
    // What a plan brings more than keeping over its years and for ever after is the verdict's difference.
    double more = 0;
    for (int year = 0; year <= 18; ++year)
        more += book.shown("Years.AA" + std::to_string(7 + year)).number / std::pow(1.06, year);
    EXPECT_NEAR(more, number(book, "worth_rework") - number(book, "worth_leave"), 0.01);
    EXPECT_EQ(text(book, "payback_leave"), "");
}

TEST(ReworkOrReplant, ThePriceThatMatchesLeavingDoes) {
    // Whether or not the plan follows itself.
    for (const char* again : {"no", "yes"}) {
        const Book book = calc().open_url(url_of("rework-or-replant"), true);
        book.set_text(book.named("repeat_rework"), again);
        for (const char* plan : {"rework", "replant"}) {
            const std::string of = std::string("_") + plan;
            const double price = number(book, "price" + of);
            const double match = number(book, "match_price" + of);
            ASSERT_GT(match, 0) << plan;
            book.set(book.named("price" + of), match);
            EXPECT_NEAR(number(book, "forever" + of), number(book, "forever_leave"), 1e-6) << plan << again;
            book.set(book.named("price" + of), price);
        }
    }
}

TEST(ReworkOrReplant, TheGridsAgreeWithThePlans) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    for (const char* again : {"no", "yes"}) {
        book.set_text(book.named("repeat_rework"), again);
        EXPECT_NEAR(book.shown("Grid.F10").number, number(book, "forever_rework"), 1e-6);
        EXPECT_NEAR(book.shown("Grid.F20").number, number(book, "forever_replant"), 1e-6);
        EXPECT_EQ(book.shown("Grid.F30").text.substr(0, 6), "rework");
    }
    // A corner of the grid is the plan with that price and yield.
    const double corner = book.shown("Grid.I7").number;
    book.set(book.named("price_rework"), book.shown("Grid.B7").number);
    book.set(book.named("mature_rework"), number(book, "mature_rework") * book.shown("Grid.I6").number);
    EXPECT_NEAR(number(book, "forever_rework"), corner, 1e-6);
}

TEST(ReworkOrReplant, EqualPlansAreCalledLevel) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    constexpr const char* inputs[]{"trees",        "life",       "mature",     "established", "made_good",
                                   "loss",         "price",      "pick",       "grow",        "clear",
                                   "plant",        "ground",     "care_first", "care_second", "care_third",
                                   "royalty_tree", "royalty_ha", "royalty_kg"};
    const auto copy = [&](const std::string& from, const std::string& to) {
        for (const std::string input : inputs) {
            book.set(book.named(input + "_" + to), number(book, input + "_" + from));
        }
        // The curve, too: column C of sheet Curves, down to the first row without years.
        int row = std::stoi(book.named("curve_" + to).substr(std::string("Curves.B").size()));
        for (; !book.shown("Curves.B" + std::to_string(row)).text.empty(); ++row) {
            book.set("Curves.C" + std::to_string(row), 1);
        }
    };
    copy("leave", "replant");
    EXPECT_NE(text(book, "verdict").find("leads with"), std::string::npos) << text(book, "verdict");
    copy("leave", "rework");
    EXPECT_NE(text(book, "verdict").find("All three plans are equal"), std::string::npos) << text(book, "verdict");
    book.set(book.named("price_leave"), number(book, "price_leave") - 0.1);
    EXPECT_NE(text(book, "verdict").find("The plans to rework and to replant are equal"), std::string::npos)
        << text(book, "verdict");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(ReworkOrReplant, EveryWrongEntryGetsASentence) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    std::vector<std::pair<std::string, std::string>> inputs{
        // its name, and the Check that speaks
        {"units", "check_block"},        {"area_ha", "check_block"},   {"rate", "check_block"},
        {"first_season", "check_block"}, {"price_step", "grid_check"}, {"yield_step", "grid_check"}};
    for (const std::string plan : plans) {
        for (const std::string stem :
             {"row_spacing", "tree_spacing", "trees",       "life",       "repeat",       "mature",     "established",
              "made_good",   "loss",         "price",       "pick",       "grow",         "clear",      "plant",
              "ground",      "care_first",   "care_second", "care_third", "royalty_tree", "royalty_ha", "royalty_kg"}) {
            inputs.emplace_back(stem + "_" + plan, "check_" + plan);
        }
    }
    for (const auto& one : inputs) {
        const auto& input = one.first;
        const auto& check = one.second;
        const std::string address = book.named(input);
        const std::string before = book.formula(address);
        const Shown shown = book.shown(address);
        const auto type = book.cell(address)->getType();
        const auto expect_sentence = [&](const std::string& what) {
            const std::string said = text(book, check);
            EXPECT_TRUE(said.size() > 20 && said.ends_with(".")) << input << " " << what << ": " << said;
            EXPECT_EQ(book.errors(), std::vector<std::string>()) << input << " " << what;
            if (check != "grid_check") {
                EXPECT_EQ(text(book, "verdict").substr(0, 27), "Something does not fit yet.") << input << " " << what;
            }
        };
        book.set_text(address, "");
        expect_sentence("blank");
        book.set_text(address, "abc");
        expect_sentence("a text");
        book.set(address, -1);
        expect_sentence("negative");
        book.set(address, 1e12);
        expect_sentence("huge");
        if (type == css::table::CellContentType_FORMULA) {
            book.set_formula(address, before);
        } else if (type == css::table::CellContentType_TEXT) {
            book.set_text(address, shown.text);
        } else {
            book.set(address, shown.number);
        }
        ASSERT_EQ(text(book, check), "") << input;
    }
}

TEST(ReworkOrReplant, EntriesAtTheirHighestShowNoError) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    for (const std::string plan : {"leave", "rework"}) {
        for (const char* stem : {"price", "pick", "grow", "clear", "plant", "ground", "care_first", "royalty_tree"}) {
            book.set(book.named(stem + ("_" + plan)), 1e9);
        }
        book.set(book.named("trees_" + plan), 1e7);
        book.set(book.named("mature_" + plan), 12000);
        EXPECT_NE(text(book, "check_" + plan), "") << plan << " sums beyond all measure";
        EXPECT_EQ(text(book, "verdict").substr(0, 27), "Something does not fit yet.") << text(book, "verdict");
        EXPECT_EQ(book.errors(), std::vector<std::string>()) << plan;
    }
}

TEST(ReworkOrReplant, AsksWhetherAShareIsPerCent) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    book.set(book.named("rate"), 0.0015);  // what 0.15 typed into a per-cent cell is
    EXPECT_NE(text(book, "check_block").find("Type 15 for 15 %"), std::string::npos) << text(book, "check_block");
    book.set(book.named("established_rework"), 0.009);
    EXPECT_NE(text(book, "check_rework").find("Type 15 for 15 %"), std::string::npos) << text(book, "check_rework");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(ReworkOrReplant, CountsInAcresAndFeet) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    book.set_text(book.named("units"), "US");
    book.set(book.named("area_ha"), 1);  // now in acres
    book.set(book.named("row_spacing_leave"), 25);
    book.set(book.named("tree_spacing_leave"), 12);
    // 25 x 12 feet: 145 trees an acre (Singerman, Burani-Arouca & Futch, University of Florida, FE1050).
    EXPECT_EQ(number(book, "trees_leave"), 145);
    EXPECT_EQ(book.shown("Plans.F10").text, "acres");
    EXPECT_EQ(text(book, "check_leave"), "");
    book.set(book.named("row_spacing_leave"), 6);
    EXPECT_NE(text(book, "check_leave").find("or was that metres?"), std::string::npos);
    // Back again nothing has changed.
    book.set_text(book.named("units"), "metric");
    book.set(book.named("area_ha"), 2.4);
    book.set(book.named("tree_spacing_leave"), 4);
    EXPECT_EQ(number(book, "trees_leave"), 1000);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

/// Cumulative distribution of a triangular distribution.
double triangular_below(double value, double low, double likely, double high) {
    if (value <= low) return 0;
    if (value >= high) return 1;
    return value < likely ? (value - low) * (value - low) / ((high - low) * (likely - low))
                          : 1 - (high - value) * (high - value) / ((high - low) * (high - likely));
}

TEST(ReworkOrReplantOdds, AgreeWithTheClosedFormOfOneFactor) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    for (int row = 8; row <= 14; ++row) {
        for (const char* column : {"C", "D", "E"}) book.set("Odds." + std::string(column) + std::to_string(row), 1);
    }
    // The old variety's price alone, from 0.5 over 1.2 to 2.5 times the plan. Leaving is a straight line in it.
    book.set("Odds.C9", 0.5);
    book.set("Odds.D9", 1.2);
    book.set("Odds.E9", 2.5);
    const double price = number(book, "price_leave");
    const double once = number(book, "forever_leave");
    book.set(book.named("price_leave"), 2 * price);
    const double twice = number(book, "forever_leave");
    book.set(book.named("price_leave"), price);
    const double rework = number(book, "forever_rework");
    const double level = 1 + (rework - once) / (twice - once);  // times the plan's price
    ASSERT_GT(level, 0.5);
    ASSERT_LT(level, 2.5);
    const double expected = triangular_below(level, 0.5, 1.2, 2.5);
    EXPECT_NEAR(number(book, "chance_rework"), expected, 0.005);
    EXPECT_NEAR(number(book, "beats_leaving_rework"), expected, 0.005);
    EXPECT_NEAR(number(book, "chance_leave"), 1 - expected, 0.005);
    EXPECT_EQ(number(book, "chance_replant"), 0) << "which stays behind rework at these prices";
    EXPECT_NEAR(number(book, "worst_rework"), rework, 1e-6) << "nothing of it is drawn";
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(ReworkOrReplantOdds, AgreeWithDrawsByChance) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    struct Side {
        double crop = 0;    // annual equivalents over its own life
        double costs = 0;   // of years 1 on, without what goes with the crop
        double outlay = 0;  // in year 0
        double spread = 0;  // outlay as an annual equivalent
        double each = 0;    // costs by the kg
        double price = 0;
        double fade = 0;
    };
    const auto side = [&](const std::string& plan, const char* crop, const char* costs) {
        Side one;
        const double years = number(book, "life_" + plan);
        one.fade = std::pow(1.06, -years);
        one.price = number(book, "price_" + plan);
        one.each = number(book, "pick_" + plan) + number(book, "royalty_kg_" + plan);
        for (int year = 0; year <= years; ++year) {
            const std::string row = std::to_string(7 + year);
            const double kilograms = book.shown("Years." + std::string(crop) + row).number;
            const double paid = book.shown("Years." + std::string(costs) + row).number - kilograms * one.each;
            one.crop += kilograms / std::pow(1.06, year);
            (year == 0 ? one.outlay : one.costs) += paid / std::pow(1.06, year);
        }
        const double annual = 0.06 / (1 - one.fade);
        one.crop *= annual;
        one.costs *= annual;
        one.spread = one.outlay * annual;
        return one;
    };
    const Side leave = side("leave", "D", "E");
    const Side rework = side("rework", "H", "I");
    const Side replant = side("replant", "L", "M");
    std::mt19937 engine{2027};
    const auto drawn = [&](int line) {
        const std::string row = std::to_string(line);
        const double low = book.shown("Odds.C" + row).number;
        const double likely = book.shown("Odds.D" + row).number;
        const double high = book.shown("Odds.E" + row).number;
        std::vector<double> all(100'000);
        const std::array<double, 3> points{low, likely, high};
        const std::array<double, 3> heights{0, 1, 0};
        std::piecewise_linear_distribution<double> triangle(points.begin(), points.end(), heights.begin());
        for (double& one : all) one = triangle(engine);
        return all;
    };
    std::vector<std::vector<double>> factors;
    for (int line = 8; line <= 14; ++line) factors.push_back(drawn(line));
    int first = 0;
    int ahead = 0;
    for (std::size_t at = 0; at < factors[0].size(); ++at) {
        const auto amount = [&](const Side& one, double price, double yield, double outlay) {
            return yield * one.crop * (price * one.price - one.each) - outlay * one.spread - factors[6][at] * one.costs;
        };
        const double left = amount(leave, factors[1][at], 1, 1);
        const double grafted = amount(rework, factors[0][at], factors[2][at], factors[4][at]);
        const double planted = amount(replant, factors[0][at], factors[3][at], factors[5][at]);
        const double next = std::max(0.0, planted);  // the one plan that can be begun again
        const auto with = [&](const Side& one, double own) { return own * (1 - one.fade) + one.fade * next; };
        const double of_rework = with(rework, grafted);
        if (of_rework > with(leave, left)) ++ahead;
        if (of_rework > with(leave, left) && of_rework > with(replant, planted)) ++first;
    }
    // 100,000 draws scatter by 0.0015; 500 even points in seven dimensions were within 0.02 of them when tried.
    EXPECT_NEAR(number(book, "beats_leaving_rework"), ahead / 1e5, 0.025);
    EXPECT_NEAR(number(book, "chance_rework"), first / 1e5, 0.025);
    EXPECT_NEAR(number(book, "chance_rework") + number(book, "chance_replant") + number(book, "chance_leave"), 1, 1e-9);
}

/// Nothing is uncertain: all factors 1, no frost, no delay.
void make_certain(const Book& book) {
    for (const int row : {8, 9, 10, 11, 12, 13, 14, 24, 25, 27}) {
        for (const char* column : {"C", "D", "E"})
            book.set("Odds." + std::string(column) + std::to_string(row), row == 27 ? 0 : 1);
    }
    book.set(book.named("frost_odds"), 0);
}

TEST(ReworkOrReplantOdds, YearByYearAgreeWithTheFlowsWhereAllIsCertain) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    make_certain(book);
    const int top = 24;
    const auto rework = flows(book, "rework");
    auto leave = flows(book, "leave");
    const double follows = yearly_equivalent(flows(book, "replant"), 0.06);
    const double paid_back = caught_up_after(rework, leave, 0.06, follows);
    leave.resize(rework.size(), follows);
    double sum = 0;
    for (std::size_t year = 0; year < rework.size(); ++year) {
        sum += (rework[year] - leave[year]) / std::pow(1.06, static_cast<double>(year));
        const std::string row = std::to_string(top + static_cast<int>(year));
        EXPECT_EQ(book.shown("Odds.H" + row).number, static_cast<double>(year));
        EXPECT_EQ(book.shown("Odds.I" + row).number, static_cast<double>(year) >= paid_back ? 1 : 0) << year;
        for (const char* column : {"J", "K", "L"}) {
            EXPECT_NEAR(book.shown("Odds." + std::string(column) + row).number, sum, 1e-6);
        }
    }
    EXPECT_NEAR(number(book, "at_likely"), sum, 1e-6);
    // Two years of delay for certain: the summed flows again are those of the odds, whose three lines are one.
    for (const char* column : {"C", "D", "E"}) book.set("Odds." + std::string(column) + "27", 2);
    const std::string end = std::to_string(top + static_cast<int>(rework.size()) - 1);
    EXPECT_LT(number(book, "at_likely"), sum - 1);
    EXPECT_NEAR(number(book, "at_likely"), book.shown("Odds.K" + end).number, 1e-6);
    for (const char* column : {"C", "D", "E"}) book.set("Odds." + std::string(column) + "27", 0);
    EXPECT_EQ(text(book, "odds_headline"),
              "Half of 4,000 simulated futures have paid back by 2037, nine in ten by 2037; planned: 2037.");
    // More money than there is, by the deepest point of the same flows.
    EXPECT_EQ(text(book, "odds_short"), "");
    const double deepest = book.calculate("=INDEX(REWORK.LOWPOINT(gain_rework);1;1)").number;
    ASSERT_LT(deepest, 0);
    book.set(book.named("cash_there"), -deepest + 1);
    EXPECT_EQ(number(book, "odds_short"), 0);
    book.set(book.named("cash_there"), -deepest - 1);
    EXPECT_EQ(number(book, "odds_short"), 1);
    EXPECT_TRUE(says(text(book, "years_sentence"), "In 100 of 100 of them more than your"));
    book.set("Odds.C24", 3);  // above likely
    EXPECT_NE(text(book, "years_check"), "");
    EXPECT_EQ(text(book, "years_sentence"), "See the Check below.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// A crop that only pays for its picking leaves the money as it is, whatever the season does to it: what hail takes is
// not picked either.
TEST(ReworkOrReplantOdds, AHailedCropIsNotPicked) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    make_certain(book);
    book.set_text(book.named("repeat_replant"), "no");
    book.set(book.named("pick_leave"), number(book, "price_leave") - number(book, "royalty_kg_leave"));
    const auto spread_in = [&](int year) {
        const std::string row = std::to_string(24 + year);
        return book.shown("Odds.L" + row).number - book.shown("Odds.J" + row).number;
    };
    book.set("Odds.C25", 0);
    EXPECT_GT(spread_in(10), 1000) << "the new crop still pays";
    book.set(book.named("pick_rework"), number(book, "price_rework") - number(book, "royalty_kg_rework"));
    for (int year = 0; year <= 18; ++year) EXPECT_NEAR(spread_in(year), 0, 1e-6) << year;
}

// Leave for k years, then rework: summed year by year, with replanting again and again after it.
TEST(ReworkOrReplantWhen, IsWorthWhatTheYearsSumUpTo) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    EXPECT_EQ(number(book, "wait_best"), 0);
    EXPECT_TRUE(text(book, "wait_sentence").starts_with("Waiting does not pay: reworked a year later, "))
        << "as it comes";
    EXPECT_EQ(text(book, "verdict").find("Waiting"), std::string::npos);
    book.set(book.named("price_leave"), 1.5 * number(book, "price_leave"));
    book.set(book.named("loss_leave"), 0.12);
    const auto leave = flows(book, "leave");
    const auto rework = flows(book, "rework");
    const auto replant = flows(book, "replant");
    int best = 0;
    double most = -1e300;
    for (int wait = 0; wait <= 5; ++wait) {
        auto plan = leave;
        plan.resize(static_cast<std::size_t>(wait) + 1);
        plan.back() += rework[0];
        plan.insert(plan.end(), rework.begin() + 1, rework.end());
        const double worth = with_replanting_for_ever(plan, replant, 0.06);
        if (worth > most) {
            most = worth;
            best = wait;
        }
        EXPECT_NEAR(book.shown("When.D" + std::to_string(9 + wait)).number, worth, 0.01) << wait;
    }
    EXPECT_GT(best, 0);
    EXPECT_EQ(number(book, "wait_best"), best);
    EXPECT_NE(text(book, "verdict").find("Waiting is worth more: reworked in " + std::to_string(2027 + best)),
              std::string::npos)
        << text(book, "verdict");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(ReworkOrReplantOdds, AWrongSpreadGetsASentence) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    for (const char* cell : {"Odds.C8", "Odds.D11", "Odds.E14"}) {
        const double before = book.shown(cell).number;
        const auto expect_sentence = [&](const std::string& what) {
            EXPECT_NE(text(book, "odds_check").find("give three numbers from 0 to 10"), std::string::npos)
                << cell << what;
            EXPECT_EQ(text(book, "odds_sentence").substr(0, 27), "Something does not fit yet:") << cell << what;
            EXPECT_EQ(book.errors(), std::vector<std::string>()) << cell << what;
        };
        book.set_text(cell, "");
        expect_sentence("blank");
        book.set_text(cell, "abc");
        expect_sentence("a text");
        book.set(cell, -1);
        expect_sentence("negative");
        book.set(cell, 1e9);
        expect_sentence("huge");
        book.set(cell, before);
        EXPECT_EQ(text(book, "odds_check"), "") << cell;
    }
}

}  // namespace
}  // namespace slipbark::tests

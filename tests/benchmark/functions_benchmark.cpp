// The trade's functions themselves, called from C++ without an office: ns per call at small and at large inputs, and
// how the cost of those that take ranges grows. Ends with 1 where a limit is broken or a function of the catalogue is
// missing.

#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <cmath>
#include <iostream>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "formula.hpp"
#include "right_call.hpp"
#include "slipbark/block.hpp"
#include "slipbark/budwood.hpp"
#include "slipbark/calendar.hpp"
#include "slipbark/heat.hpp"
#include "slipbark/materials.hpp"
#include "slipbark/money.hpp"
#include "slipbark/odds.hpp"
#include "slipbark/sun.hpp"
#include "slipbark/take.hpp"
#include "slipbark/trials.hpp"
#include "slipbark/yield.hpp"

namespace {

using namespace slipbark;
using std::chrono::September;

/// What is measured, as the catalogue names the functions: "budwood::sticks".
std::set<std::string> measured;

/// Calls again and again. Inputs that the function refuses would be measured for nothing.
template <class Call>
void repeat(benchmark::State& state, const Call& call) {
    try {
        for ([[maybe_unused]] auto turn : state) benchmark::DoNotOptimize(call());
    } catch (const bad_argument& bad) {
        state.SkipWithError(bad.what());
    }
}

/// One call with given inputs.
template <class Call>
void one(const std::string& function, const std::string& size, Call call) {
    measured.insert(function);
    benchmark::RegisterBenchmark((function + "/" + size).c_str(),
                                 [call](benchmark::State& state) { repeat(state, call); });
}

constexpr std::int64_t short_range = 1'000;
constexpr std::int64_t long_range = 100'000;

/// A function over ranges: `make` fills them for a number of rows and gives the call.
template <class Make>
void over(const std::string& function, Make make) {
    measured.insert(function);
    benchmark::RegisterBenchmark((function + "/rows").c_str(),
                                 [make](benchmark::State& state) {
                                     repeat(state, make(static_cast<std::size_t>(state.range(0))));
                                     state.SetComplexityN(state.range(0));
                                 })
        ->Arg(short_range)
        ->Arg(10'000)
        ->Arg(long_range)
        ->Unit(benchmark::kMicrosecond)
        ->Complexity();
}

/// Rows of a range, the same on every run.
template <class Value>
List column(std::size_t rows, Value value) {
    std::vector<Cell> cells;
    cells.reserve(rows);
    for (std::size_t row = 0; row < rows; ++row) cells.emplace_back(value(row));
    return cells;
}

List live(std::size_t rows) {
    return column(rows, [](std::size_t row) { return static_cast<double>(row * 7 % 5); });
}
List four(std::size_t rows) {
    return column(rows, [](std::size_t) { return 4.0; });
}
List lows(std::size_t rows) {
    return column(rows, [](std::size_t row) { return 6.0 + static_cast<double>(row % 7); });
}
List highs(std::size_t rows) {
    return column(rows, [](std::size_t row) { return 18.0 + static_cast<double>(row % 11); });
}
/// One outlay and then the same return each year, which pays back in the last but one.
List flows(std::size_t rows) {
    return column(rows, [rows](std::size_t row) { return row == 0 ? 2.5 - static_cast<double>(rows) : 1.0; });
}
List growing(std::size_t rows) {
    return column(rows, [](std::size_t row) { return static_cast<double>(row % 13 + 1); });
}
/// No day between 1900 and 9999 is left for more than this many.
DayList days(std::size_t rows) {
    std::vector<std::optional<Day>> all;
    const Day first{std::chrono::year{2000} / 1 / 1};
    for (std::size_t row = 0; row < rows; ++row) all.emplace_back(first + std::chrono::days(row));
    return all;
}
/// A curve over the first thousand years or days, which both tables may reach.
template <class Share>
Table curve(std::size_t rows, Share share) {
    Table table(2, {});
    for (std::size_t row = 0; row < rows; ++row) {
        const double part = static_cast<double>(row) / static_cast<double>(rows);
        table.cells.emplace_back(1000 * part);
        table.cells.emplace_back(share(part));
    }
    return table;
}
Table rising(std::size_t rows) {
    return curve(rows, [](double part) { return part; });
}
Table fading(std::size_t rows) {
    return curve(rows, [](double part) { return 1 - part; });
}
constexpr double near_the_end = 998;
Table stages(std::size_t rows) {
    Table table(6, {});
    for (std::size_t row = 0; row < rows; ++row) {
        const auto offset = static_cast<double>(row);
        for (const Cell& cell : {Cell("Stage " + std::to_string(row + 1)), Cell(offset), Cell(offset), Cell(offset),
                                 Cell(std::string("d")), Cell(std::string("sign"))}) {
            table.cells.push_back(cell);
        }
    }
    return table;
}

const Day graft_day{September / 6 / 2027};
const Day usual_null_date{std::chrono::December / 30 / 1899};
const Moment afternoon = std::chrono::local_days{September / 6 / 2027} + std::chrono::hours(16);
constexpr double ten_million = 10'000'000;

void register_block_and_budwood() {
    one("block::trees", "small", [] { return block::trees(2, 6, 4); });
    one("block::trees", "large", [] { return block::trees(10'000, 1, 1); });
    one("block::stub_grafts", "small", [] { return block::stub_grafts(7.5); });
    one("block::stub_grafts", "large", [] { return block::stub_grafts(100, 1, 100); });
    one("budwood::sticks", "small", [] { return budwood::sticks(3200, 2, 9, 0.15); });
    one("budwood::sticks", "large", [] { return budwood::sticks(ten_million, 2, 9, 0.15); });
    one("budwood::grafts", "small", [] { return budwood::grafts(50, 0.85, 0.95); });
    one("budwood::grafts", "million", [] { return budwood::grafts(1'000'000, 0.85, 0.95); });
    one("budwood::grafts", "million_rare_sure", [] { return budwood::grafts(1'000'000, 0.2, 0.999999); });
    one("budwood::tree_chance", "small", [] { return budwood::tree_chance(4, 0.7, 2); });
    one("budwood::tree_chance", "clustered", [] { return budwood::tree_chance(4, 0.7, 2, 0.2); });
    one("budwood::tree_chance", "large", [] { return budwood::tree_chance(1000, 0.7, 500, 0.2); });
    one("budwood::tree_grafts", "small", [] { return budwood::tree_grafts(0.6, 0.95); });
    one("budwood::tree_grafts", "large", [] { return budwood::tree_grafts(0.6, 0.999999, 500.0, 0.01); });
    one("budwood::tree_share", "small", [] { return budwood::tree_share(4, 0.7, 2); });
    one("budwood::tree_share", "large", [] { return budwood::tree_share(ten_million, 0.6, 6'000'000); });
    one("budwood::tree_share", "large_clustered", [] { return budwood::tree_share(10'000, 0.6, 6000, 0.2); });
    one("budwood::grafts_from", "small", [] { return budwood::grafts_from(3, 7, 10); });
    one("budwood::grafts_from", "large", [] { return budwood::grafts_from(10'000, 950, 1000); });
    one("budwood::grafts_from", "far", [] { return budwood::grafts_from(1, 0, 6, 0.99); });
    one("budwood::best_grafts", "small", [] { return budwood::best_grafts(0.7, 4, 60, 3, 0.2); });
    one("budwood::best_grafts", "large", [] { return budwood::best_grafts(0.6, 1000, 1e9, 1e-3, 0.3, 1000); });
    one("budwood::buds_alive", "small", [] { return budwood::buds_alive(5); });
    over("budwood::buds_alive", [](std::size_t rows) {
        return [storage = std::optional(fading(rows))] { return budwood::buds_alive(near_the_end, storage); };
    });
}

void register_calendar() {
    one("calendar::milestone", "small", [] { return calendar::milestone(graft_day, "Nurse limb off"); });
    one("calendar::schedule", "small", [] { return calendar::schedule(graft_day); });
    one("calendar::stage_due", "small", [] { return calendar::stage_due(graft_day, graft_day); });
    over("calendar::milestone", [](std::size_t rows) {
        return [table = std::optional(stages(rows)), last = "Stage " + std::to_string(rows)] {
            return calendar::milestone(graft_day, last, 0.0, table);
        };
    });
    over("calendar::schedule", [](std::size_t rows) {
        return [table = std::optional(stages(rows))] { return calendar::schedule(graft_day, table); };
    });
    over("calendar::stage_due", [](std::size_t rows) {
        return [table = std::optional(stages(rows)), last = graft_day + std::chrono::days(rows - 1)] {
            return calendar::stage_due(graft_day, last, table);
        };
    });
    // Twenty stages, all due and none done.
    over("calendar::due_list", [](std::size_t rows) {
        const DayList grafted(std::vector<std::optional<Day>>(rows, graft_day));
        return [grafted, items = live(rows), table = std::optional(stages(2))] {
            return calendar::due_list(items, grafted, graft_day, graft_day + std::chrono::days(30), table);
        };
    });
    one("calendar::due_list", "500_rows_20_stages",
        [grafted = DayList(std::vector<std::optional<Day>>(500, graft_day)), items = live(500),
         table = std::optional(stages(20))] {
            return calendar::due_list(items, grafted, graft_day, graft_day + std::chrono::days(30), table);
        });
    over("calendar::own_schedule", [](std::size_t rows) {
        const DayList grafted(std::vector<std::optional<Day>>(rows, graft_day));
        DayTable done{Table(2, {})};
        for (std::size_t row = 0; row < 2 * rows; ++row) {
            done.table.cells.emplace_back(graft_day + std::chrono::days(row * 7919 % 400));
        }
        return
            [grafted, done, table = std::optional(stages(2))] { return calendar::own_schedule(grafted, done, table); };
    });
    over("calendar::workload", [](std::size_t rows) {
        const DayList grafted(std::vector<std::optional<Day>>(rows, graft_day));
        return [grafted, trees = four(rows), table = std::optional(stages(2))] {
            return calendar::workload(grafted, trees, {1.5, 4.0}, graft_day, 52, {}, table);
        };
    });
    one("calendar::harvest_date", "small", [] { return calendar::harvest_date(graft_day, 5, 30); });
    one("calendar::crew_days", "small", [] { return calendar::crew_days(3200, 120, 4); });
    one("calendar::crew_days", "large", [] { return calendar::crew_days(ten_million, 120, 1); });
    one("calendar::crew_finish", "small", [] { return calendar::crew_finish(graft_day, 3200, 120, 4); });
    one("calendar::crew_finish", "large", [] { return calendar::crew_finish(graft_day, 1'000'000, 1, 1); });
    one("calendar::crew_size", "small",
        [] { return calendar::crew_size(graft_day, graft_day + std::chrono::days(4), 3200, 120); });
    one("calendar::crew_size", "large",
        [] { return calendar::crew_size(graft_day, graft_day + std::chrono::days(1'000'000), ten_million, 1); });
    over("calendar::crew_finish", [](std::size_t rows) {
        return [holidays = std::optional(days(rows))] {
            return calendar::crew_finish(graft_day, 3200, 120, 1, {}, holidays);
        };
    });
    over("calendar::crew_size", [](std::size_t rows) {
        return [holidays = std::optional(days(rows))] {
            return calendar::crew_size(Day{std::chrono::year{1950} / 1 / 1}, graft_day, 3200, 120, {}, holidays);
        };
    });
}

void register_heat() {
    one("heat::units", "small", [] { return heat::units(5, 20, 13, 35, heat::Method::triangle); });
    one("heat::units", "sine_intermediate",
        [] { return heat::units(5, 40, 13, 35, heat::Method::sine, heat::Cutoff::intermediate); });
    over("heat::sum", [](std::size_t rows) {
        return [low = lows(rows), high = highs(rows)] { return heat::sum(low, high, 10, 25); };
    });
    over("heat::date", [](std::size_t rows) {
        const double all = heat::sum(lows(rows), highs(rows), 10, 25);
        return [dates = days(rows), low = lows(rows), high = highs(rows), all] {
            return heat::date(dates, low, high, 10, all * 0.999, {}, 25);
        };
    });
}

void register_take() {
    one("take::take", "small", [] { return take::take(37, 64); });
    one("take::take", "large", [] { return take::take(ten_million - 1, ten_million); });
    for (const auto& [name, interval] : {std::pair("wilson", take::Interval::wilson),
                                         {"exact", take::Interval::exact},
                                         {"jeffreys", take::Interval::jeffreys},
                                         {"agresti", take::Interval::agresti}}) {
        const std::string method_name = name;
        const take::Interval method = interval;
        one("take::take_low", "small_" + method_name, [method] { return take::take_low(4, 20, 0.9, method); });
        one("take::take_low", "large_" + method_name,
            [method] { return take::take_low(4'000'000, ten_million, 0.999999, method); });
        one("take::take_high", "small_" + method_name, [method] { return take::take_high(4, 20, 0.9, method); });
        one("take::take_high", "large_" + method_name,
            [method] { return take::take_high(4'000'000, ten_million, 0.999999, method); });
    }
    one("take::take_diff", "small", [] { return take::take_diff(56, 70, 48, 80); });
    one("take::take_diff", "large", [] { return take::take_diff(560'000, 700'000, 480'000, 800'000); });
    one("take::inspect", "small", [] { return take::inspect(400, 0.05); });
    one("take::inspect", "large", [] { return take::inspect(ten_million, 0.0001, 0.5, 0.999999); });
    over("take::take_trees", [](std::size_t rows) {
        return [alive = live(rows), grafted = four(rows)] { return take::take_trees(alive, grafted); };
    });
    over("take::take_by", [](std::size_t rows) {
        const List few = column(rows, [](std::size_t row) { return "Grafter " + std::to_string(row % 20); });
        return [few, alive = live(rows), grafted = four(rows)] { return take::take_by(few, alive, grafted); };
    });
    over("take::take_by", [](std::size_t rows) {
        const List many = column(rows, [](std::size_t row) { return "Batch " + std::to_string(row / 2); });
        return [many, alive = live(rows), grafted = four(rows)] { return take::take_by(many, alive, grafted); };
    });
    over("take::take_pool", [](std::size_t rows) {
        const List few = column(rows, [](std::size_t row) { return "Grafter " + std::to_string(row % 20); });
        return [few, alive = live(rows), grafted = four(rows)] { return take::take_pool(few, alive, grafted); };
    });
    over("trials::take_factors", [](std::size_t rows) {
        Table factors(2, {});
        for (std::size_t row = 0; row < rows; ++row) {
            factors.cells.emplace_back("Grafter " + std::to_string(row % 20));
            factors.cells.emplace_back(static_cast<double>(row * 7919 % 40));
        }
        return [factors, alive = live(rows), grafted = four(rows)] {
            return trials::take_factors(alive, grafted, factors);
        };
    });
    one("trials::trial_trees", "small", [] { return trials::trial_trees(0.7, 0.85, 4); });
    one("trials::trial_trees", "large", [] { return trials::trial_trees(0.7, 0.705, 4); });
    one("trials::trial_power", "small", [] { return trials::trial_power(0.7, 0.85, 4, 50); });
    one("trials::stop_counting", "small", [] { return trials::stop_counting(24, 24, 0.99, 0.9); });
    over("take::clustering", [](std::size_t rows) {
        return [alive = live(rows), grafted = four(rows)] { return take::clustering(alive, grafted); };
    });
    over("take::take_next", [](std::size_t rows) {
        const List seasons = column(rows, [](std::size_t row) { return static_cast<double>(row % 12); });
        return [seasons, alive = live(rows), grafted = four(rows)] { return take::take_next(seasons, alive, grafted); };
    });
    over("take::regraft_list", [](std::size_t rows) {
        const List tree = column(rows, [](std::size_t row) { return static_cast<double>(row); });
        return [tree, alive = live(rows)] { return take::regraft_list(tree, tree, alive, 3, 0.7, 0.95, 0.2); };
    });
    over("take::regrafts", [](std::size_t rows) { return [alive = live(rows)] { return take::regrafts(alive, 3); }; });
    over("take::graft_life", [](std::size_t rows) {
        const List day = column(rows, [](std::size_t row) { return static_cast<double>(row * 7919 % 400); });
        const List lost = column(rows, [](std::size_t row) { return row % 3 == 0 ? 1.0 : 0.0; });
        return [day, lost] { return take::graft_life(day, lost, 200); };
    });
}

void register_materials() {
    one("materials::limb_area", "small", [] { return materials::limb_area(12, 8, 1.5); });
    one("materials::paint", "small", [] { return materials::paint(480, 6, 1, 1, 0.2); });
    one("materials::paint", "large", [] { return materials::paint(1'000'000, 6, 3, 1, 0.2); });
    one("materials::tape", "small", [] { return materials::tape(8, 12, 25); });
    one("materials::packs", "small", [] { return materials::packs(1730, 30, 0.1); });
    one("materials::packs", "large", [] { return materials::packs(ten_million, 30, 0.1); });
    one("materials::dilute", "small", [] { return materials::dilute(0.05, 0.01, 10); });
}

void register_yield_and_money() {
    one("yield::per_tree", "small", [] { return yield::per_tree(3, 100); });
    over("yield::per_tree", [](std::size_t rows) {
        return [table = std::optional(rising(rows))] { return yield::per_tree(near_the_end, 100, table); };
    });
    one("yield::by_year", "small", [] { return yield::by_year(400, 3, 100, 0.9, 0.8, 0.02); });
    one("yield::by_year", "large", [] { return yield::by_year(400, 100, 100, 0.9, 0.8, 0.02); });
    over("yield::by_year", [](std::size_t rows) {
        return [table = std::optional(rising(rows))] { return yield::by_year(400, 30, 100, 0.9, 0.8, 0.02, table); };
    });
    over("yield::fit", [](std::size_t rows) {
        const List ages = column(rows, [](std::size_t row) { return static_cast<double>(row % 20 + 1); });
        return [ages, yields = growing(rows)] { return yield::fit(ages, yields); };
    });
    over("yield::alternation",
         [](std::size_t rows) { return [yields = growing(rows)] { return yield::alternation(yields); }; });
    over("money::payback", [](std::size_t rows) { return [all = flows(rows)] { return money::payback(all); }; });
    over("money::present_value",
         [](std::size_t rows) { return [all = flows(rows)] { return money::present_value(all, 0.0001); }; });
    over("money::low_point", [](std::size_t rows) { return [all = flows(rows)] { return money::low_point(all); }; });
    one("money::rework_year", "200_rows", [left = flows(200)] { return money::rework_year(left, left, 0.05); });
    over("money::equal_annual",
         [](std::size_t rows) { return [all = flows(rows)] { return money::equal_annual(all, 0.0001); }; });
    over("money::break_even_price", [](std::size_t rows) {
        return [costs = four(rows), yields = growing(rows)] { return money::break_even_price(costs, yields, 0.0001); };
    });
}

/// Twenty years of a plan in which nothing is certain.
void register_odds() {
    const List costs = four(20);
    const List income = growing(20);
    const Table spreads(4, {"outlay", 0.9, 1.,       1.4, "costs", 0.8, 1.,      1.5, "income", 0.7,
                            1.,       1.2, "season", 0.,  1.,      1.3, "delay", 0.,  0.,       1.5});
    for (const auto& [size, runs] : {std::pair("4000_draws", 4000.0), {"100000_draws", 100'000.0}}) {
        const double draws = runs;
        one("odds::payback_odds", size, [=] { return odds::payback_odds(costs, income, spreads, 0.05, draws); });
    }
    // All nine things uncertain, where a plan of two columns has five.
    Table years(5, {});
    for (int year = 0; year < 20; ++year) {
        const double crop = year * 500.0;
        years.cells.insert(years.cells.end(), {year == 0 ? 9000.0 : 400.0, crop, crop / 4, 900.0, 300.0});
    }
    const Table all(6, {"outlay", 0.9, 1., 1.3, Cell(), Cell(), "costs",     0.9, 1.,  1.2, Cell(), Cell(),
                        "price",  0.7, 1., 1.2, Cell(), Cell(), "old price", 0.7, 1.,  1.1, Cell(), Cell(),
                        "yield",  0.8, 1., 1.1, Cell(), Cell(), "take",      0.7, 1.,  1.1, 0.6,    0.85,
                        "season", 0.5, 1., 1.3, Cell(), Cell(), "frost",     0.3, 0.8, 1.,  0.1,    Cell(),
                        "delay",  0.,  0., 1.5, Cell(), Cell()});
    for (const auto& [size, runs] : {std::pair("4000_draws", 4000.0), {"100000_draws", 100'000.0}}) {
        const double draws = runs;
        one("odds::flow_odds", size, [=] { return odds::flow_odds(years, all, 0.05, draws, 9000.0); });
    }
    one("odds::flow_swings", "small", [=] { return odds::flow_swings(years, all, 0.05); });
    const Table shares(2, {0., 0., 1., 0.2, 2., 0.6, 3., 0.95});
    one("odds::odds_year", "small", [=] { return odds::odds_year(shares, 0.9); });
    one("odds::swings", "small", [=] { return odds::swings(costs, income, spreads, 0.05); });
}

/// Most memory that this program has held so far, in bytes.
double most_memory() {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    return 1024.0 * static_cast<double>(used.ru_maxrss);  // kilobytes on Linux
}

/// 100,000 draws of 200 years may need no more room than those of 20: all of them would be 160 MB. Must come first,
/// while nothing else has needed more.
bool odds_need_no_room_for_years() {
    const Table spreads(4,
                        {"outlay", 0.9, 1., 1.4, "income", 0.7, 1., 1.2, "season", 0., 1., 1.3, "delay", 0., 0., 1.5});
    const double before = most_memory();
    (void)odds::payback_odds(four(20), growing(20), spreads, 0.05, 100'000.0);
    const double few = most_memory();
    (void)odds::payback_odds(four(200), growing(200), spreads, 0.05, 100'000.0);
    const double many = most_memory();
    constexpr double megabyte = 1e6;
    std::cout << "Odds of 100,000 draws: 20 years took " << (few - before) / megabyte << " MB, 200 years "
              << (many - few) / megabyte << " MB more\n";
    return many - few < 2 * megabyte;
}

void register_place_and_support() {
    one("sun::bearing", "small", [] { return sun::bearing(afternoon, 1, 41.62, 0.62); });
    one("sun::height", "small", [] { return sun::height(afternoon, 1, 41.62, 0.62); });
    one("sun::compass_point", "small", [] { return sun::compass_point(233.8); });
    one("defaults::table", "small", [] { return defaults::table("schedule"); });
    one("catalogue::version", "small", [] { return catalogue::version(); });
    const catalogue::Arguments refused{{3200.0, 2.0, 9.0, 15.0}, usual_null_date};
    one("catalogue::why", "small", [refused] { return catalogue::why("STICKS", refused); });
    over("catalogue::why", [](std::size_t rows) {
        const Table alive(1, live(rows).cells);
        return
            [given = catalogue::Arguments{{alive, 3.0}, usual_null_date}] { return catalogue::why("REGRAFTS", given); };
    });
}

/// Prints as usual and keeps the times.
class Keeping final : public benchmark::ConsoleReporter {
  public:
    using ConsoleReporter::ConsoleReporter;
    void ReportRuns(const std::vector<Run>& runs) override {
        for (const Run& run : runs) {
            failed_ |= run.error_occurred;
            if (run.run_type != Run::RT_Iteration) continue;
            const double seconds = run.cpu_accumulated_time / static_cast<double>(run.iterations);
            seconds_.emplace_back(run.benchmark_name(), seconds);
        }
        ConsoleReporter::ReportRuns(runs);
    }
    [[nodiscard]] bool failed() const { return failed_; }
    [[nodiscard]] const std::vector<std::pair<std::string, double>>& seconds() const { return seconds_; }

  private:
    bool failed_ = false;
    std::vector<std::pair<std::string, double>> seconds_;
};

double n_log_n(std::int64_t rows) { return static_cast<double>(rows) * std::log2(rows); }

/// Whether every function over ranges costs at the long range no more than n log n and `slack` allow from the short
/// one; the slack is for what leaves the caches. A cost that grew with the square would be 60 times over.
bool grows_as_it_should(const std::vector<std::pair<std::string, double>>& seconds) {
    constexpr double slack = 8;
    bool good = true;
    double before = 0;
    for (const auto& [name, time] : seconds) {
        if (name.ends_with("/rows/" + std::to_string(short_range))) before = time;
        if (!name.ends_with("/rows/" + std::to_string(long_range))) continue;
        const double grown = time / before / (n_log_n(long_range) / n_log_n(short_range));
        if (grown <= slack) continue;
        std::cerr << name << " grew " << grown << " times more than n log n\n";
        good = false;
    }
    return good;
}

/// What some calls may take at most, in seconds; names are beginnings.
constexpr std::pair<std::string_view, double> limits[]{
    {"budwood::grafts/million", 0.5e-3},
    {"budwood::grafts_from/", 1e-3},
    {"budwood::best_grafts/", 1e-3},
    {"budwood::tree_share/", 1e-3},
    {"calendar::due_list/500_rows_20_stages", 5e-3},
    {"odds::payback_odds/4000_draws", 15e-3},
    {"odds::payback_odds/100000_draws", 0.5},
    {"odds::flow_odds/4000_draws", 45e-3},
};

bool quick_enough(const std::vector<std::pair<std::string, double>>& seconds) {
    bool good = true;
    for (const auto& [name, time] : seconds) {
        for (const auto& [start, most] : limits) {
            if (!name.starts_with(start) || time < most) continue;
            std::cerr << name << " took " << time << " s: it should take less than " << most << " s\n";
            good = false;
        }
    }
    return good;
}

/// What has no benchmark of its own is measured by its example, called as WHY calls it.
void register_the_others() {
    constexpr std::string_view space = "::slipbark::";
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            const std::string symbol(entry.symbol.substr(space.size()));
            if (measured.contains(symbol)) continue;
            const catalogue::Arguments given = tests::parse(tests::right_call(entry)).arguments;
            one(symbol, "example", [&entry, given] { return entry.call(given); });
        }
    }
}

}  // namespace

int main(int count, char** words) {
    benchmark::Initialize(&count, words);
    if (benchmark::ReportUnrecognizedArguments(count, words)) return 2;
    register_block_and_budwood();
    register_calendar();
    register_heat();
    register_take();
    register_materials();
    register_yield_and_money();
    register_odds();
    register_place_and_support();
    register_the_others();
    const bool little_room = odds_need_no_room_for_years();
    Keeping keeping(benchmark::ConsoleReporter::OO_Tabular);
    benchmark::RunSpecifiedBenchmarks(&keeping);
    const bool quick = quick_enough(keeping.seconds());
    const bool grows = grows_as_it_should(keeping.seconds());
    const bool good = little_room && quick && grows && !keeping.failed();
    if (good) std::cout << "All limits of the functions kept\n";
    return good ? 0 : 1;
}

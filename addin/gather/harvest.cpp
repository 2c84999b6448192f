#include "gather/harvest.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <map>
#include <span>

#include "slipbark/take.hpp"

namespace slipbark::gather {

namespace {

/// Places to look in turn: the first that shows something counts. Those of this version stand first.
using Places = std::span<const NamedCells>;

// Which named cells are read. A released workbook keeps its names, so a line here is never taken out.
constexpr std::array client_places{NamedCells{"client"}, NamedCells{"farm"}};
constexpr std::array block_places{NamedCells{"block"}};
constexpr std::array old_variety_places{NamedCells{"old_variety"}};
constexpr std::array new_variety_places{NamedCells{"new_variety"}};
constexpr std::array trees_places{NamedCells{"trees"}};
constexpr std::array grafts_places{NamedCells{"grafts"}};
constexpr std::array sticks_places{NamedCells{"sticks_in_lots"}, NamedCells{"sticks"}};
constexpr std::array order_places{NamedCells{"wood_order_by"}};
constexpr std::array regraft_places{NamedCells{"regrafts_to_place"}, NamedCells{"redo"}};
constexpr std::array day_places{NamedCells{"crew_days"}};
constexpr std::array cost_places{NamedCells{"rework_cost"}};
constexpr std::array payback_places{NamedCells{"payback_median"}};
constexpr std::array paid_places{NamedCells{"odds_paid"}};  // by year, from which the median follows
constexpr std::array lowest_places{NamedCells{"lowest_cash"}, NamedCells{"cash_lowest"}};
constexpr std::array flow_places{NamedCells{"flows"}};
constexpr std::array overdue_places{NamedCells{"stages_overdue"}};
constexpr std::array as_of_places{NamedCells{"as_of"}};
constexpr std::array graft_date_places{NamedCells{"graft_day"}, NamedCells{"graft_date"}, NamedCells{"start_date"}};
constexpr std::array method_places{NamedCells{"method"}};
// The calendar lists stages by their days, the table of labour as they were entered.
constexpr std::array stage_places{NamedCells{"calendar_stages"}, NamedCells{"labour_stage"}};
constexpr std::array stage_day_places{NamedCells{"calendar_stages", 2, 0}, NamedCells{"labour_target"}};
constexpr std::array stage_open_places{NamedCells{"stage_open"}};

// Lines of a plan's rows.
constexpr std::array row_tree_places{NamedCells{"row_planted"}};
constexpr std::array row_lot_places{NamedCells{"batch"}};
constexpr std::array row_grafter_places{NamedCells{"grafter"}};
constexpr std::array row_graft_places{NamedCells{"row_looked"}, NamedCells{"placed"}};
constexpr std::array row_live_places{NamedCells{"row_live"}, NamedCells{"live_now"}};
constexpr std::array row_grafted_places{NamedCells{"row_grafted"}};
constexpr std::array row_placed_places{NamedCells{"row_placed"}};  // of rows that are begun, too

// A plan's lots. In version 0.1 the first lot alone has a name; its source stands left of it, six lots below each
// other.
constexpr std::array lot_places{NamedCells{"lot_name"}, NamedCells{"first_lot", 0, 6}};
constexpr std::array nursery_places{NamedCells{"lot_source"}, NamedCells{"first_lot", -1, 6}};

// Lines of an inspection log.
constexpr std::array tree_grafter_places{NamedCells{"grafter"}};
constexpr std::array tree_lot_places{NamedCells{"batch"}};
constexpr std::array tree_placed_places{NamedCells{"placed"}};
constexpr std::array first_look_places{NamedCells{"live_first"}};
constexpr std::array second_look_places{NamedCells{"live_second"}};
constexpr std::array third_look_places{NamedCells{"live_third"}};

// Lines of a book of records.
constexpr std::array count_season_places{NamedCells{"counts_season"}};
constexpr std::array count_block_places{NamedCells{"counts_block"}, NamedCells{"counts_groups", 1, 0}};
constexpr std::array count_method_places{NamedCells{"counts_method"}};
constexpr std::array count_grafter_places{NamedCells{"counts_grafter"}};
constexpr std::array count_lot_places{NamedCells{"counts_lot"}, NamedCells{"counts_batch"}};
constexpr std::array count_nursery_places{NamedCells{"counts_nursery"}, NamedCells{"counts_source"}};
constexpr std::array count_tree_places{NamedCells{"counts_trees"}, NamedCells{"counts_placed", -1, 0}};
constexpr std::array count_placed_places{NamedCells{"counts_placed"}};
constexpr std::array count_live_places{NamedCells{"counts_live"}};

/// Cells that show a sentence where something is not fine, and nothing else.
bool is_check(std::string_view name) {
    return name == "entries" || name == "objections" || name == "unfit_first" || name.ends_with("_entries") ||
           name.ends_with("_check");
}

CellValue value_at(const WorkbookCells& cells, Places places) {
    CellValue shown;
    for (const NamedCells& place : places) {
        const CellValue value = cells.first(place);
        if (number_of(value) || !text_of(value).empty()) return value;
        if (std::holds_alternative<CellError>(value)) shown = value;
    }
    return shown;
}

std::optional<double> number_at(const WorkbookCells& cells, Places places) {
    return number_of(value_at(cells, places));
}

std::string text_at(const WorkbookCells& cells, Places places) { return text_of(value_at(cells, places)); }

std::optional<double> day_at(const WorkbookCells& cells, Places places) {
    auto day = number_at(cells, places);
    constexpr double days_to_1904 = 1462;
    if (day && cells.dates_from_1904) *day += days_to_1904;
    return day;
}

/// A named column that is there, whatever it shows.
std::vector<CellValue> column_at(const WorkbookCells& cells, Places places) {
    for (const NamedCells& place : places) {
        if (cells.has(place.name)) return cells.column(place);
    }
    return {};
}

CellValue at(const std::vector<CellValue>& column, std::size_t row) {
    return row < column.size() ? column[row] : CellValue{};
}

std::optional<double> year_of(std::optional<double> day) {
    if (!day || *day < 1 || *day > 2958465) return {};  // to 9999
    using namespace std::chrono_literals;
    const auto date = std::chrono::sys_days(1899y / 12 / 30) + std::chrono::days(static_cast<int>(*day));
    return static_cast<int>(std::chrono::year_month_day(date).year());
}

/// Adds a line to those of the same lot, grafter and method; a cluster of trees of its own for limits.
void add(std::vector<CountLine>& counts, CountLine line) {
    if (line.grafts <= 0 || line.live < 0 || line.live > line.grafts) return;
    counts.push_back(std::move(line));
}

std::vector<CountLine> counts_of_plan(const WorkbookCells& cells, std::optional<double> season) {
    const auto trees = column_at(cells, row_tree_places);
    const auto lots = column_at(cells, row_lot_places);
    const auto grafters = column_at(cells, row_grafter_places);
    const auto grafts = column_at(cells, row_graft_places);
    const auto live = column_at(cells, row_live_places);
    std::vector<CountLine> counts;
    for (std::size_t row = 0; row < live.size(); ++row) {
        const auto alive = number_of(live[row]);
        const auto placed = number_of(at(grafts, row));
        if (!alive || !placed) continue;
        add(counts, {.season = season,
                     .block = text_at(cells, block_places),
                     .method = text_at(cells, method_places),
                     .lot = text_of(at(lots, row)),
                     .nursery = {},
                     .grafter = text_of(at(grafters, row)),
                     .trees = number_of(at(trees, row)).value_or(0),
                     .grafts = *placed,
                     .live = *alive});
    }
    return counts;
}

std::vector<CountLine> counts_of_log(const WorkbookCells& cells) {
    const auto lots = column_at(cells, tree_lot_places);
    const auto grafters = column_at(cells, tree_grafter_places);
    const auto placed = column_at(cells, tree_placed_places);
    const std::array looks{column_at(cells, third_look_places), column_at(cells, second_look_places),
                           column_at(cells, first_look_places)};
    std::vector<CountLine> counts;
    for (std::size_t tree = 0; tree < placed.size(); ++tree) {
        const auto grafts = number_of(placed[tree]);
        std::optional<double> alive;
        for (const auto& look : looks) {
            if (!alive) alive = number_of(at(look, tree));
        }
        if (!grafts || !alive) continue;
        add(counts, {.season = {},
                     .block = text_at(cells, block_places),
                     .method = {},
                     .lot = text_of(at(lots, tree)),
                     .nursery = {},
                     .grafter = text_of(at(grafters, tree)),
                     .trees = 1,
                     .grafts = *grafts,
                     .live = *alive});
    }
    return counts;
}

std::vector<CountLine> counts_of_records(const WorkbookCells& cells) {
    const auto seasons = column_at(cells, count_season_places);
    const auto blocks = column_at(cells, count_block_places);
    const auto methods = column_at(cells, count_method_places);
    const auto grafters = column_at(cells, count_grafter_places);
    const auto lots = column_at(cells, count_lot_places);
    const auto nurseries = column_at(cells, count_nursery_places);
    const auto trees = column_at(cells, count_tree_places);
    const auto placed = column_at(cells, count_placed_places);
    const auto live = column_at(cells, count_live_places);
    std::vector<CountLine> counts;
    for (std::size_t line = 0; line < live.size(); ++line) {
        const auto alive = number_of(live[line]);
        const auto grafts = number_of(at(placed, line));
        if (!alive || !grafts) continue;
        add(counts, {.season = number_of(at(seasons, line)),
                     .block = text_of(at(blocks, line)),
                     .method = text_of(at(methods, line)),
                     .lot = text_of(at(lots, line)),
                     .nursery = text_of(at(nurseries, line)),
                     .grafter = text_of(at(grafters, line)),
                     .trees = number_of(at(trees, line)).value_or(1),
                     .grafts = *grafts,
                     .live = *alive});
    }
    return counts;
}

/// One line for each season, block, method, lot, nursery and grafter, in order of the first.
std::vector<CountLine> summed(const std::vector<CountLine>& counts) {
    std::vector<CountLine> sums;
    for (const CountLine& line : counts) {
        const auto same = std::ranges::find_if(sums, [&](const CountLine& sum) {
            return sum.season == line.season && sum.block == line.block && sum.method == line.method &&
                   sum.lot == line.lot && sum.nursery == line.nursery && sum.grafter == line.grafter;
        });
        if (same == sums.end()) {
            sums.push_back(line);
        } else {
            same->trees += line.trees;
            same->grafts += line.grafts;
            same->live += line.live;
        }
    }
    return sums;
}

std::optional<Take> take_of(const std::string& lot, const std::vector<double>& live,
                            const std::vector<double>& grafted) {
    const auto cells = [](const std::vector<double>& numbers) {
        return List(std::vector<Cell>(numbers.begin(), numbers.end()));
    };
    const auto block = take::take_trees(cells(live), cells(grafted));
    if (!block) return {};
    return Take{lot, block->take, block->low, block->high};
}

void add_money(BlockLine& line, const WorkbookCells& cells) {
    const auto cost = number_at(cells, cost_places);
    if (cost && line.trees && *line.trees > 0) line.cost_per_tree = *cost / *line.trees;

    line.payback = number_at(cells, payback_places);
    if (!line.payback) {
        const auto paid = column_at(cells, paid_places);
        const auto half = std::ranges::find_if(
            paid, [](const CellValue& share) { return number_of(share).value_or(0) >= 0.5 - 1e-9; });
        if (half != paid.end()) line.payback = static_cast<double>(half - paid.begin());
    }
    line.lowest_cash = number_at(cells, lowest_places);
    if (!line.lowest_cash) {
        double sum = 0;
        for (const CellValue& flow : column_at(cells, flow_places)) {
            sum += number_of(flow).value_or(0);
            line.lowest_cash = std::min(line.lowest_cash.value_or(0), sum);
        }
    }
}

void add_stages(BlockLine& line, const WorkbookCells& cells) {
    line.overdue = number_at(cells, overdue_places);
    line.as_of = day_at(cells, as_of_places);
    const auto stages = column_at(cells, stage_places);
    const auto days = column_at(cells, stage_day_places);
    // Which are open is known line by line of the calendar.
    const auto open =
        cells.has(stage_places.front().name) ? column_at(cells, stage_open_places) : std::vector<CellValue>();
    for (std::size_t stage = 0; stage < stages.size(); ++stage) {
        const auto day = number_of(at(days, stage));
        const bool done = number_of(at(open, stage)).value_or(1) == 0;
        if (day && !done && !text_of(stages[stage]).empty()) {
            line.due.push_back({text_of(stages[stage]), *day + (cells.dates_from_1904 ? 1462 : 0)});
        }
    }
    std::ranges::stable_sort(line.due, {}, &Due::day);
}

State state_of(const WorkbookCells& cells) {
    const auto trees = column_at(cells, row_tree_places);
    const auto grafted = column_at(cells, row_grafted_places);
    const auto placed = column_at(cells, row_placed_places);
    const auto live = column_at(cells, row_live_places);
    std::size_t rows = 0;
    std::size_t begun = 0;
    std::size_t done = 0;
    std::size_t counted = 0;
    for (std::size_t row = 0; row < trees.size(); ++row) {
        if (number_of(trees[row]).value_or(0) <= 0) continue;
        ++rows;
        const bool is_counted = number_of(at(live, row)).has_value();
        if (is_counted) ++counted;
        const bool is_done = is_counted || number_of(at(grafted, row)).value_or(0) > 0;
        if (is_done) ++done;
        if (is_done || number_of(at(placed, row)).value_or(0) > 0) ++begun;
    }
    if (rows == 0 || begun == 0) return State::planned;
    if (counted == rows) return State::counted;
    if (done < rows) return counted > 0 ? State::counting : State::grafting;
    return counted > 0 ? State::counting : State::grafted;
}

void add_checks(BlockLine& line, const WorkbookCells& cells) {
    for (const auto& [name, area] : cells.names) {
        if (!is_check(name) || area.first_row != area.last_row || area.first_column != area.last_column) continue;
        const CellValue value = cells.first({name});
        const auto* error = std::get_if<CellError>(&value);
        const std::string text = error != nullptr ? error->shown : text_of(value);
        if (text.empty() || number_of(value)) continue;
        if (std::ranges::find(line.checks, text) == line.checks.end()) line.checks.push_back(text);
    }
}

void add_takes(BlockLine& line, const std::vector<CountLine>& counts) {
    line.takes = takes_of(counts);
    if (line.takes.empty()) return;
    line.take = line.takes.front();
    line.takes.erase(line.takes.begin());
}

Harvest harvest_plan(const WorkbookCells& cells) {
    Harvest all{.kind = Kind::plan, .client = text_at(cells, client_places), .block = {}, .counts = {}, .lots = {}};
    BlockLine line;
    line.block = text_at(cells, block_places);
    line.old_variety = text_at(cells, old_variety_places);
    line.new_variety = text_at(cells, new_variety_places);
    line.method = text_at(cells, method_places);
    line.season = year_of(day_at(cells, graft_date_places));
    line.trees = number_at(cells, trees_places);
    line.grafts = number_at(cells, grafts_places);
    line.sticks = number_at(cells, sticks_places);
    line.order_by = day_at(cells, order_places);
    line.regrafts = number_at(cells, regraft_places);
    line.days = number_at(cells, day_places);
    line.state = state_of(cells);
    add_money(line, cells);
    add_stages(line, cells);
    add_checks(line, cells);
    const auto counts = counts_of_plan(cells, line.season);
    add_takes(line, counts);
    all.counts = summed(counts);
    all.block = std::move(line);
    const auto lots = column_at(cells, lot_places);
    const auto nurseries = column_at(cells, nursery_places);
    for (std::size_t lot = 0; lot < lots.size(); ++lot) {
        if (!text_of(lots[lot]).empty()) all.lots.push_back({text_of(lots[lot]), text_of(at(nurseries, lot))});
    }
    return all;
}

Harvest harvest_log(const WorkbookCells& cells) {
    Harvest all{.kind = Kind::log, .client = text_at(cells, client_places), .block = {}, .counts = {}, .lots = {}};
    const auto counts = counts_of_log(cells);
    BlockLine line;
    line.block = text_at(cells, block_places);
    line.trees = number_at(cells, trees_places);
    double placed = 0;
    for (const CellValue& grafts : column_at(cells, tree_placed_places)) placed += number_of(grafts).value_or(0);
    line.grafts = placed;
    line.regrafts = number_at(cells, regraft_places);
    line.state = counts.empty() ? State::grafted : State::counting;
    if (line.trees && static_cast<double>(counts.size()) >= *line.trees) line.state = State::counted;
    add_checks(line, cells);
    add_takes(line, counts);
    all.counts = summed(counts);
    all.block = std::move(line);
    return all;
}

/// The error that an answer of the workbook shows, where Slipbark was missing when it was saved; "" for none.
std::string lost_answer(const WorkbookCells& cells, Kind kind) {
    const auto error = [&](Places places) {
        const CellValue value = value_at(cells, places);
        const auto* shown = std::get_if<CellError>(&value);
        return shown == nullptr ? std::string() : shown->shown;
    };
    if (kind != Kind::plan) return {};  // lines of logs and records are typed, not reckoned
    for (const Places places :
         {Places(grafts_places), Places(sticks_places), Places(cost_places), Places(day_places)}) {
        if (auto shown = error(places); !shown.empty()) return shown;
    }
    // Most formulas show a blank in place of an error; those that do not show a name that nobody knows, "#NAME?" in the
    // words of the office that saved it.
    for (const auto& [name, area] : cells.names) {
        const CellValue value = cells.first({name});
        const auto* shown = std::get_if<CellError>(&value);
        if (shown == nullptr) continue;
        for (const char* word : {"#NAM", "#NOM", "NOMBRE"}) {
            if (shown->shown.find(word) != std::string::npos) return shown->shown;
        }
    }
    return {};
}

}  // namespace

Text name_of(State state) {
    switch (state) {
        case State::planned:
            return translatable("planned");
        case State::grafting:
            return translatable("grafting");
        case State::grafted:
            return translatable("grafted");
        case State::counting:
            return translatable("partly counted");
        case State::counted:
            return translatable("counted");
    }
    return {};
}

std::optional<Kind> kind_of(const WorkbookCells& cells, const std::string& property) {
    const auto found = cells.properties.find(property);
    const std::string file = found == cells.properties.end() ? std::string() : found->second;
    if (file == "rework-plan") return Kind::plan;
    if (file == "inspection-log") return Kind::log;
    if (file == "records") return Kind::records;
    if (!file.empty()) return {};
    if (cells.has("new_variety") && cells.has("graft_date") && cells.has("row_planted")) return Kind::plan;
    if (cells.has("tree_row") && cells.has("tree_number") && cells.has("live_first")) return Kind::log;
    if (cells.has("counts_placed") && cells.has("counts_live")) return Kind::records;
    return {};
}

std::vector<Take> takes_of(const std::vector<CountLine>& counts) {
    using Numbers = std::vector<double>;
    Numbers all_live;
    Numbers all_grafted;
    std::vector<std::string> order;
    std::map<std::string, std::pair<Numbers, Numbers>> by_lot;
    for (const CountLine& line : counts) {
        all_live.push_back(line.live);
        all_grafted.push_back(line.grafts);
        if (!by_lot.contains(line.lot)) order.push_back(line.lot);
        auto& [live, grafted] = by_lot[line.lot];
        live.push_back(line.live);
        grafted.push_back(line.grafts);
    }
    std::vector<Take> takes;
    if (auto take = take_of({}, all_live, all_grafted)) takes.push_back(*take);
    for (const std::string& lot : order) {
        if (auto take = take_of(lot, by_lot[lot].first, by_lot[lot].second)) takes.push_back(*take);
    }
    return takes;
}

std::variant<Harvest, Message> harvest(const WorkbookCells& cells, const std::string& property) {
    const auto kind = kind_of(cells, property);
    if (!kind) {
        return Message{
            translatable("It is no rework plan, inspection log or book of records: nothing was taken from it."), {}};
    }
    if (const auto shown = lost_answer(cells, *kind); !shown.empty()) {
        return Message{
            translatable("Its figures were lost: they show {1}, as where a workbook was saved without Slipbark. Open "
                         "it with Slipbark, recalculate it with Ctrl+Shift+F9 and save it."),
            {shown}};
    }
    switch (*kind) {
        case Kind::plan:
            return harvest_plan(cells);
        case Kind::log:
            return harvest_log(cells);
        case Kind::records:
            break;
    }
    return Harvest{.kind = Kind::records,
                   .client = text_at(cells, client_places),
                   .block = {},
                   .counts = summed(counts_of_records(cells)),
                   .lots = {}};
}

}  // namespace slipbark::gather

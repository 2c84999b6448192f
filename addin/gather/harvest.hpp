// What one grower's workbook gives the desk: a line for its block, and lines of counts. Only named cells are read,
// never addresses, so that workbooks of this version and of earlier ones give the same.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "gather/workbook_cells.hpp"
#include "slipbark/message.hpp"

namespace slipbark::gather {

enum class Kind { plan, log, records };

/// How far a block is.
enum class State { planned, grafting, grafted, counting, counted };

Text name_of(State state);

/// Grafts of one lot, grafter and method in a block and season.
struct CountLine {
    std::optional<double> season;  ///< the year of grafting
    std::string block;
    std::string method;
    std::string lot;
    std::string nursery;  ///< or whoever the budwood is from
    std::string grafter;
    double trees = 0;
    double grafts = 0;
    double live = 0;
    bool operator==(const CountLine&) const = default;
};

/// A take with its limits at 95 %; trees share their luck.
struct Take {
    std::string lot;
    double take = 0;
    double low = 0;
    double high = 1;
};

struct Due {
    std::string stage;
    double day = 0;  ///< days from 30 December 1899
};

struct BlockLine {
    std::string block;
    std::string old_variety;
    std::string new_variety;
    std::string method;
    std::optional<double> season;
    std::optional<double> trees;
    std::optional<double> grafts;
    std::optional<double> sticks;
    std::optional<double> order_by;  ///< the day by which budwood is ordered
    std::optional<double> regrafts;
    std::optional<double> days;
    std::optional<double> cost_per_tree;
    std::optional<double> payback;  ///< years until half of the simulated futures have paid back
    std::optional<double> lowest_cash;
    std::optional<double> overdue;  ///< stages past their latest day, on the day `as_of`
    std::optional<double> as_of;
    State state = State::planned;
    std::vector<Due> due;  ///< open stages with their days, in order of days
    std::vector<std::string> checks;
    std::optional<Take> take;  ///< of the whole block
    std::vector<Take> takes;   ///< lot by lot
};

/// Where the wood of a lot is from.
struct Lot {
    std::string lot;
    std::string nursery;
};

struct Harvest {
    Kind kind = Kind::plan;
    std::string client;  ///< as the workbook says; "" where it does not
    std::optional<BlockLine> block;
    std::vector<CountLine> counts;
    std::vector<Lot> lots;
};

/// What kind of workbook of ours it is: by its property `property`, or by its names where that was lost on the way.
std::optional<Kind> kind_of(const WorkbookCells& cells, const std::string& property);

/// Either what the workbook gives, or why it gives nothing.
std::variant<Harvest, Message> harvest(const WorkbookCells& cells, const std::string& property);

/// Takes of counted lines, all together (lot "") and lot by lot in order of their first line.
std::vector<Take> takes_of(const std::vector<CountLine>& counts);

}  // namespace slipbark::gather

// A schedule as the functions work with it: read from a table, found by name, or the built-in one, and turned into
// dates. What a schedule is, <slipbark/calendar.hpp> says.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::calendar {

/// Earliest, target and latest date of a stage.
using Dates = std::array<Day, 3>;

struct Stage {
    std::string name;
    std::string key;                          ///< the name as names are compared
    std::size_t row = 0;                      ///< in the table, from 0
    std::array<std::int32_t, 3> offsets{};    ///< earliest, target, latest
    char unit = 'd';                          ///< 'd', 'w' or 'm'
    Cell sign;                                ///< what to look for; may be blank
    Cell source;                              ///< where the row comes from; may be blank
    std::optional<std::size_t> counted_from;  ///< place among the stages, before this one; none: the day of grafting
};

/// Whole numbers as a text may hold them: an optional minus and digits, nothing else.
std::optional<std::int64_t> written_number(std::string_view text);

/// The stages that a function's `schedule` argument means: the built-in one that it names, bagged bark graft where
/// nothing is given, else those of the range, which are put into `given`.
///
/// throws  bad_argument (schedule) for an unknown name and for a table that is no schedule, naming row and column
const std::vector<Stage>& stages_of(const std::optional<Table>& schedule, std::vector<Stage>& given);

/// The date of an edge (0 earliest, 1 target, 2 latest) of `stage`, where the day it counts from is known: the day of
/// grafting, or a date of the stage that it counts from.
///
/// throws  bad_argument (graft_date) where the date leaves the years 1900 to 9999
Day date_from(const Stage& stage, std::size_t edge, Day from, Day graft_date);

/// The date of an edge of one stage as planned.
Day date_of(const std::vector<Stage>& stages, std::size_t place, std::size_t edge, Day graft_date);

/// The dates of all stages as planned, in their order.
std::vector<Dates> dates_of(const std::vector<Stage>& stages, Day graft_date);

}  // namespace slipbark::calendar

// The built-in defaults: typed rows, each with where it comes from, and the tables made of them.
//
// The tables have no heading row. Pasted into a sheet, changed, and handed back as the range argument, they are read
// just as the built-in rows are.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "slipbark/values.hpp"

namespace slipbark::defaults {

/// Earliest, target and latest offset of a stage in days ("d"), weeks ("w") or calendar months ("m").
struct Span {
    std::int32_t earliest;
    std::int32_t target;
    std::int32_t latest;
    char unit;
};

/// A stage of a schedule. `counted_from` names a stage further up, from whose three dates the three offsets count;
/// where it is empty they count from the day of grafting.
struct Stage {
    std::string_view name;
    Span offset;
    std::string_view sign;  ///< what to look for
    std::string_view source;
    std::string_view counted_from = {};
};

/// A schedule by the name that cells use.
struct Schedule {
    std::string_view name;
    std::span<const Stage> stages;
};

/// A row of a curve: years since grafting or days of storage, and a share.
struct Share {
    double at;
    double share;
    std::string_view source;
};

/// The built-in ways of grafting, each from asking for licences to the second crop.
std::span<const Schedule> schedules();

/// The stages used where no schedule is given: those of "bagged bark graft" from cutting back on. Stages may be meant
/// by their row, so these rows keep their places.
std::span<const Stage> stages();

/// Share of a mature tree's yield by years since grafting.
std::span<const Share> yield_curve();

/// Share of buds alive by days of storage at room temperature in a polyethylene bag.
std::span<const Share> room_life();

/// The same in a cool store at 5 degrees C.
std::span<const Share> cool_life();

/// Share of the full canopy by years since cutting back.
std::span<const Share> canopy_regrowth();

/// stages() as a table: stage, earliest, target, latest, unit ("d", "w", "m"), sign to look
/// for, source, counted from (blank for the day of grafting).
const Table& schedule();

/// yield_curve() as a table: years, share, source.
const Table& yield();

/// room_life() as a table: days, share, source.
const Table& room_storage();

/// cool_life() as a table.
const Table& cool_storage();

/// canopy_regrowth() as a table: years, share, source.
const Table& canopy();

/// A table by its name, for pasting into a sheet: "schedule" or the name of a schedule, "yield", "storage" (at room
/// temperature), "cool storage" or "canopy"; case and blanks around it do not matter.
///
/// throws  bad_argument for another name
Table table(const std::string& name);

}  // namespace slipbark::defaults

// The built-in default tables, each row with where it comes from.
//
// They have no heading row, and the column that tells the source is the last: pasted into a sheet, changed, and handed
// back as the range argument, they are read just as the built-in ones are (further columns are not looked at).
#pragma once

#include <string>

#include "slipbark/values.hpp"

namespace slipbark::defaults {

/// Stages of a rework: stage, earliest, target, latest, unit ("d", "w", "m"), sign to look for, source.
/// Offsets count from the graft date, in order of target.
const Table& schedule();

/// Share of a mature tree's yield by years since grafting: years, share, source.
const Table& yield();

/// Share of buds alive by days of storage at room temperature in a polyethylene bag: days, share, source.
const Table& room_storage();

/// The same in a cool store at 5 degrees C.
const Table& cool_storage();

/// A table by its name, for pasting into a sheet: "schedule", "yield", "storage" (at room temperature) or
/// "cool storage"; case and blanks around it do not matter.
///
/// throws  bad_argument for another name
Table table(const std::string& name);

}  // namespace slipbark::defaults

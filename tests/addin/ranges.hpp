// What the catalogue's data say of a value, for the tests that compare it with what the functions do.
#pragma once

#include <string>
#include <vector>

#include "catalogue/entry.hpp"

namespace slipbark::tests {

/// Whether `value` is right for the argument at `at`, the other arguments being those of `right`. Knows what the data
/// say; where a function narrows an argument further, by another one or by the table that it looks into, it is wrong.
bool is_right(const catalogue::FunctionEntry& entry, std::size_t at, const catalogue::Value& value,
              const catalogue::Arguments& right);

/// The limits of the argument at `at`, narrowed by those arguments that its range names.
catalogue::Bounds narrowed(const catalogue::FunctionEntry& entry, std::size_t at, const catalogue::Arguments& right);

/// The outermost numbers inside limits of the argument at `at`, and those just outside: the next double, the next whole
/// number or the next day.
std::vector<double> inside(const catalogue::FunctionEntry& entry, std::size_t at, const catalogue::Bounds& limits);
std::vector<double> outside(const catalogue::FunctionEntry& entry, std::size_t at, const catalogue::Bounds& limits);

/// Whether the range of one names the other.
bool narrow_each_other(const catalogue::Argument& one, const catalogue::Argument& other);

/// "sticks.grafts"
std::string place_name(const catalogue::FunctionEntry& entry, std::size_t at);

}  // namespace slipbark::tests

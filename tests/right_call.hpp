// The calls that tests and benchmarks are made from, drawn from the catalogue so that a new function brings its own.
#pragma once

#include <string>

#include "catalogue/entry.hpp"

namespace slipbark::tests {

/// The entry's example with every optional argument given as well: its default, or where that is no value its sample.
/// Throws std::logic_error where an argument has neither.
std::string right_call(const catalogue::FunctionEntry& entry);

/// Whether an argument may be anything at all, as WHY's are those of the other functions.
bool takes_anything(const catalogue::FunctionEntry& entry);

}  // namespace slipbark::tests

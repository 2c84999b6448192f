// What the tests in real Calc share: an office with the packaged extension for the whole run, and one without.
#pragma once

#include <gtest/gtest.h>

#include "office.hpp"

namespace slipbark::tests {

/// The office with the extension, started at first use and ended with the run.
office::Office& calc();

/// An office without the extension, as the neighbour has it.
office::Office& bare();

}  // namespace slipbark::tests

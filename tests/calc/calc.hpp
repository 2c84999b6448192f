// What the tests in real Calc share: one office with the packaged extension for the whole run.
#pragma once

#include <gtest/gtest.h>

#include "office.hpp"

namespace slipbark::tests {

/// The office with the extension, started at first use and ended with the run.
office::Office& calc();

}  // namespace slipbark::tests

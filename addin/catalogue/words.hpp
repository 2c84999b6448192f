// The catalogue's data in words, for the wizard, the reference page, the guide, the workbooks and Explain.
#pragma once

#include <string>

#include "catalogue/entry.hpp"
#include "catalogue/language.hpp"

namespace slipbark::catalogue {

/// "grafts", or "list of grafts".
std::string unit_in_words(const Argument& argument, const Language& language = {});

/// "whole, 0 to 10,000,000; default 1".
std::string range_in_words(const Argument& argument, const Language& language = {});

/// "Grafts to be placed; grafts; whole, 0 to 10,000,000."
std::string help_in_words(const Argument& argument, const Language& language = {});

/// "REWORK.STICKS(grafts; buds_per_scion; good_buds_per_stick; [spare])"
std::string call_form(const FunctionEntry& entry);

}  // namespace slipbark::catalogue

// The two functions that are about the functions: the reason why a call fails, and the version.
#pragma once

#include <string>

#include "catalogue/entry.hpp"
#include "catalogue/language.hpp"
#include "catalogue/sentence.hpp"
#include "catalogue/unfit.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::catalogue {

/// Why a call gives no number: the sentence for its bad argument or for its having no answer, in the language that is
/// spoken; "" where it is fine. It reads the arguments exactly as the call itself does.
///
/// function   name of a function, with or without "REWORK."; case does not matter
/// arguments  the arguments as they would be given to it
/// throws     bad_argument where there is no function of that name
std::string why(const std::string& function, const Arguments& arguments);

/// The same in a language.
std::string why_in(const Language& language, const std::string& function, const Arguments& arguments);

/// What the example of an entry shows. Names, keywords and numbers are the same in every language; the answer of WHY
/// is a sentence.
std::string example_shows(const FunctionEntry& entry, const Language& language);

/// The version of the extension, "0.1.0".
std::string version();

}  // namespace slipbark::catalogue

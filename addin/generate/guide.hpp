// The function guide: one page of HTML for each language.
#pragma once

#include <string>

#include "catalogue/language.hpp"

namespace slipbark::generate {

/// The page in a language.
///
/// frame  the page around the texts, with @LANGUAGE@, @TITLE@ and @BODY@ where they belong
std::string guide(std::string frame, const catalogue::Language& language);

}  // namespace slipbark::generate

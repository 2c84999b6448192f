// The texts of workbooks as a file for translators.
#pragma once

#include <string>
#include <vector>

#include "composer/text_collector.hpp"

namespace slipbark::compose {

/// A gettext .pot file (GNU gettext manual, "The Format of PO Files"). A text with places is marked as one of
/// python-brace-format, so that msgfmt --check tells of a translation that lacks a place.
std::string pot(const std::vector<CollectedText>& texts);

}  // namespace slipbark::compose

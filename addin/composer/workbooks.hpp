// The workbooks' composers, one source file each.
#pragma once

#include <string>

namespace slipbark::compose {

#define SLIPBARK_WORKBOOK(composer, file, menu_title, category) std::string composer();
#include "composer/registry.def"
#undef SLIPBARK_WORKBOOK

}  // namespace slipbark::compose

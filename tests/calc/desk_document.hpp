// A document with the desk's named cells alone, and a look into a database.
#pragma once

#include "calc.hpp"

namespace slipbark::tests {

/// Its tables have fewer lines than most folders have workbooks, so that they have to make room.
office::Book plain_desk(const std::string& folder = {});

/// All cells of a name.
office::Ref<office::css::table::XCellRange> cells_of(const office::Book& book, const std::string& name);

/// The number that a query of a Firebird file gives.
double query(const std::string& file, const std::string& sql);

}  // namespace slipbark::tests

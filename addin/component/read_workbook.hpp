// Reads a workbook's file for the desk: its zip and its XML, through the office's own reader of both. Only where that
// fails (an old .xls or a flat XML file named .ods or .xlsx) the office loads it, out of sight and read-only. No macro
// runs, no link is followed, and nothing is written, not even a lock file.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>
#include <variant>

#include "component/convert.hpp"
#include "gather/workbook_cells.hpp"
#include "slipbark/message.hpp"

namespace slipbark::addin {

/// The cells that the file of this URL had when it was saved, or why they cannot be read.
std::variant<gather::WorkbookCells, Message> read_workbook(
    const css::uno::Reference<css::uno::XComponentContext>& context, const rtl::OUString& url);

}  // namespace slipbark::addin

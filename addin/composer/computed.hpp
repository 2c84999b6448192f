// Sheets that no text can hold, since they are made from the catalogue.
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "composer/sheet.hpp"

namespace slipbark::compose {

/// The sheets of one workbook that are computed together, by their titles.
using ComputedSheets = std::map<std::string, Sheet*>;

/// Fills the sheets that book.tsv names so: "sheet Take computed cards". `folder` is the workbook's, for data.
///
/// throws     std::logic_error where nothing of that name computes sheets, or not these
void compute_sheets(const std::string& name, const ComputedSheets& sheets, const std::filesystem::path& folder);

}  // namespace slipbark::compose

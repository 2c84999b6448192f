// Workbooks as text: a folder with book.tsv, a .tsv for each sheet and plain columns of data. docs/workbook-text.md
// tells the format.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "composer/sheet.hpp"

namespace slipbark::compose {

/// What book.tsv says of the workbook itself.
struct BookLines {
    std::string title;
    std::string about;
    std::string menu;
    std::string category;
};

/// given      folder   examples/spring-heat; its name is the workbook's file name
/// returned   the workbook, in English, not written yet
/// throws     TextError, which names file, line and cell
std::unique_ptr<Workbook> read_workbook(const std::filesystem::path& folder);

/// The lines on the workbook itself alone.
BookLines read_book_lines(const std::filesystem::path& folder);

/// The file of a sheet in the workbook's folder: "Own figures" is own-figures.tsv.
std::string file_of_sheet(const std::string& title);

}  // namespace slipbark::compose

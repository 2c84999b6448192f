// A workbook as its file has it: what its cells showed when it was saved, and the names of its cells. Read from the
// file's XML without an office; nothing is calculated.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace slipbark::gather {

/// What a cell shows in place of a value, "#NAME?".
struct CellError {
    std::string shown;
    bool operator==(const CellError&) const = default;
};

/// Blank, a number (a date counts days from 30 December 1899), a text, or an error.
using CellValue = std::variant<std::monostate, double, std::string, CellError>;

/// Cells that hold the same, one beside or below the other, as files write them. Rows and columns count from 0.
struct Run {
    std::int64_t row = 0;
    std::int64_t rows = 1;
    std::int64_t column = 0;
    std::int64_t columns = 1;
    CellValue value;
};

/// The cells that a name stands for, first and last included.
struct NamedArea {
    std::string sheet;
    std::int64_t first_row = 0;
    std::int64_t first_column = 0;
    std::int64_t last_row = 0;
    std::int64_t last_column = 0;
    bool operator==(const NamedArea&) const = default;
};

/// A named cell, or one column of a named area, and from there so many rows and columns on.
struct NamedCells {
    std::string_view name;
    std::int64_t right = 0;  ///< columns from the first one of the named area
    std::int64_t rows = 0;   ///< as many rows; 0: those of the named area
};

struct WorkbookCells {
    std::map<std::string, std::vector<Run>> sheets;
    std::map<std::string, NamedArea> names;         ///< by their names in lower case
    std::map<std::string, std::string> properties;  ///< that users and extensions set
    bool dates_from_1904 = false;                   ///< numbers of dates count from there, in an .xlsx

    [[nodiscard]] bool has(std::string_view name) const { return area(name) != nullptr; }
    /// The area of that name; null where there is none. Case is ignored, as Calc does.
    [[nodiscard]] const NamedArea* area(std::string_view name) const;
    /// What its first cell shows.
    [[nodiscard]] CellValue first(const NamedCells& place) const;
    /// What the cells of the column show, one value a row, blanks at the end left out.
    [[nodiscard]] std::vector<CellValue> column(const NamedCells& place) const;
};

/// Reads "$Plan.$C$8", "$Rows.$B$6:.$B$205", "$'Count sheet'.$D$3:.$F$9" as .ods files write names.
std::optional<NamedArea> ods_area(std::string_view text);

/// Reads "Plan!$C$8", "'Count sheet'!$B$6:$B$205" as .xlsx files write them. A formula is no area.
std::optional<NamedArea> xlsx_area(std::string_view text);

/// Row and column of "B6", from 0; nothing where it is no address.
struct CellPosition {
    std::int64_t row;
    std::int64_t column;
};
std::optional<CellPosition> cell_position(std::string_view text);

/// Lower case of ASCII letters.
std::string lower(std::string_view text);

std::optional<double> number_of(const CellValue& value);
/// The text of a cell without spaces around it; a number as it is written, whole ones without a point; "" if blank.
std::string text_of(const CellValue& value);

}  // namespace slipbark::gather

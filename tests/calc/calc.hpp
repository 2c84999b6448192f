// What the tests in real Calc share: an office with the packaged extension for the whole run, and one without.
#pragma once

#include <gtest/gtest.h>

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <string>
#include <vector>

#include "office/office.hpp"

namespace slipbark::tests {

/// The office with the extension, started at first use and ended with the run.
office::Office& calc();

/// An office without the extension, as the neighbour has it.
office::Office& bare();

/// `how` with the program of the office that is tested, for a test that starts one of its own.
office::Start start(office::Start how);

/// The folder that holds the unpacked extension.
std::filesystem::path bundled();

/// The URL of a packaged template ("rework-plan"), as an installed extension gives it.
std::string url_of(const std::string& workbook);
/// The same in a built-in language, "es".
std::string url_of(const std::string& workbook, const std::string& language);

/// The files of all workbooks: "rework-plan", ...
std::vector<std::string> workbook_files();

using office::make_profile;
using office::Settings;

/// A workbook that is a form to fill in, in one of the languages shipped.
struct Form {
    std::string workbook;
    std::string language;
};

std::vector<Form> forms();

/// For INSTANTIATE_TEST_SUITE_P: "rework_plan_en".
std::string form_id(const testing::TestParamInfo<Form>& info);

/// For tests that hold for every form: the example it opens with, in a window.
class EachForm : public testing::TestWithParam<Form> {
  protected:
    [[nodiscard]] static office::Book opened();
};

/// Documents kept from earlier versions.
std::filesystem::path fixtures();

/// The workbooks as they are committed.
std::filesystem::path examples();

/// Writes the example of every function of the catalogue into a cell of its own, from A1 down; gives their addresses.
std::vector<std::string> fill(const office::Book& book);

struct Cells {
    std::vector<std::string> formulas;
    std::vector<office::Shown> shown;
};

/// Takes the values of some cells to cells of another workbook, as Paste Special with values only does.
void paste_values(const office::Book& from, const std::string& source, const office::Book& to,
                  const std::string& target);

/// Deletes what stands in the cells, as the Delete key does; formats and validations stay.
void clear(const office::Book& book, const std::string& range);

/// Deletes the lines that the workbook records holds as its example.
void clear_records(const office::Book& records);

/// What a named cell shows.
double number(const office::Book& book, const std::string& name);
std::string text(const office::Book& book, const std::string& name);

/// Whether a sentence has these words in it.
bool says(const std::string& sentence, const std::string& words);

office::Ref<css::sheet::XSpreadsheet> sheet_of(const office::Book& book, const std::string& title);

/// The cells of a sheet that are in use, from A1 on.
office::Ref<css::sheet::XSheetCellCursor> used_cells(const office::Ref<css::sheet::XSpreadsheet>& sheet);

/// A property of cells, columns or sheets.
template <class T>
T property_of(const office::Ref<css::beans::XPropertySet>& of, const char* name) {
    T value{};
    of->getPropertyValue(office::ustring(name)) >>= value;
    return value;
}

/// A rectangle of cells that look alike, and the name of their style.
struct Alike {
    office::Ref<css::beans::XPropertySet> cells;
    css::table::CellRangeAddress area;
    std::string style;
};

/// All rectangles of a sheet; those that look the same in all stand one after the other.
std::vector<Alike> alike(const office::Ref<css::sheet::XSpreadsheet>& sheet);

Cells read(const office::Book& book, const std::vector<std::string>& addresses);

void expect_same(const Cells& before, const Cells& after);

}  // namespace slipbark::tests

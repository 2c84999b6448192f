// House defaults: prices, pace and figures of one's own that fill new workbooks and emptied forms. They are kept in the
// user's configuration, org.slipbark.House, with a copy in the user's folder, and travel as a file.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/io/XInputStream.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <string>
#include <vector>

#include "component/convert.hpp"
#include "slipbark/message.hpp"

namespace slipbark::addin {

/// What fills one named range.
struct HouseFigure {
    std::string name;   ///< of the cells
    std::string cells;  ///< as written_cells() has them
    std::string day;    ///< when it was kept, 2027-09-20
};

/// A name whose cells a house may fill, and what people call it.
struct HouseName {
    const char* name;
    Text label;
};

const std::vector<HouseName>& house_names();

/// Cells as one text: lines of cells between tabs, a number as "=0.72", a text as "'florins", a blank cell as "".
std::string written_cells(const Block& cells);
/// The cells of such a text; throws std::invalid_argument for another.
Block read_cells(const std::string& text);

/// The file in which figures travel: a line of name, day and number of rows for each, then its rows, of which any may
/// be blank.
std::string house_text(const std::vector<HouseFigure>& figures);
/// The figures of such a file; throws std::invalid_argument for another.
std::vector<HouseFigure> house_of(const css::uno::Reference<css::io::XInputStream>& file);

/// What is kept; after a reinstall, which the configuration does not outlive, its copy in the user's folder.
std::vector<HouseFigure> read_house(const css::uno::Reference<css::uno::XComponentContext>& context);
/// Replaces what was kept.
void write_house(const css::uno::Reference<css::uno::XComponentContext>& context,
                 const std::vector<HouseFigure>& figures);

/// Today as 2027-09-20.
std::string today_iso();

/// The figures that a workbook's cells hold.
std::vector<HouseFigure> house_of(const css::uno::Reference<css::frame::XModel>& model);

/// Fills the workbook's cells of those names, and marks each with a note, "house", and the day. A name that is not
/// there, or has other rows and columns, is passed over. Returns the labels of what was filled.
std::vector<std::string> fill_with_house(const css::uno::Reference<css::frame::XModel>& model,
                                         const std::vector<HouseFigure>& figures);

}  // namespace slipbark::addin

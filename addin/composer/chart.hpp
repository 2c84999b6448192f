// Charts as parts of a workbook.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "composer/cells.hpp"
#include "composer/xml.hpp"

namespace slipbark::compose {

struct Series {
    Area values;
    Address label;  ///< the cell with the series' name, for the legend
    enum class Shape { column, line, point, hidden } shape = Shape::column;
    int paint = 0;                  ///< which of the look's chart paints (0 to 4)
    std::optional<Area> less = {};  ///< how far the error bar reaches down, cell by cell
    std::optional<Area> more = {};  ///< how far up
};

/// What the categories are: names, each as far from the next; dates, as far apart as they are; or numbers, which make
/// the chart a scatter of points and lines.
enum class Across { names, dates, numbers };

/// A chart of rows: categories along one axis, values along the other.
struct Chart {
    std::string title;
    std::string description;  ///< for readers who cannot see it
    Area categories;
    std::string category_title;
    std::string value_title;
    Format value_format = Format::general;
    std::vector<Series> series;
    bool sideways = false;  ///< bars lie, first category on top
    bool stacked = false;
    bool legend = true;
    Across across = Across::names;
    std::optional<double> least = {};
    std::optional<double> most = {};
    std::optional<double> step = {};
    std::string picture = {};  ///< what a picture's file has, shown in place of a chart
};

/// A picture from a file, which is placed as a chart is. throws std::logic_error where it cannot be read
Chart picture_of(std::string title, const std::filesystem::path& file);

/// The ranges whose change the chart must hear of, all on the sheet of that title.
std::string watched(const Chart& chart, const std::string& sheet);

/// The chart's own document inside its object. Throws std::logic_error where the author asks for what cannot be drawn.
void add_chart(Tree& object, const Chart& chart, const std::string& sheet, double width_cm, double height_cm);

}  // namespace slipbark::compose

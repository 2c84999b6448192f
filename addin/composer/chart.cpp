#include "composer/chart.hpp"

#include <algorithm>
#include <boost/property_tree/ptree.hpp>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <utility>

#include "composer/styles.hpp"

namespace slipbark::compose {

namespace {

bool is_bar(const Series& series) {
    return series.shape == Series::Shape::column || series.shape == Series::Shape::hidden;
}

bool has_bars(const Chart& chart) { return std::any_of(chart.series.begin(), chart.series.end(), is_bar); }

std::string class_of(const Chart& chart) {
    if (chart.across == Across::numbers) return "chart:scatter";
    return has_bars(chart) ? "chart:bar" : "chart:line";
}

std::string range(const std::string& sheet, const Area& area) {
    std::string text = sheet + "." + area.first.text();
    if (area.first != area.last) text += ":" + sheet + "." + area.last.text();
    return text;
}

Tree& chart_style(Tree& styles, const std::string& name, const std::string& data_style = {}) {
    Attributes attributes{{"style:name", name}, {"style:family", "chart"}};
    if (!data_style.empty()) attributes.emplace_back("style:data-style-name", data_style);
    return add(styles, "style:style", attributes);
}

void add_text(Tree& style, const char* size, bool bold) {
    add(style, "style:text-properties",
        {{"fo:font-family", "'" + std::string(styles::font) + "'"},
         {"fo:font-size", size},
         {"fo:font-weight", bold ? "bold" : "normal"},
         {"fo:color", std::string(styles::ink)}});
}

void text_style(Tree& styles, const std::string& name, const char* size, bool bold) {
    add_text(chart_style(styles, name), size, bold);
}

void axis_title(Tree& axis, const std::string& text) {
    if (text.empty()) return;
    add(add(axis, "chart:title", {{"chart:style-name", "axis-title"}}), "text:p", {}, text);
}

void add_series(Tree& plot, Tree& styles, const std::string& sheet, const Chart& chart, const Series& series,
                int number) {
    using Shape = Series::Shape;
    const styles::Paint& paint = styles::paints.at(static_cast<std::size_t>(series.paint));
    const std::string colour(paint.colour);
    const std::string name = "series" + std::to_string(number);
    const bool bar = is_bar(series);
    Tree& style = chart_style(styles, name);
    if (bar) {
        add(style, "style:chart-properties", {{"chart:symbol-type", "none"}});
        if (series.shape == Shape::hidden) {
            add(style, "style:graphic-properties", {{"draw:stroke", "none"}, {"draw:fill", "none"}});
        } else {
            add(style, "style:graphic-properties",
                {{"draw:stroke", "solid"},
                 {"svg:stroke-color", std::string(styles::ink)},
                 {"svg:stroke-width", "0.02cm"},
                 {"draw:fill", "solid"},
                 {"draw:fill-color", colour}});
        }
    } else {
        add(style, "style:chart-properties",
            {{"chart:symbol-type", "named-symbol"},
             {"chart:symbol-name", std::string(paint.symbol)},
             {"chart:symbol-width", "0.22cm"},
             {"chart:symbol-height", "0.22cm"}});
        add(style, "style:graphic-properties",
            {{"draw:stroke", series.shape == Shape::point ? "none" : "solid"},
             {"svg:stroke-color", colour},
             {"svg:stroke-width", "0.07cm"},
             {"draw:fill-color", colour}});
    }
    Attributes attributes{{"chart:style-name", name},
                          {"chart:values-cell-range-address", range(sheet, series.values)},
                          {"chart:label-cell-address", range(sheet, series.label)},
                          {"chart:class", chart.across == Across::numbers ? "chart:scatter"
                                          : bar                           ? "chart:bar"
                                                                          : "chart:line"}};
    if (series.shape == Shape::hidden) attributes.emplace_back("loext:hide-legend", "true");
    Tree& made = add(plot, "chart:series", attributes);
    if (chart.across == Across::numbers) {
        add(made, "chart:domain", {{"table:cell-range-address", range(sheet, chart.categories)}});
    }
    if (!series.less && !series.more) return;
    Tree& limits = chart_style(styles, name + "-limits");
    Attributes reach{{"chart:error-category", "cell-range"}};
    if (series.less) {
        reach.emplace_back("chart:error-lower-indicator", "true");
        reach.emplace_back("chart:error-lower-range", range(sheet, *series.less));
    }
    if (series.more) {
        reach.emplace_back("chart:error-upper-indicator", "true");
        reach.emplace_back("chart:error-upper-range", range(sheet, *series.more));
    }
    add(limits, "style:chart-properties", reach);
    add(limits, "style:graphic-properties",
        // Said, since Calc would take "none" from a series of points.
        {{"draw:stroke", "solid"}, {"svg:stroke-color", std::string(styles::ink)}, {"svg:stroke-width", "0.05cm"}});
    add(made, "chart:error-indicator", {{"chart:dimension", "y"}, {"chart:style-name", name + "-limits"}});
}

void add_plot(Tree& made, Tree& styles, const std::string& sheet, const Chart& chart) {
    const bool columns = has_bars(chart);
    Attributes plot_kind{{"chart:vertical", chart.sideways ? "true" : "false"},
                         {"chart:stacked", chart.stacked ? "true" : "false"},
                         {"chart:include-hidden-cells", "true"},
                         {"chart:treat-empty-cells", "leave-gap"},
                         {"chart:auto-position", "true"}};
    if (chart.across == Across::numbers) plot_kind.emplace_back("chart:lines", "true");
    add(chart_style(styles, "plot"), "style:chart-properties", plot_kind);
    Tree& plot = add(made, "chart:plot-area", {{"chart:style-name", "plot"}});

    text_style(styles, "axis-title", "8pt", false);
    Tree& across = chart_style(styles, "categories");
    add(across, "style:chart-properties",
        {{"chart:display-label", "true"},
         {"chart:tick-marks-major-outer", "false"},
         {"chart:reverse-direction", chart.sideways ? "true" : "false"},
         {"chart:axis-label-position", "outside-start"},
         {"chart:axis-position", "0"}});
    add(across, "style:graphic-properties", {{"svg:stroke-color", std::string(styles::soft_ink)}});
    add_text(across, "8pt", false);
    Attributes axis{{"chart:dimension", "x"}, {"chart:name", "primary-x"}, {"chart:style-name", "categories"}};
    if (chart.across == Across::dates) axis.emplace_back("chartooo:axis-type", "date");
    Tree& x = add(plot, "chart:axis", axis);
    axis_title(x, chart.category_title);
    if (chart.across == Across::dates) add(x, "chartooo:date-scale", {{"chart:base-time-unit", "days"}});
    if (chart.across != Across::numbers) {
        add(x, "chart:categories", {{"table:cell-range-address", range(sheet, chart.categories)}});
    }

    if (chart.value_format != Format::general) add_number_formats(styles);
    Tree& up = chart_style(styles, "values", format_name(chart.value_format));
    Attributes scale{{"chart:display-label", "true"},
                     {"chart:tick-marks-major-outer", "true"},
                     {"chart:axis-position", chart.sideways ? "end" : "start"},
                     {"chart:axis-label-position", chart.sideways ? "outside-end" : "outside-start"},
                     {"chart:link-data-style-to-source", chart.value_format == Format::general ? "true" : "false"}};
    if (chart.least) scale.emplace_back("chart:minimum", plain_number(*chart.least));
    if (chart.most) scale.emplace_back("chart:maximum", plain_number(*chart.most));
    if (chart.step) scale.emplace_back("chart:interval-major", plain_number(*chart.step));
    if (columns) {
        scale.emplace_back("chart:gap-width", chart.sideways ? "45" : "60");
        scale.emplace_back("chart:overlap", chart.stacked ? "100" : "0");
    }
    add(up, "style:chart-properties", scale);
    add(up, "style:graphic-properties", {{"svg:stroke-color", std::string(styles::soft_ink)}});
    add_text(up, "8pt", false);
    Tree& y = add(plot, "chart:axis",
                  {{"chart:dimension", "y"}, {"chart:name", "primary-y"}, {"chart:style-name", "values"}});
    axis_title(y, chart.value_title);
    add(chart_style(styles, "grid"), "style:graphic-properties",
        {{"svg:stroke-color", "#d5dde1"}, {"svg:stroke-width", "0.02cm"}});
    add(y, "chart:grid", {{"chart:class", "major"}, {"chart:style-name", "grid"}});

    int number = 0;
    for (const Series& series : chart.series) add_series(plot, styles, sheet, chart, series, ++number);
    add(chart_style(styles, "wall"), "style:graphic-properties", {{"draw:stroke", "none"}, {"draw:fill", "none"}});
    add(plot, "chart:wall", {{"chart:style-name", "wall"}});
}

}  // namespace

Chart picture_of(std::string title, const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    Chart chart{.title = std::move(title),
                .description = "",
                .categories = Address(1, 1),
                .category_title = "",
                .value_title = "",
                .series = {},
                .picture = {std::istreambuf_iterator<char>(in), {}}};
    if (chart.picture.empty()) throw std::logic_error("cannot read " + file.string());
    return chart;
}

std::string watched(const Chart& chart, const std::string& sheet) {
    std::string ranges = range(sheet, chart.categories);
    for (const Series& series : chart.series) {
        ranges += " " + range(sheet, series.values) + " " + range(sheet, series.label);
        if (series.less) ranges += " " + range(sheet, *series.less);
        if (series.more) ranges += " " + range(sheet, *series.more);
    }
    return ranges;
}

void add_chart(Tree& object, const Chart& chart, const std::string& sheet, double width_cm, double height_cm) {
    if (chart.across == Across::numbers && has_bars(chart)) {
        throw std::logic_error(chart.title + ": a chart across numbers has no columns, only lines and points");
    }
    Tree& document = add(object, "office:document",
                         {{"office:version", "1.3"}, {"office:mimetype", "application/vnd.oasis.opendocument.chart"}});
    Tree& styles = add(document, "office:automatic-styles");
    Tree& body = add(add(document, "office:body"), "office:chart");
    Tree& made = add(body, "chart:chart",
                     {{"svg:width", cm(width_cm)},
                      {"svg:height", cm(height_cm)},
                      {"chart:class", class_of(chart)},
                      {"chart:style-name", "frame"}});
    add(chart_style(styles, "frame"), "style:graphic-properties",
        {{"draw:stroke", "none"}, {"draw:fill", "solid"}, {"draw:fill-color", "#ffffff"}});

    text_style(styles, "title", "10pt", true);
    add(add(made, "chart:title", {{"chart:style-name", "title"}}), "text:p", {}, chart.title);
    if (chart.legend) {
        Tree& legend = chart_style(styles, "legend");
        add(legend, "style:graphic-properties", {{"draw:stroke", "none"}, {"draw:fill", "none"}});
        add_text(legend, "8pt", false);
        add(made, "chart:legend", {{"chart:legend-position", "bottom"}, {"chart:style-name", "legend"}});
    }
    add_plot(made, styles, sheet, chart);
}

}  // namespace slipbark::compose

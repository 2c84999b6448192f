// The workbook as a flat OpenDocument file.
#include <algorithm>
#include <array>
#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <cstdint>
#include <initializer_list>
#include <numeric>
#include <ranges>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string_view>

#include "catalogue/formula.hpp"
#include "composer/document.hpp"
#include "composer/sheet.hpp"
#include "composer/styles.hpp"
#include "composer/text_collector.hpp"
#include "composer/translate.hpp"
#include "composer/xml.hpp"

namespace slipbark::compose {

namespace {

std::string iso(Date date) {
    const auto two = [](unsigned number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return std::to_string(static_cast<int>(date.year())) + "-" + two(static_cast<unsigned>(date.month())) + "-" +
           two(static_cast<unsigned>(date.day()));
}

bool is_percent(Format format) { return format == Format::percent || format == Format::percent_tenth; }

/// "Table heading" as a style's inner name: "Table_20_heading", as the office itself writes it.
std::string inner_name(std::string_view shown) {
    std::string name;
    for (const char c : shown) {
        name += c == ' ' ? "_20_" : std::string(1, c);
    }
    return name;
}

/// Whether the text of cells of the style that Calc shows by this name stands in one line between filled neighbours.
bool is_one_line(std::string_view shown) {
    constexpr std::array all{Style::label, Style::input, Style::kept, Style::suggested, Style::answer, Style::total};
    return std::ranges::any_of(all, [&](Style style) { return styles::of(style).name == shown; });
}

/// As MIME writes it: three bytes in four letters.
std::string base64(std::string_view bytes) {
    constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string made;
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::size_t taken = std::min<std::size_t>(3, bytes.size() - at);
        std::uint32_t three = 0;
        for (std::size_t k = 0; k < 3; ++k) {
            three = three << 8U | (k < taken ? static_cast<unsigned char>(bytes[at + k]) : 0U);
        }
        for (std::size_t k = 0; k < 4; ++k) made += k <= taken ? letters[three >> (18 - 6 * k) & 63U] : '=';
    }
    return made;
}

std::string style_name(Style style, Format format) {
    std::string name(styles::of(style).name);
    std::replace(name.begin(), name.end(), ' ', '-');
    return format == Format::general ? name : name + "-" + format_name(format);
}

}  // namespace

/// Turns one workbook into one document tree.
class Writer {
  public:
    Writer(const Workbook& book, TextCollector& texts) : book_(book), texts_(texts) {}

    std::string document() {
        Tree whole = look();
        Tree& root = whole.get_child("office:document");
        Tree& meta = root.get_child("office:meta");
        add(meta, "dc:title", {}, book_.title_);
        add(meta, "dc:description", {}, book_.about_);
        add(meta, "meta:user-defined",
            {{"meta:name", std::string(workbooks::workbook_property)}, {"meta:value-type", "string"}}, book_.file_);
        add_settings(root);
        fit_to_language(root.get_child("office:styles"));
        automatic_ = &root.get_child("office:automatic-styles");
        add_master_pages(root.get_child("office:master-styles"));
        Tree& body = add(root.get_child("office:body"), "office:spreadsheet");
        // Names of rows, grafters and batches are looked up as they are written, though they hold a * or a dot.
        add(body, "table:calculation-settings",
            {{"table:use-regular-expressions", "false"}, {"table:use-wildcards", "false"}});
        add_validations(body);
        for (const auto& sheet : book_.sheets_) add_sheet(body, *sheet);
        add_names(body);

        std::ostringstream out;
        boost::property_tree::write_xml(out, whole,
                                        boost::property_tree::xml_writer_make_settings<std::string>(' ', 1));
        return out.str();
    }

  private:
    /// The address of a named range.
    const std::string& address_of(const std::string& name) const {
        for (const auto& [known, address] : book_.names_) {
            if (known == name) return address;
        }
        throw std::logic_error("no range is named \"" + name + "\"");
    }

    /// The zoom in per cent at which the printed columns stand side by side in a window 1366 pixels wide, in steps of
    /// 5; not so small that it is hard to read.
    static int zoom_of(const Sheet& sheet) {
        constexpr double pixels = 1366 - 100;  // left by row numbers, scroll bar and the closed sidebar
        constexpr double pixels_in_cm = 40;  // as the office shows it at 96 dots an inch, a little more than 96 / 2.54
        constexpr int least = 75;
        constexpr int step = 5;
        const auto columns = static_cast<std::size_t>(sheet.printed_ ? sheet.printed_->last.column : 0);
        const auto end = sheet.widths_.begin() + static_cast<std::ptrdiff_t>(std::min(columns, sheet.widths_.size()));
        const double width = std::accumulate(sheet.widths_.begin(), end, 0.0) * pixels_in_cm;
        if (width <= pixels) return 100;
        return std::max(least, step * static_cast<int>(100 * pixels / width / step));
    }

    void add_settings(Tree& root) const {
        Tree& set =
            add(root.get_child("office:settings"), "config:config-item-set", {{"config:name", "ooo:view-settings"}});
        Tree& view =
            add(add(set, "config:config-item-map-indexed", {{"config:name", "Views"}}), "config:config-item-map-entry");
        add(view, "config:config-item", {{"config:name", "ViewId"}, {"config:type", "string"}}, "view1");
        Tree& tables = add(view, "config:config-item-map-named", {{"config:name", "Tables"}});
        const auto item = [](Tree& at, const char* name, const char* type, const std::string& value) {
            add(at, "config:config-item", {{"config:name", name}, {"config:type", type}}, value);
        };
        for (const auto& sheet : book_.sheets_) {
            Tree& entry = add(tables, "config:config-item-map-entry", {{"config:name", sheet->title_}});
            const Address cursor = sheet->cursor_.value_or(sheet->first_input());
            item(entry, "CursorPositionX", "int", std::to_string(cursor.column - 1));
            item(entry, "CursorPositionY", "int", std::to_string(cursor.row - 1));
            if (sheet->frozen_ > 0) {
                const std::string below = std::to_string(sheet->frozen_);
                item(entry, "VerticalSplitMode", "short", "2");
                item(entry, "VerticalSplitPosition", "int", below);
                item(entry, "ActiveSplitRange", "short", "2");
                item(entry, "PositionBottom", "int", below);
            }
            item(entry, "ZoomType", "short", "0");
            item(entry, "ZoomValue", "int", std::to_string(zoom_of(*sheet)));
            item(entry, "ShowGrid", "boolean", "false");
        }
        item(view, "ActiveTable", "string", book_.sheets_.front()->title_);
        item(view, "ShowGrid", "boolean", "false");
    }

    void fit_to_language(Tree& styles) const {
        const std::string tag(texts_.language().tag());
        const auto dash = tag.find('-');
        Tree& standard = styles.get_child("style:default-style.style:text-properties.<xmlattr>");
        standard.put("fo:language", tag.substr(0, dash));
        standard.put("fo:country", dash != std::string::npos ? tag.substr(dash + 1) : tag == "en" ? "GB" : "none");
        if (tag == "en") return;
        // Other languages are longer than English, for which the columns are measured.
        for (auto& style : styles | std::views::values) {
            if (is_one_line(style.get<std::string>("<xmlattr>.style:display-name", ""))) {
                style.put("style:table-cell-properties.<xmlattr>.style:shrink-to-fit", "true");
            }
        }
    }

    void add_master_pages(Tree& masters) const {
        add_master_page(masters, "Wide", "Landscape", true, {});
        add_master_page(masters, "High", "Portrait", false, {});
        for (const auto& sheet : book_.sheets_) {
            if (!sheet->caution_.empty()) {
                add_master_page(masters, page_name(*sheet), sheet->title_, sheet->wide_, sheet->caution_);
            }
        }
    }

    void add_master_page(Tree& masters, const std::string& name, const std::string& shown, bool wide,
                         const std::string& caution) const {
        const auto line = [](Tree& region) -> Tree& {
            return add(add(region, "text:p"), "text:span", {{"text:style-name", "running"}});
        };
        Tree& page = add(masters, "style:master-page",
                         {{"style:name", name},
                          {"style:display-name", shown},
                          {"style:page-layout-name", wide ? "landscape" : "portrait"}});
        Tree& header = add(page, "style:header");
        add(line(add(header, "style:region-left")), "text:title", {}, book_.title_);
        add(line(add(header, "style:region-right")), "text:sheet-name", {}, "?");
        Tree& footer = add(page, "style:footer");
        Tree& left = add(footer, "style:region-left");
        // Below the number of the page, so that it has the whole width. Calc drops lines that are empty, and puts the
        // middle of both sides at one height: as many lines on the right as a long caution has on the left.
        const auto blank_line = [&](Tree& region) { add(line(region), "text:span", {}, "\u00a0"); };
        if (caution.empty()) {
            add(left, "text:p");
        } else {
            blank_line(left);
            add(line(left), "text:span", {}, caution);
        }
        Tree& right = add(footer, "style:region-right");
        Tree& count = line(right);
        // One run of text for each part: the tree keeps no text between elements.
        const std::string pages = texts_.translate(translatable("Page {1} of {2}"), {"{1}", "{2}"});
        const auto number = pages.find("{1}");
        const auto all = pages.find("{2}");
        add(count, "text:span", {}, pages.substr(0, number));
        add(count, "text:page-number", {}, "1");
        add(count, "text:span", {}, pages.substr(number + 3, all - number - 3));
        add(count, "text:page-count", {}, "1");
        if (all + 3 < pages.size()) add(count, "text:span", {}, pages.substr(all + 3));
        for (int below = 0; below < 2 && !caution.empty(); ++below) blank_line(right);
    }

    /// The page style of a sheet: one of its own where it has a caution.
    [[nodiscard]] std::string page_name(const Sheet& sheet) const {
        if (sheet.caution_.empty()) return sheet.wide_ ? "Wide" : "High";
        const auto at = std::find_if(book_.sheets_.begin(), book_.sheets_.end(),
                                     [&](const auto& one) { return one.get() == &sheet; });
        return "Page" + std::to_string(at - book_.sheets_.begin() + 1);
    }

    void add_validations(Tree& body) const {
        if (book_.validations_.empty()) return;
        Tree& all = add(body, "table:content-validations");
        int number = 0;
        for (const Validation& validation : book_.validations_) {
            Tree& one = add(all, "table:content-validation",
                            {{"table:name", "entry" + std::to_string(++number)},
                             {"table:condition", validation.condition},
                             {"table:allow-empty-cell", "true"},
                             {"table:base-cell-address", "$" + quoted_title(book_.sheets_.front()->title_) + ".$A$1"}});
            add(add(one, "table:help-message",
                    {{"table:title", texts_.translate(translatable("To fill in"), {})}, {"table:display", "true"}}),
                "text:p", {}, validation.help.english());
            add(add(one, "table:error-message",
                    {{"table:title", texts_.translate(translatable("Please check"), {})},
                     {"table:message-type", "stop"},
                     {"table:display", "true"}}),
                "text:p", {}, validation.error.english());
        }
    }

    void add_names(Tree& body) const {
        if (book_.names_.empty() && book_.expressions_.empty()) return;
        Tree& all = add(body, "table:named-expressions");
        for (const auto& [name, address] : book_.names_) {
            add(all, "table:named-range",
                {{"table:name", name},
                 {"table:base-cell-address", "$" + quoted_title(book_.sheets_.front()->title_) + ".$A$1"},
                 {"table:cell-range-address", address}});
        }
        for (const auto& [name, formula] : book_.expressions_) {
            add(all, "table:named-expression",
                {{"table:name", name},
                 {"table:base-cell-address", "$" + quoted_title(book_.sheets_.front()->title_) + ".$A$1"},
                 {"table:expression", "of:=" + stored(*book_.sheets_.front(), {1, 1}, formula, Names::kept)}});
        }
    }

    /// The automatic style of this name, made when it is first asked for.
    template <class Make>
    std::string automatic(const std::string& name, Make make) {
        if (made_.insert(name).second) make();
        return name;
    }

    std::string cell_style(Style style, Format format) {
        if (format == Format::general) return inner_name(styles::of(style).name);
        const std::string name = style_name(style, format);
        return automatic(name, [&] {
            add(*automatic_, "style:style",
                {{"style:name", name},
                 {"style:family", "table-cell"},
                 {"style:parent-style-name", inner_name(styles::of(style).name)},
                 {"style:data-style-name", format_name(format)}});
        });
    }

    /// A style of cells that show another text than theirs.
    std::string showing(Style style, const std::string& text) {
        const auto number = std::to_string(shown_.try_emplace(text, shown_.size() + 1).first->second);
        // A format of its own for texts has one for each kind of number beside it: with a text alone it is one of
        // numbers once the office has saved it.
        const std::string format = automatic("shows-" + number, [&] {
            const std::string own = "shows-" + number;
            constexpr std::array conditions{"value()>0", "value()<0", "value()=0"};
            for (std::size_t at = 0; at < conditions.size(); ++at) {
                Tree& of_numbers = add(*automatic_, "number:number-style",
                                       {{"style:name", own + "P" + std::to_string(at)}, {"style:volatile", "true"}});
                if (at == 1) add(of_numbers, "number:text", {}, "-");
                add(of_numbers, "number:number", {{"number:min-integer-digits", "1"}});
            }
            Tree& of_texts = add(*automatic_, "number:text-style", {{"style:name", own}});
            add(of_texts, "number:text", {}, text);
            for (std::size_t at = 0; at < conditions.size(); ++at) {
                add(of_texts, "style:map",
                    {{"style:condition", conditions.at(at)},
                     {"style:apply-style-name", own + "P" + std::to_string(at)}});
            }
        });
        const std::string name = style_name(style, Format::general) + "-" + format;
        return automatic(name, [&] {
            add(*automatic_, "style:style",
                {{"style:name", name},
                 {"style:family", "table-cell"},
                 {"style:parent-style-name", inner_name(styles::of(style).name)},
                 {"style:data-style-name", format}});
        });
    }

    std::string column_style(double width) {
        const std::string name = "column-" + plain_number(width);
        return automatic(name, [&] {
            add(add(*automatic_, "style:style", {{"style:name", name}, {"style:family", "table-column"}}),
                "style:table-column-properties", {{"style:column-width", cm(width)}});
        });
    }

    /// height 0: as high as the text needs.
    std::string row_style(double height, bool breaks) {
        const std::string name =
            "row" + (height > 0 ? "-" + plain_number(height) : std::string()) + (breaks ? "-break" : "");
        return automatic(name, [&] {
            Attributes properties{{"style:row-height", cm(height > 0 ? height : 0.55)},
                                  {"style:use-optimal-row-height", height > 0 ? "false" : "true"}};
            if (breaks) properties.emplace_back("fo:break-before", "page");
            add(add(*automatic_, "style:style", {{"style:name", name}, {"style:family", "table-row"}}),
                "style:table-row-properties", properties);
        });
    }

    std::string table_style(const Sheet& sheet) {
        const std::string page = page_name(sheet);
        std::string name = "table-" + page;
        if (sheet.caution_.empty()) name = sheet.wide_ ? "table-wide" : "table-high";
        return automatic(name, [&] {
            add(add(*automatic_, "style:style",
                    {{"style:name", name}, {"style:family", "table"}, {"style:master-page-name", page}}),
                "style:table-properties", {{"table:display", "true"}});
        });
    }

    static std::string address(const Sheet& sheet, const Area& area) {
        const std::string title = quoted_title(sheet.title_) + ".";
        return title + area.first.text() + ":" + title + area.last.text();
    }

    void add_sheet(Tree& body, const Sheet& sheet) {
        Attributes attributes{{"table:name", sheet.title_}, {"table:style-name", table_style(sheet)}};
        if (sheet.printed_) {
            attributes.emplace_back("table:print-ranges", address(sheet, *sheet.printed_));
        }
        if (!sheet.prints_) attributes.emplace_back("table:print", "false");
        Tree& table = add(body, "table:table", attributes);
        for (const double width : sheet.widths_)
            add(table, "table:table-column", {{"table:style-name", column_style(width)}});

        int last = 1;
        if (!sheet.cells_.empty()) last = sheet.cells_.rbegin()->first.first;
        covered_.clear();
        Tree* rows = &table;
        std::vector<Tree*> outside;  // what holds the folds that are open, from the outermost
        for (int row = 1; row <= last; ++row) {
            if (sheet.repeated_ > 0 && row == 1) rows = &add(table, "table:table-header-rows");
            if (row == sheet.repeated_ + 1) rows = &table;
            for (const auto& fold : sheet.folds_) {
                if (fold.first != row) continue;
                outside.push_back(rows);
                rows = &add(*rows, "table:table-row-group", {{"table:display", "false"}});
            }
            add_row(*rows, sheet, row, !outside.empty());
            for (const auto& fold : sheet.folds_) {
                if (fold.second != row) continue;
                rows = outside.back();
                outside.pop_back();
            }
        }
        auto marks = sheet.marks_;
        // What was typed over a suggestion is the user's own.
        for (const Area& area : sheet.suggestions()) {
            marks.push_back({area, "NOT(ISFORMULA(" + area.first.text() + "))", Style::input});
        }
        if (!marks.empty()) {
            Tree& formats = add(table, "calcext:conditional-formats");
            for (const auto& mark : marks) add_mark(formats, sheet, mark);
        }
    }

    void add_mark(Tree& formats, const Sheet& sheet, const Sheet::Mark& mark) const {
        Tree& format =
            add(formats, "calcext:conditional-format", {{"calcext:target-range-address", address(sheet, mark.area)}});
        add(format, "calcext:condition",
            {{"calcext:apply-style-name", std::string(styles::of(mark.style).name)},
             {"calcext:value", "formula-is(" + stored(sheet, mark.area.first, mark.formula, Names::resolved) + ")"},
             {"calcext:base-cell-address", quoted_title(sheet.title_) + "." + mark.area.first.text()}});
    }

    /// The office reads conditions before it reads the names, so a condition holds addresses in their place.
    enum class Names { kept, resolved };

    std::string stored(const Sheet& sheet, Address place, const std::string& formula, Names names) const {
        try {
            return catalogue::stored_formula(formula, [&](const std::string& name) {
                if (names == Names::kept && book_.expressions_.contains(name)) return name;
                const std::string& address = address_of(name);
                if (names == Names::kept) return name;
                return "[" + address + "]";
            });
        } catch (const std::logic_error& error) {
            throw std::logic_error(sheet.title_ + "." + place.text() + ": " + error.what());
        }
    }

    void add_row(Tree& rows, const Sheet& sheet, int row, bool folded) {
        const auto height = sheet.heights_.find(row);
        const bool breaks = std::find(sheet.breaks_.begin(), sheet.breaks_.end(), row) != sheet.breaks_.end();
        Attributes attributes{
            {"table:style-name", row_style(height == sheet.heights_.end() ? 0 : height->second, breaks)}};
        if (folded) attributes.emplace_back("table:visibility", "collapse");
        Tree& made = add(rows, "table:table-row", attributes);
        int column = 1;
        const auto blank_up_to = [&](int next) {
            if (next <= column) return;
            Attributes repeated;
            if (next - column > 1) repeated = {{"table:number-columns-repeated", std::to_string(next - column)}};
            add(made, "table:table-cell", repeated);
        };
        for (auto at = sheet.cells_.lower_bound({row, 0}); at != sheet.cells_.end() && at->first.first == row; ++at) {
            blank_up_to(at->first.second);
            add_cell(made, sheet, {at->first.second, row}, at->second);
            column = at->first.second + 1;
        }
        if (column == 1) add(made, "table:table-cell");
    }

    void add_cell(Tree& row, const Sheet& sheet, Address place, const Sheet::Cell& cell) {
        const bool covered = covered_.contains({place.row, place.column});
        Attributes attributes{{"table:style-name", cell.shown.empty() ? cell_style(cell.style, cell.format)
                                                                      : showing(cell.style, cell.shown)}};
        if (cell.validation >= 0) {
            attributes.emplace_back("table:content-validation-name", "entry" + std::to_string(cell.validation + 1));
        }
        if (cell.columns > 1 || cell.rows > 1) {
            const int last = place.column + cell.columns - 1;
            if (sheet.printed_ && place.column <= sheet.printed_->last.column && last > sheet.printed_->last.column) {
                throw std::logic_error(sheet.title_ + "." + place.text() +
                                       " reaches past the printed columns, which cut it");
            }
            attributes.emplace_back("table:number-columns-spanned", std::to_string(cell.columns));
            attributes.emplace_back("table:number-rows-spanned", std::to_string(cell.rows));
            for (int down = 0; down < cell.rows; ++down) {
                for (int right = 0; right < cell.columns; ++right) {
                    if (down + right > 0) covered_.insert({place.row + down, place.column + right});
                }
            }
        }
        std::vector<std::string> lines;
        if (const auto* number = std::get_if<double>(&cell.content)) {
            attributes.emplace_back("office:value-type", is_percent(cell.format) ? "percentage" : "float");
            attributes.emplace_back("office:value", plain_number(*number));
        } else if (const auto* date = std::get_if<Date>(&cell.content)) {
            attributes.emplace_back("office:value-type", "date");
            attributes.emplace_back("office:date-value", iso(*date));
        } else if (const auto* phrase = std::get_if<Phrase>(&cell.content)) {
            const std::string* const text = &phrase->english();
            if (text->starts_with('=')) {
                if (place.row <= sheet.repeated_) {
                    throw std::logic_error(sheet.title_ + "." + place.text() + " is a formula in the repeated rows");
                }
                attributes.emplace_back("table:formula", "of:=" + stored(sheet, place, *text, Names::kept));
                if (cell.array) {
                    const Area& area = *cell.array;
                    attributes.emplace_back("table:number-matrix-columns-spanned",
                                            std::to_string(area.last.column - area.first.column + 1));
                    attributes.emplace_back("table:number-matrix-rows-spanned",
                                            std::to_string(area.last.row - area.first.row + 1));
                }
            } else if (!text->empty()) {
                attributes.emplace_back("office:value-type", "string");
                std::istringstream whole(*text);
                for (std::string line; std::getline(whole, line);) lines.push_back(line);
            }
        }
        Tree& made = add(row, covered ? "table:covered-table-cell" : "table:table-cell", attributes);
        for (const std::string& line : lines) add(made, "text:p", {}, line);
        const auto chart = sheet.charts_.find({place.row, place.column});
        if (chart != sheet.charts_.end()) add_frame(made, sheet, chart->second);
    }

    void add_frame(Tree& cell, const Sheet& sheet, const Sheet::Placed& placed) {
        const Chart& chart = placed.chart;
        Tree& frame = add(cell, "draw:frame",
                          {{"draw:z-index", std::to_string(charts_)},
                           {"draw:style-name", "chart-frame"},
                           {"draw:name", "Chart " + std::to_string(charts_ + 1)},
                           {"svg:width", cm(placed.width)},
                           {"svg:height", cm(placed.height)},
                           {"svg:x", "0cm"},
                           {"svg:y", "0.1cm"}});
        ++charts_;
        automatic("chart-frame", [&] {
            add(add(*automatic_, "style:style", {{"style:name", "chart-frame"}, {"style:family", "graphic"}}),
                "style:graphic-properties", {{"draw:stroke", "none"}, {"draw:fill", "none"}});
        });
        const bool pictured = !chart.picture.empty();
        Tree* object = nullptr;
        if (pictured) {
            add(add(frame, "draw:image", {}), "office:binary-data", {}, base64(chart.picture));
        } else {
            object = &add(frame, "draw:object",
                          {{"draw:notify-on-update-of-ranges", watched(chart, quoted_title(sheet.title_))}});
        }
        add(frame, "svg:title", {}, chart.title);
        add(frame, "svg:desc", {}, chart.description);
        if (!pictured) compose::add_chart(*object, chart, quoted_title(sheet.title_), placed.width, placed.height);
    }

    const Workbook& book_;
    TextCollector& texts_;
    Tree* automatic_ = nullptr;
    std::set<std::string> made_;
    std::map<std::string, std::size_t> shown_;
    std::set<std::pair<int, int>> covered_;
    int charts_ = 0;
};

std::string Workbook::write() const {
    TextCollector english{catalogue::Language()};
    return Writer(*this, english).document();
}

std::string Workbook::write(TextCollector& texts) const {
    Workbook other(file_, title_, about_);
    other.names_ = names_;
    other.validations_ = validations_;
    other.expressions_ = expressions_;
    other.keeps_keywords_ = keeps_keywords_;
    for (const auto& sheet : sheets_) {
        other.sheets_.push_back(std::make_unique<Sheet>(*sheet));
        other.sheets_.back()->book_ = &other;
    }
    translate(other, texts);
    return Writer(other, texts).document();
}

}  // namespace slipbark::compose

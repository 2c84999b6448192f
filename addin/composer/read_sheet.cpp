#include "composer/read_sheet.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <memory>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

#include "composer/content.hpp"
#include "composer/entry_words.hpp"
#include "composer/fill.hpp"
#include "composer/styles.hpp"

namespace slipbark::compose {

namespace {

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

// --- {name} and repeat

/// Each {name} with its field; an inline array such as {1|2} and a place such as {1:count} are none.
std::string with_fields(const std::string& text, const Fields& fields) {
    std::string made;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const auto end = text[at] == '{' ? text.find_first_not_of("abcdefghijklmnopqrstuvwxyz_", at + 1) : at;
        if (text[at] != '{' || end == std::string::npos || end == at + 1 || text[end] != '}') {
            made += text[at];
            continue;
        }
        const std::string name = text.substr(at + 1, end - at - 1);
        const auto field = fields.find(name);
        if (field == fields.end()) throw std::logic_error("no field is called {" + name + "}");
        made += field->second;
        at = end;
    }
    return made;
}

TextLine with_fields(const std::filesystem::path& file, const TextLine& line, const Fields& fields) {
    TextLine made = line;
    try {
        for (std::string& field : made.fields) field = with_fields(field, fields);
    } catch (const std::logic_error& error) {
        throw TextError(file, line.number, line.field(0), error.what());
    }
    return made;
}

using Lines = std::vector<TextLine>;

/// repeat NAMES, records, "lines", lines, "end": the lines once for each record.
std::vector<TextLine> written_out(const std::filesystem::path& file, const Lines& lines, const Fields& fields) {
    std::vector<TextLine> made;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        const TextLine& head = lines[at];
        if (head.field(0) != "repeat") {
            made.push_back(with_fields(file, head, fields));
            continue;
        }
        const auto up_to = [&](std::size_t from, const char* word) {
            for (std::size_t to = from; to < lines.size(); ++to) {
                if (lines[to].field(0) == word) return to;
                if (lines[to].field(0) == "repeat") break;
            }
            throw TextError(file, head.number, "", std::string("repeat without its ") + word);
        };
        const std::size_t begin = up_to(at + 1, "lines");
        const std::size_t end = up_to(begin + 1, "end");
        for (std::size_t record = at + 1; record < begin; ++record) {
            if (lines[record].fields.size() > head.fields.size() - 1) {
                throw TextError(file, lines[record].number, "", "more fields than the names of its repeat");
            }
            Fields all = fields;
            for (std::size_t name = 1; name < head.fields.size(); ++name) {
                all.insert_or_assign(head.field(name), lines[record].field(name - 1));
            }
            for (std::size_t line = begin + 1; line < end; ++line) {
                made.push_back(with_fields(file, lines[line], all));
            }
        }
        at = end;
    }
    return made;
}

// --- what a line of cells says

/// The fields of a line by the names of their columns.
struct CellLine {
    int number = 0;
    std::string where;
    std::string content;
    std::string look;
    std::string entry;
    std::string name;
    std::string label;
    std::string unit;
    std::string check;
    std::string help;
};

struct LineColumn {
    std::string_view name;
    std::string CellLine::*field;
};
constexpr auto line_columns = std::to_array<LineColumn>({{"where", &CellLine::where},
                                                         {"content", &CellLine::content},
                                                         {"look", &CellLine::look},
                                                         {"entry", &CellLine::entry},
                                                         {"name", &CellLine::name},
                                                         {"label", &CellLine::label},
                                                         {"unit", &CellLine::unit},
                                                         {"check", &CellLine::check},
                                                         {"help", &CellLine::help}});

using Columns = std::vector<std::string CellLine::*>;

Columns columns_of(const TextLine& line) {
    Columns made;
    for (const std::string& name : line.fields) {
        const auto* const found = std::ranges::find(line_columns, name, &LineColumn::name);
        if (found == line_columns.end()) throw std::logic_error("no column is called " + quoted(name));
        if (std::ranges::find(made, found->field) != made.end()) {
            throw std::logic_error("two columns are called " + quoted(name));
        }
        made.push_back(found->field);
    }
    return made;
}

CellLine cell_line(const Columns& columns, const TextLine& line) {
    CellLine made;
    made.number = line.number;
    if (line.fields.size() > columns.size()) {
        throw std::logic_error("has " + std::to_string(line.fields.size()) + " fields, but only " +
                               std::to_string(columns.size()) + " columns are named");
    }
    for (std::size_t at = 0; at < line.fields.size(); ++at) made.*columns[at] = line.fields[at];
    return made;
}

/// "input tenth merged"
struct Look {
    Style style = Style::plain;
    std::vector<Format> formats;  ///< one for each column, the last for the rest
    bool merged = false;          ///< the whole area is one cell
    bool merged_lines = false;    ///< each line of the area is one cell
    bool verbatim = false;        ///< a text as it stands, also where it reads as a number; not translated
    bool unmarked = false;        ///< a check that is not framed where it says something
};

Content content_of(const std::string& text, const Look& look, int column) {
    const auto format = look.formats[std::min(static_cast<std::size_t>(column), look.formats.size() - 1)];
    return read_content(text, look.verbatim ? Format::text : format);
}

Look look_of(const std::vector<std::string>& words) {
    Look made;
    bool styled = false;
    for (const std::string& word : words) {
        if (const auto style = styled ? std::nullopt : read_style(word)) {
            made.style = *style;
            styled = true;
        } else if (const auto format = read_format(word)) {
            made.formats.push_back(*format);
        } else if (word == "merged") {
            made.merged = true;
        } else if (word == "merged-lines") {
            made.merged_lines = true;
        } else if (word == "verbatim") {
            made.verbatim = true;
        } else if (word == "unmarked") {
            made.unmarked = true;
        } else {
            throw std::logic_error("no style or format is called " + quoted(word));
        }
    }
    if (!styled) throw std::logic_error("the look begins with a style");
    if (made.formats.empty()) made.formats.push_back(Format::general);
    return made;
}

int columns_of(const Area& area) { return area.last.column - area.first.column + 1; }
int rows_of(const Area& area) { return area.last.row - area.first.row + 1; }

/// The columns of a form: label, value, unit and, where there is one, check.
struct FormColumns {
    std::vector<std::pair<int, int>> parts;  ///< the first and the last column of each

    [[nodiscard]] int width(std::size_t part) const { return parts[part].second - parts[part].first + 1; }
};

FormColumns form_of(const std::string& text) {
    FormColumns made;
    for (const std::string& word : words_of(text)) {
        const auto colon = word.find(':');
        const int first = Address(word.substr(0, colon), 1).column;
        const int last = colon == std::string::npos ? first : Address(word.substr(colon + 1), 1).column;
        if (last < first || (!made.parts.empty() && first <= made.parts.back().second)) {
            throw std::logic_error("the columns of a form stand in their order");
        }
        made.parts.emplace_back(first, last);
    }
    if (made.parts.size() != 3 && made.parts.size() != 4) {
        throw std::logic_error(
            "a form has columns for label, value, unit and, where there is one, check: form B C D E");
    }
    return made;
}

int whole_number(const std::string& text) {
    const auto number = read_number(text);
    if (!number || *number != static_cast<int>(*number)) throw std::logic_error("a whole number, not " + quoted(text));
    return static_cast<int>(*number);
}

double any_number(const std::string& text) {
    const auto number = read_number(text);
    if (!number) throw std::logic_error("a number, not " + quoted(text));
    return *number;
}

/// Charts and their series are painted by the names of the look's paints.
int paint_of(const std::string& word) {
    constexpr std::array<std::string_view, 5> names{"blue", "ochre", "pale", "orange", "grey"};
    const auto* const found = std::ranges::find(names, word);
    if (found == names.end()) throw std::logic_error("a paint: blue, ochre, pale, orange or grey, not " + quoted(word));
    return static_cast<int>(found - names.begin());
}

Series::Shape shape_of(const std::string& word) {
    using Shape = Series::Shape;
    constexpr std::array<std::pair<std::string_view, Shape>, 4> shapes{
        {{"column", Shape::column}, {"line", Shape::line}, {"point", Shape::point}, {"hidden", Shape::hidden}}};
    const auto* const found = std::ranges::find(shapes, word, &std::pair<std::string_view, Shape>::first);
    if (found == shapes.end()) throw std::logic_error("a shape: column, line, point or hidden, not " + quoted(word));
    return found->second;
}

class SheetFiller {
  public:
    SheetFiller(std::filesystem::path file, Sheet& sheet, std::vector<TypedFormula>& formulas)
        : file_(std::move(file)), sheet_(sheet), formulas_(formulas) {}

    void own_line(const TextLine& line) {
        const std::string& keyword = line.field(0);
        const std::string text = line.rest(1);
        const auto words = words_of(text);
        const auto needs = [&](std::size_t count, const char* right) {
            if (words.size() != count) throw std::logic_error(std::string("right would be: ") + right);
        };
        if (keyword == "paper") {
            // Read before the sheet was made.
        } else if (keyword == "widths") {
            std::vector<double> widths;
            for (const std::string& word : words) widths.push_back(any_number(word));
            sheet_.columns(std::move(widths));
        } else if (keyword == "height") {
            needs(2, "height ROW CM, or height FIRST:LAST CM");
            const auto colon = words[0].find(':');
            const int first = whole_number(words[0].substr(0, colon));
            const int last = colon == std::string::npos ? first : whole_number(words[0].substr(colon + 1));
            for (int row = first; row <= last; ++row) heights_.emplace_back(row, any_number(words[1]));
        } else if (keyword == "print") {
            needs(1, "print A1:H155, or print nothing");
            if (words[0] == "nothing") {
                sheet_.print_nothing();
            } else {
                sheet_.print_area(Area(words[0]));
            }
        } else if (keyword == "freeze") {
            needs(1, "freeze ROW");
            sheet_.freeze(whole_number(words[0]));
        } else if (keyword == "heads") {
            needs(1, "heads ROW");
            sheet_.repeat(whole_number(words[0]));
        } else if (keyword == "caution") {
            sheet_.caution(text);
        } else if (keyword == "cursor") {
            needs(1, "cursor C6");
            sheet_.cursor(Address(words[0]));
        } else if (keyword == "fold") {
            needs(2, "fold FIRST LAST");
            sheet_.fold(whole_number(words[0]), whole_number(words[1]));
        } else if (keyword == "break") {
            for (const std::string& word : words) sheet_.page_break(whole_number(word));
        } else if (keyword == "form") {
            // A form further down takes the place of one with its values in the same column.
            forms_.insert(forms_.begin(), form_of(text));
        } else if (keyword == "unfit") {
            needs(1, "unfit COLUMN");
            unfit_column_ = Address(words[0], 1).column;
        } else if (keyword == "define") {
            if (words.size() < 2) throw std::logic_error("right would be: define NAME =FORMULA");
            const std::string formula = text.substr(text.find(words[1], text.find(words[0]) + words[0].size()));
            if (!formula.starts_with('=')) throw std::logic_error("right would be: define NAME =FORMULA");
            note_formula(line.number, words[0], formula);
            sheet_.define(words[0], formula);
        } else {
            throw std::logic_error("unknown word " + keyword);
        }
    }

    void line(const CellLine& one) {
        const auto words = words_of(one.look);
        const std::string kind = words.empty() ? "" : words[0];
        if (chart_ && chart_line(one, words)) return;
        end_chart();
        if (kind == "mark") {
            mark(one, words);
        } else if (kind == "chart") {
            begin_chart(one, words);
        } else if (kind == "picture") {
            picture(one, words);
        } else if (words.empty()) {
            add_to(one);
        } else {
            cells(one, look_of(words));
        }
    }

    void end() {
        end_chart();
        put_unfit();
        for (const int row : titles_) sheet_.row_height(row, styles::title_height);
        for (const auto& [row, height] : heights_) sheet_.row_height(row, height);
    }

  private:
    void note_formula(int line, const std::string& cell, const std::string& formula) {
        formulas_.push_back({file_, line, cell, formula});
    }

    Sheet::CellHandle put(Address place, Content content, const Look& look, int column) {
        const auto format = std::min(static_cast<std::size_t>(column), look.formats.size() - 1);
        auto cell = sheet_.put(place, std::move(content), look.style, look.formats[format]);
        if (look.verbatim) cell.as_it_is();
        return cell;
    }

    /// What a line puts into the cell so many columns right of and rows below its first one.
    using Contents = std::function<Content(int column, int row)>;

    Contents contents_of(const CellLine& one, const Area& area, const Look& look) {
        const std::string& text = one.content;
        const int columns = columns_of(area);
        const int rows = rows_of(area);
        if (text.starts_with("< ")) return data_of(one, area, look);
        if (text.starts_with('=')) {
            note_formula(one.number, area.first.text(), text);
            return [text](int column, int row) { return Content(shifted(text, column, row)); };
        }
        const bool one_cell = look.merged || (columns == 1 && rows == 1);
        const auto parts = one_cell || look.merged_lines ? std::vector<std::string>{} : bar_list(text);
        if (parts.size() > 1) {
            if (std::min(columns, rows) != 1 || parts.size() != static_cast<std::size_t>(std::max(columns, rows))) {
                throw std::logic_error(std::to_string(parts.size()) + " texts for " + std::to_string(columns) + " x " +
                                       std::to_string(rows) + " cells");
            }
            return [parts, look](int column, int row) {
                return content_of(parts[static_cast<std::size_t>(column + row)], look, column);
            };
        }
        if (look.style == Style::section) {
            return [text](int column, int row) { return column + row == 0 ? Content(text) : Content(std::string()); };
        }
        return [text, look](int column, int) { return content_of(text, look, column); };
    }

    Contents data_of(const CellLine& one, const Area& area, const Look& look) {
        const auto words = words_of(one.content.substr(2));
        if (words.size() != static_cast<std::size_t>(look.merged_lines ? 1 : columns_of(area)) + 1) {
            throw std::logic_error("data are taken as < FILE COLUMN, with a column of it for each column of cells");
        }
        const auto file = (file_.parent_path() / words[0]).lexically_normal();
        auto& known = data_[file.generic_string()];
        if (!known) known = std::make_shared<const Data>(read_data(file));
        if (known->lines.size() > static_cast<std::size_t>(rows_of(area))) {
            throw std::logic_error(words[0] + " has " + std::to_string(known->lines.size()) +
                                   " lines, which do not fit");
        }
        std::vector<std::size_t> columns;
        for (std::size_t at = 1; at < words.size(); ++at) {
            const auto found = std::ranges::find(known->columns, words[at]);
            if (found == known->columns.end()) throw std::logic_error(words[0] + " has no column " + words[at]);
            columns.push_back(static_cast<std::size_t>(found - known->columns.begin()));
        }
        return [data = known, columns, look](int column, int row) {
            const auto at = static_cast<std::size_t>(row);
            if (at >= data->lines.size()) return Content{};
            return content_of(data->lines[at].field(columns[static_cast<std::size_t>(column)]), look, column);
        };
    }

    void cells(const CellLine& one, const Look& look) {
        const Area area(one.where);
        if (!one.label.empty() || !one.unit.empty() || !one.check.empty()) {
            form_line(one, area, look);
            return;
        }
        if (one.content.starts_with("{=")) {
            if (!one.content.ends_with('}')) throw std::logic_error("an array formula ends in }");
            const std::string formula = one.content.substr(1, one.content.size() - 2);
            note_formula(one.number, area.first.text(), formula);
            sheet_.array(area, formula, look.style, look.formats);
        } else if (look.merged) {
            put(area.first, contents_of(one, area, look)(0, 0), look, 0).across(columns_of(area), rows_of(area));
        } else {
            const Contents contents = contents_of(one, area, look);
            for (int row = 0; row < rows_of(area); ++row) {
                for (int column = 0; column < (look.merged_lines ? 1 : columns_of(area)); ++column) {
                    const Address place(area.first.column + column, area.first.row + row);
                    auto cell = put(place, contents(column, row), look, column);
                    if (look.merged_lines) cell.across(columns_of(area));
                }
            }
        }
        if (look.style == Style::title) titles_.push_back(area.first.row);
        if (area.first.column <= unfit_column_ && unfit_column_ <= area.last.column) {
            for (int row = area.first.row; row <= area.last.row; ++row) own_unfit_.insert(row);
        }
        const Address last = look.merged         ? area.first
                             : look.merged_lines ? Address(area.first.column, area.last.row)
                                                 : area.last;
        const Area filled(area.first, last);
        rest(one, filled);
        if (look.style == Style::check && !look.unmarked) styles::mark_unfit(sheet_, filled);
    }

    /// Entry and name of cells that are there.
    void rest(const CellLine& one, const Area& area) {
        if (!one.entry.empty()) {
            const auto end_at = [&](const std::string& word) { return sheet_.entry_end(word, area.first.row); };
            sheet_.valid(area, read_entry(one.entry, one.help, end_at));
        } else if (!one.help.empty()) {
            throw std::logic_error("help goes with an entry");
        }
        for (const std::string& name : words_of(one.name)) sheet_.name(name, area);
    }

    /// A line without a look adds an entry or a name to cells that stand elsewhere.
    void add_to(const CellLine& one) {
        if (!one.content.empty()) throw std::logic_error("a content wants a look");
        if (one.entry.empty() && one.name.empty()) throw std::logic_error("the line says nothing");
        rest(one, Area(one.where));
    }

    void form_line(const CellLine& one, const Area& area, const Look& look) {
        const auto form = std::ranges::find_if(
            forms_, [&](const FormColumns& columns) { return columns.parts[1].first == area.first.column; });
        if (form == forms_.end()) {
            throw std::logic_error("no form of this sheet has its values in this column: form LABEL VALUE UNIT CHECK");
        }
        for (int row = area.first.row; row <= area.last.row; ++row) {
            const Address place(area.first.column, row);
            const int down = row - area.first.row;
            const auto part = [&](std::size_t which, const std::string& text, Style style) {
                const Content content = text.starts_with('=') ? shifted(text, 0, down) : text;
                auto cell = sheet_.put(Address(form->parts[which].first, row), content, style);
                if (form->width(which) > 1) cell.across(form->width(which));
            };
            part(0, one.label, Style::label);
            auto value = put(place, contents_of(one, Area(place), look)(0, down), look, 0);
            if (form->width(1) > 1) value.across(form->width(1));
            rest(one, place);
            if (unfit_column_ > 0 && !one.entry.empty()) {
                entries_.push_back({one.number, one.entry, Address(form->parts[0].first, row), place});
            }
            part(2, one.unit, Style::unit);
            for (const std::string& text : {one.label, one.unit}) {
                if (text.starts_with('=')) note_formula(one.number, place.text(), text);
            }
            const std::string check = check_of(one, *form, look);
            if (check.empty()) continue;
            if (form->parts.size() < 4) throw std::logic_error("the form has no column for its check");
            note_formula(one.number, place.text(), check);
            part(3, check, Style::check);
            styles::mark_unfit(sheet_, Address(form->parts[3].first, row));
        }
    }

    /// Beside each entry of a form, in the column that the sheet gives, what does not fit; a rule of the author's own
    /// in that cell takes its place. An entry that does not fit is framed.
    void put_unfit() {
        for (const FormEntry& entry : entries_) {
            const Address place(unfit_column_, entry.value.row);
            if (!own_unfit_.contains(place.row)) {
                const auto kind = kind_of(entry.words);
                if (!kind) continue;
                const std::string formula =
                    "=REWORK.UNFIT(" + entry.label.text() + ";" + entry.value.text() + ";" + *kind + ")";
                note_formula(entry.line, place.text(), formula);
                sheet_.put(place, formula, Style::workings);
            }
            sheet_.mark(entry.value, "LEN($" + place.text() + ")>0", Style::unfit);
        }
    }

    static std::string check_of(const CellLine& one, const FormColumns& form, const Look& look) {
        if (one.check == "-") return {};
        if (!one.check.empty()) return one.check;
        const bool answers = look.style == Style::answer || look.style == Style::total;
        return answers && form.parts.size() == 4 ? why(one.content) : "";
    }

    void mark(const CellLine& one, const std::vector<std::string>& words) {
        const auto style = words.size() == 2 ? read_style(words[1]) : std::nullopt;
        if (!style) throw std::logic_error("right would be: mark STYLE");
        if (!one.content.starts_with('=')) throw std::logic_error("a mark's content is its condition, a formula");
        const Area area(one.where);
        note_formula(one.number, area.first.text(), one.content);
        sheet_.mark(area, one.content.substr(1), *style);
    }

    struct FormEntry {
        int line;  ///< of the text
        std::string words;
        Address label;
        Address value;
    };

    struct PlacedChart {
        Address place;
        double width;
        double height;
        Chart chart;
    };

    void begin_chart(const CellLine& one, const std::vector<std::string>& words) {
        if (words.size() < 3) throw std::logic_error("right would be: chart WIDTH HEIGHT");
        chart_ = PlacedChart{Address(one.where),
                             any_number(words[1]),
                             any_number(words[2]),
                             {.title = one.content,
                              .description = "",
                              .categories = Address(1, 1),
                              .category_title = "",
                              .value_title = "",
                              .value_format = Format::general,
                              .series = {}}};
        for (std::size_t at = 3; at < words.size(); ++at) {
            if (words[at] == "stacked") {
                chart_->chart.stacked = true;
            } else if (words[at] == "sideways") {
                chart_->chart.sideways = true;
            } else if (words[at] == "no-legend") {
                chart_->chart.legend = false;
            } else {
                throw std::logic_error("a chart can be stacked, sideways, no-legend, not " + quoted(words[at]));
            }
        }
    }

    /// A picture is placed as a chart is, with its title and description.
    void picture(const CellLine& one, const std::vector<std::string>& words) {
        if (words.size() != 4) throw std::logic_error("write: picture WIDTH HEIGHT FILE");
        begin_chart(one, {words[0], words[1], words[2]});
        chart_->chart = picture_of(one.content, file_.parent_path() / words[3]);
    }

    /// Whether the line belongs to the chart before it.
    bool chart_line(const CellLine& one, const std::vector<std::string>& words) {
        Chart& chart = chart_->chart;
        const std::string kind = words.empty() ? "" : words[0];
        if (kind == "description") {
            chart.description = one.content;
        } else if (kind == "categories") {
            chart.categories = Area(one.where);
            chart.category_title = one.content;
            if (words.size() > 1 && words[1] != "dates" && words[1] != "numbers") {
                throw std::logic_error("categories can be dates or numbers, not " + quoted(words[1]));
            }
            if (words.size() > 1) chart.across = words[1] == "dates" ? Across::dates : Across::numbers;
        } else if (kind == "values") {
            chart.value_title = one.content;
            value_axis(chart, words);
        } else if (kind == "series") {
            if (words.size() != 4) throw std::logic_error("right would be: series SHAPE PAINT LABEL");
            chart.series.push_back({.values = Area(one.where),
                                    .label = Address(words[3]),
                                    .shape = shape_of(words[1]),
                                    .paint = paint_of(words[2])});
        } else if (kind == "less" || kind == "more") {
            if (chart.series.empty()) throw std::logic_error("error bars come after their series");
            (kind == "less" ? chart.series.back().less : chart.series.back().more) = Area(one.where);
        } else {
            return false;
        }
        return true;
    }

    /// values FORMAT least 0 most 1 step 0.2
    static void value_axis(Chart& chart, const std::vector<std::string>& words) {
        for (std::size_t at = 1; at < words.size(); ++at) {
            if (const auto format = read_format(words[at])) {
                chart.value_format = *format;
                continue;
            }
            const std::string& word = words[at];
            if (at + 1 == words.size()) throw std::logic_error(quoted(word) + " wants a number");
            const double number = any_number(words[++at]);
            if (word == "least") {
                chart.least = number;
            } else if (word == "most") {
                chart.most = number;
            } else if (word == "step") {
                chart.step = number;
            } else {
                throw std::logic_error("values have a format, least, most and step, not " + quoted(word));
            }
        }
    }

    void end_chart() {
        if (!chart_) return;
        if (chart_->chart.series.empty() && chart_->chart.picture.empty())
            throw std::logic_error("a chart without a series");
        sheet_.chart(chart_->place, chart_->width, chart_->height, std::move(chart_->chart));
        chart_.reset();
    }

    std::filesystem::path file_;
    Sheet& sheet_;
    std::vector<TypedFormula>& formulas_;
    std::vector<FormColumns> forms_;
    std::vector<std::pair<int, double>> heights_;
    std::vector<int> titles_;  ///< their rows
    int unfit_column_ = 0;     ///< 0: the sheet gives none
    std::vector<FormEntry> entries_;
    std::set<int> own_unfit_;  ///< rows in whose unfit cell the author has put something
    std::optional<PlacedChart> chart_;
    std::map<std::string, std::shared_ptr<const Data>> data_;
};

}  // namespace

SheetText::SheetText(std::filesystem::path file, Fields fields) : file_(std::move(file)), fields_(std::move(fields)) {
    const auto lines = read_lines(file_);
    const auto first = std::ranges::find_if(lines, [](const TextLine& line) { return line.field(0) == "where"; });
    if (first == lines.end()) throw TextError(file_, 0, "", "no line names the columns: where, content, look ...");
    for (auto at = lines.begin(); at != first; ++at) own_.push_back(with_fields(file_, *at, fields_));
    lines_ = written_out(file_, {first, lines.end()}, fields_);
}

Paper SheetText::paper() const {
    for (const TextLine& line : own_) {
        if (line.field(0) != "paper") continue;
        if (line.field(1) == "landscape") return Paper::landscape;
        if (line.field(1) == "portrait") return Paper::portrait;
        throw TextError(file_, line.number, "", "paper is portrait or landscape");
    }
    return Paper::portrait;
}

void SheetText::fill(Sheet& sheet, std::vector<TypedFormula>& formulas) const {
    sheet.read_from(file_.generic_string());
    SheetFiller filler(file_, sheet, formulas);
    Columns columns;
    int number = 0;
    std::string cell;
    try {
        for (const TextLine& line : own_) {
            number = line.number;
            filler.own_line(line);
        }
        for (const TextLine& line : lines_) {
            number = line.number;
            cell = line.field(0);
            if (line.field(0) == "form") {
                filler.own_line(line);
            } else if (line.field(0) == "where") {
                columns = columns_of(line);
            } else {
                filler.line(cell_line(columns, line));
            }
        }
        filler.end();
    } catch (const std::logic_error& error) {
        throw TextError(file_, number, cell, error.what());
    }
}

}  // namespace slipbark::compose

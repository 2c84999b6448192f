#include "composer/look.hpp"

#include <boost/range/adaptor/reversed.hpp>
#include <stdexcept>

#include "composer/registry.hpp"

namespace slipbark::compose::look {

namespace {

constexpr std::string_view thin = "0.5pt solid #9fb0b9";
constexpr std::string_view frame = "0.9pt solid #6b5a1e";
constexpr std::string_view heavy = "1.8pt solid #0b4f6c";
constexpr std::string_view alarm = "1.8pt solid #a63d00";

}  // namespace

const std::vector<Properties>& styles() {
    static const std::vector<Properties> all{
        {Style::plain, "Plain", {{"style:vertical-align", "middle"}}, {}, {}},
        {Style::title,
         "Sheet title",
         {{"fo:border-bottom", heavy}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-size", "16pt"}, {"fo:font-weight", "bold"}, {"fo:color", "#0b4f6c"}}},
        {Style::lead,
         "Lead",
         {{"fo:wrap-option", "wrap"}, {"style:vertical-align", "top"}, {"fo:padding-top", "0.08cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", soft_ink}}},
        {Style::section,
         "Section",
         {{"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"style:vertical-align", "bottom"},
          // No more: the lines of a form beside it would be of uneven height.
          {"fo:padding-top", "0.1cm"}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "11pt"}, {"fo:color", "#0b4f6c"}}},
        {Style::heading,
         "Table heading",
         {{"fo:background-color", "#dbe6ec"},
          {"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "bottom"},
          {"fo:padding-top", "0.07cm"},
          {"fo:padding-bottom", "0.07cm"},
          {"fo:padding-left", "0.07cm"},
          {"fo:padding-right", "0.07cm"}},
         {{"fo:text-align", "center"}},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "9pt"}}},
        {Style::label, "Label", {{"style:vertical-align", "middle"}}, {}, {}},
        {Style::unit,
         "Unit",
         {{"style:vertical-align", "middle"}, {"fo:padding-left", "0.12cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", soft_ink}, {"fo:font-size", "9pt"}}},
        {Style::input,
         workbooks::cell_style::input,
         {{"fo:background-color", "#fff6d9"}, {"fo:border", frame}, {"style:vertical-align", "middle"}},
         {},
         // A condition lays it over Suggested, too, so it says upright.
         {{"fo:color", "#1b3a8a"}, {"fo:font-style", "normal"}}},
        {Style::kept,
         workbooks::cell_style::kept,
         {{"fo:background-color", "#fff6d9"}, {"fo:border", frame}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:color", "#1b3a8a"}}},
        {Style::suggested,
         workbooks::cell_style::suggested,
         {{"fo:background-color", "#fffbec"},
          {"fo:border", "1.1pt dashed #6b5a1e"},
          {"style:vertical-align", "middle"}},
         {},
         {{"fo:color", "#1b3a8a"}, {"fo:font-style", "italic"}}},
        {Style::answer,
         workbooks::cell_style::answer,
         {{"fo:background-color", "#eef3f6"}, {"fo:border", thin}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-weight", "bold"}}},
        {Style::total,
         workbooks::cell_style::total,
         {{"fo:background-color", "#cfdfe7"},
          {"fo:border", thin},
          {"fo:border-top", "0.9pt solid #0b4f6c"},
          {"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "11pt"}}},
        {Style::body,
         "Table text",
         {{"fo:border", thin}, {"fo:wrap-option", "wrap"}, {"style:vertical-align", "middle"}},
         {},
         {}},
        {Style::check,
         workbooks::cell_style::check,
         // A long one is whole all the same: the office does not make a row higher when a formula says more.
         {{"style:vertical-align", "middle"}, {"fo:padding-left", "0.12cm"}, {"style:shrink-to-fit", "true"}},
         {{"fo:text-align", "start"}},
         {{"fo:font-size", "9pt"}}},
        {Style::sentence,
         "Sentence",
         {{"fo:background-color", "#eef3f6"},
          {"fo:border-left", heavy},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "middle"},
          {"fo:padding-top", "0.15cm"},
          {"fo:padding-bottom", "0.15cm"},
          {"fo:padding-left", "0.2cm"},
          {"fo:padding-right", "0.15cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:font-size", "11pt"}}},
        {Style::note,
         "Note",
         {{"fo:wrap-option", "wrap"},
          {"style:vertical-align", "top"},
          {"fo:padding-top", "0.1cm"},
          {"fo:padding-bottom", "0.1cm"}},
         {{"fo:text-align", "start"}},
         {}},
        {Style::caution,
         "Caution",
         {{"fo:border", "0.9pt solid #a63d00"},
          {"fo:border-left", "3pt solid #a63d00"},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "middle"},
          {"fo:padding-top", "0.12cm"},
          {"fo:padding-bottom", "0.12cm"},
          {"fo:padding-left", "0.2cm"},
          {"fo:padding-right", "0.12cm"}},
         {{"fo:text-align", "start"}},
         {}},
        {Style::bars,
         "Bars",
         {{"style:vertical-align", "middle"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", "#0b4f6c"},
          {"fo:font-size", "8pt"},
          {"fo:font-family", "Liberation Mono"},
          {"style:font-pitch", "fixed"}}},
        {Style::workings, "Workings", {}, {}, {{"fo:color", "#7d8b93"}, {"fo:font-size", "8pt"}}},
        {Style::mend,
         "Correct",
         {{"fo:background-color", "#fbe0d0"}, {"fo:border", alarm}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:color", "#6e2500"}}},
        {Style::due,
         "Due",
         {{"fo:background-color", "#f8e3b0"}, {"fo:border", "1.8pt solid #1d2b33"}},
         {},
         {{"fo:font-weight", "bold"}}},
        {Style::done, "Done", {}, {}, {{"fo:color", "#7d8b93"}, {"fo:font-style", "italic"}}},
    };
    return all;
}

const Properties& of(Style style) {
    for (const Properties& one : styles()) {
        if (one.style == style) return one;
    }
    throw std::logic_error("a style without a look");
}

std::string titled(const std::string& title, const std::string& name) {
    const std::string quoted = "\"" + title;
    return "=IF(LEN(" + name + ")=0;" + quoted + "\";" + quoted + ": \"&" + name + ")";
}

void invented(Sheet& sheet, Place at, int columns, const std::string& name, const std::string& example) {
    sheet
        .put(at, "=IF(" + name + "=\"" + example + "\";\"The scene is invented; more on sheet Notes.\";\"\")",
             Style::note)
        .across(columns);
}

void opening(Sheet& sheet, const std::string& title, const std::string& lead, int columns) {
    sheet.row_height(1, 0.95);
    sheet.put("B1", title, Style::title).across(columns);
    sheet.put("B2", lead, Style::lead).across(columns);
}

void band(Sheet& sheet, Place first, const std::string& text, int columns) {
    for (int column = 0; column < columns; ++column) {
        sheet.put({first.column + column, first.row}, column == 0 ? text : "", Style::section);
    }
}

void headings(Sheet& sheet, Place first, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
        sheet.put(first, text, Style::heading);
        ++first.column;
    }
}

Sheet::Cell Form::part(int column, const Content& content, Style style, Format format, int span) {
    auto cell = sheet_.put({column, at_.row}, content, style, format);
    if (span > 1) cell.across(span);
    return cell;
}

Form& Form::section(const std::string& text) {
    const int check_at = spans_.label + spans_.value + spans_.unit;
    band(sheet_, at_, text, check_at);
    if (spans_.check > 0) {
        band(sheet_, {at_.column + check_at, at_.row}, first_ ? "Check" : "", spans_.check);
        first_ = false;
    }
    ++at_.row;
    return *this;
}

Form& Form::input(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                  Format format, const Validation& validation) {
    return line(label, name, value, unit, format, Style::input, validation, "");
}

Form& Form::kept(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                 Format format, const Validation& validation) {
    return line(label, name, value, unit, format, Style::kept, validation, "");
}

Form& Form::answer(const std::string& label, const std::string& name, const std::string& formula,
                   const std::string& unit, Format format, const std::optional<std::string>& check) {
    return line(label, name, formula, unit, format, Style::answer, {}, check ? *check : own_check(formula));
}

Form& Form::total(const std::string& label, const std::string& name, const std::string& formula,
                  const std::string& unit, Format format, const std::optional<std::string>& check) {
    return line(label, name, formula, unit, format, Style::total, {}, check ? *check : own_check(formula));
}

std::string Form::own_check(const std::string& formula) const { return spans_.check > 0 ? why(formula) : ""; }

Form& Form::line(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                 Format format, Style style, const Validation& validation, const std::string& check) {
    part(at_.column, label, Style::label, Format::general, spans_.label);
    const int value_at = at_.column + spans_.label;
    auto cell = part(value_at, value, style, format, spans_.value);
    if (!validation.condition.empty()) cell.valid(validation);
    if (!name.empty()) cell.name(name);
    const int unit_at = value_at + spans_.value;
    part(unit_at, unit, Style::unit, Format::general, spans_.unit);
    if (!check.empty()) {
        if (spans_.check == 0) throw std::logic_error(label + ": the form has no column for its Check");
        const int check_at = unit_at + spans_.unit;
        part(check_at, check, Style::check, Format::general, spans_.check);
        mend_where_said(sheet_, Place(check_at, at_.row));
    }
    ++at_.row;
    return *this;
}

Form& Form::to_row(int row) {
    at_.row = row;
    return *this;
}

Notes::Notes(Workbook& book, const std::string& lead) : sheet_(book.sheet("Notes", Paper::portrait)) {
    sheet_.columns({0.4, 18.4});
    sheet_.cursor("A1");  // its samples of frames are no entries
    opening(sheet_, "Notes", lead, 1);
}

Notes& Notes::heading(const std::string& text) {
    ++row_;
    sheet_.put(Place("B", row_++), text, Style::section);
    return *this;
}

Notes& Notes::note(const std::string& text) {
    sheet_.put(Place("B", row_++), text, Style::note);
    return *this;
}

Notes& Notes::caution(const std::string& text) {
    sheet_.put(Place("B", row_++), text, Style::caution);
    return *this;
}

Notes& Notes::errors(const std::string& check) {
    return heading("If cells show #NAME? or an error")
        .note(
            "#NAME?: the extension Slipbark is missing. Install it: double click on the .oxt file, or Tools > "
            "Extension "
            "Manager > Add (Tools > Extensions in newer versions). Start Calc again, open this file and press "
            "Ctrl+Shift+F9. Formulas are kept meanwhile.")
        .note("Err:502: an entry is outside its range; " + check + " says which one and what would be right.");
}

Notes& Notes::frames() {
    heading("What the frames mean");
    sheet_.put(Place("B", row_++), "A full frame: fill in.", Style::kept);
    sheet_.put(Place("B", row_++),
               // A formula, as a suggestion is one: what is typed there would look like an input.
               "=\"A broken frame, sloping: a formula suggests this; type over it where you know better.\"",
               Style::suggested);
    sheet_.put(Place("B", row_++), "Bold on a plain band: follows from the entries; do not type here.", Style::answer);
    sheet_.put(Place("B", row_++), "A heavy frame, bold: correct this first.", Style::mend);
    return *this;
}

void Notes::close() {
    frames();
    heading("Cautions")
        .note(
            "These figures help to plan; they are no instruction. Labels, local rules and licensed or trained "
            "practice come first.")
        .caution(
            "Saws: trained hands only; leg, eye and ear protection; never one-handed, never above the shoulder, "
            "never alone. Look for power lines before a pole saw goes up.")
        .caution("Ladders: firm and level ground, three points of contact, nobody below.")
        .caution("Knives: cut away from the body, a cut-proof glove on the holding hand, blades closed when walking.")
        .caution(
            "Sprays, sealants and pruning paints: read and follow the label, also for protective clothing, wind, "
            "re-entry and the days before harvest. Fruit on nurse limbs is a crop too.")
        .caution(
            "Bleach for tools: gloves and eye protection, fresh air, a fresh mix each day; never together with "
            "acids or ammonia. Spirit does not stop every disease that knives carry: ask the local service.")
        .caution(
            "Budwood can carry disease: take certified wood where there is any, and ask about quarantine before "
            "wood crosses a boundary.")
        .caution("Protected varieties: a written licence before the first cut, and no more trees than it names.");
    sheet_.print_area(Area({1, 1}, {2, row_ - 1}));
}

void takes(Sheet& sheet, int band_row, const std::string& title, const std::string& what, int room,
           const std::string& call, const std::vector<Sentence>& first_said, Columns columns) {
    const int first = band_row + 2;
    const int last = first + room - 1;
    const std::string lines = std::to_string(room);
    band(sheet, Place("B", band_row), title, 8);
    headings(sheet, Place("B", band_row + 1),
             {what, "Grafts", "Live", "Take", "At least", "At most", "Steadied take", "Check"});
    sheet.array(Area({2, first}, {8, last}), "=" + with_blanks_below(call, room, 7), Style::answer,
                {Format::general, Format::count, Format::count, Format::percent, Format::percent, Format::percent,
                 Format::percent});
    const Place check("I", first);
    // Asked only where there is no answer: in an array formula the host asks WHY once for every row of a column.
    std::string said = "IF(LEN(B" + std::to_string(first) + ")=0;" + why(call).substr(1) + ";IF(ROWS(" + call + ")>" +
                       lines + ";\"Room for " + lines + " of \"&ROWS(" + call + ")&\" only.\";\"\"))";
    for (const Sentence& one : first_said | boost::adaptors::reversed) {
        said = "IF(" + one.condition + ";\"" + one.says + "\";" + said + ")";
    }
    said = "=IFERROR(" + said + ";\"An entry holds an error: correct it.\")";
    if (columns == Columns::as_they_stand) {
        sheet.put(check, said, Style::check);
    } else {
        sheet.array(Area(check), said, Style::check, {Format::general});
    }
    mend_where_said(sheet, check);
}

Chart takes_chart(Sheet& sheet, int band_row, int lines, const std::string& behind, const std::string& title,
                  const std::string& description, const std::string& category_title) {
    const int first = band_row + 2;
    const int last = first + lines - 1;
    const Place down(behind, first);
    const int up = down.column + 1;
    const Area less(down, {down.column, last});
    const Area more({up, first}, {up, last});
    sheet.put({down.column, band_row}, "Behind the chart", Style::workings);
    sheet.put({down.column, first - 1}, "Down", Style::workings);
    sheet.put({up, first - 1}, "Up", Style::workings);
    sheet.fill_down(less, R"(=IF(E{r}="";"";E{r}-F{r}))", Style::workings, Format::percent_tenth);
    sheet.fill_down(more, R"(=IF(E{r}="";"";G{r}-E{r}))", Style::workings, Format::percent_tenth);
    return {.title = title,
            .description = description,
            .categories = Area("B", first, last),
            .category_title = category_title,
            .value_title = "take",
            .value_format = Format::percent,
            .series = {{.values = Area("E", first, last),
                        .label = Place("E", first - 1),
                        .shape = Series::Shape::column,
                        .paint = 2,
                        .less = less,
                        .more = more}},
            .legend = false,
            .least = 0,
            .most = 1,
            .step = 0.2};
}

void mend_where_said(Sheet& sheet, const Area& area) {
    sheet.mark(area, "LEN(" + area.first.text() + ")>0", Style::mend);
}

}  // namespace slipbark::compose::look

// The one look of the workbooks, and the way their forms are laid out.
//
// Readable in black and white and by colour-blind readers: what matters is told by frame, weight and words; colour only
// helps. Inputs are framed and tinted, suggestions framed with a broken line, answers are bold on a plain band, what
// needs mending is framed and bold.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "composer/chart.hpp"
#include "composer/sheet.hpp"

namespace slipbark::compose::styles {

/// A style as the file format has it: properties of the cell, the paragraph and the text as attribute = value.
struct Properties {
    Style style;
    std::string_view name;  ///< as the user sees it in Calc's list of styles
    std::vector<std::pair<std::string_view, std::string_view>> cell;
    std::vector<std::pair<std::string_view, std::string_view>> paragraph;
    std::vector<std::pair<std::string_view, std::string_view>> text;
};

const std::vector<Properties>& styles();
const Properties& of(Style style);

inline constexpr std::string_view font = "Liberation Sans";
inline constexpr std::string_view ink = "#1d2b33";
inline constexpr std::string_view soft_ink = "#52636d";
inline constexpr std::string_view rule = "#9fb0b9";

/// The row of a sheet's title, in cm.
inline constexpr double title_height = 0.95;

/// A chart's paint. Tones differ in lightness as well as in hue, lines also in their marks.
struct Paint {
    std::string_view colour;
    std::string_view symbol;
};
inline constexpr std::array<Paint, 5> paints{{
    {"#0b4f6c", "square"},    // deep blue, dark in grey
    {"#e0a030", "diamond"},   // ochre, light in grey
    {"#7fa9bd", "circle"},    // pale blue, lighter than the first
    {"#a63d00", "arrow-up"},  // burnt orange
    {"#5c6b73", "circle"},    // grey
}};

/// The line that tells a reader without the extension what to do.
inline constexpr const char* if_name_error =
    "Do cells show #NAME? Install the extension Slipbark (double click on its .oxt file), start Calc again, open this "
    "file and press Ctrl+Shift+F9.";

/// Title and lead in the first two lines from column B on. A title that is a formula can show the block's name.
/// The lead runs over `columns` cells.
void opening(Sheet& sheet, const Phrase& title, const Phrase& lead, int columns);

/// A section's heading over several columns, for tables.
void band(Sheet& sheet, Address first, const Phrase& text, int columns);

/// The headings of a table, one beside the other from `first` on.
void headings(Sheet& sheet, Address first, const std::vector<std::string>& texts);

/// How many columns the parts of a form's line are wide.
struct Spans {
    int label = 1;
    int value = 1;
    int unit = 1;
    int check = 0;  ///< 0: no Checks beside the answers
};

/// A form of lines: label, value, unit, and for answers a Check that says what to correct, in columns side by side from
/// the place where it starts.
class Form {
  public:
    Form(Sheet& sheet, Address start, Spans spans = {}) : sheet_(sheet), at_(start), spans_(spans) {}

    Form& section(const std::string& text);
    /// Where `value` is a formula it is a suggestion, which the user may type over.
    Form& input(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                Format format, const Validation& validation);
    /// An input that stays when the form is emptied.
    Form& kept(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
               Format format, const Validation& validation);
    /// `check` is the formula of its Check, none where empty; where left out it is made from the first REWORK function.
    Form& answer(const std::string& label, const std::string& name, const std::string& formula, const std::string& unit,
                 Format format, const std::optional<std::string>& check = {});
    Form& total(const std::string& label, const std::string& name, const std::string& formula, const std::string& unit,
                Format format, const std::optional<std::string>& check = {});
    /// Goes on in another row, so that two forms side by side stay level.
    Form& to_row(int row);
    [[nodiscard]] int row() const { return at_.row; }
    /// Where the value of the line that comes next stands.
    [[nodiscard]] Address value_address() const { return {at_.column + spans_.label, at_.row}; }

  private:
    Sheet::CellHandle part(int column, const Content& content, Style style, Format format, int span);
    [[nodiscard]] std::string own_check(const std::string& formula) const;
    Form& line(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
               Format format, Style style, const Validation& validation, const std::string& check);
    Sheet& sheet_;
    Address at_;
    Spans spans_;
    bool first_ = true;
};

/// Frames the cells of a Check column, or of a part of it, that say something.
void mark_unfit(Sheet& sheet, const Area& area);

}  // namespace slipbark::compose::styles

// A lean writer of flat OpenDocument spreadsheets (.fods): enough for workbooks that are read, filled in and printed.
//
// Addresses are written as in a sheet ("C5", "B7:F20"); a text that starts with "=" is a formula, written as a user
// would type it: =REWORK.STICKS(grafts; buds_per_scion; buds_per_stick; spare). How things look is set in look.xml.
// A workbook is checked while it is written: an unknown name in a formula, a name given twice, two things put into one
// cell are errors of the author and throw std::logic_error with the cell's address.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "composer/cells.hpp"
#include "composer/chart.hpp"

namespace slipbark::compose {

/// What may be entered. `help` shows when the cell is selected, `error` when the entry does not fit.
struct Validation {
    std::string condition;  ///< in the file format's own words
    Phrase help;
    Phrase error;

    friend auto operator<=>(const Validation&, const Validation&) = default;
};

/// The end of a range: a number or a cell.
struct End {
    End(double value) : number(value) {}
    /// `address` as the file format has it in a condition; `called` is how a sentence calls the cell.
    End(std::string address, std::string called) : cell(std::move(address)), name(std::move(called)) {}

    double number = 0;
    std::string cell;
    std::string name;
};

Validation whole(const End& low, const End& high, std::string_view unit);
Validation number(const End& low, const End& high, std::string_view unit);
/// A range in one system of units.
struct Measure {
    double low;
    double high;
    std::string unit;
};
/// A number that is metric or US, as a cell elsewhere says; takes what either would.
Validation measured(const Measure& metric, const Measure& us);
/// Fractions, shown and typed as per cent.
Validation share(double low, double high);
Validation day(Date from, Date to);
/// Any day that a plan may hold.
inline const Validation any_date =
    day(std::chrono::year{2000} / std::chrono::January / 1, std::chrono::year{2099} / std::chrono::December / 31);
/// A choice from a list, which the cell then offers.
Validation one_of(const std::vector<std::string>& choices);
/// The same, where the choices need a word: `meaning` is shown when the cell is selected.
Validation one_of(const std::vector<std::string>& choices, std::string_view meaning);
Validation any_text(std::string_view what);

class Workbook;

class Sheet {
  public:
    /// What put() gives back, for the things that few cells have.
    class CellHandle {
      public:
        CellHandle& name(const std::string& range_name);
        CellHandle& valid(const Validation& validation);
        /// The text is a name that is the same in every language.
        CellHandle& as_it_is();
        /// Merges with the cells to the right and below.
        CellHandle& across(int columns, int rows = 1);

      private:
        friend class Sheet;
        CellHandle(Sheet& sheet, Address place) : sheet_(sheet), place_(place) {}
        Sheet& sheet_;
        Address place_;
    };

    /// Column widths in cm, from column A on.
    void columns(std::vector<double> widths);
    /// A fixed height; rows without one grow with their text.
    void row_height(int row, double height_cm);

    CellHandle put(Address place, Content content, Style style = Style::plain, Format format = Format::general);
    CellHandle put(Address place, const char* text, Style style = Style::plain, Format format = Format::general);
    CellHandle put(Address place, double value, Style style = Style::plain, Format format = Format::general);
    CellHandle put(Address place, int value, Style style = Style::plain, Format format = Format::general);
    /// One array formula over `area`. `formats` one for each column, the last one for the rest.
    void array(Area area, const std::string& formula, Style style, const std::vector<Format>& formats);

    void name(const std::string& range_name, Area area);
    /// The end of an entry's range that a word of the entry stands for: the name of a range, of which a column of this
    /// sheet gives its cell of the same line, or a cell of the entry's own line, $F6. nullopt for any other word.
    [[nodiscard]] std::optional<End> entry_end(const std::string& word, int row) const;
    /// A name for an expression, such as a span of cells that depends on others.
    void define(const std::string& name, const std::string& formula);
    void valid(Area area, const Validation& validation);
    /// Lays `style` over the cells where `formula` is true; relative addresses count from the area's first cell.
    void mark(Area area, const std::string& formula, Style style);
    /// A chart in a row of its own, which is made as high as the chart.
    void chart(Address place, double width_cm, double height_cm, Chart chart);

    /// The rows down to this one stay in sight when scrolling.
    void freeze(int last_row) { frozen_ = last_row; }
    /// The rows down to this one are printed at the top of each page; for tables of several pages. These rows must hold
    /// no formula: LibreOffice 7.4 shows 0 for one that stands in or above the repeated rows of a file it loads.
    void repeat(int last_row) { repeated_ = last_row; }
    /// These rows are folded away until somebody opens them with the + at their left, and are not printed until then.
    /// Folds may stand inside each other, the outer one given first; where two end in one row they are closed together.
    void fold(int first_row, int last_row) { folds_.emplace_back(first_row, last_row); }
    /// What is printed. A sheet for many lines prints only its used part (LibreOffice 7.4) where the unused lines
    /// inside the area are Style::plain, framed by mark() once they are used, and hold no formula: Calc leaves out
    /// empty pages, but neither frames of their own nor formulas that show "" count as empty. Formulas may stand
    /// outside the area.
    void print_area(Area area);
    void print_nothing();
    /// Where the cursor stands when the sheet is first looked at; without this on its first input.
    void cursor(Address place) { cursor_ = place; }
    /// A caution for the work that this sheet goes to, at the foot of every page that is printed of it.
    void caution(std::string text) { caution_ = std::move(text); }
    /// The file that the sheet was read from, for translators.
    void read_from(std::string file) { file_ = std::move(file); }
    /// Starts a new page above this row.
    void page_break(int row);

    [[nodiscard]] const std::string& title() const { return title_; }

  private:
    friend class Workbook;
    friend class Writer;
    friend class Translator;
    struct Cell {
        Content content;
        Style style = Style::plain;
        Format format = Format::general;
        std::optional<Area> array;
        int columns = 1;
        int rows = 1;
        int validation = -1;
        std::string shown;      ///< what a text shows in its place; empty: itself
        bool as_it_is = false;  ///< not to be translated
    };
    struct Placed {
        double width;
        double height;
        Chart chart;
    };
    struct Mark {
        Area area;
        std::string formula;
        Style style;
    };

    Sheet(Workbook& book, std::string title, bool landscape)
        : book_(&book), title_(std::move(title)), wide_(landscape) {}
    Cell& fresh(Address place);
    Cell& filled(Address place);
    [[nodiscard]] Address first_input() const;
    /// The cells that hold a suggestion, in parts of columns.
    [[nodiscard]] std::vector<Area> suggestions() const;

    Workbook* book_;
    std::string title_;
    std::string caution_;
    std::string file_;
    bool wide_;
    std::vector<double> widths_;
    std::map<int, double> heights_;
    std::map<std::pair<int, int>, Cell> cells_;  // by row, then column
    std::map<std::pair<int, int>, Placed> charts_;
    std::vector<Mark> marks_;
    std::vector<int> breaks_;
    std::vector<std::pair<int, int>> folds_;
    int frozen_ = 0;
    int repeated_ = 0;
    std::optional<Area> printed_;
    bool prints_ = true;
    std::optional<Address> cursor_;
};

enum class Paper { portrait, landscape };

class Workbook {
  public:
    /// `file` is its name in the registry, by which the menu's commands know the workbook wherever it was saved.
    Workbook(std::string file, std::string title, std::string about)
        : file_(std::move(file)), title_(std::move(title)), about_(std::move(about)) {}
    Workbook(const Workbook&) = delete;
    Workbook& operator=(const Workbook&) = delete;

    Sheet& sheet(const std::string& title, Paper paper);
    [[nodiscard]] const std::string& title() const { return title_; }
    /// Whether formulas may use the name, a range's or an expression's.
    [[nodiscard]] bool knows(const std::string& name) const;

    /// Its formulas are there to be read: keywords of arguments stay English in the cells that they refer to.
    void keep_keywords() { keeps_keywords_ = true; }

    /// The whole file, in English or as `texts` translates it. Throws std::logic_error where the author made a mistake.
    [[nodiscard]] std::string write() const;
    [[nodiscard]] std::string write(TextCollector& texts) const;

  private:
    friend class Sheet;
    friend class Writer;
    friend class Translator;
    std::string file_;
    std::string title_;
    std::string about_;
    std::vector<std::unique_ptr<Sheet>> sheets_;
    std::vector<std::pair<std::string, std::string>> names_;  // name, absolute address
    std::vector<Validation> validations_;
    std::map<std::string, std::string> expressions_;  // name, what it stands for
    bool keeps_keywords_ = false;
};

/// A sheet's title as it stands in a formula or an address.
std::string quoted_title(const std::string& title);

/// The call that says why the first REWORK function in `formula` fails: =REWORK.TAKE(C5;C6) gives
/// =REWORK.WHY("TAKE";C5;C6). Empty where there is none, or none with an argument.
std::string why(const std::string& formula);

}  // namespace slipbark::compose

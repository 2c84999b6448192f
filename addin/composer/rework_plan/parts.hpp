// What the sheets of the block's book share: entries that are checked by formula as well as while they are typed,
// answers that stay quiet while an entry is wrong, and the places that several sheets refer to.
//
// A pasted cell carries no validation. So each sheet has one line that names its first entry that does not fit and says
// what would be right, and the entry itself is framed. While there is such a line, the answers that hang on it are
// blank and no other Check repeats it.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "composer/look.hpp"
#include "composer/sheet.hpp"

namespace slipbark::compose::block {

/// What may stand in an entry: as the cell's validation, and as a formula that holds for what was pasted.
struct Kind {
    Validation validation;
    std::string fits;  ///< a condition on "{c}", the cell
    std::string says;  ///< "a whole number from 1 to 40 (stubs)"

    /// The same, but blank is fine too.
    [[nodiscard]] Kind or_blank() const;
};

Kind whole_kind(double low, double high, const std::string& unit);
/// A number in the units that sheet Plan says. `factor` makes the metric unit of it, an expression.
Kind measured_kind(const Measure& metric, const Measure& us, const std::string& factor);
Kind number_kind(double low, double high, const std::string& unit);
/// Fractions typed as per cent. What is less than half a per cent without being 0 was most likely meant a hundred times
/// larger ("0.15" in such a cell is 0.15 %), so it is asked about.
Kind share_kind(double low, double high);
/// Fractions for which less than half a per cent is nothing unusual.
Kind small_share_kind(double low, double high);
Kind date_kind();
/// The same, or a text as the workbooks print dates; what hangs on it must read it with entries::day_of().
Kind printed_date_kind();
Kind choice_kind(const std::vector<std::string>& choices);
Kind text_kind(const std::string& what);

/// The entries of one sheet and the Check that names the first one that does not fit.
class Entries {
  public:
    Entries(Sheet& sheet, std::string name) : sheet_(sheet), name_(std::move(name)) {}

    /// One cell. `label` is how the Check calls it.
    void add(const std::string& label, Place place, const Kind& kind);
    /// A table's lines: the first one with something in its Check is named by its row.
    void add_lines(const Area& checks);
    /// A condition that must hold, with what is said where it does not (an expression for a text).
    void add_rule(const std::string& holds, const std::string& says);
    /// Writes the Check into `place` over `columns` columns and gives it the name.
    void close(Place place, int columns);

  private:
    Sheet& sheet_;
    std::string name_;
    std::vector<std::pair<std::string, std::string>> rules_;  // condition, expression for the text
};

/// A form whose entries are checked and whose answers are blank while they cannot be had.
class Lines {
  public:
    Lines(Sheet& sheet, Place start, Entries& entries, look::Spans spans = {})
        : form_(sheet, start, spans), entries_(entries) {}

    Lines& section(const std::string& text);
    /// `value` may be a formula that the user may type over.
    Lines& input(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                 Format format, const Kind& kind);
    /// An input that stays when the form is emptied.
    Lines& kept(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                Format format, const Kind& kind);
    /// `expression` stands without "=", and so does `check`, an expression for a text: no Check where it is empty;
    /// where it is left out, the reason why there is no answer.
    Lines& answer(const std::string& label, const std::string& name, const std::string& expression,
                  const std::string& unit, Format format, const std::optional<std::string>& check = {});
    Lines& total(const std::string& label, const std::string& name, const std::string& expression,
                 const std::string& unit, Format format, const std::optional<std::string>& check = {});
    Lines& to_row(int row);
    [[nodiscard]] int row() const { return form_.row(); }

  private:
    [[nodiscard]] std::string check_of(const std::string& expression, const std::optional<std::string>& check) const;
    look::Form form_;
    Entries& entries_;
};

/// "=IFERROR(expression;"")": an answer that is blank while it cannot be had. It waits for the entries it names, too.
std::string or_blank(const std::string& expression);
/// The formula of a Check: `says`, an expression for a text, but nothing while an entry does not fit, and words even
/// where it cannot be worked out.
std::string quiet(const std::string& says);
/// WHY of the first REWORK function in the expression, without "="; empty where there is none.
std::string why_of(const std::string& expression);
/// A Check on its own, framed where it says something. `says` as for quiet().
void check(Sheet& sheet, Place place, const std::string& says, int columns = 1);

/// A text as a formula has it, in quotes.
std::string quoted(const std::string& text);

}  // namespace slipbark::compose::block

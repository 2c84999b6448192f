// What strangers put into the entries of a workbook: nothing, something below 0, a word, far too much, 0. Wherever it
// stands, no cell shows a bare error, and what the entry's own validation would refuse is told in a sentence.

#include <algorithm>
#include <array>
#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/text/XText.hpp>
#include <cstdlib>
#include <fstream>
#include <map>
#include <optional>
#include <regex>
#include <set>

#include "calc.hpp"
#include "composer/cells.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// The values of one sheet's used cells; an error arrives as an empty Any.
using Values = css::uno::Sequence<css::uno::Sequence<css::uno::Any>>;

struct Sheets {
    std::vector<std::string> titles;
    std::vector<Ref<css::sheet::XSpreadsheet>> sheets;
    std::vector<Ref<css::sheet::XCellRangeData>> used;
};

Sheets sheets_of(const Book& book) {
    Sheets all;
    for (const auto& title : book.sheets()) {
        all.titles.push_back(title);
        all.sheets.push_back(sheet_of(book, title));
        all.used.emplace_back(used_cells(all.sheets.back()), UNO_QUERY_THROW);
    }
    return all;
}

std::vector<Values> values_of(const Sheets& sheets) {
    std::vector<Values> all;
    for (const auto& used : sheets.used) all.push_back(used->getDataArray());
    return all;
}

std::string address(sal_Int32 column, sal_Int32 row) { return compose::Address(column + 1, row + 1).text(); }

/// What may stand in an entry, as its validation has it.
struct Allowed {
    css::sheet::ValidationType type = css::sheet::ValidationType_ANY;
    double low = 0;
    double high = 0;

    [[nodiscard]] bool takes(double value) const {
        using namespace css::sheet;
        if (type == ValidationType_WHOLE || type == ValidationType_DECIMAL || type == ValidationType_DATE) {
            return value >= low && value <= high;
        }
        return type != ValidationType_LIST;
    }
    [[nodiscard]] bool takes_a_word() const {
        return type == css::sheet::ValidationType_ANY || type == css::sheet::ValidationType_TEXT_LEN ||
               type == css::sheet::ValidationType_CUSTOM;
    }
};

/// An entry to be tried.
struct Input {
    std::size_t sheet;
    sal_Int32 column;
    sal_Int32 row;
    Allowed allowed;
};

Allowed allowed_in(const Ref<css::beans::XPropertySet>& cell) {
    Allowed allowed;
    Ref<css::beans::XPropertySet> validation;
    cell->getPropertyValue("Validation") >>= validation;
    validation->getPropertyValue("Type") >>= allowed.type;
    const Ref<css::sheet::XSheetCondition> condition(validation, UNO_QUERY_THROW);
    allowed.low = condition->getFormula1().toDouble();
    allowed.high = condition->getFormula2().toDouble();
    return allowed;
}

/// Every entry by its look or its validation; of a long column of a table the first and the middle one.
std::vector<Input> entries_of(const Sheets& sheets) {
    std::vector<Input> all;
    for (std::size_t at = 0; at < sheets.sheets.size(); ++at) {
        for (const auto& [cells, area, style] : alike(sheets.sheets[at])) {
            const Allowed allowed = allowed_in(cells);
            const bool looks = style == "Input" || style == "Suggested";
            if (!looks && allowed.type == css::sheet::ValidationType_ANY) continue;
            for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column) {
                std::set<sal_Int32> rows{area.StartRow, (area.StartRow + area.EndRow) / 2};
                if (area.EndRow - area.StartRow < 3) rows.insert(area.EndRow);
                for (const sal_Int32 row : rows) all.push_back({at, column, row, allowed});
            }
        }
    }
    return all;
}

struct Misuse {
    const char* name;
    std::optional<double> number;
    const char* text;
};

constexpr Misuse misuses[] = {
    {"blank", {}, ""}, {"-1", -1, ""}, {"\"abc\"", {}, "abc"}, {"1E9", 1E9, ""}, {"0", 0, ""},
};

/// Puts back what stood in a cell.
class Restored {
  public:
    explicit Restored(const Ref<css::table::XCell>& cell) : cell_(cell), type_(cell->getType()) {
        if (type_ == css::table::CellContentType_VALUE) number_ = cell->getValue();
        if (type_ == css::table::CellContentType_FORMULA) text_ = cell->getFormula();
        if (type_ == css::table::CellContentType_TEXT) {
            text_ = Ref<css::text::XText>(cell, UNO_QUERY_THROW)->getString();
        }
    }
    Restored(const Restored&) = delete;
    Restored& operator=(const Restored&) = delete;
    ~Restored() {
        if (type_ == css::table::CellContentType_VALUE) {
            cell_->setValue(number_);
        } else if (type_ == css::table::CellContentType_TEXT) {
            Ref<css::text::XText>(cell_, UNO_QUERY_THROW)->setString(text_);
        } else {
            cell_->setFormula(text_);
        }
    }

  private:
    Ref<css::table::XCell> cell_;
    css::table::CellContentType type_;
    double number_ = 0;
    rtl::OUString text_;
};

bool holds_error_words(const std::string& text) {
    return std::ranges::any_of(std::array{"Err:5", "#N/A", "#VALUE!", "#DIV/0!", "#NUM!", "#NAME?", "#REF!"},
                               [&](const char* word) { return text.find(word) != std::string::npos; });
}

/// What changed from `before` to `now`: errors, and sentences that were not there.
struct Changed {
    std::vector<std::string> errors;
    std::vector<std::string> sentences;
};

Changed changed(const Sheets& sheets, const std::vector<Values>& before, const std::vector<Values>& now) {
    Changed found;
    for (std::size_t at = 0; at < now.size(); ++at) {
        for (sal_Int32 row = 0; row < now[at].getLength(); ++row) {
            for (sal_Int32 column = 0; column < now[at][row].getLength(); ++column) {
                const css::uno::Any& value = now[at][row][column];
                if (value == before[at][row][column]) continue;
                const std::string place = sheets.titles[at] + "." + address(column, row);
                if (!value.hasValue()) {
                    found.errors.push_back(place);
                } else if (rtl::OUString text; value >>= text) {
                    const std::string said = utf8(text);
                    if (holds_error_words(said)) found.errors.push_back(place + " reads " + said);
                    // A word is no sentence, and a label of bundles is none.
                    if (said.find(' ') == std::string::npos || said.find("   |   ") != std::string::npos) continue;
                    const Ref<css::beans::XPropertySet> cell(sheets.sheets[at]->getCellByPosition(column, row),
                                                             UNO_QUERY_THROW);
                    rtl::OUString style;
                    cell->getPropertyValue("CellStyle") >>= style;
                    if (style == "Check" || style == "Note") found.sentences.push_back(said);
                }
            }
        }
    }
    return found;
}

/// Every name that an argument of a function has, by the committed list of calls.
const std::set<std::string>& argument_names() {
    static const std::set<std::string> names = [] {
        std::set<std::string> found;
        const std::regex argument("(?:double|string|any|interface|sequence|[\\]>]) ([a-z][a-z_0-9]*)");
        std::ifstream in(SLIPBARK_CONTRACT);
        for (std::string line; std::getline(in, line);) {
            for (std::sregex_iterator at(line.begin(), line.end(), argument), end; at != end; ++at) {
                found.insert((*at)[1]);
            }
        }
        return found;
    }();
    return names;
}

/// The argument that a sentence quotes, as those of the functions do: "flows was blank in row 1: give ...".
std::optional<std::string> quoted_argument(const std::string& said) {
    static const std::regex quoted("(?:^|: )([a-z][a-z_0-9]*) (?:was |were |is missing|is blank|give a result)");
    for (std::sregex_iterator at(said.begin(), said.end(), quoted), end; at != end; ++at) {
        if (argument_names().contains((*at)[1])) return (*at)[1];
    }
    return {};
}

TEST(Checks, AreKnownByTheArgumentsTheyQuote) {
    EXPECT_GT(argument_names().size(), 100U);
    EXPECT_EQ(quoted_argument("flows was blank in row 1: give a number."), "flows");
    EXPECT_EQ(quoted_argument("Line 3: rate was 7: give a fraction from 0 to 1."), "rate");
    EXPECT_FALSE(quoted_argument("Interest: give a share from 0 % to 100 %; type 15 for 15 %."));
}

class EachInput : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Workbooks, EachInput, testing::ValuesIn(workbook_files()),
                         [](const auto& name) { return as_id(name.param); });

/// Every misuse of every entry takes minutes, so the ring that is run often tries one of each entry, in turn.
bool every_misuse() { return std::getenv("SLIPBARK_EVERY_MISUSE") != nullptr; }

/// A line of the table in docs/trust.md: what is said where something does not fit.
void compare_with_table(const std::string& workbook, const Misuse& misuse, std::string said) {
    std::replace(said.begin(), said.end(), '|', '/');
    std::replace(said.begin(), said.end(), '\n', ' ');
    const std::string start = "| " + workbook + " | " + misuse.name + " | ";
    std::ifstream in(SLIPBARK_TRUST);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    const auto found =
        std::find_if(lines.begin(), lines.end(), [&](const std::string& line) { return line.starts_with(start); });
    ASSERT_NE(found, lines.end()) << "docs/trust.md has no line " << start;
    if (std::getenv("SLIPBARK_ACCEPT") == nullptr) {
        EXPECT_EQ(*found, start + said + " |");
        return;
    }
    *found = start + said + " |";
    std::ofstream out(SLIPBARK_TRUST);
    for (const std::string& line : lines) out << line << "\n";
}

TEST_P(EachInput, TakesWhateverIsPutThereWithoutABareError) {
    const Book book = calc().open_url(url_of(GetParam()), true);
    book.recalculate();
    const Sheets sheets = sheets_of(book);
    const auto before = values_of(sheets);
    const bool examples = GetParam() == "worked-examples";
    const auto entries = entries_of(sheets);
    EXPECT_GE(entries.size(), 10U);
    std::map<std::string, std::string> said;
    for (std::size_t at = 0; at < entries.size(); ++at) {
        const Input& entry = entries[at];
        const std::string place = sheets.titles[entry.sheet] + "." + address(entry.column, entry.row);
        const auto cell = sheets.sheets[entry.sheet]->getCellByPosition(entry.column, entry.row);
        for (std::size_t which = 0; which < std::size(misuses); ++which) {
            if (!every_misuse() && which != at % std::size(misuses)) continue;
            const Misuse& misuse = misuses[which];
            Changed found;
            {
                const Restored restored(cell);
                if (misuse.number) {
                    cell->setValue(*misuse.number);
                } else {
                    Ref<css::text::XText>(cell, UNO_QUERY_THROW)->setString(ustring(misuse.text));
                }
                found = changed(sheets, before, values_of(sheets));
            }
            // An example shows what a cell with its function shows, errors too, and the reason beside it.
            if (!examples || found.sentences.empty()) {
                EXPECT_EQ(found.errors, std::vector<std::string>()) << place << " " << misuse.name;
            }
            // The cards of the worked examples show functions as they are, with the names of their arguments.
            for (const std::string& sentence : found.sentences) {
                const auto quoted = examples ? std::nullopt : quoted_argument(sentence);
                EXPECT_FALSE(quoted) << place << " " << misuse.name << " quotes " << *quoted << ": " << sentence;
            }
            const bool blank = !misuse.number && *misuse.text == '\0';
            const bool fits =
                blank || (misuse.number ? entry.allowed.takes(*misuse.number) : entry.allowed.takes_a_word());
            EXPECT_TRUE(fits || examples || !found.sentences.empty())
                << place << " " << misuse.name << ": nothing is said of it";
            if (!blank && fits && !examples) continue;
            // "See the entries." says less than what names the entry.
            const auto telling = std::find_if(found.sentences.begin(), found.sentences.end(), [](const auto& sentence) {
                return sentence.find(": ") != std::string::npos;
            });
            if (telling != found.sentences.end()) said.emplace(misuse.name, place + ": " + *telling);
        }
    }
    EXPECT_EQ(values_of(sheets), before) << "everything is put back";
    if (!every_misuse()) return;
    for (const Misuse& misuse : misuses) {
        compare_with_table(GetParam(), misuse, said.contains(misuse.name) ? said[misuse.name] : "-");
    }
}

}  // namespace
}  // namespace slipbark::tests

// What people do wrong, done to every argument of every function in cells of real Calc.
//
// misuse_matrix.csv says what each such cell must show, a row for each argument and a column for each misuse: "=" is
// the answer that the right argument has. The rules that hold for whole columns are written out below; every cell is
// compared with the file. SLIPBARK_ACCEPT=1 writes the file anew: read its differences before they are committed.

#include <boost/algorithm/string/replace.hpp>
#include <cmath>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <map>
#include <set>
#include <sstream>

#include "calc.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/words.hpp"
#include "composer/cells.hpp"
#include "folder.hpp"
#include "formula.hpp"
#include "right_call.hpp"

namespace slipbark::tests {

using namespace office;
using catalogue::Arguments;
using catalogue::FunctionEntry;
using catalogue::Kind;
using catalogue::Value;
using css::uno::UNO_QUERY_THROW;

namespace {

/// The letters of a column, counted from 0.
std::string column_name(std::size_t column) {
    std::string name = compose::Address(static_cast<int>(column) + 1, 1).text();
    name.pop_back();
    return name;
}

/// A block of cells on a sheet, counted from 0.
struct Block {
    std::size_t column = 0;
    std::size_t row = 0;
    std::size_t columns = 1;
    std::size_t rows = 1;

    [[nodiscard]] std::string on(const std::string& sheet) const {
        const auto cell = [](std::size_t at_column, std::size_t at_row) {
            return "$" + column_name(at_column) + "$" + std::to_string(at_row + 1);
        };
        const std::string first = "$" + sheet + "." + cell(column, row);
        return columns * rows == 1 ? first : first + ":" + cell(column + columns - 1, row + rows - 1);
    }
};

/// One argument of one function, with its right cells and where they stand on the sheets made below.
struct Case {
    const FunctionEntry* entry = nullptr;
    std::size_t at = 0;
    std::vector<std::string> cells;  ///< as one would type them, row by row
    Block block;
    Block across;  ///< the same with rows and columns exchanged, on a sheet of its own

    [[nodiscard]] bool is_block() const { return cells.size() > 1; }
    [[nodiscard]] std::string name() const {
        return std::string(entry->method) + "." + std::string(entry->arguments[at].name);
    }
};

std::string typed(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return to_text(*number);
    // As a formula, so that "0000011" stays the text that it is.
    if (const auto* text = std::get_if<std::string>(&cell)) return "=\"" + *text + "\"";
    return "";
}

const std::vector<Case>& places() {
    static const std::vector<Case> all = [] {
        std::vector<Case> made;
        std::size_t column = 0;
        std::size_t row = 0;
        for (const auto& area : catalogue::areas()) {
            for (const FunctionEntry& entry : area.entries) {
                if (takes_anything(entry)) continue;
                const Arguments right = parse(right_call(entry)).arguments;
                if (right.values.size() != entry.arguments.size()) {
                    throw std::logic_error(right_call(entry) + " does not give every argument");
                }
                for (std::size_t at = 0; at < right.values.size(); ++at) {
                    Case place{.entry = &entry, .at = at, .cells = {}, .block = {.column = column}, .across = {}};
                    if (const auto* table = std::get_if<Table>(&right.values[at])) {
                        for (const Cell& cell : table->cells) place.cells.push_back(typed(cell));
                        place.block.columns = table->columns;
                        place.block.rows = table->rows();
                    } else if (const auto* number = std::get_if<double>(&right.values[at])) {
                        place.cells = {typed(*number)};
                    } else {
                        place.cells = {typed(std::get<std::string>(right.values[at]))};
                    }
                    place.across = {.column = 0, .row = row, .columns = place.block.rows, .rows = place.block.columns};
                    column += place.block.columns;
                    row += place.across.rows;
                    made.push_back(std::move(place));
                }
            }
        }
        return made;
    }();
    return all;
}

using Cells = std::vector<std::vector<std::string>>;

void put(Cells& cells, const Block& block, const std::vector<std::string>& texts) {
    for (std::size_t at = 0; at < texts.size(); ++at) {
        const std::size_t row = block.row + at / block.columns;
        const std::size_t column = block.column + at % block.columns;
        if (cells.size() <= row) cells.resize(row + 1);
        for (auto& each : cells) each.resize(std::max(each.size(), std::max(column + 1, cells[0].size())));
        cells[row][column] = texts[at];
    }
}

std::string all_of(const Cells& cells) {
    return "A1:" + column_name(cells.at(0).size() - 1) + std::to_string(cells.size());
}

/// Writes a whole sheet in one go; cell by cell it would take minutes.
void write(const Book& book, const std::string& sheet, const Cells& cells) {
    if (book.document()->getSheets()->hasByName(ustring(sheet)) == sal_False) {
        book.document()->getSheets()->insertNewByName(ustring(sheet), 32000);
    }
    css::uno::Sequence<css::uno::Sequence<rtl::OUString>> rows(static_cast<sal_Int32>(cells.size()));
    for (std::size_t row = 0; row < cells.size(); ++row) {
        auto& made = rows.getArray()[row];
        made.realloc(static_cast<sal_Int32>(cells[row].size()));
        for (std::size_t column = 0; column < cells[row].size(); ++column) {
            made.getArray()[column] = written_out(cells[row][column]);
        }
    }
    const Ref<css::sheet::XCellRangeFormula> range(book.range(sheet + "." + all_of(cells)), UNO_QUERY_THROW);
    range->setFormulaArray(rows);
}

css::uno::Sequence<css::uno::Sequence<css::uno::Any>> values(const Book& book, const std::string& address) {
    const Ref<css::sheet::XCellRangeData> range(book.range(address), UNO_QUERY_THROW);
    return range->getDataArray();
}

/// What stands in place of the right cell, or of the middle one where the argument is a range.
struct Replacement {
    const char* name;
    const char* typed;
    int error = 0;  ///< the code of the error that it is
};

const std::vector<Replacement>& replacements() {
    static const std::vector<Replacement> all{
        {"blank cell", ""},
        {"empty text", "=\"\""},
        {"word", "about ten"},
        {"TRUE", "=TRUE()"},
        {"negative", "-3"},
        {"2.5", "2.5"},
        {"85", "85"},
        {"#DIV/0!", "=1/0", 532},
        {"#VALUE!", "=\"a\"+1", 519},
        {"#NAME?", "=nosuchname", 525},
        {"#N/A", "=NA()", 32767},
        {"#NUM!", "=10^400", 503},
        {"#REF!", "=#REF!", 524},
        {"Err:502", "=REWORK.STICKS(1;2;9;15)", 502},
        {"Err:504", "=REWORK.TREES(1)", 504},
    };
    return all;
}

std::string sheet_of(std::size_t replacement) { return "Wrong" + std::to_string(replacement); }

std::size_t middle(const Case& place) {
    return place.block.rows / 2 * place.block.columns + std::min<std::size_t>(1, place.block.columns - 1);
}

std::string inline_array(const Case& place) {
    std::string text = "{";
    for (std::size_t at = 0; at < place.cells.size(); ++at) {
        if (at != 0) text += at % place.block.columns == 0 ? "|" : ";";
        text += place.cells[at].starts_with("=") ? place.cells[at].substr(1) : place.cells[at];
    }
    // For a single value an array of two, since an array of one is that value.
    if (!place.is_block()) text += ";" + text.substr(1);
    return text + "}";
}

struct Misuse {
    std::string name;
    std::function<std::string(const Case&)> argument;  ///< "" where it does not apply
    int error = 0;
};

std::vector<Misuse> misuses(const std::string& file) {
    const auto rows = [](const Case& place, std::size_t count) {
        if (!place.is_block()) return std::string();
        Block block = place.block;
        block.rows = count;
        return block.on("Right");
    };
    std::vector<Misuse> all;
    for (std::size_t at = 0; at < replacements().size(); ++at) {
        all.push_back({replacements()[at].name, [at](const Case& place) { return place.block.on(sheet_of(at)); },
                       replacements()[at].error});
    }
    all.push_back({"number as text", [](const Case& place) { return place.block.on("Texts"); }});
    all.push_back({"early or reversed", [](const Case& place) { return place.block.on("Reversed"); }});
    all.push_back({"one cell of it", [](const Case& place) {
                       return place.is_block() ? Block{.column = place.block.column}.on("Right") : "";
                   }});
    all.push_back(
        {"row for column", [](const Case& place) { return place.is_block() ? place.across.on("Across") : ""; }});
    all.push_back({"one row fewer", [&](const Case& place) { return rows(place, place.block.rows - 1); }});
    all.push_back({"one blank row more", [&](const Case& place) { return rows(place, place.block.rows + 1); }});
    all.push_back({"all blank", [](const Case& place) { return place.block.on("Blank"); }});
    // One cell for a range; a single value has had a blank and an empty one above. Written A1:A1 it may stand for
    // either.
    const auto one_cell = [](const std::string& sheet, bool as_range) {
        return [sheet, as_range](const Case& place) {
            const std::string cell = Block{.column = place.block.column}.on(sheet);
            if (as_range) return cell + ":" + cell.substr(cell.find('.') + 1);
            return place.is_block() ? cell : std::string();
        };
    };
    all.push_back({"one blank cell for a range", one_cell("Blank", false)});
    all.push_back({"one empty text for a range", one_cell("Empty", false)});
    all.push_back({"range of one blank cell", one_cell("Blank", true)});
    all.push_back({"range of one empty text", one_cell("Empty", true)});
    all.push_back({"range of one right cell", one_cell("Right", true)});
    all.push_back({"range for one value", [](const Case& place) {
                       Block block = place.block;
                       block.rows = 3;
                       return place.is_block() ? "" : block.on("Thrice");
                   }});
    all.push_back({"block 2 x 2", [](const Case& place) {
                       return Block{.column = place.block.column, .columns = 2, .rows = 2}.on("Thrice");
                   }});
    all.push_back({"inline array", inline_array});
    all.push_back({"union", [](const Case& place) {
                       const Block one{.column = place.block.column};
                       return "(" + one.on("Right") + "~" + one.on("Other") + ")";
                   }});
    all.push_back({"other sheet", [](const Case& place) { return place.block.on("Other"); }});
    all.push_back({"closed file", [file](const Case& place) { return "'" + file + "'#" + place.block.on("Right"); }});
    return all;
}

Misuse whole_column() {
    return {"whole column", [](const Case& place) {
                Block block = place.block;
                block.rows = 1048576;
                return block.on("Right");
            }};
}

std::string arguments_with(const Case& place, const std::string& wrong) {
    std::string text;
    for (const Case& each : places()) {
        if (each.entry != place.entry) continue;
        if (!text.empty()) text += ";";
        text += each.at == place.at ? wrong : each.block.on("Right");
    }
    return text;
}

std::string name_of(int error) {
    static const std::map<int, std::string> names{{503, "#NUM!"},  {519, "#VALUE!"}, {524, "#REF!"},
                                                  {525, "#NAME?"}, {532, "#DIV/0!"}, {32767, "#N/A"}};
    const auto found = names.find(error);
    return found == names.end() ? "Err:" + std::to_string(error) : found->second;
}

/// What a cell shows, to ten digits: "85", "\"Ana\"", "#N/A".
struct Seen {
    int error = 0;
    std::string text;
};

std::vector<std::vector<Seen>> seen(const Book& book, const std::string& sheet, const std::string& codes,
                                    const std::string& address) {
    const auto shown = values(book, sheet + "." + address);
    const auto errors = values(book, codes + "." + address);
    std::vector<std::vector<Seen>> all;
    for (sal_Int32 row = 0; row < shown.getLength(); ++row) {
        auto& line = all.emplace_back();
        for (sal_Int32 column = 0; column < shown[row].getLength(); ++column) {
            double code = 0;
            errors[row][column] >>= code;
            double number = 0;
            rtl::OUString text;
            std::ostringstream out;
            out.precision(10);
            if (code != 0) {
                out << name_of(static_cast<int>(code));
            } else if (shown[row][column] >>= number) {
                out << number;
            } else if (shown[row][column] >>= text) {
                out << '"' << utf8(text) << '"';
            }
            line.push_back({static_cast<int>(code), out.str()});
        }
    }
    return all;
}

/// A formula for the code of the error in a cell, 0 where there is none.
std::string code_of(const std::string& cell) {
    return std::string("=IFNA(IF(ISERROR(").append(cell).append(");ERRORTYPE(").append(cell).append(");0);32767)");
}

std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"") == std::string::npos) return text;
    std::string made = "\"";
    for (const char letter : text) made.append(letter == '"' ? 2 : 1, letter);
    return made + "\"";
}

/// Rows of the sheets that hold formulas begin here, so that no range of three rows lies beside a formula: the host
/// hands over the cell beside it where a single number is wanted.
constexpr std::size_t first_row = 20;

class Matrix : public testing::Test {
  protected:
    Folder folder;
    Book book = calc().new_book();
    std::vector<Misuse> columns = misuses(file_url(folder / "closed.ods"));

    void lay_out() {
        // As a person types it where the office speaks another locale.
        const std::string decimal = book.calculate("=0.5&\"\"").text.substr(1, 1);
        // Once at the end; each change would otherwise set off what hangs on it.
        const Ref<css::sheet::XCalculatable> calculatable(book.document(), UNO_QUERY_THROW);
        calculatable->enableAutomaticCalculation(sal_False);
        Cells right;
        Cells reversed;
        Cells across;
        Cells texts;
        Cells thrice;
        for (const Case& place : places()) {
            put(right, place.block, place.cells);
            std::vector<std::string> upside_down;
            for (std::size_t row = place.block.rows; row-- > 0;) {
                for (std::size_t column = 0; column < place.block.columns; ++column) {
                    upside_down.push_back(place.cells[row * place.block.columns + column]);
                }
            }
            // 2020-01-01, before any date of the calls.
            put(reversed, place.block, place.is_block() ? upside_down : std::vector<std::string>{"43831"});
            std::vector<std::string> turned;
            for (std::size_t column = 0; column < place.block.columns; ++column) {
                for (std::size_t row = 0; row < place.block.rows; ++row) {
                    turned.push_back(place.cells[row * place.block.columns + column]);
                }
            }
            put(across, place.across, turned);
            auto as_texts = place.cells;
            auto& one = as_texts[middle(place)];
            if (!one.starts_with("\"") && !one.starts_with("=")) boost::replace_all(one, ".", decimal);
            if (!one.starts_with("=")) one.insert(0, "=\"").append("\"");
            put(texts, place.block, as_texts);
            const auto& first = place.cells.front();
            put(thrice, {.column = place.block.column, .columns = 2, .rows = 3},
                {first, first, first, first, first, first});
        }
        write(book, "Right", right);
        write(book, "Other", right);
        write(book, "Reversed", reversed);
        write(book, "Across", across);
        write(book, "Texts", texts);
        write(book, "Thrice", thrice);
        write(book, "Blank", {{""}});
        write(book, "Empty", {std::vector<std::string>(right.front().size(), "=\"\"")});
        for (std::size_t at = 0; at < replacements().size(); ++at) {
            Cells wrong;
            for (const Case& place : places()) {
                auto cells = place.cells;
                cells[middle(place)] = replacements()[at].typed;
                put(wrong, place.block, cells);
            }
            write(book, sheet_of(at), wrong);
        }
        book.save_as(folder / "closed.ods", "calc8");
    }

    void calculate() {
        Cells calls;
        Cells reasons;
        Cells call_codes;
        Cells reason_codes;
        for (const Case& place : places()) {
            auto& call_row = calls.emplace_back();
            auto& reason_row = reasons.emplace_back();
            auto& call_code_row = call_codes.emplace_back();
            auto& reason_code_row = reason_codes.emplace_back();
            const auto add = [&](const std::string& argument, bool asks_why = true) {
                const std::string here = column_name(call_row.size()) + std::to_string(first_row + calls.size());
                if (argument.empty()) {
                    for (auto* cells : {&call_row, &reason_row, &call_code_row, &reason_code_row}) {
                        cells->emplace_back();
                    }
                    return;
                }
                const std::string name = place.entry->cell_name();
                const std::string arguments = arguments_with(place, argument) + ")";
                call_row.push_back(std::string("=").append(name).append("(").append(arguments));
                reason_row.push_back(
                    asks_why ? std::string("=REWORK.WHY(\"").append(name, 7).append("\";").append(arguments) : "");
                call_code_row.push_back(code_of("Calls." + here));
                reason_code_row.push_back(code_of("Reasons." + here));
            };
            add(place.block.on("Right"));
            for (const Misuse& misuse : columns) {
                // A million cells take WHY half a second, and what it says of a value it says of the block too.
                add(misuse.argument(place), misuse.name != "whole column" || place.is_block());
            }
        }
        const auto lower = [](Cells& cells) {
            cells.insert(cells.begin(), first_row, std::vector<std::string>(cells.front().size()));
        };
        for (Cells* cells : {&calls, &reasons, &call_codes, &reason_codes}) lower(*cells);
        write(book, "Calls", calls);
        write(book, "Reasons", reasons);
        write(book, "CallCodes", call_codes);
        write(book, "ReasonCodes", reason_codes);
        book.recalculate();
        const std::string address = "A" + std::to_string(first_row + 1) + ":" + column_name(calls.front().size() - 1) +
                                    std::to_string(calls.size());
        call = seen(book, "Calls", "CallCodes", address);
        why = seen(book, "Reasons", "ReasonCodes", address);
    }

    void shows_what_is_in(const char* file_name);

    std::vector<std::vector<Seen>> call;  ///< by place; the right call first, then by misuse
    std::vector<std::vector<Seen>> why;
};

void Matrix::shows_what_is_in(const char* file_name) {
    lay_out();
    calculate();
    std::ostringstream table;
    table << "argument,right";
    for (const Misuse& misuse : columns) table << "," << misuse.name;
    table << "\n";
    for (std::size_t row = 0; row < places().size(); ++row) {
        const Case& place = places()[row];
        const Seen& right = call[row][0];
        EXPECT_EQ(right.error, 0) << place.name();
        table << place.name() << "," << quoted(right.text);
        for (std::size_t at = 0; at < columns.size(); ++at) {
            const Misuse& misuse = columns[at];
            const Seen& is = call[row][at + 1];
            const Seen& reason = why[row][at + 1];
            const std::string where =
                place.name() + ", " + misuse.name + ": shows " + is.text + ", because " + reason.text;
            if (misuse.argument(place).empty()) {
                table << ",-";
                continue;
            }
            table << "," << quoted(is.text == right.text ? "=" : is.text);
            // An error in a cell is an error in the answer: the same one, or inside a range the one that the host makes
            // of it, for it calls no function with such a range.
            if (misuse.error != 0) {
                EXPECT_EQ(is.error, place.is_block() ? 504 : misuse.error) << where;
                EXPECT_NE(reason.error, 0) << where;
            }
            if (misuse.name == "other sheet") {
                EXPECT_EQ(is.text, right.text) << where;
            }
            // Of another file the host hands over a cell where a number is wanted, and nothing else.
            if (misuse.name == "closed file") {
                const auto kind = place.entry->parameters[place.at].kind;
                const bool taken = kind == Kind::number || kind == Kind::date;
                EXPECT_EQ(is.error == 0, taken) << where;
                EXPECT_EQ(is.text == right.text, taken) << where;
            }
            // A blank cell alone is 0, and the help says so where that is an answer; written A1:A1 it is as blank as
            // any.
            if (misuse.name == "one blank cell for a range" && is.error == 0) {
                const auto& argument = place.entry->arguments[place.at];
                const bool told = range_in_words(argument).find("A1 alone counts as 0") != std::string::npos;
                const bool no_days = argument.range.of == catalogue::Domain::Of::dates;
                EXPECT_TRUE(told || no_days) << where;
            }
            // The reason is there where the function refused, and only there. A cell that the host refused by itself
            // may have a reason too, or the host's own error; and where the host makes a single number of a range, of
            // an array or of a text, WHY sees those.
            static const std::set<std::string> made_by_host{"inline array", "whole column", "number as text", "union",
                                                            "closed file"};
            if (made_by_host.contains(misuse.name) && !place.is_block()) continue;
            const bool ours = is.error == 502 || is.error == 32767;
            if (reason.error == 0 && (is.error == 0 || ours)) {
                EXPECT_EQ(reason.text.size() > 2, ours) << where;
            }
            if (misuse.error == 0 && ours) {
                EXPECT_EQ(reason.error, 0) << where;
            }
        }
        table << "\n";
    }
    if (std::getenv("SLIPBARK_ACCEPT") != nullptr) {
        std::ofstream(file_name) << table.str();
        return;
    }
    std::ifstream file(file_name);
    std::istringstream lines(table.str());
    std::string is;
    std::string should;
    while (std::getline(lines, is)) {
        std::getline(file, should);
        EXPECT_EQ(is, should);
    }
    EXPECT_FALSE(std::getline(file, should)) << should;
}

using MisuseMatrix = Matrix;

// Whole columns by themselves (SLIPBARK_WHOLE_COLUMNS=1), since the host takes half a second for each million cells
// that it hands over.
TEST_F(MisuseMatrix, ShowsWhatTheTableSays) {
    const bool whole = std::getenv("SLIPBARK_WHOLE_COLUMNS") != nullptr;
    if (whole) columns = {whole_column()};
    shows_what_is_in(whole ? SLIPBARK_CALC_TESTS "/whole_columns.csv" : SLIPBARK_CALC_TESTS "/misuse_matrix.csv");
}

}  // namespace
}  // namespace slipbark::tests

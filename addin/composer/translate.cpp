#include "composer/translate.hpp"

#include <algorithm>
#include <array>
#include <boost/algorithm/string/case_conv.hpp>
#include <boost/algorithm/string/erase.hpp>
#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/predicate.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>
#include <unordered_map>

#include "catalogue/catalogue.hpp"
#include "catalogue/formats.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/sentence.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::compose {

namespace {

using catalogue::FunctionEntry;
using catalogue::Part;
using catalogue::Token;
using catalogue::Tokens;

/// A word of a function's and how the workbook shows it.
struct Word {
    std::string key;
    std::string here;
};

std::string in_quotes(const std::string& text) {
    return "\"" + boost::algorithm::replace_all_copy(text, "\"", "\"\"") + "\"";
}

std::string column_of(const std::vector<Word>& words, std::string Word::*side) {
    std::vector<std::string> rows;
    rows.reserve(words.size());
    for (const Word& word : words) rows.push_back(in_quotes(word.*side));
    return "{" + boost::algorithm::join(rows, "|") + "}";
}

/// `value` with each word of `from` as that of `to`, and all else as it is. All are parts of a formula.
std::string looked_up(const std::string& value, const std::string& from, const std::string& to) {
    return "IFERROR(INDEX(" + to + ";MATCH(" + value + ";" + from + ";0));" + value + ")";
}

/// Arguments of the host's functions, from 1 on, whose texts are codes.
const std::vector<std::size_t>& codes_of(const std::string& function) {
    static const std::map<std::string, std::vector<std::size_t>> all{
        {"ADDRESS", {5}},
        {"CELL", {1}},
        {"CONVERT", {2, 3}},
        {"DATEDIF", {3}},
        {"EXACT", {2}},
        {"INDIRECT", {1}},
        {"INFO", {1}},
        {"NUMBERVALUE", {2, 3}},
        {"ORG.LIBREOFFICE.CONVERT", {2, 3}},
        {"ORG.LIBREOFFICE.REGEX", {2, 3, 4}},
        {"TEXT", {2}},
    };
    static const std::vector<std::size_t> none;
    const auto found = all.find(function);
    return found == all.end() ? none : found->second;
}

/// Arguments of the host's functions, from 1 on, that the function gives back.
const std::vector<std::size_t>& values_of(const std::string& function) {
    static const std::map<std::string, std::vector<std::size_t>> all{
        {"IF", {2, 3}}, {"IFERROR", {1, 2}}, {"IFNA", {1, 2}}, {"CHOOSE", {2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}}};
    static const std::vector<std::size_t> none;
    const auto found = all.find(function);
    return found == all.end() ? none : found->second;
}

bool is_one_of(const std::vector<std::size_t>& numbers, std::size_t number) {
    return std::find(numbers.begin(), numbers.end(), number) != numbers.end();
}

bool is_keyword(std::span<const std::string_view> keywords, std::string_view text) {
    return std::any_of(keywords.begin(), keywords.end(),
                       [&](std::string_view one) { return boost::algorithm::iequals(one, text); });
}

/// A reference as a file stores it, without its brackets.
std::string_view unbracketed(std::string_view reference) {
    return reference.starts_with('[') ? reference.substr(1, reference.size() - 2) : reference;
}

bool is_literal(Tokens part) { return part.size() == 1 && part[0].part == Part::text; }

/// Where the operators of one kind stand outside of brackets.
std::vector<std::size_t> places_of(Tokens part, std::string_view letters) {
    std::vector<std::size_t> found;
    for (std::size_t at = 0; at < part.size(); ++at) {
        const Token& token = part[at];
        if (token.part == Part::operation && token.depth == part.front().depth &&
            letters.find(token.text) != std::string_view::npos) {
            found.push_back(at);
        }
    }
    return found;
}

Tokens cut(Tokens part) {
    while (!part.empty() && part.front().part == Part::blank) part = part.subspan(1);
    while (!part.empty() && part.back().part == Part::blank) part = part.first(part.size() - 1);
    return part;
}

/// A pattern with its places, the first of them {1}.
struct Pattern {
    std::string text;
    std::vector<Tokens> places;
};

Pattern pattern_of(Tokens part) {
    Pattern made;
    for (const Tokens operand : catalogue::split(part, "&")) {
        if (is_literal(operand)) {
            made.text += catalogue::unquoted(operand[0].text);
        } else {
            made.places.push_back(operand);
            made.text += "{" + std::to_string(made.places.size()) + "}";
        }
    }
    return made;
}

/// Whether it is a text for translators. A lone letter counts between places: "{1} a {2}".
bool is_said(const Pattern& pattern) {
    if (pattern.places.empty()) return has_words(pattern.text);
    return std::any_of(pattern.text.begin(), pattern.text.end(),
                       [](unsigned char c) { return std::isalpha(c) != 0 || c >= 0x80; });
}

std::string comment_of(const Pattern& pattern) {
    std::string comment;
    constexpr std::size_t longest = 60;
    for (std::size_t at = 0; at < pattern.places.size(); ++at) {
        std::string written(catalogue::written(pattern.places[at]));
        if (written.size() > longest) written = written.substr(0, longest - 3) + "...";
        comment += (comment.empty() ? "{" : ", {") + std::to_string(at + 1) + "} " + written;
    }
    return comment;
}

/// Keywords that a text of an argument may be, as the call is written.
std::vector<std::string> words_of_argument(const FunctionEntry& entry, std::size_t at, std::size_t given) {
    const catalogue::Argument& argument = entry.arguments[at];
    if (!argument.range.keywords.empty()) return {argument.range.keywords.begin(), argument.range.keywords.end()};
    if (argument.words == nullptr) return {};
    const auto other = std::ranges::find_if(
        entry.arguments, [&](const catalogue::Argument& one) { return one.name == argument.unless; });
    const bool is_given =
        other != entry.arguments.end() && static_cast<std::size_t>(other - entry.arguments.begin()) < given;
    return is_given ? std::vector<std::string>() : argument.words();
}

bool names_function(const FunctionEntry& entry) {
    return !entry.arguments.empty() && entry.arguments.front().names_function;
}

/// Whether a cell of a table may hold this as a keyword.
bool is_keyword_of_a_column(const catalogue::Argument& argument, std::string_view text) {
    return std::ranges::any_of(argument.range.columns, [&](const catalogue::ColumnDomain& column) {
        return is_keyword(column.keywords, text);
    });
}

/// The letters of a text, or of those inside a formula.
std::size_t letters_said(const std::string& text) {
    // A letter beyond ASCII has more than one byte, of which all but the first begin with the bits 10.
    const auto letters = [](std::string_view part) {
        return static_cast<std::size_t>(
            std::count_if(part.begin(), part.end(), [](unsigned char byte) { return (byte & 0xc0U) != 0x80U; }));
    };
    if (!text.starts_with('=')) return letters(text);
    std::size_t all = 0;
    for (const Token& token : catalogue::tokens(text)) {
        if (token.part == Part::text) all += letters(token.text);
    }
    return all;
}

bool is_running_text(Style style) {
    constexpr std::array all{Style::lead, Style::sentence, Style::note, Style::caution};
    return std::find(all.begin(), all.end(), style) != all.end();
}

/// How many lines so many letters take, in the composer's font.
int lines_of(std::size_t letters, double width_cm) {
    constexpr double letters_a_cm = 5.5;
    return static_cast<int>(std::ceil(static_cast<double>(letters) / (letters_a_cm * width_cm)));
}

/// How wide a text is in Liberation Sans of 10 pt, by kinds of letters.
double width_cm(std::string_view text) {
    constexpr double em_cm = 0.3528;
    double ems = 0;
    for (const char letter : text) {
        if ((static_cast<unsigned char>(letter) & 0xc0U) == 0x80U) continue;  // the rest of a letter beyond ASCII
        const auto one_of = [letter](std::string_view letters) { return letters.find(letter) != letters.npos; };
        ems += one_of("ijl'") ? 0.22 : one_of(" ft.,:;()/r-") ? 0.3 : one_of("cskvxyz") ? 0.5 : 0.556;
        if (one_of("mwMW")) ems += 0.28;
    }
    return ems * em_cm;
}

/// How many lines a text takes that is wrapped in a cell so wide.
int wrapped_lines(std::string_view text, double cell_cm) {
    constexpr double padding_cm = 0.2;
    int lines = 1;
    double taken = 0;
    while (!text.empty()) {
        const std::string_view word = text.substr(0, text.find(' '));
        text.remove_prefix(std::min(text.size(), word.size() + 1));
        const double width = width_cm(word);
        if (taken > 0 && taken + width > cell_cm - padding_cm) {
            ++lines;
            taken = 0;
        }
        taken += width + width_cm(" ");
    }
    return lines;
}

constexpr const char* table_words = "words_of_tables";
constexpr const char* table_words_here = "words_of_tables_here";

}  // namespace

class Translator {
  public:
    Translator(Workbook& book, TextCollector& texts) : book_(book), texts_(texts) {}

    void run() {
        note_shown_texts();
        note_keys();
        at("title");
        const std::string title = said(book_.title_);
        const std::string about = said(book_.about_);
        for (const auto& sheet : book_.sheets_) {
            at(*sheet, "title");
            titles_[sheet->title_] = said(sheet->title_);
            at(*sheet, "caution");
            if (!sheet->caution_.empty()) sheet->caution_ = said(sheet->caution_);
        }
        const auto defined = book_.expressions_;
        std::vector<Validation> validations = book_.validations_;
        for (Validation& one : validations) validation(one);
        for (const auto& sheet : book_.sheets_) cells(*sheet);
        for (auto& [name, address] : book_.names_) address = absolute(address);
        for (auto& [name, expression] : defined) {
            at(name);
            book_.expressions_[name] = "=" + formula(expression.substr(1), false);
        }
        for (const auto& sheet : book_.sheets_) sheet->title_ = titles_.at(sheet->title_);
        book_.validations_ = std::move(validations);
        book_.title_ = title;
        book_.about_ = about;
    }

  private:
    void at(const std::string& where) { texts_.at(book_.title_ + ": " + where); }
    void at(const Sheet& sheet, const std::string& where) {
        const std::string file = sheet.file_.empty() ? "" : sheet.file_ + ":" + where;
        texts_.at(book_.title_ + ": " + sheet.title_ + "." + where, file);
    }

    /// A text that is no formula.
    std::string said(const std::string& text) { return part(texts_, text); }

    void validation(Validation& one) {
        at("what may be entered");
        one.help = one.help.in(texts_);
        one.error = one.error.in(texts_);
        const auto list = one.condition.find("in-list(");
        if (list == std::string::npos) return;
        const std::size_t from = list + std::string_view("in-list(").size();
        const std::string items = one.condition.substr(from, one.condition.size() - from - 1);
        const auto tokens = catalogue::tokens(items);
        std::vector<std::string> choices;
        for (const Tokens item : catalogue::split(tokens, ";")) {
            const bool is_word = is_literal(item);
            choices.push_back(is_word ? in_quotes(said(catalogue::unquoted(item[0].text)))
                                      : "[" + absolute(unbracketed(catalogue::written(item))) + "]");
        }
        one.condition = one.condition.substr(0, from) + boost::algorithm::join(choices, ";") + ")";
    }

    void cells(Sheet& sheet) {
        sheet_ = &sheet;
        std::map<int, int> more;   // by row, the lines that its running texts are longer by
        std::map<int, int> least;  // by row, the lines of its highest entry of a table
        for (auto& [place, cell] : sheet.cells_) {
            auto* phrase = std::get_if<Phrase>(&cell.content);
            if (phrase == nullptr || phrase->english().empty() || cell.as_it_is) continue;
            const std::string text = phrase->english();
            at(sheet, Address(place.second, place.first).text());
            if (!text.starts_with('=') && is_key(sheet, {place.second, place.first})) {
                if (!book_.keeps_keywords_ && said(text) != text) cell.shown = said(text);
            } else if (!text.starts_with('=')) {
                *phrase = phrase->in(texts_);
            } else {
                *phrase = "=" + formula(text.substr(1), cell.array.has_value());
            }
            const double width = width_of(sheet, place.second, cell.columns);
            if (is_running_text(cell.style)) {
                const int lines =
                    lines_of(letters_said(phrase->english()), width) - lines_of(letters_said(text), width);
                more[place.first] = std::max(more[place.first], lines);
            } else if (cell.style == Style::body && !text.starts_with('=')) {
                least[place.first] = std::max(least[place.first], wrapped_lines(phrase->english(), width));
            }
        }
        // Rows without a height of their own grow by themselves.
        constexpr double line_cm = 0.42;
        for (auto& [row, height] : sheet.heights_) {
            height += line_cm * more[row];
            if (least[row] > 1) height = std::max(height, 0.2 + line_cm * least[row]);
        }
        for (auto& mark : sheet.marks_) {
            at(sheet, mark.area.first.text());
            mark.formula = formula(mark.formula.starts_with('=') ? mark.formula.substr(1) : mark.formula, false);
        }
        for (auto& [place, placed] : sheet.charts_) {
            at(sheet, Address(place.second, place.first).text());
            Chart& chart = placed.chart;
            for (std::string* text : {&chart.title, &chart.description, &chart.category_title, &chart.value_title}) {
                *text = said(*text);
            }
        }
    }

    static double width_of(const Sheet& sheet, int column, int columns) {
        constexpr double usual_cm = 2.26;  // the host's own
        double width = 0;
        for (int at = column; at < column + columns; ++at) {
            width += at <= static_cast<int>(sheet.widths_.size()) ? sheet.widths_[static_cast<std::size_t>(at - 1)]
                                                                  : usual_cm;
        }
        return width;
    }

    std::string formula(const std::string& text, bool is_array) {
        const std::string key = (is_array ? "{" : "=") + text;
        if (const auto known = formulas_.find(key); known != formulas_.end()) return known->second;
        const auto tokens = catalogue::tokens(text);
        const std::string made = in_this_language(tokens, expression(tokens), is_array);
        return formulas_.emplace(key, made).first->second;
    }

    /// What kind of text an expression gives.
    enum class Use {
        text,  ///< one that people read
        code   ///< one that a function of the host's reads
    };

    std::string expression(Tokens part, Use use = Use::text) {
        part = cut(part);
        if (part.empty()) return {};
        if (const auto operators = places_of(part, "<>="); !operators.empty()) return comparison(part, operators, use);
        if (use == Use::code) return operand(part, use);
        const Pattern pattern = pattern_of(part);
        if (!is_said(pattern)) return chain(part, use);
        if (pattern.places.size() == 1 && pattern.text == "{1}") return operand(part, use);
        if (pattern.places.empty()) return in_quotes(said(pattern.text));
        return filled(texts_.translate(pattern.text, comment_of(pattern)), pattern.places);
    }

    /// Operands of which none is a text to be said.
    std::string chain(Tokens part, Use use) {
        std::vector<std::string> made;
        for (const Tokens one : catalogue::split(part, "&")) made.push_back(operand(one, use));
        return boost::algorithm::join(made, "&");
    }

    std::string comparison(Tokens part, const std::vector<std::size_t>& operators, Use use) {
        std::vector<Tokens> sides;
        std::vector<std::string> signs;
        std::size_t from = 0;
        for (const std::size_t at : operators) {
            if (at == from && !signs.empty()) {  // the second letter of <=
                signs.back() += part[at].text;
            } else {
                sides.push_back(cut(part.subspan(from, at - from)));
                signs.emplace_back(part[at].text);
            }
            from = at + 1;
        }
        sides.push_back(cut(part.subspan(from)));
        const bool with_key = std::any_of(sides.begin(), sides.end(), [&](Tokens side) { return has_key(side); });
        std::string made;
        for (std::size_t at = 0; at < sides.size(); ++at) {
            made += expression(sides[at], with_key ? Use::code : use);
            if (at < signs.size()) made += signs[at];
        }
        return made;
    }

    /// Texts and places as a chain again.
    std::string filled(const std::string& pattern, const std::vector<Tokens>& places) {
        std::vector<std::string> made;
        std::string text;
        const auto end_text = [&] {
            if (!text.empty()) made.push_back(in_quotes(text));
            text.clear();
        };
        for (std::size_t at = 0; at < pattern.size(); ++at) {
            const auto close = pattern[at] == '{' ? pattern.find('}', at) : std::string::npos;
            const std::string number = close == std::string::npos ? "" : pattern.substr(at + 1, close - at - 1);
            if (number.empty() ||
                !std::all_of(number.begin(), number.end(), [](char c) { return c >= '0' && c <= '9'; })) {
                text += pattern[at];
                continue;
            }
            end_text();
            made.push_back(operand(places.at(std::stoul(number) - 1), Use::text));
            at = close;
        }
        end_text();
        return made.empty() ? "\"\"" : boost::algorithm::join(made, "&");
    }

    /// Anything without "&" and comparisons outside of brackets.
    std::string operand(Tokens part, Use use) {
        std::string made;
        for (std::size_t at = 0; at < part.size();) {
            const Token& token = part[at];
            if (token.part == Part::function) {
                const auto called = catalogue::call(part.subspan(at));
                if (!called) throw std::logic_error("no call at " + std::string(token.text));
                made += call(*called, use);
                at = called->rest.empty() ? part.size()
                                          : static_cast<std::size_t>(&called->rest.front() - &part.front());
            } else if (token.part == Part::open) {
                std::size_t close = at + 1;
                while (part[close].part != Part::close || part[close].depth != token.depth) ++close;
                made += bracket(part.subspan(at, close - at + 1), use);
                at = close + 1;
            } else {
                made += single(token, use);
                ++at;
            }
        }
        return made;
    }

    std::string bracket(Tokens part, Use use) {
        if (const auto made = array(part, [&](Tokens) { return use; })) return *made;
        return "(" + expression(part.subspan(1, part.size() - 2), use) + ")";
    }

    /// An inline array, each cell as `use_of` says; nullopt where it is none.
    template <class UseOf>
    std::optional<std::string> array(Tokens part, UseOf use_of) {
        const auto rows = catalogue::array_rows(part);
        if (rows.empty()) return std::nullopt;
        std::vector<std::string> lines;
        for (const auto& row : rows) {
            std::vector<std::string> cells;
            for (const Tokens cell : row) cells.push_back(expression(cell, use_of(cell)));
            lines.push_back(boost::algorithm::join(cells, ";"));
        }
        return "{" + boost::algorithm::join(lines, "|") + "}";
    }

    std::string single(const Token& token, Use use) {
        if (token.part == Part::text) {
            const std::string text = catalogue::unquoted(token.text);
            if (use == Use::code || !has_words(text)) return std::string(token.text);
            return in_quotes(said(text));
        }
        if (token.part == Part::reference) return reference(token.text);
        return std::string(token.text);
    }

    std::string reference(std::string_view text) {
        const auto found = catalogue::reference(text);
        if (!found) return std::string(text);
        const auto end = [&](const catalogue::Reference::End& one) {
            std::string made = one.sheet.empty() ? "" : quoted_title(titles_.at(catalogue::unquoted(one.sheet))) + ".";
            return made.append(one.address);
        };
        return end(found->first) + (found->last ? ":" + end(*found->last) : "");
    }

    /// An address as a file stores it, with its sheet: $Plan.$C$5:.$C$9.
    std::string absolute(std::string_view address) const {
        const auto found = catalogue::reference(address);
        if (!found || found->first.sheet.empty()) throw std::logic_error("no address: " + std::string(address));
        const auto end = [&](const catalogue::Reference::End& one) {
            const std::string sheet =
                one.sheet.empty() ? "" : "$" + quoted_title(titles_.at(catalogue::unquoted(one.sheet)));
            return sheet + "." + std::string(one.address);
        };
        return end(found->first) + (found->last ? ":" + end(*found->last) : "");
    }

    std::string call(const catalogue::Call& called, Use use) {
        if (const std::string_view own = catalogue::own_name(called.function); !own.empty()) {
            const std::string made = std::string(called.function) + "(" +
                                     boost::algorithm::join(own_arguments(own, called.arguments), ";") + ")";
            const FunctionEntry* entry = catalogue::find(own);
            const bool in_cell = entry != nullptr && entry->texts.words.in == catalogue::AnswerWords::In::cell;
            return in_cell && !book_.keeps_keywords_ ? with_answer_words(made, entry->texts.words) : made;
        }
        const std::string function = boost::algorithm::to_upper_copy(std::string(called.function));
        const bool with_key = std::any_of(called.arguments.begin(), called.arguments.end(),
                                          [&](Tokens argument) { return has_key(argument); });
        std::vector<std::string> arguments;
        for (std::size_t at = 1; at <= called.arguments.size(); ++at) {
            const Tokens argument = called.arguments[at - 1];
            const bool is_value = is_one_of(values_of(function), at);
            const bool is_code = is_one_of(codes_of(function), at) || (is_value && use == Use::code) ||
                                 (with_key && !is_value && is_literal(argument));
            if (function == "HYPERLINK" && at == 1 && is_literal(argument)) {
                arguments.push_back(link(catalogue::unquoted(argument[0].text)));
            } else {
                arguments.push_back(expression(argument, is_code ? Use::code : Use::text));
            }
        }
        return std::string(called.function) + "(" + boost::algorithm::join(arguments, ";") + ")";
    }

    /// "#Plan.B5"
    std::string link(const std::string& target) {
        const auto dot = target.find('.');
        if (!target.starts_with('#') || dot == std::string::npos) return in_quotes(target);
        const auto title = titles_.find(target.substr(1, dot - 1));
        return in_quotes(title == titles_.end() ? target : "#" + quoted_title(title->second) + target.substr(dot));
    }

    std::vector<std::string> own_arguments(std::string_view name, const std::vector<Tokens>& given) {
        std::vector<std::string> made;
        const FunctionEntry* entry = catalogue::find(name);
        std::vector<Tokens> arguments = given;
        if (entry != nullptr && !given.empty() && names_function(*entry)) {
            made.emplace_back(catalogue::written(given.front()));
            entry = is_literal(given[0]) ? catalogue::find(catalogue::unquoted(given[0][0].text)) : nullptr;
            arguments.erase(arguments.begin());
        }
        for (std::size_t at = 0; at < arguments.size(); ++at) {
            const bool is_known = entry != nullptr && at < entry->arguments.size();
            made.push_back(is_known ? own_argument(*entry, at, arguments) : expression(arguments[at]));
        }
        return made;
    }

    std::string own_argument(const FunctionEntry& entry, std::size_t at, const std::vector<Tokens>& all) {
        const catalogue::Argument& argument = entry.arguments[at];
        if (argument.translated) return own_text(argument, all[at]);
        const auto words = words_of_argument(entry, at, all.size());
        if (!words.empty()) return with_keywords(all[at], words);
        if (!argument.range.columns.empty()) return table(argument, all[at]);
        return expression(all[at]);
    }

    /// A call that gives back one of its arguments, such as IF, with these as `made` makes them; nullopt for all else.
    template <class Made>
    std::optional<std::string> branches(Tokens part, Made made) {
        const auto called = catalogue::call(part);
        if (!called || !called->rest.empty()) return std::nullopt;
        const auto& values = values_of(boost::algorithm::to_upper_copy(std::string(called->function)));
        if (values.empty()) return std::nullopt;
        std::vector<std::string> arguments;
        for (std::size_t at = 0; at < called->arguments.size(); ++at) {
            const Tokens argument = called->arguments[at];
            arguments.push_back(is_one_of(values, at + 1) ? made(argument) : expression(argument));
        }
        return std::string(called->function) + "(" + boost::algorithm::join(arguments, ";") + ")";
    }

    /// A text that an argument takes as one of the workbook's: itself, or a branch that gives it.
    std::string own_text(const catalogue::Argument& argument, Tokens part) {
        part = cut(part);
        if (is_literal(part)) return in_quotes(pattern(argument, catalogue::unquoted(part[0].text)));
        const auto chosen = branches(part, [&](Tokens value) { return own_text(argument, value); });
        return chosen ? *chosen : expression(part);
    }

    /// The same of the text itself. One whose places are filled by the function must have them all in each language.
    std::string pattern(const catalogue::Argument& argument, const std::string& english) {
        if (!argument.tagged) return said(english);
        if (!has_words(english) && catalogue::places_of(english).empty()) return english;
        const std::string here = texts_.translate(english);
        check_places(english, here);
        if (texts_.language().find(english).empty()) return here;  // not translated: English with its own signs
        return std::string(texts_.language().tag()) + ":" + here;
    }

    void check_places(const std::string& english, const std::string& here) const {
        const auto refuse = [&](const std::string& why) {
            throw std::logic_error(texts_.place() + ": \"" + here + "\" " + why);
        };
        const auto numbers = [&](const std::string& text, std::size_t forms) {
            std::set<std::pair<std::size_t, bool>> found;
            try {
                for (const catalogue::PatternPlace& place : catalogue::places_of(text)) {
                    found.emplace(place.number, place.format == "|");
                    if (place.format == "|" && place.forms.size() != forms) {
                        refuse("has " + std::to_string(place.forms.size()) + " forms of a plural, and " +
                               std::to_string(forms) + " are needed");
                    }
                }
            } catch (const bad_argument& bad) {
                refuse(bad.what());
            }
            return found;
        };
        const bool is_translated = here != english;
        const auto wanted = numbers(english, 2);
        if (numbers(here, is_translated ? catalogue::plural_forms(texts_.language()) : 2) != wanted) {
            refuse("has not the places of \"" + english + "\"");
        }
    }

    /// A table of which some columns are keywords: as literals these stay.
    std::string table(const catalogue::Argument& argument, Tokens part) {
        const auto made = array(cut(part), [&](Tokens cell) {
            const bool stays = is_literal(cell) && is_keyword_of_a_column(argument, catalogue::unquoted(cell[0].text));
            return stays ? Use::code : Use::text;
        });
        return made ? *made : expression(part);
    }

    /// An argument that may be a keyword: one that is written there stays, one from a cell is looked up.
    std::string with_keywords(Tokens part, const std::vector<std::string>& keywords) {
        part = cut(part);
        if (part.empty()) return {};
        if (is_literal(part)) {
            const std::vector<std::string_view> views(keywords.begin(), keywords.end());
            const std::string text = catalogue::unquoted(part[0].text);
            return is_keyword(views, text) ? std::string(part[0].text) : expression(part);
        }
        if (auto chosen = branches(part, [&](Tokens value) { return with_keywords(value, keywords); })) return *chosen;
        std::string value = expression(part);
        if (book_.keeps_keywords_) return value;
        if (const auto cells = referred(part); cells && cells->area.first != cells->area.last) return value;
        if (catalogue::literal(part)) return value;
        const std::vector<Word> words = words_of(keywords);
        return words.empty() ? value : looked_up(value, column_of(words, &Word::here), column_of(words, &Word::key));
    }

    /// Those that the workbook shows and that are called otherwise here.
    std::vector<Word> words_of(const std::vector<std::string>& keywords) {
        std::vector<Word> words;
        for (const std::string& key : keywords) {
            if (!shown_.contains(key)) continue;
            const std::string here = said(key);
            if (here != key) words.push_back({key, here});
        }
        return words;
    }

    /// A formula whose answer may hold words of the functions, with these words as they are here.
    std::string in_this_language(Tokens part, const std::string& made, bool is_array) {
        std::string shown = made;
        if (!is_array) return shown;
        std::set<catalogue::Words> known;
        for (const Token& token : part) {
            if (token.part != Part::function) continue;
            const std::string_view own = catalogue::own_name(token.text);
            const FunctionEntry* entry = own.empty() ? nullptr : catalogue::find(own);
            if (entry == nullptr || entry->texts.words.in == catalogue::AnswerWords::In::cell) continue;
            if (known.insert(entry->texts.words.all).second) shown = with_answer_words(shown, entry->texts.words);
        }
        return shown;
    }

    std::string with_answer_words(const std::string& value, const catalogue::AnswerWords& answer) {
        if (answer.all == nullptr) return value;
        std::vector<Word> words;
        for (const std::string& key : answer.all()) {
            const std::string here = texts_.translate(key);
            if (here != key) words.push_back({key, here});
        }
        if (words.empty()) return value;
        if (answer.in != catalogue::AnswerWords::In::list) {
            return looked_up(value, column_of(words, &Word::key), column_of(words, &Word::here));
        }
        book_.expressions_[table_words] = column_of(words, &Word::key);
        book_.expressions_[table_words_here] = column_of(words, &Word::here);
        return looked_up(value, table_words, table_words_here);
    }

    struct Cells {
        const Sheet* sheet;
        Area area;
    };

    /// The cells that a name or a reference stands for.
    std::optional<Cells> referred(Tokens part) const {
        if (part.size() != 1) return std::nullopt;
        std::string text(part[0].text);
        if (part[0].part == Part::name) {
            const auto name = std::find_if(book_.names_.begin(), book_.names_.end(),
                                           [&](const auto& one) { return one.first == text; });
            if (name == book_.names_.end()) return std::nullopt;
            text = name->second;
        } else if (part[0].part != Part::reference) {
            return std::nullopt;
        }
        const auto found = catalogue::reference(text);
        if (!found) return std::nullopt;
        const Sheet* sheet = sheet_;
        if (!found->first.sheet.empty()) {
            const std::string title = catalogue::unquoted(found->first.sheet);
            const auto named = std::find_if(book_.sheets_.begin(), book_.sheets_.end(),
                                            [&](const auto& one) { return one->title_ == title; });
            if (named == book_.sheets_.end()) return std::nullopt;
            sheet = named->get();
        }
        const auto place = [](std::string_view address) {
            return Address(boost::algorithm::erase_all_copy(std::string(address), "$"));
        };
        try {
            const Address first = place(found->first.address);
            return Cells{sheet, {first, found->last ? place(found->last->address) : first}};
        } catch (const std::logic_error&) {
            return std::nullopt;  // a whole column or row
        }
    }

    bool is_key(const Sheet& sheet, Address place) const { return keys_.contains({&sheet, place}); }

    bool has_key(Tokens part) const {
        if (keys_.empty()) return false;
        const auto cells = referred(cut(part));
        if (!cells) return false;
        for (int row = cells->area.first.row; row <= cells->area.last.row; ++row) {
            for (int column = cells->area.first.column; column <= cells->area.last.column; ++column) {
                if (is_key(*cells->sheet, {column, row})) return true;
            }
        }
        return false;
    }

    void note_shown_texts() {
        for (const auto& sheet : book_.sheets_) {
            for (const auto& [place, cell] : sheet->cells_) {
                const auto* text = std::get_if<Phrase>(&cell.content);
                if (text != nullptr && !text->english().starts_with('=')) shown_.insert(text->english());
            }
        }
        for (const Validation& one : book_.validations_) {
            for (const Token& token : catalogue::tokens(one.condition)) {
                if (token.part == Part::text) shown_.insert(catalogue::unquoted(token.text));
            }
        }
    }

    /// Finds the cells that hold a keyword which is not to be looked up: what is looked up is one cell, not a column of
    /// a table, and a workbook may show its calls as they are typed.
    void note_keys() {
        for (const auto& sheet : book_.sheets_) {
            sheet_ = sheet.get();
            for (const auto& [place, cell] : sheet->cells_) {
                const auto* text = std::get_if<Phrase>(&cell.content);
                if (text == nullptr || !text->english().starts_with('=') ||
                    text->english().find(catalogue::cell_prefix) == std::string::npos)
                    continue;
                const auto tokens = catalogue::tokens(text->english());
                for (std::size_t at = 0; at < tokens.size(); ++at) {
                    if (tokens[at].part != Part::function) continue;
                    const FunctionEntry* entry = catalogue::find(catalogue::own_name(tokens[at].text));
                    const auto called = catalogue::call(Tokens(tokens).subspan(at));
                    if (entry != nullptr && called) note_keys(*entry, called->arguments);
                }
            }
        }
    }

    void note_keys(const FunctionEntry& entry, const std::vector<Tokens>& given) {
        for (std::size_t at = 0; at < std::min(given.size(), entry.arguments.size()); ++at) {
            const catalogue::Argument& argument = entry.arguments[at];
            const auto cells = referred(cut(given[at]));
            if (!cells) continue;
            for (std::size_t column = 0; column < argument.range.columns.size(); ++column) {
                if (argument.range.columns[column].of != catalogue::ColumnDomain::Of::keywords) continue;
                const int number = cells->area.first.column + static_cast<int>(column);
                for (int row = cells->area.first.row; row <= cells->area.last.row; ++row) {
                    keys_.insert({cells->sheet, {number, row}});
                }
            }
            const bool is_word = !words_of_argument(entry, at, given.size()).empty() || names_function(entry);
            if (book_.keeps_keywords_ && is_word && cells->area.first == cells->area.last) {
                keys_.insert({cells->sheet, cells->area.first});
            }
        }
    }

    Workbook& book_;
    TextCollector& texts_;
    const Sheet* sheet_ = nullptr;
    std::map<std::string, std::string> titles_;  // English, here
    std::set<std::string> shown_;
    std::set<std::pair<const Sheet*, Address>> keys_;  // cells whose text is a keyword
    std::unordered_map<std::string, std::string> formulas_;
};

void translate(Workbook& book, TextCollector& texts) { Translator(book, texts).run(); }

}  // namespace slipbark::compose

// Worked examples for students: each function with a question, a hint, inputs to change, the formula, the answer, and
// what was published or computed apart from this extension. Formula, answer and what was printed are hidden until asked
// for.
//
// One sheet for each lesson of lessons.tsv, on it a card for each example. The guide's own examples come from the
// catalogue, so that no function is forgotten, with the questions of guide-questions.tsv; those of
// published-examples.tsv are rows of tests/reference/, by the same numbers.
#include "composer/computed/cards.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "composer/chart.hpp"
#include "composer/content.hpp"
#include "composer/sheet.hpp"
#include "composer/styles.hpp"
#include "composer/text.hpp"
#include "composer/text_collector.hpp"
#include "slipbark/defaults.hpp"
#include "support/checks.hpp"

namespace slipbark::compose {

namespace {

using catalogue::FunctionEntry;

/// One example. `call` is written with literals; each literal becomes a cell.
struct Example {
    std::string id;
    std::string file;  ///< of tests/reference/, which holds the example as a row by the same number; none for some
    std::string call;
    std::string question;
    std::string printed;  ///< a number, a date as 2027-09-06, a text, or "no answer"
    std::string kind;     ///< where `printed` comes from, as the card's label: Published, From memory, Computed, ...
    Phrase source;
    double tolerance = 0;  ///< 0: half a unit of the last printed digit
    int row = 1;           ///< which cell of a table is compared
    int column = 1;
    std::string cell = {};     ///< what that cell holds
    std::string by_hand = {};  ///< how to come near the answer without the function; gives it away
    std::string hint = {};     ///< a first step towards the answer of this question
};

constexpr const char* guide = "In the guide";
constexpr const char* guide_id = "guide";

/// A question in words for an example of the guide, and how to see its answer without the function.
struct Question {
    int line;          ///< in its file, which has the order of the cards
    std::string text;  ///< empty where another cell of the function's table is asked for among the published examples
    std::string by_hand;
    std::string hint;
};

/// By the function's method.
std::map<std::string, Question> read_questions(const std::filesystem::path& file) {
    std::map<std::string, Question> all;
    for (const TextLine& one : read_data(file).lines) {
        if (!all.emplace(one.field(0), Question{one.number, one.field(1), one.field(2), one.field(3)}).second) {
            throw TextError(file, one.number, "", one.field(0) + " has two questions");
        }
    }
    return all;
}

/// The published and the independently computed examples.
std::vector<Example> read_examples(const std::filesystem::path& file) {
    std::vector<Example> all;
    for (const TextLine& one : read_data(file).lines) {
        const auto number = [&](std::size_t at, double otherwise) {
            if (one.field(at).empty()) return otherwise;
            const auto found = read_number(one.field(at));
            if (!found) throw TextError(file, one.number, "", "\"" + one.field(at) + "\" is no number");
            return *found;
        };
        all.push_back({.id = one.field(0),
                       .file = one.field(1),
                       .call = one.field(2),
                       .question = one.field(3),
                       .printed = one.field(4),
                       .kind = one.field(5),
                       .source = one.field(6),
                       .tolerance = number(7, 0),
                       .row = static_cast<int>(number(8, 1)),
                       .column = static_cast<int>(number(9, 1)),
                       .cell = one.field(10),
                       .by_hand = one.field(11),
                       .hint = one.field(12)});
    }
    return all;
}

/// The words of a function of the catalogue.
Example from_catalogue(const FunctionEntry& entry, const Question& question) {
    const std::string source(entry.texts.source.english());
    return {.id = guide_id,
            .file = "",
            .call = std::string(entry.texts.example),
            .question = question.text,
            .printed = std::string(entry.texts.shows),
            .kind = guide,
            .source = Phrase([=](TextCollector& texts) { return part(texts, source) + "."; }),
            .by_hand = question.by_hand,
            .hint = question.hint};
}

std::optional<double> number_in(catalogue::Tokens part) {
    const auto value = catalogue::literal(part);
    const auto* const number = value ? std::get_if<double>(&*value) : nullptr;
    return number == nullptr ? std::nullopt : std::optional(*number);
}

std::optional<Date> date_of(const std::vector<catalogue::Tokens>& parts) {
    std::vector<int> numbers;
    for (const catalogue::Tokens part : parts) {
        if (const auto number = number_in(part)) numbers.push_back(static_cast<int>(*number));
    }
    if (numbers.size() != 3 || parts.size() != 3) return std::nullopt;
    return Date{std::chrono::year{numbers[0]}, std::chrono::month{static_cast<unsigned>(numbers[1])},
                std::chrono::day{static_cast<unsigned>(numbers[2])}};
}

/// What one literal of a call puts into its cell, and how the cell is compared with it.
struct Literal {
    Content content;
    std::string text;
};

Literal cell_of(catalogue::Tokens part) {
    const std::string text(catalogue::written(part));
    if (const auto call = catalogue::call(part); call && call->function == "DATE" && call->rest.empty()) {
        if (const auto date = date_of(call->arguments)) return {*date, text};
    }
    if (catalogue::reference(text)) return {Content{}, "\"\""};  // stands for a blank cell
    const auto value = catalogue::literal(part);
    if (!value) return {"=" + text, "(" + text + ")"};  // a calculation, such as 480/1.34
    if (const auto* number = std::get_if<double>(&*value)) return {*number, text};
    if (const auto* word = std::get_if<std::string>(&*value)) {
        return {word->empty() ? Content{} : Content(*word), text};
    }
    return {Content{}, "\"\""};
}

using Rows = std::vector<std::vector<Literal>>;

/// The cells of an inline array; none where the argument is a single value.
Rows block_of(catalogue::Tokens argument) {
    Rows rows;
    for (const auto& line : catalogue::array_rows(argument)) {
        rows.emplace_back();
        for (const catalogue::Tokens cell : line) rows.back().push_back(cell_of(cell));
    }
    return rows;
}

Format format_of(const Literal& one, catalogue::Unit unit) {
    if (std::holds_alternative<Date>(one.content)) return Format::date;
    if (const auto* number = std::get_if<double>(&one.content)) {
        if (unit == catalogue::Unit::date) return Format::date;
        const double thousandths = *number * 1000;
        const bool short_share = std::abs(thousandths - std::round(thousandths)) < 1e-9;
        return catalogue::is_fraction(unit) && short_share ? Format::percent_tenth : Format::general;
    }
    const auto* text = std::get_if<Phrase>(&one.content);
    return text != nullptr && !text->english().starts_with('=') ? Format::text : Format::general;
}

/// Help for a cell from the guide's words. Anything of the right kind is let in, so that the functions' own refusals
/// and reasons can be seen.
Validation entry_help(const catalogue::Argument& argument, const Literal& one) {
    const Phrase help(
        [argument](TextCollector& texts) { return catalogue::help_in_words(argument, texts.language()); });
    if (std::holds_alternative<Date>(one.content)) {
        return {"of:cell-content-is-date() and cell-content-is-between(-700000,3000000)", help,
                join_sentences("That is not a date.", help)};
    }
    const auto* text = std::get_if<Phrase>(&one.content);
    if (std::holds_alternative<std::monostate>(one.content) || (text != nullptr && !text->english().starts_with('='))) {
        return {"of:cell-content-text-length-is-between(0,80)", help, join_sentences("At most 80 letters.", help)};
    }
    return {"of:cell-content-is-decimal-number() and cell-content-is-between(-1000000000000000,1000000000000000)", help,
            join_sentences("That is not a number.", help)};
}

/// Where lists too long for a card stand, a column each.
class LongLists {
  public:
    explicit LongLists(Sheet& sheet) : sheet_(sheet) {}

    /// The area that a block now fills; its columns are headed by `heading`.
    Area add(const std::string& example, const std::string& heading, const Rows& block,
             const catalogue::Argument& argument, bool keeps_words) {
        const int width = static_cast<int>(block.front().size());
        const bool down = block.size() > block.front().size();
        const Address first = down ? Address{column_, first_row} : Address{3, table_row_ + 1};
        for (int at = 0; at < width; ++at) {
            sheet_.put({first.column + at, first.row - 1}, heading + ", " + example, Style::heading).as_it_is();
        }
        int row = first.row;
        for (const auto& line : block) {
            int column = first.column;
            for (const Literal& one : line) {
                auto cell = sheet_.put({column++, row}, one.content, Style::kept, format_of(one, argument.unit));
                cell.valid(entry_help(argument, one));
                if (keeps_words) cell.as_it_is();
            }
            ++row;
        }
        if (down) {
            rows_ = std::max(rows_, row - 1);
            column_ += width;
        } else {
            table_row_ = row;
        }
        if (rows_ >= tables) throw std::logic_error("a list reaches into the tables");
        return {first, {first.column + width - 1, row - 1}};
    }

    void close() {
        for (int row = first_row; row <= rows_; ++row) {
            sheet_.put(Address("B", row), row - first_row + 1, Style::body);
        }
        sheet_.print_area(Area({1, 1}, {std::max(column_ - 1, 12), table_row_ - 1}));
    }

  private:
    Sheet& sheet_;
    static constexpr int first_row = 5;
    static constexpr int tables = 80;  // below the longest list; series.tsv has their heading
    int column_ = 3;
    int rows_ = first_row;
    int table_row_ = tables + 1;
};

/// Where an example stands, for the table of all of them.
struct Listed {
    Example example;
    int number;  ///< among the examples of its function
    std::string function;
    std::string sheet;
    int row;
};

constexpr std::size_t most_in_card = 8;  // rows of a list
constexpr std::size_t letters_in_label = 27;
constexpr std::size_t letters_in_cell = 20;

/// One sheet of cards.
class Cards {
  public:
    /// `lesson` counts from 1.
    Cards(Sheet& sheet, LongLists& series, int lesson, const std::string& title, const std::string& aim)
        : sheet_(sheet), series_(series), shown_("shown_" + std::to_string(lesson)) {
        sheet_.columns({0.4, 5.4, 2.8, 2.5, 2.5, 0.3, 3.1, 3.4, 6.0});
        styles::opening(
            sheet_, Phrase([lesson, title](TextCollector& texts) {
                return texts.translate(translatable("Lesson {1}: {2}"), {std::to_string(lesson), part(texts, title)});
            }),
            join_sentences(aim,
                           "You may change the framed, tinted cells: the answer follows, and the verdict says "
                           "\"changed\" until the printed inputs are back."),
            8);
        sheet_.put("B3", "Answers of this lesson", Style::label);
        sheet_.put("C3", "hide", Style::input, Format::text)
            .name("show_" + std::to_string(lesson))
            .valid(one_of({"hide", "show"}, "show: formulas, answers and published values"));
        sheet_.put("D3", "hide or show; those of all lessons on sheet Overview", Style::unit);
        sheet_.put("T2", "Behind the answers; not printed", Style::workings);
        sheet_.put("T4", "Expected", Style::workings);
        sheet_.put("U4", "Given", Style::workings);
        sheet_.put("V4", "Unchanged", Style::workings);
        sheet_.put("W4", "Agrees", Style::workings);
        sheet_.put(Address("T", 3), R"(=OR(show_all="show";C3="show"))", Style::workings).name(shown_);
    }

    /// `number` counts the examples of a function from 1.
    int add(const Example& example, int number, const FunctionEntry& entry, const std::vector<std::string>& arguments);
    [[nodiscard]] int row() const { return row_; }

  private:
    static constexpr double page_cm = 36;  // before the page is scaled to its width; less than it has, for longer texts
    static constexpr double row_cm = 0.55;

    /// A row is at least so high. All heights are set, so that it is known where a page ends.
    void high(int row, double cm) { heights_[row] = std::max(cm, heights_.try_emplace(row, row_cm).first->second); }
    /// High enough for a text that is wrapped after so many letters.
    void high_for(int row, std::size_t letters_of_text, std::size_t letters_in_line) {
        const std::size_t lines = 1 + letters_of_text / letters_in_line;
        high(row, 0.2 + 0.42 * static_cast<double>(lines));
    }

    /// Sets the heights of a card's rows; a card that would be torn goes to the next page.
    void close(int top) {
        double height = 0;
        for (int row = top; row < row_; ++row) {
            const double cm = heights_.try_emplace(row, row_cm).first->second;
            sheet_.row_height(row, cm);
            height += cm;
        }
        if (on_page_ + height > page_cm) {
            sheet_.page_break(top);
            on_page_ = 0;
        }
        on_page_ += height;
    }

    void scalar(const catalogue::Argument& argument, const Literal& one) {
        sheet_.put(Address("B", row_), std::string(argument.meaning.english()), Style::body);
        auto cell = sheet_.put(Address("C", row_), one.content, Style::kept, format_of(one, argument.unit));
        cell.valid(entry_help(argument, one));
        if (argument.translated) cell.as_it_is();
        const auto* text = std::get_if<Phrase>(&one.content);
        if (text != nullptr && text->english().size() > letters_in_cell) {
            cell.across(3);  // where its unit would be
        } else {
            sheet_.put(Address("D", row_), Phrase([argument](TextCollector& texts) {
                           return catalogue::unit_in_words(argument, texts.language());
                       }),
                       Style::unit);
        }
        high_for(row_, argument.meaning.english().size(), letters_in_label);
        const std::string address = Address("C", row_).text();
        references_.push_back(address);
        compare(address, one);
        ++row_;
    }

    void compare(const std::string& address, const Literal& one) {
        const bool as_text = keeps_words_ && std::holds_alternative<Phrase>(one.content);
        // A blank is compared as one, so that 0 does not pass for it. EXACT compares with a text that stays English.
        unchanged_.push_back(as_text ? "EXACT(" + address + ";" + one.text + ")" : address + "=" + one.text);
    }

    void compare(const std::string& sheet, Area area, const Rows& block) {
        int row = area.first.row;
        for (const auto& line : block) {
            int column = area.first.column;
            for (const Literal& one : line) compare(sheet + Address{column++, row}.text(), one);
            ++row;
        }
    }

    /// Lists side by side under their names.
    void blocks(const std::string& example, const std::vector<std::pair<catalogue::Argument, Rows>>& lists);

    /// Puts the comparisons of the inputs in cells from `row` down, as many in each as a reader can take in; gives
    /// them.
    Area put_comparisons(int row);

    /// A formula that shows `expression` once the answers are asked for.
    [[nodiscard]] std::string when_shown(const std::string& expression) const {
        return "=IF(" + shown_ + ";" + expression + ";\"\")";
    }

    Sheet& sheet_;
    LongLists& series_;
    std::string shown_;  // the name of the cell that is TRUE once the answers are asked for
    int row_ = 5;
    double on_page_ = 3.3;  // the opening
    std::map<int, double> heights_;
    std::vector<std::string> references_;
    std::vector<std::string> unchanged_;  // what holds while nobody has changed an input
    bool keeps_words_ = false;  // whether the words in this card's tables are the function's own in every language
};

void Cards::blocks(const std::string& example, const std::vector<std::pair<catalogue::Argument, Rows>>& lists) {
    constexpr int columns = 3;
    std::vector<bool> in_card(lists.size());
    std::size_t taken = 0;
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const Rows& block = lists[list].second;
        const std::size_t width = block.front().size();
        in_card[list] = block.size() <= most_in_card && taken + width <= static_cast<std::size_t>(columns);
        if (in_card[list]) taken += width;
    }
    references_.resize(lists.size());
    // What is too long, too wide or too much stands on a sheet of its own and takes one line here, above the others.
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const auto& [argument, block] = lists[list];
        if (in_card[list]) continue;
        const Area area = series_.add(example, std::string(argument.name), block, argument, keeps_words_);
        references_[list] = "Series." + area.text();
        compare("Series.", area, block);
        sheet_.put(Address("B", row_), std::string(argument.meaning.english()), Style::body);
        high_for(row_, argument.meaning.english().size(), letters_in_label);
        sheet_.put(Address("C", row_), Phrase([area](TextCollector& texts) {
                       return texts.translate(translatable("sheet Series, {1}"), {area.text()});
                   }),
                   Style::unit);
        ++row_;
    }
    int column = 3;
    int deepest = 0;
    const int head = row_;
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const auto& [argument, block] = lists[list];
        if (!in_card[list]) continue;
        const std::string name(argument.name);
        const int width = static_cast<int>(block.front().size());
        const Area area({column, row_ + 1}, {column + width - 1, row_ + static_cast<int>(block.size())});
        for (int at = 0; at < width; ++at) {
            const Phrase text = at > 0 ? Phrase(name) : Phrase([name, unit = argument.unit](TextCollector& texts) {
                return texts.translate(translatable("{1} ({2})"), {name, texts.translate(catalogue::word(unit), {})});
            });
            auto cell = sheet_.put({column + at, row_}, text, Style::heading);
            if (at > 0) cell.as_it_is();
            high_for(row_, text.english().size(), 12);
        }
        int row = row_ + 1;
        for (const auto& line : block) {
            int at = column;
            for (const Literal& one : line) {
                auto cell = sheet_.put({at++, row}, one.content, Style::kept, format_of(one, argument.unit));
                cell.valid(entry_help(argument, one));
                if (keeps_words_) cell.as_it_is();
            }
            ++row;
        }
        references_[list] = area.first == area.last ? area.first.text() : area.text();
        compare("", area, block);
        column += width;
        deepest = std::max(deepest, static_cast<int>(block.size()));
    }
    if (deepest == 0) return;
    sheet_.put(Address("B", head), "Line", Style::heading);
    for (int row = 1; row <= deepest; ++row) sheet_.put(Address("B", head + row), row, Style::body);
    row_ = head + deepest + 1;
}

Content printed_content(const std::string& printed) {
    const auto parts = catalogue::tokens(printed);
    if (const auto date = date_of(catalogue::split(parts, "-"))) return *date;
    if (const auto number = number_in(parts)) return *number;
    return printed;
}

/// Half a unit of the last digit after the point; counts and long numbers are compared to twelve digits. To two
/// figures, so that neither 0.5 x 10^-4 shows its binary fraction nor offices differ in how they write it.
double tolerance_of(const Example& example) {
    if (example.tolerance > 0) return example.tolerance;
    const double size = std::max(1.0, std::abs(number_in(catalogue::tokens(example.printed)).value_or(1)));
    const auto point = example.printed.find('.');
    double tolerance = 1e-12 * size;
    if (point != std::string::npos) {
        tolerance = std::max(0.5 * std::pow(10.0, -static_cast<double>(example.printed.size() - point - 1)), tolerance);
    }
    const double scale = std::pow(10.0, std::floor(std::log10(tolerance)) - 1);
    return std::round(tolerance / scale) / std::round(1 / scale);
}

std::string within(const Example& example, const Content& printed) {
    if (!std::holds_alternative<double>(printed)) return "the same";
    const double tolerance = tolerance_of(example);
    if (tolerance < 1e-8) return example.printed.find('.') == std::string::npos ? "exactly" : "to the last digit shown";
    return "within " + plain_number(tolerance);
}

/// Whether what a function gives is the same in every language: a stage of the built-in tables, a keyword of its own, a
/// word of its answers.
bool is_a_name(const FunctionEntry& entry, const std::string& text) {
    if (entry.texts.words.all != nullptr) {
        const std::vector<std::string> answers = entry.texts.words.all();
        if (std::find(answers.begin(), answers.end(), text) != answers.end()) return true;
    }
    const bool has_own_texts = std::any_of(entry.arguments.begin(), entry.arguments.end(),
                                           [](const catalogue::Argument& argument) { return argument.translated; });
    if (has_own_texts && entry.texts.shows_in == nullptr) return true;
    const auto stages = defaults::stages();
    const auto is_text = [&](std::string_view one) { return one == text; };
    if (std::any_of(stages.begin(), stages.end(), [&](const auto& stage) { return is_text(stage.name); })) return true;
    return std::any_of(entry.arguments.begin(), entry.arguments.end(), [&](const catalogue::Argument& argument) {
        const auto& columns = argument.range.columns;
        return std::any_of(columns.begin(), columns.end(), [&](const catalogue::ColumnDomain& column) {
            return std::any_of(column.keywords.begin(), column.keywords.end(), is_text);
        });
    });
}

/// Whether the words in its tables are English unless another argument says what they mean, as those of a day-book.
bool takes_own_words(const FunctionEntry& entry) {
    return std::any_of(entry.arguments.begin(), entry.arguments.end(),
                       [](const catalogue::Argument& argument) { return argument.name == "words"; });
}

std::string date_call(Date date) {
    return "DATE(" + std::to_string(static_cast<int>(date.year())) + ";" +
           std::to_string(static_cast<unsigned>(date.month())) + ";" +
           std::to_string(static_cast<unsigned>(date.day())) + ")";
}

std::string in_a_formula(const std::string& text) {
    std::string quoted = "\"";
    for (const char letter : text) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
    return quoted + "\"";
}

Area Cards::put_comparisons(int row) {
    constexpr std::size_t most = 150;  // letters
    const Address first("V", row);
    if (unchanged_.empty()) unchanged_.emplace_back("TRUE()");
    std::string together;
    const auto put = [&] {
        sheet_.put(Address("V", row++), "=IFERROR(AND(" + together + ");FALSE())", Style::workings);
        together.clear();
    };
    for (const std::string& one : unchanged_) {
        if (!together.empty() && together.size() + one.size() > most) put();
        together += (together.empty() ? "" : ";") + one;
    }
    put();
    return {"V", first.row, row - 1};
}

int Cards::add(const Example& example, int number, const FunctionEntry& entry,
               const std::vector<std::string>& arguments) {
    const auto argument_of = [&](std::size_t at) -> const catalogue::Argument& {
        return entry.arguments.at(std::min(at, entry.arguments.size() - 1));
    };
    const int top = row_;
    const Address verdict_at("I", top);
    const std::string verdict = verdict_at.text();
    const std::string name = entry.cell_name();
    styles::band(sheet_, Address("B", top), number == 1 ? name : Phrase([name, number](TextCollector& texts) {
                     return texts.translate(translatable("{1}, example {2}"), {name, std::to_string(number)});
                 }),
                 7);
    sheet_.put(Address("B", top + 1), example.question, Style::sentence).across(8);
    const std::string does(entry.texts.does.english());
    sheet_
        .put(Address("B", top + 2), Phrase([does](TextCollector& texts) {
                 return texts.translate(translatable("Aim: {1}"), {part(texts, does)});
             }),
             Style::note)
        .across(8);
    high(top, 0.75);
    high_for(top + 1, example.question.size(), 110);
    high_for(top + 2, does.size() + 5, 125);
    row_ = top + 3;
    if (!example.hint.empty()) {
        sheet_
            .put(Address("B", row_), Phrase([hint = example.hint](TextCollector& texts) {
                     return texts.translate(translatable("Hint: {1}"), {part(texts, hint)});
                 }),
                 Style::note)
            .across(8);
        high_for(row_, example.hint.size() + 6, 125);
        ++row_;
    }
    const int below_texts = row_;
    references_.clear();
    unchanged_.clear();
    keeps_words_ = takes_own_words(entry);

    // Lists come after single values, whatever their order in the call.
    std::vector<std::string> ordered(arguments.size());
    std::vector<std::pair<catalogue::Argument, Rows>> lists;
    std::vector<std::size_t> list_places;
    for (std::size_t at = 0; at < arguments.size(); ++at) {
        if (arguments.at(at).empty()) continue;
        const auto parts = catalogue::tokens(arguments.at(at));
        if (Rows block = block_of(parts); !block.empty()) {
            lists.emplace_back(argument_of(at), std::move(block));
            list_places.push_back(at);
        } else {
            scalar(argument_of(at), cell_of(parts));
            ordered.at(at) = references_.back();
        }
    }
    references_.clear();
    blocks(std::string(catalogue::own_name(name)) + " " + std::to_string(number), lists);
    for (std::size_t at = 0; at < lists.size(); ++at) ordered.at(list_places.at(at)) = references_.at(at);

    std::string given;
    for (std::size_t at = 0; at < ordered.size(); ++at) given += (at == 0 ? "" : ";") + ordered.at(at);
    std::string call = entry.cell_name() + "(" + given + ")";
    const bool table = entry.gives == catalogue::Gives::table || entry.gives == catalogue::Gives::maybe_table;
    if (table) call = "INDEX(" + call + ";" + std::to_string(example.row) + ";" + std::to_string(example.column) + ")";
    if (example.printed == "no answer") call = "IFNA(" + call + ";\"no answer\")";

    const bool date = entry.gives == catalogue::Gives::date || entry.gives == catalogue::Gives::maybe_date;
    const Format format = date ? Format::date : Format::general;
    const bool any_version = entry.method == "version";
    const bool says_why = entry.texts.shows_in != nullptr;
    // WHY speaks the reader's language.
    const Content printed = any_version ? Content("any text")
                            : says_why  ? Content(Phrase([&entry](TextCollector& texts) {
                                  return catalogue::example_shows(entry, texts.language());
                              }))
                                        : printed_content(example.printed);

    // The right half: lines under each other, long texts over as many rows as they need.
    constexpr std::size_t letters = 52;  // that fit a row
    const auto rows_for = [](std::size_t length) { return 1 + static_cast<int>(length / letters); };
    int row = below_texts;
    const auto label = [&](const char* text) { sheet_.put(Address("G", row), text, Style::label); };
    // Texts that are the same in every language, or said by WHY, stand in a cell of their own outside the printed page.
    const auto* const words_printed = std::get_if<Phrase>(&printed);
    const bool is_number = std::holds_alternative<double>(printed) || date;
    std::string expected;
    if (const auto* const value = std::get_if<double>(&printed)) expected = plain_number(*value);
    if (const auto* const day = std::get_if<Date>(&printed)) expected = date_call(*day);
    if (words_printed != nullptr) {
        const Address aside("T", top);
        expected = aside.text();
        auto cell = sheet_.put(aside, printed, Style::workings);
        if (is_a_name(entry, words_printed->english())) cell.as_it_is();
    }
    const std::string tolerance = plain_number(date ? 0 : tolerance_of(example));
    const Address given_at("U", top);

    if (!any_version && !says_why) {
        label("Your answer");
        const Address own("H", row);
        sheet_.put(own, Content{}, Style::input, format);
        const std::string typed = own.text();
        // Shares and amounts may be rounded by the student, counts and dates not.
        const bool whole = example.printed.find('.') == std::string::npos;
        const std::string near = whole ? tolerance : "MAX(" + tolerance + ";0.005*ABS(" + given_at.text() + "))";
        const std::string right = is_number ? "ABS(" + typed + "-" + given_at.text() + ")<=" + near
                                            : "LOWER(TRIM(" + typed + "))=LOWER(" + given_at.text() + ")";
        sheet_.put(Address("I", row),
                   "=IF(" + typed + R"(="";"";IF(IFERROR()" + right + R"(;FALSE());"right";"not yet")))", Style::unit);
        ++row;
    }
    label("Formula");
    const int formula_rows = rows_for(call.size() + 4);
    const Address answer("H", row + formula_rows);
    // What the answer's cell holds, but for =IF(shown_n; before the call and ;"") after it, however that is called
    // here.
    const std::string whole_formula = "FORMULA(" + answer.text() + ")";
    const std::string bracket = "FIND(\"(\";" + whole_formula + ")";
    const std::string before = std::to_string(shown_.size() + 1);
    const std::string around = std::to_string(shown_.size() + 5);
    sheet_
        .put(Address("H", row),
             when_shown("\"=\"&MID(" + whole_formula + ";" + bracket + "+" + before + "+1;LEN(" + whole_formula + ")-" +
                        bracket + "-" + around + ")"),
             Style::sentence)
        .across(2, formula_rows);
    high(row, 0.75);
    row += formula_rows;
    label("Answer");
    const bool sentence = words_printed != nullptr && words_printed->english().size() > 18;
    auto answer_cell = sheet_.put(answer, when_shown(call), Style::answer, format);
    if (sentence) {
        answer_cell.across(2);
    } else {
        sheet_.put(Address("I", row), example.cell.empty() ? "" : Phrase([cell = example.cell](TextCollector& texts) {
                       return texts.translate(translatable("the table's {1}"), {part(texts, cell)});
                   }),
                   Style::unit);
    }
    ++row;
    label(example.kind.c_str());
    auto expected_cell = sheet_.put(Address("H", row), when_shown(expected), Style::body, format);
    if (sentence) {
        expected_cell.across(2);
    } else {
        sheet_.put(Address("I", row), any_version ? "" : within(example, printed), Style::unit);
    }
    ++row;
    const auto long_text = [&](const char* what, const Phrase& content, std::size_t length) {
        label(what);
        const int rows = rows_for(length);
        sheet_.put(Address("H", row), content, Style::note).across(2, rows);
        high(row, 0.65);
        row += rows;
    };
    if (!example.by_hand.empty()) {
        long_text("By hand", when_shown(in_a_formula(example.by_hand)), example.by_hand.size());
    }
    // The sources of published examples give answers away; those of the guide's are formulas and papers.
    long_text("Source", example.id == guide_id ? example.source : when_shown(in_a_formula(example.source.english())),
              example.source.english().size());
    label("Check value");
    sheet_
        .put(Address("H", row),
             example.file.empty() ? "none in tests/reference"
                                  : Phrase([file = example.file, id = example.id](TextCollector& texts) {
                                        return texts.translate(translatable("{1}, row {2}"), {file, id});
                                    }),
             Style::note)
        .across(2);
    ++row;
    // WHY gives the reason of others and has none of its own; where no answer is right, only an error wants a reason.
    std::string reason = why("=" + entry.cell_name() + "(" + given + ")");
    const std::string failed = "=IF(ISERROR(" + call + ");";
    if (entry.method == "why") reason = failed + R"("Give the name of a function first, as STICKS.";""))";
    if (example.printed == "no answer" && !reason.empty()) reason = failed + reason.substr(1) + ";\"\")";
    if (!reason.empty()) {
        label("Check");
        sheet_.put(Address("H", row), reason, Style::check);
        styles::mark_unfit(sheet_, Address("H", row));
        ++row;
    }

    const Area same = put_comparisons(top);
    // Judged while it is hidden, too: then by the call itself. A "?" stands for an error in every language.
    sheet_.put(given_at, "=IFERROR(IF(" + shown_ + ";" + answer.text() + ";" + call + ");\"?\")", Style::workings);
    const std::string given_now = given_at.text();
    std::string agrees = "EXACT(" + given_now + "&\"\";" + expected + ")";
    if (any_version || says_why) agrees = "LEN(" + given_now + ")>0";
    if (is_number) agrees = "ABS(" + given_now + "-" + expected + ")<=" + tolerance;
    const Address agrees_at("W", top);
    sheet_.put(agrees_at, "=IFERROR(" + agrees + ";FALSE())", Style::workings);
    sheet_.put(verdict_at,
               "=IF(NOT(AND(" + same.text() + "));\"changed\";IF(EXACT(" + given_now + "&\"\";\"?\");\"error\";IF(" +
                   agrees_at.text() + R"(;"agrees";"DIFFERS"))))",
               Style::total);
    sheet_.mark(verdict_at, verdict + "=\"changed\"", Style::due);
    sheet_.mark(verdict_at, "OR(" + verdict + "=\"DIFFERS\";" + verdict + "=\"error\")", Style::unfit);
    row_ = std::max({row_, row, same.last.row + 1}) + 1;
    close(top);
    return top;
}

/// A sheet of cards.
struct Lesson {
    std::string sheet;
    std::string title;
    std::string aim;
    std::vector<std::string> areas;  ///< of the catalogue; the last lesson takes those that no other names
};

std::vector<Lesson> read_lessons(const std::filesystem::path& file) {
    std::vector<Lesson> all;
    for (const TextLine& one : read_data(file).lines) {
        all.push_back({one.field(0), one.field(1), one.field(2), words_of(one.field(3))});
    }
    for (const catalogue::Area& area : catalogue::areas()) {
        const auto named = [&](const Lesson& lesson) { return std::ranges::count(lesson.areas, area.name) > 0; };
        if (std::ranges::none_of(all, named)) all.back().areas.emplace_back(area.name);
    }
    return all;
}

/// The functions of a lesson and their questions, what is easier first.
std::vector<std::pair<const FunctionEntry*, Question>> in_order(const catalogue::Area& area,
                                                                const std::map<std::string, Question>& questions) {
    std::vector<std::pair<const FunctionEntry*, Question>> entries;
    for (const FunctionEntry& entry : area.entries) {
        const auto found = questions.find(std::string(entry.method));
        if (found == questions.end()) throw std::logic_error("guide-questions.tsv lacks " + std::string(entry.method));
        entries.emplace_back(&entry, found->second);
    }
    std::ranges::sort(entries, {}, [](const auto& one) { return one.second.line; });
    return entries;
}

std::vector<Listed> cards(const ComputedSheets& sheets, const std::filesystem::path& folder) {
    const auto questions = read_questions(folder / "guide-questions.tsv");
    const std::vector<Example> extra = read_examples(folder / "published-examples.tsv");
    const std::vector<Lesson> lessons = read_lessons(folder / "lessons.tsv");
    LongLists series(*sheets.at("Series"));
    std::size_t used = 0;
    std::size_t asked = 0;
    std::vector<Listed> all;
    int place = 0;
    for (const Lesson& lesson : lessons) {
        Sheet& sheet = *sheets.at(lesson.sheet);
        Cards on(sheet, series, ++place, lesson.title, lesson.aim);
        for (const catalogue::Area& area : catalogue::areas()) {
            if (std::ranges::count(lesson.areas, area.name) == 0) continue;
            for (const auto& [function, question] : in_order(area, questions)) {
                const FunctionEntry& entry = *function;
                std::vector<Example> examples;
                if (!question.text.empty()) examples.push_back(from_catalogue(entry, question));
                ++asked;
                for (const Example& one : extra) {
                    if (const auto call = catalogue::find_call(one.call); call && call->entry == &entry) {
                        examples.push_back(one);
                        ++used;
                    }
                }
                if (examples.empty()) throw std::logic_error("no example asks for " + entry.cell_name());
                int number = 0;
                for (const Example& one : examples) {
                    const auto call = catalogue::find_call(one.call);
                    const int row = on.add(one, ++number, entry, call.value().arguments);
                    all.push_back({one, number, entry.cell_name(), lesson.sheet, row});
                }
            }
        }
        sheet.freeze(3);
        sheet.cursor("C3");
        sheet.print_area(Area({1, 1}, {9, on.row() - 2}));
    }
    if (used != extra.size()) throw std::logic_error("an example of published-examples.tsv belongs to no function");
    if (asked != questions.size()) throw std::logic_error("a question of guide-questions.tsv belongs to no function");
    series.close();
    return all;
}

/// The table of all examples on sheet Overview, below the headings that its text has.
void list_all(Sheet& sheet, const std::vector<Listed>& all) {
    constexpr int first = 21;
    int row = first;
    for (const Listed& one : all) {
        const std::string at = std::to_string(one.row);
        sheet.put(Address("B", row), one.function, Style::body);
        sheet.put(Address("C", row), one.number, Style::body);
        sheet.put(Address("D", row), one.example.question, Style::body);
        sheet.put(Address("E", row),
                  "=HYPERLINK(\"#" + one.sheet + ".B" + at + "\";\"" + one.sheet + ", row " + at + "\")", Style::body);
        sheet.put(Address("F", row), "=" + one.sheet + ".I" + at, Style::answer);
        ++row;
    }
    const Area verdicts("F", first, row - 1);
    sheet.name("verdicts", verdicts);
    const std::string head = verdicts.first.text();
    sheet.mark(verdicts, head + "=\"changed\"", Style::due);
    sheet.mark(verdicts, "OR(" + head + "=\"DIFFERS\";" + head + "=\"error\")", Style::unfit);
    sheet.print_area(Area({1, 1}, {6, row - 1}));
}

}  // namespace

void compute_cards(const ComputedSheets& sheets, const std::filesystem::path& folder) {
    list_all(*sheets.at("Overview"), cards(sheets, folder));
}

}  // namespace slipbark::compose

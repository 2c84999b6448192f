#include "composer/sheet.hpp"

#include <algorithm>
#include <array>
#include <boost/algorithm/string/erase.hpp>
#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <cctype>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "catalogue/entry.hpp"
#include "catalogue/formula.hpp"
#include "composer/text_collector.hpp"

namespace slipbark::compose {

namespace {

std::string joined(std::initializer_list<std::string_view> parts) {
    std::string whole;
    for (const std::string_view part : parts) whole += part;
    return whole;
}

int column_number(std::string_view letters) {
    int number = 0;
    for (const char letter : letters) {
        if (letter < 'A' || letter > 'Z') throw std::logic_error("no column is called " + std::string(letters));
        number = number * 26 + (letter - 'A' + 1);
    }
    if (number == 0) throw std::logic_error("a column is missing");
    return number;
}

std::string column_letters(int number) {
    std::string letters;
    for (; number > 0; number = (number - 1) / 26) {
        letters.insert(letters.begin(), static_cast<char>('A' + (number - 1) % 26));
    }
    return letters;
}

/// A number with the language's sign before its fraction.
std::string number_in(const TextCollector& texts, double value) {
    return boost::algorithm::replace_all_copy(plain_number(value), ".", texts.language().decimal_sign());
}

/// A share as a user types it: 0.15 as "15 %".
std::string per_cent(double share, const TextCollector& texts) {
    return number_in(texts, std::round(share * 1e6) / 1e4) + " %";
}

std::string grouped(double value, const TextCollector& texts) {
    std::string text = plain_number(value);
    if (text.find('.') != std::string::npos) return number_in(texts, value);
    const std::size_t sign = text.starts_with('-') ? 1 : 0;
    for (std::size_t at = text.size(); at > sign + 3;) text.insert(at -= 3, texts.language().thousands_sign());
    return text;
}

std::string between(const End& low, const End& high) {
    const auto end = [](const End& one) { return one.cell.empty() ? plain_number(one.number) : one.cell; };
    return joined({"cell-content-is-between(", end(low), ",", end(high), ")"});
}

/// Whether a formula takes anything from other cells; =1/11 is a number that has no other short form.
bool refers(const std::string& formula) {
    const auto parts = catalogue::tokens(formula);
    return std::any_of(parts.begin(), parts.end(), [](const catalogue::Token& token) {
        return token.part == catalogue::Part::reference || token.part == catalogue::Part::name;
    });
}

std::string words(Date date, TextCollector& texts) {
    constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                 "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return std::to_string(static_cast<unsigned>(date.day())) + " " +
           part(texts, months.at(static_cast<unsigned>(date.month()) - 1)) + " " +
           std::to_string(static_cast<int>(date.year()));
}

double serial(Date date) {
    constexpr auto null_date =
        std::chrono::sys_days{Date{std::chrono::year{1899}, std::chrono::December, std::chrono::day{30}}};
    return static_cast<double>((std::chrono::sys_days{date} - null_date).count());
}

}  // namespace

std::string plain_number(double value) {
    std::array<char, 400> buffer{};
    auto* const end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed).ptr;
    return {buffer.data(), end};
}

Address::Address(std::string_view text) {
    const auto letters = static_cast<std::size_t>(
        std::find_if(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c) != 0; }) - text.begin());
    column = column_number(text.substr(0, letters));
    const auto read = std::from_chars(text.data() + letters, text.data() + text.size(), row);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size() || row < 1) {
        throw std::logic_error("no cell's address: " + std::string(text));
    }
}

Address::Address(std::string_view letters, int at_row) : column(column_number(letters)), row(at_row) {}

std::string Address::text() const { return column_letters(column) + std::to_string(row); }

Area::Area(std::string_view text)
    : first(text.substr(0, text.find(':'))),
      last(text.find(':') == std::string_view::npos ? first : Address(text.substr(text.find(':') + 1))) {}

std::string Area::text() const { return first.text() + ":" + last.text(); }

namespace {

/// A validation that lets in what `right` names.
Validation asking_for(const std::string& condition, const Phrase& right) {
    return {condition, Phrase([right](TextCollector& texts) {
                return texts.translate(translatable("Enter {1}."), {right.in(texts)});
            }),
            Phrase([right](TextCollector& texts) {
                return texts.translate(translatable("That is not allowed. Enter {1}."), {right.in(texts)});
            })};
}

/// "a number from 0.5 to 60 (cm)"
Phrase range_in_words(Text words, const End& low, const End& high, std::string_view unit) {
    return Phrase([words, low, high, unit = std::string(unit)](TextCollector& texts) {
        const auto end = [&](const End& one) {
            return one.cell.empty() ? grouped(one.number, texts) : part(texts, one.name);
        };
        return texts.translate(words, {end(low), end(high), part(texts, unit)});
    });
}

}  // namespace

Validation whole(const End& low, const End& high, std::string_view unit) {
    return asking_for("of:cell-content-is-whole-number() and " + between(low, high),
                      range_in_words(translatable("a whole number from {1} to {2} ({3})"), low, high, unit));
}

Validation number(const End& low, const End& high, std::string_view unit) {
    return asking_for("of:cell-content-is-decimal-number() and " + between(low, high),
                      range_in_words(translatable("a number from {1} to {2} ({3})"), low, high, unit));
}

Validation measured(const Measure& metric, const Measure& us) {
    return asking_for("of:cell-content-is-decimal-number() and " +
                          between(std::min(metric.low, us.low), std::max(metric.high, us.high)),
                      Phrase([metric, us](TextCollector& texts) {
                          return texts.translate(
                              translatable("a number from {1} to {2} {3}, or from {4} to {5} {6}"),
                              {grouped(metric.low, texts), grouped(metric.high, texts), part(texts, metric.unit),
                               grouped(us.low, texts), grouped(us.high, texts), part(texts, us.unit)});
                      }));
}

Validation share(double low, double high) {
    const Phrase right([low, high](TextCollector& texts) {
        return texts.translate(translatable("a share from {1} to {2}"), {per_cent(low, texts), per_cent(high, texts)});
    });
    return {"of:cell-content-is-decimal-number() and " + between(low, high),
            // Calc writes the sign into such a cell by itself; who types it too has 15%%, which is a text.
            Phrase([right](TextCollector& texts) {
                return texts.translate(translatable("Enter {1}. Type 15 for 15 %: Calc adds the sign."),
                                       {right.in(texts)});
            }),
            Phrase([right](TextCollector& texts) {
                return texts.translate(
                    translatable("That is not allowed. Enter {1}. Type 15 for 15 %, without the sign: Calc adds it."),
                    {right.in(texts)});
            })};
}

Validation day(Date from, Date to) {
    return asking_for(
        "of:cell-content-is-date() and " + between(serial(from), serial(to)), Phrase([from, to](TextCollector& texts) {
            return texts.translate(translatable("a date from {1} to {2}"), {words(from, texts), words(to, texts)});
        }));
}

Validation one_of(const std::vector<std::string>& choices) {
    std::string list;
    for (const std::string& choice : choices) list += (list.empty() ? "\"" : ";\"") + choice + "\"";
    const Phrase right([choices](TextCollector& texts) {
        std::vector<std::string> said;
        said.reserve(choices.size());
        for (const std::string& choice : choices) said.push_back(part(texts, choice));
        return texts.translate(translatable("one of: {1}"), {boost::algorithm::join(said, ", ")});
    });
    Validation made = asking_for("of:cell-content-is-in-list(" + list + ")", right);
    made.help = Phrase(
        [right](TextCollector& texts) { return texts.translate(translatable("Choose {1}."), {right.in(texts)}); });
    return made;
}

Validation one_of(const std::vector<std::string>& choices, std::string_view meaning) {
    Validation made = one_of(choices);
    made.help = join_sentences(made.help, std::string(meaning));
    return made;
}

Validation any_text(std::string_view what) {
    Validation made = asking_for("of:cell-content-text-length-is-between(0,80)", std::string(what));
    made.error = Phrase([what = std::string(what)](TextCollector& texts) {
        return texts.translate(translatable("That is not allowed. Enter {1}, at most 80 letters."),
                               {part(texts, what)});
    });
    return made;
}

Sheet::CellHandle& Sheet::CellHandle::name(const std::string& range_name) {
    sheet_.name(range_name, place_);
    return *this;
}

Sheet::CellHandle& Sheet::CellHandle::valid(const Validation& validation) {
    sheet_.valid(place_, validation);
    return *this;
}

Sheet::CellHandle& Sheet::CellHandle::as_it_is() {
    sheet_.filled(place_).as_it_is = true;
    return *this;
}

Sheet::CellHandle& Sheet::CellHandle::across(int columns, int rows) {
    const auto cell = sheet_.filled(place_);
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            if (row == 0 && column == 0) continue;
            sheet_.fresh({place_.column + column, place_.row + row}).style = cell.style;
        }
    }
    sheet_.filled(place_).columns = columns;
    sheet_.filled(place_).rows = rows;
    return *this;
}

void Sheet::columns(std::vector<double> widths) { widths_ = std::move(widths); }

void Sheet::row_height(int row, double height_cm) { heights_[row] = height_cm; }

Sheet::Cell& Sheet::fresh(Address place) {
    const auto [at, is_new] = cells_.try_emplace({place.row, place.column});
    if (!is_new) throw std::logic_error(title_ + "." + place.text() + " is filled twice");
    return at->second;
}

Sheet::Cell& Sheet::filled(Address place) {
    const auto at = cells_.find({place.row, place.column});
    if (at == cells_.end()) throw std::logic_error(title_ + "." + place.text() + " is not filled yet");
    return at->second;
}

Sheet::CellHandle Sheet::put(Address place, Content content, Style style, Format format) {
    Cell& cell = fresh(place);
    const auto* text = std::get_if<Phrase>(&content);
    const bool entry = style == Style::input || style == Style::kept;
    if (entry && text != nullptr && text->english().starts_with('=') && refers(text->english()))
        style = Style::suggested;
    cell.content = std::move(content);
    cell.style = style;
    cell.format = format;
    return {*this, place};
}

Sheet::CellHandle Sheet::put(Address place, const char* text, Style style, Format format) {
    return put(place, Content(std::string(text)), style, format);
}

Sheet::CellHandle Sheet::put(Address place, double value, Style style, Format format) {
    return put(place, Content(value), style, format);
}

Sheet::CellHandle Sheet::put(Address place, int value, Style style, Format format) {
    return put(place, Content(static_cast<double>(value)), style, format);
}

void Sheet::array(Area area, const std::string& formula, Style style, const std::vector<Format>& formats) {
    for (int row = area.first.row; row <= area.last.row; ++row) {
        for (int column = area.first.column; column <= area.last.column; ++column) {
            const auto which = std::min(static_cast<std::size_t>(column - area.first.column), formats.size() - 1);
            put({column, row}, Content{}, style, formats.at(which));
        }
    }
    Cell& head = filled(area.first);
    head.content = formula;
    head.array = area;
}

void Sheet::name(const std::string& range_name, Area area) {
    if (catalogue::reference(range_name)) throw std::logic_error(range_name + " reads as a cell's address");
    for (const auto& [known, address] : book_->names_) {
        if (known == range_name) throw std::logic_error(range_name + " names two ranges");
    }
    const auto absolute = [](Address place) {
        return joined({".$", column_letters(place.column), "$", std::to_string(place.row)});
    };
    std::string address = joined({"$", quoted_title(title_), absolute(area.first)});
    if (area.first != area.last) address.append(":").append(absolute(area.last));
    book_->names_.emplace_back(range_name, address);
}

std::optional<End> Sheet::entry_end(const std::string& word, int row) const {
    // Relative addresses in a condition count from A1, so row 1 stands for the cell's own row.
    if (word.starts_with('$')) {
        const Address place{std::string_view(word).substr(1)};
        if (place.row != row) throw std::logic_error(word + " is not in the entry's line");
        return End("[.$" + column_letters(place.column) + "1]", word);
    }
    const auto named =
        std::find_if(book_->names_.begin(), book_->names_.end(), [&](const auto& one) { return one.first == word; });
    if (named == book_->names_.end()) return std::nullopt;
    const auto found = catalogue::reference(named->second).value();
    if (!found.last) return End("[" + named->second + "]", word);
    const Address first(boost::algorithm::erase_all_copy(std::string(found.first.address), "$"));
    const auto heading = cells_.find({first.row - 1, first.column});
    const auto* const text = heading == cells_.end() ? nullptr : std::get_if<Phrase>(&heading->second.content);
    return End("[.$" + column_letters(first.column) + "1]", text == nullptr ? word : text->english());
}

void Sheet::define(const std::string& name, const std::string& formula) {
    if (book_->knows(name)) throw std::logic_error(name + " has two meanings");
    book_->expressions_.emplace(name, formula);
}

bool Workbook::knows(const std::string& name) const {
    return expressions_.contains(name) ||
           std::any_of(names_.begin(), names_.end(), [&](const auto& one) { return one.first == name; });
}

void Sheet::valid(Area area, const Validation& validation) {
    Validation over_suggestion = validation;
    over_suggestion.help = join_sentences(validation.help, "A formula suggests one: type over it, or leave it.");
    const auto number_of = [&all = book_->validations_](const Validation& one) {
        const auto at = std::find(all.begin(), all.end(), one);
        const auto number = static_cast<int>(at - all.begin());
        if (at == all.end()) all.push_back(one);
        return number;
    };
    for (int row = area.first.row; row <= area.last.row; ++row) {
        for (int column = area.first.column; column <= area.last.column; ++column) {
            Cell& cell = filled({column, row});
            cell.validation = number_of(cell.style == Style::suggested ? over_suggestion : validation);
        }
    }
}

Address Sheet::first_input() const {
    const auto found = std::find_if(cells_.begin(), cells_.end(), [](const auto& cell) {
        const Style style = cell.second.style;
        return style == Style::input || style == Style::kept || style == Style::suggested;
    });
    return found == cells_.end() ? Address(1, 1) : Address(found->first.second, found->first.first);
}

std::vector<Area> Sheet::suggestions() const {
    std::vector<Area> found;
    for (const auto& [at, cell] : cells_) {
        if (cell.style != Style::suggested) continue;
        const Address place(at.second, at.first);
        const auto above = std::find_if(found.begin(), found.end(), [&](const Area& area) {
            return area.last.column == place.column && area.last.row == place.row - 1;
        });
        if (above == found.end()) {
            found.emplace_back(place);
        } else {
            above->last = place;
        }
    }
    return found;
}

void Sheet::mark(Area area, const std::string& formula, Style style) { marks_.push_back({area, formula, style}); }

void Sheet::chart(Address place, double width_cm, double height_cm, Chart chart) {
    charts_.insert_or_assign({place.row, place.column}, Placed{width_cm, height_cm, std::move(chart)});
    row_height(place.row, height_cm + 0.3);
    cells_.try_emplace({place.row, place.column});
}

void Sheet::print_area(Area area) { printed_ = area; }
void Sheet::print_nothing() { prints_ = false; }
void Sheet::page_break(int row) { breaks_.push_back(row); }

Sheet& Workbook::sheet(const std::string& title, Paper paper) {
    sheets_.push_back(std::unique_ptr<Sheet>(new Sheet(*this, title, paper == Paper::landscape)));
    return *sheets_.back();
}

std::string quoted_title(const std::string& title) {
    const bool plain = std::all_of(title.begin(), title.end(), [](unsigned char c) { return std::isalnum(c) != 0; });
    return plain ? title : "'" + boost::algorithm::replace_all_copy(title, "'", "''") + "'";
}

std::string why(const std::string& formula) {
    const auto call = catalogue::find_call(formula);
    if (!call || call->arguments.empty()) return {};
    const std::string name = call->entry->cell_name();
    return joined({"=", catalogue::cell_prefix, "WHY(\"", catalogue::own_name(name), "\";",
                   boost::algorithm::join(call->arguments, ";"), ")"});
}

}  // namespace slipbark::compose

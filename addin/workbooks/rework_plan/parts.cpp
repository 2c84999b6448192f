#include "workbooks/rework_plan/parts.hpp"

#include <algorithm>
#include <array>
#include <boost/range/adaptor/reversed.hpp>
#include <set>
#include <stdexcept>

#include "catalogue/formula.hpp"
#include "workbooks/entries.hpp"
#include "workbooks/speaker.hpp"

namespace slipbark::compose::block {

namespace {

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
        text.replace(at, what.size(), by);
    }
    return text;
}

/// "Give a date. Type ..." as "a date", for the middle of a sentence.
std::string right_of(const Validation& validation) {
    std::string text = validation.help.substr(0, validation.help.find(". "));
    if (text.ends_with('.')) text.pop_back();
    for (const std::string opening : {"Give ", "Choose "}) {
        if (text.starts_with(opening)) return text.substr(opening.size());
    }
    return text;
}

/// Entries that would count as 0 where they are blank: no figure hangs on them until they are filled in.
constexpr auto needed = std::to_array<std::string_view>(
    {"trees",          "stubs_per_tree", "grafts_per_stub", "stub_diameter_cm", "buds_per_graft", "buds_per_stick",
     "live_wanted",    "expected_take",  "graft_date",      "harvest_month",    "slip_days",      "crew",
     "grafts_per_day", "day_pay",        "hour_pay",        "mature_yield",     "old_yield",      "growing_cost",
     "new_price",      "old_price",      "pick_cost",       "stick_price",      "royalty",        "visit_cost",
     "trunk_cm",       "trunk_m",        "limb_length_m",   "latitude",         "longitude",      "utc_offset",
     "row_trees"});

/// A condition on a number, false for a text without comparing it.
std::string numeric(const std::string& condition) { return "IF(ISNUMBER({c});AND(" + condition + ");FALSE())"; }

std::string between(double low, double high) { return "{c}>=" + plain_number(low) + ";{c}<=" + plain_number(high); }

Kind made(Validation validation, std::string fits) {
    std::string says = right_of(validation);
    return {std::move(validation), std::move(fits), std::move(says)};
}

}  // namespace

std::string quoted(const std::string& text) { return "\"" + replaced(text, "\"", "\"\"") + "\""; }

Kind Kind::or_blank() const {
    Kind optional = *this;
    optional.fits = R"(OR(ISBLANK({c});{c}="";)" + fits + ")";
    optional.says = in_parts([says = says](Speaker& speaker) {
        return speaker.say(translatable("{1}, or nothing"), {part(speaker, says)});
    });
    return optional;
}

Kind whole_kind(double low, double high, const std::string& unit) {
    return made(whole(low, high, unit), numeric(between(low, high) + ";INT({c})={c}"));
}

Kind number_kind(double low, double high, const std::string& unit) {
    return made(number(low, high, unit), numeric(between(low, high)));
}

Kind measured_kind(const Measure& metric, const Measure& us, const std::string& factor) {
    // The ends of the one system, rounded inwards, are those of the other.
    return made(measured(metric, us), numeric("{c}*" + factor + ">=" + plain_number(metric.low) + ";{c}*" + factor +
                                              "<=" + plain_number(metric.high)));
}

Kind share_kind(double low, double high) {
    Kind kind = made(share(low, high), numeric(between(low, high) + ";OR({c}=0;{c}>=0.005)"));
    kind.says = in_parts([says = kind.says](Speaker& speaker) {
        return speaker.say(translatable("{1}; 15 is 15 %, 0.15 is less than a fifth of one per cent"),
                           {part(speaker, says)});
    });
    return kind;
}

Kind small_share_kind(double low, double high) { return made(share(low, high), numeric(between(low, high))); }

Kind printed_date_kind() { return made(any_date, entries::day_of("{c}") + ">0"); }

Kind date_kind() { return made(any_date, numeric(between(36526, 73050))); }

Kind choice_kind(const std::vector<std::string>& choices) {
    std::string any;
    for (const std::string& choice : choices) any += (any.empty() ? "OR({c}=" : ";{c}=") + quoted(choice);
    return made(one_of(choices), any + ")");
}

Kind text_kind(const std::string& what) { return made(any_text(what), "LEN({c})<=80"); }

void Entries::add(const std::string& label, Place place, const Kind& kind) {
    const std::string fits = "IFERROR(" + replaced(kind.fits, "{c}", place.text()) + ";FALSE())";
    rules_.emplace_back(
        fits, quoted(in_parts([label, says = kind.says](Speaker& speaker) {
            return speaker.say(translatable("{1}: give {2}."), {part(speaker, label), part(speaker, says)});
        })));
    // A form that nobody has begun is no heap of mistakes: what is blank there waits.
    sheet_.mark(place, "AND(NOT(" + fits + ");OR(LEN(" + place.text() + ")>0;COUNT(trees;graft_date)>0))", Style::mend);
}

void Entries::add_lines(const Area& checks) {
    const std::string said = "LEN(" + checks.text() + ")";
    const std::string row = "SUMPRODUCT(MIN(ROW(" + checks.text() + ")+10000000*(" + said + "=0)))";
    rules_.emplace_back("SUMPRODUCT(" + said + ")=0", "\"Line \"&" + row + "&\": \"&INDEX(" + checks.text() + ";" +
                                                          row + "-" + std::to_string(checks.first.row - 1) + ")");
}

void Entries::add_rule(const std::string& holds, const std::string& says) {
    rules_.emplace_back("IFERROR(" + holds + ";FALSE())", says);
}

void Entries::close(Place place, int columns) {
    std::string formula = "\"\"";
    for (const auto& [holds, says] : rules_ | boost::adaptors::reversed) {
        formula = "IF(" + holds + ";" + formula + ";" + says + ")";
    }
    auto cell = sheet_.put(place, "=" + formula, Style::check);
    cell.name(name_);
    if (columns > 1) cell.across(columns);
    look::mend_where_said(sheet_, place);
}

Sheet::Cell Lines::part(int column, const Content& content, Style style, Format format, int span) {
    auto cell = sheet_.put({column, at_.row}, content, style, format);
    if (span > 1) cell.across(span);
    return cell;
}

Lines& Lines::section(const std::string& text) {
    const int wide = spans_.label + spans_.value + spans_.unit + spans_.check;
    const int check_at = wide - spans_.check;
    for (int column = 0; column < wide; ++column) {
        std::string shown;
        if (column == 0) shown = text;
        if (column == check_at && first_) shown = "Check";
        sheet_.put({at_.column + column, at_.row}, shown, Style::section);
    }
    first_ = false;
    ++at_.row;
    return *this;
}

Lines& Lines::input(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                    Format format, const Kind& kind) {
    return entry(label, name, value, unit, format, kind, Style::input);
}

Lines& Lines::kept(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                   Format format, const Kind& kind) {
    return entry(label, name, value, unit, format, kind, Style::kept);
}

Lines& Lines::entry(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                    Format format, const Kind& kind, Style style) {
    part(at_.column, label, Style::label, Format::general, spans_.label);
    const int value_at = at_.column + spans_.label;
    auto cell = part(value_at, value, style, format, spans_.value);
    cell.valid(kind.validation);
    if (!name.empty()) cell.name(name);
    part(value_at + spans_.value, unit, Style::unit, Format::general, spans_.unit);
    entries_.add(label, {value_at, at_.row}, kind);
    ++at_.row;
    return *this;
}

/// The reason, worked out only where the answer is missing.
std::string Lines::where_missing(const std::string& expression) const {
    std::string reason = why_of(expression);
    if (reason.empty()) return reason;
    return "IF(LEN(" + Place(at_.column + spans_.label, at_.row).text() + ")>0;\"\";" + reason + ")";
}

Lines& Lines::answer(const std::string& label, const std::string& name, const std::string& expression,
                     const std::string& unit, Format format) {
    return line(label, name, expression, unit, format, Style::answer, where_missing(expression));
}

Lines& Lines::answer(const std::string& label, const std::string& name, const std::string& expression,
                     const std::string& unit, Format format, const std::string& check) {
    return line(label, name, expression, unit, format, Style::answer, check);
}

Lines& Lines::total(const std::string& label, const std::string& name, const std::string& expression,
                    const std::string& unit, Format format) {
    return line(label, name, expression, unit, format, Style::total, where_missing(expression));
}

Lines& Lines::total(const std::string& label, const std::string& name, const std::string& expression,
                    const std::string& unit, Format format, const std::string& check) {
    return line(label, name, expression, unit, format, Style::total, check);
}

Lines& Lines::line(const std::string& label, const std::string& name, const std::string& expression,
                   const std::string& unit, Format format, Style style, const std::string& check_says) {
    part(at_.column, label, Style::label, Format::general, spans_.label);
    const int value_at = at_.column + spans_.label;
    auto cell = part(value_at, or_blank(expression), style, format, spans_.value);
    if (!name.empty()) cell.name(name);
    part(value_at + spans_.value, unit, Style::unit, Format::general, spans_.unit);
    if (spans_.check > 0 && !check_says.empty()) {
        check(sheet_, {value_at + spans_.value + spans_.unit, at_.row}, check_says, spans_.check);
    }
    ++at_.row;
    return *this;
}

Lines& Lines::to_row(int row) {
    at_.row = row;
    return *this;
}

std::string or_blank(const std::string& expression) {
    std::set<std::string> named;
    for (const catalogue::Token& token : catalogue::tokens(expression)) {
        if (token.part == catalogue::Part::name && std::ranges::find(needed, token.text) != needed.end()) {
            named.emplace(token.text);
        }
    }
    if (named.empty()) return "=IFERROR(" + expression + ";\"\")";
    std::string all;
    for (const std::string& name : named) all += (all.empty() ? "" : ";") + name;
    return "=IFERROR(IF(COUNT(" + all + ")=" + std::to_string(named.size()) + ";" + expression + ";\"\");\"\")";
}

std::string quiet(const std::string& says) {
    return "=IF(LEN(entries)>0;\"\";IFERROR(" + says + ";\"This waits for an answer that is not there yet.\"))";
}

std::string why_of(const std::string& expression) {
    const std::string formula = why(expression);
    return formula.empty() ? formula : formula.substr(1);
}

void check(Sheet& sheet, Place place, const std::string& says, int columns) {
    if (says.empty()) throw std::logic_error(place.text() + ": a Check that says nothing");
    auto cell = sheet.put(place, quiet(says), Style::check);
    if (columns > 1) cell.across(columns);
    look::mend_where_said(sheet, place);
}

}  // namespace slipbark::compose::block

#include "composer/rework_plan/parts.hpp"

#include <algorithm>
#include <array>
#include <boost/algorithm/string/replace.hpp>
#include <boost/range/adaptor/reversed.hpp>
#include <set>
#include <stdexcept>

#include "catalogue/formula.hpp"
#include "composer/entries.hpp"
#include "composer/speaker.hpp"

namespace slipbark::compose::block {

namespace {

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

std::string quoted(const std::string& text) { return "\"" + boost::replace_all_copy(text, "\"", "\"\"") + "\""; }

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
    const std::string fits = "IFERROR(" + boost::replace_all_copy(kind.fits, "{c}", place.text()) + ";FALSE())";
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

Lines& Lines::section(const std::string& text) {
    form_.section(text);
    return *this;
}

Lines& Lines::input(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                    Format format, const Kind& kind) {
    entries_.add(label, form_.value_place(), kind);
    form_.input(label, name, value, unit, format, kind.validation);
    return *this;
}

Lines& Lines::kept(const std::string& label, const std::string& name, const Content& value, const std::string& unit,
                   Format format, const Kind& kind) {
    entries_.add(label, form_.value_place(), kind);
    form_.kept(label, name, value, unit, format, kind.validation);
    return *this;
}

/// The reason is worked out only where the answer is missing.
std::string Lines::check_of(const std::string& expression, const std::optional<std::string>& check) const {
    std::string says = check ? *check : why_of(expression);
    if (!check && !says.empty()) says = "IF(LEN(" + form_.value_place().text() + ")>0;\"\";" + says + ")";
    return says.empty() ? says : quiet(says);
}

Lines& Lines::answer(const std::string& label, const std::string& name, const std::string& expression,
                     const std::string& unit, Format format, const std::optional<std::string>& check) {
    form_.answer(label, name, or_blank(expression), unit, format, check_of(expression, check));
    return *this;
}

Lines& Lines::total(const std::string& label, const std::string& name, const std::string& expression,
                    const std::string& unit, Format format, const std::optional<std::string>& check) {
    form_.total(label, name, or_blank(expression), unit, format, check_of(expression, check));
    return *this;
}

Lines& Lines::to_row(int row) {
    form_.to_row(row);
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

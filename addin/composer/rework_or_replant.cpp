// Leave the block, rework it or replant it: three plans side by side, each over its own life and with what follows it.
//
// The scene is invented: farm, block, varieties, prices and costs. Plans of unlike life are compared by asset
// replacement: each is followed, for ever, by the best of those that can be begun again (Faustmann 1849; Perrin 1972,
// American Journal of Agricultural Economics 54(1):60-67; both from memory). The equal yearly amount over a plan's own
// life stands beside it; it alone would let a dying block be left again and again.
//
// The functions know no units: what is typed in feet or acres is converted where the trees are counted.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "slipbark/defaults.hpp"
#include "composer/entries.hpp"
#include "composer/look.hpp"
#include "composer/sheet.hpp"
#include "composer/workbooks.hpp"

namespace slipbark::compose {

namespace {

using entries::asked;
using entries::first_of;
using entries::Range;
using entries::unfit;
using entries::unfit_word;

constexpr int longest = 30;  // years that the tables have room for

/// A plan's columns: its inputs, their Checks and its answers on sheet Plans, its four columns on sheet Years and those
/// of the workings.
struct Plan {
    const char* name;
    const char* input;
    const char* unfit;  // what does not fit in the input of the same row
    const char* answer;
    std::array<const char*, 4> years;  // crop, costs, flow, summed
    const char* crop;                  // workings: crop of all years the tables hold
    const char* fixed;                 // workings: costs that do not depend on the crop
    const char* against;               // workings: costs and what leaving would have brought
    const char* gain;                  // workings: what the plan brings more than leaving
    const char* cash;                  // on sheet Cash
    int paint;
};

constexpr std::array<Plan, 3> plans{{
    {"leave", "C", "O", "I", {"D", "E", "F", "G"}, "Q", "T", "W", "Z", "E", 4},
    {"rework", "D", "P", "J", {"H", "I", "J", "K"}, "R", "U", "X", "AA", "F", 0},
    {"replant", "E", "Q", "K", {"L", "M", "N", "O"}, "S", "V", "Y", "AB", "G", 3},
}};

std::string replaced(std::string text, const std::string& mark, const std::string& by) {
    for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at + by.size())) {
        text.replace(at, mark.size(), by);
    }
    return text;
}

/// "{p}" becomes the plan's name, so that one formula serves all three: =REWORK.PRESENTVALUE(flows_{p};rate).
std::string of(const Plan& plan, const std::string& text) { return replaced(text, "{p}", plan.name); }

constexpr const char* crop_call =
    "=REWORK.YIELDBYYEAR(trees_{p};30;mature_{p};established_{p};made_good_{p};loss_{p};curve_{p})";

void headings_of_plans(Sheet& sheet, int row, const char* Plan::*column) {
    for (const Plan& plan : plans) sheet.put(Place(plan.*column, row), plan.name, Style::heading);
}

constexpr int first_single = 7;  // rows on sheet Plans
constexpr int first_line = 15;

/// Returns the row after the last input.
int inputs(Sheet& sheet) {
    look::band(sheet, "B6", "The block", 5);
    sheet.put("N6", "Behind the Checks; not printed", Style::workings);
    int row = first_single;
    const auto single = [&](const std::string& label, const std::string& name, Content value, const std::string& unit,
                            Format format, const Validation& validation, const std::string& check) {
        sheet.put(Place("B", row), label, Style::label);
        // What the figures are in is chosen once and for all blocks.
        auto cell = sheet.put(Place("C", row), std::move(value), name == "units" ? Style::kept : Style::input, format);
        cell.name(name).valid(validation);
        if (format == Format::text) cell.across(3);
        sheet.put(Place("F", row), unit, Style::unit);
        if (!check.empty()) {
            sheet.put(Place("O", row), "=" + check, Style::workings);
            sheet.mark(Place("C", row), "LEN($O" + std::to_string(row) + ")>0", Style::mend);
        }
        ++row;
    };
    const auto one_number = [&](const std::string& label, const std::string& name, double value,
                                const std::string& unit, Format format, const Validation& validation,
                                const Range& range) {
        single(label, name, value, unit, format, validation, unfit("\"" + label + "\"", name, range));
    };
    single("Block", "block", "Heron Bank, block 2", "name", Format::text, any_text("the block's name"), "");
    single("Currency, name or sign", "currency", "coins", "name", Format::text, any_text("the currency's name"), "");
    single("Units", "units", "metric", "metric or US", Format::text, one_of({"metric", "US"}),
           unfit_word("\"Units\"", "units", {"metric", "US"}));
    one_number("Area", "area_ha", 2.4, "=area_unit", Format::hundredth,
               number(0.01, 25000, "in the unit beside the cell"), {0.01, 25000, "area_unit"});
    one_number("Interest", "rate", 0.06, "a year, above inflation", Format::percent_tenth, share(0.001, 0.5),
               {0.001, 0.5, {}, true});
    one_number("Season of year 0, when the work is done", "first_season", 2027.0, "year", Format::general,
               whole(2000, 2100, "year"), {2000, 2100});

    look::band(sheet, Place("B", row++), "The plans", 5);
    headings_of_plans(sheet, row, &Plan::input);
    headings_of_plans(sheet, row, &Plan::unfit);
    sheet.put(Place("B", row), "", Style::heading);
    sheet.put(Place("F", row), "Unit", Style::heading);
    ++row;
    const auto check_line = [&](const Plan& plan, const std::string& check) {
        sheet.put(Place(plan.unfit, row), "=" + check, Style::workings);
        sheet.mark(Place(plan.input, row), "LEN($" + std::string(plan.unfit) + std::to_string(row) + ")>0",
                   Style::mend);
    };
    const auto line = [&](const std::string& label, const std::string& stem, const std::array<Content, 3>& values,
                          const std::string& unit, Format format, const Validation& validation, const Range& range) {
        sheet.put(Place("B", row), label, Style::label);
        for (std::size_t at = 0; at < plans.size(); ++at) {
            const Plan& plan = plans.at(at);
            const std::string name = stem + "_" + plan.name;
            sheet.put(Place(plan.input, row), values.at(at), Style::input, format).name(name).valid(validation);
            check_line(plan, unfit("\"" + label + of(plan, " ({p})\""), name, range));
        }
        sheet.put(Place("F", row), unit, Style::unit);
        ++row;
    };
    line("Between rows", "row_spacing", {6.0, "=IF(ISNUMBER(row_spacing_leave);row_spacing_leave;\"\")", 5.5},
         "=length_unit", Format::tenth, number(0.5, 165, "in the unit beside the cell"), {0.5, 165, "length_unit"});
    line("Between trees in the row", "tree_spacing",
         {4.0, "=IF(ISNUMBER(tree_spacing_leave);tree_spacing_leave;\"\")", 2.5}, "=length_unit", Format::tenth,
         number(0.2, 165, "in the unit beside the cell"), {0.2, 165, "length_unit"});
    const std::string counted =
        "=IFERROR(REWORK.TREES(area_ha*hectares;row_spacing_{p}*metres;tree_spacing_{p}*metres);\"\")";
    line("Trees, by spacing or counted", "trees", {of(plans[0], counted), "=trees_leave", of(plans[2], counted)},
         "trees", Format::count, whole(0, 1e7, "trees"), {0, 1e7, "\"trees\""});
    line("Remaining life: years until the trees go", "life", {8.0, 18.0, 25.0}, "years", Format::count,
         whole(1, longest, "years"), {1, longest, "\"years\""});
    sheet.put(Place("B", row), "Can be begun again when they are gone", Style::label);
    constexpr std::array<const char*, 3> again{"no", "no", "yes"};
    for (std::size_t at = 0; at < plans.size(); ++at) {
        const Plan& plan = plans.at(at);
        sheet.put(Place(plan.input, row), again.at(at), Style::kept, Format::text)
            .name(of(plan, "repeat_{p}"))
            .valid(one_of({"yes", "no"}));
        check_line(plan, unfit_word(of(plan, "\"Can be begun again ({p})\""), of(plan, "repeat_{p}"), {"yes", "no"}));
    }
    sheet.put(Place("F", row++), "yes or no", Style::unit);
    line("Yield of a mature tree", "mature", {68.0, 82.0, 55.0}, "=weight_unit&\" a year\"", Format::count,
         number(0, 12000, "in the unit beside the cell"), {0, 12000, "weight_unit&\" a year\""});
    const Range whole_share{0, 1, {}, true};
    line("Trees that take or establish", "established", {1.0, 0.9, 0.97}, "of the trees", Format::percent, share(0, 1),
         whole_share);
    line("Of the others, regrafted or replaced", "made_good", {0.0, 0.6, 0.95}, "good a year later", Format::percent,
         share(0, 1), whole_share);
    line("Trees lost in a year", "loss", {0.03, 0.015, 0.01}, "of the trees", Format::percent_tenth, share(0, 0.99),
         {0, 0.99, {}, true});
    const Validation money = number(0, 1e9, "your currency");
    const auto priced = [&](const std::string& label, const std::string& stem, const std::array<Content, 3>& values,
                            const std::string& each, Format format) {
        const std::string unit = "currency&\" \"&" + each;
        line(label, stem, values, "=" + unit, format, money, {0, 1e9, unit});
    };
    const std::string a_weight = "\"a \"&weight_unit";
    const std::string an_area = "an_area&\" and year\"";
    priced("Price", "price", {0.47, 0.78, 0.78}, a_weight, Format::hundredth);
    priced("Picking and packing", "pick", {0.2, 0.22, 0.22}, a_weight, Format::hundredth);
    priced("Growing costs", "grow", {3300.0, 3500.0, 3900.0}, an_area, Format::count);
    priced("Cutting back, or clearing an old tree", "clear", {0.0, 8.5, 21.0}, "\"an old tree\"", Format::hundredth);
    priced("Grafting, or planting a young tree", "plant", {0.0, 11.5, 16.0}, "\"a tree\"", Format::hundredth);
    priced("Site preparation, irrigation, trellis", "ground", {0.0, 0.0, 9200.0}, "an_area", Format::count);
    priced("Aftercare and training, year 1", "care_first", {0.0, 5.2, 4.4}, "\"a tree\"", Format::hundredth);
    priced("Aftercare and training, year 2", "care_second", {0.0, 2.8, 3.2}, "\"a tree\"", Format::hundredth);
    priced("Aftercare and training, year 3", "care_third", {0.0, 0.0, 2.0}, "\"a tree\"", Format::hundredth);
    priced("Royalty, once", "royalty_tree", {0.0, 2.5, 2.5}, "\"a tree\"", Format::hundredth);
    priced("Royalty, each year", "royalty_ha", {0.0, 60.0, 60.0}, an_area, Format::count);
    priced("Royalty on what is sold", "royalty_kg", {0.0, 0.02, 0.02}, a_weight, Format::hundredth);

    sheet.name("unfit_block", Area("O", first_single, first_line - 3));
    for (const Plan& plan : plans) sheet.name(of(plan, "unfit_lines_{p}"), Area(plan.unfit, first_line, row - 1));
    return row;
}

/// What stands behind the answers: units, what follows a plan, what is wrong with the entries.
void workings(Sheet& sheet, int row) {
    const auto one = [&](const std::string& label, const std::string& name, const std::string& formula) {
        sheet.put(Place("N", row), label, Style::workings);
        sheet.put(Place("O", row), formula, Style::workings).name(name);
        ++row;
    };
    const auto each = [&](const std::string& label, const std::string& stem, const std::string& formula) {
        sheet.put(Place("N", row), label, Style::workings);
        for (const Plan& plan : plans) {
            sheet.put(Place(plan.unfit, row), of(plan, formula), Style::workings).name(stem + "_" + plan.name);
        }
        sheet.name(stem, Area({Place(plans.front().unfit, row)}, {Place(plans.back().unfit, row)}));
        ++row;
    };
    ++row;
    one("Unit of area", "area_unit", R"(=IF(units="US";"acres";"ha"))");
    one("a unit of area", "an_area", R"(=IF(units="US";"an acre";"a ha"))");
    one("Unit of length", "length_unit", R"(=IF(units="US";"ft";"m"))");
    one("Unit of weight", "weight_unit", R"(=IF(units="US";"lb";"kg"))");
    one("Hectares in the unit of area", "hectares", R"(=IF(units="US";CONVERT(1;"uk_acre";"ha");1))");
    one("Metres in the unit of length", "metres", R"(=IF(units="US";CONVERT(1;"ft";"m");1))");
    const std::string crop = why(crop_call).substr(1);
    sheet.put(Place("N", row), "Why there is no crop", Style::workings);
    for (const Plan& plan : plans) {
        // The outlay of every plan counts the old trees.
        const bool old = &plan == plans.data();
        sheet
            .put(Place(plan.unfit, row),
                 of(plan, std::string("=IF(SUMPRODUCT(--(LEN(unfit_block)>0))>0;\"See the block.\";IF(") +
                              (old ? "FALSE()" : "LEN(unfit_leave)>0") +
                              ";\"See leave.\";IF(SUMPRODUCT(--(LEN(unfit_lines_{p})>0))>0;" +
                              first_of("unfit_lines_{p}") + ";IFERROR(" + crop +
                              ";\"The curve of this plan on sheet Curves holds an error.\"))))"),
                 Style::workings)
            .name(of(plan, "unfit_{p}"));
    }
    ++row;
    // Entries that fit each for itself may still make sums beyond all measure.
    each("Why there is no sum of its flows", "unsummed",
         "=IF(LEN(unfit_{p})>0;unfit_{p};IFERROR(" + why("=REWORK.EQUALANNUAL(flows_{p};rate)").substr(1) +
             ";\"The flows of this plan hold an error.\"))");
    one("All of them", "unfit_all", "=unsummed_leave&unsummed_rework&unsummed_replant");
    each("What a sum at its end is worth today", "fade", "=IF(LEN(unsummed_{p})>0;\"\";(1+rate)^-life_{p})");
    // What may follow: the best of the plans that can be begun again, or nothing where all of them lose money.
    one("Annual equivalent of what follows", "follow_annual",
        "=IF(LEN(unfit_all)>0;\"\";MAX(0;IF(repeat_leave=\"yes\";equal_annual_leave);IF(repeat_rework=\"yes\";"
        "equal_annual_rework);IF(repeat_replant=\"yes\";equal_annual_replant)))");
    one("What follows", "follow_plan",
        R"(=IF(LEN(unfit_all)>0;"";IF(follow_annual=0;"nothing";IF(AND(repeat_replant="yes";equal_annual_replant=)"
        R"(follow_annual);"replant";IF(AND(repeat_rework="yes";equal_annual_rework=follow_annual);"rework";"leave")))))");
    sheet.put(Place("N", row), "The same without the plan itself", Style::workings);
    for (std::size_t at = 0; at < plans.size(); ++at) {
        const Plan& plan = plans.at(at);
        const Plan& other = plans.at((at + 1) % 3);
        const Plan& third = plans.at((at + 2) % 3);
        const auto part = [](const Plan& which) { return of(which, "IF(repeat_{p}=\"yes\";equal_annual_{p})"); };
        sheet
            .put(Place(plan.unfit, row), "=IF(LEN(unfit_all)>0;\"\";MAX(0;" + part(other) + ";" + part(third) + "))",
                 Style::workings)
            .name(of(plan, "follow_else_{p}"));
    }
    ++row;
    each("Whether the plan follows itself at the price that matches leaving", "own",
         "=IF(LEN(unfit_all)>0;\"\";AND(repeat_{p}=\"yes\";equal_annual_leave>=follow_else_{p}))");
    each(
        "Paid back against leaving, years", "payback",
        "=IF(OR(LEN(unfit_all)>0;\"{p}\"=\"leave\");\"\";IFERROR(IFNA(REWORK.PAYBACK(gain_{p};rate);\"never\");\"\"))");
}

/// What is to be said of a plan: first what does not fit, then what is asked, then why an answer has none.
std::string checks(const Plan& plan) {
    const auto reason = [&](const std::string& formula) {
        return "IFERROR(" + why(of(plan, formula)).substr(1) + ";\"\")";
    };
    std::string text = of(plan, "=IF(LEN(unsummed_{p})>0;unsummed_{p};TRIM(");
    text += asked("\"Trees that take\"", of(plan, "established_{p}"), 0.01) + "&\" \"&";
    text += asked("\"What is regrafted or replaced\"", of(plan, "made_good_{p}"), 0.01) + "&\" \"&";
    text += asked("\"What is lost in a year\"", of(plan, "loss_{p}"), 0.005) + "&\" \"&";
    text +=
        of(plan, R"(IF(AND(units="US";row_spacing_{p}<8);"Rows "&row_spacing_{p}&" ft apart: or was that metres? ";)"
                 R"(IF(AND(units="metric";row_spacing_{p}>13);"Rows "&row_spacing_{p}&" m apart: or was that feet? ";)"
                 R"(""))&)");
    if (plan.name != std::string("leave")) {
        text += of(plan, R"(IF(payback_{p}="never";"It never catches up with leaving the block. ";"")&)");
    }
    return text + reason("=REWORK.BREAKEVENPRICE(costs_{p};crop_{p};rate)") + "))";
}

/// Returns the row after the last one.
int answers(Sheet& sheet) {
    look::band(sheet, "H6", "What follows", 5);
    sheet.put("H7", "", Style::heading);
    headings_of_plans(sheet, 7, &Plan::answer);
    sheet.put("L7", "Unit", Style::heading);
    int row = 8;
    const auto line = [&](const std::string& label, const std::string& stem, const std::string& needs,
                          const std::string& formula, const std::string& unit, Format format,
                          Style style = Style::answer) {
        sheet.put(Place("H", row), label, Style::label);
        for (const Plan& plan : plans) {
            auto cell = sheet.put(Place(plan.answer, row), of(plan, "=IF(LEN(" + needs + ")>0;\"\";" + formula + ")"),
                                  style, format);
            if (!stem.empty()) cell.name(stem + "_" + plan.name);
        }
        sheet.put(Place("L", row), unit, Style::unit);
        ++row;
    };
    const auto ranged = [&](const std::string& name) {
        sheet.name(name, Area(Place(plans.front().answer, row - 1), Place(plans.back().answer, row - 1)));
    };
    const std::string own = "unsummed_{p}";
    const std::string all = "unfit_all";
    line("Outlay in year 0", "outlay", own, "INDEX(costs_{p};1)", "=currency&\"\"", Format::count);
    line("Crop of the best year", "", own, "MAX(crop_{p})/IF(units=\"US\";2000;1000)",
         R"(=IF(units="US";"short tons";"tonnes"))", Format::tenth);
    line("Cumulative cash flow, no interest", "", own, "SUM(flows_{p})", "=currency&\"\"", Format::count);
    line("Present value over its own life", "present_value", own, "REWORK.PRESENTVALUE(flows_{p};rate)",
         "=currency&\"\"", Format::count);
    line("Annual equivalent over its own life", "equal_annual", own, "REWORK.EQUALANNUAL(flows_{p};rate)",
         "=currency&\" a year\"", Format::count);
    ranged("equal_annual");
    line("Followed for ever by the plan to", "", all, "follow_plan",
         R"(=IF(LEN(unfit_all)>0;"";"after "&)"
         R"(life_leave&", "&life_rework&", "&life_replant&" years"))",
         Format::general);
    line("Present value with what follows", "worth", all, "present_value_{p}+fade_{p}*follow_annual/rate",
         "=currency&\"\"", Format::count);
    line("Annual equivalent with what follows", "forever", all, "equal_annual_{p}*(1-fade_{p})+fade_{p}*follow_annual",
         "=currency&\" a year\"", Format::count, Style::total);
    ranged("forever");
    line("The same, by area", "", all, "forever_{p}/area_ha", "=currency&\" \"&an_area&\" and year\"", Format::count);
    line("More than leaving the block", "", all, "forever_{p}-forever_leave", "=currency&\" a year\"", Format::count);
    line("Paid back against leaving, by end of", "payback_year", all,
         "IF(ISNUMBER(payback_{p});first_season+ROUNDUP(payback_{p};0);payback_{p})",
         R"(=IFERROR("rework: odds "&)"
         R"(ROUND(100*INDEX(odds_shares;payback_year_rework-first_season+1);0)&" %";"season, with interest"))",
         Format::general);
    line("Break-even price", "pays_price", own,
         "IFERROR(IFNA(REWORK.BREAKEVENPRICE(costs_{p};crop_{p};rate);\"no crop\");\"\")",
         "=currency&\" a \"&weight_unit", Format::hundredth);
    line("Price that matches leaving the block", "match_price", all,
         "IFERROR(IFNA(REWORK.BREAKEVENPRICE(against_{p};crop_{p};rate);\"no crop\");\"\")",
         "=currency&\" a \"&weight_unit", Format::hundredth);

    ++row;
    look::band(sheet, Place("H", row++), "Check (blank is fine)", 5);
    const auto check = [&](const std::string& label, const std::string& name, const std::string& formula, int rows) {
        sheet.put(Place("H", row), label, Style::label);
        sheet.put(Place("I", row), formula, Style::note).name(name).across(4, rows);
        sheet.mark(Area(Place("I", row), Place("L", row + rows - 1)), "LEN($I" + std::to_string(row) + ")>0",
                   Style::mend);
        row += rows;
    };
    check("the block", "check_block",
          "=IF(SUMPRODUCT(--(LEN(unfit_block)>0))>0;" + first_of("unfit_block") + ";" +
              asked("\"Interest\"", "rate", 0.01) + ")",
          2);
    for (const Plan& plan : plans) check(plan.name, of(plan, "check_{p}"), checks(plan), 3);
    ++row;
    look::band(sheet, Place("H", row++), "How to read this", 5);
    sheet
        .put(Place("H", row),
             "The plans end after different years, so their present values do not compare. The annual equivalent "
             "over "
             "its own life is the same sum at the end of each year, worth as much as its uneven flows; it supposes "
             "that a plan is begun again when it ends, and a block whose trees are gone cannot be left again. So "
             "the "
             "verdict comes from the second: each plan runs its life, and then the best of those that can be begun "
             "again follows, for ever.",
             Style::note)
        .across(5, 5);
    row += 5;
    sheet
        .put(Place("H", row),
             "An estimate for comparing plans, no advice: every figure on the left is yours to change. A protected "
             "variety needs its owner's written licence before the first cut, whatever this page says.",
             Style::caution)
        .across(5, 2);
    return row + 2;
}

/// The verdict in words, from the annual equivalents with what follows.
std::string verdict() {
    const auto amount = [](const std::string& number) { return "FIXED(" + number + ";0)"; };
    const auto level = [](const std::string& plan) { return "ROUND(forever_" + plan + ";0)=ROUND(MAX(forever);0)"; };
    const std::string best = "MATCH(MAX(forever);forever;0)";
    const std::string one = "IF(" + best + "=1;2;1)";
    const std::string other = "IF(" + best + "=3;2;3)";
    const auto name = [](const std::string& index) { return "CHOOSE(" + index + R"(;"leave";"rework";"replant"))"; };
    const auto life = [](const std::string& index) {
        const std::string years = "CHOOSE(" + index + ";life_leave;life_rework;life_replant)";
        return "\" (\"&" + years + "&IF(" + years + R"x(=1;" year";" years")&", then "&follow_plan&")")x";
    };
    const auto less = [&](const std::string& index) {
        return amount("MAX(forever)-INDEX(forever;" + index + ")") + "&\" more than to \"&" + name(index) + "&" +
               life(index);
    };
    const std::string both = "IF(" + level("leave") + ";IF(" + level("rework") +
                             R"(;"leave and to rework";"leave and to replant");"rework and to replant"))";
    // Where the first way would have led elsewhere, it says so.
    const std::string alone = "MATCH(MAX(equal_annual);equal_annual;0)";
    return "=IF(COUNTA(area_ha;row_spacing_leave;tree_spacing_leave;mature_leave)=0;\"Fill in the area, the spacing "
           "and the trees first, then a column for "
           "each plan.\";IF(LEN(unfit_all)>0;\"Something does not fit yet. \"&IF(LEN(check_block)>0;check_block;"
           "IF(LEN(unsummed_leave)>0;unsummed_leave;IF(LEN(unsummed_rework)>0;unsummed_rework;unsummed_replant)));"
           "IF(SUMPRODUCT(--(ROUND(forever;0)=ROUND(MAX(forever);0)))=3;\"All three plans are level at \"&" +
           amount("MAX(forever)") +
           "&\" \"&currency&\" a year: look at outlay and risk.\";"
           "IF(SUMPRODUCT(--(ROUND(forever;0)=ROUND(MAX(forever);0)))=2;\"The plans to \"&" +
           both + "&\" are level at \"&" + amount("MAX(forever)") +
           "&\" \"&currency&\" a year: look at outlay and risk.\";\"At \"&FIXED(100*rate;1)&\" % interest and with "
           "what follows, the plan to \"&UPPER(" +
           name(best) + ")&" + life(best) + "&\" leads with \"&" + amount("MAX(forever)") +
           "&\" \"&currency&\" a year: \"&" + less(one) + "&\" and \"&" + less(other) + "&\".\"&IF(" + alone + "=" +
           best + ";\"\";\" Over its own life alone, \"&" + name(alone) +
           "&\" would lead; but what follows counts too.\"))&IF(MAX(forever)<0;\" All three lose money.\";\"\"))))";
}

void plans_sheet(Workbook& book) {
    Sheet& sheet = book.sheet("Plans", Paper::landscape);
    sheet.columns({0.4, 7.0, 2.6, 2.6, 2.6, 3.4, 0.5, 6.4, 2.6, 2.6, 2.6, 3.4, 0.8, 6.0, 2.4, 2.4, 2.4});
    look::opening(sheet, look::titled("Leave, rework or replant", "block"),
                  "Fill in the framed, tinted cells on the left, one column for each plan; the answers on the right "
                  "follow. Year by year on sheet Years; other yields and prices on sheet Grid.",
                  11);
    sheet.put("B3", look::if_name_error, Style::lead).across(11);
    sheet.put("B4", verdict(), Style::sentence).name("verdict").across(11);
    sheet.row_height(4, 1.6);
    const int after_inputs = inputs(sheet);
    const int after_answers = answers(sheet);
    workings(sheet, after_inputs);
    sheet.freeze(4);
    sheet.cursor("C7");
    sheet.print_area(Area({1, 1}, {12, std::max(after_inputs, after_answers) - 1}));
}

constexpr int head = 6;  // rows on sheet Years
constexpr int zero = head + 1;
constexpr int last = zero + longest;

void cash(Workbook& book) {
    Sheet& sheet = book.sheet("Cash", Paper::landscape);
    sheet.columns({0.4, 27.0, 0.8, 1.4, 2.2, 2.2, 2.2});
    look::opening(sheet, look::titled("Cash of the three plans", "block"),
                  "Each line sums a plan's money in and out, year after year, without interest. Where the plan's trees "
                  "are gone it stays level; what follows them is not in it.",
                  1);
    sheet.put("B3", "=verdict", Style::sentence);
    sheet.row_height(3, 1.3);
    // A chart draws from its own sheet.
    sheet.put("D5", "Behind the chart; not printed", Style::workings);
    sheet.put(Place("D", head), "year", Style::workings);
    sheet.fill_down(Area("D", zero, last), "=Years.B{r}", Style::workings, Format::count);
    Chart chart{.title = "Cumulative cash flow, no interest",
                .description =
                    "One line for each plan: down to its outlay in year 0, up as the crop pays, level once its trees "
                    "are gone. A plan has caught up with leaving the block where its line crosses that of leaving.",
                .categories = Area("D", zero, last),
                .category_title = "years from the work",
                .value_title = "cumulative cash flow, in your currency",
                .value_format = Format::count,
                .series = {}};
    for (const Plan& plan : plans) {
        sheet.put(Place(plan.cash, head), plan.name, Style::workings);
        // To the end of the longest life, so that lines can be held against each other.
        const std::string summed = plan.years[3];
        const std::string in_time = "=IF(OR(LEN(unfit_all)>0;D{r}>MAX(life_leave;life_rework;life_replant));\"\";";
        sheet.put(Place(plan.cash, zero), at_row(in_time + "Years." + summed + "{r})", zero), Style::workings,
                  Format::count);
        for (int row = zero + 1; row <= last; ++row) {
            sheet.put(Place(plan.cash, row),
                      at_row(in_time + "IF(ISNUMBER(Years." + summed + "{r});Years." + summed + "{r};", row) +
                          plan.cash + std::to_string(row - 1) + "))",
                      Style::workings, Format::count);
        }
        chart.series.push_back({.values = Area(plan.cash, zero, last),
                                .label = Place(plan.cash, head),
                                .shape = Series::Shape::line,
                                .paint = plan.paint});
    }
    sheet.chart("B4", 26.5, 12.5, chart);
    sheet.print_area("A1:B4");
}

void years(Workbook& book) {
    Sheet& sheet = book.sheet("Years", Paper::landscape);
    std::vector<double> widths{0.4, 1.4, 1.9};
    for (int column = 0; column < 12; ++column) widths.push_back(2.55);
    widths.push_back(0.8);
    for (int column = 0; column < 12; ++column) widths.push_back(2.1);
    sheet.columns(widths);
    look::opening(sheet, R"(=IF(LEN(block)=0;"Year by year, in "&currency&"";"Year by year, in "&currency&": "&block))",
                  "Year 0 is today. A plan's cells are blank once its trees are gone. All costs count: growing, young "
                  "trees, regrafting and replacing, picking, packing and royalties.",
                  14);
    look::headings(sheet, Place("B", head), {"Year", "Season"});
    sheet.put(Place("Q", head - 1), "Behind the answers; not printed", Style::workings);
    for (const Plan& plan : plans) {
        look::band(sheet, Place(plan.years[0], head - 2),
                   of(plan, R"(="{p}, "&life_{p}&IF(life_{p}=1;" year";" years"))"), 4);
        look::headings(sheet, Place(plan.years[0], head), {"=\"Crop, \"&weight_unit", "Costs", "Flow", "Cumulative"});
        sheet.put(Place(plan.crop, head), of(plan, "crop, {p}"), Style::workings);
        sheet.put(Place(plan.fixed, head), of(plan, "costs without crop, {p}"), Style::workings);
        sheet.put(Place(plan.against, head), of(plan, "costs against leaving, {p}"), Style::workings);
        sheet.put(Place(plan.gain, head), of(plan, "more than leaving, {p}"), Style::workings);
    }
    for (int row = zero; row <= last; ++row) {
        sheet.put(Place("B", row), row - zero, Style::body);
        sheet.put(Place("C", row), at_row("=IF(ISNUMBER(first_season);first_season+B{r};\"\")", row), Style::body);
    }
    for (const Plan& plan : plans) {
        const auto [crop, costs, flow, summed] = plan.years;
        // Crop, fixed costs and flow of one plan in one row; blank once the plan's life is over.
        const auto alive = [&](const std::string& formula) {
            return of(plan, "=IF(LEN(unfit_{p})>0;\"\";IF($B{r}>life_{p};\"\";" + formula + "))");
        };
        sheet.array(Area(plan.crop, zero + 1, last),
                    of(plan, "=IF(LEN(unfit_{p})>0;\"\";" + std::string(crop_call).substr(1) + ")"), Style::workings,
                    {Format::count});
        sheet.put(Place(plan.crop, zero), 0, Style::workings, Format::count);
        sheet.put(Place(plan.fixed, zero),
                  of(plan,
                     "=IF(LEN(unfit_{p})>0;\"\";trees_leave*clear_{p}+trees_{p}*(plant_{p}+royalty_tree_{p})+"
                     "area_ha*ground_{p})"),
                  Style::workings, Format::count);
        std::string yearly = "area_ha*(grow_{p}+royalty_ha_{p})";
        const std::string redone = "+IF(made_good_{p}>0;trees_{p}*(1-established_{p})*plant_{p};0)";
        for (int row = zero + 1; row <= last; ++row) {
            std::string formula = yearly;
            if (row == zero + 1) formula += "+trees_{p}*care_first_{p}" + redone;
            if (row == zero + 2) formula += "+trees_{p}*care_second_{p}";
            if (row == zero + 3) formula += "+trees_{p}*care_third_{p}";
            sheet.put(Place(plan.fixed, row), at_row(alive(formula), row), Style::workings, Format::count);
        }
        const auto in_columns = [&, c = crop, k = costs, f = flow](const std::string& formula) {
            return replaced(replaced(replaced(formula, "{c}", c), "{k}", k), "{f}", f);
        };
        sheet.fill_down(Area(crop, zero, last), alive(std::string(plan.crop) + "{r}"), Style::answer, Format::count);
        sheet.fill_down(Area(costs, zero, last),
                        alive(in_columns(std::string(plan.fixed) + "{r}+{c}{r}*(pick_{p}+royalty_kg_{p})")),
                        Style::answer, Format::count);
        sheet.fill_down(Area(flow, zero, last), alive(in_columns("{c}{r}*price_{p}-{k}{r}")), Style::answer,
                        Format::count);
        sheet.fill_down(Area(summed, zero, last), alive(in_columns("SUM({f}$" + std::to_string(zero) + ":{f}{r})")),
                        Style::answer, Format::count);
        // What the plan must earn to match leaving: where it follows itself, what leaving brings a year; else what
        // leaving and its follower are worth more than the follower alone, at once.
        const std::string needed =
            "IF($B{r}=0;IF(own_{p};0;present_value_leave+(fade_leave-fade_{p})*follow_else_{p}/rate);IF(own_{p};"
            "equal_annual_leave;0))";
        sheet.fill_down(Area(plan.against, zero, last),
                        of(plan, "=IF(LEN(unfit_all)>0;\"\";" + alive(in_columns("{k}{r}+" + needed)).substr(1) + ")"),
                        Style::workings, Format::count);
        sheet.fill_down(Area(plan.gain, zero, last),
                        of(plan, in_columns("=IF(LEN(unfit_all)>0;\"\";IF($B{r}>MAX(life_{p};life_leave);\"\";"
                                            "N({f}{r})-N($" +
                                            std::string(plans[0].years[2]) + "{r})))")),
                        Style::workings, Format::count);
        sheet.name(of(plan, "crop_{p}"), Area(crop, zero, last));
        sheet.name(of(plan, "costs_{p}"), Area(costs, zero, last));
        sheet.name(of(plan, "flows_{p}"), Area(flow, zero, last));
        sheet.name(of(plan, "fixed_costs_{p}"), Area(plan.fixed, zero, last));
        sheet.name(of(plan, "against_{p}"), Area(plan.against, zero, last));
        sheet.name(of(plan, "gain_{p}"), Area(plan.gain, zero, last));
        if (&plan == plans.data()) continue;
        sheet.mark(Area(summed, zero, last),
                   of(plan, "AND(ISNUMBER(payback_{p});$C" + std::to_string(zero) + "=payback_year_{p})"), Style::due);
    }
    sheet
        .put(Place("B", last + 1),
             "Framed: by the end of this year the plan has caught up with leaving the block, with interest.",
             Style::note)
        .across(14);
    sheet.freeze(head);
    sheet.cursor("D7");
    sheet.print_area(Area({1, 1}, {15, last + 1}));
}

void grid(Workbook& book) {
    Sheet& sheet = book.sheet("Grid", Paper::landscape);
    sheet.columns({0.4, 6.2, 3.6, 3.6, 3.6, 3.6, 3.6, 3.6, 3.6, 0.8, 4.0, 0.4, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8});
    look::opening(sheet, look::titled("Other yields and prices", "block"),
                  "The annual equivalent, with what follows, of rework and replant when the new crop yields and "
                  "fetches less or "
                  "more than planned. Framed: the plan as it stands. Grey slanted: less than leaving.",
                  8);
    sheet.row_height(2, 1.05);
    sheet.put("B3", "Price changes by steps of", Style::label);
    sheet.put("C3", 0.08, Style::kept, Format::hundredth).name("price_step").valid(number(0, 1e6, "your currency"));
    sheet.put("D3", "=currency&\" a \"&weight_unit", Style::unit);
    sheet.put("F3", "Yield changes by steps of", Style::label);
    sheet.put("H3", 0.1, Style::kept, Format::percent).name("yield_step").valid(share(0, 0.33));
    sheet.put("I3", "of the plan", Style::unit);
    sheet
        .put("B4",
             "=IF(LEN(unfit_all)>0;\"Something does not fit yet: see the Check on sheet Plans.\";TRIM(" +
                 unfit("\"Price step\"", "price_step", {0, 1e6, "currency"}) + "&\" \"&" +
                 unfit("\"Yield step\"", "yield_step", {0, 0.33, {}, true}) + "&\" \"&" +
                 asked("\"The yield step\"", "yield_step", 0.005) + "))",
             Style::note)
        .name("grid_check")
        .across(8);
    sheet.mark("B4:I4", "LEN($B$4)>0", Style::mend);
    sheet.put("K4", "Behind the grids; not printed", Style::workings);
    sheet.put("M4", "over its own life; below, what follows", Style::workings);
    sheet.put("K5", "whether the grids can be filled", Style::workings);
    sheet
        .put(
            "K6",
            "=AND(LEN(unfit_all)=0;ISNUMBER(price_step);ISNUMBER(yield_step);N(price_step)>=0;N(yield_step)>=0;"
            "N(yield_step)<=0.33;COUNT(equal_crop_rework;equal_crop_replant;equal_fixed_rework;equal_fixed_replant)=4)",
            Style::workings)
        .name("grid_ready");

    constexpr int steps = 3;  // on either side of the plan
    constexpr std::array<const char*, 7> columns{"C", "D", "E", "F", "G", "H", "I"};
    constexpr std::array<const char*, 7> behind{"M", "N", "O", "P", "Q", "R", "S"};
    const auto filled = [](const std::string& formula) { return "=IF(grid_ready;" + formula + ";\"\")"; };
    int row = 5;
    const auto axes = [&](const std::string& title, const std::string& price) {
        look::band(sheet, Place("B", row++), title, 8);
        sheet.put(Place("B", row),
                  price.empty() ? "=\"Price against plan, a \"&weight_unit"
                                : "=\"Price a \"&weight_unit&\", down; yield, across\"",
                  Style::heading);
        for (std::size_t at = 0; at < columns.size(); ++at) {
            const std::string step = std::to_string(static_cast<int>(at) - steps);
            sheet.put(Place(columns.at(at), row), filled("1+" + step + "*yield_step"), Style::heading, Format::percent);
            std::string fetched = price;
            if (!price.empty()) fetched += "+";
            fetched += step + "*price_step";
            sheet.put(Place("B", row + 1 + static_cast<int>(at)), filled(fetched), Style::body, Format::hundredth);
        }
        return row;
    };
    // With what follows it: {a} is the amount over its own life, {n} what follows.
    const auto with = [](const Plan& plan, const std::string& amount, const std::string& next) {
        return replaced(replaced(of(plan, "({a}*(1-fade_{p})+fade_{p}*{n})"), "{a}", amount), "{n}", next);
    };
    std::vector<int> tops;
    for (const Plan& plan : {plans[1], plans[2]}) {
        const int top =
            axes(of(plan, "=\"Annual equivalent of the plan to {p}, in \"&currency"), of(plan, "price_{p}"));
        tops.push_back(top);
        // Flows are straight lines in yield and price, so that two sums for each plan serve the whole grid.
        sheet.put(Place("K", top + 2), of(plan, "annual equivalent of the crop, {p}"), Style::workings);
        sheet
            .put(Place("K", top + 3),
                 of(plan, "=IF(LEN(unsummed_{p})>0;\"\";IFERROR(REWORK.EQUALANNUAL(crop_{p};rate);\"\"))"),
                 Style::workings, Format::count)
            .name(of(plan, "equal_crop_{p}"));
        sheet.put(Place("K", top + 4), of(plan, "annual equivalent of the fixed costs, {p}"), Style::workings);
        sheet
            .put(Place("K", top + 5),
                 of(plan, "=IF(LEN(unsummed_{p})>0;\"\";IFERROR(REWORK.EQUALANNUAL(fixed_costs_{p};rate);\"\"))"),
                 Style::workings, Format::count)
            .name(of(plan, "equal_fixed_{p}"));
        for (std::size_t at = 0; at < columns.size(); ++at) {
            const std::string shown = columns.at(at);
            const std::string own = behind.at(at);
            sheet.fill_down(Area(own, top + 1, top + 7),
                            filled(of(plan, shown + "$" + std::to_string(top) +
                                                "*($B{r}-pick_{p}-royalty_kg_{p})*equal_crop_{p}-equal_fixed_{p}")),
                            Style::workings, Format::count);
            const std::string next = of(plan, "MAX(follow_else_{p};IF(repeat_{p}=\"yes\";" + own + "{r};0))");
            sheet.fill_down(Area(shown, top + 1, top + 7), filled(with(plan, own + "{r}", next)), Style::answer,
                            Format::count);
        }
        const Area cells(Place("C", top + 1), Place("I", top + 7));
        const std::string first = "C" + std::to_string(top + 1);
        const std::string behind_first = "M" + std::to_string(top + 1);
        sheet.mark(cells,
                   "AND(ISNUMBER(" + first + ");" + first + "<" +
                       with(plans[0], "equal_annual_leave",
                            of(plan, "MAX(follow_else_{p};IF(repeat_{p}=\"yes\";" + behind_first + ";0))")) +
                       ")",
                   Style::done);
        sheet.mark(Place("F", top + 1 + steps), "TRUE()", Style::due);
        row = top + 9;
    }
    const int top = axes("=\"Which plan leads, and by how much a year, in \"&currency", "");
    for (std::size_t at = 0; at < columns.size(); ++at) {
        const std::string own = behind.at(at);
        for (int line = 1; line <= 7; ++line) {
            const std::string rework = own + std::to_string(tops[0] + line);
            const std::string replant = own + std::to_string(tops[1] + line);
            const std::string next = own + std::to_string(top + line);
            sheet.put(Place(own, top + line),
                      filled("MAX(0;IF(repeat_leave=\"yes\";equal_annual_leave;0);IF(repeat_rework=\"yes\";" + rework +
                             ";0);IF(repeat_replant=\"yes\";" + replant + ";0))"),
                      Style::workings, Format::count);
            const std::string left = with(plans[0], "equal_annual_leave", next);
            const std::string grafted = with(plans[1], rework, next);
            const std::string planted = with(plans[2], replant, next);
            const std::string all = left + ";" + grafted + ";" + planted;
            const auto leads = [&](const std::string& amount) {
                return "ROUND(" + amount + ";0)=ROUND(MAX(" + all + ");0)";
            };
            const std::string second = "MEDIAN(" + all + ")";
            sheet.put(Place(columns.at(at), top + line),
                      filled("IF(ROUND(MAX(" + all + ");0)=ROUND(" + second + ";0);\"level\";IF(" + leads(grafted) +
                             ";\"rework\";IF(" + leads(planted) + ";\"replant\";\"leave\"))&\" +\"&FIXED(MAX(" + all +
                             ")-" + second + ";0))"),
                      Style::answer);
        }
    }
    const Area cells(Place("C", top + 1), Place("I", top + 7));
    sheet.mark(cells, "LEFT(C" + std::to_string(top + 1) + ";LEN(\"leave\"))=\"leave\"", Style::done);
    sheet.mark(Place("F", top + 1 + steps), "TRUE()", Style::due);
    sheet.cursor("C3");
    sheet.print_area(Area({1, 1}, {9, top + 7}));
}

/// What is drawn for the odds: a factor around 1 with a triangular distribution.
struct Uncertain {
    const char* label;
    const char* name;
    double low;
    double high;
};

constexpr std::array<Uncertain, 7> uncertain{{
    {"Price of the new variety", "price_new", 0.8, 1.15},
    {"Price of the old variety", "price_old", 0.7, 1.15},
    {"Yield of the reworked trees", "yield_rework", 0.7, 1.1},
    {"Yield of the replanted trees", "yield_replant", 0.7, 1.1},
    {"Outlay of reworking", "outlay_rework", 0.9, 1.3},
    {"Outlay of replanting", "outlay_replant", 0.9, 1.3},
    {"Costs of all later years, all plans", "costs", 0.9, 1.15},
}};

constexpr int draws = 500;
constexpr int first_draw = 8;  // rows on sheet Odds

/// The draws, column by column, outside the printed page. They are the same in every office and each time: points of
/// the additive recurrence that fills seven dimensions evenly, powers of the root of x^8 = x + 1 (Roberts 2018, from
/// memory), so that 500 do what some thousand draws by chance would do.
void draw(Sheet& sheet) {
    constexpr std::array<const char*, uncertain.size()> columns{"N", "O", "P", "Q", "R", "S", "T"};
    const int last_draw = first_draw + draws - 1;
    const auto column = [&](const std::string& letters, const std::string& title, const std::string& name,
                            const std::string& formula, Format format) {
        sheet.put(Place(letters, first_draw - 1), title, Style::workings);
        const Area area(letters, first_draw, last_draw);
        sheet.array(area, "=IF(odds_ready;" + formula + ";\"\")", Style::workings, {format});
        sheet.name(name, area);
    };
    sheet.put(Place("N", first_draw - 2), "Draws; not printed", Style::workings);
    double root = 1;
    for (int step = 0; step < 60; ++step) root = std::pow(1 + root, 1.0 / (uncertain.size() + 1));
    double share = 1;
    for (std::size_t at = 0; at < uncertain.size(); ++at) {
        share /= root;
        const std::string row = std::to_string(first_draw + static_cast<int>(at));
        const std::string low = "$C$" + row;
        const std::string likely = "$D$" + row;
        const std::string high = "$E$" + row;
        const std::string even = "MOD(0.5+ROW(A$1:A$" + std::to_string(draws) + ")*" + plain_number(share) + ";1)";
        column(columns.at(at), uncertain.at(at).label, "draw_" + std::string(uncertain.at(at).name),
               replaced("IF({even}*(" + high + "-" + low + ")<" + likely + "-" + low + ";" + low + "+SQRT({even}*(" +
                            high + "-" + low + ")*(" + likely + "-" + low + "));" + high + "-SQRT((1-{even})*(" + high +
                            "-" + low + ")*(" + high + "-" + likely + ")))",
                        "{even}", even),
               Format::hundredth);
    }
    // Flows are straight lines in all of them; the outlay spread over the plan's life is taken out of its fixed costs.
    const auto own = [&](const Plan& plan, const std::string& price, const std::string& yield,
                         const std::string& outlay) {
        return of(plan, yield + "equal_crop_{p}*(" + price +
                            "*price_{p}-pick_{p}-royalty_kg_{p})-outlay_{p}*rate/(1-fade_{p})*" + outlay +
                            "-(equal_fixed_{p}-outlay_{p}*rate/(1-fade_{p}))*draw_costs");
    };
    column("U", "leave, its own life", "drawn_own_leave", own(plans[0], "draw_price_old", "", "1"), Format::count);
    column("V", "rework, its own life", "drawn_own_rework",
           own(plans[1], "draw_price_new", "draw_yield_rework*", "draw_outlay_rework"), Format::count);
    column("W", "replant, its own life", "drawn_own_replant",
           own(plans[2], "draw_price_new", "draw_yield_replant*", "draw_outlay_replant"), Format::count);
    const std::string more = "IF({a}>{b};{a};{b})";
    const auto larger = [&](const std::string& one, const std::string& other) {
        return replaced(replaced(more, "{a}", one), "{b}", other);
    };
    const auto again = [](const Plan& plan) { return of(plan, "IF(repeat_{p}=\"yes\";drawn_own_{p};0)"); };
    column("X", "what follows, before the last", "drawn_next", larger(again(plans[0]), again(plans[1])), Format::count);
    column("Y", "what follows", "drawn_follow",
           "IF(drawn_next>0;" + larger("drawn_next", again(plans[2])) + ";" + larger("0", again(plans[2])) + ")",
           Format::count);
    constexpr std::array<const char*, 3> with{"Z", "AA", "AB"};
    for (std::size_t at = 0; at < plans.size(); ++at) {
        column(with.at(at), of(plans.at(at), "{p}, with what follows"), of(plans.at(at), "drawn_{p}"),
               of(plans.at(at), "drawn_own_{p}*(1-fade_{p})+fade_{p}*drawn_follow"), Format::count);
    }
}

/// Reworking against leaving, year by year, and what that hangs on: from row `top` on, with its charts in the row
/// above. Returns the last row.
int against_leaving(Sheet& sheet, int top) {
    const auto cell = [](const char* column, int row) { return column + std::to_string(row); };
    look::band(sheet, Place("B", top), "Reworking against leaving the block, year by year", 11);
    sheet
        .put(
            Place("B", top + 1),
            "=IF(LEN(years_check)>0;\"See the Check below.\";\"Against leaving the block reworking has paid back by \"&"
            "(first_season+life_rework)&\", the end of its life, in "
            "\"&ROUND(100*INDEX(odds_shares;life_rework+1);0)&\" of "
            "100 draws\"&IF(ISNUMBER(payback_year_rework);\", and by \"&payback_year_rework&\", as planned, in \"&"
            "ROUND(100*INDEX(odds_shares;payback_year_rework-first_season+1);0);\"\")&\". In the worst tenth it is by "
            "then \"&FIXED(ABS(INDEX(odds_low;life_rework+1));0)&\" \"&currency&IF(INDEX(odds_low;life_rework+1)<0;\" "
            "behind.\";\" ahead.\"))",
            Style::sentence)
        .name("years_sentence")
        .across(11);
    sheet.row_height(top + 1, 1.2);
    int row = top + 3;
    look::headings(sheet, Place("B", row), {"Factor; delay in years", "Low", "Likely", "High", "Where it comes from"});
    struct Spread {
        const char* what;
        double low;
        double likely;
        double high;
    };
    constexpr std::array<Spread, 5> spreads{{{"outlay", 0.9, 1, 1.3},
                                             {"costs", 0.9, 1, 1.15},
                                             {"income", 0.75, 1, 1.15},
                                             {"season", 0.6, 1, 1.2},
                                             {"delay", 0, 0, 1}}};
    const int first = ++row;
    for (const Spread& spread : spreads) {
        sheet.put(Place("B", row), spread.what, Style::body);
        for (const auto& [column, factor] :
             {std::pair{"C", spread.low}, std::pair{"D", spread.likely}, std::pair{"E", spread.high}}) {
            sheet.put(Place(column, row), factor, Style::kept, Format::hundredth)
                .valid(number(0, 10, "times the plan, or years of delay"));
        }
        sheet.put(Place("F", row++), "assumption", Style::unit);
    }
    sheet.name("spreads", Area({2, first}, {5, row - 1}));
    sheet.put(Place("B", row), "Check (blank is fine)", Style::label);
    const std::string call = "REWORK.PAYBACKODDS(odds_costs;odds_income;spreads;rate)";
    sheet
        .put(Place("C", row),
             "=IF(LEN(unfit_all)>0;\"See the Check on sheet Plans.\";IFERROR(" + why("=" + call).substr(1) +
                 ";\"The spreads hold an error.\"))",
             Style::note)
        .name("years_check")
        .across(4, 3);
    sheet.mark(Area(Place("C", row), Place("F", row + 2)), "LEN($" + cell("C$", row) + ")>0", Style::mend);

    // The tornado's own columns: what the low and the high of a spread change, downwards and upwards.
    const int swings = row + 4;
    look::headings(sheet, Place("B", swings), {"What it hangs on", "At its low", "At its high", "Down", "Up"});
    const Area found({2, swings + 1}, {4, swings + 5});
    sheet.array(found,
                "=IF(LEN(years_check)>0;\"\";" +
                    with_blanks_below("REWORK.SWINGS(odds_costs;odds_income;spreads;rate)", 5, 3) + ")",
                Style::answer, {Format::text, Format::count, Format::count});
    // The present value with all at likely is that of either end where nothing is uncertain.
    sheet.put(Place("AJ", first - 1), "all at likely", Style::workings);
    for (int line = first; line < row; ++line) {
        sheet.put(Place("AJ", line), at_row("=B{r}", line), Style::workings);
        for (const char* column : {"AK", "AL", "AM"}) {
            sheet.put(Place(column, line), at_row("=D{r}", line), Style::workings, Format::hundredth);
        }
    }
    sheet.name("likely_spreads", Area(Place("AJ", first), Place("AM", row - 1)));
    sheet.put(Place("AD", swings), "all at likely", Style::workings);
    sheet
        .put(Place("AD", swings + 1),
             "=IF(LEN(years_check)>0;\"\";IFERROR(INDEX(REWORK.SWINGS(odds_costs;odds_income;likely_spreads;rate);1;2);"
             "\"\"))",
             Style::workings)
        .name("at_likely");
    for (int line = swings + 1; line <= swings + 5; ++line) {
        const std::string low = "C" + std::to_string(line);
        const std::string high = "D" + std::to_string(line);
        const std::string ready = "=IF(COUNT(" + low + ";" + high + ")=2;";
        sheet.put(Place("E", line), ready + "MIN(0;MIN(" + low + ";" + high + ")-at_likely);\"\")", Style::answer,
                  Format::count);
        sheet.put(Place("F", line), ready + "MAX(0;MAX(" + low + ";" + high + ")-at_likely);\"\")", Style::answer,
                  Format::count);
    }

    // Year by year.
    const int head_row = top + 3;
    look::headings(sheet, Place("H", head_row),
                   {"Year", "Paid back by then", "Worst tenth below", "Middle", "Best tenth above"});
    const int begin = head_row + 1;
    const int end = begin + longest;
    // A condition of as many rows as the table makes #N/A below its last row an error inside the formula.
    sheet.array(Area({8, begin}, {12, end}), "=IF(LEN(years_check)>0;\"\";" + with_blanks_below(call, 31, 5) + ")",
                Style::answer, {Format::count, Format::percent, Format::count, Format::count, Format::count});
    sheet.name("odds_shares", Area("I", begin, end));
    sheet.name("odds_low", Area("J", begin, end));
    // What reworking costs holds what leaving would have brought.
    sheet.put(Place("AF", begin - 1), "year", Style::workings);
    sheet.put(Place("AG", begin - 1), "costs and what leaving brings", Style::workings);
    sheet.put(Place("AH", begin - 1), "income", Style::workings);
    for (int line = begin; line <= end; ++line) {
        const std::string year = std::to_string(zero + line - begin);
        const std::string until =
            "=IF(OR(LEN(unfit_all)>0;AF" + std::to_string(line) + ">MAX(life_rework;life_leave));\"\";";
        sheet.put(Place("AF", line), line - begin, Style::workings);
        sheet.put(Place("AG", line),
                  until + "N(Years." + plans[1].years[1] + year + ")+N(Years." + plans[0].years[2] + year + "))",
                  Style::workings, Format::count);
        sheet.put(Place("AH", line), until + "N(Years." + plans[1].years[0] + year + ")*price_rework)", Style::workings,
                  Format::count);
    }
    sheet.name("odds_costs", Area("AG", begin, end));
    sheet.name("odds_income", Area("AH", begin, end));

    Chart years{.title = "Reworking against leaving: cumulative cash flows with interest, by year",
                .description =
                    "Three lines: what the worst tenth of the draws stays below, the middle, and what the best "
                    "tenth exceeds.",
                .categories = Area("H", begin, end),
                .category_title = "years from the work",
                .value_title = "in your currency",
                .value_format = Format::count,
                .series = {}};
    for (const auto& [column, paint] : {std::pair{"J", 3}, std::pair{"K", 0}, std::pair{"L", 2}}) {
        years.series.push_back({.values = Area(column, begin, end),
                                .label = Place(column, head_row),
                                .shape = Series::Shape::line,
                                .paint = paint});
    }
    sheet.chart(Place("H", top - 1), 18.0, 9.0, years);
    Chart hangs{.title = "What it hangs on: change of the present value",
                .description = "A bar for each factor, from what its worse end takes to what its better end adds.",
                .categories = Area("B", swings + 1, swings + 5),
                .category_title = "",
                .value_title = "in your currency",
                .value_format = Format::count,
                .series = {}};
    tornado(hangs, Area("E", swings + 1, swings + 5), Area("F", swings + 1, swings + 5));
    sheet.chart(Place("B", top - 1), 15.0, 9.0, hangs);
    return end;
}

void odds(Workbook& book) {
    Sheet& sheet = book.sheet("Odds", Paper::landscape);
    std::vector<double> widths{0.4, 6.2, 2.4, 2.4, 2.4, 3.2, 0.5, 7.6, 2.6, 2.6, 2.6, 3.4, 0.8};
    for (int column = 0; column < 15; ++column) widths.push_back(2.2);
    sheet.columns(widths);
    look::opening(
        sheet, look::titled("How sure is it", "block"),
        "Prices, yields and costs are drawn together, 500 times, from low to high; the new variety's price is "
        "one for reworking and replanting. The same cells give the same odds each time.",
        11);
    sheet
        .put("B4",
             "=IF(NOT(odds_ready);\"Something does not fit yet: see the Check.\";\"In \"&ROUND(100*chance_rework;0)&\" "
             "of "
             "100 draws reworking is the best of the three, in \"&ROUND(100*chance_replant;0)&\" replanting and in \"&"
             "ROUND(100*chance_leave;0)&\" leaving the block. In the worst tenth reworking brings less than \"&"
             "FIXED(worst_rework;0)&\" \"&currency&\" a year.\")",
             Style::sentence)
        .name("odds_sentence")
        .across(11);
    sheet.row_height(4, 1.2);
    look::band(sheet, "B6", "What is not certain", 5);
    look::headings(sheet, "B7", {"Factor: 1 is as on sheet Plans", "Low", "Likely", "High", "Where it comes from"});
    sheet.put("AD7", "what does not fit", Style::workings);
    int row = first_draw;
    for (const Uncertain& one : uncertain) {
        sheet.put(Place("B", row), one.label, Style::label);
        for (const auto& [column, factor] : {std::pair{"C", one.low}, std::pair{"D", 1.0}, std::pair{"E", one.high}}) {
            sheet.put(Place(column, row), factor, Style::kept, Format::hundredth)
                .valid(number(0, 10, "times the plan"));
        }
        sheet.put(Place("F", row), "assumption", Style::unit);
        sheet.put(Place("AD", row),
                  at_row("=IF(AND(COUNT(C{r}:E{r})=3;N(C{r})>=0;N(E{r})<=10;N(C{r})<=N(D{r});N(D{r})<=N(E{r}));\"\";"
                         "B{r}&\": give three numbers from 0 to 10, low, likely and high in this order.\")",
                         row),
                  Style::workings);
        ++row;
    }
    const std::string lines = "AD" + std::to_string(first_draw) + ":AD" + std::to_string(row - 1);
    sheet.mark(Area({3, first_draw}, {5, row - 1}), "LEN($AD" + std::to_string(first_draw) + ")>0", Style::mend);
    sheet.put(Place("AD", row), "ready", Style::workings);
    sheet
        .put(Place("AD", row + 1),
             "=AND(LEN(unfit_all)=0;SUMPRODUCT(--(LEN(" + lines +
                 ")>0))=0;COUNT(equal_crop_leave;equal_crop_rework;equal_crop_replant;equal_fixed_leave;"
                 "equal_fixed_rework;equal_fixed_replant)=6)",
             Style::workings)
        .name("odds_ready");
    sheet.put(Place("AD", row + 2), "as on sheet Grid, of leaving", Style::workings);
    for (const auto& [at, stem, flows] :
         {std::tuple{3, "equal_crop_leave", "crop_leave"}, std::tuple{4, "equal_fixed_leave", "fixed_costs_leave"}}) {
        sheet
            .put(Place("AD", row + at),
                 std::string("=IF(LEN(unsummed_leave)>0;\"\";IFERROR(REWORK.EQUALANNUAL(") + flows + ";rate);\"\"))",
                 Style::workings, Format::count)
            .name(stem);
    }

    look::band(sheet, "H6", "Drawn together", 5);
    sheet.put("H7", "", Style::heading);
    headings_of_plans(sheet, 7, &Plan::answer);
    sheet.put("L7", "Unit", Style::heading);
    int line = 8;
    const auto answer = [&](const std::string& label, const std::string& stem, const std::string& formula,
                            const std::string& unit, Format format, Style style) {
        sheet.put(Place("H", line), label, Style::label);
        for (std::size_t at = 0; at < plans.size(); ++at) {
            const Plan& plan = plans.at(at);
            const std::string filled = replaced(replaced(of(plan, formula), "{q}", plans.at((at + 1) % 3).name), "{s}",
                                                plans.at((at + 2) % 3).name);
            sheet.put(Place(plan.answer, line), "=IF(odds_ready;" + filled + ";\"\")", style, format)
                .name(stem + "_" + plan.name);
        }
        sheet.put(Place("L", line++), unit, Style::unit);
    };
    answer("The best of the three", "chance",
           "SUMPRODUCT((drawn_{p}>=drawn_{q})*(drawn_{p}>=drawn_{s}))/" + std::to_string(draws), "of the draws",
           Format::percent, Style::total);
    answer("Better than leaving the block", "beats_leaving",
           "SUMPRODUCT(--(drawn_{p}>drawn_leave))/" + std::to_string(draws), "of the draws", Format::percent,
           Style::answer);
    answer("Better than replanting", "beats_replanting",
           "SUMPRODUCT(--(drawn_{p}>drawn_replant))/" + std::to_string(draws), "of the draws", Format::percent,
           Style::answer);
    const std::string unit = "=currency&\" a year\"";
    answer("A year, in the worst tenth less than", "worst", "PERCENTILE(drawn_{p};0.1)", unit, Format::count,
           Style::answer);
    answer("A year, in the middle", "middle", "PERCENTILE(drawn_{p};0.5)", unit, Format::count, Style::answer);
    answer("A year, in the best tenth more than", "good", "PERCENTILE(drawn_{p};0.9)", unit, Format::count,
           Style::answer);
    look::band(sheet, Place("H", line), "Check (blank is fine)", 5);
    sheet
        .put(Place("H", line + 1),
             "=IF(LEN(unfit_all)>0;\"See the Check on sheet Plans.\";IF(SUMPRODUCT(--(LEN(" + lines + ")>0))>0;" +
                 first_of(lines) + ";IF(odds_ready;\"\";\"The crop or the costs of a plan are beyond all measure.\")))",
             Style::note)
        .name("odds_check")
        .across(5, 2);
    sheet.mark(Area(Place("H", line + 1), Place("L", line + 2)), "LEN($H" + std::to_string(line + 1) + ")>0",
               Style::mend);
    const int below = std::max(row, line + 3) + 1;
    sheet
        .put(Place("B", below),
             "Every line on the left is an assumption of this program: put what your own seasons and markets have "
             "shown. "
             "What hangs together is drawn together: one price of the new variety and one factor of costs for all "
             "plans. Hail, frost and disease that take a block are not in it. What follows a plan is chosen anew in "
             "each draw, as somebody would who sees the prices by then.",
             Style::note)
        .across(11);
    sheet.row_height(below, 1.2);
    const int bottom = against_leaving(sheet, below + 2);
    draw(sheet);
    sheet.cursor("C8");
    sheet.page_break(below + 2);
    sheet.print_area(Area({1, 1}, {12, bottom}));
}

Content content_of(const slipbark::Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

struct Point {
    double years;
    double share;
    const char* source;
};

void curves(Workbook& book) {
    Sheet& sheet = book.sheet("Curves", Paper::portrait);
    sheet.columns({0.4, 3.2, 2.4, 13.0});
    look::opening(sheet, "Yield curves",
                  "The share of a mature tree's crop, by years after the work; a smooth line runs through the points "
                  "and the last one holds on. Put your own records over them.",
                  3);
    sheet.row_height(2, 1.1);
    int row = 4;
    const auto table = [&](const std::string& title, const std::string& name, std::size_t count, const auto& line) {
        look::band(sheet, Place("B", row++), title, 3);
        look::headings(sheet, Place("B", row++), {"Years", "Share", "Where it comes from"});
        const int first = row;
        for (std::size_t at = 0; at < count; ++at, ++row) {
            const auto [years_after, share_then, source] = line(at);
            sheet.put(Place("B", row), years_after, Style::kept, Format::hundredth).valid(number(0, 200, "years"));
            sheet.put(Place("C", row), share_then, Style::kept, Format::percent).valid(share(0, 3));
            sheet.put(Place("D", row), source, Style::unit);
        }
        sheet.name(name, Area({2, first}, {3, row - 1}));
        ++row;
    };
    const std::array<Point, 2> leave{{{0, 1, "Assumption: the old trees bear as they do now"},
                                      {30, 1, "Assumption; a lower share here lets them decline"}}};
    const auto point = [](const Point& one) {
        return std::tuple<Content, Content, std::string>(one.years, one.share, one.source);
    };
    table("Leave: the old trees", "curve_leave", leave.size(), [&](std::size_t at) { return point(leave.at(at)); });

    const Table& rework = defaults::yield();
    table("Rework: the built-in curve after grafting", "curve_rework", rework.rows(), [&](std::size_t at) {
        return std::tuple<Content, Content, std::string>(content_of(rework.at(at, 0)), content_of(rework.at(at, 1)),
                                                         std::get<std::string>(rework.at(at, 2)));
    });

    sheet
        .put(Place("B", row - 1),
             "Published recovery times disagree: citrus bears as before after 2 to 3 years (Swiegers, Joubert & Cronje "
             "2021, SA Fruit Journal), with some crop in the first year if done in stages (IFAPA, Andalusia, 2021), or "
             "in the second year (a farm newspaper in China, 2002, weak); pears bear nothing for 1 to 2 years (weak). "
             "No published yield series of reworked trees was found.",
             Style::note)
        .across(3);
    sheet.row_height(row - 1, 2.1);
    ++row;

    const char* assumed = "Assumption for a close planting in good health";
    const std::array<Point, 8> replant{{{0, 0, "Planting"},
                                        {2, 0, assumed},
                                        {3, 0.12, assumed},
                                        {4, 0.27, assumed},
                                        {5, 0.45, assumed},
                                        {6, 0.65, assumed},
                                        {8, 0.9, assumed},
                                        {10, 1, assumed}}};
    table("Replant: an assumption", "curve_replant", replant.size(),
          [&](std::size_t at) { return point(replant.at(at)); });

    look::band(sheet, Place("B", row++), "Published, to compare: planted oranges, Florida", 3);
    look::headings(sheet, Place("B", row++), {"Age, years", "Share", "Kilograms a tree"});
    struct Class {
        const char* age;
        double share;
        const char* crop;
    };
    const std::array<Class, 5> survey{{{"3 to 5", 0.25, "53"},
                                       {"6 to 8", 0.54, "114"},
                                       {"9 to 13", 0.73, "154"},
                                       {"14 to 23", 0.90, "191"},
                                       {"24 and more", 1.0, "211"}}};
    for (const Class& one : survey) {
        sheet.put(Place("B", row), one.age, Style::body);
        sheet.put(Place("C", row), one.share, Style::body, Format::percent);
        sheet.put(Place("D", row), one.crop, Style::body);
        ++row;
    }
    sheet
        .put(Place("B", row),
             "Mean of three seasons, 1995-96 to 1997-98, of early and midseason oranges, State; from boxes of 90 "
             "lb by "
             "age class of the Florida Agricultural Statistics Service. Planted trees, before greening "
             "disease. No such series was found for reworked beside replanted trees.",
             Style::note)
        .across(3);
    sheet.row_height(row, 1.6);
    sheet.cursor("B6");
    sheet.print_area(Area({1, 1}, {4, row}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note(
            "Heron Bank, its block, its oranges and mandarins, and all yields, prices, costs and the currency, "
            "coins, are made up. Overwrite the framed, tinted cells with your own.");
    text.errors("the Check on sheet Plans")
        .note(R"("never" or "no crop": there is no such answer; the Check says why.)");
    text.heading("How the figures are made")
        .note(
            "Crop: REWORK.YIELDBYYEAR, from the trees, the share that takes or establishes, the failures regrafted or "
            "replaced a year later, the trees lost each year and the plan's curve on sheet Curves.")
        .note(
            "Costs: year 0 holds cutting back or clearing (of the old trees), grafting or planting, site preparation "
            "and the royalty on trees. Later years hold growing costs, aftercare and training (years 1 to 3), "
            "regrafting or replacing failures (year 1), and picking, packing and royalties on what is sold.")
        .note(
            "Present value: the first flow is today and counts in full, later ones less by the interest. Use interest "
            "above inflation, since prices stay those of today.")
        .note(
            "Annual equivalent over its own life: the same sum at the end of each year of a plan's life, of the same "
            "present value (J. Goedegebure 1989, Acta Horticulturae 237). Check: Calc's own PMT(rate; years; -present "
            "value) gives the same. It takes for granted that a plan is begun again when it ends.")
        .note(
            "With what follows: a plan runs its life; then, for ever, comes the best of the plans that can be begun "
            "again, or nothing where all of them lose money (Faustmann 1849; Perrin 1972, American Journal of "
            "Agricultural Economics 54(1); both from memory). What follows begins in the plan's last year and costs "
            "what it costs today. The annual equivalent is the interest on that present value.")
        .note(
            "Paid back against leaving: when what the plan brings more than leaving the block has, with interest, made "
            "up for its outlay. The block that is left brings nothing once its trees are gone.")
        .note(
            "Price that matches leaving: the price at which the plan and what follows it are worth as much as leaving "
            "the block and what follows that.")
        .note(
            "US units: type acres, feet and pounds, and money by the pound and the acre. The figures stay as they "
            "were typed when the units are changed, so that changing back loses nothing; the Check asks where rows "
            "stand improbably close or wide.");
    text.heading("Published studies disagree")
        .note(
            "For reworking: sweet orange to navel in New South Wales, where reworking beat replanting under thirty "
            "years of prices (Elton, Hutton & Mullen 1999, Agribusiness Review 7(8)); citrus in Spain, cheaper and "
            "four "
            "to five years without crop saved (IFAPA, Andalusia, 2021); wine grapes in Washington, paid back in "
            "just "
            "over 3 years against 4.7 (an analysis in Good Fruit Grower, 2018, best case).")
        .note(
            "Against: citrus in Ventura, California, trees changed in 1998 to 2000: reworking was probably not "
            "cheaper "
            "than replanting, though earlier in bearing (B. Faber, University of California Cooperative "
            "Extension).")
        .note(
            "What decides: age and health of the trees and their roots, how long both will stand, the take, and "
            "whether "
            "spacing, rootstock and irrigation are right, which reworking cannot change.");
    text.heading("Where the entries come from")
        .note(
            "Take, costs, prices, yields and lives: assumptions for this scene. Interest used in published orchard "
            "studies runs from 4.5 % above inflation (pears in Victoria, Stott et al. 2018, AFBM Journal 15) over "
            "5 % "
            "(apples, Washington State University 2011) to 7.5 % (oranges in Florida, Trejo-Pech, Spreen & Zansler "
            "2018, American Journal of Agricultural Economics 100(2)).")
        .note("Years to pay back a new planting of citrus: 10 to 12 (S. Falivene, NSW DPI 2018).");
    text.heading("Royalties and protected varieties")
        .note(
            "Owners ask for a royalty once a tree, each year a hectare, on what is sold, or a mixture; the three "
            "lines "
            "on sheet Plans add up. A contract may also cap the trees or bind the sale; it comes before this "
            "sheet.")
        .note(
            "Growers sign for a stated number of trees; the owner may order others destroyed, and fines are heavy "
            "(NSW DPI, plant breeder's rights, 2020).");
    text.close();
}

}  // namespace

std::string rework_or_replant() {
    Workbook book("rework-or-replant", "Rework or replant",
                  "Leave a block, rework it or replant it: flows, present value, annual equivalent, payback and "
                  "break-even price side by side.");
    plans_sheet(book);
    cash(book);
    years(book);
    grid(book);
    odds(book);
    curves(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

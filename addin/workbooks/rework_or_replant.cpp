// Leave the block, rework it or replant it: three plans side by side, each over its own life.
//
// The scene is invented: farm, block, varieties, prices and costs. Plans of unequal length are compared by the equal
// yearly amount of the same present value.
#include <array>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "slipbark/defaults.hpp"
#include "workbooks/look.hpp"
#include "workbooks/sheet.hpp"
#include "workbooks/workbooks.hpp"

namespace slipbark::compose {

namespace {

constexpr int longest = 30;  // years that the tables have room for

/// A plan's columns: its inputs and answers on sheet Plans, its four columns on sheet Years and those of the workings.
struct Plan {
    const char* name;
    const char* input;
    const char* answer;
    std::array<const char*, 4> years;  // crop, costs, flow, summed
    const char* crop;                  // workings: crop of all years the tables hold
    const char* fixed;                 // workings: costs that do not depend on the crop
    const char* against;               // workings: costs and what leaving would have brought
    const char* cash;                  // on sheet Cash
    int paint;
};

constexpr std::array<Plan, 3> plans{{
    {"leave", "C", "I", {"D", "E", "F", "G"}, "Q", "T", "W", "E", 4},
    {"rework", "D", "J", {"H", "I", "J", "K"}, "R", "U", "X", "F", 0},
    {"replant", "E", "K", {"L", "M", "N", "O"}, "S", "V", "Y", "G", 3},
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

void inputs(Sheet& sheet) {
    look::band(sheet, "B6", "The block", 5);
    const auto single = [&](int row, const std::string& label, const std::string& name, Content value,
                            const std::string& unit, Format format, const Validation& validation) {
        sheet.put(Place("B", row), label, Style::label);
        auto cell = sheet.put(Place("C", row), std::move(value), Style::input, format);
        cell.name(name).valid(validation);
        if (format == Format::text) cell.across(3);
        sheet.put(Place("F", row), unit, Style::unit);
    };
    single(7, "Block", "block", "Heron Bank, block 2", "name", Format::text, any_text("the block's name"));
    single(8, "Currency", "currency", "crowns", "name", Format::text, any_text("the currency's name"));
    single(9, "Area", "area_ha", 2.4, "ha", Format::hundredth, number(0.01, 10000, "ha"));
    single(10, "Interest", "rate", 0.06, "a year, above inflation", Format::percent_tenth, share(0, 0.5));
    single(11, "Season of year 0, when the work is done", "first_season", 2027.0, "year", Format::general,
           whole(2000, 2100, "year"));

    look::band(sheet, "B12", "The plans", 5);
    headings_of_plans(sheet, 13, &Plan::input);
    sheet.put("B13", "", Style::heading);
    sheet.put("F13", "Unit", Style::heading);
    int row = 14;
    const auto line = [&](const std::string& label, const std::string& stem, const std::array<Content, 3>& values,
                          const std::string& unit, Format format, const Validation& validation) {
        sheet.put(Place("B", row), label, Style::label);
        for (std::size_t at = 0; at < plans.size(); ++at) {
            sheet.put(Place(plans.at(at).input, row), values.at(at), Style::input, format)
                .name(stem + "_" + plans.at(at).name)
                .valid(validation);
        }
        sheet.put(Place("F", row), unit, Style::unit);
        ++row;
    };
    const Validation money = number(0, 1e9, "your currency");
    const auto each = [&](const std::string& what) { return "=currency&\"" + what + "\""; };
    line("Between rows", "row_spacing", {6.0, "=row_spacing_leave", 5.5}, "m", Format::tenth, number(0.5, 50, "m"));
    line("Between trees in the row", "tree_spacing", {4.0, "=tree_spacing_leave", 2.5}, "m", Format::tenth,
         number(0.2, 50, "m"));
    line("Trees, by spacing or counted", "trees",
         {"=REWORK.TREES(area_ha;row_spacing_leave;tree_spacing_leave)", "=trees_leave",
          "=REWORK.TREES(area_ha;row_spacing_replant;tree_spacing_replant)"},
         "trees", Format::count, whole(0, 1e6, "trees"));
    line("Years until the trees go", "life", {8.0, 18.0, 25.0}, "years", Format::count, whole(1, longest, "years"));
    line("Yield of a mature tree", "mature", {68.0, 82.0, 55.0}, "kg a year", Format::count, number(0, 5000, "kg"));
    line("Trees that take or establish", "established", {1.0, 0.9, 0.97}, "of the trees", Format::percent, share(0, 1));
    line("Of the others, good once redone", "made_good", {0.0, 0.6, 0.95}, "of those, a year later", Format::percent,
         share(0, 1));
    line("Trees lost in a year", "loss", {0.03, 0.015, 0.01}, "of the trees", Format::percent_tenth, share(0, 0.99));
    line("Price", "price", {0.47, 0.78, 0.78}, each(" a kg"), Format::hundredth, money);
    line("Picking and packing", "pick", {0.2, 0.22, 0.22}, each(" a kg"), Format::hundredth, money);
    line("Growing", "grow", {3300.0, 3500.0, 3900.0}, each(" a ha and year"), Format::count, money);
    line("Cutting back, or clearing an old tree", "clear", {0.0, 8.5, 21.0}, each(" an old tree"), Format::hundredth,
         money);
    line("Grafting, or planting a young tree", "plant", {0.0, 11.5, 16.0}, each(" a tree"), Format::hundredth, money);
    line("Ground, water lines, stakes", "ground", {0.0, 0.0, 9200.0}, each(" a ha"), Format::count, money);
    line("Care of young trees, year 1", "care_first", {0.0, 5.2, 4.4}, each(" a tree"), Format::hundredth, money);
    line("Care of young trees, year 2", "care_second", {0.0, 2.8, 3.2}, each(" a tree"), Format::hundredth, money);
    line("Care of young trees, year 3", "care_third", {0.0, 0.0, 2.0}, each(" a tree"), Format::hundredth, money);
    line("Royalty, once", "royalty_tree", {0.0, 2.5, 2.5}, each(" a tree"), Format::hundredth, money);
    line("Royalty, each year", "royalty_ha", {0.0, 60.0, 60.0}, each(" a ha and year"), Format::count, money);
    line("Royalty on what is sold", "royalty_kg", {0.0, 0.02, 0.02}, each(" a kg"), Format::hundredth, money);
}

/// The reasons for a plan, one after the other. Where the crop fails there is nothing to say about money: a range with
/// an error in it makes WHY itself fail.
std::string checks(const Plan& plan) {
    const auto reason = [&](const std::string& formula) { return why(of(plan, formula)).substr(1); };
    const std::string crop = reason(crop_call);
    return "=IF(LEN(" + crop + ")>0;" + crop + ";TRIM(" + reason("=REWORK.EQUALANNUAL(flows_{p};rate)") + "&\" \"&" +
           reason("=REWORK.PAYBACK(flows_{p};rate)") + "&\" \"&" +
           reason("=REWORK.BREAKEVENPRICE(costs_{p};crop_{p};rate)") + "))";
}

void answers(Sheet& sheet) {
    look::band(sheet, "H6", "What follows", 5);
    sheet.put("H7", "", Style::heading);
    headings_of_plans(sheet, 7, &Plan::answer);
    sheet.put("L7", "Unit", Style::heading);
    int row = 8;
    const auto line = [&](const std::string& label, const std::string& stem, const std::string& formula,
                          const std::string& unit, Format format, Style style = Style::answer) {
        sheet.put(Place("H", row), label, Style::label);
        for (const Plan& plan : plans) {
            auto cell = sheet.put(Place(plan.answer, row), of(plan, formula), style, format);
            if (!stem.empty()) cell.name(stem + "_" + plan.name);
        }
        sheet.put(Place("L", row), unit, Style::unit);
        ++row;
    };
    line("Outlay in year 0", "outlay", "=INDEX(costs_{p};1)", "=currency", Format::count);
    line("Crop of the best year", "", "=MAX(crop_{p})/1000", "tonnes", Format::tenth);
    line("All flows summed, no interest", "", "=SUM(flows_{p})", "=currency", Format::count);
    line("Present value over its life", "present_value", "=REWORK.PRESENTVALUE(flows_{p};rate)", "=currency",
         Format::count);
    line("Equal yearly amount", "equal_annual", "=REWORK.EQUALANNUAL(flows_{p};rate)", "=currency&\" a year\"",
         Format::count, Style::total);
    sheet.name("equal_annual", Area(Place(plans.front().answer, row - 1), Place(plans.back().answer, row - 1)));
    line("The same, a hectare", "", "=equal_annual_{p}/area_ha", "=currency&\" a ha and year\"", Format::count);
    line("More than leaving the block", "", "=equal_annual_{p}-equal_annual_leave", "=currency&\" a year\"",
         Format::count);
    line("Paid back after, with interest", "payback", "=IFNA(REWORK.PAYBACK(flows_{p};rate);\"never\")", "years",
         Format::tenth);
    line("Price that just pays", "pays_price", "=IFNA(REWORK.BREAKEVENPRICE(costs_{p};crop_{p};rate);\"no crop\")",
         "=currency&\" a kg\"", Format::hundredth);
    line("Price that matches leaving the block", "match_price",
         "=IFNA(REWORK.BREAKEVENPRICE(against_{p};crop_{p};rate);\"no crop\")", "=currency&\" a kg\"",
         Format::hundredth);

    ++row;
    look::band(sheet, Place("H", row++), "Check (blank is fine)", 5);
    for (const Plan& plan : plans) {
        sheet.put(Place("H", row), of(plan, "{p}"), Style::label);
        sheet.put(Place("I", row), checks(plan), Style::note).name(of(plan, "check_{p}")).across(4, 2);
        sheet.mark(Area(Place("I", row), Place("L", row + 1)), "LEN($I" + std::to_string(row) + ")>0", Style::mend);
        row += 2;
    }
    ++row;
    look::band(sheet, Place("H", row++), "How to read this", 5);
    sheet
        .put(Place("H", row),
             "The plans end after different years, so their present values do not compare. The equal yearly amount "
             "does: the same sum at the end of each year of the plan's life, worth as much today as its uneven flows. "
             "It supposes that a plan could be started again when it ends.",
             Style::note)
        .across(5, 4);
    row += 4;
    sheet
        .put(Place("H", row),
             "An estimate for comparing plans, no advice: every figure on the left is yours to change. A protected "
             "variety needs its owner's written licence before the first cut, whatever this page says.",
             Style::caution)
        .across(5, 2);
}

void plans_sheet(Workbook& book) {
    Sheet& sheet = book.sheet("Plans", Paper::landscape);
    sheet.columns({0.4, 6.7, 2.2, 2.2, 2.2, 3.6, 0.5, 6.0, 2.3, 2.3, 2.3, 3.6});
    look::opening(sheet, "=\"Leave, rework or replant: \"&block",
                  "Fill in the framed, tinted cells on the left, one column for each plan; the answers on the right "
                  "follow. Year by year on sheet Years; other yields and prices on sheet Grid.",
                  11);
    sheet.put("B3", look::if_name_error, Style::lead).across(11);
    const auto place_of = [](const char* rank) {
        return "MATCH(LARGE(equal_annual;" + std::string(rank) + ");equal_annual;0)";
    };
    // The names of the plans stand above the equal yearly amounts. Level plans would share one MATCH, so they get a
    // sentence of their own.
    const auto named = [&](const char* rank) { return "INDEX($I$7:$K$7;" + place_of(rank) + ")"; };
    const auto life = [&](const char* rank) {
        const std::string years = "CHOOSE(" + place_of(rank) + ";life_leave;life_rework;life_replant)";
        return years + "&IF(" + years + R"(=1;" year";" years"))";
    };
    const auto amount = [](const std::string& number) { return "FIXED(" + number + ";0)"; };
    const std::string lead = "LARGE(equal_annual;1)-LARGE(equal_annual;";
    sheet
        .put("B4",
             "=IFERROR(IF(ROUND(LARGE(equal_annual;1);0)=ROUND(LARGE(equal_annual;2);0);\"Two plans are level at \"&" +
                 amount("MAX(equal_annual)") +
                 "&\" \"&currency&\" a year: look at outlay and risk.\";\"At \"&"
                 "FIXED(100*rate;1)&\" % interest the plan to \"&UPPER(" +
                 named("1") + ")&\" leads with \"&" + amount("LARGE(equal_annual;1)") +
                 R"(&" "&currency&" a year over "&)" + life("1") + "&\": \"&" + amount(lead + "2)") +
                 "&\" a year more than to \"&" + named("2") + "&\" (\"&" + life("2") + "&\") and \"&" +
                 amount(lead + "3)") + "&\" more than to \"&" + named("3") + "&\" (\"&" + life("3") +
                 "&\").\"&IF(LARGE(equal_annual;1)<0;\" All three lose money.\";\"\"));"
                 "\"Something does not fit yet: the Check says what.\")",
             Style::sentence)
        .name("verdict")
        .across(11);
    sheet.row_height(4, 1.3);
    inputs(sheet);
    answers(sheet);
    sheet.freeze(4);
    sheet.cursor("C9");
    sheet.print_area("A1:L33");
}

constexpr int head = 6;  // rows on sheet Years
constexpr int zero = head + 1;
constexpr int last = zero + longest;

void cash(Workbook& book) {
    Sheet& sheet = book.sheet("Cash", Paper::landscape);
    sheet.columns({0.4, 27.0, 0.8, 1.4, 2.2, 2.2, 2.2});
    look::opening(sheet, "=\"Cash of the three plans: \"&block",
                  "Each line sums a plan's money in and out, year after year, without interest. It ends where the "
                  "plan's trees go.",
                  1);
    sheet.put("B3", "=verdict", Style::sentence);
    sheet.row_height(3, 1.3);
    // A chart draws from its own sheet.
    sheet.put("D5", "Behind the chart; not printed", Style::workings);
    sheet.put(Place("D", head), "year", Style::workings);
    sheet.fill_down(Area("D", zero, last), "=Years.B{r}", Style::workings, Format::count);
    Chart chart{.title = "Summed flows, no interest",
                .description =
                    "One line for each plan: down to its outlay in year 0, up as the crop pays, ending with "
                    "the plan's life. A plan has paid back where its line crosses zero.",
                .categories = Area("D", zero, last),
                .category_title = "years from the work",
                .value_title = "",
                .value_format = Format::count,
                .series = {}};
    for (const Plan& plan : plans) {
        sheet.put(Place(plan.cash, head), plan.name, Style::workings);
        sheet.fill_down(Area(plan.cash, zero, last), "=Years." + std::string(plan.years[3]) + "{r}", Style::workings,
                        Format::count);
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
    for (int column = 0; column < 9; ++column) widths.push_back(2.1);
    sheet.columns(widths);
    look::opening(sheet, R"(="Year by year, in "&currency&": "&block)",
                  "Year 0 is today. A plan's cells are blank once its trees are gone. All costs count: growing, young "
                  "trees, redoing failures, picking, packing and royalties.",
                  14);
    look::headings(sheet, Place("B", head), {"Year", "Season"});
    sheet.put(Place("Q", head - 1), "Behind the answers; not printed", Style::workings);
    for (const Plan& plan : plans) {
        look::band(sheet, Place(plan.years[0], head - 2), of(plan, R"(="{p}, "&life_{p}&" years")"), 4);
        look::headings(sheet, Place(plan.years[0], head), {"Crop, kg", "Costs", "Flow", "Summed"});
        sheet.put(Place(plan.crop, head), of(plan, "crop, {p}"), Style::workings);
        sheet.put(Place(plan.fixed, head), of(plan, "costs without crop, {p}"), Style::workings);
        sheet.put(Place(plan.against, head), of(plan, "costs against leaving, {p}"), Style::workings);
    }
    for (int row = zero; row <= last; ++row) {
        sheet.put(Place("B", row), row - zero, Style::body, Format::count);
        sheet.put(Place("C", row), at_row("=first_season+B{r}", row), Style::body);
    }
    for (const Plan& plan : plans) {
        const auto [crop, costs, flow, summed] = plan.years;
        // Crop, fixed costs and flow of one plan in one row; blank once the plan's life is over.
        const auto alive = [&](const std::string& formula) {
            return of(plan, "=IF($B{r}>life_{p};\"\";" + formula + ")");
        };
        sheet.array(Area(plan.crop, zero + 1, last), of(plan, crop_call), Style::workings, {Format::count});
        sheet.put(Place(plan.crop, zero), 0, Style::workings, Format::count);
        sheet.put(Place(plan.fixed, zero),
                  of(plan, "=trees_leave*clear_{p}+trees_{p}*(plant_{p}+royalty_tree_{p})+area_ha*ground_{p}"),
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
        sheet.fill_down(Area(plan.against, zero, last), alive(in_columns("{k}{r}+IF($B{r}>0;equal_annual_leave;0)")),
                        Style::workings, Format::count);
        sheet.name(of(plan, "crop_{p}"), Area(crop, zero, last));
        sheet.name(of(plan, "costs_{p}"), Area(costs, zero, last));
        sheet.name(of(plan, "flows_{p}"), Area(flow, zero, last));
        sheet.name(of(plan, "fixed_costs_{p}"), Area(plan.fixed, zero, last));
        sheet.name(of(plan, "against_{p}"), Area(plan.against, zero, last));
        sheet.mark(Area(summed, zero, last),
                   "AND(ISNUMBER(" + std::string(summed) + std::to_string(zero) + ");" + summed + std::to_string(zero) +
                       ">=0)",
                   Style::due);
    }
    sheet.put(Place("B", last + 1), "Framed: the sum has reached zero, without interest.", Style::note).across(14);
    sheet.freeze(head);
    sheet.cursor("D7");
    sheet.print_area(Area({1, 1}, {15, last + 1}));
}

void grid(Workbook& book) {
    Sheet& sheet = book.sheet("Grid", Paper::landscape);
    sheet.columns({0.4, 6.2, 3.6, 3.6, 3.6, 3.6, 3.6, 3.6, 3.6});
    look::opening(
        sheet, "=\"Other yields and prices: \"&block",
        "The equal yearly amount of rework and replant when the new crop yields and fetches less or more than "
        "planned; leaving stays as it is. Framed: the plan as it stands. Grey slanted: less than leaving.",
        8);
    sheet.row_height(2, 1.05);
    sheet.put("B3", "Price changes by steps of", Style::label);
    sheet.put("C3", 0.08, Style::input, Format::hundredth).name("price_step").valid(number(0, 1e6, "your currency"));
    sheet.put("D3", "=currency&\" a kg\"", Style::unit);
    sheet.put("F3", "Yield changes by steps of", Style::label);
    sheet.put("H3", 0.1, Style::input, Format::percent).name("yield_step").valid(share(0, 0.33));
    sheet.put("I3", "of the plan", Style::unit);
    sheet.put("K4", "Behind the grids; not printed", Style::workings);

    constexpr int steps = 3;  // on either side of the plan
    constexpr std::array<const char*, 7> columns{"C", "D", "E", "F", "G", "H", "I"};
    int row = 5;
    const auto axes = [&](const std::string& title, const std::string& price) {
        look::band(sheet, Place("B", row++), title, 8);
        sheet.put(Place("B", row), price.empty() ? "Price against plan, a kg" : "Price a kg, down; yield, across",
                  Style::heading);
        for (std::size_t at = 0; at < columns.size(); ++at) {
            const std::string step = std::to_string(static_cast<int>(at) - steps);
            sheet.put(Place(columns.at(at), row), "=1+" + step + "*yield_step", Style::heading, Format::percent);
            std::string fetched = "=" + price;
            if (!price.empty()) fetched += "+";
            fetched += step + "*price_step";
            sheet.put(Place("B", row + 1 + static_cast<int>(at)), fetched, Style::body, Format::hundredth);
        }
        return row;
    };
    std::vector<int> tops;
    for (const Plan& plan : {plans[1], plans[2]}) {
        const int top =
            axes(of(plan, "=\"Equal yearly amount of the plan to {p}, in \"&currency"), of(plan, "price_{p}"));
        tops.push_back(top);
        // Flows are straight lines in yield and price, so that two sums for each plan serve the whole grid.
        sheet.put(Place("K", top), of(plan, "equal yearly crop, {p}"), Style::workings);
        sheet.put(Place("K", top + 1), of(plan, "=REWORK.EQUALANNUAL(crop_{p};rate)"), Style::workings, Format::count)
            .name(of(plan, "equal_crop_{p}"));
        sheet.put(Place("K", top + 2), of(plan, "equal yearly fixed costs, {p}"), Style::workings);
        sheet
            .put(Place("K", top + 3), of(plan, "=REWORK.EQUALANNUAL(fixed_costs_{p};rate)"), Style::workings,
                 Format::count)
            .name(of(plan, "equal_fixed_{p}"));
        for (const char* column : columns) {
            sheet.fill_down(Area(column, top + 1, top + 7),
                            of(plan, "=" + std::string(column) + "$" + std::to_string(top) +
                                         "*($B{r}-pick_{p}-royalty_kg_{p})*equal_crop_{p}-equal_fixed_{p}"),
                            Style::answer, Format::count);
        }
        const Area cells(Place("C", top + 1), Place("I", top + 7));
        sheet.mark(cells, "C" + std::to_string(top + 1) + "<equal_annual_leave", Style::done);
        sheet.mark(Place("F", top + 1 + steps), "TRUE()", Style::due);
        row = top + 9;
    }
    const int top = axes("=\"Which plan leads, and by how much a year, in \"&currency", "");
    for (const char* column : columns) {
        for (int line = 1; line <= 7; ++line) {
            const std::string rework = column + std::to_string(tops[0] + line);
            const std::string replant = column + std::to_string(tops[1] + line);
            const std::string leader = R"(=IF({w}=MAX({all});"rework";IF({n}=MAX({all});"replant";"leave"))&" +"&)"
                                       "FIXED(LARGE(({any});1)-LARGE(({any});2);0)";
            const std::string all = replaced(replaced(leader, "{all}", "equal_annual_leave;{w};{n}"), "{any}",
                                             "equal_annual_leave~{w}~{n}");
            sheet.put(Place(column, top + line), replaced(replaced(all, "{w}", rework), "{n}", replant), Style::answer);
        }
    }
    const Area cells(Place("C", top + 1), Place("I", top + 7));
    sheet.mark(cells, "LEFT(C" + std::to_string(top + 1) + ";5)=\"leave\"", Style::done);
    sheet.mark(Place("F", top + 1 + steps), "TRUE()", Style::due);
    sheet.cursor("C3");
    sheet.print_area(Area({1, 1}, {9, top + 7}));
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
            sheet.put(Place("B", row), years_after, Style::input, Format::hundredth).valid(number(0, 200, "years"));
            sheet.put(Place("C", row), share_then, Style::input, Format::percent).valid(share(0, 3));
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
             "Mean of three seasons, 1995-96 to 1997-98, of early and midseason oranges, State; from boxes of 90 lb by "
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
    text.heading("This scene is invented")
        .note(
            "Heron Bank, its block, its oranges and mandarins, and all yields, prices, costs and the currency are made "
            "up. Overwrite the framed, tinted cells with your own.");
    text.errors("the Check on sheet Plans")
        .note(R"("never" or "no crop": there is no such answer; the Check says why.)");
    text.heading("How the figures are made")
        .note(
            "Crop: REWORK.YIELDBYYEAR, from the trees, the share that takes or establishes, the failures redone a year "
            "later, the trees lost each year and the plan's curve on sheet Curves.")
        .note(
            "Costs: year 0 holds cutting back or clearing (of the old trees), grafting or planting, ground works and "
            "the royalty on trees. Later years hold growing, care of young trees (years 1 to 3), redoing failures "
            "(year 1), and picking, packing and royalties on what is sold.")
        .note(
            "Present value: the first flow is today and counts in full, later ones less by the interest. Use interest "
            "above inflation, since prices stay those of today.")
        .note(
            "Equal yearly amount: the same sum at the end of each year of a plan's life, of the same present value. "
            "This is how projects of unequal length are compared (J. Goedegebure 1989, Acta Horticulturae 237). Check: "
            "Calc's own PMT(rate; years; -present value) gives the same.")
        .note("Price that matches leaving: the price at which the plan is worth as much a year as leaving the block.");
    text.heading("Published studies disagree")
        .note(
            "For reworking: sweet orange to navel in New South Wales, where reworking beat replanting under thirty "
            "years of prices (Elton, Hutton & Mullen 1999, Agribusiness Review 7(8)); citrus in Spain, cheaper and "
            "four "
            "to five years without crop saved (IFAPA, Andalusia, 2021); wine grapes in Washington, paid back in just "
            "over 3 years against 4.7 (an analysis in Good Fruit Grower, 2018, best case).")
        .note(
            "Against: citrus in Ventura, California, trees changed in 1998 to 2000: reworking was probably not cheaper "
            "than replanting, though earlier in bearing (B. Faber, University of California Cooperative Extension).")
        .note(
            "What decides: age and health of the trees and their roots, how long both will stand, the take, and "
            "whether "
            "spacing, rootstock and water lines are right, which reworking cannot change.");
    text.heading("Where the entries come from")
        .note(
            "Take, costs, prices, yields and lives: assumptions for this scene. Interest used in published orchard "
            "studies runs from 4.5 % above inflation (pears in Victoria, Stott et al. 2018, AFBM Journal 15) over 5 % "
            "(apples, Washington State University 2011) to 7.5 % (oranges in Florida, Trejo-Pech, Spreen & Zansler "
            "2018, American Journal of Agricultural Economics 100(2)).")
        .note("Years to pay back a new planting of citrus: 10 to 12 (S. Falivene, NSW DPI 2018).");
    text.heading("Royalties and protected varieties")
        .note(
            "Owners ask for a royalty once a tree, each year a hectare, on what is sold, or a mixture; the three lines "
            "on sheet Plans add up. A contract may also cap the trees or bind the sale; it comes before this sheet.")
        .note(
            "Growers sign for a stated number of trees; the owner may order others destroyed, and fines are heavy "
            "(NSW DPI, plant breeder's rights, 2020).");
    text.new_page();
    text.close();
}

}  // namespace

std::string rework_or_replant() {
    Workbook book("Rework or replant",
                  "Leave a block, rework it or replant it: flows, present value, equal yearly amount, payback and "
                  "break-even price side by side.");
    plans_sheet(book);
    cash(book);
    years(book);
    grid(book);
    curves(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

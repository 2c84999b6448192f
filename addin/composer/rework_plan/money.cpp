// Money: the crop year by year from the frame that lives, what it earns, and what it costs, against leaving the block.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/methods.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int head = 32;
constexpr int zero = head + 1;
constexpr int last = zero + years;

void entries_of(Sheet& sheet, Entries& entries) {
    const Kind price = number_kind(0, 1e9, "your money");
    Lines inputs(sheet, "B4", entries, {.label = 2, .value = 1, .unit = 2});
    inputs.section("Trees and crop")
        .input("Yield of a mature tree", "mature_yield", 95.0, "=weight_unit&\" a year\"", Format::count,
               number_kind(0, 12000, "in the unit beside the cell"))
        .input("Yield of a tree of the old variety", "old_yield", 70.0, "=weight_unit&\" a year\"", Format::count,
               number_kind(0, 12000, "in the unit beside the cell"))
        .input("Share of the frame that lives", "share_live",
               "=IFERROR(IF(rows_counted>0;SUM(row_frame)/SUMIF(live_now;\">=0\";row_planted);share_expected);\"\")",
               "=IF(N(rows_counted)>0;\"counted on \"&rows_counted&\" rows\";\"expected: nothing counted\")",
               Format::percent_tenth, small_share_kind(0, 1))
        .kept("Of what is missing, live once regrafted, year 1", "regraft_take", 0.6, "of the missing", Format::percent,
              share_kind(0, 1))
        .kept("Of the rest, live once regrafted again, year 2", "second_regraft_take", 0.0, "0: not done",
              Format::percent, share_kind(0, 1))
        .kept("Trees lost in a year", "yearly_loss", 0.01, "of the trees", Format::percent_tenth,
              small_share_kind(0, 0.99))
        .kept("Alternate bearing, its index", "alternate", 0.0, "0 steady; first crop is an on-year", Format::hundredth,
              number_kind(0, 1, "0 steady to 1 a crop every second year"))
        .input("A season lost to frost or hail", "lost_season", Content{}, "its year, or blank", Format::general,
               whole_kind(2000, 2120, "the season's year").or_blank())
        .kept("Lost of that season's crop", "lost_share", 1.0, "of the crop", Format::percent, share_kind(0, 1))
        .kept("Crop of the nurse limb", "nurse_share", 0.0, "of the old crop", Format::percent, share_kind(0, 1))
        .input("Harvests that the nurse limb gives", "nurse_harvests",
               "=IFERROR(MAX(0;INT((REWORK.MILESTONE(graft_day;nurse_stage;0;stages)-harvest_1)/365.25)+1);\"\")",
               "harvests", Format::count, whole_kind(0, 10, "harvests"));
    inputs.section("What it costs")
        .input("Name or sign of the money", "currency", "florins", "=IF(currency=\"florins\";\"invented\";\"\")",
               Format::text, text_kind("the currency's name"))
        .input("Cutting back and clearing, a tree", "cut_cost", or_blank("INDEX(labour_minutes;cut_row)/60*hour_pay"),
               "=currency&\"\"", Format::hundredth, price)
        .input("Budwood, a stick", "stick_price", 1.1, "=currency&\"\"", Format::hundredth, price)
        .input("Royalty, a tree", "royalty", 3.0, "=currency&\"\"", Format::hundredth, price)
        .input("Aftercare and training, a tree, year 1", "care_first",
               "=IFERROR(SUMPRODUCT((labour_target>graft_day)*(labour_target<=EDATE(graft_day;12))*labour_minutes)/60*"
               "hour_pay;\"\")",
               "=currency&\"\"", Format::hundredth, price)
        .input("Aftercare and training, a tree, year 2", "care_second",
               "=IFERROR(SUMPRODUCT((labour_target>EDATE(graft_day;12))*(labour_target<=EDATE(graft_day;24))*"
               "labour_minutes)/60*hour_pay;\"\")",
               "=currency&\"\"", Format::hundredth, price)
        .input("Going back to a tree to regraft it", "visit_cost", 1.5, "=currency&\"\"", Format::hundredth, price)
        .input("Growing costs of the block, a year", "growing_cost", 6100.0, "=currency&\"\"", Format::count, price);
}

void answers_of(Sheet& sheet, Entries& entries) {
    const Kind price = number_kind(0, 1e9, "your money");
    Lines right(sheet, "H4", entries, {.label = 2, .value = 1, .unit = 1, .check = 2});
    right.section("What it earns")
        .input("Price of the new crop", "new_price", 0.92, "=currency&\" a \"&weight_unit", Format::hundredth, price)
        .input("Picking and packing", "pick_cost", 0.24, "=currency&\" a \"&weight_unit", Format::hundredth, price)
        .input("Price of the old crop", "old_price", 0.45, "=currency&\" a \"&weight_unit", Format::hundredth, price)
        .input("Gross margin of the old crop, a year", "old_margin",
               or_blank("trees*old_yield*(old_price-pick_cost)-growing_cost"), "=currency&\"\"", Format::count,
               number_kind(-1e9, 1e9, "your money"))
        .kept("Interest", "rate", 0.06, "a year", Format::percent_tenth, small_share_kind(0, 1));
    right.section("What follows, against leaving the block as it is")
        .answer("Cost of the rework, year 0", "rework_cost", "F" + std::to_string(zero), "=currency&\"\"",
                Format::count, prices_missing_check)
        .answer("Paid back within, with interest", "", "payback_year", paid_back_unit, Format::count,
                "IF(payback=\"never\";\"Not within \"&ROWS(flows)-1&\" years.\";REWORK.WHY(\"PAYBACK\";flows;rate))");
    sheet.name("payback_check", Place("L", 12));
    right
        .answer("Present value over " + std::to_string(years) + " years", "present_value",
                "IF(COUNT(flows)=ROWS(flows);REWORK.PRESENTVALUE(flows;rate);\"\")", "=currency&\"\"", Format::count)
        .answer("Annual equivalent", "equal_annual", "IF(COUNT(flows)=ROWS(flows);REWORK.EQUALANNUAL(flows;rate);\"\")",
                "=currency&\"\"", Format::count)
        .answer("Break-even price", "break_even_price", "REWORK.BREAKEVENPRICE(all_costs;crop_by_year;rate)",
                "=currency&\" a \"&weight_unit", Format::hundredth);
    right.section("Harvests")
        .answer("First harvest after grafting", "harvest_1", "REWORK.HARVESTDATE(graft_day;harvest_month)", "date",
                Format::date)
        .answer("Age of the grafts then", "first_harvest", "MAX(1;harvest_1-graft_day)/365.25", "years",
                Format::hundredth, "")
        .answer("First crop, harvest from", "crop_date_1",
                "REWORK.HARVESTDATE(REWORK.MILESTONE(graft_day;crop_stage_1;-1;stages);harvest_month)", "date",
                Format::date, "REWORK.WHY(\"MILESTONE\";graft_day;crop_stage_1;-1;stages)")
        .answer("Its share of a mature crop", "first_crop_share",
                "REWORK.YIELD((crop_date_1-graft_day)/365.25;1;yield_curve)", "", Format::percent)
        .answer("Second crop, harvest from", "crop_date_2",
                "REWORK.HARVESTDATE(REWORK.MILESTONE(graft_day;crop_stage_2;-1;stages);harvest_month)", "date",
                Format::date, "REWORK.WHY(\"MILESTONE\";graft_day;crop_stage_2;-1;stages)")
        .answer("Its share of a mature crop", "second_crop_share",
                "REWORK.YIELD((crop_date_2-graft_day)/365.25;1;yield_curve)", "", Format::percent);
    right.section("Regrafting")
        .answer("Live grafts missing in the block", "regraft_missing", "trees*live_wanted*(1-share_live)", "grafts",
                Format::count, "")
        .answer("Grafts placed for them, year 1", "regrafts_1",
                "MAX(0;ROUNDUP(regraft_missing*regraft_take/take_seen-1E-6;0))", "grafts", Format::count, "")
        .answer("Grafts placed for the rest, year 2", "regrafts_2",
                "MAX(0;ROUNDUP(regraft_missing*(1-regraft_take)*second_regraft_take/take_seen-1E-6;0))", "grafts",
                Format::count, "")
        .answer("Trees visited in year 1, at most", "regraft_trees",
                "IF(ISNUMBER(regrafts_1);MIN(regrafts_1;trees);\"\")", "trees", Format::count, "");
    right.section("Grafts on a tree (sheet Plan)")
        .answer(
            "Worth today of a full tree", "tree_worth",
            "IF(COUNT(full_crop)=ROWS(full_crop);REWORK.PRESENTVALUE(full_crop;rate)*(new_price-pick_cost)/trees;\"\")",
            "=currency&\"\"", Format::hundredth, "IF(N(tree_worth)<=0;\"The new crop does not pay its picking.\";\"\")")
        .answer("Cost of one more graft", "graft_cost",
                "stick_price*(1+spare)/INT(buds_per_stick/buds_per_graft)+day_pay/grafts_per_day+stub_materials/grafts",
                "=currency&\"\"", Format::hundredth, "");
}

void table(Sheet& sheet) {
    sheet.page_break(head - 1);
    look::band(sheet, Place("B", head - 1), "=\"Year by year against leaving the block, in \"&currency", 13);
    look::headings(sheet, Place("B", head),
                   {"Year", "Season", "Age at harvest", "Share of a mature crop", "Rework, regrafting, aftercare",
                    "Growing", "=\"Crop, \"&weight_unit", "Picking and packing", "Margin forgone", "Income", "Flow",
                    "Cumulative cash flow", "Cumulative, with interest"});
    const auto put = [&](const char* column, int row, const std::string& expression, Format format) {
        sheet.put(Place(column, row), or_blank(at_row(expression, row)), Style::answer, format);
    };
    // Behind the table: the crop of what lives at once and of what is regrafted once, that of a second round, that of a
    // block that lives whole, the nurse limb's, and the factor of the season.
    look::headings(sheet, Place("Q", head),
                   {"Crop", "Second round", "Full", "Nurse limb", "Season", "All costs", "Old crop, t", "Crop, t",
                    "Odds: costs", "Odds: income"});
    const std::string curve_and_age = "yearly_loss;yield_curve;first_harvest)";
    const auto crop = [&](const char* column, const std::string& call) {
        sheet.array(Area(column, zero + 1, last), or_blank(call), Style::workings, {Format::count});
    };
    crop("Q", "REWORK.YIELDBYYEAR(trees;" + std::to_string(years) + ";mature_yield;share_live;regraft_take;" +
                  curve_and_age);
    crop("R", "REWORK.YIELDBYYEAR(trees;" + std::to_string(years) +
                  ";mature_yield;(1-share_live)*(1-regraft_take)*second_regraft_take;0;" + curve_and_age);
    crop("S", "REWORK.YIELDBYYEAR(trees;" + std::to_string(years) + ";mature_yield;1;0;" + curve_and_age);
    for (const char* column : {"Q", "R", "S", "T"}) sheet.put(Place(column, zero), 0.0, Style::workings);
    for (int row = zero; row <= last; ++row) {
        const int after = row - zero;
        const std::string number = std::to_string(after);
        sheet.put(Place("B", row), after == 0 ? "Grafting" : "Year " + number, Style::body);
        put("C", row,
            after == 0 ? "YEAR(graft_day)" : "YEAR(EDATE(harvest_1;" + std::to_string(12 * (after - 1)) + "))",
            Format::general);
        if (after == 0) {
            sheet.empty(Area({4, row}, {5, row}), Style::answer);
        } else {
            put("D", row, "first_harvest+" + std::to_string(after - 1), Format::hundredth);
            put("E", row, "REWORK.YIELD(D{r};1;yield_curve)", Format::percent);
        }
        // 0, once there are trees.
        const std::string nothing = "0*trees";
        std::string cost = nothing;
        if (after == 0) cost = "trees*(cut_cost+royalty)+sticks_in_lots*stick_price+grafting_pay+materials_cost";
        const std::string regrafting =
            "IF({n}>0;REWORK.STICKS({n};buds_per_graft;buds_per_stick;spare)*stick_price+"
            "{n}/grafts_per_day*day_pay+{n}*stub_materials/grafts+MIN({n};trees)*"
            "visit_cost;0)";
        const auto of = [&](const std::string& name) {
            std::string text = regrafting;
            for (std::size_t at = text.find("{n}"); at != std::string::npos; at = text.find("{n}")) {
                text.replace(at, 3, name);
            }
            return text;
        };
        if (after == 1) cost = "trees*care_first+" + of("regrafts_1");
        if (after == 2) cost = "trees*care_second+" + of("regrafts_2");
        put("F", row, cost, Format::count);
        put("G", row, after == 0 ? nothing : "growing_cost", Format::count);
        std::string kilograms = nothing;
        if (after > 0) kilograms = "(Q{r}+" + (after > 2 ? "R" + std::to_string(row - 2) : std::string("0")) + ")*U{r}";
        put("H", row, kilograms, Format::count);
        put("I", row, "(H{r}+T{r})*pick_cost", Format::count);
        put("J", row, after == 0 ? nothing : "old_margin", Format::count);
        put("K", row, "H{r}*new_price+T{r}*old_price", Format::count);
        put("L", row, "K{r}-F{r}-G{r}-I{r}-J{r}", Format::count);
        put("M", row,
            "IF(COUNT(L$" + std::to_string(zero) + ":L{r})=" + std::to_string(after + 1) + ";SUM(L$" +
                std::to_string(zero) + ":L{r});\"\")",
            Format::count);
        put("N", row, after == 0 ? "L{r}" : "N" + std::to_string(row - 1) + "+L{r}/(1+rate)^" + number, Format::count);
        if (after > 0) {
            sheet.put(Place("T", row), or_blank("IF(" + number + "<=nurse_harvests;trees*old_yield*nurse_share;0)"),
                      Style::workings, Format::count);
        }
        // On-years and off-years about the curve, from the first crop on; a lost season on top.
        sheet.put(Place("U", row),
                  or_blank(at_row(
                      "IF(OR(alternate=0;C{r}<YEAR(crop_date_1));1;1+alternate*IF(MOD(C{r}-YEAR(crop_date_1);2)=0;"
                      "1;-1))*IF(C{r}=lost_season;1-lost_share;1)",
                      row)),
                  Style::workings, Format::hundredth);
        sheet.put(Place("V", row), or_blank(at_row("F{r}+G{r}+I{r}+J{r}-T{r}*old_price", row)), Style::workings,
                  Format::count);
        sheet.put(Place("W", row), or_blank("trees*old_yield/IF(units=\"US\";2000;1000)"), Style::workings,
                  Format::tenth);
        sheet.put(Place("X", row), or_blank(at_row("H{r}/IF(units=\"US\";2000;1000)", row)), Style::workings,
                  Format::tenth);
        // What is paid whatever the crop, and what comes of it after picking; a margin below 0 forgone is income.
        sheet.put(Place("Y", row), or_blank(at_row("F{r}+G{r}+MAX(0;J{r})", row)), Style::workings, Format::count);
        sheet.put(Place("Z", row), or_blank(at_row("K{r}-I{r}+MAX(0;-J{r})", row)), Style::workings, Format::count);
    }
    sheet.name("flows", Area("L", zero, last));
    sheet.name("all_costs", Area("V", zero, last));
    sheet.name("crop_by_year", Area("H", zero, last));
    sheet.name("crop_kg", Area("H", zero + 1, last));
    sheet.name("full_crop", Area("S", zero, last));
    sheet.name("odds_costs", Area("Y", zero, last));
    sheet.name("odds_income", Area("Z", zero, last));
    sheet.name("seasons", Area("C", zero, last));
    sheet.name("crop_shares", Area("E", zero, last));
    const std::string first = std::to_string(zero);
    sheet.mark(Area("B", zero, last),
               "AND(ISNUMBER(payback);ROW()-" + first + ">=N(payback);ROW()-" + first + "<N(payback)+1)", Style::due);
}

/// What the workbook seasons takes of a block, in one paste. A year's margin against leaving the block: the gain once
/// the crop is full, the loss while there is none.
void line_for_seasons(Sheet& sheet) {
    const int row = last + 8;
    look::band(sheet, Place("B", row - 2),
               "For the workbook of several seasons: copy B" + std::to_string(row) + ":K" + std::to_string(row) +
                   ", select the first free block on its sheet Blocks, paste the values only",
               13);
    look::headings(sheet, Place("B", row - 1),
                   {"Block", "New variety", "Trees", "Grafter-days", "Sticks", "=\"Outlay, \"&currency",
                    "Gain a year in full crop", "Lost a year without a crop", "Old crop a year", "New crop a year"});
    const std::string full = "trees*mature_yield*(share_live+(1-share_live)*regraft_take)";
    const std::string tonnes = "/IF(units=\"US\";2000;1000)";
    const std::string outlay = Area("F", zero, zero + 2).text();
    const auto put = [&](const char* column, const std::string& expression, Format format) {
        sheet.put(Place(column, row), or_blank(expression), Style::answer, format);
    };
    put("B", "IF(trees>0;block&\"\";\"\")", Format::text);
    put("C", "IF(trees>0;new_variety&\"\";\"\")", Format::text);
    put("D", "trees", Format::count);
    put("E", "REWORK.CREWDAYS(grafts;grafts_per_day;1)", Format::count);
    put("F", "sticks_in_lots", Format::count);
    put("G", "IF(COUNT(" + outlay + ")=3;SUM(" + outlay + ");\"\")", Format::count);
    put("H", full + "*(new_price-pick_cost)-growing_cost-old_margin", Format::count);
    put("I", "growing_cost+old_margin", Format::count);
    put("J", "trees*old_yield" + tonnes, Format::tenth);
    put("K", full + tonnes, Format::tenth);
    sheet.name("line_for_seasons", Area({2, row}, {11, row}));
}

void charts(Sheet& sheet) {
    using Shape = Series::Shape;
    const Chart flows{
        .title = "Flow of each season against leaving the block, and all of them summed",
        .description =
            "Columns for each season's flow; a line that falls to the cost of the rework, rises with the "
            "new crop and, with interest, has paid back where it crosses zero.",
        .categories = Area("C", zero, last),
        .category_title = "season",
        .value_title = "your money",
        .value_format = Format::count,
        .series = {{.values = Area("L", zero, last), .label = Place("L", head), .shape = Shape::column, .paint = 2},
                   {.values = Area("N", zero, last), .label = Place("N", head), .shape = Shape::line, .paint = 0}}};
    const Chart crop{
        .title = "Crop of the block by season",
        .description = "A column for each season's crop in tonnes, and a line for what the old variety gave.",
        .categories = Area("C", zero + 1, last),
        .category_title = "season",
        .value_title = "tonnes, or US short tons",
        .value_format = Format::count,
        .series = {{.values = Area("X", zero + 1, last), .label = Place("X", head), .shape = Shape::column, .paint = 2},
                   {.values = Area("W", zero + 1, last), .label = Place("W", head), .shape = Shape::line, .paint = 3}},
        .least = 0};
    sheet.page_break(last + 2);
    sheet.chart(Place("B", last + 2), 34, 9.5, flows);
    sheet.chart(Place("B", last + 3), 34, 9.5, crop);
}

}  // namespace

void money(Workbook& book) {
    Sheet& sheet = book.sheet("Money", Paper::landscape);
    sheet.columns({0.4, 4.0, 3.4, 2.7, 2.6, 3.0, 2.7, 3.0, 3.0, 2.7, 3.0, 2.7, 4.4,
                   3.2, 0.5, 0.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8});
    look::opening(
        sheet, look::titled("Crop, cost and income", "block"),
        "Against leaving the block as it is: what the rework costs, what the new crop earns, and the margin of the old "
        "one that is forgone. Prices of today, no inflation.",
        13);
    Entries entries(sheet, "money_entries");
    entries_of(sheet, entries);
    answers_of(sheet, entries);
    sheet
        .put(Place("P", 12), "=IF(payback=\"never\";\"Not within " + std::to_string(years) + " years.\";\"\")",
             Style::workings)
        .name("payback_said");
    sheet
        .put(Place("P", 14), or_blank("IF(COUNT(flows)=ROWS(flows);IFNA(REWORK.PAYBACK(flows;rate);\"never\");\"\")"),
             Style::workings, Format::tenth)
        .name("payback");
    sheet
        .put(Place("P", 13), or_blank("IF(ISNUMBER(payback);INDEX(odds_paid;payback_year+1);\"\")"), Style::workings,
             Format::percent)
        .name("payback_odds");
    table(sheet);
    charts(sheet);
    sheet
        .put(
            Place("B", last + 4),
            "An estimate for comparing plans, no advice: prices, costs and interest are the user's own. The crop goes "
            "with the share of the grafts wanted that live, and that part of the frame which is regrafted bears a year "
            "later and costs in the year it is done. A fifth of a mature crop at 33 months and half at 45 are "
            "experience, "
            "no published source, the rest of the curve is an assumption; recovery times in print disagree (sheet "
            "Defaults). Put your own records there.",
            Style::note)
        .across(13);
    sheet.row_height(last + 4, 1.5);
    line_for_seasons(sheet);
    entries.close("B3", 13);
    sheet.cursor("D5");
    sheet.print_area(Area({1, 1}, {14, last + 8}));
}

}  // namespace slipbark::compose::block

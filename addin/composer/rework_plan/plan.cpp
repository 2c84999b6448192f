// Plan: what a block needs, and the answers that are asked first.
#include <array>
#include <cctype>

#include "composer/entries.hpp"
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

using std::chrono::September;
using std::chrono::year;

constexpr const char* example_block = "Kestrel Flat, block 3";

/// What stands against the plan as it is, one sentence each.
constexpr std::array<std::array<const char*, 2>, 10> objections{{
    {"AND(ISNUMBER(finish_date);ISNUMBER(first_look);finish_date>first_look)",
     R"("The first rows are due for their take check on "&{first_look}&", before grafting ends on "&{finish_date}&"." )"},
    {"AND(ISNUMBER(finish_date);finish_date>window_end)",
     R"("Grafting ends on "&{finish_date}&", "&(finish_date-window_end)&" days after the bark tightens: more grafters, or an earlier start." )"},
    {"AND(ISNUMBER(fitting_grafts);grafts_per_stub>fitting_grafts)",
     R"("More grafts on a stub than fit round it: "&grafts_per_stub&", where "&fitting_grafts&" have room." )"},
    {"AND(units=\"US\";row_spacing_m<8)", R"("Rows "&row_spacing_m&" ft apart: or was that metres? ")"},
    {"AND(units=\"metric\";row_spacing_m>13)", R"("Rows "&row_spacing_m&" m apart: or was that feet? ")"},
    {"AND(ISNUMBER(tree_places);trees>1.1*tree_places)",
     R"("More trees than the spacing has places for: "&trees&" on "&tree_places&"." )"},
    {"AND(ISNUMBER(trees_in_lots);trees_in_lots<>trees)",
     R"("The lots on sheet Orders are for "&trees_in_lots&" trees, the block has "&trees&"." )"},
    {"AND(ISNUMBER(trees_in_rows);trees_in_rows<>trees)",
     R"("Sheet Rows holds "&trees_in_rows&" trees, the block has "&trees&"." )"},
    {"AND(ISNUMBER(grafts_for_chance);grafts_per_tree<grafts_for_chance)",
     R"("A tree gets "&grafts_per_tree&" grafts: too few for "&live_wanted&" alive on "&ROUND(100*tree_chance;0)&" in 100 trees." )"},
    {"AND(LEN(entries)=0;NOT(ISNUMBER(take_after_store)))",
     R"("How much of the wood is alive after the store is not known: sheet Orders says why." )"},
}};

/// Each "{name}" in a text replaced by that date cell in words.
std::string with_dates(std::string text) {
    for (const char* name : {"first_look", "finish_date"}) {
        const std::string place = std::string("{") + name + "}";
        for (std::size_t at = text.find(place); at != std::string::npos; at = text.find(place)) {
            text.replace(at, place.size(), date_words(name));
        }
    }
    return text;
}

/// The first entry of the whole book that does not fit.
std::string entries_said() {
    std::string formula = "\"\"";
    const std::array<const char*, 10> sheets{"Odds",     "Actual", "Defaults", "Money", "Regraft",
                                             "Calendar", "Week",   "Rows",     "Crew",  "Orders"};
    for (const std::string sheet : sheets) {
        std::string name = sheet + "_entries";
        name.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(name.front())));
        formula = "IF(LEN(" + name + ")>0;\"Sheet " + sheet + ": \"&" + name + ";" + formula + ")";
    }
    return "=IF(LEN(plan_entries)>0;plan_entries;" + formula + ")";
}

/// All objections that hold, one after the other.
std::string objections_said() {
    std::string said;
    for (const auto& [holds, text] : objections) {
        if (!said.empty()) said += "&";
        said += std::string("IFERROR(IF(") + holds + ";" + with_dates(text) + "&\" \";\"\");\"\")";
    }
    return said;
}

/// What is typed stays as it was typed; functions are metric, so each entry goes to them by these.
void units(Sheet& sheet) {
    struct Unit {
        const char* name;
        const char* metric;
        const char* us;
    };
    const std::array<Unit, 13> all{{
        {"hectares", "1", "CONVERT(1;\"uk_acre\";\"ha\")"},
        {"metres", "1", "CONVERT(1;\"ft\";\"m\")"},
        {"centimetres", "1", "CONVERT(1;\"in\";\"cm\")"},
        {"millimetres", "1", "CONVERT(1;\"in\";\"mm\")"},
        {"litres", "1", "CONVERT(1;\"gal\";\"l\")"},
        {"millilitres", "1", "CONVERT(1;\"oz\";\"ml\")"},
        {"area_unit", "\"ha\"", "\"acres\""},
        {"length_unit", "\"m\"", "\"ft\""},
        {"small_unit", "\"cm\"", "\"inches\""},
        {"thin_unit", "\"mm\"", "\"inches\""},
        {"bark_unit", "\"m2\"", "\"sq ft\""},
        {"volume_unit", "\"litres\"", "\"gallons\""},
        {"weight_unit", "\"kg\"", "\"lb\""},
    }};
    int row = 8;
    for (const Unit& unit : all) {
        sheet
            .put(Place("K", row), std::string("=IF(units=\"US\";") + unit.us + ";" + unit.metric + ")", Style::workings)
            .name(unit.name);
        ++row;
    }
}

}  // namespace

void plan(Workbook& book) {
    Sheet& sheet = book.sheet("Plan", Paper::landscape);
    sheet.columns({0.4, 6.2, 4.2, 3.6, 0.5, 7.0, 3.3, 2.8, 9.0, 0.8, 3.0, 3.0});
    look::opening(
        sheet, look::titled("Rework plan", "block"),
        "Fill in the framed, tinted cells on the left; the answers on the right follow. A Check that is blank "
        "is fine, else it says what to correct.",
        8);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet
        .put("B4",
             "=IF(COUNT(trees;graft_date)=0;\"Fill in the framed cells from the top: the line below names the next "
             "one. Trees and "
             "the first day of grafting bring the first answers.\";IF(LEN(entries)>0;\"Something does not "
             "fit yet: "
             "the line below says what.\";IFERROR(\"Order \"&"
             "FIXED(sticks_in_lots;0)&\" sticks for \"&FIXED(grafts;0)&\" grafts on \"&FIXED(trees;0)&\" trees. "
             "Grafting runs from \"&" +
                 date_words("graft_day") + "&\" to \"&" + date_words("finish_date") +
                 "&\" with \"&crew&IF(crew=1;\" grafter\";\" grafters\")&\". Take checks from \"&" +
                 date_words("first_look_from") + "&\" to \"&" + date_words("first_look_until") +
                 "&\". About \"&ROUND(100*chance_wanted;0)&\" in 100 trees should keep at least \"&live_wanted&"
                 "IF(live_wanted=1;\" live graft.\";\" live grafts.\")&IF(ISNUMBER(payback_odds);\" With interest it "
                 "has paid back within "
                 "\"&payback_year&\" years, by then in \"&ROUND(100*payback_odds;0)&\" of 100 draws.\";\"\");\"Some "
                 "answers are not there yet: the Checks say why.\")&IF(LEN(objections)>0;\" NOT "
                 "AS IT STANDS: \"&objections;\"\")))",
             Style::sentence)
        .across(8);
    sheet.row_height(4, 1.9);
    sheet.mark("B4", "AND(COUNT(trees;graft_date)>0;OR(LEN(entries)>0;LEN(objections)>0))", Style::mend);
    Entries entries(sheet, "plan_entries");
    sheet.put("B5", entries_said(), Style::check).name("entries").across(8);
    look::mend_where_said(sheet, "B5");

    Lines inputs(sheet, "B7", entries);
    inputs.section("The block")
        .input("Block", "block", example_block, "name", Format::text, text_kind("the block's name"))
        .input("Old variety", "old_variety", "White grapefruit", "name", Format::text, text_kind("a variety"))
        .input("New variety", "new_variety", "Ember Moon pomelo", "name", Format::text, text_kind("a variety"))
        .input("Area", "area_ha", 1.84, "=area_unit", Format::hundredth,
               measured_kind({0.01, 10000, "ha"}, {0.03, 24700, "acres"}, "hectares"))
        .input("Between rows", "row_spacing_m", 7.0, "=length_unit", Format::tenth,
               measured_kind({0.5, 50, "m"}, {1.7, 164, "ft"}, "metres"))
        .input("Between trees in the row", "tree_spacing_m", 4.5, "=length_unit", Format::tenth,
               measured_kind({0.2, 50, "m"}, {0.7, 164, "ft"}, "metres"))
        .input("Trees to rework, counted", "trees", 571.0, "trees", Format::count, whole_kind(1, 100000, "trees"));
    inputs.section("Cutting back")
        .input("Stubs on a tree", "stubs_per_tree", 4.0, "stubs", Format::count, whole_kind(1, 40, "stubs"))
        .input("Diameter of a stub", "stub_diameter_cm", 5.5, "=small_unit", Format::tenth,
               measured_kind({0.5, 60, "cm"}, {0.2, 23.6, "inches"}, "centimetres"))
        .input("Grafts on a stub", "grafts_per_stub", 2.0, "grafts", Format::count, whole_kind(1, 12, "grafts"));
    inputs.section("Budwood")
        .input("Buds on a scion", "buds_per_graft", 3.0, "buds", Format::count, whole_kind(1, 100, "buds"))
        .input("Usable buds on a stick", "buds_per_stick", 10.0, "buds", Format::count, whole_kind(1, 1000, "buds"))
        .kept("Spare, for culls and dead wood", "spare", 0.12, "of the need", Format::percent, share_kind(0, 2))
        .input("Days in store", "days_in_store", 6.0, "days", Format::count, number_kind(0, 365, "days"))
        .kept("Store", "storage", "cool", "room, cool or own", Format::text, choice_kind({"room", "cool", "own"}));
    inputs.to_row(26)
        .section("Take")
        .input("Expected take of fresh wood", "expected_take", 0.72, "of the grafts", Format::percent,
               share_kind(0.01, 1))
        .kept("Clustering within a tree", "clustering", 0.1, "0 to 0.95, see Notes", Format::hundredth,
              number_kind(0, 0.95, "0: grafts of a tree fail one by one; near 1: together"))
        .input("Live grafts wanted on a tree", "live_wanted", 5.0, "grafts", Format::count, whole_kind(1, 40, "grafts"))
        .kept("Trees that should have them", "tree_chance", 0.75, "of the trees", Format::percent,
              share_kind(0.5, 0.999));
    inputs.to_row(31)
        .section("Units, and kind of trees")
        .kept("Units", "units", "metric", "metric or US", Format::text, choice_kind({"metric", "US"}))
        .kept("Kind of trees", "kind_of_trees", "citrus", "see the line below", Format::text,
              choice_kind({"citrus", "other evergreen", "deciduous"}));
    inputs.to_row(34)
        .section("Dates")
        .input("First day of grafting", "graft_date", Date{year{2027} / September / 20}, "date", Format::weekday_date,
               printed_date_kind())
        .input("Month in which harvest begins", "harvest_month", 6.0, "1 to 12", Format::count,
               whole_kind(1, 12, "the month"))
        .input("Method", "method", "bagged bark graft", "sets sheet Defaults", Format::text,
               choice_kind({"bagged bark graft", "wrapped bark graft", "bud on regrowth", "dormant cleft graft"}));

    Lines answers(sheet, "F7", entries, {.check = 1});
    answers.section("The block")
        .answer("Tree sites, by area and spacing", "tree_places",
                "REWORK.TREES(area_ha*hectares;row_spacing_m*metres;tree_spacing_m*metres)", "sites", Format::count,
                "IF(trees>1.1*tree_places;\"More trees than the spacing has places for.\";"
                "REWORK.WHY(\"TREES\";area_ha*hectares;row_spacing_m*metres;tree_spacing_m*metres))")
        .answer("Missing trees, against the count", "", "tree_places-trees", "trees", Format::count, "")
        .answer("Grafts that fit round a stub", "fitting_grafts", "REWORK.STUBGRAFTS(stub_diameter_cm*centimetres)",
                "grafts", Format::count,
                "IF(grafts_per_stub>fitting_grafts;\"More grafts on a stub than fit round it.\";"
                "REWORK.WHY(\"STUBGRAFTS\";stub_diameter_cm*centimetres))")
        .answer("Stubs in the block", "stubs", "trees*stubs_per_tree", "stubs", Format::count, "")
        .answer("Grafts on a tree", "grafts_per_tree", "stubs_per_tree*grafts_per_stub", "grafts", Format::count, "")
        .total("Grafts in the block", "grafts", "trees*grafts_per_tree", "grafts", Format::count);
    answers.to_row(15)
        .section("Budwood")
        .total("Sticks for the block", "sticks", "REWORK.STICKS(grafts;buds_per_graft;buds_per_stick;spare)", "sticks",
               Format::count)
        .answer("To order, each lot rounded up", "", "sticks_in_lots", "sticks", Format::count,
                "IF(trees_in_lots<>trees;\"The lots are for \"&trees_in_lots&\" trees, not \"&trees&\".\";\"\")")
        .answer("Buds still alive after the store", "alive", "lots_alive", "of the buds", Format::percent_tenth,
                "lots_check");
    answers.to_row(19)
        .section("Take")
        .answer("Take to expect after the store", "take_after_store", "lots_take", "of the grafts",
                Format::percent_tenth, "")
        .answer("Share of the frame that should live", "share_expected", "lots_share", "of the grafts wanted",
                Format::percent_tenth, "")
        .answer("Share of the frame in use (sheet Money)", "", "share_live",
                "=IF(N(rows_counted)>0;\"counted on \"&rows_counted&\" rows\";\"expected: nothing counted\")",
                Format::percent_tenth, "")
        .answer("Trees with the live grafts wanted", "chance_wanted", "lots_chance", "of the trees",
                Format::percent_tenth, "")
        .answer("Trees with a live graft at all", "tree_take", "lots_tree_take", "of the trees", Format::percent_tenth,
                "")
        .answer("Grafts on a tree for the trees wanted", "grafts_for_chance",
                "REWORK.TREEGRAFTS(take_after_store;tree_chance;live_wanted;clustering)", "grafts", Format::count,
                "IF(grafts_per_tree<N(grafts_for_chance);\"A tree gets \"&grafts_per_tree&\": too few for \"&"
                "ROUND(100*tree_chance;0)&\" in 100 trees.\";REWORK.WHY(\"TREEGRAFTS\";take_after_store;tree_chance;"
                "live_wanted;clustering))");
    answers.to_row(26)
        .section("Dates, from the first day's earliest to the last day's latest")
        .answer("Grafting done (sheet Crew)", "", "finish_date", "date", Format::weekday_date,
                "IF(N(finish_date)>window_end;\"Ends after the bark tightens.\";\"\")")
        .answer("Take check of the first rows", "first_look", "REWORK.MILESTONE(graft_day;look_stage;0;stages)", "date",
                Format::weekday_date,
                "IF(N(finish_date)>N(first_look);\"Due before grafting ends: plan people for both.\";"
                "REWORK.WHY(\"MILESTONE\";graft_day;look_stage;0;stages))")
        .answer("Take checks from", "first_look_from", "REWORK.MILESTONE(graft_day;look_stage;-1;stages)", "date",
                Format::weekday_date, "")
        .answer("Take checks until", "first_look_until", "REWORK.MILESTONE(finish_date;look_stage;1;stages)", "date",
                Format::weekday_date, "")
        .answer("Bags or ties off from", "off_from", "REWORK.MILESTONE(graft_day;off_stage;-1;stages)", "date",
                Format::weekday_date, "REWORK.WHY(\"MILESTONE\";graft_day;off_stage;-1;stages)")
        .answer("Bags or ties off until", "off_until", "REWORK.MILESTONE(finish_date;off_stage;1;stages)", "date",
                Format::weekday_date, "")
        .answer("First crop, harvest from", "first_crop", "crop_date_1",
                "=IFERROR(\"date; about \"&ROUND(100*first_crop_share;0)&\" % of a mature crop\";\"date\")",
                Format::weekday_date, "");
    answers.to_row(34)
        .section("Money (sheet Money)")
        .answer("Cost of the rework", "", "rework_cost", "=currency&\"\"", Format::count, prices_missing_check)
        .answer("Paid back within, against leaving it", "payback_year",
                "IF(ISNUMBER(payback);ROUNDUP(payback-1E-9;0);payback)", paid_back_unit, Format::count, "payback_said")
        .answer("Grafts on a tree that pay best", "best_grafts",
                "REWORK.BESTGRAFTS(take_after_store;live_wanted;tree_worth;graft_cost;clustering)", "grafts",
                Format::count);

    // The choice of grafts, from none to well past the largest of the numbers above: how steep it is.
    constexpr int head = 40;
    constexpr int first = head + 1;
    constexpr int last = first + 20;
    look::headings(sheet, Place("K", head), {"Grafts on a tree", "Worth less their cost"});
    for (int row = first; row <= last; ++row) {
        const std::string step = "MAX(1;ROUNDUP(1.3*MAX(N(best_grafts);N(grafts_per_tree);N(grafts_for_chance))/20;0))";
        sheet.put(Place("K", row), or_blank(std::to_string(row - first) + "*" + step), Style::workings, Format::count);
        sheet.put(Place("L", row),
                  or_blank(at_row("tree_worth*REWORK.TREESHARE(K{r};take_after_store;live_wanted;clustering)-K{r}*"
                                  "graft_cost",
                                  row)),
                  Style::workings, Format::hundredth);
    }
    // What differs by crop and climate; experience, no published source.
    sheet
        .put("B38",
             "=IF(kind_of_trees=\"deciduous\";\"Deciduous trees: cut the wood in full dormancy and keep it just above "
             "freezing; cleft graft at bud swell, bark graft once the bark slips; a nurse limb or two feeds the roots "
             "meanwhile.\";IF(kind_of_trees=\"other evergreen\";\"Other evergreens: wood keeps for days, not weeks; "
             "mango, avocado and old trees take better on regrowth; bare limbs burn, so paint at once.\";"
             "\"Citrus: graft while the bark slips, from spring on; leave a nurse limb on the afternoon-sun side for a "
             "season or two.\"))&\" Young trees that are cut back whole keep no nurse limb: clear its stage on sheet "
             "Defaults. (Experience, no published source.)\"",
             Style::note)
        .name("scene_note")
        .across(8);
    sheet.row_height(38, 0.8);
    sheet
        .put("B6",
             "=\"Trained hands on saws, firm ladders, labels before figures: see the cautions on sheet Notes before "
             "anybody cuts.\"&IF(block=\"" +
                 std::string(example_block) + "\";\" The scene is invented.\";\"\")",
             Style::caution)
        .across(8);
    sheet.row_height(6, 0.6);
    const Chart chart{.title = "What a tree is worth by the number of its grafts",
                      .description =
                          "A line that rises with the grafts placed on a tree and falls again once a further one costs "
                          "more than it brings. How flat it is around its top says how much the choice matters.",
                      .categories = Area("K", first, last),
                      .category_title = "grafts placed on a tree",
                      .value_title = "worth of the crop less cost of the grafts",
                      .value_format = Format::count,
                      .series = {{.values = Area("L", first, last),
                                  .label = Place("L", head),
                                  .shape = Series::Shape::line,
                                  .paint = 0}},
                      .legend = false};
    sheet.chart("B39", 24, 7.5, chart);
    sheet
        .put("B40",
             "=IF(SUMPRODUCT(--(LEN(INDEX(stages;0;1))>0))=0;\"\";\"Whose figures: \"&SUM(own_stages)&\" of "
             "\"&SUMPRODUCT(--(LEN(INDEX(stages;0;1))>0))&\" stages and the minutes of \"&SUM(own_minutes)&\" are your "
             "own, the rest is built in (sheets Defaults and Crew). \"&IF(SUM(own_curve)>0;\"The yield curve is your "
             "own.\";\"The yield curve is built in.\"))",
             Style::note)
        .name("whose_figures")
        .across(8);
    sheet.put("K4", "=" + objections_said(), Style::workings).name("objections");
    // A day that does not fit reaches nothing: Calc's own EDATE takes minutes over a day of the year 2,700,000.
    sheet.put("K6", "=" + entries::day_of("graft_date"), Style::workings, Format::date);
    sheet.put("L6", "=IF(K6>0;K6;\"\")", Style::workings, Format::date).name("graft_day");
    units(sheet);
    entries.close("K5", 1);
    sheet.cursor("C8");
    sheet.print_area("A1:I40");
}

}  // namespace slipbark::compose::block

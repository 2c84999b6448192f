// The whole plan of one block: what to order, who does it when, how it took, what it yields and earns.
//
// The scene is invented: farm, block, variety, people and prices. Sheets follow the order of the work.
#include <array>
#include <string>
#include <vector>

#include "slipbark/defaults.hpp"
#include "workbooks/look.hpp"
#include "workbooks/sheet.hpp"
#include "workbooks/workbooks.hpp"

namespace slipbark::compose {

namespace {

using look::Form;
using std::chrono::October;
using std::chrono::September;
using std::chrono::year;

void plan(Workbook& book) {
    Sheet& sheet = book.sheet("Plan", Paper::landscape);
    sheet.columns({0.4, 5.4, 4.0, 2.9, 0.5, 6.2, 3.1, 2.4, 8.4});
    look::opening(
        sheet, "=\"Rework plan: \"&block",
        "Fill in the framed, tinted cells on the left; the answers on the right follow. A Check that is blank "
        "is fine, else it says what to mend.",
        8);
    sheet.put("B3", look::if_name_error, Style::lead).across(8);
    sheet
        .put("B4",
             "=IFERROR(\"Order \"&FIXED(sticks;0)&\" sticks for \"&FIXED(grafts;0)&\" grafts on \"&FIXED(trees;0)&\" "
             "trees. "
             "Grafting starts on \"&" +
                 date_words("start_date") + R"(&"; "&crew&" grafters finish on "&)" + date_words("finish_date") +
                 "&\". First look under the bags on \"&" + date_words("first_look") +
                 "&\". About \"&ROUND(100*chance_wanted;0)&\" in 100 trees should keep at least \"&live_wanted&\" live "
                 "grafts.\";\"Something does not fit yet: the Checks say what.\")",
             Style::sentence)
        .across(8);
    sheet.row_height(4, 1.4);

    Form inputs(sheet, "B6");
    inputs.section("The block")
        .input("Block", "block", "Kestrel Flat, block 3", "name", Format::text, any_text("the block's name"))
        .input("Variety that goes", "old_variety", "White grapefruit", "name", Format::text, any_text("a variety"))
        .input("Variety that comes", "new_variety", "Ember Moon pomelo", "name", Format::text, any_text("a variety"))
        .input("Area", "area_ha", 1.84, "ha", Format::hundredth, number(0.01, 10000, "ha"))
        .input("Between rows", "row_spacing_m", 7.0, "m", Format::tenth, number(0.5, 50, "m"))
        .input("Between trees in the row", "tree_spacing_m", 4.5, "m", Format::tenth, number(0.2, 50, "m"))
        .input("Trees to rework, counted", "trees", 571.0, "trees", Format::count, whole(1, 100000, "trees"));
    inputs.section("Cutting back")
        .input("Stubs on a tree", "stubs_per_tree", 4.0, "stubs", Format::count, whole(1, 40, "stubs"))
        .input("Diameter of a stub", "stub_diameter_cm", 5.5, "cm", Format::tenth, number(0.5, 60, "cm"))
        .input("Grafts on a stub", "grafts_per_stub", 2.0, "grafts", Format::count, whole(1, 12, "grafts"));
    inputs.section("Budwood")
        .input("Buds on a graft", "buds_per_graft", 3.0, "buds", Format::count, whole(1, 100, "buds"))
        .input("Usable buds on a stick", "buds_per_stick", 10.0, "buds", Format::count, whole(1, 1000, "buds"))
        .input("Spare, for culls and dead wood", "spare", 0.12, "of the need", Format::percent, share(0, 2))
        .input("Days in store", "days_in_store", 6.0, "days", Format::count, number(0, 365, "days"))
        .input("Store", "storage", "cool", "room or cool", Format::text, one_of({"room", "cool"}));
    inputs.section("Take")
        .input("Expected take of fresh wood", "expected_take", 0.72, "of the grafts", Format::percent, share(0.01, 1))
        .input("Likeness within a tree", "clustering", 0.1, "0 to 0.95, see Notes", Format::hundredth,
               number(0, 0.95, "0: grafts of a tree fail one by one; near 1: together"))
        .input("Live grafts wanted on a tree", "live_wanted", 5.0, "grafts", Format::count, whole(1, 100, "grafts"))
        .input("Trees that should have them", "tree_chance", 0.75, "of the trees", Format::percent, share(0.5, 0.999));
    inputs.section("Dates").input("First day of grafting", "graft_date", Date{year{2027} / September / 20}, "date",
                                  Format::weekday_date, any_date);

    // Sections on both sides start in the same rows.
    Form answers(sheet, "F6", Form::Checks::beside);
    answers.section("The block")
        .answer("Places for trees, by area and spacing", "tree_places",
                "=REWORK.TREES(area_ha;row_spacing_m;tree_spacing_m)", "trees", Format::count)
        .answer("Gaps against the count", "", "=tree_places-trees", "trees", Format::count,
                R"(=IF(trees>1.1*tree_places;"More trees than the spacing has room for.";""))")
        .answer("Grafts that fit round a stub", "fitting_grafts", "=REWORK.STUBGRAFTS(stub_diameter_cm)", "grafts",
                Format::count,
                "=IF(grafts_per_stub>fitting_grafts;\"More grafts on a stub than fit round it.\";"
                "REWORK.WHY(\"STUBGRAFTS\";stub_diameter_cm))")
        .answer("Stubs in the block", "stubs", "=trees*stubs_per_tree", "stubs", Format::count, "")
        .answer("Grafts on a tree", "grafts_per_tree", "=stubs_per_tree*grafts_per_stub", "grafts", Format::count, "")
        .total("Grafts in the block", "grafts", "=trees*grafts_per_tree", "grafts", Format::count);
    answers.to_row(14)
        .section("Budwood")
        .total("Sticks to order", "sticks", "=REWORK.STICKS(grafts;buds_per_graft;buds_per_stick;spare)", "sticks",
               Format::count)
        .answer("The same, lot by lot (sheet Budwood)", "", "=sticks_in_lots", "sticks", Format::count,
                R"(=IF(trees_in_lots<>trees;"The lots are for "&trees_in_lots&" trees, not "&trees&".";""))")
        .answer("Buds still alive after the store", "alive", "=REWORK.BUDSALIVE(days_in_store;storage)", "of the buds",
                Format::percent_tenth);
    answers.to_row(18)
        .section("Take")
        .answer("Take to expect after the store", "take_after_store", "=expected_take*alive", "of the grafts",
                Format::percent_tenth, "")
        .answer("Trees with the live grafts wanted", "chance_wanted",
                "=REWORK.TREECHANCE(grafts_per_tree;take_after_store;live_wanted;clustering)", "of the trees",
                Format::percent_tenth)
        .answer("Grafts on a tree for the trees wanted", "grafts_for_chance",
                "=REWORK.TREEGRAFTS(take_after_store;tree_chance;live_wanted;clustering)", "grafts", Format::count,
                "=IF(grafts_per_tree<grafts_for_chance;\"A tree gets \"&grafts_per_tree&\": too few for \"&"
                "ROUND(100*tree_chance;0)&\" in 100 trees.\";\"\")")
        .answer("Trees with a live graft at all", "tree_take",
                "=REWORK.TREECHANCE(grafts_per_tree;take_after_store;1;clustering)", "of the trees",
                Format::percent_tenth);
    answers.to_row(24)
        .section("Dates")
        .answer("Grafting done (sheet Crew)", "", "=finish_date", "date", Format::weekday_date, "")
        .answer("First look under the bag", "first_look",
                "=REWORK.MILESTONE(graft_date;\"First look under the bag\";0;stages)", "date", Format::weekday_date)
        .answer("Bags off, not before", "", "=REWORK.MILESTONE(graft_date;\"Shoots clear, bag off\";-1;stages)", "date",
                Format::weekday_date)
        .answer("First crop", "", "=REWORK.MILESTONE(graft_date;\"First crop\";0;stages)", "date",
                Format::weekday_date);
    answers.to_row(29)
        .section("Money (sheet Money)")
        .answer("Cost of the rework", "", "=rework_cost", "=currency", Format::count, "")
        .answer("Paid back after", "", "=payback", "years", Format::tenth, "=payback_check");
    sheet
        .put("B33",
             "Trained hands on saws, firm ladders, labels before figures: see the cautions on sheet Notes before "
             "anybody "
             "cuts. The scene is invented.",
             Style::caution)
        .across(8);
    sheet.row_height(33, 0.9);
    sheet.cursor("C13");
    sheet.print_area("A1:I33");
}

void budwood(Workbook& book) {
    Sheet& sheet = book.sheet("Budwood", Paper::landscape);
    sheet.columns({0.4, 5.6, 4.6, 2.2, 2.0, 2.0, 2.2, 2.2, 2.2, 2.2, 7.2});
    look::opening(sheet, "=\"Budwood order: \"&block",
                  "One line for each lot: a variety, a source, a day of delivery. The first lot takes the trees that "
                  "the others leave; type over what differs.",
                  10);
    look::headings(sheet, "B4",
                   {"Variety", "Source and batch", "Trees", "Spare", "Days in store", "Store", "Grafts", "Buds alive",
                    "Sticks", "Check"});
    const std::vector<std::string> varieties{"=new_variety", "Pale Lantern pomelo"};
    const std::vector<std::string> sources{"Own mother trees, batch A", "District scheme, batch B"};
    constexpr int first = 5;
    constexpr int last = 10;
    for (int row = first; row <= last; ++row) {
        const auto line = static_cast<std::size_t>(row - first);
        const bool used = line < varieties.size();
        sheet.put(Place("B", row), used ? Content(varieties.at(line)) : Content{}, Style::input, Format::text);
        sheet.put(Place("C", row), used ? Content(sources.at(line)) : Content{}, Style::input, Format::text);
        Content count;
        if (row == first) count = at_row("=trees-SUM(D{r}", first + 1) + at_row(":D{r})", last);
        if (row == first + 1) count = 64.0;
        sheet.put(Place("D", row), count, Style::input, Format::count);
        sheet.put(Place("E", row), used ? Content("=spare") : Content{}, Style::input, Format::percent);
        sheet.put(Place("F", row), used ? Content("=days_in_store") : Content{}, Style::input, Format::count);
        sheet.put(Place("G", row), used ? Content("=storage") : Content{}, Style::input, Format::text);
    }
    sheet.valid(Area("B", first, last), any_text("a variety"));
    sheet.valid(Area("C", first, last), any_text("where the wood comes from"));
    sheet.valid(Area("D", first, last), whole(0, 100000, "trees"));
    sheet.valid(Area("E", first, last), share(0, 2));
    sheet.valid(Area("F", first, last), number(0, 365, "days"));
    sheet.valid(Area("G", first, last), one_of({"room", "cool"}));
    sheet.fill_down(Area("H", first, last), R"(=IF(D{r}="";"";D{r}*grafts_per_tree))", Style::answer, Format::count);
    sheet.fill_down(Area("I", first, last), R"(=IF(D{r}="";"";REWORK.BUDSALIVE(F{r};G{r})))", Style::answer,
                    Format::percent_tenth);
    sheet.fill_down(Area("J", first, last), R"(=IF(D{r}="";"";REWORK.STICKS(H{r};buds_per_graft;buds_per_stick;E{r})))",
                    Style::answer, Format::count);
    sheet.fill_down(Area("K", first, last),
                    "=IF(D{r}=\"\";\"\";REWORK.WHY(\"STICKS\";H{r};buds_per_graft;buds_per_stick;E{r})&"
                    "REWORK.WHY(\"BUDSALIVE\";F{r};G{r}))",
                    Style::check);
    look::mend_where_said(sheet, Area("K", first, last));
    sheet.put("B11", "In all", Style::total);
    sheet.put("C11", "", Style::total);
    sheet.put("D11", "=SUM(D5:D10)", Style::total, Format::count).name("trees_in_lots");
    sheet.empty("E11:G11", Style::total);
    sheet.put("H11", "=SUM(H5:H10)", Style::total, Format::count);
    sheet.put("I11", "", Style::total);
    sheet.put("J11", "=SUM(J5:J10)", Style::total, Format::count).name("sticks_in_lots");
    sheet.put("K11",
              "=IF(trees_in_lots<>trees;\"The lots are for \"&trees_in_lots&\" trees, the block has \"&trees&"
              "\".\";\"\")",
              Style::check);
    look::mend_where_said(sheet, "K11");

    sheet.put("B13", "Scions from a stick", Style::label);
    sheet.put("D13", "=INT(buds_per_stick/buds_per_graft)", Style::answer, Format::count);
    sheet.put("E13", "scions, cut whole", Style::unit);
    sheet.put("B14", "Buds left over on a stick", Style::label);
    sheet.put("D14", "=MOD(buds_per_stick;buds_per_graft)", Style::answer, Format::count);
    sheet.put("E14", "buds", Style::unit);
    sheet
        .put("B16",
             "Label each bundle with variety, source and the day it was cut. Take certified wood where there is any, "
             "and "
             "ask about quarantine before wood crosses a boundary. A protected variety needs its owner's written "
             "licence, for no more trees than it names.",
             Style::caution)
        .across(10);
    sheet.row_height(16, 1.3);
    sheet.cursor("B5");
    sheet.print_area("A1:K16");
}

void materials(Workbook& book) {
    Sheet& sheet = book.sheet("Materials", Paper::landscape);
    sheet.columns({0.4, 6.1, 2.8, 3.4, 0.5, 5.6, 2.6, 3.0, 3.0, 3.0, 3.0});
    look::opening(
        sheet, "=\"Materials: \"&block",
        "Measure a few limbs and stubs; paint, tape and packs follow. Prices are for the sums on sheet Money.", 10);
    Form inputs(sheet, "B4");
    inputs.section("Paint on bared limbs")
        .input("Limbs painted on a tree", "limbs_per_tree", "=stubs_per_tree", "limbs", Format::count,
               whole(0, 60, "limbs"))
        .input("Diameter at the base", "limb_base_cm", 11.0, "cm", Format::tenth, number(0.5, 100, "cm"))
        .input("Diameter at the tip", "limb_tip_cm", "=stub_diameter_cm", "cm", Format::tenth, number(0, 100, "cm"))
        .input("Length", "limb_length_m", 0.9, "m", Format::hundredth, number(0.01, 10, "m"))
        .input("One litre of the mix covers", "coverage", 6.0, "m2 of rough bark", Format::tenth, number(0.5, 30, "m2"))
        .input("Coats", "coats", 2.0, "coats", Format::count, whole(1, 10, "coats"))
        .input("Water to one part of paint", "water_parts", 1.0, "parts", Format::tenth, number(0, 10, "parts"))
        .input("Lost in tins, brushes and wind", "paint_loss", 0.1, "of the mix", Format::percent, share(0, 0.9));
    inputs.section("Tape on stubs")
        .input("Height wrapped", "wrap_height_cm", 10.0, "cm", Format::tenth, number(1, 100, "cm"))
        .input("Width of the tape", "tape_width_mm", 25.0, "mm", Format::count, number(5, 200, "mm"))
        .input("Each turn laps over the last by", "overlap", 0.5, "of the width", Format::percent, share(0, 0.9))
        .input("Turns to begin and end", "extra_turns", 2.0, "turns", Format::tenth, number(0, 20, "turns"));
    inputs.section("Bleach for the knives")
        .input("Strength in the bottle", "stock_strength", 0.05, "of the liquid", Format::percent_tenth,
               share(0.001, 1))
        .input("Strength wanted", "target_strength", 0.01, "of the liquid", Format::percent_tenth, share(0.0001, 1))
        .input("Mixed a day", "tub_l", 4.0, "litres", Format::tenth, number(0.1, 1000, "litres"));

    Form answers(sheet, "F4", Form::Checks::beside);
    answers.section("Paint")
        .answer("Bark of one limb", "limb_area_m2", "=REWORK.LIMBAREA(limb_base_cm;limb_tip_cm;limb_length_m)", "m2",
                Format::hundredth)
        .answer("Bark to paint", "bark_m2", "=limb_area_m2*limbs_per_tree*trees", "m2", Format::count, "")
        .total("Paint, undiluted", "paint_l", "=REWORK.PAINT(bark_m2;coverage;coats;water_parts;paint_loss)", "litres",
               Format::tenth)
        .answer("Mix for the sprayer or brush", "", "=paint_l*(1+water_parts)", "litres", Format::tenth, "");
    answers.to_row(13)
        .section("Tape")
        .answer("Tape for one stub", "tape_per_stub_m",
                "=REWORK.TAPE(stub_diameter_cm;wrap_height_cm;tape_width_mm;overlap;extra_turns)", "m",
                Format::hundredth)
        .total("Tape in all", "tape_m", "=tape_per_stub_m*stubs", "m", Format::count);
    answers.to_row(18)
        .section("Bleach")
        .answer("Bleach into the tub", "bleach_l", "=REWORK.DILUTE(stock_strength;target_strength;tub_l)", "litres",
                Format::hundredth)
        .answer("Water on top", "", "=tub_l-bleach_l", "litres", Format::hundredth, "");

    constexpr int head = 24;
    look::band(sheet, Place("B", head - 1), "Shopping list", 10);
    look::headings(sheet, Place("B", head), {"Item", "Need"});
    sheet.put(Place("D", head), "Unit", Style::heading).across(2);
    look::headings(sheet, Place("F", head), {"Pack", "Pack holds", "Spare", "Packs to buy", "Price of a pack", "Cost"});
    struct Item {
        const char* name;
        const char* need;
        const char* unit;
        const char* pack;
        double holds;
        double spare;
        double price;
    };
    const std::array<Item, 6> items{{
        {"White water-based paint, interior", "=paint_l", "litres", "Tin", 15, 0, 62},
        {"Grafting tape", "=tape_m", "m", "Roll", 50, 0.1, 6.5},
        {"Bags over the grafts, one a stub", "=stubs", "bags", "Bundle", 100, 0.05, 14},
        {"Ties for the bags", "=stubs", "ties", "Bundle", 250, 0.1, 5.5},
        {"Sealing compound, 40 ml a stub", "=0.04*stubs", "litres", "Tub", 5, 0.1, 48},
        {"Row and tree labels", "=trees", "labels", "Box", 200, 0.02, 19},
    }};
    int row = head + 1;
    for (const Item& item : items) {
        sheet.put(Place("B", row), item.name, Style::body);
        sheet.put(Place("C", row), item.need, Style::answer, Format::count);
        sheet.put(Place("D", row), item.unit, Style::body).across(2);
        sheet.put(Place("F", row), item.pack, Style::input, Format::text);
        sheet.put(Place("G", row), item.holds, Style::input, Format::count);
        sheet.put(Place("H", row), item.spare, Style::input, Format::percent);
        sheet.put(Place("I", row), at_row("=REWORK.PACKS(C{r};G{r};H{r})", row), Style::answer, Format::count);
        sheet.put(Place("J", row), item.price, Style::input, Format::hundredth);
        sheet.put(Place("K", row), at_row("=I{r}*J{r}", row), Style::answer, Format::count);
        ++row;
    }
    const int last = row - 1;
    sheet.valid(Area("F", head + 1, last), any_text("what it is packed in"));
    sheet.valid(Area("G", head + 1, last), number(0.001, 1e6, "in the unit of the need"));
    sheet.valid(Area("H", head + 1, last), share(0, 2));
    sheet.valid(Area("J", head + 1, last), number(0, 1e6, "your currency"));
    sheet.put(Place("B", row), "In all", Style::total);
    sheet.empty("C31:I31", Style::total);
    sheet.put(Place("J", row), "=currency", Style::total);
    sheet.put(Place("K", row), "=SUM(K25:K30)", Style::total, Format::count).name("materials_cost");
    sheet
        .put(
            Place("B", row + 2),
            "Bleach: gloves and eye protection, fresh air, a fresh mix each day; never together with acids or ammonia. "
            "Paint, sealant and bleach: the label comes before these figures.",
            Style::caution)
        .across(10);
    sheet.row_height(row + 2, 1.0);
    sheet.cursor("C6");
    sheet.print_area("A1:K33");
}

void crew(Workbook& book) {
    Sheet& sheet = book.sheet("Crew", Paper::landscape);
    sheet.columns({0.4, 6.1, 3.2, 3.3, 0.5, 6.3, 3.2, 3.0, 7.0});
    look::opening(
        sheet, "=\"Crew: \"&block",
        "Who grafts, how fast, and on which days nobody works. The bark slips for a few weeks only: plan to end "
        "before it tightens.",
        8);
    Form inputs(sheet, "B4");
    inputs.section("The work")
        .input("First day of grafting", "start_date", "=graft_date", "date", Format::weekday_date, any_date)
        .input("Last day the bark slips", "window_end", Date{year{2027} / October / 15}, "date", Format::weekday_date,
               any_date)
        .input("Grafters", "crew", 3.0, "people", Format::count, whole(1, 500, "people"))
        .input("Grafts a grafter places in a day", "grafts_per_day", 110.0, "grafts", Format::count,
               number(1, 10000, "grafts"))
        .input("Pay of a grafter for a day", "day_pay", 210.0, "=currency", Format::count,
               number(0, 1e6, "your currency"))
        .input("Days off in the week", "days_off", "0000011", "Mon to Sun, 1 = off", Format::text,
               one_of({"0000011", "0000001", "0000000"}));
    inputs.section("Holidays");
    constexpr int first = 12;
    constexpr int last = 19;
    for (int row = first; row <= last; ++row) {
        sheet.put(Place("B", row), at_row("=\"Holiday \"&ROW()-" + std::to_string(first - 1), row), Style::label);
        sheet.put(Place("C", row), Content{}, Style::input, Format::weekday_date).valid(any_date);
        sheet.put(Place("D", row), "date, or blank", Style::unit);
    }
    sheet.name("holidays", Area("C", first, last));

    Form answers(sheet, "F4", Form::Checks::beside);
    answers.section("What follows")
        .answer("Grafts to place", "", "=grafts", "grafts", Format::count, "")
        .answer("Working days needed", "crew_days", "=REWORK.CREWDAYS(grafts;grafts_per_day;crew)", "days",
                Format::count)
        .total("Last day of grafting", "finish_date",
               "=REWORK.CREWFINISH(start_date;grafts;grafts_per_day;crew;days_off;holidays)", "date",
               Format::weekday_date)
        .answer("Days to spare before the bark tightens", "", "=window_end-finish_date", "days", Format::count,
                "=IF(finish_date>window_end;\"Ends \"&(finish_date-window_end)&\" days after the bark tightens: more "
                "grafters, or an earlier start.\";\"\")")
        .answer("Fewest grafters who end in time", "crew_needed",
                "=REWORK.CREWSIZE(start_date;window_end;grafts;grafts_per_day;days_off;holidays)", "people",
                Format::count)
        .answer("Pay for grafting", "grafting_pay", "=crew_days*crew*day_pay", "=currency", Format::count, "");
    sheet
        .put("F13",
             "Heat, dust and sun tire a crew: shade, water and breaks come out of the day's grafts. Trained hands "
             "only on saws; ladders on firm and level ground.",
             Style::caution)
        .across(4, 3);
    sheet.cursor("C5");
    sheet.print_area("A1:I19");
}

constexpr int first_stage = 5;  // rows on sheet Calendar
const int last_stage = first_stage + static_cast<int>(defaults::schedule().rows()) - 1;

void calendar(Workbook& book) {
    Sheet& sheet = book.sheet("Calendar", Paper::landscape);
    sheet.columns({0.4, 5.6, 3.3, 3.3, 3.3, 9.6, 1.5, 3.0});
    look::opening(
        sheet, "=\"Calendar: \"&block",
        "Dates count from the first day of grafting; a sign on the tree outranks a date. Mark what is done with "
        "an x, or write down the day. The offsets are on sheet Defaults.",
        7);
    look::headings(sheet, "B4", {"Stage", "Earliest", "Target", "Latest", "Sign to look for", "Done", "Done on"});
    sheet.array(Area({2, first_stage}, {6, last_stage}), "=REWORK.SCHEDULE(graft_date;stages)", Style::body,
                {Format::general, Format::weekday_date, Format::weekday_date, Format::weekday_date, Format::general});
    sheet.empty(Area("G", first_stage, last_stage), Style::input, Format::text);
    sheet.valid(Area("G", first_stage, last_stage), one_of({"x"}));
    sheet.empty(Area("H", first_stage, last_stage), Style::input, Format::date);
    sheet.valid(Area("H", first_stage, last_stage), any_date);
    // A text in the table of an array formula compares unequal to the same text elsewhere (LibreOffice 7.4); joined to
    // an empty text it is like any other.
    sheet.mark(Area("B", first_stage, last_stage), "B5&\"\"=next_stage", Style::due);
    sheet.mark(Area("E", first_stage, last_stage), R"(AND($E5<as_of;$G5="";$H5=""))", Style::mend);

    const int below = last_stage + 2;
    sheet.put(Place("B", below), "Look at the plan as of", Style::label);
    sheet.put(Place("C", below), Date{year{2027} / September / 13}, Style::input, Format::weekday_date)
        .name("as_of")
        .valid(any_date);
    sheet.put(Place("D", below), "a date, or =TODAY()", Style::unit);
    sheet.put(Place("B", below + 1), "Stage due next", Style::label);
    sheet.put(Place("C", below + 1), "=REWORK.STAGEDUE(graft_date;as_of;stages)", Style::answer)
        .name("next_stage")
        .across(2);
    sheet.put(Place("E", below + 1), "=REWORK.WHY(\"STAGEDUE\";graft_date;as_of;stages)", Style::check);
    sheet
        .put(Place("B", below + 2),
             "Framed in the table: the stage due next, and a latest date that has passed without a mark.", Style::note)
        .across(7);
    sheet.freeze(4);
    sheet.cursor("G5");
    sheet.print_area(Area({1, 1}, {8, below + 2}));
}

void timeline(Workbook& book) {
    Sheet& sheet = book.sheet("Timeline", Paper::landscape);
    sheet.columns({0.4, 9.0, 9.0, 9.0, 0.8, 4.6, 1.8, 2.2, 2.2, 2.2, 2.2});
    look::opening(sheet, "=\"Timeline: \"&block",
                  "Each bar runs from a stage's earliest date over its target, where the shade changes, to its latest.",
                  3);
    // In stacked bars each piece starts where the last one ends; pieces below zero stack apart from those above it.
    sheet.put("F5", "Behind the charts; not printed", Style::workings);
    look::headings(sheet, "F6",
                   {"Stage", "Unit", "Until then", "Earliest to target", "Target to latest", "Before day 0"});
    constexpr int first = 7;
    constexpr int in_weeks = 8;  // so many stages are drawn in weeks, the others in months
    const int last = first + last_stage - first_stage;
    for (int row = first; row <= last; ++row) {
        const bool weeks = row - first < in_weeks;
        const auto offset = [&](const std::string& column) {
            return "(Calendar." + column + std::to_string(row - first + first_stage) + "-graft_date)/" +
                   (weeks ? "7" : "30.4375");
        };
        sheet.put(Place("F", row), at_row("=Calendar.B{r}", row - first + first_stage), Style::workings);
        sheet.put(Place("G", row), weeks ? "weeks" : "months", Style::workings);
        sheet.put(Place("H", row), at_row("=MAX(0;" + offset("C") + ")", row), Style::workings, Format::hundredth);
        sheet.put(Place("I", row), at_row("=MAX(0;" + offset("D") + ")-H{r}", row), Style::workings, Format::hundredth);
        sheet.put(Place("J", row), at_row("=MAX(0;" + offset("E") + ")-H{r}-I{r}", row), Style::workings,
                  Format::hundredth);
        sheet.put(Place("K", row), at_row("=MIN(0;" + offset("C") + ")", row), Style::workings, Format::hundredth);
    }
    const auto bars = [](const std::string& title, int from, int to, const std::string& unit, double step) {
        using Shape = Series::Shape;
        return Chart{.title = title,
                     .description = "One bar for each stage, from its earliest date over its target to its latest.",
                     .categories = Area("F", from, to),
                     .category_title = "",
                     .value_title = unit + " after the first day of grafting",
                     .value_format = Format::count,
                     .series = {{.values = Area("H", from, to), .label = "H6", .shape = Shape::hidden},
                                {.values = Area("I", from, to), .label = "I6", .shape = Shape::column, .paint = 2},
                                {.values = Area("J", from, to), .label = "J6", .shape = Shape::column, .paint = 0},
                                {.values = Area("K", from, to), .label = "K6", .shape = Shape::column, .paint = 1}},
                     .sideways = true,
                     .stacked = true,
                     .step = step};
    };
    const int split = first + in_weeks;
    sheet.chart("B3", 27, 8.2, bars("The first season", first, split - 1, "weeks", 1));
    sheet.chart("B4", 27, 7.2, bars("To the second crop", split, last, "months", 3));
    sheet.print_area("A1:D4");
}

void take(Workbook& book) {
    Sheet& sheet = book.sheet("Take", Paper::landscape);
    sheet.columns({0.4, 1.5, 1.7, 3.2, 2.4, 2.0, 2.0, 2.2, 1.9, 1.9, 1.9, 1.9, 2.0, 7.5});
    look::opening(sheet, "=\"Take: \"&block",
                  "One line for each row of trees. Count live grafts at the first look, and again at the second; the "
                  "limits say how sure the count is (95 in 100).",
                  13);
    look::headings(sheet, "B4",
                   {"Row", "Trees", "Grafter", "Batch", "Grafts placed", "Live, first look", "Live, second look",
                    "Live now", "Take", "At least", "At most", "Grafts to redo", "Check"});
    constexpr int first = 5;
    constexpr int last = 32;
    struct Row {
        int trees;
        const char* grafter;
        const char* batch;
        int first_look;  // -1: not looked at yet
        int second_look;
    };
    // An invented round: rows 1 to 18 have been looked at, rows 1 to 9 twice.
    const std::vector<Row> rows{
        {27, "Ines", "A", 171, 163},   {28, "Ines", "A", 176, 170},   {27, "Tobiah", "A", 158, 149},
        {28, "Tobiah", "A", 160, 152}, {27, "Wren", "A", 133, 121},   {27, "Wren", "A", 139, 128},
        {27, "Ines", "A", 168, 161},   {28, "Tobiah", "A", 163, 157}, {27, "Wren", "B", 120, 109},
        {27, "Ines", "B", 150, -1},    {28, "Tobiah", "B", 149, -1},  {27, "Wren", "A", 141, -1},
        {27, "Ines", "A", 173, -1},    {27, "Tobiah", "A", 155, -1},  {27, "Wren", "A", 138, -1},
        {27, "Ines", "A", 166, -1},    {27, "Tobiah", "A", 161, -1},  {27, "Wren", "A", 129, -1},
        {27, "Ines", "A", -1, -1},     {27, "Tobiah", "A", -1, -1},   {27, "Wren", "A", -1, -1},
    };
    for (int row = first; row <= last; ++row) {
        const auto line = static_cast<std::size_t>(row - first);
        const bool used = line < rows.size();
        const auto given = [](int count) { return count < 0 ? Content{} : Content(static_cast<double>(count)); };
        sheet.put(Place("B", row), used ? given(static_cast<int>(line) + 1) : Content{}, Style::input, Format::count);
        sheet.put(Place("C", row), used ? given(rows[line].trees) : Content{}, Style::input, Format::count);
        sheet.put(Place("D", row), used ? Content(rows[line].grafter) : Content{}, Style::input, Format::text);
        sheet.put(Place("E", row), used ? Content(rows[line].batch) : Content{}, Style::input, Format::text);
        sheet.put(Place("F", row), used ? Content(at_row("=C{r}*grafts_per_tree", row)) : Content{}, Style::input,
                  Format::count);
        sheet.put(Place("G", row), used ? given(rows[line].first_look) : Content{}, Style::input, Format::count);
        sheet.put(Place("H", row), used ? given(rows[line].second_look) : Content{}, Style::input, Format::count);
    }
    sheet.valid(Area("B", first, last), whole(1, 10000, "row"));
    sheet.valid(Area("C", first, last), whole(0, 10000, "trees"));
    sheet.valid(Area("D", first, last), any_text("the grafter's name or mark"));
    sheet.valid(Area("E", first, last), any_text("the batch of budwood"));
    for (const char* column : {"F", "G", "H"}) sheet.valid(Area(column, first, last), whole(0, 1e6, "grafts"));
    sheet.fill_down(Area("I", first, last), "=IF(COUNT(G{r}:H{r})=0;\"\";IF(ISNUMBER(H{r});H{r};G{r}))", Style::answer,
                    Format::count);
    sheet.fill_down(Area("J", first, last), R"(=IF(I{r}="";"";REWORK.TAKE(I{r};F{r})))", Style::answer,
                    Format::percent);
    sheet.fill_down(Area("K", first, last), R"(=IF(I{r}="";"";REWORK.TAKELOW(I{r};F{r})))", Style::answer,
                    Format::percent);
    sheet.fill_down(Area("L", first, last), R"(=IF(I{r}="";"";REWORK.TAKEHIGH(I{r};F{r})))", Style::answer,
                    Format::percent);
    sheet.fill_down(Area("M", first, last), R"(=IF(I{r}="";"";REWORK.REGRAFTS(I{r};C{r}*live_wanted)))", Style::answer,
                    Format::count);
    sheet.fill_down(Area("N", first, last), R"(=IF(I{r}="";"";REWORK.WHY("TAKE";I{r};F{r})))", Style::check);
    look::mend_where_said(sheet, Area("N", first, last));
    sheet.mark(Area("M", first, last), "AND(ISNUMBER(M5);M5>0)", Style::due);
    sheet.name("grafter", Area("D", first, last));
    sheet.name("batch", Area("E", first, last));
    sheet.name("placed", Area("F", first, last));
    sheet.name("live_first", Area("G", first, last));
    sheet.name("live_second", Area("H", first, last));
    sheet.name("live_now", Area("I", first, last));
    sheet.name("to_redo", Area("M", first, last));

    sheet.freeze(4);
    sheet.cursor("G5");
    sheet.print_area("A1:N32");
}

void regraft(Workbook& book) {
    Sheet& sheet = book.sheet("Regraft", Paper::portrait);
    sheet.columns({0.4, 5.6, 2.4, 2.4, 2.4, 2.4, 2.4, 2.6, 2.6, 2.4, 2.4, 2.4});
    look::opening(sheet, "=\"How it took, and what to redo: \"&block",
                  "From the counts on sheet Take. Limits say between what bounds the true take lies, 95 times in 100.",
                  8);
    look::band(sheet, "B4", "Round by round", 8);
    look::headings(sheet, "B5", {"Round", "Take", "At least", "At most", "Design effect", "Rows seen", "Grafts"});
    constexpr std::array<std::array<const char*, 2>, 2> rounds{
        {{"First look", "live_first"}, {"Second look", "live_second"}}};
    int row = 6;
    for (const auto& [label, live] : rounds) {
        sheet.put(Place("B", row), label, Style::body);
        sheet.array(Area({3, row}, {8, row}),
                    std::string("=IF(COUNT(") + live + ")=0;\"\";REWORK.TAKETREES(" + live + ";placed))", Style::answer,
                    {Format::percent, Format::percent, Format::percent, Format::tenth, Format::count, Format::count});
        ++row;
    }
    sheet
        .put(
            "B8",
            "Grafts of one row are alike: same grafter, same day, same wood. So rows are taken as clusters; the design "
            "effect says how many times wider (in variance) that makes the limits.",
            Style::note)
        .across(8);
    sheet.row_height(8, 1.1);

    look::takes(sheet, 10, "Grafter by grafter", "Grafter", 6, "REWORK.TAKEBY(grafter;live_now;placed)",
                "COUNT(live_now)=0");
    look::headings(sheet, "K11", {"Down", "Up"});
    sheet.put("K10", "Behind the chart", Style::workings);
    constexpr int first = 12;
    constexpr int last = 17;
    for (row = first; row <= last; ++row) {
        sheet.put(Place("K", row), at_row(R"(=IF(E{r}="";"";E{r}-F{r}))", row), Style::workings, Format::percent_tenth);
        sheet.put(Place("L", row), at_row(R"(=IF(E{r}="";"";G{r}-E{r}))", row), Style::workings, Format::percent_tenth);
    }
    Form(sheet, "B20")
        .section("What to redo")
        .total("Grafts in the rows looked at", "redo", "=SUM(to_redo)", "grafts", Format::count)
        .total("Sticks for them", "", "=REWORK.STICKS(redo;buds_per_graft;buds_per_stick;spare)", "sticks",
               Format::count)
        .answer("Crew days for them", "", "=REWORK.CREWDAYS(redo;grafts_per_day;crew)", "days", Format::count, "")
        .answer("Rows still to look at", "", "=COUNT(placed)-COUNT(live_now)", "rows", Format::count, "");
    sheet
        .put(
            "B25",
            "A row's count hides trees with nothing alive: the workbook inspection-log counts tree by tree. Redo while "
            "the bark slips, on stubs with sound bark; where it does not, keep a stock shoot near the stub and bud it "
            "later.",
            Style::note)
        .across(8);
    sheet.row_height(25, 1.1);
    Chart chart{.title = "Take by grafter, with its limits",
                .description = "A column for each grafter's take, with a bar from the lower to the upper limit.",
                .categories = Area("B", first, last),
                .category_title = "",
                .value_title = "take",
                .value_format = Format::percent,
                .series = {{.values = Area("E", first, last),
                            .label = "E11",
                            .shape = Series::Shape::column,
                            .paint = 2,
                            .less = Area("K", first, last),
                            .more = Area("L", first, last)}},
                .legend = false,
                .least = 0,
                .most = 1,
                .step = 0.2};
    sheet.chart("B26", 22, 6.4, chart);
    sheet.print_area("A1:I26");
}

constexpr int years = 12;
constexpr int first_year = 13;  // the row of year 1 on sheet Yield

void yield(Workbook& book) {
    Sheet& sheet = book.sheet("Yield", Paper::portrait);
    sheet.columns({0.4, 6.6, 3.2, 3.6, 3.4, 3.2});
    look::opening(
        sheet, "=\"Yield by year: \"&block",
        "What the block should carry, with the trees that failed grafted again a year later. Years count from "
        "the first day of grafting.",
        5);
    sheet.row_height(2, 1.1);
    Form(sheet, "B4")
        .section("Trees")
        .input("Yield of a mature tree", "mature_yield", 95.0, "kg a year", Format::count, number(0, 5000, "kg"))
        .input("Yield of a tree of the old variety", "old_yield", 70.0, "kg a year", Format::count,
               number(0, 5000, "kg"))
        .input("Trees with a live graft", "share_live", "=tree_take", "of the trees", Format::percent_tenth,
               share(0, 1))
        .input("Of the others, live once regrafted", "regraft_take", 0.6, "of those trees", Format::percent,
               share(0, 1))
        .input("Trees lost in a year", "yearly_loss", 0.01, "of the trees", Format::percent_tenth, share(0, 0.99));
    constexpr int last = first_year + years - 1;
    const std::string crop =
        "=REWORK.YIELDBYYEAR(trees;12;mature_yield;share_live;regraft_take;yearly_loss;yield_curve)";
    sheet.put("B10", "Check", Style::label);
    sheet.put("C10", why(crop), Style::check).across(4);
    look::mend_where_said(sheet, "C10");
    look::headings(sheet, Place("B", first_year - 1),
                   {"After grafting", "Crop, kg", "Crop, tonnes", "Old variety, tonnes", "A tree, kg"});
    for (int row = first_year; row <= last; ++row) {
        sheet.put(Place("B", row), "Year " + std::to_string(row - first_year + 1), Style::body);
    }
    sheet.array(Area("C", first_year, last), crop, Style::answer, {Format::count});
    sheet.name("crop_kg", Area("C", first_year, last));
    sheet.fill_down(Area("D", first_year, last), "=C{r}/1000", Style::answer, Format::tenth);
    sheet.fill_down(Area("E", first_year, last), "=trees*old_yield/1000", Style::answer, Format::tenth);
    sheet.fill_down(Area("F", first_year, last), "=C{r}/trees", Style::answer, Format::tenth);
    Chart chart{.title = "Crop of the block by year after grafting",
                .description = "A column for each year's crop in tonnes, and a line for what the old variety gave.",
                .categories = Area("B", first_year, last),
                .category_title = "",
                .value_title = "tonnes",
                .value_format = Format::count,
                .series = {{.values = Area("D", first_year, last),
                            .label = Place("D", first_year - 1),
                            .shape = Series::Shape::column,
                            .paint = 2},
                           {.values = Area("E", first_year, last),
                            .label = Place("E", first_year - 1),
                            .shape = Series::Shape::line,
                            .paint = 3}},
                .least = 0};
    sheet.chart(Place("B", last + 2), 19.8, 9.5, chart);
    sheet
        .put(Place("B", last + 3),
             "The curve behind this is on sheet Defaults: a fifth of a mature crop at 33 months and half at 45 are "
             "common "
             "practice, the rest is an assumption. Put your own records there.",
             Style::note)
        .across(5);
    sheet.row_height(last + 3, 1.2);
    sheet.cursor("C5");
    sheet.print_area(Area({1, 1}, {6, last + 3}));
}

void money(Workbook& book) {
    Sheet& sheet = book.sheet("Money", Paper::landscape);
    sheet.columns({0.4, 6.0, 2.7, 2.9, 2.9, 3.0, 3.0, 3.0, 2.9, 2.9, 2.9, 0.8, 2.6});
    const Validation any_price = number(0, 1e9, "your currency");
    look::opening(
        sheet, "=\"Cost and income: \"&block",
        "Against leaving the block as it is: what the rework costs, what the new crop earns, and what the old "
        "one no longer does. Prices of today, no inflation.",
        10);
    Form(sheet, "B4")
        .section("What it costs")
        .input("Currency", "currency", "crowns", "name", Format::text, any_text("the currency's name"))
        .input("Cutting back and clearing, a tree", "cut_cost", 9.5, "=currency", Format::hundredth, any_price)
        .input("Budwood, a stick", "stick_price", 1.1, "=currency", Format::hundredth, any_price)
        .input("Royalty, a tree", "royalty", 3.0, "=currency", Format::hundredth, any_price)
        .input("Aftercare, a tree, year 1", "care_first", 6.2, "=currency", Format::hundredth, any_price)
        .input("Aftercare, a tree, year 2", "care_second", 3.4, "=currency", Format::hundredth, any_price)
        .input("Growing the block, a year", "growing_cost", 6100.0, "=currency", Format::count, any_price);

    // The right side shares its columns with the table below, so its labels run over two of them.
    const auto line = [&](int row, const std::string& label, Content value, const std::string& unit, Style style,
                          Format format) {
        sheet.put(Place("F", row), label, Style::label).across(2);
        sheet.put(Place("I", row), unit, Style::unit);
        return sheet.put(Place("H", row), std::move(value), style, format);
    };
    look::band(sheet, "F4", "What it earns", 6);
    line(5, "Price of the new crop, a kg", 0.92, "=currency", Style::input, Format::hundredth)
        .name("new_price")
        .valid(any_price);
    line(6, "Picking and packing, a kg", 0.24, "=currency", Style::input, Format::hundredth)
        .name("pick_cost")
        .valid(any_price);
    line(7, "Left over from the old crop, a year", 2400.0, "=currency", Style::input, Format::count)
        .name("old_margin")
        .valid(number(-1e9, 1e9, "your currency"));
    line(8, "Interest", 0.06, "a year", Style::input, Format::percent_tenth).name("rate").valid(share(0, 1));

    look::band(sheet, "F9", "What follows", 6);
    const auto result = [&](int row, const std::string& label, const std::string& formula, const std::string& unit,
                            Format format) {
        auto cell = line(row, label, formula, unit, Style::answer, format);
        const std::string reason = why(formula);
        if (!reason.empty()) {
            sheet.put(Place("J", row), reason, Style::check);
            look::mend_where_said(sheet, Place("J", row));
        }
        return cell;
    };
    result(10, "Cost of the rework, year 0", "=E18", "=currency", Format::count).name("rework_cost");
    result(11, "Paid back after, with interest", "=IFNA(REWORK.PAYBACK(flows;rate);\"never\")", "years", Format::tenth)
        .name("payback");
    sheet.name("payback_check", "J11");
    result(12, "Present value over 12 years", "=REWORK.PRESENTVALUE(flows;rate)", "=currency", Format::count);
    result(13, "Equal yearly amount", "=REWORK.EQUALANNUAL(flows;rate)", "=currency", Format::count);
    result(14, "Price that just pays, a kg", "=REWORK.BREAKEVENPRICE(all_costs;crop_by_year;rate)", "=currency",
           Format::hundredth);

    look::band(sheet, "B16", "=\"Year by year, in \"&currency", 10);
    constexpr int head = 17;
    constexpr int zero = head + 1;
    constexpr int last = zero + years;
    look::headings(sheet, Place("B", head),
                   {"After grafting", "Season", "Crop, kg", "Rework and aftercare", "Growing", "Picking and packing",
                    "Old crop given up", "Income", "Flow", "Summed flow"});
    sheet.put(Place("M", head), "All costs", Style::workings);
    for (int row = zero; row <= last; ++row) {
        const int after = row - zero;
        const std::string year_number = std::to_string(after);
        sheet.put(Place("B", row), "Year " + year_number, Style::body);
        sheet.put(Place("C", row), "=YEAR(graft_date)+" + year_number, Style::body);
        std::string cost = "=0";
        if (after == 0) cost = "=trees*(cut_cost+royalty)+sticks_in_lots*stick_price+grafting_pay+materials_cost";
        if (after == 1) cost = "=trees*care_first";
        if (after == 2) cost = "=trees*care_second";
        sheet.put(Place("D", row), after == 0 ? "=0" : "=INDEX(crop_kg;" + year_number + ")", Style::answer,
                  Format::count);
        sheet.put(Place("E", row), cost, Style::answer, Format::count);
        sheet.put(Place("F", row), after == 0 ? "=0" : "=growing_cost", Style::answer, Format::count);
        sheet.put(Place("G", row), at_row("=D{r}*pick_cost", row), Style::answer, Format::count);
        sheet.put(Place("H", row), after == 0 ? "=0" : "=old_margin", Style::answer, Format::count);
        sheet.put(Place("I", row), at_row("=D{r}*new_price", row), Style::answer, Format::count);
        sheet.put(Place("J", row), at_row("=I{r}-SUM(E{r}:H{r})", row), Style::answer, Format::count);
        sheet.put(Place("K", row), "=SUM(J$" + std::to_string(zero) + at_row(":J{r})", row), Style::answer,
                  Format::count);
        sheet.put(Place("M", row), at_row("=SUM(E{r}:H{r})", row), Style::workings, Format::count);
    }
    sheet.name("flows", Area("J", zero, last));
    sheet.name("all_costs", Area("M", zero, last));
    sheet.name("crop_by_year", Area("D", zero, last));
    Chart chart{
        .title = "Flow of each season, and all of them summed",
        .description =
            "Columns for each season's flow; a line that falls to the cost of the rework, rises with "
            "the new crop and has paid back where it crosses zero.",
        .categories = Area("C", zero, last),
        .category_title = "season",
        .value_title = "",
        .value_format = Format::count,
        .series = {
            {.values = Area("J", zero, last), .label = Place("J", head), .shape = Series::Shape::column, .paint = 2},
            {.values = Area("K", zero, last), .label = Place("K", head), .shape = Series::Shape::line, .paint = 0}}};
    sheet.page_break(last + 2);
    sheet.chart(Place("B", last + 2), 32, 15, chart);
    sheet
        .put(
            Place("B", last + 3),
            "An estimate for comparing plans, no advice: prices, costs and interest are the user's own. Money of later "
            "years counts less by the interest in the answers above; the chart adds it up as it comes.",
            Style::note)
        .across(10);
    sheet.row_height(last + 3, 1.1);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {11, last + 3}));
}

Content content_of(const slipbark::Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

/// Copies a built-in table into cells that the user may change. The column after those that have a format, where a row
/// comes from, is text; further ones are left out.
void paste(Sheet& sheet, Place first, const Table& table, const std::vector<Format>& formats) {
    for (std::size_t row = 0; row < table.rows(); ++row) {
        for (std::size_t column = 0; column <= formats.size(); ++column) {
            const Place place{first.column + static_cast<int>(column), first.row + static_cast<int>(row)};
            const bool source = column == formats.size();
            sheet.put(place, content_of(table.at(row, column)), source ? Style::unit : Style::input,
                      source ? Format::general : formats.at(column));
        }
    }
}

void defaults_sheet(Workbook& book) {
    Sheet& sheet = book.sheet("Defaults", Paper::landscape);
    sheet.columns({0.4, 5.6, 2.1, 2.1, 2.1, 1.6, 13.0, 7.4});
    look::opening(
        sheet, "Defaults",
        "The tables behind calendar and yield, each line with where it comes from. They are starting points: put "
        "your own crop's and place's figures over them.",
        7);
    const Table& schedule = slipbark::defaults::schedule();
    look::band(sheet, "B4", "Calendar: days (d), weeks (w) or months (m) from the first day of grafting", 7);
    look::headings(sheet, "B5",
                   {"Stage", "Earliest", "Target", "Latest", "Unit", "Sign to look for", "Where it comes from"});
    constexpr int first = 6;
    const int last = first + static_cast<int>(schedule.rows()) - 1;
    paste(sheet, {2, first}, schedule,
          {Format::text, Format::general, Format::general, Format::general, Format::text, Format::text});
    sheet.name("stages", Area({2, first}, {7, last}));
    sheet.valid(Area("B", first, last), any_text("the stage's name"));
    for (const char* column : {"C", "D", "E"}) {
        sheet.valid(Area(column, first, last), number(-1000, 1000, "days, weeks or months"));
    }
    sheet.valid(Area("F", first, last), one_of({"d", "w", "m"}));
    sheet.valid(Area("G", first, last), any_text("what to look for"));

    const Table& curve = slipbark::defaults::yield();
    const int head = last + 2;
    look::band(sheet, Place("B", head), "Yield: share of a mature tree's crop", 7);
    look::headings(sheet, Place("B", head + 1), {"Years since grafting", "Share"});
    sheet.put(Place("D", head + 1), "Where it comes from", Style::heading).across(4);
    paste(sheet, {2, head + 2}, curve, {Format::hundredth, Format::percent});
    const int end = head + 1 + static_cast<int>(curve.rows());
    sheet.name("yield_curve", Area({2, head + 2}, {3, end}));
    sheet.valid(Area("B", head + 2, end), number(0, 100, "years"));
    sheet.valid(Area("C", head + 2, end), share(0, 3));

    look::band(sheet, Place("B", end + 2), "Buds alive in the store (built in)", 7);
    look::headings(sheet, Place("B", end + 3), {"Days in store", "Alive"});
    sheet.put(Place("D", end + 3), "Where it comes from", Style::heading).across(4);
    int row = end + 4;
    for (const Table* store : {&slipbark::defaults::room_storage(), &slipbark::defaults::cool_storage()}) {
        for (std::size_t line = 0; line < store->rows(); ++line, ++row) {
            sheet.put(Place("B", row), content_of(store->at(line, 0)), Style::body, Format::count);
            sheet.put(Place("C", row), content_of(store->at(line, 1)), Style::body, Format::percent);
            const std::string kind = store == &slipbark::defaults::room_storage() ? "room: " : "cool: ";
            sheet.put(Place("D", row), kind + std::get<std::string>(store->at(line, 2)), Style::unit);
        }
    }
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {8, row - 1}));
}

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("This scene is invented")
        .note(
            "Kestrel Flat, its block, the pomelos Ember Moon and Pale Lantern, the grafters and all counts, prices and "
            "currency are made up. Overwrite the framed, tinted cells with your own.");
    text.errors().note("#N/A: there is no answer, such as a payback that never comes; the Check says so.");
    text.heading("Where the figures come from")
        .note("Calendar: common practice of the trade, no published source. The sign on the tree outranks the date.")
        .note(
            "Yield by year: some 20 kg at 33 months and 50 kg a year later, of 100 kg mature, is common practice; the "
            "other points of the curve are assumptions.")
        .note(
            "Life of budwood: at room temperature after Lopes & Zica (Pesquisa Agropecuaria Tropical 4(1):40-46, sweet "
            "orange); cool after a storage trial at 5 degrees C in polyethylene, more than 95 % after 74 days. Other "
            "crops and other stores differ.")
        .note(
            "Grafts round a stub: one for each 7.5 cm of circumference, four at most; common practice is two on a "
            "small "
            "stub and three on a big one. Paint and water one to one: common practice. Grafts a day, coverage of "
            "paint, "
            "sealing compound and prices: assumptions for this scene.")
        .note(
            "Likeness within a tree: grafts of a weak tree, a bad day or a poor stick fail together. 0 would be grafts "
            "that fail one by one; 0.1 is an assumption. With likeness more trees stay bare than take alone suggests.")
        .note(
            "Limits of a take: Wilson's interval. Rows of trees are taken as clusters in the table of rounds, so that "
            "likeness widens the limits. The steadied take draws small counts towards the mean of all grafters: three "
            "live of three is no proof of a master.")
        .note(
            "Nurse limb: common practice leaves a quarter to a third of the canopy until the grafts carry the tree; "
            "trees of seven years or younger may be cut back whole.");
    text.close();
}

}  // namespace

std::string rework_plan() {
    Workbook book(
        "Rework plan",
        "Plan of reworking one block of fruit trees: budwood, materials, crew, calendar, take, yield, money.");
    plan(book);
    budwood(book);
    materials(book);
    crew(book);
    calendar(book);
    timeline(book);
    take(book);
    regraft(book);
    yield(book);
    money(book);
    defaults_sheet(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

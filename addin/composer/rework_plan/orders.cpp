// Orders: budwood lot by lot, materials, the shopping list, and labels for the bundles.
#include <array>

#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int first_lot = 11;
constexpr int last_lot = first_lot + lot_room - 1;
constexpr int materials_row = 23;

/// A sum over the used lots that is there only where every used lot has its part.
std::string over_lots(const std::string& column, const std::string& weights) {
    const std::string parts = Area(column, first_lot, last_lot).text();
    return "IF(COUNT(" + parts + ")=COUNTIF(" + Area("E", first_lot, last_lot).text() + ";\">0\");SUM(" + parts +
           ")/SUM(" + Area(weights, first_lot, last_lot).text() + ");\"\")";
}

void lots(Sheet& sheet, Entries& entries) {
    Lines(sheet, "B4", entries, {.label = 2, .value = 3, .unit = 4})
        .section("Budwood")
        .kept("A scion lives", "scion_rule", "if one bud lives", "or as its buds do, see Notes", Format::text,
              choice_kind({"if one bud lives", "as its buds do"}))
        .kept("Wood is ordered ahead of cutting by", "wood_lead", 6.0, "months; experience, certified wood",
              Format::count, whole_kind(0, 36, "months"))
        .kept("Sticks cut from a mother tree", "sticks_per_mother", 40.0, "sticks; assumption", Format::count,
              whole_kind(1, 10000, "sticks"))
        .input("Trees that the licence names", "licence_trees", Content{}, "trees, or blank: none needed",
               Format::count, whole_kind(0, 1000000, "trees").or_blank());
    look::headings(sheet, Place("B", first_lot - 1),
                   {"Variety", "Source", "Lot", "Trees", "Spare", "Days in store", "Store", "Take, fresh", "Buds alive",
                    "Grafts", "Take after store", "Sticks", "Cut on", "Order by", "Check"});
    for (int row = first_lot; row <= last_lot; ++row) {
        const bool used = row == first_lot;
        const auto suggested = [&](const std::string& column, const std::string& what, Format format) {
            sheet.put(Place(column, row), at_row("=IF(N(E{r})=0;\"\";" + what + ")", row), Style::input, format);
        };
        sheet.put(Place("B", row), used ? Content("=new_variety&\"\"") : Content{}, Style::input, Format::text);
        sheet.put(Place("C", row), used ? Content("Own mother trees") : Content{}, Style::input, Format::text);
        sheet.put(Place("D", row), used ? Content("A") : Content{}, Style::input, Format::text);
        sheet.put(Place("E", row),
                  used ? Content(or_blank("trees-SUM(" + Area("E", first_lot + 1, last_lot).text() + ")")) : Content{},
                  Style::input, Format::count);
        if (used) sheet.name("first_lot", Place("D", row));
        suggested("F", "spare", Format::percent);
        suggested("G", "days_in_store", Format::count);
        suggested("H", "storage", Format::text);
        suggested("I", "expected_take", Format::percent);
        suggested("J", "IFERROR(REWORK.BUDSALIVE(G{r};IF(H{r}=\"own\";own_store;H{r}));\"\")", Format::percent_tenth);
    }
    const auto column = [](const char* letter) { return Area(letter, first_lot, last_lot); };
    sheet.valid(column("B"), any_text("a variety"));
    sheet.valid(column("C"), any_text("where the wood comes from"));
    sheet.valid(column("D"), any_text("a short mark for the lot"));
    sheet.valid(column("E"), whole(0, 100000, "trees"));
    sheet.valid(column("F"), share(0, 2));
    sheet.valid(column("G"), number(0, 365, "days"));
    sheet.valid(column("H"), one_of({"room", "cool", "own"}));
    sheet.valid(column("I"), share(0.01, 1));
    sheet.valid(column("J"), share(0, 1));
    const auto answer = [&](const char* letter, const std::string& what, Format format) {
        sheet.fill_down(column(letter), "=IF(N(E{r})=0;\"\";IFERROR(" + what + ";\"\"))", Style::answer, format);
    };
    answer("K", "E{r}*grafts_per_tree", Format::count);
    answer("L", "I{r}*IF(scion_rule=\"as its buds do\";J{r};1-(1-J{r})^buds_per_graft)", Format::percent_tenth);
    answer("M", "REWORK.STICKS(K{r};buds_per_graft;buds_per_stick;F{r})", Format::count);
    answer("N", "graft_day-G{r}", Format::date);
    answer("O", "EDATE(N{r};-wood_lead)", Format::date);
    // A line says what is wrong with itself and nothing of what is wrong elsewhere.
    sheet.fill_down(
        column("P"),
        "=IF(AND(ISBLANK(E{r});B{r}&C{r}&D{r}&F{r}&G{r}&H{r}&I{r}&J{r}=\"\");\"\";IFERROR(IF(NOT(ISNUMBER(E{r}));"
        "\"Trees: give a whole number, "
        "or clear the line.\";IF(E{r}<0;\"The other lots are for more trees than the block has.\";IF(INT(E{r})<>E{r};"
        "\"Trees: give a whole number.\";IF(E{r}=0;\"\";IF(NOT(AND(ISNUMBER(F{r});ISNUMBER(G{r});ISNUMBER(I{r})));"
        "\"Spare, days in store and take: give numbers.\";IF(OR(F{r}<0;F{r}>2;AND(F{r}>0;F{r}<0.005));\"Spare: give a "
        "share from 0 % to 200 %; 15 is 15 %.\";IF(OR(I{r}<0.01;I{r}>1);\"Take: give a share from 1 % to 100 %.\";"
        "IF(AND(ISNUMBER(J{r});J{r}>=0;J{r}<=1);\"\";REWORK.WHY(\"BUDSALIVE\";G{r};IF(H{r}=\"own\";own_store;H{r}))&"
        "\" Or type the share alive into Buds alive.\"))))))));\"An entry of this line does not fit.\"))",
        Style::check);
    look::mend_where_said(sheet, column("P"));
    // Behind the sums: each lot's part of the block's take.
    look::headings(sheet, Place("R", first_lot - 1), {"alive", "take", "share", "wanted", "tree"});
    const auto part = [&](const char* letter, const std::string& what) {
        sheet.fill_down(column(letter), "=IF(N(E{r})<=0;\"\";IFERROR(" + what + ";\"\"))", Style::workings,
                        Format::hundredth);
    };
    part("R", "K{r}*J{r}");
    part("S", "K{r}*L{r}");
    part("T", "E{r}*REWORK.TREESHARE(grafts_per_tree;L{r};live_wanted;clustering)");
    part("U", "E{r}*REWORK.TREECHANCE(grafts_per_tree;L{r};live_wanted;clustering)");
    part("V", "E{r}*REWORK.TREECHANCE(grafts_per_tree;L{r};1;clustering)");

    constexpr int total = last_lot + 1;
    sheet.put(Place("B", total), "In all", Style::total);
    sheet.empty(Area({3, total}, {4, total}), Style::total);
    sheet
        .put(Place("E", total),
             or_blank("IF(COUNT(" + column("E").text() + ")=0;\"\";SUM(" + column("E").text() + "))"), Style::total,
             Format::count)
        .name("trees_in_lots");
    sheet.empty(Area({6, total}, {9, total}), Style::total);
    sheet.put(Place("J", total), or_blank(over_lots("R", "K")), Style::total, Format::percent_tenth).name("lots_alive");
    sheet.put(Place("K", total),
              or_blank("IF(COUNT(" + column("K").text() + ")=0;\"\";SUM(" + column("K").text() + "))"), Style::total,
              Format::count);
    sheet.put(Place("L", total), or_blank(over_lots("S", "K")), Style::total, Format::percent_tenth).name("lots_take");
    sheet
        .put(Place("M", total),
             or_blank("IF(AND(COUNT(" + column("M").text() + ")>0;COUNT(" + column("M").text() + ")=COUNTIF(" +
                      column("E").text() + ";\">0\"));SUM(" + column("M").text() + ");\"\")"),
             Style::total, Format::count)
        .name("sticks_in_lots");
    sheet.put(Place("N", total), "", Style::total);
    sheet
        .put(Place("O", total),
             or_blank("IF(COUNT(" + column("O").text() + ")=0;\"\";MIN(" + column("O").text() + "))"), Style::total,
             Format::date)
        .name("wood_order_by");
    sheet
        .put(
            Place("P", total),
            "=IFERROR(IF(trees_in_lots<>trees;\"The lots are for \"&trees_in_lots&\" trees, the block has \"&trees&"
            "\".\";IF(AND(ISNUMBER(licence_trees);trees_in_lots>licence_trees);\"The licence names \"&licence_trees&\" "
            "trees only.\";\"\"));\"\")",
            Style::check)
        .name("lots_check");
    look::mend_where_said(sheet, Place("P", total));
    sheet.put(Place("T", total), or_blank(over_lots("T", "E")), Style::workings, Format::hundredth).name("lots_share");
    sheet.put(Place("U", total), or_blank(over_lots("U", "E")), Style::workings, Format::hundredth).name("lots_chance");
    sheet.put(Place("V", total), or_blank(over_lots("V", "E")), Style::workings, Format::hundredth)
        .name("lots_tree_take");
    Lines(sheet, Place("B", total + 1), entries, {.label = 2, .value = 3, .unit = 4})
        .answer("Scions from a stick, cut whole; buds left over", "",
                "INT(buds_per_stick/buds_per_graft)&\"; \"&MOD(buds_per_stick;buds_per_graft)", "scions; buds",
                Format::text, "")
        .answer("Mother trees to cut", "mother_trees", "ROUNDUP(sticks_in_lots/sticks_per_mother;0)", "trees",
                Format::count, "");
    sheet
        .put(Place("B", total + 3),
             "Label each bundle with variety, source and the day it was cut. Take certified wood where there is any, "
             "and ask about quarantine before wood crosses a boundary. A protected variety needs its owner's written "
             "licence, for no more trees than it names.",
             Style::caution)
        .across(15);
    sheet.row_height(total + 3, 1.1);
    entries.add_lines(column("P"));
}

void materials(Sheet& sheet, Entries& entries) {
    sheet.page_break(materials_row);
    Lines inputs(sheet, Place("B", materials_row), entries, {.label = 2, .value = 2, .unit = 3});
    inputs.section("Paint on bared limbs")
        .input("Limbs painted on a tree", "limbs_per_tree", or_blank("stubs_per_tree"), "limbs", Format::count,
               whole_kind(0, 60, "limbs"))
        .input("Diameter at the base", "limb_base_cm", or_blank("MAX(ROUND(14/centimetres;1);stub_diameter_cm)"),
               "=small_unit", Format::tenth, measured_kind({0.5, 100, "cm"}, {0.2, 39.3, "inches"}, "centimetres"))
        .input("Diameter at the tip", "limb_tip_cm", or_blank("stub_diameter_cm"), "=small_unit", Format::tenth,
               measured_kind({0, 100, "cm"}, {0, 39.3, "inches"}, "centimetres"))
        .input("Length", "limb_length_m", "=ROUND(1.8/metres;1)", "=length_unit", Format::hundredth,
               measured_kind({0.01, 10, "m"}, {0.04, 32.8, "ft"}, "metres"))
        .input("Bare trunk, its diameter", "trunk_cm", "=ROUND(25/centimetres;0)", "=small_unit", Format::tenth,
               measured_kind({0, 200, "cm"}, {0, 78.7, "inches"}, "centimetres"))
        .input("Bare trunk, its height", "trunk_m", "=ROUND(0.8/metres;1)", "=length_unit&\"; 0: not painted\"",
               Format::hundredth, measured_kind({0, 5, "m"}, {0, 16.4, "ft"}, "metres"))
        .kept("A litre, or gallon, of the mix covers", "coverage", "=ROUND(4*litres/metres^2;0)",
              "=bark_unit&\" of rough bark\"", Format::tenth,
              measured_kind({0.5, 30, "m2"}, {21, 1220, "sq ft"}, "metres^2/litres"))
        .kept("Coats", "coats", 2.0, "coats", Format::count, whole_kind(1, 10, "coats"))
        .kept("Water to one part of paint", "water_parts", 1.0, "parts", Format::tenth, number_kind(0, 10, "parts"))
        .kept("Lost in tins, brushes and wind", "paint_loss", 0.1, "of the mix", Format::percent, share_kind(0, 0.9));
    inputs.section("Tape on stubs")
        .kept("Height wrapped", "wrap_height_cm", "=ROUND(7/centimetres;1)", "=small_unit", Format::tenth,
              measured_kind({1, 100, "cm"}, {0.4, 39.3, "inches"}, "centimetres"))
        .kept("Width of the tape", "tape_width_mm", "=ROUND(25/millimetres;1)", "=thin_unit", Format::tenth,
              measured_kind({5, 200, "mm"}, {0.2, 7.8, "inches"}, "millimetres"))
        .kept("Each turn laps over the last by", "overlap", 0.25, "of the width", Format::percent, share_kind(0, 0.9))
        .kept("Turns to begin and end", "extra_turns", 1.0, "turns", Format::tenth, number_kind(0, 20, "turns"));
    inputs.section("For each stub and tree")
        .kept("Sealing compound, film on the cut face", "film_mm", "=ROUND(1/millimetres;2)",
              "=thin_unit&\"; assumption\"", Format::hundredth,
              measured_kind({0, 20, "mm"}, {0, 0.78, "inches"}, "millimetres"))
        .input("Bags on a stub", "bags_per_stub", "=IF(LEN(method)=0;\"\";IF(method=\"bagged bark graft\";1;0))",
               "bags", Format::count, whole_kind(0, 10, "bags"))
        .kept("Ties on a bag", "ties_per_bag", 1.0, "ties", Format::count, whole_kind(0, 10, "ties"))
        .kept("Labels on a tree", "labels_per_tree", 1.0, "labels", Format::count, whole_kind(0, 20, "labels"))
        .kept("Sticks in a bundle", "sticks_per_bundle", 50.0, "sticks, one label each", Format::count,
              whole_kind(1, 1000, "sticks"))
        .kept("Materials are ordered ahead by", "materials_lead", 30.0, "days", Format::count,
              whole_kind(0, 365, "days"));
    inputs.section("Tool disinfectant (bleach)")
        .kept("Strength in the bottle", "stock_strength", 0.05, "of the liquid", Format::percent_tenth,
              small_share_kind(0.001, 1))
        .kept("Strength wanted", "target_strength", 0.01, "of the liquid", Format::percent_tenth,
              small_share_kind(0.0001, 1))
        .kept("Mixed a day", "tub_l", "=ROUND(4/litres;1)", "=volume_unit", Format::tenth,
              measured_kind({0.1, 1000, "litres"}, {0.03, 264, "gallons"}, "litres"));

    inputs.to_row(materials_row + 28);
    inputs.section("Sun side: which face to paint first, and to leave the nurse limb on")
        .input("Latitude", "latitude", -25.0, "degrees, south negative", Format::tenth, number_kind(-90, 90, "degrees"))
        .input("Longitude", "longitude", 30.0, "degrees, west negative", Format::tenth,
               number_kind(-180, 180, "degrees"))
        .input("Clock ahead of UTC by", "utc_offset", 2.0, "hours", Format::tenth, number_kind(-12, 14, "hours"))
        .kept("Hottest hour", "hot_hour", 15.0, "o'clock", Format::tenth, number_kind(0, 24, "o'clock"));

    Lines answers(sheet, Place("J", materials_row), entries, {.label = 3, .value = 1, .unit = 1, .check = 2});
    answers.section("Paint")
        .answer("Bark of one limb", "limb_area_m2",
                "REWORK.LIMBAREA(limb_base_cm*centimetres;limb_tip_cm*centimetres;limb_length_m*metres)/metres^2",
                "=bark_unit", Format::hundredth)
        .answer("Bark to paint", "bark_m2",
                "(limb_area_m2*limbs_per_tree+PI()*trunk_cm*centimetres/100*trunk_m/metres)*trees", "=bark_unit",
                Format::count, "")
        .total("Paint, undiluted", "paint_l",
               "REWORK.PAINT(bark_m2*metres^2;coverage*metres^2/litres;coats;water_parts;paint_loss)/litres",
               "=volume_unit", Format::tenth)
        .answer("Mix for the sprayer or brush", "", "paint_l*(1+water_parts)", "=volume_unit", Format::tenth, "")
        .answer("Mix on one tree", "mix_per_tree_l", "paint_l*(1+water_parts)/trees", "=volume_unit", Format::hundredth,
                "IF(AND(mix_per_tree_l>0;OR(mix_per_tree_l*litres<0.5;mix_per_tree_l*litres>5));\"A bared mature tree "
                "takes 1.5 to 3 "
                "litres, 0.4 to 0.8 gallons (from memory).\";\"\")");
    answers.to_row(materials_row + 11)
        .section("Tape")
        .answer("Tape for one stub", "tape_per_stub_m",
                "REWORK.TAPE(stub_diameter_cm*centimetres;wrap_height_cm*centimetres;tape_width_mm*millimetres;overlap;"
                "extra_turns)/metres",
                "=length_unit", Format::hundredth)
        .total("Tape in all", "tape_m", "tape_per_stub_m*stubs", "=length_unit", Format::count);
    answers.to_row(materials_row + 16)
        .section("Sealing compound")
        .answer("On one stub", "sealant_per_stub_ml",
                "PI()/4*(stub_diameter_cm*centimetres)^2*film_mm*millimetres/10/millilitres",
                "=IF(units=\"US\";\"fl oz\";\"ml\")", Format::tenth, "")
        .total("In all", "sealant_l", "sealant_per_stub_ml*millilitres*stubs/1000/litres", "=volume_unit",
               Format::tenth);
    answers.to_row(materials_row + 23)
        .section("Tool disinfectant")
        .answer("Bleach into the tub", "bleach_l", "REWORK.DILUTE(stock_strength;target_strength;tub_l)",
                "=volume_unit", Format::hundredth)
        .answer("Water on top", "", "tub_l-bleach_l", "=volume_unit", Format::hundredth, "");
    answers.to_row(materials_row + 28)
        .section("Sun side")
        .answer("Sun then, 90 days after grafting", "sun_bearing",
                "REWORK.SUNBEARING(graft_day+90+hot_hour/24;utc_offset;latitude;longitude)", "degrees", Format::count)
        .answer("Face towards it", "sun_side", "REWORK.COMPASSPOINT(sun_bearing)", "wind: your own judgement",
                Format::text);
}

void shopping(Sheet& sheet, Entries& entries) {
    constexpr int band = materials_row + 34;
    constexpr int head = band + 1;
    sheet.page_break(band);
    look::band(sheet, Place("B", band), "Shopping list", 15);
    sheet.put(Place("B", head), "Item", Style::heading).across(2);
    sheet.put(Place("D", head), "Need", Style::heading).across(2);
    sheet.put(Place("F", head), "Unit", Style::heading).across(2);
    sheet.put(Place("H", head), "Pack", Style::heading);
    sheet.put(Place("I", head), "Pack holds", Style::heading);
    sheet.put(Place("J", head), "Spare", Style::heading);
    sheet.put(Place("K", head), "Packs to buy", Style::heading);
    sheet.put(Place("L", head), "Price of a pack", Style::heading);
    sheet.put(Place("M", head), "Cost", Style::heading);
    sheet.put(Place("N", head), "Order by", Style::heading);
    sheet.put(Place("O", head), "Goes with", Style::heading);
    sheet.put(Place("P", head), "Check", Style::heading);
    struct Item {
        const char* name;
        const char* need;
        const char* unit;
        const char* pack;
        double holds;
        double spare;
        double price;
        const char* goes_with;
        double us_holds = 0;  ///< where the need is measured
    };
    const std::array<Item, 7> items{{
        {"White water-based paint, interior", "paint_l", "=volume_unit", "Tin", 15, 0, 62, "trees", 5},
        {"Grafting tape", "tape_m", "=length_unit", "Roll", 50, 0.1, 6.5, "stubs", 150},
        {"Bags over the grafts", "stubs*bags_per_stub", "bags", "Bundle", 100, 0.05, 14, "stubs"},
        {"Ties for the bags", "stubs*bags_per_stub*ties_per_bag", "ties", "Bundle", 250, 0.1, 5.5, "stubs"},
        {"Sealing compound", "sealant_l", "=volume_unit", "Tub", 5, 0.1, 48, "stubs", 1},
        {"Row and tree labels", "trees*labels_per_tree", "labels", "Box", 200, 0.02, 19, "trees"},
        {"Labels for bundles of wood", "ROUNDUP(sticks_in_lots/sticks_per_bundle;0)", "labels", "Sheet", 24, 0.1, 0.5,
         "trees"},
    }};
    int row = head + 1;
    for (const Item& item : items) {
        sheet.put(Place("B", row), item.name, Style::body).across(2);
        sheet.put(Place("D", row), or_blank(item.need), Style::answer, Format::count).across(2);
        sheet.put(Place("F", row), item.unit, Style::body).across(2);
        sheet.put(Place("H", row), item.pack, Style::kept, Format::text);
        sheet.put(Place("I", row),
                  item.us_holds > 0 ? Content("=IF(units=\"US\";" + plain_number(item.us_holds) + ";" +
                                              plain_number(item.holds) + ")")
                                    : Content(item.holds),
                  Style::kept, Format::count);
        sheet.put(Place("J", row), item.spare, Style::kept, Format::percent);
        sheet.put(Place("K", row), or_blank(at_row("REWORK.PACKS(D{r};I{r};J{r})", row)), Style::answer, Format::count);
        sheet.put(Place("L", row), item.price, Style::input, Format::hundredth);
        sheet.put(Place("M", row),
                  or_blank(at_row("IF(AND(ISNUMBER(K{r});N(K{r})=0);0;IF(ISNUMBER(L{r});K{r}*L{r};\"\"))", row)),
                  Style::answer, Format::count);
        sheet.put(Place("N", row), or_blank(at_row("IF(K{r}>0;graft_day-materials_lead;\"\")", row)), Style::answer,
                  Format::date);
        sheet.put(Place("O", row), item.goes_with, Style::unit);
        sheet.put(
            Place("P", row),
            // A price that is not known yet leaves the cost open, and nothing else.
            at_row("=IFERROR(IF(N(I{r})>1000000;\"Pack holds: give a number from 0.001 to 1,000,000.\";IF(AND("
                   "ISNUMBER(D{r});OR(L{r}=\"\";AND(ISNUMBER(L{r});N(L{r})>=0)));REWORK.WHY(\"PACKS\";D{r};I{r};J{r});"
                   "IF(ISNUMBER(D{r});\"Price: give a number from 0 on, or nothing.\";\"\")));\"An entry of this "
                   "line does not fit.\")",
                   row),
            Style::check);
        ++row;
    }
    const int last = row - 1;
    const Area checks("P", head + 1, last);
    look::mend_where_said(sheet, checks);
    sheet.valid(Area("H", head + 1, last), any_text("what it is packed in"));
    sheet.valid(Area("I", head + 1, last), number(0.001, 1e6, "in the unit of the need"));
    sheet.valid(Area("J", head + 1, last), share(0, 2));
    sheet.valid(Area("L", head + 1, last), number(0, 1e6, "your currency"));
    sheet.put(Place("B", row), "In all", Style::total);
    sheet.empty(Area({3, row}, {11, row}), Style::total);
    const std::string costs = Area("M", head + 1, last).text();
    sheet.name("packs_bought", Area("K", head + 1, last));
    sheet.put(Place("R", head), "Prices that are missing", Style::workings);
    sheet
        .put(Place("R", head + 1),
             "=SUMPRODUCT(ISNUMBER(packs_bought)*(packs_bought>0)*NOT(ISNUMBER(" + Area("L", head + 1, last).text() +
                 ")))",
             Style::workings)
        .name("prices_missing");
    sheet.put(Place("L", row), "=currency&\"\"", Style::total);
    sheet
        .put(Place("M", row), or_blank("IF(COUNT(" + costs + ")=ROWS(" + costs + ");SUM(" + costs + ");\"\")"),
             Style::total, Format::count)
        .name("materials_cost");
    sheet.put(Place("N", row), "of it with the stubs", Style::unit);
    sheet
        .put(Place("O", row),
             or_blank("IF(COUNT(" + costs + ")=0;\"\";SUMIF(" + Area("O", head + 1, last).text() + ";\"stubs\";" +
                      costs + "))"),
             Style::answer, Format::count)
        .name("stub_materials");
    entries.add_lines(checks);
    sheet
        .put(
            Place("B", row + 2),
            "Bleach: gloves and eye protection, fresh air, a fresh mix each day; never together with acids or ammonia. "
            "Paint, sealant and bleach: the label comes before these figures.",
            Style::caution)
        .across(15);
    sheet.row_height(row + 2, 1.0);

    // Bundle labels: one for each lot, to be copied as often as there are bundles.
    const int label_row = row + 4;
    look::band(sheet, Place("B", label_row), "Bundle labels, one text for each lot", 15);
    for (int lot = 0; lot < lot_room; ++lot) {
        const std::string line = std::to_string(first_lot + lot);
        sheet
            .put(Place("B", label_row + 1 + lot),
                 "=IF(N(E" + line + ")<=0;\"\";IFERROR(B" + line + "&\"   |   from \"&C" + line + "&\"   |   lot \"&D" +
                     line + "&\"   |   cut \"&" + date_words("N" + line) +
                     "&\"   |   for \"&block&\"   |   bundles: \"&ROUNDUP(M" + line + "/sticks_per_bundle;0);\"\"))",
                 Style::note)
            .across(15);
    }
    sheet.print_area(Area({1, 1}, {16, label_row + lot_room}));
}

}  // namespace

void orders(Workbook& book) {
    Sheet& sheet = book.sheet("Orders", Paper::landscape);
    sheet.columns(
        {0.4, 4.6, 4.4, 1.6, 2.6, 1.8, 1.8, 1.9, 2.1, 2.1, 2.6, 2.3, 2.6, 2.9, 2.9, 8.4, 0.8, 1.8, 1.8, 1.8, 1.8, 1.8});
    look::opening(sheet, look::titled("Orders", "block"),
                  "Budwood lot by lot, materials and a shopping list. The first lot takes the trees that the others "
                  "leave; what stands in a line that you begin may be typed over.",
                  15);
    Entries entries(sheet, "orders_entries");
    lots(sheet, entries);
    materials(sheet, entries);
    shopping(sheet, entries);
    entries.close("B3", 15);
    sheet.cursor(Place("B", first_lot));
}

}  // namespace slipbark::compose::block

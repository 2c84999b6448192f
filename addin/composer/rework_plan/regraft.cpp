// Regraft: how it took, and what to graft again.
#include <array>

#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

void regraft(Workbook& book) {
    Sheet& sheet = book.sheet("Regraft", Paper::portrait);
    sheet.columns({0.4, 6.8, 2.6, 2.6, 2.4, 2.4, 2.6, 2.6, 5.6, 0.8, 2.4, 2.4});
    look::opening(
        sheet, look::titled("How it took, and what to regraft", "block"),
        "From the counts on sheet Rows, typed there or pasted from an inspection log (its sheet Rows). Limits say "
        "between what bounds the true take lies, 95 times in 100.",
        8);
    look::band(sheet, "B4", "Check by check", 8);
    look::headings(sheet, "B5", {"Take check", "Take", "At least", "At most", "Design effect", "Rows seen", "Grafts"});
    constexpr std::array<std::array<const char*, 2>, 3> rounds{
        {{"First", "live_first"}, {"Second", "live_second"}, {"Third", "live_third"}}};
    int row = 6;
    for (const auto& [label, live] : rounds) {
        sheet.put(Place("B", row), label, Style::body);
        sheet.array(Area({3, row}, {8, row}),
                    std::string("=IFERROR(IF(COUNT(") + live + ")=0;\"\";REWORK.TAKETREES(" + live + ";placed));\"\")",
                    Style::answer,
                    {Format::percent, Format::percent, Format::percent, Format::tenth, Format::count, Format::count});
        ++row;
    }
    sheet
        .put(
            "B9",
            "Grafts of one row are alike: same grafter, same day, same wood. So rows are taken as clusters; the design "
            "effect says how many times wider (in variance) that makes the limits.",
            Style::note)
        .across(8);
    sheet.row_height(9, 1.1);

    look::takes(sheet, 11, "Grafter by grafter", "Grafter", 8, "REWORK.TAKEBY(grafter;live_now;placed)",
                {{"COUNT(live_now)=0", "Nothing counted yet."}});
    Entries entries(sheet, "regraft_entries");
    Lines lines(sheet, "B22", entries, {.label = 2, .value = 1, .unit = 2, .check = 3});
    lines.section("What to regraft")
        .kept("How sure each tree should get its number", "regraft_sure", 0.8, "of the trees", Format::percent,
              share_kind(0.05, 0.999))
        .answer("Take used", "take_seen",
                "IF(rows_counted>0;SUM(live_now)/SUMIF(live_now;\">=0\";placed);take_after_store)",
                "=IF(N(rows_counted)>0;\"counted on \"&rows_counted&\" rows\";\"expected: nothing counted\")",
                Format::percent_tenth, "")
        .total(
            "Live grafts missing", "redo", "IF(rows_counted>0;SUM(to_redo);trees*live_wanted*(1-share_expected))",
            "=IF(N(rows_counted)=0;\"expected in the whole block\";IF(COUNTIF(rows_kind;\"expected\")>0;\"expected in "
            "\"&COUNTIF(rows_kind;\"expected\")&\" of the \"&rows_counted&\" rows\";\"counted tree by tree\"))",
            Format::count, "")
        .total("Grafts to place for them", "regrafts_to_place",
               "IF(rows_counted>0;SUM(row_regrafts);expected_regrafts)", "grafts", Format::count,
               "IF(regraft_waits>0;\"No number of grafts makes it so sure: ask for less.\";REWORK.WHY(\"TREEGRAFTS\";"
               "take_seen;regraft_sure;1;clustering))")
        .answer("The same on average, less sure", "", "redo/take_seen", "grafts", Format::count, "")
        .total("Sticks for them", "redo_sticks", "REWORK.STICKS(regrafts_to_place;buds_per_graft;buds_per_stick;spare)",
               "sticks", Format::count)
        .answer("Crew days for them", "redo_days", "REWORK.CREWDAYS(regrafts_to_place;grafts_per_day;crew)", "days",
                Format::count, "")
        .answer("Cost of wood, pay and materials", "redo_cost",
                "redo_sticks*stick_price+regrafts_to_place/grafts_per_day*day_pay+regrafts_to_place*stub_materials/"
                "grafts",
                "=currency&\"\"", Format::count, "")
        .answer("Rows still to check", "", "IF(COUNT(placed)=0;\"\";COUNT(placed)-rows_counted)", "rows", Format::count,
                "");
    const int below = lines.row();
    sheet
        .put(Place("B", below),
             "What one tree has too much does not help another: missing grafts are added up tree by tree, never netted "
             "over a row. The workbook inspection-log counts tree by tree. Regraft while the bark slips, on stubs with "
             "sound bark; where it does not, keep a stock shoot near the stub and bud it later.",
             Style::note)
        .across(8);
    sheet.row_height(below, 1.6);
    sheet.chart(
        Place("B", below + 1), 24, 6.4,
        look::takes_chart(sheet, 11, 8, "K", "Take by grafter, with its limits",
                          "A column for each grafter's take, with a bar from the lower to the upper limit.", ""));
    entries.close("B3", 8);

    // Behind the orders: grafts to place on a tree that lacks 0, 1, 2, ... live ones.
    constexpr int table = 30;
    sheet.put(Place("K", table - 1), "Lacking", Style::workings);
    sheet.put(Place("L", table - 1), "To place", Style::workings);
    for (int lacking = 0; lacking <= 40; ++lacking) {
        const int line = table + lacking;
        sheet.put(Place("K", line), lacking, Style::workings);
        sheet.put(
            Place("L", line),
            lacking == 0
                ? std::string("=0")
                : at_row("=IF(N(live_wanted)<K{r};\"\";IF(ISNUMBER(take_seen);IFERROR(REWORK.REGRAFTS(live_wanted-"
                         "K{r};live_wanted;take_seen;regraft_sure;clustering);\"\");\"\"))",
                         line),
            Style::workings);
    }
    sheet.name("regraft_for", Area("L", table, table + 40));
    sheet.put("K3", or_blank("COUNTIF(row_regrafts;\"\")-COUNTIF(to_redo;\"\")"), Style::workings)
        .name("regraft_waits");
    // Expected for the block: so many trees short, lacking so much each.
    sheet.put("K4", or_blank("trees*(1-chance_wanted)"), Style::workings, Format::tenth).name("expected_short");
    sheet.put("K5", or_blank("trees*live_wanted*(1-share_expected)/expected_short"), Style::workings, Format::hundredth)
        .name("expected_lack");
    sheet
        .put("K6",
             or_blank("IF(expected_short<=0;0;ROUNDUP(expected_short*(INDEX(regraft_for;INT(expected_lack)+1)*(1-MOD("
                      "expected_lack;1))+INDEX(regraft_for;MIN(live_wanted;INT(expected_lack)+1)+1)*MOD(expected_lack;"
                      "1));0))"),
             Style::workings, Format::count)
        .name("expected_regrafts");
    sheet.print_area(Area({1, 1}, {9, below + 1}));
}

}  // namespace slipbark::compose::block

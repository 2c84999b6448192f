// Odds: how likely the plan has paid back by each year, and what it hangs on most.
#include <array>

#include "workbooks/rework_plan/book.hpp"
#include "workbooks/rework_plan/parts.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int first_spread = 6;
constexpr int last_spread = first_spread + 4;
constexpr int odds_head = 15;
constexpr int first_year = odds_head + 1;
constexpr int last_year = first_year + years;
constexpr int swings_head = last_year + 3;

void spreads(Sheet& sheet, Entries& entries) {
    look::band(sheet, "B4", "How far it may differ from the plan: factors around 1, delay in years", 8);
    look::headings(sheet, "B5", {"What", "Low", "Likely", "High"});
    sheet.put("F5", "What it stands for", Style::heading).across(3);
    sheet.put("I5", "Check", Style::heading);
    struct Spread {
        const char* what;
        Content low;
        Content likely;
        Content high;
        const char* means;
    };
    // The take's spread is that of the counts, once there are some on two rows.
    const std::string counted = "COUNT(live_now)>1";
    const auto of_take = [&](int column, double otherwise) {
        return "=IFERROR(IF(" + counted +
               ";REWORK.TREESHARE(grafts_per_tree;INDEX(REWORK.TAKETREES(live_now;placed);1;" + std::to_string(column) +
               ");live_wanted;clustering)/REWORK.TREESHARE(grafts_per_tree;take_seen;live_wanted;clustering);" +
               plain_number(otherwise) + ");" + plain_number(otherwise) + ")";
    };
    const std::array<Spread, 5> all{{
        {"outlay", 0.9, 1.0, 1.3, "costs of the first year; assumption"},
        {"costs", 0.9, 1.0, 1.2, "costs of later years; assumption"},
        {"income", of_take(2, 0.75), 1.0, of_take(3, 1.1),
         "price and take, for all years; from counts where there are any"},
        {"season", 0.5, 1.0, 1.3, "each year anew: hail, frost, off-years; assumption"},
        {"delay", 0.0, 0.0, 1.0, "years by which income comes later; assumption"},
    }};
    int row = first_spread;
    for (const Spread& spread : all) {
        sheet.put(Place("B", row), spread.what, Style::body);
        sheet.put(Place("C", row), spread.low, Style::kept, Format::hundredth);
        sheet.put(Place("D", row), spread.likely, Style::kept, Format::hundredth);
        sheet.put(Place("E", row), spread.high, Style::kept, Format::hundredth);
        sheet.put(Place("F", row), spread.means, Style::unit).across(3);
        sheet.put(
            Place("I", row),
            at_row("=IFERROR(IF(COUNT(C{r}:E{r})<3;\"Give three numbers.\";IF(OR(C{r}<0;C{r}>D{r};D{r}>E{r};E{r}>100)"
                   ";\"Low, likely and high must rise, from 0 to 100.\";\"\"));\"Give three numbers.\")",
                   row),
            Style::check);
        ++row;
    }
    for (const char* column : {"C", "D", "E"}) {
        sheet.valid(Area(column, first_spread, last_spread), number(0, 100, "a factor; for delay years"));
    }
    const Area checks("I", first_spread, last_spread);
    look::mend_where_said(sheet, checks);
    sheet.name("spreads", Area({2, first_spread}, {5, last_spread}));
    entries.add_lines(checks);
    Lines(sheet, Place("B", last_spread + 1), entries, {.label = 2, .value = 1, .unit = 3})
        .kept("Draws", "draws", 4000.0, "more take longer", Format::count, whole_kind(100, 100000, "draws"));
}

}  // namespace

void odds(Workbook& book) {
    Sheet& sheet = book.sheet("Odds", Paper::portrait);
    sheet.columns({0.4, 3.6, 3.2, 3.2, 3.2, 3.2, 3.2, 3.2, 7.0, 0.8, 2.4, 2.4, 2.4});
    look::opening(
        sheet, "=\"How sure: \"&block",
        "Costs, income and seasons drawn again and again around the plan of sheet Money, with a seed of its own: "
        "the same cells give the same answer everywhere.",
        8);
    Entries entries(sheet, "odds_entries");
    spreads(sheet, entries);
    const std::string call = "REWORK.PAYBACKODDS(odds_costs;odds_income;spreads;rate;draws)";
    const std::string last = std::to_string(last_year);
    sheet
        .put("B12",
             or_blank("IF(COUNT(odds_paid)=0;\"\";IF(MAX(odds_paid)<0.005;\"In none of 100 it has paid back within " +
                      std::to_string(years) +
                      " years\";\"In \"&ROUND(100*MAX(odds_paid);0)&\" of 100 it has paid back within " +
                      std::to_string(years) +
                      " years\"&IF(MAX(odds_paid)<0.5;\"\";\", in half of them by "
                      "\"&INDEX(seasons;COUNTIF(odds_paid;\"<0.5\")+1)))"
                      "&\"; in the worst "
                      "tenth it is \"&IF(INDEX(odds_low;" +
                      std::to_string(years + 1) + ")<0;\"still \"&FIXED(-INDEX(odds_low;" + std::to_string(years + 1) +
                      ");0)&\" \"&currency&\" behind\";FIXED(INDEX(odds_low;" + std::to_string(years + 1) +
                      ");0)&\" \"&currency&\" ahead\")&\" at the end.\")"),
             Style::sentence)
        .across(8);
    sheet.row_height(12, 1.2);
    check(sheet, "B13", "IF(COUNT(odds_paid)>0;\"\";" + why_of(call) + ")", 8);
    look::band(sheet, Place("B", odds_head - 1), "=\"Year by year, in \"&currency", 8);
    look::headings(sheet, Place("B", odds_head),
                   {"Year", "Paid back by then", "Worst tenth below", "Half below", "Best tenth above", "Season"});
    sheet.array(Area({2, first_year}, {6, last_year}),
                or_blank("IF(COUNT(odds_costs)=ROWS(odds_costs);" + call + ";\"\")"), Style::answer,
                {Format::count, Format::percent, Format::count, Format::count, Format::count});
    for (int row = first_year; row <= last_year; ++row) {
        sheet.put(Place("G", row), or_blank("INDEX(seasons;" + std::to_string(row - first_year + 1) + ")"),
                  Style::body);
    }
    sheet.name("odds_paid", Area("C", first_year, last_year));
    sheet.name("odds_low", Area("D", first_year, last_year));
    look::band(sheet, Place("B", swings_head - 1),
               "What the plan hangs on: its present value where one thing is at its low or high", 8);
    look::headings(sheet, Place("B", swings_head), {"What", "At its low", "At its high", "Difference"});
    const int first_swing = swings_head + 1;
    const int last_swing = swings_head + 5;
    const std::string swings = "REWORK.SWINGS(odds_costs;odds_income;spreads;rate)";
    sheet.array(Area({2, first_swing}, {5, last_swing}),
                or_blank("IF(COUNT(odds_costs)=ROWS(odds_costs);" + swings + ";\"\")"), Style::answer,
                {Format::text, Format::count, Format::count, Format::count});
    check(sheet, Place("F", first_swing),
          "IF(COUNT(" + Area("E", first_swing, last_swing).text() + ")>0;\"\";" + why_of(swings) + ")", 4);
    // Behind the tornado: how far each end lies from the plan.
    look::headings(sheet, Place("K", swings_head), {"worse", "better"});
    for (int row = first_swing; row <= last_swing; ++row) {
        sheet.put(Place("K", row), or_blank(at_row("MIN(C{r};D{r};odds_likely)-odds_likely", row)), Style::workings,
                  Format::count);
        sheet.put(Place("L", row), or_blank(at_row("MAX(C{r};D{r};odds_likely)-odds_likely", row)), Style::workings,
                  Format::count);
    }
    sheet.put(Place("K", swings_head - 1), or_blank("present_value"), Style::workings, Format::count)
        .name("odds_likely");
    using Shape = Series::Shape;
    Chart fan{.title = "Cumulative cash flow with interest: worst tenth, half, best tenth",
              .description =
                  "Three lines: below the lowest lie a tenth of all draws, below the middle one half, above the "
                  "highest a tenth. Where a line crosses zero, so many have paid back.",
              .categories = Area("G", first_year, last_year),
              .category_title = "season",
              .value_title = "your money",
              .value_format = Format::count,
              .series = {{.values = Area("D", first_year, last_year),
                          .label = Place("D", odds_head),
                          .shape = Shape::line,
                          .paint = 3},
                         {.values = Area("E", first_year, last_year),
                          .label = Place("E", odds_head),
                          .shape = Shape::line,
                          .paint = 0},
                         {.values = Area("F", first_year, last_year),
                          .label = Place("F", odds_head),
                          .shape = Shape::line,
                          .paint = 1}}};
    Chart tornado_chart{.title = "What the plan hangs on: present value against the plan's",
                        .description = "Bars to both sides of the plan's present value, the longest on top.",
                        .categories = Area("B", first_swing, last_swing),
                        .category_title = "",
                        .value_title = "your money",
                        .value_format = Format::count,
                        .series = {}};
    tornado(tornado_chart, Area("K", first_swing, last_swing), Area("L", first_swing, last_swing));
    sheet.chart(Place("B", last_swing + 2), 26, 8, fan);
    sheet.chart(Place("B", last_swing + 3), 26, 6.5, tornado_chart);
    sheet
        .put(
            Place("B", last_swing + 4),
            "Each thing is drawn from a triangle between low and high with its top at likely; income and season act on "
            "what is left after picking. Odds are no promise: they hold for the spreads above, which are yours.",
            Style::note)
        .across(8);
    sheet.row_height(last_swing + 4, 1.1);
    entries.close("B3", 8);
    sheet.cursor(Place("C", first_spread));
    sheet.print_area(Area({1, 1}, {9, last_swing + 4}));
}

}  // namespace slipbark::compose::block

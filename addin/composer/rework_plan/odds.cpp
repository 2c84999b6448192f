// Odds: how likely the plan has paid back by each year, and what it hangs on most.
#include <array>

#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"
#include "composer/spreads.hpp"

namespace slipbark::compose::block {

namespace {

constexpr int first_spread = 6;
constexpr int last_spread = first_spread + 4;
constexpr int price_row = last_spread + 1;
constexpr int take_row = price_row + 1;
constexpr int sentence_row = take_row + 2;
constexpr int odds_head = sentence_row + 3;
constexpr int first_year = odds_head + 1;
constexpr int last_year = first_year + years;
constexpr int swings_head = last_year + 3;

/// The same spreads with nothing uncertain, which tell the present value where all is at its likely.
void likely_spreads(Sheet& sheet) {
    sheet.put(Place("K", first_spread - 1), "all at likely", Style::workings);
    for (int row = first_spread; row <= last_spread; ++row) {
        sheet.put(Place("K", row), at_row("=B{r}", row), Style::workings);
        for (const char* column : {"L", "M", "N"}) {
            sheet.put(Place(column, row), at_row("=D{r}", row), Style::workings, Format::hundredth);
        }
    }
    sheet.name("likely_spreads", Area({11, first_spread}, {14, last_spread}));
}

/// "In 78 of 100 draws it has paid back by 2034, ...": whole sentences, one for each way it may go.
std::string sentence() {
    const std::string draws =
        "\"In \"&ROUND(100*MAX(odds_paid);0)&\" of 100 draws it has paid back by "
        "\"&MAX(seasons)&\"";
    const std::string half = R"(, in half of all draws by "&INDEX(seasons;COUNTIF(odds_paid;"<"&1/2)+1)&")";
    const std::string worst = "; in the worst tenth it is then ";
    const std::string end = "INDEX(odds_low;ROWS(odds_low))";
    const std::string behind = worst + "still \"&FIXED(-" + end + R"(;0)&" "&currency&" behind.")";
    const std::string ahead = worst + "\"&FIXED(" + end + R"(;0)&" "&currency&" ahead.")";
    return "IF(COUNT(odds_paid)=0;\"\";IF(MAX(odds_paid)<0.005;\"In none of 100 draws it has paid back by "
           "\"&MAX(seasons)&\"" +
           behind + ";IF(MAX(odds_paid)<0.5;" + draws + behind + ";IF(" + end + "<0;" + draws + half + behind + ";" +
           draws + half + ahead + "))))";
}

void spreads(Sheet& sheet, Entries& entries) {
    look::band(sheet, "B4", "How far it may differ from the plan: factors around 1, delay in years", 8);
    // Price and take have nothing to do with each other, so that both at their worst are rarer than either.
    const std::string price = std::to_string(price_row);
    const std::string take = std::to_string(take_row);
    const auto together = [&](const std::string& column, const std::string& sign) {
        const auto off = [&](const std::string& row) { return "(1-" + column + row + "/D" + row + ")^2"; };
        return "=IFERROR(MAX(0;D8*(1" + sign + "SQRT(" + off(price) + "+" + off(take) + ")));\"\")";
    };
    // The take's spread is that of the counts, once there are some on two rows.
    const std::string counted = "COUNT(live_now)>1";
    const auto of_take = [&](int column, double otherwise) {
        return "=IFERROR(IF(" + counted +
               ";REWORK.TREESHARE(grafts_per_tree;INDEX(REWORK.TAKETREES(live_now;placed);1;" + std::to_string(column) +
               ");live_wanted;clustering)/REWORK.TREESHARE(grafts_per_tree;take_seen;live_wanted;clustering);" +
               plain_number(otherwise) + ");" + plain_number(otherwise) + ")";
    };
    const std::array<Spread, 7> all{{
        {"outlay", 0.9, 1.0, 1.3, "costs of the first year; assumption"},
        {"costs", 0.9, 1.0, 1.2, "costs of later years; assumption"},
        {"income", together("C", "-"), "=IFERROR(D" + price + "*D" + take + ";\"\")", together("E", "+"),
         "for all years: price and take, from the two lines below"},
        {"season", 0.5, 1.0, 1.3, "each year anew: hail, frost, off-years; assumption"},
        {"delay", 0.0, 0.0, 1.0, "years by which income comes later; assumption", 20},
        {"price of the crop", 0.85, 1.0, 1.1, "assumption; part of income"},
        {"take", of_take(2, 0.85), 1.0, of_take(3, 1.05),
         "=IF(" + counted +
             ";\"from the counts on \"&COUNT(live_now)&\" rows; part of income\";\"assumption until two rows are "
             "counted; part of income\")"},
    }};
    const Area checks = spread_lines(sheet, first_spread - 1, all);
    sheet.name("spreads", Area({2, first_spread}, {5, last_spread}));
    entries.add_lines(checks);
    likely_spreads(sheet);
    Lines(sheet, Place("B", take_row + 1), entries, {.label = 2, .value = 1, .unit = 3})
        .kept("Draws", "draws", 4000.0, "more take longer", Format::count, whole_kind(100, 100000, "draws"));
}

}  // namespace

void odds(Workbook& book) {
    Sheet& sheet = book.sheet("Odds", Paper::portrait);
    sheet.columns({0.4, 3.4, 2.5, 2.7, 2.7, 2.7, 2.7, 2.7, 5.6, 0.8, 2.4, 2.4, 2.4, 2.4});
    look::opening(
        sheet, look::titled("How sure", "block"),
        "Costs, income and seasons drawn again and again around the plan of sheet Money, with a seed of its own: "
        "the same cells give the same answer everywhere.",
        8);
    Entries entries(sheet, "odds_entries");
    spreads(sheet, entries);
    const std::string call = "REWORK.PAYBACKODDS(odds_costs;odds_income;spreads;rate;draws)";
    sheet.put(Place("B", sentence_row), or_blank(sentence()), Style::sentence).name("odds_sentence").across(8);
    sheet.row_height(sentence_row, 1.2);
    check(sheet, Place("B", sentence_row + 1), "IF(COUNT(odds_paid)>0;\"\";" + why_of(call) + ")", 8);
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
    // Behind the tornado: how far each end lies from where all is at its likely.
    look::headings(sheet, Place("K", swings_head), {"worse", "better"});
    for (int row = first_swing; row <= last_swing; ++row) {
        sheet.put(Place("K", row), or_blank(at_row("MIN(C{r};D{r};odds_likely)-odds_likely", row)), Style::workings,
                  Format::count);
        sheet.put(Place("L", row), or_blank(at_row("MAX(C{r};D{r};odds_likely)-odds_likely", row)), Style::workings,
                  Format::count);
    }
    sheet
        .put(Place("K", swings_head - 1),
             or_blank("INDEX(REWORK.SWINGS(odds_costs;odds_income;likely_spreads;rate);1;2)"), Style::workings,
             Format::count)
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
    Chart tornado_chart{
        .title = "What the plan hangs on: present value against that with all at likely",
        .description = "Bars to both sides of the present value with all at likely, the longest on top.",
        .categories = Area("B", first_swing, last_swing),
        .category_title = "",
        .value_title = "your money",
        .value_format = Format::count,
        .series = {}};
    tornado(tornado_chart, Area("K", first_swing, last_swing), Area("L", first_swing, last_swing));
    sheet.chart(Place("B", last_swing + 2), 24.5, 6.3, fan);
    sheet.chart(Place("B", last_swing + 3), 24.5, 6, tornado_chart);
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

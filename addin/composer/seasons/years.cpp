// Years: what the arrangement means, season by season: people, wood, money, fruit, and how sure it is.
#include <algorithm>
#include <array>

#include "composer/look.hpp"
#include "composer/seasons/farm.hpp"
#include "composer/spreads.hpp"

namespace slipbark::compose::farm {

namespace {

constexpr int first_spread = 7;
constexpr int spread_room = 5;
constexpr int head = 15;
constexpr int zero = head + 1;
constexpr int last = zero + year_room;

constexpr const char* odds_call = "REWORK.PAYBACKODDS(year_costs;year_income;spreads;interest)";

std::string or_blank(const std::string& expression) { return "=IFERROR(" + expression + ";\"\")"; }

void spreads(Sheet& sheet) {
    look::band(sheet, Place("B", first_spread - 2), "How far it may differ: factors around 1, delay in years", 8);
    const std::array<Spread, spread_room> all{
        {{"outlay", 0.9, 1.0, 1.3, "outlay of the first season; assumption"},
         {"costs", 0.9, 1.0, 1.2, "outlay and losses later on; assumption"},
         {"income", 0.85, 1.0, 1.1, "price and take, all years together; assumption"},
         {"season", 0.7, 1.0, 1.2, "each year anew, blocks even out; assumption"},
         {"delay", 0.0, 0.0, 1.0, "years by which income comes later; assumption", 20}}};
    const Area checks = spread_lines(sheet, first_spread - 1, all);
    sheet.name("spreads", Area({2, first_spread}, {5, first_spread + spread_room - 1}));
    sheet.name("spread_checks", checks);
}

void table(Sheet& sheet) {
    look::band(sheet, Place("B", head - 1), "=\"Year by year against leaving all blocks, in \"&currency", 16);
    look::headings(sheet, Place("B", head),
                   {"Year", "Season", "Trees grafted", "Grafter-days", "People needed", "Sticks", "Outlay",
                    "Lost without a crop", "Gain", "Flow", "Cumulative, with interest", "=\"Old fruit, \"&crop_unit",
                    "=\"New fruit, \"&crop_unit", "Paid back by then", "Worst tenth below", "Half below"});
    sheet.put(Place("R", head), "Best tenth above", Style::heading);
    // Behind: the share of a full crop that season s bears in this year, the crop of all, costs and income.
    sheet.put(Place("T", head - 1), "Share of a full crop by season of grafting; not printed", Style::workings);
    sheet.put(Place("AB", head), "Crop", Style::workings);
    sheet.put(Place("AC", head), "Costs", Style::workings);
    sheet.put(Place("AD", head), "Income", Style::workings);
    const int share = Place("T", 1).column;
    for (int row = zero; row <= last; ++row) {
        const int year = row - zero;
        const std::string number = std::to_string(year);
        const std::string on = "IF(AND(COUNTA(block_names)>0;" + number + "<=years_counted);";
        const auto put = [&](const char* column, const std::string& expression, Format format,
                             Style style = Style::answer) {
            sheet.put(Place(column, row), or_blank(at_row(on + expression + ";\"\")", row)), style, format);
        };
        const auto of_season = [&](const char* name) {
            return year < season_room ? "INDEX(" + std::string(name) + ";" + std::to_string(year + 1) + ")"
                                      : std::string("0");
        };
        for (int season = 1; season <= season_room; ++season) {
            const int after = year - (season - 1);
            const Place cell(share + season - 1, row);
            if (after > 0) {
                sheet.put(cell, "=N(INDEX(crop_shares;" + std::to_string(after) + "))", Style::workings,
                          Format::hundredth);
            } else {
                sheet.put(cell, 0.0, Style::workings, Format::hundredth);
            }
        }
        const std::string shares = Area({share, row}, {share + season_room - 1, row}).text();
        // How many of the seasons were grafted before this year's harvest.
        const int before = std::min(year, season_room);
        const auto so_far = [&](const char* name) {
            return before == 0
                       ? std::string("0")
                       : "SUM(INDEX(" + std::string(name) + ";1):INDEX(" + name + ";" + std::to_string(before) + "))";
        };
        sheet.put(Place("B", row), or_blank(on + number + ";\"\")"), Style::body, Format::general);
        put("C", "first_season+" + number, Format::general, Style::body);
        put("D", of_season("season_trees"), Format::count);
        put("E", of_season("season_days"), Format::tenth);
        put("F",
            year < season_room
                ? "IF(E{r}=0;0;IF(N(INDEX(work_days;" + std::to_string(year + 1) +
                      "))>0;ROUNDUP(E{r}/INDEX(work_days;" + std::to_string(year + 1) + ")-1E-6;0);\"\"))"
                : "0",
            Format::count);
        put("G", of_season("season_sticks"), Format::count);
        put("H", of_season("season_outlay"), Format::count);
        put("I", so_far("season_lost") + "-SUMPRODUCT(" + shares + ";season_lost)", Format::count);
        put("J", "SUMPRODUCT(" + shares + ";season_gain)", Format::count);
        put("K", "J{r}-H{r}-I{r}", Format::count);
        put("L", (year == 0 ? std::string("K{r}") : "L" + std::to_string(row - 1) + "+K{r}/(1+interest)^" + number),
            Format::count);
        put("M", "farm_crop-" + so_far("season_old"), Format::tenth);
        put("N", "SUMPRODUCT(" + shares + ";season_new)", Format::tenth);
        sheet.put(Place("AB", row), at_row("=N(M{r})+N(N{r})", row), Style::workings, Format::tenth);
        // A loss below 0 is income, a gain below 0 a cost.
        put("AC", "H{r}+MAX(0;I{r})+MAX(0;-J{r})", Format::count, Style::workings);
        put("AD", "MAX(0;J{r})+MAX(0;-I{r})", Format::count, Style::workings);
    }
    const auto column = [](const char* letter) { return Area(letter, zero, last); };
    sheet.name("year_flows", column("K"));
    sheet.name("year_crop", column("AB"));
    sheet.name("year_costs", column("AC"));
    sheet.name("year_income", column("AD"));
    sheet.name("year_seasons", column("C"));
    // Paid back by then, and what a tenth, half and nine tenths of the draws stay below: columns 2 to 5.
    sheet.array(Area(Place("O", zero), Place("R", last)),
                std::string("=IFERROR(INDEX(") + odds_call + ";ROW(A$1:A$" + std::to_string(year_room + 1) +
                    ");COLUMN(B$1:E$1));\"\")",
                Style::answer, {Format::percent, Format::count, Format::count, Format::count});
    sheet.name("odds_paid", column("O"));
    sheet.name("odds_low", column("P"));
    sheet.mark(Area(Place("B", zero), Place("R", last)),
               "AND(ISNUMBER(payback);$B" + std::to_string(zero) + "=payback_year)", Style::due);
}

void answers(Sheet& sheet) {
    look::band(sheet, Place("K", first_spread - 2), "The whole programme", 8);
    int row = first_spread - 1;
    const auto line = [&](const char* label, const char* name, const std::string& expression, Format format,
                          const std::string& unit) {
        sheet.put(Place("K", row), label, Style::label).across(3);
        auto cell = sheet.put(Place("N", row), or_blank(expression), Style::total, format);
        if (*name != '\0') cell.name(name);
        sheet.put(Place("O", row), unit, Style::unit).across(4);
        ++row;
    };
    line("Worth today", "", "IF(blocks_done>0;arranged_worth;\"\")", Format::count, "=currency&\"\"");
    line("Paid back within, with interest", "payback_year", "IF(ISNUMBER(payback);ROUNDUP(payback-1E-9;0);payback)",
         Format::count,
         "=IF(ISNUMBER(payback);IFERROR(\"years; odds \"&ROUND(100*INDEX(odds_paid;payback_year+1);0)&\" "
         "%\";\"years\");\"years\")");
    line("Money out at most, with interest", "",
         "IF(blocks_done>0;MAX(0;-MIN(" + Area("L", zero, last).text() + "));\"\")", Format::count, "=currency&\"\"");
    line("People grafting at most", "", "IF(blocks_done>0;MAX(" + Area("F", zero, last).text() + ");\"\")",
         Format::count, "people");
    line("Crop at its lowest", "crop_lowest",
         "IF(AND(farm_crop>0;COUNTA(block_names)>0);MIN(INDEX(year_crop;1):"
         "INDEX(year_crop;years_counted+1))/farm_crop;\"\")",
         Format::percent, "of today's crop of the farm");
    sheet.put("AC1", "Payback", Style::workings);
    sheet
        .put("AD1", or_blank("IF(blocks_done>0;IFNA(REWORK.PAYBACK(year_flows;interest);\"never\");\"\")"),
             Style::workings, Format::tenth)
        .name("payback");
}

/// "In 78 of 100 draws ...": whole sentences, one for each way it may go.
std::string sentence() {
    const std::string end = "INDEX(odds_low;years_counted+1)";
    const std::string year = "(first_season+years_counted)";
    const std::string draws =
        "\"In \"&ROUND(100*MAX(odds_paid);0)&\" of 100 draws the programme has paid back by \"&" + year;
    return "IF(COUNT(odds_paid)=0;\"\";IF(MAX(odds_paid)<0.005;\"In none of 100 draws the programme has paid back by "
           "\"&" +
           year + "&\".\";IF(" + end + "<0;" + draws + "&\"; in the worst tenth it is then still \"&FIXED(-" + end +
           ";0)&\" \"&currency&\" behind.\";" + draws + "&\"; in the worst tenth it is then \"&FIXED(" + end +
           ";0)&\" \"&currency&\" ahead.\")))";
}

}  // namespace

void by_year(Workbook& book) {
    Sheet& sheet = book.sheet("Years", Paper::landscape);
    sheet.columns({0.4, 2.6, 1.9, 2.4, 2.2, 2.4, 2.4, 2.4, 2.6, 2.4, 2.4, 2.8, 2.6, 2.6, 2.1,
                   2.6, 2.6, 2.6, 0.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 2.0, 2.0, 2.0});
    look::opening(
        sheet, look::titled("Year by year", "farm"),
        "What the arrangement means for people, wood, cash and fruit, against leaving all blocks as they are. "
        "Prices of today, no inflation; a season's blocks bear from the year after on.",
        17);
    sheet.put("B3", or_blank(sentence()), Style::sentence).across(17);
    sheet.row_height(3, 0.8);
    sheet
        .put("B4",
             "=IF(COUNTA(block_names)=0;\"\";IF(LEN(farm_entries)>0;\"Something does not fit yet: see sheet "
             "Blocks.\";IF(COUNT(odds_paid)>0;\"\";IF(blocks_done=0;\"No block is arranged yet.\";REWORK.WHY("
             "\"PAYBACKODDS\";year_costs;year_income;spreads;interest)))))",
             Style::check)
        .across(17);
    look::mend_where_said(sheet, "B4");
    spreads(sheet);
    answers(sheet);
    table(sheet);
    using Shape = Series::Shape;
    constexpr int drawn = zero + 20;
    const Chart fruit{
        .title = "The farm's crop over twenty years, old and new fruit",
        .description =
            "Columns of the old varieties' crop with that of the new ones on top: the gap while blocks do not "
            "bear, and how it closes.",
        .categories = Area("C", zero, drawn),
        .category_title = "season",
        .value_title = "tonnes, or US short tons",
        .value_format = Format::count,
        .series = {{.values = Area("M", zero, drawn), .label = Place("M", head), .shape = Shape::column, .paint = 2},
                   {.values = Area("N", zero, drawn), .label = Place("N", head), .shape = Shape::column, .paint = 0}},
        .stacked = true,
        .least = 0};
    const Chart cash{
        .title = "Cumulative cash flow with interest over twenty years, and how sure it is",
        .description =
            "Lines: as planned, and below which a tenth, half and nine tenths of the draws stay. Where a "
            "line crosses zero, so many have paid back.",
        .categories = Area("C", zero, drawn),
        .category_title = "season",
        .value_title = "your money",
        .value_format = Format::count,
        .series = {{.values = Area("L", zero, drawn), .label = Place("L", head), .shape = Shape::line, .paint = 4},
                   {.values = Area("P", zero, drawn), .label = Place("P", head), .shape = Shape::line, .paint = 3},
                   {.values = Area("Q", zero, drawn), .label = Place("Q", head), .shape = Shape::line, .paint = 0},
                   {.values = Area("R", zero, drawn), .label = Place("R", head), .shape = Shape::line, .paint = 1}}};
    sheet.page_break(last + 2);
    sheet.chart(Place("B", last + 2), 36, 8.5, fruit);
    sheet.chart(Place("B", last + 3), 36, 8.5, cash);
    sheet
        .put(Place("B", last + 4),
             "An estimate for comparing arrangements, no advice: every figure is the user's own or invented. Odds hold "
             "for the spreads above. A block that is not arranged stays as it is.",
             Style::note)
        .across(17);
    sheet.cursor(Place("C", first_spread));
    sheet.print_area(Area({1, 1}, {18, last + 4}));
}

}  // namespace slipbark::compose::farm

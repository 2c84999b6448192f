// Limits: what the farm has in each season, and how a block's crop comes.
#include <algorithm>
#include <chrono>

#include "composer/entries.hpp"
#include "composer/look.hpp"
#include "composer/seasons/farm.hpp"

namespace slipbark::compose::farm {

namespace {

using std::chrono::year;

constexpr int head = 18;  // of the table by season
constexpr int first_day = head + 1;
constexpr int last_day = first_day + 1;
constexpr int people = last_day + 1;
constexpr int work_days = people + 1;
constexpr int grafter_days = work_days + 1;
constexpr int cash = grafter_days + 1;
constexpr int crop_kept = cash + 1;
constexpr int sources = crop_kept + 2;  // the first of them, below its heading
constexpr int last_source = sources + source_room - 1;
constexpr const char* first = "C";

std::string across(int row) { return Area({3, row}, {2 + season_room, row}).text(); }

/// What a line of the table says where a cell of it does not fit: a number of that range, or nothing.
void check_line(Sheet& sheet, int row, const char* low, const char* high, const std::string& says) {
    const std::string cells = across(row);
    sheet.put(Place("K", row),
              "=IFERROR(IF(SUMPRODUCT((LEN(" + cells + ")>0)*NOT(ISNUMBER(" + cells + ")))>0;\"" + says +
                  "\";IF(OR(MIN(" + cells + ")<" + low + ";MAX(" + cells + ")>" + high + ");\"" + says +
                  "\";\"\"));\"A cell of this line holds an error: clear it, or type what is right.\")",
              Style::check);
}

/// What the rework of a block costs and earns by the season in which it is done, a unit of each.
void factors(Sheet& sheet) {
    const int row = last_source + 3;
    sheet.put(Place("N", row - 1), "Behind the worth, by season", Style::workings);
    sheet.put(Place("N", row), "Outlay", Style::workings);
    sheet.put(Place("N", row + 1), "Gain", Style::workings);
    sheet.put(Place("N", row + 2), "Lost", Style::workings);
    for (int season = 1; season <= season_room; ++season) {
        const std::string before = std::to_string(season - 1);
        const std::string left = "(ROW(crop_shares)-ROW(INDEX(crop_shares;1))+1<=years_counted-" + before + ")";
        const std::string today = "(1+interest)^-(ROW(crop_shares)-ROW(INDEX(crop_shares;1))+1)";
        const std::string letter = season_column("O", season);
        sheet.put(Place(letter, row), "=IFERROR((1+interest)^-" + before + ";0)", Style::workings, Format::hundredth);
        sheet.put(Place(letter, row + 1),
                  at_row("=IFERROR(" + letter + "{r}*SUMPRODUCT(" + left + "*crop_shares*" + today + ");0)", row),
                  Style::workings, Format::hundredth);
        sheet.put(Place(letter, row + 2),
                  at_row("=IFERROR(" + letter + "{r}*SUMPRODUCT(" + left + "*(1-crop_shares)*" + today + ");0)", row),
                  Style::workings, Format::hundredth);
    }
    const int left = Place("O", 1).column;
    const auto by_season = [&](int at) { return Area({left, at}, {left + season_room - 1, at}); };
    sheet.name("outlay_factor", by_season(row));
    sheet.name("gain_factor", by_season(row + 1));
    sheet.name("lost_factor", by_season(row + 2));
}

}  // namespace

void limits(Workbook& book) {
    using entries::unfit;
    Sheet& sheet = book.sheet("Limits", Paper::landscape);
    sheet.columns(
        {0.4, 7.2, 2.6, 2.6, 2.6, 2.6, 2.6, 2.6, 2.6, 2.6, 8.4, 0.6, 0.6, 3.0, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4});
    look::opening(sheet, look::titled("What there is", "farm"),
                  "What the farm has in each season. Blank is no limit. A Check that is blank is fine, else it says "
                  "what to correct.",
                  10);
    look::Form form(sheet, "B4");
    form.section("Farm and seasons")
        .input("Farm", "farm", "Kestrel Flat", "name", Format::text, any_text("the farm's name"))
        .input("First season", "first_season", 2027.0, "year", Format::general, whole(2000, 2099, "the year"))
        .input("Seasons to arrange", "season_count", 4.0, "1 to 8", Format::count, whole(1, season_room, "seasons"))
        .kept("Units", "units", "metric", "metric or US", Format::text, one_of({"metric", "US"}))
        .kept("Name or sign of the money", "currency", "florins", "=IF(currency=\"florins\";\"invented\";\"\")",
              Format::text, any_text("the currency's name"))
        .kept("Interest", "interest", 0.06, "a year", Format::percent_tenth, share(0, 1))
        .kept("Years that count, from the first season on", "years_counted", 20.0, "5 to 30", Format::count,
              whole(5, year_room, "years"))
        .kept("Age of the grafts at their first harvest", "first_age", 0.75, "years", Format::hundredth,
              number(0.05, 3, "years"))
        .input("Crop of the farm beside these blocks", "rest_crop", 60.0, "=crop_unit&\" a year\"", Format::tenth,
               number(0, 1e6, "as much as it bears a year"))
        .kept("Cash left over is carried on", "carry", "yes", "yes or no", Format::text, one_of({"yes", "no"}))
        .kept("Days off in every week", "off_days", "Sat and Sun", "of the week", Format::text,
              one_of({"none", "Sun", "Sat and Sun"}))
        .kept("Time limit of Rework > Arrange the seasons", "arrange_seconds", 20.0, "seconds", Format::count,
              whole(1, 3600, "seconds"));
    look::band(sheet, Place("B", head - 1), "Season by season", 10);
    sheet.put(Place("B", head), "Season", Style::heading);
    sheet.put(Place("K", head), "Check", Style::heading);
    sheet.put(Place("B", first_day), "First day on which bark slips", Style::label);
    sheet.put(Place("B", last_day), "Last day on which bark slips", Style::label);
    sheet.put(Place("B", people), "People grafting", Style::label);
    sheet.put(Place("B", work_days), "Working days in between", Style::label);
    sheet.put(Place("B", grafter_days), "Grafter-days", Style::label);
    sheet.put(Place("B", cash), "=\"Cash set aside for reworking, \"&currency", Style::label);
    sheet.put(Place("B", crop_kept), "Least of today's crop kept, next harvest", Style::label);
    sheet.put(Place("B", sources - 1), "Sticks to be had, by source: name it as the variety it gives", Style::section);
    for (int column = 3; column <= 11; ++column) sheet.put({column, sources - 1}, "", Style::section);
    constexpr double invented_cash[] = {26000, 26000, 28000, 28000};
    constexpr double invented_people[] = {2, 2, 3, 3};
    struct Source {
        const char* name;
        double sticks[4];
    };
    constexpr Source invented[] = {{"Ember Moon pomelo", {1600, 2200, 2600, 2600}},
                                   {"Larkspur mandarin", {0, 1400, 1800, 2400}},
                                   {"Saffron Bell orange", {1800, 1800, 1800, 1800}}};
    for (int source = 0; source < source_room; ++source) {
        const Place at("B", sources + source);
        if (source < 3) {
            sheet.put(at, invented[source].name, Style::input, Format::text);
        } else {
            sheet.empty(Area(at), Style::input, Format::text);
        }
    }
    sheet.valid(Area("B", sources, last_source), any_text("a source of wood: the variety it gives"));
    for (int season = 1; season <= season_room; ++season) {
        const std::string letter = season_column(first, season);
        const std::string which = std::to_string(season);
        const auto at = [&](int row) { return Place(letter, row); };
        const bool known = season <= 4;
        const auto index = static_cast<std::size_t>(std::min(season, 4) - 1);
        const auto input = [&](int row, const auto& content, Format format) {
            if (known) {
                sheet.put(at(row), content, Style::input, format);
            } else {
                sheet.empty(Area(at(row)), Style::input, format);
            }
        };
        sheet.put(at(head),
                  "=IFERROR(IF(season_count>=" + which + ";first_season+" + std::to_string(season - 1) + ";\"\");\"\")",
                  Style::heading, Format::general);
        input(first_day, Date{year{2026 + season} / std::chrono::September / 15}, Format::date);
        input(last_day, Date{year{2026 + season} / std::chrono::October / 12}, Format::date);
        input(people, invented_people[index], Format::count);
        const std::string from = season_column("O", season) + std::to_string(first_day);
        const std::string until = season_column("O", season) + std::to_string(last_day);
        sheet.put(Place(season_column("O", season), first_day), "=" + entries::day_of(at(first_day).text()),
                  Style::workings, Format::date);
        sheet.put(Place(season_column("O", season), last_day), "=" + entries::day_of(at(last_day).text()),
                  Style::workings, Format::date);
        sheet.put(at(work_days),
                  "=IFERROR(IF(AND(" + from + ">0;" + until + ">=" + from + ";" + until + "-" + from +
                      "<=366);COM.MICROSOFT.NETWORKDAYS.INTL(" + from + ";" + until + ";days_off);\"\");\"\")",
                  Style::answer, Format::count);
        sheet.put(at(grafter_days),
                  "=IF(AND(ISNUMBER(" + at(people).text() + ");ISNUMBER(" + at(work_days).text() + "));" +
                      at(people).text() + "*" + at(work_days).text() + ";\"\")",
                  Style::input, Format::count);
        input(cash, invented_cash[index], Format::count);
        input(crop_kept, 0.6, Format::percent);
        for (int source = 0; source < source_room; ++source) {
            if (known && source < 3) {
                sheet.put(at(sources + source), invented[source].sticks[season - 1], Style::input, Format::count);
            } else {
                sheet.empty(Area(at(sources + source)), Style::input, Format::count);
            }
        }
    }
    const auto cells = [](int row) { return Area({3, row}, {2 + season_room, row}); };
    sheet.valid(cells(first_day), any_date);
    sheet.valid(cells(last_day), any_date);
    sheet.valid(cells(people), number(0, 1000, "people"));
    sheet.valid(cells(grafter_days), number(0, 1e6, "days of one grafter, or nothing: no limit"));
    sheet.valid(cells(cash), number(0, 1e12, "your money, or nothing: no limit"));
    sheet.valid(cells(crop_kept), share(0, 1));
    sheet.valid(Area({3, sources}, {2 + season_room, last_source}), number(0, 1e7, "sticks, or nothing: no limit"));
    // Days may be texts as this sheet prints them, so what counts is the day that was read.
    const auto days_read = [](int row) {
        const int left = Place("O", 1).column;
        return Area({left, row}, {left + season_room - 1, row}).text();
    };
    for (const int row : {first_day, last_day}) {
        sheet.put(
            Place("K", row),
            "=IFERROR(IF(SUMPRODUCT((LEN(" + across(row) + ")>0)*(" + days_read(row) +
                "=0))>0;\"Give dates from 2000 to 2099, or nothing.\";\"\");\"A cell of this line holds an error: "
                "clear it, or type what is right.\")",
            Style::check);
    }
    check_line(sheet, people, "0", "1000", "People grafting: give numbers from 0 to 1,000, or nothing.");
    sheet.put(Place("K", work_days),
              "=IFERROR(IF(SUMPRODUCT((" + days_read(first_day) + ">0)*(" + days_read(last_day) + ">0)*((" +
                  days_read(last_day) + "<" + days_read(first_day) + ")+(" + days_read(last_day) + "-" +
                  days_read(first_day) +
                  ">366)))>0;\"The last day lies before the first, or more than a year "
                  "after it.\";\"\");\"\")",
              Style::check);
    check_line(sheet, grafter_days, "0", "1E6", "Grafter-days: give numbers from 0 to 1,000,000, or nothing.");
    check_line(sheet, cash, "0", "1E12", "Cash: give numbers from 0 on, or nothing.");
    check_line(sheet, crop_kept, "0", "1", "Crop kept: give shares from 0 to 100 %, or nothing; 60 is 60 %.");
    for (int row = sources; row <= last_source; ++row) {
        check_line(sheet, row, "0", "1E7", "Sticks: give numbers from 0 to 10,000,000, or nothing.");
    }
    look::mend_where_said(sheet, Area("K", first_day, last_source));
    sheet.mark(Area({3, head}, {2 + season_room, last_source}), "C$" + std::to_string(head) + "=\"\"", Style::done);

    sheet.name("season_years", cells(head));
    sheet.name("work_days", cells(work_days));
    sheet.name("days_there", cells(grafter_days));
    sheet.name("cash_there", cells(cash));
    sheet.name("crop_kept", cells(crop_kept));
    sheet.name("source_names", Area("B", sources, last_source));
    sheet.name("sticks_there", Area({3, sources}, {2 + season_room, last_source}));
    sheet.name("limit_checks", Area("K", first_day, last_source));

    // How the crop comes: beside the form.
    look::band(sheet, "E4", "Share of a full crop by year after grafting", 6);
    sheet
        .put("E5",
             "Suggested from the built-in curve and the age at the first harvest: a fifth at 33 months and half at 45 "
             "are experience, no published source. Type your own over it.",
             Style::note)
        .across(6, 2);
    constexpr int share_rows = 10;
    for (int year_after = 1; year_after <= year_room; ++year_after) {
        const int pair = (year_after - 1) / share_rows;
        const int row = 7 + (year_after - 1) % share_rows;
        const Place label(5 + 2 * pair, row);
        sheet.put(label, "=\"Year \"&" + std::to_string(year_after), Style::label);
        sheet.put({label.column + 1, row},
                  "=IFERROR(REWORK.YIELD(first_age+" + std::to_string(year_after - 1) + ";1);\"\")", Style::input,
                  Format::percent);
        sheet.valid(Area({label.column + 1, row}), share(0, 2));
        // One column of them for the formulas.
        sheet.put({14, 60 + year_after}, "=N(" + Place(label.column + 1, row).text() + ")", Style::workings,
                  Format::hundredth);
    }
    sheet.put("N60", "Shares, one below the other", Style::workings);
    sheet.name("crop_shares", Area("N", 61, 60 + year_room));
    const std::string share_cells = "F7:F16;H7:H16;J7:J16";

    // Behind the Checks.
    sheet.put("N4", "What does not fit; not printed", Style::workings);
    const auto check = [&](int row, const std::string& formula) {
        sheet.put(Place("O", row), "=" + formula, Style::workings);
        sheet.mark(Place("C", row), "LEN($O" + std::to_string(row) + ")>0", Style::mend);
    };
    check(5, entries::unfit_name("Farm", "farm"));
    check(6, unfit("\"First season\"", "first_season", {2000, 2099}));
    check(7, unfit("\"Seasons to arrange\"", "season_count", {1, season_room}));
    check(8, entries::unfit_word("\"Units\"", "units", {"metric", "US"}));
    check(9, entries::unfit_name("Name or sign of the money", "currency"));
    check(10, unfit("\"Interest\"", "interest", {0, 1, "\"\"", true}));
    check(11, unfit("\"Years that count\"", "years_counted", {5, year_room}));
    check(12, unfit("\"Age of the grafts at their first harvest\"", "first_age", {0.05, 3, "\"years\""}));
    check(13, unfit("\"Crop of the farm beside these blocks\"", "rest_crop", {0, 1e6}));
    check(14, entries::unfit_word("\"Cash left over is carried on\"", "carry", {"yes", "no"}));
    check(15, entries::unfit_word("\"Days off in every week\"", "off_days", {"none", "Sun", "Sat and Sun"}));
    check(16, unfit("\"Time limit\"", "arrange_seconds", {1, 3600, "\"seconds\""}));
    sheet.put("O17",
              "=IF(IFERROR(AND(COUNT(" + share_cells + ")=30;MIN(" + share_cells + ")>=0;MAX(" + share_cells +
                  ")<=2);FALSE());\"\";\"Share of a full crop: give shares from 0 to 200 % for all 30 years.\")",
              Style::workings);
    sheet.name("unfit_farm_entries", "O5:O17");
    sheet
        .put("O18",
             "=IF(SUMPRODUCT(--(LEN(unfit_farm_entries)>0))>0;" + entries::first_of("unfit_farm_entries") + ";\"\")",
             Style::workings)
        .name("unfit_farm");
    sheet.put("P5", "=IF(units=\"US\";\"short tons\";\"tonnes\")", Style::workings).name("crop_unit");
    sheet.put("P6", "=IF(off_days=\"none\";\"0000000\";IF(off_days=\"Sun\";\"0000001\";\"0000011\"))", Style::workings)
        .name("days_off");
    sheet.put("P7", "=IFERROR(rest_crop+SUM(block_old_crop);\"\")", Style::workings, Format::tenth).name("farm_crop");
    factors(sheet);
    sheet.put("B3", "=IF(LEN(unfit_farm)>0;unfit_farm;\"\")", Style::check).across(10);
    look::mend_where_said(sheet, "B3");
    sheet.cursor("C5");
    sheet.print_area(Area({1, 1}, {11, last_source}));
}

}  // namespace slipbark::compose::farm

// Arrange: which block in which season, as cells that hold 1, with what each season then uses of every limit.
#include <vector>

#include "composer/look.hpp"
#include "composer/seasons/farm.hpp"

namespace slipbark::compose::farm {

namespace {

constexpr const char* grid = "C";     // the cells with 0 or 1
constexpr const char* table = "Q";    // what is used of the limits, and what is left
constexpr const char* hidden = "AA";  // behind: which cells may be changed
constexpr int used = first_line;
constexpr int there = used + limit_room + 2;
constexpr int left = there + limit_room + 2;
constexpr int sums = left + limit_room + 3;  // behind the sheet Years

/// The label of a limit, an expression.
std::string limit_name(int which) {
    if (which == days_limit) return "\"Grafter-days\"";
    if (which == cash_limit) return "\"Cash, \"&currency";
    if (which == crop_limit) return "\"Crop missing, next harvest, \"&crop_unit";
    const std::string name = "INDEX(source_names;" + std::to_string(which - first_source_limit + 1) + ")";
    return "IF(" + name + "=\"\";\"\";\"Sticks of \"&" + name + ")";
}

void limit_tables(Sheet& sheet) {
    const auto heading = [&](int row, const char* text) {
        sheet.put(Place("P", row - 1), text, Style::heading);
        for (int season = 1; season <= season_room; ++season) {
            sheet.put(Place(season_column(table, season), row - 1),
                      "=INDEX(season_years;" + std::to_string(season) + ")&\"\"", Style::heading);
        }
    };
    heading(used, "Used in the season");
    heading(there, "There in the season");
    heading(left, "Left over");
    for (int which = 0; which < limit_room; ++which) {
        for (const int top : {used, there, left}) {
            sheet.put(Place("P", top + which), "=" + limit_name(which), Style::label);
        }
        const std::string source = std::to_string(which - first_source_limit + 1);
        for (int season = 1; season <= season_room; ++season) {
            const std::string number = std::to_string(season);
            const std::string letter = season_column(table, season);
            const std::string chosen = Area(season_column(grid, season), first_line, last_line).text();
            const Format format = which == crop_limit || which == days_limit ? Format::tenth : Format::count;
            // What is used, what the sheet Limits has, and what that allows.
            std::string use;
            std::string given;
            std::string limit;
            if (which == days_limit) {
                use = "SUMPRODUCT(" + chosen + ";block_days)";
                limit = given = "INDEX(days_there;" + number + ")";
            } else if (which == cash_limit) {
                use = "SUMPRODUCT(" + chosen + ";block_outlay)";
                limit = given = "INDEX(cash_there;" + number + ")";
                if (season > 1) {
                    limit += "+IF(carry=\"yes\";N(" + season_column(table, season - 1) + std::to_string(left + which) +
                             ");0)";
                }
            } else if (which == crop_limit) {
                use = "farm_crop-INDEX(year_crop;" + std::to_string(season + 1) + ")";
                given = "INDEX(crop_kept;" + number + ")";
                limit = "(1-" + given + ")*farm_crop";
            } else {
                use = "SUMPRODUCT(" + chosen + ";INDEX(block_wood;0;" + source + "))";
                limit = given = "INDEX(sticks_there;" + source + ";" + number + ")";
            }
            const bool of_wood = which >= first_source_limit;
            std::string blank = "ISNUMBER(" + given + ")";
            if (of_wood) blank = "AND(" + blank + ";LEN(INDEX(source_names;" + source + "))>0)";
            const std::string on = "N(INDEX(season_years;" + number + "))>0";
            const std::string named = of_wood ? "AND(" + on + ";LEN($P{r})>0)" : on;
            sheet.put(Place(letter, used + which),
                      at_row("=IFERROR(IF(" + named + ";" + use + ";\"\");\"\")", used + which), Style::answer, format);
            sheet.put(Place(letter, there + which),
                      "=IFERROR(IF(AND(" + on + ";" + blank + ");" + limit + ";\"\");\"\")", Style::answer, format);
            sheet.put(Place(letter, left + which),
                      "=IF(AND(ISNUMBER(" + letter + std::to_string(there + which) + ");ISNUMBER(" + letter +
                          std::to_string(used + which) + "));" + letter + std::to_string(there + which) + "-" + letter +
                          std::to_string(used + which) + ";\"\")",
                      Style::answer, format);
        }
    }
    const auto area = [&](int top) {
        const int column = Place(table, 1).column;
        return Area({column, top}, {column + season_room - 1, top + limit_room - 1});
    };
    // What is broken is framed where it is used and where it is short.
    sheet.mark(area(used), "N(" + Place(table, left).text() + ")<-0.000001", Style::mend);
    sheet.mark(area(left), "N(" + Place(table, left).text() + ")<-0.000001", Style::mend);
    sheet.name("limits_used", area(used));
    sheet.name("limits_there", area(there));
    sheet.name("limits_left", area(left));
    sheet.name("limit_names", Area("P", left, left + limit_room - 1));
}

/// What each season's blocks come to, behind the sheet Years.
void season_sums(Sheet& sheet) {
    const std::vector<std::pair<const char*, const char*>> all{
        {"trees", "block_trees"}, {"days", "block_days"}, {"sticks", "block_sticks"}, {"outlay", "block_outlay"},
        {"gain", "block_gain"},   {"lost", "block_lost"}, {"old", "block_old_crop"},  {"new", "block_new_crop"}};
    sheet.put(Place("Z", sums - 1), "What a season's blocks come to", Style::workings);
    int row = sums;
    const int column = Place(hidden, 1).column;
    for (const auto& [what, of_blocks] : all) {
        sheet.put(Place("Z", row), what, Style::workings);
        for (int season = 1; season <= season_room; ++season) {
            const std::string chosen = Area(season_column(grid, season), first_line, last_line).text();
            sheet.put(Place(season_column(hidden, season), row),
                      "=IFERROR(SUMPRODUCT(" + chosen + ";" + of_blocks + ");0)", Style::workings);
        }
        sheet.name(std::string("season_") + what, Area({column, row}, {column + season_room - 1, row}));
        ++row;
    }
}

}  // namespace

void arrange(Workbook& book) {
    Sheet& sheet = book.sheet("Arrange", Paper::landscape);
    sheet.columns({0.4, 5.0, 1.4, 1.4, 1.4, 1.4, 1.4, 1.4, 1.4, 1.4, 1.7, 2.4, 1.1, 4.8, 0.4, 5.7, 2.4, 2.4, 2.4,
                   2.4, 2.4, 2.4, 2.4, 2.4, 0.5, 3.0, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6});
    look::opening(
        sheet, look::titled("Which block in which season", "farm"),
        "Type 1 where a block is to be reworked in a season, and see on the right what that uses. Rework > Arrange the "
        "seasons finds the arrangement of most worth; what you pin with an x stays as it is.",
        23);
    sheet
        .put("B3",
             "=IF(COUNTA(block_names)=0;\"\";IF(LEN(farm_entries)>0;\"Something does not fit yet: see sheet "
             "Blocks.\";IFERROR(blocks_done&\" of \"&blocks_known&\" blocks are arranged, worth "
             "\"&FIXED(arranged_worth;0)&\" \"&currency&\" today. \"&limits_said;\"\")))",
             Style::sentence)
        .across(23);
    sheet.row_height(3, 0.8);
    look::band(sheet, "B5", "1: the block is reworked then", 13);
    look::band(sheet, "P5", "What it uses of each limit; what is broken is framed", 9);
    look::headings(sheet, "B6", {"Block"});
    for (int season = 1; season <= season_room; ++season) {
        sheet.put(Place(season_column(grid, season), 6), "=INDEX(season_years;" + std::to_string(season) + ")&\"\"",
                  Style::heading);
    }
    look::headings(sheet, "K6", {"Season", "=\"Worth today, \"&currency", "Pin", "Check"});
    constexpr int by_hand[] = {1, 2, 3, 0, 0, 2};  // the season of each invented block, 0 none
    const int first = Place(grid, 1).column;
    for (int row = first_line; row <= last_line; ++row) {
        const auto at = static_cast<std::size_t>(row - first_line);
        sheet.put(Place("B", row), "=INDEX(block_names;" + std::to_string(at + 1) + ")&\"\"", Style::body);
        const std::string line = Area({first, row}, {first + season_room - 1, row}).text();
        const std::string of = "INDEX({n};" + std::to_string(at + 1) + ")";
        const auto block = [&](const char* name) {
            std::string text = of;
            return text.replace(text.find("{n}"), 3, name);
        };
        for (int season = 1; season <= season_room; ++season) {
            const Place cell(first + season - 1, row);
            if (at < std::size(by_hand) && by_hand[at] == season) {
                sheet.put(cell, 1.0, Style::input, Format::general);
            } else {
                sheet.empty(Area(cell), Style::input, Format::general);
            }
            // Behind: 1 where the command may choose, 0 where nothing may stand, -1 where it leaves the cell alone.
            const std::string year = "N(INDEX(season_years;" + std::to_string(season) + "))";
            sheet.put(Place(season_column(hidden, season), row),
                      at_row("=IF(LEN($B{r})=0;-1;IF(LEN($M{r})>0;-1;IF(OR(" + year + "=0;" + block("block_rule") +
                                 "=\"not\";" + year + "<N(" + block("block_earliest") + ");AND(N(" +
                                 block("block_latest") + ")>0;" + year + ">N(" + block("block_latest") + ")));0;1)))",
                             row),
                      Style::workings);
        }
        sheet.put(
            Place("K", row),
            at_row("=IFERROR(IF(OR(LEN(B{r})=0;AI{r}=0);\"\";INDEX(season_years;MATCH(1;" + line + ";0)));\"\")", row),
            Style::answer, Format::general);
        sheet.put(Place("L", row),
                  at_row("=IFERROR(IF(OR(LEN(B{r})=0;AI{r}=0);\"\";SUMPRODUCT(" + line + ";" + block("block_gain") +
                             "*gain_factor-" + block("block_outlay") + "*outlay_factor-" + block("block_lost") +
                             "*lost_factor));\"\")",
                         row),
                  Style::answer, Format::count);
        sheet.empty(Area(Place("M", row)), Style::input, Format::text);
        const std::string done = "INDEX(season_years;MATCH(1;" + line + ";0))";
        sheet.put(Place("N", row),
                  at_row("=IFERROR(IF(LEN(B{r})=0;IF(COUNTA(" + line +
                             ")=0;\"\";\"No block stands in this line.\");IF(COUNTIF(" + line + ";1)+COUNTIF(" + line +
                             ";0)<COUNTA(" + line +
                             ");\"Type 1, 0 or nothing.\";IF(AI{r}>1;\"Arranged more than once.\";IF(AI{r}=0;IF(" +
                             block("block_rule") + "=\"must\";\"Has to be done, and is not.\";\"\");IF(" +
                             block("block_rule") + "=\"not\";\"Is not to be done.\";IF(N(" + done +
                             ")=0;\"Arranged after the last season.\";IF(N(" + done + ")<N(" + block("block_earliest") +
                             ");\"Before its earliest season.\";IF(AND(N(" + block("block_latest") + ")>0;N(" + done +
                             ")>N(" + block("block_latest") +
                             "));\"After its latest season.\";\"\"))))))));\"An entry of this "
                             "line holds an error.\")",
                         row),
                  Style::check);
        // How often the block is done, and how often it has to be where the command may choose.
        sheet.put(Place("AI", row), "=SUM(" + line + ")", Style::workings);
        sheet.put(Place("AJ", row),
                  at_row("=IF(AND(LEN(B{r})>0;LEN(M{r})=0;" + block("block_rule") + "=\"must\");1;0)", row),
                  Style::workings);
    }
    const Area chosen({first, first_line}, {first + season_room - 1, last_line});
    sheet.valid(chosen, whole(0, 1, "1: the block is reworked in this season"));
    sheet.valid(Area("M", first_line, last_line), any_text("x, where the command is to leave this line as it is"));
    look::mend_where_said(sheet, Area("N", first_line, last_line));
    // What may not be chosen is pale.
    sheet.mark(chosen, Place(hidden, first_line).text() + "=0", Style::done);
    const int behind = Place(hidden, 1).column;
    sheet.put(Place("Z", 6), "May be chosen: 1 yes, 0 no, -1 left alone", Style::workings);
    sheet.put("AI6", "Done", Style::workings);
    sheet.put("AJ6", "At least", Style::workings);
    limit_tables(sheet);
    season_sums(sheet);
    sheet.name("arranged", chosen);
    sheet.name("may_be_chosen", Area({behind, first_line}, {behind + season_room - 1, last_line}));
    sheet.name("times_done", Area("AI", first_line, last_line));
    sheet.name("times_at_least", Area("AJ", first_line, last_line));
    sheet.name("arrange_checks", Area("N", first_line, last_line));
    sheet.put("Z1", "Worth of the arrangement", Style::workings);
    sheet.put("AA1", "=SUM(" + Area("L", first_line, last_line).text() + ")", Style::workings).name("arranged_worth");
    sheet.put("Z2", "Blocks done", Style::workings);
    sheet.put("AA2", "=SUMPRODUCT(--(times_done>0))", Style::workings).name("blocks_done");
    sheet.put("Z3", "Limits broken, and lines", Style::workings);
    sheet.put("AA3", "=SUMPRODUCT(--(limits_left<-0.000001))", Style::workings).name("limits_broken");
    sheet.put("AB3", "=SUMPRODUCT(--(LEN(arrange_checks)>0))", Style::workings).name("lines_broken");
    sheet
        .put(
            "AA4",
            "=IF(limits_broken+lines_broken=0;\"Everything fits its limits.\";IF(limits_broken=0;\"\";IF(limits_broken="
            "1;\"One limit is broken: it is framed on sheet Arrange. \";limits_broken&\" limits are broken: they are "
            "framed on sheet Arrange. \"))&IF(lines_broken=0;\"\";\"See the Checks of its lines.\"))",
            Style::workings)
        .name("limits_said");
    sheet.freeze(6);
    sheet.cursor(Place(grid, first_line));
    sheet.print_area(Area({1, 1}, {24, last_line}));
}

}  // namespace slipbark::compose::farm

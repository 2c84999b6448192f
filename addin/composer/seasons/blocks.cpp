// Blocks: one line a block, most of it pasted from the block's own plan.
#include <array>

#include "composer/entries.hpp"
#include "composer/lines.hpp"
#include "composer/look.hpp"
#include "composer/seasons/farm.hpp"

namespace slipbark::compose::farm {

namespace {

struct Block {
    const char* name;
    const char* variety;
    double trees;
    double days;
    double sticks;
    double outlay;
    double gain;
    double lost;
    double old_crop;
    double new_crop;
    int earliest;  // 0: any
    int latest;
    const char* rule;
};

constexpr auto invented = std::to_array<Block>({
    {"Kestrel Flat, block 1", "Ember Moon pomelo", 310, 14, 840, 11200, 14100, 9400, 21.5, 29.0, 0, 0, ""},
    {"Kestrel Flat, block 2", "Ember Moon pomelo", 420, 19, 1130, 15000, 17600, 12300, 29.0, 39.5, 0, 0, ""},
    {"Kestrel Flat, block 3", "Ember Moon pomelo", 571, 26, 1535, 20400, 24900, 17100, 40.0, 54.0, 0, 0, "must"},
    {"Kestrel Hill, old trees", "Larkspur mandarin", 260, 16, 760, 10900, 6100, 5200, 12.0, 15.5, 0, 0, ""},
    {"Weir Paddock", "Larkspur mandarin", 505, 22, 1340, 17800, 22300, 13900, 34.0, 37.0, 2028, 0, ""},
    {"Weir Corner", "Larkspur mandarin", 190, 9, 510, 6900, 7900, 4800, 12.5, 14.0, 2028, 0, ""},
    {"Quarry Rows", "Saffron Bell orange", 640, 28, 1720, 22600, 21200, 19500, 46.0, 52.0, 0, 2029, ""},
    {"House Block", "Saffron Bell orange", 120, 6, 330, 4500, 1900, 3600, 8.5, 9.0, 0, 0, "not"},
});

}  // namespace

void blocks(Workbook& book) {
    Sheet& sheet = book.sheet("Blocks", Paper::landscape);
    sheet.columns({0.4, 4.6, 3.8, 1.8, 2.0, 2.3, 2.4, 2.4, 2.4, 2.1, 2.1, 1.8, 1.8,
                   1.8, 8.1, 2.3, 2.3, 2.3, 2.3, 2.3, 2.3, 2.3, 2.3, 0.6, 3.0});
    look::opening(
        sheet, look::titled("Which block when", "farm"),
        "One line a block: columns B to K are pasted from the last line of sheet Money of its own rework plan "
        "(values only), or typed. Then fill in sheet Limits, and arrange on sheet Arrange.",
        14);
    sheet.put("B3", look::if_name_error, Style::lead).across(14);
    sheet
        .put(
            "B4",
            "=IF(COUNTA(block_names)=0;\"Fill in the blocks first, one line each, then sheet "
            "Limits.\";IF(LEN(farm_entries)>0;\"Something does not fit yet: the line below says "
            "what.\";IFERROR(blocks_done&\" of \"&blocks_known&\" blocks are arranged, worth "
            "\"&FIXED(arranged_worth;0)&\" \"&currency&\" today against leaving them all. \"&limits_said;\"Some "
            "answers are not there yet: the Checks say why.\")&IF(wood_without_source>0;\" The wood of \"&"
            "wood_without_source&IF(wood_without_source=1;\" block\";\" blocks\")&\" has no source on sheet Limits, so "
            "nothing limits it.\";\"\")))",
            Style::sentence)
        .across(14);
    sheet.row_height(4, 1.0);
    sheet.put("B5", "=IF(COUNTA(block_names)=0;\"\";farm_entries)", Style::check).across(14);
    look::mend_where_said(sheet, "B5");
    look::headings(sheet, Place("B", first_line - 1),
                   {"Block", "New variety", "Trees", "Grafter-days", "Sticks", "=\"Outlay, \"&currency",
                    "=\"Gain a year in full crop, \"&currency", "=\"Lost a year without a crop, \"&currency",
                    "=\"Old crop, \"&crop_unit&\" a year\"", "=\"New crop, \"&crop_unit&\" a year\"", "Earliest season",
                    "Latest season", "Must or not"});
    sheet.row_height(first_line - 1, 1.9);
    const auto column = [](const std::string& letter) { return Area(letter, first_line, last_line); };
    for (int row = first_line; row <= last_line; ++row) {
        const auto at = static_cast<std::size_t>(row - first_line);
        const bool known = at < invented.size();
        const Block one = known ? invented.at(at) : Block{};
        const auto put = [&](const char* letter, const Content& content, Format format) {
            if (known) {
                sheet.put(Place(letter, row), content, Style::input, format);
            } else {
                sheet.empty(Area(Place(letter, row)), Style::input, format);
            }
        };
        const auto year = [](int season) { return season == 0 ? Content{} : Content(static_cast<double>(season)); };
        put("B", known ? Content(std::string(one.name)) : Content{}, Format::text);
        put("C", known ? Content(std::string(one.variety)) : Content{}, Format::text);
        put("D", one.trees, Format::count);
        put("E", one.days, Format::count);
        put("F", one.sticks, Format::count);
        put("G", one.outlay, Format::count);
        put("H", one.gain, Format::count);
        put("I", one.lost, Format::count);
        put("J", one.old_crop, Format::tenth);
        put("K", one.new_crop, Format::tenth);
        put("L", year(one.earliest), Format::general);
        put("M", year(one.latest), Format::general);
        put("N", known && *one.rule != '\0' ? Content(std::string(one.rule)) : Content{}, Format::text);
    }
    sheet.valid(column("B"), any_text("the block's name"));
    sheet.valid(column("C"), any_text("a variety"));
    sheet.valid(column("D"), whole(1, 100000, "trees"));
    sheet.valid(column("E"), number(0, 100000, "days of one grafter"));
    sheet.valid(column("F"), whole(0, 10000000, "sticks"));
    sheet.valid(column("G"), number(0, 1e9, "your money, all that the rework costs until the trees bear"));
    sheet.valid(column("H"), number(-1e9, 1e9, "your money, against leaving the block as it is"));
    sheet.valid(column("I"), number(-1e9, 1e9, "your money, against leaving the block as it is"));
    sheet.valid(column("J"), number(0, 1e6, "as much as the block bears now"));
    sheet.valid(column("K"), number(0, 1e6, "as much as it will bear in full crop"));
    sheet.valid(column("L"), whole(2000, 2120, "the year, or blank"));
    sheet.valid(column("M"), whole(2000, 2120, "the year, or blank"));
    sheet.valid(column("N"), one_of({"must", "not"}, "must: it has to be done; not: never; blank: as it pays"));
    const auto amount = [](const std::string& cell, const std::string& low) { return is_number(cell, low, "1E9"); };
    const auto season = [](const std::string& cell) {
        return "IF(" + cell + "=\"\";TRUE();" + is_whole(cell, "2000", "2120") + ")";
    };
    check_lines(
        sheet, Area({2, first_line}, {14, last_line}), "O",
        {{"AND(ISTEXT(B{r});LEN(B{r})>0;LEN(B{r})<=80)", "Block: give its name, at most 80 letters."},
         {"COUNTIF(block_names;B{r})<2", "Block: another line has the same name."},
         {"LEN(C{r})<=80", "New variety: give its name, at most 80 letters."},
         {is_whole("D{r}", "1", "100000"), "Trees: give a whole number from 1 to 100,000."},
         {is_number("E{r}", "0", "100000"), "Grafter-days: give a number from 0 to 100,000."},
         {is_whole("F{r}", "0", "10000000"), "Sticks: give a whole number from 0 to 10,000,000."},
         {amount("G{r}", "0"), "Outlay: give a number from 0 to 1,000,000,000."},
         {amount("H{r}", "-1E9"), "Gain a year: give a number, below 0 where the new crop earns less."},
         {amount("I{r}", "-1E9"), "Lost a year without a crop: give a number; 0 where nothing is lost."},
         {is_number("J{r}", "0", "1E6"), "Old crop: give a number from 0 to 1,000,000."},
         {is_number("K{r}", "0", "1E6"), "New crop: give a number from 0 to 1,000,000."},
         {season("L{r}"), "Earliest season: give a year such as 2028, or nothing."},
         {season("M{r}"), "Latest season: give a year such as 2030, or nothing."},
         {"IF(AND(ISNUMBER(L{r});ISNUMBER(M{r}));L{r}<=M{r};TRUE())", "The latest season lies before the earliest."},
         {"OR(N{r}=\"\";N{r}=\"must\";N{r}=\"not\")", "Must or not: type must, not, or nothing."},
         {"OR(SUM(P{r}:W{r})=0;ABS(SUM(P{r}:W{r})-F{r})<1E-6)",
          "The sources give \"&SUM(P{r}:W{r})&\" sticks, the block wants \"&F{r}&\"."},
         {"IFERROR(AND(MIN(P{r}:W{r})>=0;COUNT(P{r}:W{r})=8);FALSE())", "Sticks by source: give numbers from 0 on."}},
        "IF(SUMPRODUCT(--(LEN(P{r}:W{r})>0))=0;\"\";\"No block stands in this line.\")");
    // Wood by source follows from the variety; a block that takes it from several is typed over.
    for (int source = 1; source <= source_room; ++source) {
        const std::string letter = season_column("P", source);
        const std::string which = std::to_string(source);
        sheet.put(Place(letter, first_line - 1),
                  "=IF(INDEX(source_names;" + which + ")=\"\";\"\";\"Sticks of \"&INDEX(source_names;" + which + "))",
                  Style::heading);
        sheet.fill_down(column(letter),
                        "=IF(LEN($B{r})=0;\"\";IFERROR(IF(AND(ISNUMBER($F{r});LEN($C{r})>0;INDEX(source_names;" +
                            which + ")=$C{r});$F{r};0);0))",
                        Style::input, Format::count);
        sheet.valid(column(letter), number(0, 1e7, "sticks of this block from this source"));
    }
    sheet
        .put("P5", "By source: follows from the variety, type over it where a block takes wood from several",
             Style::note)
        .across(8);
    sheet.put("Y6", "Sticks without a source", Style::workings);
    sheet.fill_down(column("Y"), "=IF(AND(LEN(B{r})>0;N(F{r})>0;SUM(P{r}:W{r})=0);1;0)", Style::workings);
    sheet.put("Y5", "=SUM(" + column("Y").text() + ")", Style::workings).name("wood_without_source");
    sheet.put("Y4", "=SUMPRODUCT(--(LEN(block_names)>0))", Style::workings).name("blocks_known");
    // One sentence for all sheets, of what does not fit first.
    sheet
        .put("Y3",
             "=IF(LEN(unfit_farm)>0;unfit_farm;IF(SUMPRODUCT(--(LEN(limit_checks)>0))>0;" +
                 entries::first_of("limit_checks") + ";IF(SUMPRODUCT(--(LEN(spread_checks)>0))>0;" +
                 entries::first_of("spread_checks") + ";" + lines_to_correct("Blocks", column("O").text()) + ")))",
             Style::workings)
        .name("farm_entries");
    const std::array<std::pair<const char*, const char*>, 13> names{{{"block_names", "B"},
                                                                     {"block_trees", "D"},
                                                                     {"block_days", "E"},
                                                                     {"block_sticks", "F"},
                                                                     {"block_outlay", "G"},
                                                                     {"block_gain", "H"},
                                                                     {"block_lost", "I"},
                                                                     {"block_old_crop", "J"},
                                                                     {"block_new_crop", "K"},
                                                                     {"block_earliest", "L"},
                                                                     {"block_latest", "M"},
                                                                     {"block_rule", "N"},
                                                                     {"block_check", "O"}}};
    for (const auto& [name, letter] : names) sheet.name(name, column(letter));
    sheet.name("block_wood", Area({16, first_line}, {15 + source_room, last_line}));
    sheet.fold(first_line + 16, last_line);
    sheet.freeze(first_line - 1);
    sheet.cursor(Place("B", first_line));
    sheet.print_area(Area({1, 1}, {15, last_line}));
}

}  // namespace slipbark::compose::farm

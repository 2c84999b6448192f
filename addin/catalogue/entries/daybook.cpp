#include "catalogue/entries/daybook.hpp"

#include "catalogue/entries/common.hpp"
#include "catalogue/language.hpp"

namespace slipbark::catalogue {

namespace {

constexpr ColumnDomain daybook_columns[]{{translatable("date")},  {translatable("what")},   {translatable("row")},
                                         {translatable("trees")}, {translatable("grafts")}, {translatable("live")},
                                         {translatable("lot")},   {translatable("who")},    {translatable("hours")},
                                         {translatable("money")}};

constexpr ColumnDomain words_columns[]{{translatable("own word")}, {translatable("what it means")}};

constexpr Text what_notes = translatable(
    "one line for each thing that happened, in any order; what is \"grafted\", \"counted\", \"regrafted\", \"counted "
    "regrafts\", \"lost\", \"received\", \"no work\", \"paid\", \"closed\" or a stage of the schedule; a note may "
    "follow");

constexpr Argument rows{"rows", translatable("Name of each row of trees"), Unit::text_or_number,
                        texts(translatable("any text or number, no two alike")).depending_on_call()};

constexpr Argument trees{"trees", translatable("Trees planted in each"), Unit::trees,
                         whole(0).length_of("rows").blanks(Blanks::beside_blank)};

// A line that cannot be is left out and never a bad argument.
constexpr Argument daybook_lines{"daybook", translatable("The day-book"), Unit::table,
                                 table_of(daybook_columns).noted(what_notes)};

constexpr Argument on_date{"on_date",
                           translatable("Day of the account: later lines do not count"),
                           Unit::date,
                           dates(),
                           translatable("all lines count"),
                           "46700"};

constexpr Argument lots{"lots",
                        translatable("Names of the lots"),
                        Unit::text_or_number,
                        texts(translatable("any text or number")).blanks(Blanks::skipped).depending_on_call(),
                        translatable("any lot is right"),
                        R"({"A"|"B"})"};

constexpr Argument own_words{
    "words",
    translatable("What words of your own mean"),
    Unit::table,
    table_of(words_columns)
        .noted(translatable("the second is a word of the day-book, or \"cut stage\", \"graft stage\" or \"look stage\" "
                            "for a stage of the schedule")),
    translatable("English words and the names of built-in stages"),
    R"({"injertado";"grafted"})"};

constexpr Argument grafts_per_day{"grafts_per_day", translatable("Grafts that one person places in a day"),
                                  Unit::grafts_a_day, from_to(0.001, ten_million)};

constexpr Argument crew{"crew", translatable("People who graft"), Unit::people, whole(1), 1.0};

constexpr Argument grafts_per_stick{"grafts_per_stick", translatable("Grafts that one stick gives"), Unit::grafts,
                                    whole(1, 1000), 1.0};

constexpr Text bookkeeping = translatable("Arithmetic; common practice of bookkeeping");

// A row grafted with 80 grafts on 20 trees, looked at 24 days later.
constexpr std::string_view two_lines =
    R"({46636;"grafted";"R1";20;80;"";"A";"Ana";8;""|46660;"counted";"R1";"";"";68;"";"";1;""})";

#define EXAMPLE(name, more)                                                                                                  \
    "REWORK." name                                                                                                           \
    R"(({"R1"|"R2"}; {20|30}; {46636;"grafted";"R1";20;80;"";"A";"Ana";8;""|46660;"counted";"R1";"";"";68;"";"";1;""})" more \
    ")"

}  // namespace

Table remarks_in_cells(const std::vector<std::optional<daybook::Remark>>& remarks) {
    Table table(2, {});
    table.cells.reserve(2 * std::max<std::size_t>(1, remarks.size()));
    for (const auto& remark : remarks) {
        table.cells.emplace_back(remark && remark->left_out ? 1.0 : 0.0);
        table.cells.emplace_back(remark ? menu_language().translated(remark->sentence) : "");
    }
    if (remarks.empty()) table.cells = {0.0, ""};
    return table;
}

namespace {

/// Puts a table into another, its first column at `column`.
void put(Table& table, const Table& part, std::size_t column) {
    for (std::size_t row = 0; row < part.rows(); ++row) {
        for (std::size_t at = 0; at < part.columns; ++at) {
            table.cells[row * table.columns + column + at] = part.at(row, at);
        }
    }
}

}  // namespace

Table accounts_in_cells(const daybook::AllAccounts& all) {
    std::vector<Table> parts;
    if (all.part != daybook::Part::groups) parts = {in_cells(all.rows), in_cells(all.looks)};
    if (all.part != daybook::Part::rows) {
        for (const auto* take : {&all.by_lot, &all.by_grafter, &all.by_age}) parts.push_back(in_cells(*take));
        parts.push_back(in_cells(all.lots));
        parts.push_back(in_cells(all.work));
        parts.push_back(all.pace ? in_cells(*all.pace) : Table(4, {}));
    }
    if (all.part != daybook::Part::groups) parts.push_back(all.done);
    // As long as what was given, so that an array formula of that size is filled.
    std::size_t lines = std::max<std::size_t>(1, all.rows_given);
    std::size_t columns = all.stages_given > all.done.columns ? all.stages_given - all.done.columns : 0;
    for (const Table& part : parts) {
        lines = std::max(lines, part.rows());
        columns += part.columns;
    }
    Table table(columns, std::vector<Cell>(lines * columns));
    std::size_t column = 0;
    for (const Table& part : parts) {
        put(table, part, column);
        column += part.columns;
    }
    return table;
}

Area daybook_area() {
    return {
        "daybook",
        translatable("Day-book"),
        {
            entry("rowAccount", SLIPBARK_FUNCTION(daybook::row_account),
                  {.does = translatable("State of each row of trees, from a day-book."),
                   .gives = translatable(
                       "one row of 15 for each of rows: trees left, trees grafted, trees lost, first and last day of "
                       "grafting, grafts placed, grafts left, looked at, live, last look, regrafts placed, regrafts "
                       "left, regrafts looked at, regrafts live, lots"),
                   .example = EXAMPLE("ROWACCOUNT", ""),
                   .shows = "20",
                   .source = bookkeeping},
                  {rows, trees, daybook_lines, on_date, lots, schedule, own_words}),
            entry(
                "takeAccount", SLIPBARK_FUNCTION(daybook::take_account),
                {.does = translatable("Take by lot, grafter, day of grafting, age at the look or row, from a "
                                      "day-book."),
                 .gives = translatable(
                     "one row of 11 for each group: group, grafts placed, grafts left, looked at, live, take, and the "
                     "same of regrafts; blank for counts of several groups together"),
                 .example = EXAMPLE("TAKEACCOUNT", "; \"lot\""),
                 .shows = "A",
                 .no_answer = translatable("Nothing has been grafted or counted."),
                 .source = bookkeeping},
                {rows,
                 trees,
                 daybook_lines,
                 {"by", translatable("What the groups are"), Unit::text, one_of(keywords<daybook::By>)},
                 on_date,
                 lots,
                 schedule,
                 own_words}),
            entry("lotAccount", SLIPBARK_FUNCTION(daybook::lot_account),
                  {.does = translatable("Sticks received and used of each lot, from a day-book."),
                   .gives = translatable("one row of 9 for each lot: lot, sticks received, used, left, first received, "
                                         "last used, trees grafted, grafts placed, regrafts placed"),
                   .example = EXAMPLE("LOTACCOUNT", "; 4"),
                   .shows = "A",
                   .no_answer = translatable("No lot has been received or grafted."),
                   .source = bookkeeping},
                  {rows, trees, daybook_lines, grafts_per_stick, on_date, lots, schedule, own_words}),
            entry("doneAccount", SLIPBARK_FUNCTION(daybook::done_account),
                  {.does = translatable("What is done in each row, stage by stage, from a day-book; DUELIST takes it."),
                   .gives = translatable("one row for each of rows, one column a stage: the day, \"x\" where it is not "
                                         "known, or blank"),
                   .example = EXAMPLE("DONEACCOUNT", ""),
                   .shows = "x",
                   .source = bookkeeping},
                  {rows, trees, daybook_lines, on_date, lots, schedule, own_words}),
            entry("workAccount", SLIPBARK_FUNCTION(daybook::work_account),
                  {.does = translatable("Hours and money by month or year and by what was done, from a day-book."),
                   .gives = translatable("one row of 4 for each: first day of the period, what, hours, money"),
                   .example = EXAMPLE("WORKACCOUNT", ""),
                   .shows = "2027-09-01",
                   .no_answer = translatable("No line has hours or money."),
                   .source = translatable("Arithmetic; months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4)")},
                  {rows,
                   trees,
                   daybook_lines,
                   {"step", translatable("Length of a period"), Unit::text, one_of(keywords<daybook::Step>), "month"},
                   {"from_date", translatable("First day of one of the periods"), Unit::date, dates(),
                    translatable("first of the month of the first line"), "46631"},
                   on_date,
                   lots,
                   schedule,
                   own_words}),
            entry("paceAccount", SLIPBARK_FUNCTION(daybook::pace_account),
                  {.does = translatable("Grafts that a person places in a day, from a day-book and the plan."),
                   .gives = translatable("1 row of 4: pace to plan with (the plan's, until there are three days), pace "
                                         "of the day-book, days of grafting, person-days"),
                   .example = EXAMPLE("PACEACCOUNT", "; 110"),
                   .shows = "100",
                   .source = translatable("Assumption of this program: three days are enough")},
                  {rows, trees, daybook_lines, grafts_per_day, crew, on_date, lots, schedule, own_words}),
            entry(
                "allAccounts", SLIPBARK_FUNCTION(daybook::all_accounts),
                {.does = translatable("All accounts of a day-book at once, for a form that shows them all."),
                 .gives = translatable(
                     "side by side: of the rows ROWACCOUNT (15 columns), the first three days of counting, live and "
                     "looked at on them, people who grafted, their name, day of closing (12); of groups TAKEACCOUNT by "
                     "lot, grafter and age (11 each), LOTACCOUNT (9), WORKACCOUNT by month (4), PACEACCOUNT (4); of "
                     "the rows "
                     "DONEACCOUNT, a column for each row of the schedule"),
                 .example = EXAMPLE("ALLACCOUNTS", ""),
                 .shows = "20",
                 .source = bookkeeping},
                {rows,
                 trees,
                 daybook_lines,
                 {"grafts_per_day", translatable("Grafts that one person places in a day"), Unit::grafts_a_day,
                  from_to(0.001, ten_million), translatable("no pace"), "110"},
                 crew,
                 grafts_per_stick,
                 on_date,
                 lots,
                 schedule,
                 own_words,
                 {"part", translatable("Which accounts"), Unit::text, one_of(keywords<daybook::Part>), "all"}}),
            entry(
                "daybookCheck", SLIPBARK_FUNCTION(daybook::checks),
                {.does = translatable("What does not fit in a day-book, line by line."),
                 .gives = translatable("one row of 2 for each line: 1 where it is left out of all accounts, else 0; a "
                                       "sentence that says why, or what to correct"),
                 .example = EXAMPLE("DAYBOOKCHECK", ""),
                 .shows = "0",
                 .source = bookkeeping},
                {rows, trees, daybook_lines, on_date, lots, schedule, own_words}),
            entry("rowDays", SLIPBARK_FUNCTION(daybook::row_days),
                  {.does = translatable("First and last day of grafting of each row that is left, one row after the "
                                        "other."),
                   .gives = translatable("one row of 2 for each of rows: first day, last day; blank without grafts"),
                   .example = R"(REWORK.ROWDAYS({"R1"|"R2"}; {380|300}; DATE(2028;3;20); 95; 3))",
                   .shows = "2028-03-20",
                   .source = translatable("WORKDAY.INTL (LibreOffice Help), but the start date counts; arithmetic")},
                  {{"rows", translatable("Name of each row of trees, in the order of work"), Unit::text_or_number,
                    texts(translatable("any text or number")).blanks(Blanks::skipped).depending_on_call()},
                   {"grafts", translatable("Grafts left to place in each"), Unit::grafts,
                    whole(0).length_of("rows").blanks(Blanks::skipped)},
                   {"start_date", translatable("First day of the work, counted if it is worked"), Unit::date,
                    dates().depending_on_call()},
                   grafts_per_day,
                   crew,
                   days_off,
                   holidays,
                   {"daybook", translatable("A day-book, in which no work is done on days of \"no work\""), Unit::table,
                    table_of(daybook_columns), translatable("none"), two_lines},
                   own_words}),
            entry("takeRevised", SLIPBARK_FUNCTION(daybook::take_revised),
                  {.does = translatable("Take to plan with once some grafts are counted: expectation and count joined, "
                                        "each by its weight."),
                   .gives = translatable("1 row of 3: take, low, high"),
                   .example = "REWORK.TAKEREVISED(0.8; 30; 60)",
                   .shows = "0.575",
                   .source = translatable("Posterior of the beta-binomial: Gelman et al., Bayesian Data Analysis, 3rd "
                                          "ed. 2013, section 2.4 (from memory); design effect: Kish, Survey Sampling, "
                                          "1965")},
                  {{"expected", translatable("Take expected before counting"), Unit::fraction, from_to(0, 1)},
                   {"live", translatable("Grafts alive"), Unit::grafts, whole(0).at_most("looked")},
                   {"looked", translatable("Grafts looked at"), Unit::grafts, whole(0)},
                   {"weight", translatable("Grafts that the expectation counts as (the default is an assumption)"),
                    Unit::grafts, above_to(0, ten_million), 20.0},
                   {"grafts_per_tree", translatable("Grafts on each tree looked at"), Unit::grafts, from_to(1, 1000),
                    1.0},
                   clustering,
                   confidence(translatable("Confidence of the limits"))}),
        }};
}

}  // namespace slipbark::catalogue

#include "catalogue/entries/calendar.hpp"

#include <algorithm>

#include "catalogue/entries/common.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::catalogue {

namespace {

constexpr double edges[]{-1, 0, 1};

// Stages lie years after their day, or weeks before it; the end of a work after its start.
constexpr Argument graft_date{"graft_date", translatable("Day of grafting, from which the schedule counts"), Unit::date,
                              dates().depending_on_call()};
constexpr Argument start_date{"start_date", translatable("First day of the work, counted if it is worked"), Unit::date,
                              dates().depending_on_call()};
constexpr Argument grafts_per_day{"grafts_per_day", translatable("Grafts that one person places in a day"),
                                  Unit::grafts_a_day, from_to(0.001, ten_million)};
constexpr Argument crew{"crew", translatable("People who graft"), Unit::people, whole(1), 1.0};

constexpr Argument done{"done", translatable("What was done: one row for each row of trees, one column a stage"),
                        Unit::date,
                        // As many rows and columns as there are rows of trees and stages.
                        dates()
                            .blanks(Blanks::skipped)
                            .depending_on_call()
                            .noted(translatable("blank: not done; a text: done, date not recorded"))};

constexpr Text months =
    translatable("Months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4); stages as their table says");

/// The stages of the schedule that is taken where none is given.
std::vector<std::string> stage_names() {
    std::vector<std::string> names;
    for (const defaults::Stage& stage : defaults::stages()) names.emplace_back(stage.name);
    return names;
}

std::vector<std::string> due_words() { return {"overdue", "due"}; }

}  // namespace

std::vector<std::string> schedule_texts() {
    std::vector<std::string> all;
    for (const defaults::Schedule& built_in : defaults::schedules()) {
        for (const defaults::Stage& stage : built_in.stages) {
            for (const std::string_view text : {stage.name, stage.sign, stage.source}) {
                if (std::find(all.begin(), all.end(), text) == all.end()) all.emplace_back(text);
            }
        }
    }
    return all;
}

Area calendar_area() {
    return {
        "calendar",
        translatable("Calendar"),
        {
            entry("milestone", SLIPBARK_FUNCTION(calendar::milestone),
                  {.does = translatable("Date of one stage of the rework, counted from the graft date."),
                   .gives = translatable("date"),
                   .example = "REWORK.MILESTONE(DATE(2027;9;6); \"Nurse limb off\")",
                   .shows = "2029-03-06",
                   .source = months},
                  {graft_date,
                   {.name = "stage",
                    .meaning = translatable("Name of the stage, or its row in the schedule"),
                    .unit = Unit::text_or_number,
                    .range = texts(translatable("a stage of the schedule; case and surrounding spaces are ignored")),
                    .words = stage_names,
                    .unless = "schedule"},
                   {"edge", translatable("Which of its dates"), Unit::text_or_number,
                    texts(translatable("\"earliest\", \"target\" or \"latest\", or -1, 0 or 1 for these"), edges),
                    "target"},
                   schedule}),
            entry("schedule", SLIPBARK_FUNCTION(calendar::schedule),
                  {.does = translatable("Dates of all stages of the rework, a row for each."),
                   .gives = translatable("table of stage, earliest date, target date, latest date, sign to look for"),
                   .example = "REWORK.SCHEDULE(DATE(2027;9;6))",
                   .shows = "Cut back and paint",
                   .source = months},
                  {graft_date, schedule}),
            entry("stageDue", SLIPBARK_FUNCTION(calendar::stage_due),
                  {.does = translatable("Stage that is due on a day: the first one with its latest date not yet past."),
                   .gives = translatable("name of the stage, \"\" after the last"),
                   .example = "REWORK.STAGEDUE(DATE(2027;9;6); DATE(2027;9;20))",
                   .shows = "First look under the bag",
                   .source = months},
                  {graft_date, {"on_date", translatable("Day to look up"), Unit::date, dates()}, schedule}),
            entry("harvestDate", SLIPBARK_FUNCTION(calendar::harvest_date),
                  {.does = translatable("First day of the first harvest, in the first harvest month that begins once "
                                        "the grafts are old enough."),
                   .gives = translatable("date"),
                   .example = "REWORK.HARVESTDATE(DATE(2027;9;6); 5; 30)",
                   .shows = "2030-05-01",
                   .source = translatable("Months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4); arithmetic")},
                  {graft_date,
                   {"harvest_month", translatable("Month in which the harvest begins"), Unit::code,
                    whole(1, 12).noted(translatable("1 is January"))},
                   {"months", translatable("Minimum age of the grafts at their first harvest"), Unit::months,
                    whole(0, 1200), 0.0}}),
            entry("dueList", SLIPBARK_FUNCTION(calendar::due_list),
                  {.does =
                       translatable("What to do where: the stages of each row or block that are due and not done yet."),
                   .gives = translatable("one row of 7 for each item and stage, by target date: item, stage, earliest, "
                                         "target, latest, \"overdue\" or \"due\", sign to look for"),
                   .example = R"(REWORK.DUELIST({"Row 1"|"Row 2"}; {46636|46643}; DATE(2027;9;20); DATE(2027;9;26); )"
                              R"({"Look";14;18;21;"d";"buds green"|"Air";4;5;6;"w";"shoots"}))",
                   .shows = "Row 1",
                   .no_answer = translatable("Nothing is due by to_date."),
                   .source = months,
                   .words = {due_words, AnswerWords::In::table}},
                  {{"items", translatable("Name of each row of trees, or of each block"), Unit::text_or_number,
                    texts(translatable("any text or number")).blanks(Blanks::beside_blank).depending_on_call()},
                   {"graft_dates", translatable("Day of grafting of each"), Unit::date,
                    dates().length_of("items").blanks(Blanks::not_yet).depending_on_call()},
                   {"from_date", translatable("First day to list"), Unit::date, dates()},
                   {"to_date", translatable("Last day to list"), Unit::date, dates().at_least("from_date")},
                   schedule,
                   {"done", done.meaning, Unit::date, done.range, translatable("nothing is done"),
                    R"({"";""|46657;"x"})"}}),
            entry(
                "ownSchedule", SLIPBARK_FUNCTION(calendar::own_schedule),
                {.does =
                     translatable("Schedule from your own records: how many days after grafting each stage was done."),
                 .gives = translatable("a schedule, one row of 8 for each stage: stage, earliest, median and latest in "
                                       "days, between which the next record is expected, \"d\", sign, number of "
                                       "records, blank; a stage with fewer than 3 records keeps its row"),
                 .example = R"(REWORK.OWNSCHEDULE({46650|46657|46664}; {46675|46688|46692}; )"
                            R"({"unwrap";20;30;40;"d";"shoots press"}))",
                 .shows = "unwrap",
                 .source = translatable("Bounds for the next record: Hyndman & Fan, American Statistician 50:361-365, "
                                        "1996, type 6; where there are too few records, prediction interval of the "
                                        "normal distribution; median type 7"),
                  .words = {schedule_texts, AnswerWords::In::list}},
                {{"graft_dates", translatable("Day of grafting of each row"), Unit::date,
                  dates().blanks(Blanks::skipped).depending_on_call()},
                 done,
                 schedule,
                 {"low", translatable("Share of next records before the earliest day"), Unit::fraction, from_to(0, 0.5),
                  0.1},
                 {"high", translatable("Share of next records up to the latest day"), Unit::fraction, from_to(0.5, 1),
                  0.9}}),
            entry("workload", SLIPBARK_FUNCTION(calendar::workload),
                  {.does =
                       translatable("Hours of work in each week, month or year, with every stage on its target date."),
                   .gives = translatable("hours, one column with a row for each period"),
                   .example = R"(REWORK.WORKLOAD({46636|46643}; {120|80}; {1.5|4}; DATE(2027;9;20); 4; "week"; )"
                              R"({"Look";14;18;21;"d";"buds green"|"Air";4;5;6;"w";"shoots"}))",
                   .shows = "3",
                   .source = translatable("Trees x minutes / 60 on the target dates of SCHEDULE")},
                  {{"graft_dates", translatable("Day of grafting of each row or block"), Unit::date,
                    dates().blanks(Blanks::not_yet).depending_on_call()},
                   {"trees", translatable("Trees of each"), Unit::trees, whole(0).length_of("graft_dates")},
                   {"minutes", translatable("Minutes for one tree, one cell for each stage"), Unit::minutes,
                    from_to(0, 100'000).blanks(Blanks::skipped).noted(translatable("blank is 0")).depending_on_call()},
                   {"from_date", translatable("First day of the first period"), Unit::date, dates()},
                   {"periods", translatable("Number of periods"), Unit::periods, whole(1, 1200)},
                   {"step", translatable("Length of a period"), Unit::text, one_of(keywords<calendar::Step>), "week"},
                   schedule}),
            entry("crewDays", SLIPBARK_FUNCTION(calendar::crew_days),
                  {.does = translatable("Whole working days that a crew needs for its grafts."),
                   .gives = translatable("days, whole"),
                   .example = "REWORK.CREWDAYS(3200; 120; 4)",
                   .shows = "7",
                   .source = translatable("Arithmetic; common practice")},
                  {{"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(0)}, grafts_per_day, crew}),
            entry("crewFinish", SLIPBARK_FUNCTION(calendar::crew_finish),
                  {.does =
                       translatable("Date on which a crew places the last graft, not counting days off and holidays."),
                   .gives = translatable("date"),
                   .example = "REWORK.CREWFINISH(DATE(2027;9;6); 3200; 120; 4)",
                   .shows = "2027-09-14",
                   .source = translatable("Calc's WORKDAY.INTL (LibreOffice Help), but the start date counts")},
                  {start_date,
                   {"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(1)},
                   grafts_per_day,
                   crew,
                   days_off,
                   holidays}),
            entry("crewSize", SLIPBARK_FUNCTION(calendar::crew_size),
                  {.does = translatable("Smallest crew that places all grafts by a date."),
                   .gives = translatable("people, whole"),
                   .example = "REWORK.CREWSIZE(DATE(2027;9;6); DATE(2027;9;10); 3200; 120)",
                   .shows = "6",
                   .no_answer = translatable("No day from start_date to end_date is worked."),
                   .source = translatable("Calc's NETWORKDAYS.INTL (LibreOffice Help) for the days; arithmetic")},
                  {start_date,
                   {"end_date", translatable("Last day of the work, counted if it is worked"), Unit::date,
                    dates().at_least("start_date")},
                   {"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(0)},
                   grafts_per_day,
                   days_off,
                   holidays}),
        }};
}

}  // namespace slipbark::catalogue

#include "slipbark/calendar.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr double edges[]{-1, 0, 1};

constexpr Argument graft_date{"graft_date", translatable("Day of grafting, from which the schedule counts"), Unit::date,
                              dates()};
constexpr Argument start_date{"start_date", translatable("First day of the work, counted if it is worked"), Unit::date,
                              dates()};
constexpr Argument grafts_per_day{"grafts_per_day", translatable("Grafts that one person places in a day"),
                                  Unit::grafts_a_day, from_to(0.001, ten_million)};
constexpr Argument crew{"crew", translatable("People who graft"), Unit::people, whole(1), 1.0};

constexpr Text months =
    translatable("Months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4); stages as their table says");

}  // namespace

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
                   {"stage", translatable("Name of the stage, or its row in the schedule"), Unit::text_or_number,
                    texts(translatable("a stage of the schedule; case and blanks around it do not matter"))},
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
                  {.does = translatable("Stage that is due on a day: the first whose latest date has not passed."),
                   .gives = translatable("name of the stage, \"\" after the last"),
                   .example = "REWORK.STAGEDUE(DATE(2027;9;6); DATE(2027;9;20))",
                   .shows = "First look under the bag",
                   .source = months},
                  {graft_date, {"on_date", translatable("Day asked for"), Unit::date, dates()}, schedule}),
            entry(
                "harvestDate", SLIPBARK_FUNCTION(calendar::harvest_date),
                {.does = translatable("First day of the first harvest: of the first harvest month that begins when the "
                                      "graft is old enough."),
                 .gives = translatable("date"),
                 .example = "REWORK.HARVESTDATE(DATE(2027;9;6); 5; 30)",
                 .shows = "2030-05-01",
                 .source = translatable("Months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4); arithmetic")},
                {graft_date,
                 {"harvest_month", translatable("Month in which the harvest begins"), Unit::code,
                  whole(1, 12).noted(translatable("1 is January"))},
                 {"months", translatable("Least age of the graft at its first harvest"), Unit::months, whole(0, 1200),
                  0.0}}),
            entry("crewDays", SLIPBARK_FUNCTION(calendar::crew_days),
                  {.does = translatable("Whole working days that a crew needs for its grafts."),
                   .gives = translatable("days, whole"),
                   .example = "REWORK.CREWDAYS(3200; 120; 4)",
                   .shows = "7",
                   .source = translatable("Arithmetic; common practice")},
                  {{"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(0)}, grafts_per_day, crew}),
            entry("crewFinish", SLIPBARK_FUNCTION(calendar::crew_finish),
                  {.does = translatable("Date on which a crew places the last graft, days off and holidays left out."),
                   .gives = translatable("date"),
                   .example = "REWORK.CREWFINISH(DATE(2027;9;6); 3200; 120; 4)",
                   .shows = "2027-09-14",
                   .source = translatable("The host's WORKDAY.INTL (LibreOffice Help), but the start date counts")},
                  {start_date,
                   {"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(1)},
                   grafts_per_day,
                   crew,
                   days_off,
                   holidays}),
            entry("crewSize", SLIPBARK_FUNCTION(calendar::crew_size),
                  {.does = translatable("Fewest people who place all grafts by a date."),
                   .gives = translatable("people, whole"),
                   .example = "REWORK.CREWSIZE(DATE(2027;9;6); DATE(2027;9;10); 3200; 120)",
                   .shows = "6",
                   .no_answer = translatable("No day from start_date to end_date is worked."),
                   .source = translatable("The host's NETWORKDAYS.INTL (LibreOffice Help) for the days; arithmetic")},
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

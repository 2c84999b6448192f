#include "slipbark/calendar.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument graft_date{"graft_date", "Day of grafting, from which the schedule counts", "date",
                              "years 1900 to 9999"};
constexpr Argument schedule{"schedule", "Your own stages, in order and without a heading row",
                            "table of stage, earliest, target, latest, unit (d, w or m) and sign",
                            R"(whole offsets, earliest <= target <= latest, default TABLE("schedule"))"};
constexpr Argument start_date{"start_date", "First day of the work, counted if it is worked", "date",
                              "years 1900 to 9999"};
constexpr Argument grafts_per_day{"grafts_per_day", "Grafts that one person places in a day", "grafts per day",
                                  "0.001 to 10,000,000"};
constexpr Argument crew{"crew", "People who graft", "people", "whole, 1 to 10,000,000, default 1"};
constexpr Argument days_off{"days_off", "Days of the week not worked, as in the host's WORKDAY.INTL",
                            "text of seven digits from Monday, 1 = not worked, or a code",
                            R"("0000011" as a text, or 1 to 7 or 11 to 17, default "0000011")"};
constexpr Argument holidays{"holidays", "Further days off, in any order", "dates",
                            "blank cells are skipped, default none"};

constexpr std::string_view months =
    "Months as in EDATE of OpenFormula (OASIS ODF 1.3 part 4); stages as their table says";

}  // namespace

Area calendar_area() {
    return {"calendar",
            "Calendar",
            {
                entry("milestone", SLIPBARK_FUNCTION(calendar::milestone),
                      {.does = "Date of one stage of the rework, counted from the graft date.",
                       .gives = "date",
                       .example = "REWORK.MILESTONE(DATE(2027;9;6); \"Nurse limb off\")",
                       .shows = "2029-03-06",
                       .source = months},
                      {graft_date,
                       {"stage", "Name of the stage, or its row in the schedule", "text or row",
                        "a stage of the schedule; case and blanks around it do not matter"},
                       {"edge", "Which of its dates", "code", "-1 earliest, 0 target, 1 latest, default 0"},
                       schedule}),
                entry("schedule", SLIPBARK_FUNCTION(calendar::schedule),
                      {.does = "Dates of all stages of the rework, a row for each.",
                       .gives = "table of stage, earliest date, target date, latest date, sign to look for",
                       .example = "REWORK.SCHEDULE(DATE(2027;9;6))",
                       .shows = "Cut back and paint",
                       .source = months},
                      {graft_date, schedule}),
                entry("stageDue", SLIPBARK_FUNCTION(calendar::stage_due),
                      {.does = "Stage that is due on a day: the first whose latest date has not passed.",
                       .gives = "name of the stage, \"\" after the last",
                       .example = "REWORK.STAGEDUE(DATE(2027;9;6); DATE(2027;9;20))",
                       .shows = "First look under the bag",
                       .source = months},
                      {graft_date, {"on_date", "Day asked for", "date", "years 1900 to 9999"}, schedule}),
                entry("crewDays", SLIPBARK_FUNCTION(calendar::crew_days),
                      {.does = "Whole working days that a crew needs for its grafts.",
                       .gives = "days, whole",
                       .example = "REWORK.CREWDAYS(3200; 120; 4)",
                       .shows = "7",
                       .source = "Arithmetic; common practice"},
                      {{"grafts", "Grafts to be placed", "grafts", "whole, 0 to 10,000,000"}, grafts_per_day, crew}),
                entry("crewFinish", SLIPBARK_FUNCTION(calendar::crew_finish),
                      {.does = "Date on which a crew places the last graft, days off and holidays left out.",
                       .gives = "date",
                       .example = "REWORK.CREWFINISH(DATE(2027;9;6); 3200; 120; 4)",
                       .shows = "2027-09-14",
                       .source = "The host's WORKDAY.INTL (LibreOffice Help), but the start date counts"},
                      {start_date,
                       {"grafts", "Grafts to be placed", "grafts", "whole, 1 to 10,000,000"},
                       grafts_per_day,
                       crew,
                       days_off,
                       holidays}),
                entry("crewSize", SLIPBARK_FUNCTION(calendar::crew_size),
                      {.does = "Fewest people who place all grafts by a date.",
                       .gives = "people, whole",
                       .example = "REWORK.CREWSIZE(DATE(2027;9;6); DATE(2027;9;10); 3200; 120)",
                       .shows = "6",
                       .no_answer = "No day from start_date to end_date is worked.",
                       .source = "The host's NETWORKDAYS.INTL (LibreOffice Help) for the days; arithmetic"},
                      {start_date,
                       {"end_date", "Last day of the work, counted if it is worked", "date", "start_date or later"},
                       {"grafts", "Grafts to be placed", "grafts", "whole, 0 to 10,000,000"},
                       grafts_per_day,
                       days_off,
                       holidays}),
            }};
}

}  // namespace slipbark::catalogue

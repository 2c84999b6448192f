#include "slipbark/heat.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument lows{"lows", translatable("Lowest temperature of each day, a day per row"), Unit::temperature,
                        from_to(-1000, 1000).blanks(Blanks::at_end).depending_on_call()};
constexpr Argument highs{
    "highs", translatable("Highest temperature of each day"), Unit::temperature,
    from_to(-1000, 1000).length_of("lows").depending_on_call().noted(translatable("not below the low of its day"))};
constexpr Argument base{"base", translatable("Temperature below which nothing grows"), Unit::temperature,
                        from_to(-1000, 1000)};
constexpr Argument upper{"upper",
                         translatable("Temperature of the cutoff"),
                         Unit::temperature,
                         above_to(-1000, 1000).at_least("base"),
                         translatable("none"),
                         "35"};
constexpr Argument method{"method", translatable("How the temperature runs through the day"), Unit::text,
                          one_of(keywords<heat::Method>), "sine"};
constexpr Argument cutoff{"cutoff",
                          translatable("Growth above upper: stays constant, stops, or slows as fast as it rose"),
                          Unit::text, one_of(keywords<heat::Cutoff>), "horizontal"};

constexpr Text source =
    translatable("Zalom et al. (1983) Degree-days, UC Leaflet 21373; Baskerville & Emin (1969) Ecology 50:514-517");

}  // namespace

Area heat_area() {
    return {
        "heat",
        translatable("Heat"),
        {
            entry("heatUnits", SLIPBARK_FUNCTION(heat::units),
                  {.does = translatable("Degree-days of one day, from its lowest and highest temperature."),
                   .gives = translatable("degree-days; below 0 only with an intermediate cutoff"),
                   .example = "REWORK.HEATUNITS(5; 20; 13; 35; \"triangle\")",
                   .shows = "1.6333333333333333",
                   .source = source},
                  {{"low", translatable("Lowest temperature of the day"), Unit::temperature, from_to(-1000, 1000)},
                   {"high", translatable("Highest temperature of the day"), Unit::temperature,
                    from_to(-1000, 1000).at_least("low")},
                   base,
                   upper,
                   method,
                   cutoff}),
            entry("heatSum", SLIPBARK_FUNCTION(heat::sum),
                  {.does = translatable("Degree-days of a series of days, from their lowest and highest temperatures."),
                   .gives = translatable("degree-days, 0 without any reading"),
                   .example = "REWORK.HEATSUM({10|12|14}; {20|22|24}; 10)",
                   .shows = "21",
                   .source = source},
                  {lows, highs, base, upper, method, cutoff}),
            entry("heatDate", SLIPBARK_FUNCTION(heat::date),
                  {.does = translatable("First date on which the heat since a date reaches a target."),
                   .gives = translatable("date"),
                   .example = "REWORK.HEATDATE({46271|46272|46273}; {10|12|14}; {20|22|24}; 10; 12)",
                   .shows = "2026-09-07",
                   .no_answer = translatable("The readings end before the target is reached."),
                   .source = source},
                  {{"dates", translatable("Date of each day"), Unit::date,
                    dates().length_of("lows").depending_on_call().noted(
                        translatable("each one day after the one above"))},
                   lows,
                   highs,
                   base,
                   {"target", translatable("Degree-days to reach"), Unit::degree_days, above_to(0, 1E12)},
                   {"from_date", translatable("First day with heat that counts"), Unit::date,
                    dates().depending_on_call().noted(translatable("not before the first of dates")),
                    translatable("the first of dates"), "46271"},
                   upper,
                   method,
                   cutoff}),
        }};
}

}  // namespace slipbark::catalogue

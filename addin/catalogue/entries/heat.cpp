#include "slipbark/heat.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument lows{"lows", "Lowest temperature of each day, a day per row", "degrees, one unit throughout",
                        "-1000 to 1000; blank rows only at the end"};
constexpr Argument highs{"highs", "Highest temperature of each day", "degrees, one unit throughout",
                         "low of the day to 1000; a range as long as lows"};
constexpr Argument base{"base", "Temperature below which nothing happens", "degrees, one unit throughout",
                        "-1000 to 1000"};
constexpr Argument upper{"upper", "Temperature of the cutoff", "degrees, one unit throughout",
                         "above base to 1000, default none"};
constexpr Argument method{"method", "How the temperature runs through the day", "text",
                          R"("sine", "triangle" or "average", default "sine")"};
constexpr Argument cutoff{"cutoff", "What happens above upper: stays, stops, or falls as fast as it rose", "text",
                          R"("horizontal", "vertical" or "intermediate", default "horizontal")"};

constexpr std::string_view source =
    "Zalom et al. (1983) Degree-days, UC Leaflet 21373; Baskerville & Emin (1969) Ecology 50:514-517";

}  // namespace

Area heat_area() {
    return {"heat",
            "Heat",
            {
                entry("heatUnits", SLIPBARK_FUNCTION(heat::units),
                      {.does = "Degree-days of one day, from its lowest and highest temperature.",
                       .gives = "degree-days; below 0 only with an intermediate cutoff",
                       .example = "REWORK.HEATUNITS(5; 20; 13; 35; \"triangle\")",
                       .shows = "1.6333333333333333",
                       .source = source},
                      {{"low", "Lowest temperature of the day", "degrees, one unit throughout", "-1000 to 1000"},
                       {"high", "Highest temperature of the day", "degrees, one unit throughout", "low to 1000"},
                       base,
                       upper,
                       method,
                       cutoff}),
                entry("heatSum", SLIPBARK_FUNCTION(heat::sum),
                      {.does = "Degree-days of a series of days, from their lowest and highest temperatures.",
                       .gives = "degree-days, 0 without any reading",
                       .example = "REWORK.HEATSUM({10|12|14}; {20|22|24}; 10)",
                       .shows = "21",
                       .source = source},
                      {lows, highs, base, upper, method, cutoff}),
                entry("heatDate", SLIPBARK_FUNCTION(heat::date),
                      {.does = "First date on which the heat since a date reaches a target.",
                       .gives = "date",
                       .example = "REWORK.HEATDATE({46271|46272|46273}; {10|12|14}; {20|22|24}; 10; 12)",
                       .shows = "2026-09-07",
                       .no_answer = "The readings end before the target is reached.",
                       .source = source},
                      {{"dates", "Date of each day", "dates", "each one day after the one above; as long as lows"},
                       lows,
                       highs,
                       base,
                       {"target", "Degree-days to reach", "degree-days", "above 0 to 1,000,000,000,000"},
                       {"from_date", "First day whose heat counts", "date",
                        "the first of dates or later, default the first of dates"},
                       upper,
                       method,
                       cutoff}),
            }};
}

}  // namespace slipbark::catalogue

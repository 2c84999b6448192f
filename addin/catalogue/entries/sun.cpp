#include "slipbark/sun.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument date_time{"date_time", "Date and time that the local clock shows", "date and time",
                             "years 1900 to 9999; within 0.02 degrees from 1950 to 2050"};
constexpr Argument utc_offset_h{"utc_offset_h", "What that clock is ahead of UTC, summer time included", "hours",
                                "-14 to 14"};
constexpr Argument latitude{"latitude", "Latitude, north positive", "degrees", "-90 to 90"};
constexpr Argument longitude{"longitude", "Longitude, east positive", "degrees", "-180 to 180"};

constexpr std::string_view source =
    "Meeus (1998) Astronomical Algorithms, ch. 25 and 28, as in the NOAA solar calculator";

}  // namespace

Area sun_area() {
    return {"sun",
            "Place",
            {
                entry("sunBearing", SLIPBARK_FUNCTION(sun::bearing),
                      {.does = "Bearing of the sun at a place and time, clockwise from true north.",
                       .gives = "degrees, 0 to below 360",
                       .example = "REWORK.SUNBEARING(DATE(2026;2;10) + TIME(16;45;0); 1; 41.62; 0.62)",
                       .shows = "233.84287234810063",
                       .source = source},
                      {date_time, utc_offset_h, latitude, longitude}),
                entry("sunHeight", SLIPBARK_FUNCTION(sun::height),
                      {.does = "Height of the sun above the horizon at a place and time, without refraction.",
                       .gives = "degrees, -90 to 90, below 0 when the sun is down",
                       .example = "REWORK.SUNHEIGHT(DATE(2026;2;10) + TIME(16;45;0); 1; 41.62; 0.62)",
                       .shows = "15.664765773794517",
                       .source = source},
                      {date_time, utc_offset_h, latitude, longitude}),
                entry("compassPoint", SLIPBARK_FUNCTION(sun::compass_point),
                      {.does = "Point of the compass nearest to a bearing: the side for the nurse limb and the paint.",
                       .gives = "text: N, NE, E ...",
                       .example = "REWORK.COMPASSPOINT(233.8)",
                       .shows = "SW",
                       .source = "Definition of the compass points"},
                      {{"bearing", "Bearing, clockwise from north", "degrees",
                        "-360 to 720; half-way between two points counts for the one further clockwise"},
                       {"points", "Points of the compass", "points", "4, 8 or 16, default 8"}}),
            }};
}

}  // namespace slipbark::catalogue

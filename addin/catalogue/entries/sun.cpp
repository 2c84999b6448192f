#include "slipbark/sun.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument date_time{"date_time", translatable("Date and time that the local clock shows"), Unit::date_and_time,
                             dates().noted(translatable("within 0.02 degrees from 1950 to 2050"))};
constexpr Argument utc_offset_h{"utc_offset_h",
                                translatable("How far that clock is ahead of UTC, including summer time"), Unit::hours,
                                from_to(-14, 14)};
constexpr Argument latitude{"latitude", translatable("Latitude, north positive"), Unit::degrees, from_to(-90, 90)};
constexpr Argument longitude{"longitude", translatable("Longitude, east positive"), Unit::degrees, from_to(-180, 180)};

constexpr double points[]{4, 8, 16};

constexpr Text source =
    translatable("Meeus (1998) Astronomical Algorithms, ch. 25 and 28, as in the NOAA solar calculator");

std::vector<std::string> compass_points() { return {"N", "NE", "E", "SE", "S", "SW", "W", "NW"}; }

}  // namespace

Area sun_area() {
    return {
        "sun",
        translatable("Place"),
        {
            entry("sunBearing", SLIPBARK_FUNCTION(sun::bearing),
                  {.does = translatable("Bearing of the sun at a place and time, clockwise from true north."),
                   .gives = translatable("degrees, 0 to below 360"),
                   .example = "REWORK.SUNBEARING(DATE(2026;2;10) + TIME(16;45;0); 1; 41.62; 0.62)",
                   .shows = "233.842872348101",
                   .source = source},
                  {date_time, utc_offset_h, latitude, longitude}),
            entry("sunHeight", SLIPBARK_FUNCTION(sun::height),
                  {.does = translatable("Height of the sun above the horizon at a place and time, without refraction."),
                   .gives = translatable("degrees, -90 to 90, below 0 when the sun is down"),
                   .example = "REWORK.SUNHEIGHT(DATE(2026;2;10) + TIME(16;45;0); 1; 41.62; 0.62)",
                   .shows = "15.664765773795",
                   .source = source},
                  {date_time, utc_offset_h, latitude, longitude}),
            entry("compassPoint", SLIPBARK_FUNCTION(sun::compass_point),
                  {.does = translatable(
                       "Point of the compass nearest to a bearing: the side for the nurse limb and the paint."),
                   .gives = translatable("text: N, NE, E ..."),
                   .example = "REWORK.COMPASSPOINT(233.8)",
                   .shows = "SW",
                   .source = translatable("Definition of the compass points"),
                   .words = {compass_points, AnswerWords::In::cell}},
                  {{"bearing", translatable("Bearing, clockwise from north"), Unit::degrees,
                    from_to(-360, 720).noted(
                        translatable("half-way between two points counts for the one further clockwise"))},
                   {"points", translatable("Points of the compass"), Unit::points, one_of(points), 8.0}}),
        }};
}

}  // namespace slipbark::catalogue

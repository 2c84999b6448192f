// Water: what a tree uses and needs by month, before and after it was cut back.
//
// A tree that was cut back has hardly a leaf, and its old share of water drowns it. The chain is that of the FAO's
// irrigation handbook: radiation above the air -> reference evapotranspiration (or a station's own) -> crop coefficient
// from the share of ground shaded and the height of the trees -> use -> less the rain that counts -> need.
//
// All depths in mm. The crop coefficient is the basal one: soil kept wet by sprinklers uses more, nothing is added to
// leach salts, and water in the soil from the month before is not counted. Check the soil before watering.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::water {

/// Extraterrestrial radiation: what the sun gives above the air on one day.
///
/// (24 * 60 / pi) * 0.0820 * dr * (ws * sin(lat) * sin(dec) + cos(lat) * cos(dec) * sin(ws)) with J the day of the
/// year, dr = 1 + 0.033 cos(2 pi J / 365), dec = 0.409 sin(2 pi J / 365 - 1.39) and ws = arccos(-tan(lat) tan(dec)),
/// whose argument is kept within -1 to 1: pi where the sun does not set, 0 where it does not rise.
///
/// date      the day; years 1900 to 9999. For the mean of a month take its 15th
/// latitude  degrees, north positive; -90 to 90
/// returns   MJ per m2 and day; 0 where the sun does not rise
/// throws    bad_argument outside these ranges
/// accuracy  that of the equation, which counts each year as 365 days; day 366 is taken as it is
/// source    Allen, Pereira, Raes & Smith (1998) Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, eq. 21
///           to 25
/// example   sun_energy(3 September 2026, -20) is 32.19, the handbook's example 8
double sun_energy(Day date, double latitude);

/// Reference evapotranspiration, that of a short green grass, from the day's lowest and highest temperature alone
/// (Hargreaves): 0.0023 * ((low + high) / 2 + 17.8) * sqrt(high - low) * 0.408 * sun_energy, not below 0.
///
/// date      the day; years 1900 to 9999. For the mean of a month take its 15th and the month's mean low and high
/// latitude  degrees, north positive; -90 to 90
/// low_c     mean lowest temperature, degrees C; -60 to 60
/// high_c    mean highest temperature, degrees C; low_c to 60
/// returns   mm a day
/// throws    bad_argument outside these ranges
/// accuracy  best over ten days or a month; off by a fifth and more in windy or humid places, where a station's own
///           figure is better
/// source    FAO Irrigation and Drainage Paper 56, eq. 52
/// example   reference_et(15 July 2015, 45.72, 14.8, 26.6) is 5.03, the handbook's example 20
double reference_et(Day date, double latitude, double low_c, double high_c);

/// Basal crop coefficient of trees: their use as a multiple of the reference evapotranspiration, the soil between them
/// dry.
///
/// With full = stomatal * (min(1 + 0.1 h, 1.2) + (0.04 (wind - 2) - 0.004 (100 humidity_low - 45)) (h / 3)^0.3) and
/// Kd = min(1, density * cover, cover^(1 / (1 + h))) it is bare + Kd * max(full - bare, (full - bare) / 2).
///
/// cover         share of the ground that the trees shade at noon; fraction 0 to 1
/// height_m      height of the trees; above 0, at most 20 m
/// stomatal      how far the leaves open: 1 for leaves that do not limit water, less for trees that close them, such as
///               citrus; above 0, at most 1; 1 unless given
/// bare          coefficient of the ground between the trees: 0.15 for bare dry soil, more for a green sward; 0 to 1.2;
///               0.15 unless given
/// density       how much a canopy uses for its shade, 1 to 3; 1.5 to 2 are published for trees; 1.5 unless given
/// wind_m_s      mean wind 2 m above ground, 1 to 6 m/s; 2 unless given
/// humidity_low  mean of the day's lowest relative humidity; fraction 0.2 to 0.8; 0.45 unless given
/// returns       coefficient
/// throws        bad_argument outside these ranges
/// source        Allen & Pereira (2009) Irrigation Science 28:17-34
/// example       crop_coefficient(0.7, 4) is 1.128; crop_coefficient(0.05, 1.2) is 0.223
double crop_coefficient(double cover, double height_m, std::optional<double> stomatal = {},
                        std::optional<double> bare = {}, std::optional<double> density = {},
                        std::optional<double> wind_m_s = {}, std::optional<double> humidity_low = {});

/// Share of the full canopy some time after cutting back: a straight line between the rows of a table, and after the
/// last row its share.
///
/// The cover of the ground is the full cover times the share; the height is that of the stubs plus the share of what
/// was cut.
///
/// years     time since cutting back in years; 0 to 1000
/// regrowth  two columns without a heading: years, strictly rising from 0 to 1000, and share 0 to 1; further columns
///           are not looked at, blank rows at the end are skipped. defaults::canopy(), an assumption, unless given
/// returns   fraction 0 to 1
/// throws    bad_argument outside these ranges; of a table with the row's number
/// source    definition; the built-in table is an assumption of this program
/// example   canopy_share(0.75) is 0.35
double canopy_share(double years, const std::optional<Table>& regrowth = {});

/// The part of a month's rain that the trees can use.
///
/// rain_mm  rain of the month; 0 to 5000 mm
/// method   "usda": P (125 - 0.2 P) / 125 up to 250 mm and 125 + 0.1 P above; or the share that counts, 0 to 1; "usda"
///          unless given
/// returns  mm
/// throws   bad_argument outside these ranges
/// source   USDA Soil Conservation Service, as in the FAO's programs of crop water requirements
/// example  effective_rain(120) is 96.96
double effective_rain(double rain_mm, const std::optional<Scalar>& method = {});

/// One month of a tree's water.
struct MonthWater {
    Day month;                 ///< its first day
    std::int32_t days = 0;     ///< in the month
    double use_mm = 0;         ///< crop coefficient x reference evapotranspiration x days
    double rain_mm = 0;        ///< effective rain
    double need_mm = 0;        ///< use less effective rain, not below 0
    double litres_a_tree = 0;  ///< to be given: need x area / efficiency
};

/// Irrigation need of a tree by month. Rain beyond the use is not carried on.
///
/// months        a day of each month, any; years 1900 to 9999
/// reference_et  mm a day; 0 to 30; as many as months
/// rain          mm a month; 0 to 5000; as many as months; 0 must be typed
/// crop_coeff    one coefficient, or one for each month; 0 to 2
/// area_m2       ground of a tree, row spacing times tree spacing; above 0, to 10,000 m2
/// efficiency    part of the water given that the roots get; above 0, to 1; 0.85 unless given
/// method        as for effective_rain
/// returns       one for each month, in the order given. Rows that are blank in all lists at the end are skipped
/// throws        bad_argument outside these ranges, naming the row; for a blank row between
/// source        FAO Irrigation and Drainage Paper 56: use = crop coefficient x reference evapotranspiration
/// example       tree_water({1 December 2027}, {6.1}, {20}, {0.97}, 17.5) needs 164.067 mm, 3377.85 litres
std::vector<MonthWater> tree_water(const DayList& months, const List& reference_et, const List& rain,
                                   const List& crop_coeff, double area_m2, std::optional<double> efficiency = {},
                                   const std::optional<Scalar>& method = {});

}  // namespace slipbark::water

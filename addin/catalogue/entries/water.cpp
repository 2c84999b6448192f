#include "catalogue/entries/water.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument date{"date", translatable("The day; for the mean of a month its 15th"), Unit::date, dates()};
constexpr Argument latitude{"latitude", translatable("Latitude, north positive"), Unit::degrees, from_to(-90, 90)};

constexpr double share_ends[]{0, 1};
constexpr Argument method{
    "method", translatable("How much of the rain counts"), Unit::text_or_number,
    texts(translatable("\"usda\", the formula of the USDA, or the share that counts, from 0 to 1"), share_ends),
    "usda"};

constexpr ColumnDomain regrowth_columns[]{
    {translatable("years since cutting back"), ColumnDomain::Of::numbers, {0, 1000}, {}, true},
    {translatable("share of the full canopy"), ColumnDomain::Of::numbers, {0, 1}}};

}  // namespace

Area water_area() {
    return {
        "water",
        translatable("Water"),
        {
            entry("sunEnergy", SLIPBARK_FUNCTION(water::sun_energy),
                  {.does = translatable("Extraterrestrial radiation: what the sun gives above the air on one day."),
                   .gives = translatable("MJ per m2 and day, 0 where the sun does not rise"),
                   .example = "REWORK.SUNENERGY(DATE(2026;9;3); -20)",
                   .shows = "32.1939958751",
                   .source = translatable("Allen, Pereira, Raes & Smith (1998) Crop evapotranspiration, FAO Irrigation "
                                          "and Drainage Paper 56, eq. 21")},
                  {date, latitude}),
            entry("referenceEt", SLIPBARK_FUNCTION(water::reference_et),
                  {.does = translatable("Reference evapotranspiration from the lowest and highest temperature "
                                        "(Hargreaves). A weather station's own figure is better."),
                   .gives = translatable("mm a day"),
                   .example = "REWORK.REFERENCEET(DATE(2026;7;15); 45.72; 14.8; 26.6)",
                   .shows = "5.03302840279",
                   .source = translatable("FAO Irrigation and Drainage Paper 56 (1998), eq. 52")},
                  {date,
                   latitude,
                   {"low_c", translatable("Mean lowest temperature"), Unit::celsius, from_to(-60, 60)},
                   {"high_c", translatable("Mean highest temperature"), Unit::celsius,
                    from_to(-60, 60).at_least("low_c")}}),
            entry(
                "cropCoeff", SLIPBARK_FUNCTION(water::crop_coefficient),
                {.does = translatable("Basal crop coefficient of trees, from the ground that they shade and their "
                                      "height: their use of water as a multiple of the reference."),
                 .gives = translatable("coefficient"),
                 .example = "REWORK.CROPCOEFF(70%; 4)",
                 .shows = "1.12770741085",
                 .source = translatable("Allen & Pereira (2009) Irrigation Science 28:17-34")},
                {{"cover", translatable("Share of the ground that the trees shade at noon"), Unit::fraction,
                  from_to(0, 1)},
                 {"height_m", translatable("Height of the trees"), Unit::m, above_to(0, 20)},
                 {"stomatal",
                  translatable("How far the leaves open: 1, or less for trees that close them, such as citrus"),
                  Unit::fraction, above_to(0, 1), 1.0},
                 {"bare", translatable("Coefficient of the ground between: 0.15 bare and dry, more for a green sward"),
                  Unit::ratio, from_to(0, 1.2), 0.15},
                 {"density", translatable("How much a canopy uses for its shade"), Unit::ratio,
                  from_to(1, 3).noted(translatable("1.5 to 2 are published for trees")), 1.5},
                 {"wind_m_s", translatable("Mean wind 2 m above ground"), Unit::m_a_second, from_to(1, 6), 2.0},
                 {"humidity_low", translatable("Mean of the day's lowest relative humidity"), Unit::fraction,
                  from_to(0.2, 0.8), 0.45}}),
            entry("canopyShare", SLIPBARK_FUNCTION(water::canopy_share),
                  {.does = translatable("Share of the full canopy some time after cutting back."),
                   .gives = translatable("fraction"),
                   .example = "REWORK.CANOPYSHARE(0.75)",
                   .shows = "0.35",
                   .source = translatable(
                       "A straight line between the rows; the built-in rows are an assumption of this program")},
                  {{"years", translatable("Time since cutting back, fractions welcome"), Unit::years, from_to(0, 1000)},
                   {"regrowth", translatable("Your own share of the full canopy by years since cutting back"),
                    Unit::table, table_of(regrowth_columns).noted(translatable("the first row is that of year 0")),
                    BuiltIn{"canopy"}}}),
            entry("effectiveRain", SLIPBARK_FUNCTION(water::effective_rain),
                  {.does = translatable("The part of a month's rain that the trees can use."),
                   .gives = translatable("mm"),
                   .example = "REWORK.EFFECTIVERAIN(120)",
                   .shows = "96.96",
                   .source = translatable("USDA Soil Conservation Service, as in the FAO's programs of crop water "
                                          "requirements: P (125 - 0.2 P) / 125 up to 250 mm, 125 + 0.1 P above")},
                  {{"rain_mm", translatable("Rain of the month"), Unit::mm, from_to(0, 5000)}, method}),
            entry("treeWater", SLIPBARK_FUNCTION(water::tree_water),
                  {.does = translatable("Irrigation need of a tree by month: its use less the rain that counts. Soil "
                                        "kept wet by sprinklers uses more, nothing is added to leach salts, and water "
                                        "in the soil from the month before is not counted."),
                   .gives = translatable("one row of 6 for each month: first day, days, use in mm, effective rain in "
                                         "mm, need in mm, litres a tree"),
                   .example = "REWORK.TREEWATER({46722|46753}; {6.1|6.3}; {20|15}; {0.36|0.40}; 17.5)",
                   .shows = "2027-12-01",
                   .source = translatable("FAO Irrigation and Drainage Paper 56 (1998): use = crop coefficient x "
                                          "reference evapotranspiration")},
                  {{"months", translatable("A day of each month"), Unit::date, dates().blanks(Blanks::at_end)},
                   {"reference_et", translatable("Reference evapotranspiration of each month"), Unit::mm_a_day,
                    from_to(0, 30).length_of("months").blanks(Blanks::at_end)},
                   {"rain", translatable("Rain of each month"), Unit::mm,
                    from_to(0, 5000).length_of("months").blanks(Blanks::at_end).noted(translatable("0 must be typed"))},
                   {"crop_coeff", translatable("Crop coefficient, one number or one for each month"), Unit::ratio,
                    from_to(0, 2).blanks(Blanks::at_end)},
                   {"area_m2", translatable("Ground of a tree: row spacing times tree spacing"), Unit::m2,
                    above_to(0, 10'000)},
                   {"efficiency", translatable("Part of the water given that the roots get"), Unit::fraction,
                    above_to(0, 1).depending_on_call(), 0.85},
                   method}),
        }};
}

}  // namespace slipbark::catalogue

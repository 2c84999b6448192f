#include "slipbark/materials.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area materials_area() {
    return {
        "materials",
        translatable("Materials"),
        {
            entry("limbArea", SLIPBARK_FUNCTION(materials::limb_area),
                  {.does = translatable("Bark area of a limb or trunk, without the cut faces."),
                   .gives = translatable("area in m2"),
                   .example = "REWORK.LIMBAREA(12; 8; 1.5)",
                   .shows = "0.4713",
                   .source = translatable(
                       "Lateral surface of the conical frustum, pi (r1 + r2) sqrt((r1 - r2)^2 + length^2)")},
                  {{"base_diameter_cm", translatable("Diameter at the thick end"), Unit::cm, above_to(0, 1000)},
                   {"tip_diameter_cm", translatable("Diameter at the other end"), Unit::cm, above_to(0, 1000)},
                   {"length_m", translatable("Length along the axis"), Unit::m, above_to(0, 1000)}}),
            entry("paint", SLIPBARK_FUNCTION(materials::paint),
                  {.does = translatable("Undiluted white paint against sunburn, to be thinned with water."),
                   .gives = translatable("litres of undiluted paint"),
                   .example = "REWORK.PAINT(480; 6; 1; 1; 0.2)",
                   .shows = "50.00",
                   .source = translatable("Area x coats / coverage / (1 - loss) / (1 + water parts); water-based paint "
                                          "thinned one to one is common practice; the label outranks it")},
                  {{"area_m2", translatable("Bark to be covered"), Unit::m2, from_to(0, 1E9)},
                   {"coverage_m2_per_l", translatable("What a litre of the thinned mix covers in one coat"),
                    Unit::m2_a_litre, from_to(0.01, 1000)},
                   {"coats", translatable("Coats"), Unit::coats, whole(1, 100), 1.0},
                   {"water_parts", translatable("Parts of water to one part of paint"), Unit::parts, from_to(0, 100),
                    1.0},
                   {"loss", translatable("Share of the mix that is spilt or left in the can"), Unit::fraction,
                    from_below(0, 1), 0.0}}),
            entry("tape", SLIPBARK_FUNCTION(materials::tape),
                  {.does = translatable("Tape to wrap one stub in a helix."),
                   .gives = translatable("metres of tape"),
                   .example = "REWORK.TAPE(8; 12; 25)",
                   .shows = "2.915",
                   .source =
                       translatable("Helix, pi D H / (w (1 - overlap)), and whole turns of pi D to close the ends")},
                  // The overlap and the girth narrow the width.
                  {{"stub_diameter_cm", translatable("Diameter over bark and scions"), Unit::cm,
                    above_to(0, 1000).depending_on_call()},
                   {"height_cm", translatable("Height to be covered"), Unit::cm, from_to(0, 10'000)},
                   {"tape_width_mm", translatable("Width of the tape on the stub"), Unit::mm,
                    from_to(1, 1000).depending_on_call().noted(translatable("less the overlap: at most the girth"))},
                   {"overlap", translatable("Share of the width that overlaps the turn before"), Unit::fraction,
                    from_below(0, 1), 0.5},
                   {"extra_turns", translatable("Turns to close the ends"), Unit::turns, from_to(0, 100), 2.0}}),
            entry("packs", SLIPBARK_FUNCTION(materials::packs),
                  {.does = translatable("Whole packs to buy: tins, rolls, boxes, bundles."),
                   .gives = translatable("packs, whole"),
                   .example = "REWORK.PACKS(1730; 30; 0.1)",
                   .shows = "64",
                   .source = translatable("Units x (1 + spare) / pack size, rounded up")},
                  {{"units", translatable("What is needed, in the unit of the pack"), Unit::unit_of_the_pack,
                    from_to(0, 1E9)},
                   // The number of packs must fit into a cell.
                   {"pack_size", translatable("Contents of one pack"), Unit::unit_of_the_pack,
                    above_to(0, 1E9).depending_on_call()},
                   {"spare", translatable("Share bought above the need"), Unit::fraction, from_to(0, 2), 0.0}}),
            entry(
                "dilute", SLIPBARK_FUNCTION(materials::dilute),
                {.does = translatable("Stock solution to measure out for a mix, such as bleach for knives and saws. "
                                      "Bleach: gloves, eye protection, fresh air; never mix it with acids or ammonia."),
                 .gives = translatable("volume of stock, in the unit of the volume; the rest is water"),
                 .example = "REWORK.DILUTE(0.05; 0.01; 10)",
                 .shows = "2",
                 .source = translatable("Volume x target / stock; the label outranks it")},
                {{"stock_strength", translatable("Strength of the stock"), Unit::fraction, above_to(0, 1)},
                 {"target_strength", translatable("Strength wanted"), Unit::fraction,
                  above_to(0, 1).at_most("stock_strength")},
                 {"volume", translatable("Volume of the finished mix"), Unit::any_volume, from_to(0, 1E9)}}),
        }};
}

}  // namespace slipbark::catalogue

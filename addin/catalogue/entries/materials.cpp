#include "slipbark/materials.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area materials_area() {
    return {
        "materials",
        "Materials",
        {
            entry("limbArea", SLIPBARK_FUNCTION(materials::limb_area),
                  {.does = "Bark area of a limb or trunk, without the cut faces.",
                   .gives = "area in m2",
                   .example = "REWORK.LIMBAREA(12; 8; 1.5)",
                   .shows = "0.4713",
                   .source = "Lateral surface of the conical frustum, pi (r1 + r2) sqrt((r1 - r2)^2 + length^2)"},
                  {{"base_diameter_cm", "Diameter at the thick end", "cm", "above 0, to 1000"},
                   {"tip_diameter_cm", "Diameter at the other end", "cm", "above 0, to 1000"},
                   {"length_m", "Length along the axis", "m", "above 0, to 1000"}}),
            entry(
                "paint", SLIPBARK_FUNCTION(materials::paint),
                {.does = "Undiluted white paint against sunburn, to be thinned with water.",
                 .gives = "litres of undiluted paint",
                 .example = "REWORK.PAINT(480; 6; 1; 1; 0.2)",
                 .shows = "50.00",
                 .source = "Area x coats / coverage / (1 - loss) / (1 + water parts); water-based paint thinned one to "
                           "one is common practice, the label goes before"},
                {{"area_m2", "Bark to be covered", "m2", "0 to 1,000,000,000"},
                 {"coverage_m2_per_l", "What a litre of the thinned mix covers in one coat", "m2 per litre",
                  "0.01 to 1000"},
                 {"coats", "Coats", "coats", "whole, 1 to 100, default 1"},
                 {"water_parts", "Parts of water to one part of paint", "parts", "0 to 100, default 1"},
                 {"loss", "Share of the mix that is spilt or left in the can", "fraction", "0 to below 1, default 0"}}),
            entry("tape", SLIPBARK_FUNCTION(materials::tape),
                  {.does = "Tape to wrap one stub in a helix.",
                   .gives = "metres of tape",
                   .example = "REWORK.TAPE(8; 12; 25)",
                   .shows = "2.915",
                   .source = "Helix, pi D H / (w (1 - overlap)), and whole turns of pi D to close the ends"},
                  {{"stub_diameter_cm", "Diameter over bark and scions", "cm", "above 0, to 1000"},
                   {"height_cm", "Height to be covered", "cm", "0 to 10,000"},
                   {"tape_width_mm", "Width of the tape as it lies", "mm",
                    "1 to 1000, less the overlap at most the girth"},
                   {"overlap", "Share of the width that lies on the turn before", "fraction",
                    "0 to below 1, default 0.5"},
                   {"extra_turns", "Turns to close the ends", "turns", "0 to 100, default 2"}}),
            entry("packs", SLIPBARK_FUNCTION(materials::packs),
                  {.does = "Whole packs to buy: tins, rolls, boxes, bundles.",
                   .gives = "packs, whole",
                   .example = "REWORK.PACKS(1730; 30; 0.1)",
                   .shows = "64",
                   .source = "Units x (1 + spare) / pack size, rounded up"},
                  {{"units", "What is needed, in the unit of the pack", "unit of the pack", "0 to 1,000,000,000"},
                   {"pack_size", "What one pack holds", "unit of the pack", "above 0, to 1,000,000,000"},
                   {"spare", "Share bought above the need", "fraction", "0 to 2, default 0"}}),
            entry("dilute", SLIPBARK_FUNCTION(materials::dilute),
                  {.does = "Stock solution to measure out for a mix, such as bleach for knives and saws.",
                   .gives = "volume of stock, in the unit of the volume; the rest is water",
                   .example = "REWORK.DILUTE(0.05; 0.01; 10)",
                   .shows = "2",
                   .source = "Volume x target / stock; what the label says goes before"},
                  {{"stock_strength", "Strength of the stock", "fraction", "above 0, to 1"},
                   {"target_strength", "Strength wanted", "fraction", "above 0, to the strength of the stock"},
                   {"volume", "Volume of the finished mix", "any volume", "0 to 1,000,000,000"}}),
        }};
}

}  // namespace slipbark::catalogue

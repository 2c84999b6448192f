// What a rework uses up: paint, tape, packs of anything, and disinfectant in its dilution.
#pragma once

#include <optional>

namespace slipbark::materials {

/// Bark area of a limb or trunk, taken as the lateral surface of a conical frustum.
///
/// base_diameter_cm  diameter at the thick end in centimetres; above 0, to 1000
/// tip_diameter_cm   diameter at the other end in centimetres; above 0, to 1000; either end may be the thicker
/// length_m          length along the axis in metres; above 0, to 1000
/// returns           area in square metres: pi * (r1 + r2) * sqrt((r1 - r2)^2 + length^2); the cut faces are not in it
/// throws            bad_argument outside these ranges
/// source            solid geometry: lateral area of the right conical frustum
double limb_area(double base_diameter_cm, double tip_diameter_cm, double length_m);

/// Undiluted white paint (water-based, interior grade) against sunburn, to be thinned with water.
///
/// area_m2            bark to be covered in square metres; 0 to 1E9
/// coverage_m2_per_l  what a litre of the thinned mix covers in one coat, in square metres; 0.01 to 1000
/// coats              whole, 1 to 100; 1 unless given
/// water_parts        parts of water to one part of paint; 0 to 100; 1 unless given
/// loss               share of the mix that is spilt or left in the can; fraction 0 to below 1; 0 unless given
/// returns            litres of undiluted paint: area * coats / coverage / (1 - loss) / (1 + water_parts)
/// throws             bad_argument outside these ranges
/// source             arithmetic; paint thinned one to one with water: common practice
double paint(double area_m2, double coverage_m2_per_l, std::optional<double> coats = {},
             std::optional<double> water_parts = {}, std::optional<double> loss = {});

/// Tape to wrap one stub in a helix.
///
/// Each turn moves the tape on by its free width e = w * (1 - overlap), measured across the tape, so that the helix
/// stands at the angle a with pi * D * sin(a) = e. Height H then takes H / sin(a) = pi * D * H / e. Whole turns square
/// to the stub close the two ends.
///
/// stub_diameter_cm  diameter over bark and scions in centimetres; above 0, to 1000
/// height_cm         height to be covered in centimetres; 0 to 10,000
/// tape_width_mm     width of the tape as it lies, in millimetres; 1 to 1000
/// overlap           share of the width that lies on the turn before; fraction 0 to below 1; 0.5 unless given
/// extra_turns       turns to close the ends; 0 to 100; 2 unless given
/// returns           metres of tape
/// throws            bad_argument outside these ranges, or where the free width is more than the circumference, so that
///                   no helix closes
/// source            geometry of the helix, derived above
double tape(double stub_diameter_cm, double height_cm, double tape_width_mm, std::optional<double> overlap = {},
            std::optional<double> extra_turns = {});

/// Whole packs to buy.
///
/// units      what is needed, in the unit of the pack (litres, metres, pieces); 0 to 1E9
/// pack_size  what one pack holds; above 0, to 1E9
/// spare      share bought above the need; fraction 0 to 2; 0 unless given
/// returns    packs, whole, rounded up: units * (1 + spare) / pack_size
/// throws     bad_argument outside these ranges, or where more than 1E9 packs would be needed
/// source     arithmetic
double packs(double units, double pack_size, std::optional<double> spare = {});

/// Stock solution to measure out for a mix, such as household bleach for knives and saws. What the label of the product
/// says goes before.
///
/// stock_strength   strength of the stock; fraction above 0, to 1
/// target_strength  strength wanted; fraction above 0, to stock_strength
/// volume           volume of the finished mix, in any unit; 0 to 1E9
/// returns          volume of stock in the same unit: volume * target / stock; the rest is water
/// throws           bad_argument outside these ranges
/// source           conservation of the active substance
double dilute(double stock_strength, double target_strength, double volume);

}  // namespace slipbark::materials

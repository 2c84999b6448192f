#include "slipbark/materials.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/checks.hpp"

namespace slipbark::materials {

namespace {

constexpr double cm_a_metre = 100;
constexpr double mm_a_cm = 10;
constexpr double amount_limit = 1e9;

double diameter(std::string_view argument, double value) { return check::positive(argument, value, 1000); }

/// A strength that is not 0. 5 where 5 % is meant is told apart first, then the blank cell.
double strength(std::string_view argument, double value) {
    return check::positive(argument, check::fraction(argument, value), 1);
}

}  // namespace

double limb_area(double base_diameter_cm, double tip_diameter_cm, double length_m) {
    const double base = diameter("base_diameter_cm", base_diameter_cm) / cm_a_metre / 2;
    const double tip = diameter("tip_diameter_cm", tip_diameter_cm) / cm_a_metre / 2;
    const double length = check::positive("length_m", length_m, 1000);
    return std::numbers::pi * (base + tip) * std::hypot(base - tip, length);
}

double paint(double area_m2, double coverage_m2_per_l, std::optional<double> coats, std::optional<double> water_parts,
             std::optional<double> loss) {
    const double area = check::number("area_m2", area_m2, 0, amount_limit);
    const double coverage =
        check::number("coverage_m2_per_l", check::positive("coverage_m2_per_l", coverage_m2_per_l, 1000), 0.01, 1000);
    const auto layers = static_cast<double>(check::whole("coats", coats.value_or(1), 1, 100));
    const double water = check::number("water_parts", water_parts.value_or(1), 0, 100);
    const double lost = check::fraction_below_one("loss", loss.value_or(0));
    const double mix = area * layers / coverage / (1 - lost);
    return mix / (1 + water);
}

double tape(double stub_diameter_cm, double height_cm, double tape_width_mm, std::optional<double> overlap,
            std::optional<double> extra_turns) {
    const double girth = std::numbers::pi * diameter("stub_diameter_cm", stub_diameter_cm);
    const double height = check::number("height_cm", height_cm, 0, 10'000);
    const double width =
        check::number("tape_width_mm", check::positive("tape_width_mm", tape_width_mm, 1000), 1, 1000) / mm_a_cm;
    const double lapped = check::fraction_below_one("overlap", overlap.value_or(0.5));
    const double turns = check::number("extra_turns", extra_turns.value_or(2), 0, 100);
    const double free_width = width * (1 - lapped);
    if (free_width > girth) {
        throw bad_argument("tape_width_mm",
                           translatable("{1} was {2}, too wide to wind round a stub of {3} cm: give a width that, less "
                                        "the overlap, is at most the girth, {4} mm, or apply the tape lengthwise."),
                           {tape_width_mm, stub_diameter_cm, std::floor(girth * mm_a_cm)});
    }
    return (girth * height / free_width + turns * girth) / cm_a_metre;
}

double packs(double units, double pack_size, std::optional<double> spare) {
    const double needed = check::number("units", units, 0, amount_limit);
    const double size = check::positive("pack_size", pack_size, amount_limit);
    const double extra = check::fraction("spare", spare.value_or(0), 2);
    const double exact = needed * (1 + extra) / size;
    if (exact > amount_limit) {
        throw bad_argument(
            "pack_size", translatable("{1} was {2}, which makes more than {3} packs: give it in the unit of `units`."),
            {pack_size, amount_limit});
    }
    // However little is needed, it does not come without a pack: the slack of rounding must not eat it.
    return needed > 0 ? std::max(1.0, check::rounded_up(exact)) : 0;
}

double dilute(double stock_strength, double target_strength, double volume) {
    const double stock = strength("stock_strength", stock_strength);
    const double target = strength("target_strength", target_strength);
    if (target > stock) {
        throw bad_argument(
            "target_strength",
            translatable("{1} was {2}, stronger than the stock: give at most stock_strength, which is {3}."),
            {target, stock});
    }
    return check::number("volume", volume, 0, amount_limit) * target / stock;
}

}  // namespace slipbark::materials

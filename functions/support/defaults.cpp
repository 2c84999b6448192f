#include "slipbark/defaults.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "support/checks.hpp"

namespace slipbark::defaults {

namespace {

constexpr std::string_view practice = "experience, no published source";
constexpr std::string_view assumed = "assumption of this program, change it to your own records";
constexpr std::string_view advice = "assumption of this program: ask local advice how far and how long";

// What happens before any grafting, whichever way it is done.
constexpr std::string_view six_months =
    "growers' panel with University of California Cooperative Extension: certified citrus wood six months ahead";
constexpr std::string_view wood_life =
    "room-warm wood: 70 % of buds alive after 5 days, Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46";
constexpr Stage licence{
    "Ask licence and quarantine", {-12, -9, -6, 'm'}, "A licence for a protected variety; leave to move wood", assumed};
constexpr Stage wood_order{"Order wood or mark mother trees",
                           {-8, -6, -5, 'm'},
                           "Supplier's closing date met, or trees of known health marked",
                           six_months};
constexpr Stage materials{"Materials in", {-4, -3, -1, 'w'}, "Tape, sealant, paint, labels, clean blades", assumed};
constexpr Stage less_water{"Lower irrigation and nitrogen",
                           {0, 1, 7, 'd'},
                           "A tree without leaves drinks little: ask local advice",
                           advice,
                           "Cut back and paint"};

constexpr Stage wood_cut{"Cut the wood", {-5, -2, 0, 'd'}, "Leaves off at once, labelled, damp and cool", wood_life};

// clang-format off
constexpr std::array from_cutting_back{
    Stage{"Cut back and paint", {-7, -1, 0, 'd'}, "Make a fresh cut on the day of grafting", practice},
    Stage{"Graft", {0, 0, 0, 'd'}, "The bark slips cleanly from the wood", practice},
    Stage{"First look under the bag", {14, 18, 21, 'd'}, "Buds green and plump; a black bud has failed", practice},
    Stage{"First airing", {28, 31, 35, 'd'}, "Shoots near 5 cm: open one third of the bag's mouth", practice},
    Stage{"Rub off suckers, first round", {21, 35, 42, 'd'}, "Shoots from below the graft; then every three weeks", practice},
    Stage{"Full opening of the top", {35, 40, 45, 'd'}, "7 to 10 days after the first airing", practice},
    Stage{"Shoots clear, bag off", {42, 52, 66, 'd'}, "Only once the shoots stand above the bag", practice},
    Stage{"Tip back and stake", {8, 10, 13, 'w'}, "Tied to stakes before the weight can tear the union", practice},
    Stage{"Start the framework", {4, 5, 6, 'm'}, "Two shoots a graft, low", practice},
    Stage{"Thin the framework", {7, 9, 10, 'm'}, "Progressively, never in one cut", practice},
    Stage{"Nurse limb off", {12, 18, 24, 'm'}, "Vigorous trees at a year, slow at two; seal, repaint sun side", practice},
    Stage{"First fruit", {15, 18, 20, 'm'}, "A few fruit show the variety is true", practice},
    Stage{"First crop", {30, 33, 36, 'm'}, "About a fifth of a mature tree's yield", practice},
    Stage{"Second crop", {42, 45, 48, 'm'}, "About half of a mature tree's yield", practice},
};

/// The same with what comes before the grafting, and the reminder that hangs on cutting back.
constexpr auto bagged_bark_graft = [] {
    constexpr std::array before{licence, wood_order, materials, wood_cut};
    constexpr std::size_t up_to_grafting = 2;
    std::array<Stage, before.size() + from_cutting_back.size() + 1> all{};
    auto* next = std::copy(before.begin(), before.end(), all.begin());
    next = std::copy_n(from_cutting_back.begin(), up_to_grafting, next);
    *next++ = less_water;
    std::copy(from_cutting_back.begin() + up_to_grafting, from_cutting_back.end(), next);
    return all;
}();

// Film over scion and cut face, no bag: nothing to air, but ties to cut in time.
constexpr std::array wrapped_bark_graft{
    licence,
    wood_order,
    materials,
    wood_cut,
    Stage{"Cut back and paint", {-7, -1, 0, 'd'}, "Make a fresh cut on the day of grafting", practice},
    Stage{"Graft", {0, 0, 0, 'd'}, "The bark slips cleanly from the wood", practice},
    less_water,
    Stage{"First look through the film", {14, 18, 21, 'd'}, "Buds green and plump; a black bud has failed", practice},
    Stage{"Buds break through the film", {21, 31, 42, 'd'}, "Help a bud that lifts the film without piercing it", "from memory: citrus bark grafts break bud after 3 to 6 weeks"},
    Stage{"Rub off suckers, first round", {21, 35, 42, 'd'}, "Shoots from below the graft; then every three weeks", practice},
    Stage{"Cut the ties", {7, 9, 12, 'w'}, "Before they strangle: tape sinks into the bark", "assumption of this program; 7 to 8 weeks in growers' notes on pecan"},
    Stage{"Tip back and stake", {8, 10, 13, 'w'}, "Tied to stakes before the weight can tear the union", practice},
    Stage{"Start the framework", {4, 5, 6, 'm'}, "Two shoots a graft, low", practice},
    Stage{"Thin the framework", {7, 9, 10, 'm'}, "Progressively, never in one cut", practice},
    Stage{"Nurse limb off", {12, 18, 24, 'm'}, "Vigorous trees at a year, slow at two; seal, repaint sun side", practice},
    Stage{"First fruit", {15, 18, 20, 'm'}, "A few fruit show the variety is true", practice},
    Stage{"First crop", {30, 33, 36, 'm'}, "About a fifth of a mature tree's yield", practice},
    Stage{"Second crop", {12, 12, 12, 'm'}, "About half of a mature tree's yield", practice, "First crop"},
};

// Cut back first and grafted weeks later on pencil-thick regrowth: mango, avocado, old citrus.
constexpr std::array bud_on_regrowth{
    licence,
    wood_order,
    Stage{"Cut back and paint", {-16, -10, -7, 'w'}, "After frost; the bared bark painted the same day", "mango limbs cut in July had shoots fit to graft after 53 days, MPKV Rahuri trial of 216 trees"},
    less_water,
    Stage{"Thin the regrowth", {3, 5, 7, 'w'}, "Shoots 10 to 25 cm: keep 4 or 5 well placed on each limb", "assumption of this program; 4 to 5 shoots a limb: experience, no published source", "Cut back and paint"},
    materials,
    wood_cut,
    Stage{"Graft", {0, 0, 0, 'd'}, "Shoots as thick as a pencil, bark slipping", practice},
    Stage{"First look, wrap off", {14, 18, 21, 'd'}, "Bud green and its shield grown on", "buds on citrus: wrap off after 14 to 21 days, University of Florida IFAS HS1309"},
    Stage{"Bend the shoot over the bud", {0, 0, 7, 'd'}, "Cut three quarters through, a hand above the bud, and lay over", "University of Florida IFAS HS1309: 2 to 3 weeks after budding", "First look, wrap off"},
    Stage{"Buds break", {16, 21, 35, 'd'}, "Shoot from the bud, not from the stock", "topworked mango: 15.6 to 25.4 days, Indian Journal of Horticulture 82(3), 2025; latest assumed"},
    Stage{"Rub off suckers, first round", {21, 28, 42, 'd'}, "Shoots of the old variety; then every one to three weeks", practice},
    Stage{"Tie to stakes", {7, 8, 10, 'w'}, "Shoots near 45 cm, before wind can tear them out", assumed},
    Stage{"Take off the stock above the bud", {8, 12, 16, 'w'}, "New shoot strong enough to feed its limb; seal the cut", assumed},
    Stage{"Start the framework", {4, 5, 6, 'm'}, "One shoot a bud, low", assumed},
    Stage{"Thin the framework", {8, 10, 12, 'm'}, "Progressively, never in one cut", assumed},
    Stage{"Nurse limb off", {12, 18, 24, 'm'}, "Vigorous trees at a year, slow at two; seal, repaint sun side", practice},
    Stage{"First fruit", {16, 20, 24, 'm'}, "A few fruit show the variety is true", assumed},
    Stage{"First crop", {30, 34, 40, 'm'}, "About a fifth of a mature tree's yield", assumed},
    Stage{"Second crop", {12, 12, 12, 'm'}, "About half of a mature tree's yield", assumed, "First crop"},
};

// Deciduous trees: wood cut in winter and stored, grafted at bud swell, no bag.
constexpr std::array dormant_cleft_graft{
    licence,
    Stage{"Order wood or mark mother trees", {-8, -6, -4, 'm'}, "Supplier's closing date met, or trees of known health marked", assumed},
    Stage{"Cut the wood and store it", {-14, -10, -6, 'w'}, "Fully dormant; sealed in polyethylene, damp, just above freezing", "assumption of this program; winter-cut wood kept cold until spring: experience, no published source"},
    materials,
    Stage{"Cut back and paint", {-7, -1, 0, 'd'}, "Make a fresh cut on the day of grafting", practice},
    Stage{"Graft", {0, 0, 0, 'd'}, "Buds of the stock swell, its bark does not slip yet", "Penn State specialist in the grower press: clefts before the bark slips"},
    less_water,
    Stage{"First look", {3, 4, 6, 'w'}, "Buds of the scion swell or are out; a dry, shrunk scion has failed", assumed},
    Stage{"Rub off suckers, first round", {4, 6, 8, 'w'}, "Shoots from below the graft; then every three weeks", practice},
    Stage{"Tie to stakes", {8, 10, 14, 'w'}, "Before wind can tear the union", assumed},
    Stage{"Release the ties", {9, 12, 16, 'w'}, "In summer, before they strangle", assumed},
    Stage{"Choose the leader", {8, 9, 11, 'm'}, "In the next winter: the best placed shoot of each stub, the others shortened", "about 9 months in growers' notes on pecan"},
    Stage{"First fruit", {15, 17, 29, 'm'}, "A few fruit show the variety is true", "assumption of this program; apple in the second year, now and then in the first"},
    Stage{"Nurse limb off", {12, 18, 24, 'm'}, "Vigorous trees at a year, slow at two; seal the cut", practice},
    Stage{"First crop", {27, 29, 41, 'm'}, "About a fifth of a mature tree's yield", assumed},
    Stage{"Second crop", {12, 12, 12, 'm'}, "About half of a mature tree's yield", assumed, "First crop"},
};

constexpr std::string_view crop_rule = "experience, no published source: some 20 kg at 33 months and 50 kg a year on, of 100 kg mature";
constexpr std::array curve{
    Share{0, 0, "experience, no published source: no crop in the season of grafting"},
    Share{1.5, 0.02, assumed},
    Share{2.75, 0.20, crop_rule},
    Share{3.75, 0.50, crop_rule},
    Share{5, 0.80, assumed},
    Share{7, 1, assumed},
};

constexpr std::string_view room =
    "Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46, sweet orange, alive 60 d after budding";
constexpr std::array room_rows{
    Share{0, 1, room},
    Share{5, 0.70, room},
    Share{10, 0.36, room},
    Share{15, 0, room},
};

constexpr std::string_view cool =
    "Scientia Agricola 65(4), 2008, low temperature storage of citrus budsticks: above 95 % after 74 d at 5 C in polyethylene";
constexpr std::array cool_rows{
    Share{0, 1, cool},
    Share{74, 0.95, cool},
};
constexpr std::array canopy_rows{
    Share{0, 0.05, assumed},
    Share{0.25, 0.10, assumed},
    Share{0.5, 0.20, assumed},
    Share{1, 0.50, assumed},
    Share{2, 0.85, assumed},
    Share{3, 1, assumed},
};
// clang-format on

constexpr std::array all_schedules{
    Schedule{"bagged bark graft", bagged_bark_graft},
    Schedule{"wrapped bark graft", wrapped_bark_graft},
    Schedule{"bud on regrowth", bud_on_regrowth},
    Schedule{"dormant cleft graft", dormant_cleft_graft},
};

Table made_of(std::span<const Stage> stages) {
    Table table{8, {}};
    for (const Stage& stage : stages) {
        const Span& span = stage.offset;
        table.cells.insert(table.cells.end(),
                           {std::string(stage.name), double(span.earliest), double(span.target), double(span.latest),
                            std::string(1, span.unit), std::string(stage.sign), std::string(stage.source)});
        table.cells.push_back(stage.counted_from.empty() ? Cell() : Cell(std::string(stage.counted_from)));
    }
    return table;
}

Table made_of(std::span<const Share> shares) {
    Table table{3, {}};
    for (const Share& row : shares) {
        table.cells.insert(table.cells.end(), {row.at, row.share, std::string(row.source)});
    }
    return table;
}

}  // namespace

std::span<const Schedule> schedules() { return all_schedules; }
std::span<const Stage> stages() { return from_cutting_back; }
std::span<const Share> yield_curve() { return curve; }
std::span<const Share> room_life() { return room_rows; }
std::span<const Share> cool_life() { return cool_rows; }
std::span<const Share> canopy_regrowth() { return canopy_rows; }

const Table& schedule() {
    static const Table table = made_of(stages());
    return table;
}

const Table& yield() {
    static const Table table = made_of(yield_curve());
    return table;
}

const Table& room_storage() {
    static const Table table = made_of(room_life());
    return table;
}

const Table& cool_storage() {
    static const Table table = made_of(cool_life());
    return table;
}

const Table& canopy() {
    static const Table table = made_of(canopy_regrowth());
    return table;
}

Table table(const std::string& name) {
    const std::string wanted = check::folded(name);
    if (wanted == "schedule") return schedule();
    if (wanted == "yield") return yield();
    if (wanted == "storage") return room_storage();
    if (wanted == "cool storage") return cool_storage();
    if (wanted == "canopy") return canopy();
    for (const Schedule& known : all_schedules) {
        if (wanted == known.name) return made_of(known.stages);
    }
    throw bad_argument(
        "name",
        translatable("{1} was the text \"{2}\": give \"schedule\", \"bagged bark graft\", \"wrapped bark "
                     "graft\", \"bud on regrowth\", \"dormant cleft graft\", \"yield\", \"storage\", "
                     "\"cool storage\" or \"canopy\"."),
        {name});
}

}  // namespace slipbark::defaults

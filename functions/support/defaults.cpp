#include "slipbark/defaults.hpp"

#include "support/checks.hpp"

namespace slipbark::defaults {

namespace {

constexpr const char* practice = "common practice of the trade, no published source";
constexpr const char* rule = "common practice: some 20 kg at 33 months and 50 kg a year on, of 100 kg mature";
constexpr const char* assumed = "assumption of this program, change it to your own records";
constexpr const char* room =
    "Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46, sweet orange, alive 60 d after budding";
constexpr const char* cool = "low-temperature storage trial, Brazil: above 95 % take after 74 d at 5 C in polyethylene";

}  // namespace

const Table& schedule() {
    static const Table table{7,
                             {
                                 "Cut back and paint",
                                 -7.,
                                 -1.,
                                 0.,
                                 "d",
                                 "Renew the cut face on the day of grafting",
                                 practice,
                                 "Graft",
                                 0.,
                                 0.,
                                 0.,
                                 "d",
                                 "The bark slips cleanly from the wood",
                                 practice,
                                 "First look under the bag",
                                 14.,
                                 18.,
                                 21.,
                                 "d",
                                 "Buds green and plump; a black bud has failed",
                                 practice,
                                 "First airing",
                                 28.,
                                 31.,
                                 35.,
                                 "d",
                                 "Shoots near 5 cm: open one third of the bag's mouth",
                                 practice,
                                 "Rub off suckers, first round",
                                 21.,
                                 35.,
                                 42.,
                                 "d",
                                 "Shoots from below the graft; then every three weeks",
                                 practice,
                                 "Full opening of the top",
                                 35.,
                                 40.,
                                 45.,
                                 "d",
                                 "7 to 10 days after the first airing",
                                 practice,
                                 "Shoots clear, bag off",
                                 42.,
                                 52.,
                                 66.,
                                 "d",
                                 "Only once the shoots stand above the bag",
                                 practice,
                                 "Break tips back and tie",
                                 8.,
                                 10.,
                                 13.,
                                 "w",
                                 "Tied to stakes before the weight can tear the union",
                                 practice,
                                 "Start the framework",
                                 4.,
                                 5.,
                                 6.,
                                 "m",
                                 "Two shoots a graft, low",
                                 practice,
                                 "Thin the framework",
                                 7.,
                                 9.,
                                 10.,
                                 "m",
                                 "Progressively, never in one cut",
                                 practice,
                                 "Nurse limb off",
                                 12.,
                                 18.,
                                 24.,
                                 "m",
                                 "The vigorous at one year, the slow at two; seal the cut, repaint the sun side",
                                 practice,
                                 "First fruit",
                                 15.,
                                 18.,
                                 20.,
                                 "m",
                                 "A few fruit show the variety is true",
                                 practice,
                                 "First crop",
                                 30.,
                                 33.,
                                 36.,
                                 "m",
                                 "About a fifth of a mature tree's yield",
                                 practice,
                                 "Second crop",
                                 42.,
                                 45.,
                                 48.,
                                 "m",
                                 "About half of a mature tree's yield",
                                 practice,
                             }};
    return table;
}

const Table& yield() {
    static const Table table{3,
                             {
                                 0.,
                                 0.,
                                 "no crop in the season of grafting; common practice",  //
                                 1.5,
                                 0.02,
                                 assumed,  //
                                 2.75,
                                 0.20,
                                 rule,  //
                                 3.75,
                                 0.50,
                                 rule,  //
                                 5.,
                                 0.80,
                                 assumed,  //
                                 7.,
                                 1.,
                                 assumed,
                             }};
    return table;
}

const Table& room_storage() {
    static const Table table{3,
                             {
                                 0.,
                                 1.,
                                 room,  //
                                 5.,
                                 0.70,
                                 room,  //
                                 10.,
                                 0.36,
                                 room,  //
                                 15.,
                                 0.,
                                 room,
                             }};
    return table;
}

const Table& cool_storage() {
    static const Table table{3, {0., 1., cool, 74., 0.95, cool}};
    return table;
}

Table table(const std::string& name) {
    const std::string wanted = check::folded(name);
    if (wanted == "schedule") return schedule();
    if (wanted == "yield") return yield();
    if (wanted == "storage") return room_storage();
    if (wanted == "cool storage") return cool_storage();
    throw bad_argument("name", "was the text \"" + name + "\"",
                       R"(give "schedule", "yield", "storage" or "cool storage")");
}

}  // namespace slipbark::defaults

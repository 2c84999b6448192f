// Puts what people do wrong into every argument of every function.
//
// Each misuse must be refused with a sentence that names an argument of that function and says what would be right, or
// be one of the values listed in accepted() below, where the same value is right after all.

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/algorithm/string/case_conv.hpp>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <set>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "formula.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Arguments;
using catalogue::Entry;
using catalogue::Value;

struct Misuse {
    const char* name;
    Value value;
};

const std::vector<Misuse>& misuses() {
    static const std::vector<Misuse> all{
        {"NaN", std::nan("")},
        {"infinity", std::numeric_limits<double>::infinity()},
        {"minus infinity", -std::numeric_limits<double>::infinity()},
        {"text", "about ten"},
        {"blank", 0.0},
        {"missing", Value{}},
        {"negative", -3.0},
        {"fraction", 2.5},
        {"per cent", 85.0},
        {"huge", 1e300},
        {"block", Table(2, {1., 2., 3., 4.})},
        {"texts", Table(1, {std::string("a"), std::string("b")})},
        {"NaN in a range", Table(1, {1., std::nan("")})},
    };
    return all;
}

/// "method.argument" by misuse, for each that is right after all.
const std::map<std::string, std::set<std::string>>& accepted();

std::map<std::string, std::set<std::string>> found_accepted() {
    std::map<std::string, std::set<std::string>> found;
    for (const auto& area : catalogue::areas()) {
        for (const Entry& entry : area.entries) {
            if (entry.method == "why") continue;  // its arguments are those of the other functions
            const Arguments right = parse(entry.texts.example).arguments;
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                for (const Misuse& misuse : misuses()) {
                    Arguments wrong = right;
                    if (at >= wrong.values.size()) wrong.values.resize(at + 1);
                    wrong.values[at] = misuse.value;
                    const std::string place = std::string(entry.method) + "." + std::string(entry.arguments[at].name);
                    const std::string why = catalogue::why(std::string(entry.method), wrong);
                    if (why.empty() || why == entry.texts.no_answer.english()) {
                        // An argument may be missing where it is optional, and nowhere else.
                        if (misuse.name != std::string("missing")) {
                            found[misuse.name].insert(place);
                        } else {
                            EXPECT_TRUE(entry.parameters[at].optional) << place;
                        }
                        continue;
                    }
                    bool named = false;
                    for (const auto& argument : entry.arguments) named = named || why.starts_with(argument.name);
                    EXPECT_TRUE(named) << place << " " << misuse.name << ": " << why;
                    EXPECT_NE(why.find(": give "), std::string::npos) << place << " " << misuse.name << ": " << why;
                    EXPECT_TRUE(why.ends_with(".")) << place << " " << misuse.name << ": " << why;
                }
            }
        }
    }
    return found;
}

/// The places of `some` that `others` lack.
std::set<std::string> only_in(const std::set<std::string>& some, const std::set<std::string>& others) {
    std::set<std::string> rest;
    std::set_difference(some.begin(), some.end(), others.begin(), others.end(), std::inserter(rest, rest.end()));
    return rest;
}

TEST(Misuse, IsRefusedByNameOrListedHereAsRight) {
    auto found = found_accepted();
    auto listed = accepted();
    const std::set<std::string> none;
    for (const auto& misuse : misuses()) {
        if (misuse.name == std::string("missing")) continue;
        EXPECT_EQ(only_in(found[misuse.name], listed[misuse.name]), none) << misuse.name << ", not listed";
        EXPECT_EQ(only_in(listed[misuse.name], found[misuse.name]), none) << misuse.name << ", listed but refused";
    }
}

TEST(Misuse, TooFewAndTooManyArgumentsAreRefused) {
    for (const auto& area : catalogue::areas()) {
        for (const Entry& entry : area.entries) {
            if (entry.method == "why") continue;
            Arguments some = parse(entry.texts.example).arguments;
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                if (entry.parameters[at].optional) continue;
                const Arguments few{{some.values.begin(), some.values.begin() + static_cast<std::ptrdiff_t>(at)},
                                    some.null_date};
                EXPECT_TRUE(catalogue::why(std::string(entry.method), few)
                                .starts_with(std::string(entry.arguments[at].name) + " is missing: give "))
                    << entry.method << ": " << catalogue::why(std::string(entry.method), few);
            }
            some.values.resize(entry.parameters.size() + 1);
            EXPECT_TRUE(catalogue::why(std::string(entry.method), some).starts_with("arguments were ")) << entry.method;
        }
    }
}

TEST(Misuse, AnUnknownFunctionIsTold) { EXPECT_THROW(catalogue::why("SUM", {{}, usual_null_date()}), bad_argument); }

const std::map<std::string, std::set<std::string>>& accepted() {
    static const std::map<std::string, std::set<std::string>> all{
        // a blank cell arrives as 0, which is a value here (or has no answer)
        {"blank",
         {"bestGrafts.clustering",
          "bestGrafts.take",
          "breakEvenPrice.rate",
          "budsAlive.days",
          "compassPoint.bearing",
          "crewDays.grafts",
          "crewFinish.holidays",
          "crewSize.grafts",
          "crewSize.holidays",
          "dilute.volume",
          "equalAnnual.rate",
          "graftLife.at_day",
          "grafts.live_wanted",
          "graftsFrom.live_seen",
          "graftsFrom.live_wanted",
          "harvestDate.months",
          "heatDate.base",
          "heatSum.base",
          "heatUnits.base",
          "heatUnits.low",
          "milestone.edge",
          "packs.spare",
          "packs.units",
          "paint.area_m2",
          "paint.loss",
          "paint.water_parts",
          "payback.flows",
          "payback.rate",
          "presentValue.flows",
          "presentValue.rate",
          "regraftList.clustering",
          "regraftList.take",
          "regrafts.live",
          "sticks.grafts",
          "sticks.spare",
          "sunBearing.latitude",
          "sunBearing.longitude",
          "sunBearing.utc_offset_h",
          "sunHeight.latitude",
          "sunHeight.longitude",
          "sunHeight.utc_offset_h",
          "take.live",
          "takeDiff.live_a",
          "takeDiff.live_b",
          "takeHigh.grafted",
          "takeHigh.live",
          "takeLow.live",
          "tape.extra_turns",
          "tape.height_cm",
          "tape.overlap",
          "treeChance.clustering",
          "treeChance.grafts",
          "treeChance.live_wanted",
          "treeChance.take",
          "treeGrafts.clustering",
          "treeGrafts.live_wanted",
          "treeGrafts.take",
          "treeShare.clustering",
          "treeShare.grafts",
          "treeShare.take",
          "trees.area_ha",
          "yield.mature_yield",
          "yield.years",
          "yieldByYear.mature_yield",
          "yieldByYear.regraft_take",
          "yieldByYear.take",
          "yieldByYear.trees",
          "yieldByYear.yearly_loss"}},
        // 2.5
        {"fraction",
         {"bestGrafts.graft_cost",
          "bestGrafts.tree_worth",
          "budsAlive.days",
          "compassPoint.bearing",
          "crewDays.grafts_per_day",
          "crewFinish.grafts_per_day",
          "crewFinish.holidays",
          "crewFinish.start_date",
          "crewSize.grafts_per_day",
          "crewSize.holidays",
          "crewSize.start_date",
          "dilute.volume",
          "graftLife.at_day",
          "harvestDate.graft_date",
          "heatDate.base",
          "heatDate.target",
          "heatSum.base",
          "heatUnits.base",
          "heatUnits.low",
          "limbArea.base_diameter_cm",
          "limbArea.length_m",
          "limbArea.tip_diameter_cm",
          "milestone.graft_date",
          "packs.pack_size",
          "packs.units",
          "paint.area_m2",
          "paint.coverage_m2_per_l",
          "paint.water_parts",
          "payback.flows",
          "presentValue.flows",
          "stageDue.graft_date",
          "stageDue.on_date",
          "stubGrafts.spacing_cm",
          "stubGrafts.stub_diameter_cm",
          "sunBearing.date_time",
          "sunBearing.latitude",
          "sunBearing.longitude",
          "sunBearing.utc_offset_h",
          "sunHeight.date_time",
          "sunHeight.latitude",
          "sunHeight.longitude",
          "sunHeight.utc_offset_h",
          "tape.extra_turns",
          "tape.height_cm",
          "tape.stub_diameter_cm",
          "tape.tape_width_mm",
          "trees.area_ha",
          "trees.row_spacing_m",
          "trees.tree_spacing_m",
          "yield.mature_yield",
          "yield.years",
          "yieldByYear.mature_yield"}},
        // 85
        {"per cent",
         {"bestGrafts.graft_cost",
          "bestGrafts.live_wanted",
          "bestGrafts.most",
          "bestGrafts.tree_worth",
          "budsAlive.days",
          "compassPoint.bearing",
          "crewDays.crew",
          "crewDays.grafts",
          "crewDays.grafts_per_day",
          "crewFinish.crew",
          "crewFinish.grafts",
          "crewFinish.grafts_per_day",
          "crewFinish.holidays",
          "crewFinish.start_date",
          "crewSize.grafts",
          "crewSize.grafts_per_day",
          "crewSize.holidays",
          "crewSize.start_date",
          "dilute.volume",
          "graftLife.at_day",
          "grafts.live_wanted",
          "graftsFrom.grafted_seen",
          "graftsFrom.live_wanted",
          "harvestDate.graft_date",
          "harvestDate.months",
          "heatDate.base",
          "heatDate.target",
          "heatDate.upper",
          "heatSum.base",
          "heatSum.upper",
          "heatUnits.high",
          "heatUnits.upper",
          "inspect.trees",
          "limbArea.base_diameter_cm",
          "limbArea.length_m",
          "limbArea.tip_diameter_cm",
          "milestone.graft_date",
          "packs.pack_size",
          "packs.units",
          "paint.area_m2",
          "paint.coats",
          "paint.coverage_m2_per_l",
          "paint.water_parts",
          "payback.flows",
          "presentValue.flows",
          "regraftList.wanted_per_tree",
          "regrafts.live",
          "regrafts.wanted_per_tree",
          "schedule.graft_date",
          "stageDue.graft_date",
          "stageDue.on_date",
          "sticks.buds_per_stick",
          "sticks.grafts",
          "stubGrafts.most",
          "stubGrafts.spacing_cm",
          "stubGrafts.stub_diameter_cm",
          "sunBearing.date_time",
          "sunBearing.latitude",
          "sunBearing.longitude",
          "sunHeight.date_time",
          "sunHeight.latitude",
          "sunHeight.longitude",
          "take.grafted",
          "takeDiff.grafted_a",
          "takeDiff.grafted_b",
          "takeHigh.grafted",
          "takeLow.grafted",
          "tape.extra_turns",
          "tape.height_cm",
          "tape.stub_diameter_cm",
          "tape.tape_width_mm",
          "treeChance.grafts",
          "treeChance.live_wanted",
          "treeGrafts.live_wanted",
          "treeShare.grafts",
          "treeShare.live_wanted",
          "trees.area_ha",
          "trees.row_spacing_m",
          "trees.tree_spacing_m",
          "yield.mature_yield",
          "yield.years",
          "yieldByYear.mature_yield",
          "yieldByYear.trees",
          "yieldByYear.years"}},
        // -3, where below 0 there are values
        {"negative",
         {"compassPoint.bearing", "heatDate.base", "heatSum.base", "heatUnits.base", "heatUnits.low", "payback.flows",
          "presentValue.flows", "sunBearing.latitude", "sunBearing.longitude", "sunBearing.utc_offset_h",
          "sunHeight.latitude", "sunHeight.longitude", "sunHeight.utc_offset_h"}},
        {"block", {"yield.curve", "yieldByYear.curve"}},
    };
    return all;
}

}  // namespace
}  // namespace slipbark::tests

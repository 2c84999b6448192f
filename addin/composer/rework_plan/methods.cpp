#include "composer/rework_plan/methods.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <string_view>

#include "slipbark/defaults.hpp"

namespace slipbark::compose::block {

namespace {

struct Work {
    double minutes;
    double times;
};

/// Minutes a tree: assumptions of this program. From memory a tree takes 30 to 90 minutes to cut and drag and 12 to 30
/// minutes of aftercare in its first season.
const std::map<std::string, Work>& work() {
    static const std::map<std::string, Work> all{
        {"Cut back and paint", {40, 1}},
        {"Thin the regrowth", {4, 1}},
        {"First look under the bag", {2, 1}},
        {"First look through the film", {2, 1}},
        {"First look, wrap off", {3, 1}},
        {"First look", {2, 1}},
        {"Buds break through the film", {1, 1}},
        {"Bend the shoot over the bud", {3, 1}},
        {"First airing", {2, 1}},
        {"Rub off suckers, first round", {1.5, 3}},
        {"Full opening of the top", {2, 1}},
        {"Shoots clear, bag off", {3, 1}},
        {"Cut the ties", {2, 1}},
        {"Release the ties", {2, 1}},
        {"Tip back and stake", {6, 1}},
        {"Tie to stakes", {6, 1}},
        {"Take off the stock above the bud", {4, 1}},
        {"Choose the leader", {6, 1}},
        {"Start the framework", {5, 1}},
        {"Thin the framework", {6, 1}},
        {"Nurse limb off", {8, 1}},
    };
    return all;
}

/// What is done once for the block and needs no list of rows.
bool is_once(std::string_view stage) {
    constexpr std::array all{"Ask licence and quarantine", "Order wood or mark mother trees", "Materials in",
                             "Lower irrigation and nitrogen", "Cut the wood and store it"};
    return std::find(all.begin(), all.end(), stage) != all.end();
}

/// The number of the first stage of one of these names; an error where there is none, so that a renamed stage shows.
int number_of(const Method& method, const std::vector<std::string>& names) {
    for (std::size_t at = 0; at < method.stages.size(); ++at) {
        for (const std::string& name : names) {
            if (method.stages[at].name == name) return static_cast<int>(at) + 1;
        }
    }
    throw std::logic_error(method.name + " has no stage " + names.front());
}

Method read(const slipbark::defaults::Schedule& schedule) {
    Method method;
    method.name = schedule.name;
    for (const auto& known : schedule.stages) {
        MethodStage stage;
        stage.name = known.name;
        stage.once = is_once(known.name);
        if (const auto at = work().find(stage.name); at != work().end()) {
            stage.minutes = at->second.minutes;
            stage.times = at->second.times;
        }
        method.stages.push_back(std::move(stage));
    }
    method.cut = number_of(method, {"Cut back and paint"});
    method.look = number_of(
        method, {"First look under the bag", "First look through the film", "First look, wrap off", "First look"});
    method.off = number_of(
        method, {"Shoots clear, bag off", "Cut the ties", "Take off the stock above the bud", "Release the ties"});
    method.nurse_off = number_of(method, {"Nurse limb off"});
    method.first_crop = number_of(method, {"First crop"});
    method.second_crop = number_of(method, {"Second crop"});
    return method;
}

}  // namespace

const std::vector<Method>& methods() {
    static const std::vector<Method> all = [] {
        std::vector<Method> made;
        for (const auto& schedule : slipbark::defaults::schedules()) made.push_back(read(schedule));
        return made;
    }();
    return all;
}

}  // namespace slipbark::compose::block

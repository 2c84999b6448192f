#include "catalogue/catalogue.hpp"

#include <boost/algorithm/string/case_conv.hpp>
#include <map>

#include "catalogue/formula.hpp"

namespace slipbark::catalogue {

namespace {

std::string upper(std::string_view text) {
    return boost::algorithm::to_upper_copy(std::string(text), std::locale::classic());
}

}  // namespace

std::string FunctionEntry::cell_name() const { return std::string(cell_prefix) + upper(method); }

std::string Area::interface_name() const { return "X" + upper(name.substr(0, 1)) + std::string(name.substr(1)); }

const std::vector<Area>& areas() {
    static const std::vector<Area> all{block_area(), budwood_area(), calendar_area(),  daybook_area(), heat_area(),
                                       take_area(),  trials_area(),  materials_area(), yield_area(),   money_area(),
                                       odds_area(),  water_area(),   sun_area(),       support_area()};
    return all;
}

const FunctionEntry* find(std::string_view name) {
    const std::string given = check::folded(name);
    const std::string_view own = own_name(given);
    // Every WHY of a sheet asks for one.
    static const std::map<std::string, const FunctionEntry*> by_name = [] {
        std::map<std::string, const FunctionEntry*> all;
        for (const Area& area : areas()) {
            for (const FunctionEntry& entry : area.entries) all.emplace(upper(entry.method), &entry);
        }
        return all;
    }();
    const auto found = by_name.find(upper(own.empty() ? given : own));
    return found == by_name.end() ? nullptr : found->second;
}

}  // namespace slipbark::catalogue

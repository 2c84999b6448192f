#include "catalogue/catalogue.hpp"

#include <boost/algorithm/string/case_conv.hpp>

#include "catalogue/formula.hpp"

namespace slipbark::catalogue {

namespace {

std::string upper(std::string_view text) {
    return boost::algorithm::to_upper_copy(std::string(text), std::locale::classic());
}

}  // namespace

std::string Entry::cell_name() const { return std::string(cell_prefix) + upper(method); }

std::string Area::interface_name() const { return "X" + upper(name.substr(0, 1)) + std::string(name.substr(1)); }

const std::vector<Area>& areas() {
    static const std::vector<Area> all{block_area(), budwood_area(),   calendar_area(), heat_area(),
                                       take_area(),  materials_area(), yield_area(),    money_area(),
                                       odds_area(),  sun_area(),       support_area()};
    return all;
}

const Entry* find(std::string_view name) {
    const std::string given = check::folded(name);
    const std::string_view own = own_name(given);
    const std::string wanted = std::string(cell_prefix) + upper(own.empty() ? given : own);
    for (const Area& area : areas()) {
        for (const Entry& entry : area.entries) {
            if (entry.cell_name() == wanted) return &entry;
        }
    }
    return nullptr;
}

}  // namespace slipbark::catalogue

#include "budwood.hpp"

#include "catalogue.hpp"

namespace slipbark::catalogue {

Area budwood_area() {
    return {"budwood",
            "Budwood",
            {
                entry("sticks", SLIPBARK_FUNCTION(budwood::sticks),
                      {.does = "Whole sticks of budwood to order, scions cut whole from each stick.",
                       .gives = "sticks, whole",
                       .example = "REWORK.STICKS(3200; 2; 9; 0.15)",
                       .shows = "920",
                       .source = "Arithmetic of whole scions; common practice"},
                      {{"grafts", "Grafts to be placed", "grafts", "whole, 0 to 10,000,000"},
                       {"buds_per_graft", "Buds on one scion", "buds", "whole, 1 to 100"},
                       {"buds_per_stick", "Usable buds on one stick", "buds", "whole, 1 to 1000, at least one scion"},
                       {"spare", "Share ordered above the need, for culls and dead wood", "fraction",
                        "0 to 2, default 0"}}),
            }};
}

}  // namespace slipbark::catalogue

#include "slipbark/block.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area block_area() {
    return {"block",
            "Block",
            {
                entry("trees", SLIPBARK_FUNCTION(block::trees),
                      {.does = "Trees on an area planted on a rectangular grid.",
                       .gives = "trees, whole, rounded down",
                       .example = "REWORK.TREES(2; 6; 4)",
                       .shows = "833",
                       .source = "10,000 x area / (row x tree spacing); a hectare is 10,000 m2"},
                      {{"area_ha", "Net planted area, without headlands", "ha", "0 to 10,000"},
                       {"row_spacing_m", "Distance between rows", "m", "0.1 to 100"},
                       {"tree_spacing_m", "Distance between trees in the row", "m", "0.1 to 100"}}),
                entry("stubGrafts", SLIPBARK_FUNCTION(block::stub_grafts),
                      {.does = "Grafts to set round one stub, by its circumference.",
                       .gives = "grafts, whole",
                       .example = "REWORK.STUBGRAFTS(7.5)",
                       .shows = "3",
                       .source = "pi x diameter / spacing to the nearest whole, at least 1; one scion to 5 to 10 cm of "
                                 "circumference and 2 to 4 on a stub are common practice"},
                      {{"stub_diameter_cm", "Diameter of the cut face", "cm", "above 0, to 1000"},
                       {"spacing_cm", "Circumference left to each graft", "cm", "above 0, to 1000, default 7.5"},
                       {"most", "More than this are never set, however thick the stub", "grafts",
                        "whole, 1 to 1000, default 4"}}),
            }};
}

}  // namespace slipbark::catalogue

#include "slipbark/block.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area block_area() {
    return {
        "block",
        translatable("Block"),
        {
            entry("trees", SLIPBARK_FUNCTION(block::trees),
                  {.does = translatable("Trees on an area planted on a rectangular grid."),
                   .gives = translatable("trees, whole, rounded down"),
                   .example = "REWORK.TREES(2; 6; 4)",
                   .shows = "833",
                   .source = translatable("10,000 x area / (row x tree spacing); a hectare is 10,000 m2")},
                  {{"area_ha", translatable("Net planted area, without headlands"), Unit::ha, from_to(0, 10'000)},
                   {"row_spacing_m", translatable("Distance between rows"), Unit::m, from_to(0.1, 100)},
                   {"tree_spacing_m", translatable("Distance between trees in the row"), Unit::m, from_to(0.1, 100)}}),
            entry("stubGrafts", SLIPBARK_FUNCTION(block::stub_grafts),
                  {.does = translatable("Grafts to set round one stub, by its circumference."),
                   .gives = translatable("grafts, whole"),
                   .example = "REWORK.STUBGRAFTS(7.5)",
                   .shows = "3",
                   .source = translatable(
                       "pi x diameter / spacing to the nearest whole, at least 1; one scion to 5 to 10 cm of "
                       "circumference and 2 to 4 on a stub are common practice")},
                  {{"stub_diameter_cm", translatable("Diameter of the cut face"), Unit::cm, above_to(0, 1000)},
                   {"spacing_cm", translatable("Circumference left to each graft"), Unit::cm, above_to(0, 1000), 7.5},
                   {"most", translatable("More than this are never set, however thick the stub"), Unit::grafts,
                    whole(1, 1000), 4.0}}),
        }};
}

}  // namespace slipbark::catalogue

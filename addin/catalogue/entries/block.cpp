#include "slipbark/block.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area block_area() {
    return {"block",
            translatable("Block"),
            {
                entry("trees", SLIPBARK_FUNCTION(block::trees),
                      {.does = translatable("Trees on an area planted on a rectangular grid."),
                       .gives = translatable("trees, whole, rounded down"),
                       .example = "REWORK.TREES(2; 6; 4)",
                       .shows = "833",
                       .source = translatable("10,000 x area / (row x tree spacing); a hectare is 10,000 m2")},
                      {{"area_ha", translatable("Net planted area, without headlands"), Unit::ha, from_to(0, 10'000)},
                       {"row_spacing_m", translatable("Row spacing"), Unit::m, from_to(0.1, 100)},
                       {"tree_spacing_m", translatable("Tree spacing in the row"), Unit::m, from_to(0.1, 100)}}),
                entry("stubGrafts", SLIPBARK_FUNCTION(block::stub_grafts),
                      {.does = translatable("Number of grafts that fit round a stub, from its circumference."),
                       .gives = translatable("grafts, whole"),
                       .example = "REWORK.STUBGRAFTS(7.5)",
                       .shows = "3",
                       .source =
                           translatable("pi x diameter / spacing, rounded to a whole number, at least 1; common "
                                        "practice is one scion for 5 to 10 cm of circumference, and 2 to 4 on a stub")},
                      {{"stub_diameter_cm", translatable("Diameter of the cut face"), Unit::cm, above_to(0, 1000)},
                       {"spacing_cm", translatable("Circumference for each graft"), Unit::cm, above_to(0, 1000), 7.5},
                       {"most", translatable("Most grafts on one stub, however thick it is"), Unit::grafts,
                        whole(1, 1000), 4.0}}),
            }};
}

}  // namespace slipbark::catalogue

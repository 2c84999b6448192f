#include "slipbark/budwood.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view storages[]{"room", "cool"};
constexpr Column storage_columns[]{{translatable("days from 0"), Column::Of::numbers, {0, 10'000}, {}, true},
                                   {translatable("share alive"), Column::Of::numbers, {0, 1}}};

}  // namespace

Area budwood_area() {
    return {
        "budwood",
        translatable("Budwood"),
        {
            entry("sticks", SLIPBARK_FUNCTION(budwood::sticks),
                  {.does = translatable("Whole sticks of budwood to order, scions cut whole from each stick."),
                   .gives = translatable("sticks, whole"),
                   .example = "REWORK.STICKS(3200; 2; 9; 0.15)",
                   .shows = "920",
                   .source = translatable("Arithmetic of whole scions; common practice")},
                  {{"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(0)},
                   {"buds_per_graft", translatable("Buds on one scion"), Unit::buds, whole(1, 100)},
                   {"buds_per_stick", translatable("Usable buds on one stick"), Unit::buds,
                    whole(1, 1000).at_least("buds_per_graft")},
                   {"spare", translatable("Share ordered above the need, for culls and dead wood"), Unit::fraction,
                    from_to(0, 2), 0.0}}),
            entry("grafts", SLIPBARK_FUNCTION(budwood::grafts),
                  {.does =
                       translatable("Fewest grafts to place so that, with the stated confidence, enough of them live."),
                   .gives = translatable("grafts, whole, at most 10,000,000"),
                   .example = "REWORK.GRAFTS(50; 0.85; 0.95)",
                   .shows = "64",
                   .source = translatable("Binomial distribution; Sedcole, Crop Science 17:667-668, 1977")},
                  {{"live_wanted", translatable("Live grafts wanted"), Unit::grafts, whole(0, 1'000'000)},
                   {"take", translatable("Share of grafts that live"), Unit::fraction, above_to(0, 1)},
                   confidence(translatable("Probability of getting them"))}),
            entry("treeChance", SLIPBARK_FUNCTION(budwood::tree_chance),
                  {.does = translatable("Probability that a tree has at least so many of its grafts alive."),
                   .gives = translatable("probability, 0 to 1"),
                   .example = "REWORK.TREECHANCE(4; 0.7; 2)",
                   .shows = "0.9163",
                   .source = translatable(
                       "Binomial distribution; with clustering beta-binomial: Skellam, J. Royal Statistical "
                       "Society B 10:257-261, 1948")},
                  {{"grafts", translatable("Grafts on the tree"), Unit::grafts,
                    whole(0).noted(translatable("with clustering 0 to 10,000"))},
                   {"take", translatable("Share of grafts that live"), Unit::fraction, from_to(0, 1)},
                   {"live_wanted", translatable("Live grafts wanted on the tree"), Unit::grafts, whole(0), 1.0},
                   clustering}),
            entry("treeGrafts", SLIPBARK_FUNCTION(budwood::tree_grafts),
                  {.does =
                       translatable("Fewest grafts per tree so that, with the stated confidence, enough of them live."),
                   .gives = translatable("grafts, whole, at most 1000"),
                   .example = "REWORK.TREEGRAFTS(0.6; 0.95)",
                   .shows = "4",
                   .no_answer = translatable("Even 1000 grafts on a tree would not reach that confidence."),
                   .source = translatable("Least number with TREECHANCE at or above the confidence")},
                  {{"take", translatable("Share of grafts that live"), Unit::fraction, from_to(0, 1)},
                   confidence(translatable("Probability wanted")),
                   {"live_wanted", translatable("Live grafts wanted on each tree"), Unit::grafts, whole(0), 1.0},
                   clustering}),
            entry("budsAlive", SLIPBARK_FUNCTION(budwood::buds_alive),
                  {.does = translatable("Share of buds still alive after days of storage."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = "REWORK.BUDSALIVE(5; \"room\")",
                   .shows = "0.7",
                   .no_answer = translatable(
                       "That is past the last day of the storage table, where some buds were still alive."),
                   .source = translatable("Room: Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46; cool: "
                                          "low-temperature storage trial, Brazil; straight lines between the rows")},
                  {{"days", translatable("Days since the wood was cut"), Unit::days, from_to(0, 10'000)},
                   {"storage", translatable("How the wood is kept"), Unit::text, one_of(storages, storage_columns),
                    "room"}}),
        }};
}

}  // namespace slipbark::catalogue

#include "slipbark/budwood.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument grafts_of_tree{"grafts", translatable("Grafts on the tree"), Unit::grafts,
                                  whole(0).noted(translatable("with clustering 0 to 10,000"))};
constexpr Argument take{"take", translatable("Share of grafts that live"), Unit::fraction, from_to(0, 1)};
constexpr Argument full_tree{"live_wanted", translatable("Live grafts on a full tree"), Unit::grafts, whole(1)};

constexpr std::string_view storages[]{"room", "cool"};
constexpr ColumnDomain storage_columns[]{
    {translatable("days from 0"), ColumnDomain::Of::numbers, {0, 10'000}, {}, true},
    {translatable("share alive"), ColumnDomain::Of::numbers, {0, 1}}};

}  // namespace

Area budwood_area() {
    return {
        "budwood",
        translatable("Budwood"),
        {
            entry("sticks", SLIPBARK_FUNCTION(budwood::sticks),
                  {.does = translatable("Budsticks to order; each scion is cut whole from one stick."),
                   .gives = translatable("sticks, whole"),
                   .example = "REWORK.STICKS(3200; 2; 9; 0.15)",
                   .shows = "920",
                   .source = translatable("Arithmetic of whole scions; common practice")},
                  {{"grafts", translatable("Grafts to be placed"), Unit::grafts, whole(0)},
                   {"buds_per_scion", translatable("Buds on one scion"), Unit::buds, whole(1, 100)},
                   {"buds_per_stick", translatable("Usable buds on one stick"), Unit::buds,
                    whole(1, 1000).at_least("buds_per_scion")},
                   {"spare", translatable("Share ordered above the need, for culls and dead buds"), Unit::fraction,
                    from_to(0, 2).noted(translatable("0.1 is usual")), 0.0}}),
            entry("grafts", SLIPBARK_FUNCTION(budwood::grafts),
                  {.does =
                       translatable("Fewest grafts to place so that, with the stated confidence, enough of them live."),
                   .gives = translatable("grafts, whole, at most 10,000,000"),
                   .example = "REWORK.GRAFTS(50; 0.85; 0.95)",
                   .shows = "64",
                   .source = translatable("Binomial distribution; Sedcole, Crop Science 17:667-668, 1977")},
                  {{"live_wanted", translatable("Live grafts wanted"), Unit::grafts, whole(0, 1'000'000)},
                   {"take", translatable("Share of grafts that live"),
                    Unit::fraction,  // Whether so few would do within ten million grafts hangs on the take.
                    above_to(0, 1).depending_on_call()},
                   confidence(translatable("Probability of getting them"))}),
            entry("treeChance", SLIPBARK_FUNCTION(budwood::tree_chance),
                  {.does = translatable("Probability that a tree has at least the wanted number of live grafts."),
                   .gives = translatable("probability, 0 to 1"),
                   .example = "REWORK.TREECHANCE(4; 0.7; 2)",
                   .shows = "0.9163",
                   .source = translatable(
                       "Binomial distribution; with clustering beta-binomial: Skellam, J. Royal Statistical "
                       "Society B 10:257-261, 1948")},
                  {grafts_of_tree,
                   take,
                   {"live_wanted", translatable("Live grafts wanted on the tree"), Unit::grafts, whole(0), 1.0},
                   clustering}),
            entry("treeShare", SLIPBARK_FUNCTION(budwood::tree_share),
                  {.does = translatable("Share of the wanted live grafts that a tree has on average; the crop of a "
                                        "reworked tree follows it."),
                   .gives = translatable("fraction, 0 to 1; 0 where no graft is placed"),
                   .example = "REWORK.TREESHARE(4; 0.7; 2)",
                   .shows = "0.9541",
                   .source = translatable("Expected value of the smaller of live grafts and live grafts wanted, with "
                                          "the distributions of TREECHANCE")},
                  {grafts_of_tree,
                   take,
                   {"live_wanted", full_tree.meaning, Unit::grafts, full_tree.range, translatable("as many as grafts")},
                   clustering}),
            entry("graftsFrom", SLIPBARK_FUNCTION(budwood::grafts_from),
                  {.does = translatable(
                       "Fewest grafts to place so that enough of them live, when the take is known only from a count."),
                   .gives = translatable("grafts, whole, at most 100,000"),
                   .example = "REWORK.GRAFTSFROM(3; 7; 10)",
                   .shows = "8",
                   .source = translatable("Beta-binomial with Jeffreys' prior: Skellam, J. Royal Statistical Society B "
                                          "10:257-261, 1948; Brown, Cai & DasGupta, Statistical Science 16:101-133, "
                                          "2001; on clustered trees counts divided by the design effect, Kish 1965")},
                  {{"live_wanted", translatable("Live grafts wanted"), Unit::grafts, whole(0, 10'000)},
                   {"live_seen", translatable("Grafts seen alive"), Unit::grafts, whole(0).at_most("grafted_seen")},
                   {"grafted_seen", translatable("Grafts inspected"), Unit::grafts, whole(1)},
                   // Whether so few would do hangs on it.
                   {"confidence", translatable("Probability of getting them"), Unit::fraction,
                    between(0, 1).depending_on_call(), 0.95},
                   {"clustering", clustering.meaning, Unit::fraction,
                    from_below(0, 1).noted(translatable("above 0 only with trees_seen")), 0.0},
                   {"trees_seen",
                    translatable("Trees that the grafts inspected are on; the new ones will be as many "
                                 "to a tree"),
                    Unit::trees, whole(1).at_most("grafted_seen"),
                    translatable("none: each graft lives or dies on its own"), "4"}}),
            entry("bestGrafts", SLIPBARK_FUNCTION(budwood::best_grafts),
                  {.does = translatable("Most profitable number of grafts on a tree: the last of them still brings in "
                                        "more than it costs, regrafts counted where they are made."),
                   .gives = translatable("grafts, whole; 0 where no graft pays"),
                   .example = "REWORK.BESTGRAFTS(0.7; 4; 60; 3)",
                   .shows = "6",
                   .source = translatable(
                       "Largest value of (value of the tree x TREESHARE - cost of the grafts), each "
                       "missing graft grafted once more where that pays; where several are equal, the fewest grafts")},
                  {take,
                   full_tree,
                   {"tree_worth", translatable("Value today of a tree with all its live grafts"), Unit::money,
                    above_to(0, 1E12)},
                   {"graft_cost", translatable("Cost of one more graft"), Unit::money, above_to(0, 1E12)},
                   clustering,
                   {"most", translatable("Most grafts that a tree has room for"), Unit::grafts, whole(1, 1000), 40.0},
                   // Where a cost is given, which is about it, it may not be left out.
                   {"regraft_take", translatable("Share of regrafts that live, less what the year lost is worth"),
                    Unit::fraction, from_to(0, 1).depending_on_call(), translatable("none: no graft is made again"),
                    "0.5"},
                   {"regraft_cost", translatable("Cost of one regraft; only with a regraft_take"), Unit::money,
                    above_to(0, 1E12), translatable("as graft_cost"), "4"}}),
            entry("treeGrafts", SLIPBARK_FUNCTION(budwood::tree_grafts),
                  {.does =
                       translatable("Fewest grafts per tree so that, with the stated confidence, enough of them live."),
                   .gives = translatable("grafts, whole, at most 1000"),
                   .example = "REWORK.TREEGRAFTS(0.6; 0.95)",
                   .shows = "4",
                   .no_answer = translatable("Even 1000 grafts on a tree would not reach that confidence."),
                   .source = translatable("Smallest number with TREECHANCE at or above the confidence")},
                  {take,
                   confidence(translatable("Probability wanted")),
                   {"live_wanted", translatable("Live grafts wanted on each tree"), Unit::grafts, whole(0), 1.0},
                   clustering}),
            entry("budsAlive", SLIPBARK_FUNCTION(budwood::buds_alive),
                  {.does = translatable("Share of buds still alive after days of storage."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = "REWORK.BUDSALIVE(5; \"room\")",
                   .shows = "0.7",
                   .no_answer = translatable(
                       "This is after the last day of the storage table, when some buds were still alive."),
                   .source = translatable(
                       "Room: Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46; cool: "
                       "Scientia Agricola 65(4), 2008, citrus budsticks at 5 C; straight lines between the rows")},
                  {{"days", translatable("Days since the sticks were cut"), Unit::days, from_to(0, 10'000)},
                   {"storage", translatable("How the sticks are stored"), Unit::text, one_of(storages, storage_columns),
                    "room"}}),
        }};
}

}  // namespace slipbark::catalogue

#include "slipbark/budwood.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area budwood_area() {
    return {
        "budwood",
        "Budwood",
        {
            entry(
                "sticks", SLIPBARK_FUNCTION(budwood::sticks),
                {.does = "Whole sticks of budwood to order, scions cut whole from each stick.",
                 .gives = "sticks, whole",
                 .example = "REWORK.STICKS(3200; 2; 9; 0.15)",
                 .shows = "920",
                 .source = "Arithmetic of whole scions; common practice"},
                {{"grafts", "Grafts to be placed", "grafts", "whole, 0 to 10,000,000"},
                 {"buds_per_graft", "Buds on one scion", "buds", "whole, 1 to 100"},
                 {"buds_per_stick", "Usable buds on one stick", "buds", "whole, 1 to 1000, at least one scion"},
                 {"spare", "Share ordered above the need, for culls and dead wood", "fraction", "0 to 2, default 0"}}),
            entry("grafts", SLIPBARK_FUNCTION(budwood::grafts),
                  {.does = "Fewest grafts to place so that, with the stated confidence, enough of them live.",
                   .gives = "grafts, whole, at most 10,000,000",
                   .example = "REWORK.GRAFTS(50; 0.85; 0.95)",
                   .shows = "64",
                   .source = "Binomial distribution; Sedcole, Crop Science 17:667-668, 1977"},
                  {{"live_wanted", "Live grafts wanted", "grafts", "whole, 0 to 1,000,000"},
                   {"take", "Share of grafts that live", "fraction", "above 0, at most 1"},
                   {"confidence", "Probability of getting them", "fraction", "above 0 and below 1, default 0.95"}}),
            entry("treeChance", SLIPBARK_FUNCTION(budwood::tree_chance),
                  {.does = "Probability that a tree has at least so many of its grafts alive.",
                   .gives = "probability, 0 to 1",
                   .example = "REWORK.TREECHANCE(4; 0.7; 2)",
                   .shows = "0.9163",
                   .source = "Binomial distribution; with clustering beta-binomial: Skellam, J. Royal Statistical "
                             "Society B 10:257-261, 1948"},
                  {{"grafts", "Grafts on the tree", "grafts", "whole, 0 to 10,000,000; with clustering 0 to 10,000"},
                   {"take", "Share of grafts that live", "fraction", "0 to 1"},
                   {"live_wanted", "Live grafts wanted on the tree", "grafts", "whole, 0 to 10,000,000, default 1"},
                   {"clustering", "Correlation of luck between the grafts of a tree", "fraction",
                    "0 to below 1, default 0 (each graft on its own)"}}),
            entry("treeGrafts", SLIPBARK_FUNCTION(budwood::tree_grafts),
                  {.does = "Fewest grafts per tree so that, with the stated confidence, enough of them live.",
                   .gives = "grafts, whole, at most 1000",
                   .example = "REWORK.TREEGRAFTS(0.6; 0.95)",
                   .shows = "4",
                   .no_answer = "Even 1000 grafts on a tree would not reach that confidence.",
                   .source = "Least number with TREECHANCE at or above the confidence"},
                  {{"take", "Share of grafts that live", "fraction", "0 to 1"},
                   {"confidence", "Probability wanted", "fraction", "above 0 and below 1, default 0.95"},
                   {"live_wanted", "Live grafts wanted on each tree", "grafts", "whole, 0 to 10,000,000, default 1"},
                   {"clustering", "Correlation of luck between the grafts of a tree", "fraction",
                    "0 to below 1, default 0 (each graft on its own)"}}),
            entry("budsAlive", SLIPBARK_FUNCTION(budwood::buds_alive),
                  {.does = "Share of buds still alive after days of storage.",
                   .gives = "fraction, 0 to 1",
                   .example = "REWORK.BUDSALIVE(5; \"room\")",
                   .shows = "0.7",
                   .no_answer = "That is past the last day of the storage table, where some buds were still alive.",
                   .source = "Room: Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46; cool: "
                             "low-temperature storage trial, Brazil; straight lines between the rows"},
                  {{"days", "Days since the wood was cut", "days", "0 to 10,000"},
                   {"storage", "How the wood is kept", "text, or table of days and share",
                    "\"room\", \"cool\", or two columns with days rising from 0 and share 0 to 1, "
                    "default \"room\""}}),
        }};
}

}  // namespace slipbark::catalogue

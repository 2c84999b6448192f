#include "slipbark/yield.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area yield_area() {
    return {
        "yield",
        "Yield",
        {
            entry(
                "yield", SLIPBARK_FUNCTION(yield::per_tree),
                {.does = "Yield of one tree a time after grafting.",
                 .gives = "yield per tree, in the unit of the mature yield",
                 .example = "REWORK.YIELD(3; 100)",
                 .shows = "26.20",
                 .source = "Monotone piecewise cubic of Fritsch & Butland (1984), three-point ends; the default curve "
                           "is common practice and assumption, see REWORK.TABLE(\"yield\")"},
                {{"years", "Time since grafting, fractions welcome", "years", "0 to 1000"},
                 {"mature_yield", "Yield of a mature tree", "any weight or count", "0 to 1E12"},
                 {"curve", "Years since grafting and share of the mature yield", "table of years and share",
                  "at least two rows without a heading, years rising, share 0 to 10, default TABLE(\"yield\")"}}),
            entry(
                "yieldByYear", SLIPBARK_FUNCTION(yield::by_year),
                {.does = "Expected yield of a reworked block, year by year.",
                 .gives = "one column, one row a year from year 1: yield of the block, in the unit of the mature yield",
                 .example = "REWORK.YIELDBYYEAR(400; 3; 100; 0.9; 0.8; 0.02; {0; 0 | 2; 0.5 | 4; 1})",
                 .shows = "8820",
                 .source = "Expectation over trees that took, failed, were regrafted a year later and were lost"},
                {{"trees", "Trees reworked", "trees", "whole, 0 to 10,000,000"},
                 {"years", "How many years to tell", "years", "whole, 1 to 200"},
                 {"mature_yield", "Yield of a mature tree", "any weight or count", "0 to 1E12"},
                 {"take", "Share of trees with at least one live graft, not of grafts alive", "fraction", "0 to 1"},
                 {"regraft_take", "Share of failed trees that take when grafted again a year later", "fraction",
                  "0 to 1, default 0"},
                 {"yearly_loss", "Share of trees lost each year from any cause", "fraction", "0 to below 1, default 0"},
                 {"curve", "Years since grafting and share of the mature yield", "table of years and share",
                  "at least two rows without a heading, years rising, share 0 to 10, default TABLE(\"yield\")"}}),
            entry(
                "alternation", SLIPBARK_FUNCTION(yield::alternation),
                {.does = "Alternate-bearing index of successive years.",
                 .gives = "index, 0 steady to 1 a crop only every second year",
                 .example = "REWORK.ALTERNATION({60 | 20 | 60 | 60})",
                 .shows = "0.3333",
                 .source = "Mean of abs(y2 - y1) / (y2 + y1), the usual index of biennial bearing (Hoblyn et al. 1936, "
                           "from memory); two years without a crop count as 0"},
                {{"yields", "Yield in successive years", "list of any weight or count",
                  "at least two years, each 0 to 1E12, blank only at the end"}}),
        }};
}

}  // namespace slipbark::catalogue

#include "catalogue/entries/yield.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

Area yield_area() {
    return {
        "yield",
        translatable("Yield"),
        {
            entry(
                "yield", SLIPBARK_FUNCTION(yield::per_tree),
                {.does = translatable("Yield of one tree by time since grafting."),
                 .gives = translatable("yield per tree, in the unit of the mature yield"),
                 .example = "REWORK.YIELD(3; 100)",
                 .shows = "26.20",
                 .source = translatable(
                     "Monotone piecewise cubic of Fritsch & Butland (1984), three-point ends; the default curve "
                     "is experience and assumption (see REWORK.TABLE(\"yield\")), between recovery times in print that "
                     "disagree: topworked citrus back at its yield in 2 to 3 years (SA Fruit Journal, 2021), planted "
                     "oranges at half the oldest trees' boxes at 6 to 8 years (Florida Agricultural Statistics, 1995 "
                     "to "
                     "2000)")},
                {{"years", translatable("Time since grafting; fractions are allowed"), Unit::years, from_to(0, 1000)},
                 {"mature_yield", translatable("Yield of a mature tree"), Unit::any_weight_or_count, from_to(0, 1E12)},
                 curve}),
            entry(
                "yieldByYear", SLIPBARK_FUNCTION(yield::by_year),
                {.does = translatable("Expected yield of a reworked block, year by year."),
                 .gives = translatable(
                     "one column, one row a year from year 1: yield of the block, in the unit of the mature yield"),
                 .example = "REWORK.YIELDBYYEAR(400; 3; 100; 0.9; 0.8; 0.02; {0; 0 | 2; 0.5 | 4; 1})",
                 .shows = "8820",
                 .source = translatable(
                     "Expected value over grafts that took, failed, were regrafted a year later or were lost")},
                {{"trees", translatable("Trees reworked"), Unit::trees, whole(0)},
                 {"years", translatable("Number of years"), Unit::years, whole(1, 200)},
                 {"mature_yield", translatable("Yield of a mature tree"), Unit::any_weight_or_count, from_to(0, 1E12)},
                 {"take", translatable("Share of the block's canopy that lives, from TREESHARE"), Unit::fraction,
                  from_to(0, 1)},
                 {"regraft_take", translatable("Share of the failed grafts that live when grafted again a year later"),
                  Unit::fraction, from_to(0, 1), 0.0},
                 {"yearly_loss", translatable("Share of trees lost each year from any cause"), Unit::fraction,
                  from_below(0, 1), 0.0},
                 curve,
                 {"first_harvest", translatable("Years from grafting to the first harvest"), Unit::years,
                  above_to(0, 2), 1.0}}),
            entry(
                "yieldFit", SLIPBARK_FUNCTION(yield::fit),
                {.does = translatable("Yield curve from your own records: the given curve, stretched in time and "
                                      "scaled to fit them best, with rough limits."),
                 .gives = translatable(
                     "one row of 6 for each row of the curve: years, share, yield, of which the first two are a curve "
                     "for the other functions; then, in row 1 of the stretch and in row 2 of the mature yield, "
                     "estimate, low, high. The limits are rough: they guard against a fit that runs away, and how "
                     "often they are right is not proven"),
                 .example = "REWORK.YIELDFIT({3|4|5|7}; {6|21|38|80}; 100)",
                 .shows = "0",
                 .no_answer = translatable("No yield is above 0, the curve bears nothing at these ages, or the "
                                           "records do not show the mature yield yet: give one, or wait."),
                 .source = translatable("Least squares over the stretch, 0.25 to 4, and the mature yield; of equally "
                                        "good fits the stretch nearest to 1; limits from the profile of the squares, "
                                        "Bates & Watts, Nonlinear Regression Analysis, 1988 (from memory)")},
                {{"years", translatable("Age of each record since grafting"), Unit::years, from_to(0, 1000)},
                 {"yields", translatable("Yield of a tree at that age"), Unit::any_weight_or_count,
                  from_to(0, 1E12)
                      .length_of("years")
                      .blanks(Blanks::skipped)
                      .noted(translatable("at least 3 different ages, 2 with a mature yield"))},
                 {"mature_yield", translatable("Yield of a mature tree"), Unit::any_weight_or_count, above_to(0, 1E12),
                  translatable("fitted"), "100"},
                 curve,
                 confidence(translatable("Confidence of the rough limits"))}),
            entry("alternation", SLIPBARK_FUNCTION(yield::alternation),
                  {.does = translatable("Alternate-bearing index of successive years."),
                   .gives = translatable("index, 0 steady to 1 a crop only every second year"),
                   .example = "REWORK.ALTERNATION({60 | 20 | 60 | 60})",
                   .shows = "0.3333",
                   .source = translatable(
                       "Mean of abs(y2 - y1) / (y2 + y1), the usual index of biennial bearing (Hoblyn et al. 1936, "
                       "from memory); two years without a crop count as 0")},
                  {{"yields", translatable("Yield in successive years"), Unit::any_weight_or_count,
                    from_to(0, 1E12).blanks(Blanks::at_end).least_rows(2)}}),
        }};
}

}  // namespace slipbark::catalogue

#include "catalogue/entries/trials.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument take_a{"take_a", translatable("Take expected of one way of grafting"), Unit::fraction,
                          from_to(0, 1)};
constexpr Argument take_b{"take_b", translatable("Take expected of the other, not the same"), Unit::fraction,
                          from_to(0, 1)};
constexpr Argument grafts_per_tree{"grafts_per_tree", translatable("Grafts on each tree"), Unit::grafts, whole(1)};
constexpr Argument expected_clustering{"clustering",
                                       translatable("Correlation expected between grafts of the same tree"),
                                       Unit::fraction, from_below(0, 1), 0.2};
std::vector<std::string> verdict_words() {
    return {keywords<trials::Verdict>.begin(), keywords<trials::Verdict>.end()};
}

std::vector<std::string> factor_words() { return {"base"}; }

constexpr Text power_source = translatable(
    "Normal formula for two shares, Fleiss, Levin & Paik, Statistical Methods for Rates and Proportions, 3rd ed. 2003 "
    "(from memory), with the design effect of trees as clusters, Donner & Klar 2000 (from memory), and Student's t for "
    "few trees");

}  // namespace

Area trials_area() {
    return {
        "trials",
        translatable("Trials"),
        {
            entry("trialTrees", SLIPBARK_FUNCTION(trials::trial_trees),
                  {.does = translatable("Fewest trees of each way of grafting so that a trial shows the difference."),
                   .gives = translatable("trees of each way, whole, at least 2"),
                   .example = "REWORK.TRIALTREES(0.7; 0.85; 4)",
                   .shows = "50",
                   .no_answer = translatable("Even 1,000,000 trees of each way would not show so small a difference."),
                   .source = power_source},
                  {take_a,
                   take_b,
                   grafts_per_tree,
                   expected_clustering,
                   {"power", translatable("Chance wanted that the trial shows the difference"), Unit::fraction,
                    between(0, 1), 0.8},
                   confidence(translatable("Confidence with which it is to be shown"))}),
            entry("trialPower", SLIPBARK_FUNCTION(trials::trial_power),
                  {.does = translatable("Chance that a trial of this size shows that two ways of grafting "
                                        "differ."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = "REWORK.TRIALPOWER(0.7; 0.85; 4; 50)",
                   .shows = "0.8077",
                   .source = power_source},
                  {take_a,
                   take_b,
                   grafts_per_tree,
                   {"trees", translatable("Trees of each way"), Unit::trees, whole(2)},
                   expected_clustering,
                   confidence(translatable("Confidence with which it is to be shown"))}),
            entry("countOn", SLIPBARK_FUNCTION(trials::stop_counting),
                  {.does = translatable("Whether enough trees are looked at, one after the other at random, to call a "
                                        "block good or poor."),
                   .gives = translatable("1 row of 3: \"enough: good\", \"enough: poor\" or \"count on\", the live "
                                         "trees up to which the block is poor and those from which it is good (blank "
                                         "where that cannot be yet)"),
                   .example = "REWORK.COUNTON(24; 24; 0.99; 0.9)",
                   .shows = "enough: good",
                   .source = translatable("Wald, Sequential Analysis, 1947 (from memory); NIST/SEMATECH e-Handbook of "
                                          "Statistical Methods, 6.2.6 (from memory)"),
                   .words = {verdict_words, AnswerWords::In::table}},
                  {{"live_trees", translatable("Trees that came out right"), Unit::trees,
                    whole(0).at_most("looked_trees")},
                   {"looked_trees", translatable("Trees looked at"), Unit::trees, whole(0)},
                   {"good", translatable("Share of such trees in a good block"), Unit::fraction,
                    between(0, 1).depending_on_call().noted(translatable("above poor"))},
                   {"poor", translatable("Share of such trees in a poor block"), Unit::fraction,
                    between(0, 1).depending_on_call().noted(translatable("below good"))},
                   {"risk_good", translatable("Risk of calling a good block poor"), Unit::fraction, between(0, 0.5),
                    0.05},
                   {"risk_poor", translatable("Risk of calling a poor block good"), Unit::fraction, between(0, 0.5),
                    0.1}}),
            entry(
                "takeFactors", SLIPBARK_FUNCTION(trials::take_factors),
                {.does = translatable(
                     "What goes with the take: how the odds of a graft change with date, budwood, weather or grafter, "
                     "all at once. What goes with the take need not be what makes it."),
                 .gives = translatable(
                     "one row of 6 for \"base\" (the odds where all numbers are 0 and all texts the first), for each "
                     "column of numbers (\"column j\") and for each text but the first of its column: name, odds "
                     "ratio, low, high, p, dispersion"),
                 .example = R"(REWORK.TAKEFACTORS({4|3|4|2|1|2|0|3}; {4|4|4|4|4|4|4|4}; )"
                            R"({"Ana";1|"Ana";2|"Ana";3|"Ana";4|"Ben";1|"Ben";2|"Ben";3|"Ben";4}))",
                 .shows = "base",
                 .no_answer = translatable("Nothing has been inspected, or these odds have no end: all or none live, "
                                           "or of one kind."),
                 .source = translatable(
                     "Logistic regression by iteratively reweighted least squares, McCullagh & Nelder, Generalized "
                     "Linear Models, 2nd ed. 1989; limits and p by Student's t with the larger of the quasi-binomial "
                     "and the robust variance, MacKinnon & White 1985, HC1 (from memory)"),
                 .words = {factor_words, AnswerWords::In::table}},
                {{"live", translatable("Grafts alive by tree"), Unit::grafts,
                  whole(0).at_most("grafted").blanks(Blanks::not_yet)},
                 {"grafted", translatable("Grafts placed by tree"), Unit::grafts, whole(0).length_of("live")},
                 // Columns narrow each other, and rows are as many as in live.
                 {"factors", translatable("One row for each tree, one column for each factor"), Unit::table,
                  texts(translatable("each column of numbers or of texts, as many rows as live, blank only where "
                                     "nothing was inspected; numbers counted from near their middle, dates as days "
                                     "since the first; no column that others make"))},
                 // Near 1 a limit is beyond all numbers.
                 {"confidence", translatable("Confidence of the limits"), Unit::fraction,
                  between(0, 1).depending_on_call(), 0.95}}),
        }};
}

}  // namespace slipbark::catalogue

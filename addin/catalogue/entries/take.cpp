#include "catalogue/entries/take.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr double yes_or_no[]{0, 1};

constexpr Argument method{"method", translatable("Kind of interval"), Unit::text,
                          one_of(keywords<take::Interval>).noted(translatable("\"exact\" is Clopper-Pearson")),
                          "wilson"};
constexpr Argument live{"live", translatable("Grafts alive"), Unit::grafts, whole(0).at_most("grafted")};
constexpr Argument grafted{"grafted", translatable("Grafts placed"), Unit::grafts, whole(0)};
constexpr Text sources_of_limits = translatable(
    "Wilson 1927; Clopper & Pearson 1934; Agresti & Coull 1998; compared in Brown, Cai & DasGupta, Statistical Science "
    "16:101-133, 2001");
constexpr Text nothing_grafted = translatable("Nothing was grafted.");
constexpr Argument expected_clustering{
    "clustering", translatable("Correlation expected between grafts of the same tree"), Unit::fraction,
    from_below(0, 1).noted(translatable("limits use it where few trees were counted, and nothing else where "
                                        "one tree was, or all or none live")),
    0.2};
constexpr Argument groups_of_trees{"groups", translatable("Group of each row; case and surrounding spaces are ignored"),
                                   Unit::text_or_number,
                                   texts(translatable("any text or number")).blanks(Blanks::beside_blank)};
constexpr Argument live_of_groups{"live", translatable("Grafts alive"), Unit::grafts,
                                  whole(0).at_most("grafted").length_of("groups").blanks(Blanks::not_yet)};
constexpr Argument grafted_of_groups{"grafted", translatable("Grafts placed"), Unit::grafts,
                                     whole(0).length_of("groups")};
constexpr Text nothing_inspected = translatable("No row with grafts has been inspected yet.");

}  // namespace

Area take_area() {
    return {
        "take",
        translatable("Take"),
        {
            entry("take", SLIPBARK_FUNCTION(take::take),
                  {.does = translatable("Share of the grafts that are alive."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = "REWORK.TAKE(37; 64)",
                   .shows = "0.578125",
                   .no_answer = nothing_grafted,
                   .source = translatable("Arithmetic: live / grafted")},
                  {live, grafted}),
            entry("takeLow", SLIPBARK_FUNCTION(take::take_low),
                  {.does = translatable("Lower limit of the take, if each graft lives or dies on its own."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = R"(REWORK.TAKELOW(4; 20; 0.9; "exact"))",
                   .shows = "0.071353884308618",
                   .no_answer = nothing_grafted,
                   .source = sources_of_limits},
                  {live, grafted, confidence(translatable("Confidence of the two-sided interval")), method}),
            entry("takeHigh", SLIPBARK_FUNCTION(take::take_high),
                  {.does = translatable("Upper limit of the take, if each graft lives or dies on its own."),
                   .gives = translatable("fraction, 0 to 1"),
                   .example = "REWORK.TAKEHIGH(0; 20)",
                   .shows = "0.161125158052819",
                   .no_answer = nothing_grafted,
                   .source = sources_of_limits},
                  {live, grafted, confidence(translatable("Confidence of the two-sided interval")), method}),
            entry(
                "takeTrees", SLIPBARK_FUNCTION(take::take_trees),
                {.does = translatable(
                     "Take of a block counted tree by tree, with limits that allow for good and bad trees."),
                 .gives = translatable("1 row of 6: take, low, high, design effect (from clustering where it cannot "
                                       "be estimated: one tree, or all or none alive), trees inspected, their "
                                       "grafts"),
                 .example = "REWORK.TAKETREES({6|4|8|7|0}; {8|8|8|8|8})",
                 .shows = "0.625",
                 .no_answer = nothing_inspected,
                 .source = translatable("Cochran, Sampling Techniques, 3rd ed. 1977, ratio estimator with trees as "
                                        "clusters and finite block; Wilson limits with grafts / D and Student's t, "
                                        "Korn & Graubard 1998; D is the design effect moved towards the expected one "
                                        "where few grafts were live or few were dead")},
                {{"live", translatable("Grafts alive by tree"), Unit::grafts,
                  whole(0).at_most("grafted").blanks(Blanks::not_yet)},
                 {"grafted", translatable("Grafts placed by tree"), Unit::grafts, whole(0).length_of("live")},
                 confidence(translatable("Confidence of the two-sided interval")),
                 expected_clustering,
                 // At least the trees inspected.
                 {"of_trees", translatable("Trees of the block, of which these were inspected at random"), Unit::trees,
                  whole(1).depending_on_call().noted(translatable("at least the trees inspected; where all were, "
                                                                  "the limits are the take")),
                  translatable("many more than were inspected"), "100"}}),
            entry(
                "takeDiff", SLIPBARK_FUNCTION(take::take_diff),
                {.does = translatable("Difference between two takes, with limits and p: how often equal takes would "
                                      "differ this much or more. A small p is evidence against equal takes; a large p "
                                      "does not show that they are equal, and p is not the probability that they are."),
                 .gives = translatable(
                     "1 row of 4: take a - take b, low, high, two-sided p of Fisher's exact test (below 1E-280: "
                     "0); with a design effect above 1 of Pearson's chi-square divided by it"),
                 .example = "REWORK.TAKEDIFF(56; 70; 48; 80)",
                 .shows = "0.2",
                 .no_answer = translatable("One of the two has no grafts."),
                 .source = translatable(
                     "Newcombe, Statistics in Medicine 17:873-890, 1998, method 10; Fisher's exact test, tables "
                     "no more probable than the observed; Rao & Scott 1981, first order")},
                {{"live_a", translatable("Grafts alive, first"), Unit::grafts, whole(0).at_most("grafted_a")},
                 {"grafted_a", translatable("Grafts placed, first"), Unit::grafts, whole(0)},
                 {"live_b", translatable("Grafts alive, second"), Unit::grafts, whole(0).at_most("grafted_b")},
                 {"grafted_b", translatable("Grafts placed, second"), Unit::grafts, whole(0)},
                 confidence(translatable("Confidence of the two-sided interval")),
                 {"design_effect",
                  translatable(
                      "Design effect: how much less the grafts of a tree count for being alike, as TAKETREES gives it"),
                  Unit::ratio, from_to(0, ten_million).noted(translatable("up to 1 counts as 1")), 1.0}}),
            entry(
                "takeBy", SLIPBARK_FUNCTION(take::take_by),
                {.does = translatable(
                     "Take by grafter, day, variety or batch of budwood, one row per tree, with limits that allow "
                     "for good and bad trees, and a take adjusted towards that of the others."),
                 .gives = translatable(
                     "one row of 7 per group in order of first appearance: group, grafted, live, take, low, high, "
                     "adjusted take"),
                 .example = R"(REWORK.TAKEBY({"Ana"|"Ben"|"Ana"}; {7|3|9}; {8|3|12}))",
                 .shows = "Ana",
                 .no_answer = nothing_inspected,
                 .source = translatable(
                     "Limits: those of TAKETREES for each group's own trees; where every group has one row only, "
                     "Wilson's for its grafts. Adjusted take: beta-binomial fitted by maximum likelihood to the counts "
                     "that these limits use, mean of each group's take given its count; Griffiths, Biometrics "
                     "29:637-648, 1973")},
                {groups_of_trees, live_of_groups, grafted_of_groups,
                 confidence(translatable("Confidence of the two-sided intervals")), expected_clustering}),
            entry("takePool", SLIPBARK_FUNCTION(take::take_pool),
                  {.does = translatable("Takes of grafters, days, seasons or batches of budwood, adjusted by each "
                                        "other, with limits, and what to expect of a new one."),
                   .gives = translatable(
                       "one row of 7 per group in order of first appearance, and a last one \"new\": group, grafted, "
                       "live, take, pooled take, low, high"),
                   .example = R"(REWORK.TAKEPOOL({"A"|"A"|"B"|"B"|"C"}; {3|2|4|1|4}; {4|4|4|4|4}))",
                   .shows = "A",
                   .no_answer = translatable("Fewer than two groups have been inspected."),
                   .source = translatable(
                       "Beta-binomial by groups, mean and square root of rho uniform beforehand, counts divided as in "
                       "TAKEBY; Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 5.3 (from memory)")},
                  {groups_of_trees, live_of_groups, grafted_of_groups,
                   confidence(translatable("Probability that a take is between its limits")), expected_clustering}),
            entry(
                "clustering", SLIPBARK_FUNCTION(take::clustering),
                {.does = translatable("Correlation between grafts of the same tree, from inspected trees. With few "
                                      "trees it is too low on average: of 0.20 it shows 0.15 with 5 trees, 0.18 with "
                                      "10, 0.19 with 20."),
                 .gives = translatable("correlation, 0 (trees differ by no more than chance) to 1"),
                 .example = "REWORK.CLUSTERING({2|2|2|2|1|1|0|0}; {2|2|2|2|2|2|2|2})",
                 .shows = "0.466666667",
                 .no_answer = translatable("Cannot be estimated from these counts: two trees with two or more grafts "
                                           "are needed, and live and dead grafts on the same tree."),
                 .source = translatable("Beta-binomial by maximum likelihood; Griffiths, Biometrics 29:637-648, 1973")},
                {{"live", translatable("Grafts alive by tree"), Unit::grafts,
                  whole(0).at_most("grafted").blanks(Blanks::not_yet)},
                 {"grafted", translatable("Grafts placed by tree"), Unit::grafts, whole(0).length_of("live")}}),
            entry("takeNext", SLIPBARK_FUNCTION(take::take_next),
                  {.does = translatable("Take to plan the next round with, from past seasons, grafters or batches, "
                                        "with limits for the next one."),
                   .gives = translatable("1 row of 4: take, low, high, groups"),
                   .example = "REWORK.TAKENEXT({2024|2025|2026}; {70|45|88}; {100|100|100})",
                   .shows = "0.7038",
                   .no_answer = translatable("Fewer than two groups have been inspected."),
                   .source = translatable("Mean and prediction interval of the empirical logits; Cox & Snell, Analysis "
                                          "of Binary Data, 2nd ed. 1989 (from memory); Student's t with groups - 1 "
                                          "degrees")},
                  {{"groups",
                    translatable("Season, grafter or batch of each row; case and surrounding spaces are ignored"),
                    Unit::text_or_number, texts(translatable("any text or number")).blanks(Blanks::beside_blank)},
                   {"live", translatable("Grafts alive"), Unit::grafts,
                    whole(0).at_most("grafted").length_of("groups").blanks(Blanks::not_yet)},
                   {"grafted", translatable("Grafts placed"), Unit::grafts, whole(0).length_of("groups")},
                   {"confidence", translatable("Confidence that the next group is within the limits"), Unit::fraction,
                    between(0, 1), 0.8}}),
            entry("inspect", SLIPBARK_FUNCTION(take::inspect),
                  {.does = translatable(
                       "Trees to inspect, chosen at random, to know the share with a live graft well enough."),
                   .gives = translatable("trees, whole"),
                   .example = "REWORK.INSPECT(400; 0.05)",
                   .shows = "197",
                   .source = translatable(
                       "Cochran, Sampling Techniques, 3rd ed. 1977, section 4.4, with the correction for a finite "
                       "block")},
                  {{"trees", translatable("Trees in the block"), Unit::trees, whole(1)},
                   {"margin", translatable("Margin wanted: half the width of the interval"), Unit::fraction,
                    above_to(0, 1)},
                   {"take", translatable("Share expected"), Unit::fraction,
                    between(0, 1).noted(translatable("0.5 is the most cautious")), 0.5},
                   confidence(translatable("Confidence of the interval"))}),
            entry(
                "regrafts", SLIPBARK_FUNCTION(take::regrafts),
                {.does = translatable("Grafts to place again so that every inspected tree has its full number alive."),
                 .gives = translatable("grafts, whole: the live grafts missing or, with a take, the grafts to place "
                                       "for them; 0 while nothing is inspected"),
                 .example = "REWORK.REGRAFTS({4|2|0|3}; 4; 0.7)",
                 .shows = "17",
                 .no_answer = translatable("Even 1000 grafts on a tree would not reach that confidence."),
                 .source = translatable(
                     "Sum of max(0, wanted - live); with a take TREEGRAFTS for the grafts missing on each tree")},
                {{"live", translatable("Grafts alive by tree"), Unit::grafts, whole(0).blanks(Blanks::not_yet)},
                 {"wanted_per_tree", translatable("Live grafts wanted on each tree"), Unit::grafts, whole(1, 1000)},
                 // Where a confidence is given, which is about it, it may not be left out.
                 {"take", translatable("Share of grafts that live"), Unit::fraction, from_to(0, 1).depending_on_call(),
                  translatable("none: the live grafts missing are counted"), "0.7"},
                 confidence(translatable("Probability that a tree then has its number; only with a take")),
                 clustering}),
            entry("regraftList", SLIPBARK_FUNCTION(take::regraft_list),
                  {.does = translatable("Trees to regraft, so that every inspected tree has its full number alive."),
                   .gives = translatable("one row of 5 for each tree with too few, in the order of the lines: row, "
                                         "tree, live, missing, grafts to place"),
                   .example = "REWORK.REGRAFTLIST({12|12|13}; {1|2|1}; {4|2|0}; 4; 0.7)",
                   .shows = "12",
                   .no_answer = translatable("No inspected tree is short of grafts, or even 1000 grafts on one of them "
                                             "would not reach that confidence."),
                   .source = translatable("TREEGRAFTS for the grafts missing on each tree")},
                  {{"rows", translatable("Row of each tree"), Unit::text_or_number,
                    texts(translatable("any text or number")).blanks(Blanks::beside_blank)},
                   {"trees", translatable("Tree in its row"), Unit::text_or_number,
                    texts(translatable("any text or number")).length_of("rows").blanks(Blanks::beside_blank)},
                   {"live", translatable("Grafts alive by tree"), Unit::grafts,
                    whole(0).length_of("rows").blanks(Blanks::not_yet)},
                   {"wanted_per_tree", translatable("Live grafts wanted on each tree"), Unit::grafts, whole(1, 1000)},
                   // Where a confidence is given, which is about it, it may not be left out.
                   {"take", translatable("Share of grafts that live"), Unit::fraction,
                    from_to(0, 1).depending_on_call(), translatable("none: as many are placed as are missing"), "0.7"},
                   confidence(translatable("Probability that a tree then has its number; only with a take")),
                   clustering}),
            entry("graftLife", SLIPBARK_FUNCTION(take::graft_life),
                  {.does = translatable(
                       "Share of grafts still alive on a day, from grafts watched for different lengths of time."),
                   .gives = translatable(
                       "1 row of 3: share, low, high (log-log; where none or all are lost, Clopper-Pearson for the "
                       "grafts still watched, or for those lost last times the high limit before; with trees, for the "
                       "trees). Between two inspections the share is on a straight line, low is that of the "
                       "later and high that of the earlier one"),
                   .example = "REWORK.GRAFTLIFE({10|20|30|30}; {1|0|1|0}; 30)",
                   .shows = "0.375",
                   .no_answer = translatable("No graft was watched as long as that, or all are on one tree."),
                   .source = translatable(
                       "Kaplan & Meier, J. American Statistical Association 53:457-481, 1958; log-log limits with "
                       "Greenwood's variance, Kalbfleisch & Prentice 1980; with trees the larger of that and the "
                       "robust variance over trees, Williams 1995 (from memory), and Student's t")},
                  {{"days", translatable("Days from grafting to the loss, or to the last inspection"), Unit::days,
                    from_to(0, 1E12)},
                   {"lost", translatable("Whether the graft was lost then (1) or still alive (0)"), Unit::flag,
                    one_of(yes_or_no).length_of("days")},
                   {"at_day", translatable("Day to look up"), Unit::days, from_to(0, 1E12)},
                   confidence(translatable("Confidence of the limits")),
                   {"trees", translatable("Tree of each graft; case and surrounding spaces are ignored"),
                    Unit::text_or_number, texts(translatable("any text or number")).length_of("days"),
                    translatable("each graft on its own"), "{1|1|2|2}"},
                   {"dated", translatable("What the days of losses say"), Unit::text,
                    one_of(keywords<take::Dated>)
                        .noted(translatable("\"look\": when the loss was seen, \"day\": when it happened")),
                    "look"}}),
        }};
}

}  // namespace slipbark::catalogue

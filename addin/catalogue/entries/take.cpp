#include "slipbark/take.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view confidence_range = "above 0 and below 1, default 0.95";
constexpr std::string_view method_range =
    R"("wilson", "exact" (Clopper-Pearson), "jeffreys" or "agresti", default "wilson")";
constexpr std::string_view nothing_grafted = "Nothing was grafted.";
constexpr std::string_view nothing_inspected = "No row with grafts has been inspected yet.";

}  // namespace

Area take_area() {
    return {
        "take",
        "Take",
        {
            entry("take", SLIPBARK_FUNCTION(take::take),
                  {.does = "Share of the grafts that are alive.",
                   .gives = "fraction, 0 to 1",
                   .example = "REWORK.TAKE(37; 64)",
                   .shows = "0.578125",
                   .no_answer = nothing_grafted,
                   .source = "Arithmetic: live / grafted"},
                  {{"live", "Grafts alive", "grafts", "whole, 0 to grafted"},
                   {"grafted", "Grafts placed", "grafts", "whole, 0 to 10,000,000"}}),
            entry("takeLow", SLIPBARK_FUNCTION(take::take_low),
                  {.does = "Lower limit of the take, each graft taken as living or dying on its own.",
                   .gives = "fraction, 0 to 1",
                   .example = R"(REWORK.TAKELOW(4; 20; 0.9; "exact"))",
                   .shows = "0.071353884308618",
                   .no_answer = nothing_grafted,
                   .source = "Wilson 1927; Clopper & Pearson 1934; Agresti & Coull 1998; compared in Brown, Cai & "
                             "DasGupta, Statistical Science 16:101-133, 2001"},
                  {{"live", "Grafts alive", "grafts", "whole, 0 to grafted"},
                   {"grafted", "Grafts placed", "grafts", "whole, 0 to 10,000,000"},
                   {"confidence", "Confidence of the two-sided interval", "fraction", confidence_range},
                   {"method", "Kind of interval", "text", method_range}}),
            entry("takeHigh", SLIPBARK_FUNCTION(take::take_high),
                  {.does = "Upper limit of the take, each graft taken as living or dying on its own.",
                   .gives = "fraction, 0 to 1",
                   .example = "REWORK.TAKEHIGH(0; 20)",
                   .shows = "0.161125158052819",
                   .no_answer = nothing_grafted,
                   .source = "Wilson 1927; Clopper & Pearson 1934; Agresti & Coull 1998; compared in Brown, Cai & "
                             "DasGupta, Statistical Science 16:101-133, 2001"},
                  {{"live", "Grafts alive", "grafts", "whole, 0 to grafted"},
                   {"grafted", "Grafts placed", "grafts", "whole, 0 to 10,000,000"},
                   {"confidence", "Confidence of the two-sided interval", "fraction", confidence_range},
                   {"method", "Kind of interval", "text", method_range}}),
            entry("takeTrees", SLIPBARK_FUNCTION(take::take_trees),
                  {.does = "Take of a block tallied tree by tree, with limits that allow for trees having good and bad "
                           "luck as a whole.",
                   .gives = "1 row of 6: take, low, high, design effect (1 where it cannot be estimated: one tree, or "
                            "all or none alive), trees inspected, their grafts",
                   .example = "REWORK.TAKETREES({6|4|8|7|0}; {8|8|8|8|8})",
                   .shows = "0.625",
                   .no_answer = nothing_inspected,
                   .source = "Cochran, Sampling Techniques, 3rd ed. 1977, ratio estimator with trees as clusters; "
                             "Wilson limits with grafts / max(1, design effect)"},
                  {{"live", "Grafts alive by tree; blank where not inspected yet", "list of grafts",
                    "whole, 0 to grafted, or blank"},
                   {"grafted", "Grafts placed by tree", "list of grafts", "whole, 0 to 10,000,000"},
                   {"confidence", "Confidence of the two-sided interval", "fraction", confidence_range}}),
            entry(
                "takeDiff", SLIPBARK_FUNCTION(take::take_diff),
                {.does = "Difference between two takes, with limits and the probability that it is luck.",
                 .gives = "1 row of 4: take a - take b, low, high, two-sided p of Fisher's exact test (below 1E-280: "
                          "0)",
                 .example = "REWORK.TAKEDIFF(56; 70; 48; 80)",
                 .shows = "0.2",
                 .no_answer = "One of the two has no grafts.",
                 .source = "Newcombe, Statistics in Medicine 17:873-890, 1998, method 10; Fisher's exact test, tables "
                           "no more probable than the observed"},
                {{"live_a", "Grafts alive, first", "grafts", "whole, 0 to grafted_a"},
                 {"grafted_a", "Grafts placed, first", "grafts", "whole, 0 to 10,000,000"},
                 {"live_b", "Grafts alive, second", "grafts", "whole, 0 to grafted_b"},
                 {"grafted_b", "Grafts placed, second", "grafts", "whole, 0 to 10,000,000"},
                 {"confidence", "Confidence of the two-sided interval", "fraction", confidence_range}}),
            entry(
                "takeBy", SLIPBARK_FUNCTION(take::take_by),
                {.does = "Take by grafter, day, variety or batch of budwood, with limits and a take steadied by the "
                         "others.",
                 .gives = "one row of 7 per group in order of first appearance: group, grafted, live, take, low, "
                          "high (Wilson), steadied take",
                 .example = R"(REWORK.TAKEBY({"Ana"|"Ben"|"Ana"}; {7|3|9}; {8|3|12}))",
                 .shows = "Ana",
                 .no_answer = nothing_inspected,
                 .source = "Steadied: beta-binomial fitted by maximum likelihood, mean of each group's take given its "
                           "tally; Griffiths, Biometrics 29:637-648, 1973"},
                {{"groups", "Group of each row, told apart as written", "list of texts or numbers",
                  "blank only in rows not inspected"},
                 {"live", "Grafts alive; blank where not inspected yet", "list of grafts",
                  "whole, 0 to grafted, or blank"},
                 {"grafted", "Grafts placed", "list of grafts", "whole, 0 to 10,000,000"},
                 {"confidence", "Confidence of the two-sided intervals", "fraction", confidence_range}}),
            entry(
                "inspect", SLIPBARK_FUNCTION(take::inspect),
                {.does = "Trees to inspect, drawn at random, so that the share with a live graft is known well enough.",
                 .gives = "trees, whole",
                 .example = "REWORK.INSPECT(400; 0.05)",
                 .shows = "197",
                 .source = "Cochran, Sampling Techniques, 3rd ed. 1977, section 4.4, with the correction for a finite "
                           "block"},
                {{"trees", "Trees in the block", "trees", "whole, 1 to 10,000,000"},
                 {"margin", "Half width of the interval wanted", "fraction", "above 0, at most 1"},
                 {"take", "Share expected", "fraction", "above 0 and below 1, default 0.5 (the most cautious)"},
                 {"confidence", "Confidence of the interval", "fraction", confidence_range}}),
            entry("regrafts", SLIPBARK_FUNCTION(take::regrafts),
                  {.does = "Grafts to do again so that every inspected tree has its full number alive.",
                   .gives = "grafts, whole; 0 while nothing is inspected",
                   .example = "REWORK.REGRAFTS({4|2|0|3}; 3)",
                   .shows = "4",
                   .source = "Arithmetic: sum of max(0, wanted - live)"},
                  {{"live", "Grafts alive by tree; blank where not inspected yet", "list of grafts",
                    "whole, 0 to 10,000,000, or blank"},
                   {"wanted_per_tree", "Live grafts wanted on each tree", "grafts", "whole, 1 to 1000"}}),
            entry(
                "graftLife", SLIPBARK_FUNCTION(take::graft_life),
                {.does = "Share of grafts still alive at a day, from grafts watched for unequal times.",
                 .gives = "1 row of 3: share, low, high (log-log; where none or all are lost, Clopper-Pearson for the "
                          "grafts still watched, or for those lost)",
                 .example = "REWORK.GRAFTLIFE({10|20|30|30}; {1|0|1|0}; 30)",
                 .shows = "0.375",
                 .no_answer = "No graft was watched as long as that.",
                 .source = "Kaplan & Meier, J. American Statistical Association 53:457-481, 1958; log-log limits with "
                           "Greenwood's variance, Kalbfleisch & Prentice 1980"},
                {{"days", "Days from grafting to the loss, or to the last look", "list of days", "0 to 1E12"},
                 {"lost", "Whether the graft was lost then (1) or still alive (0)", "list of 1 and 0", "1 or 0"},
                 {"at_day", "Day asked for", "days", "0 to 1E12"},
                 {"confidence", "Confidence of the limits", "fraction", confidence_range}}),
        }};
}

}  // namespace slipbark::catalogue

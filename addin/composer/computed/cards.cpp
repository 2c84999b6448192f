// Worked examples for students: each function with a question, a hint, inputs to change, the formula, the answer, and
// what was published or computed apart from this extension. Formula, answer and what was printed are hidden until asked
// for.
//
// One sheet for each lesson, on it a card for each example. The guide's own examples come from the catalogue, so that
// no function is forgotten; the published ones are rows of tests/reference/, by the same numbers.
#include "composer/computed/cards.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "composer/sheet.hpp"
#include "composer/styles.hpp"
#include "composer/text_collector.hpp"
#include "slipbark/defaults.hpp"
#include "support/checks.hpp"

namespace slipbark::compose {

namespace {

using catalogue::FunctionEntry;

/// One example. `call` is written with literals; each literal becomes a cell.
struct Example {
    std::string id;
    std::string call;
    std::string question;
    std::string printed;  ///< a number, a date as 2027-09-06, a text, or "no answer"
    std::string kind;     ///< where `printed` comes from, as the card's label
    Phrase source;
    double tolerance = 0;  ///< 0: half a unit of the last printed digit
    int row = 1;           ///< which cell of a table is compared
    int column = 1;
    std::string cell = {};     ///< what that cell holds
    std::string by_hand = {};  ///< how to come near the answer without the function; gives it away
    std::string hint = {};     ///< a first step towards the answer of this question
};

constexpr const char* published = "Published";
constexpr const char* from_memory = "From memory";  // a published value that was not looked up again
constexpr const char* computed = "Computed";        // apart from this extension, by another library or by hand
constexpr const char* stand_in = "Borrowed check";  // published for another function, which must give the same there
constexpr const char* guide = "In the guide";
constexpr const char* guide_id = "guide";

/// The file of tests/reference/ that holds a published example as a row, by the same number; none for some.
std::string file_of(const std::string& id) {
    if (id == guide_id || id == "F-sum" || id == "KM-1000" || id.starts_with("ours-")) return {};
    const std::array<std::pair<std::string_view, const char*>, 20> files{{
        {"WT-", "worked_examples_take.csv"},
        {"W13-", "worked_examples_calendar.csv"},
        {"W15", "worked_examples_calendar.csv"},
        {"W", "worked_examples_money.csv"},
        {"S7c-", "worked_examples_money.csv"},
        {"C-c", "worked_examples_money.csv"},
        {"A-", "A_binomial_ci.csv"},
        {"B-", "B_trials_for_k_successes.csv"},
        {"C-", "C_at_least_m_of_g.csv"},
        {"D-", "D_two_proportions.csv"},
        {"E-", "E_dates.csv"},
        {"F-", "F_degree_days.csv"},
        {"G-", "G_monotone_interp_growth.csv"},
        {"H-", "H_finance.csv"},
        {"I-", "I_geometry.csv"},
        {"J-", "J_solar_position.csv"},
        {"L-", "L_ratio_survival_shrinkage.csv"},
        {"T-", "T_trials.csv"},
        {"U-", "U_pooling.csv"},
        {"V-", "V_factors.csv"},
    }};
    const auto* const found =
        std::find_if(files.begin(), files.end(), [&](const auto& file) { return id.starts_with(file.first); });
    if (found == files.end()) throw std::logic_error("no file of check values for example " + id);
    return found->second;
}

// Sources that several examples share.
constexpr const char* cornell = "White, Shaffer, Pool & Lalor (1997), Cornell R.B. 97-05, vines";
constexpr const char* lopes =
    "Lopes & Zica, Pesquisa Agropecuaria Tropical 4(1):40-46 (1974, from memory), sweet orange in polyethylene at room "
    "temperature";
constexpr const char* uc_ipm = "UC IPM degree-days for Esparto, California, 2020 (CIMIS), 50 and 70 F";
constexpr const char* newcombe_single = "Newcombe (1998), Statistics in Medicine 17:857-872, table I";
constexpr const char* newcombe_pair = "Newcombe (1998), Statistics in Medicine 17:873-890, table II, method 10";
constexpr const char* spa = "Reda & Andreas (2008), Solar Position Algorithm, NREL/TP-560-34302, appendix";
constexpr const char* ecma_workday =
    "published for the function WORKDAY, ECMA-376 Part 4; CREWFINISH counts its first day and so takes the day after";
constexpr const char* ecma_months =
    "published for the function EDATE, ECMA-376 Part 4; stages count months the same way";
constexpr const char* crowder =
    "Crowder (1978), Applied Statistics 27:34-37, seeds in five plates; ratio estimator in "
    "exact fractions and in R";
constexpr const char* freireich = "Freireich et al. (1963), Blood 21:699-716, weeks; computed again with R survival";
constexpr const char* honeycrisp = "Gallardo (WSU), Honeycrisp cost study 2011, in Good Fruit Grower, Dec 2012";
constexpr const char* plan_of_ours = "our own scene, by hand";

/// A question in words for each of the guide's examples, and how to see its answer without the function.
struct Words {
    std::string_view method;
    const char* question;
    const char* by_hand;
    const char* hint = "";
};

constexpr auto words = std::to_array<Words>({
    {"trees", "How many trees are there on two hectares at 6 by 4 m?", "10,000 x 2 / (6 x 4) = 833.3, whole trees"},
    {"stubGrafts", "A stub of 7.5 cm gets one graft for each 7.5 cm of its circumference. How many grafts fit?",
     "pi x 7.5 = 23.6 cm; one for each 7.5 cm is 3.1"},
    {"sticks",
     "3,200 scions of two buds are to be grafted; a stick has nine usable buds, and 15 % are spare. How many sticks?",
     "a stick gives 4 whole scions; 3,200 x 1.15 / 4 = 920"},
    {"grafts", "Fifty live grafts are wanted and 85 in 100 take. How many must be placed to be 95 % sure of them?",
     "1-BINOM.DIST(49;64;0.85;1) is above 0.95, with 63 it is not"},
    {"treeChance", "A tree gets four grafts, of which 70 in 100 take. How likely are at least two alive?",
     "1 - 0.3^4 - 4 x 0.7 x 0.3^3"},
    {"treeGrafts", "60 in 100 grafts take. How many on a tree, so that 95 in 100 trees have at least one alive?",
     "1 - 0.4^3 = 0.936 is too few, 1 - 0.4^4 = 0.974"},
    {"budsAlive",
     "At room temperature 70 % of sweet orange buds were alive after 5 days and 36 % after 10. What share is alive "
     "after five days?",
     "printed in the trial: 70 %"},
    {"milestone", "Grafting was on 6 September 2027, and the nurse limb comes off 18 months later. On which date?",
     "eighteen months on"},
    {"schedule", "Which stage comes first in the calendar of a rework?", "the first row of TABLE(\"schedule\")"},
    {"stageDue", "Fourteen days after grafting: which stage is due, if the first look is due from day 14 to day 21?",
     "its latest date is 21 days after grafting"},
    {"crewDays", "Four grafters place 120 grafts a day each. How many days for 3,200 grafts?",
     "3,200 / 480 = 6.7, whole days"},
    {"crewFinish", "They start on Monday 6 September 2027, weekends off. On which day is the last graft placed?",
     "seven working days, the first included; Calc: WORKDAY(start - 1; 7)"},
    {"crewSize", "It must be done from Monday to Friday. How many grafters are needed?", "3,200 / (5 x 120) = 5.3"},
    {"heatUnits", "A night of 5 and a day of 20 degrees: how many degree-days above 13, by the triangle?",
     "(20 - 13)^2 / (2 x 15)"},
    {"heatSum", "Three days: how much heat above 10 degrees in all?", "never below 10: the means less 10, 5 + 7 + 9"},
    {"heatDate", "On which day does the heat above 10 degrees reach 12 degree-days?", "5, then 5 + 7 = 12 on day two"},
    {"take", "37 of 64 grafts are alive. What is the take?", "37 / 64"},
    {"takeLow",
     "4 of 20 are alive. What is the lower limit of the two-sided 90 % interval for the take, by the exact method?",
     "printed in the NIST/SEMATECH e-Handbook 7.2.4; Calc: BETA.INV(0.05;4;17). The one-sided 95 % limit is the same"},
    {"takeHigh", "None of 20 is alive. What is the upper limit of the two-sided 95 % interval for the take?",
     "published, Newcombe (1998); z^2 / (20 + z^2), z = 1.96"},
    {"takeTrees", "Five trees of eight grafts were counted. What is the take of the block?", "25 / 40"},
    {"takeDiff", "56 of 70 live with one grafter, 48 of 80 with another. How far apart are their takes?",
     "56/70 - 48/80, published in Newcombe (1998)"},
    {"takeBy", "Which grafter is first in the table of takes?", "in order of first appearance"},
    {"inspect",
     "How many of 400 trees must be inspected, chosen at random, to know the share of trees with a live graft within 5 "
     "points, 95 % sure?",
     "384.1 without limit on the trees, 384.1 / (1 + 383.1/400) = 196.2 for 400, rounded up; printed tables round to "
     "196"},
    {"regrafts",
     "Each tree should have four live grafts, 70 in 100 take. How many must be placed again, to be 95 % sure of each "
     "tree?",
     "0 + 5 + 9 + 3, TREEGRAFTS of what each tree lacks"},
    {"graftLife", "Four grafts were watched, two lost on days 10 and 30. What share is alive after day 30?",
     "3/4 x 1/2"},
    {"limbArea", "How much bark has a limb that tapers from 12 to 8 cm over 1.5 m?",
     "about the middle girth times length: pi x 0.10 x 1.5 = 0.471 m2"},
    {"paint", "480 m2 of bark, a litre of mix covers 6 m2, half of it water, a fifth lost. How much paint?",
     "480 / 6 / 0.8 = 100 litres of mix"},
    {"tape", "A stub of 8 cm is wrapped 12 cm high with tape of 25 mm. How long a piece?",
     "area pi x 0.08 x 0.12 m2 / 0.0125 m, and two turns of pi x 0.08 m"},
    {"packs", "1,730 m of tape with a tenth spare: how many rolls of 30 m?", "1,730 x 1.1 / 30 = 63.4"},
    {"dilute",
     "How many litres of 5 % bleach go into 10 litres of a 1 % mix? (Gloves, eye protection, fresh air; never mix "
     "bleach with acids or ammonia.)",
     "10 x 1 / 5"},
    {"yield",
     "The built-in curve rises smoothly from 20 % of a mature crop at 33 months to 50 % at 45. What does a tree bear "
     "after three years, of 100 kg when mature?",
     "between the curve's 20 % at 33 and 50 % at 45 months"},
    {"yieldByYear", "400 trees, nine in ten took, most of the others a year later. What is year 1's crop?",
     "400 x 0.9 x 0.98 x 100 x share(1), on a straight line a quarter"},
    {"alternation", "60, 20, 60 and 60 kg in four years: how strongly does the tree alternate?",
     "mean of 40/80, 40/80 and 0/120"},
    {"payback", "1,000 out today; 200, 400 and 800 come back. After how many years is it even?",
     "400 are missing after year 2, half of year 3"},
    {"presentValue", "100 out today, 50 and 125 back. What is that worth today at 25 %?",
     "-100 + 50/1.25 + 125/1.5625"},
    {"equalAnnual", "100 out today, 150 back in a year, at 25 %: what is it worth a year?",
     "present value 20, a year later 25; Calc: PMT(0.25;1;-20)"},
    {"breakEvenPrice", "What must a unit fetch to pay 1,100 of costs with 1,000 units?", "1,100 / 1,000"},
    {"sunBearing", "Where is the sun at Lleida on 10 February at a quarter to five?",
     "NREL SPA gives 233.852; within 0.02 degrees"},
    {"sunHeight", "How high is it then?", "NREL SPA gives 15.653; within 0.02 degrees"},
    {"compassPoint", "Which side is that?", "south-west is 225, its half-sector 22.5 either way"},
    {"table", "How does the built-in calendar begin?", "see it whole with an array formula"},
    {"unfit", "Nothing is entered where a number of trees is asked for. What does the sheet say?",
     "one sentence with the entry's name and what to enter"},
    {"sentence", "Put 1,840 sticks and day 46650 into one sentence: what does it say?",
     "1,840 is not 1, so sticks; day 46650 is 20 September 2027"},
    {"why", "Fifteen was typed where 15 % was meant. What does the sheet say?", "the reason, with what to enter"},
    {"treeShare",
     "Four grafts on a tree, of which 70 in 100 take; two live grafts make a full tree. What share of a full tree "
     "lives on average?",
     "0 alive: 0.0081, 1 alive: 0.0756; 1 - 0.0081 - 0.0756 / 2"},
    {"graftsFrom", "7 of 10 grafts were alive at a first count. How many on a tree, to be 95 % sure of three alive?",
     "BETA.DIST shows how far the take may be from 70 %; more are needed than if 70 % were known"},
    {"bestGrafts",
     "A full tree of four live grafts is worth 60 and a graft costs 3, 70 in 100 take. How many pay best?",
     "60 x TREESHARE(n; 0.7; 4) - 3 x n is greatest at n = 6"},
    {"harvestDate", "Grafted on 6 September 2027, harvest begins in May. When is the first harvest after 30 months?",
     "30 months on is 6 March 2030; the next May begins on the 1st"},
    {"dueList",
     "Two rows were grafted a week apart. Which row is first on the list of what is due in a week of September?",
     "14 to 21 days after 6 September is 20 to 27 September"},
    {"ownSchedule", "Three rows were unwrapped after 25, 31 and 28 days. What is the first stage of your own schedule?",
     "the only stage there is; its target is the median, 28 days"},
    {"workload",
     "The first of two rows has its take check in the first week, 1.5 minutes a tree. How many hours is that?",
     "120 trees x 1.5 minutes / 60"},
    {"takeNext", "In three seasons 70, 45 and 88 of 100 grafts took. What take should you plan the next season with?",
     "logits ln(70.5/30.5), ln(45.5/55.5), ln(88.5/12.5): their mean 0.8655 is 70.38 %"},
    {"clustering",
     "Eight trees with two grafts each: on four trees both live, on two one, on two none. How strongly are grafts of "
     "the same tree correlated?",
     "two of eight pairs differ; 1 - 0.25 / (2 x 10/16 x 6/16)"},
    {"regraftList",
     "Trees with 4, 2 and 0 live grafts, four wanted on each. In which row is the first tree to regraft?",
     "tree 2 of row 12 has two of four"},
    {"yieldFit", "A block bore 6, 21, 38 and 80 after 3, 4, 5 and 7 years. At what age does its own curve begin?",
     "the built-in curve begins at 0 years, and so does a stretched one"},
    {"paybackOdds",
     "300 out today, 400 back in a year, which may be anything from nothing to a fifth more. Which year does the table "
     "start with?",
     "the first row is today, year 0"},
    {"swings", "The same plan, and an outlay that may be half as much again. What matters most?",
     "season 0 to 1.2 moves it by 480, outlay 0.9 to 1.5 by 180"},
    {"version", "Which version calculates this sheet?", "any text will do"},
});

/// The published and the independently computed examples.
std::vector<Example> published_examples() {
    std::vector<Example> all{
        {"W8-a", "REWORK.TREES(0.40468564224; 7.62; 3.6576)",
         "An acre of trees at 25 by 12 feet, in hectares and metres: how many?", "145", published,
         "Singerman, Burani-Arouca & Futch, University of Florida IFAS FE1050"},
        {"W8-b", "REWORK.TREES(0.40468564224; 7.9248; 7.9248)", "An acre of walnuts at 26 by 26 feet: how many trees?",
         "64", published, "University of California Davis, walnut cost study I, in Growing Produce (year not known)"},
        {"W8-f", "REWORK.TREES(1; 5.2; 3.2)", "A hectare of citrus at 5.2 by 3.2 m: how many trees?", "600", published,
         "S. Falivene, NSW DPI (2018), high-density planting; 600.96 printed as 600"},
        {"W8-h", "REWORK.TREES(1; 5.5; 3)", "A hectare of avocados at 5.5 by 3 m: how many trees?", "606", published,
         "Stassen, Snijder & Donkin, avocado spacing and training (year not known)"},
        {"C-c", "REWORK.STICKS(3200; 2; 9)", "The same 3,200 grafts without spare: how many sticks?", "800", computed,
         std::string(plan_of_ours) + ": 4 whole scions a stick; buds over buds, 6,400/9 = 712, would be too few"},
        {"B-009", "REWORK.GRAFTS(1; 0.05; 0.95)",
         "5 in 100 buds of an old stick are alive. How many must be placed to have one alive, 95 % sure?", "59",
         from_memory, "Wilks (1941), Annals of Mathematical Statistics 12:91-96; exact fractions and R give the same"},
        {"B-010", "REWORK.GRAFTS(2; 0.05; 0.95)", "And to have two alive?", "93", from_memory,
         "Wilks (1941), Annals of Mathematical Statistics 12:91-96; exact fractions and R give the same"},
        {"C-011", "REWORK.TREECHANCE(10; 0.5; 5)", "Ten grafts at an even chance: how likely are five or more alive?",
         "0.6230", from_memory, "four-place tables of the binomial; exact fractions give 0.623046875"},
        {"C-021", "REWORK.TREECHANCE(4; 0.7; 1; 1/11)",
         "The grafts of a tree are alike (correlation 1/11). Four grafts, 70 in 100 take: how likely is at least one "
         "alive?",
         "0.979021", computed, "beta-binomial with alpha 7 and beta 3 in exact fractions, 140/143; R gives the same"},
        {"WT-073", "REWORK.TREECHANCE(3; 0.536)",
         "Three scions on a tree, 53.6 in 100 take: how likely is at least one alive?", "0.9", computed,
         "exercise, computed: 1 - 0.464^3 = 0.9001", 0.0005},
        {"WT-068", "REWORK.BUDSALIVE(10; \"room\")", "And after ten days at room temperature?", "0.36", published,
         lopes, 1e-9},
        {"WT-070", "REWORK.BUDSALIVE(7; \"room\")", "After seven days, between two counts?", "0.564", computed,
         "straight line between 70 % after 5 and 36 % after 10 days, by hand", 1e-9},
        {"E-021", R"(REWORK.MILESTONE(DATE(2006;1;31); "In five months"; 0; {"In five months";5;5;5;"m";""}))",
         "Five months after 31 January 2006: which day, as June has 30?", "2006-06-30", stand_in, ecma_months},
        {"E-022", R"(REWORK.MILESTONE(DATE(2004;2;29); "A year on"; 0; {"A year on";12;12;12;"m";""}))",
         "Twelve months after 29 February 2004: which day?", "2005-02-28", stand_in, ecma_months},
        {"W13-1", "REWORK.CREWDAYS(358; 480/1.34)",
         "A budder needs 1.34 minutes a bud. Are 358 buds a day's work of 480 minutes?", "1", computed,
         "rate published by Olaniyan, Ibe & Olajide-Taiwo, citrus budders in Nigeria; 358.2 buds a day by hand"},
        {"W13-6", "REWORK.CREWDAYS(100000; 3700; 2)", "Two budders of 3,700 a day: how long for 100,000 buds?", "14",
         computed, "rate published by a New Zealand apple nursery, wrapping done by others; 13.5 by hand"},
        {"E-038", "REWORK.CREWFINISH(DATE(2006;1;2); 10; 1)",
         "Ten days' work from Monday 2 January 2006: which day is the last?", "2006-01-13", stand_in, ecma_workday},
        {"E-039", "REWORK.CREWFINISH(DATE(2006;1;2); 20; 1; 1; \"0000011\"; {DATE(2006;1;2) | DATE(2006;1;16)})",
         "Twenty days' work with holidays on the 2nd and the 16th: which day is the last?", "2006-01-31", stand_in,
         ecma_workday},
        {"E-047", "REWORK.CREWSIZE(DATE(2007;1;1); DATE(2007;1;12); 1000; 50)",
         "1,000 grafts from 1 to 12 January 2007, 50 a day each: how many people?", "2", stand_in,
         "only the ten working days are published, for the function NETWORKDAYS of OpenFormula; 1,000 / (10 x 50) by "
         "hand"},
        {"W15", "REWORK.HEATUNITS(60; 68; 53; ; \"average\")", "60 and 68 F over a base of 53 F: how many degree-days?",
         "11", published, "UC IPM, degree-day definitions, California red scale", 1e-9},
        {"F-003", R"(REWORK.HEATUNITS(42; 64; 50; 70; "sine"; "horizontal"))",
         "42 and 64 F between 50 and 70 F, by the sine: how many degree-days?", "5.13", published, uc_ipm},
        {"F-004", R"(REWORK.HEATUNITS(42; 64; 50; 70; "triangle"; "horizontal"))", "The same day by the triangle?",
         "4.45", published, uc_ipm},
        {"F-007", R"(REWORK.HEATUNITS(59; 93; 50; 70; "sine"; "horizontal"))",
         "A hot day, 59 and 93 F: how many, if heat above 70 F adds nothing?", "17.25", published, uc_ipm},
        {"F-008", R"(REWORK.HEATUNITS(59; 93; 50; 70; "sine"; "vertical"))",
         "And if nothing grows while it is above 70 F?", "4.95", published, uc_ipm},
        {"F-sum", R"(REWORK.HEATSUM({36|42|50|59|71|47}; {48|64|70|93|102|72}; 50; 70; "sine"; "horizontal"))",
         "Six kinds of day in a row: how much heat in all?", "62.08", published,
         std::string(uc_ipm) + "; the printed 0, 5.13, 10, 17.25, 20 and 9.70 summed", 0.025},
        {"A-001", "REWORK.TAKELOW(81; 263)",
         "81 of 263 are alive. What is the lower limit of the two-sided 95 % interval?", "0.2553", published,
         newcombe_single},
        {"A-015", "REWORK.TAKELOW(13; 16; 0.95; \"jeffreys\")",
         "13 of 16 are alive. What is the lower limit of the two-sided 95 % interval of Jeffreys?", "0.5792", published,
         "Fagerland, Lydersen & Laake (2017), Statistical Analysis of Contingency Tables, ch. 2"},
        {"A-002", "REWORK.TAKEHIGH(81; 263)", "And what is its upper limit?", "0.3662", published, newcombe_single},
        {"A-028", "REWORK.TAKEHIGH(18; 20; 0.95; \"agresti\")",
         "18 of 20 are alive. What is the upper limit of the two-sided 95 % interval of Agresti and Coull?",
         "0.98434376", published, "R package binom, as recorded in the tests of statsmodels 0.13.5"},
        {"L-066", "REWORK.TAKETREES({10|23|23|26|17}; {39|62|81|51|39})", "What share of the seeds came up?", "0.36397",
         computed, crowder, 0, 1, 1, "take"},
        {"L-070", "REWORK.TAKETREES({10|23|23|26|17}; {39|62|81|51|39})",
         "Seeds of a plate are alike: how many times wider (in variance) does that make the limits?", "2.44139",
         computed, crowder, 0, 1, 4, "design effect"},
        {"D-001", "REWORK.TAKEDIFF(56; 70; 48; 80)",
         "The same two grafters: what is the lower limit of the two-sided 95 % interval for the difference?", "0.0524",
         published, newcombe_pair, 0, 1, 2, "low"},
        {"D-004", "REWORK.TAKEDIFF(9; 10; 3; 10)",
         "9 of 10 against 3 of 10: what is the upper limit of the two-sided 95 % interval for the difference?",
         "0.8090", published, newcombe_pair, 0, 1, 3, "high"},
        {"D-027", "REWORK.TAKEDIFF(3; 4; 1; 4)",
         "Of four grafts by one grafter three live, of four by another one. How likely would equal takes differ as "
         "much, in either direction (two-sided)?",
         "0.4857", from_memory,
         "numbers of Fisher's tea tasting (1935), The Design of Experiments; 34/70 two-sided, as R prints it; "
         "one-sided, that many or more, it is 17/70",
         0, 1, 4, "p"},
        {"L-084", R"(REWORK.TAKEBY({"Ana"|"Ben"|"Cleo"|"Dov"|"Eve"|"Fay"}; {46|38|51|29|40|12}; {52|50|54|40|43|20}))",
         "Six grafters: what is the first one's take, adjusted towards that of the others?", "0.870146", computed,
         "counts of our own; maximum likelihood with mpmath and with R VGAM 1.1-7", 1e-6, 1, 7, "steadied take"},
        {"T-005", "REWORK.TRIALTREES(0.5; 0.75; 1; 0; 0.9)",
         "One graft a tree; half of them take in one way, three quarters in the other. How many trees of each way show "
         "that, nine times in ten?",
         "78", computed, "R's power.prop.test prints 76.7 by the normal formula; Student's t makes it 78"},
        {"T-017", "REWORK.TRIALPOWER(0.5; 0.75; 1; 50; 0)", "How likely do 50 trees of each way show it?", "0.7319",
         computed, "R's power.prop.test prints 0.740 by the normal formula; Student's t makes it a little less"},
        {"U-001",
         "REWORK.TAKEPOOL({1|2|3|4|5|6|7|8|9|10|11|12|13|14|15|16|17|18|19|20|21|22|23|24|25|26|27|28|29|30|"
         "31|32|33|34|35|36|37|38|39|40|41|42|43|44|45|46|47|48|49|50|51|52|53|54|55|56|57|58|59|60|61|62|63|"
         "64|65|66|67|68|69|70|71}; {0|0|0|0|0|0|0|0|0|0|0|0|0|0|1|1|1|1|1|1|1|1|2|2|2|2|2|2|2|2|2|1|5|2|5|3|"
         "2|7|7|3|3|2|9|10|4|4|4|4|4|4|4|10|4|4|4|5|11|12|5|5|6|5|6|6|6|6|16|15|15|9|4}; {20|20|20|20|20|20|"
         "20|19|19|19|19|18|18|17|20|20|20|20|19|19|18|18|25|24|23|20|20|20|20|20|20|10|49|19|46|27|17|49|47|"
         "20|20|13|48|50|20|20|20|20|20|20|20|48|19|19|19|22|46|49|20|20|23|19|22|20|20|20|52|46|47|24|14})",
         "Tumours in 71 groups of rats (sheet Series): what share is to be expected in a new group?", "0.1442",
         from_memory, "Tarone (1982); Gelman et al., Bayesian Data Analysis, table 5.1; two numeric integrations", 2e-4,
         72, 5, "pooled take"},
        {"V-001",
         "REWORK.TAKEFACTORS({6|13|18|28|52|53|61|60}; {59|60|62|56|63|59|62|60}; "
         "{1.6907|1.7242|1.7552|1.7842|1.8113|1.8369|1.861|1.8839})",
         "Beetles under a rising dose of gas: by how much do their counts scatter more than chance?", "1.67114",
         from_memory, "Bliss (1935), Annals of Applied Biology 22:134-167; Pearson's X2 is 10.03, over 6 degrees", 0, 2,
         6, "dispersion"},
        {"KM-1000", "REWORK.INSPECT(1000; 0.05)", "How many of 1,000 trees must be inspected for the same?", "278",
         from_memory, "Krejcie & Morgan (1970), Educational and Psychological Measurement 30:607-610"},
        {"L-003",
         "REWORK.GRAFTLIFE({6|6|6|6|7|9|10|10|11|13|16|17|19|20|22|23|25|32|32|34|35}; "
         "{1|1|1|0|1|0|1|0|0|1|1|0|0|0|1|1|0|0|0|0|0}; 7)",
         "21 were watched for unequal times (sheet Series). What share is left after 7?", "0.807", from_memory,
         freireich},
        {"I-008", "REWORK.LIMBAREA(20; 10; 0.12)", "A stump tapers from 20 to 10 cm over 12 cm: how much bark is that?",
         "0.06126", computed, "exercise, computed: slant 13 cm, 195 pi = 612.6 cm2"},
        {"I-017", "REWORK.PAINT(28*PI(); 8; 2; 0; 0)",
         "88 m2 (28 pi) of bark get two coats of undiluted paint; a litre covers 8 m2. How many litres?", "21.9911",
         computed, "exercise, computed: 28 pi x 2 / 8 = 7 pi litres"},
        {"W17", "REWORK.PACKS(16500; 5.5)", "16.5 t of avocados in trays of 5.5 kg: how many trays?", "3000", published,
         "New Zealand Avocado Growers' manual, Economics, Oct 2004"},
        {"W14-g", "REWORK.DILUTE(0.0525; 0.0105; 1)",
         "How much 5.25 % bleach makes a litre of 1.05 %? (Gloves, eye protection, fresh air; never mix bleach with "
         "acids or ammonia.)",
         "0.2", published, "Roistacher, Calavan & Blue (1969), Plant Disease Reporter 53(5): 20 % of household bleach",
         1e-9},
        {"S7c-4", "REWORK.YIELD(4; 43; {3;0.26 | 4;0.58 | 5;0.93 | 6;1})",
         "New apple trees: how many bins an acre in year 4 of 43 when full?", "25", published, honeycrisp, 0.25},
        {"G-016",
         "REWORK.YIELD(9.191; 1; {7.99;0 | 8.09;0.000027643 | 8.19;0.04375 | 8.7;0.16918 | 9.2;0.46943 | 10;0.94374 | "
         "12;0.99864 | 15;0.99992 | 20;0.99999})",
         "A yield curve that is flat, rises steeply and is flat again (sheet Series): what share of a mature crop at "
         "9.191 years?",
         "0.4640", stand_in,
         "numbers of Fritsch & Carlson (1980), SIAM Journal on Numerical Analysis 17:238-246, data set RPN15A, "
         "rounded; the "
         "same curve, as recorded in the tests of scipy 1.10.1"},
        {"W5-a", "REWORK.YIELDBYYEAR(100; 10; 165; 1)", "100 mature avocado trees of 165 lb: what is the crop?",
         "16500", published, "University of Florida IFAS FE837, avocado budget", 1e-6, 10, 1, "year 10"},
        {"W16-a", "REWORK.YIELDBYYEAR(300; 10; 7; 1)", "300 macadamias of 7 kg: what is the crop of a hectare?", "2100",
         published, "C. Searle, Bundaberg, macadamia spacing, slides (year not known)", 1e-6, 10, 1, "year 10"},
        {"W9-X639-1", "REWORK.ALTERNATION({52|454|109|229|380})",
         "A satsuma gave 52, 454, 109, 229 and 380 lb: how strongly does it alternate?", "0.502558", computed,
         "yields of Price & Sutton (2025), University of Georgia Extension; index in exact fractions"},
        {"H-018", "REWORK.PAYBACK({-150|70|55|40|25|10}; 0.085)",
         "150 out, then 70, 55, 40, 25 and 10, at 8.5 %: paid back after how many years?", "3.41", computed,
         "exercise, computed"},
        {"H-021", "REWORK.PAYBACK({-1000|100|100|100})", "1,000 out and three times 100 back: when is it even?",
         "no answer", computed, "never: 700 are still missing"},
        {"H-001", "REWORK.PRESENTVALUE({0|-10000|3000|4200|6800}; 0.1)",
         "10,000 out in a year, then 3,000, 4,200 and 6,800, at 10 %: what is it worth today?", "1188.44", stand_in,
         "published for the function NPV, ECMA-376 Part 4, which discounts its first flow by a year; so the first "
         "value here is 0"},
        {"H-007", "REWORK.PRESENTVALUE({-20000|7000|13000|-8000|7000|13000|12000}; 0.115)",
         "A three-year berry crop is planted twice in six years, at 11.5 %: what is it worth today?", "9281", published,
         "numbers of project F, repeated, in Ehrhardt & Brigham, Corporate Finance", 0.5},
        {"W5-b", "REWORK.PRESENTVALUE({5122|-3797}; 0)", "Revenue 5,122 and cost 3,797 in one year: what is left?",
         "1325", published, "University of Florida IFAS FE837, avocado budget"},
        {"W1-a", "REWORK.EQUALANNUAL({4606|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0}; 0.09)",
         "An acre of vines costs 4,606 to plant and lasts 22 years (sheet Series): what is that a year?", "488",
         published, std::string(cornell) + "; no rate is printed, 9 % reproduces it", 0.5},
        {"W4-a", "REWORK.EQUALANNUAL({258471|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0|0}; 0.045)",
         "Pears are worth 258,471 a hectare over 30 years at 4.5 % (sheet Series): what is that a year?", "15835",
         published, "Stott et al. (2018), AFBM Journal 15; printed 0.2 % lower, it seems a mean of simulations", 40},
        {"H-024", "REWORK.EQUALANNUAL({-15|-5|-5|-5}; 0.06)",
         "A sprayer costs 15 today, and 5 in each of three years, at 6 %: what is that a year?", "-10.61", from_memory,
         "numbers of machine A in Brealey & Myers, Principles of Corporate Finance"},
        {"W2-a", "REWORK.BREAKEVENPRICE(1658; 7.5; 0)", "7.5 t of grapes cost 1,658: what must a ton fetch?", "221",
         published, std::string(cornell) + "; 202 a ton left a loss of 143", 0.5},
        {"W3-45-500", "REWORK.BREAKEVENPRICE(22172.13; 45; 0)",
         "45 bins of apples cost 22,172.13 an acre: what must a bin fetch?", "492.714", published,
         std::string(honeycrisp) + "; from the printed return of 327.87 at 500 a bin"},
        {"W6", "REWORK.BREAKEVENPRICE(400; 3200; 0)",
         "80 avocado trees cost 400 an acre and bear a box of 40 lb each: what must a pound fetch?", "0.125", published,
         "California Avocado Society Yearbook 1956, 40:77-79"},
        {"J-002", "REWORK.SUNBEARING(DATE(2003;10;17)+TIME(12;30;30); -7; 39.742476; -105.1786)",
         "Where is the sun at Golden, Colorado, on 17 October 2003 at 12:30:30?", "194.34024", published, spa, 0.02},
        {"J-003", "REWORK.SUNHEIGHT(DATE(2003;10;17)+TIME(12;30;30); -7; 39.742476; -105.1786)",
         "And how high, without refraction?", "39.872046", published, spa, 0.02},
        {"ours-schedule",
         R"(REWORK.OWNSCHEDULE({46650|46657|46664}; {46675|46688|46692}; {"unwrap";20;30;40;"d";"shoots press"}))",
         "Three rows were unwrapped after 25, 31 and 28 days. What is the target day of unwrapping in your own "
         "schedule?",
         "28", computed, "the middle one of 25, 28 and 31", 0, 1, 3, "target"},
        {"ours-curve", "REWORK.YIELDFIT({3|4|5|7}; {6|21|38|80}; 100)",
         "A block bore 6, 21, 38 and 80 % of a full crop after 3, 4, 5 and 7 years. At what age does its own curve "
         "reach "
         "a fifth of a full crop?",
         "4", computed, "least squares over the stretch in Python: 1.453 x 33 months", 0.005, 3, 1, "third age"},
        {"ours-odds", R"(REWORK.PAYBACKODDS({300|0}; {0|400}; {"season";0;1;1.2}))",
         "300 out today, 400 back in a year, which may be anything from nothing to a fifth more, most likely as "
         "planned. "
         "How likely is it to have paid back after a year?",
         "0.531", computed, "300 / 400 = 0.75; the triangle above it is 1 - 0.75^2 / (1 x 1.2) = 0.53125", 0.001, 2, 2,
         "share of year 1"},
    };
    return all;
}

/// Functions with a trivial example in the guide: another cell of its table is asked for among the published ones.
constexpr std::array<std::string_view, 3> asked_elsewhere{"ownSchedule", "yieldFit", "paybackOdds"};

/// The words of a function of the catalogue; what it does where nobody has put a question yet.
Example from_catalogue(const FunctionEntry& entry) {
    const auto* const found =
        std::find_if(words.begin(), words.end(), [&](const Words& one) { return one.method == entry.method; });
    const bool known = found != words.end();
    const std::string source(entry.texts.source.english());
    const std::string by_hand = known ? found->by_hand : "";
    return {.id = guide_id,
            .call = std::string(entry.texts.example),
            .question = known ? found->question : std::string(entry.texts.does.english()),
            .printed = std::string(entry.texts.shows),
            .kind = guide,
            .source = Phrase([=](TextCollector& texts) { return part(texts, source) + "."; }),
            .by_hand = by_hand,
            .hint = known ? found->hint : ""};
}

std::optional<double> number_in(catalogue::Tokens part) {
    const auto value = catalogue::literal(part);
    const auto* const number = value ? std::get_if<double>(&*value) : nullptr;
    return number == nullptr ? std::nullopt : std::optional(*number);
}

std::optional<Date> date_of(const std::vector<catalogue::Tokens>& parts) {
    std::vector<int> numbers;
    for (const catalogue::Tokens part : parts) {
        if (const auto number = number_in(part)) numbers.push_back(static_cast<int>(*number));
    }
    if (numbers.size() != 3 || parts.size() != 3) return std::nullopt;
    return Date{std::chrono::year{numbers[0]}, std::chrono::month{static_cast<unsigned>(numbers[1])},
                std::chrono::day{static_cast<unsigned>(numbers[2])}};
}

/// What one literal of a call puts into its cell, and how the cell is compared with it.
struct Literal {
    Content content;
    std::string text;
};

Literal cell_of(catalogue::Tokens part) {
    const std::string text(catalogue::written(part));
    if (const auto call = catalogue::call(part); call && call->function == "DATE" && call->rest.empty()) {
        if (const auto date = date_of(call->arguments)) return {*date, text};
    }
    if (catalogue::reference(text)) return {Content{}, "\"\""};  // stands for a blank cell
    const auto value = catalogue::literal(part);
    if (!value) return {"=" + text, "(" + text + ")"};  // a calculation, such as 480/1.34
    if (const auto* number = std::get_if<double>(&*value)) return {*number, text};
    if (const auto* word = std::get_if<std::string>(&*value)) {
        return {word->empty() ? Content{} : Content(*word), text};
    }
    return {Content{}, "\"\""};
}

using Rows = std::vector<std::vector<Literal>>;

/// The cells of an inline array; none where the argument is a single value.
Rows block_of(catalogue::Tokens argument) {
    Rows rows;
    for (const auto& line : catalogue::array_rows(argument)) {
        rows.emplace_back();
        for (const catalogue::Tokens cell : line) rows.back().push_back(cell_of(cell));
    }
    return rows;
}

Format format_of(const Literal& one, catalogue::Unit unit) {
    if (std::holds_alternative<Date>(one.content)) return Format::date;
    if (const auto* number = std::get_if<double>(&one.content)) {
        if (unit == catalogue::Unit::date) return Format::date;
        const double thousandths = *number * 1000;
        const bool short_share = std::abs(thousandths - std::round(thousandths)) < 1e-9;
        return catalogue::is_fraction(unit) && short_share ? Format::percent_tenth : Format::general;
    }
    const auto* text = std::get_if<Phrase>(&one.content);
    return text != nullptr && !text->english().starts_with('=') ? Format::text : Format::general;
}

/// Help for a cell from the guide's words. Anything of the right kind is let in, so that the functions' own refusals
/// and reasons can be seen.
Validation entry_help(const catalogue::Argument& argument, const Literal& one) {
    const Phrase help(
        [argument](TextCollector& texts) { return catalogue::help_in_words(argument, texts.language()); });
    if (std::holds_alternative<Date>(one.content)) {
        return {"of:cell-content-is-date() and cell-content-is-between(-700000,3000000)", help,
                join_sentences("That is not a date.", help)};
    }
    const auto* text = std::get_if<Phrase>(&one.content);
    if (std::holds_alternative<std::monostate>(one.content) || (text != nullptr && !text->english().starts_with('='))) {
        return {"of:cell-content-text-length-is-between(0,80)", help, join_sentences("At most 80 letters.", help)};
    }
    return {"of:cell-content-is-decimal-number() and cell-content-is-between(-1000000000000000,1000000000000000)", help,
            join_sentences("That is not a number.", help)};
}

/// Where lists too long for a card stand, a column each.
class LongLists {
  public:
    explicit LongLists(Sheet& sheet) : sheet_(sheet) {
        sheet_.columns({0.4, 1.4});
        styles::opening(sheet_, "Series",
                        "Lists that are too long for their cards. Change a value and watch the answer change.", 11);
        sheet_.put(Address("B", first_row - 1), "Row", Style::heading);
        styles::band(sheet_, Address("B", tables), "Tables", 11);
    }

    /// The area that a block now fills; its columns are headed by `heading`.
    Area add(const std::string& example, const std::string& heading, const Rows& block,
             const catalogue::Argument& argument, bool keeps_words) {
        const int width = static_cast<int>(block.front().size());
        const bool down = block.size() > block.front().size();
        const Address first = down ? Address{column_, first_row} : Address{3, table_row_ + 1};
        for (int at = 0; at < width; ++at) {
            sheet_.put({first.column + at, first.row - 1}, heading + ", " + example, Style::heading).as_it_is();
        }
        int row = first.row;
        for (const auto& line : block) {
            int column = first.column;
            for (const Literal& one : line) {
                auto cell = sheet_.put({column++, row}, one.content, Style::kept, format_of(one, argument.unit));
                cell.valid(entry_help(argument, one));
                if (keeps_words) cell.as_it_is();
            }
            ++row;
        }
        if (down) {
            rows_ = std::max(rows_, row - 1);
            column_ += width;
        } else {
            table_row_ = row;
        }
        if (rows_ >= tables) throw std::logic_error("a list reaches into the tables");
        return {first, {first.column + width - 1, row - 1}};
    }

    void close() {
        for (int row = first_row; row <= rows_; ++row) {
            sheet_.put(Address("B", row), row - first_row + 1, Style::body);
        }
        std::vector<double> widths{0.4, 1.4};
        for (int column = 3; column <= 12; ++column) widths.push_back(3.0);
        sheet_.columns(widths);
        sheet_.freeze(first_row - 1);
        sheet_.cursor("C6");
        sheet_.print_area(Area({1, 1}, {std::max(column_ - 1, 12), table_row_ - 1}));
    }

  private:
    Sheet& sheet_;
    static constexpr int first_row = 5;
    static constexpr int tables = 80;  // below the longest list
    int column_ = 3;
    int rows_ = first_row;
    int table_row_ = tables + 1;
};

/// Where an example stands, for the table of all of them.
struct Listed {
    Example example;
    int number;  ///< among the examples of its function
    std::string function;
    std::string sheet;
    int row;
};

constexpr std::size_t most_in_card = 8;  // rows of a list
constexpr std::size_t letters_in_label = 27;
constexpr std::size_t letters_in_cell = 20;

/// One sheet of cards.
class Cards {
  public:
    /// `lesson` counts from 1.
    Cards(Sheet& sheet, LongLists& series, int lesson, const std::string& title, const std::string& aim)
        : sheet_(sheet), series_(series), shown_("shown_" + std::to_string(lesson)) {
        sheet_.columns({0.4, 5.4, 2.8, 2.5, 2.5, 0.3, 3.1, 3.4, 6.0});
        styles::opening(
            sheet_, Phrase([lesson, title](TextCollector& texts) {
                return texts.translate(translatable("Lesson {1}: {2}"), {std::to_string(lesson), part(texts, title)});
            }),
            join_sentences(aim,
                           "You may change the framed, tinted cells: the answer follows, and the verdict says "
                           "\"changed\" until the printed inputs are back."),
            8);
        sheet_.put("B3", "Answers of this lesson", Style::label);
        sheet_.put("C3", "hide", Style::input, Format::text)
            .name("show_" + std::to_string(lesson))
            .valid(one_of({"hide", "show"}, "show: formulas, answers and published values"));
        sheet_.put("D3", "hide or show; those of all lessons on sheet Overview", Style::unit);
        sheet_.put("T2", "Behind the answers; not printed", Style::workings);
        sheet_.put("T4", "Expected", Style::workings);
        sheet_.put("U4", "Given", Style::workings);
        sheet_.put("V4", "Unchanged", Style::workings);
        sheet_.put("W4", "Agrees", Style::workings);
        sheet_.put(Address("T", 3), R"(=OR(show_all="show";C3="show"))", Style::workings).name(shown_);
    }

    /// `number` counts the examples of a function from 1.
    int add(const Example& example, int number, const FunctionEntry& entry, const std::vector<std::string>& arguments);
    [[nodiscard]] int row() const { return row_; }

  private:
    static constexpr double page_cm = 37;  // before the page is scaled to the paper's width
    static constexpr double row_cm = 0.55;

    /// A row is at least so high. All heights are set, so that it is known where a page ends.
    void high(int row, double cm) { heights_[row] = std::max(cm, heights_.try_emplace(row, row_cm).first->second); }
    /// High enough for a text that is wrapped after so many letters.
    void high_for(int row, std::size_t letters_of_text, std::size_t letters_in_line) {
        const std::size_t lines = 1 + letters_of_text / letters_in_line;
        high(row, 0.2 + 0.42 * static_cast<double>(lines));
    }

    /// Sets the heights of a card's rows; a card that would be torn goes to the next page.
    void close(int top) {
        double height = 0;
        for (int row = top; row < row_; ++row) {
            const double cm = heights_.try_emplace(row, row_cm).first->second;
            sheet_.row_height(row, cm);
            height += cm;
        }
        if (on_page_ + height > page_cm) {
            sheet_.page_break(top);
            on_page_ = 0;
        }
        on_page_ += height;
    }

    void scalar(const catalogue::Argument& argument, const Literal& one) {
        sheet_.put(Address("B", row_), std::string(argument.meaning.english()), Style::body);
        auto cell = sheet_.put(Address("C", row_), one.content, Style::kept, format_of(one, argument.unit));
        cell.valid(entry_help(argument, one));
        if (argument.translated) cell.as_it_is();
        const auto* text = std::get_if<Phrase>(&one.content);
        if (text != nullptr && text->english().size() > letters_in_cell) {
            cell.across(3);  // where its unit would be
        } else {
            sheet_.put(Address("D", row_), Phrase([argument](TextCollector& texts) {
                           return catalogue::unit_in_words(argument, texts.language());
                       }),
                       Style::unit);
        }
        high_for(row_, argument.meaning.english().size(), letters_in_label);
        const std::string address = Address("C", row_).text();
        references_.push_back(address);
        compare(address, one);
        ++row_;
    }

    void compare(const std::string& address, const Literal& one) {
        const bool as_text = keeps_words_ && std::holds_alternative<Phrase>(one.content);
        // A blank is compared as one, so that 0 does not pass for it. EXACT compares with a text that stays English.
        unchanged_.push_back(as_text ? "EXACT(" + address + ";" + one.text + ")" : address + "=" + one.text);
    }

    void compare(const std::string& sheet, Area area, const Rows& block) {
        int row = area.first.row;
        for (const auto& line : block) {
            int column = area.first.column;
            for (const Literal& one : line) compare(sheet + Address{column++, row}.text(), one);
            ++row;
        }
    }

    /// Lists side by side under their names.
    void blocks(const std::string& example, const std::vector<std::pair<catalogue::Argument, Rows>>& lists);

    /// Puts the comparisons of the inputs in cells from `row` down, as many in each as a reader can take in; gives
    /// them.
    Area put_comparisons(int row);

    /// A formula that shows `expression` once the answers are asked for.
    [[nodiscard]] std::string when_shown(const std::string& expression) const {
        return "=IF(" + shown_ + ";" + expression + ";\"\")";
    }

    Sheet& sheet_;
    LongLists& series_;
    std::string shown_;  // the name of the cell that is TRUE once the answers are asked for
    int row_ = 5;
    double on_page_ = 3.3;  // the opening
    std::map<int, double> heights_;
    std::vector<std::string> references_;
    std::vector<std::string> unchanged_;  // what holds while nobody has changed an input
    bool keeps_words_ = false;  // whether the words in this card's tables are the function's own in every language
};

void Cards::blocks(const std::string& example, const std::vector<std::pair<catalogue::Argument, Rows>>& lists) {
    constexpr int columns = 3;
    std::vector<bool> in_card(lists.size());
    std::size_t taken = 0;
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const Rows& block = lists[list].second;
        const std::size_t width = block.front().size();
        in_card[list] = block.size() <= most_in_card && taken + width <= static_cast<std::size_t>(columns);
        if (in_card[list]) taken += width;
    }
    references_.resize(lists.size());
    // What is too long, too wide or too much stands on a sheet of its own and takes one line here, above the others.
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const auto& [argument, block] = lists[list];
        if (in_card[list]) continue;
        const Area area = series_.add(example, std::string(argument.name), block, argument, keeps_words_);
        references_[list] = "Series." + area.text();
        compare("Series.", area, block);
        sheet_.put(Address("B", row_), std::string(argument.meaning.english()), Style::body);
        high_for(row_, argument.meaning.english().size(), letters_in_label);
        sheet_.put(Address("C", row_), Phrase([area](TextCollector& texts) {
                       return texts.translate(translatable("sheet Series, {1}"), {area.text()});
                   }),
                   Style::unit);
        ++row_;
    }
    int column = 3;
    int deepest = 0;
    const int head = row_;
    for (std::size_t list = 0; list < lists.size(); ++list) {
        const auto& [argument, block] = lists[list];
        if (!in_card[list]) continue;
        const std::string name(argument.name);
        const int width = static_cast<int>(block.front().size());
        const Area area({column, row_ + 1}, {column + width - 1, row_ + static_cast<int>(block.size())});
        for (int at = 0; at < width; ++at) {
            const Phrase text = at > 0 ? Phrase(name) : Phrase([name, unit = argument.unit](TextCollector& texts) {
                return texts.translate(translatable("{1} ({2})"), {name, texts.translate(catalogue::word(unit), {})});
            });
            auto cell = sheet_.put({column + at, row_}, text, Style::heading);
            if (at > 0) cell.as_it_is();
            high_for(row_, text.english().size(), 12);
        }
        int row = row_ + 1;
        for (const auto& line : block) {
            int at = column;
            for (const Literal& one : line) {
                auto cell = sheet_.put({at++, row}, one.content, Style::kept, format_of(one, argument.unit));
                cell.valid(entry_help(argument, one));
                if (keeps_words_) cell.as_it_is();
            }
            ++row;
        }
        references_[list] = area.first == area.last ? area.first.text() : area.text();
        compare("", area, block);
        column += width;
        deepest = std::max(deepest, static_cast<int>(block.size()));
    }
    if (deepest == 0) return;
    sheet_.put(Address("B", head), "Row", Style::heading);
    for (int row = 1; row <= deepest; ++row) sheet_.put(Address("B", head + row), row, Style::body);
    row_ = head + deepest + 1;
}

Content printed_content(const std::string& printed) {
    const auto parts = catalogue::tokens(printed);
    if (const auto date = date_of(catalogue::split(parts, "-"))) return *date;
    if (const auto number = number_in(parts)) return *number;
    return printed;
}

/// Half a unit of the last digit after the point; counts and long numbers are compared to twelve digits. To two
/// figures, so that neither 0.5 x 10^-4 shows its binary fraction nor offices differ in how they write it.
double tolerance_of(const Example& example) {
    if (example.tolerance > 0) return example.tolerance;
    const double size = std::max(1.0, std::abs(number_in(catalogue::tokens(example.printed)).value_or(1)));
    const auto point = example.printed.find('.');
    double tolerance = 1e-12 * size;
    if (point != std::string::npos) {
        tolerance = std::max(0.5 * std::pow(10.0, -static_cast<double>(example.printed.size() - point - 1)), tolerance);
    }
    const double scale = std::pow(10.0, std::floor(std::log10(tolerance)) - 1);
    return std::round(tolerance / scale) / std::round(1 / scale);
}

std::string within(const Example& example, const Content& printed) {
    if (!std::holds_alternative<double>(printed)) return "the same";
    const double tolerance = tolerance_of(example);
    if (tolerance < 1e-8) return example.printed.find('.') == std::string::npos ? "exactly" : "to the last digit shown";
    return "within " + plain_number(tolerance);
}

/// Whether what a function gives is the same in every language: a stage of the built-in tables, a keyword of its own, a
/// word of its answers.
bool is_a_name(const FunctionEntry& entry, const std::string& text) {
    if (entry.texts.words.all != nullptr) {
        const std::vector<std::string> answers = entry.texts.words.all();
        if (std::find(answers.begin(), answers.end(), text) != answers.end()) return true;
    }
    const bool has_own_texts = std::any_of(entry.arguments.begin(), entry.arguments.end(),
                                           [](const catalogue::Argument& argument) { return argument.translated; });
    if (has_own_texts && entry.texts.shows_in == nullptr) return true;
    const auto stages = defaults::stages();
    const auto is_text = [&](std::string_view one) { return one == text; };
    if (std::any_of(stages.begin(), stages.end(), [&](const auto& stage) { return is_text(stage.name); })) return true;
    return std::any_of(entry.arguments.begin(), entry.arguments.end(), [&](const catalogue::Argument& argument) {
        const auto& columns = argument.range.columns;
        return std::any_of(columns.begin(), columns.end(), [&](const catalogue::ColumnDomain& column) {
            return std::any_of(column.keywords.begin(), column.keywords.end(), is_text);
        });
    });
}

/// Whether the words in its tables are English unless another argument says what they mean, as those of a day-book.
bool takes_own_words(const FunctionEntry& entry) {
    return std::any_of(entry.arguments.begin(), entry.arguments.end(),
                       [](const catalogue::Argument& argument) { return argument.name == "words"; });
}

std::string date_call(Date date) {
    return "DATE(" + std::to_string(static_cast<int>(date.year())) + ";" +
           std::to_string(static_cast<unsigned>(date.month())) + ";" +
           std::to_string(static_cast<unsigned>(date.day())) + ")";
}

std::string in_a_formula(const std::string& text) {
    std::string quoted = "\"";
    for (const char letter : text) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
    return quoted + "\"";
}

Area Cards::put_comparisons(int row) {
    constexpr std::size_t most = 150;  // letters
    const Address first("V", row);
    if (unchanged_.empty()) unchanged_.emplace_back("TRUE()");
    std::string together;
    const auto put = [&] {
        sheet_.put(Address("V", row++), "=IFERROR(AND(" + together + ");FALSE())", Style::workings);
        together.clear();
    };
    for (const std::string& one : unchanged_) {
        if (!together.empty() && together.size() + one.size() > most) put();
        together += (together.empty() ? "" : ";") + one;
    }
    put();
    return {"V", first.row, row - 1};
}

int Cards::add(const Example& example, int number, const FunctionEntry& entry,
               const std::vector<std::string>& arguments) {
    const auto argument_of = [&](std::size_t at) -> const catalogue::Argument& {
        return entry.arguments.at(std::min(at, entry.arguments.size() - 1));
    };
    const int top = row_;
    const Address verdict_at("I", top);
    const std::string verdict = verdict_at.text();
    const std::string name = entry.cell_name();
    styles::band(sheet_, Address("B", top), number == 1 ? name : Phrase([name, number](TextCollector& texts) {
                     return texts.translate(translatable("{1}, example {2}"), {name, std::to_string(number)});
                 }),
                 7);
    sheet_.put(Address("B", top + 1), example.question, Style::sentence).across(8);
    const std::string does(entry.texts.does.english());
    sheet_
        .put(Address("B", top + 2), Phrase([does](TextCollector& texts) {
                 return texts.translate(translatable("Aim: {1}"), {part(texts, does)});
             }),
             Style::note)
        .across(8);
    high(top, 0.75);
    high_for(top + 1, example.question.size(), 110);
    high_for(top + 2, does.size() + 5, 125);
    row_ = top + 3;
    if (!example.hint.empty()) {
        sheet_
            .put(Address("B", row_), Phrase([hint = example.hint](TextCollector& texts) {
                     return texts.translate(translatable("Hint: {1}"), {part(texts, hint)});
                 }),
                 Style::note)
            .across(8);
        high_for(row_, example.hint.size() + 6, 125);
        ++row_;
    }
    const int below_texts = row_;
    references_.clear();
    unchanged_.clear();
    keeps_words_ = takes_own_words(entry);

    // Lists come after single values, whatever their order in the call.
    std::vector<std::string> ordered(arguments.size());
    std::vector<std::pair<catalogue::Argument, Rows>> lists;
    std::vector<std::size_t> list_places;
    for (std::size_t at = 0; at < arguments.size(); ++at) {
        if (arguments.at(at).empty()) continue;
        const auto parts = catalogue::tokens(arguments.at(at));
        if (Rows block = block_of(parts); !block.empty()) {
            lists.emplace_back(argument_of(at), std::move(block));
            list_places.push_back(at);
        } else {
            scalar(argument_of(at), cell_of(parts));
            ordered.at(at) = references_.back();
        }
    }
    references_.clear();
    blocks(std::string(catalogue::own_name(name)) + " " + std::to_string(number), lists);
    for (std::size_t at = 0; at < lists.size(); ++at) ordered.at(list_places.at(at)) = references_.at(at);

    std::string given;
    for (std::size_t at = 0; at < ordered.size(); ++at) given += (at == 0 ? "" : ";") + ordered.at(at);
    std::string call = entry.cell_name() + "(" + given + ")";
    const bool table = entry.gives == catalogue::Gives::table || entry.gives == catalogue::Gives::maybe_table;
    if (table) call = "INDEX(" + call + ";" + std::to_string(example.row) + ";" + std::to_string(example.column) + ")";
    if (example.printed == "no answer") call = "IFNA(" + call + ";\"no answer\")";

    const bool date = entry.gives == catalogue::Gives::date || entry.gives == catalogue::Gives::maybe_date;
    const Format format = date ? Format::date : Format::general;
    const bool any_version = entry.method == "version";
    const bool says_why = entry.texts.shows_in != nullptr;
    // WHY speaks the reader's language.
    const Content printed = any_version ? Content("any text")
                            : says_why  ? Content(Phrase([&entry](TextCollector& texts) {
                                  return catalogue::example_shows(entry, texts.language());
                              }))
                                        : printed_content(example.printed);

    // The right half: lines under each other, long texts over as many rows as they need.
    constexpr std::size_t letters = 52;  // that fit a row
    const auto rows_for = [](std::size_t length) { return 1 + static_cast<int>(length / letters); };
    int row = below_texts;
    const auto label = [&](const char* text) { sheet_.put(Address("G", row), text, Style::label); };
    // Texts that are the same in every language, or said by WHY, stand in a cell of their own outside the printed page.
    const auto* const words_printed = std::get_if<Phrase>(&printed);
    const bool is_number = std::holds_alternative<double>(printed) || date;
    std::string expected;
    if (const auto* const value = std::get_if<double>(&printed)) expected = plain_number(*value);
    if (const auto* const day = std::get_if<Date>(&printed)) expected = date_call(*day);
    if (words_printed != nullptr) {
        const Address aside("T", top);
        expected = aside.text();
        auto cell = sheet_.put(aside, printed, Style::workings);
        if (is_a_name(entry, words_printed->english())) cell.as_it_is();
    }
    const std::string tolerance = plain_number(date ? 0 : tolerance_of(example));
    const Address given_at("U", top);

    if (!any_version && !says_why) {
        label("Your answer");
        const Address own("H", row);
        sheet_.put(own, Content{}, Style::input, format);
        const std::string typed = own.text();
        // Shares and amounts may be rounded by the student, counts and dates not.
        const bool whole = example.printed.find('.') == std::string::npos;
        const std::string near = whole ? tolerance : "MAX(" + tolerance + ";0.005*ABS(" + given_at.text() + "))";
        const std::string right = is_number ? "ABS(" + typed + "-" + given_at.text() + ")<=" + near
                                            : "LOWER(TRIM(" + typed + "))=LOWER(" + given_at.text() + ")";
        sheet_.put(Address("I", row),
                   "=IF(" + typed + R"(="";"";IF(IFERROR()" + right + R"(;FALSE());"right";"not yet")))", Style::unit);
        ++row;
    }
    label("Formula");
    const int formula_rows = rows_for(call.size() + 4);
    const Address answer("H", row + formula_rows);
    // What the answer's cell holds, but for =IF(shown_n; before the call and ;"") after it, however that is called
    // here.
    const std::string whole_formula = "FORMULA(" + answer.text() + ")";
    const std::string bracket = "FIND(\"(\";" + whole_formula + ")";
    const std::string before = std::to_string(shown_.size() + 1);
    const std::string around = std::to_string(shown_.size() + 5);
    sheet_
        .put(Address("H", row),
             when_shown("\"=\"&MID(" + whole_formula + ";" + bracket + "+" + before + "+1;LEN(" + whole_formula + ")-" +
                        bracket + "-" + around + ")"),
             Style::sentence)
        .across(2, formula_rows);
    high(row, 0.75);
    row += formula_rows;
    label("Answer");
    const bool sentence = words_printed != nullptr && words_printed->english().size() > 18;
    auto answer_cell = sheet_.put(answer, when_shown(call), Style::answer, format);
    if (sentence) {
        answer_cell.across(2);
    } else {
        sheet_.put(Address("I", row), example.cell.empty() ? "" : Phrase([cell = example.cell](TextCollector& texts) {
                       return texts.translate(translatable("the table's {1}"), {part(texts, cell)});
                   }),
                   Style::unit);
    }
    ++row;
    label(example.kind.c_str());
    auto expected_cell = sheet_.put(Address("H", row), when_shown(expected), Style::body, format);
    if (sentence) {
        expected_cell.across(2);
    } else {
        sheet_.put(Address("I", row), any_version ? "" : within(example, printed), Style::unit);
    }
    ++row;
    const auto long_text = [&](const char* what, const Phrase& content, std::size_t length) {
        label(what);
        const int rows = rows_for(length);
        sheet_.put(Address("H", row), content, Style::note).across(2, rows);
        high(row, 0.65);
        row += rows;
    };
    if (!example.by_hand.empty()) {
        long_text("By hand", when_shown(in_a_formula(example.by_hand)), example.by_hand.size());
    }
    // The sources of published examples give answers away; those of the guide's are formulas and papers.
    long_text("Source", example.id == guide_id ? example.source : when_shown(in_a_formula(example.source.english())),
              example.source.english().size());
    label("Check value");
    const std::string file = file_of(example.id);
    sheet_
        .put(Address("H", row),
             file.empty() ? "no test covers this" : Phrase([file, id = example.id](TextCollector& texts) {
                 return texts.translate(translatable("{1}, row {2}"), {"tests/reference/" + file, id});
             }),
             Style::note)
        .across(2);
    ++row;
    // WHY gives the reason of others and has none of its own; where no answer is right, only an error wants a reason.
    std::string reason = why("=" + entry.cell_name() + "(" + given + ")");
    const std::string failed = "=IF(ISERROR(" + call + ");";
    if (entry.method == "why") reason = failed + R"("Give the name of a function first, as STICKS.";""))";
    if (example.printed == "no answer" && !reason.empty()) reason = failed + reason.substr(1) + ";\"\")";
    if (!reason.empty()) {
        label("Check");
        sheet_.put(Address("H", row), reason, Style::check);
        styles::mark_unfit(sheet_, Address("H", row));
        ++row;
    }

    const Area same = put_comparisons(top);
    // Judged while it is hidden, too: then by the call itself.
    sheet_.put(given_at, "=IFERROR(IF(" + shown_ + ";" + answer.text() + ";" + call + ");\"error\")", Style::workings);
    const std::string given_now = given_at.text();
    std::string agrees = "EXACT(" + given_now + "&\"\";" + expected + ")";
    if (any_version || says_why) agrees = "LEN(" + given_now + ")>0";
    if (is_number) agrees = "ABS(" + given_now + "-" + expected + ")<=" + tolerance;
    const Address agrees_at("W", top);
    sheet_.put(agrees_at, "=IFERROR(" + agrees + ";FALSE())", Style::workings);
    sheet_.put(verdict_at,
               "=IF(NOT(AND(" + same.text() + "));\"changed\";IF(EXACT(" + given_now +
                   "&\"\";\"error\");\"error\";IF(" + agrees_at.text() + R"(;"agrees";"DIFFERS"))))",
               Style::total);
    sheet_.mark(verdict_at, verdict + "=\"changed\"", Style::due);
    sheet_.mark(verdict_at, "OR(" + verdict + "=\"DIFFERS\";" + verdict + "=\"error\")", Style::unfit);
    row_ = std::max({row_, row, same.last.row + 1}) + 1;
    close(top);
    return top;
}

/// A sheet of the book: what belongs together for a student.
struct Lesson {
    const char* sheet;
    const char* title;
    const char* aim;
    std::vector<std::string_view> areas;
};

const std::vector<Lesson>& lessons() {
    static const std::vector<Lesson> all{
        {"Block",
         "Block and budwood",
         "How many trees, grafts and budsticks does a block need, and how many grafts make a tree safe?",
         {"block", "budwood"}},
        {"Calendar",
         "Calendar, day-book and heat",
         "When does each stage fall due, what has been done, how many people does it take, and is it warm enough?",
         {"calendar", "daybook", "heat"}},
        {"Take",
         "Take",
         "How well did the grafts take, how certain is that, and what is to be regrafted?",
         {"take", "trials"}},
        {"Materials", "Materials", "How much paint, tape and disinfectant does the work need?", {"materials"}},
        {"Money",
         "Yield and money",
         "What will the block yield, when has it paid back, and how likely is that?",
         {"yield", "money", "odds"}},
        {"Support",
         "Sun, water and support",
         "Where is the sun, how much water does a tree need, and why does a formula not answer?",
         {}},
    };
    return all;
}

/// The lesson of an area; the last one takes what no other names.
const Lesson& lesson_of(std::string_view area) {
    for (const Lesson& lesson : lessons()) {
        if (std::find(lesson.areas.begin(), lesson.areas.end(), area) != lesson.areas.end()) return lesson;
    }
    return lessons().back();
}

/// What is easier comes first where the catalogue has another order: a chance before the number that reaches it, days
/// of a crew before months.
constexpr std::array<std::string_view, 18> easy_first{
    "sticks",     "treeChance", "treeShare",   "treeGrafts", "grafts",   "graftsFrom",
    "bestGrafts", "budsAlive",  "crewDays",    "crewFinish", "crewSize", "schedule",
    "stageDue",   "milestone",  "harvestDate", "dueList",    "workload", "ownSchedule"};

std::vector<const FunctionEntry*> in_order(const catalogue::Area& area) {
    std::vector<const FunctionEntry*> entries;
    for (const FunctionEntry& entry : area.entries) entries.push_back(&entry);
    std::stable_sort(entries.begin(), entries.end(), [](const FunctionEntry* left, const FunctionEntry* right) {
        const auto rank = [](const FunctionEntry* one) {
            return std::find(easy_first.begin(), easy_first.end(), one->method);
        };
        return rank(left) < rank(right);
    });
    return entries;
}

std::vector<Listed> cards(const std::vector<Sheet*>& sheets, LongLists& series) {
    const std::vector<Example> extra = published_examples();
    std::size_t used = 0;
    std::vector<Listed> all;
    for (std::size_t place = 0; place < sheets.size(); ++place) {
        const Lesson& lesson = lessons().at(place);
        Sheet& sheet = *sheets.at(place);
        Cards on(sheet, series, static_cast<int>(place) + 1, lesson.title, lesson.aim);
        for (const catalogue::Area& area : catalogue::areas()) {
            if (&lesson_of(area.name) != &lesson) continue;
            for (const FunctionEntry* const function : in_order(area)) {
                const FunctionEntry& entry = *function;
                std::vector<Example> examples;
                const auto elsewhere = std::find(asked_elsewhere.begin(), asked_elsewhere.end(), entry.method);
                if (elsewhere == asked_elsewhere.end()) examples.push_back(from_catalogue(entry));
                for (const Example& one : extra) {
                    if (catalogue::find_call(one.call).value().entry == &entry) examples.push_back(one);
                }
                used += examples.size() - (elsewhere == asked_elsewhere.end() ? 1 : 0);
                int number = 0;
                for (const Example& one : examples) {
                    const auto call = catalogue::find_call(one.call);
                    const int row = on.add(one, ++number, entry, call.value().arguments);
                    all.push_back({one, number, entry.cell_name(), lesson.sheet, row});
                }
            }
        }
        sheet.freeze(3);
        sheet.cursor("C3");
        sheet.print_area(Area({1, 1}, {9, on.row() - 2}));
    }
    if (used != extra.size()) throw std::logic_error("an example belongs to no function");
    return all;
}

constexpr int first_listed = 19;  // row of the table of all examples

void overview(Sheet& sheet, const std::vector<Listed>& all) {
    sheet.columns({0.4, 5.2, 2.4, 10.4, 3.5, 2.4});
    styles::opening(sheet, "Worked examples",
                    "Each function of the extension with a question, a hint, inputs in cells, the formula, its answer, "
                    "and a published value or one computed by other means. Answers are hidden until you show them.",
                    5);
    sheet.row_height(2, 1.1);
    sheet.put("B3", styles::if_name_error, Style::lead).across(5);
    sheet.row_height(3, 1.1);
    const int last = first_listed + static_cast<int>(all.size()) - 1;
    sheet
        .put("B4", "=CHOOSE(I5;I6;I7;I8;\"Some examples show an error: is the extension installed?\")", Style::sentence)
        .across(5);
    sheet.row_height(4, 1.2);
    sheet.put("I4", "Behind the sheet; not printed", Style::workings);
    sheet.put("I5", "=IF(all_agree;IF(changed=0;1;2);IF(agreeing+changed+differing=examples;3;4))", Style::workings);
    sheet.put("I6", "=\"All \"&examples&\" examples agree.\"", Style::workings);
    sheet.put("I7",
              "=agreeing&\" of \"&examples&\" examples agree; \"&changed&"
              "\" have changed inputs and are not compared.\"",
              Style::workings);
    sheet.put("I8", "=differing&\" of \"&examples&\" examples DIFFER: see below.\"", Style::workings);
    styles::Form(sheet, "B6")
        .section("Answers")
        .input("Of all lessons", "show_all", "hide", "hide or show", Format::text,
               one_of({"hide", "show"}, "show: formulas, answers and published values, in all lessons"))
        .section("The tally")
        .answer("Examples", "examples", "=ROWS(verdicts)", "cards", Format::count, "")
        .answer("Agree", "agreeing", "=COUNTIF(verdicts;\"agrees\")", "cards", Format::count, "")
        .answer("Changed by you", "changed", "=COUNTIF(verdicts;\"changed\")", "cards", Format::count, "")
        .answer("Differ", "differing", "=COUNTIF(verdicts;\"DIFFERS\")", "cards", Format::count, "")
        .answer("None differs", "all_agree", "=IF(agreeing+changed=examples;1;0)", "1: none differs; 0: some do",
                Format::general, "");
    sheet
        .put("B16",
             "Type your own answer on a card first: the card says whether it is right. Then set the answers to show, "
             "here or at the top of a lesson. Change an input and watch the answer change; a card's Check line says "
             "what is wrong with an entry.",
             Style::note)
        .across(5);
    sheet.row_height(16, 1.1);
    styles::headings(sheet, Address("B", first_listed - 1), {"Function", "Example", "Question", "Card", "Verdict"});
    int row = first_listed;
    for (const Listed& one : all) {
        const std::string at = std::to_string(one.row);
        sheet.put(Address("B", row), one.function, Style::body);
        sheet.put(Address("C", row), one.number, Style::body);
        sheet.put(Address("D", row), one.example.question, Style::body);
        sheet.put(Address("E", row),
                  std::string("=HYPERLINK(\"#").append(one.sheet).append(".B").append(at).append("\";\"") + one.sheet +
                      ", row " + at + "\")",
                  Style::body);
        sheet.put(Address("F", row), "=" + one.sheet + ".I" + at, Style::answer);
        ++row;
    }
    const Area verdicts("F", first_listed, last);
    sheet.name("verdicts", verdicts);
    const std::string head = Address("F", first_listed).text();
    sheet.mark(verdicts, head + "=\"changed\"", Style::due);
    sheet.mark(verdicts, "OR(" + head + "=\"DIFFERS\";" + head + "=\"error\")", Style::unfit);
    sheet.cursor("C7");
    sheet.print_area(Area({1, 1}, {6, last}));
}

}  // namespace

void compute_cards(const ComputedSheets& sheets) {
    std::vector<Sheet*> with_cards;
    for (const Lesson& lesson : lessons()) with_cards.push_back(sheets.at(lesson.sheet));
    LongLists series(*sheets.at("Series"));
    const std::vector<Listed> all = cards(with_cards, series);
    series.close();
    overview(*sheets.at("Overview"), all);
}

}  // namespace slipbark::compose

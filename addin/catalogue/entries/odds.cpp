#include "catalogue/entries/odds.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view uncertain[]{"outlay", "costs", "income", "season", "delay"};

constexpr ColumnDomain spread_columns[]{
    {translatable("what"), ColumnDomain::Of::keywords, {}, uncertain},
    {translatable("low"), ColumnDomain::Of::numbers, {0, 20}},
    {translatable("likely"), ColumnDomain::Of::numbers, {0, 20}},
    {translatable("high"), ColumnDomain::Of::numbers, {0, 20}},
};

constexpr Argument costs{
    "costs", translatable("Money paid out, as positive numbers, the first today, then one a year"), Unit::money,
    // Some cost must be above 0.
    from_to(-1E12, 1E12).blanks(Blanks::at_end).depending_on_call().noted(translatable("at most 200 years"))};
constexpr Argument income{"income", translatable("Money received in the same years"), Unit::money,
                          from_to(-1E12, 1E12).length_of("costs").blanks(Blanks::at_end)};
constexpr Argument spreads{
    "spreads", translatable("What is uncertain: factors around 1, and the delay of all income in years"), Unit::table,
    // Low, likely and high narrow each other; a factor ends below a delay.
    table_of(spread_columns)
        .depending_on_call()
        .noted(translatable("low <= likely <= high, factors at most 10, each factor once"))};
constexpr std::string_view uncertain_flows[]{"outlay", "costs",  "price", "old price", "yield",
                                             "take",   "season", "frost", "delay"};

constexpr ColumnDomain year_columns[]{
    {translatable("costs"), ColumnDomain::Of::numbers, {-1E12, 1E12}},
    {translatable("new crop"), ColumnDomain::Of::numbers, {0, 1E12}},
    {translatable("its picking"), ColumnDomain::Of::numbers, {0, 1E12}},
    {translatable("old crop forgone"), ColumnDomain::Of::numbers, {0, 1E12}},
    {translatable("its picking saved"), ColumnDomain::Of::numbers, {0, 1E12}},
};
constexpr Argument years{
    "years", translatable("The block's years, the first today: amounts of money, all as positive numbers"), Unit::table,
    // In some year something must be paid or forgone.
    table_of(year_columns)
        .blanks(Blanks::at_end)
        .depending_on_call()
        .noted(translatable("at most 200 years; costs are what is paid whatever is borne, both crops gross"))};
constexpr ColumnDomain flow_spread_columns[]{
    {translatable("what"), ColumnDomain::Of::keywords, {}, uncertain_flows},
    {translatable("low"), ColumnDomain::Of::numbers, {0, 20}},
    {translatable("likely"), ColumnDomain::Of::numbers, {0, 20}},
    {translatable("high"), ColumnDomain::Of::numbers, {0, 20}},
};
constexpr Argument flow_spreads{
    "spreads",
    translatable("What is uncertain: factors around 1, of frost the share of the crop lost, and the delay of the new "
                 "crop in years"),
    Unit::table,
    table_of(flow_spread_columns)
        .depending_on_call()
        .noted(translatable("low <= likely <= high, factors at most 10, shares at most 1, each once; two columns "
                            "may follow: of frost the probability of a frost year, of take the share of failures made "
                            "good and the live share planned"))};
constexpr ColumnDomain odds_columns[]{
    {translatable("year"), ColumnDomain::Of::numbers, {0, 10'000}},
    {translatable("share paid back"), ColumnDomain::Of::numbers, {0, 1}},
};
constexpr Argument rate{"rate", translatable("Yearly rate at which flows are discounted"), Unit::fraction_a_year,
                        between(-1, 1), 0.0};

std::vector<std::string> swing_words() { return {"outlay", "costs", "income", "season", "delay"}; }
std::vector<std::string> flow_swing_words() {
    return {"outlay", "costs", "price", "old price", "yield", "take", "season", "frost", "delay"};
}

}  // namespace

Area odds_area() {
    return {
        "odds",
        translatable("Odds"),
        {
            entry("paybackOdds", SLIPBARK_FUNCTION(odds::payback_odds),
                  {.does = translatable(
                       "How likely a plan is to have paid back by each year, and how well or badly it may turn out."),
                   .gives = translatable(
                       "one row of 5 for each year: year from 0 (today), share of simulations paid back by then, "
                       "cumulative discounted flow that 10 %, 50 % and 90 % of the simulations stay below"),
                   .example = R"(REWORK.PAYBACKODDS({300|0}; {0|400}; {"season";0;1;1.2}))",
                   .shows = "0",
                   .source = translatable(
                       "Triangular distributions sampled by a Latin hypercube, the same sample everywhere: McKay, "
                       "Beckman & Conover, Technometrics 21:239-245, 1979; paid back as in PAYBACK")},
                  {costs,
                   income,
                   spreads,
                   rate,
                   {"runs", translatable("Number of simulations"), Unit::draws, whole(100, 100'000), 4000.0}}),
            entry("swings", SLIPBARK_FUNCTION(odds::swings),
                  {.does = translatable("What matters most in a plan: its present value with one factor at its low and "
                                        "at its high, all others at their likely value."),
                   .gives = translatable("one row of 4 for each factor, largest difference first: factor, present "
                                         "value at its low, at its high, size of the difference"),
                   .example = R"(REWORK.SWINGS({300|0}; {0|400}; {"outlay";0.9;1;1.5|"season";0;1;1.2}))",
                   .shows = "season",
                   .source = translatable("One-way sensitivity analysis; season changes all years together"),
                   .words = {swing_words, AnswerWords::In::table}},
                  {costs, income, spreads, rate}),
            entry("flowOdds", SLIPBARK_FUNCTION(odds::flow_odds),
                  {.does = translatable("How likely a block's rework is to have paid back by each year, and how well "
                                        "or badly it may turn out, from what its money is made of."),
                   .gives = translatable(
                       "one row of 5 for each year, of 6 with a limit: year from 0 (today), share of simulations paid "
                       "back by then, cumulative discounted flow that 10 %, 50 % and 90 % of the simulations stay "
                       "below, share of simulations that have been below -limit by then"),
                   .example = R"(REWORK.FLOWODDS({300;0;0;0;0|0;500;100;0;0}; {"season";0;1;1.2}))",
                   .shows = "0",
                   .source = translatable("Triangular distributions sampled by a Latin hypercube, the same sample "
                                          "everywhere: McKay, Beckman & Conover, Technometrics 21:239-245, 1979; a "
                                          "crop that fails is not picked, and the same season falls on the old crop")},
                  {years,
                   flow_spreads,
                   rate,
                   {"runs", translatable("Number of simulations"), Unit::draws, whole(100, 100'000), 4000.0},
                   {"limit", translatable("What may be spent before money comes back"), Unit::money, from_to(0, 1E12),
                    translatable("none"), "500"}}),
            entry(
                "flowSwings", SLIPBARK_FUNCTION(odds::flow_swings),
                {.does = translatable("What matters most in a block's rework: its present value with one factor at its "
                                      "low and at its high, all others at their likely value."),
                 .gives = translatable("one row of 4 for each factor, largest difference first: factor, present value "
                                       "at its low, at its high, size of the difference"),
                 .example = R"(REWORK.FLOWSWINGS({300;0;0;0;0|0;500;100;0;0}; {"outlay";0.9;1;1.5|"price";0.5;1;1.5}))",
                 .shows = "price",
                 .source = translatable(
                     "One-way sensitivity analysis; season changes all years together, frost at its low is no frost"),
                 .words = {flow_swing_words, AnswerWords::In::table}},
                {years, flow_spreads, rate}),
            entry("oddsYear", SLIPBARK_FUNCTION(odds::odds_year),
                  {.does = translatable("First year by which a share of the simulations has paid back, half of them "
                                        "unless another share is given."),
                   .gives = translatable("year, as in the first column of the odds"),
                   .example = "REWORK.ODDSYEAR({0;0 | 1;0.3 | 2;0.6 | 3;0.9})",
                   .shows = "2",
                   .no_answer = translatable("Fewer simulations than that have paid back in these years."),
                   .source = translatable("Definition; 0.5 is the median, 0.9 a year to plan a loan by")},
                  {{"odds", translatable("Answer of FLOWODDS or PAYBACKODDS, or its first two columns"), Unit::table,
                    table_of(odds_columns).blanks(Blanks::at_end).noted(translatable("at most 1000 rows"))},
                   {"share", translatable("Share of the simulations"), Unit::fraction, above_to(0, 1), 0.5}}),
        }};
}

}  // namespace slipbark::catalogue

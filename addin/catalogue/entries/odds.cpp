#include "catalogue/entries/odds.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view uncertain[]{"outlay", "costs", "income", "season", "delay"};

constexpr Column spread_columns[]{
    {translatable("what"), Column::Of::keywords, {}, uncertain},
    {translatable("low"), Column::Of::numbers, {0, 20}},
    {translatable("likely"), Column::Of::numbers, {0, 20}},
    {translatable("high"), Column::Of::numbers, {0, 20}},
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
constexpr Argument rate{"rate", translatable("Yearly rate at which flows are discounted"), Unit::fraction_a_year,
                        between(-1, 1), 0.0};

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
                   .source = translatable("One-way sensitivity analysis; season changes all years together")},
                  {costs, income, spreads, rate}),
        }};
}

}  // namespace slipbark::catalogue

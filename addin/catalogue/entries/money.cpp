#include "slipbark/money.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument flows{"flows", translatable("Money in (+) and out (-), the first today, then one a year"),
                         Unit::money, from_to(-1E12, 1E12).blanks(Blanks::at_end)};
constexpr Argument rate{"rate", translatable("Yearly rate of interest"), Unit::fraction_a_year, between(-1, 1)};

}  // namespace

Area money_area() {
    return {
        "money",
        translatable("Money"),
        {
            entry(
                "payback", SLIPBARK_FUNCTION(money::payback),
                {.does = translatable("Years until the cumulative cash flow, once below 0, is back at 0."),
                 .gives = translatable("years from today, 0 where the sum is never below 0"),
                 .example = "REWORK.PAYBACK({-1000 | 200 | 400 | 800})",
                 .shows = "2.5",
                 .no_answer = translatable("These flows never add up to 0: the plan does not pay back in these years."),
                 .source = translatable("(Discounted) payback, straight line inside the year")},
                {flows,
                 {"rate", translatable("Yearly rate at which flows are discounted"), Unit::fraction_a_year,
                  between(-1, 1), 0.0}}),
            entry("presentValue", SLIPBARK_FUNCTION(money::present_value),
                  {.does = translatable("Present value of yearly flows, the first today and undiscounted."),
                   .gives = translatable("value today, in the same currency"),
                   .example = "REWORK.PRESENTVALUE({-100 | 50 | 125}; 0.25)",
                   .shows = "20.00",
                   .source =
                       translatable("Sum of flow / (1 + rate)^year; Calc's NPV discounts the first flow by a year")},
                  {flows, rate}),
            entry("equalAnnual", SLIPBARK_FUNCTION(money::equal_annual),
                  {.does = translatable(
                       "Equal yearly amount with the same present value, to compare plans of different length."),
                   .gives = translatable("amount at the end of each year from 1 to the last, in the same currency"),
                   .example = "REWORK.EQUALANNUAL({-100 | 150}; 0.25)",
                   .shows = "25.00",
                   .source =
                       translatable("Present value x rate / (1 - (1 + rate)^-n), n one less than the number of flows")},
                  {{"flows", translatable("Money in (+) and out (-), the first today, then one a year"), Unit::money,
                    from_to(-1E12, 1E12).blanks(Blanks::at_end).least_rows(2)},
                   rate}),
            entry("breakEvenPrice", SLIPBARK_FUNCTION(money::break_even_price),
                  {.does = translatable("Price at which the crop just pays its costs."),
                   .gives = translatable("money per unit of yield"),
                   .example = "REWORK.BREAKEVENPRICE({1000 | 50 | 50}; {0 | 100 | 900}; 0)",
                   .shows = "1.10",
                   .no_answer = translatable("There is no crop in these years, so no price pays the costs."),
                   .source = translatable("Present value of the costs over present value of the yields")},
                  {{"costs", translatable("Money paid out, as positive numbers, the first today, then one a year"),
                    Unit::money, from_to(-1E12, 1E12).blanks(Blanks::at_end)},
                   {"yields", translatable("Crop of the same years"), Unit::any_weight_or_count,
                    from_to(0, 1E12).length_of("costs")},
                   rate}),
        }};
}

}  // namespace slipbark::catalogue

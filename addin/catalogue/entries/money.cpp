#include "catalogue/entries/money.hpp"

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
            entry("lowPoint", SLIPBARK_FUNCTION(money::low_point),
                  {.does = translatable("The lowest point of the cumulative cash flow, its year, and when it is "
                                        "back at 0 after it."),
                   .gives = translatable("one row of 3: lowest sum, year of it (0 is today), years from today until "
                                         "the sum is back at 0, blank where that is later than the flows"),
                   .example = "REWORK.LOWPOINT({-100 | 150 | -400 | 100 | 500})",
                   .shows = "-350",
                   .source = translatable("Cumulative cash flow, straight line inside the year; PAYBACK gives the "
                                          "first return, which may come before the lowest point")},
                  {flows,
                   {"rate", translatable("Yearly rate at which flows are discounted"), Unit::fraction_a_year,
                    between(-1, 1), 0.0}}),
            entry(
                "reworkYear", SLIPBARK_FUNCTION(money::rework_year),
                {.does = translatable("What it is worth to leave the old crop for some more years and rework "
                                      "then, for each number of years."),
                 .gives = translatable("one row of 4 for each number of years and one for \"never\": years left, "
                                       "worth today, its annual equivalent without today's crop, 1 for the best "
                                       "row else 0"),
                 .example = "REWORK.REWORKYEAR({0 | 0}; {-100 | 60 | 60}; 0.1)",
                 .shows = "0",
                 .source = translatable("Replacement in a chain of equal plans: Faris, J. Farm Economics "
                                        "42:755-766, 1960 (from memory); Perrin, Am. J. Agric. Econ. 54:60-67, "
                                        "1972")},
                {{"leave_flows", translatable("Margins of the old crop if it is left, the first today's"), Unit::money,
                  from_to(-1E12, 1E12).blanks(Blanks::at_end).noted(translatable("at most 200 years"))},
                 {"rework_flows", translatable("Margins of the rework, the first in the year of grafting"), Unit::money,
                  from_to(-1E12, 1E12).blanks(Blanks::at_end).least_rows(2).noted(translatable("at most 200 years"))},
                 // Above 0 where the rework is repeated; "most" ends one below the rows of leave_flows.
                 {"rate", translatable("Yearly rate of interest"), Unit::fraction_a_year,
                  between(-1, 1).depending_on_call().noted(translatable("above 0 where the rework is repeated"))},
                 {"most", translatable("Years that may be waited"), Unit::years, whole(0, 199).depending_on_call(),
                  translatable("one less than the rows of leave_flows"), "0"},
                 {"repeat", translatable("Whether the rework is done again at the end of its life"), Unit::text,
                  one_of(slipbark::keywords<money::Repeat>), "repeated"}}),
        }};
}

}  // namespace slipbark::catalogue

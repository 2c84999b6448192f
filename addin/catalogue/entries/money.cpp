#include "slipbark/money.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr Argument flows{"flows", "Money in (+) and out (-), the first today, then one a year", "list of money",
                         "each -1E12 to 1E12, blank only at the end"};
constexpr Argument rate{"rate", "Yearly rate of interest", "fraction a year", "above -1 and below 1"};

}  // namespace

Area money_area() {
    return {"money",
            "Money",
            {
                entry("payback", SLIPBARK_FUNCTION(money::payback),
                      {.does = "Years until the summed flows, once below 0, are back at 0.",
                       .gives = "years from today, 0 where the sum is never below 0",
                       .example = "REWORK.PAYBACK({-1000 | 200 | 400 | 800})",
                       .shows = "2.5",
                       .no_answer = "The flows given never add up to 0: the plan does not pay back within them.",
                       .source = "(Discounted) payback, straight line inside the year"},
                      {flows,
                       {"rate", "Yearly rate at which flows are discounted", "fraction a year",
                        "above -1 and below 1, default 0"}}),
                entry("presentValue", SLIPBARK_FUNCTION(money::present_value),
                      {.does = "Present value of yearly flows, the first today and undiscounted.",
                       .gives = "value today, in the same currency",
                       .example = "REWORK.PRESENTVALUE({-100 | 50 | 125}; 0.25)",
                       .shows = "20.00",
                       .source = "Sum of flow / (1 + rate)^year; the host's NPV discounts the first flow by a year"},
                      {flows, rate}),
                entry("equalAnnual", SLIPBARK_FUNCTION(money::equal_annual),
                      {.does = "Equal yearly amount of the same present value, to compare plans of unequal length.",
                       .gives = "amount at the end of each year from 1 to the last, in the same currency",
                       .example = "REWORK.EQUALANNUAL({-100 | 150}; 0.25)",
                       .shows = "25.00",
                       .source = "Present value x rate / (1 - (1 + rate)^-n), n one less than the number of flows"},
                      {{"flows", "Money in (+) and out (-), the first today, then one a year", "list of money",
                        "at least two, each -1E12 to 1E12, blank only at the end"},
                       rate}),
                entry("breakEvenPrice", SLIPBARK_FUNCTION(money::break_even_price),
                      {.does = "Price at which the crop just pays its costs.",
                       .gives = "money per unit of yield",
                       .example = "REWORK.BREAKEVENPRICE({1000 | 50 | 50}; {0 | 100 | 900}; 0)",
                       .shows = "1.10",
                       .no_answer = "There is no crop in these years, so no price pays the costs.",
                       .source = "Present value of the costs over present value of the yields"},
                      {{"costs", "Money paid out, as positive numbers, the first today, then one a year",
                        "list of money", "each -1E12 to 1E12, blank only at the end"},
                       {"yields", "Crop of the same years", "list of any weight or count",
                        "each 0 to 1E12, as many as costs"},
                       rate}),
            }};
}

}  // namespace slipbark::catalogue

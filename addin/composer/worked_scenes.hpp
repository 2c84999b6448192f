// Two invented scenes that end the worked examples: other crops, other units, another size than the shipped plan.
#pragma once

#include "composer/sheet.hpp"

namespace slipbark::compose {

/// Sheets Walnuts (northern, deciduous, acres, feet and pounds) and Mangoes (southern, evergreen, forty trees).
void scenes(Workbook& book);

}  // namespace slipbark::compose

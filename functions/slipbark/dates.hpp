// Days as the trade's functions check, write and shift them. The calendar itself is <chrono>'s.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "slipbark/values.hpp"

namespace slipbark {

/// A day as an ISO date: 2027-09-06. For days of the years 1900 to 9999.
std::string to_text(Day day);

/// Whether a day lies in the years 1900 to 9999, beyond which no sheet knows dates.
bool is_known(Day day);

/// The day `months` calendar months later (earlier where negative).
///
/// The number of the day in its month is kept, and in a shorter month becomes its last: 31 January + 1 month is 28 or
/// 29 February, 28 February + 1 month is 28 March.
///
/// day      a day of the years 1900 to 9999
/// months   from -100,000 to 100,000
/// returns  the day, which may lie outside the years 1900 to 9999
/// source   EDATE of OpenFormula (OASIS ODF 1.3 part 4)
Day add_months(Day day, std::int32_t months);

namespace check {

/// A day of the years 1900 to 9999.
Day day(std::string_view argument, Day value);

/// The same for a day in a range, whose row a bad one names.
Day day_in_row(std::string_view argument, Day value, std::size_t index);

}  // namespace check

}  // namespace slipbark

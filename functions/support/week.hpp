// The working week: which days are worked, and which of them holidays take.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <optional>
#include <vector>

#include "slipbark/values.hpp"

namespace slipbark::calendar {

/// Which days of the week are worked, from Monday.
struct Week {
    std::array<bool, 7> worked{};
    std::int64_t worked_days = 0;

    [[nodiscard]] bool works(Day day) const { return worked.at(std::chrono::weekday{day}.iso_encoding() - 1); }
};

/// The week that `days_off` names, as calendar.hpp says; Saturday and Sunday off unless given.
///
/// throws  bad_argument for what is no week, or one without a working day
Week week_of(const std::optional<Scalar>& days_off);

/// The holidays from `start` on that fall on working days, rising, each once.
std::vector<Day> lost_days(const std::optional<DayList>& holidays, const Week& week, Day start);

/// The working day number `count` from `start` on, holidays left aside; count from 1 to a few million.
Day nth_working_day(Day start, std::int64_t count, const Week& week);

}  // namespace slipbark::calendar

#include "support/week.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "slipbark/dates.hpp"
#include "support/checks.hpp"
#include "support/schedule.hpp"

namespace slipbark::calendar {

namespace {

using std::chrono::days;

/// The refusal of what is no working week.
bad_argument no_week(const Scalar& given) {
    if (const auto* text = std::get_if<std::string>(&given)) {
        return {"days_off",
                translatable("{1} was the text \"{2}\": give seven digits from Monday as a text, 1 = not worked, such "
                             "as \"0000011\", or a code 1 to 7 or 11 to 17."),
                {*text}};
    }
    const double number = std::get<double>(given);
    if (number == 0) {
        return {"days_off",
                translatable("{1} was 0 (the cell may be blank): give seven digits from Monday as a text, 1 = not "
                             "worked, such as \"0000011\", or a code 1 to 7 or 11 to 17.")};
    }
    return {"days_off",
            translatable("{1} was {2}: give seven digits from Monday as a text, 1 = not worked, such as \"0000011\", "
                         "or a code 1 to 7 or 11 to 17."),
            {number}};
}

/// The digits of a code of the host's WORKDAY.INTL.
std::string week_of_code(std::int64_t code, const Scalar& given) {
    std::string digits(7, '0');
    if (code >= 1 && code <= 7) {
        const auto first = static_cast<std::size_t>(code + 4) % 7;  // 1 = Saturday and Sunday
        digits.at(first) = digits.at((first + 1) % 7) = '1';
    } else if (code >= 11 && code <= 17) {
        digits.at(static_cast<std::size_t>(code - 11 + 6) % 7) = '1';  // 11 = Sunday
    } else {
        throw no_week(given);
    }
    return digits;
}

std::string week_digits(const Scalar& days_off) {
    if (const auto* number = std::get_if<double>(&days_off)) {
        const bool whole = std::abs(*number) < 100 && *number == std::round(*number);
        return week_of_code(whole ? std::lround(*number) : 0, days_off);
    }
    std::string digits = check::folded(std::get<std::string>(days_off));
    if (digits.size() == 7 && digits.find_first_not_of("01") == std::string::npos) return digits;
    // Six zeros and a one are digits too few, not the code 1.
    const bool is_code = digits.size() <= 2 && !digits.starts_with('0');
    return week_of_code(is_code ? written_number(digits).value_or(0) : 0, days_off);
}

}  // namespace

Week week_of(const std::optional<Scalar>& days_off) {
    const std::string digits = days_off ? week_digits(*days_off) : "0000011";
    Week week;
    for (std::size_t day = 0; day < week.worked.size(); ++day) week.worked.at(day) = digits.at(day) == '0';
    week.worked_days = std::count(week.worked.begin(), week.worked.end(), true);
    if (week.worked_days == 0) {
        throw bad_argument("days_off",
                           translatable("{1} was \"1111111\", a week without a working day: give seven digits from "
                                        "Monday as a text, 1 = not worked, such as \"0000011\", or a code 1 to 7 or 11 "
                                        "to 17."));
    }
    return week;
}

std::vector<Day> lost_days(const std::optional<DayList>& holidays, const Week& week, Day start) {
    std::vector<Day> lost;
    if (!holidays) return lost;
    for (std::size_t index = 0; index < holidays->days.size(); ++index) {
        const auto& holiday = holidays->days[index];
        if (!holiday) continue;
        check::day_in_row("holidays", *holiday, index);
        if (*holiday >= start && week.works(*holiday)) lost.push_back(*holiday);
    }
    std::sort(lost.begin(), lost.end());
    lost.erase(std::unique(lost.begin(), lost.end()), lost.end());
    return lost;
}

Day nth_working_day(Day start, std::int64_t count, const Week& week) {
    Day day = start + days{static_cast<std::int32_t>((count - 1) / week.worked_days * 7)};
    std::int64_t left = (count - 1) % week.worked_days + 1;
    while (true) {
        if (week.works(day) && --left == 0) return day;
        day += days{1};
    }
}

}  // namespace slipbark::calendar

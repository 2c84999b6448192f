#include "slipbark/dates.hpp"

#include <algorithm>

#include "support/checks.hpp"

namespace slipbark {

namespace {

using std::chrono::December;
using std::chrono::January;

constexpr Day first_known{January / 1 / 1900};
constexpr Day last_known{December / 31 / 9999};

void append_two_digits(std::string& text, unsigned value) {
    text.append(value < 10 ? "-0" : "-").append(std::to_string(value));
}

}  // namespace

std::string to_text(Day day) {
    const std::chrono::year_month_day date{day};
    std::string text = std::to_string(static_cast<int>(date.year()));
    append_two_digits(text, static_cast<unsigned>(date.month()));
    append_two_digits(text, static_cast<unsigned>(date.day()));
    return text;
}

bool is_known(Day day) { return day >= first_known && day <= last_known; }

Day add_months(Day day, std::int32_t months) {
    const std::chrono::year_month_day date{day};
    const auto month = date.year() / date.month() + std::chrono::months{months};
    const auto last = (month / std::chrono::last).day();
    return Day{month / std::min(date.day(), last)};
}

Day check::day(std::string_view argument, Day value) {
    if (is_known(value)) return value;
    throw bad_argument(argument, translatable("{1} was outside the years 1900 to 9999: give a date of these years."));
}

Day check::day_in_row(std::string_view argument, Day value, std::size_t index) {
    if (is_known(value)) return value;
    throw bad_argument(argument,
                       translatable("{1} was outside the years 1900 to 9999 in row {2}: give a date of these years."),
                       {row_number(index)});
}

}  // namespace slipbark

#include "catalogue/formats.hpp"

#include <algorithm>
#include <array>
#include <boost/algorithm/string/erase.hpp>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "slipbark/outcome.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::array months{translatable("Jan"), translatable("Feb"), translatable("Mar"), translatable("Apr"),
                            translatable("May"), translatable("Jun"), translatable("Jul"), translatable("Aug"),
                            translatable("Sep"), translatable("Oct"), translatable("Nov"), translatable("Dec")};

/// Reads a C expression of n, with the operators that rules of plurals have.
class Rule {
  public:
    Rule(std::string_view rule, unsigned long count) : left_(rule), count_(count) {}

    unsigned long value() {
        const unsigned long made = choice();
        if (!left_.empty()) unreadable();
        return made;
    }

  private:
    [[noreturn]] void unreadable() const {
        throw std::logic_error("a plural rule cannot be read at \"" + std::string(left_) + "\"");
    }

    bool take(std::string_view what) {
        if (!left_.starts_with(what)) return false;
        left_.remove_prefix(what.size());
        return true;
    }

    unsigned long choice() {
        const unsigned long condition = either();
        if (!take("?")) return condition;
        const unsigned long then = choice();
        if (!take(":")) unreadable();
        const unsigned long otherwise = choice();
        return condition != 0 ? then : otherwise;
    }

    // Both sides are read, whatever the first one gives.
    unsigned long either() {
        unsigned long made = both();
        while (take("||")) made = both() != 0 || made != 0 ? 1 : 0;
        return made;
    }

    unsigned long both() {
        unsigned long made = comparison();
        while (take("&&")) made = comparison() != 0 && made != 0 ? 1 : 0;
        return made;
    }

    unsigned long comparison() {
        const unsigned long made = remainder();
        if (take("==")) return made == remainder() ? 1 : 0;
        if (take("!=")) return made != remainder() ? 1 : 0;
        if (take("<=")) return made <= remainder() ? 1 : 0;
        if (take(">=")) return made >= remainder() ? 1 : 0;
        if (take("<")) return made < remainder() ? 1 : 0;
        if (take(">")) return made > remainder() ? 1 : 0;
        return made;
    }

    unsigned long remainder() {
        unsigned long made = single();
        while (take("%")) {
            const unsigned long by = single();
            if (by == 0) unreadable();
            made %= by;
        }
        return made;
    }

    unsigned long single() {
        if (take("n")) return count_;
        if (take("(")) {
            const unsigned long made = choice();
            if (!take(")")) unreadable();
            return made;
        }
        const auto digits = std::min(left_.find_first_not_of("0123456789"), left_.size());
        if (digits == 0) unreadable();
        const unsigned long made = std::stoul(std::string(left_.substr(0, digits)));
        left_.remove_prefix(digits);
        return made;
    }

    std::string_view left_;
    unsigned long count_;
};

std::string with_thousands(std::string digits, const Language& language) {
    const std::size_t first = digits.starts_with('-') ? 1 : 0;
    const std::size_t least = language.is_english() ? 4 : 5;
    if (digits.size() - first < least || digits.find_first_not_of("0123456789", first) != std::string::npos) {
        return digits;
    }
    for (std::size_t at = digits.size() - 3; at > first && at < digits.size(); at -= 3) {
        digits.insert(at, language.thousands_sign());
    }
    return digits;
}

std::string with_sign(std::string number, const Language& language) {
    if (const auto point = number.find('.'); point != std::string::npos) {
        number.replace(point, 1, language.decimal_sign());
    }
    return number;
}

/// Whole without a sign before 0.
double rounded(double number) { return std::round(number) + 0.0; }

std::string joined(const std::vector<std::string>& items, Text last_two, const Language& language) {
    std::string text;
    for (std::size_t at = 0; at < items.size(); ++at) {
        if (at == 0) {
            text = items[at];
        } else if (at + 1 == items.size()) {
            text = language.translated(last_two, {text, items[at]});
        } else {
            text += ", " + items[at];
        }
    }
    return text;
}

}  // namespace

std::string count_text(double number, const Language& language) {
    return with_thousands(to_text(rounded(number)), language);
}

std::string money_text(double amount, const Language& language) {
    constexpr double whole_from = 100;
    const double cents = rounded(100 * amount);
    if (std::abs(amount) >= whole_from || std::fmod(cents, 100) == 0) return count_text(amount, language);
    std::string digits = to_text(std::abs(cents));
    while (digits.size() < 3) digits.insert(0, 1, '0');
    digits.insert(digits.size() - 2, ".");
    return with_sign((cents < 0 ? "-" : "") + digits, language);
}

std::string percent_text(double fraction, const Language& language) {
    return with_sign(to_text(rounded(1000 * fraction) / 10), language) + " %";
}

std::string number_text(double number, const Language& language) { return with_sign(to_text(number), language); }

std::string day_text(Day day, const Language& language) {
    const std::chrono::year_month_day date{day};
    const std::size_t month = static_cast<unsigned>(date.month());
    return language.translated(translatable("{1} {2} {3}"), {static_cast<double>(static_cast<unsigned>(date.day())),
                                                             language.translated(months.at(month - 1)),
                                                             static_cast<double>(static_cast<int>(date.year()))});
}

std::string list_text(const std::vector<std::string>& items, const Language& language) {
    return joined(items, translatable("{1} and {2}"), language);
}

std::string choice_text(const std::vector<std::string>& items, const Language& language) {
    return joined(items, translatable("{1} or {2}"), language);
}

std::string of_header(const Language& language, std::string_view name, char end) {
    const std::string_view header = language.find("");
    const auto from = header.find(name);
    const auto to = from == std::string_view::npos ? from : header.find(end, from);
    return to == std::string_view::npos ? "" : std::string(header.substr(from + name.size(), to - from - name.size()));
}

std::string plural_rule(const Language& language) {
    const std::string rule = of_header(language, "plural=", ';');
    return rule.empty() ? "n!=1" : boost::algorithm::erase_all_copy(rule, " ");
}

std::size_t plural_forms(const Language& language) {
    const std::string forms = of_header(language, "nplurals=", ';');
    const bool is_number = !forms.empty() && forms.find_first_not_of("0123456789") == std::string::npos;
    return is_number ? std::stoul(forms) : 2;
}

std::size_t plural_form(std::string_view rule, unsigned long count) {
    const std::string packed = boost::algorithm::erase_all_copy(std::string(rule), " ");
    return Rule(packed, count).value();
}

std::size_t plural_form(double count, const Language& language) {
    const double size = std::abs(count);
    constexpr double longest = 1E9;
    if (size != std::floor(size) || size > longest) return plural_forms(language) - 1;
    return plural_form(plural_rule(language), static_cast<unsigned long>(size));
}

}  // namespace slipbark::catalogue

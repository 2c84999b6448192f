#include "composer/plural.hpp"

#include <array>
#include <boost/algorithm/string/join.hpp>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace slipbark::compose {

namespace {

/// Reads a C expression of n, with the operators that rules have, and writes it as a formula.
class Rule {
  public:
    Rule(std::string_view rule, std::string count) : left_(rule), count_(std::move(count)) {}

    std::string formula() {
        std::string made = choice();
        if (!left_.empty()) throw std::logic_error("a plural rule cannot be read at " + std::string(left_));
        return made;
    }

  private:
    bool take(std::string_view what) {
        if (!left_.starts_with(what)) return false;
        left_.remove_prefix(what.size());
        return true;
    }

    std::string choice() {
        std::string condition = either();
        if (!take("?")) return condition;
        const std::string then = choice();
        if (!take(":")) throw std::logic_error("a plural rule lacks its :");
        return "IF(" + condition + ";" + then + ";" + choice() + ")";
    }

    std::string either() {
        std::vector<std::string> sides{both()};
        while (take("||")) sides.push_back(both());
        return sides.size() == 1 ? sides[0] : "OR(" + boost::algorithm::join(sides, ";") + ")";
    }

    std::string both() {
        std::vector<std::string> sides{comparison()};
        while (take("&&")) sides.push_back(comparison());
        return sides.size() == 1 ? sides[0] : "AND(" + boost::algorithm::join(sides, ";") + ")";
    }

    std::string comparison() {
        using Sign = std::pair<std::string_view, std::string_view>;
        constexpr std::array<Sign, 6> signs{Sign{"==", "="},  Sign{"!=", "<>"}, Sign{"<=", "<="},
                                            Sign{">=", ">="}, Sign{"<", "<"},   Sign{">", ">"}};
        std::string made = remainder();
        for (const auto& [written, sign] : signs) {
            if (take(written)) return made.append(sign) + remainder();
        }
        return made;
    }

    std::string remainder() {
        std::string made = value();
        while (take("%")) made = "MOD(" + made + ";" + value() + ")";
        return made;
    }

    std::string value() {
        if (take("n")) return count_;
        if (take("(")) {
            std::string made = choice();
            if (!take(")")) throw std::logic_error("a plural rule lacks its )");
            return "(" + made + ")";
        }
        const auto digits = std::min(left_.find_first_not_of("0123456789"), left_.size());
        if (digits == 0) throw std::logic_error("a plural rule cannot be read at " + std::string(left_));
        std::string number(left_.substr(0, digits));
        left_.remove_prefix(digits);
        return number;
    }

    std::string_view left_;
    std::string count_;
};

}  // namespace

std::string chosen_by_count(const std::string& rule, const std::string& count, const std::vector<std::string>& forms) {
    if (forms.size() == 1) return forms[0];
    if (forms.size() == 2) {
        // 0 goes with the plural in English and Spanish, with the singular in French.
        for (const auto& [written, one] : {std::pair("n!=1", "=1;"), std::pair("n>1", "<=1;")}) {
            if (rule != written && rule != "(" + std::string(written) + ")") continue;
            return "IF(" + count + one + forms[0] + ";" + forms[1] + ")";
        }
    }
    // A comparison is 0 or 1, too, as in C.
    return "CHOOSE(1+(" + Rule(rule, count).formula() + ");" + boost::algorithm::join(forms, ";") + ")";
}

}  // namespace slipbark::compose

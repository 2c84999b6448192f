#include "slipbark/yield.hpp"

#include <cmath>

#include "slipbark/defaults.hpp"
#include "support/checks.hpp"
#include "support/pchip.hpp"

namespace slipbark::yield {

namespace {

constexpr double longest = 1000;     // years
constexpr double most_share = 10;    // a share above this is a percentage
constexpr double least_step = 1e-6;  // half a minute, so that no slope overflows

struct Curve {
    std::vector<double> years;
    std::vector<double> shares;

    [[nodiscard]] double share(double at) const { return pchip::value(years, shares, at); }
};

double number_at(const Table& table, std::size_t row, std::size_t column, double high) {
    const Cell& cell = table.at(row, column);
    const auto* number = std::get_if<double>(&cell);
    if (number != nullptr && *number >= 0 && *number <= high) return *number;

    const std::string where = " in " + check::row_name(row);
    const std::string right = (column == 0 ? "give years from 0 to " : "give a share from 0 to ") + to_text(high);
    if (const auto* text = std::get_if<std::string>(&cell)) {
        throw bad_argument("curve", "has the text \"" + *text + "\"" + where, right + ", and no heading");
    }
    if (number == nullptr) throw bad_argument("curve", "is blank" + where, right);
    const bool percent = column == 1 && *number > high && *number <= 1000;
    throw bad_argument("curve", "was " + to_text(*number) + where,
                       right + (percent ? ": " + to_text(*number) + " % is " + to_text(*number / 100) : std::string()));
}

Curve read(const Table& table) {
    if (table.columns < 2) {
        throw bad_argument("curve", "has " + std::to_string(table.columns) + " columns",
                           "give two: years since grafting and share of the mature yield");
    }
    std::size_t used = table.rows();
    while (used > 0 && is_blank(table.at(used - 1, 0)) && is_blank(table.at(used - 1, 1))) --used;
    if (used < 2) {
        throw bad_argument("curve", "has " + std::to_string(used) + " rows", "give at least two");
    }
    Curve curve;
    curve.years.reserve(used);
    curve.shares.reserve(used);
    for (std::size_t row = 0; row < used; ++row) {
        const double year = number_at(table, row, 0, longest);
        if (row > 0 && year - curve.years.back() < least_step) {
            throw bad_argument(
                "curve",
                "has " + to_text(year) + " years in " + check::row_name(row) + " after " + to_text(curve.years.back()),
                "give years that rise from row to row");
        }
        curve.years.push_back(year);
        curve.shares.push_back(number_at(table, row, 1, most_share));
    }
    return curve;
}

Curve read(const std::optional<Table>& table) { return read(table ? *table : defaults::yield()); }

}  // namespace

double per_tree(double years, double mature_yield, const std::optional<Table>& curve) {
    const double at = check::number("years", years, 0, longest);
    const double mature = check::number("mature_yield", mature_yield, 0);
    return mature * read(curve).share(at);
}

Table by_year(double trees, double years, double mature_yield, double take, std::optional<double> regraft_take,
              std::optional<double> yearly_loss, const std::optional<Table>& curve) {
    const auto reworked = static_cast<double>(check::whole("trees", trees, 0));
    const auto last = check::whole("years", years, 1, 200);
    const double mature = check::number("mature_yield", mature_yield, 0);
    const double took = check::fraction("take", take);
    const double retook = check::fraction("regraft_take", regraft_take.value_or(0));
    const double kept = 1 - check::fraction_below_one("yearly_loss", yearly_loss.value_or(0));
    const Curve shares = read(curve);

    Table result{1, {}};
    result.cells.reserve(static_cast<std::size_t>(last));
    // Share of the mature yield that a tree grafted y years ago still stands for, lost trees counted in.
    double before = 0;
    double standing = 1;
    for (std::int64_t year = 1; year <= last; ++year) {
        standing *= kept;
        const double now = standing * shares.share(static_cast<double>(year));
        result.cells.emplace_back(reworked * mature * (took * now + (1 - took) * retook * before));
        before = now;
    }
    return result;
}

double alternation(const List& yields) {
    const auto crops = check::series("yields", yields, 0);
    if (crops.size() < 2) {
        throw bad_argument("yields", "has " + std::to_string(crops.size()) + " years", "give at least two");
    }
    double sum = 0;
    for (std::size_t year = 1; year < crops.size(); ++year) {
        const double both = crops[year] + crops[year - 1];
        if (both > 0) sum += std::abs(crops[year] - crops[year - 1]) / both;
    }
    return sum / static_cast<double>(crops.size() - 1);
}

}  // namespace slipbark::yield

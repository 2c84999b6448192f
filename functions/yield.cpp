#include "slipbark/yield.hpp"

#include <cmath>

#include "support/checks.hpp"
#include "support/curves.hpp"
#include "support/pchip.hpp"

namespace slipbark::yield {

namespace {

/// The share of the mature yield at an age. Before the first row nothing is borne.
double share_at(const check::Points& curve, double years) {
    return years < curve.at.front() ? 0 : pchip::value(curve.at, curve.share, years);
}

}  // namespace

double per_tree(double years, double mature_yield, const std::optional<Table>& curve) {
    const double at = check::number("years", years, 0, curves::longest_years);
    const double mature = check::number("mature_yield", mature_yield, 0);
    return mature * share_at(curves::yield_curve(curve), at);
}

Table by_year(double trees, double years, double mature_yield, double take, std::optional<double> regraft_take,
              std::optional<double> yearly_loss, const std::optional<Table>& curve,
              std::optional<double> first_harvest) {
    const auto reworked = static_cast<double>(check::whole("trees", trees, 0));
    const auto last = check::whole("years", years, 1, 200);
    const double mature = check::number("mature_yield", mature_yield, 0);
    const double took = check::fraction("take", take);
    const double retook = check::fraction("regraft_take", regraft_take.value_or(0));
    const double kept = 1 - check::fraction_below_one("yearly_loss", yearly_loss.value_or(0));
    const double first = check::positive("first_harvest", first_harvest.value_or(1), 2);
    const check::Points shares = curves::yield_curve(curve);

    Table result{1, {}};
    result.cells.reserve(static_cast<std::size_t>(last));
    // Share of the mature yield that a tree still stands for at the harvest of a year, lost trees counted in. Those
    // regrafted a year later stand where the others stood at the harvest before.
    double before = 0;
    double standing = 1;
    for (std::int64_t year = 1; year <= last; ++year) {
        standing *= kept;
        const double now = standing * share_at(shares, first + static_cast<double>(year - 1));
        result.cells.emplace_back(reworked * mature * (took * now + (1 - took) * retook * before));
        before = now;
    }
    return result;
}

double alternation(const List& yields) {
    const auto crops = check::series("yields", yields, 0);
    if (crops.size() < 2) {
        throw bad_argument("yields", translatable("{1} has {2} years: give at least two."),
                           {static_cast<double>(crops.size())});
    }
    double sum = 0;
    for (std::size_t year = 1; year < crops.size(); ++year) {
        const double both = crops[year] + crops[year - 1];
        if (both > 0) sum += std::abs(crops[year] - crops[year - 1]) / both;
    }
    return sum / static_cast<double>(crops.size() - 1);
}

}  // namespace slipbark::yield

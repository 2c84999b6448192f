#include "support/curves.hpp"

#include <span>
#include <string>

#include "slipbark/defaults.hpp"
#include "support/checks.hpp"

namespace slipbark::curves {

namespace {

constexpr double least_step_years = 1e-6;  // half a minute, so that no slope overflows

check::Points made_of(std::span<const defaults::Share> rows) {
    check::Points points;
    points.at.reserve(rows.size());
    points.share.reserve(rows.size());
    for (const defaults::Share& row : rows) {
        points.at.push_back(row.at);
        points.share.push_back(row.share);
    }
    return points;
}

/// What one cell means: one of the two kept by name.
check::Points named_life(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) {
        const std::string name = check::folded(*text);
        if (name == "room") return made_of(defaults::room_life());
        if (name == "cool") return made_of(defaults::cool_life());
        throw bad_argument("storage",
                           translatable("{1} was the text \"{2}\": give \"room\", \"cool\" or a range of two columns, "
                                        "days and share."),
                           {*text});
    }
    if (const auto* number = std::get_if<double>(&cell)) {
        throw bad_argument(
            "storage", translatable("{1} was {2}: give \"room\", \"cool\" or a range of two columns, days and share."),
            {*number});
    }
    throw bad_argument("storage",
                       translatable("{1} was a blank cell: give \"room\", \"cool\" or a range of two columns, days "
                                    "and share."));
}

}  // namespace

check::Points yield_curve(const std::optional<Table>& curve) {
    if (!curve) return made_of(defaults::yield_curve());
    constexpr check::NumberColumn years{0, translatable("years"), 0, longest_years, false};
    constexpr check::NumberColumn share{1, translatable("share"), 0, highest_share, false};
    return check::points("curve", *curve, years, share, 2, least_step_years);
}

check::Points bud_life(const std::optional<Table>& storage) {
    if (!storage) return made_of(defaults::room_life());
    if (storage->cells.size() == 1) return named_life(storage->cells.front());
    constexpr check::NumberColumn days{0, translatable("days"), 0, check::amount_limit, false};
    constexpr check::NumberColumn share{1, translatable("share"), 0, 1, false};
    check::Points points = check::points("storage", *storage, days, share, 1);
    if (points.at.front() != 0) {
        throw bad_argument("storage", translatable("{1} starts at day {2} in row 1: give day 0 as the first row."),
                           {points.at.front()});
    }
    return points;
}

check::Points canopy(const std::optional<Table>& regrowth) {
    if (!regrowth) return made_of(defaults::canopy_regrowth());
    constexpr check::NumberColumn years{0, translatable("years"), 0, longest_years, false};
    constexpr check::NumberColumn share{1, translatable("share"), 0, 1, false};
    check::Points points = check::points("regrowth", *regrowth, years, share, 1);
    if (points.at.front() != 0) {
        throw bad_argument("regrowth", translatable("{1} starts at year {2} in row 1: give year 0 as the first row."),
                           {points.at.front()});
    }
    return points;
}

}  // namespace slipbark::curves

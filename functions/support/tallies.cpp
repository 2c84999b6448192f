#include "support/tallies.hpp"

#include <string>
#include <utility>

namespace slipbark::tallies {

double whole_in_row(std::string_view argument, const List& list, std::size_t row) {
    return static_cast<double>(check::whole_in_row(argument, list, row, 0));
}

Count count_in_row(const List& live, const List& grafted, std::size_t row) {
    const Count count{whole_in_row("live", live, row), whole_in_row("grafted", grafted, row)};
    if (count.live > count.grafted) {
        throw bad_argument("live",
                           translatable("{1} was {2} in row {3}, more than the {4} grafted: give at most what was "
                                        "grafted."),
                           {count.live, check::row_number(row), count.grafted});
    }
    return count;
}

std::optional<std::size_t> Groups::place_of(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    const auto* number = std::get_if<double>(&cell);
    std::string key;
    if (text != nullptr) key = check::folded(*text);
    if (number != nullptr) key = check::folded(to_text(*number));
    if (key.empty()) return std::nullopt;
    const auto [known, is_new] = places_.try_emplace(std::move(key), names_.size());
    if (is_new) names_.push_back(text == nullptr ? cell : Cell(std::string(check::trimmed(*text))));
    return known->second;
}

Tallies tallies_by_group(const List& groups, const List& live, const List& grafted) {
    check::same_length("groups", groups.length, "live", live.length);
    Tallies tallies;
    for_each_inspected(live, grafted, [&](std::size_t row, const Count& count) {
        const auto place = tallies.groups.place_of(groups.cell(row));
        if (!place) {
            throw bad_argument("groups",
                               translatable("{1} is blank in row {2}, which was inspected: give a name or a number "
                                            "there."),
                               {check::row_number(row)});
        }
        tallies.rows.resize(tallies.groups.size());
        tallies.rows[*place].push_back(count);
    });
    return tallies;
}

}  // namespace slipbark::tallies

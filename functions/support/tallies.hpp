// The rows of a form in which trees are counted: grafts alive, grafts placed, and to which group a row belongs.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "statistics/count.hpp"
#include "support/checks.hpp"

namespace slipbark::tallies {

using statistics::Count;

/// The whole number, 0 or more, in one cell of a list.
double whole_in_row(std::string_view argument, const List& list, std::size_t row);

/// The tally of a row in which `live` is not blank.
Count count_in_row(const List& live, const List& grafted, std::size_t row);

/// Hands on the row and the tally of each inspected row of a form that has grafts. Where the count is still blank the
/// row waits, but what is in it must be right.
template <class Use>
void for_each_inspected(const List& live, const List& grafted, Use use) {
    check::same_length("live", live.length, "grafted", grafted.length);
    const std::size_t used = std::max(live.cells.size(), grafted.cells.size());
    for (std::size_t row = 0; row < used; ++row) {
        if (is_blank(live.cell(row))) {
            if (!is_blank(grafted.cell(row))) whole_in_row("grafted", grafted, row);
            continue;
        }
        const Count count = count_in_row(live, grafted, row);
        if (count.grafted > 0) use(row, count);
    }
}

/// Groups by name in order of first appearance, kept apart as Calc looks up texts, case ignored; blanks
/// around a name are cut. The number 3 and the text "3" are one.
class Groups {
  public:
    /// The place of the group that the cell names; none where it is blank.
    std::optional<std::size_t> place_of(const Cell& cell);
    [[nodiscard]] std::size_t size() const { return names_.size(); }
    [[nodiscard]] const Cell& name(std::size_t place) const { return names_[place]; }

  private:
    std::vector<Cell> names_;  ///< as the first of each group is spelled
    std::unordered_map<std::string, std::size_t> places_;
};

/// The inspected rows by group.
struct Tallies {
    Groups groups;
    std::vector<std::vector<Count>> rows;  ///< of each group, in the order of the groups
};

Tallies tallies_by_group(const List& groups, const List& live, const List& grafted);

}  // namespace slipbark::tallies

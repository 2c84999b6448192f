#include "budwood.hpp"

#include "checks.hpp"

namespace slipbark::budwood {

double sticks(double grafts, double buds_per_graft, double buds_per_stick, std::optional<double> spare) {
    const auto wanted = check::whole("grafts", grafts, 0);
    const auto per_graft = check::whole("buds_per_graft", buds_per_graft, 1, 100);
    const auto per_stick = check::whole("buds_per_stick", buds_per_stick, 1, 1000);
    const double extra = check::fraction("spare", spare.value_or(0), 2);
    const auto scions = per_stick / per_graft;
    if (scions == 0) {
        throw bad_argument("buds_per_stick", "was " + to_text(buds_per_stick) + ", too few for one scion",
                           "give at least buds_per_graft, which is " + to_text(buds_per_graft));
    }
    return check::rounded_up(static_cast<double>(wanted) * (1 + extra) / static_cast<double>(scions));
}

}  // namespace slipbark::budwood

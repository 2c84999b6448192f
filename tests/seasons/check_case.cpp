#include "check_case.hpp"

namespace slipbark::tests {

using seasons::Block;
using seasons::Farm;
using seasons::Kind;

Farm check_farm(bool same_end, bool margins, bool own_wood) {
    const auto block = [&](const char* name, std::size_t source, std::vector<double> flows, std::vector<double> days,
                           const std::vector<double>& sticks, const std::vector<double>& gives, double old_crop,
                           std::vector<double> new_crop, int earliest = 1) {
        Block made{.name = name,
                   .flows = std::move(flows),
                   .days = std::move(days),
                   .sticks = std::vector<std::vector<double>>(2),
                   .gives = std::vector<std::vector<double>>(2),
                   .new_crop = std::move(new_crop),
                   .old_crop = old_crop,
                   .earliest = earliest,
                   .latest = 4,
                   .pinned = {}};
        made.sticks[source] = sticks;
        if (own_wood) made.gives[source] = gives;
        return made;
    };
    Farm farm;
    farm.blocks = {
        block("A", 0, {-10900, -12400, -9800, -3100, 4600, 9900, 12800, 14100, 14100, 14000, 13900}, {14, 2, 1},
              {840, 110, 40}, {0, 0, 300, 700, 700, 700, 700, 700}, 21.5, {0, 0, 2, 9, 18, 25, 27.5, 28.5}),
        block("B", 0, {-14800, -15900, -12700, -4200, 5200, 12600, 16400, 17600, 17600, 17500, 17400}, {19, 3, 1},
              {1130, 150, 50}, {0, 0, 420, 980, 980, 980, 980, 980}, 29, {0, 0, 3, 12, 24, 33, 37, 38.5}),
        block("C", 1, {-7200, -8100, -6500, -1800, 3300, 6200, 7900, 8600, 8600, 8500, 8400}, {9, 1, 1}, {510, 60, 20},
              {0, 0, 190, 450, 450, 450, 450, 450}, 12.5, {0, 0, 1.5, 5, 9, 12, 13.5, 14}),
        block("D", 1, {-16500, -17800, -13900, -5200, 4100, 10800, 14900, 16700, 16800, 16700, 16600}, {22, 4, 1},
              {1340, 170, 60}, {0, 0, 500, 1150, 1150, 1150, 1150, 1150}, 34, {0, 0, 3, 11, 21, 30, 34.5, 36.5}, 2)};
    const std::vector<double> days{24, 20, 24, 16, 3, 6, 6};
    const std::vector<double> wood_p{1150, 400, 700, 700, 150, 150, 150};
    const std::vector<double> wood_r{900, 1150, 700, 1150, 60, 150, 0};
    const std::vector<double> cash{18000, 22000, 14000, 26000, 12000, 8000, 22000};
    for (std::size_t season = 0; season < days.size(); ++season) {
        farm.seasons.push_back({.days = days[season],
                                .sticks = {wood_p[season], wood_r[season]},
                                .cash = cash[season],
                                .crop_kept = 0.65});
    }
    farm.grafting_seasons = 4;
    farm.sources = 2;
    farm.years = 10;
    farm.rate = 0.06;
    farm.same_end = same_end;
    farm.margins = margins;
    farm.rest_crop = 40;
    return farm;
}

const std::vector<CheckedCase>& checked_cases() {
    const auto same = [](Kind kind) { return CheckedGain{kind, {}, 0, 0, {}}; };
    const CheckedGain early{Kind::cash, {1, 0, 1, 0}, 31929.3569, 5076.8183, {100, 0, 800, 0, 0, 0, 0}};
    static const std::vector<CheckedCase> cases{
        {"Z-1",
         false,
         false,
         {4, 1, 0, 0},
         40428.2224,
         {same(Kind::days),
          {Kind::sticks, {1, 3, 0, 0}, 41140.4884, 712.2660, {0, 0, 170, 0, 0, 0, 0}},
          {Kind::cash, {4, 1, 2, 0}, 51291.6070, 10863.3846, {0, 0, 4700, 0, 0, 0, 0}},
          same(Kind::crop)}},
        {"Z-2",
         false,
         true,
         {4, 1, 3, 0},
         50676.6984,
         {{Kind::days, {1, 4, 2, 0}, 50830.6851, 153.9867, {0, 0, 0, 4, 0, 0, 0}},
          {Kind::sticks, {1, 3, 4, 0}, 50808.8620, 132.1636, {0, 0, 170, 0, 0, 0, 0}},
          {Kind::cash, {4, 1, 2, 0}, 51291.6070, 614.9086, {0, 0, 4700, 0, 0, 0, 0}},
          same(Kind::crop)}},
        {"Z-3", true, false, {1, 0, 2, 0}, 26852.5386, {same(Kind::days), same(Kind::sticks), early, same(Kind::crop)}},
        {"Z-4", true, true, {1, 0, 2, 0}, 26852.5386, {same(Kind::days), same(Kind::sticks), early, same(Kind::crop)}}};
    return cases;
}

}  // namespace slipbark::tests

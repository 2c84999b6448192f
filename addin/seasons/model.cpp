#include "seasons/model.hpp"

#include <algorithm>
#include <cmath>

namespace slipbark::seasons {

namespace {

/// What sums of that size may miss a limit by.
double rounding(double size) { return 1e-9 * std::max(1000.0, std::abs(size)); }

std::size_t index(int from_one) { return static_cast<std::size_t>(from_one - 1); }

double at_or_0(const std::vector<double>& series, int year) {
    return year >= 0 && static_cast<std::size_t>(year) < series.size() ? series[static_cast<std::size_t>(year)] : 0;
}

double at_or_last(const std::vector<double>& series, int year) {
    if (year < 0 || series.empty()) return 0;
    return series[std::min(static_cast<std::size_t>(year), series.size() - 1)];
}

double sticks(const Block& block, std::size_t source, int year) {
    return source < block.sticks.size() ? at_or_0(block.sticks[source], year) : 0;
}

double own_wood(const Block& block, std::size_t source, int year) {
    return source < block.gives.size() ? at_or_last(block.gives[source], year) : 0;
}

double cash_flow(const Farm& farm, const Block& block, int year) {
    const double flow = at_or_0(block.flows, year);
    return farm.margins ? flow : std::min(0.0, flow);
}

double farm_crop(const Farm& farm) {
    double crop = farm.rest_crop;
    for (const Block& block : farm.blocks) crop += block.old_crop;
    return crop;
}

/// What the harvest after a season has more than today, where a block was grafted `year` seasons before.
double crop_gained(const Block& block, int year) { return at_or_last(block.new_crop, year + 1) - block.old_crop; }

int seasons_of(const Farm& farm) { return static_cast<int>(farm.seasons.size()); }

std::optional<double> sticks_there(const Farm& farm, std::size_t source, int season) {
    const auto& there = farm.seasons[index(season)].sticks;
    return source < there.size() ? there[source] : std::nullopt;
}

bool may(const Farm& farm, const Block& block, int season) {
    if (block.pinned) return *block.pinned == season;
    return block.rule != Rule::never && season >= block.earliest && season <= block.latest &&
           season <= farm.grafting_seasons;
}

/// What a season has of a kind, and what a block takes of it: one row of the model.
struct Limit {
    Kind kind;
    int season;
    double there;
    std::function<double(const Block&, int)> factor;  ///< of what is taken, by seasons since grafting
};

/// Every limit as: sum of what is taken is at most what is there.
std::vector<Limit> limits_of(const Farm& farm) {
    std::vector<Limit> limits;
    double carried = 0;
    for (int season = 1; season <= seasons_of(farm); ++season) {
        const Season& now = farm.seasons[index(season)];
        if (now.days) {
            limits.push_back({Kind::days, season, *now.days,
                              [](const Block& block, int year) { return at_or_0(block.days, year); }});
        }
        for (std::size_t source = 0; source < farm.sources; ++source) {
            const auto there = sticks_there(farm, source, season);
            if (!there) continue;
            limits.push_back({Kind::sticks, season, *there, [source](const Block& block, int year) {
                                  return sticks(block, source, year) - own_wood(block, source, year);
                              }});
        }
        carried = (farm.carry ? carried : 0) + now.cash.value_or(0);
        if (now.cash) {
            limits.push_back({Kind::cash, season, carried, [&farm](const Block& block, int year) {
                                  double out = 0;
                                  for (int past = farm.carry ? 0 : year; past <= year; ++past) {
                                      out -= cash_flow(farm, block, past);
                                  }
                                  return out;
                              }});
        }
        if (now.crop_kept) {
            limits.push_back({Kind::crop, season, (1 - *now.crop_kept) * farm_crop(farm),
                              [](const Block& block, int year) { return -crop_gained(block, year); }});
        }
    }
    return limits;
}

double taken(const Farm& farm, const Arrangement& arrangement, const Limit& limit) {
    double sum = 0;
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const int since = limit.season - arrangement[at];
        if (arrangement[at] > 0 && since >= 0) sum += limit.factor(farm.blocks[at], since);
    }
    return sum;
}

/// Whether each block stands where it may.
bool is_allowed(const Farm& farm, const Arrangement& arrangement) {
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const Block& block = farm.blocks[at];
        if (arrangement[at] == 0) {
            if (block.pinned.value_or(0) != 0 || (!block.pinned && block.rule == Rule::must)) return false;
        } else if (!may(farm, block, arrangement[at])) {
            return false;
        }
    }
    return true;
}

}  // namespace

double worth(const Farm& farm, const Block& block, int season) {
    const int years = farm.same_end ? farm.years - (season - 1) : farm.years;
    double sum = 0;
    for (int year = std::min(years, static_cast<int>(block.flows.size()) - 1); year >= 0; --year) {
        sum = at_or_0(block.flows, year) + sum / (1 + farm.rate);
    }
    return sum * std::pow(1 + farm.rate, 1 - season);
}

double worth(const Farm& farm, const Arrangement& arrangement) {
    double sum = 0;
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        if (arrangement[at] > 0) sum += worth(farm, farm.blocks[at], arrangement[at]);
    }
    return sum;
}

std::vector<Use> uses(const Farm& farm, const Arrangement& arrangement) {
    std::vector<Use> found;
    double purse = 0;
    for (int season = 1; season <= seasons_of(farm); ++season) {
        Use use{.wanted = std::vector<double>(farm.sources), .own = std::vector<double>(farm.sources)};
        use.crop = farm_crop(farm);
        for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
            const Block& block = farm.blocks[at];
            const int since = season - arrangement[at];
            if (arrangement[at] == 0 || since < 0) continue;
            use.days += at_or_0(block.days, since);
            for (std::size_t source = 0; source < farm.sources; ++source) {
                use.wanted[source] += sticks(block, source, since);
                use.own[source] += own_wood(block, source, since);
            }
            use.flow += cash_flow(farm, block, since);
            use.crop += crop_gained(block, since);
        }
        purse = (farm.carry ? purse : 0) + farm.seasons[index(season)].cash.value_or(0) + use.flow;
        use.purse = purse;
        found.push_back(std::move(use));
    }
    return found;
}

std::vector<double> missing(const Farm& farm, const Arrangement& arrangement, Kind kind) {
    std::vector<double> short_by(farm.seasons.size());
    double paid_in = 0;
    for (const Limit& limit : limits_of(farm)) {
        if (limit.kind != kind) continue;
        double& here = short_by[index(limit.season)];
        const double gone = taken(farm, arrangement, limit) - limit.there;
        if (gone <= rounding(limit.there)) continue;
        if (kind == Kind::cash && farm.carry) {
            here = std::max(0.0, gone - paid_in);
            paid_in += here;
        } else {
            here += gone;
        }
    }
    return short_by;
}

bool fits(const Farm& farm, const Arrangement& arrangement, std::optional<Kind> without) {
    if (!is_allowed(farm, arrangement)) return false;
    const auto limits = limits_of(farm);
    return std::all_of(limits.begin(), limits.end(), [&](const Limit& limit) {
        return limit.kind == without || taken(farm, arrangement, limit) <= limit.there + rounding(limit.there);
    });
}

Model model(const Farm& farm, const Question& question) {
    Model made;
    Program& program = made.program;
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const Block& block = farm.blocks[at];
        Row once;
        for (int season = 1; season <= farm.grafting_seasons; ++season) {
            if (!may(farm, block, season)) continue;
            once.factors.emplace_back(made.choices.size(), 1);
            made.choices.push_back({at, season});
            program.goal.push_back(worth(farm, block, season));
        }
        if (once.factors.empty()) continue;
        const bool has_to = block.rule == Rule::must || block.pinned.value_or(0) > 0 || question.forced == at;
        if (has_to) once.least = 1;
        once.most = 1;
        program.rows.push_back(std::move(once));
    }
    // With as little more as possible of a kind, what was the goal is to be reached, and the extra is the goal.
    if (question.least_extra) {
        Row reach{.factors = {}, .least = question.least_worth, .most = {}};
        for (std::size_t at = 0; at < made.choices.size(); ++at) reach.factors.emplace_back(at, program.goal[at]);
        if (question.least_worth) program.rows.push_back(std::move(reach));
        program.goal.assign(made.choices.size(), 0);
    }
    for (const Limit& limit : limits_of(farm)) {
        if (limit.kind == question.without) continue;
        Row row{.factors = {}, .least = {}, .most = limit.there};
        for (std::size_t at = 0; at < made.choices.size(); ++at) {
            const int since = limit.season - made.choices[at].season;
            const double factor = since < 0 ? 0 : limit.factor(farm.blocks[made.choices[at].block], since);
            if (factor != 0) row.factors.emplace_back(at, factor);
        }
        if (limit.kind == question.least_extra) {
            program.goal.push_back(-1);
            // Cash that is paid in for one season is carried on to the next.
            const bool carries = limit.kind == Kind::cash && farm.carry;
            for (std::size_t at = carries ? made.choices.size() : program.goal.size() - 1; at < program.goal.size();
                 ++at) {
                row.factors.emplace_back(at, -1);
            }
        }
        if (!row.factors.empty() || limit.there < 0) program.rows.push_back(std::move(row));
    }
    program.whole.assign(program.goal.size(), false);
    std::fill_n(program.whole.begin(), made.choices.size(), true);
    return made;
}

Arrangement arrangement_of(const Farm& farm, const Model& model, const std::vector<double>& values) {
    Arrangement arrangement(farm.blocks.size());
    for (std::size_t at = 0; at < model.choices.size(); ++at) {
        if (values.at(at) > 0.5) arrangement[model.choices[at].block] = model.choices[at].season;
    }
    return arrangement;
}

Best best(const Farm& farm, const Question& question, const Solver& solver) {
    const Model asked = model(farm, question);
    const Answer answer = solver(asked.program);
    Best found{.arrangement = {}, .worth = 0, .in_time = answer.in_time};
    if (!answer.values) return found;
    Arrangement arrangement = arrangement_of(farm, asked, *answer.values);
    const double worth_now = worth(farm, arrangement);
    if (!fits(farm, arrangement, question.least_extra ? question.least_extra : question.without)) return found;
    if (question.forced && arrangement[*question.forced] == 0) return found;
    if (question.least_worth && worth_now < *question.least_worth - rounding(*question.least_worth)) return found;
    found.worth = worth_now;
    found.arrangement = std::move(arrangement);
    return found;
}

namespace {

/// A worth that counts as reached: solvers work in binary fractions.
double reached(double worth) { return worth - 1e-7 * std::max(1.0, std::abs(worth)); }

/// The least extra of a kind that allows what `question` asks.
Gain least_extra(const Farm& farm, const Best& now, Kind kind, const Question& question, const Solver& solver) {
    const Best found = best(farm, question, solver);
    Gain gain{
        .kind = kind, .known = found.in_time, .any = found.arrangement.has_value(), .arrangement = {}, .extra = {}};
    if (!gain.any) return gain;
    gain.arrangement = *found.arrangement;
    gain.adds = found.worth - now.worth;
    gain.extra = missing(farm, gain.arrangement, kind);
    return gain;
}

}  // namespace

std::vector<Gain> ways_out(const Farm& farm, const Solver& solver, const std::function<bool()>& time_left) {
    std::vector<Gain> found;
    for (const Kind kind : kinds) {
        if (!time_left()) {
            found.push_back({.kind = kind, .known = false, .arrangement = {}, .extra = {}});
            continue;
        }
        found.push_back(
            least_extra(farm, {}, kind, {.without = {}, .least_extra = kind, .least_worth = {}, .forced = {}}, solver));
    }
    return found;
}

std::vector<Gain> gains(const Farm& farm, const Best& now, const Solver& solver,
                        const std::function<bool()>& time_left) {
    std::vector<Gain> found;
    for (const Kind kind : kinds) {
        const Gain unknown{.kind = kind, .known = false, .arrangement = {}, .extra = {}};
        if (!time_left()) {
            found.push_back(unknown);
            continue;
        }
        const Best without = best(farm, {.without = kind, .least_extra = {}, .least_worth = {}, .forced = {}}, solver);
        if (!without.in_time || !without.arrangement) {
            found.push_back(unknown);
        } else if (reached(without.worth) <= now.worth) {
            found.push_back({.kind = kind, .arrangement = {}, .extra = {}});
        } else {
            found.push_back(least_extra(
                farm, now, kind,
                {.without = {}, .least_extra = kind, .least_worth = reached(without.worth), .forced = {}}, solver));
        }
    }
    return found;
}

std::vector<Forced> forced_in(const Farm& farm, const Best& now, const Solver& solver,
                              const std::function<bool()>& time_left) {
    std::vector<Forced> found;
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const Block& block = farm.blocks[at];
        const bool is_open = !block.pinned && block.rule != Rule::never && block.earliest <= farm.grafting_seasons &&
                             block.earliest <= block.latest;
        if (now.arrangement->at(at) != 0 || !is_open) continue;
        Forced forced{.block = at, .worth = {}, .takes = {}};
        forced.known = time_left();
        if (forced.known) {
            const Best with = best(farm, {.without = {}, .least_extra = {}, .least_worth = {}, .forced = at}, solver);
            forced.known = with.in_time;
            if (with.arrangement) forced.worth = with.worth;
        }
        for (const Kind kind : kinds) {
            if (!forced.known || !time_left()) {
                forced.takes.push_back({.kind = kind, .known = false, .arrangement = {}, .extra = {}});
                continue;
            }
            forced.takes.push_back(least_extra(
                farm, now, kind, {.without = {}, .least_extra = kind, .least_worth = reached(now.worth), .forced = at},
                solver));
        }
        found.push_back(std::move(forced));
    }
    return found;
}

}  // namespace slipbark::seasons

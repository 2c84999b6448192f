#include "gather/combine.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

namespace slipbark::gather {

namespace {

/// A name as people mean it: spaces around it and case do not matter.
std::string key(const std::string& name) { return lower(text_of(name)); }

using BlockKey = std::tuple<std::string, std::string>;  // client and block
using SeasonKey = std::tuple<std::string, std::string, std::optional<double>>;

BlockKey key(const std::string& client, const std::string& block) { return {key(client), key(block)}; }

/// Plans first, then logs, then records; of each the one saved last first.
bool comes_before(const SourceFile& one, const SourceFile& other) {
    if (one.harvest.kind != other.harvest.kind) return one.harvest.kind < other.harvest.kind;
    if (one.saved != other.saved) return one.saved > other.saved;
    return one.path < other.path;
}

struct Known {
    std::optional<double> season;
    std::string method;
    std::size_t at = 0;  ///< of the block among the lines
};

/// Lots of a client, and where their wood is from.
using Nurseries = std::map<std::tuple<std::string, std::string>, std::string>;

/// Where a workbook itself says that a lot's wood is from.
std::string nursery_of(const std::vector<Lot>& lots, const std::string& name) {
    const auto lot = std::ranges::find_if(lots, [&](const Lot& one) { return key(one.lot) == key(name); });
    return lot == lots.end() ? std::string() : lot->nursery;
}

Message copy_of(const std::string& path) {
    return {translatable("Left out: {1} is for the same block and season and was saved later."), {path}};
}

}  // namespace

std::string client_of(const std::string& path) {
    if (const auto slash = path.find('/'); slash != std::string::npos) return path.substr(0, slash);
    return path.substr(0, path.rfind('.'));
}

Tables combine(std::vector<SourceFile> files) {
    std::ranges::sort(files, comes_before);
    Tables tables;
    std::map<BlockKey, Known> plans;
    std::map<SeasonKey, std::string> block_of;
    Nurseries nurseries;
    for (SourceFile& file : files) {
        if (file.harvest.client.empty()) file.harvest.client = client_of(file.path);
        for (const Lot& lot : file.harvest.lots) {
            if (!lot.nursery.empty()) nurseries.try_emplace({key(file.harvest.client), key(lot.lot)}, lot.nursery);
        }
    }

    // Which file gives the counts of a block and season: a log before a plan before records.
    constexpr std::array worth{1, 0, 2};
    struct From {
        int worth;
        std::string path;
    };
    std::map<SeasonKey, From> counts_from;
    for (SourceFile& file : files) {
        Harvest& harvest = file.harvest;
        if (harvest.block && !harvest.block->block.empty()) {
            const auto block = key(harvest.client, harvest.block->block);
            const auto plan = plans.find(block);
            if (harvest.kind == Kind::log && plan != plans.end()) {
                for (CountLine& line : harvest.counts) {
                    line.season = plan->second.season;
                    if (line.method.empty()) line.method = plan->second.method;
                }
                harvest.block->season = plan->second.season;
            }
            const SeasonKey season{std::get<0>(block), std::get<1>(block), harvest.block->season};
            const auto [first, is_new] = block_of.try_emplace(season, file.path);
            if (is_new) {
                if (harvest.kind == Kind::plan) {
                    plans.try_emplace(block, Known{harvest.block->season, harvest.block->method, tables.blocks.size()});
                }
                tables.blocks.push_back({harvest.client, file.path, harvest.kind, *harvest.block});
            } else if (harvest.kind == Kind::plan || first->second.empty()) {
                tables.problems.push_back({file.path, copy_of(first->second)});
                continue;
            } else if (harvest.kind == Kind::log && plan != plans.end()) {
                // The log of a planned block counts tree by tree.
                BlockLine& line = tables.blocks[plan->second.at].line;
                if (harvest.block->take && line.season == harvest.block->season) {
                    line.take = harvest.block->take;
                    line.takes = harvest.block->takes;
                    line.state = harvest.block->state;
                    line.regrafts = harvest.block->regrafts;
                }
            }
        }
        for (const CountLine& line : harvest.counts) {
            const SeasonKey season{key(harvest.client), key(line.block), line.season};
            const From from{worth.at(static_cast<std::size_t>(harvest.kind)), file.path};
            const auto [known, is_new] = counts_from.try_emplace(season, from);
            if (!is_new && from.worth < known->second.worth) known->second = from;
        }
    }

    for (const SourceFile& file : files) {
        bool left_out = false;
        for (const CountLine& line : file.harvest.counts) {
            const auto known = counts_from.find({key(file.harvest.client), key(line.block), line.season});
            if (known == counts_from.end()) continue;  // a copy that was left out
            if (known->second.path != file.path) {
                left_out = left_out || known->second.worth == worth.at(static_cast<std::size_t>(file.harvest.kind));
                continue;
            }
            GatheredCount count{file.harvest.client, file.path, line};
            if (count.line.nursery.empty()) count.line.nursery = nursery_of(file.harvest.lots, line.lot);
            if (count.line.nursery.empty()) {
                const auto nursery = nurseries.find({key(file.harvest.client), key(line.lot)});
                if (nursery != nurseries.end()) count.line.nursery = nursery->second;
            }
            tables.counts.push_back(std::move(count));
        }
        if (left_out && file.harvest.kind != Kind::plan) {
            tables.problems.push_back(
                {file.path,
                 {translatable("Some of its counts were left out: another workbook of the same kind has the same "
                               "block and season and was saved later."),
                  {}}});
        }
    }
    const auto by_path = [](const auto& one) { return std::tie(one.client, one.path); };
    std::ranges::stable_sort(tables.blocks, {}, by_path);
    std::ranges::stable_sort(tables.counts, {}, by_path);
    std::ranges::stable_sort(tables.problems, {}, &Problem::path);
    return tables;
}

}  // namespace slipbark::gather

// A farm for the workbook seasons, as plain data, and how it is typed in: for the tests of the workbook and its
// benchmark. All farms are invented.
#pragma once

#include <array>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <limits>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "office/office.hpp"
#include "seasons/model.hpp"

namespace slipbark::tests {

namespace css = com::sun::star;

using seasons::Farm;
inline const double none = std::numeric_limits<double>::quiet_NaN();

/// All cells of a named range.
inline office::Ref<css::table::XCellRange> cells(const office::Book& book, const std::string& name) {
    office::Ref<css::container::XNameAccess> names;
    office::Ref<css::beans::XPropertySet>(book.document(), css::uno::UNO_QUERY_THROW)
        ->getPropertyValue("NamedRanges") >>= names;
    return office::Ref<css::sheet::XCellRangeReferrer>(names->getByName(office::ustring(name)),
                                                       css::uno::UNO_QUERY_THROW)
        ->getReferredCells();
}

using Rows = css::uno::Sequence<css::uno::Sequence<css::uno::Any>>;

inline Rows data_of(const office::Book& book, const std::string& name) {
    return office::Ref<css::sheet::XCellRangeData>(cells(book, name), css::uno::UNO_QUERY_THROW)->getDataArray();
}

inline double number(const Rows& rows, std::size_t row, std::size_t column) {
    double value = none;
    rows[static_cast<sal_Int32>(row)][static_cast<sal_Int32>(column)] >>= value;
    return value;
}

/// An invented farm. The engine's own numbers are the same everywhere, those of the library's distributions are not.
inline Farm invented(unsigned seed, std::size_t blocks, std::size_t seasons_to_graft) {
    std::mt19937 engine(seed);
    const auto from_to = [&](int low, int high) {
        return static_cast<double>(low + static_cast<int>(engine() % static_cast<unsigned>(high - low + 1)));
    };
    const auto count = static_cast<int>(seasons_to_graft);
    constexpr std::array share{0.0, 0.0, 0.05, 0.2, 0.5, 0.8, 0.95};
    Farm farm;
    farm.grafting_seasons = count;
    farm.sources = 8;
    farm.years = 12;
    farm.rate = 0.06;
    double days = 0;
    double cash = 0;
    for (std::size_t at = 0; at < blocks; ++at) {
        seasons::Block block;
        block.name = "Block " + std::to_string(at + 1);
        block.days = {from_to(4, 30), from_to(0, 4), from_to(0, 2)};
        const double outlay = from_to(3000, 22000);
        const double gain = from_to(2000, 24000);
        const double lost = from_to(1000, 12000);
        const double mature = from_to(8, 60);
        block.old_crop = from_to(8, 45);
        block.new_crop = {0};
        for (int year = 0; year <= farm.years; ++year) {
            const double borne =
                static_cast<std::size_t>(year) < share.size() ? share.at(static_cast<std::size_t>(year)) : 1;
            block.flows.push_back(year == 0 ? -outlay : std::round(gain * borne - lost * (1 - borne)));
            if (year > 0) block.new_crop.push_back(std::round(10 * mature * borne) / 10);
        }
        const auto source = static_cast<std::size_t>(from_to(0, 2));
        block.sticks.resize(farm.sources);
        block.gives.resize(farm.sources);
        block.sticks[source] = {from_to(200, 1700), from_to(0, 200), from_to(0, 60)};
        // The sheet has wood of the reworked blocks as a line of the source: a stick a tree of 100 from the third
        // season.
        if (source == 1) block.gives[source] = {0, 0, 0, 100};
        if (from_to(0, 4) == 0) block.earliest = static_cast<int>(from_to(1, count));
        block.latest = count;
        if (from_to(0, 7) == 0) block.latest = static_cast<int>(from_to(block.earliest, count));
        days += block.days[0];
        cash += outlay + 2 * lost;
        farm.blocks.push_back(std::move(block));
    }
    const auto part = 1.0 / static_cast<double>(seasons_to_graft + 1);
    for (int at = 0; at < count + 3; ++at) {
        seasons::Season season;
        season.days = std::round(days * part * from_to(80, 130) / 100);
        season.cash = std::round(cash * part * from_to(80, 130) / 100);
        season.crop_kept = from_to(40, 70) / 100;
        season.sticks.resize(farm.sources);
        for (std::size_t source = 0; source < 3; ++source) season.sticks[source] = from_to(800, 2600);
        farm.seasons.push_back(std::move(season));
    }
    farm.rest_crop = from_to(20, 120);
    farm.carry = from_to(0, 1) == 1;
    farm.margins = from_to(0, 2) > 0;
    return farm;
}

/// Puts a number into a cell of a named range; nothing for NaN.
inline void put(const office::Book& book, const std::string& name, std::size_t row, std::size_t column, double number) {
    const auto cell = cells(book, name)->getCellByPosition(static_cast<sal_Int32>(column), static_cast<sal_Int32>(row));
    if (std::isnan(number)) {
        cell->setFormula({});
    } else {
        cell->setValue(number);
    }
}

inline void put(const office::Book& book, const std::string& name, std::size_t row, std::size_t column,
                const std::string& text) {
    cells(book, name)
        ->getCellByPosition(static_cast<sal_Int32>(column), static_cast<sal_Int32>(row))
        ->setFormula(office::ustring(text));
}

constexpr int first_year = 2027;

inline double or_none(std::optional<double> number) { return number.value_or(none); }

/// Types a farm into an emptied form. Wood that blocks give is a line of the source: a stick a tree.
inline void type_farm(const office::Book& book, const Farm& farm) {
    const office::Ref<css::sheet::XCalculatable> calculation(book.document(), css::uno::UNO_QUERY_THROW);
    calculation->enableAutomaticCalculation(false);
    put(book, "farm", 0, 0, "Tern Point");
    put(book, "first_season", 0, 0, first_year);
    put(book, "season_count", 0, 0, farm.grafting_seasons);
    put(book, "seasons_watched", 0, 0, static_cast<double>(farm.seasons.size()) - farm.grafting_seasons);
    put(book, "rest_crop", 0, 0, farm.rest_crop);
    put(book, "carry", 0, 0, farm.carry ? "yes" : "no");
    put(book, "margins_count", 0, 0, farm.margins ? "yes" : "no");
    put(book, "years_from", 0, 0, farm.same_end ? "same end" : "own grafting");
    put(book, "interest", 0, 0, farm.rate);
    put(book, "years_counted", 0, 0, farm.years);
    for (std::size_t source = 0; source < farm.sources; ++source) {
        put(book, "source_names", source, 0, "Source " + std::to_string(source + 1));
    }
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const seasons::Block& block = farm.blocks[at];
        const auto series = [&](const char* name, const std::vector<double>& values, std::size_t from = 0) {
            for (std::size_t year = from; year < values.size(); ++year) put(book, name, at, year - from, values[year]);
        };
        put(book, "block_names", at, 0, block.name);
        put(book, "block_trees", at, 0, 100);
        put(book, "block_old_crop", at, 0, block.old_crop);
        series("block_days", block.days);
        series("block_flows", block.flows);
        series("block_new_crop", block.new_crop, 1);
        series("block_sticks", {0, 0, 0});
        for (std::size_t source = 0; source < block.sticks.size(); ++source) {
            if (block.sticks[source].empty()) continue;
            series("block_sticks", block.sticks[source]);
            put(book, "block_source", at, 0, "Source " + std::to_string(source + 1));
            if (block.gives[source].empty()) continue;
            put(book, "own_from", source, 0, static_cast<double>(block.gives[source].size()) - 1);
            put(book, "own_sticks", source, 0, block.gives[source].back() / 100);
        }
        if (block.earliest > 1) put(book, "block_earliest", at, 0, first_year + block.earliest - 1);
        if (block.latest < farm.grafting_seasons) put(book, "block_latest", at, 0, first_year + block.latest - 1);
        if (block.rule != seasons::Rule::as_it_pays) {
            put(book, "block_rule", at, 0, block.rule == seasons::Rule::must ? "must" : "not");
        }
    }
    for (std::size_t season = 0; season < farm.seasons.size(); ++season) {
        put(book, "days_there", 0, season, or_none(farm.seasons[season].days));
        put(book, "cash_there", 0, season, or_none(farm.seasons[season].cash));
        put(book, "crop_kept", 0, season, or_none(farm.seasons[season].crop_kept));
        for (std::size_t source = 0; source < farm.sources; ++source) {
            put(book, "sticks_there", source, season, or_none(farm.seasons[season].sticks[source]));
        }
    }
    calculation->enableAutomaticCalculation(true);
}

}  // namespace slipbark::tests

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
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include "office/office.hpp"

namespace slipbark::tests {

namespace css = com::sun::star;

constexpr int source_room = 8;
inline const double none = std::numeric_limits<double>::quiet_NaN();

struct Block {
    double days = 0;
    double outlay = 0;
    double gain = 0;
    double lost = 0;
    double old_crop = 0;
    double new_crop = 0;
    std::array<double, source_room> wood{};
    int earliest = 0;  // counted from 1; 0: any
    int latest = 0;
    bool must = false;
    bool never = false;
};

struct Season {
    double days = none;
    double cash = none;
    double kept = none;
    std::array<double, source_room> wood{none, none, none, none, none, none, none, none};
};

struct Farm {
    std::vector<Block> blocks;
    std::vector<Season> seasons;
    bool carry = false;
    double rest = 0;
    double interest = 0.06;
    int years = 20;
    std::vector<double> shares;  // of a full crop, from the first year after grafting on; as the sheet has them
};

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
inline Farm invented(unsigned seed, std::size_t blocks, std::size_t seasons) {
    std::mt19937 engine(seed);
    const auto from_to = [&](int low, int high) {
        return static_cast<double>(low + static_cast<int>(engine() % static_cast<unsigned>(high - low + 1)));
    };
    Farm farm;
    for (std::size_t at = 0; at < blocks; ++at) {
        Block block;
        block.days = from_to(4, 30);
        block.outlay = from_to(3000, 22000);
        block.gain = from_to(2000, 24000);
        block.lost = from_to(1000, 12000);
        block.old_crop = from_to(8, 45);
        block.new_crop = from_to(8, 60);
        block.wood[static_cast<std::size_t>(from_to(0, 2))] = from_to(200, 1700);
        if (from_to(0, 4) == 0) block.earliest = static_cast<int>(from_to(1, static_cast<int>(seasons)));
        if (from_to(0, 7) == 0)
            block.latest = static_cast<int>(from_to(block.earliest + 1, static_cast<int>(seasons) + 1));
        if (block.latest > static_cast<int>(seasons)) block.latest = 0;
        farm.blocks.push_back(block);
    }
    double days = 0;
    double cash = 0;
    for (const Block& block : farm.blocks) {
        days += block.days;
        cash += block.outlay;
    }
    const auto share = 1.0 / static_cast<double>(seasons + 1);
    for (std::size_t at = 0; at < seasons; ++at) {
        Season season;
        season.days = std::round(days * share * from_to(80, 130) / 100);
        season.cash = std::round(cash * share * from_to(80, 130) / 100);
        season.kept = from_to(50, 75) / 100;
        for (std::size_t source = 0; source < 3; ++source) season.wood[source] = from_to(800, 2600);
        farm.seasons.push_back(season);
    }
    farm.rest = from_to(20, 120);
    farm.carry = from_to(0, 1) == 1;
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

/// Types a farm into an emptied form, and reads back the shares of a full crop that it suggests.
inline void type_farm(const office::Book& book, Farm& farm) {
    const office::Ref<css::sheet::XCalculatable> calculation(book.document(), css::uno::UNO_QUERY_THROW);
    calculation->enableAutomaticCalculation(false);
    put(book, "farm", 0, 0, "Tern Point");
    put(book, "first_season", 0, 0, first_year);
    put(book, "season_count", 0, 0, static_cast<double>(farm.seasons.size()));
    put(book, "rest_crop", 0, 0, farm.rest);
    put(book, "carry", 0, 0, farm.carry ? "yes" : "no");
    put(book, "interest", 0, 0, farm.interest);
    put(book, "years_counted", 0, 0, farm.years);
    for (std::size_t source = 0; source < source_room; ++source) {
        put(book, "source_names", source, 0, "Source " + std::to_string(source + 1));
    }
    for (std::size_t at = 0; at < farm.blocks.size(); ++at) {
        const Block& block = farm.blocks[at];
        put(book, "block_names", at, 0, "Block " + std::to_string(at + 1));
        put(book, "block_trees", at, 0, 100);
        put(book, "block_days", at, 0, block.days);
        put(book, "block_sticks", at, 0, std::accumulate(block.wood.begin(), block.wood.end(), 0.0));
        put(book, "block_outlay", at, 0, block.outlay);
        put(book, "block_gain", at, 0, block.gain);
        put(book, "block_lost", at, 0, block.lost);
        put(book, "block_old_crop", at, 0, block.old_crop);
        put(book, "block_new_crop", at, 0, block.new_crop);
        put(book, "block_earliest", at, 0, block.earliest > 0 ? first_year + block.earliest - 1 : none);
        put(book, "block_latest", at, 0, block.latest > 0 ? first_year + block.latest - 1 : none);
        if (block.must) put(book, "block_rule", at, 0, "must");
        if (block.never) put(book, "block_rule", at, 0, "not");
        for (std::size_t source = 0; source < source_room; ++source) {
            put(book, "block_wood", at, source, block.wood[source]);
        }
    }
    for (std::size_t season = 0; season < farm.seasons.size(); ++season) {
        put(book, "days_there", 0, season, farm.seasons[season].days);
        put(book, "cash_there", 0, season, farm.seasons[season].cash);
        put(book, "crop_kept", 0, season, farm.seasons[season].kept);
        for (std::size_t source = 0; source < source_room; ++source) {
            put(book, "sticks_there", source, season, farm.seasons[season].wood[source]);
        }
    }
    calculation->enableAutomaticCalculation(true);
    farm.shares.clear();
    const Rows shares = data_of(book, "crop_shares");
    for (sal_Int32 row = 0; row < shares.getLength(); ++row) {
        farm.shares.push_back(number(shares, static_cast<std::size_t>(row), 0));
    }
}

}  // namespace slipbark::tests

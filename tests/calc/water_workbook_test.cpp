// The workbook water: what it shows beside a second reckoning, and filled in as growers and strangers fill it in.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

constexpr int all_months = 48;  // a year before cutting back and three after

double cell(const Book& book, const std::string& address) { return book.shown(address).number; }

std::string month_cell(const char* column, int month) {
    return "Months." + std::string(column) + std::to_string(6 + month);
}

// ---- A second reckoning, written apart from the functions and the workbook: FAO Irrigation and Drainage Paper 56 for
// radiation (equations 21 to 25) and Hargreaves (52); Allen & Pereira (2009) for the coefficient; USDA for the rain.

struct Orchard {
    double latitude;
    double ground;  // of a tree, m2
    double height, stubs;
    double cover;
    double nurse, nurse_off;
    double efficiency;
    double opening;
};

struct Month {
    int year, month;
    double low, high, rain, leaf;
};

constexpr std::array lengths{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

int days_in(int year, int month) { return lengths.at(month - 1) + (month == 2 && year % 4 == 0 ? 1 : 0); }

int day_number(int year, int month, int day) {
    int number = day;
    for (int before = 1; before < month; ++before) number += days_in(year, before);
    return number;
}

double reference(const Month& at, int year, double latitude) {
    const double turn = 2 * std::numbers::pi / 365 * day_number(year, at.month, 15);
    const double declination = 0.409 * std::sin(turn - 1.39);
    const double here = latitude * std::numbers::pi / 180;
    // The sun on a level plane, added up from minute to minute.
    double sum = 0;
    for (int minute = 0; minute < 24 * 60; ++minute) {
        const double hour_angle = (minute + 0.5 - 720) * std::numbers::pi / 720;
        sum += std::max(0.0, std::sin(here) * std::sin(declination) +
                                 std::cos(here) * std::cos(declination) * std::cos(hour_angle));
    }
    const double radiation = 0.0820 * (1 + 0.033 * std::cos(turn)) * sum;
    return 0.0023 * (0.5 * at.low + 0.5 * at.high + 17.8) * std::sqrt(at.high - at.low) * 0.408 * radiation;
}

double coefficient(double cover, double height, double opening) {
    const double full = opening * (height < 2 ? 1 + height / 10 : 1.2);
    const double part = std::min({1.0, 1.5 * cover, std::exp(std::log(cover) / (1 + height))});
    return 0.15 + part * (full - 0.15);
}

/// The assumption: 5, 10, 20, 50, 85, 100 % after 0, 3, 6, 12, 24, 36 months.
double regrown(double years) {
    constexpr std::array<std::pair<double, double>, 6> rows{
        {{0, 0.05}, {0.25, 0.1}, {0.5, 0.2}, {1, 0.5}, {2, 0.85}, {3, 1}}};
    for (std::size_t row = 1; row < rows.size(); ++row) {
        if (years > rows.at(row).first) continue;
        const auto& [from, share] = rows.at(row - 1);
        const auto& [to, next] = rows.at(row);
        return share + (next - share) * (years - from) / (to - from);
    }
    return 1;
}

double canopy(const Orchard& trees, double years) {
    const double grafts = regrown(years);
    return years * 12 < trees.nurse_off ? trees.nurse + (1 - trees.nurse) * grafts : grafts;
}

/// Litres a tree wants in a month.
double litres(const Orchard& trees, const Month& at, int et_year, double share) {
    const double height = trees.stubs + (trees.height - trees.stubs) * share;
    const double cover = trees.cover * share * at.leaf;
    const double use = (cover > 0 ? coefficient(cover, height, trees.opening) : 0.15) *
                       reference(at, et_year, trees.latitude) * days_in(at.year, at.month);
    const double usable = at.rain > 250 ? 125 + at.rain / 10 : at.rain - at.rain * at.rain / 625;
    return std::max(0.0, use - usable) * trees.ground / trees.efficiency;
}

constexpr Orchard shipped{-34.5, 5 * 3.5, 4, 1.2, 0.7, 0.2, 18, 0.9, 0.57};

/// Cut back on 6 September 2027: years since then at the middle of a month, counted from the year before.
double years_since(int year, int month) {
    const auto day = [](int y, int m, int d) {
        double number = d;
        for (int before = 2026; before < y; ++before) number += before % 4 == 0 ? 366 : 365;
        for (int before = 1; before < m; ++before) number += days_in(y, before);
        return number;
    };
    return std::max(0.0, (day(year, month, 15) - day(2027, 9, 6)) / 365.25);
}

/// What the sheet Climate has of a month, in metric units.
Month month_of(const Book& book, int year, int month) {
    const std::string row = std::to_string(5 + month);
    return {year,
            month,
            cell(book, "Climate.C" + row),
            cell(book, "Climate.D" + row),
            cell(book, "Climate.F" + row),
            cell(book, "Climate.G" + row)};
}

void expect_reckoned(const Book& book, const Orchard& trees) {
    double highest = 0;
    for (int at = 0; at < all_months; ++at) {
        const int from_january = 8 + at;  // September 2026 is the first
        const int year = 2026 + from_january / 12;
        const int month = from_january % 12 + 1;
        const Month here = month_of(book, year, month);
        const double share = at < 12 ? 1 : canopy(trees, years_since(year, month));
        const double mine = litres(trees, here, 2027, share);
        const double old = litres(trees, here, 2027, 1);
        EXPECT_NEAR(cell(book, month_cell("C", at)), share, 1e-9) << at;
        // Radiation from minute to minute is right to some 1E-6.
        EXPECT_NEAR(cell(book, month_cell("G", at)), mine, 1e-4 * old + 1e-9) << at;
        EXPECT_NEAR(cell(book, month_cell("K", at)), old, 1e-4 * old + 1e-9) << at;
        EXPECT_NEAR(cell(book, month_cell("H", at)), mine / days_in(year, month), 1e-4 * old) << at;
        EXPECT_NEAR(cell(book, month_cell("I", at)), mine / number(book, "flow"), 1e-4 * old) << at;
        highest = std::max(highest, old);
    }
    EXPECT_GT(highest, 500) << "months without need would prove nothing";
}

TEST(WaterWorkbook, AgreesWithASecondReckoningOfFourYears) {
    const Book book = calc().open_url(url_of("water"), true);
    expect_reckoned(book, shipped);
    EXPECT_NEAR(number(book, "first_water"), cell(book, month_cell("H", 12)), 1e-9);
    EXPECT_NEAR(number(book, "first_old"), cell(book, month_cell("L", 12)), 1e-9);
    EXPECT_TRUE(says(text(book, "headline"), "In the first month after cutting back give a tree"));
    // Nitrogen in step with the canopy: 160 kg/ha a year for the full one.
    for (int year = 0; year < 4; ++year) {
        double mean = 0;
        for (int month = 12 * year; month < 12 * year + 12; ++month) mean += cell(book, month_cell("C", month)) / 12;
        EXPECT_NEAR(cell(book, "Water.I" + std::to_string(30 + year)), 160 * mean, 1e-9) << year;
    }
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(WaterWorkbook, WithoutANurseLimbStartsAtTheStubs) {
    const Book book = calc().open_url(url_of("water"), true);
    book.set(book.named("nurse_left"), 0);
    Orchard trees = shipped;
    trees.nurse = 0;
    expect_reckoned(book, trees);
}

TEST(WaterWorkbook, InUsUnitsIsTheSameWater) {
    const Book book = calc().open_url(url_of("water"), true);
    std::vector<double> metric;
    for (int at = 0; at < all_months; ++at) metric.push_back(cell(book, month_cell("G", at)));
    const double hours = cell(book, month_cell("I", 20));
    book.set_text(book.named("units"), "US");
    for (const char* length : {"row_spacing", "tree_spacing", "cut_height"}) {
        book.set(book.named(length), number(book, length) / 0.3048);
    }
    book.set(book.named("flow"), 32 / 3.785411784);
    for (int month = 1; month <= 12; ++month) {
        const std::string row = std::to_string(5 + month);
        for (const char* column : {"C", "D"}) {
            const std::string degrees = "Climate." + std::string(column) + row;
            book.set(degrees, 32 + 1.8 * cell(book, degrees));
        }
        book.set("Climate.F" + row, cell(book, "Climate.F" + row) / 25.4);
    }
    EXPECT_EQ(text(book, "check_entries"), "");
    for (int at = 0; at < all_months; ++at) {
        const double litres = metric.at(static_cast<std::size_t>(at));
        EXPECT_NEAR(cell(book, month_cell("G", at)) * 3.785411784, litres, 1e-9 * litres + 1e-9) << at;
    }
    EXPECT_NEAR(cell(book, month_cell("I", 20)), hours, 1e-9);
    EXPECT_TRUE(says(text(book, "headline"), "gallons a day")) << text(book, "headline");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// The same weather half a year later on the other side: the same need half a year later, but for the earth's distance
// from the sun, lengths of months and leap days.
TEST(WaterWorkbook, NorthOfTheEquatorHasItsSummerInJuly) {
    const Book book = calc().open_url(url_of("water"), true);
    std::array<std::array<double, 3>, 12> south{};
    for (int month = 1; month <= 12; ++month) {
        const Month here = month_of(book, 2027, month);
        south.at(month - 1) = {here.low, here.high, here.rain};
    }
    for (int month = 1; month <= 12; ++month) {
        const std::string row = std::to_string(5 + month);
        const auto& [low, high, rain] = south.at((month + 5) % 12);
        book.set("Climate.C" + row, low);
        book.set("Climate.D" + row, high);
        book.set("Climate.F" + row, rain);
    }
    book.set(book.named("latitude"), 34.5);
    Orchard trees = shipped;
    trees.latitude = 34.5;
    expect_reckoned(book, trees);
    EXPECT_GT(cell(book, "Climate.H12"), cell(book, "Climate.H6")) << "July uses more than January";
    // Trees that lose their leaves: none in January here, half a year later south of the equator.
    book.set_text(book.named("kind_of_trees"), "apple, pear");
    EXPECT_EQ(cell(book, "Climate.G6"), 0);
    EXPECT_EQ(cell(book, "Climate.G12"), 1);
    EXPECT_EQ(cell(book, month_cell("G", 4)), 0) << "no leaf in January, rain enough";
    book.set(book.named("latitude"), -34.5);
    EXPECT_EQ(cell(book, "Climate.G6"), 1);
    EXPECT_EQ(cell(book, "Climate.G12"), 0);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(WaterWorkbook, TakesReferenceEvapotranspirationOfAStation) {
    const Book book = calc().open_url(url_of("water"), true);
    for (int month = 1; month <= 12; ++month) {
        const std::string row = std::to_string(5 + month);
        book.set("Climate.E" + row, 4);
        book.set_text("Climate.C" + row, "");
        book.set_text("Climate.D" + row, "");
        book.set("Climate.F" + row, 0);
    }
    // 4 mm a day x 30 days x 17.5 m2 / 0.9 x the coefficient of full trees.
    EXPECT_NEAR(cell(book, month_cell("K", 0)), 4 * 30 * 17.5 / 0.9 * coefficient(0.7, 4, 0.57), 1e-6);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(WaterWorkbook, OwnRecordsOfCoverReplaceTheAssumption) {
    const Book book = calc().open_url(url_of("water"), true);
    const double assumed = cell(book, month_cell("C", 17));
    // A year after cutting back 21 % of the ground, 30 % of the full cover; half a year after it 12 and a half.
    book.set("Regrowth.B19", number(book, "cut_day") + 365.25);
    book.set("Regrowth.C19", 0.21);
    book.set("Regrowth.B20", number(book, "cut_day") + 182.625);
    book.set("Regrowth.C20", 0.0875);
    EXPECT_NEAR(cell(book, "Regrowth.D19"), 0.30, 1e-9);
    EXPECT_NEAR(cell(book, "Regrowth.D20"), 0.125, 1e-9);
    // 15 March 2028 is 191 days after 6 September 2027; between the two records on a straight line.
    EXPECT_NEAR(cell(book, month_cell("C", 18)), 0.125 + (0.30 - 0.125) * (191 - 182.625) / 182.625, 1e-9);
    EXPECT_LT(cell(book, month_cell("C", 17)), assumed);
    // After the last: what is missing, 70 %, closes as it does in the assumption, where 40 % are missing after a year
    // with the nurse limb (0.2 + 0.8 x 0.5).
    const double years = years_since(2028, 12);
    const double missing = 1 - (0.2 + 0.8 * regrown(years));
    EXPECT_NEAR(cell(book, month_cell("C", 27)), 1 - 0.7 * missing / 0.4, 1e-9);
    EXPECT_NEAR(cell(book, month_cell("C", 47)), 1 - 0.7 * (1 - regrown(years_since(2030, 8))) / 0.4, 1e-9);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    book.set("Regrowth.B21", number(book, "cut_day") - 10);
    book.set("Regrowth.C21", 0.2);
    EXPECT_TRUE(says(text(book, "headline"), "correct your own records")) << text(book, "headline");
    EXPECT_EQ(book.shown("Regrowth.F21").text, "Enter a date after cutting back.");
}

TEST(WaterWorkbook, SaysWhatDoesNotFitAndThenShowsNoFigure) {
    const Book book = calc().open_url(url_of("water"), true);
    const auto expect_said = [&](const std::string& what) {
        EXPECT_TRUE(says(text(book, "headline"), what)) << text(book, "headline");
        EXPECT_EQ(book.shown(book.named("first_water")).text, "");
        EXPECT_EQ(book.shown(month_cell("G", 20)).text, "");
        EXPECT_EQ(book.errors(), std::vector<std::string>());
    };
    book.set(book.named("latitude"), 95);
    expect_said("Latitude");
    book.set(book.named("latitude"), -34.5);
    book.set_text("Climate.F8", "wet");
    expect_said("Mar");
    book.set_text("Climate.F8", "");
    expect_said("Months missing: 1");
    book.set("Climate.F8", 0);
    EXPECT_GT(number(book, "first_water"), 0);
    book.set("Climate.C8", 40);
    expect_said("Mar: the low is above the high.");
    book.set("Climate.C8", 14);
    book.set(book.named("cut_height"), 5);
    expect_said("Height when cut back");
    book.set(book.named("cut_height"), 1.2);
    book.set_text(book.named("kind_of_trees"), "oak");
    expect_said("Kind of trees");
}

TEST(WaterWorkbook, InSpanishShowsTheSameFigures) {
    const Book english = calc().open_url(url_of("water"), true);
    const Book spanish = calc().open_url(url_of("water", "es"), true);
    for (const char* name : {"first_water", "first_old", "top_first", "top_second", "top_old"}) {
        EXPECT_EQ(number(spanish, name), number(english, name)) << name;
    }
    EXPECT_TRUE(says(text(spanish, "headline"), "En el primer mes después del rebaje dé a cada árbol"))
        << text(spanish, "headline");
    EXPECT_EQ(spanish.errors(), std::vector<std::string>());
    // A choice by the word that it shows.
    spanish.set_text(spanish.named("kind_of_trees"), "aguacate (palto)");
    english.set_text(english.named("kind_of_trees"), "avocado");
    EXPECT_EQ(number(spanish, "first_old"), number(english, "first_old"));
    EXPECT_EQ(text(spanish, "check_entries"), "");
}

TEST(WaterWorkbook, HasALineForTheWeek) {
    const Book book = calc().open_url(url_of("water"), true);
    EXPECT_EQ(book.shown("Months.O60").text, "Heron Flat, block 3");
    EXPECT_EQ(cell(book, "Months.P60"), number(book, "cut_day"));
    EXPECT_EQ(book.shown("Months.Q60").text, "litres");
    EXPECT_NEAR(cell(book, "Months.R60"), cell(book, month_cell("H", 12)), 1e-12);
    EXPECT_NEAR(cell(book, "Months.BA60"), cell(book, month_cell("H", 47)), 1e-12);
    EXPECT_EQ(book.calculate("=COLUMNS(line_for_week)").number, 39);
}

}  // namespace

}  // namespace slipbark::tests

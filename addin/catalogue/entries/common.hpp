// Arguments that several functions have, each written once.
#pragma once

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

constexpr Argument confidence(Text meaning) { return {"confidence", meaning, Unit::fraction, between(0, 1), 0.95}; }

inline constexpr Argument clustering{
    "clustering", translatable("Correlation between grafts of the same tree"), Unit::fraction,
    from_below(0, 1).noted(translatable("0: each graft lives or dies on its own")), 0.0};

inline constexpr std::string_view schedule_units[]{"d", "w", "m"};

inline constexpr ColumnDomain schedule_columns[]{
    {translatable("stage")},
    {translatable("earliest"), ColumnDomain::Of::numbers, {-100'000, 100'000, true}},
    {translatable("target"), ColumnDomain::Of::numbers, {-100'000, 100'000, true}},
    {translatable("latest"), ColumnDomain::Of::numbers, {-100'000, 100'000, true}},
    {translatable("unit"), ColumnDomain::Of::keywords, {}, schedule_units},
    {translatable("sign to look for")}};

/// The texts of the schedules that are built in: stages, signs, sources.
std::vector<std::string> schedule_texts();

inline constexpr std::string_view schedule_names[]{"schedule", "bagged bark graft", "wrapped bark graft",
                                                   "bud on regrowth", "dormant cleft graft"};

inline constexpr Argument schedule{
    "schedule", translatable("Your own stages, in order, or the name of a built-in schedule"), Unit::table,
    // The offsets of a stage narrow each other, and the day of grafting narrows all.
    one_of(schedule_names, schedule_columns)
        .depending_on_call()
        .noted(translatable("earliest <= target <= latest; two columns may follow, the source of a row and the name of "
                            "a stage further up from which it counts")),
    BuiltIn{"schedule"}};

inline constexpr ColumnDomain curve_columns[]{
    {translatable("years since grafting"), ColumnDomain::Of::numbers, {0, 1000}, {}, true},
    {translatable("share of the mature yield"), ColumnDomain::Of::numbers, {0, 10}}};

inline constexpr Argument curve{"curve", translatable("Share of the mature yield by years since grafting"), Unit::table,
                                table_of(curve_columns).least_rows(2), BuiltIn{"yield"}};

inline constexpr double day_off_codes[]{1, 2, 3, 4, 5, 6, 7, 11, 12, 13, 14, 15, 16, 17};

inline constexpr Argument days_off{
    "days_off", translatable("Days of the week not worked, as in Calc's WORKDAY.INTL"), Unit::text_or_number,
    texts(translatable("seven digits from Monday as a text, 1 = not worked, or a code from 1 to 7 or 11 to 17"),
          day_off_codes),
    "0000011"};

inline constexpr Argument holidays{"holidays",           translatable("Further days off, in any order"),
                                   Unit::date,           dates().blanks(Blanks::skipped),
                                   translatable("none"), "{46637|46638}"};

}  // namespace slipbark::catalogue

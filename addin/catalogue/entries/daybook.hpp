// How the accounts of a day-book stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/daybook.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<daybook::RowAccount> = columns(
    &daybook::RowAccount::trees_left, &daybook::RowAccount::trees_grafted, &daybook::RowAccount::trees_lost,
    &daybook::RowAccount::first_graft, &daybook::RowAccount::last_graft, &daybook::RowAccount::placed,
    &daybook::RowAccount::standing, &daybook::RowAccount::looked, &daybook::RowAccount::live,
    &daybook::RowAccount::last_look, &daybook::RowAccount::regrafts_placed, &daybook::RowAccount::regrafts_standing,
    &daybook::RowAccount::regrafts_looked, &daybook::RowAccount::regrafts_live, &daybook::RowAccount::lots);

/// Blank where there was no such look.
inline std::optional<double> count_of(const daybook::Look& look, double count) {
    return look.date ? std::optional(count) : std::nullopt;
}

template <>
inline constexpr auto columns_of<daybook::RowLooks> =
    columns([](const daybook::RowLooks& row) { return row.looks[0].date; },
            [](const daybook::RowLooks& row) { return row.looks[1].date; },
            [](const daybook::RowLooks& row) { return row.looks[2].date; },
            [](const daybook::RowLooks& row) { return count_of(row.looks[0], row.looks[0].live); },
            [](const daybook::RowLooks& row) { return count_of(row.looks[1], row.looks[1].live); },
            [](const daybook::RowLooks& row) { return count_of(row.looks[2], row.looks[2].live); },
            [](const daybook::RowLooks& row) { return count_of(row.looks[0], row.looks[0].looked); },
            [](const daybook::RowLooks& row) { return count_of(row.looks[1], row.looks[1].looked); },
            [](const daybook::RowLooks& row) { return count_of(row.looks[2], row.looks[2].looked); },
            &daybook::RowLooks::grafters, &daybook::RowLooks::grafter, &daybook::RowLooks::closed);

template <>
inline constexpr auto columns_of<daybook::TakeAccount> = columns(
    &daybook::TakeAccount::group, &daybook::TakeAccount::placed, &daybook::TakeAccount::standing,
    &daybook::TakeAccount::looked, &daybook::TakeAccount::live, &daybook::TakeAccount::take,
    &daybook::TakeAccount::regrafts_placed, &daybook::TakeAccount::regrafts_standing,
    &daybook::TakeAccount::regrafts_looked, &daybook::TakeAccount::regrafts_live, &daybook::TakeAccount::regrafts_take);

template <>
inline constexpr auto columns_of<daybook::LotAccount> =
    columns(&daybook::LotAccount::lot, &daybook::LotAccount::received, &daybook::LotAccount::used,
            &daybook::LotAccount::left, &daybook::LotAccount::first_received, &daybook::LotAccount::last_used,
            &daybook::LotAccount::trees_grafted, &daybook::LotAccount::placed, &daybook::LotAccount::regrafts_placed);

template <>
inline constexpr auto columns_of<daybook::WorkAccount> = columns(&daybook::WorkAccount::period,
                                                                 &daybook::WorkAccount::what,
                                                                 &daybook::WorkAccount::hours,
                                                                 &daybook::WorkAccount::money);

template <>
inline constexpr auto columns_of<daybook::PaceAccount> = columns(&daybook::PaceAccount::pace,
                                                                 &daybook::PaceAccount::seen,
                                                                 &daybook::PaceAccount::days,
                                                                 &daybook::PaceAccount::person_days);

template <>
inline constexpr auto columns_of<daybook::RevisedTake> = columns(&daybook::RevisedTake::take,
                                                                 &daybook::RevisedTake::low,
                                                                 &daybook::RevisedTake::high);

template <>
inline constexpr auto columns_of<daybook::RowDays> = columns(&daybook::RowDays::first, &daybook::RowDays::last);

/// One row for each line: 1 where it is left out, else 0, and what is said of it in the language that is spoken.
Table remarks_in_cells(const std::vector<std::optional<daybook::Remark>>& remarks);

template <>
inline constexpr auto columns_of<std::vector<std::optional<daybook::Remark>>> = &remarks_in_cells;

/// Next to each other, from the first row on: what each row of trees is (15 columns), its looks, grafters and the day
/// it was closed (12), take by lot, grafter and age (11 each), lots (9), work (4), pace (4), then the stages.
Table accounts_in_cells(const daybook::AllAccounts& all);

template <>
inline constexpr auto columns_of<daybook::AllAccounts> = &accounts_in_cells;

/// One row for each struct, a blank one where there is none.
template <class Struct>
Table with_blank_rows(const std::vector<std::optional<Struct>>& rows) {
    constexpr std::size_t width = std::tuple_size_v<decltype(columns_of<Struct>.fields)>;
    Table table(width, {});
    table.cells.reserve(width * rows.size());
    for (const auto& row : rows) {
        const Table one = row ? in_cells(*row) : Table(width, std::vector<Cell>(width));
        table.cells.insert(table.cells.end(), one.cells.begin(), one.cells.end());
    }
    return table;
}

template <>
inline constexpr auto columns_of<std::vector<std::optional<daybook::RowAccount>>> =
    &with_blank_rows<daybook::RowAccount>;

template <>
inline constexpr auto columns_of<std::vector<std::optional<daybook::RowLooks>>> = &with_blank_rows<daybook::RowLooks>;

template <>
inline constexpr auto columns_of<std::vector<std::optional<daybook::RowDays>>> = &with_blank_rows<daybook::RowDays>;

}  // namespace slipbark::catalogue

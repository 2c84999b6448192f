// Every conversion between UNO values and the catalogue's, and the table of outcomes -> errors, in one place.
//
//   function gives a value        the value
//   function has no answer        void, which the cell shows as #N/A
//   bad_argument                  IllegalArgumentException, which the cell shows as Err:502
//   anything else                 a fault of ours: RuntimeException, which the cell shows as #VALUE!
#pragma once

#include <algorithm>
#include <array>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/uno/Any.hxx>
#include <com/sun/star/uno/RuntimeException.hpp>
#include <com/sun/star/uno/Sequence.hxx>
#include <com/sun/star/util/Date.hpp>
#include <string>
#include <tuple>
#include <utility>

#include "catalogue/invoke.hpp"

namespace slipbark::addin {

namespace css = com::sun::star;
using Document = css::uno::Reference<css::beans::XPropertySet>;
using Row = css::uno::Sequence<css::uno::Any>;
using Block = css::uno::Sequence<Row>;
using CellRange = css::uno::Reference<css::table::XCellRange>;

inline std::string to_utf8(const rtl::OUString& text) {
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

inline rtl::OUString to_ustring(std::string_view text) {
    return {text.data(), static_cast<sal_Int32>(text.size()), RTL_TEXTENCODING_UTF8};
}

/// One cell of a block. Inside a block a blank cell arrives as an empty text.
inline Cell to_cell(const css::uno::Any& any) {
    if (any.getValueTypeClass() == css::uno::TypeClass_DOUBLE) return *static_cast<const double*>(any.getValue());
    if (rtl::OUString text; any >>= text) {
        if (text.isEmpty()) return {};
        return to_utf8(text);
    }
    if (double number = 0; any >>= number) return number;
    if (bool yes = false; any >>= yes) return yes ? 1.0 : 0.0;
    return {};
}

inline bool is_blank_cell(const css::uno::Any& any) {
    if (!any.hasValue()) return true;
    const auto* text = any.getValueTypeClass() == css::uno::TypeClass_STRING
                           ? static_cast<const rtl::OUString*>(any.getValue())
                           : nullptr;
    return text != nullptr && text->isEmpty();
}

/// A block without its wholly blank rows at the end; a whole column has a million of them.
inline Table to_table(const Block& block) {
    Table table;
    sal_Int32 used = block.getLength();
    const auto blank_row = [](const Row& row) { return std::all_of(row.begin(), row.end(), is_blank_cell); };
    // The first row is kept even if blank, so that the shape is known.
    while (used > 1 && blank_row(block[used - 1])) --used;
    table.blank_rows = static_cast<std::size_t>(block.getLength() - used);
    for (sal_Int32 row = 0; row < used; ++row) {
        const Row& cells = block[row];
        if (row == 0) {
            table.columns = static_cast<std::size_t>(cells.getLength());
            table.cells.reserve(table.columns * static_cast<std::size_t>(used));
        }
        for (sal_Int32 column = 0; column < static_cast<sal_Int32>(table.columns); ++column) {
            table.cells.push_back(column < cells.getLength() ? to_cell(cells[column]) : Cell{});
        }
    }
    return table;
}

inline catalogue::Value to_value(const css::uno::Any& any) {
    // The frequent classes first: to ask an Any for a block that it does not hold compares type descriptions.
    switch (any.getValueTypeClass()) {
        case css::uno::TypeClass_VOID:
            return {};
        case css::uno::TypeClass_DOUBLE:
            return *static_cast<const double*>(any.getValue());
        case css::uno::TypeClass_STRING:
            return to_utf8(*static_cast<const rtl::OUString*>(any.getValue()));
        default:
            break;
    }
    if (Block block; any >>= block) return to_table(block);
    const Cell cell = to_cell(any);
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    return {};
}
inline catalogue::Value to_value(double number) { return number; }
inline catalogue::Value to_value(const rtl::OUString& text) { return to_utf8(text); }
inline catalogue::Value to_value(const Block& block) { return to_table(block); }

/// Cells of the sheet. The host gives nothing for one with an error, and an empty text for a blank one.
inline catalogue::SheetCell to_sheet_cell(const css::uno::Any& any) {
    if (!any.hasValue()) return catalogue::CellError{};
    const Cell cell = to_cell(any);
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return {};
}

inline std::vector<catalogue::SheetCell> to_sheet_cells(const Block& block) {
    std::vector<catalogue::SheetCell> cells;
    for (const Row& row : block) {
        for (const css::uno::Any& any : row) cells.push_back(to_sheet_cell(any));
    }
    return cells;
}

inline catalogue::Value to_value(const CellRange& range) {
    return catalogue::SheetCells{
        [range] {
            return to_sheet_cells(
                css::uno::Reference<css::sheet::XCellRangeData>(range, css::uno::UNO_QUERY_THROW)->getDataArray());
        },
        {}};
}

inline Day to_day(const css::util::Date& date) {
    return Day{std::chrono::year{date.Year} / std::chrono::month{date.Month} / std::chrono::day{date.Day}};
}

/// What the document calls day 0. Without a document there is no calendar to count on.
inline Day null_date_of(const Document& document) {
    static const rtl::OUString name("NullDate");
    css::util::Date date;
    if (!document.is() || !(document->getPropertyValue(name) >>= date)) {
        throw css::uno::RuntimeException("the document has no null date");
    }
    return to_day(date);
}

/// The arguments of a call as the host gave them, one place after the other.
template <class... Given>
struct HostPlaces {
    std::tuple<const Given&...> given;
    Day null_date;

    template <class T, std::size_t place>
    [[nodiscard]] auto at() const {
        const auto& one = std::get<place>(given);
        if constexpr (std::is_same_v<T, catalogue::Arguments>) {
            catalogue::Arguments rest{{}, null_date};
            for (const css::uno::Any& any : one) rest.values.push_back(to_value(any));
            return rest;
        } else if constexpr (std::is_same_v<std::tuple_element_t<place, std::tuple<Given...>>, double>) {
            return one;
        } else {
            return to_value(one);
        }
    }
};

inline css::uno::Any to_any(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return css::uno::Any(*number);
    if (const auto* text = std::get_if<std::string>(&cell)) return css::uno::Any(to_ustring(*text));
    return css::uno::Any(rtl::OUString());
}

inline Block to_block(const Table& table) {
    Block block(static_cast<sal_Int32>(table.rows()));
    Row* rows = block.getArray();
    for (std::size_t row = 0; row < table.rows(); ++row) {
        rows[row].realloc(static_cast<sal_Int32>(table.columns));
        css::uno::Any* cells = rows[row].getArray();
        for (std::size_t column = 0; column < table.columns; ++column) cells[column] = to_any(table.at(row, column));
    }
    return block;
}

/// An outcome as the type the interface returns.
template <class Host>
Host give(const catalogue::Outcome& outcome) {
    if constexpr (std::is_same_v<Host, double>) {
        return std::get<double>(outcome);
    } else if constexpr (std::is_same_v<Host, rtl::OUString>) {
        return to_ustring(std::get<std::string>(outcome));
    } else if constexpr (std::is_same_v<Host, Block>) {
        return to_block(std::get<Table>(outcome));
    } else {
        static_assert(std::is_same_v<Host, css::uno::Any>);
        if (const auto* number = std::get_if<double>(&outcome)) return css::uno::Any(*number);
        if (const auto* table = std::get_if<Table>(&outcome)) return css::uno::Any(to_block(*table));
        return {};
    }
}

/// Calls `function` with what the host gave, and maps its outcome. No message reaches a cell; a macro that calls the
/// service sees it.
template <class Host, class Result, class... Parameters, class... Given>
Host call(Result (*function)(Parameters...), const std::array<std::string_view, sizeof...(Parameters)>& names,
          Day null_date, const Given&... given) {
    static_assert(sizeof...(Parameters) == sizeof...(Given));
    try {
        return give<Host>(
            catalogue::invoke(function, names, null_date, HostPlaces<Given...>{std::tie(given...), null_date}));
    } catch (const bad_argument& bad) {
        throw css::lang::IllegalArgumentException(to_ustring(bad.what()), {}, 0);
    } catch (const std::exception& fault) {
        throw css::uno::RuntimeException(to_ustring(fault.what()));
    }
}

}  // namespace slipbark::addin

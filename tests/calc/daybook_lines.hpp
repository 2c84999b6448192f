// Lines of the day-book of a rework plan, written as a paste writes them.
#pragma once

#include <array>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <optional>
#include <string>
#include <vector>

#include "calc.hpp"

namespace slipbark::tests {

/// One line; what is left out stays blank.
struct DayLine {
    double date = 0;
    std::string what;
    std::string row = {};  ///< a name that reads as a number is one
    std::optional<double> trees = {};
    std::optional<double> grafts = {};
    std::optional<double> live = {};
    std::string lot = {};
    std::string who = {};
    std::optional<double> hours = {};
    std::optional<double> money = {};
};

inline css::uno::Any number_or_blank(const std::optional<double>& value) {
    return value ? css::uno::Any(*value) : css::uno::Any(rtl::OUString());
}

inline css::uno::Any text_or_blank(const std::string& text) {
    if (text.empty()) return css::uno::Any(rtl::OUString());
    if (text.find_first_not_of("0123456789") == std::string::npos) return css::uno::Any(std::stod(text));
    return css::uno::Any(office::ustring(text));
}

/// The cells of a named range, all of them.
inline office::Ref<css::table::XCellRange> cells_of(const office::Book& book, const std::string& name) {
    office::Ref<css::container::XNameAccess> names;
    office::Ref<css::beans::XPropertySet>(book.document(), css::uno::UNO_QUERY_THROW)
        ->getPropertyValue("NamedRanges") >>= names;
    const office::Ref<css::sheet::XCellRangeReferrer> range(names->getByName(office::ustring(name)),
                                                            css::uno::UNO_QUERY_THROW);
    return range->getReferredCells();
}

/// Writes lines into the day-book from line `first` on; the lines around them stay.
inline void write_daybook(const office::Book& book, const std::vector<DayLine>& lines, int first = 1) {
    if (lines.empty()) return;
    css::uno::Sequence<css::uno::Sequence<css::uno::Any>> cells(static_cast<sal_Int32>(lines.size()));
    auto* row = cells.getArray();
    for (const DayLine& line : lines) {
        const std::array<css::uno::Any, 10> fields{css::uno::Any(line.date),     text_or_blank(line.what),
                                                   text_or_blank(line.row),      number_or_blank(line.trees),
                                                   number_or_blank(line.grafts), number_or_blank(line.live),
                                                   text_or_blank(line.lot),      text_or_blank(line.who),
                                                   number_or_blank(line.hours),  number_or_blank(line.money)};
        *row++ = css::uno::Sequence<css::uno::Any>(fields.data(), 10);
    }
    const auto all = cells_of(book, "daybook");
    const office::Ref<css::sheet::XCellRangeData> target(
        all->getCellRangeByPosition(0, first - 1, 9, first - 2 + static_cast<sal_Int32>(lines.size())),
        css::uno::UNO_QUERY_THROW);
    target->setDataArray(cells);
}

}  // namespace slipbark::tests

#include "composer/spreads.hpp"

#include "composer/look.hpp"

namespace slipbark::compose {

Area spread_lines(Sheet& sheet, int head, std::span<const Spread> spreads) {
    look::headings(sheet, Place("B", head), {"What", "Low", "Likely", "High"});
    sheet.put(Place("F", head), "What it stands for", Style::heading).across(3);
    sheet.put(Place("I", head), "Check", Style::heading);
    int row = head + 1;
    for (const Spread& spread : spreads) {
        sheet.put(Place("B", row), spread.what, Style::body);
        sheet.put(Place("C", row), spread.low, Style::kept, Format::hundredth);
        sheet.put(Place("D", row), spread.likely, Style::kept, Format::hundredth);
        sheet.put(Place("E", row), spread.high, Style::kept, Format::hundredth);
        sheet.put(Place("F", row), spread.means, Style::unit).across(3);
        const std::string most = plain_number(spread.most);
        sheet.put(
            Place("I", row),
            at_row("=IFERROR(IF(COUNT(C{r}:E{r})<3;\"Give three numbers.\";IF(OR(C{r}<0;C{r}>D{r};D{r}>E{r};E{r}>" +
                       most + ");\"Low, likely and high must rise, from 0 to \"&" + most +
                       R"(&".";""));"Give three numbers."))",
                   row),
            Style::check);
        sheet.valid(Area({3, row}, {5, row}), number(0, spread.most, "a factor; for delay years"));
        ++row;
    }
    const Area checks("I", head + 1, row - 1);
    look::mend_where_said(sheet, checks);
    return checks;
}

}  // namespace slipbark::compose

#include "composer/lines.hpp"

#include <boost/range/adaptor/reversed.hpp>

#include "composer/look.hpp"

namespace slipbark::compose {

std::string is_number(const std::string& cell, const std::string& low, const std::string& high) {
    return "IF(ISNUMBER(" + cell + ");AND(" + cell + ">=" + low + ";" + cell + "<=" + high + ");FALSE())";
}

std::string is_whole(const std::string& cell, const std::string& low, const std::string& high) {
    return "IF(ISNUMBER(" + cell + ");AND(" + cell + ">=" + low + ";" + cell + "<=" + high + ";INT(" + cell +
           ")=" + cell + ");FALSE())";
}

std::string is_day(const std::string& cell) { return is_number(cell, "36526", "73050"); }

void check_lines(Sheet& sheet, const Area& lines, const std::string& column, const std::vector<Rule>& rules,
                 const std::string& where_blank) {
    std::string formula = "\"\"";
    for (const Rule& rule : rules | boost::adaptors::reversed) {
        formula = "IF(" + rule.holds + ";" + formula + ";\"" + rule.else_says + "\")";
    }
    const std::string left = Place(lines.first.column, 1).text();
    const std::string right = Place(lines.last.column, 1).text();
    const auto in_line = [](const std::string& cell) { return "$" + cell.substr(0, cell.size() - 1); };
    sheet.put(Place(column, lines.first.row - 1), "Check", Style::heading);
    sheet.fill_down(Area(column, lines.first.row, lines.last.row),
                    "=IF(COUNTA(" + in_line(left) + "{r}:" + in_line(right) + "{r})=0;" + where_blank + ";IFERROR(" +
                        formula + ";\"A cell of this line holds an error: clear it, or type what is right.\"))",
                    Style::check);
    look::mend_where_said(sheet, Area(column, lines.first.row, lines.last.row));
}

std::string lines_to_correct(const std::string& sheet, const std::string& checks) {
    const std::string bad = "SUMPRODUCT(--(LEN(" + checks + ")>0))";
    return "IF(" + bad + "=0;\"\";\"Sheet " + sheet + ": \"&" + bad + "&IF(" + bad + "=1;\" line\";\" lines\")&\" to " +
           "correct, first line \"&SUMPRODUCT(MIN(ROW(" + checks + ")+10000000*(LEN(" + checks + ")=0)))&\".\")";
}

}  // namespace slipbark::compose

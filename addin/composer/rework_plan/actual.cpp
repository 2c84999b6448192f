// Actual: what has happened beside what was planned, year by year.
#include "composer/rework_plan/book.hpp"
#include "composer/rework_plan/parts.hpp"

namespace slipbark::compose::block {

void actual(Workbook& book) {
    Sheet& sheet = book.sheet("Actual", Paper::landscape);
    sheet.columns({0.4, 2.4, 1.8, 2.5, 2.5, 2.3, 2.3, 2.3, 2.3, 2.5, 2.5, 2.3, 2.3, 2.7, 2.7, 2.7, 2.7, 2.9, 2.9});
    look::opening(sheet, look::titled("Plan and actual", "block"),
                  "Write down what each year really cost, took and gave. What is blank counts as planned. The planned "
                  "columns follow the plan until you keep it: choose Rework > Keep this plan, or type over them.",
                  18);
    sheet.row_height(2, 1.0);
    constexpr int head = 10;
    constexpr int first = head + 1;
    constexpr int last = first + years;
    Entries entries(sheet, "actual_entries");
    Lines lines(sheet, "B4", entries, {.label = 3, .value = 1, .unit = 6, .check = 4});
    lines
        .input("Plan kept on", "kept_on", Content{}, "date, or blank: the planned columns follow the plan",
               Format::date, date_kind().or_blank())
        .answer("Paid back within, with what has happened", "",
                "IF(ISNUMBER(payback_actual);ROUNDUP(payback_actual-1E-9;0);payback_actual)", "years", Format::count,
                "")
        .answer("Better than planned so far", "better_by",
                "IF(COUNT(" + Area("Q", first, last).text() + ")=0;\"\";SUM(" + Area("Q", first, last).text() + "))",
                "=currency&\"\"", Format::hundredth, "");
    sheet.put("B8", "", Style::plain);
    const auto two = [&](const char* column, const std::string& text) {
        sheet.put(Place(column, head - 1), text, Style::heading).across(2);
    };
    two("D", "All costs");
    two("F", "Hours");
    two("H", "Packs bought");
    two("J", "=\"Crop, \"&weight_unit");
    two("L", "=\"Price of a \"&weight_unit");
    sheet.put(Place("N", head - 1), "Better or worse than planned", Style::heading).across(4);
    sheet.put(Place("R", head - 1), "With what has happened", Style::heading).across(2);
    look::headings(
        sheet, Place("B", head),
        {"Year", "Season", "planned", "actual", "planned", "actual", "planned", "actual", "planned", "actual",
         "planned", "actual", "by amount", "by price", "by cost", "in all", "Flow", "Cumulative, with interest"});
    for (int row = first; row <= last; ++row) {
        const int after = row - first;
        const std::string index = std::to_string(after + 1);
        const std::string line = std::to_string(row);
        sheet.put(Place("B", row), after == 0 ? "Grafting" : "Year " + std::to_string(after), Style::body);
        sheet.put(Place("C", row), or_blank("INDEX(seasons;" + index + ")"), Style::body);
        const auto planned = [&](const char* column, const std::string& what, Format format) {
            sheet.put(Place(column, row), or_blank(what), Style::input, format);
        };
        planned("D", "INDEX(all_costs;" + index + ")", Format::hundredth);
        const std::string after_target = "EDATE(graft_day;" + std::to_string(12 * after) + ")";
        planned("F",
                after == 0 ? std::string("SUMPRODUCT((labour_target<=graft_day)*labour_minutes)*trees/60+grafts/"
                                         "grafts_per_day*day_hours")
                           : "SUMPRODUCT((labour_target>EDATE(graft_day;" + std::to_string(12 * (after - 1)) +
                                 "))*(labour_target<=" + after_target + ")*labour_minutes)*trees/60",
                Format::count);
        planned("H", after == 0 ? "IF(COUNT(packs_bought)=0;\"\";SUM(packs_bought))" : "0*trees", Format::count);
        planned("J", "INDEX(crop_by_year;" + index + ")", Format::count);
        planned("L", "new_price", Format::hundredth);
        for (const char* column : {"E", "G", "I", "K", "M"}) {
            const bool money = std::string(column) == "E" || std::string(column) == "M";
            sheet.put(Place(column, row), Content{}, Style::input, money ? Format::hundredth : Format::count);
        }
        const auto answer = [&](const char* column, const std::string& what, Format format) {
            sheet.put(Place(column, row), or_blank(at_row(what, row)), Style::answer, format);
        };
        answer("N", "IF(COUNT(J{r};L{r})<2;\"\";IF(ISNUMBER(K{r});(K{r}-J{r})*L{r};0))", Format::hundredth);
        answer("O", "IF(COUNT(J{r};L{r})<2;\"\";IF(ISNUMBER(M{r});(M{r}-L{r})*IF(ISNUMBER(K{r});K{r};J{r});0))",
               Format::hundredth);
        answer("P", "IF(ISNUMBER(D{r});IF(ISNUMBER(E{r});D{r}-E{r};0);\"\")", Format::hundredth);
        answer("Q", "N{r}+O{r}+P{r}", Format::hundredth);
        answer("R", "J{r}*L{r}-D{r}+Q{r}", Format::hundredth);
        answer("S", after == 0 ? "R{r}" : "S" + std::to_string(row - 1) + "+R{r}/(1+rate)^" + std::to_string(after),
               Format::count);
    }
    sheet.name("flows_actual", Area("R", first, last));
    sheet
        .put("U5",
             or_blank(
                 "IF(COUNT(flows_actual)=ROWS(flows_actual);IFNA(REWORK.PAYBACK(flows_actual;rate);\"never\");\"\")"),
             Style::workings, Format::tenth)
        .name("payback_actual");
    sheet.name("plan_kept_costs", Area("D", first, last));
    sheet.name("plan_kept_hours", Area("F", first, last));
    sheet.name("plan_kept_packs", Area("H", first, last));
    sheet.name("plan_kept_crop", Area("J", first, last));
    sheet.name("plan_kept_price", Area("L", first, last));
    for (const char* column : {"D", "E"}) sheet.valid(Area(column, first, last), number(-1e9, 1e9, "your money"));
    for (const char* column : {"F", "G", "H", "I", "J", "K", "L", "M"}) {
        sheet.valid(Area(column, first, last), number(0, 1e9, "not below 0"));
    }
    const std::string typed = Area({4, first}, {13, last}).text();
    // A planned cell whose plan has no answer yet holds "".
    entries.add_rule("SUMPRODUCT((" + typed + "<>\"\")*NOT(ISNUMBER(" + typed + ")))=0",
                     "\"A text stands among the numbers: give numbers, or leave blank.\"");
    entries.add_rule("COUNTIF(" + Area({6, first}, {13, last}).text() + ";\"<0\")=0",
                     "\"Hours, packs, crop and price: give numbers from 0 on, or leave blank.\"");
    sheet
        .put(
            Place("B", last + 2),
            "By amount: more or fewer kilograms at the planned price. By price: the other price on the kilograms there "
            "really were. Costs hold everything that is paid and the margin forgone, as on sheet Money; crop and price "
            "are those of the new variety. The three parts add up to the whole.",
            Style::note)
        .across(18);
    sheet.row_height(last + 2, 1.0);
    entries.close("B3", 18);
    sheet.cursor(Place("E", first));
    sheet.print_area(Area({1, 1}, {19, last + 2}));
}

}  // namespace slipbark::compose::block

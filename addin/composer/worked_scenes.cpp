#include "composer/worked_scenes.hpp"

#include "composer/look.hpp"

namespace slipbark::compose {

namespace {

using std::chrono::March;
using std::chrono::October;
using std::chrono::year;

/// Where entries and answers start, side by side.
constexpr const char* entries_from = "B5";
constexpr const char* answers_from = "F5";

Sheet& scene(Workbook& book, const std::string& sheet_title, const std::string& title, const std::string& lead) {
    Sheet& sheet = book.sheet(sheet_title, Paper::landscape);
    sheet.columns({0.4, 6.2, 3.6, 3.6, 0.4, 7.0, 3.6, 3.2, 8.0});
    look::opening(sheet, title, lead, 8);
    sheet.row_height(2, 1.1);
    return sheet;
}

/// Answers on the right. One that an entry keeps from being shows nothing, and its Check says why.
class Answers {
  public:
    explicit Answers(Sheet& sheet) : form_(sheet, answers_from, {.check = 1}) {}

    Answers& section(const std::string& text) {
        form_.section(text);
        return *this;
    }
    Answers& answer(const std::string& label, const std::string& name, const std::string& formula,
                    const std::string& unit, Format format) {
        form_.answer(label, name, shown(formula), unit, format, check(name, formula));
        return *this;
    }
    Answers& total(const std::string& label, const std::string& name, const std::string& formula,
                   const std::string& unit, Format format) {
        form_.total(label, name, shown(formula), unit, format, check(name, formula));
        return *this;
    }

  private:
    static std::string shown(const std::string& formula) { return "=IFERROR(" + formula.substr(1) + ";\"\")"; }
    static std::string check(const std::string& name, const std::string& formula) {
        const std::string reason = why(formula);
        const std::string other = "\"An entry is blank, 0 or no number.\"";
        if (reason.empty()) return "=IF(ISNUMBER(" + name + ");\"\";" + other + ")";
        return "=IF(ISNUMBER(" + name + ");\"\";IFERROR(IF(LEN(" + reason.substr(1) + ")>0;" + reason.substr(1) + ";" +
               other + ");" + other + "))";
    }
    look::Form form_;
};

void end(Sheet& sheet, int row, const std::string& text) {
    sheet.put(Place("B", row), text, Style::caution).across(8);
    sheet.row_height(row, 1.9);
    sheet.freeze(3);
    sheet.cursor("C6");
    sheet.print_area(Area({1, 1}, {9, row}));
}

void walnuts(Workbook& book) {
    Sheet& sheet =
        scene(book, "Walnuts", "A northern, deciduous block in US units: invented",
              "A block of walnuts goes over to a later variety by dormant cleft grafts in March. Acres, feet, "
              "pounds and gallons are turned by Calc's CONVERT into what the functions take.");
    look::Form(sheet, entries_from)
        .section("The block")
        .input("Area", "w_acres", 12.0, "acres", Format::tenth, number(0.01, 10000, "acres"))
        .input("Between rows", "w_row_ft", 26.0, "feet", Format::tenth, number(2, 160, "feet"))
        .input("Between trees in the row", "w_tree_ft", 26.0, "feet", Format::tenth, number(1, 160, "feet"))
        .input("Trees to rework, counted", "w_trees", 740.0, "trees", Format::count, whole(1, 100000, "trees"))
        .section("Grafting")
        .input("Clefts on a tree", "w_clefts", 5.0, "clefts", Format::count, whole(1, 40, "clefts"))
        .input("Scions in a cleft", "w_scions", 2.0, "scions", Format::count, whole(1, 4, "scions"))
        .input("Buds on a scion", "w_buds_scion", 3.0, "buds", Format::count, whole(1, 100, "buds"))
        .input("Usable buds on a stick", "w_buds_stick", 7.0, "buds", Format::count, whole(1, 1000, "buds"))
        .input("Spare, for culls and dead wood", "w_spare", 0.15, "of the need", Format::percent, share(0, 2))
        .input("Expected take", "w_take", 0.7, "of the scions", Format::percent, share(0.01, 1))
        .input("Live scions wanted on a tree", "w_wanted", 6.0, "scions", Format::count, whole(1, 40, "scions"))
        .input("First day of grafting", "w_graft_date", Date{year{2028} / March / 20}, "date", Format::weekday_date,
               any_date)
        .input("Scions a grafter places in a day", "w_rate", 90.0, "scions", Format::count, whole(1, 5000, "scions"))
        .input("Grafters", "w_crew", 3.0, "people", Format::count, whole(1, 1000, "people"))
        .section("Paint and crop")
        .input("Bark to paint on a tree", "w_bark_sqft", 10.0, "square feet", Format::tenth,
               number(0.1, 1000, "square feet"))
        .input("A gallon of mix, half of it water, covers", "w_cover_sqft", 250.0, "square feet", Format::count,
               number(1, 10000, "square feet"))
        .input("Lost on the way", "w_loss", 0.1, "of the mix", Format::percent, share(0, 0.9))
        .input("Month in which harvest begins", "w_harvest", 10.0, "1 to 12", Format::count, whole(1, 12, "the month"))
        .input("Crop of a mature tree", "w_mature_lb", 110.0, "pounds", Format::count, number(0, 10000, "pounds"));

    const auto metres = [](const std::string& feet) { return "CONVERT(" + feet + R"(;"ft";"m"))"; };
    // A stage by its line in the schedule, whose names a translation might change.
    const auto milestone = [](int line) {
        return "=REWORK.MILESTONE(w_graft_date;" + std::to_string(line) + ";0;\"dormant cleft graft\")";
    };
    Answers(sheet)
        .section("The block")
        .answer(
            "Tree sites, by area and spacing", "w_sites",
            R"(=REWORK.TREES(CONVERT(w_acres;"uk_acre";"ha");)" + metres("w_row_ft") + ";" + metres("w_tree_ft") + ")",
            "sites", Format::count)
        .answer("Missing trees, against the count", "w_missing", "=w_sites-w_trees", "trees", Format::count)
        .answer("Scions in the block", "w_grafts", "=w_trees*w_clefts*w_scions", "scions", Format::count)
        .total("Sticks to order", "w_sticks", "=REWORK.STICKS(w_grafts;w_buds_scion;w_buds_stick;w_spare)", "sticks",
               Format::count)
        .answer("Trees with the live scions wanted", "w_chance",
                "=REWORK.TREECHANCE(w_clefts*w_scions;w_take;w_wanted)", "of the trees", Format::percent_tenth)
        .section("Dates")
        .answer("Order wood", "w_order", milestone(2), "date", Format::weekday_date)
        .answer("Cut the wood and store it", "w_wood", milestone(3), "date", Format::weekday_date)
        .answer("Days of grafting", "w_days", "=REWORK.CREWDAYS(w_grafts;w_rate;w_crew)", "working days", Format::count)
        .answer("Grafting done", "w_finish", "=REWORK.CREWFINISH(w_graft_date;w_grafts;w_rate;w_crew)", "date",
                Format::weekday_date)
        .answer("Take check of the first rows", "w_check", milestone(8), "date", Format::weekday_date)
        .answer("First crop, harvest from", "w_crop", "=REWORK.HARVESTDATE(w_graft_date;w_harvest;29)", "date",
                Format::weekday_date)
        .section("Paint and crop")
        .answer(
            "Undiluted paint", "w_paint",
            "=CONVERT(REWORK.PAINT(CONVERT(w_trees*w_bark_sqft;\"ft2\";\"m2\");CONVERT(w_cover_sqft;\"ft2\";\"m2\")/"
            "CONVERT(1;\"gal\";\"l\");1;1;w_loss);\"l\";\"gal\")",
            "gallons", Format::tenth)
        .answer("Crop in the fifth year, if all live", "w_per_acre", "=w_trees*REWORK.YIELD(5;w_mature_lb)/w_acres",
                "pounds an acre", Format::count);
    end(sheet, 30,
        "Farm, trees and figures are invented; 26 by 26 feet is a spacing of a walnut cost study of the University of "
        "California. The stages are the program's own (sheet Defaults of the rework plan says where each comes from), "
        "the share of a mature crop after five years is its assumption, not measured on walnuts. Saws, ladders and "
        "chisels: trained hands, and nobody below.");
}

void mangoes(Workbook& book) {
    Sheet& sheet =
        scene(book, "Mangoes", "A small evergreen block in the south: invented",
              "Forty mango trees are cut back in July; buds of a new variety go onto the regrowth in October, "
              "done by one person.");
    look::Form(sheet, entries_from)
        .section("The block")
        .input("Trees to rework", "m_trees", 40.0, "trees", Format::count, whole(1, 100000, "trees"))
        .input("Limbs kept on a tree", "m_limbs", 4.0, "limbs", Format::count, whole(1, 40, "limbs"))
        .input("Shoots budded on a limb", "m_shoots", 3.0, "shoots", Format::count, whole(1, 20, "shoots"))
        .section("Budwood")
        .input("Usable buds on a stick", "m_buds_stick", 8.0, "buds", Format::count, whole(1, 1000, "buds"))
        .input("Spare, for culls and dead wood", "m_spare", 0.2, "of the need", Format::percent, share(0, 2))
        .input("Days in a bag at room temperature", "m_days_kept", 3.0, "days", Format::count, number(0, 15, "days"))
        .input("Expected take of fresh wood", "m_fresh_take", 0.75, "of the buds", Format::percent, share(0.01, 1))
        .input("Live buds wanted on a tree", "m_wanted", 4.0, "buds", Format::count, whole(1, 40, "buds"))
        .section("Dates and crop")
        .input("First day of budding", "m_graft_date", Date{year{2027} / October / 4}, "date", Format::weekday_date,
               any_date)
        .input("Buds placed in a day", "m_rate", 120.0, "buds", Format::count, whole(1, 5000, "buds"))
        .input("Month in which harvest begins", "m_harvest", 1.0, "1 to 12", Format::count, whole(1, 12, "the month"))
        .input("Crop of a mature tree", "m_mature_kg", 60.0, "kg", Format::count, number(0, 10000, "kg"));

    // A stage by its line in the schedule, whose names a translation might change.
    const auto milestone = [](int line) {
        return "=REWORK.MILESTONE(m_graft_date;" + std::to_string(line) + ";0;\"bud on regrowth\")";
    };
    Answers(sheet)
        .section("Budwood and take")
        .answer("Buds to place", "m_grafts", "=m_trees*m_limbs*m_shoots", "buds", Format::count)
        .total("Sticks to cut", "m_sticks", "=REWORK.STICKS(m_grafts;1;m_buds_stick;m_spare)", "sticks", Format::count)
        .answer("Buds still alive when placed", "m_alive", "=REWORK.BUDSALIVE(m_days_kept;\"room\")", "of the buds",
                Format::percent_tenth)
        .answer("Take to expect", "m_take", "=m_fresh_take*m_alive", "of the buds", Format::percent_tenth)
        .answer("Trees with the live buds wanted", "m_chance", "=REWORK.TREECHANCE(m_limbs*m_shoots;m_take;m_wanted)",
                "of the trees", Format::percent_tenth)
        .section("Dates")
        .answer("Cut back and paint", "m_cut", milestone(3), "date", Format::weekday_date)
        .answer("Thin the regrowth", "m_thin", milestone(5), "date", Format::weekday_date)
        .answer("Days of budding, alone", "m_days", "=REWORK.CREWDAYS(m_grafts;m_rate)", "working days", Format::count)
        .answer("Budding done", "m_finish", "=REWORK.CREWFINISH(m_graft_date;m_grafts;m_rate)", "date",
                Format::weekday_date)
        .answer("Take check, wrap off", "m_check", milestone(9), "date", Format::weekday_date)
        .answer("First crop, harvest from", "m_crop", "=REWORK.HARVESTDATE(m_graft_date;m_harvest;34)", "date",
                Format::weekday_date)
        .section("Crop")
        .answer("Crop in the fifth year, if all live", "m_crop_kg", "=m_trees*REWORK.YIELD(5;m_mature_kg)", "kg",
                Format::count);
    end(sheet, 24,
        "Farm, trees and figures are invented. The life of buds at room temperature was counted on sweet orange, and "
        "mango wood may keep better or worse; the share of a mature crop after five years is an assumption. Mango sap "
        "burns skin: gloves, long sleeves, eyes covered, and nobody under a ladder.");
}

}  // namespace

void scenes(Workbook& book) {
    walnuts(book);
    mangoes(book);
}

}  // namespace slipbark::compose

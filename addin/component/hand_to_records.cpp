// "Hand the season to records": what a plan's day-book has of this block goes into a workbook records, and takes the
// place of what an earlier run wrote there.
//
// Lines of the block and season are taken out first, so that a second run writes nothing twice. Hours of grafting stay
// out: they are told by the grafts a day, which the plan's sheet Accounts shows, and not by minutes a tree.

#include <cmath>
#include <com/sun/star/beans/PropertyAttribute.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XDocumentProperties.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <functional>
#include <map>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;
using Model = Reference<css::frame::XModel>;

namespace {

bool is_number(const Any& cell) { return cell.has<double>(); }

/// What a named range holds, line by line; nothing where there is no such name.
CellValues cells_of(const Model& model, const char* name) {
    return values_of(named_cells(model, rtl::OUString::createFromAscii(name)));
}
Any cell_of(const Model& model, const char* name) {
    const CellValues cells = cells_of(model, name);
    return cells.empty() ? Any() : cells[0][0];
}

/// Lines of a table of the records: `lines` rows and `columns` columns from the first cell of a named range, moved by
/// `left` columns.
Reference<css::sheet::XCellRangeData> table_of(const Model& records, const char* name, sal_Int32 left,
                                               sal_Int32 columns) {
    const auto range = named_cells(records, rtl::OUString::createFromAscii(name));
    if (!range.is()) return {};
    const auto area = Reference<css::sheet::XCellRangeAddressable>(range, UNO_QUERY_THROW)->getRangeAddress();
    const auto sheet = Reference<css::sheet::XSheetCellRange>(range, UNO_QUERY_THROW)->getSpreadsheet();
    const sal_Int32 from = area.StartColumn - left;
    return {sheet->getCellRangeByPosition(from, area.StartRow, from + columns - 1, area.EndRow), UNO_QUERY_THROW};
}

/// Puts `ours` into a table in place of those lines that `is_ours` knows; false where there is no room.
bool put_lines(const Reference<css::sheet::XCellRangeData>& table, const CellValues& ours,
               const std::function<bool(const css::uno::Sequence<Any>& line)>& is_ours) {
    const auto were = table->getDataArray();
    const sal_Int32 columns = were[0].getLength();
    std::vector<css::uno::Sequence<Any>> lines;
    for (const auto& line : were) {
        const bool blank =
            std::all_of(line.begin(), line.end(), [](const Any& cell) { return cell_text(cell).isEmpty(); });
        if (!blank && !is_ours(line)) lines.push_back(line);
    }
    for (const auto& line : ours) lines.emplace_back(line.data(), columns);
    if (lines.size() > static_cast<std::size_t>(were.getLength())) return false;
    const std::vector<Any> blank(static_cast<std::size_t>(columns), Any(rtl::OUString()));
    lines.resize(static_cast<std::size_t>(were.getLength()), css::uno::Sequence<Any>(blank.data(), columns));
    table->setDataArray({lines.data(), were.getLength()});
    return true;
}

struct Season {
    Any block;
    double graft_date = 0;
    double year = 0;

    [[nodiscard]] bool is_of(const Any& name, const Any& day) const {
        return cell_text(name).equalsIgnoreAsciiCase(cell_text(block)) &&
               (!is_number(day) || cell_number(day) > graft_date - 400);
    }
};

const Any blank_cell{rtl::OUString()};

bool hand_dates(const Model& plan, const Model& records, const Season& season) {
    const CellValues names = cells_of(plan, "row_name");
    const CellValues grafted = cells_of(plan, "row_grafted");
    const CellValues done = cells_of(plan, "done");
    const CellValues stages = cells_of(plan, "calendar_stages");
    // The records have their own order of stages.
    std::map<rtl::OUString, std::size_t> place;
    const CellValues theirs = cells_of(records, "stage_names");
    for (std::size_t at = 0; at < theirs.size(); ++at) place.emplace(cell_text(theirs[at][0]), at);
    CellValues ours;
    for (std::size_t row = 0; row < names.size(); ++row) {
        if (!is_number(grafted[row][0])) continue;
        std::vector<Any> line(27, blank_cell);
        line[0] = season.block;
        line[1] = names[row][0];
        line[2] = grafted[row][0];
        for (std::size_t stage = 0; stage < stages.size() && stage < done[row].size(); ++stage) {
            const auto found = place.find(cell_text(stages[stage][0]));
            if (found != place.end() && found->second < 24) line[3 + found->second] = done[row][stage];
        }
        ours.push_back(line);
    }
    const auto table = table_of(records, "dates_grafted", 2, 27);
    return table.is() && put_lines(table, ours, [&](const auto& line) { return season.is_of(line[0], line[2]); });
}

bool hand_counts(const Model& plan, const Model& records, const Season& season) {
    const CellValues looked = cells_of(plan, "row_looked");
    const CellValues live = cells_of(plan, "row_live");
    const CellValues left = cells_of(plan, "row_left");
    const CellValues grafters = cells_of(plan, "grafter");
    const CellValues lots = cells_of(plan, "batch");
    CellValues ours;
    for (std::size_t row = 0; row < looked.size(); ++row) {
        if (!is_number(looked[row][0]) || cell_number(left[row][0]) < 1) continue;
        ours.push_back({Any(season.year), season.block, cell_of(plan, "method"), grafters[row][0], lots[row][0],
                        left[row][0], looked[row][0], live[row][0]});
    }
    const auto table = table_of(records, "counts_season", 0, 8);
    return table.is() && put_lines(table, ours, [&](const auto& line) {
               return cell_text(line[1]).equalsIgnoreAsciiCase(cell_text(season.block)) &&
                      cell_number(line[0]) == season.year;
           });
}

bool hand_work(const Model& plan, const Model& records, const Season& season) {
    const CellValues lines = cells_of(plan, "daybook");
    const CellValues left_out = cells_of(plan, "daybook_left_out");
    const CellValues kinds = cells_of(plan, "daybook_kind");
    const CellValues rows = cells_of(plan, "row_name");
    const CellValues trees = cells_of(plan, "row_planted");
    std::map<rtl::OUString, Any> planted;
    double all_trees = 0;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        planted.emplace(cell_text(rows[row][0]).toAsciiLowerCase(), trees[row][0]);
        all_trees += cell_number(trees[row][0]);
    }
    const Any look = cell_of(plan, "look_stage");
    const rtl::OUString graft = cell_text(cell_of(plan, "graft_stage"));
    constexpr double counted = 2;  // the place of the word in the list of the day-book
    constexpr double longest_day = 24;
    CellValues ours;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        const auto& line = lines[at];
        const double hours = cell_number(line[8]);
        const double kind = cell_number(kinds[at][0]);
        const bool is_stage = kind == 0 && !cell_text(line[1]).isEmpty();
        if (hours <= 0 || cell_number(left_out[at][0]) == 1 || (!is_stage && kind != counted)) continue;
        if (is_stage && cell_text(line[1]) == graft) continue;
        Any done = line[3];
        if (!is_number(done)) {
            const auto row = planted.find(cell_text(line[2]).toAsciiLowerCase());
            done = row == planted.end() ? Any(all_trees) : row->second;
        }
        if (cell_number(done) < 1) continue;
        const double people = std::ceil(hours / longest_day);
        ours.push_back({line[0], season.block, is_stage ? line[1] : look, Any(people), Any(hours / people), done});
    }
    const auto table = table_of(records, "work_day", 0, 6);
    return table.is() && put_lines(table, ours, [&](const auto& line) { return season.is_of(line[1], line[0]); });
}

bool hand_yields(const Model& plan, const Model& records, const Season& season) {
    const CellValues harvests = cells_of(plan, "actual_harvests");  // its first day, and what was picked
    CellValues ours;
    for (const auto& harvest : harvests) {
        if (!is_number(harvest[0]) || !is_number(harvest[1])) continue;
        ours.push_back({season.block, cell_of(plan, "first_day"), harvest[0], cell_of(plan, "trees_left"), harvest[1]});
    }
    const auto table = table_of(records, "yields_block", 0, 5);
    return table.is() && put_lines(table, ours, [&](const auto& line) { return season.is_of(line[0], line[1]); });
}

// ---- The place of the records, which the plan keeps

constexpr const char* place_property = "Slipbark records";

Reference<css::beans::XPropertySet> own_properties(const Model& model) {
    const Reference<css::document::XDocumentPropertiesSupplier> supplier(model, UNO_QUERY_THROW);
    return {supplier->getDocumentProperties()->getUserDefinedProperties(), UNO_QUERY_THROW};
}

rtl::OUString known_place(const Model& plan) {
    rtl::OUString place;
    const auto properties = own_properties(plan);
    const auto name = rtl::OUString::createFromAscii(place_property);
    if (properties->getPropertySetInfo()->hasPropertyByName(name)) properties->getPropertyValue(name) >>= place;
    return place;
}

void keep_place(const Model& plan, const rtl::OUString& place) {
    const auto properties = own_properties(plan);
    const auto name = rtl::OUString::createFromAscii(place_property);
    if (properties->getPropertySetInfo()->hasPropertyByName(name)) {
        properties->setPropertyValue(name, Any(place));
    } else {
        Reference<css::beans::XPropertyContainer>(properties, UNO_QUERY_THROW)
            ->addProperty(name, css::beans::PropertyAttribute::REMOVABLE, Any(place));
    }
}

rtl::OUString asked_for_records(const Sent& sent) {
    if (sent.silent) return {};
    return chosen_file(sent.context, hand_season.title);
}

}  // namespace

Done hand_to_records(const Sent& sent) {
    const Model plan = sent.document();
    if (!named_cells(plan, "daybook").is() || !named_cells(plan, "row_grafted").is()) {
        return {menu_language().translated(translatable("There is no season to hand over here: open a rework plan."))};
    }
    rtl::OUString url = sent.url;
    if (url.isEmpty()) url = known_place(plan);
    if (url.isEmpty()) url = asked_for_records(sent);
    if (url.isEmpty()) return {.text = "", .worth_a_window = false};
    const auto not_there = [&] {
        return Done{menu_language().translated(translatable("This is no book of records that can be written to: {1}"),
                                               {to_utf8(url)})};
    };
    try {
        const HiddenDocument records(sent.context, url);
        const Reference<css::frame::XStorable> file(records.model(), UNO_QUERY);
        if (!file.is() || file->isReadonly() || !named_cells(records.model(), "counts_season").is()) return not_there();
        Season season;
        season.block = cell_of(plan, "block");
        season.graft_date = cell_number(cell_of(plan, "graft_day"));
        season.year = cell_number(cell_of(plan, "graft_year"));
        const bool fits = hand_dates(plan, records.model(), season) && hand_counts(plan, records.model(), season) &&
                          hand_work(plan, records.model(), season) && hand_yields(plan, records.model(), season);
        if (!fits) {
            return {menu_language().translated(
                translatable("The book of records has no room for this season; nothing was written."))};
        }
        file->store();
    } catch (const css::uno::Exception&) {
        return not_there();
    }
    keep_place(plan, url);
    return {menu_language().translated(translatable("The season of {1} is in the book of records."),
                                       {to_utf8(cell_text(cell_of(plan, "block")))})};
}

}  // namespace slipbark::addin

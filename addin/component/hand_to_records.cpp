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
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/FilePicker.hpp>
#include <com/sun/star/ui/dialogs/TemplateDescription.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <functional>
#include <map>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

using catalogue::spoken;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;
using Model = Reference<css::frame::XModel>;

namespace {

using Cells = std::vector<std::vector<Any>>;

rtl::OUString word(const Any& cell) {
    rtl::OUString text;
    if (cell >>= text) return text.trim();
    double number = 0;
    return (cell >>= number) ? rtl::OUString::number(number) : rtl::OUString();
}
double value(const Any& cell) {
    double number = 0;
    cell >>= number;
    return number;
}
bool is_number(const Any& cell) { return cell.has<double>(); }

/// What a named range holds, line by line; nothing where there is no such name.
Cells cells_of(const Model& model, const char* name) {
    Cells cells;
    const Reference<css::sheet::XCellRangeData> data(named_cells(model, rtl::OUString::createFromAscii(name)),
                                                     UNO_QUERY);
    if (!data.is()) return cells;
    for (const auto& line : data->getDataArray()) cells.emplace_back(line.begin(), line.end());
    return cells;
}
Any cell_of(const Model& model, const char* name) {
    const Cells cells = cells_of(model, name);
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
bool put_lines(const Reference<css::sheet::XCellRangeData>& table, const Cells& ours,
               const std::function<bool(const css::uno::Sequence<Any>& line)>& is_ours) {
    const auto were = table->getDataArray();
    const sal_Int32 columns = were[0].getLength();
    std::vector<css::uno::Sequence<Any>> lines;
    for (const auto& line : were) {
        const bool blank = std::all_of(line.begin(), line.end(), [](const Any& cell) { return word(cell).isEmpty(); });
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
        return word(name).equalsIgnoreAsciiCase(word(block)) && (!is_number(day) || value(day) > graft_date - 400);
    }
};

const Any blank_cell{rtl::OUString()};

bool hand_dates(const Model& plan, const Model& records, const Season& season) {
    const Cells names = cells_of(plan, "row_name");
    const Cells grafted = cells_of(plan, "row_grafted");
    const Cells done = cells_of(plan, "done");
    const Cells stages = cells_of(plan, "calendar_stages");
    // The records have their own order of stages.
    std::map<rtl::OUString, std::size_t> place;
    const Cells theirs = cells_of(records, "stage_names");
    for (std::size_t at = 0; at < theirs.size(); ++at) place.emplace(word(theirs[at][0]), at);
    Cells ours;
    for (std::size_t row = 0; row < names.size(); ++row) {
        if (!is_number(grafted[row][0])) continue;
        std::vector<Any> line(27, blank_cell);
        line[0] = season.block;
        line[1] = names[row][0];
        line[2] = grafted[row][0];
        for (std::size_t stage = 0; stage < stages.size() && stage < done[row].size(); ++stage) {
            const auto found = place.find(word(stages[stage][0]));
            if (found != place.end() && found->second < 24) line[3 + found->second] = done[row][stage];
        }
        ours.push_back(line);
    }
    const auto table = table_of(records, "dates_grafted", 2, 27);
    return table.is() && put_lines(table, ours, [&](const auto& line) { return season.is_of(line[0], line[2]); });
}

bool hand_counts(const Model& plan, const Model& records, const Season& season) {
    const Cells looked = cells_of(plan, "row_looked");
    const Cells live = cells_of(plan, "row_live");
    const Cells left = cells_of(plan, "row_left");
    const Cells grafters = cells_of(plan, "grafter");
    const Cells lots = cells_of(plan, "batch");
    Cells ours;
    for (std::size_t row = 0; row < looked.size(); ++row) {
        if (!is_number(looked[row][0]) || value(left[row][0]) < 1) continue;
        ours.push_back({Any(season.year), season.block, cell_of(plan, "method"), grafters[row][0], lots[row][0],
                        left[row][0], looked[row][0], live[row][0]});
    }
    const auto table = table_of(records, "counts_season", 0, 8);
    return table.is() && put_lines(table, ours, [&](const auto& line) {
               return word(line[1]).equalsIgnoreAsciiCase(word(season.block)) && value(line[0]) == season.year;
           });
}

bool hand_work(const Model& plan, const Model& records, const Season& season) {
    const Cells lines = cells_of(plan, "daybook");
    const Cells left_out = cells_of(plan, "daybook_left_out");
    const Cells kinds = cells_of(plan, "daybook_kind");
    const Cells rows = cells_of(plan, "row_name");
    const Cells trees = cells_of(plan, "row_planted");
    std::map<rtl::OUString, Any> planted;
    double all_trees = 0;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        planted.emplace(word(rows[row][0]).toAsciiLowerCase(), trees[row][0]);
        all_trees += value(trees[row][0]);
    }
    const Any look = cell_of(plan, "look_stage");
    const rtl::OUString graft = word(cell_of(plan, "graft_stage"));
    constexpr double counted = 2;  // the place of the word in the list of the day-book
    constexpr double longest_day = 24;
    Cells ours;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        const auto& line = lines[at];
        const double hours = value(line[8]);
        const double kind = value(kinds[at][0]);
        const bool is_stage = kind == 0 && !word(line[1]).isEmpty();
        if (hours <= 0 || value(left_out[at][0]) == 1 || (!is_stage && kind != counted)) continue;
        if (is_stage && word(line[1]) == graft) continue;
        Any done = line[3];
        if (!is_number(done)) {
            const auto row = planted.find(word(line[2]).toAsciiLowerCase());
            done = row == planted.end() ? Any(all_trees) : row->second;
        }
        if (value(done) < 1) continue;
        const double people = std::ceil(hours / longest_day);
        ours.push_back({line[0], season.block, is_stage ? line[1] : look, Any(people), Any(hours / people), done});
    }
    const auto table = table_of(records, "work_day", 0, 6);
    return table.is() && put_lines(table, ours, [&](const auto& line) { return season.is_of(line[1], line[0]); });
}

bool hand_yields(const Model& plan, const Model& records, const Season& season) {
    const Cells harvests = cells_of(plan, "actual_harvests");  // its first day, and what was picked
    Cells ours;
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
    namespace dialogs = css::ui::dialogs;
    const auto picker =
        dialogs::FilePicker::createWithMode(sent.context, dialogs::TemplateDescription::FILEOPEN_SIMPLE);
    picker->setTitle(to_ustring(spoken().translated(hand_season.title)));
    if (picker->execute() != dialogs::ExecutableDialogResults::OK) return {};
    const auto files = picker->getSelectedFiles();
    return files.hasElements() ? files[0] : rtl::OUString();
}

/// The records, opened out of sight and closed with the object.
class Records {
  public:
    Records(const Sent& sent, const rtl::OUString& url) {
        css::beans::PropertyValue hidden;
        hidden.Name = "Hidden";
        hidden.Value <<= true;
        model_.set(css::frame::Desktop::create(sent.context)->loadComponentFromURL(url, "_blank", 0, {&hidden, 1}),
                   UNO_QUERY);
    }
    Records(const Records&) = delete;
    Records& operator=(const Records&) = delete;
    ~Records() {
        const Reference<css::util::XCloseable> closeable(model_, UNO_QUERY);
        if (!closeable.is()) return;
        try {
            closeable->close(true);
        } catch (const css::uno::Exception&) {
            model_.clear();  // whoever holds it closes it
        }
    }
    [[nodiscard]] const Model& model() const { return model_; }

  private:
    Model model_;
};

}  // namespace

Done hand_to_records(const Sent& sent) {
    const Model plan = sent.document();
    if (!named_cells(plan, "daybook").is() || !named_cells(plan, "row_grafted").is()) {
        return {spoken().translated(translatable("There is no season to hand over here: open a rework plan."))};
    }
    rtl::OUString url = sent.url;
    if (url.isEmpty()) url = known_place(plan);
    if (url.isEmpty()) url = asked_for_records(sent);
    if (url.isEmpty()) return {.text = "", .worth_a_window = false};
    const auto not_there = [&] {
        return Done{spoken().translated(translatable("This is no book of records that can be written to: {1}"),
                                        {to_utf8(url)})};
    };
    try {
        const Records records(sent, url);
        const Reference<css::frame::XStorable> file(records.model(), UNO_QUERY);
        if (!file.is() || file->isReadonly() || !named_cells(records.model(), "counts_season").is()) return not_there();
        Season season;
        season.block = cell_of(plan, "block");
        season.graft_date = value(cell_of(plan, "graft_day"));
        season.year = value(cell_of(plan, "graft_year"));
        const bool fits = hand_dates(plan, records.model(), season) && hand_counts(plan, records.model(), season) &&
                          hand_work(plan, records.model(), season) && hand_yields(plan, records.model(), season);
        if (!fits) {
            return {spoken().translated(
                translatable("The book of records has no room for this season; nothing was written."))};
        }
        file->store();
    } catch (const css::uno::Exception&) {
        return not_there();
    }
    keep_place(plan, url);
    return {spoken().translated(translatable("The season of {1} is in the book of records."),
                                {to_utf8(word(cell_of(plan, "block")))})};
}

}  // namespace slipbark::addin

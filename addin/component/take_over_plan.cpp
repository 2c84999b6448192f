// "Take over an older plan": the entries of a plan of an earlier version go into this one, and what it had of each row
// becomes lines of the day-book. What cannot be placed is named.
//
// An entry goes to the cell of the same name, else to the same cell of the same sheet, if that is an entry too and the
// text at its left is the same. Earlier versions kept a row's day of grafting, its grafts and up to three counts in
// sheet Rows; only the last count is its state, and its day is the one on which the stage of looking was marked done.

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <map>
#include <optional>

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

using Cell = Reference<css::table::XCell>;

bool is_entry(const Cell& cell) {
    const std::string style = style_of(cell);
    return style.starts_with("Input") || style.starts_with("Suggested");
}

Reference<css::table::XCellRange> range_of(const Model& model, const char* name) {
    return named_cells(model, rtl::OUString::createFromAscii(name));
}

std::string text(const Any& cell) { return to_utf8(cell_text(cell)); }

/// The nearest text at the left of a cell that is no entry; "" where there is none.
std::string label_of(const Reference<css::sheet::XSpreadsheet>& sheet, const css::table::CellAddress& at) {
    for (sal_Int32 column = at.Column - 1; column >= 0; --column) {
        const auto cell = sheet->getCellByPosition(column, at.Row);
        if (cell->getType() == css::table::CellContentType_EMPTY) continue;
        return cell->getType() == css::table::CellContentType_TEXT && !is_entry(cell) ? to_utf8(shown(cell)) : "";
    }
    return "";
}

bool holds(const css::table::CellRangeAddress& area, const css::table::CellAddress& at) {
    return at.Sheet == area.Sheet && at.Row >= area.StartRow && at.Row <= area.EndRow &&
           at.Column >= area.StartColumn && at.Column <= area.EndColumn;
}

class TakingOver {
  public:
    TakingOver(Model from, Model to) : from_(std::move(from)), to_(std::move(to)) {
        for (const auto& name : names_of(from_)->getElementNames()) {
            const Reference<css::sheet::XCellRangeAddressable> range(named_cells(from_, name), UNO_QUERY);
            if (!range.is()) continue;
            const auto area = range->getRangeAddress();
            if (area.StartRow != area.EndRow || area.StartColumn != area.EndColumn) continue;
            names_[{area.Sheet, area.StartRow, area.StartColumn}] = name;
        }
    }

    /// Where a table stands in the older plan that has other rows or columns now, so that its lines mean something
    /// else.
    [[nodiscard]] std::optional<css::table::CellRangeAddress> reshaped_area(const char* name) const {
        const Reference<css::sheet::XCellRangeAddressable> then(range_of(from_, name), UNO_QUERY);
        const Reference<css::sheet::XCellRangeAddressable> now(range_of(to_, name), UNO_QUERY);
        if (!then.is() || !now.is()) return std::nullopt;
        const auto before = then->getRangeAddress();
        const auto after = now->getRangeAddress();
        const bool same = before.EndRow - before.StartRow == after.EndRow - after.StartRow &&
                          before.EndColumn - before.StartColumn == after.EndColumn - after.StartColumn;
        return same ? std::nullopt : std::optional(before);
    }

    /// All entries but those of sheet Rows, which has changed, and of tables that have another shape now.
    void entries() {
        const auto rows = range_of(from_, "row_name");
        const auto rows_sheet =
            Reference<css::sheet::XCellRangeAddressable>(rows, UNO_QUERY_THROW)->getRangeAddress().Sheet;
        const auto theirs = sheets_of(to_);
        std::map<rtl::OUString, Reference<css::sheet::XSpreadsheet>> by_title;
        for (const auto& sheet : theirs) {
            by_title[Reference<css::container::XNamed>(sheet, UNO_QUERY_THROW)->getName()] = sheet;
        }
        const auto reshaped = reshaped_area("spreads");
        using namespace css::sheet::CellFlags;
        for (const auto& sheet : sheets_of(from_)) {
            const auto title = Reference<css::container::XNamed>(sheet, UNO_QUERY_THROW)->getName();
            const auto same = by_title.find(title);
            each_cell(filled(sheet, VALUE | DATETIME | STRING), [&](const Cell& cell) {
                if (!is_entry(cell)) return;
                const auto at = Reference<css::sheet::XCellAddressable>(cell, UNO_QUERY_THROW)->getCellAddress();
                const auto name = names_.find({at.Sheet, at.Row, at.Column});
                Cell target;
                if (reshaped && holds(*reshaped, at)) {
                    not_placed_.push_back(address_of(cell));
                    return;
                }
                if (name != names_.end()) {
                    if (const auto named = named_cells(to_, name->second); named.is()) {
                        target = named->getCellByPosition(0, 0);
                    }
                } else if (at.Sheet == rows_sheet) {
                    return;
                } else if (same != by_title.end() && label_of(sheet, at) == label_of(same->second, at)) {
                    target = same->second->getCellByPosition(at.Column, at.Row);
                }
                if (!target.is() || !is_entry(target)) {
                    not_placed_.push_back(address_of(cell));
                    return;
                }
                copy(cell, target);
                ++entries_;
            });
        }
    }

    void rows() {
        const CellValues names = values_of(range_of(from_, "row_name"));
        const CellValues trees = values_of(range_of(from_, "row_planted"));
        const CellValues lots = values_of(range_of(from_, "batch"));
        const CellValues grafters = values_of(range_of(from_, "grafter"));
        const CellValues placed = values_of(range_of(from_, "placed"));
        const CellValues grafted = values_of(range_of(from_, "row_grafted"));
        const CellValues done = values_of(range_of(from_, "done"));
        const CellValues words = values_of(range_of(to_, "daybook_words"));
        const std::array counts{values_of(range_of(from_, "live_first")), values_of(range_of(from_, "live_second")),
                                values_of(range_of(from_, "live_third"))};
        const std::vector<std::string> stages = headings();
        const std::string look = text(values_of(range_of(from_, "look_stage")).at(0).at(0));
        for (std::size_t row = 0; row < names.size(); ++row) {
            if (cell_number(trees[row][0]) < 1) continue;
            put("row_name", row, names[row][0], range_of(from_, "row_name"));
            put("row_planted", row, trees[row][0], range_of(from_, "row_planted"));
            put("batch", row, lots[row][0], range_of(from_, "batch"));
            ++rows_;
            const bool is_grafted = grafted[row][0].has<double>();
            if (is_grafted) {
                line({grafted[row][0], words[0][0], names[row][0], trees[row][0], placed[row][0], Any(rtl::OUString()),
                      lots[row][0], grafters[row][0]});
            }
            Any looked_on;
            for (std::size_t stage = 0; stage < stages.size() && stage < done[row].size(); ++stage) {
                const Any& mark = done[row][stage];
                if (stages[stage] == look) looked_on = mark;
                if (stages[stage].empty() || text(mark).empty() || stages[stage] == look) continue;
                if (mark.has<double>()) {
                    line({mark, Any(to_ustring(stages[stage])), names[row][0]});
                } else {
                    not_placed_.push_back(text(names[row][0]) + ": " + stages[stage]);
                }
            }
            // The last count is the state of the row.
            for (std::size_t look_at = counts.size(); look_at-- > 0;) {
                const Any& live = counts[look_at][row][0];
                if (!live.has<double>()) continue;
                if (is_grafted && looked_on.has<double>()) {
                    line({looked_on, words[1][0], names[row][0], Any(rtl::OUString()), placed[row][0], live});
                } else {
                    not_placed_.push_back(text(names[row][0]) + ": " + text(words[1][0]) + " " + text(live));
                }
                break;
            }
        }
        write();
    }

    [[nodiscard]] std::string said() const {
        std::string said = menu_language().translated(
            translatable("{1} entries, {2} rows and {3} lines of the day-book were taken over."),
            {static_cast<double>(entries_), static_cast<double>(rows_), static_cast<double>(lines_.size())});
        if (not_placed_.empty()) return said;
        constexpr std::size_t shown = 20;
        std::string list;
        for (std::size_t at = 0; at < std::min(shown, not_placed_.size()); ++at) {
            list += (at == 0 ? "" : "; ") + not_placed_[at];
        }
        if (not_placed_.size() > shown) list += "; ...";
        return said + " " +
               menu_language().translated(translatable("Not placed, please enter by hand ({1}): {2}"),
                                          {static_cast<double>(not_placed_.size()), list});
    }

  private:
    struct Place {
        sal_Int32 sheet = 0;
        sal_Int32 row = 0;
        sal_Int32 column = 0;
        auto operator<=>(const Place&) const = default;
    };

    static void copy(const Cell& from, const Cell& to) {
        if (from->getType() == css::table::CellContentType_VALUE) {
            to->setValue(from->getValue());
        } else {
            Reference<css::text::XTextRange>(to, UNO_QUERY_THROW)->setString(shown(from));
        }
    }

    /// Types a row's entry over the suggestion, where it was typed in the older plan.
    void put(const char* name, std::size_t row, const Any& value, const Reference<css::table::XCellRange>& from) const {
        const auto at = static_cast<sal_Int32>(row);
        if (from->getCellByPosition(0, at)->getType() == css::table::CellContentType_FORMULA) return;
        const auto target = range_of(to_, name)->getCellByPosition(0, at);
        if (value.has<double>()) {
            target->setValue(cell_number(value));
        } else {
            Reference<css::text::XTextRange>(target, UNO_QUERY_THROW)->setString(to_ustring(text(value)));
        }
    }

    /// The names of the stages above the marks.
    [[nodiscard]] std::vector<std::string> headings() const {
        const auto done = range_of(from_, "done");
        const auto area = Reference<css::sheet::XCellRangeAddressable>(done, UNO_QUERY_THROW)->getRangeAddress();
        const auto sheet = Reference<css::sheet::XSheetCellRange>(done, UNO_QUERY_THROW)->getSpreadsheet();
        std::vector<std::string> stages;
        for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column) {
            stages.push_back(to_utf8(shown(sheet->getCellByPosition(column, area.StartRow - 1))));
        }
        return stages;
    }

    void line(std::vector<Any> cells) {
        cells.resize(10, Any(rtl::OUString()));
        lines_.push_back(std::move(cells));
    }

    void write() {
        const auto daybook = range_of(to_, "daybook");
        const auto area = Reference<css::sheet::XCellRangeAddressable>(daybook, UNO_QUERY_THROW)->getRangeAddress();
        const auto room = static_cast<std::size_t>(area.EndRow - area.StartRow + 1);
        if (lines_.size() > room) {
            for (std::size_t at = room; at < lines_.size(); ++at) {
                not_placed_.push_back(text(lines_[at][2]) + ": " + text(lines_[at][1]));
            }
            lines_.resize(room);
        }
        if (lines_.empty()) return;
        std::vector<css::uno::Sequence<Any>> rows;
        for (const auto& line : lines_) rows.emplace_back(line.data(), 10);
        const auto count = static_cast<sal_Int32>(rows.size());
        Reference<css::sheet::XCellRangeData>(daybook->getCellRangeByPosition(0, 0, 9, count - 1), UNO_QUERY_THROW)
            ->setDataArray({rows.data(), count});
    }

    Model from_;
    Model to_;
    std::map<Place, rtl::OUString> names_;  ///< of single cells of the older plan
    std::vector<std::vector<Any>> lines_;
    std::vector<std::string> not_placed_;
    std::size_t entries_ = 0;
    std::size_t rows_ = 0;
};

rtl::OUString asked_for_plan(const Sent& sent) {
    if (!sent.url.isEmpty() || sent.silent) return sent.url;
    return chosen_file(sent.context, take_over.title);
}

}  // namespace

Done take_over_plan(const Sent& sent) {
    const Model model = sent.document();
    if (!range_of(model, "daybook").is()) {
        return {menu_language().translated(
            translatable("Open a new rework plan first: the older one is taken over into it."))};
    }
    const rtl::OUString url = asked_for_plan(sent);
    if (url.isEmpty()) return {.text = "", .worth_a_window = false};
    try {
        css::beans::PropertyValue read_only;
        read_only.Name = "ReadOnly";
        read_only.Value <<= true;
        const HiddenDocument older(sent.context, url, {read_only});
        if (!older.model().is() || !range_of(older.model(), "row_planted").is() ||
            !range_of(older.model(), "done").is() || range_of(older.model(), "daybook").is()) {
            return {menu_language().translated(translatable("This is no rework plan of an earlier version: {1}"),
                                               {to_utf8(url)})};
        }
        Sent quietly = sent;
        quietly.silent = true;
        static_cast<void>(empty_form(quietly));
        TakingOver taking(older.model(), model);
        taking.entries();
        taking.rows();
        go_to_first_free_line(model);
        return {taking.said()};
    } catch (const css::uno::Exception&) {
        return {menu_language().translated(translatable("This is no rework plan of an earlier version: {1}"),
                                           {to_utf8(url)})};
    }
}

}  // namespace slipbark::addin

// "Arrange the seasons": which block of the workbook seasons is done in which season, so that the arrangement is of
// most worth within every limit; what it would take to do better, and what to do the blocks that are left out.
//
// The cells are read into a farm (seasons/model.hpp), the model is solved by the office's own linear solver, and the
// answer is written into the grid in one step to undo.

#include <algorithm>
#include <cmath>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <optional>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/documents.hpp"
#include "component/host_solver.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;
using seasons::Arrangement;
using seasons::Best;
using seasons::Farm;
using seasons::Forced;
using seasons::Gain;
using seasons::Kind;

namespace {

/// What is in the cells of a named range: numbers, or texts.
class Values {
  public:
    Values(const Reference<css::frame::XModel>& model, const char* name)
        : cells_(named_cells(model, rtl::OUString::createFromAscii(name))) {
        if (cells_.is()) data_ = Reference<css::sheet::XCellRangeData>(cells_, UNO_QUERY_THROW)->getDataArray();
    }
    [[nodiscard]] bool there() const { return cells_.is(); }
    [[nodiscard]] std::size_t rows() const { return static_cast<std::size_t>(data_.getLength()); }
    [[nodiscard]] std::size_t columns() const {
        return rows() == 0 ? 0 : static_cast<std::size_t>(data_[0].getLength());
    }
    [[nodiscard]] std::optional<double> number(std::size_t row, std::size_t column) const {
        double value = 0;
        if (row < rows() && column < columns() &&
            (data_[static_cast<sal_Int32>(row)][static_cast<sal_Int32>(column)] >>= value)) {
            return value;
        }
        return std::nullopt;
    }
    [[nodiscard]] double or_0(std::size_t row, std::size_t column) const { return number(row, column).value_or(0); }
    /// The numbers of a row up to its last one.
    [[nodiscard]] std::vector<double> series(std::size_t row) const {
        std::vector<double> found;
        for (std::size_t column = 0; column < columns(); ++column) {
            if (const auto value = number(row, column)) {
                found.resize(column);
                found.push_back(*value);
            }
        }
        return found;
    }
    [[nodiscard]] std::string text(std::size_t row, std::size_t column) const {
        return to_utf8(shown(cell(row, column)));
    }
    [[nodiscard]] Reference<css::table::XCell> cell(std::size_t row, std::size_t column) const {
        return cells_->getCellByPosition(static_cast<sal_Int32>(column), static_cast<sal_Int32>(row));
    }

  private:
    Reference<css::table::XCellRange> cells_;
    css::uno::Sequence<css::uno::Sequence<Any>> data_;
};

/// Says in the status line of the window what is going on.
class StatusLine {
  public:
    StatusLine(const Sent& sent, Text text) {
        const Reference<css::task::XStatusIndicatorFactory> factory(sent.frame, UNO_QUERY);
        if (factory.is()) line_ = factory->createStatusIndicator();
        if (line_.is()) line_->start(to_ustring(menu_language().translated(text)), 0);
    }
    StatusLine(const StatusLine&) = delete;
    StatusLine& operator=(const StatusLine&) = delete;
    ~StatusLine() {
        if (line_.is()) line_->end();
    }

  private:
    Reference<css::task::XStatusIndicator> line_;
};

/// A number without decimals, in groups of thousands.
std::string whole(double number) { return menu_language().grouped(std::round(number)); }

bool is_seasons(const Reference<css::frame::XModel>& model) {
    const auto* const workbook = workbook_of(model);
    return workbook != nullptr && workbook->file == "seasons";
}

/// The farm as the cells have it, and what in them is in the way, as a sentence.
struct Read {
    Farm farm;
    std::vector<std::size_t> lines;  ///< of the grid, of each block
    Arrangement now;
    int first_season = 0;
    std::string currency;
    double seconds = 20;
    std::string objection;
};

/// A year as a season from 1; `absent` where the cell is blank.
int season_of(const Read& read, std::optional<double> year, int absent) {
    return year ? static_cast<int>(*year) - read.first_season + 1 : absent;
}

void read_seasons(const Reference<css::frame::XModel>& model, Read& read) {
    const Values years(model, "season_years");
    const Values days(model, "days_there");
    const Values cash(model, "cash_there");
    const Values crop(model, "crop_kept");
    const Values sticks(model, "sticks_there");
    for (std::size_t at = 0; at < years.columns() && years.number(0, at); ++at) {
        seasons::Season season{
            .days = days.number(0, at), .sticks = {}, .cash = cash.number(0, at), .crop_kept = crop.number(0, at)};
        for (std::size_t source = 0; source < read.farm.sources; ++source) {
            season.sticks.push_back(sticks.number(source, at));
        }
        read.farm.seasons.push_back(std::move(season));
    }
}

/// Wood of a block: what it wants of its source, and what it gives once it is ripe.
void read_wood(const Reference<css::frame::XModel>& model, const Read& read, std::size_t line, seasons::Block& block) {
    const Values names(model, "source_names");
    const Values from(model, "own_from");
    const Values own(model, "own_sticks");
    const Values trees(model, "block_trees");
    const std::string source = Values(model, "block_source").text(line, 0);
    block.sticks.resize(read.farm.sources);
    block.gives.resize(read.farm.sources);
    for (std::size_t at = 0; at < read.farm.sources; ++at) {
        if (source.empty() || names.text(at, 0) != source) continue;
        block.sticks[at] = Values(model, "block_sticks").series(line);
        const auto ripe = static_cast<std::size_t>(std::max(0.0, from.or_0(at, 0)));
        if (ripe == 0) continue;
        block.gives[at].assign(ripe, 0);
        block.gives[at].push_back(trees.or_0(line, 0) * own.or_0(at, 0));
    }
}

void read_blocks(const Reference<css::frame::XModel>& model, const Values& grid, Read& read) {
    const Values names(model, "block_names");
    const Values days(model, "block_days");
    const Values flows(model, "block_flows");
    const Values old_crop(model, "block_old_crop");
    const Values new_crop(model, "block_new_crop");
    const Values earliest(model, "block_earliest");
    const Values latest(model, "block_latest");
    const Values rules(model, "rule_codes");
    const Values pins(model, "block_pin");
    for (std::size_t line = 0; line < grid.rows(); ++line) {
        seasons::Block block;
        block.name = names.text(line, 0);
        if (block.name.empty()) continue;
        block.flows = flows.series(line);
        block.days = days.series(line);
        // The harvest in the season of grafting is the old crop's.
        block.new_crop = new_crop.series(line);
        block.new_crop.insert(block.new_crop.begin(), 0);
        block.old_crop = old_crop.or_0(line, 0);
        block.earliest = std::max(1, season_of(read, earliest.number(line, 0), 1));
        block.latest = season_of(read, latest.number(line, 0), read.farm.grafting_seasons);
        const double rule = rules.or_0(line, 0);
        block.rule = rule > 0 ? seasons::Rule::must : rule < 0 ? seasons::Rule::never : seasons::Rule::as_it_pays;
        int now = 0;
        for (std::size_t season = 0; season < grid.columns(); ++season) {
            if (grid.number(line, season) == 1.0) now = static_cast<int>(season) + 1;
        }
        if (!pins.text(line, 0).empty()) block.pinned = now;
        read_wood(model, read, line, block);
        read.farm.blocks.push_back(std::move(block));
        read.lines.push_back(line);
        read.now.push_back(now);
    }
}

Read read(const Reference<css::frame::XModel>& model, const Values& grid) {
    Read all;
    for (const char* name :
         {"arranged",       "block_names",  "block_flows",   "block_days",     "block_sticks", "block_new_crop",
          "block_old_crop", "block_trees",  "block_source",  "block_earliest", "block_latest", "block_rule",
          "block_pin",      "season_years", "days_there",    "cash_there",     "crop_kept",    "sticks_there",
          "source_names",   "own_from",     "own_sticks",    "first_season",   "season_count", "interest",
          "years_counted",  "years_from",   "margins_count", "carry",          "rest_crop",    "currency",
          "arrange_seconds"}) {
        if (Values(model, name).there()) continue;
        all.objection = menu_language().translated(
            translatable("Names of cells are missing from this workbook: open a new one with Rework > New, and copy "
                         "your blocks and limits there."));
        return all;
    }
    const auto number = [&](const char* name) { return Values(model, name).or_0(0, 0); };
    all.first_season = static_cast<int>(number("first_season"));
    all.currency = Values(model, "currency").text(0, 0);
    all.seconds = std::clamp(number("arrange_seconds"), 1.0, 3600.0);
    Farm& farm = all.farm;
    farm.grafting_seasons = static_cast<int>(number("season_count"));
    farm.sources = Values(model, "source_names").rows();
    farm.years = static_cast<int>(number("years_counted"));
    farm.rate = number("interest");
    farm.same_end = number("same_end") == 1;
    farm.margins = number("with_margins") == 1;
    farm.carry = number("carried_on") == 1;
    farm.rest_crop = number("rest_crop");
    read_seasons(model, all);
    read_blocks(model, grid, all);
    bool any = false;
    for (const seasons::Block& block : farm.blocks) {
        const bool open = block.earliest <= std::min(block.latest, farm.grafting_seasons);
        if (!block.pinned && block.rule == seasons::Rule::must && !open) {
            all.objection = menu_language().translated(
                translatable("{1} is required, but no season is possible: check its earliest and latest season."),
                {block.name});
            return all;
        }
        any = any || (!block.pinned && block.rule != seasons::Rule::never && open);
    }
    if (!any) {
        all.objection = menu_language().translated(
            translatable("There is nothing to arrange: fill in sheets Blocks and Limits, and lock fewer lines."));
    }
    return all;
}

/// A number with one decimal where it has one.
std::string tenths(double number) {
    std::string text = to_text(std::round(number * 10) / 10);
    const auto point = text.find('.');
    if (point != std::string::npos) text.replace(point, 1, menu_language().decimal_sign());
    return text;
}

std::string join(const std::vector<std::string>& all, const char* between) {
    std::string text;
    for (const std::string& one : all) text += (text.empty() ? "" : between) + one;
    return text;
}

/// "4 grafter-days in 2030; 2 in 2031".
std::string amounts(const Read& read, const Gain& gain) {
    std::vector<std::string> all;
    for (std::size_t at = 0; at < gain.extra.size(); ++at) {
        if (gain.extra[at] <= 0) continue;
        // A tenth more is a tenth more: what is said must be enough.
        const bool fine = gain.kind == Kind::days || gain.kind == Kind::crop;
        const double enough = fine ? std::ceil(gain.extra[at] * 10 - 1e-6) / 10 : std::ceil(gain.extra[at] - 1e-6);
        const std::string amount = fine ? tenths(enough) : menu_language().grouped(enough);
        const std::string year = to_text(read.first_season + static_cast<double>(at));
        switch (gain.kind) {
            case Kind::days:
                all.push_back(menu_language().translated(translatable("{1} grafter-days in {2}"), {amount, year}));
                break;
            case Kind::sticks:
                all.push_back(menu_language().translated(translatable("{1} sticks in {2}"), {amount, year}));
                break;
            case Kind::cash:
                all.push_back(
                    menu_language().translated(translatable("{1} {2} in {3}"), {amount, read.currency, year}));
                break;
            case Kind::crop:
                all.push_back(
                    menu_language().translated(translatable("{1} of crop missing after season {2}"), {amount, year}));
                break;
        }
    }
    return join(all, "; ");
}

/// What is different from now: "Weir Paddock in 2028; without Quarry Rows".
std::string changes(const Read& read, const Arrangement& now, const Arrangement& then) {
    std::vector<std::string> all;
    for (std::size_t at = 0; at < now.size(); ++at) {
        if (now[at] == then[at]) continue;
        const std::string& name = read.farm.blocks[at].name;
        if (then[at] == 0) {
            all.push_back(menu_language().translated(translatable("without {1}"), {name}));
        } else {
            all.push_back(menu_language().translated(translatable("{1} in {2}"),
                                                     {name, to_text(read.first_season + then[at] - 1.0)}));
        }
    }
    return join(all, "; ");
}

std::string no_time() {
    return menu_language().translated(
        translatable("There was not enough time for all of it: allow more on sheet Limits."));
}

/// What more of each kind of limit would allow.
std::string what_it_takes(const Read& read, const Best& now, HostSolver& solver) {
    std::vector<std::string> lines;
    bool known = true;
    for (const Gain& gain : seasons::gains(read.farm, now, std::ref(solver), [&] { return solver.time_left(); })) {
        known = known && gain.known;
        if (!gain.any) continue;
        lines.push_back(menu_language().translated(
            translatable("With {1} more: {2}. That adds {3} {4}."),
            {amounts(read, gain), changes(read, *now.arrangement, gain.arrangement), whole(gain.adds), read.currency}));
    }
    if (known && lines.empty()) {
        lines.push_back(
            menu_language().translated(translatable("No kind of limit alone keeps a better arrangement out.")));
    }
    if (!known) lines.push_back(no_time());
    return join(lines, "\n");
}

/// What it would take to do each block that is left out.
std::string left_out(const Read& read, const Best& now, HostSolver& solver) {
    std::vector<std::string> lines;
    bool known = true;
    for (const Forced& forced :
         seasons::forced_in(read.farm, now, std::ref(solver), [&] { return solver.time_left(); })) {
        const std::string& name = read.farm.blocks[forced.block].name;
        known = known && forced.known;
        if (!forced.known) continue;
        std::string text =
            forced.worth
                ? menu_language().translated(translatable("{1} is left out: with it the best is {2} {3} less."),
                                             {name, whole(now.worth - *forced.worth), read.currency})
                : menu_language().translated(translatable("{1} is left out: it fits no arrangement."), {name});
        std::vector<std::string> ways;
        for (const Gain& gain : forced.takes) {
            known = known && gain.known;
            const std::string amount = amounts(read, gain);
            if (gain.any && !amount.empty()) ways.push_back(amount);
        }
        if (!ways.empty()) {
            const std::string either = menu_language().translated(translatable(" or "));
            text += " " + menu_language().translated(translatable("To have it and lose nothing takes {1} more."),
                                                     {join(ways, either.c_str())});
        }
        lines.push_back(text);
    }
    if (!known) lines.push_back(no_time());
    return join(lines, "\n");
}

/// What would make something fit where nothing does.
std::string ways_out(const Read& read, HostSolver& solver) {
    std::vector<std::string> ways;
    bool known = true;
    for (const Gain& gain : seasons::ways_out(read.farm, std::ref(solver), [&] { return solver.time_left(); })) {
        known = known && gain.known;
        if (gain.any) ways.push_back(amounts(read, gain));
    }
    if (!ways.empty()) {
        const std::string either = menu_language().translated(translatable(" or "));
        return menu_language().translated(translatable("It would take {1} more."), {join(ways, either.c_str())});
    }
    if (!known) return no_time();
    return menu_language().translated(
        translatable("More than one kind of limit is in the way: more of a single one would not do. Check which "
                     "blocks are required, and their seasons."));
}

void write(const Values& grid, const Read& read, const Arrangement& arrangement) {
    for (std::size_t at = 0; at < arrangement.size(); ++at) {
        if (read.farm.blocks[at].pinned) continue;
        for (std::size_t season = 0; season < grid.columns(); ++season) {
            const auto cell = grid.cell(read.lines[at], season);
            if (static_cast<int>(season) + 1 == arrangement[at]) {
                cell->setValue(1);
            } else if (cell->getType() != css::table::CellContentType_EMPTY) {
                cell->setFormula({});  // blank: no cell has a 0 that nobody typed
            }
        }
    }
}

}  // namespace

Done arrange_seasons(const Sent& sent) {
    const auto model = sent.document();
    if (!is_seasons(model)) {
        return {menu_language().translated(
            translatable("There are no seasons to arrange here: open a plan of several seasons "
                         "with Rework > New."))};
    }
    const Values grid(model, "arranged");
    const Values entries(model, "farm_entries");
    if (entries.there() && !entries.text(0, 0).empty()) {
        return {menu_language().translated(translatable("Nothing was arranged, because an entry is not valid yet. {1}"),
                                           {entries.text(0, 0)})};
    }
    const Read now = read(model, grid);
    if (!now.objection.empty()) return {now.objection};
    HostSolver solver(sent.context, now.seconds);
    if (!solver.is_there()) {
        return {menu_language().translated(
            translatable("Nothing was arranged: this LibreOffice has no linear solver. Most installations have one; "
                         "arrange by hand, or ask the person who installed it."))};
    }
    const StatusLine line(sent, translatable("Arranging the seasons"));
    const Values before(model, "arranged_worth");
    const Values broken(model, "limits_broken");
    const std::string was = whole(before.there() ? before.or_0(0, 0) : 0);
    const bool had_broken = broken.there() && broken.or_0(0, 0) > 0;
    const Best found = seasons::best(now.farm, {}, std::ref(solver));
    if (!found.arrangement) {
        if (found.in_time) {
            return {menu_language().translated(translatable("Nothing was arranged: nothing fits all limits. {1}"),
                                               {ways_out(now, solver)})};
        }
        return {menu_language().translated(
            translatable("Nothing was arranged: in {1} seconds no arrangement was found that fits all limits, which "
                         "does not prove that there is none. Allow more time on sheet Limits."),
            {whole(now.seconds)})};
    }
    std::vector<std::string> lines;
    if (!found.in_time) {
        lines.push_back(menu_language().translated(
            translatable("This is the best arrangement found in {1} seconds: worth {2} {3} today, {4} before. A better "
                         "one may exist: allow more time on sheet Limits."),
            {whole(now.seconds), whole(found.worth), now.currency, was}));
    } else if (had_broken) {
        lines.push_back(
            menu_language().translated(translatable("This is the best arrangement within all limits: worth {1} "
                                                    "{2} today. Before, it was worth {3}, with limits exceeded."),
                                       {whole(found.worth), now.currency, was}));
    } else {
        lines.push_back(menu_language().translated(
            translatable("This is the best arrangement within all limits: worth {1} {2} today, {3} before."),
            {whole(found.worth), now.currency, was}));
    }
    if (found.in_time) {
        lines.push_back(what_it_takes(now, found, solver));
        lines.push_back(left_out(now, found, solver));
    }
    {
        const UndoStep step(model, arrange_the_seasons.title);
        write(grid, now, *found.arrangement);
    }
    std::erase(lines, std::string());
    return {join(lines, "\n")};
}

}  // namespace slipbark::addin

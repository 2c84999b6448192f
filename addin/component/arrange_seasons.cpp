// "Arrange the seasons": which block of the workbook seasons is done in which season, so that the arrangement is of
// most worth within every limit.
//
// The host's own linear solver works on the cells themselves: those that hold 0 or 1, the worth, and what is left of
// each limit. So what is arranged is what the sheet says, and nothing of the model stands here a second time. The
// solver tells whether it found something, not whether it is the best; that is so where it ended before its time.

#include <algorithm>
#include <chrono>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/SolverConstraint.hpp>
#include <com/sun/star/sheet/SolverConstraintOperator.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XSolver.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <functional>
#include <limits>
#include <optional>

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

namespace {

using css::table::CellAddress;
using Clock = std::chrono::steady_clock;

/// What stands in the cells of a named range: numbers, or texts.
class Values {
  public:
    Values(const Reference<css::frame::XModel>& model, const char* name)
        : cells_(named_cells(model, rtl::OUString::createFromAscii(name))) {
        if (cells_.is()) data_ = Reference<css::sheet::XCellRangeData>(cells_, UNO_QUERY_THROW)->getDataArray();
    }
    [[nodiscard]] bool there() const { return cells_.is(); }
    [[nodiscard]] sal_Int32 rows() const { return data_.getLength(); }
    [[nodiscard]] sal_Int32 columns() const { return rows() == 0 ? 0 : data_[0].getLength(); }
    [[nodiscard]] std::optional<double> number(sal_Int32 row, sal_Int32 column) const {
        double value = 0;
        if (data_[row][column] >>= value) return value;
        return std::nullopt;
    }
    [[nodiscard]] double or_0(sal_Int32 row, sal_Int32 column) const { return number(row, column).value_or(0); }
    [[nodiscard]] std::string text(sal_Int32 row, sal_Int32 column) const {
        return to_utf8(shown(cells_->getCellByPosition(column, row)));
    }
    [[nodiscard]] CellAddress address(sal_Int32 row, sal_Int32 column) const {
        return Reference<css::sheet::XCellAddressable>(cells_->getCellByPosition(column, row), UNO_QUERY_THROW)
            ->getCellAddress();
    }
    [[nodiscard]] const Reference<css::table::XCellRange>& cells() const { return cells_; }

  private:
    Reference<css::table::XCellRange> cells_;
    css::uno::Sequence<css::uno::Sequence<Any>> data_;
};

/// One limit of one season. What is left of it must not fall below 0.
struct Limit {
    CellAddress left;
    sal_Int32 kind;
    double there;
    std::string name;    ///< as the sheet has it
    std::string season;  ///< "2028"
};

/// How often a block is done.
struct Times {
    CellAddress done;
    bool must;
};

struct Problem {
    CellAddress worth;
    std::vector<CellAddress> variables;               ///< cells that the command may set
    std::vector<CellAddress> closed;                  ///< cells in which nothing may stand
    std::vector<css::sheet::SolverConstraint> rules;  ///< each cell 0 or 1, each block once, what must be done is done
    std::vector<Times> times;
    std::vector<Limit> limits;
};

struct Found {
    std::vector<bool> chosen;
    double worth = 0;
};

struct Outcome {
    std::optional<Found> found;
    bool in_time = true;  ///< it ended by itself: what was found is the best, what was not cannot be
};

css::sheet::SolverConstraint constraint(const CellAddress& left, css::sheet::SolverConstraintOperator how,
                                        double right) {
    css::sheet::SolverConstraint made;
    made.Left = left;
    made.Operator = how;
    made.Right <<= right;
    return made;
}

/// The host's solvers by name, the better one first.
Reference<css::sheet::XSolver> solver(const Reference<css::uno::XComponentContext>& context) {
    for (const char* name : {"com.sun.star.comp.Calc.CoinMPSolver", "com.sun.star.comp.Calc.LpsolveSolver"}) {
        try {
            const Reference<css::sheet::XSolver> made(
                context->getServiceManager()->createInstanceWithContext(rtl::OUString::createFromAscii(name), context),
                UNO_QUERY);
            if (made.is()) return made;
        } catch (const css::uno::Exception&) {
            continue;  // an office without it
        }
    }
    return nullptr;
}

/// While it lives the grid may be changed back and forth: everything is calculated at once and nothing is painted, and
/// in the end the grid is as it was.
class Trying {
  public:
    Trying(const Reference<css::frame::XModel>& model, const Reference<css::table::XCellRange>& grid)
        : model_(model), calculation_(model, UNO_QUERY_THROW), grid_(grid, UNO_QUERY_THROW) {
        automatic_ = calculation_->isAutomaticCalculationEnabled();
        before_ = grid_->getFormulaArray();
        model_->lockControllers();
        calculation_->enableAutomaticCalculation(true);
    }
    Trying(const Trying&) = delete;
    Trying& operator=(const Trying&) = delete;
    ~Trying() {
        try {
            grid_->setFormulaArray(before_);
            calculation_->enableAutomaticCalculation(automatic_);
            model_->unlockControllers();
        } catch (const css::uno::Exception&) {
            before_ = {};  // a document that was closed meanwhile needs nothing
        }
    }

  private:
    Reference<css::frame::XModel> model_;
    Reference<css::sheet::XCalculatable> calculation_;
    Reference<css::sheet::XCellRangeFormula> grid_;
    css::uno::Sequence<css::uno::Sequence<rtl::OUString>> before_;
    bool automatic_ = true;
};

/// Whatever is done while it lives is one step to undo, or none where it is taken back. The host's solver writes into
/// cells while it works, and a lock of the list of steps does not hold while it does (LibreOffice 7.4).
class StepOrNone {
  public:
    explicit StepOrNone(const Reference<css::frame::XModel>& model)
        : model_(model), modified_(model, UNO_QUERY_THROW), was_modified_(modified_->isModified()) {
        step_.emplace(model, arrange_the_seasons.title);
    }
    StepOrNone(const StepOrNone&) = delete;
    StepOrNone& operator=(const StepOrNone&) = delete;
    ~StepOrNone() = default;

    /// The document holds again what it held, so nothing is to be undone.
    void take_back() {
        step_.reset();
        const Reference<css::document::XUndoManagerSupplier> supplier(model_, UNO_QUERY);
        if (supplier.is()) {
            supplier->getUndoManager()->undo();
            supplier->getUndoManager()->clearRedo();
        }
        modified_->setModified(was_modified_);
    }

  private:
    Reference<css::frame::XModel> model_;
    Reference<css::util::XModifiable> modified_;
    std::optional<UndoStep> step_;
    bool was_modified_;
};

/// Says in the status line of the window what is going on.
class StatusLine {
  public:
    StatusLine(const Sent& sent, Text text) {
        const Reference<css::task::XStatusIndicatorFactory> factory(sent.frame, UNO_QUERY);
        if (factory.is()) line_ = factory->createStatusIndicator();
        if (line_.is()) line_->start(to_ustring(spoken().translated(text)), 0);
    }
    StatusLine(const StatusLine&) = delete;
    StatusLine& operator=(const StatusLine&) = delete;
    ~StatusLine() {
        if (line_.is()) line_->end();
    }

  private:
    Reference<css::task::XStatusIndicator> line_;
};

class Arranger {
  public:
    Arranger(const Sent& sent, const Problem& problem, double seconds)
        : sent_(sent),
          problem_(problem),
          until_(Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds))),
          sheets_(sheets_of(sent.document())) {}

    [[nodiscard]] bool time_left() const { return Clock::now() + std::chrono::seconds(1) <= until_; }

    /// The best arrangement where `lowest` says of each limit how far below 0 what is left may fall; of a limit that is
    /// infinitely low nothing is asked.
    Outcome best(const std::function<double(const Limit&)>& lowest) {
        const auto began = Clock::now();
        const auto seconds =
            std::max<std::int64_t>(1, std::chrono::duration_cast<std::chrono::seconds>(until_ - began).count());
        const auto with = solver(sent_.context);
        std::vector<css::sheet::SolverConstraint> all = problem_.rules;
        for (const Limit& limit : problem_.limits) {
            const double low = lowest(limit);
            if (std::isinf(low)) continue;
            all.push_back(constraint(limit.left, css::sheet::SolverConstraintOperator_GREATER_EQUAL, low));
        }
        with->setDocument(Reference<css::sheet::XSpreadsheetDocument>(sent_.document(), UNO_QUERY_THROW));
        with->setObjective(problem_.worth);
        with->setVariables({problem_.variables.data(), static_cast<sal_Int32>(problem_.variables.size())});
        with->setConstraints({all.data(), static_cast<sal_Int32>(all.size())});
        with->setMaximize(true);
        const Reference<css::beans::XPropertySet> how(with, UNO_QUERY_THROW);
        how->setPropertyValue("Timeout", Any(static_cast<sal_Int32>(seconds)));
        how->setPropertyValue("NonNegative", Any(true));
        with->solve();
        Outcome outcome;
        outcome.in_time = Clock::now() - began < std::chrono::seconds(seconds);
        if (!with->getSuccess()) return outcome;
        Found found;
        for (const double value : with->getSolution()) found.chosen.push_back(value > 0.5);
        // What the solver calls a success need not fit (LibreOffice 7.4 and CoinMP where nothing does), so the sheet is
        // asked.
        for (std::size_t at = 0; at < problem_.variables.size(); ++at) {
            cell(problem_.variables[at])->setValue(found.chosen[at] ? 1 : 0);
        }
        for (const Limit& limit : problem_.limits) {
            if (cell(limit.left)->getValue() < lowest(limit) - rounding(limit.there)) return outcome;
        }
        for (const Times& times : problem_.times) {
            const double done = cell(times.done)->getValue();
            if (done > 1.5 || (times.must && done < 0.5)) return outcome;
        }
        found.worth = cell(problem_.worth)->getValue();
        outcome.found = std::move(found);
        return outcome;
    }

    [[nodiscard]] Reference<css::table::XCell> cell(const CellAddress& at) const {
        return sheets_.at(static_cast<std::size_t>(at.Sheet))->getCellByPosition(at.Column, at.Row);
    }
    /// Blank: no cell holds a 0 that nobody typed.
    void clear(const CellAddress& at) const {
        if (cell(at)->getType() != css::table::CellContentType_EMPTY) cell(at)->setFormula({});
    }

  private:
    /// What sums of that size may miss a limit by.
    static double rounding(double size) { return 1e-9 * std::max(1000.0, std::abs(size)); }

    const Sent& sent_;
    const Problem& problem_;
    Clock::time_point until_;
    std::vector<Reference<css::sheet::XSpreadsheet>> sheets_;
};

double nothing_below_0(const Limit& /*limit*/) { return 0; }
constexpr double unlimited = -std::numeric_limits<double>::infinity();

/// A number without decimals, thousands told apart.
std::string whole(double number) { return spoken().grouped(std::round(number)); }

std::string in_season(const Limit& limit) {
    return spoken().translated(translatable("{1} in {2}"), {limit.name, limit.season});
}

bool is_seasons(const Reference<css::frame::XModel>& model) {
    const auto* const workbook = workbook_of(model);
    return workbook != nullptr && workbook->file == "seasons";
}

/// The cells, rules and limits of the workbook, and what in it stands in the way, as a sentence.
struct Read {
    Problem problem;
    std::string objection;
};

Read read(const Reference<css::frame::XModel>& model, const Values& grid) {
    Read all;
    const Values may(model, "may_be_chosen");
    const Values least(model, "times_at_least");
    const Values times(model, "times_done");
    const Values left(model, "limits_left");
    const Values there(model, "limits_there");
    const Values names(model, "limit_names");
    const Values years(model, "season_years");
    const Values blocks(model, "block_names");
    const Values worth(model, "arranged_worth");
    const auto every = {&grid, &may, &least, &times, &left, &there, &names, &years, &blocks, &worth};
    if (std::any_of(every.begin(), every.end(), [](const Values* one) { return !one->there(); })) {
        all.objection = spoken().translated(translatable(
            "Names of cells are missing from this workbook: open a new one with Rework > New, and copy your "
            "blocks and limits there."));
        return all;
    }
    Problem& problem = all.problem;
    problem.worth = worth.address(0, 0);
    namespace How = css::sheet;
    for (sal_Int32 row = 0; row < grid.rows(); ++row) {
        bool open = false;
        for (sal_Int32 column = 0; column < grid.columns(); ++column) {
            const auto free = may.number(row, column);
            if (free == 0.0) problem.closed.push_back(grid.address(row, column));
            if (free != 1.0) continue;
            open = true;
            problem.variables.push_back(grid.address(row, column));
            problem.rules.push_back(constraint(problem.variables.back(), How::SolverConstraintOperator_BINARY, 0));
        }
        const bool must = least.or_0(row, 0) == 1;
        if (must && !open) {
            all.objection = spoken().translated(
                translatable("{1} is required, but no season is possible: check its earliest and latest season."),
                {blocks.text(row, 0)});
            return all;
        }
        if (!open) continue;
        problem.times.push_back({times.address(row, 0), must});
        problem.rules.push_back(
            constraint(times.address(row, 0),
                       must ? How::SolverConstraintOperator_EQUAL : How::SolverConstraintOperator_LESS_EQUAL, 1));
    }
    if (problem.variables.empty()) {
        all.objection = spoken().translated(
            translatable("There is nothing to arrange: fill in sheets Blocks and Limits, and lock fewer lines."));
        return all;
    }
    for (sal_Int32 row = 0; row < left.rows(); ++row) {
        for (sal_Int32 column = 0; column < left.columns(); ++column) {
            if (!left.number(row, column)) continue;
            problem.limits.push_back(
                {left.address(row, column), row, there.or_0(row, column), names.text(row, 0), years.text(0, column)});
        }
    }
    return all;
}

/// Which limits stand in the way where nothing fits: those without which something would.
std::string clash(Arranger& arranger, const Problem& problem) {
    const auto fits_without = [&](const auto& dropped) {
        return arranger.best([&](const Limit& limit) { return dropped(limit) ? unlimited : 0; }).found.has_value();
    };
    if (!fits_without([](const Limit& /*limit*/) { return true; })) {
        return spoken().translated(
            translatable("Even without any limit nothing fits: check which blocks are required, and their seasons."));
    }
    std::vector<std::string> found;
    std::vector<std::string> kinds;
    for (std::size_t at = 0; at < problem.limits.size() && arranger.time_left(); ++at) {
        const sal_Int32 kind = problem.limits[at].kind;
        if (at > 0 && problem.limits[at - 1].kind == kind) continue;
        if (!fits_without([&](const Limit& limit) { return limit.kind == kind; })) continue;
        kinds.push_back(problem.limits[at].name);
        for (const Limit& one : problem.limits) {
            if (one.kind != kind || !arranger.time_left()) continue;
            if (fits_without([&](const Limit& limit) { return &limit == &one; })) found.push_back(in_season(one));
        }
    }
    const auto list = [](const std::vector<std::string>& all) {
        std::string text;
        for (const std::string& one : all) text += (text.empty() ? "" : "; ") + one;
        return text;
    };
    if (!found.empty()) {
        return spoken().translated(translatable("It would work without one of these limits: {1}."), {list(found)});
    }
    if (!kinds.empty()) {
        return spoken().translated(translatable("It would work without one of these limits in all seasons: {1}."),
                                   {list(kinds)});
    }
    return spoken().translated(
        translatable("More than one kind of limit is in the way: removing a single one is not enough."));
}

/// What one more of the limits would be worth that are used up most: the scarcest is the one that would bring most. The
/// cells still hold the best arrangement.
std::string scarcest(Arranger& arranger, const Problem& problem, double worth, const std::string& currency) {
    struct Tried {
        const Limit* limit;
        double used;  ///< share of what is there
    };
    std::vector<Tried> fullest;
    for (const Limit& limit : problem.limits) {
        if (limit.there > 0) fullest.push_back({&limit, 1 - arranger.cell(limit.left)->getValue() / limit.there});
    }
    if (fullest.empty()) return {};
    std::stable_sort(fullest.begin(), fullest.end(), [](const Tried& a, const Tried& b) { return a.used > b.used; });
    constexpr std::size_t tried = 3;
    fullest.resize(std::min(fullest.size(), tried));
    const auto gain = [&](const Limit& one, double more) -> std::optional<double> {
        if (!arranger.time_left()) return std::nullopt;
        const Outcome again = arranger.best([&](const Limit& limit) { return &limit == &one ? -more : 0; });
        if (!again.in_time || !again.found) return std::nullopt;
        return std::max(0.0, again.found->worth - worth);
    };
    const Limit* best = nullptr;
    double most = 0;
    for (const Tried& one : fullest) {
        const auto more = gain(*one.limit, 1);
        if (!more)
            return spoken().translated(
                translatable("No time was left to find out what more of a limit would be worth."));
        if (*more > most + 1e-6) {
            most = *more;
            best = one.limit;
        }
    }
    if (best != nullptr) {
        return spoken().translated(translatable("The scarcest limit is {1}: one more would add {2} {3}."),
                                   {in_season(*best), whole(most), currency});
    }
    const Limit& full = *fullest.front().limit;
    const auto tenth = gain(full, full.there / 10);
    std::string used =
        spoken().translated(translatable("The tightest limit is {1}, {2} % used: one more would add nothing."),
                            {in_season(full), whole(100 * fullest.front().used)});
    if (!tenth || *tenth <= 1e-6) return used;
    return used + " " + spoken().translated(translatable("10 % more would add {1} {2}."), {whole(*tenth), currency});
}

}  // namespace

Done arrange_seasons(const Sent& sent) {
    const auto model = sent.document();
    if (!is_seasons(model)) {
        return {
            spoken().translated(translatable("There are no seasons to arrange here: open a plan of several seasons "
                                             "with Rework > New."))};
    }
    const Values grid(model, "arranged");
    const Values entries(model, "farm_entries");
    if (entries.there() && !entries.text(0, 0).empty()) {
        return {spoken().translated(translatable("Nothing was arranged, because an entry is not valid yet. {1}"),
                                    {entries.text(0, 0)})};
    }
    if (!solver(sent.context).is()) {
        return {spoken().translated(
            translatable("Nothing was arranged: this LibreOffice has no linear solver. Most installations have one; "
                         "arrange by hand, or ask the person who installed it."))};
    }
    const Read now = read(model, grid);
    if (!now.objection.empty()) return {now.objection};
    const Problem& problem = now.problem;
    const Values before(model, "arranged_worth");
    const Values broken(model, "limits_broken");
    const Values currency_cell(model, "currency");
    const std::string currency = currency_cell.there() ? currency_cell.text(0, 0) : std::string();
    const Values limit(model, "arrange_seconds");
    const double seconds = limit.there() ? std::clamp(limit.or_0(0, 0), 1.0, 3600.0) : 20;
    const StatusLine line(sent, translatable("Arranging the seasons"));
    Arranger arranger(sent, problem, seconds);
    Outcome outcome;
    std::string further;
    StepOrNone step(model);
    {
        const Trying trying(model, grid.cells());
        // What may not be chosen is 0, whatever stands there.
        for (const CellAddress& at : problem.closed) arranger.clear(at);
        outcome = arranger.best(nothing_below_0);
        if (outcome.in_time) {
            further =
                outcome.found ? scarcest(arranger, problem, outcome.found->worth, currency) : clash(arranger, problem);
        }
    }
    if (!outcome.found) {
        step.take_back();
        if (outcome.in_time) {
            return {spoken().translated(translatable("Nothing was arranged: nothing fits all limits. {1}"), {further})};
        }
        return {spoken().translated(
            translatable("Nothing was arranged: in {1} seconds no arrangement was found that fits all limits, which "
                         "does not prove that there is none. Allow more time on sheet Limits."),
            {whole(seconds)})};
    }
    for (const CellAddress& at : problem.closed) arranger.clear(at);
    for (std::size_t at = 0; at < problem.variables.size(); ++at) {
        if (outcome.found->chosen[at]) {
            arranger.cell(problem.variables[at])->setValue(1);
        } else {
            arranger.clear(problem.variables[at]);
        }
    }
    const std::string worth = whole(outcome.found->worth);
    const std::string was = whole(before.or_0(0, 0));
    const bool had_broken = broken.there() && broken.or_0(0, 0) > 0;
    std::string text;
    if (outcome.in_time) {
        text = had_broken
                   ? spoken().translated(translatable("This is the best arrangement within all limits: worth {1} {2} "
                                                      "today. Before, it was worth {3}, with limits exceeded."),
                                         {worth, currency, was})
                   : spoken().translated(
                         translatable("This is the best arrangement within all limits: worth {1} {2} today, "
                                      "{3} before."),
                         {worth, currency, was});
    } else {
        text = spoken().translated(
            translatable("This is the best arrangement found in {1} seconds: worth {2} {3} today, {4} "
                         "before. A better one may exist: allow more time on sheet Limits."),
            {whole(seconds), worth, currency, was});
    }
    return {further.empty() ? text : text + "\n" + further};
}

}  // namespace slipbark::addin

#include "component/host_solver.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XActionLockable.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/SolverConstraint.hpp>
#include <com/sun/star/sheet/SolverConstraintOperator.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSolver.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <optional>

#include "component/documents.hpp"

namespace slipbark::addin {

using css::table::CellAddress;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

namespace {

using Clock = std::chrono::steady_clock;
namespace How = css::sheet;

/// The solvers by name, the better one first.
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

/// "AB" for 27.
std::string letters(std::size_t column) {
    std::string text;
    for (std::size_t left = column + 1; left > 0; left = (left - 1) / 26) {
        text.insert(text.begin(), static_cast<char>('A' + (left - 1) % 26));
    }
    return text;
}

// Where things are in the hidden sheet: sums in column A, factors beside them, the values of the columns in row 1, the
// goal in row 2.
CellAddress sum_cell(std::size_t row) { return {0, 0, static_cast<sal_Int32>(row)}; }
CellAddress value_cell(std::size_t column) { return {0, static_cast<sal_Int32>(column + 1), 0}; }

css::sheet::SolverConstraint constraint(const CellAddress& left, How::SolverConstraintOperator how, double right) {
    css::sheet::SolverConstraint made;
    made.Left = left;
    made.Operator = how;
    made.Right <<= right;
    return made;
}

}  // namespace

struct HostSolver::Scratch {
    Reference<css::uno::XComponentContext> context;
    Clock::time_point until;
    std::optional<HiddenDocument> document;

    void open() {
        if (!document) document.emplace(context, "private:factory/scalc");
    }

    [[nodiscard]] Reference<css::sheet::XSpreadsheet> sheet() const { return sheets_of(document->model()).front(); }

    /// Writes the program into the sheet.
    void write(const seasons::Program& program) const {
        const std::size_t columns = program.goal.size();
        const std::size_t rows = program.rows.size();
        std::vector<std::vector<double>> factors(rows + 1, std::vector<double>(columns));
        factors[0] = program.goal;
        for (std::size_t row = 0; row < rows; ++row) {
            for (const auto& [column, factor] : program.rows[row].factors) factors[row + 1][column] += factor;
        }
        const std::string last = letters(columns);
        css::uno::Sequence<Row> cells(static_cast<sal_Int32>(rows + 2));
        Row* lines = cells.getArray();
        for (std::size_t row = 0; row < rows + 2; ++row) {
            lines[row].realloc(static_cast<sal_Int32>(columns + 1));
            Any* line = lines[row].getArray();
            line[0] <<= rtl::OUString();
            for (std::size_t column = 0; column < columns; ++column) {
                line[column + 1] <<= row == 0 ? 0.0 : factors[row - 1][column];
            }
        }
        const auto sheet_now = sheet();
        const Reference<css::sheet::XSheetOperation> all(sheet_now, UNO_QUERY_THROW);
        all->clearContents(How::CellFlags::VALUE | How::CellFlags::FORMULA | How::CellFlags::STRING);
        const auto area =
            sheet_now->getCellRangeByPosition(0, 0, static_cast<sal_Int32>(columns), static_cast<sal_Int32>(rows + 1));
        Reference<css::sheet::XCellRangeData>(area, UNO_QUERY_THROW)->setDataArray(cells);
        for (std::size_t row = 1; row < rows + 2; ++row) {
            const std::string line = std::to_string(row + 1);
            sheet_now->getCellByPosition(0, static_cast<sal_Int32>(row))
                ->setFormula(to_ustring("=SUMPRODUCT($B$1:$" + last + "$1;B" + line + ":" + last + line + ")"));
        }
    }
};

HostSolver::HostSolver(const Reference<css::uno::XComponentContext>& context, double seconds)
    : scratch_(new Scratch{
          context,
          Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds)),
          {}}) {}

HostSolver::~HostSolver() = default;

bool HostSolver::is_there() const { return solver(scratch_->context).is(); }

bool HostSolver::time_left() const { return Clock::now() + std::chrono::seconds(1) <= scratch_->until; }

seasons::Answer HostSolver::operator()(const seasons::Program& program) {
    seasons::Answer answer;
    if (program.goal.empty()) return answer;
    scratch_->open();
    const Reference<css::document::XActionLockable> actions(scratch_->document->model(), UNO_QUERY);
    if (actions.is()) actions->addActionLock();
    scratch_->write(program);
    const auto began = Clock::now();
    const auto seconds =
        std::max<std::int64_t>(1, std::chrono::duration_cast<std::chrono::seconds>(scratch_->until - began).count());
    std::vector<CellAddress> values;
    std::vector<css::sheet::SolverConstraint> rules;
    for (std::size_t column = 0; column < program.goal.size(); ++column) {
        values.push_back(value_cell(column));
        if (program.whole[column]) {
            rules.push_back(constraint(values.back(), How::SolverConstraintOperator_BINARY, 0));
        }
    }
    for (std::size_t row = 0; row < program.rows.size(); ++row) {
        const seasons::Row& one = program.rows[row];
        const CellAddress sum = sum_cell(row + 2);
        if (one.least && one.most && *one.least == *one.most) {
            rules.push_back(constraint(sum, How::SolverConstraintOperator_EQUAL, *one.most));
            continue;
        }
        if (one.least) rules.push_back(constraint(sum, How::SolverConstraintOperator_GREATER_EQUAL, *one.least));
        if (one.most) rules.push_back(constraint(sum, How::SolverConstraintOperator_LESS_EQUAL, *one.most));
    }
    const auto with = solver(scratch_->context);
    with->setDocument(Reference<css::sheet::XSpreadsheetDocument>(scratch_->document->model(), UNO_QUERY_THROW));
    with->setObjective(sum_cell(1));
    with->setVariables({values.data(), static_cast<sal_Int32>(values.size())});
    with->setConstraints({rules.data(), static_cast<sal_Int32>(rules.size())});
    with->setMaximize(true);
    const Reference<css::beans::XPropertySet> how(with, UNO_QUERY_THROW);
    how->setPropertyValue("Timeout", Any(static_cast<sal_Int32>(seconds)));
    how->setPropertyValue("NonNegative", Any(true));
    with->solve();
    if (actions.is()) actions->removeActionLock();
    answer.in_time = Clock::now() - began < std::chrono::seconds(seconds);
    if (!with->getSuccess()) return answer;
    const auto solution = with->getSolution();
    answer.values.emplace(solution.begin(), solution.end());
    return answer;
}

}  // namespace slipbark::addin

// The office's own linear solver, given a program instead of cells.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>
#include <memory>

#include "component/convert.hpp"
#include "seasons/model.hpp"

namespace slipbark::addin {

/// Solves linear programs with the office's solver. That solver works on the cells of a document, so each program is
/// written into a hidden one, which is closed in the end.
class HostSolver {
  public:
    /// seconds  that all programs together may take
    HostSolver(const css::uno::Reference<css::uno::XComponentContext>& context, double seconds);
    HostSolver(const HostSolver&) = delete;
    HostSolver& operator=(const HostSolver&) = delete;
    ~HostSolver();

    /// Whether the office has a solver.
    [[nodiscard]] bool is_there() const;
    [[nodiscard]] bool time_left() const;
    seasons::Answer operator()(const seasons::Program& program);

  private:
    struct Scratch;
    std::unique_ptr<Scratch> scratch_;
};

}  // namespace slipbark::addin

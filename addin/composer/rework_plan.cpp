// The block's book: what to order, who does it when, how it took, what it yields and earns. Sheets follow the order of
// the work; each has its own source in rework_plan/.
#include <string>

#include "composer/rework_plan/book.hpp"
#include "composer/workbooks.hpp"

namespace slipbark::compose {

std::string rework_plan() {
    Workbook book(
        "rework-plan", "Rework plan",
        "Plan of reworking one block of fruit trees: budwood, materials, crew, rows, calendar, take, yield, money.");
    block::plan(book);
    block::orders(book);
    block::crew(book);
    block::rows(book);
    block::week(book);
    block::calendar(book);
    block::regraft(book);
    block::money(book);
    block::odds(book);
    block::actual(book);
    block::defaults_sheet(book);
    block::notes(book);
    return book.write();
}

}  // namespace slipbark::compose

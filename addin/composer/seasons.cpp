// Which of a farm's blocks are reworked in which season. Sheets follow the order in which they are filled in; each has
// its own source in seasons/.
#include <string>

#include "composer/look.hpp"
#include "composer/seasons/farm.hpp"
#include "composer/workbooks.hpp"

namespace slipbark::compose {

namespace {

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note("Kestrel Flat, its blocks, varieties and every figure are made up. Rework > Empty the form clears them.");
    text.errors("the Check of its line or sheet");
    text.heading("From a block's plan to this workbook")
        .note(
            "Each rework plan ends its sheet Money in a line for this workbook. Copy its ten cells there, select the "
            "first free cell of column B on sheet Blocks, and choose Edit > Paste Special > Paste Special, Values "
            "Only. "
            "Then give the earliest and latest season, and must or not, where that is so.")
        .note(
            "Gain and loss are a year's margin against leaving the block as it is: the gain once the new crop is full, "
            "the loss while there is none. In between, both go with the share of a full crop (sheet Limits).");
    text.heading("How the worth is worked out")
        .note(
            "Worth of a block done in season s, today: (1 + interest)^-(s - 1) x (- outlay + sum over the years k "
            "after "
            "grafting of (gain x share of a full crop - lost x (1 - that share)) / (1 + interest)^k), for the years "
            "that "
            "count. A block done later earns later, and for fewer of these years. A block that is not done is worth 0.")
        .note(
            "The crop is picked before the trees are cut back, so a block's old crop is missing from the harvest after "
            "its season on. Crop missing at the next harvest is today's crop of the farm less what old and new trees "
            "bear then.")
        .note(
            "Grafter-days are people x working days between the first and the last day on which bark slips; type over "
            "them where people come and go. A limit left blank limits nothing.");
    text.new_page();
    text.heading("Rework > Arrange the seasons")
        .note(
            "The command hands the cells, the worth and every limit to the host's own linear solver (branch and cut: "
            "it "
            "searches all arrangements and leaves out those that cannot be best). It tells whether the arrangement is "
            "proven the best or only the best found within the time limit of sheet Limits, what one more of the "
            "scarcest limit would be worth, and where nothing fits, which limits stand in the way. Edit > Undo takes "
            "it back in one step.")
        .note(
            "A line pinned with an x stays as it is, and so do lines without a block. The best arrangement is no "
            "better "
            "than the figures: see on sheet Years how it comes out where they differ.");
    text.close();
}

}  // namespace

std::string seasons() {
    Workbook book("seasons", "Seasons",
                  "Which of several blocks is reworked in which season, with one crew, so much wood and so much cash.");
    farm::blocks(book);
    farm::limits(book);
    farm::arrange(book);
    farm::by_year(book);
    notes(book);
    return book.write();
}

}  // namespace slipbark::compose

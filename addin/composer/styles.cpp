#include "composer/styles.hpp"

#include <algorithm>

#include "composer/document.hpp"

namespace slipbark::compose::styles {

std::span<const Named> styles() {
    static constexpr auto all = std::to_array<Named>({
        {Style::plain, "plain", "Plain"},
        {Style::title, "title", "Sheet title"},
        {Style::lead, "lead", "Lead"},
        {Style::section, "section", "Section"},
        {Style::heading, "heading", "Table heading"},
        {Style::label, "label", "Label"},
        {Style::unit, "unit", "Unit"},
        {Style::input, "input", workbooks::cell_style::input},
        {Style::kept, "kept", workbooks::cell_style::kept},
        {Style::suggested, "suggested", workbooks::cell_style::suggested},
        {Style::answer, "answer", workbooks::cell_style::answer},
        {Style::total, "total", workbooks::cell_style::total},
        {Style::figure, "figure", "Key figure"},
        {Style::body, "body", "Table text"},
        {Style::check, "check", workbooks::cell_style::check},
        {Style::sentence, "sentence", "Sentence"},
        {Style::note, "note", "Note"},
        {Style::caution, "caution", "Caution"},
        {Style::bars, "bars", "Bars"},
        {Style::workings, "workings", "Workings"},
        {Style::unfit, "unfit", "Correct"},
        {Style::due, "due", "Due"},
        {Style::done, "done", "Done"},
    });
    return all;
}

const Named& of(Style style) { return *std::ranges::find(styles(), style, &Named::style); }

void opening(Sheet& sheet, const Phrase& title, const Phrase& lead, int columns) {
    sheet.row_height(1, title_height);
    sheet.put("B1", title, Style::title).across(columns);
    sheet.put("B2", lead, Style::lead).across(columns);
}

void band(Sheet& sheet, Address first, const Phrase& text, int columns) {
    for (int column = 0; column < columns; ++column) {
        sheet.put({first.column + column, first.row}, column == 0 ? text : "", Style::section);
    }
}

void mark_unfit(Sheet& sheet, const Area& area) { sheet.mark(area, "LEN(" + area.first.text() + ")>0", Style::unfit); }

}  // namespace slipbark::compose::styles

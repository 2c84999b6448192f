#include "composer/styles.hpp"

#include <stdexcept>

#include "composer/document.hpp"

namespace slipbark::compose::styles {

namespace {

constexpr std::string_view thin = "0.5pt solid #9fb0b9";
constexpr std::string_view frame = "0.9pt solid #6b5a1e";
constexpr std::string_view heavy = "1.8pt solid #0b4f6c";
constexpr std::string_view alarm = "1.8pt solid #a63d00";

}  // namespace

const std::vector<Properties>& styles() {
    static const std::vector<Properties> all{
        {Style::plain, "Plain", {{"style:vertical-align", "middle"}}, {}, {}},
        {Style::title,
         "Sheet title",
         {{"fo:border-bottom", heavy}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-size", "16pt"}, {"fo:font-weight", "bold"}, {"fo:color", "#0b4f6c"}}},
        {Style::lead,
         "Lead",
         {{"fo:wrap-option", "wrap"}, {"style:vertical-align", "top"}, {"fo:padding-top", "0.08cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", soft_ink}}},
        {Style::section,
         "Section",
         {{"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"style:vertical-align", "bottom"},
          // No more: the lines of a form beside it would be of uneven height.
          {"fo:padding-top", "0.1cm"}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "11pt"}, {"fo:color", "#0b4f6c"}}},
        {Style::heading,
         "Table heading",
         {{"fo:background-color", "#dbe6ec"},
          {"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "bottom"},
          {"fo:padding-top", "0.07cm"},
          {"fo:padding-bottom", "0.07cm"},
          {"fo:padding-left", "0.07cm"},
          {"fo:padding-right", "0.07cm"}},
         {{"fo:text-align", "center"}},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "9pt"}}},
        {Style::label, "Label", {{"style:vertical-align", "middle"}}, {}, {}},
        {Style::unit,
         "Unit",
         {{"style:vertical-align", "middle"}, {"fo:padding-left", "0.12cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", soft_ink}, {"fo:font-size", "9pt"}}},
        {Style::input,
         workbooks::cell_style::input,
         {{"fo:background-color", "#fff6d9"}, {"fo:border", frame}, {"style:vertical-align", "middle"}},
         {},
         // A condition lays it over Suggested, too, so it says upright.
         {{"fo:color", "#1b3a8a"}, {"fo:font-style", "normal"}}},
        {Style::kept,
         workbooks::cell_style::kept,
         {{"fo:background-color", "#fff6d9"}, {"fo:border", frame}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:color", "#1b3a8a"}}},
        {Style::suggested,
         workbooks::cell_style::suggested,
         {{"fo:background-color", "#fffbec"},
          {"fo:border", "1.1pt dashed #6b5a1e"},
          {"style:vertical-align", "middle"}},
         {},
         {{"fo:color", "#1b3a8a"}, {"fo:font-style", "italic"}}},
        {Style::answer,
         workbooks::cell_style::answer,
         {{"fo:background-color", "#eef3f6"}, {"fo:border", thin}, {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-weight", "bold"}}},
        {Style::total,
         workbooks::cell_style::total,
         {{"fo:background-color", "#cfdfe7"},
          {"fo:border", thin},
          {"fo:border-top", "0.9pt solid #0b4f6c"},
          {"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"style:vertical-align", "middle"}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "11pt"}}},
        {Style::figure,
         "Key figure",
         {{"fo:border-bottom", "0.9pt solid #0b4f6c"},
          {"style:vertical-align", "middle"},
          {"style:shrink-to-fit", "true"},
          {"fo:padding-left", "0.12cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:font-weight", "bold"}, {"fo:font-size", "16pt"}, {"fo:color", "#0b4f6c"}}},
        {Style::body,
         "Table text",
         {{"fo:border", thin}, {"fo:wrap-option", "wrap"}, {"style:vertical-align", "middle"}},
         {},
         {}},
        {Style::check,
         workbooks::cell_style::check,
         // A long one is whole all the same: the office does not make a row higher when a formula says more.
         {{"style:vertical-align", "middle"}, {"fo:padding-left", "0.12cm"}, {"style:shrink-to-fit", "true"}},
         {{"fo:text-align", "start"}},
         {{"fo:font-size", "9pt"}}},
        {Style::sentence,
         "Sentence",
         {{"fo:background-color", "#eef3f6"},
          {"fo:border-left", heavy},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "middle"},
          {"fo:padding-top", "0.15cm"},
          {"fo:padding-bottom", "0.15cm"},
          {"fo:padding-left", "0.2cm"},
          {"fo:padding-right", "0.15cm"}},
         {{"fo:text-align", "start"}},
         {{"fo:font-size", "11pt"}}},
        {Style::note,
         "Note",
         {{"fo:wrap-option", "wrap"},
          {"style:vertical-align", "middle"},
          {"fo:padding-top", "0.1cm"},
          {"fo:padding-bottom", "0.1cm"}},
         {{"fo:text-align", "start"}},
         {}},
        {Style::caution,
         "Caution",
         {{"fo:border", "0.9pt solid #a63d00"},
          {"fo:border-left", "3pt solid #a63d00"},
          {"fo:wrap-option", "wrap"},
          {"style:vertical-align", "middle"},
          {"fo:padding-top", "0.12cm"},
          {"fo:padding-bottom", "0.12cm"},
          {"fo:padding-left", "0.2cm"},
          {"fo:padding-right", "0.12cm"}},
         {{"fo:text-align", "start"}},
         {}},
        {Style::bars,
         "Bars",
         {{"style:vertical-align", "middle"}},
         {{"fo:text-align", "start"}},
         {{"fo:color", "#0b4f6c"},
          {"fo:font-size", "8pt"},
          {"fo:font-family", "Liberation Mono"},
          {"style:font-pitch", "fixed"}}},
        {Style::workings, "Workings", {}, {}, {{"fo:color", "#7d8b93"}, {"fo:font-size", "8pt"}}},
        {Style::unfit,
         "Correct",
         {{"fo:background-color", "#fbe0d0"}, {"fo:border", alarm}},
         {},
         {{"fo:font-weight", "bold"}, {"fo:color", "#6e2500"}}},
        {Style::due,
         "Due",
         {{"fo:background-color", "#f8e3b0"}, {"fo:border", "1.8pt solid #1d2b33"}},
         {},
         {{"fo:font-weight", "bold"}}},
        {Style::done, "Done", {}, {}, {{"fo:color", "#7d8b93"}, {"fo:font-style", "italic"}}},
    };
    return all;
}

const Properties& of(Style style) {
    for (const Properties& one : styles()) {
        if (one.style == style) return one;
    }
    throw std::logic_error("a style without a look");
}

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

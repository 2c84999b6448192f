#include "generate/guide.hpp"

#include <boost/algorithm/string/replace.hpp>
#include <sstream>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "catalogue/words.hpp"

namespace slipbark::generate {

namespace {

using namespace catalogue;

/// A piece of the page: a text with its markup inside, and the tags around it. {1} is the version.
struct Piece {
    std::string_view before;
    Text text;
    std::string_view after;
};

constexpr Text title = translatable("Slipbark function guide");

constexpr Piece pieces[]{
    {"<h1>", title, "</h1>\n"},
    {"<p>",
     translatable("Version {1}. Cell functions for reworking fruit trees: cutting a bearing tree back and grafting a "
                  "new variety onto it."),
     "</p>\n"},

    {"\n<h2>", translatable("First steps"), "</h2>\n<ol>\n"},
    {"<li>",
     translatable("In a spreadsheet choose <b>Rework &gt; New rework plan</b>. Fill in the cells with a light fill and "
                  "a border."),
     "</li>\n"},
    {"<li>",
     translatable("Or type a formula into any cell: <code>=REWORK.STICKS(3200; 2; 9; 15%)</code> shows 920. Type "
                  "<code>=REWORK.</code> and the names are offered; the Function Wizard (<kbd>Ctrl+F2</kbd>) lists "
                  "them under <i>Add-in</i>."),
     "</li>\n"},
    {"<li>",
     translatable("If a cell shows an error, select it and choose <b>Rework &gt; Explain this cell</b>, or give the "
                  "same arguments to <code>REWORK.WHY</code>, with the function's name in front."),
     "</li>\n</ol>\n"},

    {"\n<h2>", translatable("What cells show"), "</h2>\n<table>\n"},
    {"<tr><th>", translatable("Shows"), "</th>"},
    {"<th>", translatable("Means"), "</th>"},
    {"<th>", translatable("Do"), "</th></tr>\n"},
    {"<tr><td>", translatable("a number"), "</td>"},
    {"<td>", translatable("The answer. Dates and fractions appear as plain numbers."), "</td>"},
    {"<td>", translatable("Format the cell as a date or as per cent."), "</td></tr>\n"},
    {"<tr><td><code>Err:502</code></td><td>",
     translatable("An argument is not valid: a text for a number, 85 instead of 85&nbsp;%, a blank date."), "</td>"},
    {"<td>", translatable("Ask <code>REWORK.WHY</code> or <i>Explain this cell</i>."), "</td></tr>\n"},
    {"<tr><td><code>#N/A</code></td><td>",
     translatable("A valid question without an answer: a plan that never pays back, a day beyond the data."), "</td>"},
    {"<td>",
     translatable("<code>REWORK.WHY</code> says which. <code>IFNA(...; \"never\")</code> shows a word instead."),
     "</td></tr>\n"},
    {"<tr><td><code>Err:504</code></td><td>",
     translatable("An argument is missing, or a cell of a range has an error."), "</td>"},
    {"<td>", translatable("Complete the arguments; correct the cell in the range first."), "</td></tr>\n"},
    {"<tr><td><code>#VALUE!</code></td><td>", translatable("There is a text where Calc expects a number."), "</td>"},
    {"<td>", translatable("Enter a number."), "</td></tr>\n"},
    {"<tr><td><code>#NAME?</code></td><td>", translatable("The extension is not installed in this LibreOffice."),
     "</td>"},
    {"<td>", translatable("Install it, reopen the document and press <kbd>Ctrl+Shift+F9</kbd>. Nothing is lost."),
     "</td></tr>\n</table>\n"},

    {"\n<h2>", translatable("Good to know"), "</h2>\n<ul>\n"},
    {"<li>", translatable("Fractions (take, spare, loss, rate) are between 0 and 1: type 85% or 0.85. 85 is refused."),
     "</li>\n"},
    {"<li>",
     translatable("In a cell formatted as per cent Calc adds the sign while you type: type 15 for 15&nbsp;%, not 15% "
                  "(it would become 15%%, a text) and not 0.15 (it would become 0.15&nbsp;%)."),
     "</li>\n"},
    {"<li>",
     translatable("A blank cell counts as 0 for a single argument, so an optional argument that points to a blank cell "
                  "is 0 and not its default. To get the default, leave the argument out or write the cell as a range, "
                  "<code>B5:B5</code>, which stays blank."),
     "</li>\n"},
    {"<li>",
     translatable(
         "The same applies where a range is expected: <code>REWORK.REGRAFTS(A1; 3)</code> of a blank <code>A1</code>, "
         "a tree nobody has inspected, counts 0 alive and gives 3. <code>REWORK.REGRAFTS(A1:A1; 3)</code> gives 0, as "
         "for any blank cell in a range. Write one cell as <code>A1:A1</code> wherever it may be blank; LibreOffice "
         "keeps it so in <code>.ods</code> and <code>.xlsx</code>."),
     "</li>\n"},
    {"<li>",
     translatable("Functions that return tables are array formulas: select the cells, type the formula, press "
                  "<kbd>Ctrl+Shift+Enter</kbd>."),
     "</li>\n"},
    {"<li>",
     translatable("In Calc, texts from a REWORK array formula are not equal to typed texts: write "
                  "<code>A2&amp;\"\"=\"Graft\"</code>, not <code>A2=\"Graft\"</code>."),
     "</li>\n"},
    {"<li>",
     translatable("In lists, completely blank rows are skipped. In yearly or daily series a blank between two values "
                  "is refused, because skipping it would shift all later values."),
     "</li>\n"},
    {"<li>",
     translatable("Days off must be a text to keep their zeros: type <code>'0000011</code> with the apostrophe, or "
                  "format the cell as text first. The number 11 means something else to Calc (Sunday only)."),
     "</li>\n"},
    {"<li>",
     translatable(
         "Whole columns (<code>A:A</code>) give the right answer, but Calc passes a million cells for each, which "
         "takes half a second or more. Name the rows you use, or let Calc find the last one: <code>A1:INDEX(A:A; "
         "COUNTA(A:A))</code>, where <code>A</code> is a column without gaps, such as the tree's number."),
     "</li>\n</ul>\n"},

    {"\n<h2>", translatable("Sharing a workbook"), "</h2>\n<ul>\n"},
    {"<li>",
     translatable("<code>.ods</code> and <code>.xlsx</code> keep every formula under its long name, "
                  "<code>SLIPBARK.REWORK.STICKS(...)</code>, which shows a reader what is missing."),
     "</li>\n"},
    {"<li>",
     translatable("Where the extension is missing, cells show <code>#NAME?</code> as soon as they are calculated; in "
                  "<code>.xlsx</code> they keep their last values until then. Saved there and opened again with the "
                  "extension, all formulas and values are back after <kbd>Ctrl+Shift+F9</kbd>."),
     "</li>\n"},
    {"<li>",
     translatable(
         "A Turkish Calc without the extension writes our names with a dotless <code>&#305;</code> when it saves "
         "<code>.ods</code>. Replace it: <i>Edit &gt; Find &amp; Replace</i>, <code>&#305;</code> by <code>i</code>, "
         "other options: search in formulas. Or share <code>.xlsx</code>, where it does not happen."),
     "</li>\n"},
    {"<li>",
     translatable("To share the numbers with somebody who will not install the extension, use <i>Rework &gt; Save a "
                  "copy with values</i>, or send a PDF."),
     "</li>\n</ul>\n"},

    {"\n<div class=\"caution\">\n<p>",
     translatable(
         "<b>Caution.</b> The functions calculate; they do not know your trees or your local rules. Saws, falling "
         "limbs, ladders, knives and sprays hurt people: use the training and the protection that go with them, and "
         "follow labels and re-entry times. Never mix bleach with acids or ammonia. Move budwood only as quarantine "
         "allows, from certified sources, and graft protected varieties only with a licence. Where a default says "
         "\"common practice\" or \"assumption\", put your own records in its place."),
     "</p>\n</div>\n"},

    // The words are those of the worked examples' sheet Ways; the picture goes into the package next to the page.
    {"\n<h2>", translatable("Ways of grafting"), "</h2>\n"},
    {"<p><img src=\"ways-of-grafting.svg\" width=\"100%\" alt=\"", translatable("Ways of grafting"), "\"></p>\n"},
    {"<ol>\n<li>", translatable("Cleft"), "</li>\n"},
    {"<li>", translatable("Bark"), "</li>\n"},
    {"<li>", translatable("Whip and tongue"), "</li>\n"},
    {"<li>", translatable("Side (veneer)"), "</li>\n"},
    {"<li>", translatable("Chip bud"), "</li>\n"},
    {"<li>", translatable("T bud"), "</li>\n"},
    {"<li>", translatable("Patch bud"), "</li>\n</ol>\n"},
    {"<p>",
     translatable("Brown: the old tree. Green: the new variety. Pale: wood laid open. Dark green: a bud. Blue: the "
                  "wrap."),
     "</p>\n"},

    {"\n<h2>", translatable("Functions"), "</h2>\n"},
};

std::string xml(std::string_view text) {
    std::string escaped(text);
    boost::replace_all(escaped, "&", "&amp;");
    boost::replace_all(escaped, "<", "&lt;");
    boost::replace_all(escaped, ">", "&gt;");
    boost::replace_all(escaped, "\"", "&quot;");
    return escaped;
}

std::string code(std::string_view text) { return "<code>" + xml(text) + "</code>"; }

std::string index() {
    std::ostringstream out;
    out << "<p class=\"index\">";
    for (const Area& area : areas()) {
        for (const FunctionEntry& entry : area.entries) {
            out << "<a href=\"#" << entry.method << "\">" << entry.cell_name() << "</a>\n";
        }
    }
    out << "</p>\n";
    return out.str();
}

std::string arguments(const FunctionEntry& entry, const Language& language) {
    std::ostringstream out;
    out << "<table><tr>";
    for (const Text heading :
         {translatable("Argument"), translatable("Meaning"), translatable("Unit"), translatable("Range")}) {
        out << "<th>" << language.translated(heading) << "</th>";
    }
    out << "</tr>\n";
    for (const Argument& argument : entry.arguments) {
        out << "<tr><td>" << code(argument.name) << "</td><td>" << xml(language.translated(argument.meaning))
            << "</td><td>" << xml(unit_in_words(argument, language)) << "</td><td>"
            << xml(range_in_words(argument, language)) << "</td></tr>\n";
    }
    out << "</table>\n";
    return out.str();
}

std::string functions(const Language& language) {
    std::ostringstream out;
    for (const Area& area : areas()) {
        out << "<h2>" << xml(language.translated(area.title)) << "</h2>\n";
        for (const FunctionEntry& entry : area.entries) {
            const Texts& texts = entry.texts;
            out << "<h3 id=\"" << entry.method << "\">" << entry.cell_name() << "</h3>\n<p>" << code(call_form(entry))
                << "</p>\n<p>"
                << xml(language.translated(translatable("{1} Gives: {2}."),
                                           {language.translated(texts.does), language.translated(texts.gives)}))
                << "</p>\n";
            if (!entry.arguments.empty()) out << arguments(entry, language);
            if (!texts.no_answer.empty())
                out << "<p>" << code("#N/A") << ": " << xml(language.translated(texts.no_answer)) << "</p>\n";
            out << "<p>"
                << language.translated(translatable("Example: {1} shows {2}"),
                                       {code("=" + std::string(texts.example)), code(example_shows(entry, language))})
                << "</p>\n<p class=\"source\">"
                << xml(language.translated(translatable("Source: {1}."), {language.translated(texts.source)}))
                << "</p>\n";
        }
    }
    return out.str();
}

}  // namespace

std::string guide(std::string frame, const Language& language) {
    std::string body;
    for (const auto& [before, text, after] : pieces) {
        body.append(before).append(language.translated(text, {version()})).append(after);
    }
    body += index() + functions(language);
    boost::replace_all(frame, "@LANGUAGE@", language.tag());
    boost::replace_all(frame, "@TITLE@", language.translated(title));
    boost::replace_all(frame, "@BODY@", body);
    return frame;
}

}  // namespace slipbark::generate

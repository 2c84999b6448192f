#include "catalogue/support.hpp"

#include "catalogue/entries/common.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view tables[]{"schedule",        "bagged bark graft",   "wrapped bark graft",
                                    "bud on regrowth", "dormant cleft graft", "yield",
                                    "storage",         "cool storage",        "canopy"};

constexpr std::string_view entry_words[]{"whole", "number", "share", "date", "one of", "text"};
constexpr std::string_view or_blank[]{"or blank"};
constexpr ColumnDomain entry_columns[]{{translatable("kind"), ColumnDomain::Of::keywords, {}, entry_words},
                                       {translatable("low end")},
                                       {translatable("high end")},
                                       {translatable("unit")},
                                       {translatable("or blank"), ColumnDomain::Of::keywords, {}, or_blank}};

}  // namespace

Area support_area() {
    return {
        "support",
        translatable("Support"),
        {
            entry("table", SLIPBARK_FUNCTION(defaults::table),
                  {.does = translatable("A built-in table without headings, to paste, change and use as an argument; "
                                        "one column gives the source of each row."),
                   .gives = translatable("schedule: stage, earliest, target, latest, unit, sign, source, counted from; "
                                         "yield: years, share, source; "
                                         "storage: days, share, source; canopy: years, share, source (array formula)"),
                   .example = "REWORK.TABLE(\"schedule\")",
                   .shows = "Cut back and paint",
                   .source = translatable("Each row names its own"),
                   .words = {schedule_texts, AnswerWords::In::list}},
                  {{"name", translatable("Which table"), Unit::text, one_of(tables)}}),
            entry("why", SLIPBARK_FUNCTION(catalogue::why),
                  {.does = translatable(
                       "The reason, in words, why a call gives an error or #N/A; empty text if the call is fine."),
                   .gives = translatable("text, one sentence"),
                   .example = "REWORK.WHY(\"STICKS\"; 3200; 2; 9; 15)",
                   .shows = "spare was 15: give a fraction from 0 to 2 (15 % is 0.15).",
                   .source = translatable("Reads the arguments as the call itself does"),
                   .shows_in =
                       [](const Language& language) {
                           return why_in(language, "STICKS", {{3200.0, 2.0, 9.0, 15.0}, {}});
                       }},
                  {{.name = "function",
                    .meaning = translatable("Name of the function"),
                    .range = texts(translatable("with or without \"REWORK.\"")),
                    .names_function = true},
                   {"arguments", translatable("The arguments as given to that function"), Unit::as_there,
                    as_given(translatable("as there, in the same order"))}}),
            entry("version", SLIPBARK_FUNCTION(catalogue::version),
                  {.does = translatable("The version of the extension that calculates this sheet."),
                   .gives = translatable("text"),
                   .example = "REWORK.VERSION()",
                   .shows = SLIPBARK_VERSION,
                   .source = translatable("This build")}),
            entry(
                "unfit", SLIPBARK_FUNCTION(catalogue::unfit),
                {.does = translatable(
                     "Whether what was entered fits: empty text where it does, else one sentence that names the first "
                     "entry that does not and says what to enter."),
                 .gives = translatable("text, one sentence"),
                 .example = R"(REWORK.UNFIT(Y1; Z1; {"whole"; 1; 10000; "trees"}))",
                 .shows = "This entry is blank: enter a whole number from 1 to 10,000 (trees).",
                 .source = translatable("Reads the cells themselves, so that a blank one differs from 0"),
                 .shows_in =
                     [](const Language& language) {
                         const SheetCells blank{[] { return std::vector<SheetCell>(1); }, {}};
                         return unfit_in(language, blank, blank, {4, {"whole", 1.0, 10000.0, "trees"}});
                     }},
                {{.name = "label",
                  .meaning = translatable("What the entry is called"),
                  .range =
                      as_given(translatable("a cell, or a row or column of them; no text or array in the formula")),
                  .translated = true},
                 {.name = "value",
                  .meaning = translatable("The entry"),
                  .unit = Unit::text_or_number,
                  .range = as_given(translatable("a cell, or as many cells as label; a line of several fits where all "
                                                 "are blank"))},
                 {.name = "kind",
                  .meaning = translatable("What fits"),
                  .unit = Unit::table,
                  .range =
                      table_of(entry_columns)
                          .noted(translatable("one row for each entry, or one for all; no end where it is blank; an "
                                              "end may be the label of another entry; of one of the words with | "
                                              "between them, of text what it is"))}}),
            entry("sentence", SLIPBARK_FUNCTION(catalogue::sentence),
                  {.does = translatable(
                       "A sentence with numbers, dates and lists put in, in the language that a tag such as es: in "
                       "front of it names; English without one."),
                   .gives = translatable("text"),
                   .example = R"(REWORK.SENTENCE("Order {1:count} {1|stick|sticks} by {2:date}."; 1840; 46650))",
                   .shows = "Order 1,840 sticks by 20 Sep 2027.",
                   .source = translatable("Plural rules as in GNU gettext")},
                  {{.name = "pattern",
                    .meaning = translatable("The sentence with its places"),
                    .range = texts(translatable("a place is {1}, {1:count}, {2:date}, {3:money}, {4:percent}, {5:list} "
                                                "or {1|day|days}")),
                    .translated = true,
                    .tagged = true},
                   {.name = "places",
                    .meaning = translatable("What goes into the places, in order"),
                    .unit = Unit::text_or_number,
                    .range = as_given(translatable("numbers, dates, texts; of a list a range of cells"))}}),
        }};
}

}  // namespace slipbark::catalogue

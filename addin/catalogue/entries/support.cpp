#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

namespace {

constexpr std::string_view tables[]{"schedule",        "bagged bark graft",   "wrapped bark graft",
                                    "bud on regrowth", "dormant cleft graft", "yield",
                                    "storage",         "cool storage",        "canopy"};

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
                   .source = translatable("Each row names its own")},
                  {{"name", translatable("Which table"), Unit::text, one_of(tables)}}),
            entry("why", SLIPBARK_FUNCTION(catalogue::why),
                  {.does = translatable(
                       "The reason, in words, why a call gives an error or #N/A; empty text if the call is fine."),
                   .gives = translatable("text, one sentence"),
                   .example = "REWORK.WHY(\"STICKS\"; 3200; 2; 9; 15)",
                   .shows = "spare was 15: give a fraction from 0 to 2 (15 % is 0.15).",
                   .source = translatable("Reads the arguments as the call itself does")},
                  {{"function", translatable("Name of the function"), Unit::text,
                    texts(translatable("with or without \"REWORK.\""))},
                   {"arguments", translatable("The arguments as given to that function"), Unit::as_there,
                    as_given(translatable("as there, in the same order"))}}),
            entry("version", SLIPBARK_FUNCTION(catalogue::version),
                  {.does = translatable("The version of the extension that calculates this sheet."),
                   .gives = translatable("text"),
                   .example = "REWORK.VERSION()",
                   .shows = SLIPBARK_VERSION,
                   .source = translatable("This build")}),
        }};
}

}  // namespace slipbark::catalogue

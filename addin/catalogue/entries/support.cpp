#include "catalogue/support.hpp"

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {

Area support_area() {
    return {
        "support",
        "Support",
        {
            entry(
                "table", SLIPBARK_FUNCTION(defaults::table),
                {.does =
                     "A built-in default as a table without headings, to paste, change and hand back as an argument; "
                     "its last column says where each row comes from.",
                 .gives = "schedule: stage, earliest, target, latest, unit, sign, source; yield: years, share, source; "
                          "storage: days, share, source (array formula)",
                 .example = "REWORK.TABLE(\"schedule\")",
                 .shows = "Cut back and paint",
                 .source = "Each row names its own"},
                {{"name", "Which table", "text", R"("schedule", "yield", "storage" or "cool storage")"}}),
            entry(
                "why", SLIPBARK_FUNCTION(catalogue::why),
                {.does = "The reason in words why a call gives an error or #N/A; empty text where the call is fine.",
                 .gives = "text, one sentence",
                 .example = "REWORK.WHY(\"STICKS\"; 3200; 2; 9; 15)",
                 .shows = "spare was 15: give a fraction from 0 to 2 (15 % is 0.15).",
                 .source = "Reads the arguments as the call itself does"},
                {{"function", "Name of the function", "text", "with or without \"REWORK.\""},
                 {"arguments", "The arguments as given to that function", "as there", "as there, in the same order"}}),
            entry("version", SLIPBARK_FUNCTION(catalogue::version),
                  {.does = "The version of the extension that calculates this sheet.",
                   .gives = "text",
                   .example = "REWORK.VERSION()",
                   .shows = SLIPBARK_VERSION,
                   .source = "This build"}),
        }};
}

}  // namespace slipbark::catalogue

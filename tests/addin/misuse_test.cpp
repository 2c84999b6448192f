// Puts what people do wrong into every argument of every function.
//
// Each misuse must be refused with a sentence that names an argument of that function and says what would be right,
// unless the catalogue's data say that the same value is right after all, or that it depends on the call.

#include <gtest/gtest.h>

#include <boost/algorithm/string/case_conv.hpp>
#include <cmath>
#include <limits>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "formula.hpp"
#include "misuse.hpp"
#include "ranges.hpp"
#include "right_call.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Arguments;
using catalogue::FunctionEntry;
using catalogue::Value;

TEST(Misuse, IsRefusedByNameUnlessTheCatalogueSaysItIsRight) {
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            const Arguments right = parse(right_call(entry)).arguments;
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                for (const Misuse& misuse : misuses()) {
                    Arguments wrong = right;
                    wrong.values[at] = misuse.value;
                    const std::string place = place_name(entry, at) + ", " + misuse.name;
                    const std::string why = catalogue::why(std::string(entry.method), wrong);
                    const bool refused = !why.empty() && why != entry.texts.no_answer.english();
                    if (!entry.arguments[at].range.depends_on_call) {
                        EXPECT_NE(refused, is_right(entry, at, misuse.value, right)) << place << ": " << why;
                    }
                    if (!refused) continue;
                    bool named = false;
                    for (const auto& argument : entry.arguments) named = named || why.starts_with(argument.name);
                    EXPECT_TRUE(named) << place << ": " << why;
                    EXPECT_NE(why.find(": give "), std::string::npos) << place << ": " << why;
                    EXPECT_TRUE(why.ends_with(".")) << place << ": " << why;
                }
            }
        }
    }
}

// A reference to one blank cell is the number 0 to the function. Where that is an answer the help must say so; the
// other lists are cut to one cell too, lest the length alone refuses it.
TEST(Misuse, OneBlankCellForAListIsToldToBe0) {
    int told = 0;
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            Arguments one = parse(right_call(entry)).arguments;
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                auto* table = std::get_if<Table>(&one.values[at]);
                if (table != nullptr && entry.arguments[at].is_list) *table = Table(1, {table->cells.front()});
            }
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                const auto& argument = entry.arguments[at];
                // A date 0 is a blank cell to the function, too.
                if (!argument.is_list || argument.range.of == catalogue::Domain::Of::dates) continue;
                Arguments given = one;
                given.values[at] = 0.0;
                const bool tells =
                    range_in_words(argument).find("A1 alone counts as 0 if it is blank") != std::string::npos;
                const std::string why = catalogue::why(std::string(entry.method), given);
                // A list that is all 0 the functions of odds refuse, whatever it is long.
                const bool refused = why.starts_with(argument.name) && why.find("no cost above 0") == std::string::npos;
                // Where a single cell is too few beside the other arguments, whatever stands in it, telling is idle.
                given.values[at] = 1.0;
                if (tells && catalogue::why(std::string(entry.method), given).starts_with(argument.name)) continue;
                EXPECT_EQ(!refused, tells) << place_name(entry, at) << ": " << why;
                told += tells ? 1 : 0;
            }
        }
    }
    EXPECT_GT(told, 10);
}

TEST(Misuse, TooFewAndTooManyArgumentsAreRefused) {
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            Arguments some = parse(entry.texts.example).arguments;
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                if (entry.parameters[at].optional) continue;
                const Arguments few{{some.values.begin(), some.values.begin() + static_cast<std::ptrdiff_t>(at)},
                                    some.null_date};
                EXPECT_TRUE(catalogue::why(std::string(entry.method), few)
                                .starts_with(std::string(entry.arguments[at].name) + " is missing: give "))
                    << entry.method << ": " << catalogue::why(std::string(entry.method), few);
            }
            some.values.resize(entry.parameters.size() + 1);
            EXPECT_TRUE(catalogue::why(std::string(entry.method), some).starts_with("arguments were ")) << entry.method;
        }
    }
}

TEST(Misuse, AnUnknownFunctionIsTold) { EXPECT_THROW(catalogue::why("SUM", {{}, usual_null_date()}), bad_argument); }

}  // namespace
}  // namespace slipbark::tests

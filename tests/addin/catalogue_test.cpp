// Rules that every entry of the catalogue keeps.

#include <gtest/gtest.h>

#include <boost/algorithm/string/case_conv.hpp>
#include <cctype>
#include <set>

#include "catalogue/catalogue.hpp"
#include "catalogue/words.hpp"
#include "formula.hpp"
#include "texts.hpp"

namespace slipbark::catalogue {

/// For the messages of failing tests.
static std::ostream& operator<<(std::ostream& out, const FunctionEntry& entry) { return out << entry.cell_name(); }

}  // namespace slipbark::catalogue

namespace slipbark::tests {
namespace {

using catalogue::Area;
using catalogue::FunctionEntry;
using catalogue::Gives;

std::vector<FunctionEntry> entries() {
    std::vector<FunctionEntry> all;
    for (const Area& area : catalogue::areas()) all.insert(all.end(), area.entries.begin(), area.entries.end());
    return all;
}

std::string method_name(const testing::TestParamInfo<FunctionEntry>& entry) { return std::string(entry.param.method); }

class EachEntry : public testing::TestWithParam<FunctionEntry> {};

INSTANTIATE_TEST_SUITE_P(Catalogue, EachEntry, testing::ValuesIn(entries()), method_name);

TEST_P(EachEntry, LacksNoText) {
    const FunctionEntry& entry = GetParam();
    EXPECT_TRUE(entry.texts.does.english().ends_with(".")) << entry.texts.does.english();
    EXPECT_FALSE(entry.texts.gives.empty());
    EXPECT_FALSE(entry.texts.example.empty());
    EXPECT_FALSE(entry.texts.shows.empty());
    EXPECT_FALSE(entry.texts.source.empty());
    for (const auto& argument : entry.arguments) {
        EXPECT_FALSE(argument.meaning.empty()) << argument.name;
        EXPECT_FALSE(unit_in_words(argument).empty()) << argument.name;
        EXPECT_FALSE(range_in_words(argument).empty()) << argument.name;
    }
}

TEST_P(EachEntry, HasAReasonWhereThereMayBeNoAnswer) {
    const FunctionEntry& entry = GetParam();
    const bool maybe =
        entry.gives == Gives::maybe_number || entry.gives == Gives::maybe_date || entry.gives == Gives::maybe_table;
    EXPECT_EQ(!entry.texts.no_answer.empty(), maybe);
}

TEST_P(EachEntry, SaysTheDefaultOfEachOptionalArgumentAndOfNoOther) {
    const FunctionEntry& entry = GetParam();
    for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
        EXPECT_EQ(entry.parameters[at].optional, !std::holds_alternative<std::monostate>(entry.arguments[at].absent))
            << entry.arguments[at].name;
    }
}

TEST_P(EachEntry, ShowsWhatItsExampleSays) {
    const FunctionEntry& entry = GetParam();
    EXPECT_EQ(catalogue::find(parse(entry.texts.example).function)->method, entry.method);
    EXPECT_TRUE(shows(evaluate(entry.texts.example), entry.texts.shows)) << entry.texts.example;
}

TEST_P(EachEntry, HasOptionalArgumentsLast) {
    const FunctionEntry& entry = GetParam();
    bool optional = false;
    for (const auto& parameter : entry.parameters) {
        EXPECT_TRUE(parameter.optional || !optional);
        optional = parameter.optional;
    }
}

TEST_P(EachEntry, HasNamesThatTheHostTakes) {
    const FunctionEntry& entry = GetParam();
    // Words of the interface language that cannot name a method or an argument.
    static const std::set<std::string, std::less<>> keywords{
        "any",       "attribute",   "bound",   "boolean",  "byte",     "case",      "char",      "const",
        "constants", "constructor", "context", "default",  "double",   "enum",      "exception", "fixed",
        "float",     "get",         "hyper",   "in",       "inout",    "interface", "long",      "module",
        "needs",     "observes",    "oneway",  "out",      "property", "published", "raises",    "readonly",
        "sequence",  "service",     "set",     "short",    "string",   "struct",    "switch",    "transient",
        "type",      "typedef",     "union",   "unsigned", "void"};
    EXPECT_TRUE(fits(std::string(entry.method), "[a-z][a-zA-Z]*"));
    EXPECT_FALSE(keywords.contains(entry.method));
    std::set<std::string_view> seen;
    for (const auto& one : entry.arguments) {
        EXPECT_TRUE(fits(std::string(one.name), "[a-z]+[0-9]?(_[a-z]+[0-9]?)*")) << one.name;
        EXPECT_FALSE(keywords.contains(one.name)) << one.name;
        EXPECT_TRUE(seen.insert(one.name).second) << one.name << " twice";
    }
}

TEST(Catalogue, NamesEachFunctionOnce) {
    std::set<std::string> cells;
    for (const FunctionEntry& entry : entries())
        EXPECT_TRUE(cells.insert(entry.cell_name()).second) << entry.cell_name();
}

TEST(Catalogue, IsSearchedAsAUserTypes) {
    EXPECT_EQ(catalogue::find("STICKS")->method, "sticks");
    EXPECT_EQ(catalogue::find(" rework.sticks ")->method, "sticks");
    EXPECT_EQ(catalogue::find("SUM"), nullptr);
}

TEST(Catalogue, KeepsTheContractOfSavedWorkbooks) {
    EXPECT_EQ(content(SLIPBARK_GENERATED "/contract.txt"), content(SLIPBARK_SOURCE "/addin/contract.txt"))
        << "a method was renamed or an argument moved; if it was only added, build the target accept";
}

TEST(Catalogue, HasItsReferencePageUpToDate) {
    EXPECT_EQ(content(SLIPBARK_GENERATED "/reference.md"), content(SLIPBARK_SOURCE "/docs/reference.md"))
        << "build the target accept";
}

TEST(Catalogue, HasItsSourcesPageUpToDate) {
    EXPECT_EQ(content(SLIPBARK_SOURCES_PAGE), content(SLIPBARK_SOURCE "/docs/sources.md")) << "build the target accept";
}

}  // namespace
}  // namespace slipbark::tests

// In a language whose letters all have accents nothing plain may reach the user but names, keywords and numbers.

#include <gtest/gtest.h>

#include <boost/algorithm/string/replace.hpp>
#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <cmath>

#include "catalogue/catalogue.hpp"
#include "catalogue/explain.hpp"
#include "catalogue/language.hpp"
#include "catalogue/support.hpp"
#include "formula.hpp"
#include "misuse.hpp"
#include "plain.hpp"
#include "right_call.hpp"
#include "texts.hpp"

namespace slipbark::tests {
namespace {

using boost::property_tree::ptree;
using catalogue::Arguments;
using catalogue::FunctionEntry;

/// The language whose letters all have accents.
const catalogue::Language& accented() {
    static const std::string messages = content(SLIPBARK_PSEUDO_MESSAGES);
    static const catalogue::Language language("en-US", messages);
    return language;
}

template <class Use>
void for_each_entry(Use use) {
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) use(entry);
    }
}

TEST(Pseudo, IsReadFromItsFile) {
    EXPECT_EQ(accented().translated(translatable("Function guide")), "Ḟúńćṫíóń ǵúíḋé");
    EXPECT_EQ(catalogue::language_for("xx-YY").tag(), "en");
    EXPECT_EQ(catalogue::language_for("en-GB").tag(), "en");
}

TEST(Pseudo, FindsWhatIsPlain) {
    EXPECT_FALSE(is_accented("śṕáŕé was 15", catalogue::find("STICKS")));
    EXPECT_TRUE(is_accented("spare ẃáś 15: REWORK.STICKS \"a\" 1e+300", catalogue::find("STICKS")));
}

/// A block with each of its cells spoilt in turn, and cut to one row and to one column.
std::vector<Table> damaged(const catalogue::Value& value) {
    const auto* whole = std::get_if<Table>(&value);
    if (whole == nullptr) return {};
    std::vector<Table> all{Table(whole->columns, {whole->cells.begin(),
                                                  whole->cells.begin() + static_cast<std::ptrdiff_t>(whole->columns)}),
                           Table(1, {whole->cells.front()})};
    for (std::size_t at = 0; at < whole->cells.size(); ++at) {
        for (const Cell& cell : {Cell(), Cell(std::string("x")), Cell(std::nan("")), Cell(1e300), Cell(-3.0), Cell(0.0),
                                 Cell(2.5), Cell(85.0)}) {
            all.push_back(*whole);
            all.back().cells[at] = cell;
        }
    }
    return all;
}

TEST(Pseudo, SaysEveryRefusalAndEveryReason) {
    int refusals = 0;
    for_each_entry([&](const FunctionEntry& entry) {
        if (takes_anything(entry)) return;
        SCOPED_TRACE(entry.method);
        EXPECT_TRUE(is_accented(accented().translated(entry.texts.no_answer), &entry));
        const Arguments right = parse(right_call(entry)).arguments;
        for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
            for (const Misuse& misuse : misuses()) {
                SCOPED_TRACE(std::string(entry.arguments[at].name) + ", " + misuse.name);
                Arguments wrong = right;
                wrong.values[at] = misuse.value;
                const std::string why = why_in(accented(), std::string(entry.method), wrong);
                if (!why.empty()) ++refusals;
                EXPECT_TRUE(is_accented(why, &entry));
            }
            for (const Table& table : damaged(right.values[at])) {
                Arguments wrong = right;
                wrong.values[at] = table;
                EXPECT_TRUE(is_accented(why_in(accented(), std::string(entry.method), wrong), &entry));
            }
            Arguments few = right;
            few.values.resize(at);
            EXPECT_TRUE(is_accented(why_in(accented(), std::string(entry.method), few), &entry));
        }
        Arguments many = right;
        many.values.resize(entry.arguments.size() + 1);
        EXPECT_TRUE(is_accented(why_in(accented(), std::string(entry.method), many), &entry));
    });
    EXPECT_GT(refusals, 1000);
}

TEST(Pseudo, ExplainsEveryCall) {
    for_each_entry([](const FunctionEntry& entry) {
        SCOPED_TRACE(entry.method);
        const auto found = catalogue::find_call("=" + right_call(entry));
        ASSERT_TRUE(found.has_value());
        const auto explained = [&](const std::vector<catalogue::GivenArgument>& given) {
            std::string text = explain(entry, given, "", usual_null_date(), accented());
            for (const auto& one : given) {
                // What the user wrote; numbers are found in other words.
                if (one.text.size() > 2) boost::replace_all(text, one.text, "");
            }
            return text;
        };
        std::vector<catalogue::GivenArgument> given;
        for (const std::string& text : found->arguments) given.push_back({text, catalogue::literal(text), ""});
        EXPECT_TRUE(is_accented(explained(given), &entry));
        for (std::size_t at = 0; at < given.size(); ++at) {
            auto wrong = given;
            wrong[at] = {"$2", std::nullopt, "$2"};
            EXPECT_TRUE(is_accented(explained(wrong), &entry));
            wrong[at] = {"", std::nullopt, ""};
            EXPECT_TRUE(is_accented(explained(wrong), &entry));
            for (const Misuse& misuse : misuses()) {
                wrong[at] = {"$2", misuse.value, ""};
                EXPECT_TRUE(is_accented(explained(wrong), &entry));
            }
        }
    });
}

/// The texts of one property in a file of the host's registry, in the language of nobody.
void texts_of(const ptree& node, const std::string& property, std::vector<std::string>& texts) {
    for (const auto& [name, child] : node) {
        if (name == "prop" && child.get("<xmlattr>.oor:name", "") == property) {
            for (const auto& [value, text] : child) {
                if (text.get("<xmlattr>.xml:lang", "") == accented().tag()) texts.push_back(text.data());
            }
        }
        texts_of(child, property, texts);
    }
}

ptree registry(const char* file) {
    ptree tree;
    boost::property_tree::read_xml(file, tree);
    return tree;
}

const ptree& named(const ptree& parent, std::string_view name) {
    for (const auto& [tag, child] : parent) {
        if (child.get("<xmlattr>.oor:name", "") == name) return child;
    }
    throw std::runtime_error("no node " + std::string(name));
}

TEST(Pseudo, FillsTheFunctionWizard) {
    const ptree file = registry(SLIPBARK_PSEUDO "/CalcAddIns.xcu");
    const ptree& functions =
        named(named(named(file.get_child("oor:component-data"), "AddInInfo"), "slipbark.Rework"), "AddInFunctions");
    for_each_entry([&](const FunctionEntry& entry) {
        SCOPED_TRACE(entry.method);
        std::vector<std::string> texts;
        texts_of(named(functions, entry.method), "Description", texts);
        EXPECT_EQ(texts.size(), entry.arguments.size() + 1);
        for (const std::string& text : texts) {
            // The example of WHY shows a sentence about another function.
            const FunctionEntry* names = entry.texts.shows_in != nullptr ? nullptr : &entry;
            // A letter by itself is part of other words: only what ends the sentence.
            const std::string shown = std::string(entry.texts.shows) + (entry.texts.shows.size() > 1 ? "" : ".");
            EXPECT_TRUE(is_accented(text, names, {entry.texts.example, shown}));
        }
    });
}

#ifdef SLIPBARK_PSEUDO_MENU
TEST(Pseudo, FillsTheMenu) {
    std::vector<std::string> titles;
    texts_of(registry(SLIPBARK_PSEUDO_MENU), "Title", titles);
    EXPECT_GE(titles.size(), 9U);
    for (const std::string& title : titles) EXPECT_TRUE(is_accented(title, nullptr));
}
#endif

TEST(Pseudo, WritesTheGuide) {
    std::string page = content(SLIPBARK_PSEUDO "/guide-en-US.html");
    ASSERT_NE(page.find("</html>"), std::string::npos);
    page = replaced(page, "<(style|code|kbd)>[^]*?</\\1>|<[^>]*>", "");
    boost::replace_all(page, "&quot;", "\"");
    page = replaced(page, "&[a-z#0-9]*;", "");
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) EXPECT_TRUE(is_accented(line, nullptr));
}

}  // namespace
}  // namespace slipbark::tests

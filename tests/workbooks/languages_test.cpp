// Nothing English is left on a screen in another language: every text has its translation, and no text of a translated
// workbook is one that has another translation.

#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <filesystem>
#include <functional>
#include <set>

#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "texts.hpp"

namespace slipbark::compose {
namespace {

using boost::property_tree::ptree;
using tests::content;
using tests::matches;

/// One of the languages shipped, with the texts of its workbooks.
class Translated : public testing::TestWithParam<std::string> {
  protected:
    const std::filesystem::path folder = std::filesystem::path(SLIPBARK_TRANSLATIONS) / ("workbooks-" + GetParam());
    const std::string messages = content(folder / (GetParam() + ".mo"));
    const std::string texts = content(folder.parent_path() / ("translated-" + GetParam() + ".po"));
    const catalogue::Language language{GetParam(), messages};
};

std::vector<std::string> tags() {
    std::vector<std::string> all;
    for (const auto& one : catalogue::languages()) {
        if (!one.is_english()) all.emplace_back(one.tag());
    }
    return all;
}

INSTANTIATE_TEST_SUITE_P(Workbooks, Translated, testing::ValuesIn(tags()),
                         [](const auto& tag) { return tests::as_id(tag.param); });

void each(const ptree& node, const std::string& name, const std::function<void(const std::string&)>& use) {
    for (const auto& [tag, child] : node) {
        if (tag == name) use(child.data());
        each(child, name, use);
    }
}

TEST_P(Translated, IsComplete) {
    const auto missing = matches(texts, "\nmsgid \"(.+)\"\nmsgstr \"\"\n(?!\")");
    for (const auto& entry : missing) ADD_FAILURE() << "not translated: " << entry[1];
    EXPECT_EQ(texts.find("#, fuzzy"), std::string::npos);
    EXPECT_TRUE(missing.empty()) << "cmake --build build --target slipbark_merge, then addin/translations/"
                                 << GetParam() << ".po";
    EXPECT_GT(texts.size(), 100'000U);
}

TEST_P(Translated, LeavesNothingEnglishInTheWorkbooks) {
    for (const auto& listed : workbooks::all) {
        SCOPED_TRACE(listed.file);
        ptree book;
        read_xml((folder / (std::string(listed.file) + ".fods")).string(), book);
        std::set<std::string> english;
        std::size_t looked_at = 0;
        const auto look = [&](const std::string& text) {
            // Keywords of a table that a function reads, kinds of entry (their cells show a number format's words,
            // translate.cpp), and what the words of the day-book mean.
            static const std::set<std::string> keywords{
                "outlay",   "costs",     "income",  "season",    "delay",
                "whole",    "number",    "share",   "text",      "date",
                "or blank", "grafted",   "counted", "regrafted", "counted regrafts",
                "lost",     "received",  "no work", "paid",      "closed",
                "price",    "old price", "yield",   "take",      "frost"};
            if (text.empty() || keywords.contains(text)) return;
            ++looked_at;
            // An English word that is the language's own for another: Notes are Note in Italian.
            if (texts.find("\nmsgstr \"" + text + "\"\n") != std::string::npos) return;
            const std::string_view translation = language.find(text);
            if (!translation.empty() && translation != text) english.insert(text);
        };
        for (const char* name : {"text:p", "dc:title", "dc:description", "svg:title", "svg:desc"})
            each(book, name, look);
        EXPECT_GT(looked_at, 50U);
        // Stages as REWORK.TABLE gives them, and keywords as a call takes them: the same in every language.
        if (listed.file == "worked-examples") continue;
        for (const std::string& text : english) ADD_FAILURE() << text;
    }
}

TEST_P(Translated, NamesSheetsAsTheyAreCalled) {
    // Sheets of the rework plan, each after the word sheet.
    for (const char* title : {"Plan", "Orders", "Crew", "Rows", "Week", "Regraft", "Money", "Odds", "Actual",
                              "Defaults", "Notes", "Summary", "Counts", "Yields", "Curves", "Grid", "Plans"}) {
        const std::string here(language.find(title));
        ASSERT_FALSE(here.empty()) << title;
        const std::string entry = std::string("\nmsgid \"(.*[Ss]heet ") + title + "[^a-z].*)\"\nmsgstr \"(.*)\"\n";
        for (const auto& at : matches(texts, entry)) {
            EXPECT_NE(at[2].find(here), std::string::npos) << at[1] << "\n" << at[2];
        }
    }
}

}  // namespace
}  // namespace slipbark::compose

// The registry against what stands elsewhere of the workbooks: their composers' titles and the README.

#include <gtest/gtest.h>

#include <filesystem>
#include <set>
#include <string>

#include "texts.hpp"
#include "composer/registry.hpp"

namespace {

using slipbark::tests::content;
using slipbark::workbooks::all;
using slipbark::workbooks::Listed;

/// The title that the host lists the template by.
std::string title(const Listed& workbook) {
    const std::filesystem::path examples = SLIPBARK_EXAMPLES;
    const std::string text = content(examples / std::string(workbook.file).append(".fods"));
    constexpr std::string_view tag = "<dc:title>";
    const auto from = text.find(tag) + tag.size();
    return text.substr(from, text.find('<', from) - from);
}

TEST(Registry, NamesEachWorkbookOnceWithATitleAndACategory) {
    std::set<std::string_view> files;
    std::set<std::string_view> titles;
    for (const Listed& workbook : all) {
        EXPECT_TRUE(files.insert(workbook.file).second) << workbook.file;
        EXPECT_TRUE(titles.insert(workbook.menu_title.english()).second) << workbook.menu_title.english();
        EXPECT_FALSE(workbook.category.empty()) << workbook.file;
        EXPECT_EQ(slipbark::workbooks::find(workbook.file), &workbook);
    }
    EXPECT_EQ(slipbark::workbooks::find(""), nullptr);
    EXPECT_EQ(slipbark::workbooks::find("rework-plan.ots"), nullptr);
}

TEST(Registry, IsWhatTheExamplesHold) {
    std::set<std::string> there;
    for (const auto& file : std::filesystem::directory_iterator(SLIPBARK_EXAMPLES)) {
        if (file.path().extension() == ".fods") there.insert(file.path().stem());
    }
    std::set<std::string> listed;
    for (const Listed& workbook : all) listed.emplace(workbook.file);
    EXPECT_EQ(there, listed);
}

TEST(Registry, IsTheTableOfTheReadme) {
    const std::string readme = content(SLIPBARK_README);
    const auto begin = readme.find("| workbook | for |");
    ASSERT_NE(begin, std::string::npos);
    const std::string table = readme.substr(begin, readme.find("\n\n", begin) - begin);
    for (const Listed& workbook : all) {
        EXPECT_NE(table.find("\n| *" + title(workbook) + "*"), std::string::npos)
            << "README.md: the table of workbooks has no line for " << title(workbook);
        EXPECT_NE(readme.find("*" + std::string(workbook.category.english()) + "*"), std::string::npos)
            << workbook.category.english();
    }
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), static_cast<std::ptrdiff_t>(all.size()) + 1)
        << "a line for each workbook, and none besides";
}

}  // namespace

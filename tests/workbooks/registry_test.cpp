// The registry against what is said of the workbooks elsewhere: their texts and the README.

#include <gtest/gtest.h>

#include <filesystem>
#include <set>
#include <string>

#include "composer/read.hpp"
#include "composer/registry.hpp"
#include "texts.hpp"

namespace {

using slipbark::tests::content;
using slipbark::workbooks::all;
using slipbark::workbooks::Listed;

slipbark::compose::BookLines lines(const Listed& workbook) {
    return slipbark::compose::read_book_lines(std::filesystem::path(SLIPBARK_EXAMPLES) / workbook.file);
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
    for (const auto& folder : std::filesystem::directory_iterator(SLIPBARK_EXAMPLES)) {
        if (std::filesystem::exists(folder.path() / "book.tsv")) there.insert(folder.path().filename());
    }
    std::set<std::string> listed;
    for (const Listed& workbook : all) {
        listed.emplace(workbook.file);
        EXPECT_EQ(workbook.menu_title.english(), lines(workbook).menu);
        EXPECT_EQ(workbook.category.english(), lines(workbook).category);
    }
    EXPECT_EQ(there, listed);
}

TEST(Registry, IsTheTableOfTheReadme) {
    const std::string readme = content(SLIPBARK_README);
    const auto begin = readme.find("| workbook | for |");
    ASSERT_NE(begin, std::string::npos);
    const std::string table = readme.substr(begin, readme.find("\n\n", begin) - begin);
    for (const Listed& workbook : all) {
        EXPECT_NE(table.find("\n| *" + lines(workbook).title + "*"), std::string::npos)
            << "README.md: the table of workbooks has no line for " << lines(workbook).title;
        EXPECT_NE(readme.find("*" + std::string(workbook.category.english()) + "*"), std::string::npos)
            << workbook.category.english();
    }
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), static_cast<std::ptrdiff_t>(all.size()) + 1)
        << "a line for each workbook, and none besides";
}

}  // namespace

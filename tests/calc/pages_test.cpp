// The pages that each workbook prints: all of them are used, and no more than its example takes.

#include <filesystem>
#include <map>

#include "calc.hpp"
#include "folder.hpp"
#include "languages.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

class Pages : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Workbooks, Pages, testing::ValuesIn(workbook_files()),
                         [](const auto& name) { return as_id(name.param); });

/// How long the drawing of each page of a PDF is, in bytes as they are packed.
std::vector<std::size_t> pages_of(const std::filesystem::path& pdf) {
    const std::string all = content(pdf);
    std::vector<std::size_t> found;
    for (const auto& page : matches(all, R"(/Type\s*/Page[^s][^>]*?/Contents (\d+) 0 R)")) {
        const auto drawing = all.find("\n" + page[1] + " 0 obj");
        const auto begin = all.find("stream", drawing);
        found.push_back(all.find("endstream", begin) - begin);
    }
    return found;
}

// Paper for what is used, and not a page more: a page with nothing but its header and footer is drawn in less than 600
// bytes. What each workbook's example takes, in every language.
TEST_P(Pages, AreNeverBlank) {
    const std::map<std::string, std::pair<std::size_t, std::size_t>> expected{{"rework-plan", {22, 34}},
                                                                              {"inspection-log", {14, 15}},
                                                                              {"rework-or-replant", {10, 13}},
                                                                              {"spring-heat", {5, 6}},
                                                                              {"seasons", {6, 8}},
                                                                              {"records", {18, 20}},
                                                                              {"water", {7, 8}},
                                                                              {"trial", {7, 8}},
                                                                              {"desk", {12, 17}},
                                                                              {"worked-examples", {42, 68}}};
    for (const std::string& language : tested_languages()) {
        const Book book = calc().open_url(url_of(GetParam(), language), true);
        book.recalculate();
        const Folder folder;
        book.save_as(folder / "printed.pdf", "calc_pdf_Export");
        const auto pages = pages_of(folder / "printed.pdf");
        const auto [fewest, most] = expected.at(GetParam());
        EXPECT_GE(pages.size(), fewest) << language;
        EXPECT_LE(pages.size(), most) << language;
        for (std::size_t at = 0; at < pages.size(); ++at) EXPECT_GT(pages[at], 600U) << language << ", page " << at + 1;
    }
}

}  // namespace
}  // namespace slipbark::tests

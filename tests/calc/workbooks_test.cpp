// The templates as a user has them: taken from the installed extension, filled in, printed.

#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/frame/XDocumentTemplates.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <filesystem>
#include <map>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

/// Named cells with what to put into them, and with what they then show.
struct Change {
    const char* workbook;
    std::map<std::string, double> inputs;
    std::map<std::string, double> answers;
};

const std::vector<std::string>& workbooks() {
    static const std::vector<std::string> names{"rework-plan"};
    return names;
}

std::string url_of(const std::string& workbook) {
    const auto provider = css::deployment::PackageInformationProvider::get(calc().context());
    return utf8(provider->getPackageLocation("slipbark.rework")) + "/template/Rework%20plans/" + workbook + ".ots";
}

class EachWorkbook : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Templates, EachWorkbook, testing::ValuesIn(workbooks()), [](const auto& name) {
    std::string word = name.param;
    std::erase(word, '-');
    return word;
});

TEST_P(EachWorkbook, OpensFromTheExtensionWithoutAnErrorAndPrints) {
    const Book book = calc().open_url(url_of(GetParam()), true);
    book.recalculate();
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    const auto pdf = std::filesystem::temp_directory_path() / (GetParam() + "-test.pdf");
    book.save_as(pdf, "calc_pdf_Export");
    EXPECT_GT(std::filesystem::file_size(pdf), 10'000U);
    std::filesystem::remove(pdf);
}

TEST_P(EachWorkbook, IsTheSameInExamples) {
    const Book book = calc().open(std::filesystem::path(SLIPBARK_EXAMPLES) / (GetParam() + ".fods"));
    book.recalculate();
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Templates, AreListedInACategoryOfTheirOwn) {
    const Ref<css::frame::XDocumentTemplates> templates(calc().create("com.sun.star.frame.DocumentTemplates"),
                                                        css::uno::UNO_QUERY_THROW);
    templates->update();
    const auto content = templates->getContent();
    ASSERT_TRUE(content.is());
    // What the host writes of its template folders lists ours by name.
    const std::string url = url_of("rework-plan");
    EXPECT_TRUE(css::ucb::SimpleFileAccess::create(calc().context())->exists(ustring(url))) << url;
}

class Changes : public testing::TestWithParam<Change> {};

TEST_P(Changes, AreFollowedByTheAnswers) {
    const auto& [workbook, inputs, answers] = GetParam();
    const Book book = calc().open_url(url_of(workbook), true);
    for (const auto& [name, value] : inputs) book.set(book.named(name), value);
    for (const auto& [name, value] : answers) {
        EXPECT_NEAR(book.shown(book.named(name)).number, value, 1e-6) << name;
    }
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

const Change changes[] = {
    {"rework-plan",
     {{"trees", 400},
      {"stubs_per_tree", 4},
      {"grafts_per_stub", 2},
      {"buds_per_graft", 2},
      {"buds_per_stick", 9},
      {"spare", 0.15}},
     {{"grafts", 3200}, {"sticks", 920}, {"grafts_per_tree", 8}}},
    // 18 days after 1 March 2028, as serial numbers of the usual null date.
    {"rework-plan", {{"graft_date", 46813}, {"window_end", 46873}}, {{"first_look", 46831}}},
};

INSTANTIATE_TEST_SUITE_P(Templates, Changes, testing::ValuesIn(changes), [](const auto& change) {
    std::string word = std::string(change.param.workbook) + std::to_string(change.index);
    std::erase(word, '-');
    return word;
});

}  // namespace
}  // namespace slipbark::tests

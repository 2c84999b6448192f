// What becomes of documents: saved, opened and saved again where the extension is missing, and opened with it once
// more.

#include <cmath>
#include <filesystem>

#include "calc.hpp"
#include "catalogue.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

/// A folder that goes with the test.
class Folder {
  public:
    Folder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "slipbark-documents-XXXXXX").string();
        if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder");
        path_ = pattern;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path_); }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  private:
    std::filesystem::path path_;
};

struct Format {
    const char* ending;
    const char* filter;
};

class Formats : public testing::TestWithParam<Format> {};

INSTANTIATE_TEST_SUITE_P(Documents, Formats,
                         testing::Values(Format{"ods", "calc8"}, Format{"fods", "OpenDocument Spreadsheet Flat XML"},
                                         Format{"ots", "calc8_template"}, Format{"xlsx", "Calc MS Excel 2007 XML"}),
                         [](const auto& format) { return std::string(format.param.ending); });

/// One cell for each function of the catalogue, its own example in it.
std::vector<std::string> fill(const Book& book) {
    std::vector<std::string> addresses;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            addresses.push_back("A" + std::to_string(addresses.size() + 1));
            book.set_formula(addresses.back(), "=" + std::string(entry.texts.example));
        }
    }
    return addresses;
}

struct Cells {
    std::vector<std::string> formulas;
    std::vector<Shown> shown;
};

Cells read(const Book& book, const std::vector<std::string>& addresses) {
    Cells cells;
    for (const auto& address : addresses) {
        cells.formulas.push_back(book.formula(address));
        cells.shown.push_back(book.shown(address));
    }
    return cells;
}

void expect_same(const Cells& before, const Cells& after) {
    ASSERT_EQ(before.shown.size(), after.shown.size());
    for (std::size_t at = 0; at < before.shown.size(); ++at) {
        EXPECT_EQ(before.formulas[at], after.formulas[at]);
        EXPECT_EQ(before.shown[at].error, after.shown[at].error) << before.formulas[at];
        EXPECT_EQ(before.shown[at].text, after.shown[at].text) << before.formulas[at];
    }
}

TEST_P(Formats, LoseNothingWhereTheExtensionIsMissing) {
    const Folder folder;
    const auto [ending, filter] = GetParam();
    const auto first = folder / (std::string("first.") + ending);
    const auto second = folder / (std::string("second.") + ending);
    std::vector<std::string> addresses;
    Cells before;
    {
        const Book book = calc().new_book();
        addresses = fill(book);
        before = read(book, addresses);
        book.save_as(first, filter);
    }
    {
        const Book again = calc().open(first);
        expect_same(before, read(again, addresses));
    }
    {
        const Book without = bare().open(first);
        without.recalculate();
        EXPECT_FALSE(without.errors().empty()) << "the functions are missing here";
        without.save_as(second, filter);
    }
    const Book healed = calc().open(second);
    healed.recalculate();
    expect_same(before, read(healed, addresses));
}

}  // namespace
}  // namespace slipbark::tests

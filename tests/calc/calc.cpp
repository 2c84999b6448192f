#include "calc.hpp"

#include <boost/algorithm/string/replace.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <stdexcept>

#include "catalogue/catalogue.hpp"
#include "catalogue/language.hpp"
#include "folder.hpp"
#include "workbooks/registry.hpp"

namespace slipbark::tests {

namespace {

struct Offices {
    std::unique_ptr<office::Office> with;
    std::unique_ptr<office::Office> without;
    std::unique_ptr<Folder> profiles;  // last, since it goes last
};

Offices& offices() {
    static Offices all;
    return all;
}

/// Ends the offices before the program takes its own libraries apart.
class AtTheEnd : public testing::Environment {
  public:
    void TearDown() override { offices() = {}; }
};

const auto* const at_the_end = testing::AddGlobalTestEnvironment(new AtTheEnd);

/// What tests/newer-host/run sets in order to test another office than the one of this machine.
std::filesystem::path said(const char* variable, const char* otherwise) {
    const char* value = std::getenv(variable);
    return value == nullptr ? otherwise : value;
}

office::Office& started(std::unique_ptr<office::Office>& one, const std::filesystem::path& extensions) {
    if (one) return *one;
    if (!offices().profiles) offices().profiles = std::make_unique<Folder>();
    // The whole ring in another locale: SLIPBARK_TEST_LOCALE=de-DE, or de-DE/en with the functions' English names.
    std::string locale = said("SLIPBARK_TEST_LOCALE", "");
    const bool english = locale.ends_with("/en");
    if (english) locale.resize(locale.size() - 3);
    const auto profile = *offices().profiles / (extensions.empty() ? "without" : "with");
    make_profile(profile, {.locale = locale, .english_names = english});
    one = std::make_unique<office::Office>(start({.bundled = extensions, .profile = profile, .words = {}}));
    return *one;
}

}  // namespace

office::Start start(office::Start how) {
    how.program = said("SLIPBARK_TEST_PROGRAM", SLIPBARK_OFFICE_PROGRAM);
    return how;
}

std::filesystem::path bundled() {
    // The whole ring, but for the menu, with the component that ships for other platforms.
    const bool portable = said("SLIPBARK_TEST_COMPONENT", "") == "portable";
    return said("SLIPBARK_TEST_BUNDLED", portable ? SLIPBARK_BUNDLED_PORTABLE : SLIPBARK_BUNDLED);
}

std::string url_of(const std::string& workbook) {
    const auto* const listed = workbooks::find(workbook);
    if (listed == nullptr) throw std::invalid_argument(workbook + " is not in the registry");
    const auto provider = css::deployment::PackageInformationProvider::get(calc().context());
    return office::utf8(provider->getPackageLocation("slipbark.rework")) + "/template/" +
           boost::replace_all_copy(std::string(listed->category.english()), " ", "%20") + "/" + workbook + ".ots";
}

std::string url_of(const std::string& workbook, const std::string& language) {
    const catalogue::Language& spoken = catalogue::language_for(language);
    return office::file_url(bundled() / "slipbark" / catalogue::template_folder(spoken) /
                            spoken.translated(workbooks::find(workbook)->category) / (workbook + ".ots"));
}

void paste_values(const office::Book& from, const std::string& source, const office::Book& to,
                  const std::string& target) {
    const office::Ref<css::sheet::XCellRangeData> copied(from.range(source), css::uno::UNO_QUERY_THROW);
    office::Ref<css::sheet::XCellRangeData>(to.range(target), css::uno::UNO_QUERY_THROW)
        ->setDataArray(copied->getDataArray());
}

void clear(const office::Book& book, const std::string& range) {
    const office::Ref<css::sheet::XSheetOperation> cells(book.range(range), css::uno::UNO_QUERY_THROW);
    cells->clearContents(css::sheet::CellFlags::VALUE | css::sheet::CellFlags::DATETIME |
                         css::sheet::CellFlags::STRING | css::sheet::CellFlags::FORMULA);
}

void clear_records(const office::Book& records) {
    for (const char* lines : {"Counts.B6:I1005", "Dates.B6:AB45", "Yields.B6:F35", "Work.B6:G205"}) {
        clear(records, lines);
    }
}

std::filesystem::path fixtures() { return said("SLIPBARK_TEST_FIXTURES", SLIPBARK_FIXTURES); }

std::filesystem::path examples() { return said("SLIPBARK_TEST_EXAMPLES", SLIPBARK_EXAMPLES); }

office::Office& calc() { return started(offices().with, bundled()); }

office::Office& bare() { return started(offices().without, {}); }

std::vector<std::string> fill(const office::Book& book) {
    std::vector<std::string> addresses;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            addresses.push_back("A" + std::to_string(addresses.size() + 1));
            book.set_formula(addresses.back(), "=" + std::string(entry.texts.example));
        }
    }
    return addresses;
}

Cells read(const office::Book& book, const std::vector<std::string>& addresses) {
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

}  // namespace slipbark::tests

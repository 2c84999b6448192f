#include "calc.hpp"

#include <boost/algorithm/string/replace.hpp>
#include <boost/algorithm/string/split.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <stdexcept>

#include "catalogue/catalogue.hpp"
#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "folder.hpp"
#include "languages.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using css::uno::UNO_QUERY_THROW;
using office::Book;
using office::Ref;
using office::ustring;
using office::utf8;

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
    return utf8(provider->getPackageLocation("slipbark.rework")) + "/template/" +
           boost::replace_all_copy(std::string(listed->category.english()), " ", "%20") + "/" + workbook + ".ots";
}

std::string url_of(const std::string& workbook, const std::string& language) {
    const catalogue::Language& menu_language = catalogue::language_for(language);
    return office::file_url(bundled() / "slipbark" / catalogue::template_folder(menu_language) /
                            menu_language.translated(workbooks::find(workbook)->category) / (workbook + ".ots"));
}

std::vector<std::string> workbook_files() {
    std::vector<std::string> files;
    files.reserve(workbooks::all.size());
    for (const auto& listed : workbooks::all) files.emplace_back(listed.file);
    return files;
}

std::vector<Form> forms() {
    std::vector<Form> all;
    for (const auto& listed : workbooks::all) {
        if (listed.file == "worked-examples" || listed.file == "desk") continue;  // to be read; filled by a command
        for (const auto& language : languages_one_by_one()) all.push_back({std::string(listed.file), language});
    }
    return all;
}

namespace {

std::vector<std::string> languages_of_this_run(const char* otherwise) {
    const char* const given = std::getenv("SLIPBARK_TEST_LANGUAGES");
    std::vector<std::string> all;
    return boost::algorithm::split(all, std::string(given == nullptr ? otherwise : given),
                                   [](char letter) { return letter == ','; });
}

}  // namespace

std::vector<std::string> tested_languages() { return languages_of_this_run("en,es"); }

std::vector<std::string> languages_one_by_one() { return languages_of_this_run("en"); }

std::vector<std::string> languages_of_offices() { return languages_of_this_run("es"); }

std::string in_workbooks(const std::string& language, const std::string& english) {
    if (language == "en") return english;
    const auto folder = examples().parent_path() / "addin" / "translations" / ("workbooks-" + language);
    const std::string messages = content(folder / (language + ".mo"));
    const std::string_view found = catalogue::Language(language, messages).find(english);
    if (found.empty()) throw std::invalid_argument("no " + language + " for \"" + english + "\"");
    return std::string(found);
}

std::string form_id(const testing::TestParamInfo<Form>& info) {
    return as_id(info.param.workbook) + "_" + info.param.language;
}

Book EachForm::opened() { return calc().open_url(url_of(GetParam().workbook, GetParam().language), true, false); }

void paste_values(const Book& from, const std::string& source, const Book& to, const std::string& target) {
    const Ref<css::sheet::XCellRangeData> copied(from.range(source), UNO_QUERY_THROW);
    Ref<css::sheet::XCellRangeData>(to.range(target), UNO_QUERY_THROW)->setDataArray(copied->getDataArray());
}

void clear(const Book& book, const std::string& range) {
    const Ref<css::sheet::XSheetOperation> cells(book.range(range), UNO_QUERY_THROW);
    cells->clearContents(css::sheet::CellFlags::VALUE | css::sheet::CellFlags::DATETIME |
                         css::sheet::CellFlags::STRING | css::sheet::CellFlags::FORMULA);
}

void clear_records(const Book& records) {
    for (const char* lines : {"Counts.B6:I1005", "Dates.B6:AB45", "Yields.B6:F35", "Work.B6:G205"}) {
        clear(records, lines);
    }
}

std::filesystem::path fixtures() { return said("SLIPBARK_TEST_FIXTURES", SLIPBARK_FIXTURES); }

std::filesystem::path examples() { return said("SLIPBARK_TEST_EXAMPLES", SLIPBARK_EXAMPLES); }

office::Office& calc() { return started(offices().with, bundled()); }

office::Office& bare() { return started(offices().without, {}); }

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

double number(const Book& book, const std::string& name) { return book.shown(book.named(name)).number; }

std::string text(const Book& book, const std::string& name) { return book.shown(book.named(name)).text; }

bool says(const std::string& sentence, const std::string& words) { return sentence.find(words) != std::string::npos; }

Ref<css::sheet::XSpreadsheet> sheet_of(const Book& book, const std::string& title) {
    Ref<css::sheet::XSpreadsheet> sheet;
    book.document()->getSheets()->getByName(ustring(title)) >>= sheet;
    return sheet;
}

Ref<css::sheet::XSheetCellCursor> used_cells(const Ref<css::sheet::XSpreadsheet>& sheet) {
    const auto cursor = sheet->createCursor();
    Ref<css::sheet::XUsedAreaCursor>(cursor, UNO_QUERY_THROW)->gotoEndOfUsedArea(true);
    return cursor;
}

std::vector<Alike> alike(const Ref<css::sheet::XSpreadsheet>& sheet) {
    std::vector<Alike> all;
    const auto groups =
        Ref<css::sheet::XUniqueCellFormatRangesSupplier>(sheet, UNO_QUERY_THROW)->getUniqueCellFormatRanges();
    for (sal_Int32 group = 0; group < groups->getCount(); ++group) {
        const Ref<css::container::XIndexAccess> ranges(groups->getByIndex(group), UNO_QUERY_THROW);
        for (sal_Int32 one = 0; one < ranges->getCount(); ++one) {
            const Ref<css::beans::XPropertySet> cells(ranges->getByIndex(one), UNO_QUERY_THROW);
            rtl::OUString style;
            cells->getPropertyValue("CellStyle") >>= style;
            all.push_back({cells, Ref<css::sheet::XCellRangeAddressable>(cells, UNO_QUERY_THROW)->getRangeAddress(),
                           utf8(style)});
        }
    }
    return all;
}

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

}  // namespace slipbark::tests

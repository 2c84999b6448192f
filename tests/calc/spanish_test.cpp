// An office whose menus are Spanish (Debian's libreoffice-l10n-es; ./setup languages): it shows the Spanish menu,
// wizard, reasons and workbooks, takes numbers with a comma, and a workbook shows the same numbers in every office.

#include <gtest/gtest.h>

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XHierarchicalNameAccess.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/sheet/FunctionArgument.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XFunctionDescriptions.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>

#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/replace.hpp>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/support.hpp"
#include "composer/registry.hpp"
#include "folder.hpp"
#include "formula.hpp"
#include "right_call.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::Any;
using css::uno::UNO_QUERY_THROW;

namespace {

const catalogue::Language& spanish() { return catalogue::language_for("es"); }

/// A property of the office's configuration, as it shows it.
std::string configured(const Office& office, const char* path, const char* name) {
    const auto provider = css::configuration::theDefaultProvider::get(office.context());
    const Any node(css::beans::NamedValue("nodepath", Any(ustring(path))));
    const Ref<css::container::XHierarchicalNameAccess> found(
        provider->createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", {&node, 1}),
        UNO_QUERY_THROW);
    rtl::OUString text;
    found->getByHierarchicalName(ustring(name)) >>= text;
    return utf8(text);
}

std::string template_url(const Office& office, const catalogue::Language& language, const workbooks::Listed& listed) {
    const auto provider = css::deployment::PackageInformationProvider::get(office.context());
    return utf8(provider->getPackageLocation("slipbark.rework")) + "/" + catalogue::template_folder(language) + "/" +
           boost::replace_all_copy(language.translated(listed.category), " ", "%20") + "/" + std::string(listed.file) +
           ".ots";
}

/// Every number of a workbook by sheet and place; texts and blanks as "no number".
std::vector<std::vector<double>> numbers(const Book& book) {
    std::vector<std::vector<double>> all;
    for (const std::string& name : book.sheets()) {
        Ref<css::sheet::XSpreadsheet> sheet;
        book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
        const auto cursor = sheet->createCursor();
        const Ref<css::sheet::XUsedAreaCursor> used(cursor, UNO_QUERY_THROW);
        used->gotoStartOfUsedArea(false);
        used->gotoEndOfUsedArea(true);
        all.emplace_back();
        for (const auto& row : Ref<css::sheet::XCellRangeData>(cursor, UNO_QUERY_THROW)->getDataArray()) {
            for (const Any& cell : row) {
                double number = -1e99;
                cell >>= number;
                all.back().push_back(number);
            }
        }
    }
    return all;
}

class Spanish : public testing::Test {
  protected:
    static void SetUpTestSuite() {
        folder = std::make_unique<Folder>();
        make_profile(*folder / "es", {.locale = "es-ES", .language = "es", .semicolons = true});
        office = std::make_unique<Office>(start({.bundled = bundled(), .profile = *folder / "es", .words = {}}));
    }
    static void TearDownTestSuite() {
        office.reset();
        folder.reset();
    }
    void SetUp() override {
        if (configured(*office, "/org.openoffice.Setup/L10N", "ooLocale") != "es") {
            GTEST_SKIP() << "this office has no Spanish: ./setup languages";
        }
    }

    static std::unique_ptr<Folder> folder;
    static std::unique_ptr<Office> office;
};
std::unique_ptr<Folder> Spanish::folder;
std::unique_ptr<Office> Spanish::office;

TEST_F(Spanish, IsInTheMenu) {
    const char* menu = "/org.openoffice.Office.Addons/AddonUI/OfficeMenuBar";
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Title"), "Cambio de variedad");
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Submenu/m01/Title"), "Nuevo plan de cambio de variedad");
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Submenu/m10/Title"), "Explicar esta celda");
}

TEST_F(Spanish, IsInTheFunctionWizard) {
    const Ref<css::container::XIndexAccess> all(office->create("com.sun.star.sheet.FunctionDescriptions"),
                                                UNO_QUERY_THROW);
    std::size_t seen = 0;
    for (sal_Int32 at = 0; at < all->getCount(); ++at) {
        css::uno::Sequence<css::beans::PropertyValue> description;
        all->getByIndex(at) >>= description;
        std::string name;
        std::string does;
        css::uno::Sequence<css::sheet::FunctionArgument> arguments;
        for (const auto& property : description) {
            rtl::OUString text;
            property.Value >>= text;
            if (property.Name == "Name") name = utf8(text);
            if (property.Name == "Description") does = utf8(text);
            if (property.Name == "Arguments") property.Value >>= arguments;
        }
        const catalogue::Entry* entry = catalogue::own_name(name).empty() ? nullptr : catalogue::find(name);
        if (entry == nullptr) continue;
        ++seen;
        EXPECT_TRUE(does.starts_with(spanish().translated(entry->texts.does))) << name << ": " << does;
        for (sal_Int32 one = 0; one < arguments.getLength(); ++one) {
            const auto& argument = entry->arguments.at(static_cast<std::size_t>(one));
            const std::string text = utf8(arguments[one].Description);
            EXPECT_TRUE(text.starts_with(spanish().translated(argument.meaning))) << name << ": " << text;
        }
    }
    EXPECT_GT(seen, 40U);
}

TEST_F(Spanish, SaysWhyAndExplains) {
    const Book book = office->new_book(false);
    book.set_formula("A1", "=REWORK.WHY(\"STICKS\";3200;2;9;15)");
    EXPECT_EQ(book.shown("A1").text, "spare era 15: indique una fracción de 0 a 2 (15 % es 0,15).");
    book.set_formula("A2", "=REWORK.WHY(\"TAKE\";0;0)");
    EXPECT_EQ(book.shown("A2").text, "No se injertó nada.");
    book.set_formula("A3", "=REWORK.STICKS(3200;2;9;15)");
    const std::string text = explain(book, "A3", &*office);
    EXPECT_NE(text.find("Razón: spare era 15"), std::string::npos) << text;
    EXPECT_NE(text.find("Da: varetas"), std::string::npos) << text;
    // Typed as a Spaniard types it.
    Keyboard(*office, book).type("B1", "=REWORK.STICKS(3200;2;9;0,15)");
    EXPECT_EQ(book.shown("B1").number, 920);
}

TEST_F(Spanish, OpensItsOwnWorkbooks) {
    for (const auto& listed : workbooks::all) {
        SCOPED_TRACE(listed.file);
        const Book book = office->open_url(template_url(*office, spanish(), listed), true);
        book.recalculate();
        EXPECT_EQ(book.errors(), std::vector<std::string>());
    }
    const Book plan = office->open_url(template_url(*office, spanish(), *workbooks::find("rework-plan")), true);
    EXPECT_EQ(plan.sheets().at(1), "Pedidos");
    EXPECT_TRUE(plan.shown("Plan.B1").text.starts_with("Plan de cambio de variedad: ")) << plan.shown("Plan.B1").text;
    // A keyword that a function reads in a column is shown in Spanish and is English all the same.
    EXPECT_EQ(plan.shown("Probabilidades.B6").text, "desembolso");
    EXPECT_EQ(plan.formula("Probabilidades.B6"), "outlay");
}

/// The calls that people get wrong: each argument of each function with something else in its place.
std::vector<std::string> wrong_calls() {
    std::vector<std::string> all;
    for (const auto& area : catalogue::areas()) {
        for (const catalogue::Entry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            const auto right = catalogue::find_call(right_call(entry));
            for (std::size_t at = 0; at < right.value().arguments.size(); ++at) {
                for (const char* wrong :
                     {"\"about ten\"", "0", "-3", "2.5", "85", "1E300", "{1;2|3;4}", "{\"a\"|\"b\"}"}) {
                    auto arguments = right->arguments;
                    arguments[at] = wrong;
                    all.push_back(entry.cell_name() + "(" + boost::algorithm::join(arguments, ";") + ")");
                }
            }
        }
    }
    return all;
}

TEST_F(Spanish, SaysWhyOfWhateverPeopleGetWrong) {
    const auto calls = wrong_calls();
    const Book book = office->new_book(true);
    css::uno::Sequence<css::uno::Sequence<rtl::OUString>> formulas(static_cast<sal_Int32>(calls.size()));
    for (std::size_t at = 0; at < calls.size(); ++at) {
        const std::string& call = calls[at];
        const auto open = call.find('(');
        const std::string name = call.substr(call.find('.') + 1, open - call.find('.') - 1);
        const rtl::OUString formula = written_out("=REWORK.WHY(\"" + name + "\";" + call.substr(open + 1));
        formulas.getArray()[at] = {&formula, 1};
    }
    const std::string column = "A1:A" + std::to_string(calls.size());
    Ref<css::sheet::XCellRangeFormula>(book.range(column), UNO_QUERY_THROW)->setFormulaArray(formulas);
    const auto shown = Ref<css::sheet::XCellRangeData>(book.range(column), UNO_QUERY_THROW)->getDataArray();
    int reasons = 0;
    for (std::size_t at = 0; at < calls.size(); ++at) {
        const Call call = parse(calls[at]);
        const std::string english = catalogue::why_in(catalogue::Language(), call.function, call.arguments);
        const std::string wanted = catalogue::why_in(spanish(), call.function, call.arguments);
        rtl::OUString why;
        EXPECT_TRUE(shown[static_cast<sal_Int32>(at)][0] >>= why) << calls[at];
        EXPECT_EQ(utf8(why), wanted) << calls[at];
        if (english.empty()) continue;
        ++reasons;
        EXPECT_NE(utf8(why), english) << calls[at];
    }
    EXPECT_GT(reasons, 1000);
}

/// A workbook in either language, calculated anew in offices of other locales, as in an English one.
TEST_F(Spanish, ShowsTheSameNumbersInEveryOffice) {
    for (const char* locale : {"en-US", "de-DE", "tr-TR"}) {
        make_profile(*folder / locale, {.locale = locale});
        const Office other(start({.bundled = bundled(), .profile = *folder / locale, .words = {}}));
        for (const auto& listed : workbooks::all) {
            SCOPED_TRACE(std::string(locale) + ", " + std::string(listed.file));
            const Book there = other.open_url(template_url(other, spanish(), listed), true);
            const Book here = office->open_url(template_url(*office, catalogue::Language(), listed), true);
            const Book own = office->open_url(template_url(*office, spanish(), listed), true);
            for (const Book* book : {&there, &here, &own}) book->recalculate();
            const auto wanted = numbers(here);
            EXPECT_EQ(numbers(there), wanted);
            EXPECT_EQ(numbers(own), wanted);
        }
    }
}

}  // namespace
}  // namespace slipbark::tests

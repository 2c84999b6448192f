// An office whose menus are in another language (Debian's libreoffice-l10n-es and its like; ./setup languages): it
// shows menu, wizard, reasons and workbooks in it, takes numbers with a comma, and a workbook shows the same numbers in
// every office.

#include <gtest/gtest.h>

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XHierarchicalNameAccess.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/frame/XDocumentTemplates.hpp>
#include <com/sun/star/sheet/FunctionArgument.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XFunctionDescriptions.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>

#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <memory>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/support.hpp"
#include "composer/registry.hpp"
#include "folder.hpp"
#include "formula.hpp"
#include "languages.hpp"
#include "right_call.hpp"
#include "send.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::Any;
using css::uno::UNO_QUERY_THROW;

namespace {

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

/// An office of a country, and what it says.
struct Spoken {
    const char* locale;    ///< of numbers and days
    const char* language;  ///< of the menus, as the office has it
    const char* rework;
    const char* new_plan;
    const char* explain_this;
    const char* spare;  ///< why STICKS refuses a spare of 15
    const char* nothing_grafted;
    const char* reason;
    const char* gives;
    const char* orders;   ///< the second sheet of the rework plan
    const char* heading;  ///< how its front sheet begins
    const char* odds;     ///< the sheet that has the keyword "outlay", and how it shows it
    const char* outlay;
};

const std::vector<Spoken> countries{
    {"es-ES", "es", "Cambio de variedad", "Nuevo plan de cambio de variedad", "Explicar esta celda",
     "spare era 15: indique una fracción de 0 a 2 (15 % es 0,15).", "No se injertó nada.", "Razón: spare era 15",
     "Da: varetas", "Pedidos", "Plan de cambio de variedad: ", "Probabilidades", "desembolso"},
    {"fr-FR", "fr", "Surgreffage", "Nouveau plan de surgreffage", "Expliquer cette cellule",
     "spare valait 15\u00a0: indiquez une fraction de 0 à 2 (15\u00a0% s'écrit 0,15).", "Rien n'a été greffé.",
     "Raison\u00a0: spare valait 15", "Donne\u00a0: baguettes", "Commandes", "Plan de surgreffage\u00a0: ", "Chances",
     "débours"},
    {"it-IT", "it", "Sovrainnesto", "Nuovo piano di sovrainnesto", "Spiega questa cella",
     "spare era 15: indicare una frazione da 0 a 2 (15 % è 0,15).", "Nulla è stato innestato.", "Motivo: spare era 15",
     "Dà: bacchette", "Ordini", "Piano di sovrainnesto: ", "Probabilità", "esborso"},
    {"pt-BR", "pt-BR", "Sobreenxertia", "Novo plano de sobreenxertia", "Explicar esta célula",
     "spare era 15: informe uma fração de 0 a 2 (15% é 0,15).", "Nada foi enxertado.", "Motivo: spare era 15",
     "Dá: varetas", "Pedidos", "Plano de sobreenxertia: ", "Chances", "desembolso"},
    {"pt-PT", "pt", "Sobreenxertia", "Novo plano de sobreenxertia", "Explicar esta célula",
     "spare era 15: informe uma fração de 0 a 2 (15% é 0,15).", "Nada foi enxertado.", "Motivo: spare era 15",
     "Dá: varetas", "Pedidos", "Plano de sobreenxertia: ", "Chances", "desembolso"}};

class Interface : public testing::TestWithParam<Spoken> {
  protected:
    static void SetUpTestSuite() { folder = std::make_unique<Folder>(); }
    static void TearDownTestSuite() {
        offices.clear();
        folder.reset();
    }
    void SetUp() override {
        const auto& [locale, tag] = std::pair(GetParam().locale, GetParam().language);
        if (!offices.contains(locale)) {
            make_profile(*folder / locale, {.locale = locale, .language = tag, .semicolons = true});
            offices.emplace(locale, start({.bundled = bundled(), .profile = *folder / locale, .words = {}}));
        }
        office = &offices.at(locale);
        if (configured(*office, "/org.openoffice.Setup/L10N", "ooLocale") != tag) {
            GTEST_SKIP() << "this office has no " << tag << ": ./setup languages";
        }
    }

    [[nodiscard]] static const catalogue::Language& language() { return catalogue::language_for(GetParam().language); }

    static std::unique_ptr<Folder> folder;
    static std::map<std::string, Office> offices;  // that of a language serves all its tests
    Office* office = nullptr;
};
std::unique_ptr<Folder> Interface::folder;
std::map<std::string, Office> Interface::offices;

INSTANTIATE_TEST_SUITE_P(Office, Interface, testing::ValuesIn(offices_to_try(countries)),
                         [](const auto& one) { return as_id(one.param.locale); });

TEST_P(Interface, IsInTheMenu) {
    const char* menu = "/org.openoffice.Office.Addons/AddonUI/OfficeMenuBar";
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Title"), GetParam().rework);
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Submenu/m01/Title"), GetParam().new_plan);
    EXPECT_EQ(configured(*office, menu, "slipbark.menu/Submenu/m12/Title"), GetParam().explain_this);
}

TEST_P(Interface, ListsItsTemplatesAndTheEnglish) {
    const Ref<css::frame::XDocumentTemplates> templates(office->create("com.sun.star.frame.DocumentTemplates"),
                                                        UNO_QUERY_THROW);
    templates->update();
    const auto root = templates->getContent()->getIdentifier()->getContentIdentifier();
    const auto files = css::ucb::SimpleFileAccess::create(office->context());
    for (const catalogue::Language& one : catalogue::languages()) {
        for (const auto& listed : workbooks::all) {
            const auto group =
                root + "/" + ustring(boost::replace_all_copy(one.translated(listed.category), " ", "%20"));
            const auto shown = files->exists(group) ? files->getFolderContents(group, true).getLength() : 0;
            EXPECT_EQ(shown > 0, one.is_english() || one.tag() == language().tag()) << utf8(group);
        }
    }
}

TEST_P(Interface, IsInTheFunctionWizard) {
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
        const catalogue::FunctionEntry* entry = catalogue::own_name(name).empty() ? nullptr : catalogue::find(name);
        if (entry == nullptr) continue;
        ++seen;
        EXPECT_TRUE(does.starts_with(language().translated(entry->texts.does))) << name << ": " << does;
        for (sal_Int32 one = 0; one < arguments.getLength(); ++one) {
            const auto& argument = entry->arguments.at(static_cast<std::size_t>(one));
            const std::string text = utf8(arguments[one].Description);
            EXPECT_TRUE(text.starts_with(language().translated(argument.meaning))) << name << ": " << text;
        }
    }
    EXPECT_GT(seen, 40U);
}

TEST_P(Interface, SaysWhyAndExplains) {
    const Book book = office->new_book(false);
    book.set_formula("A1", "=REWORK.WHY(\"STICKS\";3200;2;9;15)");
    EXPECT_EQ(book.shown("A1").text, GetParam().spare);
    book.set_formula("A2", "=REWORK.WHY(\"TAKE\";0;0)");
    EXPECT_EQ(book.shown("A2").text, GetParam().nothing_grafted);
    book.set_formula("A3", "=REWORK.STICKS(3200;2;9;15)");
    const std::string text = explain(book, "A3", &*office);
    EXPECT_NE(text.find(GetParam().reason), std::string::npos) << text;
    EXPECT_NE(text.find(GetParam().gives), std::string::npos) << text;
    // Typed as people there type it.
    Keyboard(*office, book).type("B1", "=REWORK.STICKS(3200;2;9;0,15)");
    EXPECT_EQ(book.shown("B1").number, 920);
}

TEST_P(Interface, OpensItsOwnWorkbooks) {
    for (const auto& listed : workbooks::all) {
        SCOPED_TRACE(listed.file);
        const Book book = office->open_url(template_url(*office, language(), listed), true);
        book.recalculate();
        EXPECT_EQ(book.errors(), std::vector<std::string>());
    }
    const Book plan = office->open_url(template_url(*office, language(), *workbooks::find("rework-plan")), true);
    EXPECT_EQ(plan.sheets().at(1), GetParam().orders);
    const std::string heading = plan.shown(plan.sheets().at(0) + ".B1").text;
    EXPECT_TRUE(heading.starts_with(GetParam().heading)) << heading;
    // A keyword that a function reads in a column is shown translated and is English all the same.
    const std::string outlay = std::string(GetParam().odds) + ".B6";
    EXPECT_EQ(plan.shown(outlay).text, GetParam().outlay);
    EXPECT_EQ(plan.formula(outlay), "outlay");
}

/// The calls that people get wrong: each argument of each function with something else in its place.
std::vector<std::string> wrong_calls() {
    std::vector<std::string> all;
    for (const auto& area : catalogue::areas()) {
        for (const catalogue::FunctionEntry& entry : area.entries) {
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

TEST_P(Interface, SaysWhyOfWhateverPeopleGetWrong) {
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
        const std::string wanted = catalogue::why_in(language(), call.function, call.arguments);
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
/// Names the first cell that differs.
void expect_same(const Book& book, const std::vector<std::vector<double>>& wanted) {
    const auto found = numbers(book);
    ASSERT_EQ(found.size(), wanted.size());
    for (std::size_t row = 0; row < found.size(); ++row) {
        ASSERT_EQ(found[row].size(), wanted[row].size()) << "row " << row;
        for (std::size_t column = 0; column < found[row].size(); ++column) {
            ASSERT_EQ(found[row][column], wanted[row][column]) << "row " << row << " of all sheets, column " << column;
        }
    }
}

TEST_P(Interface, ShowsTheSameNumbersInEveryOffice) {
    const bool is_one_of_many = GetParam().language != std::string("es");
    const auto locales = is_one_of_many ? std::vector{"en-US"} : std::vector{"en-US", "de-DE", "tr-TR"};
    std::vector<std::unique_ptr<const Office>> others;
    for (const char* locale : locales) {
        make_profile(*folder / locale, {.locale = locale});
        others.push_back(
            std::make_unique<const Office>(start({.bundled = bundled(), .profile = *folder / locale, .words = {}})));
    }
    for (const auto& listed : workbooks::all) {
        SCOPED_TRACE(std::string(listed.file));
        const Book here = office->open_url(template_url(*office, catalogue::Language(), listed), true);
        here.recalculate();
        const auto wanted = numbers(here);
        const Book own = office->open_url(template_url(*office, language(), listed), true);
        own.recalculate();
        expect_same(own, wanted);
        for (std::size_t i = 0; i < others.size(); ++i) {
            SCOPED_TRACE(locales[i]);
            const Book there = others[i]->open_url(template_url(*others[i], language(), listed), true);
            there.recalculate();
            expect_same(there, wanted);
        }
    }
}

}  // namespace
}  // namespace slipbark::tests

// The templates as a user has them: taken from the installed extension, filled in, printed.

#include <algorithm>
#include <boost/algorithm/string/replace.hpp>
#include <cctype>
#include <cmath>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/document/XEventsSupplier.hpp>
#include <com/sun/star/frame/XDocumentTemplates.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/sheet/XViewFreezable.hpp>
#include <com/sun/star/sheet/XViewPane.hpp>
#include <com/sun/star/task/XInteractionHandler.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <cppuhelper/implbase1.hxx>
#include <filesystem>
#include <map>
#include <optional>
#include <rtl/ref.hxx>
#include <rtl/uri.hxx>
#include <set>
#include <sstream>
#include <stdexcept>

#include "calc.hpp"
#include "catalogue/formula.hpp"
#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "folder.hpp"
#include "languages.hpp"
#include "reference.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

/// Named cells with what to put into them, and with what they then show.
struct Change {
    const char* workbook;
    std::map<std::string, double> inputs;
    std::map<std::string, double> answers;
};

class EachWorkbook : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Templates, EachWorkbook, testing::ValuesIn(workbook_files()),
                         [](const auto& name) { return as_id(name.param); });

TEST_P(EachWorkbook, OpensFromTheExtensionWithoutAnErrorAndPrints) {
    const Book book = calc().open_url(url_of(GetParam()), true);
    book.recalculate();
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    const Folder folder;
    book.save_as(folder / "printed.pdf", "calc_pdf_Export");
    EXPECT_GT(std::filesystem::file_size(folder / "printed.pdf"), 10'000U);
}

/// Counts what the office would have asked its user, and answers nothing.
class Questions : public cppu::WeakImplHelper1<css::task::XInteractionHandler> {
  public:
    void SAL_CALL handle(const Ref<css::task::XInteractionRequest>& /*request*/) override { ++count; }
    int count = 0;
};

/// Opens as a double click does: macros and links as the user's settings have them, which make_profile has set to ask.
/// Gives the number of questions.
int questions(const std::string& url, std::optional<Book>& book) {
    const rtl::Reference<Questions> asked(new Questions);
    const Ref<css::task::XInteractionHandler> handler(asked.get());
    const auto how =
        properties({property("Hidden", css::uno::Any(true)), property("AsTemplate", css::uno::Any(true)),
                    property("MacroExecutionMode", css::uno::Any(css::document::MacroExecMode::USE_CONFIG)),
                    property("UpdateDocMode", css::uno::Any(css::document::UpdateDocMode::ACCORDING_TO_CONFIG)),
                    property("InteractionHandler", css::uno::Any(handler))});
    book.emplace(calc().desktop()->loadComponentFromURL(ustring(url), "_blank", 0, how));
    return asked->count;
}

TEST_P(EachWorkbook, AsksNothingAboutMacrosOrLinks) {
    std::optional<Book> book;
    EXPECT_EQ(questions(url_of(GetParam()), book), 0);
    const Ref<css::beans::XPropertySet> set(book->document(), css::uno::UNO_QUERY_THROW);
    for (const char* links : {"ExternalDocLinks", "AreaLinks", "DDELinks", "SheetLinks"}) {
        const Ref<css::container::XElementAccess> all(set->getPropertyValue(rtl::OUString::createFromAscii(links)),
                                                      css::uno::UNO_QUERY_THROW);
        EXPECT_FALSE(all->hasElements()) << links;
    }
    const Ref<css::container::XNameAccess> libraries(set->getPropertyValue("BasicLibraries"),
                                                     css::uno::UNO_QUERY_THROW);
    for (const auto& name : libraries->getElementNames()) {
        const Ref<css::container::XElementAccess> library(libraries->getByName(name), css::uno::UNO_QUERY_THROW);
        EXPECT_FALSE(library->hasElements()) << utf8(name);
    }
    const Ref<css::document::XEventsSupplier> events(book->document(), css::uno::UNO_QUERY_THROW);
    for (const auto& name : events->getEvents()->getElementNames()) {
        css::uno::Sequence<css::beans::PropertyValue> bound;
        events->getEvents()->getByName(name) >>= bound;
        EXPECT_FALSE(bound.hasElements()) << utf8(name);
    }
}

TEST(Templates, WithAMacroWouldBeAskedAbout) {
    // Or the test above could not fail.
    const Folder folder;
    const auto file = folder / "macro.ods";
    {
        const Book book = calc().new_book();
        book.add_macro("Module1", "Sub Main\nEnd Sub\n");
        book.save_as(file, "calc8");
    }
    std::optional<Book> book;
    EXPECT_GT(questions(file_url(file), book), 0);
}

/// Every cell in use: by sheet and line, each as "formula -> value" with the values of a line one after the other.
std::map<std::string, std::string> cells_of(const Book& book) {
    std::map<std::string, std::string> lines;
    for (const auto& name : book.sheets()) {
        Ref<css::sheet::XSpreadsheet> sheet;
        book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
        const auto cursor = sheet->createCursor();
        const Ref<css::sheet::XUsedAreaCursor> used(cursor, css::uno::UNO_QUERY_THROW);
        used->gotoEndOfUsedArea(true);
        const auto formulas = Ref<css::sheet::XCellRangeFormula>(cursor, css::uno::UNO_QUERY_THROW)->getFormulaArray();
        const auto values = Ref<css::sheet::XCellRangeData>(cursor, css::uno::UNO_QUERY_THROW)->getDataArray();
        for (sal_Int32 row = 0; row < formulas.getLength(); ++row) {
            std::ostringstream line;
            for (sal_Int32 column = 0; column < formulas[row].getLength(); ++column) {
                line << utf8(formulas[row][column]) << " -> ";
                if (double number = 0; values[row][column] >>= number) {
                    line << number;
                } else if (rtl::OUString text; values[row][column] >>= text) {
                    line << utf8(text);
                }
                line << " | ";
            }
            lines[name + ", line " + std::to_string(row + 1)] = line.str();
        }
    }
    return lines;
}

TEST_P(EachWorkbook, IsTheSameInExamples) {
    const Book shipped = calc().open_url(url_of(GetParam()), true);
    const Book example = calc().copy_of(examples() / (GetParam() + ".fods"));
    shipped.recalculate();
    example.recalculate();
    EXPECT_EQ(example.errors(), std::vector<std::string>());
    const auto lines = cells_of(shipped);
    EXPECT_GT(lines.size(), 50U);
    const auto in_example = cells_of(example);
    EXPECT_EQ(lines.size(), in_example.size());
    // Line by line, so that a difference is told without the rest of the workbook.
    for (const auto& [where, line] : lines) {
        const auto found = in_example.find(where);
        ASSERT_NE(found, in_example.end()) << where;
        ASSERT_EQ(line, found->second) << where;
    }
}

/// What a user has in sight of each sheet: rows frozen at the top, and the cell the cursor is on.
using Sights = std::map<std::string, std::pair<sal_Int32, std::string>>;

Sights sights(const Book& book) {
    Sights found;
    const Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const Ref<css::sheet::XSpreadsheetView> view(model->getCurrentController(), css::uno::UNO_QUERY_THROW);
    const Ref<css::sheet::XViewFreezable> panes(view, css::uno::UNO_QUERY_THROW);
    const Ref<css::container::XIndexAccess> parts(view, css::uno::UNO_QUERY_THROW);
    for (const auto& name : book.sheets()) {
        Ref<css::sheet::XSpreadsheet> sheet;
        book.document()->getSheets()->getByName(ustring(name)) >>= sheet;
        view->setActiveSheet(sheet);
        const Ref<css::beans::XPropertySet> cursor(model->getCurrentSelection(), css::uno::UNO_QUERY_THROW);
        rtl::OUString address;
        cursor->getPropertyValue("AbsoluteName") >>= address;
        const Ref<css::sheet::XViewPane> top(parts->getByIndex(0), css::uno::UNO_QUERY_THROW);
        found[name] = {panes->hasFrozenPanes() ? top->getVisibleRange().EndRow + 1 : 0, utf8(address)};
    }
    return found;
}

TEST_P(EachWorkbook, KeepsFrozenPanesAndCursorInItsTemplate) {
    const Book composed = calc().open_url(file_url(examples() / (GetParam() + ".fods")), true, false);
    const Book made = calc().open_url(url_of(GetParam()), true, false);
    const Sights wanted = sights(composed);
    EXPECT_EQ(sights(made), wanted);
    EXPECT_TRUE(std::any_of(wanted.begin(), wanted.end(), [](const auto& sheet) {
        return !sheet.second.second.ends_with("$A$1");
    })) << "no sheet puts the cursor on an entry";
}

TEST(Templates, SomeFreezeTheHeadingsOfTheirTables) {
    // Or the test above could not fail.
    const Sights log = sights(calc().open_url(url_of("inspection-log"), true, false));
    EXPECT_GT(log.at("Log").first, 0);
}

TEST(Templates, AreListedInACategoryOfTheirOwn) {
    const Ref<css::frame::XDocumentTemplates> templates(calc().create("com.sun.star.frame.DocumentTemplates"),
                                                        css::uno::UNO_QUERY_THROW);
    templates->update();
    const auto root = templates->getContent()->getIdentifier()->getContentIdentifier();
    const auto folder = css::ucb::SimpleFileAccess::create(calc().context());
    std::map<std::string, std::set<std::string>> wanted;
    for (const auto& listed : workbooks::all) {
        // The title of book.tsv, as the composed workbook has it.
        const auto workbook = content(examples() / (std::string(listed.file) + ".fods"));
        const auto titles = matches(workbook, "<dc:title>([^<]*)</dc:title>");
        ASSERT_EQ(titles.size(), 1U) << listed.file;
        const std::string title = boost::replace_all_copy(titles.front()[1], "&apos;", "'");
        wanted[std::string(listed.category.english())].insert(title);
    }
    for (const auto& [category, titles] : wanted) {
        std::set<std::string> shown;
        const auto url = root + "/" + ustring(boost::replace_all_copy(category, " ", "%20"));
        for (const auto& one : folder->getFolderContents(url, true)) {
            shown.insert(utf8(
                rtl::Uri::decode(one.copy(one.lastIndexOf('/') + 1), rtl_UriDecodeWithCharset, RTL_TEXTENCODING_UTF8)));
        }
        EXPECT_EQ(shown, titles) << category;
    }
}

class Changes : public testing::TestWithParam<Change> {};

TEST_P(Changes, AreFollowedByTheAnswers) {
    const auto& [workbook, inputs, answers] = GetParam();
    const Book book = calc().open_url(url_of(workbook), true);
    for (const auto& [name, value] : inputs) book.set(book.named(name), value);
    for (const auto& [name, value] : answers) {
        EXPECT_NEAR(number(book, name), value, 1e-6) << name;
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
    // 1.96^2 * 0.85 * 0.15 / 0.1^2 = 48.98, and 46.7 of it for 1000 trees.
    {"inspection-log", {{"trees", 1000}, {"margin", 0.1}, {"expected", 0.85}}, {{"inspect", 47}}},
    // 18 days after 1 March 2028, as serial numbers of the usual null date.
    {"rework-plan", {{"graft_date", 46813}, {"window_end", 46873}}, {{"first_look", 46831}}},
};

TEST(InspectionLog, FollowsLookWoodAndWantedGrafts) {
    const Book book = calc().open_url(url_of("inspection-log"), true);
    book.set(book.named("buds_per_stick"), 9);
    book.set(book.named("spare"), 0.15);
    EXPECT_EQ(number(book, "redo_sticks"), std::ceil(number(book, "redo") * 1.15 / 3)) << "3 buds of 9 leave 3 scions";
    const double second = number(book, "seen");
    book.set(book.named("look"), 1);
    EXPECT_GT(number(book, "seen"), second) << "more trees were looked at the first time";
    const double redo = number(book, "redo");
    book.set(book.named("wanted"), number(book, "wanted") + 1);
    EXPECT_GT(number(book, "redo"), redo);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(ReworkOrReplant, FollowsPriceRoyaltyAndRate) {
    const Book book = calc().open_url(url_of("rework-or-replant"), true);
    const double price = number(book, "pays_price_rework");
    book.set(book.named("royalty_kg_rework"), number(book, "royalty_kg_rework") + 0.01);
    EXPECT_NEAR(number(book, "pays_price_rework"), price + 0.01, 1e-9) << "a royalty per kg must be earned by the kg";
    book.set(book.named("price_rework"), number(book, "pays_price_rework"));
    EXPECT_NEAR(number(book, "present_value_rework"), 0, 1e-6) << "at the break-even price nothing is left over";
    EXPECT_NEAR(number(book, "equal_annual_rework"), 0, 1e-6);
    const double leave = number(book, "present_value_leave");
    book.set(book.named("rate"), number(book, "rate") + 0.02);
    EXPECT_LT(number(book, "present_value_leave"), leave) << "later income counts for less";
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(SpringHeat, FollowsTargetBaseAndGraftDate) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const double callus = number(book, "callus_date");
    book.set(book.named("target_sum"), number(book, "target_sum") * 0.8);
    EXPECT_LT(number(book, "callus_date"), callus) << "less heat is there sooner";
    const double sum = number(book, "heat_sum");
    book.set(book.named("base_temp"), number(book, "base_temp") + 1);
    EXPECT_LT(number(book, "heat_sum"), sum) << "a higher base counts less heat";
    const double look = number(book, "first_look");
    book.set(book.named("graft_date"), number(book, "graft_date") + 3);
    EXPECT_EQ(number(book, "first_look"), look + 3);
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

/// A worked example by the function's own name: its answer's cell, and the cells its formula names, in order.
struct Card {
    std::string answer;
    std::vector<std::string> inputs;
    std::string verdict;  ///< its line in the list of all
};

constexpr int first_listed = 21;  // row of sheet Overview where the list of all begins

Card card_of(const Book& book, const std::string& function) {
    for (int line = first_listed;; ++line) {
        const std::string at = std::to_string(line);
        const std::string name = book.shown("Overview.B" + at).text;
        if (name.empty()) throw std::runtime_error("no example of " + function);
        if (name != function || book.shown("Overview.C" + at).number != 1) continue;  // the guide's own
        const std::string place = book.shown("Overview.E" + at).text;                 // "Block, row 12"
        const auto found = matches(place, "^(\\w+), row (\\d+)$");
        if (found.empty()) throw std::runtime_error(place);
        const std::string sheet = found[0][1] + ".";
        for (int row = std::stoi(found[0][2]);; ++row) {
            const std::string formula = book.formula(sheet + "H" + std::to_string(row));
            if (formula.find("SLIPBARK." + function + "(") == std::string::npos) continue;
            Card card{sheet + "H" + std::to_string(row), {}, "Overview.F" + at};
            for (const catalogue::Token& token : catalogue::tokens(formula)) {
                if (token.part == catalogue::Part::reference) card.inputs.push_back(sheet + std::string(token.text));
            }
            return card;
        }
    }
}

TEST(WorkedExamples, AllAgreeUntilAnInputIsChanged) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    book.recalculate();
    EXPECT_EQ(number(book, "all_agree"), 1);
    EXPECT_EQ(number(book, "agreeing"), number(book, "examples"));
    EXPECT_GE(number(book, "examples"), 70);
    EXPECT_EQ(number(book, "differing"), 0);

    book.set_text(book.named("show_all"), "show");
    EXPECT_EQ(number(book, "agreeing"), number(book, "examples")) << "and once the answers are shown";
    const double examples = number(book, "examples");
    const auto change = [&](const char* function, std::size_t input, double value, double answer, int changed) {
        const Card card = card_of(book, function);
        ASSERT_GT(card.inputs.size(), input) << function;
        EXPECT_EQ(book.shown(card.verdict).text, "agrees") << function;
        const double printed = book.shown(card.inputs[input]).number;
        ASSERT_NE(printed, value) << "changes nothing";
        book.set(card.inputs[input], value);
        EXPECT_NEAR(book.shown(card.answer).number, answer, 1e-9) << function;
        EXPECT_EQ(book.shown(card.verdict).text, "changed") << function;
        EXPECT_EQ(number(book, "changed"), changed);
        EXPECT_EQ(number(book, "agreeing"), examples - changed);
        EXPECT_EQ(number(book, "all_agree"), 1) << "nothing is said of what was changed";
    };
    change("REWORK.TREES", 0, 3, 1250, 1);     // 30,000 m2 at 24 m2 a tree
    change("REWORK.STICKS", 0, 1600, 460, 2);  // 1,600 x 1.15 over 4 scions from a stick
    change("REWORK.TAKE", 0, 16, 0.25, 3);     // of 64
    EXPECT_EQ(book.errors(), std::vector<std::string>());

    // The printed input brings the verdict back.
    book.set(card_of(book, "REWORK.TAKE").inputs[0], 37);
    EXPECT_EQ(number(book, "changed"), 2);
    EXPECT_EQ(number(book, "agreeing"), examples - 2);
}

TEST(WorkedExamples, AWrongAnswerIsToldOnTheFirstSheet) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    const Card card = card_of(book, "REWORK.TAKE");
    book.set_text(book.named("show_all"), "show");
    book.set(card.answer, 0.5);
    EXPECT_EQ(book.shown(card.verdict).text, "DIFFERS");
    EXPECT_EQ(number(book, "all_agree"), 0);
    EXPECT_NE(book.shown("Overview.B4").text.find("DIFFER"), std::string::npos);
}

/// The cells of the card that holds an answer, from the answer's own line down: what stands beside a label in column G.
std::string beside(const Book& book, const Card& card, const std::string& label) {
    const std::string sheet = card.answer.substr(0, card.answer.find('.') + 1);
    const int row = std::stoi(card.answer.substr(sheet.size() + 1));
    for (int at = row - 3; at < row + 12; ++at) {
        if (book.shown(sheet + "G" + std::to_string(at)).text == label) return sheet + "H" + std::to_string(at);
    }
    throw std::runtime_error("no " + label + " near " + card.answer);
}

TEST(WorkedExamples, AnswersAreHiddenUntilTheyAreAskedFor) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    book.recalculate();
    const auto text = [&](const std::string& cell) { return book.shown(cell).text; };
    const Card trees = card_of(book, "REWORK.TREES");
    const Card take = card_of(book, "REWORK.TAKE");
    for (const Card& card : {trees, take}) {
        for (const char* hidden : {"Formula", "Answer", "In the guide", "By hand"}) {
            EXPECT_EQ(text(beside(book, card, hidden)), "") << card.answer << " " << hidden;
        }
        EXPECT_EQ(text(card.verdict), "agrees") << "judged while hidden";
    }
    // The student's own answer is judged without giving the right one away: 10,000 x 2 / (6 x 4) = 833.3, whole trees.
    const std::string own = beside(book, trees, "Your answer");
    const std::string said = "Block.I" + own.substr(own.find('.') + 2);
    EXPECT_EQ(text(said), "");
    book.set(own, 834);
    EXPECT_EQ(text(said), "not yet");
    book.set(own, 833);
    EXPECT_EQ(text(said), "right");

    book.set_text(book.named("show_1"), "show");  // the lesson of sheet Block alone
    EXPECT_EQ(book.shown(trees.answer).number, 833);
    EXPECT_EQ(book.shown(beside(book, trees, "In the guide")).number, 833);
    EXPECT_EQ(text(beside(book, trees, "Formula")).substr(0, 14), "=REWORK.TREES(");
    EXPECT_EQ(text(beside(book, trees, "Formula")).back(), ')');
    EXPECT_NE(text(beside(book, trees, "By hand")), "");
    EXPECT_EQ(text(take.answer), "");
    EXPECT_EQ(number(book, "all_agree"), 1);

    book.set_text(book.named("show_all"), "show");
    EXPECT_EQ(book.shown(take.answer).number, 37.0 / 64);
    EXPECT_EQ(number(book, "all_agree"), 1);
    EXPECT_EQ(number(book, "agreeing"), number(book, "examples"));
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(WorkedExamples, EachCheckValueIsARowOfTheReferenceOrSaidToBeNone) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    std::map<std::string, std::set<std::string>> ids;
    for (const std::string& file : reference_files()) {
        for (const Row& row : rows(file)) {
            if (row.has("id")) ids[file].insert(row["id"]);
        }
    }
    int cards = 0;
    int found = 0;
    for (const char* sheet : {"Block", "Calendar", "Take", "Materials", "Money", "Support"}) {
        for (int row = 5, blanks = 0; blanks < 60; ++row, ++blanks) {
            const std::string at = std::to_string(row);
            if (book.shown(std::string(sheet) + ".G" + at).text != "Check value") continue;
            blanks = 0;
            ++cards;
            const std::string says = book.shown(std::string(sheet) + ".H" + at).text;
            if (says == "none in tests/reference") continue;
            const auto named = matches(says, "^([A-Za-z_]+\\.csv), row ([A-Za-z0-9-]+)$");
            ASSERT_EQ(named.size(), 1U) << says;
            EXPECT_TRUE(ids[named[0][1]].contains(named[0][2])) << says;
            ++found;
        }
    }
    EXPECT_EQ(cards, number(book, "examples"));
    EXPECT_GE(found, 50);
}

/// Days since 30 December 1899, the null date of the workbooks.
double serial(int year, unsigned month, unsigned day) {
    using namespace std::chrono;
    return static_cast<double>((sys_days{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day}} -
                                sys_days{std::chrono::year{1899} / December / 30})
                                   .count());
}

TEST(WorkedExamples, TheSceneOfWalnutsIsWorkedByHand) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    book.recalculate();
    EXPECT_EQ(number(book, "w_sites"), 773);  // 12 x 43,560 / (26 x 26) = 773.25
    EXPECT_EQ(number(book, "w_missing"), 33);
    EXPECT_EQ(number(book, "w_sticks"), 4255);                 // 7 buds give 2 scions of 3; 7,400 x 1.15 / 2
    EXPECT_NEAR(number(book, "w_chance"), 0.8497, 5e-5);       // tables of the binomial: 6 or more of 10 at 0.7
    EXPECT_EQ(number(book, "w_days"), 28);                     // 7,400 / 270 = 27.4
    EXPECT_EQ(number(book, "w_finish"), serial(2028, 4, 26));  // five weeks to Friday 21 April, and three days
    EXPECT_EQ(number(book, "w_order"), serial(2027, 9, 20));   // six months before
    EXPECT_EQ(number(book, "w_wood"), serial(2028, 1, 10));    // ten weeks before
    EXPECT_EQ(number(book, "w_check"), serial(2028, 4, 17));   // four weeks after
    EXPECT_EQ(number(book, "w_crop"), serial(2030, 10, 1));    // the first October after 29 months, 20 August 2030
    EXPECT_NEAR(number(book, "w_paint"), 16.4444, 5e-5);       // 7,400 / 250 / 0.9, half of it water
    EXPECT_NEAR(number(book, "w_per_acre"), 5426.67, 0.005);   // 740 x 0.8 x 110 / 12
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(WorkedExamples, TheSceneOfMangoesIsWorkedByHand) {
    const Book book = calc().open_url(url_of("worked-examples"), true);
    book.recalculate();
    EXPECT_EQ(number(book, "m_grafts"), 480);
    EXPECT_EQ(number(book, "m_sticks"), 72);                 // 480 x 1.2 / 8
    EXPECT_NEAR(number(book, "m_alive"), 0.82, 1e-12);       // three fifths of the way from 100 to 70 %
    EXPECT_NEAR(number(book, "m_take"), 0.615, 1e-12);       // 0.75 x 0.82
    EXPECT_NEAR(number(book, "m_chance"), 0.98849, 5e-6);    // four or more of 12 at 0.615, in exact fractions
    EXPECT_EQ(number(book, "m_cut"), serial(2027, 7, 26));   // ten weeks before
    EXPECT_EQ(number(book, "m_thin"), serial(2027, 8, 30));  // five weeks after that
    EXPECT_EQ(number(book, "m_days"), 4);
    EXPECT_EQ(number(book, "m_finish"), serial(2027, 10, 7));  // Monday to Thursday
    EXPECT_EQ(number(book, "m_check"), serial(2027, 10, 22));  // 18 days after
    EXPECT_EQ(number(book, "m_crop"), serial(2031, 1, 1));     // the first January after 34 months, 4 August 2030
    EXPECT_NEAR(number(book, "m_crop_kg"), 1920, 1e-9);        // 40 x 0.8 x 60
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

INSTANTIATE_TEST_SUITE_P(Templates, Changes, testing::ValuesIn(changes), [](const auto& change) {
    return as_id(change.param.workbook) + std::to_string(change.index);
});

}  // namespace
}  // namespace slipbark::tests

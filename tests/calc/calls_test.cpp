// Every function from a cell of real Calc: its value, its shape, its errors, and how Calc itself sees it.

#include <algorithm>
#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <cmath>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/FunctionArgument.hpp>
#include <com/sun/star/sheet/XFunctionDescriptions.hpp>
#include <iomanip>
#include <map>
#include <random>
#include <sstream>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "folder.hpp"
#include "formula.hpp"
#include "reference.hpp"
#include "send.hpp"

namespace slipbark::catalogue {

/// For the messages of failing tests.
static std::ostream& operator<<(std::ostream& out, const FunctionEntry& entry) { return out << entry.cell_name(); }

}  // namespace slipbark::catalogue

namespace slipbark::tests {

using namespace office;
using catalogue::FunctionEntry;

namespace {

constexpr int bad_argument_code = 502;
constexpr int no_answer_code = 32767;

const Book& book() {
    static const Book shared = calc().new_book();
    return shared;
}

/// What a cell shows, as the catalogue would give it, so that both are compared by one rule.
catalogue::Outcome outcome_of(const Shown& shown) {
    if (shown.error != 0) return shown.error == no_answer_code ? "#N/A" : "Err:" + std::to_string(shown.error);
    if (shown.is_text) return shown.text;
    return shown.number;
}

std::vector<FunctionEntry> entries() {
    std::vector<FunctionEntry> all;
    for (const auto& area : catalogue::areas()) all.insert(all.end(), area.entries.begin(), area.entries.end());
    return all;
}

std::string method_name(const testing::TestParamInfo<FunctionEntry>& entry) { return std::string(entry.param.method); }

class EachFunction : public testing::TestWithParam<FunctionEntry> {};

INSTANTIATE_TEST_SUITE_P(Calc, EachFunction, testing::ValuesIn(entries()), method_name);

TEST_P(EachFunction, ShowsItsExampleInACell) {
    const FunctionEntry& entry = GetParam();
    const Shown shown = book().calculate("=" + std::string(entry.texts.example));
    EXPECT_EQ(shown.error, 0) << entry.texts.example;
    EXPECT_TRUE(shows(outcome_of(shown), entry.texts.shows)) << entry.texts.example;
}

TEST_P(EachFunction, IsListedWithItsNamesAndHelp) {
    const FunctionEntry& entry = GetParam();
    static const auto listed = [] {
        std::map<std::string, css::uno::Sequence<css::beans::PropertyValue>> found;
        const Ref<css::container::XIndexAccess> all(calc().create("com.sun.star.sheet.FunctionDescriptions"),
                                                    css::uno::UNO_QUERY_THROW);
        for (sal_Int32 index = 0; index < all->getCount(); ++index) {
            css::uno::Sequence<css::beans::PropertyValue> properties;
            all->getByIndex(index) >>= properties;
            for (const auto& property : properties) {
                if (property.Name == "Name") found[utf8(property.Value.get<rtl::OUString>())] = properties;
            }
        }
        return found;
    }();
    ASSERT_TRUE(listed.contains(entry.cell_name()));
    for (const auto& property : listed.at(entry.cell_name())) {
        if (property.Name == "Description") {
            const std::string help = utf8(property.Value.get<rtl::OUString>());
            EXPECT_TRUE(help.starts_with(entry.texts.does.english())) << help;
            EXPECT_NE(help.find(entry.texts.example), std::string::npos) << help;
        }
        if (property.Name == "Arguments") {
            css::uno::Sequence<css::sheet::FunctionArgument> arguments;
            property.Value >>= arguments;
            ASSERT_EQ(static_cast<std::size_t>(arguments.getLength()), entry.arguments.size());
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                const auto& argument = arguments[static_cast<sal_Int32>(at)];
                // A name that the host cannot match shows as ###, without a warning anywhere.
                EXPECT_EQ(utf8(argument.Name), entry.arguments[at].name);
                EXPECT_TRUE(utf8(argument.Description).starts_with(entry.arguments[at].meaning.english()))
                    << utf8(argument.Description);
            }
        }
    }
}

/// Those that begin with one number or date. A list may hold texts where it names groups, and says so by row; the
/// misuse tests of ring two go into that.
std::vector<FunctionEntry> begin_with_a_number() {
    auto found = entries();
    std::erase_if(found, [](const FunctionEntry& entry) {
        return entry.parameters.empty() || (entry.parameters[0].kind != catalogue::Kind::number &&
                                            entry.parameters[0].kind != catalogue::Kind::date);
    });
    return found;
}

class EachFunctionOfANumber : public testing::TestWithParam<FunctionEntry> {};

INSTANTIATE_TEST_SUITE_P(Calc, EachFunctionOfANumber, testing::ValuesIn(begin_with_a_number()), method_name);

TEST_P(EachFunctionOfANumber, RefusesTextForItAndWhySaysSo) {
    const FunctionEntry& entry = GetParam();
    auto arguments = catalogue::find_call(entry.texts.example).value().arguments;
    arguments.at(0) = "\"about ten\"";
    const std::string given = boost::algorithm::join(arguments, ";") + ")";
    EXPECT_NE(book().calculate("=" + entry.cell_name() + "(" + given).error, 0);
    const Shown why = book().calculate("=REWORK.WHY(\"" + entry.cell_name() + "\";" + given);
    EXPECT_EQ(why.text.find(entry.arguments[0].name), 0U) << why.text;
}

TEST(Outcomes, AreABadArgumentOrNoAnswer) {
    EXPECT_EQ(book().calculate("=REWORK.STICKS(3200;2;9;15)").error, bad_argument_code);
    EXPECT_EQ(book().calculate("=REWORK.STICKS(2.5;2;9)").error, bad_argument_code);
    EXPECT_EQ(book().calculate("=REWORK.TAKE(0;0)").error, no_answer_code);
    EXPECT_EQ(book().calculate("=REWORK.WHY(\"TAKE\";0;0)").text, catalogue::find("TAKE")->texts.no_answer.english());
    EXPECT_EQ(book().calculate("=REWORK.WHY(\"TAKE\";8;10)").text, "");
}

TEST(Outcomes, ShowAnErrorOfTheInputAsAnError) {
    const Book sheet = calc().new_book();
    sheet.set_formula("A1", "=1/0");
    sheet.set("A2", 3);
    EXPECT_EQ(sheet.calculate("=REWORK.STICKS(A1;2;9)").error, 532);
    EXPECT_NE(sheet.calculate("=REWORK.REGRAFTS(A1:A2;4)").error, 0);
}

TEST(Outcomes, BlankCellsReachTheFunctionAsTheHostHasIt) {
    const Book sheet = calc().new_book();
    EXPECT_EQ(sheet.calculate("=REWORK.TREES(2;A1;3)").error, bad_argument_code);
    EXPECT_EQ(sheet.calculate("=REWORK.WHY(\"TREES\";2;A1;3)").text.find("row_spacing_m was 0 (the cell may be blank)"),
              0U);
    sheet.set_formula("A2", "=\"\"");
    EXPECT_EQ(sheet.calculate("=REWORK.STICKS(3200;2;9;A2)").number, 800) << "an empty text means not given";
}

// The host hands over one blank cell as the number 0, whatever is asked for, and a blank cell of a range as one.
TEST(Outcomes, OneBlankCellIsZeroAndARangeOfItIsBlank) {
    const Book sheet = calc().new_book();
    sheet.set_formula("A2", "=\"\"");
    sheet.set("A3", 0.15);
    EXPECT_EQ(sheet.calculate("=REWORK.REGRAFTS(A1;3)").number, 3);
    EXPECT_EQ(sheet.calculate("=REWORK.REGRAFTS(A1:A1;3)").number, 0);
    EXPECT_EQ(sheet.calculate("=REWORK.REGRAFTS(A2;3)").number, 0);
    EXPECT_EQ(sheet.calculate("=REWORK.TAKETREES(A1:A1;4)").error, no_answer_code);
    EXPECT_EQ(sheet.calculate("=REWORK.TAKETREES(A2;4)").error, no_answer_code);
    EXPECT_EQ(sheet.calculate("=REWORK.PAYBACK(A1)").number, 0);
    EXPECT_EQ(sheet.calculate("=REWORK.PAYBACK(A1:A1)").error, bad_argument_code);
    EXPECT_EQ(sheet.calculate("=REWORK.STICKS(3200;2;9;A1)").number, 800);
    EXPECT_EQ(sheet.calculate("=REWORK.CREWDAYS(920;A1:A1)").error, bad_argument_code);
    EXPECT_EQ(sheet.calculate("=REWORK.TAKELOW(4;20;A1:A1)").number, sheet.calculate("=REWORK.TAKELOW(4;20)").number);
    EXPECT_EQ(sheet.calculate("=REWORK.STICKS(3200;2;9;A3:A3)").number, 920);
}

// The range of one cell must still be one when the document is opened again.
TEST(Outcomes, ARangeOfOneCellStaysOne) {
    const Folder folder;
    const Book sheet = calc().new_book();
    sheet.set_formula("B1", "=REWORK.REGRAFTS(A1:A1;3)");
    sheet.set_formula("C1", "=ROWS(A1:A1)");
    for (const auto& [filter, name] : {std::pair("calc8", "one.ods"),
                                       {"OpenDocument Spreadsheet Flat XML", "one.fods"},
                                       {"Calc MS Excel 2007 XML", "one.xlsx"}}) {
        sheet.save_as(folder / name, filter);
        const Book again = calc().open(folder / name);
        again.recalculate();
        if (again.formula("C1").find("A1:A1") == std::string::npos) {
            // LibreOffice 25.2 writes it so to .xlsx, whoever the function belongs to.
            EXPECT_EQ(name, std::string("one.xlsx")) << "the office makes one cell of a range";
            continue;
        }
        EXPECT_EQ(again.shown("B1").number, 0) << name;
        EXPECT_NE(again.formula("B1").find("A1:A1"), std::string::npos) << name << ": " << again.formula("B1");
    }
}

TEST(Arrays, HaveTheShapeTheirHelpSays) {
    const Book sheet = calc().new_book();
    sheet.set_array("A1:E15", "=REWORK.SCHEDULE(DATE(2027;9;6))");
    EXPECT_EQ(sheet.shown("A1").text, "Cut back and paint");
    EXPECT_EQ(sheet.shown("A14").text, "Second crop");
    EXPECT_EQ(sheet.shown("C2").number, sheet.calculate("=DATE(2027;9;6)").number);
    EXPECT_EQ(sheet.shown("A15").error, no_answer_code) << "the host pads what is past the end";
    sheet.set_array("G1:G3", "=REWORK.YIELDBYYEAR(100;3;100;0.9)");
    EXPECT_EQ(sheet.shown("G1").error, 0);
    EXPECT_EQ(sheet.shown("G3").error, 0);
    EXPECT_GT(sheet.shown("G3").number, sheet.shown("G1").number);
    sheet.set_array("H1:M1", "=REWORK.TAKETREES({3;4;2};{4;4;4})");
    EXPECT_EQ(sheet.shown("H1").number, 0.75);
    EXPECT_EQ(sheet.shown("L1").number, 3);
    EXPECT_EQ(sheet.shown("M1").number, 12);
}

TEST(Arrays, ScalarFunctionsAreCalledCellByCell) {
    const Book sheet = calc().new_book();
    for (int row = 1; row <= 3; ++row) sheet.set("A" + std::to_string(row), 800.0 * row);
    sheet.set_array("B1:B3", "=REWORK.STICKS(A1:A3;2;9)");
    EXPECT_EQ(sheet.shown("B1").number, 200);
    EXPECT_EQ(sheet.shown("B3").number, 600);
}

class NullDates : public testing::TestWithParam<Day> {};

TEST_P(NullDates, GiveTheSameCalendarDays) {
    const Book sheet = calc().new_book();
    const std::chrono::year_month_day null{GetParam()};
    sheet.set_null_date(static_cast<int>(null.year()), static_cast<int>(static_cast<unsigned>(null.month())),
                        static_cast<int>(static_cast<unsigned>(null.day())));
    const auto year_month_day = [&](const std::string& formula) {
        return sheet.calculate("=TEXT(" + formula + ";\"YYYY-MM-DD\")").text;
    };
    EXPECT_EQ(year_month_day("REWORK.MILESTONE(DATE(2027;9;6);\"Nurse limb off\")"), "2029-03-06");
    EXPECT_EQ(year_month_day("REWORK.MILESTONE(DATE(2027;8;31);\"Start the framework\";1)"), "2028-02-29");
    EXPECT_EQ(year_month_day("REWORK.CREWFINISH(DATE(2027;9;3);100;10;2;\"0000011\";DATE(2027;9;6))"), "2027-09-10");
    sheet.set_array("A1:E14", "=REWORK.SCHEDULE(DATE(2027;9;6))");
    EXPECT_EQ(year_month_day("C3"), "2027-09-24");
    EXPECT_EQ(sheet.calculate("=REWORK.WHY(\"MILESTONE\";DATE(2027;9;6);\"Graft\")").text, "");
}

INSTANTIATE_TEST_SUITE_P(Calc, NullDates, testing::Values(iso("1899-12-30"), iso("1900-01-01"), iso("1904-01-01")),
                         [](const auto& null) {
                             return "of_" + std::to_string(null.param.time_since_epoch().count() + 30000);
                         });

/// Ours beside what Calc's own functions give, over random inputs with a fixed seed. Names in braces are filled in.
class BesideCalcsOwn : public testing::Test {
  protected:
    Book book = calc().new_book();
    std::mt19937 engine{2027};

    double whole(int least, int most) {
        return least + static_cast<int>(engine() % static_cast<unsigned>(most - least + 1));
    }

    void expect_same(const std::string& ours, const std::string& own) {
        const Shown mine = book.calculate("=" + ours);
        const Shown theirs = book.calculate("=" + own);
        ASSERT_EQ(mine.error, 0) << ours;
        ASSERT_EQ(theirs.error, 0) << own;
        EXPECT_NEAR(mine.number, theirs.number, 1e-9 * std::max(1.0, std::abs(theirs.number)))
            << ours << " and " << own;
    }
};

std::string filled(std::string text, const std::map<std::string, double>& values) {
    for (const auto& [name, value] : values) {
        std::ostringstream number;
        number << std::setprecision(15) << value;
        boost::replace_all(text, "{" + name + "}", number.str());
    }
    return text;
}

TEST_F(BesideCalcsOwn, Money) {
    int rates = 0;
    for (int round = 0; round < 25; ++round) {
        const int years = static_cast<int>(whole(2, 12));
        book.set("A1", -whole(1000, 9000));
        for (int year = 1; year <= years; ++year) book.set("A" + std::to_string(year + 1), whole(500, 4000));
        const std::string last = std::to_string(years + 1);
        const std::string rate = std::to_string(whole(1, 20) / 100);
        const std::string flows = "A1:A" + last;
        const std::string value = "(A1+NPV(" + rate + ";A2:A" + last + "))";
        expect_same("REWORK.PRESENTVALUE(" + flows + ";" + rate + ")", value);
        expect_same("REWORK.EQUALANNUAL(" + flows + ";" + rate + ")",
                    "-PMT(" + rate + ";" + std::to_string(years) + ";" + value + ")");
        // At the internal rate of return nothing is left over.
        const Shown nothing = book.calculate("=REWORK.PRESENTVALUE(" + flows + ";IRR(" + flows + "))");
        const Shown inner = book.calculate("=IRR(" + flows + ")");
        if (inner.error == 0 && inner.number >= 0) {
            EXPECT_NEAR(nothing.number, 0, 1e-5) << flows;
            ++rates;
        }
    }
    EXPECT_GT(rates, 10);
}

TEST_F(BesideCalcsOwn, WorkingDaysAndMonths) {
    for (int round = 0; round < 25; ++round) {
        const std::map<std::string, double> with{{"start", 46300 + whole(0, 700)}, {"grafts", whole(1, 9000)},
                                                 {"day", whole(50, 200)},          {"crew", whole(1, 9)},
                                                 {"end", 47010 + whole(0, 40)},    {"holiday", 46310 + whole(0, 700)}};
        const auto same = [&](const char* ours, const char* own) {
            expect_same(filled(ours, with), filled(own, with));
        };
        same("REWORK.CREWDAYS({grafts};{day};{crew})", "ROUNDUP({grafts}/{day}/{crew};0)");
        same("REWORK.CREWFINISH({start};{grafts};{day};{crew};\"0000011\";{holiday})",
             "WORKDAY.INTL({start}-1;ROUNDUP({grafts}/{day}/{crew};0);\"0000011\";{holiday})");
        same("REWORK.CREWSIZE({start};{end};{grafts};{day};\"1000001\";{holiday})",
             "ROUNDUP({grafts}/{day}/NETWORKDAYS.INTL({start};{end};\"1000001\";{holiday});0)");
        same("REWORK.MILESTONE({start};\"Nurse limb off\")", "EDATE({start};18)");
    }
}

TEST_F(BesideCalcsOwn, Chances) {
    for (int round = 0; round < 25; ++round) {
        const double grafts = whole(2, 60);
        const double live = whole(1, static_cast<int>(grafts) - 1);
        const std::map<std::string, double> with{
            {"n", grafts}, {"x", live}, {"p", whole(5, 95) / 100}, {"c", whole(50, 99) / 100}};
        const auto same = [&](const char* ours, const char* own) {
            expect_same(filled(ours, with), filled(own, with));
        };
        same("REWORK.TREECHANCE({n};{p};{x})", "1-BINOM.DIST({x}-1;{n};{p};1)");
        same("REWORK.TAKELOW({x};{n};{c};\"exact\")", "BETA.INV((1-{c})/2;{x};{n}-{x}+1)");
        same("REWORK.TAKEHIGH({x};{n};{c};\"exact\")", "BETA.INV((1+{c})/2;{x}+1;{n}-{x})");
        // The fewest grafts that do: with one fewer the chance is too small.
        book.set_formula("C3", filled("=REWORK.GRAFTS({x};{p};{c})", with));
        same("AND(1-BINOM.DIST({x}-1;C3;{p};1)>={c};OR(C3={x};1-BINOM.DIST({x}-1;C3-1;{p};1)<{c}))", "TRUE()");
        // Agresti's limits are the plain ones of CONFIDENCE.NORM about a take with a few grafts added.
        book.set_formula("C1", filled("=NORM.S.INV((1+{c})/2)^2", with));
        book.set_formula("C2", filled("=({x}+C1/2)/({n}+C1)", with));
        same("REWORK.TAKELOW({x};{n};{c};\"agresti\")",
             "MAX(0;C2-CONFIDENCE.NORM(1-{c};SQRT(C2*(1-C2));1)/SQRT({n}+C1))");
    }
}

/// Where a single number is wanted the host reads a text before it calls; WHY sees the text itself. What depends on the
/// host's locale (0.85, 9/6/2027) WHY refuses, and so does a call where the host leaves the text alone.
TEST(TextsForNumbers, AreReadByWhyAsByTheHostWhateverItsLocale) {
    const Book sheet = calc().new_book();
    for (const char* text : {"400", "+400", "-400", " 400 ", "4 0", "+-4", "x", "2027-09-06", " 2027-09-06 ",
                             "2027-02-30", "2027-13-01", "027-09-06", "2027-09", "-2027-09-06"}) {
        sheet.set_text("A1", text);
        for (const std::string call :
             {"MILESTONE(A1;3)", "STICKS(A1;2;9)", "SUNHEIGHT(A1;1;41.6;0.6)", "LIMBAREA(A1;0.001;1)"}) {
            const Shown answer = sheet.calculate("=REWORK." + call);
            const Shown why =
                sheet.calculate("=REWORK.WHY(\"" + boost::algorithm::replace_first_copy(call, "(", "\";"));
            EXPECT_EQ(answer.error == 0, why.text.empty()) << call << " of \"" << text << "\": " << why.text;
        }
    }
}

TEST(Typing, TheNamesUsersSeeWorkInAnyCase) {
    const Book sheet = calc().new_book(false);
    Keyboard(calc(), sheet).type("A1", "=rework.sticks(3200;2;9;15%)");
    EXPECT_EQ(sheet.shown("A1").number, 920);
    EXPECT_EQ(sheet.formula("A1"), "=SLIPBARK.REWORK.STICKS(3200;2;9;15%)");
}

}  // namespace
}  // namespace slipbark::tests

// The cell functions in a headless Calc of our own, beside do-nothing add-in functions of the same signatures, the
// host's own functions, a macro and a Python add-in. Prints tables in Markdown. All is computed on the office's main
// thread, as a user's documents are: other threads cost more, a Python function three times.
//   calc_benchmark [scalar] [languages] [limits] [ranges] [columns] [trees] [daybook] [seasons] [components]
//   [FILE.fods...] [FOLDER...]
// trees compares with an inspection-log.fods of another state where that is one of the files.
// FOLDER: of another package, unpacked (build/bundled of another checkout), to be compared with this one. All but files
// and folders where nothing is named. Beside a folder the files are opened with both packages.

#include <algorithm>
#include <array>
#include <boost/algorithm/string/case_conv.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <chrono>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/awt/XRequestCallback.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/sheet/CellInsertMode.hpp>
#include <com/sun/star/sheet/FillDateMode.hpp>
#include <com/sun/star/sheet/FillDirection.hpp>
#include <com/sun/star/sheet/FillMode.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XCellSeries.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <cppuhelper/implbase1.hxx>
#include <fstream>
#include <functional>
#include <future>
#include <iostream>
#include <optional>
#include <set>
#include <stdexcept>

#include "catalogue/catalogue.hpp"
#include "farm.hpp"
#include "formula.hpp"
#include "measure.hpp"
#include "office/office.hpp"
#include "texts.hpp"

namespace slipbark::benchmarks {

namespace {

using css::uno::Any;
using css::uno::UNO_QUERY_THROW;
using office::Book;
using office::Office;
using office::Ref;

/// A to AZ.
std::string column_name(std::size_t column) {
    constexpr std::size_t letters = 26;
    if (column >= letters) return "A" + column_name(column - letters);
    return {static_cast<char>('A' + column)};
}

/// Work for the office's main thread, which waits in a call to us meanwhile: the calls it makes are carried out there.
class OnMainThread final : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    explicit OnMainThread(std::packaged_task<void()> work) : work_(std::move(work)) {}
    void SAL_CALL notify(const Any& /*nothing*/) override { work_(); }

  private:
    std::packaged_task<void()> work_;
};

void on_main_thread(const Office& office, const std::function<void()>& work) {
    const Ref<css::awt::XRequestCallback> requests(office.create("com.sun.star.awt.AsyncCallback"), UNO_QUERY_THROW);
    std::packaged_task<void()> task(work);
    auto done = task.get_future();
    requests->addCallback(new OnMainThread(std::move(task)), Any());
    done.get();
}

/// An error in place of an answer would be measured for nothing.
void require_answer(const Book& book, const std::string& address) {
    const auto shown = book.shown(address);
    if (shown.error == 0) return;
    throw std::runtime_error("error " + std::to_string(shown.error) + " in " + book.formula(address));
}

void calculate_only_when_told(const Book& book) {
    const Ref<css::sheet::XCalculatable> calculatable(book.document(), UNO_QUERY_THROW);
    calculatable->enableAutomaticCalculation(sal_False);
}

void fill_down(const Book& book, const std::string& range, css::sheet::FillMode mode = css::sheet::FillMode_SIMPLE) {
    const Ref<css::sheet::XCellSeries> series(book.range(range), UNO_QUERY_THROW);
    series->fillSeries(css::sheet::FillDirection_TO_BOTTOM, mode, css::sheet::FillDateMode_FILL_DATE_DAY, 1, 1e9);
}

/// An empty spreadsheet that may run the macro function in it.
Book book_with_macro(const Office& office) {
    const auto how = office::properties(
        {office::property("Hidden", Any(true)),
         office::property("MacroExecutionMode", Any(css::document::MacroExecMode::ALWAYS_EXECUTE_NO_WARN))});
    const auto component =
        office.desktop()->loadComponentFromURL(office::ustring("private:factory/scalc"), "_blank", 0, how);
    Book book(component);
    book.add_macro("Sticks", tests::content(SLIPBARK_BENCHMARK_MACRO));
    return book;
}

int many_rows = 100'000;  ///< set once, from the command line

/// One formula over many rows, each with inputs of its own. The inputs stand in the columns from A, tables to the
/// right of everything; the formula names them {0}, {1}, ...
struct Timing {
    std::string name;
    std::string formula;
    std::vector<catalogue::Value> inputs;
    int part = 1;                       ///< of many_rows: what is slow needs fewer
    std::optional<double> answer = {};  ///< in every row, where it is known
};

int rows_of(const Timing& column) { return many_rows / column.part; }

std::string address_of(const catalogue::Value& input, std::size_t place, const Book& book) {
    if (const auto* table = std::get_if<Table>(&input)) {
        const std::size_t left = 12;
        for (std::size_t row = 0; row < table->rows(); ++row) {
            for (std::size_t column = 0; column < table->columns; ++column) {
                const auto address = column_name(left + column) + std::to_string(row + 1);
                if (const auto* number = std::get_if<double>(&table->at(row, column))) book.set(address, *number);
                if (const auto* text = std::get_if<std::string>(&table->at(row, column))) book.set_text(address, *text);
            }
        }
        return "$" + column_name(left) + "$1:$" + column_name(left + table->columns - 1) + "$" +
               std::to_string(table->rows());
    }
    auto address = column_name(place) + "1";
    if (const auto* number = std::get_if<double>(&input)) book.set(address, *number);
    if (const auto* text = std::get_if<std::string>(&input)) book.set_text(address, *text);
    return address;
}

void require_same_answers(const Book& book, const std::string& letter, const Timing& column) {
    require_answer(book, letter + "1");
    const Ref<css::sheet::XCellRangeData> cells(book.range(letter + "1:" + letter + std::to_string(rows_of(column))),
                                                UNO_QUERY_THROW);
    const auto rows = cells->getDataArray();
    const Any answer = column.answer ? Any(*column.answer) : rows[0][0];
    for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
        if (rows[row][0] == answer) continue;
        throw std::runtime_error("row " + std::to_string(row + 1) + " of " + column.formula + " has another answer");
    }
}

Book filled(Book book, const Timing& column) {
    std::string formula = column.formula;
    for (std::size_t place = 0; place < column.inputs.size(); ++place) {
        boost::replace_all(formula, "{" + std::to_string(place) + "}", address_of(column.inputs[place], place, book));
    }
    calculate_only_when_told(book);
    const std::string last = std::to_string(rows_of(column));
    const std::size_t width = column.inputs.size();
    book.set_formula(column_name(width) + "1", formula);
    fill_down(book, "A1:" + column_name(width) + last);
    book.recalculate();
    require_same_answers(book, column_name(width), column);
    return book;
}

/// Recalculates all the columns in turns, and gives the times per cell.
std::vector<Contender> race(const Office& office, const std::vector<Timing>& columns) {
    std::vector<Book> books;
    std::vector<Contender> contenders;
    for (const Timing& column : columns) {
        const bool macro = column.formula.find("BASIC") != std::string::npos;
        books.push_back(filled(macro ? book_with_macro(office) : office.new_book(), column));
    }
    for (std::size_t at = 0; at < columns.size(); ++at) {
        contenders.push_back({columns[at].name, office.process(), [&books, at] { books[at].recalculate(); }});
    }
    take_turns(contenders);
    for (std::size_t at = 0; at < columns.size(); ++at) per_unit(contenders[at], rows_of(columns[at]));
    return contenders;
}

std::string ns_per_cell(const Contender& contender) { return Report::number(median(contender.seconds) * 1e9, 0); }

std::string call_of(const std::string& service, const catalogue::FunctionEntry& entry, std::size_t arguments) {
    std::string call = "=SLIPBARK." + service + "." + boost::to_upper_copy(std::string(entry.method)) + "(";
    for (std::size_t at = 0; at < arguments; ++at) {
        call.append(at == 0 ? "{" : ";{").append(std::to_string(at)).append("}");
    }
    return call + ")";
}

bool takes_ranges(const catalogue::FunctionEntry& entry) {
    return std::ranges::any_of(entry.parameters,
                               [](const auto& parameter) { return parameter.kind == catalogue::Kind::block; });
}

/// These search, sum over grafts or build tables: their work is not that of one formula.
bool has_constant_work(const catalogue::FunctionEntry& entry) {
    static const std::set<std::string_view> varying{"grafts",   "treeChance",  "treeGrafts", "takeLow", "takeDiff",
                                                    "schedule", "yieldByYear", "table",      "why"};
    return !varying.contains(entry.method);
}

constexpr double scalar_goal = 1.15;

void scalar(const Office& office) {
    const Report report(
        "Functions of single values, processor time per cell over " + std::to_string(many_rows) + " rows",
        {"call", "ns", "do-nothing function, ns", "ratio", "goal 1.15", "do-nothing function kept bridged, ns",
         "ratio"});
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            if (takes_ranges(entry)) continue;
            auto inputs = tests::parse(entry.texts.example).arguments.values;
            const auto count = inputs.size();
            const auto all = race(office, {{"ours", call_of("REWORK", entry, count), inputs},
                                           {"nothing", call_of("NOTHING", entry, count), inputs},
                                           {"kept", call_of("KEPT", entry, count), inputs}});
            const double times = ratio(all[0], all[1]);
            report.row({"`" + std::string(entry.texts.example) + "`", ns_per_cell(all[0]), ns_per_cell(all[1]),
                        Report::number(times, 2),
                        !has_constant_work(entry) ? "work varies"
                        : times <= scalar_goal    ? "kept"
                                                  : "missed",
                        ns_per_cell(all[2]), Report::number(ratio(all[0], all[2]), 2)});
        }
    }
}

const Timing own_sticks{
    "`REWORK.STICKS`", "=SLIPBARK.REWORK.STICKS({0};{1};{2};{3})", {3200.0, 2.0, 9.0, 0.15}, 1, 920};
const Timing python_sticks{"STICKS as a Python add-in", "=SLIPBARK.PYTHON.STICKS({0};{1};{2};{3})", own_sticks.inputs,
                           1, 920};

void report_per_cell(const std::string& title, const std::vector<Contender>& all) {
    const Report report(title, {"formula", "ns", "against `REWORK.STICKS`"});
    for (const auto& contender : all) {
        report.row({contender.name, ns_per_cell(contender), Report::number(ratio(contender, all[0]), 2)});
    }
}

void languages(const Office& office) {
    const auto& sticks = own_sticks.inputs;
    const std::vector<catalogue::Value> date_and_days{46271.0, 7.0};
    const std::vector<catalogue::Value> date_and_stage{46271.0, std::string("Nurse limb off")};
    const auto all = race(
        office, {own_sticks,
                 {"do-nothing STICKS", "=SLIPBARK.NOTHING.STICKS({0};{1};{2};{3})", sticks},
                 {"do-nothing STICKS kept bridged", "=SLIPBARK.KEPT.STICKS({0};{1};{2};{3})", sticks},
                 {"do-nothing function of four plain numbers", "=SLIPBARK.FLOORS.FOUR({0};{1};{2};{3})", sticks},
                 {"do-nothing function without arguments", "=SLIPBARK.FLOORS.NONE()", sticks},
                 {"the host's SUM of the same four cells", "=SUM({0};{1};{2};{3})", sticks},
                 {"STICKS in built-in functions", "=ROUNDUP({0}*(1+{3})/INT({2}/{1});0)", sticks, 1, 920},
                 {"STICKS as a macro (Basic)", "=BASICSTICKS({0};{1};{2};{3})", sticks, 10, 920},
                 python_sticks,
                 {"`REWORK.TREES`", "=SLIPBARK.REWORK.TREES({0};{1};{2})", {2.0, 6.0, 4.0}, 1, 833},
                 {"TREES in built-in functions", "=INT(10000*{0}/({1}*{2}))", {2.0, 6.0, 4.0}, 1, 833},
                 {"`REWORK.TAKE`", "=SLIPBARK.REWORK.TAKE({0};{1})", {37.0, 64.0}, 1, 0.578125},
                 {"TAKE in built-in functions", "=IF({1}=0;NA();{0}/{1})", {37.0, 64.0}, 1, 0.578125},
                 {"`REWORK.PACKS`", "=SLIPBARK.REWORK.PACKS({0};{1};{2})", {1730.0, 30.0, 0.1}, 1, 64},
                 {"PACKS in built-in functions", "=ROUNDUP({0}*(1+{2})/{1};0)", {1730.0, 30.0, 0.1}, 1, 64},
                 {"`REWORK.DILUTE`", "=SLIPBARK.REWORK.DILUTE({0};{1};{2})", {0.05, 0.01, 10.0}},
                 {"DILUTE in built-in functions", "={1}*{2}/{0}", {0.05, 0.01, 10.0}},
                 {"`REWORK.MILESTONE`", "=SLIPBARK.REWORK.MILESTONE({0};{1})", date_and_stage},
                 {"`REWORK.CREWFINISH`", "=SLIPBARK.REWORK.CREWFINISH({0};{1};{2};{3})", {46271.0, 3200.0, 120.0, 4.0}},
                 {"do-nothing function that reads the null date", "=SLIPBARK.FLOORS.NULLDATE({0})", {46271.0}},
                 {"the host's EDATE", "=EDATE({0};{1})", date_and_days},
                 {"the host's WORKDAY", "=WORKDAY({0};{1})", date_and_days},
                 {"do-nothing MILESTONE", "=SLIPBARK.NOTHING.MILESTONE({0};{1})", date_and_stage},
                 {"do-nothing MILESTONE kept bridged", "=SLIPBARK.KEPT.MILESTONE({0};{1})", date_and_stage}});
    report_per_cell("The same work in other ways, processor time per cell over " + std::to_string(many_rows) + " rows",
                    all);
    const Report goals("Goals for these", {"goal", "measured", "outcome"});
    const auto named = [&all](const std::string& name) -> const Contender& {
        return *std::ranges::find(all, name, &Contender::name);
    };
    const auto goal = [&goals](const std::string& name, double measured, double wanted) {
        goals.row({name, Report::number(measured, 2), measured >= wanted ? "kept" : "missed"});
    };
    goal("the host's EDATE costs more than `REWORK.STICKS`", ratio(named("the host's EDATE"), all[0]), 1);
    goal("the host's EDATE costs more than `REWORK.MILESTONE`",
         ratio(named("the host's EDATE"), named("`REWORK.MILESTONE`")), 1);
    goal("the host's WORKDAY costs more than `REWORK.CREWFINISH`",
         ratio(named("the host's WORKDAY"), named("`REWORK.CREWFINISH`")), 1);
    goal("Basic costs 10 times `REWORK.STICKS`", ratio(named("STICKS as a macro (Basic)"), all[0]), 10);
    goal("Python costs 5 times `REWORK.STICKS`", ratio(named("STICKS as a Python add-in"), all[0]), 5);
}

/// The functions of single values in another package, of other sources or with another component, beside ours: those
/// that both have. Each package has an office of its own, so that a function of the host's stands beside them: it tells
/// how far the two offices differ.
void beside(const std::string& title, const std::filesystem::path& other_package) {
    const Office ours({.bundled = SLIPBARK_BUNDLED, .profile = {}, .words = {}});
    const Office other({.bundled = other_package, .profile = {}, .words = {}});
    std::vector<Timing> all{{"the host's EDATE", "=EDATE({0};{1})", {46271.0, 7.0}, 5}};
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            const std::string example(entry.texts.example);
            if (takes_ranges(entry) || other.new_book().calculate("=" + example).error != 0) continue;
            const auto inputs = tests::parse(example).arguments.values;
            all.push_back({"`" + example + "`", call_of("REWORK", entry, inputs.size()), inputs, 5});
        }
    }
    const Report report(title + ", processor time per cell over " + std::to_string(rows_of(all[0])) + " rows",
                        {"formula", "ours, ns", "the other, ns", "ratio"});
    for (const Timing& column : all) {
        std::vector<Book> books;
        std::vector<Contender> both;
        for (const Office* office : {&ours, &other}) {
            on_main_thread(*office, [&] { books.push_back(filled(office->new_book(), column)); });
            const auto recalculate = [&books, office, at = books.size() - 1] {
                on_main_thread(*office, [&books, at] { books[at].recalculate(); });
            };
            both.push_back({column.name, office->process(), recalculate});
        }
        take_turns(both);
        for (Contender& contender : both) per_unit(contender, rows_of(column));
        report.row(
            {column.name, ns_per_cell(both[0]), ns_per_cell(both[1]), Report::number(ratio(both[1], both[0]), 2)});
    }
}

/// The same documents opened with another package and with ours.
void opened_beside(const std::filesystem::path& other_package, const std::vector<std::filesystem::path>& documents) {
    const Office ours({.bundled = SLIPBARK_BUNDLED, .profile = {}, .words = {}});
    const Office other({.bundled = other_package, .profile = {}, .words = {}});
    const Report report("Documents opened with the package in " + other_package.string() + " and with ours",
                        {"document", "ours, ms", "the other, ms", "ratio"});
    for (const auto& document : documents) {
        std::vector<Contender> both;
        for (const Office* office : {&ours, &other}) {
            const auto open = [office, &document] { const Book opened_and_closed = office->open(document); };
            both.push_back({document.string(), office->process(), [office, open] { on_main_thread(*office, open); }});
        }
        take_turns(both, 3 * rounds);
        const auto ms = [](const Contender& one) { return Report::number(median(one.seconds) * 1e3, 0); };
        report.row({document.string(), ms(both[0]), ms(both[1]), Report::number(ratio(both[1], both[0]), 3)});
    }
}

/// The limits of a take that are quantiles of a beta distribution, beside the host's own quantile of the same.
void limits(const Office& office) {
    const Report report("Limits of takes beside the host's BETA.INV, processor time per cell over " +
                            std::to_string(many_rows) + " rows",
                        {"call", "ns", "BETA.INV, ns", "ratio", "goal 1"});
    for (const auto& [live, grafted] : {std::pair(4.0, 20.0), {81.0, 263.0}, {4e6, 1e7}}) {
        for (const auto& [function, method, host] :
             {std::array{"TAKELOW", "exact", "=BETA.INV((1-{2})/2;{0};{1}-{0}+1)"},
              {"TAKEHIGH", "exact", "=BETA.INV((1+{2})/2;{0}+1;{1}-{0})"},
              {"TAKELOW", "jeffreys", "=BETA.INV((1-{2})/2;{0}+0.5;{1}-{0}+0.5)"},
              {"TAKEHIGH", "jeffreys", "=BETA.INV((1+{2})/2;{0}+0.5;{1}-{0}+0.5)"}}) {
            const std::vector<catalogue::Value> inputs{live, grafted, 0.95};
            auto with_method = inputs;
            with_method.emplace_back(std::string(method));
            const auto both =
                race(office, {{"ours", "=SLIPBARK.REWORK." + std::string(function) + "({0};{1};{2};{3})", with_method},
                              {"host", host, inputs}});
            const double times = ratio(both[0], both[1]);
            report.row({"`" + std::string(function) + "(" + to_text(live) + ";" + to_text(grafted) + ";0.95;\"" +
                            method + "\")`",
                        ns_per_cell(both[0]), ns_per_cell(both[1]), Report::number(times, 2),
                        times <= 1 ? "kept" : "missed"});
        }
    }
}

/// Python once more where it is not at home: the host gives it a state of its own for every call from a thread that did
/// not start it.
void another_thread(const Office& office) {
    report_per_cell("STICKS on a thread that is not the office's main one, processor time per cell",
                    race(office, {own_sticks, python_sticks}));
}

constexpr int most_rows = 200'000;

/// A book with long columns: A live, B placed, C grafter, D rising dates, E low and F high of the day, G flows, H
/// yields, I days, J lost or not. K is free for formulas.
Book long_columns(const Office& office, int rows) {
    Book book = office.new_book();
    constexpr int pattern = 1000;
    css::uno::Sequence<css::uno::Sequence<Any>> data(pattern);
    for (int row = 0; row < pattern; ++row) {
        const std::vector<Any> cells{Any(static_cast<double>(row * 7 % 5)),
                                     Any(4.0),
                                     Any(office::ustring("Grafter " + std::to_string(row % 20 + 1))),
                                     Any(36526.0),
                                     Any(6.0 + row % 7),
                                     Any(18.0 + row % 11),
                                     Any(1.0),
                                     Any(1.0 + row % 13),
                                     Any(static_cast<double>(row * 7919 % 400)),
                                     Any(row % 3 == 0 ? 1.0 : 0.0)};
        data.getArray()[row] = {cells.data(), static_cast<sal_Int32>(cells.size())};
    }
    const Ref<css::sheet::XCellRangeData> first(book.range("A1:J" + std::to_string(pattern)), UNO_QUERY_THROW);
    first->setDataArray(data);
    const Ref<css::sheet::XCellRangeMovement> sheet(
        book.document()->getSheets()->getByName(office::ustring(book.sheets()[0])), UNO_QUERY_THROW);
    for (int done = pattern; done < rows; done *= 2) {
        const int next = std::min(done, rows - done);
        sheet->copyRange({0, 0, done}, {0, 0, 0, 9, next - 1});
    }
    fill_down(book, "D1:D" + std::to_string(rows), css::sheet::FillMode_LINEAR);
    calculate_only_when_told(book);
    return book;
}

struct Ranged {
    std::string name;       ///< as in the interface, upper case
    std::string arguments;  ///< with # for the number of rows
};

const std::vector<Ranged> range_functions{{"HEATSUM", "E1:E#;F1:F#;10;25"},
                                          {"HEATDATE", "D1:D#;E1:E#;F1:F#;10;$N$1;;25"},
                                          {"TAKETREES", "A1:A#;B1:B#"},
                                          {"TAKEBY", "C1:C#;A1:A#;B1:B#"},
                                          {"REGRAFTS", "A1:A#;3"},
                                          {"GRAFTLIFE", "I1:I#;J1:J#;200"},
                                          {"ALTERNATION", "H1:H#"},
                                          {"PAYBACK", "G1:G#"},
                                          {"PRESENTVALUE", "G1:G#;0.0001"},
                                          {"EQUALANNUAL", "G1:G#;0.0001"},
                                          {"BREAKEVENPRICE", "B1:B#;H1:H#;0.0001"}};

/// A contender that has its formula put into `copies` cells of K before the book is recalculated.
Contender formulas(const Office& office, const Book& book, const std::string& name, const std::string& formula,
                   int copies) {
    const auto put = [&book, formula, copies] {
        // Every copy by itself, so that none is a filled group.
        for (int copy = 1; copy <= copies; ++copy) book.set_formula("K" + std::to_string(copy), formula);
    };
    put();
    book.recalculate();
    require_answer(book, "K1");
    return {name, office.process(), [&book] { book.recalculate(); }, put};
}

constexpr double range_goal = 1.3;

void ranges(const Office& office) {
    const Report report(
        "Functions of ranges against a do-nothing function that receives the same ranges, processor time",
        {"function", "rows", "us per call", "do-nothing, us", "ratio", "goal 1.3"});
    for (const int rows : {1'000, 20'000, most_rows}) {
        const Book book = long_columns(office, rows);
        const int copies = std::max(1, 40'000 / rows);
        const std::string count = std::to_string(rows);
        book.set("G1", 2.5 - rows);  // paid back in the last year but one
        book.set("N1", 1);
        // So much heat that nearly all days are needed.
        book.set_formula("N1", boost::replace_all_copy(std::string("=0.999*SLIPBARK.REWORK.HEATSUM(E1:E#;F1:F#;10;25)"),
                                                       "#", count));
        book.recalculate();
        book.set("N1", book.shown("N1").number);
        for (const auto& function : range_functions) {
            const auto call = [&](const std::string& service) {
                return "=SLIPBARK." + service + "." + function.name + "(" +
                       boost::replace_all_copy(function.arguments, "#", count) + ")";
            };
            std::vector<Contender> both{formulas(office, book, "ours", call("REWORK"), copies),
                                        formulas(office, book, "nothing", call("NOTHING"), copies)};
            take_turns(both);
            for (Contender& contender : both) per_unit(contender, copies);
            const double times = ratio(both[0], both[1]);
            const auto us = [](const Contender& one) { return Report::number(median(one.seconds) * 1e6, 0); };
            report.row({"`" + function.name + "`", count, us(both[0]), us(both[1]), Report::number(times, 2),
                        times <= range_goal ? "kept" : "missed"});
        }
    }
}

void columns(const Office& office) {
    constexpr int rows = 20'000;
    const Book book = long_columns(office, rows);
    const std::string count = std::to_string(rows);
    const auto used = [&](const std::string& column) { return column + "1:" + column + count; };
    const auto whole = [](const std::string& column) { return column + ":" + column; };
    const auto cut = [](const std::string& column) {
        return column + "1:INDEX(" + column + ":" + column + ";COUNTA(" + column + ":" + column + "))";
    };
    const auto through = [&](const std::string& column) { return "SLIPBARK.FLOORS.USED(" + whole(column) + ")"; };
    const auto trees = [](const std::string& service, const auto& range) {
        return "=SLIPBARK." + service + ".TAKETREES(" + range("A") + ";" + range("B") + ")";
    };
    std::vector<Contender> all{
        formulas(office, book, "`REWORK.TAKETREES` over the used rows", trees("REWORK", used), 1),
        formulas(office, book, "do-nothing function over the used rows", trees("NOTHING", used), 1),
        formulas(office, book, "`REWORK.TAKETREES(A:A; B:B)`", trees("REWORK", whole), 1),
        formulas(office, book, "do-nothing function over A:A and B:B", trees("NOTHING", whole), 1),
        formulas(office, book, "`REWORK.TAKETREES` over A1:INDEX(A:A; COUNTA(A:A))", trees("REWORK", cut), 1),
        formulas(office, book, "`REWORK.TAKETREES` over a helper function that takes A:A as a reference",
                 trees("REWORK", through), 1),
        formulas(office, book, "do-nothing function of numbers only (double[][]) over A:A",
                 "=SLIPBARK.FLOORS.NUMBERS(A:A)", 1),
        formulas(office, book, "do-nothing function of a reference to A:A", "=SLIPBARK.FLOORS.REFERENCE(A:A)", 1)};
    take_turns(all);
    const Report report("Whole columns of which 20,000 rows are used, processor time",
                        {"formula", "ms", "against the used rows"});
    for (const auto& one : all) {
        report.row({one.name, Report::number(median(one.seconds) * 1e3, 2), Report::number(ratio(one, all[0]), 2)});
    }
}

/// The same workbook with other functions in the place of ours, written beside nothing of the user's.
std::filesystem::path rewritten(const std::filesystem::path& path, const std::string& name, const std::string& with) {
    auto made = std::filesystem::temp_directory_path() /
                ("slipbark-" + std::to_string(getpid()) + "-" + name + "-" + path.filename().string());
    std::ofstream(made) << tests::replaced(tests::content(path), R"(SLIPBARK\.REWORK\.([A-Z]+)\()", with);
    return made;
}

constexpr int first_line = 6;

/// The columns of the log that have a formula in their first line.
std::vector<std::string> formula_columns(const Book& book) {
    constexpr std::size_t most = 52;  // A to AZ
    std::vector<std::string> columns;
    for (std::size_t column = 0; column < most; ++column) {
        const std::string name = column_name(column);
        if (book.formula("Log." + name + std::to_string(first_line)).starts_with("=")) columns.push_back(name);
    }
    return columns;
}

/// The workbook inspection-log grown to `rows` trees as a grower would: rows inserted within the log, its formulas
/// filled down, every tree written in. With functions that do nothing the log reads no tree, so it is not asked.
Book grown_log(const Office& office, const std::filesystem::path& path, int rows, bool answers = true) {
    constexpr int first = first_line;
    constexpr int room = 200;
    Book book = office.copy_of(path);
    calculate_only_when_told(book);
    const Ref<css::sheet::XCellRangeMovement> sheet(book.document()->getSheets()->getByName(office::ustring("Log")),
                                                    UNO_QUERY_THROW);
    const Ref<css::sheet::XCellRangeAddressable> more(
        book.range("Log.A" + std::to_string(first + room - 1) + ":A" + std::to_string(first + rows - 2)),
        UNO_QUERY_THROW);
    sheet->insertCells(more->getRangeAddress(), css::sheet::CellInsertMode_ROWS);
    css::uno::Sequence<css::uno::Sequence<Any>> data(rows);
    for (int row = 0; row < rows; ++row) {
        const double alive = row * 7 % 5;
        const int full_rows = row / 500;
        const std::vector<Any> cells{Any(1.0 + full_rows),
                                     Any(1.0 + row % 500),
                                     Any(office::ustring("Grafter " + std::to_string(row % 10 + 1))),
                                     Any(office::ustring("Batch " + std::to_string(row / 5000 + 1))),
                                     Any(4.0),
                                     Any(alive),
                                     Any(alive)};
        data.getArray()[row] = {cells.data(), static_cast<sal_Int32>(cells.size())};
    }
    const std::string last = std::to_string(first + rows - 1);
    const std::string top = std::to_string(first);
    const Ref<css::sheet::XCellRangeData> trees(book.range("Log.B" + top + ":H" + last), UNO_QUERY_THROW);
    trees->setDataArray(data);
    for (const auto& column : formula_columns(book)) {
        fill_down(book, std::string("Log.").append(column).append(top).append(":").append(column).append(last));
    }
    book.recalculate();
    if (const auto logged = book.shown(book.named("logged")).number; answers && logged != rows) {
        throw std::runtime_error("the log has " + std::to_string(logged) + " trees");
    }
    if (const auto errors = book.errors(); !errors.empty()) throw std::runtime_error(errors.front());
    return book;
}

/// As many cells with a formula as the log has, each of which gives nothing.
Book idle_log(const Office& office, const Book& log, int rows) {
    Book book = office.new_book();
    calculate_only_when_told(book);
    const auto columns = formula_columns(log).size();
    const std::string last = std::to_string(rows);
    for (std::size_t column = 0; column < columns; ++column) {
        const std::string name = column_name(column);
        book.set_formula(name + "1", "=\"\"");
        fill_down(book, std::string(name).append("1:").append(name).append(last));
    }
    book.recalculate();
    return book;
}

/// The log at size, against functions that do nothing, formulas that do nothing, and the log of an `earlier` state.
void trees(const Office& office, const std::filesystem::path& log,
           const std::optional<std::filesystem::path>& earlier) {
    const auto handed_over = rewritten(log, "nothing", "SLIPBARK.NOTHING.$1(");
    const Report report("The workbook inspection-log at size, whole recalculation",
                        {"trees", "workbook", "ms", "this one against it"});
    for (const int rows : {5'000, 50'000}) {
        const Book ours = grown_log(office, log, rows);
        const Book nothing = grown_log(office, handed_over, rows, false);
        const Book idle = idle_log(office, ours, rows);
        std::optional<Book> before;
        if (earlier) before.emplace(grown_log(office, *earlier, rows));
        const auto recalculated = [&office](const char* name, const Book& book) {
            return Contender{name, office.process(), [&book] { book.recalculate(); }};
        };
        std::vector<Contender> all{recalculated("this one", ours),
                                   recalculated("its functions replaced by do-nothing functions", nothing),
                                   recalculated("as many formulas that give an empty text", idle)};
        if (before) all.push_back(recalculated("the earlier one", *before));
        take_turns(all);
        for (const auto& one : all) {
            report.row({std::to_string(rows), one.name, Report::number(median(one.seconds) * 1e3, 0),
                        Report::number(ratio(all[0], one), 2)});
        }
    }
    std::filesystem::remove(handed_over);
}

void workbook(const Office& office, const std::filesystem::path& path) {
    // A copy too, so that no lock file of another office is in the way.
    const auto ours = rewritten(path, "ours", "SLIPBARK.REWORK.$1(");
    const auto nothing = rewritten(path, "nothing", "SLIPBARK.NOTHING.$1(");
    // COUNTA takes whatever stands in the brackets.
    const auto built_in = rewritten(path, "built-in", "COUNTA(");
    const Book books[] = {office.open(ours), office.open(nothing), office.open(built_in)};
    std::vector<Contender> recalculated;
    std::vector<Contender> opened;
    const std::pair<const char*, std::filesystem::path> kinds[] = {
        {"Slipbark", ours}, {"do-nothing functions", nothing}, {"built-in functions", built_in}};
    for (std::size_t kind = 0; kind < 3; ++kind) {
        recalculated.push_back({kinds[kind].first, office.process(), [&books, kind] { books[kind].recalculate(); }});
        opened.push_back({kinds[kind].first, office.process(),
                          [&office, &kinds, kind] { const Book opened_and_closed = office.open(kinds[kind].second); }});
    }
    take_turns(recalculated);
    take_turns(opened, 3 * rounds);  // a fair part of it is not the formulas, and varies
    const Report report("Workbook " + path.filename().string(),
                        {"functions", "recalculation, ms", "against built-in", "opening, ms", "against built-in"});
    for (std::size_t kind = 0; kind < 3; ++kind) {
        report.row({kinds[kind].first, Report::number(median(recalculated[kind].seconds) * 1e3, 1),
                    Report::number(ratio(recalculated[kind], recalculated[2]), 2),
                    Report::number(median(opened[kind].seconds) * 1e3, 0),
                    Report::number(ratio(opened[kind], opened[2]), 2)});
    }
    for (const auto& made : {ours, nothing, built_in}) std::filesystem::remove(made);
}

/// Lines of a day-book as they come: the rows of a block are grafted, then counted week by week. Eleven columns, the
/// note left blank.
css::uno::Sequence<css::uno::Sequence<Any>> daybook_lines(int lines, int rows, double first_day) {
    css::uno::Sequence<css::uno::Sequence<Any>> data(lines);
    const Any blank{rtl::OUString()};
    const std::array<const char*, 3> people{"Maren", "Tobiah", "Quill"};  // invented
    for (int line = 0; line < lines; ++line) {
        const int row = line % rows;
        const int look = line / rows;
        const double day = first_day + row / 3;
        std::vector<Any> cells{Any(day),
                               Any(office::ustring("grafted")),
                               Any(row + 1.0),
                               Any(28.0),
                               Any(224.0),
                               blank,
                               Any(office::ustring("A")),
                               Any(office::ustring(people.at(static_cast<std::size_t>(row % 3)))),
                               Any(8.0),
                               blank,
                               blank};
        if (look > 0) {
            cells = {Any(day + 7.0 + 7.0 * look),
                     Any(office::ustring("counted")),
                     Any(row + 1.0),
                     Any(4.0),
                     blank,
                     Any(20.0 + look % 10),
                     blank,
                     blank,
                     Any(0.3),
                     Any(1.0),
                     blank};
        }
        data.getArray()[line] = {cells.data(), static_cast<sal_Int32>(cells.size())};
    }
    return data;
}

/// The accounts over 20,000 lines, against what it costs to hand them over.
void accounts(const Office& office) {
    constexpr int lines = 20'000;
    constexpr int rows = 200;
    const Book book = office.new_book();
    calculate_only_when_told(book);
    const Ref<css::sheet::XCellRangeData> daybook(book.range("A1:K" + std::to_string(lines)), UNO_QUERY_THROW);
    daybook->setDataArray(daybook_lines(lines, rows, 46650));
    for (int row = 1; row <= rows; ++row) {
        book.set("M" + std::to_string(row), row);
        book.set("N" + std::to_string(row), 28);
    }
    const Report report(
        "Accounts over 20,000 lines of a day-book against a do-nothing function that receives the same "
        "ranges, processor time",
        {"function", "ms per call", "do-nothing, ms", "ratio", "goal 1.3"});
    const std::string range = "M1:M200;N1:N200;A1:K" + std::to_string(lines);
    for (const auto& [function, more] : {std::pair("ROWACCOUNT", ""),
                                         {"DONEACCOUNT", ""},
                                         {"DAYBOOKCHECK", ""},
                                         {"TAKEACCOUNT", ";\"lot\""},
                                         {"LOTACCOUNT", ""},
                                         {"WORKACCOUNT", ""},
                                         {"PACEACCOUNT", ";110"}}) {
        const auto call = [&](const std::string& service) {
            std::string text = "=COUNTA(SLIPBARK.";
            return text.append(service).append(".").append(function).append("(").append(range).append(more).append(
                "))");
        };
        const auto put = [&](const char* name, const std::string& formula) {
            return Contender{name, office.process(), [&book] { book.recalculate(); },
                             [&book, formula] { book.set_formula("Q1", formula); }};
        };
        std::vector<Contender> both{put("ours", call("REWORK")), put("nothing", call("NOTHING"))};
        take_turns(both);
        const double times = ratio(both[0], both[1]);
        const auto ms = [](const Contender& one) { return Report::number(median(one.seconds) * 1e3, 1); };
        report.row({"`" + std::string(function) + "`", ms(both[0]), ms(both[1]), Report::number(times, 2),
                    times <= range_goal ? "kept" : "missed"});
    }
}

/// The plan with a day-book of 2,000 lines, against the plan as it was before it had one, of the same block.
void daybook(const Office& office, const std::filesystem::path& path, const std::filesystem::path& older) {
    constexpr int lines = 2'000;
    constexpr int rows = 200;
    const Report report("The workbook rework-plan against the one before it had a day-book, whole recalculation",
                        {"rows of trees", "lines", "ms", "before, ms", "ratio", "goal 2"});
    for (const int wanted : {0, lines}) {
        const Book before = office.copy_of(older);
        const Book now = office.open_url(office::file_url(path), true, false);
        while (now.calculate("=ROWS(daybook)").number < wanted) {
            office.dispatch(now, "slipbark:add-lines", office::silent());
        }
        for (const Book* book : {&before, &now}) {
            calculate_only_when_told(*book);
            book->set(book->named("trees"), 28.0 * rows);
        }
        const double start = now.shown(now.named("start_date")).number;
        now.set(now.named("as_of"), start + 400);
        if (wanted > 0) {
            const Ref<css::sheet::XCellRangeData> room(now.range("Day-book.B6:L" + std::to_string(5 + wanted)),
                                                       UNO_QUERY_THROW);
            room->setDataArray(daybook_lines(wanted, rows, start));
        }
        const auto recalculated = [&office](const char* name, const Book& book) {
            return Contender{name, office.process(),
                             [&office, &book] { on_main_thread(office, [&book] { book.recalculate(); }); }};
        };
        std::vector<Contender> both{recalculated("now", now), recalculated("before", before)};
        take_turns(both);
        const double times = ratio(both[0], both[1]);
        const auto ms = [](const Contender& one) { return Report::number(median(one.seconds) * 1e3, 0); };
        report.row({std::to_string(rows), std::to_string(wanted), ms(both[0]), ms(both[1]), Report::number(times, 2),
                    times <= 2 ? "kept" : "missed"});
    }
}

/// How long Rework > Arrange the seasons takes for invented farms: wall time, with all that the command says of what it
/// would take.
void seasons(const Office& office, const std::filesystem::path& path) {
    using slipbark::tests::Farm;
    const Report report("Rework > Arrange the seasons, five invented farms of each size; at most 20 s are allowed",
                        {"blocks x seasons", "least, s", "median, s", "most, s", "proven the best"});
    for (const auto& [blocks, years] : std::array<std::pair<std::size_t, std::size_t>, 3>{{{8, 4}, {15, 5}, {40, 8}}}) {
        std::vector<double> seconds;
        int proven = 0;
        for (unsigned seed = 1; seed <= 5; ++seed) {
            const Book book = office.open_url(office::file_url(path), true, false);
            const auto send = [&](const char* command) {
                css::frame::DispatchResultEvent done;
                office.dispatch(book, command, office::silent()) >>= done;
                rtl::OUString text;
                done.Result >>= text;
                return office::utf8(text);
            };
            send("slipbark:empty-form");
            const Farm farm = slipbark::tests::invented(seed, blocks, years);
            slipbark::tests::type_farm(book, farm);
            const auto began = std::chrono::steady_clock::now();
            const std::string said = send("slipbark:arrange-seasons");
            seconds.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count());
            if (!said.starts_with("This is the best arrangement")) throw std::runtime_error("arrange: " + said);
            proven += said.starts_with("This is the best arrangement within all limits") ? 1 : 0;
        }
        std::sort(seconds.begin(), seconds.end());
        report.row({std::to_string(blocks) + " x " + std::to_string(years), Report::number(seconds.front(), 2),
                    Report::number(median(seconds), 2), Report::number(seconds.back(), 2),
                    std::to_string(proven) + " of 5"});
    }
}

}  // namespace

}  // namespace slipbark::benchmarks

int main(int count, char** words) {
    using namespace slipbark::benchmarks;
    try {
        std::set<std::string> wanted(words + 1, words + count);
        std::vector<std::filesystem::path> files;
        std::vector<std::filesystem::path> packages;
        std::erase_if(wanted, [&](const std::string& word) {
            const bool file = word.ends_with(".fods");
            const bool rows = word.find_first_not_of("0123456789") == std::string::npos;
            const bool package = std::filesystem::is_directory(word);
            if (file) files.emplace_back(word);
            if (package) packages.emplace_back(word);
            if (rows) many_rows = std::stoi(word);
            return file || package || rows;
        });
        if (wanted.empty() && files.empty() && packages.empty())
            wanted = {"scalar", "languages", "limits",  "ranges",    "columns",
                      "trees",  "daybook",   "seasons", "components"};
        const slipbark::office::Office office({.bundled = SLIPBARK_BENCHMARK_BUNDLED, .profile = {}, .words = {}});
        on_main_thread(office, [&] {
            if (wanted.contains("scalar")) scalar(office);
            if (wanted.contains("languages")) languages(office);
            if (wanted.contains("limits")) limits(office);
            if (wanted.contains("ranges")) ranges(office);
            if (wanted.contains("columns")) columns(office);
            if (wanted.contains("trees")) {
                const auto earlier = std::ranges::find_if(files, [](const auto& file) {
                    return file.filename() == "inspection-log.fods" &&
                           !std::filesystem::equivalent(file, SLIPBARK_BENCHMARK_LOG);
                });
                trees(office, SLIPBARK_BENCHMARK_LOG, earlier == files.end() ? std::nullopt : std::optional(*earlier));
            }
            if (wanted.contains("daybook")) accounts(office);
            if (wanted.contains("seasons")) seasons(office, SLIPBARK_BENCHMARK_SEASONS);
            if (packages.empty()) {
                for (const auto& file : files) workbook(office, file);
            }
        });
        if (wanted.contains("daybook")) daybook(office, SLIPBARK_BENCHMARK_PLAN, SLIPBARK_BENCHMARK_OLDER_PLAN);
        if (wanted.contains("languages")) another_thread(office);
        if (wanted.contains("components"))
            beside("The portable component beside the one in C++", SLIPBARK_BUNDLED_PORTABLE);
        for (const auto& package : packages) {
            beside("The package in " + package.string() + " beside ours", package);
            opened_beside(package, files);
        }
    } catch (const com::sun::star::uno::Exception& error) {
        std::cerr << "the office refused: " << slipbark::office::utf8(error.Message) << "\n";
        return 1;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
    return 0;
}

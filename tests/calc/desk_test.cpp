// The adviser's desk: forty growers' workbooks gathered into its tables, twice. What each should give is read from the
// open workbooks before they are saved, so that the reader of files is held against the office itself.
#include <algorithm>
#include <array>
#include <chrono>
#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/document/XDocumentEventListener.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/frame/theGlobalEventBroadcaster.hpp>
#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetAnnotation.hpp>
#include <com/sun/star/sheet/XSheetAnnotationAnchor.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/text/XSimpleText.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <future>
#include <iostream>
#include <map>
#include <rtl/ref.hxx>
#include <set>

#include "component/desk.hpp"
#include "daybook_lines.hpp"
#include "desk_document.hpp"
#include "folder.hpp"
#include "screen.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::Any;
using css::uno::UNO_QUERY_THROW;

namespace {

namespace fs = std::filesystem;

/// A column of the desk by the workbook's path.
std::map<std::string, Shown> by_file(const Book& desk, const std::string& files, const std::string& column) {
    const auto cells = [&](const std::string& name) {
        return Ref<css::sheet::XCellRangeData>(cells_of(desk, name), UNO_QUERY_THROW)->getDataArray();
    };
    const auto keys = cells(files);
    const auto values = cells(column);
    std::map<std::string, Shown> all;
    for (sal_Int32 row = 0; row < keys.getLength(); ++row) {
        rtl::OUString key;
        keys[row][0] >>= key;
        if (key.isEmpty()) continue;
        Shown shown;
        rtl::OUString text;
        if (values[row][0] >>= text) {
            shown.text = utf8(text);
            shown.is_text = true;
        } else {
            values[row][0] >>= shown.number;
        }
        all.emplace(utf8(key), shown);
    }
    return all;
}

std::vector<std::vector<std::string>> whole_table(const Book& desk, const addin::DeskTable& table) {
    std::vector<std::vector<std::string>> lines;
    for (const char* name : table.columns) {
        const auto data = Ref<css::sheet::XCellRangeData>(cells_of(desk, name), UNO_QUERY_THROW)->getDataArray();
        lines.resize(static_cast<std::size_t>(data.getLength()));
        for (sal_Int32 row = 0; row < data.getLength(); ++row) {
            rtl::OUString text;
            double number = 0;
            const std::string value = (data[row][0] >>= text)     ? utf8(text)
                                      : (data[row][0] >>= number) ? std::to_string(number)
                                                                  : "?";
            lines[static_cast<std::size_t>(row)].push_back(value);
        }
    }
    return lines;
}

/// What the desk should show of a plan, as the open plan shows it.
struct Expected {
    std::string block;
    std::string state;
    double trees = 0;
    double grafts = 0;
    double sticks = 0;
    double days = 0;
    double cost = 0;
    double live = 0;  ///< of all counted rows
    double placed = 0;
    double payback = 0;      ///< the first year by which half of the simulations have paid back
    double lowest_cash = 0;  ///< of the flows summed month by month
};

double today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    const std::chrono::sys_days day = std::chrono::year{local.tm_year + 1900} / (local.tm_mon + 1) / local.tm_mday;
    return static_cast<double>((day - std::chrono::sys_days{std::chrono::year{1899} / 12 / 30}).count());
}

/// The stages of the open plan's calendar that are open and have their day within two weeks from today, as they should
/// stand on the desk.
std::string due_in(const Book& plan) {
    std::string all;
    for (int stage = 1; stage <= 24; ++stage) {
        const auto at = [&](const std::string& cells) {
            return plan.calculate("=INDEX(" + cells + ";" + std::to_string(stage) + ")");
        };
        const double day = at("OFFSET(calendar_stages;0;2)").number;
        if (at("stage_open").number == 0 || day < today() || day > today() + 14) continue;
        const std::string date = plan.calculate("=TEXT(" + std::to_string(day) + ";\"YYYY-MM-DD\")").text;
        all += (all.empty() ? "" : "; ") + date + " " + at("calendar_stages").text;
    }
    return all;
}

const char* filter_of(const fs::path& file) { return file.extension() == ".ods" ? "calc8" : "Calc MS Excel 2007 XML"; }

void clear_daybook(const Book& plan) {
    Ref<css::sheet::XSheetOperation>(cells_of(plan, "daybook"), UNO_QUERY_THROW)
        ->clearContents(css::sheet::CellFlags::VALUE | css::sheet::CellFlags::DATETIME | css::sheet::CellFlags::STRING);
}

/// A plan with other figures, saved.
Expected save_plan(const Book& plan, const fs::path& file, int number_of_plan) {
    Expected expected;
    expected.block = "Block " + std::to_string(number_of_plan);
    plan.set_text(plan.named("block"), expected.block);
    plan.set(plan.named("trees"), 400 + 7 * number_of_plan);
    const double start = number(plan, "graft_date");
    plan.set(plan.named("as_of"), start + 42);  // every line of the day-book counts
    // A third of the plans have no line yet, a third are being grafted, a third are partly counted too.
    const int progress = number_of_plan % 3;
    std::vector<DayLine> lines;
    for (int row = 1; row <= 3 && progress > 0; ++row) {
        const std::string lot = plan.calculate("=INDEX(lot_names;" + std::to_string(1 + row % 2) + ")&\"\"").text;
        lines.push_back({start + row, "grafted", std::to_string(row), 20, 160, {}, lot, row == 2 ? "Bram" : "Odalys"});
        const double live = 90 + 2 * number_of_plan - 10 * row;  // each plan has counted otherwise
        if (progress > 1) lines.push_back({start + 20, "counted", std::to_string(row), {}, {}, live});
    }
    clear_daybook(plan);
    write_daybook(plan, lines);
    expected.state = std::array{"planned", "grafting", "partly counted"}[static_cast<std::size_t>(progress)];
    const auto lives = cells_of(plan, "row_live");
    const auto looked = cells_of(plan, "row_looked");
    for (int row = 0; row < 40; ++row) {
        expected.live += lives->getCellByPosition(0, row)->getValue();
        expected.placed += looked->getCellByPosition(0, row)->getValue();
    }
    EXPECT_EQ(expected.live > 0, progress == 2);
    expected.trees = number(plan, "trees");
    expected.grafts = number(plan, "grafts");
    const double in_lots = number(plan, "sticks_in_lots");
    expected.sticks = in_lots > 0 ? in_lots : number(plan, "sticks");
    expected.days = number(plan, "crew_days");
    expected.cost = number(plan, "rework_cost") / expected.trees;
    expected.payback = plan.calculate("=SUMPRODUCT(--(odds_paid<0.5))").number;
    expected.lowest_cash = number(plan, "cash_lowest");
    EXPECT_GT(expected.payback, 0);
    EXPECT_LT(expected.lowest_cash, 0);
    fs::create_directories(file.parent_path());
    plan.save_as(file, filter_of(file));
    return expected;
}

void write(const fs::path& file, const std::string& bytes) {
    fs::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << bytes;
}

std::string read(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// Files by their names, sizes and times.
std::map<std::string, std::string> listing(const fs::path& folder) {
    std::map<std::string, std::string> all;
    for (const auto& file : fs::recursive_directory_iterator(folder)) {
        if (file.is_regular_file()) all[file.path().string()] = read(file.path());
    }
    return all;
}

void save_with_password(const Book& book, const fs::path& file, const char* filter) {
    // The office's dialog gives .ods files a password, and .xlsx files what makes the key.
    const css::beans::NamedValue key[] = {{"CryptoType", Any(rtl::OUString("Standard"))},
                                          {"OOXPassword", Any(rtl::OUString("secret"))}};
    const auto secret = file.extension() == ".ods"
                            ? property("Password", Any(rtl::OUString("secret")))
                            : property("EncryptionData", Any(css::uno::Sequence<css::beans::NamedValue>(key, 2)));
    Ref<css::frame::XStorable>(book.document(), UNO_QUERY_THROW)
        ->storeToURL(ustring(file_url(file)),
                     properties({property("FilterName", Any(rtl::OUString::createFromAscii(filter))), secret}));
}

/// Forty workbooks of eight clients: plans in both languages and formats, a log and a book of records among them, and
/// eight that cannot be read.
class Desk : public testing::Test {
  protected:
    static void SetUpTestSuite() {
        try {
            save_workbooks();
        } catch (const css::uno::Exception& error) {
            FAIL() << utf8(error.Message);
        }
    }
    static void save_workbooks() {
        folder_ = new Folder;
        const fs::path root = *folder_ / "growers";
        int number_of_plan = 0;
        for (const char* language : {"en", "es"}) {
            const Book plan = calc().open_url(url_of("rework-plan", language), true);
            for (int at = 0; at < plans_of_a_language(); ++at) {
                const std::string client = "Client " + std::to_string(number_of_plan % 8);
                const std::string path =
                    client + "/plan " + std::to_string(number_of_plan) + (at % 3 == 2 ? ".xlsx" : ".ods");
                (*plans_)[path] = save_plan(plan, root / path, number_of_plan);
                ++number_of_plan;
            }
        }
        const Book log = calc().open_url(url_of("inspection-log"), true);
        log.save_as(root / "Client 0/log.ods", "calc8");
        const Book records = calc().open_url(url_of("records"), true);
        records.save_as(root / "Client 1/records.xlsx", "Calc MS Excel 2007 XML");

        const fs::path bad = root / "Bad";
        write(bad / "empty.ods", "");
        write(bad / "figures.ods", "trees;grafts\n20;160\n");
        const std::string whole = read(root / "Client 0/plan 0.ods");
        write(bad / "cut.ods", whole.substr(0, whole.size() / 2));
        const Book plain = calc().new_book();
        plain.set("A1", 7);
        plain.save_as(bad / "shopping.ods", "calc8");
        save_with_password(plain, bad / "locked.ods", "calc8");
        save_with_password(plain, bad / "locked.xlsx", "Calc MS Excel 2007 XML");
        {
            // Saved by somebody who has no Slipbark.
            const Book lost = bare().open(root / "Client 2/plan 2.xlsx");
            lost.recalculate();
            lost.save_as(bad / "lost.xlsx", "Calc MS Excel 2007 XML");
        }
        write(bad / "open.ods", whole);
        write(bad / ".~lock.open.ods#", ",rosa,orchard,30.11.2026 09:00,file:///home/rosa;");
    }
    static void TearDownTestSuite() {
        delete folder_;
        folder_ = nullptr;
    }
    /// SLIPBARK_DESK_WORKBOOKS=few where forty workbooks take too long.
    static int plans_of_a_language() {
        static const bool few = std::getenv("SLIPBARK_DESK_WORKBOOKS") != nullptr;  // NOLINT(concurrency-mt-unsafe)
        return few ? 5 : 17;
    }
    /// Those that can be read: plans in two languages, a log and a book of records, which has no block.
    static int workbooks() { return 2 * plans_of_a_language() + 2; }
    static int blocks_of_all() { return workbooks() - 1; }
    static fs::path root() { return *folder_ / "growers"; }

    // Made once for all tests of the suite.
    static inline Folder* folder_ = nullptr;
    static inline std::map<std::string, Expected>* plans_ = new std::map<std::string, Expected>;
};

}  // namespace

TEST_F(Desk, GathersEveryWorkbookOnce) {
    const auto before = listing(root());
    const Book desk = plain_desk(root().string());
    const std::string said = command(desk, "gather");
    EXPECT_TRUE(says(said, "Workbooks read: " + std::to_string(workbooks()) + ". New: " + std::to_string(workbooks()) +
                               ", changed: 0, as before: 0"))
        << said;
    const auto blocks = by_file(desk, "desk_file", "desk_block");
    EXPECT_EQ(static_cast<int>(blocks.size()), blocks_of_all());
    const auto trees = by_file(desk, "desk_file", "desk_trees");
    const auto grafts = by_file(desk, "desk_file", "desk_grafts");
    const auto sticks = by_file(desk, "desk_file", "desk_sticks");
    const auto days = by_file(desk, "desk_file", "desk_days");
    const auto cost = by_file(desk, "desk_file", "desk_tree_cost");
    const auto take = by_file(desk, "desk_file", "desk_take");
    const auto low = by_file(desk, "desk_file", "desk_take_low");
    const auto clients = by_file(desk, "desk_file", "desk_client");
    const auto states = by_file(desk, "desk_file", "desk_state");
    const auto payback = by_file(desk, "desk_file", "desk_payback");
    const auto lowest = by_file(desk, "desk_file", "desk_lowest_cash");
    for (const auto& [path, expected] : *plans_) {
        ASSERT_TRUE(blocks.contains(path)) << path;
        EXPECT_EQ(blocks.at(path).text, expected.block);
        EXPECT_EQ(clients.at(path).text, path.substr(0, path.find('/')));
        EXPECT_DOUBLE_EQ(trees.at(path).number, expected.trees) << path;
        EXPECT_DOUBLE_EQ(grafts.at(path).number, expected.grafts) << path;
        EXPECT_DOUBLE_EQ(sticks.at(path).number, expected.sticks) << path;
        EXPECT_DOUBLE_EQ(days.at(path).number, expected.days) << path;
        EXPECT_NEAR(cost.at(path).number, expected.cost, 1e-9 * expected.cost) << path;
        EXPECT_EQ(states.at(path).text, expected.state) << path;
        EXPECT_EQ(take.at(path).is_text, expected.placed == 0) << path;
        if (expected.placed > 0) {
            EXPECT_NEAR(take.at(path).number, expected.live / expected.placed, 1e-12) << path;
            EXPECT_LT(low.at(path).number, take.at(path).number) << path;
        }
        EXPECT_EQ(payback.at(path).number, expected.payback) << path;
        EXPECT_NEAR(lowest.at(path).number, expected.lowest_cash, 1e-6 * -expected.lowest_cash) << path;
    }
    EXPECT_EQ(listing(root()), before) << "the growers' files are left alone";

    const auto reasons = by_file(desk, "problem_file", "problem_reason");
    const std::map<std::string, std::string> expected{
        {"Bad/empty.ods", "It is empty (0 bytes)"},
        {"Bad/figures.ods", "It is no workbook in .ods or .xlsx"},
        {"Bad/cut.ods", "It is damaged"},
        {"Bad/shopping.ods", "It is no rework plan, inspection log or book of records"},
        {"Bad/locked.ods", "It has a password"},
        {"Bad/locked.xlsx", "It has a password"},
        {"Bad/open.ods", "It is open (rosa)"},
        {"Bad/lost.xlsx", "Its figures were lost: they show #NAME?"},
    };
    ASSERT_EQ(reasons.size(), expected.size());
    for (const auto& [path, reason] : expected) {
        ASSERT_TRUE(reasons.contains(path)) << path;
        EXPECT_TRUE(reasons.at(path).text.starts_with(reason)) << path << ": " << reasons.at(path).text;
    }

    // The records hold 121 lines of which the sums are in the workbook; the log's trees were counted 121 times.
    double counted = 0;
    double log_trees = 0;
    for (const auto& line : whole_table(desk, addin::desk_counts)) {
        if (line.at(0) == "Client 1/records.xlsx") counted += std::stod(line.at(9));
        if (line.at(0) == "Client 0/log.ods") log_trees += std::stod(line.at(8));
        EXPECT_EQ(line.at(7), "") << "nobody asked for those who grafted";
    }
    const Book records = calc().open(root() / "Client 1/records.xlsx");
    EXPECT_EQ(counted, records.calculate("=SUMPRODUCT((ISNUMBER(counts_live))*(counts_placed))").number);
    EXPECT_EQ(log_trees, calc().open(root() / "Client 0/log.ods").calculate("=COUNT(live_first)").number);
}

TEST_F(Desk, BringsWhatChangedAndNothingTwice) {
    const Book desk = plain_desk(root().string());
    command(desk, "gather");
    const auto first = whole_table(desk, addin::desk_blocks);
    const auto counts = whole_table(desk, addin::desk_counts);
    EXPECT_TRUE(says(command(desk, "gather"), "New: 0, changed: 0, as before: " + std::to_string(workbooks())));
    EXPECT_EQ(whole_table(desk, addin::desk_blocks), first);
    EXPECT_EQ(whole_table(desk, addin::desk_counts), counts);

    const auto kept = read(root() / "Client 2/plan 2.xlsx");
    const auto gone = read(root() / "Client 3/plan 3.ods");
    {
        const Book plan = calc().open(root() / "Client 1/plan 1.ods");
        plan.set(plan.named("trees"), 999);
        plan.save_as(root() / "Client 1/plan 1.ods", "calc8");
    }
    write(root() / "Client 2/plan 2.xlsx", kept.substr(0, 1000));
    fs::remove(root() / "Client 3/plan 3.ods");
    const std::string said = command(desk, "gather");
    const std::string rest = std::to_string(workbooks() - 2);
    EXPECT_TRUE(says(
        said, "Workbooks read: " + rest + ". New: 0, changed: 1, as before: " + rest + ", gone from the folder: 1."))
        << said;
    EXPECT_EQ(by_file(desk, "desk_file", "desk_trees").at("Client 1/plan 1.ods").number, 999);
    EXPECT_EQ(by_file(desk, "desk_file", "desk_block").at("Client 2/plan 2.xlsx").text, "Block 2");
    EXPECT_TRUE(says(by_file(desk, "problem_file", "problem_reason").at("Client 2/plan 2.xlsx").text,
                     "Its figures of the last gathering were kept."));
    EXPECT_FALSE(by_file(desk, "desk_file", "desk_block").contains("Client 3/plan 3.ods"));
    write(root() / "Client 2/plan 2.xlsx", kept);
    write(root() / "Client 3/plan 3.ods", gone);
}

TEST_F(Desk, ReadsWorkbooksOfTheLastVersion) {
    const Folder folder;
    std::map<std::string, fs::path> plans;
    for (const auto& file : fs::directory_iterator(fixtures() / "workbooks")) {
        const std::string name = file.path().filename().string();
        const bool plan = name.starts_with("rework-plan");
        if (file.path().extension() == ".tsv" ||
            !(plan || name.starts_with("inspection-log") || name.starts_with("records")))
            continue;
        fs::create_directories(folder / name);
        fs::copy_file(file.path(), folder / name / name);
        if (plan) plans[name + "/" + name] = file.path();
    }
    ASSERT_EQ(plans.size(), 4U);
    const Book desk = plain_desk(fs::path(folder / "").string());
    const std::string said = command(desk, "gather");
    EXPECT_TRUE(says(said, "changed: 0, as before: 0")) << said;
    // The records are one book in two languages and formats: the one saved last counts.
    for (const auto& [path, reason] : by_file(desk, "problem_file", "problem_reason")) {
        EXPECT_TRUE(path.starts_with("records") && reason.text.starts_with("Some of its counts were left out")) << path;
    }
    for (const auto& [path, file] : plans) {
        const Book plan = calc().open(file);
        EXPECT_EQ(by_file(desk, "desk_file", "desk_trees").at(path).number, number(plan, "trees")) << path;
        EXPECT_EQ(by_file(desk, "desk_file", "desk_grafts").at(path).number, number(plan, "grafts")) << path;
        EXPECT_EQ(by_file(desk, "desk_file", "desk_new_variety").at(path).text, text(plan, "new_variety")) << path;
        EXPECT_EQ(by_file(desk, "desk_file", "desk_days").at(path).number, number(plan, "crew_days")) << path;
    }
}

TEST_F(Desk, ShowsInitialsOnlyWhereTheyAreWanted) {
    const Book desk = plain_desk(root().string());
    desk.set_text(desk.named("show_grafters"), "initials");
    command(desk, "gather");
    std::set<std::string> shown;
    for (const auto& line : whole_table(desk, addin::desk_counts)) shown.insert(line.at(7));
    EXPECT_TRUE(shown.contains("O.")) << "Odalys of the log";
    EXPECT_FALSE(shown.contains("Odalys"));
}

TEST_F(Desk, SaysWhereThereIsNothingToGather) {
    const Book plain = calc().new_book(false);
    EXPECT_TRUE(says(command(plain, "gather"), "This is no desk")) << command(plain, "gather");
    const Book desk = plain_desk({});
    EXPECT_TRUE(says(command(desk, "gather"), "enter the folder")) << command(desk, "gather");
    desk.set_text(desk.named("folder"), (root() / "nowhere").string());
    EXPECT_TRUE(says(command(desk, "gather"), "There is no folder")) << command(desk, "gather");
    EXPECT_TRUE(says(command(desk, "gather", file_url(root() / "Bad")), "Workbooks read: 0."));
}

/// The key figures of the front, added up here from the lines of the tables.
void expect_front(const Book& desk) {
    const auto blocks = whole_table(desk, addin::desk_blocks);
    const auto at = [](const std::vector<std::string>& line, std::string_view column) {
        const auto& columns = addin::desk_blocks.columns;
        return line.at(static_cast<std::size_t>(std::ranges::find(columns, column) - columns.begin()));
    };
    const auto value = [&](const std::vector<std::string>& line, std::string_view column) {
        const std::string text = at(line, column);
        return text.empty() ? 0.0 : std::stod(text);
    };
    std::set<std::string> clients;
    double behind = 0;
    double due = 0;
    double sticks = 0;
    std::array<double, 5> trees{};
    for (const auto& line : blocks) {
        if (at(line, "desk_file").empty()) continue;
        clients.insert(at(line, "desk_client"));
        if (value(line, "desk_overdue") > 0) ++behind;
        if (!at(line, "desk_due").empty()) ++due;
        const double state = value(line, "desk_state_number");
        if (state < 2) sticks += value(line, "desk_sticks");
        trees.at(static_cast<std::size_t>(state)) += value(line, "desk_trees");
    }
    EXPECT_EQ(number(desk, "clients_gathered"), static_cast<double>(clients.size()));
    EXPECT_EQ(number(desk, "blocks_behind"), behind);
    EXPECT_EQ(number(desk, "blocks_due"), due);
    EXPECT_EQ(number(desk, "sticks_to_order"), sticks);
    EXPECT_EQ(number(desk, "trees_waiting"), trees.front());
    const double all = desk.calculate("=SUM(desk_trees)").number;
    for (std::size_t state = 0; state < trees.size(); ++state) {
        const std::string row = std::to_string(6 + state);
        EXPECT_NEAR(desk.shown("Desk.J" + row).number + desk.shown("Desk.K" + row).number, trees.at(state) / all, 1e-12)
            << state;
    }
    const double take = number(desk, "take_all");
    EXPECT_NEAR(take, desk.calculate("=SUM(count_live)/SUM(count_grafts)").number, 1e-12);
    EXPECT_LT(number(desk, "take_all_low"), take);
    EXPECT_GT(number(desk, "take_all_high"), take);
    EXPECT_TRUE(says(text(desk, "headline"), behind > 0 ? "behind; call " : "No block is behind"))
        << text(desk, "headline");
    EXPECT_TRUE(says(text(desk, "headline"), "8 workbooks were not read, or not wholly")) << text(desk, "headline");
}

// The workbook itself: its summaries from what was gathered.
TEST_F(Desk, TellsWhatTheTablesHold) {
    const Book desk = calc().open_url(url_of("desk"), true, false);
    EXPECT_EQ(desk.errors(), std::vector<std::string>());
    // The front of an empty desk says what comes first, and nothing else.
    EXPECT_TRUE(says(text(desk, "headline"), "Nothing gathered yet")) << text(desk, "headline");
    for (const char* cell : {"B4", "C4", "D4", "F4", "G4", "B5", "C5", "D5", "F5", "G5"}) {
        EXPECT_EQ(desk.shown(std::string("Desk.") + cell).text, "") << cell;
    }
    desk.set_text(desk.named("folder"), root().string());
    command(desk, "gather");
    EXPECT_EQ(desk.errors(), std::vector<std::string>());
    EXPECT_EQ(number(desk, "blocks_gathered"), blocks_of_all());
    EXPECT_EQ(number(desk, "files_unread"), 8);
    expect_front(desk);
    // Pooled takes of all methods: as many live grafts as the counts have.
    const auto pooled = Ref<css::sheet::XCellRangeData>(cells_of(desk, "pool_season"), UNO_QUERY_THROW)->getDataArray();
    double live = 0;
    double before = 2;
    bool has_new = false;
    for (const auto& row : pooled) {
        double number = 0;
        if (row[2] >>= number) live += number;
        rtl::OUString group;
        if ((row[0] >>= group) && group == "new") has_new = true;
    }
    EXPECT_TRUE(has_new);
    EXPECT_EQ(live, desk.calculate("=SUM(count_live)").number);
    // Ranked by the pooled take, each inside its limits.
    for (int row = 8; row < 20; ++row) {
        const Shown group = desk.shown("Takes.B" + std::to_string(row));
        if (group.text.empty()) break;
        const double take = desk.shown("Takes.F" + std::to_string(row)).number;
        EXPECT_LE(take, before);
        EXPECT_LT(desk.shown("Takes.G" + std::to_string(row)).number, take);
        EXPECT_GT(desk.shown("Takes.H" + std::to_string(row)).number, take);
        before = take;
    }
    EXPECT_LT(before, 2) << "a nursery is ranked";
    // Grafters only where the adviser wants them.
    EXPECT_EQ(desk.shown("Takes.B80").text, "");
    desk.set_text(desk.named("show_grafters"), "initials");
    command(desk, "gather");
    EXPECT_EQ(desk.errors(), std::vector<std::string>());
    EXPECT_TRUE(desk.shown("Takes.B80").text.ends_with(".")) << desk.shown("Takes.B80").text;
}

TEST_F(Desk, WritesAPageForEachBlock) {
    const Folder folder;
    const Book desk = calc().open_url(url_of("desk"), true, false);
    EXPECT_TRUE(says(command(desk, "client-pages", file_url(folder / "pages")), "gather workbooks first"));
    desk.set_text(desk.named("folder"), root().string());
    command(desk, "gather");
    const std::string said = command(desk, "client-pages", file_url(folder / "pages"));
    EXPECT_TRUE(says(said, "Pages written: " + std::to_string(blocks_of_all()))) << said;
    EXPECT_EQ(std::distance(fs::directory_iterator(folder / "pages"), {}), blocks_of_all());
    const auto page = folder / "pages" / "Client 4 - Block 4 2027.pdf";
    ASSERT_TRUE(fs::exists(page));
    const auto words = folder / "page.txt";
    ASSERT_TRUE(runs("pdftotext -layout '" + page.string() + "' '" + words.string() + "'")) << "setup view";
    const std::string printed = read(words);
    EXPECT_EQ(std::ranges::count(printed, '\f'), 1) << "one page";
    for (const char* word : {"Block 4", "Client 4", "428", "Labels, local rules"})
        EXPECT_TRUE(says(printed, word)) << word;
    for (const char* never : {"#NAME", "#VALUE", "Err:", "###", "Block 5"}) EXPECT_FALSE(says(printed, never)) << never;
    if (const char* const pictures = std::getenv("SLIPBARK_DESK_PICTURES")) {  // NOLINT(concurrency-mt-unsafe)
        // A block that is counted in part, so that its take has a bar.
        fs::copy_file(folder / "pages" / "Client 2 - Block 2 2027.pdf", fs::path(pictures) / "page.pdf",
                      fs::copy_options::overwrite_existing);
        desk.save_as(fs::path(pictures) / "desk.pdf", "calc_pdf_Export");
        desk.save_as(fs::path(pictures) / "desk.ods", "calc8");
    }
    EXPECT_TRUE(says(command(desk, "client-pages", file_url(folder / "pages")), "Pages written: 0"));
    EXPECT_EQ(number(desk, "page_line"), 1) << "the page shows what it showed";
}

TEST_F(Desk, ListsWhatIsDueWhatItCostsAndWhatIsNotFine) {
    const Folder folder;
    const Book plan = calc().open_url(url_of("rework-plan"), true);
    clear_daybook(plan);
    plan.set(plan.named("graft_date"), today() + 4);
    plan.set(plan.named("as_of"), today());
    plan.set(plan.named("spare"), 3);  // 300 % is beyond what the sheet takes
    fs::create_directories(folder / "growers/Rosa");
    plan.save_as(folder / "growers/Rosa/plan.ods", "calc8");
    const std::string due = due_in(plan);
    ASSERT_NE(due, "");
    const Book desk = plain_desk((folder / "growers").string());
    command(desk, "gather");
    const std::string file = "Rosa/plan.ods";
    EXPECT_EQ(by_file(desk, "desk_file", "desk_due").at(file).text, due);
    EXPECT_EQ(by_file(desk, "desk_file", "desk_state").at(file).text, "planned");
    EXPECT_EQ(by_file(desk, "desk_file", "desk_overdue").at(file).number, number(plan, "stages_overdue"));
    EXPECT_EQ(by_file(desk, "desk_file", "desk_as_of").at(file).number, today());
    const std::string checks = by_file(desk, "desk_file", "desk_checks").at(file).text;
    EXPECT_TRUE(says(checks, text(plan, "entries"))) << checks << "; " << text(plan, "entries");
    EXPECT_NE(text(plan, "entries"), "");
}

TEST_F(Desk, IsSharedWithoutNames) {
    const Folder folder;
    const Book desk = calc().open_url(url_of("desk"), true, false);
    desk.set_text(desk.named("folder"), root().string());
    command(desk, "gather");
    const auto file = folder / "shared.ods";
    const std::string said = command(desk, "share-desk", file_url(file));
    EXPECT_TRUE(says(said, "clients and their blocks are numbers")) << said;
    EXPECT_FALSE(says(said, "Look at these cells")) << said;
    EXPECT_TRUE(says(text(desk, "folder"), "growers")) << "the desk itself stays as it is";
    {
        const Book shared = calc().open(file);
        EXPECT_EQ(number(shared, "blocks_gathered"), blocks_of_all());
        EXPECT_EQ(shared.calculate("=SUM(desk_trees)").number, desk.calculate("=SUM(desk_trees)").number);
        EXPECT_EQ(shared.calculate("=SUM(count_live)").number, desk.calculate("=SUM(count_live)").number);
        // As many blocks in as many clients, each of them a number.
        const char* const clients = "=SUMPRODUCT((LEN(desk_client)>0)/COUNTIF(desk_client;desk_client&\"\"))";
        EXPECT_NEAR(desk.calculate(clients).number, 8, 1e-9);
        EXPECT_NEAR(shared.calculate(clients).number, 8, 1e-9);
        EXPECT_EQ(text(shared, "folder"), "");
    }
    // Nothing in the file says who they are: its parts are unpacked and read.
    const auto parts = folder / "parts";
    ASSERT_TRUE(runs("python3 -m zipfile -e '" + file.string() + "' '" + parts.string() + "'"));
    for (const auto& [part, content] : listing(parts)) {
        for (const char* never : {"Client 3", "Client%203", "Block 4", "slipbark-documents", "Odalys"}) {
            EXPECT_EQ(content.find(never), std::string::npos) << part << ": " << never;
        }
    }
    // A sheet of the adviser's own that has a client's name is pointed at.
    desk.set_text("Notes.B20", "Call Client 3 on Monday");
    EXPECT_TRUE(says(command(desk, "share-desk", file_url(folder / "again.ods")),
                     "they have a client's name in them: Notes.B20"));
    EXPECT_TRUE(says(command(desk, "share-desk", file_url(folder / "again.pdf")), "ends in .ods"));
}

// A disk with no room left, for which a limit of the size of files stands: what was there is there still, and nothing
// is half written.
TEST_F(Desk, LosesNothingOnAFullDisk) {
    const Folder folder;
    const Book desk = calc().open_url(url_of("desk"), true, false);
    desk.set_text(desk.named("folder"), root().string());
    command(desk, "gather");
    ASSERT_TRUE(says(command(desk, "share-desk", file_url(folder / "shared.ods")), "The copy without names"));
    const fs::path pages = folder / "pages";
    const std::string all = std::to_string(blocks_of_all());
    ASSERT_TRUE(says(command(desk, "client-pages", file_url(pages)), "Pages written: " + all));
    fs::remove(pages / "Client 4 - Block 4 2027.pdf");
    const auto before = listing(folder / "");
    {
        const FullDisk full(calc(), 2000);
        const std::string shared = command(desk, "share-desk", file_url(folder / "shared.ods"));
        EXPECT_TRUE(says(shared, "No copy was written")) << shared;
        const std::string written = command(desk, "client-pages", file_url(pages));
        EXPECT_TRUE(says(written, "Pages written: 0")) << written;
        EXPECT_TRUE(says(written, "Then it stopped: ") && says(written, "There is not enough space in")) << written;
    }
    EXPECT_EQ(listing(folder / ""), before);
    EXPECT_TRUE(says(command(desk, "client-pages", file_url(pages)), "Pages written: 1"));
}

// The same on a disk that is full: each page that is there is whole, and what was there stays.
TEST_F(Desk, LeavesWholePagesOnASmallDisk) {
    const Folder folder;
    const SmallDisk disk(folder / "disk", 200'000);
    if (!disk.is_there()) GTEST_SKIP() << "nothing can be mounted here";
    const Book desk = calc().open_url(url_of("desk"), true, false);
    desk.set_text(desk.named("folder"), root().string());
    command(desk, "gather");
    const fs::path pages = folder / "disk/pages";
    const std::string said = command(desk, "client-pages", file_url(pages));
    EXPECT_TRUE(says(said, "Then it stopped: ") && says(said, "There is not enough space in")) << said;
    const auto whole = listing(pages);
    EXPECT_FALSE(whole.empty());
    EXPECT_LT(static_cast<int>(whole.size()), blocks_of_all());
    for (const auto& [page, bytes] : whole) {
        EXPECT_TRUE(page.ends_with(".pdf")) << page;
        EXPECT_TRUE(bytes.starts_with("%PDF-") && says(bytes.substr(bytes.size() - 8), "%%EOF")) << page;
    }
    const std::string first = file_url(whole.begin()->first);
    EXPECT_THROW(addin::write_whole(ustring(first), std::vector<sal_Int8>(300'000, 1)), css::io::IOException);
    EXPECT_EQ(listing(pages), whole);
}

namespace {

/// Collects the files that an office loads.
class Loads final : public cppu::WeakImplHelper1<css::document::XDocumentEventListener> {
  public:
    void SAL_CALL documentEventOccured(const css::document::DocumentEvent& event) override {
        const Ref<css::frame::XModel> model(event.Source, css::uno::UNO_QUERY);
        if (event.EventName == "OnLoadFinished" && model.is()) files.insert(utf8(model->getURL()));
    }
    void SAL_CALL disposing(const css::lang::EventObject& /*source*/) override {}
    std::set<std::string> files;
};

}  // namespace

// An old .xls and flat XML under other names are loaded by the office, out of sight; all others are only read.
TEST_F(Desk, LoadsOnlyWhatItsReaderCannotRead) {
    const Folder folder;
    const fs::path growers = folder / "growers";
    for (const char* client : {"Flat", "Old", "Plain", "Web"}) fs::create_directories(growers / client);
    fs::copy_file(root() / "Client 0/plan 0.ods", growers / "Plain/plan.ods");
    write(growers / "Web/plan.ods", "<html><body><table><tr><td>7</td></tr></table></body></html>");
    double trees = 0;
    {
        const Book plan = calc().open(root() / "Client 0/plan 0.ods");
        trees = number(plan, "trees");
        plan.save_as(growers / "Flat/plan.ods", "OpenDocument Spreadsheet Flat XML");
        plan.save_as(growers / "Old/plan.xlsx", "MS Excel 97");
    }
    const auto before = listing(growers);
    const Book desk = plain_desk(growers.string());
    const auto broadcaster = css::frame::theGlobalEventBroadcaster::get(calc().context());
    const rtl::Reference<Loads> loads(new Loads);
    broadcaster->addDocumentEventListener(loads.get());
    const std::string said = command(desk, "gather");
    broadcaster->removeDocumentEventListener(loads.get());
    EXPECT_TRUE(says(said, "Workbooks read: 3.")) << said;
    const auto gathered = by_file(desk, "desk_file", "desk_trees");
    for (const char* file : {"Flat/plan.ods", "Old/plan.xlsx", "Plain/plan.ods"}) {
        ASSERT_TRUE(gathered.contains(file)) << file;
        EXPECT_EQ(gathered.at(file).number, trees) << file;
    }
    EXPECT_TRUE(says(by_file(desk, "problem_file", "problem_reason").at("Web/plan.ods").text, "It is no workbook"));
    EXPECT_EQ(loads->files,
              (std::set<std::string>{file_url(growers / "Flat/plan.ods"), file_url(growers / "Old/plan.xlsx")}));
    EXPECT_EQ(listing(growers), before);
}

namespace {

/// Work that the office asks this program for from its main thread, on which its answers then run, too: a dialog of any
/// other thread misses what wakes it.
class Asked final : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    explicit Asked(std::function<void()> work) : work_(std::move(work)) {}
    void SAL_CALL notify(const css::uno::Any& /*data*/) override {
        try {
            work_();
        } catch (const css::uno::Exception& error) {
            ADD_FAILURE() << utf8(error.Message);
        }
        done_.set_value();
    }
    std::future<void> done() { return done_.get_future(); }

  private:
    std::function<void()> work_;
    std::promise<void> done_;
};

std::future<void> on_main_thread(const Office& office, std::function<void()> work) {
    const rtl::Reference<Asked> asked(new Asked(std::move(work)));
    css::awt::AsyncCallback::create(office.context())->addCallback(asked.get(), {});
    return asked->done();
}

}  // namespace

// What will be read is said before it is, on a screen of its own; then the user refuses, and then agrees.
TEST(DeskOnAScreen, SaysWhatItWillReadBeforeItReads) {
    const Screen screen;
    const Folder folder;
    fs::create_directories(folder / "user");
    fs::create_directories(folder / "growers/Rosa");
    fs::copy_file(fixtures() / "workbooks/rework-plan-en.ods", folder / "growers/Rosa/plan.ods");
    const Office office(start({.bundled = bundled(), .profile = folder / "user", .words = {}, .headless = false}));
    const Book desk = office.open_url(url_of("desk"), true, false);
    desk.set_text(desk.named("folder"), (folder / "growers").string());
    // What a dialog says that has this in it, once its button was pressed.
    const auto answered = [&](const std::string& part, const char* with) {
        std::string words;
        const bool said = within(std::chrono::seconds(30), [&] {
            for (const Accessible& dialog : dialogs(office)) {
                const std::string shown = words_of(dialog);
                if (!says(shown, part)) continue;
                words = shown;
                press(dialog, with);
                return false;
            }
            return !words.empty();
        });
        EXPECT_TRUE(said) << "no dialog with " << part;
        if (!said) {
            for (const Accessible& dialog : dialogs(office)) ADD_FAILURE() << words_of(dialog);
            kill(office.process(), SIGKILL);  // or it waits for its user
        }
        return words;
    };
    const auto gather = [&] {
        return on_main_thread(office, [&] { static_cast<void>(office.dispatch(desk, "slipbark:gather")); });
    };
    {
        const auto gathering = gather();
        const std::string question = answered("1 workbooks in", "Cancel");
        EXPECT_TRUE(says(question, "client, block, varieties, trees, grafts, takes, dates, costs and checks"))
            << question;
        EXPECT_TRUE(says(question, "nothing leaves this computer")) << question;
        answered("Nothing was gathered.", "OK");
        EXPECT_EQ(gathering.wait_for(std::chrono::seconds(30)), std::future_status::ready);
    }
    EXPECT_EQ(number(desk, "blocks_gathered"), 0);
    {
        const auto gathering = gather();
        answered("1 workbooks in", "OK");
        answered("Workbooks read: 1.", "OK");
        EXPECT_EQ(gathering.wait_for(std::chrono::seconds(30)), std::future_status::ready);
    }
    EXPECT_EQ(number(desk, "blocks_gathered"), 1);
}

// SLIPBARK_DESK_PLANS=200 for the figures of docs/desk.md.
TEST_F(Desk, ReadsPlansInAQuarterOfTheTimeOfLoadingThem) {
    const char* const wanted = std::getenv("SLIPBARK_DESK_PLANS");  // NOLINT(concurrency-mt-unsafe): no other thread
    const int plans = wanted == nullptr ? 6 : std::stoi(wanted);
    const Folder folder;
    for (int plan = 0; plan < plans; ++plan) {
        fs::create_directories(folder / std::to_string(plan));
        fs::copy_file(root() / "Client 0/plan 0.ods", folder / std::to_string(plan) / "plan.ods");
    }
    const auto seconds = [](const auto& work) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    };
    const Book desk = plain_desk(fs::path(folder / "").string());
    const double gathering =
        seconds([&] { EXPECT_TRUE(says(command(desk, "gather"), "New: " + std::to_string(plans))); });
    const double loading = seconds([&] {
        for (int plan = 0; plan < plans; ++plan) {
            const Book book = calc().open(folder / std::to_string(plan) / "plan.ods");
            EXPECT_EQ(text(book, "block"), "Block 0");
        }
    });
    std::cout << plans << " plans: gathered in " << gathering << " s, loaded in " << loading << " s\n";
    EXPECT_LT(4 * gathering, loading);
}

class HouseDefaults : public testing::Test {
  protected:
    void TearDown() override {
        const Book desk = calc().open_url(url_of("desk"), true, false);
        command(desk, "keep-house");  // its sheet is blank
    }
    static Book new_plan() {
        const Book any = calc().new_book(false);
        command(any, "new-rework-plan");
        return Book(calc().desktop()->getCurrentComponent());
    }
    static void keep(double price) {
        const Book plan = calc().open_url(url_of("rework-plan"), true, false);
        plan.set(plan.named("stick_price"), price);
        const std::string said = command(plan, "keep-house");
        EXPECT_TRUE(says(said, "Price of a stick of budwood")) << said;
    }
};

TEST_F(HouseDefaults, FillNewAndEmptiedWorkbooks) {
    EXPECT_EQ(number(new_plan(), "stick_price"), 1.1) << "the example's own";
    keep(2.25);
    const Book plan = new_plan();
    EXPECT_EQ(number(plan, "stick_price"), 2.25);
    const Ref<css::sheet::XSheetAnnotationAnchor> anchor(plan.cell(plan.named("stick_price")), UNO_QUERY_THROW);
    EXPECT_TRUE(
        says(utf8(Ref<css::text::XSimpleText>(anchor->getAnnotation(), UNO_QUERY_THROW)->getString()), "house, 20"));
    const std::string said = command(plan, "empty-form");
    EXPECT_TRUE(says(said, "House defaults put in: Price of a stick of budwood")) << said;
    EXPECT_TRUE(says(said, "Emptied, cells on each sheet: Plan ")) << said;
    EXPECT_TRUE(says(said, "Reference values that are kept, cells on each sheet: ")) << said;
    EXPECT_EQ(number(plan, "stick_price"), 2.25);
    EXPECT_EQ(text(plan, "trees"), "");
    EXPECT_EQ(plan.errors(), std::vector<std::string>());
}

TEST_F(HouseDefaults, AreShownAndTakenOutOnADesk) {
    keep(2.25);
    const Book desk = calc().open_url(url_of("desk"), true, false);
    EXPECT_TRUE(says(command(desk, "show-house"), "Price of a stick of budwood"));
    const auto names = cells_of(desk, "house_name");
    const auto values = cells_of(desk, "house_value");
    ASSERT_EQ(utf8(names->getCellByPosition(0, 0)->getFormula()), "stick_price");
    EXPECT_EQ(values->getCellByPosition(0, 0)->getValue(), 2.25);
    values->getCellByPosition(0, 0)->setFormula({});
    command(desk, "keep-house");
    EXPECT_FALSE(says(command(desk, "show-house"), "Price of a stick of budwood"));
    EXPECT_EQ(number(new_plan(), "stick_price"), 1.1);
}

TEST_F(HouseDefaults, TravelAsAFile) {
    const Folder folder;
    keep(2.25);
    const Book desk = calc().open_url(url_of("desk"), true, false);
    command(desk, "save-house", file_url(folder / "our.house"));
    command(desk, "keep-house");
    EXPECT_TRUE(says(command(desk, "show-house"), "There are no house defaults yet."));
    const std::string taken = command(desk, "take-house", file_url(folder / "our.house"));
    EXPECT_TRUE(says(taken, "Price of a stick of budwood")) << taken << "\n" << read(folder / "our.house");
    EXPECT_EQ(number(new_plan(), "stick_price"), 2.25);
    {
        const auto before = read(folder / "our.house");
        const FullDisk full(calc(), 10);
        const std::string refused = command(desk, "save-house", file_url(folder / "our.house"));
        EXPECT_TRUE(says(refused, "No file was written")) << refused;
        EXPECT_EQ(read(folder / "our.house"), before);
        EXPECT_FALSE(fs::exists(folder / "our.house.part"));
    }
    write(folder / "other.house", "trees\t20\n");
    EXPECT_TRUE(says(command(desk, "take-house", file_url(folder / "other.house")), "nothing was changed"));
    EXPECT_EQ(number(new_plan(), "stick_price"), 2.25);
    EXPECT_TRUE(says(command(desk, "take-house", file_url(folder / "none.house")), "There is no file"));
}

}  // namespace slipbark::tests

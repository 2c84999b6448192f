// The adviser's desk at its size: 200 plans gathered and loaded in one run, and a million lines of counts in a
// PostgreSQL server of its own (./setup desk), pooled by a view and by the sheet. Prints tables in Markdown.
//   desk_benchmark [plans] [database]    both where nothing is named

#include <chrono>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/sdbc/XConnection.hpp>
#include <com/sun/star/sdbc/XDriver.hpp>
#include <com/sun/star/sdbc/XRow.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <iostream>
#include <set>
#include <stdexcept>

#include "component/desk.hpp"
#include "measure.hpp"
#include "office/office.hpp"
#include "postgresql.hpp"

namespace slipbark::benchmarks {

namespace {

namespace fs = std::filesystem;
using css::uno::Any;
using css::uno::UNO_QUERY_THROW;
using office::Book;
using office::Office;
using office::Ref;
using office::ustring;
using office::utf8;

double seconds(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

std::string command(const Office& office, const Book& book, const std::string& name, const std::string& url = {}) {
    css::frame::DispatchResultEvent done;
    office.dispatch(
        book, "slipbark:" + name,
        office::properties({office::property("Silent", Any(true)), office::property("URL", Any(ustring(url)))})) >>=
        done;
    rtl::OUString text;
    done.Result >>= text;
    return utf8(text);
}

void expect(const std::string& said, const std::string& words) {
    if (said.find(words) == std::string::npos) throw std::runtime_error(said + " (wanted: " + words + ")");
}

/// 25 plans with other figures, eight times each, as many clients as plans.
void plans(const Office& office) {
    constexpr int different = 25;
    constexpr int all = 200;
    const tests::Folder folder;
    {
        const Book plan = office.open_url(office::file_url(SLIPBARK_BENCHMARK_PLAN), true);
        for (int one = 0; one < different; ++one) {
            plan.set_text(plan.named("block"), "Block " + std::to_string(one));
            plan.set(plan.named("trees"), 400 + 7 * one);
            plan.save_as(folder / ("plan " + std::to_string(one) + ".ods"), "calc8");
        }
    }
    std::vector<fs::path> files;
    for (int one = 0; one < all; ++one) {
        files.push_back(folder / "growers" / fs::path("Client " + std::to_string(one)) / "plan.ods");
        fs::create_directories(files.back().parent_path());
        fs::copy_file(folder / ("plan " + std::to_string(one % different) + ".ods"), files.back());
    }
    const Book desk = office.open_url(office::file_url(SLIPBARK_BENCHMARK_DESK), true, false);
    desk.set_text(desk.named("folder"), (folder / "growers").string());
    // Gathered before, between and after the halves that are loaded, so that other load falls on both.
    struct Taken {
        std::vector<double> clock;
        std::vector<double> processor;
    };
    const auto measure = [&](Taken& taken, const std::function<void()>& work) {
        const double before = processor_seconds(office.process());
        taken.clock.push_back(seconds(work));
        taken.processor.push_back(processor_seconds(office.process()) - before);
    };
    Taken gathered;
    Taken loaded;
    measure(gathered, [&] { expect(command(office, desk, "gather"), "New: 200"); });
    for (const int half : {0, 1}) {
        measure(loaded, [&] {
            for (int one = 0; one < all / 2; ++one) {
                const Book book = office.open(files[static_cast<std::size_t>(half * all / 2 + one)]);
                if (book.shown(book.named("trees")).number < 400) throw std::runtime_error("no plan");
            }
        });
        measure(gathered, [&] { expect(command(office, desk, "gather"), "as before: 200"); });
    }
    const double loading = loaded.clock[0] + loaded.clock[1];
    const double loading_processor = loaded.processor[0] + loaded.processor[1];
    const double gathering = median(gathered.clock);
    const double gathering_processor = median(gathered.processor);
    const Report report("The adviser's desk: 200 rework plans, one run", {"what", "s by the clock", "s of processor"});
    report.row({"loaded one by one, hidden", Report::number(loading, 1), Report::number(loading_processor, 1)});
    report.row({"gathered into the desk, median of three", Report::number(gathering, 1),
                Report::number(gathering_processor, 1)});
    report.row({"loading / gathering", Report::number(loading / gathering, 2),
                Report::number(loading_processor / gathering_processor, 2)});
    std::cout << "\nGoal: at least four times as quick as loading them: "
              << (loading >= 4 * gathering ? "kept" : "missed") << ".\n";
}

/// A document with the desk's named columns, each of so many lines.
Book desk_of(const Office& office, int lines) {
    Book book = office.new_book(false);
    const Ref<css::beans::XPropertySet> document(book.document(), UNO_QUERY_THROW);
    const Ref<css::sheet::XNamedRanges> names(document->getPropertyValue("NamedRanges"), UNO_QUERY_THROW);
    int column = 0;
    const auto letters = [](int at) {
        return at < 26 ? std::string(1, static_cast<char>('A' + at))
                       : "A" + std::string(1, static_cast<char>('A' + at - 26));
    };
    for (const auto* table : {&addin::desk_blocks, &addin::desk_counts, &addin::desk_problems}) {
        for (const char* what : table->columns) {
            const std::string at = "$" + letters(column++) + "$";
            const int last = table == &addin::desk_counts ? lines : 2;
            names->addNewByName(ustring(what), ustring("$Sheet1." + at + "1:" + at + std::to_string(last)), {}, 0);
        }
    }
    return book;
}

void put(const Book& book, const std::string& name, int lines, const std::function<Any(int)>& value) {
    css::uno::Sequence<css::uno::Sequence<Any>> data(lines);
    auto* const rows = data.getArray();
    for (int line = 0; line < lines; ++line) {
        const Any one = value(line);
        rows[line] = css::uno::Sequence<Any>(&one, 1);
    }
    const Ref<css::beans::XPropertySet> document(book.document(), UNO_QUERY_THROW);
    const Ref<css::container::XNameAccess> names(document->getPropertyValue("NamedRanges"), UNO_QUERY_THROW);
    const Ref<css::sheet::XCellRangeReferrer> cells(names->getByName(ustring(name)), UNO_QUERY_THROW);
    Ref<css::sheet::XCellRangeData>(cells->getReferredCells(), UNO_QUERY_THROW)->setDataArray(data);
}

Any numbered(const char* what, int number) { return Any(ustring(what + std::to_string(number))); }

struct Groups {
    std::vector<std::string> names;
    std::vector<double> grafts;
    std::vector<double> live;
};

/// What a view gives, over a connection of its own.
Groups pooled(const Office& office, const std::string& where) {
    const Ref<css::sdbc::XDriver> driver(office.create("org.openoffice.comp.connectivity.pq.Driver.noext"),
                                         UNO_QUERY_THROW);
    const auto connection = driver->connect("sdbc:postgresql:" + ustring(where), {});
    const auto statement = connection->createStatement();
    const auto result =
        statement->executeQuery("select nursery || ', ' || lot, grafts, live_grafts from slipbark_take_lot");
    const Ref<css::sdbc::XRow> row(result, UNO_QUERY_THROW);
    Groups all;
    while (result->next()) {
        all.names.push_back(utf8(row->getString(1)));
        all.grafts.push_back(row->getDouble(2));
        all.live.push_back(row->getDouble(3));
    }
    connection->close();
    return all;
}

void database(const Office& office) {
    constexpr int advisers = 10;
    constexpr int lines = 100'000;  // of each
    const tests::Server server;
    double writing = 0;
    {
        const Book desk = desk_of(office, lines);
        put(desk, "count_file", lines, [](int line) { return numbered("plan ", line / 100); });
        put(desk, "count_season", lines, [](int line) { return Any(2022.0 + line % 5); });
        put(desk, "count_block", lines, [](int line) { return numbered("Block ", line % 100); });
        put(desk, "count_method", lines, [](int line) { return numbered("Method ", line % 4); });
        put(desk, "count_lot", lines, [](int line) { return numbered("Lot ", line % 300); });
        put(desk, "count_nursery", lines, [](int line) { return numbered("Nursery ", line % 30); });
        put(desk, "count_trees", lines, [](int line) { return Any(5.0 + line % 7); });
        put(desk, "count_grafts", lines, [](int line) { return Any(40.0 + line % 7); });
        put(desk, "count_live", lines, [](int line) { return Any(20.0 + (line % 300) / 20 + line % 3); });
        for (int adviser = 0; adviser < advisers; ++adviser) {
            put(desk, "count_client", lines,
                [&](int line) { return numbered("Client ", adviser * 1000 + line / 100); });
            writing += seconds([&] {
                expect(command(office, desk, "keep-in-database", server.written()), "and 100000 lines of counts");
            });
        }
    }
    expect(server.sql("select count(*) from slipbark_count"), "1000000");
    server.sql("vacuum analyze slipbark_count");

    const Book sheet = office.new_book(false);
    Groups found = pooled(office, server.written());
    const auto groups = static_cast<int>(found.names.size());
    const std::string last = std::to_string(groups);
    const auto fill = [&] {
        css::uno::Sequence<css::uno::Sequence<Any>> data(groups);
        auto* const rows = data.getArray();
        for (int line = 0; line < groups; ++line) {
            const auto at = static_cast<std::size_t>(line);
            const Any cells[] = {Any(ustring(found.names[at])), Any(found.live[at]), Any(found.grafts[at])};
            rows[line] = css::uno::Sequence<Any>(cells, 3);
        }
        Ref<css::sheet::XCellRangeData>(sheet.range("A1:C" + last), UNO_QUERY_THROW)->setDataArray(data);
    };
    fill();
    sheet.set_array("E1:K" + std::to_string(groups + 1),
                    "=REWORK.TAKEPOOL(A1:A" + last + ";B1:B" + last + ";C1:C" + last + ")");
    if (sheet.shown("E" + std::to_string(groups + 1)).text != "new") throw std::runtime_error("no pooled takes");
    std::vector<double> queries;
    std::vector<double> sheets;
    std::vector<double> ratios;
    for (int round = 0; round < rounds; ++round) {
        const auto ask = [&] { queries.push_back(seconds([&] { found = pooled(office, server.written()); })); };
        const auto pool = [&] {
            sheets.push_back(seconds([&] {
                found = pooled(office, server.written());
                fill();
                if (sheet.shown("I1").error != 0) throw std::runtime_error("no pooled takes");
            }));
        };
        if (round % 2 == 0) ask();
        pool();
        if (round % 2 != 0) ask();
        ratios.push_back(sheets.back() / queries.back());
    }
    const Report report("The adviser's desk: a million lines of counts in PostgreSQL, by the clock", {"what", "s"});
    report.row({"written by ten desks of 100,000 lines each, in all", Report::number(writing, 1)});
    report.row({"the view asked for " + last + " lots, median of " + std::to_string(rounds),
                Report::number(median(queries), 3)});
    report.row({"the same, and pooled in the sheet", Report::number(median(sheets), 3)});
    std::cout << "\nThe sheet against the query in the same round: " << Report::number(median(ratios), 2)
              << ". Goal: at most 1.5: " << (median(ratios) <= 1.5 ? "kept" : "missed") << ".\n";
}

}  // namespace

}  // namespace slipbark::benchmarks

int main(int count, char** words) {
    using namespace slipbark;
    try {
        const std::set<std::string> wanted(words + 1, words + count);
        const office::Office office({.bundled = SLIPBARK_BUNDLED, .profile = {}, .words = {}});
        if (wanted.empty() || wanted.contains("plans")) benchmarks::plans(office);
        if (wanted.empty() || wanted.contains("database")) benchmarks::database(office);
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << "desk_benchmark: " << office::utf8(error.Message) << '\n';
    } catch (const std::exception& error) {
        std::cerr << "desk_benchmark: " << error.what() << '\n';
    }
    return 1;
}

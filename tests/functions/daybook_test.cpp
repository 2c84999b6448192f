// The day-book: against a second reckoning that keeps every graft's place and goes over all of it at every loss, on
// journals made at random; and the rules one by one.
#include "slipbark/daybook.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "common.hpp"
#include "slipbark/calendar.hpp"
#include "slipbark/dates.hpp"

namespace slipbark::daybook {
namespace {

using std::chrono::days;
using tests::iso;
using tests::refused;

const Cell none;

struct Entry {
    Cell date, what, row, trees, grafts, live, lot, who, hours, money;
};

DatedTable book(const std::vector<Entry>& lines) {
    DatedTable daybook{Table(11, {})};
    for (const Entry& line : lines) {
        for (const Cell& cell : {line.date, line.what, line.row, line.trees, line.grafts, line.live, line.lot, line.who,
                                 line.hours, line.money, none}) {
            daybook.table.cells.push_back(cell);
        }
    }
    return daybook;
}

const List row_names{"R1", "R2", "R3", 4.0};
const List row_trees{20.0, 30.0, 12.0, 25.0};
const List lot_names{"A", "B", "C"};

Entry grafted(const char* date, const Cell& row, const Cell& trees, double grafts, const Cell& lot = "A",
              const Cell& who = "Ana") {
    return {iso(date), "grafted", row, trees, grafts, none, lot, who, none, none};
}
Entry counted(const char* date, const Cell& row, const Cell& trees, const Cell& grafts, double live,
              const Cell& lot = none, const Cell& who = none) {
    return {iso(date), "counted", row, trees, grafts, live, lot, who, none, none};
}
Entry lost(const char* date, const Cell& row, double trees, const Cell& grafts = none) {
    return {iso(date), "lost", row, trees, grafts, none, none, none, none, none};
}
Entry other(const char* date, const char* what, const Cell& row = none, const Cell& grafts = none,
            const Cell& live = none, const Cell& lot = none) {
    return {iso(date), what, row, none, grafts, live, lot, none, none, none};
}

std::vector<std::optional<RowAccount>> accounts(const std::vector<Entry>& lines, std::optional<Day> on = {}) {
    return row_account(row_names, row_trees, book(lines), on, lot_names);
}
RowAccount first_row(const std::vector<Entry>& lines) { return *accounts(lines).front(); }

std::string said(const std::vector<Entry>& lines, std::size_t line) {
    const auto remarks = checks(row_names, row_trees, book(lines), {}, lot_names);
    return remarks.at(line) ? remarks.at(line)->sentence.english() : "";
}
bool left_out(const std::vector<Entry>& lines, std::size_t line) {
    const auto remarks = checks(row_names, row_trees, book(lines), {}, lot_names);
    return remarks.at(line) && remarks.at(line)->left_out;
}

// ---- Rule by rule

TEST(RowAccount, OfAnEmptyDaybookIsWhatWasPlanted) {
    const auto all = accounts({});
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[3]->trees_left, 25);
    EXPECT_EQ(all[3]->placed, 0);
    EXPECT_FALSE(all[3]->first_graft);
}

TEST(RowAccount, CountsAPartOnlyAsThatPart) {
    // Half of the row looked at, 150 of its 200 grafts alive: not 150 of 400.
    const RowAccount row =
        first_row({grafted("2028-03-20", "R1", none, 400), counted("2028-04-10", "R1", 10., 200., 150)});
    EXPECT_EQ(row.trees_grafted, 20);
    EXPECT_EQ(row.looked, 200);
    EXPECT_EQ(row.live, 150);
    EXPECT_EQ(row.last_look, iso("2028-04-10"));
}

TEST(RowAccount, TakesBlankGraftsOfACountForAllOnThoseTrees) {
    EXPECT_EQ(first_row({grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", 7., none, 100)}).looked,
              140);
    EXPECT_EQ(first_row({grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", none, none, 100)}).looked,
              400);
}

TEST(RowAccount, AddsUpTheCountsOfADayAndDropsEarlierOnes) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", none, none, 380),
                                   counted("2028-05-01", "R1", 5., 100., 80),
                                   counted("2028-05-01", "R1", 5., 100., 70)};
    EXPECT_EQ(first_row(lines).looked, 200);
    EXPECT_EQ(first_row(lines).live, 150);
    EXPECT_EQ(accounts(lines, iso("2028-04-30"))[0]->live, 380) << "lines after the day do not count";
}

TEST(RowAccount, LosesTreesWithTheirGraftsForGood) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", none, none, 300),
                                   lost("2028-04-20", "R1", 5)};
    const RowAccount row = first_row(lines);
    EXPECT_EQ(row.trees_left, 15);
    EXPECT_EQ(row.trees_lost, 5);
    EXPECT_EQ(row.trees_grafted, 15);
    EXPECT_EQ(row.placed, 400) << "spent stays spent";
    EXPECT_EQ(row.standing, 300);
    EXPECT_EQ(row.looked, 300);
    EXPECT_EQ(row.live, 225);
    const RowAccount gone = first_row({lines[0], lines[1], lost("2028-04-20", "R1", 20)});
    EXPECT_EQ(gone.trees_left, 0);
    EXPECT_EQ(gone.placed, 400);
    EXPECT_EQ(gone.standing + gone.looked + gone.live, 0);
    const RowAccount given = first_row({lines[0], lost("2028-04-20", "R1", 5, 33.)});
    EXPECT_EQ(given.standing, 367);
}

TEST(RowAccount, LosesBareTreesWhereNoGraftWentWithThem) {
    const RowAccount row = first_row({grafted("2028-03-20", "R1", 12., 240), lost("2028-03-25", "R1", 6, 0.)});
    EXPECT_EQ(row.trees_left, 14);
    EXPECT_EQ(row.trees_grafted, 12);
    EXPECT_EQ(row.standing, 240);
}

TEST(RowAccount, KeepsRegraftsApart) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", none, none, 300),
                                   other("2028-04-12", "regrafted", "R1", 90., none, "B"),
                                   other("2028-05-02", "counted regrafts", "R1", 60., 50.)};
    RowAccount row = first_row(lines);
    EXPECT_EQ(row.regrafts_placed, 90);
    EXPECT_EQ(row.regrafts_looked, 60);
    EXPECT_EQ(row.regrafts_live, 50);
    EXPECT_EQ(row.looked, 400);
    EXPECT_EQ(row.live, 300);
    EXPECT_EQ(row.lots, "A, B");
    // A count of all has both together, and takes the place of both.
    row = first_row({lines[0], lines[1], lines[2], lines[3], counted("2028-06-01", "R1", none, none, 380)});
    EXPECT_EQ(row.looked, 490);
    EXPECT_EQ(row.live, 380);
    EXPECT_EQ(row.regrafts_looked, 0);
    // On the day of the regraft it is the count before it.
    row = first_row({lines[0], lines[2], counted("2028-04-12", "R1", none, none, 280), lines[3]});
    EXPECT_EQ(row.looked, 400);
    EXPECT_EQ(row.regrafts_live, 50);
}

TEST(RowAccount, KeepsItsLastCountWhereNothingWasLookedAt) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", 20., 400), counted("2028-04-10", "R1", none, 100., 60),
                                   counted("2028-04-20", "R1", none, 0., 0), counted("2028-04-21", "R1", 0., none, 0)};
    const RowAccount row = first_row(lines);
    EXPECT_EQ(row.looked, 100);
    EXPECT_EQ(row.live, 60);
    EXPECT_EQ(row.last_look, iso("2028-04-10"));
    EXPECT_EQ(said(lines, 2), "No grafts were looked at: this line is no count.");
    EXPECT_EQ(said(lines, 3), said(lines, 2));
    EXPECT_FALSE(first_row({lines[0], lines[2]}).last_look);
}

TEST(Checks, NameEachLineThatCannotBe) {
    const Entry graft = grafted("2028-03-20", "R1", 20., 400);
    EXPECT_EQ(said({graft, counted("2028-04-10", "R1", none, 100., 101)}, 1), "Live: 101. Looked at: 100.");
    EXPECT_EQ(said({graft, counted("2028-04-10", "R1", none, 401., 300)}, 1),
              "Grafts looked at: 401. Grafts in row R1: 400.");
    EXPECT_EQ(
        said({graft, counted("2028-04-10", "R1", none, 300., 300), counted("2028-04-10", "R1", none, 301., 200)}, 2),
        "Grafts looked at on that day: 601. Grafts in row R1: 400.");
    EXPECT_EQ(said({graft, counted("2028-04-10", "R1", 21., none, 300)}, 1),
              "Trees looked at: 21. Trees with grafts in row R1: 20.");
    EXPECT_EQ(said({graft, lost("2028-04-10", "R1", 21)}, 1), "Trees lost: 21. Left in row R1: 20.");
    EXPECT_EQ(said({graft, lost("2028-04-10", "R1", 2, 401.)}, 1), "Grafts lost: 401. Grafts in row R1: 400.");
    EXPECT_EQ(said({graft, grafted("2028-03-21", "R1", 1., 5)}, 1), "Trees grafted: 1. Left to graft in row R1: 0.");
    EXPECT_EQ(said({graft, grafted("2028-03-21", "R9", 1., 5)}, 1), "Row: \"R9\" is not among the rows.");
    EXPECT_EQ(said({graft, grafted("2028-03-21", "R2", 1., 5, "Z")}, 1), "Lot: \"Z\" is not among the lots.");
    EXPECT_EQ(said({graft, counted("2028-03-19", "R1", none, none, 1)}, 1),
              "Nothing is grafted in row R1 up to that day.");
    EXPECT_EQ(said({graft, other("2028-04-12", "counted regrafts", "R1", 5., 5.)}, 1),
              "Nothing is regrafted in row R1 up to that day.");
    EXPECT_EQ(said({graft, other("2028-03-25", "Cut back and paint", "R1")}, 0),
              "Row R1 was cut back on 2028-03-25: nobody grafts there before.");
    EXPECT_EQ(said({graft, other("2028-03-19", "closed")}, 0),
              "Row R1 was closed on 2028-03-19: nobody grafts there after that day.");
    EXPECT_EQ(said({graft, lost("2028-04-10", "R1", 20), other("2028-04-12", "regrafted", "R1", 9.)}, 2),
              "Row R1 has no trees left on that day.");
    EXPECT_EQ(said({graft, counted("2028-04-10", "R1", none, none, 1, "B")}, 1),
              "Lot: row R1 has no grafts of B on that day.");
    EXPECT_EQ(said({graft, counted("2028-04-10", "R1", none, none, 1, none, "Bo")}, 1),
              "Who: row R1 has no grafts by Bo on that day.");
    EXPECT_EQ(said({other("2028-03-20", "pruned")}, 0),
              "What: \"pruned\" is neither a word of the day-book nor a stage of the schedule.");
    EXPECT_EQ(said({{45000., "grafted", "R1", 1., 5., none, none, none, none, none}}, 0),
              "Date: give the day on which it happened.");
    EXPECT_EQ(said({{iso("2028-03-20"), none, "R1", none, none, none, none, none, none, none}}, 0),
              "What: say what happened.");
    EXPECT_EQ(said({other("2028-03-20", "grafted", none, 5.)}, 0), "Row is blank: give the row.");
    EXPECT_EQ(said({other("2028-03-20", "grafted", "R1")}, 0), "Grafts is blank: give a whole number.");
    EXPECT_EQ(said({other("2028-03-20", "received", none, 40.)}, 0), "Lot is blank: give the lot of the sticks.");
    EXPECT_EQ(said({{iso("2028-03-20"), "paid", none, none, none, none, none, none, -1., none}}, 0),
              "Hours: give a number from 0 to 1000000.");
    EXPECT_EQ(said({{iso("2028-03-20"), "paid", none, none, none, none, none, none, none, "much"}}, 0),
              "Money: give a number from -1000000000000 to 1000000000000.");
    EXPECT_EQ(said({{iso("2028-03-20"), "lost", "R1", 2.5, none, none, none, none, none, none}}, 0),
              "Trees: give a whole number from 0 to 10000000.");
    EXPECT_EQ(said({graft}, 0), "");
}

TEST(Checks, LeaveTheRestStanding) {
    const Entry graft = grafted("2028-03-20", "R1", 20., 400);
    const Entry impossible = counted("2028-04-10", "R1", none, 500., 300);
    EXPECT_TRUE(left_out({graft, impossible}, 1));
    EXPECT_FALSE(first_row({graft, impossible}).last_look);
    EXPECT_EQ(first_row({graft, impossible, counted("2028-04-10", "R1", none, none, 300)}).live, 300);
}

TEST(Checks, SayWhenACountIsTheRowsAlone) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", 10., 200, "A"),
                                   grafted("2028-03-20", "R1", 10., 200, "B"),
                                   counted("2028-04-10", "R1", none, none, 300)};
    EXPECT_EQ(said(lines, 2), "Row R1 has budwood of several lots: give the lot, else this count is the row's alone.");
    EXPECT_FALSE(left_out(lines, 2));
    EXPECT_EQ(first_row(lines).live, 300);
    const auto lots = *take_account(row_names, row_trees, book(lines), By::lot, {}, lot_names);
    ASSERT_EQ(lots.size(), 3u);
    EXPECT_EQ(lots[0].looked + lots[1].looked, 0);
    EXPECT_EQ(lots[2].group, Cell());
    EXPECT_EQ(lots[2].live, 300);
    EXPECT_EQ(said({lines[0], lines[1], counted("2028-04-10", "R1", none, none, 150, "B")}, 2), "");
}

TEST(TakeAccount, ByLotSaysOnlyWhatWasCountedOfIt) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", none, 400, "A"),
                                   grafted("2028-03-21", "R2", none, 600, "B"),
                                   counted("2028-04-10", "R1", none, none, 371)};
    const auto lots = *take_account(row_names, row_trees, book(lines), By::lot, {}, lot_names);
    ASSERT_EQ(lots.size(), 2u);
    EXPECT_EQ(lots[0].group, Cell("A"));
    EXPECT_DOUBLE_EQ(lots[0].take.value(), 371.0 / 400);
    EXPECT_EQ(lots[1].placed, 600);
    EXPECT_FALSE(lots[1].take);
}

TEST(TakeAccount, ByAgeHasEveryLook) {
    const std::vector<Entry> lines{grafted("2028-03-20", "R1", none, 400), counted("2028-04-10", "R1", none, none, 380),
                                   counted("2028-05-01", "R1", 10., 200., 160), grafted("2028-03-22", "R2", none, 100),
                                   counted("2028-04-12", "R2", none, none, 90)};
    const auto ages = *take_account(row_names, row_trees, book(lines), By::age);
    ASSERT_EQ(ages.size(), 2u);
    EXPECT_EQ(ages[0].group, Cell(21.0));
    EXPECT_EQ(ages[0].looked, 500);
    EXPECT_EQ(ages[0].live, 470);
    EXPECT_EQ(ages[1].group, Cell(42.0));
    EXPECT_EQ(ages[1].live, 160);
}

TEST(LotAccount, SaysWhatIsLeftOfTheSticks) {
    const std::vector<Entry> lines{other("2028-03-10", "received", none, 100., none, "A"),
                                   other("2028-03-15", "received", none, 50., none, "A"),
                                   grafted("2028-03-20", "R1", none, 401, "a"), lost("2028-04-01", "R1", 20)};
    const auto lots = *lot_account(row_names, row_trees, book(lines), 4, {}, lot_names);
    ASSERT_EQ(lots.size(), 3u);
    EXPECT_EQ(lots[0].received, 150);
    EXPECT_EQ(lots[0].used, 101) << "401 grafts at 4 a stick, a begun one counts; lost ones were used too";
    EXPECT_EQ(lots[0].left, 49);
    EXPECT_EQ(lots[0].first_received, iso("2028-03-10"));
    EXPECT_EQ(lots[2].lot, "C");
    EXPECT_EQ(lots[2].received, 0);
}

TEST(DoneAccount, IsWhatDuelistTakes) {
    const std::vector<Entry> lines{
        other("2028-03-18", "Cut back and paint", "R1"),
        grafted("2028-03-20", "R1", none, 400),
        grafted("2028-03-21", "R2", 10., 200),
        counted("2028-04-08", "R1", none, 100., 90),
        other("2028-04-20", "first airing"),
        {iso("2028-04-25"), "Full opening of the top", "R1", 12., none, none, none, none, none, none},
        {iso("2028-04-26"), "Full opening of the top", "R1", 8., none, none, none, none, none, none},
        {iso("2028-04-26"), "Full opening of the top", "R2", 8., none, none, none, none, none, none}};
    const Table done = done_account(row_names, row_trees, book(lines));
    ASSERT_EQ(done.columns, 14u);
    ASSERT_EQ(done.rows(), 4u);
    EXPECT_EQ(done.at(0, 0), Cell(iso("2028-03-18")));
    EXPECT_EQ(done.at(0, 1), Cell(iso("2028-03-20")));
    EXPECT_EQ(done.at(0, 2), Cell(iso("2028-04-08"))) << "a count is the first look";
    EXPECT_EQ(done.at(0, 5), Cell(iso("2028-04-26"))) << "12 and 8 of 20 trees";
    EXPECT_EQ(done.at(1, 1), Cell()) << "10 of 30 trees";
    EXPECT_EQ(done.at(1, 5), Cell());
    for (std::size_t row = 0; row < 4; ++row) EXPECT_EQ(done.at(row, 3), Cell(iso("2028-04-20"))) << row;
    const Table due = *calendar::due_list(row_names, {iso("2028-03-20"), iso("2028-03-21"), {}, {}}, iso("2028-04-01"),
                                          iso("2028-04-30"), {}, DayTable{done});
    for (std::size_t row = 0; row < due.rows(); ++row) {
        EXPECT_FALSE(due.at(row, 0) == Cell("R1") && due.at(row, 1) == Cell("First look under the bag"));
    }
}

TEST(WorkAccount, AddsHoursAndMoneyByMonthAndKind) {
    const auto line = [](const char* date, const char* what, double hours, double money) {
        return Entry{iso(date), what, "R1", 1., 1., none, "A", none, hours, money};
    };
    const std::vector<Entry> lines{line("2028-03-20", "grafted", 8, 0), line("2028-03-31", "grafted", 6, 10),
                                   line("2028-04-01", "grafted", 1, 0), line("2028-03-05", "paid", 0, 250),
                                   line("2028-03-02", "First airing", 2, 0)};
    const auto work = *work_account(row_names, row_trees, book(lines));
    ASSERT_EQ(work.size(), 4u);
    EXPECT_EQ(work[0].what, "grafted");
    EXPECT_EQ(work[0].period, iso("2028-03-01"));
    EXPECT_EQ(work[0].hours, 14);
    EXPECT_EQ(work[1].money, 250);
    EXPECT_EQ(work[2].what, "First airing");
    EXPECT_EQ(work[3].period, iso("2028-04-01"));
    const auto years = *work_account(row_names, row_trees, book(lines), Step::year, iso("2028-03-31"));
    ASSERT_EQ(years.size(), 4u);
    EXPECT_EQ(years[0].period, iso("2027-03-31"));
    EXPECT_EQ(years[3].hours, 7) << "from the last of March on";
}

TEST(PaceAccount, LearnsFromThreeDays) {
    std::vector<Entry> lines{grafted("2028-03-20", "R1", 5., 90, "A", "Ana"),
                             grafted("2028-03-20", "R1", 5., 110, "A", "Bo"),
                             grafted("2028-03-21", "R1", 5., 130, "A", "Ana")};
    PaceAccount pace = pace_account(row_names, row_trees, book(lines), 110);
    EXPECT_EQ(pace.days, 2);
    EXPECT_EQ(pace.person_days, 3);
    EXPECT_DOUBLE_EQ(pace.seen.value(), 110);
    lines.push_back(grafted("2028-03-22", "R2", 5., 70, "A", none));
    pace = pace_account(row_names, row_trees, book(lines), 110, 2);
    EXPECT_EQ(pace.person_days, 5) << "the crew's two where nobody is named";
    EXPECT_DOUBLE_EQ(pace.pace, 80);
    lines.resize(1);
    pace = pace_account(row_names, row_trees, book(lines), 120);
    EXPECT_DOUBLE_EQ(pace.pace, 90.0 / 3 + 120 * 2.0 / 3);
    EXPECT_FALSE(pace_account(row_names, row_trees, book({}), 120).seen);
}

TEST(Words, OfAnotherLanguageAreUnderstood) {
    const Table words{2, {"injertado", "grafted", "revisado", "counted", "Primera mirada", "look stage"}};
    const Table schedule{6, {"Injerto", 0., 0., 0., "d", none, "Primera mirada", 14., 18., 21., "d", none}};
    Entry graft = grafted("2028-03-20", "R1", none, 400);
    graft.what = " Injertado";
    Entry look = counted("2028-04-10", "R1", none, none, 300);
    look.what = "REVISADO";
    const DatedTable daybook = book({graft, look});
    EXPECT_EQ(row_account(row_names, row_trees, daybook, {}, {}, schedule, words)[0]->live, 300);
    EXPECT_EQ(done_account(row_names, row_trees, daybook, {}, {}, schedule, words).at(0, 1), Cell(iso("2028-04-10")));
    EXPECT_EQ(row_account(row_names, row_trees, daybook)[0]->placed, 0);
    EXPECT_EQ(refused([&] { read(row_names, row_trees, daybook, {}, {}, schedule, Table{2, {"a", "b"}}); }), "words");
    EXPECT_EQ(refused([&] { read(row_names, row_trees, daybook, {}, {}, schedule, Table{1, {"a"}}); }), "words");
}

TEST(Journal, RefusesRowsThatAreNone) {
    const DatedTable none_yet = book({});
    EXPECT_EQ(refused([&] { read({"R1", "r1 "}, {1., 2.}, none_yet); }), "rows");
    EXPECT_EQ(refused([&] { read({"R1", none}, {1., 2.}, none_yet); }), "rows");
    EXPECT_EQ(refused([&] { read({"R1"}, {1., 2.}, none_yet); }), "trees");
    EXPECT_EQ(refused([&] { read({none, none}, {none, none}, none_yet); }), "rows");
    EXPECT_EQ(refused([&] { read({"R1"}, {1.5}, none_yet); }), "trees");
    EXPECT_EQ(refused([&] { read({"R1"}, {none}, none_yet); }), "trees");
    EXPECT_EQ(refused([&] { read({"R1"}, {1.}, DatedTable{Table(9, {})}); }), "daybook");
    EXPECT_EQ(row_account({"R1", none, "R2"}, {1., none, 2.}, none_yet).size(), 3u);
    EXPECT_FALSE(row_account({"R1", none, "R2"}, {1., none, 2.}, none_yet)[1]);
}

TEST(TakeRevised, GoesFromTheExpectationToTheCount) {
    EXPECT_DOUBLE_EQ(take_revised(0.8, 0, 0).take, 0.8);
    EXPECT_DOUBLE_EQ(take_revised(0.8, 30, 60).take, (16 + 30) / 80.0) << "an expectation of 20 grafts, 60 counted";
    EXPECT_NEAR(take_revised(0.8, 5e6, 1e7).take, 0.5, 1e-5);
    EXPECT_DOUBLE_EQ(take_revised(0.8, 30, 60, 40, 8, 0.25).take, (32 + 30 / 2.75) / (40 + 60 / 2.75));
    EXPECT_EQ(take_revised(1, 5, 5).low, 1);
    EXPECT_EQ(take_revised(0, 0, 5).high, 0);
    EXPECT_EQ(refused([] { take_revised(0.8, 6, 5); }), "live");
    EXPECT_EQ(refused([] { take_revised(80, 5, 5); }), "expected");
    EXPECT_EQ(refused([] { take_revised(0.8, 5, 5, 0); }), "weight");
    EXPECT_EQ(refused([] { take_revised(0.8, 5, 5, 20, 0.5); }), "grafts_per_tree");
    EXPECT_EQ(refused([] { take_revised(0.8, 5, 5, 20, 8, 1); }), "clustering");
}

TEST(TakeRevised, HasTheLimitsOfItsDensity) {
    // The density of the posterior, summed by Simpson's rule, against each limit.
    for (const auto& [expected, live, looked] :
         {std::tuple(0.8, 30.0, 60.0), std::tuple(0.6, 0.0, 0.0), std::tuple(0.9, 88.0, 90.0)}) {
        const RevisedTake revised = take_revised(expected, live, looked, 20, 5, 0.1, 0.9);
        const double a = 20 * expected + live / 1.4;
        const double b = 20 * (1 - expected) + (looked - live) / 1.4;
        const auto density = [&](double x) {
            return x <= 0 || x >= 1 ? 0
                                    : std::exp((a - 1) * std::log(x) + (b - 1) * std::log(1 - x) + std::lgamma(a + b) -
                                               std::lgamma(a) - std::lgamma(b));
        };
        const auto below = [&](double end) {
            constexpr int steps = 20000;
            double sum = density(0) + density(end);
            for (int at = 1; at < steps; ++at) sum += (at % 2 == 1 ? 4 : 2) * density(end * at / steps);
            return sum * end / steps / 3;
        };
        EXPECT_NEAR(below(revised.low), 0.05, 1e-6);
        EXPECT_NEAR(below(revised.high), 0.95, 1e-6);
    }
}

// ---- A second reckoning

/// Keeps every placing and every count by itself, and goes over all of the row at every loss.
struct Reckoned {
    struct Grafts {
        std::string lot, who;
        Day date;
        bool again;
        double amount;
    };
    struct Look {
        Day date;
        bool again;
        double looked, live;
    };
    double left = 0, lost = 0, grafted = 0, placed = 0, again = 0, standing = 0;
    std::vector<Grafts> grafts;
    std::vector<Look> looks;
    std::optional<Day> last_again_of_count, first_again;

    double sum(bool only_again, const std::string& lot, const std::string& who) const {
        double all = 0;
        for (const Grafts& one : grafts) {
            if (only_again && !one.again) continue;
            if (!lot.empty() && one.lot != lot) continue;
            if (!who.empty() && one.who != who) continue;
            all += one.amount;
        }
        return all;
    }
};

std::string text(const Cell& cell) { return is_blank(cell) ? "" : std::get<std::string>(cell); }
std::optional<double> number(const Cell& cell) {
    return is_blank(cell) ? std::nullopt : std::optional(std::get<double>(cell));
}
double nearest(double value) { return std::floor(value + 0.5); }

/// Whether the line can be; then it is in the row.
bool take_in(Reckoned& row, const Entry& line) {
    const std::string what = text(line.what);
    const Day date = std::get<Day>(line.date);
    const auto trees = number(line.trees);
    const auto grafts = number(line.grafts);
    if (what == "grafted") {
        const double on = trees.value_or(row.left - row.grafted);
        if (row.left == 0 || !grafts || on > row.left - row.grafted || row.grafted + on == 0) return false;
        row.grafted += on;
        row.placed += *grafts;
        row.standing += *grafts;
        row.grafts.push_back({text(line.lot), text(line.who), date, false, *grafts});
        return true;
    }
    if (what == "regrafted") {
        if (row.left == 0 || row.grafted == 0 || !grafts || trees.value_or(0) > row.grafted) return false;
        row.again += *grafts;
        row.standing += *grafts;
        if (!row.first_again) row.first_again = date;
        row.grafts.push_back({text(line.lot), text(line.who), date, true, *grafts});
        return true;
    }
    if (what == "lost") {
        if (!trees || *trees > row.left || grafts.value_or(0) > row.standing) return false;
        double of_grafted = std::min(*trees, row.grafted);
        if (grafts == 0.0) of_grafted = std::max(0.0, *trees - (row.left - row.grafted));
        double gone = grafts ? *grafts : row.grafted > 0 ? nearest(row.standing / row.grafted * of_grafted) : 0;
        if (of_grafted > 0 && of_grafted == row.grafted) gone = row.standing;
        const double keeps = row.standing > 0 ? 1 - gone / row.standing : 1;
        for (auto& one : row.grafts) one.amount *= keeps;
        for (auto& one : row.looks) one.looked *= keeps, one.live *= keeps;
        row.left -= *trees;
        row.lost += *trees;
        row.grafted -= of_grafted;
        row.standing -= gone;
        return true;
    }
    const bool again = what == "counted regrafts";
    const auto live = number(line.live);
    if (row.grafted == 0 || !live || (again && !row.first_again)) return false;
    if (trees && *trees > row.grafted) return false;
    const std::string lot = text(line.lot);
    const std::string who = text(line.who);
    if (!lot.empty() && row.sum(again, lot, "") < 1e-9) return false;
    if (!who.empty() && row.sum(again, lot, who) < 1e-9) return false;
    const double there = nearest(row.sum(again, lot, who));
    double looked = grafts ? *grafts : trees ? std::min(there, nearest(there / row.grafted * *trees)) : there;
    if (looked > there || *live > looked) return false;
    if (looked == 0) return true;  // no look
    double today = looked;
    for (const auto& one : row.looks) today += one.again == again && one.date == date ? one.looked : 0;
    if (today > nearest(row.sum(again, "", ""))) return false;
    row.looks.push_back({date, again, looked, *live});
    return true;
}

int place_in_day(const std::string& what) {
    const std::vector<std::string> all{"grafted", "lost", "counted", "counted regrafts", "regrafted"};
    return static_cast<int>(std::find(all.begin(), all.end(), what) - all.begin());
}

/// The rows, each by itself, and whether each line is left out.
std::pair<std::vector<Reckoned>, std::vector<bool>> reckon(const std::vector<Entry>& lines) {
    std::vector<std::size_t> order(lines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    // Of a kind on one day: blank before numbers, fewer before more.
    const auto key = [&](std::size_t at) {
        const Entry& line = lines[at];
        return std::tuple(std::get<Day>(line.date), place_in_day(text(line.what)), number(line.trees),
                          number(line.grafts), number(line.live), text(line.lot), text(line.who), at);
    };
    std::sort(order.begin(), order.end(), [&](std::size_t one, std::size_t two) { return key(one) < key(two); });
    std::vector<Reckoned> rows(3);
    for (std::size_t row = 0; row < rows.size(); ++row) rows[row].left = std::get<double>(row_trees.cells[row]);
    std::vector<bool> out(lines.size());
    for (const std::size_t at : order) {
        const std::size_t row = static_cast<std::size_t>(text(lines[at].row)[1] - '1');
        out[at] = !take_in(rows[row], lines[at]);
    }
    return {rows, out};
}

/// Looked at and live on the last day of counting.
std::array<double, 4> state(const Reckoned& row) {
    std::optional<Day> all;
    std::optional<Day> again;
    for (const auto& look : row.looks)
        (look.again ? again : all) = std::max(look.again ? again : all, std::optional(look.date));
    const bool has_both = all && row.first_again && *all > *row.first_again;
    std::array<double, 4> sums{};
    for (const auto& look : row.looks) {
        if (look.date != (look.again ? again : all) || (look.again && has_both)) continue;
        sums[look.again ? 2 : 0] += look.looked;
        sums[look.again ? 3 : 1] += look.live;
    }
    return sums;
}

class Season {
  public:
    explicit Season(std::uint64_t seed) : random_(tests::draws(seed)) {}

    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    bool chance(double share) { return std::bernoulli_distribution(share)(random_); }
    Cell maybe(double share, double value) { return chance(share) ? Cell(value) : Cell(); }
    std::mt19937_64& random() { return random_; }

    Entry line() {
        static const std::vector<std::string> kinds{"grafted", "grafted", "grafted",   "counted",         "counted",
                                                    "counted", "lost",    "regrafted", "counted regrafts"};
        Entry line;
        line.date = iso("2028-03-20") + days{whole(0, 40)};
        const std::string what = kinds[static_cast<std::size_t>(whole(0, 8))];
        line.what = what;
        line.row = "R" + std::to_string(whole(1, 3));
        const bool grafting = what == "grafted" || what == "regrafted";
        if (what == "lost") {
            line.trees = double(whole(0, 4));
            line.grafts = maybe(0.3, whole(0, 30));
        } else {
            line.trees = maybe(grafting ? 0.9 : 0.6, whole(0, grafting ? 7 : 15));
            line.grafts = maybe(grafting ? 0.97 : 0.5, whole(0, grafting ? 120 : 80));
            if (!grafting) line.live = maybe(0.97, whole(0, 60));
        }
        if (chance(grafting ? 0.9 : 0.4)) line.lot = std::string(1, "AB"[whole(0, 1)]);
        if (chance(grafting ? 0.9 : 0.2)) line.who = std::string(whole(0, 1) == 0 ? "Ana" : "Bo");
        line.hours = maybe(0.5, whole(1, 9));
        line.money = maybe(0.3, whole(-20, 400));
        return line;
    }
    std::vector<Entry> lines(int count) {
        std::vector<Entry> all;
        for (int at = 0; at < count; ++at) all.push_back(line());
        return all;
    }

  private:
    std::mt19937_64 random_;
};

class RandomSeason : public testing::TestWithParam<int> {};

TEST_P(RandomSeason, AgreesWithTheSecondReckoning) {
    Season season(static_cast<std::uint64_t>(GetParam()));
    const auto lines = season.lines(season.whole(5, 90));
    const auto [reckoned, out] = reckon(lines);
    const auto remarks = checks(row_names, row_trees, book(lines), {}, lot_names);
    for (std::size_t at = 0; at < lines.size(); ++at) {
        EXPECT_EQ(remarks[at] && remarks[at]->left_out, out[at])
            << at << " " << text(lines[at].what) << ": " << (remarks[at] ? remarks[at]->sentence.english() : "");
    }
    const auto rows = row_account(row_names, row_trees, book(lines), {}, lot_names);
    for (std::size_t at = 0; at < reckoned.size(); ++at) {
        const Reckoned& row = reckoned[at];
        const RowAccount& account = *rows[at];
        EXPECT_EQ(account.trees_left, row.left);
        EXPECT_EQ(account.trees_lost, row.lost);
        EXPECT_EQ(account.trees_grafted, row.grafted);
        EXPECT_EQ(account.placed, row.placed);
        EXPECT_EQ(account.regrafts_placed, row.again);
        EXPECT_EQ(account.standing + account.regrafts_standing, row.standing);
        EXPECT_NEAR(account.regrafts_standing, row.sum(true, "", ""), 12) << "each placing to a whole graft";
        const auto sums = state(row);
        EXPECT_NEAR(account.looked, sums[0], 1);
        EXPECT_NEAR(account.live, sums[1], 0.501);
        EXPECT_NEAR(account.regrafts_looked, sums[2], 1);
        EXPECT_NEAR(account.regrafts_live, sums[3], 0.501);
        EXPECT_LE(account.live, account.looked);
    }
}

TEST_P(RandomSeason, AddsUpWhicheverWayItIsGrouped) {
    Season season(1000 + static_cast<std::uint64_t>(GetParam()));
    const DatedTable daybook = book(season.lines(season.whole(5, 90)));
    const auto sum = [](const auto& all, auto what) {
        double total = 0;
        for (const auto& one : all) total += what(one);
        return total;
    };
    const auto rows = row_account(row_names, row_trees, daybook, {}, lot_names);
    for (const By by : {By::lot, By::grafter, By::day, By::row}) {
        const auto groups =
            take_account(row_names, row_trees, daybook, by, {}, lot_names).value_or(std::vector<TakeAccount>{});
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.placed; }),
                  sum(rows, [](const auto& one) { return one->placed; }));
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.standing; }),
                  sum(rows, [](const auto& one) { return one->standing; }));
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.looked; }),
                  sum(rows, [](const auto& one) { return one->looked; }));
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.live; }),
                  sum(rows, [](const auto& one) { return one->live; }));
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.regrafts_standing; }),
                  sum(rows, [](const auto& one) { return one->regrafts_standing; }));
        EXPECT_EQ(sum(groups, [](const auto& one) { return one.regrafts_live; }),
                  sum(rows, [](const auto& one) { return one->regrafts_live; }));
    }
    const auto lots = *lot_account(row_names, row_trees, daybook, {}, {}, lot_names);
    EXPECT_EQ(sum(lots, [](const auto& one) { return one.placed + one.regrafts_placed; }),
              sum(rows, [](const auto& one) { return one->placed + one->regrafts_placed; }));
    const Journal journal = read(row_names, row_trees, daybook, {}, lot_names);
    for (const Step step : {Step::month, Step::year}) {
        const auto work =
            work_account(row_names, row_trees, daybook, step, {}, {}, lot_names).value_or(std::vector<WorkAccount>{});
        EXPECT_EQ(sum(work, [](const auto& one) { return one.hours; }),
                  sum(journal.lines, [](const auto& one) { return one.hours; }));
        EXPECT_EQ(sum(work, [](const auto& one) { return one.money; }),
                  sum(journal.lines, [](const auto& one) { return one.money; }));
    }
}

// The days of counting, what was looked at and who grafted against the second reckoning; all else against each account
// by itself.
TEST_P(RandomSeason, HasAllAccountsInOneReading) {
    Season season(4000 + static_cast<std::uint64_t>(GetParam()));
    const auto lines = season.lines(season.whole(5, 90));
    const DatedTable daybook = book(lines);
    const auto all = all_accounts(row_names, row_trees, daybook, 90., 3., 4., {}, lot_names);
    const auto alone = row_account(row_names, row_trees, daybook, {}, lot_names);
    const auto [reckoned, out] = reckon(lines);
    ASSERT_EQ(all.rows.size(), 4);
    ASSERT_EQ(all.looks.size(), 4);
    for (std::size_t at = 0; at < reckoned.size(); ++at) {
        EXPECT_EQ(all.rows[at]->standing, alone[at]->standing);
        EXPECT_EQ(all.rows[at]->live, alone[at]->live);
        std::map<Day, std::pair<double, double>> days_of_counting;
        std::set<std::string> people;
        for (std::size_t line = 0; line < lines.size(); ++line) {
            if (out[line] || lines[line].row != row_names.cells[at]) continue;
            if (text(lines[line].what) == "grafted") people.insert(text(lines[line].who));
            if (text(lines[line].what) == "counted") days_of_counting[std::get<Day>(lines[line].date)];
        }
        for (auto& [day, sums] : days_of_counting) {
            // Of that day itself: what is lost later does not change what was written.
            std::vector<Entry> until;
            for (const Entry& line : lines) {
                if (std::get<Day>(line.date) <= day) until.push_back(line);
            }
            const Reckoned then = reckon(until).first[at];
            for (const auto& look : then.looks) {
                if (!look.again && look.date == day) sums.first += look.looked, sums.second += look.live;
            }
        }
        std::erase_if(days_of_counting, [](const auto& day) { return day.second.first == 0; });
        std::size_t number = 0;
        for (const auto& [day, sums] : days_of_counting) {
            if (number == 3) break;
            const Look& look = all.looks[at]->looks.at(number++);
            EXPECT_EQ(look.date, day);
            EXPECT_EQ(look.looked, sums.first);
            EXPECT_EQ(look.live, sums.second);
        }
        for (; number < 3; ++number) EXPECT_FALSE(all.looks[at]->looks.at(number).date);
        EXPECT_EQ(all.looks[at]->grafters, static_cast<double>(people.size()));
        EXPECT_EQ(all.looks[at]->grafter, people.size() == 1 ? *people.begin() : "");
    }
    const auto same_field = [](const auto& one, const auto& other, auto field) {
        ASSERT_EQ(one.size(), other.size());
        for (std::size_t at = 0; at < one.size(); ++at) EXPECT_EQ(one[at].*field, other[at].*field);
    };
    const auto same = [&](const auto& one, const auto& other, auto... fields) {
        (same_field(one, other, fields), ...);
    };
    const auto take = [&](By by) {
        return take_account(row_names, row_trees, daybook, by, {}, lot_names).value_or(std::vector<TakeAccount>{});
    };
    same(all.by_lot, take(By::lot), &TakeAccount::group, &TakeAccount::looked, &TakeAccount::live);
    same(all.by_grafter, take(By::grafter), &TakeAccount::group, &TakeAccount::placed, &TakeAccount::live);
    same(all.by_age, take(By::age), &TakeAccount::group, &TakeAccount::looked, &TakeAccount::live);
    same(all.lots, *lot_account(row_names, row_trees, daybook, 4., {}, lot_names), &LotAccount::lot, &LotAccount::used);
    same(all.work,
         work_account(row_names, row_trees, daybook, {}, {}, {}, lot_names).value_or(std::vector<WorkAccount>{}),
         &WorkAccount::period, &WorkAccount::what, &WorkAccount::hours, &WorkAccount::money);
    EXPECT_EQ(all.pace->pace, pace_account(row_names, row_trees, daybook, 90., 3., {}, lot_names).pace);
    EXPECT_EQ(all.done, done_account(row_names, row_trees, daybook, {}, lot_names));

    const auto rows_alone = all_accounts(row_names, row_trees, daybook, {}, {}, {}, {}, lot_names, {}, {}, Part::rows);
    EXPECT_EQ(rows_alone.done, all.done);
    EXPECT_TRUE(rows_alone.lots.empty());
    EXPECT_FALSE(rows_alone.pace);
    EXPECT_TRUE(
        all_accounts(row_names, row_trees, daybook, 90., {}, {}, {}, lot_names, {}, {}, Part::groups).rows.empty());
}

TEST_P(RandomSeason, DoesNotMindTheOrderOfItsLines) {
    Season season(2000 + static_cast<std::uint64_t>(GetParam()));
    auto lines = season.lines(60);
    const auto all = [&] {
        std::vector<double> numbers;
        for (const auto& row : row_account(row_names, row_trees, book(lines), {}, {})) {
            for (const double one : {row->trees_left, row->trees_grafted, row->placed, row->standing, row->looked,
                                     row->live, row->regrafts_standing, row->regrafts_looked, row->regrafts_live}) {
                numbers.push_back(one);
            }
        }
        for (const By by : {By::lot, By::grafter, By::day, By::age}) {
            const auto groups = take_account(row_names, row_trees, book(lines), by);
            if (!groups) continue;
            for (const auto& group : *groups) {
                for (const double one : {group.placed, group.standing, group.looked, group.live})
                    numbers.push_back(one);
            }
        }
        return numbers;
    };
    const auto before = all();
    std::shuffle(lines.begin(), lines.end(), season.random());
    EXPECT_EQ(all(), before);
}

TEST_P(RandomSeason, ChangesOnlyWhatDependsOnALine) {
    Season season(3000 + static_cast<std::uint64_t>(GetParam()));
    auto lines = season.lines(60);
    const auto before = row_account(row_names, row_trees, book(lines));
    const auto at = static_cast<std::size_t>(season.whole(0, 59));
    const Entry out = lines[at];
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
    const auto after = row_account(row_names, row_trees, book(lines));
    for (std::size_t row = 0; row < 4; ++row) {
        if (row_names.cells[row] == out.row) continue;
        EXPECT_EQ(after[row]->standing, before[row]->standing);
        EXPECT_EQ(after[row]->live, before[row]->live);
        EXPECT_EQ(after[row]->regrafts_standing, before[row]->regrafts_standing);
        EXPECT_EQ(after[row]->trees_left, before[row]->trees_left);
    }
}

INSTANTIATE_TEST_SUITE_P(Daybook, RandomSeason, testing::Range(0, 200));

TEST(AllAccounts, SayWhenARowWasClosed) {
    const std::vector<Entry> lines{other("2028-05-01", "closed", "R1"), other("2028-06-01", "closed")};
    const auto all = all_accounts(row_names, row_trees, book(lines));
    EXPECT_EQ(all.looks[0]->closed, iso("2028-05-01"));
    EXPECT_EQ(all.looks[1]->closed, iso("2028-06-01"));
    EXPECT_FALSE(all_accounts(row_names, row_trees, book({})).looks[0]->closed);
    EXPECT_FALSE(all_accounts(row_names, row_trees, book({})).pace);
}

TEST(Daybook, CountsALineTwiceThatIsThereTwice) {
    const Entry graft = grafted("2028-03-20", "R1", 10., 200);
    EXPECT_EQ(first_row({graft, graft}).placed, 400);
    EXPECT_EQ(first_row({graft, graft, graft}).placed, 400) << "the third has no trees left";
    Entry paid = other("2028-03-21", "paid");
    paid.money = 70.0;
    EXPECT_EQ(work_account(row_names, row_trees, book({paid, paid}))->front().money, 140);
}

// ---- What is left

TEST(RowDays, BeginOnTheDayOnWhichTheRowBeforeEnds) {
    // Monday, 3 people at 95 a day.
    const auto rows = row_days({"1", "2"}, {380.0, 300.0}, iso("2028-03-20"), 95, 3);
    EXPECT_EQ(rows[0]->first, iso("2028-03-20"));
    EXPECT_EQ(rows[0]->last, iso("2028-03-21"));
    EXPECT_EQ(rows[1]->first, iso("2028-03-21"));
    EXPECT_EQ(rows[1]->last, iso("2028-03-22"));
}

TEST(RowDays, EndWithTheCrew) {
    std::mt19937_64 random = tests::draws(27);
    const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
    for (int trial = 0; trial < 500; ++trial) {
        List names;
        List grafts;
        double total = 0;
        for (int row = whole(1, 12); row > 0; --row) {
            names.cells.emplace_back(double(row));
            grafts.cells.emplace_back(whole(0, 3) == 0 ? Cell() : Cell(double(whole(0, 700))));
            if (const auto* one = std::get_if<double>(&grafts.cells.back())) total += *one;
        }
        names.length = grafts.length = names.cells.size();
        const Day start = iso("2028-03-20") + days{whole(0, 20)};
        const double pace = whole(1, 900) / 4.0;
        const double crew = whole(1, 5);
        const DayList holidays{start + days{whole(0, 9)}, start + days{whole(0, 9)}};
        const auto rows = row_days(names, grafts, start, pace, crew, "0000011", holidays);
        std::optional<Day> last;
        double before = 0;
        for (std::size_t at = 0; at < rows.size(); ++at) {
            const double own = is_blank(grafts.cells[at]) ? 0 : std::get<double>(grafts.cells[at]);
            EXPECT_EQ(rows[at].has_value(), own > 0);
            if (own == 0) continue;
            before += own;
            EXPECT_EQ(rows[at]->last, calendar::crew_finish(start, before, pace, crew, "0000011", holidays)) << before;
            EXPECT_GE(rows[at]->first, last.value_or(start));
            last = rows[at]->last;
        }
        EXPECT_EQ(last.has_value(), total > 0);
    }
}

TEST(RowDays, HaveALineForEachRow) {
    const auto rows = row_days({"1", "2", "3"}, List({100.0}, 3), iso("2028-03-20"), 60);
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_TRUE(rows[0]);
    EXPECT_FALSE(rows[2]);
}

TEST(RowDays, KeepDaysWithoutWork) {
    const DatedTable daybook = book({other("2028-03-21", "no work"), other("2028-03-20", "no work", "1")});
    const auto rows = row_days({"1", "2"}, {100.0, 100.0}, iso("2028-03-20"), 60, 1, {}, {}, daybook);
    EXPECT_EQ(rows[1]->first, iso("2028-03-20")) << "row 1 is barred";
    EXPECT_EQ(rows[0]->first, iso("2028-03-22"));
    EXPECT_EQ(rows[0]->last, iso("2028-03-23"));
    EXPECT_EQ(rows[1]->last, iso("2028-03-24"));
    EXPECT_EQ(refused([] { row_days({"1"}, {1e7}, iso("2028-03-20"), 0.001); }), "grafts");
    EXPECT_EQ(refused([] { row_days({"1"}, {1.5}, iso("2028-03-20"), 1); }), "grafts");
    EXPECT_EQ(refused([] { row_days({"1"}, {1., 2.}, iso("2028-03-20"), 1); }), "grafts");
    EXPECT_EQ(refused([] { row_days({"1"}, {1.}, iso("2028-03-20"), 0); }), "grafts_per_day");
    EXPECT_EQ(refused([] { row_days({"1"}, {1.}, iso("2028-03-20"), 1, 1, "1111111"); }), "days_off");
}

}  // namespace
}  // namespace slipbark::daybook

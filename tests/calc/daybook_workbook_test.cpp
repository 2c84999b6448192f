// A season from its day-book: a block of two varieties and three lots, 12 rows grafted on 18 days with a stop of five,
// a row lost, counts in part, a regraft, a second and a third look, lines out of order and lines that cannot be. Each
// answer that has a name is reckoned a second time here, day by day, from the lines alone.
//
// The second reckoning knows the rules of the day-book (docs/day-book.md) and of the plan (sheet Notes), and nothing of
// the program: beta-binomial by its gamma functions, days by counting them off.

#include <algorithm>
#include <array>
#include <cmath>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <map>
#include <set>

#include "calc.hpp"
#include "daybook_lines.hpp"
#include "folder.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

constexpr double start = 46650;  // Monday 20 September 2027
constexpr int grafts_per_tree = 8;
constexpr int wanted = 5;
constexpr double clustering = 0.1;
constexpr double weight = 20;  // of the expected take, in grafts: sheet Orders
constexpr double crew = 3;
constexpr double planned_pace = 110;

struct Row {
    const char* name;
    double trees;
    int lot;  // 0 A, 1 B, 2 C
    double order;
};

constexpr std::array<Row, 12> rows{{{"R1", 24, 0, 1},
                                    {"R2", 24, 0, 2},
                                    {"R3", 30, 0, 3},
                                    {"R4", 20, 0, 4},
                                    {"R5", 25, 1, 5},
                                    {"R6", 25, 1, 6},
                                    {"R7", 25, 1, 7},
                                    {"R8", 30, 1, 8},
                                    {"R9", 20, 1, 9},
                                    {"R10", 28, 2, 20},  // the last to be grafted
                                    {"R11", 28, 2, 11},
                                    {"R12", 16, 2, 12}}};
constexpr double all_trees = 295;

struct Event {
    DayLine line;
    bool left_out = false;
};

DayLine grafted(int day, const char* row, double trees, const char* lot, const char* who, double hours) {
    return {start + day, "grafted", row, trees, trees * grafts_per_tree, {}, lot, who, hours};
}
DayLine counted(int day, const char* row, std::optional<double> trees, std::optional<double> grafts, double live) {
    return {start + day, "counted", row, trees, grafts, live};
}

/// As the days went; the workbook gets them in another order.
std::vector<Event> season() {
    std::vector<Event> all{
        {{start, "received", "", {}, 100, {}, "A", "", {}, 180}},
        {grafted(0, "R1", 24, "A", "Maren", 8)},
        {grafted(0, "R2", 10, "A", "Tobiah", 8)},
        {grafted(1, "R2", 14, "A", "Tobiah", 8)},
        {grafted(1, "R3", 30, "A", "Quill", 9)},
        {grafted(2, "R4", 20, "A", "Maren", 8)},
        {grafted(2, "R5", 25, "B", "Tobiah", 8)},
    };
    for (const int day : {3, 4, 7, 8, 9}) all.push_back({{start + day, "no work"}});
    const std::vector<Event> more{
        {grafted(5, "R99", 20, "B", "Maren", 8), true},  // no such row
        {counted(10, "R11", {}, {}, 20), true},          // not grafted yet
        {grafted(10, "R6", 25, "B", "Maren", 8)},
        {grafted(10, "R7", 25, "B", "Tobiah", 8)},
        {grafted(10, "R8", 10, "B", "Quill", 4)},
        {grafted(11, "R8", 20, "B", "Quill", 6.5)},
        {grafted(11, "R9", 20, "Z", "Maren", 8), true},  // no such lot
        {grafted(11, "R9", 20, "B", "Maren", 8)},
        {grafted(14, "R11", 28, "C", "Tobiah", 9)},
        {{start + 14, "paid", "", {}, {}, {}, "", "", {}, 350.5}},
        {{start + 15, "lost", "R3", 30}},
        {grafted(16, "R12", 16, "C", "Maren", 6)},
        {grafted(17, "R10", 14, "C", "Quill", 5)},
        {counted(18, "R1", 12, 96, 72)},
        {counted(18, "R1", 12, {}, 60)},
        {counted(18, "R4", {}, {}, 200), true},  // of 160
        {{start + 20, "lost", "R6", 40}, true},  // of 25
        {counted(20, "R5", {}, {}, 150)},
        {counted(21, "R2", {}, {}, 150)},
        {{start + 22, "regrafted", "R2", {}, 30, {}, "A", "Maren", 1.5}},
        {{start + 25, "First airing"}},
        {{start + 30, "lost", "R1", 6}},  // 48 of its 192 grafts, a quarter of what was counted
        {{start + 35, "counted regrafts", "R2", {}, {}, 21}},
        {counted(36, "R5", {}, {}, 140)},
        {counted(37, "R9", 5, {}, 31)},  // a quarter of the row
        {counted(50, "R5", {}, {}, 138)},
        {counted(50, "R2", {}, {}, 160)},  // both together
        {{start + 60, "closed"}},
        {grafted(61, "R10", 14, "C", "Quill", 5), true},  // after that
    };
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

constexpr int last_day = 62;

// ---- The second reckoning

/// Chances of 0 to n live grafts on a tree of n.
std::vector<double> beta_binomial(int n, double take) {
    std::vector<double> chances(static_cast<std::size_t>(n) + 1, 0);
    if (take <= 0 || take >= 1) {
        chances[take <= 0 ? 0 : static_cast<std::size_t>(n)] = 1;
        return chances;
    }
    const double a = take * (1 - clustering) / clustering;
    const double b = (1 - take) * (1 - clustering) / clustering;
    for (int k = 0; k <= n; ++k) {
        chances[static_cast<std::size_t>(k)] = std::exp(
            std::lgamma(n + 1.) - std::lgamma(k + 1.) - std::lgamma(n - k + 1.) + std::lgamma(k + a) +
            std::lgamma(n - k + b) - std::lgamma(n + a + b) + std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b));
    }
    return chances;
}

struct State {
    double left = 0;
    double grafted = 0;
    double placed = 0;
    double standing = 0;
    double looked = 0;
    double live = 0;
    double regrafted = 0;
    double regrafts_standing = 0;
    double regrafts_looked = 0;
    double regrafts_live = 0;
    double to_place = 0;
    double counted_on = 0;
    double first = 0;
    double last = 0;
    double from = 0;
    double to = 0;

    [[nodiscard]] double all_looked() const { return looked + regrafts_looked; }
    [[nodiscard]] double all_live() const { return live + regrafts_live; }
};

class Reckoning {
  public:
    Reckoning(const std::vector<Event>& events, double today, std::array<double, 3> expected) : expected_(expected) {
        for (std::size_t at = 0; at < rows.size(); ++at) states[at].left = rows[at].trees;
        for (const Event& event : events) {
            if (event.left_out) continue;
            if (event.line.what == "no work") idle_.insert(event.line.date);
            if (event.line.date <= today) happen(event.line);
        }
        if (pace_days_.size() >= 1) pace_seen = pace_grafts_ / static_cast<double>(person_days_.size());
        const double share = std::min(1., static_cast<double>(pace_days_.size()) / 3);
        pace_ = share * pace_seen + (1 - share) * planned_pace;
        plan(std::max(start, today + 1));
        take();
    }

    std::array<State, 12> states{};
    double hours = 0;
    double cash = 0;
    double pace_seen = 0;
    double trees_left = 0;
    double grafts_left = 0;
    double finish = 0;
    double share_live = 0;  // 0 as long as nothing is counted
    double chance = 0;
    double counted_rows = 0;

  private:
    void happen(const DayLine& line) {
        hours += line.hours.value_or(0);
        cash += line.money.value_or(0);
        if (line.what == "closed") closed_ = true;
        const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.name == line.row; });
        if (found == rows.end()) return;
        State& row = states[static_cast<std::size_t>(found - rows.begin())];
        if (line.what == "grafted") {
            if (row.first == 0) row.first = line.date;
            row.last = line.date;
            row.grafted += line.trees.value_or(0);
            row.placed += line.grafts.value_or(0);
            row.standing += line.grafts.value_or(0);
            pace_grafts_ += line.grafts.value_or(0);
            pace_days_.insert(line.date);
            person_days_.insert({line.date, line.who});
        } else if (line.what == "regrafted") {
            row.regrafted += line.grafts.value_or(0);
            row.regrafts_standing += line.grafts.value_or(0);
        } else if (line.what == "counted") {
            const double all = row.standing + row.regrafts_standing;
            const double looked =
                line.grafts ? *line.grafts : std::round(line.trees ? *line.trees / row.grafted * all : all);
            if (row.counted_on != line.date) row.looked = row.live = 0;
            row.counted_on = line.date;
            row.looked += looked;
            row.live += line.live.value_or(0);
            row.regrafts_looked = row.regrafts_live = 0;
        } else if (line.what == "counted regrafts") {
            row.regrafts_looked = row.regrafts_standing;
            row.regrafts_live = line.live.value_or(0);
        } else if (line.what == "lost") {
            const double kept = 1 - *line.trees / row.grafted;
            row.left -= *line.trees;
            row.grafted -= *line.trees;
            for (double* each : {&row.standing, &row.looked, &row.live}) *each *= kept;
        }
    }

    [[nodiscard]] bool is_worked(double day) const {
        return std::fmod(day - start + 7000, 7) < 5 && !idle_.contains(day);
    }
    /// The working day on which the grafts numbered so from 0 are placed.
    [[nodiscard]] double day_of(double from, double graft) const {
        auto days = static_cast<int>(std::floor(graft / (pace_ * crew) + 1e-9));
        double day = from;
        for (;; ++day) {
            if (is_worked(day) && days-- == 0) return day;
        }
    }

    void plan(double from) {
        std::array<std::size_t, 12> in_order{};
        for (std::size_t at = 0; at < rows.size(); ++at) in_order[at] = at;
        std::sort(in_order.begin(), in_order.end(),
                  [](std::size_t a, std::size_t b) { return rows[a].order < rows[b].order; });
        double before = 0;
        for (const std::size_t at : in_order) {
            State& row = states[at];
            trees_left += row.left;
            row.to_place = closed_ ? 0 : (row.left - row.grafted) * grafts_per_tree;
            row.from = row.first;
            row.to = row.last;
            if (row.to_place > 0) {
                if (row.first == 0) row.from = day_of(from, before);
                row.to = day_of(from, before + row.to_place - 1e-6);
                before += row.to_place;
            }
            finish = std::max(finish, row.to);
        }
        grafts_left = before;
    }

    void take() {
        std::array<double, 3> looked{};
        std::array<double, 3> live{};
        for (std::size_t at = 0; at < rows.size(); ++at) {
            const auto lot = static_cast<std::size_t>(rows[at].lot);
            looked[lot] += states[at].all_looked();
            live[lot] += states[at].all_live();
            if (states[at].all_looked() > 0) ++counted_rows;
        }
        if (counted_rows == 0) return;
        const double effect = 1 + (grafts_per_tree - 1) * clustering;
        double canopy = 0;
        double reached = 0;
        for (std::size_t at = 0; at < rows.size(); ++at) {
            const State& row = states[at];
            if (row.left == 0) continue;
            const auto lot = static_cast<std::size_t>(rows[at].lot);
            const double revised = (weight * expected_[lot] + live[lot] / effect) / (weight + looked[lot] / effect);
            const double all = row.standing + row.regrafts_standing + row.to_place;
            const double share = (row.all_live() + (all - row.all_looked()) * revised) / all;
            const auto chances = beta_binomial(static_cast<int>(std::lround(all / row.left)), share);
            for (std::size_t k = 0; k < chances.size(); ++k) {
                canopy += row.left * chances[k] * std::min<double>(static_cast<double>(k), wanted) / wanted;
                if (k >= wanted) reached += row.left * chances[k];
            }
        }
        share_live = canopy / trees_left;
        chance = reached / trees_left;
    }

    std::array<double, 3> expected_;
    std::set<double> idle_;
    std::set<double> pace_days_;
    std::set<std::pair<double, std::string>> person_days_;
    double pace_grafts_ = 0;
    double pace_ = 0;
    bool closed_ = false;
};

// ---- The workbook

class DaybookSeason : public testing::Test {
  protected:
    static Book opened(const std::string& language = "") {
        return calc().open_url(language.empty() ? url_of("rework-plan") : url_of("rework-plan", language), true);
    }

    static void fill(const Book& book, const std::vector<std::string>& words) {
        const auto sheet = book.named("lot_names").substr(0, book.named("lot_names").find('.') + 1);
        book.set_text(sheet + "D12", "B");
        book.set(sheet + "E12", 125);
        book.set_text(sheet + "D13", "C");
        book.set(sheet + "E13", 72);
        book.set_text(sheet + "B13", "Blue Heron orange");  // the second variety, invented
        book.set(book.named("trees"), all_trees);
        const auto put = [&](const char* name, auto value_of) {
            const auto cells = cells_of(book, name);
            for (std::size_t at = 0; at < rows.size(); ++at) {
                const auto cell = cells->getCellByPosition(0, static_cast<sal_Int32>(at));
                value_of(cell, rows[at]);
            }
        };
        put("row_name", [](const auto& cell, const Row& row) { cell->setFormula(ustring(row.name)); });
        put("row_planted", [](const auto& cell, const Row& row) { cell->setValue(row.trees); });
        put("row_order", [](const auto& cell, const Row& row) { cell->setValue(row.order); });
        // Out of order: every seventh line next.
        const auto all = season();
        std::vector<DayLine> lines;
        for (std::size_t at = 0; at < all.size(); ++at) lines.push_back(all[place(at, all.size())].line);
        for (DayLine& line : lines) {
            const auto word = std::find(english().begin(), english().end(), line.what);
            ASSERT_NE(word, english().end()) << line.what;
            line.what = words.at(static_cast<std::size_t>(word - english().begin()));
        }
        write_daybook(book, lines);
    }

    static std::size_t place(std::size_t at, std::size_t of) {
        EXPECT_NE(of % 7, 0U);
        return at * 7 % of;
    }

    /// The words that a book takes, in the same order in each language.
    static std::vector<std::string> words_of(const Book& book) {
        std::vector<std::string> words;
        const Ref<css::sheet::XCellRangeData> cells(cells_of(book, "daybook_words"), UNO_QUERY_THROW);
        for (const auto& line : cells->getDataArray()) {
            rtl::OUString word;
            if (words.size() < 33 && (line[0] >>= word)) words.push_back(utf8(word));
        }
        return words;
    }
    static const std::vector<std::string>& english() {
        static const std::vector<std::string> words = words_of(opened());
        return words;
    }

    /// The first 12 cells of a named column; blank ones are 0.
    static std::array<double, 12> column(const Book& book, const char* name) {
        const Ref<css::sheet::XCellRangeData> data(cells_of(book, name), UNO_QUERY_THROW);
        const auto cells = data->getDataArray();
        std::array<double, 12> values{};
        for (std::size_t at = 0; at < values.size() && at < static_cast<std::size_t>(cells.getLength()); ++at) {
            cells[static_cast<sal_Int32>(at)][0] >>= values.at(at);
        }
        return values;
    }
};

TEST_F(DaybookSeason, IsReckonedTwiceDayByDay) {
    const Book book = opened();
    ASSERT_NO_FATAL_FAILURE(fill(book, english()));
    ASSERT_EQ(text(book, "entries"), "");
    const auto lots = column(book, "lots_expected");
    // Of three lots with the trees of their rows; the rows took their lots from there.
    EXPECT_EQ(book.shown("Rows.D9").text, "A");
    EXPECT_EQ(book.shown("Rows.D10").text, "B");
    EXPECT_EQ(book.shown("Rows.D15").text, "C");
    const auto events = season();
    for (int day = -1; day <= last_day; ++day) {
        SCOPED_TRACE("day " + std::to_string(day));
        const double today = start + day;
        book.set(book.named("as_of"), today);
        const Reckoning reckoned(events, today, {lots[0], lots[1], lots[2]});
        const auto compare = [&](const char* name, auto of) {
            const auto shown = column(book, name);
            for (std::size_t at = 0; at < rows.size(); ++at) {
                EXPECT_NEAR(shown[at], of(reckoned.states[at]), 1e-6) << name << " of " << rows[at].name;
            }
        };
        compare("row_left", [](const State& row) { return row.left; });
        compare("row_placed", [](const State& row) { return row.placed; });
        compare("row_looked", [](const State& row) { return row.all_looked(); });
        compare("row_live", [](const State& row) { return row.all_live(); });
        compare("row_regrafted", [](const State& row) { return row.regrafted; });
        compare("row_from", [](const State& row) { return row.from; });
        compare("row_to", [](const State& row) { return row.to; });
        EXPECT_EQ(number(book, "trees_left"), reckoned.trees_left);
        EXPECT_EQ(number(book, "grafts_left"), reckoned.grafts_left);
        EXPECT_EQ(number(book, "hours_done"), reckoned.hours);
        EXPECT_EQ(number(book, "cash_out"), reckoned.cash);
        EXPECT_NEAR(number(book, "pace_seen"), reckoned.pace_seen, 1e-9);
        EXPECT_EQ(number(book, "finish_date"), reckoned.finish);
        EXPECT_EQ(number(book, "rows_counted"), reckoned.counted_rows);
        if (reckoned.counted_rows > 0) {
            EXPECT_NEAR(number(book, "share_live"), reckoned.share_live, 1e-9);
            EXPECT_NEAR(number(book, "chance_wanted"), reckoned.chance, 1e-9);
        } else {
            EXPECT_NEAR(number(book, "share_live"), number(book, "share_expected"), 1e-12);
        }
        // All sheets show the same days and the same share.
        EXPECT_EQ(book.shown("Plan.G27").number, reckoned.finish);
        EXPECT_EQ(book.shown("Crew.G9").number, reckoned.finish);
        EXPECT_EQ(number(book, "last_day"), reckoned.finish);
        EXPECT_EQ(book.shown("Accounts.E9").number, reckoned.finish);
        EXPECT_EQ(book.shown("Calendar.E11").number, reckoned.finish) << "the last day of stage Graft";
        EXPECT_EQ(book.shown("Calendar.D11").number, number(book, "first_day"));
        EXPECT_EQ(book.shown("Money.D7").number, book.shown("Plan.G22").number);
        const std::string headline = book.shown("Plan.B4").text;
        EXPECT_TRUE(
            says(headline, " to " + book.calculate("=REWORK.SENTENCE(\"{1:date}\";finish_date)").text + " with "))
            << headline;
    }
    EXPECT_EQ(text(book, "daybook_entries"), "6 lines are left out: see Check.");
    const auto left_out = cells_of(book, "daybook_left_out");
    for (std::size_t at = 0; at < events.size(); ++at) {
        const Event& event = events[place(at, events.size())];
        EXPECT_EQ(left_out->getCellByPosition(0, static_cast<sal_Int32>(at))->getValue(), event.left_out ? 1 : 0)
            << event.line.what << " " << event.line.row;
        // In row R2 Tobiah grafted and Maren regrafted: a count of both together says so, and counts.
        const bool of_two = event.line.what == "counted" && event.line.row == "R2" && event.line.date > start + 22;
        const std::string remark = book.shown("Day-book.M" + std::to_string(6 + at)).text;
        EXPECT_EQ(remark.empty(), !event.left_out && !of_two) << remark;
        if (of_two) {
            EXPECT_TRUE(says(remark, "Several people grafted in row R2")) << remark;
        }
    }
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(DaybookSeason, IsTheSameInSpanish) {
    const Book book = opened();
    const Book spanish = opened("es");
    ASSERT_NO_FATAL_FAILURE(fill(book, english()));
    ASSERT_NO_FATAL_FAILURE(fill(spanish, words_of(spanish)));
    EXPECT_NE(words_of(spanish).front(), "grafted");
    for (const int day : {1, 9, 17, 36, last_day}) {
        SCOPED_TRACE(day);
        for (const Book* each : {&book, &spanish}) each->set(each->named("as_of"), start + day);
        for (const char* name : {"row_left", "row_placed", "row_looked", "row_live", "row_regrafted", "row_from",
                                 "row_to", "daybook_left_out"}) {
            EXPECT_EQ(column(spanish, name), column(book, name)) << name;
        }
        for (const char* name : {"trees_left", "grafts_left", "finish_date", "share_live", "regrafts_to_place",
                                 "hours_done", "cash_out", "pace_seen", "week_lines", "week_hours", "present_value"}) {
            EXPECT_EQ(number(spanish, name), number(book, name)) << name;
        }
    }
    EXPECT_TRUE(text(spanish, "daybook_entries").starts_with("6 líneas quedan fuera"))
        << text(spanish, "daybook_entries");
    EXPECT_EQ(spanish.errors(), std::vector<std::string>());
}

/// The same day or number on every sheet that shows it, each pair compared.
void expect_one_answer(const Book& book, const std::vector<std::pair<const char*, const char*>>& shown) {
    for (const auto& [one, of_one] : shown) {
        for (const auto& [other, of_other] : shown) {
            const double first = book.calculate("=" + std::string(of_one)).number;
            const double second = book.calculate("=" + std::string(of_other)).number;
            EXPECT_NEAR(first, second, 1e-9) << one << ", " << other;
        }
    }
}

TEST_F(DaybookSeason, AllSheetsGiveOneAnswer) {
    const Book book = opened();
    ASSERT_NO_FATAL_FAILURE(fill(book, english()));
    book.set(book.named("week_days"), 60);
    for (const int day : {-1, 1, 4, 11, 14, 17, 36, last_day}) {
        SCOPED_TRACE("day " + std::to_string(day));
        book.set(book.named("as_of"), start + day);
        book.set(book.named("week_from"), start + day);
        expect_one_answer(book, {{"Plan", "Plan.G27"},
                                 {"Crew", "Crew.G9"},
                                 {"Calendar, below", "last_day"},
                                 {"Calendar, stage Graft", "Calendar.E11"},
                                 {"Accounts", "Accounts.E9"},
                                 {"Rows", "MAX(row_to)"}});
        expect_one_answer(
            book,
            {{"Calendar, below", "first_day"}, {"Calendar, stage Graft", "Calendar.D11"}, {"Rows", "MIN(row_from)"}});
        expect_one_answer(book, {{"Plan", "Plan.G22"}, {"Money", "Money.D7"}, {"Odds", "Odds.G11"}});
        expect_one_answer(book, {{"Plan", "Plan.G17"},
                                 {"Orders", "SUM(Orders.M11:M16)"},
                                 {"Orders, in all", "Orders.M17"},
                                 {"Money", "Money.I53"}});
        expect_one_answer(book, {{"Orders", "MIN(lots_order_by)"},
                                 {"Orders, in all", "Orders.O17"},
                                 {"Calendar", "INDEX(Calendar.D6:D29;MATCH(order_stage;calendar_stages;0))"}});
        expect_one_answer(book, {{"Orders", "MIN(lots_cut)"},
                                 {"Calendar", "INDEX(Calendar.D6:D29;MATCH(wood_stage;calendar_stages;0))"}});
        expect_one_answer(book, {{"Accounts", "N(Accounts.E7)"}, {"Rows", "SUM(row_to_place)"}});
        expect_one_answer(book, {{"Accounts", "trees_left"}, {"Rows", "SUM(row_left)"}});
        expect_one_answer(book, {{"Accounts", "N(Accounts.K10)"}, {"Regraft", "N(regrafts_to_place)"}});
        // Week: each row to be grafted stands there on the last day that sheet Rows has for it.
        const auto lines = static_cast<int>(number(book, "week_lines"));
        int grafting = 0;
        for (int line = 11; line < 11 + lines; ++line) {
            const std::string at = std::to_string(line);
            if (book.calculate("=Week.C" + at + "=graft_stage").number != 1) continue;
            ++grafting;
            const std::string row = "MATCH(Week.B" + at + ";row_name;0)";
            expect_one_answer(book,
                              {{"Week", ("Week.E" + at).c_str()}, {"Rows", ("INDEX(row_to;" + row + ")").c_str()}});
            expect_one_answer(book, {{"Week, hours", ("Week.J" + at).c_str()},
                                     {"Rows", ("INDEX(row_to_place;" + row + ")/pace_used*day_hours").c_str()}});
        }
        if (day == 1) {
            EXPECT_GE(grafting, 5);
        }
    }
}

TEST_F(DaybookSeason, SaysHowManyPeopleMoreEndInTime) {
    const Book book = opened();
    ASSERT_NO_FATAL_FAILURE(fill(book, english()));
    EXPECT_EQ(number(book, "crew_more"), 0);
    book.set(book.named("as_of"), start + 1);
    for (const bool stopped : {false, true}) {
        if (stopped) {  // three more days, all of them working days, on which nobody works
            write_daybook(book, {{start + 14, "no work"}, {start + 15, "no work"}, {start + 16, "no work"}}, 100);
        }
        for (const int end : {10, 11, 14, 16, 18}) {
            SCOPED_TRACE("until day " + std::to_string(end) + (stopped ? ", with a stop" : ""));
            book.set(book.named("crew"), 1);
            book.set(book.named("window_end"), start + end);
            const double more = number(book, "crew_more");
            ASSERT_GE(more, 1);
            EXPECT_GT(number(book, "finish_date"), start + end);
            const std::string from = book.calculate("=REWORK.SENTENCE(\"{1:date}\";plan_from)").text;
            const std::string said = std::to_string(static_cast<int>(more)) + (more == 1 ? " grafter" : " grafters") +
                                     " more from " + from + " end in time.";
            EXPECT_TRUE(says(book.shown("Plan.B4").text, said)) << book.shown("Plan.B4").text;
            EXPECT_TRUE(says(book.shown("Crew.I10").text, said)) << book.shown("Crew.I10").text;
            // Each row that ends late says how many for itself; the last row as many as the block.
            const auto rows_more = column(book, "row_crew_more");
            EXPECT_EQ(*std::max_element(rows_more.begin(), rows_more.end()), more);
            book.set(book.named("crew"), 1 + more);
            EXPECT_LE(number(book, "finish_date"), start + end);
            EXPECT_EQ(number(book, "crew_more"), 0);
            book.set(book.named("crew"), more);
            EXPECT_GT(number(book, "finish_date"), start + end);
            for (std::size_t at = 0; at < rows.size(); ++at) {
                if (rows_more[at] <= 0) continue;
                book.set(book.named("crew"), 1 + rows_more[at]);
                EXPECT_LE(column(book, "row_to")[at], start + end) << rows[at].name;
                book.set(book.named("crew"), rows_more[at]);
                EXPECT_GT(column(book, "row_to")[at], start + end) << rows[at].name;
            }
        }
    }
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(PlanQuestions, AskWhatIsOddButPossible) {
    const Book book = calc().open_url(url_of("rework-plan"), true);
    const auto asks = [&book](const std::string& question) {
        EXPECT_EQ(text(book, "questions"), question);
        if (!question.empty()) {
            EXPECT_EQ(book.shown("Plan.B2").text, question);
        }
    };
    const auto day = [&book](int year, int month, int date) {
        return book
            .calculate("=DATE(" + std::to_string(year) + ";" + std::to_string(month) + ";" + std::to_string(date) + ")")
            .number;
    };
    asks("");
    // The bark slips from spring to autumn: March to October in the north, September to April in the south (common
    // practice). The example stands at 25 degrees south.
    book.set(book.named("graft_date"), day(2027, 6, 14));
    asks("Grafting from 14 Jun 2027 is unusual for this method at this latitude: is the date right?");
    book.set(book.named("latitude"), 41);
    asks("");
    book.set(book.named("graft_date"), day(2028, 1, 17));
    asks("Grafting from 17 Jan 2028 is unusual for this method at this latitude: is the date right?");
    book.set(book.named("latitude"), -25);
    asks("");
    book.set(book.named("graft_date"), start);
    book.set_text(book.named("method"), "dormant cleft graft");
    EXPECT_TRUE(says(text(book, "questions"),
                     "A dormant cleft graft is unusual on evergreen trees: is the kind of trees right?"));
    book.set_text(book.named("kind_of_trees"), "deciduous");
    EXPECT_FALSE(says(text(book, "questions"), "evergreen"));
    book.set_text(book.named("kind_of_trees"), "citrus");
    book.set_text(book.named("method"), "bagged bark graft");
    asks("");
    // Two years off, and a year that is over without a line in the day-book.
    book.set(book.named("as_of"), start - 7);
    book.set(book.named("graft_date"), day(2029, 9, 20));
    asks("Grafting from 20 Sep 2029 is far from 13 Sep 2027, the day of this plan: is the year right?");
    book.set(book.named("graft_date"), start);
    book.set(book.named("as_of"), start + 366);
    asks("Grafting from 20 Sep 2027 is far from 20 Sep 2028, the day of this plan: is the year right?");
    write_daybook(book, {{start, "grafted", "1", 28, 224}});
    asks("");
    // 40 acres have room for 40 x 43,560 / (23 x 15) = 5,050 trees.
    book.set_text(book.named("units"), "US");
    book.set(book.named("area_ha"), 40);
    book.set(book.named("row_spacing_m"), 23);
    book.set(book.named("tree_spacing_m"), 15);
    book.set(book.named("trees"), 310);
    asks("The area has room for 5,050 trees, and 310 are counted: is the area right?");
    book.set(book.named("area_ha"), 2.5);
    asks("");
    const std::string line = std::to_string(static_cast<int>(number(book, "look_row")) + 5);
    for (const auto& [column, days] : {std::pair("C", -9.), {"D", -7.}, {"E", -5.}}) {
        book.set("Defaults." + std::string(column) + line, days);
    }
    asks("The first take check is before the first grafting: are the days on sheet Defaults right?");
}

TEST(OwnRecords, GiveTheExpectationItsWeight) {
    const Book book = calc().open_url(url_of("rework-plan"), true);
    EXPECT_EQ(number(book, "take_weight"), 20);
    const auto pool = [&book](double pooled, double low, double high) {
        const Ref<css::sheet::XCellRangeData> cells(cells_of(book, "own_pool"), UNO_QUERY_THROW);
        css::uno::Sequence<css::uno::Sequence<css::uno::Any>> values(1);
        const std::array<css::uno::Any, 3> three{css::uno::Any(pooled), css::uno::Any(low), css::uno::Any(high)};
        values.getArray()[0] = css::uno::Sequence<css::uno::Any>(three.data(), 3);
        cells->setDataArray(values);
    };
    // The beta distribution of this mean and standard deviation: 0.8 x 0.2 / 0.0893^2 - 1.
    pool(0.8, 0.6, 0.95);
    EXPECT_EQ(number(book, "take_weight"), 19);
    EXPECT_EQ(book.shown("Orders.G9").text, "grafts; own records");
    // Groups that are less alike count for less.
    pool(0.8, 0.4, 0.98);
    EXPECT_EQ(number(book, "take_weight"), 6);
    pool(0.8, 0.85, 0.95);
    EXPECT_EQ(number(book, "take_weight"), 20);
    EXPECT_EQ(book.shown("Orders.K7").text,
              "Give all three shares, rising from the second over the first to the third.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST_F(DaybookSeason, LotsHavePapersAndWoodOfTheirOwn) {
    const Book book = opened();
    ASSERT_NO_FATAL_FAILURE(fill(book, english()));
    double mothers = 0;
    for (const int line : {0, 1, 2}) {
        const double sticks = book.shown("Orders.M" + std::to_string(11 + line)).number;
        EXPECT_EQ(book.shown("Orders.G" + std::to_string(80 + line)).number, std::ceil(sticks / 40));
        mothers += std::ceil(sticks / 40);
        book.set("Orders.E" + std::to_string(80 + line), line == 1 ? 124 : 125);
    }
    EXPECT_EQ(number(book, "mother_trees"), mothers);
    // 98, 125 and 72 trees.
    EXPECT_EQ(book.shown("Orders.H80").text, "");
    EXPECT_EQ(book.shown("Orders.H81").text, "The licence names fewer trees than the lot is for.");
    EXPECT_EQ(book.shown("Orders.H82").text, "");
    EXPECT_EQ(book.shown("Orders.H83").text, "");
    book.set_text("Orders.C84", "QP 4711");
    EXPECT_EQ(book.shown("Orders.H84").text, "There is no lot in this line above.");
    // 98 trees of 8 grafts of lot A, and 30 regrafts, are more than 100 sticks of three scions give.
    book.set(book.named("as_of"), start - 1);
    EXPECT_EQ(book.shown("Accounts.B68").text, "");
    book.set(book.named("as_of"), start + last_day);
    EXPECT_EQ(book.shown("Accounts.B68").text,
              "More of a lot was grafted than its sticks received give: see Sticks left.");
    write_daybook(book, {{start, "received", "", {}, 300, {}, "A"}}, 100);
    EXPECT_EQ(book.shown("Accounts.B68").text, "");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

/// The cell that the cursor is on, of the sheet in sight.
std::string cursor_of(const Book& book) {
    const Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const Ref<css::beans::XPropertySet> cell(model->getCurrentSelection(), css::uno::UNO_QUERY_THROW);
    rtl::OUString address;
    cell->getPropertyValue("AbsoluteName") >>= address;
    return utf8(address);
}

TEST(Daybook, GrowsByACommand) {
    const Book book = calc().open_url(url_of("rework-plan"), true, false);
    // In the template the cursor of the sheet stands on its first line.
    const Ref<css::frame::XModel> model(book.document(), css::uno::UNO_QUERY_THROW);
    const Ref<css::sheet::XSpreadsheetView> view(model->getCurrentController(), css::uno::UNO_QUERY_THROW);
    const auto plan = view->getActiveSheet();
    view->setActiveSheet({book.document()->getSheets()->getByName("Day-book"), css::uno::UNO_QUERY_THROW});
    EXPECT_EQ(cursor_of(book), "$'Day-book'.$B$6");
    view->setActiveSheet(plan);
    EXPECT_EQ(command(book, "first-free-line"), "First free line: 6");
    EXPECT_EQ(cursor_of(book), "$'Day-book'.$B$6");
    write_daybook(book, {{start, "grafted", "1", 28, 224}});
    EXPECT_EQ(command(book, "add-lines"), "300 lines were added; there are 600 now.");
    EXPECT_EQ(cursor_of(book), "$'Day-book'.$B$7");
    EXPECT_EQ(book.calculate("=ROWS(daybook)").number, 600);
    EXPECT_EQ(number(book, "row_placed"), 224);
    // Where nothing was looked at there is no look, and no take, day or stage of one.
    write_daybook(book, {{start + 7, "counted", "1", 0, {}, 0}, {start + 9, "counted", "1", {}, 0, 0}}, 2);
    for (const char* cell : {"K6", "L6", "O6", "DG6", "DM6", "DN6", "DP6", "DQ6", "DS6", "DT6"}) {
        EXPECT_EQ(book.shown(std::string("Rows.") + cell).text, "") << cell;
    }
    EXPECT_EQ(book.shown("Day-book.M8").text, "No grafts were looked at: this line is no count.");
    write_daybook(book, {{start + 14, "counted", "1", {}, {}, 100}, {start + 14, "counted", "1", {}, {}, 300}}, 599);
    EXPECT_EQ(number(book, "row_live"), 100);
    EXPECT_EQ(book.shown("Day-book.M605").text, "Live: 300. Looked at: 224.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
    EXPECT_EQ(book.shown("Day-book.B4").text, "No free line: Rework > Add lines.");
    EXPECT_EQ(command(book, "first-free-line"), "No free line: Rework > Add lines.");

    // What stands below the last line is named, and there is no line without a place for its check.
    book.set("Day-book.E606", 3);
    EXPECT_EQ(text(book, "daybook_entries"),
              "Cells below the last line are filled and not read: Rework > Add lines first (1).");
    book.set_text("Day-book.E606", "");
    EXPECT_EQ(command(book, "add-lines"), "600 lines were added; there are 1200 now.");
    EXPECT_EQ(command(book, "add-lines"), "1200 lines were added; there are 2400 now.");
    EXPECT_EQ(command(book, "add-lines"),
              "The day-book has all the 2400 lines that it has room for. Put several things of a day and row on one "
              "line, or make a plan for each part of the block.");
    EXPECT_EQ(book.calculate("=ROWS(daybook)").number, 2400);
    EXPECT_EQ(book.calculate("=ROWS(daybook_omitted)").number, 2400);
    // The two lines stood at the end of the form, one of them is its last still.
    EXPECT_EQ(book.shown("Day-book.B4").text, "No free line: Rework > Add lines.");
    EXPECT_EQ(book.shown("Day-book.M2405").text, "Live: 300. Looked at: 224.");
    book.set_text("Day-book.C2405", "");
    book.set_text("Day-book.B2405", "");
    EXPECT_EQ(book.shown("Day-book.B4").text, "First free line: 605");
    view->setActiveSheet(plan);
    EXPECT_EQ(command(book, "first-free-line"), "First free line: 605");
    EXPECT_EQ(cursor_of(book), "$'Day-book'.$B$605");
    EXPECT_EQ(command(calc().new_book(false), "first-free-line"), "There is no day-book here: open a rework plan.");
}

// Second reckoning by hand: 8 grafts a tree and three to a stick, no spare.
TEST(Daybook, LotsLieOnRowsByWhatWasReceived) {
    const Book book = calc().open_url(url_of("rework-plan"), true, false);
    book.set(book.named("trees"), 100);
    book.set(book.named("row_trees"), 10);
    book.set("Plan.C21", 2);
    book.set(book.named("stubs_per_tree"), 4);
    book.set(book.named("buds_per_graft"), 3);
    book.set(book.named("buds_per_stick"), 9);
    ASSERT_EQ(number(book, "grafts_per_tree"), 8);
    ASSERT_EQ(number(book, "grafts_per_stick"), 3);
    for (const auto& [line, lot, trees] : {std::tuple(11, "A", 60), std::tuple(12, "B", 40)}) {
        const std::string at = std::to_string(line);
        book.set_text("Orders.D" + at, lot);
        book.set("Orders.E" + at, trees);
        book.set("Orders.F" + at, 0);
    }
    for (int line = 13; line <= 16; ++line) book.set_text("Orders.E" + std::to_string(line), "");
    const auto trees_of = [&](const char* lot) {
        return book.calculate(std::string("=SUMIF(batch;\"") + lot + "\";row_planted)").number;
    };
    EXPECT_EQ(trees_of("A"), 60);
    const double first = number(book, "graft_day");
    // 134 sticks are 402 grafts, 50 trees; 160 are 60.
    write_daybook(book, {{first - 2, "received", "", {}, 134, {}, "A"}, {first - 2, "received", "", {}, 160, {}, "B"}});
    book.set(book.named("as_of"), first - 1);
    EXPECT_EQ(trees_of("A"), 60) << "before grafting begins deliveries may still come";
    book.set(book.named("as_of"), first);
    EXPECT_EQ(trees_of("A"), 50);
    EXPECT_EQ(trees_of("B"), 50);
    EXPECT_EQ(text(book, "lots_check"), "");
    // As many of B as it needs: nobody has sticks for ten trees of A, and they stay with it.
    write_daybook(book, {{first - 2, "received", "", {}, 134, {}, "A"}, {first - 2, "received", "", {}, 107, {}, "B"}});
    EXPECT_EQ(trees_of("A"), 60);
    EXPECT_EQ(trees_of("B"), 40);
    EXPECT_EQ(text(book, "lots_check"), "The sticks received, less the spare, are enough for 90 of the 100 trees.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(Daybook, TheWeekHasTheWaterPlansLine) {
    const Book water = calc().open_url(url_of("water"), true);
    const Book book = calc().open_url(url_of("rework-plan"), true);
    EXPECT_EQ(text(book, "week_water"), "");
    paste_values(water, "Months.O60:BA60", book, "Week.Q5:BC5");
    EXPECT_EQ(text(book, "week_water"), "The water plan's line is of " + text(water, "block") + ".");
    book.set_text(book.named("block"), text(water, "block"));
    // Seven weeks after cutting back: in the second or third month of the line, by counting months off.
    const double cut = number(water, "cut_day");
    book.set(book.named("week_from"), cut + 49);
    const auto months =
        static_cast<int>(book.calculate("=12*(YEAR(week_from)-YEAR(Week.R5))+MONTH(week_from)-MONTH(Week.R5)").number);
    ASSERT_GE(months, 1);
    ASSERT_LE(months, 2);
    const double litres = water.calculate("=INDEX(line_for_week;1;" + std::to_string(4 + months) + ")").number;
    ASSERT_GT(litres, 0);
    std::array<char, 16> shown{};
    std::snprintf(shown.data(), shown.size(), "%.1f", litres);
    EXPECT_EQ(text(book, "week_water"), "Irrigate: " + std::string(shown.data()) +
                                            " litres a tree a day, as the water plan says. Feel the soil first.");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(HandToRecords, WritesTheSeasonAndNothingTwice) {
    const Folder folder;
    const auto file = folder / "records.ods";
    {
        const Book empty = calc().open_url(url_of("records"), true);
        clear_records(empty);
        // Another block's line stays.
        empty.set("Counts.B6", 2026);
        empty.set_text("Counts.C6", "Heron Flat");
        empty.set("Counts.G6", 10);
        empty.set("Counts.H6", 80);
        empty.set("Counts.I6", 61);
        empty.save_as(file, "calc8");
    }
    const Book plan = calc().open_url(url_of("rework-plan"), true, false);
    plan.set(plan.named("trees"), 84);
    std::vector<DayLine> lines;
    for (int row = 1; row <= 3; ++row) {
        const std::string name = std::to_string(row);
        lines.push_back({start + row, "grafted", name, 28, 224, {}, "A", row == 2 ? "Tobiah" : "Maren", 8});
        lines.push_back({start + 20, "counted", name, {}, {}, 150. + row, "", "", 1.5});
    }
    lines.push_back({start + 30, "First airing", "2", {}, {}, {}, "", "", 30});
    write_daybook(plan, lines);
    plan.set("Actual.K14", 1200);  // the harvest of year 3
    EXPECT_EQ(command(plan, "hand-to-records", file_url(file)),
              "The season of Kestrel Flat, block 3 is in the book of records.");
    const auto written = [&](double live_of_2) {
        const Book records = calc().open(file);
        EXPECT_EQ(records.calculate("=COUNTA(Dates.B6:B45)").number, 3);
        EXPECT_EQ(records.calculate("=COUNTA(Counts.C6:C1005)").number, 4);
        EXPECT_EQ(records.calculate("=COUNTA(Work.B6:B205)").number, 4) << "three counts and one airing, no grafting";
        EXPECT_EQ(records.calculate("=COUNTA(Yields.B6:B35)").number, 1);
        EXPECT_EQ(records.shown("Counts.C6").text, "Heron Flat");
        EXPECT_EQ(records.shown("Counts.E8").text, "Tobiah");
        EXPECT_EQ(records.shown("Counts.H8").number, 224);
        EXPECT_EQ(records.shown("Counts.I8").number, live_of_2);
        EXPECT_EQ(records.shown("Dates.B7").text, "Kestrel Flat, block 3");
        EXPECT_EQ(records.shown("Dates.D7").number, start + 2);
        EXPECT_EQ(records.calculate("=COUNTIF(Dates.E7:AB7;" + std::to_string(start + 30) + ")").number, 1);
        // 30 hours of a row of 28 trees in two days of 15: 64.3 minutes a tree.
        EXPECT_NEAR(records.calculate("=MAX(work_minutes)").number, 30 * 60 / 28., 1e-9);
        EXPECT_EQ(records.shown("Yields.F6").number, 1200);
        EXPECT_EQ(records.errors(), std::vector<std::string>());
    };
    written(152);
    // A second look: the count takes the place of the first, and the plan knows the place.
    lines.push_back({start + 40, "counted", "2", {}, {}, 140});
    write_daybook(plan, lines);
    EXPECT_TRUE(says(command(plan, "hand-to-records"), "is in the book of records."));
    written(140);
    EXPECT_TRUE(says(command(calc().new_book(false), "hand-to-records"), "There is no season to hand over here"));
    EXPECT_TRUE(says(command(plan, "hand-to-records", file_url(folder / "none.ods")), "This is no book of records"));
}

TEST(TakeOverPlan, FillsANewPlanFromOneOfAnEarlierVersion) {
    const Folder folder;
    const auto file = folder / "older.ods";
    const Book older = calc().open(fixtures() / "workbooks" / "rework-plan-en.ods");
    const double first = number(older, "graft_date");
    // What the earlier version had of rows: two are grafted, one is counted with its day, one without, and an x.
    older.set("Rows.G6", first);
    older.set("Rows.G7", first + 1);
    older.set("Rows.I6", 170);
    older.set("Rows.J6", 150);
    older.set("Rows.AG6", first + 18);
    older.set("Rows.I7", 120);
    older.set_text("Rows.AH6", "x");
    older.set("Rows.AI7", first + 30);
    const double placed = older.shown("Rows.H6").number;
    ASSERT_EQ(older.shown("Rows.AG5").text, "First look under the bag");
    older.save_as(file, "calc8");

    const Book plan = calc().open_url(url_of("rework-plan"), true, false);
    const std::string said = command(plan, "take-over-plan", file_url(file));
    EXPECT_TRUE(says(said, " rows and 4 lines of the day-book were taken over.")) << said;
    EXPECT_TRUE(says(said, "2: counted 120")) << said;
    EXPECT_TRUE(says(said, "1: First airing")) << said;
    for (const char* name :
         {"trees",   "graft_date",  "area_ha",      "expected_take", "clustering", "crew",         "grafts_per_day",
          "day_pay", "stick_price", "mature_yield", "new_price",     "pick_cost",  "growing_cost", "harvest_month",
          "rate",    "slip_days",   "row_trees",    "live_wanted",   "spare",      "wood_lead"}) {
        EXPECT_EQ(number(plan, name), number(older, name)) << name;
    }
    for (const char* name : {"block", "old_variety", "new_variety", "method", "currency", "first_lot"}) {
        EXPECT_EQ(text(plan, name), text(older, name)) << name;
    }
    plan.set(plan.named("as_of"), first + 40);
    EXPECT_EQ(number(plan, "row_placed"), placed);
    EXPECT_EQ(cursor_of(plan), "$'Day-book'.$B$10") << "below the four lines";
    EXPECT_EQ(number(plan, "row_live"), 150) << "the last count is the row's state";
    EXPECT_EQ(plan.shown("Rows.F7").number, first + 1);
    EXPECT_EQ(plan.shown("Rows.EH7").number, first + 30);
    EXPECT_EQ(text(plan, "daybook_entries"), "");
    EXPECT_EQ(text(plan, "entries"), "");
    EXPECT_EQ(plan.errors(), std::vector<std::string>());
    // A plan of this version, and no plan at all.
    const auto today = folder / "today.ods";
    plan.save_as(today, "calc8");
    const Book other = calc().open_url(url_of("rework-plan"), true, false);
    EXPECT_TRUE(
        says(command(other, "take-over-plan", file_url(today)), "This is no rework plan of an earlier version"));
    EXPECT_EQ(text(other, "block"), "Kestrel Flat, block 3") << "and nothing is emptied";
}

}  // namespace
}  // namespace slipbark::tests

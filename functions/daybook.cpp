#include "slipbark/daybook.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <set>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "slipbark/dates.hpp"
#include "support/checks.hpp"
#include "support/schedule.hpp"
#include "support/week.hpp"

namespace slipbark::daybook {

namespace {

using std::chrono::days;
using Name = std::optional<std::size_t>;

constexpr std::size_t least_columns = 10;
constexpr double most_hours = 1e6;
constexpr double most_count = static_cast<double>(check::count_limit);

// ---- Names

/// The text of a name: a text, or a number as it is written; "" for a blank cell.
std::string name_of(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return std::string(check::trimmed(*text));
    if (const auto* number = std::get_if<double>(&cell)) return to_text(*number);
    if (const auto* day = std::get_if<Day>(&cell)) return to_text(*day);
    return "";
}

/// The name as names are compared; "" for a blank cell.
std::string key_of(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return text == nullptr ? check::folded(name_of(cell)) : check::folded(*text);
}

/// Names with their places, each found by its key.
class Names {
  public:
    Names(std::vector<std::string>& names) : names_(names) {}

    [[nodiscard]] Name find(const std::string& key) const {
        const auto found = places_.find(key);
        return found == places_.end() ? Name{} : found->second;
    }
    /// The place of a name; a new one is put at the end. Of several spellings the first by the alphabet is shown, so
    /// that the order of lines does not matter.
    std::size_t place(const std::string& key, const Cell& cell) {
        const auto [found, is_new] = places_.try_emplace(key, names_.size());
        if (is_new) {
            names_.push_back(name_of(cell));
        } else if (const auto* text = std::get_if<std::string>(&cell);
                   text != nullptr && check::trimmed(*text) < names_[found->second]) {
            names_[found->second] = check::trimmed(*text);
        }
        return found->second;
    }
    /// Puts a name at the end; the place of the one that is there already, else none.
    Name add(const std::string& name) {
        const auto [found, is_new] = places_.emplace(check::folded(name), names_.size());
        names_.push_back(name);
        return is_new ? Name{} : found->second;
    }
    /// A place that no name has.
    void skip() { names_.emplace_back(); }

  private:
    std::vector<std::string>& names_;
    std::unordered_map<std::string, std::size_t> places_;
};

// ---- The words of the day-book

struct Meaning {
    What what = What::stage;
    Name stage;
};

/// The first place of `key` among words.
template <std::size_t size>
Name place_of(const std::array<std::string_view, size>& all, std::string_view key) {
    const auto found = std::find(all.begin(), all.end(), key);
    return found == all.end() ? Name{} : static_cast<std::size_t>(found - all.begin());
}

/// What the built-in schedules call the stages that the day-book knows, as names are compared.
Name built_in_stage_word(std::string_view key) {
    constexpr std::array looks{std::string_view("first look under the bag"),
                               std::string_view("first look through the film"),
                               std::string_view("first look, wrap off"), std::string_view("first look")};
    if (key == "cut back and paint") return 0;
    if (key == "graft") return 1;
    if (std::find(looks.begin(), looks.end(), key) != looks.end()) return 2;
    return {};
}

class Vocabulary {
  public:
    Vocabulary(const std::vector<calendar::Stage>& stages, const std::optional<Table>& given) {
        for (std::size_t at = 0; at < what_words.size(); ++at) {
            meanings_[std::string(what_words.at(at))] = {static_cast<What>(at), {}};
        }
        for (std::size_t at = 0; at < stages.size(); ++at) {
            meanings_.emplace(stages[at].key, Meaning{What::stage, at});
            if (const Name word = built_in_stage_word(stages[at].key)) known_.at(*word) = at;
        }
        if (given) add(*given);
    }

    [[nodiscard]] const Meaning* find(const std::string& key) const {
        const auto found = meanings_.find(key);
        return found == meanings_.end() ? nullptr : &found->second;
    }
    [[nodiscard]] Name cut_stage() const { return known_[0]; }
    [[nodiscard]] Name graft_stage() const { return known_[1]; }
    [[nodiscard]] Name look_stage() const { return known_[2]; }

  private:
    void add(const Table& given) {
        if (given.columns < 2) {
            throw bad_argument("words",
                               translatable("{1} has {2} columns: give two, a word of your own and what it means."),
                               {static_cast<double>(given.columns)});
        }
        for (std::size_t row = 0; row < given.rows(); ++row) {
            const std::string own = check::folded(name_of(given.at(row, 0)));
            const std::string meant = check::folded(name_of(given.at(row, 1)));
            if (own.empty() || meant.empty()) continue;
            if (const Name word = place_of(what_words, meant)) {
                meanings_[own] = {static_cast<What>(*word), {}};
            } else if (const Name stage_word = place_of(stage_words, meant)) {
                const auto stage = meanings_.find(own);
                // A stage of another schedule marks nothing in this one.
                if (stage != meanings_.end() && stage->second.stage) known_.at(*stage_word) = stage->second.stage;
            } else {
                throw bad_argument(
                    "words",
                    translatable("{1} was \"{2}\" in row {3}, column 2: give a word of the day-book, such as "
                                 "\"grafted\", or \"cut stage\", \"graft stage\" or \"look stage\"."),
                    {name_of(given.at(row, 1)), check::row_number(row)});
            }
        }
    }

    std::unordered_map<std::string, Meaning> meanings_;
    std::array<Name, 3> known_{};
};

// ---- Reading the lines

/// Why a line is left out.
struct Wrong {
    Message sentence;
};

template <class... Places>
[[noreturn]] void wrong(Text text, Places... places) {
    throw Wrong{{text, {MessageValue(places)...}}};
}

enum NumberColumn : std::size_t {
    date_column,
    what_column,
    row_column,
    trees_column,
    grafts_column,
    live_column,
    lot_column,
    who_column,
    hours_column,
    money_column
};

Text title(std::size_t column) {
    switch (column) {
        case trees_column:
            return translatable("Trees");
        case grafts_column:
            return translatable("Grafts");
        case live_column:
            return translatable("Live");
        case hours_column:
            return translatable("Hours");
        default:
            return translatable("Money");
    }
}

std::optional<double> count_in(const Table& table, std::size_t line, std::size_t column) {
    const Cell& cell = table.at(line, column);
    if (is_blank(cell)) return {};
    const auto* number = std::get_if<double>(&cell);
    if (number != nullptr && *number >= 0 && *number <= most_count && check::is_whole(*number))
        return std::round(*number);
    wrong(translatable("{1}: give a whole number from 0 to {2}."), title(column), most_count);
}

double amount_in(const Table& table, std::size_t line, std::size_t column, double low, double high) {
    const Cell& cell = table.at(line, column);
    if (is_blank(cell)) return 0;
    const auto* number = std::get_if<double>(&cell);
    if (number != nullptr && *number >= low && *number <= high) return *number;
    wrong(translatable("{1}: give a number from {2} to {3}."), title(column), low, high);
}

void needs(const std::optional<double>& given, std::size_t column) {
    if (!given) wrong(translatable("{1} is blank: give a whole number."), title(column));
}

bool is_blank_line(const Table& table, std::size_t line) {
    const auto first = table.cells.begin() + static_cast<std::ptrdiff_t>(line * table.columns);
    return std::all_of(first, first + static_cast<std::ptrdiff_t>(std::min(table.columns, least_columns + 1)),
                       is_blank);
}

class Reader {
  public:
    Reader(const Vocabulary& vocabulary, const Names& rows, Names& lots, bool lots_known, Names& people)
        : vocabulary_(vocabulary), rows_(rows), lots_(lots), lots_known_(lots_known), people_(people) {}

    /// The line; throws Wrong where it cannot be read.
    Line line(const Table& table, std::size_t at) {
        Line line;
        line.place = at;
        const auto* date = std::get_if<Day>(&table.at(at, date_column));
        if (date == nullptr) wrong(translatable("Date: give the day on which it happened."));
        line.date = *date;
        read_what(table, at, line);
        if (const std::string row = key_of(table.at(at, row_column)); !row.empty()) {
            line.row = rows_.find(row);
            if (!line.row) {
                wrong(translatable("Row: \"{1}\" is not among the rows."), name_of(table.at(at, row_column)));
            }
        }
        line.trees = count_in(table, at, trees_column);
        line.grafts = count_in(table, at, grafts_column);
        line.live = count_in(table, at, live_column);
        read_names(table, at, line);
        line.hours = amount_in(table, at, hours_column, 0, most_hours);
        line.money = amount_in(table, at, money_column, -check::amount_limit, check::amount_limit);
        see_to_needs(line);
        return line;
    }

  private:
    void read_what(const Table& table, std::size_t at, Line& line) {
        const std::string what = key_of(table.at(at, what_column));
        if (what.empty()) wrong(translatable("What: say what happened."));
        const Meaning* meaning = vocabulary_.find(what);
        if (meaning == nullptr) {
            wrong(translatable("What: \"{1}\" is neither a word of the day-book nor a stage of the schedule."),
                  name_of(table.at(at, what_column)));
        }
        line.what = meaning->what;
        line.stage = meaning->stage;
    }

    void read_names(const Table& table, std::size_t at, Line& line) {
        const Cell& lot_cell = table.at(at, lot_column);
        if (const std::string lot = key_of(lot_cell); !lot.empty()) {
            line.lot = lots_known_ ? lots_.find(lot) : Name(lots_.place(lot, lot_cell));
            if (!line.lot) wrong(translatable("Lot: \"{1}\" is not among the lots."), name_of(lot_cell));
        }
        const Cell& who_cell = table.at(at, who_column);
        if (const std::string who = key_of(who_cell); !who.empty()) line.who = people_.place(who, who_cell);
    }

    static void see_to_needs(const Line& line) {
        switch (line.what) {
            case What::grafted:
            case What::regrafted:
                needs(line.grafts, grafts_column);
                break;
            case What::counted:
            case What::counted_regrafts:
                needs(line.live, live_column);
                break;
            case What::lost:
                needs(line.trees, trees_column);
                break;
            case What::received:
                needs(line.grafts, grafts_column);
                if (!line.lot) wrong(translatable("Lot is blank: give the lot of the sticks."));
                return;
            case What::no_work:
            case What::paid:
            case What::closed:
            case What::stage:
                return;
        }
        if (!line.row) wrong(translatable("Row is blank: give the row."));
    }

    const Vocabulary& vocabulary_;
    const Names& rows_;
    Names& lots_;
    bool lots_known_;
    Names& people_;
};

/// The order within a day.
int order(What what) {
    switch (what) {
        case What::received:
            return 0;
        case What::no_work:
            return 1;
        case What::stage:
            return 2;
        case What::grafted:
            return 3;
        case What::lost:
            return 4;
        case What::counted:
            return 5;
        case What::counted_regrafts:
            return 6;
        case What::regrafted:
            return 7;
        case What::paid:
            return 8;
        case What::closed:
            return 9;
    }
    return 10;
}

/// Lines in the order in which they happened; of two that are alike in all that counts either may be first.
std::vector<const Line*> in_order(const std::vector<Line>& lines, const std::vector<std::string>& lots,
                                  const std::vector<std::string>& people) {
    // Most lines differ by day, kind or row already, and a number is compared sooner than all of a line.
    struct Ordered {
        std::int64_t key;
        const Line* line;
    };
    constexpr std::int64_t kinds = 16;
    std::vector<Ordered> ordered;
    ordered.reserve(lines.size());
    for (const Line& line : lines) {
        ordered.push_back({line.date.time_since_epoch().count() * kinds + order(line.what), &line});
    }
    const auto text = [](const std::vector<std::string>& names, const Name& name) {
        return name ? std::string_view(names[*name]) : std::string_view();
    };
    const auto rest = [&](const Line& line) {
        return std::tuple(line.stage, line.trees, line.grafts, line.live, text(lots, line.lot), text(people, line.who),
                          line.hours, line.money, line.place);
    };
    std::sort(ordered.begin(), ordered.end(), [&](const Ordered& one, const Ordered& other) {
        if (one.key != other.key) return one.key < other.key;
        if (one.line->row != other.line->row) return one.line->row < other.line->row;
        return rest(*one.line) < rest(*other.line);
    });
    std::vector<const Line*> sorted;
    sorted.reserve(lines.size());
    for (const Ordered& one : ordered) sorted.push_back(one.line);
    return sorted;
}

// ---- The state of the rows, day by day

double half_up(double value) { return std::floor(value + 0.5); }

/// Grafts of one lot by one person in a row, first grafts and regrafts apart. Amounts are over the row's share kept at
/// the time, so that a loss in the row need not visit them.
struct Share {
    Name lot;
    Name who;
    bool regraft = false;
    double grafts = 0;
    double day_sum = 0;  ///< grafts x days since 1970
    Day first;
    Day last;
};

struct RowState {
    double left = 0;
    double lost = 0;
    double grafted = 0;   ///< trees, of those left
    double standing = 0;  ///< grafts of both kinds, whole
    double kept = 1;      ///< share of a graft placed in the beginning that losses have left
    std::size_t era = 0;  ///< counts the times that all grafts were lost
    std::vector<Share> shares;
    std::optional<Day> first_graft;
    std::optional<Day> last_graft;
    std::optional<Day> first_regraft;
    double placed = 0;
    double regrafts = 0;
    std::optional<Day> cut;
    std::optional<Day> closed;
    std::vector<std::size_t> lots;
    /// The last day of counting, and what was looked at on it so far.
    std::optional<Day> counted;
    std::optional<Day> counted_regrafts;
    double looked = 0;
    double regrafts_looked = 0;
};

/// Where an amount stood when it came in: share kept and era.
struct Mark {
    double kept = 1;
    std::size_t era = 0;
};

class Ledger {
  public:
    Ledger(Journal& journal, const std::vector<std::optional<double>>& trees, const Vocabulary& vocabulary)
        : journal_(journal), vocabulary_(vocabulary), states_(trees.size()) {
        for (std::size_t row = 0; row < trees.size(); ++row) states_[row].left = trees[row].value_or(0);
    }

    void post(const std::vector<const Line*>& lines) {
        find_cut_and_closed(lines);
        journal_.lines.reserve(lines.size());
        const auto of = [&](What one, What other) {
            return static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), [&](const Line* line) {
                return line->what == one || line->what == other;
            }));
        };
        const std::size_t placings = of(What::grafted, What::regrafted);
        const std::size_t counts = of(What::counted, What::counted_regrafts);
        journal_.placings.reserve(placings);
        marks_.reserve(placings);
        journal_.counts.reserve(counts);
        count_marks_.reserve(counts);
        for (const Line* line : lines) {
            try {
                post(*line);
                journal_.lines.push_back(*line);
            } catch (const Wrong& bad) {
                journal_.remarks[line->place] = {true, bad.sentence};
            }
        }
        close();
    }

  private:
    void find_cut_and_closed(const std::vector<const Line*>& lines) {
        std::optional<Day> cut;
        std::optional<Day> closed;
        for (const Line* one : lines) {
            const Line& line = *one;
            const bool is_cut = line.stage && line.stage == vocabulary_.cut_stage();
            if (!is_cut && line.what != What::closed) continue;
            auto& day =
                is_cut ? (line.row ? states_[*line.row].cut : cut) : (line.row ? states_[*line.row].closed : closed);
            if (!day) day = line.date;
        }
        for (RowState& row : states_) {
            if (!row.cut) row.cut = cut;
            if (closed && (!row.closed || *closed < *row.closed)) row.closed = closed;
        }
    }

    void post(const Line& line) {
        switch (line.what) {
            case What::grafted:
            case What::regrafted:
                graft(line);
                break;
            case What::counted:
            case What::counted_regrafts:
                count(line);
                break;
            case What::lost:
                lose(line);
                break;
            default:
                break;
        }
    }

    [[nodiscard]] const std::string& row_name(const Line& line) const { return journal_.row_names[*line.row]; }

    void graft(const Line& line) {
        RowState& row = states_[*line.row];
        const bool again = line.what == What::regrafted;
        if (row.cut && line.date < *row.cut) {
            wrong(translatable("Row {1} was cut back on {2}: nobody grafts there before."), row_name(line), *row.cut);
        }
        if (row.closed && line.date > *row.closed) {
            wrong(translatable("Row {1} was closed on {2}: nobody grafts there after that day."), row_name(line),
                  *row.closed);
        }
        if (row.left == 0) wrong(translatable("Row {1} has no trees left on that day."), row_name(line));
        double trees = 0;
        if (again) {
            see_grafted(row, line);
            trees = line.trees.value_or(0);
            if (trees > row.grafted) {
                wrong(translatable("Trees regrafted: {1}. Trees with grafts in row {3}: {2}."), trees, row.grafted,
                      row_name(line));
            }
        } else {
            const double open = row.left - row.grafted;
            trees = line.trees.value_or(open);
            if (trees > open) {
                wrong(translatable("Trees grafted: {1}. Left to graft in row {3}: {2}."), trees, open, row_name(line));
            }
            if (row.grafted + trees == 0) wrong(translatable("Trees: give the trees on which the grafts are."));
        }
        place(line, row, trees, again);
    }

    void place(const Line& line, RowState& row, double trees, bool again) {
        const double grafts = *line.grafts;
        journal_.placings.push_back({*line.row, line.lot, line.who, line.date, again, trees, grafts, 0});
        marks_.push_back({row.kept, row.era});
        row.standing += grafts;
        if (again) {
            row.regrafts += grafts;
            if (!row.first_regraft) row.first_regraft = line.date;
        } else {
            row.grafted += trees;
            row.placed += grafts;
            if (!row.first_graft) row.first_graft = line.date;
            row.last_graft = line.date;
        }
        if (line.lot && std::find(row.lots.begin(), row.lots.end(), *line.lot) == row.lots.end()) {
            row.lots.push_back(*line.lot);
        }
        auto same = std::find_if(row.shares.begin(), row.shares.end(), [&](const Share& share) {
            return share.lot == line.lot && share.who == line.who && share.regraft == again;
        });
        if (same == row.shares.end()) {
            same = row.shares.insert(same, {line.lot, line.who, again, 0, 0, line.date, line.date});
        }
        same->grafts += grafts / row.kept;
        same->day_sum += grafts / row.kept * static_cast<double>(line.date.time_since_epoch().count());
        same->last = line.date;
    }

    void see_grafted(const RowState& row, const Line& line) const {
        if (row.grafted == 0) wrong(translatable("Nothing is grafted in row {1} up to that day."), row_name(line));
    }

    void lose(const Line& line) {
        RowState& row = states_[*line.row];
        const double trees = *line.trees;
        if (trees > row.left) {
            wrong(translatable("Trees lost: {1}. Left in row {3}: {2}."), trees, row.left, row_name(line));
        }
        const double open = row.left - row.grafted;
        // Of trees that took grafts with them some were grafted; without one they were others, as far as there are.
        double of_grafted = std::min(trees, row.grafted);
        if (line.grafts && *line.grafts == 0) of_grafted = std::max(0.0, trees - open);
        double grafts = 0;
        if (line.grafts) {
            grafts = *line.grafts;
        } else if (row.grafted > 0) {
            grafts = half_up(row.standing / row.grafted * of_grafted);
        }
        if (grafts > row.standing) {
            wrong(translatable("Grafts lost: {1}. Grafts in row {3}: {2}."), grafts, row.standing, row_name(line));
        }
        // Nothing stands on no trees.
        if (of_grafted > 0 && of_grafted == row.grafted) grafts = row.standing;
        row.left -= trees;
        row.lost += trees;
        row.grafted -= of_grafted;
        if (grafts == row.standing && grafts > 0) {
            row.kept = 1;
            ++row.era;
            row.shares.clear();
            row.looked = row.regrafts_looked = 0;
        } else if (grafts > 0) {
            row.kept *= 1 - grafts / row.standing;
        }
        row.standing -= grafts;
    }

    /// What a count was made of: the grafts of its lot, person and kind that stand in the row.
    struct Counted {
        double grafts = 0;
        double day_sum = 0;
        Name lot;  ///< of the first share
        Name who;
        bool one_lot = true;
        bool one_person = true;
        std::optional<Day> first;
        Day last;
    };

    static Counted of_line(const RowState& row, const Line& line, bool with_lot, bool with_who) {
        Counted counted;
        for (const Share& share : row.shares) {
            if (line.what == What::counted_regrafts && !share.regraft) continue;
            if (with_lot && line.lot && share.lot != line.lot) continue;
            if (with_who && line.who && share.who != line.who) continue;
            counted.grafts += share.grafts * row.kept;
            counted.day_sum += share.day_sum * row.kept;
            if (!counted.first) {
                counted.lot = share.lot;
                counted.who = share.who;
            }
            counted.one_lot = counted.one_lot && counted.lot == share.lot;
            counted.one_person = counted.one_person && counted.who == share.who;
            counted.last = counted.first ? std::max(counted.last, share.last) : share.last;
            counted.first = counted.first ? std::min(*counted.first, share.first) : share.first;
        }
        return counted;
    }

    void count(const Line& line) {
        RowState& row = states_[*line.row];
        const bool of_regrafts = line.what == What::counted_regrafts;
        see_grafted(row, line);
        if (of_regrafts && !row.first_regraft) {
            wrong(translatable("Nothing is regrafted in row {1} up to that day."), row_name(line));
        }
        const Counted counted = of_line(row, line, true, true);
        if (line.lot && counted.grafts == 0 && of_line(row, line, true, false).grafts == 0) {
            wrong(translatable("Lot: row {2} has no grafts of {1} on that day."), journal_.lot_names[*line.lot],
                  row_name(line));
        }
        if (counted.grafts == 0 && line.who) {
            wrong(translatable("Who: row {2} has no grafts by {1} on that day."), journal_.people[*line.who],
                  row_name(line));
        }
        const double there = half_up(counted.grafts);
        const double looked = looked_at(line, row, there);
        if (*line.live > looked) {
            wrong(translatable("Live: {1}. Looked at: {2}."), *line.live, looked);
        }
        if (looked == 0) {
            journal_.remarks[line.place] = {false,
                                            {translatable("No grafts were looked at: this line is no count."), {}}};
            return;
        }
        double& so_far = of_regrafts ? row.regrafts_looked : row.looked;
        auto& day = of_regrafts ? row.counted_regrafts : row.counted;
        const double before = day == line.date ? so_far : 0;
        const double all = line.lot || line.who ? half_up(of_line(row, line, false, false).grafts) : there;
        if (before + looked > all) {
            wrong(translatable("Grafts looked at on that day: {1}. Grafts in row {3}: {2}."), before + looked, all,
                  row_name(line));
        }
        day = line.date;
        so_far = before + looked;
        keep(line, counted, looked, {row.kept, row.era});
    }

    [[nodiscard]] double looked_at(const Line& line, const RowState& row, double there) const {
        if (line.trees && *line.trees > row.grafted) {
            wrong(translatable("Trees looked at: {1}. Trees with grafts in row {3}: {2}."), *line.trees, row.grafted,
                  row_name(line));
        }
        double looked = there;
        if (line.grafts) {
            looked = *line.grafts;
        } else if (line.trees) {
            looked = *line.trees == row.grafted ? there : std::min(there, half_up(there / row.grafted * *line.trees));
        }
        if (looked > there) {
            wrong(translatable("Grafts looked at: {1}. Grafts in row {3}: {2}."), looked, there, row_name(line));
        }
        return looked;
    }

    void keep(const Line& line, const Counted& counted, double looked, Mark mark) {
        Count count;
        count.row = *line.row;
        if (counted.one_lot) count.lot = counted.lot;
        if (counted.one_person) count.who = counted.who;
        if (counted.first && *counted.first == counted.last) count.grafted_on = counted.first;
        count.date = line.date;
        if (counted.grafts > 0) {
            count.age =
                static_cast<double>(line.date.time_since_epoch().count()) - half_up(counted.day_sum / counted.grafts);
        }
        count.regrafts = line.what == What::counted_regrafts;
        count.looked = looked;
        count.live = *line.live;
        journal_.counts.push_back(count);
        count_marks_.push_back(mark);
        if (count.regrafts && includes_regrafts(states_[count.row])) {
            journal_.remarks[line.place] = {
                false,
                {translatable("Row {1} was counted as a whole after its regrafts: this count is not added to it."),
                 {row_name(line)}}};
        } else if (!counted.one_lot) {
            journal_.remarks[line.place] = {
                false,
                {translatable("Row {1} has budwood of several lots: give the lot, else this count is the row's alone."),
                 {row_name(line)}}};
        } else if (!counted.one_person) {
            journal_.remarks[line.place] = {
                false,
                {translatable("Several people grafted in row {1}: give the name, else this count is the row's alone."),
                 {row_name(line)}}};
        }
    }

    // ---- At the end

    [[nodiscard]] double now(std::size_t row, double amount, const Mark& mark) const {
        const RowState& state = states_[row];
        return mark.era == state.era ? amount * state.kept / mark.kept : 0;
    }

    /// Whole numbers next to `exact` that add up to `total`: what is cut off by rounding down goes to those that lost
    /// most by it (largest remainder).
    static std::vector<double> apportion(const std::vector<double>& exact, double total) {
        std::vector<double> whole;
        whole.reserve(exact.size());
        constexpr double slack = 1e-9;
        for (const double one : exact) whole.push_back(std::floor(one + slack * std::max(1.0, one)));
        auto open = static_cast<std::int64_t>(total - std::accumulate(whole.begin(), whole.end(), 0.0));
        std::vector<std::size_t> order(exact.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&](std::size_t one, std::size_t other) {
            return exact[one] - whole[one] > exact[other] - whole[other];
        });
        for (std::size_t at = 0; at < order.size() && open > 0; ++at, --open) whole[order[at]] += 1;
        return whole;
    }

    void close() {
        close_placings();
        for (Count& count : journal_.counts) {
            const RowState& row = states_[count.row];
            // A count of all has the regrafts in it.
            const bool superseded = count.regrafts && includes_regrafts(row);
            count.is_state = count.date == (count.regrafts ? row.counted_regrafts : row.counted) && !superseded;
        }
        close_counts(false);
        close_counts(true);
        close_rows();
    }

    /// Whether the last count of a row has regrafts in it.
    static bool includes_regrafts(const RowState& row) {
        return row.counted && row.first_regraft && *row.counted > *row.first_regraft;
    }

    void close_placings() {
        std::vector<std::vector<std::size_t>> of_row(states_.size());
        for (std::size_t at = 0; at < journal_.placings.size(); ++at) {
            of_row[journal_.placings[at].row].push_back(at);
        }
        for (std::size_t row = 0; row < of_row.size(); ++row) {
            std::vector<double> exact;
            for (const std::size_t at : of_row[row])
                exact.push_back(now(row, journal_.placings[at].placed, marks_[at]));
            const auto whole = apportion(exact, states_[row].standing);
            for (std::size_t at = 0; at < whole.size(); ++at) journal_.placings[of_row[row][at]].standing = whole[at];
        }
    }

    void close_counts(bool regrafts) {
        std::vector<std::vector<std::size_t>> of_row(states_.size());
        for (std::size_t at = 0; at < journal_.counts.size(); ++at) {
            const Count& count = journal_.counts[at];
            if (count.is_state && count.regrafts == regrafts) of_row[count.row].push_back(at);
        }
        for (std::size_t row = 0; row < of_row.size(); ++row) {
            std::vector<double> live;
            std::vector<double> dead;
            for (const std::size_t at : of_row[row]) {
                const Count& count = journal_.counts[at];
                live.push_back(now(row, count.live, count_marks_[at]));
                dead.push_back(now(row, count.looked - count.live, count_marks_[at]));
            }
            const auto sum = [](const std::vector<double>& all) {
                return half_up(std::accumulate(all.begin(), all.end(), 0.0));
            };
            const auto whole_live = apportion(live, sum(live));
            const auto whole_dead = apportion(dead, sum(dead));
            for (std::size_t at = 0; at < of_row[row].size(); ++at) {
                Count& count = journal_.counts[of_row[row][at]];
                count.live_now = whole_live[at];
                count.looked_now = whole_live[at] + whole_dead[at];
            }
        }
    }

    void close_rows() {
        for (std::size_t row = 0; row < states_.size(); ++row) {
            if (!journal_.rows[row]) continue;
            const RowState& state = states_[row];
            RowAccount& account = *journal_.rows[row];
            account.trees_left = state.left;
            account.trees_grafted = state.grafted;
            account.trees_lost = state.lost;
            account.first_graft = state.first_graft;
            account.last_graft = state.last_graft;
            account.last_look = std::max(state.counted, state.counted_regrafts);
            account.closed = state.closed;
            account.placed = state.placed;
            account.regrafts_placed = state.regrafts;
            std::vector<std::string> lots;
            for (const std::size_t lot : state.lots) lots.push_back(journal_.lot_names[lot]);
            std::sort(lots.begin(), lots.end());
            for (const std::string& lot : lots) account.lots.append(account.lots.empty() ? "" : ", ").append(lot);
        }
        for (const Placing& placing : journal_.placings) {
            RowAccount& account = *journal_.rows[placing.row];
            (placing.regraft ? account.regrafts_standing : account.standing) += placing.standing;
        }
        for (const Count& count : journal_.counts) {
            if (!count.is_state) continue;
            RowAccount& account = *journal_.rows[count.row];
            (count.regrafts ? account.regrafts_looked : account.looked) += count.looked_now;
            (count.regrafts ? account.regrafts_live : account.live) += count.live_now;
        }
    }

    Journal& journal_;
    const Vocabulary& vocabulary_;
    std::vector<RowState> states_;
    std::vector<Mark> marks_;        ///< of the placings
    std::vector<Mark> count_marks_;  ///< of the counts
};

}  // namespace

// ---- The journal

Journal read(const List& rows, const List& trees, const DatedTable& daybook, std::optional<Day> on_date,
             const std::optional<List>& lots, const std::optional<Table>& schedule, const std::optional<Table>& words) {
    check::same_length("rows", rows.length, "trees", trees.length);
    if (on_date) check::day("on_date", *on_date);
    const Table& table = daybook.table;
    if (table.columns < least_columns) {
        throw bad_argument("daybook",
                           translatable("{1} has {2} columns: give at least ten, which are date, what, row, trees, "
                                        "grafts, live, lot, who, hours and money."),
                           {static_cast<double>(table.columns)});
    }
    Journal journal;
    Names row_names(journal.row_names);
    std::vector<std::optional<double>> planted;
    const std::size_t used = std::max(rows.cells.size(), trees.cells.size());
    for (std::size_t at = 0; at < used; ++at) {
        const std::string name = name_of(rows.cell(at));
        if (name.empty() && is_blank(trees.cell(at))) {
            row_names.skip();
            planted.emplace_back();
            journal.rows.emplace_back();
            continue;
        }
        if (name.empty()) {
            throw bad_argument("rows",
                               translatable("{1} is blank in row {2}, which has trees: give a name or a number there."),
                               {check::row_number(at)});
        }
        if (const Name first = row_names.add(name)) {
            throw bad_argument("rows",
                               translatable("{1} was \"{2}\" in row {3}, as in row {4}: give each row its own name."),
                               {name, check::row_number(at), check::row_number(*first)});
        }
        planted.emplace_back(check::whole_in_row("trees", trees, at, 0));
        journal.rows.emplace_back(RowAccount{});
    }
    if (std::none_of(journal.rows.begin(), journal.rows.end(), [](const auto& row) { return row.has_value(); })) {
        throw bad_argument("rows", translatable("{1} are blank: give at least one row of trees."));
    }
    Names lot_names(journal.lot_names);
    if (lots) {
        for (const Cell& lot : lots->cells) {
            if (const std::string key = key_of(lot); !key.empty() && !lot_names.find(key)) lot_names.add(name_of(lot));
        }
    }
    journal.known_lots = journal.lot_names.size();
    std::vector<calendar::Stage> given;
    const auto& stages = calendar::stages_of(schedule, given);
    for (const calendar::Stage& stage : stages) journal.stage_names.push_back(stage.name);
    const Vocabulary vocabulary(stages, words);
    journal.graft_stage = vocabulary.graft_stage();
    journal.look_stage = vocabulary.look_stage();

    Names people(journal.people);
    Reader reader(vocabulary, row_names, lot_names, lots.has_value(), people);
    journal.remarks.resize(table.rows());
    std::vector<Line> lines;
    lines.reserve(table.rows());
    for (std::size_t at = 0; at < table.rows(); ++at) {
        if (is_blank_line(table, at)) continue;
        try {
            Line line = reader.line(table, at);
            if (!on_date || line.date <= *on_date) lines.push_back(line);
        } catch (const Wrong& bad) {
            journal.remarks[at] = {true, bad.sentence};
        }
    }
    Ledger(journal, planted, vocabulary).post(in_order(lines, journal.lot_names, journal.people));
    return journal;
}

std::vector<std::optional<RowAccount>> row_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                   std::optional<Day> on_date, const std::optional<List>& lots,
                                                   const std::optional<Table>& schedule,
                                                   const std::optional<Table>& words) {
    return read(rows, trees, daybook, on_date, lots, schedule, words).rows;
}

std::vector<std::optional<Remark>> checks(const List& rows, const List& trees, const DatedTable& daybook,
                                          std::optional<Day> on_date, const std::optional<List>& lots,
                                          const std::optional<Table>& schedule, const std::optional<Table>& words) {
    return read(rows, trees, daybook, on_date, lots, schedule, words).remarks;
}

// ---- Take

namespace {

/// What groups go by, in the order in which they are shown: a place or a number, then a name; blank groups are last.
struct Key {
    double number = std::numeric_limits<double>::infinity();
    std::string name;
    auto operator<=>(const Key&) const = default;
};

Key key_of_name(const Name& place, const std::vector<std::string>& names, std::size_t known) {
    if (!place) return {};
    // Those of the list in its order, others after them by name.
    if (*place < known) return {static_cast<double>(*place), names[*place]};
    return {std::numeric_limits<double>::max(), names[*place]};
}

Key key_of_day(const std::optional<Day>& day) {
    if (!day) return {};
    return {static_cast<double>(day->time_since_epoch().count()), ""};
}

Cell cell_of(const Key& key, By by) {
    if (std::isinf(key.number)) return {};
    switch (by) {
        case By::age:
            return key.number;
        case By::day:
            return Day{days{static_cast<int>(key.number)}};
        default:
            return key.name;
    }
}

}  // namespace

namespace {

std::optional<std::vector<TakeAccount>> take_of(const Journal& journal, By by) {
    const auto key = [&](std::size_t row, const Name& lot, const Name& who, const std::optional<Day>& day) -> Key {
        switch (by) {
            case By::lot:
                return key_of_name(lot, journal.lot_names, journal.known_lots);
            case By::grafter:
                return key_of_name(who, journal.people, 0);
            case By::day:
                return key_of_day(day);
            default:
                return {static_cast<double>(row), journal.row_names[row]};
        }
    };
    std::map<Key, TakeAccount> groups;
    if (by != By::age) {
        for (const Placing& placing : journal.placings) {
            TakeAccount& group = groups[key(placing.row, placing.lot, placing.who, placing.date)];
            (placing.regraft ? group.regrafts_placed : group.placed) += placing.placed;
            (placing.regraft ? group.regrafts_standing : group.standing) += placing.standing;
        }
    }
    for (const Count& count : journal.counts) {
        if (by != By::age && !count.is_state) continue;
        TakeAccount& group =
            groups[by == By::age ? Key{count.age, ""} : key(count.row, count.lot, count.who, count.grafted_on)];
        (count.regrafts ? group.regrafts_looked : group.looked) += by == By::age ? count.looked : count.looked_now;
        (count.regrafts ? group.regrafts_live : group.live) += by == By::age ? count.live : count.live_now;
    }
    std::vector<TakeAccount> all;
    all.reserve(groups.size());
    for (auto& [group, account] : groups) {
        account.group = cell_of(group, by);
        if (account.looked > 0) account.take = account.live / account.looked;
        if (account.regrafts_looked > 0) account.regrafts_take = account.regrafts_live / account.regrafts_looked;
        all.push_back(std::move(account));
    }
    if (all.empty()) return std::nullopt;
    return all;
}

}  // namespace

std::optional<std::vector<TakeAccount>> take_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                     By by, std::optional<Day> on_date, const std::optional<List>& lots,
                                                     const std::optional<Table>& schedule,
                                                     const std::optional<Table>& words) {
    return take_of(read(rows, trees, daybook, on_date, lots, schedule, words), by);
}

RevisedTake take_revised(double expected, double live, double looked, std::optional<double> weight,
                         std::optional<double> grafts_per_tree, std::optional<double> clustering,
                         std::optional<double> confidence) {
    check::fraction("expected", expected);
    const auto seen = static_cast<double>(check::whole("looked", looked, 0));
    const auto alive = static_cast<double>(check::whole("live", live, 0));
    if (alive > seen) {
        throw bad_argument("live", translatable("{1} was {2}, more than looked, {3}: give at most as many."),
                           {alive, seen});
    }
    const double trust = check::positive("weight", weight.value_or(20), most_count);
    const double each = check::number("grafts_per_tree", grafts_per_tree.value_or(1), 1, 1000);
    const double rho = check::fraction_below_one("clustering", clustering.value_or(0));
    const double tail = (1 - check::confidence("confidence", confidence.value_or(0.95))) / 2;
    // Grafts that share a tree's luck say less than so many on their own.
    const double design_effect = 1 + (each - 1) * rho;
    const double alpha = trust * expected + alive / design_effect;
    const double beta = trust * (1 - expected) + (seen - alive) / design_effect;
    if (alpha == 0) return {0, 0, 0};
    if (beta == 0) return {1, 1, 1};
    return {alpha / (alpha + beta), boost::math::ibeta_inv(alpha, beta, tail),
            boost::math::ibetac_inv(alpha, beta, tail)};
}

// ---- Wood

namespace {

double whole_grafts_per_stick(std::optional<double> grafts_per_stick) {
    return static_cast<double>(check::whole("grafts_per_stick", grafts_per_stick.value_or(1), 1, 1000));
}

std::optional<std::vector<LotAccount>> lots_of(const Journal& journal, double grafts_per_stick) {
    std::map<Key, LotAccount> accounts;
    const auto account = [&](const Name& lot) -> LotAccount& {
        return accounts[key_of_name(lot, journal.lot_names, journal.known_lots)];
    };
    for (std::size_t lot = 0; lot < journal.known_lots; ++lot) account(lot);
    for (const Line& line : journal.lines) {
        if (line.what != What::received) continue;
        LotAccount& lot = account(line.lot);
        lot.received += *line.grafts;
        if (!lot.first_received) lot.first_received = line.date;
    }
    for (const Placing& placing : journal.placings) {
        LotAccount& lot = account(placing.lot);
        (placing.regraft ? lot.regrafts_placed : lot.placed) += placing.placed;
        if (!placing.regraft) lot.trees_grafted += placing.trees;
        lot.last_used = placing.date;
    }
    std::vector<LotAccount> all;
    for (auto& [key, lot] : accounts) {
        lot.lot = key.name;
        lot.used = std::ceil((lot.placed + lot.regrafts_placed) / grafts_per_stick);
        lot.left = lot.received - lot.used;
        all.push_back(std::move(lot));
    }
    if (all.empty()) return std::nullopt;
    return all;
}

}  // namespace

std::optional<std::vector<LotAccount>> lot_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                   std::optional<double> grafts_per_stick, std::optional<Day> on_date,
                                                   const std::optional<List>& lots,
                                                   const std::optional<Table>& schedule,
                                                   const std::optional<Table>& words) {
    const double each = whole_grafts_per_stick(grafts_per_stick);
    return lots_of(read(rows, trees, daybook, on_date, lots, schedule, words), each);
}

// ---- Stages

namespace {

Table done_of(const Journal& journal) {
    const std::size_t stages = journal.stage_names.size();
    Table done{stages, {}};
    done.cells.resize(stages * journal.rows.size());
    const auto cell = [&](std::size_t row, std::size_t stage) -> Cell& { return done.cells[row * stages + stage]; };
    std::vector<double> so_far(done.cells.size());
    const auto mark = [&](std::size_t row, const Line& line) {
        if (!journal.rows[row]) return;
        double& sum = so_far[row * stages + *line.stage];
        const double left = journal.rows[row]->trees_left;
        const bool was_whole = sum >= left && !is_blank(cell(row, *line.stage));
        sum += line.trees && line.row ? *line.trees : left;
        if (sum >= left && !was_whole) cell(row, *line.stage) = line.date;
    };
    std::vector<bool> done_in_all(stages);
    for (const Line& line : journal.lines) {
        if (!line.stage) continue;
        if (line.row) {
            mark(*line.row, line);
        } else if (!done_in_all[*line.stage]) {
            done_in_all[*line.stage] = true;
            for (std::size_t row = 0; row < journal.rows.size(); ++row) mark(row, line);
        }
    }
    if (journal.graft_stage) {
        for (std::size_t row = 0; row < journal.rows.size(); ++row) {
            const auto& account = journal.rows[row];
            if (!account || !account->last_graft || account->trees_grafted < account->trees_left) continue;
            cell(row, *journal.graft_stage) = *account->last_graft;
            for (std::size_t stage = 0; stage < *journal.graft_stage; ++stage) {
                if (is_blank(cell(row, stage))) cell(row, stage) = std::string("x");
            }
        }
    }
    if (journal.look_stage) {
        for (const Count& count : journal.counts) {
            Cell& look = cell(count.row, *journal.look_stage);
            if (is_blank(look)) look = count.date;
        }
    }
    return done;
}

}  // namespace

Table done_account(const List& rows, const List& trees, const DatedTable& daybook, std::optional<Day> on_date,
                   const std::optional<List>& lots, const std::optional<Table>& schedule,
                   const std::optional<Table>& words) {
    return done_of(read(rows, trees, daybook, on_date, lots, schedule, words));
}

// ---- Hours and money

namespace {

/// The period in which a day is, counted from the one that begins at `from`; months as EDATE has them.
int period_of(Day day, Day from, int months) {
    const std::chrono::year_month_day start{from};
    const std::chrono::year_month_day date{day};
    const int apart = (int(date.year()) - int(start.year())) * 12 +
                      (static_cast<int>(unsigned(date.month())) - static_cast<int>(unsigned(start.month())));
    int period = apart >= 0 ? apart / months : -((-apart + months - 1) / months);
    while (add_months(from, (period + 1) * months) <= day) ++period;
    while (add_months(from, period * months) > day) --period;
    return period;
}

std::optional<std::vector<WorkAccount>> work_of(const Journal& journal, Step step, std::optional<Day> from_date) {
    if (journal.lines.empty()) return std::nullopt;
    const Day earliest = journal.lines.front().date;
    const std::chrono::year_month_day date{earliest};
    const Day from = from_date.value_or(Day{date.year() / date.month() / 1});
    const int months = step == Step::year ? 12 : 1;
    std::map<std::tuple<int, std::size_t, std::size_t>, WorkAccount> accounts;
    for (const Line& line : journal.lines) {
        if (line.hours == 0 && line.money == 0) continue;
        const int period = period_of(line.date, from, months);
        WorkAccount& account = accounts[{period, static_cast<std::size_t>(line.what), line.stage.value_or(0)}];
        account.hours += line.hours;
        account.money += line.money;
    }
    std::vector<WorkAccount> all;
    for (auto& [key, account] : accounts) {
        const auto& [period, what, stage] = key;
        account.period = add_months(from, period * months);
        account.what = what < what_words.size() ? std::string(what_words.at(what)) : journal.stage_names[stage];
        all.push_back(std::move(account));
    }
    if (all.empty()) return std::nullopt;
    return all;
}

}  // namespace

std::optional<std::vector<WorkAccount>> work_account(const List& rows, const List& trees, const DatedTable& daybook,
                                                     std::optional<Step> step, std::optional<Day> from_date,
                                                     std::optional<Day> on_date, const std::optional<List>& lots,
                                                     const std::optional<Table>& schedule,
                                                     const std::optional<Table>& words) {
    if (from_date) check::day("from_date", *from_date);
    return work_of(read(rows, trees, daybook, on_date, lots, schedule, words), step.value_or(Step::month), from_date);
}

// ---- Pace

namespace {

/// The plan's pace and people, checked.
std::pair<double, double> planned(double grafts_per_day, std::optional<double> crew) {
    check::positive("grafts_per_day", grafts_per_day, most_count);
    check::number("grafts_per_day", grafts_per_day, 0.001, most_count);
    return {grafts_per_day, static_cast<double>(check::whole("crew", crew.value_or(1), 1))};
}

PaceAccount pace_of(const Journal& journal, double grafts_per_day, double people) {
    std::map<Day, std::set<Name>> by_day;
    double grafts = 0;
    for (const Placing& placing : journal.placings) {
        if (placing.regraft) continue;
        by_day[placing.date].insert(placing.who);
        grafts += placing.placed;
    }
    PaceAccount account;
    account.days = static_cast<double>(by_day.size());
    for (auto& [day, names] : by_day) {
        names.erase(Name{});
        account.person_days += names.empty() ? people : static_cast<double>(names.size());
    }
    account.pace = grafts_per_day;
    if (by_day.empty()) return account;
    account.seen = grafts / account.person_days;
    constexpr double enough = 3;
    const double weight = std::min(1.0, account.days / enough);
    account.pace = weight * *account.seen + (1 - weight) * grafts_per_day;
    // Grafts of nobody's are no pace to plan with.
    if (account.pace < 0.001) account.pace = grafts_per_day;
    return account;
}

}  // namespace

PaceAccount pace_account(const List& rows, const List& trees, const DatedTable& daybook, double grafts_per_day,
                         std::optional<double> crew, std::optional<Day> on_date, const std::optional<List>& lots,
                         const std::optional<Table>& schedule, const std::optional<Table>& words) {
    const auto [pace, people] = planned(grafts_per_day, crew);
    return pace_of(read(rows, trees, daybook, on_date, lots, schedule, words), pace, people);
}

// ---- All at once

namespace {

/// What each row's days of counting and its grafters were.
std::vector<std::optional<RowLooks>> looks_of(const Journal& journal) {
    std::vector<std::optional<RowLooks>> all;
    all.reserve(journal.rows.size());
    for (const auto& row : journal.rows) {
        all.push_back(row ? std::optional(RowLooks{}) : std::nullopt);
        if (row) all.back()->closed = row->closed;
    }
    // Counts are in the order of their days.
    for (const Count& count : journal.counts) {
        if (count.regrafts) continue;
        for (Look& look : all[count.row]->looks) {
            if (look.date && *look.date != count.date) continue;
            look.date = count.date;
            look.looked += count.looked;
            look.live += count.live;
            break;
        }
    }
    std::vector<std::set<Name>> grafters(all.size());
    for (const Placing& placing : journal.placings) {
        if (!placing.regraft) grafters[placing.row].insert(placing.who);
    }
    for (std::size_t row = 0; row < all.size(); ++row) {
        if (grafters[row].empty()) continue;
        all[row]->grafters = static_cast<double>(grafters[row].size());
        const Name& who = *grafters[row].begin();
        if (grafters[row].size() == 1 && who) all[row]->grafter = journal.people[*who];
    }
    return all;
}

}  // namespace

AllAccounts all_accounts(const List& rows, const List& trees, const DatedTable& daybook,
                         std::optional<double> grafts_per_day, std::optional<double> crew,
                         std::optional<double> grafts_per_stick, std::optional<Day> on_date,
                         const std::optional<List>& lots, const std::optional<Table>& schedule,
                         const std::optional<Table>& words, std::optional<Part> part) {
    const auto [pace, people] = planned(grafts_per_day.value_or(1), crew);
    const double each = whole_grafts_per_stick(grafts_per_stick);
    const Journal journal = read(rows, trees, daybook, on_date, lots, schedule, words);
    AllAccounts all;
    all.part = part.value_or(Part::all);
    if (all.part != Part::groups) {
        all.rows = journal.rows;
        all.looks = looks_of(journal);
        all.done = done_of(journal);
        all.rows_given = rows.length;
        all.stages_given = schedule ? schedule->rows() + schedule->blank_rows : journal.stage_names.size();
    }
    if (all.part != Part::rows) {
        all.by_lot = take_of(journal, By::lot).value_or(std::vector<TakeAccount>{});
        all.by_grafter = take_of(journal, By::grafter).value_or(std::vector<TakeAccount>{});
        all.by_age = take_of(journal, By::age).value_or(std::vector<TakeAccount>{});
        all.lots = lots_of(journal, each).value_or(std::vector<LotAccount>{});
        all.work = work_of(journal, Step::month, {}).value_or(std::vector<WorkAccount>{});
        if (grafts_per_day) all.pace = pace_of(journal, pace, people);
    }
    return all;
}

// ---- What is left

std::vector<std::optional<RowDays>> row_days(const List& rows, const List& grafts, Day start_date,
                                             double grafts_per_day, std::optional<double> crew,
                                             const std::optional<Scalar>& days_off,
                                             const std::optional<DayList>& holidays,
                                             const std::optional<DatedTable>& daybook,
                                             const std::optional<Table>& words) {
    check::same_length("rows", rows.length, "grafts", grafts.length);
    check::day("start_date", start_date);
    check::positive("grafts_per_day", grafts_per_day, most_count);
    check::number("grafts_per_day", grafts_per_day, 0.001, most_count);
    const auto people = static_cast<double>(check::whole("crew", crew.value_or(1), 1));
    const calendar::Week week = calendar::week_of(days_off);
    const std::vector<Day> lost = calendar::lost_days(holidays, week, start_date);
    std::set<Day> off(lost.begin(), lost.end());

    std::vector<std::optional<RowDays>> all(std::max(rows.cells.size(), grafts.cells.size()));
    std::vector<double> open(all.size());
    double left = 0;
    std::unordered_map<std::string, std::size_t> row_of;
    for (std::size_t at = 0; at < open.size(); ++at) {
        row_of.emplace(check::folded(name_of(rows.cell(at))), at);
        if (is_blank(grafts.cell(at))) continue;
        open[at] = static_cast<double>(check::whole_in_row("grafts", grafts, at, 0));
        left += open[at];
    }
    std::map<Day, std::set<std::size_t>> barred;
    if (daybook) {
        const Vocabulary vocabulary({}, words);
        const Table& table = daybook->table;
        if (table.columns < least_columns) {
            throw bad_argument("daybook",
                               translatable("{1} has {2} columns: give at least ten, which are date, what, row, trees, "
                                            "grafts, live, lot, who, hours and money."),
                               {static_cast<double>(table.columns)});
        }
        for (std::size_t line = 0; line < table.rows(); ++line) {
            const auto* date = std::get_if<Day>(&table.at(line, date_column));
            const Meaning* what = vocabulary.find(key_of(table.at(line, what_column)));
            if (date == nullptr || what == nullptr || what->what != What::no_work) continue;
            const std::string row = name_of(table.at(line, row_column));
            if (row.empty()) {
                off.insert(*date);
            } else if (const auto found = row_of.find(check::folded(row)); found != row_of.end()) {
                barred[*date].insert(found->second);
            }
        }
    }

    const double a_day = grafts_per_day * people;
    const double slack = 1e-9 * std::max(1.0, a_day);
    std::size_t next = 0;
    for (Day day = start_date; left > slack; day += days{1}) {
        if (!is_known(day)) {
            throw bad_argument(
                "grafts",
                translatable(
                    "{1} are more than can be placed by the year 9999: give fewer, more people or a quicker pace."));
        }
        if (!week.works(day) || off.contains(day)) continue;
        const auto not_here = barred.find(day);
        double can = a_day;
        for (std::size_t at = next; at < open.size() && can > slack; ++at) {
            if (open[at] == 0) {
                if (at == next) ++next;
                continue;
            }
            if (not_here != barred.end() && not_here->second.contains(at)) continue;
            const double placed = std::min(can, open[at]);
            if (!all[at]) all[at] = {day, day};
            all[at]->last = day;
            can -= placed;
            left -= placed;
            open[at] -= placed;
            if (open[at] <= slack) {
                left -= open[at];
                open[at] = 0;
            }
        }
    }
    return all;
}

}  // namespace slipbark::daybook

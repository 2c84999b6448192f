// Drives every argument of every function over the ends of the range that the catalogue says it has: what is inside is
// answered or has no answer, what is just outside is refused by the argument's name, and leaving an optional argument
// out is the same as giving its default.

#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <set>

#include "catalogue/catalogue.hpp"
#include "formula.hpp"
#include "ranges.hpp"
#include "right_call.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Argument;
using catalogue::Arguments;
using catalogue::Column;
using catalogue::Entry;
using catalogue::Outcome;
using catalogue::Range;
using catalogue::Value;

std::vector<const Entry*> entries() {
    std::vector<const Entry*> all;
    for (const auto& area : catalogue::areas()) {
        for (const Entry& entry : area.entries) {
            if (entry.method != "why" && !entry.arguments.empty()) all.push_back(&entry);
        }
    }
    return all;
}

/// Where another argument, or the table that the function looks into, narrows a range: with the other arguments of the
/// example an end of it is refused all the same, or the refusal names the other argument.
const std::set<std::string>& narrowed_by_others();

/// Drives one function's arguments and keeps the places where a range is narrowed.
struct Driver {
    const Entry& entry;
    std::set<std::string>& found;
    Arguments right = parse(right_call(entry)).arguments;

    /// The name of the argument that is refused; empty where none is.
    [[nodiscard]] std::string refused(const Arguments& given) const {
        try {
            entry.call(given);
        } catch (const bad_argument& bad) {
            return bad.argument();
        }
        return "";
    }

    void expect(std::size_t at, const Value& value, bool is_inside, const std::string& what) {
        Arguments given = right;
        given.values.at(at) = value;
        const std::string name = refused(given);
        const std::string should = is_inside ? "" : std::string(entry.arguments[at].name);
        if (name == should) return;
        // Of two that narrow each other the function may name either.
        for (const Argument& other : entry.arguments) {
            if (other.name == name && narrow_each_other(entry.arguments[at], other)) return;
        }
        const std::string place = place_name(entry, at);
        found.insert(place);
        EXPECT_TRUE(narrowed_by_others().contains(place))
            << place << " " << what << (is_inside ? " is refused as " : " is not refused but ") << name;
    }

    /// `with` puts a number where the argument has one.
    void drive(std::size_t at, const catalogue::Limits& limits, const std::function<Value(double)>& with) {
        for (const double number : inside(entry, at, limits)) expect(at, with(number), true, to_text(number));
        for (const double number : outside(entry, at, limits)) expect(at, with(number), false, to_text(number));
    }

    void drive_columns(std::size_t at, const Table& table) {
        const auto& columns = entry.arguments[at].range.columns;
        for (std::size_t column = 0; column < columns.size(); ++column) {
            const auto with = [&](std::size_t row) {
                return [&table, row, column](double number) {
                    Table other = table;
                    other.cells[row * table.columns + column] = number;
                    return Value(other);
                };
            };
            if (columns[column].of == Column::Of::keywords) {
                Table other = table;
                other.cells[column] = std::string("no such keyword");
                expect(at, other, false, "a wrong keyword");
            }
            if (columns[column].of != Column::Of::numbers) continue;
            if (!columns[column].rising) {
                drive(at, columns[column].limits, with(0));
                continue;
            }
            const auto ends = outside(entry, at, columns[column].limits);
            expect(at, with(0)(ends.front()), false, "first of the rising " + to_text(ends.front()));
            expect(at, with(table.rows() - 1)(ends.back()), false, "last of the rising " + to_text(ends.back()));
        }
    }

    void drive_all() {
        for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
            const Argument& argument = entry.arguments[at];
            const Range& range = argument.range;
            const Value& now = right.values.at(at);
            // Of a list its first cell.
            const auto with = [&](double number) -> Value {
                if (const auto* table = std::get_if<Table>(&now)) {
                    Table other = *table;
                    other.cells.front() = number;
                    return other;
                }
                return number;
            };
            switch (range.of) {
                case Range::Of::numbers:
                case Range::Of::dates:
                    drive(at, narrowed(entry, at, right), with);
                    break;
                case Range::Of::choices:
                    for (const double number : range.choices) {
                        expect(at, with(number), true, to_text(number));
                        expect(at, with(number + 0.5), false, to_text(number + 0.5));
                    }
                    break;
                case Range::Of::keywords_or_table:
                case Range::Of::keywords:
                    for (const std::string_view word : range.keywords) {
                        expect(at, std::string(word), true, std::string(word));
                        expect(at, std::string(word) + "x", false, std::string(word) + "x");
                    }
                    if (const auto* table = std::get_if<Table>(&now)) drive_columns(at, *table);
                    break;
                case Range::Of::table:
                    drive_columns(at, std::get<Table>(now));
                    break;
                case Range::Of::texts:
                    for (const double code : range.choices) expect(at, code, true, to_text(code));
                    break;
                case Range::Of::as_given:
                    ADD_FAILURE() << place_name(entry, at) << " has no range";
            }
        }
    }
};

class EachFunction : public testing::TestWithParam<const Entry*> {};

INSTANTIATE_TEST_SUITE_P(Catalogue, EachFunction, testing::ValuesIn(entries()),
                         [](const auto& entry) { return std::string(entry.param->method); });

TEST_P(EachFunction, AnswersItsExampleWithEveryArgumentGiven) {
    const std::string call = right_call(*GetParam());
    EXPECT_NO_THROW(evaluate(call)) << call;
}

TEST_P(EachFunction, HasTheDefaultsThatTheCatalogueSays) {
    const Entry& entry = *GetParam();
    // A default that another argument does not fit, such as a schedule of more stages than minutes are given for, is
    // refused in the same words as when it is given.
    const auto answer = [&entry](const Arguments& given) -> catalogue::Outcome {
        try {
            return entry.call(given);
        } catch (const bad_argument& bad) {
            return std::string(bad.what());
        }
    };
    const Arguments right = parse(right_call(entry)).arguments;
    for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
        const auto& absent = entry.arguments[at].absent;
        Value given;
        if (const auto* number = std::get_if<double>(&absent)) given = *number;
        if (const auto* word = std::get_if<std::string_view>(&absent)) given = std::string(*word);
        if (const auto* built_in = std::get_if<catalogue::BuiltIn>(&absent)) {
            given = defaults::table(std::string(built_in->table));
        }
        if (std::holds_alternative<std::monostate>(given)) continue;
        // Beside the other arguments given, and beside those of the example alone.
        for (Arguments with : {right, parse(entry.texts.example).arguments}) {
            if (with.values.size() <= at) with.values.resize(at + 1);
            with.values[at] = given;
            Arguments without = with;
            without.values[at] = Value{};
            EXPECT_EQ(answer(with), answer(without)) << place_name(entry, at);
            without.values.resize(at);
            if (with.values.size() == at + 1) {
                EXPECT_EQ(answer(with), answer(without)) << place_name(entry, at);
            }
        }
    }
}

TEST(Ranges, EndWhereTheCatalogueSays) {
    std::set<std::string> found;
    for (const Entry* entry : entries()) Driver{*entry, found}.drive_all();
    EXPECT_EQ(found, narrowed_by_others());
}

const std::set<std::string>& narrowed_by_others() {
    static const std::set<std::string> all{
        // whether so few would do within ten million grafts hangs on the take
        "grafts.take",
        "graftsFrom.confidence",
        // the stages lie up to years after the day and weeks before it
        "milestone.graft_date",
        "schedule.graft_date",
        // the offsets of a stage narrow each other, and the graft date narrows all
        "milestone.schedule",
        "schedule.schedule",
        "stageDue.schedule",
        // the work, or the harvest, comes after the day
        "harvestDate.graft_date",
        "crewFinish.start_date",
        // the low of a day narrows its high, and the day above the date
        "heatSum.lows",
        "heatSum.highs",
        "heatDate.lows",
        "heatDate.highs",
        "heatDate.dates",
        "heatDate.from_date",
        // the overlap and the girth narrow the width
        "tape.stub_diameter_cm",
        "tape.tape_width_mm",
        // some cost must be above 0, and low, likely and high narrow each other; a factor ends below a delay
        "paybackOdds.costs",
        "paybackOdds.spreads",
        "swings.costs",
        "swings.spreads",
        // a column of done, or a row of minutes, for each stage; dates lie years after the day
        "dueList.graft_dates",
        "dueList.schedule",
        "ownSchedule.schedule",
        "workload.graft_dates",
        "workload.schedule",
        // the number of packs must fit into a cell
        "packs.pack_size",
    };
    return all;
}

}  // namespace
}  // namespace slipbark::tests

// Drives every argument of every function over the ends of the range that the catalogue says it has: what is inside is
// answered or has no answer, what is just outside is refused by the argument's name, and leaving an optional argument
// out is the same as giving its default.

#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <set>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "formula.hpp"
#include "misuse.hpp"
#include "ranges.hpp"
#include "right_call.hpp"
#include "slipbark/defaults.hpp"

namespace slipbark::tests {
namespace {

using catalogue::Argument;
using catalogue::Arguments;
using catalogue::ColumnDomain;
using catalogue::Domain;
using catalogue::FunctionEntry;
using catalogue::Outcome;
using catalogue::Value;

std::vector<const FunctionEntry*> entries() {
    std::vector<const FunctionEntry*> all;
    for (const auto& area : catalogue::areas()) {
        for (const FunctionEntry& entry : area.entries) {
            if (!takes_anything(entry) && !entry.arguments.empty()) all.push_back(&entry);
        }
    }
    return all;
}

/// Drives one function's arguments and keeps the places where a range is narrowed.
struct Driver {
    const FunctionEntry& entry;
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
        EXPECT_TRUE(entry.arguments[at].range.depends_on_call)
            << place << " " << what << (is_inside ? " is refused as " : " is not refused but ") << name;
    }

    /// `with` puts a number where the argument has one.
    void drive(std::size_t at, const catalogue::Bounds& limits, const std::function<Value(double)>& with) {
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
            if (columns[column].of == ColumnDomain::Of::keywords) {
                Table other = table;
                other.cells[column] = std::string("no such keyword");
                expect(at, other, false, "a wrong keyword");
            }
            if (columns[column].of != ColumnDomain::Of::numbers) continue;
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
            const Domain& range = argument.range;
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
                case Domain::Of::numbers:
                case Domain::Of::dates:
                    drive(at, narrowed(entry, at, right), with);
                    break;
                case Domain::Of::choices:
                    for (const double number : range.choices) {
                        expect(at, with(number), true, to_text(number));
                        expect(at, with(number + 0.5), false, to_text(number + 0.5));
                    }
                    break;
                case Domain::Of::keywords_or_table:
                case Domain::Of::keywords:
                    for (const std::string_view word : range.keywords) {
                        expect(at, std::string(word), true, std::string(word));
                        expect(at, std::string(word) + "x", false, std::string(word) + "x");
                    }
                    if (const auto* table = std::get_if<Table>(&now)) drive_columns(at, *table);
                    break;
                case Domain::Of::table:
                    drive_columns(at, std::get<Table>(now));
                    break;
                case Domain::Of::texts:
                    for (const double code : range.choices) expect(at, code, true, to_text(code));
                    break;
                case Domain::Of::as_given:
                    ADD_FAILURE() << place_name(entry, at) << " has no range";
            }
        }
    }
};

class EachFunction : public testing::TestWithParam<const FunctionEntry*> {};

INSTANTIATE_TEST_SUITE_P(Catalogue, EachFunction, testing::ValuesIn(entries()),
                         [](const auto& entry) { return std::string(entry.param->method); });

TEST_P(EachFunction, AnswersItsExampleWithEveryArgumentGiven) {
    const std::string call = right_call(*GetParam());
    EXPECT_NO_THROW(evaluate(call)) << call;
}

TEST_P(EachFunction, HasTheDefaultsThatTheCatalogueSays) {
    const FunctionEntry& entry = *GetParam();
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
    for (const FunctionEntry* entry : entries()) Driver{*entry, found}.drive_all();
}

/// Adds the arguments for which a misuse is refused that the data call right, or the other way round.
void find_by_misuse(const FunctionEntry& entry, std::set<std::string>& found) {
    const Arguments right = parse(right_call(entry)).arguments;
    for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
        for (const Misuse& misuse : misuses()) {
            Arguments given = right;
            given.values[at] = misuse.value;
            const std::string why = catalogue::why(std::string(entry.method), given);
            const bool refused = !why.empty() && why != entry.texts.no_answer.english();
            if (refused == is_right(entry, at, misuse.value, right)) found.insert(place_name(entry, at));
        }
    }
}

// An argument that several functions of an area have is written once; in one of them it must depend on the call.
TEST(Ranges, DependOnTheCallOnlyWhereTheEntrySaysSo) {
    for (const auto& area : catalogue::areas()) {
        std::map<std::string_view, bool> depends;
        for (const FunctionEntry& entry : area.entries) {
            if (takes_anything(entry)) continue;
            std::set<std::string> found;
            Driver{entry, found}.drive_all();
            find_by_misuse(entry, found);
            for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
                const Argument& argument = entry.arguments[at];
                if (!argument.range.depends_on_call) continue;
                bool& shown = depends[argument.name];
                shown = shown || found.contains(place_name(entry, at));
            }
        }
        for (const auto& [name, shown] : depends) EXPECT_TRUE(shown) << area.name << ", " << name;
    }
}

}  // namespace
}  // namespace slipbark::tests

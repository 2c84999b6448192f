// The reader of formulas, against OpenDocument 1.3 part 4 (OpenFormula): 5.6 "Constant Inline Arrays", 5.7 "Constant
// Errors", 5.8 "References", 5.10.4 "Infix Reference Concatenation (~)", 5.13 "Whitespace"; and what Calc shows, which
// has no brackets round references.
#include "catalogue/formula.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace slipbark::catalogue {
namespace {

using Parts = std::vector<std::pair<Part, std::string>>;

Parts parts(std::string_view formula) {
    Parts made;
    for (const Token& token : tokens(formula)) made.emplace_back(token.part, token.text);
    return made;
}

/// The one token that a text is; `broken` where it is none or several.
Part alone(std::string_view text) {
    const auto all = tokens(text);
    return all.size() == 1 ? all[0].part : Part::broken;
}

std::vector<std::string> texts(const std::vector<Tokens>& all) {
    std::vector<std::string> made;
    made.reserve(all.size());
    for (const Tokens one : all) made.emplace_back(written(one));
    return made;
}

TEST(Tokens, TellTheKindsOfParts) {
    EXPECT_EQ(parts("IF(A1>=1.5E-3; \"a;\"\"b\" ;#N/A)"), (Parts{{Part::function, "IF"},
                                                                 {Part::open, "("},
                                                                 {Part::reference, "A1"},
                                                                 {Part::operation, ">"},
                                                                 {Part::operation, "="},
                                                                 {Part::number, "1.5E-3"},
                                                                 {Part::operation, ";"},
                                                                 {Part::blank, " "},
                                                                 {Part::text, "\"a;\"\"b\""},
                                                                 {Part::blank, " "},
                                                                 {Part::operation, ";"},
                                                                 {Part::error, "#N/A"},
                                                                 {Part::close, ")"}}));
    EXPECT_EQ(parts("LOG10 (x)")[0], (std::pair<Part, std::string>{Part::function, "LOG10"}));
    EXPECT_EQ(parts("take_by_year.2*ESPA\xc3\x91"
                    "A"),
              (Parts{{Part::name, "take_by_year.2"},
                     {Part::operation, "*"},
                     {Part::name,
                      "ESPA\xc3\x91"
                      "A"}}));
    EXPECT_TRUE(parts("").empty());
}

TEST(Tokens, TellErrors) {
    for (const char* error : {"#N/A", "#DIV/0!", "#REF!", "#NAME?", "#VALUE!", "#NUM!", "#NULL!"}) {
        EXPECT_EQ(alone(error), Part::error) << error;
    }
    EXPECT_EQ(parts("#N/A/2"), (Parts{{Part::error, "#N/A"}, {Part::operation, "/"}, {Part::number, "2"}}));
    EXPECT_EQ(alone("#oops"), Part::broken);
}

TEST(Tokens, TellReferences) {
    for (const char* one :
         {"A1", "$C$5", "AMJ1048576", "A1:B7", "A:C", "$A:$C", "1:3", "Plan.C5", "$Plan.C5:D7", "Plan.C5:Take.D7",
          "$'My plan'.C5", "'It''s'.C5:D7", "'a.b(c'.A:B", "[.C5]", "[.C5:.D7]", "[$'a]b'.C5]", "[.#REF!5]"}) {
        EXPECT_EQ(alone(one), Part::reference) << one;
    }
    for (const char* one : {"trees", "A1B", "ABCD1", "A12345678", "A", "$", "year_1", "'label'"}) {
        EXPECT_EQ(alone(one), Part::name) << one;
    }
    // A union, and a range whose end is calculated.
    EXPECT_EQ(parts("A1:A3~C1"), (Parts{{Part::reference, "A1:A3"}, {Part::operation, "~"}, {Part::reference, "C1"}}));
    EXPECT_EQ(parts("A1:INDEX(A:A;3)")[2], (std::pair<Part, std::string>{Part::function, "INDEX"}));
    EXPECT_EQ(parts("A1:LOG10(5)")[2], (std::pair<Part, std::string>{Part::function, "LOG10"}));
}

TEST(Tokens, CountTheBracketsAroundThem) {
    std::string depths;
    for (const Token& token : tokens("F(A1;{1|2};G(2))")) depths += static_cast<char>('0' + token.depth);
    EXPECT_EQ(depths, "001112221111210");
}

TEST(Tokens, MarkWhatNoFormulaHolds) {
    const auto broken = [](std::string_view formula) {
        std::string all;
        for (const Token& token : tokens(formula))
            all += token.part == Part::broken ? std::string(token.text) + " " : "";
        return all;
    };
    EXPECT_EQ(broken("F(1;2"), "( ");
    EXPECT_EQ(broken("F(1))"), ") ");
    EXPECT_EQ(broken("F({1;2)"), "( { ) ");
    EXPECT_EQ(broken("1&\"open"), "\"open ");
    EXPECT_EQ(broken("'open.A1"), "'open.A1 ");
    EXPECT_EQ(broken("[.A1"), "[.A1 ");
    EXPECT_EQ(broken("2@3"), "@ ");
    EXPECT_EQ(broken("12A1+1"), "12A1 ");
    EXPECT_EQ(broken("F(\")\";{\"}\"})"), "");
}

TEST(Reference, IsTakenApart) {
    const auto whole = reference("$'It''s here'.$C$5:D7");
    ASSERT_TRUE(whole);
    EXPECT_EQ(unquoted(whole->first.sheet), "It's here");
    EXPECT_EQ(whole->first.address, "$C$5");
    EXPECT_EQ(whole->last.value().sheet, "");
    EXPECT_EQ(whole->last.value().address, "D7");
    const auto stored = reference("[$Plan.C5:.D7]");
    ASSERT_TRUE(stored);
    EXPECT_EQ(stored->first.sheet, "Plan");
    EXPECT_EQ(stored->first.address, "C5");
    EXPECT_EQ(stored->last.value().address, "D7");
    EXPECT_EQ(reference("B2").value().first.address, "B2");
    EXPECT_FALSE(reference("B2").value().last);
    for (const char* none : {"", "B2+1", "trees", "A", "1.5", "[.#REF!5]", "A1:", "A1:B", "[]", "B2 "}) {
        EXPECT_FALSE(reference(none)) << none;
    }
}

TEST(Call, HasItsArgumentsAndWhatFollows) {
    const auto all = tokens("MAX (A1; MIN(2;3) ;{1;2|3;4};;\"a;b\")+1");
    const auto found = call(all);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->function, "MAX");
    EXPECT_EQ(texts(found->arguments), (std::vector<std::string>{"A1", "MIN(2;3)", "{1;2|3;4}", "", "\"a;b\""}));
    EXPECT_EQ(written(found->rest), "+1");
    EXPECT_TRUE(call(tokens("NOW( )")).value().arguments.empty());
    EXPECT_EQ(call(tokens("F(;)")).value().arguments.size(), 2U);
    for (const char* none : {"", "MAX", "A1+MAX(1)", "MAX(1", "MAX({1)", "(1)"})
        EXPECT_FALSE(call(tokens(none))) << none;
}

TEST(ArrayRows, AreTheCellsOfAnInlineArray) {
    const auto all = tokens("{1; \"a|b\"|DATE(2027;9;6);{2}}");
    const auto rows = array_rows(all);
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_EQ(texts(rows[0]), (std::vector<std::string>{"1", "\"a|b\""}));
    EXPECT_EQ(texts(rows[1]), (std::vector<std::string>{"DATE(2027;9;6)", "{2}"}));
    for (const char* none : {"", "1", "(1)", "{1}+{2}", "{1", "{1)"})
        EXPECT_TRUE(array_rows(tokens(none)).empty()) << none;
}

TEST(Literal, IsANumberATextAnArrayOrNothing) {
    EXPECT_EQ(literal("12.5"), Value{12.5});
    EXPECT_EQ(literal("-1e3"), Value{-1000.0});
    EXPECT_EQ(literal(" 15% "), Value{0.15});
    EXPECT_EQ(literal("\"room\""), Value{std::string("room")});
    EXPECT_EQ(literal(R"("say ""no""")"), Value{std::string(R"(say "no")")});
    EXPECT_EQ(literal("\"\""), Value{std::string()});
    EXPECT_EQ(literal(""), Value{});
    for (const char* none :
         {"B2", "1+2", "trees", "inf", "\"a\"&\"b\"", "--1", "-", "%", "1E999", "{1;2|3}", "{1;A1}"}) {
        EXPECT_FALSE(literal(none)) << none;
    }
    const auto block = std::get<Table>(literal("{1;\"a\"|;\"\"}").value());
    EXPECT_EQ(block.columns, 2U);
    EXPECT_EQ(block.cells, (std::vector<Cell>{1.0, std::string("a"), Cell(), Cell()}));
}

TEST(FindCall, ReadsStoredAndTypedNames) {
    const auto stored = find_call("=SLIPBARK.REWORK.STICKS(B2;$Plan.B3; \"a;b\" ;{1;2|3;4};)");
    ASSERT_TRUE(stored);
    EXPECT_EQ(stored->entry->method, "sticks");
    EXPECT_EQ(stored->arguments, (std::vector<std::string>{"B2", "$Plan.B3", "\"a;b\"", "{1;2|3;4}", ""}));
    EXPECT_EQ(find_call("=1+rework.sticks(SUM(A1;A2);2;9)")->arguments.at(0), "SUM(A1;A2)");
    EXPECT_TRUE(find_call("=REWORK.VERSION()")->arguments.empty());
    EXPECT_EQ(find_call("=REWORK.NOSUCH(REWORK.TAKE(1;2))")->entry->method, "take");
}

TEST(FindCall, FindsNoneWhereThereIsNone) {
    EXPECT_FALSE(find_call("=SUM(A1:A3)"));
    EXPECT_FALSE(find_call("=\"REWORK.STICKS(1;2;3)\""));
    EXPECT_FALSE(find_call("='REWORK.STICKS(1)'.A1"));
    EXPECT_FALSE(find_call("=REWORK.NOSUCH(1)"));
    EXPECT_FALSE(find_call("=MYREWORK.STICKS(1;2;3)"));
    EXPECT_FALSE(find_call("=REWORK.STICKS(1;2"));
    EXPECT_FALSE(find_call(""));
}

TEST(OwnName, IsWhatFollowsThePrefix) {
    EXPECT_EQ(own_name("REWORK.STICKS"), "STICKS");
    EXPECT_EQ(own_name("slipbark.rework.sticks"), "sticks");
    EXPECT_EQ(own_name("STICKS"), "");
    EXPECT_EQ(find("SLIPBARK.REWORK.STICKS"), find("sticks"));
}

TEST(WithService, ChangesNamesOfFunctionsOnly) {
    EXPECT_EQ(with_service("=REWORK.WHY(\"REWORK.TAKE(\";A1)&REWORK.VERSION ()"),
              "=SLIPBARK.REWORK.WHY(\"REWORK.TAKE(\";A1)&SLIPBARK.REWORK.VERSION ()");
    EXPECT_EQ(with_service("=SLIPBARK.REWORK.TAKE(1;2)"), "=SLIPBARK.REWORK.TAKE(1;2)");
    EXPECT_EQ(with_service("no formula (at \"all"), "no formula (at \"all");
}

std::string stored(const std::string& typed) {
    return stored_formula(typed, [](const std::string& name) -> std::string {
        if (name == "trees" || name == "graft_date") return name;
        throw std::logic_error(name);
    });
}

TEST(StoredFormula, PutsAddressesIntoBrackets) {
    EXPECT_EQ(stored("=C5+$D$6"), "[.C5]+[.$D$6]");
    EXPECT_EQ(stored("=SUM(B7:F20)"), "SUM([.B7:.F20])");
    EXPECT_EQ(stored("=Plan.C5*$Plan.C$6"), "[$Plan.C5]*[$Plan.C$6]");
    EXPECT_EQ(stored("=SUM(Take.I5:I32)"), "SUM([$Take.I5:.I32])");
    EXPECT_EQ(stored("='It''s'.A1:'b c'.B2"), "[$'It''s'.A1:$'b c'.B2]");
    EXPECT_EQ(stored("=SUM(A:C~1:3)"), "SUM([.A:.C]~[.1:.3])");
    EXPECT_EQ(stored("=SUM(A1:INDEX(A:A;3))"), "SUM([.A1]:INDEX([.A:.A];3))");
}

TEST(StoredFormula, NamesTheServiceOfTheExtensionsFunctions) {
    EXPECT_EQ(stored("=REWORK.STICKS(trees;2;9;0.15)"), "SLIPBARK.REWORK.STICKS(trees;2;9;0.15)");
    EXPECT_EQ(stored("=IF(LOG10(trees)>1;REWORK.VERSION();\"\")"), "IF(LOG10(trees)>1;SLIPBARK.REWORK.VERSION();\"\")");
}

TEST(StoredFormula, LeavesTextsNumbersAndErrorsAlone) {
    EXPECT_EQ(stored("=\"C5 and trees\"&1.5E3"), "\"C5 and trees\"&1.5E3");
    EXPECT_EQ(stored(R"(="say ""C5""")"), R"("say ""C5""")");
    EXPECT_EQ(stored("=SUM({1;2|3;4})"), "SUM({1;2|3;4})");
    EXPECT_EQ(stored("=IFNA(#N/A;#DIV/0!)"), "IFNA(#N/A;#DIV/0!)");
}

TEST(StoredFormula, StaysAsItIsWhenReadAgain) {
    for (const char* typed : {"=REWORK.STICKS(Plan.C5;'It''s'.A1:B2;A:A)", "=SUM(A1~B2)", "=trees%&\"[.A1]\""}) {
        EXPECT_EQ(stored(stored(typed)), stored(typed)) << typed;
    }
}

TEST(StoredFormula, RefusesWhatCannotBeRead) {
    for (const char* wrong : {"=tree+1", "=\"open", "=SUM(1", "=SUM(1))", "=SUM({1)}", "=2@3", "=[.A1"}) {
        EXPECT_THROW(stored(wrong), std::logic_error) << wrong;
    }
}

}  // namespace
}  // namespace slipbark::catalogue

// SENTENCE. Months, signs and plural rules are those of the languages: English as the workbooks have it, Spanish after
// the Fundéu (months in small letters, abbreviated; blanks between thousands from five digits on, ISO 80000-1); rules
// of plurals after the GNU gettext manual, "Additional functions for plural forms".

#include "catalogue/sentence.hpp"

#include <gtest/gtest.h>

#include "catalogue/formats.hpp"
#include "formula.hpp"

namespace slipbark::tests {

using catalogue::Value;

namespace {

std::string sentence(const std::string& pattern, std::vector<Value> places) {
    return catalogue::sentence(pattern, {std::move(places), usual_null_date()});
}

std::string refusal(const std::string& pattern, std::vector<Value> places) {
    try {
        return "shows " + sentence(pattern, std::move(places));
    } catch (const bad_argument& bad) {
        return bad.what();
    }
}

TEST(Sentence, PutsNumbersDaysAndListsIn) {
    EXPECT_EQ(sentence("Order {1:count} sticks for {2:count} grafts by {3:date}.", {1840.0, 3200.4, 46650.0}),
              "Order 1,840 sticks for 3,200 grafts by 20 Sep 2027.");
    EXPECT_EQ(sentence("{1} of {2} ({3:percent}), {4:money}.", {0.5, "seven", 0.125, -21448.38}),
              "0.5 of seven (12.5 %), -21,448.");
    EXPECT_EQ(sentence("{1:money}, {2:money}, {3:money}", {0.5, 99.999, 12.0}), "0.50, 100, 12");
    EXPECT_EQ(sentence("{1:list}; {1:list}", {Table(1, {"a", {}, 2.0, "c"})}), "a, 2 and c; a, 2 and c");
    EXPECT_EQ(sentence("{1:list}", {Table(1, {"a", "b"})}), "a and b");
    EXPECT_EQ(sentence("{1:list}", {"a"}), "a");
    EXPECT_EQ(sentence("{1:list}.", {Table(2, {{}, {}})}), ".");
    EXPECT_EQ(sentence("{2}{1}", {Table(1, {7.0}), "x"}), "x7");
    EXPECT_EQ(sentence("No place.", {}), "No place.");
}

TEST(Sentence, PutsAnEmptyTextInAsItIs) {
    EXPECT_EQ(sentence("a{1}b{2:count}c{3:date}d{4:money}e{5:percent}f", {"", "", "", Value{}, ""}), "abcdef");
}

TEST(Sentence, TakesTheFormThatGoesWithACount) {
    const std::string days = "{1:count} {1|day|days}";
    EXPECT_EQ(sentence(days, {1.0}), "1 day");
    for (const double count : {0.0, 2.0, 11.0, 1.5}) EXPECT_EQ(sentence("{1|day|days}", {count}), "days") << count;
    EXPECT_EQ(sentence("{1|day|days}", {-1.0}), "day");
    EXPECT_EQ(sentence("{1|is|are} {2}", {1.0, "here"}), "is here");
    EXPECT_EQ(sentence("es:{1:count} {1|día|días}", {1.0}), "1 día");
    EXPECT_EQ(sentence("es:{1:count} {1|día|días}", {30.0}), "30 días");
    // In French 0 goes with the singular.
    EXPECT_EQ(sentence("fr:{1:count} {1|arbre|arbres}", {0.0}), "0 arbre");
    EXPECT_EQ(sentence("fr:{1:count} {1|arbre|arbres}", {12000.0}), "12\u00a0000 arbres");
}

TEST(Sentence, SpeaksThePatternsLanguage) {
    EXPECT_EQ(sentence("es:Pedir {1:count} varetas antes del {2:date}: {3:percent}, {4:money}, {5}, {6:list}.",
                       {21840.0, 46650.0, 0.125, 12.5, 0.5, Table(1, {"a", "b", "c"})}),
              "Pedir 21\u00a0840 varetas antes del 20 sep 2027: 12,5 %, 12,50, 0,5, a, b y c.");
    EXPECT_EQ(sentence("es:{1:count}", {1840.0}), "1840");
    EXPECT_EQ(sentence("en:{1:count}", {1840.0}), "1,840");
    // No language that is built in: it belongs to the sentence.
    EXPECT_EQ(sentence("Note: {1}", {1.0}), "Note: 1");
    EXPECT_EQ(sentence("xx:{1}", {1.0}), "xx:1");
}

TEST(Sentence, RefusesPlacesThatDoNotGoWithThePattern) {
    EXPECT_EQ(refusal("{1} and {3}", {1.0, 2.0}), "pattern has the place {3}, and 2 are given.");
    EXPECT_EQ(refusal("{1}", {1.0, 2.0}), "pattern does not use place 2, which is given.");
    EXPECT_EQ(refusal("none", {1.0}), "pattern does not use place 1, which is given.");
    EXPECT_EQ(refusal("{1|day}", {1.0}), "pattern has 1 forms in place {1}: give 2.");
    EXPECT_EQ(refusal("{1|day|days|dayss}", {1.0}), "pattern has 3 forms in place {1}: give 2.");
    EXPECT_EQ(refusal("{1:count}", {"many"}), "places: place {1} was the text \"many\": give a number.");
    EXPECT_EQ(refusal("{1}", {Table(1, {1.0, 2.0})}), "places: place {1} was a range: give one cell.");
    for (const char* bad : {"{", "{}", "{0}", "{x}", "{1:}", "{1:weight}", "{1 }", "{-1}", "{1", "{1:date|a}"}) {
        EXPECT_TRUE(refusal(bad, {1.0}).starts_with("pattern has \"")) << bad << ": " << refusal(bad, {1.0});
    }
    EXPECT_NE(refusal("{1:date}", {0.0}).find("give a date"), std::string::npos) << refusal("{1:date}", {0.0});
}

// GNU gettext manual: one form (Japanese), two (English, French), three (Polish, Latvian), four (Slovenian).
TEST(PluralRules, GiveTheFormsOfTheManual) {
    using catalogue::plural_form;
    const auto forms = [](const char* rule, std::initializer_list<unsigned long> counts) {
        std::string all;
        for (const auto count : counts) all += std::to_string(plural_form(std::string_view(rule), count));
        return all;
    };
    EXPECT_EQ(forms("0", {0, 1, 2}), "000");
    EXPECT_EQ(forms("n != 1", {0, 1, 2}), "101");
    EXPECT_EQ(forms("n>1", {0, 1, 2}), "001");
    EXPECT_EQ(forms("n%10==1 && n%100!=11 ? 0 : n != 0 ? 1 : 2", {0, 1, 11, 21, 101, 111}), "201001");
    EXPECT_EQ(forms("n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2", {0, 1, 2, 5, 12, 22, 112}),
              "2012212");
    EXPECT_EQ(forms("n%100==1 ? 0 : n%100==2 ? 1 : n%100==3 || n%100==4 ? 2 : 3", {1, 2, 3, 4, 5, 101, 104}),
              "0122302");
    EXPECT_THROW(plural_form(std::string_view("n !"), 1), std::logic_error);
    EXPECT_THROW(plural_form(std::string_view("(n"), 1), std::logic_error);
    EXPECT_THROW(plural_form(std::string_view("n % 0"), 1), std::logic_error);
}

}  // namespace
}  // namespace slipbark::tests

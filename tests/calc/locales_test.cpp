// Every function's example, in the grammar of files and typed as a person types it, where the office speaks another
// locale: the decimal sign follows it, names and results must not.

#include <algorithm>
#include <boost/algorithm/string/replace.hpp>
#include <charconv>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "folder.hpp"
#include "formula.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

struct Locale {
    const char* name;
    const char* tag;
    char decimal;
    bool english_names;
};

class Locales : public testing::TestWithParam<Locale> {};

INSTANTIATE_TEST_SUITE_P(Calc, Locales,
                         testing::Values(Locale{"German", "de-DE", ',', false}, Locale{"Turkish", "tr-TR", ',', false},
                                         Locale{"GermanWithEnglishNames", "de-DE", ',', true}),
                         [](const auto& locale) { return std::string(locale.param.name); });

/// `formula` with the decimal sign of a locale in its numbers.
std::string localised(const std::string& formula, char decimal) {
    return catalogue::rewritten(formula, [decimal](const catalogue::Token& token) {
        std::string text(token.text);
        if (token.part == catalogue::Part::number) std::replace(text.begin(), text.end(), '.', decimal);
        return text;
    });
}

catalogue::Outcome outcome_of(const Shown& shown) {
    if (shown.error != 0) return "Err:" + std::to_string(shown.error);
    if (shown.is_text) return shown.text;
    return shown.number;
}

TEST_P(Locales, ShowEveryExample) {
    const Folder folder;
    const Locale& locale = GetParam();
    make_profile(folder / "profile", {.locale = locale.tag, .english_names = locale.english_names, .semicolons = true});
    const Office office(start({.bundled = bundled(), .profile = folder / "profile", .words = {}}));
    const Book book = office.new_book(false);
    const Keyboard keyboard(office, book);
    // The locale has taken effect: a number shows its decimal sign.
    book.set("C1", 0.5);
    EXPECT_EQ(book.shown("C1").text, std::string("0") + locale.decimal + "5");
    int row = 0;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            const std::string example = "=" + std::string(entry.texts.example);
            const std::string at = std::to_string(++row);
            book.set_formula("A" + at, example);
            EXPECT_TRUE(shows(outcome_of(book.shown("A" + at)), entry.texts.shows)) << example;
            const std::string typed = localised(example, locale.decimal);
            keyboard.type("B" + at, typed);
            EXPECT_TRUE(shows(outcome_of(book.shown("B" + at)), entry.texts.shows)) << typed;
            EXPECT_EQ(book.formula("A" + at), book.formula("B" + at));
        }
    }
}

}  // namespace
}  // namespace slipbark::tests

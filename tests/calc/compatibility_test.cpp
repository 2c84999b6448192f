// Sheet Compatibility of the plan: what is known of three joins that are published, and a line of one's own before it.
#include <string>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

Book opened() { return calc().open_url(url_of("rework-plan"), true); }

void choose(const Book& book, const char* variety, const char* old, const char* stock) {
    book.set_text("Compatibility.C6", variety);
    book.set_text("Compatibility.C7", old);
    book.set_text("Compatibility.C8", stock);
}

std::string shown(const Book& book, const char* cell) { return book.shown(std::string("Compatibility.") + cell).text; }

TEST(Compatibility, SaysWhatIsKnownOfATreeAndItsRootstock) {
    const Book book = opened();
    // University of California, Fruit & Nut Research and Information Center: almonds on Nemaguard peach; J. Connell:
    // Nonpareil on Marianna plum only with another variety between.
    choose(book, "almond", "almond", "plum");
    EXPECT_EQ(shown(book, "C11"), "works");
    EXPECT_EQ(shown(book, "C12"), "works with an interstem");
    choose(book, "almond", "mango", "");
    EXPECT_EQ(shown(book, "C11"), "unknown") << "a join that no line speaks of";
    choose(book, "almond", "peach", "");
    EXPECT_EQ(shown(book, "C11"), "works");
    EXPECT_EQ(shown(book, "C12"), "");
    EXPECT_TRUE(says(shown(book, "B3"), "grows on these trees"));
    // From memory, Hartmann & Kester, Plant Propagation: apples on pears fail. The worse of two joins decides.
    choose(book, "apple", "apple", "pear");
    EXPECT_EQ(shown(book, "C11"), "works");
    EXPECT_EQ(shown(book, "C12"), "known to fail");
    EXPECT_TRUE(says(shown(book, "B3"), "Known to fail"));
    EXPECT_TRUE(says(book.shown("Plan.B38").text, "Known to fail")) << "the plan says it, too";
}

TEST(Compatibility, OwnLinesOutrankItsOwn) {
    const Book book = opened();
    choose(book, "pecan", "hickory", "");
    EXPECT_EQ(shown(book, "C11"), "unknown");
    book.set_text("Compatibility.B17", "pecan");
    book.set_text("Compatibility.C17", "hickory");
    EXPECT_TRUE(says(shown(book, "B4"), "Sheet line 17: choose what is known"));
    book.set_text("Compatibility.D17", "works");
    EXPECT_EQ(shown(book, "B4"), "");
    EXPECT_EQ(shown(book, "C11"), "works");
}

TEST(Compatibility, AsksUntilBothAreChosen) {
    const Book book = opened();
    choose(book, "", "", "");
    EXPECT_TRUE(says(book.shown("Plan.B38").text, "Does the new variety grow on these trees?"));
    choose(book, "toffee", "citrus", "");
    EXPECT_TRUE(says(shown(book, "B4"), "New variety: choose one from the table below."));
}

}  // namespace
}  // namespace slipbark::tests

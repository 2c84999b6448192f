// The workbook spring-heat, filled in as growers and strangers fill it in.
#include <algorithm>
#include <com/sun/star/table/CellContentType.hpp>

#include "calc.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

/// The line of sheet Record for a day, counted from the first one.
std::string reading(const char* column, double day) {
    return "Record." + std::string(column) + std::to_string(6 + static_cast<int>(day));
}

void clear(const Book& book, double day) {
    book.set_text(reading("C", day), "");
    book.set_text(reading("D", day), "");
}

TEST(SpringHeat, NeedsNoReadingBeforeTheGrafting) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const double callus = number(book, "callus_date");
    const double heat = number(book, "heat_sum");
    const std::string headline = text(book, "headline");
    EXPECT_TRUE(says(headline, "callus should have formed on")) << headline;
    const double days = number(book, "graft_date") - number(book, "start_date");
    for (int day = 0; day < days; ++day) clear(book, day);
    EXPECT_EQ(number(book, "callus_date"), callus);
    EXPECT_EQ(number(book, "heat_sum"), heat);
    EXPECT_EQ(text(book, "headline"), headline);
    EXPECT_EQ(book.shown("Heat.I7").text, "") << "nothing is to be corrected";
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(SpringHeat, AGapAfterTheCallusDateLeavesIt) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const double callus = number(book, "callus_date");
    const std::string headline = text(book, "headline");
    clear(book, callus - number(book, "start_date") + 5);
    EXPECT_EQ(number(book, "callus_date"), callus);
    EXPECT_EQ(text(book, "headline"), headline);
    EXPECT_NE(book.shown("Heat.I8").text, "") << "the sum is that up to the gap";
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(SpringHeat, AGapBeforeTheCallusDateIsNamed) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const double day = number(book, "graft_date") - number(book, "start_date") + 5;  // 25 September 2027
    const double heat = book.shown(reading("F", day - 1)).number;
    const double low = book.shown(reading("C", day)).number;
    const double high = book.shown(reading("D", day)).number;
    const auto expect_named = [&](const std::string& what) {
        const std::string headline = text(book, "headline");
        EXPECT_TRUE(says(headline, "The reading of 25 Sep 2027 is missing or does not fit")) << what << headline;
        EXPECT_FALSE(says(headline, "should have formed")) << what << headline;
        EXPECT_FALSE(says(headline, "should not have formed")) << what << headline;
        EXPECT_NE(book.shown(reading("H", day)).text, "") << what;
        EXPECT_EQ(text(book, "callus_date"), "not known") << what;
        EXPECT_NEAR(number(book, "heat_sum"), heat, 1e-9) << what;
        EXPECT_EQ(book.errors(), std::vector<std::string>()) << what;
    };
    clear(book, day);
    expect_named("blank");
    book.set_text(reading("C", day), "n/a");
    book.set_text(reading("D", day), "-");
    expect_named("texts");
    book.set(reading("C", day), high);
    book.set(reading("D", day), low);
    expect_named("low above high");
    book.set(reading("D", day), 1e9);
    expect_named("huge");
    book.set(reading("C", day), low);
    book.set(reading("D", day), high);
    EXPECT_TRUE(says(text(book, "headline"), "callus should have formed on"));
}

TEST(SpringHeat, CallsTheTargetAnAssumptionWhereItIsOne) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    EXPECT_TRUE(says(text(book, "headline"), "an assumed sum of 80 degree-days")) << text(book, "headline");
    book.set(book.named("target_sum"), 90);
    EXPECT_FALSE(says(text(book, "headline"), "assum")) << text(book, "headline");
    EXPECT_TRUE(says(text(book, "headline"), "90 degree-days (your own figure)")) << text(book, "headline");
    book.set_text(book.named("target_source"), "mean of three seasons");
    EXPECT_TRUE(says(text(book, "headline"), "90 degree-days (mean of three seasons)")) << text(book, "headline");
}

TEST(SpringHeat, AsksWhereDegreesAreLeftOver) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    book.set(book.named("base_temp"), 13);
    book.set(book.named("upper_temp"), 35);
    book.set(book.named("target_sum"), 80);
    const double callus = number(book, "callus_date");
    book.set_text(book.named("scale"), "F");
    EXPECT_TRUE(says(text(book, "headline"), "13 degrees F: did you mean degrees C?")) << text(book, "headline");
    EXPECT_FALSE(says(text(book, "headline"), "formed")) << text(book, "headline");
    EXPECT_TRUE(says(text(book, "check_entries"), "degree-days C?")) << text(book, "check_entries");
    EXPECT_TRUE(book.shown(book.named("callus_date")).is_text) << "no date is told";
    // Readings in degrees F, and all of it told in them, are the same heat: 13, 35 and 80 degrees C.
    book.set(book.named("base_temp"), 55.4);
    book.set(book.named("upper_temp"), 95);
    book.set(book.named("target_sum"), 144);
    EXPECT_TRUE(says(text(book, "headline"), "highest reading")) << text(book, "headline");
    for (int day = 0; day < 120; ++day) {
        for (const char* column : {"C", "D"}) {
            book.set(reading(column, day), 32 + 1.8 * book.shown(reading(column, day)).number);
        }
    }
    EXPECT_EQ(number(book, "callus_date"), callus);
    EXPECT_EQ(text(book, "check_entries"), "");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

// The other way round: thresholds in degrees F, left over where the readings turn to degrees C.
TEST(SpringHeat, AsksWhereDegreesFAreLeftOver) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    book.set_text(book.named("scale"), "F");
    for (const auto& [name, value] :
         std::map<std::string, double>{{"base_temp", 55.4}, {"upper_temp", 95}, {"target_sum", 144}}) {
        book.set(book.named(name), value);
    }
    for (int day = 0; day < 120; ++day) {
        for (const char* column : {"C", "D"}) {
            book.set(reading(column, day), 32 + 1.8 * book.shown(reading(column, day)).number);
        }
    }
    const double callus = number(book, "callus_date");
    EXPECT_EQ(text(book, "check_entries"), "");

    book.set_text(book.named("scale"), "C");
    EXPECT_TRUE(says(text(book, "headline"), "degrees C: did you mean degrees F?")) << text(book, "headline");
    EXPECT_TRUE(says(text(book, "check_entries"), "degrees C: did you mean degrees F?"));
    EXPECT_TRUE(book.shown(book.named("callus_date")).is_text) << "no date is told";
    // With the thresholds set right it is the heat wanted that is asked about, then the readings.
    book.set(book.named("base_temp"), 13);
    book.set(book.named("upper_temp"), 35);
    EXPECT_TRUE(says(text(book, "check_entries"), "degree-days F?")) << text(book, "check_entries");
    book.set(book.named("target_sum"), 80);
    EXPECT_TRUE(says(text(book, "headline"), "reading")) << text(book, "headline");
    EXPECT_TRUE(book.shown(book.named("callus_date")).is_text) << "no date is told";
    for (int day = 0; day < 120; ++day) {
        for (const char* column : {"C", "D"}) {
            book.set(reading(column, day), (book.shown(reading(column, day)).number - 32) / 1.8);
        }
    }
    EXPECT_EQ(number(book, "callus_date"), callus);
    EXPECT_EQ(text(book, "check_entries"), "");
}

TEST(SpringHeat, SuggestsThresholdsByCropInTheDegreesChosen) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    // Range of growth of citrus: 13 to 35 degrees C (NSW DPI, Primefact 749, 2007).
    EXPECT_EQ(number(book, "base_temp"), 13);
    EXPECT_EQ(number(book, "upper_temp"), 35);
    book.set_text(book.named("scale"), "F");
    EXPECT_NEAR(number(book, "base_temp"), 55.4, 1e-9);
    EXPECT_NEAR(number(book, "upper_temp"), 95, 1e-9);
    book.set_text(book.named("scale"), "C");
    book.set_text(book.named("crop"), "apple, pear");
    EXPECT_EQ(number(book, "base_temp"), 0);
    EXPECT_EQ(number(book, "upper_temp"), 32);
    EXPECT_EQ(text(book, "target_source"), "assumption");
    EXPECT_EQ(book.errors(), std::vector<std::string>());
}

TEST(SpringHeat, TakesTheWordsThatItShows) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const auto shown_beside = [&](const std::string& name) {
        const std::string cell = book.named(name);  // Heat.C15
        return book.shown("Heat.D" + cell.substr(std::string("Heat.C").size())).text;
    };
    const auto each = [](const std::string& list) {
        std::vector<std::string> words;
        for (std::size_t from = 0; from < list.size();) {
            const std::size_t to = std::min(list.find(", ", from), list.size());
            words.push_back(list.substr(from, to - from));
            from = to + 2;
        }
        return words;
    };
    for (const char* name : {"method", "cutoff"}) {
        const auto words = each(shown_beside(name));
        ASSERT_EQ(words.size(), 3U) << name;
        for (const std::string& word : words) {
            book.set_text(book.named(name), word);
            EXPECT_TRUE(says(text(book, "headline"), "callus should have formed on")) << word;
            EXPECT_EQ(text(book, "check_entries"), "") << word;
            EXPECT_EQ(book.errors(), std::vector<std::string>()) << word;
        }
    }
}

TEST(SpringHeat, TakesDatesAsItPrintsThem) {
    const Book book = calc().open_url(url_of("spring-heat"), true);
    const double callus = number(book, "callus_date");
    const std::string headline = text(book, "headline");
    book.set_text(book.named("graft_date"), "Mon 20 Sep 2027");
    book.set_text(book.named("start_date"), "1 Sep 2027");
    EXPECT_TRUE(book.cell(book.named("graft_date"))->getType() == css::table::CellContentType_TEXT);
    EXPECT_EQ(number(book, "callus_date"), callus);
    EXPECT_EQ(text(book, "headline"), headline);
    EXPECT_EQ(text(book, "check_entries"), "");
    for (const char* none : {"20 Spt 2027", "20/9", "September", "20 Sep 1027", "2027"}) {
        book.set_text(book.named("graft_date"), none);
        EXPECT_TRUE(says(text(book, "check_entries"), "give a date")) << none << text(book, "check_entries");
        EXPECT_EQ(book.errors(), std::vector<std::string>()) << none;
    }
}

TEST(SpringHeat, EveryWrongEntryGetsASentence) {
    for (const char* input :
         {"graft_date", "start_date", "scale", "base_temp", "upper_temp", "method", "cutoff", "target_sum"}) {
        const Book book = calc().open_url(url_of("spring-heat"), true);
        const std::string address = book.named(input);
        const auto expect_sentence = [&](const std::string& what) {
            const std::string said = text(book, "check_entries");
            EXPECT_TRUE(said.size() > 20 && (said.ends_with(".") || said.ends_with("?")))
                << input << " " << what << ": " << said;
            EXPECT_FALSE(says(text(book, "headline"), "should")) << input << " " << what;
            EXPECT_EQ(book.errors(), std::vector<std::string>()) << input << " " << what;
        };
        if (input != std::string("upper_temp")) {  // which may be blank
            book.set_text(address, "");
            expect_sentence("blank");
        }
        book.set_text(address, "abc");
        expect_sentence("a text");
        book.set(address, -1000);
        expect_sentence("negative");
        book.set(address, 1e12);
        expect_sentence("huge");
    }
}

}  // namespace
}  // namespace slipbark::tests

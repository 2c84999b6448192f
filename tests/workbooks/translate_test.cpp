// A workbook said in another language: what its formulas become. The messages are made here as msgfmt would make them
// (GNU gettext manual, "The Format of GNU MO Files").

#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <map>
#include <sstream>
#include <string>

#include "composer/pot.hpp"
#include "composer/sheet.hpp"
#include "composer/text_collector.hpp"
#include "composer/translate.hpp"

namespace slipbark::compose {
namespace {

using boost::property_tree::ptree;

std::string little_endian(std::size_t number) {
    std::string bytes;
    for (int byte = 0; byte < 4; ++byte) bytes += static_cast<char>(number >> (8 * byte) & 0xffU);
    return bytes;
}

std::string mo(const std::map<std::string, std::string>& messages) {
    constexpr std::size_t header = 28;
    std::size_t at = header + 16 * messages.size();
    std::string tables;
    std::string texts;
    const auto add = [&](const std::string& text) {
        tables += little_endian(text.size()) + little_endian(at);
        texts += text + '\0';
        at += text.size() + 1;
    };
    for (const auto& [english, translation] : messages) add(english);
    for (const auto& [english, translation] : messages) add(translation);
    return "\xde\x12\x04\x95" + little_endian(0) + little_endian(messages.size()) + little_endian(header) +
           little_endian(header + 8 * messages.size()) + little_endian(0) + little_endian(0) + tables + texts;
}

using Texts = std::map<std::string, std::string>;

struct Book {
    explicit Book(const Texts& translations) : messages(mo(translations)), texts(catalogue::Language("es", messages)) {}

    /// The element of the cell that names `id`.
    std::string formula(const std::string& name = "C3") {
        for (const auto& [address, formula] : written()) {
            if (address == name) return formula;
        }
        return "no such cell";
    }

    std::map<std::string, std::string> written() {
        std::istringstream in(book.write(texts));
        read_xml(in, tree);
        std::map<std::string, std::string> found;
        int row = 0;
        for (const auto& [tag, line] : tree.get_child("office:document.office:body.office:spreadsheet.table:table")) {
            if (tag != "table:table-row") continue;
            ++row;
            int column = 0;
            for (const auto& [inner, cell] : line) {
                if (inner != "table:table-cell") continue;
                const int repeated = cell.get("<xmlattr>.table:number-columns-repeated", 1);
                column += repeated;
                const std::string formula = cell.get("<xmlattr>.table:formula", "");
                found[Address(column, row).text()] = formula.empty() ? cell.get("text:p", "") : formula;
            }
        }
        return found;
    }

    std::string messages;
    TextCollector texts;
    Workbook book{"plan", "Plan", "About"};
    Sheet& sheet = book.sheet("Plan", Paper::portrait);
    ptree tree;
};

TEST(Translate, OrdersThePlacesOfAChainAnew) {
    Book book(Texts{{"Order {1} sticks for {2}", "Para {2}, pedir {1} varetas"}});
    book.sheet.put("C3", R"(="Order "&A1&" sticks for "&B1*2)");
    EXPECT_EQ(book.formula(), R"(of:="Para "&[.B1]*2&", pedir "&[.A1]&" varetas")");
}

TEST(Translate, LeavesEnglishWhereNothingIsTranslated) {
    Book book(Texts{});
    book.sheet.put("C3", R"(=IF(A1>0;"Order "&A1&" sticks";"none"))");
    EXPECT_EQ(book.formula(), R"(of:=IF([.A1]>0;"Order "&[.A1]&" sticks";"none"))");
}

TEST(Translate, ComparesAChoiceWithTheWordThatTheCellOffers) {
    Book book(Texts{{"metric", "m\u00e9trico"}, {"US", "EE. UU."}});
    book.sheet.put("C3", R"(=IF(A1="US";1;2))");
    book.sheet.put("A1", "metric", Style::input).valid(one_of({"metric", "US"}));
    EXPECT_EQ(book.formula(), R"(of:=IF([.A1]="EE. UU.";1;2))");
    EXPECT_EQ(book.formula("A1"), "m\u00e9trico");
    const auto& all = book.tree.get_child("office:document.office:body.office:spreadsheet.table:content-validations");
    EXPECT_EQ(all.front().second.get("<xmlattr>.table:condition", ""),
              "of:cell-content-is-in-list(\"m\u00e9trico\";\"EE. UU.\")");
}

TEST(Translate, HandsTheKeywordToTheFunction) {
    Book book(Texts{{"room", "ambiente"}, {"cool", "fr\u00edo"}, {"own", "propio"}});
    book.sheet.put("A1", "room", Style::input).valid(one_of({"room", "cool", "own"}));
    book.sheet.put("C3", R"(=REWORK.BUDSALIVE(B1;IF(A1="own";D1:E4;A1)))");
    book.sheet.put("C4", R"(=REWORK.WHY("BUDSALIVE";B1;"room"))");
    EXPECT_EQ(book.formula(),
              R"(of:=SLIPBARK.REWORK.BUDSALIVE([.B1];IF([.A1]="propio";[.D1:.E4];IFERROR(INDEX({"room"|"cool"};)"
              "MATCH([.A1];{\"ambiente\"|\"fr\u00edo\"};0));[.A1])))");
    EXPECT_EQ(book.formula("C4"), R"(of:=SLIPBARK.REWORK.WHY("BUDSALIVE";[.B1];"room"))");
}

TEST(Translate, KeepsKeywordsInCellsOfABookOfFormulas) {
    Book book(Texts{{"room", "ambiente"}});
    book.book.keep_keywords();
    book.sheet.put("A1", "room", Style::input);
    book.sheet.put("B1", "room");
    book.sheet.put("C3", R"(=IF(A1="room";REWORK.BUDSALIVE(5;A1);"room"))");
    EXPECT_EQ(book.formula(), R"(of:=IF([.A1]="room";SLIPBARK.REWORK.BUDSALIVE(5;[.A1]);"ambiente"))");
    EXPECT_EQ(book.formula("A1"), "room");
    EXPECT_EQ(book.formula("B1"), "ambiente");
}

TEST(Translate, LeavesCodesOfTheHostAsTheyAre) {
    Book book(Texts{{"ft", "pies"}});
    book.sheet.put("C3", R"(=CONVERT(A1;"ft";"m")&" "&IF(B1=1;"ft";"m"))");
    EXPECT_EQ(book.formula(), R"(of:=CONVERT([.A1];"ft";"m")&" "&IF([.B1]=1;"pies";"m"))");
}

TEST(Translate, FollowsTheTitlesOfSheets) {
    Book book(Texts{{"Other one", "Otra p\u00e1gina"}, {"Other", "Otra \u00e9poca"}});
    Sheet& other = book.book.sheet("Other", Paper::portrait);
    other.put("B2", 4.0).name("four");
    book.sheet.put("C3", "=Other.B2+four");
    book.sheet.put("C4", R"(=HYPERLINK("#Other.B2";"Other"))");
    EXPECT_EQ(book.formula(), "of:=[$'Otra \u00e9poca'.B2]+four");
    EXPECT_EQ(book.formula("C4"), "of:=HYPERLINK(\"#'Otra \u00e9poca'.B2\";\"Otra \u00e9poca\")");
    const auto& names = book.tree.get_child("office:document.office:body.office:spreadsheet.table:named-expressions");
    EXPECT_EQ(names.front().second.get("<xmlattr>.table:cell-range-address", ""), "$'Otra \u00e9poca'.$B$2");
}

TEST(Translate, ShowsAKeywordOfATableInOtherWords) {
    Book book(Texts{{"outlay", "desembolso"}});
    book.sheet.put("A1", "outlay");
    book.sheet.put("B1", 1.0);
    book.sheet.put("C3", "=REWORK.SWINGS(E1:E9;F1:F9;A1:D1;0)");
    EXPECT_EQ(book.formula("A1"), "outlay");  // what the function reads
    const std::string style = book.tree.get_child("office:document.office:automatic-styles")
                                  .get_child("number:text-style")
                                  .get("number:text", "");
    EXPECT_EQ(style, "desembolso");
}

TEST(Translate, SaysANumberedTextOnce) {
    Book book(Texts{{"Holiday {1}", "Festivo {1}"}});
    book.sheet.put("A1", "Holiday 3");
    book.sheet.put("C3", "=IF(A2=1;\"Holiday 12\";\"\")");
    EXPECT_EQ(book.formula("A1"), "Festivo 3");
    EXPECT_EQ(book.formula(), R"(of:=IF([.A2]=1;"Festivo 12";""))");
}

TEST(Translate, GathersTheTextsForTranslators) {
    Book book(Texts{});
    book.sheet.put("A1", "Say \"when\"");
    book.sheet.put("A2", "WT-068");
    book.sheet.put("C3", R"(="Order "&A1&" sticks")");
    book.written();
    const std::string texts = pot(book.texts.collected());
    EXPECT_NE(texts.find("#. Plan: Plan.A1\nmsgid \"Say \\\"when\\\"\"\nmsgstr \"\"\n"), std::string::npos) << texts;
    EXPECT_NE(texts.find("#. Plan: Plan.C3\n#. {1} A1\n#, python-brace-format\nmsgid \"Order {1} sticks\"\n"),
              std::string::npos);
    EXPECT_EQ(texts.find("WT-068"), std::string::npos);
}

TEST(Translate, WritesNumbersOfAnEntryAsTheLanguageDoes) {
    Book book(Texts{{"0.5", "0,5"},
                    {"a number from {1} to {2} ({3})", "un n\u00famero de {1} a {2} ({3})"},
                    {"Enter {1}.", "Indique {1}."},
                    {"trees", "\u00e1rboles"}});
    const Validation made = number(0.5, 12000, "trees");
    EXPECT_EQ(made.help.english(), "Enter a number from 0.5 to 12,000 (trees).");
    EXPECT_EQ(made.help.in(book.texts), "Indique un n\u00famero de 0,5 a 12\u00a0000 (\u00e1rboles).");
}

}  // namespace
}  // namespace slipbark::compose

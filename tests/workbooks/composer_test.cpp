// What the composer makes of a sheet's cells: OpenDocument 1.3 part 3, sections 9.4 "Data validation" and 16 "Styles".

#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <functional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "composer/sheet.hpp"
#include "composer/styles.hpp"
#include "composer/xml.hpp"

namespace slipbark::compose {
namespace {

using boost::property_tree::ptree;

ptree written(const Workbook& book) {
    std::istringstream in(book.write());
    ptree tree;
    read_xml(in, tree);
    return tree;
}

/// Every element of that name, however deep.
std::vector<const ptree*> all(const ptree& tree, const std::string& name) {
    std::vector<const ptree*> found;
    const std::function<void(const ptree&)> look = [&](const ptree& at) {
        for (const auto& [key, child] : at) {
            if (key == name) found.push_back(&child);
            look(child);
        }
    };
    look(tree);
    return found;
}

std::string attribute(const ptree& element, const std::string& name) {
    return element.get<std::string>(ptree::path_type("<xmlattr>|" + name, '|'), "");
}

/// The style of the one cell with that formula.
std::string style_of(const ptree& tree, const std::string& formula) {
    for (const ptree* cell : all(tree, "table:table-cell")) {
        if (attribute(*cell, "table:formula") == formula) return attribute(*cell, "table:style-name");
    }
    return "no such cell";
}

TEST(Composer, AnInputWithAFormulaIsASuggestionUntilItIsTypedOver) {
    Workbook book("trial", "Trial", "");
    Sheet& sheet = book.sheet("Plan", Paper::portrait);
    sheet.put("C5", 12.0, Style::input, Format::count).name("rows").valid(whole(1, 99, "rows"));
    sheet.put("C6", "=rows*40", Style::input, Format::count).name("trees").valid(whole(1, 9999, "trees"));
    sheet.put("C7", "=1/11", Style::input).valid(number(0, 1, "share"));
    sheet.put("C8", "=trees*8", Style::answer, Format::count);
    const ptree tree = written(book);
    EXPECT_EQ(style_of(tree, "of:=rows*40"), "Suggested-count");
    EXPECT_EQ(style_of(tree, "of:=1/11"), "Input") << "takes nothing from other cells";
    EXPECT_EQ(style_of(tree, "of:=trees*8"), "Answer-count");

    std::vector<std::string> laid_over;
    for (const ptree* format : all(tree, "calcext:conditional-format")) {
        const ptree& condition = format->get_child("calcext:condition");
        if (attribute(condition, "calcext:apply-style-name") != "Input") continue;
        laid_over.push_back(attribute(*format, "calcext:target-range-address"));
        EXPECT_EQ(attribute(condition, "calcext:value"), "formula-is(NOT(ISFORMULA([.C6])))");
    }
    EXPECT_EQ(laid_over, std::vector<std::string>{"Plan.C6:Plan.C6"});

    std::vector<std::string> helps;
    for (const ptree* help : all(tree, "table:help-message")) helps.push_back(help->get<std::string>("text:p"));
    EXPECT_EQ(helps, (std::vector<std::string>{"Enter a whole number from 1 to 99 (rows).",
                                               "Enter a whole number from 1 to 9,999 (trees). A formula suggests one: "
                                               "type over it, or leave it.",
                                               "Enter a number from 0 to 1 (share)."}));
}

TEST(Composer, TellsItsFramesApartWithoutColour) {
    const auto frame = [](Style style) {
        const std::string name(styles::of(style).name);
        for (const ptree* one : all(look(), "style:style")) {
            if (attribute(*one, "style:display-name") != name) continue;
            const std::string border = attribute(one->get_child("style:table-cell-properties"), "fo:border");
            const ptree text = one->get_child("style:text-properties", ptree());
            return border.substr(0, border.find('#')) + attribute(text, "fo:font-weight") + " " +
                   attribute(text, "fo:font-style");
        }
        return "no style " + name;
    };
    std::set<std::string> seen;
    for (const Style style : {Style::input, Style::suggested, Style::answer, Style::body, Style::unfit}) {
        EXPECT_TRUE(seen.insert(frame(style)).second) << styles::of(style).name << ": " << frame(style);
    }
    EXPECT_TRUE(frame(Style::suggested).find("dashed") != std::string::npos) << frame(Style::suggested);
}

// Calc makes no row higher because a formula there says more: what a Check says is shrunk to its cell, so that it is
// whole.
TEST(Composer, KeepsWhatACheckSaysWhole) {
    Workbook book("trial", "Trial", "");
    book.sheet("Plan", Paper::portrait).put("B3", "=\"a long sentence\"", Style::check);
    const ptree tree = written(book);
    int found = 0;
    for (const ptree* style : all(tree, "style:style")) {
        if (attribute(*style, "style:name") != styles::of(Style::check).name) continue;
        ++found;
        for (const ptree* cell : all(*style, "style:table-cell-properties")) {
            EXPECT_EQ(attribute(*cell, "style:shrink-to-fit"), "true");
            EXPECT_EQ(attribute(*cell, "fo:wrap-option"), "");
        }
    }
    EXPECT_EQ(found, 1);
}

TEST(Composer, PutsTheCursorOnTheFirstInputUnlessTold) {
    Workbook book("trial", "Trial", "");
    Sheet& first = book.sheet("First", Paper::portrait);
    first.put("B3", "=C9*2", Style::answer);
    first.put("C9", 1, Style::input);
    first.put("B9", 1, Style::input);
    Sheet& second = book.sheet("Second", Paper::portrait);
    second.put("C9", 1, Style::input);
    second.cursor("D4");
    book.sheet("Third", Paper::portrait).put("B1", "no input");
    const ptree tree = written(book);
    std::vector<std::string> cursors;
    for (const ptree* item : all(tree, "config:config-item")) {
        const std::string name = attribute(*item, "config:name");
        if (name.starts_with("CursorPosition")) cursors.push_back(item->data());
    }
    EXPECT_EQ(cursors, (std::vector<std::string>{"1", "8", "3", "3", "0", "0"}));
}

TEST(Composer, ShowsWhatIsPrintedInAWindowOf1366Pixels) {
    Workbook book("trial", "Trial", "");
    // A centimetre of a column has 40 pixels, as measured in an office's window; some 1266 are left for cells: 31.65 cm
    // at 100 %, 39.56 at 80 %.
    for (const double width : {31.6, 31.7, 39.5, 39.6, 90.0}) {
        Sheet& sheet = book.sheet(std::to_string(width), Paper::portrait);
        sheet.columns({width, 50});
        sheet.put("B1", "behind, and not printed");
        sheet.print_area("A1:A9");
    }
    std::vector<std::string> zooms;
    const ptree tree = written(book);
    for (const ptree* item : all(tree, "config:config-item")) {
        if (attribute(*item, "config:name") == "ZoomValue") zooms.push_back(item->data());
    }
    EXPECT_EQ(zooms, (std::vector<std::string>{"100", "95", "80", "75", "75"}));
}

TEST(Composer, RefusesATextThatPaperWouldCut) {
    const auto write = [](int columns) {
        Workbook book("trial", "Trial", "");
        Sheet& sheet = book.sheet("Plan", Paper::portrait);
        sheet.put("B1", "A heading").across(columns);
        sheet.put("F1", "behind, and not printed").across(3);
        sheet.print_area("A1:D9");
        return book.write();
    };
    EXPECT_NO_THROW((void)write(3));
    EXPECT_THROW((void)write(4), std::logic_error);
}

TEST(Composer, SaysWhatTheChoicesMean) {
    const Validation choice = one_of({"room", "cool"}, "Room: about 18 degrees Celsius; cool: about 3.");
    EXPECT_EQ(choice.condition, "of:cell-content-is-in-list(\"room\";\"cool\")");
    EXPECT_EQ(choice.help, "Choose one of: room, cool. Room: about 18 degrees Celsius; cool: about 3.");
    EXPECT_EQ(choice.error, one_of({"room", "cool"}).error);
}

TEST(Composer, ChartsAcrossNumbersHaveNoColumns) {
    const auto write = [](Series::Shape shape) {
        Workbook book("trial", "Trial", "");
        Sheet& sheet = book.sheet("Plan", Paper::portrait);
        for (const char* cell : {"B3", "B4", "C3", "C4"}) sheet.put(cell, 1);
        sheet.chart("B9", 12, 6,
                    {.title = "Trial",
                     .description = "",
                     .categories = "B4",
                     .category_title = "",
                     .value_title = "",
                     .series = {{.values = "C4", .label = "C3", .shape = shape}},
                     .across = Across::numbers});
        return book.write();
    };
    EXPECT_NE(write(Series::Shape::point).find("chart:class=\"chart:scatter\""), std::string::npos);
    EXPECT_THROW((void)write(Series::Shape::column), std::logic_error);
}

}  // namespace
}  // namespace slipbark::compose

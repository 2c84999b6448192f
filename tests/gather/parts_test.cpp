// Parts of workbooks as OASIS OpenDocument 1.3 and ECMA-376 describe them, written by hand.
#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <sstream>

#include "gather/ods_parts.hpp"
#include "gather/xlsx_parts.hpp"

namespace slipbark::gather {

namespace {

using boost::property_tree::ptree;

void walk(const std::string& name, const ptree& node, XmlEvents& events) {
    std::vector<XmlAttribute> attributes;
    if (const auto all = node.get_child_optional("<xmlattr>")) {
        for (const auto& [key, value] : *all) attributes.push_back({key, value.data()});
    }
    events.start(name, attributes);
    for (const auto& [key, child] : node) {
        if (key == "<xmltext>") {
            events.text(child.data());
        } else if (key != "<xmlattr>" && key != "<xmlcomment>") {
            walk(key, child, events);
        }
    }
    events.end(name);
}

void feed(const std::string& xml, XmlEvents& events) {
    std::istringstream in(xml);
    ptree tree;
    read_xml(in, tree, boost::property_tree::xml_parser::no_concat_text);
    for (const auto& [name, node] : tree) walk(name, node, events);
}

WorkbookCells ods(const std::string& tables, const std::string& names) {
    WorkbookCells cells;
    OdsContent content(cells);
    feed("<office:document-content><office:body><office:spreadsheet>" + tables + "<table:named-expressions>" + names +
             "</table:named-expressions></office:spreadsheet></office:body></office:document-content>",
         content);
    return cells;
}

std::string named(const std::string& name, const std::string& address) {
    return "<table:named-range table:name=\"" + name + "\" table:cell-range-address=\"" + address + "\"/>";
}

std::string row(const std::string& cells, const std::string& attributes = "") {
    return "<table:table-row " + attributes + ">" + cells + "</table:table-row>";
}

std::string sheet(const std::string& name, const std::string& rows) {
    return "<table:table table:name=\"" + name + "\">" + rows + "</table:table>";
}

constexpr const char* seven = "<table:table-cell office:value-type=\"float\" office:value=\"7\"/>";

}  // namespace

TEST(Areas, AreReadAsBothFormatsWriteThem) {
    EXPECT_EQ(ods_area("$Plan.$C$8"), (NamedArea{"Plan", 7, 2, 7, 2}));
    EXPECT_EQ(ods_area("$Rows.$B$6:.$B$205"), (NamedArea{"Rows", 5, 1, 204, 1}));
    EXPECT_EQ(ods_area("$'Count sheet'.$D$3:$'Count sheet'.$AA$9"), (NamedArea{"Count sheet", 2, 3, 8, 26}));
    EXPECT_EQ(ods_area("$'Ann''s. rows'.$A$1"), (NamedArea{"Ann's. rows", 0, 0, 0, 0}));
    EXPECT_EQ(xlsx_area("'Count sheet'!$B$6:$B$205"), (NamedArea{"Count sheet", 5, 1, 204, 1}));
    EXPECT_EQ(xlsx_area("Plan!$XFD$1048576"), (NamedArea{"Plan", 1048575, 16383, 1048575, 16383}));
    for (const char* none : {"", "$Plan", "#REF!", "Plan!#REF!", "SUM(Plan!$A$1)", "Plan!$A$0", "Plan!$XFE$1",
                             "Plan!$B$2:$A$1", "'Plan!$A$1", "Plan!$A$1048577"}) {
        EXPECT_FALSE(xlsx_area(none)) << none;
    }
}

TEST(OdsContent, CountsRepeatedRowsAndColumns) {
    const auto cells =
        ods(sheet("Rows", row("<table:table-cell/>", "table:number-rows-repeated=\"4\"") +
                              row("<table:table-cell table:number-columns-repeated=\"2\"/>"
                                  "<table:table-cell office:value-type=\"float\" office:value=\"28\" "
                                  "table:number-columns-repeated=\"2\"/><table:covered-table-cell/>" +
                                      std::string(seven),
                                  "table:number-rows-repeated=\"3\"") +
                              row("<table:table-cell table:number-columns-repeated=\"3\"/>" + std::string(seven))),
            named("trees", "$Rows.$D$5:.$D$9") + named("seven", "$Rows.$F$6") + named("Right", "$Rows.$C$5"));
    EXPECT_EQ(cells.column({"trees"}), (std::vector<CellValue>{28.0, 28.0, 28.0, 7.0}));
    EXPECT_EQ(cells.first({"seven"}), CellValue(7.0));
    EXPECT_EQ(cells.column({"right", 1, 2}), (std::vector<CellValue>{28.0, 28.0}));
    EXPECT_EQ(cells.column({"right", 0, 1}), (std::vector<CellValue>{28.0}));
    EXPECT_TRUE(cells.column({"absent"}).empty());
}

TEST(OdsContent, ReadsEachTypeOfValue) {
    const auto cells = ods(
        sheet(
            "A",
            row("<table:table-cell office:value-type=\"percentage\" office:value=\"0.72\"><text:p>72 "
                "%</text:p></table:table-cell>"
                "<table:table-cell office:value-type=\"date\" office:date-value=\"2027-09-20\"><text:p>20 "
                "Sep</text:p></table:table-cell>"
                "<table:table-cell office:value-type=\"boolean\" "
                "office:boolean-value=\"true\"><text:p>TRUE</text:p></table:table-cell>"
                "<table:table-cell office:value-type=\"string\"><office:annotation><text:p>a "
                "note</text:p></office:annotation>"
                "<text:p>White<text:s text:c=\"2\"/><text:span>grape</text:span>fruit</text:p><text:p>old</text:p>"
                "<draw:frame><draw:text-box><text:p>in a shape</text:p></draw:text-box></draw:frame></table:table-cell>"
                "<table:table-cell office:value-type=\"string\" "
                "calcext:value-type=\"error\"><text:p>#NAME?</text:p></table:table-cell>"
                "<table:table-cell office:value-type=\"string\"><text:p></text:p></table:table-cell>")),
        named("share", "$A.$A$1") + named("day", "$A.$B$1") + named("yes", "$A.$C$1") + named("words", "$A.$D$1") +
            named("lost", "$A.$E$1") + named("blank", "$A.$F$1"));
    EXPECT_EQ(cells.first({"share"}), CellValue(0.72));
    EXPECT_EQ(cells.first({"day"}), CellValue(46650.0));  // Calc's own serial of 20 September 2027
    EXPECT_EQ(cells.first({"yes"}), CellValue(1.0));
    EXPECT_EQ(cells.first({"words"}), CellValue(std::string("White  grapefruit\nold")));
    EXPECT_EQ(cells.first({"lost"}), CellValue(CellError{"#NAME?"}));
    EXPECT_EQ(cells.first({"blank"}), CellValue());
}

TEST(OdsContent, LeavesTablesOfChartsAlone) {
    const auto cells = ods(sheet("A", row("<table:table-cell><draw:object>" + sheet("local", row(seven)) +
                                          "</draw:object></table:table-cell>" + seven) +
                                          row(seven)),
                           named("first", "$A.$A$1") + named("beside", "$A.$B$1") + named("below", "$A.$A$2"));
    EXPECT_EQ(cells.sheets.size(), 1U);
    EXPECT_EQ(cells.first({"first"}), CellValue());
    EXPECT_EQ(cells.first({"beside"}), CellValue(7.0));
    EXPECT_EQ(cells.first({"below"}), CellValue(7.0));
}

TEST(OdsContent, TakesAnAbsurdRepetitionForOneSheetsRows) {
    const auto cells = ods(sheet("A", row(seven, "table:number-rows-repeated=\"99999999999999\"") +
                                          row(seven, "table:number-rows-repeated=\"-3\"")),
                           named("all", "$A.$A$1:.$A$3"));
    EXPECT_EQ(cells.column({"all"}).size(), 3U);
}

// LibreOffice 7.4: =DATE(2024;2;29) is 45351, =DATE(1900;3;1) is 61.
TEST(Dates, CountFromTheHostsDayNought) {
    EXPECT_EQ(days_of_date("2024-02-29"), 45351.0);
    EXPECT_EQ(days_of_date("1900-03-01"), 61.0);
    EXPECT_EQ(days_of_date("2024-02-29T12:00:00"), 45351.5);
    for (const char* none : {"", "2024", "2023-02-29", "2024-13-01", "29.02.2024", "abcd-ef-gh"}) {
        EXPECT_FALSE(days_of_date(none)) << none;
    }
}

TEST(OdsMeta, ReadsPropertiesOfUsers) {
    WorkbookCells cells;
    OdsMeta meta(cells);
    feed(
        "<office:document-meta><office:meta><dc:title>T</dc:title><meta:user-defined meta:name=\"Slipbark workbook\">"
        "rework-plan</meta:user-defined></office:meta></office:document-meta>",
        meta);
    EXPECT_EQ(cells.properties, (std::map<std::string, std::string>{{"Slipbark workbook", "rework-plan"}}));
}

TEST(OdsManifest, KnowsWhetherAPasswordIsNeeded) {
    OdsManifest plain;
    feed("<manifest:manifest><manifest:file-entry manifest:full-path=\"content.xml\"/></manifest:manifest>", plain);
    EXPECT_FALSE(plain.encrypted());
    OdsManifest locked;
    feed(
        "<manifest:manifest><manifest:file-entry manifest:full-path=\"content.xml\"><manifest:encryption-data/>"
        "</manifest:file-entry></manifest:manifest>",
        locked);
    EXPECT_TRUE(locked.encrypted());
}

TEST(Xlsx, IsReadFromItsParts) {
    WorkbookCells cells;
    XlsxWorkbook workbook(cells);
    feed(
        "<workbook><workbookPr date1904=\"0\"/><sheets><sheet name=\"Count sheet\" sheetId=\"4\" "
        "r:id=\"rId2\"/></sheets>"
        "<definedNames><definedName name=\"Trees\">'Count sheet'!$B$2:$B$6</definedName>"
        "<definedName name=\"_xlnm.Print_Area\" localSheetId=\"0\">'Count sheet'!$A$1</definedName>"
        "<definedName name=\"spare\">0.15</definedName></definedNames></workbook>",
        workbook);
    EXPECT_EQ(cells.names, (std::map<std::string, NamedArea>{{"trees", {"Count sheet", 1, 1, 5, 1}}}));
    EXPECT_FALSE(cells.dates_from_1904);
    XlsxRelations relations;
    feed(
        "<Relationships><Relationship Id=\"rId2\" Target=\"worksheets/sheet1.xml\"/>"
        "<Relationship Id=\"rId3\" Target=\"/xl/sharedStrings.xml\"/></Relationships>",
        relations);
    EXPECT_EQ(relations.part(workbook.sheets().at(0).relation), "xl/worksheets/sheet1.xml");
    EXPECT_EQ(relations.part("rId3"), "xl/sharedStrings.xml");
    EXPECT_EQ(relations.part("rId9"), "");
    XlsxStrings strings;
    feed(
        "<x:sst><x:si><x:t>A</x:t></x:si><x:si><x:r><x:t>Ember "
        "</x:t></x:r><x:r><x:t>Moon</x:t></x:r><x:rPh><x:t>read</x:t>"
        "</x:rPh></x:si></x:sst>",
        strings);
    EXPECT_EQ(strings.texts(), (std::vector<std::string>{"A", "Ember Moon"}));
    XlsxSheet sheet(cells.sheets["Count sheet"], strings.texts());
    feed(
        "<worksheet><sheetData><row r=\"2\"><c r=\"B2\"><f>A1*2</f><v>28</v></c></row><row><c/><c "
        "t=\"s\"><v>1</v></c></row>"
        "<row r=\"4\"><c r=\"B4\" t=\"e\"><v>#NAME?</v></c></row><row r=\"5\"><c r=\"B5\" "
        "t=\"str\"><v>typed</v></c></row>"
        "<row r=\"6\"><c r=\"B6\" t=\"inlineStr\"><is><t>inline</t></is></c><c r=\"C6\" t=\"s\"><v>99</v></c></row>"
        "</sheetData></worksheet>",
        sheet);
    EXPECT_EQ(cells.column({"trees"}), (std::vector<CellValue>{28.0, std::string("Ember Moon"), CellError{"#NAME?"},
                                                               std::string("typed"), std::string("inline")}));
    XlsxProperties properties(cells);
    feed("<Properties><property name=\"Slipbark workbook\"><vt:lpwstr>records</vt:lpwstr></property></Properties>",
         properties);
    EXPECT_EQ(cells.properties.at("Slipbark workbook"), "records");
}

}  // namespace slipbark::gather

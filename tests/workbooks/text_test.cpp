// Workbooks as text: what a sheet's lines become, and how mistakes of their author are named.
#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "composer/content.hpp"
#include "composer/fill.hpp"
#include "composer/read.hpp"
#include "composer/text.hpp"

namespace slipbark::compose {
namespace {

using boost::property_tree::ptree;

/// A workbook's folder of the given files; book.tsv with one sheet, Plan, where none is given.
class Folder {
  public:
    explicit Folder(const std::map<std::string, std::string>& files) {
        const auto* const test = testing::UnitTest::GetInstance()->current_test_info();
        path_ = std::filesystem::path(testing::TempDir()) / (std::string("slipbark-") + test->name()) / "trial";
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
        write("book.tsv", book + "sheet\tPlan\n");
        for (const auto& [name, text] : files) write(name, text);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path_.parent_path()); }

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

    inline static const std::string book =
        "title\tTrial\nabout\tA trial\nmenu\tNew trial\ncategory\tTrials\norder\t10\n";

  private:
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
    }
    std::filesystem::path path_;
};

ptree written(const std::map<std::string, std::string>& files) {
    const Folder folder(files);
    std::istringstream in(read_workbook(folder.path())->write());
    ptree tree;
    read_xml(in, tree);
    return tree;
}

ptree plan(const std::string& text) { return written({{"plan.tsv", text}}); }

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

/// What the cells hold, row by row, blank ones left out: a formula, else the value, else the text.
std::string cells(const ptree& tree) {
    std::string text;
    for (const ptree* row : all(tree, "table:table-row")) {
        for (const auto& [key, cell] : *row) {
            if (key != "table:table-cell") continue;
            std::string one = attribute(cell, "table:formula");
            for (const char* value : {"office:value", "office:date-value"}) {
                if (one.empty()) one = attribute(cell, value);
            }
            if (one.empty()) one = cell.get<std::string>("text:p", "");
            if (!one.empty()) text += one + " ";
        }
    }
    return text;
}

/// What reading says of its author's mistake, from the file's name on.
std::string mistake(const std::map<std::string, std::string>& files) {
    const Folder folder(files);
    try {
        (void)read_workbook(folder.path())->write();
    } catch (const TextError& error) {
        const std::string said = error.what();
        return said.substr(folder.path().generic_string().size() + 1);
    } catch (const std::exception& error) {
        return std::string("no file and line: ") + error.what();
    }
    return "nothing";
}

std::string mistake(const std::string& text) { return mistake({{"plan.tsv", text}}); }

TEST(WorkbookText, FillsAFormulaAsDraggingDoes) {
    EXPECT_EQ(shifted("=B6+$C6+D$5+$E$1", 1, 2), "=C8+$C8+E$5+$E$1");
    EXPECT_EQ(shifted("=SUM(A1:B$2)&\"A1\"", 0, 1), "=SUM(A2:B$2)&\"A1\"");
    EXPECT_EQ(shifted("='My plan'.A1:B2+Plan.Z9", 1, 0), "='My plan'.B1:C2+Plan.AA9");
    EXPECT_EQ(shifted("=SUM(A:B)+SUM(3:$4)", 1, 1), "=SUM(B:C)+SUM(4:$4)");
    EXPECT_THROW((void)shifted("=A1", 0, -1), std::logic_error);
    EXPECT_EQ(cells(plan("where\tcontent\tlook\nB1:C2\t=A1+1\tanswer\n")),
              "of:=[.A1]+1 of:=[.B1]+1 of:=[.A2]+1 of:=[.B2]+1 ");
}

TEST(WorkbookText, TakesContentsForWhatTheyReadAs) {
    EXPECT_EQ(cells(plan("where\tcontent\tlook\nA1\t12.5\tplain\nA2\t2027-09-20\tplain date\nA3\t2027\tplain text\n"
                         "A4\t3 to 5\tplain\nA5\t53\tplain verbatim\nA6:C6\tLow | | 3\theading\n")),
              "12.5 2027-09-20 2027 3 to 5 53 Low 3 ");
}

TEST(WorkbookText, ReadsColumnsOfData) {
    EXPECT_EQ(cells(written({{"plan.tsv", "where\tcontent\tlook\nA1:A4\t< readings.tsv high\tinput\n"},
                             {"readings.tsv", "low\thigh\n1\t20\n\n2\t21.5\n"}})),
              "20 21.5 ")
        << "a line without a reading stays blank";
}

TEST(WorkbookText, LaysOutAFormsLineWithItsCheck) {
    const ptree tree = plan(
        "form\tB C D E:F\nwhere\tcontent\tlook\tentry\tname\tlabel\tunit\tcheck\n"
        "C4\t40\tinput count\twhole 1 10000 trees or blank\ttrees\tTrees\ttrees\n"
        "C5\t=REWORK.TREES(trees;1;1)\tanswer count\t\t\tSites\tsites\n"
        "C6\t=REWORK.TREES(trees;1;2)\tanswer count\t\t\tSites\tsites\t-\n");
    EXPECT_EQ(cells(tree),
              "Trees 40 trees Sites of:=SLIPBARK.REWORK.TREES(trees;1;1) sites "
              "of:=SLIPBARK.REWORK.WHY(\"TREES\";trees;1;1) Sites of:=SLIPBARK.REWORK.TREES(trees;1;2) sites ");
    const auto entries = all(tree, "table:content-validation");
    ASSERT_EQ(entries.size(), 1U);
    EXPECT_EQ(attribute(*entries[0], "table:condition"),
              "of:cell-content-is-whole-number() and cell-content-is-between(1,10000)");
    EXPECT_EQ(all(tree, "calcext:conditional-format").size(), 1U) << "the check is framed where it says something";
}

TEST(WorkbookText, WritesWhatDoesNotFitBesideAForm) {
    const ptree tree = plan(
        "form\tB C D\nunfit\tH\nwhere\tcontent\tlook\tentry\tname\tlabel\tunit\n"
        "C4\t40\tinput count\twhole 1 10000 trees or blank\ttrees\tTrees\ttrees\n"
        "C5\t0.5\tinput percent\tshare 0 1\t\tTake\tof the grafts\n"
        "C6\tno\tinput text\tone of yes | no\t\tNurse limb\t\n"
        "C7\t9\tinput count\twhole 0 trees trees\t\tOf them\ttrees\n"
        "C8\t2\tinput count\twhole 0 9 trees\t\tOthers\ttrees\n"
        "H8\t=IF(C8>C4;1;0)\tworkings\n");
    EXPECT_EQ(cells(tree),
              "Trees 40 trees of:=SLIPBARK.REWORK.UNFIT([.B4];[.C4];{\"whole\";1;10000;\"trees\";\"or blank\"}) "
              "Take 0.5 of the grafts of:=SLIPBARK.REWORK.UNFIT([.B5];[.C5];{\"share\";0;1}) "
              "Nurse limb no Of them 9 trees Others 2 trees of:=IF([.C8]>[.C4];1;0) ");
    // Framed: those with a formula, of the composer or the author.
    EXPECT_EQ(all(tree, "calcext:conditional-format").size(), 3U);
}

TEST(WorkbookText, LimitsAnEntryByAnotherCellOfItsLine) {
    const std::string text =
        "where\tcontent\tlook\tentry\tname\n"
        "B5\tLow\theading\nB6:B8\t\tinput\tnumber -100 200 degrees\tlows\nC6:C8\t\tinput\t";
    for (const char* end : {"number lows 200 degrees", "number $B6 200 degrees"}) {
        const auto tree = plan(text + end + "\n");
        const auto entries = all(tree, "table:content-validation");
        ASSERT_EQ(entries.size(), 2U);
        EXPECT_EQ(attribute(*entries[1], "table:condition"),
                  "of:cell-content-is-decimal-number() and cell-content-is-between([.$B1],200)");
    }
}

TEST(WorkbookText, WritesRepeatedLinesOncePerRecord) {
    EXPECT_EQ(cells(written({{"book.tsv", Folder::book + "field\trows\t8\nsheet\tPlan\n"},
                             {"plan.tsv",
                              "where\tcontent\tlook\nrepeat\tcell\tfruit\nB1\tplums\nB2\tpears\nlines\n"
                              "{cell}\t{rows} {fruit}\tbody\nend\nB3\t{1|2}\tbody\n"}})),
              "8 plums 8 pears {1|2} ");
}

TEST(WorkbookText, NamesFileLineAndCellOfAMistake) {
    const std::string head = "where\tcontent\tlook\tentry\tname\n";
    EXPECT_EQ(mistake(head + "C5\t=tree*2\tanswer\n"), "plan.tsv:2: C5: no range is named \"tree\"");
    EXPECT_EQ(mistake(head + "C5\t1\tinput\n\nB5:C6\t2\tinput\n"), "plan.tsv:4: B5:C6: Plan.C5 is filled twice");
    EXPECT_EQ(mistake(head + "C5\t1\tpainted\n"), "plan.tsv:2: C5: no style or format is called \"painted\"");
    EXPECT_EQ(mistake(head + "C5\t1\tinput furlongs\n"), "plan.tsv:2: C5: no style or format is called \"furlongs\"");
    EXPECT_EQ(mistake("where\tcontents\n"), "plan.tsv:1: where: no column is called \"contents\"");
    EXPECT_EQ(mistake("where\tcontent\tlook\nC5\t1\tinput\tdate\n"),
              "plan.tsv:2: C5: has 4 fields, but only 3 columns are named");
    EXPECT_EQ(mistake("papers\tportrait\n" + head), "plan.tsv:1: unknown word papers");
    EXPECT_EQ(mistake("paper\tsquare\n" + head), "plan.tsv:1: paper is portrait or landscape");
    EXPECT_EQ(mistake(head + "5C\t1\tinput\n"), "plan.tsv:2: 5C: a column is missing");
    EXPECT_EQ(mistake(head + "C5\t=SUM((1)\tanswer\n"), "plan.tsv:2: C5: a formula cannot be read at (");
    EXPECT_EQ(mistake(head + "C5\t{rows}\tbody\n"), "plan.tsv:2: C5: no field is called {rows}");
    EXPECT_EQ(mistake(head + "C5\t1\n"), "plan.tsv:2: C5: a content wants a look");
    EXPECT_EQ(mistake(head + "C5\t1\tinput\twhole 1 trees\n"),
              "plan.tsv:2: C5: the entry \"whole 1 trees\" cannot be read; right would be: whole LOW HIGH UNIT");
    EXPECT_EQ(mistake(head + "C5\t1\tinput\tcolour\n"),
              "plan.tsv:2: C5: the entry \"colour\" cannot be read; right would be: whole, number, share, date, one "
              "of, listed or text");
    EXPECT_EQ(mistake(head + "B5:D5\tLow | High\theading\n"), "plan.tsv:2: B5:D5: 2 texts for 3 x 1 cells");
    EXPECT_EQ(mistake(head + "C5\t< none.tsv low\tinput\n").substr(0, 8), "none.tsv");
    EXPECT_EQ(mistake(head + "C5\t1\tinput\t\ttrees\nC6\t1\tinput\t\ttrees\n"),
              "plan.tsv:3: C6: trees names two ranges");
    EXPECT_EQ(mistake(head + "C5\t1\tinput\t\tTAX2027\n"), "plan.tsv:2: C5: TAX2027 reads as a cell's address");
    EXPECT_EQ(mistake("where\tcontent\tlook\tunit\nC5\t1\tinput\ttrees\n"),
              "plan.tsv:2: C5: no form of this sheet has its values in this column: form LABEL VALUE UNIT CHECK");
    EXPECT_EQ(mistake("where\tcontent\tlook\nrepeat\tcell\nB1\nlines\n{cell}\t1\tbody\n"),
              "plan.tsv:2: repeat without its end");
    EXPECT_EQ(mistake({{"book.tsv", Folder::book + "sheet\tPlan\tcomputed dreams\n"}}),
              "book.tsv:6: no sheets are computed as dreams");
    EXPECT_EQ(mistake({{"book.tsv", "title\tTrial\ntitel\tTrial\n"}}), "book.tsv:2: unknown word titel");
    EXPECT_EQ(mistake(std::map<std::string, std::string>{}), "plan.tsv: cannot be read");
}

// Pairs of text and base64 from RFC 4648, section 10.
TEST(Picture, IsInTheWorkbookWithItsWords) {
    for (const auto& [bytes, letters] :
         {std::pair{"f", "Zg=="}, {"fo", "Zm8="}, {"foo", "Zm9v"}, {"foobar", "Zm9vYmFy"}}) {
        const ptree tree = written({{"plan.tsv",
                                     "paper\tlandscape\nwidths\t1 9\nwhere\tcontent\tlook\n"
                                     "B2\tA graft\tpicture 4 3 graft.svg\n\tA scion in a stub.\tdescription\n"},
                                    {"graft.svg", bytes}});
        const auto data = all(tree, "office:binary-data");
        ASSERT_EQ(data.size(), 1U);
        EXPECT_EQ(data[0]->data(), letters);
        EXPECT_EQ(all(tree, "svg:desc").at(0)->data(), "A scion in a stub.");
        EXPECT_TRUE(all(tree, "draw:object").empty()) << "no chart";
    }
    EXPECT_THROW(plan("paper\tlandscape\nwidths\t1 9\nwhere\tcontent\tlook\nB2\tA\tpicture 4 3 none.svg\n"), TextError);
}

}  // namespace
}  // namespace slipbark::compose

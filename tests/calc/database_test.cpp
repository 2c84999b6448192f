// The desk's tables in databases: a PostgreSQL server and a Firebird file that the test starts and makes itself.
#include <boost/algorithm/string/replace.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/lang/XSingleServiceFactory.hpp>
#include <com/sun/star/sdb/XDocumentDataSource.hpp>
#include <com/sun/star/sheet/DataImportMode.hpp>
#include <com/sun/star/sheet/XDatabaseRanges.hpp>
#include <com/sun/star/uno/XNamingService.hpp>
#include <com/sun/star/util/XImportable.hpp>
#include <com/sun/star/util/XRefreshable.hpp>
#include <cstdlib>
#include <fstream>

#include "desk_document.hpp"
#include "folder.hpp"
#include "postgresql.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

namespace fs = std::filesystem;

/// A desk with two blocks and three counts, a quote and letters of other scripts among them.
Book filled_desk() {
    Book desk = plain_desk();
    const auto put = [&](const char* name, const std::vector<std::string>& values) {
        const auto cells = cells_of(desk, name);
        for (int row = 0; row < static_cast<int>(values.size()); ++row) {
            const std::string& value = values[static_cast<std::size_t>(row)];
            const auto cell = cells->getCellByPosition(0, row);
            char* end = nullptr;
            const double number = std::strtod(value.c_str(), &end);
            if (!value.empty() && *end == '\0') {
                cell->setValue(number);
            } else {
                cell->setFormula(ustring(value));
            }
        }
    };
    put("desk_file", {"X/one.ods", "Y/two.ods"});
    put("desk_client", {"Señor O'Hara", "果园"});
    put("desk_block", {"North \\ ?", "South"});
    put("desk_season", {"2027", ""});
    put("desk_trees", {"310", "60.5"});
    put("desk_order_by", {"46650", ""});
    put("count_file", {"X/one.ods", "X/one.ods", "Y/two.ods"});
    put("count_client", {"Señor O'Hara", "Señor O'Hara", "果园"});
    put("count_block", {"North", "North", "South"});
    put("count_season", {"2027", "2027", "2026"});
    put("count_nursery", {"Fern", "Fern", "Fern"});
    put("count_lot", {"A", "A", "B"});
    put("count_trees", {"10", "5", "8"});
    put("count_grafts", {"60", "30", "48"});
    put("count_live", {"40", "25", "31"});
    return desk;
}

}  // namespace

/// While it lives no file of the server grows beyond 2 MiB.
class FullServer {
  public:
    explicit FullServer(Server& server) : server_(server) { restart("ulimit -f 4096; "); }
    FullServer(const FullServer&) = delete;
    FullServer& operator=(const FullServer&) = delete;
    ~FullServer() { restart(""); }

  private:
    void restart(const std::string& limit) {
        server_.stop();
        server_.start(limit);
    }
    Server& server_;
};

class PostgreSql : public testing::Test {
  protected:
    static Server& server() {
        static Server one;
        return one;
    }
    void SetUp() override {
        server().sql("drop schema public cascade; create schema public; grant all on schema public to public");
    }
};

TEST_F(PostgreSql, HasEachLineOnceHoweverOftenItIsKept) {
    const Book desk = filled_desk();
    const std::string said = command(desk, "keep-in-database", server().written());
    EXPECT_EQ(said, "Kept: 2 blocks and 2 lines of counts.");  // two of the counts have one key and are summed
    EXPECT_EQ(server().sql("select count(*), sum(trees) from slipbark_block"), "2|370.5");
    EXPECT_EQ(server().sql("select client, block_name, season, order_by_day from slipbark_block where season > 0"),
              "Señor O'Hara|North \\ ?|2027|2027-09-20");
    EXPECT_EQ(server().sql("select client from slipbark_block where season = 0 and order_by_day is null"), "果园");
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(311);
    command(desk, "keep-in-database", server().written());
    EXPECT_EQ(server().sql("select count(*), sum(trees) from slipbark_block"), "2|371.5");
    EXPECT_EQ(server().sql("select count(*), sum(live_grafts) from slipbark_count"), "2|96");
    EXPECT_EQ(server().sql("select nursery, grafts, live_grafts from slipbark_take_nursery"), "Fern|138|96");
    EXPECT_EQ(server().sql("select round(take::numeric, 4) from slipbark_take_nursery"), "0.6957");  // 96 / 138
}

TEST_F(PostgreSql, TakesOverTablesOfAnEarlierVersion) {
    const Book desk = filled_desk();
    command(desk, "keep-in-database", server().written());
    server().sql("alter table slipbark_block drop column sticks; alter table slipbark_block add remark text");
    server().sql("update slipbark_block set remark = 'call'");
    EXPECT_TRUE(says(command(desk, "keep-in-database", server().written()), "Kept: 2 blocks"));
    EXPECT_EQ(server().sql("select count(*) from slipbark_block where remark = 'call' and sticks is null"), "2");
}

TEST_F(PostgreSql, SaysWhatTheServerSays) {
    const Book desk = filled_desk();
    command(desk, "keep-in-database", server().written());
    server().sql(
        "drop role if exists reader; create role reader login; grant select on all tables in schema public to reader");
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(999);
    const std::string refused = command(desk, "keep-in-database", server().written("reader"));
    EXPECT_TRUE(says(refused, "Nothing was kept. The database says: ")) << refused;
    EXPECT_TRUE(says(refused, "permission denied")) << refused;
    EXPECT_FALSE(says(refused, "caused by statement")) << refused;
    EXPECT_EQ(server().sql("select sum(trees) from slipbark_block"), "370.5");
    const std::string unknown = command(desk, "keep-in-database", server().written("nobody_here"));
    EXPECT_TRUE(says(unknown, "nobody_here")) << unknown;
}

TEST_F(PostgreSql, LeavesNothingHalfWritten) {
    const Book desk = filled_desk();
    command(desk, "keep-in-database", server().written());
    // The second table is refused in the middle of the work, after the blocks were written.
    server().sql("alter table slipbark_count add constraint few check (live_grafts < 10) not valid");
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(999);
    const std::string said = command(desk, "keep-in-database", server().written());
    EXPECT_TRUE(says(said, "few")) << said;
    EXPECT_EQ(server().sql("select sum(trees) from slipbark_block"), "370.5");
    // The server ends the connection in the middle.
    server().sql("alter table slipbark_count drop constraint few");
    server().sql(
        "create function cut() returns trigger language plpgsql as 'begin perform "
        "pg_terminate_backend(pg_backend_pid()); return new; end'; create trigger cut before insert on slipbark_count "
        "for each row execute function cut()");
    const std::string cut = command(desk, "keep-in-database", server().written());
    EXPECT_TRUE(says(cut, "Nothing was kept. The database says: ")) << cut;
    EXPECT_EQ(server().sql("select sum(trees) from slipbark_block"), "370.5");
    server().sql("drop trigger cut on slipbark_count");
    EXPECT_TRUE(says(command(desk, "keep-in-database", server().written()), "Kept: 2 blocks"));
    EXPECT_EQ(server().sql("select sum(trees) from slipbark_block"), "1059.5");
}

TEST_F(PostgreSql, LosesNothingOnAFullDisk) {
    const Book desk = filled_desk();
    command(desk, "keep-in-database", server().written());
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(999);
    cells_of(desk, "count_lot")->getCellByPosition(0, 0)->setFormula("new");
    // Longer than those that fill the table, so that it fits into no rest of a page.
    cells_of(desk, "count_file")->getCellByPosition(0, 0)->setFormula(ustring("X/" + std::string(390, 'o') + ".ods"));
    {
        const FullServer full(server());
        // The table fills its file with rows that are then taken back, so that the next row needs a new page.
        const std::string filled = server().sql(
            "insert into slipbark_count select 'x', 'b', n, 'm', 'l', 'n', 'g', repeat('w', 300), 1, 1, 1 from "
            "generate_series(1, 20000) n");
        ASSERT_TRUE(says(filled, "File too large")) << filled;
        const std::string said = command(desk, "keep-in-database", server().written());
        EXPECT_TRUE(says(said, "Nothing was kept. The database says: ")) << said;
        EXPECT_TRUE(says(said, "File too large")) << said;
        EXPECT_EQ(server().sql("select count(*), sum(trees) from slipbark_block"), "2|370.5");
    }
    EXPECT_TRUE(says(command(desk, "keep-in-database", server().written()), "Kept: 2 blocks"));
    EXPECT_EQ(server().sql("select sum(trees) from slipbark_block"), "1059.5");
}

TEST_F(PostgreSql, TakesAPasswordFromItsOwnFileAlone) {
    const Book desk = filled_desk();
    server().sql("drop role if exists guarded; create role guarded login superuser password 'secret 7'");
    const std::string without = command(desk, "keep-in-database", server().written("guarded"));
    EXPECT_TRUE(says(without, "Nothing was kept. The database says: ")) << without;
    EXPECT_TRUE(says(without, "password")) << without;
    const Folder folder;
    const auto file = folder / "passwords";
    std::ofstream(file) << "*:5499:desk:guarded:secret 7\n";
    fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
    EXPECT_EQ(command(desk, "keep-in-database", server().written("guarded") + " passfile=" + file.string()),
              "Kept: 2 blocks and 2 lines of counts.");
    // In a workbook it would be kept for everybody to read.
    const std::string refused = command(desk, "keep-in-database", server().written("guarded") + " password='secret 7'");
    EXPECT_TRUE(says(refused, "take the password out")) << refused;
    server().sql("reassign owned by guarded to adviser");
    // Neither the profile nor the desk has it.
    desk.save_as(folder / "desk.fods", "OpenDocument Spreadsheet Flat XML");
    EXPECT_FALSE(says(content_of(folder / "desk.fods"), "secret 7"));
    EXPECT_FALSE(says(content_of(calc().profile() / "user" / "registrymodifications.xcu"), "secret 7"));
}

namespace {

// Marked as deprecated, and still the one way to make a source of data.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"

Ref<css::uno::XInterface> new_source(const Ref<css::container::XNameAccess>& sources) {
    return Ref<css::lang::XSingleServiceFactory>(sources, UNO_QUERY_THROW)->createInstance();
}

#pragma GCC diagnostic pop

}  // namespace

// LibreOffice's own database ranges take the views, where the package libreoffice-base is there.
TEST_F(PostgreSql, FeedsARangeOfASheet) {
    const Folder folder;
    const Book desk = filled_desk();
    command(desk, "keep-in-database", server().written());
    const Ref<css::container::XNameAccess> sources(calc().create("com.sun.star.sdb.DatabaseContext"), UNO_QUERY_THROW);
    const Ref<css::beans::XPropertySet> source(new_source(sources), UNO_QUERY_THROW);
    source->setPropertyValue("URL", css::uno::Any("sdbc:postgresql:" + ustring(server().written())));
    const Ref<css::frame::XStorable> file(
        Ref<css::sdb::XDocumentDataSource>(source, UNO_QUERY_THROW)->getDatabaseDocument(), UNO_QUERY_THROW);
    try {
        file->storeAsURL(ustring(file_url(folder / "desk.odb")), {});
    } catch (const css::uno::Exception& missing) {
        GTEST_SKIP() << "libreoffice-base is not here: " << utf8(missing.Message);
    }
    const Ref<css::uno::XNamingService> registry(sources, UNO_QUERY_THROW);
    registry->registerObject("slipbark_desk", source);
    {
        const Book sheet = calc().new_book();
        const Ref<css::beans::XPropertySet> document(sheet.document(), UNO_QUERY_THROW);
        const Ref<css::sheet::XDatabaseRanges> ranges(document->getPropertyValue("DatabaseRanges"), UNO_QUERY_THROW);
        ranges->addNewByName("takes", css::table::CellRangeAddress(0, 0, 0, 0, 0));
        Ref<css::util::XImportable>(sheet.range("A1"), UNO_QUERY_THROW)
            ->doImport(
                properties({property("DatabaseName", css::uno::Any(rtl::OUString("slipbark_desk"))),
                            property("SourceType", css::uno::Any(css::sheet::DataImportMode_TABLE)),
                            property("SourceObject", css::uno::Any(rtl::OUString("public.slipbark_take_nursery")))}));
        EXPECT_EQ(sheet.shown("A2").text, "Fern");
        EXPECT_EQ(sheet.shown("E2").number, 96);
        cells_of(desk, "count_live")->getCellByPosition(0, 2)->setValue(40);  // 31 before
        command(desk, "keep-in-database", server().written());
        Ref<css::util::XRefreshable>(Ref<css::container::XNameAccess>(ranges, UNO_QUERY_THROW)->getByName("takes"),
                                     UNO_QUERY_THROW)
            ->refresh();
        EXPECT_EQ(sheet.shown("E2").number, 105);
    }
    registry->revokeObject("slipbark_desk");
}

TEST(Database, InAFirebirdFileHasEachLineOnce) {
    const Folder folder;
    const std::string file = (folder / "desk.fdb").string();
    const Book desk = filled_desk();
    EXPECT_EQ(command(desk, "keep-in-database", file), "Kept: 2 blocks and 2 lines of counts.");
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(311);
    EXPECT_EQ(command(desk, "keep-in-database", file), "Kept: 2 blocks and 2 lines of counts.");
    EXPECT_EQ(query(file, "select count(*) from slipbark_block"), 2);
    EXPECT_EQ(query(file, "select sum(trees) from slipbark_block"), 371.5);
    EXPECT_EQ(query(file, "select live_grafts from slipbark_take_nursery"), 96);
    EXPECT_EQ(query(file, "select count(*) from slipbark_block where client = 'Señor O''Hara' and season = 2027"), 1);
}

// A limit of the size of files stands for a disk that is full from the start, a small disk for one that fills.
TEST(Database, InAFirebirdFileLosesNothingOnAFullDisk) {
    const Folder folder;
    const SmallDisk disk(folder / "disk", 24'000'000);
    const std::string file = (folder / "disk/desk.fdb").string();
    const Book desk = filled_desk();
    EXPECT_EQ(command(desk, "keep-in-database", file), "Kept: 2 blocks and 2 lines of counts.");
    cells_of(desk, "desk_trees")->getCellByPosition(0, 0)->setValue(999);
    const auto expect_refused = [&] {
        const auto before = content_of(file);
        const std::string said = command(desk, "keep-in-database", file);
        EXPECT_TRUE(says(said, "Nothing was kept. There is not enough space in ")) << said;
        EXPECT_EQ(content_of(file), before);
    };
    {
        const FullDisk full(calc(), 2'000'000);
        expect_refused();
    }
    if (disk.is_there()) {
        std::ofstream(folder / "disk/rest", std::ios::binary) << std::string(16'000'000, 'x');
        expect_refused();
        fs::remove(folder / "disk/rest");
    }
    EXPECT_EQ(query(file, "select sum(trees) from slipbark_block"), 370.5);
    EXPECT_TRUE(says(command(desk, "keep-in-database", file), "Kept: 2 blocks"));
    EXPECT_EQ(query(file, "select sum(trees) from slipbark_block"), 1059.5);
}

// An office as it is where neither driver is installed: one is not in its list of services, the other is listed, and
// its library is not there.
TEST(Database, NamesThePackageOfAMissingDriver) {
    const Folder folder;
    fs::create_directories(folder / "services");
    fs::create_directories(folder / "user");
    for (const auto& list : fs::directory_iterator(fs::path(SLIPBARK_OFFICE_PROGRAM) / "services")) {
        if (list.path().filename() == "postgresql-sdbc.rdb") continue;
        const std::string text = boost::replace_all_copy(content_of(list.path()), "libfirebird_sdbclo", "libmissing");
        std::ofstream(folder / "services" / list.path().filename().string(), std::ios::binary) << text;
    }
    const std::string extension =
        "${${BRAND_BASE_DIR}/program/lounorc:BUNDLED_EXTENSIONS_USER}/registry/"
        "com.sun.star.comp.deployment.component.PackageRegistryBackend/unorc";
    const Office office(start({.bundled = bundled(),
                               .profile = folder / "user",
                               .words = {"-env:URE_MORE_SERVICES=${" + extension + ":UNO_SERVICES} <" +
                                         file_url(folder / "services") + ">*"}}));
    const Book desk = office.open_url(url_of("desk"), true, false);
    EXPECT_EQ(command(desk, "keep-in-database", "host=127.0.0.1 dbname=desk", &office),
              "LibreOffice has no driver for this database: install the package libreoffice-sdbc-postgresql.");
    EXPECT_EQ(command(desk, "keep-in-database", (folder / "desk.fdb").string(), &office),
              "LibreOffice has no driver for this database: install the package libreoffice-sdbc-firebird.");
    EXPECT_FALSE(fs::exists(folder / "desk.fdb"));
}

TEST(Database, SaysWhereItCannotBe) {
    const Folder folder;
    const Book desk = filled_desk();
    EXPECT_TRUE(says(command(desk, "keep-in-database"), "enter the database"));
    const std::string nowhere = command(desk, "keep-in-database", (folder / "no" / "desk.fdb").string());
    EXPECT_TRUE(says(nowhere, "Nothing was kept. The database says: ")) << nowhere;
    std::ofstream(folder / "other.fdb") << "not a database";
    const std::string other = command(desk, "keep-in-database", (folder / "other.fdb").string());
    EXPECT_TRUE(says(other, "Nothing was kept. The database says: ")) << other;
    const std::string none = command(desk, "keep-in-database", "host=127.0.0.1 port=1 dbname=desk");
    EXPECT_TRUE(says(none, "Connection refused")) << none;
}

}  // namespace slipbark::tests

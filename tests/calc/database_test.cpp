// The desk's tables in databases: a PostgreSQL server and a Firebird file that the test starts and makes itself.
#include <cstdlib>
#include <fstream>

#include "desk_document.hpp"
#include "folder.hpp"
#include "postgresql.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;

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

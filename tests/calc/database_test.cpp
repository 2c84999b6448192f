// The desk's tables in databases: a PostgreSQL server and a Firebird file that the test starts and makes itself.
#include <unistd.h>

#include <cstdlib>
#include <fstream>

#include "desk_document.hpp"
#include "folder.hpp"
#include "send.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

namespace fs = std::filesystem;

std::string output_of(const std::string& command) {
    std::string text;
    // NOLINTNEXTLINE(cert-env33-c): the commands are the tests' own
    FILE* const pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return {};
    char buffer[4096];
    while (const std::size_t size = fread(buffer, 1, sizeof buffer, pipe)) text.append(buffer, size);
    pclose(pipe);
    while (!text.empty() && text.back() == '\n') text.pop_back();
    return text;
}

/// A server of this test's own, which listens on a socket in its folder alone. PostgreSQL does not run as root.
class Server {
  public:
    Server() {
        programs_ = output_of("ls -d /usr/lib/postgresql/*/bin 2>/dev/null | tail -1");
        if (programs_.empty()) throw std::runtime_error("PostgreSQL is missing: setup desk");
        as_user_ = geteuid() == 0 ? "cd / && runuser -u postgres -- " : "";
        data_ = folder_ / "data";
        fs::create_directories(data_);
        fs::permissions(data_.parent_path(), fs::perms::all);
        if (geteuid() == 0) run("chown -R postgres '" + data_.parent_path().string() + "'");
        run(as_user_ + programs_ + "/initdb -D '" + data_.string() + "' -A trust -U adviser --no-sync");
        start();
        sql("create database desk", "postgres");
    }
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server() { stop(); }

    void start() {
        run(as_user_ + programs_ + "/pg_ctl -w -D '" + data_.string() + "' -l '" + (data_ / "log").string() +
            "' -o \"-k '" + data_.string() + "' -h '' -p 5499 -c fsync=off\" start");
    }
    void stop() const {
        static_cast<void>(
            output_of(as_user_ + programs_ + "/pg_ctl -w -m immediate -D '" + data_.string() + "' stop 2>&1"));
    }
    std::string sql(const std::string& words, const std::string& database = "desk") const {
        return output_of(programs_ + "/psql -X -A -t -h '" + data_.string() + "' -p 5499 -U adviser -c \"" + words +
                         "\" " + database + " 2>&1");
    }
    /// As it is written into the desk.
    std::string written(const std::string& user = "adviser") const {
        return "host=" + data_.string() + " port=5499 dbname=desk user=" + user;
    }

  private:
    static void run(const std::string& command) {
        const std::string said = output_of(command + " 2>&1; echo status $?");
        if (!said.ends_with("status 0")) throw std::runtime_error(said);
    }

    Folder folder_;
    fs::path data_;
    std::string programs_;
    std::string as_user_;
};

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

// The SQL of the desk's tables. That servers take it is shown in tests/calc/database_test.cpp.
#include "gather/sql.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace slipbark::gather {

TEST(Sql, StandsInTheDocs) {
    std::ifstream in(SLIPBARK_DESK_DOCS);
    const std::string docs{std::istreambuf_iterator<char>(in), {}};
    for (const SqlTable* table : {&block_table(), &count_table()}) {
        const std::string sql = create_sql(*table, Dialect::postgresql);
        EXPECT_NE(docs.find(sql), std::string::npos) << sql;
    }
    EXPECT_NE(docs.find(pooled_views().front().sql), std::string::npos) << pooled_views().front().sql;
    for (const SqlView& view : pooled_views()) EXPECT_NE(docs.find(view.name), std::string::npos) << view.name;
}

TEST(Sql, ChangesARowWhoseKeyIsThere) {
    const SqlTable table{"t", {{"a", SqlType::text, 10, true}, {"b", SqlType::number}}};
    EXPECT_EQ(create_sql(table, Dialect::postgresql),
              "create table t (a varchar(10) not null, b double precision, primary key (a))");
    EXPECT_EQ(upsert_sql(table, Dialect::postgresql, 2),
              "insert into t (a, b) values (?, ?), (?, ?) on conflict (a) do update set b = excluded.b");
    EXPECT_EQ(upsert_sql(table, Dialect::firebird, 1), "update or insert into t (a, b) values (?, ?) matching (a)");
    EXPECT_EQ(add_column_sql(table, table.columns[1], Dialect::firebird), "alter table t add b double precision");
}

// Firebird 3, language reference: an index key takes at most a quarter of a page of 8,192 bytes; of a text of UTF-8
// each letter takes four bytes, and of a key of several columns every four bytes one more.
TEST(Sql, KeysFitAFirebirdPage) {
    for (const SqlTable* table : {&block_table(), &count_table()}) {
        int bytes = 0;
        for (const SqlColumn& column : table->columns) {
            if (column.key) bytes += (column.type == SqlType::text ? 4 * column.length : 8) * 5 / 4;
        }
        EXPECT_LT(bytes, 8192 / 4) << table->name;
    }
}

TEST(Sql, ShowsTheServersSentenceAlone) {
    EXPECT_EQ(server_sentence(
                  "[FATAL] permission denied for table t\n (caused by statement 'insert') at ./connectivity/x.cxx"),
              "[FATAL] permission denied for table t");
    EXPECT_EQ(server_sentence("plain"), "plain");
    EXPECT_EQ(server_sentence(""), "");
}

}  // namespace slipbark::gather

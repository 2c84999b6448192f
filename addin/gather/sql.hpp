// The desk's tables in a database: their SQL, for PostgreSQL and Firebird. Names are reserved words in neither.
#pragma once

#include <string>
#include <vector>

namespace slipbark::gather {

enum class Dialect { postgresql, firebird };

enum class SqlType { text, whole, number, day };

struct SqlColumn {
    const char* name;
    SqlType type;
    int length = 0;    ///< of a text, in letters
    bool key = false;  ///< part of the primary key; never null: a blank text is '', an unknown season 0
};

struct SqlTable {
    const char* name;
    std::vector<SqlColumn> columns;
};

const SqlTable& block_table();
const SqlTable& count_table();

/// A view, with how it is made.
struct SqlView {
    const char* name;
    std::string sql;  ///< create view ...
};

/// Counts summed over all clients by nursery, lot, method and season.
std::vector<SqlView> pooled_views();

/// create table ...
std::string create_sql(const SqlTable& table, Dialect dialect);

/// alter table ... add ..., for a column that a table of an earlier version lacks.
std::string add_column_sql(const SqlTable& table, const SqlColumn& column, Dialect dialect);

/// Gives the names of a table's or view's columns, one a row; no row where there is no such table.
std::string columns_sql(const std::string& table, Dialect dialect);

/// Writes `rows` rows, or changes those whose key is there: with a ? for each value, row by row. Firebird takes one
/// row.
std::string upsert_sql(const SqlTable& table, Dialect dialect, std::size_t rows);

/// What a server said, without what its driver puts behind it.
std::string server_sentence(const std::string& message);

}  // namespace slipbark::gather

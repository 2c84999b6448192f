// "Keep in a database": the desk's blocks and counts in PostgreSQL or in a Firebird file, through the office's own
// drivers.
//
// All lines go in together or not at all. A line whose key is there is changed, so that keeping twice leaves one row.

#include <algorithm>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/sdbc/DataType.hpp>
#include <com/sun/star/sdbc/SQLException.hpp>
#include <com/sun/star/sdbc/XCloseable.hpp>
#include <com/sun/star/sdbc/XConnection.hpp>
#include <com/sun/star/sdbc/XDriver.hpp>
#include <com/sun/star/sdbc/XParameters.hpp>
#include <com/sun/star/sdbc/XResultSet.hpp>
#include <com/sun/star/sdbc/XRow.hpp>
#include <com/sun/star/util/Date.hpp>
#include <map>
#include <osl/file.hxx>
#include <stdexcept>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/desk.hpp"
#include "gather/sql.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;
using gather::Dialect;

namespace {

/// Where the tables are kept.
struct Database {
    Dialect dialect = Dialect::firebird;
    rtl::OUString url;
    rtl::OUString folder = {};  ///< of a Firebird file; empty where there is no such folder
};

/// "host=farm port=5432 dbname=desk" is a PostgreSQL server, another text the file of a Firebird database.
Database database_of(const rtl::OUString& written) {
    const rtl::OUString text = written.trim();
    if (text.indexOf("dbname=") >= 0) {
        const rtl::OUString patience = text.indexOf("connect_timeout=") >= 0 ? rtl::OUString() : " connect_timeout=5";
        return {Dialect::postgresql, "sdbc:postgresql:" + text + patience};
    }
    rtl::OUString file = text;
    if (!text.startsWith("file:")) osl::FileBase::getFileURLFromSystemPath(text, file);
    const rtl::OUString folder = file.copy(0, std::max<sal_Int32>(file.lastIndexOf('/'), 0));
    const bool there = osl::Directory(folder).open() == osl::FileBase::E_None;
    return {Dialect::firebird, "sdbc:firebird:" + file, there ? folder : rtl::OUString()};
}

/// The driver itself, by its implementation's name: the driver manager, which finds it by the URL, is in a package of
/// its own (libreoffice-base-drivers) that nothing else here needs. Null where the driver is not installed.
Reference<css::sdbc::XDriver> new_driver(const Reference<css::uno::XComponentContext>& context, Dialect dialect) {
    const char* const name = dialect == Dialect::postgresql ? "org.openoffice.comp.connectivity.pq.Driver.noext"
                                                            : "com.sun.star.comp.sdbc.firebird.Driver";
    try {
        return {context->getServiceManager()->createInstanceWithContext(rtl::OUString::createFromAscii(name), context),
                UNO_QUERY};
    } catch (const css::uno::Exception&) {
        return {};  // listed, but its library is not there
    }
}

/// One of each for as long as the office runs: the end of a Firebird driver ends Firebird for the whole process, and no
/// file can be opened any more.
Reference<css::sdbc::XDriver> driver_of(const Reference<css::uno::XComponentContext>& context, Dialect dialect) {
    if (dialect == Dialect::postgresql) return new_driver(context, dialect);
    static const auto* const firebird = new Reference<css::sdbc::XDriver>(new_driver(context, Dialect::firebird));
    return *firebird;
}

const char* package_of(Dialect dialect) {
    return dialect == Dialect::postgresql ? "libreoffice-sdbc-postgresql" : "libreoffice-sdbc-firebird";
}

/// A connection with transactions, closed with the object. What was not committed is not kept.
class Connection {
  public:
    Connection(const Reference<css::sdbc::XDriver>& driver, const Database& database, const rtl::OUString& user)
        : dialect_(database.dialect) {
        css::uno::Sequence<css::beans::PropertyValue> info;
        if (!user.isEmpty()) {
            info.realloc(1);
            info.getArray()[0].Name = "user";
            info.getArray()[0].Value <<= user;
        }
        connection_ = driver->connect(database.url, info);
        if (!connection_.is()) throw std::runtime_error("no connection");
        if (dialect_ == Dialect::firebird) connection_->setAutoCommit(false);
    }
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    ~Connection() {
        try {
            if (in_work_) end("rollback");
            connection_->close();
        } catch (const css::uno::Exception&) {
            in_work_ = false;  // the server is gone, and what was not committed with it
        }
    }

    [[nodiscard]] Dialect dialect() const { return dialect_; }
    /// PostgreSQL's driver takes setAutoCommit, commit and rollback and does nothing; its server knows the words.
    void begin() {
        if (dialect_ == Dialect::postgresql) execute("begin");
        in_work_ = true;
    }
    void commit() {
        end("commit");
        in_work_ = false;
    }
    void execute(const std::string& sql) const {
        // Not executeUpdate: Firebird's driver commits after "create table", and asks the closed statement for a count.
        const auto statement = connection_->createStatement();
        statement->execute(to_ustring(sql));
    }
    [[nodiscard]] Reference<css::sdbc::XPreparedStatement> prepare(const std::string& sql) const {
        return connection_->prepareStatement(to_ustring(sql));
    }
    /// Names of the columns of a table or view in lower case; none where there is no such table.
    [[nodiscard]] std::vector<std::string> columns_of(const std::string& table) const {
        // Statement and result are kept while they are read: Firebird's driver closes the one with the other.
        const auto statement = connection_->createStatement();
        const auto result = statement->executeQuery(to_ustring(gather::columns_sql(table, dialect_)));
        const Reference<css::sdbc::XRow> row(result, UNO_QUERY_THROW);
        std::vector<std::string> columns;
        while (result->next()) columns.push_back(to_utf8(row->getString(1).trim().toAsciiLowerCase()));
        return columns;
    }

  private:
    void end(const char* how) const {
        if (dialect_ == Dialect::postgresql) {
            execute(how);
        } else if (std::string_view(how) == "commit") {
            connection_->commit();
        } else {
            connection_->rollback();
        }
    }

    Dialect dialect_;
    Reference<css::sdbc::XConnection> connection_;
    bool in_work_ = false;
};

/// Makes what is missing: tables, columns of tables of an earlier version, views.
void make_tables(Connection& connection) {
    connection.begin();
    for (const auto* table : {&gather::block_table(), &gather::count_table()}) {
        const auto there = connection.columns_of(table->name);
        if (there.empty()) connection.execute(gather::create_sql(*table, connection.dialect()));
        for (const gather::SqlColumn& column : table->columns) {
            if (there.empty() || std::ranges::find(there, column.name) != there.end()) continue;
            connection.execute(gather::add_column_sql(*table, column, connection.dialect()));
        }
    }
    connection.commit();
    connection.begin();
    for (const gather::SqlView& view : gather::pooled_views()) {
        if (connection.columns_of(view.name).empty()) connection.execute(view.sql);
    }
    connection.commit();
}

/// At most so many letters of a text.
rtl::OUString cut(const rtl::OUString& text, int length) {
    return text.getLength() <= length ? text : text.copy(0, length);
}

void bind(const Reference<css::sdbc::XParameters>& place, sal_Int32 index, const gather::SqlColumn& column,
          const Any& value, Day null_date) {
    double number = 0;
    rtl::OUString text;
    const bool has_number = value >>= number;
    const bool has_text = !has_number && (value >>= text) && !text.isEmpty();
    switch (column.type) {
        case gather::SqlType::text:
            if (has_number) text = to_ustring(slipbark::filled("{1}", {number}));
            if (has_number || has_text || column.key) {
                place->setString(index, cut(text, column.length));
            } else {
                place->setNull(index, css::sdbc::DataType::VARCHAR);
            }
            break;
        case gather::SqlType::whole:
            place->setLong(index, has_number ? static_cast<sal_Int64>(number) : 0);
            break;
        case gather::SqlType::number:
            if (has_number) {
                place->setDouble(index, number);
            } else {
                place->setNull(index, css::sdbc::DataType::DOUBLE);
            }
            break;
        case gather::SqlType::day:
            if (has_number) {
                const std::chrono::year_month_day day(null_date + std::chrono::days(static_cast<int>(number)));
                place->setDate(index, css::util::Date(static_cast<sal_uInt16>(static_cast<unsigned>(day.day())),
                                                      static_cast<sal_uInt16>(static_cast<unsigned>(day.month())),
                                                      static_cast<sal_Int16>(static_cast<int>(day.year()))));
            } else {
                place->setNull(index, css::sdbc::DataType::DATE);
            }
            break;
    }
}

void write(const Connection& connection, const gather::SqlTable& table, const std::vector<DeskLine>& lines,
           Day null_date) {
    constexpr std::size_t at_once = 100;  // rows of one statement: eight times as quick as one row each
    const std::size_t most = connection.dialect() == Dialect::postgresql ? at_once : 1;
    Reference<css::sdbc::XPreparedStatement> statement;
    std::size_t prepared = 0;
    for (std::size_t from = 0; from < lines.size(); from += prepared) {
        const std::size_t rows = std::min(most, lines.size() - from);
        if (rows != prepared) statement = connection.prepare(gather::upsert_sql(table, connection.dialect(), rows));
        prepared = rows;
        const Reference<css::sdbc::XParameters> places(statement, UNO_QUERY_THROW);
        sal_Int32 index = 0;
        for (std::size_t row = 0; row < rows; ++row) {
            for (std::size_t column = 0; column < table.columns.size(); ++column) {
                bind(places, ++index, table.columns[column], lines[from + row][column], null_date);
            }
        }
        statement->executeUpdate();
    }
}

/// Columns of the desk in the order of a table's.
constexpr std::array block_columns{
    "desk_client", "desk_block",     "desk_season",  "desk_file",        "desk_old_variety",  "desk_new_variety",
    "desk_trees",  "desk_grafts",    "desk_take",    "desk_take_low",    "desk_take_high",    "desk_regrafts",
    "desk_days",   "desk_tree_cost", "desk_payback", "desk_lowest_cash", "desk_state_number", "desk_overdue",
    "desk_sticks", "desk_order_by",  "desk_as_of"};
constexpr std::array count_columns{"count_client", "count_block",   "count_season",  "count_method",
                                   "count_lot",    "count_nursery", "count_grafter", "count_file",
                                   "count_trees",  "count_grafts",  "count_live"};

template <std::size_t size>
std::vector<DeskLine> in_order(const std::vector<DeskLine>& lines, const DeskTable& table,
                               const std::array<const char*, size>& columns) {
    std::vector<DeskLine> made;
    for (const DeskLine& line : lines) {
        DeskLine one;
        for (const char* column : columns) {
            const auto at = std::ranges::find(table.columns, std::string_view(column)) - table.columns.begin();
            one.push_back(line.at(static_cast<std::size_t>(at)));
        }
        made.push_back(std::move(one));
    }
    return made;
}

/// The key of a line as the database compares it.
std::string key_of(const gather::SqlTable& table, const DeskLine& line) {
    std::string key;
    for (std::size_t at = 0; at < table.columns.size(); ++at) {
        if (!table.columns[at].key) continue;
        double number = 0;
        rtl::OUString text;
        if (line[at] >>= number) {
            key += slipbark::filled("{1}", {number});
        } else if (line[at] >>= text) {
            key += to_utf8(table.columns[at].length > 0 ? cut(text, table.columns[at].length) : text);
        }
        key += '\n';
    }
    return key;
}

/// One line for each key: counts of grafters who are not named are summed, of blocks the last line counts.
std::vector<DeskLine> one_a_key(const gather::SqlTable& table, const std::vector<DeskLine>& lines, bool sums) {
    std::map<std::string, std::size_t> places;
    std::vector<DeskLine> made;
    for (const DeskLine& line : lines) {
        const auto [place, is_new] = places.try_emplace(key_of(table, line), made.size());
        if (is_new) {
            made.push_back(line);
            continue;
        }
        DeskLine& before = made[place->second];
        if (!sums) before = line;
        for (std::size_t at = 0; sums && at < table.columns.size(); ++at) {
            double one = 0;
            double other = 0;
            if (table.columns[at].type == gather::SqlType::number && (before[at] >>= one) && (line[at] >>= other)) {
                before[at] <<= one + other;
            }
        }
    }
    return made;
}

/// Firebird ends the whole office where its file cannot grow, so there must be room before it starts.
void expect_room_for(const Database& database, std::size_t lines) {
    if (database.folder.isEmpty()) return;
    constexpr std::size_t of_a_line = 1000;  // some six times what a line takes in tables and keys
    constexpr std::size_t of_the_rest = 8 << 20;
    rtl::OUString temporary;
    osl::FileBase::getTempDirURL(temporary);  // Firebird's locks are there
    expect_room(temporary, of_the_rest);
    expect_room(database.folder, of_the_rest + lines * of_a_line);
}

std::string sentence_of(const css::sdbc::SQLException& error) {
    // On connecting, the server's words stand in SQLState.
    const rtl::OUString& words = error.SQLState.getLength() > 5 ? error.SQLState : error.Message;
    return gather::server_sentence(to_utf8(words));
}

rtl::OUString text_in(const Reference<css::frame::XModel>& desk, const char* name) {
    const auto cells = named_cells(desk, rtl::OUString::createFromAscii(name));
    return cells.is() ? shown(cells->getCellByPosition(0, 0)).trim() : rtl::OUString();
}

}  // namespace

Done keep_in_database(const Sent& sent) {
    const auto desk = sent.document();
    if (!is_desk(desk)) {
        return {
            menu_language().translated(translatable("This is no desk: open one with Rework > New adviser's desk."))};
    }
    const rtl::OUString written = sent.url.isEmpty() ? text_in(desk, "database") : sent.url;
    if (written.isEmpty()) {
        return {menu_language().translated(
            translatable("Nothing was kept: enter the database on sheet Desk, a file for Firebird or "
                         "\"host=... dbname=...\" for PostgreSQL."))};
    }
    if (written.toAsciiLowerCase().indexOf("password=") >= 0) {
        return {menu_language().translated(
            translatable("Nothing was kept: take the password out of the database's line, since a workbook is no place "
                         "for it. PostgreSQL takes it from its own password file (~/.pgpass)."))};
    }
    const Database database = database_of(written);
    const auto driver = driver_of(sent.context, database.dialect);
    if (!driver.is()) {
        return {menu_language().translated(
            translatable("LibreOffice has no driver for this database: install the package {1}."),
            {package_of(database.dialect)})};
    }
    const auto blocks =
        one_a_key(gather::block_table(), in_order(read_lines(desk, desk_blocks), desk_blocks, block_columns), false);
    const auto counts =
        one_a_key(gather::count_table(), in_order(read_lines(desk, desk_counts), desk_counts, count_columns), true);
    const Day null_date = null_date_of(Document(desk, UNO_QUERY_THROW));
    try {
        expect_room_for(database, blocks.size() + counts.size());
        Connection connection(driver, database, text_in(desk, "database_user"));
        make_tables(connection);
        connection.begin();
        write(connection, gather::block_table(), blocks, null_date);
        write(connection, gather::count_table(), counts, null_date);
        connection.commit();
    } catch (const css::sdbc::SQLException& error) {
        return {
            menu_language().translated(translatable("Nothing was kept. The database says: {1}"), {sentence_of(error)})};
    } catch (const css::io::IOException& error) {
        return {menu_language().translated(translatable("Nothing was kept. {1}"), {to_utf8(error.Message)})};
    } catch (const css::uno::RuntimeException& error) {
        return {menu_language().translated(translatable("Nothing was kept. The database says: {1}"),
                                           {to_utf8(error.Message)})};
    }
    return {menu_language().translated(translatable("Kept: {1} blocks and {2} lines of counts."),
                                       {static_cast<double>(blocks.size()), static_cast<double>(counts.size())})};
}

}  // namespace slipbark::addin

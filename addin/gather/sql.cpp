#include "gather/sql.hpp"

#include <algorithm>

namespace slipbark::gather {

namespace {

std::string type_of(const SqlColumn& column, Dialect dialect) {
    switch (column.type) {
        case SqlType::text:
            return "varchar(" + std::to_string(column.length) + ")" +
                   (dialect == Dialect::firebird ? " character set utf8" : "");
        case SqlType::whole:
            return "bigint";
        case SqlType::number:
            return "double precision";
        case SqlType::day:
            return "date";
    }
    return {};
}

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
    return all;
}

std::vector<std::string> names_of(const SqlTable& table, bool (*wanted)(const SqlColumn&)) {
    std::vector<std::string> names;
    for (const SqlColumn& column : table.columns) {
        if (wanted(column)) names.emplace_back(column.name);
    }
    return names;
}

bool is_any(const SqlColumn& /*column*/) { return true; }
bool is_key(const SqlColumn& column) { return column.key; }
bool is_value(const SqlColumn& column) { return !column.key; }

}  // namespace

const SqlTable& block_table() {
    using enum SqlType;
    static const SqlTable table{"slipbark_block", {{"client", text, 80, true}, {"block_name", text, 80, true},
                                                   {"season", whole, 0, true}, {"workbook", text, 400},
                                                   {"old_variety", text, 80},  {"new_variety", text, 80},
                                                   {"trees", number},          {"grafts", number},
                                                   {"take", number},           {"take_low", number},
                                                   {"take_high", number},      {"regrafts", number},
                                                   {"crew_days", number},      {"tree_cost", number},
                                                   {"payback_years", number},  {"lowest_cash", number},
                                                   {"block_state", number},    {"stages_late", number},
                                                   {"sticks", number},         {"order_by_day", day},
                                                   {"figures_of", day}}};
    return table;
}

const SqlTable& count_table() {
    using enum SqlType;
    static const SqlTable table{"slipbark_count",
                                {{"client", text, 80, true},
                                 {"block_name", text, 80, true},
                                 {"season", whole, 0, true},
                                 {"graft_method", text, 50, true},
                                 {"lot", text, 40, true},
                                 {"nursery", text, 80, true},
                                 {"grafter", text, 20, true},
                                 {"workbook", text, 400},
                                 {"trees", number},
                                 {"grafts", number},
                                 {"live_grafts", number}}};
    return table;
}

std::vector<SqlView> pooled_views() {
    const auto view = [](const char* name, const std::string& group) {
        return SqlView{name,
                       "create view " + std::string(name) + " as select " + group +
                           ", count(*) as lines_counted, sum(trees) as trees, sum(grafts) as grafts, sum(live_grafts) "
                           "as live_grafts, sum(live_grafts) / nullif(sum(grafts), 0) as take from slipbark_count "
                           "group by " +
                           group};
    };
    return {view("slipbark_take_nursery", "nursery"), view("slipbark_take_lot", "nursery, lot"),
            view("slipbark_take_method", "graft_method"), view("slipbark_take_season", "season")};
}

std::string create_sql(const SqlTable& table, Dialect dialect) {
    std::vector<std::string> parts;
    for (const SqlColumn& column : table.columns) {
        parts.push_back(std::string(column.name) + " " + type_of(column, dialect) + (column.key ? " not null" : ""));
    }
    parts.push_back("primary key (" + joined(names_of(table, is_key)) + ")");
    return "create table " + std::string(table.name) + " (" + joined(parts) + ")";
}

std::string add_column_sql(const SqlTable& table, const SqlColumn& column, Dialect dialect) {
    return "alter table " + std::string(table.name) + " add " + column.name + " " + type_of(column, dialect);
}

std::string columns_sql(const std::string& table, Dialect dialect) {
    if (dialect == Dialect::postgresql) {
        return "select column_name from information_schema.columns where table_schema = any(current_schemas(false)) "
               "and "
               "table_name = '" +
               table + "'";
    }
    std::string upper = table;
    std::ranges::transform(upper, upper.begin(),
                           [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
    return "select rdb$field_name from rdb$relation_fields where rdb$relation_name = '" + upper + "'";
}

std::string upsert_sql(const SqlTable& table, Dialect dialect, std::size_t rows) {
    const std::string row = "(" + joined(std::vector<std::string>(table.columns.size(), "?")) + ")";
    const std::string into = " into " + std::string(table.name) + " (" + joined(names_of(table, is_any)) + ") values ";
    const std::string key = "(" + joined(names_of(table, is_key)) + ")";
    if (dialect == Dialect::firebird) return "update or insert" + into + row + " matching " + key;
    std::vector<std::string> changes;
    for (const std::string& name : names_of(table, is_value)) changes.push_back(name + " = excluded." + name);
    return "insert" + into + joined(std::vector<std::string>(rows, row)) + " on conflict " + key + " do update set " +
           joined(changes);
}

std::string server_sentence(const std::string& message) {
    std::size_t end = message.size();
    for (const char* tail : {" (caused by statement", "(caused by statement", " at ./", " at /"}) {
        end = std::min(end, message.find(tail));
    }
    std::string sentence = message.substr(0, end);
    std::ranges::replace(sentence, '\n', ' ');
    while (!sentence.empty() && (sentence.back() == ' ' || sentence.back() == ':')) sentence.pop_back();
    return sentence;
}

}  // namespace slipbark::gather

#include "skeinfall/store/layout.hpp"

#include <map>
#include <string_view>

#include "skeinfall/store/embedded_schema.hpp"

namespace skeinfall::store {
namespace {

/// Every statement of schema.sql, as SQLite keeps it: from CREATE to what is before its last ";".
const std::map<std::string_view, bool>& statements() {
    static const std::map<std::string_view, bool> all = [] {
        constexpr std::string_view begins = "\nCREATE ";
        const std::string_view text = schema_sql;
        std::map<std::string_view, bool> out;
        std::size_t at = text.find(begins);
        while (at != std::string_view::npos) {
            const std::size_t next = text.find(begins, at + 1);
            const std::string_view one = text.substr(at + 1, next - at - 1);
            out.emplace(one.substr(0, one.ends_with(';') ? one.size() - 1 : one.rfind(";\n")),
                        false);
            at = next;
        }
        return out;
    }();
    return all;
}

/// "movement" of "CREATE TABLE movement (..."
std::string name_in(std::string_view statement) {
    std::size_t at = statement.starts_with("CREATE UNIQUE ") ? statement.find(' ', 8) + 1 : 7;
    at = statement.find(' ', at) + 1;
    return std::string(statement.substr(at, statement.find_first_of(" (\n", at) - at));
}

}  // namespace

LayoutFaults layout_faults(SQLite::Database& database) {
    LayoutFaults out;
    std::map<std::string_view, bool> wanted = statements();
    SQLite::Statement rows(database, "SELECT type, name, sql FROM sqlite_schema");
    while (rows.executeStep()) {
        const std::string type = rows.getColumn(0).getString();
        const std::string name = rows.getColumn(1).getString();
        const std::string sql = rows.getColumn(2).getString();
        // What SQLite makes by itself: indices of keys, numbers given so far, ANALYZE.
        if (type == "index" && sql.empty() && name.starts_with("sqlite_autoindex_")) continue;
        if (sql == "CREATE TABLE sqlite_sequence(name,seq)") continue;
        if (type == "table" && name.starts_with("sqlite_stat")) continue;
        const auto known = wanted.find(sql);
        if (known != wanted.end() && !known->second && name_in(sql) == name) {
            known->second = true;
            continue;
        }
        out.foreign.push_back(name);
        if (type != "trigger" && type != "index") out.safe_to_read = false;
    }
    for (const auto& [sql, seen] : wanted) {
        if (seen) continue;
        out.missing.push_back(name_in(sql));
        if (sql.starts_with("CREATE TABLE") || sql.starts_with("CREATE VIEW"))
            out.safe_to_read = false;
    }
    return out;
}

}  // namespace skeinfall::store

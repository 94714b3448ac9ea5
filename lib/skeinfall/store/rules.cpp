#include "skeinfall/store/rules.hpp"

#include <algorithm>
#include <memory>

#include <sqlite3.h>

#include "skeinfall/store/embedded_schema.hpp"

namespace skeinfall::store {

std::string BrokenRule::in_words() const {
    std::string out = rule;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::vector<BrokenRule> broken_rules(SQLite::Database& database) {
    std::vector<BrokenRule> out;
    sqlite3* const handle = database.getHandle();
    const char* rest = checks_sql;
    while (*rest != '\0') {
        sqlite3_stmt* raw = nullptr;
        if (sqlite3_prepare_v2(handle, rest, -1, &raw, &rest) != SQLITE_OK)
            throw SQLite::Exception(handle);
        const std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> check(raw, sqlite3_finalize);
        if (!check) continue;
        int result = sqlite3_step(raw);
        for (; result == SQLITE_ROW; result = sqlite3_step(raw)) {
            const auto cell = [raw](int column) {
                const auto* text = sqlite3_column_text(raw, column);
                return text == nullptr
                           ? std::string()
                           : std::string(text, text + sqlite3_column_bytes(raw, column));
            };
            out.push_back({cell(0), cell(1)});
        }
        if (result != SQLITE_DONE) throw SQLite::Exception(handle);
    }
    return out;
}

}  // namespace skeinfall::store

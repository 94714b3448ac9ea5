#pragma once
/// \file
/// Internal to the store: the rules of schema/checks.sql.

#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

namespace skeinfall::store {

struct BrokenRule {
    std::string rule;   ///< "amounts_fit_their_kind"
    std::string where;  ///< the id of a skein, mostly; bytes as they lie in the file

    /// "amounts fit their kind"
    [[nodiscard]] std::string in_words() const;
};

/// Whatever breaks a rule. Throws SQLite::Exception.
[[nodiscard]] std::vector<BrokenRule> broken_rules(SQLite::Database& database);

}  // namespace skeinfall::store

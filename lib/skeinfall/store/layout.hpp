#pragma once
/// \file
/// Internal to the store: is a file laid out as schema/schema.sql says?

#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

namespace skeinfall::store {

/// Names of what is in the file and not in the layout, is not as the layout has it, or is missing.
struct LayoutFaults {
    std::vector<std::string> foreign;
    std::vector<std::string> missing;
    /// Tables and views are as they should be, so reading the file runs nothing but our own.
    bool safe_to_read = true;

    [[nodiscard]] bool none() const { return foreign.empty() && missing.empty(); }
};

/// Compares texts only: runs nothing of the file. Throws SQLite::Exception.
[[nodiscard]] LayoutFaults layout_faults(SQLite::Database& database);

}  // namespace skeinfall::store

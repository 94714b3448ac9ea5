#pragma once
/// \file
/// Internal to the store: rows from the pages of a file, whatever its indices, its schema or its
/// end have come to.
///
/// The form of the pages is the published one: "Database File Format", sqlite.org/fileformat2.html.
/// No library reads a file that SQLite itself refuses. A table is known by the shape of its rows.

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>

#include <SQLiteCpp/SQLiteCpp.h>

namespace skeinfall::store {

/// What was found in the pages.
struct Scrap {
    /// Last number that SQLite gave in a table, by its own count; none where that cannot be read
    /// or cannot be: more rows than the file ever had room for.
    std::map<std::string, std::int64_t> last_numbers;
    /// The count was there but cannot be.
    bool unbelievable_count = false;
};

/// Puts every row of yarn, skein, entry, movement, description, promise and reading that can be
/// read into tables of the same names and columns in `to`, which are made without any rule. Reads
/// `file` and the "-wal" beside it; changes neither. Throws base::StoreError when they cannot be
/// read at all.
Scrap collect(const std::filesystem::path& file, SQLite::Database& to);

}  // namespace skeinfall::store

#pragma once
/// \file
/// A stash as JSON (RFC 8259), described by schema/stash.schema.json.
///
/// {"format": "skeinfall stash", "version": 1, "movements": [...]}, where every movement is an
/// object with the fields of stash_fields.hpp as strings (class and knots as whole numbers); and,
/// when there are any, "readings" with the fields of reading_fields.hpp. A field that is not known
/// is left out.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/stash_table.hpp"

namespace skeinfall::exchange {

/// Throws base::InputError with every mistake of the text; `file` names it in their places.
[[nodiscard]] StashTable parse_stash_json(std::string_view text, const std::string& file);

/// The same for a file of at most `largest_stash` bytes.
[[nodiscard]] StashTable read_stash_json(const std::filesystem::path& path);

/// Ended by LF. Read again, it holds the same movements and readings.
[[nodiscard]] std::string stash_json(const std::vector<stash::Movement>& movements,
                                     const std::vector<stash::WorkReading>& readings = {});

}  // namespace skeinfall::exchange

#pragma once
/// \file
/// The fields of a reading of work in progress, as JSON writes them.
///
/// Fields: project; role (which of its yarns); piece (left out: the first); copy (1 when left out);
/// row (after it); skein; mass ("62 g"); scale ("1 g"); tare; afresh ("true": earlier readings are
/// void); date ("2024-05-31"); note.

#include <array>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::exchange {

/// In the order they are written.
inline constexpr auto reading_field_names =
    std::to_array<std::string_view>({"project", "role", "piece", "copy", "row", "skein", "mass",
                                     "scale", "tare", "afresh", "date", "note"});

/// With mistakes (all of them are given to fail()) what it returns means nothing.
[[nodiscard]] stash::WorkReading read_reading(Fields& fields);

/// The fields of a reading that are not empty. Reading them gives the reading again.
[[nodiscard]] std::vector<Written> fields_of(const stash::WorkReading& reading);

}  // namespace skeinfall::exchange

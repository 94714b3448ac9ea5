#pragma once
/// \file
/// What a stash file in another form holds, and the check that no id begins twice.

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::exchange {

/// The largest stash that is read, 128 MiB and so many rows: a wrong file is found out before it
/// fills the memory.
inline constexpr std::size_t largest_stash = std::size_t{128} * 1024 * 1024;
inline constexpr std::size_t most_rows = 250'000;

struct StashTable {
    /// In the order of the rows, each with its place. A skein without an id keeps an empty one,
    /// also in the weighing that follows it: the store gives it.
    std::vector<stash::Line> lines;
    std::vector<stash::WorkReading> readings;  ///< of work in progress; JSON only
    bool days_stated = false;                  ///< the file tells the days of its movements
    /// "Dye Lot -> dye lot", one line a column in the order of the file.
    std::vector<std::string> understood;
};

/// The skeins that begin in the table, with the weighing of their row.
[[nodiscard]] std::vector<stash::Skein> skeins_of(const StashTable& table);

/// Adds the rows of a text to a table.
class RowTaker {
  public:
    RowTaker(const SourceText& source, StashTable& table);

    /// `offset` of the row's first byte.
    void take(Fields& fields, std::size_t offset);

  private:
    const SourceText& source_;
    StashTable& table_;
    std::map<std::string, std::size_t, std::less<>> begun_;
    std::size_t rows_ = 0;
};

}  // namespace skeinfall::exchange

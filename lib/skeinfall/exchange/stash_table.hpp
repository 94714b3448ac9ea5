#pragma once
/// \file
/// What a stash file in another form holds, and the check that no id begins twice.

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/stash/lines.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::exchange {

/// The largest stash that is read, 256 MiB and so many rows: a wrong file is found out before it
/// fills the memory.
inline constexpr std::size_t largest_stash = std::size_t{256} * 1024 * 1024;
inline constexpr std::size_t most_rows = 1'000'000;

struct StashTable {
    /// In the order of the rows, each with its place. A skein without an id keeps an empty one,
    /// also in the weighing that follows it: the store gives it.
    stash::Lines lines;
    std::vector<stash::WorkReading> readings;  ///< of work in progress; JSON only
    bool days_stated = false;                  ///< the file tells the days of its movements
    /// "Dye Lot -> dye lot", one line a column in the order of the file.
    std::vector<std::string> understood;
};

/// The skeins that begin in the table, each with the weighing of its row.
void for_each_skein(const StashTable& table, const std::function<void(const stash::Skein&)>& take);

/// The same as a list.
[[nodiscard]] std::vector<stash::Skein> skeins_of(const StashTable& table);

/// Adds the rows of a text to a table.
class RowTaker {
  public:
    RowTaker(const SourceText& source, StashTable& table, std::size_t most = most_rows);

    /// `offset` of the row's first byte.
    void take(Fields& fields, std::size_t offset);

  private:
    const SourceText& source_;
    StashTable& table_;
    std::unordered_map<std::string_view, std::size_t> begun_;  // ids in the table, and where
    std::size_t most_;
    std::size_t rows_ = 0;
};

}  // namespace skeinfall::exchange

#pragma once
/// \file
/// A sheet of skeins that was imported before, and comes again.
///
/// Its rows are compared, as a multiset, with what came in with the earlier import, not with what
/// has become of it since: use and weighings of the skeins do not count.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::stash {

/// A skein as a row describes it; its weighing is that of the row.
struct SheetRow {
    Skein skein;
    std::optional<base::Day> day;
};

/// A skein that came in earlier.
struct EarlierRow {
    SheetRow row;
    std::string id;
    std::int64_t entry = 0;  ///< what came in together
};

enum class RowIs {
    fresh,    ///< not seen before
    seen,     ///< came in before, just so
    reworded  ///< a row that came in before is gone and this one is like it but for some cells
};

struct ComparedRow {
    RowIs is = RowIs::fresh;
    std::size_t earlier = 0;  ///< which of the earlier rows, unless fresh
};

struct SheetComparison {
    std::vector<ComparedRow> rows;  ///< of the sheet, in its order
    std::vector<std::size_t> gone;  ///< earlier rows of the same imports that have no row now
};

/// Names and lots are compared as base::name_key() and base::lot_name_key() do, figures by their
/// values; days only where `days_count`. An import comes again where one of its rows does, or where
/// it has every yarn of the sheet. A reworded row has the same yarn, colourway, lot, shade
/// group and label, and outside the imports that come again the same state and weighing too.
[[nodiscard]] SheetComparison compare_sheet(const std::vector<SheetRow>& sheet,
                                            const std::vector<EarlierRow>& earlier,
                                            bool days_count);

/// "the note", "the weighing": the first thing in which two rows differ, days left out; empty when
/// alike.
[[nodiscard]] std::string difference_of(const SheetRow& one, const SheetRow& other);

}  // namespace skeinfall::stash

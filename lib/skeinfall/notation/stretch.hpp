#pragma once
/// \file
/// Written rows on another foundation, or with more rows: the numbers in the text are changed
/// where they have to be, and what comes out is read and worked again before it is believed.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

struct Stretched {
    std::vector<WrittenRows> entries;
    project::WorkedRows rows;
};

/// The count that the foundation line has, "Ch 122" or "Cast on 40 sts"; nothing where no line
/// before row 1 states one alone.
[[nodiscard]] std::optional<std::int64_t> foundation_count(const std::vector<WrittenRows>& entries,
                                                           const NotationOptions& options);

/// The rows on a foundation of `count`: counted repeats and declared counts follow. Nothing where
/// some row does not come out even, or the rows as they stand contradict themselves.
[[nodiscard]] std::optional<Stretched> with_foundation(const std::vector<WrittenRows>& entries,
                                                       const NotationOptions& options,
                                                       std::int64_t count);

/// The rows made `count` in all: a range or a number of repeats in the text becomes another, the
/// numbers behind it move. Of several numbers that do it the last whose rows are `wanted`, else the
/// last. Nothing where no number of the text does that.
[[nodiscard]] std::optional<Stretched> with_rows(
    const std::vector<WrittenRows>& entries, const NotationOptions& options, std::int64_t count,
    const std::function<bool(const project::WorkedRows&)>& wanted = {});

}  // namespace skeinfall::notation

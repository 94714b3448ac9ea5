#pragma once
/// \file
/// How stripes lie on so many rows: a repeat over and over, colours that fade into each other,
/// bands with one colour between them, balls one after the other.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/project/row_work.hpp"

namespace skeinfall::colours {

using Stripes = std::vector<project::Stripe>;

/// Rows of all of them.
[[nodiscard]] std::int64_t rows_of(const Stripes& stripes);

/// The stripes of `rows` rows, the repeat begun anew as often as need be and cut off at the end;
/// neighbours of one yarn are one stripe.
[[nodiscard]] Stripes laid_out(const Stripes& repeat, std::int64_t rows);

/// The same between `edge` rows of one yarn at either end. Nothing when no row is left between.
[[nodiscard]] std::optional<Stripes> edged(const Stripes& repeat, std::int64_t rows,
                                           const project::Stripe& edge);

/// Each colour in so many rows, one after the other; around every change `over` rows in which the
/// rows of the next come in growing shares, as far as the colours' own heights permit. Rows are
/// mixed `step` at a time: 2 leave flat work's yarns at one edge.
[[nodiscard]] Stripes faded(const Stripes& colours, std::int64_t over, std::int64_t step);

/// The most rows over which neighbours can be mixed without a third colour coming in.
[[nodiscard]] std::int64_t widest_fade(const Stripes& colours);

/// Rows at each change from one of the colours to the next in which both are worked: from the
/// first row of the next to the last of the one before. 0 where they meet in one line.
[[nodiscard]] std::vector<std::int64_t> mixed_rows(const Stripes& stripes, const Stripes& colours);

/// The same as faded(), with as many mixed rows at every change as come nearest to `over`.
[[nodiscard]] Stripes faded_over(const Stripes& colours, std::int64_t over, std::int64_t step);

/// Bands of a repeat worked `times` times at their own heights; the stripes of `filler` among them
/// share the rest of `rows` evenly, whole `step`s each. A repeat that begins with the filler ends
/// with it too. Nothing when a filler's stripe would have no row.
[[nodiscard]] std::optional<Stripes> filled_up(const Stripes& repeat, const std::string& filler,
                                               std::int64_t times, std::int64_t rows,
                                               std::int64_t step);

/// An order in which no two neighbours have the same word, begun with the most frequent; nothing
/// where none exists. Indices into `alike`.
[[nodiscard]] std::optional<std::vector<std::size_t>> none_side_by_side(
    const std::vector<std::string>& alike);

}  // namespace skeinfall::colours

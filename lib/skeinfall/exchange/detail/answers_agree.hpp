#pragma once
/// \file
/// Whether answers about one make say the same of it.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

/// A gauge of one stitch and a piece of another: rows of another stitch have another height. The
/// question to answer again is "gauge".
[[nodiscard]] std::optional<base::Problem> gauge_of_another_stitch(
    const std::string& said_stitch, const std::vector<WrittenPiece>& pieces,
    const std::optional<WrittenGauge>& gauge);

/// "40 shells": what is several stitches counts as one of them only by a gauge in the same. The
/// question to answer again is "make".
[[nodiscard]] std::optional<base::Problem> stitch_of_several(
    const std::vector<WrittenPiece>& pieces, const std::vector<WrittenGauge>& gauges);

/// A swatch of a colour that no yarn has, or one that does not say of which of several yarns it is,
/// where they are not `alike` by their labels. The question to answer again is "swatch".
[[nodiscard]] std::optional<base::Problem> swatch_of_no_yarn(
    const std::vector<WrittenSwatch>& swatches, const std::vector<ColourRole>& roles, bool alike);

}  // namespace skeinfall::exchange::detail

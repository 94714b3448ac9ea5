#pragma once
/// \file
/// A gauge as it was met: the maker gets another than the pattern wants. What size comes out of
/// the written counts, which size or how many repeats make the wanted size instead, what tool may
/// bring the pattern's gauge.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/fit/fit.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

struct MetGauge {
    std::size_t piece = 0;
    std::size_t size = 0;
    project::Gauge wanted;          ///< the pattern's
    project::Gauge met;             ///< of the washed fabric, where the project keeps the two apart
    project::FinishedSize planned;  ///< of the piece; of motifs each
    /// All the motifs that are joined: as planned, and as they come out.
    std::optional<project::FinishedSize> planned_all;
    std::optional<project::FinishedSize> comes_out_all;
    project::Project as_written;      ///< the written counts at the gauge that was met
    project::FinishedSize comes_out;  ///< of the piece
    /// The size whose written counts come nearest to the planned width, where it is another.
    std::optional<std::size_t> other_size;
    project::FinishedSize other_comes_out;
    /// Whole repeats nearest to the planned size; of motifs so many more or fewer.
    std::optional<Fitted> instead;
    std::string why_not;  ///< where nothing can be worked instead: the reason
    /// Hook or needle to try for the pattern's gauge, from the one in use; nothing where that is
    /// not known or the gauge is met.
    std::optional<units::Length> tool;
    bool knit = false;
    bool is_met = false;  ///< within half a stitch and half a row to 4 in
};

/// `met` holds stitches and rows; both above 0. Throws base::InputError where the project states a
/// maker's gauge already.
[[nodiscard]] MetGauge meet_gauge(const project::Project& project, std::size_t piece,
                                  std::size_t size, const project::Gauge& met);

/// The gauge that the first rows of a piece tell, measured flat: so many rows, so wide and long. As
/// they are worked: where the project keeps gauge before and after washing apart, the washed one is
/// taken from it in the same proportion. Throws base::InputError for more rows than there are.
[[nodiscard]] project::Gauge gauge_of_rows(const project::Project& project, std::size_t piece,
                                           std::size_t size, std::int64_t rows,
                                           const project::FinishedSize& measured);

}  // namespace skeinfall::fit

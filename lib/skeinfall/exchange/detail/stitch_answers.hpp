#pragma once
/// \file
/// The stitches that answers name: which is the make's own, and what gauge each of the others has.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::exchange::detail {

/// Which names are of one stitch.
class StitchNames {
  public:
    StitchNames(project::Craft craft, project::Terms terms) : craft_(craft), terms_(terms) {}

    /// "sc" and "single crochet".
    [[nodiscard]] bool same(const std::string& a, const std::string& b) const;
    /// A stitch of either craft, or a fabric.
    [[nodiscard]] bool knows(const std::string& name) const;

  private:
    project::Craft craft_;
    project::Terms terms_;
};

/// What tells the craft where a stitch does not.
struct Tools {
    bool hook = false;
    bool needle = false;
    bool yarn_told = false;  ///< by a weighed swatch or a total: the craft hardly matters
};

/// Whether the make is knitted. Throws base::InputError, "craft" its place, where both crafts have
/// the fabric and take unlike amounts for it, as "rib".
[[nodiscard]] bool is_knit_by(const std::string& stitch, project::Terms terms, const Tools& tools);

/// A piece whose name speaks of a fabric that takes more than the stitch it is counted in.
[[nodiscard]] std::optional<base::Problem> fabric_in_name(const std::string& name,
                                                          const std::string& counted,
                                                          project::Craft craft);

/// The gauge of the make's own stitch `main` among the `gauges`, and that of each piece in another
/// stitch, written to it. `said` is the stitch that was answered by itself. A problem where that
/// contradicts a piece, where a piece is of a stitch that is not known or whose gauge is not said,
/// and where a gauge is of no piece.
[[nodiscard]] std::optional<base::Problem> gauges_of_pieces(const std::string& main,
                                                            const std::string& said,
                                                            const StitchNames& names,
                                                            const std::vector<WrittenGauge>& gauges,
                                                            std::vector<WrittenPiece>& pieces,
                                                            std::optional<WrittenGauge>& own);

/// What to tell of a stitch name that both countries have and nobody said whose it is; nothing for
/// others.
[[nodiscard]] std::optional<std::string> taken_as_us(const std::string& stitch);

/// The gauge that a swatch tells by its counts and sides; false where none does.
bool gauge_of_swatches(const std::vector<WrittenSwatch>& swatches, WrittenGauge& gauge);

}  // namespace skeinfall::exchange::detail

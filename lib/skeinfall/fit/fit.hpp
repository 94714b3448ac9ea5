#pragma once
/// \file
/// A piece made to measure: the whole repeats of stitches and rows that come nearest to a wished
/// width and length, and the project with the piece so worked.
///
/// Stitches and rows are whole counts that fit the piece's multiples; widths and lengths follow
/// from them by the gauge (of the washed fabric, where the project has both).

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

/// What is wished for; what is not stays as it is. Of stitches (in row 1), width and repeats at
/// most one, of rows and length at most one.
struct Wish {
    std::optional<units::Length> width;
    std::optional<std::int64_t> stitches;
    std::optional<std::int64_t> repeats;  ///< of the stitch multiple
    std::optional<units::Length> length;
    std::optional<std::int64_t> rows;
};

/// Which of the two counts that fit on either side of the wish is taken.
enum class Take { nearest, below, above };

enum class MultipleFrom {
    nobody,        ///< any number will do, as far as the project says
    stated,        ///< by the project
    written_rows,  ///< found from the rows
    stripes,       ///< rows: so that the stripes end as they do now
    piece_before   ///< stitches: so that the piece it goes on from ends with as many
};

/// One dimension of a piece: stitches or rows.
struct Along {
    project::Multiple multiple;
    MultipleFrom from = MultipleFrom::nobody;
    bool wished = false;
    std::optional<std::int64_t> asked = std::nullopt;  ///< where a count is wished for
    std::int64_t now = 0;                              ///< before the fit
    std::optional<std::int64_t> below;                 ///< nothing: the wish is below one repeat
    std::int64_t above = 0;  ///< equal to `below` where the wish fits exactly
    std::int64_t taken = 0;
    /// Rows of one repeat of the stripes; 0 without stripes that repeat.
    std::int64_t striped = 0;

    [[nodiscard]] bool exact() const { return below == above; }
    [[nodiscard]] std::int64_t repeats() const { return multiple.repeats_in(taken); }
    /// The stripes end in another row of their repeat than before.
    [[nodiscard]] bool stripes_end_anew() const {
        return striped > 0 && taken % striped != now % striped;
    }
};

/// Counts of a piece that were changed, as a project file has them.
struct Change {
    std::size_t piece = 0;
    project::PerSize<std::int64_t> stitches;
    project::PerSize<std::int64_t> rows;
    project::PerSize<std::int64_t> last_stitches;
    std::vector<std::string> written;  ///< rows in notation; empty: not written
    /// Of a shape from a few stitches, whose finished size the file says.
    project::PerSize<units::Length> width = {};
    project::PerSize<units::Length> length = {};
    bool width_of_row_one = false;                    ///< the width is said instead of stitches
    project::PerSize<std::int64_t> blocks_wide = {};  ///< from corner to corner
    project::PerSize<std::int64_t> blocks_high = {};
};

/// A piece that the fitted one goes on from, or that goes on from it, without a foundation between
/// them: what it becomes so that it still meets it.
struct Followed {
    std::size_t piece = 0;
    project::PieceCounts was;
    project::PieceCounts now;
    std::int64_t ends_with = 0;  ///< stitches of its last row
    Change change;
};

/// A border that goes round the piece: its first round is as much longer as the way round it.
struct ChangedEdging {
    std::size_t part = 0;  ///< index into Project::finish
    std::int64_t was = 0;
    std::int64_t now = 0;
    project::PerSize<std::int64_t> first_round;
};

/// A fringe, which follows the width of what it is knotted to. Its strands where it is counted by
/// them, else its yarn.
struct ChangedFringe {
    std::size_t part = 0;  ///< index into Project::finish
    std::optional<std::int64_t> strands_were;
    std::int64_t strands = 0;
    units::Ratio by{};  ///< so many times as much as before
};

/// What became of the finishing parts when their piece changed.
struct FollowedEdgings {
    std::vector<ChangedEdging> changed;
    std::vector<ChangedFringe> fringes;
    /// Those whose yarn, length or stitches are stated outright and so did not follow.
    std::vector<std::string> unchanged;
};

/// Lengthens the borders of `after` by as much as the way round is longer than in `before`: that of
/// the piece, or of all its copies where they are joined; a fringe by as much as it is wider. `way`
/// is the way round now, where the piece alone does not tell it.
FollowedEdgings follow_edgings(const project::Project& before, project::Project& after,
                               std::size_t piece, std::size_t size,
                               std::optional<units::Length> way = std::nullopt);

/// A stated total that was changed in proportion.
struct ChangedTotal {
    std::string role;
    project::PerSize<units::Length> length;
    project::PerSize<units::Mass> mass;
};

/// Changes the stated totals of `after` in proportion to the stitches they are for; what is stated
/// outright beside them stays. `before` is the project whose totals they are.
std::vector<ChangedTotal> follow_totals(const project::Project& before, project::Project& after,
                                        std::size_t size);

/// Copies of a piece that are laid together, before and now.
struct Motifs {
    std::size_t joining = 0;  ///< the part that joins them, an index into Project::finish
    std::int64_t count_was = 0;
    std::int64_t columns_was = 0;
    std::int64_t count = 0;
    std::int64_t columns = 0;
    project::FinishedSize was;  ///< of all of them, without a border
    project::FinishedSize measures;

    [[nodiscard]] bool same() const { return count == count_was && columns == columns_was; }
};

struct Fitted {
    project::Project project;  ///< so fitted
    std::size_t piece = 0;
    std::size_t size = 0;
    Along stitches;
    Along rows;
    std::optional<std::int64_t> chains;  ///< to begin with, or stitches to cast on; nothing: none
    bool chains_stated = false;          ///< the multiple says how many more than stitches
    project::FinishedSize was;           ///< before
    project::FinishedSize measures;      ///< now
    std::optional<project::FinishedSize> unwashed;  ///< what a tape shows before washing
    Change change;
    std::vector<Followed> followed;
    /// Pieces that begin on live stitches, not on all that the piece before them ends with: whether
    /// theirs are still there is not known here.
    std::vector<std::string> on_live_stitches;
    /// Its increases or decreases were so much a row, and are spread anew between the first row's
    /// stitches and the last's.
    bool shaped_anew = false;
    std::optional<Motifs> motifs;  ///< where its copies are joined
    std::vector<ChangedTotal> totals;
    std::vector<ChangedEdging> edgings;
    std::vector<ChangedFringe> fringes;
    /// With its borders, of motifs all of them; nothing where there are none, see
    /// project::with_borders().
    std::optional<project::FinishedSize> with_borders;
    /// Finishing parts whose yarn, length or stitches are stated outright and so did not follow.
    std::vector<std::string> unchanged;

    /// Nothing changed.
    [[nodiscard]] bool same() const {
        return stitches.taken == stitches.now && rows.taken == rows.now && !change.width.stated() &&
               !change.length.stated() && !change.blocks_wide.stated() &&
               !change.blocks_high.stated() && (!motifs || motifs->same());
    }
};

/// What is wished for cannot be, whatever the file says: below one repeat, or beyond all measure.
class WishError : public base::InputError {
  public:
    WishError(base::Problem problem, bool across)
        : base::InputError(std::move(problem)), across_(across) {}
    /// Of stitches; else of rows.
    [[nodiscard]] bool across() const noexcept { return across_; }

  private:
    bool across_;
};

/// Throws WishError with no place, and base::InputError where the shape does not stretch that way,
/// or written rows do not come out at any count near, placed at the piece in its file: what, and
/// the nearest that works. A wished length keeps whole repeats of the stripes; wished rows are
/// taken as they are.
[[nodiscard]] Fitted fit_piece(const project::Project& project, std::size_t piece, std::size_t size,
                               const Wish& wish, Take take = Take::nearest);

/// Another piece goes on from all its stitches, or it from those of another, without a foundation.
[[nodiscard]] bool meets_others(const project::Project& project, std::size_t piece,
                                std::size_t size);

/// The piece that is fitted where nobody says which: the one with the most stitches.
[[nodiscard]] std::size_t largest_piece(const project::Project& project, std::size_t size);

/// The multiple of a piece's stitches: stated, or found from its written rows.
struct Found {
    project::Multiple multiple;
    MultipleFrom from = MultipleFrom::nobody;
};
[[nodiscard]] Found stitch_multiple(const project::Project& project, const project::Piece& piece,
                                    std::size_t size);
[[nodiscard]] Found row_multiple(const project::Project& project, const project::Piece& piece,
                                 std::size_t size);
/// Rows of one repeat of the stripes that are worked twice over or more; 0: none are.
[[nodiscard]] std::int64_t striped_rows(const project::Project& project,
                                        const project::Piece& piece, std::size_t size);

/// Chains to begin a piece of so many stitches, or stitches to cast on: by its multiple, else by
/// the turning chain of its stitch. Nothing where it begins without one.
[[nodiscard]] std::optional<std::int64_t> foundation_of(const project::Project& project,
                                                        const project::Piece& piece,
                                                        std::int64_t stitches);

/// The same of a piece as it stands: of written rows what they begin with.
[[nodiscard]] std::optional<std::int64_t> begins_with(const project::Project& project,
                                                      std::size_t piece, std::size_t size);

/// What a repeat more across, and a height more along, take.
struct EachMore {
    enum class Of {
        stitches,
        blocks,  ///< one more across, one more up
        motifs   ///< a column of them, a row of them: `stitches` and `rows` count the motifs
    };
    Of of = Of::stitches;
    /// One repeat; where none is known, the fewest stitches that make an inch or more.
    std::int64_t stitches = 0;
    bool repeat_known = false;
    units::Length wider{};
    std::int64_t rows = 0;  ///< the fewest whole repeats of rows that make an inch or more
    units::Length longer{};
    struct OfRole {
        std::string role;
        units::Length for_width{};
        units::Length for_length{};
    };
    std::vector<OfRole> roles;
    /// What the pieces it meets become with a repeat more across.
    std::vector<Followed> followed;
};

/// Of the project as it stands in this size: the need with one repeat more, less the need. Nothing
/// where the piece does not stretch.
[[nodiscard]] std::optional<EachMore> each_more(const project::Project& project, std::size_t piece,
                                                std::size_t size);

}  // namespace skeinfall::fit

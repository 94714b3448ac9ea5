#pragma once
/// \file
/// The colours of a make planned from the skeins there are: heights of stripes in whole rows,
/// changed as little as need be so that every yarn suffices.
///
/// Sets of heights are tried in the order of the goals, and each is judged by the one answer of
/// cover for the project so striped; the first that is covered is the best there is. What can be
/// told without asking (more rows than all skeins of a colour give; as much of a yarn as was not
/// enough before) is passed over. "Proven" means that nothing better was left out.

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/colours/heights.hpp"
#include "skeinfall/colours/layout.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::colours {

enum class Way {
    keep_repeat,    ///< the wanted stripes over and over, their heights shifted between colours
    in_proportion,  ///< heights such that all colours end together
    fade,           ///< each colour once, mixed row by row with the next
    fill,           ///< bands at their wanted heights, one colour takes what is left between them
    scraps          ///< every ball a stripe of its own, no two alike side by side
};

/// What counts most once every yarn suffices; compared in order, never weighed.
enum class Goal {
    heights,   ///< fewest rows changed, then the least change of one stripe
    ends,      ///< fewest to weave in
    leftovers  ///< colours end together: least apart in the share that is left of each, in
               ///< thousandths
};
using Goals = std::array<Goal, 3>;
inline constexpr Goals usual_goals{Goal::heights, Goal::ends, Goal::leftovers};

struct Wish {
    /// Indices into Project::pieces; worked in the same stripes.
    std::vector<std::size_t> pieces;
    std::size_t size = 0;
    Way way = Way::keep_repeat;
    Stripes wanted;  ///< the repeat; for Way::fade and scraps the order of colours
    std::optional<project::Stripe> edge;    ///< kept back: first and last rows of every piece
    std::optional<std::int64_t> fade_rows;  ///< mixed at each change; nothing: as many as can be
    std::string filler;                     ///< Way::fill
    bool one_edge = false;                  ///< pairs of rows: every change at the same edge
    Goals goals = usual_goals;
};

/// One set of heights, worked out.
struct Striped {
    Heights heights;               ///< of the repeat's stripes; of what Way says else
    std::vector<Stripes> stripes;  ///< of each piece of the wish, as the project says them
    project::Project project;
    plan::MakePlan plan;
    std::int64_t rows_changed = 0;  ///< in one repeat, all stripes added up
    std::int64_t ends = 0;          ///< to weave in, of changes of colour
    bool sure = false;              ///< covered, with its margin, at the confidence
};

/// What a colour has, takes and leaves, before and after.
struct ColourUse {
    std::string role;
    std::int64_t rows_wanted = 0;
    std::int64_t rows = 0;
    units::Length takes{};  ///< the whole need of the yarn, other pieces and finish included
    units::Length has{};    ///< all skeins that fit, of the richest lot where it keeps to one
    measure::Chance chance;
    cover::Verdict verdict = cover::Verdict::is_short;
};

/// A resting yarn led up the edge higher than the project permits.
struct CarriedHigher {
    units::Length height{};
    std::int64_t ends = 0;
};

struct StripePlan {
    Wish wish;
    std::optional<Striped> as_wanted;  ///< nothing where the way has no "as wanted" (scraps)
    std::optional<Striped> found;
    /// As found, with half the ends or fewer.
    std::optional<Striped> fewer_ends;
    std::optional<CarriedHigher> carried;
    /// Where nothing was found: fewer rows that would be covered so.
    std::optional<Striped> nearest;
    std::int64_t nearest_rows = 0;
    bool height_kept = true;  ///< of the repeat; else it differs by half of it at most
    bool proven = true;
    std::vector<std::string> balls;  ///< Way::scraps: of each stripe
    std::size_t judged = 0;          ///< sets of heights that were worked out against the skeins
};

/// Whether the stripes are worked once over: a motif is a sequence, and no repeat of it is higher.
[[nodiscard]] bool worked_once(const project::Project& project, const Wish& wish);

/// Plans the stripes of a project. Throws base::InputError for one colour, more colours than rows,
/// a colour that holds less than a row, a yarn told by a total, rows that name their yarns
/// themselves, an order that cannot keep its edge.
[[nodiscard]] StripePlan plan_stripes(const project::Project& project,
                                      const std::vector<stash::Skein>& stash,
                                      const cover::Rules& rules, const Wish& wish);

/// The most or fewest whole repeats of one piece for which stripes are found, each planned as
/// `wish` says; rows beside whole repeats stay. Nothing where not even one repeat is covered.
struct Grown {
    StripePlan plan;
    std::int64_t rows_were = 0;
    std::int64_t rows = 0;
    std::int64_t step = 0;  ///< rows of one repeat, or of so many as the piece's own multiple needs
    bool endless = false;
};
[[nodiscard]] std::optional<Grown> largest_striped(const project::Project& project,
                                                   const std::vector<stash::Skein>& stash,
                                                   const cover::Rules& rules, const Wish& wish);

/// Of each yarn in the stripes.
[[nodiscard]] std::vector<ColourUse> uses_of(const StripePlan& plan, const Striped& striped);

/// The pieces that are striped alike, the first of them the one with the most rows.
[[nodiscard]] std::vector<std::size_t> striped_alike(const project::Project& project,
                                                     std::size_t size,
                                                     std::optional<std::size_t> with);

/// Sets of heights that are worked out against the skeins before a search gives up.
inline constexpr std::size_t judged_at_most = 400;
/// Steps of a walk through heights.
inline constexpr std::size_t steps_at_most = 2'000'000;

}  // namespace skeinfall::colours

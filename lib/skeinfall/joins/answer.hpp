#pragma once
/// \file
/// All that is said of a make's joins: the plan of every role, what other places would cost, what
/// the scale must show, and how a colour-changing yarn will fall.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "skeinfall/joins/colour.hpp"
#include "skeinfall/joins/lots.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/joins/says.hpp"
#include "skeinfall/joins/stop_weights.hpp"
#include "skeinfall/joins/stripes.hpp"

namespace skeinfall::joins {

/// A join at which the dye lot changes, and how to fade it.
struct LotChange {
    std::size_t stretch = 0;  ///< the one that ends in it
    std::string from;
    std::string to;
    std::optional<Fade> fade;  ///< in steps of the role, from 1; nothing: too few rows
    units::Length held{};
};

/// Skeins or lots worked in turn all the way.
struct ByTurns {
    std::vector<Turns> without_cuts;  ///< even turns; the first is what the figures are for
    std::vector<Turns> with_cuts;     ///< shorter ones that leave a yarn at the wrong edge
    std::vector<std::string> names;   ///< of the skeins or lots, the longest first
    std::vector<units::Length> has;   ///< usable
    std::vector<units::Length> takes;
    measure::Chance chance{};  ///< that each has what it takes
    bool suffices = false;     ///< so surely as was asked for
    InTurns expected;          ///< how far they go, where each has its share
    std::int64_t rows = 0;     ///< of the work
};

/// The stripes of one piece.
struct PieceColours {
    std::size_t piece = 0;
    std::int64_t copy = 1;
    units::Length start{};  ///< phase of its first stitch
    std::vector<ColourRow> rows;
    std::vector<ColourStripe> stripes;
    /// Every row has the same width and no run fills two of them, so that colours may pool.
    bool pools = false;
    std::int64_t width = 0;  ///< stitches of its first row
    Pooling pooling;         ///< of a piece that may pool, as are the next ones
    std::vector<std::vector<std::int64_t>> stack;  ///< widths near its own that stack
    /// Widths that move the colours by a stitch: argyle worked flat, a spiral in the round.
    std::vector<std::vector<std::int64_t>> drift_by_one;
    std::optional<std::int64_t> avoid;  ///< nearest width that neither stacks nor runs
    std::int64_t recheck = 0;           ///< rows after which a pattern has drifted
};

struct Colours {
    units::Length repeat{};
    units::YarnPerStitch per_stitch{};
    std::vector<PieceColours> pieces;
    WindOff wind_off;  ///< for the plan's joins when phases are not known
    bool phases_known = false;
    /// Of a role whose pieces are made twice: both alike from one skein.
    std::optional<PairFromOne> pair;
    std::optional<LargestPair> largest_pair;  ///< of the first skein
    /// From two skeins: wound off the second so that both begin at the same colour.
    std::optional<WindOff> pair_from_two;
};

/// What comes nearest to a plan that does not work.
struct Nearest {
    enum class Way {
        closer,         ///< joins `rows` apart can be kept, not the `of` that were asked for
        halves,         ///< all skeins wound into two halves give `has` for each of a pair
        inside_rows,    ///< joined inside rows as well
        ended_earlier,  ///< `piece` ended after row `rows` of its `of`
    };
    Way way = Way::inside_rows;
    bool works = true;  ///< at the confidence; else it is only likely, with `chance`
    measure::Chance chance{};
    std::int64_t rows = 0;
    std::int64_t of = 0;
    std::size_t piece = 0;
    units::Length has{};
    units::Length takes{};  ///< what each of the pair takes
};

struct RoleJoins {
    JoinPlan plan;
    JoinPlan row_ends;  ///< what other places would give
    JoinPlan anywhere;
    /// That it lasts joined where the project permits, where the plan joins elsewhere.
    std::optional<measure::Chance> kept_to_rules;
    std::vector<StopWeight> stops;     ///< empty when the yarn's length per mass is not known
    std::optional<units::Ratio> knot;  ///< the finish without a scale, see knot_share()
    std::vector<LotChange> lot_changes;
    std::optional<ByTurns> by_turns;        ///< when skeins of several lots are there, or asked for
    std::vector<LotOfParts> lots_of_parts;  ///< when the skeins come from several lots
    std::optional<Colours> colours;
    std::vector<Nearest> nearest;  ///< where the plan does not work
    std::vector<Note> notes;
    std::vector<need::Contradiction> contradictions;  ///< of its need: nothing is sure then
};

struct Request {
    measure::Chance confidence = measure::usual_confidence;
    std::size_t size = 0;
    bool anywhere = false;
    bool sure_lengths = false;
    bool pairs = false;                        ///< pieces made twice are joined at the same rows
    std::optional<std::int64_t> rows_between;  ///< else the project's
    /// Roles whose need and skeins were weighed in the same yarn: the label's length per mass then
    /// bears on neither.
    std::set<std::string> label_cancels;
    /// Skeins that roles are being worked from, by role: each goes before the others of its role.
    std::map<std::string, std::string> in_hand;
    std::optional<std::int64_t> by_turns;  ///< that many skeins worked in turn
    Scale scale;
};

struct Answer {
    std::vector<RoleJoins> roles;
    Ends ends;  ///< of striped pieces
    Request request;
    std::size_t joins = 0;    ///< knots included
    std::size_t perhaps = 0;  ///< joins of spares, beyond `joins`
    bool finishes = true;     ///< as is expected
    /// That every yarn lasts joined where the project permits, with the spares: the roles' chances
    /// multiplied.
    measure::Chance lasts{units::Ratio::from_value(1.0)};
    /// The same joined as planned: more where `rules_kept` is false.
    measure::Chance lasts_as_planned{units::Ratio::from_value(1.0)};
    /// The same for a maker who joins whenever the slip says so; see JoinPlan::by_slip.
    measure::Chance by_slip{units::Ratio::from_value(1.0)};
    bool rules_kept = true;
};

/// The yarn lasts at the confidence that was asked for, joined where it should be.
[[nodiscard]] bool is_sure(const Answer& answer);

using BallsOfRoles = std::map<std::string, std::vector<Ball>>;

/// Throws base::InputError when pairs are asked for and no piece is made twice, or only one skein
/// is there.
[[nodiscard]] Answer answer_joins(const project::Project& project, const need::MakeNeed& make,
                                  const BallsOfRoles& balls, const Request& request);

/// The rules of a role: the project's places, tails by its join kind.
[[nodiscard]] Rules rules_of(const project::Project& project, const project::Role& role,
                             const Request& request);

/// With so many joins at most: what would stay unworked, were the longest skeins taken. `answer` is
/// that of the same request. Zero when so few suffice.
[[nodiscard]] units::Length unworked_with(const project::Project& project,
                                          const need::MakeNeed& make, const BallsOfRoles& balls,
                                          const Request& request, const Answer& answer,
                                          std::size_t joins_at_most);

/// Rows over which a dye lot is faded into the next (common practice: 4 to 8).
inline constexpr std::int64_t fade_rows = 8;

}  // namespace skeinfall::joins

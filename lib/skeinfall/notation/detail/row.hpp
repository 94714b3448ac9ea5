#pragma once
/// \file
/// Works out one row on the edge of the row below it. Inner part of the notation.
///
/// Some usages of the trade can be read more than one way. The usual reading is tried first; when
/// it does not fit the row below or the declared count and exactly another reading does, that one
/// is taken, and a finding says so.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/fabric.hpp"
#include "skeinfall/project/row_work.hpp"

namespace skeinfall::notation {

using project::Finding;
using project::Findings;
using project::RowWork;
using project::Severity;
using project::Stripe;

/// The make-up of a stitch that the project describes itself.
struct MakeUp {
    std::vector<Item> items;
    bool own_top = false;  ///< it leaves stitches of its own kind, not those of `items`
    bool placed = false;   ///< its stitches say themselves where they go
};

/// Items looked at, a measure of time spent. A row, and a whole pattern, may take so many.
inline constexpr std::int64_t most_steps_of_a_row = 500'000;
inline constexpr std::int64_t most_steps = 20'000'000;

/// A chain that begins a row: what follows it, its length, and whether the first stitch is skipped.
using TurningKey = std::tuple<KindId, std::int64_t, bool>;

struct Context {
    StitchBook* book = nullptr;
    const std::map<KindId, MakeUp>* make_ups = nullptr;
    /// Notes with "throughout", by number of chains.
    const std::map<std::int64_t, TurningNote>* notes = nullptr;
    std::int64_t* steps = nullptr;  ///< counted up
    /// Whether such chains count, as counts of rows before have shown.
    const std::map<TurningKey, bool>* turnings = nullptr;
    bool passes_spaces = false;  ///< rows before have shown that "st" does not mean chain spaces
    bool check_count = true;     ///< the row has to come to what it declares
    bool ring = false;           ///< the row may go into a ring
    bool round = false;          ///< a marker stands where it begins, said or not
    bool circular = false;       ///< the piece is in the round, whatever this row is
    bool partial = false;        ///< the first row after rounds: it may leave some of the last one
    std::uint16_t own_yarn = 0;  ///< 1 + the index of the yarn it begins with; 0: not known
    const std::vector<std::int64_t>* held = nullptr;  ///< stitches on each holder
    std::int64_t last_change = 0;  ///< stitches that the last shaping row left more than it took
};

/// A finding at a byte of the row's text.
struct RowFinding {
    Severity severity = Severity::ok;
    std::uint32_t at = 0;
    std::string what;
    std::string remedy;
};

struct Outcome {
    RowWork work;
    Edge edge;  ///< in working order
    Edge rest;  ///< of the row below, what a turn or "leaving the rest" left for later
    std::vector<std::int64_t> held;  ///< put on holders
    /// Where several yarns work the row: each one's part (`role` is not known here), and its
    /// 1 + index, or 0 for the row's own.
    std::vector<project::ColourWork> colours;
    std::vector<std::uint16_t> yarns;
    std::vector<std::int64_t> taken_up;  ///< indices of the holders whose stitches were taken up
    std::vector<RowFinding> findings;
    unsigned asked = 0;                         ///< usages met that can be read another way
    unsigned taken = 0;                         ///< the reading: usages read the other way
    unsigned doubtful = 0;                      ///< those of them where no reading is the rule
    bool against_note = false;                  ///< a chain counts otherwise than it is told to
    bool loose_count = false;                   ///< it only comes to what it declares by its work
    bool own_base = false;                      ///< it begins with its own foundation chain
    bool given_up = false;                      ///< too large to be worked out
    std::pair<std::uint32_t, std::string> why;  ///< where and why it was given up
    /// Chains the row turned with and the stitch behind them, for telling the terms.
    std::int64_t turned_with = 0;
    KindId turned_to = 0;
    std::optional<TurningKey> turning_in_doubt;  ///< what its count would show
    bool turning_said = false;                   ///< the row says how it is meant
};

/// `settled`: the reading that the row took before, tried first.
[[nodiscard]] Outcome work_row(const Body& body, const Edge& below, const Context& context,
                               std::optional<unsigned> settled = std::nullopt);

/// Whether nothing in it is wrong.
[[nodiscard]] bool fits(const Outcome& outcome);

/// What a row declares against what it came to. `loose`, when given: set when a kind only comes to
/// its count without the turning chain that stands for one. `rest`: stitches below left for later.
[[nodiscard]] std::vector<RowFinding> check_declared(const std::vector<Declared>& all,
                                                     const Edge& edge, const RowWork& work,
                                                     const StitchBook& book, bool* loose = nullptr,
                                                     std::int64_t rest = 0);

/// How many foundation chains (or stitches of a row below) a first row needs when none are
/// written: as its declared count tells, or as it uses when it says how many itself.
/// `counted`: of the row below only the count is known.
[[nodiscard]] std::optional<std::int64_t> fitting_base(const Body& body, const Context& context,
                                                       bool counted = false);

}  // namespace skeinfall::notation

#pragma once
/// \file
/// What comes after the pieces: edgings, seams, fringe, tassels, pompoms, the swatch, and what
/// cast-ons, bind-offs and seams take by their names (lib/data/finishing.csv).

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

struct FinishPart;
struct Project;

/// A way to begin, end or sew up, by its trade name.
struct FinishWay {
    std::string_view part;  ///< "foundation", "bind-off", "seam" or "tie"
    std::string_view name;
    std::string_view craft;       ///< "knit", "crochet" or "any"
    units::Ratio rows{};          ///< a foundation's or bind-off's yarn over that of its row
    units::Ratio times_length{};  ///< a seam's yarn over its length
    units::Length yarn{};         ///< a tie's
    std::string_view note;
    std::string_view source;
};

/// The way of that name or of one of its other names, without regard to case; nullptr when the
/// craft has none.
[[nodiscard]] const FinishWay* find_finish_way(std::string_view part, std::string_view name,
                                               Craft craft);

/// Names of the ways a craft has, in the table's order.
[[nodiscard]] std::vector<std::string> finish_way_names(std::string_view part, Craft craft);

/// So many strands, each cut so long.
[[nodiscard]] units::Length fringe_yarn(std::int64_t strands, units::Length cut);
/// Tassels wrapped round a card of their height, each wrap going up and down, with their ties.
[[nodiscard]] units::Length tassel_yarn(std::int64_t count, std::int64_t wraps,
                                        units::Length height);
/// Pompoms wrapped round a card as wide as their diameter, with their ties.
[[nodiscard]] units::Length pompom_yarn(std::int64_t count, std::int64_t wraps,
                                        units::Length diameter);

/// Sides of motifs laid row by row, `columns` to a row, the last row perhaps short: squares edge to
/// edge (4 corners), hexagons with every second row set half a motif to the right (6).
struct MotifSides {
    std::int64_t joined = 0;      ///< pairs of sides that meet
    std::int64_t beside = 0;      ///< of them, of motifs that lie side by side
    std::int64_t outer = 0;       ///< sides on the outside
    std::int64_t outer_high = 0;  ///< of them, left and right of their motifs
};
[[nodiscard]] MotifSides motif_sides(std::int64_t count, std::int64_t columns,
                                     std::int64_t corners);

/// Columns that make a grid of so many motifs as nearly square as can be.
[[nodiscard]] std::int64_t square_columns(std::int64_t count);

/// One indivisible part of a finishing part: stitches at the rate of its yarn, or yarn outright.
struct FinishStep {
    std::int64_t round = 0;  ///< from 1 where it is worked in rounds
    std::int64_t copy = 1;
    bool bind_off = false;
    units::StitchCount stitches{};
    units::Length yarn{};
};
/// Of all its copies, one after the other.
[[nodiscard]] std::vector<FinishStep> finish_steps(const Project& project, const FinishPart& part,
                                                   std::size_t size);

}  // namespace skeinfall::project

#pragma once
/// \file
/// How much yarn a make takes, step by step and role by role, and how sure that is.
///
/// All that tells a role's yarn is taken together by its precision: the maker's own swatches and
/// earlier makes, a stated rate, a stated total, others' makes of a fabric like it. Every figure
/// carries a band; its causes are kept apart so that a close call can name the measurement that
/// settles it. What contradicts the rest is named and widens the band.
///
/// A size that its counts do not come to by the gauge is the larger of both. What cannot be meant
/// at all is put right for planning by at_worst(); check_for_planning() names both.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/need/calibrate.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::need {

/// Relative standard uncertainties taken when nothing better is known. Judgements, not published
/// figures; every report that uses one names it.
namespace usual {
inline constexpr units::Ratio row_to_row = units::Ratio::from_value(0.03);
inline constexpr units::Ratio swatch_to_piece = units::Ratio::from_value(0.03);
inline constexpr units::Ratio stated_rate = units::Ratio::from_value(0.08);
/// A make of the same hands in the same yarn, its borders and shape a little different.
inline constexpr units::Ratio one_earlier_make = units::Ratio::from_value(0.06);
/// A pattern's figure is of another hand, beside which one's own evidence stands: the spread of
/// makers at one gauge.
inline constexpr units::Ratio another_hand = units::Ratio::from_value(0.08);
/// A length of yarn measured by hand: unravelled yarn springs back.
inline constexpr units::Ratio measured_yarn = units::Ratio::from_value(0.01);
/// Strands cut to a length by hand, all together (a judgement).
inline constexpr units::Ratio cut_by_hand = units::Ratio::from_value(0.03);
/// A total that a pattern or another person states: other hands took it (as stated_rate).
inline constexpr units::Ratio stated_total = units::Ratio::from_value(0.08);
/// Yarn grows with some power, from 0 to 1, of the room a stitch has; the root is taken. Half the
/// width of that range over the root of 3.
inline constexpr units::Ratio power_of_room = units::Ratio::from_value(0.5 / 1.7320508);
/// How far the counts of one stitch are from what those of another let expect: judgement, no
/// source.
inline constexpr units::Ratio gauge_of_another_stitch = units::Ratio::from_value(0.12);
/// A tape read to 1 mm on an edge known to 1.5 mm: hypot(0.1/sqrt 12, 0.15/sqrt 3) cm.
inline constexpr units::Length tape = units::Length::from_value(0.0009129);
/// Yarn of a crochet foundation chain, in rows: 5.1 in per in of chain against 10.6 in per in of
/// a single crochet row, measured by one maker (source S150 in lib/data/sources.csv).
inline constexpr units::Ratio foundation_chain_rows = units::Ratio::from_value(0.48);
/// A magic ring takes as much as so many chains (common practice, no source).
inline constexpr units::StitchCount ring_chains = 4.0 * units::stitch;
/// A long-tail cast-on takes about two rows: a row of loops, and the tail is another. 1.625 in a
/// stitch was measured for both strands (source S162), and rules for the tail alone give three
/// widths (S158), about what a row of knitting takes (S163).
inline constexpr units::Ratio cast_on_rows = units::Ratio::from_value(2.0);
/// A chain bind-off takes one and a half rows (source S155).
inline constexpr units::Ratio bind_off_rows = units::Ratio::from_value(1.5);
/// Of a make that an area stands for, its rows at least: cast-on and bind-off take the rest (a
/// judgement; of fewer rows the edges come on top).
inline constexpr units::Ratio rows_of_an_area = units::Ratio::from_value(0.9);
/// Unused yarn is carried up the edge over at most this height, then cut.
inline constexpr units::Length carry_at_most = units::Length::from_value(0.025);
/// Yarn of a carried strand per height.
inline constexpr units::Ratio carry_slack = units::Ratio::from_value(1.2);
/// Yarn of a strand carried behind the stitches of another yarn, per width: it lies loose.
inline constexpr units::Ratio float_slack = units::Ratio::from_value(1.1);
}  // namespace usual

/// Most trusted first where nothing is said of their noise.
enum class Source {
    swatch,
    earlier_make,
    stated_rate,
    stated_total,
    measured_by_others,
    loop_model,
    makes_like_it,  ///< others' makes of a fabric like it
    testers         ///< their returns
};
[[nodiscard]] std::string_view name_of(Source source);

/// One of the things that tell a role's yarn, and what it alone would say.
struct Evidence {
    Source source = Source::swatch;
    std::string name;  ///< "your swatch"
    units::Length yarn{};
    units::Ratio spread{};  ///< relative
    units::Ratio weight{};  ///< its share of the answer; the weights of a role add to 1
    units::Ratio off{};     ///< against the rest, in standard deviations
    bool discord = false;   ///< it contradicts the rest, and the band was widened for that
};

/// Of the evidence, what weighs less than the rest. Kept for readers of older files.
struct PassedOver {
    std::string name;  ///< "the stated total"
    units::Length yarn{};
    units::Ratio spread{};  ///< relative
};

/// Two figures for one thing, so far apart that one of them must be a slip: which, nobody knows.
/// Found by at_worst().
struct RowsAgainstFabric {
    units::Ratio told{};  ///< yarn over the width of plain rows
    units::Ratio least{};
    units::Ratio most{};  ///< what fabrics take
};
struct TwoEvidences {
    std::string one;
    units::Length one_says{};
    std::string other;
    units::Length other_says{};
};
struct SizeAgainstCounts {
    std::string piece;
    bool length = false;  ///< else its width
    units::Length by_counts{};
    units::Length stated{};
};
/// Stitches so wide or so narrow for their hook or needle that the gauge is of another span or
/// unit.
struct GaugeAgainstTool {
    units::Length stitch{};  ///< the width of one
    units::Length tool{};
};
/// So many stitches, or so few, in an area as no fabric of such yarn has.
struct GaugeAgainstYarn {
    units::Ratio times{};  ///< of what is usual
};
/// Rows of the work between two weighings, against the plan or other weighings of it.
struct WeighingsAgainstRows {
    units::Mass used{};
    units::Mass expected{};
};
using Contradiction = std::variant<RowsAgainstFabric, TwoEvidences, SizeAgainstCounts,
                                   GaugeAgainstTool, GaugeAgainstYarn, WeighingsAgainstRows>;

/// That the worse of two figures that contradict each other is the one that was meant, or that
/// neither was, stays open: no chance is above this (a judgement).
inline constexpr units::Ratio most_trust_in_a_slip = units::Ratio::from_value(0.9);

/// One cause of a need's band. `what_narrows_it` is a sentence for the maker.
struct Cause {
    std::string name;
    units::Ratio relative{};
    std::string what_narrows_it;
    /// Of a swatch's cause: a swatch k times as wide and high leaves relative / k^falls. 0: it does
    /// not depend on the swatch.
    units::Ratio falls{};
};

/// What the yarn of a step is for.
enum class Purpose {
    body,
    foundation,
    bind_off,
    border,
    neckband,
    seam,
    joining,
    fringe,
    tassel,
    pompom,
    swatch,
    other,
    carried,
    tails
};
[[nodiscard]] std::string_view name_of(Purpose purpose);

/// One indivisible step in working order: a row, a foundation, a round of an edging (the last one
/// with its bind-off), another finishing part.
struct Step {
    Purpose purpose = Purpose::body;
    std::string role;
    std::size_t piece = 0;  ///< index into Project::pieces; meaningless for finishing parts
    std::int64_t copy = 1;
    std::int64_t row = 0;  ///< or round; 0 for a foundation and for parts without rounds
    std::string name;      ///< of a finishing part
    units::Length yarn{};
};

struct Part {
    Purpose purpose = Purpose::body;
    units::Length yarn{};
};

/// Yarn of a role's rows over the width of plain rows that would take it; see PlausibleYarn.
struct YarnOverWidth {
    units::Ratio times{};   ///< as all that tells the role says; 0 where it has no rows
    units::Ratio taken{};   ///< as the need has it; more only after at_worst()
    bool all_known = true;  ///< the stitch table knows every kind of its stitches
};

/// The need of one role. `length.spread` holds all causes and, when the rate was found by
/// weighing, the label's own band (`shared`) as well.
struct RoleNeed {
    std::string role;
    measure::Estimate<units::Length> length;
    std::vector<Part> parts;  ///< in the order of Purpose, zero parts left out
    Source source = Source::swatch;
    std::string how;       ///< "from a swatch of 24 sts x 20 rows, 14 g"
    bool by_mass = false;  ///< weighed, then turned into length by `grist`
    std::optional<units::Grist> grist;
    units::Ratio shared{};                   ///< relative spread of that grist; 0 unless by_mass
    std::optional<Calibration> calibration;  ///< where swatches tell kinds of stitch apart
    YarnOverWidth plain_rows;
    std::vector<Evidence> evidence;       ///< all that the answer rests on, heaviest first
    std::vector<PassedOver> passed_over;  ///< the same without the heaviest, in order of Source
    std::vector<Cause> causes;
    std::vector<std::string> notes;
    std::vector<std::string> cautions;  ///< of the notes, those on figures that disagree
    /// While there is one nothing is covered: the worse reading is taken, and no chance is above
    /// `most_trust_in_a_slip`.
    std::vector<Contradiction> contradictions;
    /// Where the need was stated as a range: its ends. The centre lies between them, and 95 % sure
    /// is what the upper end alone would ask for.
    std::optional<yarn::Between<units::Length>> stated_between;
    /// Of a total counted in whole skeins: the true need may lie so much lower, one skein of it.
    units::Length may_be_less{};
    /// Where neither its name, its class nor its length per mass is said: what its fabric tells.
    std::optional<project::ImpliedGrist> implied;
    std::int64_t runs = 1;  ///< times the yarn is begun anew even with one endless skein

    /// The band without the label's part: what remains when need and supply are weighed in the
    /// same yarn.
    [[nodiscard]] measure::Estimate<units::Length> without_shared() const;
    /// 1, or what a contradiction leaves of any chance.
    [[nodiscard]] units::Ratio trust() const {
        return contradictions.empty() ? units::Ratio::from_value(1.0) : most_trust_in_a_slip;
    }
};

/// A yarn begins rows of a striped piece. It was carried there, or it starts with a new end and
/// the old one was cut after the row it was last used in.
struct Change {
    std::string role;
    std::size_t piece = 0;
    std::int64_t copy = 1;
    std::int64_t row = 0;        ///< the stripe's first row
    std::int64_t last_used = 0;  ///< in this piece; 0 when it was not
    bool carried = false;
    units::Length strand{};  ///< carried up the edge
    bool right_edge = true;  ///< where the stripe begins; always true in the round
};

struct MakeNeed {
    std::size_t size = 0;
    std::vector<RoleNeed> roles;  ///< in the project's order, roles with no yarn left out
    std::vector<Step> steps;
    std::vector<Change> changes;  ///< of striped pieces, in working order
};

/// The need of a project in one size. Throws base::InputError when nothing tells the yarn of a role
/// (crochet needs a class or a length per mass at least), when it was weighed without a length per
/// mass, or when written rows hold a stitch that nothing tells the yarn of (unknown_stitches()).
[[nodiscard]] MakeNeed need_of(const project::Project& project, std::size_t size);

/// A need with nothing but a stated length behind it.
[[nodiscard]] RoleNeed stated_need(units::Length length);

}  // namespace skeinfall::need

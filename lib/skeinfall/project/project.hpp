#pragma once
/// \file
/// What a maker or designer wants to make, as plain values. Read from TOML by
/// exchange::read_project(); planned by need, cover, joins and materials.
///
/// Where a project has sizes, figures that differ by size are lists with one entry a size;
/// figures that do not differ have one entry.

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/measure/weighing.hpp"
#include "skeinfall/project/finishing.hpp"
#include "skeinfall/project/joining.hpp"
#include "skeinfall/project/multiple.hpp"
#include "skeinfall/project/publishing.hpp"
#include "skeinfall/project/row_work.hpp"
#include "skeinfall/project/shapes.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::project {

/// Who or what the make is for; chooses the cautions.
enum class Recipient { adult, child, infant, kitchen_heat };

/// One entry for all sizes, or one a size.
template <class T>
struct PerSize {
    std::vector<T> values;

    PerSize() = default;
    explicit PerSize(T value) : values{std::move(value)} {}
    template <std::convertible_to<T> V>
    PerSize& operator=(V value) {
        values.assign(1, static_cast<T>(std::move(value)));
        return *this;
    }

    [[nodiscard]] bool stated() const { return !values.empty(); }
    [[nodiscard]] const T& at(std::size_t size) const {
        return values.size() == 1 ? values.front() : values.at(size);
    }
};

struct Gauge {
    units::StitchGauge stitches{};
    units::RowGauge rows{};
    std::string stitch;  ///< the stitch it is counted in, "hdc"
    std::optional<units::Length> hook;
    std::optional<units::Length> needle;
    /// As it is worked, where the gauge above is that of the washed fabric: a tape on the hook
    /// shows this one.
    std::optional<units::StitchGauge> unwashed_stitches;
    std::optional<units::RowGauge> unwashed_rows;
    bool usual = false;  ///< nobody counted it: what a fabric like it usually has
    /// Nobody counted it and no yarn hangs on it: rows are only laid out by it, and no rate is
    /// judged by it.
    bool laid_out = false;
};

/// A maker's own factor beside other hands, over stitches and yarns, as finished makes taught it.
struct Hand {
    units::Ratio times = units::Ratio::from_value(1.0);
    units::Ratio spread{};  ///< relative
    std::int64_t makes = 0;
};

/// What a maker whose gauge is not the pattern's holds on to: the pattern's stitch and row counts,
/// so that the size changes, or its size, so that the counts change.
enum class Keeping { stitch_counts, size };

/// How a stated total came about: measured by weighing, or counted in whole skeins (and so
/// rounded up already).
enum class TotalBasis { measured, whole_skeins };

/// Why a stated total is a range and no figure: it was stated so; it counts whole skeins, of which
/// the last may hardly have been begun; or it is a mass of a yarn of which only the class is known.
enum class TotalRange { none, stated, whole_skeins, class_grist };

/// One length printed in two units, "380 yd (347 m)".
struct PrintedTwice {
    std::string key;  ///< "total"
    units::Length one{};
    units::Length other{};
};

/// MC, CC1 ...: one yarn's part in the make.
struct Role {
    std::string id;      ///< "MC"
    std::string name;    ///< yarn wanted, empty when any will do
    std::string colour;  ///< colourway wanted, empty when any will do
    std::string shade;   ///< "#2e8b57" for pictures; may be empty
    std::optional<yarn::WeightClass> weight;
    std::optional<units::Printed<units::Grist>> grist;
    /// Nobody knows its length per mass, and need and supply are both weighed: `grist` makes a
    /// metre stand for a gram, and its lengths say nothing of fabrics.
    bool metre_is_a_gram = false;

    /// Its name, its class or its length per mass says which yarn may serve.
    [[nodiscard]] bool says_which() const { return !name.empty() || weight || grist; }
    yarn::FibreContent fibre;
    std::vector<std::string> avoid;  ///< fibres that must not be in it (an allergy)
    /// How far its label's length per mass may be off, either way, where the maker knows better
    /// than yarn::label_grist_half_width.
    std::optional<units::Ratio> label_tolerance;
    bool one_lot = true;  ///< must come from one dye lot or shade group
    /// Stated total for the whole make, by length or by mass (mass needs a grist).
    PerSize<units::Length> total_length;
    PerSize<units::Mass> total_mass;
    TotalBasis total_basis = TotalBasis::measured;
    /// What the total is for, where that is less than the whole make: rows of every piece. Rows
    /// beyond them come on top at the total's own rate.
    std::optional<units::RowCount> total_for;
    /// One total was stated for a graded make: the size it is for, of which the other sizes are
    /// shares by their stitches. Empty where every size has its own.
    std::string total_of_size;
    bool total_size_assumed = false;  ///< nobody said which size: the smallest was taken
    /// The least of a total that is a range; total_length is its most then, so that whoever does
    /// not ask for the range plans for the worse end.
    PerSize<units::Length> total_least;
    TotalRange total_range = TotalRange::none;
    PerSize<units::Mass> total_as_mass;  ///< TotalRange::class_grist: what was stated
    std::vector<PrintedTwice> printed_twice;
    std::optional<units::YarnPerStitch> rate;
    std::optional<units::YarnPerArea> area_rate;
    const JoinKind* join_kind = nullptr;  ///< nullptr: woven ends of Project::tail
    std::string held_with;                ///< another role that goes through every row with it
    std::vector<ColourRun> colours;       ///< of a colour-changing yarn, one repeat
    /// One of them, with which every piece is to begin: what lies before it is wound off.
    std::string pieces_begin_with;
    /// What is wound off before the first of them; nothing: up to a repeat, for nobody knows where
    /// its ball begins.
    std::optional<units::Length> first_wound_off;

    [[nodiscard]] bool states_total() const { return total_length.stated() || total_mass.stated(); }
};

/// A sample of the maker's own fabric. Its yarn is known by mass or by length: its own, what is
/// gone from the ball or from a measured length, or a length marked off and worked up.
struct Swatch {
    std::string role;
    std::string stitch;                          ///< when it is not the gauge's
    std::optional<units::StitchCount> stitches;  ///< a row; all of them without rows
    std::optional<units::RowCount> rows;
    std::vector<KindCount> kinds;  ///< all its stitches by kind, instead of stitches
    std::optional<units::Length> width;
    std::optional<units::Length> height;
    std::optional<measure::Weighing> weighing;  ///< before, with after as its tare, when by_rest
    std::optional<units::Length> yarn;
    bool by_rest = false;      ///< found from what was left
    bool marked = false;       ///< the yarn was marked off before it was worked
    units::Length ends{};      ///< yarn of it that is in no stitch
    std::int64_t strands = 0;  ///< worked with so many yarns held together; 0: as the piece is
};

/// A finished make of the maker's own in this yarn. Its size is an area or a number of stitches.
struct EarlierMake {
    std::string role;
    std::string name;
    std::optional<units::Area> area;
    std::optional<units::StitchCount> stitches;
    std::optional<measure::Weighing> weighing;
    std::optional<units::Length> yarn;
    std::string stitch;      ///< when it is not the gauge's
    units::Length finish{};  ///< of its yarn, what went into fringe, seams and the like
    /// Alike, and weighed together; area and stitches are of one of them.
    std::int64_t count = 1;
};

/// What becomes of a piece's edges; left and right as JoinAt has them.
enum class Edge { visible, seamed, left_seamed, right_seamed };
enum class Worked { flat, round };
/// "row" or "round".
[[nodiscard]] std::string_view row_word(Worked worked);

/// Rows in notation or as a table of counts; or rows by the law of a shape; or a rectangle, or a
/// triangle or trapezoid that grows by `increase` stitches every `every` rows.
struct Piece {
    std::string name;
    std::string role;  ///< when it has no stripes
    std::vector<Stripe> stripes;
    Worked worked = Worked::flat;
    Edge edge = Edge::visible;
    JoinPlaces joins;
    PerSize<std::int64_t> count;  ///< how many alike
    PerSize<WorkedRows> pattern;  ///< when stated, instead of rows, stitches and increase
    PerSize<std::int64_t> rows;
    PerSize<std::int64_t> stitches;  ///< in row 1
    std::optional<Gauge> gauge;      ///< when it is not the project's
    PerSize<std::int64_t> increase;  ///< stitches, empty or 0 for a straight piece
    PerSize<std::int64_t> every{1};  ///< rows between increases
    /// Of row 1; where the shape begins with a few stitches, of the finished shape.
    PerSize<units::Length> width;
    PerSize<units::Length> length;
    /// What its stitches (of row 1) and its rows come in. A width or length is then worked in the
    /// whole repeats that come nearest.
    std::optional<Multiple> multiple;
    std::optional<Multiple> row_multiple;
    std::vector<std::string> written;  ///< its rows in notation as they stand in the file
    const Shape* shape = nullptr;      ///< see give_shape(); nullptr: growing by `increase`
    PerSize<std::int64_t>
        last_stitches;                  ///< RowLaw::even: in the last row (see also work_at()) ...
    PerSize<units::Length> last_width;  ///< ... or its width
    PerSize<std::int64_t> blocks_high;  ///< RowLaw::diagonal; `stitches` are the blocks across
    std::vector<KindCount> group;       ///< of the shape, when it is not the usual one
    std::int64_t corners = 0;           ///< of a polygon
    std::optional<units::Length> carry_at_most;  ///< of a resting yarn; default in need
    /// Yarn of the foundation as a multiple of a row; default in need. With 0 the piece goes on
    /// from the one before it, without a new end.
    std::optional<units::Ratio> foundation_rows;
    /// Yarn of the bind-off as a multiple of the last row; default in need, 0 for none.
    std::optional<units::Ratio> bind_off_rows;
};

enum class PartKind {
    border,
    neckband,
    seam,
    joining,  ///< of motifs to each other
    fringe,
    tassel,
    pompom,
    swatch,
    other
};

/// Yarn used after the pieces are worked, or (a swatch) before them. See finish_steps().
struct FinishPart {
    PartKind kind = PartKind::other;
    std::string name;
    std::string role;
    PerSize<units::Length> yarn;         ///< stated outright
    PerSize<std::int64_t> stitches;      ///< or: stitches of it, all rounds together
    PerSize<units::Length> length;       ///< or: length of seam or edge ...
    std::optional<units::Ratio> factor;  ///< ... and yarn per length of it
    PerSize<std::int64_t> first_round;   ///< or: of a border or neckband, its first round ...
    PerSize<std::int64_t> increase;      ///< ... and how many stitches each further round has more
    std::string of;                      ///< or: the piece whose copies are joined or edged ...
    PerSize<std::int64_t> columns;       ///< ... so many to a row; else as nearly square as can be
    PerSize<std::int64_t> rounds{1};     ///< of a border or neckband; a join may fall between two
    PerSize<std::int64_t> copies;        ///< made so many times; once where nobody says
    std::optional<units::Ratio> bind_off_rows;  ///< of a border or neckband, in its last rounds
    PerSize<std::int64_t> strands;              ///< of a fringe that is counted by them
    bool beyond_total = false;                  ///< a stated total does not hold it
    bool grown = false;  ///< given once for sizes of different extent, see grow_with_sizes()
};

/// One end to weave in, where nobody says how long.
inline constexpr units::Length usual_tail = 15.0 * units::centimetre;

/// Sizes by widths and lengths, as written: size w x lengths.size() + l is width w and length l.
/// One of the two may be empty.
struct SizeGrid {
    std::vector<std::string> widths;
    std::vector<std::string> lengths;
};

struct Project {
    std::string file;
    std::string title;
    Craft craft = Craft::crochet;
    Terms terms = Terms::us;
    Recipient made_for = Recipient::adult;
    std::string skill;  ///< as the designer words it, may be empty
    units::Ratio margin{};
    /// Nothing: testers' returns where a yarn has some, else what the need rests on.
    std::optional<TotalsFrom> totals_from;
    PrintedFor totals_for;
    std::vector<TesterReturn> testers;
    std::vector<std::string> sizes;  ///< empty when there is one size
    std::optional<SizeGrid> grid;    ///< what `sizes` are made of
    std::vector<std::string> notions;
    std::vector<std::string> care;
    Gauge gauge;                         ///< the maker's, where it differs from the pattern's
    std::optional<Gauge> pattern_gauge;  ///< only where the maker's differs ...
    std::vector<Piece> pattern_pieces;   ///< ... with the pieces as the pattern has them
    Keeping keeping = Keeping::stitch_counts;
    std::vector<Role> roles;
    std::vector<OwnStitch> stitches;  ///< described in [stitch.NAME] tables
    std::optional<Hand> hand;         ///< nothing: a hand that nobody knows
    std::vector<Swatch> swatches;
    std::vector<EarlierMake> earlier_makes;
    std::vector<Piece> pieces;
    std::vector<FinishPart> finish;
    units::Length tail = usual_tail;      ///< one end to weave in
    std::int64_t rows_between_joins = 0;  ///< least distance of two joins in a piece
    /// Where things stand in the file: "gauge.rows", "yarn.MC", "piece.0.length" (from 0).
    std::map<std::string, base::Place> places;

    /// The place of a key, else of its table, else the file.
    [[nodiscard]] base::Place place(const std::string& table, const std::string& key = {}) const;
    [[nodiscard]] std::size_t size_count() const { return sizes.empty() ? 1 : sizes.size(); }
    [[nodiscard]] const Role* role(const std::string& id) const;
};

/// The gauge a piece is worked at.
[[nodiscard]] inline const Gauge& gauge_of(const Project& project, const Piece& piece) {
    return piece.gauge ? *piece.gauge : project.gauge;
}

/// One row of the make in working order.
struct Row {
    std::size_t piece = 0;    ///< index into Project::pieces
    std::int64_t copy = 1;    ///< which of the alike pieces, from 1
    std::int64_t number = 1;  ///< within the piece, from 1
    std::string role;
    units::StitchCount stitches{};  ///< across; chains of spaces are stitches here
    /// What the yarn goes into, by kind; empty where all are the plain stitch of the gauge.
    std::vector<KindCount> kinds;
    /// Of a row that several yarns work: there is one Row for each, with its own stitches.
    units::StitchCount width{};    ///< of the whole row; else as `stitches`
    units::StitchCount carried{};  ///< stitches of other yarns that this one passes
    std::int64_t begun = 0;        ///< times it is begun anew within the row
    bool beside = false;           ///< another yarn of the row stands before it
};

/// Rows and stitches of a piece for one size, from its counts, its measurements and the gauge, or
/// its shape. Stitches are those of row 1, in groups where the shape counts groups; for
/// RowLaw::diagonal those of the widest row.
struct PieceCounts {
    std::int64_t rows = 0;
    std::int64_t stitches = 0;
    std::int64_t increase = 0;
    /// Of the last row, of the middle one for RowLaw::there_and_back; 0: `increase` tells.
    std::int64_t last = 0;
    /// Of a polygon that lies flat: stitches more a round and corner, which are seldom whole, so
    /// that some rounds have one more at each corner than others. 0: `increase` tells.
    units::Ratio flat{};
    std::int64_t every = 1;  ///< rows between increases
};
[[nodiscard]] PieceCounts counts(const Project& project, const Piece& piece, std::size_t size);

/// Stitches in a row (from 1) of a piece without a pattern, by its law; the chains of groups are
/// stitches here.
[[nodiscard]] std::int64_t stitches_in_row(const PieceCounts& counts, const Piece& piece,
                                           std::int64_t row);

/// What the yarn of that row goes into, by kind; empty where all are the plain stitch.
[[nodiscard]] std::vector<KindCount> kinds_in_row(const PieceCounts& counts, const Piece& piece,
                                                  std::int64_t row);

/// Stitches across every row of a piece, with a pattern or without.
[[nodiscard]] std::vector<std::int64_t> row_widths(const Project& project, const Piece& piece,
                                                   std::size_t size);

/// Every row of the make in working order. Pieces listed one after the other with the same count
/// are made as sets: hand, thumb, then the other hand and its thumb.
[[nodiscard]] std::vector<Row> row_sequence(const Project& project, std::size_t size);

/// Finished width (widest row) and length of a piece by its gauge.
struct FinishedSize {
    units::Length width{};
    units::Length length{};
};
[[nodiscard]] FinishedSize finished_size(const Project& project, const Piece& piece,
                                         std::size_t size);

}  // namespace skeinfall::project

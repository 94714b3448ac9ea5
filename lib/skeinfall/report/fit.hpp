#pragma once
/// \file
/// A piece made to measure, as text and as JSON.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/fit/for_whom.hpp"
#include "skeinfall/fit/met_gauge.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::report {

/// The count on the other side of a wish.
struct OtherFit {
    bool across = false;  ///< stitches, not rows
    fit::Fitted fitted;
    need::MakeNeed need;
};

struct FitAnswer {
    fit::Fitted fitted;
    need::MakeNeed was;
    need::MakeNeed need;
    std::vector<OtherFit> others;
    std::optional<fit::EachMore> each;
    /// Where there is a stash.
    std::optional<cover::MakeCover> cover;
    std::optional<joins::Answer> joins;
    cover::Rules rules;  ///< by which it was judged: its margin, and what is worked already
    std::optional<std::string> meant_for;  ///< whose size it is, and where that comes from
};

/// "multiple of 6 + 5, add 2 for the foundation"; "any number" of a repeat of one.
[[nodiscard]] std::string multiple_text(const project::Multiple& multiple);

[[nodiscard]] std::string fit_text(const FitAnswer& answer);

/// {title, size, piece, stitches: {wished, multiple, repeat, plus, foundation, from, now, below,
/// above, taken, repeats}, rows: {...}, foundation, width_m, length_m, was_width_m, was_length_m,
/// unwashed_width_m, unwashed_length_m, motifs, follows: [{piece, stitches, rows, ends_with,
/// was_stitches, was_rows}], on_live_stitches, shaped_anew, blocks_wide, blocks_high, yarn:
/// [{role, need_m, spread_m, was_m}], others:
/// [{stitches, rows, width_m, length_m, yarn}], each_more: {of, stitches, wider_m, rows, longer_m,
/// yarn: [{role, for_width_m, for_length_m}]} or null, verdict, margin_met, skeins: [{role,
/// verdict, chance, chance_with_margin, skeins}], joins:
/// [{role, from, to, skein}], unchanged, borders: [{name, first_round, was}],
/// fringes: [{name, strands, was, times}], with_border_width_m,
/// with_border_length_m}.
[[nodiscard]] std::string fit_json(const FitAnswer& answer);

/// A gauge as it was met, and what yarn either way of working takes.
struct GaugeAnswer {
    fit::MetGauge met;
    need::MakeNeed need;  ///< worked as written
    std::optional<need::MakeNeed> instead_need;
    bool rows_taken = false;  ///< no rows were named
    bool from_rows = false;   ///< found from rows of the piece
};
[[nodiscard]] std::string gauge_answer_text(const GaugeAnswer& answer);
/// {title, size, piece, wanted: {stitches_per_10cm, rows_per_10cm}, met, is_met, planned: {width_m,
/// length_m}, as_written: {width_m, length_m, yarn}, other_size, instead: {width_m, length_m,
/// stitches, rows, repeats, motifs, columns, foundation, yarn} or null, tool_mm}. Of motifs the
/// widths and lengths are those of all that are joined.
[[nodiscard]] std::string gauge_answer_json(const GaugeAnswer& answer);

/// What a make for somebody should measure, with its tables. Stands above the answer of fit.
[[nodiscard]] std::string size_for_text(const fit::SizeFor& wanted, const std::string& who);
/// What of it no table tells, and so stays as the project has it; empty where both ways follow.
[[nodiscard]] std::string other_way_text(const project::Project& project, std::size_t piece,
                                         const fit::SizeFor& wanted, bool length_given);
/// What of the fitted piece lies outside of it; empty where nothing does.
[[nodiscard]] std::string outside_text(const fit::Fitted& fitted, const fit::SizeFor& wanted);
/// "Size M lies within that: 20.5 in (52 cm) around."
[[nodiscard]] std::string size_match_text(const project::Project& project, std::size_t piece,
                                          const fit::SizeMatch& match, const fit::SizeFor& wanted);

}  // namespace skeinfall::report

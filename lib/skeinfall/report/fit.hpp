#pragma once
/// \file
/// A piece made to measure, as text and as JSON.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/fit/fit.hpp"
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
    std::optional<std::string> meant_for;  ///< whose size it is, and where that comes from
};

/// "multiple of 6 + 5, add 2 for the foundation"; "any number" of a repeat of one.
[[nodiscard]] std::string multiple_text(const project::Multiple& multiple);

[[nodiscard]] std::string fit_text(const FitAnswer& answer);

/// {title, size, piece, stitches: {wished, multiple, repeat, plus, foundation, from, now, below,
/// above, taken, repeats}, rows: {...}, foundation, width_m, length_m, was_width_m, was_length_m,
/// unwashed_width_m, unwashed_length_m, yarn: [{role, need_m, spread_m, was_m}], others:
/// [{stitches, rows, width_m, length_m, yarn}], each_more: {stitches, wider_m, rows, longer_m,
/// yarn: [{role, for_width_m, for_length_m}]} or null, verdict, skeins: [{role, verdict, chance,
/// skeins}], joins:
/// [{role, from, to, skein}], unchanged}.
[[nodiscard]] std::string fit_json(const FitAnswer& answer);

}  // namespace skeinfall::report

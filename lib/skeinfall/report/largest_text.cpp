#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using cover::Extent;
using units::Length;
using units::Rounding;
using units::Step;

const std::vector<bool> left_columns(5, false);

const project::Piece& piece_of(const project::Project& project, const cover::Growth& growth) {
    return project.pieces[growth.piece];
}

bool centred(const project::Project& project, const project::Piece& piece) {
    return project::grows_from_centre(project, piece, 0);
}

bool worked_in_blocks(const project::Piece& piece) {
    return piece.shape != nullptr && piece.shape->law == project::RowLaw::diagonal;
}

/// "96 rows", "size M", "98 stitches by 27 rows".
std::string value_text(const project::Project& project, const cover::Growth& growth,
                       std::int64_t value, std::int64_t rows) {
    if (growth.extent == Extent::size)
        return "size " + shown_inert(project.sizes[static_cast<std::size_t>(value)]);
    const std::string piece = shown_inert(piece_of(project, growth).name);
    const std::string row(project::row_word(piece_of(project, growth).worked));
    switch (growth.extent) {
        case Extent::width:
            return counted(value, "stitch", "stitches") + " wide (" + piece + ")";
        case Extent::count:
            return fmt::format("{} of {}", value, piece);
        case Extent::turn:
            return fmt::format("turn after {} {} of {}", row, value, piece);
        case Extent::both:
            if (worked_in_blocks(piece_of(project, growth)))
                return fmt::format("{} by {} blocks ({})", value, rows - value + 1, piece);
            return fmt::format("{} by {} ({})", counted(value, "stitch", "stitches"),
                               counted(rows, row, row + "s"), piece);
        default:
            return counted(value, row, row + "s") + " of " + piece;
    }
}

/// Copies laid as the project joins them, else as nearly square as can be: so many across and so
/// many high.
struct Laid {
    std::int64_t across = 1;
    std::int64_t high = 1;
};
Laid laid_out(const project::Project& project, const project::Piece& piece, std::int64_t copies) {
    if (const auto joining = project::joining_of(project, piece)) {
        const project::FinishPart& part = project.finish[*joining];
        if (part.columns.stated() && part.columns.values.front() <= copies)
            return {part.columns.values.front(), copies / part.columns.values.front()};
    }
    const auto high =
        std::max<std::int64_t>(1, static_cast<std::int64_t>(std::floor(std::sqrt(copies))));
    return {copies / high, high};
}

/// "48.0 in (122 cm) long", what the value comes to.
std::string size_text(const project::Project& project, const cover::Growth& growth,
                      std::int64_t value, const project::FinishedSize& size) {
    const project::Piece& piece = piece_of(project, growth);
    const auto side = units::inches_and_centimetres;
    switch (growth.extent) {
        case Extent::size:
            return {};
        case Extent::width:
            return side(size.width) +
                   (piece.worked == project::Worked::round ? " around" : " wide");
        case Extent::turn:
            return side(size.width) + " at its widest";
        case Extent::both:
            return side(size.width) + " x " + side(size.length);
        case Extent::count: {
            const bool tube = piece.worked == project::Worked::round && !centred(project, piece);
            const std::string others =
                project.pieces.size() > 1 ? ", the other pieces as planned" : "";
            if (tube) return (value == 1 ? "" : "each ") + side(size.width) + " around" + others;
            if (value == 1) return units::inches_and_centimetres(size.width) + " wide" + others;
            const Laid laid = laid_out(project, piece, value);
            // Nothing joins them, and the rest of a square is no offer.
            if (!project::joining_of(project, piece) && value != laid.across * laid.high)
                return side(size.width) + " wide each" + others;
            const auto together = project::laid_together(piece, size, laid.across, laid.high);
            if (!together)
                return fmt::format("{} x {}, each {} wide", laid.across, laid.high,
                                   side(size.width)) +
                       others;
            return fmt::format("{} x {} laid together, {} x {}{}", laid.across, laid.high,
                               side(together->width), side(together->length),
                               value == laid.across * laid.high
                                   ? ""
                                   : fmt::format(", {} over", value - laid.across * laid.high)) +
                   others;
        }
        case Extent::rows:
            break;
    }
    if (worked_in_blocks(piece)) return side(size.width) + " x " + side(size.length);
    return centred(project, piece) ? side(size.width) + " across" : side(size.length) + " long";
}

/// "7 repeats of 6 and 1 more", which add up to the count; empty without a multiple.
std::string repeats_text(const cover::Largest& largest, const cover::Tried& tried) {
    const project::Multiple& multiple = largest.multiple;
    const Extent extent = largest.growth.extent;
    if (multiple.repeat <= 1 || extent == Extent::count || extent == Extent::size) return {};
    const std::int64_t count =
        extent == Extent::width || extent == Extent::both ? tried.stitches : tried.value;
    const std::string of = std::to_string(multiple.repeat);
    const std::int64_t repeats =
        multiple.fits(count) ? multiple.repeats_in(count) : count / multiple.repeat;
    std::string out = counted(repeats, "repeat", "repeats") + " of " + of;
    const std::int64_t beyond = count - repeats * multiple.repeat;
    if (beyond > 0) out += fmt::format(" and {} more", beyond);
    return out;
}

/// What is given up, or gained, against the plan.
std::string against_plan(const project::Project& project, const cover::Largest& largest) {
    const cover::Tried& sure = *largest.sure;
    const cover::Growth& growth = largest.growth;
    if (growth.extent == Extent::size || sure.value == largest.planned) return {};
    const bool less = sure.value < largest.planned;
    const std::string row(project::row_word(piece_of(project, growth).worked));
    const std::int64_t apart = std::abs(sure.value - largest.planned);
    const auto by = [&](Length now, Length then) {
        return units::inches_and_centimetres(
            Length::from_value(std::abs(now.value() - then.value())));
    };
    const project::FinishedSize& planned = largest.planned_size;
    std::string out;
    switch (growth.extent) {
        case Extent::width:
            out = fmt::format("{}, {}", counted(apart, "stitch", "stitches"),
                              by(sure.finished.width, planned.width));
            return fmt::format("  Against the plan: {} {}.\n", out, less ? "narrower" : "wider");
        case Extent::both:
            return fmt::format("  Against the plan: {} {} and {} {}; the proportions stay.\n",
                               by(sure.finished.width, planned.width), less ? "narrower" : "wider",
                               by(sure.finished.length, planned.length),
                               less ? "shorter" : "longer");
        case Extent::count:
            return fmt::format("  Against the plan: {} {}.\n", apart, less ? "fewer" : "more");
        case Extent::rows:
            out = fmt::format("{}, {}", counted(apart, row, row + "s"),
                              centred(project, piece_of(project, growth))
                                  ? by(sure.finished.width, planned.width)
                                  : by(sure.finished.length, planned.length));
            return fmt::format("  Against the plan: {} {}.\n", out,
                               centred(project, piece_of(project, growth))
                                   ? (less ? "smaller" : "larger")
                                   : (less ? "shorter" : "longer"));
        default:
            return {};
    }
}

/// Chains or stitches to begin the largest width with.
std::string begin_with(const project::Project& project, std::size_t size,
                       const cover::Largest& largest) {
    const cover::Growth& growth = largest.growth;
    if (growth.extent != Extent::width && growth.extent != Extent::both) return {};
    const project::Project make = cover::grown(project, size, growth, largest.sure->value);
    const auto chains = fit::begins_with(make, growth.piece, size);
    if (!chains) return {};
    return fmt::format("  Begin with {} {}.\n",
                       project.craft == project::Craft::knit ? "a cast-on of" : "ch", *chains);
}

std::int64_t planned_rows(const project::Project& project, std::size_t size,
                          const cover::Growth& growth) {
    if (growth.extent == Extent::size) return 0;
    return static_cast<std::int64_t>(
        project::row_widths(project, piece_of(project, growth), size).size());
}

/// Without the columns in which no row has anything.
std::vector<std::vector<std::string>> without_empty(std::vector<std::vector<std::string>> rows) {
    for (std::size_t column = rows.empty() ? 0 : rows.front().size(); column-- > 0;)
        if (std::all_of(rows.begin(), rows.end(),
                        [&](const auto& row) { return row[column].empty(); }))
            for (auto& row : rows) row.erase(row.begin() + static_cast<std::ptrdiff_t>(column));
    return rows;
}

std::string kept_back(const cover::Rules& rules) {
    const std::string margin =
        rules.margin.value() > 0.0
            ? fmt::format(" and with your {} margin",
                          units::percent_text(rules.margin, units::Step::one, units::Rounding::up))
            : "";
    return fmt::format(
        "  {} sure{}; yarn for the other pieces, the finish and all ends is kept back.\n",
        chance_text(rules.confidence), margin);
}

/// Borders go round what it becomes, not round what was planned.
std::string edgings_that_follow(const project::Project& project, std::size_t size,
                                const cover::Largest& largest) {
    if (!largest.sure || largest.growth.extent == Extent::size) return {};
    const project::Project grown = cover::grown(project, size, largest.growth, largest.sure->value);
    std::string out;
    for (std::size_t at = 0; at < project.finish.size() && at < grown.finish.size(); ++at) {
        const project::FinishPart& part = project.finish[at];
        if (part.strands.stated() && part.strands.at(size) != grown.finish[at].strands.at(size))
            out += fmt::format("  {}: {} strands at that size, in place of {}.\n",
                               shown_inert(part.name), grown.finish[at].strands.at(size),
                               part.strands.at(size));
        if (!part.first_round.stated() || !grown.finish[at].first_round.stated()) continue;
        const std::int64_t was = part.first_round.at(size);
        const std::int64_t now = grown.finish[at].first_round.at(size);
        if (was != now)
            out +=
                fmt::format("  {}: {} stitches in the first round at that size, in place of {}.\n",
                            shown_inert(part.name), now, was);
    }
    return out;
}

/// Pieces that go on from its stitches, or it from theirs, become others with it.
std::string pieces_that_follow(const project::Project& project, std::size_t size,
                               const cover::Largest& largest) {
    if (!largest.sure || largest.growth.extent == Extent::size) return {};
    const project::Project grown = cover::grown(project, size, largest.growth, largest.sure->value);
    std::string out;
    for (std::size_t at = 0; at < project.pieces.size() && at < grown.pieces.size(); ++at) {
        if (at == largest.growth.piece || grown.pieces.size() != project.pieces.size()) continue;
        const project::Piece& piece = grown.pieces[at];
        const project::PieceCounts was = project::counts(project, project.pieces[at], size);
        const project::PieceCounts now = project::counts(grown, piece, size);
        if (was.stitches == now.stitches && was.rows == now.rows) continue;
        const std::string row(project::row_word(piece.worked));
        out += fmt::format("  {} follows, so that they meet: {} by {}, in place of {} by {}.\n",
                           shown_inert(piece.name), counted(now.stitches, "stitch", "stitches"),
                           counted(now.rows, row, row + "s"), was.stitches, was.rows);
    }
    return out;
}

/// What is settled once that much is begun.
std::string point_of_no_return(const project::Project& project, const cover::Growth& growth,
                               std::int64_t value, bool by_repeats) {
    if (growth.extent == Extent::size)
        return "Decide before the foundation: the size cannot change later.";
    const std::string piece = shown_inert(project.pieces[growth.piece].name);
    const std::string_view row = project::row_word(project.pieces[growth.piece].worked);
    switch (growth.extent) {
        case Extent::turn:
            return fmt::format(
                "Decide after {0} {1}: the way back needs all that is left, so after another {0} "
                "of increase there is too little.",
                row, value);
        case Extent::width:
        case Extent::both:
            return "Decide at the foundation of " + piece + ": the width cannot change later.";
        case Extent::count:
            return fmt::format("Decide before number {} of {} is begun.", value + 1, piece);
        default:
            return fmt::format("Decide after {} {}: another {} eats into the yarn kept for {}ends.",
                               row, value, by_repeats ? "repeat" : row,
                               project.finish.empty() ? "" : "the finish and ");
    }
}

}  // namespace

std::string largest_text(const project::Project& project, std::size_t size,
                         const cover::Largest& largest, const cover::Rules& rules) {
    const cover::Growth& growth = largest.growth;
    const auto shown = [&](const cover::Tried& tried) {
        return value_text(project, growth, tried.value, tried.rows);
    };
    const std::string name =
        sized_title(project.title, project.sizes.empty() || growth.extent == Extent::size
                                       ? std::string()
                                       : project.sizes[size]);
    std::string out = largest.sure   ? shown(*largest.sure)
                      : largest.half ? "only half a repeat, " + shown(*largest.half)
                                     : "not even " + shown(largest.next);
    out += ": " + name + "\n";
    for (const need::Worked& worked : rules.done) out += worked_words(project, rules, worked.role);
    std::vector<std::vector<std::string>> rows;
    const auto add = [&](const std::string& word, const cover::Tried& tried) {
        rows.push_back({word, shown(tried), repeats_text(largest, tried),
                        size_text(project, growth, tried.value, tried.finished),
                        "chance " + chance_text(tried.chance)});
    };
    if (growth.extent == Extent::size) {
        for (const cover::Tried& tried : largest.sizes)
            add(std::string(cover::name_of(tried.verdict)), tried);
    } else {
        if (largest.sure) add("sure", *largest.sure);
        if (largest.half) add(largest.sure ? "half a repeat more" : "half a repeat", *largest.half);
        if (!largest.endless) add("one step more", largest.next);
        if (largest.likely && (!largest.sure || largest.likely->value > largest.sure->value))
            add("more likely than not", *largest.likely);
        rows.push_back(
            {"planned",
             value_text(project, growth, largest.planned, planned_rows(project, size, growth)), "",
             size_text(project, growth, largest.planned, largest.planned_size), ""});
    }
    out += table(without_empty(std::move(rows)), left_columns, 2);
    if (largest.sure) {
        out += against_plan(project, largest);
        out += begin_with(project, size, largest);
    }
    if (largest.endless)
        out += growth.extent == Extent::size ? "  The stash covers every size.\n"
               : largest.limit < cover::largest_at_most
                   ? "  The yarn is enough for all the written rows.\n"
                   : fmt::format("  The yarn is enough for the most that was tried ({}).\n",
                                 largest.limit);
    for (const cover::RoleCover& role : largest.cover.roles) {
        std::vector<std::string> ids;
        for (const stash::Skein& skein : role.chosen) ids.push_back(shown_inert(skein.id));
        out += contradiction_lines(role.need.contradictions);
        out +=
            "  " + shown_inert(role.role.id) +
            (ids.empty() ? std::string(": no suitable skein; \"skeinfall cover\" says why for each")
                         : " from " + base::join(ids, ", ")) +
            "\n";
    }
    out += pieces_that_follow(project, size, largest);
    out += edgings_that_follow(project, size, largest);
    if (!largest.unchanged.empty())
        out += "  Given as a fixed amount, and counted as it is: " +
               shown_inert(base::join(largest.unchanged, ", ")) + ".\n";
    const bool striped =
        growth.extent == Extent::rows && piece_of(project, growth).stripes.size() > 1;
    if (striped)
        out +=
            "  The stripes keep their heights here; \"skeinfall stripes --grow\" changes them, and "
            "may "
            "find "
            "more rows.\n";
    if (largest.sure && !largest.endless)
        out +=
            "  " +
            point_of_no_return(project, growth, largest.sure->value, largest.multiple.repeat > 1) +
            "\n";
    return out + kept_back(rules);
}

std::string largest_json(const project::Project& project, std::size_t size,
                         const cover::Largest& largest) {
    const auto tried = [](const std::optional<cover::Tried>& one) {
        if (!one) return Json();
        return Json{{"value", one->value},
                    {"chance", chance_figure(one->chance).value()},
                    {"verdict", std::string(cover::name_of(one->verdict))},
                    {"stitches", one->stitches},
                    {"rows", one->rows},
                    {"width_m", m(one->finished.width)},
                    {"length_m", m(one->finished.length)}};
    };
    Json out;
    out["title"] = project.title;
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[size]);
    out["extent"] = std::string(cover::name_of(largest.growth.extent));
    out["piece"] = largest.growth.extent == Extent::size || project.pieces.empty()
                       ? Json()
                       : Json(project.pieces[largest.growth.piece].name);
    out["planned"] = largest.planned;
    out["sure"] = tried(largest.sure);
    out["half"] = tried(largest.half);
    out["likely"] = tried(largest.likely);
    out["next"] = tried(largest.next);
    out["endless"] = largest.endless;
    out["unchanged"] = largest.unchanged;
    out["repeat"] = largest.multiple.repeat;
    out["plus"] = largest.multiple.plus;
    out["planned_width_m"] = m(largest.planned_size.width);
    out["planned_length_m"] = m(largest.planned_size.length);
    out["sizes"] = Json::array();
    for (const cover::Tried& one : largest.sizes)
        out["sizes"].push_back({{"size", project.sizes[static_cast<std::size_t>(one.value)]},
                                {"chance", chance_figure(one.chance).value()},
                                {"verdict", std::string(cover::name_of(one.verdict))}});
    return finished(out);
}

namespace {

/// "14.5 sts and 10 rows to 4 in (10 cm)".
std::string gauge_text(const cover::AtGauge& at) {
    const auto figures = [](auto value, const auto& shown) {
        return units::plain_number(units::Ratio(value / shown.one), Step::tenth, Rounding::nearest);
    };
    return fmt::format("{} sts and {} rows to 4 in", figures(at.stitches, units::shown::per_4in),
                       figures(at.rows, units::shown::rows_per_4in));
}

std::string width_and_length(const project::Project& project, const project::Piece& piece,
                             const project::FinishedSize& size) {
    if (centred(project, piece)) return units::inches_and_centimetres(size.width) + " across";
    return units::inches_and_centimetres(size.width) + " x " +
           units::inches_and_centimetres(size.length);
}

Json at_gauge_json(const std::optional<cover::AtGauge>& at) {
    if (!at) return {};
    return {{"stitches_per_10cm", units::Ratio(at->stitches / units::shown::per_10cm.one).value()},
            {"rows_per_10cm", units::Ratio(at->rows / units::shown::rows_per_10cm.one).value()},
            {"width_m", m(at->finished.width)},
            {"length_m", m(at->finished.length)},
            {"chance", chance_figure(at->chance).value()},
            {"verdict", std::string(cover::name_of(at->verdict))}};
}

}  // namespace

std::string largest_by_gauge_text(const project::Project& project, std::size_t size,
                                  const cover::LargestByGauge& largest, const cover::Rules& rules) {
    const project::Piece& piece = project.pieces[largest.piece];
    const std::string name = shown_inert(piece.name);
    std::string out = sized_title(project.title, project.sizes.empty() ? "" : project.sizes[size]);
    out += largest.planned.verdict == cover::Verdict::covered
               ? ": the yarn is enough at the planned gauge\n"
           : largest.counts || largest.size
               ? ": at another gauge the yarn is enough\n"
               : ": at no gauge near the planned one is the yarn enough\n";
    std::vector<std::vector<std::string>> rows;
    const auto add = [&](const char* word, const cover::AtGauge& at) {
        rows.push_back({word, gauge_text(at),
                        name + " " + width_and_length(project, piece, at.finished),
                        "chance " + chance_text(at.chance)});
    };
    add("planned", largest.planned);
    if (largest.counts) add("the same counts", *largest.counts);
    if (largest.size) add("the same size", *largest.size);
    out += table(rows, left_columns, 2);
    if (largest.counts) {
        const bool tighter = largest.counts->stitches > largest.planned.stitches;
        out += tighter ? "  The same counts at the tighter gauge: the piece comes out smaller and "
                         "its fabric firmer.\n"
                       : "  The same counts may be worked this loosely: the piece comes out larger "
                         "and its fabric more open.\n";
    }
    if (largest.size)
        out +=
            "  The same size at the looser gauge: fewer stitches and rows, and a fabric that is "
            "more open.\n";
    if (!largest.counts && !largest.size)
        out +=
            "  Gauges up to a quarter tighter and looser were tried. Make it smaller, or get more "
            "yarn.\n";
    out +=
        "  Work a swatch at that gauge and weigh it before you rely on this: the yarn per stitch "
        "at a new gauge is an estimate.\n";
    return out + kept_back(rules);
}

std::string largest_by_gauge_json(const project::Project& project, std::size_t size,
                                  const cover::LargestByGauge& largest) {
    Json out;
    out["title"] = project.title;
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[size]);
    out["extent"] = "gauge";
    out["piece"] = project.pieces[largest.piece].name;
    out["planned"] = at_gauge_json(largest.planned);
    out["same_counts"] = at_gauge_json(largest.counts);
    out["same_size"] = at_gauge_json(largest.size);
    return finished(out);
}

}  // namespace skeinfall::report

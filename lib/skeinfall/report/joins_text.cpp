#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/joins_words.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using joins::JoinPlan;
using joins::RoleJoins;
using joins::Stretch;
using units::Length;
using units::Rounding;
using units::Step;
using Rows = std::vector<std::vector<std::string>>;

std::string yarn(Length length, Rounding rounding) {
    return units::yarn_text(length, Step::tenth, rounding);
}

std::string height_text(Length length) {
    // A stripe of thin yarn is lower than a tenth of an inch.
    const bool fine = !units::number_style().metric_leads() && length < units::inch;
    return units::side_text(length, fine ? Step::hundredth : Step::tenth, Rounding::nearest);
}

std::string beginning_of(const project::Project& project, const JoinPlan& plan,
                         const Stretch& stretch) {
    if (stretch.from.share.value() > 0.0) return place_text(project, plan, stretch.from);
    if (stretch.from.step >= plan.steps.size()) return "-";
    const std::size_t step = stretch.from.step;
    const bool carried = plan.steps[step].purpose == need::Purpose::carried;
    return step_text(project, plan.steps[carried ? step + 1 : step]);
}

std::string end_of(const project::Project& project, const JoinPlan& plan, const Stretch& stretch) {
    if (stretch.used.value() <= 0.0) return "nothing";
    if (stretch.to.share.value() > 0.0 || stretch.to.step == 0)
        return place_text(project, plan, stretch.to);
    return step_text(project, plan.steps[stretch.to.step - 1]);
}

std::string skein_table(const project::Project& project, const JoinPlan& plan) {
    const bool winds = std::any_of(plan.stretches.begin(), plan.stretches.end(),
                                   [](const Stretch& s) { return s.wound_off.value() > 0.0; });
    Rows rows{{"skein", "from", "to", "yarn used", "ends", "left over"}};
    if (winds) rows[0].emplace_back("wind off before starting");
    for (const Stretch& stretch : plan.stretches) {
        rows.push_back({shown_inert(stretch.ball.id), beginning_of(project, plan, stretch),
                        end_of(project, plan, stretch), yarn(stretch.used, Rounding::nearest),
                        yarn(stretch.tails, Rounding::up), yarn(stretch.left, Rounding::down)});
        if (winds) rows.back().push_back(yarn(stretch.wound_off, Rounding::nearest));
    }
    for (const joins::Spare& spare : plan.spares)
        rows.push_back({shown_inert(spare.ball.id), "spare", "", "", "",
                        yarn(spare.ball.length.centre, Rounding::down)});
    return table(rows, {false, false, false, true, true, true, true}, 2);
}

std::string join_table(const project::Project& project, const JoinPlan& plan,
                       measure::Chance confidence) {
    if (joined_stretches(plan) == 0) return {};
    Rows rows{{"join", "likely", "safe (" + chance_text(confidence) + ")",
               "latest (" + chance_text(confidence) + ")"}};
    for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i) {
        const Stretch& stretch = plan.stretches[i];
        rows.push_back(
            {shown_inert(stretch.ball.id) + " to " + shown_inert(plan.stretches[i + 1].ball.id),
             place_text(project, plan, stretch.to),
             place_text(project, plan, chain::after_steps(stretch.earliest)),
             place_text(project, plan, chain::after_steps(stretch.latest))});
    }
    if (!plan.spares.empty())
        rows.push_back(
            {shown_inert(plan.stretches.back().ball.id) + " to " +
                 shown_inert(plan.spares.front().ball.id),
             "not needed",
             place_text(project, plan, chain::after_steps(plan.stretches.back().earliest)),
             "not needed"});
    return "\n" + table(rows, {false, false, false, false}, 2);
}

/// "row", or "round".
std::string_view row_of(const project::Project& project, const need::Step& step) {
    return project.pieces.empty() ? "row" : project::row_word(project.pieces[step.piece].worked);
}

/// What the scale is for, a line a skein; the slip has it row by row.
std::string weigh_lines(const project::Project& project, const RoleJoins& role,
                        const joins::Scale& scale) {
    std::string out;
    for (std::size_t i = 0; i < role.plan.stretches.size(); ++i) {
        const joins::StopWeight* first = nullptr;
        const joins::StopWeight* heaviest = nullptr;
        for (const joins::StopWeight& line : role.stops) {
            if (line.stretch != i) continue;
            if (first == nullptr) first = &line;
            // A finishing part is no row; the slip has it.
            if (!role.plan.steps[line.steps_done].name.empty()) continue;
            if (heaviest == nullptr || line.next > heaviest->next) heaviest = &line;
        }
        if (first == nullptr) continue;
        const Stretch& stretch = role.plan.stretches[i];
        const std::string skein = shown_inert(stretch.ball.id);
        if (first->rest.value() > 0.0)
            out +=
                fmt::format("  {}: weigh it {}; you need {} to finish\n", skein,
                            place_text(project, role.plan, chain::after_steps(first->steps_done)),
                            scale_text(first->rest, scale.step));
        else if (heaviest != nullptr)
            out +=
                fmt::format("  {}: weigh it {} and after each {}; under {}, join before the next\n",
                            skein, first_weighing(project, role.plan, i),
                            row_of(project, role.plan.steps[stretch.from.step]),
                            scale_text(heaviest->next, scale.step));
    }
    return out.empty() ? out : "\n" + out + "  (--slip prints all of these weights)\n";
}

/// How far the yarn goes: "to row 8 of wrap", "into row 9 of wrap, 30 % along".
std::string reach_of(const project::Project& project, const JoinPlan& plan) {
    const std::string end = end_of(project, plan, plan.stretches.back());
    if (plan.stretches.back().used.value() <= 0.0) return "nowhere";
    if (end.starts_with("in ")) return "into " + end.substr(3);
    return end.starts_with("after ") ? end : "to " + end;
}

/// What other places would give, and how far the yarn goes with them.
std::string compared(const project::Project& project, const RoleJoins& role) {
    if (role.plan.stretches.size() < 2 && role.plan.finishes) return {};
    const auto line = [&](const std::string& where, const JoinPlan& plan) {
        if (plan.stretches.empty()) return std::vector<std::string>{where, "0", "-", "-", "-"};
        return std::vector<std::string>{
            where, std::to_string(plan.stretches.size()), yarn(cut_off(plan), Rounding::up),
            plan.finishes ? yarn(plan.stretches.back().left, Rounding::down) : "-",
            plan.finishes ? "to the end"
                          : reach_of(project, plan) + ", " +
                                yards_and_metres(plan.missing, Rounding::up) + " missing"};
    };
    const auto differs = [](const JoinPlan& a, const JoinPlan& b) {
        constexpr Length hardly = 0.05 * units::metre;
        const Length off = cut_off(a) - cut_off(b);
        return a.finishes != b.finishes || a.stretches.size() != b.stretches.size() ||
               off > hardly || off < -hardly || a.missing - b.missing > hardly;
    };
    Rows rows{{"if you join", "skeins", "wasted", "left in the last", "lasts"}};
    if (differs(role.plan, role.row_ends) && differs(role.plan, role.anywhere))
        rows.push_back(line("as the pieces say", role.plan));
    rows.push_back(line("at any row end", role.row_ends));
    rows.push_back(line("anywhere in a row", role.anywhere));
    return "\n" + table(rows, {false, true, true, true, false}, 2);
}

std::string turns_text(const std::vector<joins::Turns>& all) {
    std::vector<std::string> out;
    for (const joins::Turns& turns : all) {
        std::vector<std::string> rows;
        for (const std::int64_t each : turns) rows.push_back(std::to_string(each));
        out.push_back(base::join(rows, "/"));
    }
    return base::join(out, ", ");
}

std::string by_turns_lines(const joins::ByTurns& by) {
    std::string out = fmt::format(
        "\n  or alternate them from the first row to the last without cutting: {} rows each{}\n",
        turns_text(by.without_cuts),
        by.with_cuts.empty()
            ? ""
            : "; with " + turns_text(by.with_cuts) + " a yarn ends at the other edge");
    for (std::size_t i = 0; i < by.takes.size(); ++i)
        out += i < by.has.size()
                   ? fmt::format("    {} would give {}, and has {}\n", shown_inert(by.names[i]),
                                 yarn(by.takes[i], Rounding::up), yarn(by.has[i], Rounding::down))
                   : fmt::format("    another takes {}\n", yarn(by.takes[i], Rounding::up));
    if (by.has.size() < by.takes.size())
        return out + "    the skeins of this plan are not enough for that: it needs one more\n";
    out += fmt::format("    chance {} that each has its share{}\n", chance_text(by.chance),
                       by.suffices ? "" : ": weigh them as you go");
    if (by.expected.alternated >= by.rows) return out;
    out += fmt::format(
        "    as is expected, not for all of it: alternate for {}, then work on with "
        "{} alone{}\n",
        counted(by.expected.alternated, "row", "rows"), shown_inert(by.names[by.expected.then]),
        by.expected.reached < by.rows
            ? fmt::format(", which ends after row {} of {}", by.expected.reached, by.rows)
            : "");
    return out;
}

std::string lot_lines(const project::Project& project, const RoleJoins& role) {
    std::string out;
    for (const joins::LotChange& change : role.lot_changes) {
        out += fmt::format("  as planned, {} changes to {}", shown_inert(change.from),
                           shown_inert(change.to));
        if (change.fade) {
            const auto begin = static_cast<std::size_t>(change.fade->begin);
            const auto end = static_cast<std::size_t>(change.fade->end);
            out +=
                fmt::format(": alternate {} from {} to {}, with {} of the first lot kept for it\n",
                            counted(change.fade->turns.front(), "row each", "rows each"),
                            step_text(project, role.plan.steps[begin - 1]),
                            step_text(project, role.plan.steps[end - 1]),
                            yarn(change.fade->held, Rounding::up));
        } else {
            out += ": too few rows to fade it; put the change at a seam or an edging\n";
        }
    }
    if (!out.empty()) out = "\n" + out;
    const bool whole =
        std::all_of(role.lots_of_parts.begin(), role.lots_of_parts.end(),
                    [](const joins::LotOfParts& parts) { return parts.lot.has_value(); });
    if (!role.lots_of_parts.empty())
        out += whole ? "\n  or without a change of lot inside a part:\n" : "\n  or part by part:\n";
    for (const joins::LotOfParts& parts : role.lots_of_parts)
        out += fmt::format("    {}: {}\n", shown_inert(base::join(parts.parts, ", ")),
                           parts.lot ? "all from " + shown_inert(*parts.lot)
                                     : "no lot has enough for all of it; alternate two");
    return out;
}

std::string widths_text(const std::vector<std::vector<std::int64_t>>& widths) {
    std::vector<std::string> out;
    out.reserve(widths.size());
    for (const std::vector<std::int64_t>& one : widths)
        out.push_back(one.size() == 1
                          ? std::to_string(one[0])
                          : std::to_string(one[0]) + " and " + std::to_string(one[1]) + " in turn");
    return base::join(out, "; ");
}

std::string pooling_lines(const project::Piece& piece, const joins::PieceColours& colours,
                          Length repeat, units::YarnPerStitch per_stitch) {
    using joins::Pattern;
    const bool flat = piece.worked == project::Worked::flat;
    const double shift = colours.pooling.shift / (per_stitch * units::stitch);
    std::string what;
    switch (colours.pooling.pattern) {
        case Pattern::stacks:
            what = "colours stack above one another";
            break;
        case Pattern::diagonals:
            what = flat ? "colours run in crossing diagonals (argyle)" : "colours run in a spiral";
            break;
        case Pattern::alternates:
            what = "every second row of a side stacks";
            break;
        case Pattern::breaks_up:
            what = "colours neither stack nor run in diagonals";
            break;
    }
    std::string out =
        fmt::format("    {} sts a {}, {} a repeat: {}; {} shift by {} sts\n", colours.width,
                    flat ? "row" : "round",
                    units::number_text(units::Ratio(repeat / (per_stitch * units::stitch)),
                                       Step::tenth, Rounding::nearest),
                    what, flat ? "rows of one side" : "rounds",
                    units::number_text(units::Ratio(shift), Step::tenth, Rounding::nearest));
    if (!colours.stack.empty())
        out += fmt::format("    to stack them: {} sts{}\n", widths_text(colours.stack),
                           colours.avoid && *colours.avoid != colours.width
                               ? fmt::format("; to break them up: {} sts", *colours.avoid)
                               : "");
    if (!colours.drift_by_one.empty())
        out += fmt::format("    to move them by one stitch {}: {} sts\n",
                           flat ? "from row to row of a side (argyle)" : "a round (a spiral)",
                           widths_text(colours.drift_by_one));
    constexpr std::int64_t too_soon = 3;
    if (colours.recheck < too_soon)
        out += "    a pattern will not hold by itself: look at every row\n";
    else
        out += fmt::format(
            "    look at it again by row {}: by then it may have drifted by a "
            "quarter of the shortest colour\n",
            colours.recheck);
    return out;
}

std::string length_text(Length length) {
    return length < units::metre ? height_text(length) : yarn(length, Rounding::nearest);
}

/// How much of its first colour is gone at a phase.
Length into_run(const joins::Runs& runs, Length phase) {
    for (const project::ColourRun& run : runs) {
        if (phase < run.length) return phase;
        phase -= run.length;
    }
    return Length{};
}

/// Whether two pieces look begun alike: within a fiftieth of a repeat.
bool same_phase(Length a, Length b, Length repeat) {
    const Length apart = joins::phase_of(a - b, repeat);
    return std::min(apart, repeat - apart) < 0.02 * repeat;
}

std::string colour_lines(const project::Project& project, const project::Role& role,
                         const joins::Colours& colours) {
    std::string out = fmt::format("\n  colours repeat every {}\n", length_text(colours.repeat));
    for (const joins::PieceColours& one : colours.pieces) {
        const project::Piece& piece = project.pieces[one.piece];
        const auto first = std::find_if(
            colours.pieces.begin(), colours.pieces.end(),
            [&](const joins::PieceColours& other) { return other.piece == one.piece; });
        out += "  " + shown_inert(piece.name) +
               (one.copy > 1 ? " " + std::to_string(one.copy) : "") + " begins with " +
               shown_inert(role.colours[one.stripes.front().run].colour) + ", " +
               length_text(into_run(role.colours, one.start)) + " into it";
        if (one.copy > 1) {
            out += same_phase(first->start, one.start, colours.repeat)
                       ? ", as the first does\n"
                       : ", so it will not match the first\n";
            continue;
        }
        out += "\n";
        Rows rows{{"colour", "first", "last"}};
        for (std::size_t run = 0; run < role.colours.size(); ++run) {
            // Stripes cut short by the piece's edges say nothing of the colour.
            std::vector<const joins::ColourStripe*> whole;
            for (std::size_t i = 1; i + 1 < one.stripes.size(); ++i)
                if (one.stripes[i].run == run) whole.push_back(&one.stripes[i]);
            if (whole.empty()) continue;
            // What ends within its row is no band that a maker could measure.
            constexpr double a_row = 1.0;
            if (std::all_of(whole.begin(), whole.end(), [](const joins::ColourStripe* stripe) {
                    return (stripe->to - stripe->from) / units::row < a_row;
                }))
                continue;
            const char* unit = piece.worked == project::Worked::round ? " rounds" : " rows";
            const auto text = [&](const joins::ColourStripe& stripe) {
                const double rows_high = (stripe.to - stripe.from) / units::row;
                constexpr double worth_counting = 2.0;
                return height_text(stripe.height) +
                       (rows_high < worth_counting
                            ? std::string()
                            : ", " +
                                  units::number_text(units::Ratio(rows_high), Step::tenth,
                                                     Rounding::nearest) +
                                  unit);
            };
            rows.push_back(
                {shown_inert(role.colours[run].colour), text(*whole.front()), text(*whole.back())});
        }
        if (rows.size() > 1) out += table(rows, {false, false, false}, 4);
        if (one.pools && colours.per_stitch.value() > 0.0)
            out += pooling_lines(piece, one, colours.repeat, colours.per_stitch);
    }
    if (colours.wind_off.at_most.value() > 0.0 && !colours.phases_known)
        out += fmt::format(
            "  to join in the right colour you wind off {} on average, as planned here, {} at most "
            "(--begins ID=LENGTH: where each skein begins)\n",
            yarn(colours.wind_off.expected, Rounding::up),
            yarn(colours.wind_off.at_most, Rounding::up));
    if (colours.pair && role.pieces_begin_with.empty())
        out += fmt::format(
            "  for a matching pair from one skein, wind off {} between them; {} altogether\n",
            yarn(colours.pair->wind_off, Rounding::up), yarn(colours.pair->total, Rounding::up));
    if (colours.pair_from_two)
        out +=
            colours.phases_known
                ? fmt::format("  for a matching pair, a skein each, first wind {} off the second\n",
                              yarn(colours.pair_from_two->expected, Rounding::up))
                : fmt::format(
                      "  for a matching pair, a skein each, begin both at the same colour; that "
                      "winds off {} on average, {} at most\n",
                      yarn(colours.pair_from_two->expected, Rounding::up),
                      yarn(colours.pair_from_two->at_most, Rounding::up));
    if (colours.largest_pair && role.pieces_begin_with.empty())
        out += fmt::format("  the largest matching pair takes {} each; {} left over\n",
                           yarn(colours.largest_pair->each, Rounding::down),
                           yarn(colours.largest_pair->left, Rounding::up));
    return out;
}

std::string ends_lines(const project::Project& project, const joins::Ends& ends) {
    if (ends.changes.empty()) return {};
    const auto in_rounds = [&](const need::Change& change) {
        return project.pieces[change.piece].worked == project::Worked::round;
    };
    const bool all_round = std::all_of(ends.changes.begin(), ends.changes.end(), in_rounds);
    std::string out = fmt::format(
        "\nStripes: {}; carried up the {} {}, started with a new end {}; {} to weave in ({})\n",
        counted(static_cast<std::int64_t>(ends.changes.size()), "stripe", "stripes"),
        all_round ? "inside" : "edge", counted(ends.carried, "time", "times"),
        counted(ends.cut / 2, "time", "times"), counted(ends.cut, "end", "ends"),
        yarn(ends.tails, Rounding::up));
    Rows rows;
    constexpr std::size_t shown_at_most = 12;
    for (const need::Change& change : ends.changes) {
        if (change.carried) continue;
        if (rows.size() == shown_at_most) {
            rows.push_back({"...", "", ""});
            break;
        }
        need::Step step;
        step.piece = change.piece;
        step.copy = change.copy;
        step.row = change.row;
        rows.push_back({shown_inert(change.role), "begins " + step_text(project, step),
                        in_rounds(change)   ? "at the start of the round"
                        : change.right_edge ? "at the right edge"
                                            : "at the left edge"});
    }
    return out + table(rows, {false, false, false}, 2);
}

}  // namespace

std::string joins_text(const project::Project& project, const joins::Answer& answer) {
    std::string out =
        joins_headline(answer) + ": " + title_text(project, answer.request.size) + "\n";
    std::vector<std::string> notes;
    for (const RoleJoins& role : answer.roles) {
        const JoinPlan& plan = role.plan;
        const project::Role& wanted = *project.role(plan.role);
        out += "\n" + role_heading(wanted) + "\n" + contradiction_lines(role.contradictions);
        if (plan.stretches.empty()) {
            out += "  no skein to plan with\n";
            continue;
        }
        out += skein_table(project, plan);
        out += join_table(project, plan, answer.request.confidence);
        if (!plan.finishes)
            out += fmt::format("  the yarn ends {}; {} more would finish it\n",
                               place_text(project, plan, plan.stretches.back().to),
                               yards_and_metres(plan.missing, Rounding::up));
        if (const auto words = lasts_words(project, plan, answer.request.confidence))
            out += "  " + *words + "\n";
        if (const auto words = slip_words(plan)) out += "  " + *words + "\n";
        if (!plan.rules_kept)
            out += fmt::format(
                "  no order of these skeins keeps your rules for joins (they would leave {} "
                "unworked); this is the best plan without them\n",
                yards_and_metres(plan.unworked_by_rules, Rounding::up));
        if (!plan.proven)
            out += fmt::format(
                "  There are too many orders to try them all; no plan needs fewer than {}.\n",
                counted(static_cast<std::int64_t>(plan.pieces_at_least), "skein", "skeins"));
        for (const Stretch& stretch : plan.stretches)
            if (stretch.ball.knots > 0)
                out += fmt::format(
                    "  {} holds {}: cut each knot out and join again where it turns up\n",
                    shown_inert(stretch.ball.id), counted(stretch.ball.knots, "knot", "knots"));
        out += weigh_lines(project, role, answer.request.scale);
        out += compared(project, role);
        out += lot_lines(project, role);
        if (role.by_turns) out += by_turns_lines(*role.by_turns);
        if (role.colours) out += colour_lines(project, wanted, *role.colours);
        for (const std::string& note : notes_with_nearest(project, role))
            if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    }
    out += ends_lines(project, answer.ends);
    if (!notes.empty()) out += "\n";
    for (const std::string& note : notes) out += "note: " + note + "\n";
    return out;
}

std::string slip_text(const project::Project& project, const joins::Answer& answer) {
    std::string out =
        shown_inert(project.title) + "\nLess than \"next row\" on the scale? Join now.\n";
    if (answer.request.scale.tare.value() > 0.0)
        out += "(" + scale_text(answer.request.scale.tare, answer.request.scale.step) +
               " of needles or hook included)\n";
    if (answer.lasts < answer.request.confidence)
        out += "chance " + chance_text(answer.lasts) + " that the yarn lasts\n";
    for (const RoleJoins& role : answer.roles) {
        if (role.stops.empty()) {
            out += "\n" + shown_inert(role.plan.role) +
                   ": the yarn's length per weight is not known\n";
            continue;
        }
        std::size_t stretch = role.plan.stretches.size();
        Rows rows;
        const auto flush = [&] {
            if (!rows.empty()) out += table(rows, {false, true, true}, 0);
            rows.clear();
        };
        for (const StopLine& line : stop_lines(project, role, answer.request.scale)) {
            if (line.stretch != stretch) {
                flush();
                stretch = line.stretch;
                out += "\n" + shown_inert(role.plan.role) + ", skein " +
                       shown_inert(role.plan.stretches[stretch].ball.id) + "\n";
                if (stretch > 0 && line.rest.empty())
                    out += "weigh it " + first_weighing(project, role.plan, stretch) +
                           ", then after each\n";
                rows.push_back({"", "next", line.rest.empty() ? "" : "to finish"});
            }
            rows.push_back({line.place, line.next, line.rest});
        }
        flush();
        for (const joins::Spare& spare : role.plan.spares)
            out += "spare: " + shown_inert(spare.ball.id) + "\n";
        if (role.knot)
            out += fmt::format(
                "No scale? Before {} lay out the yarn that is left and tie a loose knot\n{} of the "
                "way from its far end. Stop when you reach the knot.\n",
                step_text(project, role.plan.steps[role.plan.steps.size() - joins::knot_steps]),
                units::percent_text(*role.knot, Step::one, Rounding::up));
    }
    return out;
}

std::string stripe_balls_text(const project::Project& project, const std::string& role,
                              const joins::StripeBalls& stripes,
                              const std::vector<joins::Ball>& balls) {
    const auto all = static_cast<std::int64_t>(stripes.yarn.size());
    const auto covered = static_cast<std::int64_t>(stripes.odd.covered);
    std::string out =
        covered == all
            ? fmt::format("each of {} has its ball, {} that all of them last: {}\n",
                          counted(all, "stripe", "stripes"), chance_text(stripes.lasts),
                          shown_inert(role))
            : fmt::format("{} of {} have a ball, {} missing: {}\n", covered,
                          counted(all, "stripe", "stripes"),
                          yards_and_metres(stripes.odd.missing, Rounding::up), shown_inert(role));
    Rows rows{{"stripe", "takes", "ball", "holds", "lasts"}};
    for (std::size_t i = 0; i < stripes.yarn.size(); ++i) {
        const auto& ball = stripes.odd.ball[i];
        rows.push_back({"from " + step_text(project, stripes.first[i]),
                        yarn(stripes.yarn[i], Rounding::up),
                        ball ? shown_inert(balls[*ball].id) : "no ball is left for it",
                        ball ? yarn(balls[*ball].length.centre, Rounding::down) : "",
                        ball ? chance_text(stripes.chances[i]) : ""});
    }
    return out + table(rows, {false, true, false, true, true}, 2);
}

std::string joins_csv(const project::Project& project, const joins::Answer& answer) {
    const auto number = [](Length length) {
        return units::number_text(units::Ratio(length / units::metre), Step::thousandth,
                                  Rounding::nearest);
    };
    base::CsvTable out({"role", "skein", "from", "to", "safe", "latest", "worked_in_m", "tails_m",
                        "wound_off_m", "left_m"});
    for (const RoleJoins& role : answer.roles) {
        for (std::size_t i = 0; i < role.plan.stretches.size(); ++i) {
            const Stretch& stretch = role.plan.stretches[i];
            const bool joined = i < joined_stretches(role.plan);
            const auto place = [&](std::size_t steps) {
                return joined ? place_text(project, role.plan, chain::after_steps(steps))
                              : std::string();
            };
            out.text(role.plan.role).text(stretch.ball.id);
            out.text(beginning_of(project, role.plan, stretch));
            out.text(end_of(project, role.plan, stretch));
            out.text(place(stretch.earliest)).text(place(stretch.latest));
            out.number(number(stretch.used)).number(number(stretch.tails));
            out.number(number(stretch.wound_off)).number(number(stretch.left)).end_line();
        }
        for (const joins::Spare& spare : role.plan.spares) {
            out.text(role.plan.role).text(spare.ball.id).text("spare").empty().empty().empty();
            out.number(number({})).number(number({})).number(number({}));
            out.number(number(spare.ball.length.centre)).end_line();
        }
    }
    return out.written();
}

}  // namespace skeinfall::report

#include "skeinfall/joins/answer.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/lot_mixing.hpp"
#include "skeinfall/joins/detail/nearest.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::joins {
namespace {

using units::Length;

/// The need of those steps alone.
void takes_only(need::RoleNeed& role, const std::vector<need::Step>& steps) {
    Length sum{};
    for (const need::Step& step : steps)
        if (step.role == role.role) sum += step.yarn;
    role.length.spread = sum * role.length.relative();
    role.length.centre = sum;
}

/// What is worked once and stands in no pair: its steps, where there are some.
std::vector<need::Step> beside_pairs(const project::Project& project, std::size_t size,
                                     const std::string& role,
                                     const std::vector<need::Step>& steps) {
    std::vector<need::Step> out;
    for (const need::Step& step : steps) {
        const bool pair = step.name.empty() && !project.pieces.empty() &&
                          project.pieces[step.piece].count.at(size) == 2;
        if (step.role == role && !pair) out.push_back(step);
    }
    return out;
}

/// The skeins that no pair of the plan holds; what the pairs leave of theirs comes after them.
std::vector<Ball> not_paired(const std::vector<Ball>& balls, const JoinPlan& plan,
                             units::Ratio need_spread) {
    std::vector<Ball> out;
    std::vector<Ball> left;
    for (const Ball& ball : balls) {
        const auto taken =
            std::find_if(plan.stretches.begin(), plan.stretches.end(), [&](const Stretch& stretch) {
                return stretch.ball.id.starts_with(ball.id + " + ") ||
                       stretch.ball.id.ends_with(" + " + ball.id);
            });
        if (taken == plan.stretches.end()) {
            out.push_back(ball);
            continue;
        }
        Ball rest = ball;
        rest.knots = 0;
        rest.length.centre -= taken->used + taken->tails + taken->wound_off;
        rest.length.spread =
            measure::in_quadrature(ball.length.spread, need_spread.value() * taken->used);
        if (rest.length.centre > Length{}) left.push_back(std::move(rest));
    }
    if (plan.finishes) out.insert(out.end(), left.begin(), left.end());
    return out;
}

/// Two copies as one: the steps of the first, and skeins in pairs.
void make_pairs(const project::Project& project, std::size_t size, need::RoleNeed& role,
                std::vector<need::Step>& steps, std::vector<Ball>& balls) {
    const auto twice = [&](const need::Step& step) {
        return !project.pieces.empty() && project.pieces[step.piece].count.at(size) == 2;
    };
    const bool any = std::any_of(steps.begin(), steps.end(), [&](const need::Step& step) {
        return step.role == role.role && step.copy == 2 && twice(step);
    });
    if (!any || balls.size() < 2)
        throw base::InputError(base::Problem{
            any ? "one skein of yarn " + role.role + " makes no pair"
                : "no piece in yarn " + role.role + " is made twice",
            {},
            any ? "two skeins or more" : "pieces with count = 2",
            any ? "Wind it into two halves of equal weight and plan with both." : ""});
    std::erase_if(steps, [&](const need::Step& step) {
        return step.role == role.role && (step.copy != 1 || !twice(step) || !step.name.empty());
    });
    takes_only(role, steps);
    std::vector<Length> lengths;
    lengths.reserve(balls.size());
    for (const Ball& ball : balls) lengths.push_back(ball.length.centre);
    std::vector<Ball> paired;
    for (const Pair& pair : pair_skeins(lengths)) {
        Ball both = balls[pair.shorter];
        both.id = balls[pair.longer].id + " + " + both.id;
        both.knots = std::max(both.knots, balls[pair.longer].knots);
        paired.push_back(both);
    }
    balls = std::move(paired);
}

PieceColours piece_colours(const project::Project& project, const project::Role& role,
                           std::size_t size, std::size_t index, Length start,
                           const std::vector<Length>& rows, Length repeat, units::Ratio relative) {
    const project::Piece& piece = project.pieces[index];
    PieceColours out;
    out.piece = index;
    out.start = phase_of(start, repeat);
    out.stripes =
        colour_stripes(role.colours, start, rows, 1.0 * units::row / gauge_of(project, piece).rows);
    const std::vector<std::int64_t> widths = project::row_widths(project, piece, size);
    for (std::size_t i = 0; i < std::min(rows.size(), widths.size()); ++i)
        out.rows.push_back({widths[i], rows[i]});
    out.width = widths.front();
    const bool even = std::all_of(widths.begin(), widths.end(),
                                  [&](std::int64_t width) { return width == out.width; });
    Length longest{};
    Length shortest = repeat;
    for (const project::ColourRun& run : role.colours) {
        longest = std::max(longest, run.length);
        shortest = std::min(shortest, run.length);
    }
    out.pools = even && out.width > 0 && longest < 2.0 * rows.front();
    if (!out.pools) return out;
    const Length& row = rows.front();
    const Length stitch = row / static_cast<double>(out.width);
    out.pooling = pooling_of(row, repeat, piece.worked);
    const std::int64_t in_stitches = std::max<std::int64_t>(1, std::llround(repeat / stitch));
    out.stack = widths_for(in_stitches, 0, piece.worked, out.width);
    constexpr std::size_t enough = 3;
    if (out.stack.size() > enough) out.stack.resize(enough);
    out.drift_by_one = widths_for(in_stitches, 1, piece.worked, out.width);
    if (out.drift_by_one.size() > enough) out.drift_by_one.resize(enough);
    for (std::int64_t off = 0; off <= in_stitches && !out.avoid; ++off)
        for (const std::int64_t width : {out.width + off, out.width - off})
            if (width > 0 && !out.avoid &&
                pooling_of(static_cast<double>(width) * stitch, repeat, piece.worked).pattern ==
                    Pattern::breaks_up)
                out.avoid = width;
    if (relative.value() > 0.0) out.recheck = rows_until_drift(shortest, row, relative);
    return out;
}

std::optional<Colours> colours_of(const project::Project& project, const project::Role& role,
                                  std::size_t size, const need::RoleNeed& need,
                                  const JoinPlan& plan, const std::vector<Ball>& balls,
                                  Length tail) {
    if (role.colours.empty() || project.pieces.empty()) return std::nullopt;
    Colours out;
    out.repeat = project::repeat_of(role.colours);
    const auto wound = std::count_if(plan.stretches.begin(), plan.stretches.end(),
                                     [](const Stretch& s) { return s.wound_off.value() > 0.0; });
    out.wind_off = wind_off_for(static_cast<std::size_t>(wound), out.repeat);
    out.phases_known = !balls.empty() && std::all_of(balls.begin(), balls.end(),
                                                     [](const Ball& b) { return b.phase; });
    Length at = balls.empty() ? Length{} : balls.front().phase.value_or(Length{});
    at += tail;
    Length first_copies{};
    bool twice = false;
    std::set<std::pair<std::size_t, std::int64_t>> seen;
    std::set<std::pair<std::size_t, std::int64_t>> begun;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const need::Step& step = plan.steps[i];
        if (step.name.empty() && begun.insert({step.piece, step.copy}).second) {
            // Wound off by the colour that is seen, not by the length that was foretold.
            if (!role.pieces_begin_with.empty())
                at = phase_of_colour(role.colours, role.pieces_begin_with).value_or(Length{});
        }
        const bool body = step.purpose == need::Purpose::body && step.row > 0;
        if (step.copy == 1 && step.name.empty()) first_copies += step.yarn;
        twice = twice || step.copy == 2;
        if (body && project.pieces[step.piece].stripes.empty() &&
            seen.insert({step.piece, step.copy}).second) {
            std::vector<Length> rows;
            for (std::size_t k = i; k < plan.steps.size(); ++k)
                if (plan.steps[k].piece == step.piece && plan.steps[k].copy == step.copy &&
                    plan.steps[k].purpose == need::Purpose::body)
                    rows.push_back(plan.steps[k].yarn);
            out.pieces.push_back(piece_colours(project, role, size, step.piece, at, rows,
                                               out.repeat, need.length.relative()));
            out.pieces.back().copy = step.copy;
            const std::int64_t width = out.pieces.back().width;
            if (out.per_stitch.value() == 0.0 && width > 0)
                out.per_stitch = rows.front() / (static_cast<double>(width) * units::stitch);
        }
        at += step.yarn;
    }
    if (twice) {
        out.pair = pair_from_one(first_copies, 2.0 * tail, out.repeat);
        if (balls.size() == 1)
            out.largest_pair = largest_pair(balls[0].length.centre, 2.0 * tail, out.repeat);
        else if (balls.size() > 1)
            out.pair_from_two = wind_off_for(1, out.repeat);
        if (balls.size() > 1 && out.phases_known) {
            const Length known = wind_off(*balls[0].phase, *balls[1].phase, Length{}, out.repeat);
            out.pair_from_two = WindOff{known, known};
        }
    }
    return out;
}

/// Flat when any of these steps is a row worked flat: there a yarn waits at an edge.
project::Worked worked_in(const project::Project& project, const std::vector<need::Step>& steps,
                          std::size_t from, std::size_t to) {
    bool round = !project.pieces.empty();
    for (std::size_t i = from; i < std::min(to, steps.size()) && round; ++i)
        round = !steps[i].name.empty() ||
                project.pieces[steps[i].piece].worked == project::Worked::round;
    return round ? project::Worked::round : project::Worked::flat;
}

std::vector<LotChange> lot_changes(const project::Project& project, const JoinPlan& plan,
                                   Length tail) {
    std::vector<LotChange> out;
    std::vector<Length> yarn;
    for (const need::Step& step : plan.steps) yarn.push_back(step.yarn);
    for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i) {
        const Stretch& now = plan.stretches[i];
        const Ball& next = plan.stretches[i + 1].ball;
        if (now.ball.lot == next.lot || now.ball.lot.empty() || next.lot.empty()) continue;
        LotChange change{i, now.ball.lot, next.lot, std::nullopt, Length{}};
        // Only rows that this skein is worked into can be shared with the next.
        const std::size_t first = now.from.step + (now.from.share.value() > 0.0 ? 1 : 0);
        if (first >= yarn.size()) continue;
        const std::vector<Length> rows(yarn.begin() + static_cast<std::ptrdiff_t>(first),
                                       yarn.end());
        // The fade ends where this skein does, some rows later for those it shares.
        constexpr auto about = static_cast<std::size_t>(fade_rows);
        const project::Worked worked = worked_in(
            project, plan.steps, std::max(first, now.to.step - std::min(now.to.step, about)),
            now.to.step + about);
        change.fade = fade(rows, now.used + now.left - tail, fade_rows, worked);
        if (change.fade) {
            change.fade->begin += static_cast<std::int64_t>(first);
            change.fade->end += static_cast<std::int64_t>(first);
        }
        out.push_back(std::move(change));
    }
    return out;
}

/// Skeins of one lot, or one skein, and how much of them is known.
struct InTurn {
    std::string name;
    measure::Estimate<Length> usable;
    Length shared{};
};

/// What could be worked in turn: lots when there are several, or the longest skeins when so many
/// are asked for.
std::vector<InTurn> in_turn(const std::vector<Ball>& balls, Length tail,
                            std::optional<std::int64_t> asked) {
    std::vector<InTurn> out;
    for (const Ball& ball : balls) {
        const std::string& name = asked ? ball.id : ball.lot;
        if (name.empty()) return {};
        auto one = std::find_if(out.begin(), out.end(),
                                [&](const InTurn& other) { return other.name == name; });
        if (one == out.end()) one = out.insert(out.end(), {name, {}, {}});
        one->usable.centre += ball.length.centre - 2.0 * tail;
        one->usable.spread = measure::in_quadrature(one->usable.spread, ball.length.spread);
        one->shared += ball.shared;
    }
    std::stable_sort(out.begin(), out.end(), [](const InTurn& a, const InTurn& b) {
        return a.usable.centre > b.usable.centre;
    });
    if (asked && out.size() > static_cast<std::size_t>(*asked))
        out.resize(static_cast<std::size_t>(*asked));
    return out;
}

/// No surer than that none of them runs out, however they hang together.
measure::Chance all_hold(const std::vector<InTurn>& yarns, const std::vector<Length>& takes,
                         const need::RoleNeed& need) {
    const units::Ratio relative = need.length.relative();
    double fails = 0.0;
    for (std::size_t i = 0; i < takes.size(); ++i) {
        if (i >= yarns.size()) return {};
        const Length spread = measure::in_quadrature(yarns[i].usable.spread, yarns[i].shared);
        fails += 1.0 - measure::chance_enough({yarns[i].usable.centre, spread},
                                              {takes[i], takes[i] * relative.value()})
                           .value.value();
    }
    return {std::max(0.0, 1.0 - fails) * units::Ratio(need.trust())};
}

std::optional<ByTurns> by_turns(const project::Project& project, const JoinPlan& plan,
                                const std::vector<Ball>& balls, const need::RoleNeed& need,
                                Length tail, const Request& request) {
    constexpr std::int64_t rows_at_most = 4;
    constexpr std::size_t yarns_at_most = 4;
    const std::optional<std::int64_t> asked = request.by_turns;
    const std::vector<InTurn> yarns = in_turn(balls, tail, asked);
    const std::size_t count = asked ? static_cast<std::size_t>(*asked) : yarns.size();
    if (count < 2 || (!asked && count > yarns_at_most) || plan.steps.empty()) return std::nullopt;
    const project::Worked worked = worked_in(project, plan.steps, 0, plan.steps.size());
    ByTurns out;
    out.without_cuts = turns_without_cuts(count, worked, rows_at_most);
    for (std::int64_t rows = 1; rows <= rows_at_most; ++rows)
        if (Turns turns(count, rows); !cover::carried_without_cutting(turns, worked))
            out.with_cuts.push_back(std::move(turns));
    std::vector<Length> rows;
    for (const need::Step& step : plan.steps) rows.push_back(step.yarn);
    out.takes = yarn_by_turns(rows, out.without_cuts.front());
    std::sort(out.takes.begin(), out.takes.end(), std::greater<>());
    for (const InTurn& one : yarns) {
        out.names.push_back(one.name);
        out.has.push_back(one.usable.centre);
    }
    out.chance = all_hold(yarns, out.takes, need);
    out.suffices = out.chance >= request.confidence;
    out.rows = static_cast<std::int64_t>(rows.size());
    if (out.has.size() == count)
        out.expected = work_in_turns(rows, out.without_cuts.front(), out.has);
    return out;
}

std::vector<LotOfParts> lots_of_parts(const project::Project& project, const JoinPlan& plan,
                                      const std::vector<Ball>& balls, Length tail) {
    std::vector<LotStock> lots;
    for (const Ball& ball : balls) {
        if (ball.lot.empty()) return {};
        auto lot = std::find_if(lots.begin(), lots.end(),
                                [&](const LotStock& one) { return one.lot == ball.lot; });
        if (lot == lots.end()) {
            lots.push_back({ball.lot, Length{}});
            lot = std::prev(lots.end());
        }
        lot->usable += ball.length.centre - 2.0 * tail;
    }
    if (lots.size() < 2 || project.pieces.empty()) return {};
    std::vector<MatchedPart> parts;
    std::set<std::string> groups;
    for (const need::Step& step : plan.steps) {
        const std::string match = step.name.empty() ? project.pieces[step.piece].name : step.name;
        const std::string name = match + (step.copy > 1 ? " " + std::to_string(step.copy) : "");
        groups.insert(match);
        if (parts.empty() || parts.back().name != name) parts.push_back({name, match, Length{}});
        parts.back().need += step.yarn;
    }
    if (groups.size() > groups_at_most) return {};
    return match_parts(parts, lots);
}

/// A step that no skein reaches across can only be worked with a join inside it.
std::optional<StepTooLong> too_long_a_step(const project::Project& project, const JoinPlan& plan) {
    if (plan.finishes || plan.stretches.empty() || plan.where == Where::anywhere)
        return std::nullopt;
    Length longest{};
    for (const Stretch& stretch : plan.stretches)
        longest = std::max(longest, stretch.ball.length.centre - stretch.tails);
    const auto step = std::find_if(plan.steps.begin(), plan.steps.end(),
                                   [&](const need::Step& one) { return one.yarn > longest; });
    if (step == plan.steps.end()) return std::nullopt;
    StepTooLong out;
    out.part = step->name;
    out.finish = !step->name.empty() || project.pieces.empty();
    out.purpose = step->purpose;
    out.row = step->row;
    out.takes = step->yarn;
    out.longest = longest;
    if (!out.finish) {
        out.part = project.pieces[step->piece].name;
        out.worked = project.pieces[step->piece].worked;
    }
    return out;
}

/// What a contradiction leaves of its chances.
void trust_less(JoinPlan& plan, units::Ratio trust) {
    const auto less = [&](measure::Chance& chance) { chance.value = chance.value * trust; };
    less(plan.lasts);
    less(plan.by_slip);
    for (chain::Spare& spare : plan.spares) less(spare.lasts);
}

/// That the yarn lasts with every join where the rules permit, as cover judges it.
measure::Chance chance_by_rules(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                                const std::vector<Ball>& balls, Rules rules,
                                const project::Project& project) {
    rules.keep_rules = true;
    rules.only_chance = true;
    const measure::Chance chance = chance_of(plan_joins(role, steps, balls, rules, &project));
    return {chance.value * role.trust()};
}

std::vector<Note> notes_of(const project::Project& project, const JoinPlan& plan,
                           const project::Role& role) {
    std::vector<Note> notes;
    std::set<std::size_t> told;
    for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i) {
        const Position& at = plan.stretches[i].to;
        if (project.pieces.empty() || at.share.value() > 0.0 || at.step == 0) continue;
        const need::Step& step = plan.steps[at.step - 1];
        const project::Piece& piece = project.pieces[step.piece];
        if (step.name.empty() && piece.edge == project::Edge::visible &&
            piece.worked == project::Worked::flat && piece.stripes.empty() &&
            told.insert(step.piece).second)
            notes.emplace_back(EdgeStaysVisible{piece.name});
    }
    if (role.join_kind != nullptr && role.join_kind->plied_only)
        notes.emplace_back(NeedsPliedYarn{std::string(role.join_kind->name)});
    if (!role.colours.empty())
        for (const Stretch& stretch : plan.stretches)
            if (stretch.ball.knots > 0) notes.emplace_back(KnotBreaksColours{stretch.ball.id});
    if (const auto note = too_long_a_step(project, plan)) notes.emplace_back(*note);
    return notes;
}

}  // namespace

bool is_sure(const Answer& answer) {
    const bool by_slip = std::none_of(answer.roles.begin(), answer.roles.end(),
                                      [](const RoleJoins& role) { return role.plan.against_slip; });
    return answer.rules_kept && by_slip && answer.lasts >= answer.request.confidence &&
           std::all_of(answer.roles.begin(), answer.roles.end(),
                       [](const RoleJoins& role) { return role.contradictions.empty(); });
}

Rules rules_of(const project::Project& project, const project::Role& role, const Request& request) {
    Rules rules = chain::rules_of(project, role, request.size, request.confidence);
    // A need alone has no rows to join between, and cover reckons it so.
    if (request.anywhere || project.pieces.empty()) rules.where = Where::anywhere;
    if (request.rows_between) rules.rows_between = *request.rows_between;
    rules.sure_lengths = request.sure_lengths;
    rules.scale_step = request.scale.step;
    if (const auto hand = request.in_hand.find(role.id); hand != request.in_hand.end())
        rules.first = hand->second;
    return rules;
}

Length unworked_with(const project::Project& project, const need::MakeNeed& make,
                     const BallsOfRoles& balls_of_roles, const Request& request,
                     const Answer& answer, std::size_t joins_at_most) {
    if (answer.joins <= joins_at_most || answer.roles.empty()) return {};
    const RoleJoins& most = *std::max_element(
        answer.roles.begin(), answer.roles.end(), [](const RoleJoins& a, const RoleJoins& b) {
            return a.plan.stretches.size() < b.plan.stretches.size();
        });
    const std::size_t over = answer.joins - joins_at_most;
    const std::size_t pieces = most.plan.stretches.size();
    BallsOfRoles fewer = balls_of_roles;
    std::vector<Ball>& own = fewer[most.plan.role];
    std::stable_sort(own.begin(), own.end(), [](const Ball& a, const Ball& b) {
        return a.length.centre > b.length.centre;
    });
    own.resize(std::min(own.size(), pieces > over ? pieces - over : 1));
    for (const RoleJoins& role : answer_joins(project, make, fewer, request).roles)
        if (role.plan.role == most.plan.role) return role.plan.missing;
    return {};
}

Answer answer_joins(const project::Project& project, const need::MakeNeed& make,
                    const BallsOfRoles& balls_of_roles, const Request& request) {
    Answer answer;
    answer.request = request;
    answer.ends = stripe_ends(make, project.tail);
    std::map<std::string, std::vector<Position>> joined;
    for (const need::RoleNeed& need : make.roles) {
        const project::Role& role = *project.role(need.role);
        const auto found = balls_of_roles.find(need.role);
        std::vector<Ball> balls =
            found == balls_of_roles.end() ? std::vector<Ball>{} : found->second;
        std::vector<need::Step> steps = make.steps;
        need::RoleNeed own = need;
        Rules rules = rules_of(project, role, request);
        if (request.label_cancels.contains(need.role)) own.length = need.without_shared();
        if (!role.held_with.empty()) {
            steps = steps_beside(own, role.held_with, make.steps);
            rules.keep_away = joined[role.held_with];
        }
        const std::vector<Ball> unpaired = balls;
        const std::vector<need::Step> all_steps = request.pairs ? steps : std::vector<need::Step>();
        const measure::Estimate<Length> whole = own.length;
        if (request.pairs) make_pairs(project, make.size, own, steps, balls);

        RoleJoins out;
        out.plan = plan_joins(own, steps, balls, rules, &project);
        Rules other = rules;
        other.where = Where::row_ends;
        out.row_ends = plan_joins(own, steps, balls, other, &project);
        other.where = Where::anywhere;
        out.anywhere = plan_joins(own, steps, balls, other, &project);
        if (!out.plan.rules_kept)
            out.kept_to_rules = chance_by_rules(own, steps, balls, rules, project);
        if (const auto grist = own.grist)
            out.stops = stop_weights(out.plan, own, *grist, request.scale, rules);
        if (out.plan.steps.size() >= knot_steps && out.plan.finishes) {
            const auto& all = out.plan.steps;
            out.knot = knot_share(all[all.size() - 3].yarn,
                                  all[all.size() - 2].yarn + all[all.size() - 1].yarn);
        }
        out.lot_changes = lot_changes(project, out.plan, rules.tail);
        out.by_turns = by_turns(project, out.plan, balls, own, rules.tail, request);
        out.lots_of_parts = lots_of_parts(project, out.plan, balls, rules.tail);
        out.colours = colours_of(project, role, make.size, own, out.plan, balls, rules.tail);
        out.notes = notes_of(project, out.plan, role);
        out.contradictions = need.contradictions;
        out.nearest =
            nearest_that_works(project, own, steps, unpaired, balls, rules, out, request.pairs);
        for (JoinPlan* each : {&out.plan, &out.row_ends, &out.anywhere})
            trust_less(*each, need.trust());
        for (std::size_t i = 0; i < out.plan.stretches.size(); ++i) {
            const Stretch& stretch = out.plan.stretches[i];
            answer.joins += static_cast<std::size_t>(stretch.ball.knots);
            if (i + 1 == out.plan.stretches.size()) break;
            ++answer.joins;
            joined[need.role].push_back(stretch.to);
        }
        answer.finishes = answer.finishes && out.plan.finishes;
        answer.rules_kept = answer.rules_kept && out.plan.rules_kept;
        const std::vector<Ball> others = request.pairs
                                             ? not_paired(unpaired, out.plan, own.length.relative())
                                             : std::vector<Ball>();
        answer.roles.push_back(std::move(out));
        if (!request.pairs) continue;
        // Pieces that are not made twice, and the finish, from the skeins that no pair needs.
        const std::vector<need::Step> once = beside_pairs(project, make.size, need.role, all_steps);
        need::RoleNeed of_once = own;
        of_once.length = whole;
        takes_only(of_once, once);
        if (of_once.length.centre <= Length{}) continue;
        RoleJoins single;
        single.plan = plan_joins(of_once, once, others, rules, &project);
        other.where = Where::row_ends;
        single.row_ends = plan_joins(of_once, once, others, other, &project);
        other.where = Where::anywhere;
        single.anywhere = plan_joins(of_once, once, others, other, &project);
        if (!single.plan.rules_kept)
            single.kept_to_rules = chance_by_rules(of_once, once, others, rules, project);
        if (const auto grist = of_once.grist)
            single.stops = stop_weights(single.plan, of_once, *grist, request.scale, rules);
        for (JoinPlan* each : {&single.plan, &single.row_ends, &single.anywhere})
            trust_less(*each, need.trust());
        single.notes = notes_of(project, single.plan, role);
        single.notes.emplace_back(PlannedBesidePairs{});
        answer.joins += single.plan.stretches.empty() ? 0 : single.plan.stretches.size() - 1;
        answer.finishes = answer.finishes && single.plan.finishes;
        answer.rules_kept = answer.rules_kept && single.plan.rules_kept;
        answer.roles.push_back(std::move(single));
    }
    for (const RoleJoins& role : answer.roles) {
        const measure::Chance planned = chance_of(role.plan);
        const measure::Chance kept = role.kept_to_rules.value_or(planned);
        answer.lasts = {units::Ratio(answer.lasts.value * kept.value)};
        answer.lasts_as_planned = {units::Ratio(answer.lasts_as_planned.value * planned.value)};
        answer.by_slip = {units::Ratio(answer.by_slip.value * role.plan.by_slip.value)};
        answer.perhaps += role.plan.spares.size();
    }
    return answer;
}

}  // namespace skeinfall::joins

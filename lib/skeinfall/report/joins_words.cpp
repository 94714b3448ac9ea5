#include "skeinfall/report/detail/joins_words.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

/// Knots inside the planned skeins, each cut out and joined anew.
std::int64_t knots_of(const joins::Answer& answer) {
    std::int64_t knots = 0;
    for (const joins::RoleJoins& role : answer.roles)
        for (const joins::Stretch& stretch : role.plan.stretches) knots += stretch.ball.knots;
    return knots;
}

}  // namespace

std::string joins_headline(const joins::Answer& answer) {
    const std::int64_t knots = knots_of(answer);
    const std::int64_t joins = static_cast<std::int64_t>(answer.joins) - knots;
    std::string out = counted(joins, "join", "joins");
    if (answer.perhaps > 0)
        out += fmt::format(", perhaps {}", joins + static_cast<std::int64_t>(answer.perhaps));
    if (knots > 0) out += " and " + counted(knots, "knot", "knots");
    if (answer.request.pairs) out += " for each of the two";
    constexpr double even = 0.5;
    const double lasts = answer.lasts.value.value();
    if (!answer.finishes && lasts < even)
        out += lasts <= 1.0 - answer.request.confidence.value.value()
                   ? ", and the yarn will very likely run out"
                   : ", and the yarn may well run out";
    if (!answer.rules_kept)
        out += fmt::format(
            ", some where the project wants none (chance {} that it lasts; {} with joins only "
            "where it wants them)",
            chance_text(answer.lasts_as_planned), chance_text(answer.lasts));
    else if (answer.lasts < answer.request.confidence)
        out += fmt::format(", chance {} that it lasts", chance_text(answer.lasts));
    return out;
}

std::optional<std::string> slip_words(const joins::JoinPlan& plan) {
    constexpr double a_point = 0.01;
    if (plan.stretches.empty() ||
        joins::chance_of(plan).value.value() - plan.by_slip.value.value() <= a_point)
        return std::nullopt;
    return fmt::format(
        "the chance is {} if you stop at the stop weights; it is {} if you try the next row and "
        "rip it back when it runs short",
        chance_text(plan.by_slip), chance_text(joins::chance_of(plan)));
}

std::optional<std::string> lasts_words(const project::Project& project, const joins::JoinPlan& plan,
                                       measure::Chance confidence) {
    if (plan.against_slip)
        return fmt::format(
            "by the stop weights it cannot be finished; if you work on below them anyway, "
            "the chance is {}",
            chance_text(joins::chance_of(plan)));
    if (!plan.finishes || plan.stretches.empty()) return std::nullopt;
    if (plan.spares.empty() && plan.lasts >= confidence) return std::nullopt;
    const std::string place =
        place_text(project, plan, {plan.stretches.back().earliest, units::Ratio(0.0)});
    if (plan.spares.empty())
        return fmt::format("{} chance that the yarn lasts; it may end {}", chance_text(plan.lasts),
                           place);
    std::vector<std::string> ids;
    for (const joins::Spare& spare : plan.spares) ids.push_back(base::shown_inert(spare.ball.id));
    return fmt::format("keep {} at hand {}: {} chance without it, {} with it",
                       base::join(ids, ", "), place, chance_text(plan.lasts),
                       chance_text(joins::chance_of(plan)));
}

std::string nearest_words(const project::Project& project, const joins::Nearest& nearest) {
    using Way = joins::Nearest::Way;
    const auto yarn = [](units::Length length, units::Rounding rounding) {
        return units::yards_and_metres(length, rounding);
    };
    switch (nearest.way) {
        case Way::closer:
            return fmt::format("joins can lie {} rows apart, but not {} (--apart {})", nearest.rows,
                               nearest.of, nearest.rows);
        case Way::halves:
            return fmt::format(
                "the shorter skein of each pair decides. Wound into two halves of equal weight, "
                "all skeins give {} for each of the two, which takes {}: {}",
                yarn(nearest.has, units::Rounding::down), yarn(nearest.takes, units::Rounding::up),
                nearest.works
                    ? "the nearest plan that works"
                    : yarn(nearest.takes - nearest.has, units::Rounding::up) + " too little");
        case Way::ended_earlier: {
            const project::Piece& piece = project.pieces[nearest.piece];
            return fmt::format("the nearest plan that works ends {} after {} {} (of {})",
                               base::shown_inert(piece.name), project::row_word(piece.worked),
                               nearest.rows, nearest.of);
        }
        case Way::inside_rows:
            break;
    }
    if (nearest.works) return "the nearest plan that works joins inside a row (--anywhere)";
    return fmt::format(
        "joined inside a row (--anywhere) it lasts with a chance of {}",
        units::percent_text(nearest.chance.value, units::Step::one, units::Rounding::down));
}

std::vector<std::string> notes_with_nearest(const project::Project& project,
                                            const joins::RoleJoins& role) {
    std::vector<std::string> out;
    for (const joins::Note& note : role.notes) out.push_back(base::shown_inert(said(note)));
    for (const joins::Nearest& one : role.nearest) out.push_back(nearest_words(project, one));
    return out;
}

std::string first_weighing(const project::Project& project, const joins::JoinPlan& plan,
                           std::size_t stretch) {
    const joins::Stretch& one = plan.stretches[stretch];
    const auto steps = static_cast<std::int64_t>(one.weigh_after);
    if (stretch == 0)
        return place_text(project, plan,
                          {std::max<std::size_t>(one.weigh_from, 1), units::Ratio(0.0)});
    const std::string word = project.pieces.empty() || one.from.step >= plan.steps.size()
                                 ? "row"
                                 : std::string(project::row_word(
                                       project.pieces[plan.steps[one.from.step].piece].worked));
    return steps == 0 ? "from its first " + word + " on"
                      : counted(steps, word, word + "s") + " after its join";
}

std::size_t joined_stretches(const joins::JoinPlan& plan) {
    if (plan.stretches.empty()) return 0;
    return plan.stretches.size() - (plan.spares.empty() ? 1 : 0);
}

namespace {

/// Stop weights of the rows of copies `first` to `last` of a piece.
struct OfCopies {
    joins::StopWeight weight;
    std::size_t piece = 0;
    std::int64_t first = 0;
    std::int64_t last = 0;
};

/// Where a skein may end in many copies of a piece, the weight of a copy is that of the row of it
/// that takes most: stopping there is never too late.
std::vector<OfCopies> by_copies(const joins::JoinPlan& plan,
                                const std::vector<joins::StopWeight>& stops) {
    std::vector<OfCopies> out;
    for (const joins::StopWeight& stop : stops) {
        const need::Step& step = plan.steps[stop.steps_done - 1];
        if (!out.empty() && out.back().last == step.copy && out.back().piece == step.piece)
            out.back().weight.next = std::max(out.back().weight.next, stop.next);
        else
            out.push_back({stop, step.piece, step.copy, step.copy});
    }
    for (std::size_t i = 1; i < out.size();) {
        OfCopies& before = out[i - 1];
        if (before.piece == out[i].piece && before.last + 1 == out[i].first &&
            before.weight.next == out[i].weight.next) {
            before.last = out[i].last;
            out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
        } else {
            ++i;
        }
    }
    return out;
}

StopLine line_of(const project::Project& project, const joins::JoinPlan& plan,
                 const joins::StopWeight& stop, const joins::Scale& scale) {
    StopLine line{stop.stretch, place_text(project, plan, {stop.steps_done, {}}),
                  scale_text(stop.next, scale.step),
                  stop.rest.value() > 0.0 ? scale_text(stop.rest, scale.step) : std::string()};
    if (stop.until > stop.steps_done) {
        const need::Step& last = plan.steps[stop.until - 1];
        line.place += fmt::format(", until {} {}",
                                  project::row_word(project.pieces[last.piece].worked), last.row);
    }
    return line;
}

}  // namespace

std::vector<StopLine> stop_lines(const project::Project& project, const joins::RoleJoins& role,
                                 const joins::Scale& scale) {
    constexpr std::size_t many = 16;
    const joins::JoinPlan& plan = role.plan;
    std::vector<StopLine> out;
    const auto in_copies = [&](const joins::StopWeight& stop) {
        const need::Step& step = plan.steps[stop.steps_done - 1];
        return stop.rest.value() <= 0.0 && step.name.empty() && !project.pieces.empty();
    };
    for (auto at = role.stops.begin(); at != role.stops.end();) {
        const auto end = std::find_if(at, role.stops.end(), [&](const joins::StopWeight& stop) {
            return stop.stretch != at->stretch || !in_copies(stop);
        });
        const std::vector<joins::StopWeight> alike(at, end);
        if (alike.size() <= many || plan.steps[alike.front().steps_done - 1].copy ==
                                        plan.steps[alike.back().steps_done - 1].copy) {
            const auto last = end == at ? at + 1 : end;
            for (; at != last; ++at) out.push_back(line_of(project, plan, *at, scale));
            continue;
        }
        for (const OfCopies& one : by_copies(plan, alike)) {
            const project::Piece& piece = project.pieces[one.piece];
            std::string copies = std::to_string(one.first);
            if (one.last > one.first) copies += " to " + std::to_string(one.last);
            out.push_back({one.weight.stretch,
                           fmt::format("after each {} of {} {}", project::row_word(piece.worked),
                                       base::shown_inert(piece.name), copies),
                           scale_text(one.weight.next, scale.step), ""});
        }
        at = end;
    }
    return out;
}

}  // namespace skeinfall::report

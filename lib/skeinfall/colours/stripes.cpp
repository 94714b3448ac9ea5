#include "skeinfall/colours/stripes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <set>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/detail/search.hpp"
#include "skeinfall/colours/detail/wishes.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/joins/stripes.hpp"

namespace skeinfall::colours {

using units::Length;

namespace {

std::int64_t sum_of(const Heights& heights) {
    return std::accumulate(heights.begin(), heights.end(), std::int64_t{0});
}

/// What of a plan is asked of larger or smaller pieces too.
struct Asked {
    const project::Project& project;
    const std::vector<stash::Skein>& stash;
    const cover::Rules& rules;
    const Wish& wish;
};

/// The best with half the ends: at the same height of the repeat, else with stripes twice as high.
std::optional<Striped> with_half_the_ends(const Asked& asked, const Choosing& choosing,
                                          const Striped& found, bool height_kept) {
    constexpr std::int64_t few = 4;
    const bool repeats = asked.wish.way == Way::keep_repeat || asked.wish.way == Way::in_proportion;
    if (found.ends <= few || !repeats) return std::nullopt;
    Choosing near = choosing;
    for (std::size_t i = 0; i < near.rules.bands.size(); ++i)
        near.rules.bands[i].wanted = found.heights[i];
    if (height_kept)
        near.rules.sum = sum_of(found.heights);
    else
        near.rules.sum.reset();
    near.rules.colour_at_most.clear();  // it was for the repeat as wanted
    Wish by_heights = asked.wish;
    by_heights.goals = usual_goals;
    Search same(asked.project, asked.stash, asked.rules, by_heights);
    if (auto out = same.best_with(near.rules, near.layout, found.ends / 2)) return out;
    if (worked_once(asked.project, asked.wish)) return std::nullopt;
    for (Band& band : near.rules.bands) band.wanted *= 2;
    near.rules.sum = 2 * sum_of(found.heights);
    Search doubled(asked.project, asked.stash, asked.rules, by_heights);
    return doubled.best_with(near.rules, near.layout, found.ends / 2);
}

/// What carrying every yarn that comes back to hand would save.
std::optional<CarriedHigher> carried_higher(const Asked& asked, const Striped& found) {
    project::Project project = found.project;
    for (const std::size_t piece : asked.wish.pieces)
        project.pieces[piece].carry_at_most = 1000.0 * units::metre;
    const need::MakeNeed make = need::need_of(project, asked.wish.size);
    CarriedHigher out;
    out.ends = joins::stripe_ends(make, project.tail).cut;
    for (const need::Change& change : make.changes)
        if (change.carried) out.height = std::max(out.height, change.strand);
    out.height /= need::usual::carry_slack.value();
    if (2 * out.ends > found.ends || !(out.height > Length{})) return std::nullopt;
    return out;
}

/// Looks for heights as wished; with the repeat's height free where it cannot be kept and `may`.
void search(const Asked& asked, StripePlan& out, bool may) {
    const Wish& wish = asked.wish;
    Search first(asked.project, asked.stash, asked.rules, wish);
    Choosing choosing = choosing_of(asked.project, wish, first.takes());
    Heights wanted;
    for (const Band& band : choosing.rules.bands) wanted.push_back(band.wanted);
    if (const auto stripes = choosing.layout(wanted))
        out.as_wanted = first.worked_out(choosing.rules, wanted, *stripes, false);
    const bool in_steps = std::all_of(wanted.begin(), wanted.end(), [&](std::int64_t rows) {
        return rows % choosing.rules.step == 0;
    });
    if (out.as_wanted && out.as_wanted->sure && in_steps && wish.goals.front() == Goal::heights) {
        out.found = out.as_wanted;
        return;
    }
    out.found = first.best(choosing.rules, choosing.layout);
    out.proven = first.proven();
    out.judged = first.judged();
    const bool repeats = wish.way == Way::keep_repeat || wish.way == Way::in_proportion;
    if (!out.found && repeats && may) {
        choosing.rules.sum.reset();
        choosing.rules.colour_at_most.clear();
        Search free(asked.project, asked.stash, asked.rules, wish);
        // A repeat that is another altogether is no answer.
        free.within(sum_of(wanted) / 2 + 2);
        out.found = free.best(choosing.rules, choosing.layout);
        out.proven = out.proven && free.proven();
        out.judged += free.judged();
        out.height_kept = !out.found;
    }
}

/// What the found plan could be instead, and where its skeins end.
void finish(const Asked& asked, StripePlan& out) {
    if (asked.wish.way != Way::scraps) {
        const Takes takes(asked.project, asked.stash, asked.rules, asked.wish);
        const Choosing choosing = choosing_of(asked.project, asked.wish, takes);
        if (out.found) {
            out.fewer_ends = with_half_the_ends(asked, choosing, *out.found, out.height_kept);
            out.carried = carried_higher(asked, *out.found);
        }
    }
    for (std::optional<Striped>* one : {&out.found, &out.nearest, &out.as_wanted}) {
        if (!*one) continue;
        (*one)->plan =
            plan::plan_make((*one)->project, asked.wish.size, asked.stash, asked.rules, {});
        break;  // the one that is shown
    }
}

/// Balls that are a stripe each need not be of one lot.
project::Project of_any_lot(project::Project project) {
    for (project::Role& role : project.roles) role.one_lot = false;
    return project;
}

StripePlan planned(const Asked& asked, bool height_may_change = true) {
    StripePlan out;
    out.wish = asked.wish;
    if (asked.wish.way == Way::scraps)
        plan_scraps(of_any_lot(asked.project), asked.stash, asked.rules, out);
    else
        search(asked, out, height_may_change && !worked_once(asked.project, asked.wish));
    return out;
}

/// The same with another number of rows; nothing where that is refused.
std::optional<StripePlan> with_rows(const Asked& asked, std::int64_t rows) {
    try {
        const project::Project project =
            cover::grown(asked.project, asked.wish.size,
                         {cover::Extent::rows, asked.wish.pieces.front(), 1, 0}, rows);
        check(project, asked.wish);
        StripePlan out = planned({project, asked.stash, asked.rules, asked.wish}, false);
        if (!out.found) return std::nullopt;
        return out;
    } catch (const base::InputError&) {
        return std::nullopt;
    }
}

bool rows_can_change(const Asked& asked) {
    return asked.wish.pieces.size() == 1 &&
           !asked.project.pieces[asked.wish.pieces.front()].pattern.stated() &&
           asked.wish.way != Way::scraps;
}

/// Whole repeats; of the piece's own multiple as well.
std::int64_t step_of(const Asked& asked) {
    std::int64_t repeat = 0;
    for (const project::Stripe& stripe : asked.wish.wanted) repeat += stripe.rows;
    // Where heights are found anew no repeat is kept.
    if (asked.wish.way == Way::fill || asked.wish.way == Way::fade)
        repeat = asked.wish.one_edge ? 2 : 1;
    const project::Piece& piece = asked.project.pieces[asked.wish.pieces.front()];
    return std::lcm(std::max<std::int64_t>(1, repeat),
                    piece.row_multiple ? piece.row_multiple->repeat : std::int64_t{1});
}

/// The most steps from `least` on with which something is found; `fits` holds it.
std::optional<std::int64_t> most_steps(const Asked& asked, std::int64_t beside, std::int64_t step,
                                       std::int64_t at_most, std::optional<StripePlan>& fits) {
    std::int64_t low = 0;
    std::int64_t high = at_most + 1;
    while (high - low > 1) {
        const std::int64_t middle = low + (high - low) / 2;
        if (auto plan = with_rows(asked, beside + middle * step)) {
            fits = std::move(plan);
            low = middle;
        } else {
            high = middle;
        }
    }
    return low > 0 ? std::optional<std::int64_t>(low) : std::nullopt;
}

/// Rows of a piece between the edges.
std::int64_t rows_between_edges(const project::Project& project, const Wish& wish,
                                std::size_t piece) {
    return project::counts(project, project.pieces[piece], wish.size).rows -
           (wish.edge ? 2 * wish.edge->rows : 0);
}

/// Stripes that the end of the piece cuts off are wanted as high as there is room for them.
Wish within_rows(const project::Project& project, Wish wish) {
    const bool repeats = wish.way == Way::keep_repeat || wish.way == Way::in_proportion;
    if (!repeats || !worked_once(project, wish)) return wish;
    std::int64_t most = 0;
    for (const std::size_t piece : wish.pieces)
        most = std::max(most, rows_between_edges(project, wish, piece));
    Stripes cut = laid_out(wish.wanted, std::min(most, rows_of(wish.wanted)));
    const auto colours = [](const Stripes& stripes) {
        std::set<std::string> out;
        for (const project::Stripe& stripe : stripes) out.insert(stripe.role);
        return out;
    };
    // One of which no row would be left is still wanted.
    if (colours(cut) == colours(wish.wanted)) wish.wanted = std::move(cut);
    return wish;
}

}  // namespace

bool worked_once(const project::Project& project, const Wish& wish) {
    return !wish.pieces.empty() &&
           std::all_of(wish.pieces.begin(), wish.pieces.end(), [&](std::size_t piece) {
               return rows_between_edges(project, wish, piece) <= rows_of(wish.wanted);
           });
}

StripePlan plan_stripes(const project::Project& project, const std::vector<stash::Skein>& stash,
                        const cover::Rules& rules, const Wish& asked_for) {
    check(project, asked_for);
    const Wish wish = within_rows(project, asked_for);
    const Asked asked{project, stash, rules, wish};
    StripePlan out = planned(asked);
    if (out.found || !rows_can_change(asked)) {
        finish(asked, out);
        return out;
    }
    const std::int64_t rows =
        project::counts(project, project.pieces[wish.pieces.front()], wish.size).rows;
    const std::int64_t step = step_of(asked);
    std::optional<StripePlan> fits;
    if (const auto steps = most_steps(asked, rows % step, step, rows / step - 1, fits)) {
        out.nearest = std::move(fits->found);
        out.nearest_rows = rows % step + *steps * step;
    }
    finish(asked, out);
    return out;
}

std::optional<Grown> largest_striped(const project::Project& project,
                                     const std::vector<stash::Skein>& stash,
                                     const cover::Rules& rules, const Wish& wish) {
    check(project, wish);
    const Asked asked{project, stash, rules, wish};
    const project::Piece& piece = project.pieces[wish.pieces.front()];
    if (!rows_can_change(asked))
        throw base::InputError(
            base::Problem{wish.pieces.size() > 1 ? "several pieces are striped alike"
                          : piece.pattern.stated()
                              ? "the rows of " + base::shown_inert(piece.name) + " are written out"
                              : "balls that are a stripe each say themselves how large it becomes",
                          project.place("piece." + std::to_string(wish.pieces.front()), "rows"),
                          "one piece whose rows are a count", "Name one piece."});
    Grown out;
    out.step = step_of(asked);
    out.rows_were = project::counts(project, piece, wish.size).rows;
    // No more than all skeins of all colours together have rows for.
    const Takes takes(project, stash, rules, wish);
    double rows_there_are = 0.0;
    for (std::size_t of = 0; of < takes.roles().size(); ++of)
        rows_there_are += double{takes.has(of) / takes.mean_row(of)};
    const std::int64_t beside = out.rows_were % out.step;
    constexpr double farthest_rows = 100'000.0;
    const std::int64_t at_most =
        std::max(std::int64_t{1},
                 static_cast<std::int64_t>(std::min(rows_there_are, farthest_rows)) / out.step + 1);
    std::optional<StripePlan> fits;
    const auto steps = most_steps(asked, beside, out.step, at_most, fits);
    if (!steps) return std::nullopt;
    out.rows = beside + *steps * out.step;
    out.plan = std::move(*fits);
    out.endless = *steps == at_most;
    const project::Project as_large = cover::grown(
        project, wish.size, {cover::Extent::rows, wish.pieces.front(), 1, 0}, out.rows);
    finish({as_large, stash, rules, wish}, out.plan);
    return out;
}

std::vector<ColourUse> uses_of(const StripePlan& plan, const Striped& one) {
    std::vector<ColourUse> out;
    std::set<std::string> told;
    const auto rows_in = [&](const Striped& of, const std::string& role) {
        std::int64_t rows = 0;
        for (const need::Step& step : of.plan.need.steps)
            if (step.role == role && step.purpose == need::Purpose::body && step.name.empty() &&
                std::find(plan.wish.pieces.begin(), plan.wish.pieces.end(), step.piece) !=
                    plan.wish.pieces.end())
                ++rows;
        return rows;
    };
    for (const cover::RoleCover& role : one.plan.cover.roles) {
        ColourUse use;
        use.role = role.role.id;
        use.rows = rows_in(one, use.role);
        if (plan.as_wanted) use.rows_wanted = rows_in(*plan.as_wanted, use.role);
        use.takes = role.need.length.centre;
        use.has = of_fitting(role.role, role.candidates, Length{});
        use.chance = role.chance;
        use.verdict = role.verdict;
        if (use.rows > 0 || use.rows_wanted > 0) out.push_back(std::move(use));
    }
    return out;
}

std::vector<std::size_t> striped_alike(const project::Project& project, std::size_t size,
                                       std::optional<std::size_t> with) {
    const auto rows = [&](std::size_t piece) {
        return project::counts(project, project.pieces[piece], size).rows;
    };
    if (!with) {
        for (std::size_t i = 0; i < project.pieces.size(); ++i) {
            if (!with) {
                with = i;
                continue;
            }
            const bool is = !project.pieces[i].stripes.empty();
            const bool was = !project.pieces[*with].stripes.empty();
            if ((is && !was) || (is == was && rows(i) > rows(*with))) with = i;
        }
    }
    if (!with) return {};
    std::vector<std::size_t> out{*with};
    const Stripes& stripes = project.pieces[*with].stripes;
    for (std::size_t i = 0; i < project.pieces.size(); ++i)
        if (i != *with && !stripes.empty() && project.pieces[i].stripes == stripes)
            out.push_back(i);
    return out;
}

}  // namespace skeinfall::colours

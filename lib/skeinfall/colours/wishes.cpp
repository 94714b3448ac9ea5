#include "skeinfall/colours/detail/wishes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/chain/plan.hpp"
#include "skeinfall/cover/candidates.hpp"

namespace skeinfall::colours {

using base::shown_inert;
using project::Stripe;
using units::Length;

namespace {

bool is_flat(const project::Project& project, const Wish& wish) {
    return project.pieces[wish.pieces.front()].worked == project::Worked::flat;
}

/// Rows between the edges.
std::int64_t rows_inside(const Wish& wish, std::int64_t rows) {
    return wish.edge ? rows - 2 * wish.edge->rows : rows;
}

/// Stripes of so many rows with the edges around them.
Stripes with_edges(const Wish& wish, Stripes stripes, std::int64_t rows) {
    if (!wish.edge) return stripes;
    return edged(stripes, rows, *wish.edge).value_or(Stripes{});
}

/// The wanted rows of each colour, in the order of colours, on so many rows.
Stripes by_colour(const Wish& wish, std::int64_t rows) {
    Stripes out;
    for (const Stripe& stripe : laid_out(wish.wanted, rows)) {
        const auto found = std::find_if(out.begin(), out.end(),
                                        [&](const Stripe& one) { return one.role == stripe.role; });
        if (found == out.end())
            out.push_back(stripe);
        else
            found->rows += stripe.rows;
    }
    return out;
}

Choosing of_repeat(const Wish& wish, const Takes& takes) {
    Choosing out;
    out.rules.step = wish.one_edge ? 2 : 1;
    out.rules.sum = rows_of(wish.wanted);
    for (const Stripe& stripe : wish.wanted)
        out.rules.bands.push_back({takes.colour(stripe.role), stripe.rows, 0});
    // Whole repeats hold that many rows of a colour each.
    std::int64_t repeats = 0;
    for (std::size_t i = 0; i < wish.pieces.size(); ++i)
        repeats += rows_inside(wish, takes.rows(i)) / *out.rules.sum;
    if (repeats > 0)
        for (std::size_t of = 0; of < takes.roles().size(); ++of)
            out.rules.colour_at_most.push_back(takes.rows_at_most(of) / repeats);
    out.layout = [&wish, &takes](const Heights& heights) {
        Stripes repeat = wish.wanted;
        for (std::size_t i = 0; i < repeat.size(); ++i) repeat[i].rows = heights[i];
        std::vector<Stripes> stripes;
        for (std::size_t i = 0; i < wish.pieces.size(); ++i) {
            if (!wish.edge) {
                stripes.push_back(repeat);
                continue;
            }
            auto one = edged(repeat, takes.rows(i), *wish.edge);
            if (!one) return std::optional<std::vector<Stripes>>();
            stripes.push_back(std::move(*one));
        }
        return std::optional(std::move(stripes));
    };
    return out;
}

Choosing of_fade(const project::Project& project, const Wish& wish, const Takes& takes) {
    Choosing out;
    const std::int64_t rows = takes.rows(0);
    const std::int64_t inside = rows_inside(wish, rows);
    const std::int64_t step = is_flat(project, wish) ? 2 : 1;
    const std::int64_t odd = inside % step;
    out.rules.step = step;
    out.rules.sum = inside - odd;
    const Stripes colours = by_colour(wish, inside);
    std::vector<units::Ratio> wanted;
    for (const Stripe& stripe : colours) wanted.emplace_back(static_cast<double>(stripe.rows));
    const Heights even = in_shares(wanted, inside - odd, step).value_or(Heights{});
    for (std::size_t i = 0; i < even.size(); ++i)
        out.rules.bands.push_back({takes.colour(colours[i].role), even[i], 0});
    out.layout = [&wish, colours, odd, step, rows](const Heights& heights) {
        Stripes each = colours;
        for (std::size_t i = 0; i < each.size(); ++i) each[i].rows = heights[i];
        each.back().rows += odd;
        Stripes mixed = faded(each, widest_fade(each), step);
        if (wish.fade_rows) mixed = faded_over(each, *wish.fade_rows, step);
        return std::optional(std::vector<Stripes>{with_edges(wish, std::move(mixed), rows)});
    };
    return out;
}

Choosing of_fill(const Wish& wish, const Takes& takes) {
    Choosing out;
    const std::int64_t rows = takes.rows(0);
    const std::int64_t inside = rows_inside(wish, rows);
    const std::int64_t times =
        std::max<std::int64_t>(1, inside / std::max<std::int64_t>(1, rows_of(wish.wanted)));
    out.rules.bands.push_back({0, times, inside});
    out.layout = [&wish, inside, rows](const Heights& heights) {
        const auto stripes =
            filled_up(wish.wanted, wish.filler, heights.front(), inside, wish.one_edge ? 2 : 1);
        if (!stripes) return std::optional<std::vector<Stripes>>();
        return std::optional(std::vector<Stripes>{with_edges(wish, *stripes, rows)});
    };
    return out;
}

/// "1 row", "2 rows".
std::string counted(std::int64_t count, const char* one) {
    return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

[[noreturn]] void refuse(const project::Project& project, const Wish& wish, std::string what,
                         std::string expected, std::string remedy) {
    throw base::InputError(base::Problem{
        std::move(what),
        wish.pieces.empty()
            ? project.place("piece.0", "stripes")
            : project.place("piece." + std::to_string(wish.pieces.front()), "stripes"),
        std::move(expected), std::move(remedy)});
}

void check_colours(const project::Project& project, const Wish& wish) {
    std::set<std::string> colours;
    for (const Stripe& stripe : wish.wanted) {
        if (project.role(stripe.role) == nullptr)
            refuse(project, wish, "the project has no yarn " + base::quoted(stripe.role),
                   "a yarn of the project", "");
        if (stripe.rows < 1)
            refuse(project, wish,
                   fmt::format("a stripe of {} that is {} rows high", shown_inert(stripe.role),
                               stripe.rows),
                   "1 row or more", "");
        colours.insert(stripe.role);
    }
    if (colours.size() < 2)
        refuse(
            project, wish,
            !colours.empty()
                ? "all of its stripes are of one colour, " + shown_inert(*colours.begin())
            : project.roles.size() < 2
                ? shown_inert(project.title) + " has one yarn, so there is nothing to stripe"
                : std::string("nothing says which colours the stripes have"),
            "stripes of two yarns or more",
            project.roles.size() < 2
                ? "Add a table for the other yarn, such as [yarn.CC1], and give the stripes."
                : fmt::format("Give the stripes, such as \"{} 4, {} 2\".",
                              shown_inert(project.roles[0].id), shown_inert(project.roles[1].id)));
    for (const std::string& id : colours) {
        const project::Role& role = *project.role(id);
        if (role.states_total())
            throw base::InputError(base::Problem{
                "yarn " + shown_inert(id) +
                    " is given by a total, which does not say what a row takes",
                project.place("yarn." + id, "total"), "a swatch or a rate of it",
                "Work a swatch and weigh it, or write rate = \"2.9 in per stitch\"."});
    }
}

void check_edges(const project::Project& project, const Wish& wish) {
    const std::int64_t repeat = rows_of(wish.wanted);
    if (!wish.one_edge || wish.way == Way::fade) return;
    if (!is_flat(project, wish)) return;
    const auto keep_pairs = [&](const std::string& what, std::int64_t rows) {
        if (rows % 2 == 0) return;
        refuse(project, wish,
               fmt::format("{} of {} cannot keep every change at one edge", what,
                           counted(rows, "row")),
               fmt::format("{} or {} rows", std::max<std::int64_t>(2, rows - 1), rows + 1), "");
    };
    if (wish.edge) keep_pairs("an edging", wish.edge->rows);
    if (wish.way == Way::fill)
        for (const Stripe& stripe : wish.wanted)
            if (stripe.role != wish.filler)
                keep_pairs("a band of " + shown_inert(stripe.role), stripe.rows);
    if (wish.way == Way::scraps || wish.way == Way::fill) return;
    if (repeat % 2 != 0 || repeat < 2 * static_cast<std::int64_t>(wish.wanted.size()))
        refuse(project, wish,
               fmt::format("a repeat of {} rows in {} stripes cannot keep every change at one edge",
                           repeat, wish.wanted.size()),
               fmt::format("pairs of rows: a repeat of {} rows is the nearest",
                           std::max(2 * static_cast<std::int64_t>(wish.wanted.size()),
                                    repeat + repeat % 2)),
               "");
}

}  // namespace

Choosing choosing_of(const project::Project& project, const Wish& wish, const Takes& takes) {
    switch (wish.way) {
        case Way::fade:
            return of_fade(project, wish, takes);
        case Way::fill:
            return of_fill(wish, takes);
        default:
            return of_repeat(wish, takes);
    }
}

void check(const project::Project& project, const Wish& wish) {
    if (wish.pieces.empty())
        refuse(project, wish, "the project has no piece to be striped", "a [[piece]] with rows",
               "");
    check_colours(project, wish);
    if (wish.edge && project.role(wish.edge->role) == nullptr)
        refuse(project, wish, "the project has no yarn " + base::quoted(wish.edge->role),
               "a yarn of the project", "");
    std::set<std::string> colours;
    for (const Stripe& stripe : wish.wanted) colours.insert(stripe.role);
    for (const std::size_t at : wish.pieces) {
        const project::Piece& piece = project.pieces[at];
        if (piece.pattern.stated() && !piece.pattern.at(wish.size).stripes.empty())
            refuse(project, wish,
                   "the rows of " + shown_inert(piece.name) + " name their yarns themselves",
                   "rows without yarns, and stripes beside them",
                   "Take the yarns out of the rows.");
        const std::int64_t rows =
            rows_inside(wish, project::counts(project, piece, wish.size).rows);
        if (wish.edge && rows < static_cast<std::int64_t>(colours.size()))
            refuse(project, wish,
                   fmt::format("{} of {} at either end leave {} of {} for {} colours",
                               counted(wish.edge->rows, "row"), shown_inert(wish.edge->role),
                               counted(std::max<std::int64_t>(0, rows), "row"),
                               shown_inert(piece.name), colours.size()),
                   fmt::format("at most {} at either end",
                               counted(std::max<std::int64_t>(
                                           0, (rows + 2 * wish.edge->rows -
                                               static_cast<std::int64_t>(colours.size())) /
                                                  2),
                                       "row")),
                   "");
        if (rows < static_cast<std::int64_t>(colours.size()))
            refuse(project, wish,
                   fmt::format("{} colours on {} of {}", colours.size(),
                               counted(std::max<std::int64_t>(0, rows), "row"),
                               shown_inert(piece.name)),
                   fmt::format("at most {}, or {} rows",
                               counted(std::max<std::int64_t>(0, rows), "colour"), colours.size()),
                   "");
    }
    if ((wish.way == Way::fade || wish.way == Way::fill || wish.way == Way::scraps) &&
        wish.pieces.size() > 1)
        refuse(project, wish, "several pieces are striped alike", "one piece", "Name one piece.");
    if (wish.way == Way::fill) {
        if (colours.count(wish.filler) == 0)
            refuse(project, wish, base::quoted(wish.filler) + " is in none of the stripes",
                   "one of the yarns in the stripes", "");
    }
    check_edges(project, wish);
}

namespace {

/// A ball and the rows that it surely gives.
struct Scrap {
    std::string role;
    std::string id;
    std::int64_t rows = 0;
};

std::vector<Scrap> scraps_of(const project::Project& project,
                             const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                             const Takes& takes, std::int64_t step) {
    struct Ball {
        const cover::Candidate* candidate;
        std::size_t colour;
    };
    std::vector<std::vector<cover::Candidate>> all;
    std::vector<Ball> balls;
    std::set<const stash::Skein*> given;
    for (const std::string& id : takes.roles())
        all.push_back(cover::candidates_for(*project.role(id), 2.0 * rules.tail, stash,
                                            rules.project, project.made_for));
    for (std::size_t of = 0; of < all.size(); ++of)
        for (const cover::Candidate& one : all[of])
            if (one.supply && given.insert(one.skein).second) balls.push_back({&one, of});
    const double each = std::pow(rules.confidence.value.value(),
                                 1.0 / static_cast<double>(std::max<std::size_t>(1, balls.size())));
    std::vector<Scrap> out;
    for (const Ball& ball : balls) {
        const stash::Supply& supply = *ball.candidate->supply;
        const Length sure = chain::sure_length(
            {supply.length - 2.0 * rules.tail, measure::in_quadrature(supply.own, supply.shared)},
            takes.spread(ball.colour), {units::Ratio(each)});
        const std::int64_t rows =
            static_cast<std::int64_t>(std::floor(double{sure / takes.mean_row(ball.colour)})) /
            step * step;
        if (rows >= step)
            out.push_back({takes.roles()[ball.colour], ball.candidate->skein->id, rows});
    }
    // What the balls of a yarn hold is also for a border, or for another piece.
    for (std::size_t of = 0; of < takes.roles().size(); ++of) {
        const std::string& role = takes.roles()[of];
        std::int64_t sum = 0;
        for (const Scrap& one : out)
            if (one.role == role) sum += one.rows;
        const std::int64_t most = takes.rows_at_most(of);
        if (sum <= most) continue;
        for (Scrap& one : out)
            if (one.role == role)
                one.rows = std::max<std::int64_t>(step, one.rows * most / sum / step * step);
    }
    return out;
}

/// More balls of one yarn than can lie apart.
[[noreturn]] void refuse_alike(const project::Project& project, const Wish& wish,
                               const std::vector<std::string>& alike) {
    std::string often;
    std::size_t count = 0;
    for (const std::string& role : alike) {
        const auto of = static_cast<std::size_t>(std::count(alike.begin(), alike.end(), role));
        if (of > count) {
            count = of;
            often = role;
        }
    }
    refuse(project, wish,
           fmt::format("{} of {} balls are {}: in every order two of them lie side by side", count,
                       alike.size(), shown_inert(often)),
           fmt::format("{} of them at most", alike.size() - count + 1),
           "Leave some of them out, or set them aside for something else.");
}

/// Times that rows go from a yarn that is not sure to be enough to one that has more.
constexpr int moves_at_most = 60;

/// From the highest stripe of the yarn that is least sure to the ball of another that has most rows
/// left. Whether there was one.
bool move_rows(const Striped& found, const std::vector<Scrap>& balls, std::int64_t step,
               Heights& each) {
    const auto& roles = found.plan.cover.roles;
    const auto least = std::min_element(
        roles.begin(), roles.end(),
        [](const auto& a, const auto& b) { return a.chance.value < b.chance.value; });
    if (least == roles.end()) return false;
    std::optional<std::size_t> from;
    std::optional<std::size_t> to;
    const auto room = [&](std::size_t at) { return balls[at].rows - each[at]; };
    for (std::size_t at = 0; at < balls.size(); ++at) {
        if (balls[at].role == least->role.id) {
            if (each[at] > step && (!from || each[at] > each[*from])) from = at;
        } else if (room(at) >= step && (!to || room(at) > room(*to))) {
            to = at;
        }
    }
    if (!from || !to) return false;
    each[*from] -= step;
    each[*to] += step;
    return true;
}

}  // namespace

void plan_scraps(const project::Project& project, const std::vector<stash::Skein>& stash,
                 const cover::Rules& rules, StripePlan& out) {
    const Wish& wish = out.wish;
    Search search(project, stash, rules, wish);
    const std::int64_t step = wish.one_edge ? 2 : 1;
    const std::int64_t rows = search.takes().rows(0);
    const std::int64_t inside = rows_inside(wish, rows);
    const std::vector<Scrap> balls = scraps_of(project, stash, rules, search.takes(), step);
    std::vector<std::string> alike;
    std::vector<units::Ratio> parts;
    std::int64_t most = 0;
    for (const Scrap& ball : balls) {
        alike.push_back(ball.role);
        parts.emplace_back(static_cast<double>(ball.rows));
        most += ball.rows;
    }
    const auto order = none_side_by_side(alike);
    if (!order) refuse_alike(project, wish, alike);
    out.nearest_rows = most + (rows - inside);
    if (most < inside) return;
    const auto heights = in_shares(parts, inside, step);
    if (!heights)
        refuse(project, wish, fmt::format("{} balls on {} rows", balls.size(), inside),
               fmt::format("at most {} balls", inside / step), "Leave the smallest out.");
    Heights each = *heights;
    for (const std::size_t at : *order) out.balls.push_back(balls[at].id);
    for (int moves = 0; moves <= moves_at_most; ++moves) {
        HeightRules scored;
        Heights chosen;
        Stripes stripes;
        for (const std::size_t at : *order) {
            scored.bands.push_back({0, balls[at].rows, 0});
            chosen.push_back(each[at]);
            stripes.push_back({balls[at].role, each[at]});
        }
        Striped found =
            search.worked_out(scored, chosen, {with_edges(wish, std::move(stripes), rows)}, false);
        ++out.judged;
        if (found.sure) {
            out.as_wanted.reset();
            out.found = std::move(found);
            return;
        }
        const bool moved = move_rows(found, balls, step, each);
        if (!out.as_wanted) out.as_wanted = std::move(found);
        if (!moved) return;
    }
}

}  // namespace skeinfall::colours

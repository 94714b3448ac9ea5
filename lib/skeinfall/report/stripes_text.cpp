#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/layout.hpp"
#include "skeinfall/joins/stripes.hpp"
#include "skeinfall/report/detail/stripes_list.hpp"
#include "skeinfall/report/stripes.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {

using base::shown_inert;
using colours::Striped;
using colours::StripePlan;
using colours::Way;
using units::Length;
using units::Rounding;

const Striped* shown_of(const StripePlan& plan) {
    if (plan.found) return &*plan.found;
    if (plan.nearest) return &*plan.nearest;
    return plan.as_wanted ? &*plan.as_wanted : nullptr;
}

std::string stripes_words(const colours::Stripes& stripes) {
    std::vector<std::string> out;
    out.reserve(stripes.size());
    for (const project::Stripe& stripe : stripes)
        out.push_back(fmt::format("{} {}", shown_inert(stripe.role), stripe.rows));
    return base::join(out, ", ");
}

namespace {

using Rows = std::vector<std::vector<std::string>>;

bool repeats(const StripePlan& plan) {
    return plan.wish.way == Way::keep_repeat || plan.wish.way == Way::in_proportion;
}

/// "MC Marlpit Everyday rust", or "rust (MC)" where there is little room.
std::string yarn_words(const project::Project& project, const std::string& id) {
    const project::Role* role = project.role(id);
    if (role == nullptr || role->colour.empty()) return shown_inert(id);
    return fmt::format("{} {}", shown_inert(id), shown_inert(role->colour));
}

/// Stripes as whoever made this project writes them: by the names of a file, or by colours.
std::string said_stripes(const project::Project& project, colours::Stripes stripes) {
    if (project.file.empty())
        for (project::Stripe& stripe : stripes) {
            const project::Role* role = project.role(stripe.role);
            if (role != nullptr && !role->colour.empty()) stripe.role = role->colour;
        }
    return stripes_words(stripes);
}

bool in_rounds(const StripesAnswer& answer) {
    return answer.project.pieces[answer.plan.wish.pieces.front()].worked == project::Worked::round;
}

/// "rows", or "rounds".
std::string rows_word(const StripesAnswer& answer) {
    return in_rounds(answer) ? "rounds" : "rows";
}

std::string row_words(const project::Project& project, const StripePlan& plan, std::int64_t count) {
    const std::string one(project::row_word(project.pieces[plan.wish.pieces.front()].worked));
    return counted(count, one, one + "s");
}

std::string headline(const StripesAnswer& answer) {
    const StripePlan& plan = answer.plan;
    if (!plan.found) {
        const Striped* shown = plan.as_wanted ? &*plan.as_wanted : nullptr;
        return shown == nullptr
                   ? "short"
                   : std::string(cover::name_of(
                         std::max(shown->plan.cover.verdict, cover::Verdict::too_close_to_call)));
    }
    switch (plan.wish.way) {
        case Way::fade:
            return "covered, each colour fading into the next";
        case Way::fill:
            return fmt::format("covered, {} filling up between the bands",
                               yarn_words(answer.project, plan.wish.filler));
        case Way::scraps:
            return fmt::format(
                "covered, {} with a stripe each",
                counted(static_cast<std::int64_t>(plan.balls.size()), "ball", "balls"));
        default:
            break;
    }
    if (answer.grew.rows_were)
        return fmt::format(
            "{} are covered",
            row_words(answer.project, plan,
                      project::counts(plan.found->project,
                                      plan.found->project.pieces[plan.wish.pieces.front()],
                                      plan.wish.size)
                          .rows));
    return plan.found->rows_changed == 0 ? "covered as wanted" : "covered with other heights";
}

/// Rows that colours gain and lose in one repeat: "1 row of each repeat goes from rust to sand".
std::string moved_words(const StripesAnswer& answer, const Striped& shown) {
    const StripePlan& plan = answer.plan;
    std::vector<std::string> less;
    std::vector<std::string> more;
    for (std::size_t i = 0; i < shown.heights.size(); ++i) {
        const std::int64_t by = shown.heights[i] - plan.wish.wanted[i].rows;
        if (by == 0) continue;
        (by < 0 ? less : more)
            .push_back(fmt::format("{} {} of {}", by < 0 ? -by : by, by < 0 ? "fewer" : "more",
                                   yarn_words(answer.project, plan.wish.wanted[i].role)));
    }
    less.insert(less.end(), more.begin(), more.end());
    return base::join(less, ", ");
}

std::string repeat_table(const StripesAnswer& answer, const Striped& shown) {
    const StripePlan& plan = answer.plan;
    Rows rows{{"stripe", "yarn", rows_word(answer), "wanted"}};
    std::int64_t height = 0;
    bool once = true;
    for (std::size_t i = 0; i < shown.heights.size(); ++i) {
        height += shown.heights[i];
        rows.push_back({std::to_string(i + 1), yarn_words(answer.project, plan.wish.wanted[i].role),
                        std::to_string(shown.heights[i]),
                        std::to_string(plan.wish.wanted[i].rows)});
    }
    std::string out;
    for (const std::size_t piece : plan.wish.pieces) {
        const std::int64_t all =
            project::counts(shown.project, shown.project.pieces[piece], plan.wish.size).rows;
        const std::int64_t inside = plan.wish.edge ? all - 2 * plan.wish.edge->rows : all;
        once = once && inside <= height;
        out += fmt::format("\n{}: {}, ", shown_inert(shown.project.pieces[piece].name),
                           row_words(shown.project, plan, all));
        if (inside <= height)
            out += "every stripe once";
        else
            out += fmt::format(
                "{} of {}{}", counted(inside / height, "repeat", "repeats"), height,
                inside % height > 0 ? fmt::format(" and {} more", inside % height) : std::string());
        if (plan.wish.edge)
            out += fmt::format(", between {} of {} at either end",
                               row_words(shown.project, plan, plan.wish.edge->rows),
                               yarn_words(answer.project, plan.wish.edge->role));
    }
    out += "\n" + table(rows, {true, false, true, true}, 2);
    if (plan.wish.edge && plan.wish.edge->role == plan.wish.wanted.front().role)
        out += "  The first stripe is in the yarn of the edging, and does not show beside it.\n";
    if (shown.rows_changed > 0)
        out += (once ? "  Changed: " : "  In each repeat: ") + moved_words(answer, shown) + ".\n";
    if (!plan.height_kept)
        out +=
            "  No heights that add up to the wanted repeat are enough, so it is higher or "
            "lower.\n";
    return out;
}

std::string proof_words(const StripePlan& plan) {
    if (!plan.found) return {};
    if (!plan.proven)
        return fmt::format("  The search ended after {} plans: a smaller change may be enough.\n",
                           plan.judged);
    if (plan.found->rows_changed == 0 || !repeats(plan)) return {};
    return plan.wish.goals.front() == colours::Goal::heights
               ? "  No smaller change is enough: every one of them was tried.\n"
               : "  Nothing better was found among all heights there are.\n";
}

std::string use_table(const StripesAnswer& answer, const Striped& shown) {
    const StripePlan& plan = answer.plan;
    Rows rows{{"yarn", rows_word(answer), "wanted", "takes", "left over", "chance"}};
    for (const colours::ColourUse& use : colours::uses_of(plan, shown)) {
        const Length left = use.has - use.takes;
        rows.push_back({yarn_words(answer.project, use.role), std::to_string(use.rows),
                        plan.as_wanted ? std::to_string(use.rows_wanted) : "-",
                        yards_and_metres(use.takes, Rounding::up),
                        left < Length{} ? "-" : yards_and_metres(left, Rounding::down),
                        chance_text(use.chance)});
    }
    return "\n" + table(rows, {false, true, true, true, true, true}, 2);
}

/// Whether the colours end together, and what each leaves of what there is.
std::string together_words(const StripesAnswer& answer, const Striped& shown) {
    if (answer.plan.wish.way != Way::in_proportion || !answer.plan.found) return {};
    constexpr double together = 0.05;
    std::vector<std::string> parts;
    double least = 1.0;
    double most = 0.0;
    for (const colours::ColourUse& use : colours::uses_of(answer.plan, shown)) {
        if (use.has <= Length{}) continue;
        const units::Ratio left =
            std::max(units::Ratio(0.0), units::Ratio(1.0 - use.takes / use.has));
        least = std::min(least, left.value());
        most = std::max(most, left.value());
        parts.push_back(yarn_words(answer.project, use.role) + " " +
                        units::percent_text(left, units::Step::one, units::Rounding::nearest));
    }
    if (parts.size() < 2) return {};
    std::string out = "  The colours end together.\n";
    if (most - least > together)
        out = answer.plan.proven
                  ? "  The colours do not end together; no heights in whole rows come closer and "
                    "are enough.\n"
                  : "  The colours do not end together.\n";
    return out + "  Left over of what there is: " + base::join(parts, ", ") + ".\n";
}

/// Where ends lie, and what hides them.
std::string hiding_words(const project::Project& project, const project::Piece& piece) {
    const bool bordered =
        std::any_of(project.finish.begin(), project.finish.end(),
                    [](const auto& part) { return part.kind == project::PartKind::border; });
    if (piece.worked == project::Worked::round)
        return std::string(
                   "  Let the round begin at the back or under a seam, and change there. ") +
               (project.craft == project::Craft::knit
                    ? "Against the jog slip the\n  first stitch of a colour's second round.\n"
                    : "Against the jog close\n  the last round of a colour with a slip stitch in "
                      "the next one.\n");
    if (piece.edge == project::Edge::seamed) return "  The seams hide the ends and carried yarn.\n";
    if (piece.edge == project::Edge::left_seamed || piece.edge == project::Edge::right_seamed)
        return fmt::format("  Change at the {} edge, where the seam hides ends and carried yarn.\n",
                           piece.edge == project::Edge::left_seamed ? "left" : "right");
    if (bordered) return "  Work the border over the ends and the carried yarn.\n";
    return "  The edges show: weave ends in along rows of their own colour.\n";
}

std::string change_lines(const StripesAnswer& answer, const Striped& shown) {
    const joins::Ends ends = joins::stripe_ends(shown.plan.need, answer.project.tail);
    const project::Piece& piece = shown.project.pieces[answer.plan.wish.pieces.front()];
    std::int64_t right = 0;
    std::int64_t left = 0;
    for (const need::Change& change : ends.changes) ++(change.right_edge ? right : left);
    std::string out = fmt::format(
        "\nColour changes: {}, {} of them carried up the {}, {} with a new end; {} to weave in, "
        "{}\n",
        counted(static_cast<std::int64_t>(ends.changes.size()), "stripe", "stripes"), ends.carried,
        piece.worked == project::Worked::round ? "inside" : "edge", ends.cut / 2,
        counted(ends.cut, "end", "ends"), yards_and_metres(ends.tails, Rounding::up));
    if (piece.worked == project::Worked::flat)
        out += right > 0 && left > 0
                   ? fmt::format(
                         "  {} at the right edge and {} at the left: after stripes of an odd "
                         "number of rows the\n  next colour begins at the other edge, and a yarn "
                         "can only be carried up the edge where it was left.\n",
                         right, left)
                   : fmt::format("  All at the {} edge.\n", right > 0 ? "right" : "left");
    return out + hiding_words(shown.project, piece);
}

std::string fewer_lines(const StripesAnswer& answer) {
    const StripePlan& plan = answer.plan;
    std::string out;
    if (plan.fewer_ends) {
        const Striped& fewer = *plan.fewer_ends;
        out += fmt::format("\nHalf the ends: {} instead of {}, chance {}\n", fewer.ends,
                           plan.found->ends, chance_text(fewer.plan.cover.chance));
        colours::Stripes repeat = plan.wish.wanted;
        if (repeats(plan) && fewer.heights.size() == repeat.size()) {
            std::int64_t now = 0;
            std::int64_t then = 0;
            for (std::size_t i = 0; i < repeat.size(); ++i) {
                now += plan.found->heights[i];
                then += repeat[i].rows = fewer.heights[i];
            }
            out += then > now ? fmt::format(
                                    "  It costs the look: stripes about twice as high, a repeat of "
                                    "{} {} for one of {}.\n",
                                    then, rows_word(answer), now)
                              : fmt::format("  It costs {} in every repeat that differ.\n",
                                            counted(fewer.rows_changed, "row", "rows"));
            out += (answer.project.file.empty() ? std::string("  the same with")
                                                : "  skeinfall stripes " + answer.project.file) +
                   " --stripes \"" + said_stripes(answer.project, repeat) + "\"" +
                   answer.other_options + (answer.grew.rows_were ? " --grow" : "") + "\n";
        }
    }
    if (plan.carried) {
        out += fmt::format(
            "\nCarried higher: only {}, when resting yarns are led up the {} over {} "
            "instead of being cut\n",
            counted(plan.carried->ends, "end", "ends"), in_rounds(answer) ? "inside" : "edge",
            units::inches_and_centimetres(plan.carried->height));
        out += fmt::format(
            "  That leaves strands {}: catch them with the working yarn every second "
            "{}, and keep\n  them loose. Say carry_at_most = \"{} cm\" in the piece.\n",
            in_rounds(answer) ? "on the inside" : "along the edge",
            in_rounds(answer) ? "round" : "row",
            units::plain_number(units::Ratio(plan.carried->height / units::centimetre),
                                units::Step::one, Rounding::up));
    }
    return out;
}

std::string list_table(const StripesAnswer& answer, const Striped& shown) {
    Rows rows{{"stripe", "yarn", rows_word(answer), "skein", "begins"}};
    const std::vector<ListedStripe> listed = listed_stripes(answer.plan, shown);
    const bool several = answer.plan.wish.pieces.size() > 1;
    for (std::size_t i = 0; i < listed.size(); ++i) {
        const ListedStripe& one = listed[i];
        const project::Piece& piece = shown.project.pieces[one.piece];
        const std::string skein = i < answer.plan.balls.size() ? answer.plan.balls[i] : one.skein;
        rows.push_back({std::to_string(i + 1), yarn_words(answer.project, one.role),
                        fmt::format("{}{}",
                                    one.rows == 1 ? std::to_string(one.first_row)
                                                  : fmt::format("{} to {}", one.first_row,
                                                                one.first_row + one.rows - 1),
                                    several ? " of " + shown_inert(piece.name) : std::string()),
                        shown_inert(skein),
                        one.goes_on ? "goes on"
                                    : std::string(one.carried ? "carried" : "new end") +
                                          (piece.worked == project::Worked::round ? ""
                                           : one.right_edge                       ? ", right edge"
                                                            : ", left edge")});
    }
    return "\n" + table(rows, {true, false, false, false, false}, 2);
}

std::string reason_lines(const StripesAnswer& answer) {
    const StripePlan& plan = answer.plan;
    std::string out;
    if (plan.found) {
        out += fmt::format("  chance {} that every yarn is enough\n",
                           chance_text(plan.found->plan.cover.chance));
        if (plan.as_wanted && !plan.as_wanted->sure) {
            std::vector<std::string> short_of;
            for (const cover::RoleCover& role : plan.as_wanted->plan.cover.roles)
                if (role.verdict != cover::Verdict::covered)
                    short_of.push_back(
                        fmt::format("{} {} (chance {})", yarn_words(answer.project, role.role.id),
                                    cover::name_of(role.verdict), chance_text(role.chance)));
            if (!short_of.empty()) out += "  as wanted: " + base::join(short_of, ", ") + "\n";
        }
        if (answer.grew.rows_were)
            out += fmt::format("  now {}; grown or shrunk in steps of {}\n",
                               row_words(answer.project, plan, *answer.grew.rows_were),
                               answer.grew.step);
        return out;
    }
    if (plan.wish.way == Way::scraps) {
        out += plan.as_wanted
                   ? "  with a stripe of every ball's share they are not sure to be enough\n"
                   : "  the balls are not enough for that many rows\n";
        // Where they give the rows that are wanted, more rows are no nearer to being covered.
        if (plan.nearest_rows > 0 && !plan.as_wanted)
            out += fmt::format("  nearest: {} rows\n", plan.nearest_rows);
        return out;
    }
    if (!plan.proven)
        out += fmt::format("  none was found, but the search was cut short after {} plans\n",
                           plan.judged);
    else
        out += plan.wish.way == Way::fill
                   ? "  no number of these bands is sure to be enough\n"
                   : "  at no stripe heights is the yarn enough for all rows\n";
    if (plan.nearest)
        out += fmt::format("  the nearest plan that is covered has {} and is shown here\n",
                           row_words(answer.project, plan, plan.nearest_rows));
    return out;
}

std::string next_lines(const StripesAnswer& answer) {
    if (!answer.plan.found || answer.saved) return {};
    return "\nNext\n  --save FILE.toml keeps this in the project, for cover, joins, materials and "
           "pages\n  --picture FILE.svg draws it in its colours\n" +
           std::string(answer.listed || !repeats(answer.plan)
                           ? ""
                           : "  --list names every stripe with its skein\n");
}

/// How many rows are mixed at each change, which is seldom just what was asked for.
std::string fade_words(const StripePlan& plan, const Striped& shown) {
    if (plan.wish.way != Way::fade || shown.stripes.empty()) return {};
    colours::Stripes inside = shown.stripes.front();
    if (plan.wish.edge && inside.size() > 2) {
        inside.front().rows -= plan.wish.edge->rows;
        inside.back().rows -= plan.wish.edge->rows;
        std::erase_if(inside, [](const project::Stripe& one) { return one.rows < 1; });
    }
    colours::Stripes order;
    for (const project::Stripe& stripe : plan.wish.wanted)
        if (std::none_of(order.begin(), order.end(),
                         [&](const project::Stripe& one) { return one.role == stripe.role; }))
            order.push_back(stripe);
    std::vector<std::string> counts;
    bool as_asked = true;
    for (const std::int64_t rows : colours::mixed_rows(inside, order)) {
        counts.push_back(std::to_string(rows));
        as_asked = as_asked && (!plan.wish.fade_rows || rows == *plan.wish.fade_rows);
    }
    if (counts.empty()) return {};
    const std::string one(project::row_word(shown.project.pieces[plan.wish.pieces.front()].worked));
    return fmt::format("  {}s mixed at each change: {}{}\n", one, base::join(counts, ", "),
                       as_asked ? std::string()
                                : fmt::format("; nothing comes nearer to {} with these heights",
                                              *plan.wish.fade_rows));
}

}  // namespace

std::string stripes_text(const StripesAnswer& answer) {
    const StripePlan& plan = answer.plan;
    const Striped* shown = shown_of(plan);
    std::string out = headline(answer) + ": " + title_text(answer.project, plan.wish.size) + "\n" +
                      reason_lines(answer);
    if (shown == nullptr) return out;
    out += fade_words(plan, *shown);
    if (repeats(plan)) out += repeat_table(answer, *shown);
    if (plan.wish.way == Way::fill)
        out += fmt::format("\n{} times the bands\n", shown->heights.front());
    out += proof_words(plan) + use_table(answer, *shown) + together_words(answer, *shown) +
           change_lines(answer, *shown) + fewer_lines(answer);
    if (answer.listed || !repeats(plan)) out += list_table(answer, *shown);
    if (plan.wish.way == Way::scraps)
        out +=
            "  Keep each ball to its stripe; lots may differ from stripe to stripe. \"skeinfall "
            "joins\" lays the balls of one yarn end to end, which is enough too.\n";
    return out + next_lines(answer);
}

}  // namespace skeinfall::report

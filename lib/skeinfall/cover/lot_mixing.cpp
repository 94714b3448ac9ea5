#include "skeinfall/cover/lot_mixing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>

#include "skeinfall/base/name.hpp"
#include "skeinfall/cover/covering.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

struct LotSupply {
    std::string shade;  ///< yarn and colourway: lots of two colours are never mixed
    std::string text;
    Length usable{};
};

/// The lots that fit and are not taken by others, the richest first.
std::vector<LotSupply> lots_of(const RoleCover& role, Length tail) {
    std::map<std::string, LotSupply> by_key;
    for (const Candidate& candidate : role.candidates) {
        if (!candidate.supply || std::holds_alternative<ServesOthers>(candidate.reason)) continue;
        LotSupply& lot = by_key[stash::lot_key(*candidate.skein)];
        lot.text = stash::lot_text(*candidate.skein);
        lot.shade = base::name_key(candidate.skein->yarn.name) + "\x1f" +
                    base::name_key(candidate.skein->colourway);
        lot.usable += candidate.supply->length - 2.0 * tail;
    }
    std::vector<LotSupply> lots;
    lots.reserve(by_key.size());
    for (auto& [key, lot] : by_key) lots.push_back(std::move(lot));
    std::stable_sort(lots.begin(), lots.end(),
                     [](const LotSupply& a, const LotSupply& b) { return a.usable > b.usable; });
    const std::string shade = lots.empty() ? std::string() : lots.front().shade;
    std::erase_if(lots, [&](const LotSupply& lot) { return lot.shade != shade; });
    return lots;
}

/// Pieces and finishing parts with what they take of the role; copies of a piece are one part.
std::vector<BlendPart> parts_of(const project::Project& project, const need::MakeNeed& need,
                                const std::string& role) {
    std::vector<BlendPart> parts;
    for (const need::Step& step : need.steps) {
        if (step.role != role || step.yarn <= Length{}) continue;
        const std::string name = step.name.empty() && step.piece < project.pieces.size()
                                     ? project.pieces[step.piece].name
                                     : step.name;
        auto found = std::find_if(parts.begin(), parts.end(),
                                  [&](const BlendPart& part) { return part.name == name; });
        if (found == parts.end()) found = parts.insert(parts.end(), {name, Length{}});
        found->yarn += step.yarn;
    }
    return parts;
}

}  // namespace

bool carried_without_cutting(const std::vector<std::int64_t>& rows_each, project::Worked worked) {
    if (worked == project::Worked::round) return true;
    const std::int64_t all = std::accumulate(rows_each.begin(), rows_each.end(), std::int64_t{0});
    return std::all_of(rows_each.begin(), rows_each.end(),
                       [&](std::int64_t own) { return (all - own) % 2 == 0; });
}

Fade fade_over(Length height, units::RowGauge gauge, Length yarn_of_a_row, project::Worked worked) {
    Fade fade;
    fade.rows = std::max<std::int64_t>(
        2, std::llround(std::ceil(height * gauge / units::row - count_noise)));
    if (worked == project::Worked::flat) fade.rows = (fade.rows + 3) / 4 * 4;
    fade.rows_of_first = (fade.rows + 1) / 2;
    fade.kept_back = static_cast<double>(fade.rows_of_first) * yarn_of_a_row;
    return fade;
}

Alternation beginning_in_one(Length beginning, Length rest, Length first_lot, Length other_lot) {
    Alternation out;
    out.first_needed = beginning + rest / 2.0;
    out.other_needed = rest / 2.0;
    out.works = out.first_needed <= first_lot && out.other_needed <= other_lot;
    return out;
}

std::optional<Blend> smallest_blend(const std::vector<BlendPart>& parts, Length shortage) {
    std::vector<std::size_t> order(parts.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return parts[a].yarn > parts[b].yarn; });
    const Length wanted = 2.0 * shortage;
    Length sum{};
    std::size_t fewest = 0;
    while (fewest < order.size() && sum < wanted) sum += parts[order[fewest++]].yarn;
    if (sum < wanted) return std::nullopt;
    // Of all sets of that many parts the one that alternates least yarn.
    std::vector<std::size_t> best(order.begin(),
                                  order.begin() + static_cast<std::ptrdiff_t>(fewest));
    if (order.size() <= blend_parts_at_most) {
        for (std::size_t mask = 0; mask < (std::size_t{1} << order.size()); ++mask) {
            std::vector<std::size_t> set;
            Length of_set{};
            for (std::size_t i = 0; i < order.size(); ++i)
                if ((mask >> i & 1U) != 0) {
                    set.push_back(order[i]);
                    of_set += parts[order[i]].yarn;
                }
            if (set.size() != fewest || of_set < wanted || of_set >= sum) continue;
            sum = of_set;
            best = set;
        }
    }
    std::sort(best.begin(), best.end());
    return Blend{best, sum / 2.0};
}

namespace {

constexpr Length usual_fade = units::inch;  // "for an inch or so", see fade_over()

/// A role's steps with what is worked before each, in the lengths that must be there to be sure.
struct Along {
    std::vector<const need::Step*> steps;
    std::vector<Length> before;
    Length all{};
};

Along along(const need::MakeNeed& need, const RoleCover& role, Length wanted) {
    Along out;
    for (const need::Step& step : need.steps) {
        if (step.role != role.role.id || step.yarn <= Length{}) continue;
        out.steps.push_back(&step);
        out.before.push_back(out.all);
        out.all += step.yarn;
    }
    if (out.all <= Length{}) return out;
    for (Length& length : out.before) length *= wanted / out.all;
    out.all = wanted;
    return out;
}

WorkPlace place_of(const project::Project& project, const need::Step& step) {
    if (!step.name.empty()) return {step.name, 0, true};
    return {
        project.pieces[step.piece].name + (step.copy > 1 ? " " + std::to_string(step.copy) : ""),
        step.row, false};
}

bool is_flat(const project::Project& project, const need::Step& step) {
    return step.piece < project.pieces.size() &&
           project.pieces[step.piece].worked == project::Worked::flat;
}

/// The beginning in the first lot, as long as it may be, and all the rest by turns.
std::optional<MixingPlan> beginning_in_first(const project::Project& project, const Along& work,
                                             const LotSupply& first, const LotSupply& other) {
    std::size_t from = work.steps.size();
    while (from-- > 0) {
        const Alternation plan = beginning_in_one(work.before[from], work.all - work.before[from],
                                                  first.usable, other.usable);
        if (!plan.works) continue;
        const need::Step& step = *work.steps[from];
        BeginInFirst out;
        out.first = {first.text, plan.first_needed};
        out.other = {other.text, plan.other_needed};
        out.all_by_turns = from == 0;
        out.place = place_of(project, step);
        out.flat = is_flat(project, step);
        return out;
    }
    return std::nullopt;
}

/// One change from the first lot to the other, faded.
std::optional<MixingPlan> changed_once(const project::Project& project, const Along& work,
                                       const LotSupply& first, const LotSupply& other) {
    for (std::size_t from = work.steps.size(); from-- > 0;) {
        const need::Step& step = *work.steps[from];
        if (step.purpose != need::Purpose::body || step.row == 0) continue;
        const Length row =
            (from + 1 < work.before.size() ? work.before[from + 1] : work.all) - work.before[from];
        const bool flat = is_flat(project, step);
        const Fade fade = fade_over(usual_fade, gauge_of(project, project.pieces[step.piece]).rows,
                                    row, flat ? project::Worked::flat : project::Worked::round);
        const auto last = from + static_cast<std::size_t>(fade.rows) - 1;
        if (last >= work.steps.size() || work.steps[last]->piece != step.piece ||
            work.steps[last]->copy != step.copy || !work.steps[last]->name.empty())
            continue;
        if (work.before[from] + fade.kept_back > first.usable) continue;
        if (work.all - work.before[from] - fade.kept_back > other.usable) return std::nullopt;
        return ChangeOnce{first.text, other.text, place_of(project, step),
                          fade.rows,  flat,       fade.kept_back};
    }
    return std::nullopt;
}

}  // namespace

std::vector<MixingPlan> mixing_plan(const project::Project& project, const need::MakeNeed& need,
                                    const RoleCover& role, const Rules& rules) {
    if (!role.role.one_lot || role.verdict == Verdict::covered) return {};
    const std::vector<LotSupply> lots = lots_of(role, rules.tail);
    if (lots.size() < 2) return {};
    const Length wanted =
        measure::supply_needed(role.compared, role.supply.spread, rules.confidence);
    const Length shortage = wanted - lots[0].usable;
    if (shortage <= Length{} || shortage > lots[1].usable) return {};
    std::vector<MixingPlan> out;
    const std::vector<BlendPart> parts = parts_of(project, need, role.role.id);
    if (const auto blend = smallest_blend(parts, shortage)) {
        BlendLots plan;
        plan.first = {lots[0].text, shortage};
        plan.other = {lots[1].text, lots[1].usable};
        plan.moved = blend->moved;
        for (const std::size_t at : blend->parts) {
            plan.parts.push_back(parts[at].name);
            for (const project::Piece& piece : project.pieces)
                if (piece.name == parts[at].name)
                    plan.flat = plan.flat || piece.worked == project::Worked::flat;
        }
        out.emplace_back(std::move(plan));
    }
    const Along work = along(need, role, wanted);
    if (!project.pieces.empty()) {
        if (auto plan = beginning_in_first(project, work, lots[0], lots[1]))
            out.push_back(std::move(*plan));
        if (auto plan = changed_once(project, work, lots[0], lots[1]))
            out.push_back(std::move(*plan));
    }
    return out;
}

}  // namespace skeinfall::cover

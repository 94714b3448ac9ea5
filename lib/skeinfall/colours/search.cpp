#include "skeinfall/colours/detail/search.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/joins/stripes.hpp"

namespace skeinfall::colours {

using units::Length;

namespace {

/// Where other goals come first than heights, all heights are looked at; not more than so many.
constexpr std::size_t drafts_at_most = 20'000;

bool is_covered(const cover::MakeCover& cover, const cover::Rules& rules) {
    if (cover.verdict != cover::Verdict::covered) return false;
    return rules.margin.value() <= 0.0 || cover.with_margin >= rules.confidence;
}

}  // namespace

Search::Search(const project::Project& project, const std::vector<stash::Skein>& stash,
               const cover::Rules& rules, const Wish& wish)
    : project_(project),
      stash_(stash),
      rules_(rules),
      wish_(wish),
      takes_(project, stash, rules, wish) {}

Striped Search::worked_out(const HeightRules& rules, const Heights& heights,
                           const std::vector<Stripes>& stripes, bool joins) const {
    Striped out;
    out.heights = heights;
    out.stripes = stripes;
    out.project = striped(project_, wish_, stripes);
    if (joins) {
        out.plan = plan::plan_make(out.project, wish_.size, stash_, rules_, {});
    } else {
        out.plan.need = cover::need_for(out.project, wish_.size, {});
        out.plan.cover = cover::cover_make(out.project, out.plan.need, stash_, rules_);
    }
    out.rows_changed = rows_changed(rules, heights);
    out.ends = joins::stripe_ends(out.plan.need, project_.tail).cut;
    out.sure = is_covered(out.plan.cover, rules_);
    return out;
}

/// Ends and leftovers of a draft, and its place among the others.
void Search::measure(const HeightRules& rules, Draft& draft) const {
    const need::MakeNeed make =
        cover::need_for(striped(project_, wish_, draft.stripes), wish_.size, {});
    draft.rows_changed = rows_changed(rules, draft.heights);
    draft.ends = joins::stripe_ends(make, project_.tail).cut;
    std::int64_t most_left = 0;
    std::int64_t least_left = 1000;
    constexpr double in_whole = 1000.0;
    for (const need::RoleNeed& role : make.roles) {
        draft.needs[role.role] = role.length.centre;
        const std::size_t of = takes_.colour(role.role);
        if (of >= takes_.roles().size()) continue;
        const double share = 1.0 - double{role.length.centre / takes_.has(of)};
        most_left = std::max(most_left, static_cast<std::int64_t>(in_whole * share));
        least_left = std::min(least_left, static_cast<std::int64_t>(in_whole * share));
    }
    std::size_t at = 0;
    for (const Goal goal : wish_.goals) {
        draft.score.at(at++) = goal == Goal::heights ? draft.rows_changed
                               : goal == Goal::ends  ? draft.ends
                                                     : most_left - least_left;
        if (goal == Goal::heights) draft.score.at(at++) = most_changed(rules, draft.heights);
    }
}

std::vector<Draft> Search::drafts(const HeightRules& rules, const Layout& layout,
                                  std::int64_t rows) {
    std::vector<Draft> out;
    const auto may_do = [&](const Heights& heights) {
        if (out.size() >= drafts_at_most) return false;
        auto stripes = layout(heights);
        if (!stripes || !takes_.may_do(*stripes)) return false;
        Draft draft;
        draft.heights = heights;
        draft.stripes = std::move(*stripes);
        out.push_back(std::move(draft));
        return true;
    };
    const Level level = heights_that_differ_by(rules, rows, may_do, steps_);
    if (!level.complete || out.size() >= drafts_at_most) proven_ = false;
    for (Draft& draft : out) measure(rules, draft);
    return out;
}

/// More of a yarn never makes it likelier to be enough: who takes as much of every yarn as one that
/// failed will fail.
bool Search::seen_to_fail(const Draft& draft) const {
    constexpr Length noise = 1e-9 * units::metre;
    return std::any_of(failed_.begin(), failed_.end(), [&](const auto& failed) {
        return std::all_of(failed.begin(), failed.end(), [&](const auto& one) {
            const auto found = draft.needs.find(one.first);
            return found != draft.needs.end() && found->second >= one.second - noise;
        });
    });
}

bool Search::covered(const Draft& draft) {
    if (seen_to_fail(draft)) return false;
    ++judged_;
    const project::Project project = striped(project_, wish_, draft.stripes);
    const need::MakeNeed make = cover::need_for(project, wish_.size, {});
    const cover::MakeCover cover = cover::cover_make(project, make, stash_, rules_);
    if (is_covered(cover, rules_)) return true;
    // Yarns that no other may take are judged each by itself.
    std::map<const stash::Skein*, int> users;
    for (const cover::RoleCover& role : cover.roles)
        for (const cover::Candidate& one : role.candidates)
            if (one.supply) ++users[one.skein];
    bool told = false;
    for (const cover::RoleCover& role : cover.roles) {
        const bool apart = std::all_of(
            role.candidates.begin(), role.candidates.end(),
            [&](const cover::Candidate& one) { return !one.supply || users[one.skein] == 1; });
        if (!apart || role.chance >= rules_.confidence || !role.role.held_with.empty()) continue;
        failed_.push_back({{role.role.id, draft.needs.at(role.role.id)}});
        told = true;
    }
    if (!told) failed_.push_back(draft.needs);
    return false;
}

std::optional<Striped> Search::first_covered(const HeightRules& rules, std::vector<Draft>& drafts) {
    std::stable_sort(drafts.begin(), drafts.end(),
                     [](const Draft& a, const Draft& b) { return a.score < b.score; });
    for (const Draft& draft : drafts) {
        if (ends_at_most_ && draft.ends > *ends_at_most_) continue;
        if (judged_ >= judged_at_most) {
            proven_ = false;
            return std::nullopt;
        }
        if (covered(draft)) return worked_out(rules, draft.heights, draft.stripes, false);
    }
    return std::nullopt;
}

std::optional<Striped> Search::best(const HeightRules& rules, const Layout& layout) {
    const std::int64_t most = std::min(farthest(rules), rows_at_most_.value_or(farthest(rules)));
    if (wish_.goals.front() == Goal::heights) {
        for (std::int64_t rows = 0; rows <= most && steps_ > 0; ++rows) {
            std::vector<Draft> level = drafts(rules, layout, rows);
            if (auto found = first_covered(rules, level)) return found;
            if (judged_ >= judged_at_most) break;
        }
        return std::nullopt;
    }
    std::vector<Draft> all;
    for (std::int64_t rows = 0; rows <= most && steps_ > 0; ++rows) {
        std::vector<Draft> level = drafts(rules, layout, rows);
        std::move(level.begin(), level.end(), std::back_inserter(all));
        if (all.size() >= drafts_at_most) {
            proven_ = false;
            break;
        }
    }
    return first_covered(rules, all);
}

std::optional<Striped> Search::best_with(const HeightRules& rules, const Layout& layout,
                                         std::int64_t ends_at_most) {
    constexpr std::int64_t little = 6;
    ends_at_most_ = ends_at_most;
    rows_at_most_ = little;
    auto out = best(rules, layout);
    ends_at_most_.reset();
    rows_at_most_.reset();
    return out;
}

}  // namespace skeinfall::colours

#include "skeinfall/colours/each.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/detail/takes.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::colours {
namespace {

/// What the yarn takes for so many copies in it, and whether that is covered.
class OneColour {
  public:
    OneColour(const project::Project& project, std::size_t size, std::size_t piece,
              const project::Role& role, const std::vector<stash::Skein>& stash,
              const cover::Rules& rules)
        : project_(project), size_(size), piece_(piece), role_(role), stash_(stash), rules_(rules) {
        project_.pieces[piece].role = role.id;
    }

    /// The answer for this yarn alone; the others are covered by nothing and do not matter.
    [[nodiscard]] std::optional<cover::RoleCover> cover(std::int64_t copies) {
        project_.pieces[piece_].count = project::PerSize<std::int64_t>(copies);
        need::MakeNeed make = cover::need_for(project_, size_, {});
        std::erase_if(make.roles, [&](const need::RoleNeed& one) { return one.role != role_.id; });
        if (make.roles.empty()) return std::nullopt;
        cover::MakeCover out = cover::cover_make(project_, make, stash_, rules_);
        return std::move(out.roles.front());
    }

  private:
    project::Project project_;
    std::size_t size_;
    std::size_t piece_;
    const project::Role& role_;
    const std::vector<stash::Skein>& stash_;
    const cover::Rules& rules_;
};

void check(const project::Project& project, std::size_t at) {
    const project::Piece& piece = project.pieces[at];
    const std::string table = "piece." + std::to_string(at);
    if (!piece.stripes.empty())
        throw base::InputError(base::Problem{
            base::shown_inert(piece.name) + " is striped", project.place(table, "stripes"),
            "a piece in one yarn, so that each copy has its colour", "Say yarn = \"MC\" in it."});
    for (const project::Role& role : project.roles)
        if (role.states_total())
            throw base::InputError(base::Problem{
                "yarn " + base::shown_inert(role.id) +
                    " is given by a total, which does not say what a copy takes",
                project.place("yarn." + role.id, "total"), "a swatch or a rate of it",
                "Work a swatch and weigh it, or write rate = \"2.9 in per stitch\"."});
}

/// The make with what is calculated from all copies, its joining and its edging, as so many need
/// it, whatever their colours.
project::Project with_parts_for(project::Project project, std::size_t piece, std::size_t size,
                                std::int64_t copies) {
    project::make_so_many(project, piece, size, copies);
    std::vector<project::FinishPart> parts = project.finish;
    for (project::FinishPart& part : parts) {
        if (part.of != project.pieces[piece].name) continue;
        units::Length yarn{};
        units::StitchCount stitches{};
        for (const project::FinishStep& step : project::finish_steps(project, part, size)) {
            yarn += step.yarn;
            stitches += step.stitches;
        }
        part.of.clear();
        part.columns = {};
        part.copies = {};
        part.bind_off_rows.reset();
        part.first_round = {};
        part.increase = {};
        if (stitches.value() > 0.0)
            part.stitches =
                project::PerSize<std::int64_t>(std::llround(std::ceil(stitches / units::stitch)));
        else
            part.yarn = project::PerSize<units::Length>(yarn);
    }
    project.finish = std::move(parts);
    return project;
}

/// Whether there is enough of a yarn for what the make takes of it beside copies.
bool parts_covered(const project::Project& project, std::size_t size, std::size_t piece,
                   const project::Role& role, const std::vector<stash::Skein>& stash,
                   const cover::Rules& rules) {
    project::Project beside = project;
    for (const project::Role& other : project.roles)
        if (other.id != role.id) beside.pieces[piece].role = other.id;
    if (beside.pieces[piece].role == role.id) return true;
    need::MakeNeed make = cover::need_for(beside, size, {});
    std::erase_if(make.roles, [&](const need::RoleNeed& one) { return one.role != role.id; });
    return make.roles.empty() ||
           cover::cover_make(beside, make, stash, rules).verdict == cover::Verdict::covered;
}

/// As many copies of each colour as its yarn covers beside what else the make takes of it, and no
/// more than `at_most` of it where that is given.
EachColour counted(const project::Project& project, std::size_t size, std::size_t piece,
                   const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                   const std::vector<std::int64_t>& at_most = {}) {
    EachColour out;
    out.piece = piece;
    out.size = size;
    cover::Rules each = rules;
    each.confidence = {units::Ratio(
        std::pow(rules.confidence.value.value(),
                 1.0 / static_cast<double>(std::max<std::size_t>(1, project.roles.size()))))};
    std::vector<stash::Skein> left = stash;
    for (const project::Role& role : project.roles) {
        OneColour one(project, size, piece, role, left, each);
        const auto covers = [&](std::int64_t copies) {
            const auto cover = one.cover(copies);
            return cover && cover->verdict == cover::Verdict::covered;
        };
        std::int64_t low = 0;
        std::int64_t high = 1;
        while (high <= copies_at_most && covers(high)) {
            low = high;
            high *= 2;
        }
        OfColour of;
        of.role = role.id;
        of.endless = high > copies_at_most;
        while (!of.endless && high - low > 1) {
            const std::int64_t middle = low + (high - low) / 2;
            (covers(middle) ? low : high) = middle;
        }
        if (!at_most.empty()) low = std::min(low, at_most[out.colours.size()]);
        of.count = low;
        out.together += low;
        if (low > 0) {
            const auto cover = one.cover(low);
            of.chance = cover->chance;
            std::set<std::string> taken;
            for (const cover::Candidate& candidate : cover->candidates)
                if (candidate.supply) taken.insert(candidate.skein->id);
            of.left = std::max(units::Length{},
                               of_fitting(role, cover->candidates, {}) - cover->need.length.centre);
            std::erase_if(left,
                          [&](const stash::Skein& skein) { return taken.count(skein.id) > 0; });
        }
        if (low == 0 && !parts_covered(project, size, piece, role, left, each))
            out.short_for_parts.push_back(role.id);
        out.colours.push_back(std::move(of));
    }
    return out;
}

/// The most for which there is yarn for the parts of so many as well.
EachColour as_many_as_have_their_parts(const project::Project& project, std::size_t size,
                                       std::size_t piece, const std::vector<stash::Skein>& stash,
                                       const cover::Rules& rules, std::int64_t wanted,
                                       const EachColour& of_wanted) {
    const auto with = [&](std::int64_t copies) {
        return counted(with_parts_for(project, piece, size, copies), size, piece, stash, rules);
    };
    EachColour best = of_wanted;
    std::int64_t low = wanted;
    for (std::int64_t high = of_wanted.together + 1; high - low > 1;) {
        const std::int64_t middle = low + (high - low) / 2;
        EachColour tried = with(middle);
        const bool enough = tried.together >= middle && tried.short_for_parts.empty();
        (enough ? low : high) = middle;
        if (enough) best = std::move(tried);
    }
    if (best.together == low) return best;
    // There are parts for so many and no more: fewer of the colour that has most.
    std::vector<std::int64_t> counts;
    for (const OfColour& of : best.colours) counts.push_back(of.count);
    for (std::int64_t many = best.together; many > low; --many)
        --*std::max_element(counts.begin(), counts.end());
    return counted(with_parts_for(project, piece, size, low), size, piece, stash, rules, counts);
}

}  // namespace

EachColour count_each(const project::Project& project, std::size_t size, std::size_t piece,
                      const std::vector<stash::Skein>& stash, const cover::Rules& rules) {
    check(project, piece);
    const project::PerSize<std::int64_t>& count = project.pieces[piece].count;
    const std::int64_t wanted = count.stated() ? count.at(size) : 1;
    EachColour out =
        counted(with_parts_for(project, piece, size, wanted), size, piece, stash, rules);
    // More of them take more to join, and leave fewer.
    if (out.together > wanted && out.together <= copies_at_most)
        out = as_many_as_have_their_parts(project, size, piece, stash, rules, wanted, out);
    out.wanted = wanted;
    for (std::size_t at = 0; at < project.finish.size() && out.together > wanted; ++at) {
        const project::FinishPart& part = project.finish[at];
        if (part.of == project.pieces[piece].name) continue;
        (project::is_of_each_copy(project, part, piece, size) ? out.parts_of_each : out.parts_fixed)
            .push_back(part.name);
    }
    return out;
}

}  // namespace skeinfall::colours

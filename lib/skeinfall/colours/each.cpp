#include "skeinfall/colours/each.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/detail/takes.hpp"

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
    for (const project::FinishPart& part : project.finish)
        if (part.of == piece.name)
            throw base::InputError(
                base::Problem{base::quoted(part.name) + " is calculated from all copies of " +
                                  base::shown_inert(piece.name),
                              project.place(table), "parts with their own length or stitches",
                              "Say how long the joining is, or how many stitches the edging has."});
    for (const project::Role& role : project.roles)
        if (role.states_total())
            throw base::InputError(base::Problem{
                "yarn " + base::shown_inert(role.id) +
                    " is given by a total, which does not say what a copy takes",
                project.place("yarn." + role.id, "total"), "a swatch or a rate of it",
                "Work a swatch and weigh it, or write rate = \"2.9 in per stitch\"."});
}

}  // namespace

EachColour count_each(const project::Project& project, std::size_t size, std::size_t piece,
                      const std::vector<stash::Skein>& stash, const cover::Rules& rules) {
    check(project, piece);
    EachColour out;
    out.piece = piece;
    out.size = size;
    const project::PerSize<std::int64_t>& count = project.pieces[piece].count;
    out.wanted = count.stated() ? count.at(size) : 1;
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
        out.colours.push_back(std::move(of));
    }
    return out;
}

}  // namespace skeinfall::colours

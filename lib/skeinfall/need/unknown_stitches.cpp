#include "skeinfall/need/unknown_stitches.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/project/makes_like_it.hpp"

namespace skeinfall::need {
namespace {

struct Found {
    std::string kind;
    std::size_t piece = 0;
    bool by_counts = false;  ///< the piece has no written rows: all of it is the gauge's stitch
};

/// A yarn that no total, rate, swatch or make of one's own tells goes by the stitch's name alone.
bool goes_by_name(const project::Project& project) {
    return project.swatches.empty() && project.earlier_makes.empty() &&
           std::any_of(project.roles.begin(), project.roles.end(), [](const project::Role& role) {
               return !role.states_total() && !role.rate;
           });
}

std::vector<Found> find(const project::Project& project, std::size_t size) {
    std::vector<Found> out;
    if (project.craft != project::Craft::crochet) return out;
    std::set<std::string> told;
    for (const project::Swatch& swatch : project.swatches) {
        for (const project::KindCount& part : swatch.kinds) told.insert(part.kind);
        if (swatch.kinds.empty())
            told.insert(
                kind_of(swatch.stitch.empty() ? project.gauge.stitch : swatch.stitch, project));
    }
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& piece = project.pieces[at];
        const std::string& gauge = project.gauge.stitch;
        if (!piece.pattern.stated() && !gauge.empty() && goes_by_name(project) &&
            project::fabric_group(project.craft, project.terms, gauge).empty()) {
            std::string kind = kind_of(gauge, project);
            if (!project::relative_yarn(kind, project.stitches) && told.insert(kind).second)
                out.push_back({std::move(kind), at, true});
        }
        if (!piece.pattern.stated() || size >= project.size_count()) continue;
        for (const auto& row : piece.pattern.at(size).distinct)
            for (const project::KindCount& part : row.kinds)
                if (!told.contains(part.kind) &&
                    !project::relative_yarn(part.kind, project.stitches)) {
                    told.insert(part.kind);
                    out.push_back({part.kind, at, false});
                }
    }
    return out;
}

}  // namespace

std::vector<std::string> unknown_stitches(const project::Project& project, std::size_t size) {
    std::vector<std::string> out;
    for (Found& one : find(project, size)) out.push_back(std::move(one.kind));
    return out;
}

base::Problems problems_of_unknown_stitches(const project::Project& project, std::size_t size) {
    base::Problems out;
    for (const Found& one : find(project, size))
        out.push_back({fmt::format("{}: how much yarn the stitch {} takes is not known",
                                   base::shown_inert(project.pieces[one.piece].name),
                                   base::shown_inert(one.kind)),
                       one.by_counts ? project.place("gauge", "stitch")
                                     : project.place(fmt::format("piece.{}", one.piece), "rows"),
                       "stitches of the table, described ones, or those of a swatch",
                       "Weigh a swatch in it. Or describe it, like: [stitch.popcorn] of = "
                       "\"5 dc\"."});
    return out;
}

project::Project with_plain_stitches(project::Project project) {
    for (std::size_t size = 0; size < project.size_count(); ++size)
        for (const std::string& kind : unknown_stitches(project, size)) {
            project::OwnStitch plain;
            plain.name = kind;
            plain.yarn = units::Ratio(1.0);
            project.stitches.push_back(std::move(plain));
        }
    return project;
}

}  // namespace skeinfall::need

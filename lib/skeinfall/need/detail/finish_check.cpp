#include "skeinfall/need/detail/finish_check.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>

#include <fmt/format.h>

#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::need {
namespace {

using project::PartKind;

/// How often every piece is made, where that is equally often; else once.
std::int64_t copies_of_all(const project::Project& project, std::size_t size) {
    std::int64_t out = 0;
    for (const project::Piece& piece : project.pieces) {
        const std::int64_t count = piece.count.stated() ? piece.count.at(size) : 1;
        if (out > 0 && count != out) return 1;
        out = count;
    }
    return std::max<std::int64_t>(1, out);
}

/// Tassels and pompoms are counted, and strands of a fringe are told in all.
bool may_be_of_each(const project::FinishPart& part) {
    return part.kind != PartKind::joining && part.kind != PartKind::swatch &&
           part.kind != PartKind::tassel && part.kind != PartKind::pompom && part.of.empty() &&
           !part.copies.stated();
}

}  // namespace

project::Findings parts_counted_once(const project::Project& project) {
    project::Findings out;
    const bool joined =
        std::any_of(project.finish.begin(), project.finish.end(),
                    [](const project::FinishPart& part) { return part.kind == PartKind::joining; });
    std::int64_t copies = 1;
    for (std::size_t size = 0; size < project.size_count(); ++size)
        copies = std::max(copies, copies_of_all(project, size));
    if (joined || copies < 2) return out;
    for (std::size_t at = 0; at < project.finish.size(); ++at) {
        const project::FinishPart& part = project.finish[at];
        if (!may_be_of_each(part)) continue;
        out.push_back({project::Severity::caution, project.place(fmt::format("finish.{}", at)),
                       fmt::format("{} counts once, though {} is made {} times", part.name,
                                   project.pieces.front().name, copies),
                       fmt::format("Write count = {} where each has one, and count = 1 where one "
                                   "is all there is.",
                                   copies)});
    }
    return out;
}

project::Findings parts_grown(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 0; at < project.finish.size(); ++at) {
        const project::FinishPart& part = project.finish[at];
        if (!part.grown) continue;
        out.push_back({project::Severity::caution, project.place(fmt::format("finish.{}", at)),
                       fmt::format("{} is given once for {} sizes; taken as for the smallest, and "
                                   "larger with {} in the others",
                                   part.name, project.size_count(),
                                   part.kind == PartKind::fringe ? "the width" : "the way round"),
                       "Give a list with one figure for each size."});
    }
    return out;
}

units::StitchCount border_at_worst(const project::Project& project, const project::FinishPart& part,
                                   std::size_t size) {
    const auto over = project::way_over_first_round(project, part, size);
    if (!over || !(*over > far_apart)) return {};
    return (over->value() - 1.0) * static_cast<double>(part.first_round.at(size)) * units::stitch;
}

project::Findings borders_off_their_piece(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 0; at < project.finish.size(); ++at)
        for (std::size_t size = 0; size < project.size_count(); ++size) {
            const project::FinishPart& part = project.finish[at];
            const auto over = project::way_over_first_round(project, part, size);
            if (!over || (*over <= far_apart && *over * far_apart >= units::Ratio(1.0))) continue;
            const bool short_of = *over > far_apart;
            out.push_back(
                {project::Severity::caution, project.place(fmt::format("finish.{}", at)),
                 fmt::format(
                     "{}{}: its first round has {} stitches, and about {} go round {} by "
                     "the gauge; calculated for the larger",
                     part.name, project.sizes.empty() ? "" : " in size " + project.sizes[size],
                     part.first_round.at(size),
                     std::llround(static_cast<double>(part.first_round.at(size)) * over->value()),
                     project.pieces.front().name),
                 short_of ? "Correct the first round. An edge along one side alone is kind = "
                            "\"other\" with all its stitches."
                          : "Correct the first round, or the size of the piece."});
            break;
        }
    return out;
}

}  // namespace skeinfall::need

#include "skeinfall/need/detail/finish_check.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/units/format.hpp"

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

namespace {

/// Names of one side of a grid, and what a piece makes of each.
project::Findings names_in_repeats(const project::Project& project, std::size_t at,
                                   const std::vector<std::string>& names, const char* key,
                                   const std::function<units::Length(std::size_t)>& wished,
                                   const std::function<units::Length(std::size_t)>& made) {
    project::Findings out;
    const auto tell = [&](std::string what) {
        out.push_back({project::Severity::caution, project.place(fmt::format("piece.{}", at), key),
                       std::move(what), "Choose figures that whole repeats come to."});
    };
    const std::string& piece = project.pieces[at].name;
    constexpr double noise = 1e-6;
    for (std::size_t one = 0; one < names.size(); ++one) {
        std::vector<std::string> alike;
        for (std::size_t other = one + 1; other < names.size(); ++other)
            if (std::abs((made(other) - made(one)).value()) < noise &&
                std::abs((wished(other) - wished(one)).value()) > noise)
                alike.push_back(base::shown_inert(names[other]));
        const std::string name = base::shown_inert(names[one]);
        const bool told = one > 0 && std::abs((made(one) - made(one - 1)).value()) < noise;
        if (!alike.empty() && !told)
            tell(fmt::format("{} and {} are one size of {}: {}, in whole repeats", name,
                             base::join(alike, ", "), base::quoted(piece),
                             units::inches_and_centimetres(made(one))));
        constexpr double far_off = 0.1;
        if (std::abs(made(one) / wished(one) - 1.0) > far_off)
            tell(fmt::format("{} of {} comes out as {}, in whole repeats", name,
                             base::quoted(piece), units::inches_and_centimetres(made(one))));
    }
    return out;
}

}  // namespace

project::Findings grid_in_repeats(const project::Project& project) {
    project::Findings out;
    if (!project.grid) return out;
    const std::size_t lengths = std::max<std::size_t>(1, project.grid->lengths.size());
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& piece = project.pieces[at];
        const auto made = [&](std::size_t size) {
            return project::finished_size(project, piece, size);
        };
        const auto add = [&](project::Findings more) {
            out.insert(out.end(), more.begin(), more.end());
        };
        if (piece.multiple && piece.width.values.size() == project.size_count())
            add(names_in_repeats(
                project, at, project.grid->widths, "multiple",
                [&](std::size_t one) { return piece.width.values[one * lengths]; },
                [&](std::size_t one) { return made(one * lengths).width; }));
        if (piece.row_multiple && piece.length.values.size() == project.size_count())
            add(names_in_repeats(
                project, at, project.grid->lengths, "row_multiple",
                [&](std::size_t one) { return piece.length.values[one]; },
                [&](std::size_t one) { return made(one).length; }));
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

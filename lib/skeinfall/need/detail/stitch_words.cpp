#include "skeinfall/need/detail/stitch_words.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::need {
namespace {

std::optional<project::Finding> misnamed(const project::Project& project, const std::string& stitch,
                                         base::Place place) {
    const std::string name = base::lower(base::trimmed(stitch));
    const bool own =
        std::any_of(project.stitches.begin(), project.stitches.end(),
                    [&](const project::OwnStitch& one) { return base::lower(one.name) == name; });
    if (name.empty() || own) return std::nullopt;
    project::StitchBook book(project.craft, project.terms);
    const bool uk = project.terms == project::Terms::uk;
    if (const auto known = book.find(name)) {
        if (!known->other_terms) return std::nullopt;
        return project::Finding{
            project::Severity::stop, std::move(place),
            fmt::format("{} is a stitch of {} terms, and the project is in {} terms",
                        base::shown_inert(stitch), uk ? "US" : "UK", uk ? "UK" : "US"),
            fmt::format("Write {}, or change the terms.", book.at(known->kind).written)};
    }
    if (!project::fabric_group(project.craft, project.terms, name).empty()) return std::nullopt;
    const std::vector<std::string> names = book.names();
    // "double" is the first word of "double crochet" before it is a slip of "bobble".
    const auto begins = std::find_if(names.begin(), names.end(), [&](const std::string& one) {
        return one.starts_with(name + " ");
    });
    const auto near = begins != names.end() ? std::optional<std::string>(*begins)
                                            : base::nearest_name(name, names);
    if (!near) return std::nullopt;
    return project::Finding{
        project::Severity::stop, std::move(place),
        fmt::format("no stitch {} is known", base::shown_inert(stitch)),
        base::did_you_mean(near) + " One of your own has a [stitch.NAME] table."};
}

}  // namespace

project::Findings stitches_misnamed(const project::Project& project) {
    project::Findings out;
    // Knitted fabrics have names of their own, and go by the room of a stitch.
    if (project.craft != project::Craft::crochet) return out;
    const auto look = [&](const std::string& stitch, const std::string& table, const char* key) {
        if (auto found = misnamed(project, stitch, project.place(table, key)))
            out.push_back(std::move(*found));
    };
    look(project.gauge.stitch, "gauge", "stitch");
    for (std::size_t at = 0; at < project.pieces.size(); ++at)
        if (project.pieces[at].gauge && project.pieces[at].gauge->stitch != project.gauge.stitch)
            look(project.pieces[at].gauge->stitch, fmt::format("piece.{}", at), "gauge");
    for (std::size_t at = 0; at < project.swatches.size(); ++at)
        look(project.swatches[at].stitch, fmt::format("swatch.{}", at), "stitch");
    for (std::size_t at = 0; at < project.earlier_makes.size(); ++at)
        look(project.earlier_makes[at].stitch, fmt::format("earlier_make.{}", at), "stitch");
    return out;
}

/// Those of written rows are found where the rows are read, slips of the pen by their names.
project::Findings unknown_gauge_stitch(const project::Project& project) {
    project::Findings out;
    const std::string& stitch = project.gauge.stitch;
    if (misnamed(project, stitch, {})) return out;
    const bool knitted = project.craft == project::Craft::crochet &&
                         project::craft_of_fabric(stitch) == project::Craft::knit;
    for (base::Problem& problem : problems_of_unknown_stitches(project, 0)) {
        if (problem.place != project.place("gauge", "stitch")) continue;
        if (knitted) {
            problem.what =
                fmt::format("{} is knitted, and the make is crocheted", base::shown_inert(stitch));
            problem.remedy = "Say a crochet stitch such as sc, or that it is knitted.";
        }
        out.push_back({project::Severity::stop, std::move(problem.place), std::move(problem.what),
                       std::move(problem.remedy)});
    }
    return out;
}

}  // namespace skeinfall::need

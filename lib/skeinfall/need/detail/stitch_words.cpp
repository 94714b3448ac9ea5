#include "skeinfall/need/detail/stitch_words.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/format.hpp"

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

std::string grams_of(double kilograms) {
    return units::text(1000.0 * kilograms * units::gram, units::shown::grams,
                       kilograms < 0.01 ? units::Step::tenth : units::Step::one,
                       units::Rounding::nearest);
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

project::Findings stitches_without_yarn(const project::Project& project) {
    project::Findings out;
    if (project.craft != project::Craft::crochet) return out;
    const auto in_table = [&](const std::string& kind) {
        return project::relative_yarn(kind, project.stitches).has_value();
    };
    const std::string gauge_kind = kind_of(project.gauge.stitch, project);
    for (const project::Role& role : project.roles) {
        // What the role's rate is counted in.
        std::set<std::string> told;
        for (const project::Swatch& swatch : project.swatches) {
            if (swatch.role != role.id) continue;
            if (!swatch.kinds.empty())
                for (const project::KindCount& part : swatch.kinds) told.insert(part.kind);
            else
                told.insert(swatch.stitch.empty() ? gauge_kind : kind_of(swatch.stitch, project));
        }
        const bool swatched = !told.empty();
        if (!swatched) told.insert(gauge_kind);
        const bool comparable = std::any_of(told.begin(), told.end(), in_table);
        for (std::size_t at = 0; at < project.pieces.size(); ++at) {
            const project::Piece& piece = project.pieces[at];
            const bool works =
                piece.stripes.empty()
                    ? piece.role == role.id
                    : std::any_of(piece.stripes.begin(), piece.stripes.end(),
                                  [&](const auto& stripe) { return stripe.role == role.id; });
            // Rows in notation have findings of their own.
            if (!works || piece.pattern.stated() || gauge_of(project, piece).stitch.empty())
                continue;
            std::set<std::string> kinds;
            for (const project::KindCount& part : piece.group) kinds.insert(part.kind);
            if (piece.group.empty())
                kinds.insert(kind_of(gauge_of(project, piece).stitch, project));
            for (const std::string& kind : kinds) {
                if (told.contains(kind) || (comparable && in_table(kind))) continue;
                const bool unknown = !in_table(kind);
                out.push_back(
                    {project::Severity::stop, project.place(fmt::format("piece.{}", at), "gauge"),
                     fmt::format("{}: how much yarn {} takes beside {} is not known", piece.name,
                                 unknown ? kind : base::join({told.begin(), told.end()}, ", "),
                                 unknown ? base::join({told.begin(), told.end()}, ", ") : kind),
                     "Work a swatch in the piece's stitch and weigh it, or describe the stitch, "
                     "like: [stitch.popcorn] of = \"5 dc\""});
            }
        }
    }
    return out;
}

project::Findings swatches_off_all_fabrics(const project::Project& project) {
    // Gossamer lace has some 10 g in a square metre, a rug or an arm-knitted throw 4 kg; ten times
    // beyond it is a slip in a figure or its unit (judgements).
    constexpr double least = 0.01;
    constexpr double most = 4.0;
    constexpr double slip = 10.0;
    project::Findings out;
    for (std::size_t at = 0; at < project.swatches.size(); ++at) {
        const project::Swatch& swatch = project.swatches[at];
        if (!swatch.weighing || !swatch.width || !swatch.height) continue;
        const units::Mass tare =
            swatch.weighing->tare ? swatch.weighing->tare->value : units::Mass{};
        const double kilograms =
            units::Ratio((swatch.weighing->shown.value - tare) / units::gram).value() / 1000.0;
        const double square_metres = units::Ratio(*swatch.width / units::metre).value() *
                                     units::Ratio(*swatch.height / units::metre).value();
        const double each = kilograms / square_metres;
        if (each >= least && each <= most) continue;
        const bool absurd = each > slip * most || slip * each < least;
        out.push_back({absurd ? project::Severity::stop : project::Severity::caution,
                       project.place(fmt::format("swatch.{}", at), "mass"),
                       fmt::format("a swatch of this size weighs about {} to {} in any fabric made "
                                   "by hand, and this one {}",
                                   grams_of(least * square_metres), grams_of(most * square_metres),
                                   grams_of(kilograms)),
                       "Check its weight, its size and their units."});
    }
    return out;
}

}  // namespace skeinfall::need

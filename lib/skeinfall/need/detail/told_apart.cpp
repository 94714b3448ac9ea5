#include "skeinfall/need/detail/told_apart.hpp"

#include <algorithm>
#include <cstdint>
#include <set>
#include <string>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::need {
namespace {

/// The yarns that are held together with it, and itself.
std::int64_t held_together(const project::Project& project, const std::string& role) {
    const project::Role* own = project.role(role);
    const std::string& first = own == nullptr || own->held_with.empty() ? role : own->held_with;
    return std::count_if(project.roles.begin(), project.roles.end(), [&](const project::Role& one) {
        return one.id == first || one.held_with == first;
    });
}

/// "sleeve 2" for the second of the sleeves.
bool is_copy_of(const std::string& name, const project::Piece& piece) {
    const std::int64_t copies = piece.count.stated() ? *std::max_element(piece.count.values.begin(),
                                                                         piece.count.values.end())
                                                     : 1;
    const std::size_t blank = name.rfind(' ');
    if (blank == std::string::npos || copies < 2) return false;
    const auto number = units::parse_whole(name.substr(blank + 1));
    return number && *number >= 1 && *number <= copies &&
           base::same_name(name.substr(0, blank), piece.name);
}

}  // namespace

project::Findings swatches_of_other_strands(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 0; at < project.swatches.size(); ++at) {
        const project::Swatch& swatch = project.swatches[at];
        const std::int64_t held = held_together(project, swatch.role);
        // A yarn alone may be held double, and only its swatch says so.
        if (swatch.strands < 2 || held < 2 || swatch.strands == held) continue;
        out.push_back(
            {project::Severity::stop, project.place(fmt::format("swatch.{}", at), "strands"),
             fmt::format("the swatch of {} is of {} strands, and {} are held together here",
                         base::shown_inert(swatch.role), swatch.strands, held),
             "Correct its strands, or weigh a swatch with all the yarns that are held "
             "together."});
    }
    return out;
}

project::Findings pieces_of_one_name(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 1; at < project.pieces.size(); ++at)
        for (std::size_t before = 0; before < at; ++before) {
            const project::Piece& one = project.pieces[before];
            const project::Piece& other = project.pieces[at];
            if (!base::same_name(one.name, other.name) && !is_copy_of(other.name, one) &&
                !is_copy_of(one.name, other))
                continue;
            out.push_back({project::Severity::caution,
                           project.place(fmt::format("piece.{}", at), "name"),
                           fmt::format("{} may be either of two pieces", base::quoted(other.name)),
                           "Give each piece a name of its own, so that a weighing can say which."});
            break;
        }
    return out;
}

project::Findings pieces_that_may_be_two(const project::Project& project) {
    project::Findings out;
    // A total holds them all.
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& piece = project.pieces[at];
        const project::Role* role = project.role(piece.role);
        if (piece.count.stated() || (role != nullptr && role->states_total())) continue;
        const std::string low = base::lower(piece.name);
        const std::size_t word = low.find_last_of(' ');
        const std::string last = word == std::string::npos ? low : low.substr(word + 1);
        const bool pair = last.ends_with('s') && project::is_thing(last, project::Thing::pair);
        if (!pair && low.find("(make ") == std::string::npos) continue;
        out.push_back(
            {project::Severity::caution, project.place(fmt::format("piece.{}", at), "name"),
             fmt::format("{} is counted once, and may be several", base::quoted(piece.name)),
             "Write how many there are: count = 2, or count = 1."});
    }
    return out;
}

project::Findings yarns_that_nothing_uses(const project::Project& project) {
    project::Findings out;
    // Where counts alone are told, its stripes may be still to plan.
    const bool written =
        std::any_of(project.pieces.begin(), project.pieces.end(),
                    [](const project::Piece& piece) { return piece.pattern.stated(); });
    if (project.roles.size() < 2 || !written) return out;
    std::set<std::string> used;
    try {
        for (const RoleNeed& need : need_of(project, 0).roles) used.insert(need.role);
    } catch (const base::InputError&) {
        return out;  // told where it is worked out
    }
    for (const project::Role& role : project.roles)
        if (!used.contains(role.id))
            out.push_back({project::Severity::caution, project.place("yarn." + role.id, ""),
                           "no piece and no finish is worked in yarn " +
                               base::shown_inert(role.id) + ", so it is not counted",
                           "Say where it is worked, or take it out."});
    return out;
}

}  // namespace skeinfall::need

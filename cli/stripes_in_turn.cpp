#include "stripes_in_turn.hpp"

#include <algorithm>
#include <ostream>
#include <set>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/candidates.hpp"
#include "skeinfall/units/format.hpp"

#include "planning.hpp"

namespace skeinfall::cli {
namespace {

/// A yarn of the project by its id, its colour or its name.
bool is_of_project(const std::string& word, const project::Project& project) {
    return std::any_of(project.roles.begin(), project.roles.end(), [&](const project::Role& role) {
        return base::same_word(role.id, word) || base::same_name(role.colour, word) ||
               base::same_name(role.name, word);
    });
}

}  // namespace

std::vector<stash::Skein> skeins_in_turn(const Values& values, const World& world,
                                         const std::vector<Told>& named,
                                         const project::Project& project) {
    if (named.size() == 1) {
        std::vector<stash::Skein> out =
            skeins_for(values, world, {known_title(project, values)}, &project);
        take_for_project(values, world, project, out);
        return out;
    }
    std::vector<const project::Project*> projects;
    projects.reserve(named.size());
    for (const Told& told : named) projects.push_back(&told.project);
    refuse_have_of_no_yarn(values, projects);
    std::vector<stash::Skein> out =
        skeins_for(values, world, {known_title(project, values)}, nullptr);
    if (values.given("have"))
        std::erase_if(out, [&](const stash::Skein& one) {
            return !one.colourway.empty() && !is_of_project(one.colourway, project);
        });
    take_for_project(values, world, project, out);
    return out;
}

void tell_of_begun(const std::vector<plan::LeftOf>& taken, const World& world) {
    for (const plan::LeftOf& of : taken)
        if (of.left > units::Length{})
            *world.err << "note: of " << base::shown_inert(of.id)
                       << " the makes before leave at least "
                       << units::yarn_text(of.left, units::Step::one, units::Rounding::down)
                       << "\n";
}

void tell_of_other_balls(const project::Project& project, const cover::Rules& rules,
                         const std::vector<stash::Skein>& skeins, const World& world) {
    std::set<const stash::Skein*> named;
    std::set<int> classes;
    for (const project::Role& role : project.roles) {
        if (role.weight) classes.insert(role.weight->number);
        for (const cover::Candidate& one :
             cover::candidates_for(role, 2.0 * rules.tail, skeins, rules.project, project.made_for))
            if (one.supply) named.insert(one.skein);
    }
    const auto others = std::count_if(skeins.begin(), skeins.end(), [&](const stash::Skein& one) {
        return one.yarn.weight && classes.count(one.yarn.weight->number) > 0 &&
               named.count(&one) == 0;
    });
    if (others > 0)
        *world.err << "note: " << others << (others == 1 ? " skein" : " skeins")
                   << " more of its weight in the stash, of yarns that the project does not name; "
                      "with --make in place of a file --scraps takes every colour of a --class\n";
}

}  // namespace skeinfall::cli

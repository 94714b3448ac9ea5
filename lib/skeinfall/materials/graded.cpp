#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/materials/lint.hpp"
#include "skeinfall/need/size_steps.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::materials {

namespace {

/// As the pattern states them: where they fall, the printed ones are no longer theirs.
std::vector<units::Length> told_of_sizes(const project::Project& project, const YarnLine& yarn) {
    const project::Role* role = project.role(yarn.role);
    return role != nullptr && role->total_length.values.size() == yarn.total.size()
               ? role->total_length.values
               : yarn.total;
}

}  // namespace

project::Findings sizes_out_of_line(const project::Project& project, const Section& section) {
    project::Findings out;
    // The sizes of a grid are in no one order.
    if (project.grid) return out;
    for (const YarnLine& yarn : section.yarns)
        for (const need::OutOfLine& one : need::out_of_line(told_of_sizes(project, yarn)))
            out.push_back({project::Severity::caution, project.place("yarn." + yarn.role, "total"),
                           need::words_of(one.growth, base::shown_inert(yarn.role),
                                          base::shown_inert(section.sizes[one.size - 1]),
                                          base::shown_inert(section.sizes[one.size])),
                           std::string(need::look_at_the_rows)});
    return out;
}

project::Findings graded(const project::Project& project) {
    project::Findings out;
    const Section section = section_of(project);
    for (const YarnLine& yarn : section.yarns)
        for (const need::Taken& taken : yarn.testers.far_off) {
            const std::string& name = project.testers[taken.index].tester;
            out.push_back(
                {project::Severity::caution, project.place("yarn." + yarn.role),
                 fmt::format("yarn {}: the return of {} is {} of what was worked out, far off the "
                             "others, and left out",
                             base::shown_inert(yarn.role),
                             name.empty() ? fmt::format("tester {}", taken.index + 1)
                                          : base::shown_inert(name),
                             units::percent_text(taken.of_model, units::Step::one,
                                                 units::Rounding::nearest)),
                 "Ask for both weighings again; confirmed = true counts it all the same."});
        }
    for (project::Finding& one : sizes_out_of_line(project, section)) out.push_back(std::move(one));
    return out;
}

}  // namespace skeinfall::materials

#include "skeinfall/materials/class_of.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

#include "skeinfall/need/worst.hpp"

namespace skeinfall::materials {

std::vector<ClassYarn> class_of(const project::Project& project, std::size_t size,
                                std::int64_t makers, measure::Chance confidence,
                                const yarn::Label& put_up) {
    const Section section = section_of(project);
    const double parts = static_cast<double>(makers) *
                         static_cast<double>(std::max<std::size_t>(1, section.yarns.size()));
    const measure::Chance one{units::Ratio(std::pow(confidence.value.value(), 1.0 / parts))};
    const double deviations = measure::deviations_for(one).value();
    const need::MakeNeed make = need::need_to_plan(project, size);
    std::vector<ClassYarn> out;
    for (const YarnLine& yarn : section.yarns) {
        ClassYarn line;
        line.role = yarn.role;
        line.name = yarn.name;
        line.colour = yarn.colour;
        line.put_up = put_up.length ? put_up : yarn.put_up;
        line.one_lot = yarn.one_lot;
        line.counted = yarn.basis == Basis::whole_skeins;
        line.middle = yarn.model.at(size);
        units::Ratio spread = yarn.spread.at(size);
        if (!yarn.testers.taken.empty()) {
            line.middle *= yarn.testers.middle.value();
            const auto n = static_cast<double>(yarn.testers.taken.size());
            spread = yarn.testers.scatter * std::sqrt(1.0 + 1.0 / n);
        }
        line.each = line.middle * std::exp(deviations * spread.value());
        const auto need =
            std::find_if(make.roles.begin(), make.roles.end(),
                         [&](const need::RoleNeed& of) { return of.role == yarn.role; });
        std::optional<Rows> rows;
        if (need != make.roles.end()) rows.emplace(Rows{project, make, *need});
        line.skeins_each =
            skeins_for(line.each, line.put_up, project.tail, false, rows ? &*rows : nullptr);
        if (line.skeins_each) line.skeins_all = *line.skeins_each * makers;
        out.push_back(std::move(line));
    }
    return out;
}

}  // namespace skeinfall::materials

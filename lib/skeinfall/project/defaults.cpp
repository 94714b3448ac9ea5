#include "skeinfall/project/defaults.hpp"

#include <algorithm>

namespace skeinfall::project {

void add_usual_rates(Project& project, const std::vector<UsualRate>& rates) {
    for (Role& role : project.roles) {
        const auto of_role = [&](const auto& told) { return told.role == role.id; };
        const bool known =
            role.rate || role.area_rate || role.states_total() ||
            std::any_of(project.swatches.begin(), project.swatches.end(), of_role) ||
            std::any_of(project.earlier_makes.begin(), project.earlier_makes.end(), of_role);
        if (known || !role.weight) continue;
        for (const UsualRate& usual : rates)
            if (usual.craft == project.craft && usual.weight.number == role.weight->number)
                role.rate = usual.rate;
    }
}

}  // namespace skeinfall::project

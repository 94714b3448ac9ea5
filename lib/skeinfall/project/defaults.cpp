#include "skeinfall/project/defaults.hpp"

#include <algorithm>

namespace skeinfall::project {

void add_usual_rates(Project& project, const std::vector<UsualRate>& rates) {
    for (Role& role : project.roles) {
        const bool known =
            role.rate || role.area_rate || role.total_length.stated() || role.total_mass.stated() ||
            std::any_of(project.swatches.begin(), project.swatches.end(),
                        [&](const Swatch& swatch) { return swatch.role == role.id; });
        if (known || !role.weight) continue;
        for (const UsualRate& usual : rates)
            if (usual.craft == project.craft && usual.weight.number == role.weight->number)
                role.rate = usual.rate;
    }
}

}  // namespace skeinfall::project

#include "skeinfall/need/sizes.hpp"

#include <algorithm>

namespace skeinfall::need {
namespace {

using units::Length;

std::string part_name(const project::Project& project, const Step& step) {
    if (!step.name.empty() || project.pieces.empty()) return step.name;
    return project.pieces[step.piece].name;
}

/// Adds to the part of that name in a size.
void add(std::vector<PartOfSizes>& parts, const std::string& name, std::size_t size,
         std::size_t sizes, Length yarn) {
    auto part = std::find_if(parts.begin(), parts.end(),
                             [&](const PartOfSizes& one) { return one.name == name; });
    if (part == parts.end())
        part = parts.insert(parts.end(), {name, std::vector<Length>(sizes), false});
    part->yarn[size] += yarn;
}

const RoleNeed* need_for(const MakeNeed& make, const std::string& role) {
    const auto found = std::find_if(make.roles.begin(), make.roles.end(),
                                    [&](const RoleNeed& need) { return need.role == role; });
    return found == make.roles.end() ? nullptr : &*found;
}

bool same_in_all(const std::vector<Length>& yarn) {
    const auto [least, most] = std::minmax_element(yarn.begin(), yarn.end());
    constexpr double noise = 1e-9;
    return *most - *least <= noise * *most;
}

std::vector<Length> without_noise(const std::vector<measure::Estimate<Length>>& need) {
    constexpr double noise = 0.01;
    std::vector<Length> out;
    for (const auto& one : need) {
        const bool hardly_less = !out.empty() && out.back() > one.centre &&
                                 out.back() - one.centre <= noise * out.back();
        out.push_back(hardly_less ? out.back() : one.centre);
    }
    return out;
}

RoleOfSizes role_of(const project::Project& project, const std::vector<MakeNeed>& sizes,
                    const std::string& role) {
    RoleOfSizes out;
    out.role = role;
    for (std::size_t size = 0; size < sizes.size(); ++size) {
        for (const Step& step : sizes[size].steps)
            if (step.role == role)
                add(out.parts, part_name(project, step), size, sizes.size(), step.yarn);
        const RoleNeed* need = need_for(sizes[size], role);
        out.need.push_back(need == nullptr ? measure::Estimate<Length>{} : need->length);
        if (need == nullptr) continue;
        for (const Part& part : need->parts)
            if (part.purpose == Purpose::tails)
                add(out.parts, std::string(name_of(part.purpose)), size, sizes.size(), part.yarn);
    }
    out.fixed.resize(sizes.size());
    out.scaling.resize(sizes.size());
    for (PartOfSizes& part : out.parts) {
        part.fixed = same_in_all(part.yarn);
        std::vector<Length>& sum = part.fixed ? out.fixed : out.scaling;
        for (std::size_t size = 0; size < sizes.size(); ++size) sum[size] += part.yarn[size];
    }
    // In a grid a size follows the one before it only within one width.
    const bool by_width = project.grid && !project.grid->widths.empty();
    const std::size_t run =
        by_width ? std::max<std::size_t>(1, project.grid->lengths.size()) : sizes.size();
    for (std::size_t first = 0; first < sizes.size(); first += run) {
        const auto begin = out.need.begin() + static_cast<std::ptrdiff_t>(first);
        const std::vector<Length> printed =
            without_noise({begin, begin + static_cast<std::ptrdiff_t>(run)});
        for (OutOfLine one : out_of_line(printed)) {
            one.size += first;
            out.out_of_line.push_back(one);
        }
        out.printed.insert(out.printed.end(), printed.begin(), printed.end());
    }
    return out;
}

}  // namespace

SizesNeed need_of_sizes(const project::Project& project) {
    SizesNeed out;
    for (std::size_t size = 0; size < project.size_count(); ++size)
        out.sizes.push_back(need_of(project, size));
    for (const project::Role& role : project.roles)
        if (std::any_of(out.sizes.begin(), out.sizes.end(),
                        [&](const MakeNeed& make) { return need_for(make, role.id) != nullptr; }))
            out.roles.push_back(role_of(project, out.sizes, role.id));
    return out;
}

}  // namespace skeinfall::need

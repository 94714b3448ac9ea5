#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::fit {
namespace {

using project::PerSize;
using project::Piece;
using project::Project;
using project::Role;

/// What the need of a role would be at so much a stitch: apart + per_stitch x rate.
struct Linear {
    double apart = 0.0;
    double per_stitch = 0.0;
};
Linear need_by_rate(Project project, const std::string& role, std::size_t size) {
    std::erase_if(project.swatches, [&](const auto& one) { return one.role == role; });
    std::erase_if(project.earlier_makes, [&](const auto& one) { return one.role == role; });
    // Without a tool others' makes say nothing beside a rate: they would bend the line.
    project.gauge.hook.reset();
    project.gauge.needle.reset();
    for (Piece& piece : project.pieces)
        if (piece.gauge) piece.gauge->hook = piece.gauge->needle = std::nullopt;
    const auto length_at = [&](double rate) {
        for (Role& one : project.roles)
            if (one.id == role) {
                one.total_length = {};
                one.total_mass = {};
                one.area_rate = std::nullopt;
                one.rate = units::YarnPerStitch::from_value(rate);
            }
        const need::MakeNeed make = need::need_of(project, size);
        for (const need::RoleNeed& one : make.roles)
            if (one.role == role) return one.length.centre.value();
        return 0.0;
    };
    const double one = length_at(0.01);
    const double two = length_at(0.02);
    return {2.0 * one - two, (two - one) / 0.01};
}

template <class Q>
void scale(PerSize<Q>& total, std::size_t size, std::size_t sizes, double by) {
    if (total.values.size() == 1) total.values.assign(sizes, total.values.front());
    total.values.at(size) = total.values.at(size) * by;
}

/// A total holds nothing of what lies beyond it; its end stays, as its yarn begins anew all the
/// same.
Project without_beyond(Project project, const std::string& role) {
    for (project::FinishPart& part : project.finish) {
        if (part.role != role || !part.beyond_total) continue;
        project::FinishPart none;
        none.kind = project::PartKind::other;
        none.name = part.name;
        none.role = role;
        none.yarn = PerSize<units::Length>(units::Length{});
        part = none;
    }
    return project;
}

}  // namespace

std::vector<ChangedTotal> follow_totals(const Project& whole, Project& after, std::size_t size) {
    std::vector<ChangedTotal> out;
    for (Role& role : after.roles) {
        const bool by_length = role.total_length.stated();
        if (!by_length && !(role.total_mass.stated() && role.grist)) continue;
        const Project before = without_beyond(whole, role.id);
        const Linear was = need_by_rate(before, role.id, size);
        const Linear now = need_by_rate(without_beyond(after, role.id), role.id, size);
        if (was.per_stitch <= 0.0) continue;
        double total = by_length
                           ? role.total_length.at(size).value()
                           : units::Length(role.total_mass.at(size) * role.grist->value).value();
        double more = 1.0;
        if (role.total_for) {
            // Rows beyond those it is for are in the need already.
            for (const need::RoleNeed& need : need::need_of(before, size).roles)
                if (need.role == role.id) more = need.length.centre.value() / total;
            total *= more;
            role.total_for.reset();
        }
        const double rate = std::max(0.0, (total - was.apart) / was.per_stitch);
        const double by =
            more * (now.apart + now.per_stitch * rate) / (was.apart + was.per_stitch * rate);
        if (std::abs(by - 1.0) < rounding_noise) continue;
        const std::size_t sizes = before.size_count();
        if (by_length)
            scale(role.total_length, size, sizes, by);
        else
            scale(role.total_mass, size, sizes, by);
        if (role.total_least.stated()) scale(role.total_least, size, sizes, by);
        if (role.total_as_mass.stated()) scale(role.total_as_mass, size, sizes, by);
        role.printed_twice.clear();
        out.push_back({role.id, role.total_length, role.total_mass});
    }
    return out;
}

}  // namespace skeinfall::fit

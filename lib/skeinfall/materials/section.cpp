#include "skeinfall/materials/section.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/yarn/put_up.hpp"

namespace skeinfall::materials {
namespace {

using project::Recipient;

constexpr double rounding_noise = 1e-9;

YarnLine line_for(const project::Role& role) {
    YarnLine line;
    line.role = role.id;
    line.name = role.name;
    line.colour = role.colour;
    line.weight = role.weight;
    line.fibre = role.fibre;
    line.one_lot = role.one_lot;
    line.held_with = role.held_with;
    if (role.grist) {
        line.grist = role.grist->value;
        line.put_up = yarn::put_up_in(role.grist->text);
    }
    return line;
}

Basis stated_basis(const project::Role& role) {
    return role.total_basis == project::TotalBasis::whole_skeins ? Basis::whole_skeins
                                                                 : Basis::stated_total;
}

Basis basis_of(const need::RoleNeed& need, const project::Role& role) {
    switch (need.source) {
        case need::Source::swatch:
            return Basis::swatch;
        case need::Source::stated_rate:
            return Basis::stated_rate;
        case need::Source::stated_total:
            return stated_basis(role);
        case need::Source::earlier_make:
            return Basis::stated_total;
        case need::Source::measured_by_others:
        case need::Source::loop_model:
        case need::Source::makes_like_it:
            break;
    }
    return Basis::estimate;
}

units::Length own_total(const project::Role& role, std::size_t size) {
    if (role.total_length.stated()) return role.total_length.at(size);
    return role.total_mass.at(size) * role.grist->value;
}

void add_total(YarnLine& line, const project::Project& project) {
    using project::TotalsFrom;
    const project::Role& role = *project.role(line.role);
    line.testers = summary_of(project, role, line.model);
    const bool stated = role.total_length.stated() || role.total_mass.stated();
    const bool by_testers =
        project.totals_from.value_or(TotalsFrom::testers) == TotalsFrom::testers &&
        !line.testers.taken.empty();
    const bool own = project.totals_from == TotalsFrom::own_make && stated;
    if (by_testers) line.basis = Basis::testers;
    if (own) line.basis = stated_basis(role);
    for (std::size_t size = 0; size < line.model.size(); ++size) {
        units::Length before = line.model[size];
        if (by_testers) before *= line.testers.bound.value();
        if (own) before = own_total(role, size);
        line.total.push_back(before * (1.0 + project.margin.value()));
    }
}

/// Skeins that were counted gave up their tails already.
void add_skeins(YarnLine& line, units::Length tail) {
    if (!line.put_up.length) return;
    const units::Length tails = line.basis == Basis::whole_skeins ? units::Length{} : 2.0 * tail;
    const units::Length usable = line.put_up.length->value - tails;
    if (usable <= units::Length{}) return;
    for (const units::Length& total : line.total)
        line.skeins.push_back(std::lround(std::ceil(total / usable - rounding_noise)));
}

}  // namespace

std::vector<CautionLine> cautions_for(const project::Project& project) {
    std::vector<CautionLine> out;
    std::vector<std::string> melting;
    std::vector<std::string> avoided;
    const auto add_once = [](std::vector<std::string>& to, const std::string& fibre) {
        if (std::find(to.begin(), to.end(), fibre) == to.end()) to.push_back(fibre);
    };
    for (const project::Role& role : project.roles) {
        for (const std::string& fibre : role.avoid) add_once(avoided, fibre);
        for (const std::string& fibre : yarn::melting_fibres(role.fibre)) add_once(melting, fibre);
    }
    const auto add = [&](Caution caution) { out.push_back({caution, {}}); };
    switch (project.made_for) {
        case Recipient::kitchen_heat:
            if (!melting.empty()) out.push_back({Caution::melts, melting});
            add(Caution::known_content);
            add(Caution::heat_passes);
            break;
        case Recipient::infant:
            add(Caution::infant_cords);
            add(Caution::infant_sleep);
            add(Caution::infant_skin);
            break;
        case Recipient::child:
            add(Caution::child_cords);
            break;
        case Recipient::adult:
            break;
    }
    if (!avoided.empty()) {
        out.push_back({Caution::avoided, avoided});
        if (project.made_for != Recipient::kitchen_heat) add(Caution::allergy);
    }
    return out;
}

Section section_of(const project::Project& project) {
    Section section;
    section.title = project.title;
    section.craft = project.craft;
    section.terms = project.terms;
    section.skill = project.skill;
    section.sizes = project.sizes;
    section.margin = project.margin;
    section.gauge = project.gauge;
    section.notions = project.notions;
    section.care = project.care;
    section.cautions = cautions_for(project);

    for (const project::Piece& piece : project.pieces) {
        FinishedLine line;
        line.piece = piece.name;
        line.centre = piece.shape != nullptr && piece.shape->from_centre;
        line.round = piece.worked == project::Worked::round;
        for (std::size_t size = 0; size < project.size_count(); ++size) {
            line.count.push_back(piece.count.stated() ? piece.count.at(size) : 1);
            line.size.push_back(project::finished_size(project, piece, size));
        }
        section.finished.push_back(std::move(line));
    }
    for (const project::Role& role : project.roles) section.yarns.push_back(line_for(role));
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        const need::MakeNeed make = need::need_of(project, size);
        for (YarnLine& line : section.yarns) {
            units::Length model{};
            for (const need::RoleNeed& need : make.roles) {
                if (need.role != line.role) continue;
                model = need.length.centre;
                line.how = need.how;
                line.basis = basis_of(need, *project.role(line.role));
            }
            line.model.push_back(model);
        }
    }
    // A yarn that is described but never used is no material.
    std::erase_if(section.yarns, [](const YarnLine& line) { return line.how.empty(); });
    for (YarnLine& line : section.yarns) {
        add_total(line, project);
        add_skeins(line, project.tail);
    }
    return section;
}

}  // namespace skeinfall::materials

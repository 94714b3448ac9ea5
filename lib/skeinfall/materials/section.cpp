#include "skeinfall/materials/section.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

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
    if (role.grist) {
        line.grist = role.grist->value;
        line.put_up = yarn::put_up_in(role.grist->text);
    }
    return line;
}

void add_skeins(YarnLine& line, units::Length tail) {
    if (!line.put_up.length) return;
    const units::Length usable = line.put_up.length->value - 2.0 * tail;
    if (usable <= units::Length{}) return;
    for (const units::Length& total : line.total)
        line.skeins.push_back(std::lround(std::ceil(total / usable - rounding_noise)));
}

}  // namespace

std::vector<std::string> cautions_for(const project::Project& project) {
    std::vector<std::string> out;
    std::vector<std::string> melting;
    bool unknown = false;
    for (const project::Role& role : project.roles) {
        unknown = unknown || !role.fibre.known();
        for (const std::string& fibre : yarn::melting_fibres(role.fibre))
            if (std::find(melting.begin(), melting.end(), fibre) == melting.end())
                melting.push_back(fibre);
    }
    switch (project.made_for) {
        case Recipient::kitchen_heat:
            if (!melting.empty())
                out.push_back("Do not use this yarn near heat: " + base::join(melting, ", ") +
                              " softens or melts on hot metal and can burn the skin. Choose "
                              "cotton, linen or wool.");
            if (unknown)
                out.emplace_back(
                    "Use only yarn of known content: cotton, linen or wool, none "
                    "that softens or melts in heat.");
            out.emplace_back(
                "Work it thick or double; a single open layer lets heat through. It "
                "is no protective equipment: test it warm, not hot, and follow the "
                "local rules on such equipment.");
            break;
        case Recipient::infant:
            out.emplace_back(
                "No cords, ties, loops or long fringe: they can tighten round a neck "
                "or a finger. Keep holes smaller than a fingertip and weave every "
                "end in securely.");
            out.emplace_back(
                "Nothing loose in a cot: follow the safe-sleep advice and the rules "
                "on infants' goods where you live, and ask a midwife or doctor.");
            out.emplace_back(
                "Fibres can irritate young skin: wash before use and watch for a "
                "reaction.");
            break;
        case Recipient::child:
            out.emplace_back(
                "No cords or ties at head and neck; sew small parts on so that they "
                "cannot come off. Follow the rules on children's clothing where you "
                "live, on flammability too.");
            break;
        case Recipient::adult:
            break;
    }
    bool avoids = false;
    for (const project::Role& role : project.roles) avoids = avoids || !role.avoid.empty();
    if (avoids)
        out.emplace_back(
            "Made for someone who must avoid certain fibres: read the whole content "
            "on every label, and leave unlabelled yarn out. For an allergy a doctor "
            "decides.");
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
            units::Length total{};
            for (const need::RoleNeed& need : make.roles) {
                if (need.role != line.role) continue;
                total = need.length.centre * (1.0 + project.margin.value());
                line.how = need.how;
            }
            line.total.push_back(total);
        }
    }
    // A yarn that is described but never used is no material.
    std::erase_if(section.yarns, [](const YarnLine& line) { return line.how.empty(); });
    for (YarnLine& line : section.yarns) add_skeins(line, project.tail);
    return section;
}

}  // namespace skeinfall::materials

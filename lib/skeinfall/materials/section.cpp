#include "skeinfall/materials/section.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/chain/plan.hpp"
#include "skeinfall/materials/adjust.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/plausible.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/yarn/put_up.hpp"

namespace skeinfall::materials {
namespace {

using project::Recipient;

constexpr double rounding_noise = 1e-9;

YarnLine line_for(const project::Project& project, const project::Role& role) {
    YarnLine line;
    line.strands = need::strands_of(project, role);
    line.role = role.id;
    line.name = role.name;
    line.colour = role.colour;
    line.weight = role.weight;
    line.fibre = role.fibre;
    line.one_lot = role.one_lot;
    line.held_with = role.held_with;
    line.runs = role.colours;
    line.begins_with = role.pieces_begin_with;
    line.avoid = role.avoid;
    if (role.grist) {
        line.grist = role.grist->value;
        line.put_up = yarn::put_up_in(role.grist->text);
    }
    return line;
}

Basis counted_or(Basis basis, const project::Role& role) {
    return role.total_basis == project::TotalBasis::whole_skeins ? Basis::whole_skeins : basis;
}

Basis basis_of(const need::RoleNeed& need, const project::Role& role) {
    switch (need.source) {
        case need::Source::swatch:
            return Basis::swatch;
        case need::Source::stated_rate:
            return Basis::stated_rate;
        case need::Source::stated_total:
            return counted_or(Basis::stated_total, role);
        case need::Source::earlier_make:
            return Basis::own_make;
        case need::Source::measured_by_others:
        case need::Source::loop_model:
        case need::Source::makes_like_it:
        case need::Source::testers:
            break;
    }
    return Basis::estimate;
}

units::Length own_total(const project::Role& role, std::size_t size) {
    if (role.total_length.stated()) return role.total_length.at(size);
    return role.total_mass.at(size) * role.grist->value;
}

/// What most makers stay within of a figure that scatters so: the logarithm taken as normal.
units::Ratio bound_for(units::Ratio share, units::Ratio spread) {
    return units::Ratio(std::exp(measure::deviations_for({share}).value() * spread.value()));
}

void add_total(YarnLine& line, const project::Project& project) {
    using project::TotalsFrom;
    const project::Role& role = *project.role(line.role);
    const auto share = project.totals_for.of;
    line.testers = need::summary_of(project, role, line.model,
                                    share ? measure::Chance{*share} : need::usual_share);
    const bool stated = role.states_total();
    const bool by_testers =
        project.totals_from.value_or(TotalsFrom::testers) == TotalsFrom::testers &&
        !line.testers.taken.empty();
    const bool own = project.totals_from == TotalsFrom::own_make && stated;
    if (by_testers) line.basis = Basis::testers;
    if (own) line.basis = counted_or(Basis::own_make, role);
    line.for_most = share && line.basis != Basis::whole_skeins;
    for (std::size_t size = 0; size < line.model.size(); ++size) {
        units::Length total = line.model[size];
        if (own) total = own_total(role, size);
        if (by_testers)
            total *= (line.for_most ? line.testers.bound : line.testers.middle).value();
        else if (line.for_most)
            total *= bound_for(*share, own ? need::between_makers : line.spread[size]).value();
        if (!line.for_most) total *= 1.0 + project.margin.value();
        line.total.push_back(total);
    }
}

void add_skeins(YarnLine& line, const project::Project& project,
                const std::vector<need::MakeNeed>& makes) {
    for (std::size_t size = 0; size < line.total.size(); ++size) {
        const need::MakeNeed& make = makes[size];
        const auto need =
            std::find_if(make.roles.begin(), make.roles.end(),
                         [&](const need::RoleNeed& one) { return one.role == line.role; });
        std::optional<Rows> rows;
        if (need != make.roles.end()) rows.emplace(Rows{project, make, *need});
        const auto count = skeins_for(line.total[size], line.put_up, project.tail,
                                      line.basis == Basis::whole_skeins, rows ? &*rows : nullptr);
        if (!count) return;
        line.skeins.push_back(*count);
        line.skeins_hold.push_back(static_cast<double>(*count) * line.put_up.length->value);
    }
}

/// A swatch or a model tells one pair of hands; a figure of other hands holds their scatter
/// already.
units::Ratio spread_of_makers(const need::RoleNeed& need) {
    const double told = need::combined(need.causes).value();
    const bool of_other_hands = need.source == need::Source::stated_rate ||
                                need.source == need::Source::stated_total ||
                                need.source == need::Source::measured_by_others;
    return units::Ratio(of_other_hands ? std::max(told, need::between_makers.value())
                                       : std::hypot(told, need::between_makers.value()));
}

/// All copies of a piece as they are joined, where they are laid edge to edge in rows that are
/// full.
std::optional<FinishedLine> joined_line(const project::Project& project,
                                        const project::Piece& piece) {
    const auto joining = project::joining_of(project, piece);
    const bool centre = piece.shape != nullptr && piece.shape->from_centre;
    if (!joining || (piece.worked == project::Worked::round && !centre) ||
        !project::laid_together(piece, {}, 1, 1))
        return std::nullopt;
    FinishedLine out;
    out.piece = piece.name;
    out.joined = true;
    const auto at = static_cast<std::size_t>(&piece - project.pieces.data());
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        const project::LaidMotifs laid =
            project::laid_motifs(project, project.finish[*joining], size);
        if (laid.columns < 1 || laid.count < 2 || laid.count % laid.columns != 0)
            return std::nullopt;
        const auto inside = project::laid_size(project, at, size);
        if (!inside) return std::nullopt;
        out.count.push_back(1);
        out.size.push_back(project::laid_with_borders(project, at, size).value_or(*inside));
    }
    return out;
}

}  // namespace

units::Length model_of(const project::Project& project, const need::MakeNeed& make,
                       const need::RoleNeed& worst) {
    const project::Role& role = *project.role(worst.role);
    if (basis_of(worst, role) != Basis::whole_skeins) return worst.length.centre;
    for (const need::RoleNeed& need : need::need_of(project, make.size).roles) {
        if (need.role != worst.role) continue;
        const auto ends = need.stated_between;
        return need.length.centre + (ends ? 0.5 * (ends->most - ends->least) : units::Length{});
    }
    return worst.length.centre;
}

std::optional<std::int64_t> skeins_for(units::Length total, const yarn::Label& put_up,
                                       units::Length tail, bool counted, const Rows* rows) {
    constexpr std::int64_t plan_at_most = 2000;
    if (!put_up.length) return std::nullopt;
    const units::Length usable = put_up.length->value - (counted ? units::Length{} : 2.0 * tail);
    if (usable <= units::Length{}) return std::nullopt;
    const std::int64_t by_sums = std::llround(std::ceil(total / usable - rounding_noise));
    if (counted || rows == nullptr || by_sums < 2) return by_sums;
    if (by_sums > plan_at_most) return std::nullopt;
    need::RoleNeed need = rows->need;
    need.length = {total, units::Length{}};
    const project::Role& role = *rows->project.role(need.role);
    chain::Rules rules =
        chain::rules_of(rows->project, role, rows->make.size, measure::usual_confidence);
    rules.keep_to_slip = false;
    rules.only_chance = true;
    const std::vector<need::Step> steps =
        role.held_with.empty() ? rows->make.steps
                               : chain::steps_beside(need, role.held_with, rows->make.steps);
    // Joined anywhere nothing is lost, and sums are exact.
    if (chain::mean_row(need, steps, rules, &rows->project) <= units::Length{}) return by_sums;
    const auto suffices = [&](std::int64_t count) {
        std::vector<chain::Ball> balls(static_cast<std::size_t>(count));
        for (std::size_t i = 0; i < balls.size(); ++i)
            balls[i] = {std::to_string(i + 1), {put_up.length->value, units::Length{}}};
        return chain::plan_joins(need, steps, balls, rules, &rows->project).finishes;
    };
    // At each join less than a row is lost, so that twice as many suffice where a skein holds one.
    std::int64_t too_few = by_sums - 1;
    std::int64_t enough = 2 * by_sums + 1;
    if (!suffices(enough)) return std::nullopt;
    while (enough - too_few > 1) {
        const std::int64_t middle = too_few + (enough - too_few) / 2;
        (suffices(middle) ? enough : too_few) = middle;
    }
    return enough;
}

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

namespace {

/// What is worked in rows beside the rounds is a strap or a flap.
bool worked_in_rounds(const project::Project& project) {
    double rounds = 0.0;
    double all = 0.0;
    for (const project::Row& row : project::row_sequence(project, 0)) {
        all += row.stitches.value();
        if (project.pieces[row.piece].worked == project::Worked::round)
            rounds += row.stitches.value();
    }
    constexpr double nearly_all = 0.8;
    return all > 0.0 && rounds >= nearly_all * all;
}

}  // namespace

Section section_of(const project::Project& designers) {
    // It is for other hands than the one that finished makes taught.
    project::Project project = designers;
    project.hand.reset();
    Section section;
    section.title = project.title;
    section.craft = project.craft;
    section.terms = project.terms;
    section.skill = project.skill;
    section.sizes = project.sizes;
    section.grid = project.grid;
    section.margin = project.margin;
    section.within = project.totals_for.of;
    section.in_rounds = worked_in_rounds(project);
    section.gauge = project.pattern_gauge.value_or(project.gauge);
    if (project.pattern_gauge) section.own_gauge = project.gauge;
    section.notions = project.notions;
    section.care = project.care;
    section.cautions = cautions_for(project);

    for (const project::Piece& piece : project.pieces) {
        FinishedLine line;
        line.piece = piece.name;
        line.centre = project::lies_flat(project, piece, 0);
        line.round = piece.worked == project::Worked::round;
        const auto at = static_cast<std::size_t>(&piece - project.pieces.data());
        for (std::size_t size = 0; size < project.size_count(); ++size) {
            line.count.push_back(piece.count.stated() ? piece.count.at(size) : 1);
            line.size.push_back(project::with_borders(project, at, size)
                                    .value_or(project::finished_size(project, piece, size)));
        }
        section.finished.push_back(std::move(line));
        if (auto all = joined_line(project, piece)) section.finished.push_back(std::move(*all));
    }
    for (const project::Role& role : project.roles)
        section.yarns.push_back(line_for(project, role));
    std::vector<need::MakeNeed> makes;
    // Returns are judged against what everything else says.
    project::Project model_only = project;
    model_only.testers.clear();
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        makes.push_back(need::need_to_plan(model_only, size));
        const need::MakeNeed& make = makes.back();
        for (YarnLine& line : section.yarns) {
            units::Length model{};
            units::Ratio spread = need::between_makers;
            for (const need::RoleNeed& need : make.roles) {
                if (need.role != line.role) continue;
                model = model_of(model_only, make, need);
                spread = spread_of_makers(need);
                line.how = need.how;
                line.basis = basis_of(need, *project.role(line.role));
            }
            line.model.push_back(model);
            line.spread.push_back(spread);
        }
    }
    // A yarn that is described but never used is no material.
    std::erase_if(section.yarns, [](const YarnLine& line) { return line.how.empty(); });
    for (YarnLine& line : section.yarns) {
        add_total(line, project);
        add_skeins(line, project, makes);
    }
    add_adjustment(section, project);
    return section;
}

}  // namespace skeinfall::materials

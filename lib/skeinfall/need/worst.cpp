#include "skeinfall/need/worst.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/denied_sizes.hpp"
#include "skeinfall/need/detail/evidence.hpp"
#include "skeinfall/need/detail/gauge_check.hpp"
#include "skeinfall/need/plausible.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/reckoning.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

/// What is stitches goes by the rate; seams, fringes and ends do not.
bool goes_by_rate(Purpose purpose) {
    switch (purpose) {
        case Purpose::body:
        case Purpose::foundation:
        case Purpose::bind_off:
        case Purpose::border:
        case Purpose::neckband:
            return true;
        default:
            return false;
    }
}

bool always(Purpose /*purpose*/) {
    return true;
}

/// Times the yarn of a role's steps; returns how much more it takes then.
Length take_times(MakeNeed& make, RoleNeed& need, double times, bool (*which)(Purpose)) {
    Length more{};
    for (Step& step : make.steps) {
        if (step.role != need.role || !which(step.purpose)) continue;
        more += (times - 1.0) * step.yarn;
        step.yarn = times * step.yarn;
    }
    for (Part& part : need.parts)
        if (which(part.purpose)) part.yarn = times * part.yarn;
    return more;
}

/// What told it tells it no more: neither weighed in this yarn, nor a range that was stated.
void forget_what_told(RoleNeed& need, Cause instead) {
    need.causes.push_back(std::move(instead));
    need.by_mass = false;
    need.shared = Ratio(0.0);
    need.may_be_less = Length{};
    need.stated_between.reset();
}

Cause slip_of_a_rate(Ratio spread) {
    return {"a figure that no fabric has, so a usual one is used", spread,
            "Check the figure this rests on, and its unit."};
}

void lengthen(RoleNeed& need, Length centre) {
    need.length.centre = centre;
    need.length.spread = centre * combined(need.causes);
}

/// Adds a cause once, so that a second call changes nothing.
void widen(RoleNeed& need, Cause cause) {
    for (const Cause& one : need.causes)
        if (one.name == cause.name) return;
    need.causes.push_back(std::move(cause));
    need.length.spread =
        need.length.centre * std::hypot(combined(need.causes).value(), need.shared.value());
}

/// Takes what is stitches as so much more; the times by which the role's yarn grows in all.
double take_larger(MakeNeed& make, RoleNeed& need, double times, Cause cause) {
    const Length before = need.length.centre;
    const Length more = take_times(make, need, times, &goes_by_rate);
    forget_what_told(need, std::move(cause));
    lengthen(need, before + more);
    return need.length.centre / before;
}

/// What a role held together with another takes over from it.
struct Followed {
    double times = 1.0;
    std::optional<Cause> doubt;  ///< widens what is not longer
};

Cause thin_rows(Ratio doubt) {
    return {"less yarn a row than fabrics take", doubt,
            "Check the figure this rests on, and its unit; work a second swatch and weigh it."};
}

/// Rows that no fabric has, or hardly any. Those of far too little yarn are taken at what is usual;
/// of too little they are doubted; of too much they are the worse reading as they stand.
void hold_against_fabric(MakeNeed& make, RoleNeed& need, const project::Project& project,
                         std::map<std::string, Followed>& followed) {
    PlausibleYarn plausible = plausible_yarn(project.craft);
    YarnOverWidth& over = need.plain_rows;
    // Of two that contradict each other the larger was taken.
    if (!(over.times.value() > 0.0) || !need.contradictions.empty()) return;
    if (!over.all_known) plausible.most = plausible.most * tallest_unknown;
    const bool little = plausible.too_little(over.times);
    if (little || plausible.too_much(over.times))
        need.contradictions.emplace_back(
            RowsAgainstFabric{over.times, plausible.least, plausible.most});
    const PlausibleYarn usual = plausible_yarn(project.craft);
    if (little && !(over.taken > over.times)) {
        over.taken = usual.usual();
        followed[need.role].times =
            take_larger(make, need, over.taken / over.times, slip_of_a_rate(usual.spread()));
        return;
    }
    const Ratio doubt = usual.doubt_of(over.times, rests_on_measures(need));
    if (little || !(doubt > Ratio(0.0))) return;
    followed[need.role].doubt = thin_rows(doubt);
    widen(need, thin_rows(doubt));
}

/// Evidence that lies farther apart than its noise. Nobody knows which is wrong, so the larger
/// counts; very far apart one of the two is a slip.
void hold_evidence_together(MakeNeed& make, RoleNeed& need,
                            std::map<std::string, Followed>& followed) {
    const auto [least, most] = discordant(need);
    if (least == nullptr) return;
    if (!(most->yarn < far_apart.value() * least->yarn))
        need.contradictions.emplace_back(
            TwoEvidences{least->name, least->yarn, most->name, most->yarn});
    Length stitches{};
    for (const Part& part : need.parts)
        if (goes_by_rate(part.purpose)) stitches += part.yarn;
    const Length more = most->yarn - need.length.centre;
    if (!(stitches > Length{}) || more <= 1e-9 * need.length.centre) return;
    const double times = 1.0 + more / stitches;
    followed[need.role].times =
        take_larger(make, need, times,
                    {"figures that contradict each other, the larger taken", most->spread,
                     "Check which of the two figures is meant."});
}

/// Stitches of all pieces in a size.
double stitches_of(const project::Project& project, std::size_t size) {
    double sum = 0.0;
    for (const project::Piece& piece : project.pieces) {
        double one = 0.0;
        for (const std::int64_t stitches : project::row_widths(project, piece, size))
            one += static_cast<double>(stitches);
        sum += one * static_cast<double>(piece.count.stated() ? piece.count.at(size) : 1);
    }
    return sum;
}

/// A total is not smaller than that of a size with fewer stitches: one of the two is a slip.
void hold_totals_of_sizes(MakeNeed& make, RoleNeed& need, const project::Project& project,
                          std::map<std::string, Followed>& followed) {
    const project::Role& role = *project.role(need.role);
    const std::size_t lengths = role.total_length.values.size();
    const std::size_t masses = role.total_mass.values.size();
    if (lengths < 2 && masses < 2) return;
    const auto ratio = [&](std::size_t size) {
        return lengths > 1 ? role.total_length.values[size] / role.total_length.values[make.size]
                           : role.total_mass.values[size] / role.total_mass.values[make.size];
    };
    double most = 1.0;
    double in_stitches = 1.0;
    std::size_t at = make.size;
    double stitches = 0.0;
    for (std::size_t size = 0; size < std::max(lengths, masses); ++size) {
        const double falls = units::Ratio(ratio(size)).value();
        if (size == make.size || falls <= 1.0) continue;
        if (stitches == 0.0) stitches = stitches_of(project, make.size);
        const double fewer = stitches_of(project, size);
        if (fewer > stitches || stitches == 0.0) continue;
        // Were the larger total right, this size would take more than it by its stitches.
        const double grown = fewer > 0.0 ? stitches / fewer : 1.0;
        if (falls * grown <= most) continue;
        most = falls * grown;
        in_stitches = grown;
        at = size;
    }
    if (at == make.size) return;
    const Length now = need.length.centre;
    const std::string grown =
        in_stitches > 1.0 ? ", for the stitches of size " + project.sizes[make.size] + "," : "";
    need.contradictions.emplace_back(
        TwoEvidences{"the total of size " + project.sizes[make.size], now,
                     "that of the smaller size " + project.sizes[at] + grown, most * now});
    followed[need.role].times =
        take_larger(make, need, most,
                    {"totals of sizes that contradict each other", usual::stated_total,
                     "Check the totals of both sizes."});
}

bool works(const project::Piece& piece, const std::string& role) {
    return piece.role == role ||
           std::any_of(piece.stripes.begin(), piece.stripes.end(),
                       [&](const project::Stripe& stripe) { return stripe.role == role; });
}

/// The need has the larger of a stated size and what its counts come to.
void hold_sizes_together(MakeNeed& make, const project::Project& project) {
    for (const DeniedSize& denied : denied_sizes(project, make.size)) {
        if (denied.apart() < far_apart) continue;
        const project::Piece& piece = project.pieces[denied.piece];
        for (RoleNeed& need : make.roles)
            if (works(piece, need.role))
                need.contradictions.emplace_back(
                    SizeAgainstCounts{piece.name, denied.length, denied.by_counts, denied.stated});
    }
}

}  // namespace

bool rests_on_measures(const RoleNeed& need) {
    double measured = 0.0;
    double all = 0.0;
    for (const Evidence& one : need.evidence) {
        const bool own = one.source == Source::swatch || one.source == Source::earlier_make;
        measured += own ? one.weight.value() : 0.0;
        all += one.weight.value();
    }
    return measured > 0.5 * all;
}

MakeNeed at_worst(MakeNeed make, const project::Project& project) {
    std::map<std::string, Followed> followed;
    for (RoleNeed& need : make.roles) {
        need.contradictions.clear();
        hold_evidence_together(make, need, followed);
        hold_totals_of_sizes(make, need, project, followed);
        hold_against_fabric(make, need, project, followed);
    }
    hold_sizes_together(make, project);
    detail::hold_gauge(make, project);
    for (RoleNeed& need : make.roles) {
        const std::string& other = project.role(need.role)->held_with;
        const auto of = std::find_if(make.roles.begin(), make.roles.end(),
                                     [&](const RoleNeed& one) { return one.role == other; });
        if (of == make.roles.end()) continue;
        if (need.contradictions.empty()) need.contradictions = of->contradictions;
        const auto partner = followed.find(other);
        if (partner == followed.end() || followed.contains(need.role)) continue;
        if (partner->second.doubt) {
            widen(need, *partner->second.doubt);
            continue;
        }
        take_times(make, need, partner->second.times, &always);
        forget_what_told(need, of->causes.back());
        lengthen(need, partner->second.times * need.length.centre);
    }
    return make;
}

MakeNeed need_to_plan(const project::Project& project, std::size_t size) {
    return at_worst(need_of(project, size), project);
}

}  // namespace skeinfall::need

#include "skeinfall/plan/in_work.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/candidates.hpp"
#include "skeinfall/joins/reading_place.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::plan {
namespace {

using units::Length;
using units::Mass;
using units::Ratio;

const need::RoleNeed* find_need(const need::MakeNeed& make, const std::string& role) {
    const auto found = std::find_if(make.roles.begin(), make.roles.end(),
                                    [&](const need::RoleNeed& one) { return one.role == role; });
    return found == make.roles.end() ? nullptr : &*found;
}

/// The role's own steps, those a joins plan has.
joins::JoinPlan plan_of(const project::Project& project, const need::MakeNeed& make,
                        const need::RoleNeed& need, measure::Chance confidence) {
    const project::Role& role = *project.role(need.role);
    return chain::plan_joins(need, chain::course_steps(project, make, need), {},
                             chain::rules_of(project, role, make.size, confidence), &project);
}

measure::ScaleReading scale_of(const stash::WorkReading& reading) {
    measure::ScaleReading out{reading.mass.value, reading.scale.value, {}};
    if (reading.tare) out.tare = reading.tare->value;
    return out;
}

joins::ReadingPlace place_of(const project::Project& project, const joins::JoinPlan& plan,
                             const stash::WorkReading& reading) {
    joins::ReadingPlace place =
        joins::place_of_reading(project, plan.steps, reading.piece, reading.copy, reading.row);
    if (place.steps_done) return place;
    throw base::InputError(base::Problem{
        "the stash has a reading after row " + std::to_string(reading.row) +
            (reading.piece.empty() ? std::string() : " of " + base::shown_inert(reading.piece)) +
            ", which yarn " + plan.role + " does not work in this project",
        {.file = project.file, .line = 0, .column = 0},
        "readings of rows that it works",
        "Take that reading back, or begin its readings afresh."});
}

std::vector<joins::Reading> readings_of(const project::Project& project,
                                        const joins::JoinPlan& plan,
                                        const std::vector<stash::WorkReading>& readings) {
    std::vector<joins::Reading> out;
    out.reserve(readings.size());
    for (const stash::WorkReading& reading : readings)
        out.push_back(
            {*place_of(project, plan, reading).steps_done, reading.skein, scale_of(reading)});
    return out;
}

need::Worked worked_by(const project::Project& project, const joins::JoinPlan& plan,
                       const stash::WorkReading& last, const joins::Progress& progress,
                       measure::Chance confidence) {
    const joins::LeftOpen open = joins::left_open(progress.use, confidence);
    need::Worked out;
    out.role = plan.role;
    out.piece = place_of(project, plan, last).piece;
    out.copy = last.copy;
    out.row = last.row;
    out.use = progress.drift;
    out.rate_spread = open.rate;
    out.row_spread = open.row;
    out.row_yarn = progress.use.row;
    out.skein = last.skein;
    if (progress.odd)
        out.odd = need::WeighingsAgainstRows{progress.odd->used, progress.odd->expected};
    return out;
}

stash::Skein* find(std::vector<stash::Skein>& skeins, const std::string& id) {
    const auto found = std::find_if(skeins.begin(), skeins.end(),
                                    [&](const stash::Skein& one) { return one.id == id; });
    return found == skeins.end() ? nullptr : &*found;
}

/// The last reading is what the skein in hand weighs.
void weigh(stash::Skein& skein, const stash::WorkReading& reading) {
    skein.weighing = measure::Weighing{reading.mass, reading.scale, reading.tare};
    skein.since.reset();
}

/// Mass that the record knows to have gone into the role, and the skeins it knows it of.
struct Told {
    Mass used{};
    std::vector<std::string> skeins;
    Mass whole{};  ///< of one skein
};

/// What skeins weighed by their labels, of those that came whole and from which nothing went but
/// into this project: a reading makes a part of a skein that the work began.
std::map<std::string, Mass> came_whole(const std::vector<stash::Movement>& movements,
                                       const std::string& title) {
    std::map<std::string, Mass> out;
    for (const stash::Movement& movement : movements) {
        using stash::MovementKind;
        if (stash::describes(movement.kind) && movement.described) {
            out.erase(movement.skein);
            if (!movement.described->part && movement.described->yarn.label.mass)
                out[movement.skein] = movement.described->yarn.label.mass->value;
        } else if (stash::takes(movement.kind) && (movement.kind != MovementKind::used_in ||
                                                   !base::same_word(movement.purpose, title))) {
            out.erase(movement.skein);
        }
    }
    return out;
}

Told told_of(const project::Project& project, const std::vector<stash::Skein>& stash,
             const std::vector<stash::WorkReading>& readings, const Record& record,
             const std::string& role) {
    Told out;
    const std::map<std::string, Mass> began = came_whole(record.movements, project.title);
    std::map<std::string, std::pair<Mass, Mass>> of_skein;  // first and last reading
    for (const stash::WorkReading& reading : readings) {
        const Mass net = measure::net_mass(scale_of(reading)).centre;
        const auto [at, fresh] = of_skein.try_emplace(reading.skein, net, net);
        at->second.second = net;
        static_cast<void>(fresh);
    }
    for (const auto& [id, masses] : of_skein) {
        const auto skein = std::find_if(stash.begin(), stash.end(),
                                        [&](const stash::Skein& one) { return one.id == id; });
        // As its label says where it came whole, and as it was first weighed in the work.
        Mass whole = masses.first;
        if (skein != stash.end() && !skein->part && skein->yarn.label.mass)
            whole = std::max(whole, skein->yarn.label.mass->value);
        if (const auto known = began.find(id); known != began.end())
            whole = std::max(whole, known->second);
        out.whole = std::max(out.whole, whole);
        out.used += whole - (id == readings.back().skein ? masses.second : Mass{});
        out.skeins.push_back(id);
    }
    out.used +=
        stash::used_in(record.movements, project.title, project.role(role)->name, out.skeins);
    return out;
}

/// What rows took and nothing tells of.
struct NotTold {
    std::vector<std::string> skeins;  ///< from which they must have been worked
    Mass in_hand{};                   ///< that the skein in hand is counted as lighter
};

/// Skeins of the stash that rows must have been worked from, since nothing else tells what they
/// took: from then on nobody knows what is left of them. Each lost so much at its join. Where the
/// skein in hand could have given it alone, or it is nearer to none of another skein than to all of
/// it, the skein in hand counts as if it had: a heavier reading is never worse than a lighter one.
NotTold take_what_is_not_told(const project::Project& project, std::vector<stash::Skein>& stash,
                              Mass not_told, Mass lost, const Told& told, Mass shown,
                              const std::string& role, const cover::Rules& rules) {
    constexpr double hardly = 0.15;  // of a skein: labels lie, and hands differ from the plan
    NotTold out;
    const bool hand_alone = not_told <= shown;
    std::vector<std::pair<Length, std::string>> longest;
    for (const cover::Candidate& one : cover::candidates_for(
             *project.role(role), 2.0 * rules.tail, stash, project.title, project.made_for)) {
        if (!one.supply ||
            std::find(told.skeins.begin(), told.skeins.end(), one.skein->id) != told.skeins.end())
            continue;
        longest.emplace_back(-one.supply->length, one.skein->id);
    }
    std::sort(longest.begin(), longest.end());
    for (const auto& [length, id] : longest) {
        if (not_told <= hardly * told.whole) break;
        stash::Skein& skein = *find(stash, id);
        const auto grist = yarn::label_grist(skein.yarn.label);
        const Mass held = grist ? -length / grist->centre : told.whole;
        if (hand_alone || (not_told < shown && 2.0 * not_told < held)) {
            out.in_hand = not_told - hardly * told.whole;
            break;
        }
        not_told -= std::max(held - lost, 0.1 * held);
        stash::forget_amount(skein);
        out.skeins.push_back(id);
    }
    return out;
}

/// See RoleProgress.
std::vector<std::string> worked_before(const project::Project& project, const joins::JoinPlan& plan,
                                       const std::vector<stash::WorkReading>& readings) {
    std::vector<std::string> out;
    if (readings.empty()) return out;
    const std::size_t first = place_of(project, plan, readings.front()).piece;
    for (const need::Step& step : plan.steps) {
        if (!step.name.empty() || step.purpose != need::Purpose::body || step.piece >= first)
            continue;
        const std::string& name = project.pieces[step.piece].name;
        if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
    }
    return out;
}

/// Of the skein that was worked last, though it may be used up.
std::string lot_worked(const std::vector<stash::Skein>& stash, const Record& record,
                       const std::string& id) {
    const stash::Skein* known = nullptr;
    for (const stash::Movement& movement : record.movements)
        if (movement.skein == id && movement.described) known = &*movement.described;
    for (const stash::Skein& skein : stash)
        if (skein.id == id) known = &skein;
    if (known == nullptr || !(known->dye_lot || known->shade_group)) return {};
    return stash::lot_key(*known);
}

/// One role in work; nothing where its readings say nothing.
struct OfRole {
    need::Worked worked;
    joins::Progress progress;
};
std::optional<OfRole> of_role(const project::Project& project, const need::RoleNeed& need,
                              const joins::JoinPlan& plan,
                              const std::vector<stash::WorkReading>& readings,
                              measure::Chance confidence) {
    if (!need.grist || readings.empty()) return std::nullopt;
    joins::ProgressRules rules;
    rules.tail = project.tail;
    rules.confidence = confidence;
    OfRole out;
    out.progress = joins::progress(plan.steps, *need.grist, need.without_shared().relative(),
                                   readings_of(project, plan, readings), rules);
    out.worked = worked_by(project, plan, readings.back(), out.progress, confidence);
    return out;
}

/// Makes the stash what the rest of a role may count on.
NotTold take_in(const project::Project& project, std::vector<stash::Skein>& stash,
                const joins::JoinPlan& plan, const std::vector<stash::WorkReading>& readings,
                const OfRole& of, const Record& record, const cover::Rules& rules) {
    const Told told = told_of(project, stash, readings, record, plan.role);
    Length done{};
    const std::size_t steps = *place_of(project, plan, readings.back()).steps_done;
    for (std::size_t i = 0; i < steps; ++i) done += plan.steps[i].yarn;
    const Mass worked = done * of.progress.use.rate;
    // Its two ends, and half a row on average.
    Mass lost = of.worked.row_yarn * of.progress.use.rate / 2.0;
    if (const auto grist = need::grist_of(*project.role(plan.role)))
        lost += 2.0 * rules.tail / grist->value;
    stash::Skein* const hand = find(stash, readings.back().skein);
    Mass shown{};
    if (hand != nullptr) shown = measure::net_mass(scale_of(readings.back())).centre;
    const NotTold out = take_what_is_not_told(project, stash, worked - told.used, lost, told, shown,
                                              plan.role, rules);
    if (hand == nullptr || !(out.in_hand > Mass{})) return out;
    weigh(*hand, readings.back());
    hand->weighing->shown.value -= out.in_hand;
    return out;
}

/// Finds the skein on the scale among those of the plan for the whole: one with which the work so
/// far comes near what the readings say, the plan's earlier ones used up. `before` are those; all
/// that was chosen where none fits.
std::string in_hand_by_plan(const project::Project& project, const need::MakeNeed& make,
                            const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                            const OfRole& of, const stash::WorkReading& last,
                            std::vector<std::string>& before) {
    constexpr double most_off = 0.15;
    constexpr double heavier = 1.1;  // than its label, at most
    const need::RoleNeed& need = *find_need(make, of.worked.role);
    const cover::MakeCover cover = cover::cover_make(project, make, stash, rules);
    const auto role =
        std::find_if(cover.roles.begin(), cover.roles.end(),
                     [&](const cover::RoleCover& one) { return one.role.id == need.role; });
    if (role == cover.roles.end()) return {};
    const joins::JoinPlan plan = chain::plan_joins(
        need, chain::course_steps(project, make, need), role->balls,
        chain::rules_of(project, role->role, make.size, rules.confidence), &project);
    Length done{};
    const std::size_t steps = *place_of(project, plan, last).steps_done;
    for (std::size_t i = 0; i < steps; ++i) done += plan.steps[i].yarn;
    const Mass worked = done * of.progress.use.rate;
    const Mass shown = measure::net_mass(scale_of(last)).centre;
    Mass used{};  // of those before
    std::optional<std::size_t> hand;
    for (std::size_t k = 0; k < plan.stretches.size(); ++k) {
        const Mass whole = plan.stretches[k].ball.length.centre / *need.grist;
        const Mass off = used + whole - shown - worked;
        const Mass most = most_off * std::max(worked, whole);
        // The later of two that fit: it leaves fewer to come.
        if (shown <= heavier * whole && off <= most && -off <= most) hand = k;
        used += whole;
    }
    for (std::size_t k = 0; k < plan.stretches.size() && (!hand || k < *hand); ++k)
        before.push_back(plan.stretches[k].ball.id);
    return hand ? plan.stretches[*hand].ball.id : std::string();
}

/// The one skein that may serve the role, where nobody has weighed it yet: it is on the scale.
std::string only_begun(const project::Role& role, const std::vector<stash::Skein>& stash,
                       const cover::Rules& rules) {
    std::string out;
    for (const stash::Skein& skein : stash) {
        const cover::Candidate one =
            cover::candidate_for(role, 2.0 * rules.tail, skein, rules.project, rules.made_for);
        if (!one.supply && !one.only_unweighed) continue;
        if (one.supply || !out.empty() || !yarn::label_grist(skein.yarn.label)) return {};
        out = skein.id;
    }
    return out;
}

/// The longest skein that may serve the role and that no reading names; empty where none may.
std::string longest_unnamed(const project::Project& project, const project::Role& role,
                            const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                            const std::vector<stash::WorkReading>& readings) {
    std::string out;
    Length longest{};
    for (const cover::Candidate& one :
         cover::candidates_for(role, 2.0 * rules.tail, stash, project.title, project.made_for)) {
        const bool named = std::any_of(
            readings.begin(), readings.end(),
            [&](const stash::WorkReading& reading) { return reading.skein == one.skein->id; });
        if (named || !one.supply || one.supply->length <= longest) continue;
        longest = one.supply->length;
        out = one.skein->id;
    }
    return out;
}

/// The one skein from which this project is said to have taken some, where it still holds what the
/// scale shows; empty where there is none, or more than one.
std::string begun_by_record(const project::Project& project, const project::Role& role,
                            const std::vector<stash::Skein>& stash, const Record& record,
                            const cover::Rules& rules, const stash::WorkReading& last) {
    constexpr double heavier = 1.1;  // labels lie
    const std::set<std::string> begun = stash::begun_for(record.movements, project.title);
    const Mass shown = measure::net_mass(scale_of(last)).centre;
    std::string out;
    for (const stash::Skein& skein : stash) {
        if (!begun.contains(skein.id)) continue;
        const cover::Candidate one =
            cover::candidate_for(role, 2.0 * rules.tail, skein, rules.project, rules.made_for);
        const auto grist = yarn::label_grist(skein.yarn.label);
        if (!one.supply || !grist) continue;
        if (shown > heavier * (one.supply->length / grist->centre) + last.scale.value) continue;
        if (!out.empty()) return {};
        out = skein.id;
    }
    return out;
}

/// Names the skein of readings that name none, where the record tells which it is. Its id.
std::string name_by_record(const project::Project& project, const project::Role& role,
                           const std::vector<stash::Skein>& stash, const Record& record,
                           const cover::Rules& rules, std::vector<stash::WorkReading>& readings) {
    if (readings.size() != 1 || !readings.front().skein.empty()) return {};
    readings.front().skein = begun_by_record(project, role, stash, record, rules, readings.front());
    return readings.front().skein;
}

bool same_place(const stash::WorkReading& one, const stash::WorkReading& other) {
    return one.row == other.row && one.copy == other.copy &&
           base::same_word(one.piece, other.piece);
}

/// Yarn that the plan gives the rows between two readings.
Length yarn_between(const project::Project& project, const joins::JoinPlan& plan,
                    const stash::WorkReading& from, const stash::WorkReading& to) {
    Length out{};
    const std::size_t last = *place_of(project, plan, to).steps_done;
    for (std::size_t i = *place_of(project, plan, from).steps_done; i < last; ++i)
        out += plan.steps[i].yarn;
    return out;
}

/// Names the skein of readings that stand before the first with a name: by the plan, else the
/// longest of those that may be it, for from one of them the rows were worked. Its id, where there
/// were such readings.
std::string name_those_before(const project::Project& project, const need::MakeNeed& make,
                              const need::RoleNeed& need, const joins::JoinPlan& plan,
                              const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                              std::vector<stash::WorkReading>& readings) {
    const auto named =
        std::find_if(readings.begin(), readings.end(),
                     [](const stash::WorkReading& reading) { return !reading.skein.empty(); });
    if (named == readings.begin() || named == readings.end()) return {};
    const std::vector<stash::WorkReading> before(readings.begin(), named);
    const auto of = of_role(project, need, plan, before, rules.confidence);
    if (!of) return {};
    std::vector<std::string> gone;
    std::string id = in_hand_by_plan(project, make, stash, rules, *of, before.back(), gone);
    const Mass less = before.back().mass.value - named->mass.value;
    if (same_place(*named, before.back()) && less == Mass{}) {
        // The same weighing, with the name that was asked for.
        id = named->skein;
    } else if (id.empty() || (id == named->skein && less < Mass{})) {
        // What weighs more than it did is another one, and so is what weighs far less than the rows
        // between took off it.
        const Mass took =
            yarn_between(project, plan, before.back(), *named) * of->progress.use.rate;
        const Mass steps = before.back().scale.value + named->scale.value;
        const bool one_skein = less >= took / 2.0 - steps && less <= 2.0 * took + steps;
        id = one_skein ? named->skein
                       : longest_unnamed(project, *project.role(need.role), stash, rules, readings);
    }
    for (auto reading = readings.begin(); reading != named; ++reading) reading->skein = id;
    return id;
}

/// The skein that readings of no skein fit by the plan: it weighs what the last says, and what was
/// worked before it is gone. Nothing where none fits.
std::string take_by_plan(const project::Project& project, const need::MakeNeed& make,
                         std::vector<stash::Skein>& stash, const cover::Rules& rules,
                         const OfRole& of, const stash::Work& work) {
    const stash::WorkReading& last = work.readings.back();
    if (!last.skein.empty()) return {};
    std::vector<std::string> gone;
    std::string id = in_hand_by_plan(project, make, stash, rules, of, last, gone);
    if (id.empty()) id = only_begun(*project.role(of.worked.role), stash, rules);
    if (id.empty()) return {};
    stash::Skein& hand = *find(stash, id);
    weigh(hand, last);
    stash::keep_for(hand, work);
    for (const std::string& before : gone) stash::forget_amount(*find(stash, before));
    return id;
}

}  // namespace

InWork in_work(const project::Project& project, std::size_t size,
               const std::vector<stash::Skein>& stash, const Record& record,
               const cover::Rules& rules) {
    InWork out;
    out.stash = stash;
    std::optional<need::MakeNeed> make;
    for (stash::Work& work : stash::works_of(record.readings)) {
        if (!base::same_word(work.project, project.title)) continue;
        if (!make) make = need::need_to_plan(project, size);
        const need::RoleNeed* need = find_need(*make, work.role);
        if (need == nullptr) continue;
        const joins::JoinPlan plan = plan_of(project, *make, *need, rules.confidence);
        name_by_record(project, *project.role(work.role), out.stash, record, rules, work.readings);
        const std::string worked_through =
            name_those_before(project, *make, *need, plan, out.stash, rules, work.readings);
        if (stash::Skein* const skein = find(out.stash, worked_through);
            skein != nullptr && worked_through != work.readings.back().skein)
            stash::forget_amount(*skein);
        auto of = of_role(project, *need, plan, work.readings, rules.confidence);
        if (!of) continue;
        std::string by_plan = take_by_plan(project, *make, out.stash, rules, *of, work);
        const bool found = !by_plan.empty();
        if (found) of->worked.skein = std::move(by_plan);
        of->worked.lot = lot_worked(stash, record, of->worked.skein);
        out.done.push_back(of->worked);
        if (found) continue;
        for (std::string& id :
             take_in(project, out.stash, plan, work.readings, *of, record, rules).skeins)
            out.taken.push_back(std::move(id));
    }
    return out;
}

RoleProgress progress_of(const project::Project& project, std::size_t size,
                         const std::vector<stash::Skein>& stash, const Record& record,
                         const cover::Rules& rules, const Asked& asked) {
    const need::MakeNeed make = need::need_to_plan(project, size);
    const need::RoleNeed& need = *find_need(make, asked.role);
    RoleProgress out;
    out.plan = plan_of(project, make, need, rules.confidence);
    std::vector<stash::WorkReading> readings = asked.readings;
    const bool by_record =
        asked.in_stash &&
        !name_by_record(project, *project.role(asked.role), stash, record, rules, readings).empty();
    if (asked.in_stash) name_those_before(project, make, need, out.plan, stash, rules, readings);
    const auto of = of_role(project, need, out.plan, readings, rules.confidence);
    joins::ProgressRules progress_rules;
    progress_rules.tail = project.tail;
    progress_rules.confidence = rules.confidence;
    progress_rules.link = chain::mean_row(
        need, chain::course_steps(project, make, need),
        chain::rules_of(project, *project.role(need.role), size, rules.confidence), &project);
    progress_rules.more = asked.more;
    progress_rules.more_skeins = asked.more_skeins;
    out.worked_before = worked_before(project, out.plan, readings);
    const auto trusted = [&](measure::Chance chance) {
        return out.progress.odd ? std::min(chance, measure::Chance{need::most_trust_in_a_slip})
                                : chance;
    };
    const auto answer = [&] {
        out.progress =
            joins::progress(out.plan.steps, *need.grist, need.without_shared().relative(),
                            readings_of(project, out.plan, readings), progress_rules);
        out.progress.lasts = trusted({units::Ratio(out.progress.lasts.value * need.trust())});
    };
    answer();
    if (!asked.in_stash || !of) return out;

    std::vector<stash::Skein> there = stash;
    std::vector<std::string> gone;  // worked through before the one in hand
    if (find(there, readings.back().skein) != nullptr) {
        out.hand = by_record ? Hand::by_record : Hand::named;
    } else if (readings.back().skein.empty()) {
        const std::string id =
            in_hand_by_plan(project, make, there, rules, *of, readings.back(), gone);
        for (stash::WorkReading& reading : readings)
            if (reading.skein.empty()) reading.skein = id;
        if (!id.empty()) out.hand = Hand::by_plan;
    }
    if (out.hand == Hand::unknown) {
        out.not_counted = std::move(gone);
        return out;
    }
    out.in_hand = readings.back().skein;
    for (const stash::WorkReading& reading : readings)
        if (reading.skein != out.in_hand) gone.push_back(reading.skein);
    weigh(*find(there, out.in_hand), readings.back());
    for (const std::string& id : gone)
        if (stash::Skein* skein = find(there, id)) stash::forget_amount(*skein);
    need::Worked worked = of->worked;
    worked.skein = out.in_hand;
    worked.lot = lot_worked(stash, record, out.in_hand);
    if (out.hand != Hand::by_plan) {
        NotTold not_told = take_in(project, there, out.plan, readings, *of, record, rules);
        out.taken = std::move(not_told.skeins);
        out.not_told = not_told.in_hand;
        progress_rules.more.centre -= out.not_told;
    }
    cover::Rules rest_rules = rules;
    std::erase_if(rest_rules.done,
                  [&](const need::Worked& one) { return one.role == worked.role; });
    rest_rules.done.push_back(worked);
    const need::MakeNeed rest = need::rest_of(make, project, rest_rules.done);
    const cover::MakeCover cover = cover::cover_make(project, rest, there, rest_rules);
    const auto role =
        std::find_if(cover.roles.begin(), cover.roles.end(),
                     [&](const cover::RoleCover& one) { return one.role.id == asked.role; });
    if (role == cover.roles.end()) return out;  // nothing is left to work
    bool has_hand = false;
    for (const stash::Skein& skein : role->chosen) {
        if (skein.id == out.in_hand) {
            has_hand = true;
            continue;
        }
        const auto supply = stash::supply_of(skein);
        progress_rules.more.centre += supply->length / *need.grist;
        progress_rules.more.spread =
            measure::in_quadrature(progress_rules.more.spread, supply->own / *need.grist);
        ++progress_rules.more_skeins;
        out.later.push_back(skein.id);
    }
    answer();
    if (!has_hand) return out;
    // One question, one chance: that of the plan for the rest.
    out.progress.lasts = trusted(role->chance);
    if (out.progress.will_last(rules.confidence)) {
        out.progress.certain = out.progress.likely = out.plan.steps.size();
        out.progress.can_finish = true;
        out.progress.held_back = Mass{};
        out.progress.to_be_sure = Mass{};
    } else {
        out.progress.to_be_sure = std::max(out.progress.to_be_sure, role->to_be_sure / *need.grist);
    }
    return out;
}

}  // namespace skeinfall::plan

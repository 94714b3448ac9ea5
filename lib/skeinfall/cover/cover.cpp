#include "skeinfall/cover/cover.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/cover/lot_mixing.hpp"

namespace skeinfall::cover {
namespace {

using Taken = std::set<const stash::Skein*>;

/// A role of one of the makes.
struct Place {
    std::size_t make = 0;
    std::unique_ptr<Covering> role;
    std::string name;  ///< of the role, for the others
};

void take(const Place& place, Taken& taken) {
    for (const Candidate* pick : place.role->chosen()) taken.insert(pick->skein);
}

/// Whether no skein was chosen twice.
bool disjoint(const std::vector<Place*>& places) {
    Taken taken;
    std::size_t all = 0;
    for (const Place* place : places) {
        take(*place, taken);
        all += place->role->chosen().size();
    }
    return taken.size() == all;
}

/// Divides what fits among roles that could each be covered alone. Returns those that are.
///
/// As with one role the amount wanted depends on the choice, so it is raised for each role whose
/// choice is not sure enough, until all are.
std::vector<Place*> divide(const std::vector<Place*>& places, const Rules& rules) {
    constexpr int rounds_at_most = 8;
    Plan plan = plan_of(rules);
    std::map<const stash::Skein*, std::size_t> numbers;
    std::map<std::string, std::size_t> lots;
    std::vector<Stock> stock;
    std::vector<Demand> demands;
    for (const Place* place : places) {
        Demand demand;
        demand.id = std::to_string(100'000 + demands.size());
        demand.lots = place->role->lots();
        for (const Candidate* pick : place->role->basis()) {
            const auto [found, fresh] = numbers.emplace(pick->skein, stock.size());
            if (fresh) {
                const std::size_t lot =
                    lots.emplace(stash::lot_key(*pick->skein), lots.size()).first->second;
                stock.push_back({place->role->usable(*pick) + plan.tails, pick->skein->part, lot,
                                 pick->skein->id, false});
            }
            // Roles may hold back unlike tails; what the most careful gets of it serves any.
            Quanta& length = stock[found->second].length;
            length = std::min(length, place->role->usable(*pick) + plan.tails);
            demand.fits.push_back({found->second, pick->substitution});
        }
        demands.push_back(std::move(demand));
    }
    std::vector<units::Length> spreads(places.size());
    for (int round = 0; round < rounds_at_most; ++round) {
        for (std::size_t i = 0; i < places.size(); ++i)
            demands[i].need = places[i]->role->wanted(spreads[i]);
        const Allocation found = allocate(stock, demands, plan);
        std::map<std::size_t, std::size_t> users;
        for (const Served& served : found.served)
            for (const Piece& piece : served.pieces) ++users[piece.skein];
        bool sure = true;
        std::vector<Covering::Picks> picks(places.size());
        for (std::size_t i = 0; i < places.size(); ++i) {
            std::map<std::size_t, const Candidate*> by_number;
            for (const Candidate* pick : places[i]->role->basis())
                by_number[numbers.at(pick->skein)] = pick;
            for (const Piece& piece : found.served[i].pieces) {
                const Candidate* pick = by_number.at(piece.skein);
                if (users[piece.skein] > 1)
                    pick = places[i]->role->share_of(*pick, piece.used + plan.tails);
                picks[i].push_back(pick);
            }
            if (picks[i].empty()) continue;
            const Covering::Judged judged = places[i]->role->judge(picks[i]);
            if (judged.chance >= rules.confidence) continue;
            sure = false;
            spreads[i] = std::max(spreads[i] * 1.000001, judged.supply.spread);
        }
        if (!sure) continue;
        std::vector<Place*> covered;
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (!found.proven()) places[i]->role->not_proven();
            if (picks[i].empty()) continue;
            places[i]->role->settle(std::move(picks[i]));
            covered.push_back(places[i]);
        }
        return covered;
    }
    // Never sure in so many rounds: one after the other then.
    Taken taken;
    std::vector<Place*> covered;
    for (Place* place : places) {
        place->role->choose_from_all_but(taken);
        place->role->not_proven();
        if (!place->role->covers()) continue;
        take(*place, taken);
        covered.push_back(place);
    }
    return covered;
}

/// Serves all places at once. Who cannot be covered gets the best of what the others leave.
void serve(const std::vector<Place*>& places, const Rules& rules, Taken& taken) {
    std::vector<Place*> able;
    for (Place* place : places) {
        place->role->choose_from_all_but(taken);
        if (place->role->covers()) able.push_back(place);
    }
    // Cutting may spare a whole skein even where nobody is in another's way.
    const bool apart = disjoint(able) && (rules.division == Division::whole || able.size() < 2);
    const std::vector<Place*> covered = apart ? able : divide(able, rules);
    for (const Place* place : covered) take(*place, taken);
    for (Place* place : places) {
        if (std::find(covered.begin(), covered.end(), place) != covered.end()) continue;
        const bool proven_short = !place->role->covers();
        place->role->choose_from_all_but(taken);
        // What the others leave may cover it only when the division was cut short.
        if (!proven_short && place->role->covers()) place->role->not_proven();
        take(*place, taken);
    }
}

/// A yarn held together with itself shows two lots as stripes or speckles.
void note_other_strand(const MakeCover& make, RoleCover& cover) {
    const project::Role& role = cover.role;
    for (const RoleCover& other : make.roles) {
        if (other.role.id != role.held_with || !role.one_lot || role.name.empty() ||
            !base::same_word(other.role.name, role.name) ||
            !base::same_word(other.role.colour, role.colour))
            continue;
        std::set<std::string> lots;
        for (const RoleCover* each : {&other, &std::as_const(cover)})
            for (const stash::Skein& skein : each->chosen) lots.insert(stash::lot_key(skein));
        if (lots.size() > 1)
            cover.notes.push_back("held together with " + role.held_with +
                                  ", of the same yarn but from another lot: swatch both together "
                                  "first");
    }
}

}  // namespace

std::string_view name_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::covered:
            return "covered";
        case Verdict::too_close_to_call:
            return "too close to call";
        case Verdict::is_short:
            break;
    }
    return "short";
}

Verdict verdict_for(measure::Chance chance, measure::Chance confidence) {
    if (chance >= confidence) return Verdict::covered;
    if (chance.value.value() <= 1.0 - confidence.value.value()) return Verdict::is_short;
    return Verdict::too_close_to_call;
}

RoleCover cover_role(const project::Role& role, const need::RoleNeed& need,
                     const std::vector<stash::Skein>& stash, const Rules& rules) {
    Covering covering(role, need, stash, rules);
    covering.choose_from_all_but({});
    return covering.answer();
}

MakeCover cover_make(const project::Project& project, const need::MakeNeed& need,
                     const std::vector<stash::Skein>& stash, const Rules& rules) {
    return std::move(cover_makes({{&project, &need, rules}}, stash, rules.sharing).front());
}

std::vector<MakeCover> cover_makes(const std::vector<Make>& makes,
                                   const std::vector<stash::Skein>& stash, Sharing sharing) {
    std::vector<Place> places;
    for (std::size_t at = 0; at < makes.size(); ++at)
        for (const need::RoleNeed& need : makes[at].need->roles) {
            const project::Role& role = *makes[at].project->role(need.role);
            places.push_back(
                {at, std::make_unique<Covering>(role, need, stash, makes[at].rules),
                 makes.size() == 1 ? role.id : makes[at].project->title + " (" + role.id + ")"});
        }
    // Those served at once, turn by turn.
    std::vector<std::vector<Place*>> turns;
    for (Place& place : places) {
        const bool goes_on =
            !turns.empty() &&
            (sharing == Sharing::joint ||
             (sharing == Sharing::make_by_make && turns.back().front()->make == place.make));
        if (!goes_on) turns.emplace_back();
        turns.back().push_back(&place);
    }
    Taken taken;
    for (const std::vector<Place*>& turn : turns)
        serve(turn, makes[turn.front()->make].rules, taken);

    std::map<const stash::Skein*, std::vector<std::string>> owners;
    for (const Place& place : places)
        for (const Candidate* pick : place.role->chosen())
            owners[pick->skein].push_back(place.name);
    std::vector<MakeCover> out(makes.size());
    for (std::size_t at = 0; at < makes.size(); ++at) {
        out[at].verdict = Verdict::covered;
        out[at].roles.reserve(
            makes[at].need->roles.size());  // each holds the whole stash's reasons
    }
    for (Place& place : places) {
        MakeCover& make = out[place.make];
        RoleCover cover = place.role->answer();
        for (Candidate& candidate : cover.candidates) {
            const auto owner = owners.find(candidate.skein);
            if (!candidate.supply || owner == owners.end()) continue;
            const auto& names = owner->second;
            if (std::find(names.begin(), names.end(), place.name) == names.end())
                candidate.reason = "serves " + base::join(names, " and ");
        }
        note_other_strand(make, cover);
        for (std::string& plan : mixing_plan(*makes[place.make].project, *makes[place.make].need,
                                             cover, makes[place.make].rules))
            cover.settles.push_back({std::move(plan)});
        make.verdict = std::max(make.verdict, cover.verdict);
        make.chance = {units::Ratio(make.chance.value * cover.chance.value)};
        make.roles.push_back(std::move(cover));
    }
    return out;
}

}  // namespace skeinfall::cover

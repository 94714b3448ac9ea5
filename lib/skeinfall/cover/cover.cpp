#include "skeinfall/cover/cover.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/cover/lot_mixing.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

using Taken = std::set<const stash::Skein*>;

/// A role of one of the makes.
struct Place {
    std::size_t make = 0;
    std::unique_ptr<Covering> role;
    std::string name;  ///< of the role, for the others
    std::size_t number = 0;
    Place* first_strand = nullptr;  ///< of those that are held together and of one lot
    bool cut_short = false;         ///< not every lot was tried
    std::size_t of_several = 0;     ///< roles that are each sure enough, but not together
};

bool same_yarn(const project::Role& one, const project::Role& other) {
    return base::same_name(one.name, other.name) && base::same_name(one.colour, other.colour);
}

/// For strands held together: each lot is a division of its own.
constexpr std::size_t lots_tried_at_most = 40;

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
                stock.push_back({place->role->usable(*pick) + plan.tails,
                                 stash::is_part(*pick->skein), lot, pick->skein->id, false});
            }
            // Roles may hold back unlike tails; what the most careful gets of it serves any.
            Quanta& length = stock[found->second].length;
            length = std::min(length, place->role->usable(*pick) + plan.tails);
            demand.fits.push_back({found->second, pick->substitution});
        }
        demands.push_back(std::move(demand));
    }
    std::vector<units::Length> spreads(places.size());
    // A share is the first of its role more often than not, and a cut skein leaves a row's rest
    // once only.
    std::vector<Quanta> more(places.size());
    for (int round = 0; round < rounds_at_most; ++round) {
        for (std::size_t i = 0; i < places.size(); ++i)
            demands[i].need = places[i]->role->wanted(spreads[i]) + more[i];
        const Allocation found = allocate(stock, demands, plan);
        std::map<std::size_t, std::size_t> users;
        for (const Served& served : found.served)
            for (const Piece& piece : served.pieces) ++users[piece.skein];
        bool sure = true;
        std::vector<Covering::Picks> picks(places.size());
        std::set<std::size_t> has_given_rest;
        for (std::size_t i = 0; i < places.size(); ++i) {
            std::map<std::size_t, const Candidate*> by_number;
            for (const Candidate* pick : places[i]->role->basis())
                by_number[numbers.at(pick->skein)] = pick;
            bool cut = false;
            for (const Piece& piece : found.served[i].pieces) {
                const Candidate* pick = by_number.at(piece.skein);
                if (users[piece.skein] > 1) {
                    cut = true;
                    const Quanta rest = has_given_rest.insert(piece.skein).second
                                            ? places[i]->role->rest_of_row()
                                            : 0;
                    pick = places[i]->role->share_of(*pick, piece.used + plan.tails + rest);
                }
                picks[i].push_back(pick);
            }
            if (picks[i].empty()) continue;
            const Covering::Judged judged = places[i]->role->judge(picks[i]);
            if (judged.chance >= places[i]->role->confidence()) continue;
            sure = false;
            spreads[i] = std::max(spreads[i] * 1.000001, judged.supply.spread);
            if (cut) more[i] = places[i]->role->rest_of_row();
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

/// All places turn by turn, so that each make is sure as a whole where it can be.
class Serving {
  public:
    Serving(const std::vector<Make>& makes, std::vector<Place>& places, Sharing sharing)
        : makes_(makes), of_make_(makes.size()) {
        for (Place& place : places) {
            join_strand(place);
            const bool goes_on =
                !turns_.empty() &&
                (sharing == Sharing::joint ||
                 (sharing == Sharing::make_by_make && turns_.back().front()->make == place.make));
            if (!goes_on) turns_.emplace_back();
            turns_.back().push_back(&place);
            of_make_[place.make].push_back(&place);
        }
    }

    /// Roles that are sure one by one may not be so together: then they are chosen again, surer
    /// and surer. Where that does not help they are judged by what each would have to be.
    void run() {
        for (const auto& [first, strands] : strands_) bind_to_one_lot(strands);
        serve_all();
        std::vector<std::size_t> unsure;
        std::vector<bool> covered(makes_.size());
        for (std::size_t make = 0; make < makes_.size(); ++make) {
            covered[make] = all_sure(make);
            if (covered[make] && !sure_together(make)) unsure.push_back(make);
        }
        if (unsure.empty()) return;
        for (const double times : {1.0, 10.0, 1000.0}) {
            for (const std::size_t make : unsure) be_sure_by(make, each_of(make, times));
            serve_all();
            for (const std::size_t make : unsure) be_sure_by(make, makes_[make].rules.confidence);
            bool better = true;
            for (std::size_t make = 0; make < makes_.size(); ++make)
                better = better && (!covered[make] || all_sure(make));
            for (const std::size_t make : unsure) better = better && sure_together(make);
            if (better) return;
        }
        serve_all();
        for (const std::size_t make : unsure) {
            be_sure_by(make, each_of(make, 1.0));
            for (Place* place : of_make_[make]) place->of_several = of_make_[make].size();
        }
    }

  private:
    /// Strands of one yarn that are held together, each of one lot, are of one lot together.
    void join_strand(Place& place) {
        const project::Role& role = place.role->role();
        if (role.held_with.empty() || !role.one_lot || role.name.empty()) return;
        for (Place* other : of_make_[place.make])
            if (other->role->role().id == role.held_with && other->role->role().one_lot &&
                same_yarn(other->role->role(), role)) {
                if (other->first_strand == nullptr) other->first_strand = other;
                place.first_strand = other->first_strand;
                std::vector<Place*>& strands = strands_[place.first_strand->number];
                if (strands.empty()) strands.push_back(place.first_strand);
                strands.push_back(&place);
            }
    }

    /// Tries the lots that all strands may take, those with most of it first, and keeps the best.
    void bind_to_one_lot(const std::vector<Place*>& strands) {
        std::map<std::string, std::pair<units::Length, std::size_t>> lots;
        for (const Place* strand : strands) {
            std::set<std::string> own;
            for (const Candidate& candidate : strand->role->candidates())
                if (candidate.supply) {
                    const std::string lot = stash::lot_key(*candidate.skein);
                    lots[lot].first += candidate.supply->length;
                    if (own.insert(lot).second) ++lots[lot].second;
                }
        }
        std::vector<std::pair<units::Length, std::string>> richest;
        for (const auto& [lot, of] : lots)
            if (of.second == strands.size()) richest.emplace_back(-of.first, lot);
        if (richest.empty()) return;
        std::sort(richest.begin(), richest.end());
        const bool all_tried = richest.size() <= lots_tried_at_most;
        if (!all_tried) richest.resize(lots_tried_at_most);
        const auto keep_to = [&](const std::string& lot) {
            for (Place* strand : strands) strand->role->keep_to_lot(lot);
        };
        std::optional<Score> best;
        std::string best_lot;
        for (const auto& [length, lot] : richest) {
            keep_to(lot);
            serve_all();
            const Score score = score_now();
            if (best && *best <= score) continue;
            best = score;
            best_lot = lot;
        }
        keep_to(best_lot);
        if (!all_tried)
            for (Place* strand : strands) strand->cut_short = true;
    }

    /// Roles left without, the chance when there are some, and what the others cost.
    using Score = std::tuple<std::size_t, double, std::array<std::int64_t, goal_count>>;
    [[nodiscard]] Score score_now() const {
        std::size_t without = 0;
        double chance = 1.0;
        Total cost;
        for (const std::vector<Place*>& turn : turns_)
            for (const Place* place : turn) {
                if (!place->role->covers()) ++without;
                chance *= place->role->judge(place->role->chosen()).chance.value.value();
                cost += place->role->cost();
            }
        return {without, without > 0 ? -chance : 0.0, cost.by(makes_.front().rules.goals)};
    }

    void serve_all() {
        for (bool again = true; again;) {
            Taken taken;
            for (const std::vector<Place*>& turn : turns_)
                serve(turn, makes_[turn.front()->make].rules, taken);
            // Sure by sums, but not joined where the project permits: choose anew with more cut off
            // at each join.
            again = false;
            for (const std::vector<Place*>& turn : turns_)
                for (Place* place : turn)
                    if (place->role->covers() && !place->role->is_sure(place->role->confidence()) &&
                        place->role->expect_more_cut_off())
                        again = true;
        }
    }

    [[nodiscard]] bool all_sure(std::size_t make) const {
        return std::all_of(of_make_[make].begin(), of_make_[make].end(), [&](const Place* place) {
            return place->role->is_sure(makes_[make].rules.confidence);
        });
    }

    [[nodiscard]] bool sure_together(std::size_t make) const {
        units::Ratio all = units::Ratio::from_value(1.0);
        for (const Place* place : of_make_[make]) all *= place->role->chance_of_plan().value;
        return measure::Chance{all} >= makes_[make].rules.confidence;
    }

    /// So sure that all roles are together; its doubt divided by `times`.
    [[nodiscard]] measure::Chance each_of(std::size_t make, double times) const {
        const double all = makes_[make].rules.confidence.value.value();
        const double each = std::pow(all, 1.0 / static_cast<double>(of_make_[make].size()));
        return {units::Ratio(1.0 - (1.0 - each) / times)};
    }

    void be_sure_by(std::size_t make, measure::Chance confidence) {
        for (Place* place : of_make_[make]) place->role->be_sure_by(confidence);
    }

    const std::vector<Make>& makes_;
    std::vector<std::vector<Place*>> turns_;  ///< those served at once
    std::vector<std::vector<Place*>> of_make_;
    std::map<std::size_t, std::vector<Place*>> strands_;  ///< held together, by their first
};

/// Where the role's yarn goes; nothing where the rows are not known.
std::shared_ptr<const Course> course_of(const project::Project& project, const need::MakeNeed& make,
                                        const need::RoleNeed& need, const Rules& rules) {
    const project::Role& role = *project.role(need.role);
    std::vector<need::Step> steps;
    if (role.held_with.empty())
        std::copy_if(make.steps.begin(), make.steps.end(), std::back_inserter(steps),
                     [&](const need::Step& step) { return step.role == need.role; });
    else
        steps = chain::steps_beside(need, role.held_with, make.steps);
    Course course{{}, chain::rules_of(project, role, make.size, rules.confidence), &project};
    if (role.join_kind == nullptr) course.rules.tail = rules.tail;
    course.rules.end_tail = rules.tail;
    course.rules.only_chance = true;
    course.rules.keep_rules = true;
    const bool any = std::any_of(steps.begin(), steps.end(), [&](const need::Step& step) {
        return step.role == need.role && step.yarn > units::Length{} &&
               (step.purpose != need::Purpose::body || step.row > 0);
    });
    // A bare total has no rows; a yarn of edgings alone has their rounds.
    if (!any || project.pieces.empty()) return nullptr;
    course.steps = std::move(steps);
    return std::make_shared<const Course>(std::move(course));
}

/// A yarn held together with itself shows two lots as stripes or speckles.
void note_other_strand(const MakeCover& make, RoleCover& cover) {
    const project::Role& role = cover.role;
    for (const RoleCover& other : make.roles) {
        if (other.role.id != role.held_with || role.name.empty() || !same_yarn(other.role, role))
            continue;
        std::set<std::string> lots;
        for (const RoleCover* each : {&other, &std::as_const(cover)})
            for (const stash::Skein& skein : each->chosen) lots.insert(stash::lot_key(skein));
        if (lots.size() > 1) cover.notes.push_back(OtherLotThanPartner{role.held_with});
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

need::MakeNeed need_for(const project::Project& project, std::size_t size, const Rules& rules) {
    return need::rest_of(need::need_to_plan(project, size), project, rules.done);
}

Verdict verdict_for(measure::Chance chance, measure::Chance confidence) {
    if (chance >= confidence) return Verdict::covered;
    if (chance.value.value() <= 1.0 - confidence.value.value()) return Verdict::is_short;
    return Verdict::too_close_to_call;
}

RoleCover cover_role(const project::Role& role, const need::RoleNeed& need, const Shelf& shelf,
                     const Rules& rules) {
    Covering covering(role, need, shelf, rules);
    covering.choose_from_all_but({});
    return covering.answer();
}

std::vector<Candidate> every_candidate(const RoleCover& role) {
    std::vector<Candidate> out;
    out.reserve(role.stash.size());
    auto known = role.candidates.begin();
    for (const stash::Skein& skein : role.stash)
        if (known != role.candidates.end() && known->skein == &skein)
            out.push_back(*known++);
        else
            out.push_back(candidate_for(role.role, role.tails_of_a_skein, skein, role.project,
                                        role.made_for));
    return out;
}

void mark_fitting(const RoleCover& role, std::vector<bool>& fits) {
    for (const Candidate& candidate : role.candidates) {
        const auto at = static_cast<std::size_t>(candidate.skein - role.stash.data());
        if (candidate.supply && at < fits.size()) fits[at] = true;
    }
}

void leave_stash(RoleCover& role) {
    role.candidates.clear();
    role.stash = {};
}

MakeCover cover_make(const project::Project& project, const need::MakeNeed& need,
                     const Shelf& shelf, const Rules& rules) {
    return std::move(cover_makes({{&project, &need, rules}}, shelf, rules.sharing).front());
}

std::vector<MakeCover> cover_makes(const std::vector<Make>& makes, const Shelf& shelf,
                                   Sharing sharing) {
    Memory memory;
    return cover_makes(makes, shelf, sharing, memory);
}

std::vector<MakeCover> cover_makes(const std::vector<Make>& makes, const Shelf& shelf,
                                   Sharing sharing, Memory& memory) {
    std::vector<Place> places;
    for (std::size_t at = 0; at < makes.size(); ++at)
        for (const need::RoleNeed& need : makes[at].need->roles) {
            const project::Role& role = *makes[at].project->role(need.role);
            Rules rules = makes[at].rules;
            rules.made_for = makes[at].project->made_for;
            const std::shared_ptr<RoleMemory>& known = memory.of(places.size());
            if (!known->course)
                known->course = course_of(*makes[at].project, *makes[at].need, need, rules);
            places.push_back(
                {at, std::make_unique<Covering>(role, need, shelf, rules, *known->course, known),
                 makes.size() == 1 ? role.id : makes[at].project->title + " (" + role.id + ")",
                 places.size()});
        }
    for (const Place& place : places)
        for (const Place& other : places)
            if (other.number != place.number && !place.role->in_hand().empty())
                other.role->leave_to(place.role->in_hand(), place.name);
    Serving(makes, places, sharing).run();

    std::map<const stash::Skein*, std::vector<std::string>> owners;
    for (const Place& place : places)
        for (const Candidate* pick : place.role->chosen())
            owners[pick->skein].push_back(place.name);
    std::vector<MakeCover> out(makes.size());
    for (std::size_t at = 0; at < makes.size(); ++at) {
        out[at].verdict = Verdict::covered;
        out[at].roles.reserve(makes[at].need->roles.size());
    }
    for (Place& place : places) {
        MakeCover& make = out[place.make];
        if (place.cut_short) place.role->not_proven();
        RoleCover cover = place.role->answer();
        for (Candidate& candidate : cover.candidates) {
            const auto owner = owners.find(candidate.skein);
            if (!candidate.supply || owner == owners.end()) continue;
            const auto& names = owner->second;
            if (std::find(names.begin(), names.end(), place.name) == names.end())
                candidate.reason = ServesOthers{names};
        }
        note_other_strand(make, cover);
        if (place.of_several > 0 && cover.verdict != Verdict::covered)
            cover.notes.push_back(HeldToMore{static_cast<std::size_t>(place.of_several),
                                             makes[place.make].rules.confidence, cover.confidence});
        auto plans = mixing_plan(*makes[place.make].project, *makes[place.make].need, cover,
                                 makes[place.make].rules);
        for (std::size_t i = 0; i < plans.size(); ++i)
            cover.settles.push_back({MixLots{std::move(plans[i]), i + 1 == plans.size()}});
        make.verdict = std::max(make.verdict, cover.verdict);
        make.chance = {units::Ratio(make.chance.value * cover.chance.value)};
        make.with_margin = {units::Ratio(make.with_margin.value * cover.with_margin.value)};
        make.roles.push_back(std::move(cover));
    }
    return out;
}

}  // namespace skeinfall::cover

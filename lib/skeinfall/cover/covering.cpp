#include "skeinfall/cover/covering.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"

namespace skeinfall::cover {
namespace {

using measure::Estimate;
using units::Length;

constexpr Length quantum = units::metre / 10.0;
constexpr double quantum_noise = 1e-9;
/// Of wool (yarn::humidity_spread()), for yarn of unknown content.
constexpr units::Ratio dampest = units::Ratio::from_value(0.0228);

Quanta rounded_up(Length length) {
    return static_cast<Quanta>(std::ceil(length / quantum - quantum_noise));
}

Quanta rounded_down(Length length) {
    return static_cast<Quanta>(std::floor(length / quantum + quantum_noise));
}

std::int64_t knots_in(const Covering::Picks& picks) {
    std::int64_t knots = 0;
    for (const Candidate* pick : picks) knots += pick->skein->knots;
    return knots;
}

}  // namespace

Plan plan_of(const Rules& rules) {
    Plan plan;
    plan.goals = rules.goals;
    plan.tails = rounded_up(2.0 * rules.tail);
    plan.go_on = rules.go_on;
    plan.division = rules.division;
    return plan;
}

chain::Ball ball_of(const stash::Skein& skein, const stash::Supply& supply, bool label_cancels,
                    units::Ratio damp) {
    chain::Ball ball{skein.id, {supply.length, supply.own}};
    if (!label_cancels)
        ball.shared = supply.shared;
    else if (supply.basis == stash::SupplyBasis::label)
        ball.shared = supply.length * damp.value();
    ball.knots = skein.knots;
    ball.lot = stash::lot_text(skein);
    return ball;
}

Covering::Covering(const project::Role& role, const need::RoleNeed& need, const Shelf& shelf,
                   const Rules& rules, std::shared_ptr<const Course> course,
                   std::shared_ptr<RoleMemory> memory)
    : rules_(rules), course_(std::move(course)), memory_(std::move(memory)) {
    out_.role = role;
    out_.need = need;
    if (course_) {
        joins_ = course_->rules;
        if (!memory_->row) {
            memory_->row = joins_.where == chain::Where::anywhere
                               ? Length{}
                               : chain::mean_row(need, course_->steps, joins_, course_->project);
            memory_->kept = chain::kept_by_slip(need, course_->steps, joins_, course_->project);
        }
        row_ = *memory_->row;
        if (row_ > Length{}) kept_ = *memory_->kept / row_;
        rules_.tail = joins_.tail;
    }
    out_.needed = need.length.centre * (1.0 + rules.margin.value());
    out_.stash = shelf.skeins();
    out_.project = rules.project;
    out_.made_for = rules.made_for;
    out_.tails_of_a_skein = 2.0 * rules.tail;
    out_.candidates =
        candidates_for(role, out_.tails_of_a_skein, shelf, rules.project, rules.made_for);
    if (need.implied) leave_to_its_gauge(*need.implied);
    for (const need::Worked& worked : rules.done)
        if (worked.role == role.id)
            for (const Candidate& one : out_.candidates)
                if (one.supply && one.skein->id == worked.skein) out_.in_hand = worked.skein;
    joins_.first = out_.in_hand;
    // Work goes on in its own lot, though the skein it was begun with is used up.
    for (const need::Worked& worked : rules.done)
        if (worked.role == role.id && role.one_lot && out_.in_hand.empty())
            lot_ = lot_of_work_ = worked.lot;
    if (!need.by_mass || role.name.empty()) return;
    for (const stash::Skein* skein : shelf.of_yarn(role.name)) {
        const Candidate one{skein, {}, {}};
        if (!label_cancels({&one})) continue;
        damp_ = yarn::humidity_spread(skein->yarn.fibre).value_or(dampest);
        break;
    }
}

/// Where nobody said which yarn it is, none is taken that such a fabric is not made of.
void Covering::leave_to_its_gauge(const project::ImpliedGrist& usual) {
    constexpr double most_spreads = 2.0;
    for (Candidate& one : out_.candidates) {
        const auto grist = yarn::label_grist(one.skein->yarn.label);
        if (!one.supply || !grist) continue;
        const double apart = std::abs(std::log(grist->centre / usual.grist));
        if (apart <= most_spreads * usual.spread.value()) continue;
        one.supply.reset();
        one.reason = NotForSuchGauge{grist->centre, usual.grist};
    }
}

void Covering::leave_to(const std::string& id, const std::string& who) {
    for (Candidate& one : out_.candidates)
        if (one.supply && one.skein->id == id) {
            one.supply.reset();
            one.reason = InHandForOther{who};
        }
}

void Covering::choose_from_all_but(const std::set<const stash::Skein*>& taken) {
    Picks fitting;
    for (const Candidate& candidate : out_.candidates)
        if (candidate.supply && !taken.contains(candidate.skein) &&
            (lot_.empty() || stash::lot_key(*candidate.skein) == lot_))
            fitting.push_back(&candidate);
    const std::string key = key_of(fitting, {});
    const auto known = memory_->choices.find(key);
    if (known == memory_->choices.end()) {
        choose_among(fitting);
        memory_->choices.emplace(key, choice_among(fitting));
    } else {
        take_over(known->second, fitting);
    }
}

void Covering::choose_among(Picks fitting) {
    // Sums are taken in one order whatever the stash's, so that not even their last digit depends
    // on it.
    std::sort(fitting.begin(), fitting.end(), [](const Candidate* a, const Candidate* b) {
        return base::naturally_before(a->skein->id, b->skein->id);
    });
    const auto hand = std::find_if(fitting.begin(), fitting.end(), [&](const Candidate* one) {
        return !out_.in_hand.empty() && one->skein->id == out_.in_hand;
    });
    hand_ = hand == fitting.end() ? nullptr : *hand;
    chosen_.clear();
    basis_.clear();
    judged_any_ = covered_ = false;
    proven_ = true;
    for (Picks& set : permitted_sets(fitting)) {
        // Work goes on in its own lot.
        const bool its = hand_ == nullptr || std::find(set.begin(), set.end(), hand_) != set.end();
        if (its) try_set(std::move(set));
    }
    if (!covered_) return;
    // Chosen in the swatch's own label: then the division is among skeins of that label.
    const bool cancels = label_cancels(chosen_);
    for (const Candidate* pick : fitting)
        if (!cancels || label_cancels({pick})) basis_.push_back(pick);
}

/// What may lie side by side: one lot; or, where lots may be mixed, one yarn, for a yarn of another
/// name is another yarn. A role that names a class or a length per mass has said which may serve.
std::string Covering::side_by_side(const stash::Skein& skein) const {
    if (out_.role.one_lot) return stash::lot_key(skein);
    return out_.role.says_which() ? std::string() : base::name_key(skein.yarn.name);
}

/// The largest sets the lot rule allows: each lot by itself, or all of them together; and within
/// each, the skeins of the swatch's own label, which may cover where all do not.
std::vector<Covering::Picks> Covering::permitted_sets(const Picks& fitting) const {
    std::map<std::string, Picks> by_lot;
    for (const Candidate* pick : fitting) by_lot[side_by_side(*pick->skein)].push_back(pick);
    std::vector<Picks> sets;
    for (auto& [key, picks] : by_lot) {
        Picks own_label;
        for (const Candidate* pick : picks)
            if (label_cancels({pick})) own_label.push_back(pick);
        const bool some = !own_label.empty() && own_label.size() < picks.size();
        sets.push_back(std::move(picks));
        if (some) sets.push_back(std::move(own_label));
    }
    return sets;
}

/// In the yarn the swatch was weighed in, the label's length per mass cancels; in grams alone there
/// is none.
bool Covering::label_cancels(const Picks& picks) const {
    if (out_.role.metre_is_a_gram) return true;
    if (!out_.need.by_mass || out_.role.name.empty() || picks.empty()) return false;
    return std::all_of(picks.begin(), picks.end(), [&](const Candidate* pick) {
        const yarn::Yarn& yarn = pick->skein->yarn;
        const auto grist = yarn::label_grist(yarn.label);
        return base::same_name(yarn.name, out_.role.name) && grist && out_.need.grist &&
               std::abs(grist->centre / *out_.need.grist - 1.0) < 1e-6;
    });
}

Estimate<Length> Covering::need_against(bool cancels) const {
    const Estimate<Length> need = cancels ? out_.need.without_shared() : out_.need.length;
    return {out_.needed, need.spread};
}

/// Sums over picks that come and go one at a time, so that a long list need not be added up anew
/// for each of them. Like stash::total(): own spreads in quadrature, shared ones linearly within a
/// yarn.
class Covering::Tally {
  public:
    explicit Tally(const Covering& role) : role_(role) {}
    Tally(const Covering& role, const Picks& picks) : role_(role) {
        for (const Candidate* pick : picks) add(*pick);
    }
    void add(const Candidate& pick) { change(pick, 1); }
    void remove(const Candidate& pick) { change(pick, -1); }

    [[nodiscard]] Judged judged() const {
        const Length knots =
            static_cast<double>(knots_) * (2.0 * role_.rules_.tail + role_.cut_off_ * role_.row_);
        const bool cancels = count_ > 0 && own_label_ == count_;
        Estimate<Length> supply{length_, units::metre * std::sqrt(std::max(0.0, own_squared_))};
        if (cancels)
            supply.spread = measure::in_quadrature(supply.spread, damp());
        else
            for (const auto& [yarn, part] : shared_)
                supply.spread = measure::in_quadrature(supply.spread, part);
        const Estimate<Length> need = role_.need_against(cancels);
        const Estimate<Length> usable{
            supply.centre - role_.held_back(static_cast<std::size_t>(count_), length_) - knots,
            supply.spread};
        return {measure::chance_enough(usable, need), supply};
    }

    /// A label's mass is that of agreed air, the swatch's that of the maker's room: an error that
    /// all skeins share that were never weighed. Length per mass, where it does not cancel, has
    /// this in its own band.
    [[nodiscard]] Length damp() const { return by_label_ * role_.damp_; }

  private:
    void change(const Candidate& pick, int sign) {
        const stash::Supply& supply = *pick.supply;
        count_ += sign;
        knots_ += sign * pick.skein->knots;
        length_ += static_cast<double>(sign) * supply.length;
        const double own = supply.own / units::metre;
        own_squared_ += sign * own * own;
        shared_[base::name_key(pick.skein->yarn.name)] += static_cast<double>(sign) * supply.shared;
        if (supply.basis == stash::SupplyBasis::label)
            by_label_ += static_cast<double>(sign) * supply.length;
        if (role_.label_cancels({&pick})) own_label_ += sign;
    }

    const Covering& role_;
    std::int64_t count_ = 0;
    std::int64_t knots_ = 0;
    std::int64_t own_label_ = 0;
    Length length_{};
    double own_squared_ = 0.0;  // in square metres
    Length by_label_{};         // never weighed
    std::map<std::string, Length> shared_;
};

Covering::Judged Covering::judge(const Picks& picks) const {
    return Tally(*this, picks).judged();
}

Length Covering::missing(const Picks& picks) const {
    const Estimate<Length> supply = judge(picks).supply;
    const Length enough = measure::supply_needed(need_against(label_cancels(picks)), supply.spread,
                                                 rules_.confidence);
    return std::max(Length{}, enough - (supply.centre - held_back(picks.size(), supply.centre) -
                                        knots_of(picks)));
}

Length Covering::held_back(std::size_t skeins, Length of) const {
    return 2.0 * static_cast<double>(skeins) * rules_.tail + wound_off(skeins) +
           cut_off(skeins, of);
}

/// What is lost at row ends, as a mean; the plan of the joins tells it exactly. No more than a
/// skein holds is lost with it.
Length Covering::cut_off(std::size_t skeins, Length of) const {
    if (skeins == 0) return {};
    const Length each = of / static_cast<double>(skeins);
    return static_cast<double>(skeins - 1) * std::min(Length(cut_off_ * row_), each);
}

Length Covering::knots_of(const Picks& picks) const {
    return static_cast<double>(knots_in(picks)) * (2.0 * rules_.tail + cut_off_ * row_);
}

bool Covering::expect_more_cut_off() {
    constexpr double rounds = 3.0;
    const double more = (0.75 + kept_) / rounds;  // of a row
    if (row_ <= Length{} || expected_more_ >= rounds) return false;
    cut_off_ += more;
    ++expected_more_;
    return true;
}

std::vector<chain::Ball> Covering::balls_of(const Picks& picks) const {
    const bool cancels = label_cancels(picks);
    std::vector<chain::Ball> balls;
    balls.reserve(picks.size());
    for (const Candidate* pick : picks)
        balls.push_back(ball_of(*pick->skein, *pick->supply, cancels, damp_));
    return balls;
}

/// Joined anywhere, nothing is cut off.
/// What its spread grows by where a margin is asked for: need_against() has that of the need alone.
units::Ratio Covering::times_the_need(Length needed) const {
    const Length alone = out_.need.length.centre;
    return alone > Length{} ? units::Ratio(needed / alone) : units::Ratio(1.0);
}

measure::Chance Covering::by_sums(const Picks& picks, Length needed) const {
    Estimate<Length> need = need_against(label_cancels(picks));
    need.spread *= times_the_need(needed).value();
    need.centre = needed;
    const Judged judged = judge(picks);
    const std::size_t skeins = picks.size();
    const Length all = judged.supply.centre;
    const Length lost = held_back(skeins, all) + knots_of(picks) - cut_off(skeins, all) -
                        cut_off_ * row_ * static_cast<double>(knots_in(picks));
    return measure::chance_enough({judged.supply.centre - lost, judged.supply.spread}, need);
}

Planned Covering::worked_out(Length needed) const {
    // Hopeless by sums, so hopeless: joined at row ends it can only be less.
    constexpr double hopeless = 1e-4;
    Planned out;
    out.anywhere = by_sums(chosen_, needed);
    out.chance = out.anywhere;
    if (row_ <= Length{} || chosen_.empty() || out.anywhere.value.value() < hopeless) return out;
    need::RoleNeed need = out_.need;
    need.length = need_against(label_cancels(chosen_));
    need.length.spread *= times_the_need(needed).value();
    need.length.centre = needed;
    // The plan's own, as every command has it; inside rows it can only be more.
    const chain::JoinPlan plan =
        chain::plan_joins(need, course_->steps, balls_of(chosen_), joins_, course_->project);
    out.chance = chain::chance_of(plan);
    out.against_slip = plan.against_slip;
    const auto& pieces = course_->project->pieces;
    const bool restricted =
        joins_.rows_between > 0 ||
        std::any_of(pieces.begin(), pieces.end(),
                    [](const project::Piece& piece) { return !piece.joins.keep_free.empty(); });
    // Rows kept free stop a skein that is too short for them: no further length mends that.
    if (plan.against_slip && !restricted) out.missing = plan.missing;
    out.anywhere = std::max(out.anywhere, out.chance);
    if (!restricted || plan.finishes || out.chance >= rules_.confidence) return out;
    chain::Rules freely = joins_;
    freely.keep_rules = false;
    const chain::JoinPlan without =
        chain::plan_joins(need, course_->steps, balls_of(chosen_), freely, course_->project);
    out.against_rules = !without.rules_kept && chain::chance_of(without) >= rules_.confidence;
    return out;
}

/// Colours that go on in order take half a repeat at each join on average.
Length Covering::wound_off(std::size_t skeins) const {
    return skeins == 0
               ? Length{}
               : static_cast<double>(skeins - 1) / 2.0 * project::repeat_of(out_.role.colours);
}

/// Leaves out what adds more doubt than yarn: a crumb weighed on a coarse scale can lower the
/// chance. With skeins in order of doubt per length, the best set is a beginning of the list.
Covering::Picks Covering::without_doubtful(Picks picks) const {
    const auto doubt = [&](const Candidate* pick) {
        const stash::Supply& supply = *pick->supply;
        return supply.own * supply.own / (supply.length - 2.0 * rules_.tail);
    };
    std::stable_sort(picks.begin(), picks.end(),
                     [&](const Candidate* a, const Candidate* b) { return doubt(a) < doubt(b); });
    Tally tally(*this, picks);
    for (measure::Chance chance = tally.judged().chance; picks.size() > 1; picks.pop_back()) {
        tally.remove(*picks.back());
        const measure::Chance without = tally.judged().chance;
        if (without <= chance) break;
        chance = without;
    }
    return picks;
}

/// Takes over the best answer within one permitted set if it beats the one so far.
void Covering::try_set(Picks picks) {
    if (judge(picks).chance < rules_.confidence) picks = with_hand(without_doubtful(picks));
    const measure::Chance chance = judge(picks).chance;
    if (chance < rules_.confidence) {
        if (covered_ || (judged_any_ && chance_ >= chance)) return;
        judged_any_ = true;
        chance_ = chance;
        chosen_ = std::move(picks);
        return;
    }
    bool proven = true;
    Picks best = with_hand(cheapest(picks, proven));
    const Total cost = cost_of(best);
    proven_ = proven_ && proven;
    if (covered_ && cost.by(rules_.goals) >= cost_.by(rules_.goals)) return;
    covered_ = true;
    cost_ = cost;
    chosen_ = std::move(best);
}

/// The cheapest choice from a set that covers as a whole.
///
/// How much is wanted depends on the supply's spread, and that on the choice. So begin with a sure
/// supply, which no choice can undercut, and go up to the spread of each choice that fails until
/// one holds.
Covering::Picks Covering::cheapest(const Picks& picks, bool& proven) const {
    constexpr int rounds_at_most = 8;
    const Estimate<Length> need = need_against(label_cancels(picks));
    const Plan plan = plan_of(rules_);
    Demand demand;
    demand.lots = lots();
    std::vector<Stock> stock;
    std::map<std::string, std::size_t> lots;
    for (const Candidate* pick : picks) {
        const std::size_t lot =
            lots.emplace(stash::lot_key(*pick->skein), lots.size()).first->second;
        demand.fits.push_back({stock.size(), pick->substitution});
        stock.push_back({usable(*pick) + plan.tails, stash::is_part(*pick->skein), lot,
                         pick->skein->id, false});
    }
    Length spread{};
    for (int round = 0; round <= rounds_at_most; ++round) {
        if (round == rounds_at_most) spread = judge(picks).supply.spread;
        const Length enough = measure::supply_needed(need, spread, rules_.confidence);
        demand.need = quanta_for(enough);
        const Allocation found = allocate(stock, {demand}, plan);
        if (!found.served[0].covered) break;
        Picks chosen;
        for (const Piece& piece : found.served[0].pieces) chosen.push_back(picks[piece.skein]);
        const Judged judged = judge(chosen);
        if (judged.chance >= rules_.confidence) {
            proven = found.proven();
            return round == 0 ? chosen : without_idle(std::move(chosen));
        }
        spread = std::max(spread, judged.supply.spread);
    }
    // Rounding to decimetres took the last hair.
    proven = false;
    return without_idle(picks);
}

/// With the skein in hand, and then without those that it spares.
Covering::Picks Covering::with_hand(Picks picks) const {
    if (hand_ == nullptr || std::find(picks.begin(), picks.end(), hand_) != picks.end())
        return picks;
    picks.push_back(hand_);
    return judge(picks).chance < rules_.confidence ? picks : without_idle(std::move(picks));
}

/// Without the skeins that can be spared, whole ones and long ones first.
Covering::Picks Covering::without_idle(Picks picks) const {
    constexpr double hair = 1e-9;  // adding and taking off leaves noise, and it must not decide
    const auto key = [](const Candidate* pick) {
        return std::pair(stash::is_part(*pick->skein), -pick->supply->length);
    };
    std::stable_sort(picks.begin(), picks.end(),
                     [&](const Candidate* a, const Candidate* b) { return key(a) < key(b); });
    Tally tally(*this, picks);
    Picks kept;
    for (std::size_t at = 0; at < picks.size(); ++at) {
        const bool last = kept.empty() && at + 1 == picks.size();
        if (picks[at] == hand_) {
            kept.push_back(picks[at]);
            continue;
        }
        tally.remove(*picks[at]);
        if (!last && tally.judged().chance.value.value() >= rules_.confidence.value.value() + hair)
            continue;
        tally.add(*picks[at]);
        kept.push_back(picks[at]);
    }
    return kept;
}

Total Covering::cost_of(const Picks& picks) const {
    const Quanta tails = plan_of(rules_).tails;
    std::set<std::string> lots;
    Total cost;
    for (const Candidate* pick : picks) {
        lots.insert(stash::lot_key(*pick->skein));
        if (!stash::is_part(*pick->skein)) ++cost.of(Goal::whole_opened);
        ++cost.of(Goal::pieces);
        cost.of(Goal::substitution) += pick->substitution;
        cost.of(Goal::opened) += usable(*pick) + tails;
    }
    cost.of(Goal::extra_lots) = static_cast<std::int64_t>(lots.size()) - 1;
    return cost;
}

Quanta Covering::usable(const Candidate& candidate) const {
    return std::max<Quanta>(
        0, rounded_down(candidate.supply->length - 2.0 * rules_.tail - wound_off(2) -
                        cut_off_ * row_ - knots_of({&candidate})));
}

Quanta Covering::wanted(Length spread) const {
    const Estimate<Length> need = need_against(label_cancels(chosen_));
    return quanta_for(measure::supply_needed(need, spread, rules_.confidence));
}

/// Every skein is counted without what is wound off or cut off before it; the first has nothing.
Quanta Covering::quanta_for(Length enough) const {
    return std::max<Quanta>(1, rounded_up(enough - wound_off(2) - cut_off_ * row_));
}

Quanta Covering::rest_of_row() const {
    return rounded_down(wound_off(2) + cut_off_ * row_);
}

void Covering::settle(Picks picks) {
    chosen_ = without_idle(with_hand(std::move(picks)));
    covered_ = true;
}

const Candidate* Covering::share_of(const Candidate& candidate, Quanta length) {
    const Length all = candidate.supply->length;
    const Length taken = std::min(all, static_cast<double>(length) * quantum);
    Candidate& share = cut_.emplace_back(candidate);
    share.supply->length = taken;
    share.supply->own *= taken / all;
    share.supply->shared *= taken / all;
    return &share;
}

/// Parts first, each in the stash's order.
void Covering::put_in_order() {
    std::map<const stash::Skein*, Length> chosen;
    for (const Candidate* pick : chosen_) chosen[pick->skein] += pick->supply->length;
    for (const bool part : {true, false})
        for (const Candidate& candidate : out_.candidates) {
            const auto pick = chosen.find(candidate.skein);
            if (stash::is_part(*candidate.skein) != part || pick == chosen.end()) continue;
            out_.chosen.push_back(*candidate.skein);
            if (pick->second < candidate.supply->length)
                out_.shares.push_back({candidate.skein->id, pick->second});
        }
    std::sort(out_.shares.begin(), out_.shares.end(),
              [](const Share& a, const Share& b) { return base::naturally_before(a.id, b.id); });
}

RoleCover Covering::answer() {
    const Judged judged = judge(chosen_);
    const Planned plan = planned(out_.need.length.centre);
    const Planned with_margin = rules_.margin.value() > 0.0 ? planned(needed()) : plan;
    const auto trusted = [&](measure::Chance chance) {
        return measure::Chance{units::Ratio(chance.value * out_.need.trust())};
    };
    out_.chance = trusted(plan.chance);
    out_.anywhere = trusted(plan.anywhere);
    // A plan that keeps a skein in reserve does not count it; asked for more it does.
    out_.with_margin = trusted(std::min(with_margin.chance, plan.chance));
    out_.rows_known = row_ > Length{} || (course_ && joins_.where == chain::Where::anywhere);
    out_.balls = balls_of(chosen_);
    out_.supply = judged.supply;
    out_.label_cancels = label_cancels(chosen_);
    if (out_.label_cancels) out_.damp = Tally(*this, chosen_).damp();
    put_in_order();
    out_.proven = proven_;
    out_.tails = 2.0 * static_cast<double>(chosen_.size()) * rules_.tail;
    out_.wound_off = wound_off(chosen_.size());
    out_.compared = need_against(out_.label_cancels);
    const Length all = out_.supply.centre;
    out_.cut_off = cut_off(chosen_.size(), all) + knots_of(chosen_);
    out_.spare = all - held_back(chosen_.size(), all) - knots_of(chosen_) - out_.needed;
    out_.confidence = rules_.confidence;
    out_.against_slip = plan.against_slip;
    out_.against_rules = plan.against_rules;
    out_.verdict = verdict_for(out_.chance, rules_.confidence);
    const bool open = out_.against_slip || !out_.need.contradictions.empty();
    if (open && out_.verdict == Verdict::covered) out_.verdict = Verdict::too_close_to_call;
    out_.to_be_sure =
        out_.verdict == Verdict::covered ? Length{} : std::max(missing(chosen_), plan.missing);
    if (with_margin.against_slip || out_.with_margin < trusted(rules_.confidence))
        // Enough by sums, and not joined where the project permits: a row more at least.
        out_.margin_short = std::max({missing(chosen_), with_margin.missing, row_, quantum});
    leave_open_what_is_not_known();
    for (const Candidate* pick : chosen_)
        if (stated(pick->reason)) out_.notes.push_back(OfOneSkein{pick->skein->id, pick->reason});
    for (Candidate& candidate : out_.candidates)
        if (candidate.supply && !lot_.empty() && stash::lot_key(*candidate.skein) != lot_)
            candidate.reason = lot_ == lot_of_work_ ? Reason(OtherLotThanItsWork{})
                                                    : Reason(OtherLotThanItsStrand{});
    advise(out_, rules_);
    return std::move(out_);
}

}  // namespace skeinfall::cover

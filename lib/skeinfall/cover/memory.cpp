#include "skeinfall/cover/memory.hpp"

#include <algorithm>
#include <string_view>

#include "skeinfall/cover/covering.hpp"

namespace skeinfall::cover {
namespace {

void add_figure(std::string& key, double figure) {
    key.append(reinterpret_cast<const char*>(&figure), sizeof figure);
}

void add_word(std::string& key, std::string_view word) {
    key += word;
    key += '\0';
}

}  // namespace

/// All that the choice among these, or the plan with them, hangs on, for one role and one make.
std::string Covering::key_of(const Picks& picks, units::Length needed) const {
    std::string key;
    key.reserve(64 + picks.size() * 64);
    add_figure(key, needed.value());
    add_figure(key, rules_.confidence.value.value());
    add_figure(key, cut_off_);
    add_word(key, lot_);
    add_word(key, out_.in_hand);
    for (const Candidate* pick : picks) {
        const stash::Supply& supply = *pick->supply;
        add_word(key, pick->skein->id);
        add_figure(key, supply.length.value());
        add_figure(key, supply.own.value());
        add_figure(key, supply.shared.value());
        // What is bought in two put-ups bears one id.
        key += label_cancels({pick}) ? 'l' : '-';
        key += pick->skein->dye_lot ? 'd' : '-';
    }
    return key;
}

RoleChoice Covering::choice_among(const Picks& fitting) const {
    std::unordered_map<const Candidate*, std::uint32_t> places;
    for (std::size_t at = 0; at < fitting.size(); ++at)
        places.emplace(fitting[at], static_cast<std::uint32_t>(at));
    RoleChoice out;
    for (const Candidate* pick : chosen_) out.chosen.push_back(places.at(pick));
    for (const Candidate* pick : basis_) out.basis.push_back(places.at(pick));
    out.judged_any = judged_any_;
    out.chance = chance_;
    out.covered = covered_;
    out.proven = proven_;
    out.cost = cost_;
    return out;
}

void Covering::take_over(const RoleChoice& choice, const Picks& fitting) {
    const auto hand = std::find_if(fitting.begin(), fitting.end(), [&](const Candidate* one) {
        return !out_.in_hand.empty() && one->skein->id == out_.in_hand;
    });
    hand_ = hand == fitting.end() ? nullptr : *hand;
    chosen_.clear();
    basis_.clear();
    for (const std::uint32_t place : choice.chosen) chosen_.push_back(fitting[place]);
    for (const std::uint32_t place : choice.basis) basis_.push_back(fitting[place]);
    judged_any_ = choice.judged_any;
    chance_ = choice.chance;
    covered_ = choice.covered;
    proven_ = choice.proven;
    cost_ = choice.cost;
}

Planned Covering::planned(units::Length needed) const {
    for (const Remembered& one : remembered_)
        if (one.needed == needed && one.picks == chosen_) return one.plan;
    const std::string key = key_of(chosen_, needed);
    auto known = memory_->plans.find(key);
    if (known == memory_->plans.end())
        known = memory_->plans.emplace(key, worked_out(needed)).first;
    remembered_.push_back({chosen_, needed, known->second});
    return remembered_.back().plan;
}

}  // namespace skeinfall::cover

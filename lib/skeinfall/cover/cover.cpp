#include "skeinfall/cover/cover.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/choose.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

using measure::Estimate;
using units::Length;

constexpr Length quantum = units::metre / 10.0;
constexpr double quantum_noise = 1e-9;

Quanta rounded_up(Length length) {
    return static_cast<Quanta>(std::ceil(length / quantum - quantum_noise));
}

Quanta rounded_down(Length length) {
    return static_cast<Quanta>(std::floor(length / quantum + quantum_noise));
}

std::string ids_of(const std::vector<stash::Skein>& skeins) {
    std::vector<std::string> ids;
    ids.reserve(skeins.size());
    for (const stash::Skein& skein : skeins) ids.push_back(skein.id);
    return base::join(ids, ", ");
}

/// Works out one role; its steps share what they find.
class Covering {
  public:
    Covering(const project::Role& role, const need::RoleNeed& need,
             const std::vector<stash::Skein>& stash, const Rules& rules)
        : rules_(rules) {
        out_.role = role;
        out_.need = need;
        out_.needed = need.length.centre * (1.0 + rules.margin.value());
        out_.candidates = candidates_for(role, 2.0 * rules.tail, stash);
        for (const Candidate& candidate : out_.candidates)
            if (candidate.supply) fitting_.push_back(candidate.skein);
        // Sums are taken in one order whatever the stash's, so that not even their last digit
        // depends on it.
        std::sort(fitting_.begin(), fitting_.end(),
                  [](const stash::Skein& a, const stash::Skein& b) { return a.id < b.id; });
    }

    RoleCover run() {
        for (std::vector<stash::Skein>& set : permitted_sets()) try_set(std::move(set));
        if (fitting_.empty()) judge({});
        finish();
        return std::move(out_);
    }

  private:
    /// The largest sets the lot rule allows: each lot by itself, or all of them together; and
    /// within each, the skeins of the swatch's own label, which may cover where all do not.
    [[nodiscard]] std::vector<std::vector<stash::Skein>> permitted_sets() const {
        std::map<std::string, std::vector<stash::Skein>> by_lot;
        for (const stash::Skein& skein : fitting_)
            by_lot[out_.role.one_lot ? stash::lot_key(skein) : std::string()].push_back(skein);
        std::vector<std::vector<stash::Skein>> sets;
        for (auto& [key, skeins] : by_lot) {
            std::vector<stash::Skein> own_label;
            for (const stash::Skein& skein : skeins)
                if (label_cancels({skein})) own_label.push_back(skein);
            const bool some = !own_label.empty() && own_label.size() < skeins.size();
            sets.push_back(std::move(skeins));
            if (some) sets.push_back(std::move(own_label));
        }
        return sets;
    }

    /// In the yarn the swatch was weighed in, the label's length per mass cancels.
    [[nodiscard]] bool label_cancels(const std::vector<stash::Skein>& skeins) const {
        if (!out_.need.by_mass || out_.role.name.empty() || skeins.empty()) return false;
        return std::all_of(skeins.begin(), skeins.end(), [&](const stash::Skein& skein) {
            const auto grist = yarn::label_grist(skein.yarn.label);
            return base::same_word(skein.yarn.name, out_.role.name) && grist && out_.need.grist &&
                   std::abs(grist->centre / *out_.need.grist - 1.0) < 1e-6;
        });
    }

    [[nodiscard]] Estimate<Length> need_against(bool cancels) const {
        const Estimate<Length> need = cancels ? out_.need.without_shared() : out_.need.length;
        return {out_.needed, need.spread};
    }

    [[nodiscard]] Length tails_of(const std::vector<stash::Skein>& skeins) const {
        return 2.0 * static_cast<double>(skeins.size()) * rules_.tail;
    }

    struct Judged {
        measure::Chance chance;
        Estimate<Length> supply;
        Length missing{};  // to reach the confidence
    };

    [[nodiscard]] Judged judge_set(const std::vector<stash::Skein>& skeins) const {
        const bool cancels = label_cancels(skeins);
        const Estimate<Length> supply = stash::total(skeins, cancels);
        const Estimate<Length> need = need_against(cancels);
        const Estimate<Length> usable{supply.centre - tails_of(skeins), supply.spread};
        const Length enough = measure::supply_needed(need, supply.spread, rules_.confidence);
        return {measure::chance_enough(usable, need), supply,
                std::max(Length{}, enough - usable.centre)};
    }

    void judge(const std::vector<stash::Skein>& skeins) {
        const Judged judged = judge_set(skeins);
        out_.chosen = skeins;
        out_.chance = judged.chance;
        out_.supply = judged.supply;
        out_.to_be_sure = judged.missing;
        out_.label_cancels = label_cancels(skeins);
        judged_any_ = true;
    }

    /// Leaves out what adds more doubt than yarn: a crumb weighed on a coarse scale can lower the
    /// chance. With skeins in order of doubt per length, the best set is a beginning of the list.
    [[nodiscard]] std::vector<stash::Skein> without_doubtful(
        std::vector<stash::Skein> skeins) const {
        const auto doubt = [&](const stash::Skein& skein) {
            const stash::Supply supply = *stash::supply_of(skein);
            return supply.own * supply.own / (supply.length - 2.0 * rules_.tail);
        };
        std::stable_sort(
            skeins.begin(), skeins.end(),
            [&](const stash::Skein& a, const stash::Skein& b) { return doubt(a) < doubt(b); });
        for (measure::Chance chance = judge_set(skeins).chance; skeins.size() > 1;) {
            const stash::Skein last = skeins.back();
            skeins.pop_back();
            const measure::Chance without = judge_set(skeins).chance;
            if (without <= chance) {
                skeins.push_back(last);
                break;
            }
            chance = without;
        }
        return skeins;
    }

    /// Takes over the best answer within one permitted set if it beats the one so far.
    void try_set(std::vector<stash::Skein> skeins) {
        if (judge_set(skeins).chance < rules_.confidence) skeins = without_doubtful(skeins);
        const Judged everything = judge_set(skeins);
        if (everything.chance < rules_.confidence) {
            if (covered_) return;
            if (!judged_any_ || out_.chance < everything.chance) judge(skeins);
            return;
        }
        bool proven = true;
        const std::vector<stash::Skein> best = cheapest(skeins, proven);
        const Cost cost = cost_of(best);
        proven_ = proven_ && proven;
        if (covered_ && !(cost < cost_)) return;
        covered_ = true;
        cost_ = cost;
        judge(best);
    }

    /// The cheapest choice from a set that covers as a whole.
    ///
    /// How much is wanted depends on the supply's spread, and that on the choice. So begin with a
    /// sure supply, which no choice can undercut, and go up to the spread of each choice that
    /// fails until one holds.
    [[nodiscard]] std::vector<stash::Skein> cheapest(const std::vector<stash::Skein>& skeins,
                                                     bool& proven) const {
        constexpr int rounds_at_most = 8;
        const Estimate<Length> need = need_against(label_cancels(skeins));
        const std::vector<Item> items = items_of(skeins);
        Length spread{};
        for (int round = 0; round <= rounds_at_most; ++round) {
            if (round == rounds_at_most) spread = judge_set(skeins).supply.spread;
            const Length wanted = measure::supply_needed(need, spread, rules_.confidence);
            const Choice choice = choose(items, std::max<Quanta>(1, rounded_up(wanted)),
                                         out_.role.one_lot ? Lots::one : Lots::fewest);
            if (!choice.covers) break;
            std::vector<stash::Skein> chosen;
            for (const std::size_t at : choice.items) chosen.push_back(skeins[at]);
            const Judged judged = judge_set(chosen);
            if (judged.chance >= rules_.confidence) {
                proven = choice.proven;
                return round == 0 ? chosen : without_idle(std::move(chosen));
            }
            spread = std::max(spread, judged.supply.spread);
        }
        // Rounding to decimetres took the last hair.
        proven = false;
        return without_idle(skeins);
    }

    /// Without the skeins that can be spared, whole ones and long ones first.
    [[nodiscard]] std::vector<stash::Skein> without_idle(std::vector<stash::Skein> skeins) const {
        const auto key = [](const stash::Skein& skein) {
            return std::pair(skein.part, -stash::supply_of(skein)->length);
        };
        std::stable_sort(
            skeins.begin(), skeins.end(),
            [&](const stash::Skein& a, const stash::Skein& b) { return key(a) < key(b); });
        for (std::size_t at = 0; at < skeins.size() && skeins.size() > 1;) {
            std::vector<stash::Skein> rest = skeins;
            rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(at));
            if (judge_set(rest).chance >= rules_.confidence)
                skeins = std::move(rest);
            else
                ++at;
        }
        return skeins;
    }

    [[nodiscard]] Cost cost_of(const std::vector<stash::Skein>& skeins) const {
        std::set<std::size_t> lots;
        Cost cost;
        for (const Item& item : items_of(skeins)) {
            lots.insert(item.lot);
            if (!item.part) ++cost.whole_opened;
            ++cost.pieces;
            cost.opened += item.usable;
        }
        cost.extra_lots = lots.size() - 1;
        return cost;
    }

    [[nodiscard]] std::vector<Item> items_of(const std::vector<stash::Skein>& skeins) const {
        std::map<std::string, std::size_t> lots;
        std::vector<Item> items;
        items.reserve(skeins.size());
        for (const stash::Skein& skein : skeins) {
            const std::size_t lot = lots.emplace(stash::lot_key(skein), lots.size()).first->second;
            items.push_back({rounded_down(stash::supply_of(skein)->length - 2.0 * rules_.tail),
                             skein.part, lot, skein.id});
        }
        return items;
    }

    /// Parts first, each in the stash's order.
    void put_in_order() {
        std::set<std::string> ids;
        for (const stash::Skein& skein : out_.chosen) ids.insert(skein.id);
        out_.chosen.clear();
        for (const bool part : {true, false})
            for (const Candidate& candidate : out_.candidates)
                if (candidate.skein.part == part && ids.contains(candidate.skein.id))
                    out_.chosen.push_back(candidate.skein);
    }

    void finish() {
        put_in_order();
        out_.proven = proven_;
        out_.tails = tails_of(out_.chosen);
        out_.compared = need_against(out_.label_cancels);
        out_.spare = out_.supply.centre - out_.tails - out_.needed;
        out_.verdict = verdict_for(out_.chance, rules_.confidence);
        if (out_.verdict == Verdict::covered) out_.to_be_sure = Length{};
        note_lots();
        if (out_.verdict == Verdict::too_close_to_call) say_what_settles();
        if (out_.verdict != Verdict::covered) say_what_to_buy();
    }

    void note_lots() {
        std::set<std::string> lots;
        std::vector<stash::Skein> unknown;
        for (const stash::Skein& skein : out_.chosen) {
            lots.insert(stash::lot_key(skein));
            if (!skein.dye_lot && !skein.shade_group) unknown.push_back(skein);
        }
        if (lots.size() > 1)
            out_.notes.push_back(
                fmt::format("{} lots: alternate them every two rows where they meet, and look at "
                            "them side by side in daylight first",
                            lots.size()));
        else if (!unknown.empty())
            out_.notes.push_back("lot unknown: " + ids_of(unknown));
    }

    /// Orders the causes of the band by size; each names the measurement that narrows it.
    void say_what_settles() {
        struct Weighted {
            Length spread;
            std::string remedy;
        };
        std::vector<Weighted> all;
        for (const need::Cause& cause : out_.need.causes)
            all.push_back({out_.need.length.centre * cause.relative, cause.what_narrows_it});
        if (out_.need.by_mass && !out_.label_cancels)
            all.push_back({out_.need.length.centre * out_.need.shared,
                           "Measure 10 yd of the swatch's yarn and weigh it: its label's length "
                           "per mass is only known to a few per cent."});
        std::vector<stash::Skein> unweighed;
        Length unweighed_spread{};
        Length weighed_spread{};
        Length shared{};
        for (const stash::Skein& skein : out_.chosen) {
            const stash::Supply supply = *stash::supply_of(skein);
            if (supply.basis == stash::SupplyBasis::label) {
                unweighed.push_back(skein);
                unweighed_spread = measure::in_quadrature(unweighed_spread, supply.own);
            } else {
                weighed_spread = measure::in_quadrature(weighed_spread, supply.own);
            }
            shared += supply.shared;
        }
        if (!unweighed.empty())
            all.push_back({unweighed_spread, "Weigh " + ids_of(unweighed) +
                                                 ": never weighed, so only the label speaks for "
                                                 "them."});
        all.push_back({weighed_spread, "Weigh the skeins on a finer scale."});
        if (!out_.label_cancels)
            all.push_back({shared,
                           "Measure 10 yd from one of the skeins and weigh it: the label's length "
                           "per mass is only known to a few per cent."});
        std::stable_sort(all.begin(), all.end(),
                         [](const Weighted& a, const Weighted& b) { return a.spread > b.spread; });
        constexpr std::size_t worth_saying = 2;
        constexpr double too_little = 0.003;  // of the need: no measurement would change much
        for (const Weighted& cause : all)
            if (out_.settles.size() < worth_saying &&
                cause.spread > out_.need.length.centre * too_little)
                out_.settles.push_back(cause.remedy);
    }

    void say_what_to_buy() {
        if (!out_.chosen.empty()) {
            const stash::Skein& like = out_.chosen.front();
            if (like.yarn.label.length) {
                const Length usable = like.yarn.label.length->value - 2.0 * rules_.tail;
                if (usable > Length{}) {
                    const double count = std::ceil(out_.to_be_sure / usable - quantum_noise);
                    out_.settles.push_back(fmt::format(
                        "Buy {:.0f} more skein{} of {} ({}){}.", count, count == 1.0 ? "" : "s",
                        like.yarn.name, like.yarn.label.length->text,
                        out_.role.one_lot ? " and match the lot: " + stash::lot_text(like) : ""));
                }
            }
            return;
        }
        out_.settles.push_back(
            "Buy " +
            units::text(measure::supply_needed(out_.compared, Length{}, rules_.confidence),
                        units::shown::metres, units::Step::one, units::Rounding::up) +
            " of a fitting yarn, all of one lot.");
    }

    Rules rules_;
    RoleCover out_;
    std::vector<stash::Skein> fitting_;
    bool judged_any_ = false;
    bool covered_ = false;
    bool proven_ = true;
    Cost cost_;
};

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
    return Covering(role, need, stash, rules).run();
}

MakeCover cover_make(const project::Project& project, const need::MakeNeed& need,
                     const std::vector<stash::Skein>& stash, const Rules& rules) {
    MakeCover make;
    make.verdict = Verdict::covered;
    std::vector<stash::Skein> left = stash;
    for (const need::RoleNeed& role_need : need.roles) {
        RoleCover cover = cover_role(*project.role(role_need.role), role_need, left, rules);
        std::set<std::string> taken;
        for (const stash::Skein& skein : cover.chosen) taken.insert(skein.id);
        std::erase_if(left, [&](const stash::Skein& skein) { return taken.contains(skein.id); });
        make.verdict = std::max(make.verdict, cover.verdict);
        make.roles.push_back(std::move(cover));
    }
    return make;
}

}  // namespace skeinfall::cover

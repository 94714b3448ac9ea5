#include <algorithm>
#include <map>
#include <variant>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

std::optional<units::Mass> mass_of(const stash::Skein& skein) {
    if (skein.weighing) return measure::net_mass(skein.weighing->reading()).centre;
    if (skein.yarn.label.mass) return skein.yarn.label.mass->value;
    return std::nullopt;
}

/// What is in it at most; nothing where nobody can say.
std::optional<Length> at_most(const Candidate& candidate, const project::Role& role) {
    const stash::Skein& skein = *candidate.skein;
    if (candidate.only_unweighed) {
        const auto& length = skein.yarn.label.length;
        return length ? std::optional(length->value) : std::nullopt;
    }
    const std::optional<units::Mass> mass = mass_of(skein);
    if (!mass) return std::nullopt;
    const auto weight = skein.yarn.weight ? skein.yarn.weight : role.weight;
    const auto usual = weight ? yarn::published_grist(*weight) : std::nullopt;
    return Length(*mass * (usual && usual->most ? *usual->most : yarn::most_hand_grist));
}

/// Where a fibre is kept out, whether skeins whose fibres are not recorded would be enough.
bool fibres_may_do(const std::vector<Candidate>& all, Length needed) {
    Length sum{};
    for (const Candidate& one : all) {
        const auto* const avoided = std::get_if<AvoidedFibre>(&one.reason);
        if (avoided == nullptr || avoided->objection.presence != yarn::Presence::content_unknown)
            continue;
        if (const auto supply = stash::supply_of(*one.skein)) sum += supply->length;
    }
    return sum > needed;
}

}  // namespace

/// What nobody knows yet is no shortage: parts never weighed, skeins whose length is not noted, and
/// the last skein of a total that was counted in whole skeins; nor a fibre that nobody read.
void Covering::leave_open_what_is_not_known() {
    if (out_.verdict == Verdict::covered) return;
    std::map<std::string, std::vector<const Candidate*>> unknown;  // by what may be mixed
    for (const Candidate& candidate : out_.candidates)
        if (candidate.only_unweighed || candidate.only_unmeasured)
            unknown[out_.role.one_lot ? stash::lot_key(*candidate.skein) : std::string()].push_back(
                &candidate);
    for (const auto& [lot, candidates] : unknown) {
        const bool beside_chosen =
            !out_.role.one_lot || chosen_.empty() || stash::lot_key(*chosen_.front()->skein) == lot;
        Length most{};
        units::Mass weight{};
        bool told = true;
        for (const Candidate* candidate : candidates) {
            const auto one = at_most(*candidate, out_.role);
            told = told && one;
            if (one) most += *one - 2.0 * rules_.tail;
            if (candidate->only_unmeasured)
                weight += mass_of(*candidate->skein).value_or(units::Mass{});
        }
        // Of one yarn a weight is as good as a length, whatever its length per weight is.
        const auto& stated = out_.role.total_as_mass.values;
        const bool by_weight = stated.size() == 1 && weight >= stated.front();
        if (told && !by_weight && most < (beside_chosen ? out_.to_be_sure : out_.needed)) continue;
        for (const Candidate* candidate : candidates)
            (candidate->only_unweighed ? out_.weigh_first : out_.measure_first)
                .push_back(candidate->skein->id);
    }
    for (auto* ids : {&out_.weigh_first, &out_.measure_first})
        std::sort(ids->begin(), ids->end(), base::naturally_before);
    const bool may_be_enough =
        out_.need.may_be_less > Length{} && out_.spare + out_.need.may_be_less > Length{};
    const bool open =
        !out_.weigh_first.empty() || !out_.measure_first.empty() || may_be_enough ||
        (!out_.role.avoid.empty() && fibres_may_do(every_candidate(out_), out_.needed));
    if (out_.verdict == Verdict::is_short && open) out_.verdict = Verdict::too_close_to_call;
}

}  // namespace skeinfall::cover

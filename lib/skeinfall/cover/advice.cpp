#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

constexpr double noise = 1e-9;  // of a skein

std::string ids_of(const std::vector<stash::Skein>& skeins) {
    std::vector<std::string> ids;
    ids.reserve(skeins.size());
    for (const stash::Skein& skein : skeins) ids.push_back(skein.id);
    return base::join(ids, ", ");
}

void note_lots(RoleCover& cover) {
    std::set<std::string> lots;
    std::vector<stash::Skein> unknown;
    for (const stash::Skein& skein : cover.chosen) {
        lots.insert(stash::lot_key(skein));
        if (!skein.dye_lot && !skein.shade_group) unknown.push_back(skein);
    }
    if (lots.size() > 1)
        cover.notes.push_back(
            fmt::format("{} lots: alternate them every two rows where they meet, and look at "
                        "them side by side in daylight first",
                        lots.size()));
    else if (!unknown.empty())
        cover.notes.push_back("lot unknown: " + ids_of(unknown));
}

/// Orders the causes of the band by size; each names the measurement that narrows it.
void say_what_settles(RoleCover& cover) {
    struct Weighted {
        Length spread;
        std::string remedy;
    };
    std::vector<Weighted> all;
    for (const need::Cause& cause : cover.need.causes)
        all.push_back({cover.need.length.centre * cause.relative, cause.what_narrows_it});
    if (cover.need.by_mass && !cover.label_cancels)
        all.push_back({cover.need.length.centre * cover.need.shared,
                       "Measure 10 yd of the swatch's yarn and weigh it: its label's length "
                       "per mass is only known to a few per cent."});
    std::vector<stash::Skein> unweighed;
    Length unweighed_spread{};
    Length weighed_spread{};
    Length shared{};
    for (const stash::Skein& skein : cover.chosen) {
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
    if (!cover.label_cancels)
        all.push_back({shared,
                       "Measure 10 yd from one of the skeins and weigh it: the label's length "
                       "per mass is only known to a few per cent."});
    std::stable_sort(all.begin(), all.end(),
                     [](const Weighted& a, const Weighted& b) { return a.spread > b.spread; });
    constexpr std::size_t worth_saying = 2;
    constexpr double too_little = 0.003;  // of the need: no measurement would change much
    for (const Weighted& cause : all)
        if (cover.settles.size() < worth_saying &&
            cause.spread > cover.need.length.centre * too_little)
            cover.settles.push_back(cause.remedy);
}

void say_what_to_buy(RoleCover& cover, const Rules& rules) {
    if (!cover.chosen.empty()) {
        const stash::Skein& like = cover.chosen.front();
        if (like.yarn.label.length) {
            const Length usable = like.yarn.label.length->value - 2.0 * rules.tail;
            if (usable > Length{}) {
                const double count = std::ceil(cover.to_be_sure / usable - noise);
                cover.settles.push_back(fmt::format(
                    "Buy {:.0f} more skein{} of {} ({}){}.", count, count == 1.0 ? "" : "s",
                    like.yarn.name, like.yarn.label.length->text,
                    cover.role.one_lot ? " and match the lot: " + stash::lot_text(like) : ""));
            }
        }
        return;
    }
    cover.settles.push_back(
        "Buy " +
        units::text(measure::supply_needed(cover.compared, Length{}, rules.confidence),
                    units::shown::metres, units::Step::one, units::Rounding::up) +
        " of a fitting yarn, all of one lot.");
}

}  // namespace

void advise(RoleCover& cover, const Rules& rules) {
    note_lots(cover);
    if (cover.verdict == Verdict::too_close_to_call) say_what_settles(cover);
    if (cover.verdict != Verdict::covered) say_what_to_buy(cover, rules);
}

}  // namespace skeinfall::cover

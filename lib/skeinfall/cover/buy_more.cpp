#include "skeinfall/cover/buy_more.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>

#include "skeinfall/cover/buy.hpp"

namespace skeinfall::cover {
namespace {

/// What was chosen and so many more like the first, all of one lot.
std::vector<stash::Skein> with_more(const RoleCover& role, std::int64_t more) {
    std::vector<stash::Skein> out = role.chosen;
    stash::Skein one = role.chosen.front();
    one.part = false;
    one.weighing.reset();
    one.since.reset();
    one.set_aside.clear();
    for (std::int64_t i = 0; i < more; ++i) {
        one.id = "more-" + std::to_string(i + 1);
        out.push_back(one);
    }
    const stash::Skein& first = role.chosen.front();
    for (stash::Skein& skein : out) {
        skein.dye_lot = first.dye_lot ? first.dye_lot : "one";
        skein.shade_group = first.shade_group;
    }
    return out;
}

}  // namespace

void count_what_to_buy(const project::Project& project, const need::MakeNeed& make,
                       const Rules& rules, MakeCover& cover) {
    for (RoleCover& role : cover.roles) {
        // No count makes it sure before the figure that cannot be is put right.
        if (!role.need.contradictions.empty())
            std::erase_if(role.settles, [](const Settling& step) {
                return std::holds_alternative<BuyMore>(step.what);
            });
        for (Settling& step : role.settles) {
            auto* const buy = std::get_if<BuyMore>(&step.what);
            if (buy == nullptr || role.chosen.empty()) continue;
            need::MakeNeed alone = make;
            alone.roles = {role.need};
            const auto is_covered = [&](std::int64_t more) {
                const auto stash = with_more(role, more);
                return cover_make(project, alone, stash, rules).roles.front().verdict ==
                       Verdict::covered;
            };
            const std::int64_t by_sums = buy->skeins;
            if (by_sums > most_bought) continue;
            const std::int64_t most = by_sums + by_sums / 2 + 4;
            std::int64_t enough = by_sums;
            while (enough <= most && !is_covered(enough))
                enough += std::max<std::int64_t>(1, by_sums / 8);
            if (enough > most) {
                step.what = NoCountHolds{most, buy->yarn, buy->put_up};
                continue;
            }
            std::int64_t too_few =
                std::max(by_sums - 1, enough - std::max<std::int64_t>(1, by_sums / 8));
            while (enough - too_few > 1) {
                const std::int64_t between = too_few + (enough - too_few) / 2;
                (is_covered(between) ? enough : too_few) = between;
            }
            buy->skeins = enough;
        }
    }
}

}  // namespace skeinfall::cover

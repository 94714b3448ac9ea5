#include "skeinfall/stash/reserve.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"

namespace skeinfall::stash {

std::optional<units::Length> outstanding(const Skein& skein, const Promise& promise) {
    if (!promise.amount) return std::nullopt;
    units::Length length = -promise.used_length;
    units::Mass mass = -promise.used_mass;
    if (const auto* of_length = std::get_if<units::Printed<units::Length>>(&*promise.amount))
        length += of_length->value;
    else
        mass += std::get<units::Printed<units::Mass>>(*promise.amount).value;
    if (mass.value() != 0.0) {
        const auto grist = yarn::label_grist(skein.yarn.label);
        if (!grist) return std::nullopt;
        length += mass * grist->centre;
    }
    return std::max(length, units::Length{});
}

std::string promise_text(const Promise& promise) {
    return (promise.amount ? text(*promise.amount) : "all") + " for " + promise.project +
           (promise.role.empty() ? "" : " (" + promise.role + ")");
}

std::optional<Kept> kept_from(const Skein& skein, std::string_view project, std::string_view role) {
    for (const Promise& promise : skein.set_aside) {
        if (!base::same_word(promise.project, project)) return Kept{&promise, true};
        if (!promise.role.empty() && !base::same_word(promise.role, role))
            return Kept{&promise, false};
    }
    return std::nullopt;
}

std::vector<Skein> as_found_by(std::vector<Skein> skeins,
                               const std::vector<std::string>& projects) {
    const auto theirs = [&](const Promise& promise) {
        return std::any_of(projects.begin(), projects.end(), [&](const std::string& project) {
            return base::same_word(project, promise.project);
        });
    };
    for (Skein& skein : skeins) {
        if (skein.set_aside.empty()) continue;
        std::vector<Promise> left;
        for (Promise& promise : skein.set_aside) {
            const auto length = outstanding(skein, promise);
            if (theirs(promise) || !length) {
                left.push_back(std::move(promise));
                continue;
            }
            if (!skein.since) skein.since.emplace();
            skein.since->length -= *length;
            skein.part = true;
        }
        skein.set_aside = std::move(left);
    }
    return skeins;
}

}  // namespace skeinfall::stash

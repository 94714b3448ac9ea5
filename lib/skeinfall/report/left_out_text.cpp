#include <algorithm>
#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/left_out.hpp"

namespace skeinfall::report::detail {
namespace {

using base::shown_inert;

std::string some_of(std::vector<std::string> names) {
    constexpr std::size_t most = 4;
    const std::size_t all = names.size();
    if (all > most) names.resize(most);
    return shown_inert(base::join(names, ", ")) +
           (all > most ? fmt::format(" and {} more", all - most) : "");
}

std::string not_weighed(const cover::RoleCover& role) {
    std::vector<std::string> ids;
    for (const cover::Candidate& one : role.candidates)
        if (one.only_unweighed && std::find(role.weigh_first.begin(), role.weigh_first.end(),
                                            one.skein->id) == role.weigh_first.end())
            ids.push_back(one.skein->id);
    if (ids.empty()) return {};
    return fmt::format("  Part skeins nobody weighed are not counted: {}. Weigh them first.\n",
                       some_of(std::move(ids)));
}

bool is_fibre_unknown(const cover::Reason& reason) {
    if (std::holds_alternative<cover::ContentUnknownNearHeat>(reason)) return true;
    const auto* const avoided = std::get_if<cover::AvoidedFibre>(&reason);
    return avoided != nullptr && avoided->objection.presence == yarn::Presence::content_unknown;
}

std::string fibres_not_known(const cover::RoleCover& role) {
    std::vector<std::string> ids = fibres_unread(role);
    if (ids.empty()) return {};
    return fmt::format(
        "  Skeins whose fibres are not recorded are not counted: {}. Read their labels first.\n"
        "  Where they name nothing that must be kept out, record their fibres and ask again.\n",
        some_of(std::move(ids)));
}

std::string not_in_stash(const cover::RoleCover& role) {
    const std::string& name = role.role.name;
    if (name.empty() || role.stash.empty()) return {};
    std::vector<std::string> names;
    for (const stash::Skein& skein : role.stash) {
        if (base::same_name(skein.yarn.name, name)) return {};
        if (!skein.yarn.name.empty() &&
            std::find(names.begin(), names.end(), skein.yarn.name) == names.end())
            names.push_back(skein.yarn.name);
    }
    const auto near = base::nearest_name(name, names);
    return fmt::format("  No skein of the stash is called {}.{}\n", shown_inert(name),
                       near            ? " Did you mean " + shown_inert(*near) + "?"
                       : names.empty() ? std::string()
                                       : " It has " + some_of(std::move(names)) + ".");
}

}  // namespace

std::vector<std::string> fibres_unread(const cover::RoleCover& role) {
    std::vector<std::string> ids;
    for (const cover::Candidate& one : cover::every_candidate(role))
        if (is_fibre_unknown(one.reason)) ids.push_back(one.skein->id);
    return ids;
}

std::string left_out_lines(const cover::RoleCover& role) {
    if (role.verdict == cover::Verdict::covered) return {};
    std::string out = not_weighed(role);
    if (role.chosen.empty()) out += fibres_not_known(role) + not_in_stash(role);
    return out;
}

}  // namespace skeinfall::report::detail

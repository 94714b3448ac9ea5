#pragma once
/// \file
/// What was found for roles before. Inner header of cover.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::cover {

/// How sure a choice is, joined as the course permits.
struct Planned {
    measure::Chance chance;
    measure::Chance anywhere;
    bool against_slip = false;
    bool against_rules = false;
    units::Length missing{};  ///< against the slip
};

/// A choice among what fits; skeins by their place there.
struct RoleChoice {
    std::vector<std::uint32_t> chosen;
    std::vector<std::uint32_t> basis;
    bool judged_any = false;
    measure::Chance chance;
    bool covered = false;
    bool proven = true;
    Total cost;
};

/// Of one role: what does not hang on the stash, and what was found, each by a key of all it hangs
/// on.
struct RoleMemory {
    std::optional<std::shared_ptr<const Course>> course;  ///< null where the rows are not known
    std::optional<units::Length> row;   ///< between two places where yarn may be joined
    std::optional<units::Length> kept;  ///< by the slip
    std::unordered_map<std::string, RoleChoice> choices;
    std::unordered_map<std::string, Planned> plans;
};

/// Of the roles of some makes, in their order. Who tries stash after stash for the same makes, as
/// what to buy is, looks at each role anew only where what fits it has changed.
class Memory {
  public:
    [[nodiscard]] const std::shared_ptr<RoleMemory>& of(std::size_t role) {
        while (roles_.size() <= role) roles_.push_back(std::make_shared<RoleMemory>());
        return roles_[role];
    }

  private:
    std::vector<std::shared_ptr<RoleMemory>> roles_;
};

/// As the one of cover.hpp; `memory` is of these makes and no others.
[[nodiscard]] std::vector<MakeCover> cover_makes(const std::vector<Make>& makes, const Shelf& shelf,
                                                 Sharing sharing, Memory& memory);

}  // namespace skeinfall::cover

#pragma once
/// \file
/// Yarn for a class: many makers, tension unknown, each with skeins of one lot.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::materials {

/// What the class needs of one yarn.
struct ClassYarn {
    std::string role;
    std::string name;
    std::string colour;
    yarn::Label put_up;
    units::Length middle{};                   ///< what one maker takes in the middle
    units::Length each{};                     ///< what every maker must have
    std::optional<std::int64_t> skeins_each;  ///< nothing: the put-up is not known
    std::optional<std::int64_t> skeins_all;
    bool one_lot = true;
    bool counted = false;  ///< the total counted whole skeins: hands are in it already
};

/// Every maker has as much as makes it `confidence` that all of them, with all their yarns, come
/// out: their chances multiplied, which errors that all share can only make likelier. `makers` is 1
/// or more; `put_up` is of the skeins to buy where the project does not say or they are others.
/// Throws what need::need_of() throws.
[[nodiscard]] std::vector<ClassYarn> class_of(const project::Project& project, std::size_t size,
                                              std::int64_t makers, measure::Chance confidence,
                                              const yarn::Label& put_up = {});

}  // namespace skeinfall::materials

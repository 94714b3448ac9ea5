#pragma once
/// \file
/// What changes when one fibre content stands in for another.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn {

/// What the piece is for, where that decides about a fibre.
enum class Use { any, kitchen_heat, felted, infant };

/// "any", "kitchen heat", "felted", "infant".
[[nodiscard]] std::string_view name_of(Use use);
/// Nothing for other words.
[[nodiscard]] std::optional<Use> parse_use(std::string_view text);

/// Fibre, elasticity, drape, density, felting, heat, care and skin, in this order; fibres of
/// `avoid` make a stop, and so does an unknown content when something is to be avoided.
[[nodiscard]] std::vector<Finding> compare_fibres(const FibreContent& wanted,
                                                  const FibreContent& candidate, Use use,
                                                  const std::vector<std::string>& avoid);

}  // namespace skeinfall::yarn

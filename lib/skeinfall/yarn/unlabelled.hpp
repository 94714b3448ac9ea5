#pragma once
/// \file
/// A yarn without a label, from whatever can be measured of it.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/yarn/burn_signs.hpp"
#include "skeinfall/yarn/identify.hpp"
#include "skeinfall/yarn/sample.hpp"

namespace skeinfall::yarn {

/// A strand trimmed until it balances `against`.
struct Balance {
    units::Length strand{};
    units::Mass against{};
};

/// At most one of `sample`, `balance` and `known` tells the grist.
struct Clues {
    std::optional<MeasuredSample> sample;
    std::optional<Balance> balance;
    std::optional<units::Grist> known;  ///< from a label or a cone
    std::optional<measure::ScaleReading> have;
    Evidence evidence;              ///< its grist is filled in from the above
    std::vector<std::string> burn;  ///< signs of burn_signs()
};

/// Least and most, where no spread can be trusted.
struct LengthBounds {
    units::Length least{};
    std::optional<units::Length> most;  ///< nothing when the sample may weigh nothing
};

struct Unlabelled {
    std::optional<measure::Estimate<units::Grist>> grist;
    std::optional<TooLight> too_light;  ///< instead of a grist
    std::optional<measure::Estimate<units::Length>> left;
    std::optional<LengthBounds> left_if_guessed;  ///< what the light sample would have given
    Ranking ranking;
    std::vector<FibreGuess> fibres;

    /// False when the sample was refused, or when there is no grist and neither a class nor a
    /// fibre stands out.
    [[nodiscard]] bool answered() const;
};

[[nodiscard]] Unlabelled identify(const Clues& clues);

}  // namespace skeinfall::yarn

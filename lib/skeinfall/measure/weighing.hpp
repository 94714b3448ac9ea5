#pragma once
/// \file
/// A weighing as a person enters it: figures and the texts they were read from.

#include <optional>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::measure {

/// Texts are kept as written; reading() gives the values.
struct Weighing {
    units::Printed<units::Mass> shown;
    units::Printed<units::Mass> scale;                ///< the scale's step
    std::optional<units::Printed<units::Mass>> tare;  ///< cone or bag

    [[nodiscard]] ScaleReading reading() const {
        ScaleReading out{shown.value, scale.value, std::nullopt};
        if (tare) out.tare = tare->value;
        return out;
    }
    bool operator==(const Weighing&) const = default;
};

}  // namespace skeinfall::measure

#pragma once
/// \file
/// How far skeins lie from their labels, by those that makers weighed and published
/// (lib/data/label_weighings.csv): from 9 % below to 19 % above. The packaged-goods rule knows no
/// such skeins, so a share of all is taken to be like them: a tail heavier than the rule's.

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

/// The share of skeins that lie as far off as the published ones. A judgement: those were weighed
/// because somebody wondered, and more than one in forty beyond the tolerable error is unlawful in
/// the EU (S111, S128).
inline constexpr units::Ratio off_label_share = units::Ratio::from_value(0.1);

/// How far the published weighings lie from their labels: root mean square, relative.
[[nodiscard]] units::Ratio published_off_label();

/// Standard uncertainty of a skein's mass about its label's, relative, where nobody weighed it:
/// label_mass_spread() for most, published_off_label() for `off_label_share` of them.
[[nodiscard]] units::Ratio unweighed_spread(units::Mass nominal);

}  // namespace skeinfall::yarn

#pragma once
/// \file
/// A put-up as a band prints it: length and mass in any order, in one unit or two, with the small
/// words of four languages around them (lib/data/label_words.csv).

#include <optional>
#include <string_view>

#include "skeinfall/base/result.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {

struct PrintedPutUp {
    Label label;  ///< texts as printed; of two lengths or masses the first ...
    /// ... but the smaller where they are farther apart than printing rounds (0.5 %, of a mass 1
    /// %).
    std::optional<units::Ratio> lengths_apart;
    std::optional<units::Ratio> masses_apart;
    bool grams_meant = false;  ///< a mass without a unit was taken for grams
};

/// Two figures for one thing that are more than this apart contradict each other.
inline constexpr units::Ratio printings_contradict = units::Ratio::from_value(0.03);

/// "3.5 oz/100 g, 170 yd/156 m", "50g e 85m / 93yd", "170yd 100g", "LL 85 m / 50 g". A bare figure
/// beside a length is grams when it is one that a skein can weigh. A word that is not known, a
/// third figure of a kind, and figures that contradict each other are refused.
[[nodiscard]] base::Result<PrintedPutUp> parse_put_up(std::string_view text);

/// The same where length or mass may be missing: "170 yds (155 m)", "approx. 100 g".
[[nodiscard]] base::Result<PrintedPutUp> parse_printed_amount(std::string_view text);

}  // namespace skeinfall::yarn

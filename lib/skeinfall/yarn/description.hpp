#pragma once
/// \file
/// A yarn in one line of text, as a label or a pattern names it.
///
/// "200 m / 100 g, 100% wool, class 4": parts between commas, in any order: the put-up or a bare
/// grist, shares of fibres, "class 4", "3 ply", a gauge ("22 sts / 10 cm"), the ball when it is
/// not the put-up ("50 g balls"), a word for the colours or the texture, "repeat 4 m" of a colour
/// change. A comma between two digits belongs to a number ("3,5 oz"). A put-up may print both
/// lengths: "200 yd (182 m) / 100 g".

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

struct Description {
    std::string text;                            ///< as given
    std::optional<units::Grist> grist;           ///< by the put-up
    std::optional<units::Length> put_up_length;  ///< as printed first
    std::optional<units::Length> other_length;   ///< the same length printed in another unit
    std::optional<units::Mass> put_up_mass;
    std::optional<units::Mass> ball;  ///< when balls are not the put-up
    FibreContent content;
    std::optional<WeightClass> weight;
    std::optional<int> plies;
    std::optional<units::StitchGauge> gauge;
    std::string colours;  ///< one of colour_words(); empty when not told
    std::string texture;  ///< one of texture_words(); empty when not told
    std::optional<units::Length> colour_repeat;

    /// Length of one ball: of the named ball by the grist, else of the put-up.
    [[nodiscard]] std::optional<units::Length> ball_length() const;
    /// Mass of one ball.
    [[nodiscard]] std::optional<units::Mass> ball_mass() const;
    /// Colours change along the yarn.
    [[nodiscard]] bool changes_colour() const;
};

/// "solid", "tonal", "heathered", "marled", "speckled", "variegated", "self-striping", "gradient".
[[nodiscard]] const std::vector<std::string>& colour_words();

/// "smooth", "cabled", "chainette", "single", "tweed", "slub", "brushed", "boucle", "chenille",
/// "tape".
[[nodiscard]] const std::vector<std::string>& texture_words();

/// A class number above those the tables know is kept, for the Council has announced one.
[[nodiscard]] base::Result<Description> parse_description(std::string_view text);

}  // namespace skeinfall::yarn

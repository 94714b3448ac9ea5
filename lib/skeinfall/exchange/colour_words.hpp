#pragma once
/// \file
/// What a person writes of colours in one line: stripes, the runs of a colour-changing yarn, and
/// which colour some other answer is about.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"

namespace skeinfall::exchange {

struct WrittenStripe {
    std::string colour;
    std::int64_t rows = 0;
};
/// "rust 6, sand 4, moss 2", "6 rows of rust; 4 rows sand".
[[nodiscard]] base::Result<std::vector<WrittenStripe>> parse_stripes(std::string_view text);

struct WrittenRun {
    std::string colour;
    std::string length;  ///< "3.9 yd"
};
/// "sea green 3.9 yd, sand 2.5 yd": one repeat, in the order in which it leaves the ball.
[[nodiscard]] base::Result<std::vector<WrittenRun>> parse_colour_runs(std::string_view text);

/// A yarn of a make in several colours: "MC" with the colour "rust". Who wrote "MC" or "CC1"
/// instead of a colour gets that yarn, and no colour.
struct ColourRole {
    std::string id;
    std::string colour;
};
/// Each colour once, in the order of the stripes.
[[nodiscard]] std::vector<ColourRole> colour_roles(const std::vector<WrittenStripe>& stripes);
/// The yarn of one stripe.
[[nodiscard]] std::string role_of(const std::vector<ColourRole>& roles, std::string_view colour);

/// "rust: 3 skeins of 170 yd" is about rust, "CC1: 90 m" about CC1; without a colon before the
/// first figure it is about any colour.
struct OfColour {
    std::string colour;  ///< empty: any
    std::string text;
};
[[nodiscard]] OfColour of_colour(std::string_view text);

}  // namespace skeinfall::exchange

#pragma once
/// \file
/// How a stitch is made, told loop by loop: "yo, insert hook in st, yo and pull up a loop, ...".
/// Inner part of the notation.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace skeinfall::notation {

/// So many plain stitches (US name), closed together where there are several.
struct HowMade {
    std::string_view kind;
    std::int64_t legs = 1;
    std::int64_t places = 1;  ///< stitches of the row below it goes into
};

/// Whether a text tells how a hook goes rather than which stitches are worked.
[[nodiscard]] bool tells_how(std::string_view low);

/// Nothing where the loops are not followed. `low` is in small letters.
[[nodiscard]] std::optional<HowMade> how_made(std::string_view low);

}  // namespace skeinfall::notation

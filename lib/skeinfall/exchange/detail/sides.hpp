#pragma once
/// \file
/// The sides of a piece or a swatch as people say them: "33 hdc x 96 rows", "9 1/2 x 70 in", "60 in
/// around and 12 in tall", "12 in square".

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange::detail {

/// A regular expression goes as deep as its text is long.
inline constexpr std::size_t longest_answer = 200;

/// "... is not understood as KIND".
[[nodiscard]] base::Problem no_such(std::string_view text, const std::string& kind,
                                    std::string expected, std::string remedy = {});

/// A whole number above zero.
[[nodiscard]] std::optional<std::int64_t> whole(const std::string& text);

[[nodiscard]] bool says_stitches(const std::string& word);
[[nodiscard]] bool says_rows(const std::string& word);
[[nodiscard]] bool says_rounds(const std::string& word);

/// Which way a side lies, where that is said.
enum class Way { unsaid, across, round, up };

/// A count with a word, or a length; "9 to 12 in" ends at another.
struct Side {
    std::optional<std::int64_t> count;
    std::string word;
    std::string length;
    std::optional<std::int64_t> last_count = std::nullopt;
    std::string last_length = {};
    Way way = Way::unsaid;

    [[nodiscard]] bool rows() const { return count && says_rows(word); }
    [[nodiscard]] bool stitches() const { return count && !rows(); }
};

/// One side; nothing where the text is none.
[[nodiscard]] std::optional<Side> side_of(const std::string& given);

/// Both sides, the one across first where the words say which it is: "15 x 15 cm" (the first takes
/// the unit of the second where it has none), "15 cm square", "10 rows of 20 sts".
[[nodiscard]] std::optional<std::pair<Side, Side>> two_sides(const std::string& text);

}  // namespace skeinfall::exchange::detail

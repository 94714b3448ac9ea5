#pragma once
/// \file
/// The words of notation that name no stitch, by what they are for: lib/data/notation_words.csv.
/// Inner part of the notation.

#include <cstdint>
#include <initializer_list>
#include <string_view>

namespace skeinfall::notation {

enum class Role : std::uint8_t {
    filler,     ///< stands between instructions and adds nothing: "then", "the"
    manner,     ///< how a stitch is made, which its yarn does not show: "purlwise"
    finishing,  ///< begins what is done when the work is over: "fasten", "weave"
    remark,     ///< begins a remark on the work: "being", "careful"
    work,       ///< work of its own: never passed over within a remark
    group,      ///< names several stitches in one place: "shell", "fan"
    prose,      ///< tells that a sentence describes and works nothing: "should", "you"
    joining,    ///< belongs to closing a round: "join with sl st to top of beg ch"
    tool,       ///< needles and hooks, and what is said of them: "circular", "size"
    article,    ///< a piece of a make, or a side of one: "hood", "seam", "edge"
    assembly,   ///< begins what is done with finished pieces: "fold", "hold", "rejoin"
};

/// What stitches, chains, spaces and rows are called in places.
inline const std::initializer_list<std::string_view> stitch_words{"st", "sts", "stitch",
                                                                  "stitches"};
inline const std::initializer_list<std::string_view> chain_words{"ch", "chs", "chain", "chains"};
inline const std::initializer_list<std::string_view> space_words{
    "sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops", "arch", "arches"};
inline const std::initializer_list<std::string_view> row_nouns{"row", "rnd", "round", "rows",
                                                               "rnds"};

[[nodiscard]] bool has_role(std::string_view word, Role role);

}  // namespace skeinfall::notation

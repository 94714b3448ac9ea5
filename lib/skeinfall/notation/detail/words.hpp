#pragma once
/// \file
/// The words of notation that name no stitch, by what they are for: lib/data/notation_words.csv.
/// Inner part of the notation.

#include <cstdint>
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
};

[[nodiscard]] bool has_role(std::string_view word, Role role);

}  // namespace skeinfall::notation

#pragma once
/// \file
/// Words that name the yarn of rows: "With CC1, ...", "Change to CC1". Inner part of the notation.

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/notation/detail/tokens.hpp"
#include "skeinfall/notation/detail/tree.hpp"
#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

struct YarnPhrase {
    std::size_t at = 0;
    std::size_t yarn = 0;   ///< index into NotationOptions::yarns
    bool change = false;    ///< "change to": behind the stitches it is for the next row
    bool enclosed = false;  ///< in a bracket with other things
    bool behind = false;    ///< "k4 in MC": of the stitches before it
};

/// Takes the phrases out of the tokens of a line (`within`: leaves a token of its yarn for each),
/// of which `written` is the text before its letters were made small. A yarn that is not there is a
/// fault.
[[nodiscard]] std::vector<YarnPhrase> take_yarns(std::vector<Token>& tokens,
                                                 std::string_view written,
                                                 const std::vector<YarnNames>& yarns,
                                                 StitchBook& book, std::optional<Fault>& fault,
                                                 bool within = false, bool sure = true);

/// The yarn from a row on, and from the row behind it on.
struct YarnsOfRow {
    std::optional<std::size_t> starts;
    std::optional<std::size_t> ends;
    bool within = false;  ///< it changes between the stitches
};

/// A change between the stitches is a fault, unless it is to the yarn `current` of the row.
[[nodiscard]] YarnsOfRow yarns_of_row(const std::vector<YarnPhrase>& phrases,
                                      const std::vector<Item>& items, std::size_t current,
                                      std::optional<Fault>& fault);

/// The same of a row in several yarns, whose yarns are among its items.
[[nodiscard]] YarnsOfRow yarns_within(const std::vector<Item>& items);

/// Whether stitches are worked in it: it does not only prepare, join or turn.
[[nodiscard]] bool works(const Item& item);

}  // namespace skeinfall::notation

#pragma once
/// \file
/// What comes on top of a make: of which of its yarns, and of one copy or of all.

#include <string>
#include <vector>

#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

struct ExtraAnswer {
    WrittenExtra extra;   ///< its yarn or its rounds those of the whole make
    std::string assumed;  ///< how it was read, where that is not plain
};

/// `roles` are the yarns of the make. Throws base::InputError, its place the question "plus".
[[nodiscard]] ExtraAnswer extra_of(const std::string& said, const std::vector<WrittenPiece>& pieces,
                                   const std::vector<ColourRole>& roles);

}  // namespace skeinfall::exchange::detail

#pragma once
/// \file
/// A project file with parts added to it and all else left as it stands.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange {

/// A piece like another, in a yarn of its own.
struct PieceCopy {
    std::string name;
    std::string role;
    std::int64_t count = 1;
};

/// The text with `copies`, at least one, in the place of one piece. Throws base::InputError when it
/// is not TOML, has no such piece, or the piece is written in one line or with tables of its own.
[[nodiscard]] std::string with_copies(std::string_view text, const std::string& file,
                                      std::size_t piece, const std::vector<PieceCopy>& copies);

/// The text with the colours of a yarn in the same order but begun with this one, so that its
/// repeat begins there. Throws base::InputError when it is not TOML, or the colours stand in tables
/// of their own or have none of that name.
[[nodiscard]] std::string with_colours_from(std::string_view text, const std::string& file,
                                            const std::string& role, const std::string& colour);

/// The text with the colour that every piece of a yarn is to begin with, and what at most is wound
/// off before the first of them. Throws base::InputError when it is not TOML or the yarn has no
/// colours.
[[nodiscard]] std::string with_pieces_begun(std::string_view text, const std::string& file,
                                            const std::string& role, const std::string& colour,
                                            units::Length first);

}  // namespace skeinfall::exchange

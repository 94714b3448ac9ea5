#pragma once
/// \file
/// What the sources of fit_piece() share. Inner header of fit.

#include <cstddef>
#include <cstdint>
#include <string>

#include "skeinfall/fit/fit.hpp"

namespace skeinfall::fit {

inline constexpr std::int64_t most_count = 1'000'000;

[[noreturn]] void refuse_piece(const project::Project& project, std::size_t piece, const char* key,
                               std::string what, std::string expected, std::string remedy);

[[noreturn]] void refuse_wish(bool across, std::string what, std::string expected,
                              std::string remedy);

/// The counts of a dimension on both sides of the wish, and the one that is taken.
void choose(Along& along, units::Ratio wish, Take take);

/// A piece from corner to corner, by its blocks.
void fit_blocks(Fitted& out, const Wish& wish, Take take);

}  // namespace skeinfall::fit

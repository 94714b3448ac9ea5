#pragma once
/// \file
/// Figures of a table that may differ by size.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Whole numbers from `least` up to exchange::largest_count; `sizes` is how many entries a list
/// must have. Nothing is stated when one of them is wrong.
[[nodiscard]] project::PerSize<std::int64_t> read_wholes(TomlTable& in, std::string_view key,
                                                         std::optional<std::size_t> sizes,
                                                         std::int64_t least = 1);

/// The same for lengths.
[[nodiscard]] project::PerSize<units::Length> read_lengths(TomlTable& in, std::string_view key,
                                                           std::optional<std::size_t> sizes);

}  // namespace skeinfall::exchange

#pragma once
/// \file
/// Internal to exchange: gauges in project files, and how fine they may be.

#include <optional>
#include <string_view>

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange {

/// Nothing, and a problem, for what is none or is finer than 1000 per 10 cm: nobody works so by
/// hand (a judgement), and what a piece takes to reckon grows with it.
[[nodiscard]] std::optional<units::StitchGauge> stitch_gauge_in(TomlTable& in,
                                                                std::string_view key);
[[nodiscard]] std::optional<units::RowGauge> row_gauge_in(TomlTable& in, std::string_view key);

}  // namespace skeinfall::exchange

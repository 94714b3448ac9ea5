#pragma once
/// \file
/// Options whose value is a share.

#include <string>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::cli {

/// A share such as "10 %"; `expected` says which are taken here, and `example` is one of them. A
/// figure without its sign is only proposed with one where it lies from `least` to `most`.
[[nodiscard]] units::Ratio share_option(const std::string& option, const std::string& text,
                                        const std::string& expected, const std::string& example,
                                        units::Ratio least = 0.0, units::Ratio most = 1.0);

}  // namespace skeinfall::cli

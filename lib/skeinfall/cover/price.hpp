#pragma once
/// \file
/// What a skein costs. Sums are exact, and amounts in different currencies are never added.

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "skeinfall/base/result.hpp"

namespace skeinfall::cover {

struct Price {
    std::int64_t hundredths = 0;
    std::string currency;  ///< as written: "EUR"
    bool operator==(const Price&) const = default;
};

/// "4.50 EUR", "5 EUR": at most two decimals and a currency.
[[nodiscard]] base::Result<Price> parse_price(std::string_view text);

/// "4.50 EUR".
[[nodiscard]] std::string text(const Price& price);

/// Of one skein, by the yarn's name.
using Prices = std::map<std::string, Price>;

}  // namespace skeinfall::cover

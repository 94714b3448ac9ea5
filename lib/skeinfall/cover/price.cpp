#include "skeinfall/cover/price.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::cover {

base::Result<Price> parse_price(std::string_view text) {
    constexpr std::int64_t highest = 1'000'000;
    const auto refused = [&] {
        return base::Problem{base::quoted(text) + " is not a price",
                             {},
                             "an amount and a currency",
                             "Write it like \"4.50 EUR\"."};
    };
    // "3,50 EUR"; three figures behind a comma are refused as cents below.
    std::string all(base::trimmed(text));
    if (const std::size_t comma = all.find(',');
        comma != std::string::npos && all.find('.') == std::string::npos)
        all[comma] = '.';
    const std::size_t end = all.find_first_not_of("0123456789.");
    if (end == 0 || end == std::string_view::npos) return refused();
    const std::string number = all.substr(0, end);
    Price price;
    price.currency = std::string(base::trimmed(all.substr(end)));
    if (price.currency.find_first_of("0123456789.,") != std::string::npos) return refused();
    const std::size_t point = std::min(number.find('.'), number.size());
    const std::string whole = number.substr(0, point);
    const std::string cents = number.substr(std::min(point + 1, number.size()));
    const auto read = [](std::string_view digits, std::int64_t& value) {
        const auto found = base::number_of<std::int64_t>(digits);
        value = found.value_or(0);
        return found.has_value();
    };
    std::int64_t hundredths = 0;
    if (!read(whole, price.hundredths) || price.hundredths > highest) return refused();
    if (point < number.size()) {
        if (cents.empty() || cents.size() > 2 || !read(cents, hundredths)) return refused();
        if (cents.size() == 1) hundredths *= 10;
    }
    price.hundredths = price.hundredths * 100 + hundredths;
    return price;
}

std::string text(const Price& price) {
    return fmt::format("{}.{:02} {}", price.hundredths / 100, price.hundredths % 100,
                       price.currency);
}

}  // namespace skeinfall::cover

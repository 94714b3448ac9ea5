#include "skeinfall/exchange/detail/amount_like.hpp"

#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange::detail {

std::string unit_of(std::string_view amount) {
    std::size_t at = amount.size();
    while (at > 0 && !(amount[at - 1] >= '0' && amount[at - 1] <= '9')) --at;
    return std::string(base::trimmed(amount.substr(at)));
}

namespace {

/// An amount in the unit of another, rounded down.
template <class Q>
units::Printed<Q> in_unit_of(const units::Printed<Q>& like, Q value,
                             base::Result<Q> (*parse)(std::string_view), const char* otherwise) {
    std::string unit = unit_of(like.text);
    auto one = parse("1 " + unit);
    if (!one) {
        unit = otherwise;
        one = parse("1 " + unit);
    }
    constexpr double steps = 100.0;
    const double figure = std::floor(value / *one * steps + 1e-6) / steps;
    const std::string text = figure > 0.0 ? fmt::format("{:.8g} {}", figure, unit)
                                          : fmt::format("{:.3g} {}", value / *one, unit);
    return {text, *parse(text)};
}

}  // namespace

units::Printed<units::Length> length_like(const units::Printed<units::Length>& like,
                                          units::Length value) {
    return in_unit_of(like, value, units::parse_length, "m");
}

units::Printed<units::Mass> mass_like(const units::Printed<units::Mass>& like, units::Mass value) {
    return in_unit_of(like, value, units::parse_mass, "g");
}

}  // namespace skeinfall::exchange::detail

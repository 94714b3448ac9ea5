#pragma once
/// \file
/// Figures in text: the one place where digits become a number, whatever the locale.

#include <charconv>
#include <optional>
#include <string_view>
#include <system_error>

namespace skeinfall::base {

template <class Number>
struct NumberAndRest {
    Number value{};
    std::string_view rest;  ///< the text behind it
};

/// The number that a text begins with; nothing when it begins with none, or with one that `Number`
/// cannot hold.
template <class Number>
[[nodiscard]] std::optional<NumberAndRest<Number>> number_first(std::string_view text) {
    NumberAndRest<Number> out;
    const char* const last = text.data() + text.size();
    const auto [end, error] = std::from_chars(text.data(), last, out.value);
    if (error != std::errc()) return std::nullopt;
    out.rest = std::string_view(end, static_cast<std::size_t>(last - end));
    return out;
}

/// The number that a text is; nothing when it is anything else.
template <class Number>
[[nodiscard]] std::optional<Number> number_of(std::string_view text) {
    const auto found = number_first<Number>(text);
    if (!found || !found->rest.empty()) return std::nullopt;
    return found->value;
}

/// The number that a text begins with; 0 when it begins with none.
template <class Number>
[[nodiscard]] Number leading_number(std::string_view text) {
    const auto found = number_first<Number>(text);
    return found ? found->value : Number{};
}

}  // namespace skeinfall::base

#pragma once
/// \file
/// Kinds of ASCII letters, the same in every language that the machine may be set to.

namespace skeinfall::base {

[[nodiscard]] constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

[[nodiscard]] constexpr bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// The small letter of a capital; any other byte as it is.
[[nodiscard]] constexpr char lower_letter(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace skeinfall::base
